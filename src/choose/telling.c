#include <math.h>

#include "bound.h"
#include "choosing.h"
#include "fail.h"

/* What is said of each design that is left, read off its cases.
 *
 * Invariant: a design stands only where every case that was to be computed was
 * assessed and holds; one that nothing judged never does. */

static const double CONFIDENCE = 0.95;

const char *bw_standing_text(bw_standing standing)
{
    static const char *const words[] = {[BW_STANDS] = "holds",
                                        [BW_BREAKS] = "breaks",
                                        [BW_UNDECIDED] = "not assessed",
                                        [BW_OUT] = "dropped"};
    return words[standing];
}

/* ---- one finding alone --------------------------------------------------- */

static int badness(bw_verdict verdict)
{
    static const int of[] = {[BW_HOLDS] = 0,
                             [BW_MARGINAL] = 1,
                             [BW_NOT_ASSESSED] = 2,
                             [BW_FAILS] = 3};
    return of[verdict];
}

static bool is_worse(const bw_judged *a, const bw_found_alone *b)
{
    if (!b->computed)
        return true;
    if (badness(a->said) != badness(b->verdict))
        return badness(a->said) > badness(b->verdict);
    if (badness(a->numbers) != badness(b->numbers))
        return badness(a->numbers) > badness(b->numbers);
    return a->margin < b->figure.margin;
}

static void take_end(bw_choosing *c, size_t design, size_t unknown, size_t end,
                     bw_found_alone *to)
{
    const bw_study *study = &c->candidate[design].study;
    const bw_source *source = &study->source[unknown];
    const bw_judged *j = bw_judged_of(c, design, bw_slot_end(unknown, end),
                                      c->chosen.simulated);
    bw_setting ends[2];
    if (!j->done || !is_worse(j, to))
        return;
    (void)bw_source_ends(source, ends);
    to->computed = true;
    to->simulated = j->simulated;
    to->verdict = j->said;
    to->numbers = j->numbers;
    to->setting = bw_setting_words(study, source, ends[end].value);
    to->figure = bw_judged_figure(&c->arena, j);
}

static bw_status find_alone(bw_choosing *c, size_t design, bw_error *err)
{
    const bw_candidate *of = &c->candidate[design];
    bw_found_alone *found = BW_NEW(&c->arena, bw_found_alone,
                                   c->finding_count + 1);
    BW_TRY_MEMORY(found != NULL, err);
    for (size_t i = 0; i < of->study.count; i++) {
        bw_found_alone *to = &found[of->finding[i]];
        if (c->finding[of->finding[i]].settled)
            continue;
        if (!to->applies)
            *to = (bw_found_alone){.applies = true,
                                   .verdict = BW_NOT_ASSESSED,
                                   .numbers = BW_NOT_ASSESSED,
                                   .setting = "",
                                   .figure = {.criterion = "", .unit = ""}};
        take_end(c, design, i, 0, to);
        take_end(c, design, i, 1, to);
    }
    for (size_t f = 0; f < c->finding_count; f++) {
        c->finding[f].asked += found[f].computed;
        c->finding[f].broken += found[f].computed &&
                                found[f].verdict == BW_FAILS;
    }
    c->design[design].found = found;
    return BW_OK;
}

/* ---- the drawn cases ----------------------------------------------------- */

static void count(bw_choosing *c, size_t design)
{
    bw_design *d = &c->design[design];
    for (size_t i = 0; i < c->slots.drawn; i++) {
        const bw_judged *j = bw_judged_of(
            c, design, bw_slot_drawn(&c->slots, i), c->chosen.simulated);
        d->drawn += j->done;
        d->failed += j->done && j->said == BW_FAILS;
        d->unassessed += j->done && j->said == BW_NOT_ASSESSED;
        d->failed_numbers += j->done && j->numbers == BW_FAILS;
    }
    if (d->drawn > 0)
        d->bound = bw_share_bound(d->failed + d->unassessed, d->drawn,
                                  CONFIDENCE);
    d->goal[BW_GOAL_FAILING] = d->drawn > 0 ? (double)d->failed_numbers /
                                                  (double)d->drawn
                                            : (double)NAN;
}

static bw_status find_tails(bw_choosing *c, size_t design, bw_error *err)
{
    bw_design *d = &c->design[design];
    bw_arena scratch = {0};
    if (d->drawn == 0)
        return BW_OK;
    double *room = BW_NEW(&scratch, double, c->slots.drawn);
    BW_TRY_MEMORY(room != NULL, err);
    const double *first = c->statement->value +
                          design * c->slots.drawn * BW_GOAL_COUNT;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        if (bw_goal_is_drawn((bw_goal)g) && g != BW_GOAL_FAILING)
            d->goal[g] = bw_goal_tail((bw_goal)g, first + g, d->drawn,
                                      BW_GOAL_COUNT, room);
    bw_arena_release(&scratch);
    return BW_OK;
}

/* The unknown that gains most when it is as drawn again. */
static const char *decides(const bw_choosing *c, size_t design)
{
    const bw_candidate *of = &c->candidate[design];
    const bw_judged *best = NULL;
    const char *name = "";
    for (size_t i = 0; i < of->study.count; i++) {
        const bw_judged *j = bw_judged_of(
            c, design, bw_slot_reset(&c->slots, i), c->chosen.simulated);
        if (!j->done ||
            (best != NULL && (badness(j->numbers) > badness(best->numbers) ||
                              (badness(j->numbers) == badness(best->numbers) &&
                               !(j->margin > best->margin)))))
            continue;
        best = j;
        name = c->chosen.finding[of->finding[i]].name;
    }
    return name;
}

