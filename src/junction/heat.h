#ifndef BW_JUNCTION_HEAT_H
#define BW_JUNCTION_HEAT_H

/* Steady heat on one grid, for any temperatures around it: they add up. */

#include "raster.h"

/* T[cell] = sum over environments e of weight[e][cell] T_e; the weights of a
 * cell are within 0..1 and their sum is 1. */
typedef struct bw_heat {
    const bw_raster *raster;
    const double *surface; /* m2 K/W, of each environment */
    double **weight;       /* [environment][cell]; 0 where no material is */
    double *coupling;      /* W/(m K), [i * environments + j], i != j: the flow
                              from j to i for 1 K between them, symmetric;
                              [i, i]: the sum of the others */
    double balance;        /* sum of all flows over half the sum of their
                              amounts, the worst of the environments */
    size_t steps;          /* iterations */
} bw_heat;

/* surface: m2 K/W of each environment, borrowed. coarser: the same on the grid
 * whose cells were halved, as a guess; NULL: none.
 * BW_OK, BW_ERR_NUMERIC, BW_ERR_MEMORY */
bw_status bw_heat_solve(bw_heat *out, const bw_raster *raster,
                        const double *surface, const bw_heat *coarser,
                        bw_arena *arena, bw_error *err);

/* The weights of an environment at a face, on the material's side. */
double bw_heat_face(const bw_heat *heat, size_t environment,
                    const bw_raster_face *face);

#endif
