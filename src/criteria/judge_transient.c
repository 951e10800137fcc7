#include "judge.h"

/* Judging the simulation: its water here, its places in judge_hours.c, its wood
 * in judge_wood.c. What lies outside the weather line is weathered anyway and
 * is not judged. */

static void judge_water(bw_rows *rows, const bw_transient_result *result)
{
    const char *years = bw_say(
        rows, "%d year%s %s%s", result->years, result->years == 1 ? "" : "s",
        result->carried_years > 0
            ? bw_say(rows, "followed, %d of them simulated",
                     result->years - result->carried_years)
            : "simulated",
        result->synthetic_climate ? ", with synthetic hours" : "");
    double change = result->yearly_change;
    const char *amount = bw_say_number(rows, change, 3);
    if (result->rising) {
        bw_row *row = bw_rows_most(
            rows, BW_C_PERIODIC_WATER, change, 0.0,
            bw_say(rows, "total water rises by %s kg/m2 a year (%s)", amount,
                   years));
        row->row.outcome = row->row.verdict = BW_FAILS;
    } else if (result->periodic || change <= 0.0) {
        bw_row *row = bw_rows_info(rows, BW_C_PERIODIC_WATER, change,
                                   bw_say(rows, "%s (last year %s kg/m2; %s)",
                                          result->periodic
                                              ? "each year repeats the last"
                                              : "still drying",
                                          amount, years));
        row->informative = false;
        row->row.outcome = row->row.verdict = BW_HOLDS;
    } else {
        bw_row *row = bw_rows_info(
            rows, BW_C_PERIODIC_WATER, change,
            bw_say(rows, "not yet periodic, not plainly rising (%s)", years));
        row->informative = false;
    }
}

/* Insulation, or wood under a tight cover, outside the ventilated cavity that
 * is the weather line: a roof deck, layers listed the wrong way round. The
 * cavity's air is outdoor air here, whatever leaks into it: nothing judges
 * them, so the wall must not hold. */
static void judge_outside(bw_rows *rows, const bw_section *section,
                          const bw_geography *geography)
{
    static const double TIGHT = 2.0; /* m */
    bool covered = false;
    for (size_t k = 0; k < geography->first && k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_material *m = slab->material;
        const bool wood = covered && m->wood_kind != BW_NOT_WOOD;
        if (slab->kind == BW_LAYER_SOLID && (wood || bw_is_insulation(m))) {
            bw_rows_none(rows, BW_C_UNJUDGED,
                         bw_say(rows,
                                "%s lies outside the well-ventilated cavity, "
                                "where nothing judges it",
                                slab->label));
            return;
        }
        covered = covered || slab->sd_dry >= TIGHT;
    }
}

void bw_judge_below(bw_rows *rows, const bw_assembly *assembly)
{
    if (assembly->element == BW_ELEMENT_FLOOR &&
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
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->transient_section);
    judge_outside(rows, part->transient_section, &geography);
    judge_water(rows, &part->transient);
    bw_judge_standing(rows, part, &geography);
    bw_judge_both(rows, part, &geography);
    bw_judge_covering(rows, part, &geography);
    bw_judge_wood(rows, part, &geography);
    bw_judge_mould(rows, part, &geography);
    bw_judge_wetting(rows, part);
}
