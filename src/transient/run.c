#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "exposure.h"
#include "fail.h"
#include "number.h"
#include "run.h"

/* One simulation: hours into years until a year repeats the last. */

#define RISE 0.005 /* kg/(m2 a), what a year that repeats may differ by */
#define TOLERANCE_THETA 0.01
#define TOLERANCE_PHI 0.0005
#define STEP_TO_INTERFACE 10
enum { YEARS = 10, PROGRESS_HOURS = 73, DAY_HOURS = 24 };

__attribute__((format(printf, 2, 3))) static void
note(bw_transient_result *result, const char *format, ...)
{
    if (result->note_count == sizeof result->note / sizeof *result->note)
        return;
    va_list list;
    va_start(list, format);
    vsnprintf(result->note[result->note_count++], sizeof result->note[0],
              format, list);
    va_end(list);
}

/* ---- years ---- */

static void add_crossing(bw_run *r, const double crossing[BW_X_COUNT])
{
    for (int k = 0; k < BW_X_COUNT; k++) {
        r->crossing[k] += crossing[k];
        r->traffic[k >= BW_X_HEAT_E] += fabs(crossing[k]);
    }
}

bw_status bw_run_hour(bw_run *r, int hour_of_run, bool keep, bw_error *err)
{
    bw_solver *s = &r->solver;
    const bw_hour_span span = {
        .year = r->year,
        .hour = (r->first_hour + hour_of_run) % BW_YEAR_HOURS,
        .from = s->t,
    };
    double crossing[BW_X_COUNT] = {0};
    /* the last hour of a year is solved to the last digits, so that the
     * balances compare states, not what an iteration left over */
    s->polish = hour_of_run % BW_YEAR_HOURS == BW_YEAR_HOURS - 1;
    BW_TRY(bw_solver_advance(s, 3600.0 * (hour_of_run + 1), bw_hour_edge, &span,
                             crossing, err));
    add_crossing(r, crossing);
    bw_edge edge;
    bw_hour_edge(&span, s->t, &edge);
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
            bw_wood_hour(&r->watch.wood, s, bw_hour_in_month(hour));
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
    return bw_run_hour(r, hour_of_run, r->options->keep_hours, err);
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
    if (r->slab_before == NULL || !bw_carry_init(&r->carry, &r->model))
        return bw_fail_memory(err);
    for (size_t k = 0; k < slabs; k++)
        r->slab_before[k] = out->slab[k].initial;
    for (;;) {
        BW_TRY(run_year(r, err));
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

/* ---- what is told ---- */

static void tell_start(bw_run *r)
{
    if (r->start.by_rule)
        note(r->result,
             "start: 80 %% RH in all that no moisture is given for, practice "
             "with EN 15026 (guideline WTA 6-2, from memory)");
}

static void tell_climate(bw_run *r, const bw_climate *climate)
{
    bw_transient_result *out = r->result;
    const bw_year *y = r->year;
    out->synthetic_climate = climate->kind == BW_CLIMATE_SYNTHETIC;
    out->method = out->synthetic_climate
                      ? "EN 15026 equations, hours generated from monthly "
                        "means (synthetic)"
                      : "EN 15026 equations, hourly climate";
    if (y->missing_sun)
        note(out, "no sun: the climate or the facing to compute it is "
                  "missing, as allowed");
    else if (!y->sun)
        note(out, "no sun on the face: no facing given, or no radiation "
                  "in the climate");
    if (!y->sky)
        note(out, "no longwave column: sky and surroundings taken at air "
                  "temperature, no cooling to the sky");
    if (!y->wind)
        note(out, "no wind column: 2 m/s taken for the outer surface");
    if (y->missing_rain)
        note(out, "no driving rain: data for it is missing, as allowed");
}

/* What no file says and moves the result. */
static void tell_defaults(bw_run *r, const bw_outdoors *o)
{
    bw_transient_result *out = r->result;
    const bw_year *y = r->year;
    char number[32], height[32];
    if (y->default_absorptance)
        note(out, "solar absorptance 0.6 (medium colour): none given");
    if (y->wind && !(o->has_terrain && o->has_height))
        note(out,
             "wind at the face %s of that at 10 m in open ground: %s terrain%s,"
             " %s m above ground%s",
             bw_number_f(number, sizeof number, y->local_wind, 2),
             bw_terrain_text(bw_terrain_taken(o)),
             o->has_terrain ? "" : " (none given)",
             bw_number_g(height, sizeof height, bw_height_taken(o), 3),
             o->has_height ? "" : " (none given)");
    if (!y->rain)
        return;
    if (!o->has_driving_rain)
        note(out, "driving rain: %s exposure is taken, none given",
             bw_exposure_text(o->driving_rain));
    if (o->driving_rain == BW_RAIN_NONE)
        note(out, "driving-rain none, but a leak: it leaks as on a sheltered "
                  "face");
    else if (!o->has_rain_share && !r->model.blocks_rain)
        note(out, "0.7 of the rain driven against the face stays, the rest "
                  "splashes off: rain-share= not given");
    if (!y->rain_from)
        note(out, "no wind direction: 0.65 of rain times wind is taken to "
                  "blow straight at the face");
}

/* What keeps rain out of the outer face, or lets it in. */
static void tell_coat(bw_run *r)
{
    bw_transient_result *out = r->result;
    const bw_model *model = &r->model;
    const bw_coat *coat = &model->coat;
    if (!r->year->rain)
        return;
    if (coat->label != NULL && coat->assumed)
        note(out,
             "%s: a coat of unknown water absorption lets rain in by 0.5 "
             "kg/(m2 h^0.5), the most of class W2 (EN 1062-3)",
             coat->label);
    if (coat->label != NULL && coat->sheet)
        note(out,
             "%s: a sheet of unknown water absorption is taken to keep all "
             "rain out",
             coat->label);
    if (!model->blocks_rain)
        return;
    size_t k = 0;
    while (model->range[k].count == 0)
        k++;
    const bw_slab *face = &model->section->slab[k];
    if (face->material->absorbs_condensate &&
        !face->material->water_absorption.known)
        note(out,
             "%s: absorbs water, but how fast (A_w) is not known: no rain is "
             "taken up",
             face->label);
    else if (coat->label == NULL || !coat->sheet)
        note(out, "rain runs off: the outermost layer has no known water "
                  "absorption or is coated");
}

static void tell_redistribution(bw_run *r)
{
    bool liquid = false;
    for (size_t k = 0; k < r->model.section->slab_count; k++)
        liquid = liquid || r->model.storage[k].d_saturated > 0;
    if (!liquid)
        return;
    if (r->year->redistribution)
        note(r->result,
             "liquid water in hours without rain: slower diffusivity "
             "of redistribution, a tenth at free saturation");
    else
        note(r->result, "liquid water: diffusivity of suction at all times, "
                        "as set; it dries walls sooner");
}

static void tell_materials(bw_run *r)
{
    bw_transient_result *out = r->result;
    size_t fitted = 0, ended = 0;
    const char *fit = "", *end = "";
    for (size_t k = 0; k < r->model.section->slab_count; k++) {
        const bw_storage *s = &r->model.storage[k];
        const char *label = r->model.section->slab[k].label;
        if (s->missing_sorption)
            note(out,
                 "%s: no sorption points, taken as not hygroscopic, as "
                 "allowed",
                 label);
        fitted += s->henderson;
        if (s->henderson)
            fit = label;
        ended += s->estimated_free && s->count > 2;
        if (s->estimated_free && s->count > 2)
            end = label;
    }
    if (fitted > 0)
        note(out,
             "storage from two points by Henderson's form: %zu layer%s, "
             "e.g. %s",
             fitted, fitted > 1 ? "s" : "", fit);
    if (ended > 0)
        note(out,
             "free saturation estimated as 0.9 of the pores: %zu "
             "layer%s, e.g. %s",
             ended, ended > 1 ? "s" : "", end);
}

/* Layers that take up water by capillarity, or may, of which no A_w is known:
 * named, as many as the line holds. */
static void tell_liquid(bw_run *r)
{
    const bw_section *section = r->model.section;
    char names[100] = "";
    size_t left_out = 0, used = 0;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_material *m = slab->material;
        const bool absorbs = m->absorbs_condensate || m->flags_assumed;
        if (slab->kind != BW_LAYER_SOLID || !absorbs ||
            r->model.storage[k].d_saturated > 0)
            continue;
        const size_t room = sizeof names - used;
        const int length = snprintf(names + used, room, "%s%s",
                                    used > 0 ? ", " : "", slab->label);
        if (length > 0 && (size_t)length < room) {
            used += (size_t)length;
        } else {
            names[used] = '\0';
            left_out++;
        }
    }
    if (used > 0 && left_out > 0)
        note(r->result, "draws no liquid: no A_w known: %s and %zu more", names,
             left_out);
    else if (used > 0 || left_out > 0)
        note(r->result, "draws no liquid: no A_w known: %s",
             used > 0 ? names : "layers of long names");
}

/* ---- the whole ---- */

/* The options say what error is wanted at an interface; the solver holds the
 * error of a step in the norm of solver.c. That they keep this ratio is
 * measured (docs/methods.md). */
static void set_tolerances(bw_solver *s, const bw_transient_options *options)
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
                      bw_error *err)
{
    memset(r, 0, sizeof *r);
    r->result = result;
    r->options = o;
    r->year = calloc(1, sizeof *r->year);
    if (r->year == NULL)
        return bw_fail_memory(err);
    BW_TRY(bw_year_make(r->year, assembly, climate, o, err));
    BW_TRY(
        bw_model_make(&r->model, assembly, section, r->year->pressure, o, err));
    if (r->model.coat.label != NULL)
        bw_year_coat(r->year, r->model.coat.absorption);
    const int month = o->start_month_given ? o->start_month : BW_START_MONTH;
    r->years = o->max_years > 0 ? o->max_years : YEARS;
    if (month < 0 || month >= BW_MONTHS || r->years > BW_MOST_YEARS)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0,
                       "a simulation starts in month 0 to 11 and runs for at "
                       "most 32 years");
    result->first_month = month;
    for (int m = 0; m < month; m++)
        r->first_hour += (int)(bw_month_seconds(m) / 3600);
    if (!bw_solver_init(&r->solver, &r->model.wall, &r->model.arena) ||
        !bw_watch_init(&r->watch, &r->model, r->result) ||
        (o->keep_hours && !keep_room(r->result)))
        return bw_fail_memory(err);
    set_tolerances(&r->solver, o);
    BW_TRY(begin(r, assembly, err));
    tell_climate(r, climate);
    tell_defaults(r, &assembly->outdoors);
    tell_coat(r);
    tell_liquid(r);
    tell_redistribution(r);
    tell_materials(r);
    tell_start(r);
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
                                   options != NULL ? options : &defaults, err);
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
    free(result->hour);
    free(result->hour_total_water);
    result->monitor = NULL;
    result->slab = NULL;
    result->last_hours = NULL;
    result->state = NULL;
    result->hour = NULL;
    result->hour_total_water = NULL;
    result->monitor_count = result->slab_count = result->hour_count = 0;
}
