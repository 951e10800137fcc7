/* The comparison on paper: first what is held equal, then one table with a
 * column a wall, then the sentences. */

#include <math.h>
#include <string.h>

#include "bothways/compare.h"
#include "grid.h"
#include "names.h"
#include "parts.h"
#include "study_parts.h"

enum { DEFAULT_WIDTH = 100, NARROWEST = 60, WIDEST = 200 };
enum { WORDS = 3 }; /* columns before those of the walls */

/* ---- what is held equal ------------------------------------------------ */

static void print_rescaled(bw_page *page, const bw_compared *wall)
{
    const char *framing = wall->rescaled_framing
                              ? ", its framing as deep as itself"
                              : "";
    bw_page_text(
        page, 2, 4,
        bw_phrase(page, "%s: %s (%s) made %s mm instead of %s mm thick%s.",
                  wall->label, wall->rescaled_id, wall->rescaled_layer,
                  bw_fixed(page, 1e3 * wall->thickness_after, 1),
                  bw_fixed(page, 1e3 * wall->thickness_before, 1), framing));
}

static const char *equal_text(bw_page *page, const bw_comparison *c)
{
    const bw_compared *first = &c->wall[0];
    switch (c->equal) {
    case BW_EQUAL_U:
        return bw_phrase(page,
                         "Held equal: the U-value of %s, %s W/(m2.K), by the "
                         "thickness of one layer of each other wall.",
                         first->label, bw_fixed(page, first->transmittance, 3));
    case BW_EQUAL_THICKNESS:
        return bw_phrase(page,
                         "Held equal: the total thickness of %s, %s mm, by the "
                         "thickness of one layer of each other wall.",
                         first->label,
                         bw_fixed(page, 1e3 * first->total_thickness, 1));
    case BW_EQUAL_AS_DRAWN:
        break;
    }
    return "Held equal: nothing in the build-ups; the walls are as drawn.";
}

static const char *why_not(const bw_comparison *c)
{
    const bw_assessment *first = c->wall[0].assessment;
    const char *reason = first->section_count > 0
                             ? first->section[0].transient_reason
                             : NULL;
    return reason != NULL && reason[0] != '\0' ? reason : "none was asked for";
}

static void print_method(bw_page *page, const bw_comparison *c)
{
    if (c->simulated)
        bw_page_text(page, 0, 2,
                     "Judged by one method: every wall was simulated hour by "
                     "hour (EN 15026); the months are a cross-check.");
    else if (c->by_months_reason != NULL)
        bw_page_text(
            page, 0, 2,
            bw_phrase(page,
                      "%s. So that one method judges all, none is: they are "
                      "compared by months (ISO 13788), a screening by which a "
                      "wall may fail and none holds.",
                      c->by_months_reason));
    else
        bw_page_text(
            page, 0, 2,
            bw_phrase(page,
                      "Compared by months alone (ISO 13788); no wall was "
                      "simulated (%s: %s).",
                      c->wall[0].label, why_not(c)));
}

void bw_print_compare_equal(bw_page *page, const bw_comparison *c)
{
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 bw_phrase(page, "%zu walls side by side", c->wall_count));
    bw_page_bold(page, false);
    bw_page_text(page, 0, 2, equal_text(page, c));
    for (size_t i = 0; i < c->wall_count; i++)
        if (c->wall[i].rescaled)
            print_rescaled(page, &c->wall[i]);
    print_method(page, c);
    const bw_climate *climate = c->wall[0].assessment->climate;
    if (!c->climates_differ)
        bw_page_text(page, 0, 2,
                     bw_phrase(page, "The same climate for all: %s.",
                               climate->place[0] != '\0' ? climate->place
                                                         : climate->file));
    if (!c->indoors_differ)
        bw_page_text(page, 0, 2, "The same room for all.");
    if (c->difference_count > 0)
        bw_page_text(page, 0, 2, "Not the same for all:");
    for (size_t i = 0; i < c->difference_count; i++)
        bw_page_text(page, 2, 4, c->difference[i]);
    bw_page_blank(page);
    for (size_t i = 0; i < c->wall_count; i++)
        bw_page_text(page, 2, 4,
                     bw_phrase(page, "%s: %s (%s)", c->wall[i].label,
                               c->wall[i].title[0] != '\0' ? c->wall[i].title
                                                           : "without title",
                               c->wall[i].assessment->assembly->file));
    for (size_t i = 0; i < c->wall_count; i++)
        bw_print_changes(page, c->wall[i].assessment->assembly);
}

