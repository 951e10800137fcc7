/* Rows of hours, placed by month, day and hour: the year does not count, as
 * the months of a typical year come from different years.
 *
 * Invariant: after reading every hour has at most one row; February 29th has
 * none. */

#include <math.h>
#include <string.h>

#include "climate_reader.h"
#include "fail.h"
#include "number.h"

/* Plausible ranges: estimates, wide; of the direct sun what it has outside the
 * atmosphere in January, which parting a global one may come to. */
static const bw_column_kind KIND[BW_H_KINDS] = {
    {"temperature_C", "T2m", -90, -90, 60, 60, "degC"},
    {"relative_humidity_pct", "RH", 0, 0, 100, 105, "%"},
    {"vapour_pressure_Pa", NULL, 0, 0, 8000, 8000, "Pa"},
    {"global_horizontal_W_m2", "G(h)", -10, 0, 1600, 1600, "W/m2"},
    {"direct_normal_W_m2", "Gb(n)", -10, 0, 1410, 1410, "W/m2"},
    {"diffuse_horizontal_W_m2", "Gd(h)", -10, 0, 1200, 1200, "W/m2"},
    {"longwave_down_W_m2", "IR(h)", 50, 50, 700, 700, "W/m2"},
    {"wind_m_s", "WS10m", -1, 0, 80, 80, "m/s"},
    {"wind_from_deg", "WD10m", 0, 0, 360, 360, "degrees"},
    {"rain_mm", NULL, 0, 0, 400, 400, "mm"},
    {"pressure_Pa", "SP", 45000, 45000, 110000, 110000, "Pa"},
};

struct moment {
    int month, day, hour, minute; /* month and day from 1 */
};

/* "2017-01-31T05:00Z", "2017-01-31 05:00:00", "20170131:0500". */
static bool parse_time(struct moment *out, const char *text)
{
    size_t n = strlen(text);
    bool dashes = n >= 16 && text[4] == '-' && text[7] == '-';
    const char *end = NULL;
    if (dashes && (text[10] == 'T' || text[10] == ' ') && text[13] == ':') {
        out->month = bw_number_digits(text + 5, 2);
        out->day = bw_number_digits(text + 8, 2);
        out->hour = bw_number_digits(text + 11, 2);
        out->minute = bw_number_digits(text + 14, 2);
        end = text + 16;
        if (strncmp(end, ":00", 3) == 0)
            end += 3;
        if (*end == 'Z')
            end++;
    } else if (n >= 13 && text[8] == ':') {
        out->month = bw_number_digits(text + 4, 2);
        out->day = bw_number_digits(text + 6, 2);
        out->hour = bw_number_digits(text + 9, 2);
        out->minute = bw_number_digits(text + 11, 2);
        end = text + 13;
    }
    return end != NULL && *end == '\0' && bw_number_digits(text, 4) >= 0;
}

static bw_status find_hour(int *out, bool *leap_day, bw_climate_reader *reader,
                           const char *text)
{
    struct moment at = {0};
    if (!parse_time(&at, text))
        return BW_REFUSE(reader, reader->csv.line,
                         "time: '%.60s' is not a time in UTC like "
                         "2017-01-31T05:00Z",
                         text);
    *leap_day = at.month == 2 && at.day == 29;
    bool valid = at.month >= 1 && at.month <= BW_MONTHS && at.day >= 1 &&
                 at.hour >= 0 && at.hour <= 23;
    int first = valid ? bw_month_first_hour(at.month - 1) : 0;
    int days = valid ? (bw_month_first_hour(at.month) - first) / 24 : 0;
    if (!valid || (at.day > days && !*leap_day))
        return BW_REFUSE(reader, reader->csv.line,
                         "time: '%.60s' is no moment of a year (hours run from "
                         "00 to 23)",
                         text);
    if (at.minute != 0)
        return BW_REFUSE(reader, reader->csv.line,
                         "time: '%.60s' is not on the hour; one row an hour is "
                         "wanted",
                         text);
    *out = first + 24 * (at.day - 1) + at.hour;
    return BW_OK;
}

static bw_status read_row(bw_hour_table *table, int hour,
                          bw_climate_reader *reader)
{
    if (table->line[hour] != 0)
        return BW_REFUSE(reader, reader->csv.line,
                         "time: this hour is given twice; it stands in line "
                         "%ld too (the year does not count: one year is "
                         "wanted)",
                         table->line[hour]);
    table->line[hour] = reader->csv.line;
    table->rows++;
    for (int k = 0; k < BW_H_KINDS; k++)
        if (bw_columns_has(&table->columns, k))
            BW_TRY(bw_columns_value(&table->value[k][hour], &table->columns, k,
                                    reader));
    return BW_OK;
}

/* Behind the rows of the public TMY file stand notes to people. */
static bool is_note(const bw_climate_reader *reader, const char *text)
{
    return reader->public_tmy && (text[0] < '0' || text[0] > '9');
}

