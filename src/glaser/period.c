/* Period balance after DIN 4108-3 annex A [from memory, high confidence].
 *
 *   M_c  = t_c d0 [(p_i - p_c)/(s_T - s_c) - (p_c - p_e)/s_c]
 *   M_ev = t_ev d0 (p_s - p_v) [1/s_c + 1/(s_T - s_c)],  s = cumulative sd
 *
 * No layer is cut: planes are layer faces. Over s the vapour pressure of the
 * condensation period is the taut string between p_e and p_i that nowhere
 * exceeds saturation at a face: the lower convex hull. Hull vertices condense.
 *
 *   none       M_ev at the critical plane, the face with the highest RH (the
 *              middle of the layer where there is only one)
 *   one plane  as above
 *   two planes with a face between them below saturation, or with a membrane
 *              or cavity, which holds no water, between them: the outer one
 *              dries outwards, the inner one inwards, nothing passes between
 *              while both are wet; when one is dry the other dries both ways.
 *              The one that dries last carries the reserve.
 *   zone       neighbouring faces of solid layers at saturation: saturation
 *              pressure is a curve bent upwards within a layer, so the chord
 *              between its faces lies above it and all between is saturated.
 *              M_c from the two tangents that bound the zone, M_ev from its
 *              middle.
 * Anything else (three planes, a zone and a plane) is not assessed.
 *
 * Invariants: M_c >= 0; the section listed the other way, with its boundary
 * the other way, gives the same masses. */

#include <math.h>
#include <stdio.h>

#include "arena.h"
#include "bothways/air.h"
#include "bothways/glaser.h"
#include "fail.h"
#include "taut.h"
#include "temperatures.h"
#include "variable.h"

/* A longer sd than this is as good as tight [m] (vapour-tight layers are of
 * the order of 1e5 m in ISO 13788). */
static const double tight_sd = 1e6;
/* Faces nearer than this part of s_T are one face. */
static const double same_face = 1e-12;

typedef struct work {
    const bw_section *section;
    bw_arena arena;
    size_t slabs;
    double p_e, p_i;              /* at the surfaces, at most saturated */
    double *theta, *psat, *s, *p; /* at slabs + 1 faces */
    double *sd, *humid;           /* of slabs; mean RH with dry values */
    bool *wet;                    /* takes the wet-cup value */
    bw_vertex *hull;              /* faces that touch, and both surfaces */
    size_t hull_count;
    bw_variable variable;
} work;

bw_period_climate bw_period_climate_din4108(bw_element element)
{
    const double ninety_days = 90.0 * 86400.0;
    return (bw_period_climate){
        .condensation = {.theta_e = -5.0,
                         .p_e = 321.0,
                         .theta_i = 20.0,
                         .p_i = 1168.0},
        .condensation_seconds = ninety_days,
        .evaporation_pressure = 1200.0,
        .evaporation_saturation = element == BW_ELEMENT_ROOF ? 2000.0 : 1700.0,
        .evaporation_seconds = ninety_days,
        .source = "DIN 4108-3:2014/2018 annex A, block climate (from memory, "
                  "high confidence)"};
}

/* ---- the vapour profile ---------------------------------------------- */

static double face_pressure(const work *w, size_t k)
{
    if (k == 0)
        return w->p_e;
    return k == w->slabs ? w->p_i : w->psat[k];
}

static void add_to_hull(work *w, size_t k)
{
    size_t last = w->hull_count > 0 ? w->hull[w->hull_count - 1].node : k;
    w->hull_count = bw_taut_add(w->hull, w->hull_count, k, face_pressure(w, k),
                                w->s[k] - w->s[last]);
}

/* Is there sd between face k and both surfaces? */
static bool inside(const work *w, size_t k)
{
    double total = w->s[w->slabs];
    return w->s[k] > same_face * total && w->s[k] < (1.0 - same_face) * total;
}

