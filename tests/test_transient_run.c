/* Whole runs of the hourly method: balances, limits, what is refused. */

#include <check.h>
#include <stdio.h>

#include "transient_case.h"

static bw_status run_case(transient_case *c, bw_transient_result *result,
                          const bw_transient_options *options, bw_error *err)
{
    return bw_transient(result, &c->assembly, &c->section, &c->climate, options,
                        err);
}

/* The balances of the issue: 1e-8 of the throughput, each year. */
START_TEST(a_year_of_weather_closes_its_balances)
{
    transient_case *c = case_new();
    bw_transient_result r;
    bw_error err;
    const bw_transient_options two = {.max_years = 2};
    const bw_status status = run_case(c, &r, &two, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_int_eq(r.years, 2);
    ck_assert_double_lt(r.water_balance_error, 1e-8);
    ck_assert_double_lt(r.energy_balance_error, 1e-8);
    ck_assert_double_gt(r.rain_absorbed, 1);
    ck_assert_double_eq_tol(r.rain_absorbed + r.leak_convective + r.leak_rain -
                                r.left_outwards - r.left_inwards,
                            r.yearly_change, 1e-8 * r.rain_absorbed);
    ck_assert_double_eq_tol(r.year_end_water[1] - r.year_end_water[0],
                            r.yearly_change, 1e-12);
    bw_transient_free(&r);
    free(c);
}
END_TEST

START_TEST(the_same_input_gives_the_same_bits)
{
    transient_case *c = case_new();
    bw_transient_result a, b;
    const bw_transient_options one = {.max_years = 1, .keep_hours = true};
    ck_assert_int_eq(run_case(c, &a, &one, NULL), BW_OK);
    ck_assert_int_eq(run_case(c, &b, &one, NULL), BW_OK);
    ck_assert_uint_eq(a.hour_count, CASE_HOURS);
    ck_assert_mem_eq(a.hour, b.hour,
                     a.hour_count * a.monitor_count * sizeof *a.hour);
    ck_assert_mem_eq(a.year_end_water, b.year_end_water,
                     sizeof a.year_end_water);
    bw_transient_free(&a);
    bw_transient_free(&b);
    free(c);
}
END_TEST

/* A wall without storage worth the name in a climate that stands still. */
static void make_steady(transient_case *c)
{
    for (int k = 0; k < CASE_HOURS; k++)
        c->hour[k] = (bw_climate_hour){
            .temperature = 2, .vapour_pressure = 500, .pressure = 101325};
    c->climate.columns = (bw_hourly_columns){.pressure = true};
    c->assembly.outdoors = (bw_outdoors){.climate_path = "",
                                         .has_surface_resistance = true,
                                         .surface_resistance = 0.04};
    c->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_RH,
                                       .temperature = 20,
                                       .relative_humidity = 0.35,
                                       .has_surface_resistance = true,
                                       .surface_resistance = 0.13};
    c->layer[1].ventilation = BW_VENT_NONE;
    c->slab[4].sd_curve = NULL;
    c->slab[4].sd_dry = c->slab[4].sd_wet = 2;
    for (size_t k = 0; k < c->section.slab_count; k++)
        c->slab[k].sd_wet = c->slab[k].sd_dry;
    c->material[0].water_absorption.known = false;
}

/* The steady profile by hand: theta straight over R, p straight over s_d,
 * with the surfaces' own resistances (calm: 2 m/s; 7e-9 x 2.5 inside). */
