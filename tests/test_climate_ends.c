/* Parts that hours are made of, each at its ends: months and hours of the
 * calendar, the air mass, sun parted into beam and sky, longwave of a polar
 * night, and what is said of a year that is made, in whole sentences
 * (regression values as to wording). Formulas: F. Kasten and A. Young 1989 for
 * the air mass, D. Erbs et al. 1982 for the diffuse part, P. Berdahl and M.
 * Martin 1984 for a clear sky (all from memory, high). */

#include <math.h>

#include "bothways/air.h"
#include "climate_help.h"
#include "suite.h"

#include "climate_make.h"
#include "split.h"
#include "weather.h"

/* ---- the calendar ---- */

START_TEST(months_and_hours_are_those_of_the_calendar)
{
    static const char *const names[] = {"Jan", "Feb", "Mar", "Apr",
                                        "May", "Jun", "Jul", "Aug",
                                        "Sep", "Oct", "Nov", "Dec"};
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    char text[32], last[32];
    int first = 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_str_eq(bw_month_name(m), names[m]);
        ck_assert_int_eq(bw_month_first_hour(m), first);
        ck_assert_double_eq(bw_month_seconds(m), 86400.0 * days[m]);
        ck_assert_int_eq(bw_hour_month(first), m);
        ck_assert_int_eq(bw_hour_month(first + 24 * days[m] - 1), m);
        snprintf(last, sizeof last, "%s %d 23:00", names[m], days[m]);
        ck_assert_str_eq(bw_hour_text(text, first + 24 * days[m] - 1), last);
        first += 24 * days[m];
    }
    ck_assert_int_eq(bw_month_first_hour(12), 8760);
    ck_assert_str_eq(bw_month_name(-1), "?");
    ck_assert_str_eq(bw_month_name(12), "?");
    ck_assert_str_eq(bw_hour_text(text, 59 * 24 + 7), "Mar 1 07:00");
    ck_assert_int_eq(bw_ring_hour(-1), 8759);
    ck_assert_int_eq(bw_ring_hour(8760), 0);
    ck_assert_int_eq(bw_ring_hour(77), 77);
    const bw_climate c = {.time_offset = 0.25};
    ck_assert_double_eq(bw_hour_sun_day(&c, 30), 30.25 / 24.0);
}
END_TEST

START_TEST(a_gap_goes_on_round_the_year_and_ends)
{
    static double value[BW_HOURS];
    for (int h = 0; h < BW_HOURS; h++)
        value[h] = 1.0;
    ck_assert_int_eq(bw_gap_length(value, 5), 0);
    value[8759] = value[0] = value[1] = (double)NAN;
    ck_assert_int_eq(bw_gap_length(value, 8759), 3);
    ck_assert_int_eq(bw_gap_length(value, 0), 2);
    ck_assert_int_eq(bw_gap_length(value, 2), 0);
    for (int h = 0; h < BW_HOURS; h++)
        value[h] = (double)NAN;
    ck_assert_int_eq(bw_gap_length(value, 17), BW_HOURS);
}
END_TEST

static bool is_warm(const bw_climate_month *month)
{
    return month->temperature > 0.0;
}

START_TEST(every_month_has_it_or_none_counts)
{
    bw_climate c = {.file = ""};
    for (int m = 0; m < BW_MONTHS; m++)
        c.month[m].temperature = 1.0;
    ck_assert(bw_months_all(&c, is_warm));
    for (int m = 0; m < BW_MONTHS; m++) {
        c.month[m].temperature = 0.0;
        ck_assert(!bw_months_all(&c, is_warm));
        c.month[m].temperature = 1.0;
    }
}
END_TEST

/* ---- the sun ---- */

/* 1/(sin h + 0.50572 (h + 6.07995)^-1.6364): 0.9997 overhead, 1.9943 at 30
 * degrees, 37.9 at the horizon and below. */
