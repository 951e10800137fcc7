#include "judge.h"

#include <math.h>

/* The hours of a junction, judged by the rows and limits of walls: every face
 * between two materials, every piece of wood that shows no face to the outside,
 * every face of a room; the worst of each is named.
 *
 * Invariant: what the hours do not see of this junction is a row that is not
 * assessed, so that none holds for want of a judge. No excuse of walls counts:
 * in a drawing nobody knows what lies behind what. */

static const char *say_place(bw_rows *rows, const bw_hour_place *p)
{
    if (p->room)
        return bw_say(rows, "%s to \"%s\" (x %.0f mm, y %.0f mm)", p->beside[0],
                      p->beside[1], 1e3 * p->x, 1e3 * p->y);
    return bw_say(rows, "between %s and %s (x %.0f mm, y %.0f mm)",
                  p->beside[0], p->beside[1], 1e3 * p->x, 1e3 * p->y);
}

static const char *say_wood(bw_rows *rows, const bw_hour_wood *w)
{
    return bw_say(rows, "%s (x %.0f mm, y %.0f mm)", w->name, 1e3 * w->x,
                  1e3 * w->y);
}

/* ---- water ----------------------------------------------------------------
 */

static void judge_periodic(bw_rows *rows, const bw_junction_hours *h)
{
    const char *years = bw_say(rows, "%d year%s simulated%s", h->years,
                               h->years == 1 ? "" : "s",
                               h->synthetic ? ", with synthetic hours" : "");
    if (!h->rising && !h->periodic && !h->drying)
        years = bw_say(rows, "%s; the last moved some place by %.1f %% RH",
                       years, 100.0 * h->state_change);
    bw_judge_years(rows, h->rising, h->periodic, h->drying, h->yearly_change,
                   NULL, years);
}

static void judge_free_water(bw_rows *rows, const bw_junction_hours *h)
{
    static const double NO_WATER = 5e-4; /* kg/m2: prints as 0.000 */
    const bw_hour_place *worst = NULL;
    for (size_t k = 0; k < h->place_count; k++)
        if (!h->place[k].room &&
            (worst == NULL || h->place[k].free_water > worst->free_water))
            worst = &h->place[k];
    if (worst == NULL)
        return;
    bw_rows_judge(rows, BW_C_STANDING_WATER, worst->free_water,
                  worst->free_water < NO_WATER || worst->free_month < 0
                      ? "no water stands at any face within"
                      : bw_say(rows, "%.3f kg/m2 %s in %s", worst->free_water,
                               say_place(rows, worst),
                               bw_month_name(worst->free_month)));
}

static void judge_humid_hours(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_place *worst = NULL;
    for (size_t k = 0; k < h->place_count; k++)
        if (h->place[k].at_risk &&
            (worst == NULL || h->place[k].above_95 > worst->above_95))
            worst = &h->place[k];
    if (worst != NULL)
        bw_rows_judge(rows, BW_C_HUMID_HOURS, worst->above_95,
                      bw_say(rows, "%.0f h of the last year %s, dampest in %s",
                             worst->above_95, say_place(rows, worst),
                             bw_month_name(worst->dampest)));
}

/* ---- wood -----------------------------------------------------------------
 */

/* Wood of wool boards is none of a structure, as in walls. */
static bool is_hidden(const bw_hour_wood *w)
{
    return !w->exposed && w->material->wood_kind != BW_WOOD_WOOL_BOARD;
}

/* A piece without a block that could be asked is not judged: worst. */
static bool is_worse(double a, double b)
{
    return isfinite(b) && (!isfinite(a) || a > b);
}

static void judge_moisture(bw_rows *rows, bw_criterion_id id, bw_wood_kind kind,
                           const bw_junction_hours *h)
{
    const bw_hour_wood *worst = NULL;
    for (size_t k = 0; k < h->wood_count; k++)
        if (is_hidden(&h->wood[k]) && h->wood[k].material->wood_kind == kind &&
            (worst == NULL || is_worse(h->wood[k].highest, worst->highest)))
            worst = &h->wood[k];
    if (worst == NULL)
        return;
    const double percent = 100.0 * worst->highest;
    bw_rows_judge(rows, id, percent,
                  bw_say(rows,
                         "%.1f %% in %s, wettest in %s; %.0f h of the last "
                         "year above the limit",
                         percent, say_wood(rows, worst),
                         bw_month_name(worst->month), worst->hours_above));
}

static void judge_line(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_wood *worst = NULL;
    for (size_t k = 0; k < h->wood_count; k++)
        if (is_hidden(&h->wood[k]) &&
            (worst == NULL ||
             h->wood[k].days_above_line > worst->days_above_line))
            worst = &h->wood[k];
    if (worst == NULL)
        return;
    bw_rows_judge(
        rows, BW_C_TIMBER_LINE, worst->days_above_line,
        worst->days_above_line > 0.0
            ? bw_say(rows, "%.0f d of the last year in %s, by up to %.1f %% RH",
                     worst->days_above_line, say_wood(rows, worst),
                     100.0 * worst->overshoot)
            : "the wettest 10 mm of wood stay below the line all year");
}