static bw_status read_rows(bw_hour_table *table, bw_climate_reader *reader)
{
    size_t leap_hours = 0;
    long leap_line = 0;
    while (bw_csv_next(&reader->csv)) {
        const char *text = reader->csv.text;
        if (text[0] == '\0' || text[0] == '#' || is_note(reader, text))
            continue;
        int hour = 0;
        bool leap_day = false;
        BW_TRY(bw_columns_row(&table->columns, reader));
        BW_TRY(find_hour(&hour, &leap_day, reader,
                         reader->csv.field[table->columns.key]));
        if (!leap_day) {
            BW_TRY(read_row(table, hour, reader));
        } else if (leap_hours++ == 0) {
            leap_line = reader->csv.line;
        }
    }
    if (leap_hours == 0)
        return BW_OK;
    return bw_climate_add_note(
        reader->climate, reader->err, BW_NOTE_INFO, leap_line,
        "February 29th is left out (%zu rows)", leap_hours);
}

static bw_status check_columns(const bw_hour_table *table,
                               bw_climate_reader *reader)
{
    const bw_columns *columns = &table->columns;
    bool rh = bw_columns_has(columns, BW_H_RH);
    bool vapour = bw_columns_has(columns, BW_H_VAPOUR);
    bool direct = bw_columns_has(columns, BW_H_DIRECT);
    bool diffuse = bw_columns_has(columns, BW_H_DIFFUSE);
    if (!bw_columns_has(columns, BW_H_TEMPERATURE))
        return BW_REFUSE(reader, columns->header_line, "no column '%s'",
                         reader->public_tmy ? "T2m" : "temperature_C");
    if (rh == vapour && reader->public_tmy)
        return BW_REFUSE(reader, columns->header_line, "no column 'RH'");
    if (rh == vapour)
        return BW_REFUSE(reader, columns->header_line,
                         "give either 'relative_humidity_pct' or "
                         "'vapour_pressure_Pa'; the file has %s",
                         rh ? "both" : "neither");
    const char *beam = reader->public_tmy ? KIND[BW_H_DIRECT].public_name
                                          : KIND[BW_H_DIRECT].name;
    const char *sky = reader->public_tmy ? KIND[BW_H_DIFFUSE].public_name
                                         : KIND[BW_H_DIFFUSE].name;
    if (direct != diffuse)
        return BW_REFUSE(reader, columns->header_line,
                         "'%s' and '%s' are of use together only; '%s' is "
                         "missing: leave it out, or let bothways climate take "
                         "both from another file",
                         beam, sky, direct ? sky : beam);
    return BW_OK;
}

/* A year that never gets moister than this share of saturation is in another
 * unit: a fraction, hPa or kPa, each up to 5 % over its saturation. */
static const double DRIEST_YEAR = 0.0105;

static bw_status check_unit(const bw_hour_table *table,
                            bw_climate_reader *reader)
{
    const double *rh = table->value[BW_H_RH];
    long first = 0;
    for (int h = 0; h < BW_HOURS; h++) {
        double theta = table->value[BW_H_TEMPERATURE][h];
        double most = rh != NULL ? 100.0 : bw_saturation_pressure_water(theta);
        double is = rh != NULL ? rh[h] : table->value[BW_H_VAPOUR][h];
        if (is > DRIEST_YEAR * most)
            return BW_OK;
        if (first == 0)
            first = table->line[h];
    }
    if (rh == NULL)
        return BW_REFUSE(reader, first,
                         "vapour_pressure_Pa: no hour has more than 1 %% of "
                         "saturation (is it in hPa or kPa?)");
    return BW_REFUSE(
        reader, first,
        "%s: no value is above 1.05; this looks like a fraction, per "
        "cent are wanted (0 to 100 %%)",
        reader->public_tmy ? "RH" : "relative_humidity_pct");
}

static bw_status read_table(bw_hour_table *table, bw_arena *scratch,
                            bw_climate_reader *reader)
{
    table->columns = (bw_columns){.kind = KIND, .kinds = BW_H_KINDS};
    BW_TRY(bw_columns_match(&table->columns, reader,
                            reader->public_tmy ? "time(UTC)" : "time"));
    BW_TRY(check_columns(table, reader));
    for (int k = 0; k < BW_H_KINDS; k++) {
        if (!bw_columns_has(&table->columns, k))
            continue;
        table->value[k] = BW_NEW(scratch, double, BW_HOURS);
        BW_TRY_MEMORY(table->value[k] != NULL, reader->err);
        for (int h = 0; h < BW_HOURS; h++)
            table->value[k][h] = (double)NAN;
    }
    BW_TRY(read_rows(table, reader));
    BW_TRY(bw_columns_finish(&table->columns, reader));
    BW_TRY(bw_hours_repair(table, reader));
    BW_TRY(check_unit(table, reader));
    return bw_hours_store(table, reader);
}

bw_status bw_climate_hourly(bw_climate_reader *reader)
{
    bw_arena scratch = {0};
    bw_hour_table *table = BW_NEW(&scratch, bw_hour_table, 1);
    bw_status status = table != NULL ? read_table(table, &scratch, reader)
                                     : bw_fail_memory(reader->err);
    bw_arena_release(&scratch);
    return status;
}
