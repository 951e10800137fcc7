#ifndef BW_GLASER_TAUT_H
#define BW_GLASER_TAUT_H

/* The taut string that both diffusion methods draw. */

#include <stddef.h>

typedef struct bw_vertex {
    size_t node;
    double p;     /* Pa */
    double gap;   /* m, sd to the vertex before */
    double slope; /* Pa/m, from the vertex before */
} bw_vertex;

/* Draws the string on to the next point, `gap` m of sd further than the last:
 * the vertices it now needs, into hull, which has room for all points. Returns
 * their number; starts with count 0. */
size_t bw_taut_add(bw_vertex *hull, size_t count, size_t node, double p,
                   double gap);

#endif