START_TEST(the_air_mass_grows_to_thirty_eight)
{
    static const double known[][2] = {
        {90.0, 0.99971}, {30.0, 1.99426}, {5.0, 10.306}, {0.0, 37.9196}};
    for (size_t i = 0; i < COUNT(known); i++) {
        const double h = known[i][0];
        ck_assert_double_eq_tol(bw_air_mass(h),
                                1.0 / (sin(h * 3.14159265358979323846 / 180.0) +
                                       0.50572 * pow(h + 6.07995, -1.6364)),
                                1e-9);
        ck_assert_double_eq_tol(bw_air_mass(h) / known[i][1], 1.0, 1e-3);
    }
    ck_assert_double_eq(bw_air_mass(-7.0), bw_air_mass(0.0));
}
END_TEST

/* 1 - 0.09 k up to 0.22; 0.9511 - 0.1604 k + 4.388 k2 - 16.638 k3 + 12.336 k4
 * up to 0.80; 0.165. */
static const double diffuse[][2] = {
    {0.0, 1.0},     {0.1, 0.991},  {0.22, 0.9802},  {0.2201, 0.9504},
    {0.5, 0.65915}, {0.8, 0.1652}, {0.8001, 0.165}, {1.0, 0.165},
};

START_TEST(the_diffuse_part_falls_with_clearness)
{
    const double k = diffuse[_i][0];
    double is = 0.165;
    if (k <= 0.80)
        is = 0.9511 - 0.1604 * k + 4.388 * k * k - 16.638 * k * k * k +
             12.336 * k * k * k * k;
    if (k <= 0.22)
        is = 1.0 - 0.09 * k;
    ck_assert_double_eq_tol(bw_diffuse_part(k), is, 1e-12);
    if (k != 0.2201)
        ck_assert_double_eq_tol(bw_diffuse_part(k), diffuse[_i][1], 1e-3);
}
END_TEST

START_TEST(beam_and_sky_keep_their_sum)
{
    double direct = 0.0, sky = 0.0;
    const bw_sun high = {.elevation = 30.0, .extraterrestrial = 1400.0};
    bw_split_beam(&direct, &sky, high, 200.0, 90.0);
    ck_assert_double_eq_tol(direct, 400.0, 1e-9); /* 200 / sin 30 */
    ck_assert_double_eq_tol(sky, 90.0, 1e-9);
    /* no more than outside: 1400 sin 30 = 700 of 800, the rest is sky */
    bw_split_beam(&direct, &sky, high, 800.0, 90.0);
    ck_assert_double_eq_tol(direct, 1400.0, 1e-9);
    ck_assert_double_eq_tol(sky, 190.0, 1e-9);
    const bw_sun low = {.elevation = -0.1, .extraterrestrial = 1400.0};
    bw_split_beam(&direct, &sky, low, 5.0, 2.0);
    ck_assert_double_eq(direct, 0.0);
    ck_assert_double_eq_tol(sky, 7.0, 1e-12);
    bw_split_global(&direct, &sky, low, 3.0);
    ck_assert_double_eq(direct, 0.0);
    ck_assert_double_eq_tol(sky, 3.0, 1e-12);
    /* global 350 of 700: clearness a half */
    bw_split_global(&direct, &sky, high, 350.0);
    ck_assert_double_eq_tol(sky, 350.0 * 0.65915, 1e-9);
    ck_assert_double_eq_tol(direct, 2.0 * (350.0 - sky), 1e-9);
}
END_TEST

/* ---- a year that is made ---- */

static bw_climate *months_of(const char *head, const char *columns,
                             const char *values)
{
    struct text text = {0};
    add(&text, "%smonth,temperature_C,relative_humidity_pct%s\n", head,
        columns);
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,%d,85%s\n", m, m > 3 && m < 10 ? 12 : 2, values);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    return climate;
}

static bw_climate *made_of(const bw_climate *months)
{
    bw_climate *hours = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_climate_generate(&hours, months, &err) == BW_OK, "%s",
                  err.message);
    return hours;
}

static bool says(const bw_climate *c, bw_note_kind kind, const char *sentence)
{
    for (size_t i = 0; i < c->note_count; i++)
        if (c->note[i].kind == kind &&
            strcmp(c->note[i].message, sentence) == 0)
            return true;
    return false;
}

