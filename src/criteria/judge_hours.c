#include "judge.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Places in the simulation: water that stands, hours near saturation, mould
 * with the last year repeated to its end. */

static bw_plane_at plane_of(const bw_section *section,
                            const bw_monitor *monitor)
{
    return (bw_plane_at){monitor->slab, section->slab[monitor->slab].thickness,
                         true};
}

/* A face inside the weather line that neither the weather nor the room sees.
 */
static bool is_inside(const bw_monitor *monitor, const bw_geography *geography)
{
    return !monitor->outer_face && !monitor->room_face &&
           monitor->slab + 1 >= geography->first;
}

/* ---- water ---- */

/* What stands on the inner face of a ventilated cavity runs off into it; the
 * layer behind is judged by its moisture, hours and mould. */
static bool holds_water(const bw_monitor *monitor,
                        const bw_geography *geography)
{
    return is_inside(monitor, geography) && monitor->slab >= geography->first;
}

static const double NO_WATER = 5e-4; /* kg/m2: prints as 0.000 */

static double stands(const bw_monitor *monitor)
{
    return fmax(monitor->first_free.largest, monitor->last_free.largest);
}

static void judge_free_water(bw_rows *rows, const bw_section_assessment *part,
                             const bw_geography *geography)
{
    const bw_transient_result *result = &part->transient;
    const bw_section *section = part->transient_section;
    const bw_monitor *worst = NULL;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (holds_water(monitor, geography) &&
            (worst == NULL || stands(monitor) > stands(worst)))
            worst = monitor;
    }
    if (worst == NULL)
        return;
    const double water = stands(worst);
    const bool first = worst->first_free.largest > worst->last_free.largest;
    const bw_free_water *most = first ? &worst->first_free : &worst->last_free;
    const char *reason =
        most->month < 0 || water < NO_WATER
            ? "no water stands anywhere inside the weather line"
            : bw_say(rows,
                     "%s kg/m2 %s in %s of the %s year; %s h with water "
                     "standing",
                     bw_say_number(rows, water, 3),
                     bw_say_plane(rows, section, plane_of(section, worst)),
                     bw_month_name(most->month), first ? "first" : "last",
                     bw_say_number(rows, most->hours, 0));
    bw_rows_most(rows, BW_C_STANDING_WATER, water, rows->limits->standing_water,
                 reason);
}

/* Where water would do harm; or, whatever the materials, where the months find
 * a tenth of the condensate that is allowed (estimate): their humidity is the
 * room's, which no rain of last week explains. */
static bool is_watched(const bw_rows *rows, const bw_section_assessment *part,
                       const bw_geography *geography, size_t slab)
{
    static const double WORTH_IT = 0.1;
    return bw_face_at_risk(geography, part->transient_section, slab) ||
           bw_months_condensate(part, slab) >=
               WORTH_IT * rows->limits->condensate;
}

/* Of the hours above 95 % RH those below 0 degC, where pores that full
 * freeze. */
static size_t frozen_hours(const bw_transient_result *result, size_t monitor)
{
    size_t count = 0;
    for (size_t h = 0; result->last_hours != NULL && h < BW_TRANSIENT_HOURS;
         h++) {
        const bw_monitor_hour *hour =
            &result->last_hours[h * result->monitor_count + monitor];
        count += hour->theta < 0.0F && hour->phi > 0.95F;
    }
    return count;
}

static void judge_humid_hours(bw_rows *rows, const bw_section_assessment *part,
                              const bw_geography *geography)
{
    const bw_transient_result *result = &part->transient;
    const bw_section *section = part->transient_section;
    const bw_monitor *worst = NULL;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (is_inside(monitor, geography) &&
            is_watched(rows, part, geography, monitor->slab) &&
            (worst == NULL ||
             monitor->last_year.above_95 > worst->last_year.above_95))
            worst = monitor;
    }
    if (worst == NULL)
        return;
    const double hours = worst->last_year.above_95;
    const double limit = rows->limits->humid_hours;
    const char *where = bw_say_plane(rows, section, plane_of(section, worst));
    const size_t frozen = frozen_hours(result,
                                       (size_t)(worst - result->monitor));
    bw_rows_most(rows, BW_C_HUMID_HOURS, hours, limit,
                 bw_say(rows, "%s%s h of the last year %s%s",
                        hours > limit ? "exceeds, inspect: " : "",
                        bw_say_number(rows, hours, 0), where,
                        frozen > 0
                            ? bw_say(rows, ", %zu h of them in frost", frozen)
                            : ""));
}

void bw_judge_standing(bw_rows *rows, const bw_section_assessment *part,
                       const bw_geography *geography)
{
    judge_free_water(rows, part, geography);
    judge_humid_hours(rows, part, geography);
}

/* ---- mould ---- */

static int dampest_month(const bw_monitor *monitor)
{
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (monitor->month_rh[m] > monitor->month_rh[month])
            month = m;
    return month;
}

static const char *say_course(bw_rows *rows, const bw_mould_outcome *mould)
{
    if (mould->settled)
        return "";
    return bw_say(rows, ", still rising by %s a year after %d more years",
                  bw_say_number(rows, mould->rise, 2), mould->years);
}

static double mean_rh(const bw_monitor *monitor)
{
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += monitor->month_rh[m] / BW_MONTHS;
    return sum;
}

/* Is it the outdoor air, or the rain in a ventilated cladding, that brings the
 * mould, and not the wall? By months, which know no rain, the room makes a face
 * outside of the main insulation no more humid than the outdoor air; and
 * nothing there is soaked. Sheathing near the humidity of outdoor air stands
 * sound in the field, and decay is judged by its own row. All three answers get
 * no kinder with more rain. */
