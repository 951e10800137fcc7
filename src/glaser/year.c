/* From month to month: water at the planes.
 *
 * Within a month the boundary values are constant; a plane that runs dry
 * splits the month at that instant. With sd constant, pressures only fall
 * after a plane has dried (the profile is the greatest that is convex off the
 * wet planes and at most saturated), so no plane is wetted again: at most as
 * many splits as planes. The sd of variable layers is that of the month's
 * start.
 *
 * Invariants: no mass is negative; condensed - evaporated = change of the
 * water stored = what entered through the ends. */

#include "run.h"

/* Less than this at a plane is dropped [kg/m2]. */
static const double speck = 1e-14;

double bw_water(const bw_run *run)
{
    double sum = 0.0;
    for (size_t j = 0; j < run->grid.nodes; ++j)
        sum += run->mass[j];
    return sum;
}

bool bw_is_dry(const bw_run *run)
{
    uint64_t any = 0;
    for (size_t w = 0; w < run->rates.words; ++w)
        any |= run->moist[w];
    return any == 0;
}

/* The time until the first plane dries, at most `left`; which it is. */
static double until_dry(const bw_run *run, double left, size_t *which)
{
    double time = left;
    *which = BW_NO_NODE;
    for (size_t i = 0; i < run->rates.count; ++i) {
        const bw_flow *flow = &run->rates.flow[i];
        if (run->mass[flow->node] <= 0.0 || flow->rate >= 0.0)
            continue;
        double t = run->mass[flow->node] / -flow->rate;
        if (t < time) {
            time = t;
            *which = flow->node;
        }
    }
    return time;
}

static void note_peak(bw_water_peak *peak, double mass, int month)
{
    if (mass > peak->mass)
        *peak = (bw_water_peak){.mass = mass, .month = month};
}

static void pass_time(bw_run *run, int month, double time, size_t drying,
                      bool first)
{
    for (size_t i = 0; i < run->rates.count; ++i) {
        size_t j = run->rates.flow[i].node;
        double rate = run->rates.flow[i].rate;
        if (j == run->held) {
            run->held_gain += rate * time;
            continue;
        }
        double old = run->mass[j], mass = old + rate * time;
        if (j == drying || mass < speck)
            mass = 0.0;
        bw_run_put(run, j, mass);
        if (mass > old)
            run->condensed += mass - old;
        else
            run->evaporated += old - mass;
        if (first)
            run->first_gain[(size_t)month * run->grid.nodes + j] += mass - old;
        note_peak(&run->year_peak[j], mass, month);
        if (mass > BW_STANDS)
            run->stood[j] = true;
    }
    run->entered += run->inflow * time;
}

static void note_drying(bw_run *run, double months)
{
    if (run->wet_node == BW_NO_NODE || run->dried)
        return;
    for (size_t j = 0; j < run->grid.nodes && !run->condensed_elsewhere; ++j)
        if (j != run->wet_node && run->mass[j] > BW_STANDS)
            run->condensed_elsewhere = true;
    if (!run->wet_plane_dried && run->mass[run->wet_node] <= BW_STANDS) {
        run->wet_plane_dried = true;
        run->wet_plane_months = months;
    }
    /* a sum is no less than any of its parts */
    if (run->mass[run->wet_node] <= BW_STANDS && bw_water(run) <= BW_STANDS) {
        run->dried = true;
        run->months_to_dry = months;
    }
}

static void keep_start(bw_run *run, int month)
{
    size_t m = (size_t)month, nodes = run->grid.nodes, slabs = run->grid.slabs;
    for (size_t j = 0; j < nodes; ++j)
        run->first_p[m * nodes + j] = run->p[j];
    for (size_t k = 0; k < slabs; ++k)
        run->first_sd[m * slabs + k] = run->sd[k];
}

void bw_month_step(bw_run *run, int month, bool first)
{
    size_t nodes = run->grid.nodes, splits_most = 2 * nodes;
    double whole = run->seconds[month], left = whole;
    bool idle = run->held == BW_NO_NODE && !run->condenses_from_dry[month] &&
                bw_is_dry(run);
    if (!idle)
        bw_run_variable(run, month);
    for (size_t split = 0; !idle && left > 0.0; ++split) {
        bool show = first && split == 0;
        if (bw_rates_find(run, month, show) && show) /* else as when dry */
            keep_start(run, month);
        size_t drying = BW_NO_NODE;
        double time = left;
        if (split < splits_most)
            time = until_dry(run, left, &drying);
        pass_time(run, month, time, drying, first);
        left = time < left ? left - time : 0.0;
        note_drying(run, run->months + (whole - left) / whole);
    }
    run->months += 1.0;
    for (size_t j = 0; first && j < nodes; ++j)
        run->first_mass[(size_t)month * nodes + j] = run->mass[j];
}

void bw_dry_months(bw_run *run)
{
    for (int m = 0; m < BW_MONTHS; ++m) {
        bw_run_variable(run, m);
        bw_rates_find(run, m, true);
        keep_start(run, m);
        for (size_t i = 0; i < run->rates.count; ++i)
            if (run->rates.flow[i].rate * run->seconds[m] > speck)
                run->condenses_from_dry[m] = true;
    }
}

double bw_reserve(bw_run *run, size_t node)
{
    for (size_t j = 0; j < run->grid.nodes; ++j)
        bw_run_put(run, j, 0.0);
    run->held = node;
    run->held_gain = 0.0;
    for (int i = 0; i < BW_MONTHS; ++i)
        bw_month_step(run, (run->start + i) % BW_MONTHS, false);
    run->held = BW_NO_NODE;
    return -run->held_gain - bw_water(run);
}
