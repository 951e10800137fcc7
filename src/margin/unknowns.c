#include <math.h>

#include "bothways/geography.h"
#include "fail.h"
#include "properties.h"
#include "study.h"

/* Every <uncertain>, every <alternative>, and the standard unknowns, in the
 * order of the layers from outside. docs/methods.md, "Margin". */

/* A range that spans more than this factor is sampled by its logarithm. */
static const double WIDE = 3.0;
static const double AIR_FACTOR = 3.0;
static const double RAIN_LEAK = 0.01; /* of the driving rain */
static const double BUILT_IN = 0.20;  /* kg/kg */

static const bw_change as_drawn = {.kind = BW_CHANGE_NOTHING};

static void add_range(bw_study *study, size_t layer, const bw_uncertain *range)
{
    const bw_change change = {.kind = BW_CHANGE_PROPERTY,
                              .layer = layer,
                              .property = bw_varied_of(range->property)};
    if (change.property == BW_VARIED_COUNT)
        return;
    bw_unknown *u = bw_study_range(
        study, change, range->low, range->high,
        bw_layer_value(&study->assembly->layer[layer], change.property));
    u->kind = BW_UNKNOWN_RANGE;
    u->geometric = u->low > 0.0 && u->high > WIDE * u->low &&
                   !(u->as_drawn <= 0.0);
    if (u->seen && (u->as_drawn < u->low || u->as_drawn > u->high))
        u->note = "what is drawn lies outside this range; the way from there "
                  "is searched, too";
}

static void add_alternative(bw_study *study, size_t layer, size_t which)
{
    const bw_layer *in = &study->assembly->layer[layer];
    bw_source *s = bw_study_switch(
        study, as_drawn,
        (bw_change){.kind = BW_CHANGE_MATERIAL,
                    .layer = layer,
                    .value = in->alternative[which].thickness,
                    .material = in->alternative[which].material});
    s->shown.name = bw_change_subject(study->arena, study->assembly, &s->high);
    s->group = which;
    s->groups = in->alternative_count;
    s->shown.kind = BW_UNKNOWN_ALTERNATIVE;
    s->shown.low_words = bw_layer_called(study->arena, in);
}

static bool cups_differ(const bw_material *m)
{
    return m->mu_dry.known && m->mu_wet.known &&
           fabs(m->mu_dry.value - m->mu_wet.value) > 1e-9;
}

/* Dry-cup and wet-cup, the lower one first. */
static void add_cups(bw_study *study, bw_change dry, const bw_material *m)
{
    bw_change wet = dry;
    wet.value = 1.0;
    const bool dry_high = m->mu_dry.value > m->mu_wet.value;
    bw_unknown *u = &bw_study_switch(study, dry_high ? wet : dry,
                                     dry_high ? dry : wet)
                         ->shown;
    u->layer = study->assembly->layer[dry.layer].id;
    u->unit = "-";
    u->low = fmin(m->mu_dry.value, m->mu_wet.value);
    u->high = fmax(m->mu_dry.value, m->mu_wet.value);
}

static void add_vapour(bw_study *study, size_t layer)
{
    const bw_layer *in = &study->assembly->layer[layer];
    const bw_curve *curve = &in->material->sd_curve;
    if (bw_layer_unsure(in, BW_VARIED_SD))
        return;
    if (curve->count >= 2) {
        const bw_change dry = {.kind = BW_CHANGE_CURVE, .layer = layer};
        const bw_change humid = {
            .kind = BW_CHANGE_CURVE, .layer = layer, .value = 1.0};
        bw_unknown *u = &bw_study_switch(study, humid, dry)->shown;
        u->unit = "m";
        u->low = curve->y[curve->count - 1];
        u->high = curve->y[0];
    } else if (bw_layer_sd_by_mu(in) && cups_differ(in->material)) {
        add_cups(study, bw_change_to(BW_CHANGE_MU, layer, 0.0), in->material);
    }
}

