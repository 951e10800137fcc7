#ifndef BW_TRANSIENT_WOOD_H
#define BW_TRANSIENT_WOOD_H

/* The wettest 10 mm of every slab of wood, day by day: its moisture as the
 * limits on wood look at it, its temperature and the humidity of its pores. */

#include "model.h"
#include "solver.h"

/* Sums over the hours of a day in one cell. */
typedef struct bw_cell_day {
    double water, theta, phi;
} bw_cell_day;

typedef struct bw_wood {
    const bw_model *model;
    bw_transient_result *result;
    bw_cell_day *day; /* per cell */
    int day_hours;
    size_t day_of_year, day_of_run;
    double *last_above; /* per slab: days until the last above its limit */
} bw_wood;

/* Lays out what the result carries of wood; slabs are there and say whether
 * they are of wood. False: out of memory. */
bool bw_wood_init(bw_wood *wood, bw_model *model, bw_transient_result *result);

void bw_wood_year(bw_wood *wood);
void bw_wood_hour(bw_wood *wood, const bw_solver *solver, int month);
void bw_wood_end_year(bw_wood *wood);

/* The days so far are those of the first year. */
void bw_wood_first(bw_wood *wood);

/* So many years more of which no day was seen: what was above its limit in the
 * last one stays above it. */
void bw_wood_carry(bw_wood *wood, int years);

#endif
