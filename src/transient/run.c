#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "run.h"
#include "when.h"

/* One simulation: hours into years until a year repeats the last. */

/* kg/(m2 a), what a year that repeats may differ by */
static const double RISE = 0.005;
static const double TOLERANCE_THETA = 0.01;
static const double TOLERANCE_PHI = 0.0005;
enum { STEP_TO_INTERFACE = 10 };
enum { YEARS = 10, PROGRESS_HOURS = 73, DAY_HOURS = 24 };

/* ---- years ---- */

static void add_crossing(bw_run *r, const double crossing[BW_X_COUNT])
{
    for (int k = 0; k < BW_X_COUNT; k++) {
        r->crossing[k] += crossing[k];
        r->traffic[k >= BW_X_HEAT_E] += fabs(crossing[k]);
    }
}

static bw_status run_hour(bw_run *r, int hour_of_run, bool keep, bw_error *err)
{
    bw_solver *s = &r->solver;
    const bw_window span = bw_window_from(
        r->year, (r->first_hour + hour_of_run) % BW_YEAR_HOURS, 1, s->t);
    double crossing[BW_X_COUNT] = {0};
    /* the last hour of a year is solved to the last digits, so that the
     * balances compare states, not what an iteration left over */
    s->polish = hour_of_run % BW_YEAR_HOURS == BW_YEAR_HOURS - 1;
    BW_TRY(bw_solver_advance(s, 3600.0 * (hour_of_run + 1), bw_window_edge,
                             &span, crossing, err));
    add_crossing(r, crossing);
    bw_edge edge;
    bw_window_edge(&span, s->t, &edge);
    bw_watch_hour(&r->watch, s, &edge, span.hour, keep);
    return BW_OK;
}

bw_status bw_run_window(bw_run *r, int hour_of_run, int most, bool watch,
                        int *hours, bw_error *err)
{
    bw_solver *s = &r->solver;
    const int hour = (r->first_hour + hour_of_run) % BW_YEAR_HOURS;
    const bw_window window = bw_window_from(r->year, hour, most, s->t);
    double crossing[BW_X_COUNT] = {0};
    *hours = window.hours;
    s->polish = (hour_of_run + *hours) % (watch ? BW_YEAR_HOURS : DAY_HOURS) ==
                0; /* as above */
    BW_TRY(bw_solver_advance(s, 3600.0 * (hour_of_run + *hours), bw_window_edge,
                             &window, crossing, err));
    add_crossing(r, crossing);
    if (!watch) {
        for (int k = 0; k < *hours; k++)
            bw_wood_hour(&r->watch.wood, s, bw_hour_month(hour));
        return BW_OK;
    }
    bw_edge edge;
    bw_window_edge(&window, s->t, &edge);
    for (int k = 0; k < *hours; k++) /* of one day */
        bw_watch_hour(&r->watch, s, &edge, hour + k, false);
    return BW_OK;
}

static double total_heat(const bw_run *r)
{
    const bw_wall *wall = &r->model.wall;
    double sum = 0;
    for (size_t i = 0; i < wall->n; i++)
        sum += wall->dx[i] * r->solver.v[2 * i] *
               (wall->hygro[i]->heat_capacity +
                BW_WATER_HEAT * bw_cells_water(&r->solver.cells, i));
    return sum;
}

static void close_balances(bw_run *r, double water, double heat)
{
    bw_transient_result *out = r->result;
    const double *x = r->crossing;
    double water_in = 0, heat_in = 0;
    for (int k = 0; k < BW_X_HEAT_E; k++)
        water_in += x[k];
    for (int k = BW_X_HEAT_E; k < BW_X_COUNT; k++)
        heat_in += x[k];
    const double now = bw_water_total(&r->model.wall, r->solver.v);
    const double e = fabs(now - water - water_in) / r->traffic[0];
    const double h = fabs(total_heat(r) - heat - heat_in) / r->traffic[1];
    out->water_balance_error = fmax(out->water_balance_error, e);
    out->energy_balance_error = fmax(out->energy_balance_error, h);
    out->year_end_water[out->years - 1] = now;
    out->yearly_change = now - water;
    out->left_outwards = -(x[BW_X_VAPOUR_E] + x[BW_X_VENT]);
    out->left_inwards = -x[BW_X_VAPOUR_I];
    out->rain_absorbed = x[BW_X_RAIN];
    out->leak_convective = x[BW_X_LEAK_AIR];
    out->leak_rain = x[BW_X_LEAK_RAIN];
    out->heat_loss = x[BW_X_HEAT_I];
}

/* Whether every slab ended the year as it began it. */
static bool repeats(bw_run *r)
{
    bool same = true;
    for (size_t k = 0; k < r->result->slab_count; k++) {
        const double now = bw_water_slab(&r->model, k, r->solver.v);
        const double allowed = bw_repeat_allowance(r->slab_before[k]);
        same = same && fabs(now - r->slab_before[k]) <= allowed;
        r->slab_before[k] = now;
    }
    return same;
}

