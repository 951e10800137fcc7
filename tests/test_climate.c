/* Monthly climate files, what is refused, and irradiance from their columns. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate_help.h"
#include "suite.h"

START_TEST(monthly_file_gives_vapour_pressures)
{
    /* The example climate's p_e, recomputed independently from ISO 13788's
     * formula [reference table of this project's standards notes, derived];
     * only months at or above 0 degC, where no reference matters. */
    static const double p_e[BW_MONTHS] = {0,    513,  634,  826,  1086, 1423,
                                          1603, 1647, 1346, 1019, 767,  578};
    bw_climate *climate = read_good(HEADER "1,-1,85\n" MONTHS_FROM_FEB);
    ck_assert_int_eq(climate->kind, BW_CLIMATE_MONTHLY);
    for (int m = 1; m < BW_MONTHS; m++)
        ck_assert_double_eq_tol(climate->month[m].vapour_pressure, p_e[m],
                                0.51);
    ck_assert(!climate->month[0].has_rain && !climate->month[0].has_global);
    ck_assert_uint_eq(climate->hour_count, 0);
    ck_assert_uint_eq(climate->note_count, 0);
    bw_climate_free(climate);
}
END_TEST

START_TEST(frost_humidity_is_over_water_unless_the_header_says_ice)
{
    bw_climate *water = read_good(HEADER "1,-10,80\n" MONTHS_FROM_FEB);
    bw_climate *ice = read_good("# humidity-reference: ice\n" HEADER
                                "1,-10,80\n" MONTHS_FROM_FEB);
    /* IAPWS: 286.432 Pa over supercooled water, 259.874 Pa over ice at -10
     * degC [computed with a public steam-table library]. The formulas of ISO
     * 13788 lie up to 0.5 % lower. */
    ck_assert_double_eq_tol(water->month[0].vapour_pressure / (0.8 * 286.432),
                            1.0, 0.005);
    ck_assert_double_eq_tol(ice->month[0].vapour_pressure / (0.8 * 259.874),
                            1.0, 0.005);
    ck_assert_int_eq(water->humidity_reference, BW_OVER_WATER);
    ck_assert_int_eq(ice->humidity_reference, BW_OVER_ICE);
    bw_climate_free(water);
    bw_climate_free(ice);
}
END_TEST

START_TEST(vapour_above_saturation_over_ice_is_accepted_in_frost)
{
    /* 280 Pa at -10 degC: between ice (259.9) and water (286.4). */
    bw_climate *climate = read_good(
        "month,temperature_C,vapour_pressure_Pa\n1,-10,280\n2,0,500\n"
        "3,4,600\n4,9,800\n5,14,1000\n6,18,1400\n7,19,1600\n8,19,1600\n"
        "9,15,1300\n10,10,1000\n11,5,700\n12,1,660\n");
    ck_assert_double_eq(climate->month[0].vapour_pressure, 280.0);
    /* 660 Pa at 1 degC is 0.6 % above saturation: taken down, and said. */
    ck_assert_double_eq_tol(climate->month[11].vapour_pressure, 656.4, 0.05);
    ck_assert_ptr_nonnull(note_with(climate, "slightly above saturation"));
    bw_climate_free(climate);
}
END_TEST

/* A column may be the first, whichever it is. */
static const char *const orders[] = {"temperature_C,vapour_pressure_Pa,month",
                                     "vapour_pressure_Pa,month,temperature_C",
                                     "month,temperature_C,vapour_pressure_Pa"};

START_TEST(columns_stand_in_any_order)
{
    char text[1024];
    int length = snprintf(text, sizeof text, "%s\n", orders[_i]);
    for (int m = 1; m <= BW_MONTHS; m++) {
        const int value[3][3] = {
            {m + 10, m + 600, m}, {m + 600, m, m + 10}, {m, m + 10, m + 600}};
        length += snprintf(text + length, sizeof text - (size_t)length,
                           "%d,%d,%d\n", value[_i][0], value[_i][1],
                           value[_i][2]);
    }
    bw_climate *climate = read_good(text);
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_double_eq(climate->month[m].temperature, m + 11.0);
        ck_assert_double_eq(climate->month[m].vapour_pressure, m + 601.0);
    }
    bw_climate_free(climate);
}
END_TEST

