/* Hours made from monthly means. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate_help.h"
#include "suite.h"

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

START_TEST(months_that_are_no_numbers_are_refused)
{
    bw_climate *monthly = read_good(HEADER "1,-1,85\n" MONTHS_FROM_FEB);
    bw_climate *hours = NULL;
    bw_error err = {0};
    double *const values[] = {&monthly->month[2].temperature,
                              &monthly->month[2].vapour_pressure};
    static const double none[] = {(double)NAN, (double)INFINITY,
                                  -(double)INFINITY};
    for (size_t i = 0; i < COUNT(values); i++)
        for (size_t k = 0; k < COUNT(none); k++) {
            double kept = *values[i];
            *values[i] = none[k];
            ck_assert_int_eq(bw_climate_generate(&hours, monthly, &err),
                             BW_ERR_DOMAIN);
            ck_assert_ptr_nonnull(strstr(err.message, "Mar: "));
            *values[i] = kept;
        }
    monthly->month[2].vapour_pressure = 0.0;
    ck_assert_int_eq(bw_climate_generate(&hours, monthly, &err), BW_ERR_DOMAIN);
    ck_assert_ptr_null(hours);
    bw_climate_free(monthly);
}
END_TEST

START_TEST(a_month_without_sun_and_wind_has_none_in_any_hour)
{
    struct text text = {0};
    add(&text, "# latitude: 50\n# prevailing-wind: 2\nmonth,temperature_C,"
               "relative_humidity_pct,global_horizontal_W_m2,wind_m_s\n");
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,5,85,%d,%d\n", m, m == 3 ? 0 : 40, m == 3 ? 0 : 4);
    bw_climate *monthly = read_good(text.at), *hours = generated(monthly);
    free(text.at);
    for (int h = 0; h < HOURS; h++) {
        int day = 0;
        const bw_climate_hour *hour = &hours->hour[h];
        ck_assert(hour->wind_from >= 0.0 && hour->wind_from < 360.0);
        if (month_of(h, &day) != 2)
            continue;
        ck_assert_double_eq(hour->direct_normal, 0.0);
        ck_assert_double_eq(hour->diffuse_horizontal, 0.0);
        ck_assert_double_eq(hour->wind, 0.0);
    }
    check_hours(hours);
    bw_climate_free(hours);
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

/* Regression values: no source tells the hours of a year of which means alone
 * are known. Temperature, vapour, direct, diffuse, longwave, wind, its
 * direction, rain; of months with sun, wind and rain, of a wall alone, of
 * neither. */
static const struct made_row {
    const char *climate; /* NULL: of the months below */
    int hour;
    double is[8];
} made_rows[] = {
    {"estuary",
     1500,
     {9.710864, 717.8288, 924.4352, 87.5093, 277.6900, 0.906272, 343.3337,
      0.0}},
    {"estuary",
     2000,
     {5.174642, 727.6584, 4.8078, 84.9974, 296.7982, 4.957228, 255.3557,
      0.131108}},
    {"estuary",
     4387,
     {17.958806, 1289.4214, 380.7263, 63.9880, 340.6600, 5.114028, 229.6719,
      0.0}},
    {"estuary",
     5100,
     {18.168406, 1434.7008, 43.1105, 332.8776, 364.4248, 2.577068, 236.1373,
      0.0}},
    {"estuary",
     8000,
     {7.112728, 837.7219, 7.6801, 2.2599, 318.2568, 11.838104, 279.5039,
      0.001533}},
    {"upland",
     13,
     {-3.246220, 340.9222, 208.3009, 108.3881, 238.1773, 2.266376, 297.5141,
      0.0}},
    {"upland",
     4380,
     {22.272635, 1443.2092, 879.2784, 152.8644, 354.8018, 2.566101, 273.0596,
      0.0}},
    {"upland",
     6500,
     {7.986870, 886.7886, 0.0, 0.0, 301.1195, 0.883068, 199.5746, 0.0}},
    {NULL, 13, {-1.320519, 418.8689, 87.2787, 118.3519, 258.7059}},
    {NULL, 4387, {21.655372, 1540.4975, 425.0239, 29.4203, 360.2994}},
    {NULL, 5100, {22.739504, 1772.5789, 71.1335, 370.3685, 388.8038}},
    {NULL, 8759, {-6.589211, 337.6713, 0.0, 0.0, 239.2946}},
};

