/* Air that leaks and is not computed, or not for such a room. */

#include "beyond.h"
#include "judged_simulation.h"
#include "suite.h"

/* Dew points by hand: 2808 Pa at 23 degC, 2487 at 21 (ISO 13788, annex E, from
 * memory); a room clearly colder draws water in with the air that leaks. */
START_TEST(outdoor_air_that_leaks_into_a_cooled_room_is_not_assessed)
{
    static const struct {
        double p_e, theta_i, q50; /* below 0: not stated */
        bool soil, brick, row;
    } rows[] = {{2808.0, 20.0, 3.0, .row = true},
                {2808.0, 21.9, 3.0, .row = true},
                {2808.0, 22.1, 3.0, .row = false},
                {2487.0, 20.5, 3.0, .row = false},
                {2808.0, 20.0, 0.0, .row = false},
                {2808.0, 20.0, -1.0, .row = true},
                {2808.0, 22.1, -1.0, .row = false},
                {2808.0, 20.0, -1.0, .soil = true, .row = false},
                {2808.0, 20.0, -1.0, .brick = true, .row = false},
                {2808.0, 20.0, 3.0, .brick = true, .row = true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        simulated_make(&sim, &c);
        c.rows.count = 0;
        c.assembly.air_leakage.given = rows[i].q50 >= 0.0;
        c.assembly.beyond.kind = rows[i].soil ? &bw_beyond_ground : NULL;
        for (size_t k = 0; k < CASE_LAYERS && rows[i].brick; k++) {
            c.material[k].wood_kind = BW_NOT_WOOD;
            c.material[k].mould_class = BW_MOULD_RESISTANT;
        }
        c.assembly.air_leakage.q50 = rows[i].q50 / 3600.0;
        for (int m = 0; m < BW_MONTHS; m++)
            sim.part.boundary[m] = (bw_boundary){.theta_e = 28.0,
                                                 .p_e = m == 7 ? rows[i].p_e
                                                               : 1000.0,
                                                 .theta_i = rows[i].theta_i};
        bw_judge_outdoor_air(&c.rows, &c.assembly, &sim.part);
        const bw_criterion *row = case_row(&c, BW_C_OUTDOOR_AIR);
        ck_assert_int_eq(row != NULL, rows[i].row);
        if (row != NULL)
            ck_assert_int_eq(row->outcome, BW_NOT_ASSESSED);
    }
}
END_TEST

/* A room at p_i in January, -4 degC and 370 Pa outside (85 % of 437 Pa over
 * ice); all other months drier. */
static const bw_criterion *in_room(double p_i, double q50, bool tested)
{
    c.rows.count = 0;
    c.assembly.air_leakage = (bw_air_leakage){.given = q50 >= 0.0,
                                              .q50 = q50 / 3600.0,
                                              .connected_height = 5.0,
                                              .tested = tested};
    for (int m = 0; m < BW_MONTHS; m++)
        sim.part.boundary[m] = (bw_boundary){.theta_e = m == 0 ? -4.0 : 10.0,
                                             .p_e = m == 0 ? 370.0 : 900.0,
                                             .theta_i = 30.0,
                                             .p_i = p_i};
    bw_judge_humid_room(&c.rows, &c.assembly, &sim.part);
    return case_row(&c, BW_C_HUMID_ROOM);
}

/* Class 4 ends at 1080 Pa, with its margin of a tenth at 1188 Pa [ISO 13788,
 * from memory, high]. A swimming hall of 30 degC and 60 %: 0.6 * 4242 Pa = 2545
 * Pa, 2175 Pa above January. */
START_TEST(a_room_beyond_class_4_asks_for_a_test_of_air_tightness)
{
    static const struct {
        double p_i, q50; /* below 0: none given */
        bool tested, row;
        bw_verdict verdict;
    } rows[] = {
        {2545.0, -1.0, false, true, BW_NOT_ASSESSED},
        {2545.0, 5.0, false, true, BW_MARGINAL},
        {2545.0, 5.0, true, true, BW_MARGINAL},
        {2545.0, 1.01, true, true, BW_MARGINAL},
        {2545.0, 1.0, false, true, BW_MARGINAL},
        {2545.0, 1.0, true, false, BW_HOLDS},
        {1559.0, -1.0, false, true, BW_NOT_ASSESSED},
        {1557.0, -1.0, false, false, BW_HOLDS},
        {1557.0, 5.0, false, false, BW_HOLDS},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        const bw_criterion *row = in_room(rows[i].p_i, rows[i].q50,
                                          rows[i].tested);
        ck_assert_int_eq(row != NULL, rows[i].row);
        if (row == NULL)
            continue;
        ck_assert(row->decides);
        ck_assert_int_eq(row->outcome, rows[i].verdict);
        if (row->has_value)
            ck_assert_double_eq(row->value, rows[i].p_i - 370.0);
        NAMES(row->reason, "Pa", "Jan");
    }
}
END_TEST

/* Concrete and foam have nothing that leaking air would rot. */
START_TEST(where_nothing_perishes_a_humid_room_asks_for_none)
{
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c.material[i].wood_kind = BW_NOT_WOOD;
        c.material[i].mould_class = BW_MOULD_RESISTANT;
    }
    ck_assert_ptr_null(in_room(2545.0, -1.0, false));
    ck_assert_ptr_null(in_room(2545.0, 5.0, false));
    c.layer[CASE_INSULATION].framing = (bw_framing){.present = true,
                                                    .material = &c.stud};
    ck_assert_ptr_nonnull(in_room(2545.0, 5.0, false));
}
END_TEST

SUITE_AROUND("judge_air", setup, teardown,
             FACT(outdoor_air_that_leaks_into_a_cooled_room_is_not_assessed),
             FACT(a_room_beyond_class_4_asks_for_a_test_of_air_tightness),
             FACT(where_nothing_perishes_a_humid_room_asks_for_none))
