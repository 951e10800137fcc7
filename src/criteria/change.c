#include "change.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "bothways/geography.h"
#include "variant.h"

/* Proposing and applying changes. The generic variable membrane is no
 * product: it is the class limits of DIN 4108-3:2018 [S], sd 2 m at 25 % and
 * 0.5 m at 90 % mean RH, straight in ln sd between. */

static const double variable_rh[] = {0.25, 0.90};
static const double variable_sd[] = {2.0, 0.5};
#define VARIABLE_WORDS                                                         \
    "a humidity-variable one at the class limits of DIN 4108-3 (sd 2 m at "    \
    "25 % RH, 0.5 m at 90 %)"

/* What is tried. */
static const double membrane_sd[] = {2.0, 5.0};
static const double outer_sd[] = {0.1, 0.5};
static const double thickness_factor[] = {0.5, 1.5};
/* What open claddings reach [seen, field study: 100 to 1000 1/h] */
static const double WELL_AIRED = 100.0 / 3600.0; /* 1/s */
/* A sheet that sheds water, sd in m; estimate */
static const double TIGHT = 2.0;
static const double AIR_TIGHT = 1.0 / 3600.0; /* m3/(m2 s): 1 m3/(m2 h) */

typedef struct list {
    bw_change *change;
    size_t count;
    bw_rows *rows;
    const bw_assembly *assembly;
} list;

static void add(list *to, bw_change change)
{
    assert(to->count < BW_CHANGES_MOST);
    to->change[to->count++] = change;
}

/* As the sections read it, dry; 0 where nothing is known. */
static double layer_sd(const bw_layer *layer)
{
    const bw_curve *curve = &layer->material->sd_curve;
    return curve->count >= 2 ? bw_curve_log(curve, variable_rh[0])
                             : fmax(bw_layer_value(layer, BW_VARIED_SD), 0.0);
}

/* ---- what keeps the rain out --------------------------------------------- */

/* Rain falls on a roof, whatever is said of rain driven against it. */
static bool rain_reaches(const bw_assembly *assembly)
{
    return assembly->element == BW_ELEMENT_ROOF ||
           assembly->outdoors.driving_rain != BW_RAIN_NONE;
}

/* The first layer that may be exchanged: inside the weather line and, where no
 * ventilated cavity stands before it and rain reaches it, inside what keeps the
 * rain out: the outermost layer with its coats, and of a roof the innermost
 * tight sheet outside the insulation. */
static size_t behind_the_rain(const bw_assembly *assembly, size_t main)
{
    size_t first = bw_layers_outside(assembly, BW_VENT_WELL);
    if (first > 0 || !rain_reaches(assembly))
        return first;
    while (first < assembly->layer_count &&
           strcmp(assembly->layer[first].material->group, "coating") == 0)
        first++;
    first++;
    for (size_t i = first; assembly->element == BW_ELEMENT_ROOF && i < main;
         i++)
        if (assembly->layer[i].kind == BW_LAYER_MEMBRANE &&
            layer_sd(&assembly->layer[i]) >= TIGHT)
            first = i + 1;
    return first;
}

/* A roof whose insulation is rained upon: the sheet that sheds the rain is
 * inside of it. */
static bool sheds_inside(const bw_assembly *assembly, size_t main)
{
    if (assembly->element != BW_ELEMENT_ROOF ||
        bw_layers_outside(assembly, BW_VENT_WELL) > 0)
        return false;
    for (size_t i = 0; i < main; i++)
        if (layer_sd(&assembly->layer[i]) >= TIGHT)
            return false;
    return true;
}

/* The tightest membrane inside layer `main`; layer_count if none. */
static size_t inner_membrane(const bw_assembly *assembly, size_t main)
{
    size_t found = assembly->layer_count;
    for (size_t i = main + 1; i < assembly->layer_count; i++)
        if (assembly->layer[i].kind == BW_LAYER_MEMBRANE &&
            (found == assembly->layer_count ||
             layer_sd(&assembly->layer[i]) > layer_sd(&assembly->layer[found])))
            found = i;
    return found;
}

static bool about(double a, double b)
{
    return fabs(a - b) <= 0.3 * fmax(a, b);
}

static void propose_added(list *to, size_t main)
{
    bw_rows *rows = to->rows;
    const char *after = to->assembly->layer[main].name;
    bw_change change = {
        .kind = BW_CHANGE_MEMBRANE, .layer = main + 1, .adds = true};
    change.variable = true;
    change.text = bw_say(rows, "Add a membrane on the room side of %s: %s",
                         after, VARIABLE_WORDS);
    add(to, change);
    change.variable = false;
    for (size_t i = 0; i < sizeof membrane_sd / sizeof *membrane_sd; i++) {
        change.value = membrane_sd[i];
        change.text = bw_say(rows,
                             "Add a membrane of sd %s m on the room side of %s",
                             bw_say_number(rows, change.value, 0), after);
        add(to, change);
    }
}

