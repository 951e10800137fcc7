#ifndef BW_CHART_SCALE_H
#define BW_CHART_SCALE_H

/* From values to places on paper, and the round values to mark. */

#include <stdbool.h>
#include <stddef.h>

enum { BW_TICKS = 16 };

/* `from` lies at `at_from`, `to` at `at_to`; with `log` both are > 0. */
typedef struct bw_scale {
    double from, to, at_from, at_to;
    bool log;
} bw_scale;

double bw_scale_at(const bw_scale *scale, double value);

typedef struct bw_ticks {
    size_t count;
    double value[BW_TICKS];
    int decimals; /* to print them with; -1: as many as each needs */
} bw_ticks;

/* Multiples of 1, 2 or 5 times a power of ten within low..high, `most` + 1 at
 * most (most 1..14). */
bw_ticks bw_ticks_make(double low, double high, size_t most);

/* 1, 2, 5 or, where that is too many, 1 in each power of ten. */
bw_ticks bw_ticks_log(double low, double high, size_t most);

/* Widens low..high to whole steps of bw_ticks_make. */
void bw_round_range(double *low, double *high, size_t most);

/* Moves sorted places apart until neighbours are at least `gap` from each
 * other, as little as possible, within low..high where there is room. */
void bw_spread(double *at, size_t count, double gap, double low, double high);

#endif
