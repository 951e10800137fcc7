/* Rows of hours in any form into columns of a year.
 *
 * Invariant: every hour holds at most one row (of a form that is averaged: the
 * mean of its rows); February 29th has none; every value lies within RAW, or is
 * NAN. Times are UTC: moment - offset; a quarter of an hour is left to the
 * sun's offset. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "file.h"
#include "record_form.h"
#include "record_make.h"
#include "sha256.h"

/* Plausible ranges, in the unit of the record: estimates, wide. Values in
 * [clamp_low, low) and (high, clamp_high] are taken as the limit. */
static const struct {
    const char *unit;
    double clamp_low, low, high, clamp_high;
} RAW[BW_RAW_COUNT] = {
    [BW_RECORD_TEMPERATURE] = {"degC", -90, -90, 60, 60},
    [BW_RECORD_HUMIDITY] = {"%", 0.5, 0.5, 100, 105},
    [BW_RECORD_DIRECT] = {"W/m2", -10, 0, 1410, 1410},
    [BW_RECORD_DIFFUSE] = {"W/m2", -10, 0, 1200, 1200},
    [BW_RECORD_LONGWAVE] = {"W/m2", 50, 50, 700, 700},
    [BW_RECORD_WIND] = {"m/s", 0, 0, 80, 80},
    [BW_RECORD_WIND_FROM] = {"degrees", 0, 0, 360, 360},
    [BW_RECORD_RAIN] = {"mm", 0, 0, 400, 400},
    [BW_RECORD_PRESSURE] = {"Pa", 45000, 45000, 110000, 110000},
    [BW_RAW_GLOBAL] = {"W/m2", -10, 0, 1600, 1600},
    [BW_RAW_BEAM_HORIZONTAL] = {"W/m2", -10, 0, 1400, 1400},
    [BW_RAW_MIXING] = {"g/kg", 0.005, 0.005, 60, 60},
    [BW_RAW_VAPOUR] = {"Pa", 0.1, 0.1, 8000, 8000},
    [BW_RAW_SEA_PRESSURE] = {"Pa", 85000, 85000, 110000, 110000},
};

/* Rows of another year beside those of the one that is read: what closes it. */
enum { FEW_OTHERS = 24 };

static bw_status read_value(double *out, bw_record_reader *reader, int kind)
{
    const bw_form_column *column = &reader->form->column[reader->column[kind]];
    char *text = reader->field[reader->at[kind]];
    const char *end = text;
    double value = 0.0;
    *out = (double)NAN;
    if (*text == '\0')
        return BW_OK;
    char *comma = reader->separator != ',' ? strchr(text, ',') : NULL;
    if (comma != NULL)
        *comma = '.';
    const double factor = column->factor > 0.0 ? column->factor : 1.0;
    if (!bw_number_read(text, &value, &end) || *end != '\0')
        return BW_REFUSE(reader, reader->csv.line,
                         "column '%s' (field %d): '%.60s' is not a number; %s "
                         "to %s is allowed, or nothing where it is missing",
                         column->name, reader->at[kind] + 1, text,
                         BW_G(RAW[kind].low / factor),
                         BW_G(RAW[kind].high / factor));
    if (column->missing != 0.0 &&
        (column->missing < 0.0 ? value <= column->missing
                               : value >= column->missing))
        return BW_OK;
    if (value == column->mark) /* without a mark both are 0 */
        value = column->means;
    const double is = value * factor;
    if (!(is >= RAW[kind].clamp_low && is <= RAW[kind].clamp_high))
        return BW_REFUSE(reader, reader->csv.line,
                         "column '%s' (field %d): %.60s lies outside %s to %s "
                         "(%s to %s %s)",
                         column->name, reader->at[kind] + 1, text,
                         BW_G(RAW[kind].low / factor),
                         BW_G(RAW[kind].high / factor), BW_G(RAW[kind].low),
                         BW_G(RAW[kind].high), RAW[kind].unit);
    *out = fmin(fmax(is, RAW[kind].low), RAW[kind].high);
    reader->clamped += is < RAW[kind].low || is > RAW[kind].high;
    return BW_OK;
}

static bool real(const bw_moment *at)
{
    if (at->month < 1 || at->month > BW_MONTHS || at->day < 1 || at->hour < 0 ||
        at->hour > 24 || at->minute < 0 || at->minute > 59 ||
        (at->hour == 24 && at->minute > 0))
        return false;
    int days = (bw_month_first_hour(at->month) -
                bw_month_first_hour(at->month - 1)) /
               24;
    return at->day <= days || (at->month == 2 && at->day == 29);
}

