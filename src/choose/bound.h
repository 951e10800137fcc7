#ifndef BW_CHOOSE_BOUND_H
#define BW_CHOOSE_BOUND_H

/* What so many cases say of all. */

#include <stddef.h>

/* Upper bound of the share that fails where `failed` of `count` independent
 * draws did, at a confidence within 0..1 (one-sided, exact); 1 without a draw.
 */
double bw_share_bound(size_t failed, size_t count, double confidence);

/* Quantile of Student's t of seven degrees of freedom, share within 0.5..1. */
double bw_t7(double share);

#endif
