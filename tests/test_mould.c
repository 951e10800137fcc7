/* Mould index and wood moisture.
 *
 * The index tables are an independent evaluation of the published equations
 * in one-hour steps [derived]; the wood table is the Wood Handbook's, table
 * 4-2 [from memory, high confidence]. */

#include <math.h>
#include <stdlib.h>

#include "bothways/mould.h"
#include "suite.h"

/* Days at constant exposure until M first reaches `level`; hourly steps. */
static double days_to(bw_mould_class mould_class, double theta, double phi,
                      double level)
{
    bw_mould_state s = {0};
    for (int hour = 1; hour <= 5 * 8760; ++hour) {
        bw_mould_step(&s, mould_class, theta, phi, 1);
        if (s.index >= level)
            return hour / 24.0;
    }
    return HUGE_VAL;
}

static double index_after(bw_mould_class mould_class, double theta, double phi,
                          double days)
{
    bw_mould_state s = {0};
    bw_mould_step(&s, mould_class, theta, phi, 24 * days);
    return s.index;
}

/* t_m and t_v in weeks, W = SQ = 0 [derived from the published formulas]. */
static const struct {
    double theta, phi, t_m, t_v;
} weeks[] = {
    {5, .95, 5.09, 10.84}, {5, .97, 3.81, 8.32},  {5, .99, 2.87, 6.42},
    {10, .95, 3.18, 6.49}, {10, .97, 2.38, 4.98}, {10, .99, 1.79, 3.84},
    {20, .95, 1.98, 3.89}, {20, .97, 1.48, 2.98}, {20, .99, 1.12, 2.30},
    {30, .95, 1.50, 2.88}, {30, .97, 1.13, 2.21}, {30, .99, 0.85, 1.70},
};

/* One hour, the table's rounding and k2 < 1 near M = 1 make 2 %. */
START_TEST(first_growth_comes_after_t_m)
{
    for (size_t i = 0; i < COUNT(weeks); ++i)
        ck_assert_double_eq_tol(
            days_to(BW_MOULD_VERY_SENSITIVE, weeks[i].theta, weeks[i].phi, 1) /
                7,
            weeks[i].t_m, 0.02 * weeks[i].t_m);
}
END_TEST

/* The class's k1 = 2 stands for 2/(t_v/t_m - 1): equal within 5 % at 20 degC
 * and 95..97 %; elsewhere up to 15 % sooner, never later. */
START_TEST(visible_growth_comes_at_t_v_or_sooner)
{
    for (size_t i = 0; i < COUNT(weeks); ++i) {
        double ours = days_to(BW_MOULD_VERY_SENSITIVE, weeks[i].theta,
                              weeks[i].phi, 3) /
                      7;
        ck_assert_double_lt(ours, 1.05 * weeks[i].t_v);
        ck_assert_double_gt(ours, 0.85 * weeks[i].t_v);
    }
    ck_assert_double_eq_tol(days_to(BW_MOULD_VERY_SENSITIVE, 20, .97, 3),
                            7 * 2.98, 0.2);
}
END_TEST

