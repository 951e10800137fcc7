/* A comparison answers first: which wall and why, or that nothing shows it and
 * in what each is the better one all the same.
 *
 * Invariant: the order is the comparison's; here it is only said. */

#include <math.h>

#include "compared.h"
#include "names.h"
#include "part.h"

/* ---- which wall, and why ------------------------------------------------ */

/* "a", "a or b", "a, b or c": the first `count` in their order. */
static const char *labels(bw_page *page, const bw_comparison *c, size_t count)
{
    const char *text = bw_compared_name(page, c, c->order[0]);
    for (size_t k = 1; k < count; k++)
        text = bw_phrase(page, "%s%s%s", text, k + 1 < count ? ", " : " or ",
                         bw_compared_name(page, c, c->order[k]));
    return text;
}

static const char *deciding_text(bw_page *page, const bw_compared *wall)
{
    const bw_criterion *c = wall->assessment->deciding;
    if (c == NULL || !c->has_value || !c->has_limit)
        return "";
    if (c->margin > 0.0 && c->verdict == BW_FAILS) /* not by its figure */
        return bw_phrase(page, " (%s: %s)", c->title, c->reason);
    if (c->never)
        return bw_phrase(page, " (%s: %s, limit %s)", c->title,
                         bw_not_within(page, c),
                         bw_row_amount(page, c->limit, c->unit));
    return bw_phrase(page, " (%s %s, limit %s)", c->title,
                     bw_row_amount(page, c->value, c->unit),
                     bw_row_value(page, c->unit, c->limit));
}

/* ": blocked cavity, damper room": those that the best wall holds. */
static const char *not_held_text(bw_page *page, const bw_comparison *c,
                                 size_t wall)
{
    const char *text = "";
    for (size_t i = 0; i < c->stress_count; i++) {
        const bw_stress *s = &c->stress[i];
        const bw_stressed *best = &s->wall[c->order[0]];
        if (s->wall[wall].applies && !bw_is_good(s->wall[wall].verdict) &&
            (!best->applies || bw_is_good(best->verdict)))
            text = bw_phrase(page, "%s%s%s", text,
                             text[0] == '\0' ? ": " : ", ",
                             bw_plain_id(page, s->name));
    }
    return text;
}

/* "29 % of the limit to spare", "29 % beyond the limit". */
static const char *spare(bw_page *page, double margin)
{
    return bw_phrase(page,
                     margin < 0.0 ? "%.0f %% beyond the limit"
                                  : "%.0f %% of the limit to spare",
                     100.0 * fabs(margin));
}

/* What is held against this wall: "b fails (...)". */
static const char *against(bw_page *page, const bw_comparison *c, size_t wall)
{
    const bw_compared *w = &c->wall[wall], *best = &c->wall[c->order[0]];
    const char *name = bw_compared_name(page, c, wall);
    const char *first = bw_compared_name(page, c, c->order[0]);
    switch (w->because) {
    case BW_BECAUSE_STRESSES:
        return bw_phrase(page,
                         "%s holds %zu of %zu stresses, %s %zu of %zu (%s "
                         "loses%s)",
                         name, w->stresses - w->not_held, w->stresses, first,
                         best->stresses - best->not_held, best->stresses, name,
                         not_held_text(page, c, wall));
    case BW_BECAUSE_RESERVE:
        return bw_phrase(page, "%s %s: at worst %s, %s %s", name,
                         w->worst_margin < 0.0 ? "goes further past a limit"
                                               : "comes nearer to a limit",
                         spare(page, w->worst_margin), first,
                         spare(page, best->worst_margin));
    default:
        break;
    }
    return bw_phrase(page, "%s %s%s%s", name,
                     w->verdict == BW_NOT_ASSESSED ? "is not assessed"
                     : w->verdict == BW_MARGINAL   ? "is only marginal"
                                                   : "fails",
                     w->verdict != BW_NOT_ASSESSED ? deciding_text(page, w)
                                                   : "",
                     w->fails_airless ? ", without its leaking air, too" : "");
}

/* "b fails (...); c ...": of many only how many do what. */
static const char *against_all(bw_page *page, const bw_comparison *c,
                               size_t from)
{
    enum { EACH = 2 };
    static const char *const what[] = {
        "fail", "are not assessed", "are only marginal",
        "hold fewer of the stresses", "come nearer to a limit"};
    size_t count[BW_COUNT(what)] = {0};
    const char *text = "";
    for (size_t k = from; k < c->wall_count; k++) {
        const bw_compared *w = &c->wall[c->order[k]];
        count[w->because == BW_BECAUSE_STRESSES  ? 3
              : w->because == BW_BECAUSE_RESERVE ? 4
              : w->verdict == BW_FAILS           ? 0
              : w->verdict == BW_NOT_ASSESSED    ? 1
                                                 : 2]++;
        if (c->wall_count - from <= EACH)
            text = bw_phrase(page, "%s%s%s", text, k > from ? "; " : "",
                             against(page, c, c->order[k]));
    }
    for (size_t i = 0; c->wall_count - from > EACH && i < BW_COUNT(what); i++)
        if (count[i] > 0)
            text = bw_phrase(page, "%s%s%zu %s", text,
                             text[0] != '\0' ? ", " : "", count[i], what[i]);
    return text;
}

static bool all_are(const bw_comparison *c, bw_verdict verdict)
{
    for (size_t i = 0; i < c->wall_count; i++)
        if (c->wall[i].verdict != verdict)
            return false;
    return true;
}

