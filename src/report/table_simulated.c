/* Tables of the simulation. */

#include <stdio.h>

#include "names.h"
#include "table.h"

enum { HOURS_A_DAY = 24 };

/* ---- convergence.csv ----------------------------------------------------- */

static void convergence_columns(bw_cells *c, const void *row)
{
    const bw_transient_convergence *r = row;
    bw_section_columns(c);
    BW_NUMBER(c, "time_temperature_K", "K",
              "most that a temperature changes with a tenth of the tolerance",
              r->theta_time);
    BW_NUMBER(c, "time_relative_humidity_pct", "%",
              "the same of the relative humidity, in points",
              100.0 * r->phi_time);
    BW_NUMBER(c, "time_water_kg_m2", "kg/m2",
              "the same of the water at the year's end", r->water_time);
    BW_NUMBER(c, "cells_temperature_K", "K",
              "most that a temperature changes with every cell halved",
              r->theta_grid);
    BW_NUMBER(c, "cells_relative_humidity_pct", "%",
              "the same of the relative humidity, in points",
              100.0 * r->phi_grid);
    BW_NUMBER(c, "cells_water_kg_m2", "kg/m2",
              "the same of the water at the year's end", r->water_grid);
    BW_NUMBER(c, "cells", "-", "cells", (double)r->cells);
    BW_NUMBER(c, "steps", "-", "steps in time", (double)r->steps);
}

static void convergence_rows(bw_cells *c)
{
    if (c->part->has_convergence)
        bw_row(c, &c->part->convergence);
}

const bw_table_facts bw_table_convergence = {
    "convergence.csv",
    "A simulated section, with `--converge`: how much the simulation "
    "depends on its steps and cells.",
    convergence_columns, convergence_rows, BW_BY_SECTION};

/* ---- wetting.csv --------------------------------------------------------- */

typedef struct wetting_row {
    const char *name;
    const bw_section_wetting *test;
    const bw_wetting_result *way;
} wetting_row;

static const char *place_name(bw_cells *c, bw_plane_at at)
{
    return bw_plane_id(&c->page, c->wall->assembly, c->part->transient_section,
                       at);
}

static void wetting_columns(bw_cells *c, const void *row)
{
    const wetting_row *r = row;
    bw_section_columns(c);
    BW_TEXT(c, "way", "`both`, `outwards` or `inwards`: where it may dry to",
            r->name);
    BW_TEXT(c, "place", "where the water is put: " BW_PLACE_MEANING,
            place_name(c, r->test->place));
    BW_NUMBER(c, "water_kg_m2", "kg/m2", "water that is put there",
              r->test->water);
    BW_NUMBER(c, "month", "-", "calendar month at whose start, 1 to 12",
              r->test->month + 1.0);
    BW_NUMBER_IF(c, "months", "months",
                 "until the water is gone; none: not while it was followed",
                 r->way->months >= 0.0, r->way->months);
    BW_NUMBER_IF(c, "place_months", "months",
                 "until the place is as without it; none: not while it was "
                 "followed",
                 r->way->place_months >= 0.0, r->way->place_months);
    BW_NUMBER(c, "left_kg_m2", "kg/m2", "of the water at the end",
              r->way->left);
    BW_NUMBER(c, "mould_index", "-", "highest mould index there",
              r->way->highest_mould);
    BW_NUMBER(c, "mould_index_dry", "-", "the same without the water",
              r->way->highest_mould_dry);
    BW_NUMBER(c, "followed_months", "months", "for which it was followed",
              bw_wetting_months_followed(r->way));
    BW_NUMBER_IF(c, "damp_months", "months",
                 "until no place of the wall is damp of it; none: not while it "
                 "was followed",
                 r->way->damp_months >= 0.0, r->way->damp_months);
}

static void wetting_rows(bw_cells *c)
{
    const bw_section_wetting *test = &c->part->wetting_test;
    if (!c->part->has_transient || !test->ran)
        return;
    bw_row(c, &(wetting_row){"both", test, &test->both});
    if (!test->one_way)
        return;
    bw_row(c, &(wetting_row){"outwards", test, &test->outwards});
    bw_row(c, &(wetting_row){"inwards", test, &test->inwards});
}

const bw_table_facts bw_table_wetting = {
    "wetting.csv", "A way of the simulated wetting test of a section.",
    wetting_columns, wetting_rows, BW_BY_SECTION};

/* ---- damage.csv ---------------------------------------------------------- */

/* Of a place or of a slab of wood; the columns of the other stay empty. */
typedef struct damage_row {
    const bw_monitor *monitor;
    const bw_place_mould *mould;   /* NULL: not judged */
    const bw_free_water *standing; /* of the first or the last year, the most */
    const bw_slab_moisture *slab;
    const char *layer;
    const bw_wood_damage *wood; /* NULL: not judged */
} damage_row;

