/* Climate files, their monthly means, and the hours made from them. */

#include <check.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/climate.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

enum { HOURS = 8760 };
static const int FIRST_DAY[BW_MONTHS + 1] = {0,   31,  59,  90,  120, 151, 181,
                                             212, 243, 273, 304, 334, 365};

/* ---- help --------------------------------------------------------------- */

/* Reads text as a climate file. */
static bw_status read_text(bw_climate **out, const char *text, bw_error *err)
{
    char path[] = "bothways-climate-XXXXXX";
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    size_t length = strlen(text);
    ck_assert_int_eq(write(fd, text, length), (ssize_t)length);
    close(fd);
    bw_status status = bw_climate_read(out, path, err);
    unlink(path);
    return status;
}

static bw_climate *read_good(const char *text)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_msg(read_text(&climate, text, &err) == BW_OK, "line %ld: %s",
                  err.line, err.message);
    return climate;
}

static void expect_refused(const char *text, long line, const char *words)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_text(&climate, text, &err), BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, words) != NULL, "'%s' not in '%s'", words,
                  err.message);
    ck_assert_int_eq(err.line, line);
    ck_assert_ptr_null(climate);
}

static const char *note_with(const bw_climate *climate, const char *words)
{
    for (size_t i = 0; i < climate->note_count; i++)
        if (strstr(climate->note[i].message, words) != NULL)
            return climate->note[i].message;
    return NULL;
}

/* A growing text. */
struct text {
    char *at;
    size_t used, room;
};

static void add(struct text *text, const char *format, ...) BW_PRINTF(2, 3);
static void add(struct text *text, const char *format, ...)
{
    if (text->room - text->used < 256) {
        text->room = 2 * text->room + 1024;
        text->at = realloc(text->at, text->room);
        ck_assert_ptr_nonnull(text->at);
    }
    va_list args;
    va_start(args, format);
    text->used += (size_t)vsnprintf(text->at + text->used,
                                    text->room - text->used, format, args);
    va_end(args);
}

/* A month of hour h, its day of the month from 1. */
static int month_of(int hour, int *day)
{
    int m = 0;
    while (hour / 24 >= FIRST_DAY[m + 1])
        m++;
    *day = hour / 24 - FIRST_DAY[m] + 1;
    return m;
}

static void add_time(struct text *text, int hour)
{
    int day = 0, month = month_of(hour, &day);
    add(text, "2017-%02d-%02dT%02d:00Z", month + 1, day, hour % 24);
}

/* An hourly file: 5 degC + hour of the day / 10, 80 %; rows for which skip
 * says so are left out. */
static struct text hourly(bool (*skip)(int))
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++) {
        if (skip != NULL && skip(h))
            continue;
        add_time(&text, h);
        add(&text, ",%d.%d,80\n", 5 + h % 24 / 10, h % 24 % 10);
    }
    return text;
}

static bool shared_file(char *path, size_t size, const char *name)
{
    const char *directory = getenv("BOTHWAYS_SHARED_DATA");
    if (directory != NULL) {
        snprintf(path, size, "%s/%s", directory, name);
        if (access(path, R_OK) == 0)
            return true;
    }
    printf("skipped: BOTHWAYS_SHARED_DATA has no %s\n", name);
    return false;
}

/* ---- monthly files ------------------------------------------------------ */

#define MONTHS_FROM_FEB                                                        \
    "2,0,84\n3,4,78\n4,9,72\n5,14,68\n6,18,69\n7,19,73\n8,19,75\n9,15,79\n"    \
    "10,10,83\n11,5,88\n12,1,88\n"
#define HEADER "month,temperature_C,relative_humidity_pct\n"

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

#define WALLS(n) n ",5,80,100,10,20,40,30\n"
static const char four_walls[] =
    "month,temperature_C,relative_humidity_pct,global_horizontal_W_m2,"
    "vertical_N_W_m2,vertical_E_W_m2,vertical_S_W_m2,vertical_W_W_m2\n" WALLS(
        "1") WALLS("2") WALLS("3") WALLS("4") WALLS("5") WALLS("6") WALLS("7")
        WALLS("8") WALLS("9") WALLS("10") WALLS("11") WALLS("12");

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

/* ---- hourly files ------------------------------------------------------- */

