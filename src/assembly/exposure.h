#ifndef BW_TRANSIENT_EXPOSURE_H
#define BW_TRANSIENT_EXPOSURE_H

/* Wind and rain at a face, from what is measured at 10 m in open ground.
 *
 * Wind: v = v_10 (delta_m/10)^a_m (z/delta)^a, the power law of the ASHRAE
 * Handbook of Fundamentals (memory hi), delta_m 270 m, a_m 0.14:
 *
 *              delta   a              delta   a
 *   open       210 m   0.10  suburban 370 m   0.22
 *   rural      270 m   0.14  urban    460 m   0.33
 *
 * EN 1991-1-4's C_R = K_R ln(z/z0) is constant below 2 to 16 m, where most
 * walls are, and higher there: 0.67 in towns against 0.36. That the air along
 * a face is slower than the free wind is not counted.
 *
 * Rain driven against the face: F_E F_D 0.2 v_10 cos(D) r (ASHRAE 160, memory
 * med). The factors were made for v_10, so the wind above does not enter. F_E
 * by height below: at most 10 m 0.7 sheltered, 1.0 medium, 1.4 severe. (1.3
 * severe from memory, 1.4 in a paper of 2021 on the same law [seen in a
 * list]: the higher is taken.) F_D 0.35 below the eaves of a steep roof, 0.5
 * below a flat one, 1 where the run-off of others comes down; the three words
 * of the assembly file stand for both.
 *
 * Of the rain driven against a face 0.7 stays, the rest splashes off (common
 * practice with the equations of EN 15026, memory hi); of rain that falls on
 * a slope all. An assembly may state one share for both. A leak is a part of
 * all that strikes the face (ASHRAE 160: 1 % of it), splash and all. */

#include "bothways/assembly.h"

#define BW_RAIN_FACTOR 0.2 /* kg s/(m3 mm) */

/* Wind at the face by that at 10 m in open ground. */
double bw_local_wind(const bw_outdoors *out);

/* What was taken where the assembly says nothing. */
bw_terrain bw_terrain_taken(const bw_outdoors *out);
double bw_height_taken(const bw_outdoors *out); /* m */

/* F_E F_D; that of a sheltered face for one told to see no rain, whose leak
 * still leaks. */
double bw_exposure_factor(const bw_outdoors *out);

/* Shares that stay of driven and of falling rain. */
double bw_driven_share(const bw_outdoors *out);
double bw_falling_share(const bw_outdoors *out);

/* What a coat with the water absorption A_w [kg/(m2 s^0.5)] lets through
 * [kg/(m2 s)] in hour `n` of a spell of rain on the face, from 1 on:
 * A_w (sqrt(t) - sqrt(t - 1 h))/1 h, the absorption law of the test (EN
 * 1062-3, ISO 15148) begun anew by each spell (derived). */
double bw_coat_rate(double absorption, int n);

#endif
