/* The mould class of a place where two slabs meet: docs/methods.md has the
 * table and the reasons. Nothing is given for age or alkalinity: lime and
 * cement carbonate, and what a face resists when fresh must not pass a wall
 * for its life. */

#include <string.h>

#include "bothways/mould.h"

static bool is_air(const bw_slab *slab)
{
    return slab == NULL || slab->kind == BW_LAYER_CAVITY;
}

/* Masonry and plaster are laid wet on what is there and bond to it. */
static bool is_bonded_mineral(const bw_material *m)
{
    return (strcmp(m->group, "masonry") == 0 ||
            strcmp(m->group, "plaster") == 0) &&
           m->mould_class >= BW_MOULD_MEDIUM_RESISTANT;
}

bw_mould_place bw_mould_class_between(const bw_slab *outer,
                                      const bw_slab *inner)
{
    if (is_air(outer) && is_air(inner))
        return (bw_mould_place){BW_MOULD_RESISTANT, "air on both sides"};
    if (is_air(outer) || is_air(inner)) {
        const bw_slab *solid = is_air(outer) ? inner : outer;
        return (bw_mould_place){solid->material->mould_class,
                                "a free face: the class of its material"};
    }
    const bw_material *a = outer->material, *b = inner->material;
    if (is_bonded_mineral(a) && is_bonded_mineral(b))
        return (bw_mould_place){
            BW_MOULD_RESISTANT,
            "mineral layers bonded to each other: no free face, no food"};
    return (bw_mould_place){
        a->mould_class < b->mould_class ? a->mould_class : b->mould_class,
        "the more sensitive of the two materials that meet"};
}