START_TEST(days_to_each_level_follow_the_published_equations)
{
    static const struct {
        bw_mould_class mould_class;
        double theta, phi, level, days;
    } rows[] = {
        {BW_MOULD_VERY_SENSITIVE, 20, .97, 1, 10.4},
        {BW_MOULD_VERY_SENSITIVE, 20, .97, 2, 15.6},
        {BW_MOULD_VERY_SENSITIVE, 20, .97, 3, 20.8},
        {BW_MOULD_VERY_SENSITIVE, 20, .97, 4, 26.1},
        {BW_MOULD_VERY_SENSITIVE, 20, .90, 1, 29.5},
        {BW_MOULD_VERY_SENSITIVE, 20, .90, 2, 44.2},
        {BW_MOULD_VERY_SENSITIVE, 20, .90, 3, 59.5},
        {BW_MOULD_VERY_SENSITIVE, 10, .95, 1, 22.3},
        {BW_MOULD_VERY_SENSITIVE, 10, .95, 2, 33.4},
        {BW_MOULD_VERY_SENSITIVE, 10, .95, 3, 44.5},
        {BW_MOULD_VERY_SENSITIVE, 10, .95, 4, 56.1},
        {BW_MOULD_VERY_SENSITIVE, 5, .97, 1, 26.7},
        {BW_MOULD_VERY_SENSITIVE, 5, .97, 2, 40.0},
        {BW_MOULD_VERY_SENSITIVE, 5, .97, 3, 53.4},
        {BW_MOULD_VERY_SENSITIVE, 5, .97, 4, 67.1},
        {BW_MOULD_SENSITIVE, 20, .97, 1, 18.0},
        {BW_MOULD_SENSITIVE, 20, .97, 2, 44.9},
        {BW_MOULD_SENSITIVE, 20, .97, 3, 72.0},
        {BW_MOULD_SENSITIVE, 20, .97, 4, 101.5},
        {BW_MOULD_MEDIUM_RESISTANT, 20, .97, 1, 144.8},
        {BW_MOULD_MEDIUM_RESISTANT, 20, .97, 2, 255.9},
    };
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert_double_eq_tol(days_to(rows[i].mould_class, rows[i].theta,
                                        rows[i].phi, rows[i].level),
                                rows[i].days, 0.1);
    ck_assert(!isfinite(days_to(BW_MOULD_VERY_SENSITIVE, 20, .90, 4)));
    ck_assert_double_eq_tol(
        index_after(BW_MOULD_MEDIUM_RESISTANT, 20, .97, 365), 2.749, 1e-3);
    ck_assert_double_eq_tol(index_after(BW_MOULD_RESISTANT, 20, .97, 365),
                            1.029, 1e-3);
}
END_TEST

/* M_max = A + B r - C r^2 worked by hand, e.g. 20 degC and 97 %: r = 0.85,
 * 1 + 7 0.85 - 2 0.85^2 = 5.505; at 85 % minimum r = 0.8. */
START_TEST(index_ends_at_the_class_maximum)
{
    static const struct {
        bw_mould_class mould_class;
        double theta, phi, m_max;
    } rows[] = {
        {BW_MOULD_VERY_SENSITIVE, 20, .97, 5.505},
        {BW_MOULD_VERY_SENSITIVE, 20, .90, 3.995},
        {BW_MOULD_VERY_SENSITIVE, 10, .95, 5.010},
        {BW_MOULD_VERY_SENSITIVE, 5, .97, 5.124},
        {BW_MOULD_SENSITIVE, 20, .97, 4.676},
        {BW_MOULD_MEDIUM_RESISTANT, 20, .97, 3.040},
        {BW_MOULD_RESISTANT, 20, .97, 1.760},
    };
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert_double_eq_tol(
            index_after(rows[i].mould_class, rows[i].theta, rows[i].phi, 1e6),
            rows[i].m_max, 2e-3);
}
END_TEST

START_TEST(critical_humidity_of_the_published_curve)
{
    static const double rows[][2] = {{5, .880},
                                     {10, .820},
                                     {20, .80},
                                     {30, .80},
                                     {0, 1.0},
                                     {-10, 1.0},
                                     {50, .80},
                                     {51, 1.0},
                                     /* by hand: 100 - 1.565 + 0.04 */
                                     {0.5, .98475}};
    for (size_t i = 0; i < COUNT(rows); ++i)
        ck_assert_double_eq_tol(
            bw_mould_critical_rh(BW_MOULD_VERY_SENSITIVE, rows[i][0]),
            rows[i][1], 1e-3);
    /* above 20 degC the least value itself, not the cubic (80.09 at 21) */
    ck_assert_double_eq_tol(bw_mould_critical_rh(BW_MOULD_VERY_SENSITIVE, 21),
                            .80, 1e-12);
    ck_assert_double_eq_tol(bw_mould_critical_rh(BW_MOULD_RESISTANT, 20), .85,
                            1e-12);
    ck_assert_double_eq_tol(bw_mould_critical_rh(BW_MOULD_MEDIUM_RESISTANT, 5),
                            .88, 1e-3);
}
END_TEST

