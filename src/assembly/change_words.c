#include <string.h>

#include "change.h"
#include "number.h"

/* Invariant: the words say what `of` has and what the change makes of it, and
 * nothing that is not applied. What the row of a kind says is enough for most;
 * here are the others. */

#define SAY(...) bw_arena_say(arena, __VA_ARGS__)
#define LIMITS "2 m at 25 %% RH, 0.5 m at 90 %%"
#define VARIABLE                                                               \
    "a humidity-variable one at the class limits of DIN 4108-3 (sd " LIMITS ")"

static const char *exact(bw_arena *arena, double value)
{
    return SAY("%s", BW_NUMBER_G(value, 6));
}

static const char *rounded(bw_arena *arena, double value, int decimals)
{
    return SAY("%s", BW_NUMBER_F(value, decimals));
}

/* The id, and the name up to its first comma, which is enough alone where it
 * holds the id. */
const char *bw_layer_called(bw_arena *arena, const bw_layer *layer)
{
    size_t length = strcspn(layer->name, ",(");
    while (length > 0 && layer->name[length - 1] == ' ')
        length--;
    const char *name = length > 0 ? SAY("%.*s", (int)length, layer->name)
                                  : layer->name;
    return strstr(name, layer->id) != NULL ? name
                                           : SAY("%s (%s)", layer->id, name);
}

static const char *other_material(bw_arena *arena, const bw_change *c)
{
    if (c->value <= 0.0)
        return c->material->name;
    return SAY("%s %s mm", c->material->name, exact(arena, 1e3 * c->value));
}

const char *bw_change_subject(bw_arena *arena, const bw_assembly *of,
                              const bw_change *c)
{
    const bw_change_facts facts = bw_change_facts_of(c);
    const char *layer = facts.of_layer && c->layer < of->layer_count
                            ? bw_layer_called(arena, &of->layer[c->layer])
                            : "";
    if (c->kind == BW_CHANGE_PROPERTY)
        return SAY("%s of %s%s", bw_varied_word(c->property), layer,
                   c->whence != NULL ? c->whence : "");
    if (c->kind == BW_CHANGE_MATERIAL)
        return SAY("%s: %s", layer, other_material(arena, c));
    if (c->kind == BW_CHANGE_FRAMING_MU) {
        const char *wood = of->layer[c->layer].framing.material->name;
        return SAY("mu of the framing (%.*s)", (int)strcspn(wood, ",("), wood);
    }
    return SAY("%s%s%s", facts.before, layer, facts.after);
}

static const char *cup_words(bw_arena *arena, const bw_assembly *of,
                             const bw_change *c)
{
    const bw_layer *layer = &of->layer[c->layer];
    const bw_material *m = c->kind == BW_CHANGE_MU ? layer->material
                                                   : layer->framing.material;
    const bool wet = bw_change_is_on(c);
    return SAY("%s %s-cup (%s)", bw_change_subject(arena, of, c),
               wet ? "wet" : "dry",
               exact(arena, wet ? m->mu_wet.value : m->mu_dry.value));
}

static const char *curve_words(bw_arena *arena, const bw_layer *layer,
                               bool humid)
{
    const bw_curve *curve = &layer->material->sd_curve;
    return SAY("%s held at its %s sd of %s m", bw_layer_called(arena, layer),
               humid ? "humid" : "dry",
               exact(arena, curve->y[humid ? curve->count - 1 : 0]));
}

static const char *room_words(bw_arena *arena, const bw_indoors *from,
                              bw_indoors to, bool up)
{
    bw_indoors_step(&to, up);
    if (from->kind == BW_INDOOR_CLASS)
        return SAY("indoor humidity class %d instead of %d", to.humidity_class,
                   from->humidity_class);
    if (from->kind == BW_INDOOR_RH)
        return SAY("indoor air at %s %% RH instead of %s %%",
                   exact(arena, 100.0 * to.relative_humidity),
                   exact(arena, 100.0 * from->relative_humidity));
    if (from->kind == BW_INDOOR_EN15026)
        return SAY("indoor humidity of %s occupancy (EN 15026)",
                   up ? "high" : "normal");
    return "indoor air 10 points of RH damper";
}

/* "mu of the board 60": the subject, the value and its unit; or a switch. */
static const char *usual_words(bw_arena *arena, const bw_assembly *of,
                               const bw_change *c)
{
    const bw_change_facts facts = bw_change_facts_of(c);
    const char *subject = bw_change_subject(arena, of, c);
    if (facts.unit[0] == '\0')
        return SAY("%s%s", subject, bw_change_is_on(c) ? facts.on : facts.off);
    if (c->curve != NULL)
        return SAY("%s " LIMITS, subject);
    const char *value = exact(arena, c->value * facts.per_si);
    return strcmp(facts.unit, "-") == 0
               ? SAY("%s %s", subject, value)
               : SAY("%s %s %s", subject, value, facts.unit);
}

