/* The Irish CSV of a station's hours: as published, with a head and times like
 * 01-jan-2017 00:00 (from memory, high confidence), and as packed for
 * statistics with ISO times (tested with two stations of 2017).
 *
 * temp degC, rhum %, rain mm of the hour that ends (from memory), msl hPa at
 * sea level, wdsp knots of 1852 m/h, wddir degrees; UTC. */

#include <string.h>
#include <strings.h>

#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"date", .is = BW_KEY_A, .needed = true},
    {"time", .is = BW_KEY_A, .needed = true},
    {"temp", .is = BW_RECORD_TEMPERATURE, .needed = true},
    {"rhum", .is = BW_RECORD_HUMIDITY, .needed = true},
    {"rain", .is = BW_RECORD_RAIN, .of_hour = true, .needed = true},
    {"msl", .is = BW_RAW_SEA_PRESSURE, .factor = 100.0},
    {"wdsp", .is = BW_RECORD_WIND, .factor = 1852.0 / 3600.0},
    {"wddir", .is = BW_RECORD_WIND_FROM},
};

/* "01-jan-2017 00:00", or ISO. */
static bool moment(bw_moment *out, char *const key[BW_KEYS])
{
    const char *text = key[0];
    if (strlen(text) != 17 || text[2] != '-' || text[6] != '-' ||
        text[14] != ':')
        return bw_moment_iso(out, text);
    *out = (bw_moment){.year = bw_number_digits(text + 7, 4),
                       .day = bw_number_digits(text, 2),
                       .hour = bw_number_digits(text + 12, 2),
                       .minute = bw_number_digits(text + 15, 2)};
    for (int m = 0; m < BW_MONTHS; m++)
        if (strncasecmp(text + 3, bw_month_name(m), 3) == 0)
            out->month = m + 1;
    return true;
}

/* "Station Height: 9 M", "Latitude:51.940 ,Longitude: -10.240". */
static bw_status head(bw_record_reader *reader, char *line)
{
    double latitude = 0.0, longitude = 0.0, height = 0.0;
    if (bw_form_fact(&height, line, "Station Height")) {
        reader->record->has_altitude = true;
        reader->record->altitude = height;
    }
    if (bw_form_fact(&latitude, line, "Latitude") &&
        bw_form_fact(&longitude, line, "Longitude"))
        return bw_form_place(reader, latitude, longitude);
    return BW_OK;
}

const bw_form_of_hours bw_form_irish = {
    .title = "the Irish list of hours",
    .times = "UTC; rain is of the hour that ends (from memory), all else holds "
             "at its time",
    .separator = ',',
    .ends = 1,
    .year_kind = BW_YEAR_MEASURED,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = moment,
    .head = head,
};
