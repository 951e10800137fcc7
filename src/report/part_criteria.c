/* The criteria one by one, and the limits of the method behind them. */

#include <string.h>

#include "grid.h"
#include "names.h"
#include "part.h"

/* Where a row neither decides nor warns, its figure says enough; the reason
 * stands in verdict.csv. */
static bool wants_reason(const bw_criterion *criterion)
{
    return criterion->decides || !criterion->has_limit ||
           criterion->outcome == BW_FAILS || criterion->outcome == BW_MARGINAL;
}

static void add_criterion(bw_page *page, bw_grid *g, const bw_criterion *c)
{
    const bool margin = c->has_value && c->has_limit;
    bw_grid_row_start(g);
    bw_words(g, "Criterion", c->title);
    bw_name(g, "Method", c->method);
    bw_number(g, "Value", "%s%s", c->never ? ">" : "",
              bw_shown_value(page, bw_if(c->has_value, c->value), c->unit));
    bw_number(g, "Limit", "%s",
              bw_shown_value(page, bw_if(c->has_limit, c->limit), c->unit));
    bw_number(g, "Margin", "%s",
              bw_shown_value(page, bw_if(margin, c->margin), c->unit));
    bw_name(g, "Unit", bw_shown_unit(c->unit));
    bw_words(g, "Verdict", bw_criterion_verdict(page, c));
    bw_name(g, "Rule", c->rule[0] != '\0' ? bw_page_cite(page, c->rule) : "");
    bw_remark(g, "%s", wants_reason(c) ? c->reason : "");
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

/* Of the rows that follow each other on one section those of a block; returns
 * where those of the next begin. */
static size_t put_rows(bw_page *page, const bw_assessment *assessment,
                       size_t first, block wanted, const char *what)
{
    const bw_criterion *c = &assessment->criterion[first];
    size_t i = first;
    bw_grid grid = {.page = page};
    for (; i < assessment->criterion_count &&
           strcmp(assessment->criterion[i].section, c->section) == 0;
         i++)
        if (block_of(assessment, &assessment->criterion[i]) == wanted)
            add_criterion(page, &grid, &assessment->criterion[i]);
    if (grid.first != NULL)
        bw_subheading(page, "Section %s: %s", c->section, what);
    bw_grid_print(&grid);
    return i;
}

BW_PART(criteria, "Criteria")
{
    const bw_assessment *assessment = of->wall[0];
    const char *profile = assessment->profile;
    bool screening = false;
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        screening = screening ||
                    (c->screening && block_of(assessment, c) != BESIDE);
    }
    bw_text(page, "A margin above 0 is to spare. \"marginal\" holds "
                  "by less than the stated margin.");
    if (profile != NULL && strcmp(profile, "default") != 0)
        bw_text(page,
                "Rule set %s: its rules are added to the default criteria.",
                profile);
    if (screening)
        bw_text(
            page,
            "(screening), (would hold), (would fail): the method is outside "
            "its limits for this wall; the figure shows a tendency and "
            "proves nothing.");
    for (size_t i = 0, next; i < assessment->criterion_count; i = next) {
        put_rows(page, assessment, i, DECIDES, "what decides");
        next = put_rows(page, assessment, i, SHOWN_ONLY,
                        "shown only, does not decide");
    }
}

/* ---- beside a simulation ------------------------------------------------ */

static bool has_beside(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->criterion_count; i++)
        if (block_of(assessment, &assessment->criterion[i]) == BESIDE)
            return true;
    return false;
}

BW_PART(cross_check, "Cross-check by months and by block climate")
{
    const bw_assessment *assessment = of->wall[0];
    if (!has_beside(assessment))
        return;
    bw_text(
        page,
        "The standards' steady methods beside the simulation, which "
        "decides. Within the limits of its method (cross-check) a figure "
        "that fails makes the wall marginal; beyond them (would hold, would "
        "fail) it is shown and decides nothing.");
    for (size_t i = 0; i < assessment->criterion_count;)
        i = put_rows(page, assessment, i, BESIDE, "cross-check");
}

/* ---- the limits of the method ------------------------------------------- */

BW_PART(scope, "What the monthly method cannot see")
{
    const bw_assessment *assessment = of->wall[0];
    bw_text(page, "%s",
            assessment->scope_count > 0
                ? "The monthly results are a screening, because of:"
                : "Nothing in the file puts this wall beyond the method. It "
                  "still knows no rain, no liquid water moving in the layers, "
                  "no storage of vapour, no day and night.");
    for (size_t i = 0; i < assessment->scope_count; i++)
        bw_item(page, "%s. Not seen: %s", assessment->scope[i].what,
                assessment->scope[i].unseen);
}