static double service_dose(const bw_hour_wood *w)
{
    return w->first_dose + (BW_SERVICE_YEARS - 1) * w->dose;
}

static void judge_decay(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_wood *worst = NULL;
    for (size_t k = 0; k < h->wood_count; k++)
        if (is_hidden(&h->wood[k]) &&
            (worst == NULL || service_dose(&h->wood[k]) > service_dose(worst)))
            worst = &h->wood[k];
    if (worst == NULL)
        return;
    bw_rows_judge(
        rows, BW_C_DECAY, service_dose(worst),
        service_dose(worst) > 0.0
            ? bw_say(rows,
                     "%s, wettest in %s: a dose of %.1f d in the first year, "
                     "%.1f d in every later one",
                     say_wood(rows, worst), bw_month_name(worst->month),
                     worst->first_dose, worst->dose)
            : "on no day is wood above 25 % by mass and between 0 and 40 degC, "
              "where this dose begins");
}

/* ---- mould ----------------------------------------------------------------
 */

/* 2: fails, 1: marginal, 0: neither. */
static int badness(const bw_hour_place *p, double limit)
{
    return p->mould >= limit ? 2 : p->mould_slow >= limit ? 1 : 0;
}

static void judge_mould(bw_rows *rows, bw_criterion_id id, bool room,
                        const bw_junction_hours *h)
{
    const double limit = bw_limit_under(rows->profile, id, 0);
    const bw_hour_place *worst = NULL;
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        if (p->room != room)
            continue;
        const int by = worst == NULL
                           ? 1
                           : badness(p, limit) - badness(worst, limit);
        if (by > 0 || (by == 0 && p->mould > worst->mould))
            worst = p;
    }
    if (worst == NULL)
        return;
    const bool doubted = worst->mould < limit && worst->mould_slow >= limit;
    bw_row *row = bw_rows_judge(
        rows, id, worst->mould,
        bw_say(rows,
               "%sindex %.2f %s%s; dampest in %s (mean %.0f %% RH); %.2f with "
               "the decline of ASHRAE 160",
               doubted ? "exceeds by one of two published rules, inspect: "
                       : "",
               worst->mould, say_place(rows, worst),
               worst->settled ? "" : ", still rising",
               bw_month_name(worst->dampest),
               100.0 * worst->month_rh[worst->dampest], worst->mould_slow));
    if (doubted)
        bw_row_at_best(row, BW_MARGINAL);
}

/* ---- what is not seen -----------------------------------------------------
 */

static const char *join(bw_rows *rows, const char *text, const char *more)
{
    return text == NULL ? more : bw_say(rows, "%s; %s", text, more);
}

static bool any_exposed(const bw_junction_hours *h)
{
    for (size_t k = 0; k < h->wood_count; k++)
        if (h->wood[k].exposed)
            return true;
    return false;
}

/* A wetting is followed by months alone: where it does not dry there, or was
 * not run, nobody knows. */
static bool dries(const bw_rows *rows, const bw_junction_water *water)
{
    const bw_row *row = bw_rows_find(rows, rows->section, BW_C_DRYING);
    return water->ran && row != NULL &&
           (row->informative || row->row.outcome == BW_HOLDS ||
            row->row.outcome == BW_MARGINAL);
}

static void judge_unseen(bw_rows *rows, const bw_junction_hours *h,
                         const bw_junction_water *water)
{
    const char *text = NULL;
    for (size_t k = 0; k < h->unseen_count; k++)
        text = join(rows, text, h->unseen[k]);
    if (any_exposed(h))
        text = join(rows, text, "wood that shows a face to the outside");
    if (text != NULL)
        text = bw_say(rows, "not computed: %s", text);
    if (!dries(rows, water))
        text = join(rows, text,
                    "no wetting is simulated, and by months none was seen to "
                    "dry within its limit");
    if (text != NULL)
        bw_rows_none(rows, BW_C_JUNCTION_INSIDE, text);
}

void bw_judge_within(bw_rows *rows, const bw_junction_hours *hours,
                     const bw_junction_water *water)
{
    if (!hours->ran) {
        bw_rows_none(rows, BW_C_TRANSIENT, hours->reason);
        return;
    }
    judge_periodic(rows, hours);
    judge_free_water(rows, hours);
    judge_humid_hours(rows, hours);
    judge_moisture(rows, BW_C_WOOD_MOISTURE, BW_SOLID_WOOD, hours);
    judge_moisture(rows, BW_C_PANEL_MOISTURE, BW_WOOD_PANEL, hours);
    judge_line(rows, hours);
    judge_decay(rows, hours);
    judge_mould(rows, BW_C_MOULD_HIDDEN, false, hours);
    judge_mould(rows, BW_C_MOULD_ROOM, true, hours);
    judge_unseen(rows, hours, water);
}
