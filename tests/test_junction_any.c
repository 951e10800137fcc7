/* What holds of every drawing: two hundred of them, made at random. */

#include <math.h>

#include "junction/heat.h"
#include "junction_case.h"
#include "suite.h"

enum { DRAWINGS = 200, PER_TEST = 20 };

static double random_in(unsigned *state, double low, double high)
{
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes' constants */
    return low + (high - low) * (*state >> 8) / 16777216.0;
}

/* A block of two to five bands, some with a piece of another material, from an
 * L or a plane; a room inside, perhaps a second one, outside below. */
static void draw_any(drawn *d, unsigned seed)
{
    unsigned state = 7919u * seed + 1;
    draw_start(d);
    const double width = random_in(&state, 200, 1500);
    double y = 0;
    const int bands = 2 + (int)random_in(&state, 0, 4);
    for (int b = 0; b < bands; b++) {
        const double thick = random_in(&state, 3, 200);
        const double lambda = pow(10.0, random_in(&state, -1.6, 2.0));
        draw_box(d, lambda, 0, width, y, y + thick);
        if (random_in(&state, 0, 1) < 0.6) {
            const double from = random_in(&state, 0, 0.7 * width);
            draw_box(d, pow(10.0, random_in(&state, -1.6, 2.0)), from,
                     from + random_in(&state, 2, 0.3 * width), y,
                     y + thick * random_in(&state, 0.2, 1.0));
        }
        y += thick;
    }
    draw_space(d, 0, 0, width, -100, 0);
    draw_space(d, 1, 0, width, y, y + 400);
    if (random_in(&state, 0, 1) < 0.5) { /* a partition into the room */
        const double from = random_in(&state, 0.1, 0.6) * width;
        draw_box(d, random_in(&state, 0.05, 2.0), from,
                 from + random_in(&state, 10, 0.3 * width), y, y + 400);
        if (random_in(&state, 0, 1) < 0.5) { /* between two rooms */
            d->environment[2] = (bw_environment){.kind = BW_ENVIRONMENT_ROOM,
                                                 .id = "second"};
            d->junction.environment_count = 3;
            draw_space(d, 2, 0, from, y, y + 400);
        }
    }
    draw_cut(d, true, true, false, true);
}

static void solve(bw_heat *heat, bw_raster *raster, drawn *d, double smallest)
{
    static const double surface[] = {0.04, 0.13, 0.17, 0.1};
    const bw_raster_options options = {.smallest = smallest};
    bw_error err = {0};
    ck_assert_msg(bw_raster_make(raster, &d->junction, &options, &d->arena,
                                 &err) == BW_OK,
                  "%s", err.message);
    ck_assert_msg(bw_heat_solve(heat, raster, surface, NULL, &d->arena, &err) ==
                      BW_OK,
                  "%s", err.message);
}

START_TEST(flows_sum_to_zero_and_no_temperature_leaves_its_boundaries)
{
    static drawn d;
    for (unsigned k = 0; k < PER_TEST; k++) {
        bw_raster raster;
        bw_heat heat;
        draw_any(&d, (unsigned)_i * PER_TEST + k);
        const size_t m = d.junction.environment_count;
        solve(&heat, &raster, &d, 0.005);
        ck_assert_double_lt(heat.balance, 1e-7);
        for (size_t c = 0; c < raster.nx * raster.ny; c++) {
            if (raster.material[c] == BW_NOT_THERE)
                continue;
            double sum = 0.0;
            for (size_t e = 0; e < m; e++) {
                ck_assert_double_ge(heat.weight[e][c], -1e-9);
                ck_assert_double_le(heat.weight[e][c], 1.0 + 1e-9);
                sum += heat.weight[e][c];
            }
            ck_assert_double_eq_tol(sum, 1.0, 1e-12);
        }
        for (size_t i = 0; i < m; i++) /* reciprocity */
            for (size_t j = 0; j < i; j++)
                ck_assert_double_eq_tol(heat.coupling[i * m + j],
                                        heat.coupling[j * m + i],
                                        1e-8 * heat.coupling[i * m + i]);
        draw_end(&d);
    }
}
END_TEST

typedef bw_rectangle turn(bw_rectangle r);

static bw_rectangle mirrored(bw_rectangle r)
{
    return (bw_rectangle){-r.x1, -r.x0, r.y0, r.y1};
}

static bw_rectangle turned(bw_rectangle r) /* a quarter to the left */
{
    return (bw_rectangle){-r.y1, -r.y0, r.x0, r.x1};
}

static void turn_drawing(drawn *d, turn *by)
{
    for (size_t i = 0; i < d->junction.filling_count; i++)
        d->filling[i].at = by(d->filling[i].at);
    for (size_t i = 0; i < d->junction.space_count; i++)
        d->space[i].at = by(d->space[i].at);
}

START_TEST(mirrored_or_turned_it_conducts_the_same)
{
    static drawn a, b;
    for (unsigned k = 0; k < PER_TEST; k++) {
        bw_raster raster_a, raster_b;
        bw_heat heat_a, heat_b;
        const unsigned seed = (unsigned)_i * PER_TEST + k;
        draw_any(&a, seed);
        draw_any(&b, seed);
        turn_drawing(&b, seed % 2 ? mirrored : turned);
        if (seed % 2 == 0)
            draw_cut(&b, true, false, true, true);
        solve(&heat_a, &raster_a, &a, 0.005);
        solve(&heat_b, &raster_b, &b, 0.005);
        const size_t m = a.junction.environment_count;
        for (size_t i = 0; i < m * m; i++)
            ck_assert_msg(fabs(heat_a.coupling[i] - heat_b.coupling[i]) <=
                              1e-4 * heat_a.coupling[i] + 1e-9,
                          "drawing %u: %.9g, %.9g", seed, heat_a.coupling[i],
                          heat_b.coupling[i]);
        draw_end(&a);
        draw_end(&b);
    }
}
END_TEST

SUITE("junction_any",
      EACH(flows_sum_to_zero_and_no_temperature_leaves_its_boundaries,
           DRAWINGS / PER_TEST),
      EACH(mirrored_or_turned_it_conducts_the_same, DRAWINGS / PER_TEST))
