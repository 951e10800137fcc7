#include "judge.h"

/* How much water a plane and the wood beside it may take (DIN 4108-3 [S]).
 * The rise by mass is M_c / (rho d), d the thickness of the wetted layer; a
 * plane between two wood layers is charged to both in full (cautious). */

bool bw_slab_absorbs(const bw_slab *slab)
{
    return slab->kind != BW_LAYER_CAVITY && slab->material->absorbs_condensate;
}

/* The slabs that touch a plane: one or two. */
static size_t neighbours(const bw_section *section, bw_plane_at at,
                         const bw_slab *beside[2])
{
    size_t count = 0;
    if (at.slab < section->slab_count)
        beside[count++] = &section->slab[at.slab];
    if (at.layer_face && at.slab + 1 < section->slab_count)
        beside[count++] = &section->slab[at.slab + 1];
    return count;
}

bool bw_plane_sheds(const bw_section *section, bw_plane_at at)
{
    const bw_slab *beside[2];
    size_t count = neighbours(section, at, beside);
    for (size_t i = 0; i < count; i++)
        if (!bw_slab_absorbs(beside[i]))
            return true;
    return false;
}

bool bw_assembly_has_wood(const bw_assembly *assembly, bw_wood_kind kind)
{
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        if (layer->material->wood_kind == kind ||
            (layer->framing.present &&
             layer->framing.material->wood_kind == kind))
            return true;
    }
    return false;
}

double bw_reserve_limit(const bw_profile *profile, const bw_assembly *assembly)
{
    if (!bw_assembly_has_wood(assembly, BW_SOLID_WOOD) &&
        !bw_assembly_has_wood(assembly, BW_WOOD_PANEL))
        return 0.0;
    return bw_limit_under(profile, BW_C_RESERVE,
                          assembly->element == BW_ELEMENT_ROOF ? 1 : 0);
}

void bw_judge_reserve(bw_rows *rows, bw_criterion_id id,
                      const bw_assembly *assembly, double reserve,
                      const char *reason)
{
    const double limit = bw_reserve_limit(rows->profile, assembly);
    if (limit > 0.0)
        bw_rows_against(rows, id, reserve, limit, reason);
    else
        bw_rows_value(
            rows, id, reserve,
            bw_say(rows, "%s; no timber, so the rule sets no limit", reason))
            ->informative = true;
}

static const char *say_month(bw_rows *rows, int month)
{
    if (month < 0)
        return "in the condensation period";
    return bw_say(rows, "in %s", bw_month_name(month));
}

static void judge_non_absorbing(bw_rows *rows, bw_criterion_id id,
                                const bw_section *section,
                                const bw_wet_plane *wet, size_t count)
{
    const bw_wet_plane *worst = NULL;
    for (size_t i = 0; i < count; i++)
        if (wet[i].amount > 0.0 && bw_plane_sheds(section, wet[i].at) &&
            (worst == NULL || wet[i].amount > worst->amount))
            worst = &wet[i];
    if (worst == NULL) {
        bw_rows_judge(rows, id, 0.0, "no water at a face that does not absorb");
        return;
    }
    bw_rows_judge(rows, id, worst->amount,
                  bw_say(rows, "%.3f kg/m2 %s %s", worst->amount,
                         bw_say_plane(rows, section, worst->at),
                         say_month(rows, worst->month)));
}

typedef struct rise {
    double percent;
    const bw_slab *slab;
    const bw_wet_plane *wet;
    const bw_slab *unknown; /* wood without a density */
} rise;

static rise highest_rise(const bw_section *section, bw_wood_kind kind,
                         const bw_wet_plane *wet, size_t count)
{
    rise found = {0};
    for (size_t i = 0; i < count; i++) {
        const bw_slab *beside[2];
        size_t sides = neighbours(section, wet[i].at, beside);
        for (size_t k = 0; k < sides && wet[i].amount > 0.0; k++) {
            const bw_slab *slab = beside[k];
            if (slab->material->wood_kind != kind)
                continue;
            const bw_property *density = &slab->material->density;
            double mass = density->known ? density->value * slab->thickness
                                         : 0.0;
            if (!(mass > 0.0)) {
                found.unknown = slab;
                continue;
            }
            double percent = 100.0 * wet[i].amount / mass;
            if (percent > found.percent) {
                found.percent = percent;
                found.slab = slab;
                found.wet = &wet[i];
            }
        }
    }
    return found;
}

static bool section_has(const bw_section *section, bw_wood_kind kind)
{
    for (size_t i = 0; i < section->slab_count; i++)
        if (section->slab[i].material->wood_kind == kind)
            return true;
    return false;
}

static void judge_rise(bw_rows *rows, bw_criterion_id id, bw_wood_kind kind,
                       const bw_section *section, const bw_wet_plane *wet,
                       size_t count)
{
    if (!section_has(section, kind))
        return; /* the criterion does not arise: no row */
    rise found = highest_rise(section, kind, wet, count);
    if (found.unknown != NULL) {
        bw_rows_none(rows, id,
                     bw_say(rows, "the density of %s is not known",
                            found.unknown->label));
        return;
    }
    if (found.slab == NULL) {
        bw_rows_judge(rows, id, 0.0, "no condensate beside it");
        return;
    }
    bw_rows_judge(rows, id, found.percent,
                  bw_say(rows, "%.3f kg/m2 %s into %.1f mm of %s",
                         found.wet->amount, say_month(rows, found.wet->month),
                         found.slab->thickness * 1e3, found.slab->label));
}

void bw_judge_amounts(bw_rows *rows, const bw_amount_ids *ids,
                      const bw_section *section, const bw_wet_plane *wet,
                      size_t count)
{
    judge_non_absorbing(rows, ids->non_absorbing, section, wet, count);
    judge_rise(rows, ids->wood_rise, BW_SOLID_WOOD, section, wet, count);
    judge_rise(rows, ids->panel_rise, BW_WOOD_PANEL, section, wet, count);
}
