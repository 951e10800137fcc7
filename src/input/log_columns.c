/* What stands above the rows of a log: remarks '# key: value', then the names
 * of the columns, each the place, the quantity and its unit.
 *
 * Invariant: a name that begins as one of ours is read whole or refused; any
 * other is passed over and told. */

#include <math.h>
#include <string.h>
#include <strings.h>

#include "climate_make.h"
#include "fail.h"
#include "log_reader.h"
#include "text.h"

static bw_status add_note(bw_log_reader *r, long line, const char *message)
{
    bw_log *log = &r->owner->log;
    bw_note *note = bw_arena_more(&r->owner->arena, r->notes, log->note_count,
                                  &r->note_room, sizeof *note);
    BW_TRY_MEMORY(note != NULL && message != NULL, r->err);
    r->notes = note;
    note[log->note_count++] = (bw_note){.kind = BW_NOTE_INFO,
                                        .line = line,
                                        .file = log->file,
                                        .message = message};
    log->note = note;
    return BW_OK;
}

/* ---- the head ------------------------------------------------------------ */

static bw_status add_text(bw_log_reader *r, const char **to, const char *value)
{
    *to = (*to)[0] == '\0'
              ? bw_arena_copy(&r->owner->arena, value)
              : bw_arena_printf(&r->owner->arena, "%s %s", *to, value);
    return *to == NULL ? bw_fail_memory(r->err) : BW_OK;
}

static bw_status read_offset(bw_log_reader *r, const char *value)
{
    const char *end = value;
    double hours = 0;
    bool ok = bw_number_read(*value == '+' ? value + 1 : value, &hours, &end);
    while (ok && *end == ' ')
        end++;
    ok = ok && (*end == '\0' || strcmp(end, "h") == 0) && hours >= -14 &&
         hours <= 14;
    if (!ok)
        return BW_LOG_REFUSE(r,
                             "utc-offset: '%.40s' is no clock; write the hours "
                             "east of UTC, -14 to 14, as in 'utc-offset: 2 h'",
                             value);
    if (r->has_offset && !(fabs(r->offset - hours) < 1e-9))
        return BW_LOG_REFUSE(r,
                             "utc-offset: %.40s, but %s says %s h: leave one "
                             "out",
                             value,
                             r->offset_given ? "--utc-offset" : "a line above",
                             BW_G(r->offset));
    r->has_offset = true;
    r->offset = hours;
    return BW_OK;
}

static bw_status read_reference(bw_log_reader *r, const char *value)
{
    const bool over_ice = strcmp(value, "ice") == 0;
    if (!over_ice && strcmp(value, "water") != 0)
        return BW_LOG_REFUSE(r,
                             "humidity-reference: '%.60s' is not allowed; "
                             "write water (as most sensors give it) or ice",
                             value);
    if (r->has_reference && over_ice != r->over_ice)
        return BW_LOG_REFUSE(r,
                             "humidity-reference: %s, but a line above says "
                             "%s: leave one out",
                             value, r->over_ice ? "ice" : "water");
    r->has_reference = true;
    r->over_ice = over_ice;
    return BW_OK;
}

bw_status bw_log_head(bw_log_reader *r, char *text)
{
    static const char *const keys[] = {"source",     "licence",
                                       "remark",     "license",
                                       "utc-offset", "humidity-reference"};
    enum { COUNT = sizeof keys / sizeof keys[0], VALUES = 4 };
    bw_log *log = &r->owner->log;
    const char **const to[] = {&log->source, &log->licence, &log->remark,
                               &log->licence};
    char *colon = strchr(text, ':');
    if (colon == NULL)
        return BW_OK;
    *colon = '\0';
    const char *key = bw_text_trim(text), *value = bw_text_trim(colon + 1);
    size_t k = 0;
    while (k < COUNT && strcasecmp(key, keys[k]) != 0)
        k++;
    if (k < VALUES)
        return add_text(r, to[k], value);
    if (k < COUNT && r->channel != NULL)
        return BW_LOG_REFUSE(r, "'%s' belongs above the header row", keys[k]);
    if (k == VALUES)
        return read_offset(r, value);
    if (k == VALUES + 1)
        return read_reference(r, value);
    const char *near = bw_text_nearest(key, &keys[VALUES], COUNT - VALUES);
    return near == NULL ? BW_OK
                        : BW_LOG_REFUSE(r,
                                        "'%.60s' is no key of a log; do you "
                                        "mean '%s'?",
                                        key, near);
}

/* ---- the columns --------------------------------------------------------- */

static const struct kind {
    const char *word;
    bool colon; /* its place follows behind a colon, it must */
    bool may;   /* it may */
} kinds[] = {
    [BW_LOG_ROOM] = {"room", false, false},
    [BW_LOG_OUTDOOR] = {"outdoor", false, false},
    [BW_LOG_CAVITY] = {"cavity", false, true},
    [BW_LOG_PLACE] = {"place", true, true},
    [BW_LOG_STUD] = {"stud", true, true},
};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

static const struct quantity {
    const char *end;
    bool humidity, fahrenheit;
} quantities[] = {
    {"_temperature_C", false, false},
    {"_temperature_F", false, true},
    {"_relative_humidity_pct", true, false},
};
enum { QUANTITIES = sizeof quantities / sizeof quantities[0] };