static bw_status find_worst(bw_choosing *c, size_t design, bw_error *err)
{
    bw_design *d = &c->design[design];
    const bw_study *study = &c->candidate[design].study;
    const size_t worst = bw_worst_drawn(c, design);
    if (worst == c->slots.drawn)
        return BW_OK;
    const size_t slot = bw_slot_drawn(&c->slots, worst);
    const bw_judged *j = bw_judged_of(c, design, slot, c->chosen.simulated);
    bw_setting *setting = BW_NEW(&c->arena, bw_setting, study->count + 1);
    BW_TRY_MEMORY(setting != NULL, err);
    bw_settings_of(c, design, slot, setting);
    d->worst = bw_settings_words(study, setting);
    d->worst_verdict = j->said;
    d->worst_numbers = j->numbers;
    d->worst_figure = bw_judged_figure(&c->arena, j);
    d->decides = decides(c, design);
    return BW_OK;
}

/* ---- what breaks it ------------------------------------------------------ */

static bool fails_alone(const bw_found_alone *f, bool numbers)
{
    return f->computed && (numbers ? f->numbers : f->verdict) == BW_FAILS;
}

/* Of those alone the one with the least margin, else all at once. */
static bool find_breaking(const bw_choosing *c, bw_design *d, bool numbers)
{
    const bw_found_alone *worst = NULL;
    for (size_t f = 0; f < c->finding_count; f++)
        if (fails_alone(&d->found[f], numbers) &&
            (worst == NULL || d->found[f].figure.margin < worst->figure.margin))
            worst = &d->found[f];
    if (worst != NULL) {
        d->breaks = worst->setting;
        d->breaks_figure = worst->figure;
        return true;
    }
    if ((numbers ? d->worst_numbers : d->worst_verdict) != BW_FAILS ||
        d->drawn == 0)
        return false;
    d->breaks = d->worst;
    d->breaks_figure = d->worst_figure;
    return true;
}

/* Of no design are the junctions judged that the wall names: `check` lets none
 * be better than the worst of them. */
static bool is_assessed(const bw_choosing *c, const bw_design *d)
{
    bool all = c->chosen.assembly->junction_count == 0 &&
               d->drawn == c->slots.drawn && d->unassessed == 0 &&
               bw_verdict_good(d->as_drawn);
    for (size_t f = 0; f < c->finding_count; f++)
        all = all &&
              (!d->found[f].applies ||
               (d->found[f].computed && bw_verdict_good(d->found[f].verdict)));
    return all;
}

/* `check` calls such a wall marginal. */
static bool is_marginal(const bw_choosing *c, size_t design)
{
    const bw_design *d = &c->design[design];
    bool any = d->as_drawn == BW_MARGINAL;
    for (size_t f = 0; f < c->finding_count; f++)
        any = any ||
              (d->found[f].computed && d->found[f].verdict == BW_MARGINAL);
    for (size_t i = 0; i < c->slots.drawn; i++) {
        const bw_judged *j = bw_judged_of(
            c, design, bw_slot_drawn(&c->slots, i), c->chosen.simulated);
        any = any || (j->done && j->said == BW_MARGINAL);
    }
    return any;
}

static bw_status tell(bw_choosing *c, size_t i, bw_error *err)
{
    bw_design *d = &c->design[i];
    count(c, i);
    BW_TRY(find_alone(c, i, err));
    BW_TRY(find_tails(c, i, err));
    BW_TRY(find_worst(c, i, err));
    if (find_breaking(c, d, false)) {
        d->standing = BW_BREAKS;
        return BW_OK;
    }
    d->standing = is_assessed(c, d) ? BW_STANDS : BW_UNDECIDED;
    d->marginally = d->standing == BW_STANDS && is_marginal(c, i);
    (void)find_breaking(c, d, true);
    return BW_OK;
}

/* A design that breaks where one that holds is no worse in what is fixed. */
static void drop_broken(bw_choosing *c)
{
    const bool cost = c->chosen.choices->has_price ||
                      c->chosen.choices->has_carbon;
    for (size_t b = 0; b < c->count; b++)
        for (size_t a = 0; a < c->count; a++) {
            bw_design *d = &c->design[b];
            if (c->candidate[b].judged_out || c->candidate[a].judged_out ||
                d->standing != BW_BREAKS ||
                c->design[a].standing != BW_STANDS ||
                !bw_race_is_no_worse(c->statement, a, b))
                continue;
            c->candidate[b].judged_out = true;
            d->standing = BW_OUT;
            d->beaten_by = (long)a;
            d->dropped = bw_arena_say(
                &c->arena,
                "breaks with %s; %s holds and is no worse in U, thickness%s",
                d->breaks, c->design[a].name, cost ? " and cost" : "");
            c->chosen.broken++;
        }
}

bw_status bw_choice_tell(bw_choosing *c, bw_error *err)
{
    for (size_t i = 0; i < c->count; i++)
        if (!c->candidate[i].judged_out)
            BW_TRY(tell(c, i, err));
    drop_broken(c);
    BW_TRY(bw_front_find(c, err));
    bw_chosen *out = &c->chosen;
    for (size_t i = 0; i < out->front_count; i++)
        out->holding += c->design[out->front[i]].standing == BW_STANDS;
    const bw_design *first = out->front_count > 0 ? &c->design[out->front[0]]
                                                  : NULL;
    out->joint_bound =
        first != NULL && first->drawn > 0
            ? bw_share_bound(first->failed + first->unassessed, first->drawn,
                             1.0 - (1.0 - CONFIDENCE) /
                                       (double)out->drawn_designs)
            : (double)NAN;
    return c->arena.failed ? bw_fail_memory(err) : BW_OK;
}
