/* Margin: what is found of one unknown, beside the same walls assessed one by
 * one. */

#include "alone_case.h"
#include "suite.h"

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

static bw_layer outside_in[CASE_LAYERS];

/* A foil outside, wool, a tight foil, plasterboard. */
static void turn_inside_out(void)
{
    static bw_material inner;
    bw_layer *layer = outside_in;
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
}

static void doubt_outside(double low, double high)
{
    range[0] = (bw_uncertain){"sd", low, high};
    outside_in[0].uncertain = &range[0];
    outside_in[0].uncertain_count = 1;
    make();
}

START_TEST(beside_an_outer_foil_the_way_to_what_holds_is_down)
{
    static const double rh[] = {0.25, 0.9};
    const double sd[] = {outers[_i].dry, outers[_i].humid};
    turn_inside_out();
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
    doubt_outside(0.02, 30.0);
    const bw_unknown *u = find("sd of foil");
    ck_assert(u->continuous && isnan(u->as_drawn));
    ck_assert(u->flips && !u->flips_all);
    ck_assert_int_eq(u->flip_fails, outers[_i].fails);
    ck_assert_int_eq(u->flip_above, outers[_i].above);
    check_place(u);
    ck_assert(u->flip_changes_verdict);
    /* the walls on both sides */
    outside_in[0].uncertain_count = 0;
    c.material[CASE_FOIL].sd_curve.count = 0;
    for (int tight = 0; tight < 2; tight++) {
        set_sd(u->flip_value * (tight ? 1.02 : 1 / 1.02));
        ck_assert_int_eq(assessed().fails > 0, tight);
    }
}
END_TEST

/* The one flip of a range is the first, however far: here it lies farther from
 * as drawn than nought does. */
START_TEST(a_flip_farther_than_nought_is_the_first)
{
    turn_inside_out();
    set_sd(0.1);
    doubt_outside(0.05, 30.0);
    const double at = find("sd of foil")->flip_value;
    ck_assert_double_gt(at, 0.5);
    set_sd(0.38 * at);
    doubt_outside(0.37 * at, 1.08 * at);
    const bw_unknown *u = find("sd of foil");
    ck_assert(u->flips && !u->geometric);
    ck_assert_uint_eq(u->flip_count, 1);
    ck_assert_double_eq_tol(u->flip_value, at, 0.01 * at);
    ck_assert(u->flip_fails && u->flip_above);
    check_place(u);
}
END_TEST

START_TEST(a_switch_that_changes_next_to_nothing_flips_nothing)
{
    c.assembly.indoors.humidity_class = 2;
    c.material[CASE_SHEATHING].mu_wet = case_value(49.9);
    make();
    const bw_unknown *u = find("mu of panel");
    ck_assert(u->two_ended && !u->flips);
    ck_assert_str_eq(u->flip_criterion, "");
    ck_assert_int_eq(u->verdict_low, u->verdict_as_drawn);
}
END_TEST

SUITE_AROUND(
    "margin_alone", setup, teardown,
    EACH(nine_values_and_as_drawn_among_them_are_computed, COUNT(samples)),
    EACH(what_moves_most_is_what_its_samples_say, COUNT(ranges)),
    FACT(a_flip_farther_than_nought_is_the_first),
    FACT(a_switch_that_changes_next_to_nothing_flips_nothing),
    FACT(flips_are_told_by_rising_value),
    FACT(a_switch_turns_the_verdict_of_a_wall_that_holds_alone),
    FACT(what_every_value_flips_is_named_though_the_wall_fails_all_the_same),
    EACH(beside_an_outer_foil_the_way_to_what_holds_is_down, COUNT(outers)))
