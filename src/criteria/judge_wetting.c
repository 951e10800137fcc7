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
        return bw_say(rows, "in %s months", bw_say_number(rows, months, 1));
    return bw_say(rows, "not in %s months (%s kg/m2 of it there)",
                  bw_say_number(rows, bw_wetting_months_followed(way), 0),
                  bw_say_number(rows, way->left, 2));
}

static const char *say_ways(const bw_section_wetting *wetting)
{
    if (!wetting->one_way)
        return "";
    const bool out = bw_wetting_test_months(wetting, &wetting->outwards) >= 0.0;
    const bool in = bw_wetting_test_months(wetting, &wetting->inwards) >= 0.0;
    if (out && in)
        return "; dries both ways";
    if (out)
        return "; dries outwards only";
    if (in)
        return "; dries inwards only";
    return bw_wetting_test_months(wetting, &wetting->both) >= 0.0
               ? "; dries only with both ways open"
               : "; dries neither way";
}

static void judge_one_way(bw_rows *rows, bw_criterion_id id,
                          const bw_section_wetting *wetting,
                          const bw_wetting_result *way, const char *words)
{
    const double months = bw_wetting_test_months(wetting, way);
    bw_rows_info(rows, id, months < 0.0 ? (double)NAN : months,
                 bw_say(rows, "for information: dries %s %s", words,
                        say_time(rows, wetting, way)));
}

void bw_judge_wetting(bw_rows *rows, const bw_section_assessment *part)
{
    const bw_section_wetting *wetting = &part->wetting_test;
    if (!wetting->ran) {
        bw_row *row = bw_rows_none(rows, BW_C_WETTING, wetting->reason);
        row->informative = wetting->nothing_at_risk;
        return;
    }
    const bw_wetting_result *both = &wetting->both;
    const double months = bw_wetting_test_months(wetting, both);
    const double limit = rows->limits->wetting_months;
    const char *reason = bw_say(
        rows,
        "%s kg/m2 put %s in %s dries %s%s%s; mould index there up to %s "
        "meanwhile, %s without the water",
        bw_say_number(rows, wetting->water, 2),
        bw_say_plane(rows, part->transient_section, wetting->place),
        bw_month_name(wetting->month), say_time(rows, wetting, both),
        say_dry(wetting, months), say_ways(wetting),
        bw_say_number(rows, both->highest_mould, 1),
        bw_say_number(rows, both->highest_mould_dry, 1));
    bw_row *row = bw_rows_most(
        rows, BW_C_WETTING,
        months < 0.0 ? fmax(bw_wetting_months_followed(both), limit) : months,
        limit, reason);
    if (months < 0.0)
        row->row.outcome = row->row.verdict = BW_FAILS;
    if (!wetting->one_way)
        return;
    judge_one_way(rows, BW_C_WETTING_OUTWARDS, wetting, &wetting->outwards,
                  "outwards");
    judge_one_way(rows, BW_C_WETTING_INWARDS, wetting, &wetting->inwards,
                  "inwards");
}
