/* Margin: flips proved by assessing walls built here by hand on both sides,
 * the published table of drying reserves as cells of the sd map, independence
 * of the number of threads, and an ensemble whose share is known. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "bothways/margin.h"
#include "criteria_case.h"
#include "has_words.h"
#include "margin/case.h"
#include "margin/halton.h"
#include "margin/steps.h"
#include "one_document.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case c;
static bw_uncertain range[2];
static bw_alternative other;
static bw_material plywood;
static const bw_profile *profile; /* rule set; NULL: the default */

/* Class 5: no humidity unknown, unless a test asks for it. */
static void setup(void)
{
    case_make(&c);
    c.assembly.indoors.humidity_class = 5;
    profile = NULL;
}

static void teardown(void)
{
    case_free(&c);
}

static bw_margin *make(size_t ensemble, int threads)
{
    bw_margin *m = NULL;
    bw_error err = {0};
    bw_margin_options options = {.assessment = {.no_transient = true,
                                                .profile = profile,
                                                .threads = threads},
                                 .ensemble = ensemble};
    bw_status status = bw_margin_make(&m, &c.assembly, &c.climate, &options,
                                      &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return m;
}

static void vary(size_t layer, const char *property, double low, double high)
{
    range[0] = (bw_uncertain){property, low, high};
    c.layer[layer].uncertain = range;
    c.layer[layer].uncertain_count = 1;
}

static const bw_unknown *find(const bw_margin *m, const char *words)
{
    for (size_t i = 0; i < m->unknown_count; i++)
        if (strstr(m->unknown[i].name, words) != NULL)
            return &m->unknown[i];
    return NULL;
}

/* The assembly as it stands, assessed without the margin's own code. */
static bw_verdict outcome_of(const char *section, const char *criterion,
                             size_t *fails)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = {
        .no_transient = true, .no_advice = true, .profile = profile};
    bw_verdict found = BW_NOT_ASSESSED;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    *fails = 0;
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *row = &a->criterion[i];
        *fails += row->decides && row->outcome == BW_FAILS;
        if (strcmp(row->criterion, criterion) == 0 &&
            strcmp(row->section, section) == 0)
            found = row->outcome;
    }
    bw_assessment_free(a);
    return found;
}

/* ---- flips -------------------------------------------------------------- */

static void set_mu(double value)
{
    c.material[CASE_SHEATHING].mu_dry = c.material[CASE_SHEATHING].mu_wet =
        case_value(value);
}

static void set_sd(double value)
{
    c.material[CASE_FOIL].sd = case_value(value);
}

static void set_lambda(double value)
{
    c.material[CASE_INSULATION].thermal_conductivity = case_value(value);
}

static void set_thickness(double value)
{
    c.layer[CASE_INSULATION].thickness = value;
}

static const struct {
    size_t layer;
    const char *property;
    double low, high;
    void (*set)(double value);
} ranges[] = {
    {CASE_SHEATHING, "mu", 2, 2000, set_mu},
    {CASE_FOIL, "sd", 0.02, 200, set_sd},
    {CASE_INSULATION, "lambda", 0.03, 3, set_lambda},
    {CASE_INSULATION, "thickness", 0.002, 0.4, set_thickness},
};

START_TEST(every_flip_shows_when_both_its_sides_are_assessed_again)
{
    vary(ranges[_i].layer, ranges[_i].property, ranges[_i].low,
         ranges[_i].high);
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, ranges[_i].property);
    ck_assert_ptr_nonnull(u);
    ck_assert(u->flips && u->continuous);
    ck_assert_uint_ge(u->flip_count, 1);
    for (size_t i = 0; i < u->flip_count; i++) {
        const bw_flip *f = &u->flip[i];
        size_t fails_below, fails_above;
        ranges[_i].set(f->below);
        bw_verdict below = outcome_of(f->section, f->criterion, &fails_below);
        ranges[_i].set(f->above);
        bw_verdict above = outcome_of(f->section, f->criterion, &fails_above);
        ck_assert_msg((above == BW_FAILS) == f->fails_above &&
                          (below == BW_FAILS) == !f->fails_above,
                      "%s at %g: %s, at %g: %s", f->criterion, f->below,
                      bw_verdict_text(below), f->above, bw_verdict_text(above));
        ck_assert_int_eq(f->changes_verdict,
                         (fails_below == 0) != (fails_above == 0));
        /* the stated tolerance: half-width a ten-thousandth of the range */
        double width = u->geometric
                           ? log(f->above / f->below) / log(u->high / u->low)
                           : (f->above - f->below) / (u->high - u->low);
        ck_assert_double_gt(width, 0.0);
        ck_assert_double_le(width, 2.0001e-4);
        ck_assert(f->below < f->value && f->value < f->above);
    }
    bw_margin_free(m);
}
END_TEST

