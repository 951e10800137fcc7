#include <math.h>

#include "bothways/geography.h"
#include "study.h"

/* What no file says that it is unsure of, and is all the same: the plausible
 * range that the library gives of each property of each layer inside the
 * weather line, the water that the face takes up and how it spreads, rain,
 * wind, sun, the cavity's air, the start. Switches with a low and a high end.
 * One more of them is an add_ here, and a place in simulate.c's order where the
 * steady methods cannot see it. */

/* Estimates, where the library has no range; docs/methods.md, "Margin". */
static const double ABSORPTION_FACTOR = 3.0;
static const double SORPTION_LOW = 0.7, SORPTION_HIGH = 1.3;
static const double AIRED_FACTOR = 3.0; /* where given */
static const double AIRED_LOW = 5.0 / 3600.0, AIRED_HIGH = 200.0 / 3600.0;
static const double SLIGHTLY_AIRED = 0.1;               /* of these */
static const double START_DRY = 0.50, START_WET = 0.95; /* RH */
static const double LEAK_Q50 = 3.0 / 3600.0;            /* m3/(m2 s) */

static const bw_change as_drawn = {.kind = BW_CHANGE_NOTHING};

/* ---- ranges of the library ---------------------------------------------- */

/* The property of the library that this is, or NULL where it is not what the
 * methods read. */
static const bw_property *library_range(const bw_layer *layer,
                                        bw_varied property)
{
    const bw_material *m = layer->material;
    bool by_mu = bw_layer_sd_by_mu(layer);
    switch (property) {
    case BW_VARIED_MU:
        return !by_mu ? NULL : m->mu_dry.known ? &m->mu_dry : &m->mu_wet;
    case BW_VARIED_SD:
        return by_mu || m->sd_curve.count >= 2 ? NULL : &m->sd;
    case BW_VARIED_LAMBDA:
        return layer->resistance.known ? NULL : &m->thermal_conductivity;
    default:
        return bw_varied_id(property) < BW_PROPERTY_COUNT
                   ? bw_property_in(m, bw_varied_id(property))
                   : NULL;
    }
}

static void add_library(bw_study *study, size_t layer, bw_varied property)
{
    const bw_layer *in = &study->assembly->layer[layer];
    const bw_property *p = library_range(in, property);
    if (p == NULL || !bw_property_has_range(p) ||
        (study->library == NULL && bw_layer_unsure(in, property)))
        return;
    bw_source *s = bw_study_ends(study,
                                 (bw_change){.kind = BW_CHANGE_PROPERTY,
                                             .layer = layer,
                                             .property = property,
                                             .whence = " in the library"},
                                 p->low, p->high, p->value);
    if (study->library != NULL)
        s->shown.kind = BW_UNKNOWN_LIBRARY;
}

/* ---- water --------------------------------------------------------------- */

static bool sorbs(const bw_layer *layer)
{
    return layer->material->sorption.count >= 2;
}

static bool saturates(const bw_layer *layer)
{
    return layer->material->free_saturation.known;
}

static bool draws(const bw_layer *layer)
{
    const bw_property *p = &layer->material->water_absorption;
    return layer->kind == BW_LAYER_SOLID && p->known && p->value > 0.0;
}

static void add_absorption(bw_study *study, size_t layer)
{
    const bw_layer *in = &study->assembly->layer[layer];
    const bw_property *p = &in->material->water_absorption;
    const bool range = bw_property_has_range(p);
    if (draws(in))
        bw_study_ends(study, bw_change_to(BW_CHANGE_ABSORPTION, layer, 0.0),
                      range ? p->low : p->value / ABSORPTION_FACTOR,
                      range ? p->high : p->value * ABSORPTION_FACTOR, p->value);
}

static void add_storage(bw_study *study)
{
    if (bw_any_layer(study->assembly, sorbs)) {
        bw_study_ends(study, bw_change_to(BW_CHANGE_SORPTION, 0, 0.0),
                      SORPTION_LOW, SORPTION_HIGH, 1.0);
        bw_study_ends(study, bw_change_to(BW_CHANGE_START, 0, 0.0), START_DRY,
                      START_WET, (double)NAN);
    }
    if (bw_any_layer(study->assembly, saturates))
        bw_study_switch(study, bw_change_to(BW_CHANGE_SATURATION, 0, 0.0),
                        bw_change_to(BW_CHANGE_SATURATION, 0, 1.0));
}

