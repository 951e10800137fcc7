/* Time stepping of a drawing: TR-BDF2 in conserved form, as in solver.h of the
 * folder transient, with a banded matrix that is kept from step to step while
 * Newton's iterations with it contract: making one costs as much as some
 * hundred of them.
 *
 * Invariant: the M that is carried is the right-hand side, so that what is
 * stored and what came in agree to rounding. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "hour_sheet.h"

static const double GAMMA = 0.58578643762690495; /* 2 - sqrt 2 */
static const double D = 0.29289321881345248;     /* gamma/2 */
static const double W = 0.35355339059327376;     /* sqrt(2)/4 */

static const double DEPTH = 0.02;    /* m, as in one dimension */
static const double SHORTEST = 1e-3; /* s */
/* Of the tolerance, what may be left when a stage is solved. */
static const double LEFT = 0.1;
static const double CONTRACTS = 0.5;
/* A matrix made for another length of step serves within this share. */
static const double SAME = 0.3;
/* A step is lengthened where that pays for a new matrix. */
static const double LONGER = 1.2;
enum { MOST_ITERATIONS = 20 };

bw_status bw_sheet_solver_make(bw_sheet_solver *s, const bw_sheet *sheet,
                               bw_arena *arena, bw_error *err)
{
    const size_t m = (2 * sheet->n + 7) / 8 * 8;
    *s = (bw_sheet_solver){
        .sheet = sheet, .tolerance_theta = 0.02, .tolerance_z = 0.001};
    double **part[] = {&s->v,     &s->stored, &s->v0,    &s->v1,
                       &s->rate0, &s->rate1,  &s->rate2, &s->target,
                       &s->held,  &s->x,      &s->slope, &s->last};
    enum { PARTS = sizeof part / sizeof *part };
    double *all = BW_NEW(arena, double, PARTS *m);
    s->slopes = bw_arena_get(arena, sheet->n, sizeof *s->slopes);
    BW_TRY_MEMORY(all != NULL && s->slopes != NULL &&
                      bw_cells_init(&s->cells, &sheet->cells, arena),
                  err);
    for (size_t i = 0; i < PARTS; ++i)
        *part[i] = all + i * m;
    for (size_t e = 0; e < sheet->edge_count; ++e)
        s->extent += 0.5 * sheet->edge[e].length;
    return bw_band_make(&s->matrix, arena, 2 * sheet->n,
                        2 * bw_sheet_reach(sheet) + 1, err);
}

void bw_sheet_start(bw_sheet_solver *s, const double *v, double t)
{
    memcpy(s->v, v, 2 * s->sheet->n * sizeof *v);
    bw_cells_at(&s->sheet->cells, s->v, &s->cells, false);
    bw_wall_stored(&s->sheet->cells, &s->cells, s->stored, NULL);
    s->t = t;
    s->h = 60.0;
    s->matrix_a = 0.0;
    memset(s->slope, 0, 2 * s->sheet->n * sizeof *v);
}

static void look_up(bw_sheet_solver *s, const bw_sheet_weather *weather,
                    bool slopes)
{
    const bw_edge edge = {.redistributes = weather->redistributes};
    bw_cells_under(&s->sheet->cells, &edge, s->v, &s->cells, slopes);
}

static bool make_matrix(bw_sheet_solver *s, const bw_sheet_weather *weather,
                        double a)
{
    const size_t n = s->sheet->n;
    bw_sheet_flow flow;
    bw_band_clear(&s->matrix);
    look_up(s, weather, true);
    bw_sheet_rates(s->sheet, weather, s->v, &s->cells, s->held, &flow,
                   &s->matrix, a);
    bw_wall_stored(&s->sheet->cells, &s->cells, s->held, s->slopes);
    for (size_t i = 0; i < n; ++i) {
        float *heat = bw_band_at(&s->matrix, 2 * i, 2 * i);
        heat[0] += (float)s->slopes[i][0];
        heat[1] += (float)s->slopes[i][1];
        *bw_band_at(&s->matrix, 2 * i + 1, 2 * i + 1) += (float)s->slopes[i][2];
    }
    s->matrix_a = bw_band_factor(&s->matrix) ? a : 0.0;
    ++s->matrices;
    return s->matrix_a > 0.0;
}

/* A value that is sent back as far as it came would go to and fro across a
 * kink, such as where a face stops taking up rain: it goes back half way, as in
 * newton.c of the folder transient. */
static double step_of(double x, double *last, double enough, bool *whole)
{
    static const double BACK = 0.8;
    const double came = *last;
    const bool back = x * came < 0.0 && fabs(x) > BACK * fabs(came) &&
                      fabs(x) > enough;
    *whole = *whole && !back;
    *last = back ? -0.5 * came : x;
    return *last;
}

