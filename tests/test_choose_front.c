/* The front of designs made by hand at random: their order, the score that
 * weights give, what ties and what is the best as drawn alone, each written
 * down a second time; and from which difference on a goal tells two designs
 * apart. How small a difference is none is our own choice (regression values).
 */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "choose/bound.h"
#include "choose/choosing.h"
#include "random_wall.h"
#include "suite.h"

enum { MOST = 9, CASES = BW_RACE_SETS };

static dice die;
static bw_choosing c;
static bw_choices choices;
static bw_design design[MOST];
static bw_candidate candidate[MOST];
static bw_race race;
static double fixed[MOST][BW_GOAL_COUNT];
static double value[MOST][CASES][BW_GOAL_COUNT];
static double tail[MOST][BW_RACE_SETS][BW_GOAL_COUNT];
static bool alive[MOST];
static long beaten_by[MOST];
static size_t beaten_after[MOST];
static char name[MOST][16];

static void make(size_t count)
{
    memset(&c, 0, sizeof c);
    memset(&choices, 0, sizeof choices);
    race = (bw_race){.count = count,
                     .cap = CASES,
                     .fixed = fixed[0],
                     .value = value[0][0],
                     .tail = tail[0][0],
                     .alive = alive,
                     .beaten_by = beaten_by,
                     .beaten_after = beaten_after};
    c.count = count;
    c.design = design;
    c.candidate = candidate;
    c.chosen.choices = &choices;
    c.statement = &race;
    c.slots.drawn = CASES;
    for (size_t i = 0; i < count; i++) {
        snprintf(name[i], sizeof name[i], "design %zu", i);
        candidate[i] = (bw_candidate){.judged_out = false};
        design[i] = (bw_design){.name = name[i],
                                .central = "",
                                .drawn = CASES,
                                .score = (double)NAN};
        alive[i] = true;
        beaten_by[i] = -1;
        for (int g = 0; g < BW_GOAL_COUNT; g++) {
            design[i].goal[g] = design[i].drawn_goal[g] = (double)NAN;
            fixed[i][g] = (double)NAN;
            for (size_t k = 0; k < CASES; k++)
                value[i][k][g] = (double)NAN;
        }
    }
}

static void start(void)
{
    die = (dice){.state = 88172645463325252u};
}

static void end(void)
{
    bw_arena_release(&c.arena);
}

static void find(void)
{
    bw_error err = {0};
    ck_assert(bw_front_find(&c, &err) == BW_OK);
}

static void forget(void)
{
    bw_arena_release(&c.arena);
    c.arena = (bw_arena){0};
}

/* ---- order ----------------------------------------------------------------
 */

/* A whole below n. */
static size_t pick(size_t n)
{
    return (size_t)between(&die, 0.0, (double)n - 1e-9);
}

static void draw_designs(size_t count)
{
    static const bw_standing standings[] = {BW_STANDS, BW_BREAKS, BW_UNDECIDED};
    make(count);
    c.chosen.simulated = uniform(&die) < 0.5;
    for (size_t i = 0; i < count; i++) {
        bw_design *d = &design[i];
        candidate[i].judged_out = uniform(&die) < 0.2;
        d->standing = standings[pick(3)];
        d->marginally = d->standing == BW_STANDS && uniform(&die) < 0.5;
        d->drawn = uniform(&die) < 0.2 ? 0 : 8;
        d->failed = pick(4);
        d->unassessed = pick(3);
        d->failed_numbers = pick(4);
        d->goal[BW_GOAL_U] = 0.1 + 0.1 * (double)pick(3);
    }
}

static int rank_of(const bw_design *d)
{
    return d->standing == BW_STANDS   ? d->marginally
           : d->standing == BW_BREAKS ? 3
                                      : 2;
}

/* Where nothing was drawn, behind all that was. */
static double not_held(const bw_design *d)
{
    const size_t lost = c.chosen.simulated ? d->failed + d->unassessed
                                           : d->failed_numbers;
    return d->drawn > 0 ? (double)lost / 8.0 : 2.0;
}

static bool is_before(size_t a, size_t b)
{
    const bw_design *x = &design[a], *y = &design[b];
    const double keys[][2] = {{rank_of(x), rank_of(y)},
                              {c.chosen.has_weights ? x->score : 0.0,
                               c.chosen.has_weights ? y->score : 0.0},
                              {not_held(x), not_held(y)},
                              {x->goal[BW_GOAL_U], y->goal[BW_GOAL_U]}};
    for (size_t k = 0; k < COUNT(keys); k++)
        if (fabs(keys[k][0] - keys[k][1]) > 0.0)
            return keys[k][0] < keys[k][1];
    return a < b;
}

