#ifndef BW_JUNCTION_HOUR_LEAKS_H
#define BW_JUNCTION_HOUR_LEAKS_H

/* Rain that gets in, in the cells of a drawing. */

#include "hour_sheet.h"

typedef struct bw_hour_leaks {
    const double *rain[BW_SHEET_RAINS]; /* as bw_sheet_hour.leak; NULL: none */
} bw_hour_leaks;

/* Gives the sheet its leaks, and finds their rain. BW_ERR_DOMAIN: the climate
 * has no rain for them, or a place has no face; BW_ERR_MEMORY */
bw_status bw_hour_leaks_make(bw_hour_leaks *out, bw_sheet_model *model,
                             bw_arena *arena, const bw_raster *raster,
                             const bw_climate *climate, bw_error *err);

/* m of a face of the sheet between two materials, or with a film, that lie in a
 * rectangle of the drawing. */
double bw_hour_face_in(const bw_sheet_model *model, const bw_raster *raster,
                       size_t face, const bw_rectangle *at);

/* Whether a wall's own leak lies farther out than what is drawn, where its own
 * simulation has it. */
bool bw_hour_leak_outside(const bw_junction *junction, size_t wall);

#endif
