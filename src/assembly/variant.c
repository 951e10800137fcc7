#include "variant.h"

#include <math.h>
#include <string.h>

#include "bothways/air.h"

/* Invariant: whatever is written belongs to the copy; materials are copied
 * before they are changed. */

static const double HUMIDITY_STEP = 0.10; /* RH: between classes, about */

void bw_variant_start(bw_variant *v, bw_arena *arena, const bw_assembly *from)
{
    *v = (bw_variant){.arena = arena, .room = from->layer_count + 1};
    v->assembly = BW_NEW(arena, bw_assembly, 1);
    v->layer = BW_NEW(arena, bw_layer, v->room);
    v->no_memory = v->assembly == NULL || v->layer == NULL;
    if (v->no_memory)
        return;
    *v->assembly = *from;
    if (from->layer_count > 0)
        memcpy(v->layer, from->layer, from->layer_count * sizeof *v->layer);
    v->assembly->layer = v->layer;
}

const bw_assembly *bw_variant_done(const bw_variant *v)
{
    return v->no_memory ? NULL : v->assembly;
}

const bw_property_row *bw_varied_row(bw_varied property)
{
    static const bw_property_row thickness = {.attribute = "thickness",
                                              .unit = "m",
                                              .dimension = BW_DIM_LENGTH,
                                              .low = 5e-5,
                                              .high = 3.0};
    static const bw_property_row resistance = {
        .attribute = "resistance",
        .unit = "m2.K/W",
        .dimension = BW_DIM_THERMAL_RESISTANCE,
        .low = 0.0,
        .high = 100.0};
    switch (property) {
    case BW_VARIED_MU:
        return &bw_property_rows[BW_PROPERTY_MU_DRY];
    case BW_VARIED_SD:
        return &bw_property_rows[BW_PROPERTY_SD];
    case BW_VARIED_LAMBDA:
        return &bw_property_rows[BW_PROPERTY_CONDUCTIVITY];
    case BW_VARIED_RESISTANCE:
        return &resistance;
    case BW_VARIED_DENSITY:
        return &bw_property_rows[BW_PROPERTY_DENSITY];
    case BW_VARIED_SPECIFIC_HEAT:
        return &bw_property_rows[BW_PROPERTY_SPECIFIC_HEAT];
    case BW_VARIED_THICKNESS:
    case BW_VARIED_COUNT:
        break;
    }
    return &thickness;
}

bw_varied bw_varied_of(const char *word)
{
    int i = 0;
    while (i < BW_VARIED_COUNT &&
           strcmp(bw_varied_word((bw_varied)i), word) != 0)
        i++;
    return (bw_varied)i;
}

const char *bw_varied_word(bw_varied property)
{
    return bw_varied_row(property)->attribute;
}

const char *bw_varied_unit(bw_varied property)
{
    const char *unit = bw_varied_row(property)->unit;
    return unit[0] != '\0' ? unit : "-";
}

static bool vapour_by_mu(const bw_material *m, bw_layer_kind kind,
                         double thickness)
{
    return (m->mu_dry.known || m->mu_wet.known) && thickness > 0.0 &&
           kind == BW_LAYER_SOLID && m->sd_curve.count < 2 &&
           (!m->sd.known || m->sd.basis != BW_BASIS_GIVEN);
}

bool bw_layer_sd_by_mu(const bw_layer *layer)
{
    return vapour_by_mu(layer->material, layer->kind, layer->thickness);
}

static double known(const bw_property *p)
{
    return p->known ? p->value : (double)NAN;
}

static double dry_mu(const bw_material *m)
{
    return known(m->mu_dry.known ? &m->mu_dry : &m->mu_wet);
}

double bw_layer_value(const bw_layer *layer, bw_varied property)
{
    const bw_material *m = layer->material;
    switch (property) {
    case BW_VARIED_MU:
        return m->sd_curve.count < 2 ? dry_mu(m) : (double)NAN;
    case BW_VARIED_SD:
        if (m->sd_curve.count >= 2)
            return (double)NAN;
        if (m->sd.known && !bw_layer_sd_by_mu(layer))
            return m->sd.value;
        return dry_mu(m) * layer->thickness;
    case BW_VARIED_LAMBDA:
        return layer->resistance.known ? (double)NAN
                                       : known(&m->thermal_conductivity);
    case BW_VARIED_RESISTANCE:
        return layer->resistance.known
                   ? layer->resistance.value
                   : layer->thickness / known(&m->thermal_conductivity);
    case BW_VARIED_THICKNESS:
        return layer->thickness;
    case BW_VARIED_DENSITY:
        return known(&m->density);
    case BW_VARIED_SPECIFIC_HEAT:
        return known(&m->specific_heat);
    case BW_VARIED_COUNT:
        break;
    }
    return (double)NAN;
}

