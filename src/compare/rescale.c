#include <math.h>
#include <string.h>

#include "bothways/geography.h"
#include "change.h"
#include "comparing.h"
#include "fail.h"

/* Making walls equal by the thickness of one layer each.
 *
 *   same U          U(d) = U_1, by halving d: a thicker layer never loses
 *                   more heat
 *   same thickness  d = d_before + (D_1 - D)
 *
 * Invariant: the first wall is never changed; of the others only the
 * thickness of one layer, in a copy. */

/* What a layer may become [m]: thinner is no layer, thicker no wall. */
static const double THINNEST = 1e-3, THICKEST = 1.0;

static const char *layer_ids(bw_compare_core *core, const bw_assembly *assembly)
{
    const char *text = "";
    for (size_t i = 0; i < assembly->layer_count; i++)
        text = bw_compare_say(core, "%s%s%s", text, i > 0 ? ", " : "",
                              assembly->layer[i].id);
    return text;
}

static bw_status find_layer(bw_compare_core *core, size_t wall, size_t *index,
                            bw_error *err)
{
    const bw_assembly *a = core->given[wall];
    const char *wanted = core->options.scaled_layer;
    *index = bw_main_insulation_layer(a);
    if (wanted == NULL && *index < a->layer_count &&
        bw_is_insulation(a->layer[*index].material))
        return BW_OK;
    if (wanted == NULL)
        return bw_fail(err, BW_ERR_DOMAIN, a->file, 0,
                       "no insulation layer to rescale; name one with "
                       "--scale-layer ID: %s",
                       layer_ids(core, a));
    for (*index = 0; *index < a->layer_count; (*index)++)
        if (strcmp(a->layer[*index].id, wanted) == 0)
            return BW_OK;
    return bw_fail(err, BW_ERR_DOMAIN, a->file, 0,
                   "no layer '%s' to rescale; its layers are: %s", wanted,
                   layer_ids(core, a));
}

/* NULL, or why a layer's thickness cannot stand for what it does. */
static const char *fixed_because(const bw_layer *layer)
{
    const bw_material *m = layer->material;
    if (layer->kind == BW_LAYER_MEMBRANE)
        return "it is a membrane";
    if (layer->kind == BW_LAYER_CAVITY)
        return "it is a cavity";
    if (layer->thickness <= 0.0)
        return "its thickness is not given";
    if (layer->resistance.known)
        return "its thermal resistance is given as a whole; give lambda=";
    if (!m->thermal_conductivity.known)
        return "its conductivity is not known";
    if (m->sd_curve.count >= 2 || !bw_layer_sd_by_mu(layer))
        return "its sd is given as a whole; give mu=";
    return NULL;
}

/* Framing stays as deep as it is and what is thicker lies across it, unless it
 * is to go along; in a layer that gets thinner it has to. */
static bool framing_stays(const bw_layer *layer, double thickness, bool along)
{
    return layer->framing.present && !along && thickness > layer->thickness;
}

static const bw_assembly *with_thickness(bw_arena *arena,
                                         const bw_assembly *from, size_t index,
                                         double thickness, bool along)
{
    const bw_layer *layer = &from->layer[index];
    const bool held = framing_stays(layer, thickness, along) &&
                      layer->framing.depth <= 0.0;
    const bw_change change[] = {
        {.kind = BW_CHANGE_PROPERTY,
         .layer = index,
         .property = BW_VARIED_THICKNESS,
         .value = thickness},
        bw_change_to(BW_CHANGE_STUDS, index, layer->thickness)};
    return bw_changes_apply(arena, from, change, held ? 2 : 1);
}

static double total_thickness(const bw_assembly *assembly)
{
    double sum = 0.0;
    for (size_t i = 0; i < assembly->layer_count; i++)
        sum += assembly->layer[i].thickness;
    return sum;
}

/* One wall and the layer that is to change. */
typedef struct scaling {
    bw_compare_core *core;
    size_t wall, index;
    const bw_assembly *from;
    const bw_layer *layer;
    bw_error *err;
} scaling;

