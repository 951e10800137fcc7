/* Decay, wetness and frost.
 *
 * What stands in the tests is worked from the published equations by hand or
 * of an independent evaluation of them [derived], unless marked; of that, too,
 * are decay_examples.csv and dose_examples.csv (shared_data.h). */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/decay.h"
#include "measured.h"
#include "shared_data.h"
#include "suite.h"

#define DAYS 365
#define HOURS 8760

static void fill(double *x, size_t n, double value)
{
    for (size_t i = 0; i < n; ++i)
        x[i] = value;
}

/* ---- the criterion line ---- */

START_TEST(the_line_runs_from_95_percent_at_0_to_86_at_30_degrees)
{
    static const double rows[][2] = {{-10, .95}, {0, .95},  {10, .92},
                                     {20, .89},  {30, .86}, {45, .86}};
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert_double_eq_tol(bw_timber_line(rows[i][0]), rows[i][1], 1e-12);
}
END_TEST

START_TEST(a_year_on_the_line_is_not_above_it)
{
    double theta[DAYS], phi[DAYS];
    fill(theta, DAYS, 20);
    fill(phi, DAYS, bw_timber_line(20));
    bw_timber_line_result r = bw_timber_line_year(theta, phi, DAYS);
    ck_assert_uint_eq(r.days_above, 0);
    ck_assert_uint_eq(r.longest_run, 0);
    ck_assert_double_eq(r.overshoot, 0);
    fill(phi, DAYS, .9);
    r = bw_timber_line_year(theta, phi, DAYS);
    ck_assert_uint_eq(r.days_above, DAYS);
    ck_assert_uint_eq(r.longest_run, DAYS);
    ck_assert_double_eq_tol(r.overshoot, .01, 1e-12);
    ck_assert_uint_eq(r.worst_day, 0);
}
END_TEST

START_TEST(the_largest_overshoot_is_found_with_its_day)
{
    /* at 10 degC 92 % is allowed, at 30 degC 86 % */
    double theta[DAYS], phi[DAYS];
    fill(theta, DAYS, 10);
    fill(phi, DAYS, .5);
    phi[40] = .95;
    theta[200] = 30, phi[200] = .90;
    phi[300] = .94;
    bw_timber_line_result r = bw_timber_line_year(theta, phi, DAYS);
    ck_assert_uint_eq(r.days_above, 3);
    ck_assert_double_eq_tol(r.overshoot, .04, 1e-12);
    ck_assert_uint_eq(r.worst_day, 200);
    ck_assert_uint_eq(r.longest_run, 1);
}
END_TEST

START_TEST(a_winter_is_one_run_over_the_end_of_the_year)
{
    double theta[DAYS], phi[DAYS];
    fill(theta, DAYS, 0);
    fill(phi, DAYS, .5);
    fill(phi, 40, .97);
    fill(phi + DAYS - 30, 30, .97);
    fill(phi + 100, 50, .97);
    bw_timber_line_result r = bw_timber_line_year(theta, phi, DAYS);
    ck_assert_uint_eq(r.days_above, 120);
    ck_assert_uint_eq(r.longest_run, 70);
    fill(phi + 150, 21, .97); /* now the summer's is longer */
    ck_assert_uint_eq(bw_timber_line_year(theta, phi, DAYS).longest_run, 71);
}
END_TEST

/* ---- dose ---- */

/* D from the parts D_u(30) = 0.394, D_u(60) = 0.926, D_T(30) = 0.982, and 0
 * at 25 %: there the polynomial is -0.001. */
START_TEST(dose_of_a_day_follows_the_published_polynomials)
{
    static const struct {
        double u, theta, dose;
    } rows[] = {{.30, 30, (3.2 * .982 + .394) / 4.2},
                {.60, 30, (3.2 * .982 + .926) / 4.2},
                {.2499, 20, 0},
                {.25, 20, 0},
                {.24, 39, 0},
                /* D_T(0.5) = 0.020474 */
                {.30, .5, (3.2 * .020474 + .39350) / 4.2},
                {.30, 0, 0},
                {.30, -5, 0},
                {.30, 40, 0},
                {.30, 60, 0},
                /* D_T(39) = 0.78138 */
                {.30, 39, (3.2 * .78138 + .39350) / 4.2}};
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert_double_eq_tol(bw_decay_dose_of_day(rows[i].u, rows[i].theta),
                                rows[i].dose, 5e-4);
    /* D_u(25.1) = 0.0085 counts, with the whole of D_T(20) = 0.6916 */
    ck_assert_double_eq_tol(bw_decay_dose_of_day(.251, 20),
                            (3.2 * .6916 + .008525) / 4.2, 1e-5);
}
END_TEST