static void add_redistribution(bw_study *study)
{
    const bool rule = study->options.transient.redistribution ==
                      BW_REDISTRIBUTION_RULE;
    if (bw_any_layer(study->assembly, draws))
        bw_study_switch(
            study, as_drawn,
            bw_change_to(BW_CHANGE_REDISTRIBUTION, 0, rule ? 1.0 : 0.0));
}

/* ---- air, rain, wind, sun ------------------------------------------------ */

static void add_air_change(bw_study *study, size_t layer)
{
    const bw_layer *in = &study->assembly->layer[layer];
    if (in->kind != BW_LAYER_CAVITY || in->ventilation == BW_VENT_NONE)
        return;
    const bool given = in->air_change > 0.0;
    double part = in->ventilation == BW_VENT_SLIGHT ? SLIGHTLY_AIRED : 1.0;
    bw_study_ends(study, bw_change_to(BW_CHANGE_AIR_CHANGE, layer, 0.0),
                  given ? in->air_change / AIRED_FACTOR : part * AIRED_LOW,
                  given ? in->air_change * AIRED_FACTOR : part * AIRED_HIGH,
                  given ? in->air_change : (double)NAN);
}

/* A step down and a step up; from the most severe only down. */
static void add_exposure(bw_study *study)
{
    const bw_exposure now = study->assembly->outdoors.driving_rain;
    bw_change less = {.kind = BW_CHANGE_DRIVING_RAIN, .value = (int)now - 1};
    bw_change more = {.kind = BW_CHANGE_DRIVING_RAIN, .value = (int)now + 1};
    if (now == BW_RAIN_NONE)
        return;
    if (now == BW_RAIN_SEVERE) {
        more = less;
        less.kind = BW_CHANGE_NOTHING;
    }
    bw_unknown *u = &bw_study_switch(study, less, more)->shown;
    u->name = bw_change_subject(study->arena, study->assembly, &more);
    u->as_drawn = 0.0;
}

static void add_wind(bw_study *study)
{
    if (study->assembly->beyond.kind == NULL) /* no wind but in outdoor air */
        bw_study_switch(study, bw_change_to(BW_CHANGE_WIND, 0, -1.0),
                        bw_change_to(BW_CHANGE_WIND, 0, 1.0));
}

static void add_shade(bw_study *study)
{
    const bw_outdoors *out = &study->assembly->outdoors;
    if (out->has_solar_absorptance && out->solar_absorptance > 0.0)
        bw_study_switch(study, as_drawn, bw_change_to(BW_CHANGE_SUN, 0, 0.0));
}

static void add_leak(bw_study *study)
{
    const bw_air_leakage *air = &study->assembly->air_leakage;
    if (!air->given || air->q50 <= 0.0)
        bw_study_switch(study, as_drawn,
                        bw_change_to(BW_CHANGE_AIR_LEAKAGE, 0, LEAK_Q50))
            ->shown.low_words = "no leak given";
}

/* Every range that the library gives of a layer inside the weather line. */
static void add_ranges(bw_study *study, size_t layer)
{
    const bw_assembly *assembly = study->assembly;
    if (assembly->layer[layer].kind == BW_LAYER_CAVITY ||
        layer < bw_layers_outside(assembly, BW_VENT_WELL))
        return;
    for (int p = 0; p < BW_VARIED_COUNT; p++)
        add_library(study, layer, (bw_varied)p);
}

void bw_ranges_find(bw_study *study)
{
    for (size_t i = 0; i < study->assembly->layer_count; i++)
        if (study->library[i])
            add_ranges(study, i);
}

void bw_wide_find(bw_study *study)
{
    const bw_assembly *assembly = study->assembly;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        add_ranges(study, i);
        add_absorption(study, i);
        add_air_change(study, i);
    }
    add_storage(study);
    add_redistribution(study);
    add_exposure(study);
    add_wind(study);
    add_shade(study);
    add_leak(study);
}
