/* The monthly method: what is refused, the order of the steps, and the years
 * until they repeat (cycle.h), ISO 13788 [from memory, high confidence]. */

#include <assert.h>
#include <math.h>
#include <stdio.h>

#include "cycle.h"
#include "fail.h"
#include "run.h"

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static bw_status check_section(const bw_section *section, bw_error *err)
{
    if (section->slab_count == 0)
        return bw_fail_domain(err, "a section has no layers");
    double total = section->outer_resistance + section->inner_resistance;
    bool good = section->outer_resistance >= 0.0 &&
                section->inner_resistance >= 0.0;
    for (size_t k = 0; k < section->slab_count && good; ++k) {
        const bw_slab *slab = &section->slab[k];
        good = within(slab->resistance, 0.0, 1e6) && slab->sd_dry >= 0.0 &&
               slab->sd_wet >= 0.0 && within(slab->thickness, 0.0, 1e6);
        total += slab->resistance;
        if (!good)
            return bw_fail_domain(
                err, "%s: thickness, resistance or sd is negative or no number",
                slab->label);
    }
    if (!good || !within(total, 1e-9, 1e9))
        return bw_fail_domain(
            err, "the resistances of a section have no usable sum");
    return BW_OK;
}

static bw_status check_boundary(const bw_boundary *boundary, bw_error *err)
{
    for (int m = 0; m < BW_MONTHS; ++m) {
        const bw_boundary *b = &boundary[m];
        if (!within(b->theta_e, -100.0, 200.0) ||
            !within(b->theta_i, -100.0, 200.0) || !within(b->p_e, 0.0, 1e6) ||
            !within(b->p_i, 0.0, 1e6))
            return bw_fail_domain(err,
                                  "%s: a temperature or vapour pressure is no "
                                  "number or far out of range",
                                  bw_month_name(m));
    }
    return BW_OK;
}

static bw_status check_options(const bw_section *section,
                               const bw_monthly_options *o, bw_error *err)
{
    bool good = within(o->wetting, 0.0, 1e6) && o->start_month >= -1 &&
                o->start_month < BW_MONTHS;
    good = good && (!o->saturated || o->saturated_slab < section->slab_count);
    bool one_sided = o->wetting > 0.0 && o->ways != BW_DRY_BOTH;
    good = good && !(one_sided && (o->saturated || o->has_air_flow));
    for (int m = 0; m < BW_MONTHS && o->has_air_flow; ++m)
        good = good && within(o->air_flow[m], 0.0, 1.0);
    if (good)
        return BW_OK;
    return bw_fail_domain(
        err,
        "options of the monthly method out of range or not possible together");
}

/* One year from run->start; a drying test stops when dry. */
static void run_year(bw_run *run, bool first)
{
    for (size_t j = 0; j < run->grid.nodes; ++j)
        run->year_peak[j] = (bw_water_peak){.mass = run->mass[j],
                                            .month = run->start};
    for (int i = 0; i < BW_MONTHS && (first || !run->dried); ++i)
        bw_month_step(run, (run->start + i) % BW_MONTHS, first);
}

static void run_years(bw_monthly_result *out, bw_run *run, int most,
                      double *start, double *gain)
{
    size_t nodes = run->grid.nodes;
    double wetted = bw_water(run);
    for (int cycle = 0; cycle < most; ++cycle) {
        for (size_t j = 0; j < nodes; ++j)
            start[j] = run->mass[j];
        run_year(run, cycle == 0);
        bw_cycle c = bw_cycle_of(gain, run->mass, start, NULL, nodes,
                                 bw_water(run), cycle == 0);
        out->cycles = cycle + 1;
        out->growth = c.growth;
        out->periodic = c.periodic;
        out->accumulates = c.accumulates;
        if (cycle == 0) {
            out->residual_first = bw_water(run);
            out->condensed = run->condensed;
            out->evaporated = run->evaporated;
            for (size_t j = 0; j < nodes; ++j)
                run->first_peak[j] = run->year_peak[j];
        }
        bool drying = run->wet_node != BW_NO_NODE; /* ten years, then */
        if (run->dried || out->periodic || (out->accumulates && !drying))
            break;
    }
    out->residual_last = bw_water(run);
    if (run->wet_node != BW_NO_NODE && !run->dried)
        out->left = out->residual_last;
    double stored = out->residual_last - wetted;
    out->balance_error = fmax(fabs(run->condensed - run->evaporated - stored),
                              fabs(run->entered - stored));
}