const char *bw_change_words(bw_arena *arena, const bw_assembly *of,
                            const bw_change *c)
{
    const bw_layer *layer = &of->layer[c->layer];
    const bw_air_leakage *air = &of->air_leakage;
    switch (c->kind) {
    case BW_CHANGE_CURVE:
        return curve_words(arena, layer, bw_change_is_on(c));
    case BW_CHANGE_MU:
    case BW_CHANGE_FRAMING_MU:
        return cup_words(arena, of, c);
    case BW_CHANGE_MATERIAL:
        return SAY("%s in place of %s", other_material(arena, c),
                   bw_layer_called(arena, layer));
    case BW_CHANGE_HUMIDITY:
        return room_words(arena, &of->indoors, of->indoors, bw_change_is_on(c));
    case BW_CHANGE_RAIN_LEAK:
        return SAY("%s %% of the driving rain leaks in",
                   exact(arena, 100.0 * c->value));
    case BW_CHANGE_DRIVING_RAIN:
        return SAY("driving rain %s instead of %s",
                   bw_exposure_text((bw_exposure)c->value),
                   bw_exposure_text(of->outdoors.driving_rain));
    case BW_CHANGE_AIR_LEAKAGE:
        if (!air->given || air->q50 <= 0.0)
            return SAY("room air leaks in, q50 %s m3/(m2 h) over %s m",
                       exact(arena, 3600.0 * c->value),
                       exact(arena, BW_LEAK_HEIGHT));
        return usual_words(arena, of, c);
    default:
        return usual_words(arena, of, c);
    }
}

/* ---- as something to do ---------------------------------------------------
 */

static const char *room_to_do(bw_arena *arena, const bw_indoors *from,
                              bw_indoors to)
{
    bw_indoors_step(&to, false);
    if (from->kind == BW_INDOOR_CLASS)
        return SAY("Ventilate the room: humidity class %d instead of %d",
                   to.humidity_class, from->humidity_class);
    if (from->kind == BW_INDOOR_RH)
        return SAY("Keep the room at %s %% RH instead of %s %%",
                   rounded(arena, 100.0 * to.relative_humidity, 0),
                   rounded(arena, 100.0 * from->relative_humidity, 0));
    return "Keep the room at normal instead of high occupancy humidity (EN "
           "15026)";
}

static const char *membrane_to_do(bw_arena *arena, const bw_assembly *of,
                                  const bw_change *c)
{
    const char *sd = rounded(arena, c->value, 0);
    const bool adds = c->kind == BW_CHANGE_ADDED;
    const char *name = of->layer[adds ? c->layer - 1 : c->layer].name;
    if (adds && c->curve != NULL)
        return SAY("Add a membrane on the room side of %s: " VARIABLE, name);
    if (adds)
        return SAY("Add a membrane of sd %s m on the room side of %s", sd,
                   name);
    if (c->curve != NULL)
        return SAY("Exchange the membrane %s for " VARIABLE, name);
    return SAY("Exchange the membrane %s for one of sd %s m", name, sd);
}

static const char *layer_to_do(bw_arena *arena, const bw_layer *layer,
                               const bw_change *c)
{
    switch (c->kind) {
    case BW_CHANGE_PROPERTY: /* thickness */
        return SAY("Make %s %s: %s mm instead of %s mm", layer->name,
                   c->value < layer->thickness ? "thinner" : "thicker",
                   rounded(arena, 1e3 * c->value, 0),
                   rounded(arena, 1e3 * layer->thickness, 0));
    case BW_CHANGE_SD:
        return SAY("Replace %s (sd %s m) by a layer of sd %s m of the same "
                   "thermal resistance",
                   layer->name, rounded(arena, bw_layer_dry_sd(layer), 2),
                   rounded(arena, c->value, 1));
    case BW_CHANGE_OPENED:
        return SAY("Open %s to the outdoor air and ventilate it well",
                   layer->name);
    case BW_CHANGE_AIR_CHANGE:
        return SAY("Air %s more, with openings at foot and head: %s air "
                   "changes an hour",
                   layer->name, rounded(arena, 3600.0 * c->value, 0));
    default:
        return SAY("Leave out the membrane %s", layer->name);
    }
}

const char *bw_change_to_do(bw_arena *arena, const bw_assembly *of,
                            const bw_change *c)
{
    switch (c->kind) {
    case BW_CHANGE_MEMBRANE:
    case BW_CHANGE_ADDED:
        return membrane_to_do(arena, of, c);
    case BW_CHANGE_HUMIDITY:
        return room_to_do(arena, &of->indoors, of->indoors);
    case BW_CHANGE_AIR_LEAKAGE:
        return SAY("Make it tighter: q50 %s m3/(m2 h) instead of %s",
                   rounded(arena, 3600.0 * c->value, 0),
                   rounded(arena, 3600.0 * of->air_leakage.q50, 1));
    case BW_CHANGE_DRIVING_RAIN:
        return "Keep driving rain off the outer face, by a cladding or a deep "
               "overhang";
    case BW_CHANGE_RAIN_LEAK:
        return SAY("Stop the rain leak, %s %% of the driving rain inside of %s",
                   exact(arena, 100.0 * of->rain_leak.fraction),
                   of->layer[of->rain_leak.after_layer].name);
    default:
        return layer_to_do(arena, &of->layer[c->layer], c);
    }
}
