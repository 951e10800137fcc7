#ifndef BW_JUNCTION_COARSE_H
#define BW_JUNCTION_COARSE_H

/* A system of few unknowns beside a five-point one: blocks of its cells that
 * move together. */

#include "solve.h"

/* column[i] and row[j]: block of each column and row of cells, rising from 0 by
 * at most one; x_count and y_count of them. */
typedef struct bw_blocks {
    size_t x_count, y_count;
    size_t *column, *row;
} bw_blocks;

struct bw_coarse {
    bw_blocks blocks;
    bool x_first;  /* unknowns run along x, else along y: the fewer */
    size_t count;  /* of unknowns */
    size_t band;   /* how far those lie apart that touch */
    double *lower; /* [count][band + 1] Cholesky factor, its diagonal last and
                      inverse */
    double *value; /* [count] scratch */
    size_t *block; /* [cells] SIZE_MAX: a cell without links */
};

/* Once the matrix is filled in; the factor is the arena's. NULL blocks, too
 * many of them: *out NULL.   BW_OK, BW_ERR_MEMORY */
bw_status bw_coarse_make(bw_coarse **out, const bw_five_point *system,
                         const bw_blocks *blocks, bw_arena *arena,
                         bw_error *err);

/* x += Q r: the error of the blocks' sums is taken out. */
void bw_coarse_add(const bw_coarse *coarse, double *x, const double *r,
                   size_t cells);

#endif
