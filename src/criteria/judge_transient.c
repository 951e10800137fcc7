#include "beyond.h"
#include "judge.h"
#include "run.h"

/* Judging the simulation: its water here, its places in judge_hours.c, its wood
 * in judge_wood.c. What lies outside the weather line is weathered anyway and
 * is not judged. */

/* Why water that rises asks for an inspection only; NULL: it fails. Where
 * nothing rots: ten years (estimate) of it are less than may stand at a face;
 * or the soil is taken colder than it is. */
static const char *why_inspect(const bw_rows *rows, double change,
                               const bw_wall_judged *of)
{
    static const double YEARS = 10.0;
    if (of->perishes)
        return NULL;
    if (change * YEARS < bw_limit_under(rows->profile, BW_C_STANDING_WATER, 0))
        return "; nothing there rots, and ten years of it are less than may "
               "stand at a face";
    return of->colder != NULL
               ? bw_say(rows, "; nothing there rots%s", of->colder)
               : NULL;
}

bw_row *bw_judge_years(bw_rows *rows, bool rising, bool periodic, bool drying,
                       double change, const char *excuse, const char *years)
{
    if (rising) {
        bw_row *row = bw_rows_judge(
            rows, BW_C_PERIODIC_WATER, change,
            bw_say(rows, "%stotal water rises by %.3f kg/m2 a year (%s)%s",
                   excuse != NULL ? "exceeds, inspect: " : "", change, years,
                   excuse != NULL ? excuse : ""));
        bw_row_at_best(row, excuse != NULL ? BW_MARGINAL : BW_FAILS);
        if (excuse != NULL)
            bw_row_at_worst(row, BW_MARGINAL);
        return row;
    }
    if (!periodic && !drying)
        return bw_rows_value(
            rows, BW_C_PERIODIC_WATER, change,
            bw_say(rows, "not yet periodic, not plainly rising (%s)", years));
    bw_row *row = bw_rows_value(
        rows, BW_C_PERIODIC_WATER, change,
        bw_say(rows, "%s (last year %.3f kg/m2; %s)",
               periodic ? "each year repeats the last" : "still drying", change,
               years));
    row->row.outcome = row->row.verdict = BW_HOLDS;
    return row;
}

static void judge_water(bw_rows *rows, const bw_transient_result *result,
                        const bw_wall_judged *of)
{
    const char *years = bw_say(
        rows, "%d year%s %s%s", result->years, result->years == 1 ? "" : "s",
        result->carried_years > 0
            ? bw_say(rows, "followed, %d of them simulated",
                     result->years - result->carried_years)
            : "simulated",
        result->synthetic_climate ? ", with synthetic hours" : "");
    const double change = result->yearly_change;
    bw_judge_years(
        rows, result->rising, result->periodic, change <= 0.0, change,
        result->rising ? why_inspect(rows, change, of) : NULL, years);
}

/* Solid boards with one face in the ventilated cavity, as below sheet metal or
 * slates: common practice, no source. Panels are none: they swell and rot where
 * boards stand it; nor is the deck of a loft, or what air from the room
 * reaches, or what is built in wet. */
static bool is_boarding(const bw_assembly *assembly, const bw_wall_judged *of,
                        size_t k)
{
    static const double MOST = 0.035, LOFT = 0.2; /* m */
    static const double TIGHT = 3.0 / 3600.0;     /* m3/(m2 s) at 50 Pa */
    const bw_slab *slab = &of->section->slab[k];
    return slab->material->wood_kind == BW_SOLID_WOOD &&
           slab->thickness <= MOST && k + 2 == of->geography.first &&
           of->section->slab[k + 1].thickness <= LOFT && !of->brings_water &&
           !(assembly->air_leakage.given && assembly->air_leakage.q50 > TIGHT);
}

/* Insulation, or wood under a tight cover, outside the ventilated cavity that
 * is the weather line: a roof deck, layers listed the wrong way round. The
 * cavity's air is outdoor air here, whatever leaks into it: nothing judges
 * them, so the wall must not hold. */
static void judge_outside(bw_rows *rows, const bw_assembly *assembly,
                          const bw_wall_judged *of)
{
    const bw_section *section = of->section;
    static const double TIGHT = 2.0; /* m */
    bool covered = false;
    for (size_t k = 0; k < of->geography.first && k < section->slab_count;
         k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_material *m = slab->material;
        const bool wood = covered && m->wood_kind != BW_NOT_WOOD;
        if (slab->kind == BW_LAYER_SOLID && (wood || bw_is_insulation(m))) {
            const bool boarding = is_boarding(assembly, of, k);
            bw_row *row = bw_rows_none(
                rows, BW_C_UNJUDGED,
                bw_say(rows,
                       "%s lies outside the well-ventilated cavity, where "
                       "nothing judges it%s",
                       slab->label,
                       boarding ? "; boards that dry to it are common practice "
                                  "under such a covering: inspect"
                                : ""));
            if (boarding)
                row->row.outcome = row->row.verdict = BW_MARGINAL;
            return;
        }
        covered = covered || slab->sd_dry >= TIGHT;
    }
}

/* Nothing computes it, so the element must not hold. */
static void judge_beyond(bw_rows *rows, const bw_assembly *assembly)
{
    const bw_beyond_kind *kind = assembly->beyond.kind;
    const char *why;
    for (size_t n = 0;
         kind->why_unjudged != NULL &&
         (why = kind->why_unjudged(rows->arena, assembly, n)) != NULL;
         n++)
        bw_rows_none(rows, bw_criterion_named(kind->unjudged), why);
}

void bw_judge_below(bw_rows *rows, const bw_assembly *assembly)
{
    if (assembly->beyond.kind != NULL)
        judge_beyond(rows, assembly);
    else if (assembly->element == BW_ELEMENT_FLOOR &&
             assembly->outdoors.below == BW_BELOW_NOT_STATED)
        bw_rows_none(rows, BW_C_BELOW,
                     "computed in outdoor air; below= is not given, and a "
                     "crawl space, a cellar or the ground is another climate");
}

void bw_judge_transient(bw_rows *rows, const bw_assembly *assembly,
                        const bw_section_assessment *part)
{
    if (!part->has_transient) {
        bw_rows_none(rows, BW_C_TRANSIENT, part->transient_reason);
        return;
    }
    bw_wall_judged of = {.section = part->transient_section,
                         .brings_water = bw_brings_water(assembly),
                         .colder = assembly->beyond.kind != NULL
                                       ? assembly->beyond.kind->colder
                                       : NULL};
    bw_geography_find(&of.geography, assembly, of.section);
    of.perishes = bw_anything_perishes(&of.geography, assembly, of.section);
    judge_outside(rows, assembly, &of);
    judge_water(rows, &part->transient, &of);
    bw_judge_standing(rows, assembly, part, &of);
    bw_judge_both(rows, part, &of.geography);
    bw_judge_covering(rows, assembly, part, &of.geography);
    bw_judge_wood(rows, part, &of.geography);
    bw_judge_mould(rows, part, &of);
    bw_judge_wetting(rows, assembly, part);
    bw_judge_damage(rows, assembly, part, &of);
}
