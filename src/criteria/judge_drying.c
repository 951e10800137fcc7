#include "judge.h"

#include <math.h>

/* Vapour from outside, and getting rid of a wetting: judging the inward run
 * and the three drying runs. */

/* Further inside than the inner face of the saturated slab? */
static bool inside_of(bw_plane_at at, size_t saturated_slab)
{
    return at.slab > saturated_slab;
}

/* Vapour at the wet layer's inner face when it is saturated [Pa]: the highest
 * of the month over the planes of that slab. */
static double wet_face_pressure(const bw_monthly_result *inward,
                                size_t saturated_slab, int month)
{
    double highest = 0.0;
    for (size_t i = 0; i < inward->plane_count; i++) {
        const bw_plane *plane = &inward->plane[i];
        if (plane->at.slab == saturated_slab && plane->at.layer_face)
            highest = fmax(highest, plane->month[month].saturation_pressure);
    }
    return highest;
}

static const bw_plane *face_of(const bw_monthly_result *run, size_t slab)
{
    for (size_t i = 0; i < run->plane_count; i++)
        if (run->plane[i].at.layer_face && run->plane[i].at.slab == slab)
            return &run->plane[i];
    return NULL;
}

/* What a wet plane gains in a month without the sun, between the saturated
 * layer and the room [kg/m2]; below 0 it dries. Temperatures and sd of the
 * design run; straight between the faces of a layer. */
static double dull_gain(const bw_section_assessment *part,
                        size_t saturated_slab, bw_plane_at at, int month)
{
    const bw_monthly_result *dull = &part->run[BW_RUN_DESIGN].result;
    const bw_plane *wet = face_of(dull, saturated_slab),
                   *outer = face_of(dull, at.slab - 1),
                   *inner = face_of(dull, at.slab);
    if (wet == NULL || outer == NULL || inner == NULL)
        return 0.0;
    const bw_plane_month *from = &wet->month[month],
                         *low = &outer->month[month],
                         *high = &inner->month[month];
    const double x = at.layer_face
                         ? 1.0
                         : at.depth / part->section->slab[at.slab].thickness;
    const double sd = low->sd_from_outside +
                      x * (high->sd_from_outside - low->sd_from_outside);
    const double p = bw_saturation_pressure(low->theta +
                                            x * (high->theta - low->theta));
    const double before = sd - from->sd_from_outside;
    const double behind =
        dull->plane[dull->plane_count - 1].month[month].sd_from_outside - sd;
    if (before <= 0.0 || behind <= 0.0)
        return 0.0;
    return BW_DELTA_0 * bw_month_seconds(month) *
           ((from->saturation_pressure - p) / before +
            (part->boundary[month].p_i - p) / behind);
}

/* Winter condensate of room air at the same planes is the design run's
 * business: only months in which the wet layer's vapour pressure is above
 * the room's count as condensing, while drying counts always. The sun's share
 * of a condensing month condenses and the rest of it dries, day by day: what
 * stands is at least what a day brings. */
static void add_month(bw_inward_water *sum, const bw_section_assessment *part,
                      size_t saturated_slab, const bw_plane *plane, int m,
                      bool inwards)
{
    const double rate = plane->month[m].condensation;
    double share = 1.0, others = 0.0, day = 0.0;
    if (rate > 0.0 && !inwards)
        return;
    if (rate > 0.0 && part != NULL && part->sun_share[m] < 1.0) {
        share = part->sun_share[m];
        others = (1.0 - share) * dull_gain(part, saturated_slab, plane->at, m);
        day = share * rate * 86400.0 / bw_month_seconds(m);
    }
    if (rate > 0.0)
        sum->inflow += share * rate;
    sum->residual = fmax(0.0, sum->residual + share * rate + others);
    if (fmax(sum->residual, day) > sum->peak) {
        sum->peak = fmax(sum->residual, day);
        sum->peak_month = m;
        sum->daily = day > sum->residual;
    }
}

bw_inward_water bw_inward_water_of(const bw_section *section,
                                   size_t saturated_slab,
                                   const bw_boundary boundary[BW_MONTHS],
                                   const bw_section_assessment *part,
                                   const bw_monthly_result *inward)
{
    bw_inward_water most = {0};
    for (size_t i = 0; i < inward->plane_count; i++) {
        const bw_plane *plane = &inward->plane[i];
        bool surface = plane->at.layer_face &&
                       plane->at.slab + 1 == section->slab_count;
        if (!inside_of(plane->at, saturated_slab) || surface)
            continue;
        bw_inward_water sum = {.at = plane->at};
        for (int k = 0; k < BW_MONTHS; k++) {
            int m = (inward->start_month + k) % BW_MONTHS;
            add_month(&sum, part, saturated_slab, plane, m,
                      wet_face_pressure(inward, saturated_slab, m) >
                          boundary[m].p_i);
        }
        if (sum.peak > most.peak)
            most = sum;
    }
    return most;
}

/* Does rain wet a layer that holds water? */
static bool rain_wets(const bw_assembly *assembly, const bw_section *section)
{
    bw_geography geography;
    const char *why;
    if (section->slab_count == 0 ||
        assembly->outdoors.driving_rain == BW_RAIN_NONE)
        return false;
    bw_geography_find(&geography, assembly, section);
    return bw_rain_wetted_slab(&why, &geography, section) < section->slab_count;
}

