#ifndef BW_TRANSIENT_DEPTH_H
#define BW_TRANSIENT_DEPTH_H

/* The hours of the last year at depths that were asked for. */

#include "model.h"
#include "solver.h"

typedef struct bw_depths {
    const bw_model *model;
    bw_transient_result *result;
    size_t cell[BW_DEPTHS_MOST];
    size_t hour; /* of the running year */
} bw_depths;

/* Lays out what the result carries of the depths of the options.
 * BW_ERR_DOMAIN: a depth that no cell holds; BW_ERR_MEMORY. */
bw_status bw_depths_init(bw_depths *depths, bw_model *model,
                         bw_transient_result *result,
                         const bw_transient_options *options, bw_error *err);

void bw_depths_year(bw_depths *depths);
void bw_depths_hour(bw_depths *depths, const bw_solver *solver);

#endif
