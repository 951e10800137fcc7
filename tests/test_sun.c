/* The sun and irradiance on a plane, against figures from outside the
 * project. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/climate.h"
#include "measured.h"
#include "shared_data.h"
#include "suite.h"
#include "sun_figures.h"

#define RADIANS (3.14159265358979323846 / 180.0)

static double day_of_year(int month, int day, int hour)
{
    static const int before[] = {0,   31,  59,  90,  120, 151,
                                 181, 212, 243, 273, 304, 334};
    return before[month - 1] + day - 1 + (hour + 0.5) / 24.0;
}

START_TEST(position_meets_the_nrel_algorithm_within_001_degrees)
{
    double worst = 0.0;
    for (size_t i = 0; i < COUNT(positions); i++) {
        bw_sun sun = bw_sun_position(
            positions[i].latitude, positions[i].longitude,
            day_of_year(positions[i].month, positions[i].day,
                        positions[i].hour));
        farther(&worst, sun.elevation, positions[i].elevation);
        double turn = remainder(sun.azimuth - positions[i].azimuth, 360.0);
        farther(&worst, turn * cos(sun.elevation * RADIANS), 0.0);
        ck_assert(sun.azimuth >= 0.0 && sun.azimuth < 360.0);
    }
    measured("sun-position", worst, 0.01, "degrees");
}
END_TEST

START_TEST(extraterrestrial_is_strongest_in_january)
{
    /* 1412.985 in January, 1322 in July by the same library, from another
     * solar constant (1366.1): within 0.5 %. */
    ck_assert_double_eq_tol(
        bw_sun_position(45, 8, 14.5).extraterrestrial / 1412.985, 1.0, 0.005);
    ck_assert_double_lt(bw_sun_position(45, 8, 184.5).extraterrestrial,
                        bw_sun_position(45, 8, 2.5).extraterrestrial * 0.94);
}
END_TEST

START_TEST(poles_have_half_a_year_of_night)
{
    for (int day = 0; day < 365; day += 5) {
        bool summer = day > 85 && day < 260, winter = day < 75 || day > 270;
        double north = bw_sun_position(90.0, 0.0, day).elevation;
        double south = bw_sun_position(-90.0, 0.0, day).elevation;
        ck_assert(!summer || (north > 0.0 && south < 0.0));
        ck_assert(!winter || (north < 0.0 && south > 0.0));
        ck_assert_double_eq_tol(north + south, 0.0, 0.01);
    }
}
END_TEST

START_TEST(walls_meet_the_perez_figures_within_1_w_and_05_percent)
{
    static const double azimuth[4] = {0.0, 90.0, 180.0, 270.0};
    double squares = 0.0;
    for (size_t i = 0; i < COUNT(walls); i++) {
        bw_sun sun = bw_sun_position(56.273, 9.987, walls[i].hour / 24.0);
        sun.elevation = walls[i].elevation;
        sun.azimuth = walls[i].azimuth;
        for (int w = 0; w < 4; w++) {
            double got = bw_plane_irradiance(
                sun, walls[i].direct, walls[i].diffuse, azimuth[w], 90.0, 0.2);
            double miss = got - walls[i].wall[w];
            ck_assert_double_le(fabs(miss), 1.0 + 0.005 * walls[i].wall[w]);
            squares += miss * miss / (4.0 * COUNT(walls));
        }
    }
    measured("sun-walls", sqrt(squares), 0.3, "W/m2 rms");
}
END_TEST

START_TEST(level_plane_receives_beam_and_diffuse)
{
    bw_sun sun = {
        .elevation = 30.0, .azimuth = 200.0, .extraterrestrial = 1361.0};
    /* Exact up to the disc's floor: the dome, the disc and the beam all are
     * seen in full from a level plane. */
    ck_assert_double_eq_tol(bw_plane_irradiance(sun, 600, 100, 123, 0, 0.2),
                            600 * 0.5 + 100, 1e-9);
}
END_TEST

START_TEST(a_wall_facing_away_gets_no_beam)
{
    bw_sun sun = {
        .elevation = 20.0, .azimuth = 180.0, .extraterrestrial = 1361.0};
    ck_assert_double_eq_tol(bw_plane_irradiance(sun, 800, 0, 0, 90, 0.0), 0.0,
                            1e-12);
    ck_assert_double_eq_tol(bw_plane_irradiance(sun, 800, 0, 180, 90, 0.0),
                            800 * cos(20.0 * RADIANS), 1e-9);
}
END_TEST

