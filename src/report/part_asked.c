/* What people ask of a wall beside its verdict, a line each: what water gets
 * in, what the sun does after rain, how the other sections are, when wood that
 * was built in wet is dry, the corner, what nobody has looked at.
 *
 * Invariant: nothing is computed here; each figure is that of a result or of a
 * criterion, and what was not computed is said to be so. */

#include <string.h>

#include "names.h"
#include "part.h"
#include "spot.h"

/* ---- water and sun ------------------------------------------------------ */

static void say_water_in(bw_page *page, const bw_assembly *assembly,
                         const bw_transient_result *run)
{
    const char *leak = assembly->rain_leak.given
                           ? bw_phrase(page, "%s (%.3g %%)",
                                       bw_amount(page, run->leak_rain),
                                       100.0 * assembly->rain_leak.fraction)
                           : "none stated";
    const char *air = assembly->air_leakage.given
                          ? bw_amount(page, run->leak_convective)
                          : "none stated";
    bw_pair(page, "Water let in, a year",
            "rain %s, rain leak %s, leaking room air %s",
            assembly->beyond.kind != NULL ? "none"
                                          : bw_amount(page, run->rain_absorbed),
            leak, air);
}

/* With and without the leak, where both were simulated. */
static void say_leak(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->advice_count; i++) {
        const bw_advice *a = &assessment->advice[i];
        if (a->rain_leak)
            bw_pair(page, "Without the rain leak",
                    "%zu fail%s instead of %zu, %zu marginal instead of %zu%s",
                    a->fails_after, a->fails_after == 1 ? "s" : "",
                    a->fails_before, a->marginal_after, a->marginal_before,
                    a->fails_before > 0 && a->fails_after == 0
                        ? ": it is the cause"
                        : "");
    }
}

static double highest_at(const bw_transient_result *run, size_t slab, int month)
{
    double most = 0.0;
    for (size_t i = 0; i < run->monitor_count; i++)
        if (run->monitor[i].slab == slab && !run->monitor[i].outer_face)
            most = fmax(most, run->monitor[i].month_rh[month]);
    return most;
}

static void say_sun(bw_page *page, const bw_assembly *assembly,
                    const bw_section_assessment *part)
{
    const bw_transient_result *run = &part->transient;
    if (assembly->beyond.kind != NULL || run->slab_count == 0)
        return;
    const bw_drive drive = bw_drive_of(assembly, part);
    if (!assembly->outdoors.has_facing)
        bw_pair(page, "Sun after rain", "not counted: the file has no faces=");
    else
        bw_pair(page, "Sun after rain",
                "drives vapour inwards, %.0f Pa in %s: %.0f %% RH then behind "
                "insulation",
                drive.sunny, bw_month_name(drive.sunny_month),
                100.0 * highest_at(run, drive.slab, drive.sunny_month));
}

/* ---- sections ----------------------------------------------------------- */

/* The row that comes nearest to its limit, or lies furthest beyond it. */
static const bw_criterion *worst_of(const bw_assessment *assessment,
                                    const char *section)
{
    const bw_criterion *worst = NULL;
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *row = &assessment->criterion[i];
        if (row->decides && row->has_value && row->has_limit &&
            strcmp(row->section, section) == 0 &&
            (worst == NULL || bw_row_badness(row) > bw_row_badness(worst)))
            worst = row;
    }
    return worst;
}

/* Not the one that the verdict names, and none of which the months alone,
 * beyond their limits, could say that it holds. */
static bool is_told(const bw_assessment *assessment,
                    const bw_section_assessment *part)
{
    const bw_criterion *named = assessment->deciding;
    return (part->has_transient || assessment->scope_count == 0) &&
           (named == NULL || strcmp(named->section, part->section->name) != 0);
}

static void say_sections(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const char *section = assessment->section[i].section->name;
        const bw_criterion *row = worst_of(assessment, section);
        if (row == NULL || assessment->section_count < 2 ||
            !is_told(assessment, &assessment->section[i]))
            continue;
        const char *never = bw_not_within(page, row);
        bw_pair(page, bw_capital(page, bw_plain_id(page, section)),
                "%s: %s %s, limit %s", bw_verdict_text(row->verdict),
                bw_plain_id(page, row->criterion),
                never != NULL ? never
                              : bw_shown_amount(page, row->value, row->unit),
                bw_shown_amount(page, row->limit, row->unit));
    }
}

