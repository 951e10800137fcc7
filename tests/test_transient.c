/* The hourly method: its equations and solver against published cases and
 * exact solutions. Whole runs: test_transient_run.c.
 *
 * EN 15026 annex A and HAMSTAD benchmark 2: inputs from memory (hi); their
 * profiles are independent reference solutions (a similarity solution; Fourier
 * series) [derived], as the standard's table could not be opened. */

#include <complex.h>
#undef I

#include "measured.h"
#include "suite.h"
#include "transient_core.h"

#define DAY 86400.0
#define PI 3.14159265358979323846

/* ---- EN 15026 annex A ---- */

/* x [m], w [kg/m3] and theta [degC] at 7 d, and at 30 d. */
static const double annex_profile[][5] = {
    {0.005, 80.28, 29.976, 109.31, 29.989},
    {0.010, 51.90, 29.946, 82.13, 29.977},
    {0.015, 45.16, 29.913, 62.21, 29.964},
    {0.020, 43.39, 29.879, 52.77, 29.949},
    {0.030, 42.95, 29.809, 45.52, 29.917},
    {0.040, 42.94, 29.739, 43.51, 29.883},
    {0.050, 42.94, 29.670, 43.04, 29.850},
    {0.060, 42.94, 29.600, 42.96, 29.816},
    {0.080, 42.94, 29.461, 42.94, 29.749},
    {0.100, 42.94, 29.322, 42.94, 29.682},
    {0.150, 42.94, 28.976, 42.94, 29.513},
    {0.200, 42.94, 28.631, 42.94, 29.346},
    {0.300, 42.94, 27.951, 42.94, 29.011},
    {0.50, 42.94, 26.641, 42.94, 28.347},
    {1.0, 42.94, 23.840, 42.94, 26.748},
    {2.0, 42.94, 20.813, 42.94, 24.003},
    {3.0, 42.94, 20.089, 42.94, 22.068},
    {5.0, 42.94, 20.000, 42.94, 20.353},
    {10, 42.94, 20.000, 42.94, 20.000},
};

static lab *annex_run(double days, double crossing[BW_X_COUNT])
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 25, 2e-4, 1.02, 0);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    l->solver.tolerance_theta = 0.001;
    l->solver.tolerance_z = 0.00005;
    memset(crossing, 0, BW_X_COUNT * sizeof *crossing);
    ck_assert_int_eq(bw_solver_advance(&l->solver, days * DAY, annex_edge, NULL,
                                       crossing, NULL),
                     BW_OK);
    return l;
}

/* Aim: 0.3 kg/m3 and 0.02 K; held: half of each. The uptake is the same
 * reference's, 5.7923e-4 sqrt(t) kg/m2. */
START_TEST(annex_a_profiles_at_7_and_30_days)
{
    double water = 0, theta = 0, uptake = 0;
    for (int late = 0; late < 2; late++) {
        double crossing[BW_X_COUNT];
        const double days = late ? 30 : 7;
        lab *l = annex_run(days, crossing);
        for (size_t i = 0; i < COUNT(annex_profile); i++) {
            const double *row = annex_profile[i];
            farther(&water, lab_at(l, row[0], 1), row[1 + 2 * late]);
            farther(&theta, lab_at(l, row[0], 0), row[2 + 2 * late]);
        }
        farther(&uptake, crossing[BW_X_VAPOUR_E], 5.7923e-4 * sqrt(days * DAY));
        lab_free(l);
    }
    measured("annex-a-water", water, 0.15, "kg/m3");
    measured("annex-a-temperature", theta, 0.01, "K");
    measured("annex-a-uptake", uptake, 2e-3, "kg/m2");
}
END_TEST

/* w(x, t) and theta(x, t) depend on x/sqrt(t) only [exact for constant
 * conditions on a half space]: the 30 d profile tells the 365 d one. */
START_TEST(annex_a_profile_at_365_days_is_that_of_30_days_stretched)
{
    double crossing[BW_X_COUNT];
    lab *l = annex_run(365, crossing);
    const double stretch = sqrt(365.0 / 30);
    double water = 0, theta = 0;
    for (size_t i = 0; i < COUNT(annex_profile); i++) {
        const double x = annex_profile[i][0] * stretch;
        if (x > 15)
            continue;
        farther(&water, lab_at(l, x, 1), annex_profile[i][3]);
        farther(&theta, lab_at(l, x, 0), annex_profile[i][4]);
    }
    measured("annex-a-365-water", water, 0.15, "kg/m3");
    measured("annex-a-365-temperature", theta, 0.01, "K");
    lab_free(l);
}
END_TEST