START_TEST(irradiance_is_never_negative_and_zero_without_light)
{
    for (int i = 0; i < 20000; i++) {
        bw_sun sun = {.elevation = -10.0 + i % 100,
                      .azimuth = (i * 37) % 360,
                      .extraterrestrial = 1361.0};
        double direct = (i * 13) % 1000, diffuse = (i * 7) % 500;
        double azimuth = (i * 11) % 360, tilt = (i * 3) % 181;
        double lit = bw_plane_irradiance(sun, direct, diffuse, azimuth, tilt,
                                         0.2);
        ck_assert(isfinite(lit) && lit >= 0.0);
        ck_assert_double_eq(bw_plane_irradiance(sun, 0, 0, azimuth, tilt, 0.2),
                            0.0);
    }
}
END_TEST

/* The next two read a public typical year and the hourly reference made from
 * it; neither is part of the project. */

START_TEST(every_hour_of_a_typical_year_meets_the_perez_figures)
{
    char path[512], reference[512];
    if (!shared_file(path, sizeof path,
                     "pvgis/tmy_56.273_9.987_2007_2016.csv") ||
        !shared_file(reference, sizeof reference,
                     "poa_vertical_reference_Hinnerup.csv"))
        return;
    bw_climate *climate = NULL;
    ck_assert_int_eq(bw_climate_read(&climate, path, NULL), BW_OK);
    FILE *file = fopen(reference, "r");
    ck_assert_ptr_nonnull(file);
    char line[256];
    ck_assert_ptr_nonnull(fgets(line, sizeof line, file));
    double squares[4] = {0}, sum[4] = {0}, expected[4] = {0};
    size_t hours = 0;
    for (; fgets(line, sizeof line, file) != NULL; hours++) {
        double want[4];
        ck_assert_int_eq(
            sscanf(line, "%*[^,],%*[^,],%*[^,],%*f,%*f,%*f,%*f,%lf,%lf,%lf,%lf",
                   &want[0], &want[1], &want[2], &want[3]),
            4);
        const bw_climate_hour *hour = &climate->hour[hours];
        bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                     ((double)hours + climate->time_offset) /
                                         24.0);
        for (int w = 0; w < 4; w++) {
            double got = bw_plane_irradiance(sun, hour->direct_normal,
                                             hour->diffuse_horizontal, 90.0 * w,
                                             90.0, 0.2);
            squares[w] += (got - want[w]) * (got - want[w]);
            sum[w] += got;
            expected[w] += want[w];
        }
    }
    fclose(file);
    bw_climate_free(climate);
    ck_assert_uint_eq(hours, 8760);
    for (int w = 0; w < 4; w++) {
        printf("wall facing %d: rms %.2f W/m2, year %+.2f %%\n", 90 * w,
               sqrt(squares[w] / 8760), 100 * (sum[w] / expected[w] - 1));
        ck_assert_double_lt(sqrt(squares[w] / 8760), 3.0);
        ck_assert_double_eq_tol(sum[w] / expected[w], 1.0, 0.01);
    }
}
END_TEST

START_TEST(monthly_walls_meet_the_perez_months)
{
    /* kWh/m2 in the month, N E S W: January, April, June, September,
     * December [computed with a public general-purpose solar library from the
     * same typical year; PVGIS (c) European Union]. */
    static const struct {
        int month, days;
        double wall[4];
    } months[] = {
        {0, 31, {3.81, 6.73, 16.49, 6.35}},
        {3, 30, {33.92, 75.05, 96.5, 75.54}},
        {5, 30, {58.05, 98.15, 95.27, 110.96}},
        {8, 30, {27.1, 60.13, 90.49, 58.2}},
        {11, 31, {4.51, 9.49, 39.84, 10.48}},
    };
    char path[512];
    if (!shared_file(path, sizeof path, "pvgis/tmy_56.273_9.987_2007_2016.csv"))
        return;
    bw_climate *climate = NULL;
    ck_assert_int_eq(bw_climate_read(&climate, path, NULL), BW_OK);
    for (int w = 0; w < 4; w++) {
        double mean[BW_MONTHS];
        ck_assert(bw_climate_irradiance(climate, 90.0 * w, 90.0, mean));
        for (size_t i = 0; i < COUNT(months); i++) {
            double kwh = mean[months[i].month] * 24 * months[i].days / 1000;
            ck_assert_double_eq_tol(kwh, months[i].wall[w],
                                    0.1 + 0.01 * months[i].wall[w]);
        }
    }
    bw_climate_free(climate);
}
END_TEST

SUITE("sun", FACT(position_meets_the_nrel_algorithm_within_001_degrees),
      FACT(extraterrestrial_is_strongest_in_january),
      FACT(poles_have_half_a_year_of_night),
      FACT(walls_meet_the_perez_figures_within_1_w_and_05_percent),
      FACT(level_plane_receives_beam_and_diffuse),
      FACT(a_wall_facing_away_gets_no_beam),
      FACT(irradiance_is_never_negative_and_zero_without_light),
      FACT(every_hour_of_a_typical_year_meets_the_perez_figures),
      FACT(monthly_walls_meet_the_perez_months))