START_TEST(header_lines_are_understood)
{
    bw_climate *climate = read_good(
        "# A line for people.\r\n# place: Somewhere\r\n#source: nobody\r\n"
        "# licence: free\r\n# remark: invented\r\n# remark: twice\r\n"
        "# altitude: 86 m\r\n# latitude: 55.5\r\n# longitude: -4\r\n"
        "# prevailing-wind: 240 degrees\r\n\r\n"
        "Month, temperature_C ,relative_humidity_pct\r\n1,-1,85\r\n"
        "2,0,84\r\n3,4,78\r\n\"4\",9,72\r\n5,14,68\r\n6,18,69\r\n7,19,73\r\n"
        "8,19,75\r\n# between\r\n12,1,88\r\n9,15,79\r\n10,10,83\r\n"
        "11,5,103\r\n");
    ck_assert_str_eq(climate->place, "Somewhere");
    ck_assert_str_eq(climate->source, "nobody");
    ck_assert_str_eq(climate->licence, "free");
    ck_assert_str_eq(climate->remark, "invented twice");
    ck_assert(climate->has_altitude && climate->altitude == 86.0);
    ck_assert(climate->has_position && climate->latitude == 55.5 &&
              climate->longitude == -4.0);
    ck_assert(climate->has_prevailing_wind &&
              climate->prevailing_wind == 240.0);
    ck_assert_double_eq(climate->month[11].temperature, 1.0);
    ck_assert_double_eq(climate->month[10].vapour_pressure,
                        bw_saturation_pressure(5.0));
    ck_assert_ptr_nonnull(note_with(climate, "relative_humidity_pct: 1 value"));
    bw_climate_free(climate);
}
END_TEST

static const struct bad {
    const char *file;
    long line;
    const char *words;
} bad_files[] = {
    {"month-missing", 12, "missing: month 4"},
    {"month-repeated", 6, "month 4 is given twice; it stands in line 5"},
    {"month-thirteen", 13, "'13' is not a whole number from 1 to 12"},
    {"truncated-file", 8, "7 of 12 months"},
    {"truncated-row", 13, "2 values where the header names 3"},
    {"rh-fraction", 2, "looks like a fraction"},
    {"rh-over-100", 7, "relative_humidity_pct: 169 lies outside 0 to 100 %"},
    {"temperature-kelvin", 2, "kelvin"},
    {"temperature-implausible", 8, "190 lies outside -70 to 50 degC"},
    {"not-a-number", 4, "temperature_C: '4.0x' is not a number"},
    {"nan", 4, "'nan' is not a number"},
    {"huge", 4, "1e308 lies outside"},
    {"beyond-double", 4, "'1e999' is not a number"},
    {"decimal-comma", 4, "decimal marked by a comma"},
    {"empty-value", 4, "temperature_C: no value"},
    {"unknown-column", 1, "did you mean 'vertical_N_W_m2'"},
    {"far-column", 1, "unknown column 'moonlight'; known are temperature_C"},
    {"column-twice", 1, "'temperature_C' appears twice"},
    {"both-humidities", 1, "the file has both"},
    {"no-humidity", 1, "the file has neither"},
    {"no-temperature", 1, "no column 'temperature_C'"},
    {"vapour-over-saturation", 5, "1826 is above saturation at 9 degC"},
    {"vapour-in-hpa", 2, "is it in hPa"},
    {"header-key", 2, "did you mean 'humidity-reference'"},
    {"header-reference", 1, "neither water nor ice"},
    {"header-latitude", 1, "155 lies outside -90 to 90"},
    {"longitude-alone", 2, "no latitude"},
    {"semicolons", 1, "separated by commas"},
    {"no-header", 1, "no header row above the values"},
    {"other-file", 1, "not the header row of a climate file"},
    {"only-comments", 2, "no header row in this file"},
    {"empty", 0, "empty"},
    {"binary", 1, "not a text file"},
    {"compressed", 0, "compressed"},
    {"irradiance-negative", 10, "global_horizontal_W_m2: -20"},
    {"many-columns", 1, "more than 64 columns"},
    {"time-nonsense", 3, "'yesterday' is not a time"},
    {"time-zone", 2, "not a time in UTC"},
    {"time-hour-24", 2, "hours run from 00 to 23"},
    {"time-half-hour", 2, "not on the hour"},
    {"time-repeated", 4, "given twice; it stands in line 3"},
    {"hours-truncated", 3, "2 of 8760 hours"},
    {"hours-none", 1, "no hours below"},
    {"beam-alone", 1, "'diffuse_horizontal_W_m2' is missing"},
    {"public-truncated-row", 5, "2 values where the header names 4"},
    {"public-no-rh", 3, "no column 'RH'"},
};

