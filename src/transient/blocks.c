#include "blocks.h"

#include <math.h>

#include "pair.h"

/* What a stage leaves over is carried into the next step (solver.h), which
 * may be so short that storage alone must take it up. */
enum { STORED_SHARE = 10 };

/* Two pairs side by side */
BW_ALWAYS bw_four beside(const double *low, const double *high)
{
    return __builtin_shufflevector(bw_pair_get(low), bw_pair_get(high), 0, 1, 2,
                                   3);
}

/* The first or the second of each pair, in both places. */
BW_ALWAYS bw_four firsts(bw_four a)
{
    return __builtin_shufflevector(a, a, 0, 0, 2, 2);
}

BW_ALWAYS bw_four seconds(bw_four a)
{
    return __builtin_shufflevector(a, a, 1, 1, 3, 3);
}

/* Each pair in the place of the other. */
BW_ALWAYS bw_four exchanged(bw_four a)
{
    return __builtin_shufflevector(a, a, 2, 3, 0, 1);
}

/* m x */
BW_ALWAYS bw_four times(const bw_columns *m, bw_four x)
{
    return m->at[0] * firsts(x) + m->at[1] * seconds(x);
}

BW_ALWAYS bw_columns product(const bw_columns *a, const bw_columns *b)
{
    return (bw_columns){{times(a, b->at[0]), times(a, b->at[1])}};
}

BW_ALWAYS bw_columns multiple(const bw_columns *a, bw_four b)
{
    return (bw_columns){{a->at[0] * b, a->at[1] * b}};
}

/* -a b, of two blocks by rows */
BW_ALWAYS bw_columns scaled(const double *low, const double *high, double a)
{
    const bw_four x = beside(low, high), y = beside(low + 2, high + 2);
    return (bw_columns){{-a * __builtin_shufflevector(x, y, 0, 4, 2, 6),
                         -a * __builtin_shufflevector(x, y, 1, 5, 3, 7)}};
}

/* What the next row of a chain takes from this one is from link =
 * from (adjoint ahead) / det: multiplied out while the division is under way.
 */
typedef struct chain {
    bw_columns ahead; /* adjoint ahead */
    bw_four per_det;
} chain;

/* d^-1 is the adjoint over the determinant. */
BW_ALWAYS bw_columns adjoint(const bw_columns *d)
{
    const bw_four p = d->at[0], q = d->at[1];
    const bw_four first = {1, -1, 1, -1};
    return (bw_columns){{first * __builtin_shufflevector(q, p, 1, 5, 3, 7),
                         -first * __builtin_shufflevector(q, p, 0, 4, 2, 6)}};
}

BW_ALWAYS bw_four determinant(const bw_columns *d)
{
    const bw_four p = d->at[0], q = d->at[1];
    return firsts(p) * seconds(q) - firsts(q) * seconds(p);
}

/* d -= from link */
BW_ALWAYS void take(bw_columns *d, const bw_columns *from, const chain *c)
{
    const bw_columns all = product(from, &c->ahead);
    d->at[0] -= all.at[0] * c->per_det;
    d->at[1] -= all.at[1] * c->per_det;
}

/* Where the two chains are. */
typedef struct place {
    const bw_block *low, *high;
    const double *m_low, *m_high;
} place;

BW_ALWAYS bw_columns diagonal(bw_factor *f, const place *at, double a)
{
    const double *m = at->m_low, *k = at->m_high;
    const bw_four stored = {m[0], m[2], k[0], k[2]};
    bw_columns d = scaled(at->low->diag, at->high->diag, a);
    d.at[0] += (bw_four){m[0], 0, k[0], 0};
    d.at[1] += (bw_four){m[1], m[2], k[1], k[2]};
    const bw_four own = __builtin_shufflevector(d.at[0], d.at[1], 0, 5, 2, 7);
    f->size = bw_four_lesser(bw_four_size(own), STORED_SHARE * stored);
    return d;
}

/* A row of each chain. Returns the determinants. */
BW_ALWAYS bw_four reduce(bw_factor *f, chain *c, bool first, const place *at,
                         double a)
{
    bw_columns d = diagonal(f, at, a);
    const bw_columns back = scaled(at->low->lower, at->high->upper, a);
    const bw_columns ahead = scaled(at->low->upper, at->high->lower, a);
    if (!first)
        take(&d, &back, c);
    const bw_columns adj = adjoint(&d);
    const bw_four det = determinant(&d);
    c->per_det = 1 / det;
    c->ahead = product(&adj, &ahead);
    f->link = multiple(&c->ahead, c->per_det);
    f->inverse = multiple(&adj, c->per_det);
    f->from = (bw_columns){0};
    if (!first)
        f->from = product(&f->inverse, &back);
    return det;
}

