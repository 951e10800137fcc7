#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "air_layer.h"
#include "arena.h"
#include "bothways/geography.h"
#include "fail.h"
#include "side.h"
#include "vapour.h"

/* One-dimensional sections: docs/methods.md, section 1.
 *
 * Invariant: slabs keep the order outside to inside; all sections drop the
 * same outer layers, but for the one whose cavity is blocked; the fractions of
 * the sections add up to 1. */

/* What is not the open path between studs. */
typedef struct path {
    bool through_stud, blocked;
} path;

typedef struct owner {
    bw_sections sections; /* first: a bw_sections * points to its owner */
    bw_arena arena;
} owner;

static double largest_fraction(const bw_assembly *assembly, size_t first)
{
    double largest = 0.0;
    for (size_t i = first; i < assembly->layer_count; i++) {
        const bw_framing *framing = &assembly->layer[i].framing;
        if (framing->present && framing->fraction > largest)
            largest = framing->fraction;
    }
    return largest;
}

/* Blocked cavities coincide, with the largest share: as framing does. */
static double largest_blocked(const bw_assembly *assembly, size_t first)
{
    double largest = 0.0;
    for (size_t i = first; i < assembly->layer_count; i++)
        if (assembly->layer[i].blocked_with != NULL)
            largest = fmax(largest, assembly->layer[i].blocked);
    return largest;
}

static bool bridged(const bw_layer *layer, path at)
{
    return at.blocked && layer->blocked_with != NULL;
}

/* How many outer layers lie outside the calculation: those up to and with the
 * innermost well-ventilated cavity that is open on this path. */
static size_t dropped(const bw_assembly *assembly,
                      const bw_section_options *options, path at)
{
    if (options->cavities_blocked || options->keep_all_layers)
        return 0;
    for (size_t i = assembly->layer_count; i > 0; i--) {
        const bw_layer *layer = &assembly->layer[i - 1];
        if (layer->kind == BW_LAYER_CAVITY &&
            layer->ventilation == BW_VENT_WELL && !bridged(layer, at))
            return i;
    }
    return 0;
}

static void set_resistance(bw_slab *slab, const bw_layer *layer,
                           bw_heat_flow flow)
{
    const bw_property *lambda = &slab->material->thermal_conductivity;
    bool another = slab->is_framing || slab->material != layer->material;
    if (layer->resistance.known && !another)
        slab->resistance = layer->resistance.value;
    else if (slab->kind == BW_LAYER_CAVITY && layer->emissivity > 0.0)
        slab->resistance = bw_low_emissivity_resistance(
            slab->thickness, layer->emissivity, flow);
    else if (slab->kind == BW_LAYER_CAVITY)
        slab->resistance = bw_still_air_resistance(slab->thickness, flow);
    else if (slab->kind == BW_LAYER_SOLID && lambda->known)
        slab->resistance = slab->thickness / lambda->value;
}

static bw_slab layer_slab(const bw_layer *layer, size_t index)
{
    return (bw_slab){.label = layer->name,
                     .layer = index,
                     .material = layer->material,
                     .kind = layer->kind,
                     .thickness = layer->thickness};
}

/* Appends what the path meets in one layer: the layer, what blocks it, its
 * framing, or, where the framing is shallower, the layer's outer part and then
 * the framing. */
static void add_layer(bw_section *section, bw_slab *slab,
                      const bw_assembly *assembly, size_t index, path at)
{
    const bw_layer *layer = &assembly->layer[index];
    const bw_framing *framing = &layer->framing;
    bw_heat_flow flow = bw_winter_flow(assembly->element);
    bw_slab whole = layer_slab(layer, index);
    if (bridged(layer, at)) {
        whole.kind = BW_LAYER_SOLID;
        whole.material = layer->blocked_with;
        whole.label = layer->blocked_with->name;
    }
    if (!at.through_stud || !framing->present) {
        set_resistance(&whole, layer, flow);
        bw_slab_set_vapour(&whole);
        slab[section->slab_count++] = whole;
        return;
    }
    bw_slab stud = whole;
    stud.is_framing = true;
    stud.kind = BW_LAYER_SOLID;
    stud.material = framing->material;
    stud.label = framing->material->name;
    if (framing->depth > 0.0 && framing->depth < layer->thickness) {
        double part = (layer->thickness - framing->depth) / layer->thickness;
        set_resistance(&whole, layer, flow);
        bw_slab_set_vapour(&whole);
        whole.thickness *= part;
        if (whole.kind == BW_LAYER_CAVITY) {
            set_resistance(&whole, layer, flow);
        } else {
            whole.resistance *= part;
            whole.sd_dry *= part;
            whole.sd_wet *= part;
        }
        slab[section->slab_count++] = whole;
        stud.thickness = framing->depth;
    }
    set_resistance(&stud, layer, flow);
    bw_slab_set_vapour(&stud);
    slab[section->slab_count++] = stud;
}

/* ---- one member drawn as several layers --------------------------------- */

static bool same(double a, double b)
{
    return fabs(a - b) <= 1e-9 * fmax(fabs(a), fabs(b));
}

static bool same_value(const bw_property *a, const bw_property *b)
{
    return a->known == b->known && (!a->known || same(a->value, b->value));
}

static bool same_material(const bw_material *a, const bw_material *b)
{
    return strcmp(a->id, b->id) == 0 && same_value(&a->density, &b->density) &&
           same_value(&a->specific_heat, &b->specific_heat) &&
           a->sorption.count == b->sorption.count &&
           a->wood_kind == b->wood_kind && a->mould_class == b->mould_class;
}

