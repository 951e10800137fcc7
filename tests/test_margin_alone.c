/* Margin: what is found of one unknown and of all together, beside the same
 * walls assessed one by one; and how damp the room may be at its ends. */

#include <math.h>
#include <stdlib.h>

#include "bothways/margin.h"
#include "criteria_case.h"
#include "margin/case.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case c;
static bw_uncertain range[2];
static bw_margin *m;
static const bw_profile *profile;

static void setup(void)
{
    case_make(&c);
    c.assembly.indoors.humidity_class = 5; /* no step up */
    m = NULL;
    profile = NULL;
}

static void teardown(void)
{
    bw_margin_free(m);
    case_free(&c);
}

static void make(void)
{
    bw_error err = {0};
    const bw_margin_options options = {
        .assessment = {.no_transient = true, .profile = profile}};
    bw_margin_free(m);
    m = NULL;
    ck_assert_msg(bw_margin_make(&m, &c.assembly, &c.climate, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
}

static void vary(size_t layer, const char *property, double low, double high)
{
    bw_uncertain *one = &range[layer == CASE_FOIL];
    *one = (bw_uncertain){property, low, high};
    c.layer[layer].uncertain = one;
    c.layer[layer].uncertain_count = 1;
}

static const bw_unknown *find(const char *words)
{
    for (size_t i = 0; i < m->unknown_count; i++)
        if (strstr(m->unknown[i].name, words) != NULL)
            return &m->unknown[i];
    ck_abort_msg("no %s", words);
    return NULL;
}

static void set_mu(double mu)
{
    c.material[CASE_SHEATHING].mu_dry = c.material[CASE_SHEATHING].mu_wet =
        case_value(mu);
}

static void set_sd(double sd)
{
    c.material[CASE_FOIL].sd = case_value(sd);
}

/* The wall as it stands, without the margin's own search. */
static bw_case assessed(void)
{
    bw_assessment *a = NULL;
    bw_case got;
    const bw_assessment_options options = {
        .no_transient = true, .no_advice = true, .profile = profile};
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    bw_case_of(&got, a);
    bw_assessment_free(a);
    return got;
}

/* ---- one unknown ----------------------------------------------------------
 */

/* Nine values from end to end, and 50 as drawn in its place, once. */
static const struct sampled {
    double low, high;
    bool geometric;
    size_t count, drawn;
} samples[] = {
    {50, 2000, true, 9, 0}, {2, 50, true, 9, 8},     {40, 60, false, 9, 4},
    {2, 2000, true, 10, 4}, {60, 2000, true, 10, 0}, {5, 40, true, 10, 9},
    {45, 61, false, 10, 3}, {50, 50, false, 1, 0},
};

START_TEST(nine_values_and_as_drawn_among_them_are_computed)
{
    const struct sampled *row = &samples[_i];
    vary(CASE_SHEATHING, "mu", row->low, row->high);
    make();
    const bw_unknown *u = find("mu of panel");
    ck_assert_int_eq(u->geometric, row->geometric);
    ck_assert_uint_eq(u->sample_count, row->count);
    ck_assert_double_eq(u->sample[row->drawn], 50.0);
    for (size_t i = 0, step = 0; i < u->sample_count && row->count > 1; i++) {
        if (row->count == 10 && i == row->drawn)
            continue;
        const double part = (double)step++ / 8;
        const double value = row->geometric
                                 ? row->low * pow(row->high / row->low, part)
                                 : row->low + part * (row->high - row->low);
        ck_assert_double_eq_tol(u->sample[i], value, 1e-9 * value);
    }
    ck_assert_uint_eq(m->points, 9);
    ck_assert_double_eq(m->tolerance, 1e-4);
}
END_TEST

/* The place told is one of the flips found, in the middle of its bracket. */
static void check_place(const bw_unknown *u)
{
    size_t found = 0;
    for (size_t i = 0; i < u->flip_count; i++) {
        const bw_flip *f = &u->flip[i];
        ck_assert_double_eq_tol(f->value, 0.5 * (f->below + f->above),
                                1e-12 * f->value);
        found += fabs(f->value - u->flip_value) < 1e-12 * f->value &&
                 fabs(u->flip_bracket - 0.5 * (f->above - f->below)) <
                     1e-12 * f->value;
    }
    ck_assert_uint_ge(found, 1);
}

static const struct ranged {
    size_t layer;
    const char *property;
    double low, high;
    void (*set)(double value);
} ranges[] = {
    {CASE_SHEATHING, "mu", 2, 2000, set_mu},
    {CASE_SHEATHING, "mu", 200, 2000, set_mu},
    {CASE_FOIL, "sd", 0.02, 200, set_sd},
    {CASE_FOIL, "sd", 4, 6, set_sd},
};

/* The criterion whose margin, held within a limit either way, moves most; 1e-9
 * more than any before it. */
static size_t moves_most(const bw_case *at, size_t count, double *swing)
{
    size_t most = BW_CASE_KEYS;
    *swing = 0.0;
    for (size_t key = 0; key < BW_CASE_KEYS; key++) {
        double low = HUGE_VAL, high = -HUGE_VAL;
        for (size_t i = 0; i < count; i++) {
            const double held = fmax(fmin(at[i].margin[key], 1.0), -1.0);
            if (isnan(at[i].margin[key]))
                continue;
            low = fmin(low, held);
            high = fmax(high, held);
        }
        if (high - low > *swing + 1e-9) {
            *swing = high - low;
            most = key;
        }
    }
    return most;
}

START_TEST(what_moves_most_is_what_its_samples_say)
{
    const struct ranged *row = &ranges[_i];
    static bw_case at[16];
    vary(row->layer, row->property, row->low, row->high);
    make();
    const bw_unknown *u = find(row->property);
    const bw_case drawn = assessed();
    ck_assert_uint_le(u->sample_count, COUNT(at));
    double worst = drawn.worst, swing;
    for (size_t i = 0; i < u->sample_count; i++) {
        row->set(u->sample[i]);
        at[i] = assessed();
        worst = fmin(worst, at[i].worst);
        ck_assert_int_eq(u->sample_verdict[i], at[i].verdict);
        if (u->sample[i] <= row->low)
            ck_assert_int_eq(u->verdict_low, at[i].verdict);
        if (u->sample[i] <= row->high)
            ck_assert(i + 1 < u->sample_count ||
                      u->verdict_high == at[i].verdict);
    }
    if (u->flips)
        check_place(u);
    const size_t key = moves_most(at, u->sample_count, &swing);
    ck_assert_uint_lt(key, BW_CASE_KEYS);
    ck_assert_str_eq(u->swing_criterion, bw_key_words(&c.arena, key));
    ck_assert_double_eq_tol(u->swing, swing, 1e-12);
    ck_assert_double_eq_tol(u->worst_margin, worst, 1e-12);
    double low = 1.0, high = -1.0;
    for (size_t i = 0; i < u->sample_count; i++) {
        const double margin = at[i].margin[key];
        ck_assert(isnan(margin) ? isnan(u->sample_margin[i])
                                : fabs(u->sample_margin[i] - margin) < 1e-12);
        low = fmin(low, bw_margin_held(margin));
        high = fmax(high, bw_margin_held(margin));
    }
    ck_assert_double_eq_tol(u->swing_lowest, low, 1e-12);
    ck_assert_double_eq_tol(u->swing_highest, high, 1e-12);
    ck_assert_double_eq_tol(u->swing_as_drawn,
                            bw_margin_held(drawn.margin[key]), 1e-12);
}
END_TEST

/* "All found, by rising value": below as drawn they are found from above. */
START_TEST(flips_are_told_by_rising_value)
{
    size_t beside = 0; /* two between the same two samples, below as drawn */
    set_sd(50.0);
    for (int class = 1; class < 6; class ++) {
        c.assembly.indoors.humidity_class = class;
        vary(CASE_FOIL, "sd", 0.02, 50.0);
        make();
        const bw_unknown *u = find("sd of foil");
        for (size_t i = 1; i < u->flip_count; i++) {
            const double low = u->flip[i - 1].value, high = u->flip[i].value;
            size_t between = 0;
            ck_assert_double_le(low, high);
            for (size_t k = 0; k < u->sample_count; k++)
                between += u->sample[k] > low && u->sample[k] < high;
            beside += between == 0;
        }
    }
    ck_assert_uint_gt(beside, 0);
}
END_TEST

/* A switch flips what another wall has: of a wall that holds it turns the
 * verdict, of one that fails all the same it does not. */
START_TEST(a_switch_turns_the_verdict_of_a_wall_that_holds_alone)
{
    static bw_alternative other;
    static bw_material tight;
    tight = case_material("slate", "board", 900, 0.13, 1e5, true);
    tight.wood_kind = BW_WOOD_PANEL;
    other = (bw_alternative){&tight, 0.015};
    c.layer[CASE_SHEATHING].alternative = &other;
    c.layer[CASE_SHEATHING].alternative_count = 1;
    c.assembly.indoors.humidity_class = 2;
    set_mu(5);
    set_sd(100.0);
    for (int thin = 0; thin < 2; thin++) {
        if (thin == 1) /* the surface fails whatever the panel */
            c.layer[CASE_INSULATION].thickness = 0.002;
        make();
        const bw_unknown *u = find("slate");
        ck_assert_int_eq(assessed().fails > 0, thin);
        ck_assert(u->flips && !u->continuous);
        ck_assert_int_eq(u->flip_fails, !thin);
        ck_assert_double_eq(u->flip_value, 1.0);
        ck_assert_double_eq(u->flip_share, 1.0);
        ck_assert_int_eq(u->flip_changes_verdict, !thin);
    }
}
END_TEST

/* A membrane that follows humidity, too open as drawn; at every value of its
 * range what it makes fail holds. Of a wall that fails by its surface that does
 * not turn the verdict, and the criterion named is one that flips. */
START_TEST(what_every_value_flips_is_named_though_the_wall_fails_all_the_same)
{
    static const double rh[] = {0.25, 0.9}, sd[] = {0.01, 0.005};
    c.assembly.indoors.humidity_class = 3;
    for (int thin = 0; thin < 2; thin++) {
        c.layer[CASE_INSULATION].thickness = thin == 1 ? 0.005 : 0.14;
        c.material[CASE_FOIL].sd_curve = (bw_curve){
            .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
        vary(CASE_FOIL, "sd", 20.0, 60.0);
        make();
        const bw_unknown *u = find("sd of foil");
        const bw_case drawn = assessed();
        c.material[CASE_FOIL].sd_curve.count = 0;
        c.layer[CASE_FOIL].uncertain_count = 0;
        ck_assert(u->flips && u->flips_all && !u->flip_fails);
        ck_assert(!u->flip_above);
        ck_assert_double_eq(u->flip_value, 20.0);
        ck_assert_double_eq(u->flip_bracket, 0.0);
        bool named = false;
        for (int high = 0; high < 2; high++) {
            set_sd(high == 1 ? 60.0 : 20.0);
            const bw_case at = assessed();
            ck_assert_int_eq(u->flip_changes_verdict,
                             (at.fails == 0) != (drawn.fails == 0));
            for (size_t key = 0; key < BW_CASE_KEYS; key++)
                named = named || (bw_case_key_flips(&drawn, &at, key) &&
                                  strcmp(bw_key_words(&c.arena, key),
                                         u->flip_criterion) == 0);
        }
        ck_assert(named);
        ck_assert_int_eq(u->flip_changes_verdict, !thin);
    }
}
END_TEST

/* A foil outside whose sd follows humidity: no number stands for it as drawn.
 * Open it holds, tight it fails; from a tight one the way to what holds is
 * down, from an open one the way to what fails up. */
static const struct outer {
    double dry, humid;
    bool fails, above; /* beyond the flip; which is above it */
} outers[] = {{20.0, 12.0, false, false}, {0.05, 0.02, true, true}};

START_TEST(beside_an_outer_foil_the_way_to_what_holds_is_down)
{
    static bw_layer layer[CASE_LAYERS];
    static bw_material inner;
    static const double rh[] = {0.25, 0.9};
    const double sd[] = {outers[_i].dry, outers[_i].humid};
    profile = profile_named("de-din4108"); /* the period balance decides */
    c.assembly.indoors.humidity_class = 2;
    inner = c.material[CASE_FOIL];
    inner.sd = case_value(100.0);
    layer[0] = c.layer[CASE_FOIL];
    layer[1] = c.layer[CASE_INSULATION];
    layer[2] = c.layer[CASE_FOIL];
    layer[2].material = &inner;
    layer[2].id = layer[2].name = "inside";
    layer[3] = c.layer[CASE_LINING];
    c.assembly.layer = layer;
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
    range[0] = (bw_uncertain){"sd", 0.02, 30.0};
    layer[0].uncertain = &range[0];
    layer[0].uncertain_count = 1;
    make();
    const bw_unknown *u = find("sd of foil");
    ck_assert(u->continuous && isnan(u->as_drawn));
    ck_assert(u->flips && !u->flips_all);
    ck_assert_int_eq(u->flip_fails, outers[_i].fails);
    ck_assert_int_eq(u->flip_above, outers[_i].above);
    check_place(u);
    ck_assert(u->flip_changes_verdict);
    /* the walls on both sides */
    layer[0].uncertain_count = 0;
    c.material[CASE_FOIL].sd_curve.count = 0;
    for (int tight = 0; tight < 2; tight++) {
        set_sd(u->flip_value * (tight ? 1.02 : 1 / 1.02));
        ck_assert_int_eq(assessed().fails > 0, tight);
    }
}
END_TEST

/* ---- all of them ----------------------------------------------------------
 */

static void doubt(void)
{
    c.assembly.indoors.humidity_class = 2;
    vary(CASE_SHEATHING, "mu", 20, 400);
    vary(CASE_FOIL, "sd", 0.2, 5);
}

/* Largest swing first, what is not seen last; of those that flip one that turns
 * the verdict, then the shortest way. */
START_TEST(unknowns_are_ranked_by_what_they_move)
{
    doubt();
    make();
    ck_assert_uint_gt(m->unknown_count, 3);
    const bw_unknown *u = m->unknown, *first = NULL;
    size_t unseen = 0;
    for (size_t i = 0; i < m->unknown_count; i++) {
        unseen += !u[i].seen;
        if (i > 0 && u[i].seen) {
            ck_assert(u[i - 1].seen);
            ck_assert_double_ge(u[i - 1].swing, u[i].swing);
        }
        if (!u[i].flips)
            continue;
        if (first == NULL ||
            u[i].flip_changes_verdict > first->flip_changes_verdict ||
            (u[i].flip_changes_verdict == first->flip_changes_verdict &&
             u[i].flip_share < first->flip_share))
            first = &u[i];
    }
    ck_assert_uint_gt(unseen, 0);
    ck_assert_ptr_nonnull(first);
    ck_assert_ptr_eq(&u[m->first], first);
}
END_TEST

/* The criterion that fails by most, else the one with the least margin. */
static size_t reason_of(const bw_case *of)
{
    size_t key = BW_CASE_KEYS;
    for (int fails = 1; fails >= 0 && key == BW_CASE_KEYS; fails--)
        for (size_t i = 0; i < BW_CASE_KEYS; i++)
            if ((fails == 0 || of->outcome[i] == BW_FAILS) &&
                !isnan(of->margin[i]) &&
                (key == BW_CASE_KEYS || of->margin[i] < of->margin[key]))
                key = i;
    return key;
}

/* Every setting of every unknown beside every other, tried here one by one:
 * none is worse than what is told. */
START_TEST(no_combination_of_ends_is_worse_than_the_one_told)
{
    static const double mu[] = {50, 20, 400}, sd[] = {2, 0.2, 5};
    doubt();
    make();
    bw_case worst = assessed();
    bool first = true;
    c.layer[CASE_SHEATHING].uncertain_count = 0;
    c.layer[CASE_FOIL].uncertain_count = 0;
    for (int class = 2; class < 4; class ++)
        for (size_t i = 0; i < COUNT(mu); i++)
            for (size_t k = 0; k < COUNT(sd); k++) {
                c.assembly.indoors.humidity_class = class;
                set_mu(mu[i]);
                set_sd(sd[k]);
                const bw_case at = assessed();
                if (first || bw_case_worse(&at, &worst))
                    worst = at;
                first = false;
            }
    ck_assert_uint_eq(m->worst_combination_fails, worst.fails);
    ck_assert_int_eq(m->worst_combination, worst.verdict);
    ck_assert_double_eq_tol(m->worst_combination_margin, worst.worst, 1e-9);
    ck_assert_str_eq(m->worst_combination_reason,
                     bw_key_words(&c.arena, reason_of(&worst)));
}
END_TEST

/* A range within which nothing is worse than as drawn. */
START_TEST(a_wall_that_nothing_makes_worse_stays_as_drawn)
{
    size_t holds = 0;
    for (int tight = 0; tight < 2; tight++) {
        c.assembly.indoors.kind = BW_INDOOR_EN15026; /* no step up */
        c.assembly.indoors.en15026_high = true;
        set_mu(tight ? 500 : 10);
        vary(CASE_SHEATHING, "mu", 5, tight ? 500 : 10);
        make();
        const bw_case drawn = assessed();
        holds += drawn.fails == 0;
        ck_assert_str_eq(m->worst_combination_text, "as drawn");
        ck_assert_uint_eq(m->worst_combination_fails, drawn.fails);
        ck_assert(!m->worst_combination_moved);
        ck_assert_double_eq_tol(m->worst_combination_margin, drawn.worst,
                                1e-12);
        ck_assert_str_eq(m->worst_combination_reason,
                         bw_key_words(&c.arena, reason_of(&drawn)));
    }
    ck_assert_uint_eq(holds, 1);
}
END_TEST

/* Two alternatives of one layer, of which either makes the wall fail: of three
 * settings of that layer one holds. */
START_TEST(alternatives_of_a_layer_are_drawn_one_at_a_time)
{
    static bw_alternative two[2];
    static bw_material tight[2];
    for (size_t i = 0; i < 2; i++) {
        tight[i] = case_material(i == 0 ? "slate" : "steel", "board", 900, 0.13,
                                 1e5, true);
        two[i] = (bw_alternative){&tight[i], 0.015};
    }
    set_mu(5);
    c.layer[CASE_SHEATHING].alternative = two;
    c.layer[CASE_SHEATHING].alternative_count = 2;
    const bw_margin_options options = {.assessment = {.no_transient = true},
                                       .ensemble = 240};
    c.assembly.indoors.temperature = 24.0; /* else the room is too damp */
    ck_assert_uint_eq(assessed().fails, 0);
    ck_assert_int_eq(
        bw_margin_make(&m, &c.assembly, &c.climate, &options, NULL), BW_OK);
    ck_assert_uint_eq(m->ensemble_count, 240);
    ck_assert_double_eq_tol(m->ensemble_share, 1.0 / 3, 0.02);
}
END_TEST

/* ---- how damp the room may be -------------------------------------------- */

/* At its ends: a wall that no room is too damp for, one that none is dry enough
 * for, and a room drier than any that is looked through. */
static const struct room {
    bw_indoor_kind kind;
    double mu, foil, rh;
    int least, most, holds, beyond; /* beyond 0: in between */
    size_t cases;                   /* 0: some */
} rooms[] = {
    {BW_INDOOR_CLASS, 5, 100, 0, 1, 5, 5, 6, 1},
    {BW_INDOOR_CLASS, 1e5, 1000, 0, 1, 5, 0, 1, 1},
    {BW_INDOOR_RH, 1e5, 1000, 0.5, 20, 95, 19, 20, 1},
    {BW_INDOOR_RH, 5, 100, 0.1, 20, 95, 0, 0, 0},
    {BW_INDOOR_RH, 5, 100, 0.97, 20, 95, 0, 0, 0},
};

START_TEST(the_dampest_room_is_looked_for_between_its_ends)
{
    const struct room *row = &rooms[_i];
    c.assembly.indoors = (bw_indoors){.kind = row->kind,
                                      .temperature = 24.0,
                                      .relative_humidity = row->rh,
                                      .humidity_class = 3};
    c.layer[CASE_INSULATION].thickness = 0.3;
    for (size_t i = 0; i < CASE_LAYERS && row->holds == row->most; i++) {
        c.material[i].wood_kind = BW_NOT_WOOD; /* nothing perishes */
        c.material[i].mould_class = BW_MOULD_RESISTANT;
    }
    set_mu(row->mu);
    set_sd(row->foil);
    make();
    const bw_damp_limit *d = &m->damp;
    ck_assert(!d->replaced && !d->simulated);
    ck_assert_int_eq(d->by_class, row->kind == BW_INDOOR_CLASS);
    ck_assert_int_eq(d->least, row->least);
    ck_assert_int_eq(d->most, row->most);
    ck_assert_double_eq(d->temperature, 24.0);
    if (row->beyond > 0) {
        ck_assert_int_eq(d->holds, row->holds);
        ck_assert_int_eq(d->beyond, row->beyond);
    } else {
        ck_assert_int_ge(d->holds, 20);
        ck_assert_int_lt(d->holds, 95);
        ck_assert_int_eq(d->beyond, d->holds + 1);
    }
    if (row->cases > 0)
        ck_assert_uint_eq(d->cases, row->cases);
    ck_assert_int_eq(d->figure.criterion[0] != '\0', d->beyond <= d->most);
    ck_assert(d->beyond > d->most || d->verdict_beyond == BW_FAILS ||
              d->verdict_beyond == BW_NOT_ASSESSED);
    ck_assert(d->holds < d->least || d->verdict == BW_HOLDS ||
              d->verdict == BW_MARGINAL);
}
END_TEST

SUITE_AROUND(
    "margin_alone", setup, teardown, FACT(flips_are_told_by_rising_value),
    FACT(a_switch_turns_the_verdict_of_a_wall_that_holds_alone),
    FACT(what_every_value_flips_is_named_though_the_wall_fails_all_the_same),
    EACH(nine_values_and_as_drawn_among_them_are_computed, COUNT(samples)),
    EACH(what_moves_most_is_what_its_samples_say, COUNT(ranges)),
    EACH(beside_an_outer_foil_the_way_to_what_holds_is_down, COUNT(outers)),
    FACT(unknowns_are_ranked_by_what_they_move),
    FACT(no_combination_of_ends_is_worse_than_the_one_told),
    FACT(a_wall_that_nothing_makes_worse_stays_as_drawn),
    FACT(alternatives_of_a_layer_are_drawn_one_at_a_time),
    EACH(the_dampest_room_is_looked_for_between_its_ends, COUNT(rooms)))
