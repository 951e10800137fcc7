#ifndef BW_TESTS_TRANSIENT_CORE_H
#define BW_TESTS_TRANSIENT_CORE_H

/* Walls of cells built by hand, for the tests of the equations and their
 * solver: layers with laws of their own, a geometric grid, fixed conditions. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/air.h"
#include "transient/solver.h"

enum { LAB_CELLS = 2000, LAB_LAYERS = 3 };

typedef struct lab {
    bw_arena arena;
    bw_humid humid;
    bw_hygro hygro[LAB_LAYERS];
    double dx[LAB_CELLS], per_half[LAB_CELLS];
    const bw_hygro *of[LAB_CELLS];
    bw_face face[LAB_CELLS + 1];
    bw_joint joint[LAB_LAYERS];
    bw_wall wall;
    bw_solver solver;
    size_t n, layers;
} lab;

static inline lab *lab_new(double (*delta)(double, double))
{
    lab *l = calloc(1, sizeof *l);
    if (l == NULL)
        abort();
    bw_humid_build(&l->humid, bw_saturation_pressure, delta,
                   BW_STANDARD_PRESSURE);
    return l;
}

/* Adds a layer of cells that grow from `first` by `growth` away from both
 * faces (both_ends) or from the outer one. */
static inline void lab_layer(lab *l, const bw_hygro_law *law, double thickness,
                             double first, double growth, int both_ends)
{
    bw_hygro *h = &l->hygro[l->layers++];
    if (bw_hygro_build(h, law, NULL) != BW_OK)
        abort();
    const size_t start = l->n;
    const double half = both_ends ? 0.5 * thickness : thickness;
    double sum = 0;
    for (double d = first; sum < half * (1 - 1e-9); d *= growth) {
        if (l->n == LAB_CELLS - 1)
            abort();
        l->dx[l->n++] = d;
        sum += d;
    }
    const size_t count = l->n - start;
    for (size_t i = 0; i < count; i++)
        l->dx[start + i] *= half / sum;
    for (size_t i = 0; both_ends && i < count; i++)
        l->dx[l->n++] = l->dx[start + count - 1 - i];
    for (size_t i = start; i < l->n; i++) {
        l->of[i] = h;
        l->per_half[i] = 2 / l->dx[i];
        l->face[i].same = i > start;
        l->face[i].per = i > 0 ? 2 / (l->dx[i - 1] + l->dx[i]) : 0;
        l->face[i].liquid = i > 0 && h->liquid && l->of[i - 1]->liquid;
    }
}

/* Ready to run from theta and phi throughout. */
static inline void lab_start(lab *l, double r_v, double latent, double theta,
                             double phi)
{
    l->wall = (bw_wall){.n = l->n,
                        .dx = l->dx,
                        .per_half = l->per_half,
                        .hygro = l->of,
                        .face = l->face,
                        .leak_cell = -1,
                        .rain_cell = -1,
                        .humid = &l->humid,
                        .latent = latent,
                        .r_v = r_v};
    size_t joints = 0;
    for (size_t i = 1; i < l->n; i++)
        if (l->of[i] != l->of[i - 1] && l->of[i]->liquid &&
            l->of[i - 1]->liquid) {
            bw_joint *joint = &l->joint[joints++];
            bw_joint_build(joint, l->of[i - 1], l->of[i], l->per_half[i - 1],
                           l->per_half[i], false);
            l->face[i].joint[0] = l->face[i].joint[1] = joint;
        }
    if (!bw_solver_init(&l->solver, &l->wall, &l->arena))
        abort();
    static double v[2 * LAB_CELLS];
    for (size_t i = 0; i < l->n; i++) {
        v[2 * i] = theta;
        v[2 * i + 1] = bw_hygro_z_of_phi(l->of[i], phi);
    }
    bw_solver_start(&l->solver, v, 0);
}

static inline double lab_value(const lab *l, size_t i, int water)
{
    return water ? bw_hygro_water(l->of[i], l->solver.v[2 * i + 1])
                 : l->solver.v[2 * i];
}

