#include <math.h>
#include <stdint.h>
#include <string.h>

#include "bothways/geography.h"
#include "fail.h"
#include "number.h"
#include "study.h"

/* Every <uncertain>, every <alternative>, and the standard unknowns, in the
 * order of the layers from outside. docs/methods.md, "Margin". */

/* A range that spans more than this factor is sampled by its logarithm. */
static const double WIDE = 3.0;
static const double AIR_FACTOR = 3.0;
static const double AN_HOUR = 3600.0;

typedef bw_finder finder;
#define SAY BW_SAY

const char *bw_finder_keep(finder *f, const char *text)
{
    if (text == NULL)
        f->no_memory = true;
    return text != NULL ? text : "";
}

const char *bw_finder_number(finder *f, double value)
{
    char text[32];
    return SAY(f, "%s", bw_number_g(text, sizeof text, value, 5));
}

/* "sheathing (Softboard)": the id, and the name up to its first comma, which
 * is enough alone where it holds the id. */
const char *bw_finder_called(finder *f, const bw_layer *layer)
{
    size_t length = strcspn(layer->name, ",(");
    while (length > 0 && layer->name[length - 1] == ' ')
        length--;
    const char *name = length > 0 ? SAY(f, "%.*s", (int)length, layer->name)
                                  : layer->name;
    return strstr(name, layer->id) != NULL ? name
                                           : SAY(f, "%s (%s)", layer->id, name);
}

bw_source *bw_finder_add(finder *f, bw_input input, bw_unknown_kind kind,
                         size_t layer, const char *name)
{
    bw_study *study = f->study;
    bw_source *s = &study->source[study->count++];
    *s = (bw_source){.input = input, .layer = layer};
    s->shown = (bw_unknown){.kind = kind,
                            .name = name,
                            .layer = layer < study->assembly->layer_count
                                         ? study->assembly->layer[layer].id
                                         : "",
                            .unit = "",
                            .high = 1.0,
                            .low_words = "",
                            .high_words = "",
                            .seen = true,
                            .note = "",
                            .flip_criterion = "",
                            .swing_criterion = ""};
    return s;
}

static void add_range(finder *f, size_t layer, const bw_uncertain *range)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    bw_varied property = bw_varied_of(range->property);
    if (property == BW_VARIED_COUNT)
        return;
    bw_source *s = bw_finder_add(
        f, BW_INPUT_RANGE, BW_UNKNOWN_RANGE, layer,
        SAY(f, "%s of %s", bw_varied_word(property), bw_finder_called(f, in)));
    s->property = property;
    bw_unknown *u = &s->shown;
    u->continuous = true;
    u->unit = bw_varied_unit(property);
    u->low = range->low;
    u->high = range->high;
    u->as_drawn = bw_layer_value(in, property);
    u->geometric = u->low > 0.0 && u->high > WIDE * u->low &&
                   !(u->as_drawn <= 0.0);
    if (u->as_drawn < u->low || u->as_drawn > u->high)
        u->note = "what is drawn lies outside this range; the way from there "
                  "is searched, too";
    if (property == BW_VARIED_SPECIFIC_HEAT && f->study->options.no_transient) {
        u->seen = false;
        u->note = "the steady methods do not know heat storage";
    }
}

static void add_alternative(finder *f, size_t layer, size_t which)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    const bw_alternative *a = &in->alternative[which];
    const char *thick = a->thickness > 0.0
                            ? SAY(f, " %s mm",
                                  bw_finder_number(f, 1e3 * a->thickness))
                            : "";
    bw_source *s = bw_finder_add(
        f, BW_INPUT_ALTERNATIVE, BW_UNKNOWN_ALTERNATIVE, layer,
        SAY(f, "%s: %s%s", bw_finder_called(f, in), a->material->name, thick));
    s->alternative = a;
    s->group = which;
    s->groups = in->alternative_count;
    s->shown.low_words = bw_finder_called(f, in);
    s->shown.high_words = SAY(f, "%s%s in place of %s", a->material->name,
                              thick, bw_finder_called(f, in));
}

