/* Climates that are read whole already (climate_read.c): the public typical
 * year, tested with two published files, and monthly means, whose generated
 * hours give their sun. */

#include "fail.h"
#include "record_form.h"
#include "record_make.h"

static bw_status take_notes(bw_record_reader *reader, const bw_climate *climate)
{
    BW_TRY(bw_record_origin(reader, climate));
    for (size_t i = 0; i < climate->note_count; i++)
        BW_TRY(bw_record_note(reader->record, reader->err, "%s",
                              climate->note[i].message));
    return BW_OK;
}

static double of(const bw_climate_hour *hour, int quantity)
{
    switch (quantity) {
    case BW_RECORD_TEMPERATURE:
        return hour->temperature;
    case BW_RECORD_HUMIDITY:
        return 100.0 * hour->vapour_pressure /
               bw_saturation_pressure_water(hour->temperature);
    case BW_RECORD_DIRECT:
        return hour->direct_normal;
    case BW_RECORD_DIFFUSE:
        return hour->diffuse_horizontal;
    case BW_RECORD_LONGWAVE:
        return hour->longwave_down;
    case BW_RECORD_WIND:
        return hour->wind;
    case BW_RECORD_WIND_FROM:
        return hour->wind_from;
    case BW_RECORD_RAIN:
        return hour->rain;
    default:
        return hour->pressure;
    }
}

static bw_status take(bw_record_reader *reader, const bw_climate *climate)
{
    bw_record *record = reader->record;
    const bw_hourly_columns *has = &climate->columns;
    const bool given[BW_RECORD_COUNT] = {
        [BW_RECORD_TEMPERATURE] = true,
        [BW_RECORD_HUMIDITY] = true,
        [BW_RECORD_DIRECT] = has->solar,
        [BW_RECORD_DIFFUSE] = has->solar,
        [BW_RECORD_LONGWAVE] = has->longwave,
        [BW_RECORD_WIND] = has->wind,
        [BW_RECORD_WIND_FROM] = has->wind_from,
        [BW_RECORD_RAIN] = has->rain,
        [BW_RECORD_PRESSURE] = has->pressure,
    };
    for (int q = 0; q < BW_RECORD_COUNT; q++) {
        if (!given[q])
            continue;
        double *column = bw_record_column(record);
        BW_TRY_MEMORY(column != NULL, reader->err);
        for (int h = 0; h < BW_HOURS; h++)
            column[h] = of(&climate->hour[h], q);
        record->value[q] = column;
    }
    if (climate->has_position) {
        record->has_position = true;
        record->latitude = climate->latitude;
        record->longitude = climate->longitude;
    }
    record->has_altitude = climate->has_altitude;
    record->altitude = climate->altitude;
    record->sun_offset = climate->time_offset;
    return take_notes(reader, climate);
}

static bw_status read_public(bw_record_reader *reader, const char *text)
{
    bw_climate *climate = NULL;
    BW_TRY(bw_climate_read_text(&climate, text, reader->path, reader->err));
    bw_status status = take(reader, climate);
    bw_climate_free(climate);
    return status;
}

static bw_status read_months(bw_record_reader *reader, const char *text)
{
    bw_climate *months = NULL, *climate = NULL;
    BW_TRY(bw_climate_read_text(&months, text, reader->path, reader->err));
    bw_status status = bw_climate_generate(&climate, months, reader->err);
    bw_climate_free(months);
    if (status != BW_OK)
        return status;
    reader->record->generated = true;
    status = take(reader, climate);
    bw_climate_free(climate);
    if (status != BW_OK)
        return status;
    return bw_record_note(reader->record, reader->err,
                          "generated hours; sun and longwave alone are taken, "
                          "so that the months' sun is met");
}

static const bw_form_column PUBLIC[] = {
    {"time(UTC)", .is = BW_KEY_A, .needed = true},
    {"T2m", .is = BW_RECORD_TEMPERATURE, .needed = true},
};

static const bw_form_column MONTHS[] = {
    {"month", .is = BW_KEY_A, .needed = true},
    {"temperature_C", .is = BW_RECORD_TEMPERATURE, .needed = true},
};

const bw_form_of_hours bw_form_public = {
    .title = "the public typical year of the European Commission's PV service",
    .times = "UTC; the sun's moment as the file says or as it closes, all else "
             "at the full hour",
    .separator = ',',
    .year_kind = BW_YEAR_TYPICAL,
    .column = PUBLIC,
    .columns = sizeof PUBLIC / sizeof PUBLIC[0],
    .whole = read_public,
};

const bw_form_of_hours bw_form_months = {
    .title = "monthly means of this program",
    .times = "UTC; hours are generated from the months",
    .separator = ',',
    .year_kind = BW_YEAR_TYPICAL,
    .column = MONTHS,
    .columns = sizeof MONTHS / sizeof MONTHS[0],
    .whole = read_months,
};
