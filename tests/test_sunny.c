/* The sun on a plane while it shines, from monthly means. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "climate_make.h"
#include "shared_data.h"
#include "split.h"
#include "suite.h"

static double irradiance[BW_MONTHS], share[BW_MONTHS];

static bool sunny(double latitude, double azimuth, double tilt, double mean)
{
    const bw_climate climate = {.has_position = true, .latitude = latitude};
    double means[BW_MONTHS];
    for (int m = 0; m < BW_MONTHS; m++)
        means[m] = mean;
    return bw_climate_sunny(&climate, azimuth, tilt, means, irradiance, share);
}

/* Brighter than any sky: every day is clear, and the sun stands before the
 * plane as long as geometry lets it: at the equator half the day over a level
 * plane, a quarter before a wall facing east or west. */
START_TEST(on_clear_days_the_sun_is_before_a_plane_as_long_as_geometry_lets_it)
{
    static const struct {
        double azimuth, tilt, share;
    } planes[] = {{0, 0, .5}, {90, 90, .25}, {270, 90, .25}};
    for (size_t i = 0; i < COUNT(planes); i++) {
        ck_assert(sunny(0, planes[i].azimuth, planes[i].tilt, 900));
        for (int m = 0; m < BW_MONTHS; m++)
            ck_assert_double_eq_tol(share[m], planes[i].share, .5 / 24 + 1e-9);
    }
}
END_TEST

START_TEST(the_sunny_hours_bring_no_more_than_the_month)
{
    for (int step = 0; step < 40; step++) {
        double mean = 10.0 * step;
        ck_assert(sunny(50, 45.0 * (step % 8), 90, mean));
        for (int m = 0; m < BW_MONTHS; m++) {
            ck_assert_double_le(share[m] * irradiance[m], mean + 1e-9);
            ck_assert_double_ge(irradiance[m], mean);
            ck_assert(share[m] > 0.0 && share[m] <= 1.0);
        }
    }
}
END_TEST

START_TEST(light_without_sun_keeps_its_mean)
{
    ck_assert(sunny(50, 0, 90, 20)); /* a north wall */
    ck_assert_double_eq(irradiance[11], 20);
    ck_assert_double_eq(share[11], 1);
    ck_assert(sunny(50, 180, 90, 1)); /* duller than any overcast sky */
    ck_assert_double_eq(irradiance[6], 1);
    ck_assert_double_eq(share[6], 1);
}
END_TEST

/* Irradiance of a clear day's beam and a fifth of diffuse beside it, and of a
 * quarter of what is outside the atmosphere, all diffuse; the day in the middle
 * of the month in half hours: the formulas at the head of sunny.c worked again.
 */
static void worked_again(double latitude, double azimuth, double tilt,
                         double mean, int month, double *bright, double *part)
{
    static const int middle[] = {15,  45,  74,  105, 135, 166,
                                 196, 227, 258, 288, 319, 349};
    double clear = 0, dull = 0, seen = 0, steps = 0;
    for (int i = 0; i < 48; i++) {
        const bw_sun sun = bw_sun_position(latitude, 0,
                                           middle[month] + (i + 0.5) / 48);
        if (sun.elevation <= 0)
            continue;
        const double up = sin(sun.elevation * acos(-1.0) / 180);
        const double beam = sun.extraterrestrial *
                            pow(0.7, pow(bw_air_mass(sun.elevation), 0.678));
        const double whole = bw_plane_irradiance(
            sun, beam, beam * up * 0.18 / 0.82, azimuth, tilt, 0.2);
        clear += whole / 48;
        dull += bw_plane_irradiance(sun, 0, 0.25 * sun.extraterrestrial * up,
                                    azimuth, tilt, 0.2) /
                48;
        /* the beam alone, without sky or ground */
        if (bw_plane_irradiance(sun, beam, 0, azimuth, tilt, 0) > 0) {
            seen += whole;
            steps++;
        }
    }
    const double days = fmin((mean - dull) / (clear - dull), 1);
    *bright = fmax(mean / clear, 1) * seen / steps;
    *part = days * steps / 48;
    if (!(clear > dull && mean > dull && steps > 0 && *bright > mean)) {
        *bright = mean;
        *part = 1;
    }
}

