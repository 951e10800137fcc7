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

/* x=, y=, width=, height= in m. */
bw_status bw_read_rectangle(bw_junction_reader *j, bw_rectangle *out,
                            const xmlNode *node);

/* <drawing>: rectangles, films, spaces, cuts, spots. */
bw_status bw_read_drawing(bw_junction_reader *j, const xmlNode *node);

/* A named place, and what lies around it within over=: a rectangle [m]. */
bw_status bw_find_spot(bw_junction_reader *j, bw_drawn_spot *out,
                       const xmlNode *node, const char *name);
bw_status bw_read_extent_of(bw_junction_reader *j, bw_rectangle *out,
                            const xmlNode *node, const bw_drawn_spot *spot);

/* <rain-leak> and <room-air>, once the places are drawn; then whether they are
 * on a face. */
struct bw_patches;
bw_status bw_read_leaks(bw_junction_reader *j, const xmlNode *root);
bw_status bw_check_leaks(bw_junction_reader *j,
                         const struct bw_patches *patches);

/* Whether two materials meet in it, or at a film. */
bool bw_materials_meet(const bw_junction *d, const struct bw_patches *p,
                       const bw_rectangle *at);

/* kind= and the elements of a junction made of walls, read and drawn. */
bw_status bw_read_shape(bw_junction_reader *j, const xmlNode *root);

/* Warns of sides that are cut near a change of the drawing. */
void bw_note_cuts(bw_junction_reader *j, const struct bw_patches *patches);

/* A junction for a wall that names it. */
bw_status bw_junction_read_of(bw_junction **out, const char *path,
                              const bw_wall_origin *host,
                              const bw_library *library, bw_error *err);

#endif
