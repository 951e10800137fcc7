/* The hours of a junction: a grid, its sheet of cells, years from October on
 * until one ends as it began, as in one dimension (run.c of the folder
 * transient); and as many years on the same grid with every two cells joined in
 * one, which tells how far the figures hang on the cells (hour_moved.c).
 *
 * A year repeats where no cell's z (humidity, with its water by free
 * saturation) moved by more than SAME from its beginning to its end.
 *
 * Invariant: what is not computed has a reason; water is accounted for. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "hour_air.h"
#include "hour_leaks.h"
#include "hour_moved.h"
#include "hour_sides.h"
#include "hour_watch.h"
#include "hours.h"
#include "raster.h"

enum { OCTOBER = 273 * 24, YEARS = 5, CELLS = 1000, COARSER = 8, TOLD = 73 };
static const double SMALLEST = 0.002, GROWTH = 2.0; /* m, - */
static const double SAME = 0.003;
static const double RISE = 0.005;    /* kg/(m2 a), as in one dimension */
static const double BALANCE = 1e-3;  /* likewise */
static const double START_RH = 0.80; /* likewise */
/* Local errors of a step, as there. */
static const double STEP_THETA = 0.1; /* K */
static const double STEP_Z = 0.005;
static const double COARSE_SHARE = 0.2; /* of the time; seen: 0.04 to 0.31 */

typedef struct running {
    bw_arena arena; /* of all that is not kept */
    const bw_junction *junction;
    const bw_hour_options *options;
    bw_junction_hours *out;
    bw_climate *generated;
    bw_raster_options grid; /* joined: the second, of as many years */
    bw_raster raster;
    bw_hour_sides sides;
    bw_hour_leaks leaks;
    bw_sheet_model model;
    bw_sheet_solver solver;
    bw_hour_watch watch;
    bw_sheet_flow flow; /* of the year */
    bw_arena *keep;     /* of what is told */
    const char **unseen;
    double *before;   /* the state with which the year began */
    double change[2]; /* kg/m2, of the last two years */
    int years;        /* at most */
} running;

/* ---- what is run ----------------------------------------------------------
 */

static bw_status make_grid(running *r, bw_error *err)
{
    const bw_hour_options *o = r->options;
    const size_t most = o->most_cells > 0 ? o->most_cells : CELLS;
    for (int k = 0; k < COARSER; k++) {
        BW_TRY(
            bw_raster_make(&r->raster, r->junction, &r->grid, &r->arena, err));
        if (r->raster.filled <= most)
            return BW_OK;
        r->grid.smallest *= 1.5;
        r->grid.growth *= 1.2;
    }
    return bw_fail(err, BW_ERR_DOMAIN, r->junction->file, 0,
                   "the drawing has too many lines (%zu cells, %zu allowed) "
                   "for an hourly calculation",
                   r->raster.filled, most);
}

static bw_status hours_of(running *r, const bw_climate **climate, bw_error *err)
{
    if ((*climate)->hour_count > 0)
        return BW_OK;
    if (r->options->no_synthetic)
        return bw_fail(err, BW_ERR_DOMAIN, (*climate)->file, 0,
                       "the climate has no hours, and synthetic ones were "
                       "declined; give a climate with hours, or leave "
                       "--no-synthetic-hours out");
    BW_TRY(bw_climate_generate(&r->generated, *climate, err));
    *climate = r->generated;
    r->out->synthetic = true;
    return BW_OK;
}

static bw_status start(running *r, bw_error *err)
{
    const bw_sheet *s = &r->model.sheet;
    const bw_hourly *first = &r->sides.year[0]->hour[OCTOBER];
    double *v = BW_NEW(&r->arena, double, 2 * s->n);
    r->before = BW_NEW(&r->arena, double, 2 * s->n);
    BW_TRY_MEMORY(v != NULL && r->before != NULL, err);
    for (size_t i = 0; i < s->n; i++) {
        v[2 * i] = 0.5 * (first->theta_e + first->theta_i);
        v[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], START_RH);
    }
    BW_TRY(bw_sheet_solver_make(&r->solver, s, &r->arena, err));
    r->solver.tolerance_theta = STEP_THETA;
    r->solver.tolerance_z = STEP_Z;
    bw_sheet_start(&r->solver, v, 0.0);
    return BW_OK;
}

