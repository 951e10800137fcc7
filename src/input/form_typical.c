/* Typical years of the North American kind: the CSV with named columns, and
 * the weather file of building simulation that begins with LOCATION.
 *
 * Layouts from memory, high confidence; not tested with a published file. Both:
 * the hour 1 to 24 ends at its time, in the standard time that the head tells
 * in hours from UTC; radiation is of that hour [Wh/m2 = W/m2], all else holds
 * at its end. Wind in m/s; pressure in mbar (CSV) or Pa. The CSV's rain,
 * missing in most hours and of several hours in others, is not used. */

#include <string.h>

#include "fail.h"
#include "record_form.h"

static const char TIMES[] = "the file's standard time, hours 1 to 24; sun, "
                            "longwave and rain are of the "
                            "hour that ends, all else holds at its end";

static bool number_at(double *out, char *const *field, size_t fields, size_t at)
{
    const char *end = NULL;
    return at < fields && bw_number_read(field[at], out, &end) && *end == '\0';
}

/* Latitude, longitude, offset and height in a comma-separated head line. */
static bw_status place(bw_record_reader *reader, char *line, size_t latitude,
                       size_t zone, size_t height)
{
    size_t fields = 0;
    double value[4] = {0.0};
    const size_t at[4] = {latitude, latitude + 1, zone, height};
    bw_csv_split_at(line, ',', reader->field, BW_FORM_FIELDS, &fields);
    for (size_t i = 0; i < 4; i++)
        if (!number_at(&value[i], reader->field, fields, at[i]))
            return BW_REFUSE(reader, reader->csv.line,
                             "field %zu is to be a number: the head tells "
                             "latitude, longitude, offset from UTC and height",
                             at[i] + 1);
    reader->record->has_altitude = true;
    reader->record->altitude = value[3];
    BW_TRY(bw_form_zone(reader, value[2]));
    return bw_form_place(reader, value[0], value[1]);
}

/* ---- CSV: code,"name",state,offset,latitude,longitude,height ------------ */

static bw_status typical_head(bw_record_reader *reader, char *line)
{
    return place(reader, line, 4, 3, 6);
}

/* "01/31/1988", "24:00". */
static bool typical_moment(bw_moment *out, char *const key[BW_KEYS])
{
    if (strlen(key[0]) != 10 || strlen(key[1]) != 5 || key[1][2] != ':')
        return false;
    *out = (bw_moment){.month = bw_number_digits(key[0], 2),
                       .day = bw_number_digits(key[0] + 3, 2),
                       .hour = bw_number_digits(key[1], 2),
                       .minute = bw_number_digits(key[1] + 3, 2)};
    return true;
}

static const bw_form_column TYPICAL[] = {
    {"Date (MM/DD/YYYY)", .is = BW_KEY_A, .needed = true},
    {"Time (HH:MM)", .is = BW_KEY_B, .needed = true},
    {"Dry-bulb (C)", .is = BW_RECORD_TEMPERATURE, .missing = -9900,
     .needed = true},
    {"RHum (%)", .is = BW_RECORD_HUMIDITY, .missing = -9900},
    {"DNI (W/m^2)", .is = BW_RECORD_DIRECT, .missing = -9900, .of_hour = true},
    {"DHI (W/m^2)", .is = BW_RECORD_DIFFUSE, .missing = -9900, .of_hour = true},
    {"Wspd (m/s)", .is = BW_RECORD_WIND, .missing = -9900},
    {"Wdir (degrees)", .is = BW_RECORD_WIND_FROM, .missing = -9900},
    {"Pressure (mbar)", .is = BW_RECORD_PRESSURE, .factor = 100.0,
     .missing = -9900},
};

const bw_form_of_hours bw_form_typical = {
    .title = "a typical year with named columns, MM/DD/YYYY (layout from "
             "memory)",
    .times = TIMES,
    .separator = ',',
    .any_year = true,
    .zone_told = true,
    .ends = 1,
    .year_kind = BW_YEAR_TYPICAL,
    .column = TYPICAL,
    .columns = sizeof TYPICAL / sizeof TYPICAL[0],
    .moment = typical_moment,
    .head = typical_head,
};

/* ---- LOCATION,city,state,country,source,code,latitude,longitude,offset,height
 */

static bw_status location_head(bw_record_reader *reader, char *line)
{
    if (strncmp(line, "LOCATION,", 9) != 0)
        return BW_OK;
    return place(reader, line, 6, 8, 9);
}

static const bw_form_column LOCATION[] = {
    {"month", 2, .is = BW_KEY_A, .needed = true},
    {"day", 3, .is = BW_KEY_B, .needed = true},
    {"hour", 4, .is = BW_KEY_C, .needed = true},
    {"dry-bulb temperature", 7, .is = BW_RECORD_TEMPERATURE, .missing = 99.9,
     .needed = true},
    {"relative humidity", 9, .is = BW_RECORD_HUMIDITY, .missing = 999.0,
     .needed = true},
    {"pressure", 10, .is = BW_RECORD_PRESSURE, .missing = 999999.0},
    {"infrared from the sky", 13, .is = BW_RECORD_LONGWAVE, .missing = 9999.0,
     .of_hour = true},
    {"direct normal", 15, .is = BW_RECORD_DIRECT, .missing = 9999.0,
     .of_hour = true},
    {"diffuse horizontal", 16, .is = BW_RECORD_DIFFUSE, .missing = 9999.0,
     .of_hour = true},
    {"wind direction", 21, .is = BW_RECORD_WIND_FROM, .missing = 999.0},
    {"wind speed", 22, .is = BW_RECORD_WIND, .missing = 999.0},
};

const bw_form_of_hours bw_form_location = {
    .title = "a weather file that begins with LOCATION (layout from memory)",
    .times = TIMES,
    .separator = ',',
    .header = "DATA PERIODS,",
    .any_year = true,
    .zone_told = true,
    .ends = 1,
    .year_kind = BW_YEAR_TYPICAL,
    .column = LOCATION,
    .columns = sizeof LOCATION / sizeof LOCATION[0],
    .moment = bw_moment_plain,
    .head = location_head,
};
