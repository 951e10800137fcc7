#include "judge.h"

#include <assert.h>
#include <math.h>

/* Judging the simulation. What lies outside the weather line is
 * weathered anyway and is not judged. Above a limit the words are "exceeds,
 * inspect": field walls above such limits have been opened and found sound. */

static void judge_water(bw_rows *rows, const bw_transient_result *result)
{
    const char *years = bw_say(
        rows, "%d year%s simulated%s", result->years,
        result->years == 1 ? "" : "s",
        result->synthetic_climate ? ", with synthetic hours" : "");
    double change = result->yearly_change;
    const char *amount = bw_say_number(rows, change, 3);
    if (result->rising) {
        bw_row *row = bw_rows_most(
            rows, BW_C_PERIODIC_WATER, change, 0.0,
            bw_say(rows, "total water rises by %s kg/m2 a year (%s)", amount,
                   years));
        row->row.outcome = row->row.verdict = BW_FAILS;
    } else if (result->periodic || change <= 0.0) {
        bw_row *row = bw_rows_info(rows, BW_C_PERIODIC_WATER, change,
                                   bw_say(rows, "%s (last year %s kg/m2; %s)",
                                          result->periodic
                                              ? "each year repeats the last"
                                              : "still drying",
                                          amount, years));
        row->informative = false;
        row->row.outcome = row->row.verdict = BW_HOLDS;
    } else {
        bw_row *row = bw_rows_info(
            rows, BW_C_PERIODIC_WATER, change,
            bw_say(rows, "not yet periodic, not plainly rising (%s)", years));
        row->informative = false;
    }
}

static void judge_wood(bw_rows *rows, bw_criterion_id id, bw_wood_kind kind,
                       double limit, const bw_section *section,
                       const bw_transient_result *result, size_t first)
{
    const bw_slab_moisture *worst = NULL;
    size_t where = 0;
    assert(result->slab_count == section->slab_count);
    for (size_t i = first; i < section->slab_count; i++) {
        const bw_slab_moisture *slab = &result->slab[i];
        if (section->slab[i].material->wood_kind != kind || !slab->is_wood)
            continue;
        if (worst == NULL ||
            slab->highest_wood_moisture > worst->highest_wood_moisture) {
            worst = slab;
            where = i;
        }
    }
    if (worst == NULL)
        return; /* none of this kind in the section: no row */
    double percent = 100.0 * worst->highest_wood_moisture;
    const char *reason = bw_say(
        rows, "%s %% in %s, wettest in %s", bw_say_number(rows, percent, 1),
        section->slab[where].label, bw_month_name(worst->highest_month));
    if (percent >= limit)
        reason = bw_say(rows,
                        "exceeds, inspect: %s; %s h of the last year "
                        "above the limit",
                        reason,
                        bw_say_number(rows, worst->hours_above_limit, 0));
    bw_rows_most(rows, id, percent, limit, reason);
}

static int dampest_month(const bw_monitor *monitor)
{
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (monitor->month_rh[m] > monitor->month_rh[month])
            month = m;
    return month;
}

static const bw_monitor *worst_monitor(const bw_transient_result *result,
                                       bool room, size_t first)
{
    const bw_monitor *worst = NULL;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (monitor->outer_face || monitor->room_face != room ||
            (!room && monitor->slab + 1 < first))
            continue;
        if (worst == NULL || monitor->highest_mould > worst->highest_mould)
            worst = monitor;
    }
    return worst;
}

static void judge_mould(bw_rows *rows, bw_criterion_id id, double limit,
                        const bw_section *section, const bw_monitor *worst)
{
    if (worst == NULL)
        return;
    assert(worst->slab < section->slab_count);
    int month = dampest_month(worst);
    bw_plane_at at = {worst->slab, section->slab[worst->slab].thickness, true};
    const char *reason = bw_say(
        rows, "index %s %s; dampest in %s (mean %s %% RH)",
        bw_say_number(rows, worst->highest_mould, 2),
        bw_say_plane(rows, section, at), bw_month_name(month),
        bw_say_number(rows, 100.0 * worst->month_rh[month], 0));
    if (worst->highest_mould >= limit)
        reason = bw_say(
            rows,
            "exceeds, inspect: %s; %s h of the last year above 80 %%, "
            "%s h above 90 %% RH",
            reason, bw_say_number(rows, worst->hours_above_80, 0),
            bw_say_number(rows, worst->hours_above_90, 0));
    bw_rows_most(rows, id, worst->highest_mould, limit, reason);
}

void bw_judge_transient(bw_rows *rows, const bw_assembly *assembly,
                        const bw_section_assessment *part)
{
    if (!part->has_transient) {
        bw_rows_none(rows, BW_C_TRANSIENT, part->transient_reason);
        return;
    }
    const bw_transient_result *result = &part->transient;
    const bw_section *section = part->transient_section;
    const bw_limits *limits = rows->limits;
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    size_t first = geography.first;
    judge_water(rows, result);
    judge_wood(rows, BW_C_WOOD_MOISTURE, BW_SOLID_WOOD, limits->wood_moisture,
               section, result, first);
    judge_wood(rows, BW_C_PANEL_MOISTURE, BW_WOOD_PANEL, limits->panel_moisture,
               section, result, first);
    judge_mould(rows, BW_C_MOULD_HIDDEN, limits->mould_hidden, section,
                worst_monitor(result, false, first));
    judge_mould(rows, BW_C_MOULD_ROOM, limits->mould_room, section,
                worst_monitor(result, true, first));
}
