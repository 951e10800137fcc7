#ifndef BW_TRANSIENT_BOUNDARY_H
#define BW_TRANSIENT_BOUNDARY_H

/* The year of hourly conditions on both sides of a wall, as the solver wants
 * it.
 *
 * Temperatures and vapour pressures run straight from hour to hour. Sun, sky
 * and wind are means of an hour (climate.h); they run through the hour as a
 * parabola of that very mean, from and to a value between the means of the
 * hours on both sides (bw_between), so that nothing jumps. Rain and air flow
 * are constant within an hour: sums are kept whatever the steps. The hours
 * themselves: side_hours.h. */

#include "bothways/transient.h"
#include "climate_make.h"
#include "side_hours.h"
#include "wall.h"

/* Fills the year. BW_ERR_DOMAIN: no hours; sun or rain asked for without the
 * columns they need (unless allow_missing). */
bw_status bw_year_make(bw_year *year, const bw_assembly *assembly,
                       const bw_climate *climate,
                       const bw_transient_options *options, bw_error *err);

/* Holds the rain on the face to what a coat with the water absorption A_w
 * [kg/(m2 s^0.5)] lets through. */
void bw_year_coat(bw_year *year, double absorption);

/* Takes all rain off the face, and its leak. */
void bw_year_no_rain(bw_year *year);

/* An hour of the year as a bw_edge_at, times count from `from` [s]; or several
 * without rain as one: temperatures and vapour pressures run
 * straight over them, sun, sky and wind as a parabola of their mean over them,
 * air flow is its mean. An hour with rain is alone. */
typedef struct bw_window {
    const bw_year *year;
    int hour, hours;
    double from;                        /* s */
    double h_e, gain, beta_e, air_flow; /* means */
} bw_window;

/* From an hour on, at most so many. */
bw_window bw_window_from(const bw_year *year, int hour, int most, double from);
void bw_window_edge(const void *window, double t, bw_edge *edge);

#endif