static bw_property given(double value)
{
    return (bw_property){.known = true,
                         .value = value,
                         .basis = BW_BASIS_GIVEN,
                         .evidence = BW_EVIDENCE_TABULATED,
                         .source = "a change tried",
                         .note = ""};
}

/* A copy of the material that may be written; NULL when memory is short. */
static bw_material *own(bw_variant *v, const bw_material **material)
{
    bw_material *m = v->no_memory ? NULL : BW_NEW(v->arena, bw_material, 1);
    if (m == NULL) {
        v->no_memory = true;
        return NULL;
    }
    *m = **material;
    *material = m;
    return m;
}

bw_material *bw_variant_material(bw_variant *v, size_t layer)
{
    return own(v, &v->layer[layer].material);
}

static void constant_sd(bw_material *m, const bw_layer *layer, double sd)
{
    bool solid = layer->kind == BW_LAYER_SOLID && layer->thickness > 0.0;
    m->sd_curve.count = m->mu_curve.count = 0;
    if (solid) {
        m->mu_dry = m->mu_wet = given(sd / layer->thickness);
        m->sd.known = false;
    } else {
        m->mu_dry.known = m->mu_wet.known = false;
        m->sd = given(sd);
    }
}

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

/* Constant, but still a curve: the methods, and their limits, stay those of a
 * variable layer. */
static void flat_curve(bw_variant *v, bw_material *m, double sd)
{
    double *y = BW_NEW(v->arena, double, m->sd_curve.count);
    if (y == NULL) {
        v->no_memory = true;
        return;
    }
    for (size_t i = 0; i < m->sd_curve.count; i++)
        y[i] = sd;
    m->sd_curve.y = y;
    m->mu_curve.count = 0;
}

void bw_variant_set_sd(bw_variant *v, size_t layer, double sd)
{
    if (v->no_memory)
        return;
    bw_material *m = own(v, &v->layer[layer].material);
    if (m != NULL)
        constant_sd(m, &v->layer[layer], sd);
}

void bw_variant_set(bw_variant *v, size_t layer, bw_varied property,
                    double value)
{
    if (v->no_memory)
        return;
    bw_layer *to = &v->layer[layer];
    if (property == BW_VARIED_THICKNESS) {
        to->thickness = value;
        return;
    }
    if (property == BW_VARIED_RESISTANCE) {
        to->resistance = given(value);
        return;
    }
    bool by_mu = bw_layer_sd_by_mu(to);
    bw_material *m = own(v, &to->material);
    if (m == NULL)
        return;
    if (property == BW_VARIED_MU) {
        set_mu(m, value);
    } else if (property == BW_VARIED_SD) {
        if (by_mu)
            set_mu(m, value / to->thickness);
        else if (m->sd_curve.count >= 2)
            flat_curve(v, m, value);
        else
            constant_sd(m, to, value);
    } else if (property == BW_VARIED_LAMBDA) {
        m->thermal_conductivity = given(value);
        to->resistance.known = false;
    } else if (property == BW_VARIED_DENSITY) {
        m->density = given(value);
    } else if (property == BW_VARIED_SPECIFIC_HEAT) {
        m->specific_heat = given(value);
    }
}

void bw_variant_hold_curve(bw_variant *v, size_t layer, bool humid)
{
    if (v->no_memory || v->layer[layer].material->sd_curve.count < 2)
        return;
    bw_material *m = own(v, &v->layer[layer].material);
    if (m != NULL)
        flat_curve(v, m, m->sd_curve.y[humid ? m->sd_curve.count - 1 : 0]);
}

void bw_variant_hold_mu(bw_variant *v, size_t layer, bool framing, bool wet)
{
    if (v->no_memory)
        return;
    bw_layer *to = &v->layer[layer];
    bw_material *m = own(v, framing ? &to->framing.material : &to->material);
    if (m == NULL || !m->mu_dry.known || !m->mu_wet.known)
        return;
    m->mu_curve.count = 0;
    if (wet)
        m->mu_dry = m->mu_wet;
    else
        m->mu_wet = m->mu_dry;
}

void bw_variant_exchange(bw_variant *v, size_t layer,
                         const bw_material *material, double thickness)
{
    if (v->no_memory)
        return;
    bw_layer *to = &v->layer[layer];
    to->material = material;
    to->name = material->name;
    to->thickness = thickness;
    to->resistance.known = false;
    to->kind = thickness > 0.0 ? BW_LAYER_SOLID : BW_LAYER_MEMBRANE;
    if (strcmp(material->group, "membrane") == 0)
        to->kind = BW_LAYER_MEMBRANE;
    to->has_initial_moisture = to->has_initial_moisture && to->initial_is_rh;
}

