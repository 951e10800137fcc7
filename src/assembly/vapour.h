#ifndef BW_ASSEMBLY_VAPOUR_H
#define BW_ASSEMBLY_VAPOUR_H

/* How vapour passes a layer: which value of its material rules, and the sd
 * that it gives. Decided here for every method and for the report. */

#include "bothways/assembly.h"

/* Mean RH of the faces in a dry-cup (0/50 %) and a wet-cup (50/93 %) test,
 * ISO 12572 [from memory, high confidence]. */
#define BW_CUP_DRY 0.25
#define BW_CUP_WET 0.715

/* The value that rules, in this order: an air layer's own; a curve of sd by
 * humidity; an sd given for this layer; mu, which follows the thickness drawn;
 * an sd as sold. */
bw_vapour_rule bw_vapour_rules(const bw_material *material, bw_layer_kind kind,
                               double thickness);

/* Sets all of the slab that says how vapour passes it. */
void bw_slab_set_vapour(bw_slab *slab);

/* sd [m] at a local RH: of its curve, or with 1/sd straight between the cups;
 * no value of a cup below `least`. */
double bw_slab_sd(const bw_slab *slab, double phi, double least);

/* Strips of at most 0.25 m2 K/W that the slab is cut into where vapour is
 * followed through it; >= 1. */
size_t bw_slab_strips(const bw_slab *slab);

#endif
