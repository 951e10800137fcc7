#ifndef BW_ASSEMBLY_VARIANT_H
#define BW_ASSEMBLY_VARIANT_H

/* A changed copy of an assembly: what is changed lives in the caller's arena,
 * all else is shared with the original, which is never touched. */

#include "arena.h"
#include "bothways/assembly.h"
#include "properties.h"

/* A copy under change. Running out of memory is remembered, not returned;
 * look once, with bw_variant_done. */
typedef struct bw_variant {
    bw_arena *arena;
    bw_assembly *assembly;
    bw_layer *layer; /* assembly->layer, to be written */
    size_t room;     /* layers there is memory for */
    bool no_memory;
} bw_variant;

void bw_variant_start(bw_variant *v, bw_arena *arena, const bw_assembly *from);

/* The changed assembly, or NULL when memory ran out. */
const bw_assembly *bw_variant_done(const bw_variant *v);

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

/* Its word (attribute), unit, dimension and range. */
const bw_property_row *bw_varied_row(bw_varied property);

/* What the layer has now, SI; NAN where no single number stands for it (a
 * humidity-variable sd, a value not known). mu, sd: the dry-cup one. */
double bw_layer_value(const bw_layer *layer, bw_varied property);

/* Sets it. mu and sd: where a material has a dry-cup and a wet-cup value both
 * keep their proportion. A humidity-variable layer stays one, with a flat
 * curve (sd), so that the same methods apply; with mu it becomes constant. */
void bw_variant_set(bw_variant *v, size_t layer, bw_varied property,
                    double value);

/* The layer's material, a copy that may be written; NULL: no memory. */
bw_material *bw_variant_material(bw_variant *v, size_t layer);

/* One constant sd [m] for a layer, its thermal side unchanged; of a solid
 * layer by its mu, which the simulation reads. */
void bw_variant_set_sd(bw_variant *v, size_t layer, double sd);

/* A variable layer held at its sd in dry (the curve's first point) or humid
 * air (its last). No effect without a curve. */
void bw_variant_hold_curve(bw_variant *v, size_t layer, bool humid);

/* mu dry-cup or wet-cup whatever the humidity: of the layer's material, or of
 * its framing. */
void bw_variant_hold_mu(bw_variant *v, size_t layer, bool framing, bool wet);

/* Another material, named by it; what was said of the old one (a resistance,
 * a water content) goes. Framing stays. */
void bw_variant_exchange(bw_variant *v, size_t layer,
                         const bw_material *material, double thickness);

/* A membrane of which only sd or sd(RH) is known: exchanged for layer `at`,
 * or added before it. curve NULL: constant sd [m]. */
void bw_variant_membrane(bw_variant *v, size_t at, bool add, double sd,
                         const bw_curve *curve);
void bw_variant_remove(bw_variant *v, size_t layer);

/* A cavity's openings closed, or made ample. */
void bw_variant_ventilate(bw_variant *v, size_t layer, bw_ventilation to);

/* Initial moisture [kg/kg] of every layer and framing of solid wood or panel.
 */
void bw_variant_built_in(bw_variant *v, double moisture);

/* Indoor humidity one step up: the next class; 10 points of RH; the higher
 * EN 15026 curve; for monthly rows 10 points of RH. False: there is no step
 * further up. */
bool bw_indoors_step_up(bw_indoors *indoors);

/* An sd is taken from mu and thickness, as the sections read it. */
bool bw_layer_sd_by_mu(const bw_layer *layer);

#endif
