#include "bothways/assembly.h"

#include <stdlib.h>
#include <string.h>

#include "owner.h"
#include "text.h"

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
    static const char *const words[] = {"wall", "roof", "floor"};
    return BW_WORD(words, element, "unknown element");
}

const char *bw_terrain_text(bw_terrain terrain)
{
    static const char *const words[] = {"open", "rural", "suburban", "urban"};
    return BW_WORD(words, terrain, "unknown terrain");
}

const char *bw_exposure_text(bw_exposure exposure)
{
    static const char *const words[] = {"none", "sheltered", "moderate",
                                        "severe"};
    return BW_WORD(words, exposure, "unknown exposure");
}

/* As ASHRAE 160 describes its classes, from memory (medium). */
const char *bw_exposure_meaning(bw_exposure exposure)
{
    static const char *const words[] = {
        [BW_RAIN_NONE] = "no rain reaches the face",
        [BW_RAIN_SHELTERED] = "under wide eaves or behind houses and trees",
        [BW_RAIN_MODERATE] = "neither sheltered nor severe",
        [BW_RAIN_SEVERE] =
            "hilltop, coast, wind funnelled, or run-off from above"};
    return BW_WORD(words, exposure, "unknown exposure");
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
    static const char *const words[] = {"none", "slight", "well"};
    return BW_WORD(words, ventilation, "unknown ventilation");
}