/* The taut string for the sd now in w->sd: s, hull, p. */
static void profile(void *ctx)
{
    work *w = ctx;
    size_t n = w->slabs;
    for (size_t i = 0; i < n; i++)
        w->s[i + 1] = w->s[i] + fmin(w->sd[i], tight_sd);
    w->hull_count = 0;
    add_to_hull(w, 0);
    for (size_t k = 1; k < n; k++) {
        if (!inside(w, k))
            continue;
        size_t colder = k; /* of faces with no sd between them */
        while (k + 1 < n && w->s[k + 1] - w->s[k] <= same_face * w->s[n]) {
            k++;
            if (w->psat[k] < w->psat[colder])
                colder = k;
        }
        add_to_hull(w, colder);
    }
    add_to_hull(w, n);
    for (size_t v = 0, k = 0; k <= n; k++) {
        while (v + 2 < w->hull_count && w->s[k] > w->s[w->hull[v + 1].node])
            v++;
        size_t a = w->hull[v].node, c = w->hull[v + 1].node;
        double pa = face_pressure(w, a), pc = face_pressure(w, c);
        double part = (w->s[k] - w->s[a]) / (w->s[c] - w->s[a]);
        w->p[k] = pa + fmin(fmax(part, 0.0), 1.0) * (pc - pa);
    }
}

static double mean_rh(const void *ctx, size_t slab)
{
    const work *w = ctx;
    return 0.5 *
           (w->p[slab] / w->psat[slab] + w->p[slab + 1] / w->psat[slab + 1]);
}

static bool make(work *w, const bw_section *section, const bw_boundary *b)
{
    size_t n = section->slab_count;
    w->section = section;
    w->slabs = n;
    w->theta = BW_NEW(&w->arena, double, n + 1);
    w->psat = BW_NEW(&w->arena, double, n + 1);
    w->s = BW_NEW(&w->arena, double, n + 1);
    w->p = BW_NEW(&w->arena, double, n + 1);
    w->sd = BW_NEW(&w->arena, double, n + 1);
    w->humid = BW_NEW(&w->arena, double, n + 1);
    w->wet = BW_NEW(&w->arena, bool, n + 1);
    w->hull = BW_NEW(&w->arena, bw_vertex, n + 2);
    if (w->theta == NULL || w->psat == NULL || w->s == NULL || w->p == NULL ||
        w->sd == NULL || w->humid == NULL || w->wet == NULL || w->hull == NULL)
        return false;
    bw_temperature_profile(w->theta, section, b->theta_e, b->theta_i);
    for (size_t k = 0; k <= n; k++)
        w->psat[k] = bw_saturation_pressure(w->theta[k]);
    w->p_e = fmin(b->p_e, w->psat[0]);
    w->p_i = fmin(b->p_i, w->psat[n]);
    w->variable = (bw_variable){.section = section,
                                .sd = w->sd,
                                .draw = profile,
                                .mean_rh = mean_rh,
                                .ctx = w};
    bw_variable_find(&w->variable);
    return true;
}

/* The choice between dry and wet values is made once, from the profile with
 * dry values; then the profile is computed with what was chosen. */
static bool choose_and_solve(work *w, bw_mu_choice mu)
{
    bool found = true;
    for (size_t i = 0; i < w->slabs; i++)
        w->sd[i] = w->section->slab[i].sd_dry;
    if (bw_mu_by_humidity(w->section, mu)) {
        found = bw_variable_solve(&w->variable);
        profile(w);
        for (size_t i = 0; i < w->slabs; i++)
            w->humid[i] = mean_rh(w, i);
    }
    bw_mu_choose(w->wet, w->sd, w->section, mu, w->humid);
    found = bw_variable_solve(&w->variable) && found;
    profile(w);
    return found;
}

/* ---- the balance ------------------------------------------------------- */

/* Evaporation rate from s for the outward and the inward side [kg/m2 s]. */
typedef struct ways {
    double out, in;
} ways;

static ways evaporation(const work *w, const bw_period_climate *c, double s)
{
    double drive = BW_DELTA_0 *
                   (c->evaporation_saturation - c->evaporation_pressure);
    return (ways){drive / s, drive / (w->s[w->slabs] - s)};
}

static double slope(const work *w, size_t a, size_t b)
{
    return (face_pressure(w, b) - face_pressure(w, a)) / (w->s[b] - w->s[a]);
}

static bw_period_plane plane_at_face(const work *w, size_t k)
{
    return (bw_period_plane){.at = {.slab = k - 1,
                                    .depth = w->section->slab[k - 1].thickness,
                                    .layer_face = true},
                             .sd_from_outside = w->s[k]};
}

