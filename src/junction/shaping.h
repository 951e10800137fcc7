#ifndef BW_JUNCTION_SHAPING_H
#define BW_JUNCTION_SHAPING_H

/* What the kinds of junctions made of walls are drawn with. */

#include "stack.h"

typedef struct bw_shaping {
    bw_drawing *d;
    const bw_shape_parts *parts;
    bw_stack a, b; /* the first wall; the second, or the first again */
    double length; /* m, for which a wall goes on */
    bw_error *err;
} bw_shaping;

static const double bw_shaping_air = 0.1; /* m of a space, for the picture */

bw_rectangle bw_shaping_box(double x0, double x1, double y0, double y1);
void bw_shaping_fill(bw_shaping *s, size_t material, double x0, double x1,
                     double y0, double y1);

/* A space where it has an extent. */
void bw_shaping_space(bw_shaping *s, size_t environment, double x0, double x1,
                      double y0, double y1);

/* The sides at which walls go on. */
void bw_shaping_cut(bw_shaping *s, bool left, bool right, bool below,
                    bool above);

/* A line along which the wall's own rain leak comes in, if it has one that is
 * drawn. */
void bw_shaping_leak(bw_shaping *s, const bw_stack *w, double x0, double x1,
                     double y0, double y1);

/* A wall from x0 to x1 with its outer face at y. */
void bw_shaping_wall(bw_shaping *s, const bw_stack *w, double x0, double x1,
                     double y);

bw_status bw_shaping_refuse(bw_shaping *s, const bw_member *m,
                            const char *text);
bw_status bw_shaping_material(bw_shaping *s, const bw_member *m, size_t *out);

/* The layer of the stack that the member names. */
bw_status bw_shaping_layer(bw_shaping *s, const bw_stack *w, const bw_member *m,
                           size_t *out);

#endif
