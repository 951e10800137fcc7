/* Nodes where the lines of a grid cross, and the links between them.
 *
 * A link along the edge of a cell stands for half the cell beside it,
 *
 *   g = k (half the cell's width) / (the edge's length)      [derived]
 *
 * so that a strip of cells is exactly the layers of one dimension, with its
 * nodes at their faces: where the monthly method lets water stand. Through a
 * film, at each end of a cell's face, half its length passes.
 *
 * Invariants: corners of cells that touch without a film between them are one
 * node; no link joins a node to itself. */

#include <math.h>
#include <stdint.h>

#include "fail.h"
#include "vapour_nodes.h"

enum { NO_CELL = -1 };

static double width(const bw_raster *grid, size_t cell)
{
    size_t i = cell % grid->nx;
    return grid->x[i + 1] - grid->x[i];
}

static double height(const bw_raster *grid, size_t cell)
{
    size_t j = cell / grid->nx;
    return grid->y[j + 1] - grid->y[j];
}

/* A crossing: the cells around it, left below and on anticlockwise, and the
 * films between each and the next. */
typedef struct crossing {
    long cell[BW_CORNERS];
    int film[BW_CORNERS];
} crossing;

static long cell_at(const bw_raster *grid, size_t i, size_t j)
{
    /* i - 1 of 0 is far beyond nx */
    if (i >= grid->nx || j >= grid->ny)
        return NO_CELL;
    size_t cell = j * grid->nx + i;
    return grid->material[cell] != BW_NOT_THERE ? (long)cell : NO_CELL;
}

static crossing crossing_at(const bw_raster *grid, size_t i, size_t j)
{
    size_t nx = grid->nx, ny = grid->ny;
    crossing c = {
        .cell = {cell_at(grid, i - 1, j - 1), cell_at(grid, i, j - 1),
                 cell_at(grid, i, j), cell_at(grid, i - 1, j)},
        .film = {BW_NOT_THERE, BW_NOT_THERE, BW_NOT_THERE, BW_NOT_THERE},
    };
    if (j > 0)
        c.film[0] = grid->film_x[(j - 1) * (nx + 1) + i];
    if (i < nx)
        c.film[1] = grid->film_y[j * nx + i];
    if (j < ny)
        c.film[2] = grid->film_x[j * (nx + 1) + i];
    if (i > 0)
        c.film[3] = grid->film_y[j * nx + i - 1];
    return c;
}

static size_t add_node(bw_nodes *nodes, double x, double y)
{
    size_t node = nodes->count++;
    nodes->x[node] = x;
    nodes->y[node] = y;
    nodes->environment[node] = BW_NO_ENVIRONMENT;
    nodes->environment2[node] = BW_NO_ENVIRONMENT;
    return node;
}

/* The corner of the q-th cell around a crossing lies opposite in the cell. */
static size_t corner_of(long cell, size_t q)
{
    return (size_t)cell * BW_CORNERS + (q + 2) % BW_CORNERS;
}

/* One node for each run of cells round a crossing that nothing parts. */
static void set_corners(bw_nodes *nodes, size_t i, size_t j, bool films)
{
    crossing c = crossing_at(nodes->grid, i, j);
    bool joined[BW_CORNERS]; /* with the next */
    size_t first = 0;
    for (size_t q = 0; q < BW_CORNERS; ++q) {
        joined[q] = c.cell[q] != NO_CELL &&
                    c.cell[(q + 1) % BW_CORNERS] != NO_CELL &&
                    !(films && c.film[q] != BW_NOT_THERE);
        if (!joined[q])
            first = (q + 1) % BW_CORNERS;
    }
    size_t node = SIZE_MAX;
    for (size_t n = 0; n < BW_CORNERS; ++n) {
        size_t q = (first + n) % BW_CORNERS;
        if (c.cell[q] == NO_CELL)
            continue;
        if (n == 0 || !joined[(q + BW_CORNERS - 1) % BW_CORNERS])
            node = add_node(nodes, nodes->grid->x[i], nodes->grid->y[j]);
        nodes->corner[corner_of(c.cell[q], q)] = node;
    }
}

