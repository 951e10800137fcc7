/* The monthly method: what is refused, the order of the steps, and the years
 * until they repeat, ISO 13788 [from memory, high confidence].
 *
 * A year repeats the last if it ends as it began. It is proven to accumulate
 * if it gains at every plane what the year before did: the planes that gain
 * are wet all year, so each later year sees the same profiles. */

#include <assert.h>
#include <math.h>
#include <stdio.h>

#include "fail.h"
#include "run.h"

static const double same_state = 1e-6; /* kg/m2 */
static const double same_gain = 1e-9;  /* kg/m2, and relative */
enum { CYCLES_MOST = 10 };             /* ISO 13788 on drying [from memory] */

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

/* Three months before the coldest one. */
static int wetting_month(const bw_boundary *boundary)
{
    int coldest = 0;
    for (int m = 1; m < BW_MONTHS; ++m)
        if (boundary[m].theta_e < boundary[coldest].theta_e)
            coldest = m;
    return (coldest + BW_MONTHS - 3) % BW_MONTHS;
}

/* What a year brought, compared with the year before. */
typedef struct gains {
    double largest; /* kg/m2, of any plane, either sign */
    double total;
    bool as_before;
} gains;

static gains compare(const bw_run *run, const double *start, double *gain)
{
    gains g = {.as_before = true};
    double scale = fmax(1.0, bw_water(run));
    for (size_t j = 0; j < run->grid.nodes; ++j) {
        double now = run->mass[j] - start[j];
        if (!(fabs(now - gain[j]) <= same_gain * scale))
            g.as_before = false;
        gain[j] = now;
        g.largest = fmax(g.largest, fabs(now));
        g.total += now;
    }
    return g;
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
        gains g = compare(run, start, gain);
        out->cycles = cycle + 1;
        out->growth = g.total;
        if (cycle == 0) {
            out->residual_first = bw_water(run);
            out->condensed = run->condensed;
            out->evaporated = run->evaporated;
            for (size_t j = 0; j < nodes; ++j)
                run->first_peak[j] = run->year_peak[j];
        }
        out->periodic = g.largest <= same_state;
        out->accumulates = !out->periodic && cycle > 0 && g.as_before &&
                           g.total > same_state;
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
        run.start = run.wet_node != BW_NO_NODE ? wetting_month(boundary)
                                               : bw_start_month(&run);
    if (run.wet_node != BW_NO_NODE) {
        bw_run_put(&run, run.wet_node, options->wetting);
        run.stood[run.wet_node] = true;
    }
    run_years(out, &run,
              options->max_cycles > 0 ? options->max_cycles : CYCLES_MOST,
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