/* ---- wood that was built in wet ------------------------------------------ */

/* What it is said to hold at the start: of a stud what is said of the stud. */
static const char *start_of(bw_page *page, const bw_assembly *assembly,
                            const bw_slab *slab)
{
    const bw_layer *l = &assembly->layer[slab->layer];
    const bw_framing *f = &l->framing;
    const bool is_given = slab->is_framing ? f->has_initial_moisture
                                           : l->has_initial_moisture;
    const bool is_rh = slab->is_framing ? f->initial_is_rh : l->initial_is_rh;
    const double moisture = slab->is_framing ? f->initial_moisture
                                             : l->initial_moisture;
    if (!is_given)
        return NULL;
    return bw_phrase(page, "%.3g %%%s", 100.0 * moisture, is_rh ? " RH" : "");
}

static void say_wet_wood(bw_page *page, const bw_assembly *assembly,
                         const bw_section_assessment *part)
{
    for (size_t k = 0; k < part->transient.slab_count; k++) {
        const bw_slab *slab = &part->transient_section->slab[k];
        const bw_slab_moisture *wood = &part->transient.slab[k];
        const char *start = wood->is_wood ? start_of(page, assembly, slab)
                                          : NULL;
        if (start == NULL)
            continue;
        bw_pair(page, "Closed while wet", "%s at %s: %s",
                bw_short_name(page, slab->label), start,
                bw_wood_drying(page, wood));
    }
}

/* ---- the room's side, and what is not known ------------------------------ */

/* Where it is coldest of all sections; NULL: not computed. */
static const bw_criterion *coldest(const bw_assessment *assessment,
                                   const char *criterion)
{
    const bw_criterion *found = NULL;
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *row = &assessment->criterion[i];
        if (strcmp(row->criterion, criterion) == 0 && row->has_value &&
            row->has_limit && (found == NULL || row->value < found->value))
            found = row;
    }
    return found;
}

static const char *cold(const bw_criterion *row)
{
    return row->value < row->limit ? " (too cold)" : "";
}

static void say_corner(bw_page *page, const bw_assessment *assessment)
{
    const bw_criterion *corner = coldest(assessment, "surface-mould-corner");
    const bw_criterion *cupboard = coldest(assessment,
                                           "surface-mould-cupboard");
    if (corner == NULL || cupboard == NULL)
        bw_pair(page, "Corner, cupboard", "not assessed");
    else
        bw_pair(page, "Corner, cupboard",
                "temperature factor %.3g%s, %.3g%s, at least %.3g%s",
                corner->value, cold(corner), cupboard->value, cold(cupboard),
                corner->limit,
                bw_is_tight(page) ? ""
                                  : "; of a plane wall: corners are "
                                    "asked of bothways junction");
}

static void say_unknown(bw_page *page, const bw_assembly *assembly)
{
    const bw_layer *first = NULL;
    size_t count = 0;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        if (layer->evidence != BW_EVIDENCE_ASSUMED ||
            layer->kind == BW_LAYER_CAVITY)
            continue;
        first = first == NULL ? layer : first;
        count++;
    }
    if (count > 0)
        bw_pair(page, "Nobody has looked at",
                "%s%s; bothways margin FILE tries what else it may be",
                bw_short_name(page, first->name),
                count > 1 ? bw_phrase(page, " and %zu more", count - 1) : "");
}

BW_PART(asked, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    const bw_assembly *assembly = assessment->assembly;
    if (assessment->section_count == 0)
        return;
    const bw_section_assessment *part = &assessment->section[0];
    bw_lead(page, "Often asked");
    if (part->has_transient) {
        say_water_in(page, assembly, &part->transient);
        say_leak(page, assessment);
        say_sun(page, assembly, part);
    }
    say_sections(page, assessment);
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient)
            say_wet_wood(page, assembly, &assessment->section[i]);
    say_corner(page, assessment);
    say_unknown(page, assembly);
}
