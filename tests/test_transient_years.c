/* Runs of small walls over years: whether water rises, and how much a run
 * depends on its steps and cells. */

#include "suite.h"
#include "transient_run.h"

/* ---- the years ---- */

/* A thick dry board in damp air takes up water for years, a wet one loses
 * it; one year alone tells nothing. */
START_TEST(rising_takes_two_years_of_rise)
{
    for (int wet = 0; wet < 2; wet++)
        for (int years = 1; years < 4; years++) {
            transient_case *c = steady_new(15, 0.7, 15, 0.7);
            add_board(c, 0.2, 100);
            c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
            c->layer[0].initial_moisture = wet ? 0.95 : 0.3;
            const bw_transient_options o = {.max_years = years};
            bw_transient_result r = run(c, &o);
            ck_assert_int_eq(r.years, years);
            ck_assert(!r.periodic);
            ck_assert_int_eq(r.rising, !wet && years > 1);
            ck_assert_int_eq(r.yearly_change > 0, !wet);
            bw_transient_free(&r);
            free(c);
        }
}
END_TEST

/* A wet board outside dries fast in the first years, while a thick dry one
 * inside, behind a foil, takes up water slowly: a rise in the last year only
 * is none. */
START_TEST(rise_of_the_last_year_alone_is_not_rising)
{
    transient_case *c = steady_new(15, 0.8, 15, 0.8);
    add_board(c, 0.08, 10);
    add_foil(c, 1500);
    add_board(c, 0.3, 100);
    c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
    c->layer[0].initial_moisture = 0.99;
    c->layer[2].has_initial_moisture = c->layer[2].initial_is_rh = true;
    c->layer[2].initial_moisture = 0.5;
    for (int years = 4; years < 6; years++) {
        const bw_transient_options o = {.max_years = years};
        bw_transient_result r = run(c, &o);
        const double *end = r.year_end_water;
        ck_assert_double_lt(end[2], end[1]);
        ck_assert_double_gt(end[3], end[2] + 0.1);
        ck_assert_double_lt(end[3], end[1]);
        ck_assert_int_eq(r.rising, years == 5);
        bw_transient_free(&r);
    }
    free(c);
}
END_TEST

/* Within 0.005 kg/m2 of its start, or 0.2 % where that is more: for a thin
 * board the first, for a heavy one the second. A year too many or too few
 * would not fit the totals; one that starts in balance is enough. */
