/* Hours made from the months of a hard winter, beside the hours that these
 * months are the means of: outdoor air of January to April 2021 in the south of
 * Finland (Finnish Meteorological Institute, open data, CC BY 4.0, in the
 * TRH-database beside building R1, CC BY 4.0). May to December: Helsinki
 * Vantaa, means of 2003-2021 (DWD CDC, CLIMAT reports, CC BY 4.0). */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate_help.h"
#include "suite.h"

static bw_climate *months_with(double january, double theta, double february,
                               double december)
{
    char text[1024];
    snprintf(text, sizeof text,
             "# latitude: 60.3\n# longitude: 25.0\n"
             "month,temperature_C,vapour_pressure_Pa\n"
             "1,-5.16,%.6f\n2,%.6f,%.6f\n3,-0.85,471.0\n4,3.84,538.1\n"
             "5,11.14,851\n6,15.08,1129\n7,18.8,1497\n8,16.66,1458\n"
             "9,11.96,1182\n10,6.0,846\n11,1.8,667\n12,-1.92,%.6f\n",
             january, theta, february, december);
    return read_good(text);
}

static bw_climate *as_measured(void)
{
    return months_with(408.5, -8.32, 325.5, 517.0);
}

/* December and January with room for vapour, so that they are not spread. */
static bw_climate *february_alone(double theta, double vapour_pressure)
{
    return months_with(370.0, theta, vapour_pressure, 470.0);
}

static bw_climate *made_of(const bw_climate *months)
{
    bw_climate *hours = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_climate_generate(&hours, months, &err) == BW_OK, "%s",
                  err.message);
    return hours;
}

/* Of the hours of a month. */
struct looks {
    double theta, p; /* means, degC and Pa */
    double spread;   /* K, of the means of its days */
    double room;     /* mean vapour pressure / mean saturation */
    int full;        /* hours at saturation or above */
};

static struct looks look_at(const bw_climate *climate, int month)
{
    int first = FIRST_DAY[month], end = FIRST_DAY[month + 1];
    double hours = 24.0 * (end - first), squares = 0.0, most = 0.0;
    struct looks is = {0};
    for (int day = first; day < end; day++) {
        double mean = 0.0;
        for (int h = 24 * day; h < 24 * (day + 1); h++) {
            double theta = climate->hour[h].temperature,
                   p = climate->hour[h].vapour_pressure,
                   limit = bw_saturation_pressure(theta);
            mean += theta / 24.0;
            is.theta += theta / hours;
            is.p += p / hours;
            most += limit / hours;
            is.full += p >= 0.9999 * limit;
        }
        squares += mean * mean / (end - first);
    }
    is.spread = sqrt(squares - is.theta * is.theta);
    is.room = is.p / most;
    return is;
}

/* Measured: the means of the days of January 4.8 K apart, of February 6.3;
 * vapour pressure 0.961 and 0.926 of the mean saturation over ice. Made without
 * regard to it: 3.2 and 2.3 K, 0.99 and 1.04. March (measured 5.1) is not wide:
 * its dry air does not tell. */
START_TEST(spells_of_a_hard_winter_are_as_wide_as_measured)
{
    bw_climate *months = as_measured(), *hours = made_of(months);
    static const struct {
        int month;
        double spread, room;
    } measured[] = {{0, 4.8, 0.961}, {1, 6.3, 0.926}};
    for (size_t i = 0; i < COUNT(measured); i++) {
        struct looks is = look_at(hours, measured[i].month);
        ck_assert_double_eq_tol(is.spread, measured[i].spread, 1.0);
        ck_assert_double_eq_tol(is.room, measured[i].room, 0.05);
        ck_assert_double_le(is.room, 0.9701);
    }
    for (int m = 0; m < BW_MONTHS; m++) {
        struct looks is = look_at(hours, m);
        ck_assert_double_eq_tol(is.theta, months->month[m].temperature, 1e-9);
        ck_assert_double_eq_tol(is.p, months->month[m].vapour_pressure, 1e-8);
    }
    bw_climate_free(months);
    bw_climate_free(hours);
}
END_TEST

