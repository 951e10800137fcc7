/* Hidden wood of the simulation at its limits: 20 % by mass, panels 18 %, the
 * line of embedded timber and three months to dry ask for an inspection [DIN
 * 68800-2, WTA 6-8, from memory]; a decay dose of 325 d in fifty years fails
 * [Isaksson et al. 2013, from memory, high]. */

#include <math.h>
#include <stdlib.h>

#include "judged_simulation.h"
#include "suite.h"

static void make_stud(void)
{
    simulated_wood(&sim, &c, CASE_LINING, BW_SOLID_WOOD);
}

/* ---- the dose ------------------------------------------------------------ */

START_TEST(a_decay_dose_of_325_days_in_fifty_years_fails)
{
    static const struct {
        double dose;
        bw_verdict verdict;
    } cases[] = {{0.0, BW_HOLDS},      {292.0, BW_HOLDS},
                 {293.0, BW_MARGINAL}, /* within 10 % */
                 {324.9, BW_MARGINAL}, {325.0, BW_FAILS},
                 {9000.0, BW_FAILS}};
    make_stud();
    for (size_t i = 0; i < COUNT(cases); i++) {
        sim.wood[CASE_LINING] = (bw_wood_damage){
            .service_dose = cases[i].dose, .first_dose = 7.5, .dose = 6.1};
        ck_assert_int_eq(overall(), cases[i].verdict);
        const bw_criterion *row = case_row(&c, BW_C_DECAY);
        ck_assert_int_eq(row->outcome, cases[i].verdict);
        if (cases[i].dose > 0.0)
            NAMES(row->reason, "plasterboard", "Jan", "7.5 d", "6.1 d");
        else
            has(row->reason, "25 %"); /* where the dose begins */
    }
}
END_TEST

START_TEST(the_wood_with_the_highest_dose_is_named)
{
    make_stud();
    simulated_wood(&sim, &c, CASE_INSULATION, BW_WOOD_PANEL);
    sim.wood[CASE_INSULATION].service_dose = 10.0;
    sim.wood[CASE_LINING].service_dose = 20.0;
    has(judged(BW_C_DECAY)->reason, "plasterboard");
    sim.wood[CASE_INSULATION].service_dose = 30.0;
    has(judged(BW_C_DECAY)->reason, "mineral wool");
}
END_TEST

START_TEST(a_dose_that_is_no_number_is_not_assessed)
{
    make_stud();
    sim.wood[CASE_LINING].service_dose = (double)NAN;
    ck_assert_int_eq(judged(BW_C_DECAY)->outcome, BW_NOT_ASSESSED);
    ck_assert_int_eq(overall(), BW_NOT_ASSESSED);
}
END_TEST

/* ---- what asks for an inspection ------------------------------------------
 */

/* Field walls with such peaks have been opened and found sound. */
START_TEST(a_week_at_21_percent_is_inspected_and_does_not_fail)
{
    make_stud();
    bw_slab_moisture *wood = &sim.slab[CASE_LINING];
    wood->highest_wood_moisture = 0.21;
    wood->hours_above_limit = 168;
    ck_assert_int_eq(overall(), BW_MARGINAL);
    NAMES(bw_verdict_row(&c.rows)->row.reason, "21.0 %", "plasterboard",
          "168 h");
    wood->highest_wood_moisture = 0.199;
    ck_assert_int_eq(overall(), BW_HOLDS);
}
END_TEST

START_TEST(one_day_above_the_line_of_embedded_timber_is_inspected)
{
    make_stud();
    ck_assert_int_eq(judged(BW_C_TIMBER_LINE)->outcome, BW_HOLDS);
    sim.wood[CASE_LINING].line = (bw_timber_line_result){
        .days_above = 1, .overshoot = 0.012, .longest_run = 1};
    ck_assert_int_eq(judged(BW_C_TIMBER_LINE)->outcome, BW_MARGINAL);
    NAMES(case_row(&c, BW_C_TIMBER_LINE)->reason, "1 d", "plasterboard", "Jan",
          "1.2 % RH");
    sim.wood[CASE_LINING].line.days_above = 365;
    ck_assert_int_eq(overall(), BW_MARGINAL);
}
END_TEST

/* 22 % is no food for fungi (25 % and more are), 30 % is; both are seen. */
START_TEST(wood_built_in_wet_is_seen_in_the_first_year)
{
    static const struct {
        double first, weeks;
        bw_verdict verdict;
        double value; /* weeks; none: no row */
        const char *most;
    } cases[] = {
        {0.19, 0.0, BW_HOLDS, 0.0, NULL},
        {0.22, 1.0, BW_HOLDS, 1.0, "22.0 %"},
        {0.22, 13.0, BW_HOLDS, 13.0, "22.0 %"},
        {0.22, 13.5, BW_MARGINAL, 13.5, "22.0 %"},
        {0.30, 40.0, BW_MARGINAL, 40.0, "30.0 %"},
        {0.30, -1.0, BW_MARGINAL, 208.0, "30.0 %"},
    };
    make_stud();
    for (size_t i = 0; i < COUNT(cases); i++) {
        sim.slab[CASE_LINING].first_highest_wood_moisture = cases[i].first;
        sim.slab[CASE_LINING].weeks_to_limit = cases[i].weeks;
        const bw_criterion *row = judged(BW_C_FIRST_YEAR);
        ck_assert_int_eq(row != NULL, cases[i].most != NULL);
        if (row != NULL) {
            ck_assert_int_eq(row->outcome, cases[i].verdict);
            ck_assert_double_eq(row->value, cases[i].value);
            has(row->reason, cases[i].most);
        }
        ck_assert_int_eq(overall(), cases[i].verdict);
    }
}
END_TEST

