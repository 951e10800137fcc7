#ifndef BW_THERMAL_TEMPERATURES_H
#define BW_THERMAL_TEMPERATURES_H

/* Steady temperatures through a section. */

#include "bothways/assembly.h"

/* Temperatures [degC] at the slab_count + 1 faces, theta[0] the outer face of
 * slab 0; surface resistances are the section's own. Heat flow is the same
 * through every slab: differences are in proportion to resistance. */
void bw_temperature_profile(double *theta, const bw_section *section,
                            double theta_e, double theta_i);

/* Resistance of the slabs without surface resistances [m2 K/W]. */
double bw_slabs_resistance(const bw_section *section);

#endif
