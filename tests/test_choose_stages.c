/* The steps of a choice, by cases that are judged already: which designs are
 * raced, run as drawn, with each unknown alone and in drawn cases, which are
 * dropped at which step, and how many cases that takes. The order of the steps
 * is that of docs/scaling.md and at the head of src/choose/stages.c; races are
 * run a second time from the same cases. And when a race drops a design: from
 * Student's t on, shared out over rounds and designs. */

#include "choice_made.h"

static size_t jobs[2]; /* by months, simulated */

/* ---- races, from the cases ------------------------------------------------
 */

static double fixed[DESIGNS][BW_GOAL_COUNT];
static double tail[DESIGNS][BW_RACE_SETS][BW_GOAL_COUNT];
static bool alive[DESIGNS];
static long beaten_by[DESIGNS];
static size_t beaten_after[DESIGNS];

typedef struct track {
    int method;
    size_t first, rounds, cases[8], before[8];
} track;

static size_t living(const bw_race *race)
{
    size_t count = 0;
    for (size_t d = 0; d < race->count; d++)
        count += race->alive[d];
    return count;
}

static bw_status give(void *payload, bw_race *race, size_t from, size_t to,
                      bw_error *err)
{
    track *t = payload;
    (void)err;
    t->before[t->rounds] = living(race);
    t->cases[t->rounds++] = to;
    for (size_t d = 0; d < race->count; d++)
        for (size_t i = from; race->alive[d] && i < to; i++) {
            const bw_judged *j = &judged[d][t->method][t->first + i];
            double *at = race->value + (d * race->cap + i) * BW_GOAL_COUNT;
            memcpy(at, j->goal, sizeof j->goal);
            at[BW_GOAL_FAILING] = is_bad(j->numbers) > 1 ? 1.0 : 0.0;
            jobs[t->method]++;
        }
    return BW_OK;
}

/* Those alive, under cases of so many. */
static bw_race run_race(track *t, size_t cap, bool must_fail)
{
    static double room[DESIGNS * RACED * BW_GOAL_COUNT];
    bw_race race = {.count = c.count,
                    .cap = cap,
                    .fixed = fixed[0],
                    .value = room,
                    .tail = tail[0][0],
                    .must_fail = must_fail,
                    .alive = alive,
                    .beaten_by = beaten_by,
                    .beaten_after = beaten_after};
    for (size_t i = 0; i < c.count; i++) {
        beaten_by[i] = -1;
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            fixed[i][g] = g == BW_GOAL_U || g == BW_GOAL_THICKNESS
                              ? design[i].goal[g]
                              : (double)NAN;
    }
    ck_assert(bw_race_run(&race, give, NULL, t, NULL) == BW_OK);
    return race;
}

/* ---- the steps, a second time ---------------------------------------------
 */

typedef struct state {
    bool out[DESIGNS], good[DESIGNS], broken[DESIGNS];
    long by[DESIGNS]; /* another design */
    size_t after[DESIGNS];
    const char *why[DESIGNS]; /* a word of it */
    size_t beaten, failing, drawn, rounds, cases[16];
    bool simulated[16];
} state;

static void drop_beaten(state *s, const track *t, const char *why)
{
    for (size_t i = 0; i < c.count; i++)
        if (!s->out[i] && beaten_by[i] >= 0) {
            s->out[i] = true;
            s->by[i] = beaten_by[i];
            s->after[i] = beaten_after[i];
            s->why[i] = why;
            s->beaten++;
        }
    for (size_t r = 0; r < t->rounds; r++) {
        s->cases[s->rounds] = t->cases[r];
        s->simulated[s->rounds++] = t->method == 1;
    }
}

static void race_by_months(state *s)
{
    track t = {.method = 0, .first = bw_slot_race(&c.slots, 0)};
    size_t left = 0;
    for (size_t i = 0; i < c.count; i++) {
        alive[i] = !s->out[i];
        left += alive[i];
    }
    if (left < 2)
        return;
    (void)run_race(&t, RACED, c.chosen.simulated);
    drop_beaten(s, &t, " by months");
}

/* Dealt out in turn to the parts. */
static bool is_mine(const state *s, size_t i)
{
    size_t before = 0;
    for (size_t k = 0; k < i; k++)
        before += !s->out[k];
    return c.options.parts == 0 ||
           before % c.options.parts == c.options.part - 1;
}

static void as_drawn(state *s, int method)
{
    bool mine[DESIGNS];
    for (size_t i = 0; i < c.count; i++)
        mine[i] = !s->out[i] && is_mine(s, i);
    for (size_t i = 0; i < c.count; i++) {
        const bw_judged *j = &judged[i][method][BW_SLOT_AS_DRAWN];
        if (!mine[i])
            continue;
        jobs[method]++;
        s->good[i] = j->said == BW_HOLDS || j->said == BW_MARGINAL ||
                     (method == 0 && j->said == BW_NOT_ASSESSED);
        if (s->good[i] || c.options.parts > 0)
            continue;
        s->out[i] = true;
        s->why[i] = j->said == BW_FAILS ? "fails as drawn"
                                        : "cannot be assessed as drawn";
        s->failing++;
    }
}

