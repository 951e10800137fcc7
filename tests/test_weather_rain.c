/* Rain, wind and direction of hours, from a course of weather made by hand, so
 * that each hour can be worked here: docs/methods.md, "Hourly weather from
 * monthly means". The figures of the rules are that page's estimates. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "suite.h"
#include "weather.h"

enum { FEBRUARY = 1, FIRST = 31 * 24, COUNT_OF = 28 * 24 };
#define PI 3.14159265358979323846

static double fair[BW_HOURS], warm[BW_HOURS], shower[BW_HOURS], gust[BW_HOURS];
static bw_climate_hour hours[BW_HOURS];
static bw_climate *climate;
static const bw_weather weather = {fair, warm, shower, gust};

/* Months of 60 mm and 5 m/s; the hours of a month grow fairer. */
static void set_up(void)
{
    memset(hours, 0, sizeof hours);
    climate = bw_climate_new("made");
    ck_assert_ptr_nonnull(climate);
    climate->has_prevailing_wind = true;
    climate->prevailing_wind = 225.0;
    for (int m = 0; m < BW_MONTHS; m++)
        climate->month[m] = (bw_climate_month){
            .has_rain = true, .rain = 60.0, .has_wind = true, .wind = 5.0};
    for (int h = 0; h < BW_HOURS; h++) {
        fair[h] = 1.0 + 1e-4 * h;
        warm[h] = shower[h] = gust[h] = 0.0;
    }
}

static void tear_down(void)
{
    bw_climate_free(climate);
}

static void make(void)
{
    memset(hours, 0, sizeof hours);
    ck_assert_int_eq(bw_weather_rain(climate, hours, &weather, NULL), BW_OK);
}

static int wet_hours(int month)
{
    int count = 0;
    for (int h = bw_month_first_hour(month); h < bw_month_first_hour(month + 1);
         h++)
        count += hours[h].rain > 0.0;
    return count;
}

/* ---- rain ------------------------------------------------------------------
 */

START_TEST(it_rains_in_the_dullest_hours_at_0_6_mm_an_hour_up_to_half_of_all)
{
    static const struct {
        double rain;
        int hours;
    } cases[] = {{60.0, 100}, {60.1, 101}, {0.1, 1}, {2000.0, COUNT_OF / 2}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        climate->month[FEBRUARY].rain = cases[i].rain;
        make();
        ck_assert_int_eq(wet_hours(FEBRUARY), cases[i].hours);
        ck_assert_int_eq(wet_hours(FEBRUARY + 1), 100); /* of its own alone */
        double sum = 0.0;
        for (int k = 0; k < COUNT_OF; k++) {
            const double rain = hours[FIRST + k].rain;
            ck_assert_int_eq(rain > 0.0, k < cases[i].hours);
            sum += rain;
        }
        ck_assert_double_eq_tol(sum, cases[i].rain, 1e-9 * cases[i].rain);
    }
}
END_TEST

/* A spell of 0.76, showers of 0.8 and a spell of 0.84, 50 hours each. */
START_TEST(a_shower_counts_four_fifths_of_a_dull_spell)
{
    for (int k = 0; k < COUNT_OF; k++)
        fair[FIRST + k] = 3.0 + 1e-4 * k;
    for (int k = 200; k < 250; k++) {
        fair[FIRST + k] = 0.0;
        shower[FIRST + k] = 1.0;
        fair[FIRST + 100 + k] = 0.84;
        fair[FIRST + 200 + k] = 0.76;
    }
    for (int spells = 1; spells < 3; spells++) {
        climate->month[FEBRUARY].rain = 0.6 * 50 * spells;
        make();
        for (int k = 0; k < COUNT_OF; k++)
            ck_assert_int_eq(hours[FIRST + k].rain > 0.0,
                             (k >= 400 && k < 450) ||
                                 (spells == 2 && k >= 200 && k < 250));
    }
}
END_TEST

static double day_of_february(int day)
{
    double sum = 0.0;
    for (int i = 0; i < 24; i++)
        sum += hours[FIRST + 24 * day + i].rain;
    return sum;
}

/* By -log of the pseudo-random number of the hour, and of the day times its wet
 * hours: exponential amounts. */
START_TEST(hours_and_days_share_the_rain_by_numbers_of_their_own)
{
    climate->month[FEBRUARY].rain = 0.6 * 240; /* ten whole days */
    make();
    for (int d = 0; d < 10; d++) {
        double per = -log(bw_weather_uniform(FIRST + 24 * d));
        per = hours[FIRST + 24 * d].rain / per;
        for (int h = FIRST + 24 * d; h < FIRST + 24 * (d + 1); h++)
            ck_assert_double_eq_tol(hours[h].rain / per,
                                    -log(bw_weather_uniform(h)), 1e-9);
        double of_days = log(bw_weather_uniform(BW_HOURS + 31 + d)) /
                         log(bw_weather_uniform(BW_HOURS + 31));
        ck_assert_double_eq_tol(day_of_february(d) / day_of_february(0),
                                of_days, 1e-9);
    }
}
END_TEST