/* ---- the table --------------------------------------------------------- */

static bool is_length(const char *unit)
{
    return strcmp(unit, "m") == 0;
}

static const char *row_unit(const char *unit)
{
    if (is_length(unit))
        return "mm";
    return strcmp(unit, "-") == 0 ? "" : bw_shown_unit(unit);
}

static const char *value_text(bw_page *page, const char *unit, double value)
{
    if (is_length(unit))
        return bw_fixed(page, 1e3 * value, 1);
    if (strcmp(unit, "months") == 0)
        return bw_fixed(page, value, 1);
    return bw_shown_value(page, value, unit);
}

/* Does it decide for any of the walls? */
static bool decides(const bw_compare_row *row, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (row->criterion[i] != NULL && row->criterion[i]->decides)
            return true;
    return false;
}

static const char *row_title(bw_page *page, const bw_compare_row *row,
                             size_t count)
{
    if (!row->is_criterion || decides(row, count))
        return row->title;
    return bw_phrase(page, "%s (shown only)", row->title);
}

/* The verdict first, as in the check; then the figure behind it. */
static const char *cell_text(bw_page *page, const bw_comparison *all,
                             const bw_compare_row *row, size_t wall)
{
    const size_t count = all->wall_count;
    const char *value = row->has_value[wall]
                            ? value_text(page, row->unit, row->value[wall])
                            : row->instead[wall];
    if (!row->is_criterion)
        return value;
    const bw_criterion *c = row->criterion[wall];
    if (c == NULL)
        return value;
    const char *word = bw_criterion_verdict(page, c);
    if (all->by_months_reason != NULL && row->by_months && !c->screening)
        word = bw_phrase(page, "%s (screening)", word);
    if (!c->decides && decides(row, count))
        word = bw_phrase(page, "%s, shown only", word);
    return value[0] != '\0' ? bw_phrase(page, "%s: %s", word, value) : word;
}

/* The limit where all walls share it, "" where there is none, "*" where each
 * has its own. */
static const char *limit_text(bw_page *page, const bw_compare_row *row,
                              size_t count)
{
    const bw_criterion *first = NULL;
    if (!row->is_criterion)
        return "";
    for (size_t i = 0; i < count; i++) {
        const bw_criterion *c = row->criterion[i];
        if (c == NULL || !c->has_limit)
            continue;
        if (first != NULL && fabs(first->limit - c->limit) > 0.0)
            return "*";
        first = c;
    }
    return first != NULL ? bw_shown_value(page, first->limit, row->unit) : "";
}

/* Which section each figure is from, where a wall has more than one. */
static bool has_sections(const bw_comparison *c)
{
    for (size_t i = 0; i < c->wall_count; i++)
        if (c->wall[i].assessment->section_count > 1)
            return true;
    return false;
}

/* Some of the walls, side by side in one table. */
typedef struct table {
    const bw_comparison *c;
    bool by_months;
    size_t from, to; /* walls [from, to) */
    bw_grid_column column[WORDS + BW_COMPARE_MOST];
    bw_grid grid;
} table;

static void add_rows(bw_page *page, table *t, bool criteria)
{
    const bw_comparison *c = t->c;
    for (size_t k = 0; k < c->row_count; k++) {
        const bw_compare_row *row = &c->row[k];
        if (row->is_criterion != criteria || row->by_months != t->by_months)
            continue;
        const char **cell = bw_grid_add(&t->grid);
        cell[0] = row_title(page, row, c->wall_count);
        cell[1] = row_unit(row->unit);
        cell[2] = limit_text(page, row, c->wall_count);
        for (size_t i = t->from; i < t->to; i++)
            cell[WORDS + i - t->from] = cell_text(page, c, row, i);
    }
}

/* What the months alone say of a wall, where they may not say it. */
static const char *verdict_text(bw_page *page, const bw_compared *wall)
{
    const bw_verdict alone = wall->assessment->verdict;
    return wall->verdict == alone
               ? bw_verdict_text(alone)
               : bw_phrase(page, "%s (screening: %s by months)",
                           bw_verdict_text(wall->verdict),
                           bw_verdict_text(alone));
}

