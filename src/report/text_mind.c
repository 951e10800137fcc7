/* What stands beside the verdict because it moves it: the year that was
 * simulated, warnings about the file, and what was assumed for want of better.
 * The parts further down say it with its place. */

#include <string.h>

#include "parts.h"

enum { MOST = 64 };

typedef struct list {
    const char *text[MOST];
    size_t count;
} list;

/* Each once: the sections of a wall say much the same. */
static void add(list *to, const char *text)
{
    for (size_t i = 0; i < to->count; i++)
        if (strcmp(to->text[i], text) == 0)
            return;
    if (to->count < MOST)
        to->text[to->count++] = text;
}

static void add_warnings(list *to, const bw_note *note, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (note[i].kind == BW_NOTE_WARNING)
            add(to, note[i].message);
}

static void add_simulation(list *to, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        for (size_t k = 0;
             part->has_transient && k < part->transient.note_count; k++)
            add(to, part->transient.note[k]);
    }
}

void bw_print_mind(bw_page *page, const bw_assessment *assessment,
                   const bw_report_options *options)
{
    list all = {.count = 0};
    const bw_assembly *assembly = assessment->assembly;
    add_warnings(&all, assembly->note, assembly->note_count);
    add_warnings(&all, assessment->climate->note,
                 assessment->climate->note_count);
    add_warnings(&all, options->note, options->note_count);
    add_simulation(&all, assessment);
    if (!assembly->air_leakage.given)
        add(&all, "no air leakage given: none is counted, and most moisture "
                  "damage begins with it");
    if (all.count == 0)
        return;
    bw_page_blank(page);
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2, "Beside the verdict: warnings and assumptions");
    bw_page_bold(page, false);
    for (size_t i = 0; i < all.count; i++)
        bw_page_item(page, all.text[i]);
}

void bw_print_changes(bw_page *page, const bw_assembly *assembly)
{
    for (size_t i = 0; i < assembly->edit_note_count; i++)
        bw_page_text(page, 2, 4,
                     bw_phrase(page, "%s: %s.", assembly->id,
                               assembly->note[i].message));
}

static bool simulated(const bw_assessment *assessment, bool *synthetic)
{
    *synthetic = false;
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient) {
            *synthetic = assessment->section[i].transient.synthetic_climate;
            return true;
        }
    return false;
}

const char *bw_year_caution(const bw_assessment *assessment)
{
    bool synthetic;
    if (!simulated(assessment, &synthetic))
        return NULL;
    if (synthetic)
        return "Simulated on hours generated from monthly means: nobody "
               "measured them, and a severe year is not among them.";
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
           "one "
           "is not stated (kind: in the climate file). A typical year is not a "
           "severe one.";
}
