#ifndef BW_TRANSIENT_JOINT_H
#define BW_TRANSIENT_JOINT_H

/* Liquid between two materials. The face between two cells has a humidity of
 * its own, phi*, at which what comes from the outer half cell goes on into the
 * inner one; F is the flow potential, a = 2/dx:
 *
 *   a_l (F_l(z_l) - F_l(phi*)) = a_r (F_r(phi*) - F_r(z_r))
 *   a_l F_l(phi*) + a_r F_r(phi*) = a_l F_l(z_l) + a_r F_r(z_r)
 *
 * The left side of the second line rises with phi*, so a table made once of
 * a_l F_l(phi*) over that sum gives the flux and its slopes without a search
 * for phi*. A harmonic mean of conductivities at the cells' centres would hold
 * a wet front back: the dry centre says nothing of the wet face. */

#include "hygro.h"

enum { BW_JOINT_ROWS = 2 * BW_HYGRO_ROWS + 4 };

typedef struct bw_joint {
    size_t count;
    double sum[BW_JOINT_ROWS];   /* a_l F_l + a_r F_r, rising, kg/(m2 s) */
    double outer[BW_JOINT_ROWS]; /* a_l F_l */
} bw_joint;

/* Fills the table for two materials that draw liquid; of the flow of
 * redistribution if `slow`. */
void bw_joint_build(bw_joint *joint, const bw_hygro *outer,
                    const bw_hygro *inner, double per_outer, double per_inner,
                    bool slow);

/* Of the rows but the last, the last whose sum is not above this one, or the
 * first. */
static inline size_t bw_joint_row(const bw_joint *joint, double sum)
{
    size_t low = 0, high = joint->count - 1;
    while (high - low > 1) {
        const size_t mid = (low + high) / 2;
        if (joint->sum[mid] <= sum)
            low = mid;
        else
            high = mid;
    }
    return low;
}

/* a_l F_l(phi*) at a sum, and its slope (0..1); *near is the row of the last
 * look-up, or any, and then that of this one. */
static inline double bw_joint_find(const bw_joint *joint, double sum,
                                   double *slope, size_t *near)
{
    size_t low = *near;
    if (low + 2 >= joint->count || !(joint->sum[low] <= sum) ||
        !(sum < joint->sum[low + 1]))
        low = *near = bw_joint_row(joint, sum);
    const size_t high = joint->count > 1 ? low + 1 : 0;
    *slope = (joint->outer[high] - joint->outer[low]) /
             (joint->sum[high] - joint->sum[low]);
    return joint->outer[low] + *slope * (sum - joint->sum[low]);
}

#endif
