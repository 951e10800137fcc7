/* Rows where something is missing: a wall without planes, a run without a
 * number, a simulation that did not close, a call that is cancelled. What is
 * not known must read "not assessed" with its reason. */

#include <math.h>
#include <stdlib.h>

#include "criteria/assessing.h"
#include "criteria/scope.h"
#include "criteria/verdict.h"
#include "criteria_case.h"
#include "has_words.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case c;
static bw_assessment *made;
static bw_core core;

static void setup(void)
{
    case_make(&c);
    made = NULL;
    core = (bw_core){0};
}

static void teardown(void)
{
    bw_assessment_free(made);
    bw_core_release(&core);
    case_free(&c);
}

static const bw_assessment *assess(const bw_assessment_options *options)
{
    bw_error err = {0};
    bw_status status = bw_assess(&made, &c.assembly, &c.climate, options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return made;
}

/* ---- rows -------------------------------------------------------------- */

/* A wall of one layer: nothing condenses inside it, and there is no place to
 * compute a reserve for. */
START_TEST(a_run_without_planes_has_no_reserve)
{
    bw_monthly_result design = {.converged = true, .periodic = true};
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_int_eq(case_row(&c, BW_C_ANNUAL_BALANCE)->outcome, BW_HOLDS);
    ck_assert_int_eq(case_row(&c, BW_C_RESERVE)->outcome, BW_NOT_ASSESSED);
}
END_TEST

START_TEST(a_reserve_of_no_plane_is_not_assessed)
{
    bw_plane plane;
    bw_monthly_result design = case_result(&plane, 0.0);
    design.critical_plane = 1; /* there is only plane 0 */
    bw_judge_design(&c.rows, &c.assembly, &c.section, &design);
    ck_assert_int_eq(case_row(&c, BW_C_RESERVE)->outcome, BW_NOT_ASSESSED);
}
END_TEST

START_TEST(a_leaky_run_without_a_reserve_decides_and_is_not_assessed)
{
    bw_plane plane;
    const bw_monthly_run sound = {.ran = true,
                                  .result = case_result(&plane, 0.0)};
    bw_monthly_run leaky[3] = {sound, sound, sound};
    leaky[0].result.has_reserve = false;
    leaky[1].result.converged = false;
    leaky[2].result.critical_plane = 1;
    for (size_t i = 0; i < COUNT(leaky); i++) {
        c.rows.count = 0;
        bw_judge_leakage(&c.rows, &c.section, &leaky[i]);
        bw_verdict_settle(&c.rows);
        ck_assert_int_eq(c.rows.row[0].row.verdict, BW_NOT_ASSESSED);
        ck_assert(c.rows.row[0].row.decides);
    }
}
END_TEST

START_TEST(a_limit_that_is_no_number_is_not_assessed)
{
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 1.0, (double)NAN, "why");
    ck_assert_int_eq(c.rows.row[0].row.outcome, BW_NOT_ASSESSED);
    ck_assert(!c.rows.row[0].row.has_value);
}
END_TEST

START_TEST(any_number_of_rows_is_kept)
{
    for (int i = 0; i < 200; i++)
        bw_rows_against(&c.rows, BW_C_CONDENSATE, i, 1000.0, "row");
    ck_assert_uint_eq(c.rows.count, 200);
    for (int i = 0; i < 200; i++)
        ck_assert_double_eq(c.rows.row[i].row.value, i);
}
END_TEST

START_TEST(another_mu_without_a_row_or_a_number_changes_nothing)
{
    bw_rows bound = {
        .arena = &c.arena, .profile = c.rows.profile, .section = "whole"};
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.1, 1.0, "as drawn");
    bw_rows_against(&bound, BW_C_RUN_OFF, 9.0, 1.0, "not in the rows");
    bw_rows_none(&bound, BW_C_CONDENSATE, "no number");
    bw_verdict_bound(&c.rows, &bound);
    ck_assert_uint_eq(c.rows.count, 1);
    ck_assert_int_eq(c.rows.row[0].row.outcome, BW_HOLDS);
    ck_assert_str_eq(c.rows.row[0].row.reason, "as drawn");
}
END_TEST

START_TEST(a_screened_row_without_a_number_keeps_its_reason)
{
    bw_rows_none(&c.rows, BW_C_ANNUAL_BALANCE, "no plane");
    bw_verdict_screen(&c.rows, true, false);
    ck_assert(c.rows.row[0].row.screening);
    ck_assert_str_eq(c.rows.row[0].row.reason, "no plane");
}
END_TEST

START_TEST(without_a_row_none_decides)
{
    ck_assert_ptr_null(bw_verdict_row(&c.rows));
    ck_assert_int_eq(bw_verdict_overall(&c.rows), BW_NOT_ASSESSED);
}
END_TEST

