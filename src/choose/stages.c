#include <math.h>

#include "choosing.h"
#include "fail.h"

/* In their order: what is over a limit is out; the months race all that is left
 * under a Sobol set; what is left is simulated as drawn, and with each unknown
 * at its ends alone. What one finding alone breaks is broken, and needs no
 * proof by numbers: the drawn cases are for what none breaks, or where there is
 * no such design for all. At last the worst drawn case with each unknown as
 * drawn again, which names the one that decides. Without simulation the months
 * do the last steps, too.
 *
 * Invariant: what a part of several computes does not depend on the other
 * parts. */

static size_t left(const bw_choosing *c)
{
    size_t count = 0;
    for (size_t i = 0; i < c->count; i++)
        count += !c->candidate[i].judged_out;
    return count;
}

static void out(bw_choosing *c, size_t design, const char *why)
{
    c->candidate[design].judged_out = true;
    c->design[design].standing = BW_OUT;
    c->design[design].dropped = why;
}

/* ---- a list of cases ----------------------------------------------------- */

typedef struct jobs {
    bw_choosing *c;
    bw_arena arena;
    bw_job *job;
    size_t count, room;
} jobs;

static void add(jobs *to, size_t design, size_t slot, bool simulate)
{
    bw_job *all = bw_arena_more(&to->arena, to->job, to->count, &to->room,
                                sizeof *all);
    if (all == NULL)
        return;
    to->job = all;
    to->job[to->count++] = (bw_job){design, slot, simulate};
}

static bw_status run(jobs *all, bw_error *err)
{
    const bw_status status = all->arena.failed ? bw_fail_memory(err)
                                               : bw_jobs_run(all->c, all->job,
                                                             all->count, err);
    bw_arena_release(&all->arena);
    return status;
}

/* ---- racing -------------------------------------------------------------- */

/* A race of cases that begin at a slot. */
typedef struct running {
    bw_choosing *c;
    size_t first;
    bool simulate;
} running;

/* Of the designs of this part. */
static bool is_mine(const bw_choosing *c, size_t design)
{
    size_t place = 0;
    if (c->options.parts == 0)
        return true;
    for (size_t i = 0; i < design; i++)
        place += !c->candidate[i].judged_out;
    return place % c->options.parts + 1 == c->options.part;
}

static double goal_of(const bw_judged *j, bw_goal goal)
{
    if (goal != BW_GOAL_FAILING)
        return j->goal[goal];
    return bw_verdict_good(j->numbers) ? 0.0 : 1.0;
}

static bw_status judge(void *payload, bw_race *race, size_t from, size_t to,
                       bw_error *err)
{
    const running *r = payload;
    jobs all = {.c = r->c};
    for (size_t d = 0; d < race->count; d++)
        for (size_t i = from; race->alive[d] && i < to; i++)
            add(&all, d, r->first + i, r->simulate);
    BW_TRY(run(&all, err));
    for (size_t d = 0; d < race->count; d++)
        for (size_t i = from; race->alive[d] && i < to; i++)
            for (int g = 0; g < BW_GOAL_COUNT; g++)
                race->value[(d * race->cap + i) * BW_GOAL_COUNT + (size_t)g] =
                    goal_of(bw_judged_of(r->c, d, r->first + i, r->simulate),
                            (bw_goal)g);
    return BW_OK;
}

static void told(void *payload, size_t cases, size_t before, size_t after)
{
    const running *r = payload;
    bw_chosen *out_to = &r->c->chosen;
    if (out_to->round_count < BW_ROUNDS_MOST)
        out_to->round[out_to->round_count++] = (bw_round){r->simulate, cases,
                                                          before, after};
}

