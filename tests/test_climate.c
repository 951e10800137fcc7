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
      FACT(months_have_their_names_and_lengths))
