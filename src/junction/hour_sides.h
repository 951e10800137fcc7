#ifndef BW_JUNCTION_HOUR_SIDES_H
#define BW_JUNCTION_HOUR_SIDES_H

/* The weather at each kind of surface of a drawing. */

#include "hour_sheet.h"

typedef struct bw_hour_sides {
    size_t count;
    bw_year *year[BW_SHEET_SIDES];
    bool room[BW_SHEET_SIDES];
    size_t *side; /* of each face of the raster */
    double pressure;
    bool turned;    /* outside faces that look another way than most do: they
                       have neither sun nor rain here */
    bool weather;   /* sun or rain there is on the others */
    bool sheltered; /* what is outside of a ventilated cavity is not drawn */
} bw_hour_sides;

/* BW_ERR_DOMAIN: the climate or the room cannot be, or too many environments;
 * BW_ERR_MEMORY */
bw_status bw_hour_sides_make(bw_hour_sides *out, bw_arena *arena,
                             const bw_raster *raster, const bw_climate *climate,
                             bw_error *err);

/* An hour of them. */
void bw_hour_sides_at(bw_sheet_hour *out, const bw_hour_sides *sides, int hour,
                      double from);

/* Why the hours of a junction say no more than what they find: at most
 * BW_HOUR_UNSEEN reasons. */
enum { BW_HOUR_UNSEEN = 12 };
size_t bw_hour_unseen(const char *unseen[BW_HOUR_UNSEEN],
                      const bw_hour_sides *sides, const bw_raster *raster);

#endif
