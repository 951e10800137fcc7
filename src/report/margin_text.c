/* A margin on paper: what flips first, every unknown by rank with its bar,
 * the worst combination, the sd map, the ensemble. */

#include <math.h>
#include <string.h>

#include "bothways/margin.h"
#include "grid.h"
#include "names.h"
#include "parts.h"
#include "study_parts.h"

enum {
    LONG_LIST = 15,
    DEFAULT_WIDTH = 100,
    NARROWEST = 60,
    WIDEST = 200,
    BAR = 21
};

static const char *value_text(bw_page *page, const bw_unknown *u, double value)
{
    const char *number = bw_significant(page, value, 4);
    if (isnan(value) || u->unit[0] == '\0' || strcmp(u->unit, "-") == 0)
        return number;
    return bw_phrase(page, "%s %s", number, u->unit);
}

/* ---- what flips first -------------------------------------------------- */

static void print_head(bw_page *page, const bw_margin *m)
{
    const bw_assembly *assembly = m->assessment->assembly;
    const bw_climate *climate = m->assessment->climate;
    bw_page_bold(page, true);
    bw_page_text(
        page, 0, 2,
        bw_phrase(page, "How much error this wall forgives: %s",
                  assembly->title[0] != '\0' ? assembly->title : assembly->id));
    bw_page_bold(page, false);
    bw_page_text(
        page, 0, 2,
        bw_phrase(page, "%s in %s; climate: %s", assembly->id, assembly->file,
                  climate->place[0] != '\0' ? climate->place : climate->file));
    bw_print_changes(page, assembly);
    bw_page_blank(page);
}

/* The words of a verdict are the simulation's alone: what the steady methods
 * say is what would be. */
static const char *screened(const bw_margin *m, bw_verdict verdict)
{
    if (m->transient)
        return bw_verdict_text(verdict);
    switch (verdict) {
    case BW_HOLDS:
        return "would hold";
    case BW_MARGINAL:
        return "would hold, marginally";
    case BW_FAILS:
        return "would fail";
    case BW_NOT_ASSESSED:
        break;
    }
    return bw_verdict_text(verdict);
}

/* "holds", "is not assessed": what the wall does. */
static const char *does(bw_page *page, const bw_margin *m, bw_verdict verdict)
{
    if (verdict == BW_NOT_ASSESSED)
        return "is not assessed";
    if (verdict == BW_MARGINAL && m->transient)
        return "holds, marginally";
    return bw_phrase(page, "%s", screened(m, verdict));
}

const char *bw_fail_count(bw_page *page, size_t count)
{
    return bw_phrase(page, "%zu criteri%s", count,
                     count == 1 ? "on fails" : "a fail");
}

static const char *way_text(bw_page *page, const bw_unknown *u)
{
    if (u->flip_share >= 1.0 || !u->continuous || isnan(u->as_drawn))
        return "";
    return bw_phrase(page, ", %s %% of its range away",
                     bw_fixed(page, 100.0 * u->flip_share, 0));
}

/* The setting of a switch that flips: "mu of lining wet-cup (4)". */
static const char *setting_words(const bw_unknown *u)
{
    bool high = fabs(u->flip_value - u->high) < fabs(u->flip_value - u->low);
    const char *words = high ? u->high_words : u->low_words;
    return words[0] != '\0' ? words : u->name;
}

/* "at 23.4", "below 1.93 m", "anywhere from 3 m to 30 m" */
static const char *flip_place(bw_page *page, const bw_unknown *u)
{
    if (u->flips_all)
        return bw_phrase(page, "anywhere from %s to %s",
                         value_text(page, u, u->low),
                         value_text(page, u, u->high));
    const char *word = !isnan(u->as_drawn) ? "at"
                       : u->flip_above     ? "above"
                                           : "below";
    return bw_phrase(page, "%s %s", word, value_text(page, u, u->flip_value));
}

/* "at mu of sheathing 23.4 (as drawn 5)", "with sd of foil below 1.93 m" */
static const char *place_text(bw_page *page, const bw_unknown *u)
{
    if (!u->continuous)
        return bw_phrase(page, "with \"%s\"", setting_words(u));
    if (isnan(u->as_drawn))
        return bw_phrase(page, "with %s %s", u->name, flip_place(page, u));
    return bw_phrase(page, "at %s %s (as drawn %s)", u->name,
                     value_text(page, u, u->flip_value),
                     value_text(page, u, u->as_drawn));
}