START_TEST(what_a_year_lacks_is_said)
{
    static const char synthetic[] =
        "the hours are synthetic: generated from the monthly means, not "
        "measured (docs/methods.md)";
    static const char no_sun[] =
        "no irradiance columns: the generated hours have no sun and no "
        "longwave radiation";
    static const char no_place[] =
        "no latitude in the header: the generated hours have no sun and no "
        "longwave radiation; add '# latitude: ...'";
    bw_climate *months = months_of("", "", ""), *hours = made_of(months);
    ck_assert(says(hours, BW_NOTE_INFO, synthetic));
    ck_assert(says(hours, BW_NOTE_INFO, no_sun));
    ck_assert(!hours->columns.solar && !hours->columns.longwave);
    ck_assert_double_eq(hours->hour[99].pressure, 101325.0);
    bw_climate_free(hours);
    bw_climate_free(months);
    months = months_of("", ",global_horizontal_W_m2", ",20");
    hours = made_of(months);
    ck_assert(says(hours, BW_NOTE_WARNING, no_place));
    ck_assert(!hours->columns.solar && !hours->columns.longwave);
    bw_climate_free(hours);
    bw_climate_free(months);
    months = months_of("# latitude: 50\n# longitude: 5\n", ",vertical_S_W_m2",
                       ",40");
    hours = made_of(months);
    ck_assert(hours->columns.solar && hours->columns.longwave);
    ck_assert(!says(hours, BW_NOTE_INFO, no_sun));
    ck_assert(!says(hours, BW_NOTE_WARNING, no_place));
    bw_climate_free(hours);
    bw_climate_free(months);
}
END_TEST

START_TEST(the_frame_of_a_year_is_that_of_its_months)
{
    bw_climate *months = months_of(
        "# place: Here\n# source: them\n# licence: free\n# remark: odd\n"
        "# altitude: 120\n# latitude: 50\n# prevailing-wind: 240\n"
        "# humidity-reference: ice\n",
        "", "");
    bw_climate *hours = made_of(months);
    ck_assert_str_eq(hours->place, "Here");
    ck_assert_str_eq(hours->source, "them");
    ck_assert_str_eq(hours->licence, "free");
    ck_assert_str_eq(hours->remark, "odd");
    ck_assert_int_eq(hours->kind, BW_CLIMATE_SYNTHETIC);
    ck_assert_int_eq(hours->humidity_reference, BW_OVER_ICE);
    ck_assert(hours->has_position && hours->has_altitude &&
              hours->has_prevailing_wind);
    ck_assert_double_eq(hours->latitude, 50.0);
    ck_assert_double_eq(hours->longitude, 0.0);
    ck_assert_double_eq(hours->altitude, 120.0);
    ck_assert_double_eq(hours->prevailing_wind, 240.0);
    ck_assert_double_eq(hours->time_offset, 0.5);
    ck_assert_uint_eq(hours->hour_count, BW_HOURS);
    for (int m = 0; m < BW_MONTHS; m++)
        ck_assert_double_eq(hours->month[m].vapour_pressure,
                            months->month[m].vapour_pressure);
    /* its notes come along */
    ck_assert_uint_ge(months->note_count, 1);
    ck_assert_str_eq(hours->note[0].message, months->note[0].message);
    ck_assert_int_eq(hours->note[0].line, months->note[0].line);
    ck_assert_int_eq(hours->note[0].kind, months->note[0].kind);
    bw_climate_free(hours);
    bw_climate_free(months);
}
END_TEST

/* A month that at its mean temperature is damper than ice lets it: spells wide
 * enough make room for its vapour (generator_frost has where they end). */
START_TEST(damp_frost_has_its_vapour_below_saturation_over_ice)
{
    struct text text = {0};
    add(&text, "# humidity-reference: water\nmonth,temperature_C,"
               "relative_humidity_pct\n");
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,%d,%d\n", m, -25, m == 1 ? 99 : 80);
    bw_climate *months = read_good(text.at), *hours = made_of(months);
    free(text.at);
    ck_assert(months->month[0].vapour_pressure >
              bw_saturation_pressure(months->month[0].temperature));
    ck_assert(!says(hours, BW_NOTE_INFO,
                    "Jan: vapour pressure above saturation over ice; the "
                    "generated hours are limited by saturation over water"));
    double sum = 0.0;
    for (int h = 0; h < 31 * 24; h++) {
        const bw_climate_hour *is = &hours->hour[h];
        ck_assert_double_le(is->vapour_pressure,
                            bw_saturation_pressure(is->temperature) + 1e-9);
        sum += is->vapour_pressure / (31 * 24);
    }
    ck_assert_double_eq_tol(sum, months->month[0].vapour_pressure, 1e-6);
    bw_climate_free(hours);
    bw_climate_free(months);
}
END_TEST

