/* A logger's two columns: temperature and relative humidity with a date, in
 * whatever order, parted by commas, semicolons or tabs (then a decimal comma is
 * read, too). No published layout: names are told by how they begin.
 *
 * Readings count for the nearest full hour and are averaged there, so that
 * their mean moment is that hour. Dates are 2017-01-31 or 31.01.2017; with
 * slashes day and month cannot be told apart, and they are refused. */

#include <stdio.h>
#include <string.h>

#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"date", .is = BW_KEY_A},
    {"time", .is = BW_KEY_B},
    {"temp", .is = BW_RECORD_TEMPERATURE, .needed = true},
    {"rel", .is = BW_RECORD_HUMIDITY, .needed = true},
    {"hum", .is = BW_RECORD_HUMIDITY, .needed = true},
    {"rh", .is = BW_RECORD_HUMIDITY, .needed = true},
};

static bool moment(bw_moment *out, char *const key[BW_KEYS])
{
    char text[64];
    if (key[0] == NULL && key[1] == NULL)
        return false;
    snprintf(text, sizeof text, "%.30s%s%.30s", key[0] != NULL ? key[0] : "",
             key[0] != NULL && key[1] != NULL ? " " : "",
             key[1] != NULL ? key[1] : "");
    if (strlen(text) >= 16 && text[2] == '.' && text[5] == '.') {
        char iso[64];
        snprintf(iso, sizeof iso, "%.4s-%.2s-%.2s%.40s", text + 6, text + 3,
                 text, text + 10);
        return bw_moment_iso(out, iso);
    }
    return bw_moment_iso(out, text);
}

const bw_form_of_hours bw_form_logger = {
    .title = "a logger's temperature and humidity",
    .times = "readings within half an hour of a full hour are averaged there",
    .prefixes = true,
    .averaged = true,
    .zone_told = true,
    .year_kind = BW_YEAR_MEASURED,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = moment,
};
