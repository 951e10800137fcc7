/* Judging at its edges: which plane and month is named, what is not judged,
 * and how near to a limit is marginal. */

#include <check.h>
#include <math.h>
#include <stdlib.h>

#include "criteria_case.h"
#include "has_words.h"

static criteria_case c;

static void setup(void)
{
    case_make(&c);
}

static void teardown(void)
{
    case_free(&c);
}

/* ---- the monthly runs -------------------------------------------------- */

/* Two planes: the one most is left at is named, or, where all evaporates,
 * the one that had most. */
START_TEST(the_plane_named_is_the_one_with_most_water)
{
    bw_plane plane[2];
    bw_monthly_result design = case_result(&plane[0], 0.30);
    plane[1] = plane[0];
    plane[1].at = (bw_plane_at){CASE_FOIL, 0.0, true};
    plane[1].peak = 0.10;
    plane[1].month[2].accumulated = 0.10;
    plane[1].month[6].accumulated = 0.05;
    plane[1].residual = 0.02;
    plane[0].residual = 0.01;
    design.plane = plane;
    design.plane_count = 2;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ANNUAL_BALANCE)->reason,
        "most 0.300 kg/m2 in Mar between panel and mineral wool");
    has(case_row(&c, BW_C_CONDENSATE)->reason,
        "0.400 kg/m2 at the end of Mar, most of it between panel");
    design.residual_first = 0.03;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ANNUAL_BALANCE)->reason, "0.0200 of it");
    has(case_row(&c, BW_C_ANNUAL_BALANCE)->reason, "plasterboard");
    ck_assert_double_eq(case_row(&c, BW_C_ANNUAL_BALANCE)->value, 0.03);
    plane[0].month[2].accumulated = 0.05; /* now less than at the foil */
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_CONDENSATE)->reason, "0.150 kg/m2");
    has(case_row(&c, BW_C_CONDENSATE)->reason, "plasterboard");
}
END_TEST

START_TEST(one_year_is_a_year_and_two_are_years)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.1);
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ACCUMULATION)->reason, "2 years computed");
    design.cycles = 1;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ACCUMULATION)->reason, "1 year computed");
    ck_assert_int_eq(case_row(&c, BW_C_ACCUMULATION)->outcome, BW_HOLDS);
    ck_assert_double_eq(case_row(&c, BW_C_ACCUMULATION)->value, 0.0);
}
END_TEST

/* A run that grows fails, whatever the amount [ISO 13788]. */
START_TEST(growth_fails_even_where_its_amount_rounds_to_none)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.1);
    design.periodic = false;
    design.accumulates = true;
    design.growth = -1e-9;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_int_eq(case_row(&c, BW_C_ACCUMULATION)->outcome, BW_FAILS);
    ck_assert_int_eq(case_row(&c, BW_C_ACCUMULATION)->verdict, BW_FAILS);
    ck_assert_double_eq(case_row(&c, BW_C_ACCUMULATION)->value, 0.0);
}
END_TEST

START_TEST(water_run_off_at_the_guide_is_not_above_it)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.2);
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_int_eq(case_row(&c, BW_C_RUN_OFF)->outcome, BW_MARGINAL);
    has(case_row(&c, BW_C_RUN_OFF)->reason, "below the guide");
    plane.peak = 0.21;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_RUN_OFF)->reason, "above the guide");
}
END_TEST

/* A still cavity takes up no water, and inside a layer only that layer
 * touches the plane. */
START_TEST(what_touches_a_plane_decides_whether_it_sheds)
{
    bw_plane_at face = {CASE_FOIL, 0.0, true};
    bw_plane_at inner = {CASE_LINING, 0.0125, true};
    ck_assert(bw_plane_sheds(&c.section, face)); /* the foil */
    ck_assert(!bw_plane_sheds(&c.section, inner));
    ck_assert(bw_plane_sheds(&c.section,
                             (bw_plane_at){CASE_INSULATION, 0.07, false}));
    ck_assert(!bw_plane_sheds(&c.section,
                              (bw_plane_at){CASE_SHEATHING, 0.004, false}));
    c.slab[CASE_LINING].kind = BW_LAYER_CAVITY;
    ck_assert(bw_plane_sheds(&c.section, inner));
}
END_TEST

