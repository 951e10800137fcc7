#ifndef BW_TRANSIENT_BOUNDARY_H
#define BW_TRANSIENT_BOUNDARY_H

/* The year of hourly conditions on both sides of a wall.
 *
 * Temperatures and vapour pressures run straight from hour to hour. Sun, sky
 * and wind are means of an hour (climate.h); they run through the hour as a
 * parabola of that very mean, from and to a value between the means of the
 * hours on both sides (bw_between), so that nothing jumps. Rain and air flow
 * are constant within an hour: sums are kept whatever the steps.
 *
 * Outside: h = h_c + h_r, h_c = 4 + 4 v (EN 15026, memory hi), v 2 m/s where
 * there is no wind column; h_r = 4 eps sigma T_e^3. Sun: absorptance times
 * beam, sky and ground on the plane. Sky: eps F_sky (L_down - sigma T_e^4),
 * F_sky = (1 + cos tilt)/2, with a facing or without (a flat roof 1, the
 * underside of a floor 0), the rest of the view at air temperature; without a
 * longwave column all of it is. A surface resistance given by the user
 * replaces h. Vapour: s_d = 1/(67 + 90 v) m (EN 15026, memory med).
 *
 * v is the wind at the face, and rain what stays of that which strikes it:
 * exposure.h. A tilted plane gets its share of the falling rain, r cos(tilt),
 * besides. Without a wind direction 0.65 of the rain times wind is taken to
 * blow straight at the face (estimate, boundary.c).
 *
 * Inside: the means of the 24 h around give the indoor state; h from the
 * user's resistance or 1/0.13; vapour 7e-9 h_c, h_c 2.5 W/(m2 K) (Lewis,
 * derived). */

#include "bothways/transient.h"
#include "core.h"

enum { BW_YEAR_HOURS = 8760 };

typedef struct bw_hourly {
    double theta_e, p_e, theta_i, p_i; /* at the start of the hour */
    double h_e, gain, beta_e, rain, rain_leak, air_flow; /* over the hour */
    double h_e_0, gain_0, beta_e_0; /* at the start of the hour */
} bw_hourly;

typedef struct bw_year {
    bw_hourly hour[BW_YEAR_HOURS];
    double h_i, beta_i;
    double pressure;      /* Pa */
    double leak_fraction; /* of the rain on the wall */
    double local_wind;    /* at the face, by that of the climate */
    bool sun, sky, wind, rain, rain_from;
    bool redistribution; /* two liquid diffusivities, by hours of rain */
    bool default_absorptance;
    /* what was asked for, is missing and was let pass */
    bool missing_sun, missing_rain;
} bw_year;

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

/* Month 0..11 of an hour of the year. */
int bw_hour_in_month(int hour);

/* One hour of the year as a bw_edge_at: times count from `from`. */
typedef struct bw_hour_span {
    const bw_year *year;
    int hour;
    double from; /* s */
} bw_hour_span;

void bw_hour_edge(const void *span, double t, bw_edge *edge);

/* Several hours without rain as one: temperatures and vapour pressures run
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