static size_t unseen_count(const bw_margin *m)
{
    size_t count = 0;
    for (size_t i = 0; i < m->unknown_count; i++)
        count += !m->unknown[i].seen;
    return count;
}

static void print_first(bw_page *page, const bw_margin *m)
{
    const char *where = m->simulated_count > 0 ? " in the screening" : "";
    if (m->first >= m->unknown_count) {
        size_t unseen = unseen_count(m);
        bw_page_text(page, 2, 2,
                     bw_phrase(page,
                               "What flips first%s: nothing%s. No single "
                               "unknown%s, over the whole of its range, makes "
                               "a criterion fail or stop failing.",
                               where, unseen > 0 ? " that was computed" : "",
                               unseen > 0 ? bw_phrase(page,
                                                      " but the %zu that the "
                                                      "methods run do not see",
                                                      unseen)
                                          : ""));
        return;
    }
    const bw_unknown *u = &m->unknown[m->first];
    const char *verdict = u->flip_changes_verdict
                              ? (u->flip_fails ? ", and with it the wall"
                                               : ", and nothing else fails")
                              : "; the verdict on the wall stays as it is";
    bw_page_text(page, 2, 2,
                 bw_phrase(page, "What flips first%s: %s, %s %s%s%s.", where,
                           place_text(page, u), u->flip_criterion,
                           u->flip_fails ? "fails" : "no longer fails",
                           way_text(page, u), verdict));
}

/* NULL, or why a section of the wall as drawn was not simulated. */
static const char *not_simulated(const bw_margin *m)
{
    for (size_t i = 0; i < m->assessment->section_count; i++)
        if (!m->assessment->section[i].has_transient)
            return m->assessment->section[i].transient_reason;
    return NULL;
}

static const char *basis_text(bw_page *page, const bw_margin *m)
{
    const char *reason = not_simulated(m);
    if (m->simulated_count > 0)
        return bw_phrase(page,
                         "%zu walls were simulated hour by hour, as check does "
                         "it; %zu cases were screened with the steady methods "
                         "(monthly, period, surface) to find which to "
                         "simulate.",
                         m->simulation_count, m->evaluation_count);
    if (!m->transient)
        return "Screened with the steady methods (monthly, period, surface), "
               "without the hourly simulation.";
    if (reason != NULL)
        return bw_phrase(page,
                         "Computed with the steady methods (monthly, period, "
                         "surface), and hour by hour where a case is beyond "
                         "them and can be simulated. The wall as drawn was "
                         "not simulated: %s.",
                         reason);
    return "Computed with the hourly simulation, too.";
}

static void print_basis(bw_page *page, const bw_margin *m)
{
    bw_page_text(page, 2, 2, basis_text(page, m));
    if (!m->screening)
        return;
    size_t count = m->assessment->scope_count;
    const char *what = count > 0 ? m->assessment->scope[0].what : "";
    bw_page_text(
        page, 2, 2,
        bw_phrase(page,
                  "The monthly method is outside its limits for this wall "
                  "(%s%s). Where it says \"would\", that is what the screening "
                  "would give: it shows which inputs matter, and proves "
                  "nothing. %s--transient simulates every case (slow).",
                  what, count > 1 ? " and more" : "",
                  m->simulated_count > 0 ? ""
                                         : "Simulate the wall with check; "));
}

static void print_screened(bw_page *page, const bw_margin *m)
{
    if (m->simulated_count > 0)
        bw_page_text(page, 2, 2,
                     bw_phrase(page,
                               "Screening by months, beside it: as drawn the "
                               "wall %s.",
                               does(page, m, m->screened)));
    print_first(page, m);
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "All unknowns at their worst together%s: the wall "
                           "%s (%s).",
                           m->simulated_count > 0 ? ", screened" : "",
                           does(page, m, m->worst_combination),
                           bw_fail_count(page, m->worst_combination_fails)));
}

void bw_print_margin_answer(bw_page *page, const bw_margin *m)
{
    bool simulated = m->transient || m->simulated_count > 0;
    print_head(page, m);
    bw_page_bold(page, true);
    bw_page_text(
        page, 0, 2,
        simulated
            ? bw_phrase(page, "As drawn: %s", bw_verdict_text(m->as_drawn))
            : bw_phrase(page, "As drawn, screened by months alone: %s",
                        screened(m, m->outcome)));
    bw_page_bold(page, false);
    const char *year = simulated && m->assessment != NULL
                           ? bw_year_caution(m->assessment)
                           : NULL;
    if (year != NULL)
        bw_page_text(page, 2, 2, year);
    if (m->simulated_count > 0)
        bw_print_margin_simulated_answer(page, m);
    bw_print_margin_damp(page, m);
    print_screened(page, m);
    print_basis(page, m);
}

