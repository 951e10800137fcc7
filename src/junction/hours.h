#ifndef BW_JUNCTION_HOURS_H
#define BW_JUNCTION_HOURS_H

/* The hours of a junction. */

#include "arena.h"
#include "bothways/junction.h"

/* climate: with hours, or months from which they are made. What cannot be
 * simulated is a reason, not a failure. Names are the junction's, all else the
 * arena's. BW_OK, BW_ERR_CANCELLED, BW_ERR_MEMORY */
bw_status bw_junction_hours_find(bw_junction_hours *out, bw_arena *arena,
                                 const bw_junction *junction,
                                 const bw_climate *climate,
                                 const bw_hour_options *options, bw_error *err);

#endif