/* What a row says of its moment, as it stands there: "2017-02-30 05:00". */
static const char *as_written(char out[64], char *const key[BW_KEYS])
{
    size_t used = 0;
    out[0] = '\0';
    for (int k = 0; k < BW_KEYS; k++)
        if (key[k] != NULL && used < 64)
            used += (size_t)snprintf(out + used, 64 - used, "%s%.40s",
                                     used > 0 ? " " : "", key[k]);
    return out;
}

/* Hours from January 1st 00:00 UTC to the moment. */
static bw_status read_moment(double *out, bool *skip, bw_record_reader *reader)
{
    char *key[BW_KEYS] = {NULL};
    bw_moment at = {0};
    for (int k = 0; k < BW_KEYS; k++)
        if (reader->at[BW_KEY_A + k] >= 0)
            key[k] = reader->field[reader->at[BW_KEY_A + k]];
    if (!reader->form->moment(&at, key) || !real(&at))
        return BW_REFUSE(reader, reader->csv.line,
                         "'%s' is no moment of a year",
                         as_written((char[64]){0}, key));
    if (at.minute != 0 && !reader->form->averaged)
        return BW_REFUSE(reader, reader->csv.line,
                         "'%s' is not on the hour; one row an hour is wanted",
                         as_written((char[64]){0}, key));
    *out = bw_month_first_hour(at.month - 1) + 24.0 * (at.day - 1) + at.hour +
           at.minute / 60.0 - reader->zone;
    *skip = at.month == 2 && at.day == 29;
    if (reader->form->any_year)
        return BW_OK;
    if (reader->year == 0)
        reader->year = reader->options->year != 0 ? reader->options->year
                                                  : at.year;
    if (at.year == reader->year)
        return BW_OK;
    *skip = true;
    reader->others++;
    reader->other_year = at.year;
    return BW_OK;
}

static int wrap(int hour)
{
    return ((hour % BW_HOURS) + BW_HOURS) % BW_HOURS;
}

static bw_status store_row(bw_record_reader *reader, double moment)
{
    const bw_form_of_hours *form = reader->form;
    const int start = (int)floor(moment + (form->averaged ? 0.5 : 1e-6));
    const int hour = wrap(start);
    if (reader->line[hour] != 0 && !form->averaged)
        return BW_REFUSE(reader, reader->csv.line,
                         "this hour is given twice; it stands in line %ld too",
                         reader->line[hour]);
    double value[BW_RAW_COUNT] = {0};
    bool whole = true;
    for (int k = 0; k < BW_RAW_COUNT; k++) {
        if (reader->at[k] < 0)
            continue;
        BW_TRY(read_value(&value[k], reader, k));
        whole = whole && !isnan(value[k]);
    }
    reader->line[hour] = reader->csv.line;
    reader->rows++;
    if (form->averaged && !whole)
        return BW_OK;
    const int readings = ++reader->readings[hour];
    for (int k = 0; k < BW_RAW_COUNT; k++) {
        if (reader->at[k] < 0)
            continue;
        bool of_hour = form->column[reader->column[k]].of_hour;
        double *to =
            &reader->value[k][of_hour ? wrap(start - form->ends) : hour];
        *to = readings == 1 ? value[k] : *to + (value[k] - *to) / readings;
    }
    return BW_OK;
}

/* One station, and where a row says it lies. */
static bw_status check_station(bw_record_reader *reader)
{
    const int at = reader->at[BW_KEY_STATION];
    if (at < 0)
        return BW_OK;
    const char *is = reader->field[at];
    if (reader->station[0] == '\0') {
        snprintf(reader->station, sizeof reader->station, "%.31s", is);
        BW_TRY(bw_record_note(reader->record, reader->err, "station %s",
                              reader->station));
        double place[3] = {0.0};
        bool all = true;
        for (int k = 0; k < 3; k++) {
            const char *end = NULL;
            int field = reader->at[BW_KEY_LATITUDE + k];
            all = all && field >= 0 &&
                  bw_number_read(reader->field[field], &place[k], &end);
        }
        if (!all)
            return BW_OK;
        reader->record->has_altitude = true;
        reader->record->altitude = place[2];
        return bw_form_place(reader, place[0], place[1]);
    }
    if (strncmp(reader->station, is, sizeof reader->station - 1) == 0)
        return BW_OK;
    return BW_REFUSE(reader, reader->csv.line,
                     "the file has several stations, '%s' and '%.31s': keep "
                     "the header row and the rows of one",
                     reader->station, is);
}

