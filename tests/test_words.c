/* How the whole is put into words, what a simulation is named for, and the
 * limits of the monthly method. */

#include <math.h>
#include <stdlib.h>

#include "bothways/profile.h"
#include "has_words.h"
#include "one_case.h"
#include "profile_case.h"
#include "scope.h"
#include "simulated_case.h"
#include "suite.h"
#include "verdict.h"

/* ---- the whole in words ------------------------------------------------ */

static const bw_criterion_id several[] = {BW_C_CONDENSATE, BW_C_INWARD,
                                          BW_C_CONDENSATE_NON_ABSORBING};

static const char *said(double value, size_t rows)
{
    c.rows.count = 0;
    for (size_t i = 0; i < rows; i++)
        bw_rows_against(&c.rows, several[i], value, 1.0, "so");
    bw_verdict_settle(&c.rows);
    return bw_verdict_reason(&c.rows, NULL, 0);
}

START_TEST(the_sentence_counts_the_other_criteria)
{
    const double nan = (double)NAN;
    has(said(2.0, 2), "One more criterion fails.");
    has(said(2.0, 3), "2 more criteria fail.");
    has(said(0.95, 2), "One more criterion is marginal.");
    has(said(0.95, 3), "2 more criteria are marginal.");
    has(said(nan, 2), "One more criterion is not assessed.");
    has(said(nan, 3), "2 more criteria are not assessed.");
    ck_assert_ptr_null(strstr(said(2.0, 1), "more"));
    has(said(0.5, 3), "Every criterion that decides holds. Closest");
    has(said(0.5, 0), "No criterion that decides was assessed.");
}
END_TEST

START_TEST(the_row_closest_to_its_limit_is_named)
{
    bw_rows_against(&c.rows, BW_C_ANNUAL_BALANCE, 0.0, 0.0,
                    "zero"); /* no share */
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.2, 1.0, "far");
    bw_rows_against(&c.rows, BW_C_INWARD, 0.1, 0.2, "near"); /* half of it */
    bw_rows_against(&c.rows, BW_C_RUN_OFF, 0.199, 0.2, "shown only");
    bw_rows_against(&c.rows, BW_C_CONDENSATE_NON_ABSORBING, 0.1, 1.0,
                    "farther");
    bw_verdict_settle(&c.rows);
    has(bw_verdict_reason(&c.rows, NULL, 0), "near");
    c.rows.count = 1;
    ck_assert_str_eq(bw_verdict_reason(&c.rows, NULL, 0),
                     "Every criterion that decides holds.");
}
END_TEST

START_TEST(the_section_is_said_where_there_are_two)
{
    static const struct {
        const char *section, *words;
    } cases[] = {{"between-studs", "(between studs): so"},
                 {"through-stud", "(through a stud): so"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.rows.section = cases[i].section;
        has(said(2.0, 1), cases[i].words);
    }
    c.rows.section = "whole";
    ck_assert_ptr_null(strstr(said(2.0, 1), "stud"));
}
END_TEST

/* As a share of the limit; of equals the first. A limit of zero counts as 0.1
 * in its unit. */
START_TEST(of_those_that_fail_the_one_furthest_beyond_its_limit_is_named)
{
    static const struct {
        double condensate, mould, growth;
        const char *named;
    } cases[] = {
        {2.0, 4.0, 0.0, "monthly. One more criterion fails."},
        {1.1, 4.0, 0.0, "simulated. One more"},
        {2.0, 6.0, 0.0, "monthly. One more"}, /* equal */
        {2.0, 6.0, 0.11, "growing. 2 more"},
        {0.5, 3.0, 0.0, "simulated."},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.rows.count = 0;
        bw_rows_against(&c.rows, BW_C_CONDENSATE, cases[i].condensate, 1.0,
                        "monthly");
        bw_rows_against(&c.rows, BW_C_MOULD_HIDDEN, cases[i].mould, 3.0,
                        "simulated");
        bw_rows_against(&c.rows, BW_C_ACCUMULATION, cases[i].growth, 0.0,
                        "growing");
        bw_verdict_settle(&c.rows);
        has(bw_verdict_reason(&c.rows, NULL, 0), cases[i].named);
    }
}
END_TEST

START_TEST(of_a_marginal_wall_the_simulation_is_named_first)
{
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.999, 1.0, "monthly");
    bw_rows_against(&c.rows, BW_C_MOULD_HIDDEN, 2.8, 3.0, "one");
    bw_rows_against(&c.rows, BW_C_MOULD_ROOM, 0.99, 1.0, "closer");
    bw_rows_against(&c.rows, BW_C_INWARD, 0.1999, 0.2, "of another section");
    bw_verdict_settle(&c.rows);
    has(bw_verdict_reason(&c.rows, NULL, 0), "closer. 3 more");
}
END_TEST