/* ---- isothermal drying, HAMSTAD benchmark 2 ---- */

static double drying_water(const void *ctx, double phi)
{
    (void)ctx;
    return phi > 0 ? 116 / pow(1 - log(phi) / 0.118, 0.869) : 0;
}

static double drying_diffusivity(const void *ctx, double w)
{
    (void)ctx;
    (void)w;
    return 6e-10;
}

static double drying_openness(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 1e-15 / 2e-10;
}

static double drying_lambda(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 0.15;
}

static double fixed_delta(double theta, double pressure)
{
    (void)theta;
    (void)pressure;
    return 2e-10;
}

static void drying_edge(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    (void)t;
    const double psat = bw_saturation_pressure(20);
    *edge = (bw_edge){.theta_e = 20,
                      .p_e = 0.45 * psat,
                      .h_e = 25,
                      .beta_e = 1e-3,
                      .theta_i = 20,
                      .p_i = 0.65 * psat,
                      .h_i = 25,
                      .beta_i = 1e-3};
}

/* Constant D: the exact series over a slab of 0.2 m between fixed contents. */
static double drying_series(double x, double t)
{
    const double w0 = drying_water(NULL, 0.95);
    const double a = drying_water(NULL, 0.45), b = drying_water(NULL, 0.65);
    double w = a + (b - a) * x / 0.2;
    for (int n = 1; n < 2000; n++) {
        const double k = n * PI / 0.2;
        const double sign = n % 2 ? -1 : 1;
        const double c = 2 / (n * PI) * ((w0 - a) - sign * (w0 - b));
        w += c * sin(k * x) * exp(-6e-10 * k * k * t);
    }
    return w;
}

/* The series itself against the figures at hand for 100 h. */
static const double drying_100[][2] = {
    {0.01, 43.644}, {0.02, 62.855}, {0.05, 83.716}, {0.10, 84.769},
    {0.15, 83.893}, {0.18, 66.541}, {0.19, 50.560},
};

START_TEST(isothermal_drying_follows_the_exact_series)
{
    static const bw_hygro_law law = {.water = drying_water,
                                     .diffusivity = drying_diffusivity,
                                     .openness = drying_openness,
                                     .conductivity = drying_lambda,
                                     .heat_capacity = 525 * 800,
                                     .full_water = 120};
    static const double hours[] = {100, 300, 1000};
    for (size_t i = 0; i < COUNT(drying_100); i++)
        ck_assert_double_eq_tol(drying_series(drying_100[i][0], 100 * 3600.0),
                                drying_100[i][1], 0.002);
    lab *l = lab_new(fixed_delta);
    lab_layer(l, &law, 0.2, 1e-4, 1.1, 1);
    /* no latent heat: the case is isothermal by definition */
    lab_start(l, ANNEX_RV, 0, 20, 0.95);
    double worst = 0;
    for (size_t k = 0; k < COUNT(hours); k++) {
        double crossing[BW_X_COUNT] = {0};
        ck_assert_int_eq(bw_solver_advance(&l->solver, hours[k] * 3600,
                                           drying_edge, NULL, crossing, NULL),
                         BW_OK);
        for (double x = 0.01; x < 0.195; x += 0.01)
            farther(&worst, lab_at(l, x, 1), drying_series(x, hours[k] * 3600));
    }
    measured("isothermal-drying", worst, 0.2, "kg/m3");
    lab_free(l);
}
END_TEST

/* ---- heat alone ---- */

static void step_edge(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    (void)t;
    *edge = (bw_edge){.theta_e = 10,
                      .p_e = 500,
                      .h_e = 1e9,
                      .beta_e = 1e-8,
                      .theta_i = 0,
                      .p_i = 500,
                      .h_i = 1e-9,
                      .beta_i = 1e-8};
}

START_TEST(step_of_temperature_enters_a_half_space_as_erfc)
{
    static const double lambda = 1.2, capacity = 1.6e6;
    const bw_hygro_law law = dry_law(&lambda, capacity);
    lab *l = lab_new(fixed_delta);
    lab_layer(l, &law, 6, 1e-3, 1.02, 0);
    lab_start(l, BW_R_V, 0, 0, 0.5);
    l->solver.tolerance_theta = 1e-4;
    double crossing[BW_X_COUNT] = {0};
    const double t = 2 * DAY;
    ck_assert_int_eq(
        bw_solver_advance(&l->solver, t, step_edge, NULL, crossing, NULL),
        BW_OK);
    double worst = 0;
    for (double x = 0.01; x < 2; x *= 1.3)
        farther(&worst, lab_at(l, x, 0),
                10 * erfc(x / (2 * sqrt(lambda / capacity * t))));
    measured("half-space-heat", worst, 2e-3, "K");
    lab_free(l);
}
END_TEST