START_TEST(the_share_of_clear_days_is_the_one_that_gives_the_mean)
{
    int shining = 0;
    for (int step = 0; step < 40; step++) {
        const double latitude = 20 + 10 * (step % 4), tilt = 90 - step,
                     azimuth = 90 + 15 * (step % 10), mean = 15 + 13 * step;
        ck_assert(sunny(latitude, azimuth, tilt, mean));
        for (int m = 0; m < BW_MONTHS; m++) {
            double bright, part;
            worked_again(latitude, azimuth, tilt, mean, m, &bright, &part);
            ck_assert_double_eq_tol(irradiance[m], bright, 1e-9 * bright);
            ck_assert_double_eq_tol(share[m], part, 1e-9);
            shining += part < 1;
        }
    }
    ck_assert_int_gt(shining, 300);
}
END_TEST

START_TEST(without_latitude_or_angle_there_is_no_answer)
{
    const bw_climate nowhere = {.has_position = false};
    const double mean[BW_MONTHS] = {0};
    ck_assert(!bw_climate_sunny(&nowhere, 0, 90, mean, irradiance, share));
    ck_assert(!sunny(50, (double)NAN, 90, 100));
    ck_assert(!sunny(50, 0, (double)INFINITY, 100));
}
END_TEST

/* Mean of a month's hours with the sun before the wall and a beam of 120 W/m2
 * or more (sunshine as the WMO counts it, from memory, high confidence). */
static double measured(const bw_climate *climate, double azimuth, int first,
                       int end, double *part)
{
    double sum = 0;
    int hours = 0;
    for (int h = first; h < end; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        bw_sun sun = bw_sun_position(climate->latitude, climate->longitude,
                                     (h + climate->time_offset) / 24.0);
        const double side = cos((sun.azimuth - azimuth) * acos(-1.0) / 180.0);
        if (hour->direct_normal < 120 || sun.elevation <= 0 || side <= 0)
            continue;
        sum += bw_plane_irradiance(sun, hour->direct_normal,
                                   hour->diffuse_horizontal, azimuth, 90, .2);
        hours++;
    }
    *part = (double)hours / (end - first);
    return hours > 0 ? sum / hours : 0;
}

/* Not from the hours, but near what they say, March to September: 3 to 15 %
 * above in irradiance, 2 to 18 % below in time. */
START_TEST(two_typical_years_have_sunny_hours_like_these)
{
    static const char *const files[] = {"pvgis/tmy_45.000_8.000_2005_2023.csv",
                                        "pvgis/tmy_56.273_9.987_2007_2016.csv"};
    char path[512];
    if (!shared_file(path, sizeof path, files[_i]))
        return;
    bw_climate *climate = NULL;
    ck_assert_int_eq(bw_climate_read(&climate, path, NULL), BW_OK);
    for (int w = 1; w < 4; w++) {
        double mean[BW_MONTHS], ours = 0, theirs = 0, our_part = 0, part = 0;
        int hour = 0;
        ck_assert(bw_climate_irradiance(climate, 90.0 * w, 90, mean));
        ck_assert(
            bw_climate_sunny(climate, 90.0 * w, 90, mean, irradiance, share));
        for (int m = 0; m < BW_MONTHS; m++) {
            int end = hour + (int)(bw_month_seconds(m) / 3600.0 + .5);
            double month_part,
                sun = measured(climate, 90.0 * w, hour, end, &month_part);
            hour = end;
            if (m < 2 || m > 8)
                continue;
            ours += irradiance[m] / 7, theirs += sun / 7;
            our_part += share[m] / 7, part += month_part / 7;
        }
        printf("facing %d: %.0f and %.0f W/m2, %.3f and %.3f of the time\n",
               90 * w, ours, theirs, our_part, part);
        ck_assert_double_eq_tol(ours, theirs, .17 * theirs);
        ck_assert_double_eq_tol(our_part, part, .20 * part);
    }
    bw_climate_free(climate);
}
END_TEST

