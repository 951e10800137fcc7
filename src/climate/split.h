#ifndef BW_CLIMATE_SPLIT_H
#define BW_CLIMATE_SPLIT_H

/* Irradiance on the horizontal parted into beam and sky [W/m2]; the sum on the
 * horizontal stays, to rounding. */

#include "bothways/climate.h"

/* Diffuse part of global irradiance by its clearness, 0 to 1. */
double bw_diffuse_part(double clearness);

/* From beam and sky, both on the horizontal; all finite, here and below. */
void bw_split_beam(double *direct, double *diffuse, bw_sun sun, double beam,
                   double sky);

/* From global irradiance alone. */
void bw_split_global(double *direct, double *diffuse, bw_sun sun,
                     double global);

#endif
