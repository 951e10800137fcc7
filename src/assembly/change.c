#include "change.h"

#include "beyond.h"

#include <math.h>
#include <string.h>

#include "bothways/geography.h"
#include "change_sides.h"

/* Invariant: whatever is written belongs to the copy; materials are copied
 * before they are changed. A refusal of the arena is looked for once, at the
 * end: until then what cannot be had is written nowhere. */

static const double SATURATION_FACTOR = 1.25; /* without a range; estimate */

static const double variable_rh[] = {0.25, 0.90};
static const double variable_sd[] = {2.0, 0.5};
/* Class limits of DIN 4108-3:2018 [S], straight in ln sd between. */
const bw_curve bw_variable_membrane = {.count = 2,
                                       .x = variable_rh,
                                       .y = variable_sd,
                                       .basis = BW_BASIS_OPENED,
                                       .source = "DIN 4108-3:2018, class "
                                                 "limits",
                                       .note = ""};

/* A copy under change. */
typedef struct variant {
    bw_arena *arena;
    bw_assembly *assembly;
    bw_layer *layer;     /* assembly->layer, to be written */
    bw_material nowhere; /* written, never read */
} variant;

static bw_property given(double value)
{
    return (bw_property){.known = true,
                         .value = value,
                         .basis = BW_BASIS_GIVEN,
                         .evidence = BW_EVIDENCE_TABULATED,
                         .source = "a change tried",
                         .note = ""};
}

/* A copy of the material that may be written. */
static bw_material *own(variant *v, const bw_material **material)
{
    bw_material *m = BW_NEW(v->arena, bw_material, 1);
    if (m == NULL)
        m = &v->nowhere;
    *m = **material;
    *material = m;
    return m;
}

static bw_material *material_of(variant *v, size_t layer)
{
    return own(v, &v->layer[layer].material);
}

/* All of a curve's values times a factor, plus a constant. */
static void redraw(variant *v, bw_curve *curve, double factor, double constant)
{
    double *y = BW_NEW(v->arena, double, curve->count);
    for (size_t i = 0; y != NULL && i < curve->count; i++)
        y[i] = curve->y[i] * factor + constant;
    if (y != NULL)
        curve->y = y;
}

/* ---- one layer ----------------------------------------------------------- */

/* Where a material has a dry-cup and a wet-cup value both keep their
 * proportion. */
static void set_mu(bw_material *m, double mu)
{
    double wet = m->mu_dry.known && m->mu_wet.known && m->mu_dry.value > 0.0
                     ? mu * m->mu_wet.value / m->mu_dry.value
                     : mu;
    m->sd_curve.count = m->mu_curve.count = 0;
    m->sd.known = false;
    m->mu_dry = given(mu);
    m->mu_wet = given(wet);
}

/* Of a solid layer by its mu, which the simulation reads. */
static void constant_sd(variant *v, const bw_change *c)
{
    const bw_layer *layer = &v->layer[c->layer];
    bw_material *m = material_of(v, c->layer);
    m->mu_dry.known = m->mu_wet.known = false;
    if (layer->kind == BW_LAYER_SOLID && layer->thickness > 0.0) {
        set_mu(m, c->value / layer->thickness);
    } else {
        m->sd_curve.count = m->mu_curve.count = 0;
        m->sd = given(c->value);
    }
}

/* Constant, but still a curve: the methods, and their limits, stay those of a
 * variable layer. */
static void flat_curve(variant *v, size_t layer, double sd)
{
    bw_material *m = material_of(v, layer);
    redraw(v, &m->sd_curve, 0.0, sd);
    m->mu_curve.count = 0;
}

static void set_sd(variant *v, const bw_change *c)
{
    bw_layer *to = &v->layer[c->layer];
    if (bw_layer_sd_by_mu(to))
        set_mu(material_of(v, c->layer), c->value / to->thickness);
    else if (to->material->sd_curve.count >= 2)
        flat_curve(v, c->layer, c->value);
    else
        constant_sd(v, c);
}

static void set_property(variant *v, const bw_change *c)
{
    bw_layer *to = &v->layer[c->layer];
    switch (c->property) {
    case BW_VARIED_MU:
        set_mu(material_of(v, c->layer), c->value);
        break;
    case BW_VARIED_SD:
        set_sd(v, c);
        break;
    case BW_VARIED_RESISTANCE:
        to->resistance = given(c->value);
        break;
    case BW_VARIED_THICKNESS:
        to->thickness = c->value;
        break;
    case BW_VARIED_COUNT:
        break;
    case BW_VARIED_LAMBDA:
        to->resistance.known = false;
        /* fall through */
    default:
        *bw_property_of(material_of(v, c->layer),
                        bw_varied_id(c->property)) = given(c->value);
    }
}

