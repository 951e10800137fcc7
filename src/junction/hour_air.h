#ifndef BW_JUNCTION_HOUR_AIR_H
#define BW_JUNCTION_HOUR_AIR_H

/* Room air past a face of a drawing. */

#include "hour_sheet.h"

/* What it brings to the two cells at the face, a and b. */
typedef struct bw_sheet_past {
    double q[2], g[2];     /* W/m, kg/(m s) */
    double slope[2][2][4]; /* [of][by]: q by theta, by z; g by theta, by z */
    double p;              /* Pa, of the air as it leaves */
} bw_sheet_past;

void bw_sheet_air_past(bw_sheet_past *out, const bw_sheet *sheet,
                       const bw_sheet_airflow *air,
                       const bw_sheet_weather *weather, const double *v,
                       const bw_cells *cells, bool slopes);

/* Gives the sheet the room air that its junction states.
 * BW_ERR_DOMAIN: a place has no face; BW_ERR_MEMORY */
bw_status bw_hour_air_make(bw_sheet_model *model, bw_arena *arena,
                           const bw_raster *raster, bw_error *err);

#endif
