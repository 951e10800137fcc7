#ifndef BW_ASSEMBLY_SIDE_HOURS_H
#define BW_ASSEMBLY_SIDE_HOURS_H

/* What lies outside and inside, by the hour; by month: side.h.
 *
 * Outside: h = h_c + h_r, h_c = 4 + 4 v (EN 15026, memory hi), v 2 m/s where
 * there is no wind column; h_r = 4 eps sigma T_e^3. Sun: absorptance times
 * beam, sky and ground on the plane. Sky: eps F_sky (L_down - sigma T_e^4),
 * F_sky = (1 + cos tilt)/2, with a facing or without (a flat roof 1, the
 * underside of a floor 0), the rest of the view at air temperature; without a
 * longwave column all of it is. A surface resistance given by the user
 * replaces h. Vapour: s_d = 1/(67 + 90 v) m (EN 15026, memory med).
 *
 * Against what lies beyond: its temperature and vapour pressure, its contact
 * (beyond.h), and nothing else.
 *
 * v is the wind at the face, and rain what stays of that which strikes it:
 * exposure.h. A tilted plane gets its share of the falling rain, r cos(tilt),
 * besides. Without a wind direction 0.65 of the rain times wind is taken to
 * blow straight at the face (estimate, side_hours.c).
 *
 * Inside: the means of the 24 h around give the indoor state; h from the
 * user's resistance or 1/0.13; vapour 7e-9 h_c, h_c 2.5 W/(m2 K) (Lewis,
 * derived). */

#include "bothways/assembly.h"

enum { BW_YEAR_HOURS = 8760 };

typedef struct bw_hourly {
    double theta_e, p_e, theta_i, p_i;         /* at the start of the hour */
    double h_e, gain, beta_e, rain, rain_leak; /* over the hour */
    /* of the simulation: over the hour, and at its start */
    double air_flow, h_e_0, gain_0, beta_e_0;
} bw_hourly;

typedef struct bw_year {
    bw_hourly hour[BW_YEAR_HOURS];
    double h_i, beta_i;
    double pressure;      /* Pa */
    double leak_fraction; /* of the rain on the wall */
    double local_wind;    /* at the face, by that of the climate */
    const char *against; /* the outer face lies against it; NULL: outdoor air */
    bool sun, sky, wind, rain, rain_from;
    bool redistribution; /* two liquid diffusivities, by hours of rain */
    bool default_absorptance;
    /* what was asked for, is missing and was let pass */
    bool missing_sun, missing_rain;
} bw_year;

/* Fills hours, surfaces and what is told of them; leak: the fraction of the
 * rain that gets past the face. BW_ERR_DOMAIN: no hours; sun or rain asked for
 * without the columns they need (unless allow_missing); a room that cannot be.
 */
bw_status bw_side_hours(bw_year *year, const bw_assembly *assembly,
                        const bw_climate *climate, double leak,
                        bool allow_missing, bw_error *err);

#endif
