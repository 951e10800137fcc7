/* What the result of a run carries for others to judge. */

#include <stdio.h>

#include "suite.h"
#include "transient/keep.h"
#include "transient_run.h"

static void start_at(transient_case *c, size_t layer, double moisture)
{
    c->layer[layer].has_initial_moisture = true;
    c->layer[layer].initial_moisture = moisture;
}

/* ---- hours of monitors ---- */

START_TEST(the_kept_hours_of_a_monitor_are_those_it_was_judged_by)
{
    transient_case *c = case_new();
    const bw_transient_options options = {.max_years = 1, .keep_hours = true};
    bw_transient_result r = run(c, &options);
    const size_t n = r.monitor_count;
    ck_assert_int_eq(r.first_month, 9);
    for (size_t k = 0; k < n; k++) {
        const bw_monitor *m = &r.monitor[k];
        bw_mould_state mould = {0};
        double above[3] = {0};
        for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++) {
            const bw_monitor_hour *row = &r.last_hours[h * n + k];
            const bw_hour_row *full = &r.hour[h * n + k];
            ck_assert_double_eq_tol(row->theta, full->theta, 1e-5);
            ck_assert_double_eq_tol(row->phi, full->phi, 1e-6);
            bw_mould_step(&mould, m->mould_class, row->theta, row->phi, 1);
            above[0] += full->phi > 0.80;
            above[1] += full->phi > 0.90;
            above[2] += full->phi > 0.95;
        }
        ck_assert_double_eq(m->last_year.above_80, above[0]);
        ck_assert_double_eq(m->last_year.above_90, above[1]);
        ck_assert_double_eq(m->last_year.above_95, above[2]);
        ck_assert_double_eq_tol(mould.index, m->final_mould, 1e-3);
        ck_assert_double_eq(m->mould_end.index, m->final_mould);
    }
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* A wall that starts wet between dry climates is humid in its first month
 * alone. */
START_TEST(humid_hours_of_the_first_year_are_not_those_of_the_last)
{
    transient_case *c = steady_new(20, 0.5, 20, 0.5);
    for (size_t k = 0; k < 2; k++) {
        add_board(c, 0.02, 10);
        c->layer[k].has_initial_moisture = c->layer[k].initial_is_rh = true;
        c->layer[k].initial_moisture = 0.97;
    }
    const bw_transient_options options = {.max_years = 3};
    bw_transient_result r = run(c, &options);
    const bw_monitor *face = &r.monitor[1];
    ck_assert_int_gt(r.years, 1);
    ck_assert_double_gt(face->first_year.above_90, 0);
    ck_assert_double_gt(face->first_year.above_80, face->first_year.above_90);
    ck_assert_double_ge(face->first_year.above_90, face->first_year.above_95);
    ck_assert_int_eq(face->first_year.month, 9);
    ck_assert_double_eq(face->last_year.above_80, 0);
    ck_assert_int_eq(face->last_year.month, -1);
    ck_assert_double_gt(r.first_month_water[9], 1.01 * r.month_water[9]);
    ck_assert_double_gt(r.first_month_water[9], r.first_month_water[10]);
    ck_assert_double_eq_tol(r.month_water[3], r.year_end_water[r.years - 1],
                            1e-3);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- the year in spans ---- */

static void add_foam(transient_case *c, double mu)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, "foam", 30, 0.04, 1400, mu, mu);
    case_slab(c, BW_LAYER_SOLID, 0.1);
}

/* Between steady climates two equal foams share the difference of vapour
 * pressure equally (Fick; the surfaces hold back a thousandth of it), and the
 * pressure runs straight through them. Nothing is driven inwards where it is
 * higher in the room. */