static bw_race *make_race(bw_choosing *c, size_t cap)
{
    bw_race *race = BW_NEW(&c->arena, bw_race, 1);
    if (race == NULL)
        return NULL;
    *race = (bw_race){
        .count = c->count,
        .cap = cap,
        .fixed = BW_NEW(&c->arena, double, c->count *BW_GOAL_COUNT),
        .value = BW_NEW(&c->arena, double, c->count *cap *BW_GOAL_COUNT),
        .tail = BW_NEW(&c->arena, double,
                       c->count *BW_RACE_SETS *BW_GOAL_COUNT),
        .alive = BW_NEW(&c->arena, bool, c->count),
        .beaten_by = BW_NEW(&c->arena, long, c->count),
        .beaten_after = BW_NEW(&c->arena, size_t, c->count)};
    if (c->arena.failed)
        return NULL;
    for (size_t i = 0; i < c->count; i++) {
        race->alive[i] = !c->candidate[i].judged_out;
        race->beaten_by[i] = -1;
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            race->fixed[i * BW_GOAL_COUNT + (size_t)g] =
                bw_goal_is_drawn((bw_goal)g) ? (double)NAN
                                             : c->design[i].goal[g];
    }
    return race;
}

static bw_status drop_beaten(bw_choosing *c, const bw_race *race,
                             bool simulated, bw_error *err)
{
    for (size_t i = 0; i < c->count; i++) {
        if (c->candidate[i].judged_out || race->beaten_by[i] < 0)
            continue;
        const size_t by = (size_t)race->beaten_by[i];
        c->design[i].beaten_by = race->beaten_by[i];
        c->design[i].beaten_after = race->beaten_after[i];
        out(c, i,
            bw_arena_say(&c->arena, "beaten by %s after %zu cases%s",
                         c->design[by].name, race->beaten_after[i],
                         simulated ? "" : " by months"));
        c->chosen.beaten++;
    }
    return c->arena.failed ? bw_fail_memory(err) : BW_OK;
}

static bw_status race_by_months(bw_choosing *c, bw_error *err)
{
    running r = {.c = c, .first = bw_slot_race(&c->slots, 0)};
    bw_race *race = make_race(c, c->slots.race);
    BW_TRY_MEMORY(race != NULL, err);
    race->must_fail = c->chosen.simulated;
    BW_TRY(bw_race_run(race, judge, told, &r, err));
    return drop_beaten(c, race, false, err);
}

/* ---- as drawn ------------------------------------------------------------ */

static bw_status as_drawn(bw_choosing *c, bw_error *err)
{
    jobs all = {.c = c};
    for (size_t i = 0; i < c->count; i++)
        if (!c->candidate[i].judged_out && is_mine(c, i))
            add(&all, i, BW_SLOT_AS_DRAWN, c->chosen.simulated);
    BW_TRY(run(&all, err));
    for (size_t i = 0; i < c->count; i++) {
        const bw_judged *j = bw_judged_of(c, i, BW_SLOT_AS_DRAWN,
                                          c->chosen.simulated);
        const bool bad = j->said == BW_FAILS ||
                         (c->chosen.simulated && j->said == BW_NOT_ASSESSED);
        if (c->candidate[i].judged_out || !j->done || !is_mine(c, i))
            continue;
        c->candidate[i].good_as_drawn = !bad;
        if (c->options.parts > 0)
            continue;
        bw_design *d = &c->design[i];
        d->as_drawn = j->said;
        d->figure = bw_judged_figure(&c->arena, j);
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            d->drawn_goal[g] = bw_goal_is_drawn((bw_goal)g) &&
                                       g != BW_GOAL_FAILING
                                   ? j->goal[g]
                                   : d->goal[g];
        if (!bad)
            continue;
        out(c, i,
            bw_arena_say(&c->arena, "%s as drawn: %s",
                         j->said == BW_FAILS ? "fails" : "cannot be assessed",
                         d->figure.criterion != NULL ? d->figure.criterion
                                                     : ""));
        c->chosen.as_drawn_failing++;
    }
    return c->arena.failed ? bw_fail_memory(err) : BW_OK;
}