/* Days above a limit of none, weeks as long as was simulated: no share of a
 * limit, and named where nothing else is marginal. Hours of the year count as
 * those that are left of it: 4740 of 8040 beyond. */
START_TEST(of_a_marginal_wall_counts_of_days_and_weeks_are_named_last)
{
    static const struct {
        double mould, hours;
        const char *named;
    } cases[] = {
        {2.8, 100.0, "mouldy. 2 more criteria are marginal."},
        {2.8, 5460.0, "humid. 3 more criteria are marginal."},
        {1.0, 5460.0, "humid. 2 more"},
        {1.0, 100.0, "days. One more criterion is marginal."},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.rows.count = 0;
        bw_rows_against(&c.rows, BW_C_HUMID_HOURS, cases[i].hours, 720.0,
                        "humid");
        bw_rows_against(&c.rows, BW_C_TIMBER_LINE, 300.0, 0.0, "days");
        bw_rows_against(&c.rows, BW_C_FIRST_YEAR, 104.0, 13.0, "weeks");
        bw_rows_against(&c.rows, BW_C_MOULD_HIDDEN, cases[i].mould, 3.0,
                        "mouldy");
        bw_verdict_settle(&c.rows);
        has(bw_verdict_reason(&c.rows, NULL, 0), cases[i].named);
        has(bw_verdict_reason(&c.rows, NULL, 0),
            bw_verdict_row(&c.rows)->row.reason);
    }
}
END_TEST

/* 80 % RH is met long before 100 %. */
START_TEST(surface_condensation_is_not_named_where_mould_is_judged)
{
    for (int mould = 0; mould < 3; mould++) { /* no row, shown, decides */
        c.rows.count = 0;
        bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.8, 1.0, "the months");
        bw_rows_against(&c.rows, BW_C_SURFACE_CONDENSATION, 89.0, 100.0,
                        "damp");
        if (mould > 0)
            bw_rows_against(&c.rows, BW_C_SURFACE_MOULD, 0.9, 0.7, "warm")
                ->informative = mould == 1;
        bw_verdict_settle(&c.rows);
        has(bw_verdict_reason(&c.rows, NULL, 0),
            mould == 2 ? "the months" : "damp");
    }
}
END_TEST