static bw_status transmittance(const scaling *s, double thickness, double *u)
{
    bw_arena arena = {0};
    bw_thermal_result result = {.transmittance = 0.0};
    const bw_assembly *copy = with_thickness(
        &arena, s->from, s->index, thickness, s->core->options.scale_framing);
    bw_status status = copy == NULL ? bw_fail_memory(s->err)
                                    : bw_thermal(&result, copy, s->err);
    if (status == BW_OK)
        *u = result.transmittance;
    bw_arena_release(&arena);
    return status;
}

static bw_status fail_u(const scaling *s, double wanted, double thickness,
                        double reached)
{
    bw_compare_core *core = s->core;
    return bw_fail(
        s->err, BW_ERR_DOMAIN, s->from->file, s->layer->line,
        "the U-value of %s, %s W/(m2.K), cannot be reached by the thickness of "
        "%s (%s): with %s mm of it U is %s W/(m2.K)",
        core->wall[0].label, bw_compare_number(core, wanted, 3), s->layer->id,
        s->layer->name, bw_compare_number(core, 1e3 * thickness, 0),
        bw_compare_number(core, reached, 3));
}

static bw_status thickness_for_u(const scaling *s, double wanted,
                                 double *thickness)
{
    double low = THINNEST, high = THICKEST, u_low = 0.0, u_high = 0.0;
    BW_TRY(transmittance(s, low, &u_low));
    BW_TRY(transmittance(s, high, &u_high));
    if (u_low - u_high <= 1e-9)
        return bw_fail(s->err, BW_ERR_DOMAIN, s->from->file, s->layer->line,
                       "the thickness of %s (%s) does not change the U-value: "
                       "it lies outside a well-ventilated cavity",
                       s->layer->id, s->layer->name);
    if (wanted > u_low)
        return fail_u(s, wanted, low, u_low);
    if (wanted < u_high)
        return fail_u(s, wanted, high, u_high);
    while (high - low > 1e-9) {
        double middle = 0.5 * (low + high), u;
        BW_TRY(transmittance(s, middle, &u));
        if (u > wanted)
            low = middle;
        else
            high = middle;
    }
    *thickness = 0.5 * (low + high);
    return BW_OK;
}

const bw_layer *bw_compare_unmeasured(const bw_assembly *assembly)
{
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        if (layer->kind == BW_LAYER_SOLID && layer->thickness <= 0.0)
            return layer;
    }
    return NULL;
}

static bw_status check_drawn(const bw_assembly *assembly, bw_error *err)
{
    const bw_layer *layer = bw_compare_unmeasured(assembly);
    if (layer == NULL)
        return BW_OK;
    return bw_fail(err, BW_ERR_DOMAIN, assembly->file, layer->line,
                   "%s (%s) gives no thickness, so walls of the same "
                   "thickness cannot be made with it",
                   layer->id, layer->name);
}

static bw_status thickness_for_total(const scaling *s, double wanted,
                                     double *thickness)
{
    bw_compare_core *core = s->core;
    double total = total_thickness(s->from);
    *thickness = s->layer->thickness + wanted - total;
    if (*thickness >= THINNEST && *thickness <= THICKEST)
        return BW_OK;
    return bw_fail(
        s->err, BW_ERR_DOMAIN, s->from->file, s->layer->line,
        "the total thickness of %s, %s mm, cannot be reached by %s (%s): it "
        "would have to be %s mm thick, %s mm now",
        core->wall[0].label, bw_compare_number(core, 1e3 * wanted, 1),
        s->layer->id, s->layer->name,
        bw_compare_number(core, 1e3 * *thickness, 1),
        bw_compare_number(core, 1e3 * s->layer->thickness, 1));
}

/* The next that is sold, never thinner than it takes; 0 if none is. */
static double next_sold(const bw_layer *layer, double thickness)
{
    static const double EXACT = 1e-6;
    for (size_t i = 0; i < layer->sold_count; i++)
        if (layer->sold[i] >= thickness - EXACT)
            return layer->sold[i];
    return layer->sold_count > 0
               ? 0.0
               : BW_SOLD_STEP * ceil((thickness - EXACT) / BW_SOLD_STEP);
}

