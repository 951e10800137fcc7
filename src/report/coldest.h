#ifndef BW_REPORT_COLDEST_H
#define BW_REPORT_COLDEST_H

/* A junction in the month in which it is coldest outside. */

#include "bothways/assessment.h"

static inline int bw_junction_coldest(const bw_junction_assessment *a)
{
    int coldest = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (a->climate->month[m].temperature <
            a->climate->month[coldest].temperature)
            coldest = m;
    return coldest;
}

/* Of a cell [degC]. */
static inline double bw_junction_theta(const bw_junction_assessment *a,
                                       size_t cell, int month)
{
    double t = 0.0;
    for (size_t e = 0; e < a->heat->environment_count; e++)
        t += a->heat->weight[e][cell] * a->theta[e * BW_MONTHS + (size_t)month];
    return t;
}

#endif
