#include "depth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/air.h"
#include "fail.h"

/* At theta < 0 only water bound tighter than ice stays liquid:
 *
 *   w_liquid = min(w, w_sorption(phi_f)),  ice = w - w_liquid
 *
 * with phi_f the vapour pressure of ice over that of water [derived;
 * thermodynamics from memory, high]. Supercooling and hysteresis are left out,
 * which gives more ice, sooner. Invariant: 0 <= ice <= w, and nothing of it
 * comes back into the simulation. */

static size_t slab_of(const bw_model *model, size_t cell)
{
    size_t k = 0;
    while (cell < model->range[k].first ||
           cell >= model->range[k].first + model->range[k].count)
        k++;
    return k;
}

static bool find(bw_depths *d, size_t place, double depth)
{
    const bw_wall *wall = &d->model->wall;
    double outer = 0.0;
    for (size_t i = 0; i < wall->n; i++) {
        outer += wall->dx[i];
        if (!(depth > 0.0) || depth > outer)
            continue;
        const size_t k = slab_of(d->model, i);
        const bw_storage *storage = &d->model->storage[k];
        d->cell[place] = i;
        d->result->depth[place] = (bw_depth){.depth = depth,
                                             .slab = k,
                                             .free_water = storage->free_water,
                                             .full_water = storage->full_water};
        return true;
    }
    return false;
}

bw_status bw_depths_init(bw_depths *d, bw_model *model,
                         bw_transient_result *result,
                         const bw_transient_options *options, bw_error *err)
{
    memset(d, 0, sizeof *d);
    d->model = model;
    d->result = result;
    const size_t count = options->depth_count;
    for (size_t k = 0; k < count; k++)
        if (count > BW_DEPTHS_MOST || !find(d, k, options->depth[k]))
            return bw_fail_domain(err,
                                  "at most %d depths, each within the wall, "
                                  "are watched in a simulation",
                                  BW_DEPTHS_MOST);
    if (count == 0)
        return BW_OK;
    result->depth_hours = calloc((size_t)BW_TRANSIENT_HOURS * count,
                                 sizeof *result->depth_hours);
    BW_TRY_MEMORY(result->depth_hours != NULL, err);
    result->depth_count = count;
    return BW_OK;
}

void bw_depths_year(bw_depths *d)
{
    d->hour = 0;
}

static double ice_of(const bw_storage *storage, double theta, double water)
{
    if (theta >= 0.0)
        return 0.0;
    const double bound = bw_storage_water(storage, bw_freezing_humidity(theta));
    return fmax(water - bound, 0.0);
}

void bw_depths_hour(bw_depths *d, const bw_solver *solver)
{
    bw_transient_result *r = d->result;
    if (r == NULL)
        return; /* none were asked for */
    for (size_t k = 0; k < r->depth_count; k++) {
        const size_t i = d->cell[k];
        const double theta = solver->v[2 * i];
        const double water = bw_cells_water(&solver->cells, i);
        const bw_storage *storage = &d->model->storage[r->depth[k].slab];
        r->depth_hours[d->hour * r->depth_count + k] = (bw_depth_hour){
            (float)theta, (float)water, (float)ice_of(storage, theta, water)};
    }
    d->hour++;
}
