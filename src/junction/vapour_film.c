/* Films whose sd follows the humidity: at each pair of nodes sd at the mean RH
 * of the two, found together with the profile of the month's start.
 *
 * With x = ln sd of all pairs the wanted x is a fixed point of
 * x -> ln curve(RH(x)): f(x) = ln curve(RH(x)) - x = 0. Steps are those of
 * Anderson mixing [M-hi], which with one film in a strip are the secant's:
 * the next x is where the f of the last steps, taken linearly, are least. Where
 * that leads away it starts again from the best with shorter steps.
 *
 * In one dimension a root is enclosed; here none is proven to be found, so what
 * does not meet the tolerance is said not to have converged.
 * Invariant: sd is within the ends of its curve. */

#include <math.h>
#include <string.h>

#include "vapour_run.h"

static const double tolerance = 1e-12; /* of f */
static const double accepted = 1e-9;
static const double accepted_rh = 1e-12;
static const double dependent = 1e-8; /* part of a step that is new */
static const double worse = 4.0, shorter = 0.5;
enum { STEPS_MOST = 200 };

typedef struct mixing {
    size_t count, kept;
    double *x, *f, *best, *old_x, *old_f;
    double *dx[BW_FILM_MEMORY], *df[BW_FILM_MEMORY]; /* newest first */
    double *q[BW_FILM_MEMORY]; /* df, made orthogonal, of length 1 */
} mixing;

static mixing lay_out(const bw_vapour_run *run)
{
    mixing m = {.count = run->variables};
    double *next = run->films;
    double **part[] = {&m.x, &m.f, &m.best, &m.old_x, &m.old_f};
    for (size_t i = 0; i < sizeof part / sizeof part[0]; ++i, next += m.count)
        *part[i] = next;
    for (size_t k = 0; k < BW_FILM_MEMORY; ++k, next += 3 * m.count) {
        m.dx[k] = next;
        m.df[k] = next + m.count;
        m.q[k] = next + 2 * m.count;
    }
    return m;
}

/* ---- one profile --------------------------------------------------------- */

static double surface_pressure(const bw_vapour_run *run, int month, size_t node)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    const int at[2] = {nodes->environment[node], nodes->environment2[node]};
    double p = 0.0;
    for (size_t i = 0; i < 2; ++i)
        if (at[i] != BW_NO_ENVIRONMENT && run->open[at[i]])
            p = fmax(p, run->air[at[i]].p[month]);
    return p;
}

bool bw_vapour_solve(bw_vapour_run *run, int month, double seconds)
{
    bw_obstacle *o = &run->obstacle;
    const double *psat = run->out->psat + (size_t)month * run->nodes;
    const double *source = run->source + (size_t)month * run->nodes;
    bool instant = seconds <= 0.0;
    for (size_t n = 0; n < run->nodes; ++n) {
        o->pinned[n] = run->surface[n] || run->left_out[n] ||
                       run->kept_wet[n] || (instant && run->mass[n] > 0.0);
        o->feed[n] = source[n] + (instant ? 0.0 : run->mass[n] / seconds);
        if (o->pinned[n])
            o->p[n] = psat[n];
        if (run->surface[n])
            o->p[n] = fmin(surface_pressure(run, month, n), psat[n]);
    }
    if (!bw_obstacle_solve(o, psat))
        run->sound = false;
    return run->sound;
}

/* ---- the films ----------------------------------------------------------- */

static const bw_curve *curve_of(const bw_vapour_run *run, size_t i)
{
    const bw_film_pair *pair = &run->vapour->nodes.pair[run->variable[i]];
    return run->vapour->grid->junction->film[pair->film].sd_curve;
}

static double mean_rh(const bw_vapour_run *run, int month, size_t i)
{
    const bw_film_pair *pair = &run->vapour->nodes.pair[run->variable[i]];
    const double *p = run->obstacle.p;
    const double *psat = run->out->psat + (size_t)month * run->nodes;
    return 0.5 * (p[pair->a] / psat[pair->a] + p[pair->b] / psat[pair->b]);
}

static double within_curve(const bw_curve *curve, double sd)
{
    double least = curve->y[0], most = curve->y[0];
    for (size_t k = 1; k < curve->count; ++k) {
        least = fmin(least, curve->y[k]);
        most = fmax(most, curve->y[k]);
    }
    return fmin(fmax(sd, least), most);
}