START_TEST(the_verdicts_of_the_ends_are_those_of_walls_built_with_them)
{
    const char *sure = "condensate-absorbing";
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "mu", 2, 2000);
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "mu");
    size_t fails;
    set_mu(2);
    outcome_of("whole", sure, &fails);
    ck_assert_int_eq(u->verdict_low == BW_FAILS, fails > 0);
    set_mu(2000);
    outcome_of("whole", sure, &fails);
    ck_assert_int_eq(u->verdict_high == BW_FAILS, fails > 0);
    ck_assert_int_ne(u->verdict_low, u->verdict_high);
    ck_assert(u->monotone);
    bw_margin_free(m);
}
END_TEST

/* The rise in moisture of a panel, by its thickness: a thin one lets the
 * vapour through, in a thick one the condensate is little for its mass. */
START_TEST(a_value_that_turns_within_the_range_is_found_not_monotone)
{
    profile = profile_named(
        "de-din4108"); /* which the period balance decides */
    set_mu(40);
    set_sd(1.6);
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "thickness", 0.001, 0.5);
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "thickness");
    ck_assert(!u->monotone);
    ck_assert_uint_eq(u->flip_count, 2);
    ck_assert_str_eq(u->flip[0].criterion, "period-panel-rise");
    ck_assert_str_eq(u->flip[1].criterion, "period-panel-rise");
    ck_assert(u->flip[0].fails_above && !u->flip[1].fails_above);
    ck_assert_int_ne(u->verdict_low, BW_FAILS);
    ck_assert_int_ne(u->verdict_high, BW_FAILS);
    size_t fails;
    c.layer[CASE_SHEATHING].thickness = sqrt(u->flip[0].above *
                                             u->flip[1].below);
    ck_assert_int_eq(outcome_of("whole", "period-panel-rise", &fails),
                     BW_FAILS);
    /* the worst combination uses the worst value, not the worse end */
    ck_assert_int_eq(m->worst_combination, BW_FAILS);
    bw_margin_free(m);
}
END_TEST

START_TEST(the_first_flip_is_the_one_nearest_to_as_drawn)
{
    vary(CASE_SHEATHING, "mu", 2, 2000);
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "mu");
    for (size_t i = 0; i < u->flip_count; i++)
        ck_assert_double_ge(fabs(log(u->flip[i].value / 50.0)) + 1e-12,
                            fabs(log(u->flip_value / 50.0)));
    ck_assert_double_eq_tol(
        u->flip_share, fabs(log(u->flip_value / 50.0)) / log(1000.0), 1e-9);
    bw_margin_free(m);
}
END_TEST

START_TEST(what_is_drawn_outside_its_range_is_said_and_searched)
{
    vary(CASE_SHEATHING, "mu", 500, 2000);
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "mu");
    ck_assert_str_ne(u->note, "");
    ck_assert(u->as_drawn < u->low || u->as_drawn > u->high);
    ck_assert_double_eq(u->sample[0], 50.0);
    bw_margin_free(m);
}
END_TEST

START_TEST(a_variable_layer_has_no_single_value_as_drawn)
{
    static const double rh[] = {0.25, 0.9}, sd[] = {10, 0.2};
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "sd of foil held");
    ck_assert_ptr_nonnull(u);
    ck_assert(isnan(u->as_drawn) && !u->continuous);
    ck_assert_double_eq(u->low, 0.2);
    ck_assert_double_eq(u->high, 10);
    ck_assert(m->screening);
    bw_margin_free(m);
    vary(CASE_FOIL, "sd", 0.1, 20);
    m = make(0, 0);
    u = find(m, "sd of foil");
    ck_assert(isnan(u->as_drawn) && u->continuous);
    ck_assert_uint_eq(u->sample_count, 9);
    ck_assert_uint_eq(m->unknown_count, 2); /* the range and built-in timber */
    bw_margin_free(m);
}
END_TEST

/* ---- switches, combinations -------------------------------------------- */

