/* Hourly and public typical-year files: means, gaps, notes. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate_help.h"
#include "suite.h"

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

/* ---- what hours make of their month ----------------------------------------
 */

/* The first hour of each month has 1 mm from the east at 5 m/s and 10 degC, its
 * last 2 mm from the south-west at 3 m/s; January 11th ends with 4 mm from
 * 337.6 degrees, and the 12th begins with 4 mm from 22.4 degrees, both at 2
 * m/s. */
START_TEST(an_hour_counts_for_its_month_its_day_and_its_octant)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm,wind_m_s,"
               "wind_from_deg\n");
    for (int h = 0; h < HOURS; h++) {
        int day = 0;
        const int m = month_of(h, &day);
        add_time(&text, h);
        add(&text, "%s\n",
            h == 24 * FIRST_DAY[m]           ? ",10,80,1,5,90"
            : h == 24 * FIRST_DAY[m + 1] - 1 ? ",0,80,2,3,225"
            : h == 24 * 10 + 23              ? ",0,80,4,2,337.6"
            : h == 24 * 11                   ? ",0,80,4,2,22.4"
                                             : ",0,80,0,1,0");
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *is = &climate->month[m];
        const double hours = 24.0 * (FIRST_DAY[m + 1] - FIRST_DAY[m]);
        const double rain = m == 0 ? 11.0 : 3.0;
        const double driven = m == 0 ? 27.0 : 11.0; /* mm m/s */
        const double wind = (hours - 2.0 + 8.0 + (m == 0 ? 2.0 : 0.0)) / hours;
        ck_assert_double_eq_tol(is->temperature, 10.0 / hours, 1e-12);
        ck_assert_double_eq_tol(is->wind, wind, 1e-12);
        ck_assert_double_eq_tol(is->rain, rain, 1e-12);
        ck_assert_double_eq_tol(is->wettest_day, m == 0 ? 4.0 : 2.0, 1e-12);
        ck_assert_double_eq_tol(is->rain_wind, driven / rain, 1e-12);
        ck_assert_double_eq_tol(is->rain_rose[0], m == 0 ? 16.0 / 27.0 : 0.0,
                                1e-12);
        ck_assert_double_eq_tol(is->rain_rose[2], 5.0 / driven, 1e-12);
        ck_assert_double_eq_tol(is->rain_rose[5], 6.0 / driven, 1e-12);
        ck_assert_double_eq_tol(is->rain_rose[1] + is->rain_rose[7], 0.0,
                                1e-12);
        ck_assert(is->has_rain && is->has_wind && is->has_rain_wind &&
                  is->has_wettest_day && is->has_rain_rose && !is->has_global);
    }
    bw_climate_free(climate);
}
END_TEST

/* Without rain: as much from everywhere, at the month's wind. */
START_TEST(a_month_without_rain_has_an_even_rose)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm,wind_m_s,"
               "wind_from_deg\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",5,80,0,3,180\n");
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_double_eq_tol(climate->month[5].rain_wind, 3.0, 1e-9);
    for (int f = 0; f < BW_FACINGS; f++)
        ck_assert_double_eq_tol(climate->month[5].rain_rose[f], 0.125, 1e-12);
    bw_climate_free(climate);
}
END_TEST

/* One hour of 20 degC among others of 5: saturation 2336.9 Pa (ISO 13788). Five
 * per cent above it is taken as it, less than a thousandth is doubted. */
static const struct humid_row {
    const char *value;
    const char *says; /* NULL: read */
} humid_rows[] = {
    {"2453", NULL},
    {"2455", "is above saturation at 20 degC"},
    {"2.35", NULL},
    {"2.32", "less than 0.1 % of saturation"},
};

START_TEST(an_hour_s_vapour_lies_between_a_thousandth_and_saturation)
{
    const struct humid_row *row = &humid_rows[_i];
    struct text text = {0};
    add(&text, "time,temperature_C,vapour_pressure_Pa\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, h == 700 ? ",20,%s\n" : ",5,500\n", row->value);
    }
    if (row->says != NULL) {
        expect_refused(text.at, 702, row->says);
    } else {
        bw_climate *climate = read_good(text.at);
        ck_assert_double_eq_tol(climate->hour[700].vapour_pressure,
                                fmin(strtod(row->value, NULL), 2336.9), 0.1);
        bw_climate_free(climate);
    }
    free(text.at);
}
END_TEST

/* A year whose moistest hour has just so much: a fraction, or hPa. */
static const struct dry_row {
    const char *column, *value;
    const char *says;
} dry_rows[] = {
    {"relative_humidity_pct", "1.05", "looks like a fraction"},
    {"relative_humidity_pct", "1.06", NULL},
    {"vapour_pressure_Pa", "24.5", "is it in hPa or kPa?"}, /* 1.048 % */
    {"vapour_pressure_Pa", "24.6", NULL},                   /* 1.053 % */
};

START_TEST(a_year_that_is_never_moister_than_a_hundredth_is_in_another_unit)
{
    const struct dry_row *row = &dry_rows[_i];
    struct text text = {0};
    add(&text, "time,temperature_C,%s\n", row->column);
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",20,%s\n", row->value);
    }
    if (row->says != NULL)
        expect_refused(text.at, 2, row->says);
    else
        bw_climate_free(read_good(text.at));
    free(text.at);
}
END_TEST

SUITE("hourly", FACT(hourly_file_gives_monthly_means),
      FACT(vapour_pressures_are_averaged_not_humidities),
      FACT(short_gaps_are_filled_and_said),
      FACT(long_gaps_and_short_files_are_refused),
      FACT(one_column_with_a_long_gap_is_refused),
      FACT(hourly_fraction_and_kelvin_are_refused),
      FACT(leap_day_is_left_out_and_said),
      FACT(radiation_of_own_hourly_files_holds_at_half_past),
      FACT(an_hour_counts_for_its_month_its_day_and_its_octant),
      FACT(a_month_without_rain_has_an_even_rose),
      EACH(an_hour_s_vapour_lies_between_a_thousandth_and_saturation,
           COUNT(humid_rows)),
      EACH(a_year_that_is_never_moister_than_a_hundredth_is_in_another_unit,
           COUNT(dry_rows)),
      FACT(public_typical_years_are_read_as_they_are),
      FACT(missing_time_offset_is_found_from_the_radiation))
