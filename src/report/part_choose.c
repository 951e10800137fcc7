/* A choice answers first: which designs hold whatever is found, or that none
 * does and what breaks each; then the front, what was dropped and why, what was
 * held fixed, and what it cost.
 *
 * Invariant: only what stands is said to hold; numbers of a screening say what
 * would be. */

#include "bothways/choose.h"

#include <math.h>
#include <string.h>

#include "chosen.h"
#include "grid.h"
#include "names.h"
#include "part.h"
#include "unknown.h"

enum { NAMED = 3 };

BW_PART(choose_title, NULL)
{
    const bw_chosen *c = of->chosen;
    bw_lead(page, "Which build-up: %s", bw_wall_name(c->assembly));
    bw_plain(page, "%s in %s; climate: %s", c->assembly->id, c->assembly->file,
             bw_climate_name(c->climate));
    bw_say_changes(page, c->assembly);
}

/* ---- the answer ---------------------------------------------------------- */

/* Names of the first of the front, "; " between. */
static const char *names(bw_page *page, const bw_chosen *c, size_t count)
{
    const char *text = "";
    for (size_t i = 0; i < count && i < NAMED; i++)
        text = bw_phrase(page, "%s%s%s", text, i > 0 ? "; " : "",
                         c->design[c->front[i]].name);
    return count > NAMED
               ? bw_phrase(page, "%s and %zu more", text, count - NAMED)
               : text;
}

/* Of those that hold, how many do so marginally. */
static size_t marginal(const bw_chosen *c)
{
    size_t count = 0;
    for (size_t i = 0; i < c->front_count; i++)
        count += c->design[c->front[i]].marginally;
    return count;
}

static size_t undecided(const bw_chosen *c)
{
    size_t count = 0;
    for (size_t i = 0; i < c->front_count; i++)
        count += c->design[c->front[i]].standing == BW_UNDECIDED;
    return count;
}

static void say_answer(bw_page *page, const bw_chosen *c)
{
    const size_t open = undecided(c);
    if (c->front_count == 0)
        bw_lead(page,
                "None of the %zu designs is left: %zu over a limit, %zu "
                "not good as drawn.",
                c->design_count, c->over_limit, c->as_drawn_failing);
    else if (c->holding > 0)
        bw_lead(page, "%zu of %zu designs hold%s in all that was tried%s: %s.",
                c->holding, c->design_count, c->holding == 1 ? "s" : "",
                marginal(c) == 0 ? ""
                : marginal(c) == c->holding
                    ? ", marginally"
                    : bw_phrase(page, ", %zu of them marginally", marginal(c)),
                names(page, c, c->holding));
    else if (open > 0)
        bw_lead(page,
                "Of no design is it known that it holds: %zu not assessed, "
                "%zu break.",
                open, c->front_count - open);
    else
        bw_lead(page, "None of the %zu designs holds whatever is found.",
                c->design_count);
}

/* The one sentence that says what drawn cases prove. */
static void say_statement(bw_page *page, const bw_chosen *c, const bw_design *d)
{
    const char *unknown = d->unassessed > 0
                              ? bw_phrase(page,
                                          ", %zu could not be assessed and "
                                          "count as failed in the bound",
                                          d->unassessed)
                              : "";
    bw_text(page,
            "%s: in %zu drawn cases %zu failed%s (95 %% bound %s); cases weigh "
            "the ranges you gave, not likelihoods.",
            d->name, d->drawn, d->failed, unknown,
            bw_share_words(page, d->bound));
    if (c->drawn_designs > 1)
        bw_text(page,
                "It was picked of %zu drawn for: for all of them at once the "
                "bound is %s.",
                c->drawn_designs, bw_share_words(page, c->joint_bound));
    if (!c->simulated)
        bw_text(page,
                "By months alone, which may fail a wall and often cannot "
                "say that it holds; by their numbers %zu of %zu would "
                "fail.",
                d->failed_numbers, d->drawn);
}

/* What breaks every design is to be settled before one is chosen. */
static void say_settle(bw_page *page, const bw_chosen *c)
{
    const char *text = "";
    for (size_t f = 0; f < c->finding_count; f++) {
        const bw_finding *is = &c->finding[f];
        if (is->asked > 1 && is->broken == is->asked)
            text = bw_phrase(page, "%s%s%s", text, text[0] != '\0' ? "; " : "",
                             is->name);
    }
    if (text[0] != '\0')
        bw_text(page,
                "Breaks every design that it was tried in: %s. Find out, "
                "or make sure on site, before one is chosen; --settled "
                "takes it as drawn.",
                text);
}

static void say_worst(bw_page *page, const bw_design *d)
{
    if (d->standing == BW_OUT || d->breaks[0] == '\0')
        return;
    const bool drawn = strcmp(d->breaks, d->worst) == 0;
    bw_text(page, "%s %s with: %s. Then %s.%s", d->name,
            d->standing == BW_BREAKS ? "breaks" : "would break", d->breaks,
            bw_figure_words(page, &d->breaks_figure),
            drawn && d->decides[0] != '\0'
                ? bw_phrase(page,
                            " No finding alone breaks it; this case is decided "
                            "by: %s.",
                            d->decides)
                : "");
}