START_TEST(soaked_wood_counts_as_wood_of_60_percent)
{
    ck_assert_double_eq(bw_decay_dose_of_day(1.5, 20),
                        bw_decay_dose_of_day(.6, 20));
    ck_assert_double_gt(bw_decay_dose_of_day(.55, 20),
                        bw_decay_dose_of_day(.6, 20));
    ck_assert_double_le(bw_decay_dose_of_day(3, 32), 1);
}
END_TEST

/* Dose 325 d: rating 0.50; 452 d: 1.00. None: 4 exp(-exp(1.7716)) = 0.011. */
START_TEST(the_critical_dose_is_a_rating_of_one_half)
{
    ck_assert_double_eq_tol(bw_decay_rating(BW_DECAY_DOSE_CRITICAL), .50, .005);
    ck_assert_double_eq_tol(bw_decay_rating(452), 1.00, .005);
    ck_assert_double_eq_tol(bw_decay_rating(0), .0112, 1e-4);
    ck_assert_double_eq_tol(bw_decay_rating(1e5), 4, 1e-9);
}
END_TEST

/* NULL: the file is not there. */
static FILE *examples(const char *name)
{
    char path[1024], line[256];
    if (!shared_file(path, sizeof path, name))
        return NULL;
    FILE *f = fopen(path, "r");
    ck_assert_ptr_nonnull(f);
    ck_assert_ptr_nonnull(fgets(line, sizeof line, f)); /* header row */
    return f;
}

/* The file rounds the dose to four places, the days to whole ones. */
START_TEST(every_dose_example_is_met_and_its_days_to_decay)
{
    FILE *f = examples("damage/dose_examples.csv");
    if (f == NULL)
        return;
    double u, theta, dose;
    char days[32];
    int rows = 0;
    double worst = 0;
    while (fscanf(f, "%lf,%lf,%lf,%31s", &u, &theta, &dose, days) == 4) {
        farther(&worst, bw_decay_dose_of_day(u / 100, theta), dose);
        double us[DAYS], thetas[DAYS];
        fill(us, DAYS, u / 100);
        fill(thetas, DAYS, theta);
        bw_decay_dose_result r = bw_decay_dose_year(us, thetas, DAYS,
                                                    BW_DECAY_DOSE_CRITICAL);
        if (strcmp(days, "never") == 0)
            ck_assert(isinf(r.years));
        else
            ck_assert_double_eq_tol(365 * r.years, atof(days), .51);
        ++rows;
    }
    fclose(f);
    ck_assert_int_eq(rows, 35);
    measured("decay-dose", worst, 6e-5, "d");
}
END_TEST

START_TEST(a_year_sums_its_active_days)
{
    double u[DAYS], theta[DAYS];
    fill(u, DAYS, .15);
    fill(theta, DAYS, 20);
    fill(u + 300, 50, .30); /* 0.6206 a day, an example of the file */
    fill(theta + 340, 25, -3);
    bw_decay_dose_result r = bw_decay_dose_year(u, theta, DAYS, 650);
    ck_assert_uint_eq(r.active_days, 40);
    ck_assert_double_eq_tol(r.dose, 40 * .6206, .003);
    ck_assert_double_eq_tol(r.years, 650 / (40 * .6206), .01);
    ck_assert_double_eq(r.rating, bw_decay_rating(r.dose));
    fill(u, DAYS, .15);
    r = bw_decay_dose_year(u, theta, DAYS, 325);
    ck_assert_double_eq(r.dose, 0);
    ck_assert_uint_eq(r.active_days, 0);
    ck_assert(isinf(r.years));
}
END_TEST

/* ---- mass loss ---- */