START_TEST(bad_file_is_refused_with_line_and_reason)
{
    const struct bad *bad = &bad_files[_i];
    char path[512];
    snprintf(path, sizeof path, "%s/tests/bad-climates/%s.csv", BW_SOURCE_DIR,
             bad->file);
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_climate_read(&climate, path, &err), BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, bad->words) != NULL, "%s: '%s'",
                  bad->file, err.message);
    ck_assert_msg(err.line == bad->line, "%s: line %ld", bad->file, err.line);
    ck_assert_ptr_nonnull(strstr(err.file, bad->file));
    ck_assert_ptr_null(climate);
    /* The error is optional. */
    ck_assert_int_eq(bw_climate_read(&climate, path, NULL), BW_ERR_INPUT);
}
END_TEST

START_TEST(missing_files_and_directories_are_refused)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_climate_read(&climate, "/nonexistent/x.csv", &err),
                     BW_ERR_INPUT);
    ck_assert_int_eq(bw_climate_read(&climate, BW_SOURCE_DIR, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "directory"));
}
END_TEST

START_TEST(mangled_files_never_crash)
{
    static const char good[] =
        "# latitude: 55\n# humidity-reference: water\n"
        "month,temperature_C,relative_humidity_pct,rain_mm\n"
        "1,-1,85,80\n2,0,84,60\n3,4,78,50\n4,9,72,50\n5,14,68,40\n"
        "6,18,69,40\n7,19,73,60\n8,19,75,60\n9,15,79,60\n10,10,83,80\n"
        "11,5,88,90\n12,1,88,90\n";
    unsigned state = 1;
    int accepted = 0;
    for (int i = 0; i < 600; i++) {
        char text[sizeof good];
        memcpy(text, good, sizeof good);
        for (int k = 0; k < 1 + i % 4; k++) {
            state = state * 1664525u + 1013904223u;
            size_t at = (state >> 8) % (sizeof good - 1);
            text[at] = "0123456789,.-\"#\n\t xe"[(state >> 4) % 20];
        }
        bw_climate *climate = NULL, *hours = NULL;
        if (read_text(&climate, text, NULL) != BW_OK)
            continue;
        accepted++;
        if (i % 50 == 0 && bw_climate_generate(&hours, climate, NULL) == BW_OK)
            bw_climate_free(hours);
        bw_climate_free(climate);
    }
    ck_assert_int_gt(accepted, 20);
    ck_assert_int_lt(accepted, 550);
}
END_TEST

/* ---- irradiance --------------------------------------------------------- */

