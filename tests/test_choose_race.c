/* Racing on stand-ins whose truth is known: who is beaten is dropped, who is
 * not is dropped no more often than said, and what is left is what brute force
 * leaves. */

#include <math.h>
#include <string.h>

#include "arena.h"
#include "choose/race.h"
#include "sobol.h"
#include "suite.h"

enum { SEEDS = 200, CAP = 256, MOST = 16 };

/* What a design is in truth: goals that are fixed, and of those that are drawn
 * what all cases have in common, and how much of its own it varies. */
typedef struct stand_in {
    double u, thickness;
    double mould, wood, reserve; /* centre */
    double own;                  /* spread that others do not share */
    double fails_above;          /* of the first unknown */
} stand_in;

typedef struct trial {
    const stand_in *design;
    size_t count;
    uint64_t seed;
    size_t judged;
} trial;

static bw_arena arena;

static double value_of(const trial *t, size_t d, size_t i, bw_goal goal)
{
    const stand_in *is = &t->design[d];
    const uint64_t set = bw_seed_of(t->seed, i % BW_RACE_SETS);
    double u[4];
    for (size_t k = 0; k < 3; k++)
        u[k] = bw_sobol_scrambled(set, i / BW_RACE_SETS, k);
    u[3] = bw_random(set, i / BW_RACE_SETS, 100 + d * 10 + (size_t)goal);
    const double common = 2.0 * u[0] + exp(u[1]), own = is->own * -log(u[3]);
    switch (goal) {
    case BW_GOAL_FAILING:
        return u[0] > is->fails_above ? 1.0 : 0.0;
    case BW_GOAL_MOULD:
        return is->mould + common + own;
    case BW_GOAL_WOOD:
        return is->wood + 10.0 * (common + u[2]) + 10.0 * own;
    case BW_GOAL_RESERVE:
        return is->reserve - common - own;
    default:
        return (double)NAN;
    }
}

static bw_status judge(void *payload, bw_race *race, size_t from, size_t to,
                       bw_error *err)
{
    trial *t = payload;
    (void)err;
    for (size_t d = 0; d < race->count; d++)
        for (size_t i = from; race->alive[d] && i < to; i++, t->judged++)
            for (int g = 0; g < BW_GOAL_COUNT; g++)
                race->value[(d * race->cap + i) * BW_GOAL_COUNT + g] = value_of(
                    t, d, i, (bw_goal)g);
    return BW_OK;
}

static bw_race make(const trial *t, size_t cap)
{
    const size_t n = t->count;
    bw_race race = {
        .count = n,
        .cap = cap,
        .fixed = BW_NEW(&arena, double, n *BW_GOAL_COUNT),
        .value = BW_NEW(&arena, double, n *cap *BW_GOAL_COUNT),
        .tail = BW_NEW(&arena, double, n *BW_RACE_SETS *BW_GOAL_COUNT),
        .alive = BW_NEW(&arena, bool, n),
        .beaten_by = BW_NEW(&arena, long, n),
        .beaten_after = BW_NEW(&arena, size_t, n)};
    ck_assert(!arena.failed);
    for (size_t d = 0; d < n; d++) {
        race.alive[d] = true;
        race.beaten_by[d] = -1;
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            race.fixed[d * BW_GOAL_COUNT + g] = (double)NAN;
        race.fixed[d * BW_GOAL_COUNT + BW_GOAL_U] = t->design[d].u;
        race.fixed[d * BW_GOAL_COUNT + BW_GOAL_THICKNESS] =
            t->design[d].thickness;
    }
    return race;
}

static bw_race run(trial *t, size_t cap)
{
    bw_race race = make(t, cap);
    ck_assert_int_eq(bw_race_run(&race, judge, NULL, t, NULL), BW_OK);
    return race;
}

static void release(void)
{
    bw_arena_release(&arena);
}

/* ---- errors -------------------------------------------------------------- */

/* Design 0 is as good as the others in one goal, in truth, and worse in all
 * else: the case in which it is dropped most easily though none beats it. */
static const struct {
    bw_goal equal;
    double own;
} nulls[] = {{BW_GOAL_MOULD, 0.3},
             {BW_GOAL_MOULD, 1.0},
             {BW_GOAL_WOOD, 0.5},
             {BW_GOAL_RESERVE, 1.0}};