static void set_absorption(variant *v, const bw_change *c)
{
    material_of(v, c->layer)->water_absorption.value = c->value;
}

/* No effect without a curve. */
static void hold_curve(variant *v, const bw_change *c)
{
    const bw_curve *curve = &v->layer[c->layer].material->sd_curve;
    if (curve->count >= 2)
        flat_curve(v, c->layer,
                   curve->y[bw_change_is_on(c) ? curve->count - 1 : 0]);
}

static void hold_cup(variant *v, const bw_material **material, bool wet)
{
    bw_material *m = own(v, material);
    if (!m->mu_dry.known || !m->mu_wet.known)
        return;
    m->mu_curve.count = 0;
    if (wet)
        m->mu_dry = m->mu_wet;
    else
        m->mu_wet = m->mu_dry;
}

static void hold_mu(variant *v, const bw_change *c)
{
    hold_cup(v, &v->layer[c->layer].material, bw_change_is_on(c));
}

static void hold_framing_mu(variant *v, const bw_change *c)
{
    for (size_t i = 0; i < v->assembly->layer_count; i++)
        if (v->layer[i].framing.present)
            hold_cup(v, &v->layer[i].framing.material, bw_change_is_on(c));
}

/* The air change is that of its kind, whatever was given. */
static void ventilate(variant *v, const bw_change *c)
{
    v->layer[c->layer].ventilation = c->kind == BW_CHANGE_OPENED ? BW_VENT_WELL
                                                                 : BW_VENT_NONE;
    v->layer[c->layer].air_change = 0.0;
}

static void set_air_change(variant *v, const bw_change *c)
{
    v->layer[c->layer].air_change = c->value;
}

static void set_studs(variant *v, const bw_change *c)
{
    v->layer[c->layer].framing.depth = c->value;
}

/* ---- another layer ------------------------------------------------------- */

/* What stands where the waterproofing stood is not stated to keep water out. */
static void taken_out(variant *v, size_t layer)
{
    bw_beyond_layer_lost(&v->assembly->beyond, layer);
}

/* What was said of the old material (a resistance, a water content) goes;
 * framing stays. */
static void exchange(variant *v, const bw_change *c)
{
    bw_layer *to = &v->layer[c->layer];
    taken_out(v, c->layer);
    to->material = c->material;
    to->name = c->material->name;
    to->thickness = c->value;
    to->resistance.known = false;
    to->kind = c->value > 0.0 ? BW_LAYER_SOLID : BW_LAYER_MEMBRANE;
    if (strcmp(c->material->group, "membrane") == 0)
        to->kind = BW_LAYER_MEMBRANE;
    to->has_initial_moisture = to->has_initial_moisture && to->initial_is_rh;
}

static void exchange_membrane(variant *v, const bw_change *c)
{
    bw_layer *to = &v->layer[c->layer];
    bw_material unknown = bw_material_unknown();
    unknown.id = unknown.name = "changed-membrane";
    unknown.group = "membrane";
    unknown.mould_class = BW_MOULD_MEDIUM_RESISTANT;
    if (c->curve != NULL)
        unknown.sd_curve = *c->curve;
    else
        unknown.sd = given(c->value);
    taken_out(v, c->layer);
    to->kind = BW_LAYER_MEMBRANE;
    to->material = &unknown;
    own(v, &to->material);
}

/* Layers named by number move with their layer. A rain leak behind an outermost
 * layer that is left out comes to the next: it is not stopped by that. */
static void shift_indices(bw_assembly *to, size_t at, long by)
{
    if (to->drying_test.after_layer >= (long)at)
        to->drying_test.after_layer += by;
    if (to->rain_leak.given && to->rain_leak.after_layer >= (long)at)
        to->rain_leak.after_layer += by;
    if (to->rain_leak.given && to->rain_leak.after_layer < 0)
        to->rain_leak.after_layer = 0;
    bw_beyond_layers_moved(&to->beyond, at, by);
}

static void add_membrane(variant *v, const bw_change *c)
{
    bw_layer *at = v->layer + c->layer;
    memmove(at + 1, at, (v->assembly->layer_count - c->layer) * sizeof *at);
    v->assembly->layer_count++;
    shift_indices(v->assembly, c->layer, 1);
    *at = (bw_layer){.id = "added-membrane",
                     .name = "added membrane",
                     .source = "",
                     .evidence = BW_EVIDENCE_TABULATED};
    exchange_membrane(v, c);
}

static void replace_layer(variant *v, const bw_change *c)
{
    taken_out(v, c->layer);
    v->layer[c->layer] = *c->made;
}

