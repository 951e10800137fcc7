/* The years of the two-dimensional monthly method: those of the one-dimensional
 * one (monthly.c and year.c of the folder glaser), with nodes for planes.
 *
 * A year repeats the last if it ends as it began; it is proven to accumulate if
 * it gains at every node what the year before did. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "vapour_run.h"

static const double same_state = 1e-6; /* kg/m2, over a node's span */
static const double same_gain = 1e-9;  /* the same, and relative */
enum { CYCLES_MOST = 10 };

typedef struct gains {
    double largest; /* kg/m2, of any node, either sign */
    double total;   /* kg/m */
    bool as_before;
} gains;

static gains compare(const bw_vapour_run *run, const double *start,
                     double *gain)
{
    gains g = {.as_before = true};
    double scale = fmax(1.0, bw_vapour_water(run));
    for (size_t n = 0; n < run->nodes; ++n) {
        double now = run->mass[n] - start[n];
        double span = run->vapour->nodes.span[n];
        if (!(fabs(now - gain[n]) <= same_gain * scale * span))
            g.as_before = false;
        gain[n] = now;
        g.largest = fmax(g.largest, fabs(now) / span);
        g.total += now;
    }
    return g;
}

/* Three months before the coldest one outside (of the first environment where
 * the drawing has no outside). */
static int wetting_month(const bw_vapour_run *run)
{
    const bw_junction *junction = run->vapour->grid->junction;
    size_t outside = 0;
    while (outside < junction->environment_count &&
           junction->environment[outside].kind != BW_ENVIRONMENT_OUTSIDE)
        ++outside;
    const double *theta =
        run->air[outside < junction->environment_count ? outside : 0].theta;
    int coldest = 0;
    for (int m = 1; m < BW_MONTHS; ++m)
        if (theta[m] < theta[coldest])
            coldest = m;
    return (coldest + BW_MONTHS - 3) % BW_MONTHS;
}

/* ISO 13788 [M-hi], as bw_start_month of the folder glaser. */
static int first_month(const bw_vapour_run *run)
{
    int month = 0;
    for (int i = 0; i < BW_MONTHS && run->condenses_from_dry[month]; ++i)
        month = (month + BW_MONTHS - 1) % BW_MONTHS;
    for (int i = 0; i < BW_MONTHS && !run->condenses_from_dry[month]; ++i)
        month = (month + 1) % BW_MONTHS;
    return month;
}

static void run_years(bw_vapour_run *run, double *start, double *gain)
{
    bw_vapour_result *out = run->out;
    const bool drying = run->options->wetting > 0.0;
    const double wetted = bw_vapour_water(run);
    const int most = run->options->max_cycles > 0 ? run->options->max_cycles
                                                  : CYCLES_MOST;
    for (int cycle = 0; cycle < most && run->sound; ++cycle) {
        memcpy(start, run->mass, run->nodes * sizeof *start);
        for (int i = 0; i < BW_MONTHS && (cycle == 0 || !out->dried); ++i)
            bw_vapour_month(run, (run->start + i) % BW_MONTHS, cycle == 0);
        gains g = compare(run, start, gain);
        out->cycles = cycle + 1;
        out->growth = g.total;
        if (cycle == 0) {
            out->residual_first = bw_vapour_water(run);
            out->condensed = run->condensed;
            out->evaporated = run->evaporated;
        }
        out->periodic = g.largest <= same_state;
        out->accumulates = !out->periodic && cycle > 0 && g.as_before &&
                           g.total > same_state;
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
        out->start_month = options->wetting > 0.0 ? wetting_month(&run)
                                                  : first_month(&run);
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
