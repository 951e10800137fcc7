#ifndef BW_ASSEMBLY_SIDE_H
#define BW_ASSEMBLY_SIDE_H

/* What lies outside and inside: for every method by month, for people in words.
 * The hours are those of side_hours.h, from the same description: bw_outdoors,
 * bw_beyond, bw_indoors. */

#include "arena.h"
#include "bothways/assembly.h"

/* One thing that may differ between two walls' surroundings. Its words state
 * every value of it, so that equal words are equal sides. */
typedef enum bw_side_fact {
    BW_SIDE_ROOM,
    BW_SIDE_FACING,
    BW_SIDE_RAIN,   /* and the wind that drives it */
    BW_SIDE_FACE,   /* sun, sky and air at the outer face */
    BW_SIDE_BEYOND, /* what lies against it */
    BW_SIDE_COUNT
} bw_side_fact;

/* "20 degC, humidity class 3 ..."; NULL: no memory. */
const char *bw_side_words(bw_arena *arena, const bw_assembly *assembly,
                          bw_side_fact fact);

/* Are two walls with these words alike in this? */
bool bw_side_same(const bw_assembly *a, const char *words_a,
                  const bw_assembly *b, const char *words_b, bw_side_fact fact);

/* Twelve months on both sides of a section; outdoor means of the month, over
 * which the room's state is found, too. */
void bw_side_months(bw_boundary out[BW_MONTHS], const bw_assembly *assembly,
                    const bw_section *section, const bw_climate *climate);

/* Surface resistances [m2 K/W] of the moisture checks where so many outer
 * layers are left out, and that of the U-value. */
double bw_side_outer_resistance(const bw_assembly *assembly, size_t dropped);
double bw_side_inner_resistance(const bw_assembly *assembly);
double bw_side_rse(const bw_assembly *assembly);

#endif
