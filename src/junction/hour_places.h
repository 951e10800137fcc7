#ifndef BW_JUNCTION_HOUR_PLACES_H
#define BW_JUNCTION_HOUR_PLACES_H

/* Faces, hour by hour. */

#include "hour_seen.h"

bw_status bw_hour_places_make(bw_hour_watch *w, bw_error *err);
void bw_hour_places_year(bw_hour_watch *w);
void bw_hour_places_hour(bw_hour_watch *w, const bw_sheet_solver *s,
                         const bw_sheet_weather *weather, int month);
void bw_hour_places_end_year(bw_hour_watch *w);
bw_status bw_hour_places_end(bw_hour_watch *w, bw_error *err);

#endif
