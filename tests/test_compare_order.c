/* Many walls at random beside each other: their order, which cannot be told
 * from the first and why the others are behind it, and in what those are
 * better than each other, written down a second time from docs/methods.md,
 * "Comparison", and the heads of src/compare/rank.c and trade.c. */

#include <math.h>
#include <string.h>

#include "compare/comparing.h"
#include "random_wall.h"
#include "suite.h"

enum { WALLS = 6, ROWS = 4, STRESSES = 2, BESIDE = ROWS + STRESSES };

static dice die;
static bw_compare_core core;
static bw_assessment assessment[WALLS];
static bw_criterion decides[WALLS][2], shown[ROWS][WALLS];
static const bw_criterion *of[ROWS][WALLS];
static bw_compare_row rows[ROWS];
static bw_stress stresses[STRESSES];
static bw_stressed stressed[STRESSES][WALLS];

static size_t pick(size_t n)
{
    return (size_t)between(&die, 0.0, (double)n - 1e-9);
}

/* Steps of 1/32: three are no difference, four are more than a tenth. */
static double draw_margin(void)
{
    return uniform(&die) < 0.1 ? (double)NAN
                               : 0.03125 * (double)pick(9) - 0.0625;
}

static bw_verdict draw_verdict(double good)
{
    static const bw_verdict bad[] = {BW_FAILS, BW_NOT_ASSESSED};
    return uniform(&die) > good  ? bad[pick(2)]
           : uniform(&die) < 0.4 ? BW_MARGINAL
                                 : BW_HOLDS;
}

static bw_criterion draw_criterion(const char *name)
{
    const double margin = 0.03125 * (double)pick(60) - 0.90625;
    return (bw_criterion){.section = "whole",
                          .criterion = name,
                          .decides = true,
                          .has_value = uniform(&die) < 0.9,
                          .has_limit = uniform(&die) < 0.9,
                          .limit = uniform(&die) < 0.1 ? 0.0 : -0.5,
                          .margin = 0.5 * margin,
                          .never = uniform(&die) < 0.1};
}

static void draw_wall(size_t i, double good)
{
    static const char *const names[] = {"panel-moisture", "wood-moisture"};
    const bw_verdict verdict = draw_verdict(good);
    for (size_t k = 0; k < 2; k++) {
        decides[i][k] = draw_criterion(names[k]);
        decides[i][k].has_value = decides[i][k].has_limit = true;
        decides[i][k].limit = 0.5;
        decides[i][k].never = false;
        decides[i][k].verdict = decides[i][k].outcome = uniform(&die) < 0.5
                                                            ? BW_HOLDS
                                                            : BW_MARGINAL;
    }
    assessment[i] = (bw_assessment){
        .criterion = decides[i], .criterion_count = 2, .verdict = verdict};
    core.assessment[i] = &assessment[i];
    core.wall[i] = (bw_compared){.verdict = verdict,
                                 .worst_margin = draw_margin(),
                                 .stresses = STRESSES};
    for (size_t k = 0; k < STRESSES; k++) {
        stressed[k][i] = (bw_stressed){.applies = uniform(&die) < 0.8,
                                       .verdict = draw_verdict(0.6),
                                       .worst_margin = draw_margin()};
        core.wall[i].not_held += stressed[k][i].applies &&
                                 stressed[k][i].verdict != BW_HOLDS &&
                                 stressed[k][i].verdict != BW_MARGINAL;
    }
}

static void draw_walls(void)
{
    static const char *const names[ROWS] = {"wetting-test", "total-thickness",
                                            "drying-reserve", "wood-moisture"};
    static const char *const titles[STRESSES] = {"air-leak", "damp-room"};
    const double good = uniform(&die) < 0.8 ? 0.9 : 0.3;
    core = (bw_compare_core){.count = 2 + pick(WALLS - 1)};
    for (size_t i = 0; i < core.count; i++)
        draw_wall(i, good);
    for (size_t k = 0; k < ROWS; k++) {
        for (size_t i = 0; i < core.count; i++) {
            shown[k][i] = draw_criterion(names[k]);
            of[k][i] = uniform(&die) < 0.1 ? NULL : &shown[k][i];
        }
        rows[k] = (bw_compare_row){.name = names[k],
                                   .is_criterion = uniform(&die) < 0.8,
                                   .by_months = uniform(&die) < 0.5,
                                   .criterion = of[k]};
    }
    for (size_t k = 0; k < STRESSES; k++)
        stresses[k] = (bw_stress){titles[k], titles[k], stressed[k]};
    core.comparison.row = rows;
    core.comparison.row_count = ROWS;
    core.comparison.stress = stresses;
    core.comparison.stress_count = STRESSES;
    core.comparison.simulated = uniform(&die) < 0.5;
}

/* ---- the order ------------------------------------------------------------
 */

static bool is_good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

/* Less stands before: verdict, stresses not held, what is left. */
static double key_of(size_t i)
{
    const bw_compared *w = &core.wall[i];
    if (!is_good(w->verdict))
        return 1e6;
    return 1e4 * (w->verdict == BW_MARGINAL) + 100.0 * (double)w->not_held -
           (isnan(w->worst_margin) ? -50.0 : w->worst_margin);
}

