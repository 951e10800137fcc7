#include "names.h"

#include <string.h>

#include "number.h"

bool bw_plane_slab(bw_plane_at at, size_t *slab)
{
    if (at.layer_face || at.depth > 0.0) {
        *slab = at.slab;
        return true;
    }
    *slab = at.slab > 0 ? at.slab - 1 : 0;
    return at.slab > 0;
}

static bool inside_slab(bw_plane_at at)
{
    return !at.layer_face && at.depth > 0.0;
}

const char *bw_short_name(bw_page *page, const char *name)
{
    size_t length = strcspn(name, ",(");
    while (length > 0 && name[length - 1] == ' ')
        length--;
    return length > 0 ? bw_phrase(page, "%.*s", (int)length, name) : name;
}

const char *bw_plane_text(bw_page *page, const bw_section *section,
                          bw_plane_at at)
{
    size_t slab;
    if (section->slab_count == 0)
        return "surface";
    if (!bw_plane_slab(at, &slab))
        return section->dropped_layers > 0
                   ? "face towards the ventilated cavity"
                   : "outer surface";
    const char *outer = bw_short_name(page, section->slab[slab].label);
    if (inside_slab(at))
        return bw_phrase(page, "inside %s, %s mm from its outer face", outer,
                         bw_fixed(page, at.depth * 1000.0, 0));
    if (slab + 1 >= section->slab_count)
        return "room-side surface";
    return bw_phrase(page, "between %s and %s", outer,
                     bw_short_name(page, section->slab[slab + 1].label));
}

const char *bw_simulated_slab(const bw_transient_result *run, size_t slab)
{
    for (size_t i = 0; i < run->monitor_count; i++)
        if (run->monitor[i].slab == slab && !run->monitor[i].outer_face)
            return run->monitor[i].label;
    return "a layer";
}

const char *bw_monitor_text(bw_page *page, const bw_transient_result *run,
                            size_t index)
{
    const bw_monitor *monitor = &run->monitor[index];
    if (monitor->outer_face)
        return "outer face";
    if (monitor->room_face || index + 1 >= run->monitor_count)
        return "room face";
    return bw_phrase(
        page, "between %s and %s", bw_short_name(page, monitor->label),
        bw_short_name(page, bw_simulated_slab(run, monitor->slab + 1)));
}

static const char *slab_id(const bw_assembly *assembly,
                           const bw_section *section, size_t slab)
{
    return assembly->layer[section->slab[slab].layer].id;
}

const char *bw_plane_id(bw_page *page, const bw_assembly *assembly,
                        const bw_section *section, bw_plane_at at)
{
    size_t slab;
    char depth[32];
    const bool has_outer = bw_plane_slab(at, &slab);
    const char *outer = has_outer ? slab_id(assembly, section, slab)
                                  : "outside";
    if (inside_slab(at))
        return bw_phrase(page, "%s@%s", outer,
                         bw_number_g(depth, sizeof depth, at.depth, 4));
    const size_t inner = has_outer ? slab + 1 : 0;
    return bw_phrase(page, "%s|%s", outer,
                     inner < section->slab_count
                         ? slab_id(assembly, section, inner)
                         : "room");
}

size_t bw_runs(bw_run runs[BW_RUN_COUNT], const bw_section_assessment *section)
{
    const struct {
        const char *name;
        const bw_monthly_result *result;
        bool ran;
    } all[BW_RUN_COUNT] = {
        {"design", &section->design, true},
        {"bound", &section->bound, section->has_bound},
        {"inward", &section->inward, section->has_inward},
        {"wetted-both-ways", &section->dry_both, true},
        {"wetted-outwards-only", &section->dry_outwards, true},
        {"wetted-inwards-only", &section->dry_inwards, true},
        {"with-air-leakage", &section->leaky, section->has_leaky},
    };
    size_t count = 0;
    for (size_t i = 0; i < BW_RUN_COUNT; i++)
        if (all[i].ran && all[i].result->plane_count > 0)
            runs[count++] = (bw_run){all[i].name, all[i].result};
    return count;
}

const char *bw_criterion_verdict(bw_page *page, const bw_criterion *criterion)
{
    static const char *const alone[] = {
        [BW_HOLDS] = "would hold",
        [BW_MARGINAL] = "would be marginal",
        [BW_FAILS] = "would fail",
        [BW_NOT_ASSESSED] = "screening",
    };
    const char *word = bw_verdict_text(criterion->verdict);
    if (criterion->screening && criterion->verdict == BW_NOT_ASSESSED)
        return bw_phrase(page, "%s (%s)", word,
                         criterion->has_limit ? alone[criterion->outcome]
                                              : "screening");
    if (criterion->screening)
        return bw_phrase(page, "%s (screening)", word);
    if (criterion->cross_check)
        return bw_phrase(page, "%s (cross-check)", word);
    return word;
}

static bool in_kilograms(const char *unit)
{
    return strncmp(unit, "kg/m2", 5) == 0 || strncmp(unit, "kg/(m2", 6) == 0;
}

const char *bw_shown_value(bw_page *page, double value, const char *unit)
{
    return in_kilograms(unit) ? bw_grams(page, value)
                              : bw_significant(page, value, 3);
}

const char *bw_shown_unit(const char *unit)
{
    return in_kilograms(unit) ? unit + 1 : unit;
}

const char *bw_drying_time(bw_page *page, const bw_monthly_result *run,
                           double wetting)
{
    if (run->plane_count == 0)
        return "not assessed";
    if (run->dried)
        return bw_phrase(page, "%s months",
                         bw_fixed(page, run->months_to_dry, 1));
    if (run->left > wetting)
        return bw_phrase(page, "never: %s there after 10 years",
                         bw_amount(page, run->left));
    return bw_phrase(page, "not in 10 years (%s left)",
                     bw_amount(page, run->left));
}

const char *bw_wetting_time(bw_page *page, const bw_section_wetting *test,
                            const bw_wetting_result *way)
{
    const double months = bw_wetting_test_months(test, way);
    if (months >= 0.0)
        return bw_phrase(page, "%s months", bw_fixed(page, months, 1));
    return bw_phrase(page, "not in %s months: %s there",
                     bw_fixed(page, bw_wetting_months_followed(way), 0),
                     bw_amount(page, way->left));
}

const char *bw_in_section(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section)
{
    return assessment->section_count > 1
               ? bw_phrase(page, " (%s)", section->section->name)
               : "";
}

const bw_section_assessment *bw_worst_peak(const bw_assessment *assessment)
{
    const bw_section_assessment *worst = &assessment->section[0];
    for (size_t i = 1; i < assessment->section_count; i++)
        if (assessment->section[i].design.peak > worst->design.peak)
            worst = &assessment->section[i];
    return worst;
}

const bw_section_assessment *bw_worst_reserve(const bw_assessment *assessment)
{
    const bw_section_assessment *worst = NULL;
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *section = &assessment->section[i];
        if (section->design.has_reserve &&
            (worst == NULL || section->design.reserve < worst->design.reserve))
            worst = section;
    }
    return worst;
}

static double slowness(const bw_monthly_result *run)
{
    /* A wall that never dries ranks behind every one that does. */
    return run->dried ? run->months_to_dry : 1e6 + run->left;
}

const bw_section_assessment *bw_worst_drying(const bw_assessment *assessment)
{
    const bw_section_assessment *worst = &assessment->section[0];
    for (size_t i = 1; i < assessment->section_count; i++)
        if (slowness(&assessment->section[i].dry_both) >
            slowness(&worst->dry_both))
            worst = &assessment->section[i];
    return worst;
}