START_TEST(hourly_file_gives_monthly_means)
{
    struct text text = hourly(NULL);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_int_eq(climate->kind, BW_CLIMATE_HOURLY);
    ck_assert_uint_eq(climate->hour_count, HOURS);
    ck_assert_uint_eq(climate->note_count, 0);
    for (int m = 0; m < BW_MONTHS; m++)
        ck_assert_double_eq_tol(climate->month[m].temperature, 6.15, 1e-9);
    ck_assert_double_eq(climate->hour[1].temperature, 5.1);
    ck_assert_double_eq(climate->hour[0].pressure, BW_STANDARD_PRESSURE);
    ck_assert(!climate->columns.solar && !climate->columns.rain &&
              !climate->columns.pressure);
    double mean[BW_MONTHS];
    ck_assert(!bw_climate_irradiance(climate, 180, 90, mean));
    bw_climate_free(climate);
}
END_TEST

START_TEST(vapour_pressures_are_averaged_not_humidities)
{
    /* Half the hours of every day at -15 degC, half at +5 degC, 90 %. From
     * IAPWS figures: 0.9 (191.27 + 872.57)/2 = 478.7 Pa; mean humidity at the
     * mean temperature would give 0.9 x 421.8 = 379.6 Pa, a fifth less. */
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",%d,90\n", h % 24 < 12 ? -15 : 5);
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_double_eq_tol(climate->month[m].temperature, -5.0, 1e-9);
        ck_assert_double_eq_tol(climate->month[m].vapour_pressure / 478.7, 1.0,
                                0.005);
    }
    bw_climate_free(climate);
}
END_TEST

static bool short_gaps(int hour)
{
    return hour == HOURS - 1 || hour == 0 || (hour >= 100 && hour < 103);
}

static bool long_gap(int hour)
{
    return hour >= 100 && hour < 104;
}

static bool second_half(int hour)
{
    return hour >= HOURS / 2;
}

static bool two_of_three(int hour)
{
    return hour % 3 != 0;
}

START_TEST(short_gaps_are_filled_and_said)
{
    struct text text = hourly(short_gaps);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    /* 03:00 5.3 to 07:00 5.7, and over the year's end 22:00 7.2 to 01:00 5.1 */
    ck_assert_double_eq_tol(climate->hour[101].temperature, 5.5, 1e-12);
    ck_assert_double_eq_tol(climate->hour[HOURS - 1].temperature, 6.5, 1e-12);
    ck_assert_double_eq_tol(climate->hour[0].temperature, 5.8, 1e-12);
    ck_assert_ptr_nonnull(
        note_with(climate, "temperature_C: 5 missing hours in 2 gaps"));
    bw_climate_free(climate);
}
END_TEST

START_TEST(long_gaps_and_short_files_are_refused)
{
    struct text text = hourly(long_gap);
    expect_refused(text.at, 101,
                   "8756 of 8760 hours are given; the longest "
                   "gap is 4 hours from Jan 5 04:00");
    free(text.at);
    text = hourly(second_half);
    expect_refused(text.at, 4381, "4380 of 8760 hours");
    free(text.at);
    text = hourly(two_of_three);
    expect_refused(text.at, 2, "2920 of 8760 hours");
    free(text.at);
}
END_TEST

START_TEST(one_column_with_a_long_gap_is_refused)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",5,80,%s\n", h >= 50 && h < 60 ? "" : "0.1");
    }
    expect_refused(text.at, 51,
                   "rain_mm: no value for 10 hours from Jan 3 "
                   "02:00");
    free(text.at);
}
END_TEST

START_TEST(hourly_fraction_and_kelvin_are_refused)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",5,0.8\n");
    }
    expect_refused(text.at, 2, "looks like a fraction");
    free(text.at);
}
END_TEST

START_TEST(leap_day_is_left_out_and_said)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm\n");
    for (int h = 0; h < HOURS; h++) {
        int day = 0;
        if (month_of(h, &day) == 2 && day == 1 && h % 24 == 0)
            for (int i = 0; i < 24; i++)
                add(&text, "2016-02-29T%02d:00Z,50,80,9\n", i);
        add_time(&text, h);
        add(&text, ",5,80,0.5\n");
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_uint_eq(climate->hour_count, HOURS);
    ck_assert_double_eq_tol(climate->month[1].temperature, 5.0, 1e-9);
    ck_assert_double_eq_tol(climate->month[1].rain, 0.5 * 24 * 28, 1e-9);
    ck_assert_ptr_nonnull(note_with(climate, "February 29th is left out (24"));
    bw_climate_free(climate);
}
END_TEST