static bool same_start(const bw_layer *a, const bw_layer *b)
{
    if (a->has_initial_moisture != b->has_initial_moisture)
        return false;
    return !a->has_initial_moisture ||
           (a->initial_is_rh == b->initial_is_rh &&
            same(a->initial_moisture, b->initial_moisture));
}

/* Is the face between two slabs asked for by its layer? */
static bool named(const bw_assembly *assembly, size_t layer)
{
    return assembly->drying_test.after_layer == (long)layer ||
           (assembly->rain_leak.given &&
            assembly->rain_leak.after_layer == (long)layer);
}

static bool one_member(const bw_assembly *assembly, const bw_slab *outer,
                       const bw_slab *inner)
{
    const bw_layer *a = &assembly->layer[outer->layer];
    const bw_layer *b = &assembly->layer[inner->layer];
    if (outer->material != a->material || inner->material != b->material)
        return false; /* what fills a cavity */
    if (outer->kind != BW_LAYER_SOLID || inner->kind != BW_LAYER_SOLID ||
        outer->layer == inner->layer || a->framing.present ||
        b->framing.present || outer->sd_curve != NULL ||
        inner->sd_curve != NULL || !(outer->thickness > 0.0) ||
        !(inner->thickness > 0.0) || named(assembly, outer->layer))
        return false;
    const double share = inner->thickness / outer->thickness;
    return same_material(outer->material, inner->material) &&
           same_start(a, b) &&
           same(share * outer->resistance, inner->resistance) &&
           same(share * outer->sd_dry, inner->sd_dry) &&
           same(share * outer->sd_wet, inner->sd_wet);
}

static void join(bw_section *section, bw_slab *slab,
                 const bw_assembly *assembly)
{
    size_t count = 0;
    for (size_t i = 0; i < section->slab_count; i++) {
        bw_slab *last = count > 0 ? &slab[count - 1] : NULL;
        if (last == NULL || !one_member(assembly, last, &slab[i])) {
            slab[count++] = slab[i];
            continue;
        }
        last->layer = slab[i].layer;
        last->label = slab[i].label;
        last->thickness += slab[i].thickness;
        last->resistance += slab[i].resistance;
        last->sd_dry += slab[i].sd_dry;
        last->sd_wet += slab[i].sd_wet;
    }
    section->slab_count = count;
}

static bool make_section(bw_section *section, bw_arena *arena,
                         const bw_assembly *assembly, size_t first, path at,
                         bool apart)
{
    bw_slab *slab = BW_NEW(arena, bw_slab, 2 * assembly->layer_count + 1);
    if (slab == NULL)
        return false;
    section->slab = slab;
    for (size_t i = first; i < assembly->layer_count; i++)
        add_layer(section, slab, assembly, i, at);
    if (!apart)
        join(section, slab, assembly);
    section->through_stud = at.through_stud;
    section->cavity_blocked = at.blocked;
    section->dropped_layers = first;
    section->outer_resistance = bw_side_outer_resistance(assembly, first);
    section->inner_resistance = bw_side_inner_resistance(assembly);
    return true;
}

/* Framing that lies wholly in dropped layers makes no section of its own. */
static bool framing_inside(const bw_assembly *assembly, size_t first)
{
    for (size_t i = first; i < assembly->layer_count; i++)
        if (assembly->layer[i].framing.present)
            return true;
    return false;
}

/* The shares: a blocked cavity is blocked between the studs; at the studs,
 * where the wall is warmer, it counts as open (docs/methods.md, section 1). */
static bool make_all(owner *made, bw_section *section,
                     const bw_assembly *assembly,
                     const bw_section_options *options)
{
    const path open = {false, false}, stud = {true, false},
               closed = {false, true};
    size_t first = dropped(assembly, options, open);
    size_t behind = dropped(assembly, options, closed);
    bool framed = framing_inside(assembly, first);
    double framing = framed ? largest_fraction(assembly, first) : 0.0;
    double blocked = options->cavities_blocked
                         ? 0.0
                         : largest_blocked(assembly, behind);
    size_t count = 0;
    bw_section *between = &section[count++];
    between->name = framed          ? "between-studs"
                    : blocked > 0.0 ? "open-cavity"
                                    : "whole";
    between->fraction = (1.0 - framing) * (1.0 - blocked);
    bool ok = make_section(between, &made->arena, assembly, first, open,
                           options->layers_apart);
    if (framed) {
        section[count].name = "through-stud";
        section[count].fraction = framing;
        ok = ok && make_section(&section[count++], &made->arena, assembly,
                                first, stud, options->layers_apart);
    }
    if (blocked > 0.0) {
        section[count].name = "blocked-cavity";
        section[count].fraction = (1.0 - framing) * blocked;
        ok = ok && make_section(&section[count++], &made->arena, assembly,
                                behind, closed, options->layers_apart);
    }
    made->sections.count = count;
    made->sections.section = section;
    return ok;
}

bw_status bw_sections_make(bw_sections **out, const bw_assembly *assembly,
                           const bw_section_options *options, bw_error *err)
{
    const bw_section_options as_drawn = {0};
    owner *made = calloc(1, sizeof *made);
    BW_TRY_MEMORY(made != NULL, err);
    bw_section *section = BW_NEW(&made->arena, bw_section, BW_MOST_SECTIONS);
    if (section == NULL || !make_all(made, section, assembly,
                                     options != NULL ? options : &as_drawn)) {
        bw_sections_free(&made->sections);
        return bw_fail_memory(err);
    }
    *out = &made->sections;
    return BW_OK;
}

void bw_sections_free(bw_sections *sections)
{
    if (sections == NULL)
        return;
    owner *made = (owner *)sections;
    bw_arena_release(&made->arena);
    free(made);
}