/* v += x, held where the tables are; returns the largest step in tolerances.
 * *whole: no value went half way. */
static double move(bw_sheet_solver *s, bool *whole)
{
    const double few = LEFT * s->tolerance_theta, dry = LEFT * s->tolerance_z;
    double most = 0.0;
    for (size_t i = 0; i < s->sheet->n; ++i) {
        double *theta = &s->v[2 * i], *z = theta + 1;
        const double *x = &s->x[2 * i];
        const double size = fabs(x[0]) / s->tolerance_theta +
                            fabs(x[1]) / s->tolerance_z;
        most = size > most || !isfinite(size) ? size : most;
        const double heat = step_of(x[0], &s->last[2 * i], few, whole);
        const double water = step_of(x[1], &s->last[2 * i + 1], dry, whole);
        *theta += fmin(fmax(heat, -30.0), 30.0);
        *theta = fmin(fmax(*theta, BW_HUMID_LOW), BW_HUMID_HIGH);
        const double next = *z + fmin(fmax(water, -0.5), 0.5);
        *z = next > 0.0 ? next : 0.1 * *z;
    }
    return isfinite(most) ? most : (double)INFINITY;
}

/* What is left, x, is carried on: more than a cell holds dry would be less than
 * no water, which no state answers, however short the step. */
static bool dries_nothing(const bw_sheet_solver *s)
{
    static const double LEFT_DRY = 0.02; /* as in one dimension */
    const bw_sheet *sheet = s->sheet;
    for (size_t i = 0; i < sheet->n; ++i)
        if (!(fabs(s->x[2 * i + 1]) <=
              LEFT_DRY * sheet->area[i] * sheet->hygro[i]->dry_water))
            return false;
    return true;
}

/* Solves M(v) - a F(v) = target; rate and flow hold F at the solution. */
static bool newton(bw_sheet_solver *s, const bw_sheet_weather *weather,
                   double a, double *rate, bw_sheet_flow *flow)
{
    const size_t m = 2 * s->sheet->n;
    double last = (double)INFINITY, left = last;
    bool fresh = false;
    memset(s->last, 0, m * sizeof *s->last);
    if (!(fabs(s->matrix_a - a) <= SAME * a)) {
        if (!make_matrix(s, weather, a))
            return false;
        fresh = true;
    }
    for (int k = 0; k < MOST_ITERATIONS; ++k) {
        look_up(s, weather, false);
        bw_sheet_rates(s->sheet, weather, s->v, &s->cells, rate, flow, NULL, 0);
        bw_wall_stored(&s->sheet->cells, &s->cells, s->held, NULL);
        for (size_t i = 0; i < m; ++i)
            s->x[i] = s->target[i] + a * rate[i] - s->held[i];
        if (left <= LEFT && dries_nothing(s))
            return true;
        bw_band_solve(&s->matrix, s->x);
        bool whole = true;
        const double size = move(s, &whole);
        ++s->iterations;
        if (!isfinite(size))
            return false;
        /* what comes after it, by how this one is to the last */
        left = size < 0.5 * last && k > 0 ? size * size / (last - size) : size;
        left = whole ? left : HUGE_VAL;
        if (left > LEFT && size > CONTRACTS * last) {
            if (fresh && k > 3 && size > 2.0 * last)
                return false;
            if (!make_matrix(s, weather, a))
                return false;
            fresh = true;
        }
        last = size;
    }
    return false;
}

/* As in one dimension: errors summed over the drawing's extent. */
static double error_of(const bw_sheet_solver *s)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->sheet->n; ++i) {
        const double theta = s->x[2 * i] / s->tolerance_theta;
        const double z = s->x[2 * i + 1] / s->tolerance_z;
        sum += s->sheet->area[i] * (theta * theta + z * z);
    }
    return sqrt(sum / (DEPTH * s->extent));
}

static double stage_value(double first, double half, double last)
{
    return ((first + 4 * half + last) / 6 - W * first - D * last) / W;
}

/* The middle stage sees what takes a parabola in by its mean. */
static void between(bw_sheet_weather *stage, const bw_sheet_weather *first,
                    const bw_sheet_weather *half, const bw_sheet_weather *last)
{
    for (size_t k = 0; k < BW_SHEET_SIDES; ++k) {
        bw_sheet_air *to = &stage->side[k];
        const bw_sheet_air *a = &first->side[k], *b = &half->side[k],
                           *c = &last->side[k];
        to->gain = stage_value(a->gain, b->gain, c->gain);
        to->h = stage_value(a->h, b->h, c->h);
        to->beta = stage_value(a->beta, b->beta, c->beta);
    }
}

