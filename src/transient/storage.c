#include "storage.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "bothways/mould.h"
#include "fail.h"

static const double INERT_WATER = 0.05; /* kg/m3 at 90 % RH, estimate */
/* kg/m3 in saturated air at 20 degC, ISO 13788 */
static const double AIR_WATER = 0.0173;
static const double LAST_FITTED = 0.95; /* RH to which a fit is trusted */
static const double FREE_OF_PORES = 0.9;
static const double REDISTRIBUTION = 0.1; /* D_ww/D_ws at w_f */
static const double WATER_LAMBDA = 0.6;   /* W/(m K) */

/* ---- the curve ---- */

static void add_point(bw_storage *s, double phi, double water)
{
    assert(s->count < BW_STORAGE_POINTS);
    s->phi[s->count] = phi;
    s->water[s->count++] = water;
}

static void add_wood(bw_storage *s)
{
    for (int i = 1; i <= 19; i++)
        add_point(s, 0.05 * i, s->density * bw_wood_moisture(20, 0.05 * i));
    add_point(s, 0.98, s->density * bw_wood_moisture(20, 0.98));
}

static void add_henderson(bw_storage *s, const bw_curve *c)
{
    const double a = -log(1 - c->x[0]), b = -log(1 - c->x[1]);
    const double n = log(b / a) / log(c->y[1] / c->y[0]);
    const double k = a / pow(c->y[0], n);
    for (int i = 1; 0.05 * i <= LAST_FITTED + 1e-9; i++) {
        const double u = pow(-log(1 - 0.05 * i) / k, 1 / n);
        add_point(s, 0.05 * i, s->density * u);
    }
    s->henderson = true;
}

static void add_curve(bw_storage *s, const bw_curve *c)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->x[i] < 0.9995)
            add_point(s, c->x[i], s->density * c->y[i]);
    if (c->x[c->count - 1] >= 0.9995)
        s->free_water = s->density * c->y[c->count - 1];
}

static void add_slopes(bw_storage *s)
{
    const size_t last = s->count - 1;
    double secant = s->water[1] / s->phi[1];
    s->slope[0] = secant;
    for (size_t i = 1; i < last; i++) {
        const double h0 = s->phi[i] - s->phi[i - 1];
        const double h1 = s->phi[i + 1] - s->phi[i];
        const double d0 = (s->water[i] - s->water[i - 1]) / h0;
        const double d1 = (s->water[i + 1] - s->water[i]) / h1;
        const double a = 2 * h1 + h0, b = h1 + 2 * h0;
        s->slope[i] = d0 > 0 && d1 > 0 ? (a + b) / (a / d0 + b / d1) : 0;
        secant = d1;
    }
    s->slope[last] = secant;
}

double bw_storage_water(const bw_storage *s, double phi)
{
    const size_t last = s->count - 1;
    if (phi <= 0)
        return 0;
    if (phi >= s->phi[last]) {
        const double t = fmin((phi - s->phi[last]) / (1 - s->phi[last]), 1);
        return s->water[last] + s->rise * s->bend * t / (s->bend - t);
    }
    size_t i = 0;
    while (phi > s->phi[i + 1])
        i++;
    const double h = s->phi[i + 1] - s->phi[i];
    const double t = (phi - s->phi[i]) / h;
    const double a = h * s->slope[i], b = h * s->slope[i + 1];
    const double d = s->water[i + 1] - s->water[i];
    return s->water[i] +
           t * (a + t * (3 * d - 2 * a - b + t * (a + b - 2 * d)));
}

/* The way from the last point to w_f. Where w_f lies lower than the last
 * slope leads, the way is straight. */
static void add_ending(bw_storage *s)
{
    const size_t last = s->count - 1;
    const double gap = s->free_water - s->water[last];
    s->rise = fmin(s->slope[last] * (1 - s->phi[last]), gap);
    s->bend = s->rise < 0.999 * gap ? gap / (gap - s->rise) : 1000;
    s->rise = gap * (s->bend - 1) / s->bend;
}

/* ---- the material ---- */

static void add_saturation(bw_storage *s, const bw_material *m)
{
    const double highest = s->water[s->count - 1];
    s->full_water = 1000 * bw_material_pores(m);
    if (m->free_saturation.known && m->free_saturation.value > highest)
        s->free_water = m->free_saturation.value;
    if (!(s->free_water > 1.001 * highest)) {
        s->free_water = fmax(FREE_OF_PORES * s->full_water, 1.1 * highest);
        s->estimated_free = true;
    }
    s->full_water = fmax(s->full_water, 1.02 * s->free_water);
}

/* The points without that of dry air, which files add and all curves share. */
static bw_curve humid_points(bw_curve c)
{
    if (c.count == 0 || c.x[0] > 1e-9)
        return c;
    c.x++;
    c.y++;
    c.count--;
    return c;
}

static bw_status too_many(const bw_material *m, bw_error *err)
{
    return bw_fail(err, BW_ERR_DOMAIN, m->file, m->line,
                   "%s has %zu sorption points; the hourly calculation takes "
                   "no more than %d: leave some out",
                   m->name, m->sorption.count, BW_STORAGE_POINTS - 1);
}

