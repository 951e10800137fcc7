/* One month in two dimensions: one obstacle problem gives the water at its end.
 *
 * With p the mean pressure of the month, t its length, r(p) what flows to a
 * node along its links, f a source and M0 the water there at the start,
 *
 *   M = M0 + t (r(p) + f) >= 0,  p <= psat,  (p - psat) M = 0.
 *
 * That this is where the month ends, whatever dries within it, is derived in
 * docs/methods.md: a node that has dried stays dry, since pressures only fall,
 * so a node that holds water at the end was at saturation all month, and one
 * that does not gave off all it had. No instant at which one dries is needed.
 *
 * Invariants: no mass is negative; condensed - evaporated = change of the
 * water stored = what entered through surfaces and leaks. */

#include <math.h>
#include <string.h>

#include "vapour_run.h"

/* Less than this at a node is dropped [kg/m]. */
static const double speck = 1e-14;
/* Of the month: when a drying test ends is found to this, and mostly better. */
static const double instant = 1e-7;

double bw_vapour_water(const bw_vapour_run *run)
{
    double sum = 0.0;
    for (size_t n = 0; n < run->nodes; ++n)
        sum += run->mass[n];
    return sum;
}

/* Water at a node after so many seconds of the profile just solved. */
static double water_after(const bw_vapour_run *run, double seconds, size_t node)
{
    const bw_obstacle *o = &run->obstacle;
    if (!o->wet[node])
        return 0.0;
    double mass = seconds *
                  (o->feed[node] + bw_net_inflow(&run->net, o->p, node));
    return mass > speck ? mass : 0.0;
}

/* What came through surfaces, leaks and from what is kept wet. */
static void count_entered(bw_vapour_run *run, int month, double seconds)
{
    const double *p = run->obstacle.p;
    const double *source = run->source + (size_t)month * run->nodes;
    for (size_t n = 0; n < run->nodes; ++n) {
        double inflow = 0.0;
        if (run->surface[n] || run->kept_wet[n])
            inflow = bw_net_inflow(&run->net, p, n) * seconds;
        run->entered -= inflow;
        if (run->kept_wet[n])
            run->kept_gain += inflow + source[n] * seconds;
        else if (!run->surface[n])
            run->entered += source[n] * seconds;
    }
}

/* What each environment gave; where two meet, the first. */
static void keep_flow(bw_vapour_run *run, int month)
{
    const bw_nodes *nodes = &run->vapour->nodes;
    const double *p = run->obstacle.p;
    size_t count = run->vapour->grid->junction->environment_count;
    double *flow = run->out->flow + (size_t)month * count;
    memset(flow, 0, count * sizeof *flow);
    for (size_t n = 0; n < run->nodes; ++n)
        if (run->surface[n])
            flow[nodes->environment[n]] -= bw_net_inflow(&run->net, p, n) *
                                           run->seconds[month];
}

static void pass(bw_vapour_run *run, int month, double seconds, bool first)
{
    size_t m = (size_t)month * run->nodes;
    count_entered(run, month, seconds);
    for (size_t n = 0; n < run->nodes; ++n) {
        if (run->obstacle.pinned[n])
            continue;
        double old = run->mass[n], mass = water_after(run, seconds, n);
        run->mass[n] = mass;
        if (mass > old)
            run->condensed += mass - old;
        else
            run->evaporated += old - mass;
        if (!first)
            continue;
        run->out->gain[m + n] = mass - old;
        run->out->peak[n] = fmax(run->out->peak[n], mass);
    }
}

/* ---- when a drying test ends --------------------------------------------- */

static void swap(double **a, double **b)
{
    double *keep = *a;
    *a = *b;
    *b = keep;
}

/* Is water left after so many seconds, at the wetted line or anywhere? And, if
 * so, when at the latest it is gone: rates only fall, so that what stands at a
 * node lasts no longer than at the rate of now. */
static bool left_after(bw_vapour_run *run, int month, double seconds,
                       bool line_alone, double *gone)
{
    bw_obstacle *o = &run->obstacle;
    double sum = 0.0;
    bw_vapour_solve(run, month, seconds);
    for (size_t n = 0; n < run->nodes; ++n) {
        double mass = o->pinned[n] ? 0.0 : water_after(run, seconds, n);
        run->scratch[n] = mass;
        if (!line_alone || run->wetted[n])
            sum += mass;
    }
    if (sum <= 0.0)
        return false;
    swap(&run->mass, &run->scratch); /* the rates of then */
    bw_vapour_solve(run, month, 0.0);
    swap(&run->mass, &run->scratch);
    double longest = 0.0;
    for (size_t n = 0; n < run->nodes; ++n) {
        if (run->scratch[n] <= 0.0 || (line_alone && !run->wetted[n]))
            continue;
        double rate = bw_net_inflow(&run->net, o->p, n) + o->feed[n];
        double time = rate < 0.0 ? run->scratch[n] / -rate : (double)INFINITY;
        longest = fmax(longest, time);
    }
    *gone = seconds + longest;
    return true;
}