/* Temperature (water 0) or water content (1) at x: straight between centres,
 * the nearest centre beyond the first and the last. */
static inline double lab_at(const lab *l, double x, int water)
{
    double edge = 0, centre = 0, before = 0;
    for (size_t i = 0; i < l->n; i++) {
        centre = edge + 0.5 * l->dx[i];
        if (centre >= x && i == 0)
            return lab_value(l, 0, water);
        if (centre >= x) {
            const double a = lab_value(l, i - 1, water);
            const double b = lab_value(l, i, water);
            return a + (b - a) * (x - before) / (centre - before);
        }
        before = centre;
        edge += l->dx[i];
    }
    return lab_value(l, l->n - 1, water);
}

static inline void lab_free(lab *l)
{
    bw_arena_release(&l->arena);
    free(l);
}

/* ---- the material of EN 15026 annex A (from memory, hi) ---- */

#define ANNEX_RV 461.5
#define ANNEX_T0 293.15

static inline double annex_suction(double w)
{
    return 0.125e8 * pow(pow(146 / w, 1 / 0.375) - 1, 0.625);
}

static inline double annex_water(const void *ctx, double phi)
{
    (void)ctx;
    if (phi <= 0)
        return 0;
    const double s = -1000 * ANNEX_RV * ANNEX_T0 * log(phi);
    return 146 / pow(1 + pow(8e-8 * s, 1.6), 0.375);
}

static inline double annex_k(double w)
{
    const double y = w - 73;
    return exp(-39.2619 + 0.0704 * y - 1.7420e-4 * y * y -
               2.7953e-6 * y * y * y - 1.1566e-7 * pow(y, 4) +
               2.5969e-9 * pow(y, 5));
}

/* K(s) ds/dx as D_w dw/dx: D_w = -K ds/dw. */
static inline double annex_diffusivity(const void *ctx, double w)
{
    (void)ctx;
    w = fmin(fmax(w, 1), 145.99);
    const double h = fmin(1e-4 * w, 145.995 - w);
    return -annex_k(w) * (annex_suction(w + h) - annex_suction(w - h)) /
           (2 * h);
}

static inline double annex_openness(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    const double a = fmax(1 - w / 146, 0);
    return fmax(a / 200 / (0.503 * a * a + 0.497), 1e-6);
}

static inline double annex_lambda(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    return 1.5 + 15.8 * w / 1000;
}

static inline double annex_delta(double theta, double pressure)
{
    (void)pressure;
    return 26.1e-6 / (ANNEX_RV * (theta + BW_KELVIN));
}

static const bw_hygro_law annex_law = {
    .water = annex_water,
    .diffusivity = annex_diffusivity,
    .openness = annex_openness,
    .conductivity = annex_lambda,
    .heat_capacity = 1.824e6,
    .full_water = 146,
    .suction = true,
    .reference = ANNEX_T0,
};

static inline void annex_edge(const void *ctx, double t, bw_edge *edge)
{
    (void)ctx;
    (void)t;
    *edge = (bw_edge){.theta_e = 30,
                      .p_e = 0.95 * bw_saturation_pressure(30),
                      .h_e = 1e9,
                      .beta_e = 1,
                      .theta_i = 20,
                      .p_i = 0.5 * bw_saturation_pressure(20),
                      .h_i = 1e-9,
                      .beta_i = 1e-20};
}

/* ---- a material for heat alone ---- */

static inline double dry_water(const void *ctx, double phi)
{
    (void)ctx;
    return 1e-6 * phi;
}

static inline double dry_openness(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 1e-12;
}

static inline double of_ctx(const void *ctx, double phi, double w)
{
    (void)phi;
    (void)w;
    return *(const double *)ctx;
}

static inline bw_hygro_law dry_law(const double *lambda, double capacity)
{
    return (bw_hygro_law){.ctx = lambda,
                          .water = dry_water,
                          .openness = dry_openness,
                          .conductivity = of_ctx,
                          .heat_capacity = capacity,
                          .full_water = 1};
}

#endif