static const char *monitor_name(bw_cells *c, const bw_monitor *monitor)
{
    const bw_slab *slab = &c->part->transient_section->slab[monitor->slab];
    const bw_plane_at outer = {0, 0.0, false};
    const bw_plane_at face = {monitor->slab, slab->thickness, true};
    return place_name(c, monitor->outer_face ? outer : face);
}

static void damage_of_place(bw_cells *c, const damage_row *r)
{
    BW_TEXT_IF(c, "mould_class", "mould sensitivity of the place",
               r->monitor != NULL,
               bw_mould_class_text(r->monitor->mould_class));
    BW_NUMBER_IF(c, "mould_index", "-",
                 "highest mould index with the last year repeated, by the "
                 "decline of its class",
                 r->mould != NULL, r->mould->highest);
    BW_NUMBER_IF(c, "mould_index_slow_decline", "-",
                 "the same by the slow decline of ASHRAE 160", r->mould != NULL,
                 r->mould->highest_slow);
    BW_NUMBER_IF(
        c, "mould_dose_d", "d",
        "highest mould dose of the last year twice over, in days of 20 "
        "degC and 90 % RH; of spruce, decides nothing",
        r->mould != NULL, r->mould->dose);
    BW_NUMBER_IF(c, "wetness_hours", "h",
                 "of the last year above 0 degC and 80 % RH, ISO 9223; decides "
                 "nothing",
                 r->mould != NULL, (double)r->mould->wetness_hours);
    BW_NUMBER_IF(c, "hours_above_80", "h", "of the last year above 80 % RH",
                 r->monitor != NULL, r->monitor->hours_above_80);
    BW_NUMBER_IF(c, "hours_above_90", "h", "above 90 % RH", r->monitor != NULL,
                 r->monitor->hours_above_90);
    BW_NUMBER_IF(c, "hours_above_95", "h", "above 95 % RH", r->monitor != NULL,
                 r->monitor->hours_above_95);
    BW_NUMBER_IF(c, "standing_water_kg_m2", "kg/m2",
                 "most water that stands there, in the first or the last year",
                 r->monitor != NULL, r->standing->largest);
    BW_NUMBER_IF(c, "standing_water_month", "-", "its calendar month, 1 to 12",
                 r->monitor != NULL && r->standing->month >= 0,
                 r->standing->month + 1.0);
    BW_NUMBER_IF(c, "standing_water_hours", "h",
                 "of the last year with standing water", r->monitor != NULL,
                 r->monitor->last_free.hours);
}

static void damage_of_wood(bw_cells *c, const damage_row *r)
{
    BW_NUMBER_IF(c, "first_year_wood_moisture_pct", "%",
                 "highest moisture of the wettest 10 mm in the first year, by "
                 "mass",
                 r->slab != NULL, 100.0 * r->slab->first_highest_wood_moisture);
    BW_NUMBER_IF(c, "wood_moisture_pct", "%", "the same of the last year",
                 r->slab != NULL, 100.0 * r->slab->highest_wood_moisture);
    BW_NUMBER_IF(c, "wood_moisture_limit_pct", "%", "its limit",
                 r->slab != NULL, 100.0 * r->slab->limit);
    BW_NUMBER_IF(c, "hours_above_wood_limit", "h",
                 "of the last year above that limit", r->slab != NULL,
                 r->slab->hours_above_limit);
    BW_NUMBER_IF(c, "weeks_to_wood_limit", "weeks",
                 "from the start until it stays below the limit; none: not by "
                 "the end",
                 r->slab != NULL && r->slab->weeks_to_limit >= 0.0,
                 r->slab->weeks_to_limit);
    BW_NUMBER_IF(c, "first_year_days_above_timber_line", "d",
                 "of the first year above the line of embedded timber",
                 r->wood != NULL, (double)r->wood->first_line.days_above);
    BW_NUMBER_IF(c, "days_above_timber_line", "d", "the same of the last year",
                 r->wood != NULL, (double)r->wood->line.days_above);
    BW_NUMBER_IF(c, "first_year_decay_dose_d", "d",
                 "decay dose of the first year", r->wood != NULL,
                 r->wood->first_dose);
    BW_NUMBER_IF(c, "decay_dose_d", "d", "decay dose of the last year",
                 r->wood != NULL, r->wood->dose);
    BW_NUMBER_IF(c, "service_decay_dose_d", "d", "decay dose of 50 years",
                 r->wood != NULL, r->wood->service_dose);
}

static void damage_columns(bw_cells *c, const void *row)
{
    const damage_row *r = row;
    bw_section_columns(c);
    BW_TEXT_IF(c, "place", "a watched place: " BW_PLACE_MEANING,
               r->monitor != NULL, monitor_name(c, r->monitor));
    BW_TEXT_IF(c, "layer", "id of a layer of wood", true, r->layer);
    damage_of_place(c, r);
    damage_of_wood(c, r);
}

