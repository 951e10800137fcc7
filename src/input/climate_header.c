/* What stands above the header row: '# key: value' in our files, 'key: value'
 * in the public TMY file. */

#include <stddef.h>
#include <string.h>
#include <strings.h>

#include "climate_reader.h"
#include "fail.h"
#include "number.h"
#include "text.h"

enum {
    PLACE,
    SOURCE,
    LICENCE,
    REMARK,
    LICENSE,
    ALTITUDE, /* from here on: values, of which there is one each */
    LATITUDE,
    LONGITUDE,
    HUMIDITY_REFERENCE,
    TIME_OFFSET,
    PREVAILING_WIND,
    KIND,
    KEYS
};

static const char *const KEY[KEYS] = {
    [PLACE] = "place",
    [SOURCE] = "source",
    [LICENCE] = "licence",
    [REMARK] = "remark",
    [LICENSE] = "license",
    [ALTITUDE] = "altitude",
    [LATITUDE] = "latitude",
    [LONGITUDE] = "longitude",
    [HUMIDITY_REFERENCE] = "humidity-reference",
    [TIME_OFFSET] = "irradiance-time-offset",
    [PREVAILING_WIND] = "prevailing-wind",
    [KIND] = "kind",
};

/* What the keys of numbers are: unit in two spellings, range, field. */
static const struct number {
    const char *unit, *unit2;
    double low, high;
    size_t to; /* offset in bw_climate */
} numbers[KEYS] = {
    [ALTITUDE] = {"m", "m", -450.0, 9000.0, offsetof(bw_climate, altitude)},
    [LATITUDE] = {"degrees", "deg", -90.0, 90.0,
                  offsetof(bw_climate, latitude)},
    [LONGITUDE] = {"degrees", "deg", -180.0, 180.0,
                   offsetof(bw_climate, longitude)},
    [TIME_OFFSET] = {"h", "hours", -1.0, 1.0,
                     offsetof(bw_climate, time_offset)},
    [PREVAILING_WIND] = {"degrees", "deg", 0.0, 360.0,
                         offsetof(bw_climate, prevailing_wind)},
};

/* A number, alone or followed by its unit. */
static bw_status number(bw_climate_reader *reader, const struct number *is,
                        const char *key, const char *value)
{
    const char *end = value;
    double v = 0.0;
    bool ok = bw_number_read(value, &v, &end);
    while (ok && *end == ' ')
        end++;
    if (!ok || (*end != '\0' && strcmp(end, is->unit) != 0 &&
                strcmp(end, is->unit2) != 0))
        return BW_REFUSE(reader, reader->csv.line,
                         "%s: '%.60s' is not a number of %s", key, value,
                         is->unit);
    if (!(v >= is->low && v <= is->high))
        return BW_REFUSE(reader, reader->csv.line,
                         "%s: %.60s lies outside %s to %s %s", key, value,
                         BW_G(is->low), BW_G(is->high), is->unit);
    *(double *)(void *)((char *)reader->climate + is->to) = v;
    return BW_OK;
}

/* Joins it to what is there, with a blank. */
static bw_status add_text(bw_climate_reader *reader, int key, const char **slot,
                          const char *value)
{
    enum { FIRST = 256 };
    bw_header_text *text = &reader->text[key];
    const size_t length = strlen(value), gap = text->length > 0;
    const size_t wanted = text->length + gap + length + 1;
    if (wanted > BW_HEADER_MOST)
        return BW_REFUSE(reader, reader->csv.line,
                         "%s: more than %d bytes in all, which no header needs",
                         KEY[key], BW_HEADER_MOST);
    if (wanted > text->room) {
        text->room = wanted < FIRST ? FIRST : 2 * wanted;
        char *more = bw_arena_get(bw_climate_arena(reader->climate), text->room,
                                  1);
        BW_TRY_MEMORY(more != NULL, reader->err);
        if (text->length > 0)
            memcpy(more, text->at, text->length);
        text->at = more;
    }
    if (gap > 0)
        text->at[text->length++] = ' ';
    memcpy(text->at + text->length, value, length + 1);
    text->length += length;
    *slot = text->at;
    return BW_OK;
}

static bw_status reference(bw_climate_reader *reader, const char *value)
{
    if (strcasecmp(value, "water") == 0)
        reader->climate->humidity_reference = BW_OVER_WATER;
    else if (strcasecmp(value, "ice") == 0)
        reader->climate->humidity_reference = BW_OVER_ICE;
    else
        return BW_REFUSE(reader, reader->csv.line,
                         "humidity-reference: '%.60s' is neither water nor ice",
                         value);
    return BW_OK;
}

static bw_status year_kind(bw_climate_reader *reader, const char *value)
{
    if (strcasecmp(value, "typical-year") == 0)
        reader->climate->year_kind = BW_YEAR_TYPICAL;
    else if (strcasecmp(value, "measured-year") == 0)
        reader->climate->year_kind = BW_YEAR_MEASURED;
    else
        return BW_REFUSE(reader, reader->csv.line,
                         "kind: '%.60s' is neither typical-year nor "
                         "measured-year",
                         value);
    return BW_OK;
}

