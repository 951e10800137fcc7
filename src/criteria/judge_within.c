#include "judge.h"

#include <math.h>
#include <string.h>

/* The hours of a junction, judged by the rows and limits of walls: every face
 * between two materials, every piece of wood that shows no face to the outside,
 * every face of a room; the worst of each is named.
 *
 * Invariants: what a figure moved between two grids is taken as its error: none
 * holds plainly that is closer to its limit. What the hours do not see of this
 * junction is a row that is not assessed, so that none holds for want of a
 * judge. No excuse of walls counts: in a drawing nobody knows what lies behind
 * what. */

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

/* ---- the cells ------------------------------------------------------------
 */

/* Of all places the one whose figure and what it moved are the most. */
typedef struct reach {
    double most, moved;
    const void *at; /* NULL: none yet */
} reach;

static void reach_to(reach *r, double value, double moved, const void *at)
{
    const double sum = value + moved;
    const double most = isfinite(sum) ? sum : HUGE_VAL;
    if (r->at == NULL || most > r->most)
        *r = (reach){most, moved, at};
}

static const char *say_moved(bw_rows *rows, const bw_row *row, double moved)
{
    const bool bare = strcmp(row->row.unit, "-") == 0;
    return bw_say(rows, "%s%.3g%s%s", moved < 1e-3 ? "less than " : "",
                  fmax(moved, 1e-3), bare ? "" : " ",
                  bare ? "" : row->row.unit);
}

/* moved: of the row's own value. One that fails does so whatever it moved. */
static void tell_moved(bw_rows *rows, bw_row *row, const bw_junction_hours *h,
                       double moved)
{
    bw_criterion *c = &row->row;
    if (!h->compared || !c->has_value || !isfinite(moved))
        return;
    c->reason = bw_say(rows, "%s; moved by %s between grids", c->reason,
                       say_moved(rows, row, moved));
    if (c->outcome == BW_FAILS && c->value - moved < c->limit)
        c->reason = bw_say(rows, "%s, more than it is beyond the limit",
                           c->reason);
}

/* What moves by more than half its limit this grid has not found. */
static void keep_open(bw_rows *rows, bw_row *row, const bw_junction_hours *h,
                      const reach *r, const char *where)
{
    const bw_criterion_facts *facts = bw_criterion_facts_of(row->id);
    bw_criterion *c = &row->row;
    const bool strict = bw_bound_strict(facts->bound);
    const bool within = r->most < c->limit || (!strict && r->most <= c->limit);
    const bool beyond = strict ? c->value >= c->limit : c->value > c->limit;
    if (!h->compared || !c->has_limit || within || beyond ||
        c->outcome > BW_MARGINAL)
        return;
    const bool inspect = facts->marginal == BW_MARGINAL_BEYOND;
    const bool unknown = !inspect && !(r->moved <= 0.5 * c->limit);
    c->reason = bw_say(
        rows, "%s, %s %s between grids: %s",
        unknown ? "the cells do not tell" : "the cells leave it open", where,
        isfinite(r->moved)
            ? bw_say(rows, "moved by %s", say_moved(rows, row, r->moved))
            : "has no number",
        c->reason);
    bw_row_at_best(row, unknown ? BW_NOT_ASSESSED : BW_MARGINAL);
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
    bw_row *row = bw_judge_years(rows, h->rising, h->periodic, h->drying,
                                 h->yearly_change, NULL, years);
    if (h->rising || !h->compared || !h->coarse_rising ||
        row->row.verdict != BW_HOLDS)
        return;
    bw_row_at_best(row, BW_MARGINAL);
    row->row.reason = bw_say(rows,
                             "the cells leave it open, on the coarser grid "
                             "water rises: %s",
                             row->row.reason);
}

static void judge_free_water(bw_rows *rows, const bw_junction_hours *h)
{
    static const double NO_WATER = 5e-4; /* kg/m2: prints as 0.000 */
    const bw_hour_place *worst = NULL;
    reach most = {0};
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        if (p->room)
            continue;
        if (worst == NULL || p->free_water > worst->free_water)
            worst = p;
        reach_to(&most, p->free_water, p->moved.free_water, p);
    }
    if (worst == NULL)
        return;
    bw_row *row = bw_rows_judge(
        rows, BW_C_STANDING_WATER, worst->free_water,
        worst->free_water < NO_WATER || worst->free_month < 0
            ? "no water stands at any face within"
            : bw_say(rows, "%.3f kg/m2 %s in %s", worst->free_water,
                     say_place(rows, worst), bw_month_name(worst->free_month)));
    tell_moved(rows, row, h, worst->moved.free_water);
    keep_open(rows, row, h, &most, say_place(rows, most.at));
}

