#include "variant.h"

#include <math.h>
#include <string.h>

#include "vapour.h"

/* Invariant: pure; where no single number stands for a property it is NAN. */

static const double DRY = 0.25; /* RH at which a variable sd counts as dry */

/* What a layer has of its own. */
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

bw_property_id bw_varied_id(bw_varied property)
{
    static const bw_property_id ids[BW_VARIED_COUNT + 1] = {
        [BW_VARIED_MU] = BW_PROPERTY_MU_DRY,
        [BW_VARIED_SD] = BW_PROPERTY_SD,
        [BW_VARIED_LAMBDA] = BW_PROPERTY_CONDUCTIVITY,
        [BW_VARIED_RESISTANCE] = BW_PROPERTY_COUNT,
        [BW_VARIED_THICKNESS] = BW_PROPERTY_COUNT,
        [BW_VARIED_DENSITY] = BW_PROPERTY_DENSITY,
        [BW_VARIED_SPECIFIC_HEAT] = BW_PROPERTY_SPECIFIC_HEAT,
        [BW_VARIED_COUNT] = BW_PROPERTY_COUNT};
    return ids[property];
}

const bw_property_row *bw_varied_row(bw_varied property)
{
    const bw_property_id id = bw_varied_id(property);
    if (id < BW_PROPERTY_COUNT)
        return &bw_property_rows[id];
    return property == BW_VARIED_RESISTANCE ? &resistance : &thickness;
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

static bw_vapour_rule rule_of(const bw_layer *layer)
{
    return bw_vapour_rules(layer->material, layer->kind, layer->thickness);
}

bool bw_layer_sd_by_mu(const bw_layer *layer)
{
    return rule_of(layer) == BW_VAPOUR_MU && layer->thickness > 0.0 &&
           layer->kind == BW_LAYER_SOLID;
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
    case BW_VARIED_SPECIFIC_HEAT:
        return known(bw_property_in(m, bw_varied_id(property)));
    case BW_VARIED_COUNT:
        break;
    }
    return (double)NAN;
}

double bw_layer_dry_sd(const bw_layer *layer)
{
    const bw_curve *curve = &layer->material->sd_curve;
    return curve->count >= 2 ? bw_curve_log(curve, DRY)
                             : fmax(bw_layer_value(layer, BW_VARIED_SD), 0.0);
}