static bool has_range(const bw_layer *layer, bw_varied property)
{
    for (size_t i = 0; i < layer->uncertain_count; i++)
        if (bw_varied_of(layer->uncertain[i].property) == property)
            return true;
    return false;
}

static bool vapour_range(const bw_layer *layer)
{
    return has_range(layer, BW_VARIED_MU) || has_range(layer, BW_VARIED_SD);
}

static bool cups_differ(const bw_material *m)
{
    return m->mu_dry.known && m->mu_wet.known &&
           fabs(m->mu_dry.value - m->mu_wet.value) > 1e-9;
}

static void set_cups(finder *f, bw_source *s, const bw_material *m)
{
    const char *dry = SAY(f, "%s dry-cup (%s)", s->shown.name,
                          bw_finder_number(f, m->mu_dry.value));
    const char *wet = SAY(f, "%s wet-cup (%s)", s->shown.name,
                          bw_finder_number(f, m->mu_wet.value));
    s->two_settings = true;
    s->dry_high = m->mu_dry.value > m->mu_wet.value;
    s->shown.unit = "-";
    s->shown.as_drawn = (double)NAN; /* by local humidity */
    s->shown.low = fmin(m->mu_dry.value, m->mu_wet.value);
    s->shown.high = fmax(m->mu_dry.value, m->mu_wet.value);
    s->shown.low_words = s->dry_high ? wet : dry;
    s->shown.high_words = s->dry_high ? dry : wet;
}

static void add_vapour(finder *f, size_t layer)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    const bw_curve *curve = &in->material->sd_curve;
    if (vapour_range(in))
        return;
    if (curve->count >= 2) {
        bw_source *s = bw_finder_add(
            f, BW_INPUT_CURVE, BW_UNKNOWN_STANDARD, layer,
            SAY(f, "sd of %s held", bw_finder_called(f, in)));
        s->two_settings = true;
        s->shown.unit = "m";
        s->shown.as_drawn = (double)NAN;
        s->shown.low = curve->y[curve->count - 1];
        s->shown.high = curve->y[0];
        s->shown.low_words = SAY(f, "%s held at its humid sd of %s m",
                                 bw_finder_called(f, in),
                                 bw_finder_number(f, s->shown.low));
        s->shown.high_words = SAY(f, "%s held at its dry sd of %s m",
                                  bw_finder_called(f, in),
                                  bw_finder_number(f, s->shown.high));
    } else if (bw_layer_sd_by_mu(in) && cups_differ(in->material)) {
        set_cups(f,
                 bw_finder_add(f, BW_INPUT_MU, BW_UNKNOWN_STANDARD, layer,
                               SAY(f, "mu of %s", bw_finder_called(f, in))),
                 in->material);
    }
}

static void add_blocked(finder *f, size_t layer)
{
    const bw_layer *in = &f->study->assembly->layer[layer];
    if (in->kind != BW_LAYER_CAVITY || in->ventilation == BW_VENT_NONE)
        return;
    bw_source *s = bw_finder_add(f, BW_INPUT_BLOCKED, BW_UNKNOWN_STANDARD,
                                 layer,
                                 SAY(f, "%s blocked", bw_finder_called(f, in)));
    s->shown.low_words = SAY(f, "%s ventilated", bw_finder_called(f, in));
    s->shown.high_words = s->shown.name;
}

static void add_layers(finder *f)
{
    const bw_assembly *assembly = f->study->assembly;
    size_t first = bw_layers_outside(assembly, BW_VENT_WELL);
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        for (size_t k = 0; k < layer->uncertain_count; k++)
            add_range(f, i, &layer->uncertain[k]);
        for (size_t k = 0; k < layer->alternative_count; k++)
            add_alternative(f, i, k);
        add_blocked(f, i);
        if (i >= first)
            add_vapour(f, i);
    }
}

static void add_framing(finder *f)
{
    const bw_assembly *assembly = f->study->assembly;
    for (size_t i = bw_layers_outside(assembly, BW_VENT_WELL);
         i < assembly->layer_count; i++) {
        const bw_framing *framing = &assembly->layer[i].framing;
        if (!framing->present || !cups_differ(framing->material))
            continue;
        set_cups(f,
                 bw_finder_add(f, BW_INPUT_FRAMING_MU, BW_UNKNOWN_STANDARD, i,
                               SAY(f, "mu of the framing (%.*s)",
                                   (int)strcspn(framing->material->name, ",("),
                                   framing->material->name)),
                 framing->material);
        return;
    }
}

