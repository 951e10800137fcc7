/* The sun and irradiance on a plane, against figures from outside the
 * project. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/climate.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])
#define RADIANS (3.14159265358979323846 / 180.0)

/* True elevation and azimuth in 2019 by the NREL solar position algorithm
 * [computed with a public general-purpose solar library]; hours are at half
 * past. */
static const struct {
    double latitude, longitude;
    int month, day, hour;
    double elevation, azimuth;
} positions[] = {
    {45.0, 8.0, 1, 15, 7, 3.2232, 124.5805},
    {45.0, 8.0, 3, 20, 2, -31.0790, 53.5974},
    {45.0, 8.0, 3, 20, 21, -37.1510, 319.2359},
    {45.0, 8.0, 6, 21, 16, 26.6489, 277.3220},
    {45.0, 8.0, 9, 23, 11, 44.8891, 183.3717},
    {45.0, 8.0, 12, 21, 6, -5.8455, 117.5806},
    {58.21, -6.32, 1, 15, 1, -51.6471, 21.1370},
    {58.21, -6.32, 1, 15, 20, -32.8461, 283.2860},
    {58.21, -6.32, 3, 20, 15, 22.0503, 228.8977},
    {58.21, -6.32, 6, 21, 10, 49.4418, 136.4049},
    {58.21, -6.32, 9, 23, 5, -6.2344, 79.7787},
    {58.21, -6.32, 12, 21, 0, -55.1992, 2.8346},
    {58.21, -6.32, 12, 21, 19, -28.4697, 270.9202},
    {60.38, 5.33, 1, 15, 14, 2.1580, 217.3144},
    {60.38, 5.33, 3, 20, 9, 23.9703, 142.1881},
    {60.38, 5.33, 6, 21, 4, 12.0439, 63.4200},
    {60.38, 5.33, 6, 21, 23, -6.1595, 357.5714},
    {60.38, 5.33, 9, 23, 18, -7.3799, 282.8017},
    {60.38, 5.33, 12, 21, 13, 3.0572, 205.8646},
    {56.273, 9.987, 1, 15, 8, 3.8497, 138.7735},
    {56.273, 9.987, 3, 20, 3, -16.0975, 65.0221},
    {56.273, 9.987, 3, 20, 22, -32.5314, 342.8784},
    {56.273, 9.987, 6, 21, 17, 18.2172, 285.1331},
    {56.273, 9.987, 9, 23, 12, 31.5102, 202.9051},
    {56.273, 9.987, 12, 21, 7, -3.0424, 129.6198},
    {-33.87, 151.2, 1, 15, 2, 76.1184, 334.3153},
    {-33.87, 151.2, 1, 15, 21, 28.8181, 97.1459},
    {-33.87, 151.2, 3, 20, 16, -41.5906, 126.7426},
    {-33.87, 151.2, 6, 21, 11, -56.3243, 261.7503},
    {-33.87, 151.2, 9, 23, 6, 16.0192, 281.1403},
    {-33.87, 151.2, 12, 21, 1, 78.4215, 27.1183},
    {-33.87, 151.2, 12, 21, 20, 20.0682, 105.3512},
    {69.65, 18.94, 1, 15, 15, -12.8098, 243.3561},
    {69.65, 18.94, 3, 20, 10, 20.0629, 174.1903},
    {69.65, 18.94, 6, 21, 5, 25.7112, 91.6609},
    {69.65, 18.94, 9, 23, 0, -17.7171, 29.8340},
    {69.65, 18.94, 9, 23, 19, -13.9977, 311.4679},
    {69.65, 18.94, 12, 21, 14, -11.4734, 231.6959},
};

/* Vertical irradiance [W/m2] on N, E, S, W, albedo 0.2, Perez 1990 sky, for
 * the sun position, beam and diffuse beside it [computed with a public
 * general-purpose solar library from a public typical year, 56.273 N 9.987 E;
 * PVGIS (c) European Union]. */
