/* A banded matrix in single precision, factored in its place without exchange
 * of rows: what is stored over what leaves in a step dominates its diagonal, as
 * in blocks.h. Four rows at once, so that what is read serves four times.
 *
 * It is what Newton's method goes by, not what is solved: seven digits of it
 * are more than it needs, and half the memory is half the time.
 *
 * Invariant: outside the band a row holds zeros, as far as `window` goes, so
 * that four rows have one window. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "hour_sheet.h"
#include "wide.h"

enum { ROWS = 4, LANES = 8 };

typedef float eight __attribute__((vector_size(32), aligned(4)));

BW_ALWAYS eight get(const float *x)
{
    eight a;
    memcpy(&a, x, sizeof a);
    return a;
}

static size_t round_up(size_t n, size_t to)
{
    return (n + to - 1) / to * to;
}

bw_status bw_band_make(bw_band *band, bw_arena *arena, size_t n, size_t w,
                       bw_error *err)
{
    const size_t window = round_up(w, LANES);
    *band = (bw_band){.n = n, .w = w, .window = window};
    band->rows = round_up(n, ROWS);
    band->lead = window + ROWS - 1;
    band->width = round_up(2 * window + (size_t)2 * ROWS + LANES, LANES);
    band->a = bw_arena_get(arena, band->rows * band->width + LANES,
                           sizeof *band->a);
    band->x = bw_arena_get(arena, band->rows + 2 * (window + LANES),
                           sizeof *band->x);
    return band->a != NULL && band->x != NULL ? BW_OK : bw_fail_memory(err);
}

void bw_band_clear(bw_band *b)
{
    memset(b->a, 0, b->rows * b->width * sizeof *b->a);
    for (size_t i = b->n; i < b->rows; ++i)
        *bw_band_at(b, i, i) = 1.0F;
}

/* to -= factor[0] row[0] + ... */
BW_ALWAYS void take_four(float *to, const float *const row[ROWS],
                         const float factor[ROWS], size_t count)
{
    for (size_t j = 0; j < count; j += LANES) {
        eight t = get(to + j);
        for (size_t r = 0; r < ROWS; ++r)
            t -= factor[r] * get(row[r] + j);
        memcpy(to + j, &t, sizeof t);
    }
}

/* The four rows from k on among themselves; the diagonal becomes its inverse.
 */
BW_ALWAYS bool pivots(bw_band *b, size_t k)
{
    for (size_t r = 0; r < ROWS; ++r) {
        float *diagonal = bw_band_at(b, k + r, k + r);
        if (!(fabsf(*diagonal) > 0.0F) || !isfinite(*diagonal))
            return false;
        *diagonal = 1.0F / *diagonal;
        for (size_t i = r + 1; i < ROWS; ++i) {
            float *under = bw_band_at(b, k + i, k + r);
            *under *= *diagonal;
            const float *row = diagonal + 1;
            for (size_t j = 0; j < b->window + ROWS; ++j)
                under[1 + j] -= *under * row[j];
        }
    }
    return true;
}

/* A row below: what of the four goes into it. False: nothing. */
BW_ALWAYS bool multipliers(const bw_band *b, size_t k, size_t i,
                           float factor[ROWS])
{
    float *under = bw_band_at(b, i, k);
    bool any = false;
    for (size_t r = 0; r < ROWS; ++r) {
        for (size_t q = 0; q < r; ++q)
            under[r] -= under[q] * *bw_band_at(b, k + q, k + r);
        under[r] *= *bw_band_at(b, k + r, k + r);
        factor[r] = under[r];
        any = any || under[r] != 0.0F;
    }
    return any;
}

BW_WIDE bool bw_band_factor(bw_band *b)
{
    for (size_t k = 0; k < b->rows; k += ROWS) {
        if (!pivots(b, k))
            return false;
        const float *row[ROWS];
        for (size_t r = 0; r < ROWS; ++r)
            row[r] = bw_band_at(b, k + r, k + ROWS);
        const size_t below = k + ROWS + b->w;
        const size_t last = below < b->rows ? below : b->rows;
        for (size_t i = k + ROWS; i < last; ++i) {
            float factor[ROWS];
            if (multipliers(b, k, i, factor))
                take_four(bw_band_at(b, i, k + ROWS), row, factor, b->window);
        }
    }
    return true;
}

BW_ALWAYS float sum_of(eight a)
{
    return ((a[0] + a[4]) + (a[2] + a[6])) + ((a[1] + a[5]) + (a[3] + a[7]));
}

/* Four rows, each so far on from the last, with x. */
BW_ALWAYS void dot_four(float out[ROWS], const float *row, size_t apart,
                        const float *x, size_t count)
{
    eight sum[ROWS] = {{0}};
    for (size_t j = 0; j < count; j += LANES) {
        const eight with = get(x + j);
        for (size_t r = 0; r < ROWS; ++r)
            sum[r] += get(row + r * apart + j) * with;
    }
    for (size_t r = 0; r < ROWS; ++r)
        out[r] = sum_of(sum[r]);
}

BW_ALWAYS void forwards(const bw_band *b, float *x)
{
    const size_t apart = b->width - 1; /* to the next row, the same column */
    for (size_t k = 0; k < b->rows; k += ROWS) {
        float done[ROWS];
        const float *row = b->a + k * b->width + b->lead;
        dot_four(done, row - b->window, apart, x + k - b->window, b->window);
        for (size_t r = 0; r < ROWS; ++r) {
            x[k + r] -= done[r];
            for (size_t q = 0; q < r; ++q)
                x[k + r] -= row[r * apart + q] * x[k + q];
        }
    }
}

BW_ALWAYS void backwards(const bw_band *b, float *x)
{
    const size_t apart = b->width - 1;
    for (size_t k = b->rows; k > 0;) {
        k -= ROWS;
        float done[ROWS];
        const float *row = b->a + k * b->width + b->lead;
        dot_four(done, row + ROWS, apart, x + k + ROWS, b->window);
        for (size_t r = ROWS; r-- > 0;) {
            x[k + r] -= done[r];
            for (size_t q = r + 1; q < ROWS; ++q)
                x[k + r] -= row[r * apart + q] * x[k + q];
            x[k + r] *= row[r * apart + r];
        }
    }
}

BW_WIDE void bw_band_solve(const bw_band *b, double *x)
{
    float *y = b->x + b->window + LANES; /* zeros before it and behind */
    for (size_t i = 0; i < b->n; ++i)
        y[i] = (float)x[i];
    for (size_t i = b->n; i < b->rows; ++i)
        y[i] = 0.0F;
    forwards(b, y);
    backwards(b, y);
    for (size_t i = 0; i < b->n; ++i)
        x[i] = (double)y[i];
}
