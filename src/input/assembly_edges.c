#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "beyond.h"
#include "bothways/air.h"
#include "fail.h"

/* The two climates an assembly stands between: <outdoors> and <indoors>. */

static const char *const facings[BW_FACINGS] = {"N", "NE", "E", "SE",
                                                "S", "SW", "W", "NW"};

const char *bw_resolve(bw_reader *r, const char *path)
{
    const char *slash = strrchr(r->xml.path, '/');
    if (path[0] == '/' || slash == NULL)
        return bw_keep(r, path);
    const char *joined = bw_arena_printf(
        r->arena, "%.*s%s", (int)(slash - r->xml.path + 1), r->xml.path, path);
    r->out_of_memory |= joined == NULL;
    return joined != NULL ? joined : "";
}

static bw_status read_faces(bw_reader *r, const xmlNode *node)
{
    bw_outdoors *o = &r->assembly->outdoors;
    const char *text = bw_xml_value(node, "faces");
    o->has_facing = text != NULL;
    if (text == NULL)
        return BW_OK;
    for (int i = 0; i < BW_FACINGS; i++) {
        if (strcmp(text, facings[i]) != 0)
            continue;
        o->azimuth = 45.0 * i;
        return BW_OK;
    }
    if (strpbrk(text, "0123456789") == NULL) {
        char list[64];
        return bw_refuse_at(
            r, node, "faces",
            "is not a compass point; write one of %s, or degrees from north, "
            "clockwise: \"225 deg\"",
            bw_xml_list(list, sizeof list, facings, BW_FACINGS));
    }
    return bw_read_quantity(r, &o->azimuth, NULL, node, "faces", BW_DIM_ANGLE,
                            0.0, 360.0);
}

/* The wind at the face: what the ground is like, and how high. */
static bw_status read_terrain(bw_reader *r, const xmlNode *node)
{
    bw_outdoors *o = &r->assembly->outdoors;
    int terrain = BW_TERRAIN_SUBURBAN;
    BW_TRY(bw_read_word(r, &terrain, &o->has_terrain, node, "terrain", "open",
                        "rural", "suburban", "urban"));
    o->terrain = (bw_terrain)terrain;
    return bw_read_quantity(r, &o->height, &o->has_height, node, "height",
                            BW_DIM_LENGTH, 0.5, 500.0);
}

static bw_status read_rain(bw_reader *r, const xmlNode *node)
{
    int rain = BW_RAIN_MODERATE;
    bool given;
    char meaning[240];
    snprintf(meaning, sizeof meaning, "none: %s; sheltered: %s; severe: %s",
             bw_exposure_meaning(BW_RAIN_NONE),
             bw_exposure_meaning(BW_RAIN_SHELTERED),
             bw_exposure_meaning(BW_RAIN_SEVERE));
    BW_TRY(bw_explain(r->err,
                      bw_read_word(r, &rain, &given, node, "driving-rain",
                                   "none", "sheltered", "moderate", "severe"),
                      meaning));
    bw_outdoors *o = &r->assembly->outdoors;
    const bool dry = o->below == BW_BELOW_SPACE; /* no rain falls there */
    if (dry && rain != BW_RAIN_NONE && given)
        return bw_refuse_at(r, node, "driving-rain",
                            "falls in no space below a floor; leave it out");
    o->driving_rain = dry ? BW_RAIN_NONE : (bw_exposure)rain;
    o->has_driving_rain = given || dry;
    if (!o->has_driving_rain)
        bw_add_note(r, BW_NOTE_INFO, node,
                    "driving-rain= is not given: moderate is taken");
    return bw_read_quantity(r, &o->rain_share, &o->has_rain_share, node,
                            "rain-share", BW_DIM_FRACTION, 0.01, 1.0);
}

/* A crawl space is no outdoor air: in summer it is colder and damper. Which of
 * them lies below a floor nobody can tell from its layers. */
static bw_status read_below(bw_reader *r, const xmlNode *node)
{
    bw_outdoors *o = &r->assembly->outdoors;
    int below = 0;
    bool given;
    BW_TRY(bw_read_word(r, &below, &given, node, "below", "open-air",
                        "climate-of-space"));
    const bool floor = r->assembly->element == BW_ELEMENT_FLOOR;
    if (given && !floor)
        return bw_refuse_at(r, node, "below",
                            "is for a floor (element=\"floor\")");
    if (given)
        o->below = below == 0 ? BW_BELOW_OPEN_AIR : BW_BELOW_SPACE;
    if (floor && !given)
        bw_add_note(
            r, BW_NOTE_WARNING, node,
            "below= is not given: the floor's underside is computed in outdoor "
            "air, which is not that of a crawl space, a cellar or the ground, "
            "so the floor is not said to hold; write below=\"open-air\", or "
            "below=\"climate-of-space\" with a climate of the space itself");
    return BW_OK;
}

/* Where no outdoor air lies against the face only the climate of the place
 * counts. */
