/* The hourly method against a general-purpose integrator (SUNDIALS CVODE, BDF
 * with a band matrix) on a nonlinear wall of two layers and a membrane. The
 * equations are written here a second time, in temperature and relative
 * humidity, with closed functions instead of tables. Same cells: the
 * difference is that of tables, potentials and time steps. */

#ifdef BW_HAVE_CVODE
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>
#endif

#include "measured.h"
#include "suite.h"
#include "transient_core.h"

#ifdef BW_HAVE_CVODE

#define DAY 86400.0
#define PI 3.14159265358979323846

enum { MOST = 200 };

/* ---- the two materials, closed ---- */

/* A masonry that draws water, and a fibre that stores vapour. */
static double water_a(double phi)
{
    return 250 * phi * 0.02 / (1.02 - phi);
}

static double water_b(double phi)
{
    return 15 * phi + 40 * pow(phi, 6);
}

static double slope_a(double phi)
{
    return 250 * 0.02 * 1.02 / ((1.02 - phi) * (1.02 - phi));
}

static double slope_b(double phi)
{
    return 15 + 240 * pow(phi, 5);
}

#define D0 2e-10
#define DK 0.02

static double diffusivity(double w)
{
    return D0 * exp(DK * w);
}

static double flow(double w)
{
    return D0 / DK * exp(DK * w);
}

static double open_a(double phi)
{
    return 0.08 * (1 + phi * phi);
}

static double open_b(double phi)
{
    return 0.4 + 0.2 * phi;
}

static double lambda_a(double w)
{
    return 0.7 + 0.004 * w;
}

static double lambda_b(double w)
{
    return 0.04 + 0.0006 * w;
}

#define HEAT_A 1.7e6
#define HEAT_B 1.0e5

static double film_of(double phi)
{
    return 5e10 * (1.1 - phi);
}

/* ---- as laws for the method under test ---- */

static double law_water_a(const void *ctx, double phi)
{
    (void)ctx;
    return water_a(phi);
}

static double law_water_b(const void *ctx, double phi)
{
    (void)ctx;
    return water_b(phi);
}

static double law_diffusivity(const void *ctx, double w)
{
    (void)ctx;
    return diffusivity(w);
}

static double law_open_a(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)w;
    return open_a(phi);
}

static double law_open_b(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)w;
    return open_b(phi);
}

static double law_lambda_a(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    return lambda_a(w);
}

static double law_lambda_b(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    return lambda_b(w);
}

/* ---- conditions: daily and weekly waves ---- */

static double psat(double theta)
{
    return theta >= 0 ? 610.5 * exp(17.269 * theta / (237.3 + theta))
                      : 610.5 * exp(21.875 * theta / (265.5 + theta));
}

static double outdoor(double t)
{
    return 8 + 6 * sin(2 * PI * t / DAY) + 3 * sin(2 * PI * t / (7 * DAY));
}

static void edge_at(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    const double theta = outdoor(t);
    *edge = (bw_edge){.theta_e = theta,
                      .p_e = (0.8 + 0.15 * sin(2 * PI * t / (3 * DAY))) *
                             psat(theta),
                      .h_e = 17,
                      .gain = 0,
                      .beta_e = 5e-8,
                      .theta_i = 20,
                      .p_i = (0.5 + 0.1 * sin(2 * PI * t / DAY)) * psat(20),
                      .h_i = 8,
                      .beta_i = 2e-8};
}

/* ---- the equations, a second time ---- */

typedef struct second {
    const lab *l;
    size_t border; /* the membrane is the outer face of this cell */
} second;

typedef struct point {
    double theta, phi, p, w, lambda, k, heat;
} point;