static void each_alone(state *s, int method)
{
    for (size_t i = 0; i < c.count; i++)
        for (size_t u = 0; s->good[i] && u < candidate[i].study.count; u++) {
            const size_t ends = source[i][u].shown.two_ended ? 2 : 1;
            for (size_t e = 0; source[i][u].shown.seen && e < ends; e++) {
                jobs[method]++;
                s->broken[i] = s->broken[i] ||
                               judged[i][method][bw_slot_end(u, e)].said ==
                                   BW_FAILS;
            }
        }
}

static void race_drawn(state *s, int method)
{
    track t = {.method = method, .first = bw_slot_drawn(&c.slots, 0)};
    size_t unbroken = 0;
    for (size_t i = 0; i < c.count; i++)
        unbroken += s->good[i] && !s->broken[i];
    for (size_t i = 0; i < c.count; i++) {
        alive[i] = s->good[i] &&
                   (!s->broken[i] || (unbroken == 0 && c.options.parts == 0));
        s->drawn += alive[i];
    }
    if (c.options.parts > 0) {
        jobs[method] += s->drawn * DRAWN;
        return;
    }
    (void)run_race(&t, DRAWN, false);
    drop_beaten(s, &t, " cases");
}

static void what_decides(const state *s, int method)
{
    for (size_t i = 0; c.options.parts == 0 && i < c.count; i++) {
        const size_t worst = bw_worst_drawn(&c, i);
        const size_t *of = finding_of[i];
        if (s->out[i] ||
            is_bad(judged[i][method][bw_slot_drawn(&c.slots, worst)].numbers) <
                2)
            continue;
        for (size_t u = 0; u < candidate[i].study.count; u++)
            jobs[method] += source[i][u].shown.seen &&
                            (u == 0 || of[u] != of[u - 1]);
    }
}

/* ---- beside each other ----------------------------------------------------
 */

static void look_at(size_t i, const state *s, bool out_before)
{
    const bw_design *d = &design[i];
    const bw_judged *j = case_of(i, BW_SLOT_AS_DRAWN);
    ck_assert_int_eq(candidate[i].judged_out, s->out[i]);
    ck_assert_int_eq(candidate[i].good_as_drawn, s->good[i]);
    ck_assert_int_eq(candidate[i].broken, s->broken[i]);
    ck_assert_int_eq(d->beaten_by, s->by[i]);
    if (s->by[i] >= 0) {
        ck_assert_uint_eq(d->beaten_after, s->after[i]);
        ck_assert_ptr_nonnull(strstr(d->dropped, design[s->by[i]].name));
    }
    if (s->out[i] && !out_before) {
        ck_assert_int_eq(d->standing, BW_OUT);
        ck_assert_ptr_nonnull(strstr(d->dropped, s->why[i]));
    }
    const bool run = c.options.parts == 0 && !out_before &&
                     (s->why[i] == NULL || s->good[i] || s->by[i] < 0);
    if (!run)
        return;
    ck_assert_int_eq(d->as_drawn, j->said);
    ck_assert(fabs(d->figure.margin - j->margin) < 1e-12);
    for (int g = BW_GOAL_RESERVE; g <= BW_GOAL_WOOD; g++)
        ck_assert(fabs(d->drawn_goal[g] - j->goal[g]) < 1e-12);
    ck_assert(fabs(d->drawn_goal[BW_GOAL_U] - d->goal[BW_GOAL_U]) < 1e-12);
    ck_assert(isnan(d->drawn_goal[BW_GOAL_FAILING]));
}

/* What was drawn is what its cases were. */
static void look_at_statement(const state *s, int method)
{
    for (size_t i = 0; i < c.count; i++)
        for (size_t k = 0; k < DRAWN; k++) {
            const double *at = c.statement->value +
                               (i * DRAWN + k) * BW_GOAL_COUNT;
            const bw_judged *j = &judged[i][method][bw_slot_drawn(&c.slots, k)];
            if (s->out[i] || !s->good[i] || s->broken[i])
                continue;
            ck_assert(fabs(at[BW_GOAL_MOULD] - j->goal[BW_GOAL_MOULD]) < 1e-12);
            ck_assert_int_eq(at[BW_GOAL_FAILING] > 0.5, is_bad(j->numbers) > 1);
        }
}

static size_t beaten, failing, broken, parted;