static void no_plane(bw_period_result *r, const work *w,
                     const bw_period_climate *c)
{
    size_t critical = 0;
    for (size_t k = 1; k < w->slabs; k++)
        if (inside(w, k) &&
            (critical == 0 ||
             w->p[k] / w->psat[k] > w->p[critical] / w->psat[critical]))
            critical = k;
    r->which = BW_PERIOD_NONE;
    r->plane_count = 1;
    if (critical > 0) {
        r->plane[0] = plane_at_face(w, critical);
    } else { /* all sd is in one slab */
        size_t i = 0;
        while (i + 1 < w->slabs && w->s[i + 1] <= same_face * w->s[w->slabs])
            i++;
        r->plane[0] = (bw_period_plane){
            .at = {.slab = i, .depth = 0.5 * w->section->slab[i].thickness},
            .sd_from_outside = 0.5 * w->s[w->slabs]};
    }
    ways rate = evaporation(w, c, r->plane[0].sd_from_outside);
    r->plane[0].evaporable = c->evaporation_seconds * (rate.out + rate.in);
}

static void one_plane(bw_period_result *r, const work *w,
                      const bw_period_climate *c)
{
    ways rate = evaporation(w, c, w->s[w->hull[1].node]);
    r->which = BW_PERIOD_ONE_PLANE;
    r->plane[0].evaporable = c->evaporation_seconds * (rate.out + rate.in);
}

/* Time until a plane is dry; never, if nothing evaporates. */
static double time_to_dry(double mass, double rate)
{
    return rate > 0.0 ? mass / rate : HUGE_VAL;
}

static void two_planes(bw_period_result *r, const work *w,
                       const bw_period_climate *c)
{
    bw_period_plane *outer = &r->plane[0], *inner = &r->plane[1];
    ways a = evaporation(w, c, outer->sd_from_outside);
    ways b = evaporation(w, c, inner->sd_from_outside);
    double t = c->evaporation_seconds;
    double outer_dry = time_to_dry(outer->condensed, a.out);
    double inner_dry = time_to_dry(inner->condensed, b.in);
    r->which = BW_PERIOD_TWO_PLANES;
    outer->evaporable = a.out * t;
    inner->evaporable = b.in * t;
    if (outer_dry < t && outer_dry <= inner_dry) {
        outer->evaporable = outer->condensed;
        inner->evaporable += b.out * (t - outer_dry);
    } else if (inner_dry < t) {
        inner->evaporable = inner->condensed;
        outer->evaporable += a.in * (t - inner_dry);
    }
}

static void zone(bw_period_result *r, const work *w, const bw_period_climate *c)
{
    ways rate = evaporation(
        w, c,
        0.5 * (r->plane[0].sd_from_outside + r->plane[1].sd_from_outside));
    r->which = BW_PERIOD_ZONE;
    r->plane[0].evaporable = r->plane[1].evaporable = 0.5 *
                                                      c->evaporation_seconds *
                                                      (rate.out + rate.in);
}

/* The edges of what condenses; between two of them a straight chord. */
static void set_planes(bw_period_result *r, const work *w, double seconds)
{
    size_t last = w->hull_count - 2,
           edge[2] = {w->hull[1].node, w->hull[last].node};
    r->plane_count = last > 1 ? 2 : 1;
    double outside = slope(w, 0, edge[0]), inside_slope;
    for (size_t j = 0; j < r->plane_count; j++) {
        bool innermost = j + 1 == r->plane_count;
        inside_slope = innermost ? slope(w, edge[j], w->slabs)
                                 : slope(w, edge[0], edge[1]);
        r->plane[j] = plane_at_face(w, edge[j]);
        r->plane[j].condensed = fmax(0.0, seconds * BW_DELTA_0 *
                                              (inside_slope - outside));
        outside = inside_slope;
    }
}

/* Is every slab with sd between two faces solid? */
static bool solid_between(const work *w, size_t a, size_t b)
{
    for (size_t i = a; i < b; i++)
        if (w->section->slab[i].kind != BW_LAYER_SOLID &&
            w->sd[i] > same_face * w->s[w->slabs])
            return false;
    return true;
}

