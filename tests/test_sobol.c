/* The sequence against published points, and what every block of it keeps. */

#include <math.h>
#include <stdbool.h>

#include "sobol.h"
#include "suite.h"

/* First points in Gray code order as Joe & Kuo print them [M-hi]. */
START_TEST(first_points_are_as_published)
{
    static const double known[10][3] = {{0, 0, 0},
                                        {0.5, 0.5, 0.5},
                                        {0.75, 0.25, 0.25},
                                        {0.25, 0.75, 0.75},
                                        {0.375, 0.375, 0.625},
                                        {0.875, 0.875, 0.125},
                                        {0.625, 0.125, 0.875},
                                        {0.125, 0.625, 0.375},
                                        {0.1875, 0.3125, 0.9375},
                                        {0.6875, 0.8125, 0.4375}};
    for (size_t i = 0; i < 10; i++)
        for (size_t d = 0; d < 3; d++)
            ck_assert_double_eq(bw_sobol(i, d), known[i][d]);
}
END_TEST

static double coordinate(uint64_t seed, size_t index, size_t dimension)
{
    return seed == 0 ? bw_sobol(index, dimension)
                     : bw_sobol_scrambled(seed, index, dimension);
}

START_TEST(each_block_of_a_power_of_two_has_one_point_in_each_part)
{
    enum { MOST = 256 };
    const uint64_t seed = (uint64_t)_i;
    for (size_t d = 0; d < BW_SOBOL_DIMENSIONS; d++)
        for (size_t size = 2; size <= MOST; size *= 2)
            for (size_t from = 0; from < 4 * size; from += size) {
                bool taken[MOST] = {false};
                for (size_t i = from; i < from + size; i++) {
                    size_t part = (size_t)(coordinate(seed, i, d) *
                                           (double)size);
                    ck_assert_uint_lt(part, size);
                    ck_assert_msg(!taken[part], "dimension %zu, block of %zu",
                                  d, size);
                    taken[part] = true;
                }
            }
}
END_TEST

/* The first two dimensions are a (0, 2) sequence [M-hi]: every rectangle of
 * sides 2^-a, 2^-b has one of 2^(a+b) points. */
START_TEST(the_first_two_dimensions_fill_every_rectangle)
{
    const uint64_t seed = (uint64_t)_i;
    for (unsigned a = 0; a <= 6; a++) {
        bool taken[64] = {false};
        const unsigned b = 6 - a;
        for (size_t i = 0; i < 64; i++) {
            size_t x = (size_t)(coordinate(seed, i, 0) * (double)(1U << a));
            size_t y = (size_t)(coordinate(seed, i, 1) * (double)(1U << b));
            ck_assert(!taken[x << b | y]);
            taken[x << b | y] = true;
        }
    }
}
END_TEST

/* Evenly distributed over seeds: the mean of point 0 is a half within four
 * standard errors, and two seeds, or two dimensions, are not correlated. */
START_TEST(a_scrambled_point_is_evenly_distributed_over_seeds)
{
    enum { SEEDS = 4000 };
    for (size_t d = 0; d < BW_SOBOL_DIMENSIONS + 3; d++) {
        double sum = 0.0, square = 0.0, across = 0.0;
        for (uint64_t seed = 1; seed <= SEEDS; seed++) {
            double u = bw_sobol_scrambled(seed, 0, d) - 0.5;
            double other = bw_sobol_scrambled(seed, 0, (d + 1) % 24) - 0.5;
            sum += u;
            square += u * u;
            across += u * other;
        }
        const double error = sqrt(1.0 / 12.0 / SEEDS);
        ck_assert_double_lt(fabs(sum / SEEDS), 4.0 * error);
        ck_assert_double_lt(fabs(square / SEEDS - 1.0 / 12.0), 0.004);
        ck_assert_double_lt(fabs(across / SEEDS), 4.0 / 12.0 / sqrt(SEEDS));
    }
}
END_TEST

/* The mean of a smooth function of eight variables: the spread over seeds is
 * less than a fifth of that of as many random points. */
START_TEST(a_scrambled_set_averages_better_than_chance)
{
    enum { POINTS = 64, SEEDS = 100 };
    double spread[2] = {0.0, 0.0};
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        double mean[2] = {0.0, 0.0};
        for (size_t i = 0; i < POINTS; i++)
            for (size_t d = 0; d < 8; d++) {
                mean[0] += bw_sobol_scrambled(seed, i, d) / POINTS;
                mean[1] += bw_random(seed, i, d) / POINTS;
            }
        for (int k = 0; k < 2; k++)
            spread[k] += (mean[k] - 4.0) * (mean[k] - 4.0);
    }
    ck_assert_double_lt(sqrt(spread[0]), 0.2 * sqrt(spread[1]));
}
END_TEST

SUITE("sobol", FACT(first_points_are_as_published),
      EACH(each_block_of_a_power_of_two_has_one_point_in_each_part, 4),
      EACH(the_first_two_dimensions_fill_every_rectangle, 4),
      FACT(a_scrambled_point_is_evenly_distributed_over_seeds),
      FACT(a_scrambled_set_averages_better_than_chance))