static bw_status buy(const scaling *s, bw_compared *to)
{
    const bw_layer *layer = s->layer;
    to->thickest_sold = layer->sold_count > 0
                            ? layer->sold[layer->sold_count - 1]
                            : 0.0;
    to->thickness_to_buy = next_sold(layer, to->thickness_after);
    return to->thickness_to_buy > 0.0 ? transmittance(s, to->thickness_to_buy,
                                                      &to->transmittance_to_buy)
                                      : BW_OK;
}

/* The layer goes outside the reader's range nowhere: THINNEST and THICKEST. */
static bw_status rescale(bw_compare_core *core, size_t wall, double wanted,
                         bw_error *err)
{
    scaling s = {
        .core = core, .wall = wall, .from = core->given[wall], .err = err};
    double thickness = 0.0;
    BW_TRY(find_layer(core, wall, &s.index, err));
    s.layer = &s.from->layer[s.index];
    if (s.from->junction_count > 0)
        return bw_fail(err, BW_ERR_DOMAIN, s.from->file, s.from->junction->line,
                       "a wall that names <junctions> cannot be rescaled: they "
                       "are drawn for the thicknesses it has; compare it "
                       "without --equal, or give the other walls' layers "
                       "other thicknesses");
    const char *fixed = fixed_because(s.layer);
    if (fixed != NULL)
        return bw_fail(err, BW_ERR_DOMAIN, s.from->file, s.layer->line,
                       "%s (%s) cannot be rescaled: %s", s.layer->id,
                       s.layer->name, fixed);
    if (core->options.equal == BW_EQUAL_U)
        BW_TRY(thickness_for_u(&s, wanted, &thickness));
    else
        BW_TRY(thickness_for_total(&s, wanted, &thickness));
    core->assembly[wall] = with_thickness(
        &core->arena, s.from, s.index, thickness, core->options.scale_framing);
    BW_TRY_MEMORY(core->assembly[wall] != NULL, err);
    bw_compared *to = &core->wall[wall];
    to->rescaled = true;
    to->rescaled_layer = s.layer->name;
    to->rescaled_id = s.layer->id;
    const bw_framing *framing = &s.layer->framing;
    const bool stays = framing_stays(s.layer, thickness,
                                     core->options.scale_framing);
    to->rescaled_framing = framing->present && framing->depth <= 0.0 && !stays;
    to->framing_depth = !stays               ? 0.0
                        : framing->depth > 0 ? framing->depth
                                             : s.layer->thickness;
    to->thickness_before = s.layer->thickness;
    to->thickness_after = thickness;
    return core->options.equal == BW_EQUAL_U ? buy(&s, to) : BW_OK;
}

static bw_status measure(bw_compare_core *core, bw_error *err)
{
    for (size_t i = 0; i < core->count; i++) {
        bw_thermal_result thermal;
        BW_TRY(bw_thermal(&thermal, core->assembly[i], err));
        core->wall[i].transmittance = thermal.transmittance;
        core->wall[i].total_thickness = total_thickness(core->assembly[i]);
    }
    return BW_OK;
}

bw_status bw_compare_rescale(bw_compare_core *core, bw_error *err)
{
    bw_equal equal = core->options.equal;
    for (size_t i = 0; i < core->count; i++)
        core->assembly[i] = core->given[i];
    BW_TRY(measure(core, err));
    if (equal == BW_EQUAL_AS_DRAWN)
        return BW_OK;
    for (size_t i = 0; equal == BW_EQUAL_THICKNESS && i < core->count; i++)
        BW_TRY(check_drawn(core->given[i], err));
    double wanted = equal == BW_EQUAL_U ? core->wall[0].transmittance
                                        : core->wall[0].total_thickness;
    for (size_t i = 1; i < core->count; i++) {
        double now = equal == BW_EQUAL_U ? core->wall[i].transmittance
                                         : core->wall[i].total_thickness;
        size_t named;
        if (fabs(now - wanted) > 1e-9)
            BW_TRY(rescale(core, i, wanted, err));
        else if (core->options.scaled_layer != NULL)
            BW_TRY(find_layer(core, i, &named, err));
    }
    return measure(core, err);
}