/* -0.032 a day to 6 h, then none to 24 h, then -0.016 a day. */
/* At RH_crit itself growth is possible, up to M_max = A, here 1. */
START_TEST(growth_begins_at_the_critical_humidity)
{
    bw_mould_state s = {.dry_hours = 5};
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 25, .80, 24 * 365);
    ck_assert_double_eq(s.dry_hours, 0);
    ck_assert_double_gt(s.index, 0.9);
    ck_assert_double_le(s.index, 1);
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 25, .7999, 24);
    ck_assert_double_eq(s.dry_hours, 24);
}
END_TEST

START_TEST(index_declines_in_the_published_three_stages)
{
    bw_mould_state s = {.index = 3};
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 20, .5, 6);
    ck_assert_double_eq_tol(s.index, 3 - 0.008, 1e-9);
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 20, .5, 18);
    ck_assert_double_eq_tol(s.index, 3 - 0.008, 1e-9);
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 20, .5, 240);
    ck_assert_double_eq_tol(s.index, 3 - 0.008 - 0.16, 1e-9);
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 20, .5, 24 * 1000);
    ck_assert_double_eq(s.index, 0);
}
END_TEST

/* C_mat 1, 0.5, 0.25, 0.1 [steps from memory, given to the classes by
 * estimate]: of the first six hours 0.032/4 each. */
START_TEST(a_less_sensitive_class_declines_more_slowly)
{
    static const double c_mat[] = {1, .5, .25, .1};
    for (int c = 0; c < 4; ++c) {
        bw_mould_state s = {.index = 3};
        bw_mould_step(&s, (bw_mould_class)c, 20, .5, 6);
        ck_assert_double_eq_tol(s.index, 3 - 0.008 * c_mat[c], 1e-12);
    }
}
END_TEST

START_TEST(frost_and_heat_stop_growth)
{
    static const double thetas[] = {-5, 0, 50.5, 60};
    for (size_t i = 0; i < COUNT(thetas); ++i) {
        bw_mould_state s = {.index = 2};
        bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, thetas[i], 1.0, 48);
        ck_assert_double_lt(s.index, 2);
        ck_assert_double_eq(s.dry_hours, 48);
    }
    bw_mould_state s = {.index = 2, .dry_hours = 100};
    bw_mould_step(&s, BW_MOULD_VERY_SENSITIVE, 20, 1.2, 24);
    ck_assert_double_gt(s.index, 2);
    ck_assert_double_eq(s.dry_hours, 0);
}
END_TEST

START_TEST(one_long_step_equals_many_short_ones)
{
    for (int c = 0; c < 4; ++c) {
        bw_mould_state fine = {0}, coarse = {0};
        for (int hour = 0; hour < 24 * 200; ++hour)
            bw_mould_step(&fine, (bw_mould_class)c, 18, .96, 1);
        bw_mould_step(&coarse, (bw_mould_class)c, 18, .96, 24 * 200);
        ck_assert_double_eq_tol(fine.index, coarse.index, 1e-9);
        for (int hour = 0; hour < 24 * 30; ++hour)
            bw_mould_step(&fine, (bw_mould_class)c, 18, .6, 1);
        bw_mould_step(&coarse, (bw_mould_class)c, 18, .6, 24 * 30);
        ck_assert_double_eq_tol(fine.index, coarse.index, 1e-9);
    }
}
END_TEST

START_TEST(a_less_sensitive_class_never_peaks_higher)
{
    bw_mould_state s[4] = {{0}};
    double peak[4] = {0};
    for (int day = 0; day < 3 * 365; ++day) {
        double wave = sin(2 * 3.14159265358979 * day / 365.0);
        for (int c = 0; c < 4; ++c) {
            bw_mould_step(&s[c], (bw_mould_class)c, 10 - 8 * wave,
                          .85 + .14 * wave, 24);
            ck_assert_double_ge(s[c].index, 0);
            peak[c] = fmax(peak[c], s[c].index);
        }
    }
    for (int c = 1; c < 4; ++c)
        ck_assert_double_lt(peak[c], peak[c - 1]);
}
END_TEST

/* Wood Handbook, table 4-2, in %: 5..95 % RH by 5 [from memory, high];
 * tolerance: the table's rounding and the equation's known misfit. */
