/* A margin: what flips first, how damp the room may be, every unknown by rank
 * with its bar, all of them together. */

#include <math.h>
#include <string.h>

#include "grid.h"
#include "names.h"
#include "part.h"
#include "unknown.h"

enum { LONG_LIST = 15, BAR = 21 };

static const char *value_text(bw_page *page, const bw_unknown *u, double value)
{
    return bw_with_unit(page, value, 4, isnan(value) ? "" : u->unit);
}

BW_PART(margin_title, NULL)
{
    const bw_assembly *assembly = of->wall[0]->assembly;
    bw_lead(page, "How much error this wall forgives: %s",
            bw_wall_name(assembly));
    bw_plain(page, "%s in %s; climate: %s", assembly->id, assembly->file,
             bw_climate_name(of->wall[0]->climate));
    bw_say_changes(page, assembly);
}

/* ---- what flips first -------------------------------------------------- */

static const char *way_text(bw_page *page, const bw_unknown *u)
{
    if (u->flip_share >= 1.0 || !u->continuous || isnan(u->as_drawn))
        return "";
    return bw_phrase(page, ", %.0f %% of its range away",
                     100.0 * u->flip_share);
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

static void say_first(bw_page *page, const bw_margin *m)
{
    const char *where = m->simulated_count > 0 ? " in the screening" : "";
    if (m->first >= m->unknown_count) {
        size_t unseen = unseen_count(m);
        bw_text(page,
                "What flips first%s: nothing%s. No single unknown%s, over the "
                "whole of its range, makes a criterion fail or stop failing.",
                where, unseen > 0 ? " that was computed" : "",
                unseen > 0
                    ? bw_phrase(page,
                                " but the %zu that the methods run do not see",
                                unseen)
                    : "");
        return;
    }
    const bw_unknown *u = &m->unknown[m->first];
    const char *verdict = u->flip_changes_verdict
                              ? (u->flip_fails ? ", and with it the wall"
                                               : ", and nothing else fails")
                              : "; the verdict on the wall stays as it is";
    bw_text(page, "What flips first%s: %s, %s %s%s%s.", where,
            place_text(page, u), u->flip_criterion,
            u->flip_fails ? "fails" : "no longer fails", way_text(page, u),
            verdict);
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
        return bw_phrase(
            page,
            "%zu walls were simulated hour by hour, as check does it; %zu "
            "cases were screened with the steady methods (monthly, period, "
            "surface) to find which to simulate.",
            m->simulation_count, m->evaluation_count);
    if (!m->transient)
        return "Screened with the steady methods (monthly, period, surface), "
               "without the hourly simulation.";
    if (reason != NULL)
        return bw_phrase(
            page,
            "Computed with the steady methods (monthly, period, surface), and "
            "hour by hour where a case is beyond them and can be simulated. "
            "The wall as drawn was not simulated: %s.",
            reason);
    return "Computed with the hourly simulation, too.";
}

static void say_basis(bw_page *page, const bw_margin *m)
{
    bw_text(page, "%s", basis_text(page, m));
    if (!m->screening)
        return;
    size_t count = m->assessment->scope_count;
    const char *what = count > 0 ? m->assessment->scope[0].what : "";
    bw_text(
        page,
        "The monthly method is outside its limits for this wall (%s%s). "
        "Where it says \"would\", that is what the screening would give: it "
        "shows which inputs matter, and proves nothing. %s--transient "
        "simulates every case (slow).",
        what, count > 1 ? " and more" : "",
        m->simulated_count > 0 ? "" : "Simulate the wall with check; ");
}

static void say_screened(bw_page *page, const bw_margin *m)
{
    if (m->simulated_count > 0)
        bw_text(page, "Screening by months, beside it: as drawn the wall %s.",
                bw_does(m, m->screened));
    say_first(page, m);
    bw_text(page, "All unknowns at their worst together%s: the wall %s (%s).",
            m->simulated_count > 0 ? ", screened" : "",
            bw_does(m, m->worst_combination),
            bw_fail_count(page, m->worst_combination_fails));
}

static size_t turned(const bw_margin *m, const bw_simulated **first)
{
    size_t count = 0;
    *first = NULL;
    for (size_t i = 1; i < m->simulated_count; i++) {
        const bw_simulated *s = &m->simulated[i];
        if (!s->simulated || s->unknown[0] == '\0' ||
            bw_is_good(s->verdict) == bw_is_good(m->as_drawn))
            continue;
        if (*first == NULL)
            *first = s;
        count++;
    }
    return count;
}

static void say_turned(bw_page *page, const bw_margin *m)
{
    const bw_simulated *first;
    bw_text(page, "%s", m->assessment->verdict_reason);
    size_t count = turned(m, &first), cases = m->simulated_count - 1;
    const char *plural = cases == 1 ? "" : "s";
    if (count == 0)
        bw_text(page, "Of %zu case%s simulated none turns that verdict.", cases,
                plural);
    else
        bw_text(page,
                "Of %zu case%s simulated %zu turn%s that verdict, the first: "
                "%s: %s (%s).",
                cases, plural, count, count == 1 ? "s" : "", first->setting,
                bw_verdict_text(first->verdict),
                bw_figure_words(page, &first->figure));
}

/* ---- how damp the room may be ------------------------------------------ */

static const char *level(bw_page *page, const bw_damp_limit *d, int at)
{
    if (d->by_class)
        return bw_phrase(page, "humidity class %d", at);
    return bw_phrase(page, "%d %% RH at %.0f degC", at, d->temperature);
}

static void say_damp(bw_page *page, const bw_margin *m)
{
    const bw_damp_limit *d = &m->damp;
    if (d->most <= d->least)
        return;
    const char *by = d->simulated ? "" : ", screened by months";
    const char *room = d->replaced ? " (in place of the room of the file)" : "";
    if (d->holds < d->least) {
        bw_text(page, "Indoor humidity%s%s: not even at %s (%s: %s).", room, by,
                level(page, d, d->least),
                bw_would(d->simulated, d->verdict_beyond),
                bw_figure_words(page, &d->figure));
        return;
    }
    const char *beyond = "";
    if (d->beyond <= d->most)
        beyond = bw_phrase(page, "; at %s: %s (%s)", level(page, d, d->beyond),
                           bw_would(d->simulated, d->verdict_beyond),
                           bw_figure_words(page, &d->figure));
    bw_text(page, "Dampest room%s%s: %s (%s)%s.", room, by,
            level(page, d, d->holds), bw_would(d->simulated, d->verdict),
            d->beyond > d->most ? ", the most that was tried" : beyond);
}

/* ---- the answer --------------------------------------------------------- */

BW_PART(margin_answer, NULL)
{
    const bw_margin *m = of->margin;
    bool simulated = m->transient || m->simulated_count > 0;
    const char *year = simulated ? bw_year_caution(m->assessment) : NULL;
    bw_lead(page, "As drawn%s: %s",
            simulated ? "" : ", screened by months alone",
            bw_would(simulated, simulated ? m->as_drawn : m->outcome));
    if (year != NULL)
        bw_text(page, "%s", year);
    if (m->simulated_count > 0)
        say_turned(page, m);
    say_damp(page, m);
    if (m->simulated_count == 0 || page->options->extent == BW_EXTENT_FULL) {
        say_screened(page, m);
        say_basis(page, m);
    } else {
        bw_text(page, "%s", basis_text(page, m));
    }
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
        bw_remark(grid, "Flips with \"%s\": %s.", setting_words(u), what);
        return;
    }
    bw_remark(grid, "Flips first %s: %s.", flip_place(page, u), what);
    for (size_t i = 0; i < u->flip_count; i++) {
        const bw_flip *f = &u->flip[i];
        if (!u->flips_all && fabs(f->value - u->flip_value) <= 0.0)
            continue;
        const char *words = f->fails_above ? "fails above" : "fails below";
        bw_remark(grid, "Flips also at %s: %s (%s) %s it.",
                  value_text(page, u, f->value), f->criterion, f->section,
                  words);
    }
}