static bw_status make(running *r, bw_arena *keep, const bw_climate *climate,
                      bw_error *err)
{
    const char *unseen[BW_HOUR_UNSEEN];
    BW_TRY(hours_of(r, &climate, err));
    BW_TRY(make_grid(r, err));
    BW_TRY(bw_hour_sides_make(&r->sides, &r->arena, &r->raster, climate, err));
    BW_TRY(bw_sheet_make(&r->model, &r->arena, &r->raster, r->sides.side,
                         r->sides.pressure, err));
    BW_TRY(bw_hour_leaks_make(&r->leaks, &r->model, &r->arena, &r->raster,
                              climate, err));
    BW_TRY(bw_hour_air_make(&r->model, &r->arena, &r->raster, err));
    r->watch = (bw_hour_watch){.raster = &r->raster,
                               .model = &r->model,
                               .keep = keep,
                               .arena = &r->arena,
                               .sheltered = r->sides.sheltered,
                               .out = r->out};
    BW_TRY(bw_hour_watch_make(&r->watch, err));
    r->out->unseen_count = bw_hour_unseen(unseen, &r->sides, &r->raster);
    r->unseen = BW_NEW(keep, const char *, BW_HOUR_UNSEEN + 1);
    BW_TRY_MEMORY(r->unseen != NULL, err);
    memcpy(r->unseen, unseen, r->out->unseen_count * sizeof *r->unseen);
    r->out->unseen = r->unseen;
    r->keep = keep;
    r->out->cells = r->model.sheet.n;
    return start(r, err);
}

/* ---- years ----------------------------------------------------------------
 */

static double water_of(const running *r)
{
    double sum = 0.0;
    for (size_t i = 0; i < r->model.sheet.n; i++)
        sum += r->model.sheet.area[i] * bw_cells_water(&r->solver.cells, i);
    return sum;
}

static bw_status run_hour(running *r, int hour, bw_error *err)
{
    bw_sheet_solver *s = &r->solver;
    const int at = (OCTOBER + hour) % BW_YEAR_HOURS;
    const double end = 3600.0 *
                       (r->out->years * (double)BW_YEAR_HOURS + hour + 1);
    bw_sheet_hour of;
    bw_sheet_weather weather;
    bw_hour_sides_at(&of, &r->sides, at, s->t);
    memcpy(of.leak, r->leaks.rain, sizeof of.leak);
    BW_TRY(bw_sheet_advance(s, end, bw_sheet_hour_at, &of, &r->flow, err));
    bw_sheet_hour_at(&of, s->t, &weather);
    bw_hour_watch_hour(&r->watch, s, &weather, at);
    return BW_OK;
}

static bw_status tell(const running *r, int hour, bw_error *err)
{
    const bw_hour_options *o = r->options;
    const double all = (double)r->years * BW_YEAR_HOURS;
    const double done = r->out->years * (double)BW_YEAR_HOURS + hour;
    const double from = r->grid.joined ? 1.0 - COARSE_SHARE : 0.0;
    const double share = r->grid.joined ? COARSE_SHARE : 1.0 - COARSE_SHARE;
    if (o->progress == NULL || hour % TOLD != 0 ||
        o->progress(o->payload, from + share * done / all))
        return BW_OK;
    return bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                   "the simulation was stopped");
}

/* What came in against what is there, of what went through. */
static void balance(running *r, double before)
{
    double in = r->flow.leak + r->flow.air;
    double through = r->flow.leak + fabs(r->flow.air);
    for (size_t k = 0; k < BW_SHEET_SIDES; k++) {
        in += r->flow.vapour[k] + r->flow.rain[k];
        through += fabs(r->flow.vapour[k]) + fabs(r->flow.rain[k]);
    }
    const double now = water_of(r), change = now - before;
    r->out->balance = fmax(r->out->balance,
                           fabs(change - in) / fmax(through, 1e-6 * now));
    r->out->leaked = r->flow.leak + r->flow.ran_off;
    r->out->ran_off = r->flow.ran_off;
    r->out->air = r->flow.air;
    r->change[0] = r->change[1];
    r->change[1] = change / r->solver.extent;
}

static bw_status run_year(running *r, bw_error *err)
{
    const size_t n = r->model.sheet.n;
    const double water = water_of(r);
    memcpy(r->before, r->solver.v, 2 * n * sizeof *r->before);
    r->flow = (bw_sheet_flow){.heat = 0.0};
    bw_hour_watch_year(&r->watch);
    for (int hour = 0; hour < BW_YEAR_HOURS; hour++) {
        BW_TRY(tell(r, hour, err));
        BW_TRY(run_hour(r, hour, err));
    }
    bw_hour_watch_end_year(&r->watch);
    balance(r, water);
    double most = 0.0, wetter = 0.0;
    for (size_t i = 0; i < n; i++) {
        const double rise = r->solver.v[2 * i + 1] - r->before[2 * i + 1];
        most = fmax(most, fabs(rise));
        wetter = fmax(wetter, rise);
    }
    r->out->state_change = most;
    r->out->yearly_change = r->change[1];
    r->out->years++;
    r->out->periodic = most <= SAME;
    r->out->drying = wetter <= SAME;
    return BW_OK;
}

