#ifndef BW_CHOOSE_RACE_H
#define BW_CHOOSE_RACE_H

/* Designs under the same cases, more and more of them, until those that are
 * beaten in everything are dropped. Knows no walls. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/assembly.h"
#include "bothways/error.h"

/* The cases come in so many sets that are independent of each other, one after
 * the other: case i is of set i % BW_RACE_SETS. */
enum { BW_RACE_SETS = 8, BW_RACE_FIRST = 32, BW_RACE_MOST = 4096 };

/* Chance that a design is dropped though no other is better. */
#define BW_RACE_CHANCE 0.05

/* What a goal of a design is: fixed, or told by each case. */
bool bw_goal_is_drawn(bw_goal goal);

typedef struct bw_race {
    size_t count, cap; /* designs; most cases */
    double *fixed;     /* [count][BW_GOAL_COUNT]; NAN: not known */
    double *value;     /* [count][cap][BW_GOAL_COUNT] of those that are drawn;
                          the share that fails: 1 or 0 */
    double *tail;      /* [count][BW_RACE_SETS][BW_GOAL_COUNT], room */
    bool must_fail;    /* beaten only by what fails less often, too */
    bool *alive;
    long *beaten_by; /* -1: by none */
    size_t *beaten_after;
} bw_race;

/* Fills race->value of the designs alive for cases from..to - 1. */
typedef bw_status bw_race_judge(void *payload, bw_race *race, size_t from,
                                size_t to, bw_error *err);

/* Told of each round. */
typedef void bw_race_told(void *payload, size_t cases, size_t before,
                          size_t after);

bw_status bw_race_run(bw_race *race, bw_race_judge *judge, bw_race_told *told,
                      void *payload, bw_error *err);

/* Tails of the first so many cases, for what is below. */
void bw_race_tails(bw_race *race, size_t cases);

/* No fixed goal of a is worse than that of b. */
bool bw_race_is_no_worse(const bw_race *race, size_t a, size_t b);

/* No goal tells a from b at this chance of error. */
bool bw_race_is_tie(const bw_race *race, size_t a, size_t b, double chance);

/* The 90th percentile (of the reserve the 10th) of `count` values, `stride`
 * apart, by the nearest rank; NAN where one is not known. Of the share that
 * fails the mean. `room`: count doubles. */
double bw_goal_tail(bw_goal goal, const double *value, size_t count,
                    size_t stride, double *room);

#endif