/* ---- the limits of the monthly method ---------------------------------- */

START_TEST(as_many_limits_are_named_as_there_is_room_for)
{
    bw_section_assessment part = {.section = &c.section};
    bw_scope_item items[2];
    c.material[CASE_INSULATION].hygroscopic = true;
    c.assembly.rain_leak = (bw_rain_leak){.given = true, .fraction = 0.01};
    ck_assert_uint_eq(bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
                      2);
    ck_assert_uint_eq(bw_scope_find(items, 1, &c.rows, &c.assembly, &part, 1),
                      1);
    c.assembly.rain_leak.fraction = 0.0;
    ck_assert_uint_eq(bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
                      1);
}
END_TEST

/* Rain comes through a paint unless its water absorption is known to be 0; a
 * sheet keeps it out unless one is known. */
START_TEST(rain_reaches_an_absorbing_layer_through_a_paint_not_through_a_sheet)
{
    static const struct {
        const char *group;
        bool known;
        double absorption;
        size_t limits;
    } row[] = {{"coating", false, 0, 1},
               {"coating", true, 0.001, 1},
               {"coating", true, 0, 0},
               {"membrane", false, 0, 0},
               {"membrane", true, 0.001, 1}};
    bw_section_assessment part = {.section = &c.section};
    bw_scope_item items[2];
    const bw_slab panel = c.slab[CASE_SHEATHING];
    c.slab[0] = c.slab[CASE_FOIL];
    c.slab[1] = panel;
    c.assembly.outdoors.driving_rain = BW_RAIN_MODERATE;
    for (size_t k = 0; k < COUNT(row); k++) {
        bw_material *paint = &c.material[CASE_FOIL];
        paint->group = row[k].group;
        paint->water_absorption.known = row[k].known;
        paint->water_absorption.value = row[k].absorption;
        ck_assert_uint_eq(
            bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
            row[k].limits);
        if (row[k].limits > 0)
            has(items[0].what, "panel");
    }
}
END_TEST

START_TEST(a_damp_start_is_read_off_the_material_own_curve)
{
    static const double rh[] = {0.5, 0.9}, u[] = {0.01, 0.02};
    bw_section_assessment part = {.section = &c.section};
    bw_scope_item items[2];
    c.material[CASE_LINING].sorption = (bw_curve){
        .count = 2, .x = rh, .y = u, .source = "test", .note = ""};
    bw_layer *lining = &c.layer[CASE_LINING];
    lining->has_initial_moisture = true;
    lining->initial_moisture = 0.005; /* drier than at 50 % */
    ck_assert_uint_eq(bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
                      0);
    lining->initial_moisture = 0.10;
    ck_assert_uint_eq(bw_scope_find(items, 2, &c.rows, &c.assembly, &part, 1),
                      1);
    has(items[0].what, "plasterboard");
}
END_TEST

/* ---- whole assessments ------------------------------------------------- */

START_TEST(a_thick_hygroscopic_layer_needs_a_run_to_be_known_damp)
{
    c.material[CASE_SHEATHING].hygroscopic = true;
    c.layer[CASE_SHEATHING].thickness = 0.100;
    c.climate.month[4].temperature = (double)NAN;
    const bw_assessment_options off = {.no_transient = true};
    ck_assert_uint_eq(assess(&off)->scope_count, 0);
    ck_assert_int_eq(made->verdict, BW_NOT_ASSESSED);
}
END_TEST

/* A wall of one layer that no strip cuts: a cold surface may fail, and the
 * reserve is that of its middle. */
START_TEST(advice_for_a_wall_of_one_layer_has_its_numbers)
{
    c.assembly.layer = &c.layer[CASE_LINING];
    c.assembly.layer_count = 1;
    c.assembly.indoors.humidity_class = 5;
    assess(NULL);
    ck_assert_int_eq(made->verdict, BW_FAILS);
    ck_assert_int_eq(case_named(made, "surface-mould")->verdict, BW_FAILS);
    for (size_t i = 0; i < made->advice_count; i++)
        ck_assert(isfinite(made->advice[i].reserve_after) &&
                  isfinite(made->advice[i].worst_margin_after));
}
END_TEST

START_TEST(months_without_vapour_give_no_synthetic_hours)
{
    case_make_hygroscopic(&c);
    c.climate.month[0].vapour_pressure = 0.0;
    const bw_assessment_options options = {.synthetic_hours = true};
    assess(&options);
    ck_assert(!made->section[0].has_transient);
    has(made->section[0].transient_reason, "vapour");
}
END_TEST

/* docs/methods.md: a balance that is off by more than 1e-3 of the throughput.
 */