/* ---- what no year can be ---- */

static void not_made(const bw_climate *months, bw_status status,
                     const char *sentence)
{
    bw_climate *hours = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_climate_generate(&hours, months, &err), status);
    ck_assert_str_eq(err.message, sentence);
    ck_assert_int_eq(err.line, 0);
    ck_assert_ptr_null(hours);
}

START_TEST(months_that_no_year_has_are_refused_in_these_sentences)
{
    bw_climate *months = months_of("# latitude: 60\n",
                                   ",global_horizontal_W_m2", ",100");
    bw_error err = {0};
    bw_climate *hours = NULL;
    ck_assert_int_eq(bw_climate_generate(&hours, months, &err), BW_ERR_INPUT);
    ck_assert_ptr_eq(strstr(err.message,
                            "Jan: a mean irradiance of 100 W/m2 is more than a "
                            "cloudless month gives at latitude 60 ("),
                     err.message);
    ck_assert_ptr_nonnull(
        strstr(err.message, " W/m2); check the column's unit (W/m2, mean over "
                            "day and night) and the latitude"));
    months->month[4].vapour_pressure = 5000.0;
    not_made(months, BW_ERR_INPUT,
             "May: a mean vapour pressure of 5000 Pa is above saturation at 12 "
             "degC; correct the column of humidity");
    months->month[4].vapour_pressure = 0.0;
    not_made(months, BW_ERR_DOMAIN,
             "May: temperature and vapour pressure must be finite and the "
             "latter above 0");
    bw_climate_free(months);
}
END_TEST

/* In a month whose sun does not rise the sky is clouded by 0.65 less 0.2 of
 * what is fair (estimates, regression values): L = (e + (1 - e) cloud) sigma
 * T4, e 0.711 + 0.56 t + 0.73 t2, t the dew point by 100 degC. */
START_TEST(the_sky_of_a_polar_night_is_half_clouded)
{
    bw_climate *months = months_of("# latitude: 80\n",
                                   ",global_horizontal_W_m2", ",0");
    bw_climate *hours = made_of(months);
    bw_arena scratch = {0};
    bw_weather weather;
    bw_error err = {0};
    ck_assert_int_eq(bw_weather_make(&weather, &scratch, &err), BW_OK);
    for (int h = 0; h < 31 * 24; h += 7) {
        const bw_climate_hour *is = &hours->hour[h];
        const double t = bw_dew_point(is->vapour_pressure) / 100.0;
        const double clear = fmin(0.711 + 0.56 * t + 0.73 * t * t, 1.0);
        const double cloud = fmin(fmax(0.65 - 0.2 * weather.fair[h], 0.0),
                                  0.95);
        ck_assert_double_eq_tol(is->longwave_down,
                                (clear + (1.0 - clear) * cloud) *
                                    5.670374419e-8 *
                                    pow(is->temperature + 273.15, 4.0),
                                1e-6);
        ck_assert_double_eq(is->direct_normal, 0.0);
    }
    bw_arena_release(&scratch);
    bw_climate_free(hours);
    bw_climate_free(months);
}
END_TEST

SUITE("climate_ends", FACT(months_and_hours_are_those_of_the_calendar),
      FACT(a_gap_goes_on_round_the_year_and_ends),
      FACT(every_month_has_it_or_none_counts),
      FACT(the_air_mass_grows_to_thirty_eight),
      EACH(the_diffuse_part_falls_with_clearness, COUNT(diffuse)),
      FACT(beam_and_sky_keep_their_sum), FACT(what_a_year_lacks_is_said),
      FACT(the_frame_of_a_year_is_that_of_its_months),
      FACT(damp_frost_has_its_vapour_below_saturation_over_ice),
      FACT(months_that_no_year_has_are_refused_in_these_sentences),
      FACT(the_sky_of_a_polar_night_is_half_clouded))
