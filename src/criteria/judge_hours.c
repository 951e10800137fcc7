#include "judge.h"
#include "run.h"

#include <math.h>
#include <string.h>

/* Places in the simulation: water that stands, hours near saturation, mould
 * with the last year repeated to its end. */

/* A face inside the weather line that neither the weather nor the room sees.
 */
static bool is_inside(const bw_monitor *monitor, const bw_wall_judged *of)
{
    return !monitor->outer_face && !monitor->room_face &&
           monitor->slab + 1 >= of->geography.first &&
           (monitor->slab >= of->geography.waterproofing ||
            bw_face_perishes(of->section, monitor->slab));
}

static int dampest_month(const bw_monitor *monitor)
{
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (monitor->month_rh[m] > monitor->month_rh[month])
            month = m;
    return month;
}

/* ---- water ---- */

/* What stands on the inner face of a ventilated cavity runs off into it, unless
 * rain is said to leak in; the layer behind is judged by its moisture, hours
 * and mould. */
static bool holds_water(const bw_monitor *monitor, const bw_wall_judged *of)
{
    return is_inside(monitor, of) &&
           (monitor->slab >= of->geography.first || of->brings_water);
}

static const double NO_WATER = 5e-4; /* kg/m2: prints as 0.000 */

static double stands(const bw_monitor *monitor)
{
    return fmax(monitor->first_free.largest, monitor->last_free.largest);
}

/* In soil, which is taken colder than it is, where what stands reaches nothing
 * that perishes: such floors of insulation on their sheet have always been
 * built (common practice, no source), and in a floor nothing runs off. */
static bool harms_nothing(const bw_assembly *assembly, const bw_wall_judged *of,
                          const bw_monitor *monitor)
{
    return of->colder != NULL && !bw_water_reaches_what_perishes(
                                     assembly, of->section, monitor->slab);
}

/* Where most stands, or where most stands that may do harm. */
static const bw_monitor *wettest(const bw_assembly *assembly,
                                 const bw_section_assessment *part,
                                 const bw_wall_judged *of, bool harmful)
{
    const bw_transient_result *result = &part->transient;
    const bw_monitor *worst = NULL;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (holds_water(monitor, of) &&
            !(harmful && harms_nothing(assembly, of, monitor)) &&
            (worst == NULL || stands(monitor) > stands(worst)))
            worst = monitor;
    }
    return worst;
}

static void judge_free_water(bw_rows *rows, const bw_assembly *assembly,
                             const bw_section_assessment *part,
                             const bw_wall_judged *of)
{
    const double limit = bw_limit_under(rows->profile, BW_C_STANDING_WATER, 0);
    const bw_monitor *worst = wettest(assembly, part, of, true);
    const bool inspect = worst == NULL || stands(worst) <= limit;
    if (inspect)
        worst = wettest(assembly, part, of, false);
    if (worst == NULL)
        return;
    const double water = stands(worst);
    const bool first = worst->first_free.largest > worst->last_free.largest;
    const bw_free_water *most = first ? &worst->first_free : &worst->last_free;
    const bool excuse = inspect && water > limit;
    const char *reason =
        most->month < 0 || water < NO_WATER
            ? "no water stands anywhere inside the weather line"
            : bw_say(rows,
                     "%s%.3f kg/m2 %s in %s of the %s year; %.0f h with water "
                     "standing%s%s",
                     excuse ? "exceeds, inspect: " : "", water,
                     bw_say_face(rows, part->transient_section, worst),
                     bw_month_name(most->month), first ? "first" : "last",
                     most->hours, excuse ? ", where nothing rots" : "",
                     excuse ? of->colder : "");
    bw_row *row = bw_rows_judge(rows, BW_C_STANDING_WATER, water, reason);
    if (excuse)
        bw_row_at_worst(row, BW_MARGINAL);
}

/* A render on insulation of which mould takes neither: rain makes it humid
 * there by design, and such walls have stood for fifty years (common practice,
 * no source). Water that stands there is judged all the same. */
static bool is_rendered(const bw_section *section, size_t slab)
{
    static const double RENDER = 0.03; /* m, at most, with its coats */
    double outside = 0.0;
    for (size_t k = 0; k <= slab; k++) {
        const bw_material *m = section->slab[k].material;
        outside += section->slab[k].thickness;
        if ((strcmp(m->group, "plaster") != 0 &&
             strcmp(m->group, "coating") != 0) ||
            outside > RENDER)
            return false;
    }
    return slab + 1 < section->slab_count &&
           bw_is_insulation(section->slab[slab + 1].material) &&
           section->slab[slab + 1].material->wood_kind == BW_NOT_WOOD &&
           section->slab[slab + 1].material->mould_class >=
               BW_MOULD_MEDIUM_RESISTANT;
}

