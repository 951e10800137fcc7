/* The hours of a drawing as a run: how far it says it is, that it stops where
 * it is told to, what it says where it cannot be, years that are counted. A
 * block of one board, between a room and the weather of a case. */

#include <math.h>

#include "bothways/air.h"
#include "junction/hours.h"
#include "junction_case.h"
#include "suite.h"
#include "transient_case.h"

enum { CALLS = 8760 / 73 }; /* of a year: every 73 hours (regression value) */

static transient_case *c;
static drawn d;
static bw_junction_hours out;
static bw_arena arena;

/* What is told, and after how many times it is to stop. */
static struct {
    size_t count, stop;
    double at[8 * CALLS];
} told;

static bool progress(void *payload, double done)
{
    ck_assert_ptr_eq(payload, &told);
    ck_assert_uint_lt(told.count, COUNT(told.at));
    told.at[told.count++] = done;
    return told.count != told.stop;
}

static void start(void)
{
    c = steady_new(5, 0.8, 20, 0.5);
    arena = (bw_arena){0};
    told.count = told.stop = 0;
    add_board(c, 0.1, 20.0);
    draw_start(&d);
    draw_box(&d, 0.2, 0, 200, 0, 60);
    d.material[0].material = &c->material[0];
    d.material[0].mu_dry = d.material[0].mu_wet = 20;
    draw_space(&d, 0, 0, 200, -50, 0);
    draw_space(&d, 1, 0, 200, 60, 100);
    draw_cut(&d, true, true, false, false);
    d.environment[1].indoors = c->assembly.indoors;
    d.junction.outdoors = c->assembly.outdoors;
}

static void end(void)
{
    draw_end(&d);
    bw_arena_release(&arena);
    free(c);
}

static bw_status find(int years, size_t most_cells)
{
    const bw_hour_options options = {.most_years = years,
                                     .smallest = 0.02,
                                     .most_cells = most_cells,
                                     .no_synthetic = true,
                                     .progress = progress,
                                     .payload = &told};
    return bw_junction_hours_find(&out, &arena, &d.junction, &c->climate,
                                  &options, NULL);
}

/* Two grids as many years each; the second is said to take a fifth of the time
 * (regression value). */
START_TEST(what_is_told_of_how_far_it_is_rises_evenly)
{
    const int years = 2;
    ck_assert_int_eq(find(years, 0), BW_OK);
    ck_assert_msg(out.ran && out.compared, "%s, %s", out.reason,
                  out.not_compared);
    const size_t run = (size_t)out.years * CALLS;
    ck_assert_uint_eq(told.count, 2 * run);
    for (size_t k = 0; k < run; k++) {
        ck_assert_double_eq_tol(told.at[k], 0.8 * (double)k / (years * CALLS),
                                1e-12);
        ck_assert_double_eq_tol(told.at[run + k],
                                0.8 + 0.2 * (double)k / (double)run, 1e-12);
    }
}
END_TEST

static const size_t stops[] = {1, 2, CALLS, CALLS + 2};

START_TEST(it_stops_where_it_is_told_to)
{
    told.stop = stops[_i];
    ck_assert_int_eq(find(1, 0), BW_ERR_CANCELLED);
    ck_assert_uint_eq(told.count, stops[_i]);
}
END_TEST

/* Between climates that stand still all goes to its steady state: the mean of
 * the board's faces is that of a plane wall, and the years repeat. */
START_TEST(a_wall_between_still_climates_settles)
{
    ck_assert_int_eq(find(9, 0), BW_OK);
    ck_assert(out.ran && out.asked && !out.synthetic);
    ck_assert(out.periodic && out.drying && !out.rising);
    ck_assert_int_lt(out.years, 9);
    ck_assert_double_lt(out.balance, 1e-3);
    ck_assert_double_le(out.state_change, 0.003);
    ck_assert_double_eq_tol(out.yearly_change, 0.0, 0.05);
    ck_assert_uint_eq(out.wood_count, 0);
    ck_assert_uint_gt(out.place_count, 0);
    const double r = 0.04 + 0.06 / 0.2 + 0.13;
    const double theta = 20.0 - 15.0 * 0.13 / r;
    const double p = 0.5 * bw_saturation_pressure(20.0);
    for (size_t k = 0; k < out.place_count; k++) {
        ck_assert(out.place[k].room);
        ck_assert_double_eq_tol(out.place[k].month_rh[5],
                                p / bw_saturation_pressure(theta), 0.02);
        ck_assert_double_eq_tol(out.place[k].moved.rh, 0.0, 0.02);
    }
    ck_assert_double_eq(out.leaked, 0.0);
    ck_assert_double_eq(out.ran_off, 0.0);
    ck_assert_double_eq(out.air, 0.0);
}
END_TEST

START_TEST(what_cannot_be_run_has_a_reason)
{
    if (_i == 0)
        c->climate.hour_count = 0;
    if (_i == 1) { /* more lines than cells are allowed */
        for (int k = 0; k < 12; k++)
            draw_box(&d, 0.2, 10 * k, 10 * k + 5, 5 + 4 * k, 8 + 4 * k);
        for (size_t k = 0; k < d.junction.material_count; k++)
            d.material[k].material = &c->material[0];
    }
    if (_i == 2)
        d.environment[1].kind = BW_ENVIRONMENT_OUTSIDE;
    ck_assert_int_eq(find(1, _i == 1 ? 60 : 0), BW_OK);
    ck_assert(out.asked && !out.ran && !out.compared);
    ck_assert(out.reason[0] != '\0');
    ck_assert_uint_eq(told.count, 0);
}
END_TEST

SUITE_AROUND("junction_run", start, end,
             FACT(what_is_told_of_how_far_it_is_rises_evenly),
             EACH(it_stops_where_it_is_told_to, COUNT(stops)),
             FACT(a_wall_between_still_climates_settles),
             EACH(what_cannot_be_run_has_a_reason, 3))
