#ifndef BW_ASSEMBLY_VARIANT_H
#define BW_ASSEMBLY_VARIANT_H

/* The properties of a layer that may be varied, and what they are now. */

#include "bothways/assembly.h"
#include "properties.h"

/* Layer properties that an <uncertain> may name. */
typedef enum bw_varied {
    BW_VARIED_MU,
    BW_VARIED_SD,
    BW_VARIED_LAMBDA,
    BW_VARIED_RESISTANCE,
    BW_VARIED_THICKNESS,
    BW_VARIED_DENSITY,
    BW_VARIED_SPECIFIC_HEAT,
    BW_VARIED_COUNT
} bw_varied;

/* The property of a word such as "mu"; BW_VARIED_COUNT if there is none. */
bw_varied bw_varied_of(const char *word);
const char *bw_varied_word(bw_varied property);
const char *bw_varied_unit(bw_varied property); /* SI; "-" for mu */

/* Of the material; BW_PROPERTY_COUNT: it is the layer's own. mu: the dry-cup
 * one. */
bw_property_id bw_varied_id(bw_varied property);

/* Its word (attribute), unit, dimension and range. */
const bw_property_row *bw_varied_row(bw_varied property);

/* What the layer has now, SI; NAN where no single number stands for it (a
 * humidity-variable sd, a value not known). mu, sd: the dry-cup one. */
double bw_layer_value(const bw_layer *layer, bw_varied property);

/* The same sd as a number, dry (25 % RH) where it varies; 0: not known. */
double bw_layer_dry_sd(const bw_layer *layer);

/* An sd is taken from mu and thickness, as the sections read it. */
bool bw_layer_sd_by_mu(const bw_layer *layer);

#endif
