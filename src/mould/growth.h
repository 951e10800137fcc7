#ifndef BW_MOULD_GROWTH_H
#define BW_MOULD_GROWTH_H

/* The two laws of the mould index (index.c), for all who integrate them. */

#include "bothways/mould.h"

/* s in k2 = 1 - exp(s (M - M_max)) */
#define BW_MOULD_STEEPNESS 2.3

/* dM/dt = rate k2(M) per hour, by whether M is below 1. */
typedef struct bw_mould_growth {
    double m_max, below_one, above_one;
} bw_mould_growth;

/* False where nothing grows: the index declines, *growth is untouched. */
bool bw_mould_growth_of(bw_mould_growth *growth, bw_mould_class mould_class,
                        double theta, double phi);

/* What the index of pine loses in `hours` after dry_hours without growth. */
double bw_mould_drop(double dry_hours, double hours);

#endif
