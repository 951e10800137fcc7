/* A joined record as an hourly climate file (docs/climate.md), and any record
 * in words.
 *
 * Invariant: the same record gives the same bytes; of the notes those that
 * begin "source:" or "remark:" alone are keys of that format (in others a blank
 * stands before any colon). */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "climate_make.h"
#include "fail.h"
#include "number.h"
#include "record_make.h"
#include "writer.h"

static const struct {
    const char *name, *column, *advice;
} QUANTITY[BW_RECORD_COUNT] = {
    {"temperature", "temperature_C",
     "no simulation without it: any hourly list of a weather station"},
    {"humidity", "relative_humidity_pct",
     "no simulation without it: any hourly list of a weather station"},
    {"direct sun", "direct_normal_W_m2",
     "no sun on the wall, and no drying or inward drive by it: typical years "
     "of "
     "hours, by public services for solar energy, national weather services "
     "and "
     "building authorities; stations with a pyranometer"},
    {"diffuse sun", "diffuse_horizontal_W_m2",
     "as direct sun, and of use with it only"},
    {"longwave", "longwave_down_W_m2",
     "no cooling of the face below the air at night: typical years of hours "
     "have it, stations rarely"},
    {"wind", "wind_m_s",
     "no driving rain, and a calm outer face: hourly lists of weather "
     "stations"},
    {"wind direction", "wind_from_deg",
     "rain is then driven from no side in particular: hourly lists of weather "
     "stations"},
    {"rain", "rain_mm",
     "no driving rain and no rain leak: typical years have none; hourly lists "
     "of the national weather service's stations do"},
    {"pressure", "pressure_Pa",
     "the standard pressure is taken, which matters little: hourly lists of "
     "weather stations"},
};

const char *bw_quantity_name(bw_quantity quantity)
{
    return quantity < BW_RECORD_COUNT ? QUANTITY[quantity].name : "";
}

const char *bw_quantity_advice(bw_quantity quantity)
{
    return quantity < BW_RECORD_COUNT ? QUANTITY[quantity].advice : "";
}

static void key(bw_writer *to, const char *name, double value)
{
    bw_write_text(to, "# ");
    bw_write_text(to, name);
    bw_write_text(to, ": ");
    bw_write_number(to, value, 8);
    bw_write_text(to, "\n");
}

static void write_header(bw_writer *to, const bw_record *record)
{
    if (record->year_kind != BW_YEAR_NOT_STATED)
        bw_write_text(to, record->year_kind == BW_YEAR_TYPICAL
                              ? "# kind: typical-year\n"
                              : "# kind: measured-year\n");
    if (record->has_position) {
        key(to, "latitude", record->latitude);
        key(to, "longitude", record->longitude);
    }
    if (record->has_altitude)
        key(to, "altitude", record->altitude);
    key(to, "irradiance-time-offset", record->sun_offset);
    bw_write_text(to,
                  "# humidity-reference: water\n"
                  "# All times: UTC. A row is the hour that begins at its "
                  "time: sun, longwave and rain are its mean or sum, all else "
                  "holds at its beginning\n");
    for (size_t i = 0; i < record->note_count; i++) {
        bw_write_text(to, "# ");
        bw_write_text(to, record->note[i]);
        bw_write_text(to, "\n");
    }
}

static void write_rows(bw_writer *to, const bw_record *record)
{
    bw_write_text(to, "time");
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        if (record->value[q] != NULL) {
            bw_write_text(to, ",");
            bw_write_text(to, QUANTITY[q].column);
        }
    /* any year without a leap day: the number does not count */
    const int year = record->year > 0 && record->year % 4 != 0 ? record->year
                                                               : 2001;
    for (int h = 0; h < BW_HOURS; h++) {
        const int m = bw_hour_month(h), rest = h - bw_month_first_hour(m);
        char time[64];
        snprintf(time, sizeof time, "\n%04d-%02d-%02dT%02d:00Z", year, m + 1,
                 rest / 24 + 1, rest % 24);
        bw_write_text(to, time);
        for (int q = 0; q < BW_RECORD_COUNT; q++)
            if (record->value[q] != NULL) {
                bw_write_text(to, ",");
                bw_write_number(to, record->value[q][h], 6);
            }
    }
    bw_write_text(to, "\n");
}

