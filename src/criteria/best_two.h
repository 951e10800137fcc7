#ifndef BW_CRITERIA_BEST_TWO_H
#define BW_CRITERIA_BEST_TWO_H

/* Which two of the changes simulated are put together. */

#include "propose.h"
#include "trial.h"

enum { BW_TWO_OF_MOST = 4 };

/* Of change[chosen[0..count - 1]], with their results, the best two that are of
 * different kinds and act on different layers, the one of lower kind first. One
 * that gave something worth saying is better than one that did not, of those
 * the better score, else the one chosen first. False: no two are such. */
bool bw_best_two(size_t two[2], const bw_proposal *change,
                 const bw_tried *result, const size_t *chosen, size_t count);

#endif
