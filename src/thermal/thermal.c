/* Transmittance by ISO 6946 [from memory, high confidence].
 *
 *   R_T  = (R' + R'')/2, U = 1/R_T                      combined method
 *   1/R' = sum f_q / R_q           paths q through the whole element
 *   R''  = Rsi + sum_j R_j + Rse,  1/R_j = sum f_q / R_qj  layer by layer
 *   relative error (R' - R'')/(2 R_T); the method holds for R'/R'' <= 1.5
 *
 * Well-ventilated cavity (openings >= 1500 mm2 per m): it and what lies
 * outside is left out and Rse = Rsi. Slightly ventilated (500..1500): every R
 * is (1 - x) of the unventilated plus x of the well-ventilated element,
 * x = (A_v - 500)/1000. Of several slightly ventilated cavities the innermost
 * is interpolated, the others count as still air.
 *
 * Paths are those of the sections: framing of several layers coincides, with
 * the largest fraction (the cautious upper limit); R'' takes each layer's own
 * fraction. Framing less deep than its layer lies at the layer's inner face.
 * A cavity that is blocked in part is a layer of two materials, too; one that
 * lies outside a well-ventilated cavity, or is itself well ventilated, is left
 * out with all that is.
 *
 * Invariants: without framing R' = R'' = R_T; with framing in one layer
 * R'' <= R_T <= R'. */

#include <assert.h>
#include <math.h>

#include "air_layer.h"
#include "bothways/thermal.h"
#include "fail.h"
#include "side.h"
#include "surface_resistance.h"

/* Openings of slightly ventilated cavities [m2 per m], ISO 6946. */
static const double still_up_to = 0.0005, well_from = 0.0015;

bw_heat_flow bw_element_heat_flow(bw_element element)
{
    return bw_winter_flow(element);
}

double bw_rsi(bw_heat_flow flow)
{
    return bw_internal_resistance(flow);
}

double bw_rse(void)
{
    return BW_RSE_ISO_6946;
}

double bw_air_layer_resistance(double thickness, bw_heat_flow flow)
{
    return bw_still_air_resistance(thickness, flow);
}

/* Slabs of one layer on one path: its framing, and the rest. */
typedef struct layer_path {
    double framing, rest;
} layer_path;

static layer_path path_of_layer(const bw_section *section, size_t layer)
{
    layer_path sum = {0.0, 0.0};
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        if (slab->layer == layer && slab->is_framing)
            sum.framing += slab->resistance;
        else if (slab->layer == layer)
            sum.rest += slab->resistance;
    }
    return sum;
}

/* The path of this kind; NULL if the element has none. */
static const bw_section *section_of(const bw_sections *sections, bool stud,
                                    bool blocked)
{
    for (size_t q = 0; q < sections->count; q++)
        if (sections->section[q].through_stud == stud &&
            sections->section[q].cavity_blocked == blocked)
            return &sections->section[q];
    return NULL;
}

/* The layer beside its framing: itself in parallel with what blocks it. */
static double beside_framing(const bw_sections *sections, const bw_layer *layer,
                             size_t index, double open)
{
    const bw_section *blocked = section_of(sections, false, true);
    if (blocked == NULL || layer->blocked_with == NULL)
        return open;
    double filled = path_of_layer(blocked, index).rest;
    return 1.0 / (layer->blocked / filled + (1.0 - layer->blocked) / open);
}

/* R_j of one layer: what lies before shallower framing in series, the rest
 * in parallel with the framing. */
static double layer_resistance(const bw_sections *sections,
                               const bw_layer *layer, size_t index)
{
    layer_path between = path_of_layer(&sections->section[0], index);
    double rest = beside_framing(sections, layer, index, between.rest);
    if (!layer->framing.present)
        return rest;
    const bw_section *through = section_of(sections, true, false);
    assert(through != NULL);
    layer_path stud = path_of_layer(through, index);
    double beside = rest - stud.rest;
    if (beside <= 0.0 || stud.framing <= 0.0)
        return stud.rest;
    double f = layer->framing.fraction;
    return stud.rest + 1.0 / (f / stud.framing + (1.0 - f) / beside);
}

