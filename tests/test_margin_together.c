/* Margin: what is found of all unknowns together, beside the same walls
 * assessed one by one; and how damp the room may be at its ends. */

#include "alone_case.h"
#include "suite.h"

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

SUITE_AROUND("margin_together", setup, teardown,
             FACT(unknowns_are_ranked_by_what_they_move),
             FACT(no_combination_of_ends_is_worse_than_the_one_told),
             FACT(a_wall_that_nothing_makes_worse_stays_as_drawn),
             FACT(alternatives_of_a_layer_are_drawn_one_at_a_time),
             EACH(the_dampest_room_is_looked_for_between_its_ends,
                  COUNT(rooms)))