static void remove_layer(variant *v, const bw_change *c)
{
    bw_layer *at = v->layer + c->layer;
    taken_out(v, c->layer);
    v->assembly->layer_count--;
    memmove(at, at + 1, (v->assembly->layer_count - c->layer) * sizeof *at);
    shift_indices(v->assembly, c->layer, -1);
}

/* ---- every layer --------------------------------------------------------- */

/* No more than the free saturation holds. */
static void scale_sorption(variant *v, const bw_change *c)
{
    for (size_t i = 0; i < v->assembly->layer_count; i++) {
        const size_t count = v->layer[i].material->sorption.count;
        if (count < 2)
            continue;
        bw_material *m = material_of(v, i);
        double last = m->sorption.y[count - 1], most = last * c->value;
        if (m->free_saturation.known && m->density.known)
            most = fmin(most, fmax(last, 0.95 * m->free_saturation.value /
                                             m->density.value));
        redraw(v, &m->sorption, most / last, 0.0);
    }
}

static void saturate(variant *v, const bw_change *c)
{
    const bool high = bw_change_is_on(c);
    for (size_t i = 0; i < v->assembly->layer_count; i++) {
        if (!v->layer[i].material->free_saturation.known)
            continue;
        bw_material *m = material_of(v, i);
        bw_property *p = &m->free_saturation;
        const bw_curve *u = &m->sorption;
        double value = high ? p->value * SATURATION_FACTOR
                            : p->value / SATURATION_FACTOR;
        if (bw_property_has_range(p))
            value = high ? p->high : p->low;
        if (u->count >= 2 && m->density.known) /* holds what it sorbs */
            value = fmax(value, fmin(p->value, 1.05 * u->y[u->count - 1] *
                                                   m->density.value));
        if (m->density.known) /* and no more than its pores */
            value = fmin(value, fmax(p->value, 1000.0 * bw_material_pores(m)));
        p->value = value;
    }
}

/* At the start: an RH in all that sorbs, or a water content in timber, but not
 * in cladding before ventilated air, which is as wet as the weather. */
static void begin(variant *v, const bw_change *c)
{
    const bool rh = c->kind == BW_CHANGE_START;
    for (size_t i = rh ? 0 : bw_layers_outside(v->assembly, BW_VENT_WELL);
         i < v->assembly->layer_count; i++) {
        bw_layer *layer = &v->layer[i];
        bw_framing *framing = &layer->framing;
        const bw_material *m = layer->material;
        if (framing->present && (rh || bw_is_timber(framing->material))) {
            framing->has_initial_moisture = true;
            framing->initial_is_rh = rh;
            framing->initial_moisture = c->value;
        }
        if (rh ? m->sorption.count >= 2 : bw_is_timber(m)) {
            layer->has_initial_moisture = true;
            layer->initial_is_rh = rh;
            layer->initial_moisture = c->value;
        }
    }
}

/* ---- all ----------------------------------------------------------------- */

#define LAYER(made, ...)                                                       \
    {                                                                          \
        .make = (made), .facts = { true, __VA_ARGS__ }                         \
    }
#define WALL(made, ...)                                                        \
    {                                                                          \
        .make = (made), .facts = { false, __VA_ARGS__ }                        \
    }
#define SIDE(made, ...)                                                        \
    {                                                                          \
        .side = (made), .facts = { false, __VA_ARGS__ }                        \
    }