static void add_alternative(void)
{
    plywood = case_material("plywood", "board", 500, 0.13, 3000, true);
    plywood.wood_kind = BW_WOOD_PANEL;
    other = (bw_alternative){&plywood, 0.015};
    c.layer[CASE_SHEATHING].alternative = &other;
    c.layer[CASE_SHEATHING].alternative_count = 1;
}

START_TEST(an_alternative_gives_the_verdict_of_a_wall_built_with_it)
{
    size_t fails;
    c.assembly.indoors.humidity_class = 2;
    add_alternative();
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "plywood");
    ck_assert_int_eq(u->kind, BW_UNKNOWN_ALTERNATIVE);
    ck_assert_int_eq(u->verdict_low, u->verdict_as_drawn);
    c.layer[CASE_SHEATHING].material = &plywood;
    c.layer[CASE_SHEATHING].thickness = 0.015;
    outcome_of("whole", "drying-test", &fails);
    ck_assert_uint_gt(fails, 0);
    ck_assert_int_eq(u->verdict_high, BW_FAILS);
    ck_assert(u->flips && u->flip_fails);
    bw_margin_free(m);
}
END_TEST

START_TEST(standard_unknowns_are_those_that_the_wall_has)
{
    c.assembly.indoors.humidity_class = 3;
    c.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 3.0 / 3600, .connected_height = 5};
    c.assembly.outdoors.driving_rain = BW_RAIN_MODERATE;
    c.material[CASE_LINING].mu_wet = case_value(4);
    bw_margin *m = make(0, 0);
    const bw_unknown *air = find(m, "air leakage");
    ck_assert_double_eq_tol(air->low, 3.0, 1e-12);
    ck_assert_double_eq_tol(air->high, 9.0, 1e-12);
    ck_assert_ptr_nonnull(find(m, "humidity class 4 instead of 3"));
    ck_assert_ptr_nonnull(find(m, "mu of plasterboard"));
    ck_assert_ptr_null(find(m, "mu of panel"));
    const char *const wet[] = {"driving rain", "built in"};
    for (size_t i = 0; i < 2; i++) {
        const bw_unknown *u = find(m, wet[i]);
        ck_assert(!u->seen && !u->flips);
        ck_assert_str_ne(u->note, "");
    }
    ck_assert_uint_eq(m->unknown_count, 5);
    bw_margin_free(m);
}
END_TEST

START_TEST(a_blocked_cavity_brings_back_what_lies_outside_of_it)
{
    bw_layer with[CASE_LAYERS + 2];
    bw_material air = case_material("air", "air", 1.2, 0.025, 1, false);
    bw_material tile = case_material("tile", "masonry", 2000, 1.0, 5e4, false);
    memcpy(with + 2, c.layer, CASE_LAYERS * sizeof *with);
    with[0] = (bw_layer){.id = "tile",
                         .name = "tile",
                         .material = &tile,
                         .thickness = 0.02,
                         .source = ""};
    with[1] = (bw_layer){.id = "gap",
                         .name = "gap",
                         .kind = BW_LAYER_CAVITY,
                         .material = &air,
                         .thickness = 0.03,
                         .ventilation = BW_VENT_WELL,
                         .source = ""};
    c.assembly.layer = with;
    c.assembly.layer_count = CASE_LAYERS + 2;
    c.assembly.indoors.humidity_class = 2;
    bw_margin *m = make(0, 0);
    const bw_unknown *u = find(m, "gap blocked");
    ck_assert_ptr_nonnull(u);
    ck_assert_int_ne(u->verdict_low, BW_FAILS);
    ck_assert_int_eq(u->verdict_high, BW_FAILS);
    ck_assert_int_eq(with[1].ventilation, BW_VENT_WELL);
    bw_margin_free(m);
}
END_TEST

START_TEST(the_worst_combination_is_no_better_than_what_makes_it_up)
{
    size_t fails;
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "mu", 20, 400);
    range[1] = (bw_uncertain){"sd", 0.2, 5};
    c.layer[CASE_FOIL].uncertain = &range[1];
    c.layer[CASE_FOIL].uncertain_count = 1;
    bw_margin *m = make(0, 0);
    for (size_t i = 0; i < m->unknown_count; i++)
        if (m->unknown[i].seen)
            ck_assert(m->worst_combination_margin <=
                      m->unknown[i].worst_margin + 1e-9);
    NAMES(m->worst_combination_text, "panel", "400", "foil", "0.2", "3", "2");
    set_mu(400);
    set_sd(0.2);
    c.assembly.indoors.humidity_class = 3;
    outcome_of("whole", "annual-balance", &fails);
    ck_assert_uint_eq(m->worst_combination_fails, fails);
    ck_assert_int_eq(m->worst_combination, BW_FAILS);
    bw_margin_free(m);
}
END_TEST

