/* A banded matrix, factored in its place without exchange of rows: what is
 * stored over what leaves in a step dominates its diagonal, as in blocks.h. */

#include <math.h>

#include "fail.h"
#include "hour_sheet.h"
#include "wide.h"

bw_status bw_band_make(bw_band *band, bw_arena *arena, size_t n, size_t w,
                       bw_error *err)
{
    *band = (bw_band){.n = n, .w = w};
    band->a = bw_arena_get(arena, n, (2 * w + 1) * sizeof *band->a);
    return band->a != NULL ? BW_OK : bw_fail_memory(err);
}

BW_ALWAYS void take_times(double *restrict to, const double *restrict from,
                          double factor, size_t count)
{
    for (size_t i = 0; i < count; ++i)
        to[i] -= factor * from[i];
}

/* Four sums at once: else each addition waits for the one before. */
BW_ALWAYS double dot(const double *a, const double *b, size_t count)
{
    bw_four sum = {0, 0, 0, 0};
    size_t i = 0;
    for (; i + 4 <= count; i += 4)
        sum += bw_four_get(a + i) * bw_four_get(b + i);
    double all = (sum[0] + sum[1]) + (sum[2] + sum[3]);
    for (; i < count; ++i)
        all += a[i] * b[i];
    return all;
}

BW_ALWAYS size_t last_of(const bw_band *b, size_t row)
{
    return row + b->w < b->n ? row + b->w : b->n - 1;
}

BW_WIDE bool bw_band_factor(bw_band *b)
{
    for (size_t k = 0; k < b->n; ++k) {
        const double pivot = *bw_band_at(b, k, k);
        const size_t last = last_of(b, k);
        if (!(fabs(pivot) > 0.0) || !isfinite(pivot))
            return false;
        for (size_t i = k + 1; i <= last; ++i) {
            double *under = bw_band_at(b, i, k);
            if (*under == 0.0)
                continue;
            *under /= pivot;
            take_times(under + 1, bw_band_at(b, k, k) + 1, *under, last - k);
        }
    }
    return true;
}

BW_WIDE void bw_band_solve(const bw_band *b, double *x)
{
    for (size_t i = 0; i < b->n; ++i) {
        const size_t first = i > b->w ? i - b->w : 0;
        x[i] -= dot(bw_band_at(b, i, first), x + first, i - first);
    }
    for (size_t i = b->n; i-- > 0;) {
        const double *row = bw_band_at(b, i, i);
        x[i] = (x[i] - dot(row + 1, x + i + 1, last_of(b, i) - i)) / row[0];
    }
}