START_TEST(days_to_activation_and_loss_a_month_are_the_published_models)
{
    static const struct {
        double theta, phi, days, loss; /* loss: % in 30 d */
    } rows[] = {{20, 1.00, 9.2, 4.91},
                {20, 0.97, 24.0, 3.56},
                {20, 0.95, 42.2, 2.66},
                {10, 0.97, 43.5, 2.15},
                {5, 0.97, 67.3, 1.44}};
    for (size_t i = 0; i < COUNT(rows); ++i) {
        ck_assert_double_eq_tol(
            bw_decay_activation_hours(rows[i].theta, rows[i].phi) / 24,
            rows[i].days, .06);
        bw_decay_state s = {.activation = 1};
        bw_decay_step(&s, rows[i].theta, rows[i].phi, 30 * 24);
        ck_assert_double_eq_tol(s.mass_loss, rows[i].loss, .006);
        ck_assert_double_eq(s.activation, 1);
    }
}
END_TEST

START_TEST(no_activation_in_cold_heat_or_below_95_percent)
{
    static const double rows[][2] = {{0, 1},     {-5, 1},    {30.1, 1},
                                     {20, .949}, {1.0, .95}, {1.0714, .95}};
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert(isinf(bw_decay_activation_hours(rows[i][0], rows[i][1])));
    /* the denominator at 95 %, -0.15 + 0.14 T, is positive from 1.0715 on */
    ck_assert(isfinite(bw_decay_activation_hours(1.08, .95)));
    ck_assert(isfinite(bw_decay_activation_hours(30, .95)));
    ck_assert_double_eq(bw_decay_activation_hours(20, 1.2),
                        bw_decay_activation_hours(20, 1));
}
END_TEST

START_TEST(every_decay_example_is_met_in_hours_and_in_one_step)
{
    FILE *f = examples("damage/decay_examples.csv");
    if (f == NULL)
        return;
    double theta, rh, days, month, year;
    int rows = 0;
    while (fscanf(f, "%lf,%lf,%lf,%lf,%lf", &theta, &rh, &days, &month,
                  &year) == 5) {
        const double phi = rh / 100;
        ck_assert_double_eq_tol(bw_decay_activation_hours(theta, phi) / 24,
                                days, .06);
        bw_decay_state s = {0};
        bw_decay_step(&s, theta, phi, HOURS);
        ck_assert_double_eq_tol(s.mass_loss, year, .012);
        bw_decay_state hourly = {0};
        for (int h = 0; h < HOURS; ++h)
            bw_decay_step(&hourly, theta, phi, 1);
        ck_assert_double_eq_tol(hourly.mass_loss, s.mass_loss, 1e-8);
        ck_assert_double_eq_tol(hourly.activation, s.activation, 1e-10);
        s = (bw_decay_state){.activation = 1};
        bw_decay_step(&s, theta, phi, 720);
        ck_assert_double_eq_tol(s.mass_loss, month, 6e-4);
        ++rows;
    }
    fclose(f);
    ck_assert_int_eq(rows, 42);
}
END_TEST

START_TEST(dry_wood_recovers_in_two_years_and_keeps_its_loss)
{
    bw_decay_state s = {.activation = 1, .mass_loss = 2};
    bw_decay_step(&s, 20, .6, HOURS);
    ck_assert_double_eq_tol(s.activation, .5, 1e-12);
    bw_decay_step(&s, -5, 1, HOURS / 2.0);
    ck_assert_double_eq_tol(s.activation, .25, 1e-12);
    bw_decay_step(&s, 20, .6, HOURS);
    ck_assert_double_eq(s.activation, 0);
    ck_assert_double_eq(s.mass_loss, 2);
}
END_TEST

/* Above 30 degC, outside the fit: no rise, no recovery; activated wood loses
 * on, at 35 degC and 100 % -0.0596 + 0.00686 + 0.0625 = 0.00976 % an hour. */
START_TEST(damp_heat_neither_activates_nor_recovers)
{
    bw_decay_state s = {.activation = .4};
    bw_decay_step(&s, 35, 1, 1000);
    ck_assert_double_eq(s.activation, .4);
    ck_assert_double_eq(s.mass_loss, 0);
    s.activation = 1;
    bw_decay_step(&s, 35, 1, 100);
    ck_assert_double_eq_tol(s.mass_loss, .976, 1e-9);
    bw_decay_step(&s, 35, 1, 1e6);
    ck_assert_double_eq(s.mass_loss, 100);
    bw_decay_step(&s, 35, .90, 8760);
    ck_assert_double_eq_tol(s.activation, .5, 1e-12);
}
END_TEST