/* NULL, or which wall may stand before another for its air alone. */
static const char *without_air(bw_page *page, const bw_comparison *c)
{
    return c->unlike_air
               ? bw_phrase(page,
                           "not comparable: %s counts no leaking air, %s does "
                           "and may be worse for that alone; give both files "
                           "an air leakage",
                           bw_compared_name(page, c, c->airless),
                           bw_compared_name(page, c, c->aired))
               : NULL;
}

/* Walls without one, or with as much, are not told apart by it. */
static const char *no_difference(const bw_comparison *c)
{
    return c->trait_count > 0 ? "none holds more than another that these "
                                "figures can show"
                              : "no difference that these figures can show";
}

/* "0.8 months", "not in 12 months", "mould index 3.2". */
static const char *trait_value(bw_page *page, const bw_trait *t, size_t wall)
{
    if (t->row == NULL)
        return bw_stressed_figure(page, &t->stress->wall[wall]);
    return t->row->has_value[wall]
               ? bw_row_amount(page, t->row->value[wall], t->row->unit)
               : t->row->instead[wall];
}

static const char *trait_text(bw_page *page, const bw_trait *t)
{
    const char *best = trait_value(page, t, t->best);
    const char *worst = trait_value(page, t, t->worst);
    return best[0] == '\0' || worst[0] == '\0'
               ? t->words
               : bw_phrase(page, "%s (%s against %s)", t->words, best, worst);
}

/* "a dries faster (...) and stands a rain leak better (...)": of each wall that
 * is better in something what differs most; "": none is. */
static const char *trade_text(bw_page *page, const bw_comparison *c)
{
    enum { EACH = 2, WALLS = 3 };
    const char *text = "";
    size_t walls = 0;
    for (size_t k = 0; k < c->best_count && walls < WALLS; k++) {
        size_t said = 0;
        for (size_t i = 0; i < c->trait_count && said < EACH; i++) {
            if (c->trait[i].best != c->order[k])
                continue;
            text = said++ > 0
                       ? bw_phrase(page, "%s and %s", text,
                                   trait_text(page, &c->trait[i]))
                       : bw_phrase(page, "%s%s%s %s", text,
                                   walls > 0 ? "; " : "",
                                   bw_compared_name(page, c, c->order[k]),
                                   trait_text(page, &c->trait[i]));
        }
        walls += said > 0;
    }
    return walls > 1 ? bw_phrase(page, "a trade-off: %s", text) : text;
}

static const char *answer(bw_page *page, const bw_comparison *c)
{
    const size_t best = c->best_count, all = c->wall_count;
    const char *not_comparable = without_air(page, c);
    if (not_comparable != NULL)
        return not_comparable;
    const char *trade = trade_text(page, c);
    const char *before = trade[0] != '\0' ? "; " : "";
    if (best == all)
        return bw_phrase(page, "%s%s%s", no_difference(c), before, trade);
    if (best == 0 && all_are(c, BW_FAILS))
        return bw_phrase(page, "none of them, since %s",
                         against_all(page, c, 0));
    if (best == 0 && all_are(c, BW_NOT_ASSESSED))
        return bw_phrase(page, "not known, none of them is assessed%s",
                         c->simulated ? "" : " without a simulation");
    if (best == 0)
        return bw_phrase(page, "none of them is known to hold, since %s",
                         against_all(page, c, 0));
    if (best > 1)
        return bw_phrase(page, "%s, since %s; between them %s%s%s",
                         labels(page, c, best), against_all(page, c, best),
                         no_difference(c), before, trade);
    return bw_phrase(page, "%s, since %s", labels(page, c, 1),
                     against_all(page, c, 1));
}

/* Among those that cannot be told apart. */
static bool verdicts_differ(const bw_comparison *c)
{
    for (size_t k = 1; k < c->best_count; k++)
        if (c->wall[c->order[k]].verdict != c->wall[c->order[0]].verdict)
            return true;
    return false;
}

static void say_answer(bw_page *page, const bw_comparison *c)
{
    const bool alike = !c->climates_differ && !c->indoors_differ;
    bw_lead(page, "Which wall%s: %s.",
            alike ? "" : ", each in its own climate and room", answer(page, c));
}

/* Where nothing tells them apart, by what they were to be told. */
BW_PART(which, NULL)
{
    const bw_comparison *c = of->comparison;
    const bool told = page->options->extent != BW_EXTENT_FULL &&
                      c->best_count < 2;
    say_answer(page, c);
    if (told && page->cut < BW_ITEMS)
        bw_text(page, "Ranked by verdict, by stresses held, by what is left to "
                      "the nearest limit.");
    if (!told)
        bw_text(
            page,
            "Ranked by verdict, by stresses held, by what is left to the "
            "nearest limit; less than %.0f %% of a limit between two walls is "
            "no difference: materials, rain and work are known no better.%s",
            100.0 * BW_COMPARE_DIFFERENCE,
            verdicts_differ(c) ? " Here the verdicts differ by no more." : "");
}

/* In a word. */
BW_PART(which_again, NULL)
{
    const bw_comparison *c = of->comparison;
    bw_lead(page, "Which wall: %s.",
            without_air(page, c) != NULL     ? "not comparable"
            : c->best_count == c->wall_count ? no_difference(c)
            : c->best_count > 0              ? labels(page, c, c->best_count)
            : all_are(c, BW_FAILS)           ? "none of them"
                                             : "none of them is known to hold");
}