static void add_unknown(bw_page *page, bw_grid *grid, const bw_margin *m,
                        const bw_unknown *u)
{
    bw_grid_row_start(grid);
    bw_words(grid, "Unknown", u->name);
    bw_range_cells(page, grid, u);
    bw_words(grid, "Wall low, off",
             u->seen ? bw_would(m->transient, u->verdict_low) : "-");
    bw_words(grid, "Wall high, on",
             u->seen ? bw_would(m->transient, u->verdict_high) : "-");
    bw_bar(grid, "Margin -1 .. 0 .. 1", bar_text(page, u));
    note_flip(page, grid, u);
    if (u->seen && u->swing > 0.0 && u->figure_low.criterion != NULL)
        bw_remark(grid, "Decides low or off: %s; high or on: %s.",
                  bw_figure_words(page, &u->figure_low),
                  bw_figure_words(page, &u->figure_high));
    if (u->seen && !u->monotone)
        bw_remark(grid, "Not monotone: the value that decides turns within the "
                        "range; the ends alone would not show it.");
    if (u->swing > 0.0)
        bw_remark(grid, "The bar is %s.", u->swing_criterion);
    if (u->note[0] != '\0')
        bw_remark(grid, "Note: %s.", u->note);
}

/* Of a long list, those that move nothing and those not seen are named only. */
static bool in_brief(const bw_margin *m, const bw_unknown *u)
{
    return m->unknown_count > LONG_LIST && !(u->swing > 0.0) && !u->flips;
}