/* Measured: at most 1.06 of saturation over ice in an hour. Made without regard
 * to it: up to 1.16, as the whole month was held to saturation over water. */
START_TEST(no_hour_of_a_hard_winter_is_far_above_saturation_over_ice)
{
    bw_climate *months = as_measured(), *hours = made_of(months);
    for (int h = 0; h < HOURS; h++)
        ck_assert_double_le(
            hours->hour[h].vapour_pressure,
            1.0000001 * bw_saturation_pressure(hours->hour[h].temperature));
    ck_assert_ptr_null(note_with(hours, "saturation over water"));
    ck_assert_ptr_nonnull(note_with(hours, "Feb: vapour pressure close to"));
    ck_assert_ptr_null(note_with(hours, "Mar: vapour pressure close to"));
    ck_assert_int_gt(look_at(hours, 1).full, 0);
    bw_climate_free(months);
    bw_climate_free(hours);
}
END_TEST

/* The limit, 0.97 of the mean saturation, from both sides; and no month above
 * freezing is touched, however humid. */
START_TEST(only_months_in_frost_with_no_room_for_vapour_are_spread)
{
    bw_climate *months = february_alone(-8.32, 290.0), *hours = made_of(months);
    struct looks usual = look_at(hours, 1);
    ck_assert_ptr_null(note_with(hours, "Feb: vapour pressure close to"));
    double most = usual.p / usual.room;
    bw_climate_free(months);
    bw_climate_free(hours);
    static const struct {
        double theta, part;
        bool wider;
    } rows[] = {
        {-8.32, 0.969, false}, {-8.32, 0.971, true}, {0.01, 1.0, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        double full = rows[i].theta < 0.0 ? most : 610.0;
        months = february_alone(rows[i].theta, rows[i].part * full);
        hours = made_of(months);
        ck_assert_int_eq(note_with(hours, "Feb: vapour pressure close") != NULL,
                         rows[i].wider);
        double spread = look_at(hours, 1).spread / usual.spread;
        if (rows[i].theta < 0.0)
            ck_assert(rows[i].wider ? spread > 1.02 && spread < 1.12
                                    : fabs(spread - 1.0) < 1e-9);
        bw_climate_free(months);
        bw_climate_free(hours);
    }
}
END_TEST

/* Spells are spread to 12 K at most, 3.75 times the usual 3.2 of the coldest
 * month; what vapour is left over is held to saturation over water. */
START_TEST(spells_are_not_spread_without_end)
{
    bw_climate *months = read_good(
        "month,temperature_C,vapour_pressure_Pa\n1,-25,64\n2,-25,79.8\n"
        "3,-25,64\n4,3.84,538.1\n5,11.14,851\n6,15.08,1129\n7,18.8,1497\n"
        "8,16.66,1458\n9,11.96,1182\n10,6.0,800\n11,1.8,600\n12,-1.92,450\n");
    bw_climate *hours = made_of(months);
    ck_assert_ptr_nonnull(note_with(hours, "Feb: vapour pressure close"));
    ck_assert_ptr_nonnull(note_with(hours, " 3.8 times as wide as usual"));
    ck_assert_ptr_nonnull(note_with(hours, "Feb: vapour pressure above"));
    ck_assert_double_eq_tol(look_at(hours, 1).p, 79.8, 1e-8);
    bw_climate_free(months);
    bw_climate_free(hours);
}
END_TEST

SUITE("generator_frost", FACT(spells_of_a_hard_winter_are_as_wide_as_measured),
      FACT(no_hour_of_a_hard_winter_is_far_above_saturation_over_ice),
      FACT(only_months_in_frost_with_no_room_for_vapour_are_spread),
      FACT(spells_are_not_spread_without_end))