/* Where water would do harm; or, whatever the materials, where the months find
 * a tenth of the condensate that is allowed (estimate): their humidity is the
 * room's, which no rain of last week explains. */
static bool is_watched(const bw_rows *rows, const bw_section_assessment *part,
                       const bw_geography *geography, size_t slab)
{
    static const double WORTH_IT = 0.1;
    const bw_section *section = part->transient_section;
    return (bw_face_at_risk(geography, section, slab) &&
            !is_rendered(section, slab)) ||
           bw_months_condensate(part, slab) >=
               WORTH_IT * bw_limit_under(rows->profile, BW_C_CONDENSATE, 0);
}

/* Of the hours above 95 % RH those below 0 degC, where pores that full
 * freeze. */
static size_t frozen_hours(const bw_transient_result *result, size_t monitor)
{
    size_t count = 0;
    for (size_t h = 0; result->last_hours != NULL && h < BW_TRANSIENT_HOURS;
         h++) {
        const bw_monitor_hour *hour =
            &result->last_hours[h * result->monitor_count + monitor];
        count += hour->theta < 0.0F && hour->phi > 0.95F;
    }
    return count;
}

static void judge_humid_hours(bw_rows *rows, const bw_section_assessment *part,
                              const bw_wall_judged *of)
{
    const bw_transient_result *result = &part->transient;
    const bw_section *section = part->transient_section;
    const bw_monitor *worst = NULL;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (is_inside(monitor, of) &&
            is_watched(rows, part, &of->geography, monitor->slab) &&
            (worst == NULL ||
             monitor->last_year.above_95 > worst->last_year.above_95))
            worst = monitor;
    }
    if (worst == NULL)
        return;
    const double hours = worst->last_year.above_95;
    const char *where = bw_say_face(rows, section, worst);
    const size_t frozen = frozen_hours(result,
                                       (size_t)(worst - result->monitor));
    bw_rows_judge(rows, BW_C_HUMID_HOURS, hours,
                  bw_say(rows, "%.0f h of the last year %s, dampest in %s%s",
                         hours, where, bw_month_name(dampest_month(worst)),
                         frozen > 0
                             ? bw_say(rows, ", %zu h of them in frost", frozen)
                             : ""));
}

void bw_judge_standing(bw_rows *rows, const bw_assembly *assembly,
                       const bw_section_assessment *part,
                       const bw_wall_judged *of)
{
    judge_free_water(rows, assembly, part, of);
    judge_humid_hours(rows, part, of);
}

/* ---- mould ---- */

static const char *say_course(bw_rows *rows, const bw_mould_outcome *mould)
{
    if (mould->settled)
        return "";
    return bw_say(rows, ", still rising by %.2f a year after %d more years",
                  mould->rise, mould->years);
}

/* Is it the outdoor air, or the rain in a ventilated cladding, that brings the
 * mould, and not the wall? By months, which know no rain, the room makes a face
 * outside of the main insulation no more humid than the outdoor air; and
 * nothing there is soaked. Sheathing near the humidity of outdoor air stands
 * sound in the field, and decay is judged by its own row. All three answers get
 * no kinder with more rain. */
static bool is_as_in_air(const bw_section_assessment *part,
                         const bw_wall_judged *of, const bw_monitor *monitor)
{
    static const double SAME_RH = 0.02; /* in any month */
    if (!part->open_to_air || monitor->room_face ||
        monitor->slab >= of->geography.insulation || bw_is_soaked(monitor))
        return false;
    return monitor->slab + 1 == of->geography.first ||
           bw_months_room_adds(part, monitor->slab) <= SAME_RH;
}

/* The back of an outer leaf: no face that mould feeds on, outside of the main
 * insulation, with a leaf of masonry between it and the room, not soaked and
 * with no water of its own. */
static bool is_behind_masonry(const bw_section_assessment *part,
                              const bw_wall_judged *of,
                              const bw_monitor *monitor)
{
    static const double LEAF = 0.09; /* m */
    const bw_section *section = part->transient_section;
    if (monitor->room_face || of->brings_water || bw_is_soaked(monitor) ||
        monitor->mould_class < BW_MOULD_MEDIUM_RESISTANT)
        return false;
    const size_t from = of->geography.insulates ? of->geography.insulation + 1
                                                : monitor->slab + 1;
    if (of->geography.insulates && monitor->slab >= of->geography.insulation)
        return false;
    for (size_t k = from; k < section->slab_count; k++)
        if (section->slab[k].thickness >= LEAF &&
            strcmp(section->slab[k].material->group, "masonry") == 0)
            return true;
    return false;
}