START_TEST(a_dry_plane_is_no_water_anywhere)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.0);
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_CONDENSATE_NON_ABSORBING)->reason,
        "no water at a face that does not absorb");
    has(case_row(&c, BW_C_PANEL_RISE)->reason, "no condensate beside it");
    has(case_row(&c, BW_C_CONDENSATE)->reason, "no condensate");
    has(case_row(&c, BW_C_ANNUAL_BALANCE)->reason, "no condensation");
    c.material[CASE_SHEATHING].density.known = false; /* nothing to weigh */
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_int_eq(case_row(&c, BW_C_PANEL_RISE)->outcome, BW_HOLDS);
}
END_TEST

/* ---- inwards and drying ------------------------------------------------ */

static bw_plane inner_plane[2];

/* 0.15 kg/m2 driven in in July, `left` of it there at the end. */
static bw_section_assessment driven_inwards(double amount, double left)
{
    memset(inner_plane, 0, sizeof inner_plane);
    inner_plane[0].at = (bw_plane_at){CASE_SHEATHING, 0.009, true};
    inner_plane[1].at = (bw_plane_at){CASE_INSULATION, 0.14, true};
    inner_plane[1].month[6].condensation = amount;
    inner_plane[1].month[8].condensation = left - amount;
    bw_section_assessment part = {
        .section = &c.section,
        .has_inward = true,
        .inward_slab = CASE_SHEATHING,
        .inward = {.plane_count = 2, .plane = inner_plane, .start_month = 3}};
    for (int m = 0; m < BW_MONTHS; m++) {
        part.boundary[m] = (bw_boundary){.theta_i = 20.0, .p_i = 1300.0};
        inner_plane[0].month[m].saturation_pressure = 3000.0;
    }
    return part;
}

