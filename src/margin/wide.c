#include <math.h>
#include <stdint.h>
#include <string.h>

#include "bothways/geography.h"
#include "study.h"

/* What no file says that it is unsure of, and is all the same: the plausible
 * range that the library gives of each property of each layer inside the
 * weather line, the water that the face takes up and how it spreads, rain,
 * wind, sun, the cavity's air, the start. Switches with a low and a high end.
 * One more of them is a bw_input, an add_ and a case of bw_wide_apply here, and
 * a place in simulate.c's order where the steady methods cannot see it. */

/* Estimates, where the library has no range; docs/methods.md, "Margin". */
static const double ABSORPTION_FACTOR = 3.0, SATURATION_FACTOR = 1.25;
static const double SORPTION_LOW = 0.7, SORPTION_HIGH = 1.3;
static const double AIRED_FACTOR = 3.0;                  /* where given */
static const double AIRED_LOW = 5.0, AIRED_HIGH = 200.0; /* 1/h */
static const double SLIGHTLY_AIRED = 0.1;                /* of these */
static const double START_DRY = 0.50, START_WET = 0.95;  /* RH */
static const double LEAK_Q50 = 3.0, LEAK_HEIGHT = 2.5;   /* m3/(m2 h), m */
static const double AN_HOUR = 3600.0;
/* What the simulation takes where the file gives none (docs/methods.md). */
static const double HEIGHT = 5.0; /* m */
static const bw_terrain TERRAIN = BW_TERRAIN_SUBURBAN;

static const char unseen[] = "the steady methods know nothing of it";

/* ---- one that has two ends ---------------------------------------------- */

static bw_unknown *add_ends(bw_finder *f, bw_input input, size_t layer,
                            const char *name, bool seen)
{
    bw_source *s = bw_finder_add(f, input, BW_UNKNOWN_STANDARD, layer, name);
    s->two_settings = true;
    s->shown.as_drawn = (double)NAN;
    s->shown.seen = seen || !f->study->options.no_transient;
    if (!s->shown.seen)
        s->shown.note = unseen;
    return &s->shown;
}

static void set_ends(bw_finder *f, bw_unknown *u, const char *unit, double low,
                     double high)
{
    const char *after = strcmp(unit, "-") == 0 ? "" : unit;
    const char *gap = after[0] != '\0' ? " " : "";
    u->unit = unit;
    u->low = low;
    u->high = high;
    u->low_words = BW_SAY(f, "%s %s%s%s", u->name, bw_finder_number(f, low),
                          gap, after);
    u->high_words = BW_SAY(f, "%s %s%s%s", u->name, bw_finder_number(f, high),
                           gap, after);
}

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
    case BW_VARIED_DENSITY:
        return &m->density;
    case BW_VARIED_SPECIFIC_HEAT:
        return &m->specific_heat;
    case BW_VARIED_RESISTANCE:
    case BW_VARIED_THICKNESS:
    case BW_VARIED_COUNT:
        break;
    }
    return NULL;
}

static bool has_range(const bw_property *p)
{
    return p != NULL && p->known && p->has_range && p->high > p->low;
}

static bool unsure(const bw_layer *layer, bw_varied property)
{
    bool vapour = property == BW_VARIED_MU || property == BW_VARIED_SD;
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        bw_varied named = bw_varied_of(layer->uncertain[i].property);
        if (named == property ||
            (vapour && (named == BW_VARIED_MU || named == BW_VARIED_SD)))
            return true;
    }
    return false;
}

static void add_library(bw_finder *f, size_t layer, bw_varied property)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    const bw_property *p = library_range(in, property);
    if (!has_range(p) || unsure(in, property))
        return;
    bool seen = property != BW_VARIED_SPECIFIC_HEAT; /* no storage of heat */
    bw_unknown *u = add_ends(f, BW_INPUT_RANGE, layer,
                             BW_SAY(f, "%s of %s in the library",
                                    bw_varied_word(property),
                                    bw_finder_called(f, in)),
                             seen);
    f->study->source[f->study->count - 1].property = property;
    u->as_drawn = p->value;
    set_ends(f, u, bw_varied_unit(property), p->low, p->high);
}