/* The next hour, or several as one, but none of another day. */
static bw_status run_some(bw_run *r, int hour_of_run, int *hours, bw_error *err)
{
    const int left = DAY_HOURS - hour_of_run % DAY_HOURS;
    const int most = r->options->hours_as_one < left ? r->options->hours_as_one
                                                     : left;
    if (most > 1 && !r->options->keep_hours)
        return bw_run_window(r, hour_of_run, most, true, hours, err);
    *hours = 1;
    return run_hour(r, hour_of_run, r->options->keep_hours, err);
}

/* What the run was asked to wait for, at the end of a day of its first year. */
static bool is_dry(const bw_run *r)
{
    const bw_until_dry *until = &r->options->until;
    const bw_slab_moisture *slab = &r->result->slab[until->slab];
    const size_t days = r->watch.wood.day_of_year;
    if (until->days <= 0 || days < (size_t)until->days || !slab->is_wood ||
        r->result->years > 0)
        return false;
    for (size_t d = days - (size_t)until->days; d < days; d++)
        if (slab->last_days[d].moisture > until->moisture)
            return false;
    return true;
}

static bw_status run_year(bw_run *r, bw_error *err)
{
    const int base = r->result->years * BW_YEAR_HOURS;
    const double water = bw_water_total(&r->model.wall, r->solver.v);
    const double heat = total_heat(r);
    memset(r->crossing, 0, sizeof r->crossing);
    memset(r->traffic, 0, sizeof r->traffic);
    bw_watch_year(&r->watch);
    for (int hour = 0, told = 0, hours = 1; hour < BW_YEAR_HOURS;
         hour += hours) {
        bw_keep_state(&r->watch.keep, r->solver.v,
                      (r->first_hour + hour) % BW_YEAR_HOURS);
        BW_TRY(run_some(r, base + hour, &hours, err));
        r->dry = (hour + hours) % DAY_HOURS == 0 && is_dry(r);
        if (r->dry) {
            bw_wood_first(&r->watch.wood);
            return BW_OK;
        }
        const double done = (double)(base + hour + hours) /
                            (r->years * BW_YEAR_HOURS);
        if (hour < told)
            continue;
        told += PROGRESS_HOURS;
        if (r->options->progress != NULL &&
            !r->options->progress(r->options->payload, done))
            return bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                           "the simulation was stopped");
    }
    bw_watch_end_year(&r->watch);
    r->result->years++;
    close_balances(r, water, heat);
    return BW_OK;
}

/* Years carried forward: their ends run with the change of the whole. */
static void carry_years(bw_run *r, int most)
{
    bw_transient_result *out = r->result;
    const bw_wall *wall = &r->model.wall;
    const int n = out->years;
    const double before = bw_water_total(wall, r->solver.v);
    const int years = bw_carry_forward(&r->carry, &r->model, &r->solver,
                                       &r->watch, most);
    const double change = bw_water_total(wall, r->solver.v) - before;
    for (int k = 0; k < years; k++)
        out->year_end_water[n + k] = before + change * r->carry.share[k];
    out->years += years;
    out->carried_years += years;
    for (size_t k = 0; years > 0 && k < out->slab_count; k++)
        r->slab_before[k] = bw_water_slab(&r->model, k, r->solver.v);
}

/* Whether the years just followed are all that is needed. */
static bool is_enough(bw_run *r)
{
    const bw_transient_result *out = r->result;
    if (out->periodic || out->years >= BW_MOST_YEARS ||
        out->years - out->carried_years >= r->years)
        return true;
    if (!r->options->carry_years)
        return false;
    const double water = out->year_end_water[out->years - 1];
    const bool confirmed = bw_carry_confirmed(&r->carry, out->yearly_change,
                                              bw_repeat_allowance(water));
    return confirmed && out->years >= r->years;
}

static bw_status run_years(bw_run *r, bw_error *err)
{
    bw_transient_result *out = r->result;
    const size_t slabs = out->slab_count;
    r->slab_before = BW_NEW(&r->model.arena, double, slabs);
    BW_TRY_MEMORY(r->slab_before != NULL && bw_carry_init(&r->carry, &r->model),
                  err);
    for (size_t k = 0; k < slabs; k++)
        r->slab_before[k] = out->slab[k].initial;
    for (;;) {
        BW_TRY(run_year(r, err));
        if (r->dry)
            return BW_OK;
        out->periodic = repeats(r);
        if (is_enough(r))
            break;
        if (r->options->carry_years)
            carry_years(r, r->years - 1 - out->years);
    }
    const int n = out->years;
    out->rising = !out->periodic && n > 1 && out->yearly_change > RISE &&
                  (n == 2 ||
                   out->year_end_water[n - 2] - out->year_end_water[n - 3] >
                       RISE);
    out->steps = r->solver.steps;
    out->rejected_steps = r->solver.rejected;
    out->newton_iterations = r->solver.iterations;
    return BW_OK;
}

/* ---- the whole ---- */

/* The options say what error is wanted at a face; the solver holds the
 * error of a step in the norm of solver.c. That they keep this ratio is
 * measured (docs/methods.md). */