/* At most 0.2 kg/m2 [ISO 13788's guide, from memory], and none may stay. */
START_TEST(inward_water_is_judged_by_amount_and_by_what_stays)
{
    static const struct {
        double amount, left;
        bw_verdict verdict;
        const char *words;
    } cases[] = {
        {0.0, 0.0, BW_HOLDS, "meets saturation nowhere"},
        {0.179, 0.0, BW_HOLDS, "0.179 kg/m2 from the wet, panel in Jul"},
        {0.199, 0.0, BW_MARGINAL, "0.199"},
        {0.201, 0.0, BW_FAILS, "0.201"},
        {0.10, 0.05, BW_FAILS, "0.050 kg/m2 of it has not left"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_section_assessment part = driven_inwards(cases[i].amount,
                                                    cases[i].left);
        c.rows.count = 0;
        bw_judge_inward(&c.rows, &c.assembly, &part);
        const bw_criterion *row = case_row(&c, BW_C_INWARD);
        ck_assert_int_eq(row->outcome, cases[i].verdict);
        ck_assert_int_eq(row->verdict, cases[i].verdict);
        ck_assert_double_eq_tol(row->value, cases[i].amount, 1e-12);
        has(row->reason, cases[i].words);
        ck_assert_ptr_null(strstr(row->reason, "sun-warmed"));
    }
}
END_TEST

START_TEST(in_the_sun_the_sun_warmed_months_count)
{
    bw_section_assessment part = driven_inwards(0.1, 0.0);
    for (int m = 0; m < BW_MONTHS; m++) {
        part.sun_boundary[m] = part.boundary[m];
        part.boundary[m].p_i = 4000.0; /* would hold it back */
        part.sun_share[m] = 0.25;
    }
    part.has_sun = true;
    bw_judge_inward(&c.rows, &c.assembly, &part);
    has(case_row(&c, BW_C_INWARD)->reason, "sun-warmed panel");
    /* a quarter of the month's 0.1 kg/m2 */
    ck_assert_double_eq_tol(case_row(&c, BW_C_INWARD)->value, 0.025, 1e-12);
    ck_assert_ptr_null(strstr(case_row(&c, BW_C_INWARD)->reason, "a day"));
}
END_TEST

/* July: 2000 Pa at the wet panel, 2500 Pa at the wool's inner face, 1300 Pa in
 * the room, sd 1, 2 and 3 m: without sun 2.0e-10 * 2678400 * (-500/1 - 1200/1)
 * = -0.9107 kg/m2. */
START_TEST(hours_without_sun_dry_what_the_sun_drove_in)
{
    static const struct {
        double gain, value;
        bool daily;
    } cases[] = {
        {0.4, 0.25 * 0.4 / 31, true},
        {4.0, 0.25 * 4.0 - 0.75 * 0.9107, false},
    };
    bw_plane dull[4] = {{.at = {CASE_SHEATHING, 0, false}},
                        {.at = {CASE_SHEATHING, 0.009, true}},
                        {.at = {CASE_INSULATION, 0.14, true}},
                        {.at = {CASE_LINING, 0.0125, true}}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_section_assessment part = driven_inwards(cases[i].gain, 0.0);
        for (int m = 0; m < BW_MONTHS; m++) {
            part.sun_boundary[m] = part.boundary[m];
            part.boundary[m].p_i = 1300.0;
            part.sun_share[m] = 0.25;
            for (int k = 0; k < 4; k++)
                dull[k].month[m].sd_from_outside = k;
            dull[1].month[m].saturation_pressure = 2000.0;
            dull[2].month[m].theta = bw_dew_point(2500.0);
        }
        part.has_sun = true;
        part.design = (bw_monthly_result){.plane_count = 4, .plane = dull};
        c.rows.count = 0;
        bw_judge_inward(&c.rows, &c.assembly, &part);
        const bw_criterion *row = case_row(&c, BW_C_INWARD);
        ck_assert_double_eq_tol(row->value, cases[i].value, 2e-4);
        ck_assert_int_eq(strstr(row->reason, "a day") != NULL, cases[i].daily);
    }
}
END_TEST

START_TEST(the_room_surface_takes_no_inward_water)
{
    bw_section_assessment part = driven_inwards(0.1, 0.0);
    inner_plane[1].at = (bw_plane_at){CASE_LINING, 0.0125, true};
    bw_inward_water water = bw_inward_water_of(
        &c.section, CASE_SHEATHING, part.boundary, NULL, &part.inward);
    ck_assert_double_eq(water.peak, 0.0);
    inner_plane[1].at = (bw_plane_at){CASE_SHEATHING, 0.005, false};
    water = bw_inward_water_of(&c.section, CASE_SHEATHING, part.boundary, NULL,
                               &part.inward); /* in the wet layer itself */
    ck_assert_double_eq(water.peak, 0.0);
    inner_plane[1].at = (bw_plane_at){CASE_LINING, 0.005, false};
    water = bw_inward_water_of(&c.section, CASE_SHEATHING, part.boundary, NULL,
                               &part.inward);
    ck_assert_double_eq_tol(water.peak, 0.1, 1e-12);
    ck_assert_double_eq_tol(water.inflow, 0.1, 1e-12);
}
END_TEST

START_TEST(rain_wets_only_an_absorbing_face_that_it_reaches)
{
    bw_section_assessment part = {.section = &c.section,
                                  .inward_reason = "no facing"};
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    const struct {
        size_t dropped, slabs;
        bool absorbs, decides;
    } cases[] = {{0, CASE_LAYERS, true, true},
                 {0, CASE_LAYERS, false, false},
                 {1, CASE_LAYERS, true, false},
                 {0, 0, true, false}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.section.dropped_layers = cases[i].dropped;
        c.section.slab_count = cases[i].slabs;
        c.material[CASE_SHEATHING].absorbs_condensate = cases[i].absorbs;
        c.rows.count = 0;
        bw_judge_inward(&c.rows, &c.assembly, &part);
        ck_assert_int_eq(!c.rows.row[0].informative, cases[i].decides);
    }
}
END_TEST

START_TEST(a_wetting_that_moves_elsewhere_is_said)
{
    bw_monthly_result never = {.left = 0.8}, moved = {.left = 0.7,
                                                      .wet_plane_dried = true,
                                                      .wet_plane_months = 3.0};
    bw_section_assessment part = {.section = &c.section,
                                  .has_dry = true,
                                  .wet_plane = {CASE_SHEATHING, 0.009, true},
                                  .wetting = 1.0,
                                  .dry_start = 9,
                                  .dry_both = moved,
                                  .dry_outwards = never,
                                  .dry_inwards = never};
    part.dry_both.condensed_elsewhere = true;
    bw_judge_drying(&c.rows, &part);
    const bw_criterion *row = case_row(&c, BW_C_DRYING);
    has(row->reason, "there in 3.0 months, but 0.700 kg/m2 stays elsewhere");
    has(row->reason, "dries neither way; other planes condense meanwhile");
    ck_assert_double_eq(row->value, 120.0); /* ten years were computed */
    has(case_row(&c, BW_C_DRYING_INWARDS)->reason, "0.800 kg/m2 left");
    part.dry_both = (bw_monthly_result){.dried = true, .months_to_dry = 9.0};
    c.rows.count = 0;
    bw_judge_drying(&c.rows, &part);
    has(case_row(&c, BW_C_DRYING)->reason, "only with both ways open");
    ck_assert_ptr_null(strstr(case_row(&c, BW_C_DRYING)->reason, "elsewhere"));
}
END_TEST

/* ---- surfaces and the period balance ----------------------------------- */

START_TEST(the_most_humid_month_of_the_surface_is_named)
{
    bw_section_assessment part = {.section = &c.section, .surface_count = 3};
    for (size_t i = 0; i < 3; i++)
        part.surface[i].rsi_source = "test";
    part.surface[0].highest_rh = 0.85;
    part.surface[0].month[4].rh_si = 0.85;
    part.surface[0].month[9].rh_si = 0.80;
    part.surface[0].critical_month = 9;
    part.surface[0].rsi = 0.25;
    part.surface[0].month[9].theta_si = 17.5;
    part.surface[0].month[9].meaningful = true;
    bw_judge_surfaces(&c.rows, &part);
    has(case_row(&c, BW_C_SURFACE_MOULD)->reason,
        "surface 17.5 degC and 80 % RH in Oct (Rsi 0.25 m2 K/W, "
        "test)");
    has(case_row(&c, BW_C_SURFACE_CONDENSATION)->reason, "% RH in May");
    ck_assert_double_eq_tol(case_row(&c, BW_C_SURFACE_CONDENSATION)->value,
                            85.0, 1e-12);
}
END_TEST

/* DIN 4108-3, annex A: none, one or two planes, or a zone in which all the
 * water is counted at both ends. */
START_TEST(the_water_of_a_zone_is_charged_to_both_of_its_ends)
{
    bw_period_result period = {.which = BW_PERIOD_ZONE,
                               .plane_count = 2,
                               .condensed = 0.6,
                               .evaporable = 2.0,
                               .reserve = 1.4,
                               .assessed = true};
    period.plane[0] = (bw_period_plane){
        {CASE_SHEATHING, 0.009, true}, 1.0, 0.2, 1.0};
    period.plane[1] = (bw_period_plane){
        {CASE_INSULATION, 0.14, true}, 1.5, 0.4, 1.0};
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->value, 0.6);
    has(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->reason,
        "in the condensation period");
    ck_assert_double_eq_tol(case_row(&c, BW_C_PERIOD_PANEL_RISE)->value,
                            100.0 * 0.6 / 5.85, 1e-9);
    has(case_row(&c, BW_C_PERIOD_BALANCE)->reason,
        "0.200 kg/m2 between panel and mineral wool; 2.000 kg/m2 can");
    period.which = BW_PERIOD_TWO_PLANES;
    c.rows.count = 0;
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->value, 0.4);
    period.which = BW_PERIOD_NONE;
    c.rows.count = 0;
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->value, 0.0);
    has(case_row(&c, BW_C_PERIOD_CONDENSATE)->reason, "no condensate");
}
END_TEST

