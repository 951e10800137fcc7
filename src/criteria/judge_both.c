/* One face by both methods: what the months find there beside what the
 * simulation does. Neither is trusted alone where the other could excuse it;
 * what both find wet is wet.
 *
 * Invariant: the months know no rain, so nothing here is better for more of
 * it. */

#include "judge.h"

#include <math.h>

#include "bothways/air.h"

/* The months leave out what lies outside a ventilated cavity: their slab 0 is
 * this one of the simulation's. */
static size_t left_out(const bw_section_assessment *part)
{
    return part->transient_section->slab_count - part->section->slab_count;
}

/* The face of the simulation that a plane of the months is at or nearest to:
 * the slab on its outer side, counted as the simulation does. */
static long face_of(const bw_section_assessment *part, bw_plane_at at)
{
    const long slab = (long)(at.slab + left_out(part));
    const double thickness = part->section->slab[at.slab].thickness;
    return at.layer_face || at.depth > 0.5 * thickness ? slab : slab - 1;
}

/* Of the wettest plane at that face. */
static int wettest_month(const bw_section_assessment *part, size_t slab)
{
    const bw_plane *most = NULL;
    for (size_t i = 0; i < part->run[BW_RUN_DESIGN].result.plane_count; i++) {
        const bw_plane *plane = &part->run[BW_RUN_DESIGN].result.plane[i];
        if (face_of(part, plane->at) == (long)slab &&
            (most == NULL || plane->peak > most->peak))
            most = plane;
    }
    return most != NULL ? most->peak_month : 0;
}

double bw_months_condensate(const bw_section_assessment *part, size_t slab)
{
    double sum = 0.0;
    for (size_t i = 0; part->run[BW_RUN_DESIGN].ran &&
                       i < part->run[BW_RUN_DESIGN].result.plane_count;
         i++) {
        const bw_plane *plane = &part->run[BW_RUN_DESIGN].result.plane[i];
        if (face_of(part, plane->at) == (long)slab)
            sum += plane->peak;
    }
    return sum;
}

/* Of a plane, above the outdoor air of the same month [RH]. */
static double above_outdoors(const bw_section_assessment *part,
                             const bw_plane *plane)
{
    double most = -1.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        const double air = b->p_e / bw_saturation_pressure(b->theta_e);
        most = fmax(most, plane->month[m].relative_humidity - air);
    }
    return most;
}

double bw_months_room_adds(const bw_section_assessment *part, size_t slab)
{
    const bw_monthly_result *run = part->run[BW_RUN_LEAKAGE].ran
                                       ? &part->run[BW_RUN_LEAKAGE].result
                                       : &part->run[BW_RUN_DESIGN].result;
    double most = HUGE_VAL;
    for (size_t i = 0; part->run[BW_RUN_DESIGN].ran && i < run->plane_count;
         i++) {
        const bw_plane *plane = &run->plane[i];
        if (!plane->at.layer_face || face_of(part, plane->at) != (long)slab)
            continue;
        const double above = above_outdoors(part, plane);
        most = isfinite(most) ? fmax(most, above) : above;
    }
    return most;
}

/* ---- condensate that both find ------------------------------------------- */

/* The standard's two limits: the lower one where neither side takes up water,
 * as in its examples (judge_amounts.c, alone, is stricter). */
static double limit_at(const bw_rows *rows, const bw_section *section,
                       size_t slab)
{
    const bool takes = bw_slab_absorbs(&section->slab[slab]) ||
                       bw_slab_absorbs(&section->slab[slab + 1]);
    return bw_limit_under(rows->profile, BW_C_BOTH_WET, takes ? 0 : 1);
}

/* Insulation that draws water, calcium silicate say: liquid carries the
 * condensate off, which the months do not know, and walls that fail by them
 * stand sound. */
static bool draws(const bw_slab *slab)
{
    const bw_property *a = &slab->material->water_absorption;
    return bw_is_insulation(slab->material) && bw_slab_absorbs(slab) &&
           a->known && a->value > 0.0;
}

void bw_judge_both(bw_rows *rows, const bw_section_assessment *part,
                   const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    const double most = bw_limit_under(rows->profile, BW_C_HUMID_HOURS, 0);
    size_t worst = section->slab_count;
    double share = 0.0;
    for (size_t k = geography->first; k + 1 < section->slab_count; k++) {
        const double hours = part->transient.monitor[k + 1].last_year.above_95;
        const double now = bw_months_condensate(part, k) /
                           limit_at(rows, section, k);
        if (hours > most && now > share) {
            worst = k;
            share = now;
        }
    }
    if (worst == section->slab_count)
        return; /* nowhere do both find water: no row */
    const double water = bw_months_condensate(part, worst);
    const bw_plane_at at = {worst, section->slab[worst].thickness, true};
    bw_row *row = bw_rows_against(
        rows, BW_C_BOTH_WET, water, limit_at(rows, section, worst),
        bw_say(rows,
               "%.3f kg/m2 by months in %s, and %.0f h above 95 %% RH in the "
               "simulation, %s",
               water, bw_month_name(wettest_month(part, worst)),
               part->transient.monitor[worst + 1].last_year.above_95,
               bw_say_plane(rows, section, at)));
    if (row->row.outcome == BW_FAILS &&
        (draws(&section->slab[worst]) || draws(&section->slab[worst + 1]))) {
        bw_row_at_worst(row, BW_MARGINAL);
        row->row.reason = bw_say(rows,
                                 "exceeds, inspect: %s, at insulation that "
                                 "draws water",
                                 row->row.reason);
    }
}