static const char FORM[] =
    "columns are named PLACE_temperature_C (or _F) and "
    "PLACE_relative_humidity_pct, where PLACE is room, outdoor, cavity, or "
    "place: or stud: with two layer ids as in place:sheathing|insulation";

static bool ends_with(const char *text, const char *end, size_t *before)
{
    const size_t n = strlen(text), m = strlen(end);
    *before = n > m ? n - m : 0;
    return n > m && strcmp(text + n - m, end) == 0;
}

/* Which kind a name begins as; KINDS: none of ours. */
static size_t kind_of(const char *name)
{
    for (size_t k = 0; k < KINDS; k++) {
        const size_t n = strlen(kinds[k].word);
        if (strncasecmp(name, kinds[k].word, n) == 0 &&
            (name[n] == '_' || name[n] == ':' || name[n] == '\0'))
            return k;
    }
    return KINDS;
}

/* The channel of that name, made if it is new. */
static bw_status find_channel(bw_log_reader *r, int *index, size_t kind,
                              const char *name)
{
    bw_log *log = &r->owner->log;
    for (size_t i = 0; i < log->channel_count; i++)
        if (strcmp(r->channel[i].name, name) == 0) {
            *index = (int)i;
            return BW_OK;
        }
    if (log->channel_count == BW_LOG_CHANNELS)
        return BW_LOG_REFUSE(r, "more than %d places: divide the log",
                             BW_LOG_CHANNELS);
    const char *colon = strchr(name, ':');
    if ((colon != NULL && (!kinds[kind].may || colon[1] == '\0')) ||
        (colon == NULL && kinds[kind].colon))
        return BW_LOG_REFUSE(r, "'%.80s' says no place: %s", name, FORM);
    char *copy = bw_arena_copy(&r->owner->arena, name);
    BW_TRY_MEMORY(copy != NULL, r->err);
    *index = (int)log->channel_count++;
    r->channel[*index] = (bw_log_channel){
        .kind = (bw_log_kind)kind,
        .name = copy,
        .at = colon == NULL ? "" : copy + (colon - name) + 1,
        .over_ice = r->over_ice};
    return BW_OK;
}

static bw_status pass_over(bw_log_reader *r, const char *name)
{
    return add_note(r, r->csv.line,
                    bw_arena_printf(&r->owner->arena,
                                    "the column '%.80s' is not read", name));
}

static bw_status read_name(bw_log_reader *r, size_t field)
{
    char *name = r->field[field];
    bw_log_column *column = &r->column[field];
    *column = (bw_log_column){.channel = -1};
    const size_t kind = kind_of(name);
    if (kind == KINDS)
        return pass_over(r, name);
    size_t q = 0, before = 0;
    while (q < QUANTITIES && !ends_with(name, quantities[q].end, &before))
        q++;
    if (q == QUANTITIES)
        return BW_LOG_REFUSE(r,
                             "the column '%.80s' is not understood: its name "
                             "ends with no quantity and unit; %s",
                             name, FORM);
    name[before] = '\0';
    BW_TRY(find_channel(r, &column->channel, kind, name));
    column->humidity = quantities[q].humidity;
    column->fahrenheit = quantities[q].fahrenheit;
    bw_log_channel *channel = &r->channel[column->channel];
    bool *has = column->humidity ? &channel->has_humidity
                                 : &channel->has_temperature;
    if (*has)
        return BW_LOG_REFUSE(
            r, "two columns are the %s of '%.80s'",
            column->humidity ? "relative humidity" : "temperature", name);
    *has = true;
    return BW_OK;
}

static bw_status find_time(bw_log_reader *r)
{
    r->time = -1;
    for (size_t i = 0; i < r->fields; i++) {
        const bool utc = strcasecmp(r->field[i], "time_utc") == 0;
        if (!utc && strcasecmp(r->field[i], "time") != 0)
            continue;
        if (r->time >= 0)
            return BW_LOG_REFUSE(r, "two columns are the time: leave time or "
                                    "time_utc out");
        r->time = (int)i;
        r->is_utc = utc;
    }
    if (r->time < 0)
        return BW_LOG_REFUSE(r,
                             "no column 'time_utc' (or 'time', with "
                             "'# utc-offset: 2 h' above): this is not the "
                             "header row of a log ('%.60s'); %s",
                             r->field[0], FORM);
    return BW_OK;
}

bw_status bw_log_header(bw_log_reader *r)
{
    r->owner->log.header_line = r->csv.line;
    r->channel = BW_NEW(&r->owner->arena, bw_log_channel, BW_LOG_CHANNELS);
    BW_TRY_MEMORY(r->channel != NULL, r->err);
    r->owner->log.channel = r->channel;
    BW_TRY(find_time(r));
    for (size_t i = 0; i < r->fields; i++)
        if ((int)i != r->time)
            BW_TRY(read_name(r, i));
    if (r->owner->log.channel_count == 0)
        return BW_LOG_REFUSE(r, "no column that can be read: %s", FORM);
    return BW_OK;
}
