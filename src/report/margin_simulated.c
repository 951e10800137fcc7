/* What a margin simulated: the wall as drawn and the cases that tell most, each
 * with the figure that decides, and how damp the room may be. */

#include <math.h>
#include <string.h>

#include "bothways/margin.h"
#include "grid.h"
#include "names.h"
#include "study_parts.h"

static bool good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

static size_t turned(const bw_margin *m, const bw_simulated **first)
{
    size_t count = 0;
    *first = NULL;
    for (size_t i = 1; i < m->simulated_count; i++) {
        const bw_simulated *s = &m->simulated[i];
        if (!s->simulated || s->unknown[0] == '\0' ||
            good(s->verdict) == good(m->as_drawn))
            continue;
        if (*first == NULL)
            *first = s;
        count++;
    }
    return count;
}

void bw_print_margin_simulated_answer(bw_page *page, const bw_margin *m)
{
    const bw_simulated *first;
    bw_page_text(page, 2, 2, m->assessment->verdict_reason);
    size_t count = turned(m, &first), cases = m->simulated_count - 1;
    const char *plural = cases == 1 ? "" : "s";
    bw_page_text(
        page, 2, 2,
        count == 0 ? bw_phrase(page,
                               "Of %zu case%s simulated none turns that "
                               "verdict.",
                               cases, plural)
                   : bw_phrase(page,
                               "Of %zu case%s simulated %zu turn%s that "
                               "verdict, the first: %s: %s (%s).",
                               cases, plural, count, count == 1 ? "s" : "",
                               first->setting, bw_verdict_text(first->verdict),
                               bw_figure_words(page, &first->figure)));
}

/* ---- how damp the room may be ---------------------------------------------
 */

static const char *level(bw_page *page, const bw_damp_limit *d, int at)
{
    if (d->by_class)
        return bw_phrase(page, "humidity class %d", at);
    return bw_phrase(page, "%d %% RH at %s degC", at,
                     bw_fixed(page, d->temperature, 0));
}

static const char *word(const bw_damp_limit *d, bw_verdict verdict)
{
    if (verdict == BW_NOT_ASSESSED)
        return "not assessed";
    if (d->simulated)
        return bw_verdict_text(verdict);
    return verdict == BW_FAILS      ? "would fail"
           : verdict == BW_MARGINAL ? "would hold, marginally"
                                    : "would hold";
}

void bw_print_margin_damp(bw_page *page, const bw_margin *m)
{
    const bw_damp_limit *d = &m->damp;
    if (d->most <= d->least)
        return;
    const char *by = d->simulated ? "" : ", screened by months";
    const char *room = d->replaced ? " (in place of the room of the file)" : "";
    if (d->holds < d->least) {
        bw_page_text(page, 2, 2,
                     bw_phrase(page,
                               "Indoor humidity%s%s: not even at %s (%s: %s).",
                               room, by, level(page, d, d->least),
                               word(d, d->verdict_beyond),
                               bw_figure_words(page, &d->figure)));
        return;
    }
    const char *beyond = "";
    if (d->beyond <= d->most)
        beyond = bw_phrase(page, "; at %s: %s (%s)", level(page, d, d->beyond),
                           word(d, d->verdict_beyond),
                           bw_figure_words(page, &d->figure));
    bw_page_text(
        page, 2, 2,
        bw_phrase(page, "Dampest room%s%s: %s (%s)%s.", room, by,
                  level(page, d, d->holds), word(d, d->verdict),
                  d->beyond > d->most ? ", the most that was tried" : beyond));
}

/* ---- the list --------------------------------------------------------------
 */

static const bw_grid_column columns[] = {
    {.title = "Case", .wraps = true},     {.title = "Wall", .wraps = true},
    {.title = "Decides", .wraps = true},  {.title = "Value", .right = true},
    {.title = "Limit", .right = true},    {.title = "Unit"},
    {.title = "Margin %", .right = true}, {.title = "First %", .right = true},
};

static const char *number(bw_page *page, double value)
{
    return isnan(value) ? "-" : bw_significant(page, value, 3);
}

static const char *percent(bw_page *page, double margin)
{
    return isnan(margin) ? "-" : bw_fixed(page, 100.0 * margin, 0);
}

static void add_case(bw_page *page, bw_grid *grid, const bw_simulated *s)
{
    const char **cell = bw_grid_add(grid);
    const bw_figure *f = &s->figure;
    cell[0] = s->setting;
    cell[1] = s->simulated ? bw_verdict_text(s->verdict) : "not simulated";
    cell[2] = s->simulated && f->criterion[0] != '\0' ? f->criterion : "-";
    cell[3] = s->simulated ? number(page, f->value) : "-";
    cell[4] = s->simulated ? number(page, f->limit) : "-";
    cell[5] = s->simulated ? f->unit : "";
    cell[6] = s->simulated ? percent(page, f->margin) : "-";
    cell[7] = s->simulated ? percent(page, s->margin_as_drawn) : "-";
}

void bw_print_margin_simulated(bw_page *page, const bw_margin *m)
{
    if (m->simulated_count == 0)
        return;
    bw_page_heading(page, "The wall as drawn and the most telling cases: "
                          "simulated");
    bw_grid grid;
    bw_grid_start(&grid, page, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < m->simulated_count; i++)
        add_case(page, &grid, &m->simulated[i]);
    bw_grid_print(&grid);
    bw_page_text(
        page, 2, 2,
        bw_phrase(page,
                  "Decides: of the criteria that give the case its "
                  "verdict the one with the least margin, as a share "
                  "of its limit. First %%: the margin of the criterion "
                  "that decides as drawn. Chosen: in turn what moves the "
                  "steady methods most and what they cannot see; %zu "
                  "more unknowns were not simulated.",
                  m->not_simulated));
    bw_page_text(page, 2, 2,
                 "Not varied: the climate and its year, the indoor "
                 "temperature, dimensions that the file is sure of, mould "
                 "classes, air that washes through insulation, joints and "
                 "corners.");
}
