#include "blocks.h"

#include <math.h>

/* What a stage leaves over is carried into the next step (solver.h), which
 * may be so short that storage alone must take it up. */
#define STORED_SHARE 10

/* c -= a b */
static inline void take_product(double c[4], const double a[4],
                                const double b[4])
{
    c[0] -= a[0] * b[0] + a[1] * b[2];
    c[1] -= a[0] * b[1] + a[1] * b[3];
    c[2] -= a[2] * b[0] + a[3] * b[2];
    c[3] -= a[2] * b[1] + a[3] * b[3];
}

static inline void product(double c[4], const double a[4], const double b[4])
{
    c[0] = a[0] * b[0] + a[1] * b[2];
    c[1] = a[0] * b[1] + a[1] * b[3];
    c[2] = a[2] * b[0] + a[3] * b[2];
    c[3] = a[2] * b[1] + a[3] * b[3];
}

static inline void scaled(double c[4], const double b[4], double a)
{
    for (int k = 0; k < 4; k++)
        c[k] = -a * b[k];
}

/* The inverse of d; returns the determinant. */
static inline double invert(double v[4], const double d[4])
{
    const double det = d[0] * d[3] - d[1] * d[2];
    const double r = 1 / det;
    v[0] = d[3] * r;
    v[1] = -d[1] * r;
    v[2] = -d[2] * r;
    v[3] = d[0] * r;
    return det;
}

static inline void diagonal(double d[4], bw_factor *f, const bw_block *b,
                            const double m[3], double a)
{
    scaled(d, b->diag, a);
    d[0] += m[0];
    d[1] += m[1];
    d[3] += m[2];
    f->size[0] = fmin(fabs(d[0]), STORED_SHARE * m[0]);
    f->size[1] = fmin(fabs(d[3]), STORED_SHARE * m[2]);
}

/* One row: `from` couples it to the row before, `to` to the next one. */
static inline double reduce(bw_factor *f, const bw_factor *before,
                            const bw_block *b, const double from[4],
                            const double to[4], const double m[3], double a)
{
    double d[4], ahead[4];
    diagonal(d, f, b, m, a);
    scaled(f->from, from, a);
    if (before != NULL)
        take_product(d, f->from, before->link);
    const double det = invert(f->inverse, d);
    scaled(ahead, to, a);
    product(f->link, f->inverse, ahead);
    return det;
}

bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                      const double (*m)[3], double a, size_t n)
{
    const size_t middle = n / 2;
    bool fine = true;
    for (size_t k = 0; k < middle; k++) {
        const size_t i = k, j = n - 1 - k;
        const double det = reduce(&factor[i], k > 0 ? &factor[i - 1] : NULL,
                                  &block[i], block[i].lower, block[i].upper,
                                  m[i], a);
        fine = fine && fabs(det) > 0 && isfinite(det);
        if (j == middle)
            break;
        const double other = reduce(&factor[j], k > 0 ? &factor[j + 1] : NULL,
                                    &block[j], block[j].upper, block[j].lower,
                                    m[j], a);
        fine = fine && fabs(other) > 0 && isfinite(other);
    }
    bw_factor *f = &factor[middle];
    double d[4];
    diagonal(d, f, &block[middle], m[middle], a);
    scaled(f->from, block[middle].lower, a);
    scaled(f->link, block[middle].upper, a);
    if (middle > 0)
        take_product(d, f->from, factor[middle - 1].link);
    if (middle + 1 < n)
        take_product(d, f->link, factor[middle + 1].link);
    const double det = invert(f->inverse, d);
    return fine && fabs(det) > 0 && isfinite(det);
}

static inline void towards(const bw_factor *f, double *x, const double *before)
{
    double r = x[0], s = x[1];
    if (before != NULL) {
        r -= f->from[0] * before[0] + f->from[1] * before[1];
        s -= f->from[2] * before[0] + f->from[3] * before[1];
    }
    x[0] = f->inverse[0] * r + f->inverse[1] * s;
    x[1] = f->inverse[2] * r + f->inverse[3] * s;
}

static inline void back(const bw_factor *f, double *x, const double *next)
{
    x[0] -= f->link[0] * next[0] + f->link[1] * next[1];
    x[1] -= f->link[2] * next[0] + f->link[3] * next[1];
}

void bw_blocks_solve(const bw_factor *factor, double *x, size_t n)
{
    const size_t middle = n / 2;
    for (size_t k = 0; k < middle; k++) {
        const size_t j = n - 1 - k;
        towards(&factor[k], &x[2 * k], k > 0 ? &x[2 * k - 2] : NULL);
        if (j > middle)
            towards(&factor[j], &x[2 * j], k > 0 ? &x[2 * j + 2] : NULL);
    }
    const bw_factor *f = &factor[middle];
    double *y = &x[2 * middle];
    if (middle + 1 < n) {
        y[0] -= f->link[0] * y[2] + f->link[1] * y[3];
        y[1] -= f->link[2] * y[2] + f->link[3] * y[3];
    }
    towards(f, y, middle > 0 ? y - 2 : NULL);
    for (size_t k = middle; k-- > 0;) {
        const size_t j = n - 1 - k;
        back(&factor[k], &x[2 * k], &x[2 * k + 2]);
        if (j > middle)
            back(&factor[j], &x[2 * j], &x[2 * j - 2]);
    }
}
