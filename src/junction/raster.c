/* Cells between the lines of a drawing, graded from every line.
 *
 * Between two lines, cells grow from both by a factor until they meet; then all
 * are scaled to fill the length. On a side that is cut at symmetry nothing
 * happens, and cells grow up to it. Halving each cell keeps the grading, so
 * that errors on grids halved in turn fall as the order of the method says.
 *
 * Conductance between the middles of two cells: l/(d1/k1 + r + d2/k2), exact
 * where the flow is one-dimensional. Invariant: every edge of the drawing is a
 * line of the grid, no cell holds two materials. */

#include "raster.h"

#include <math.h>

#include "fail.h"
#include "patches.h"
#include "surface_resistance.h"

static const double default_growth = 1.6;
static const double default_smallest = 0.002; /* m */
enum { LEAST_PER_GAP = 2, MOST_CELLS_A_SIDE = 4000 };

/* ---- lines of cells --------------------------------------------------------
 */

typedef struct side {
    const double *line; /* of the patches */
    size_t count;       /* gaps between them */
    const bool *filled; /* of each gap: does it hold a material at all? */
    bool open[2];       /* first and last line is cut at symmetry */
    double smallest, growth, widest;
    size_t pieces; /* of each cell */
    bool joined;
} side;

static double gap(const side *s, size_t i)
{
    return s->line[i + 1] - s->line[i];
}

/* Cells at a line: no wider than half the gaps beside it. */
static double start_at(const side *s, size_t line)
{
    if ((line == 0 && s->open[0]) || (line == s->count && s->open[1]))
        return HUGE_VAL;
    double start = s->smallest;
    if (line > 0 && s->filled[line - 1])
        start = fmin(start, gap(s, line - 1) / LEAST_PER_GAP);
    if (line < s->count && s->filled[line])
        start = fmin(start, gap(s, line) / LEAST_PER_GAP);
    return start;
}

/* Cells of one gap into width[] from both ends inwards; returns how many. */
static size_t fill_gap(const side *s, size_t i, double *width, size_t room)
{
    double from = start_at(s, i), to = start_at(s, i + 1);
    double left = gap(s, i);
    size_t front = 0, back = 0;
    if (!s->filled[i]) {
        width[0] = left;
        return 1;
    }
    if (!isfinite(from) && !isfinite(to))
        from = to = left / LEAST_PER_GAP;
    /* those from the end stand at the end of the room until all are known */
    while (left > 0.0 && front + back + 1 < room) {
        double *next = from <= to ? &from : &to;
        double w = fmin(*next, s->widest);
        if (from <= to)
            width[front++] = w;
        else
            width[room - ++back] = w;
        left -= w;
        *next *= s->growth;
    }
    for (size_t k = 0; k < back; k++)
        width[front + k] = width[room - back + k];
    const double scale = gap(s, i) / (gap(s, i) - left);
    for (size_t k = 0; k < front + back; k++)
        width[k] *= scale;
    return front + back;
}

/* Two cells each as one, from both ends; one that is left over stays, where
 * cells are widest. Returns how many. */
static size_t join_cells(double *width, size_t cells)
{
    const size_t front = (cells / 2 + 1) / 2, back = cells / 2 - front;
    for (size_t k = 0; k < front; k++)
        width[k] = width[2 * k] + width[2 * k + 1];
    if (cells % 2 == 1)
        width[front] = width[2 * front];
    const size_t first = front + cells % 2, from = 2 * front + cells % 2;
    for (size_t k = 0; k < back; k++)
        width[first + k] = width[from + 2 * k] + width[from + 2 * k + 1];
    return first + back;
}

