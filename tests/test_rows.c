/* One row at a time: what it says of month and place, whether it decides, and
 * what counts as none. Facts of docs/methods.md, written here a second time;
 * results are made by hand. */

#include <math.h>
#include <stdlib.h>

#include "criteria/scope.h"
#include "criteria/verdict.h"
#include "has_words.h"
#include "one_case.h"
#include "simulated_case.h"
#include "suite.h"

/* The row of a criterion once all is settled. */
static const bw_criterion *settled(bw_criterion_id id)
{
    bw_verdict_settle(&c.rows);
    const bw_criterion *row = case_row(&c, id);
    ck_assert_ptr_nonnull(row);
    return row;
}

/* ---- the monthly runs --------------------------------------------------- */

/* "years repeat until a year ends as it began (within 1e-6 kg/m2)": more than
 * that is left, less is not. */
START_TEST(more_than_a_milligram_left_after_a_year_fails)
{
    static const struct {
        double left;
        bw_verdict verdict;
    } cases[] = {{0.95e-6, BW_HOLDS}, {1.05e-6, BW_FAILS}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_plane plane;
        bw_monthly_result design = case_result(&plane, 0.1);
        design.residual_first = plane.residual = cases[i].left;
        c.rows.count = 0;
        bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
        ck_assert_int_eq(settled(BW_C_ANNUAL_BALANCE)->verdict,
                         cases[i].verdict);
    }
}
END_TEST

/* Growth neither proven nor refuted: "else not assessed if one could not
 * be". */
START_TEST(years_without_an_end_decide)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.05);
    design.periodic = false;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    const bw_criterion *row = settled(BW_C_ACCUMULATION);
    ck_assert(row->decides);
    ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
    ck_assert_int_eq(bw_verdict_overall(&c.rows), BW_NOT_ASSESSED);
}
END_TEST

START_TEST(the_month_of_an_amount_is_named_january_too)
{
    for (int month = 0; month < BW_MONTHS; month++) {
        bw_plane plane;
        bw_monthly_result design = case_result(&plane, 0.1);
        plane.peak_month = month;
        c.rows.count = 0;
        bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
        has(case_row(&c, BW_C_CONDENSATE_NON_ABSORBING)->reason,
            bw_month_name(month));
        has(case_row(&c, BW_C_PANEL_RISE)->reason, bw_month_name(month));
    }
}
END_TEST

/* M_c/(rho d): 1 mm of 650 kg/m3 is 0.65 kg/m2, of which 3 % is 0.0195. */
START_TEST(a_veneer_of_less_than_a_kilogram_is_weighed)
{
    bw_plane plane;
    c.slab[CASE_SHEATHING].thickness = 0.001;
    bw_monthly_result design = case_result(&plane, 0.0130);
    plane.at.depth = 0.001;
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_double_eq_tol(case_row(&c, BW_C_PANEL_RISE)->value, 2.0, 1e-9);
    ck_assert_int_eq(case_row(&c, BW_C_PANEL_RISE)->outcome, BW_HOLDS);
    NAMES(case_row(&c, BW_C_PANEL_RISE)->reason, "0.013", "Mar", "1.0 mm",
          "panel");
}
END_TEST

/* "condensate left after the first year, limit 0; growth, proven or not". */
START_TEST(nothing_may_be_left_and_nothing_may_grow)
{
    static const struct {
        double peak, left, growth;
    } cases[] = {{0.0, 0.0, 0.0}, {0.1, 0.0, 0.0}, {0.1, 0.05, 0.05}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_plane plane;
        bw_monthly_result design = case_result(&plane, cases[i].peak);
        design.residual_first = plane.residual = cases[i].left;
        design.growth = cases[i].growth;
        design.accumulates = cases[i].growth > 0.0;
        design.periodic = !design.accumulates;
        c.rows.count = 0;
        bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
        const bw_criterion *left = case_row(&c, BW_C_ANNUAL_BALANCE);
        const bw_criterion *grown = case_row(&c, BW_C_ACCUMULATION);
        ck_assert(left->has_limit && grown->has_limit);
        ck_assert_double_eq(left->value, cases[i].left);
        ck_assert_double_eq(left->limit, 0.0);
        ck_assert_double_eq(grown->value, cases[i].growth);
        ck_assert_double_eq(grown->limit, 0.0);
    }
}
END_TEST