static bw_status read_row(bw_record_reader *reader)
{
    char *text = reader->csv.text;
    double moment = 0.0;
    bool skip = false;
    if (*text == '\0' || *text == '#' || *text == '*')
        return BW_OK;
    int most = -1;
    for (int k = 0; k < BW_FORM_KINDS; k++)
        most = reader->at[k] > most ? reader->at[k] : most;
    if (!bw_csv_split_at(text, reader->separator, reader->field, BW_FORM_FIELDS,
                         &reader->fields) ||
        (int)reader->fields <= most)
        return BW_REFUSE(reader, reader->csv.line,
                         "this row has %zu fields where %d are wanted; was the "
                         "file cut off?",
                         reader->fields, most + 1);
    BW_TRY(check_station(reader));
    BW_TRY(read_moment(&moment, &skip, reader));
    return skip ? BW_OK : store_row(reader, moment);
}

static bw_status check_years(bw_record_reader *reader)
{
    if (reader->rows == 0)
        return BW_REFUSE(reader, reader->csv.line, "no hours %s",
                         reader->others > 0 ? "of the year that --year names"
                                            : "below the header row");
    if (reader->others > FEW_OTHERS && reader->options->year == 0)
        return bw_fail(reader->err, BW_ERR_USAGE, reader->path, 0,
                       "the file holds several years, %d and %d among them: "
                       "say which with --year",
                       reader->year, reader->other_year);
    if (reader->others > 0)
        BW_TRY(bw_record_note(reader->record, reader->err,
                              "%zu rows of other years are left out",
                              reader->others));
    reader->record->year = reader->year;
    return BW_OK;
}

/* The offset from UTC: the form's, the head's, or the user's. */
static bw_status settle_zone(bw_record_reader *reader)
{
    const bw_record_options *options = reader->options;
    if (!reader->form->zone_told) {
        reader->zone = reader->form->zone;
        return BW_OK;
    }
    if (!reader->has_zone && !options->has_utc_offset)
        return bw_fail(reader->err, BW_ERR_USAGE, reader->path, 0,
                       "the file does not say what its clock shows: add "
                       "--utc-offset HOURS, 0 for UTC, 1 for central European "
                       "time; one for the whole file, without summer time");
    if (!reader->has_zone)
        reader->zone = options->utc_offset;
    return bw_record_note(
        reader->record, reader->err, "its clock is UTC %s%s h%s",
        reader->zone < 0.0 ? "" : "+", BW_G(reader->zone),
        reader->has_zone ? ", as its head says" : ", as --utc-offset says");
}

static bw_status make_columns(bw_record_reader *reader)
{
    bw_arena *arena = bw_record_arena(reader->record);
    reader->line = BW_NEW(arena, long, BW_HOURS);
    reader->readings = BW_NEW(arena, int, BW_HOURS);
    BW_TRY_MEMORY(reader->line != NULL && reader->readings != NULL,
                  reader->err);
    for (int k = 0; k < BW_RAW_COUNT; k++) {
        if (reader->at[k] < 0)
            continue;
        reader->value[k] = bw_record_column(reader->record);
        BW_TRY_MEMORY(reader->value[k] != NULL, reader->err);
    }
    return BW_OK;
}

/* Where a form leaves the unit to the column's name. */
static bw_status refuse_fahrenheit(const bw_record_reader *reader)
{
    const int at = reader->at[BW_RECORD_TEMPERATURE];
    if (!reader->form->prefixes || at < 0 ||
        (strstr(reader->field[at], "F)") == NULL &&
         strstr(reader->field[at], "\xc2\xb0"
                                   "F") == NULL))
        return BW_OK;
    return BW_REFUSE(reader, reader->csv.line,
                     "column '%.60s': degrees Celsius are wanted; let the "
                     "logger's program write those",
                     reader->field[at]);
}