/* ---- every unknown alone ----------------------------------------------- */

static size_t column_of(double margin)
{
    double at = (fmin(fmax(margin, -1.0), 1.0) + 1.0) * 0.5 * (BAR - 1);
    return (size_t)lround(at);
}

/* -1 on the left, the limit in the middle, 1 on the right. */
static const char *bar_text(bw_page *page, const bw_unknown *u)
{
    char bar[BAR + 1];
    if (!u->seen)
        return "";
    memset(bar, '.', BAR);
    bar[BAR] = '\0';
    bar[BAR / 2] = '|';
    if (u->swing > 0.0) {
        size_t last = column_of(u->swing_highest);
        for (size_t i = column_of(u->swing_lowest); i <= last; i++)
            if (i != BAR / 2)
                bar[i] = i < BAR / 2 ? '#' : '=';
        if (!isnan(u->swing_as_drawn))
            bar[column_of(u->swing_as_drawn)] = 'o';
    }
    return bw_phrase(page, "%s", bar);
}

static void note_flip(bw_page *page, bw_grid *grid, const bw_unknown *u)
{
    if (!u->flips)
        return;
    const char *what = bw_phrase(
        page, "%s %s%s", u->flip_criterion,
        u->flip_fails ? "fails" : "no longer fails",
        u->flip_changes_verdict ? "" : "; the verdict stays");
    if (!u->continuous) {
        bw_grid_note(grid, bw_phrase(page, "Flips with \"%s\": %s.",
                                     setting_words(u), what));
        return;
    }
    bw_grid_note(grid, bw_phrase(page, "Flips first %s: %s.",
                                 flip_place(page, u), what));
    for (size_t i = 0; i < u->flip_count; i++) {
        const bw_flip *f = &u->flip[i];
        if (!u->flips_all && fabs(f->value - u->flip_value) <= 0.0)
            continue;
        const char *words = f->fails_above ? "fails above" : "fails below";
        bw_grid_note(grid, bw_phrase(page, "Flips also at %s: %s (%s) %s it.",
                                     value_text(page, u, f->value),
                                     f->criterion, f->section, words));
    }
}

/* "period-balance 0.12 (limit 0.5) kg/m2" */
const char *bw_figure_words(bw_page *page, const bw_figure *f)
{
    if (f->criterion == NULL || f->criterion[0] == '\0')
        return "nothing";
    if (isnan(f->value))
        return f->criterion;
    const char *unit = strcmp(f->unit, "-") == 0 ? "" : f->unit;
    const char *limit = isnan(f->limit)
                            ? ""
                            : bw_phrase(page, " (limit %s)",
                                        bw_significant(page, f->limit, 3));
    return bw_phrase(page, "%s %s%s%s%s", f->criterion,
                     bw_significant(page, f->value, 3),
                     unit[0] != '\0' ? " " : "", unit, limit);
}

static void add_unknown(bw_page *page, bw_grid *grid, const bw_margin *m,
                        const bw_unknown *u)
{
    const char **cell = bw_grid_add(grid);
    bool number = u->unit[0] != '\0';
    cell[0] = u->name;
    cell[1] = !number              ? ""
              : isnan(u->as_drawn) ? "varies"
                                   : bw_significant(page, u->as_drawn, 4);
    cell[2] = number
                  ? bw_phrase(page, "%s to %s", bw_significant(page, u->low, 4),
                              bw_significant(page, u->high, 4))
              : u->two_ended ? "low / high"
                             : "off / on";
    cell[3] = u->unit;
    cell[4] = u->seen ? screened(m, u->verdict_low) : "-";
    cell[5] = u->seen ? screened(m, u->verdict_high) : "-";
    cell[6] = bar_text(page, u);
    note_flip(page, grid, u);
    if (u->seen && u->swing > 0.0 && u->figure_low.criterion != NULL)
        bw_grid_note(grid, bw_phrase(page,
                                     "Decides low or off: %s; high or "
                                     "on: %s.",
                                     bw_figure_words(page, &u->figure_low),
                                     bw_figure_words(page, &u->figure_high)));
    if (u->seen && !u->monotone)
        bw_grid_note(grid, "Not monotone: the value that decides turns within "
                           "the range; the ends alone would not show it.");
    if (u->swing > 0.0)
        bw_grid_note(grid,
                     bw_phrase(page, "The bar is %s.", u->swing_criterion));
    if (u->note[0] != '\0')
        bw_grid_note(grid, bw_phrase(page, "Note: %s.", u->note));
}

