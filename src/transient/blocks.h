#ifndef BW_TRANSIENT_BLOCKS_H
#define BW_TRANSIENT_BLOCKS_H

/* Block-tridiagonal systems with 2x2 blocks, eliminated from both ends
 * towards the middle at once: the two chains of operations do not wait for
 * each other. No exchange of rows between blocks; the diagonal blocks
 * dominate here. */

#include <stdbool.h>

#include "core.h"
#include "pair.h"

/* A 2x2 matrix by its columns. */
typedef struct bw_columns {
    bw_pair at[2];
} bw_columns;

/* A factored row: y = inverse r - from y(before), and outside the middle row
 * x = y - link x(next), where next lies towards the middle. The middle row
 * comes last of both chains: y = inverse r - from y(before) - link y(behind).
 */
typedef struct bw_factor {
    bw_columns inverse, from, link;
    double size[2]; /* what a residual is measured by: the diagonal before
                       elimination, or some times what is stored if less */
} bw_factor;

/* Factors  M' - a F'  with M' = [m0 m1; 0 m2] per row and F' = block. False
 * if a reduced block is singular. */
bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                      const double (*m)[3], double a, size_t n);

/* Solves in place: x[2n] is the right-hand side, then the solution. */
void bw_blocks_solve(const bw_factor *factor, double *x, size_t n);

#endif