START_TEST(walls_between_columns_are_interpolated_by_angle)
{
    static const struct {
        double azimuth, expected;
    } cases[] = {{0, 10},
                 {90, 20},
                 {180, 40},
                 {270, 30},
                 {360, 10},
                 {-90, 30},
                 {45, 15},
                 {135, 30},
                 {225, 35},
                 {315, 20},
                 {120, 80. / 3},
                 {350, 10 + 20 * 10 / 90.0},
                 {-10, 10 + 20 / 9.0}};
    bw_climate *climate = read_good(four_walls);
    double mean[BW_MONTHS];
    for (size_t i = 0; i < COUNT(cases); i++) {
        ck_assert(bw_climate_irradiance(climate, cases[i].azimuth, 90, mean));
        for (int m = 0; m < BW_MONTHS; m++)
            ck_assert_double_eq_tol(mean[m], cases[i].expected, 1e-9);
    }
    ck_assert(bw_climate_irradiance(climate, 10, 0, mean));
    ck_assert_double_eq(mean[3], 100.0);
    ck_assert(!bw_climate_irradiance(climate, 10, 30, mean));
    bw_climate_free(climate);
}
END_TEST

START_TEST(walls_too_far_from_a_column_have_no_irradiance)
{
    bw_climate *none = read_good(HEADER "1,-1,85\n" MONTHS_FROM_FEB);
    double mean[BW_MONTHS];
    ck_assert(!bw_climate_irradiance(none, 180, 90, mean));
    ck_assert(!bw_climate_irradiance(none, 180, 0, mean));
    bw_climate_free(none);
    struct text text = {0};
    add(&text, "month,temperature_C,relative_humidity_pct,vertical_S_W_m2\n");
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,5,80,50\n", m);
    bw_climate *south = read_good(text.at);
    free(text.at);
    ck_assert(bw_climate_irradiance(south, 180, 90, mean));
    ck_assert(!bw_climate_irradiance(south, 190, 90, mean));
    ck_assert(!bw_climate_irradiance(south, 0, 90, mean));
    ck_assert(!bw_climate_irradiance(south, (double)NAN, 90, mean));
    bw_climate_free(south);
}
END_TEST

START_TEST(months_have_their_names_and_lengths)
{
    double year = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        year += bw_month_seconds(m);
    ck_assert_double_eq(year, 365 * 86400.0);
    ck_assert_double_eq(bw_month_seconds(1), 28 * 86400.0);
    ck_assert_str_eq(bw_month_name(0), "Jan");
    ck_assert_str_eq(bw_month_name(11), "Dec");
    ck_assert_str_eq(bw_month_name(12), "?");
    ck_assert_str_eq(bw_month_name(-1), "?");
    bw_climate_free(NULL);
}
END_TEST

/* ---- both ends of what a column or a key may be -----------------------------
 */

/* One row of a file with %s in the place of the value: an end is possible (what
 * else the file lacks is said later), just beyond it is not. Regression values:
 * wide estimates of what weather can be; humidity, sun and wind to what is
 * still taken as their limit (docs/climate.md, "Repairs"). */
#define HOURLY_OF "time,temperature_C,relative_humidity_pct"
#define SUN ",direct_normal_W_m2,diffuse_horizontal_W_m2\n"
#define ROSE                                                                   \
    ",rain_from_N_pct,rain_from_NE_pct,rain_from_E_pct,rain_from_SE_pct,"      \
    "rain_from_S_pct,rain_from_SW_pct,rain_from_W_pct,rain_from_NW_pct"