static bool apart(double a, double b)
{
    return fabs(a - b) > 0.1 - 1e-9;
}

/* Something that is marginal in b holds in a. */
static bool holds_more(size_t a, size_t b)
{
    bool any = false;
    for (size_t k = 0; k < 2; k++)
        any = any ||
              (decides[b][k].outcome == BW_MARGINAL &&
               decides[a][k].outcome == BW_HOLDS &&
               apart(decides[a][k].margin / 0.5, decides[b][k].margin / 0.5));
    return any;
}

/* A stress that a holds, or that is none to it, and b does not. */
static bool stands_more(size_t a, size_t b)
{
    bool any = false;
    for (size_t k = 0; k < STRESSES; k++) {
        const bw_stressed *x = &stressed[k][a], *y = &stressed[k][b];
        const bool clearly = y->verdict == BW_NOT_ASSESSED ||
                             apart(x->worst_margin, y->worst_margin);
        any = any || (y->applies && !is_good(y->verdict) &&
                      (!x->applies || (is_good(x->verdict) && clearly)));
    }
    return any;
}

static bw_because because_of(size_t a, size_t b)
{
    const bw_compared *x = &core.wall[a], *y = &core.wall[b];
    const double more = x->worst_margin - y->worst_margin;
    if (!is_good(y->verdict) || (x->verdict != y->verdict && holds_more(a, b)))
        return BW_BECAUSE_VERDICT;
    if (x->not_held < y->not_held && stands_more(a, b))
        return BW_BECAUSE_STRESSES;
    return x->not_held <= y->not_held && more > 0.1 - 1e-9 ? BW_BECAUSE_RESERVE
                                                           : BW_BECAUSE_NONE;
}

/* Those that cannot be told from the first move up to it, the others stay. */
static size_t order_of(size_t order[WALLS])
{
    size_t sorted[WALLS], at = 0;
    for (size_t i = 0; i < core.count; i++) {
        size_t before = 0;
        for (size_t k = 0; k < core.count; k++)
            before += key_of(k) < key_of(i) - 1e-9 ||
                      (k < i && key_of(k) < key_of(i) + 1e-9);
        sorted[before] = i;
    }
    const bool any = is_good(core.wall[sorted[0]].verdict);
    order[at++] = sorted[0];
    for (size_t k = 1; k < core.count; k++)
        if (any && because_of(sorted[0], sorted[k]) == BW_BECAUSE_NONE)
            order[at++] = sorted[k];
    const size_t best = any ? at : 0;
    for (size_t k = 1; k < core.count; k++)
        if (!any || because_of(sorted[0], sorted[k]) != BW_BECAUSE_NONE)
            order[at++] = sorted[k];
    return best;
}

/* ---- in what they differ ---------------------------------------------------
 */

/* To spare of the limit, within -1..1; NAN: none to compare. */
static double spare(size_t from, size_t wall)
{
    if (from >= ROWS) {
        const bw_stressed *s = &stressed[from - ROWS][wall];
        return s->applies ? s->worst_margin : (double)NAN;
    }
    const bw_criterion *c = of[from][wall];
    if (c == NULL || !c->has_value || !c->has_limit || !(fabs(c->limit) > 0.0))
        return (double)NAN;
    return c->never ? -1.0 : fmax(-1.0, fmin(1.0, c->margin / 0.5));
}

/* The names of which the program has words. */
static bool is_trait(size_t from)
{
    return from >= ROWS ||
           (from != 1 && rows[from].is_criterion &&
            !(core.comparison.simulated && rows[from].by_months));
}

typedef struct differs {
    size_t from, best, worst;
    double by;
} differs;

static size_t traits_of(differs list[BESIDE], const size_t *order, size_t best)
{
    size_t count = 0;
    for (size_t from = 0; from < BESIDE; from++) {
        differs d = {.from = from};
        double least = 9.0, most = -9.0;
        for (size_t k = 0; k < best; k++) {
            const double is = spare(from, order[k]);
            if (is < least) {
                least = is;
                d.worst = order[k];
            }
            if (is > most) {
                most = is;
                d.best = order[k];
            }
        }
        d.by = most - least;
        if (!is_trait(from) || !(d.by > 0.1 - 1e-9))
            continue;
        size_t at = count++;
        for (; at > 0 && list[at - 1].by < d.by - 1e-9; at--)
            list[at] = list[at - 1];
        list[at] = d;
    }
    return count;
}

static size_t together, several, behind[4];

static void look_at_traits(const size_t *order, size_t best)
{
    const bw_comparison *c = &core.comparison;
    differs list[BESIDE];
    const size_t count = traits_of(list, order, best);
    ck_assert_int_eq(bw_compare_traits(&core, NULL), BW_OK);
    ck_assert_uint_eq(c->trait_count, count);
    several += count > 2;
    for (size_t t = 0; t < count; t++) {
        const bw_trait *is = &c->trait[t];
        const size_t from = list[t].from;
        ck_assert(fabs(is->apart - list[t].by) < 1e-9);
        ck_assert_uint_eq(is->best, list[t].best);
        ck_assert_uint_eq(is->worst, list[t].worst);
        ck_assert_ptr_eq(is->row, from < ROWS ? &rows[from] : NULL);
        ck_assert_ptr_eq(is->stress,
                         from < ROWS ? NULL : &stresses[from - ROWS]);
    }
}

