/* The wetting test at its limit: dry within twelve months [common practice, no
 * source], the place and the water, or the place alone beside framing. */

#include <math.h>
#include <stdlib.h>

#include "judged_simulation.h"
#include "suite.h"

static bw_wetting_result dries(double months, double place_months)
{
    return (bw_wetting_result){.months = months,
                               .place_months = place_months,
                               .left = 0.62,
                               .highest_mould = 2.1,
                               .highest_mould_dry = 0.4,
                               .day_count = 730};
}

static void wetted(bw_wetting_result both)
{
    sim.part.wetting_test = (bw_section_wetting){
        .ran = true,
        .reason = "",
        .place = {CASE_SHEATHING, 0.009, true},
        .water = 1.0,
        .month = 9,
        .both = both};
}

START_TEST(a_wetting_is_dry_within_twelve_months_of_place_and_water)
{
    static const struct {
        double months, place;
        bool alone;
        double value;
        bw_verdict verdict;
    } cases[] = {
        {0.0, 0.0, false, 0.0, BW_HOLDS},
        {5.0, 10.7, false, 10.7, BW_HOLDS},
        {10.9, 2.0, false, 10.9, BW_MARGINAL},
        {11.9, 0.0, false, 11.9, BW_MARGINAL},
        {12.0, 0.0, false, 12.0, BW_FAILS},
        {3.0, 12.1, false, 12.1, BW_FAILS},
        {20.0, 3.0, true, 3.0, BW_HOLDS}, /* a stud gives it sideways */
        {-1.0, 3.0, true, 3.0, BW_HOLDS},
        {3.0, 13.0, true, 13.0, BW_FAILS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wetted(dries(cases[i].months, cases[i].place));
        sim.part.wetting_test.place_alone = cases[i].alone;
        ck_assert_int_eq(overall(), cases[i].verdict);
        const bw_criterion *row = case_row(&c, BW_C_WETTING);
        ck_assert_int_eq(row->outcome, cases[i].verdict);
        ck_assert_double_eq(row->value, cases[i].value);
        NAMES(row->reason, "1.00 kg/m2", "panel", "mineral wool", "Oct", "2.1",
              "0.4");
    }
}
END_TEST

/* Concrete, or what is tight on both sides: the water is there for good. */
START_TEST(what_does_not_dry_while_it_is_followed_fails)
{
    static const struct {
        double months, place;
        size_t days;
        double value;
    } cases[] = {
        {-1.0, 3.0, 730, 24.0},
        {3.0, -1.0, 730, 24.0},
        {-1.0, -1.0, 3650, 120.0},
        {-1.0, -1.0, 30, 12.0}, /* given up early: not less than the limit */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wetted(dries(cases[i].months, cases[i].place));
        sim.part.wetting_test.both.day_count = cases[i].days;
        ck_assert_int_eq(overall(), BW_FAILS);
        const bw_criterion *row = case_row(&c, BW_C_WETTING);
        ck_assert_double_eq_tol(row->value, cases[i].value, 1e-9);
    }
}
END_TEST

/* Massive timber under a tight coat: what was put is spread thinly, and is gone
 * at the rate of the drying reserve, of which DIN 68800-2 wants 0.100 kg/(m2 a)
 * in walls, 0.250 in roofs [from memory, high]. */
START_TEST(what_is_spread_and_leaves_slowly_asks_for_an_inspection)
{
    static const struct {
        double months, place, damp, reserve;
        bw_element element;
        bool alone;
        bw_verdict verdict;
    } cases[] = {
        {-1.0, 4.0, 5.8, 0.100, BW_ELEMENT_WALL, false, BW_MARGINAL},
        {18.8, 2.1, 2.5, 0.100, BW_ELEMENT_WALL, false, BW_MARGINAL},
        {-1.0, 4.0, 5.8, 0.099, BW_ELEMENT_WALL, false, BW_FAILS},
        {-1.0, 4.0, 5.8, 0.249, BW_ELEMENT_ROOF, false, BW_FAILS},
        {-1.0, 4.0, 5.8, 0.250, BW_ELEMENT_ROOF, false, BW_MARGINAL},
        /* another place is damp of it, or this one is */
        {-1.0, 4.0, 10.7, 1.0, BW_ELEMENT_WALL, false, BW_MARGINAL},
        {-1.0, 4.0, 10.8, 1.0, BW_ELEMENT_WALL, false, BW_FAILS},
        {-1.0, 4.0, -1.0, 1.0, BW_ELEMENT_WALL, false, BW_FAILS},
        {-1.0, -1.0, -1.0, 1.0, BW_ELEMENT_WALL, false, BW_FAILS},
        {-1.0, 12.5, 12.5, 1.0, BW_ELEMENT_WALL, true, BW_FAILS},
        /* dry in time is dry */
        {5.0, 4.0, 13.0, 0.0, BW_ELEMENT_WALL, false, BW_HOLDS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wetted(dries(cases[i].months, cases[i].place));
        sim.part.wetting_test.both.damp_months = cases[i].damp;
        sim.part.wetting_test.place_alone = cases[i].alone;
        c.assembly.element = cases[i].element;
        sim.part.run[BW_RUN_DESIGN].ran = true;
        sim.part.run[BW_RUN_DESIGN].result.has_reserve = true;
        sim.part.run[BW_RUN_DESIGN].result.reserve = cases[i].reserve;
        ck_assert_int_eq(overall(), cases[i].verdict);
        if (cases[i].verdict == BW_MARGINAL)
            NAMES(case_row(&c, BW_C_WETTING)->reason, "inspect", "reserve");
    }
    wetted(dries(-1.0, 4.0));
    sim.part.wetting_test.both.damp_months = 5.8;
    c.assembly.element = BW_ELEMENT_WALL;
    sim.part.run[BW_RUN_DESIGN].result.has_reserve = false;
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

/* Steel, foil and mineral wool: the wool is spoilt, nothing rots. */
START_TEST(what_does_not_dry_where_nothing_rots_asks_for_an_inspection)
{
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c.material[i].wood_kind = BW_NOT_WOOD;
        c.material[i].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    }
    wetted(dries(-1.0, -1.0));
    ck_assert_int_eq(overall(), BW_MARGINAL);
    wetted(dries(13.0, 2.0));
    ck_assert_int_eq(overall(), BW_MARGINAL);
    wetted(dries(3.0, 2.0));
    ck_assert_int_eq(overall(), BW_HOLDS);
    wetted(dries(-1.0, -1.0));
    c.material[CASE_LINING].mould_class = BW_MOULD_SENSITIVE; /* paper */
    ck_assert_int_eq(overall(), BW_FAILS);
    c.material[CASE_LINING].mould_class = BW_MOULD_RESISTANT;
    c.layer[CASE_INSULATION].framing = (bw_framing){.present = true,
                                                    .material = &c.stud};
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

START_TEST(a_test_that_could_not_be_run_leaves_the_wall_not_assessed)
{
    sim.part.wetting_test = (bw_section_wetting){.reason = "no room for it"};
    ck_assert_int_eq(overall(), BW_NOT_ASSESSED);
    ck_assert_str_eq(case_row(&c, BW_C_WETTING)->reason, "no room for it");
    sim.part.wetting_test.nothing_at_risk = true;
    ck_assert_int_eq(overall(), BW_HOLDS);
    wetted(dries((double)NAN, 1.0));
    sim.part.wetting_test.both.place_months = (double)NAN;
    ck_assert_int_eq(overall(), BW_NOT_ASSESSED);
}
END_TEST

START_TEST(which_way_it_dries_is_shown_and_decides_nothing)
{
    static const struct {
        double outwards, inwards, both;
        const char *words;
    } cases[] = {
        {3.0, 4.0, 2.0, "both ways"},
        {0.0, 0.0, 0.0, "both ways"},
        {3.0, -1.0, 2.0, "outwards only"},
        {-1.0, 4.0, 2.0, "inwards only"},
        {-1.0, -1.0, 8.0, "only with both"},
        {-1.0, -1.0, 0.0, "only with both"},
        {-1.0, -1.0, -1.0, "neither"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wetted(dries(cases[i].both, cases[i].both));
        bw_section_wetting *test = &sim.part.wetting_test;
        test->one_way = true;
        test->outwards = dries(cases[i].outwards, cases[i].outwards);
        test->inwards = dries(cases[i].inwards, cases[i].inwards);
        ck_assert_int_eq(overall(), cases[i].both < 0.0 ? BW_FAILS : BW_HOLDS);
        has(case_row(&c, BW_C_WETTING)->reason, cases[i].words);
        const bw_criterion *out = case_row(&c, BW_C_WETTING_OUTWARDS);
        const bw_criterion *in = case_row(&c, BW_C_WETTING_INWARDS);
        ck_assert(!out->decides && !in->decides);
        ck_assert_int_eq(out->has_value, cases[i].outwards >= 0.0);
        ck_assert_int_eq(in->has_value, cases[i].inwards >= 0.0);
    }
    sim.part.wetting_test.one_way = false;
    ck_assert_ptr_null(judged(BW_C_WETTING_OUTWARDS));
    ck_assert_ptr_null(strstr(case_row(&c, BW_C_WETTING)->reason, "way"));
}
END_TEST

/* After which layer the file says; 0 is a layer, too. */
START_TEST(the_water_is_put_where_the_file_says)
{
    const bw_assessment_options options = {.no_advice = true,
                                           .no_one_way = true,
                                           .synthetic_hours = true,
                                           .transient = {.max_years = 1}};
    case_make_hygroscopic(&c);
    for (long after = 0; after <= CASE_INSULATION; after++) {
        bw_assessment *made = NULL;
        c.assembly.drying_test.after_layer = after;
        ck_assert_int_eq(
            bw_assess(&made, &c.assembly, &c.climate, &options, NULL), BW_OK);
        const bw_section_wetting *test = &made->section[0].wetting_test;
        ck_assert_msg(test->ran, "%s", test->reason);
        ck_assert_uint_eq(test->place.slab, (size_t)after);
        bw_assessment_free(made);
    }
}
END_TEST

/* A lining between foil and a damp room is damper than the sheathing, and dries
 * in days: it would be no test of the wall. */
START_TEST(the_water_is_not_put_beside_the_room_while_a_place_lies_farther_out)
{
    const bw_assessment_options options = {.no_advice = true,
                                           .no_one_way = true,
                                           .synthetic_hours = true,
                                           .transient = {.max_years = 1}};
    case_make_hygroscopic(&c);
    c.material[CASE_LINING].group = "board";
    c.material[CASE_LINING].mould_class = BW_MOULD_SENSITIVE;
    c.assembly.drying_test.after_layer = -1;
    c.assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 20.0, .relative_humidity = 0.6};
    for (int month = 0; month < BW_MONTHS; month++) { /* dry and warm outside */
        c.climate.month[month].temperature = 18.0;
        c.climate.month[month].vapour_pressure = 700.0;
    }
    bw_assessment *made = NULL;
    ck_assert_int_eq(bw_assess(&made, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    const bw_section_assessment *part = &made->section[0];
    ck_assert_msg(part->wetting_test.ran, "%s", part->wetting_test.reason);
    ck_assert_uint_le(part->wetting_test.place.slab, CASE_INSULATION);
    const bw_monitor *m = part->transient.monitor;
    double mean[2] = {0.0}; /* at the two faces farther out, the damper one */
    for (int month = 0; month < BW_MONTHS; month++)
        for (size_t k = 0; k < 2; k++)
            mean[k] += m[k + 1].month_rh[month];
    ck_assert_uint_eq(part->wetting_test.place.slab, mean[1] > mean[0]);
    for (int month = 0; month < BW_MONTHS; month++)
        ck_assert_double_lt(
            m[part->wetting_test.place.slab + 1].month_rh[month],
            m[CASE_FOIL + 1].month_rh[month]);
    bw_assessment_free(made);
}
END_TEST

/* South of the equator October is in spring [a fact of the calendar]. */
START_TEST(a_wall_is_wetted_before_the_colder_half_of_the_year)
{
    enum { APRIL = 3, OCTOBER = 9 };
    const bw_assessment_options options = {.no_advice = true,
                                           .no_one_way = true,
                                           .synthetic_hours = true,
                                           .transient = {.max_years = 1}};
    case_make_hygroscopic(&c);
    for (int south = 0; south < 2; south++) {
        for (int m = 0; m < BW_MONTHS; m++) {
            const bool later = m >= APRIL && m < OCTOBER;
            c.climate.month[m].temperature = later == (south == 1) ? 8.0 : 18.0;
            c.climate.month[m].vapour_pressure = 700.0;
        }
        bw_assessment *made = NULL;
        ck_assert_int_eq(
            bw_assess(&made, &c.assembly, &c.climate, &options, NULL), BW_OK);
        const bw_section_assessment *part = &made->section[0];
        ck_assert_msg(part->wetting_test.ran, "%s", part->wetting_test.reason);
        ck_assert_int_eq(part->wetting_test.month, south ? APRIL : OCTOBER);
        bw_assessment_free(made);
    }
}
END_TEST

SUITE_AROUND(
    "judge_wetting", setup, teardown,
    FACT(a_wall_is_wetted_before_the_colder_half_of_the_year),
    FACT(a_wetting_is_dry_within_twelve_months_of_place_and_water),
    FACT(what_is_spread_and_leaves_slowly_asks_for_an_inspection),
    FACT(what_does_not_dry_while_it_is_followed_fails),
    FACT(what_does_not_dry_where_nothing_rots_asks_for_an_inspection),
    FACT(a_test_that_could_not_be_run_leaves_the_wall_not_assessed),
    FACT(which_way_it_dries_is_shown_and_decides_nothing),
    FACT(the_water_is_put_where_the_file_says),
    FACT(the_water_is_not_put_beside_the_room_while_a_place_lies_farther_out))
