#ifndef BW_JUNCTION_SOLVE_H
#define BW_JUNCTION_SOLVE_H

/* The symmetric five-point system of a grid. */

#include <stdbool.h>

#include "arena.h"
#include "bothways/error.h"

typedef struct bw_coarse bw_coarse; /* coarse.h */

/* Row of cell c = j * nx + i:
 *   diagonal x_c - east_(c-1) x_(c-1) - east_c x_(c+1)
 *                - north_(c-nx) x_(c-nx) - north_c x_(c+nx) = b_c
 * diagonal >= the sum of its links, above it in some cell of each connected
 * part; cells without links have diagonal 1. */
typedef struct bw_five_point {
    size_t nx, ny;
    double *diagonal, *east, *north; /* nx * ny each; no link out of the grid */
    double *pivot;                   /* of the preconditioner */
    double *work;                    /* 4 nx ny */
    bw_coarse *coarse;               /* NULL: none */
} bw_five_point;

/* All zero. BW_OK, BW_ERR_MEMORY */
bw_status bw_five_point_make(bw_five_point *out, size_t nx, size_t ny,
                             bw_arena *arena, bw_error *err);

/* Once the matrix is filled in. */
void bw_five_point_prepare(bw_five_point *system);

/* x: a guess, then the solution, its residuals together at most `tolerance` of
 * all of b. *steps: iterations, added. slow: NULL, or given up where it goes
 * slowly, so that a coarse system may be made first; x is a better guess then.
 * BW_OK; BW_ERR_NUMERIC: not reached */
bw_status bw_five_point_solve(const bw_five_point *system, double *x,
                              const double *b, double tolerance, size_t *steps,
                              bool *slow, bw_error *err);

#endif
