#ifndef BW_JUNCTION_FLANKS_H
#define BW_JUNCTION_FLANKS_H

#include "bothways/junction.h"

/* The walls that leave the drawing at its cuts, and psi; once raster and l2d
 * are there. surface: m2 K/W of each environment, for flows. */
void bw_flanks_find(bw_junction_heat *heat, const double *surface);

#endif