/* Where leaking rain runs on to, nobody knows. */
static bw_status tell_run_off(running *r, bw_error *err)
{
    static const double TOLD_OF = 0.01; /* of it, choice */
    bw_junction_hours *out = r->out;
    if (!(out->ran_off > TOLD_OF * out->leaked))
        return BW_OK;
    r->unseen[out->unseen_count++] = bw_arena_say(
        r->keep,
        "where %.0f %% of the leaking rain run on to, which find the pores "
        "full where it gets in",
        100.0 * out->ran_off / out->leaked);
    return r->keep->failed ? bw_fail_memory(err) : BW_OK;
}

static bw_status run_years(running *r, bw_error *err)
{
    bw_junction_hours *out = r->out;
    while (out->years < r->years && (r->grid.joined || !out->periodic))
        BW_TRY(run_year(r, err));
    out->steps = r->solver.steps;
    out->rising = !out->periodic && out->years > 1 && r->change[1] > RISE &&
                  r->change[0] > RISE;
    if (out->balance > BALANCE)
        return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                       "the simulation's water balance did not close");
    BW_TRY(tell_run_off(r, err));
    return bw_hour_watch_end(&r->watch, err);
}

/* ---- one grid and the other -----------------------------------------------
 */

static bw_status simulate(running *r, bw_arena *keep, const bw_climate *climate,
                          bw_error *err)
{
    *r->out = (bw_junction_hours){.asked = true, .reason = ""};
    BW_TRY(make(r, keep, climate, err));
    BW_TRY(run_years(r, err));
    r->out->ran = true;
    return BW_OK;
}

/* What stops all, or a reason in `text`. */
static bw_status settle(const char **text, bw_arena *arena, bw_status status,
                        const bw_error *fault, bw_error *err)
{
    if (status == BW_OK)
        return BW_OK;
    if (status == BW_ERR_MEMORY || status == BW_ERR_CANCELLED) {
        if (err != NULL)
            *err = *fault;
        return status;
    }
    *text = bw_arena_say(arena, "%s", fault->message);
    return arena->failed ? bw_fail_memory(err) : BW_OK;
}

/* The same years with every two cells as one. */
static bw_status compare(running *fine, running *coarse, bw_arena *arena,
                         const bw_climate *climate, bw_error *err)
{
    bw_junction_hours *out = fine->out, beside = {.cells = 0};
    bw_error fault = {0};
    coarse->grid = fine->grid;
    coarse->grid.joined = true;
    coarse->years = out->years;
    coarse->out = &beside;
    bw_status status = simulate(coarse, &coarse->arena, climate, &fault);
    if (status == BW_OK)
        status = bw_hour_moved(&fine->watch, &coarse->watch, &fault);
    out->compared = status == BW_OK;
    out->coarse_cells = beside.cells;
    out->coarse_steps = beside.steps;
    out->coarse_rising = beside.rising;
    coarse->out = NULL;
    return settle(&out->not_compared, arena, status, &fault, err);
}

static bw_status find(running r[2], bw_arena *arena, const bw_climate *climate,
                      bw_error *err)
{
    const bw_hour_options *o = r->options;
    bw_error fault = {0};
    r->years = o->most_years > 0 ? o->most_years : YEARS;
    r->grid = (bw_raster_options){.smallest = o->smallest > 0.0 ? o->smallest
                                                                : SMALLEST,
                                  .growth = GROWTH};
    const bw_status status = simulate(r, arena, climate, &fault);
    r->out->not_compared = "";
    BW_TRY(settle(&r->out->reason, arena, status, &fault, err));
    return r->out->ran ? compare(&r[0], &r[1], arena, climate, err) : BW_OK;
}

bw_status bw_junction_hours_find(bw_junction_hours *out, bw_arena *arena,
                                 const bw_junction *junction,
                                 const bw_climate *climate,
                                 const bw_hour_options *options, bw_error *err)
{
    running *r = calloc(2, sizeof *r);
    BW_TRY_MEMORY(r != NULL, err);
    r[0].out = out;
    for (size_t k = 0; k < 2; k++) {
        r[k].junction = junction;
        r[k].options = options;
    }
    const bw_status status = find(r, arena, climate, err);
    for (size_t k = 0; k < 2; k++) {
        bw_climate_free(r[k].generated);
        bw_arena_release(&r[k].arena);
    }
    free(r);
    return status;
}
