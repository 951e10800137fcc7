#ifndef BW_INPUT_JUNCTION_READER_H
#define BW_INPUT_JUNCTION_READER_H

/* What the parts of the junction reader share. */

#include "assembly_reader.h"
#include "draw.h"

enum { BW_MOST_RECTANGLES = 200, BW_MOST_ROOMS = 8 };

typedef struct bw_junction_reader {
    bw_reader r; /* its assembly holds what <outdoors> and <indoors> say */
    bw_drawing *d;
    const bw_wall_origin *host; /* the wall that names it; NULL: none */
    bool walls; /* it is made of walls: no environment of its own */
} bw_junction_reader;

/* <drawing>: rectangles, films, spaces, cuts, spots. */
bw_status bw_read_drawing(bw_junction_reader *j, const xmlNode *node);

/* <rain-leak> and <room-air>, once the places are drawn; then whether they are
 * on a face. */
struct bw_patches;
bw_status bw_read_leaks(bw_junction_reader *j, const xmlNode *root);
bw_status bw_check_leaks(bw_junction_reader *j,
                         const struct bw_patches *patches);

/* kind= and the elements of a junction made of walls, read and drawn. */
bw_status bw_read_shape(bw_junction_reader *j, const xmlNode *root);

/* Warns of sides that are cut near a change of the drawing. */
void bw_note_cuts(bw_junction_reader *j, const struct bw_patches *patches);

/* A junction for a wall that names it. */
bw_status bw_junction_read_of(bw_junction **out, const char *path,
                              const bw_wall_origin *host,
                              const bw_library *library, bw_error *err);

#endif