static bw_status read_beyond(bw_reader *r, const xmlNode *node)
{
    static const char *const open[] = {
        "faces",        "tilt",       "solar-absorptance", "emissivity",
        "driving-rain", "rain-share", "terrain",           "height",
        "open-sky",     "below",      "surface-resistance"};
    bw_outdoors *o = &r->assembly->outdoors;
    for (size_t i = 0; i < BW_COUNT(open); i++)
        if (bw_xml_value(node, open[i]) != NULL)
            return bw_refuse_at(
                r, node, open[i],
                "counts at no face against %s (<%s>); leave it out",
                bw_beyond_against(r->assembly),
                bw_beyond_element(&r->assembly->beyond));
    o->emissivity = 0.9;
    o->driving_rain = BW_RAIN_NONE;
    return BW_OK;
}

bw_status bw_read_outdoors(bw_reader *r, const xmlNode *node)
{
    bw_outdoors *o = &r->assembly->outdoors;
    bool given;
    BW_TRY(bw_read_childless(r, node, "climate", "faces", "tilt",
                             "solar-absorptance", "emissivity", "driving-rain",
                             "rain-share", "terrain", "height", "open-sky",
                             "below", "surface-resistance"));
    const char *climate = bw_xml_value(node, "climate");
    if (climate != NULL)
        BW_TRY(bw_read_required(r, &climate, node, "climate",
                                "climates/estuary.csv"));
    o->climate_path = climate != NULL ? bw_resolve(r, climate) : "";
    o->tilt = r->assembly->element == BW_ELEMENT_WALL   ? 90.0
              : r->assembly->element == BW_ELEMENT_ROOF ? 0.0
                                                        : 180.0;
    if (r->assembly->beyond.kind != NULL)
        return read_beyond(r, node);
    BW_TRY(read_faces(r, node));
    BW_TRY(bw_read_quantity(r, &o->tilt, &given, node, "tilt", BW_DIM_ANGLE,
                            0.0, 180.0));
    if (!given && r->assembly->element == BW_ELEMENT_ROOF)
        bw_add_note(r, BW_NOTE_INFO, node,
                    "tilt= is not given: the roof is taken as flat (0 deg)");
    BW_TRY(bw_read_quantity(r, &o->solar_absorptance, &o->has_solar_absorptance,
                            node, "solar-absorptance", BW_DIM_NUMBER, 0.0,
                            1.0));
    o->emissivity = 0.9; /* usual for mineral and painted faces */
    BW_TRY(bw_read_quantity(r, &o->emissivity, &given, node, "emissivity",
                            BW_DIM_NUMBER, 0.0, 1.0));
    BW_TRY(bw_read_quantity(
        r, &o->surface_resistance, &o->has_surface_resistance, node,
        "surface-resistance", BW_DIM_THERMAL_RESISTANCE, 0.01, 1.0));
    BW_TRY(read_terrain(r, node));
    o->open_sky = r->assembly->element == BW_ELEMENT_ROOF;
    BW_TRY(bw_read_yes_no(r, &o->open_sky, &given, node, "open-sky"));
    if (!given && o->open_sky)
        bw_add_note(
            r, BW_NOTE_WARNING, node,
            "open-sky= is not given: the roof is taken as a light one under "
            "open sky, its outside 2 K colder than the air, which decides many "
            "roofs; write open-sky=\"no\" for a heavy or sheltered one");
    BW_TRY(read_below(r, node));
    return read_rain(r, node);
}

/* ---- indoors ----------------------------------------------------------- */

static bw_status read_month(bw_reader *r, const xmlNode *node, long seen[])
{
    bw_indoors *in = &r->assembly->indoors;
    int number;
    double theta, phi = 0.0, p = 0.0;
    bool has_phi, has_p;
    BW_TRY(bw_read_childless(r, node, "number", "temperature",
                             "relative-humidity", "vapour-pressure"));
    BW_TRY(bw_read_whole(r, &number, NULL, node, "number", 1, 12));
    if (seen[number - 1] != 0)
        return bw_refuse_at(
            r, node, "number",
            "stands twice (first in line %ld); each month 1 to 12 stands once",
            seen[number - 1]);
    BW_TRY(bw_read_quantity(r, &theta, NULL, node, "temperature",
                            BW_DIM_TEMPERATURE, -30.0, 60.0));
    BW_TRY(bw_read_quantity(r, &phi, &has_phi, node, "relative-humidity",
                            BW_DIM_FRACTION, 0.01, 1.0));
    BW_TRY(bw_read_quantity(r, &p, &has_p, node, "vapour-pressure",
                            BW_DIM_PRESSURE, 1.0, 20000.0));
    if (has_phi == has_p)
        return bw_refuse(r, node,
                         "needs one of relative-humidity=\"50 %%\" and "
                         "vapour-pressure=\"1200 Pa\"");
    double saturation = bw_saturation_pressure(theta);
    if (has_p && p > saturation)
        return bw_refuse_at(r, node, "vapour-pressure",
                            "is above saturation at that temperature (%.0f Pa)",
                            saturation);
    seen[number - 1] = bw_xml_line(node);
    in->month_temperature[number - 1] = theta;
    in->month_vapour_pressure[number - 1] = has_p ? p : phi * saturation;
    return BW_OK;
}

