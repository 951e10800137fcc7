#ifndef BW_MATERIAL_PROPERTIES_H
#define BW_MATERIAL_PROPERTIES_H

/* What a material may have: one row a property. Readers, ranges, lists of
 * values and the reference of the documents come from here. */

#include "bothways/material.h"
#include "units.h"

typedef enum bw_property_id {
#define BW_PROPERTY(id, ...) BW_PROPERTY_##id,
#include "bothways/properties.h"
    BW_PROPERTY_COUNT
} bw_property_id;

typedef struct bw_property_row {
    size_t offset;         /* of the bw_property in bw_material */
    const char *element;   /* in a file of materials */
    const char *attribute; /* of a layer; NULL: not said there */
    const char *title;     /* to be read: "Free saturation" */
    const char *unit;      /* "" for a bare number */
    const char *meaning;
    bw_dimension dimension;
    double low, high; /* what is possible at all: a slip of unit falls out, no
                         known material does */
} bw_property_row;

extern const bw_property_row bw_property_rows[BW_PROPERTY_COUNT];

bw_property *bw_property_of(bw_material *material, bw_property_id id);
const bw_property *bw_property_in(const bw_material *material,
                                  bw_property_id id);

/* Of a layer: attributes that say a property in another way. */
typedef struct bw_property_way {
    const char *attribute;
    bw_property_id property;
    bw_dimension dimension;
} bw_property_way;

enum { BW_PROPERTY_WAYS = 3 };
extern const bw_property_way bw_property_ways[BW_PROPERTY_WAYS];

/* Whether free saturation and water absorption cannot be of one material: its
 * wet front, A_w/w_f, would run 3 m in an hour. Ceramics, plasters and gypsum
 * reach 0.1 m (A_w to 70 kg/(m2 h^0.5) over w_f of 400 kg/m3 and more). */
bool bw_draws_too_fast(const bw_material *material);

/* Solid wood or a panel of it. */
bool bw_is_timber(const bw_material *material);

/* Wood, a panel or a paper-faced board: what mould takes easily. */
bool bw_feeds_mould(const bw_material *material);

/* Known, and with a plausible range. */
bool bw_property_has_range(const bw_property *property);

/* A material of which nothing is known. */
bw_material bw_material_unknown(void);

#endif