static void add_flow(bw_sheet_flow *sum, const bw_sheet_flow *f, double time)
{
    for (size_t k = 0; k < BW_SHEET_SIDES; ++k) {
        sum->vapour[k] += time * f->vapour[k];
        sum->rain[k] += time * f->rain[k];
    }
    sum->leak += time * f->leak;
    sum->ran_off += time * f->ran_off;
    sum->air += time * f->air;
    sum->heat += time * f->heat;
}

typedef struct stages {
    bw_sheet_weather first, half, middle, last;
    bw_sheet_flow flow[3];
} stages;

/* One step of h from v0; error in tolerances. */
static bool try_step(bw_sheet_solver *s, double h, bw_sheet_at *at,
                     const void *ctx, stages *w, double *error)
{
    const size_t m = 2 * s->sheet->n;
    const double a = D * h;
    at(ctx, s->t + GAMMA * h, &w->middle);
    at(ctx, s->t + 0.5 * h, &w->half);
    at(ctx, s->t + h, &w->last);
    between(&w->middle, &w->first, &w->half, &w->last);
    for (size_t i = 0; i < m; ++i) {
        s->target[i] = s->stored[i] + a * s->rate0[i];
        const double guess = s->v0[i] + GAMMA * h * s->slope[i];
        s->v[i] = i % 2 == 0 || guess > 0.0 ? guess : s->v0[i];
    }
    if (!newton(s, &w->middle, a, s->rate1, &w->flow[1]))
        return false;
    for (size_t i = 0; i < m; ++i) {
        s->target[i] = s->stored[i] + W * h * (s->rate0[i] + s->rate1[i]);
        s->v1[i] = s->v[i];
        const double guess = s->v0[i] + (s->v[i] - s->v0[i]) / GAMMA;
        s->v[i] = i % 2 == 0 || guess > 0.0 ? guess : s->v[i];
    }
    if (!newton(s, &w->last, a, s->rate2, &w->flow[2]))
        return false;
    for (size_t i = 0; i < m; ++i)
        s->x[i] = h / 3 *
                  ((4 * W - 1) * s->rate0[i] - s->rate1[i] +
                   2 * D * s->rate2[i]);
    bw_band_solve(&s->matrix, s->x);
    *error = error_of(s);
    return isfinite(*error);
}

static void accept(bw_sheet_solver *s, double h, const stages *w,
                   bw_sheet_flow *flow)
{
    for (size_t i = 0; i < 2 * s->sheet->n; ++i) {
        s->stored[i] += W * h * (s->rate0[i] + s->rate1[i]) +
                        D * h * s->rate2[i];
        s->slope[i] = (s->v[i] - s->v1[i]) / ((1 - GAMMA) * h);
    }
    add_flow(flow, &w->flow[0], W * h);
    add_flow(flow, &w->flow[1], W * h);
    add_flow(flow, &w->flow[2], D * h);
    s->t += h;
    ++s->steps;
}

/* Equal steps to the end, no longer than wanted. */
static double towards(const bw_sheet_solver *s, double end)
{
    const double left = end - s->t;
    return left / ceil(left / s->h - 1e-9);
}

static double next_step(double h, double error)
{
    const double wanted = h * fmin(0.8 / cbrt(fmax(error, 1e-6)), 5.0);
    return wanted > LONGER * h ? wanted : fmin(wanted, h);
}

bw_status bw_sheet_advance(bw_sheet_solver *s, double end, bw_sheet_at *at,
                           const void *ctx, bw_sheet_flow *flow, bw_error *err)
{
    const size_t size = 2 * s->sheet->n * sizeof *s->v;
    stages w;
    while (s->t < end) {
        const double h = towards(s, end), left = end - s->t;
        double error = 0.0;
        memcpy(s->v0, s->v, size);
        at(ctx, s->t, &w.first);
        look_up(s, &w.first, false);
        bw_sheet_rates(s->sheet, &w.first, s->v, &s->cells, s->rate0,
                       &w.flow[0], NULL, 0);
        const bool solved = try_step(s, h, at, ctx, &w, &error);
        if (solved && error <= 1.0) {
            accept(s, h, &w, flow);
            if (h >= left)
                s->t = end;
            s->h = h >= left && h < 0.5 * s->h ? s->h : next_step(h, error);
            continue;
        }
        memcpy(s->v, s->v0, size);
        if (!solved) {
            s->matrix_a = 0.0;
            memset(s->slope, 0, size);
        }
        s->h = solved ? fmax(0.2 * h, 0.8 * h / cbrt(error)) : 0.25 * h;
        ++s->rejected;
        if (!(s->h > SHORTEST))
            return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                           "the hourly calculation of a drawing could not meet "
                           "its tolerance at hour %.2f of the run, however "
                           "short the step",
                           s->t / 3600);
    }
    return BW_OK;
}
