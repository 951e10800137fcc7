#include "judge.h"

#include <math.h>

#include "verdict.h"

/* The monthly method within a junction, judged by the rows of walls. No
 * standard has it in two dimensions [D]: what it says is screening, which may
 * fail a junction and holds nothing. */

static const char *say_beside(bw_rows *rows, const char *const beside[2])
{
    if (beside[1] == NULL)
        return bw_say(rows, "in %s", beside[0]);
    return bw_say(rows, "between %s and %s", beside[0], beside[1]);
}

static const char *say_place(bw_rows *rows, const bw_water_place *at)
{
    return bw_say(rows, "%s (x %.0f mm, y %.0f mm)",
                  say_beside(rows, at->beside), 1e3 * at->x, 1e3 * at->y);
}

static void judge_annual(bw_rows *rows, const bw_junction_water *water)
{
    if (water->place_count == 0) {
        bw_rows_judge(rows, BW_C_ANNUAL_BALANCE, 0.0,
                      "no condensation in any month");
        return;
    }
    const bw_water_place *worst = &water->place[0];
    for (size_t k = 1; k < water->place_count; k++)
        if (water->place[k].left_by_area >
            fmax(worst->left_by_area, BW_NO_WATER))
            worst = &water->place[k];
    const char *where = say_place(rows, worst);
    const char *month = bw_month_name(worst->month);
    if (worst->left_by_area > BW_NO_WATER)
        bw_rows_judge(
            rows, BW_C_ANNUAL_BALANCE, worst->left_by_area,
            bw_say(rows,
                   "%.4f kg/m2 is left after a year, most of it %s (most "
                   "there: %.3f kg/m2 in %s)",
                   worst->left_by_area, where, worst->most_by_area, month));
    else
        bw_rows_judge(rows, BW_C_ANNUAL_BALANCE, 0.0,
                      bw_say(rows,
                             "all of it evaporates; most %.3f kg/m2 in %s %s",
                             worst->most_by_area, month, where));
}

static void judge_amounts(bw_rows *rows, const bw_junction_water *water)
{
    const bw_water_place *shed = NULL;
    for (size_t k = 0; k < water->place_count; k++)
        if (water->place[k].most_shed > (shed != NULL ? shed->most_shed : 0.0))
            shed = &water->place[k];
    if (water->place_count == 0)
        bw_rows_judge(rows, BW_C_CONDENSATE, 0.0, "no condensate");
    else
        bw_rows_judge(rows, BW_C_CONDENSATE, water->place[0].most_by_area,
                      bw_say(rows, "%.3f kg/m2 at the end of %s, most of it %s",
                             water->place[0].most_by_area,
                             bw_month_name(water->place[0].month),
                             say_place(rows, &water->place[0])));
    if (shed == NULL)
        bw_rows_judge(rows, BW_C_CONDENSATE_NON_ABSORBING, 0.0,
                      "no water at a face that does not absorb");
    else
        bw_rows_judge(rows, BW_C_CONDENSATE_NON_ABSORBING, shed->most_shed,
                      bw_say(rows, "%.3f kg/m2 %s in %s", shed->most_shed,
                             say_place(rows, shed),
                             bw_month_name(shed->month)));
}

/* ---- the wetting test ---------------------------------------------------- */

static void judge_wetting(bw_rows *rows, const bw_water_wetting *wet)
{
    if (!wet->ran) {
        bw_rows_none(rows, BW_C_DRYING, wet->reason)->informative =
            wet->nothing_at_risk;
        return;
    }
    bw_judge_ways(
        rows, &wet->both, &wet->outwards, &wet->inwards,
        bw_say(rows,
               "%.2f kg/m2 put %s (x %.0f to %.0f mm, y %.0f to %.0f mm) in %s",
               wet->water, say_beside(rows, wet->beside), 1e3 * wet->x0,
               1e3 * wet->x1, 1e3 * wet->y0, 1e3 * wet->y1,
               bw_month_name(wet->month)),
        wet->elsewhere ? "; other places condense meanwhile" : "");
}

static void judge_year(bw_rows *rows, const bw_junction_water *water)
{
    judge_annual(rows, water);
    bw_judge_accumulation(rows, water->accumulates, water->periodic,
                          water->growth_by_area, water->years);
    judge_amounts(rows, water);
}

void bw_judge_water(bw_rows *rows, const bw_junction_water *water,
                    const bw_junction_water *bound, bool simulated)
{
    if (!water->ran) {
        bw_rows_none(rows, BW_C_ANNUAL_BALANCE, water->reason);
        return;
    }
    judge_year(rows, water);
    if (bound->ran) {
        bw_rows other = {.arena = rows->arena,
                         .profile = rows->profile,
                         .section = rows->section};
        judge_year(&other, bound);
        bw_verdict_bound(rows, &other);
    }
    judge_wetting(rows, &water->wetting);
    bw_verdict_screen(rows, true, simulated);
}
