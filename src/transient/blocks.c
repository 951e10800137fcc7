#include "blocks.h"

#include <math.h>

/* What a stage leaves over is carried into the next step (solver.h), which
 * may be so short that storage alone must take it up. */
#define STORED_SHARE 10

/* fmin is a call where NaN counts */
static inline double least(double a, double b)
{
    return a < b ? a : b;
}

/* m x */
static inline bw_pair times(const bw_columns *m, bw_pair x)
{
    return m->at[0] * x[0] + m->at[1] * x[1];
}

static inline bw_columns product(const bw_columns *a, const bw_columns *b)
{
    return (bw_columns){{times(a, b->at[0]), times(a, b->at[1])}};
}

/* c -= a b */
static inline void take_product(bw_columns *c, const bw_columns *a,
                                const bw_columns *b)
{
    c->at[0] -= times(a, b->at[0]);
    c->at[1] -= times(a, b->at[1]);
}

/* -a b, of a block by rows */
static inline bw_columns scaled(const double b[4], double a)
{
    return (bw_columns){
        {-a * (bw_pair){b[0], b[2]}, -a * (bw_pair){b[1], b[3]}}};
}

/* The inverse of d; returns the determinant. */
static inline double invert(bw_columns *v, const bw_columns *d)
{
    const bw_pair p = d->at[0], q = d->at[1];
    const double det = p[0] * q[1] - q[0] * p[1];
    const double r = 1 / det;
    v->at[0] = (bw_pair){q[1], -p[1]} * r;
    v->at[1] = (bw_pair){-q[0], p[0]} * r;
    return det;
}

static inline bw_columns diagonal(bw_factor *f, const bw_block *b,
                                  const double m[3], double a)
{
    bw_columns d = scaled(b->diag, a);
    d.at[0] += (bw_pair){m[0], 0};
    d.at[1] += (bw_pair){m[1], m[2]};
    f->size[0] = least(fabs(d.at[0][0]), STORED_SHARE * m[0]);
    f->size[1] = least(fabs(d.at[1][1]), STORED_SHARE * m[2]);
    return d;
}

/* One row: `from` couples it to the row before, `to` to the next one. */
static inline double reduce(bw_factor *f, const bw_factor *before,
                            const bw_block *b, const double from[4],
                            const double to[4], const double m[3], double a)
{
    bw_columns d = diagonal(f, b, m, a);
    f->from = (bw_columns){0};
    if (before != NULL) {
        f->from = scaled(from, a);
        take_product(&d, &f->from, &before->link);
    }
    const double det = invert(&f->inverse, &d);
    const bw_columns ahead = scaled(to, a);
    f->link = product(&f->inverse, &ahead);
    return det;
}

bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                      const double (*m)[3], double a, size_t n)
{
    const size_t middle = n / 2;
    bool fine = true; /* no determinant 0, infinite or NaN */
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
    bw_columns d = diagonal(f, &block[middle], m[middle], a);
    f->from = f->link = (bw_columns){0};
    if (middle > 0) {
        f->from = scaled(block[middle].lower, a);
        take_product(&d, &f->from, &factor[middle - 1].link);
    }
    if (middle + 1 < n) {
        f->link = scaled(block[middle].upper, a);
        take_product(&d, &f->link, &factor[middle + 1].link);
    }
    const double det = invert(&f->inverse, &d);
    return fine && fabs(det) > 0 && isfinite(det);
}

/* y of a row with the right-hand side r */
static inline bw_pair towards(const bw_factor *f, bw_pair r, bw_pair before)
{
    return times(&f->inverse, r - times(&f->from, before));
}

void bw_blocks_solve(const bw_factor *factor, double *x, size_t n)
{
    const size_t middle = n / 2;
    bw_pair low = {0, 0}, high = {0, 0};
    for (size_t i = 0; i < middle; i++) {
        const size_t j = n - 1 - i;
        low = towards(&factor[i], bw_pair_get(&x[2 * i]), low);
        bw_pair_put(&x[2 * i], low);
        if (j > middle) {
            high = towards(&factor[j], bw_pair_get(&x[2 * j]), high);
            bw_pair_put(&x[2 * j], high);
        }
    }
    const bw_factor *f = &factor[middle];
    const bw_pair r = bw_pair_get(&x[2 * middle]) - times(&f->link, high);
    low = high = towards(f, r, low);
    bw_pair_put(&x[2 * middle], low);
    for (size_t i = middle; i-- > 0;) {
        const size_t j = n - 1 - i;
        low = bw_pair_get(&x[2 * i]) - times(&factor[i].link, low);
        bw_pair_put(&x[2 * i], low);
        if (j > middle) {
            high = bw_pair_get(&x[2 * j]) - times(&factor[j].link, high);
            bw_pair_put(&x[2 * j], high);
        }
    }
}
