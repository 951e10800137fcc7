/* A tight covering at the room face. Water under it leaves by no way but
 * through what lies below: adhesive fails, a covering blisters and lifts, and
 * what is under it goes mouldy. Wood laid straight on a base swells, cups and
 * lifts, however open it is. What is asked is how humid the pores right under
 * it are and for how long, in the first year or the last. */

#include "judge.h"

#include <math.h>
#include <string.h>

/* As tight as a resilient covering is at least [m]; no thicker [m]: estimates,
 * a board that insulates is no covering. */
static const double TIGHT = 2.0, THICKEST = 0.02;
/* Wood as it is laid is no thicker [m]: estimate. */
static const double FLOORING = 0.03;

/* Takes up no water itself: a coat, a film, tiles, plastic. */
static bool covers(const bw_slab *slab)
{
    if (slab->kind == BW_LAYER_CAVITY || bw_is_insulation(slab->material))
        return false;
    return slab->kind == BW_LAYER_MEMBRANE ||
           strcmp(slab->material->group, "coating") == 0 ||
           (!slab->material->hygroscopic &&
            !slab->material->absorbs_condensate);
}

static bool holds_water(const bw_slab *base)
{
    return base->kind == BW_LAYER_SOLID &&
           (base->material->hygroscopic || base->material->absorbs_condensate);
}

/* The outermost slab of the covering; slab_count where there is none, or where
 * it lies on nothing that holds water. */
static size_t covering(const bw_section *section)
{
    const size_t none = section->slab_count;
    double sd = 0.0, thickness = 0.0;
    size_t k = none;
    while (k > 0 && covers(&section->slab[k - 1])) {
        k--;
        sd += section->slab[k].sd_dry;
        thickness += section->slab[k].thickness;
    }
    if (k == 0 || k == none || sd < TIGHT || thickness > THICKEST)
        return none;
    if (section->slab[k].material->mould_class == BW_MOULD_RESISTANT)
        return none; /* tiles in mortar, metal, glass: nothing there suffers */
    return holds_water(&section->slab[k - 1]) ? k : none;
}

static bool is_flooring(const bw_slab *slab)
{
    const bw_wood_kind kind = slab->kind == BW_LAYER_SOLID && !slab->is_framing
                                  ? slab->material->wood_kind
                                  : BW_NOT_WOOD;
    return kind == BW_SOLID_WOOD || kind == BW_WOOD_PANEL;
}

/* The outermost slab of wood laid straight on a base of a floor, whatever lies
 * on it; slab_count where there is none. */
static size_t flooring(const bw_assembly *assembly, const bw_section *section)
{
    const size_t none = section->slab_count;
    double thickness = 0.0;
    size_t k = none;
    if (assembly->element != BW_ELEMENT_FLOOR)
        return none;
    while (k > 0 && covers(&section->slab[k - 1]))
        k--;
    const size_t top = k;
    while (k > 0 && is_flooring(&section->slab[k - 1]))
        thickness += section->slab[--k].thickness;
    if (k == top || k == 0 || thickness > FLOORING)
        return none;
    const bw_slab *base = &section->slab[k - 1];
    return holds_water(base) && base->material->wood_kind == BW_NOT_WOOD &&
                   !bw_is_insulation(base->material)
               ? k
               : none;
}

static double wet_hours(const bw_monitor *face)
{
    return fmax(face->first_year.above_90, face->last_year.above_90);
}

/* Which face is judged: under the covering or under the wood, the wetter. */
static size_t covered(const bw_assembly *assembly,
                      const bw_section_assessment *part,
                      const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    const bw_monitor *face = part->transient.monitor;
    const size_t of[] = {covering(section), flooring(assembly, section)};
    size_t most = section->slab_count;
    for (size_t i = 0; i < sizeof of / sizeof *of; i++)
        if (of[i] < section->slab_count && of[i] > geography->first &&
            (most == section->slab_count ||
             wet_hours(&face[of[i]]) > wet_hours(&face[most])))
            most = of[i];
    return most;
}

void bw_judge_covering(bw_rows *rows, const bw_assembly *assembly,
                       const bw_section_assessment *part,
                       const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    const size_t k = covered(assembly, part, geography);
    if (k >= section->slab_count)
        return;
    const bw_monitor *face = &part->transient.monitor[k];
    const bw_humid_hours *first = &face->first_year, *last = &face->last_year;
    const bool in_first = first->above_90 > last->above_90;
    const double wet = wet_hours(face);
    const double damp = fmax(first->above_80, last->above_80);
    const double limit = bw_limit_under(rows->profile, BW_C_COVERING, 0);
    const bw_plane_at at = {k - 1, section->slab[k - 1].thickness, true};
    const bool inspect = wet <= limit && damp > limit;
    bw_row *row = bw_rows_judge(
        rows, BW_C_COVERING, wet,
        bw_say(rows,
               "%s%.0f h of the %s year above 90 %% RH, %.0f h above 80 %%, %s",
               inspect ? "exceeds 80 % RH, inspect: " : "", wet,
               in_first ? "first" : "last", damp,
               bw_say_plane(rows, section, at)));
    if (inspect)
        bw_row_at_best(row, BW_MARGINAL);
}