START_TEST(who_holds_stands_first_then_who_fails_least_then_who_insulates_best)
{
    for (int draw = 0; draw < 500; draw++) {
        size_t left = 0;
        draw_designs(1 + pick(MOST));
        find();
        for (size_t i = 0; i < c.count; i++) {
            left += !candidate[i].judged_out;
            ck_assert_int_eq(design[i].on_front, !candidate[i].judged_out);
        }
        ck_assert_uint_eq(c.chosen.front_count, left);
        for (size_t i = 1; i < left; i++)
            ck_assert(is_before(c.chosen.front[i - 1], c.chosen.front[i]));
        ck_assert_int_eq(c.chosen.known[BW_GOAL_U], left > 0);
        ck_assert(!c.chosen.known[BW_GOAL_MOULD]);
        ck_assert(!c.chosen.has_weights);
        forget();
    }
}
END_TEST

/* ---- weights --------------------------------------------------------------
 */

static double share_of(size_t d, int g)
{
    double least = HUGE_VAL, most = -HUGE_VAL;
    const double sign = g == BW_GOAL_RESERVE ? -1.0 : 1.0;
    for (size_t i = 0; i < c.count; i++)
        if (design[i].on_front && !isnan(design[i].goal[g])) {
            least = fmin(least, sign * design[i].goal[g]);
            most = fmax(most, sign * design[i].goal[g]);
        }
    if (isnan(design[d].goal[g]))
        return 1.0; /* what is not known counts as worst */
    return most > least ? (sign * design[d].goal[g] - least) / (most - least)
                        : 0.0;
}

static double score_of(size_t d, const double weight[BW_GOAL_COUNT])
{
    double sum = 0.0, all = 0.0;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        if (weight[g] > 0.0) {
            sum += weight[g] * share_of(d, g);
            all += weight[g];
        }
    return sum / all;
}

/* Whom these weights put first. */
static size_t first_by(const double weight[BW_GOAL_COUNT])
{
    size_t first = c.count;
    for (size_t i = 0; i < c.count; i++) {
        design[i].score = score_of(i, weight);
        if (design[i].on_front && (first == c.count || is_before(i, first)))
            first = i;
    }
    return first;
}

static void draw_goals(void)
{
    static const bw_goal weighed[] = {BW_GOAL_U, BW_GOAL_RESERVE, BW_GOAL_MOULD,
                                      BW_GOAL_PRICE};
    choices.has_weights = true;
    for (size_t k = 0; k < COUNT(weighed); k++) {
        const bool same = uniform(&die) < 0.1;
        choices.weight[weighed[k]] = uniform(&die) < 0.7
                                         ? between(&die, 0.1, 3.0)
                                         : 0.0;
        for (size_t i = 0; i < c.count; i++)
            design[i].goal[weighed[k]] = uniform(&die) < 0.1 ? NAN
                                         : same              ? 0.5
                                                : between(&die, 0.1, 1.0);
    }
    choices.weight[BW_GOAL_U] = 1.0;
}

START_TEST(a_score_is_what_the_weights_make_of_the_goals)
{
    size_t stays = 0, moves = 0;
    for (int draw = 0; draw < 500; draw++) {
        double weight[BW_GOAL_COUNT], is[MOST];
        draw_designs(2 + pick(MOST - 1));
        for (size_t i = 0; i < c.count; i++) {
            design[i].standing = BW_STANDS;
            design[i].marginally = false;
        }
        candidate[0].judged_out = false;
        draw_goals();
        find();
        memcpy(weight, choices.weight, sizeof weight);
        ck_assert(c.chosen.has_weights);
        for (size_t i = 0; i < c.count; i++)
            is[i] = design[i].score;
        for (size_t i = 0; i < c.count; i++)
            if (design[i].on_front)
                ck_assert_double_eq_tol(is[i], score_of(i, weight), 1e-9);
        const size_t first = c.chosen.front[0];
        ck_assert_uint_eq(first, first_by(weight));
        char words[80] = "";
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            for (int twice = 0; twice < 2 && weight[g] > 0.0; twice++) {
                const double was = weight[g];
                weight[g] = twice == 1 ? 2.0 * was : was / 2.0;
                const size_t other = first_by(weight);
                if (other != first && words[0] == '\0')
                    snprintf(words, sizeof words,
                             "%s the weight of %s puts %s first",
                             twice == 1 ? "twice" : "half",
                             bw_goal_name((bw_goal)g), name[other]);
                weight[g] = was;
            }
        ck_assert_str_eq(c.chosen.best_moves, words);
        ck_assert_int_eq(c.chosen.best_stays, words[0] == '\0');
        stays += words[0] == '\0';
        moves += words[0] != '\0';
        forget();
    }
    ck_assert(stays > 20 && moves > 20);
}
END_TEST

