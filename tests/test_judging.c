/* Judging at its edges: which plane and month is named, what is not judged,
 * and how near to a limit is marginal. */

#include <math.h>
#include <stdlib.h>

#include "has_words.h"
#include "one_case.h"
#include "suite.h"

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
    NAMES(case_row(&c, BW_C_ANNUAL_BALANCE)->reason, "0.300", "Mar", "panel");
    NAMES(case_row(&c, BW_C_CONDENSATE)->reason, "0.400", "Mar", "panel");
    design.residual_first = 0.03;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    NAMES(case_row(&c, BW_C_ANNUAL_BALANCE)->reason, "0.0200", "plasterboard");
    ck_assert_double_eq(case_row(&c, BW_C_ANNUAL_BALANCE)->value, 0.03);
    plane[0].month[2].accumulated = 0.05; /* now less than at the foil */
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    NAMES(case_row(&c, BW_C_CONDENSATE)->reason, "0.150", "plasterboard");
}
END_TEST

START_TEST(years_that_repeat_do_not_accumulate)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.1);
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ACCUMULATION)->reason, "2 years");
    ck_assert_int_eq(case_row(&c, BW_C_ACCUMULATION)->outcome, BW_HOLDS);
    ck_assert_double_eq(case_row(&c, BW_C_ACCUMULATION)->value, 0.0);
    design.cycles = 1;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    has(case_row(&c, BW_C_ACCUMULATION)->reason, "1 year ");
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
    plane.peak = 0.21;
    c.rows.count = 0;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_double_lt(case_row(&c, BW_C_RUN_OFF)->margin, 0.0);
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
    static const bw_criterion_id dry[] = {BW_C_CONDENSATE_NON_ABSORBING,
                                          BW_C_PANEL_RISE, BW_C_CONDENSATE,
                                          BW_C_ANNUAL_BALANCE};
    for (size_t i = 0; i < COUNT(dry); i++) {
        ck_assert_double_eq(case_row(&c, dry[i])->value, 0.0);
        ck_assert_int_eq(case_row(&c, dry[i])->outcome, BW_HOLDS);
    }
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
        .run[BW_RUN_INWARD].ran = true,
        .inward_slab = CASE_SHEATHING,
        .run[BW_RUN_INWARD].result = {
            .plane_count = 2, .plane = inner_plane, .start_month = 3}};
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
        const char *said, *month;
    } cases[] = {
        {0.0, 0.0, BW_HOLDS, "panel", "panel"},
        {0.179, 0.0, BW_HOLDS, "0.179", "Jul"},
        {0.199, 0.0, BW_MARGINAL, "0.199", "Jul"},
        {0.201, 0.0, BW_FAILS, "0.201", "Jul"},
        {0.10, 0.05, BW_FAILS, "0.050", "Jul"},
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
        NAMES(row->reason, "panel", cases[i].said, cases[i].month);
        ck_assert_ptr_null(strstr(row->reason, "sun"));
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
    NAMES(case_row(&c, BW_C_INWARD)->reason, "sun", "panel");
    /* a quarter of the month's 0.1 kg/m2 */
    ck_assert_double_eq_tol(case_row(&c, BW_C_INWARD)->value, 0.025, 1e-12);
    ck_assert_ptr_null(strstr(case_row(&c, BW_C_INWARD)->reason, "a day"));
}
END_TEST

/* July: 2000 Pa at the wet panel of 16 degC, 24 degC at the wool's inner face
 * (2982.1 Pa) and so 20 degC (2337.0 Pa) in its middle, 1300 Pa in the room, sd
 * 1, 3 and 7 m: without sun 2.0e-10 * 2678400 * (-982.1/2 - 1682.1/4) = -0.4883
 * kg/m2 at that face and 5.3568e-4 * (-337.0/1 - 1037.0/5) = -0.2916 in the
 * middle; with 0.5 m to the room 5.3568e-4 * (-982.1/2 - 1682.1/0.5) = -2.0652.
 * Where no sd lies between, or a face is not known, nothing is dried.
 */