START_TEST(a_reserve_without_a_limit_does_not_decide)
{
    bw_plane plane;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    bw_monthly_result design = case_result(&plane, 0.0);
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert(!settled(BW_C_RESERVE)->decides);
    ck_assert_int_eq(bw_verdict_overall(&c.rows), BW_HOLDS);
}
END_TEST

/* ---- inwards ------------------------------------------------------------ */

/* What is driven in in July and stays, beside the wool. */
START_TEST(more_than_a_milligram_driven_inwards_is_water)
{
    static const struct {
        double amount, left;
        bool said;
        bw_verdict verdict;
    } cases[] = {{0.95e-6, 0.0, false, BW_HOLDS},
                 {1.05e-6, 0.0, true, BW_HOLDS},
                 {0.1, 0.95e-6, true, BW_HOLDS},
                 {0.1, 1.05e-6, true, BW_FAILS}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_plane plane[2] = {{.at = {CASE_SHEATHING, 0.009, true}},
                             {.at = {CASE_INSULATION, 0.14, true}}};
        plane[1].month[6].condensation = cases[i].amount;
        plane[1].month[8].condensation = cases[i].left - cases[i].amount;
        bw_section_assessment part = {
            .section = &c.section,
            .run[BW_RUN_INWARD].ran = true,
            .inward_slab = CASE_SHEATHING,
            .run[BW_RUN_INWARD].result = {
                .plane_count = 2, .plane = plane, .start_month = 3}};
        for (int m = 0; m < BW_MONTHS; m++) {
            part.boundary[m] = (bw_boundary){.theta_i = 20.0, .p_i = 1300.0};
            plane[0].month[m].saturation_pressure = 3000.0;
        }
        c.rows.count = 0;
        bw_judge_inward(&c.rows, &c.assembly, &part);
        const bw_criterion *row = settled(BW_C_INWARD);
        ck_assert_int_eq(row->verdict, cases[i].verdict);
        ck_assert_int_eq(row->value > 0.0, cases[i].said);
    }
}
END_TEST

/* "in months in which the vapour pressure at its inner face is above the
 * room's": 1300 Pa here. */
START_TEST(the_inner_face_of_the_wet_layer_drives_inwards)
{
    bw_boundary boundary[BW_MONTHS];
    bw_plane plane[3] = {{.at = {CASE_SHEATHING, 0.004, false}},
                         {.at = {CASE_SHEATHING, 0.009, true}},
                         {.at = {CASE_INSULATION, 0.14, true}}};
    plane[2].month[6].condensation = 0.1;
    for (int m = 0; m < BW_MONTHS; m++) {
        boundary[m] = (bw_boundary){.theta_i = 20.0, .p_i = 1300.0};
        plane[0].month[m].saturation_pressure = 3000.0; /* in the sun */
        plane[1].month[m].saturation_pressure = 1200.0;
        plane[2].month[m].saturation_pressure = 2000.0;
    }
    bw_monthly_result inward = {.plane_count = 3, .plane = plane};
    ck_assert_double_eq(
        bw_inward_water_of(&c.section, CASE_SHEATHING, boundary, NULL, &inward)
            .peak,
        0.0);
    plane[1].month[6].saturation_pressure = 1400.0;
    ck_assert_double_eq(
        bw_inward_water_of(&c.section, CASE_SHEATHING, boundary, NULL, &inward)
            .peak,
        0.1);
}
END_TEST

/* Twelve months from the first: what comes in then comes in once. */
START_TEST(a_year_of_inward_water_has_twelve_months)
{
    bw_boundary boundary[BW_MONTHS];
    bw_plane plane[2] = {{.at = {CASE_SHEATHING, 0.009, true}},
                         {.at = {CASE_INSULATION, 0.14, true}}};
    plane[1].month[3].condensation = 0.1;
    for (int m = 0; m < BW_MONTHS; m++) {
        boundary[m] = (bw_boundary){.theta_i = 20.0, .p_i = 1300.0};
        plane[0].month[m].saturation_pressure = 3000.0;
    }
    for (int start = 0; start < BW_MONTHS; start++) {
        bw_monthly_result inward = {
            .plane_count = 2, .plane = plane, .start_month = start};
        bw_inward_water water = bw_inward_water_of(&c.section, CASE_SHEATHING,
                                                   boundary, NULL, &inward);
        ck_assert_double_eq(water.peak, 0.1);
        ck_assert_double_eq(water.inflow, 0.1);
        ck_assert_int_eq(water.peak_month, 3);
    }
}
END_TEST