/* Hygroscopic insulation: beyond the monthly method. */
START_TEST(a_screening_is_called_one_and_still_shows_what_flips)
{
    c.material[CASE_INSULATION].hygroscopic = true;
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "mu", 2, 2000);
    bw_margin *m = make(0, 0);
    ck_assert(m->screening);
    ck_assert_int_eq(m->as_drawn, BW_NOT_ASSESSED);
    ck_assert_int_ne(m->outcome, BW_FAILS);
    const bw_unknown *u = find(m, "mu");
    ck_assert(u->flips && u->flip_changes_verdict && u->flip_fails);
    ck_assert_uint_lt(m->first, m->unknown_count);
    bw_margin_free(m);
}
END_TEST

/* A criterion that is no longer judged has not begun to hold: the period
 * balance is for dwellings, not for class 4. */
START_TEST(a_criterion_that_is_no_longer_judged_has_not_flipped)
{
    bw_case from = {.fails = 1}, to = {.fails = 0};
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        from.outcome[i] = to.outcome[i] = -1;
    from.outcome[BW_C_PERIOD_RESERVE] = BW_FAILS;
    ck_assert_uint_eq(bw_case_flip(&from, &to, NULL), BW_CASE_KEYS);
    to.outcome[BW_C_PERIOD_RESERVE] = BW_NOT_ASSESSED;
    ck_assert_uint_eq(bw_case_flip(&from, &to, NULL), BW_CASE_KEYS);
    to.outcome[BW_C_PERIOD_RESERVE] = BW_MARGINAL;
    ck_assert_uint_eq(bw_case_flip(&from, &to, NULL), BW_C_PERIOD_RESERVE);
    to.outcome[BW_C_PERIOD_RESERVE] = -1;
    ck_assert_uint_eq(bw_case_flip(&to, &from, NULL), BW_C_PERIOD_RESERVE);
}
END_TEST

/* ---- changed copies ---------------------------------------------------- */

START_TEST(a_changed_copy_leaves_the_original_alone)
{
    const bw_layer before = c.layer[CASE_SHEATHING];
    c.material[CASE_SHEATHING].mu_wet = case_value(20);
    const bw_material drawn = c.material[CASE_SHEATHING];
    const bw_change changes[] = {
        {.kind = BW_CHANGE_PROPERTY,
         .layer = CASE_SHEATHING,
         .property = BW_VARIED_MU,
         .value = 100},
        {.kind = BW_CHANGE_PROPERTY,
         .layer = CASE_SHEATHING,
         .property = BW_VARIED_THICKNESS,
         .value = 0.02},
        {.kind = BW_CHANGE_REMOVED, .layer = CASE_FOIL},
    };
    const bw_assembly *changed = bw_changes_apply(&c.arena, &c.assembly,
                                                  changes, COUNT(changes));
    ck_assert_ptr_nonnull(changed);
    ck_assert_uint_eq(changed->layer_count, CASE_LAYERS - 1);
    /* both cups in proportion: 50/20 becomes 100/40 */
    ck_assert_double_eq_tol(changed->layer[0].material->mu_wet.value, 40,
                            1e-12);
    ck_assert_mem_eq(&before, &c.layer[CASE_SHEATHING], sizeof before);
    ck_assert_mem_eq(&drawn, &c.material[CASE_SHEATHING], sizeof drawn);
    ck_assert_uint_eq(c.assembly.layer_count, CASE_LAYERS);
}
END_TEST

/* Else the limits of the monthly method would lift, and a case be judged by
 * another method than the wall as drawn. */