void bw_judge_inward(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section_assessment *part)
{
    if (!part->run[BW_RUN_INWARD].ran) {
        bw_row *row = bw_rows_none(rows, BW_C_INWARD,
                                   part->run[BW_RUN_INWARD].reason);
        row->informative = !rain_wets(assembly, part->section);
        return;
    }
    const bw_section *section = part->section;
    const char *wet = section->slab[part->inward_slab].label;
    const char *sun = part->has_sun ? "sun-warmed " : "";
    const bw_boundary *boundary = part->has_sun ? part->sun_boundary
                                                : part->boundary;
    bw_inward_water water = bw_inward_water_of(
        section, part->inward_slab, boundary, part->has_sun ? part : NULL,
        &part->run[BW_RUN_INWARD].result);
    if (water.peak <= BW_NO_WATER) {
        bw_rows_judge(rows, BW_C_INWARD, 0.0,
                      bw_say(rows,
                             "vapour from the wet, %s%s meets saturation "
                             "nowhere further inside",
                             sun, wet));
        return;
    }
    const char *reason = bw_say(
        rows, "%.3f kg/m2%s from the wet, %s%s in %s %s%s", water.peak,
        water.daily ? " a day" : "", sun, wet, bw_month_name(water.peak_month),
        bw_say_plane(rows, section, water.at),
        water.daily ? "; the hours without sun dry it again" : "");
    if (water.residual > BW_NO_WATER) {
        reason = bw_say(rows,
                        "%s; %.3f kg/m2 of it has not left by the end of "
                        "the year",
                        reason, water.residual);
    }
    bw_row *row = bw_rows_judge(rows, BW_C_INWARD, water.peak, reason);
    if (water.residual > BW_NO_WATER)
        bw_row_at_best(row, BW_FAILS);
}

static const char *say_time(bw_rows *rows, const bw_water_drying *way)
{
    if (way->dried)
        return bw_say(rows, "in %.1f months", way->months);
    if (way->place_dried)
        return bw_say(rows,
                      "there in %.1f months, but %.3f kg/m2 stays elsewhere "
                      "for 10 years",
                      way->place_months, way->left);
    return bw_say(rows, "not in 10 years (%.3f kg/m2 left)", way->left);
}

const char *bw_ways_words(bool both, bool out, bool in)
{
    if (out && in)
        return "dries both ways";
    if (out)
        return "dries outwards only";
    if (in)
        return "dries inwards only";
    return both ? "dries only with both ways open" : "dries neither way";
}

void bw_judge_one_way(bw_rows *rows, bw_criterion_id id, double months,
                      const char *way, const char *time)
{
    bw_rows_value(rows, id, months < 0.0 ? (double)NAN : months,
                  bw_say(rows, "for information: dries %s %s", way, time));
}

void bw_judge_ways(bw_rows *rows, const bw_water_drying *both,
                   const bw_water_drying *out, const bw_water_drying *in,
                   const char *put, const char *meanwhile)
{
    static const double TEN_YEARS = 120.0; /* months, as long as it is run */
    bw_row *row = bw_rows_judge(
        rows, BW_C_DRYING, both->dried ? both->months : TEN_YEARS,
        bw_say(rows, "%s dries %s; %s%s", put, say_time(rows, both),
               bw_ways_words(both->dried, out->dried, in->dried), meanwhile));
    row->row.never = !both->dried;
    bw_judge_one_way(rows, BW_C_DRYING_OUTWARDS,
                     out->dried ? out->months : -1.0, "outwards",
                     say_time(rows, out));
    bw_judge_one_way(rows, BW_C_DRYING_INWARDS, in->dried ? in->months : -1.0,
                     "inwards", say_time(rows, in));
}

/* Of a wetted run; the place is where it was put. */
static bw_water_drying drying_of(const bw_monthly_run *wetted)
{
    const bw_monthly_result *run = &wetted->result;
    return (bw_water_drying){.dried = run->dried,
                             .months = run->months_to_dry,
                             .place_dried = run->wet_plane_dried,
                             .place_months = run->wet_plane_months,
                             .left = run->left};
}

void bw_judge_drying(bw_rows *rows, const bw_section_assessment *part)
{
    const bw_monthly_run *both = &part->run[BW_RUN_WETTED_BOTH];
    if (!both->ran) {
        bw_row *row = bw_rows_none(rows, BW_C_DRYING, both->reason);
        row->informative = part->dry_needless;
        return;
    }
    const bw_water_drying way = drying_of(both);
    const bw_water_drying out = drying_of(&part->run[BW_RUN_WETTED_OUTWARDS]);
    const bw_water_drying in = drying_of(&part->run[BW_RUN_WETTED_INWARDS]);
    bw_judge_ways(rows, &way, &out, &in,
                  bw_say(rows, "%.2f kg/m2 put %s in %s", part->wetting,
                         bw_say_plane(rows, part->section, part->wet_plane),
                         bw_month_name(part->dry_start)),
                  both->result.condensed_elsewhere
                      ? "; other planes condense meanwhile"
                      : "");
}
