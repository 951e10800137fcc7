/* A row has the very figure of the place it was judged at: the place whose
 * figure equals it is that place. Nothing is judged anew. */

#include "spot.h"

#include <math.h>
#include <string.h>

#include "bothways/geography.h"

/* kg/m2, as bw_free_water counts its hours */
static const double STANDING = 0.01;

/* ---- from a row to its place ------------------------------------------- */

typedef double figure_of(const bw_section_assessment *part, size_t index);

static double mould_at(const bw_section_assessment *part, size_t monitor)
{
    return part->mould != NULL ? part->mould[monitor].highest
                               : part->transient.monitor[monitor].highest_mould;
}

static double near_saturation_at(const bw_section_assessment *part,
                                 size_t monitor)
{
    return part->transient.monitor[monitor].last_year.above_95;
}

static double water_at(const bw_section_assessment *part, size_t monitor)
{
    const bw_monitor *m = &part->transient.monitor[monitor];
    return fmax(m->first_free.largest, m->last_free.largest);
}

static double moisture_in(const bw_section_assessment *part, size_t slab)
{
    return 100.0 * part->transient.slab[slab].highest_wood_moisture;
}

static double dose_in(const bw_section_assessment *part, size_t slab)
{
    return part->wood != NULL ? part->wood[slab].service_dose : -1.0;
}

/* Hours of the last year at a monitor that are bad for the row. */
typedef bool is_bad_hour(const bw_monitor_hour *hour);

static bool is_humid(const bw_monitor_hour *hour)
{
    return hour->phi > 0.80F;
}

static bool is_near_saturation(const bw_monitor_hour *hour)
{
    return hour->phi > 0.95F;
}

static bool is_standing(const bw_monitor_hour *hour)
{
    return (double)hour->free_water > STANDING;
}

static const struct place_of {
    const char *criterion;
    figure_of *figure;
    bool wood;
    is_bad_hour *bad; /* of a face */
    const char *season;
} places[] = {
    {"standing-water", water_at, false, is_standing, "with water standing"},
    {"hours-above-95", near_saturation_at, false, is_near_saturation,
     "above 95 % RH"},
    {"mould-index-hidden", mould_at, false, is_humid, "above 80 % RH"},
    {"mould-index-room", mould_at, false, is_humid, "above 80 % RH"},
    {"decay-dose", dose_in, true, NULL, "with wood above its limit"},
    {"wood-moisture", moisture_in, true, NULL, "with wood above its limit"},
    {"panel-moisture", moisture_in, true, NULL, "with wood above its limit"},
};

static const struct place_of *kind_of(const bw_criterion *row)
{
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        if (strcmp(row->criterion, places[i].criterion) == 0)
            return &places[i];
    return NULL;
}

static double mean_rh(const bw_monitor *monitor)
{
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += monitor->month_rh[m];
    return sum / BW_MONTHS;
}

/* Of both faces of a slab the more humid one. */
static size_t face_of(const bw_section_assessment *part, size_t slab)
{
    const bw_monitor *m = part->transient.monitor;
    return mean_rh(&m[slab]) > mean_rh(&m[slab + 1]) ? slab : slab + 1;
}

bool bw_spot_of_row(bw_spot *out, const bw_section_assessment *part,
                    const bw_criterion *row)
{
    const struct place_of *kind = kind_of(row);
    const bw_transient_result *run = &part->transient;
    if (kind == NULL)
        return false;
    const size_t count = kind->wood ? run->slab_count : run->monitor_count;
    const bool room = strcmp(row->criterion, "mould-index-room") == 0;
    for (size_t i = 0; i < count; i++) {
        if (kind->wood ? !run->slab[i].is_wood
                       : run->monitor[i].outer_face ||
                             run->monitor[i].room_face != room)
            continue;
        if (fabs(kind->figure(part, i) - row->value) > 1e-9 * fabs(row->value))
            continue;
        *out = (bw_spot){.part = part,
                         .criterion = row,
                         .monitor = kind->wood ? face_of(part, i) : i,
                         .slab = kind->wood ? i : BW_NO_SLAB};
        return true;
    }
    return false;
}

/* ---- the season -------------------------------------------------------- */

/* More than half of the hours of a span are bad. */
static void faces_season(bw_spot *s, is_bad_hour *bad)
{
    const bw_transient_result *run = &s->part->transient;
    for (size_t k = 0; k < BW_SPANS && run->last_hours != NULL; k++) {
        size_t hours = 0;
        for (size_t h = 0; h < BW_SPAN_HOURS; h++)
            hours += bad(
                &run->last_hours[(k * BW_SPAN_HOURS + h) * run->monitor_count +
                                 s->monitor]);
        s->bad[k] = 2 * hours > BW_SPAN_HOURS;
    }
}