BW_PART(choose_answer, NULL)
{
    const bw_chosen *c = of->chosen;
    say_answer(page, c);
    if (c->assembly->junction_count > 0)
        bw_text(page,
                "The wall names junctions (%zu), and of no design are they "
                "judged: none is said to hold. See what check says of the "
                "wall with the design chosen in it.",
                c->assembly->junction_count);
    if (c->front_count == 0)
        return;
    const bw_design *first = &c->design[c->front[0]];
    if (first->drawn > 0)
        say_statement(page, c, first);
    say_worst(page, first);
    say_settle(page, c);
    if (c->has_weights)
        bw_text(page,
                "First by your weights (score %.2f, 0 is best in all): "
                "%s. %s.",
                first->score, first->name,
                c->best_stays ? "Half or twice of any one weight leaves it "
                                "first"
                              : bw_capital(page, c->best_moves));
}

/* ---- the front ----------------------------------------------------------- */

static const char *marked(bw_page *page, const bw_design *d, bw_goal goal,
                          const char *text)
{
    return d->assumed[goal] && !isnan(d->goal[goal])
               ? bw_phrase(page, "%s*", text)
               : text;
}

static void add_design(bw_page *page, bw_grid *g, const bw_chosen *c, size_t i)
{
    const bw_design *d = &c->design[c->front[i]];
    const double *is = d->goal;
    const char *tie = d->tie > 0 ? bw_phrase(page, " =%c",
                                             (char)('a' + (d->tie - 1) % 26))
                                 : "";
    bw_grid_row_start(g);
    bw_number(g, "No", "%zu%s", i + 1, tie);
    bw_words(g, "Design", d->name);
    bw_words(g, "What it does", bw_standing_words(d));
    bw_number(g, "Failed of drawn", "%s", bw_drawn_words(page, c, d));
    bw_number(g, "Bound %", "%.1f", 100.0 * d->bound);
    bw_number(g, "U W/(m2 K)", "%s",
              marked(page, d, BW_GOAL_U, bw_fixed(page, is[BW_GOAL_U], 3)));
    bw_number(g, "Thick mm", "%s",
              bw_significant(page, 1e3 * is[BW_GOAL_THICKNESS], 4));
    if (c->known[BW_GOAL_RESERVE])
        bw_number(g, "Reserve g/(m2 a)", "%s",
                  marked(page, d, BW_GOAL_RESERVE,
                         bw_grams(page, is[BW_GOAL_RESERVE])));
    if (c->known[BW_GOAL_MOULD])
        bw_number(g, "Mould index", "%s",
                  marked(page, d, BW_GOAL_MOULD,
                         bw_fixed(page, is[BW_GOAL_MOULD], 2)));
    if (c->known[BW_GOAL_WOOD])
        bw_number(
            g, "Wood % of limit", "%s",
            marked(page, d, BW_GOAL_WOOD, bw_fixed(page, is[BW_GOAL_WOOD], 0)));
    if (c->known[BW_GOAL_PRICE])
        bw_number(g, bw_phrase(page, "Price %s/m2", c->choices->currency), "%s",
                  marked(page, d, BW_GOAL_PRICE,
                         bw_fixed(page, is[BW_GOAL_PRICE], 2)));
    if (c->known[BW_GOAL_CARBON])
        bw_number(g, "Carbon kg/m2", "%s",
                  marked(page, d, BW_GOAL_CARBON,
                         bw_fixed(page, is[BW_GOAL_CARBON], 1)));
}

static bool any_assumed(const bw_chosen *c)
{
    for (size_t i = 0; i < c->front_count; i++)
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            if (c->design[c->front[i]].assumed[g])
                return true;
    return false;
}

static bool any_tie(const bw_chosen *c)
{
    for (size_t i = 0; i < c->front_count; i++)
        if (c->design[c->front[i]].tie > 0)
            return true;
    return false;
}

static void explain_front(bw_page *page, const bw_chosen *c)
{
    const char *layers = c->design[c->front[0]].assumed_layers;
    bw_text(page,
            "Of the drawn cases: reserve at its 10th percentile, mould index "
            "and wood moisture (the highest against its limit) at their 90th; "
            "none are drawn of a design that one finding alone breaks where "
            "others are not.%s%s",
            c->has_weights ? " Those that hold first, then by your weights."
                           : " Those that hold first, then the fewest "
                             "failures; no order by taste.",
            any_tie(c) ? " =a: no figure tells these apart at so many cases."
                       : "");
    if (any_assumed(c))
        bw_text(page, "* rests on what is assumed%s%s.",
                layers[0] != '\0' ? ": the layer " : ": price, carbon",
                layers[0] != '\0'
                    ? bw_phrase(page,
                                "%s; a price or carbon whose source is "
                                "not graded better",
                                layers)
                    : "");
    if (c->known[BW_GOAL_PRICE] || c->known[BW_GOAL_CARBON])
        bw_text(page, "Price and carbon are those of the chosen layers alone%s",
                c->known[BW_GOAL_CARBON]
                    ? "; sources of carbon lie apart by 0.5 to 2 times "
                      "(judgement), so that less than that is no difference "
                      "between materials."
                    : ".");
    for (size_t i = 0; i < c->front_count; i++) {
        const bw_design *d = &c->design[c->front[i]];
        if (d->central[0] != '\0')
            bw_text(page,
                    "By %s %s is the best as drawn alone, not in the drawn "
                    "cases.",
                    d->central, d->name);
    }
}

