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

/* -a b, of a block by rows */
static inline bw_columns scaled(const double b[4], double a)
{
    return (bw_columns){
        {-a * (bw_pair){b[0], b[2]}, -a * (bw_pair){b[1], b[3]}}};
}

/* What the next row of a chain takes from this one is from link =
 * from (adjoint ahead) / det: multiplied out while the division is under way.
 */
typedef struct chain {
    bw_columns ahead; /* adjoint ahead */
    double per_det;
} chain;

/* d^-1 is the adjoint over the determinant. */
static inline bw_columns adjoint(const bw_columns *d)
{
    const bw_pair p = d->at[0], q = d->at[1];
    return (bw_columns){{{q[1], -p[1]}, {-q[0], p[0]}}};
}

static inline double determinant(const bw_columns *d)
{
    const bw_pair p = d->at[0], q = d->at[1];
    return p[0] * q[1] - q[0] * p[1];
}

static inline bw_columns multiple(const bw_columns *a, double b)
{
    return (bw_columns){{a->at[0] * b, a->at[1] * b}};
}

/* d -= from link */
static inline void take(bw_columns *d, const bw_columns *from, const chain *c)
{
    const bw_columns all = product(from, &c->ahead);
    d->at[0] -= all.at[0] * c->per_det;
    d->at[1] -= all.at[1] * c->per_det;
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

static inline bool is_fine(double det)
{
    return fabs(det) > 0 && isfinite(det);
}

/* One row: `from` couples it to the row before, `to` to the next one. */
static inline bool reduce(bw_factor *f, chain *c, bool first, const bw_block *b,
                          const double from[4], const double to[4],
                          const double m[3], double a)
{
    bw_columns d = diagonal(f, b, m, a);
    const bw_columns back = scaled(from, a), ahead = scaled(to, a);
    if (!first)
        take(&d, &back, c);
    const bw_columns adj = adjoint(&d);
    const double det = determinant(&d);
    c->per_det = 1 / det;
    c->ahead = product(&adj, &ahead);
    f->link = multiple(&c->ahead, c->per_det);
    f->inverse = multiple(&adj, c->per_det);
    f->from = (bw_columns){0};
    if (!first)
        f->from = product(&f->inverse, &back);
    return is_fine(det);
}

bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                      const double (*m)[3], double a, size_t n)
{
    const size_t middle = n / 2;
    bool fine = true; /* no determinant 0, infinite or NaN */
    chain low = {0}, high = {0};
    for (size_t k = 0; k < middle; k++) {
        const size_t i = k, j = n - 1 - k;
        fine &= reduce(&factor[i], &low, k == 0, &block[i], block[i].lower,
                       block[i].upper, m[i], a);
        if (j > middle)
            fine &= reduce(&factor[j], &high, k == 0, &block[j], block[j].upper,
                           block[j].lower, m[j], a);
    }
    bw_factor *f = &factor[middle];
    bw_columns d = diagonal(f, &block[middle], m[middle], a);
    const bw_columns back = scaled(block[middle].lower, a);
    const bw_columns ahead = scaled(block[middle].upper, a);
    if (middle > 0)
        take(&d, &back, &low);
    if (middle + 1 < n)
        take(&d, &ahead, &high);
    const bw_columns adj = adjoint(&d);
    const double det = determinant(&d);
    f->inverse = multiple(&adj, 1 / det);
    f->from = f->link = (bw_columns){0};
    if (middle > 0)
        f->from = product(&f->inverse, &back);
    if (middle + 1 < n)
        f->link = product(&f->inverse, &ahead);
    return fine && is_fine(det);
}

/* y of a row with the right-hand side r */
static inline bw_pair towards(const bw_factor *f, bw_pair r, bw_pair before)
{
    return times(&f->inverse, r) - times(&f->from, before);
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
    const bw_pair r = bw_pair_get(&x[2 * middle]);
    low = high = towards(f, r, low) - times(&f->link, high);
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