/* Fills f for x; returns the largest of them. */
static double evaluate(bw_vapour_run *run, int month, mixing *m)
{
    for (size_t i = 0; i < m->count; ++i) {
        double sd = within_curve(curve_of(run, i), exp(m->x[i]));
        run->film_sd[run->variable[i]] = sd;
        m->x[i] = log(sd);
    }
    bw_vapour_conduct(run);
    if (!bw_vapour_solve(run, month, 0.0))
        return 0.0;
    double largest = 0.0;
    for (size_t i = 0; i < m->count; ++i) {
        double sd = run->film_sd[run->variable[i]];
        m->f[i] = log(bw_curve_log(curve_of(run, i), mean_rh(run, month, i)) /
                      sd);
        largest = fmax(largest, fabs(m->f[i]));
    }
    return largest;
}

static double dot(const double *a, const double *b, size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; ++i)
        sum += a[i] * b[i];
    return sum;
}

/* Puts the step that was just made first. */
static void remember(mixing *m)
{
    size_t most = m->kept < BW_FILM_MEMORY ? m->kept : BW_FILM_MEMORY - 1;
    double *dx = m->dx[most], *df = m->df[most];
    for (size_t k = most; k > 0; --k) {
        m->dx[k] = m->dx[k - 1];
        m->df[k] = m->df[k - 1];
    }
    m->dx[0] = dx;
    m->df[0] = df;
    m->kept = most + 1;
    for (size_t i = 0; i < m->count; ++i) {
        dx[i] = m->x[i] - m->old_x[i];
        df[i] = m->f[i] - m->old_f[i];
    }
}

/* x moves by what the last steps say, and by `part` of the f they leave. */
static void step(mixing *m, double part)
{
    size_t n = m->count, used = 0, of[BW_FILM_MEMORY] = {0};
    double r[BW_FILM_MEMORY][BW_FILM_MEMORY], gamma[BW_FILM_MEMORY];
    double *left = m->f; /* what the steps leave of f */
    memcpy(m->old_x, m->x, n * sizeof *m->x);
    memcpy(m->old_f, m->f, n * sizeof *m->f);
    for (size_t k = 0; k < m->kept; ++k) {
        double *q = m->q[used], before = sqrt(dot(m->df[k], m->df[k], n));
        memcpy(q, m->df[k], n * sizeof *q);
        for (size_t j = 0; j < used; ++j) {
            r[j][used] = dot(m->q[j], q, n);
            for (size_t i = 0; i < n; ++i)
                q[i] -= r[j][used] * m->q[j][i];
        }
        double after = sqrt(dot(q, q, n));
        if (!(after > dependent * before))
            continue;
        for (size_t i = 0; i < n; ++i)
            q[i] /= after;
        r[used][used] = after;
        gamma[used] = dot(q, left, n);
        for (size_t i = 0; i < n; ++i)
            left[i] -= gamma[used] * q[i];
        of[used++] = k;
    }
    for (size_t k = used; k-- > 0;) {
        for (size_t j = k + 1; j < used; ++j)
            gamma[k] -= r[k][j] * gamma[j];
        gamma[k] /= r[k][k];
        for (size_t i = 0; i < n; ++i)
            m->x[i] -= gamma[k] * m->dx[of[k]][i];
    }
    for (size_t i = 0; i < n; ++i)
        m->x[i] += part * left[i];
}

/* On its curve: in sd, or, where the curve is steeper than the profile can be
 * computed, in RH. */
static bool on_curve(const bw_vapour_run *run, int month, const mixing *m,
                     size_t i)
{
    if (fabs(m->f[i]) <= accepted)
        return true;
    const bw_curve *curve = curve_of(run, i);
    double rh = mean_rh(run, month, i), sd = run->film_sd[run->variable[i]];
    double below = bw_curve_log(curve, rh - accepted_rh);
    double above = bw_curve_log(curve, rh + accepted_rh);
    return sd >= fmin(below, above) && sd <= fmax(below, above);
}

void bw_vapour_profile(bw_vapour_run *run, int month)
{
    if (run->variables == 0) {
        bw_vapour_solve(run, month, 0.0);
        return;
    }
    mixing m = lay_out(run);
    double part = 1.0, least = (double)INFINITY;
    for (size_t i = 0; i < m.count; ++i)
        m.x[i] = log(run->film_sd[run->variable[i]]);
    for (int turn = 0; turn < STEPS_MOST && run->sound; ++turn) {
        double largest = evaluate(run, month, &m);
        if (turn > 0)
            remember(&m);
        if (largest < least) {
            least = largest;
            memcpy(m.best, m.x, m.count * sizeof *m.x);
        }
        if (largest <= tolerance)
            return;
        if (largest > worse * least) {
            m.kept = 0;
            part *= shorter;
            memcpy(m.x, m.best, m.count * sizeof *m.x);
            evaluate(run, month, &m);
        }
        step(&m, part);
    }
    memcpy(m.x, m.best, m.count * sizeof *m.x);
    evaluate(run, month, &m);
    for (size_t i = 0; i < m.count; ++i)
        if (!on_curve(run, month, &m, i))
            run->out->converged = false;
}