/* The mean of a span is above the limit of its kind of wood. */
static void wood_season(bw_spot *s)
{
    const bw_slab_moisture *slab = &s->part->transient.slab[s->slab];
    const size_t days = BW_SPAN_HOURS / 24;
    for (size_t k = 0; k < BW_SPANS && slab->last_days != NULL; k++) {
        double mean = 0.0;
        for (size_t d = 0; d < days; d++)
            mean += slab->last_days[k * days + d].moisture / (double)days;
        s->bad[k] = mean > slab->limit;
    }
}

/* ---- which ------------------------------------------------------------- */

/* The margin is positive on the safe side; of a limit of 0 it has no share. */
static double excess(const bw_criterion *row)
{
    const double beyond = -row->margin / fabs(row->limit);
    if (!(fabs(row->limit) > 0.0))
        return row->margin < 0.0 ? 0.0 : -1.0;
    return beyond / (1.0 + fabs(beyond));
}

double bw_row_badness(const bw_criterion *row)
{
    const double verdict = row->decides && row->verdict == BW_FAILS ? 4.0
                           : row->outcome == BW_MARGINAL            ? 2.0
                                                                    : 0.0;
    return verdict + excess(row);
}

static bool is_of(const bw_criterion *row, const bw_section_assessment *part)
{
    return row->has_value && row->has_limit && part->has_transient &&
           strcmp(row->section, part->section->name) == 0;
}

const bw_criterion *bw_row_of(const bw_assessment *assessment,
                              const bw_section_assessment *part,
                              const char *criterion)
{
    for (size_t i = 0; i < assessment->criterion_count; i++)
        if (is_of(&assessment->criterion[i], part) &&
            strcmp(assessment->criterion[i].criterion, criterion) == 0)
            return &assessment->criterion[i];
    return NULL;
}

/* Without a row: the most humid face inside. */
static bool most_humid(bw_spot *out, const bw_assessment *assessment)
{
    *out = (bw_spot){.slab = BW_NO_SLAB};
    double most = -1.0;
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        for (size_t k = 0;
             part->has_transient && k < part->transient.monitor_count; k++) {
            const double rh = mean_rh(&part->transient.monitor[k]);
            if (part->transient.monitor[k].outer_face || !(rh > most))
                continue;
            most = rh;
            out->part = part;
            out->monitor = k;
        }
    }
    return out->part != NULL;
}

bool bw_spot_find(bw_spot *out, const bw_assessment *assessment)
{
    double worst = -2.0;
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *row = &assessment->criterion[i];
        for (size_t k = 0; k < assessment->section_count; k++) {
            bw_spot spot;
            if (!is_of(row, &assessment->section[k]) ||
                !(bw_row_badness(row) > worst) ||
                !bw_spot_of_row(&spot, &assessment->section[k], row))
                continue;
            worst = bw_row_badness(row);
            *out = spot;
        }
    }
    if (worst < -1.5)
        return most_humid(out, assessment);
    const struct place_of *kind = kind_of(out->criterion);
    if (kind == NULL)
        return true;
    if (kind->wood)
        wood_season(out);
    else
        faces_season(out, kind->bad);
    out->season = kind->season;
    return true;
}

double bw_monitor_depth(const bw_section_assessment *part, size_t monitor)
{
    double depth = 0.0;
    for (size_t k = 0; k < monitor; k++)
        depth += part->transient_section->slab[k].thickness;
    return depth;
}

/* ---- vapour driven inwards ----------------------------------------------- */

static size_t highest_span(const double drive[BW_SPANS])
{
    size_t most = 0;
    for (size_t k = 1; k < BW_SPANS; k++)
        if (drive[k] > drive[most])
            most = k;
    return most;
}

static int month_of_span(const bw_transient_result *run, size_t span)
{
    return (run->first_month +
            (int)(((double)span + 0.5) * BW_MONTHS / BW_SPANS)) %
           BW_MONTHS;
}

bw_drive bw_drive_of(const bw_assembly *assembly,
                     const bw_section_assessment *part)
{
    const bw_transient_result *run = &part->transient;
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->transient_section);
    const size_t slab = geography.insulation < run->slab_count
                            ? geography.insulation
                            : run->slab_count - 1;
    const bw_slab_moisture *is = &run->slab[slab];
    const size_t most = highest_span(is->inward);
    const size_t sunny = highest_span(is->inward_in_sun);
    return (bw_drive){slab, is->inward[most], month_of_span(run, most),
                      is->inward_in_sun[sunny], month_of_span(run, sunny)};
}
