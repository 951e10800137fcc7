#ifndef BW_TESTS_CHOICE_MADE_H
#define BW_TESTS_CHOICE_MADE_H

/* A choice made by hand at random: its designs, their unknowns, and what every
 * case said, drawn from few values so that many are alike. Every case is judged
 * already, so that no wall is ever computed. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "choose/bound.h"
#include "choose/choosing.h"
#include "random_wall.h"
#include "suite.h"

enum {
    DESIGNS = 5,
    UNKNOWNS = 3, /* of a design, at most; one more stands behind them */
    FINDINGS = 4,
    RACED = 64,
    DRAWN = 32,
    SLOTS = 1 + 2 * (UNKNOWNS + 1) + RACED + DRAWN + UNKNOWNS + 1,
    KEYS = 7 /* criteria that decide here */
};

static dice die;
static bw_choosing c;
static bw_choices choices;
static bw_assembly drawn_wall;
static bw_design design[DESIGNS];
static bw_candidate candidate[DESIGNS];
static bw_source source[DESIGNS][UNKNOWNS + 1];
static size_t finding_of[DESIGNS][UNKNOWNS + 1];
static bw_finding finding[FINDINGS];
static bw_judged judged[DESIGNS][2][SLOTS];

/* A whole below n. */
static inline size_t pick(size_t n)
{
    return (size_t)between(&die, 0.0, (double)n - 1e-9);
}

static inline bool chance(double of)
{
    return uniform(&die) < of;
}

/* All that is known of it. `good`: how often it holds; of these it is marginal
 * so often. */
static inline bw_judged draw_case(double good, double marginal)
{
    static const bw_verdict bad[] = {BW_FAILS, BW_NOT_ASSESSED, BW_FAILS};
    bw_judged j = {.done = true,
                   .said = chance(good) ? BW_HOLDS : bad[pick(3)],
                   .margin = 0.1 * (double)pick(5) - 0.2,
                   .deciding = (int)pick(KEYS),
                   .value = (double)pick(9),
                   .limit = 1.0 + (double)pick(3),
                   .simulated = chance(0.5)};
    if (j.said == BW_HOLDS && chance(marginal))
        j.said = BW_MARGINAL;
    j.numbers = chance(0.8) ? j.said : BW_FAILS;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        j.goal[g] = (double)NAN;
    j.goal[BW_GOAL_RESERVE] = 0.1 * (double)pick(6);
    j.goal[BW_GOAL_MOULD] = 0.5 * (double)pick(6);
    j.goal[BW_GOAL_WOOD] = 10.0 + (double)pick(8);
    return j;
}

/* Two settings that are not as drawn, or one. */
static inline bw_source draw_unknown(size_t design_of, size_t number)
{
    static char words[DESIGNS][UNKNOWNS + 1][2][16];
    char(*say)[16] = words[design_of][number];
    snprintf(say[0], sizeof say[0], "low %zu", number);
    snprintf(say[1], sizeof say[1], "high %zu", number);
    return (bw_source){.shown = {.two_ended = chance(0.5),
                                 .high = 1.0,
                                 .as_drawn = (double)NAN,
                                 .low_words = say[0],
                                 .high_words = say[1],
                                 .seen = chance(0.8)}};
}

/* `worse`: 1 of a design that is so in everything. */
static inline void draw_cases(size_t i, double good, double worse)
{
    static const double rare[] = {0.0, 0.02, 0.3};
    for (int drawn = 0; drawn < 2; drawn++) {
        const double holds = chance(0.4) ? 1.0 : good, marginal = rare[pick(3)];
        const size_t first = bw_slot_race(&c.slots, 0);
        for (size_t s = drawn ? first : 0; s < (drawn ? SLOTS : first); s++)
            for (int method = 0; method < 2; method++)
                judged[i][method][s] = draw_case(
                    s < first ? holds : holds - 0.6 * worse, marginal);
    }
    for (size_t s = 0; s < SLOTS; s++)
        for (int method = 0; method < 2; method++) {
            judged[i][method][s].goal[BW_GOAL_RESERVE] -= worse;
            judged[i][method][s].goal[BW_GOAL_MOULD] += 3.0 * worse;
            judged[i][method][s].goal[BW_GOAL_WOOD] += 10.0 * worse;
        }
}