START_TEST(a_variable_layer_held_at_one_end_is_still_a_variable_layer)
{
    static const double rh[] = {0.25, 0.5, 0.9}, sd[] = {10, 3, 0.2};
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 3, .x = rh, .y = sd, .source = "test", .note = ""};
    const struct {
        bool humid;
        double sd;
    } rows[] = {{true, 0.2}, {false, 10}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const bw_change change = {.kind = BW_CHANGE_CURVE,
                                  .layer = CASE_FOIL,
                                  .value = rows[i].humid ? 1.0 : 0.0};
        const bw_curve *held = &bw_change_apply(&c.arena, &c.assembly, &change)
                                    ->layer[CASE_FOIL]
                                    .material->sd_curve;
        ck_assert_uint_eq(held->count, 3);
        ck_assert_double_eq_tol(bw_curve_log(held, 0.1), rows[i].sd, 1e-12);
        ck_assert_double_eq_tol(bw_curve_log(held, 0.7), rows[i].sd, 1e-12);
    }
    ck_assert_double_eq(c.material[CASE_FOIL].sd_curve.y[1], 3);
}
END_TEST

START_TEST(layers_named_by_number_move_with_their_layer)
{
    c.assembly.drying_test.after_layer = CASE_FOIL;
    const bw_change change = {
        .kind = BW_CHANGE_ADDED, .layer = CASE_FOIL, .value = 5.0};
    const bw_assembly *changed = bw_change_apply(&c.arena, &c.assembly,
                                                 &change);
    ck_assert_uint_eq(changed->layer_count, CASE_LAYERS + 1);
    ck_assert_int_eq(changed->drying_test.after_layer, CASE_FOIL + 1);
    ck_assert_double_eq(changed->layer[CASE_FOIL].material->sd.value, 5.0);
    ck_assert_str_eq(changed->layer[CASE_FOIL + 1].id, "foil");
}
END_TEST

/* ---- the map ----------------------------------------------------------- */

/* A published German table of drying reserves [seen]: g/m2 for sd inside /
 * outside. The insulation's sd (0.24 m) and R (6.3 in total) are inferred, see
 * the suite of the period balance, whose tolerances these are. */
START_TEST(the_map_holds_the_published_table_of_drying_reserves)
{
    static const struct {
        double inside, outside, condensed, evaporable, reserve;
    } rows[] = {{2, .3, 86, 2939, 2853}, {30, 4, 6, 220, 214}};
    bw_layer layer[3] = {c.layer[CASE_FOIL], c.layer[CASE_INSULATION],
                         c.layer[CASE_FOIL]};
    set_lambda(0.24 / (6.3 - .29));
    layer[1].thickness = 0.24;
    c.assembly.layer = layer;
    c.assembly.layer_count = 3;
    bw_margin *m = make(0, 0);
    size_t found = 0;
    for (size_t o = 0; o < m->outer_count; o++)
        for (size_t i = 0; i < m->inner_count; i++)
            for (size_t k = 0; k < COUNT(rows); k++) {
                const bw_sd_cell *cell = &m->map[o * m->inner_count + i];
                if (fabs(m->inner_sd[i] - rows[k].inside) > 1e-9 ||
                    fabs(m->outer_sd[o] - rows[k].outside) > 1e-9)
                    continue;
                found++;
                ck_assert_double_eq_tol(1e3 * cell->condensed,
                                        rows[k].condensed, 1.9);
                ck_assert_double_eq_tol(1e3 * cell->evaporable,
                                        rows[k].evaporable, 1.0);
                ck_assert_double_eq_tol(1e3 * cell->reserve, rows[k].reserve,
                                        2.0);
            }
    ck_assert_uint_eq(found, COUNT(rows));
    bw_margin_free(m);
}
END_TEST

START_TEST(the_map_puts_in_a_film_where_a_side_has_none)
{
    bw_margin *m = make(0, 0);
    ck_assert_str_eq(m->map_inner, "foil");
    ck_assert_str_eq(m->map_outer, "panel");
    bw_margin_free(m);
    c.assembly.layer = &c.layer[CASE_INSULATION];
    c.assembly.layer_count = 1;
    m = make(0, 0);
    ck_assert_str_ne(m->map_inner, m->map_outer);
    ck_assert_uint_eq(m->outer_count * m->inner_count, 64);
    /* by hand: with 0.05 m outside and 100 m inside nothing condenses, and
     * the reserve is t d0 (1700 - 1200) (1/s_e + 1/s_i) */
    const bw_sd_cell *cell = &m->map[m->inner_count - 1];
    double sd_wool = 0.14;
    ck_assert_double_eq(cell->condensed, 0.0);
    ck_assert_double_eq_tol(
        cell->reserve, 7.776e6 * 2e-10 * 500 * (1 / 0.05 + 1 / (100 + sd_wool)),
        1e-6);
    bw_margin_free(m);
}
END_TEST