static void run_once(double good)
{
    state s = {.beaten = 0};
    bool out_before[DESIGNS];
    bw_error err = {0};
    draw_choice(1 + pick(DESIGNS), good);
    c.options.parts = chance(0.3) ? 2 : 0;
    c.options.part = c.options.parts > 0 ? 1 + pick(2) : 0;
    const int method = c.chosen.simulated;
    for (size_t i = 0; i < c.count; i++) {
        s.out[i] = out_before[i] = candidate[i].judged_out;
        s.by[i] = -1;
    }
    jobs[0] = jobs[1] = 0;
    race_by_months(&s);
    as_drawn(&s, method);
    each_alone(&s, method);
    race_drawn(&s, method);
    what_decides(&s, method);
    ck_assert(bw_stages_run(&c, &err) == BW_OK);
    for (size_t i = 0; i < c.count; i++) {
        look_at(i, &s, out_before[i]);
        broken += s.broken[i];
    }
    look_at_statement(&s, method);
    ck_assert_uint_eq(c.chosen.beaten, s.beaten);
    ck_assert_uint_eq(c.chosen.as_drawn_failing, s.failing);
    ck_assert_uint_eq(c.chosen.drawn_designs, s.drawn);
    ck_assert_uint_eq(c.tally.steady, jobs[0]);
    ck_assert_uint_eq(c.tally.simulated, jobs[1]);
    ck_assert_uint_eq(c.chosen.round_count, s.rounds);
    for (size_t r = 0; r < s.rounds; r++) {
        ck_assert_uint_eq(c.chosen.round[r].cases, s.cases[r]);
        ck_assert_int_eq(c.chosen.round[r].simulated, s.simulated[r]);
        ck_assert(c.chosen.round[r].designs_after <=
                  c.chosen.round[r].designs_before);
    }
    beaten += s.beaten;
    failing += s.failing;
    parted += c.options.parts > 0;
    forget_choice();
}

START_TEST(each_step_takes_what_the_one_before_has_left)
{
    die = (dice){.state = 88172645463325252u};
    beaten = failing = broken = parted = 0;
    for (int draws = 0; draws < 300; draws++)
        run_once(draws % 3 == 0 ? 0.7 : draws % 3 == 1 ? 0.9 : 1.0);
    ck_assert(beaten > 20 && failing > 20 && broken > 20 && parted > 20);
}
END_TEST

/* ---- when a race drops a design -------------------------------------------
 */

enum { CASES = 96 };

static bw_race made;
static double cases[DESIGNS][CASES][BW_GOAL_COUNT];
static size_t asked[DESIGNS];

static bw_status take(void *payload, bw_race *race, size_t from, size_t to,
                      bw_error *err)
{
    (void)payload, (void)err;
    for (size_t d = 0; d < race->count; d++)
        for (size_t i = from; race->alive[d] && i < to; i++, asked[d]++)
            memcpy(race->value + (d * race->cap + i) * BW_GOAL_COUNT,
                   cases[d][i], sizeof cases[d][i]);
    return BW_OK;
}

/* Designs that are the same in everything. */
static void make_race(size_t count, size_t cap)
{
    static double room[DESIGNS * CASES * BW_GOAL_COUNT];
    made = (bw_race){.count = count,
                     .cap = cap,
                     .fixed = fixed[0],
                     .value = room,
                     .tail = tail[0][0],
                     .alive = alive,
                     .beaten_by = beaten_by,
                     .beaten_after = beaten_after};
    for (size_t d = 0; d < count; d++) {
        alive[d] = true;
        beaten_by[d] = -1;
        asked[d] = beaten_after[d] = 0;
        for (int g = 0; g < BW_GOAL_COUNT; g++) {
            fixed[d][g] = 1.0;
            for (size_t i = 0; i < CASES; i++)
                cases[d][i][g] = g == BW_GOAL_FAILING ? 0.0 : 1.0;
        }
    }
}

static void race(void)
{
    ck_assert(bw_race_run(&made, take, NULL, NULL, NULL) == BW_OK);
}

/* Half of a chance of 0.05, shared out over the rounds of 32, 64, ... cases
 * and the other designs. */
static const struct limit_row {
    size_t designs, cap;
    double rounds;
} limit_rows[] = {{2, 32, 1.0}, {2, 64, 2.0}, {2, 96, 3.0},
                  {3, 32, 1.0}, {5, 64, 2.0}, {5, 96, 3.0}};

/* d / (s / sqrt 8) of eight sets whose cases are alike; the second is the worse
 * by that. The others insulate better, and their wood is wetter. */