/* It rains on five days, of the last of them four hours. */
START_TEST(the_wettest_day_is_met_as_far_as_the_wet_days_allow)
{
    bw_climate_month *month = &climate->month[FEBRUARY];
    month->has_wettest_day = true;
    month->wettest_day = 27.0;
    make();
    double most = 0.0, all = 0.0;
    for (int d = 0; d < 28; d++) {
        most = fmax(most, day_of_february(d));
        all += day_of_february(d);
    }
    ck_assert_double_eq_tol(most, 27.0, 1e-6);
    ck_assert_double_eq_tol(all, 60.0, 1e-9);
    month->wettest_day = 3.0; /* of 60 mm: at best each day the same */
    make();
    for (int d = 0; d < 28; d++)
        ck_assert_double_eq_tol(day_of_february(d), d < 5 ? 12.0 : 0.0, 1e-6);
    month->rain = 12.0; /* on one day */
    month->wettest_day = 6.0;
    make();
    ck_assert_double_eq_tol(day_of_february(0), 12.0, 1e-9);
}
END_TEST

/* ---- wind ------------------------------------------------------------------
 */

static double sky[BW_HOURS];

static void check_wind(int hour)
{
    double sum = 0.0;
    for (int k = 0; k < COUNT_OF; k++)
        sum += sky[FIRST + k];
    ck_assert_double_eq_tol(hours[hour].wind, 5.0 * sky[hour] * COUNT_OF / sum,
                            1e-9);
}

/* Without rain: 1, 0.35 a gust, 0.12 a dull spell, 0.12 at two o'clock, a tenth
 * at least. */
START_TEST(wind_follows_gusts_dull_spells_and_the_hour_of_the_day)
{
    for (int h = 0; h < BW_HOURS; h++) {
        fair[h] = h % 7 - 3;
        gust[h] = h % 11 - 5;
        sky[h] = 1.0 + 0.35 * gust[h] - 0.12 * fair[h] +
                 0.12 * cos(PI * (h % 24 - 14) / 12.0);
        sky[h] = sky[h] > 0.1 ? sky[h] : 0.1;
    }
    for (int m = 0; m < BW_MONTHS; m++)
        climate->month[m].rain = 0.0;
    make();
    for (int k = 0; k < COUNT_OF; k++)
        check_wind(FIRST + k);
    ck_assert_int_eq(wet_hours(FEBRUARY), 0);
}
END_TEST

/* The same hours with and without rain: what the wind of wet hours is times. */
static double times_in_rain(double wanted)
{
    climate->month[FEBRUARY].has_rain_wind = wanted > 0.0;
    climate->month[FEBRUARY].rain_wind = wanted;
    make();
    double wet = 0.0, dry = 0.0;
    for (int k = 0; k < COUNT_OF; k++) {
        const bw_climate_hour *hour = &hours[FIRST + k];
        double still = 1.0 - 0.12 * fair[FIRST + k] +
                       0.12 * cos(PI * (k % 24 - 14) / 12.0);
        if (hour->rain > 0.0)
            wet = hour->wind / still;
        else
            dry = hour->wind / still;
    }
    return wet / dry;
}

static double wind_in_rain(void)
{
    double rain = 0.0, driven = 0.0;
    for (int k = 0; k < COUNT_OF; k++) {
        rain += hours[FIRST + k].rain;
        driven += hours[FIRST + k].rain * hours[FIRST + k].wind;
    }
    return driven / rain;
}

START_TEST(wind_in_rain_is_what_the_month_says_within_a_fifth_and_fourfold)
{
    times_in_rain(6.5);
    ck_assert_double_eq_tol(wind_in_rain(), 6.5, 1e-9);
    times_in_rain(0.0); /* the month says nothing: 1.2 of its mean */
    ck_assert_double_eq_tol(wind_in_rain(), 6.0, 1e-9);
    ck_assert_double_eq_tol(times_in_rain(0.1), 0.2, 1e-9);
    ck_assert_double_eq_tol(times_in_rain(18.0), 4.0, 1e-9);
    climate->month[FEBRUARY].rain = 0.5; /* a drop is rain */
    times_in_rain(6.5);
    ck_assert_double_eq_tol(wind_in_rain(), 6.5, 1e-9);
    climate->month[FEBRUARY].wind = 0.8; /* and a breath is wind */
    times_in_rain(0.9);
    ck_assert_double_eq_tol(wind_in_rain(), 0.9, 1e-9);
}
END_TEST