/* name: as this file calls the key. */
static bw_status take_value(bw_climate_reader *reader, int key,
                            const char *name, const char *value)
{
    long *line = &reader->value_line[key - ALTITUDE];
    if (*line != 0)
        return BW_REFUSE(reader, reader->csv.line,
                         "%s: given twice; it stands in line %ld too", name,
                         *line);
    *line = reader->csv.line;
    if (key == HUMIDITY_REFERENCE)
        return reference(reader, value);
    if (key == KIND)
        return year_kind(reader, value);
    bool *const has[KEYS] = {
        [ALTITUDE] = &reader->climate->has_altitude,
        [LATITUDE] = &reader->has_latitude,
        [LONGITUDE] = &reader->has_longitude,
        [TIME_OFFSET] = &reader->has_time_offset,
        [PREVAILING_WIND] = &reader->climate->has_prevailing_wind};
    BW_TRY(number(reader, &numbers[key], name, value));
    *has[key] = true;
    return BW_OK;
}

static bw_status take(bw_climate_reader *reader, int key, const char *value)
{
    bw_climate *climate = reader->climate;
    switch (key) {
    case PLACE:
        return add_text(reader, PLACE, &climate->place, value);
    case SOURCE:
        return add_text(reader, SOURCE, &climate->source, value);
    case LICENCE:
    case LICENSE:
        return add_text(reader, LICENCE, &climate->licence, value);
    case REMARK:
        return add_text(reader, REMARK, &climate->remark, value);
    default:
        return take_value(reader, key, KEY[key], value);
    }
}

/* Lines without a colon are remarks to people. A key that nearly is one of
 * ours is refused: what it says would be lost. (Not one near "kind", as
 * "wind" is: the year then counts as not stated.) */
bw_status bw_climate_comment(bw_climate_reader *reader, char *text)
{
    char *colon = strchr(text, ':');
    if (colon == NULL)
        return BW_OK;
    *colon = '\0';
    const char *key = bw_text_trim(text), *value = bw_text_trim(colon + 1);
    for (int i = 0; i < KEYS; i++)
        if (strcasecmp(key, KEY[i]) == 0)
            return take(reader, i, value);
    const char *near = strpbrk(key, " \t") == NULL
                           ? bw_text_nearest(key, KEY, KIND)
                           : NULL;
    if (near != NULL)
        return BW_REFUSE(reader, reader->csv.line,
                         "unknown header key '%.60s'; did you mean '%s'?", key,
                         near);
    return BW_OK;
}

static bool starts(const char *text, const char *with)
{
    return strncasecmp(text, with, strlen(with)) == 0;
}

bw_status bw_climate_preamble(bw_climate_reader *reader)
{
    static const struct {
        const char *name;
        int key;
    } names[] = {{"Latitude", LATITUDE},
                 {"Longitude", LONGITUDE},
                 {"Elevation", ALTITUDE},
                 {"Irradiance Time Offset", TIME_OFFSET}};
    char *text = reader->csv.text;
    char *colon = strchr(text, ':');
    if (colon == NULL)
        return BW_OK; /* the table of chosen years */
    const char *value = bw_text_trim(colon + 1);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (starts(text, names[i].name))
            return take_value(reader, names[i].key, names[i].name, value);
    return BW_OK;
}

/* Words by which a file calls its year a typical one. */
static bool says_typical(const char *text)
{
    static const char *const words[] = {"typical", "TMY", "test reference year",
                                        "reference year"};
    for (const char *at = text; *at != '\0'; at++)
        for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
            if (starts(at, words[i]))
                return true;
    return false;
}

static bw_status finish_public(bw_climate_reader *reader)
{
    bw_climate *climate = reader->climate;
    climate->year_kind = BW_YEAR_TYPICAL;
    if (!reader->has_latitude || !reader->has_longitude)
        return BW_OK;
    const char *north = BW_NUMBER_F(climate->latitude, 3);
    const char *east = BW_NUMBER_F(climate->longitude, 3);
    climate->place = bw_arena_printf(bw_climate_arena(climate),
                                     "latitude %s, longitude %s", north, east);
    BW_TRY_MEMORY(climate->place != NULL, reader->err);
    return add_text(reader, SOURCE, &climate->source,
                    "public TMY file of the European Commission's PV service");
}

bw_status bw_climate_finish_header(bw_climate_reader *reader)
{
    bw_climate *climate = reader->climate;
    climate->has_position = reader->has_latitude;
    if (reader->public_tmy)
        BW_TRY(finish_public(reader));
    if (climate->year_kind == BW_YEAR_NOT_STATED &&
        (says_typical(climate->source) || says_typical(climate->remark) ||
         says_typical(climate->place)))
        climate->year_kind = BW_YEAR_TYPICAL;
    if (reader->has_latitude && !reader->has_longitude)
        return bw_climate_add_note(climate, reader->err, BW_NOTE_INFO, 0,
                                   "no longitude in the header: 0 is used, so "
                                   "that hours are taken as local solar time");
    if (reader->has_longitude && !reader->has_latitude)
        return BW_REFUSE(reader, reader->csv.line,
                         "the header gives a longitude but no latitude");
    return BW_OK;
}