START_TEST(radiation_of_own_hourly_files_holds_at_half_past)
{
    struct text text = {0};
    add(&text, "# latitude: 50\n# longitude: 0\ntime,temperature_C,"
               "relative_humidity_pct,direct_normal_W_m2,"
               "diffuse_horizontal_W_m2,longwave_down_W_m2,wind_m_s,"
               "wind_from_deg,rain_mm,pressure_Pa\n");
    for (int h = 0; h < HOURS; h++) {
        bool day = h % 24 >= 9 && h % 24 < 15;
        add_time(&text, h);
        add(&text, ",5,80,%d,%d,%s,2,360,0,99000\n", day ? 300 : -2,
            day ? 100 : 0, h == 500 ? "" : "300");
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_double_eq(climate->time_offset, 0.5);
    ck_assert(climate->columns.solar && climate->columns.longwave &&
              climate->columns.wind && climate->columns.wind_from &&
              climate->columns.rain && climate->columns.pressure);
    ck_assert_double_eq(climate->hour[500].longwave_down, 300.0);
    ck_assert_double_eq(climate->hour[0].direct_normal, 0.0);
    ck_assert_double_eq(climate->hour[0].wind_from, 0.0);
    ck_assert_ptr_nonnull(
        note_with(climate, "direct_normal_W_m2: 6570 values"));
    double south[BW_MONTHS], east[BW_MONTHS], level[BW_MONTHS];
    ck_assert(bw_climate_irradiance(climate, 180, 90, south));
    ck_assert(bw_climate_irradiance(climate, 90, 90, east));
    ck_assert(bw_climate_irradiance(climate, 0, 0, level));
    ck_assert(south[0] > east[0] && level[6] > south[6] && level[0] < south[0]);
    ck_assert_double_eq_tol(level[4], climate->month[4].global_horizontal,
                            1e-12);
    bw_climate_free(climate);
}
END_TEST

/* ---- the public files, where they are ----------------------------------- */

START_TEST(public_typical_years_are_read_as_they_are)
{
    /* Monthly means of temperature and of vapour pressure (ISO 13788's water
     * formula), summed up by a script of its own outside the project
     * [derived from the files, PVGIS (c) European Union]. */
    static const struct {
        const char *file;
        double latitude, altitude, offset, tolerance;
        double theta[BW_MONTHS], p[BW_MONTHS];
    } years[] = {
        {"pvgis/tmy_56.273_9.987_2007_2016.csv",
         56.273,
         86,
         0.19,
         0.02,
         {-2.05, -4.00, 5.45, 9.04, 12.22, 16.05, 16.38, 15.39, 11.48, 8.37,
          5.67, 2.32},
         {491.6, 408.3, 735.0, 850.7, 1094.9, 1358.1, 1503.9, 1382.7, 1100.3,
          921.3, 834.7, 636.1}},
        {"pvgis/tmy_45.000_8.000_2005_2023.csv",
         45.0,
         250,
         0.1761,
         1e-12,
         {5.20, 6.96, 8.73, 12.37, 17.04, 22.46, 21.92, 22.15, 20.20, 14.97,
          6.31, 4.05},
         {754.0, 797.3, 790.8, 1145.5, 1405.4, 1443.1, 1769.0, 1873.9, 1698.2,
          1384.8, 730.1, 741.4}},
    };
    for (size_t i = 0; i < COUNT(years); i++) {
        char path[512];
        if (!shared_file(path, sizeof path, years[i].file))
            continue;
        bw_climate *climate = NULL;
        bw_error err = {0};
        ck_assert_msg(bw_climate_read(&climate, path, &err) == BW_OK, "%s",
                      err.message);
        ck_assert_double_eq(climate->latitude, years[i].latitude);
        ck_assert_double_eq(climate->altitude, years[i].altitude);
        ck_assert_double_eq_tol(climate->time_offset, years[i].offset,
                                years[i].tolerance);
        ck_assert(climate->columns.solar && climate->columns.longwave &&
                  climate->columns.wind_from && !climate->columns.rain);
        for (int m = 0; m < BW_MONTHS; m++) {
            ck_assert_double_eq_tol(climate->month[m].temperature,
                                    years[i].theta[m], 0.0051);
            ck_assert_double_eq_tol(climate->month[m].vapour_pressure,
                                    years[i].p[m], 0.051);
        }
        bw_climate_free(climate);
    }
}
END_TEST

/* A file without the offset line finds the moment that a file with it states:
 * the second typical year with its line taken out. */
START_TEST(missing_time_offset_is_found_from_the_radiation)
{
    char path[512];
    if (!shared_file(path, sizeof path, "pvgis/tmy_45.000_8.000_2005_2023.csv"))
        return;
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    struct text text = {0};
    char line[200];
    while (fgets(line, sizeof line, file) != NULL)
        if (strstr(line, "Time Offset") == NULL)
            add(&text, "%s", line);
    fclose(file);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_double_eq_tol(climate->time_offset, 0.1761, 0.01);
    ck_assert_ptr_nonnull(note_with(climate, "no Irradiance Time Offset"));
    bw_climate_free(climate);
}
END_TEST

/* ---- generated hours ---------------------------------------------------- */

static bw_climate *demo(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/assemblies/climates/%s.csv", BW_SOURCE_DIR,
             name);
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_climate_read(&climate, path, &err) == BW_OK, "%s",
                  err.message);
    return climate;
}

