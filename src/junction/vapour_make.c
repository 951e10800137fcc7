/* A raster made ready for vapour: nodes, temperatures, members, lines.
 *
 * Invariants: cells of one member are of one material and touch without a film
 * between; the lengths of a line's nodes add up to what of it is a face. */

#include <stdint.h>

#include "fail.h"
#include "vapour_year.h"

static void spread(const bw_raster *grid, size_t *member, size_t *stack,
                   size_t from, size_t name)
{
    size_t depth = 0;
    member[from] = name;
    stack[depth++] = from;
    while (depth > 0) {
        size_t cell = stack[--depth], i = cell % grid->nx, j = cell / grid->nx;
        const struct {
            bool there;
            size_t cell;
            int film;
        } beside[] = {
            {i > 0, cell - 1, grid->film_x[j * (grid->nx + 1) + i]},
            {i + 1 < grid->nx, cell + 1,
             grid->film_x[j * (grid->nx + 1) + i + 1]},
            {j > 0, cell - grid->nx, grid->film_y[cell]},
            {j + 1 < grid->ny, cell + grid->nx, grid->film_y[cell + grid->nx]},
        };
        for (size_t b = 0; b < sizeof beside / sizeof beside[0]; ++b) {
            size_t other = beside[b].cell;
            if (!beside[b].there || beside[b].film != BW_NOT_THERE ||
                grid->material[other] != grid->material[from] ||
                member[other] != SIZE_MAX)
                continue;
            member[other] = name;
            stack[depth++] = other;
        }
    }
}

static bw_status find_members(bw_vapour *v, bw_arena *arena, bw_error *err)
{
    size_t cells = v->grid->nx * v->grid->ny;
    v->member = BW_NEW(arena, size_t, cells);
    size_t *stack = BW_NEW(arena, size_t, cells);
    BW_TRY_MEMORY(v->member != NULL && stack != NULL, err);
    for (size_t cell = 0; cell < cells; ++cell)
        v->member[cell] = SIZE_MAX;
    for (size_t cell = 0; cell < cells; ++cell)
        if (v->grid->material[cell] != BW_NOT_THERE &&
            v->member[cell] == SIZE_MAX)
            spread(v->grid, v->member, stack, cell, v->members++);
    return BW_OK;
}

bool bw_vapour_has_face(const bw_vapour *vapour, size_t i, size_t j,
                        bw_cell_side side)
{
    const bw_raster *grid = vapour->grid;
    const size_t *member = vapour->member;
    const size_t cell = j * grid->nx + i;
    const bool rim[BW_EDGES] = {i == 0, i + 1 == grid->nx, j == 0,
                                j + 1 == grid->ny};
    const size_t other[BW_EDGES] = {cell - 1, cell + 1, cell - grid->nx,
                                    cell + grid->nx};
    const int film[BW_EDGES] = {
        grid->film_x[j * (grid->nx + 1) + i],
        grid->film_x[j * (grid->nx + 1) + i + 1],
        grid->film_y[cell],
        grid->film_y[cell + grid->nx],
    };
    if (rim[side])
        return !grid->junction->symmetry[side];
    return film[side] != BW_NOT_THERE || member[other[side]] != member[cell];
}

/* A face between two members is seen from both: half of it from each; but a
 * film parts the nodes of its two sides, and air has none. */
static double seen(const bw_raster *grid, size_t i, size_t j, bw_cell_side side)
{
    const bool level = side == BW_EDGE_BELOW || side == BW_EDGE_ABOVE;
    const size_t a = side == BW_EDGE_RIGHT ? i + 1 : i;
    const size_t b = side == BW_EDGE_ABOVE ? j + 1 : j;
    const int film = level ? grid->film_y[b * grid->nx + i]
                           : grid->film_x[j * (grid->nx + 1) + a];
    const size_t lines = level ? grid->ny : grid->nx, line = level ? b : a;
    if (film != BW_NOT_THERE || line == 0 || line == lines)
        return 1.0;
    const size_t cell = j * grid->nx + i;
    const size_t other = side == BW_EDGE_LEFT    ? cell - 1
                         : side == BW_EDGE_RIGHT ? cell + 1
                         : side == BW_EDGE_BELOW ? cell - grid->nx
                                                 : cell + grid->nx;
    return grid->material[other] == BW_NOT_THERE ? 1.0 : 0.5;
}

static bw_status find_faces(bw_vapour *v, bw_arena *arena, bw_error *err)
{
    const bw_raster *grid = v->grid;
    v->face = BW_NEW(arena, double, v->nodes.count + 1);
    BW_TRY_MEMORY(v->face != NULL, err);
    for (size_t j = 0; j < grid->ny; ++j)
        for (size_t i = 0; i < grid->nx; ++i)
            for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side) {
                const bool level = side == BW_EDGE_BELOW ||
                                   side == BW_EDGE_ABOVE;
                const double length = level ? grid->x[i + 1] - grid->x[i]
                                            : grid->y[j + 1] - grid->y[j];
                size_t end[2];
                if (grid->material[j * grid->nx + i] == BW_NOT_THERE ||
                    !bw_vapour_has_face(v, i, j, side))
                    continue;
                bw_nodes_ends(&v->nodes, j * grid->nx + i, side, end);
                for (size_t e = 0; e < 2; ++e)
                    v->face[end[e]] += 0.5 * length * seen(grid, i, j, side);
            }
    for (size_t n = 0; n < v->nodes.count; ++n)
        if (v->face[n] <= 0.0)
            v->face[n] = v->nodes.span[n];
    return BW_OK;
}

bw_status bw_vapour_make(bw_vapour *out, bw_arena *arena, const bw_raster *grid,
                         const double *surface, bw_error *err)
{
    *out = (bw_vapour){.grid = grid};
    BW_TRY(bw_nodes_of_heat(&out->heat, arena, grid, err));
    BW_TRY(bw_nodes_of_vapour(&out->nodes, arena, grid, &out->heat, err));
    out->weight = bw_arena_get(arena, out->heat.count,
                               grid->junction->environment_count *
                                   sizeof *out->weight);
    BW_TRY_MEMORY(out->weight != NULL, err);
    BW_TRY(bw_nodes_weights(out->weight, arena, &out->heat, surface, err));
    BW_TRY(find_members(out, arena, err));
    return find_faces(out, arena, err);
}
