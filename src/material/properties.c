#include "properties.h"

#include <stddef.h>

/* Invariant: what is known of a property stands in its row alone. */

const bw_property_row bw_property_rows[BW_PROPERTY_COUNT] = {
#define BW_PROPERTY(id, field, ...) {offsetof(bw_material, field), __VA_ARGS__},
#include "bothways/properties.h"
};

const bw_property_way bw_property_ways[BW_PROPERTY_WAYS] = {
    {"vapour-resistivity", BW_PROPERTY_MU_DRY, BW_DIM_VAPOUR_RESISTIVITY},
    {"vapour-resistance", BW_PROPERTY_SD, BW_DIM_VAPOUR_RESISTANCE},
    {"permeance", BW_PROPERTY_SD, BW_DIM_PERMEANCE},
};

bw_property *bw_property_of(bw_material *material, bw_property_id id)
{
    return (bw_property *)(void *)((char *)material +
                                   bw_property_rows[id].offset);
}

const bw_property *bw_property_in(const bw_material *material,
                                  bw_property_id id)
{
    return (const bw_property *)(const void *)((const char *)material +
                                               bw_property_rows[id].offset);
}

bool bw_is_timber(const bw_material *material)
{
    return material->wood_kind == BW_SOLID_WOOD ||
           material->wood_kind == BW_WOOD_PANEL;
}

bool bw_feeds_mould(const bw_material *material)
{
    return material->wood_kind != BW_NOT_WOOD ||
           material->mould_class <= BW_MOULD_SENSITIVE;
}

bool bw_property_has_range(const bw_property *property)
{
    return property->known && property->has_range &&
           property->high > property->low;
}

bool bw_draws_too_fast(const bw_material *material)
{
    const double fastest = 0.05; /* m/s^0.5, estimate: far above any known */
    return material->water_absorption.known &&
           material->free_saturation.known &&
           material->water_absorption.value >
               fastest * material->free_saturation.value;
}

bw_material bw_material_unknown(void)
{
    bw_material m = {.id = "",
                     .name = "",
                     .also = "",
                     .group = "",
                     .remark = "",
                     .file = "",
                     .flags_source = ""};
    for (int id = 0; id < BW_PROPERTY_COUNT; id++)
        *bw_property_of(&m, (bw_property_id)id) = (bw_property){.source = "",
                                                                .note = ""};
    return m;
}