/* When the sun of an hour stands where: the middle, or what the head says. */
static bw_status settle_moment(bw_record_reader *reader)
{
    const double rest = reader->form->averaged
                            ? 0.0
                            : -reader->zone - floor(-reader->zone);
    reader->record->sun_offset = reader->own.has_time_offset
                                     ? reader->own.climate->time_offset
                                     : 0.5 + rest;
    if (rest <= 0.0)
        return BW_OK;
    return bw_record_note(reader->record, reader->err,
                          "its hours begin %s h after those of UTC: values are "
                          "put to the full hour before, the sun's moment is "
                          "kept",
                          BW_G(rest));
}

static bw_status read_rows(bw_record_reader *reader, char *text, long header)
{
    bw_csv_start(&reader->csv, text);
    while (bw_csv_next(&reader->csv) && reader->csv.line < header)
        if (reader->form->head != NULL)
            BW_TRY(reader->form->head(reader, reader->csv.text));
    BW_TRY(bw_climate_finish_header(&reader->own));
    BW_TRY(bw_record_origin(reader, reader->own.climate));
    if (reader->own.climate->year_kind != BW_YEAR_NOT_STATED)
        reader->record->year_kind = reader->own.climate->year_kind;
    char *names = reader->csv.text + strspn(reader->csv.text, "# ");
    bw_csv_split_at(names, reader->separator, reader->field, BW_FORM_FIELDS,
                    &reader->fields);
    for (int k = 0; k < BW_FORM_KINDS; k++)
        reader->column[k] = -1;
    bw_form_match(reader->form, reader->field, reader->fields, reader->at,
                  reader->column);
    BW_TRY(refuse_fahrenheit(reader));
    BW_TRY(settle_zone(reader));
    BW_TRY(make_columns(reader));
    while (bw_csv_next(&reader->csv))
        BW_TRY(read_row(reader));
    BW_TRY(check_years(reader));
    reader->record->line = reader->line;
    if (reader->clamped > 0)
        BW_TRY(bw_record_note(reader->record, reader->err,
                              "%zu values slightly outside their range are "
                              "taken as its limit",
                              reader->clamped));
    BW_TRY(settle_moment(reader));
    return bw_record_derive(reader);
}

static bw_status unknown_form(const bw_record_reader *reader)
{
    char list[600] = "";
    size_t used = 0;
    for (size_t i = 0; bw_form_title(i) != NULL && used < sizeof list; i++)
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s",
                                 i > 0 ? "; " : "", bw_form_title(i));
    return BW_REFUSE(reader, 1,
                     "none of the forms that are known: %s (docs/climate.md)",
                     list);
}

static bw_status read_text(bw_record_reader *reader, char *text)
{
    long header = 0;
    reader->form = bw_form_find(&header, &reader->separator, text);
    if (reader->form == NULL)
        return unknown_form(reader);
    bw_record *record = reader->record;
    record->form = reader->form->title;
    record->times = reader->form->times;
    record->year_kind = reader->form->year_kind;
    reader->own = (bw_climate_reader){.path = reader->path, .err = reader->err};
    reader->own.climate = bw_climate_new(reader->path);
    BW_TRY_MEMORY(reader->own.climate != NULL, reader->err);
    const bw_record_options *given = reader->options;
    bw_status status = BW_OK;
    if (given->has_position)
        status = bw_form_place(reader, given->latitude, given->longitude);
    if (status == BW_OK)
        status = reader->form->whole != NULL ? reader->form->whole(reader, text)
                                             : read_rows(reader, text, header);
    bw_climate_free(reader->own.climate);
    return status;
}

bw_status bw_record_read(bw_record **out, const char *path,
                         const bw_record_options *options, bw_error *err)
{
    static const bw_record_options none;
    char *text = NULL;
    size_t length = 0;
    BW_TRY(bw_file_read(&text, &length, path, "climate", err));
    bw_record *record = bw_record_new(path);
    bw_record_reader *reader = calloc(1, sizeof *reader);
    bw_status status = BW_OK;
    if (record == NULL || reader == NULL) {
        status = bw_fail_memory(err);
    } else {
        *reader = (bw_record_reader){
            .path = path,
            .record = record,
            .options = options != NULL ? options : &none,
            .err = err,
        };
        status = bw_sha256_file(record->sha256, path, err);
        if (status == BW_OK)
            status = read_text(reader, text);
    }
    free(text);
    free(reader);
    if (status == BW_OK)
        *out = record;
    else
        bw_record_free(record);
    return status;
}
