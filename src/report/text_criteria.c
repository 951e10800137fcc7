/* The criteria one by one, and the limits of the method behind them. */

#include <string.h>

#include "grid.h"
#include "names.h"
#include "parts.h"

static const bw_grid_column columns[] = {
    {.title = "Criterion", .wraps = true}, {.title = "Method"},
    {.title = "Value", .right = true},     {.title = "Limit", .right = true},
    {.title = "Margin", .right = true},    {.title = "Unit"},
    {.title = "Verdict", .wraps = true},   {.title = "Rule"},
};

/* Where a row neither decides nor warns, its figure says enough; the reason
 * stands in verdict.csv. */
static bool wants_reason(const bw_criterion *criterion)
{
    return criterion->decides || !criterion->has_limit ||
           criterion->outcome == BW_FAILS || criterion->outcome == BW_MARGINAL;
}

static void add_criterion(bw_page *page, bw_grid *grid,
                          const bw_criterion *criterion)
{
    const char **cell = bw_grid_add(grid);
    cell[0] = criterion->title;
    cell[1] = criterion->method;
    cell[2] = criterion->has_value
                  ? bw_shown_value(page, criterion->value, criterion->unit)
                  : "-";
    cell[3] = criterion->has_limit
                  ? bw_shown_value(page, criterion->limit, criterion->unit)
                  : "-";
    cell[4] = criterion->has_value && criterion->has_limit
                  ? bw_shown_value(page, criterion->margin, criterion->unit)
                  : "-";
    cell[5] = bw_shown_unit(criterion->unit);
    cell[6] = bw_criterion_verdict(page, criterion);
    if (criterion->rule[0] != '\0')
        cell[7] = bw_page_cite(page, criterion->rule);
    if (criterion->reason[0] != '\0' && wants_reason(criterion))
        bw_grid_note(grid, criterion->reason);
}

typedef enum block {
    DECIDES,
    BESIDE, /* the months and the period beside a simulation */
    SHOWN_ONLY,
} block;

static const bw_section_assessment *section_of(const bw_assessment *assessment,
                                               const bw_criterion *criterion)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (strcmp(assessment->section[i].section->name, criterion->section) ==
            0)
            return &assessment->section[i];
    return NULL;
}

static bool by_months(const bw_criterion *criterion)
{
    return strcmp(criterion->method, "monthly") == 0 ||
           strcmp(criterion->method, "period") == 0;
}

static block block_of(const bw_assessment *assessment,
                      const bw_criterion *criterion)
{
    const bw_section_assessment *part = section_of(assessment, criterion);
    if (criterion->decides && !criterion->cross_check)
        return DECIDES;
    return part != NULL && part->has_transient && by_months(criterion)
               ? BESIDE
               : SHOWN_ONLY;
}

/* Prints those of a section's rows that are of a block. */
static void print_rows(bw_page *page, const bw_assessment *assessment,
                       const bw_criterion *criterion, size_t count,
                       block wanted, const char *heading)
{
    bw_grid grid;
    size_t shown = 0;
    bw_grid_start(&grid, page, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < count; i++)
        if (block_of(assessment, &criterion[i]) == wanted) {
            add_criterion(page, &grid, &criterion[i]);
            shown++;
        }
    if (shown == 0)
        return;
    bw_page_subheading(page, heading);
    bw_grid_print(&grid);
}

/* How many criteria follow each other on one section. */
static size_t of_section(const bw_criterion *criterion, size_t left)
{
    size_t count = 1;
    while (count < left &&
           strcmp(criterion[count].section, criterion[0].section) == 0)
        count++;
    return count;
}

void bw_print_criteria(bw_page *page, const bw_assessment *assessment)
{
    bool screening = false;
    bw_page_heading(page, "Criteria");
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        screening = screening ||
                    (c->screening && block_of(assessment, c) != BESIDE);
    }
    bw_page_text(page, 2, 2,
                 "A margin above 0 lies on the safe side. \"marginal\" holds "
                 "by less than the stated margin.");
    if (assessment->profile != NULL &&
        strcmp(assessment->profile, "default") != 0)
        bw_page_text(page, 2, 2,
                     bw_phrase(page,
                               "Rule set %s: its rules are added to the "
                               "default criteria.",
                               assessment->profile));
    if (screening)
        bw_page_text(page, 2, 2,
                     "(screening), (would hold), (would fail): the method is "
                     "outside its limits for this wall; the figure shows a "
                     "tendency and proves nothing.");
    for (size_t i = 0, count; i < assessment->criterion_count; i += count) {
        const bw_criterion *c = &assessment->criterion[i];
        count = of_section(c, assessment->criterion_count - i);
        print_rows(page, assessment, c, count, DECIDES,
                   bw_phrase(page, "Section %s: what decides", c->section));
        print_rows(page, assessment, c, count, SHOWN_ONLY,
                   bw_phrase(page, "Section %s: shown only, does not decide",
                             c->section));
    }
}

void bw_print_cross_check(bw_page *page, const bw_assessment *assessment)
{
    bool any = false;
    for (size_t i = 0; i < assessment->criterion_count; i++)
        any = any || block_of(assessment, &assessment->criterion[i]) == BESIDE;
    if (!any)
        return;
    bw_page_heading(page, "Cross-check by months and by block climate");
    bw_page_text(page, 2, 2,
                 "The standards' steady methods beside the simulation, which "
                 "decides. Within the limits of its method (cross-check) a "
                 "figure that fails makes the wall marginal; beyond them "
                 "(would hold, would fail) it is shown and decides nothing.");
    for (size_t i = 0, count; i < assessment->criterion_count; i += count) {
        const bw_criterion *c = &assessment->criterion[i];
        count = of_section(c, assessment->criterion_count - i);
        print_rows(page, assessment, c, count, BESIDE,
                   bw_phrase(page, "Section %s: cross-check", c->section));
    }
}

void bw_print_scope(bw_page *page, const bw_assessment *assessment)
{
    bw_page_heading(page, "What the monthly method cannot see");
    if (assessment->scope_count == 0) {
        bw_page_text(page, 2, 2,
                     "Nothing in the file puts this wall beyond the method. "
                     "It still knows no rain, no liquid water moving in the "
                     "layers, no storage of vapour, no day and night.");
        return;
    }
    bw_page_text(page, 2, 2,
                 "The monthly results are a screening, because of:");
    for (size_t i = 0; i < assessment->scope_count; i++) {
        const bw_scope_item *item = &assessment->scope[i];
        bw_page_item(page, bw_phrase(page, "%s. Not seen: %s", item->what,
                                     item->unseen));
    }
}