/* R_T of one path from layer `first` inwards. */
static double path_resistance(const bw_section *section, size_t first,
                              size_t layers, double surfaces)
{
    double sum = surfaces;
    for (size_t j = first; j < layers; j++) {
        layer_path path = path_of_layer(section, j);
        sum += path.framing + path.rest;
    }
    return sum;
}

/* The element from layer `first` inwards. */
static bw_thermal_result from_layer(const bw_assembly *assembly,
                                    const bw_sections *sections, size_t first)
{
    bw_thermal_result r = {.section_count = 0};
    double rsi = bw_internal_resistance(bw_winter_flow(assembly->element));
    double surfaces = rsi + (first > 0 ? rsi : bw_side_rse(assembly));
    double framing = 0.0, blocked = 0.0;
    r.lower_limit = surfaces;
    for (size_t j = first; j < assembly->layer_count; j++) {
        const bw_layer *layer = &assembly->layer[j];
        r.lower_limit += layer_resistance(sections, layer, j);
        if (layer->framing.present)
            framing = fmax(framing, layer->framing.fraction);
        if (layer->blocked_with != NULL)
            blocked = fmax(blocked, layer->blocked);
    }
    double conductance = 0.0;
    for (size_t q = 0; q < sections->count; q++) {
        const bw_section *section = &sections->section[q];
        double share = section->through_stud ? framing
                       : section->cavity_blocked
                           ? (1.0 - framing) * blocked
                           : (1.0 - framing) * (1.0 - blocked);
        if (share <= 0.0)
            continue;
        size_t at = r.section_count++;
        r.section_fraction[at] = share;
        r.section_resistance[at] = path_resistance(
            section, first, assembly->layer_count, surfaces);
        conductance += share / r.section_resistance[at];
    }
    r.upper_limit = 1.0 / conductance;
    return r;
}

static double mix(double still, double well, double x)
{
    return (1.0 - x) * still + x * well;
}

/* What is left inside a slightly ventilated cavity may be unframed: then both
 * its paths are the same. */
static void interpolate(bw_thermal_result *r, const bw_thermal_result *well,
                        double x)
{
    for (size_t q = 0; q < r->section_count; q++)
        r->section_resistance[q] = mix(
            r->section_resistance[q],
            well->section_resistance[q < well->section_count ? q : 0], x);
    r->upper_limit = mix(r->upper_limit, well->upper_limit, x);
    r->lower_limit = mix(r->lower_limit, well->lower_limit, x);
}

/* How far the cavity is from still air (0) to well ventilated (1). */
static double ventilated(const bw_layer *layer)
{
    if (layer->kind != BW_LAYER_CAVITY || layer->ventilation == BW_VENT_NONE)
        return 0.0;
    if (layer->ventilation == BW_VENT_WELL || layer->vent_openings >= well_from)
        return 1.0;
    if (layer->vent_openings <= still_up_to)
        return 0.0;
    return (layer->vent_openings - still_up_to) / (well_from - still_up_to);
}

static bw_thermal_result combined(const bw_assembly *assembly,
                                  const bw_sections *sections)
{
    size_t first = 0, slight = 0; /* layers after the cavity; 0: no cavity */
    for (size_t j = 0; j < assembly->layer_count; j++) {
        double x = ventilated(&assembly->layer[j]);
        if (x >= 1.0)
            first = j + 1;
        else if (x > 0.0)
            slight = j + 1;
    }
    bw_thermal_result r = from_layer(assembly, sections, first);
    if (slight > first) {
        bw_thermal_result well = from_layer(assembly, sections, slight);
        interpolate(&r, &well, ventilated(&assembly->layer[slight - 1]));
    }
    r.resistance = 0.5 * (r.upper_limit + r.lower_limit);
    r.transmittance = 1.0 / r.resistance;
    r.error = (r.upper_limit - r.lower_limit) / (2.0 * r.resistance);
    r.applicable = r.upper_limit <= 1.5 * r.lower_limit;
    return r;
}

bw_status bw_thermal(bw_thermal_result *out, const bw_assembly *assembly,
                     bw_error *err)
{
    const bw_section_options whole = {.keep_all_layers = true,
                                      .layers_apart = true};
    bw_sections *sections = NULL;
    BW_TRY(bw_sections_make(&sections, assembly, &whole, err));
    *out = combined(assembly, sections);
    bw_sections_free(sections);
    return BW_OK;
}