/* ISO 13786 (memory, hi): a layer's transfer matrix is [cosh m, -sinh m / k;
 * -k sinh m, cosh m] with m = d sqrt(i w rho c / lambda), k = lambda m / d.
 * A day's wave outside, a fixed room: the room-side flux. */
typedef struct iso_layer {
    double d, lambda, capacity;
} iso_layer;

static const iso_layer iso_wall[] = {{0.10, 0.77, 1700 * 1000.0},
                                     {0.14, 0.04, 50 * 2000.0},
                                     {0.0125, 0.21, 700 * 1000.0}};

static double complex iso_flux(double period, double r_e, double r_i)
{
    const double complex i = csqrt(-1.0);
    double complex z[2][2] = {{1, -r_e}, {0, 1}};
    for (size_t k = 0; k <= COUNT(iso_wall); k++) {
        double complex m[2][2] = {{1, -r_i}, {0, 1}};
        if (k < COUNT(iso_wall)) {
            const iso_layer *y = &iso_wall[k];
            const double complex root = csqrt(i * 2 * PI / period *
                                              y->capacity / y->lambda);
            const double complex c = ccosh(root * y->d);
            const double complex s = csinh(root * y->d);
            m[0][0] = m[1][1] = c;
            m[0][1] = -s / (y->lambda * root);
            m[1][0] = -y->lambda * root * s;
        }
        double complex out[2][2];
        for (int a = 0; a < 2; a++)
            for (int b = 0; b < 2; b++)
                out[a][b] = m[a][0] * z[0][b] + m[a][1] * z[1][b];
        memcpy(z, out, sizeof z);
    }
    /* inside temperature wave 0: q_e = -z00/z01, q_i = z10 + z11 q_e */
    return z[1][0] - z[1][1] * z[0][0] / z[0][1];
}

static void wave_edge(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    *edge = (bw_edge){.theta_e = 10 * cos(2 * PI * t / DAY),
                      .p_e = 500,
                      .h_e = 25,
                      .beta_e = 1e-8,
                      .theta_i = 0,
                      .p_i = 500,
                      .h_i = 1 / 0.13,
                      .beta_i = 1e-8};
}

START_TEST(daily_wave_passes_as_the_iso_13786_matrices_say)
{
    lab *l = lab_new(fixed_delta);
    for (size_t k = 0; k < COUNT(iso_wall); k++) {
        const bw_hygro_law law = dry_law(&iso_wall[k].lambda,
                                         iso_wall[k].capacity);
        lab_layer(l, &law, iso_wall[k].d, 5e-4, 1.2, 1);
    }
    lab_start(l, BW_R_V, 0, 0, 0.5);
    l->solver.tolerance_theta = 2e-4;
    double crossing[BW_X_COUNT] = {0};
    ck_assert_int_eq(bw_solver_advance(&l->solver, 30 * DAY, wave_edge, NULL,
                                       crossing, NULL),
                     BW_OK);
    /* q_i(t) = Re(q 10 e^iwt), counted into the room; over a day */
    const double complex q = 10 * iso_flux(DAY, 0.04, 0.13);
    double worst = 0;
    for (int hour = 1; hour <= 24; hour++) {
        ck_assert_int_eq(bw_solver_advance(&l->solver, 30 * DAY + hour * 3600.0,
                                           wave_edge, NULL, crossing, NULL),
                         BW_OK);
        const size_t last = l->n - 1;
        const double surface = l->solver.v[2 * last] /
                               (0.13 + 0.5 * l->dx[last] / iso_wall[2].lambda);
        const double expected = creal(q *
                                      cexp(csqrt(-1.0) * 2 * PI * hour / 24));
        farther(&worst, surface / cabs(q), expected / cabs(q));
    }
    measured("iso-13786-wave", 100 * worst, 0.5, "% of its amplitude");
    lab_free(l);
}
END_TEST

SUITE("transient", FACT(annex_a_profiles_at_7_and_30_days),
      FACT(annex_a_profile_at_365_days_is_that_of_30_days_stretched),
      FACT(isothermal_drying_follows_the_exact_series),
      FACT(step_of_temperature_enters_a_half_space_as_erfc),
      FACT(daily_wave_passes_as_the_iso_13786_matrices_say))
