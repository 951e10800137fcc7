/* Which mu: by the rule of the one-dimensional method (choice.c of the folder
 * glaser), for members in place of layers: the mean RH over a member's faces,
 * by their length, and over the twelve months, with dry values and no water.
 * A face is where the member meets something else; where the drawing is cut it
 * has none. Films: over both sides.
 *
 * Invariant: chosen once, so it cannot cycle with the profile. */

#include "fail.h"
#include "vapour_run.h"

static const double threshold = 0.70; /* ISO 10456 [M-hi] */

typedef struct means {
    double *rh, *length; /* of members, then of films */
} means;

static bool takes_wet(bw_mu_choice choice, double rh)
{
    if (choice == BW_MU_LOCAL)
        return rh > threshold;
    if (choice == BW_MU_OPPOSITE)
        return !(rh > threshold);
    return choice == BW_MU_WET;
}

static const bw_drawn_material *of_cell(const bw_vapour_run *run, size_t cell)
{
    const bw_raster *grid = run->vapour->grid;
    return &grid->junction->material[grid->material[cell]];
}

static void use_mu(bw_vapour_run *run)
{
    const bw_vapour *v = run->vapour;
    for (size_t cell = 0; cell < v->grid->nx * v->grid->ny; ++cell) {
        if (v->grid->material[cell] == BW_NOT_THERE)
            continue;
        const bw_drawn_material *material = of_cell(run, cell);
        bool wet = run->out->used_wet[v->member[cell]];
        run->permeability[v->member[cell]] =
            BW_DELTA_0 / (wet ? material->mu_wet : material->mu_dry);
    }
    for (size_t i = 0; i < v->nodes.pairs; ++i) {
        size_t f = v->nodes.pair[i].film;
        const bw_drawn_film *film = &v->grid->junction->film[f];
        if (film->sd_curve != NULL) /* a first guess */
            run->film_sd[i] = bw_curve_log(film->sd_curve, 0.5);
        else
            run->film_sd[i] = run->out->film_used_wet[f] ? film->sd_wet
                                                         : film->sd_dry;
    }
    bw_vapour_conduct(run);
}

static double rh_at(const bw_vapour_run *run, size_t month, size_t node)
{
    return run->obstacle.p[node] / run->out->psat[month * run->nodes + node];
}

static void add_cell(means *sum, const bw_vapour_run *run, size_t month,
                     size_t i, size_t j)
{
    const bw_raster *grid = run->vapour->grid;
    const size_t cell = j * grid->nx + i, m = run->vapour->member[cell];
    for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side) {
        bool upright = side == BW_EDGE_LEFT || side == BW_EDGE_RIGHT;
        double length = upright ? grid->y[j + 1] - grid->y[j]
                                : grid->x[i + 1] - grid->x[i];
        size_t end[2];
        if (!bw_vapour_has_face(run->vapour, i, j, side))
            continue;
        bw_nodes_ends(&run->vapour->nodes, cell, side, end);
        sum->rh[m] += 0.5 * length *
                      (rh_at(run, month, end[0]) + rh_at(run, month, end[1]));
        sum->length[m] += length;
    }
}

static void add_members(means *sum, const bw_vapour_run *run, size_t month)
{
    const bw_raster *grid = run->vapour->grid;
    for (size_t j = 0; j < grid->ny; ++j)
        for (size_t i = 0; i < grid->nx; ++i)
            if (grid->material[j * grid->nx + i] != BW_NOT_THERE)
                add_cell(sum, run, month, i, j);
}

static void add_films(means *sum, const bw_vapour_run *run, size_t month)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    for (size_t i = 0; i < nodes->pairs; ++i) {
        const bw_film_pair *pair = &nodes->pair[i];
        size_t at = run->vapour->members + pair->film;
        double shape = nodes->link[nodes->material_links + i].shape;
        sum->rh[at] += shape * 0.5 *
                       (rh_at(run, month, pair->a) +
                        rh_at(run, month, pair->b));
        sum->length[at] += shape;
    }
}

static bool by_humidity(const bw_vapour_run *run)
{
    const bw_junction *junction = run->vapour->grid->junction;
    bool both = false;
    for (size_t k = 0; k < junction->material_count; ++k)
        both = both ||
               junction->material[k].mu_dry != junction->material[k].mu_wet;
    for (size_t k = 0; k < junction->film_count; ++k)
        both = both || (junction->film[k].sd_curve == NULL &&
                        junction->film[k].sd_dry != junction->film[k].sd_wet);
    return both && (run->options->mu == BW_MU_LOCAL ||
                    run->options->mu == BW_MU_OPPOSITE);
}

/* mean RH, or what a fixed choice needs none of */
static void choose(bw_vapour_run *run, const means *sum)
{
    const bw_vapour *v = run->vapour;
    const bw_junction *junction = v->grid->junction;
    for (size_t cell = 0; cell < v->grid->nx * v->grid->ny; ++cell) {
        size_t m = v->member[cell];
        if (v->grid->material[cell] == BW_NOT_THERE)
            continue;
        const bw_drawn_material *material = of_cell(run, cell);
        double rh = sum->length[m] > 0.0 ? sum->rh[m] / sum->length[m] : 0.0;
        run->out->used_wet[m] = material->mu_dry != material->mu_wet &&
                                takes_wet(run->options->mu, rh);
    }
    for (size_t f = 0; f < junction->film_count; ++f) {
        const bw_drawn_film *film = &junction->film[f];
        size_t at = v->members + f;
        double rh = sum->length[at] > 0.0 ? sum->rh[at] / sum->length[at] : 0.0;
        run->out->film_used_wet[f] = film->sd_curve == NULL &&
                                     film->sd_dry != film->sd_wet &&
                                     takes_wet(run->options->mu, rh);
    }
}

bw_status bw_vapour_choose(bw_vapour_run *run, bw_arena *arena, bw_error *err)
{
    size_t count = run->vapour->members +
                   run->vapour->grid->junction->film_count;
    means sum = {.rh = BW_NEW(arena, double, count + 1),
                 .length = BW_NEW(arena, double, count + 1)};
    BW_TRY_MEMORY(sum.rh != NULL && sum.length != NULL, err);
    use_mu(run);
    for (int m = 0; by_humidity(run) && m < BW_MONTHS && run->sound; ++m) {
        bw_vapour_profile(run, m);
        add_members(&sum, run, (size_t)m);
        add_films(&sum, run, (size_t)m);
    }
    choose(run, &sum);
    use_mu(run);
    return BW_OK;
}
