#include "names.h"

#include <string.h>

#include "number.h"

/* Places, runs and amounts in the words of the reports.
 *
 * Invariant: a place has one name, whichever part speaks of it. */

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

const char *bw_capital(bw_page *page, const char *text)
{
    bool lower = text[0] >= 'a' && text[0] <= 'z';
    return lower ? bw_phrase(page, "%c%s", text[0] - 'a' + 'A', text + 1)
                 : text;
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
        return bw_phrase(page, "inside %s, %.0f mm from its outer face", outer,
                         at.depth * 1000.0);
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
    const bool has_outer = bw_plane_slab(at, &slab);
    const char *outer = has_outer ? slab_id(assembly, section, slab)
                                  : "outside";
    if (inside_slab(at))
        return bw_phrase(page, "%s@%s", outer, BW_NUMBER_G(at.depth, 4));
    const size_t inner = has_outer ? slab + 1 : 0;
    return bw_phrase(page, "%s|%s", outer,
                     inner < section->slab_count
                         ? slab_id(assembly, section, inner)
                         : "room");
}

const char *bw_would_be(bw_verdict verdict)
{
    static const char *const words[] = {
        [BW_HOLDS] = "would hold",
        [BW_MARGINAL] = "would be marginal",
        [BW_FAILS] = "would fail",
        [BW_NOT_ASSESSED] = "not assessed",
    };
    return words[verdict];
}

const char *bw_criterion_verdict(bw_page *page, const bw_criterion *criterion)
{
    const char *word = bw_verdict_text(criterion->verdict);
    if (criterion->screening && criterion->verdict == BW_NOT_ASSESSED)
        return bw_phrase(page, "%s (%s)", word,
                         criterion->has_limit &&
                                 criterion->outcome != BW_NOT_ASSESSED
                             ? bw_would_be(criterion->outcome)
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

const char *bw_shown_amount(bw_page *page, double value, const char *unit)
{
    const char *shown = bw_shown_unit(unit);
    const bool bare = strcmp(shown, "-") == 0;
    return bw_phrase(page, "%s%s%s", bw_shown_value(page, value, unit),
                     bare ? "" : " ", bare ? "" : shown);
}

const char *bw_wood_drying(bw_page *page, const bw_slab_moisture *slab)
{
    const char *limit = bw_fixed(page, slab->limit * 100.0, 0);
    if (slab->weeks_to_limit < 0.0)
        return bw_phrase(page, "not below %s %% for good", limit);
    if (slab->weeks_to_limit == 0.0)
        return bw_phrase(page, "never above %s %%", limit);
    return bw_phrase(page, "below %s %% for good after %.0f weeks", limit,
                     ceil(slab->weeks_to_limit));
}

const char *bw_not_within(bw_page *page, const bw_criterion *criterion)
{
    return criterion->never
               ? bw_arena_not_within(&page->arena, criterion->value,
                                     criterion->unit)
               : NULL;
}

const char *bw_drying_time(bw_page *page, const bw_monthly_result *run,
                           double wetting)
{
    if (run->plane_count == 0)
        return "not assessed";
    if (run->dried)
        return bw_phrase(page, "%.1f months", run->months_to_dry);
    return bw_phrase(page,
                     run->left > wetting
                         ? "never: %s there after 10 years, it keeps getting "
                           "wetter"
                         : "never: %s left after 10 years",
                     bw_amount(page, run->left));
}

const char *bw_wetting_time(bw_page *page, const bw_section_wetting *test,
                            const bw_wetting_result *way)
{
    static const double MOST_OF_IT = 0.9;
    const double months = bw_wetting_test_months(test, way);
    const double followed = bw_wetting_months_followed(way);
    if (months >= 0.0)
        return bw_phrase(page, "dry in %.1f months", months);
    if (way->left >= MOST_OF_IT * test->water)
        return bw_phrase(page,
                         "%.2f kg still there after %.0f months: it does not "
                         "dry",
                         way->left, followed);
    return bw_phrase(page, "not dry in %.0f months: %.2f kg still there",
                     followed, way->left);
}

const char *bw_plain_id(bw_page *page, const char *id)
{
    const char *text = "";
    if (strcmp(id, "hours-above-95") == 0)
        return "hours above 95 % RH";
    while (*id != '\0') {
        const size_t length = strcspn(id, "-");
        text = bw_phrase(page, "%s%.*s%s", text, (int)length, id,
                         id[length] != '\0' ? " " : "");
        id += length + (id[length] != '\0');
    }
    return text;
}

const char *bw_in_section(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section)
{
    return assessment->section_count > 1
               ? bw_phrase(page, " (%s)",
                           bw_plain_id(page, section->section->name))
               : "";
}

const bw_section_assessment *
bw_worst_section(const bw_assessment *assessment,
                 double (*badness)(const bw_section_assessment *))
{
    const bw_section_assessment *worst = NULL;
    double most = -(double)INFINITY;
    for (size_t i = 0; i < assessment->section_count; i++) {
        const double own = badness(&assessment->section[i]);
        if (own > most) {
            most = own;
            worst = &assessment->section[i];
        }
    }
    return worst;
}

bool bw_holds_water(const bw_plane *plane)
{
    for (int month = 0; month < BW_MONTHS; month++)
        if (plane->month[month].accumulated > 0.0)
            return true;
    return false;
}

const char *bw_wall_name(const bw_assembly *assembly)
{
    return assembly->title[0] != '\0' ? assembly->title : assembly->id;
}

const char *bw_climate_name(const bw_climate *climate)
{
    return climate->place[0] != '\0' ? climate->place : climate->file;
}

const char *bw_with_unit(bw_page *page, double value, int digits,
                         const char *unit)
{
    const bool bare = unit[0] == '\0' || strcmp(unit, "-") == 0;
    return bw_phrase(page, "%.*g%s%s", digits, value, bare ? "" : " ",
                     bare ? "" : unit);
}

void bw_say_changes(bw_page *page, const bw_assembly *assembly)
{
    for (size_t i = 0; i < assembly->edit_note_count; i++)
        bw_hang(page, "%s: %s.", assembly->id, assembly->note[i].message);
}

bool bw_is_simulated(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient)
            return true;
    return false;
}

const char *bw_year_caution(const bw_assessment *assessment)
{
    const bw_section_assessment *ran = assessment->section;
    const bw_section_assessment *end = ran + assessment->section_count;
    while (ran < end && !ran->has_transient)
        ran++;
    if (ran == end)
        return NULL;
    if (ran->transient.synthetic_climate)
        return "Simulated on hours generated from monthly means: not "
               "measured, and no severe year among them.";
    switch (assessment->climate->year_kind) {
    case BW_YEAR_MEASURED:
        return NULL;
    case BW_YEAR_TYPICAL:
        return "Simulated on a typical year, which is not a severe one: ISO "
               "15927-4, by which such years are made, calls them unsuitable "
               "for extremes of moisture [M-med].";
    case BW_YEAR_NOT_STATED:
        break;
    }
    return "Simulated on one year of hours; whether a measured or a typical "
           "one is not stated (kind: in the climate file). A typical year is "
           "not a severe one.";
}
