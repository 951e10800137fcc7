#include <math.h>
#include <string.h>

#include "choosing.h"
#include "fail.h"

/* The front: what no other design beats in everything (race.c). Those that hold
 * stand first, then those that do so marginally, those not assessed, then those
 * that break, the fewest failures first. Nobody's taste is in that; only where
 * the file gives weights is there a score,
 *
 *   sum_g w_g (x_g - best_g) / (worst_g - best_g) / sum_g w_g,
 *
 * over the front, where less is better, and what is not known counts as worst;
 * and it is said whether half or twice of any one weight would put another
 * first. */

/* Chance that two designs alike are told apart. */
static const double TIE_CHANCE = 0.05;

static int rank_of(const bw_design *d)
{
    return d->standing == BW_STANDS      ? (d->marginally ? 1 : 0)
           : d->standing == BW_UNDECIDED ? 2
                                         : 3;
}

/* Where nothing was drawn, behind all that was. */
static double not_held(const bw_choosing *c, const bw_design *d)
{
    if (d->drawn == 0)
        return 2.0;
    return (double)(c->chosen.simulated ? d->failed + d->unassessed
                                        : d->failed_numbers) /
           (double)d->drawn;
}

static bool before(const bw_choosing *c, size_t a, size_t b)
{
    const bw_design *x = &c->design[a], *y = &c->design[b];
    if (rank_of(x) != rank_of(y))
        return rank_of(x) < rank_of(y);
    if (c->chosen.has_weights && (x->score < y->score || x->score > y->score))
        return x->score < y->score;
    if (not_held(c, x) < not_held(c, y) || not_held(c, x) > not_held(c, y))
        return not_held(c, x) < not_held(c, y);
    if (fabs(x->goal[BW_GOAL_U] - y->goal[BW_GOAL_U]) > 0.0)
        return x->goal[BW_GOAL_U] < y->goal[BW_GOAL_U];
    return a < b;
}

static void sort(const bw_choosing *c, size_t *front, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const size_t one = front[i];
        size_t k = i;
        for (; k > 0 && before(c, one, front[k - 1]); k--)
            front[k] = front[k - 1];
        front[k] = one;
    }
}

/* ---- weights ------------------------------------------------------------- */

static double signed_of(const bw_design *d, int goal)
{
    return goal == BW_GOAL_RESERVE ? -d->goal[goal] : d->goal[goal];
}

static double share_of(const bw_choosing *c, const size_t *front, size_t count,
                       size_t design, int goal)
{
    double best = (double)INFINITY, worst = -(double)INFINITY;
    const double is = signed_of(&c->design[design], goal);
    for (size_t i = 0; i < count; i++) {
        const double x = signed_of(&c->design[front[i]], goal);
        best = fmin(best, x); /* a number before none */
        worst = fmax(worst, x);
    }
    if (isnan(is))
        return 1.0;
    return worst > best ? (is - best) / (worst - best) : 0.0;
}

static double score(const bw_choosing *c, const size_t *front, size_t count,
                    size_t design, const double weight[BW_GOAL_COUNT])
{
    double sum = 0.0, all = 0.0;
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        if (!(weight[g] > 0.0))
            continue;
        sum += weight[g] * share_of(c, front, count, design, g);
        all += weight[g];
    }
    return all > 0.0 ? sum / all : 0.0;
}

static void set_scores(bw_choosing *c, size_t *front, size_t count,
                       const double weight[BW_GOAL_COUNT])
{
    for (size_t i = 0; i < count; i++)
        c->design[front[i]].score = score(c, front, count, front[i], weight);
    sort(c, front, count);
}