/* The lines of all cells; *count cells. */
static bw_status make_side(double **out, size_t *count, const side *s,
                           bw_arena *arena, bw_error *err)
{
    double width[MOST_CELLS_A_SIDE];
    size_t n = 0, room = 64;
    double *x = BW_NEW(arena, double, room);
    for (size_t i = 0; i < s->count && x != NULL; i++) {
        size_t cells = fill_gap(s, i, width, MOST_CELLS_A_SIDE);
        if (s->joined)
            cells = join_cells(width, cells);
        double at = s->line[i];
        for (size_t k = 0; k < cells && x != NULL; k++) {
            for (size_t p = 0; p < s->pieces && x != NULL; p++) {
                x = bw_arena_more(arena, x, n, &room, sizeof *x);
                if (x != NULL)
                    x[n++] = at + width[k] * (double)p / (double)s->pieces;
            }
            at += width[k];
        }
    }
    if (x != NULL)
        x = bw_arena_more(arena, x, n, &room, sizeof *x);
    BW_TRY_MEMORY(x != NULL, err);
    x[n] = s->line[s->count];
    *out = x;
    *count = n;
    return BW_OK;
}

static bw_status make_lines(bw_raster *grid, double **x, double **y,
                            const bw_patches *p, const bw_raster_options *o,
                            bw_arena *arena, bw_error *err)
{
    bool *column = BW_NEW(arena, bool, p->nx),
         *row = BW_NEW(arena, bool, p->ny);
    BW_TRY_MEMORY(column != NULL && row != NULL, err);
    for (size_t c = 0; c < p->nx * p->ny; c++)
        if (p->filling[c] != BW_NOT_THERE)
            column[c % p->nx] = row[c / p->nx] = true;
    const bool *cut = grid->junction->symmetry;
    side s = {.line = p->x,
              .count = p->nx,
              .filled = column,
              .open = {cut[BW_EDGE_LEFT], cut[BW_EDGE_RIGHT]},
              .smallest = o->smallest > 0.0 ? o->smallest : default_smallest,
              .growth = o->growth > 1.0 ? o->growth : default_growth,
              .widest = o->widest > 0.0 ? o->widest : HUGE_VAL,
              .pieces = (size_t)1 << o->halvings,
              .joined = o->joined};
    BW_TRY(make_side(x, &grid->nx, &s, arena, err));
    s.line = p->y;
    s.count = p->ny;
    s.filled = row;
    s.open[0] = cut[BW_EDGE_BELOW];
    s.open[1] = cut[BW_EDGE_ABOVE];
    return make_side(y, &grid->ny, &s, arena, err);
}

/* ---- what is in the cells --------------------------------------------------
 */

/* The gap between lines in which each cell lies. */
static void gaps_of(size_t *out, const double *x, size_t count,
                    const double *line)
{
    size_t gap_at = 0;
    for (size_t i = 0; i < count; i++) {
        while (0.5 * (x[i] + x[i + 1]) > line[gap_at + 1])
            gap_at++;
        out[i] = gap_at;
    }
}

typedef struct filling_of {
    const bw_patches *patches;
    size_t *column, *row; /* patch of each cell */
} filling_of;

static size_t patch_of(const filling_of *f, size_t i, size_t j)
{
    return f->row[j] * f->patches->nx + f->column[i];
}

static void fill_cells(bw_raster *grid, int *material, const filling_of *f)
{
    for (size_t j = 0; j < grid->ny; j++)
        for (size_t i = 0; i < grid->nx; i++) {
            const int filling = f->patches->filling[patch_of(f, i, j)];
            int *here = &material[j * grid->nx + i];
            *here = BW_NOT_THERE;
            if (filling == BW_NOT_THERE)
                continue;
            *here = (int)grid->junction->filling[filling].material;
            grid->filled++;
        }
    grid->material = material;
}

static void lay_films(const bw_raster *grid, int *film_x, int *film_y)
{
    const bw_junction *d = grid->junction;
    for (size_t k = 0; k < (grid->nx + 1) * grid->ny; k++)
        film_x[k] = BW_NOT_THERE;
    for (size_t k = 0; k < grid->nx * (grid->ny + 1); k++)
        film_y[k] = BW_NOT_THERE;
    for (size_t k = 0; k < d->film_line_count; k++) {
        const bw_film_line *f = &d->film_line[k];
        const bool upright = f->x1 - f->x0 <= BW_ONE_LINE;
        const size_t i0 = bw_line_at(grid->x, grid->nx + 1, f->x0);
        const size_t i1 = bw_line_at(grid->x, grid->nx + 1, f->x1);
        const size_t j0 = bw_line_at(grid->y, grid->ny + 1, f->y0);
        const size_t j1 = bw_line_at(grid->y, grid->ny + 1, f->y1);
        for (size_t j = j0; upright && j < j1; j++)
            film_x[j * (grid->nx + 1) + i0] = (int)f->film;
        for (size_t i = i0; !upright && i < i1; i++)
            film_y[j0 * grid->nx + i] = (int)f->film;
    }
}

