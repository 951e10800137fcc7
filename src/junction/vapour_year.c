/* The years of the two-dimensional monthly method: those of the one-dimensional
 * one (cycle.h of the folder glaser), with nodes for planes. */

#include <math.h>
#include <string.h>

#include "cycle.h"
#include "fail.h"
#include "vapour_run.h"

/* By the air outside, of the first environment where the drawing has no
 * outside. */
static int wetting_month(const bw_vapour_run *run)
{
    const bw_junction *junction = run->vapour->grid->junction;
    size_t outside = 0;
    while (outside < junction->environment_count &&
           junction->environment[outside].kind != BW_ENVIRONMENT_OUTSIDE)
        ++outside;
    return bw_cycle_wetting(
        run->air[outside < junction->environment_count ? outside : 0].theta);
}

static void run_years(bw_vapour_run *run, double *start, double *gain)
{
    bw_vapour_result *out = run->out;
    const bool drying = run->options->wetting > 0.0;
    const double wetted = bw_vapour_water(run);
    const int most = run->options->max_cycles > 0 ? run->options->max_cycles
                                                  : BW_CYCLES_MOST;
    for (int cycle = 0; cycle < most && run->sound; ++cycle) {
        memcpy(start, run->mass, run->nodes * sizeof *start);
        for (int i = 0; i < BW_MONTHS && (cycle == 0 || !out->dried); ++i)
            bw_vapour_month(run, (run->start + i) % BW_MONTHS, cycle == 0);
        bw_cycle c = bw_cycle_of(gain, run->mass, start,
                                 run->vapour->nodes.span, run->nodes,
                                 bw_vapour_water(run), cycle == 0);
        out->cycles = cycle + 1;
        out->growth = c.growth;
        out->periodic = c.periodic;
        out->accumulates = c.accumulates;
        if (cycle == 0) {
            out->residual_first = bw_vapour_water(run);
            out->condensed = run->condensed;
            out->evaporated = run->evaporated;
        }
        if (out->dried || out->periodic || (out->accumulates && !drying))
            break;
    }
    out->residual_last = bw_vapour_water(run);
    if (drying && !out->dried)
        out->left = out->residual_last;
    double stored = out->residual_last - wetted;
    out->balance_error = fmax(fabs(run->condensed - run->evaporated - stored),
                              fabs(run->entered - stored));
}

/* What a place could lose in a year beyond its condensate, kept wet. */
static double reserve(bw_vapour_run *run, const bw_vapour_line *place)
{
    memset(run->mass, 0, run->nodes * sizeof *run->mass);
    run->kept_gain = 0.0;
    for (size_t i = 0; i < place->count; ++i)
        run->kept_wet[place->node[i]] = true;
    for (int i = 0; i < BW_MONTHS; ++i)
        bw_vapour_month(run, (run->start + i) % BW_MONTHS, false);
    for (size_t i = 0; i < place->count; ++i)
        run->kept_wet[place->node[i]] = false;
    return (-run->kept_gain - bw_vapour_water(run)) / place->total;
}

static bw_status check_places(const bw_vapour_run *run, bw_error *err)
{
    const bw_vapour_options *o = run->options;
    for (size_t k = 0; k < o->place_count; ++k)
        for (size_t i = 0; i < o->place[k].count; ++i)
            if (run->surface[o->place[k].node[i]])
                return bw_fail_domain(err, "a place whose reserve is asked for "
                                           "lies at a surface, not inside");
    return BW_OK;
}

bw_status bw_vapour_year(bw_vapour_result *out, bw_arena *arena,
                         const bw_vapour *vapour, const bw_vapour_air *air,
                         const bw_vapour_options *options, bw_error *err)
{
    bw_vapour_run run = {
        .vapour = vapour, .air = air, .options = options, .out = out};
    BW_TRY(bw_vapour_run_make(&run, arena, err));
    double *start = BW_NEW(arena, double, run.nodes);
    double *gain = BW_NEW(arena, double, run.nodes);
    BW_TRY_MEMORY(start != NULL && gain != NULL, err);
    BW_TRY(check_places(&run, err));
    BW_TRY(bw_vapour_choose(&run, arena, err));
    BW_TRY(bw_vapour_run_place(&run, arena, err));
    bw_vapour_conduct(&run);
    bw_vapour_dry_months(&run);
    out->start_month = options->start_month;
    if (out->start_month < 0)
        out->start_month = options->wetting > 0.0
                               ? wetting_month(&run)
                               : bw_cycle_start(run.condenses_from_dry);
    run.start = out->start_month;
    for (size_t i = 0; options->wetting > 0.0 && i < options->wet.count; ++i)
        run.mass[options->wet.node[i]] = options->wetting *
                                         options->wet.length[i];
    run_years(&run, start, gain);
    out->condenses = out->condensed > BW_LINE_STANDS;
    for (size_t k = 0; k < options->place_count && run.sound; ++k)
        out->reserve[k] = reserve(&run, &options->place[k]);
    out->eliminations = run.obstacle.stars.eliminations;
    if (!run.sound)
        return bw_fail_domain(err,
                              "a part of the drawing touches no environment");
    return BW_OK;
}
