/* A year repeated until the mould index repeats itself.
 *
 * In E = exp(-s M), s = 2.3, both laws of index.c are linear, so that a year
 * runs without an exponential:
 *   growth   E' = F + (E - F) g,  F = exp(-s M_max), g = exp(-s rate hours),
 *            while E > F; nothing moves once M has reached M_max
 *   decline  E' = min(1, E exp(s decline drop))
 * An hour in which M passes 1, where the rate changes, is divided there.
 * Hours without growth that follow each other are one event.
 *
 * Invariant: the same index as bw_mould_advance, hour by hour [derived]. */

#include "growth.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "fail.h"

/* An hour of growth, or `dry` > 0 hours without. */
typedef struct event {
    double dry;
    double factor;       /* of E over the dry hours, from the first on */
    double below, above; /* g while M < 1, and after */
    double floor;        /* F */
} event;

typedef struct year {
    event *event;
    size_t count;
    double decline;
    double e, dry_hours; /* where it stands */
} year;

static const double settled_within = 0.01;

static double e_of(double index)
{
    return exp(-BW_MOULD_STEEPNESS * index);
}

static double index_of(double e)
{
    return log(1.0 / e) / BW_MOULD_STEEPNESS; /* no negative zero */
}

static double dry_factor(double decline, double from, double hours)
{
    return 1.0 / e_of(decline * bw_mould_drop(from, hours));
}

static void lay_events(year *y, const bw_mould_exposure *x)
{
    for (size_t h = 0; h < x->hours; h++) {
        bw_mould_growth g;
        event *last = y->count > 0 ? &y->event[y->count - 1] : NULL;
        if (bw_mould_growth_of(&g, x->mould_class, x->theta[h], x->phi[h]))
            y->event[y->count++] = (event){.below = e_of(g.below_one),
                                           .above = e_of(g.above_one),
                                           .floor = e_of(g.m_max)};
        else if (last != NULL && last->dry > 0.0)
            last->dry += 1.0;
        else
            y->event[y->count++] = (event){.dry = 1.0};
    }
    for (size_t i = 0; i < y->count; i++)
        y->event[i].factor = dry_factor(y->decline, 0.0, y->event[i].dry);
}

static double grow(const event *g, double e, double e_one)
{
    if (e <= g->floor)
        return e;
    if (e <= e_one)
        return g->floor + (e - g->floor) * g->above;
    const double next = g->floor + (e - g->floor) * g->below;
    if (next >= e_one)
        return next;
    const double share = log((e_one - g->floor) / (e - g->floor)) /
                         log(g->below);
    return g->floor + (e_one - g->floor) * pow(g->above, 1.0 - share);
}

/* Returns the highest index of the year, its start included. */
static double run(year *y)
{
    const double e_one = e_of(1.0);
    double e = y->e, lowest = e;
    for (size_t i = 0; i < y->count; i++) {
        const event *now = &y->event[i];
        if (now->dry > 0.0) {
            const double factor = y->dry_hours > 0.0
                                      ? dry_factor(y->decline, y->dry_hours,
                                                   now->dry)
                                      : now->factor;
            e = fmin(1.0, e * factor);
            y->dry_hours += now->dry;
        } else {
            e = grow(now, e, e_one);
            lowest = fmin(lowest, e);
            y->dry_hours = 0.0;
        }
    }
    y->e = e;
    return index_of(lowest);
}

static void repeat(bw_mould_outcome *out, year *y, const bw_mould_exposure *x)
{
    double peak = x->start;
    double end = peak;
    *out = (bw_mould_outcome){.highest = x->start, .passed_year = -1};
    for (int n = 1; n <= BW_MOULD_YEARS; n++) {
        const double last_peak = peak, last_end = end;
        peak = run(y);
        if (n == 1)
            peak = fmax(peak, x->start); /* not short by a rounding */
        end = index_of(y->e);
        const double moved = fmax(fabs(peak - last_peak), fabs(end - last_end));
        out->years = n;
        out->peak = peak;
        out->highest = fmax(out->highest, peak);
        out->rise = peak - last_peak;
        if (out->passed_year < 0 && peak >= x->limit)
            out->passed_year = n;
        out->settled = n > 1 && moved < settled_within;
        if (out->settled && moved * (BW_MOULD_YEARS - n) < settled_within)
            break;
    }
}

bw_status bw_mould_repeat(bw_mould_outcome *out,
                          const bw_mould_exposure *exposure, bw_error *err)
{
    assert(exposure->hours >= 1 && exposure->decline > 0.0 &&
           exposure->limit > 0.0);
    year y = {.event = calloc(exposure->hours, sizeof(event)),
              .decline = exposure->decline,
              .e = e_of(exposure->start)};
    BW_TRY_MEMORY(y.event != NULL, err);
    lay_events(&y, exposure);
    repeat(out, &y, exposure);
    free(y.event);
    return BW_OK;
}
