#include "race.h"

#include <math.h>
#include <stdlib.h>

#include "bound.h"
#include "fail.h"

/* Racing (after Maron & Moore 1994 [M-med]): every design gets the same cases,
 * 32, 64, ... of them. A goal is told by the tail of each set of cases, or for
 * the share that fails by its mean; two designs differ in it by
 *
 *   t = d / (s / sqrt(8)),
 *
 * d and s the mean and the standard deviation of the eight differences, against
 * Student's t with 7 degrees of freedom. The sets are independent and both
 * designs have the same cases, so that what all cases share does not count.
 *
 * Beaten: another is better in one goal and no worse in any, where no worse is
 * better or, in every set, the same within what anybody would tell apart. All
 * goals must agree, so that the chance of an error is that of one; over the
 * designs and the rounds it is shared out (Bonferroni).
 *
 * Where the months race, they must see a design fail more often: that it has
 * less reserve there is no reason to drop what only a simulation can judge.
 *
 * Invariant: a goal that is not known of one of two leaves them both, and so
 * does a reserve that is known of neither: nothing judged them. */

/* Less than this is no difference. */
static const double SAME[BW_GOAL_COUNT] = {
    [BW_GOAL_FAILING] = 0.0,    [BW_GOAL_U] = 0.0005,
    [BW_GOAL_THICKNESS] = 5e-4, [BW_GOAL_RESERVE] = 0.001,
    [BW_GOAL_MOULD] = 0.05,     [BW_GOAL_WOOD] = 0.5,
    [BW_GOAL_PRICE] = 0.005,    [BW_GOAL_CARBON] = 0.005,
};

/* Tails of eight sets are not quite normal: half of the chance is kept for that
 * (judgement; the suite choose_race counts). */
static const double SPARED = 0.5;

bool bw_goal_is_drawn(bw_goal goal)
{
    return goal == BW_GOAL_FAILING || goal == BW_GOAL_RESERVE ||
           goal == BW_GOAL_MOULD || goal == BW_GOAL_WOOD;
}

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

double bw_goal_tail(bw_goal goal, const double *value, size_t count,
                    size_t stride, double *room)
{
    double sum = 0.0;
    if (count == 0)
        return (double)NAN;
    for (size_t i = 0; i < count; i++) {
        room[i] = value[i * stride];
        sum += room[i];
    }
    if (isnan(sum) || goal == BW_GOAL_FAILING)
        return sum / (double)count;
    qsort(room, count, sizeof *room, by_value);
    const size_t rank = (9 * count + 9) / 10; /* 0.9 count, rounded up */
    return goal == BW_GOAL_RESERVE ? room[count - rank] : room[rank - 1];
}

void bw_race_tails(bw_race *race, size_t cases)
{
    double room[BW_RACE_MOST / BW_RACE_SETS];
    for (size_t i = 0; i < race->count; i++)
        for (size_t set = 0; race->alive[i] && set < BW_RACE_SETS; set++)
            for (int g = 0; g < BW_GOAL_COUNT; g++) {
                const double *first = race->value +
                                      ((i * race->cap + set) * BW_GOAL_COUNT +
                                       (size_t)g);
                double *to = race->tail +
                             (i * BW_RACE_SETS + set) * BW_GOAL_COUNT +
                             (size_t)g;
                *to = bw_goal_is_drawn((bw_goal)g)
                          ? bw_goal_tail(
                                (bw_goal)g, first, cases / BW_RACE_SETS,
                                (size_t)BW_RACE_SETS * BW_GOAL_COUNT, room)
                          : (double)NAN;
            }
}

typedef enum outcome { BETTER, EQUAL, WORSE, UNCLEAR, UNKNOWN } outcome;

static double better_by(bw_goal goal, double a, double b)
{
    return goal == BW_GOAL_RESERVE ? a - b : b - a;
}

static outcome by_fixed(const bw_race *race, size_t a, size_t b, bw_goal goal)
{
    const double *of = race->fixed + goal;
    const double by = better_by(goal, of[a * BW_GOAL_COUNT],
                                of[b * BW_GOAL_COUNT]);
    if (isnan(by))
        return isnan(of[a * BW_GOAL_COUNT]) && isnan(of[b * BW_GOAL_COUNT])
                   ? EQUAL
                   : UNKNOWN;
    return fabs(by) <= SAME[goal] ? EQUAL : by > 0.0 ? BETTER : WORSE;
}

