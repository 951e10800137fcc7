#ifndef BW_BASE_SOBOL_H
#define BW_BASE_SOBOL_H

/* Points that fill a unit cube more evenly than chance does, and random ones;
 * the same for a seed on every machine. */

#include <stddef.h>
#include <stdint.h>

/* Dimensions of the sequence; from there on coordinates are random. */
enum { BW_SOBOL_DIMENSIONS = 21 };

/* Coordinate `dimension` of point `index` (< 2^32) of the sequence, not
 * scrambled: in [0, 1). dimension < BW_SOBOL_DIMENSIONS. */
double bw_sobol(size_t index, size_t dimension);

/* The same scrambled by a seed, in (0, 1); of a dimension that the sequence has
 * not bw_random. Different seeds, and different dimensions of one, are
 * scrambled independently. */
double bw_sobol_scrambled(uint64_t seed, size_t index, size_t dimension);

/* A number in (0, 1) of its own for each seed, index and dimension. */
double bw_random(uint64_t seed, size_t index, size_t dimension);

/* Another seed made of one and a number. */
uint64_t bw_seed_of(uint64_t seed, uint64_t number);

#endif
