#include "scope.h"

#include <math.h>
#include <string.h>

#include "bothways/geography.h"
#include "properties.h"

/* ISO 13788's scope leaves out moisture-dependent properties, liquid
 * transport, air movement and hygroscopic storage, and holds "only where
 * these are negligible" [S]. What is taken as not negligible here (choices
 * of this project where no threshold is published, docs/methods.md). */

/* A hygroscopic insulation thinner than this stores little. */
static const double INSULATION_THICKNESS = 0.020; /* m */
/* Another hygroscopic layer counts when it is this thick and this damp.
 * Thinner boards have limits of their own: the 5 % and 3 % of DIN 4108-3. */
static const double LAYER_THICKNESS = 0.030; /* m */
static const double DAMP = 0.80;             /* RH in some month */
static const double WET_START = 0.20;        /* kg/kg, timber */
static const double WET_START_RH = 0.90;
static const double COLD_BOARD = 0.90;      /* RH in some month */
static const double HEAVY_CLADDING = 0.040; /* m, holds rain for days */
/* A cover tighter than this leaves an unventilated timber roof no outward
 * drying (exemption table of DIN 4108-3:2014 [M-med]). */
static const double TIGHT_COVER = 2.0; /* m */
/* Between two layers tighter than this hardly anything leaves in a year: 10 m
 * pass about 0.3 kg/m2 under 500 Pa (derived). */
static const double SHUT = 10.0; /* m */

typedef struct scope {
    bw_scope_item *items;
    size_t count, capacity;
    bw_rows *rows;
} scope;

/* Of something: "what: of". */
static void note(scope *found, const char *what, const char *of,
                 const char *unseen)
{
    what = bw_say(found->rows, "%s%s%s", what, of[0] != '\0' ? ": " : "", of);
    for (size_t i = 0; i < found->count; i++)
        if (strcmp(found->items[i].what, what) == 0)
            return;
    if (found->count < found->capacity)
        found->items[found->count++] = (bw_scope_item){what, unseen};
}

static double highest_rh(const bw_section_assessment *part, size_t slab)
{
    double highest = 0.0;
    if (!part->run[BW_RUN_DESIGN].ran)
        return highest;
    for (size_t i = 0; i < part->run[BW_RUN_DESIGN].result.plane_count; i++) {
        const bw_plane *plane = &part->run[BW_RUN_DESIGN].result.plane[i];
        bool touches = plane->at.slab == slab ||
                       (plane->at.layer_face && plane->at.slab + 1 == slab);
        for (int m = 0; touches && m < BW_MONTHS; m++)
            highest = fmax(highest, plane->month[m].relative_humidity);
    }
    return highest;
}

static void find_hygroscopic(scope *found, const bw_section_assessment *part,
                             size_t index)
{
    const bw_slab *slab = &part->section->slab[index];
    const bw_material *material = slab->material;
    if (slab->kind != BW_LAYER_SOLID || !material->hygroscopic ||
        slab->is_framing)
        return;
    const char *unseen =
        "takes up, spreads and gives back vapour, which moves the peaks and "
        "may carry moisture either way";
    if (strcmp(material->group, "insulation") == 0) {
        if (slab->thickness > INSULATION_THICKNESS)
            note(found, "hygroscopic insulation", slab->label, unseen);
        return;
    }
    double rh = highest_rh(part, index);
    if (slab->thickness >= LAYER_THICKNESS && rh > DAMP)
        note(found, "hygroscopic layer above 80 % RH", slab->label, unseen);
}

static void find_variable(scope *found, const bw_slab *slab)
{
    if (slab->sd_curve == NULL)
        return;
    note(found, "humidity-variable layer", slab->label,
         "one vapour resistance a month hides its hours and days; DIN 4108-3 "
         "asks for a simulation to EN 15026 [S]");
}

static bool starts_wet(const bw_material *material, bool given, bool is_rh,
                       double moisture)
{
    if (!given)
        return false;
    if (is_rh)
        return moisture > WET_START_RH;
    if (material->wood_kind == BW_NOT_WOOD && material->sorption.count >= 2)
        return moisture > bw_curve_linear(&material->sorption, WET_START_RH);
    return moisture > WET_START;
}

bool bw_layer_starts_wet(const bw_layer *layer)
{
    const bw_framing *f = &layer->framing;
    return starts_wet(layer->material, layer->has_initial_moisture,
                      layer->initial_is_rh, layer->initial_moisture) ||
           (f->present && starts_wet(f->material, f->has_initial_moisture,
                                     f->initial_is_rh, f->initial_moisture));
}

static void find_wet(scope *found, const bw_layer *layer)
{
    const char *unseen = "water built in is not in the monthly balance";
    const bw_framing *f = &layer->framing;
    if (starts_wet(layer->material, layer->has_initial_moisture,
                   layer->initial_is_rh, layer->initial_moisture))
        note(found, "wet start", layer->name, unseen);
    if (f->present && starts_wet(f->material, f->has_initial_moisture,
                                 f->initial_is_rh, f->initial_moisture))
        note(found, "wet start",
             bw_say(found->rows, "framing in %s", layer->name), unseen);
}