/* Do the planes follow each other face by face through solid layers? */
static bool is_zone(const work *w)
{
    for (size_t j = 1; j + 2 < w->hull_count; j++) {
        size_t a = w->hull[j].node, b = w->hull[j + 1].node;
        if (!solid_between(w, a, b))
            return false;
        for (size_t k = a + 1; k < b; k++)
            if (w->s[k] - w->s[a] > same_face * w->s[w->slabs] &&
                w->s[b] - w->s[k] > same_face * w->s[w->slabs])
                return false;
    }
    return true;
}

static void balance(bw_period_result *r, const work *w,
                    const bw_period_climate *c)
{
    size_t planes = w->hull_count - 2;
    r->assessed = true;
    if (planes > 0)
        set_planes(r, w, c->condensation_seconds);
    if (planes == 0) {
        no_plane(r, w, c);
    } else if (planes == 1) {
        one_plane(r, w, c);
    } else if (is_zone(w)) {
        zone(r, w, c);
    } else if (planes == 2) {
        two_planes(r, w, c);
    } else {
        r->which = BW_PERIOD_TWO_PLANES;
        r->assessed = false;
        snprintf(r->reason, sizeof r->reason,
                 "water at %zu separate planes; the period balance knows two",
                 planes);
    }
    for (size_t j = 0; j < r->plane_count; j++) {
        r->condensed += r->plane[j].condensed;
        r->evaporable += r->plane[j].evaporable;
    }
    r->reserve = r->evaporable - r->condensed;
}

/* Of the places the one that could lose least, kept wet. */
static void charge_places(bw_period_result *r, const work *w,
                          const bw_period_climate *c, const bw_plane_at *place,
                          size_t count)
{
    double least = HUGE_VAL;
    for (size_t i = 0; i < count; i++) {
        size_t k = place[i].slab + 1;
        if (!place[i].layer_face || k >= w->slabs || !inside(w, k))
            continue;
        ways rate = evaporation(w, c, w->s[k]);
        double loss = c->evaporation_seconds * (rate.out + rate.in);
        if (!(loss < least))
            continue;
        least = loss;
        if (r->which == BW_PERIOD_NONE) {
            r->plane[0] = plane_at_face(w, k);
            r->plane[0].evaporable = r->reserve = loss;
        }
    }
    r->reserve = fmin(r->reserve, least);
    r->evaporable = r->reserve + r->condensed;
}

/* What the method has no answer for, before any profile. */
static const char *beyond(const bw_section *section)
{
    size_t variable = 0;
    double sd = 0.0;
    for (size_t i = 0; i < section->slab_count; i++) {
        if (section->slab[i].sd_curve != NULL)
            variable++;
        sd += fmin(section->slab[i].sd_dry, section->slab[i].sd_wet);
    }
    if (variable > BW_VARIABLE_MOST)
        return "more than three humidity-variable layers";
    if (section->slab_count == 0 || !(sd > 0.0))
        return "the section has no vapour resistance";
    return NULL;
}

bw_status bw_period_balance(bw_period_result *out, const bw_section *section,
                            const bw_period_climate *climate, bw_mu_choice mu,
                            bw_error *err)
{
    return bw_period_balance_at(out, section, climate, mu, NULL, 0, err);
}

bw_status bw_period_balance_at(bw_period_result *out, const bw_section *section,
                               const bw_period_climate *climate,
                               bw_mu_choice mu, const bw_plane_at *place,
                               size_t place_count, bw_error *err)
{
    bw_period_result r = {.which = BW_PERIOD_NONE};
    const char *why_not = beyond(section);
    if (why_not != NULL) {
        snprintf(r.reason, sizeof r.reason, "%s", why_not);
        *out = r;
        return BW_OK;
    }
    work w = {0};
    if (!make(&w, section, &climate->condensation)) {
        bw_arena_release(&w.arena);
        return bw_fail_memory(err);
    }
    if (choose_and_solve(&w, mu))
        balance(&r, &w, climate);
    else
        snprintf(r.reason, sizeof r.reason,
                 "no common state of the humidity-variable layers was found");
    if (r.assessed && place_count > 0)
        charge_places(&r, &w, climate, place, place_count);
    bw_arena_release(&w.arena);
    *out = r;
    return BW_OK;
}