BW_ALWAYS bw_which is_fine(bw_four det)
{
    const bw_four none = {0, 0, 0, 0};
    return (bw_four_size(det) > none) & (bw_four_size(det) < none + HUGE_VAL);
}

/* The middle row, in the places of the first chain. */
BW_ALWAYS bw_four reduce_middle(bw_factor *f, const chain *low, chain high,
                                bool has_low, bool has_high, const place *at,
                                double a)
{
    bw_columns d = diagonal(f, at, a);
    const bw_columns back = scaled(at->low->lower, at->low->lower, a);
    const bw_columns ahead = scaled(at->low->upper, at->low->upper, a);
    high.ahead = (bw_columns){
        {exchanged(high.ahead.at[0]), exchanged(high.ahead.at[1])}};
    high.per_det = exchanged(high.per_det);
    if (has_low)
        take(&d, &back, low);
    if (has_high)
        take(&d, &ahead, &high);
    const bw_columns adj = adjoint(&d);
    const bw_four det = determinant(&d);
    f->inverse = multiple(&adj, 1 / det);
    f->from = f->link = (bw_columns){0};
    if (has_low)
        f->from = product(&f->inverse, &back);
    if (has_high)
        f->link = product(&f->inverse, &ahead);
    return det;
}

/* Of an even number of rows the first chain has one more: the other's places
 * count for nothing in it. */
BW_WIDE bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                              const double (*m)[3], double a, size_t n)
{
    const size_t middle = n / 2, both = (n - 1) / 2;
    bw_which fine = {-1, -1, -1, -1}; /* no determinant 0, infinite or NaN */
    chain low = {0}, high;
    for (size_t k = 0; k < both; k++) {
        const size_t j = n - 1 - k;
        const place at = {&block[k], &block[j], m[k], m[j]};
        fine &= is_fine(reduce(&factor[k], &low, k == 0, &at, a));
    }
    high = low;
    bw_which last = fine;
    if (both < middle) {
        const place at = {&block[both], &block[both], m[both], m[both]};
        last &= is_fine(reduce(&factor[both], &low, both == 0, &at, a));
    }
    const place at = {&block[middle], &block[middle], m[middle], m[middle]};
    last &= is_fine(reduce_middle(&factor[middle], &low, high, middle > 0,
                                  both > 0, &at, a));
    return fine[2] & last[0];
}

/* y of two rows with the right-hand sides r */
BW_ALWAYS bw_four towards(const bw_factor *f, bw_four r, bw_four before)
{
    return times(&f->inverse, r) - times(&f->from, before);
}

BW_ALWAYS void put(double *low, double *high, bw_four x)
{
    bw_pair_put(low, __builtin_shufflevector(x, x, 0, 1));
    bw_pair_put(high, __builtin_shufflevector(x, x, 2, 3));
}

BW_WIDE void bw_blocks_solve(const bw_factor *factor, double *x, size_t n)
{
    const size_t middle = n / 2, both = (n - 1) / 2;
    double *end = &x[2 * (n - 1)], *mid = &x[2 * middle];
    bw_four now = {0, 0, 0, 0}, high;
    for (size_t k = 0; k < both; k++) {
        now = towards(&factor[k], beside(&x[2 * k], end - 2 * k), now);
        put(&x[2 * k], end - 2 * k, now);
    }
    high = exchanged(now);
    double *one = &x[2 * both], unused[2];
    if (both < middle) {
        now = towards(&factor[both], beside(one, one), now);
        put(one, unused, now);
    }
    now = towards(&factor[middle], beside(mid, mid), now) -
          times(&factor[middle].link, high);
    put(mid, unused, now);
    now = __builtin_shufflevector(now, now, 0, 1, 0, 1);
    if (both < middle) {
        const bw_four y = beside(one, one);
        put(one, unused, y - times(&factor[both].link, now));
        now = beside(one, mid);
    }
    for (size_t k = both; k-- > 0;) {
        const bw_four y = beside(&x[2 * k], end - 2 * k);
        now = y - times(&factor[k].link, now);
        put(&x[2 * k], end - 2 * k, now);
    }
}