static bool is_as_in_air(const bw_section_assessment *part,
                         const bw_geography *geography,
                         const bw_monitor *monitor)
{
    static const double SAME_RH = 0.02; /* in any month */
    static const double SOAKED = 0.95;  /* of the mean of the year */
    if (!part->open_to_air || monitor->room_face ||
        monitor->slab >= geography->insulation || mean_rh(monitor) > SOAKED)
        return false;
    return monitor->slab + 1 == geography->first ||
           bw_months_room_adds(part, monitor->slab) <= SAME_RH;
}

/* The back of an outer leaf: no face that mould feeds on, outside of the main
 * insulation, with a leaf of masonry between it and the room. */
static bool is_behind_masonry(const bw_section_assessment *part,
                              const bw_geography *geography,
                              const bw_monitor *monitor)
{
    static const double LEAF = 0.09; /* m */
    const bw_section *section = part->transient_section;
    if (monitor->room_face || monitor->mould_class < BW_MOULD_MEDIUM_RESISTANT)
        return false;
    const size_t from = geography->insulates ? geography->insulation + 1
                                             : monitor->slab + 1;
    if (geography->insulates && monitor->slab >= geography->insulation)
        return false;
    for (size_t k = from; k < section->slab_count; k++)
        if (section->slab[k].thickness >= LEAF &&
            strcmp(section->slab[k].material->group, "masonry") == 0)
            return true;
    return false;
}

/* NULL: it fails at the limit. Else why it asks for an inspection only. */
static const char *why_inspect(const bw_section_assessment *part,
                               const bw_geography *geography, size_t i)
{
    const bw_monitor *monitor = &part->transient.monitor[i];
    if (is_as_in_air(part, geography, monitor))
        return ", brought by the air of the ventilated cavity and not by the "
               "room";
    if (is_behind_masonry(part, geography, monitor))
        return ", at the back of an outer leaf, behind masonry";
    return NULL;
}

/* Two published pairs of decline and limit: what both fail fails, what only
 * the slower decline fails is marginal. */
static void judge_worst_mould(bw_rows *rows, bw_criterion_id id, double limit,
                              const bw_section_assessment *part,
                              const bw_geography *geography, size_t worst)
{
    const bw_section *section = part->transient_section;
    const bw_monitor *monitor = &part->transient.monitor[worst];
    const bw_place_mould *mould = &part->mould[worst];
    const int month = dampest_month(monitor);
    const bool exceeds = mould->highest >= limit;
    const bool doubted = !exceeds && mould->highest_slow >= limit;
    const char *excuse = exceeds ? why_inspect(part, geography, worst) : NULL;
    const char *reason = bw_say(
        rows,
        "index %s %s%s; dampest in %s (mean %s %% RH); %s with the decline of "
        "ASHRAE 160%s",
        bw_say_number(rows, mould->highest, 2),
        bw_say_plane(rows, section, plane_of(section, monitor)),
        say_course(rows, &mould->by_class), bw_month_name(month),
        bw_say_number(rows, 100.0 * monitor->month_rh[month], 0),
        bw_say_number(rows, mould->highest_slow, 2),
        say_course(rows, &mould->slow));
    if (exceeds || doubted)
        reason = bw_say(rows,
                        "exceeds%s%s: %s; %s h of the last year above 80 %%, "
                        "%s h above 90 %% RH",
                        doubted          ? " by one of two published rules"
                        : excuse != NULL ? excuse
                                         : "",
                        doubted || excuse != NULL ? ", inspect" : "", reason,
                        bw_say_number(rows, monitor->last_year.above_80, 0),
                        bw_say_number(rows, monitor->last_year.above_90, 0));
    bw_row *row = bw_rows_most(rows, id, mould->highest, limit, reason);
    if (doubted || excuse != NULL)
        row->row.outcome = row->row.verdict = BW_MARGINAL;
}

/* 2: fails, 1: marginal, 0: neither. */
static int badness(const bw_section_assessment *part,
                   const bw_geography *geography, size_t i, double limit)
{
    const bw_place_mould *mould = &part->mould[i];
    if (mould->highest >= limit)
        return why_inspect(part, geography, i) != NULL ? 1 : 2;
    return mould->highest_slow >= limit ? 1 : 0;
}

static bool is_mouldier(const bw_section_assessment *part,
                        const bw_geography *geography, size_t a, size_t b,
                        double limit)
{
    const int bad_a = badness(part, geography, a, limit);
    const int bad_b = badness(part, geography, b, limit);
    return bad_a != bad_b ? bad_a > bad_b
                          : part->mould[a].highest > part->mould[b].highest;
}

static void judge_mould(bw_rows *rows, bw_criterion_id id, double limit,
                        const bw_section_assessment *part,
                        const bw_geography *geography)
{
    const bw_transient_result *result = &part->transient;
    const bool room = id == BW_C_MOULD_ROOM;
    size_t worst = result->monitor_count;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (!(room ? monitor->room_face : is_inside(monitor, geography)))
            continue;
        if (worst == result->monitor_count ||
            is_mouldier(part, geography, i, worst, limit))
            worst = i;
    }
    if (worst < result->monitor_count)
        judge_worst_mould(rows, id, limit, part, geography, worst);
}

void bw_judge_mould(bw_rows *rows, const bw_section_assessment *part,
                    const bw_geography *geography)
{
    judge_mould(rows, BW_C_MOULD_HIDDEN, rows->limits->mould_hidden, part,
                geography);
    judge_mould(rows, BW_C_MOULD_ROOM, rows->limits->mould_room, part,
                geography);
}