static bw_climate *generated(const bw_climate *monthly)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_climate_generate(&climate, monthly, &err) == BW_OK, "%s",
                  err.message);
    return climate;
}

/* Means of the hours of a month; global from beam, diffuse and sun. */
static bw_climate_month means(const bw_climate *climate, int month)
{
    bw_climate_month sum = {0};
    int first = 24 * FIRST_DAY[month], end = 24 * FIRST_DAY[month + 1];
    for (int h = first; h < end; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                     (h + climate->time_offset) / 24.0);
        double up = sin(sun.elevation * acos(-1.0) / 180.0);
        ck_assert(up > 0.0 || (hour->direct_normal == 0.0 &&
                               hour->diffuse_horizontal == 0.0));
        sum.temperature += hour->temperature / (end - first);
        sum.vapour_pressure += hour->vapour_pressure / (end - first);
        sum.global_horizontal += (hour->direct_normal * fmax(up, 0.0) +
                                  hour->diffuse_horizontal) /
                                 (end - first);
        sum.wind += hour->wind / (end - first);
        sum.rain += hour->rain;
    }
    return sum;
}

static void check_means(const bw_climate *climate)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        bw_climate_month got = means(climate, m);
        const bw_climate_month *want = &climate->month[m];
        ck_assert_double_eq_tol(got.temperature, want->temperature, 1e-9);
        ck_assert_double_eq_tol(got.vapour_pressure, want->vapour_pressure,
                                1e-8);
        if (climate->columns.solar && want->has_global)
            ck_assert_double_eq_tol(got.global_horizontal,
                                    want->global_horizontal, 1e-8);
        if (climate->columns.wind)
            ck_assert_double_eq_tol(got.wind, want->wind, 1e-9);
        if (climate->columns.rain)
            ck_assert_double_eq_tol(got.rain, want->rain, 1e-8);
    }
}

static void check_hours(const bw_climate *climate)
{
    for (int h = 0; h < HOURS; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        ck_assert(isfinite(hour->temperature));
        ck_assert(hour->vapour_pressure > 0.0 &&
                  hour->vapour_pressure <=
                      bw_saturation_pressure_water(hour->temperature));
        ck_assert(hour->direct_normal >= 0.0 && hour->direct_normal < 1250.0);
        ck_assert(hour->diffuse_horizontal >= 0.0 &&
                  hour->diffuse_horizontal < 700.0);
        ck_assert(hour->wind >= 0.0 && hour->rain >= 0.0);
        ck_assert(hour->wind_from >= 0.0 && hour->wind_from < 360.0);
        double black = 5.670374419e-8 * pow(hour->temperature + 273.15, 4.0);
        ck_assert(!climate->columns.longwave ||
                  (hour->longwave_down > 0.5 * black &&
                   hour->longwave_down <= black * 1.0000001));
    }
}