static void add_humidity(finder *f)
{
    const bw_indoors *in = &f->study->assembly->indoors;
    bw_indoors up = *in;
    if (!bw_indoors_step_up(&up))
        return;
    const char *name = "indoor air 10 points of RH damper";
    if (in->kind == BW_INDOOR_CLASS)
        name = SAY(f, "indoor humidity class %d instead of %d",
                   up.humidity_class, in->humidity_class);
    else if (in->kind == BW_INDOOR_RH)
        name = SAY(f, "indoor air at %s %% RH instead of %s %%",
                   bw_finder_number(f, 100.0 * up.relative_humidity),
                   bw_finder_number(f, 100.0 * in->relative_humidity));
    else if (in->kind == BW_INDOOR_EN15026)
        name = "indoor humidity of high occupancy (EN 15026)";
    bw_source *s = bw_finder_add(f, BW_INPUT_HUMIDITY, BW_UNKNOWN_STANDARD,
                                 SIZE_MAX, name);
    s->shown.low_words = "indoor humidity as drawn";
    s->shown.high_words = name;
}

static void add_air(finder *f)
{
    const bw_air_leakage *air = &f->study->assembly->air_leakage;
    if (!air->given || air->q50 <= 0.0)
        return;
    bw_unknown *u = &bw_finder_add(f, BW_INPUT_AIR, BW_UNKNOWN_STANDARD,
                                   SIZE_MAX, "air leakage q50")
                         ->shown;
    u->continuous = true;
    u->unit = "m3/(m2 h)";
    u->low = u->as_drawn = air->q50 * AN_HOUR;
    u->high = AIR_FACTOR * u->as_drawn;
    if (f->study->wide)
        u->low = u->as_drawn / AIR_FACTOR;
}

static bool has_timber(const bw_assembly *assembly)
{
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (assembly->layer[i].material->wood_kind == BW_SOLID_WOOD ||
            assembly->layer[i].material->wood_kind == BW_WOOD_PANEL)
            return true;
    return false;
}

/* What only the simulation knows. */
static void add_wet(finder *f, bw_input input, const char *name,
                    const char *note)
{
    bw_unknown *u =
        &bw_finder_add(f, input, BW_UNKNOWN_STANDARD, SIZE_MAX, name)->shown;
    u->low_words = "none";
    u->high_words = name;
    u->seen = !f->study->options.no_transient;
    if (!u->seen)
        u->note = note;
}

bw_status bw_unknowns_find(bw_study *study, bw_error *err)
{
    const bw_assembly *assembly = study->assembly;
    enum { PER_LAYER = 2, BESIDE = 5 };
    size_t most = BESIDE + PER_LAYER * assembly->layer_count;
    for (size_t i = 0; i < assembly->layer_count; i++)
        most += assembly->layer[i].uncertain_count +
                assembly->layer[i].alternative_count;
    if (study->wide)
        most += bw_wide_most(assembly);
    finder f = {.study = study};
    study->source = BW_NEW(study->arena, bw_source, most);
    if (study->source == NULL)
        return bw_fail_memory(err);
    add_layers(&f);
    add_framing(&f);
    add_humidity(&f);
    add_air(&f);
    if (assembly->outdoors.driving_rain != BW_RAIN_NONE &&
        !(assembly->rain_leak.given && assembly->rain_leak.fraction >= 0.01))
        add_wet(&f, BW_INPUT_RAIN, "1 % of the driving rain leaks in",
                "the steady methods know no rain");
    if (has_timber(assembly))
        add_wet(&f, BW_INPUT_BUILT_IN, "timber built in at 20 % moisture",
                "the steady methods know no water built in");
    if (study->wide)
        bw_wide_find(&f);
    for (size_t i = 0; i < study->count; i++)
        study->source[i].shown.two_ended = study->source[i].two_settings;
    return f.no_memory ? bw_fail_memory(err) : BW_OK;
}