START_TEST(hours_without_sun_dry_what_the_sun_drove_in)
{
    static const struct {
        double gain, depth, sd[4], value;
        size_t unknown;
        bool daily;
    } cases[] = {
        {0.4, 0.14, {0, 1, 3, 7}, 0.25 * 0.4 / 31, 0, true},
        {4.0, 0.14, {0, 1, 3, 7}, 0.25 * 4.0 - 0.75 * 0.4883, 0, false},
        {4.0, 0.07, {0, 1, 3, 7}, 0.25 * 4.0 - 0.75 * 0.2916, 0, false},
        {8.0, 0.14, {0, 1, 3, 3.5}, 0.25 * 8.0 - 0.75 * 2.0652, 0, false},
        {4.0, 0.14, {0, 1, 1, 7}, 0.25 * 4.0, 0, false},
        {4.0, 0.14, {0, 1, 3, 3}, 0.25 * 4.0, 0, false},
        {4.0, 0.14, {0, 1, 3, 7}, 0.25 * 4.0, 1, false},
        {4.0, 0.14, {0, 1, 3, 7}, 0.25 * 4.0, 2, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_plane dull[4] = {{.at = {CASE_SHEATHING, 0, false}},
                            {.at = {CASE_SHEATHING, 0.009, true}},
                            {.at = {CASE_INSULATION, 0.14, true}},
                            {.at = {CASE_LINING, 0.0125, true}}};
        bw_section_assessment part = driven_inwards(cases[i].gain, 0.0);
        inner_plane[1].at.depth = cases[i].depth;
        inner_plane[1].at.layer_face = cases[i].depth >= 0.14;
        if (cases[i].unknown > 0)
            dull[cases[i].unknown].at.layer_face = false;
        for (int m = 0; m < BW_MONTHS; m++) {
            part.sun_boundary[m] = part.boundary[m];
            part.boundary[m].p_i = 1300.0;
            part.sun_share[m] = 0.25;
            for (int k = 0; k < 4; k++)
                dull[k].month[m].sd_from_outside = cases[i].sd[k];
            dull[1].month[m].saturation_pressure = 2000.0;
            dull[1].month[m].theta = 16.0;
            dull[2].month[m].theta = 24.0;
        }
        part.has_sun = true;
        part.run[BW_RUN_DESIGN].result = (bw_monthly_result){.plane_count = 4,
                                                             .plane = dull};
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
    bw_inward_water water = bw_inward_water_of(&c.section, CASE_SHEATHING,
                                               part.boundary, NULL,
                                               &part.run[BW_RUN_INWARD].result);
    ck_assert_double_eq(water.peak, 0.0);
    inner_plane[1].at = (bw_plane_at){CASE_SHEATHING, 0.005, false};
    water = bw_inward_water_of(
        &c.section, CASE_SHEATHING, part.boundary, NULL,
        &part.run[BW_RUN_INWARD].result); /* in the wet layer itself */
    ck_assert_double_eq(water.peak, 0.0);
    inner_plane[1].at = (bw_plane_at){CASE_LINING, 0.005, false};
    water = bw_inward_water_of(&c.section, CASE_SHEATHING, part.boundary, NULL,
                               &part.run[BW_RUN_INWARD].result);
    ck_assert_double_eq_tol(water.peak, 0.1, 1e-12);
    ck_assert_double_eq_tol(water.inflow, 0.1, 1e-12);
}
END_TEST

START_TEST(rain_wets_only_an_absorbing_face_that_it_reaches)
{
    bw_section_assessment part = {.section = &c.section,
                                  .run[BW_RUN_INWARD].reason = "no facing"};
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
                                  .run[BW_RUN_WETTED_BOTH].ran = true,
                                  .wet_plane = {CASE_SHEATHING, 0.009, true},
                                  .wetting = 1.0,
                                  .dry_start = 9,
                                  .run[BW_RUN_WETTED_BOTH].result = moved,
                                  .run[BW_RUN_WETTED_OUTWARDS].result = never,
                                  .run[BW_RUN_WETTED_INWARDS].result = never};
    part.run[BW_RUN_WETTED_BOTH].result.condensed_elsewhere = true;
    bw_judge_drying(&c.rows, &part);
    const bw_criterion *row = case_row(&c, BW_C_DRYING);
    NAMES(row->reason, "3.0 months", "0.700 kg/m2", "elsewhere", "neither");
    ck_assert_double_eq(row->value, 120.0); /* ten years were computed */
    has(case_row(&c, BW_C_DRYING_INWARDS)->reason, "0.800");
    part.run[BW_RUN_WETTED_BOTH].result = (bw_monthly_result){
        .dried = true, .months_to_dry = 9.0};
    c.rows.count = 0;
    bw_judge_drying(&c.rows, &part);
    has(case_row(&c, BW_C_DRYING)->reason, "both");
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
    NAMES(case_row(&c, BW_C_SURFACE_MOULD)->reason, "17.5", "80", "Oct", "0.25",
          "test");
    has(case_row(&c, BW_C_SURFACE_CONDENSATION)->reason, "May");
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
    ck_assert_double_eq_tol(case_row(&c, BW_C_PERIOD_PANEL_RISE)->value,
                            100.0 * 0.6 / 5.85, 1e-9);
    NAMES(case_row(&c, BW_C_PERIOD_BALANCE)->reason, "0.200", "panel",
          "mineral wool", "2.000");
    period.which = BW_PERIOD_TWO_PLANES;
    c.rows.count = 0;
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->value, 0.4);
    period.which = BW_PERIOD_NONE;
    c.rows.count = 0;
    bw_judge_period(&c.rows, &c.assembly, &c.section, &period);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_NON_ABSORBING)->value, 0.0);
    ck_assert_double_eq(case_row(&c, BW_C_PERIOD_CONDENSATE)->value,
                        period.condensed);
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
    bw_row *row = bw_rows_against(&c.rows, BW_C_CONDENSATE, 1.0, HUGE_VAL, "x");
    ck_assert_int_eq(row->row.outcome, BW_NOT_ASSESSED);
    row = bw_rows_value(&c.rows, BW_C_RUN_OFF, (double)NAN, "x");
    ck_assert(!row->row.has_value);
    ck_assert_double_eq(row->row.value, 0.0);
    row = bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.5, 1.0, "x");
    ck_assert_double_eq(bw_row_relative_margin(row), 0.5);
    row = bw_rows_against(&c.rows, BW_C_ANNUAL_BALANCE, 0.02, 0.0, "x");
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
        c.rows.assumed = cases[i].assumed;
        bw_row *row = bw_rows_against(&c.rows, cases[i].id, cases[i].holds,
                                      cases[i].limit, "x");
        ck_assert_int_eq(row->row.outcome, BW_HOLDS);
        ck_assert_str_eq(row->row.reason, "x");
        row = bw_rows_against(&c.rows, cases[i].id, cases[i].marginal,
                              cases[i].limit, "x");
        ck_assert_int_eq(row->row.outcome, BW_MARGINAL);
        ck_assert_int_eq(strstr(row->row.reason, "assumed") != NULL,
                         cases[i].said);
    }
}
END_TEST

SUITE_AROUND("judging", setup, teardown,
             FACT(the_plane_named_is_the_one_with_most_water),
             FACT(years_that_repeat_do_not_accumulate),
             FACT(growth_fails_even_where_its_amount_rounds_to_none),
             FACT(water_run_off_at_the_guide_is_not_above_it),
             FACT(what_touches_a_plane_decides_whether_it_sheds),
             FACT(inward_water_is_judged_by_amount_and_by_what_stays),
             FACT(in_the_sun_the_sun_warmed_months_count),
             FACT(hours_without_sun_dry_what_the_sun_drove_in),
             FACT(the_room_surface_takes_no_inward_water),
             FACT(rain_wets_only_an_absorbing_face_that_it_reaches),
             FACT(a_wetting_that_moves_elsewhere_is_said),
             FACT(the_most_humid_month_of_the_surface_is_named),
             FACT(the_water_of_a_zone_is_charged_to_both_of_its_ends),
             FACT(without_timber_the_period_reserve_has_no_limit),
             FACT(a_row_is_found_by_section_and_criterion),
             FACT(infinity_is_no_limit_and_a_margin_is_a_share_of_the_limit),
             FACT(marginal_is_as_the_methods_say),
             FACT(a_dry_plane_is_no_water_anywhere))