static const bw_grid_column columns[] = {
    {.title = "Unknown", .wraps = true},
    {.title = "As drawn", .right = true},
    {.title = "From to"},
    {.title = "Unit"},
    {.title = "Wall low, off", .wraps = true},
    {.title = "Wall high, on", .wraps = true},
    {.title = "Margin -1 .. 0 .. 1"},
};

/* Of a long list, those that move nothing and those not seen are named only. */
static bool in_brief(const bw_margin *m, const bw_unknown *u)
{
    return m->unknown_count > LONG_LIST && !(u->swing > 0.0) && !u->flips;
}

static void print_brief(bw_page *page, const bw_margin *m, bool seen)
{
    const char *text = NULL;
    for (size_t i = 0; i < m->unknown_count; i++) {
        const bw_unknown *u = &m->unknown[i];
        if (u->seen == seen && in_brief(m, u))
            text = text == NULL ? u->name
                                : bw_phrase(page, "%s; %s", text, u->name);
    }
    if (text != NULL)
        bw_page_text(
            page, 2, 2,
            bw_phrase(page, "%s: %s.",
                      seen ? "Moves nothing" : "Not seen by the steady methods",
                      text));
}

void bw_print_margin_unknowns(bw_page *page, const bw_margin *m)
{
    bw_page_heading(page, m->transient
                              ? "Every unknown alone, the most telling first"
                              : "Every unknown alone, the most telling first: "
                                "screening by months");
    if (m->unknown_count == 0) {
        bw_page_text(page, 2, 2, "There is none.");
        return;
    }
    bw_grid grid;
    bool drawn = page->form != NULL; /* the bars are a chart there */
    bw_grid_start(&grid, page, columns,
                  sizeof columns / sizeof columns[0] - drawn);
    for (size_t i = 0; i < m->unknown_count; i++)
        if (!in_brief(m, &m->unknown[i]))
            add_unknown(page, &grid, m, &m->unknown[i]);
    bw_grid_print(&grid);
    print_brief(page, m, true);
    print_brief(page, m, false);
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "%sRanges are computed at %zu points and as drawn; "
                           "a flip is found to within %s %% of the range.",
                           drawn ? ""
                                 : "Bar: how far the criterion that moves most "
                                   "moves, as a share of its limit: | the "
                                   "limit, = holds, # fails, o as drawn; no "
                                   "bar: nothing moves. ",
                           m->points,
                           bw_significant(page, 100.0 * m->tolerance, 2)));
}

/* ---- together ---------------------------------------------------------- */

const char *bw_worst_words(bw_page *page, const bw_margin *m)
{
    const char *why = m->worst_combination_reason;
    return bw_phrase(page, "the wall %s, %s; %s %s",
                     does(page, m, m->worst_combination),
                     bw_fail_count(page, m->worst_combination_fails),
                     m->worst_combination_fails > 0 ? "worst is" : "closest is",
                     why[0] != '\0' ? why : "none with a number");
}

void bw_print_margin_combination(bw_page *page, const bw_margin *m)
{
    bw_page_heading(page, m->transient
                              ? "Worst combination"
                              : "Worst combination: screening by months");
    bw_page_text(page, 2, 2,
                 bw_phrase(page, "%s: %s.", m->worst_combination_text,
                           bw_worst_words(page, m)));
    bw_page_text(page, 2, 2,
                 m->worst_combination_moved
                     ? "The single worst ends together were not the worst: "
                       "changing one at a time from there led to this one."
                     : "It is every unknown at its own worst end; changing any "
                       "one of them from there makes nothing worse.");
}

bw_status bw_report_margin_text(const bw_margin *margin,
                                const bw_report_options *options, bw_sink *sink,
                                void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    int width = given.width == 0 ? DEFAULT_WIDTH : given.width;
    width = width < NARROWEST ? NARROWEST : width > WIDEST ? WIDEST : width;
    bw_page page = {.width = width, .colour = given.colour};
    bw_writer_start(&page.out, sink, payload);
    bw_print_margin_answer(&page, margin);
    if (!given.quiet) {
        bw_print_margin_simulated(&page, margin);
        bw_print_margin_unknowns(&page, margin);
        bw_print_margin_combination(&page, margin);
        bw_print_margin_map(&page, margin);
        bw_print_margin_ensemble(&page, margin);
        bw_print_cautions(&page);
    }
    return bw_page_finish(&page, "the margin", err);
}
