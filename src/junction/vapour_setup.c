/* A run before its first month: what is refused, temperatures and saturation,
 * which nodes have an environment's state, what is wetted or leaks, and what a
 * drying test with one way out leaves out.
 *
 * One way out: the environments on the closed side take nothing, and what lies
 * beyond the wetted line, seen from the open ones, is left out [derived: where
 * the line goes all through the drawing it is the tight film of the
 * one-dimensional test; where it ends, vapour goes round it]. */

#include <math.h>

#include "fail.h"
#include "vapour_run.h"

static const double least_sd = 1e-6, most_sd = 1e9; /* m, as in one dimension */

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static bw_status check(const bw_vapour_run *run, bw_error *err)
{
    const bw_vapour_options *o = run->options;
    size_t environments = run->vapour->grid->junction->environment_count;
    for (size_t e = 0; e < environments; ++e)
        for (int m = 0; m < BW_MONTHS; ++m)
            if (!within(run->air[e].theta[m], -100.0, 200.0) ||
                !within(run->air[e].p[m], 0.0, 1e6))
                return bw_fail_domain(
                    err,
                    "%s: a temperature or vapour pressure of \"%s\" is no "
                    "number or far out of range",
                    bw_month_name(m),
                    run->vapour->grid->junction->environment[e].id);
    bool good = within(o->wetting, 0.0, 1e6) && o->start_month >= -1 &&
                o->start_month < BW_MONTHS && o->mu <= BW_MU_WET;
    good = good && (o->wetting <= 0.0 || o->wet.count > 0);
    good = good &&
           !(o->wetting > 0.0 && o->ways != BW_DRY_BOTH && o->has_air_flow);
    good = good && (!o->has_air_flow ||
                    (o->leak.count > 0 && o->leaking_room < environments));
    for (int m = 0; m < BW_MONTHS && o->has_air_flow; ++m)
        good = good && within(o->air_flow[m], 0.0, 1.0);
    if (good)
        return BW_OK;
    return bw_fail_domain(err, "options of the two-dimensional monthly method "
                               "out of range or not possible together");
}

static bw_status reserve(bw_vapour_run *run, bw_arena *arena, bw_error *err)
{
    const bw_junction *junction = run->vapour->grid->junction;
    size_t n = run->nodes, all = n * BW_MONTHS;
    size_t pairs = run->vapour->nodes.pairs;
    bw_vapour_result *out = run->out;
    const struct {
        double **where;
        size_t count;
    } part[] = {
        {&out->theta, all},
        {&out->psat, all},
        {&out->p, all},
        {&out->gain, all},
        {&out->mass, all},
        {&out->film_sd, pairs * BW_MONTHS},
        {&out->flow, junction->environment_count * BW_MONTHS},
        {&out->peak, n},
        {&out->reserve, run->options->place_count},
        {&run->source, all},
        {&run->permeability, run->vapour->members},
        {&run->film_sd, pairs},
        {&run->g, run->vapour->nodes.links},
        {&run->mass, n},
        {&run->before, n},
        {&run->scratch, n},
    };
    for (size_t i = 0; i < sizeof part / sizeof part[0]; ++i)
        *part[i].where = BW_NEW(arena, double, part[i].count + 1);
    run->surface = BW_NEW(arena, bool, n);
    run->open = BW_NEW(arena, bool, junction->environment_count + 1);
    run->left_out = BW_NEW(arena, bool, n);
    run->wetted = BW_NEW(arena, bool, n);
    run->kept_wet = BW_NEW(arena, bool, n);
    run->guess = BW_NEW(arena, bool, all);
    run->variable = BW_NEW(arena, size_t, pairs + 1);
    out->followed = BW_NEW(arena, bool, n);
    out->used_wet = BW_NEW(arena, bool, run->vapour->members + 1);
    out->film_used_wet = BW_NEW(arena, bool, junction->film_count + 1);
    return arena->failed ? bw_fail_memory(err) : BW_OK;
}

static void set_temperatures(bw_vapour_run *run)
{
    const bw_vapour *v = run->vapour;
    size_t environments = v->grid->junction->environment_count;
    for (size_t m = 0; m < BW_MONTHS; ++m)
        for (size_t n = 0; n < run->nodes; ++n) {
            double theta = 0.0;
            for (size_t e = 0; e < environments; ++e)
                theta += v->weight[e * v->heat.count + v->nodes.twin[n]] *
                         run->air[e].theta[m];
            run->out->theta[m * run->nodes + n] = theta;
            run->out->psat[m * run->nodes + n] = bw_saturation_pressure(theta);
        }
}

static bool is_inside(const bw_vapour_run *run, const bw_vapour_line *line)
{
    for (size_t i = 0; i < line->count; ++i)
        if (line->node[i] >= run->nodes || run->surface[line->node[i]])
            return false;
    return true;
}

static bw_status place_leak(bw_vapour_run *run, bw_error *err)
{
    const bw_vapour_options *o = run->options;
    const bw_vapour_air *room = &run->air[o->leaking_room];
    if (!is_inside(run, &o->leak))
        return bw_fail_domain(err, "the leak ends at a surface, not inside");
    for (size_t m = 0; m < BW_MONTHS; ++m)
        for (size_t i = 0; i < o->leak.count; ++i) {
            size_t at = m * run->nodes + o->leak.node[i];
            double excess = bw_vapour_concentration(room->theta[m],
                                                    room->p[m]) -
                            bw_vapour_concentration(run->out->theta[at],
                                                    run->out->psat[at]);
            run->source[at] = fmax(0.0,
                                   o->leak.length[i] * o->air_flow[m] * excess);
        }
    return BW_OK;
}

