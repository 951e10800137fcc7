/* Stated room air in the monthly method: what it holds more than it can at a
 * node stays there, as of a wall's leaking air. Of a place the flow is shared
 * by the length of face between materials that its nodes stand for.
 *
 * Invariant: nodes at surfaces get none; all of a flow is shared out. */

#include <math.h>
#include <stdint.h>

#include "fail.h"
#include "water.h"

/* Between two members, or at a film. */
static bool *find_meeting(const bw_vapour *v, bw_arena *arena)
{
    const bw_nodes *nodes = &v->nodes;
    const bw_raster *g = v->grid;
    bool *meets = BW_NEW(arena, bool, nodes->count + 1);
    size_t *first = BW_NEW(arena, size_t, nodes->count + 1);
    if (meets == NULL || first == NULL)
        return NULL;
    for (size_t n = 0; n < nodes->count; n++)
        first[n] = SIZE_MAX;
    for (size_t c = 0; c < g->nx * g->ny; c++)
        for (size_t k = 0; g->material[c] != BW_NOT_THERE && k < BW_CORNERS;
             k++) {
            const size_t n = nodes->corner[c * BW_CORNERS + k];
            meets[n] = meets[n] ||
                       (first[n] != SIZE_MAX && first[n] != v->member[c]);
            first[n] = v->member[c];
        }
    for (size_t i = 0; i < nodes->pairs; i++)
        meets[nodes->pair[i].a] = meets[nodes->pair[i].b] = true;
    return meets;
}

static bool within(const bw_rectangle *at, double x, double y)
{
    static const double NEAR = 1e-7; /* m */
    return x >= at->x0 - NEAR && x <= at->x1 + NEAR && y >= at->y0 - NEAR &&
           y <= at->y1 + NEAR;
}

/* Of one place; false: no node within is there. */
static bool share(const bw_vapour *v, const bw_drawn_air *air,
                  const bool *meets, double *flow)
{
    const bw_nodes *nodes = &v->nodes;
    double sum = 0.0;
    for (int round = 0; round < 2; round++)
        for (size_t n = 0; n < nodes->count; n++) {
            if (nodes->environment[n] != BW_NO_ENVIRONMENT || !meets[n] ||
                !within(&air->at, nodes->x[n], nodes->y[n]))
                continue;
            if (round == 0)
                sum += v->face[n];
            else
                flow[n] += air->flow * v->face[n] / sum;
        }
    return sum > 0.0;
}

bw_status bw_water_air(bw_vapour_options *o, bw_arena *arena,
                       const bw_vapour *v, bw_error *err)
{
    const bw_junction *j = v->grid->junction;
    const size_t count = v->nodes.count;
    bw_vapour_line *to = &o->leak;
    const bool *meets = find_meeting(v, arena);
    double *flow = BW_NEW(arena, double, count + 1);
    *to = (bw_vapour_line){.node = BW_NEW(arena, size_t, count + 1),
                           .length = BW_NEW(arena, double, count + 1)};
    BW_TRY_MEMORY(!arena->failed && meets != NULL, err);
    for (size_t k = 0; k < j->air_count; k++)
        if (j->air[k].flow > 0.0 && !share(v, &j->air[k], meets, flow))
            return bw_fail_domain(err,
                                  "the room air at \"%.60s\" finds no face "
                                  "between two materials in the drawing",
                                  j->air[k].name);
    for (size_t n = 0; n < count; n++)
        if (flow[n] > 0.0) {
            to->node[to->count] = n;
            to->length[to->count++] = flow[n]; /* times 1 m3/(m2 s) */
            to->total += flow[n];
        }
    o->has_air_flow = to->count > 0;
    for (size_t m = 0; m < BW_MONTHS; m++)
        o->air_flow[m] = 1.0;
    o->leaking_room = j->air_count > 0 ? j->air[0].environment : 0;
    return BW_OK;
}
