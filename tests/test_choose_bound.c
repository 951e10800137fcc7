/* The bound of the share that fails against published figures, and that it is
 * kept: cases drawn again and again of a stand-in whose share is known. */

#include <math.h>
#include <stdbool.h>

#include "choose/bound.h"
#include "sobol.h"
#include "suite.h"

/* Clopper-Pearson, one-sided 95 %, as tabulated to one digit [D]. */
static const struct {
    size_t count, failed;
    double percent, within;
} known[] = {
    {50, 0, 5.8, 0.05},     {100, 0, 3.0, 0.05}, {100, 1, 4.7, 0.05},
    {100, 5, 10.2, 0.05},   {200, 0, 1.5, 0.05}, {200, 10, 8.3, 0.05},
    {1000, 0, 0.30, 0.005}, {1, 0, 95.0, 1e-9},  {4, 4, 100.0, 1e-9},
};

START_TEST(the_bound_is_that_of_the_tables)
{
    const double bound = bw_share_bound(known[_i].failed, known[_i].count,
                                        0.95);
    ck_assert_double_eq_tol(100.0 * bound, known[_i].percent, known[_i].within);
}
END_TEST

/* Draws without a failure that show "fewer than p" at 95 %. */
START_TEST(so_many_draws_without_a_failure_show_so_much)
{
    static const struct {
        double share;
        size_t draws;
    } need[] = {{0.10, 29}, {0.05, 59}, {0.02, 149}, {0.01, 299}};
    for (size_t i = 0; i < COUNT(need); i++) {
        ck_assert_double_lt(bw_share_bound(0, need[i].draws, 0.95),
                            need[i].share);
        ck_assert_double_gt(bw_share_bound(0, need[i].draws - 1, 0.95),
                            need[i].share);
    }
}
END_TEST

START_TEST(nothing_drawn_shows_nothing)
{
    ck_assert_double_eq(bw_share_bound(0, 0, 0.95), 1.0);
}
END_TEST

/* The sum of the binomial at the bound is what is left of the confidence. */
START_TEST(the_bound_solves_its_equation)
{
    for (size_t n = 8; n <= 4096; n *= 2)
        for (size_t k = 0; k < n; k += 1 + n / 7) {
            const double p = bw_share_bound(k, n, 0.95);
            double sum = 0.0;
            for (size_t i = 0; i <= k; i++)
                sum += exp(lgamma((double)n + 1.0) - lgamma((double)i + 1.0) -
                           lgamma((double)(n - i) + 1.0) + (double)i * log(p) +
                           (double)(n - i) * log1p(-p));
            ck_assert_double_eq_tol(sum, 0.05, 1e-6);
            ck_assert_double_gt(p, (double)k / (double)n);
        }
}
END_TEST

/* Printed tables of Student's t, 7 degrees of freedom. */
START_TEST(students_t_of_seven_is_that_of_the_tables)
{
    ck_assert_double_eq_tol(bw_t7(0.95), 1.895, 5e-4);
    ck_assert_double_eq_tol(bw_t7(0.975), 2.365, 5e-4);
    ck_assert_double_eq_tol(bw_t7(0.995), 3.499, 5e-4);
    ck_assert_double_eq_tol(bw_t7(0.9995), 5.408, 5e-4);
    ck_assert_double_lt(bw_t7(0.5), 1e-6);
}
END_TEST

/* ---- 200 seeds ----------------------------------------------------------- */

enum { SEEDS = 200, UNKNOWNS = 10 };

/* A stand-in for a wall: fails in a corner of so many unknowns. */
static bool corner(const double *u, int of, double share)
{
    const double side = pow(share, 1.0 / of);
    for (int i = 0; i < of; i++)
        if (u[i] > side)
            return false;
    return true;
}

static const struct {
    double share;
    int of;
    size_t draws;
} walls[] = {{0.02, 1, 32}, {0.02, 2, 160}, {0.05, 3, 64},
             {0.08, 2, 32}, {0.10, 5, 64},  {0.25, 10, 32},
             {0.50, 4, 32}, {0.01, 2, 304}, {0.005, 1, 608}};

START_TEST(the_bound_covers_the_share_in_95_of_100_repetitions)
{
    size_t missed = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        size_t failed = 0;
        for (size_t i = 0; i < walls[_i].draws; i++) {
            double u[UNKNOWNS];
            for (size_t d = 0; d < UNKNOWNS; d++)
                u[d] = bw_random(bw_seed_of(seed, 2), i, d);
            failed += corner(u, walls[_i].of, walls[_i].share);
        }
        missed += bw_share_bound(failed, walls[_i].draws, 0.95) <
                  walls[_i].share;
    }
    ck_assert_msg(missed <= SEEDS / 20, "%zu of %d missed", missed, SEEDS);
}
END_TEST

/* Twelve designs, the one with fewest failures picked: its own bound is too low
 * more often, that of all at once is not. */
START_TEST(of_the_one_that_is_picked_the_bound_of_all_holds)
{
    enum { DESIGNS = 12, DRAWS = 64 };
    const double share = 0.10;
    size_t missed = 0, missed_alone = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        size_t fewest = DRAWS;
        for (size_t d = 0; d < DESIGNS; d++) {
            size_t failed = 0;
            for (size_t i = 0; i < DRAWS; i++)
                failed += bw_random(seed, i, d) < share;
            fewest = failed < fewest ? failed : fewest;
        }
        missed += bw_share_bound(fewest, DRAWS, 1.0 - 0.05 / DESIGNS) < share;
        missed_alone += bw_share_bound(fewest, DRAWS, 0.95) < share;
    }
    ck_assert_msg(missed <= SEEDS / 20, "%zu of %d missed", missed, SEEDS);
    ck_assert_uint_gt(missed_alone, SEEDS / 20);
}
END_TEST

SUITE("choose_bound", EACH(the_bound_is_that_of_the_tables, COUNT(known)),
      FACT(so_many_draws_without_a_failure_show_so_much),
      FACT(nothing_drawn_shows_nothing), FACT(the_bound_solves_its_equation),
      FACT(students_t_of_seven_is_that_of_the_tables),
      EACH(the_bound_covers_the_share_in_95_of_100_repetitions, COUNT(walls)),
      FACT(of_the_one_that_is_picked_the_bound_of_all_holds))