static void propose_exchanged(list *to, size_t index)
{
    bw_rows *rows = to->rows;
    const bw_layer *layer = &to->assembly->layer[index];
    double now = layer_sd(layer);
    const char *name = layer->name;
    bool varies = layer->material->sd_curve.count >= 2;
    bw_change change = {.kind = BW_CHANGE_MEMBRANE, .layer = index};
    if (!varies) {
        change.variable = true;
        change.text = bw_say(rows, "Exchange the membrane %s for %s", name,
                             VARIABLE_WORDS);
        add(to, change);
        change.variable = false;
    }
    for (size_t i = 0; i < sizeof membrane_sd / sizeof *membrane_sd; i++) {
        change.value = membrane_sd[i];
        if (!varies && about(now, change.value))
            continue;
        change.text = bw_say(rows,
                             "Exchange the membrane %s for one of sd %s m",
                             name, bw_say_number(rows, change.value, 0));
        add(to, change);
    }
    change.value = 0.0;
    change.text = bw_say(rows, "Leave out the membrane %s", name);
    add(to, change);
}

static void propose_membrane(list *to, size_t main)
{
    size_t membrane = inner_membrane(to->assembly, main);
    if (sheds_inside(to->assembly, main))
        return;
    if (membrane < to->assembly->layer_count)
        propose_exchanged(to, membrane);
    else
        propose_added(to, main);
}

/* The tightest layer outside the insulation, masonry left alone. */
static void propose_outer(list *to, size_t main)
{
    const bw_assembly *assembly = to->assembly;
    const bool rain = rain_reaches(assembly);
    size_t found = main;
    for (size_t i = behind_the_rain(assembly, main); i < main; i++) {
        const bw_layer *layer = &assembly->layer[i];
        if (layer->kind == BW_LAYER_CAVITY ||
            strcmp(layer->material->group, "masonry") == 0)
            continue;
        if (found == main ||
            layer_sd(layer) > layer_sd(&assembly->layer[found]))
            found = i;
    }
    if (found == main)
        return;
    double now = layer_sd(&assembly->layer[found]);
    for (size_t i = 0; i < sizeof outer_sd / sizeof *outer_sd; i++) {
        if (now < 1.5 * outer_sd[i])
            continue;
        add(to,
            (bw_change){.kind = BW_CHANGE_OUTER_LAYER,
                        .layer = found,
                        .value = outer_sd[i],
                        .text = bw_say(
                            to->rows,
                            "Replace %s (sd %s m) by a layer of sd %s m of the "
                            "same thermal resistance%s",
                            assembly->layer[found].name,
                            bw_say_number(to->rows, now, 2),
                            bw_say_number(to->rows, outer_sd[i], 1),
                            rain ? " that sheds water as well" : "")});
    }
}

static void propose_cavity(list *to, size_t main)
{
    for (size_t i = main; i > bw_layers_outside(to->assembly, BW_VENT_WELL);
         i--) {
        const bw_layer *layer = &to->assembly->layer[i - 1];
        if (layer->kind != BW_LAYER_CAVITY || layer->framing.present)
            continue; /* a gap between studs has no openings to make */
        add(to, (bw_change){.kind = BW_CHANGE_CAVITY,
                            .layer = i - 1,
                            .text = bw_say(to->rows,
                                           "Open %s to the outdoor air and "
                                           "ventilate it well",
                                           layer->name)});
        return;
    }
}

/* A ventilated cavity aired more: only the simulation sees it. */
static void propose_airing(list *to)
{
    for (size_t i = 0; i < to->assembly->layer_count; i++) {
        const bw_layer *layer = &to->assembly->layer[i];
        if (layer->kind != BW_LAYER_CAVITY ||
            layer->ventilation != BW_VENT_WELL ||
            layer->air_change >= 0.8 * WELL_AIRED)
            continue;
        add(to,
            (bw_change){.kind = BW_CHANGE_CAVITY,
                        .layer = i,
                        .value = WELL_AIRED,
                        .text = bw_say(to->rows,
                                       "Air %s more, with openings at foot and "
                                       "head: 100 air changes an hour",
                                       layer->name)});
        return;
    }
}

static void propose_rain(list *to)
{
    if (to->assembly->outdoors.driving_rain != BW_RAIN_NONE)
        add(to, (bw_change){.kind = BW_CHANGE_RAIN,
                            .text = "Keep driving rain off the outer face, by "
                                    "a cladding or a deep overhang"});
}