/* What the simulation says and what a method within its limits says. */
START_TEST(where_they_disagree_the_simulation_and_the_months_are_both_named)
{
    static const struct {
        double hours; /* above 95 % RH, of at most 720 */
        const char *first, *then;
    } cases[] = {
        {0.0, "The simulation finds nothing that fails, another method within",
         "all planes: cross-check by the monthly method, which fails it: wet."},
        {900.0, "Hours a year above 95 % RH",
         "The monthly method, within its limits, fails: Most condensate"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.rows.count = 0;
        bw_rows_against(&c.rows, BW_C_CONDENSATE, 2.0, 1.0, "wet");
        bw_rows_against(&c.rows, BW_C_HUMID_HOURS, cases[i].hours, 720.0,
                        "damp");
        bw_verdict_screen(&c.rows, false, true);
        bw_verdict_settle(&c.rows);
        ck_assert_int_eq(bw_verdict_overall(&c.rows), BW_MARGINAL);
        const char *reason = bw_verdict_reason(&c.rows, NULL, 0);
        ck_assert_ptr_eq(strstr(reason, cases[i].first), reason);
        has(reason, cases[i].then);
    }
}
END_TEST

START_TEST(what_is_beyond_the_method_is_named_with_what_the_simulation_said)
{
    const bw_scope_item beyond[] = {{"hemp", ""}, {"rain", ""}};
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.5, 1.0, "dry");
    bw_verdict_screen(&c.rows, true, false);
    bw_verdict_settle(&c.rows);
    has(bw_verdict_reason(&c.rows, beyond, 1), "(hemp)");
    has(bw_verdict_reason(&c.rows, beyond, 2), "(hemp and more)");
    has(bw_verdict_reason(&c.rows, beyond, 1),
        "Not simulated: the simulation was switched off (--monthly-only)");
    bw_rows_none(&c.rows, BW_C_TRANSIENT, "no rain; write it");
    const char *reason = bw_verdict_reason(&c.rows, beyond, 1);
    ck_assert_ptr_eq(strstr(reason, "Not simulated: no rain; write it. "),
                     reason);
    has(bw_verdict_reason(&c.rows, NULL, 0), "--monthly-only lets it decide");
    bw_rows_against(&c.rows, BW_C_SURFACE_MOULD, 0.5, 0.7, "cold");
    bw_verdict_settle(&c.rows); /* it fails, and nothing was simulated */
    has(bw_verdict_reason(&c.rows, beyond, 1),
        "cold. Not simulated: no rain; write it.");
    c.rows.count = 0; /* of a section that was none the reason is the first */
    bw_rows_none(&c.rows, BW_C_TRANSIENT, "no rain; write it");
    bw_rows_none(&c.rows, BW_C_MOULD_HIDDEN, "no index");
    reason = bw_verdict_reason(&c.rows, beyond, 1);
    ck_assert_ptr_eq(strstr(reason, "Not simulated: no rain"), reason);
    c.rows.count = 0; /* nor what months could not tell */
    bw_rows_none(&c.rows, BW_C_ANNUAL_BALANCE, "no number");
    bw_rows_none(&c.rows, BW_C_TRANSIENT, "no rain; write it");
    reason = bw_verdict_reason(&c.rows, beyond, 1);
    ck_assert_ptr_eq(strstr(reason, "Not simulated: no rain"), reason);
    c.rows.count = 0; /* a rule that could not be judged is not that */
    bw_rows_none(&c.rows, BW_C_INNER_SD, "no data");
    has(bw_verdict_reason(&c.rows, beyond, 1), "no data.");
}
END_TEST

START_TEST(a_screening_says_what_its_number_alone_would_give)
{
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 2.0, 1.0, "so");
    bw_rows_against(&c.rows, BW_C_RESERVE_LEAKY, 5.0, 1.0, "so");
    bw_verdict_screen(&c.rows, true, true);
    has(c.rows.row[0].row.reason, "would fail");
    has(c.rows.row[1].row.reason, "would hold");
    c.rows.count = 0;
    bw_rows_against(&c.rows, BW_C_CONDENSATE, 0.95, 1.0, "so");
    bw_rows_none(&c.rows, BW_C_DRYING, "as it was");
    bw_verdict_screen(&c.rows, true, true);
    has(c.rows.row[0].row.reason, "would hold, marginally");
    ck_assert_str_eq(c.rows.row[1].row.reason, "as it was");
    for (size_t i = 0; i < 2; i++)
        ck_assert(c.rows.row[i].row.screening && !c.rows.row[i].row.decides);
}
END_TEST

/* ---- the limits of the monthly method ---------------------------------- */

static size_t scope_count(size_t capacity)
{
    bw_section_assessment part = {.section = &c.section};
    bw_scope_item items[8];
    return bw_scope_find(items, capacity, &c.rows, &c.assembly, &part, 1);
}

START_TEST(the_list_of_what_is_beyond_ends_where_its_room_does)
{
    for (size_t i = 0; i < 3; i++) {
        c.material[i].hygroscopic = true;
        c.material[i].group = "insulation";
        c.slab[i].kind = BW_LAYER_SOLID;
        c.slab[i].thickness = 0.1;
    }
    ck_assert_uint_eq(scope_count(8), 3);
    ck_assert_uint_eq(scope_count(2), 2);
    c.material[2].group = "board"; /* damp or not is not known: no run */
    ck_assert_uint_eq(scope_count(8), 2);
}
END_TEST

