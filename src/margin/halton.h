#ifndef BW_MARGIN_HALTON_H
#define BW_MARGIN_HALTON_H

/* Points that fill a unit cube evenly, always the same ones. */

#include <stddef.h>

enum { BW_HALTON_DIMENSIONS = 64 };

/* Coordinate `dimension` (< BW_HALTON_DIMENSIONS) of point `index`, in
 * (0, 1). */
double bw_halton(size_t index, size_t dimension);

#endif
