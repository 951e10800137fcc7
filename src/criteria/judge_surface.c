#include "judge.h"

#include <assert.h>

/* Surface mould and condensation, and the period balance: two checks whose
 * methods give nearly the criterion itself. */

/* No air is above saturation: what is above it condenses. */
static const char *humid(bw_rows *rows, double rh)
{
    return rh > 1.0
               ? bw_say(rows, "condensing, vapour at %.0f %% of saturation,",
                        100.0 * rh)
               : bw_say(rows, "%.0f %% RH", 100.0 * rh);
}

void bw_judge_factor(bw_rows *rows, bw_criterion_id id,
                     const bw_surface_result *surface)
{
    bool any = false;
    for (int m = 0; m < BW_MONTHS; m++)
        any = any || surface->month[m].meaningful;
    if (!any) {
        bw_rows_none(rows, id, "in no month is it warmer inside than outside")
            ->informative = true;
        return;
    }
    const bw_surface_month *worst = &surface->month[surface->critical_month];
    bw_rows_against(
        rows, id, surface->frsi, surface->frsi_required,
        bw_say(rows, "surface %.1f degC and %s in %s (Rsi %.2f m2 K/W, %s)",
               worst->theta_si, humid(rows, worst->rh_si),
               bw_month_name(surface->critical_month), surface->rsi,
               surface->rsi_source));
}

void bw_judge_surfaces(bw_rows *rows, const bw_section_assessment *part)
{
    static const bw_criterion_id ids[] = {BW_C_SURFACE_MOULD, BW_C_CORNER_MOULD,
                                          BW_C_CUPBOARD_MOULD};
    const size_t most = sizeof ids / sizeof *ids;
    for (size_t i = 0; i < part->surface_count && i < most; i++)
        bw_judge_factor(rows, ids[i], &part->surface[i]);
    bw_judge_condensation(rows, &part->surface[0]);
}

void bw_judge_condensation(bw_rows *rows, const bw_surface_result *open)
{
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (open->month[m].rh_si > open->month[month].rh_si)
            month = m;
    bw_rows_judge(rows, BW_C_SURFACE_CONDENSATION, 100.0 * open->highest_rh,
                  bw_say(rows, "%s in %s", humid(rows, open->highest_rh),
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
        bw_rows_none(rows, BW_C_PERIOD_BALANCE,
                     bw_say(rows, "%s", period->reason))
            ->informative = true; /* the monthly method still can */
        return;
    }
    const char *where =
        period->which == BW_PERIOD_NONE || period->plane_count == 0
            ? "no condensate"
            : bw_say(rows, "%.3f kg/m2 %s", period->plane[0].condensed,
                     bw_say_plane(rows, section, period->plane[0].at));
    bw_rows_against(rows, BW_C_PERIOD_BALANCE, period->condensed,
                    period->evaporable,
                    bw_say(rows, "%s; %.3f kg/m2 can evaporate", where,
                           period->evaporable));
    bw_rows_judge(rows, BW_C_PERIOD_CONDENSATE, period->condensed, where);
    judge_period_amounts(rows, section, period);
    bw_judge_reserve(rows, BW_C_PERIOD_RESERVE, assembly, period->reserve,
                     period->reserve < 0.0
                         ? bw_say(rows,
                                  "%.3f kg/m2 of the condensate cannot "
                                  "evaporate",
                                  -period->reserve)
                         : bw_say(rows,
                                  "%.3f kg/m2 can evaporate beyond the "
                                  "condensate",
                                  period->reserve));
}
