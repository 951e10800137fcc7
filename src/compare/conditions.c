#include <string.h>

#include "comparing.h"
#include "fail.h"
#include "side.h"

/* Whether the walls stand between the same two climates. Climates are the
 * same when their figures are, whatever their files are called. */

enum { DIFFERENCES_MOST = 3 + BW_SIDE_COUNT };

/* ---- outdoors ---------------------------------------------------------- */

static bool same(bool known_a, double a, bool known_b, double b)
{
    return known_a == known_b && (!known_a || a == b);
}

static bool same_month(const bw_climate_month *a, const bw_climate_month *b)
{
    bool alike = a->temperature == b->temperature &&
                 a->vapour_pressure == b->vapour_pressure &&
                 same(a->has_global, a->global_horizontal, b->has_global,
                      b->global_horizontal) &&
                 same(a->has_ground, a->ground_temperature, b->has_ground,
                      b->ground_temperature) &&
                 same(a->has_wind, a->wind, b->has_wind, b->wind) &&
                 same(a->has_rain, a->rain, b->has_rain, b->rain) &&
                 same(a->has_rain_wind, a->rain_wind, b->has_rain_wind,
                      b->rain_wind) &&
                 same(a->has_wettest_day, a->wettest_day, b->has_wettest_day,
                      b->wettest_day);
    for (int f = 0; f < BW_FACINGS; f++)
        alike = alike &&
                same(a->has_vertical[f], a->vertical[f], b->has_vertical[f],
                     b->vertical[f]) &&
                same(a->has_rain_rose, a->rain_rose[f], b->has_rain_rose,
                     b->rain_rose[f]);
    return alike;
}

static bool same_climate(const bw_climate *a, const bw_climate *b)
{
    if (a == b)
        return true;
    if (a->kind != b->kind || a->hour_count != b->hour_count)
        return false;
    for (int m = 0; m < BW_MONTHS; m++)
        if (!same_month(&a->month[m], &b->month[m]))
            return false;
    /* Hours hold doubles only: no padding to differ. */
    return a->hour_count == 0 ||
           memcmp(a->hour, b->hour, a->hour_count * sizeof *a->hour) == 0;
}

/* Its place; with the file where another climate has that place, too. */
static const char *climate_text(bw_compare_core *core, size_t i)
{
    const bw_climate *climate = core->climate[i];
    if (climate->place[0] == '\0')
        return climate->file;
    for (size_t k = 0; k < core->count; k++)
        if (strcmp(core->climate[k]->place, climate->place) == 0 &&
            !same_climate(core->climate[k], climate))
            return bw_compare_say(core, "%s (%s)", climate->place,
                                  climate->file);
    return climate->place;
}

/* ---- the rest ---------------------------------------------------------- */

/* Id of the layer at whose inner face the water is put; "": the place most at
 * risk. */
static const char *wetted_layer(const bw_assembly *assembly)
{
    long after = assembly->drying_test.after_layer;
    return after >= 0 && (size_t)after < assembly->layer_count
               ? assembly->layer[after].id
               : "";
}

static bool same_test(const bw_assembly *a, const bw_assembly *b)
{
    return a->drying_test.wetting == b->drying_test.wetting &&
           a->drying_test.start_month == b->drying_test.start_month &&
           strcmp(wetted_layer(a), wetted_layer(b)) == 0;
}

static const char *test_text(bw_compare_core *core, size_t i)
{
    const bw_drying_test *test = &core->given[i]->drying_test;
    bool said = test->start_month >= 0 && test->start_month < BW_MONTHS;
    const char *layer = wetted_layer(core->given[i]);
    const char *place = layer[0] == '\0'
                            ? "the place most at risk"
                            : bw_compare_say(core, "the inner face of %s",
                                             layer);
    return bw_compare_say(core, "%s kg/m2 %s%s at %s",
                          bw_compare_exact(core, test->wetting),
                          said ? "in " : "three months before the coldest",
                          said ? bw_month_name(test->start_month) : "", place);
}