static void propose_indoors(list *to)
{
    const bw_indoors *in = &to->assembly->indoors;
    bw_change change = {.kind = BW_CHANGE_HUMIDITY};
    if (in->kind == BW_INDOOR_CLASS && in->humidity_class > 1) {
        change.value = in->humidity_class - 1;
        change.text = bw_say(to->rows,
                             "Ventilate the room: humidity class %d instead "
                             "of %d",
                             in->humidity_class - 1, in->humidity_class);
    } else if (in->kind == BW_INDOOR_RH && in->relative_humidity > 0.40) {
        change.value = in->relative_humidity - 0.10;
        change.text = bw_say(
            to->rows, "Keep the room at %s %% RH instead of %s %%",
            bw_say_number(to->rows, 100.0 * change.value, 0),
            bw_say_number(to->rows, 100.0 * in->relative_humidity, 0));
    } else if (in->kind == BW_INDOOR_EN15026 && in->en15026_high) {
        change.text = "Keep the room at normal instead of high occupancy "
                      "humidity (EN 15026)";
    } else {
        return;
    }
    add(to, change);
}

static void propose_air(list *to)
{
    const bw_air_leakage *air = &to->assembly->air_leakage;
    if (!air->given || air->q50 <= 1.2 * AIR_TIGHT)
        return;
    add(to, (bw_change){
                .kind = BW_CHANGE_AIR,
                .value = AIR_TIGHT,
                .text = bw_say(to->rows,
                               "Make it tighter: q50 1 m3/(m2 h) instead of %s",
                               bw_say_number(to->rows, air->q50 * 3600.0, 1))});
}

static void propose_insulation(list *to, size_t main)
{
    const bw_layer *layer = &to->assembly->layer[main];
    if (layer->resistance.known || layer->thickness <= 0.0 ||
        layer->framing.depth > 0.0 ||
        strcmp(layer->material->group, "insulation") != 0)
        return;
    for (size_t i = 0; i < sizeof thickness_factor / sizeof *thickness_factor;
         i++) {
        double factor = thickness_factor[i];
        double thickness = round(layer->thickness * factor * 1e3) / 1e3;
        if (thickness < 0.010)
            continue;
        add(to, (bw_change){
                    .kind = BW_CHANGE_INSULATION,
                    .layer = main,
                    .value = thickness,
                    .text = bw_say(
                        to->rows, "Make %s %s: %s mm instead of %s mm",
                        layer->name, factor < 1.0 ? "thinner" : "thicker",
                        bw_say_number(to->rows, thickness * 1e3, 0),
                        bw_say_number(to->rows, layer->thickness * 1e3, 0))});
    }
}

size_t bw_changes_propose(bw_change changes[BW_CHANGES_MOST], bw_rows *rows,
                          const bw_assembly *assembly)
{
    list to = {changes, 0, rows, assembly};
    size_t main = bw_main_insulation_layer(assembly);
    propose_indoors(&to);
    propose_air(&to);
    propose_airing(&to);
    propose_rain(&to);
    if (main == assembly->layer_count)
        return to.count;
    propose_outer(&to, main);
    propose_cavity(&to, main);
    propose_insulation(&to, main);
    propose_membrane(&to, main);
    return to.count;
}

static void change_membrane(bw_variant *v, const bw_change *change)
{
    const bw_curve curve = {.count = 2,
                            .x = variable_rh,
                            .y = variable_sd,
                            .basis = BW_BASIS_OPENED,
                            .source = "DIN 4108-3:2018, class limits",
                            .note = ""};
    if (!change->adds && !change->variable && change->value <= 0.0)
        bw_variant_remove(v, change->layer);
    else
        bw_variant_membrane(v, change->layer, change->adds, change->value,
                            change->variable ? &curve : NULL);
}

static void change_indoors(bw_indoors *in, const bw_change *change)
{
    if (in->kind == BW_INDOOR_CLASS)
        in->humidity_class = (int)change->value;
    else if (in->kind == BW_INDOOR_RH)
        in->relative_humidity = change->value;
    else
        in->en15026_high = false;
}

const bw_assembly *bw_change_apply(bw_arena *arena, const bw_assembly *assembly,
                                   const bw_change *change)
{
    bw_variant v;
    bw_variant_start(&v, arena, assembly);
    if (v.no_memory)
        return NULL;
    switch (change->kind) {
    case BW_CHANGE_MEMBRANE:
        change_membrane(&v, change);
        break;
    case BW_CHANGE_OUTER_LAYER:
        bw_variant_set_sd(&v, change->layer, change->value);
        break;
    case BW_CHANGE_CAVITY:
        bw_variant_ventilate(&v, change->layer, BW_VENT_WELL);
        v.layer[change->layer].air_change = change->value; /* 0: not given */
        break;
    case BW_CHANGE_RAIN:
        v.assembly->outdoors.driving_rain = BW_RAIN_NONE;
        break;
    case BW_CHANGE_HUMIDITY:
        change_indoors(&v.assembly->indoors, change);
        break;
    case BW_CHANGE_AIR:
        v.assembly->air_leakage.q50 = change->value;
        break;
    case BW_CHANGE_INSULATION:
        bw_variant_set(&v, change->layer, BW_VARIED_THICKNESS, change->value);
        break;
    }
    return bw_variant_done(&v);
}
