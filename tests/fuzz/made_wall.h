#ifndef BW_FUZZ_MADE_WALL_H
#define BW_FUZZ_MADE_WALL_H

/* Walls, rooms and weather that are valid whatever the bytes that choose them.
 */

#include "bothways/assembly.h"
#include "bothways/climate.h"
#include "fuzz.h"

typedef struct choices {
    const uint8_t *data;
    size_t size, at;
} choices;

/* 0..below-1; 0 when the bytes have run out. */
unsigned fuzz_choose(choices *c, unsigned below);
double fuzz_between(choices *c, double low, double high);

typedef struct text {
    char at[16384];
    size_t used;
} text;

void fuzz_add(text *t, const char *format, ...) BW_PRINTF(2, 3);

enum { FUZZ_LAYERS = 12 };

/* One text a layer, "l0" and so on, outside to inside: at most so many. */
size_t fuzz_make_layers(text layer[FUZZ_LAYERS], choices *c, size_t most);

/* The file up to the layers: element, outdoors, ground, room. */
void fuzz_add_around(text *t, choices *c);

/* What may follow the layers: a leak of air, a wetting. */
void fuzz_add_leaks(text *t, choices *c);

/* Readings, limits, an air test, evidence of the first of so many layers. */
void fuzz_add_closing_up(text *t, choices *c, size_t layers);

/* Options for the innermost of so many layers. */
void fuzz_add_choices(text *t, choices *c, size_t layers);

/* The layers one way or the other. */
void fuzz_add_list(text *out, const text layer[FUZZ_LAYERS], size_t count,
                   bool outwards);

/* Months with rain, wind and sun. */
bw_climate *fuzz_make_climate(choices *c);

#endif
