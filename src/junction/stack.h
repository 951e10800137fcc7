#ifndef BW_JUNCTION_STACK_H
#define BW_JUNCTION_STACK_H

/* A wall between its studs, as layers to draw. */

#include "draw.h"

enum { BW_MOST_STACKED = 72 };

typedef struct bw_stack {
    const bw_assembly *wall;
    size_t count;                   /* layers and films, outside to inside */
    double at[BW_MOST_STACKED + 1]; /* m, faces, from the outer one: at[k] to
                                       at[k + 1]; a film has no thickness */
    size_t layer[BW_MOST_STACKED];  /* of the assembly */
    bool film[BW_MOST_STACKED];
    size_t material[BW_MOST_STACKED]; /* drawn material, or film */
    double total;                     /* m */
    size_t dropped;                   /* layers outside a ventilated cavity */
    double outer_resistance;          /* m2 K/W */
    bool leaks;                       /* the wall's rain leak is drawn: */
    double leak_at;                   /* m, from the outer face */
} bw_stack;

/* Of a wall of the drawing, whose materials it adds. */
bw_status bw_stack_make(bw_stack *out, bw_drawing *d, const bw_assembly *wall,
                        bw_error *err);

/* The place of the layer of that id; count if it is not among those drawn. */
size_t bw_stack_find(const bw_stack *stack, const char *id);

#endif
