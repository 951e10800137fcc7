/* Twelve rows, one a month.
 *
 * Invariant: every month is there once; vapour pressures are positive and at
 * most saturation over water at the mean temperature. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "climate_reader.h"
#include "fail.h"
#include "number.h"

enum {
    M_TEMPERATURE,
    M_RH,
    M_VAPOUR,
    M_GLOBAL,
    M_WIND,
    M_RAIN,
    M_RAIN_WIND,
    M_WETTEST_DAY,
    M_GROUND,
    M_VERTICAL,
    M_ROSE = M_VERTICAL + BW_FACINGS,
    M_KINDS = M_ROSE + BW_FACINGS
};

/* Plausible ranges: estimates, wide. */
static const bw_column_kind KIND[M_KINDS] = {
    {"temperature_C", NULL, -70, -70, 50, 50, "degC"},
    {"relative_humidity_pct", NULL, 0, 0, 100, 105, "%"},
    {"vapour_pressure_Pa", NULL, 0, 0, 8000, 8000, "Pa"},
    {"global_horizontal_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"wind_m_s", NULL, 0, 0, 40, 40, "m/s"},
    {"rain_mm", NULL, 0, 0, 4000, 4000, "mm"},
    {"rain_wind_m_s", NULL, 0, 0, 40, 40, "m/s"},
    {"wettest_day_mm", NULL, 0, 0, 2000, 2000, "mm"},
    {"ground_temperature_C", NULL, -30, -30, 40, 40, "degC"},
    {"vertical_N_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_NE_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_E_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_SE_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_S_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_SW_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_W_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"vertical_NW_W_m2", NULL, 0, 0, 500, 500, "W/m2"},
    {"rain_from_N_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_NE_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_E_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_SE_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_S_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_SW_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_W_pct", NULL, 0, 0, 100, 100, "%"},
    {"rain_from_NW_pct", NULL, 0, 0, 100, 100, "%"},
};

/* Humidity this far above saturation is taken as saturation. */
static const double TOLERANCE = 1.05;
/* Below this relative humidity the unit is doubted. */
static const double DRIEST = 0.01;

_Static_assert((int)M_KINDS <= (int)BW_MOST_KINDS, "room for every column");

struct monthly {
    bw_columns columns;
    long line[BW_MONTHS]; /* 0: not there */
    double value[BW_MONTHS][M_KINDS];
};

static bw_status which_month(int *out, const struct monthly *table,
                             bw_climate_reader *reader)
{
    const char *text = reader->csv.field[table->columns.key], *end = text;
    double number = 0.0;
    if (!bw_number_read(text, &number, &end) || *end != '\0' || number < 1.0 ||
        number > 12.0 || number != floor(number))
        return BW_REFUSE(reader, reader->csv.line,
                         "month: '%.60s' is not a whole number from 1 to 12",
                         text);
    *out = (int)number - 1;
    if (table->line[*out] != 0)
        return BW_REFUSE(reader, reader->csv.line,
                         "month %d is given twice; it stands in line %ld too",
                         *out + 1, table->line[*out]);
    return BW_OK;
}

static bw_status read_rows(struct monthly *table, bw_climate_reader *reader)
{
    while (bw_csv_next(&reader->csv)) {
        if (reader->csv.text[0] == '\0' || reader->csv.text[0] == '#')
            continue;
        int month = 0;
        BW_TRY(bw_columns_row(&table->columns, reader));
        BW_TRY(which_month(&month, table, reader));
        table->line[month] = reader->csv.line;
        for (int k = 0; k < M_KINDS; k++) {
            if (!bw_columns_has(&table->columns, k))
                continue;
            double *value = &table->value[month][k];
            BW_TRY(bw_columns_value(value, &table->columns, k, reader));
            if (isnan(*value))
                return BW_REFUSE(reader, reader->csv.line, "%s: no value%s",
                                 KIND[k].name,
                                 k > M_VAPOUR ? "; leave the column out if it "
                                                "is not known for every month"
                                              : "");
        }
    }
    return BW_OK;
}

static bw_status check_complete(const struct monthly *table,
                                bw_climate_reader *reader)
{
    char missing[64] = "";
    size_t used = 0;
    int count = 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        if (table->line[m] != 0)
            continue;
        used += (size_t)snprintf(missing + used, sizeof missing - used, "%s%d",
                                 count > 0 ? ", " : "", m + 1);
        count++;
    }
    if (count == 0)
        return BW_OK;
    return BW_REFUSE(reader, reader->csv.line,
                     "the file ends with %d of 12 months; missing: month%s %s",
                     BW_MONTHS - count, count > 1 ? "s" : "", missing);
}

static bw_status check_humidity(const struct monthly *table,
                                bw_climate_reader *reader)
{
    bool rh = bw_columns_has(&table->columns, M_RH);
    bool vapour = bw_columns_has(&table->columns, M_VAPOUR);
    if (!bw_columns_has(&table->columns, M_TEMPERATURE))
        return BW_REFUSE(reader, table->columns.header_line,
                         "no column 'temperature_C'");
    if (rh == vapour)
        return BW_REFUSE(reader, table->columns.header_line,
                         "give either 'relative_humidity_pct' or "
                         "'vapour_pressure_Pa'; the file has %s",
                         rh ? "both" : "neither");
    return BW_OK;
}

static bw_status check_fraction(const struct monthly *table,
                                bw_climate_reader *reader)
{
    if (!bw_columns_has(&table->columns, M_RH))
        return BW_OK;
    for (int m = 0; m < BW_MONTHS; m++)
        if (table->value[m][M_RH] > TOLERANCE)
            return BW_OK;
    return BW_REFUSE(
        reader, table->line[0],
        "relative_humidity_pct: no value is above 1.05; this looks "
        "like a fraction, per cent are wanted (0 to 100 %%)");
}

/* The sum of the rounded shares may be this far from 100 [%]. */
static const double ROUNDED = 1.0;

static bw_status check_rain(const struct monthly *table,
                            bw_climate_reader *reader)
{
    const bw_columns *columns = &table->columns;
    int roses = 0;
    for (int f = 0; f < BW_FACINGS; f++)
        roses += bw_columns_has(columns, M_ROSE + f);
    if (roses != 0 && roses != BW_FACINGS)
        return BW_REFUSE(reader, columns->header_line,
                         "rain_from_N_pct to rain_from_NW_pct are of use "
                         "together only; the file has %d of 8",
                         roses);
    for (int m = 0; m < BW_MONTHS; m++) {
        const double *value = table->value[m];
        double sum = 0.0, days = bw_month_seconds(m) / 86400.0;
        for (int f = 0; f < BW_FACINGS; f++)
            sum += value[M_ROSE + f];
        if (roses != 0 && fabs(sum - 100.0) > ROUNDED)
            return BW_REFUSE(reader, table->line[m],
                             "rain_from_N_pct to rain_from_NW_pct: their sum "
                             "is %s, not 100 %%",
                             BW_G(sum));
        double day = value[M_WETTEST_DAY], rain = value[M_RAIN];
        if (bw_columns_has(columns, M_WETTEST_DAY) &&
            bw_columns_has(columns, M_RAIN) &&
            (day > rain || day * days < 0.999 * rain))
            return BW_REFUSE(reader, table->line[m],
                             "wettest_day_mm: %s mm cannot be the wettest of "
                             "%s days with %s mm together",
                             BW_G(day), BW_G(days), BW_G(rain));
    }
    return BW_OK;
}

static bw_status vapour_pressure(double *out, const struct monthly *table,
                                 int m, bw_climate_reader *reader)
{
    double theta = table->value[m][M_TEMPERATURE];
    double most = bw_saturation_pressure_water(theta);
    long line = table->line[m];
    if (bw_columns_has(&table->columns, M_RH)) {
        double phi = table->value[m][M_RH] / 100.0;
        if (phi < DRIEST)
            return BW_REFUSE(reader, line,
                             "relative_humidity_pct: %s lies outside 1 to 100 "
                             "%%",
                             BW_G(table->value[m][M_RH]));
        *out = bw_vapour_pressure(theta, phi,
                                  reader->climate->humidity_reference);
        return BW_OK;
    }
    double p = table->value[m][M_VAPOUR];
    if (p > most * TOLERANCE)
        return BW_REFUSE(reader, line,
                         "vapour_pressure_Pa: %s is above saturation at %s "
                         "degC (%s Pa over water)",
                         BW_G(p), BW_G(theta), BW_G(most));
    if (p < DRIEST * most)
        return BW_REFUSE(reader, line,
                         "vapour_pressure_Pa: %s is less than 1 %% of "
                         "saturation at %s degC (is it in hPa or kPa?)",
                         BW_G(p), BW_G(theta));
    *out = fmin(p, most);
    if (p > most)
        return bw_climate_add_note(reader->climate, reader->err, BW_NOTE_INFO,
                                   line,
                                   "vapour_pressure_Pa: %s is slightly above "
                                   "saturation and taken as %s Pa",
                                   BW_G(p), BW_G(most));
    return BW_OK;
}

static void store_rain(bw_climate_month *month, const bw_columns *columns,
                       const double value[M_KINDS])
{
    double sum = 0.0;
    month->has_rain = bw_columns_has(columns, M_RAIN);
    month->rain = value[M_RAIN];
    month->has_rain_wind = bw_columns_has(columns, M_RAIN_WIND);
    month->rain_wind = value[M_RAIN_WIND];
    month->has_wettest_day = bw_columns_has(columns, M_WETTEST_DAY);
    month->wettest_day = value[M_WETTEST_DAY];
    month->has_rain_rose = bw_columns_has(columns, M_ROSE);
    for (int f = 0; f < BW_FACINGS; f++)
        sum += value[M_ROSE + f];
    for (int f = 0; f < BW_FACINGS && sum > 0.0; f++)
        month->rain_rose[f] = value[M_ROSE + f] / sum;
}

static bw_status store(const struct monthly *table, bw_climate_reader *reader)
{
    const bw_columns *columns = &table->columns;
    for (int m = 0; m < BW_MONTHS; m++) {
        const double *value = table->value[m];
        bw_climate_month *month = &reader->climate->month[m];
        month->temperature = value[M_TEMPERATURE];
        BW_TRY(vapour_pressure(&month->vapour_pressure, table, m, reader));
        month->has_global = bw_columns_has(columns, M_GLOBAL);
        month->global_horizontal = value[M_GLOBAL];
        month->has_ground = bw_columns_has(columns, M_GROUND);
        month->ground_temperature = value[M_GROUND];
        month->has_wind = bw_columns_has(columns, M_WIND);
        month->wind = value[M_WIND];
        store_rain(month, columns, value);
        for (int f = 0; f < BW_FACINGS; f++) {
            month->has_vertical[f] = bw_columns_has(columns, M_VERTICAL + f);
            month->vertical[f] = value[M_VERTICAL + f];
        }
    }
    return BW_OK;
}

bw_status bw_climate_monthly(bw_climate_reader *reader)
{
    struct monthly table = {.columns = {.kind = KIND, .kinds = M_KINDS}};
    BW_TRY(bw_columns_match(&table.columns, reader, "month"));
    BW_TRY(check_humidity(&table, reader));
    BW_TRY(read_rows(&table, reader));
    BW_TRY(check_complete(&table, reader));
    BW_TRY(check_fraction(&table, reader));
    BW_TRY(check_rain(&table, reader));
    BW_TRY(bw_columns_finish(&table.columns, reader));
    reader->climate->kind = BW_CLIMATE_MONTHLY;
    return store(&table, reader);
}
