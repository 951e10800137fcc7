/* Steady heat conduction in two dimensions, div(lambda grad T) = 0, by finite
 * volumes: for each cell the flows over its faces sum to zero, ISO 10211
 * [from memory, medium].
 *
 *   flow between cells     G (T_a - T_b)     bw_raster_across_x, _y
 *   flow to environments   G (T_c - T_e)     bw_raster_across_face
 *
 * One solution with one environment at 1 and the others at 0 for each of them
 * but the last, whose weights are what is left to 1.
 * Invariant: the coupling is symmetric, and its rows sum to zero. */

#include "heat.h"

#include <math.h>

#include "coarse.h"
#include "fail.h"
#include "solve.h"

static const double tolerance = 1e-10; /* of the flow */

typedef struct solving {
    bw_heat *out;
    const bw_raster *raster;
    const double *k;
    bw_five_point system;
    double *b;
    size_t environments;
    bw_arena *arena;
} solving;

static double face_conductance(const solving *s, const bw_raster_face *face)
{
    return bw_raster_across_face(s->raster, s->k, NULL, face,
                                 s->out->surface[face->environment]);
}

static void fill_in(solving *s)
{
    const bw_raster *g = s->raster;
    bw_five_point *m = &s->system;
    for (size_t j = 0; j < g->ny; j++)
        for (size_t i = 0; i < g->nx; i++) {
            const size_t c = j * g->nx + i;
            if (i + 1 < g->nx)
                m->east[c] = bw_raster_across_x(g, s->k, NULL, i + 1, j);
            if (j + 1 < g->ny)
                m->north[c] = bw_raster_across_y(g, s->k, NULL, i, j + 1);
            if (g->material[c] == BW_NOT_THERE)
                m->diagonal[c] = 1.0;
            m->diagonal[c] += m->east[c] + m->north[c];
            if (i > 0)
                m->diagonal[c] += m->east[c - 1];
            if (j > 0)
                m->diagonal[c] += m->north[c - g->nx];
        }
    for (size_t f = 0; f < g->face_count; f++)
        m->diagonal[g->face[f].cell] += face_conductance(s, &g->face[f]);
    bw_five_point_prepare(m);
}

/* ---- blocks of cells --------------------------------------------------------
 */

enum { PIECES = 8 };

/* Does a line of the drawing lie before this column (or row) of cells? */
static bool is_line(const bw_raster *g, bool column, size_t at)
{
    const size_t step = column ? 1 : g->nx, along = column ? g->nx : 1;
    const size_t count = column ? g->ny : g->nx;
    const int *m = g->material + at * step;
    for (size_t k = 0; k < count; k++, m += along)
        if (m[0] != m[-(ptrdiff_t)step])
            return true;
    return false;
}

/* Blocks from line to line, in so many pieces; returns how many. */
static size_t cut_blocks(size_t *block, const bw_raster *g, bool column,
                         size_t pieces)
{
    const size_t cells = column ? g->nx : g->ny;
    size_t blocks = 0;
    for (size_t from = 0; from < cells;) {
        size_t to = from + 1;
        while (to < cells && !is_line(g, column, to))
            to++;
        const size_t parts = to - from < pieces ? to - from : pieces;
        for (size_t k = from; k < to; k++)
            block[k] = blocks + (k - from) * parts / (to - from);
        blocks += parts;
        from = to;
    }
    return blocks;
}

static bw_status make_coarse(solving *s, bw_error *err)
{
    const bw_raster *g = s->raster;
    bw_arena *arena = s->arena;
    bw_blocks b = {.column = BW_NEW(arena, size_t, g->nx),
                   .row = BW_NEW(arena, size_t, g->ny)};
    BW_TRY_MEMORY(b.column != NULL && b.row != NULL, err);
    for (size_t pieces = PIECES; pieces > 0 && s->system.coarse == NULL;
         pieces /= 2) {
        b.x_count = cut_blocks(b.column, g, true, pieces);
        b.y_count = cut_blocks(b.row, g, false, pieces);
        BW_TRY(bw_coarse_make(&s->system.coarse, &s->system, &b, arena, err));
    }
    return BW_OK;
}

/* From the grid whose cells were halved. */
static void guess(double *w, const bw_raster *g, const bw_raster *coarse,
                  const double *from)
{
    for (size_t j = 0; j < g->ny; j++)
        for (size_t i = 0; i < g->nx; i++)
            w[j * g->nx + i] = from[(j / 2) * coarse->nx + i / 2];
}