/* What the node could lose if kept wet. */
static void set_reserve(bw_monthly_result *out, bw_run *run, size_t node)
{
    double reserve = bw_reserve(run, node);
    if (out->has_reserve && reserve >= out->reserve)
        return;
    bw_plane_at at = bw_grid_at(&run->grid, run->section, node);
    out->has_reserve = true;
    out->reserve = reserve;
    out->critical_plane = bw_result_plane(out, at);
    out->converged = run->converged;
}

/* The plane that matters most, and what it could lose if kept wet. */
static void find_reserve(bw_monthly_result *out, bw_run *run,
                         const bw_monthly_options *options)
{
    const bw_grid *grid = &run->grid;
    bw_plane_at at = bw_critical_plane(run->section, out);
    bool one = run->wet_node != BW_NO_NODE || run->leak != BW_NO_NODE;
    if (one)
        at = bw_grid_at(grid, run->section,
                        run->wet_node != BW_NO_NODE ? run->wet_node
                                                    : run->leak);
    out->critical_plane = bw_result_plane(out, at);
    if (run->wet_node != BW_NO_NODE || options->saturated)
        return;
    for (size_t i = 0; !one && i < options->place_count; ++i) {
        size_t node = bw_grid_node(grid, run->section, options->place[i]);
        if (node != BW_NO_NODE && run->may_hold[node])
            set_reserve(out, run, node);
    }
    size_t node = bw_grid_node(grid, run->section, at);
    assert(node != BW_NO_NODE);
    if (!out->has_reserve && run->may_hold[node])
        set_reserve(out, run, node);
}

static int first_month(const bw_run *run, const bw_boundary *boundary)
{
    double theta_e[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; ++m)
        theta_e[m] = boundary[m].theta_e;
    return run->wet_node != BW_NO_NODE
               ? bw_cycle_wetting(theta_e)
               : bw_cycle_start(run->condenses_from_dry);
}

static bw_status monthly(bw_monthly_result *out, bw_arena *arena,
                         const bw_section *section, const bw_boundary *boundary,
                         const bw_monthly_options *options, bw_error *err)
{
    bw_run run;
    BW_TRY(bw_run_make(&run, arena, section, boundary, options, err));
    size_t nodes = run.grid.nodes;
    double *start = bw_arena_get(arena, nodes, sizeof *start);
    double *gain = bw_arena_get(arena, nodes, sizeof *gain);
    bool *used_wet = bw_arena_get(arena, run.grid.slabs, sizeof *used_wet);
    BW_TRY_MEMORY(start != NULL && gain != NULL && used_wet != NULL, err);
    BW_TRY(bw_run_choose_mu(&run, arena, options->mu, used_wet, err));
    BW_TRY(bw_run_place(&run, options, err));
    bw_dry_months(&run);
    run.start = options->start_month;
    if (run.start < 0)
        run.start = first_month(&run, boundary);
    if (run.wet_node != BW_NO_NODE) {
        bw_run_put(&run, run.wet_node, options->wetting);
        run.stood[run.wet_node] = true;
    }
    run_years(out, &run,
              options->max_cycles > 0 ? options->max_cycles : BW_CYCLES_MOST,
              start, gain);
    BW_TRY(bw_result_fill(out, &run, used_wet, err));
    out->condenses = out->condensed > BW_STANDS;
    find_reserve(out, &run, options);
    if (out->peak <= BW_STANDS)
        out->peak_plane = out->critical_plane;
    return BW_OK;
}

bw_status bw_monthly(bw_monthly_result *out, const bw_section *section,
                     const bw_boundary boundary[BW_MONTHS],
                     const bw_monthly_options *options, bw_error *err)
{
    static const bw_monthly_options defaults = {.start_month = -1};
    *out = (bw_monthly_result){0};
    if (options == NULL)
        options = &defaults;
    BW_TRY(check_section(section, err));
    BW_TRY(check_boundary(boundary, err));
    BW_TRY(check_options(section, options, err));
    if (options->run != NULL)
        snprintf(out->run, sizeof out->run, "%s", options->run);
    bw_arena arena = {0};
    bw_status status = monthly(out, &arena, section, boundary, options, err);
    bw_arena_release(&arena);
    if (status != BW_OK)
        bw_monthly_free(out);
    return status;
}
