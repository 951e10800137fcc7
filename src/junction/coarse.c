/* Blocks of cells as the unknowns of a small system,
 *
 *   Q = Z (Z' A Z)^-1 Z'      Z: 1 in the cells of a block, 0 elsewhere
 *
 * solved by a banded Cholesky factor. It takes out of an error what a
 * preconditioner that looks at neighbours is slow to: parts of a drawing that
 * hold together but hardly touch the rest, as metal in insulation.
 * Invariant: A and Z' A Z are symmetric and positive definite. */

#include "coarse.h"

#include <math.h>
#include <stdint.h>

#include "fail.h"

static const double most_work = 3e7; /* multiplications of the factor */

static size_t unknown(const bw_coarse *c, size_t x, size_t y)
{
    return c->x_first ? y * c->blocks.x_count + x : x * c->blocks.y_count + y;
}

static double *entry(const bw_coarse *c, size_t row, size_t column)
{
    return &c->lower[row * (c->band + 1) + c->band + column - row];
}

/* A link between two cells of the system; of no link b may lie beyond it. */
static void add_link(const bw_coarse *c, size_t a, size_t b, double link)
{
    if (link <= 0.0)
        return;
    const size_t p = c->block[a], q = c->block[b];
    if (p == q)
        *entry(c, p, p) -= 2.0 * link;
    else
        *entry(c, p > q ? p : q, p > q ? q : p) -= link;
}

static bool has_links(const bw_five_point *s, size_t c)
{
    return s->east[c] > 0.0 || s->north[c] > 0.0 ||
           (c >= 1 && s->east[c - 1] > 0.0) ||
           (c >= s->nx && s->north[c - s->nx] > 0.0);
}

static void add_up(bw_coarse *c, const bw_five_point *s)
{
    const size_t n = s->nx * s->ny;
    for (size_t k = 0; k < n; k++)
        c->block[k] = has_links(s, k) ? unknown(c, c->blocks.column[k % s->nx],
                                                c->blocks.row[k / s->nx])
                                      : SIZE_MAX;
    for (size_t k = 0; k < n; k++) {
        if (c->block[k] == SIZE_MAX)
            continue;
        *entry(c, c->block[k], c->block[k]) += s->diagonal[k];
        add_link(c, k, k + 1, s->east[k]);
        add_link(c, k, k + s->nx, s->north[k]);
    }
    for (size_t k = 0; k < c->count; k++)
        if (*entry(c, k, k) <= 0.0)
            *entry(c, k, k) = 1.0; /* a block of nothing */
}

static void factorise(bw_coarse *c)
{
    for (size_t i = 0; i < c->count; i++) {
        const size_t first = i > c->band ? i - c->band : 0;
        for (size_t j = first; j <= i; j++) {
            const size_t from = j > c->band && j - c->band > first ? j - c->band
                                                                   : first;
            double sum = *entry(c, i, j);
            for (size_t k = from; k < j; k++)
                sum -= *entry(c, i, k) * *entry(c, j, k);
            /* without an outlet but rounding a block is left as it is */
            *entry(c, i, j) = j < i       ? sum * *entry(c, j, j)
                              : sum > 0.0 ? 1.0 / sqrt(sum)
                                          : 0.0;
        }
    }
}

bw_status bw_coarse_make(bw_coarse **out, const bw_five_point *s,
                         const bw_blocks *blocks, bw_arena *arena,
                         bw_error *err)
{
    *out = NULL;
    if (blocks == NULL)
        return BW_OK;
    const bool x_first = blocks->x_count <= blocks->y_count;
    const size_t band = x_first ? blocks->x_count : blocks->y_count;
    const size_t count = blocks->x_count * blocks->y_count;
    if ((double)count * (double)band * (double)band > most_work)
        return BW_OK;
    bw_coarse *c = BW_NEW(arena, bw_coarse, 1);
    BW_TRY_MEMORY(c != NULL, err);
    *c = (bw_coarse){.blocks = *blocks,
                     .x_first = x_first,
                     .count = count,
                     .band = band,
                     .lower = BW_NEW(arena, double, count *(band + 1)),
                     .value = BW_NEW(arena, double, count),
                     .block = BW_NEW(arena, size_t, s->nx * s->ny)};
    BW_TRY_MEMORY(!arena->failed, err);
    add_up(c, s);
    factorise(c);
    *out = c;
    return BW_OK;
}

void bw_coarse_add(const bw_coarse *c, double *x, const double *r, size_t cells)
{
    double *v = c->value;
    for (size_t k = 0; k < c->count; k++)
        v[k] = 0.0;
    for (size_t k = 0; k < cells; k++)
        if (c->block[k] != SIZE_MAX)
            v[c->block[k]] += r[k];
    for (size_t i = 0; i < c->count; i++) {
        const double *row = &c->lower[i * (c->band + 1)];
        const size_t before = i < c->band ? i : c->band;
        double sum = v[i];
        for (size_t k = 1; k <= before; k++)
            sum -= row[c->band - k] * v[i - k];
        v[i] = sum * row[c->band];
    }
    for (size_t i = c->count; i-- > 0;) {
        const double *row = &c->lower[i * (c->band + 1)];
        const size_t before = i < c->band ? i : c->band;
        v[i] *= row[c->band];
        for (size_t k = 1; k <= before; k++)
            v[i - k] -= row[c->band - k] * v[i];
    }
    for (size_t k = 0; k < cells; k++)
        if (c->block[k] != SIZE_MAX)
            x[k] += v[c->block[k]];
}