/* A sheet between it and the room, as of steel. */
static bool is_shut_off(const bw_section *section, const bw_monitor *monitor)
{
    static const double SHEET = 50.0; /* m of sd, estimate */
    for (size_t k = monitor->slab + 1; k < section->slab_count; k++)
        if (section->slab[k].sd_dry >= SHEET)
            return true;
    return false;
}

/* NULL: it fails at the limit. Else why it asks for an inspection only. */
static const char *why_inspect(const bw_section_assessment *part,
                               const bw_wall_judged *of, size_t i)
{
    const bw_monitor *monitor = &part->transient.monitor[i];
    if (is_as_in_air(part, of, monitor))
        return ", brought by the air of the ventilated cavity and not by the "
               "room";
    if (is_behind_masonry(part, of, monitor))
        return ", at the back of an outer leaf, behind masonry";
    if (monitor->room_face || monitor->mould_class < BW_MOULD_MEDIUM_RESISTANT)
        return NULL;
    if (of->colder != NULL && !bw_face_perishes(of->section, monitor->slab))
        return of->colder;
    return !of->perishes && is_shut_off(part->transient_section, monitor)
               ? ", where nothing rots, shut off from the room"
               : NULL;
}

/* Two published pairs of decline and limit: what both fail fails, what only
 * the slower decline fails is marginal. */
static void judge_worst_mould(bw_rows *rows, bw_criterion_id id,
                              const bw_section_assessment *part,
                              const bw_wall_judged *of, size_t worst)
{
    const bw_section *section = part->transient_section;
    const bw_monitor *monitor = &part->transient.monitor[worst];
    const bw_place_mould *mould = &part->mould[worst];
    const double limit = bw_limit_under(rows->profile, id, 0);
    const int month = dampest_month(monitor);
    const bool exceeds = mould->highest >= limit;
    const bool doubted = !exceeds && mould->highest_slow >= limit;
    const char *excuse = exceeds ? why_inspect(part, of, worst) : NULL;
    const char *reason = bw_say(
        rows,
        "index %.2f %s%s; dampest in %s (mean %.0f %% RH); %.2f with the "
        "decline of "
        "ASHRAE 160%s",
        mould->highest, bw_say_face(rows, section, monitor),
        say_course(rows, &mould->by_class), bw_month_name(month),
        100.0 * monitor->month_rh[month], mould->highest_slow,
        say_course(rows, &mould->slow));
    if (exceeds || doubted)
        reason = bw_say(rows,
                        "exceeds%s%s: %s; %.0f h of the last year above 80 %%, "
                        "%.0f h above 90 %% RH",
                        doubted          ? " by one of two published rules"
                        : excuse != NULL ? excuse
                                         : "",
                        doubted || excuse != NULL ? ", inspect" : "", reason,
                        monitor->last_year.above_80,
                        monitor->last_year.above_90);
    bw_row *row = bw_rows_judge(rows, id, mould->highest, reason);
    if (doubted)
        bw_row_at_best(row, BW_MARGINAL);
    if (excuse != NULL)
        bw_row_at_worst(row, BW_MARGINAL);
}

/* 2: fails, 1: marginal, 0: neither. */
static int badness(const bw_section_assessment *part, const bw_wall_judged *of,
                   size_t i, double limit)
{
    const bw_place_mould *mould = &part->mould[i];
    if (mould->highest >= limit)
        return why_inspect(part, of, i) != NULL ? 1 : 2;
    return mould->highest_slow >= limit ? 1 : 0;
}

static bool is_mouldier(const bw_section_assessment *part,
                        const bw_wall_judged *of, size_t a, size_t b,
                        double limit)
{
    const int bad_a = badness(part, of, a, limit);
    const int bad_b = badness(part, of, b, limit);
    return bad_a != bad_b ? bad_a > bad_b
                          : part->mould[a].highest > part->mould[b].highest;
}

static void judge_mould(bw_rows *rows, bw_criterion_id id,
                        const bw_section_assessment *part,
                        const bw_wall_judged *of)
{
    const bw_transient_result *result = &part->transient;
    const double limit = bw_limit_under(rows->profile, id, 0);
    const bool room = id == BW_C_MOULD_ROOM;
    size_t worst = result->monitor_count;
    for (size_t i = 0; i < result->monitor_count; i++) {
        const bw_monitor *monitor = &result->monitor[i];
        if (!(room ? monitor->room_face : is_inside(monitor, of)))
            continue;
        if (worst == result->monitor_count ||
            is_mouldier(part, of, i, worst, limit))
            worst = i;
    }
    if (worst < result->monitor_count)
        judge_worst_mould(rows, id, part, of, worst);
}

void bw_judge_mould(bw_rows *rows, const bw_section_assessment *part,
                    const bw_wall_judged *of)
{
    judge_mould(rows, BW_C_MOULD_HIDDEN, part, of);
    judge_mould(rows, BW_C_MOULD_ROOM, part, of);
}