START_TEST(a_simulation_whose_water_does_not_close_is_no_simulation)
{
    case_make_hygroscopic(&c);
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .transient = {.max_years = 1}};
    const bw_run_effort effort = {.no_bound = true};
    bw_error err = {0};
    ck_assert_int_eq(
        bw_core_steady(&core, &c.assembly, &c.climate, NULL, &effort, &err),
        BW_OK);
    bw_pool pool;
    bw_pool_open(&pool, 1);
    ck_assert_int_eq(bw_run_transient(&pool, &core.assessment, core.part,
                                      &core.rows, &options, &err),
                     BW_OK);
    bw_pool_close(&pool);
    core.part[0].transient.water_balance_error = 1e-3;
    bw_run_refuse_unclosed(&core.part[0]);
    ck_assert(core.part[0].has_transient);
    core.part[0].transient.water_balance_error = _i == 0 ? 1.01e-3
                                                         : (double)NAN;
    bw_run_refuse_unclosed(&core.part[0]);
    ck_assert(!core.part[0].has_transient);
    ck_assert_ptr_null(core.part[0].transient_section);
    has(core.part[0].transient_reason, "balance");
}
END_TEST

/* Lets the first simulation finish and stops the second, one of the advice. */
static bool stop_the_second(void *payload, double fraction_done)
{
    double *before = payload;
    bool again = fraction_done < *before;
    *before = again ? 2.0 : fraction_done; /* from then on it stops */
    return !again;
}

START_TEST(advice_may_be_cancelled_even_without_an_error_to_fill)
{
    case_make_hygroscopic(&c);
    /* sodden from the start and tight inside: fails */
    c.material[CASE_FOIL].sd = case_value(500.0);
    c.material[CASE_SHEATHING].mu_dry = case_value(5000.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(5000.0);
    c.assembly.indoors.humidity_class = 5;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c.layer[i].has_initial_moisture = c.layer[i].initial_is_rh = true;
        c.layer[i].initial_moisture = 0.97;
    }
    double before = 0.0;
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .transient = {
            .max_years = 1, .progress = stop_the_second, .payload = &before}};
    ck_assert_int_eq(bw_assess(&made, &c.assembly, &c.climate, &options, NULL),
                     BW_ERR_CANCELLED);
    ck_assert_double_eq(before, 2.0);
    ck_assert_ptr_null(made);
}
END_TEST

static bool watch(void *payload, double fraction_done)
{
    double *most = payload;
    ck_assert_double_ge(fraction_done, 0.0);
    ck_assert_double_le(fraction_done, 1.0);
    *most = fmax(*most, fraction_done);
    return fraction_done < 0.9;
}

/* Two sections side by side report one fraction, from 0 to 1; stopped, they
 * say so. */
START_TEST(two_simulations_have_one_progress)
{
    case_make_hygroscopic(&c);
    c.stud.sorption = c.material[CASE_SHEATHING].sorption;
    c.stud.specific_heat = case_value(1600.0);
    c.stud.free_saturation = case_value(600.0);
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    double most = 0.0;
    bw_error err = {0};
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .no_advice = true,
        .transient = {.max_years = 1, .progress = watch, .payload = &most}};
    ck_assert_int_eq(bw_assess(&made, &c.assembly, &c.climate, &options, &err),
                     BW_ERR_CANCELLED);
    ck_assert_double_ge(most, 0.9);
    ck_assert_uint_gt(strlen(err.message), 0);
}
END_TEST

/* ---- rule sets --------------------------------------------------------- */

static const bw_criterion *judged(const char *profile, bw_criterion_id id)
{
    bw_section_assessment part = {.section = &c.section, .frsi = 0.9};
    c.rows.count = 0;
    c.rows.profile = profile_named(profile);
    bw_judge_profile(&c.rows, &c.assembly, &part);
    bw_verdict_settle(&c.rows);
    return case_row(&c, id);
}

static void add_stud(void)
{
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
}

/* Insulation as the innermost layer: there is no barrier inside it. */
START_TEST(without_a_layer_inside_there_is_no_barrier)
{
    add_stud();
    c.section.slab_count = 2;
    const bw_criterion *row = judged("no", BW_C_INNER_SD);
    ck_assert_int_eq(row->verdict, BW_FAILS);
    ck_assert_double_eq(row->value, 0.0);
}
END_TEST