START_TEST(rain_and_roofs_are_of_the_slab_outside)
{
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    ck_assert_uint_eq(scope_count(8), 1);
    c.material[0].absorbs_condensate = false;
    ck_assert_uint_eq(scope_count(8), 0);
    c.material[0].water_absorption = case_value(0.05); /* kg/(m2 s^0.5) */
    ck_assert_uint_eq(scope_count(8), 1);
    c.section.slab_count = 0; /* no face at all */
    ck_assert_uint_eq(scope_count(8), 0);
    c.section.slab_count = CASE_LAYERS;
    c.slab[0].kind = BW_LAYER_MEMBRANE;
    ck_assert_uint_eq(scope_count(8), 0);
    c.assembly.element = BW_ELEMENT_ROOF;
    c.slab[0].sd_dry = 2.01;
    ck_assert_uint_eq(scope_count(8), 1);
    c.slab[0].sd_dry = 2.0; /* a cover tighter than 2 m */
    ck_assert_uint_eq(scope_count(8), 0);
    c.slab[0].sd_dry = 100.0;
    c.section.dropped_layers = 1; /* ventilated */
    ck_assert_uint_eq(scope_count(8), 0);
    c.section.dropped_layers = 0;
    c.section.slab_count = 0;
    ck_assert_uint_eq(scope_count(8), 0);
    c.assembly.rain_leak = (bw_rain_leak){true, 0.0, 0};
    ck_assert_uint_eq(scope_count(8), 0); /* none leaks */
}
END_TEST

/* Every limit a second time, from its source as docs/methods.md has it; the
 * shipped rule sets add rules and move none of them. */
START_TEST(the_limits_are_those_of_their_sources)
{
    for (size_t i = 0; i < bw_profiles_count(shipped_profiles()); i++) {
        const bw_profile *p = bw_profiles_at(shipped_profiles(), i);
        const struct {
            bw_criterion_id id;
            double source;
        } limits[] = {
            {BW_C_CONDENSATE, 1.0},               /* DIN 4108-3 [seen] */
            {BW_C_CONDENSATE_NON_ABSORBING, 0.5}, /* the same */
            {BW_C_WOOD_RISE, 5.0},                /* the same */
            {BW_C_PANEL_RISE, 3.0},               /* the same */
            {BW_C_PERIOD_CONDENSATE, 1.0},        /* the same */
            {BW_C_PERIOD_NON_ABSORBING, 0.5},     /* the same */
            {BW_C_PERIOD_WOOD_RISE, 5.0},         /* the same */
            {BW_C_PERIOD_PANEL_RISE, 3.0},        /* the same */
            {BW_C_BOTH_WET, 1.0},                 /* the same */
            {BW_C_RUN_OFF, 0.2},                /* ISO 13788 [memory, medium] */
            {BW_C_INWARD, 0.2},                 /* the same figure */
            {BW_C_STANDING_WATER, 0.2},         /* the same figure */
            {BW_C_RESERVE, 0.100},              /* DIN 68800-2 [memory, high] */
            {BW_C_PERIOD_RESERVE, 0.100},       /* the same */
            {BW_C_WOOD_MOISTURE, 20.0},         /* the same */
            {BW_C_PANEL_MOISTURE, 18.0},        /* the same */
            {BW_C_FIRST_YEAR, 13.0},            /* the same [medium] */
            {BW_C_SURFACE_CONDENSATION, 100.0}, /* saturation */
            {BW_C_DECAY, 325.0},      /* Isaksson et al. [memory, high] */
            {BW_C_MOULD_HIDDEN, 3.0}, /* ASHRAE 160 [memory, high] */
            {BW_C_MOULD_ROOM, 1.0},   /* common practice, no source */
            {BW_C_DRYING, 12.0},      /* the same from here */
            {BW_C_WETTING, 12.0},
            {BW_C_HUMID_HOURS, 720.0},
            {BW_C_COVERING, 720.0},
        };
        for (size_t k = 0; k < COUNT(limits); k++)
            ck_assert_double_eq(bw_limit_under(p, limits[k].id, 0),
                                limits[k].source);
        /* roofs [seen]; faces that do not absorb [seen] */
        ck_assert_double_eq(bw_limit_under(p, BW_C_RESERVE, 1), 0.250);
        ck_assert_double_eq(bw_limit_under(p, BW_C_PERIOD_RESERVE, 1), 0.250);
        ck_assert_double_eq(bw_limit_under(p, BW_C_BOTH_WET, 1), 0.5);
    }
    /* ISO 13788 [memory, high] */
    ck_assert_int_eq(BW_SURFACE_RH, 80);
}
END_TEST

