/* Temperatures at the nodes, where saturation is asked for: the same steady
 * heat as in the cells' middles (heat.c), with its unknowns at the crossings of
 * the lines, so that layers in a strip have the temperatures of one dimension.
 *
 *   T = sum over environments of weight T_e
 *
 * Between faces of given temperature the cells' middles carry too little heat
 * and the crossings too much (Thomson's and Dirichlet's principle), so the two
 * enclose what is true [derived]. Invariants: a weight is within 0..1; the sum
 * of all weights of a node is 1. */

#include "fail.h"
#include "vapour_nodes.h"

static void set_conductances(double *g, const bw_nodes *heat,
                             const double *surface)
{
    const bw_junction *junction = heat->grid->junction;
    for (size_t l = 0; l < heat->links; ++l) {
        const bw_net_link *link = &heat->link[l];
        if (l < heat->material_links) {
            int material = heat->grid->material[link->of];
            g[l] = junction->material[material].conductivity * link->shape;
        } else if (surface[link->of] > 0.0) {
            g[l] = link->shape / surface[link->of];
        } else {
            g[l] = link->shape; /* both ends are held */
        }
    }
}

/* Of an environment: its own nodes, and faces without a resistance. */
static void hold(bool *held, size_t *of, const bw_nodes *heat,
                 const double *surface)
{
    for (size_t n = 0; n < heat->count; ++n)
        if (heat->environment[n] != BW_NO_ENVIRONMENT) {
            held[n] = true;
            of[n] = (size_t)heat->environment[n];
        }
    for (size_t l = heat->material_links; l < heat->links; ++l) {
        const bw_net_link *link = &heat->link[l];
        if (surface[link->of] <= 0.0) {
            held[link->a] = true;
            of[link->a] = link->of;
        }
    }
}

bw_status bw_nodes_weights(double *weight, bw_arena *arena,
                           const bw_nodes *heat, const double *surface,
                           bw_error *err)
{
    double *g = BW_NEW(arena, double, heat->links + 1);
    bool *held = BW_NEW(arena, bool, heat->count + 1);
    size_t *of = BW_NEW(arena, size_t, heat->count + 1);
    bw_net net;
    bw_stars stars;
    BW_TRY_MEMORY(g != NULL && held != NULL && of != NULL, err);
    BW_TRY(bw_net_make(&net, arena, heat->count, heat->link, heat->links, err));
    BW_TRY(bw_stars_make(&stars, arena, &net, err));
    set_conductances(g, heat, surface);
    hold(held, of, heat, surface);
    bw_net_set(&net, g);
    if (!bw_stars_eliminate(&stars, held))
        return bw_fail_domain(err,
                              "a part of the drawing touches no environment");
    for (size_t e = 0; e < heat->grid->junction->environment_count; ++e) {
        double *value = weight + e * heat->count;
        for (size_t n = 0; n < heat->count; ++n)
            value[n] = held[n] && of[n] == e ? 1.0 : 0.0;
        bw_stars_solve(&stars, value, NULL);
    }
    return BW_OK;
}
