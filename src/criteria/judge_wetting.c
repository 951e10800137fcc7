#include "judge.h"

#include <math.h>

/* The wetting test: how soon the place is as it would be without the water. */

/* A stud gives water sideways to its bay, which one dimension does not see:
 * through it the place alone counts. */
double bw_wetting_test_months(const bw_section_wetting *test,
                              const bw_wetting_result *way)
{
    if (test->place_alone)
        return way->place_months;
    return way->months < 0.0 || way->place_months < 0.0
               ? -1.0
               : fmax(way->months, way->place_months);
}

/* Dry is as the wall is without the water, however damp that may be. */
static const char *say_dry(const bw_section_wetting *wetting, double months)
{
    if (months < 0.0)
        return "";
    return wetting->place_alone
               ? ", the place alone, to what it is without the water (a stud "
                 "dries sideways, too)"
               : ", to what it is without the water";
}

double bw_wetting_months_followed(const bw_wetting_result *way)
{
    return (double)way->day_count * 12.0 / 365.0;
}

static const char *say_time(bw_rows *rows, const bw_section_wetting *wetting,
                            const bw_wetting_result *way)
{
    const double months = bw_wetting_test_months(wetting, way);
    if (months >= 0.0)
        return bw_say(rows, "in %.1f months", months);
    return bw_say(rows, "not in %.0f months (%.2f kg/m2 of it there)",
                  bw_wetting_months_followed(way), way->left);
}

static const char *say_ways(bw_rows *rows, const bw_section_wetting *test)
{
    if (!test->one_way)
        return "";
    return bw_say(
        rows, "; %s",
        bw_ways_words(bw_wetting_test_months(test, &test->both) >= 0.0,
                      bw_wetting_test_months(test, &test->outwards) >= 0.0,
                      bw_wetting_test_months(test, &test->inwards) >= 0.0));
}

static void judge_one_way(bw_rows *rows, bw_criterion_id id,
                          const bw_section_wetting *wetting,
                          const bw_wetting_result *way, const char *words)
{
    bw_judge_one_way(rows, id, bw_wetting_test_months(wetting, way), words,
                     say_time(rows, wetting, way));
}

/* The place dry in time and no other one damp, whatever is left lies thinly in
 * what stores it; and the wall gives off in a year what DIN 68800-2 wants it
 * to, so that water does not gather over the years. Without that reserve what
 * is spread stays for good. What is hardly dry in time excuses nothing: a tenth
 * is where rows are marginal. */
static const double CLEARLY = 0.9;

static bool is_spread(const bw_rows *rows, const bw_assembly *assembly,
                      const bw_section_assessment *part)
{
    const bw_wetting_result *both = &part->wetting_test.both;
    const bw_monthly_run *design = &part->run[BW_RUN_DESIGN];
    const double limit = bw_limit_under(rows->profile, BW_C_WETTING, 0);
    const double least = bw_reserve_limit(rows->profile, assembly);
    return !part->wetting_test.place_alone && both->place_months >= 0.0 &&
           both->damp_months >= both->place_months &&
           both->damp_months < CLEARLY * limit && least > 0.0 && design->ran &&
           design->result.has_reserve && design->result.reserve >= least;
}

static const char *why_inspect(bw_rows *rows, const bw_wetting_result *both,
                               bool perishes, bool spread)
{
    if (spread)
        return bw_say(rows,
                      "exceeds, inspect (no place is damp of it after %.1f "
                      "months, and the drying reserve holds): ",
                      both->damp_months);
    return perishes ? "" : "exceeds, inspect (nothing there rots): ";
}

/* What does not dry fails where it rots or feeds mould; else the insulation
 * loses its worth, which an inspection finds. */
void bw_judge_wetting(bw_rows *rows, const bw_assembly *assembly,
                      const bw_section_assessment *part)
{
    const bw_section_wetting *wetting = &part->wetting_test;
    if (!wetting->ran) {
        bw_row *row = bw_rows_none(rows, BW_C_WETTING, wetting->reason);
        row->informative = wetting->nothing_at_risk;
        return;
    }
    const bool perishes = bw_water_reaches_what_perishes(
        assembly, part->transient_section, wetting->place.slab);
    const bw_wetting_result *both = &wetting->both;
    const double months = bw_wetting_test_months(wetting, both);
    const double limit = bw_limit_under(rows->profile, BW_C_WETTING, 0);
    const bool late = months < 0.0 || months >= limit;
    const bool spread = late && is_spread(rows, assembly, part);
    const bool inspect = !perishes || spread;
    const char *reason = bw_say(
        rows,
        "%s%.2f kg/m2 put %s in %s dries %s%s%s; mould index there up to %.1f "
        "meanwhile, %.1f without the water",
        months < 0.0 || spread ? why_inspect(rows, both, perishes, spread) : "",
        wetting->water,
        bw_say_plane(rows, part->transient_section, wetting->place),
        bw_month_name(wetting->month), say_time(rows, wetting, both),
        say_dry(wetting, months), say_ways(rows, wetting), both->highest_mould,
        both->highest_mould_dry);
    bw_row *row = bw_rows_judge(
        rows, BW_C_WETTING,
        months < 0.0 ? fmax(bw_wetting_months_followed(both), limit) : months,
        reason);
    row->row.never = months < 0.0;
    if (months < 0.0)
        bw_row_at_best(row, inspect ? BW_MARGINAL : BW_FAILS);
    if (inspect)
        bw_row_at_worst(row, BW_MARGINAL);
    if (!wetting->one_way)
        return;
    judge_one_way(rows, BW_C_WETTING_OUTWARDS, wetting, &wetting->outwards,
                  "outwards");
    judge_one_way(rows, BW_C_WETTING_INWARDS, wetting, &wetting->inwards,
                  "inwards");
}
