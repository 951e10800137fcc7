/* Where the value of a row stands: the struct of its origin, at the place and
 * the time of the row. */

#include "case_quantity.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* ---- places and times -------------------------------------------------- */

bool case_request_fault(const case_request *q, const char *what)
{
    return case_fault(q->run->report, q->run->file->name, q->row->line, "%s %s",
                      q->row->quantity, what);
}

static long layer_of(const case_request *q)
{
    return bw_assembly_layer(q->run->wall, q->row->place);
}

/* "outside", "inside", the inner face of the layer of that id, or "id 35 mm"
 * from its outer face. */
static bool find_face(bw_plane_at *at, const case_request *q,
                      const bw_section *section)
{
    char id[80];
    double depth = -1;
    *at = (bw_plane_at){0};
    if (strcmp(q->row->place, "outside") == 0)
        return true;
    const size_t last = section->slab_count - 1;
    *at = (bw_plane_at){last, section->slab[last].thickness, true};
    if (strcmp(q->row->place, "inside") == 0)
        return true;
    snprintf(id, sizeof id, "%s", q->row->place);
    char *blank = strchr(id, ' '), *end = NULL;
    if (blank != NULL) {
        depth = strtod(blank, &end) / 1000;
        if (strcmp(end, " mm") != 0)
            return case_request_fault(
                q, "stands at a face: 'outside', 'inside', the id of "
                   "a layer or 'id 35 mm'");
        *blank = '\0';
    }
    const long layer = bw_assembly_layer(q->run->wall, id);
    for (size_t k = 0; k < section->slab_count && layer >= 0; k++)
        if ((long)section->slab[k].layer == layer) {
            *at = (bw_plane_at){k, section->slab[k].thickness, true};
            if (depth >= 0)
                *at = (bw_plane_at){k, depth, false};
            return true;
        }
    return case_request_fault(q, "needs a layer that the wall has");
}

static bool same_place(bw_plane_at a, bw_plane_at b)
{
    return a.slab == b.slab && a.layer_face == b.layer_face &&
           fabs(a.depth - b.depth) < 1e-9;
}

static bool read_when(case_request *q)
{
    const char *when = q->row->when;
    char *end;
    q->month = -1;
    q->hour = -1;
    for (int m = 0; m < BW_MONTHS; m++)
        if (strcmp(when, bw_month_name(m)) == 0)
            q->month = m;
    if (strcmp(when, "each") == 0)
        q->month = 0;
    const double number = strtod(when, &end);
    if (end > when && strcmp(end, " h") == 0)
        q->hour = number;
    else if (end > when && strcmp(end, " d") == 0)
        q->hour = 24 * number;
    return q->month >= 0 || q->hour >= 0 || *when == '\0' ||
           case_request_fault(
               q, "has another time than Jan to Dec, 'each', '100 h', '7 d'");
}

/* ---- where a value stands ---------------------------------------------- */

static const void *of_monthly(case_request *q)
{
    bw_plane_at at;
    if (!case_run_monthly(q->run) || !find_face(&at, q, q->run->section))
        return NULL;
    const bw_monthly_result *r = &q->run->monthly;
    for (size_t i = 0; i < r->plane_count; i++) {
        if (!same_place(r->plane[i].at, at))
            continue;
        if (q->quantity->of == OF_MONTH)
            return &r->plane[i].month[q->month];
        if (q->quantity->of == OF_FACE)
            return &r->plane[i];
        const char *index = (const char *)r + q->quantity->offset;
        q->chosen = i == *(const size_t *)(const void *)index;
        return &q->chosen;
    }
    case_request_fault(q,
                       "is of a place where the monthly method has no plane");
    return NULL;
}

static const void *of_layer(const case_request *q)
{
    const bw_section *section = q->run->section;
    const long layer = layer_of(q);
    for (size_t k = 0; k < section->slab_count; k++)
        if ((long)section->slab[k].layer == layer) {
            if (q->quantity->of == OF_SLAB)
                return &section->slab[k];
            return case_run_monthly(q->run)
                       ? &q->run->monthly.layer_sd[k][q->month]
                       : NULL;
        }
    case_request_fault(q, "needs a layer that the wall has");
    return NULL;
}

static const void *of_drying(const case_request *q)
{
    static const char *const ways[] = {"both-ways", "outwards", "inwards"};
    for (int way = 0; way < CASE_WAYS; way++)
        if (strcmp(q->row->place, ways[way]) == 0)
            return case_run_dry(q->run, way) ? &q->run->dry[way] : NULL;
    case_request_fault(q, "needs a place 'both-ways', 'outwards' or 'inwards'");
    return NULL;
}

static const void *of_edge(const case_request *q)
{
    bw_plane_at at;
    const bw_period_result *r = &q->run->period;
    if (!find_face(&at, q, q->run->section))
        return NULL;
    for (size_t i = 0; i < r->plane_count; i++)
        if (same_place(r->plane[i].at, at))
            return &r->plane[i];
    case_request_fault(q,
                       "is of a place where the period balance has no plane");
    return NULL;
}

static const void *of_path(const case_request *q)
{
    static const char *const paths[] = {"between-studs", "through-stud"};
    for (size_t i = 0; i < COUNT(paths); i++)
        if (strcmp(q->row->place, paths[i]) == 0)
            return (const char *)&q->run->thermal + i * sizeof(double);
    case_request_fault(q, "needs a place 'between-studs' or 'through-stud'");
    return NULL;
}