/* Common practice, no source: docs/methods.md, "Words". */
START_TEST(what_is_asked_beyond_the_limits_is_as_the_methods_say)
{
    const struct {
        bw_criterion_id id;
        double amount;
    } amounts[] = {{BW_C_SURFACE_MOULD, 0.02},
                   {BW_C_FRSI_LEAST, 0.02},
                   {BW_C_RESERVE_LEAKY, 0.010},
                   {BW_C_STEADY_CHECK, 2.0},
                   {BW_C_CAVITY_WIDTH, 0.0}};
    ck_assert_double_eq(BW_MARGINAL_SHARE, 0.10);
    ck_assert_double_eq(BW_MARGINAL_SHARE_ASSUMED, 0.20);
    for (size_t i = 0; i < COUNT(amounts); i++) {
        const bw_criterion_facts *f = bw_criterion_facts_of(amounts[i].id);
        ck_assert_int_eq(f->marginal, BW_MARGINAL_BY_AMOUNT);
        ck_assert_double_eq(f->marginal_by, amounts[i].amount);
    }
}
END_TEST

START_TEST(a_start_above_90_percent_is_wet)
{
    c.layer[0].has_initial_moisture = c.layer[0].initial_is_rh = true;
    c.layer[0].initial_moisture = 0.90;
    ck_assert_uint_eq(scope_count(8), 0);
    c.layer[0].initial_moisture = 0.91;
    ck_assert_uint_eq(scope_count(8), 1);
}
END_TEST

/* ---- the simulation ---------------------------------------------------- */

static simulated_case sim;

START_TEST(the_wettest_wood_and_its_month_are_named)
{
    simulated_make(&sim, &c);
    for (size_t k = 2; k < CASE_LAYERS; k++)
        simulated_wood(&sim, &c, k, BW_WOOD_PANEL);
    sim.slab[0].highest_wood_moisture = 0.15;
    sim.slab[2].highest_wood_moisture = 0.17;
    sim.slab[2].highest_month = 3;
    sim.slab[2].hours_above_limit = 12;
    sim.slab[3].highest_wood_moisture = 0.10;
    sim.part.transient.years = 1;
    simulated_judge(&sim, &c);
    has(case_row(&c, BW_C_PANEL_MOISTURE)->reason, "17.0 % in foil, wettest");
    has(case_row(&c, BW_C_PANEL_MOISTURE)->reason, "Apr");
    has(case_row(&c, BW_C_PERIODIC_WATER)->reason, "1 year simulated");
    sim.slab[2].highest_wood_moisture = 0.19;
    sim.part.transient.years = 2;
    simulated_judge(&sim, &c);
    has(case_row(&c, BW_C_PANEL_MOISTURE)->reason,
        "12 h of the last year above the limit");
    has(case_row(&c, BW_C_PERIODIC_WATER)->reason, "2 years simulated");
}
END_TEST

START_TEST(the_mouldiest_hidden_face_is_judged_and_its_dampest_month_named)
{
    simulated_make(&sim, &c);
    sim.mould[0].highest = 6.0; /* the weather's */
    sim.mould[CASE_SHEATHING + 1].highest = 1.0;
    sim.mould[CASE_INSULATION + 1].highest = 2.0;
    bw_monitor *worst = &sim.monitor[CASE_INSULATION + 1];
    worst->month_rh[0] = 0.5;
    worst->month_rh[10] = 0.91;
    worst->month_rh[11] = 0.7;
    simulated_judge(&sim, &c);
    ck_assert_double_eq(case_row(&c, BW_C_MOULD_HIDDEN)->value, 2.0);
    has(case_row(&c, BW_C_MOULD_HIDDEN)->reason,
        "dampest in Nov (mean 91 % RH)");
    sim.part.transient.monitor_count--; /* no room face is watched */
    simulated_judge(&sim, &c);
    ck_assert_ptr_null(case_row(&c, BW_C_MOULD_ROOM));
}
END_TEST

/* ---- whole walls ------------------------------------------------------- */

/* docs/methods.md: the outermost solid layer if it takes up water, else none.
 */
START_TEST(the_sun_drives_water_out_of_the_outermost_layer_that_holds_it)
{
    const struct {
        bool panel, wool;
        size_t wet;
    } cases[] = {{true, false, 0}, {false, true, CASE_LAYERS}, {true, true, 0}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.material[CASE_SHEATHING].absorbs_condensate = cases[i].panel;
        c.material[CASE_INSULATION].absorbs_condensate = cases[i].wool;
        bw_assessment *a = case_steady(&c);
        ck_assert_uint_eq(a->section[0].inward_slab, cases[i].wet);
        bw_assessment_free(a);
    }
}
END_TEST