static point point_of(const second *s, const double *y, size_t i)
{
    const bool a = i < s->border;
    point q = {.theta = y[2 * i], .phi = y[2 * i + 1]};
    const double kelvin = q.theta + 273.15;
    q.p = q.phi * psat(q.theta);
    q.w = a ? water_a(q.phi) : water_b(q.phi);
    q.lambda = a ? lambda_a(q.w) : lambda_b(q.w);
    q.k = 2.0e-7 * pow(kelvin, 0.81) / 101325 *
          (a ? open_a(q.phi) : open_b(q.phi));
    q.heat = a ? HEAT_A : HEAT_B;
    return q;
}

/* Vapour permeability of a half cell up to a face that stops liquid: liquid
 * comes along to the face, D_w dw = D_w w'(phi) dphi, dphi = dp/psat. */
static double with_liquid(const second *s, const point *q, size_t i)
{
    if (i >= s->border)
        return q->k;
    return q->k + diffusivity(q->w) * slope_a(q->phi) / psat(q->theta);
}

static void through(double *q, double *g, double gv, double conduction,
                    double gl, double theta_mean)
{
    *g = gv + gl;
    *q = conduction + 2.5e6 * gv + 4187 * theta_mean * *g;
}

static int rates(sunrealtype t, N_Vector yv, N_Vector dv, void *payload)
{
    const second *s = payload;
    const lab *l = s->l;
    const double *y = N_VGetArrayPointer(yv);
    double *d = N_VGetArrayPointer(dv);
    double q[MOST + 1], g[MOST + 1];
    const size_t n = l->n;
    bw_edge e;
    edge_at(NULL, t, &e);
    for (size_t i = 0; i < n; i++)
        if (!(y[2 * i + 1] > 0 && y[2 * i + 1] < 1.019))
            return 1;
    const point first = point_of(s, y, 0), last = point_of(s, y, n - 1);
    double h = l->dx[0] / 2;
    through(&q[0], &g[0],
            (e.p_e - first.p) / (1 / e.beta_e + h / with_liquid(s, &first, 0)),
            (e.theta_e - first.theta) / (1 / e.h_e + h / first.lambda), 0,
            (e.theta_e + first.theta) / 2);
    for (size_t i = 1; i < n; i++) {
        const point a = point_of(s, y, i - 1), b = point_of(s, y, i);
        const double ha = l->dx[i - 1] / 2, hb = l->dx[i] / 2;
        const bool here = i == s->border;
        const double ka = here ? with_liquid(s, &a, i - 1) : a.k;
        const double film = here ? film_of((a.phi + b.phi) / 2) : 0;
        const double liquid = i < s->border
                                  ? (flow(a.w) - flow(b.w)) / (ha + hb)
                                  : 0;
        through(&q[i], &g[i], (a.p - b.p) / (ha / ka + film + hb / b.k),
                (a.theta - b.theta) / (ha / a.lambda + hb / b.lambda), liquid,
                (a.theta + b.theta) / 2);
    }
    h = l->dx[n - 1] / 2;
    through(&q[n], &g[n], (last.p - e.p_i) / (h / last.k + 1 / e.beta_i),
            (last.theta - e.theta_i) / (h / last.lambda + 1 / e.h_i), 0,
            (last.theta + e.theta_i) / 2);
    for (size_t i = 0; i < n; i++) {
        const point c = point_of(s, y, i);
        const double dw = (g[i] - g[i + 1]) / l->dx[i];
        const double dh = (q[i] - q[i + 1]) / l->dx[i];
        d[2 * i] = (dh - 4187 * c.theta * dw) / (c.heat + 4187 * c.w);
        d[2 * i + 1] = dw / (i < s->border ? slope_a(c.phi) : slope_b(c.phi));
    }
    return 0;
}

