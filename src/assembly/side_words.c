/* The surroundings of a wall in words.
 *
 * Invariant: two sides with the same words are the same (months of a room are
 * compared by value, too); tests/test_side.c changes every field. */

#include <math.h>
#include <string.h>

#include "beyond.h"
#include "number.h"
#include "room.h"
#include "side.h"

typedef struct text {
    bw_arena *arena;
    const bw_assembly *assembly;
} text;

#define SAY(t, ...) bw_arena_say((t)->arena, __VA_ARGS__)

/* As exact as it is given. */
static const char *number(text *t, double value)
{
    return SAY(t, "%s", BW_NUMBER_G(value, 12));
}

/* "" or ", WORD NUMBER UNIT". */
static const char *also(text *t, bool given, const char *before, double value,
                        const char *after)
{
    return given ? SAY(t, ", %s%s%s", before, number(t, value), after) : "";
}

/* ---- the room ---------------------------------------------------------- */

static const char *months(text *t, const bw_indoors *in)
{
    double theta = 0.0, p = 0.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        theta += in->month_temperature[m] / BW_MONTHS;
        p += in->month_vapour_pressure[m] / BW_MONTHS;
    }
    char mean[2][32];
    return SAY(t, "twelve months given in the file, means %s degC and %s Pa",
               bw_number_g(mean[0], sizeof mean[0], theta, 6),
               bw_number_g(mean[1], sizeof mean[1], p, 6));
}

static const char *air_of_room(text *t, const bw_indoors *in)
{
    switch (in->kind) {
    case BW_INDOOR_CLASS:
        return SAY(t, "%s degC, humidity class %d of ISO 13788%s",
                   number(t, in->temperature), in->humidity_class,
                   in->margin ? " with its safety margin" : "");
    case BW_INDOOR_RH:
        return SAY(t, "%s degC, %s %% relative humidity%s",
                   number(t, in->temperature),
                   number(t, in->relative_humidity * 100.0),
                   in->margin ? " plus 5 points of safety margin" : "");
    case BW_INDOOR_EN15026:
        return SAY(t,
                   "temperature and humidity from the outdoor temperature by "
                   "EN 15026, %s occupancy",
                   in->en15026_high ? "high" : "normal");
    case BW_INDOOR_MONTHS:
        break;
    }
    return months(t, in);
}

static const char *room(text *t)
{
    const bw_indoors *in = &t->assembly->indoors;
    const char *air = air_of_room(t, in);
    return air == NULL
               ? NULL
               : SAY(t, "%s%s", air,
                     also(t, in->has_surface_resistance, "surface resistance ",
                          in->surface_resistance, " m2.K/W"));
}

/* ---- outside ----------------------------------------------------------- */

static const char *facing(text *t)
{
    static const char *const points[] = {"N", "NE", "E", "SE",
                                         "S", "SW", "W", "NW"};
    const bw_outdoors *o = &t->assembly->outdoors;
    const double eighth = o->azimuth / 45.0;
    const char *tilt = also(t, o->tilt != 90.0, "tilt ", o->tilt, " degrees");
    if (!o->has_facing)
        return SAY(t, "no direction given%s", tilt);
    if (eighth == round(eighth))
        return SAY(t, "%s%s", points[(int)eighth % 8], tilt);
    return SAY(t, "%s degrees from north%s", number(t, o->azimuth), tilt);
}

static const char *rain(text *t)
{
    const bw_outdoors *o = &t->assembly->outdoors;
    return SAY(
        t, "%s%s%s%s%s", bw_exposure_text(o->driving_rain),
        also(t, o->has_rain_share, "", 100.0 * o->rain_share, " % of it stays"),
        o->has_terrain ? ", " : "",
        o->has_terrain ? SAY(t, "%s terrain", bw_terrain_text(o->terrain)) : "",
        also(t, o->has_height, "", o->height, " m above ground"));
}

static const char *face(text *t)
{
    const bw_outdoors *o = &t->assembly->outdoors;
    return SAY(t, "emissivity %s%s%s%s", number(t, o->emissivity),
               also(t, o->has_solar_absorptance, "solar absorptance ",
                    o->solar_absorptance, ""),
               o->open_sky ? ", a light roof under open sky" : "",
               also(t, o->has_surface_resistance, "surface resistance ",
                    o->surface_resistance, " m2.K/W"));
}

static const char *beyond(text *t)
{
    static const char *const words[] = {
        [BW_BELOW_NOT_STATED] = "outdoor air",
        [BW_BELOW_OPEN_AIR] = "open air below the floor",
        [BW_BELOW_SPACE] = "a space whose own climate is given"};
    if (t->assembly->beyond.kind != NULL)
        return t->assembly->beyond.kind->words(t->arena, t->assembly);
    return SAY(t, "%s", words[t->assembly->outdoors.below]);
}

/* ---- all --------------------------------------------------------------- */

const char *bw_side_words(bw_arena *arena, const bw_assembly *assembly,
                          bw_side_fact fact)
{
    static const char *(*const words[])(text *) = {[BW_SIDE_ROOM] = room,
                                                   [BW_SIDE_FACING] = facing,
                                                   [BW_SIDE_RAIN] = rain,
                                                   [BW_SIDE_FACE] = face,
                                                   [BW_SIDE_BEYOND] = beyond};
    text t = {arena, assembly};
    const char *said = words[fact](&t);
    return arena->failed ? NULL : said;
}

bool bw_side_same(const bw_assembly *a, const char *words_a,
                  const bw_assembly *b, const char *words_b, bw_side_fact fact)
{
    return strcmp(words_a, words_b) == 0 &&
           (fact != BW_SIDE_ROOM ||
            bw_room_same_air(&a->indoors, &b->indoors)) &&
           (fact != BW_SIDE_BEYOND || bw_beyond_same(a, b));
}
