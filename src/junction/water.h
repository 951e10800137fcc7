#ifndef BW_JUNCTION_WATER_H
#define BW_JUNCTION_WATER_H

/* What the monthly method in two dimensions says of a drawing. */

#include "arena.h"
#include "vapour_year.h"

/* Wets each face at risk in turn. Names are the junction's. What cannot be run
 * is a reason; BW_OK, BW_ERR_MEMORY */
bw_status bw_water_wet(bw_water_wetting *out, bw_arena *arena,
                       const bw_vapour *vapour, const bw_vapour_air *air,
                       bw_mu_choice mu, bw_error *err);

/* Of its junction's stated room air, what the options of a year say: flows of 1
 * m3/(m2 s), lengths in their proportion. BW_ERR_DOMAIN, BW_ERR_MEMORY */
bw_status bw_water_air(bw_vapour_options *options, bw_arena *arena,
                       const bw_vapour *vapour, bw_error *err);

/* wet: with the wetting test. theta, p: [environment * BW_MONTHS + month]. What
 * the method refuses is a reason, not a failure. Names are the junction's, all
 * else the arena's. BW_OK, BW_ERR_MEMORY */
bw_status bw_junction_water_find(bw_junction_water *out, bw_arena *arena,
                                 const bw_junction *junction,
                                 const double *theta, const double *p,
                                 bw_mu_choice mu, bool wet, bw_error *err);

#endif
