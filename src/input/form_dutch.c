/* The Dutch list of hours.
 *
 * Layout from memory, high confidence; not tested with a published file. The
 * hour 1 to 24 ends at its time, UTC. FH mean wind of the hour [0.1 m/s], T
 * [0.1 degC], U relative humidity [%], RH rain of the hour [0.1 mm], -1 for a
 * trace under 0.05 mm, which is taken as 0.025 mm; Q global radiation of the
 * hour [J/cm2]: 1e4 J/m2 in 3600 s; P pressure at sea level [0.1 hPa]; DD 990
 * where the wind varies. */

#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"YYYYMMDD", .is = BW_KEY_A, .needed = true},
    {"HH", .is = BW_KEY_B, .needed = true},
    {"STN", .is = BW_KEY_STATION},
    {"T", .is = BW_RECORD_TEMPERATURE, .factor = 0.1},
    {"U", .is = BW_RECORD_HUMIDITY},
    {"RH", .is = BW_RECORD_RAIN, .factor = 0.1, .mark = -1.0, .means = 0.25,
     .of_hour = true},
    {"FH", .is = BW_RECORD_WIND, .factor = 0.1, .of_hour = true},
    {"DD", .is = BW_RECORD_WIND_FROM, .missing = 990.0, .of_hour = true},
    {"Q", .is = BW_RAW_GLOBAL, .factor = 1e4 / 3600.0, .of_hour = true},
    {"P", .is = BW_RAW_SEA_PRESSURE, .factor = 10.0},
};

static bool moment(bw_moment *out, char *const key[BW_KEYS])
{
    if (bw_moment_number(key[0]) < 10000101)
        return false;
    *out = (bw_moment){.year = bw_number_digits(key[0], 4),
                       .month = bw_number_digits(key[0] + 4, 2),
                       .day = bw_number_digits(key[0] + 6, 2),
                       .hour = bw_moment_number(key[1])};
    return true;
}

/* "# 260:  5.180  52.100  1.90  NAME": east, north, height. */
static bw_status head(bw_record_reader *reader, char *line)
{
    double value[4];
    const char *at = line;
    for (int i = 0; i < 4; i++) {
        while (*at == '#' || *at == ' ' || *at == ':' || *at == '\t')
            at++;
        if (!bw_number_read(at, &value[i], &at))
            return BW_OK;
    }
    reader->record->has_position = reader->record->has_altitude = false;
    if (reader->places++ > 0)
        return BW_OK; /* of several: which is not known here */
    reader->record->has_altitude = true;
    reader->record->altitude = value[3];
    return bw_form_place(reader, value[2], value[1]);
}

const bw_form_of_hours bw_form_dutch = {
    .title = "the Dutch list of hours (layout from memory)",
    .times =
        "UTC, hours 1 to 24; rain, wind and sun are of the hour that ends, "
        "all else holds at its end; a trace of rain (-1) is 0.025 mm",
    .separator = ',',
    .ends = 1,
    .year_kind = BW_YEAR_MEASURED,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = moment,
    .head = head,
};
