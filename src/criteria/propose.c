#include "propose.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "bothways/geography.h"

/* What is worth trying on which wall. Invariant: nothing is proposed that the
 * wall has already, and no layer that keeps the rain out is given up. */

static const double membrane_sd[] = {2.0, 5.0};
static const double outer_sd[] = {0.1, 0.5};
static const double thickness_factor[] = {0.5, 1.5};
/* What open claddings reach [seen, field study: 100 to 1000 1/h] */
static const double WELL_AIRED = 100.0 / 3600.0; /* 1/s */
/* A sheet that sheds water, sd in m; estimate */
static const double TIGHT = 2.0;
static const double AIR_TIGHT = 1.0 / 3600.0; /* m3/(m2 s): 1 m3/(m2 h) */
static const double DRY_ROOM = 0.40;          /* RH, not asked to be drier */

typedef struct list {
    bw_proposal *proposal;
    size_t count;
    bw_rows *rows;
    const bw_assembly *assembly;
} list;

static bw_proposal *add(list *to, bw_proposal_kind kind, bw_change change)
{
    assert(to->count < BW_PROPOSALS_MOST);
    bw_proposal *p = &to->proposal[to->count++];
    *p = (bw_proposal){kind, change,
                       bw_change_to_do(to->rows->arena, to->assembly, &change)};
    return p;
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
            bw_layer_dry_sd(&assembly->layer[i]) >= TIGHT)
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
        if (bw_layer_dry_sd(&assembly->layer[i]) >= TIGHT)
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
             bw_layer_dry_sd(&assembly->layer[i]) >
                 bw_layer_dry_sd(&assembly->layer[found])))
            found = i;
    return found;
}

static bool about(double a, double b)
{
    return fabs(a - b) <= 0.3 * fmax(a, b);
}

static void propose_added(list *to, size_t main)
{
    bw_change change = {.kind = BW_CHANGE_ADDED,
                        .layer = main + 1,
                        .curve = &bw_variable_membrane};
    add(to, BW_PROPOSE_MEMBRANE, change);
    change.curve = NULL;
    for (size_t i = 0; i < BW_COUNT(membrane_sd); i++) {
        change.value = membrane_sd[i];
        add(to, BW_PROPOSE_MEMBRANE, change);
    }
}

static void propose_exchanged(list *to, size_t index)
{
    const bw_layer *layer = &to->assembly->layer[index];
    const bool varies = layer->material->sd_curve.count >= 2;
    bw_change change = {.kind = BW_CHANGE_MEMBRANE,
                        .layer = index,
                        .curve = &bw_variable_membrane};
    if (!varies)
        add(to, BW_PROPOSE_MEMBRANE, change);
    change.curve = NULL;
    for (size_t i = 0; i < BW_COUNT(membrane_sd); i++) {
        change.value = membrane_sd[i];
        if (varies || !about(bw_layer_dry_sd(layer), change.value))
            add(to, BW_PROPOSE_MEMBRANE, change);
    }
    add(to, BW_PROPOSE_MEMBRANE, bw_change_to(BW_CHANGE_REMOVED, index, 0.0));
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
            bw_layer_dry_sd(layer) > bw_layer_dry_sd(&assembly->layer[found]))
            found = i;
    }
    if (found == main)
        return;
    double now = bw_layer_dry_sd(&assembly->layer[found]);
    for (size_t i = 0; i < BW_COUNT(outer_sd); i++) {
        if (now < 1.5 * outer_sd[i])
            continue;
        bw_proposal *p = add(to, BW_PROPOSE_OUTER_LAYER,
                             bw_change_to(BW_CHANGE_SD, found, outer_sd[i]));
        if (rain)
            p->text = bw_say(to->rows, "%s that sheds water as well", p->text);
    }
}

static void propose_cavity(list *to, size_t main)
{
    for (size_t i = main; i > bw_layers_outside(to->assembly, BW_VENT_WELL);
         i--) {
        const bw_layer *layer = &to->assembly->layer[i - 1];
        if (layer->kind != BW_LAYER_CAVITY || layer->framing.present)
            continue; /* a gap between studs has no openings to make */
        add(to, BW_PROPOSE_CAVITY, bw_change_to(BW_CHANGE_OPENED, i - 1, 0.0));
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
        add(to, BW_PROPOSE_CAVITY,
            bw_change_to(BW_CHANGE_AIR_CHANGE, i, WELL_AIRED));
        return;
    }
}

static void propose_rain(list *to)
{
    if (to->assembly->outdoors.driving_rain != BW_RAIN_NONE)
        add(to, BW_PROPOSE_RAIN,
            bw_change_to(BW_CHANGE_DRIVING_RAIN, 0, BW_RAIN_NONE));
}

/* Rain that is said to get in: whether it is the cause. */
static void propose_leak(list *to)
{
    const bw_rain_leak *leak = &to->assembly->rain_leak;
    if (leak->given && leak->fraction > 0.0)
        add(to, BW_PROPOSE_LEAK, bw_change_to(BW_CHANGE_RAIN_LEAK, 0, 0.0));
}

static void propose_indoors(list *to)
{
    bw_indoors room = to->assembly->indoors;
    if (room.kind == BW_INDOOR_RH && room.relative_humidity <= DRY_ROOM)
        return;
    if (bw_indoors_step(&room, false))
        add(to, BW_PROPOSE_HUMIDITY, bw_change_to(BW_CHANGE_HUMIDITY, 0, -1.0));
}

static void propose_air(list *to)
{
    const bw_air_leakage *air = &to->assembly->air_leakage;
    if (air->given && air->q50 > 1.2 * AIR_TIGHT)
        add(to, BW_PROPOSE_AIR,
            bw_change_to(BW_CHANGE_AIR_LEAKAGE, 0, AIR_TIGHT));
}

static void propose_insulation(list *to, size_t main)
{
    const bw_layer *layer = &to->assembly->layer[main];
    if (layer->resistance.known || layer->thickness <= 0.0 ||
        layer->framing.depth > 0.0 ||
        strcmp(layer->material->group, "insulation") != 0)
        return;
    for (size_t i = 0; i < BW_COUNT(thickness_factor); i++) {
        double thickness = round(layer->thickness * thickness_factor[i] * 1e3) /
                           1e3;
        if (thickness >= 0.010)
            add(to, BW_PROPOSE_INSULATION,
                (bw_change){.kind = BW_CHANGE_PROPERTY,
                            .layer = main,
                            .property = BW_VARIED_THICKNESS,
                            .value = thickness});
    }
}

size_t bw_propose(bw_proposal proposal[BW_PROPOSALS_MOST], bw_rows *rows,
                  const bw_assembly *assembly)
{
    list to = {proposal, 0, rows, assembly};
    size_t main = bw_main_insulation_layer(assembly);
    propose_indoors(&to);
    propose_air(&to);
    propose_airing(&to);
    propose_rain(&to);
    propose_leak(&to);
    if (main == assembly->layer_count)
        return to.count;
    propose_outer(&to, main);
    propose_cavity(&to, main);
    propose_insulation(&to, main);
    propose_membrane(&to, main);
    return to.count;
}