static void judge_humid_hours(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_place *worst = NULL;
    reach most = {0};
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        if (!p->at_risk)
            continue;
        if (worst == NULL || p->above_95 > worst->above_95)
            worst = p;
        reach_to(&most, p->above_95, p->moved.above_95, p);
    }
    if (worst == NULL)
        return;
    bw_row *row = bw_rows_judge(
        rows, BW_C_HUMID_HOURS, worst->above_95,
        bw_say(rows, "%.0f h of the last year %s, dampest in %s",
               worst->above_95, say_place(rows, worst),
               bw_month_name(worst->dampest)));
    tell_moved(rows, row, h, worst->moved.above_95);
    keep_open(rows, row, h, &most, say_place(rows, most.at));
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
    reach most = {0};
    for (size_t k = 0; k < h->wood_count; k++) {
        const bw_hour_wood *w = &h->wood[k];
        if (!is_hidden(w) || w->material->wood_kind != kind)
            continue;
        if (worst == NULL || is_worse(w->highest, worst->highest))
            worst = w;
        reach_to(&most, 100.0 * w->highest, 100.0 * w->moved.highest, w);
    }
    if (worst == NULL)
        return;
    const double percent = 100.0 * worst->highest;
    bw_row *row = bw_rows_judge(
        rows, id, percent,
        bw_say(rows,
               "%.1f %% in %s, wettest in %s; %.0f h of the last "
               "year above the limit",
               percent, say_wood(rows, worst), bw_month_name(worst->month),
               worst->hours_above));
    tell_moved(rows, row, h, 100.0 * worst->moved.highest);
    keep_open(rows, row, h, &most, say_wood(rows, most.at));
}

static void judge_line(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_wood *worst = NULL;
    reach most = {0};
    for (size_t k = 0; k < h->wood_count; k++) {
        const bw_hour_wood *w = &h->wood[k];
        if (!is_hidden(w))
            continue;
        if (worst == NULL || w->days_above_line > worst->days_above_line)
            worst = w;
        reach_to(&most, w->days_above_line, w->moved.days_above_line, w);
    }
    if (worst == NULL)
        return;
    bw_row *row = bw_rows_judge(
        rows, BW_C_TIMBER_LINE, worst->days_above_line,
        worst->days_above_line > 0.0
            ? bw_say(rows, "%.0f d of the last year in %s, by up to %.1f %% RH",
                     worst->days_above_line, say_wood(rows, worst),
                     100.0 * worst->overshoot)
            : "the wettest 10 mm of wood stay below the line all year");
    tell_moved(rows, row, h, worst->moved.days_above_line);
    keep_open(rows, row, h, &most, say_wood(rows, most.at));
}

static double service_dose(const bw_hour_wood *w)
{
    return w->first_dose + (BW_SERVICE_YEARS - 1) * w->dose;
}

static double moved_dose(const bw_hour_wood *w)
{
    return w->moved.first_dose + (BW_SERVICE_YEARS - 1) * w->moved.dose;
}

static void judge_decay(bw_rows *rows, const bw_junction_hours *h)
{
    const bw_hour_wood *worst = NULL;
    reach most = {0};
    for (size_t k = 0; k < h->wood_count; k++) {
        const bw_hour_wood *w = &h->wood[k];
        if (!is_hidden(w))
            continue;
        if (worst == NULL || service_dose(w) > service_dose(worst))
            worst = w;
        reach_to(&most, service_dose(w), moved_dose(w), w);
    }
    if (worst == NULL)
        return;
    bw_row *row = bw_rows_judge(
        rows, BW_C_DECAY, service_dose(worst),
        service_dose(worst) > 0.0
            ? bw_say(rows,
                     "%s, wettest in %s: a dose of %.1f d in the first year, "
                     "%.1f d in every later one",
                     say_wood(rows, worst), bw_month_name(worst->month),
                     worst->first_dose, worst->dose)
            : "on no day is wood above 25 % by mass and between 0 and 40 degC, "
              "where this dose begins");
    tell_moved(rows, row, h, moved_dose(worst));
    keep_open(rows, row, h, &most, say_wood(rows, most.at));
}

/* ---- mould ----------------------------------------------------------------
 */

/* 2: fails, 1: marginal, 0: neither. */
static int badness(const bw_hour_place *p, double limit)
{
    return p->mould >= limit ? 2 : p->mould_slow >= limit ? 1 : 0;
}

/* By the second rule it is marginal at worst. */
static void keep_open_slow(bw_rows *rows, bw_row *row,
                           const bw_junction_hours *h, const reach *slow)
{
    if (!h->compared)
        return;
    row->row.reason = bw_say(
        rows,
        "the cells leave open the index with the decline of ASHRAE 160, "
        "%s moved by %s between grids: %s",
        say_place(rows, slow->at), say_moved(rows, row, slow->moved),
        row->row.reason);
    bw_row_at_best(row, BW_MARGINAL);
}

static void judge_mould(bw_rows *rows, bw_criterion_id id, bool room,
                        const bw_junction_hours *h)
{
    const double limit = bw_limit_under(rows->profile, id, 0);
    const bw_hour_place *worst = NULL;
    reach most = {0}, slow = {0};
    for (size_t k = 0; k < h->place_count; k++) {
        const bw_hour_place *p = &h->place[k];
        if (p->room != room)
            continue;
        reach_to(&most, p->mould, p->moved.mould, p);
        reach_to(&slow, p->mould_slow, p->moved.mould_slow, p);
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
    tell_moved(rows, row, h, worst->moved.mould);
    keep_open(rows, row, h, &most, say_place(rows, most.at));
    if (row->row.outcome == BW_HOLDS && slow.most >= limit)
        keep_open_slow(rows, row, h, &slow);
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
    if (!h->compared)
        text = join(rows, text,
                    bw_say(rows,
                           "no coarser grid tells how far the figures "
                           "hang on the cells (%s)",
                           h->not_compared));
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