START_TEST(a_design_that_none_beats_is_dropped_in_at_most_5_of_100_repetitions)
{
    size_t dropped = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        stand_in design[6];
        for (size_t d = 0; d < 6; d++)
            design[d] = (stand_in){.u = 0.2,
                                   .thickness = 0.3,
                                   .mould = 1.0,
                                   .wood = 50.0,
                                   .reserve = 9.0,
                                   .own = nulls[_i].own,
                                   .fails_above = 0.9};
        if (nulls[_i].equal != BW_GOAL_MOULD)
            design[0].mould += 3.0;
        if (nulls[_i].equal != BW_GOAL_WOOD)
            design[0].wood += 30.0;
        if (nulls[_i].equal != BW_GOAL_RESERVE)
            design[0].reserve -= 3.0;
        trial t = {.design = design, .count = 6, .seed = seed};
        bw_race race = run(&t, CAP);
        dropped += race.beaten_by[0] >= 0;
        release();
    }
    ck_assert_msg(dropped <= SEEDS / 20, "%zu of %d", dropped, SEEDS);
}
END_TEST

START_TEST(designs_that_are_alike_are_all_left_and_tied)
{
    size_t tied = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        stand_in design[2];
        for (size_t d = 0; d < 2; d++)
            design[d] = (stand_in){.u = 0.2,
                                   .mould = 1.0,
                                   .wood = 50.0,
                                   .reserve = 9.0,
                                   .own = 0.5,
                                   .fails_above = 0.9};
        trial t = {.design = design, .count = 2, .seed = seed};
        bw_race race = run(&t, 64);
        ck_assert(race.alive[0] && race.alive[1]);
        bw_race_tails(&race, 64);
        tied += bw_race_is_tie(&race, 0, 1, 0.05);
        release();
    }
    ck_assert_uint_ge(tied, SEEDS - SEEDS / 20);
}
END_TEST

/* ---- power --------------------------------------------------------------- */

START_TEST(who_is_worse_in_everything_is_dropped)
{
    const stand_in design[2] = {{.u = 0.2,
                                 .thickness = 0.3,
                                 .mould = 1.0,
                                 .wood = 50.0,
                                 .reserve = 9.0,
                                 .own = 0.1,
                                 .fails_above = 0.9},
                                {.u = 0.2,
                                 .thickness = 0.3,
                                 .mould = 1.6,
                                 .wood = 56.0,
                                 .reserve = 8.4,
                                 .own = 0.1,
                                 .fails_above = 0.6}};
    trial t = {.design = design, .count = 2, .seed = (uint64_t)_i + 1};
    bw_race race = run(&t, CAP);
    ck_assert_int_eq(race.beaten_by[1], 0);
    ck_assert_uint_lt(race.beaten_after[1], CAP);
    ck_assert(race.alive[0]);
}
END_TEST

START_TEST(a_goal_that_is_not_known_of_one_leaves_both)
{
    const stand_in design[2] = {
        {.u = 0.2, .mould = 1.0, .wood = 50.0, .reserve = 9.0},
        {.u = 0.2, .mould = (double)NAN, .wood = 90.0, .reserve = 1.0}};
    trial t = {.design = design, .count = 2, .seed = 1};
    bw_race race = run(&t, CAP);
    ck_assert(race.alive[0] && race.alive[1]);
    ck_assert_uint_eq(t.judged, 2 * CAP);
}
END_TEST

/* Though the first is thinner: that is no reason to drop what nobody judged. */
START_TEST(a_reserve_that_is_known_of_neither_leaves_both)
{
    const double none = (double)NAN;
    const stand_in design[2] = {
        {.u = 0.2, .thickness = 0.2, .mould = none, .wood = none},
        {.u = 0.2, .thickness = 0.3, .mould = none, .wood = none}};
    for (int known = 0; known < 2; known++) {
        stand_in both[2] = {design[0], design[1]};
        both[0].reserve = both[1].reserve = known ? 1.0 : none;
        trial t = {.design = both, .count = 2, .seed = 1};
        bw_race race = run(&t, CAP);
        ck_assert(race.alive[0]);
        ck_assert(race.alive[1] == (known == 0));
    }
}
END_TEST

