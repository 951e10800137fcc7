#include "judge.h"

#include <assert.h>
#include <math.h>

/* Surface mould and condensation, and the period balance: two checks whose
 * methods give nearly the criterion itself. */

static void judge_factor(bw_rows *rows, bw_criterion_id id,
                         const bw_surface_result *surface)
{
    bool any = false;
    for (int m = 0; m < BW_MONTHS; m++)
        any = any || surface->month[m].meaningful;
    if (!any) {
        bw_row *row = bw_rows_none(rows, id,
                                   "in no month is it warmer inside than "
                                   "outside");
        row->informative = true;
        return;
    }
    const bw_surface_month *worst = &surface->month[surface->critical_month];
    bw_rows_least(
        rows, id, surface->frsi, surface->frsi_required,
        bw_say(rows, "surface %s degC and %s %% RH in %s (Rsi %s m2 K/W, %s)",
               bw_say_number(rows, worst->theta_si, 1),
               bw_say_number(rows, 100.0 * worst->rh_si, 0),
               bw_month_name(surface->critical_month),
               bw_say_number(rows, surface->rsi, 2), surface->rsi_source));
}

void bw_judge_surfaces(bw_rows *rows, const bw_section_assessment *part)
{
    static const bw_criterion_id ids[] = {BW_C_SURFACE_MOULD, BW_C_CORNER_MOULD,
                                          BW_C_CUPBOARD_MOULD};
    const size_t most = sizeof ids / sizeof *ids;
    for (size_t i = 0; i < part->surface_count && i < most; i++)
        judge_factor(rows, ids[i], &part->surface[i]);
    const bw_surface_result *open = &part->surface[0];
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (open->month[m].rh_si > open->month[month].rh_si)
            month = m;
    bw_rows_most(rows, BW_C_SURFACE_CONDENSATION, 100.0 * open->highest_rh,
                 100.0 * rows->limits->condensation_rh,
                 bw_say(rows, "%s %% RH in %s",
                        bw_say_number(rows, 100.0 * open->highest_rh, 0),
                        bw_month_name(month)));
}

static void judge_period_amounts(bw_rows *rows, const bw_section *section,
                                 const bw_period_result *period)
{
    bw_wet_plane wet[2];
    size_t count = 0;
    assert(period->plane_count <= sizeof wet / sizeof *wet);
    for (size_t i = 0; i < period->plane_count; i++)
        wet[count++] = (bw_wet_plane){period->plane[i].at,
                                      period->plane[i].condensed, -1};
    if (period->which == BW_PERIOD_ZONE)
        for (size_t i = 0; i < count; i++)
            wet[i].amount = period->condensed;
    if (period->which == BW_PERIOD_NONE)
        count = 0;
    static const bw_amount_ids ids = {BW_C_PERIOD_NON_ABSORBING,
                                      BW_C_PERIOD_WOOD_RISE,
                                      BW_C_PERIOD_PANEL_RISE};
    bw_judge_amounts(rows, &ids, section, wet, count);
}

void bw_judge_period(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section *section, const bw_period_result *period)
{
    if (!period->assessed) {
        bw_row *row = bw_rows_none(rows, BW_C_PERIOD_BALANCE,
                                   bw_say(rows, "%s", period->reason));
        row->informative = true; /* the monthly method still can */
        return;
    }
    const char *where =
        period->which == BW_PERIOD_NONE || period->plane_count == 0
            ? "no condensate"
            : bw_say(rows, "%s kg/m2 %s",
                     bw_say_number(rows, period->plane[0].condensed, 3),
                     bw_say_plane(rows, section, period->plane[0].at));
    bw_rows_most(rows, BW_C_PERIOD_BALANCE, period->condensed,
                 period->evaporable,
                 bw_say(rows, "%s; %s kg/m2 can evaporate", where,
                        bw_say_number(rows, period->evaporable, 3)));
    bw_rows_most(rows, BW_C_PERIOD_CONDENSATE, period->condensed,
                 rows->limits->condensate, where);
    judge_period_amounts(rows, section, period);
    double limit = bw_reserve_limit(rows->limits, assembly);
    const char *reserve = bw_say(rows,
                                 "%s kg/m2 can evaporate beyond the condensate",
                                 bw_say_number(rows, period->reserve, 3));
    if (limit > 0.0)
        bw_rows_least(rows, BW_C_PERIOD_RESERVE, period->reserve, limit,
                      reserve);
    else
        bw_rows_info(
            rows, BW_C_PERIOD_RESERVE, period->reserve,
            bw_say(rows, "%s; no timber, so the rule sets no limit", reserve));
}