/* ---- the ensemble ------------------------------------------------------ */

START_TEST(the_error_of_a_share_is_as_stated)
{
    /* by hand: p = 51/102, n = 100; p = 1/102 */
    ck_assert_double_eq_tol(bw_share_error(50, 100), 0.05, 1e-12);
    ck_assert_double_eq_tol(bw_share_error(0, 100),
                            sqrt(101.0 / (102.0 * 102.0) / 100.0), 1e-12);
    ck_assert_double_eq(bw_share_error(0, 0), 0.0);
}
END_TEST

/* One range alone: the share that holds is the share of the range up to the
 * flip, as both were drawn over the logarithm. */
START_TEST(the_ensemble_finds_a_share_that_is_known)
{
    c.assembly.indoors.humidity_class = 5;
    c.assembly.indoors.kind = BW_INDOOR_EN15026;
    c.assembly.indoors.en15026_high = true;
    vary(CASE_SHEATHING, "mu", 2, 2000);
    enum { CASES = 400 };
    bw_margin *m = make(CASES, 0);
    const bw_unknown *u = find(m, "mu");
    double share = (double)NAN;
    for (size_t i = 0; i < u->flip_count; i++)
        if (u->flip[i].changes_verdict) {
            ck_assert(u->flip[i].fails_above && isnan(share));
            share = log(u->flip[i].value / 2) / log(1000);
        }
    ck_assert_uint_eq(m->ensemble_count, CASES);
    ck_assert_double_eq_tol(m->ensemble_share, share, 3 * m->ensemble_error);
    ck_assert_double_eq_tol(m->ensemble_share, share, 4.0 / CASES);
    ck_assert(share > 0.2 && share < 0.9);
    bw_margin_free(m);
}
END_TEST

START_TEST(points_of_a_dimension_fall_one_each_into_equal_parts)
{
    static const struct {
        size_t dimension, parts;
    } rows[] = {{0, 64}, {1, 81}, {2, 125}, {5, 169}, {11, 37}};
    for (size_t r = 0; r < COUNT(rows); r++) {
        bool taken[256] = {false};
        for (size_t i = 0; i < rows[r].parts; i++) {
            /* from index p^k - 1 on, p^k points start at digit zero */
            double x = bw_halton(rows[r].parts - 1 + i, rows[r].dimension);
            size_t part = (size_t)(x * (double)rows[r].parts + 1e-9);
            ck_assert(x > 0.0 && x < 1.0);
            ck_assert(!taken[part]);
            taken[part] = true;
        }
    }
}
END_TEST

static double plain_inverse(size_t n, size_t base)
{
    double value = 0.0, weight = 1.0;
    for (; n > 0; n /= base)
        value += (weight /= (double)base) * (double)(n % base);
    return value;
}

/* base 0: the dimension's points, else the plain radical inverse */
static double correlation(size_t a, size_t b, size_t base_a, size_t base_b)
{
    enum { POINTS = 200 };
    double xy = 0, xx = 0, yy = 0;
    for (size_t i = 0; i < POINTS; i++) {
        double x = base_a ? plain_inverse(i + 1, base_a) : bw_halton(i, a);
        double y = base_b ? plain_inverse(i + 1, base_b) : bw_halton(i, b);
        xy += (x - 0.5) * (y - 0.5);
        xx += (x - 0.5) * (x - 0.5);
        yy += (y - 0.5) * (y - 0.5);
    }
    return xy / sqrt(xx * yy);
}

/* Independent points would give 0.07 (one standard deviation); those without
 * scrambling lie on lines. */
START_TEST(dimensions_far_out_are_not_on_a_line)
{
    ck_assert_double_gt(correlation(0, 0, 67, 71), 0.5);
    for (size_t a = 0; a < 24; a++)
        for (size_t b = 0; b < a; b++)
            ck_assert_msg(fabs(correlation(a, b, 0, 0)) < 0.2,
                          "dimensions %zu, %zu: %g", a, b,
                          correlation(a, b, 0, 0));
}
END_TEST

/* ---- threads, progress ------------------------------------------------- */

typedef struct text {
    char bytes[65536];
    size_t length;
} text;

static bool take(void *payload, const char *bytes, size_t length)
{
    text *to = payload;
    if (to->length + length >= sizeof to->bytes)
        return false;
    memcpy(to->bytes + to->length, bytes, length);
    to->length += length;
    to->bytes[to->length] = '\0';
    return true;
}