START_TEST(generated_hours_reproduce_the_demo_months)
{
    static const char *const names[] = {"estuary", "upland"};
    bw_climate *monthly = demo(names[_i]);
    ck_assert_ptr_nonnull(strstr(monthly->remark, "INVENTED"));
    bw_climate *hours = generated(monthly);
    ck_assert_int_eq(hours->kind, BW_CLIMATE_SYNTHETIC);
    ck_assert_uint_eq(hours->hour_count, HOURS);
    ck_assert(hours->columns.solar && hours->columns.longwave &&
              hours->columns.wind && hours->columns.wind_from &&
              hours->columns.rain && !hours->columns.pressure);
    ck_assert_ptr_nonnull(note_with(hours, "synthetic"));
    ck_assert_str_eq(hours->place, monthly->place);
    for (int h = 0; h < HOURS; h++)
        ck_assert_double_le(hours->hour[h].vapour_pressure,
                            bw_saturation_pressure(hours->hour[h].temperature));
    check_means(hours);
    check_hours(hours);
    bw_climate_free(monthly);
    bw_climate_free(hours);
}
END_TEST

START_TEST(generated_hours_are_the_same_every_time)
{
    bw_climate *monthly = demo("estuary");
    bw_climate *one = generated(monthly), *two = generated(monthly);
    ck_assert_int_eq(memcmp(one->hour, two->hour, HOURS * sizeof one->hour[0]),
                     0);
    bw_climate_free(monthly);
    bw_climate_free(one);
    bw_climate_free(two);
}
END_TEST

START_TEST(vertical_columns_of_the_demo_climates_fit_their_hours)
{
    /* The columns were made with the generator (the files say so): they must
     * be the plane irradiance of the hours, to their printed digit. */
    bw_climate *monthly = demo("estuary"), *hours = generated(monthly);
    for (int m = 0; m < BW_MONTHS; m++)
        for (int f = 0; f < BW_FACINGS; f++) {
            double sum = 0.0;
            int first = 24 * FIRST_DAY[m], end = 24 * FIRST_DAY[m + 1];
            for (int h = first; h < end; h++)
                sum += bw_plane_irradiance(
                    bw_sun_position(55.0, -5.0, (h + 0.5) / 24.0),
                    hours->hour[h].direct_normal,
                    hours->hour[h].diffuse_horizontal, 45.0 * f, 90.0, 0.2);
            ck_assert_double_eq_tol(sum / (end - first),
                                    monthly->month[m].vertical[f], 0.051);
        }
    bw_climate_free(monthly);
    bw_climate_free(hours);
}
END_TEST

START_TEST(random_months_are_reproduced)
{
    unsigned state = 7;
    for (int i = 0; i < 30; i++) {
        double draw[8];
        for (int k = 0; k < 8; k++) {
            state = state * 1664525u + 1013904223u;
            draw[k] = (state >> 8) / 16777216.0;
        }
        struct text text = {0};
        add(&text,
            "# latitude: %.2f\n# longitude: %.2f\n"
            "month,temperature_C,relative_humidity_pct,"
            "%s_W_m2,wind_m_s,rain_mm\n",
            -60 + 120 * draw[0], -180 + 360 * draw[1],
            i % 3 == 0 ? "vertical_E" : "global_horizontal");
        for (int m = 1; m <= 12; m++)
            add(&text, "%d,%.2f,%.1f,%.1f,%.2f,%.0f\n", m,
                30 * draw[2] - 5 + 15 * draw[3] * cos(0.5236 * (m - 7)),
                40 + 58 * draw[4], 3 + 25 * draw[5], 10 * draw[6],
                i % 5 == 0 ? 0.0 : 600 * draw[7]);
        bw_climate *monthly = read_good(text.at);
        bw_climate *hours = generated(monthly);
        check_means(hours);
        check_hours(hours);
        bw_climate_free(hours);
        bw_climate_free(monthly);
        free(text.at);
    }
}
END_TEST