/* ---- what tells two designs apart -----------------------------------------
 */

static void both(bw_goal goal, double a, double b)
{
    for (size_t i = 0; i < 2; i++) {
        const double is = i == 0 ? a : b;
        design[i].goal[goal] = fixed[i][goal] = is;
        for (size_t k = 0; k < CASES; k++)
            value[i][k][goal] = is;
    }
}

static const struct same_row {
    bw_goal goal;
    double least; /* that is a difference */
} same_rows[] = {
    {BW_GOAL_U, 0.0005},     {BW_GOAL_THICKNESS, 5e-4}, {BW_GOAL_PRICE, 0.005},
    {BW_GOAL_CARBON, 0.005}, {BW_GOAL_RESERVE, 0.001},  {BW_GOAL_MOULD, 0.05},
    {BW_GOAL_WOOD, 0.5},
};

/* Every goal but this one is the same of both. */
static void make_two(bw_goal goal, double by)
{
    make(2);
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        both((bw_goal)g, 1.0, 1.0);
    both(goal, 1.0, 1.0 + by);
    bw_race_tails(&race, CASES);
}

START_TEST(a_goal_tells_from_its_least_difference_on)
{
    const struct same_row *row = &same_rows[_i];
    const bool drawn = bw_goal_is_drawn(row->goal);
    const bool more_is_better = row->goal == BW_GOAL_RESERVE;
    for (int sign = -1; sign <= 1; sign += 2) {
        make_two(row->goal, 0.95 * sign * row->least);
        ck_assert(bw_race_is_tie(&race, 0, 1, 0.05));
        ck_assert(bw_race_is_no_worse(&race, 0, 1));
        make_two(row->goal, 1.05 * sign * row->least);
        ck_assert(!bw_race_is_tie(&race, 0, 1, 0.05));
        const bool second_is_better = (sign > 0) == more_is_better;
        ck_assert_int_eq(bw_race_is_no_worse(&race, 0, 1),
                         drawn || !second_is_better);
        ck_assert_int_eq(bw_race_is_no_worse(&race, 1, 0),
                         drawn || second_is_better);
    }
}
END_TEST

/* Of the share that fails any difference is one. */
START_TEST(one_failure_more_in_every_set_tells)
{
    make_two(BW_GOAL_FAILING, 1e-6);
    ck_assert(!bw_race_is_tie(&race, 0, 1, 0.05));
    make_two(BW_GOAL_FAILING, 0.0);
    ck_assert(bw_race_is_tie(&race, 0, 1, 0.05));
}
END_TEST

/* Student's t of the eight differences, d / (s / sqrt 8): two sides, four goals
 * that are drawn, and half of the chance spared. */
START_TEST(sets_that_differ_by_chance_alone_do_not_tell)
{
    static const double chances[] = {0.05, 0.2, 0.01};
    for (int draw = 0; draw < 60; draw++) {
        const double chance = chances[draw % 3];
        const double limit = bw_t7(1.0 - 0.5 * chance / 8.0);
        double z[CASES], mean = 0.0, square = 0.0;
        for (size_t k = 0; k < CASES; k++)
            mean += (z[k] = between(&die, -1.0, 1.0)) / CASES;
        for (size_t k = 0; k < CASES; k++)
            square += (z[k] - mean) * (z[k] - mean);
        const double error = sqrt(square / 7.0 / 8.0);
        for (int beyond = 0; beyond < 2; beyond++) {
            const double by = (beyond == 1 ? 1.01 : 0.99) * limit * error *
                              (draw % 2 == 0 ? 1.0 : -1.0);
            make_two(BW_GOAL_U, 0.0);
            for (size_t k = 0; k < CASES; k++)
                value[1][k][BW_GOAL_MOULD] += 10.0 * (z[k] - mean + by);
            bw_race_tails(&race, CASES);
            ck_assert_int_eq(bw_race_is_tie(&race, 0, 1, chance), !beyond);
            ck_assert_int_eq(bw_race_is_tie(&race, 1, 0, chance), !beyond);
        }
    }
}
END_TEST