/* How many rows hold by little, and how many of them for an assumed layer. */
static size_t held_by_little(size_t *assumed)
{
    size_t found = 0;
    bw_assessment *a = case_steady(&c);
    *assumed = 0;
    for (size_t i = 0; i < a->criterion_count; i++) {
        found += strstr(a->criterion[i].reason, "holds by less than") != NULL;
        *assumed += strstr(a->criterion[i].reason, "only assumed") != NULL;
    }
    bw_assessment_free(a);
    return found;
}

START_TEST(an_assumed_layer_is_said_only_where_there_is_one)
{
    size_t found = 0, assumed = 0, said = 0;
    for (int class = 1; class <= 5; class ++) {
        c.assembly.indoors.humidity_class = class;
        c.layer[CASE_LINING].evidence = BW_EVIDENCE_TABULATED;
        found += held_by_little(&assumed);
        ck_assert_uint_eq(assumed, 0);
        c.layer[CASE_LINING].evidence = BW_EVIDENCE_ASSUMED;
        ck_assert_uint_ge(held_by_little(&assumed), assumed);
        said += assumed;
    }
    ck_assert_uint_gt(said, 0);
    ck_assert_uint_gt(found, 0);
}
END_TEST

/* For dwellings and the like, neither humidified nor cooled [seen]. */
START_TEST(the_period_balance_is_made_up_to_60_percent_indoors)
{
    const struct {
        double rh;
        bool made;
    } cases[] = {{0.50, true}, {0.60, true}, {0.61, false}};
    c.assembly.indoors.kind = BW_INDOOR_RH;
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.assembly.indoors.relative_humidity = cases[i].rh;
        bw_assessment *a = case_steady(&c);
        bool made = false;
        for (size_t k = 0; k < a->criterion_count; k++)
            if (strcmp(a->criterion[k].criterion, "period-balance") == 0)
                made = a->criterion[k].has_value;
        ck_assert_int_eq(made, cases[i].made);
        bw_assessment_free(a);
    }
}
END_TEST

static const bw_criterion *steady_check(void)
{
    bw_section_assessment part = {.section = &c.section, .frsi = 0.9};
    c.rows.count = 0;
    c.rows.profile = profile_named("uk-nhbc");
    bw_judge_profile(&c.rows, &c.assembly, &part);
    return case_row(&c, BW_C_STEADY_CHECK);
}

START_TEST(the_steady_check_sees_planes_behind_thin_layers_and_no_surface)
{
    c.slab[CASE_SHEATHING].resistance = 0.0; /* a tight sheet outside */
    c.slab[CASE_SHEATHING].sd_dry = c.slab[CASE_SHEATHING].sd_wet = 100.0;
    ck_assert_int_eq(steady_check()->outcome, BW_FAILS);
    c.section.slab_count = 1; /* two surfaces, and nothing between */
    ck_assert_int_eq(steady_check()->outcome, BW_NOT_ASSESSED);
    has(steady_check()->reason, "no plane between the surfaces");
}
END_TEST

SUITE_AROUND(
    "words", setup, teardown, FACT(the_sentence_counts_the_other_criteria),
    FACT(the_row_closest_to_its_limit_is_named),
    FACT(the_section_is_said_where_there_are_two),
    FACT(of_those_that_fail_the_one_furthest_beyond_its_limit_is_named),
    FACT(of_a_marginal_wall_the_simulation_is_named_first),
    FACT(of_a_marginal_wall_counts_of_days_and_weeks_are_named_last),
    FACT(surface_condensation_is_not_named_where_mould_is_judged),
    FACT(where_they_disagree_the_simulation_and_the_months_are_both_named),
    FACT(what_is_beyond_the_method_is_named_with_what_the_simulation_said),
    FACT(a_screening_says_what_its_number_alone_would_give),
    FACT(the_list_of_what_is_beyond_ends_where_its_room_does),
    FACT(rain_and_roofs_are_of_the_slab_outside),
    FACT(the_wettest_wood_and_its_month_are_named),
    FACT(the_mouldiest_hidden_face_is_judged_and_its_dampest_month_named),
    FACT(the_limits_are_those_of_their_sources),
    FACT(what_is_asked_beyond_the_limits_is_as_the_methods_say),
    FACT(a_start_above_90_percent_is_wet),
    FACT(the_sun_drives_water_out_of_the_outermost_layer_that_holds_it),
    FACT(an_assumed_layer_is_said_only_where_there_is_one),
    FACT(the_period_balance_is_made_up_to_60_percent_indoors),
    FACT(the_steady_check_sees_planes_behind_thin_layers_and_no_surface))