/* ---- parts of the sun ------------------------------------------------------
 */

/* D. Erbs, S. Klein, J. Duffie, Solar Energy 28 (1982) 293-302 [from memory,
 * high]: 1 - 0.09 k up to 0.22; 0.9511 - 0.1604 k + 4.388 k2 - 16.638 k3
 * + 12.336 k4 up to 0.80; 0.165. By hand. */
static const double erbs[][2] = {
    {0.0, 1.0},       {0.1, 0.991},    {0.22, 0.9802},   {0.2201, 0.979916},
    {0.35, 0.904253}, {0.5, 0.659150}, {0.65, 0.333612}, {0.8, 0.165270},
    {0.8001, 0.165},  {1.0, 0.165},
};

START_TEST(the_diffuse_part_is_that_of_its_source)
{
    ck_assert_double_eq_tol(bw_diffuse_part(erbs[_i][0]), erbs[_i][1], 1e-5);
    ck_assert_double_le(bw_diffuse_part(erbs[_i][0]), 1.0);
}
END_TEST

/* Beam 30 degrees high: sine 0.5; on top of the atmosphere 1400 W/m2. */
static const struct split_row {
    double elevation, beam, sky; /* degrees, W/m2 on the horizontal */
    double direct, diffuse;
} split_rows[] = {
    {30.0, 100.0, 80.0, 200.0, 80.0},
    {30.0, 0.0, 80.0, 0.0, 80.0},
    {30.0, 700.0, 80.0, 1400.0, 80.0},
    {30.0, 800.0, 80.0, 1400.0, 180.0}, /* no more than is there */
    {0.0, 100.0, 80.0, 0.0, 180.0},
    {-5.0, 100.0, 80.0, 0.0, 180.0},
};

START_TEST(beam_on_the_horizontal_is_turned_to_the_sun)
{
    const struct split_row *row = &split_rows[_i];
    const bw_sun sun = {.elevation = row->elevation,
                        .extraterrestrial = 1400.0};
    double direct, diffuse;
    bw_split_beam(&direct, &diffuse, sun, row->beam, row->sky);
    ck_assert_double_eq_tol(direct, row->direct, 1e-9);
    ck_assert_double_eq_tol(diffuse, row->diffuse, 1e-9);
}
END_TEST

/* Clearness 350/700 = 0.5: 0.65915 of 350 W/m2 are diffuse. */
START_TEST(global_sun_is_parted_by_its_clearness)
{
    const bw_sun up = {.elevation = 30.0, .extraterrestrial = 1400.0};
    const bw_sun down = {.elevation = -1.0, .extraterrestrial = 1400.0};
    double direct, diffuse;
    bw_split_global(&direct, &diffuse, up, 350.0);
    ck_assert_double_eq_tol(diffuse, 230.70, 0.02);
    ck_assert_double_eq_tol(direct, 2.0 * 119.30, 0.04);
    bw_split_global(&direct, &diffuse, down, 3.0);
    ck_assert_double_eq_tol(diffuse, 3.0, 1e-12);
    ck_assert_double_eq(direct, 0.0);
}
END_TEST

SUITE("sunny", EACH(the_diffuse_part_is_that_of_its_source, COUNT(erbs)),
      EACH(beam_on_the_horizontal_is_turned_to_the_sun, COUNT(split_rows)),
      FACT(global_sun_is_parted_by_its_clearness),
      FACT(on_clear_days_the_sun_is_before_a_plane_as_long_as_geometry_lets_it),
      FACT(the_sunny_hours_bring_no_more_than_the_month),
      FACT(light_without_sun_keeps_its_mean),
      FACT(the_share_of_clear_days_is_the_one_that_gives_the_mean),
      FACT(without_latitude_or_angle_there_is_no_answer),
      EACH(two_typical_years_have_sunny_hours_like_these, 2))
