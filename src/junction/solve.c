/* Conjugate gradients, preconditioned by a modified incomplete factorisation
 * without fill, M = (D - L) D^-1 (D - L'), whose dropped fill goes to the
 * diagonal (Gustafsson 1978; from memory, high): iterations grow as the root of
 * the cells along a side. docs/dependencies.md has it beside a library.
 *
 * Invariant: the sum of |b - A x| is at most the tolerance times that of |b|;
 * it is also how far the flows of the drawing are from summing to zero. */

#include "solve.h"

#include <math.h>

#include "fail.h"

static const double kept_of_dropped = 0.999; /* below 1: pivots stay above 0 */

bw_status bw_five_point_make(bw_five_point *out, size_t nx, size_t ny,
                             bw_arena *arena, bw_error *err)
{
    const size_t n = nx * ny;
    *out = (bw_five_point){.nx = nx, .ny = ny};
    double *all = BW_NEW(arena, double, 7 * n);
    if (all == NULL)
        return bw_fail_memory(err);
    out->diagonal = all;
    out->east = all + n;
    out->north = all + 2 * n;
    out->pivot = all + 3 * n;
    out->work = all + 4 * n;
    return BW_OK;
}

/* pivot holds 1/d. */
void bw_five_point_prepare(bw_five_point *s)
{
    const size_t nx = s->nx, n = nx * s->ny;
    for (size_t c = 0; c < n; c++) {
        double d = s->diagonal[c];
        if (c >= 1 && s->east[c - 1] > 0.0)
            d -= s->east[c - 1] * s->pivot[c - 1] *
                 (s->east[c - 1] + kept_of_dropped * s->north[c - 1]);
        if (c >= nx && s->north[c - nx] > 0.0)
            d -= s->north[c - nx] * s->pivot[c - nx] *
                 (s->north[c - nx] + kept_of_dropped * s->east[c - nx]);
        s->pivot[c] = 1.0 / d;
    }
}

/* z = M^-1 r */
static void precondition(const bw_five_point *s, double *z, const double *r)
{
    const size_t nx = s->nx, n = nx * s->ny;
    double before = 0.0; /* of the cell to the left, times its link */
    for (size_t c = 0; c < n; c++) {
        double v = r[c] + before;
        if (c >= nx)
            v += s->north[c - nx] * z[c - nx];
        z[c] = v * s->pivot[c];
        before = s->east[c] * z[c];
    }
    double after = 0.0;
    for (size_t c = n; c-- > 0;) {
        double v = s->east[c] * after;
        if (c + nx < n)
            v += s->north[c] * z[c + nx];
        after = z[c] += v * s->pivot[c];
    }
}

/* y = A x; returns x . y */
static double multiply(const bw_five_point *s, double *y, const double *x)
{
    const size_t nx = s->nx, n = nx * s->ny;
    double sum = 0.0;
    for (size_t c = 0; c < n; c++) {
        double v = s->diagonal[c] * x[c];
        if (c >= 1)
            v -= s->east[c - 1] * x[c - 1];
        if (c + 1 < n)
            v -= s->east[c] * x[c + 1];
        if (c >= nx)
            v -= s->north[c - nx] * x[c - nx];
        if (c + nx < n)
            v -= s->north[c] * x[c + nx];
        y[c] = v;
        sum += x[c] * v;
    }
    return sum;
}

static double dot(const double *a, const double *b, size_t n)
{
    double sum = 0.0;
    for (size_t c = 0; c < n; c++)
        sum += a[c] * b[c];
    return sum;
}

static double total(const double *a, size_t n)
{
    double sum = 0.0;
    for (size_t c = 0; c < n; c++)
        sum += fabs(a[c]);
    return sum;
}

bw_status bw_five_point_solve(const bw_five_point *s, double *x,
                              const double *b, double tolerance, size_t *steps,
                              bw_error *err)
{
    const size_t n = s->nx * s->ny;
    const size_t most = 2000 + 20 * (s->nx + s->ny);
    double *p = s->work, *q = s->work + n, *r = s->work + 2 * n;
    const double enough = tolerance * total(b, n);
    multiply(s, q, x);
    for (size_t c = 0; c < n; c++)
        r[c] = b[c] - q[c];
    precondition(s, p, r);
    double rz = dot(r, p, n);
    for (size_t k = 0; k <= most; k++) {
        if (total(r, n) <= enough)
            return BW_OK;
        const double step = rz / multiply(s, q, p);
        for (size_t c = 0; c < n; c++) {
            x[c] += step * p[c];
            r[c] -= step * q[c];
        }
        precondition(s, q, r);
        const double next = dot(r, q, n), keep = next / rz;
        rz = next;
        for (size_t c = 0; c < n; c++)
            p[c] = q[c] + keep * p[c];
        ++*steps;
        if (!isfinite(rz))
            break;
    }
    return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                   "the heat flow of a drawing was not found within %zu "
                   "iterations",
                   most);
}