/* ---- surfaces ----------------------------------------------------------- */

START_TEST(there_are_as_many_surface_rows_as_surfaces)
{
    for (size_t count = 1; count <= 3; count++) {
        bw_section_assessment part = {.section = &c.section,
                                      .surface_count = count};
        for (size_t i = 0; i < 3; i++)
            part.surface[i].rsi_source = "test";
        c.rows.count = 0;
        bw_judge_surfaces(&c.rows, &part);
        ck_assert_uint_eq(c.rows.count, count + 1); /* and condensation */
    }
}
END_TEST

START_TEST(the_limit_of_surface_humidity_is_in_percent)
{
    bw_section_assessment part = {.section = &c.section, .surface_count = 1};
    part.surface[0].rsi_source = "test";
    part.surface[0].highest_rh = 0.5;
    bw_judge_surfaces(&c.rows, &part);
    const bw_criterion *row = case_row(&c, BW_C_SURFACE_CONDENSATION);
    ck_assert_double_eq_tol(row->value, 50.0, 1e-12);
    ck_assert_double_eq_tol(row->limit, 100.0, 1e-12);
}
END_TEST

/* ---- the simulation ----------------------------------------------------- */

static simulated_case sim;

/* "Total water periodic or falling." */
START_TEST(the_water_of_the_years_decides_whatever_it_does)
{
    static const struct {
        bool periodic, rising;
        double change;
        bw_verdict verdict;
    } cases[] = {{true, false, 0.001, BW_HOLDS},
                 {false, false, -0.1, BW_HOLDS},
                 {false, false, 0.0, BW_HOLDS},
                 {false, false, 0.1, BW_NOT_ASSESSED},
                 {false, true, 0.1, BW_FAILS}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        simulated_make(&sim, &c);
        sim.part.transient.periodic = cases[i].periodic;
        sim.part.transient.rising = cases[i].rising;
        sim.part.transient.yearly_change = cases[i].change;
        simulated_judge(&sim, &c);
        const bw_criterion *row = settled(BW_C_PERIODIC_WATER);
        ck_assert(row->decides);
        ck_assert_int_eq(row->verdict, cases[i].verdict);
        if (!cases[i].rising)
            continue;
        ck_assert(row->has_limit);
        ck_assert_double_eq(row->limit, 0.0); /* it must not rise */
        ck_assert_double_eq(row->margin, -cases[i].change);
    }
}
END_TEST

START_TEST(mould_is_said_to_be_between_the_layers_where_it_is)
{
    simulated_make(&sim, &c);
    simulated_mould(&sim, CASE_SHEATHING, 0.5, 0.5);
    simulated_judge(&sim, &c);
    NAMES(case_row(&c, BW_C_MOULD_HIDDEN)->reason, "0.50", "panel",
          "mineral wool");
    simulated_mould(&sim, CASE_INSULATION, 4.0, 4.0);
    simulated_judge(&sim, &c);
    NAMES(case_row(&c, BW_C_MOULD_HIDDEN)->reason, "4.00", "mineral wool",
          "foil");
}
END_TEST

/* ---- the whole ---------------------------------------------------------- */

/* Condensate against 1.0 kg/m2: only where the two choices of mu differ is the
 * other one said. */
START_TEST(the_other_choice_of_mu_is_said_where_it_decides_otherwise)
{
    static const struct {
        double as_chosen, otherwise;
        bool said;
    } cases[] = {{0.5, 0.6, false},
                 {0.5, 1.2, true},
                 {1.2, 0.5, true},
                 {1.2, 0.95, true},
                 {1.2, 1.5, false}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_rows bound = {
            .arena = &c.arena, .profile = c.rows.profile, .section = "whole"};
        c.rows.count = 0;
        bw_rows_against(&c.rows, BW_C_CONDENSATE, cases[i].as_chosen, 1.0,
                        "why");
        bw_rows_against(&bound, BW_C_CONDENSATE, cases[i].otherwise, 1.0, "x");
        bw_verdict_bound(&c.rows, &bound);
        const char *reason = case_row(&c, BW_C_CONDENSATE)->reason;
        has(reason, "why");
        ck_assert_int_eq(strcmp(reason, "why") != 0, cases[i].said);
    }
}
END_TEST