/* How far a node's part of its cells goes: half of each. */
static bw_status set_spans(bw_nodes *nodes, bw_arena *arena, bw_error *err)
{
    const bw_raster *grid = nodes->grid;
    double *side[BW_EDGES] = {NULL};
    for (size_t s = 0; s < BW_EDGES; ++s)
        side[s] = BW_NEW(arena, double, nodes->count + 1);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t c = 0; c < BW_CORNERS * grid->nx * grid->ny; ++c) {
        size_t cell = c / BW_CORNERS, q = c % BW_CORNERS, n = nodes->corner[c];
        if (grid->material[cell] == BW_NOT_THERE)
            continue;
        double *x = side[q == 0 || q == 3 ? BW_EDGE_RIGHT : BW_EDGE_LEFT] + n;
        double *y = side[q == 0 || q == 1 ? BW_EDGE_ABOVE : BW_EDGE_BELOW] + n;
        *x = fmax(*x, 0.5 * width(grid, cell));
        *y = fmax(*y, 0.5 * height(grid, cell));
    }
    for (size_t n = 0; n < nodes->count; ++n)
        nodes->span[n] = fmax(side[BW_EDGE_LEFT][n] + side[BW_EDGE_RIGHT][n],
                              side[BW_EDGE_BELOW][n] + side[BW_EDGE_ABOVE][n]);
    return BW_OK;
}

static bw_status make(bw_nodes *nodes, bw_arena *arena, const bw_raster *grid,
                      bool films, size_t more, bw_error *err)
{
    size_t cells = grid->nx * grid->ny, most = BW_CORNERS * grid->filled + more;
    /* of cells; of films, or of surfaces, at both ends of each face */
    size_t links = BW_CORNERS * grid->filled +
                   2 * (2 * grid->filled + grid->face_count) + 1;
    *nodes = (bw_nodes){.grid = grid};
    nodes->corner = BW_NEW(arena, size_t, BW_CORNERS * cells);
    nodes->x = BW_NEW(arena, double, most);
    nodes->y = BW_NEW(arena, double, most);
    nodes->span = BW_NEW(arena, double, most);
    nodes->environment = BW_NEW(arena, int, most);
    nodes->environment2 = BW_NEW(arena, int, most);
    nodes->link = BW_NEW(arena, bw_net_link, links);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t j = 0; j <= grid->ny; ++j)
        for (size_t i = 0; i <= grid->nx; ++i)
            set_corners(nodes, i, j, films);
    return set_spans(nodes, arena, err);
}

static void add_link(bw_nodes *nodes, size_t a, size_t b, double shape,
                     size_t of)
{
    nodes->link[nodes->links++] = (bw_net_link){
        .a = a, .b = b, .shape = shape, .of = of};
}

static void link_cells(bw_nodes *nodes)
{
    const bw_raster *grid = nodes->grid;
    for (size_t cell = 0; cell < grid->nx * grid->ny; ++cell) {
        if (grid->material[cell] == BW_NOT_THERE)
            continue;
        const size_t *corner = nodes->corner + cell * BW_CORNERS;
        double w = width(grid, cell), h = height(grid, cell);
        add_link(nodes, corner[0], corner[1], 0.5 * h / w, cell);
        add_link(nodes, corner[3], corner[2], 0.5 * h / w, cell);
        add_link(nodes, corner[0], corner[3], 0.5 * w / h, cell);
        add_link(nodes, corner[1], corner[2], 0.5 * w / h, cell);
    }
    nodes->material_links = nodes->links;
}

void bw_nodes_ends(const bw_nodes *nodes, size_t cell, bw_cell_side side,
                   size_t end[2])
{
    static const unsigned char corner[BW_EDGES][2] = {
        [BW_EDGE_LEFT] = {0, 3},
        [BW_EDGE_RIGHT] = {1, 2},
        [BW_EDGE_BELOW] = {0, 1},
        [BW_EDGE_ABOVE] = {3, 2},
    };
    for (size_t e = 0; e < 2; ++e)
        end[e] = nodes->corner[cell * BW_CORNERS + corner[side][e]];
}

static void touch(bw_nodes *nodes, size_t node, size_t environment)
{
    int e = (int)environment;
    if (nodes->environment[node] == BW_NO_ENVIRONMENT)
        nodes->environment[node] = e;
    else if (nodes->environment[node] != e)
        nodes->environment2[node] = e;
}

/* ---- vapour -------------------------------------------------------------- */

