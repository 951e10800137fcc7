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

#include "variable.h"

static const double tolerance = 1e-12; /* of f, innermost layer */
static const double looser = 4.0;      /* each layer further out */
static const double accepted = 1e-9;
static const double accepted_rh = 1e-12;
enum { STEPS_MOST = 200 };

typedef struct nesting {
    const bw_variable *v;
    size_t order[BW_VARIABLE_MOST];
    double least[BW_VARIABLE_MOST], most[BW_VARIABLE_MOST]; /* m, by level */
} nesting;

static const bw_curve *curve_of(const bw_variable *v, size_t slab)
{
    return v->section->slab[slab].sd_curve;
}

/* f of the layer as things stand. */
static double misfit(const bw_variable *v, size_t slab)
{
    double rh = v->mean_rh(v->ctx, slab);
    return log(bw_curve_log(curve_of(v, slab), rh) / v->sd[slab]);
}

static void solve_level(const nesting *n, size_t level);

static double evaluate(const nesting *n, size_t level, double x)
{
    size_t slab = n->order[level];
    n->v->sd[slab] = fmin(fmax(exp(x), n->least[level]), n->most[level]);
    solve_level(n, level + 1);
    return misfit(n->v, slab);
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
    if (level == n->v->count) {
        n->v->draw(n->v->ctx);
        return;
    }
    double enough = tolerance * pow(looser, (double)(n->v->count - 1 - level));
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
    for (size_t i = 0; i < n->v->count; ++i) {
        n->order[i] = n->v->slab[levels[i]];
        const bw_curve *curve = curve_of(n->v, n->order[i]);
        n->least[i] = n->most[i] = curve->y[0];
        for (size_t k = 1; k < curve->count; ++k) {
            n->least[i] = fmin(n->least[i], curve->y[k]);
            n->most[i] = fmax(n->most[i], curve->y[k]);
        }
    }
}

/* On its curve: in sd, or, where the curve is steeper than the profile can be
 * computed, in RH. */
static bool on_curve(const bw_variable *v, size_t slab)
{
    if (fabs(misfit(v, slab)) <= accepted)
        return true;
    double rh = v->mean_rh(v->ctx, slab), sd = v->sd[slab];
    double below = bw_curve_log(curve_of(v, slab), rh - accepted_rh);
    double above = bw_curve_log(curve_of(v, slab), rh + accepted_rh);
    return sd >= fmin(below, above) && sd <= fmax(below, above);
}

static bool solved(const bw_variable *v)
{
    for (size_t i = 0; i < v->count; ++i)
        if (!on_curve(v, v->slab[i]))
            return false;
    return true;
}

/* More layers than can be nested. */
static void take_middle(const bw_variable *v)
{
    for (size_t k = 0; k < v->section->slab_count; ++k)
        if (curve_of(v, k) != NULL)
            v->sd[k] = bw_curve_log(curve_of(v, k), 0.5);
    v->draw(v->ctx);
}

void bw_variable_find(bw_variable *v)
{
    v->count = 0;
    for (size_t k = 0; k < v->section->slab_count; ++k) {
        if (curve_of(v, k) == NULL)
            continue;
        if (v->count < BW_VARIABLE_MOST)
            v->slab[v->count] = k;
        ++v->count;
    }
}

bool bw_variable_solve(const bw_variable *v)
{
    static const unsigned char nestings[6][BW_VARIABLE_MOST] = {
        {0, 1, 2}, {1, 0, 2}, {2, 1, 0}, {0, 2, 1}, {1, 2, 0}, {2, 0, 1},
    };
    static const size_t tries[BW_VARIABLE_MOST + 1] = {0, 1, 2, 6};
    if (v->count == 0)
        return true;
    if (v->count > BW_VARIABLE_MOST) {
        take_middle(v);
        return false;
    }
    nesting n = {.v = v};
    for (size_t t = 0; t < tries[v->count]; ++t) {
        nest(&n, nestings[t]);
        solve_level(&n, 0);
        if (solved(v))
            return true;
    }
    return false;
}
