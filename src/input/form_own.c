/* The project's own hourly file (docs/climate.md), here with gaps. */

#include "fail.h"
#include "record_form.h"

static const bw_form_column COLUMN[] = {
    {"time", .is = BW_KEY_A, .needed = true},
    {"temperature_C", .is = BW_RECORD_TEMPERATURE, .needed = true},
    {"relative_humidity_pct", .is = BW_RECORD_HUMIDITY},
    {"vapour_pressure_Pa", .is = BW_RAW_VAPOUR},
    {"global_horizontal_W_m2", .is = BW_RAW_GLOBAL},
    {"direct_normal_W_m2", .is = BW_RECORD_DIRECT},
    {"diffuse_horizontal_W_m2", .is = BW_RECORD_DIFFUSE},
    {"longwave_down_W_m2", .is = BW_RECORD_LONGWAVE},
    {"wind_m_s", .is = BW_RECORD_WIND},
    {"wind_from_deg", .is = BW_RECORD_WIND_FROM},
    {"rain_mm", .is = BW_RECORD_RAIN},
    {"pressure_Pa", .is = BW_RECORD_PRESSURE},
};

static bool moment(bw_moment *out, char *const key[BW_KEYS])
{
    return bw_moment_iso(out, key[0]);
}

/* "# key: value", as for a climate that is checked. */
static bw_status head(bw_record_reader *reader, char *line)
{
    if (line[0] != '#')
        return BW_OK;
    reader->own.csv.line = reader->csv.line;
    BW_TRY(bw_climate_comment(&reader->own, line + 1));
    const bw_climate *told = reader->own.climate;
    bw_record *record = reader->record;
    record->has_altitude = told->has_altitude;
    record->altitude = told->altitude;
    if (reader->own.has_latitude && reader->own.has_longitude)
        return bw_form_place(reader, told->latitude, told->longitude);
    return BW_OK;
}

const bw_form_of_hours bw_form_own = {
    .title = "an hourly climate file of this program",
    .times =
        "UTC; sun, longwave and rain are of the hour that begins, all else "
        "holds at its time",
    .separator = ',',
    .any_year = true,
    .column = COLUMN,
    .columns = sizeof COLUMN / sizeof COLUMN[0],
    .moment = moment,
    .head = head,
};
