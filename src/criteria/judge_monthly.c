#include "judge.h"

#include <math.h>

/* Judging the monthly runs of one section. */

static void judge_annual(bw_rows *rows, const bw_section *section,
                         const bw_monthly_result *design)
{
    double left = design->residual_first;
    if (!design->condenses) {
        bw_rows_judge(rows, BW_C_ANNUAL_BALANCE, 0.0,
                      "no condensation in any month");
        return;
    }
    const bw_plane *worst = &design->plane[0]; /* condensate has one */
    for (size_t i = 1; i < design->plane_count; i++) {
        const bw_plane *plane = &design->plane[i];
        if (left > BW_NO_WATER ? plane->residual > worst->residual
                               : plane->peak > worst->peak)
            worst = plane;
    }
    const char *where = bw_say_plane(rows, section, worst->at);
    const char *month = bw_month_name(worst->peak_month);
    if (left > BW_NO_WATER)
        bw_rows_judge(
            rows, BW_C_ANNUAL_BALANCE, left,
            bw_say(rows,
                   "%.4f kg/m2 is left after a year, %.4f of it %s (most "
                   "there: %.3f kg/m2 in %s)",
                   left, worst->residual, where, worst->peak, month));
    else
        bw_rows_judge(rows, BW_C_ANNUAL_BALANCE, 0.0,
                      bw_say(rows,
                             "all of it evaporates; most %.3f kg/m2 in %s %s",
                             worst->peak, month, where));
}

void bw_judge_accumulation(bw_rows *rows, bool accumulates, bool periodic,
                           double growth, int cycles)
{
    const char *years = bw_say(rows, "%d year%s computed", cycles,
                               cycles == 1 ? "" : "s");
    if (accumulates) {
        const double more = fmax(growth, 0.0);
        bw_row *row = bw_rows_judge(
            rows, BW_C_ACCUMULATION, more,
            bw_say(rows, "grows by %.4f kg/m2 each year (%s)", more, years));
        bw_row_at_best(row, BW_FAILS);
    } else if (!periodic) {
        bw_rows_value(
            rows, BW_C_ACCUMULATION, growth,
            bw_say(rows, "neither periodic nor proven to grow: %s", years));
    } else {
        bw_rows_judge(rows, BW_C_ACCUMULATION, 0.0,
                      bw_say(rows, "each year ends as the last: %s", years));
    }
}

/* All planes together, at the end of the month when it is most. */
static void judge_total(bw_rows *rows, const bw_section *section,
                        const bw_monthly_result *design)
{
    double most = 0.0, at_plane = 0.0;
    int month = 0;
    size_t where = 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        double sum = 0.0;
        for (size_t i = 0; i < design->plane_count; i++)
            sum += design->plane[i].month[m].accumulated;
        if (sum > most) {
            most = sum;
            month = m;
        }
    }
    for (size_t i = 0; i < design->plane_count; i++)
        if (design->plane[i].month[month].accumulated > at_plane) {
            at_plane = design->plane[i].month[month].accumulated;
            where = i;
        }
    if (at_plane <= 0.0) {
        bw_rows_judge(rows, BW_C_CONDENSATE, most, "no condensate");
        return;
    }
    bw_rows_judge(rows, BW_C_CONDENSATE, most,
                  bw_say(rows, "%.3f kg/m2 at the end of %s, most of it %s",
                         most, bw_month_name(month),
                         bw_say_plane(rows, section, design->plane[where].at)));
}

static void judge_planes(bw_rows *rows, const bw_section *section,
                         const bw_monthly_result *design)
{
    bw_wet_plane *wet = BW_NEW(rows->arena, bw_wet_plane, design->plane_count);
    if (wet == NULL)
        return;
    double run_off = 0.0;
    for (size_t i = 0; i < design->plane_count; i++) {
        const bw_plane *plane = &design->plane[i];
        wet[i] = (bw_wet_plane){plane->at, plane->peak, plane->peak_month};
        if (plane->peak > run_off && bw_plane_sheds(section, plane->at))
            run_off = plane->peak;
    }
    static const bw_amount_ids ids = {BW_C_CONDENSATE_NON_ABSORBING,
                                      BW_C_WOOD_RISE, BW_C_PANEL_RISE};
    bw_judge_amounts(rows, &ids, section, wet, design->plane_count);
    bw_rows_judge(rows, BW_C_RUN_OFF, run_off,
                  run_off > bw_limit_under(rows->profile, BW_C_RUN_OFF, 0)
                      ? "above the guide: water may run down; look where it "
                        "would go"
                      : "below the guide");
}

static void judge_reserve(bw_rows *rows, const bw_assembly *assembly,
                          const bw_section *section,
                          const bw_monthly_result *design)
{
    if (!design->has_reserve || design->critical_plane >= design->plane_count) {
        bw_rows_none(rows, BW_C_RESERVE,
                     "no plane was found to compute a reserve for");
        return;
    }
    const char *reason = bw_say(
        rows, "%s, %.3f kg/m2 a year beyond its own condensate",
        bw_say_plane(rows, section, design->plane[design->critical_plane].at),
        design->reserve);
    bw_judge_reserve(rows, BW_C_RESERVE, assembly, design->reserve, reason);
}

void bw_judge_design(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section *section, const bw_monthly_result *design)
{
    if (!design->converged) {
        bw_rows_none(rows, BW_C_ANNUAL_BALANCE,
                     "the humidity-variable layers did not settle");
        return;
    }
    judge_annual(rows, section, design);
    bw_judge_accumulation(rows, design->accumulates, design->periodic,
                          design->growth, design->cycles);
    judge_total(rows, section, design);
    judge_planes(rows, section, design);
    judge_reserve(rows, assembly, section, design);
}

void bw_judge_leakage(bw_rows *rows, const bw_section *section,
                      const bw_monthly_run *run)
{
    const bw_monthly_result *leaky = &run->result;
    if (!run->ran || !leaky->has_reserve || !leaky->converged ||
        leaky->critical_plane >= leaky->plane_count) {
        bw_row *row = bw_rows_none(
            rows, BW_C_RESERVE_LEAKY,
            run->ran ? "no reserve came of the run with leaking air"
                     : run->reason);
        row->informative = !run->ran;
        return;
    }
    bw_rows_judge(rows, BW_C_RESERVE_LEAKY, leaky->reserve,
                  bw_say(rows,
                         "%s, %.3f kg/m2 a year once leaking air is counted",
                         bw_say_plane(rows, section,
                                      leaky->plane[leaky->critical_plane].at),
                         leaky->reserve));
}