void bw_run_tolerances(bw_solver *s, const bw_transient_options *options)
{
    const double theta = options->temperature_tolerance;
    const double phi = options->humidity_tolerance;
    s->tolerance_theta = STEP_TO_INTERFACE *
                         (theta > 0 ? theta : TOLERANCE_THETA);
    s->tolerance_z = STEP_TO_INTERFACE * (phi > 0 ? phi : TOLERANCE_PHI);
}

static bool keep_room(bw_transient_result *out)
{
    const size_t rows = (size_t)BW_YEAR_HOURS;
    out->hour_count = rows;
    out->hour = calloc(rows * out->monitor_count, sizeof *out->hour);
    out->hour_total_water = calloc(rows, sizeof *out->hour_total_water);
    return out->hour != NULL && out->hour_total_water != NULL;
}

static bw_status begin(bw_run *r, const bw_assembly *assembly, bw_error *err)
{
    bw_transient_result *out = r->result;
    BW_TRY(bw_start_make(&r->start, &r->model, assembly, r->year,
                         &r->year->hour[r->first_hour], r->options, err));
    bw_solver_start(&r->solver, r->start.v, 0);
    for (size_t k = 0; k < out->slab_count; k++)
        out->slab[k].initial = bw_water_slab(&r->model, k, r->start.v);
    out->initial_water = bw_water_total(&r->model.wall, r->start.v);
    return BW_OK;
}

bw_status bw_run_open(bw_run *r, bw_transient_result *result,
                      const bw_assembly *assembly, const bw_section *section,
                      const bw_climate *climate, const bw_transient_options *o,
                      const bw_year *year, bw_error *err)
{
    memset(r, 0, sizeof *r);
    r->result = result;
    r->options = o;
    r->year = calloc(1, sizeof *r->year);
    BW_TRY_MEMORY(r->year != NULL, err);
    if (year != NULL)
        *r->year = *year;
    else
        BW_TRY(bw_year_make(r->year, assembly, climate, o, err));
    BW_TRY(
        bw_model_make(&r->model, assembly, section, r->year->pressure, o, err));
    if (r->model.coat.label != NULL && year == NULL)
        bw_year_coat(r->year, r->model.coat.absorption);
    const int month = o->start_month_given ? o->start_month
                                           : bw_start_month(climate);
    r->years = o->max_years > 0 ? o->max_years : YEARS;
    if (month < 0 || month >= BW_MONTHS || r->years > BW_MOST_YEARS)
        return bw_fail_domain(err, "a simulation starts in month 0 to 11 and "
                                   "runs for at most 32 years");
    result->first_month = month;
    for (int m = 0; m < month; m++)
        r->first_hour += (int)(bw_month_seconds(m) / 3600);
    if (!bw_solver_init(&r->solver, &r->model.wall, &r->model.arena) ||
        !bw_watch_init(&r->watch, &r->model, r->result) ||
        (o->keep_hours && !keep_room(r->result)))
        return bw_fail_memory(err);
    bw_run_tolerances(&r->solver, o);
    BW_TRY(bw_depths_init(&r->watch.depths, &r->model, r->result, o, err));
    BW_TRY(begin(r, assembly, err));
    bw_run_tell(r, climate, &assembly->outdoors);
    return BW_OK;
}

void bw_run_close(bw_run *r)
{
    bw_model_free(&r->model);
    free(r->year);
    r->year = NULL;
}

bw_status bw_transient(bw_transient_result *out, const bw_assembly *assembly,
                       const bw_section *section, const bw_climate *climate,
                       const bw_transient_options *options, bw_error *err)
{
    const bw_transient_options defaults = {0};
    bw_transient_result result = {0};
    bw_run r;
    bw_status status = bw_run_open(&r, &result, assembly, section, climate,
                                   options != NULL ? options : &defaults, NULL,
                                   err);
    if (status == BW_OK)
        status = run_years(&r, err);
    bw_run_close(&r);
    if (status != BW_OK) {
        bw_transient_free(&result);
        return status;
    }
    *out = result;
    return BW_OK;
}

void bw_transient_free(bw_transient_result *result)
{
    if (result == NULL)
        return;
    const size_t slabs = result->slab != NULL ? result->slab_count : 0;
    for (size_t k = 0; k < slabs; k++) {
        free(result->slab[k].first_days);
        free(result->slab[k].last_days);
    }
    free(result->monitor);
    free(result->slab);
    free(result->last_hours);
    free(result->state);
    free(result->cell);
    free(result->mould_course);
    free(result->hour);
    free(result->hour_total_water);
    free(result->depth_hours);
    result->monitor = NULL;
    result->slab = NULL;
    result->last_hours = NULL;
    result->state = NULL;
    result->cell = NULL;
    result->mould_course = NULL;
    result->hour = NULL;
    result->hour_total_water = NULL;
    result->depth_hours = NULL;
    result->depth_count = 0;
    result->monitor_count = result->slab_count = result->hour_count = 0;
}