#define EVEN ",12.5,12.5,12.5,12.5,12.5,12.5,12.5,12.5"
#define M "month,temperature_C,relative_humidity_pct"
#define H "2017-01-01T00:00Z,"
static const struct end_row {
    const char *text;
    const char *below, *least, *most, *above;
} end_rows[] = {
    {M "\n1,%s,80\n", "-70.1", "-70", "50", "50.1"},
    {M "\n1,5,%s\n", "-0.1", "0", "105", "105.1"},
    {"month,temperature_C,vapour_pressure_Pa\n1,5,%s\n", "-0.1", "0", "8000",
     "8001"},
    {M ",global_horizontal_W_m2\n1,5,80,%s\n", "-0.1", "0", "500", "501"},
    {M ",wind_m_s\n1,5,80,%s\n", "-0.1", "0", "40", "40.1"},
    {M ",rain_mm\n1,5,80,%s\n", "-0.1", "0", "4000", "4001"},
    {M ",rain_wind_m_s\n1,5,80,%s\n", "-0.1", "0", "40", "40.1"},
    {M ",wettest_day_mm\n1,5,80,%s\n", "-0.1", "0", "2000", "2001"},
    {M ",ground_temperature_C\n1,5,80,%s\n", "-30.1", "-30", "40", "40.1"},
    {M ",vertical_N_W_m2\n1,5,80,%s\n", "-0.1", "0", "500", "501"},
    {M ",vertical_NW_W_m2\n1,5,80,%s\n", "-0.1", "0", "500", "501"},
    {HOURLY_OF "\n" H "%s,80\n", "-90.1", "-90", "60", "60.1"},
    {HOURLY_OF "\n" H "5,%s\n", "-0.1", "0", "105", "105.1"},
    {"time,temperature_C,vapour_pressure_Pa\n" H "5,%s\n", "-0.1", "0", "8000",
     "8001"},
    {HOURLY_OF ",global_horizontal_W_m2\n" H "5,80,%s\n", "-10.1", "-10",
     "1600", "1601"},
    {HOURLY_OF SUN H "5,80,%s,0\n", "-10.1", "-10", "1410", "1411"},
    {HOURLY_OF SUN H "5,80,0,%s\n", "-10.1", "-10", "1200", "1201"},
    {HOURLY_OF ",longwave_down_W_m2\n" H "5,80,%s\n", "49.9", "50", "700",
     "701"},
    {HOURLY_OF ",wind_m_s\n" H "5,80,%s\n", "-1.1", "-1", "80", "80.1"},
    {HOURLY_OF ",wind_from_deg\n" H "5,80,%s\n", "-0.1", "0", "360", "360.1"},
    {HOURLY_OF ",rain_mm\n" H "5,80,%s\n", "-0.1", "0", "400", "401"},
    {HOURLY_OF ",pressure_Pa\n" H "5,80,%s\n", "44999", "45000", "110000",
     "110001"},
    {"# altitude: %s m\n" M "\n", "-450.1", "-450", "9000", "9000.1"},
    {"# latitude: %s\n" M "\n", "-90.1", "-90", "90", "90.1"},
    {"# longitude: %s deg\n" M "\n", "-180.1", "-180", "180", "180.1"},
    {"# irradiance-time-offset: %s h\n" M "\n", "-1.01", "-1", "1", "1.01"},
    {"# prevailing-wind: %s degrees\n" M "\n", "-0.1", "0", "360", "360.1"},
};

static bool lies_outside(const char *text, const char *value)
{
    char whole[512];
    const char *at = strstr(text, "%s");
    bw_climate *climate = NULL;
    bw_error err = {0};
    snprintf(whole, sizeof whole, "%.*s%s%s", (int)(at - text), text, value,
             at + 2);
    ck_assert_int_eq(read_text(&climate, whole, &err), BW_ERR_INPUT);
    return strstr(err.message, "lies outside") != NULL;
}

START_TEST(an_end_is_possible_and_what_lies_beyond_it_is_not)
{
    const struct end_row *row = &end_rows[_i];
    ck_assert_msg(lies_outside(row->text, row->below), "%s", row->text);
    ck_assert_msg(!lies_outside(row->text, row->least), "%s", row->text);
    ck_assert_msg(!lies_outside(row->text, row->most), "%s", row->text);
    ck_assert_msg(lies_outside(row->text, row->above), "%s", row->text);
}
END_TEST

/* What is far outside, but near to it in another unit. */
static const struct hint_row {
    const char *text, *value, *hint;
    bool hinted;
} hint_rows[] = {
    {M "\n1,%s,80\n", "199", "kelvin", false},
    {M "\n1,%s,80\n", "201", "kelvin", true},
    {M "\n1,%s,80\n", "339", "kelvin", true},
    {M "\n1,%s,80\n", "341", "kelvin", false},
    {HOURLY_OF ",pressure_Pa\n" H "5,80,%s\n", "499", "hPa", false},
    {HOURLY_OF ",pressure_Pa\n" H "5,80,%s\n", "501", "hPa", true},
    {HOURLY_OF ",pressure_Pa\n" H "5,80,%s\n", "1099", "hPa", true},
    {HOURLY_OF ",pressure_Pa\n" H "5,80,%s\n", "1101", "hPa", false},
};