/* Months say how humid a board gets, not for how long nor how wet it is. */
static void find_cold_board(scope *found, const bw_section_assessment *part,
                            size_t index)
{
    const bw_slab *slab = &part->section->slab[index];
    if (slab->kind != BW_LAYER_SOLID || !bw_feeds_mould(slab->material) ||
        !(highest_rh(part, index) >= COLD_BOARD))
        return;
    note(found, "wood or board at 90 % RH or more", slab->label,
         "months tell neither how wet it gets nor for how long");
}

/* Masonry that rain wets and the sun warms, whatever lies behind it. */
static void find_wet_cladding(scope *found, const bw_assembly *assembly,
                              const bw_section *section)
{
    if (section->dropped_layers == 0 || assembly->layer_count == 0 ||
        assembly->outdoors.driving_rain == BW_RAIN_NONE)
        return;
    for (size_t i = 0; i < bw_layers_outside(assembly, BW_VENT_WELL); i++) {
        const bw_layer *face = &assembly->layer[i];
        if (face->kind == BW_LAYER_SOLID && face->thickness >= HEAVY_CLADDING &&
            face->material->absorbs_condensate)
            note(found, "rain-absorbing cladding", face->name,
                 "the sun drives its water inwards hour by hour");
    }
}

/* The outermost layer that rain can reach, through what does not keep it out.
 * NULL: none. */
static const bw_slab *rain_face(const bw_section *section)
{
    size_t i = 0;
    for (; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        if (slab->kind != BW_LAYER_MEMBRANE)
            return slab->kind == BW_LAYER_SOLID ? slab : NULL;
        if (bw_film_sheds_rain(slab))
            return NULL;
    }
    return NULL;
}

static void find_rain(scope *found, const bw_assembly *assembly,
                      const bw_section *section)
{
    const bw_slab *face = rain_face(section);
    if (face == NULL || section->dropped_layers > 0 ||
        assembly->outdoors.driving_rain == BW_RAIN_NONE)
        return;
    const bw_property *absorption = &face->material->water_absorption;
    bool drinks = absorption->known ? absorption->value > 0.0
                                    : face->material->absorbs_condensate ||
                                          face->material->flags_assumed;
    if (drinks)
        note(found, "rain-absorbing outer face", face->label,
             "driving rain wets it and the sun drives that water inwards");
}

static void find_roof(scope *found, const bw_assembly *assembly,
                      const bw_section *section)
{
    if (assembly->element != BW_ELEMENT_ROOF || section->slab_count == 0 ||
        section->dropped_layers > 0)
        return;
    bool timber = false;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        timber = timber || layer->framing.present ||
                 bw_is_timber(layer->material);
    }
    if (timber && section->slab[0].sd_dry > TIGHT_COVER)
        note(found, "unventilated timber roof under a tight cover",
             section->slab[0].label,
             "it lives by drying inwards in the sun, hour by hour");
}

/* What is shut in between two such layers keeps what it was built with; and the
 * cup's mean humidity says nothing there. */
static void find_shut_in(scope *found, const bw_assembly *assembly,
                         const bw_section *section)
{
    bw_geography g;
    if (section->slab_count == 0)
        return;
    bw_geography_find(&g, assembly, section);
    if (g.tight_outside >= section->slab_count ||
        g.tight_inside >= section->slab_count)
        return;
    const bw_slab *outer = &section->slab[g.tight_outside];
    const bw_slab *inner = &section->slab[g.tight_inside];
    if (outer->sd_wet > SHUT && inner->sd_wet > SHUT)
        note(found,
             bw_say(found->rows, "shut in between %s and %s", outer->label,
                    inner->label),
             "",
             "water built in, which stays there, is not in the monthly "
             "balance");
}

static void find_in_section(scope *found, const bw_assembly *assembly,
                            const bw_section_assessment *part)
{
    for (size_t i = 0; i < part->section->slab_count; i++) {
        find_variable(found, &part->section->slab[i]);
        find_hygroscopic(found, part, i);
        find_cold_board(found, part, i);
    }
    find_wet_cladding(found, assembly, part->section);
    find_rain(found, assembly, part->section);
    find_roof(found, assembly, part->section);
    find_shut_in(found, assembly, part->section);
}

size_t bw_scope_find(bw_scope_item *items, size_t capacity, bw_rows *rows,
                     const bw_assembly *assembly,
                     const bw_section_assessment *part, size_t part_count)
{
    scope found = {items, 0, capacity, rows};
    for (size_t i = 0; i < part_count; i++)
        find_in_section(&found, assembly, &part[i]);
    for (size_t i = 0; i < assembly->layer_count; i++)
        find_wet(&found, &assembly->layer[i]);
    if (assembly->rain_leak.given && assembly->rain_leak.fraction > 0.0)
        note(&found, "rain leaking past the face", "",
             "the monthly method knows no rain");
    return found.count;
}