START_TEST(a_design_is_dropped_from_students_t_on)
{
    const struct limit_row *row = &limit_rows[_i];
    const double others = (double)row->designs - 1.0;
    const double limit = bw_t7(1.0 - 0.025 / (row->rounds * others));
    static const double z[BW_RACE_SETS] = {-3, 1, 2, -1, 4, 0, -2, -1};
    double square = 0.0;
    for (size_t k = 0; k < BW_RACE_SETS; k++)
        square += z[k] * z[k]; /* their mean is 0 */
    const double error = sqrt(square / 7.0 / 8.0);
    for (int beyond = 0; beyond < 2; beyond++) {
        const double by = (beyond == 1 ? 1.001 : 0.999) * limit * error;
        make_race(row->designs, row->cap);
        for (size_t i = 0; i < CASES; i++)
            cases[1][i][BW_GOAL_MOULD] += z[i % BW_RACE_SETS] + by;
        for (size_t d = 2; d < row->designs; d++) {
            fixed[d][BW_GOAL_U] -= 0.1 * (double)d;
            for (size_t i = 0; i < CASES; i++)
                cases[d][i][BW_GOAL_WOOD] += 10.0 * (double)d;
        }
        race();
        for (size_t d = 0; d < row->designs; d++)
            ck_assert_int_eq(alive[d], d != 1 || beyond == 0);
        ck_assert_int_eq(beaten_by[1], beyond - 1);
        ck_assert_uint_eq(asked[1], beyond ? 32 : row->cap);
        ck_assert_uint_eq(beaten_after[1], beyond ? 32 : 0);
        ck_assert_uint_eq(asked[0], row->cap);
    }
}
END_TEST

/* What shows in the second half of 64 cases drops a design after these. */
START_TEST(a_design_is_dropped_after_the_cases_that_tell)
{
    static const size_t first[] = {0, 32, 64}, told[] = {32, 64, 96};
    for (size_t k = 0; k < 3; k++) {
        make_race(2, CASES);
        for (size_t i = first[k]; i < CASES; i++)
            cases[0][i][BW_GOAL_RESERVE] -= 0.5;
        race();
        ck_assert_int_eq(beaten_by[0], 1);
        ck_assert_uint_eq(beaten_after[0], told[k]);
        ck_assert_uint_eq(asked[0], told[k]);
        ck_assert(!alive[0] && alive[1]);
    }
}
END_TEST

/* By months it has to fail more often, in every set or on the whole. */
START_TEST(what_a_simulation_is_to_judge_is_not_dropped_for_less)
{
    for (int fails = 0; fails < 2; fails++) {
        make_race(2, 64);
        made.must_fail = true;
        for (size_t i = 0; i < CASES; i++) {
            cases[1][i][BW_GOAL_MOULD] += 3.0;
            cases[1][i][BW_GOAL_FAILING] = fails && i % 32 < 8 ? 1.0 : 0.0;
        }
        race();
        ck_assert_int_eq(alive[1], !fails);
    }
}
END_TEST

/* 0.6 of the least difference is none, twice that is one: each of three is
 * better than the next in one goal and the same in the others. None is better
 * than both, and in whatever order they stand none is dropped; what all beat
 * is. */
START_TEST(designs_that_beat_each_other_in_a_ring_are_all_left)
{
    static const bw_goal goals[] = {BW_GOAL_U, BW_GOAL_THICKNESS,
                                    BW_GOAL_PRICE};
    static const double least[] = {0.0005, 5e-4, 0.005};
    static const size_t orders[][4] = {{0, 1, 2, 3}, {0, 2, 1, 3}, {1, 0, 2, 3},
                                       {2, 1, 0, 3}, {3, 0, 1, 2}, {1, 3, 2, 0},
                                       {1, 2, 0, 3}, {2, 0, 3, 1}};
    const size_t *at = orders[_i];
    make_race(4, 32);
    for (size_t d = 0; d < 3; d++)
        for (size_t g = 0; g < 3; g++) {
            const size_t steps = (g + 2 * d) % 3; /* 0: the best of them */
            fixed[at[d]][goals[g]] += 0.6 * least[g] * (double)steps;
        }
    for (size_t g = 0; g < 3; g++)
        fixed[at[3]][goals[g]] += 10.0 * least[g];
    race();
    for (size_t d = 0; d < 3; d++) {
        ck_assert_int_eq(beaten_by[at[d]], -1);
        ck_assert_uint_eq(beaten_after[at[d]], 0);
        ck_assert(alive[at[d]]);
    }
    ck_assert(!alive[at[3]] && beaten_by[at[3]] >= 0);
}
END_TEST

SUITE("choose_stages", FACT(each_step_takes_what_the_one_before_has_left),
      EACH(a_design_is_dropped_from_students_t_on, COUNT(limit_rows)),
      FACT(a_design_is_dropped_after_the_cases_that_tell),
      FACT(what_a_simulation_is_to_judge_is_not_dropped_for_less),
      EACH(designs_that_beat_each_other_in_a_ring_are_all_left, 8))