START_TEST(a_value_in_another_unit_is_told_as_one)
{
    const struct hint_row *row = &hint_rows[_i];
    char whole[512];
    bw_error err = {0};
    bw_climate *climate = NULL;
    const char *at = strstr(row->text, "%s");
    snprintf(whole, sizeof whole, "%.*s%s%s", (int)(at - row->text), row->text,
             row->value, at + 2);
    ck_assert_int_eq(read_text(&climate, whole, &err), BW_ERR_INPUT);
    ck_assert(strstr(err.message, "lies outside") != NULL);
    ck_assert_msg((strstr(err.message, row->hint) != NULL) == row->hinted, "%s",
                  err.message);
}
END_TEST

/* Twelve months alike but the first: its own cells, those of the rest. */
static const struct month_row {
    const char *columns, *first, *rest;
    const char *says; /* NULL: read */
} month_rows[] = {
    /* humidity at 20 degC, saturation 2336.9 Pa (ISO 13788): five per cent
     * above it at most, a hundredth of it at least */
    {"vapour_pressure_Pa", "20,2453", "20,1000", NULL},
    {"vapour_pressure_Pa", "20,2455", "20,1000", "above saturation"},
    {"vapour_pressure_Pa", "20,23.4", "20,1000", NULL},
    {"vapour_pressure_Pa", "20,23.3", "20,1000", "is it in hPa"},
    {"relative_humidity_pct", "20,1", "20,50", NULL},
    {"relative_humidity_pct", "20,0.99", "20,50", "lies outside 1 to 100"},
    {"relative_humidity_pct", "20,1.05", "20,1", "looks like a fraction"},
    {"relative_humidity_pct", "20,1.06", "20,1", NULL},
    /* a wettest day is one of the month's */
    {"relative_humidity_pct,rain_mm,wettest_day_mm", "5,80,31,1", "5,80,0,0",
     NULL},
    {"relative_humidity_pct,rain_mm,wettest_day_mm", "5,80,31,0.99", "5,80,0,0",
     "cannot be the wettest of 31 days"},
    {"relative_humidity_pct,rain_mm,wettest_day_mm", "5,80,31,31", "5,80,0,0",
     NULL},
    {"relative_humidity_pct,rain_mm,wettest_day_mm", "5,80,31,31.1", "5,80,0,0",
     "cannot be the wettest"},
    /* shares of eight octants, rounded */
    {"relative_humidity_pct" ROSE, "5,80,93,1,1,1,1,1,1,0", "5,80" EVEN, NULL},
    {"relative_humidity_pct" ROSE, "5,80,92.9,1,1,1,1,1,1,0", "5,80" EVEN,
     "their sum is 98.9"},
    {"relative_humidity_pct" ROSE, "5,80,95,1,1,1,1,1,1,0", "5,80" EVEN, NULL},
    {"relative_humidity_pct" ROSE, "5,80,95.1,1,1,1,1,1,1,0", "5,80" EVEN,
     "their sum is 101.1"},
};

START_TEST(a_month_s_humidity_and_rain_fit_together)
{
    const struct month_row *row = &month_rows[_i];
    struct text text = {0};
    bw_climate *climate = NULL;
    bw_error err = {0};
    add(&text, "month,temperature_C,%s\n1,%s\n", row->columns, row->first);
    for (int m = 2; m <= 12; m++)
        add(&text, "%d,%s\n", m, row->rest);
    const bw_status status = read_text(&climate, text.at, &err);
    free(text.at);
    ck_assert_msg((status == BW_OK) == (row->says == NULL), "%s: %s",
                  row->first, err.message);
    if (row->says != NULL)
        ck_assert_msg(strstr(err.message, row->says) != NULL, "%s",
                      err.message);
    bw_climate_free(climate);
}
END_TEST