/* 20 degC and 97 % for 12 days of each year activate 12/24.0 = 0.500 of the
 * way, 353 dry days take 353/730 = 0.4836 of it back. */
START_TEST(years_add_up_what_one_year_does_not_reach)
{
    static double theta[HOURS], phi[HOURS];
    fill(theta, HOURS, 20);
    fill(phi, HOURS, .6);
    fill(phi + 4000, 12 * 24, .97);
    bw_decay_result r = bw_decay_years(theta, phi, HOURS, 1);
    ck_assert_double_eq_tol(r.highest_activation, .500, .002);
    ck_assert_uint_eq(r.highest_hour, 4000 + 12 * 24 - 1);
    ck_assert_double_eq(r.mass_loss, 0);
    ck_assert_int_eq(r.first_loss_year, -1);
    /* 20 days: 0.833 in the first year, in the second 4 days are left of
     * 0.833 - 0.473 + 0.833: 1 is reached after 15.4 d, 4.6 d lose mass at
     * 3.56 % in 30 d */
    fill(phi + 4000, 20 * 24, .97);
    r = bw_decay_years(theta, phi, HOURS, 2);
    ck_assert_int_eq(r.first_loss_year, 2);
    ck_assert_double_eq(r.highest_activation, 1);
    ck_assert_double_eq_tol(r.mass_loss, 3.56 * 4.64 / 30, .01);
}
END_TEST

/* ---- counts ---- */

START_TEST(day_means_are_of_24_hours_each)
{
    double hourly[72], mean[3];
    for (int h = 0; h < 72; ++h)
        hourly[h] = h;
    bw_day_means(mean, hourly, 3);
    ck_assert_double_eq(mean[0], 11.5);
    ck_assert_double_eq(mean[1], 35.5);
    ck_assert_double_eq(mean[2], 59.5);
}
END_TEST

START_TEST(wetness_needs_more_than_80_percent_and_no_frost)
{
    static const double theta[] = {5, 5, 0, -1, .1, 20};
    static const double phi[] = {.81, .80, .9, .9, .9, 1};
    ck_assert_uint_eq(bw_wetness_hours(theta, phi, COUNT(theta)), 3);
}
END_TEST

START_TEST(a_frost_crossing_is_a_fall_to_the_level_the_year_round)
{
    static const double theta[] = {-1, 2, 0, -3, 1, -2.5, 3};
    ck_assert_uint_eq(bw_frost_crossings(theta, 7, 0), 3); /* 0, -2.5, -1 */
    ck_assert_uint_eq(bw_frost_crossings(theta, 7, -2), 2);
    ck_assert_uint_eq(bw_frost_crossings(theta, 7, -5), 0);
    static const double always[] = {-1, -1, -1};
    ck_assert_uint_eq(bw_frost_crossings(always, 3, 0), 0);
    ck_assert_uint_eq(bw_frost_crossings(always, 3, -1), 0);
}
END_TEST

SUITE("decay", FACT(the_line_runs_from_95_percent_at_0_to_86_at_30_degrees),
      FACT(a_year_on_the_line_is_not_above_it),
      FACT(the_largest_overshoot_is_found_with_its_day),
      FACT(a_winter_is_one_run_over_the_end_of_the_year),
      FACT(dose_of_a_day_follows_the_published_polynomials),
      FACT(soaked_wood_counts_as_wood_of_60_percent),
      FACT(the_critical_dose_is_a_rating_of_one_half),
      FACT(every_dose_example_is_met_and_its_days_to_decay),
      FACT(a_year_sums_its_active_days),
      FACT(days_to_activation_and_loss_a_month_are_the_published_models),
      FACT(no_activation_in_cold_heat_or_below_95_percent),
      FACT(every_decay_example_is_met_in_hours_and_in_one_step),
      FACT(dry_wood_recovers_in_two_years_and_keeps_its_loss),
      FACT(damp_heat_neither_activates_nor_recovers),
      FACT(years_add_up_what_one_year_does_not_reach),
      FACT(day_means_are_of_24_hours_each),
      FACT(wetness_needs_more_than_80_percent_and_no_frost),
      FACT(a_frost_crossing_is_a_fall_to_the_level_the_year_round))