START_TEST(a_fixed_goal_that_is_better_keeps_a_design)
{
    stand_in design[2] = {{.u = 0.20,
                           .thickness = 0.30,
                           .mould = 1.0,
                           .wood = 50.0,
                           .reserve = 9.0,
                           .fails_above = 0.9},
                          {.u = 0.20,
                           .thickness = 0.29,
                           .mould = 4.0,
                           .wood = 90.0,
                           .reserve = 1.0,
                           .fails_above = 0.1}};
    trial t = {.design = design, .count = 2, .seed = 1};
    bw_race race = run(&t, CAP);
    ck_assert(race.alive[1]);
    design[1].thickness = 0.30;
    race = run(&t, CAP);
    ck_assert(!race.alive[1]);
}
END_TEST

START_TEST(what_is_dropped_is_judged_no_more)
{
    const stand_in design[2] = {
        {.mould = 1.0, .wood = 50.0, .reserve = 9.0, .fails_above = 0.9},
        {.mould = 9.0, .wood = 90.0, .reserve = 1.0, .fails_above = 0.2}};
    trial t = {.design = design, .count = 2, .seed = 3};
    bw_race race = run(&t, CAP);
    ck_assert_uint_eq(race.beaten_after[1], BW_RACE_FIRST);
    ck_assert_uint_eq(t.judged, CAP + BW_RACE_FIRST);
}
END_TEST

/* ---- brute force --------------------------------------------------------- */

/* In truth, by the centres alone: the spread is the same for all. */
static bool beats_in_truth(const stand_in *a, const stand_in *b)
{
    const double by[] = {b->u - a->u,
                         b->thickness - a->thickness,
                         b->mould - a->mould,
                         b->wood - a->wood,
                         a->reserve - b->reserve,
                         a->fails_above - b->fails_above};
    bool better = false;
    for (size_t i = 0; i < COUNT(by); i++) {
        if (by[i] < 0.0)
            return false;
        better = better || by[i] > 0.0;
    }
    return better;
}

START_TEST(what_is_left_is_what_brute_force_leaves)
{
    const uint64_t seed = (uint64_t)_i + 1;
    stand_in design[MOST];
    for (size_t d = 0; d < MOST; d++) {
        double u[6];
        for (size_t k = 0; k < 6; k++) /* steps, so that some goals are equal */
            u[k] = floor(3.0 * bw_random(bw_seed_of(seed, 9), d, k));
        design[d] = (stand_in){.u = 0.2 + 0.1 * u[0],
                               .thickness = 0.3,
                               .mould = 1.0 + u[1],
                               .wood = 50.0 + 10.0 * u[2],
                               .reserve = 9.0 - u[3],
                               .own = 0.0,
                               .fails_above = 0.9 - 0.2 * u[4]};
    }
    trial t = {.design = design, .count = MOST, .seed = seed};
    bw_race race = run(&t, CAP);
    for (size_t b = 0; b < MOST; b++) {
        bool beaten = false;
        for (size_t a = 0; a < MOST; a++)
            beaten = beaten || beats_in_truth(&design[a], &design[b]);
        ck_assert_msg(race.alive[b] == !beaten, "design %zu of seed %d", b,
                      _i + 1);
    }
}
END_TEST

START_TEST(a_tail_is_the_nearest_rank)
{
    const double value[10] = {4, 1, 9, 3, 10, 2, 8, 7, 6, 5};
    double room[10];
    ck_assert_double_eq(bw_goal_tail(BW_GOAL_MOULD, value, 10, 1, room), 9.0);
    ck_assert_double_eq(bw_goal_tail(BW_GOAL_RESERVE, value, 10, 1, room), 2.0);
    ck_assert_double_eq(bw_goal_tail(BW_GOAL_FAILING, value, 10, 1, room), 5.5);
    ck_assert_double_eq(bw_goal_tail(BW_GOAL_WOOD, value, 5, 2, room), 10.0);
    ck_assert(isnan(bw_goal_tail(BW_GOAL_WOOD, value, 0, 1, room)));
}
END_TEST

SUITE_AROUND(
    "choose_race", NULL, release,
    EACH(a_design_that_none_beats_is_dropped_in_at_most_5_of_100_repetitions,
         COUNT(nulls)),
    FACT(designs_that_are_alike_are_all_left_and_tied),
    EACH(who_is_worse_in_everything_is_dropped, 50),
    FACT(a_goal_that_is_not_known_of_one_leaves_both),
    FACT(a_reserve_that_is_known_of_neither_leaves_both),
    FACT(a_fixed_goal_that_is_better_keeps_a_design),
    FACT(what_is_dropped_is_judged_no_more),
    EACH(what_is_left_is_what_brute_force_leaves, 40),
    FACT(a_tail_is_the_nearest_rank))