/* ---- water --------------------------------------------------------------- */

static void add_absorption(bw_finder *f, size_t layer)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    const bw_property *p = &in->material->water_absorption;
    if (in->kind != BW_LAYER_SOLID || !p->known || p->value <= 0.0)
        return;
    bw_unknown *u = add_ends(f, BW_INPUT_ABSORPTION, layer,
                             BW_SAY(f, "A_w of %s", bw_finder_called(f, in)),
                             false);
    u->as_drawn = p->value;
    set_ends(f, u, "kg/(m2 s0.5)",
             has_range(p) ? p->low : p->value / ABSORPTION_FACTOR,
             has_range(p) ? p->high : p->value * ABSORPTION_FACTOR);
}

static bool sorbs(const bw_layer *layer)
{
    return layer->material->sorption.count >= 2;
}

static bool any_layer(const bw_assembly *assembly,
                      bool has(const bw_layer *layer))
{
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (has(&assembly->layer[i]))
            return true;
    return false;
}

static bool saturates(const bw_layer *layer)
{
    return layer->material->free_saturation.known;
}

static void add_storage(bw_finder *f)
{
    const bw_assembly *assembly = f->study->assembly;
    if (any_layer(assembly, sorbs)) {
        bw_unknown *u = add_ends(f, BW_INPUT_SORPTION, SIZE_MAX,
                                 "moisture sorbed by every layer, times",
                                 false);
        u->as_drawn = 1.0;
        set_ends(f, u, "-", SORPTION_LOW, SORPTION_HIGH);
        u = add_ends(f, BW_INPUT_START, SIZE_MAX, "every layer at the start at",
                     false);
        set_ends(f, u, "% RH", 100.0 * START_DRY, 100.0 * START_WET);
    }
    if (any_layer(assembly, saturates)) {
        bw_unknown *u = add_ends(f, BW_INPUT_SATURATION, SIZE_MAX,
                                 "free saturation of every layer", false);
        u->low_words = "free saturation of every layer at its least";
        u->high_words = "free saturation of every layer at its most";
    }
}

static bool draws(const bw_layer *layer)
{
    const bw_property *p = &layer->material->water_absorption;
    return layer->kind == BW_LAYER_SOLID && p->known && p->value > 0.0;
}

static void add_redistribution(bw_finder *f)
{
    const bw_study *study = f->study;
    if (!any_layer(study->assembly, draws))
        return;
    const char *words =
        study->options.transient.redistribution == BW_REDISTRIBUTION_RULE
            ? "water spreads as fast without rain as in rain"
            : "water spreads more slowly without rain than in rain";
    bw_source *s = bw_finder_add(f, BW_INPUT_REDISTRIBUTION,
                                 BW_UNKNOWN_STANDARD, SIZE_MAX, words);
    s->shown.low_words = "as drawn";
    s->shown.high_words = words;
    s->shown.seen = !study->options.no_transient;
    if (!s->shown.seen)
        s->shown.note = unseen;
}

/* ---- air, rain, wind, sun ------------------------------------------------ */

static void add_air_change(bw_finder *f, size_t layer)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    if (in->kind != BW_LAYER_CAVITY || in->ventilation == BW_VENT_NONE)
        return;
    double given = in->air_change * AN_HOUR;
    double part = in->ventilation == BW_VENT_SLIGHT ? SLIGHTLY_AIRED : 1.0;
    bw_unknown *u = add_ends(
        f, BW_INPUT_AIR_CHANGE, layer,
        BW_SAY(f, "air changes of %s", bw_finder_called(f, in)), false);
    if (given > 0.0)
        u->as_drawn = given;
    set_ends(f, u, "1/h", given > 0.0 ? given / AIRED_FACTOR : part * AIRED_LOW,
             given > 0.0 ? given * AIRED_FACTOR : part * AIRED_HIGH);
}

