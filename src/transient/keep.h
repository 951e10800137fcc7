#ifndef BW_TRANSIENT_KEEP_H
#define BW_TRANSIENT_KEEP_H

/* What a result carries for others to judge: the hours of the last year at
 * every monitor, free water, water by month, the state at the start of each
 * month.
 *
 * All of it is gathered anew each year as the last; the first year's figures
 * are those of the last when the first year ends. */

#include "model.h"
#include "solver.h"

typedef struct bw_keep {
    const bw_model *model;
    bw_transient_result *result;
    double *bound;    /* per slab, kg/m3 it holds before water stands free */
    double *month_80; /* [monitor][month], hours above 80 % RH */
    double *standing; /* per monitor, kg/m2 of the hour */
    size_t hour;      /* of the running year */
} bw_keep;

/* Lays out what the result carries; monitors and slabs are there. False: out
 * of memory. */
bool bw_keep_init(bw_keep *keep, bw_model *model, bw_transient_result *result);

void bw_keep_year(bw_keep *keep);

/* What a monitor shows in an hour. */
void bw_keep_monitor(bw_keep *keep, size_t monitor, double theta, double phi,
                     int month);

/* The hour ends; after its monitors. */
void bw_keep_hour(bw_keep *keep, const bw_cells *cells, int hour_of_year);

/* seconds: of each month. */
void bw_keep_end_year(bw_keep *keep, const double *seconds);

/* The state at the start of an hour, kept if a month starts with it. */
void bw_keep_state(bw_keep *keep, const double *v, int hour_of_year);

/* Water [kg/m3] that a slab binds; more stands free. */
double bw_bound_water(const bw_slab *slab, const bw_storage *storage);

#endif
