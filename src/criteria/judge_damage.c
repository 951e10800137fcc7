#include "judge.h"

/* Damage beyond mould and decay, and a second opinion on mould: rows that
 * inform and never decide, as no limit for them is agreed or their confidence
 * is low. Frost is told with the bare wall beside it, or not at all. */

/* ---- places -------------------------------------------------------------- */

/* A face inside the weather line that neither the weather nor the room sees. */
static bool is_hidden(const bw_monitor *monitor, const bw_wall_judged *of)
{
    return !monitor->outer_face && !monitor->room_face &&
           monitor->slab + 1 >= of->geography.first;
}

static bool has_timber(const bw_assembly *assembly, const bw_section *section,
                       size_t k)
{
    const bw_slab *slab = &section->slab[k];
    if (slab->kind == BW_LAYER_SOLID &&
        slab->material->wood_kind != BW_NOT_WOOD)
        return true;
    if (slab->layer >= assembly->layer_count)
        return false;
    const bw_framing *framing = &assembly->layer[slab->layer].framing;
    return framing->present && framing->material->wood_kind != BW_NOT_WOOD;
}

/* ---- fixings ------------------------------------------------------------- */

/* The planes at timber, where nails and screws sit. */
static void judge_fixings(bw_rows *rows, const bw_assembly *assembly,
                          const bw_section_assessment *part,
                          const bw_wall_judged *of)
{
    const bw_section *section = part->transient_section;
    size_t worst = part->transient.monitor_count;
    for (size_t i = 0; i < part->transient.monitor_count; i++) {
        const bw_monitor *monitor = &part->transient.monitor[i];
        if (!is_hidden(monitor, of) ||
            !(has_timber(assembly, section, monitor->slab) ||
              has_timber(assembly, section, monitor->slab + 1)))
            continue;
        if (worst == part->transient.monitor_count ||
            part->mould[i].wetness_hours > part->mould[worst].wetness_hours)
            worst = i;
    }
    if (worst == part->transient.monitor_count)
        return;
    const double hours = (double)part->mould[worst].wetness_hours;
    bw_rows_value(
        rows, BW_C_FIXINGS, hours,
        bw_say(
            rows,
            "for information: %.0f h of the last year above 0 degC and 80 %% "
            "RH %s",
            hours,
            bw_say_face(rows, section, &part->transient.monitor[worst])));
}

/* ---- mould, a second opinion --------------------------------------------- */

/* Of wood and what mould takes as readily: the dose is one of spruce. */
static void judge_dose(bw_rows *rows, const bw_section_assessment *part,
                       const bw_wall_judged *of)
{
    const bw_section *section = part->transient_section;
    size_t worst = part->transient.monitor_count;
    for (size_t i = 0; i < part->transient.monitor_count; i++)
        if (is_hidden(&part->transient.monitor[i], of) &&
            part->transient.monitor[i].mould_class <= BW_MOULD_SENSITIVE &&
            (worst == part->transient.monitor_count ||
             part->mould[i].dose > part->mould[worst].dose))
            worst = i;
    if (worst == part->transient.monitor_count)
        return;
    const double dose = part->mould[worst].dose;
    const char *beside = dose > BW_MOULD_DOSE_PLANED ? "beyond what planed"
                         : dose > BW_MOULD_DOSE_SAWN ? "beyond what sawn"
                                                     : "below what even sawn";
    bw_rows_value(
        rows, BW_C_MOULD_DOSE, dose,
        bw_say(rows,
               "for information: %.1f d of 20 degC and 90 %% RH %s, %s spruce "
               "shows growth at; the index there is %.2f",
               dose,
               bw_say_face(rows, section, &part->transient.monitor[worst]),
               beside, part->mould[worst].highest));
}

/* ---- frost --------------------------------------------------------------- */

/* The depth that tells: most of what `of` counts as the wall is. */
static size_t deepest(const bw_section_frost *frost,
                      double (*of)(const bw_frost_counts *counts))
{
    size_t worst = 0;
    for (size_t k = 1; k < frost->count; k++)
        if (of(&frost->at[k].as_built) > of(&frost->at[worst].as_built))
            worst = k;
    return worst;
}

static double crossings(const bw_frost_counts *counts)
{
    return (double)counts->crossings_0;
}

static double wet_cycles(const bw_frost_counts *counts)
{
    return (double)counts->wet_cycles[0];
}

static double ice_index(const bw_frost_counts *counts)
{
    return counts->ice_index;
}

static const char *say_bare(bw_rows *rows, const bw_section_frost *frost)
{
    return frost->is_bare ? "the wall is bare as it is"
                          : bw_say(rows, "of the bare wall, %.0f mm of masonry",
                                   1000.0 * frost->bare_thickness);
}

static void judge_frost(bw_rows *rows, const bw_section_assessment *part)
{
    const bw_section_frost *frost = &part->frost;
    if (!frost->ran) {
        if (frost->reason != NULL)
            bw_rows_none(rows, BW_C_FROST_CYCLES, frost->reason);
        return;
    }
    const bw_frost_at *at = &frost->at[deepest(frost, crossings)];
    bw_rows_value(rows, BW_C_FROST_CROSSINGS, crossings(&at->as_built),
                  bw_say(rows,
                         "for information: %zu falls to 0 degC and %zu to -2 "
                         "degC at %.0f mm; %zu and %zu "
                         "%s",
                         at->as_built.crossings_0, at->as_built.crossings_2,
                         1000.0 * at->depth, at->bare.crossings_0,
                         at->bare.crossings_2, say_bare(rows, frost)));
    at = &frost->at[deepest(frost, wet_cycles)];
    bw_rows_value(rows, BW_C_FROST_CYCLES, wet_cycles(&at->as_built),
                  bw_say(rows,
                         "for information: %zu at %.0f mm, at most %.0f %% of "
                         "the pores full; %zu, at most "
                         "%.0f %%, %s",
                         at->as_built.wet_cycles[0], 1000.0 * at->depth,
                         100.0 * at->as_built.wettest, at->bare.wet_cycles[0],
                         100.0 * at->bare.wettest, say_bare(rows, frost)));
    at = &frost->at[deepest(frost, ice_index)];
    bw_rows_value(rows, BW_C_ICE_INDEX, at->as_built.ice_index,
                  bw_say(rows, "for information: %.2f at %.0f mm; %.2f %s",
                         at->as_built.ice_index, 1000.0 * at->depth,
                         at->bare.ice_index, say_bare(rows, frost)));
}

void bw_judge_damage(bw_rows *rows, const bw_assembly *assembly,
                     const bw_section_assessment *part,
                     const bw_wall_judged *of)
{
    judge_dose(rows, part, of);
    judge_fixings(rows, assembly, part, of);
    judge_frost(rows, part);
}