static void weigh(bw_choosing *c, size_t *front, size_t count)
{
    double weight[BW_GOAL_COUNT];
    c->chosen.best_moves = "";
    memcpy(weight, c->chosen.choices->weight, sizeof weight);
    set_scores(c, front, count, weight);
    const size_t first = front[0];
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        for (int twice = 0; twice < 2 && weight[g] > 0.0; twice++) {
            const double was = weight[g];
            weight[g] = twice == 0 ? 0.5 * was : 2.0 * was;
            set_scores(c, front, count, weight);
            if (front[0] != first && c->chosen.best_moves[0] == '\0')
                c->chosen.best_moves = bw_arena_say(
                    &c->arena, "%s the weight of %s puts %s first",
                    twice == 0 ? "half" : "twice", bw_goal_name((bw_goal)g),
                    c->design[front[0]].name);
            weight[g] = was;
        }
    set_scores(c, front, count, weight);
    c->chosen.best_stays = c->chosen.best_moves[0] == '\0';
}

/* ---- ties and central values --------------------------------------------- */

static void find_ties(bw_choosing *c, const size_t *front, size_t count)
{
    size_t groups = 0;
    bw_race_tails(c->statement, c->slots.drawn);
    for (size_t i = 0; i < count; i++) {
        bw_design *d = &c->design[front[i]];
        for (size_t k = i + 1; d->tie == 0 && k < count; k++) {
            bw_design *other = &c->design[front[k]];
            if (d->drawn == 0 || other->drawn == 0 || other->tie != 0 ||
                other->standing != d->standing ||
                !bw_race_is_tie(c->statement, front[i], front[k], TIE_CHANCE))
                continue;
            other->tie = groups + 1;
        }
        for (size_t k = i + 1; d->tie == 0 && k < count; k++)
            if (c->design[front[k]].tie == groups + 1) {
                d->tie = ++groups;
                break;
            }
    }
}

/* The best of the front by these; the count where nobody is known. */
static size_t best_by(const bw_choosing *c, const size_t *front, size_t count,
                      int goal, bool drawn)
{
    size_t best = count;
    double least = (double)INFINITY;
    for (size_t i = 0; i < count; i++) {
        const bw_design *d = &c->design[front[i]];
        const double is = drawn ? d->drawn_goal[goal] : d->goal[goal];
        const double x = goal == BW_GOAL_RESERVE ? -is : is;
        if (x < least) {
            least = x;
            best = i;
        }
    }
    return best;
}

/* Less than this part of a figure is not worth a sentence (judgement). */
static const double PART = 0.05;

static void find_central(bw_choosing *c, const size_t *front, size_t count)
{
    static const struct {
        int goal;
        const char *words;
        double same;
    } goals[] = {{BW_GOAL_RESERVE, "the drying reserve", 0.001},
                 {BW_GOAL_MOULD, "the mould index", 0.05},
                 {BW_GOAL_WOOD, "wood moisture", 0.5}};
    for (size_t k = 0; k < sizeof goals / sizeof *goals; k++) {
        const int g = goals[k].goal;
        const size_t drawn = best_by(c, front, count, g, true);
        const size_t tail = best_by(c, front, count, g, false);
        if (drawn == count || tail == count || drawn == tail)
            continue;
        bw_design *d = &c->design[front[drawn]];
        const double behind = fabs(d->goal[g] - c->design[front[tail]].goal[g]);
        if (behind > goals[k].same && behind > PART * fabs(d->goal[g]) &&
            d->central[0] == '\0')
            d->central = goals[k].words;
    }
}

bw_status bw_front_find(bw_choosing *c, bw_error *err)
{
    bw_chosen *out = &c->chosen;
    size_t *front = BW_NEW(&c->arena, size_t, c->count);
    BW_TRY_MEMORY(front != NULL, err);
    out->front = front;
    for (size_t i = 0; i < c->count; i++)
        if (!c->candidate[i].judged_out) {
            c->design[i].on_front = true;
            front[out->front_count++] = i;
        }
    out->has_weights = out->choices->has_weights && out->front_count > 0;
    out->best_moves = "";
    if (out->has_weights)
        weigh(c, front, out->front_count);
    sort(c, front, out->front_count);
    if (out->front_count > 0) {
        find_ties(c, front, out->front_count);
        find_central(c, front, out->front_count);
    }
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        for (size_t i = 0; i < out->front_count; i++)
            out->known[g] = out->known[g] ||
                            !isnan(c->design[front[i]].goal[g]);
    }
    return BW_OK;
}