static bw_status read_months(bw_reader *r, const xmlNode *node)
{
    long seen[BW_MONTHS] = {0};
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        BW_TRY(read_month(r, c, seen));
    for (int m = 0; m < BW_MONTHS; m++)
        if (seen[m] == 0)
            return bw_refuse(
                r, node,
                "has no <month number=\"%d\">; all of 1 to 12 are needed",
                m + 1);
    return BW_OK;
}

static bw_status read_conditions(bw_reader *r, const xmlNode *node)
{
    int index;
    BW_TRY(bw_read_word(r, &index, NULL, node, "conditions", "en15026-normal",
                        "en15026-high"));
    r->assembly->indoors.en15026_high = index == 1;
    return BW_OK;
}

static bw_status read_class(bw_reader *r, const xmlNode *node)
{
    char meaning[320];
    size_t used = 0;
    for (int k = 1; k <= 5; k++)
        used += (size_t)snprintf(meaning + used, sizeof meaning - used,
                                 "%s%d: %s", k > 1 ? "; " : "", k,
                                 bw_humidity_class_meaning(k));
    return bw_explain(r->err,
                      bw_read_whole(r, &r->assembly->indoors.humidity_class,
                                    NULL, node, "humidity-class", 1, 5),
                      meaning);
}

/* Which one of the four ways is used; refuses none and more than one. */
static bw_status find_kind(bw_reader *r, const xmlNode *node)
{
    static const char *const ways[] = {"humidity-class", "relative-humidity",
                                       "conditions"};
    bw_indoors *in = &r->assembly->indoors;
    const char *used[4];
    size_t count = 0;
    for (int i = 0; i < 3; i++) {
        if (bw_xml_value(node, ways[i]) == NULL)
            continue;
        in->kind = (bw_indoor_kind)i;
        used[count++] = ways[i];
    }
    if (bw_xml_first(node) != NULL) {
        in->kind = BW_INDOOR_MONTHS;
        used[count++] = "<month> rows";
    }
    if (count == 1)
        return BW_OK;
    char list[128];
    return bw_refuse(
        r, node,
        "%s%s; give one of humidity-class=\"3\", relative-humidity=\"50 %%\", "
        "conditions=\"en15026-normal\" or twelve <month> rows",
        count == 0 ? "does not say how humid the room is"
                   : "says it in several ways: ",
        bw_xml_list(list, sizeof list, used, count));
}

static bw_status check_unused(bw_reader *r, const xmlNode *node)
{
    bw_indoors *in = &r->assembly->indoors;
    bool own = in->kind == BW_INDOOR_EN15026 || in->kind == BW_INDOOR_MONTHS;
    if (own && bw_xml_value(node, "temperature") != NULL)
        return bw_refuse_at(
            r, node, "temperature", "cannot stand beside %s, which %s",
            in->kind == BW_INDOOR_MONTHS ? "<month> rows" : "conditions=",
            in->kind == BW_INDOOR_MONTHS
                ? "give it month by month"
                : "give it from the outdoor temperature");
    if (own && bw_xml_value(node, "margin") != NULL)
        return bw_refuse_at(
            r, node, "margin",
            "counts only with humidity-class= or relative-humidity=");
    return BW_OK;
}

bw_status bw_read_indoors(bw_reader *r, const xmlNode *node)
{
    bw_indoors *in = &r->assembly->indoors;
    bool given;
    BW_TRY(bw_read_attributes(r, node, "temperature", "humidity-class",
                              "relative-humidity", "margin", "conditions",
                              "surface-resistance"));
    BW_TRY(bw_read_children(r, node, "month"));
    BW_TRY(find_kind(r, node));
    BW_TRY(check_unused(r, node));
    BW_TRY(bw_read_quantity(
        r, &in->surface_resistance, &in->has_surface_resistance, node,
        "surface-resistance", BW_DIM_THERMAL_RESISTANCE, 0.01, 2.0));
    if (in->kind == BW_INDOOR_MONTHS)
        return read_months(r, node);
    if (in->kind == BW_INDOOR_EN15026)
        return read_conditions(r, node);
    BW_TRY(bw_read_quantity(r, &in->temperature, NULL, node, "temperature",
                            BW_DIM_TEMPERATURE, -30.0, 60.0));
    in->margin = true;
    BW_TRY(bw_read_yes_no(r, &in->margin, &given, node, "margin"));
    if (in->kind == BW_INDOOR_CLASS)
        return read_class(r, node);
    return bw_read_quantity(r, &in->relative_humidity, NULL, node,
                            "relative-humidity", BW_DIM_FRACTION, 0.01, 1.0);
}