static text page[2];

static void print(text *to, const bw_margin *m)
{
    to->length = 0;
    ck_assert_int_eq(margin_report(BW_FORM_TEXT, m, NULL, take, to, NULL),
                     BW_OK);
    const bw_results results = {.margin = m};
    for (int t = BW_TABLE_MARGIN; t <= BW_TABLE_MARGIN_CASES; t++)
        ck_assert_int_eq(bw_report_table(&results, (bw_table)t, take, to, NULL),
                         BW_OK);
}

static void many_unknowns(void)
{
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "mu", 2, 2000);
    add_alternative();
    range[1] = (bw_uncertain){"sd", 0.2, 5};
    c.layer[CASE_FOIL].uncertain = &range[1];
    c.layer[CASE_FOIL].uncertain_count = 1;
}

START_TEST(the_number_of_threads_changes_nothing)
{
    many_unknowns();
    bw_margin *m = make(50, 1);
    print(&page[0], m);
    bw_margin_free(m);
    for (int threads = 2; threads <= 4; threads += 2) {
        m = make(50, threads);
        print(&page[1], m);
        bw_margin_free(m);
        ck_assert_str_eq(page[0].bytes, page[1].bytes);
    }
}
END_TEST

typedef struct watch {
    double last, stop;
    bool falls;
} watch;

static bool look(void *payload, double fraction)
{
    watch *w = payload;
    w->falls = w->falls || fraction < w->last || fraction > 1.0;
    w->last = fraction;
    return fraction < w->stop;
}

START_TEST(progress_rises_and_a_stop_is_obeyed)
{
    many_unknowns();
    bw_margin *m = NULL;
    bw_error err = {0};
    watch w = {.stop = 2.0};
    bw_margin_options options = {
        .assessment = {.no_transient = true, .threads = 2},
        .progress = look,
        .payload = &w};
    ck_assert_int_eq(
        bw_margin_make(&m, &c.assembly, &c.climate, &options, &err), BW_OK);
    ck_assert(!w.falls && w.last > 0.2);
    bw_margin_free(m);
    m = NULL;
    w = (watch){.stop = 0.1};
    ck_assert_int_eq(
        bw_margin_make(&m, &c.assembly, &c.climate, &options, &err),
        BW_ERR_CANCELLED);
    ck_assert_ptr_null(m);
    ck_assert_int_eq(err.status, BW_ERR_CANCELLED);
}
END_TEST

START_TEST(an_impossible_profile_is_refused_as_assess_refuses_it)
{
    bw_margin *m = NULL;
    bw_error err = {0};
    const bw_profile_rule rule = {.criterion = "moon-phase",
                                  .unit = "-",
                                  .text = "full",
                                  .source = "none",
                                  .mark = "[K]"};
    const bw_profile moon = {.name = "moon", .rule_count = 1, .rule = &rule};
    bw_margin_options options = {
        .assessment = {.no_transient = true, .profile = &moon}};
    ck_assert_int_eq(
        bw_margin_make(&m, &c.assembly, &c.climate, &options, &err),
        BW_ERR_INPUT);
    ck_assert_ptr_null(m);
}
END_TEST

/* ---- the page ---------------------------------------------------------- */

START_TEST(the_page_says_what_flips_first_before_all_else)
{
    static const char *const parts[] = {"What flips first: at mu of panel",
                                        "steady methods",
                                        "Every unknown alone",
                                        "Worst combination",
                                        "the sd map",
                                        "All unknowns at random"};
    many_unknowns();
    bw_margin *m = make(20, 0);
    page[0].length = 0;
    ck_assert_int_eq(margin_report(BW_FORM_TEXT, m, NULL, take, &page[0], NULL),
                     BW_OK);
    const char *at = page[0].bytes;
    for (size_t i = 0; i < COUNT(parts); i++) {
        at = strstr(at, parts[i]);
        ck_assert_msg(at != NULL, "%s", parts[i]);
    }
    bw_margin_free(m);
}
END_TEST

static size_t lines(const char *words)
{
    size_t n = 0;
    for (; *words != '\0'; words++)
        n += *words == '\n';
    return n;
}