static bw_status solve_one(solving *s, size_t e, const bw_heat *coarser,
                           bw_error *err)
{
    const bw_raster *g = s->raster;
    const size_t n = g->nx * g->ny;
    for (size_t c = 0; c < n; c++)
        s->b[c] = 0.0;
    for (size_t f = 0; f < g->face_count; f++)
        if (g->face[f].environment == e)
            s->b[g->face[f].cell] += face_conductance(s, &g->face[f]);
    if (coarser != NULL)
        guess(s->out->weight[e], g, coarser->raster, coarser->weight[e]);
    bool slow;
    double *x = s->out->weight[e];
    size_t *steps = &s->out->steps;
    BW_TRY(
        bw_five_point_solve(&s->system, x, s->b, tolerance, steps, &slow, err));
    if (!slow)
        return BW_OK;
    BW_TRY(make_coarse(s, err));
    return bw_five_point_solve(&s->system, x, s->b, tolerance, steps, NULL,
                               err);
}

/* The last environment has what is left to 1. */
static void last_weight(solving *s)
{
    const size_t n = s->raster->nx * s->raster->ny;
    double **w = s->out->weight;
    for (size_t c = 0; c < n; c++) {
        double left = s->raster->material[c] == BW_NOT_THERE ? 0.0 : 1.0;
        for (size_t e = 0; e + 1 < s->environments; e++)
            left -= w[e][c];
        w[s->environments - 1][c] = left;
    }
}

static void find_flows(solving *s)
{
    const size_t m = s->environments;
    double *to = s->out->coupling;
    for (size_t f = 0; f < s->raster->face_count; f++) {
        const bw_raster_face *face = &s->raster->face[f];
        const double g = face_conductance(s, face);
        for (size_t e = 0; e < m; e++)
            if (e != face->environment)
                to[face->environment * m + e] += g *
                                                 s->out->weight[e][face->cell];
            else
                to[e * m + e] += g * (1.0 - s->out->weight[e][face->cell]);
    }
    /* with environment e at 1: what leaves it is to arrive at the others */
    for (size_t e = 0; e < m; e++) {
        double arrives = 0.0;
        for (size_t i = 0; i < m; i++)
            if (i != e)
                arrives += to[i * m + e];
        const double leaves = to[e * m + e];
        s->out->balance = fmax(s->out->balance, fabs(leaves - arrives) /
                                                    (0.5 * (leaves + arrives)));
    }
}

bw_status bw_heat_solve(bw_heat *out, const bw_raster *raster,
                        const double *surface, const bw_heat *coarser,
                        bw_arena *arena, bw_error *err)
{
    const bw_junction *d = raster->junction;
    const size_t n = raster->nx * raster->ny, m = d->environment_count;
    solving s = {
        .out = out, .raster = raster, .environments = m, .arena = arena};
    double *k = BW_NEW(arena, double, d->material_count);
    *out = (bw_heat){.raster = raster,
                     .surface = surface,
                     .weight = BW_NEW(arena, double *, m),
                     .coupling = BW_NEW(arena, double, m *m)};
    s.b = BW_NEW(arena, double, n);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t i = 0; i < d->material_count; i++)
        k[i] = d->material[i].conductivity;
    s.k = k;
    BW_TRY(bw_five_point_make(&s.system, raster->nx, raster->ny, arena, err));
    fill_in(&s);
    for (size_t e = 0; e < m; e++) {
        out->weight[e] = BW_NEW(arena, double, n);
        BW_TRY_MEMORY(out->weight[e] != NULL, err);
        if (e + 1 < m)
            BW_TRY(solve_one(&s, e, coarser, err));
    }
    last_weight(&s);
    find_flows(&s);
    return BW_OK;
}

double bw_heat_face(const bw_heat *heat, size_t environment,
                    const bw_raster_face *face)
{
    const bw_raster *g = heat->raster;
    const double inside =
        face->half /
        g->junction->material[g->material[face->cell]].conductivity;
    const double surface = heat->surface[face->environment];
    const double own = face->environment == environment ? 1.0 : 0.0;
    return own + (heat->weight[environment][face->cell] - own) * surface /
                     (surface + inside);
}