static outcome by_cases(const bw_race *race, size_t a, size_t b, bw_goal goal,
                        double limit)
{
    double by[BW_RACE_SETS], mean = 0.0, square = 0.0;
    size_t same = 0, none = 0, unknown = 0;
    for (size_t set = 0; set < BW_RACE_SETS; set++) {
        const double one =
            race->tail[(a * BW_RACE_SETS + set) * BW_GOAL_COUNT + (size_t)goal];
        const double other =
            race->tail[(b * BW_RACE_SETS + set) * BW_GOAL_COUNT + (size_t)goal];
        by[set] = better_by(goal, one, other);
        none += isnan(one) && isnan(other);
        unknown += isnan(by[set]) ? 1 : 0;
        same += fabs(by[set]) <= SAME[goal];
        mean += by[set] / BW_RACE_SETS;
    }
    if (unknown > 0)
        return none == BW_RACE_SETS && goal != BW_GOAL_RESERVE ? EQUAL
                                                               : UNKNOWN;
    if (same == BW_RACE_SETS)
        return EQUAL;
    for (size_t set = 0; set < BW_RACE_SETS; set++)
        square += (by[set] - mean) * (by[set] - mean);
    const double error = sqrt(square / (BW_RACE_SETS - 1) / BW_RACE_SETS);
    return mean > limit * error    ? BETTER
           : mean < -limit * error ? WORSE
                                   : UNCLEAR;
}

static outcome in_goal(const bw_race *race, size_t a, size_t b, bw_goal goal,
                       double limit)
{
    return bw_goal_is_drawn(goal) ? by_cases(race, a, b, goal, limit)
                                  : by_fixed(race, a, b, goal);
}

static bool beats(const bw_race *race, size_t a, size_t b, double limit)
{
    bool better = false;
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        const outcome is = in_goal(race, a, b, (bw_goal)g, limit);
        if (is != BETTER && is != EQUAL)
            return false;
        better = better ||
                 (is == BETTER && (!race->must_fail || g == BW_GOAL_FAILING));
    }
    return better;
}

bool bw_race_is_no_worse(const bw_race *race, size_t a, size_t b)
{
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        const outcome is = bw_goal_is_drawn((bw_goal)g)
                               ? EQUAL
                               : by_fixed(race, a, b, (bw_goal)g);
        if (is != BETTER && is != EQUAL)
            return false;
    }
    return true;
}

bool bw_race_is_tie(const bw_race *race, size_t a, size_t b, double chance)
{
    int drawn = 0;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        drawn += bw_goal_is_drawn((bw_goal)g);
    const double limit = bw_t7(1.0 - SPARED * chance / (2.0 * drawn));
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        const outcome is = in_goal(race, a, b, (bw_goal)g, limit);
        if (is != EQUAL && is != UNCLEAR)
            return false;
    }
    return true;
}

static size_t alive(const bw_race *race)
{
    size_t count = 0;
    for (size_t i = 0; i < race->count; i++)
        count += race->alive[i];
    return count;
}

/* "The same" is not handed on, so that designs could beat each other in a ring:
 * then none of it is beaten. */
static bool leads_back(const bw_race *race, size_t from)
{
    long at = race->beaten_by[from];
    for (size_t i = 0; i < race->count && at >= 0; i++) {
        if ((size_t)at == from)
            return true;
        at = race->beaten_by[at];
    }
    return false;
}

/* All at once, so that the order of the designs does not count. */
static void drop(bw_race *race, size_t cases, double chance)
{
    const double limit = bw_t7(1.0 - chance);
    bw_race_tails(race, cases);
    for (size_t b = 0; b < race->count; b++)
        for (size_t a = 0;
             race->alive[b] && race->beaten_by[b] < 0 && a < race->count; a++)
            if (a != b && race->alive[a] && beats(race, a, b, limit)) {
                race->beaten_by[b] = (long)a;
                race->beaten_after[b] = cases;
            }
    /* the whole ring is found before any of it is let go */
    for (size_t i = 0; i < race->count; i++)
        if (race->alive[i] && leads_back(race, i))
            race->beaten_after[i] = 0;
    for (size_t i = 0; i < race->count; i++)
        if (race->alive[i] && race->beaten_after[i] == 0)
            race->beaten_by[i] = -1;
    for (size_t i = 0; i < race->count; i++)
        race->alive[i] = race->alive[i] && race->beaten_by[i] < 0;
}

bw_status bw_race_run(bw_race *race, bw_race_judge *judge, bw_race_told *told,
                      void *payload, bw_error *err)
{
    size_t rounds = 0, first = alive(race);
    for (size_t n = BW_RACE_FIRST; n / 2 < race->cap; n *= 2)
        rounds++;
    const double chance = SPARED * BW_RACE_CHANCE /
                          (double)(rounds * (first > 1 ? first - 1 : 1));
    for (size_t from = 0, to = BW_RACE_FIRST; from < race->cap; to *= 2) {
        if (to > race->cap)
            to = race->cap;
        const size_t before = alive(race);
        BW_TRY(judge(payload, race, from, to, err));
        drop(race, to, chance);
        if (told != NULL)
            told(payload, to, before, alive(race));
        from = to;
    }
    return BW_OK;
}