static void add_verdicts(bw_page *page, table *t)
{
    const char **cell = bw_grid_add(&t->grid);
    cell[0] = "Verdict of all that decides";
    for (size_t i = t->from; i < t->to; i++)
        cell[WORDS + i - t->from] = verdict_text(page, &t->c->wall[i]);
}

static void fill_table(bw_page *page, table *t, size_t from, size_t to)
{
    static const bw_grid_column words[WORDS] = {
        {"What", false, true}, {"Unit", false, false}, {"Limit", true, false}};
    t->from = from;
    t->to = to;
    memcpy(t->column, words, sizeof words);
    for (size_t i = from; i < to; i++)
        t->column[WORDS + i - from] = (bw_grid_column){t->c->wall[i].label,
                                                       false, true};
    bw_grid_start(&t->grid, page, t->column, WORDS + to - from);
    if (!t->by_months)
        add_verdicts(page, t);
    add_rows(page, t, false);
    add_rows(page, t, true);
}

/* As many walls side by side as the page is wide; the others below. */
static void print_tables(bw_page *page, const bw_comparison *c, bool by_months)
{
    table t = {.c = c, .by_months = by_months};
    for (size_t from = 0; from < c->wall_count; from = t.to) {
        size_t to = c->wall_count;
        fill_table(page, &t, from, to);
        while (page->form == NULL && to > from + 1 &&
               bw_grid_least(&t.grid) > (size_t)page->width)
            fill_table(page, &t, from, --to);
        if (from > 0)
            bw_page_blank(page);
        bw_grid_print(&t.grid);
    }
}

static bool has_own_limits(bw_page *page, const bw_comparison *c)
{
    for (size_t k = 0; k < c->row_count; k++)
        if (strcmp(limit_text(page, &c->row[k], c->wall_count), "*") == 0)
            return true;
    return false;
}

/* Of what year the verdicts below are; each once. */
static void print_year(bw_page *page, const bw_comparison *c)
{
    for (size_t i = 0; i < c->wall_count; i++) {
        const char *year = bw_year_caution(c->wall[i].assessment);
        bool said = year == NULL;
        for (size_t k = 0; k < i && !said; k++) {
            const char *before = bw_year_caution(c->wall[k].assessment);
            said = before != NULL && strcmp(before, year) == 0;
        }
        if (!said)
            bw_page_text(page, 2, 2, year);
    }
}

void bw_print_compare_table(bw_page *page, const bw_comparison *c)
{
    bw_page_heading(page, "Key numbers and criteria");
    print_year(page, c);
    print_tables(page, c, false);
    bw_page_subheading(page, c->simulated
                                 ? "By months (Glaser, ISO 13788): cross-check"
                                 : "By months (Glaser, ISO 13788)");
    print_tables(page, c, true);
    bw_page_blank(page);
    if (has_own_limits(page, c))
        bw_page_text(page, 2, 2, "*: each wall has a limit of its own.");
    if (has_sections(c))
        bw_page_text(page, 2, 2,
                     "Each figure is that of the wall's worst section "
                     "(between the studs or through one).");
    bw_page_text(page, 2, 2,
                 "screening: the monthly method is beyond its limits for this "
                 "wall, or stands for a simulation. cross-check: within them, "
                 "beside a simulation. shown only: it does not decide.");
}

void bw_print_compare_sentences(bw_page *page, const bw_comparison *c)
{
    bw_page_heading(page, "What the numbers show");
    for (size_t i = 0; i < c->sentence_count; i++)
        bw_page_text(page, 2, 2, c->sentence[i]);
}

static void print_all(bw_page *page, const bw_comparison *c, bool quiet)
{
    bw_print_compare_equal(page, c);
    if (!quiet)
        bw_print_compare_table(page, c);
    bw_print_compare_sentences(page, c);
    if (!quiet)
        bw_print_cautions(page);
}

bw_status bw_report_compare_text(const bw_comparison *comparison,
                                 const bw_report_options *options,
                                 bw_sink *sink, void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    int width = given.width == 0 ? DEFAULT_WIDTH : given.width;
    width = width < NARROWEST ? NARROWEST : width > WIDEST ? WIDEST : width;
    bw_page page = {.width = width, .colour = given.colour};
    bw_writer_start(&page.out, sink, payload);
    print_all(&page, comparison, given.quiet);
    return bw_page_finish(&page, "the comparison", err);
}