static const char *rain_words(bw_finder *f, int step)
{
    bw_exposure now = f->study->assembly->outdoors.driving_rain;
    return BW_SAY(f, "driving rain %s instead of %s",
                  bw_exposure_text((bw_exposure)((int)now + step)),
                  bw_exposure_text(now));
}

static void add_exposure(bw_finder *f)
{
    bw_exposure now = f->study->assembly->outdoors.driving_rain;
    if (now == BW_RAIN_NONE)
        return;
    bw_unknown *u = add_ends(f, BW_INPUT_EXPOSURE, SIZE_MAX,
                             "exposure to driving rain", false);
    bool most = now == BW_RAIN_SEVERE;
    f->study->source[f->study->count - 1].two_settings = !most;
    u->as_drawn = 0.0;
    u->low_words = most ? "as drawn" : rain_words(f, -1);
    u->high_words = rain_words(f, most ? -1 : 1);
}

static void add_wind(bw_finder *f)
{
    bw_unknown *u = add_ends(f, BW_INPUT_WIND, SIZE_MAX, "wind at the face",
                             false);
    u->low_words = "wind at the face of ground one step more built up";
    u->high_words =
        "wind at the face of ground one step more open and twice as "
        "high";
}

static void add_shade(bw_finder *f)
{
    const bw_outdoors *out = &f->study->assembly->outdoors;
    if (!out->has_solar_absorptance || out->solar_absorptance <= 0.0)
        return;
    bw_source *s = bw_finder_add(f, BW_INPUT_SHADE, BW_UNKNOWN_STANDARD,
                                 SIZE_MAX, "the face in the shade: no sun");
    s->shown.low_words = "as drawn";
    s->shown.high_words = s->shown.name;
}

static void add_leak(bw_finder *f)
{
    const bw_air_leakage *air = &f->study->assembly->air_leakage;
    if (air->given && air->q50 > 0.0)
        return;
    bw_source *s = bw_finder_add(f, BW_INPUT_LEAK, BW_UNKNOWN_STANDARD,
                                 SIZE_MAX,
                                 "room air leaks in, q50 3 m3/(m2 h) over 2.5 "
                                 "m");
    s->shown.low_words = "no leak given";
    s->shown.high_words = s->shown.name;
}

/* ---- all ------------------------------------------------------------------
 */

size_t bw_wide_most(const bw_assembly *assembly)
{
    enum { BESIDE = 8, PER_LAYER = BW_VARIED_COUNT + 2 };
    return BESIDE + PER_LAYER * assembly->layer_count;
}

void bw_wide_find(bw_finder *f)
{
    const bw_assembly *assembly = f->study->assembly;
    size_t inside = bw_layers_outside(assembly, BW_VENT_WELL);
    for (size_t i = 0; i < assembly->layer_count; i++) {
        bool solid = assembly->layer[i].kind != BW_LAYER_CAVITY;
        for (int p = 0; solid && i >= inside && p < BW_VARIED_COUNT; p++)
            add_library(f, i, (bw_varied)p);
        add_absorption(f, i);
        add_air_change(f, i);
    }
    add_storage(f);
    add_redistribution(f);
    add_exposure(f);
    add_wind(f);
    add_shade(f);
    add_leak(f);
}

/* ---- what a setting does --------------------------------------------------
 */

static void scale_sorption(bw_variant *v, size_t layer, double factor)
{
    if (!sorbs(&v->layer[layer]))
        return;
    bw_material *m = bw_variant_material(v, layer);
    double *y = m == NULL ? NULL : BW_NEW(v->arena, double, m->sorption.count);
    if (y == NULL) {
        v->no_memory = true;
        return;
    }
    /* no more than the free saturation holds */
    const bw_curve *old = &m->sorption;
    double most = old->y[old->count - 1] * factor;
    if (m->free_saturation.known && m->density.known)
        most = fmin(most,
                    fmax(old->y[old->count - 1],
                         0.95 * m->free_saturation.value / m->density.value));
    for (size_t i = 0; i < old->count; i++)
        y[i] = old->y[i] * most / old->y[old->count - 1];
    m->sorption.y = y;
}