/* ---- ties -----------------------------------------------------------------
 */

/* Wood moisture 10, 10.2, 20, 20.2 and 30: two pairs and one alone, in the
 * order of the front; and only among those that stand alike, of which cases
 * were drawn. */
START_TEST(those_that_cannot_be_told_apart_have_one_number)
{
    static const double wood[] = {20.0, 10.0, 30.0, 20.2, 10.2};
    static const size_t ties[] = {1, 2, 0, 1, 2};
    for (int change = 0; change < 4; change++) {
        make(5);
        for (size_t i = 0; i < 5; i++) {
            for (int g = 0; g < BW_GOAL_COUNT; g++) {
                fixed[i][g] = 1.0;
                for (size_t k = 0; k < CASES; k++)
                    value[i][k][g] = g == BW_GOAL_WOOD ? wood[i] : 1.0;
            }
            design[i].standing = BW_STANDS;
            design[i].goal[BW_GOAL_U] = 0.1;
        }
        if (change == 1)
            design[3].standing = BW_UNDECIDED;
        if (change == 2)
            design[3].drawn = 0;
        if (change == 3)
            candidate[3].judged_out = true;
        find();
        for (size_t i = 0; i < 5; i++)
            ck_assert_uint_eq(design[i].tie, change == 0        ? ties[i]
                                             : i == 1 || i == 4 ? 1
                                                                : 0);
        forget();
    }
}
END_TEST

/* ---- the best as drawn -----------------------------------------------------
 */

/* Design 0 is the best as drawn, 1 in the drawn cases, by so much. */
static const struct central_row {
    bw_goal goal;
    double first, second; /* of 0 and 1 in the drawn cases */
    const char *words;
} central_rows[] = {
    {BW_GOAL_RESERVE, 0.01, 0.0111, "the drying reserve"},
    {BW_GOAL_RESERVE, 0.01, 0.0109, ""},
    {BW_GOAL_RESERVE, 0.1, 0.1052, "the drying reserve"}, /* 5 % */
    {BW_GOAL_RESERVE, 0.1, 0.1048, ""},
    {BW_GOAL_MOULD, 0.5, 0.448, "the mould index"},
    {BW_GOAL_MOULD, 0.5, 0.452, ""},
    {BW_GOAL_MOULD, 2.0, 1.89, "the mould index"},
    {BW_GOAL_MOULD, 2.0, 1.91, ""},
    {BW_GOAL_WOOD, 5.0, 4.45, "wood moisture"},
    {BW_GOAL_WOOD, 5.0, 4.55, ""},
    {BW_GOAL_WOOD, 20.0, 18.9, "wood moisture"},
    {BW_GOAL_WOOD, 20.0, 19.1, ""},
    {BW_GOAL_U, 0.5, 0.1, ""}, /* no goal of cases */
};

START_TEST(who_is_best_as_drawn_alone_is_told_from_a_twentieth_on)
{
    const struct central_row *row = &central_rows[_i];
    make(2);
    for (size_t i = 0; i < 2; i++) {
        const bool best = (i == 0) != (row->goal == BW_GOAL_RESERVE);
        design[i].standing = BW_STANDS;
        design[i].drawn = 0;
        design[i].drawn_goal[row->goal] = best ? 1.0 : 2.0;
        design[i].goal[row->goal] = i == 0 ? row->first : row->second;
    }
    find();
    ck_assert_str_eq(design[0].central, row->words);
    ck_assert_str_eq(design[1].central, "");
    forget();
    /* the best in both has no such word */
    design[1].drawn_goal[row->goal] = design[0].drawn_goal[row->goal];
    design[0].central = "";
    design[0].drawn_goal[row->goal] += row->goal == BW_GOAL_RESERVE ? -1.0
                                                                    : 1.0;
    c.chosen.front_count = 0;
    find();
    ck_assert_str_eq(design[0].central, "");
}
END_TEST

SUITE_AROUND(
    "choose_front", start, end,
    FACT(who_holds_stands_first_then_who_fails_least_then_who_insulates_best),
    FACT(a_score_is_what_the_weights_make_of_the_goals),
    EACH(a_goal_tells_from_its_least_difference_on, COUNT(same_rows)),
    FACT(one_failure_more_in_every_set_tells),
    FACT(sets_that_differ_by_chance_alone_do_not_tell),
    FACT(those_that_cannot_be_told_apart_have_one_number),
    EACH(who_is_best_as_drawn_alone_is_told_from_a_twentieth_on,
         COUNT(central_rows)))