static const struct {
    int hour;
    double elevation, azimuth, direct, diffuse, wall[4];
} walls[] = {
    {202, 10.077, 162.332, 0.0, 13.0, {6.67, 6.67, 6.67, 6.67}}, /* 0109:1000 */
    {612, 14.672, 189.64, 0.0, 44.0, {22.87, 22.87, 22.87, 22.87}}, /* 0126:1200
                                                                     */
    {951,
     5.923,
     232.332,
     483.63,
     25.0,
     {23.47, 23.47, 359.19, 458.34}}, /* 0209:1500
                                       */
    {1279,
     4.931,
     115.987,
     0.0,
     20.0,
     {10.36, 10.36, 10.36, 10.36}}, /* 0223:0700
                                     */
    {1546,
     26.001,
     157.934,
     2.29,
     142.0,
     {71.46, 78.71, 89.34, 71.46}}, /* 0306:1000
                                     */
    {1807,
     12.87,
     112.689,
     587.24,
     56.0,
     {48.64, 657.61, 303.24, 48.64}},                           /* 0317:0700
                                                                 */
    {2033, 3.862, 268.475, 0.0, 4.0, {2.04, 2.04, 2.04, 2.04}}, /* 0326:1700 */
    {2263,
     19.947,
     109.936,
     0.0,
     32.0,
     {16.58, 16.58, 16.58, 16.58}}, /* 0405:0700
                                     */
    {2464,
     17.108,
     260.769,
     71.16,
     126.0,
     {63.76, 63.76, 84.56, 191.7}}, /* 0413:1600
                                     */
    {2675,
     45.959,
     177.694,
     886.85,
     116.0,
     {125.61, 153.09, 808.12, 125.61}}, /* 0422:1100 */
    {2864,
     35.659,
     120.607,
     135.85,
     284.0,
     {138.28, 334.21, 254.19, 138.28}}, /* 0430:0800 */
    {3040,
     22.985,
     266.331,
     358.68,
     156.0,
     {93.33, 93.33, 121.0, 525.0}}, /* 0507:1600
                                     */
    {3225,
     46.027,
     135.286,
     229.81,
     348.0,
     {170.91, 362.64, 364.56, 170.91}}, /* 0515:0900 */
    {3401,
     17.584,
     280.792,
     0.0,
     42.0,
     {21.82, 21.82, 21.82, 21.82}},                             /* 0522:1700
                                                                 */
    {3571, 3.482, 305.225, 0.0, 3.0, {1.53, 1.53, 1.53, 1.53}}, /* 0529:1900 */
    {3736,
     27.841,
     269.584,
     715.13,
     106.0,
     {93.97, 93.97, 99.24, 821.46}}, /* 0605:1600
                                      */
    {3898,
     54.64,
     152.335,
     559.6,
     272.0,
     {163.88, 363.61, 544.88, 163.88}},                         /* 0612:1000 */
    {4060, 10.289, 62.89, 0.0, 11.0, {5.64, 5.64, 5.64, 5.64}}, /* 0619:0400 */
    {4215,
     37.237,
     256.018,
     0.0,
     152.0,
     {77.55, 77.55, 79.79, 86.56}}, /* 0625:1500
                                     */
    {4377,
     48.941,
     130.252,
     9.3,
     287.0,
     {140.34, 167.3, 163.16, 140.34}}, /* 0702:0900
                                        */
    {4543,
     33.184,
     99.214,
     211.26,
     250.0,
     {128.44, 408.16, 173.81, 128.44}}, /* 0709:0700 */
    {4712,
     40.225,
     113.983,
     0.0,
     112.0,
     {58.55, 60.38, 59.36, 58.55}}, /* 0716:0800
                                     */
    {4881,
     46.055,
     131.452,
     2.79,
     245.0,
     {121.2, 139.55, 137.41, 121.2}}, /* 0723:0900
                                       */
    {5052,
     51.287,
     197.396,
     308.36,
     356.0,
     {177.34, 177.34, 479.28, 271.94}}, /* 0730:1200 */
    {5237,
     11.617,
     77.986,
     0.0,
     21.0,
     {10.82, 10.82, 10.82, 10.82}}, /* 0807:0500
                                     */
    {5414,
     37.151,
     234.268,
     740.51,
     136.0,
     {117.06, 117.06, 518.69, 675.32}}, /* 0814:1400 */
    {5607,
     27.366,
     248.214,
     12.88,
     176.0,
     {86.92, 86.92, 102.79, 126.61}}, /* 0822:1500
                                       */
    {5816,
     29.749,
     123.469,
     0.0,
     48.0,
     {25.06, 25.06, 25.06, 25.06}}, /* 0831:0800
                                     */
    {6017,
     5.205,
     271.838,
     91.34,
     38.0,
     {27.36, 22.0, 22.0, 189.12}}, /* 0908:1700
                                    */
    {6232,
     10.187,
     257.998,
     21.72,
     66.0,
     {33.9, 33.9, 46.07, 91.15}}, /* 0917:1600
                                   */
    {6488,
     21.243,
     131.108,
     43.67,
     156.0,
     {77.32, 157.29, 147.11, 77.32}}, /* 0928:0800
                                       */
    {6731,
     27.875,
     181.211,
     25.96,
     196.0,
     {96.47, 96.47, 157.98, 97.77}}, /* 1008:1100
                                      */
    {7017,
     19.454,
     150.423,
     586.44,
     100.0,
     {79.25, 402.19, 648.26, 79.25}}, /* 1020:0900 */
    {7310,
     9.057,
     225.888,
     578.26,
     41.0,
     {38.58, 38.58, 483.73, 497.74}}, /* 1101:1400
                                       */
    {7668,
     13.616,
     196.353,
     0.0,
     24.0,
     {12.38, 12.38, 12.38, 12.38}}, /* 1116:1200
                                     */
    {8053,
     7.592,
     208.502,
     22.74,
     48.0,
     {25.08, 25.08, 69.62, 49.27}}, /* 1202:1300
                                     */
    {8509,
     6.711,
     206.161,
     0.0,
     26.0,
     {13.48, 13.48, 13.48, 13.48}}, /* 1221:1300
                                     */
};