/* A logger's names at its own separator are a form of hours; at a comma they
 * are a faulty climate. */
static const struct {
    const char *text;
    bool foreign;
} others[] = {
    {"date;temp;rh\n2017-01-01 00:00;5;80\n", true},
    {"date,temp,rh\n2017-01-01 00:00,5,80\n", false},
    {"STN,YYYYMMDD,HH,T\n260,20170101,1,50\n", true},
    {"time,temperature_C,relative_humidity_pct\n", false},
    {"month,temperature_C,relative_humidity_pct\n", false},
    {"time(UTC),T2m,RH\n", false},
};

START_TEST(hours_in_another_form_are_told_from_a_faulty_climate)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_text(&climate, others[_i].text, &err), BW_ERR_INPUT);
    ck_assert_msg((strstr(err.message, "no climate file yet") != NULL) ==
                      others[_i].foreign,
                  "%s", err.message);
}
END_TEST

START_TEST(each_column_of_a_month_is_kept_as_its_own)
{
    struct text text = {0};
    add(&text, M ",global_horizontal_W_m2,wind_m_s,rain_mm,rain_wind_m_s,"
                 "wettest_day_mm,ground_temperature_C,vertical_N_W_m2,"
                 "vertical_E_W_m2,vertical_NW_W_m2" ROSE "\n");
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,5,80,%d,3,60,4,12,7,10,20,30,2,4,6,8,10,20,25,24\n", m,
            100 + m);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    static const double rose[BW_FACINGS] = {2, 4, 6, 8, 10, 20, 25, 24};
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &climate->month[m];
        ck_assert_double_eq(month->global_horizontal, 101.0 + m);
        ck_assert_double_eq(month->wind, 3.0);
        ck_assert_double_eq(month->rain, 60.0);
        ck_assert_double_eq(month->rain_wind, 4.0);
        ck_assert_double_eq(month->wettest_day, 12.0);
        ck_assert_double_eq(month->ground_temperature, 7.0);
        ck_assert(month->has_global && month->has_wind && month->has_rain &&
                  month->has_rain_wind && month->has_wettest_day &&
                  month->has_ground && month->has_rain_rose);
        ck_assert_double_eq(month->vertical[0], 10.0);
        ck_assert_double_eq(month->vertical[2], 20.0);
        ck_assert_double_eq(month->vertical[7], 30.0);
        ck_assert(month->has_vertical[0] && !month->has_vertical[1] &&
                  month->has_vertical[7]);
        for (int f = 0; f < BW_FACINGS; f++)
            ck_assert_double_eq_tol(month->rain_rose[f], rose[f] / 99.0, 1e-12);
    }
    bw_climate_free(climate);
}
END_TEST

SUITE("climate", FACT(monthly_file_gives_vapour_pressures),
      FACT(frost_humidity_is_over_water_unless_the_header_says_ice),
      FACT(vapour_above_saturation_over_ice_is_accepted_in_frost),
      EACH(columns_stand_in_any_order, COUNT(orders)),
      FACT(header_lines_are_understood),
      EACH(bad_file_is_refused_with_line_and_reason, COUNT(bad_files)),
      FACT(missing_files_and_directories_are_refused),
      FACT(mangled_files_never_crash),
      FACT(walls_between_columns_are_interpolated_by_angle),
      FACT(walls_too_far_from_a_column_have_no_irradiance),
      FACT(months_have_their_names_and_lengths),
      EACH(an_end_is_possible_and_what_lies_beyond_it_is_not, COUNT(end_rows)),
      EACH(a_value_in_another_unit_is_told_as_one, COUNT(hint_rows)),
      EACH(a_month_s_humidity_and_rain_fit_together, COUNT(month_rows)),
      EACH(hours_in_another_form_are_told_from_a_faulty_climate, COUNT(others)),
      FACT(each_column_of_a_month_is_kept_as_its_own))