START_TEST(without_timber_the_period_reserve_has_no_limit)
{
    bw_period_result period = {
        .which = BW_PERIOD_NONE, .reserve = 0.01, .assessed = true};
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_int_eq(case_row(&c, BW_C_PERIOD_RESERVE)->outcome, BW_FAILS);
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.rows.count = 0;
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    const bw_criterion *row = case_row(&c, BW_C_PERIOD_RESERVE);
    ck_assert(row->has_value && !row->has_limit);
    has(row->reason, "no timber");
}
END_TEST

/* ---- rows -------------------------------------------------------------- */

START_TEST(a_row_is_found_by_section_and_criterion)
{
    bw_rows_none(&c.rows, BW_C_INWARD, "here");
    c.rows.section = "through-stud";
    bw_row *stud = bw_rows_none(&c.rows, BW_C_INWARD, "there");
    ck_assert_ptr_eq(bw_rows_find(&c.rows, "through-stud", BW_C_INWARD), stud);
    ck_assert_str_eq(case_row(&c, BW_C_INWARD)->reason, "here");
    ck_assert_ptr_null(bw_rows_find(&c.rows, "whole", BW_C_DRYING));
    ck_assert_ptr_null(bw_rows_find(&c.rows, "between-studs", BW_C_INWARD));
}
END_TEST