START_TEST(rows_of_one_criterion_stay_in_the_order_they_were_made)
{
    static const char *const said[] = {"first", "second", "third"};
    bw_rows_none(&c.rows, BW_C_SD_RATIO, "last");
    for (size_t i = 0; i < COUNT(said); i++)
        bw_rows_none(&c.rows, BW_C_INNER_SD, said[i]);
    bw_verdict_sort(&c.rows);
    for (size_t i = 0; i < COUNT(said); i++)
        ck_assert_str_eq(c.rows.row[i].row.reason, said[i]);
    ck_assert_str_eq(c.rows.row[COUNT(said)].row.reason, "last");
}
END_TEST

START_TEST(of_two_rows_as_close_to_their_limits_the_first_is_named)
{
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.25, 1.0, "the first");
    bw_rows_against(&c.rows, BW_C_INWARD, 0.5, 2.0, "the second");
    bw_verdict_settle(&c.rows);
    ck_assert_ptr_eq(bw_verdict_row(&c.rows), &c.rows.row[0]);
}
END_TEST

START_TEST(a_row_that_is_not_assessed_is_named_where_nothing_is_beyond)
{
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.5, 1.0, "dry");
    bw_rows_none(&c.rows, BW_C_TRANSIENT, "no data");
    bw_verdict_settle(&c.rows);
    ck_assert_ptr_eq(bw_verdict_row(&c.rows), &c.rows.row[1]);
}
END_TEST

/* ---- the limits of the monthly method ----------------------------------- */

/* "a layer that starts wetter than 20 % by mass, or than its sorption curve
 * at 90 % RH where it is no wood". */
START_TEST(wood_starts_wet_above_20_percent_whatever_its_sorption)
{
    static const double rh[] = {0.5, 0.9}, u[] = {0.05, 0.15};
    static const struct {
        bw_wood_kind kind;
        bool curve;
        double moisture;
        size_t count;
    } cases[] = {
        {BW_SOLID_WOOD, true, 0.19, 0}, {BW_SOLID_WOOD, true, 0.21, 1},
        {BW_WOOD_PANEL, true, 0.19, 0}, {BW_WOOD_PANEL, false, 0.21, 1},
        {BW_NOT_WOOD, true, 0.14, 0},   {BW_NOT_WOOD, true, 0.16, 1},
        {BW_NOT_WOOD, false, 0.16, 0},  {BW_NOT_WOOD, false, 0.21, 1}};
    bw_section_assessment part = {.section = &c.section};
    c.layer[CASE_LINING].has_initial_moisture = true;
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_scope_item items[2];
        c.material[CASE_LINING].wood_kind = cases[i].kind;
        c.material[CASE_LINING].sorption = (bw_curve){
            .count = cases[i].curve ? 2 : 0,
            .x = rh,
            .y = u,
            .source = "test",
            .note = ""};
        c.layer[CASE_LINING].initial_moisture = cases[i].moisture;
        ck_assert_uint_eq(
            bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
            cases[i].count);
    }
}
END_TEST

SUITE_AROUND("rows", setup, teardown,
             FACT(more_than_a_milligram_left_after_a_year_fails),
             FACT(years_without_an_end_decide),
             FACT(the_month_of_an_amount_is_named_january_too),
             FACT(a_veneer_of_less_than_a_kilogram_is_weighed),
             FACT(nothing_may_be_left_and_nothing_may_grow),
             FACT(a_reserve_without_a_limit_does_not_decide),
             FACT(the_inner_face_of_the_wet_layer_drives_inwards),
             FACT(a_year_of_inward_water_has_twelve_months),
             FACT(more_than_a_milligram_driven_inwards_is_water),
             FACT(there_are_as_many_surface_rows_as_surfaces),
             FACT(the_limit_of_surface_humidity_is_in_percent),
             FACT(the_water_of_the_years_decides_whatever_it_does),
             FACT(mould_is_said_to_be_between_the_layers_where_it_is),
             FACT(the_other_choice_of_mu_is_said_where_it_decides_otherwise),
             FACT(rows_of_one_criterion_stay_in_the_order_they_were_made),
             FACT(of_two_rows_as_close_to_their_limits_the_first_is_named),
             FACT(a_row_that_is_not_assessed_is_named_where_nothing_is_beyond),
             FACT(wood_starts_wet_above_20_percent_whatever_its_sorption))
