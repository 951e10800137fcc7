/* A logger's record: one row a reading, with the moment and what was measured.
 *
 * Invariants: times ascend; every value lies within its range or is NAN; on any
 * failure nothing is handed out. */

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "day.h"
#include "fail.h"
#include "file.h"
#include "log_reader.h"
#include "record_form.h"

static const double HOUR = 3600.0, DAY = 86400.0;
static const double LONGEST = 20.0 * 366.0 * 86400.0; /* s */
static const double STEP = 3660.0; /* s, an hour and what a clock is off */

/* ---- moments ------------------------------------------------------------- */

/* "+02:00", "-0530" at the end of a time, cut off; hours. */
static bool cut_offset(char *text, double *hours)
{
    const size_t n = strlen(text);
    for (size_t back = 5; back <= 6 && n > 11 + back; back++) {
        char *at = text + n - back;
        if (*at != '+' && *at != '-')
            continue;
        const int h = bw_number_digits(at + 1, 2);
        const int m = bw_number_digits(at + back - 2, 2);
        if (h < 0 || h > 14 || m < 0 || m > 59 || (back == 6 && at[3] != ':'))
            return false;
        *hours = (*at == '-' ? -1 : 1) * (h + m / 60.0);
        *at = '\0';
        return true;
    }
    return false;
}

static bw_status no_clock(bw_log_reader *r)
{
    return BW_LOG_REFUSE(
        r, "the times do not say their clock: name the column time_utc, or "
           "write '# utc-offset: 2 h' above the header row, or give "
           "--utc-offset (hours east of UTC)");
}

static bw_status read_time(bw_log_reader *r, double *time)
{
    char text[40], day[16];
    const char *field = r->field[r->time];
    bw_moment at = {0};
    long number = 0;
    double hours = r->offset;
    if (strlen(field) >= sizeof text)
        return BW_LOG_REFUSE(r, "'%.40s' is no moment", field);
    memcpy(text, field, strlen(field) + 1);
    const bool told = cut_offset(text, &hours);
    const size_t n = strlen(text);
    const bool zulu = n > 0 && text[n - 1] == 'Z';
    const int seconds = n >= 19 && text[16] == ':'
                            ? bw_number_digits(text + 17, 2)
                            : 0;
    const bool ok = bw_moment_iso(&at, text) && at.hour >= 0 && at.hour < 24 &&
                    at.minute >= 0 && at.minute < 60 && seconds < 60;
    memcpy(day, text, 10);
    day[10] = '\0';
    if (!ok || !bw_day_number(day, &number))
        return BW_LOG_REFUSE(r,
                             "'%.40s' is no moment; write year-month-day and "
                             "hour:minute as in 2021-01-31T05:30",
                             field);
    if (zulu || (r->is_utc && !told))
        hours = 0;
    else if (!told && !r->has_offset)
        return no_clock(r);
    *time = DAY * (double)number + HOUR * (at.hour - hours) + 60.0 * at.minute +
            seconds;
    if (*time < 0.0)
        return BW_LOG_REFUSE(r,
                             "'%.40s' is before 1970-01-01 UTC, and no logger "
                             "is as old",
                             field);
    return BW_OK;
}

static bw_status check_time(bw_log_reader *r, double time)
{
    const bw_log *log = &r->owner->log;
    if (log->count == 0)
        return BW_OK;
    const double last = r->times[log->count - 1];
    if (!(time > last))
        return BW_LOG_REFUSE(
            r, "the time does not ascend: '%.40s' is %s that of line %ld%s",
            r->field[r->time], time < last ? "before" : "the same as",
            r->line[log->count - 1],
            last - time <= HOUR
                ? " (a clock put back in autumn, or readings of one minute? "
                  "log in UTC or in winter time)"
                : "");
    if (time - r->times[0] > LONGEST)
        return BW_LOG_REFUSE(r,
                             "'%.40s' is more than 20 years after the first "
                             "reading",
                             r->field[r->time]);
    r->apart += time - last > STEP;
    return BW_OK;
}

/* ---- values -------------------------------------------------------------- */

static bool is_missing(const char *text)
{
    static const char *const words[] = {"", "NA", "NaN", "-", "null", "n/a"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcasecmp(text, words[i]) == 0)
            return true;
    return false;
}

static bw_status read_value(bw_log_reader *r, size_t field, double *out)
{
    const bw_log_column *c = &r->column[field];
    char *text = r->field[field];
    const char *name = r->channel[c->channel].name;
    const char *what = c->humidity ? "relative humidity" : "temperature";
    *out = (double)NAN;
    if (is_missing(text))
        return BW_OK;
    char *comma = r->separator != ',' ? strchr(text, ',') : NULL;
    if (comma != NULL)
        *comma = '.';
    const char *end = text;
    double v = 0;
    if (!bw_number_read(text, &v, &end) || *end != '\0')
        return BW_LOG_REFUSE(r, "%s of '%.60s': '%.40s' is not a number", what,
                             name, text);
    if (c->fahrenheit)
        v = (v - 32) / 1.8;
    if (c->humidity ? !(v >= 0 && v <= 105) : !(v >= -60 && v <= 90))
        return BW_LOG_REFUSE(r,
                             "%s of '%.60s': %.40s lies outside %s; do the "
                             "columns of temperature and humidity stand "
                             "swapped, or is it a mark of what is missing "
                             "(leave that empty)?",
                             what, name, text,
                             c->humidity ? "0 to 105 %" : "-60 to 90 degC");
    *out = c->humidity ? v / 100 : v;
    return BW_OK;
}

