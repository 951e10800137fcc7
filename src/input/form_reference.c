/* The German test reference year: columns parted by blanks, named above a line
 * of asterisks.
 *
 * Layout from memory, medium confidence; not tested with a published file.
 * Hours 1 to 24 end at their time, UTC + 1 h, without summer time; B is direct
 * radiation on the horizontal, D diffuse, A longwave from the sky [W/m2 of the
 * hour]; x g of water per kg of dry air, RF %, p hPa at the station, WG m/s.
 * The place is told in metres of a map's grid, which is not read. */

#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"MM", .is = BW_KEY_A, .needed = true},
    {"DD", .is = BW_KEY_B, .needed = true},
    {"HH", .is = BW_KEY_C, .needed = true},
    {"t", .is = BW_RECORD_TEMPERATURE, .needed = true},
    {"RF", .is = BW_RECORD_HUMIDITY},
    {"x", .is = BW_RAW_MIXING},
    {"p", .is = BW_RECORD_PRESSURE, .factor = 100.0},
    {"WG", .is = BW_RECORD_WIND},
    {"WR", .is = BW_RECORD_WIND_FROM, .missing = 990.0},
    {"B", .is = BW_RAW_BEAM_HORIZONTAL, .of_hour = true, .needed = true},
    {"D", .is = BW_RECORD_DIFFUSE, .of_hour = true, .needed = true},
    {"A", .is = BW_RECORD_LONGWAVE, .of_hour = true},
};

/* "Hoehenlage : 15 Meter", with o and e or an umlaut. */
static bw_status head(bw_record_reader *reader, char *line)
{
    double height = 0.0;
    if (!bw_form_fact(&height, line, "henlage"))
        return BW_OK;
    reader->record->has_altitude = true;
    reader->record->altitude = height;
    return BW_OK;
}

const bw_form_of_hours bw_form_reference = {
    .title = "the German test reference year (layout from memory)",
    .times = "UTC + 1 h, hours 1 to 24; sun and longwave are of the hour that "
             "ends, all else holds at its end",
    .separator = ' ',
    .any_year = true,
    .zone = 1.0,
    .ends = 1,
    .year_kind = BW_YEAR_TYPICAL,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = bw_moment_plain,
    .head = head,
};