static void add_pair(bw_nodes *nodes, size_t a, size_t b, double shape,
                     int film)
{
    if (a == b) /* the end of a film: vapour goes round it */
        return;
    nodes->pair[nodes->pairs] = (bw_film_pair){
        .a = a, .b = b, .film = (size_t)film};
    add_link(nodes, a, b, shape, nodes->pairs++);
}

static void pair_cells(bw_nodes *nodes, size_t before, bw_cell_side side,
                       size_t after, int film, double length)
{
    size_t a[2], b[2];
    bw_nodes_ends(nodes, before, side, a);
    bw_nodes_ends(nodes, after,
                  side == BW_EDGE_RIGHT ? BW_EDGE_LEFT : BW_EDGE_BELOW, b);
    for (size_t e = 0; e < 2; ++e)
        add_pair(nodes, a[e], b[e], 0.5 * length, film);
}

static void link_films(bw_nodes *nodes)
{
    const bw_raster *grid = nodes->grid;
    for (size_t j = 0; j < grid->ny; ++j)
        for (size_t i = 0; i < grid->nx; ++i) {
            long cell = cell_at(grid, i, j);
            long left = cell_at(grid, i - 1, j),
                 below = cell_at(grid, i, j - 1);
            int film_x = grid->film_x[j * (grid->nx + 1) + i];
            int film_y = grid->film_y[j * grid->nx + i];
            if (cell == NO_CELL)
                continue;
            if (left != NO_CELL && film_x != BW_NOT_THERE)
                pair_cells(nodes, (size_t)left, BW_EDGE_RIGHT, (size_t)cell,
                           film_x, height(grid, (size_t)cell));
            if (below != NO_CELL && film_y != BW_NOT_THERE)
                pair_cells(nodes, (size_t)below, BW_EDGE_ABOVE, (size_t)cell,
                           film_y, width(grid, (size_t)cell));
        }
}

/* Behind a film on a face a node of the surface follows that of the cell. */
static void link_faces(bw_nodes *nodes)
{
    for (size_t f = 0; f < nodes->grid->face_count; ++f) {
        const bw_raster_face *face = &nodes->grid->face[f];
        size_t end[2];
        bw_nodes_ends(nodes, face->cell, face->side, end);
        for (size_t e = 0; e < 2; ++e) {
            size_t node = end[e];
            if (face->film != BW_NOT_THERE) {
                node = add_node(nodes, nodes->x[node], nodes->y[node]);
                nodes->span[node] = nodes->span[end[e]];
                nodes->twin[node] = nodes->twin[end[e]];
                add_pair(nodes, node, end[e], 0.5 * face->length, face->film);
            }
            touch(nodes, node, face->environment);
        }
    }
}

bw_status bw_nodes_of_vapour(bw_nodes *nodes, bw_arena *arena,
                             const bw_raster *grid, const bw_nodes *heat,
                             bw_error *err)
{
    size_t faces = 2 * grid->face_count;
    BW_TRY(make(nodes, arena, grid, true, faces, err));
    nodes->twin = BW_NEW(arena, size_t, nodes->count + faces);
    nodes->pair = BW_NEW(arena, bw_film_pair, 4 * grid->filled + faces + 1);
    BW_TRY_MEMORY(nodes->twin != NULL && nodes->pair != NULL, err);
    for (size_t c = 0; c < BW_CORNERS * grid->nx * grid->ny; ++c)
        if (grid->material[c / BW_CORNERS] != BW_NOT_THERE)
            nodes->twin[nodes->corner[c]] = heat->corner[c];
    link_cells(nodes);
    link_films(nodes);
    link_faces(nodes);
    return BW_OK;
}

/* ---- heat ---------------------------------------------------------------- */

bw_status bw_nodes_of_heat(bw_nodes *nodes, bw_arena *arena,
                           const bw_raster *grid, bw_error *err)
{
    BW_TRY(make(nodes, arena, grid, false, 2 * grid->face_count, err));
    link_cells(nodes);
    for (size_t f = 0; f < grid->face_count; ++f) {
        const bw_raster_face *face = &grid->face[f];
        size_t end[2];
        bw_nodes_ends(nodes, face->cell, face->side, end);
        for (size_t e = 0; e < 2; ++e) {
            size_t air = add_node(nodes, nodes->x[end[e]], nodes->y[end[e]]);
            touch(nodes, air, face->environment);
            add_link(nodes, end[e], air, 0.5 * face->length, face->environment);
        }
    }
    return BW_OK;
}