START_TEST(wood_moisture_meets_the_handbook_table)
{
    static const double rh[] = {10, 20, 30, 40, 50, 60, 65,
                                70, 75, 80, 85, 90, 95};
    static const double at_40f[] = {2.6,  4.6,  6.3,  7.9,  9.5,  11.3, 12.3,
                                    13.5, 14.9, 16.5, 18.5, 21.0, 24.3};
    static const double at_70f[] = {2.5,  4.5,  6.2,  7.7,  9.2,  11.0, 12.0,
                                    13.1, 14.4, 16.0, 17.9, 20.5, 23.9};
    for (size_t i = 0; i < COUNT(rh); ++i) {
        ck_assert_double_eq_tol(
            100 * bw_wood_moisture(40 / 1.8 - 32 / 1.8, rh[i] / 100), at_40f[i],
            0.11);
        ck_assert_double_eq_tol(
            100 * bw_wood_moisture(70 / 1.8 - 32 / 1.8, rh[i] / 100), at_70f[i],
            0.11);
    }
    /* A published comparison [seen]: at 140 degF and 55 % the equation gives
     * 8.4 %, the table 8.0 %. */
    ck_assert_double_eq_tol(100 * bw_wood_moisture(60, .55), 8.4, 0.05);
}
END_TEST

/* The same equation in degF, with the handbook's own coefficients for it
 * [from memory, high]: both sets are printed there, rounded apart. In %. */
static double handbook_in_fahrenheit(double t, double h)
{
    double w = 330 + (.452 + .00415 * t) * t;
    double k = .791 + (.000463 - .000000844 * t) * t;
    double k1 = 6.34 + (.000775 - .0000935 * t) * t;
    double k2 = 1.09 + (.0284 - .0000904 * t) * t;
    double one = k1 * k * h, two = k1 * k2 * k * k * h * h;
    return 1800 / w * (k * h / (1 - k * h) + (one + 2 * two) / (1 + one + two));
}

START_TEST(wood_moisture_is_the_handbooks_in_fahrenheit_as_well)
{
    for (double theta = 0; theta <= 130; theta += 10)
        for (double phi = .1; phi < .95; phi += .2)
            ck_assert_double_eq_tol(
                100 * bw_wood_moisture(theta, phi),
                handbook_in_fahrenheit(32 + 1.8 * theta, phi), 0.015);
    /* beyond the table of 30 to 270 degF its end counts */
    ck_assert_double_eq(bw_wood_moisture(-20, .8), bw_wood_moisture(-1.1, .8));
    ck_assert_double_eq(bw_wood_moisture(150, .8), bw_wood_moisture(132.2, .8));
}
END_TEST

START_TEST(wood_moisture_rises_with_humidity_at_every_temperature)
{
    for (double theta = -40; theta <= 150; theta += 2.5) {
        double last = bw_wood_moisture(theta, 0);
        ck_assert_double_eq(last, 0);
        for (int i = 1; i <= 100; ++i) {
            double u = bw_wood_moisture(theta, i / 100.0);
            ck_assert_double_gt(u, last);
            last = u;
        }
        ck_assert_double_lt(last, 0.35);
        ck_assert_double_eq(bw_wood_moisture(theta, 1.5), last);
    }
}
END_TEST

SUITE("mould", FACT(first_growth_comes_after_t_m),
      FACT(visible_growth_comes_at_t_v_or_sooner),
      FACT(days_to_each_level_follow_the_published_equations),
      FACT(index_ends_at_the_class_maximum),
      FACT(critical_humidity_of_the_published_curve),
      FACT(growth_begins_at_the_critical_humidity),
      FACT(index_declines_in_the_published_three_stages),
      FACT(a_less_sensitive_class_declines_more_slowly),
      FACT(frost_and_heat_stop_growth),
      FACT(one_long_step_equals_many_short_ones),
      FACT(a_less_sensitive_class_never_peaks_higher),
      FACT(wood_moisture_meets_the_handbook_table),
      FACT(wood_moisture_is_the_handbooks_in_fahrenheit_as_well),
      FACT(wood_moisture_rises_with_humidity_at_every_temperature))