/* Notes a difference if there is one; returns whether. */
static bool differ(bw_compare_core *core, bool equal, const char *what,
                   const char *const *text, const char **difference)
{
    if (!equal && !core->arena.failed)
        difference[core->comparison.difference_count++] = bw_compare_say(
            core, "%s %s.", what, bw_compare_each(core, text));
    return !equal;
}

static bool sides_differ(bw_compare_core *core, bw_side_fact fact,
                         const char **difference)
{
    static const char *const what[] = {
        [BW_SIDE_ROOM] = "The rooms differ:",
        [BW_SIDE_FACING] = "They face different ways:",
        [BW_SIDE_RAIN] = "Driving rain differs:",
        [BW_SIDE_FACE] = "Sun, sky and air at the outer face differ:",
        [BW_SIDE_BEYOND] = "What lies outside differs:"};
    const char *text[BW_COMPARE_MOST];
    bool equal = true;
    for (size_t i = 0; i < core->count; i++) {
        text[i] = bw_side_words(&core->arena, core->given[i], fact);
        equal = equal && (core->arena.failed ||
                          bw_side_same(core->given[0], text[0], core->given[i],
                                       text[i], fact));
    }
    return differ(core, equal, what[fact], text, difference);
}

static bool climates_differ(bw_compare_core *core, const char **difference)
{
    const char *text[BW_COMPARE_MOST];
    bool equal = true;
    for (size_t i = 0; i < core->count; i++) {
        text[i] = climate_text(core, i);
        equal = equal && same_climate(core->climate[0], core->climate[i]);
    }
    return differ(core, equal, "The outdoor climates differ:", text,
                  difference);
}

/* Of elements, and of drying tests. */
static void rest_differs(bw_compare_core *core, const char **difference)
{
    const bw_assembly *const *wall = core->given;
    const char *element[BW_COMPARE_MOST], *test[BW_COMPARE_MOST];
    bool alike = true, alike_wetted = true;
    for (size_t i = 0; i < core->count; i++) {
        element[i] = bw_element_text(wall[i]->element);
        test[i] = test_text(core, i);
        alike = alike && wall[0]->element == wall[i]->element;
        alike_wetted = alike_wetted && same_test(wall[0], wall[i]);
    }
    differ(core, alike, "They are not the same kind of element:", element,
           difference);
    differ(core, alike_wetted, "The wetting of the drying test differs:", test,
           difference);
}

/* A name of its own for every wall. */
static void name_walls(bw_compare_core *core)
{
    for (size_t i = 0; i < core->count; i++) {
        bw_compared *wall = &core->wall[i];
        size_t before = 0, all = 0;
        wall->id = core->given[i]->id;
        wall->title = core->given[i]->title;
        for (size_t k = 0; k < core->count; k++) {
            bool shared = strcmp(core->given[k]->id, wall->id) == 0;
            all += shared;
            before += shared && k < i;
        }
        wall->label = all > 1 ? bw_compare_say(core, "%s (%zu)", wall->id,
                                               before + 1)
                              : wall->id;
    }
}

bw_status bw_compare_conditions(bw_compare_core *core, bw_error *err)
{
    bw_comparison *c = &core->comparison;
    const char **difference = BW_NEW(&core->arena, const char *,
                                     DIFFERENCES_MOST);
    BW_TRY_MEMORY(difference != NULL, err);
    c->difference = difference;
    name_walls(core);
    c->climates_differ = climates_differ(core, difference);
    c->indoors_differ = sides_differ(core, BW_SIDE_ROOM, difference);
    BW_TRY_MEMORY(!core->arena.failed, err);
    if ((c->climates_differ || c->indoors_differ) &&
        !core->options.conditions_may_differ)
        return bw_fail_domain(
            err,
            "walls in different %s are not compared unawares: give all the "
            "same%s, or say that it is meant with --as-drawn. %s",
            c->climates_differ ? "climates" : "rooms",
            c->climates_differ ? " climate with --climate FILE" : " <indoors>",
            difference[0]);
    for (int fact = BW_SIDE_FACING; fact < BW_SIDE_COUNT; fact++)
        sides_differ(core, (bw_side_fact)fact, difference);
    rest_differs(core, difference);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