START_TEST(walls_stand_in_their_order_and_differ_in_what_they_differ)
{
    die = (dice){.state = 88172645463325252u};
    together = several = 0;
    memset(behind, 0, sizeof behind);
    for (int draws = 0; draws < 3000; draws++) {
        const bw_comparison *c = &core.comparison;
        size_t order[WALLS];
        draw_walls();
        const size_t best = order_of(order);
        ck_assert_int_eq(bw_compare_rank(&core, NULL), BW_OK);
        ck_assert_uint_eq(c->best_count, best);
        for (size_t k = 0; k < core.count; k++) {
            ck_assert_uint_eq(c->order[k], order[k]);
            if (k > 0 && best > 0) {
                const bw_because because = because_of(order[0], order[k]);
                ck_assert_int_eq(core.wall[order[k]].because, because);
                behind[because]++;
            }
        }
        together += best > 2 && best < core.count;
        look_at_traits(order, best);
        bw_arena_release(&core.arena);
    }
    ck_assert(together > 100 && several > 100);
    for (size_t k = 0; k < 4; k++)
        ck_assert(behind[k] > 100);
}
END_TEST

/* ---- one method -----------------------------------------------------------
 */

/* As each was assessed, where all were simulated or none was; of a screening,
 * which stands for a simulation that one of them could not have, only that a
 * wall fails. */
START_TEST(a_wall_has_the_verdict_of_its_own_method)
{
    static const bw_verdict verdicts[] = {BW_HOLDS, BW_MARGINAL, BW_FAILS,
                                          BW_NOT_ASSESSED};
    bw_section_assessment section = {.has_transient = true};
    for (int row = 0; row < 3; row++) {
        core = (bw_compare_core){.count = COUNT(verdicts)};
        section.has_transient = row == 0;
        core.comparison.by_months_reason = row == 2 ? "one has no rain" : NULL;
        for (size_t i = 0; i < core.count; i++) {
            assessment[i] = (bw_assessment){.section = &section,
                                            .section_count = 1,
                                            .verdict = verdicts[i]};
            core.assessment[i] = &assessment[i];
        }
        ck_assert_int_eq(bw_compare_one_method(&core, NULL), BW_OK);
        ck_assert_int_eq(core.comparison.simulated, row == 0);
        for (size_t i = 0; i < core.count; i++)
            ck_assert_int_eq(core.wall[i].verdict,
                             row == 2 && verdicts[i] != BW_FAILS
                                 ? BW_NOT_ASSESSED
                                 : verdicts[i]);
    }
}
END_TEST

/* ---- like with like in the air --------------------------------------------
 */

/* Only of the best one that counts no leaking air may stand before one behind
 * it for that; none of these fails, so that nothing is assessed once more. */
START_TEST(a_wall_that_counts_no_leak_is_told_from_one_behind_that_does)
{
    static const struct {
        bool leaks[4];
        size_t best, airless, aired; /* airless 4: nothing to tell */
    } rows[] = {
        {{true, true, false, true}, 2, 4, 0},
        {{true, false, false, true}, 2, 1, 3},
        {{false, false, true, true}, 2, 0, 2},
        {{false, false, false, false}, 2, 4, 0},
        {{false, true, true, true}, 4, 4, 0},
        {{false, true, false, false}, 1, 0, 1},
    };
    static const size_t order[] = {2, 0, 3, 1};
    for (size_t r = 0; r < COUNT(rows); r++) {
        bw_assembly made[4] = {{.id = ""}};
        core = (bw_compare_core){.count = 4};
        core.comparison.order = order;
        core.comparison.best_count = rows[r].best;
        for (size_t k = 0; k < 4; k++) {
            const size_t wall = order[k];
            made[wall].air_leakage.given = rows[r].leaks[k];
            core.assembly[wall] = &made[wall];
            core.wall[wall].verdict = BW_HOLDS;
        }
        bw_pool_open(&core.pool, 1);
        ck_assert_int_eq(bw_compare_air(&core, NULL), BW_OK);
        bw_pool_close(&core.pool);
        ck_assert_int_eq(core.comparison.unlike_air, rows[r].airless < 4);
        if (rows[r].airless < 4) {
            ck_assert_uint_eq(core.comparison.airless, order[rows[r].airless]);
            ck_assert_uint_eq(core.comparison.aired, order[rows[r].aired]);
        }
        bw_arena_release(&core.arena);
    }
}
END_TEST

SUITE("compare_order",
      FACT(walls_stand_in_their_order_and_differ_in_what_they_differ),
      FACT(a_wall_has_the_verdict_of_its_own_method),
      FACT(a_wall_that_counts_no_leak_is_told_from_one_behind_that_does))