START_TEST(hours_have_days_and_seasons)
{
    bw_climate *monthly = demo("estuary"), *hours = generated(monthly);
    double noon = 0.0, night = 0.0, dry = 0.0, damp = 0.0;
    double product = 0.0, theta2 = 0.0, humid2 = 0.0;
    for (int h = 24 * FIRST_DAY[5]; h < 24 * FIRST_DAY[8]; h++) {
        const bw_climate_hour *hour = &hours->hour[h];
        double humidity = bw_relative_humidity(hour->temperature,
                                               hour->vapour_pressure);
        int clock = h % 24;
        noon += clock == 14 ? hour->temperature : 0.0;
        dry += clock == 14 ? humidity : 0.0;
        night += clock == 4 ? hour->temperature : 0.0;
        damp += clock == 4 ? humidity : 0.0;
        double theta = hour->temperature - 14.1;
        product += theta * (humidity - 0.85);
        theta2 += theta * theta;
        humid2 += (humidity - 0.85) * (humidity - 0.85);
    }
    ck_assert_double_gt(noon - night, 5.0 * 92);
    ck_assert_double_gt(damp - dry, 0.1 * 92);
    ck_assert_double_lt(product / sqrt(theta2 * humid2), -0.3);

    /* Rain falls in dull hours and spells: more than by chance follows on
     * rain, and wet hours have less sun. */
    int wet = 0, wet_pairs = 0;
    for (int h = 1; h < HOURS; h++) {
        wet += hours->hour[h].rain > 0.0;
        wet_pairs += hours->hour[h].rain > 0.0 && hours->hour[h - 1].rain > 0.0;
    }
    ck_assert_double_gt((double)wet_pairs / wet, 1.5 * wet / HOURS);
    bw_climate_free(monthly);
    bw_climate_free(hours);
}
END_TEST

START_TEST(months_without_columns_give_hours_without_them)
{
    bw_climate *monthly = read_good(HEADER "1,-1,85\n" MONTHS_FROM_FEB);
    bw_climate *hours = generated(monthly);
    ck_assert(!hours->columns.solar && !hours->columns.longwave &&
              !hours->columns.wind && !hours->columns.wind_from &&
              !hours->columns.rain && !hours->columns.pressure);
    ck_assert_ptr_nonnull(note_with(hours, "no irradiance columns"));
    check_means(hours);
    bw_climate_free(hours);
    bw_climate_free(monthly);
    monthly = read_good(four_walls);
    hours = generated(monthly);
    ck_assert(!hours->columns.solar);
    ck_assert_ptr_nonnull(note_with(hours, "no latitude"));
    bw_climate_free(hours);
    bw_climate_free(monthly);
}
END_TEST

START_TEST(months_the_sky_cannot_give_are_refused)
{
    char text[sizeof four_walls + 64];
    snprintf(text, sizeof text, "# latitude: 60\n%s", four_walls);
    bw_climate *monthly = read_good(text), *hours = NULL;
    bw_error err = {0};
    /* 100 W/m2 all December long at 60 N, where space itself gives 44. */
    ck_assert_int_eq(bw_climate_generate(&hours, monthly, &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "cloudless"));
    ck_assert_ptr_null(hours);
    monthly->month[4].vapour_pressure = 1e5;
    ck_assert_int_eq(bw_climate_generate(&hours, monthly, &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "saturation"));
    monthly->month[4].vapour_pressure = -1.0;
    ck_assert_int_eq(bw_climate_generate(&hours, monthly, &err), BW_ERR_DOMAIN);
    bw_climate_free(monthly);
}
END_TEST

START_TEST(polar_night_is_dark)
{
    struct text text = {0};
    add(&text, "# latitude: 70\nmonth,temperature_C,relative_humidity_pct,"
               "global_horizontal_W_m2\n");
    static const double global[] = {1,   12,  60, 130, 180, 200,
                                    180, 120, 60, 20,  2,   0.3};
    for (int m = 0; m < 12; m++)
        add(&text, "%d,%d,85,%g\n", m + 1, m > 3 && m < 9 ? 8 : -8, global[m]);
    bw_climate *monthly = read_good(text.at), *hours = generated(monthly);
    free(text.at);
    ck_assert_ptr_nonnull(note_with(hours, "the sun rises too little"));
    for (int h = 24 * FIRST_DAY[11]; h < HOURS - 24 * 20; h++)
        ck_assert_double_eq(hours->hour[h].direct_normal, 0.0);
    check_hours(hours);
    bw_climate_free(hours);
    bw_climate_free(monthly);
}
END_TEST