START_TEST(a_steady_drive_is_shared_by_equal_layers)
{
    for (int inwards = 0; inwards < 2; inwards++) {
        transient_case *c = inwards ? steady_new(20, 0.8, 20, 0.4)
                                    : steady_new(20, 0.4, 20, 0.8);
        for (size_t k = 0; k < 2; k++) {
            add_foam(c, 50);
            c->layer[k].has_initial_moisture = true;
            c->layer[k].initial_is_rh = true;
            c->layer[k].initial_moisture = 0.6; /* as it will be on average */
        }
        const bw_transient_options options = {.max_years = 2,
                                              .fixed_permeability = true};
        bw_transient_result r = run(c, &options);
        const double half = 0.2 * bw_saturation_pressure(20);
        for (size_t s = 0; s < BW_SPANS; s++)
            for (size_t k = 0; k < 2; k++) {
                ck_assert_double_eq_tol(r.slab[k].inward[s], inwards ? half : 0,
                                        0.02 * half);
                ck_assert_double_eq(r.slab[k].inward_in_sun[s], 0);
            }
        for (size_t i = 0; i < r.cells; i++) {
            const double share = 2 * r.cell[i].middle; /* of 0.2 m, from 0.4 */
            const double phi = inwards ? 0.8 - share : 0.4 + share;
            ck_assert_double_eq_tol(r.cell[i].phi[72], phi, 0.01);
        }
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

START_TEST(cells_lie_side_by_side_through_the_wall)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.4);
    add_board(c, 0.02, 10);
    add_foil(c, 100);
    add_foam(c, 50);
    const bw_transient_options options = {.max_years = 1};
    bw_transient_result r = run(c, &options);
    double at = 0;
    for (size_t i = 0; i < r.cells; i++) {
        ck_assert_double_eq_tol(r.cell[i].middle, at + 0.5 * r.cell[i].width,
                                1e-9);
        at += r.cell[i].width;
        ck_assert_uint_eq(r.cell[i].slab,
                          r.cell[i].middle < 0.02 ? 0 : 2); /* 1: the foil */
    }
    ck_assert_double_eq_tol(at, 0.12, 1e-9);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Years carried forward are there, too, and the last row is where it ended. */
START_TEST(the_mould_index_is_kept_over_all_years)
{
    transient_case *c = steady_new(12, 0.93, 12, 0.93);
    add_board(c, 0.02, 10);
    c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
    c->layer[0].initial_moisture = 0.3;
    const bw_transient_options options = {.max_years = 8, .carry_years = true};
    bw_transient_result r = run(c, &options);
    const size_t n = r.monitor_count, rows = (size_t)r.years * BW_SPANS;
    for (size_t k = 0; k < n; k++) {
        double most = 0;
        for (size_t i = 0; i < rows; i++) {
            const double index = r.mould_course[i * n + k];
            ck_assert_double_ge(index, most - 1e-9); /* it never dries */
            most = index;
        }
        ck_assert_double_eq(most, r.monitor[k].final_mould);
        ck_assert_double_gt(most, 1);
    }
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- free water ---- */

/* Diffusion to a cold foil by Glaser's own sum (derived by hand): the foil is
 * at -10 degC but for its share of the resistances, mu 50 over 0.1 m. What
 * arrives beyond what saturated air there holds stands at the foil. */
START_TEST(condensate_stands_at_the_cold_face)
{
    transient_case *c = steady_new(-10, 0.8, 20, 0.5);
    add_foil(c, 1500);
    add_foam(c, 50);
    const bw_transient_options options = {.max_years = 1,
                                          .fixed_permeability = true};
    bw_transient_result r = run(c, &options);
    const double cold = -10 + 30 * 0.04 / (0.04 + 2.5 + 0.13);
    const double g = BW_DELTA_0 / 5 *
                     (0.5 * bw_saturation_pressure(20) -
                      bw_saturation_pressure(cold));
    const double year = g * BW_TRANSIENT_HOURS * 3600;
    const bw_free_water *at = &r.monitor[1].last_free;
    ck_assert_double_eq_tol(at->largest, year, 0.05 * year);
    ck_assert_double_eq_tol(at->largest, r.year_end_water[0], 0.02 * year);
    ck_assert_int_eq(at->month, 8);   /* it grows to the end */
    ck_assert_int_eq(at->hour, 6551); /* of September */
    const size_t last = BW_TRANSIENT_HOURS - 1;
    ck_assert_double_eq_tol(r.last_hours[last * 3 + 1].free_water, at->largest,
                            1e-6);
    size_t standing = 0;
    for (size_t h = 0; h <= last; h++)
        standing += r.last_hours[h * 3 + 1].free_water > 0.01;
    ck_assert_double_eq(at->hours, (double)standing);
    ck_assert_double_gt(at->hours, 8000);
    ck_assert_double_eq(r.monitor[0].last_free.largest, 0);
    ck_assert_double_eq(r.monitor[2].last_free.largest, 0);
    ck_assert_int_eq(r.monitor[2].last_free.month, -1);
    ck_assert_int_eq(r.monitor[2].last_free.hour, -1);
    ck_assert_double_eq(r.monitor[1].first_free.largest, at->largest);
    bw_transient_free(&r);
    free(c);
}
END_TEST

START_TEST(a_dry_face_has_no_free_water)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.4);
    add_board(c, 0.02, 10);
    add_foam(c, 50);
    const bw_transient_options options = {.max_years = 1};
    bw_transient_result r = run(c, &options);
    for (size_t k = 0; k < r.monitor_count; k++) {
        ck_assert_double_eq(r.monitor[k].last_free.largest, 0);
        ck_assert_double_eq(r.monitor[k].last_free.hours, 0);
    }
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Each half of a slab stands at its own face. */
START_TEST(bricks_filled_beyond_free_saturation_stand_in_water)
{
    transient_case *c = steady_new(10, 0.8, 10, 0.8);
    add_foil(c, 1500); /* else it runs off */
    case_material(c, 1, "brick", 1700, 0.77, 1000, 1e4, 1e4);
    case_sorption(c, 1, BOARD_POINTS, board_phi, board_u);
    c->material[1].free_saturation = case_value(330);
    c->material[1].water_absorption = case_value(0.1);
    case_slab(c, BW_LAYER_SOLID, 0.1);
    start_at(c, 1, 350 / 1700.0);
    const bw_transient_options options = {.max_years = 1};
    bw_transient_result r = run(c, &options);
    ck_assert_double_eq(r.monitor[0].first_free.largest, 0);
    for (size_t k = 1; k <= 2; k++)
        ck_assert_double_eq_tol(r.monitor[k].first_free.largest, 20 * 0.05,
                                0.02);
    bw_transient_free(&r);
    start_at(c, 1, 329 / 1700.0);
    r = run(c, &options);
    for (size_t k = 0; k <= 2; k++)
        ck_assert_double_eq(r.monitor[k].first_free.largest, 0);
    bw_transient_free(&r);
    free(c);
}
END_TEST

START_TEST(what_a_slab_binds_is_free_saturation_or_what_it_sorbs)
{
    transient_case *c = steady_new(10, 0.8, 10, 0.8);
    add_board(c, 0.02, 10);
    add_board(c, 0.02, 10);
    c->material[1].free_saturation = case_value(400);
    c->material[1].water_absorption = case_value(0.02);
    add_foam(c, 50);
    case_material(c, 3, "air", 1.2, 0.28, 1000, 1, 1);
    case_slab(c, BW_LAYER_CAVITY, 0.05);
    const struct {
        size_t slab;
        double low, high;
    } row[] = {
        {0, 0.18 * 600, 0.9 * 1000 * (1 - 600 / 2650.0)},
        {1, 400, 400},
        {2, 0.05, 0.1},
        {3, 0.98 * 0.0173, 0.98 * 0.0173},
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        bw_storage s;
        const bw_slab *slab = &c->slab[row[k].slab];
        ck_assert_int_eq(bw_storage_of_slab(&s, slab, false, NULL), BW_OK);
        const double bound = bw_bound_water(slab, &s);
        ck_assert_double_ge(bound, row[k].low - 1e-12);
        ck_assert_double_le(bound, row[k].high + 1e-12);
    }
    free(c);
}
END_TEST

/* ---- wood ---- */

/* Wood of 25 mm between climates of equal humidity. */
static transient_case *timber(double phi, double start)
{
    transient_case *c = steady_new(20, phi, 20, phi);
    case_material(c, 0, "wood", 450, 0.13, 1600, 50, 20);
    c->material[0].wood_kind = BW_SOLID_WOOD;
    c->material[0].hygroscopic = true;
    case_slab(c, BW_LAYER_SOLID, 0.025);
    start_at(c, 0, start);
    return c;
}

/* Weeks to the last of the first year's days above the limit. */
static double weeks_of(const bw_slab_moisture *s)
{
    int last = 0;
    for (int d = 0; d < BW_TRANSIENT_DAYS; d++)
        if (s->first_days[d].moisture > s->limit)
            last = d + 1;
    return last / 7.0;
}

START_TEST(wood_built_in_wet_is_seen_to_dry)
{
    static const double start[] = {0.22, 0.30};
    double before = 0;
    for (size_t k = 0; k < COUNT(start); k++) {
        transient_case *c = timber(0.6, start[k]);
        bw_transient_result r = run(c, NULL);
        const bw_slab_moisture *s = &r.slab[0];
        ck_assert_double_eq(s->limit, 0.20);
        ck_assert_double_le(s->first_highest_wood_moisture, start[k] + 1e-9);
        ck_assert_double_gt(s->first_highest_wood_moisture, start[k] - 0.02);
        ck_assert_int_eq(s->first_highest_month, 9);
        ck_assert_double_lt(s->highest_wood_moisture, 0.12);
        ck_assert_double_gt(s->first_hours_above_limit, 24);
        ck_assert_double_eq(s->hours_above_limit, 0);
        ck_assert_double_eq(s->weeks_to_limit, weeks_of(s));
        ck_assert_double_eq(7 * s->weeks_to_limit,
                            s->first_hours_above_limit / 24);
        ck_assert_double_gt(s->weeks_to_limit, before);
        before = s->weeks_to_limit;
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

START_TEST(weeks_until_wood_is_dry)
{
    static const struct {
        double phi, start;
        int years;
        double weeks;
    } row[] = {
        {0.6, 0.15, 0, 0},   /* never above */
        {0.93, 0.22, 0, -1}, /* stays above */
        {0.93, 0.22, 1, -1},
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = timber(row[k].phi, row[k].start);
        const bw_transient_options options = {.max_years = row[k].years};
        bw_transient_result r = run(c, &options);
        ck_assert_double_eq(r.slab[0].weeks_to_limit, row[k].weeks);
        bw_transient_free(&r);
        free(c);
    }
    /* one year alone that ends dry: the weeks it took */
    transient_case *c = timber(0.6, 0.30);
    const bw_transient_options one = {.max_years = 1};
    bw_transient_result r = run(c, &one);
    ck_assert_double_gt(r.slab[0].weeks_to_limit, 0);
    ck_assert_double_eq(r.slab[0].weeks_to_limit, weeks_of(&r.slab[0]));
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Wood moisture, pore humidity and temperature of a day belong together. */
START_TEST(days_of_wood_follow_its_sorption_curve)
{
    transient_case *c = timber(0.7, 0.24);
    bw_transient_result r = run(c, NULL);
    for (int d = 0; d < BW_TRANSIENT_DAYS; d++) {
        const bw_wood_day *day = &r.slab[0].first_days[d];
        ck_assert_double_eq_tol(day->moisture, bw_wood_moisture(20, day->phi),
                                0.003);
        ck_assert_double_eq_tol(day->theta, 20, 0.7);
    }
    const bw_wood_day *end = &r.slab[0].last_days[BW_TRANSIENT_DAYS - 1];
    ck_assert_double_eq_tol(end->phi, 0.7, 0.002);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* What was asked for ends it at the end of its last day; the days before are
 * those of a run that goes on. */
START_TEST(a_run_ends_with_the_dry_days_it_waits_for)
{
    enum { WEEK = 7 };
    transient_case *c = timber(0.6, 0.30);
    bw_transient_options options = {.max_years = 1};
    bw_transient_result whole = run(c, &options);
    options.until = (bw_until_dry){.days = WEEK, .moisture = 0.18};
    bw_transient_result r = run(c, &options);
    int dry = 0, d = 0;
    for (; dry < WEEK; d++) {
        ck_assert_int_lt(d, BW_TRANSIENT_DAYS);
        const double moisture = whole.slab[0].first_days[d].moisture;
        ck_assert_double_eq(r.slab[0].first_days[d].moisture, moisture);
        dry = moisture <= 0.18 ? dry + 1 : 0;
    }
    ck_assert_int_gt(d, WEEK);
    ck_assert_int_lt(d, BW_TRANSIENT_DAYS);
    ck_assert_double_eq(r.slab[0].first_days[d].moisture, 0);
    bw_transient_free(&whole);
    bw_transient_free(&r);
    free(c);
}
END_TEST

START_TEST(slabs_that_are_no_wood_have_no_days)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.02, 10);
    const bw_transient_options one = {.max_years = 1};
    bw_transient_result r = run(c, &one);
    ck_assert_ptr_null(r.slab[0].first_days);
    ck_assert_ptr_null(r.slab[0].last_days);
    ck_assert_double_eq(r.slab[0].limit, 0);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- */

SUITE("transient_keep",
      FACT(the_kept_hours_of_a_monitor_are_those_it_was_judged_by),
      FACT(humid_hours_of_the_first_year_are_not_those_of_the_last),
      FACT(a_steady_drive_is_shared_by_equal_layers),
      FACT(cells_lie_side_by_side_through_the_wall),
      FACT(the_mould_index_is_kept_over_all_years),
      FACT(condensate_stands_at_the_cold_face),
      FACT(a_dry_face_has_no_free_water),
      FACT(bricks_filled_beyond_free_saturation_stand_in_water),
      FACT(what_a_slab_binds_is_free_saturation_or_what_it_sorbs),
      FACT(wood_built_in_wet_is_seen_to_dry), FACT(weeks_until_wood_is_dry),
      FACT(days_of_wood_follow_its_sorption_curve),
      FACT(a_run_ends_with_the_dry_days_it_waits_for),
      FACT(slabs_that_are_no_wood_have_no_days))
