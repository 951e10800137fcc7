#ifndef BW_JUNCTION_SPOTS_H
#define BW_JUNCTION_SPOTS_H

/* What the monthly method says at the named places. */

#include "vapour_year.h"

/* rh: [spots * BW_MONTHS] 0..1; NAN where no material is. */
void bw_spots_humidity(double *rh, const bw_vapour *vapour,
                       const bw_vapour_result *year);

#endif
