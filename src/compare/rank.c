/* Which wall: by verdict, then by the stresses it does not hold, then by what
 * is left to the nearest limit, as drawn and stressed. An order alone would
 * make a winner of the last digit, so that the best is told apart from another
 * only where one of the three differs by BW_COMPARE_DIFFERENCE of a limit.
 *
 * Invariant: a wall that fails or is not assessed is never among the best. */

#include <math.h>
#include <string.h>

#include "case.h"
#include "comparing.h"
#include "fail.h"
#include "verdict.h"

static int class_of(bw_verdict verdict)
{
    return verdict == BW_HOLDS ? 0 : verdict == BW_MARGINAL ? 1 : 2;
}

/* Unknown is least. */
static double left(const bw_compared *wall)
{
    return isnan(wall->worst_margin) ? -2.0 : wall->worst_margin;
}

static bool before(const bw_compared *a, const bw_compared *b)
{
    const int class = class_of(a->verdict), other = class_of(b->verdict);
    if (class != other || class == 2)
        return class < other;
    if (a->not_held != b->not_held)
        return a->not_held < b->not_held;
    return left(a) > left(b);
}

/* ---- what is a difference ------------------------------------------------ */

/* What one of them has not is not compared. */
static bool apart(double a, double b)
{
    return fabs(a - b) >= BW_COMPARE_DIFFERENCE;
}

/* Something that is marginal in b holds in a, by more than a digit. */
static bool is_marginal_apart(const bw_compare_core *core, size_t a, size_t b)
{
    bw_case one, other;
    bw_case_of(&one, core->assessment[a]);
    bw_case_of(&other, core->assessment[b]);
    for (size_t key = 0; key < BW_CASE_KEYS; key++)
        if (other.outcome[key] == BW_MARGINAL &&
            one.outcome[key] != BW_MARGINAL &&
            apart(one.margin[key], other.margin[key]))
            return true;
    return false;
}

/* A stress that a holds and b does not. */
static bool is_stressed_apart(const bw_compare_core *core, size_t a, size_t b)
{
    for (size_t i = 0; i < core->comparison.stress_count; i++) {
        const bw_stressed *one = &core->comparison.stress[i].wall[a];
        const bw_stressed *other = &core->comparison.stress[i].wall[b];
        if (other->applies && !bw_verdict_good(other->verdict) &&
            (!one->applies ||
             (bw_verdict_good(one->verdict) &&
              (other->verdict == BW_NOT_ASSESSED ||
               apart(one->worst_margin, other->worst_margin)))))
            return true;
    }
    return false;
}

/* Why a, which is not ranked behind b, is better. */
static bw_because because_of(const bw_compare_core *core, size_t a, size_t b)
{
    const bw_compared *one = &core->wall[a], *other = &core->wall[b];
    if (!bw_verdict_good(other->verdict))
        return BW_BECAUSE_VERDICT;
    if (one->verdict != other->verdict && is_marginal_apart(core, a, b))
        return BW_BECAUSE_VERDICT;
    if (one->not_held < other->not_held && is_stressed_apart(core, a, b))
        return BW_BECAUSE_STRESSES;
    if (one->not_held <= other->not_held &&
        one->worst_margin > other->worst_margin &&
        apart(one->worst_margin, other->worst_margin))
        return BW_BECAUSE_RESERVE;
    return BW_BECAUSE_NONE;
}

/* Those that cannot be told from the first move up to it. */
static size_t gather(bw_compare_core *core, size_t *order)
{
    size_t count = 1;
    if (!bw_verdict_good(core->wall[order[0]].verdict))
        return 0;
    for (size_t k = 1; k < core->count; k++) {
        const size_t wall = order[k];
        core->wall[wall].because = because_of(core, order[0], wall);
        if (core->wall[wall].because != BW_BECAUSE_NONE)
            continue;
        memmove(order + count + 1, order + count, (k - count) * sizeof *order);
        order[count++] = wall;
    }
    return count;
}

bw_status bw_compare_rank(bw_compare_core *core, bw_error *err)
{
    size_t *order = BW_NEW(&core->arena, size_t, core->count);
    BW_TRY_MEMORY(order != NULL, err);
    for (size_t i = 0; i < core->count; i++) {
        size_t k = i;
        for (; k > 0 && before(&core->wall[i], &core->wall[order[k - 1]]); k--)
            order[k] = order[k - 1];
        order[k] = i;
    }
    core->comparison.order = order;
    core->comparison.best_count = gather(core, order);
    return BW_OK;
}