/* One row, one kind. */
static const struct row {
    void (*make)(variant *v, const bw_change *c);      /* of layers, or NULL */
    void (*side)(bw_assembly *to, const bw_change *c); /* of a side, or NULL */
    bw_change_facts facts; /* what is 0 or NULL: 1, or no words */
} rows[BW_CHANGE_KINDS] = {
    [BW_CHANGE_NOTHING] = {.facts = {.before = "as drawn"}},
    [BW_CHANGE_PROPERTY] = {.make = set_property, .facts = {.of_layer = true}},
    [BW_CHANGE_SD] = LAYER(constant_sd, "m", .before = "sd of "),
    [BW_CHANGE_CURVE] = LAYER(hold_curve, .before = "sd of ", .after = " held"),
    [BW_CHANGE_MU] = LAYER(hold_mu, .before = "mu of "),
    [BW_CHANGE_FRAMING_MU] = WALL(hold_framing_mu, .before = "mu of "),
    [BW_CHANGE_STUDS] = LAYER(set_studs, "mm", .per_si = 1000.0,
                              .before = "depth of the framing in "),
    [BW_CHANGE_MATERIAL] = {.make = exchange, .facts = {.of_layer = true}},
    [BW_CHANGE_MEMBRANE] = LAYER(exchange_membrane, "m",
                                 .before = "sd in place of "),
    [BW_CHANGE_ADDED] = LAYER(add_membrane, "m", .before = "sd added before "),
    [BW_CHANGE_LAYER] = LAYER(replace_layer, .before = "another layer for "),
    [BW_CHANGE_REMOVED] = LAYER(remove_layer, .before = "no "),
    [BW_CHANGE_OPENED] = LAYER(ventilate, .after = " opened"),
    [BW_CHANGE_BLOCKED] = LAYER(ventilate, .after = " blocked"),
    [BW_CHANGE_HUMIDITY] = SIDE(bw_make_step_humidity,
                                .before = "indoor humidity"),
    [BW_CHANGE_CLASS] = SIDE(bw_make_class, "-",
                             .before = "indoor humidity class"),
    [BW_CHANGE_ROOM] = SIDE(bw_make_room, "% RH", .per_si = 100.0,
                            .before = "indoor air at"),
    [BW_CHANGE_AIR_LEAKAGE] = SIDE(bw_make_air_leakage, "m3/(m2 h)",
                                   .per_si = 3600.0,
                                   .before = "air leakage q50"),
    [BW_CHANGE_RAIN_LEAK] = SIDE(bw_make_leak_rain,
                                 .before = "driving rain inside"),
    [BW_CHANGE_BUILT_IN] = WALL(begin, "% moisture", .per_si = 100.0,
                                .before = "timber built in at"),
    [BW_CHANGE_ABSORPTION] = LAYER(set_absorption, "kg/(m2 s0.5)",
                                   .before = "A_w of "),
    [BW_CHANGE_SORPTION] = WALL(
        scale_sorption, "-", .before = "moisture sorbed by every layer, times"),
    [BW_CHANGE_SATURATION] = WALL(saturate,
                                  .before = "free saturation of every layer",
                                  .off = " at its least", .on = " at its most"),
    [BW_CHANGE_AIR_CHANGE] = LAYER(set_air_change, "1/h", .per_si = 3600.0,
                                   .before = "air changes of "),
    [BW_CHANGE_DRIVING_RAIN] = SIDE(bw_make_driving_rain,
                                    .before = "exposure to driving rain"),
    [BW_CHANGE_WIND] = SIDE(
        bw_make_wind, .before = "wind at the face",
        .off = " of ground one step more built up",
        .on = " of ground one step more open and twice as high"),
    [BW_CHANGE_SUN] = SIDE(bw_make_sun,
                           .before = "the face in the shade: no sun"),
    [BW_CHANGE_START] = WALL(begin, "% RH", .per_si = 100.0,
                             .before = "every layer at the start at"),
    [BW_CHANGE_REDISTRIBUTION] =
        {.facts = {.before = "water spreads",
                   .off = " more slowly without rain than in rain",
                   .on = " as fast without rain as in rain"}},
};

static const char *words_or_none(const char *words)
{
    return words != NULL ? words : "";
}

bw_change_facts bw_change_facts_of(const bw_change *change)
{
    bw_change_facts facts = rows[change->kind].facts;
    facts.unit = change->kind == BW_CHANGE_PROPERTY
                     ? bw_varied_unit(change->property)
                     : words_or_none(facts.unit);
    facts.per_si = facts.per_si > 0.0 ? facts.per_si : 1.0;
    facts.before = words_or_none(facts.before);
    facts.after = words_or_none(facts.after);
    facts.off = words_or_none(facts.off);
    facts.on = words_or_none(facts.on);
    return facts;
}

bw_change bw_change_to(bw_change_kind kind, size_t layer, double value)
{
    return (bw_change){.kind = kind, .layer = layer, .value = value};
}

const bw_assembly *bw_changes_apply(bw_arena *arena, const bw_assembly *from,
                                    const bw_change *change, size_t count)
{
    variant v = {.arena = arena};
    v.assembly = BW_NEW(arena, bw_assembly, 1);
    v.layer = BW_NEW(arena, bw_layer, from->layer_count + count);
    if (v.assembly == NULL || v.layer == NULL)
        return NULL;
    *v.assembly = *from;
    v.assembly->junction_count = 0; /* they are made of the wall as it was */
    if (from->layer_count > 0)
        memcpy(v.layer, from->layer, from->layer_count * sizeof *v.layer);
    v.assembly->layer = v.layer;
    for (size_t i = 0; i < count; i++) {
        const struct row *row = &rows[change[i].kind];
        if (row->make != NULL)
            row->make(&v, &change[i]);
        if (row->side != NULL)
            row->side(v.assembly, &change[i]);
    }
    return arena->failed ? NULL : v.assembly;
}

const bw_assembly *bw_change_apply(bw_arena *arena, const bw_assembly *from,
                                   const bw_change *change)
{
    return bw_changes_apply(arena, from, change, 1);
}