static void damage_rows(bw_cells *c)
{
    const bw_transient_result *t = &c->part->transient;
    for (size_t k = 0; c->part->has_transient && k < t->monitor_count; k++) {
        const bw_monitor *m = &t->monitor[k];
        const bool first = m->first_free.largest > m->last_free.largest;
        bw_row(c,
               &(damage_row){
                   .monitor = m,
                   .mould = c->part->mould != NULL ? &c->part->mould[k] : NULL,
                   .standing = first ? &m->first_free : &m->last_free});
    }
    for (size_t k = 0; c->part->has_transient && k < t->slab_count; k++) {
        const size_t layer = c->part->transient_section->slab[k].layer;
        if (t->slab[k].is_wood)
            bw_row(c, &(damage_row){.slab = &t->slab[k],
                                    .layer = c->wall->assembly->layer[layer].id,
                                    .wood = c->part->wood != NULL
                                                ? &c->part->wood[k]
                                                : NULL});
    }
}

const bw_table_facts bw_table_damage = {
    "damage.csv",
    "A watched place of a simulated section, then a layer of wood; what "
    "is said of the other kind is left out.",
    damage_columns, damage_rows, BW_BY_SECTION};

/* ---- hourly.csv ---------------------------------------------------------- */

typedef struct hour_row {
    const char *time, *place;
    bw_hour_row mean;
    double total;
} hour_row;

static void hour_columns(bw_cells *c, const void *row)
{
    const hour_row *r = row;
    bw_section_columns(c);
    BW_TEXT(c, "time",
            "month, day and hour at which it ends, in the climate's time: UTC, "
            "or local solar time where the climate has no longitude; the first "
            "hour of a day is `01:00`",
            r->time);
    BW_TEXT(c, "position", "the place in words", r->place);
    BW_NUMBER(c, "temperature_C", "degC", "mean temperature", r->mean.theta);
    BW_NUMBER(c, "relative_humidity_pct", "%", "mean relative humidity",
              r->mean.phi * 100.0);
    BW_NUMBER(c, "water_content_kg_m3", "kg/m3", "mean water content",
              r->mean.water_content);
    BW_NUMBER(c, "mould_index", "-", "mould index at the end", r->mean.mould);
    BW_NUMBER_IF(c, "total_water_kg_m2", "kg/m2",
                 "water in the whole section at the end", true, r->total);
}

/* "10-01 07:00": month, day and hour of a year without a leap day, so many
 * hours after the start of its first month. */
static const char *hour_name(bw_page *page, int first_month, size_t hour)
{
    int month = first_month;
    size_t left = hour;
    for (;;) {
        size_t hours = (size_t)(bw_month_seconds(month) / 3600.0 + 0.5);
        if (left < hours)
            break;
        left -= hours;
        month = (month + 1) % BW_MONTHS;
    }
    char text[48];
    snprintf(text, sizeof text, "%02d-%02zu %02zu:00", month + 1,
             left / HOURS_A_DAY + 1, left % HOURS_A_DAY);
    return bw_phrase(page, "%s", text);
}

/* Place k over the hours from `first` to before `end`: means, and the mould
 * index at the end. */
static bw_hour_row mean_of(const bw_transient_result *t, size_t k, size_t first,
                           size_t end)
{
    bw_hour_row sum = {0};
    for (size_t hour = first; hour < end; hour++) {
        const bw_hour_row *row = &t->hour[hour * t->monitor_count + k];
        sum.theta += row->theta;
        sum.phi += row->phi;
        sum.water_content += row->water_content;
        sum.mould = row->mould;
    }
    double hours = (double)(end - first);
    sum.theta /= hours;
    sum.phi /= hours;
    sum.water_content /= hours;
    return sum;
}

static void hour_rows(bw_cells *c)
{
    const bw_transient_result *t = &c->part->transient;
    if (!c->part->has_transient || t->hour == NULL)
        return;
    const char **place = BW_NEW(&c->page.arena, const char *, t->monitor_count);
    if (place == NULL)
        return;
    for (size_t k = 0; k < t->monitor_count; k++)
        place[k] = bw_monitor_text(&c->page, t, k);
    const size_t step = c->results->step > 0 ? c->results->step : 1;
    for (size_t hour = 0; hour < t->hour_count; hour += step) {
        const size_t left = t->hour_count - hour;
        const size_t end = hour + (left < step ? left : step);
        hour_row r = {.time = hour_name(&c->page, t->first_month, end),
                      .total = t->hour_total_water != NULL
                                   ? t->hour_total_water[end - 1]
                                   : (double)NAN};
        for (size_t k = 0; k < t->monitor_count; k++) {
            r.place = place[k];
            r.mean = mean_of(t, k, hour, end);
            bw_row(c, &r);
        }
    }
}

const bw_table_facts bw_table_hourly = {
    "hourly.csv",
    "A watched place in an hour of the simulation's last year; with "
    "`--step HOURS` in so many hours, the last step what is left. In "
    "JSON only with `--step`.",
    hour_columns, hour_rows, BW_BY_SECTION};