/* ---- direction -------------------------------------------------------------
 */

/* Equally warm: hour by hour. Half of the rain times wind came before the
 * middle of an octant, when it is the only one. */
START_TEST(direction_runs_through_the_rose_from_the_coldest_hour_on)
{
    static const struct {
        double warmer; /* a step an hour */
        bool rises;
    } cases[] = {{0.0, true}, {0.01, true}, {-0.01, false}};
    bw_climate_month *month = &climate->month[FEBRUARY];
    month->rain = 0.0;
    month->has_rain_rose = true;
    month->rain_rose[4] = 1.0; /* S */
    for (size_t i = 0; i < COUNT(cases); i++) {
        for (int h = 0; h < BW_HOURS; h++)
            warm[h] = cases[i].warmer * h;
        make();
        for (int k = 0; k < COUNT_OF; k++) {
            double place = (k + 0.5) / COUNT_OF;
            place = cases[i].rises ? place : 1.0 - place;
            ck_assert_double_eq_tol(hours[FIRST + k].wind_from,
                                    157.5 + 45.0 * place, 1e-9);
        }
    }
}
END_TEST

/* From the octant opposite on, the wind of each octant has its share. */
START_TEST(rain_without_a_rose_comes_from_a_usual_one_around_the_wind)
{
    static const double shares[] = {0.244, 0.202, 0.116, 0.048,
                                    0.024, 0.048, 0.116, 0.202};
    climate->month[FEBRUARY].rain = 0.0;
    make();
    int k = 0;
    double upto = 0.0;
    for (int i = 0; i < 8; i++) {
        const int octant = (4 + i) % 8;
        const double from = 225.0 + 45.0 * (octant - 0.5);
        for (; (k + 0.5) / COUNT_OF < upto + shares[octant] && k < COUNT_OF;
             k++) {
            double want = from +
                          45.0 * ((k + 0.5) / COUNT_OF - upto) / shares[octant];
            ck_assert_double_eq_tol(hours[FIRST + k].wind_from,
                                    fmod(want + 360.0, 360.0), 1e-6);
        }
        upto += shares[octant];
    }
    ck_assert_int_eq(k, COUNT_OF);
}
END_TEST

/* Little rain is shared out by rain times wind as much is. */
START_TEST(a_tenth_of_a_millimetre_meets_the_rose_too)
{
    bw_climate_month *month = &climate->month[FEBRUARY];
    month->has_rain_rose = true;
    month->rain_rose[4] = month->rain_rose[5] = 0.5;
    month->rain = 0.1; /* one hour, half of it before the middle */
    make();
    ck_assert_double_eq_tol(hours[FIRST].wind_from, 202.5, 1e-6);
}
END_TEST

/* ---- what is told ----------------------------------------------------------
 */

static bool told(const char *words)
{
    for (size_t i = 0; i < climate->note_count; i++)
        if (strstr(climate->note[i].message, words) != NULL)
            return true;
    return false;
}

START_TEST(a_missing_direction_is_told_where_there_is_rain_and_wind)
{
    for (int i = 0; i < 8; i++) {
        const bool rain = i & 1, wind = i & 2, rose = i & 4;
        bw_climate_free(climate);
        set_up();
        climate->has_prevailing_wind = false;
        for (int m = 0; m < BW_MONTHS; m++) {
            climate->month[m].has_rain = rain;
            climate->month[m].has_wind = wind;
            climate->month[m].has_rain_rose = rose;
            climate->month[m].rain_rose[4] = 1.0;
        }
        make();
        ck_assert_int_eq(told("has no direction"), rain && wind && !rose);
        ck_assert_int_eq(climate->columns.wind_from, wind && rose);
    }
}
END_TEST

SUITE_AROUND(
    "weather_rain", set_up, tear_down,
    FACT(it_rains_in_the_dullest_hours_at_0_6_mm_an_hour_up_to_half_of_all),
    FACT(a_shower_counts_four_fifths_of_a_dull_spell),
    FACT(hours_and_days_share_the_rain_by_numbers_of_their_own),
    FACT(the_wettest_day_is_met_as_far_as_the_wet_days_allow),
    FACT(wind_follows_gusts_dull_spells_and_the_hour_of_the_day),
    FACT(wind_in_rain_is_what_the_month_says_within_a_fifth_and_fourfold),
    FACT(direction_runs_through_the_rose_from_the_coldest_hour_on),
    FACT(rain_without_a_rose_comes_from_a_usual_one_around_the_wind),
    FACT(a_tenth_of_a_millimetre_meets_the_rose_too),
    FACT(a_missing_direction_is_told_where_there_is_rain_and_wind))