static bw_status add_storage(bw_storage *s, const bw_slab *slab,
                             bool allow_missing, bw_error *err)
{
    const bw_material *m = slab->material;
    const bw_curve c = humid_points(m->sorption);
    const bool own = m->sorption.count > 0 &&
                     m->sorption.basis == BW_BASIS_GIVEN;
    add_point(s, 0, 0);
    if (m->wood_kind == BW_SOLID_WOOD && !own)
        add_wood(s);
    else if (c.count == 2 && c.x[1] < 0.999 && c.y[1] > c.y[0] && c.y[0] > 0)
        add_henderson(s, &c);
    else if (c.count >= BW_STORAGE_POINTS)
        return too_many(m, err);
    else if (c.count > 0)
        add_curve(s, &c);
    else if (m->hygroscopic && !allow_missing)
        return bw_fail(err, BW_ERR_DOMAIN, m->file, m->line,
                       "%s is hygroscopic but has no sorption points, so the "
                       "hourly calculation cannot tell how much water it "
                       "holds; give at least two",
                       m->name);
    if (s->count == 1) {
        s->missing_sorption = m->hygroscopic;
        add_point(s, 0.9, INERT_WATER);
    }
    return BW_OK;
}

static void add_transport(bw_storage *s, const bw_slab *slab)
{
    const bw_material *m = slab->material;
    const double d = slab->thickness;
    s->conductivity = slab->resistance > 0 ? d / slab->resistance : 1000;
    s->rule = m->conductivity_factor.known ? m->conductivity_rule
                                           : BW_CONDUCTIVITY_CONSTANT;
    s->factor = m->conductivity_factor.value;
    s->least_sd = 1e-6 * d;
    if (m->water_absorption.known && m->water_absorption.value > 0) {
        const double a = m->water_absorption.value / s->free_water;
        s->d_saturated = BW_DIFFUSIVITY_FACTOR * a * a;
    }
}

static void cavity(bw_storage *s, const bw_slab *slab)
{
    s->density = 1.2;
    s->heat_capacity = 1210;
    add_point(s, 0, 0);
    add_point(s, 0.98, 0.98 * AIR_WATER);
    add_slopes(s);
    s->free_water = 900;
    s->full_water = 1000;
    add_ending(s);
    s->conductivity = slab->thickness / fmax(slab->resistance, 1e-3);
    s->slab.sd_wet = slab->sd_dry;
    s->least_sd = 1e-4;
}

bw_status bw_storage_of_slab(bw_storage *s, const bw_slab *slab,
                             bool allow_missing, bw_error *err)
{
    const bw_material *m = slab->material;
    memset(s, 0, sizeof *s);
    s->slab = *slab;
    if (slab->kind == BW_LAYER_CAVITY) {
        cavity(s, slab);
        return BW_OK;
    }
    if (!m->density.known || !m->specific_heat.known)
        return bw_fail(err, BW_ERR_DOMAIN, m->file, m->line,
                       "%s needs a density and a specific heat for the "
                       "hourly calculation; write density= and "
                       "specific-heat=",
                       m->name);
    s->density = m->density.value;
    s->heat_capacity = m->density.value * m->specific_heat.value;
    BW_TRY(add_storage(s, slab, allow_missing, err));
    add_slopes(s);
    add_saturation(s, m);
    add_ending(s);
    s->at_half = bw_storage_water(s, 0.5);
    s->at_80 = bw_storage_water(s, 0.8);
    add_transport(s, slab);
    return BW_OK;
}

bw_storage bw_storage_of_law(const bw_storage *storage)
{
    bw_storage of = *storage;
    memset(&of.slab, 0, sizeof of.slab);
    of.least_sd = 0;
    of.henderson = of.estimated_free = of.missing_sorption = false;
    return of;
}

/* ---- as a law ---- */

static double law_water(const void *ctx, double phi)
{
    return bw_storage_water(ctx, phi);
}

static double law_diffusivity(const void *ctx, double w)
{
    const bw_storage *s = ctx;
    return s->d_saturated * pow(1000, fmin(w / s->free_water, 1) - 1);
}

static double law_redistribution(const void *ctx, double w)
{
    const bw_storage *s = ctx;
    const double wet = (w - s->at_80) / (s->free_water - s->at_80);
    return law_diffusivity(ctx, w) * pow(REDISTRIBUTION, fmin(fmax(wet, 0), 1));
}

static double law_openness(const void *ctx, double phi, double w)
{
    (void)w;
    const bw_storage *s = ctx;
    return s->slab.thickness / bw_slab_sd(&s->slab, phi, s->least_sd);
}

static double law_conductivity(const void *ctx, double phi, double w)
{
    (void)phi;
    const bw_storage *s = ctx;
    double x = 0;
    if (s->rule == BW_CONDUCTIVITY_F_U)
        x = s->factor * (w - s->at_half) / s->density;
    else if (s->rule == BW_CONDUCTIVITY_F_PSI)
        x = s->factor * (w - s->at_half) / 1000;
    return fmin(s->conductivity * exp(fmin(x, 50)),
                s->conductivity + WATER_LAMBDA);
}

bw_hygro_law bw_storage_law(const bw_storage *s)
{
    return (bw_hygro_law){
        .ctx = s,
        .water = law_water,
        .diffusivity = s->d_saturated > 0 ? law_diffusivity : NULL,
        .redistribution = s->d_saturated > 0 ? law_redistribution : NULL,
        .openness = law_openness,
        .conductivity = law_conductivity,
        .heat_capacity = s->heat_capacity,
        .full_water = s->full_water,
    };
}
