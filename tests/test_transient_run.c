/* Whole runs of the hourly method: balances, limits, what is refused. */

#include <stdio.h>

#include "suite.h"
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

SUITE("transient_run", FACT(a_year_of_weather_closes_its_balances),
      FACT(the_same_input_gives_the_same_bits),
      FACT(default_tolerance_keeps_interfaces_within_its_promise),
      FACT(missing_data_is_refused_by_name_or_let_pass_when_allowed),
      FACT(a_run_stops_when_asked_to),
      FACT(a_leak_into_a_closed_wall_rises_year_on_year))
