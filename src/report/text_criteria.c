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
    if (criterion->reason[0] != '\0')
        bw_grid_note(grid, criterion->reason);
}

/* Prints the criteria that follow each other on one section; returns how
 * many. */
static size_t print_section(bw_page *page, const bw_criterion *criterion,
                            size_t left)
{
    const char *section = criterion[0].section;
    size_t count = 0;
    bw_grid grid;
    bw_grid_start(&grid, page, columns, sizeof columns / sizeof columns[0]);
    while (count < left && strcmp(criterion[count].section, section) == 0)
        add_criterion(page, &grid, &criterion[count++]);
    bw_page_subheading(page, bw_phrase(page, "Section %s", section));
    bw_grid_print(&grid);
    return count;
}

void bw_print_criteria(bw_page *page, const bw_assessment *assessment)
{
    bool screening = false, shown = false;
    bw_page_heading(page, "Criteria");
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        screening = screening || c->screening;
        shown = shown || (!c->decides && !c->screening);
    }
    bw_page_text(page, 2, 2,
                 "A margin above 0 lies on the safe side. \"marginal\" holds "
                 "by less than the stated margin.");
    if (screening)
        bw_page_text(page, 2, 2,
                     "(screening): the method is outside its limits for this "
                     "wall; the figure shows a tendency and proves nothing.");
    if (shown)
        bw_page_text(page, 2, 2,
                     "(shown only): does not count for the verdict.");
    for (size_t i = 0; i < assessment->criterion_count;)
        i += print_section(page, &assessment->criterion[i],
                           assessment->criterion_count - i);
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
