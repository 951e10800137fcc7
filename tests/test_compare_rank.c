/* Which wall of several. The walls are verdicts and figures made by hand; which
 * is better follows from the rule in docs/methods.md, "Comparison". */

#include <math.h>

#include "compare/comparing.h"
#include "suite.h"

enum { WALLS = 3 };

static bw_compare_core core;
static bw_assessment assessment[WALLS];
static bw_criterion row[WALLS];
static bw_stress stress;
static bw_stressed stressed[WALLS];

/* One criterion, of a share of its limit, and one stress. */
static void wall(size_t i, bw_verdict verdict, double margin)
{
    row[i] = (bw_criterion){.section = "whole",
                            .criterion = "panel-moisture",
                            .decides = true,
                            .has_value = true,
                            .has_limit = true,
                            .limit = 18.0,
                            .margin = 18.0 * margin,
                            .value = 18.0 * (1.0 - margin),
                            .verdict = verdict,
                            .outcome = verdict};
    assessment[i] = (bw_assessment){
        .criterion = &row[i], .criterion_count = 1, .verdict = verdict};
    core.assessment[i] = &assessment[i];
    core.wall[i] = (bw_compared){
        .verdict = verdict, .worst_margin = margin, .stresses = 1};
    stressed[i] = (bw_stressed){
        .applies = true, .verdict = BW_HOLDS, .worst_margin = 0.5};
}

static void under(size_t i, bw_verdict verdict, double margin)
{
    stressed[i].verdict = verdict;
    stressed[i].worst_margin = margin;
    core.wall[i].not_held = verdict == BW_FAILS || verdict == BW_NOT_ASSESSED;
}

static void setup(void)
{
    core = (bw_compare_core){.count = 2};
    stress = (bw_stress){"rain-leak", "Rain leaks in", stressed};
    core.comparison.stress = &stress;
    core.comparison.stress_count = 1;
    for (size_t i = 0; i < WALLS; i++)
        wall(i, BW_HOLDS, 0.5);
}

static void teardown(void)
{
    bw_arena_release(&core.arena);
}

/* The first of the order, why, and how many cannot be told from it. */
static void ranks(size_t first, bw_because because, size_t best)
{
    ck_assert_int_eq(bw_compare_rank(&core, NULL), BW_OK);
    const size_t *order = core.comparison.order;
    ck_assert_uint_eq(order[0], first);
    ck_assert_uint_eq(core.comparison.best_count, best);
    if (best > 0)
        ck_assert_int_eq(core.wall[order[core.count - 1]].because, because);
}

START_TEST(a_wall_that_holds_is_before_one_that_fails)
{
    wall(0, BW_FAILS, -0.3);
    ranks(1, BW_BECAUSE_VERDICT, 1);
}
END_TEST

START_TEST(a_wall_not_assessed_never_wins)
{
    wall(0, BW_NOT_ASSESSED, 0.9);
    wall(1, BW_MARGINAL, 0.02);
    under(1, BW_FAILS, -0.5);
    ranks(1, BW_BECAUSE_VERDICT, 1);
    wall(0, BW_FAILS, -0.3);
    wall(1, BW_NOT_ASSESSED, 0.9);
    ranks(0, BW_BECAUSE_NONE, 0);
    wall(0, BW_NOT_ASSESSED, 0.9);
    ranks(0, BW_BECAUSE_NONE, 0);
}
END_TEST

START_TEST(of_two_that_hold_the_one_that_stands_more_is_better)
{
    under(0, BW_FAILS, -0.2);
    ranks(1, BW_BECAUSE_STRESSES, 1);
}
END_TEST

START_TEST(a_stress_not_assessed_is_not_held)
{
    under(0, BW_NOT_ASSESSED, (double)NAN);
    ranks(1, BW_BECAUSE_STRESSES, 1);
}
END_TEST

/* 17.9 and 18.1 of 18: on both sides of the limit, and no difference. */
START_TEST(a_stress_on_both_sides_of_a_limit_by_a_digit_tells_nothing)
{
    under(0, BW_FAILS, -0.006);
    under(1, BW_MARGINAL, 0.006);
    ranks(1, BW_BECAUSE_NONE, 2);
}
END_TEST

START_TEST(what_is_left_to_a_limit_tells_from_a_tenth_of_it_on)
{
    wall(0, BW_HOLDS, 0.30);
    wall(1, BW_HOLDS, 0.41);
    ranks(1, BW_BECAUSE_RESERVE, 1);
    wall(1, BW_HOLDS, 0.39);
    ranks(1, BW_BECAUSE_NONE, 2);
    wall(1, BW_HOLDS, 0.303);
    ranks(1, BW_BECAUSE_NONE, 2);
}
END_TEST

/* ---- a trade-off --------------------------------------------------------- */