static double day_of_year(int month, int day, int hour)
{
    static const int before[] = {0,   31,  59,  90,  120, 151,
                                 181, 212, 243, 273, 304, 334};
    return before[month - 1] + day - 1 + (hour + 0.5) / 24.0;
}

START_TEST(position_meets_the_nrel_algorithm_within_001_degrees)
{
    for (size_t i = 0; i < COUNT(positions); i++) {
        bw_sun sun = bw_sun_position(
            positions[i].latitude, positions[i].longitude,
            day_of_year(positions[i].month, positions[i].day,
                        positions[i].hour));
        ck_assert_double_eq_tol(sun.elevation, positions[i].elevation, 0.01);
        double turn = remainder(sun.azimuth - positions[i].azimuth, 360.0);
        ck_assert_double_eq_tol(turn * cos(sun.elevation * RADIANS), 0.0, 0.01);
        ck_assert(sun.azimuth >= 0.0 && sun.azimuth < 360.0);
    }
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
    ck_assert_double_lt(sqrt(squares), 0.3);
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

static bool shared_file(char *path, size_t size, const char *name)
{
    const char *directory = getenv("BOTHWAYS_SHARED_DATA");
    if (directory != NULL) {
        snprintf(path, size, "%s/%s", directory, name);
        FILE *file = fopen(path, "r");
        if (file != NULL) {
            fclose(file);
            return true;
        }
    }
    printf("skipped: BOTHWAYS_SHARED_DATA has no %s\n", name);
    return false;
}

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

int main(void)
{
    Suite *suite = suite_create("sun");
    TCase *tests = tcase_create("sun");
    tcase_add_test(tests, position_meets_the_nrel_algorithm_within_001_degrees);
    tcase_add_test(tests, extraterrestrial_is_strongest_in_january);
    tcase_add_test(tests, poles_have_half_a_year_of_night);
    tcase_add_test(tests,
                   walls_meet_the_perez_figures_within_1_w_and_05_percent);
    tcase_add_test(tests, level_plane_receives_beam_and_diffuse);
    tcase_add_test(tests, a_wall_facing_away_gets_no_beam);
    tcase_add_test(tests, irradiance_is_never_negative_and_zero_without_light);
    tcase_add_test(tests, every_hour_of_a_typical_year_meets_the_perez_figures);
    tcase_add_test(tests, monthly_walls_meet_the_perez_months);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