START_TEST(years_end_with_the_first_that_changes_no_slab_beyond_its_allowance)
{
    static const struct {
        double thickness, mu, start;
        bool by_share;
    } row[] = {{0.02, 400, 0.9, false},
               {0.3, 10, 0.9, true},
               {0.3, 10, 0.55, true},
               {0.02, 10, 0.8, false}};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = steady_new(15, 0.8, 15, 0.8);
        add_board(c, row[k].thickness, row[k].mu);
        c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
        c->layer[0].initial_moisture = row[k].start;
        const bw_transient_options o = {.max_years = 32};
        bw_transient_result r = run(c, &o);
        ck_assert(r.periodic);
        ck_assert_int_eq(r.years == 1, row[k].start == 0.8);
        double before = r.initial_water;
        for (int year = 0; year < r.years; year++) {
            const double change = fabs(r.year_end_water[year] - before);
            const double share = 0.002 * before;
            ck_assert_int_eq(share > 0.005, row[k].by_share);
            ck_assert_int_eq(change <= fmax(0.005, share), year == r.years - 1);
            before = r.year_end_water[year];
        }
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

/* ---- tolerances ---- */

/* What converge() finds is the difference of two runs, as one makes them. */
START_TEST(convergence_tightens_and_halves_what_was_given)
{
    static const bw_transient_options o[] = {
        {.max_years = 1,
         .keep_hours = true,
         .temperature_tolerance = 0.05,
         .humidity_tolerance = 0.004,
         .grid_refinement = 2},
        {.max_years = 1,
         .keep_hours = true,
         .temperature_tolerance = 0.1 * 0.05, /* to the last bit */
         .humidity_tolerance = 0.1 * 0.004,
         .grid_refinement = 2},
        {.max_years = 1,
         .keep_hours = true,
         .temperature_tolerance = 0.05,
         .humidity_tolerance = 0.004,
         .grid_refinement = 4},
    };
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.02, 10);
    for (int k = 0; k < CASE_HOURS; k++) /* a day's wave and a year's */
        c->hour[k].temperature = 10 - 8 * cos(2 * CASE_PI * k / CASE_HOURS) -
                                 5 * cos(2 * CASE_PI * k / 24);
    bw_transient_convergence far;
    ck_assert_int_eq(bw_transient_converge(&far, &c->assembly, &c->section,
                                           &c->climate, &o[0], NULL),
                     BW_OK);
    bw_transient_result r[3];
    for (int k = 0; k < 3; k++)
        r[k] = run(c, &o[k]);
    double theta[3] = {0}, phi[3] = {0};
    for (size_t i = 24 * 2 + 1; i < 2 * CASE_HOURS; i += 2)
        for (int k = 1; k < 3; k++) {
            theta[k] = fmax(theta[k],
                            fabs(r[k].hour[i].theta - r[0].hour[i].theta));
            phi[k] = fmax(phi[k], fabs(r[k].hour[i].phi - r[0].hour[i].phi));
        }
    ck_assert_uint_eq(far.cells, r[0].cells);
    ck_assert_uint_eq(far.steps, r[0].steps);
    ck_assert_double_gt(theta[1], 0);
    ck_assert_double_eq(far.theta_time, theta[1]);
    ck_assert_double_eq(far.phi_time, phi[1]);
    ck_assert_double_eq(far.theta_grid, theta[2]);
    ck_assert_double_eq(far.phi_grid, phi[2]);
    ck_assert_double_eq(far.water_time,
                        fabs(r[1].year_end_water[0] - r[0].year_end_water[0]));
    ck_assert_double_eq(far.water_grid,
                        fabs(r[2].year_end_water[0] - r[0].year_end_water[0]));
    ck_assert_uint_eq(r[2].cells, 2 * r[0].cells);
    ck_assert_uint_gt(r[1].steps, r[0].steps);
    for (int k = 0; k < 3; k++)
        bw_transient_free(&r[k]);
    /* and what a run refuses it refuses */
    c->climate.hour_count = 12;
    ck_assert_int_eq(bw_transient_converge(&far, &c->assembly, &c->section,
                                           &c->climate, &o[0], NULL),
                     BW_ERR_DOMAIN);
    ck_assert_double_eq(far.theta_time, theta[1]);
    free(c);
}
END_TEST

/* 0.01 K and 0.0005 RH, no finer cells, one year. */
START_TEST(convergence_without_options_is_that_of_the_defaults)
{
    static const bw_transient_options written = {.temperature_tolerance = 0.01,
                                                 .humidity_tolerance = 0.0005,
                                                 .grid_refinement = 1};
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    for (int k = 0; k < CASE_HOURS; k++)
        c->hour[k].temperature = 10 - 5 * cos(2 * CASE_PI * k / 24);
    bw_transient_convergence a = {0}, b = {0};
    ck_assert_int_eq(bw_transient_converge(&a, &c->assembly, &c->section,
                                           &c->climate, NULL, NULL),
                     BW_OK);
    ck_assert_int_eq(bw_transient_converge(&b, &c->assembly, &c->section,
                                           &c->climate, &written, NULL),
                     BW_OK);
    ck_assert_double_gt(a.theta_time, 0);
    ck_assert_mem_eq(&a, &b, sizeof a);
    free(c);
}
END_TEST

SUITE("transient_years", FACT(rising_takes_two_years_of_rise),
      FACT(rise_of_the_last_year_alone_is_not_rising),
      FACT(years_end_with_the_first_that_changes_no_slab_beyond_its_allowance),
      FACT(convergence_tightens_and_halves_what_was_given),
      FACT(convergence_without_options_is_that_of_the_defaults))