static bw_status finish(bw_writer *to, bw_error *err)
{
    if (bw_writer_finish(to))
        return BW_OK;
    return bw_fail(err, BW_ERR_IO, NULL, 0, "the hours could not be written");
}

bw_status bw_record_write(const bw_record *record, bw_sink *sink, void *payload,
                          bw_error *err)
{
    bw_writer to;
    bw_writer_start(&to, sink, payload);
    write_header(&to, record);
    write_rows(&to, record);
    return finish(&to, err);
}

/* ---- in words ---------------------------------------------------------- */

enum { LABEL = 10, PAGE = 78 };

/* A label of LABEL columns, and words beside it, broken at the page's edge. */
static void say(bw_writer *to, const char *label, const char *text)
{
    size_t column = 0;
    bw_write_text(to, "  ");
    bw_write_text(to, label);
    bw_write_repeat(to, ' ', LABEL - strlen(label));
    while (*text != '\0') {
        const size_t word = strcspn(text, " ");
        if (column > 0 && column + 1 + word > PAGE - LABEL - 2) {
            bw_write_text(to, "\n");
            bw_write_repeat(to, ' ', LABEL + 2);
            column = 0;
        } else if (column > 0) {
            bw_write_text(to, " ");
            column++;
        }
        for (size_t i = 0; i < word; i++)
            bw_write_part(to,
                          (unsigned char)text[i] < ' ' || text[i] == 0x7f
                              ? "?"
                              : text + i,
                          1);
        column += word;
        text += word + strspn(text + word, " ");
    }
    bw_write_text(to, "\n");
}

static void describe_column(bw_writer *to, const bw_record *record,
                            bw_quantity quantity)
{
    const double *value = record->value[quantity];
    int missing = 0, longest = 0, length = 0;
    double sum = 0.0;
    for (int h = 0; h < BW_HOURS; h++) {
        length = isnan(value[h]) ? length + 1 : 0;
        longest = length > longest ? length : longest;
        missing += isnan(value[h]);
        sum += isnan(value[h]) ? 0.0 : value[h];
    }
    const bool rain = quantity == BW_RECORD_RAIN;
    char text[160] = "";
    int used = snprintf(text, sizeof text, "%s", QUANTITY[quantity].column);
    if (quantity != BW_RECORD_WIND_FROM)
        used += snprintf(text + used, sizeof text - (size_t)used, ", %s %s",
                         rain ? "sum" : "mean",
                         BW_G(rain ? sum : sum / (BW_HOURS - missing)));
    if (missing > 0)
        snprintf(text + used, sizeof text - (size_t)used,
                 "; %d hours missing, at most %d in a row", missing, longest);
    say(to, "has", text);
}

bw_status bw_record_describe(const bw_record *record, bw_sink *sink,
                             void *payload, bw_error *err)
{
    bw_writer to;
    bw_writer_start(&to, sink, payload);
    if (record->sha256[0] != '\0') {
        say(&to, "file", record->file);
        say(&to, "read as", record->form);
        say(&to, "times", record->times);
        say(&to, "SHA-256", record->sha256);
    }
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        if (record->value[q] != NULL)
            describe_column(&to, record, (bw_quantity)q);
    for (size_t i = 0; i < record->note_count; i++)
        say(&to, "note", record->note[i]);
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        if (record->value[q] == NULL) {
            char text[512];
            snprintf(text, sizeof text, "%s: %s", QUANTITY[q].name,
                     QUANTITY[q].advice);
            say(&to, "missing", text);
        }
    if (!record->has_position)
        say(&to, "missing",
            "position: no sun without it; --position LATITUDE,LONGITUDE says "
            "it");
    return finish(&to, err);
}
