/* The named places of a junction by months.
 *
 * Invariant: nothing is judged here. */

#include "junction_spots.h"

static bw_junction_spot find(const bw_junction_assessment *a, size_t s)
{
    const bw_junction_heat *h = a->heat;
    const bw_drawn_spot *at = &a->junction->spot[s];
    bw_junction_spot out = {
        .spot = at,
        .material = bw_junction_material_at(&h->raster, at->x, at->y)};
    const bw_material *m = out.material;
    out.has_rh = a->water.ran && m != NULL;
    out.has_moisture = out.has_rh && m->wood_kind != BW_NOT_WOOD &&
                       m->sorption.count >= 2;
    for (size_t month = 0; month < BW_MONTHS; month++) {
        double theta[BW_SPOT_ENVIRONMENTS];
        for (size_t e = 0; e < h->environment_count; e++)
            theta[e] = a->theta[e * BW_MONTHS + month];
        out.theta[month] = bw_junction_theta_at(h, theta, at->x, at->y);
        if (out.has_rh)
            out.rh[month] = a->water.spot_rh[s * BW_MONTHS + month];
        if (out.has_moisture)
            out.moisture[month] = bw_curve_linear(&m->sorption, out.rh[month]);
    }
    return out;
}

bool bw_junction_spots_find(bw_junction_assessment *a, bw_arena *arena)
{
    const size_t count = a->junction->spot_count;
    bw_junction_spot *spot = BW_NEW(arena, bw_junction_spot, count + 1);
    if (spot == NULL)
        return false;
    for (size_t s = 0; s < count; s++)
        spot[s] = find(a, s);
    a->spot = spot;
    a->spot_count = count;
    return true;
}