START_TEST(tables_have_a_row_for_each_unknown_and_each_cell)
{
    many_unknowns();
    bw_margin *m = make(0, 0);
    const size_t rows[] = {m->unknown_count + 1, SIZE_MAX, 65, 3, 1};
    const bw_results results = {.margin = m};
    for (int t = 0; t < (int)(sizeof rows / sizeof *rows); t++) {
        const bw_table table = (bw_table)(BW_TABLE_MARGIN + t);
        page[0].length = 0;
        ck_assert_int_eq(bw_report_table(&results, table, take, &page[0], NULL),
                         BW_OK);
        if (rows[t] != SIZE_MAX)
            ck_assert_uint_eq(lines(page[0].bytes), rows[t]);
    }
    bw_margin_free(m);
}
END_TEST

/* No test of time, a figure for the reader: twelve unknowns. */
START_TEST(twelve_unknowns_are_timed_and_printed)
{
    static bw_uncertain more[10];
    static const char *const words[] = {"mu", "thickness", "lambda"};
    size_t n = 0;
    c.assembly.indoors.humidity_class = 3;
    for (size_t layer = 0; layer < CASE_LAYERS; layer++) {
        bw_uncertain *first = &more[n];
        if (layer == CASE_FOIL) {
            more[n++] = (bw_uncertain){"sd", 0.2, 50};
        } else {
            for (size_t k = 0; k < 3; k++) {
                double now = k == 0 ? c.material[layer].mu_dry.value
                             : k == 1
                                 ? c.layer[layer].thickness
                                 : c.material[layer].thermal_conductivity.value;
                more[n++] = (bw_uncertain){words[k], now / 2, now * 2};
            }
        }
        c.layer[layer].uncertain = first;
        c.layer[layer].uncertain_count = (size_t)(&more[n] - first);
    }
    c.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 3.0 / 3600, .connected_height = 5};
    struct timespec start, end;
    clock_gettime(CLOCK_MONOTONIC, &start);
    bw_margin *m = make(0, 0);
    clock_gettime(CLOCK_MONOTONIC, &end);
    size_t seen = 0;
    for (size_t i = 0; i < m->unknown_count; i++)
        seen += m->unknown[i].seen;
    ck_assert_uint_eq(seen, 12);
    printf("margin: %zu unknowns, %zu assessments, %.3f s\n", seen,
           m->evaluation_count,
           (double)(end.tv_sec - start.tv_sec) +
               1e-9 * (double)(end.tv_nsec - start.tv_nsec));
    bw_margin_free(m);
}
END_TEST

SUITE_AROUND("margin", setup, teardown,
             EACH(every_flip_shows_when_both_its_sides_are_assessed_again,
                  COUNT(ranges)),
             FACT(the_verdicts_of_the_ends_are_those_of_walls_built_with_them),
             FACT(a_value_that_turns_within_the_range_is_found_not_monotone),
             FACT(the_first_flip_is_the_one_nearest_to_as_drawn),
             FACT(what_is_drawn_outside_its_range_is_said_and_searched),
             FACT(a_variable_layer_has_no_single_value_as_drawn),
             FACT(an_alternative_gives_the_verdict_of_a_wall_built_with_it),
             FACT(standard_unknowns_are_those_that_the_wall_has),
             FACT(a_blocked_cavity_brings_back_what_lies_outside_of_it),
             FACT(the_worst_combination_is_no_better_than_what_makes_it_up),
             FACT(a_screening_is_called_one_and_still_shows_what_flips),
             FACT(a_criterion_that_is_no_longer_judged_has_not_flipped),
             FACT(a_changed_copy_leaves_the_original_alone),
             FACT(a_variable_layer_held_at_one_end_is_still_a_variable_layer),
             FACT(layers_named_by_number_move_with_their_layer),
             FACT(the_map_holds_the_published_table_of_drying_reserves),
             FACT(the_map_puts_in_a_film_where_a_side_has_none),
             FACT(the_error_of_a_share_is_as_stated),
             FACT(the_ensemble_finds_a_share_that_is_known),
             FACT(points_of_a_dimension_fall_one_each_into_equal_parts),
             FACT(dimensions_far_out_are_not_on_a_line),
             FACT(the_number_of_threads_changes_nothing),
             FACT(progress_rises_and_a_stop_is_obeyed),
             FACT(an_impossible_profile_is_refused_as_assess_refuses_it),
             FACT(the_page_says_what_flips_first_before_all_else),
             FACT(tables_have_a_row_for_each_unknown_and_each_cell),
             FACT(twelve_unknowns_are_timed_and_printed))
