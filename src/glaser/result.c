/* What a run found, as the public result: the planes and the first cycle. */

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "fail.h"
#include "run.h"

static bool reported(const bw_run *run, size_t node)
{
    if (node == 0 || run->stood[node] || node == run->leak ||
        node == run->middle)
        return true;
    return node == run->grid.face[run->grid.slab[node - 1] + 1];
}

/* `sd`: from the outer surface to the node, by month [m]. */
static void fill_plane(bw_plane *plane, const bw_run *run, size_t node,
                       const double sd[BW_MONTHS])
{
    size_t nodes = run->grid.nodes;
    plane->at = bw_grid_at(&run->grid, run->section, node);
    plane->peak = run->first_peak[node].mass;
    plane->peak_month = run->first_peak[node].month;
    plane->residual =
        run->first_mass[(size_t)((run->start + 11) % BW_MONTHS) * nodes + node];
    for (size_t m = 0; m < BW_MONTHS; ++m) {
        size_t at = m * nodes + node;
        plane->month[m] = (bw_plane_month){
            .theta = run->theta[at],
            .saturation_pressure = run->psat[at],
            .vapour_pressure = run->first_p[at],
            .relative_humidity = run->first_p[at] / run->psat[at],
            .condensation = run->first_gain[at],
            .accumulated = run->first_mass[at],
            .sd_from_outside = sd[m],
        };
    }
}

bw_status bw_result_fill(bw_monthly_result *out, const bw_run *run,
                         const bool *used_wet, bw_error *err)
{
    size_t slabs = run->grid.slabs, count = 1; /* the outer surface always */
    for (size_t j = 1; j < run->grid.nodes; ++j)
        count += reported(run, j);
    out->plane = calloc(count, sizeof *out->plane);
    out->layer_sd = calloc(slabs, sizeof *out->layer_sd);
    out->used_wet = calloc(slabs, sizeof *out->used_wet);
    BW_TRY_MEMORY(out->plane != NULL && out->layer_sd != NULL &&
                      out->used_wet != NULL,
                  err);
    out->slab_count = slabs;
    for (size_t k = 0; k < slabs; ++k) {
        out->used_wet[k] = used_wet[k];
        for (size_t m = 0; m < BW_MONTHS; ++m)
            out->layer_sd[k][m] = run->first_sd[m * slabs + k];
    }
    double sd[BW_MONTHS] = {0.0};
    for (size_t j = 0; j < run->grid.nodes; ++j) {
        for (size_t m = 0; j > 0 && m < BW_MONTHS; ++m)
            sd[m] += run->first_sd[m * slabs + run->grid.slab[j - 1]] *
                     run->grid.share[j - 1];
        if (!reported(run, j))
            continue;
        const bw_water_peak *peak = &run->year_peak[j];
        if (peak->mass > out->peak) {
            out->peak = peak->mass;
            out->peak_month = peak->month;
            out->peak_plane = out->plane_count;
        }
        fill_plane(&out->plane[out->plane_count++], run, j, sd);
    }
    out->start_month = run->start;
    out->converged = run->converged;
    out->dried = run->dried;
    out->months_to_dry = run->months_to_dry;
    out->wet_plane_dried = run->wet_plane_dried;
    out->wet_plane_months = run->wet_plane_months;
    out->condensed_elsewhere = run->condensed_elsewhere;
    return BW_OK;
}

static bool same_plane(bw_plane_at a, bw_plane_at b)
{
    return a.slab == b.slab && a.layer_face == b.layer_face &&
           (a.layer_face || fabs(a.depth - b.depth) < 1e-9);
}

size_t bw_result_plane(const bw_monthly_result *result, bw_plane_at at)
{
    size_t i = 0;
    while (!same_plane(result->plane[i].at, at)) {
        ++i;
        assert(i < result->plane_count);
    }
    return i;
}

void bw_monthly_free(bw_monthly_result *result)
{
    if (result == NULL)
        return;
    free(result->plane);
    free(result->layer_sd);
    free(result->used_wet);
    *result = (bw_monthly_result){0};
}