/* The part of the month after which none is left; run->mass as at its start. */
static double when_gone(bw_vapour_run *run, int month, bool line_alone)
{
    double whole = run->seconds[month], low = 0.0, high = whole;
    while (high - low > instant * whole) {
        double middle = 0.5 * (low + high), gone = high;
        if (left_after(run, month, middle, line_alone, &gone)) {
            low = middle;
            high = fmin(high, gone);
        } else {
            high = middle;
        }
    }
    return high / whole;
}

/* Does water form away from the wetted line? Rates only fall within a month: it
 * does if it does at the start, though it may be gone at the end. */
static void note_elsewhere(bw_vapour_run *run, int month)
{
    const bw_obstacle *o = &run->obstacle;
    if (run->out->condensed_elsewhere)
        return;
    bw_vapour_solve(run, month, 0.0);
    for (size_t n = 0; n < run->nodes; ++n) {
        if (run->wetted[n] || !o->wet[n])
            continue;
        double rate = o->feed[n] + bw_net_inflow(&run->net, o->p, n);
        if (rate * run->seconds[month] > BW_LINE_STANDS)
            run->out->condensed_elsewhere = true;
    }
}

static void note_drying(bw_vapour_run *run, int month, const double *after)
{
    bw_vapour_result *out = run->out;
    double line = 0.0, all = 0.0;
    for (size_t n = 0; n < run->nodes; ++n) {
        all += after[n];
        line += run->wetted[n] ? after[n] : 0.0;
    }
    note_elsewhere(run, month);
    if (!out->wet_line_dried && line <= BW_LINE_STANDS) {
        out->wet_line_dried = true;
        out->wet_line_months = run->months + when_gone(run, month, true);
    }
    if (all <= BW_LINE_STANDS) {
        out->dried = true;
        out->months_to_dry = run->months + when_gone(run, month, false);
    }
}

/* ---- a month ------------------------------------------------------------- */

static void keep_start(bw_vapour_run *run, int month)
{
    size_t m = (size_t)month, pairs = run->vapour->nodes.pairs;
    memcpy(run->out->p + m * run->nodes, run->obstacle.p,
           run->nodes * sizeof(double));
    memcpy(run->out->film_sd + m * pairs, run->film_sd, pairs * sizeof(double));
}

static bool keeps_wet(const bw_vapour_run *run)
{
    for (size_t n = 0; n < run->nodes; ++n)
        if (run->kept_wet[n])
            return true;
    return false;
}

static void start_guess(bw_vapour_run *run, int month)
{
    memcpy(run->obstacle.wet, run->guess + (size_t)month * run->nodes,
           run->nodes * sizeof(bool));
}

/* A guess: what they were in this month before. */
static void recall_films(bw_vapour_run *run, int month)
{
    const double *sd = run->out->film_sd +
                       (size_t)month * run->vapour->nodes.pairs;
    for (size_t i = 0; i < run->variables; ++i)
        run->film_sd[run->variable[i]] = sd[run->variable[i]];
}

/* The first profile of the month, where it is asked for. */
static void begin(bw_vapour_run *run, int month, bool first)
{
    start_guess(run, month);
    if (first || run->variables > 0) {
        recall_films(run, month);
        bw_vapour_profile(run, month);
        for (size_t n = 0; n < run->nodes; ++n)
            run->obstacle.wet[n] = run->obstacle.wet[n] || run->mass[n] > 0.0;
    }
    if (first)
        keep_start(run, month);
}

void bw_vapour_month(bw_vapour_run *run, int month, bool first)
{
    double seconds = run->seconds[month];
    bool drying = run->options->wetting > 0.0 && !run->out->dried;
    memcpy(run->before, run->mass, run->nodes * sizeof(double));
    if (keeps_wet(run) || run->condenses_from_dry[month] ||
        bw_vapour_water(run) > 0.0) {
        begin(run, month, first);
        if (!bw_vapour_solve(run, month, seconds))
            return;
        memcpy(run->guess + (size_t)month * run->nodes, run->obstacle.wet,
               run->nodes * sizeof(bool));
        pass(run, month, seconds, first);
        if (first)
            keep_flow(run, month);
    }
    if (drying) { /* looked at from the month's start */
        swap(&run->mass, &run->before);
        note_drying(run, month, run->before);
        swap(&run->mass, &run->before);
    }
    run->months += 1.0;
    if (first)
        memcpy(run->out->mass + (size_t)month * run->nodes, run->mass,
               run->nodes * sizeof(double));
}

void bw_vapour_dry_months(bw_vapour_run *run)
{
    for (int m = 0; m < BW_MONTHS && run->sound; ++m) {
        start_guess(run, m);
        bw_vapour_profile(run, m);
        keep_start(run, m);
        keep_flow(run, m);
        memcpy(run->guess + (size_t)m * run->nodes, run->obstacle.wet,
               run->nodes * sizeof(bool));
        for (size_t n = 0; n < run->nodes; ++n) {
            const bw_obstacle *o = &run->obstacle;
            if (!o->wet[n])
                continue;
            double rate = o->feed[n] + bw_net_inflow(&run->net, o->p, n);
            if (rate * run->seconds[m] > speck)
                run->condenses_from_dry[m] = true;
        }
    }
}
