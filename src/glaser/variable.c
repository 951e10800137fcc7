/* Humidity-variable layers: sd at the mean RH of the layer's two faces, found
 * together with the profile.
 *
 * With x = ln sd, f(x) = ln curve(RH(x)) - x is continuous, f >= 0 at the
 * curve's least sd and f <= 0 at its greatest: a root lies between. It is
 * enclosed by secant steps within the bracket, and by halving wherever they
 * do not shorten it enough, so the loop ends. With several layers each one's
 * f is evaluated with the inner ones solved, up to three. There the inner
 * root may jump; then the other nestings are tried, and at last the result is
 * said not to have converged. Invariant: sd within the curve's ends. */

#include <math.h>

#include "run.h"

static const double tolerance = 1e-12; /* of f, innermost layer */
static const double looser = 4.0;      /* each layer further out */
static const double accepted = 1e-9;
static const double accepted_rh = 1e-12;
enum { STEPS_MOST = 200 };

typedef struct nesting {
    bw_run *run;
    int month;
    size_t order[BW_VARIABLE_MOST];
    double least[BW_VARIABLE_MOST], most[BW_VARIABLE_MOST]; /* m, by level */
} nesting;

static const bw_curve *curve_of(const bw_run *run, size_t slab)
{
    return run->section->slab[slab].sd_curve;
}

static double face_mean_rh(const bw_run *run, int month, size_t slab)
{
    const double *psat = run->psat + (size_t)month * run->grid.nodes;
    size_t a = run->grid.face[slab], b = run->grid.face[slab + 1];
    return 0.5 * (run->p[a] / psat[a] + run->p[b] / psat[b]);
}

/* f of the layer as things stand. */
static double misfit(const bw_run *run, int month, size_t slab)
{
    double rh = face_mean_rh(run, month, slab);
    return log(bw_curve_log(curve_of(run, slab), rh) / run->sd[slab]);
}

static void solve_level(const nesting *n, size_t level);

static double evaluate(const nesting *n, size_t level, double x)
{
    size_t slab = n->order[level];
    n->run->sd[slab] = fmin(fmax(exp(x), n->least[level]), n->most[level]);
    solve_level(n, level + 1);
    return misfit(n->run, n->month, slab);
}

/* A point strictly between for the next trial: the secant's, or the middle. */
static double between(double low, double high, double f_low, double f_high,
                      bool halve)
{
    double middle = low + 0.5 * (high - low);
    double x = high - f_high * (high - low) / (f_high - f_low);
    return !halve && x > low && x < high ? x : middle;
}

static void solve_level(const nesting *n, size_t level)
{
    bw_run *run = n->run;
    if (level == run->variable_count) {
        bw_run_set_segments(run);
        bw_profile(run, n->month, true);
        return;
    }
    double enough = tolerance *
                    pow(looser, (double)(run->variable_count - 1 - level));
    double low = log(n->least[level]), high = log(n->most[level]);
    double f_low = evaluate(n, level, low);
    if (f_low <= enough)
        return;
    double f_high = evaluate(n, level, high);
    if (f_high >= -enough)
        return;
    double width = high - low;
    int side = 0;
    for (int step = 0; step < STEPS_MOST; ++step) {
        bool halve = step % 3 == 2 && high - low > 0.5 * width;
        if (step % 3 == 2)
            width = high - low;
        double x = between(low, high, f_low, f_high, halve);
        if (x <= low || x >= high)
            return;
        double f = evaluate(n, level, x);
        if (fabs(f) <= enough)
            return;
        /* the end that stays put twice counts half (Illinois) */
        if (f > 0.0) {
            low = x;
            f_low = f;
            f_high *= side > 0 ? 0.5 : 1.0;
            side = 1;
        } else {
            high = x;
            f_high = f;
            f_low *= side < 0 ? 0.5 : 1.0;
            side = -1;
        }
    }
}

static void nest(nesting *n, const unsigned char *levels)
{
    for (size_t i = 0; i < n->run->variable_count; ++i) {
        n->order[i] = n->run->variable[levels[i]];
        const bw_curve *curve = curve_of(n->run, n->order[i]);
        n->least[i] = n->most[i] = curve->y[0];
        for (size_t k = 1; k < curve->count; ++k) {
            n->least[i] = fmin(n->least[i], curve->y[k]);
            n->most[i] = fmax(n->most[i], curve->y[k]);
        }
    }
}

/* On its curve: in sd, or, where the curve is steeper than the profile can be
 * computed, in RH. */
static bool on_curve(const bw_run *run, int month, size_t slab)
{
    if (fabs(misfit(run, month, slab)) <= accepted)
        return true;
    double rh = face_mean_rh(run, month, slab), sd = run->sd[slab];
    double below = bw_curve_log(curve_of(run, slab), rh - accepted_rh);
    double above = bw_curve_log(curve_of(run, slab), rh + accepted_rh);
    return sd >= fmin(below, above) && sd <= fmax(below, above);
}

static bool solved(const nesting *n)
{
    for (size_t i = 0; i < n->run->variable_count; ++i)
        if (!on_curve(n->run, n->month, n->order[i]))
            return false;
    return true;
}

/* More layers than can be nested: sd in the middle of the humidity range. */
static void take_middle(bw_run *run, int month)
{
    for (size_t k = 0; k < run->grid.slabs; ++k)
        if (curve_of(run, k) != NULL)
            run->sd[k] = bw_curve_log(curve_of(run, k), 0.5);
    run->converged = false;
    bw_run_set_segments(run);
    bw_profile(run, month, true);
}

void bw_variable_solve(bw_run *run, int month)
{
    static const unsigned char nestings[6][BW_VARIABLE_MOST] = {
        {0, 1, 2}, {1, 0, 2}, {2, 1, 0}, {0, 2, 1}, {1, 2, 0}, {2, 0, 1},
    };
    static const size_t tries[BW_VARIABLE_MOST + 1] = {0, 1, 2, 6};
    if (run->variable_count == 0)
        return;
    if (run->variable_count > BW_VARIABLE_MOST) {
        take_middle(run, month);
        return;
    }
    nesting n = {.run = run, .month = month};
    for (size_t t = 0; t < tries[run->variable_count]; ++t) {
        nest(&n, nestings[t]);
        solve_level(&n, 0);
        if (solved(&n))
            return;
    }
    run->converged = false;
}