BW_PART(choose_front, "What no other design beats in everything")
{
    const bw_chosen *c = of->chosen;
    const size_t shown = bw_front_shown(page, c);
    bw_grid grid = {.page = page};
    if (c->front_count == 0)
        return;
    for (size_t i = 0; i < shown; i++)
        add_design(page, &grid, c, i);
    bw_grid_print(&grid);
    if (shown < c->front_count)
        bw_text(page, "%zu more: --full.", c->front_count - shown);
    explain_front(page, c);
}

/* ---- what breaks each ---------------------------------------------------- */

BW_PART(choose_worst, "The worst drawn case of each, and what decides it")
{
    const bw_chosen *c = of->chosen;
    bw_grid grid = {.page = page};
    for (size_t i = 0; i < c->front_count; i++) {
        const bw_design *d = &c->design[c->front[i]];
        if (d->drawn == 0)
            continue;
        bw_grid_row_start(&grid);
        bw_number(&grid, "No", "%zu", i + 1);
        bw_words(&grid, "Worst drawn case", d->worst);
        bw_words(
            &grid, "Then",
            bw_phrase(page, "%s: %s",
                      bw_would(c->simulated, c->simulated ? d->worst_verdict
                                                          : d->worst_numbers),
                      bw_figure_words(page, &d->worst_figure)));
        bw_words(&grid, "Decides it", d->decides[0] != '\0' ? d->decides : "-");
    }
    bw_grid_print(&grid);
    if (c->drawn_designs > 0)
        bw_text(page, "Decides it: the unknown that gains most when it alone "
                      "is as drawn again; asked of cases that fail.");
}

/* ---- what was dropped ---------------------------------------------------- */

static void tell_counts(bw_page *page, const bw_chosen *c)
{
    bw_text(
        page,
        "%zu designs: %zu over a limit of the file, %zu beaten in "
        "everything, %zu not good as drawn, %zu broken where one that holds "
        "is no worse in what is fixed, %zu left. Of 100 designs that none "
        "beats at most 5 are dropped as beaten.",
        c->design_count, c->over_limit, c->beaten, c->as_drawn_failing,
        c->broken, c->front_count);
    for (size_t i = 0; i < c->round_count; i++) {
        const bw_round *r = &c->round[i];
        bw_item(page, "after %zu cases %s: %zu of %zu designs left", r->cases,
                r->simulated ? "simulated" : "by months", r->designs_after,
                r->designs_before);
    }
}

BW_PART(choose_dropped, "What was dropped, and why")
{
    const bw_chosen *c = of->chosen;
    bw_grid grid = {.page = page};
    tell_counts(page, c);
    if (page->options->extent != BW_EXTENT_FULL)
        return;
    for (size_t i = 0; i < c->design_count; i++) {
        if (c->design[i].standing != BW_OUT)
            continue;
        bw_grid_row_start(&grid);
        bw_words(&grid, "Design", c->design[i].name);
        bw_words(&grid, "Dropped", c->design[i].dropped);
    }
    bw_grid_print(&grid);
}

/* ---- what it rests on ---------------------------------------------------- */

BW_PART(choose_held, "What was held fixed, and the cost")
{
    const bw_chosen *c = of->chosen;
    const char *fixed = "";
    for (size_t i = 0; i < c->fixed_count; i++)
        fixed = bw_phrase(page, "%s%s%s", fixed, i > 0 ? "; " : "",
                          c->fixed[i]);
    for (size_t f = 0; f < c->finding_count; f++)
        if (c->finding[f].settled)
            bw_text(page, "As drawn, settled by you: %s.", c->finding[f].name);
    if (c->fixed_count == 0)
        bw_text(page, "Of what else margin varies nothing was held.");
    else if (page->options->extent == BW_EXTENT_FULL)
        bw_text(page,
                "As drawn, though margin varies it (--wide varies it "
                "here, too): %s.",
                fixed);
    else
        bw_text(page,
                "As drawn: %zu unknowns that margin varies (--wide "
                "varies them here, too).",
                c->fixed_count);
    bw_text(page, "Never varied: the climate and its year, the indoor "
                  "temperature, dimensions that the file is sure of, mould "
                  "classes, air that washes through insulation, joints and "
                  "corners.");
    bw_text(page,
            "%zu walls simulated, %zu assessed by months; seed %zu. The "
            "same file, options and seed give the same result on any "
            "number of threads.",
            c->simulation_count, c->steady_count, (size_t)c->seed);
}

BW_PART(choose_again, NULL)
{
    say_answer(page, of->chosen);
}
