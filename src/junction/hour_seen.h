#ifndef BW_JUNCTION_HOUR_SEEN_H
#define BW_JUNCTION_HOUR_SEEN_H

/* What is kept of the hours of a drawing: every face between two materials and
 * of a room (hour_places.c), wood (hour_wood.c), places with a name
 * (hour_watch.c). */

#include "bothways/junction.h"
#include "hour_sheet.h"

enum { BW_HOUR_YEAR = BW_TRANSIENT_HOURS };

/* Cells that a sum goes over, and by how much each. */
typedef struct bw_hour_part {
    size_t cell;
    double by;
} bw_hour_part;

typedef struct bw_hour_parts {
    size_t count, room;
    bw_hour_part *part;
} bw_hour_parts;

typedef struct bw_hour_face {
    size_t at;               /* of the sheet's faces, or edges */
    bool room;               /* an edge */
    size_t air;              /* of the sheet's, past the face; SIZE_MAX: none */
    size_t from, middle, to; /* parts of the halves beside it */
} bw_hour_face;

typedef struct bw_hour_block {
    size_t from, to; /* parts */
    size_t wood;
} bw_hour_block;

typedef struct bw_hour_day {
    double water, theta, phi; /* sums of a day's hours, of a cell */
} bw_hour_day;

typedef struct bw_hour_wood_day {
    double moisture, theta, phi, x, y;
} bw_hour_wood_day;

typedef struct bw_hour_watch {
    const bw_raster *raster;
    const bw_sheet_model *model;
    bw_arena *keep; /* of what is told */
    bw_arena *arena;
    bw_junction_hours *out;
    bool sheltered; /* nothing that is drawn shows a face to the weather */
    int hour;       /* of the running year, from its start */
    /* faces */
    bw_hour_place *place;
    bw_hour_face *face;
    bw_hour_parts halves;
    bw_mould_state *mould;
    float *theta, *phi; /* [hour][place] of the year */
    /* wood */
    bw_hour_wood *wood;
    size_t *wood_of; /* [cells] SIZE_MAX: none */
    bw_hour_parts blocks;
    size_t block_count, block_room;
    bw_hour_block *block;
    bw_hour_day *day;
    bw_hour_wood_day *last; /* [wood][day] of the year */
    /* names */
    bw_hour_spot *spot;
    size_t *spot_cell; /* of wood */
} bw_hour_watch;

/* The middle of a cell of the sheet [m]. */
void bw_hour_middle(const bw_hour_watch *w, size_t cell, double *x, double *y);

bool bw_hour_part_add(bw_hour_parts *parts, bw_arena *arena, size_t cell,
                      double by);

#endif