/* As drawn by the drying test, of 12 months; negative: not in so many. */
static void dries_in(double first, double second)
{
    static bw_criterion dry[2];
    static const bw_criterion *of[2];
    static bw_compare_row dries;
    const double months[] = {first, second};
    for (size_t i = 0; i < 2; i++) {
        dry[i] = (bw_criterion){.criterion = "wetting-test",
                                .has_value = true,
                                .value = fabs(months[i]),
                                .never = months[i] < 0.0,
                                .has_limit = true,
                                .limit = 12.0,
                                .margin = 12.0 - fabs(months[i])};
        of[i] = &dry[i];
    }
    dries = (bw_compare_row){
        .name = "wetting-test", .is_criterion = true, .criterion = of};
    core.comparison.row = &dries;
    core.comparison.row_count = 1;
    core.comparison.trait_count = 0;
    ck_assert_int_eq(bw_compare_rank(&core, NULL), BW_OK);
    ck_assert_int_eq(bw_compare_traits(&core, NULL), BW_OK);
}

/* Better in the one thing as drawn, worse in the other under a stress that
 * both fail: what differs most first. */
START_TEST(what_each_is_better_in_is_told_of_walls_that_hold_as_much)
{
    const bw_comparison *c = &core.comparison;
    under(0, BW_FAILS, -0.76);
    under(1, BW_FAILS, -1.0);
    dries_in(6.0, 1.0);
    ck_assert_uint_eq(c->best_count, 2);
    ck_assert_uint_eq(c->trait_count, 2);
    ck_assert_str_eq(c->trait[0].name, "wetting-test");
    ck_assert_uint_eq(c->trait[0].best, 1);
    ck_assert_uint_eq(c->trait[0].worst, 0);
    ck_assert_double_eq_tol(c->trait[0].apart, 5.0 / 12.0, 1e-12);
    ck_assert_str_eq(c->trait[1].name, "rain-leak");
    ck_assert_uint_eq(c->trait[1].best, 0);
    ck_assert_double_eq_tol(c->trait[1].apart, 0.24, 1e-12);
}
END_TEST

/* 10 % of 12 months; never is as far as can be, whatever was waited for. */
static const struct {
    double first, second;
    size_t traits;
} dry[] = {{1.0, 2.1, 0},   {1.0, 2.3, 1},     {11.9, -12.0, 1},
           {-12.0, 2.0, 1}, {-12.0, -24.0, 0}, {-24.0, 11.0, 1}};

START_TEST(a_tenth_of_a_limit_makes_a_trait_and_never_is_the_worst)
{
    dries_in(dry[_i].first, dry[_i].second);
    ck_assert_uint_eq(core.comparison.trait_count, dry[_i].traits);
    if (dry[_i].traits > 0)
        ck_assert_uint_eq(
            core.comparison.trait[0].best,
            dry[_i].first < 0.0 ||
                (dry[_i].second > 0.0 && dry[_i].second < dry[_i].first));
}
END_TEST

/* A wall that lost needs no trade-off: it is told why it lost. */
START_TEST(a_wall_that_lost_has_no_trait)
{
    wall(1, BW_FAILS, -0.4);
    dries_in(6.0, 1.0);
    ck_assert_uint_eq(core.comparison.best_count, 1);
    ck_assert_uint_eq(core.comparison.trait_count, 0);
}
END_TEST

START_TEST(a_marginal_wall_is_behind_by_more_than_a_digit_only)
{
    wall(0, BW_MARGINAL, -0.02);
    wall(1, BW_HOLDS, 0.02);
    ranks(1, BW_BECAUSE_NONE, 2);
    wall(0, BW_MARGINAL, -0.5);
    ranks(1, BW_BECAUSE_VERDICT, 1);
}
END_TEST

/* The last cannot be told from the first, the one between can. */
START_TEST(those_that_cannot_be_told_apart_stand_together)
{
    core.count = 3;
    wall(0, BW_FAILS, -0.3);
    wall(1, BW_HOLDS, 0.5);
    wall(2, BW_HOLDS, 0.45);
    ranks(1, BW_BECAUSE_VERDICT, 2);
    ck_assert_uint_eq(core.comparison.order[1], 2);
}
END_TEST

START_TEST(an_unknown_reserve_is_none)
{
    wall(0, BW_HOLDS, (double)NAN);
    ranks(1, BW_BECAUSE_NONE, 2);
}
END_TEST

SUITE_AROUND("compare_rank", setup, teardown,
             FACT(a_wall_that_holds_is_before_one_that_fails),
             FACT(a_wall_not_assessed_never_wins),
             FACT(of_two_that_hold_the_one_that_stands_more_is_better),
             FACT(a_stress_not_assessed_is_not_held),
             FACT(a_stress_on_both_sides_of_a_limit_by_a_digit_tells_nothing),
             FACT(what_is_left_to_a_limit_tells_from_a_tenth_of_it_on),
             FACT(what_each_is_better_in_is_told_of_walls_that_hold_as_much),
             EACH(a_tenth_of_a_limit_makes_a_trait_and_never_is_the_worst,
                  COUNT(dry)),
             FACT(a_wall_that_lost_has_no_trait),
             FACT(a_marginal_wall_is_behind_by_more_than_a_digit_only),
             FACT(those_that_cannot_be_told_apart_stand_together),
             FACT(an_unknown_reserve_is_none))
