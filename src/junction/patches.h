#ifndef BW_JUNCTION_PATCHES_H
#define BW_JUNCTION_PATCHES_H

/* A drawing cut along all its lines: rectangles of one material, of one
 * environment, or of nothing at all. */

#include "arena.h"
#include "bothways/junction.h"

typedef struct bw_patches {
    size_t nx, ny;
    double *x, *y; /* m, nx + 1 and ny + 1, rising */
    int *filling;  /* nx * ny, index into junction->filling, or BW_NOT_THERE */
    int *space;    /* likewise into junction->space where there is no filling */
} bw_patches;

/* Of a drawing that is sound: no overlap that is not meant, no gap, no edge to
 * nothing, two environments at least, all of them touched.
 * BW_OK; BW_ERR_INPUT with the place; BW_ERR_MEMORY */
bw_status bw_patches_make(bw_patches *out, const bw_junction *junction,
                          bw_arena *arena, bw_error *err);

/* Lines nearer than this are one [m]. */
#define BW_ONE_LINE 1e-7

/* The place of a value among rising lines; count if none of them. */
size_t bw_line_at(const double *line, size_t count, double value);

#endif