START_TEST(walls_of_generated_hours_come_near_a_typical_year)
{
    /* Beam and diffuse guessed from global alone: the year's irradiance on E,
     * S and W walls within 12 %, on N within 25 %, of the typical year whose
     * months were given. */
    static const char *const files[] = {"pvgis/tmy_56.273_9.987_2007_2016.csv",
                                        "pvgis/tmy_45.000_8.000_2005_2023.csv"};
    char path[512];
    if (!shared_file(path, sizeof path, files[_i]))
        return;
    bw_climate *year = NULL;
    ck_assert_int_eq(bw_climate_read(&year, path, NULL), BW_OK);
    bw_climate *hours = generated(year);
    for (int w = 0; w < 4; w++) {
        double is[BW_MONTHS], made[BW_MONTHS], sum_is = 0.0, sum_made = 0.0;
        ck_assert(bw_climate_irradiance(year, 90.0 * w, 90, is));
        ck_assert(bw_climate_irradiance(hours, 90.0 * w, 90, made));
        for (int m = 0; m < BW_MONTHS; m++) {
            sum_is += is[m];
            sum_made += made[m];
        }
        ck_assert_double_eq_tol(sum_made / sum_is, 1.0, w == 0 ? 0.25 : 0.12);
    }
    double longwave_is = 0.0, longwave_made = 0.0;
    for (int h = 0; h < HOURS; h++) {
        longwave_is += year->hour[h].longwave_down / HOURS;
        longwave_made += hours->hour[h].longwave_down / HOURS;
    }
    ck_assert_double_eq_tol(longwave_made, longwave_is, 8.0);
    bw_climate_free(year);
    bw_climate_free(hours);
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
    bw_climate_free(NULL);
}
END_TEST

static void add_hourly_tests(TCase *tests)
{
    tcase_add_test(tests, hourly_file_gives_monthly_means);
    tcase_add_test(tests, vapour_pressures_are_averaged_not_humidities);
    tcase_add_test(tests, short_gaps_are_filled_and_said);
    tcase_add_test(tests, long_gaps_and_short_files_are_refused);
    tcase_add_test(tests, one_column_with_a_long_gap_is_refused);
    tcase_add_test(tests, hourly_fraction_and_kelvin_are_refused);
    tcase_add_test(tests, leap_day_is_left_out_and_said);
    tcase_add_test(tests, radiation_of_own_hourly_files_holds_at_half_past);
    tcase_add_test(tests, public_typical_years_are_read_as_they_are);
    tcase_add_test(tests, missing_time_offset_is_found_from_the_radiation);
}

static void add_generator_tests(TCase *tests)
{
    tcase_add_loop_test(tests, generated_hours_reproduce_the_demo_months, 0, 2);
    tcase_add_test(tests, generated_hours_are_the_same_every_time);
    tcase_add_test(tests,
                   vertical_columns_of_the_demo_climates_fit_their_hours);
    tcase_add_test(tests, random_months_are_reproduced);
    tcase_add_test(tests, hours_have_days_and_seasons);
    tcase_add_test(tests, months_without_columns_give_hours_without_them);
    tcase_add_test(tests, months_the_sky_cannot_give_are_refused);
    tcase_add_test(tests, polar_night_is_dark);
    tcase_add_loop_test(
        tests, walls_of_generated_hours_come_near_a_typical_year, 0, 2);
}

int main(void)
{
    Suite *suite = suite_create("climate");
    TCase *tests = tcase_create("climate");
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, monthly_file_gives_vapour_pressures);
    tcase_add_test(tests,
                   frost_humidity_is_over_water_unless_the_header_says_ice);
    tcase_add_test(tests,
                   vapour_above_saturation_over_ice_is_accepted_in_frost);
    tcase_add_test(tests, header_lines_are_understood);
    tcase_add_loop_test(tests, bad_file_is_refused_with_line_and_reason, 0,
                        (int)COUNT(bad_files));
    tcase_add_test(tests, missing_files_and_directories_are_refused);
    tcase_add_test(tests, mangled_files_never_crash);
    tcase_add_test(tests, walls_between_columns_are_interpolated_by_angle);
    tcase_add_test(tests, walls_too_far_from_a_column_have_no_irradiance);
    tcase_add_test(tests, months_have_their_names_and_lengths);
    add_hourly_tests(tests);
    add_generator_tests(tests);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
