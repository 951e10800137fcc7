#ifndef BW_TRANSIENT_CARRY_H
#define BW_TRANSIENT_CARRY_H

/* Years that need not be simulated.
 *
 * The state at the end of a year is a function of that at the end of the year
 * before. Near the year that repeats it is linear, and its slowest mode is
 * left: what changes from year to year is lambda times what changed in the
 * year before, in every cell of a slab,
 *
 *   d_n = w_n - w_(n-1),  lambda = d_n d_(n-1) / d_(n-1) d_(n-1)  (over depth)
 *
 * so that after m years more the water is w_n + (lambda + ... + lambda^m) d_n.
 * Where three or four years have shown that it is so, the state is carried
 * there, and the year after it is simulated: the year that is told is always a
 * real one.
 *
 * Invariant: a run that ends as periodic ended with a simulated year that
 * repeats, by the same allowance as without. */

#include "watch.h"

typedef struct bw_carry {
    double *water[3]; /* per cell, kg/m3, at the end of the last years */
    double *state;    /* 2 per cell, to start from */
    int years;        /* that follow each other, whose ends these are or were */
    double *ratio;    /* lambda per slab */
    double share[BW_MOST_YEARS]; /* of what was carried forward, by its years */
    double expected; /* kg/m2, change of the total in the year after */
    bool waits;      /* that year is not simulated yet */
} bw_carry;

/* Memory for a wall; false when out of memory. */
bool bw_carry_init(bw_carry *carry, bw_model *model);

/* A year was simulated and does not repeat. Says how many more, of at most
 * `most`, the state was carried forward by (0: none); `solver` and `watch` then
 * stand at their end. */
int bw_carry_forward(bw_carry *carry, const bw_model *model, bw_solver *solver,
                     bw_watch *watch, int most);

/* Whether the year simulated after years carried forward changed the total
 * water as they foretold: then it stands for what was asked for. */
bool bw_carry_confirmed(bw_carry *carry, double change, double allowed);

/* What a slab of so much water [kg/m2] may differ by from a year that repeats,
 * kg/m2. */
double bw_repeat_allowance(double water);

#endif
