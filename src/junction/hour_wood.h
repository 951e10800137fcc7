#ifndef BW_JUNCTION_HOUR_WOOD_H
#define BW_JUNCTION_HOUR_WOOD_H

/* Pieces of wood, day by day. */

#include "hour_seen.h"

bw_status bw_hour_wood_make(bw_hour_watch *w, bw_error *err);
void bw_hour_wood_year(bw_hour_watch *w);
void bw_hour_wood_hour(bw_hour_watch *w, const bw_sheet_solver *s, int month);
void bw_hour_wood_end_year(bw_hour_watch *w);

#endif