/* ---- one way out --------------------------------------------------------- */

static bool open_surface(const bw_vapour_run *run, size_t node)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    int a = nodes->environment[node], b = nodes->environment2[node];
    return (a != BW_NO_ENVIRONMENT && run->open[a]) ||
           (b != BW_NO_ENVIRONMENT && run->open[b]);
}

/* Leaves out what cannot be reached from the open surfaces without crossing
 * the wetted line, along which it can. */
static bw_status leave_out(bw_vapour_run *run, bw_arena *arena, bw_error *err)
{
    size_t *stack = BW_NEW(arena, size_t, run->nodes), depth = 0;
    BW_TRY_MEMORY(stack != NULL, err);
    for (size_t n = 0; n < run->nodes; ++n) {
        run->left_out[n] = !run->surface[n];
        if (run->surface[n])
            stack[depth++] = n;
    }
    while (depth > 0) {
        size_t node = stack[--depth],
               end = run->net.start[node] + run->net.count[node];
        for (size_t k = run->net.start[node]; k < end; ++k) {
            size_t other = run->net.other[k];
            if (!run->left_out[other] ||
                (run->wetted[node] && !run->wetted[other]))
                continue;
            run->left_out[other] = false;
            stack[depth++] = other;
        }
    }
    return BW_OK;
}

static bw_status place_wetting(bw_vapour_run *run, bw_arena *arena,
                               bw_error *err)
{
    const bw_vapour_options *o = run->options;
    if (!is_inside(run, &o->wet))
        return bw_fail_domain(err,
                              "the wetted line lies at a surface, not inside");
    for (size_t i = 0; i < o->wet.count; ++i)
        run->wetted[o->wet.node[i]] = true;
    if (o->ways == BW_DRY_BOTH)
        return BW_OK;
    const bw_junction *junction = run->vapour->grid->junction;
    for (size_t e = 0; e < junction->environment_count; ++e)
        run->open[e] = (junction->environment[e].kind == BW_ENVIRONMENT_ROOM) ==
                       (o->ways == BW_DRY_INWARDS);
    for (size_t n = 0; n < run->nodes; ++n)
        run->surface[n] = open_surface(run, n);
    BW_TRY(leave_out(run, arena, err));
    for (size_t i = 0; i < o->wet.count; ++i)
        if (run->left_out[o->wet.node[i]])
            return bw_fail_domain(err, "the wetted line touches nothing from "
                                       "which vapour gets out that way");
    return BW_OK;
}

/* A face to an environment is wet, too. */
static void soak(bw_vapour_run *run)
{
    const bw_vapour *v = run->vapour;
    for (size_t c = 0; c < BW_CORNERS * v->grid->nx * v->grid->ny; ++c) {
        if (v->member[c / BW_CORNERS] != run->options->soaked_member)
            continue;
        run->kept_wet[v->nodes.corner[c]] = true;
        run->surface[v->nodes.corner[c]] = false;
    }
}

/* ---- all of it ----------------------------------------------------------- */

bw_status bw_vapour_run_make(bw_vapour_run *run, bw_arena *arena, bw_error *err)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    const bw_junction *junction = run->vapour->grid->junction;
    run->nodes = nodes->count;
    run->sound = true;
    *run->out = (bw_vapour_result){.converged = true};
    BW_TRY(check(run, err));
    BW_TRY(reserve(run, arena, err));
    for (size_t i = 0; i < nodes->pairs; ++i)
        if (junction->film[nodes->pair[i].film].sd_curve != NULL)
            run->variable[run->variables++] = i;
    run->films = BW_NEW(arena, double, BW_FILM_ROOM * run->variables + 1);
    BW_TRY_MEMORY(run->films != NULL, err);
    BW_TRY(bw_net_make(&run->net, arena, run->nodes, nodes->link, nodes->links,
                       err));
    BW_TRY(bw_obstacle_make(&run->obstacle, arena, &run->net, err));
    for (int m = 0; m < BW_MONTHS; ++m)
        run->seconds[m] = bw_month_seconds(m);
    set_temperatures(run);
    for (size_t e = 0; e < junction->environment_count; ++e)
        run->open[e] = true;
    for (size_t n = 0; n < run->nodes; ++n)
        run->surface[n] = open_surface(run, n);
    return BW_OK;
}

bw_status bw_vapour_run_place(bw_vapour_run *run, bw_arena *arena,
                              bw_error *err)
{
    if (run->options->wetting > 0.0)
        BW_TRY(place_wetting(run, arena, err));
    for (size_t n = 0; n < run->nodes; ++n)
        run->out->followed[n] = !run->left_out[n];
    if (run->options->soaked)
        soak(run);
    return run->options->has_air_flow ? place_leak(run, err) : BW_OK;
}

void bw_vapour_conduct(bw_vapour_run *run)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    for (size_t l = 0; l < nodes->links; ++l) {
        const bw_net_link *link = &nodes->link[l];
        double sd = l < nodes->material_links ? 1.0 : run->film_sd[link->of];
        /* written so that a NaN becomes the least */
        sd = sd > least_sd ? fmin(sd, most_sd) : least_sd;
        double k = l < nodes->material_links
                       ? run->permeability[run->vapour->member[link->of]]
                       : BW_DELTA_0 / sd;
        bool cut = run->left_out[link->a] || run->left_out[link->b];
        run->g[l] = cut ? 0.0 : k * link->shape;
    }
    bw_net_set(&run->net, run->g);
}
