#ifndef BW_JUNCTION_HOUR_WATCH_H
#define BW_JUNCTION_HOUR_WATCH_H

/* All that is watched. */

#include "hour_seen.h"

bw_status bw_hour_watch_make(bw_hour_watch *w, bw_error *err);
void bw_hour_watch_year(bw_hour_watch *w);
void bw_hour_watch_hour(bw_hour_watch *w, const bw_sheet_solver *s,
                        const bw_sheet_weather *weather, int hour_of_year);
void bw_hour_watch_end_year(bw_hour_watch *w);
bw_status bw_hour_watch_end(bw_hour_watch *w, bw_error *err);

#endif