/* One wall, no global sun. */
static const char south_alone[] =
    "# latitude: 50\n# longitude: 0\n"
    "month,temperature_C,relative_humidity_pct,vertical_S_W_m2\n"
    "1,-2,85,60\n2,0,84,70\n3,4,78,90\n4,9,72,100\n5,14,68,100\n"
    "6,18,69,100\n7,19,73,105\n8,19,75,110\n9,15,79,100\n10,10,83,80\n"
    "11,5,88,60\n12,1,88,50\n";

START_TEST(hours_made_are_those_that_were_made_before)
{
    static const double error[8] = {2e-6, 2e-4, 2e-4, 2e-4,
                                    2e-4, 2e-6, 2e-4, 2e-6};
    for (size_t i = 0; i < COUNT(made_rows); i++) {
        const struct made_row *row = &made_rows[i];
        if (i > 0 && row->climate == made_rows[i - 1].climate)
            continue;
        bw_climate *months = row->climate != NULL ? demo(row->climate)
                                                  : read_good(south_alone);
        bw_climate *hours = generated(months);
        for (; row < made_rows + COUNT(made_rows) &&
               row->climate == made_rows[i].climate;
             row++) {
            const bw_climate_hour *h = &hours->hour[row->hour];
            const double is[8] = {h->temperature,   h->vapour_pressure,
                                  h->direct_normal, h->diffuse_horizontal,
                                  h->longwave_down, h->wind,
                                  h->wind_from,     h->rain};
            for (int k = 0; k < 8; k++)
                ck_assert_msg(fabs(is[k] - row->is[k]) <= error[k],
                              "hour %d, quantity %d: %.6f, not %.6f", row->hour,
                              k, is[k], row->is[k]);
        }
        bw_climate_free(months);
        bw_climate_free(hours);
    }
}
END_TEST

/* Of all the year, how often it rains, and with how much wind: regression
 * values. */
START_TEST(rain_made_comes_as_often_and_with_as_much_wind_as_before)
{
    static const struct {
        const char *climate;
        int wet;
        double driven; /* mm m/s */
    } rows[] = {{"estuary", 3104, 11984.4}, {"upland", 2097, 3297.6}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_climate *months = demo(rows[i].climate), *hours = generated(months);
        int wet = 0;
        double driven = 0.0;
        for (int h = 0; h < HOURS; h++) {
            wet += hours->hour[h].rain > 0.0;
            driven += hours->hour[h].rain * hours->hour[h].wind;
        }
        ck_assert_int_eq(wet, rows[i].wet);
        ck_assert_double_eq_tol(driven, rows[i].driven, 0.01);
        bw_climate_free(months);
        bw_climate_free(hours);
    }
}
END_TEST

SUITE("generator", FACT(hours_made_are_those_that_were_made_before),
      FACT(rain_made_comes_as_often_and_with_as_much_wind_as_before),
      EACH(generated_hours_reproduce_the_demo_months, 2),
      FACT(generated_hours_are_the_same_every_time),
      FACT(vertical_columns_of_the_demo_climates_fit_their_hours),
      FACT(random_months_are_reproduced), FACT(hours_have_days_and_seasons),
      FACT(months_without_columns_give_hours_without_them),
      FACT(months_the_sky_cannot_give_are_refused),
      FACT(months_that_are_no_numbers_are_refused),
      FACT(a_month_without_sun_and_wind_has_none_in_any_hour),
      FACT(polar_night_is_dark),
      EACH(walls_of_generated_hours_come_near_a_typical_year, 2))