/* The tightest is the one that is so when dry, whatever damp makes of it. */
START_TEST(a_barrier_inside_is_told_by_its_dry_cup_value)
{
    add_stud();
    c.slab[CASE_FOIL].sd_dry = 12.0;
    c.slab[CASE_FOIL].sd_wet = 0.2;
    c.slab[CASE_LINING].sd_dry = c.slab[CASE_LINING].sd_wet = 3.0;
    ck_assert_double_eq(judged("no", BW_C_INNER_SD)->value, 12.0);
    /* and need not be a membrane */
    c.slab[CASE_LINING].sd_dry = 30.0;
    ck_assert_double_eq(judged("no", BW_C_INNER_SD)->value, 30.0);
}
END_TEST

START_TEST(without_a_layer_outside_there_is_no_ratio)
{
    add_stud();
    c.section.slab = &c.slab[CASE_INSULATION];
    c.section.slab_count = 3;
    const bw_criterion *row = judged("fr-2019", BW_C_SD_RATIO);
    ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
    ck_assert(!row->decides);
}
END_TEST

START_TEST(rules_of_timber_construction_need_timber)
{
    static const struct {
        const char *profile;
        bw_criterion_id id;
    } rules[] = {{"no", BW_C_INNER_SD},
                 {"fr-2019", BW_C_SD_RATIO},
                 {"uk-nhbc", BW_C_BREATHER_SD}};
    for (size_t i = 0; i < COUNT(rules); i++) {
        const bw_criterion *row = judged(rules[i].profile, rules[i].id);
        ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
        ck_assert(!row->decides);
        has(row->reason, "timber");
    }
}
END_TEST

START_TEST(the_tightest_breather_counts)
{
    add_stud();
    bw_slab slab[CASE_LAYERS + 1] = {c.slab[CASE_FOIL], c.slab[CASE_FOIL],
                                     c.slab[CASE_INSULATION], c.slab[CASE_FOIL],
                                     c.slab[CASE_LINING]};
    slab[0].sd_dry = 0.05;
    slab[1].sd_dry = 0.20; /* the limit is 0.12 */
    c.section.slab = slab;
    c.section.slab_count = CASE_LAYERS + 1;
    ck_assert_int_eq(judged("uk-nhbc", BW_C_BREATHER_SD)->verdict, BW_FAILS);
    slab[0].sd_dry = 0.20;
    slab[1].sd_dry = 0.05;
    ck_assert_int_eq(judged("uk-nhbc", BW_C_BREATHER_SD)->verdict, BW_FAILS);
    slab[0].sd_dry = 0.05;
    ck_assert_int_eq(judged("uk-nhbc", BW_C_BREATHER_SD)->verdict, BW_HOLDS);
}
END_TEST

START_TEST(the_rule_of_the_outer_face_goes_by_masonry)
{
    bw_section_assessment part = {.section = &c.section, .frsi = 0.9};
    size_t rows[2];
    for (size_t i = 0; i < 2; i++) {
        c.material[CASE_SHEATHING].group = i == 0 ? "board" : "masonry";
        c.rows.count = 0;
        c.rows.profile = profile_named("uk-nhbc");
        bw_judge_profile(&c.rows, &c.assembly, &part);
        rows[i] = c.rows.count;
    }
    ck_assert_uint_eq(rows[0], rows[1]); /* one of the two, never both */
}
END_TEST

SUITE_AROUND(
    "judge", setup, teardown, FACT(a_run_without_planes_has_no_reserve),
    FACT(a_reserve_of_no_plane_is_not_assessed),
    FACT(a_leaky_run_without_a_reserve_decides_and_is_not_assessed),
    FACT(a_limit_that_is_no_number_is_not_assessed),
    FACT(any_number_of_rows_is_kept),
    FACT(another_mu_without_a_row_or_a_number_changes_nothing),
    FACT(a_screened_row_without_a_number_keeps_its_reason),
    FACT(without_a_row_none_decides),
    FACT(as_many_limits_are_named_as_there_is_room_for),
    FACT(rain_reaches_an_absorbing_layer_through_a_paint_not_through_a_sheet),
    FACT(a_damp_start_is_read_off_the_material_own_curve),
    FACT(a_thick_hygroscopic_layer_needs_a_run_to_be_known_damp),
    FACT(advice_for_a_wall_of_one_layer_has_its_numbers),
    FACT(months_without_vapour_give_no_synthetic_hours),
    EACH(a_simulation_whose_water_does_not_close_is_no_simulation, 2),
    FACT(advice_may_be_cancelled_even_without_an_error_to_fill),
    FACT(two_simulations_have_one_progress),
    FACT(without_a_layer_inside_there_is_no_barrier),
    FACT(a_barrier_inside_is_told_by_its_dry_cup_value),
    FACT(without_a_layer_outside_there_is_no_ratio),
    FACT(rules_of_timber_construction_need_timber),
    FACT(the_tightest_breather_counts),
    FACT(the_rule_of_the_outer_face_goes_by_masonry))