static void say_brief(bw_page *page, const bw_margin *m, bool seen)
{
    const char *text = NULL;
    for (size_t i = 0; i < m->unknown_count; i++) {
        const bw_unknown *u = &m->unknown[i];
        if (u->seen == seen && in_brief(m, u))
            text = text == NULL ? u->name
                                : bw_phrase(page, "%s; %s", text, u->name);
    }
    if (text != NULL)
        bw_text(page, "%s: %s.",
                seen ? "Moves nothing" : "Not seen by the steady methods",
                text);
}

static void say_by_months(bw_page *page, const bw_margin *m)
{
    if (!m->transient)
        bw_aside(page, ": screening by months");
}

BW_PART(unknowns, "Every unknown alone, the most telling first")
{
    const bw_margin *m = of->margin;
    bw_grid grid = {.page = page};
    say_by_months(page, m);
    if (m->unknown_count == 0) {
        bw_text(page, "There is none.");
        return;
    }
    for (size_t i = 0; i < m->unknown_count; i++)
        if (!in_brief(m, &m->unknown[i]))
            add_unknown(page, &grid, m, &m->unknown[i]);
    grid.bars = "Bar: how far the criterion that moves most moves, as a share "
                "of its limit: | the limit, = holds, # fails, o as drawn; no "
                "bar: nothing moves.";
    bw_grid_print(&grid);
    say_brief(page, m, true);
    say_brief(page, m, false);
    bw_text(
        page,
        "Ranges are computed at %zu points and as drawn; a flip is found to "
        "within %.2g %% of the range.",
        m->points, 100.0 * m->tolerance);
}

/* ---- together ---------------------------------------------------------- */

BW_PART(combination, "Worst combination")
{
    const bw_margin *m = of->margin;
    say_by_months(page, m);
    bw_text(page, "%s: %s.", m->worst_combination_text,
            bw_worst_words(page, m));
    bw_text(page, "%s",
            m->worst_combination_moved
                ? "The single worst ends together were not the worst: changing "
                  "one at a time from there led to this one."
                : "It is every unknown at its own worst end; changing any one "
                  "of them from there makes nothing worse.");
}

BW_PART(ensemble, "All unknowns at random")
{
    const bw_margin *m = of->margin;
    if (m->ensemble_count == 0)
        return;
    if (m->simulated_count > 0)
        say_by_months(page, m);
    bw_text(page,
            "Of %zu cases nothing fails in %zu: %.1f %% (standard error %.1f "
            "points).",
            m->ensemble_count, m->ensemble_holds, 100.0 * m->ensemble_share,
            100.0 * m->ensemble_error);
    bw_text(page,
            "Ranges count evenly, a switch in each of its settings equally "
            "often. This is a share of cases, no probability: nobody knows how "
            "likely each is. The error is that of as many independent cases, "
            "sqrt(p (1 - p)/n) with p = (k + 1)/(n + 2).");
}