static void add_blocked(bw_study *study, size_t layer)
{
    const bw_layer *in = &study->assembly->layer[layer];
    if (in->kind != BW_LAYER_CAVITY || in->ventilation == BW_VENT_NONE)
        return;
    bw_study_switch(study, as_drawn,
                    bw_change_to(BW_CHANGE_BLOCKED, layer, 0.0))
        ->shown.low_words = bw_arena_say(study->arena, "%s ventilated",
                                         bw_layer_called(study->arena, in));
}

static void add_layers(bw_study *study)
{
    const bw_assembly *assembly = study->assembly;
    size_t first = bw_layers_outside(assembly, BW_VENT_WELL);
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        for (size_t k = 0; k < layer->uncertain_count; k++)
            add_range(study, i, &layer->uncertain[k]);
        for (size_t k = 0; k < layer->alternative_count; k++)
            add_alternative(study, i, k);
        add_blocked(study, i);
        if (i >= first)
            add_vapour(study, i);
    }
}

static void add_framing(bw_study *study)
{
    const bw_assembly *assembly = study->assembly;
    for (size_t i = bw_layers_outside(assembly, BW_VENT_WELL);
         i < assembly->layer_count; i++) {
        const bw_framing *framing = &assembly->layer[i].framing;
        if (!framing->present || !cups_differ(framing->material))
            continue;
        add_cups(study, bw_change_to(BW_CHANGE_FRAMING_MU, i, 0.0),
                 framing->material);
        return;
    }
}

static void add_humidity(bw_study *study)
{
    bw_indoors room = study->assembly->indoors;
    if (bw_indoors_step(&room, true))
        bw_study_switch(study, as_drawn,
                        bw_change_to(BW_CHANGE_HUMIDITY, 0, 1.0))
            ->shown.low_words = "indoor humidity as drawn";
}

static void add_air(bw_study *study)
{
    const bw_air_leakage *air = &study->assembly->air_leakage;
    if (air->given && air->q50 > 0.0)
        bw_study_range(study, bw_change_to(BW_CHANGE_AIR_LEAKAGE, 0, 0.0),
                       study->wide ? air->q50 / AIR_FACTOR : air->q50,
                       AIR_FACTOR * air->q50, air->q50);
}

static bool is_timber(const bw_layer *layer)
{
    return bw_is_timber(layer->material);
}

static void add_water(bw_study *study)
{
    const bw_assembly *assembly = study->assembly;
    const bw_rain_leak *leak = &assembly->rain_leak;
    if (assembly->outdoors.driving_rain != BW_RAIN_NONE &&
        !(leak->given && leak->fraction >= RAIN_LEAK))
        bw_study_switch(study, as_drawn,
                        bw_change_to(BW_CHANGE_RAIN_LEAK, 0, RAIN_LEAK))
            ->shown.low_words = "none";
    if (bw_any_layer(assembly, is_timber))
        bw_study_switch(study, as_drawn,
                        bw_change_to(BW_CHANGE_BUILT_IN, 0, BUILT_IN))
            ->shown.low_words = "none";
}

bw_status bw_unknowns_find(bw_study *study, bw_error *err)
{
    const bw_assembly *assembly = study->assembly;
    enum { PER_LAYER = BW_VARIED_COUNT + 4, BESIDE = 13 };
    size_t most = BESIDE + PER_LAYER * assembly->layer_count;
    for (size_t i = 0; i < assembly->layer_count; i++)
        most += assembly->layer[i].uncertain_count +
                assembly->layer[i].alternative_count;
    study->source = BW_NEW(study->arena, bw_source, most);
    BW_TRY_MEMORY(study->source != NULL, err);
    add_layers(study);
    add_framing(study);
    add_humidity(study);
    add_air(study);
    add_water(study);
    if (study->library != NULL)
        bw_ranges_find(study);
    if (study->wide)
        bw_wide_find(study);
    return study->arena->failed ? bw_fail_memory(err) : BW_OK;
}
