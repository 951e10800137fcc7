#include "judge.h"

#include <assert.h>
#include <math.h>

/* Hidden wood in the simulation. Its decay dose decides; the moisture limits
 * and the line of embedded timber ask for an inspection: field walls beyond
 * them have been opened and found sound. */

/* Wood inside the weather line, of this kind (BW_NOT_WOOD: any). An outermost
 * slab shows its face to the weather: a log or a board is no hidden wood. */
static bool is_hidden(const bw_section_assessment *part,
                      const bw_geography *geography, size_t k,
                      bw_wood_kind kind)
{
    const bw_material *material = part->transient_section->slab[k].material;
    if (k == 0 || k < geography->first || material == NULL ||
        !part->transient.slab[k].is_wood)
        return false;
    const bw_wood_kind is = material->wood_kind;
    return kind == BW_NOT_WOOD ? is != BW_WOOD_WOOL_BOARD : is == kind;
}

/* What the rows that ask for an inspection look at: a panel, too, that has
 * nothing before it. It bears the weather badly, and its decay decides nothing
 * here. */
static bool is_watched(const bw_section_assessment *part,
                       const bw_geography *geography, size_t k,
                       bw_wood_kind kind)
{
    return is_hidden(part, geography, k, kind) ||
           (k == 0 && geography->first == 0 &&
            part->transient.slab[0].is_wood &&
            part->transient_section->slab[0].material->wood_kind ==
                BW_WOOD_PANEL &&
            kind != BW_SOLID_WOOD);
}

static void judge_moisture(bw_rows *rows, bw_criterion_id id, bw_wood_kind kind,
                           const bw_section_assessment *part,
                           const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    const bw_slab_moisture *worst = NULL;
    size_t where = 0;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab_moisture *slab = &part->transient.slab[k];
        if (!is_watched(part, geography, k, kind) ||
            (worst != NULL &&
             slab->highest_wood_moisture <= worst->highest_wood_moisture))
            continue;
        worst = slab;
        where = k;
    }
    if (worst == NULL)
        return; /* none of this kind in the section: no row */
    const double percent = 100.0 * worst->highest_wood_moisture;
    const char *reason = bw_say(rows, "%.1f %% in %s, wettest in %s", percent,
                                section->slab[where].label,
                                bw_month_name(worst->highest_month));
    bw_row *row = bw_rows_judge(rows, id, percent, reason);
    if (row->row.outcome == BW_MARGINAL)
        row->row.reason = bw_say(rows,
                                 "%s; %.0f h of the last year above the limit",
                                 row->row.reason, worst->hours_above_limit);
}

static void judge_line(bw_rows *rows, const bw_section_assessment *part,
                       const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    size_t worst = section->slab_count;
    for (size_t k = 0; k < section->slab_count; k++)
        if (is_watched(part, geography, k, BW_NOT_WOOD) &&
            (worst == section->slab_count ||
             part->wood[k].line.days_above > part->wood[worst].line.days_above))
            worst = k;
    if (worst == section->slab_count)
        return;
    const bw_timber_line_result *line = &part->wood[worst].line;
    const double days = (double)line->days_above;
    const char *reason =
        line->days_above == 0
            ? "the wettest 10 mm of wood stay below the line all year"
            : bw_say(
                  rows,
                  "%.0f d of the last year in %s, wettest in %s, by up to %.1f "
                  "%% RH, longest run %zu d",
                  days, section->slab[worst].label,
                  bw_month_name(part->transient.slab[worst].highest_month),
                  100.0 * line->overshoot, line->longest_run);
    bw_rows_judge(rows, BW_C_TIMBER_LINE, days, reason);
}

static void judge_decay(bw_rows *rows, const bw_section_assessment *part,
                        const bw_geography *geography)
{
    const bw_section *section = part->transient_section;
    size_t worst = section->slab_count;
    for (size_t k = 0; k < section->slab_count; k++)
        if (is_hidden(part, geography, k, BW_NOT_WOOD) &&
            (worst == section->slab_count ||
             part->wood[k].service_dose > part->wood[worst].service_dose))
            worst = k;
    if (worst == section->slab_count)
        return;
    const bw_wood_damage *wood = &part->wood[worst];
    const char *reason =
        wood->service_dose > 0.0
            ? bw_say(
                  rows,
                  "%s, wettest in %s: a dose of %.1f d in the first year, %.1f "
                  "d in every later one",
                  section->slab[worst].label,
                  bw_month_name(part->transient.slab[worst].highest_month),
                  wood->first_dose, wood->dose)
            : "on no day is wood above 25 % by mass and between 0 and 40 degC, "
              "where this dose begins";
    bw_rows_judge(rows, BW_C_DECAY, wood->service_dose, reason);
}

static const char *say_first_year(bw_rows *rows, const bw_slab_moisture *slab,
                                  const char *name)
{
    const double limit = 100.0 * slab->limit,
                 most = 100.0 * slab->first_highest_wood_moisture;
    if (slab->weeks_to_limit < 0.0)
        return bw_say(
            rows,
            "%s never stays below %.0f %% (%.1f %% at most in the first "
            "year)",
            name, limit, most);
    return bw_say(
        rows,
        "%s stays below %.0f %% after %.0f weeks (%.1f %% at most in the "
        "first year)",
        name, limit, ceil(slab->weeks_to_limit), most);
}

/* Only where some wood starts above its limit, or gets there. */
static void judge_first_year(bw_rows *rows, const bw_section_assessment *part,
                             const bw_geography *geography)
{
    static const double WEEKS_OF_YEAR = 52.0;
    const bw_section *section = part->transient_section;
    const double run = WEEKS_OF_YEAR * part->transient.years;
    double worst = 0.0;
    size_t where = section->slab_count;
    for (size_t k = 0; k < section->slab_count; k++) {
        const double weeks = part->transient.slab[k].weeks_to_limit;
        const double counted = weeks < 0.0 ? run : weeks;
        if (is_hidden(part, geography, k, BW_NOT_WOOD) && counted > worst) {
            worst = counted;
            where = k;
        }
    }
    if (where == section->slab_count)
        return;
    bw_row *row = bw_rows_judge(rows, BW_C_FIRST_YEAR, worst,
                                say_first_year(rows,
                                               &part->transient.slab[where],
                                               section->slab[where].label));
    row->row.never = part->transient.slab[where].weeks_to_limit < 0.0;
}

void bw_judge_wood(bw_rows *rows, const bw_section_assessment *part,
                   const bw_geography *geography)
{
    assert(part->transient.slab_count == part->transient_section->slab_count);
    judge_moisture(rows, BW_C_WOOD_MOISTURE, BW_SOLID_WOOD, part, geography);
    judge_moisture(rows, BW_C_PANEL_MOISTURE, BW_WOOD_PANEL, part, geography);
    judge_line(rows, part, geography);
    judge_decay(rows, part, geography);
    judge_first_year(rows, part, geography);
}
