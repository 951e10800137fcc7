/* Conjugate gradients, preconditioned by a modified incomplete factorisation
 * without fill, M = (D - L) D^-1 (D - L'), whose dropped fill goes to the
 * diagonal (Gustafsson 1978; from memory, high): iterations grow as the root of
 * the cells along a side. What blocks of cells have in common is taken out of
 * the error after it, z = M^-1 r + Q (r - A M^-1 r) (deflation; Tang, Nabben,
 * Vuik, Erlangga 2009, "A-DEF2"; from memory, medium), so that parts that
 * hardly touch the rest cost no more. docs/dependencies.md has it beside a
 * library.
 *
 * Invariant: the sum of |b - A x| is at most the tolerance times that of |b|;
 * it is also how far the flows of the drawing are from summing to zero. */

#include "solve.h"

#include <math.h>

#include "coarse.h"
#include "fail.h"

enum { PATIENCE = 250 }; /* steps; ordinary drawings take fewer */

static const double kept_of_dropped = 0.999; /* below 1: pivots stay above 0 */

bw_status bw_five_point_make(bw_five_point *out, size_t nx, size_t ny,
                             bw_arena *arena, bw_error *err)
{
    const size_t n = nx * ny;
    *out = (bw_five_point){.nx = nx, .ny = ny};
    double *all = BW_NEW(arena, double, 8 * n);
    BW_TRY_MEMORY(all != NULL, err);
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
static void neighbours(const bw_five_point *s, double *z, const double *r)
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

/* t: scratch */
static void precondition(const bw_five_point *s, double *z, const double *r,
                         double *t)
{
    const size_t n = s->nx * s->ny;
    neighbours(s, z, r);
    if (s->coarse == NULL)
        return;
    multiply(s, t, z);
    for (size_t c = 0; c < n; c++)
        t[c] = r[c] - t[c];
    bw_coarse_add(s->coarse, z, t, n);
}

/* r = b - A x */
static void remainder_of(const bw_five_point *s, double *r, const double *b,
                         const double *x)
{
    multiply(s, r, x);
    for (size_t c = 0; c < s->nx * s->ny; c++)
        r[c] = b[c] - r[c];
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

/* Was it found within so many steps? */
static bool search(const bw_five_point *s, double *x, const double *b,
                   double tolerance, size_t most, size_t *steps)
{
    const size_t n = s->nx * s->ny;
    double *p = s->work, *q = s->work + n, *r = s->work + 2 * n;
    double *scratch = s->work + 3 * n;
    const double enough = tolerance * total(b, n);
    remainder_of(s, r, b, x);
    if (s->coarse != NULL) {
        bw_coarse_add(s->coarse, x, r, n);
        remainder_of(s, r, b, x);
    }
    precondition(s, p, r, scratch);
    double rz = dot(r, p, n);
    for (size_t k = 0; k <= most; k++) {
        if (total(r, n) <= enough)
            return true;
        const double step = rz / multiply(s, q, p);
        for (size_t c = 0; c < n; c++) {
            x[c] += step * p[c];
            r[c] -= step * q[c];
        }
        precondition(s, q, r, scratch);
        const double next = dot(r, q, n), keep = next / rz;
        rz = next;
        for (size_t c = 0; c < n; c++)
            p[c] = q[c] + keep * p[c];
        ++*steps;
        if (!isfinite(rz))
            break;
    }
    return false;
}

bw_status bw_five_point_solve(const bw_five_point *s, double *x,
                              const double *b, double tolerance, size_t *steps,
                              bool *slow, bw_error *err)
{
    const size_t most = 2000 + 20 * (s->nx + s->ny);
    const bool first = slow != NULL && s->coarse == NULL;
    const bool found = search(s, x, b, tolerance, first ? PATIENCE : most,
                              steps);
    if (slow != NULL)
        *slow = first && !found;
    if (found || first)
        return BW_OK;
    return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                   "the heat flow of a drawing was not found within %zu "
                   "iterations",
                   most);
}