static bw_status read_row(bw_log_reader *r)
{
    bw_log *log = &r->owner->log;
    size_t fields = 0;
    if (!bw_csv_split_at(r->csv.text, r->separator, r->field, BW_LOG_FIELDS,
                         &fields) ||
        fields != r->fields)
        return BW_LOG_REFUSE(r, "%zu fields, but the header row has %zu",
                             fields, r->fields);
    if (log->count == r->room)
        return BW_LOG_REFUSE(r, "more than %d readings: average them",
                             BW_LOG_MOST);
    double time = 0;
    BW_TRY(read_time(r, &time));
    BW_TRY(check_time(r, time));
    for (size_t i = 0; i < fields; i++) {
        const bw_log_column *c = &r->column[i];
        if ((int)i != r->time && c->channel >= 0)
            BW_TRY(read_value(r, i,
                              &r->value[c->channel][c->humidity][log->count]));
    }
    r->times[log->count] = time;
    r->line[log->count++] = r->csv.line;
    return BW_OK;
}

/* ---- the file ------------------------------------------------------------ */

static size_t lines_of(const char *text)
{
    size_t count = 1;
    for (; (text = strchr(text, '\n')) != NULL; text++)
        count++;
    return count;
}

static bw_status make_room(bw_log_reader *r)
{
    const size_t lines = r->csv.next == NULL ? 0 : lines_of(r->csv.next);
    bw_log *log = &r->owner->log;
    bw_arena *arena = &r->owner->arena;
    r->room = lines < BW_LOG_MOST ? lines : BW_LOG_MOST;
    r->times = BW_NEW(arena, double, r->room + 1);
    r->line = BW_NEW(arena, long, r->room + 1);
    log->time = r->times;
    log->line = r->line;
    for (size_t i = 0; i < log->channel_count; i++) {
        bw_log_channel *c = &r->channel[i];
        if (c->has_temperature)
            c->theta = r->value[i][0] = BW_NEW(arena, double, r->room + 1);
        if (c->has_humidity)
            c->rh = r->value[i][1] = BW_NEW(arena, double, r->room + 1);
    }
    return arena->failed ? bw_fail_memory(r->err) : BW_OK;
}

static bw_status read_lines(bw_log_reader *r)
{
    bw_csv *csv = &r->csv;
    bool headed = false;
    while (bw_csv_next(csv)) {
        if (csv->text[0] == '\0')
            continue;
        if (csv->text[0] == '#') {
            BW_TRY(bw_log_head(r, csv->text + 1));
            continue;
        }
        if (headed) {
            BW_TRY(read_row(r));
            continue;
        }
        headed = true;
        r->separator = bw_csv_separator(csv->text);
        if (!bw_csv_split_at(csv->text, r->separator, r->field, BW_LOG_FIELDS,
                             &r->fields))
            return BW_LOG_REFUSE(r, "more than %d columns", BW_LOG_FIELDS);
        BW_TRY(bw_log_header(r));
        BW_TRY(make_room(r));
    }
    if (headed)
        return BW_OK;
    return BW_LOG_REFUSE(r, "no header row in this log");
}

/* What no row shows alone. */
static bw_status finish(bw_log_reader *r)
{
    bw_log *log = &r->owner->log;
    log->utc_offset = r->is_utc ? 0 : r->offset;
    if (log->count < 2 ||
        log->time[log->count - 1] - log->time[0] < DAY - HOUR - 1)
        return BW_LOG_REFUSE(r, "this log is shorter than a day (%zu readings)",
                             log->count);
    if (2 * r->apart > log->count)
        return BW_LOG_REFUSE(r, "the readings lie more than an hour apart; a "
                                "log needs one an hour at least");
    return BW_OK;
}

static bw_status read_text(bw_log **out, char *text, const char *name,
                           const bw_log_options *options, bw_error *err)
{
    bw_log_reader r = {.path = name, .options = options, .err = err};
    r.owner = calloc(1, sizeof *r.owner);
    BW_TRY_MEMORY(r.owner != NULL, err);
    bw_log *log = &r.owner->log;
    log->file = bw_arena_copy(&r.owner->arena, name);
    log->source = log->licence = log->remark = "";
    if (options != NULL && options->has_utc_offset) {
        r.has_offset = r.offset_given = true;
        r.offset = options->utc_offset;
    }
    bw_csv_start(&r.csv, text);
    bw_status status = log->file == NULL ? bw_fail_memory(err) : read_lines(&r);
    if (status == BW_OK)
        status = finish(&r);
    if (status != BW_OK) {
        bw_log_free(log);
        return status;
    }
    *out = log;
    return BW_OK;
}

bw_status bw_log_read_text(bw_log **out, const char *text, const char *name,
                           const bw_log_options *options, bw_error *err)
{
    const size_t size = strlen(text) + 1;
    char *copy = malloc(size); /* reading takes it to pieces */
    BW_TRY_MEMORY(copy != NULL, err);
    memcpy(copy, text, size);
    const bw_status status = read_text(out, copy, name, options, err);
    free(copy);
    return status;
}

bw_status bw_log_read(bw_log **out, const char *path,
                      const bw_log_options *options, bw_error *err)
{
    char *text = NULL;
    size_t length = 0;
    BW_TRY(bw_file_read(&text, &length, path, "log", err));
    const bw_status status = read_text(out, text, path, options, err);
    free(text);
    return status;
}

void bw_log_free(bw_log *log)
{
    if (log == NULL)
        return;
    bw_log_owner *owner = (bw_log_owner *)log;
    bw_arena_release(&owner->arena);
    free(owner);
}