static lab *two_layers(size_t *border, bw_film *film)
{
    static const bw_hygro_law a = {.water = law_water_a,
                                   .diffusivity = law_diffusivity,
                                   .openness = law_open_a,
                                   .conductivity = law_lambda_a,
                                   .heat_capacity = HEAT_A,
                                   .full_water = 300};
    static const bw_hygro_law b = {.water = law_water_b,
                                   .openness = law_open_b,
                                   .conductivity = law_lambda_b,
                                   .heat_capacity = HEAT_B,
                                   .full_water = 800};
    lab *l = lab_new(bw_vapour_permeability_of_air);
    lab_layer(l, &a, 0.12, 2e-3, 1.4, 1);
    *border = l->n;
    lab_layer(l, &b, 0.16, 2e-3, 1.4, 1);
    for (int i = 0; i < BW_FILM_ROWS + 2; i++)
        film->resistance[i] = film_of((double)i / BW_FILM_ROWS);
    l->face[*border].film = film;
    lab_start(l, BW_R_V, 2.5e6, 12, 0.8);
    return l;
}

typedef struct band {
    SUNContext context;
    N_Vector y;
    SUNMatrix matrix;
    SUNLinearSolver solver;
    void *cvode;
} band;

static band band_new(second *s)
{
    band b;
    ck_assert_int_eq(SUNContext_Create(NULL, &b.context), 0);
    const long m = 2 * (long)s->l->n;
    b.y = N_VNew_Serial(m, b.context);
    double *y = N_VGetArrayPointer(b.y);
    for (size_t i = 0; i < s->l->n; i++) {
        y[2 * i] = 12;
        y[2 * i + 1] = 0.8;
    }
    b.cvode = CVodeCreate(CV_BDF, b.context);
    ck_assert_int_eq(CVodeInit(b.cvode, rates, 0, b.y), 0);
    CVodeSStolerances(b.cvode, 1e-9, 1e-9);
    b.matrix = SUNBandMatrix(m, 3, 3, b.context);
    b.solver = SUNLinSol_Band(b.y, b.matrix, b.context);
    CVodeSetLinearSolver(b.cvode, b.solver, b.matrix);
    CVodeSetUserData(b.cvode, s);
    CVodeSetMaxNumSteps(b.cvode, 1000000);
    return b;
}

static void band_free(band *b)
{
    CVodeFree(&b->cvode);
    SUNLinSolFree(b->solver);
    SUNMatDestroy(b->matrix);
    N_VDestroy(b->y);
    SUNContext_Free(&b->context);
}

START_TEST(two_nonlinear_layers_agree_with_cvode)
{
    bw_film film;
    second s;
    lab *l = two_layers(&s.border, &film);
    s.l = l;
    l->solver.tolerance_theta = 2e-4;
    l->solver.tolerance_z = 1e-5;
    band b = band_new(&s);
    double theta = 0, phi = 0, moved = 0;
    for (int day = 1; day <= 30; day++) {
        const double end = day * DAY + 3600.0 * (day % 24);
        double crossing[BW_X_COUNT] = {0};
        sunrealtype reached;
        ck_assert_int_eq(
            bw_solver_advance(&l->solver, end, edge_at, NULL, crossing, NULL),
            BW_OK);
        ck_assert_int_ge(CVode(b.cvode, end, b.y, &reached, CV_NORMAL), 0);
        const double *y = N_VGetArrayPointer(b.y);
        for (size_t i = 0; i < l->n; i++) {
            const double here = bw_hygro_phi(l->of[i], l->solver.v[2 * i + 1]);
            theta = fmax(theta, fabs(l->solver.v[2 * i] - y[2 * i]));
            phi = fmax(phi, fabs(here - y[2 * i + 1]));
            moved = fmax(moved, fabs(here - 0.8));
        }
    }
    ck_assert_double_gt(moved, 0.1);
    measured("cvode-temperature", theta, 1e-3, "K");
    measured("cvode-humidity", 100 * phi, 0.01, "% RH");
    band_free(&b);
    lab_free(l);
}
END_TEST

SUITE("transient_oracle", FACT(two_nonlinear_layers_agree_with_cvode))

#else

int main(void)
{
    puts("test_transient_oracle: skipped, built without SUNDIALS");
    return 0;
}

#endif