/* ---- faces -----------------------------------------------------------------
 */

typedef struct neighbour {
    bool there; /* within the drawing */
    size_t i, j;
    int film;
} neighbour;

static neighbour neighbour_of(const bw_raster *g, size_t i, size_t j,
                              bw_cell_side edge)
{
    switch (edge) {
    case BW_EDGE_LEFT:
        return (neighbour){i > 0, i - 1, j, g->film_x[j * (g->nx + 1) + i]};
    case BW_EDGE_RIGHT:
        return (neighbour){i + 1 < g->nx, i + 1, j,
                           g->film_x[j * (g->nx + 1) + i + 1]};
    case BW_EDGE_BELOW:
        return (neighbour){j > 0, i, j - 1, g->film_y[j * g->nx + i]};
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    return (neighbour){j + 1 < g->ny, i, j + 1, g->film_y[(j + 1) * g->nx + i]};
}

static bw_raster_face face_of(const bw_raster *g, size_t i, size_t j,
                              bw_cell_side edge, size_t environment, int film)
{
    const double w = g->x[i + 1] - g->x[i], h = g->y[j + 1] - g->y[j];
    const bool upright = edge == BW_EDGE_LEFT || edge == BW_EDGE_RIGHT;
    bw_raster_face f = {.cell = j * g->nx + i,
                        .side = edge,
                        .environment = environment,
                        .length = upright ? h : w,
                        .x = g->x[i] + 0.5 * w,
                        .y = g->y[j] + 0.5 * h,
                        .half = 0.5 * (upright ? w : h),
                        .film = film};
    if (upright)
        f.x = g->x[edge == BW_EDGE_LEFT ? i : i + 1];
    else
        f.y = g->y[edge == BW_EDGE_BELOW ? j : j + 1];
    return f;
}

static bw_status find_faces(bw_raster *g, const filling_of *f, bw_arena *arena,
                            bw_error *err)
{
    size_t room = 256;
    bw_raster_face *face = BW_NEW(arena, bw_raster_face, room);
    for (size_t c = 0; c < g->nx * g->ny && face != NULL; c++) {
        if (g->material[c] == BW_NOT_THERE)
            continue;
        const size_t i = c % g->nx, j = c / g->nx;
        for (int e = 0; e < BW_EDGES && face != NULL; e++) {
            const neighbour n = neighbour_of(g, i, j, (bw_cell_side)e);
            const int space = n.there ? f->patches->space[patch_of(f, n.i, n.j)]
                                      : BW_NOT_THERE;
            if (space == BW_NOT_THERE)
                continue;
            face = bw_arena_more(arena, face, g->face_count, &room,
                                 sizeof *face);
            if (face != NULL)
                face[g->face_count++] = face_of(
                    g, i, j, (bw_cell_side)e,
                    g->junction->space[space].environment, n.film);
        }
    }
    g->face = face;
    return face != NULL ? BW_OK : bw_fail_memory(err);
}

/* ---- the whole -------------------------------------------------------------
 */

bw_status bw_raster_make(bw_raster *out, const bw_junction *junction,
                         const bw_raster_options *options, bw_arena *arena,
                         bw_error *err)
{
    static const bw_raster_options as_drawn = {0};
    bw_patches patches = {0};
    double *x = NULL, *y = NULL;
    *out = (bw_raster){.junction = junction};
    BW_TRY(bw_patches_make(&patches, junction, arena, err));
    BW_TRY(make_lines(out, &x, &y, &patches,
                      options != NULL ? options : &as_drawn, arena, err));
    BW_TRY_MEMORY(x != NULL && y != NULL, err);
    out->x = x;
    out->y = y;
    filling_of f = {&patches, BW_NEW(arena, size_t, out->nx),
                    BW_NEW(arena, size_t, out->ny)};
    int *material = BW_NEW(arena, int, out->nx * out->ny);
    int *film_x = BW_NEW(arena, int, (out->nx + 1) * out->ny);
    int *film_y = BW_NEW(arena, int, out->nx *(out->ny + 1));
    BW_TRY_MEMORY(!arena->failed, err);
    gaps_of(f.column, x, out->nx, patches.x);
    gaps_of(f.row, y, out->ny, patches.y);
    fill_cells(out, material, &f);
    lay_films(out, film_x, film_y);
    out->film_x = film_x;
    out->film_y = film_y;
    return find_faces(out, &f, arena, err);
}

long bw_raster_cell_at(const bw_raster *grid, double x, double y)
{
    size_t i = 0, j = 0;
    if (x < grid->x[0] || y < grid->y[0] || x > grid->x[grid->nx] ||
        y > grid->y[grid->ny])
        return -1;
    while (i + 1 < grid->nx && x >= grid->x[i + 1])
        i++;
    while (j + 1 < grid->ny && y >= grid->y[j + 1])
        j++;
    return grid->material[j * grid->nx + i] == BW_NOT_THERE
               ? -1
               : (long)(j * grid->nx + i);
}

/* ---- what passes ------------------------------------------------------------
 */

static double resistance(const double *r, int film)
{
    return r == NULL || film == BW_NOT_THERE ? 0.0 : r[film];
}

static double between(double length, double half_a, double k_a, double half_b,
                      double k_b, double film)
{
    return length / (half_a / k_a + film + half_b / k_b);
}

double bw_raster_across_x(const bw_raster *g, const double *k, const double *r,
                          size_t i, size_t j)
{
    const int a = g->material[j * g->nx + i - 1],
              b = g->material[j * g->nx + i];
    if (a == BW_NOT_THERE || b == BW_NOT_THERE)
        return 0.0;
    return between(g->y[j + 1] - g->y[j], 0.5 * (g->x[i] - g->x[i - 1]), k[a],
                   0.5 * (g->x[i + 1] - g->x[i]), k[b],
                   resistance(r, g->film_x[j * (g->nx + 1) + i]));
}

double bw_raster_across_y(const bw_raster *g, const double *k, const double *r,
                          size_t i, size_t j)
{
    const int a = g->material[(j - 1) * g->nx + i],
              b = g->material[j * g->nx + i];
    if (a == BW_NOT_THERE || b == BW_NOT_THERE)
        return 0.0;
    return between(g->x[i + 1] - g->x[i], 0.5 * (g->y[j] - g->y[j - 1]), k[a],
                   0.5 * (g->y[j + 1] - g->y[j]), k[b],
                   resistance(r, g->film_y[j * g->nx + i]));
}

double bw_raster_across_face(const bw_raster *g, const double *k,
                             const double *r, const bw_raster_face *face,
                             double surface)
{
    return face->length / (face->half / k[g->material[face->cell]] +
                           resistance(r, face->film) + surface);
}

double bw_surface_of(const bw_environment *environment, bw_surfaces which)
{
    /* rooms; sources: surface_resistance.h, glaser/surface.h */
    static const double room[BW_SURFACES_COUNT] = {
        [BW_SURFACES_MOISTURE] = BW_RSI_MOISTURE,
        [BW_SURFACES_FLOW] = BW_RSI_HORIZONTAL,
        [BW_SURFACES_LOWER] = 0.35,
        [BW_SURFACES_CUPBOARD] = 1.0,
    };
    const bool covered = environment->kind == BW_ENVIRONMENT_ROOM &&
                         (which == BW_SURFACES_LOWER ||
                          which == BW_SURFACES_CUPBOARD);
    /* stated of the open wall: what stands before a surface only adds to it */
    if (environment->has_surface_resistance)
        return covered ? fmax(environment->surface_resistance, room[which])
                       : environment->surface_resistance;
    switch (environment->kind) {
    case BW_ENVIRONMENT_ROOM:
        return room[which];
    case BW_ENVIRONMENT_OUTSIDE:
        return BW_RSE_MOISTURE;
    case BW_ENVIRONMENT_GROUND:
        break;
    }
    return 0.0;
}
