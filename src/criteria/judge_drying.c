#include "judge.h"

#include <math.h>

/* Vapour from outside, and getting rid of a wetting: judging the inward run
 * and the three drying runs. */

static const double NOTHING = 1e-6; /* kg/m2 */

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

/* Winter condensate of room air at the same planes is the design run's
 * business: only months in which the wet layer's vapour pressure is above
 * the room's count as condensing, and of them the share in which it is, while
 * drying counts always. */
bw_inward_water bw_inward_water_of(const bw_section *section,
                                   size_t saturated_slab,
                                   const bw_boundary boundary[BW_MONTHS],
                                   const double share[BW_MONTHS],
                                   const bw_monthly_result *inward)
{
    bw_inward_water most = {0};
    for (size_t i = 0; i < inward->plane_count; i++) {
        const bw_plane *plane = &inward->plane[i];
        bool surface = plane->at.layer_face &&
                       plane->at.slab + 1 == section->slab_count;
        if (!inside_of(plane->at, saturated_slab) || surface)
            continue;
        double stored = 0.0, inflow = 0.0, peak = 0.0;
        int peak_month = 0;
        for (int k = 0; k < BW_MONTHS; k++) {
            int m = (inward->start_month + k) % BW_MONTHS;
            double rate = plane->month[m].condensation;
            double gain = share != NULL ? share[m] * rate : rate;
            bool inwards = wet_face_pressure(inward, saturated_slab, m) >
                           boundary[m].p_i;
            if (rate > 0.0 && inwards) {
                stored += gain;
                inflow += gain;
            } else if (rate < 0.0) {
                stored = fmax(0.0, stored + rate);
            }
            if (stored > peak) {
                peak = stored;
                peak_month = m;
            }
        }
        if (peak > most.peak)
            most = (bw_inward_water){peak, stored, inflow, peak_month,
                                     plane->at};
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
    if (!part->has_inward) {
        bw_row *row = bw_rows_none(rows, BW_C_INWARD, part->inward_reason);
        row->informative = !rain_wets(assembly, part->section);
        return;
    }
    const bw_section *section = part->section;
    const char *wet = section->slab[part->inward_slab].label;
    const char *sun = part->has_sun ? "sun-warmed " : "";
    const bw_boundary *boundary = part->has_sun ? part->sun_boundary
                                                : part->boundary;
    bw_inward_water water = bw_inward_water_of(
        section, part->inward_slab, boundary,
        part->has_sun ? part->sun_share : NULL, &part->inward);
    if (water.peak <= NOTHING) {
        bw_rows_most(rows, BW_C_INWARD, 0.0, rows->limits->inward,
                     bw_say(rows,
                            "vapour from the wet, %s%s meets saturation "
                            "nowhere further inside",
                            sun, wet));
        return;
    }
    const char *reason = bw_say(rows, "%s kg/m2 from the wet, %s%s in %s %s",
                                bw_say_number(rows, water.peak, 3), sun, wet,
                                bw_month_name(water.peak_month),
                                bw_say_plane(rows, section, water.at));
    if (water.residual > NOTHING) {
        reason = bw_say(rows,
                        "%s; %s kg/m2 of it has not left by the end of "
                        "the year",
                        reason, bw_say_number(rows, water.residual, 3));
    }
    bw_row *row = bw_rows_most(rows, BW_C_INWARD, water.peak,
                               rows->limits->inward, reason);
    if (water.residual > NOTHING)
        row->row.outcome = row->row.verdict = BW_FAILS;
}

static const char *say_time(bw_rows *rows, const bw_monthly_result *run)
{
    if (run->dried)
        return bw_say(rows, "in %s months",
                      bw_say_number(rows, run->months_to_dry, 1));
    if (run->wet_plane_dried)
        return bw_say(rows,
                      "there in %s months, but %s kg/m2 stays elsewhere for "
                      "10 years",
                      bw_say_number(rows, run->wet_plane_months, 1),
                      bw_say_number(rows, run->left, 3));
    return bw_say(rows, "not in 10 years (%s kg/m2 left)",
                  bw_say_number(rows, run->left, 3));
}

static const double TEN_YEARS = 120.0; /* months */

static double months(const bw_monthly_result *run)
{
    return run->dried ? run->months_to_dry : TEN_YEARS;
}

/* The sentence for a wall that dries one way only, or no way. */
static const char *say_ways(const bw_section_assessment *part)
{
    bool out = part->dry_outwards.dried, in = part->dry_inwards.dried;
    if (out && in)
        return "dries both ways";
    if (out)
        return "dries outwards only";
    if (in)
        return "dries inwards only";
    return part->dry_both.dried ? "dries only with both ways open"
                                : "dries neither way";
}

static void judge_one_way(bw_rows *rows, bw_criterion_id id,
                          const bw_monthly_result *run, const char *way)
{
    const char *reason = bw_say(rows, "for information: dries %s %s", way,
                                say_time(rows, run));
    bw_rows_info(rows, id, run->dried ? run->months_to_dry : (double)NAN,
                 reason);
}

void bw_judge_drying(bw_rows *rows, const bw_section_assessment *part)
{
    if (!part->has_dry) {
        bw_row *row = bw_rows_none(rows, BW_C_DRYING, part->dry_reason);
        row->informative = part->dry_needless;
        return;
    }
    const bw_monthly_result *both = &part->dry_both;
    const char *elsewhere = both->condensed_elsewhere
                                ? "; other planes condense meanwhile"
                                : "";
    const char *reason = bw_say(
        rows, "%s kg/m2 put %s in %s dries %s; %s%s",
        bw_say_number(rows, part->wetting, 2),
        bw_say_plane(rows, part->section, part->wet_plane),
        bw_month_name(part->dry_start), say_time(rows, both), say_ways(part),
        elsewhere);
    bw_rows_most(rows, BW_C_DRYING, months(both), rows->limits->drying_months,
                 reason);
    judge_one_way(rows, BW_C_DRYING_OUTWARDS, &part->dry_outwards, "outwards");
    judge_one_way(rows, BW_C_DRYING_INWARDS, &part->dry_inwards, "inwards");
}
