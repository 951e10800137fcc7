/* What stands beside the verdict because it moves it: the year that was
 * simulated, warnings about the file, and what was assumed for want of better.
 * The parts further down say it with its place. */

#include <string.h>

#include "bothways/compare.h"
#include "compared.h"
#include "part.h"

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

/* Warnings and cautions are the least; a screen holds what fits. */
static size_t how_many(const bw_page *page, const list *all, size_t warnings)
{
    if (page->options->extent == BW_EXTENT_LEAST)
        return warnings;
    if (page->options->extent != BW_EXTENT_SCREEN)
        return all->count;
    if (bw_is_tight(page))
        return warnings > 0;
    const size_t room = page->cut < BW_ITEMS ? BW_ITEMS - page->cut : 1;
    return room < all->count ? room : all->count;
}

/* How many of them are warnings. */
static size_t gather(list *all, const bw_page *page,
                     const bw_assessment *assessment)
{
    const bw_assembly *assembly = assessment->assembly;
    const bw_report_options *options = page->options;
    add_warnings(all, assembly->note, assembly->note_count);
    add_warnings(all, assessment->climate->note,
                 assessment->climate->note_count);
    add_warnings(all, options->note, options->note_count);
    const size_t warnings = all->count;
    if (!assembly->air_leakage.given)
        add(all, "no air leakage given: none is counted, and most moisture "
                 "damage begins with it");
    add_simulation(all, assessment);
    return warnings;
}

static void put(bw_page *page, const list *all, size_t warnings, const char *of)
{
    const bw_report_options *options = page->options;
    const size_t shown = how_many(page, all, warnings);
    if (all->count == 0 || (shown == 0 && options->extent == BW_EXTENT_LEAST))
        return;
    bw_lead(page, "Beside the verdict%s: warnings and assumptions%s", of,
            shown < all->count && options->extent == BW_EXTENT_SCREEN
                ? bw_phrase(page, " (%zu%s with --full)", all->count - shown,
                            shown > 0 ? " more" : "")
                : "");
    for (size_t i = 0; i < shown; i++)
        bw_item(page, "%s%s", i < warnings ? "Warning: " : "", all->text[i]);
}

BW_PART(mind, NULL)
{
    list all = {.count = 0};
    const size_t warnings = gather(&all, page, of->wall[0]);
    put(page, &all, warnings, "");
}

static bool holds(const list *in, const char *text)
{
    for (size_t i = 0; i < in->count; i++)
        if (strcmp(in->text[i], text) == 0)
            return true;
    return false;
}

/* Warnings of all walls first; what is true of one only says of which. */
BW_PART(compare_mind, NULL)
{
    const bw_comparison *c = of->comparison;
    list all = {.count = 0}, own[BW_COMPARE_MOST] = {{.count = 0}};
    size_t first[BW_COMPARE_MOST], warnings = 0;
    for (size_t i = 0; i < c->wall_count; i++)
        first[i] = gather(&own[i], page, c->wall[i].assessment);
    for (size_t k = 0; k < 2 * c->wall_count; k++) {
        const size_t i = k % c->wall_count;
        const bool mild = k >= c->wall_count;
        for (size_t n = mild ? first[i] : 0;
             n < (mild ? own[i].count : first[i]); n++) {
            const char *text = own[i].text[n];
            bool shared = true;
            for (size_t o = 0; o < c->wall_count; o++)
                shared = shared && holds(&own[o], text);
            add(&all, shared ? text
                             : bw_phrase(page, "%s: %s",
                                         bw_compared_name(page, c, i), text));
        }
        warnings = mild ? warnings : all.count;
    }
    put(page, &all, warnings, "s");
}
