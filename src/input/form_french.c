/* The French CSV of hours, parted by semicolons.
 *
 * Layout from memory, high confidence for the names, medium for the times; not
 * tested with a published file. T degC, U %, RR1 mm and GLO J/cm2 (1e4 J/m2 in
 * 3600 s) of the hour that ends, FF m/s and DD degrees of the ten minutes
 * before, PSTAT and PMER hPa; UTC. */

#include <string.h>

#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"NUM_POSTE", .is = BW_KEY_STATION, .needed = true},
    {"AAAAMMJJHH", .is = BW_KEY_A, .needed = true},
    {"LAT", .is = BW_KEY_LATITUDE},
    {"LON", .is = BW_KEY_LONGITUDE},
    {"ALTI", .is = BW_KEY_ALTITUDE},
    {"T", .is = BW_RECORD_TEMPERATURE},
    {"U", .is = BW_RECORD_HUMIDITY},
    {"RR1", .is = BW_RECORD_RAIN, .of_hour = true},
    {"FF", .is = BW_RECORD_WIND},
    {"DD", .is = BW_RECORD_WIND_FROM},
    {"GLO", .is = BW_RAW_GLOBAL, .factor = 1e4 / 3600, .of_hour = true},
    {"PSTAT", .is = BW_RECORD_PRESSURE, .factor = 100.0},
    {"PMER", .is = BW_RAW_SEA_PRESSURE, .factor = 100.0},
};

static bool moment(bw_moment *out, char *const key[BW_KEYS])
{
    if (strlen(key[0]) != 10)
        return false;
    *out = (bw_moment){.year = bw_number_digits(key[0], 4),
                       .month = bw_number_digits(key[0] + 4, 2),
                       .day = bw_number_digits(key[0] + 6, 2),
                       .hour = bw_number_digits(key[0] + 8, 2)};
    return out->year >= 0;
}

const bw_form_of_hours bw_form_french = {
    .title = "the French list of hours (layout from memory)",
    .times = "UTC; rain and sun are of the hour that ends, all else holds at "
             "its time",
    .separator = ';',
    .ends = 1,
    .year_kind = BW_YEAR_MEASURED,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = moment,
};
