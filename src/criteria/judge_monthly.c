#include "judge.h"

#include <math.h>

/* Judging the monthly runs of one section. */

/* Water below this is none [kg/m2]: the method's own tolerance. */
static const double NOTHING = 1e-6;

static void judge_annual(bw_rows *rows, const bw_section *section,
                         const bw_monthly_result *design)
{
    double left = design->residual_first;
    if (!design->condenses) {
        bw_rows_most(rows, BW_C_ANNUAL_BALANCE, 0.0, 0.0,
                     "no condensation in any month");
        return;
    }
    const bw_plane *worst = &design->plane[0]; /* condensate has one */
    for (size_t i = 1; i < design->plane_count; i++) {
        const bw_plane *plane = &design->plane[i];
        if (left > NOTHING ? plane->residual > worst->residual
                           : plane->peak > worst->peak)
            worst = plane;
    }
    const char *where = bw_say_plane(rows, section, worst->at);
    const char *most = bw_say_number(rows, worst->peak, 3);
    const char *month = bw_month_name(worst->peak_month);
    if (left > NOTHING)
        bw_rows_most(rows, BW_C_ANNUAL_BALANCE, left, 0.0,
                     bw_say(rows,
                            "%s kg/m2 is left after a year, %s of it %s (most "
                            "there: %s kg/m2 in %s)",
                            bw_say_number(rows, left, 4),
                            bw_say_number(rows, worst->residual, 4), where,
                            most, month));
    else
        bw_rows_most(rows, BW_C_ANNUAL_BALANCE, 0.0, 0.0,
                     bw_say(rows,
                            "all of it evaporates; most %s kg/m2 in %s %s",
                            most, month, where));
}

static void judge_accumulation(bw_rows *rows, const bw_monthly_result *design)
{
    const char *years = bw_say(rows, "%d year%s computed", design->cycles,
                               design->cycles == 1 ? "" : "s");
    if (design->accumulates) {
        double growth = fmax(design->growth, 0.0);
        bw_row *row = bw_rows_most(
            rows, BW_C_ACCUMULATION, growth, 0.0,
            bw_say(rows, "grows by %s kg/m2 each year (%s)",
                   bw_say_number(rows, growth, 4), years));
        row->row.outcome = row->row.verdict = BW_FAILS;
    } else if (!design->periodic) {
        bw_row *row = bw_rows_info(
            rows, BW_C_ACCUMULATION, design->growth,
            bw_say(rows, "neither periodic nor proven to grow: %s", years));
        row->informative = false;
    } else {
        bw_rows_most(rows, BW_C_ACCUMULATION, 0.0, 0.0,
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
    double limit = rows->limits->condensate;
    if (at_plane <= 0.0) {
        bw_rows_most(rows, BW_C_CONDENSATE, most, limit, "no condensate");
        return;
    }
    bw_rows_most(rows, BW_C_CONDENSATE, most, limit,
                 bw_say(rows, "%s kg/m2 at the end of %s, most of it %s",
                        bw_say_number(rows, most, 3), bw_month_name(month),
                        bw_say_plane(rows, section, design->plane[where].at)));
}

static void judge_planes(bw_rows *rows, const bw_section *section,
                         const bw_monthly_result *design)
{
    bw_wet_plane *wet = BW_NEW(rows->arena, bw_wet_plane, design->plane_count);
    if (wet == NULL) {
        rows->out_of_memory = true;
        return;
    }
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
    bw_rows_most(rows, BW_C_RUN_OFF, run_off, rows->limits->run_off,
                 run_off > rows->limits->run_off
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
        rows, "%s, %s kg/m2 a year beyond its own condensate",
        bw_say_plane(rows, section, design->plane[design->critical_plane].at),
        bw_say_number(rows, design->reserve, 3));
    double limit = bw_reserve_limit(rows->limits, assembly);
    if (limit > 0.0)
        bw_rows_least(rows, BW_C_RESERVE, design->reserve, limit, reason);
    else
        bw_rows_info(
            rows, BW_C_RESERVE, design->reserve,
            bw_say(rows, "%s; no timber, so the rule sets no limit", reason));
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
    judge_accumulation(rows, design);
    judge_total(rows, section, design);
    judge_planes(rows, section, design);
    judge_reserve(rows, assembly, section, design);
}

void bw_judge_leakage(bw_rows *rows, const bw_section *section,
                      const bw_monthly_result *leaky, const char *reason)
{
    if (leaky == NULL || !leaky->has_reserve || !leaky->converged ||
        leaky->critical_plane >= leaky->plane_count) {
        bw_row *row = bw_rows_none(
            rows, BW_C_RESERVE_LEAKY,
            leaky == NULL ? reason : "no reserve came of the leaky run");
        row->informative = leaky == NULL;
        return;
    }
    bw_rows_least(rows, BW_C_RESERVE_LEAKY, leaky->reserve, 0.0,
                  bw_say(rows,
                         "%s, %s kg/m2 a year once leaking air is counted",
                         bw_say_plane(rows, section,
                                      leaky->plane[leaky->critical_plane].at),
                         bw_say_number(rows, leaky->reserve, 3)));
}