static const void *of_monitor(const case_request *q)
{
    bw_plane_at at;
    const bw_transient_result *r = &q->run->transient;
    if (!find_face(&at, q, q->run->whole_section))
        return NULL;
    for (size_t i = 0; i < r->monitor_count; i++)
        if (r->monitor[i].slab == at.slab &&
            r->monitor[i].outer_face == !at.layer_face)
            return (const char *)&r->monitor[i] +
                   (q->month > 0 ? (size_t)q->month * sizeof(double) : 0);
    case_request_fault(q, "is of a place that the simulation does not watch");
    return NULL;
}

static const void *of_store(const case_request *q)
{
    const bw_section *section = q->run->whole_section;
    const long layer = layer_of(q);
    for (size_t k = 0; k < section->slab_count; k++)
        if ((long)section->slab[k].layer == layer)
            return (const char *)&q->run->transient.slab[k] +
                   (q->month > 0 ? (size_t)q->month * sizeof(double) : 0);
    case_request_fault(q, "needs a layer that the wall has");
    return NULL;
}

static const void *of_hour(const case_request *q)
{
    const bw_transient_result *r = &q->run->transient;
    if (r->years == 1 && q->hour >= 1 && q->hour <= (double)r->hour_count)
        return &r->hour_total_water[(size_t)q->hour - 1];
    case_request_fault(q, "stands within the one year of 'years: 1'");
    return NULL;
}

static const void *of_air(case_request *q)
{
    double given;
    const case_unit *unit;
    const size_t which = q->quantity->offset;
    if (!case_number(&given, &unit, q->row->place, which < 2 ? "degC" : "Pa")) {
        case_request_fault(
            q, "needs its temperature (or pressure) as place: '-20 degC'");
        return NULL;
    }
    given = (given - unit->zero) * unit->factor;
    q->air = which == 0   ? bw_saturation_pressure(given)
             : which == 1 ? bw_saturation_pressure_water(given)
                          : bw_dew_point(given);
    return &q->air;
}

static const void *of_simulation(const case_request *q)
{
    if (!case_run_simulate(q->run))
        return NULL;
    switch (q->quantity->of) {
    case OF_MONITOR:
    case OF_MONITOR_MONTH:
        return of_monitor(q);
    case OF_STORE:
    case OF_STORE_MONTH:
        return of_store(q);
    case OF_HOUR:
        return of_hour(q);
    default:
        return &q->run->transient;
    }
}

/* The struct that the value is a member of; NULL: told. */
static const void *base_of(case_request *q)
{
    case_run *run = q->run;
    switch (q->quantity->of) {
    case OF_ELEMENT:
        return &run->thermal;
    case OF_PATH:
        return of_path(q);
    case OF_WALL:
        return case_run_monthly(run) ? &run->monthly : NULL;
    case OF_FACE:
    case OF_CHOICE:
    case OF_MONTH:
        return of_monthly(q);
    case OF_LAYER:
    case OF_SLAB:
        return of_layer(q);
    case OF_DRYING:
        return of_drying(q);
    case OF_PERIOD:
        return &run->period;
    case OF_EDGE:
        return of_edge(q);
    case OF_SURFACE:
        return &run->surface;
    case OF_SURFACE_MONTH:
        return &run->surface.month[q->month];
    case OF_AIR:
        return of_air(q);
    default:
        return of_simulation(q);
    }
}

/* What a kind of value is asked with: none of it may be missing or idle. */
bool case_request_read(case_request *q)
{
    static const bool place[] = {[OF_PATH] = 1,    [OF_FACE] = 1,
                                 [OF_CHOICE] = 1,  [OF_MONTH] = 1,
                                 [OF_LAYER] = 1,   [OF_SLAB] = 1,
                                 [OF_DRYING] = 1,  [OF_EDGE] = 1,
                                 [OF_MONITOR] = 1, [OF_MONITOR_MONTH] = 1,
                                 [OF_STORE] = 1,   [OF_STORE_MONTH] = 1,
                                 [OF_AIR] = 1};
    static const bool month[] = {
        [OF_MONTH] = 1,         [OF_LAYER] = 1,       [OF_SURFACE_MONTH] = 1,
        [OF_MONITOR_MONTH] = 1, [OF_STORE_MONTH] = 1, [OF_AIR] = 0};
    if (!read_when(q))
        return false;
    const case_origin of = q->quantity->of;
    if ((*q->row->place != '\0') != place[of])
        return case_request_fault(q,
                                  place[of] ? "needs a place" : "has no place");
    if ((q->month >= 0) != month[of])
        return case_request_fault(q,
                                  month[of] ? "needs a month" : "has no month");
    if ((q->hour >= 0) != (of == OF_HOUR))
        return case_request_fault(q, of == OF_HOUR ? "needs a time: '100 h'"
                                                   : "has no time in hours");
    if (of == OF_AIR)
        return true;
    if (q->run->wall == NULL)
        return case_request_fault(q, "needs a [wall]");
    return of == OF_ELEMENT || of == OF_PATH || of == OF_SLAB ||
           of == OF_PERIOD || of == OF_EDGE || q->run->has_boundary ||
           case_request_fault(q, "needs [boundary], [climate] or [hours]");
}

const void *case_value(case_request *q)
{
    const char *base = base_of(q);
    const bool made = q->quantity->of == OF_AIR || q->quantity->of == OF_CHOICE;
    return base == NULL || made ? base : base + q->quantity->offset;
}
