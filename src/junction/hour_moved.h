#ifndef BW_JUNCTION_HOUR_MOVED_H
#define BW_JUNCTION_HOUR_MOVED_H

/* How far the hours of a drawing hang on its cells. */

#include "hour_seen.h"

/* Writes what moved into the places, wood and spots of `fine`; both watched to
 * the end, every line of the coarse grid one of the fine.
 * BW_OK; BW_ERR_NUMERIC: the grids do not match */
bw_status bw_hour_moved(const bw_hour_watch *fine, const bw_hour_watch *coarse,
                        bw_error *err);

#endif