/* ---- which wood ------------------------------------------------------------
 */

/* Of a wall without a cavity: the weather has the outermost wood. A log and a
 * board bear it; a panel without a coat is inspected. */
START_TEST(a_weathered_face_is_no_hidden_wood_but_a_bare_panel_is_inspected)
{
    static const struct {
        size_t slab;
        bw_wood_kind kind;
        bw_verdict verdict;
    } cases[] = {
        {CASE_SHEATHING, BW_SOLID_WOOD, BW_HOLDS},
        {CASE_SHEATHING, BW_WOOD_PANEL, BW_MARGINAL},
        {CASE_SHEATHING, BW_WOOD_WOOL_BOARD, BW_HOLDS},
        {CASE_INSULATION, BW_SOLID_WOOD, BW_FAILS},
        {CASE_INSULATION, BW_WOOD_PANEL, BW_FAILS},
        {CASE_INSULATION, BW_WOOD_WOOL_BOARD, BW_HOLDS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const size_t k = cases[i].slab;
        c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
        c.material[CASE_INSULATION].wood_kind = BW_NOT_WOOD;
        simulated_make(&sim, &c);
        simulated_wood(&sim, &c, k, cases[i].kind);
        sim.slab[k].highest_wood_moisture = 0.40;
        sim.wood[k].service_dose = 9000.0;
        sim.wood[k].line.days_above = 300;
        ck_assert_int_eq(overall(), cases[i].verdict);
        ck_assert_int_eq(case_row(&c, BW_C_DECAY) != NULL,
                         cases[i].verdict == BW_FAILS);
    }
}
END_TEST

/* Behind a coat, or with the render on it, the same panel is hidden. */
START_TEST(a_panel_behind_a_coat_is_hidden)
{
    c.slab[CASE_SHEATHING].kind = BW_LAYER_MEMBRANE;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    simulated_make(&sim, &c);
    simulated_wood(&sim, &c, CASE_INSULATION, BW_WOOD_PANEL);
    sim.wood[CASE_INSULATION].service_dose = 400.0;
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

START_TEST(a_board_outside_the_weather_line_is_not_judged)
{
    c.slab[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    for (int well = 0; well < 2; well++) {
        c.layer[CASE_INSULATION].ventilation = well == 1 ? BW_VENT_WELL
                                                         : BW_VENT_SLIGHT;
        sim.slab[CASE_SHEATHING].highest_wood_moisture = 0.40;
        sim.wood[CASE_SHEATHING].line.days_above = 300;
        simulated_judge(&sim, &c);
        ck_assert_int_eq(case_row(&c, BW_C_PANEL_MOISTURE) == NULL, well == 1);
        ck_assert_int_eq(case_row(&c, BW_C_TIMBER_LINE) == NULL, well == 1);
    }
}
END_TEST

START_TEST(the_sheathing_right_behind_the_cavity_is_judged)
{
    c.slab[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].ventilation = BW_VENT_WELL;
    simulated_wood(&sim, &c, CASE_FOIL, BW_WOOD_PANEL);
    sim.wood[CASE_FOIL].service_dose = 400.0;
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

START_TEST(a_wall_without_wood_has_no_rows_of_wood)
{
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    simulated_make(&sim, &c);
    simulated_judge(&sim, &c);
    for (int id = BW_C_WOOD_MOISTURE; id <= BW_C_FIRST_YEAR; id++)
        ck_assert_ptr_null(case_row(&c, (bw_criterion_id)id));
}
END_TEST

SUITE_AROUND(
    "judge_wood", setup, teardown,
    FACT(a_decay_dose_of_325_days_in_fifty_years_fails),
    FACT(the_wood_with_the_highest_dose_is_named),
    FACT(a_dose_that_is_no_number_is_not_assessed),
    FACT(a_week_at_21_percent_is_inspected_and_does_not_fail),
    FACT(one_day_above_the_line_of_embedded_timber_is_inspected),
    FACT(wood_built_in_wet_is_seen_in_the_first_year),
    FACT(a_weathered_face_is_no_hidden_wood_but_a_bare_panel_is_inspected),
    FACT(a_panel_behind_a_coat_is_hidden),
    FACT(a_board_outside_the_weather_line_is_not_judged),
    FACT(the_sheathing_right_behind_the_cavity_is_judged),
    FACT(a_wall_without_wood_has_no_rows_of_wood))
