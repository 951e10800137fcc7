#ifndef BW_JUNCTION_DRAW_H
#define BW_JUNCTION_DRAW_H

/* A drawing as it is made. */

#include "arena.h"
#include "bothways/junction.h"

/* The junction comes first: a bw_junction * is a pointer to its owner. Running
 * out of memory is remembered by the arena; look once at the end. */
typedef struct bw_drawing {
    bw_junction junction;
    bw_arena arena;
    bw_assembly **wall; /* owned */
    size_t wall_room;
    bw_environment *environment;
    bw_drawn_material *material;
    bw_filling *filling;
    bw_drawn_space *space;
    bw_drawn_film *film;
    bw_film_line *film_line;
    bw_drawn_spot *spot;
    bw_drawn_leak *leak;
    bw_drawn_air *air;
    size_t environments, materials, fillings, spaces, films, film_lines, spots,
        leaks, airs;
    long line; /* of the file, for what is drawn next */
} bw_drawing;

size_t bw_draw_environment(bw_drawing *d, const bw_environment *environment);
size_t bw_draw_material(bw_drawing *d, const bw_drawn_material *material);
size_t bw_draw_film(bw_drawing *d, const bw_drawn_film *film);
void bw_draw_filling(bw_drawing *d, size_t material, bw_rectangle at,
                     bool over);
void bw_draw_space(bw_drawing *d, size_t environment, bw_rectangle at,
                   bool over);
void bw_draw_film_line(bw_drawing *d, size_t film, bw_rectangle at);
void bw_draw_spot(bw_drawing *d, const char *name, double x, double y);
void bw_draw_leak(bw_drawing *d, const bw_drawn_leak *leak);
void bw_draw_air(bw_drawing *d, const bw_drawn_air *air);
void bw_draw_wall(bw_drawing *d, bw_assembly *wall);

/* A library material as it is; false: it has no conductivity. */
bool bw_drawn_as_is(bw_drawn_material *out, const bw_material *material);

/* Environments of a junction made of walls. */
enum { BW_OUTSIDE = 0, BW_ROOM = 1 };

/* ---- junctions made of walls -----------------------------------------------
 */

typedef enum bw_shape {
    BW_SHAPE_OUTER_CORNER,
    BW_SHAPE_INNER_CORNER,
    BW_SHAPE_JAMB,
    BW_SHAPE_HEAD,
    BW_SHAPE_SILL,
    BW_SHAPE_PARTITION,
    BW_SHAPE_JOIST,
    BW_SHAPE_STUD,
    BW_SHAPE_BALCONY,
    BW_SHAPE_FILLED,
    BW_SHAPE_FOOT,
    BW_SHAPES
} bw_shape;

/* "outer-corner" ... */
extern const char *const bw_shape_name[BW_SHAPES];

/* What stands in a wall, or beside it; lengths in m, 0 where it has none. */
typedef struct bw_member {
    bool given;
    const bw_material *material;
    double width;   /* along the wall */
    double depth;   /* across it, of a frame */
    double setback; /* of a frame: from the outer face of the wall */
    double bearing; /* of a joist: from the inner face of the layer into it */
    double reach;   /* of a slab: beyond the outer face */
    double height;  /* of a plate, of a plinth */
    double above;   /* of a plinth's top above the ground */
    const char *layer; /* id; whose inner face a partition meets, in which a
                          joist or a plate lies; of the floor, whose upper face
                          is level with the top of a plinth, NULL: none */
    long line;
} bw_member;

typedef struct bw_shape_parts {
    bw_member frame, lining; /* of an opening; the lining may be missing */
    bw_member member;        /* partition, joist, slab, plinth */
    bw_member plate;         /* on a plinth; may be missing */
    double offset; /* the outer face of the second wall behind the first's */
} bw_shape_parts;

/* Draws it from its walls, which are there. BW_OK; BW_ERR_INPUT, BW_ERR_MEMORY
 */
bw_status bw_shape_draw(bw_drawing *d, bw_shape shape,
                        const bw_shape_parts *parts, bw_error *err);

#endif