/* What the methods do not see has no case, one end alone no second; what stands
 * behind the unknowns is none of the design, and never a good case. */
static inline void draw_ends(size_t i)
{
    const size_t count = candidate[i].study.count;
    for (int method = 0; method < 2; method++) {
        for (size_t u = 0; u < count; u++) {
            const bw_unknown *shown = &source[i][u].shown;
            judged[i][method][bw_slot_end(u, 0)].done = shown->seen;
            judged[i][method][bw_slot_end(u, 1)].done = shown->seen &&
                                                        shown->two_ended;
        }
        for (size_t end = 0; end < 2; end++)
            judged[i][method][bw_slot_end(count, end)].said = BW_FAILS;
    }
    source[i][count].shown.seen = true;
}

static inline void draw_design(size_t i, double good)
{
    const double worse = chance(0.3) ? 1.0 : 0.0;
    static char names[DESIGNS][16];
    snprintf(names[i], sizeof names[i], "design %zu", i);
    design[i] = (bw_design){.name = names[i],
                            .dropped = "",
                            .beaten_by = -1,
                            .as_drawn = BW_NOT_ASSESSED,
                            .breaks = "",
                            .central = "",
                            .worst = "",
                            .decides = "",
                            .bound = (double)NAN,
                            .score = (double)NAN};
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        design[i].goal[g] = design[i].drawn_goal[g] = (double)NAN;
    design[i].goal[BW_GOAL_U] = 0.1 + 0.1 * worse + 0.01 * (double)pick(4);
    design[i].goal[BW_GOAL_THICKNESS] = 0.2 + 0.1 * worse +
                                        0.01 * (double)pick(3);
    candidate[i] = (bw_candidate){.judged_out = chance(0.15),
                                  .finding = finding_of[i],
                                  .study = {.arena = &c.arena,
                                            .assembly = &drawn_wall,
                                            .count = pick(UNKNOWNS + 1),
                                            .source = source[i]}};
    for (size_t u = 0; u <= UNKNOWNS; u++) {
        source[i][u] = draw_unknown(i, u);
        finding_of[i][u] = pick(FINDINGS);
    }
    draw_cases(i, good, worse);
    draw_ends(i);
}

/* `count` designs; `good`: how often a case holds, of some always. */
static inline void draw_choice(size_t count, double good)
{
    static char names[FINDINGS][16];
    memset(&c, 0, sizeof c);
    c.count = count;
    c.design = design;
    c.candidate = candidate;
    c.finding = finding;
    c.finding_count = FINDINGS;
    c.judged = judged[0][0];
    c.slots = (bw_slots){
        .unknowns = UNKNOWNS + 1, .race = RACED, .drawn = DRAWN};
    c.chosen.choices = &choices;
    c.chosen.assembly = &drawn_wall;
    c.chosen.finding = finding;
    c.chosen.simulated = chance(0.5);
    for (size_t f = 0; f < FINDINGS; f++) {
        snprintf(names[f], sizeof names[f], "finding %zu", f);
        finding[f] = (bw_finding){.name = names[f], .settled = chance(0.2)};
    }
    for (size_t i = 0; i < count; i++)
        draw_design(i, good);
    bw_meter_start(&c.tally.meter, NULL, NULL, 1.0);
}

static inline void forget_choice(void)
{
    bw_meter_end(&c.tally.meter);
    bw_arena_release(&c.arena);
}

static inline const bw_judged *case_of(size_t i, size_t slot)
{
    return &judged[i][c.chosen.simulated][slot];
}

/* Worse is higher: what is said of it, then its numbers. */
static inline int is_bad(bw_verdict verdict)
{
    return verdict == BW_FAILS          ? 3
           : verdict == BW_NOT_ASSESSED ? 2
           : verdict == BW_MARGINAL     ? 1
                                        : 0;
}

#endif
