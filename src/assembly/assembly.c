#include "bothways/assembly.h"

#include <stdlib.h>
#include <string.h>

#include "owner.h"

/* Invariant: an assembly is the first member of its owner, whose arena holds
 * all of it. */

void bw_assembly_free(bw_assembly *assembly)
{
    if (assembly == NULL)
        return;
    bw_assembly_owner *owner = (bw_assembly_owner *)assembly;
    for (size_t i = 0; i < assembly->junction_count; i++)
        if (assembly->junction[i].junction != NULL)
            owner->free_junction(
                (struct bw_junction *)assembly->junction[i].junction);
    bw_arena_release(&owner->arena);
    free(owner);
}

long bw_assembly_layer(const bw_assembly *assembly, const char *id)
{
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (strcmp(assembly->layer[i].id, id) == 0)
            return (long)i;
    return -1;
}

const char *bw_element_text(bw_element element)
{
    switch (element) {
    case BW_ELEMENT_WALL:
        return "wall";
    case BW_ELEMENT_ROOF:
        return "roof";
    case BW_ELEMENT_FLOOR:
        return "floor";
    }
    return "unknown element";
}

const char *bw_terrain_text(bw_terrain terrain)
{
    switch (terrain) {
    case BW_TERRAIN_OPEN:
        return "open";
    case BW_TERRAIN_RURAL:
        return "rural";
    case BW_TERRAIN_SUBURBAN:
        return "suburban";
    case BW_TERRAIN_URBAN:
        return "urban";
    }
    return "unknown terrain";
}

const char *bw_exposure_text(bw_exposure exposure)
{
    switch (exposure) {
    case BW_RAIN_NONE:
        return "none";
    case BW_RAIN_SHELTERED:
        return "sheltered";
    case BW_RAIN_MODERATE:
        return "moderate";
    case BW_RAIN_SEVERE:
        return "severe";
    }
    return "unknown exposure";
}

/* As ASHRAE 160 describes its classes, from memory (medium). */
const char *bw_exposure_meaning(bw_exposure exposure)
{
    switch (exposure) {
    case BW_RAIN_NONE:
        return "no rain reaches the face";
    case BW_RAIN_SHELTERED:
        return "under wide eaves or behind houses and trees";
    case BW_RAIN_MODERATE:
        return "neither sheltered nor severe";
    case BW_RAIN_SEVERE:
        return "hilltop, coast, wind funnelled, or run-off from above";
    }
    return "unknown exposure";
}

/* ISO 13788:2012, annex A, from memory (high). */
const char *bw_humidity_class_meaning(int humidity_class)
{
    static const char *const of[] = {
        "dry stores, unoccupied",
        "offices, dwellings normally occupied and ventilated",
        "buildings of unknown occupancy",
        "sports halls, kitchens, canteens",
        "laundries, breweries, swimming pools",
    };
    return humidity_class >= 1 && humidity_class <= 5 ? of[humidity_class - 1]
                                                      : "unknown class";
}

const char *bw_ventilation_text(bw_ventilation ventilation)
{
    switch (ventilation) {
    case BW_VENT_NONE:
        return "none";
    case BW_VENT_SLIGHT:
        return "slight";
    case BW_VENT_WELL:
        return "well";
    }
    return "unknown ventilation";
}
