/* The nodes of a section: every layer face, and within a layer the ends of
 * its strips.
 *
 * Invariant: the shares of a slab's segments add up to 1; a wall listed the
 * other way has the same nodes. */

#include <math.h>

#include "fail.h"
#include "run.h"
#include "vapour.h"

/* Planes nearer than this part of a layer are one. */
static const double same_place = 1e-6;

/* Where in its slab a plane within lies, 0..1. */
static double place(const bw_section *section, bw_plane_at at)
{
    double thickness = section->slab[at.slab].thickness;
    if (at.layer_face)
        return 1.0;
    return thickness > 0.0 ? at.depth / thickness : 0.0;
}

/* The next extra plane of a slab strictly between two places, or `high`;
 * places here count strips. */
static double next_place(const bw_section *section, const bw_plane_at *extra,
                         size_t count, size_t slab, double n, double low,
                         double high)
{
    double next = high;
    for (size_t i = 0; i < count; ++i) {
        if (extra[i].slab != slab)
            continue;
        double x = place(section, extra[i]) * n;
        if (x > low + same_place * n && x < high - same_place * n && x < next)
            next = x;
    }
    return next;
}

static void cut_slab(bw_grid *grid, const bw_section *section,
                     const bw_plane_at *extra, size_t extra_count, size_t slab)
{
    size_t count = bw_slab_strips(&section->slab[slab]);
    double n = (double)count;
    for (size_t i = 0; i < count; ++i) {
        double low = (double)i, high = (double)(i + 1);
        while (low < high) {
            double next = next_place(section, extra, extra_count, slab, n, low,
                                     high);
            grid->slab[grid->nodes - 1] = slab;
            grid->share[grid->nodes - 1] = (next - low) / n;
            grid->depth[grid->nodes] = next / n;
            ++grid->nodes;
            low = next;
        }
    }
}

bw_status bw_grid_make(bw_grid *grid, bw_arena *arena,
                       const bw_section *section, const bw_plane_at *extra,
                       size_t extra_count, bw_error *err)
{
    size_t most = 1 + extra_count;
    for (size_t k = 0; k < section->slab_count; ++k)
        most += bw_slab_strips(&section->slab[k]);
    grid->slabs = section->slab_count;
    grid->face = bw_arena_get(arena, grid->slabs + 1, sizeof *grid->face);
    grid->slab = bw_arena_get(arena, most, sizeof *grid->slab);
    grid->share = bw_arena_get(arena, most, sizeof *grid->share);
    grid->depth = bw_arena_get(arena, most, sizeof *grid->depth);
    BW_TRY_MEMORY(!arena->failed, err);
    grid->nodes = 1;
    for (size_t k = 0; k < grid->slabs; ++k) {
        cut_slab(grid, section, extra, extra_count, k);
        grid->face[k + 1] = grid->nodes - 1;
    }
    return BW_OK;
}

size_t bw_grid_node(const bw_grid *grid, const bw_section *section,
                    bw_plane_at at)
{
    if (at.slab >= grid->slabs)
        return BW_NO_NODE;
    if (at.layer_face)
        return grid->face[at.slab + 1];
    double wanted = place(section, at);
    if (fabs(wanted) <= same_place)
        return grid->face[at.slab];
    for (size_t j = grid->face[at.slab] + 1; j <= grid->face[at.slab + 1]; ++j)
        if (fabs(grid->depth[j] - wanted) <= same_place)
            return j;
    return BW_NO_NODE;
}

bw_plane_at bw_grid_at(const bw_grid *grid, const bw_section *section,
                       size_t node)
{
    if (node == 0)
        return (bw_plane_at){0};
    size_t slab = grid->slab[node - 1];
    bool face = node == grid->face[slab + 1];
    double thickness = section->slab[slab].thickness;
    return (bw_plane_at){
        .slab = slab,
        .depth = face ? thickness : grid->depth[node] * thickness,
        .layer_face = face,
    };
}