/* ---- each alone ---------------------------------------------------------- */

static bool fails_alone(const bw_choosing *c, size_t design)
{
    for (size_t u = 0; u < c->candidate[design].study.count; u++)
        for (size_t e = 0; e < 2; e++) {
            const bw_judged *j = bw_judged_of(c, design, bw_slot_end(u, e),
                                              c->chosen.simulated);
            if (j->done && j->said == BW_FAILS)
                return true;
        }
    return false;
}

static bw_status each_alone(bw_choosing *c, bw_error *err)
{
    jobs all = {.c = c};
    for (size_t i = 0; i < c->count; i++) {
        const bw_study *study = &c->candidate[i].study;
        const bool wanted = c->candidate[i].good_as_drawn;
        for (size_t u = 0; wanted && u < study->count; u++) {
            bw_setting end[2];
            const size_t ends = bw_source_ends(&study->source[u], end);
            for (size_t e = 0; study->source[u].shown.seen && e < ends; e++)
                add(&all, i, bw_slot_end(u, e), c->chosen.simulated);
        }
    }
    BW_TRY(run(&all, err));
    for (size_t i = 0; i < c->count; i++)
        c->candidate[i].broken = c->candidate[i].good_as_drawn &&
                                 fails_alone(c, i);
    return BW_OK;
}

/* ---- drawn cases --------------------------------------------------------- */

/* Of what none alone breaks; of all where there is no such design. */
static void choose_drawn(bw_choosing *c, bw_race *race)
{
    size_t unbroken = 0;
    for (size_t i = 0; i < c->count; i++)
        unbroken += c->candidate[i].good_as_drawn && !c->candidate[i].broken;
    for (size_t i = 0; i < c->count; i++) {
        race->alive[i] = c->candidate[i].good_as_drawn &&
                         !(c->candidate[i].broken &&
                           (unbroken > 0 || c->options.parts > 0));
        c->chosen.drawn_designs += race->alive[i];
    }
}

static bw_status race_drawn(bw_choosing *c, bw_error *err)
{
    running r = {.c = c,
                 .first = bw_slot_drawn(&c->slots, 0),
                 .simulate = c->chosen.simulated};
    c->statement = make_race(c, c->slots.drawn);
    BW_TRY_MEMORY(c->statement != NULL, err);
    choose_drawn(c, c->statement);
    if (c->options.parts > 0)
        return judge(&r, c->statement, 0, c->slots.drawn, err);
    BW_TRY(bw_race_run(c->statement, judge, told, &r, err));
    return drop_beaten(c, c->statement, c->chosen.simulated, err);
}

/* ---- what decides -------------------------------------------------------- */

static bw_status what_decides(bw_choosing *c, bw_error *err)
{
    jobs all = {.c = c};
    for (size_t i = 0; i < c->count; i++) {
        if (c->candidate[i].judged_out)
            continue;
        const bw_study *study = &c->candidate[i].study;
        const size_t worst = bw_worst_drawn(c, i);
        if (worst == c->slots.drawn ||
            bw_verdict_good(bw_judged_of(c, i, bw_slot_drawn(&c->slots, worst),
                                         c->chosen.simulated)
                                ->numbers))
            continue;
        for (size_t u = 0; u < study->count; u++)
            if (study->source[u].shown.seen &&
                (u == 0 ||
                 c->candidate[i].finding[u] != c->candidate[i].finding[u - 1]))
                add(&all, i, bw_slot_reset(&c->slots, u), c->chosen.simulated);
    }
    return run(&all, err);
}

bw_status bw_stages_run(bw_choosing *c, bw_error *err)
{
    if (left(c) > 1)
        BW_TRY(race_by_months(c, err));
    BW_TRY(as_drawn(c, err));
    BW_TRY(each_alone(c, err));
    BW_TRY(race_drawn(c, err));
    return c->options.parts == 0 ? what_decides(c, err) : BW_OK;
}