/* A membrane of a generic kind, nothing known of it but its sd. */
static const bw_material *generic_membrane(bw_variant *v, double sd,
                                           const bw_curve *curve)
{
    bw_material *m = BW_NEW(v->arena, bw_material, 1);
    if (m == NULL)
        return NULL;
    *m = bw_material_unknown();
    m->id = m->name = "changed-membrane";
    m->group = "membrane";
    m->mould_class = BW_MOULD_MEDIUM_RESISTANT;
    if (curve != NULL)
        m->sd_curve = *curve;
    else
        m->sd = given(sd);
    return m;
}

/* Layers named by number move with their layer. */
static void shift_indices(bw_assembly *to, size_t at, long by)
{
    if (to->drying_test.after_layer >= (long)at)
        to->drying_test.after_layer += by;
    if (to->rain_leak.given && to->rain_leak.after_layer >= (long)at)
        to->rain_leak.after_layer += by;
}

void bw_variant_membrane(bw_variant *v, size_t at, bool add, double sd,
                         const bw_curve *curve)
{
    const bw_material *material = v->no_memory ? NULL
                                               : generic_membrane(v, sd, curve);
    if (material == NULL || (add && v->assembly->layer_count == v->room)) {
        v->no_memory = true;
        return;
    }
    bw_layer *layer = v->layer;
    if (add) {
        memmove(layer + at + 1, layer + at,
                (v->assembly->layer_count - at) * sizeof *layer);
        v->assembly->layer_count++;
        shift_indices(v->assembly, at, 1);
        layer[at] = (bw_layer){.id = "added-membrane",
                               .name = "added membrane",
                               .source = "",
                               .evidence = BW_EVIDENCE_TABULATED};
    }
    layer[at].kind = BW_LAYER_MEMBRANE;
    layer[at].material = material;
}

void bw_variant_remove(bw_variant *v, size_t layer)
{
    if (v->no_memory)
        return;
    size_t rest = v->assembly->layer_count - layer - 1;
    memmove(v->layer + layer, v->layer + layer + 1, rest * sizeof *v->layer);
    v->assembly->layer_count--;
    shift_indices(v->assembly, layer, -1);
}

void bw_variant_ventilate(bw_variant *v, size_t layer, bw_ventilation to)
{
    if (v->no_memory)
        return;
    v->layer[layer].ventilation = to;
    if (to == BW_VENT_NONE)
        v->layer[layer].air_change = 0.0;
}

static bool is_wood(const bw_material *m)
{
    return m->wood_kind == BW_SOLID_WOOD || m->wood_kind == BW_WOOD_PANEL;
}

void bw_variant_built_in(bw_variant *v, double moisture)
{
    for (size_t i = 0; !v->no_memory && i < v->assembly->layer_count; i++) {
        bw_layer *layer = &v->layer[i];
        bw_framing *framing = &layer->framing;
        if (framing->present && is_wood(framing->material)) {
            framing->has_initial_moisture = true;
            framing->initial_is_rh = false;
            framing->initial_moisture = moisture;
        }
        if (!is_wood(layer->material))
            continue;
        layer->has_initial_moisture = true;
        layer->initial_is_rh = false;
        layer->initial_moisture = moisture;
    }
}

static void damper_months(bw_indoors *indoors)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        double limit = bw_saturation_pressure(indoors->month_temperature[m]);
        indoors->month_vapour_pressure[m] = fmin(
            indoors->month_vapour_pressure[m] + HUMIDITY_STEP * limit, limit);
    }
}

bool bw_indoors_step_up(bw_indoors *indoors)
{
    enum { HIGHEST_CLASS = 5 };
    switch (indoors->kind) {
    case BW_INDOOR_CLASS:
        if (indoors->humidity_class >= HIGHEST_CLASS)
            return false;
        indoors->humidity_class++;
        return true;
    case BW_INDOOR_RH:
        if (indoors->relative_humidity > 1.0 - HUMIDITY_STEP)
            return false;
        indoors->relative_humidity += HUMIDITY_STEP;
        return true;
    case BW_INDOOR_EN15026:
        if (indoors->en15026_high)
            return false;
        indoors->en15026_high = true;
        return true;
    case BW_INDOOR_MONTHS:
        damper_months(indoors);
        return true;
    }
    return false;
}
