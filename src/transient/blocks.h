#ifndef BW_TRANSIENT_BLOCKS_H
#define BW_TRANSIENT_BLOCKS_H

/* Block-tridiagonal systems with 2x2 blocks, eliminated from both ends
 * towards the middle at once: the two chains of operations do not wait for
 * each other. No exchange of rows between blocks; the diagonal blocks
 * dominate here. */

#include <stdbool.h>

#include "wall.h"
#include "wide.h"

/* Two 2x2 matrices by their columns, one of each chain side by side. */
typedef struct bw_columns {
    bw_four at[2];
} bw_columns;

/* Factored rows, row k and the k-th from the end side by side: y = inverse r -
 * from y(before), and outside the middle row x = y - link x(next), where next
 * lies towards the middle. The middle row comes last of both chains: y =
 * inverse r - from y(before) - link y(behind). */
typedef struct bw_factor {
    bw_columns inverse, from, link;
    bw_four size; /* what a residual is measured by: the diagonal before
                     elimination, or some times what is stored if less */
} bw_factor;

/* The two sizes of row i. */
static inline const double *bw_blocks_size(const bw_factor *factor, size_t i,
                                           size_t n)
{
    const bool low = i <= n / 2;
    return (const double *)&factor[low ? i : n - 1 - i].size + (low ? 0 : 2);
}

/* Factors (n rows, of which half are used)  M' - a F'  with M' = [m0 m1; 0 m2]
 * per row and F' = block. False if a reduced block is singular. */
bool bw_blocks_factor(bw_factor *factor, const bw_block *block,
                      const double (*m)[3], double a, size_t n);

/* Solves in place: x[2n] is the right-hand side, then the solution. */
void bw_blocks_solve(const bw_factor *factor, double *x, size_t n);

#endif