START_TEST(steady_conditions_end_on_the_glaser_profile)
{
    transient_case *c = case_new();
    make_steady(c);
    bw_transient_result r;
    bw_error err;
    const bw_transient_options o = {
        .max_years = 10, .keep_hours = true, .fixed_permeability = true};
    const bw_status status = run_case(c, &r, &o, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    const double s_e = 1.0 / (67 + 90 * 2);
    const double s_i = BW_DELTA_0 / (7e-9 * 2.5);
    const double p_i = 0.35 * bw_saturation_pressure(20);
    double r_all = 0.04 + 0.13, s_all = s_e + s_i;
    for (size_t k = 0; k < c->section.slab_count; k++) {
        r_all += c->slab[k].resistance;
        s_all += c->slab[k].sd_dry;
    }
    double r_here = 0.04, s_here = s_e;
    const bw_hour_row *row = &r.hour[(CASE_HOURS - 1) * r.monitor_count];
    for (size_t k = 0; k < r.monitor_count; k++) {
        const double theta = 2 + 18 * r_here / r_all;
        const double p = 500 + (p_i - 500) * s_here / s_all;
        ck_assert_double_eq_tol(row[k].theta, theta, 0.001 * 18);
        ck_assert_double_eq_tol(
            row[k].phi * bw_saturation_pressure(row[k].theta), p, 0.001 * p);
        if (k < c->section.slab_count) {
            r_here += c->slab[k].resistance;
            s_here += c->slab[k].sd_dry;
        }
    }
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Shorter steps change no hour at any interface by more than docs/methods.md
 * promises (0.02 K, 0.001 RH); halved cells by what it measures. */
START_TEST(default_tolerance_keeps_interfaces_within_its_promise)
{
    transient_case *c = case_new();
    bw_transient_convergence far;
    bw_error err;
    const bw_status status = bw_transient_converge(
        &far, &c->assembly, &c->section, &c->climate, NULL, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_double_gt(far.theta_time, 0);
    ck_assert_double_lt(far.theta_time, 0.02);
    ck_assert_double_lt(far.phi_time, 0.001);
    ck_assert_double_lt(far.theta_grid, 0.2);
    ck_assert_double_lt(far.phi_grid, 0.015);
    printf("default settings, %zu cells: time %.4f K %.5f RH %.5f kg/m2, "
           "cells %.4f K %.5f RH %.5f kg/m2\n",
           far.cells, far.theta_time, far.phi_time, far.water_time,
           far.theta_grid, far.phi_grid, far.water_grid);
    free(c);
}
END_TEST

START_TEST(missing_data_is_refused_by_name_or_let_pass_when_allowed)
{
    for (int which = 0; which < 4; which++) {
        static const char *const word[] = {"sorption", "rain", "radiation",
                                           "8760"};
        transient_case *c = case_new();
        if (which == 0)
            c->material[3].sorption.count = 0;
        else if (which == 1)
            c->climate.columns.rain = false;
        else if (which == 2)
            c->climate.columns.solar = false;
        else
            c->climate.hour_count = 0;
        bw_transient_result r;
        bw_error err = {0};
        bw_transient_options o = {.max_years = 1};
        ck_assert_int_eq(run_case(c, &r, &o, &err), BW_ERR_DOMAIN);
        ck_assert_ptr_nonnull(strstr(err.message, word[which]));
        o.allow_missing = true;
        if (which < 3) {
            ck_assert_int_eq(run_case(c, &r, &o, &err), BW_OK);
            bool told = false;
            for (size_t k = 0; k < r.note_count; k++)
                told = told || strstr(r.note[k], "as allowed") != NULL;
            ck_assert(told);
            bw_transient_free(&r);
        } else {
            ck_assert_int_eq(run_case(c, &r, &o, &err), BW_ERR_DOMAIN);
        }
        free(c);
    }
}
END_TEST

static bool stop_at_once(void *payload, double fraction_done)
{
    (void)payload;
    return fraction_done < 0.1;
}

START_TEST(a_run_stops_when_asked_to)
{
    transient_case *c = case_new();
    bw_transient_result r;
    const bw_transient_options o = {.progress = stop_at_once};
    ck_assert_int_eq(run_case(c, &r, &o, NULL), BW_ERR_CANCELLED);
    free(c);
}
END_TEST

/* A wall that can dry to neither side and takes rain gains water each year;
 * the same one open and dry repeats itself. */
START_TEST(a_leak_into_a_closed_wall_rises_year_on_year)
{
    for (int closed = 0; closed < 2; closed++) {
        transient_case *c = case_new();
        c->slab[4].sd_curve = NULL;
        c->slab[4].sd_dry = c->slab[4].sd_wet = closed ? 1500 : 0.02;
        if (closed) {
            c->layer[1].ventilation = BW_VENT_NONE;
            c->assembly.rain_leak = (bw_rain_leak){true, 0.02, 2};
            c->slab[2].sd_dry = c->slab[2].sd_wet = 50;
        }
        bw_transient_result r;
        const bw_transient_options o = {.max_years = 4};
        ck_assert_int_eq(run_case(c, &r, &o, NULL), BW_OK);
        ck_assert_int_eq(r.rising, closed);
        if (closed) {
            ck_assert_double_gt(r.leak_rain, 0);
            ck_assert_double_gt(r.year_end_water[3], r.year_end_water[2]);
        }
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("transient_run");
    TCase *runs = tcase_create("runs");
    tcase_set_timeout(runs, 240);
    tcase_add_test(runs, a_year_of_weather_closes_its_balances);
    tcase_add_test(runs, the_same_input_gives_the_same_bits);
    tcase_add_test(runs, steady_conditions_end_on_the_glaser_profile);
    tcase_add_test(runs, default_tolerance_keeps_interfaces_within_its_promise);
    tcase_add_test(runs,
                   missing_data_is_refused_by_name_or_let_pass_when_allowed);
    tcase_add_test(runs, a_run_stops_when_asked_to);
    tcase_add_test(runs, a_leak_into_a_closed_wall_rises_year_on_year);
    suite_add_tcase(s, runs);
    return s;
}

int main(void)
{
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