START_TEST(infinity_is_no_limit_and_a_margin_is_a_share_of_the_limit)
{
    bw_row *row = bw_rows_most(&c.rows, BW_C_CONDENSATE, 1.0, HUGE_VAL, "x");
    ck_assert_int_eq(row->row.outcome, BW_NOT_ASSESSED);
    row = bw_rows_info(&c.rows, BW_C_RUN_OFF, (double)NAN, "x");
    ck_assert(!row->row.has_value);
    ck_assert_double_eq(row->row.value, 0.0);
    row = bw_rows_most(&c.rows, BW_C_CONDENSATE, 0.5, 1.0, "x");
    ck_assert_double_eq(bw_row_relative_margin(row), 0.5);
    row = bw_rows_most(&c.rows, BW_C_ANNUAL_BALANCE, 0.02, 0.0, "x");
    ck_assert_double_eq_tol(bw_row_relative_margin(row), -0.2, 1e-12);
}
END_TEST

/* How near to the limit is marginal: docs/methods.md, "Criteria". */
START_TEST(marginal_is_as_the_methods_say)
{
    static const struct {
        bw_criterion_id id;
        double limit, holds, marginal;
        bool assumed, said;
    } cases[] = {
        {BW_C_CONDENSATE, 1.0, 0.899, 0.901, false, false},
        {BW_C_CONDENSATE, 1.0, 0.799, 0.801, true, true},
        {BW_C_SURFACE_MOULD, 0.7, 0.721, 0.719, false, false},
        {BW_C_CORNER_MOULD, 0.7, 0.721, 0.719, true, false},
        {BW_C_STEADY_CHECK, 100.0, 97.9, 98.1, true, false},
        {BW_C_CUPBOARD_MOULD, 0.7, 0.721, 0.719, false, false},
        {BW_C_FRSI_LEAST, 0.75, 0.771, 0.769, false, false},
        {BW_C_STEADY_CHECK, 100.0, 97.9, 98.1, false, false},
        {BW_C_RESERVE_LEAKY, 0.0, 0.0101, 0.0099, false, false},
        {BW_C_PERIOD_RESERVE, 0.100, 0.111, 0.109, false, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_row *(*judge)(bw_rows *, bw_criterion_id, double, double,
                         const char *) = cases[i].holds > cases[i].marginal
                                             ? bw_rows_least
                                             : bw_rows_most;
        c.rows.assumed = cases[i].assumed;
        bw_row *row = judge(&c.rows, cases[i].id, cases[i].holds,
                            cases[i].limit, "x");
        ck_assert_int_eq(row->row.outcome, BW_HOLDS);
        ck_assert_str_eq(row->row.reason, "x");
        row = judge(&c.rows, cases[i].id, cases[i].marginal, cases[i].limit,
                    "x");
        ck_assert_int_eq(row->row.outcome, BW_MARGINAL);
        has(row->row.reason, "holds by less than");
        ck_assert_int_eq(strstr(row->row.reason, "assumed") != NULL,
                         cases[i].said);
    }
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("judging");
    TCase *t = tcase_create("judging");
    tcase_add_checked_fixture(t, setup, teardown);
    tcase_add_test(t, the_plane_named_is_the_one_with_most_water);
    tcase_add_test(t, one_year_is_a_year_and_two_are_years);
    tcase_add_test(t, growth_fails_even_where_its_amount_rounds_to_none);
    tcase_add_test(t, water_run_off_at_the_guide_is_not_above_it);
    tcase_add_test(t, what_touches_a_plane_decides_whether_it_sheds);
    tcase_add_test(t, inward_water_is_judged_by_amount_and_by_what_stays);
    tcase_add_test(t, in_the_sun_the_sun_warmed_months_count);
    tcase_add_test(t, hours_without_sun_dry_what_the_sun_drove_in);
    tcase_add_test(t, the_room_surface_takes_no_inward_water);
    tcase_add_test(t, rain_wets_only_an_absorbing_face_that_it_reaches);
    tcase_add_test(t, a_wetting_that_moves_elsewhere_is_said);
    tcase_add_test(t, the_most_humid_month_of_the_surface_is_named);
    tcase_add_test(t, the_water_of_a_zone_is_charged_to_both_of_its_ends);
    tcase_add_test(t, without_timber_the_period_reserve_has_no_limit);
    tcase_add_test(t, a_row_is_found_by_section_and_criterion);
    tcase_add_test(t,
                   infinity_is_no_limit_and_a_margin_is_a_share_of_the_limit);
    tcase_add_test(t, marginal_is_as_the_methods_say);
    tcase_add_test(t, a_dry_plane_is_no_water_anywhere);
    suite_add_tcase(s, t);
    return s;
}

int main(void)
{
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