static void saturate(bw_variant *v, size_t layer, bool high)
{
    if (!saturates(&v->layer[layer]))
        return;
    bw_material *m = bw_variant_material(v, layer);
    if (m == NULL)
        return;
    bw_property *p = &m->free_saturation;
    double value = high ? p->value * SATURATION_FACTOR
                        : p->value / SATURATION_FACTOR;
    if (has_range(p))
        value = high ? p->high : p->low;
    const bw_curve *u = &m->sorption;
    if (u->count >= 2 && m->density.known) /* holds what it sorbs */
        value = fmax(value, fmin(p->value,
                                 1.05 * u->y[u->count - 1] * m->density.value));
    if (m->density.known) /* and no more than its pores */
        value = fmin(value, fmax(p->value, 1000.0 * bw_material_pores(m)));
    p->value = value;
}

static void start_at(bw_layer *layer, double rh)
{
    if (sorbs(layer)) {
        layer->has_initial_moisture = layer->initial_is_rh = true;
        layer->initial_moisture = rh;
    }
    bw_framing *framing = &layer->framing;
    if (framing->present) {
        framing->has_initial_moisture = framing->initial_is_rh = true;
        framing->initial_moisture = rh;
    }
}

static void in_wind(bw_outdoors *out, bool more)
{
    int now = (int)(out->has_terrain ? out->terrain : TERRAIN);
    int to = more ? now - 1 : now + 1;
    if (to >= (int)BW_TERRAIN_OPEN && to <= (int)BW_TERRAIN_URBAN)
        now = to;
    out->has_terrain = true;
    out->terrain = (bw_terrain)now;
    out->height = (out->has_height ? out->height : HEIGHT) * (more ? 2.0 : 1.0);
    out->has_height = true;
}

static void each_layer(bw_variant *v, const bw_source *s, double value,
                       bool high)
{
    for (size_t i = 0; i < v->assembly->layer_count && !v->no_memory; i++)
        if (s->input == BW_INPUT_SORPTION)
            scale_sorption(v, i, value);
        else if (s->input == BW_INPUT_SATURATION)
            saturate(v, i, high);
        else
            start_at(&v->layer[i], 0.01 * value);
}

void bw_wide_apply(bw_variant *v, const bw_source *s, double value)
{
    bool high = bw_setting_is_high(&s->shown, value);
    bw_outdoors *out = &v->assembly->outdoors;
    if (v->no_memory)
        return;
    if (s->input == BW_INPUT_ABSORPTION) {
        bw_material *m = bw_variant_material(v, s->layer);
        if (m != NULL)
            m->water_absorption.value = value;
    } else if (s->input == BW_INPUT_AIR_CHANGE) {
        v->layer[s->layer].air_change = value / AN_HOUR;
    } else if (s->input == BW_INPUT_EXPOSURE) {
        int step = high && s->two_settings ? 1 : -1;
        out->driving_rain = (bw_exposure)((int)out->driving_rain + step);
    } else if (s->input == BW_INPUT_WIND) {
        in_wind(out, high);
    } else if (s->input == BW_INPUT_SHADE) {
        out->solar_absorptance = 0.0;
    } else if (s->input == BW_INPUT_LEAK) {
        v->assembly->air_leakage = (bw_air_leakage){
            .given = true,
            .q50 = LEAK_Q50 / AN_HOUR,
            .connected_height = LEAK_HEIGHT};
    } else {
        each_layer(v, s, value, high);
    }
}

void bw_wide_options(bw_assessment_options *options, const bw_study *study,
                     const bw_setting *setting)
{
    bw_redistribution *now = &options->transient.redistribution;
    for (size_t i = 0; i < study->count; i++)
        if (study->source[i].input == BW_INPUT_REDISTRIBUTION &&
            setting[i].set && setting[i].value > 0.5)
            *now = *now == BW_REDISTRIBUTION_RULE ? BW_REDISTRIBUTION_SUCTION
                                                  : BW_REDISTRIBUTION_RULE;
}
