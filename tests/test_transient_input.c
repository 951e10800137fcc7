/* What the hourly method makes of a climate before it runs: the
 * hours on both sides. Expected figures are the
 * formulas of boundary.h worked here again. */

#include "bothways/glaser.h"
#include "suite.h"
#include "transient/boundary.h"
#include "transient_case.h"

static bw_year *year_of(const transient_case *c,
                        const bw_transient_options *options)
{
    bw_year *year = calloc(1, sizeof *year);
    if (year == NULL)
        abort();
    bw_error err = {0};
    const bw_status status = bw_year_make(year, &c->assembly, &c->climate,
                                          options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return year;
}

static void year_refused(const transient_case *c, const char *word)
{
    const bw_transient_options none = {0};
    bw_year *year = calloc(1, sizeof *year);
    if (year == NULL)
        abort();
    bw_error err = {0};
    ck_assert_int_eq(bw_year_make(year, &c->assembly, &c->climate, &none, &err),
                     BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message, word) != NULL, "%s", err.message);
    ck_assert_str_eq(err.file, "invented");
    free(year);
}

START_TEST(a_room_above_saturation_in_some_hours_is_refused)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .temperature = 9.0, .humidity_class = 5};
    bw_year *year = calloc(1, sizeof *year);
    bw_error err = {0};
    ck_assert_int_eq(bw_year_make(year, &c->assembly, &c->climate, &none, &err),
                     BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message, "hours of the year, more than air "
                                      "holds; write relative-humidity="),
                  "%s", err.message);
    free(year);
    free(c);
}
END_TEST

/* ---- hours ---- */

START_TEST(hours_lie_in_the_months_of_a_year_of_365_days)
{
    static const int last[] = {31,  59,  90,  120, 151, 181,
                               212, 243, 273, 304, 334, 365};
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_int_eq(bw_hour_month(24 * last[m] - 1), m);
        if (m < 11)
            ck_assert_int_eq(bw_hour_month(24 * last[m]), m + 1);
    }
    ck_assert_int_eq(bw_hour_month(0), 0);
}
END_TEST

START_TEST(state_runs_straight_to_the_next_hour_and_round_the_year)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    for (int k = 0; k < CASE_HOURS; k++) /* so that the room follows, too */
        c->hour[k].temperature += 10;
    bw_year *year = year_of(c, &none);
    bw_edge edge;
    const bw_window span = bw_window_from(year, CASE_HOURS - 1, 1, 7200);
    bw_window_edge(&span, 7200 + 900, &edge);
    const bw_hourly *a = &year->hour[CASE_HOURS - 1], *b = &year->hour[0];
    const double pair[][3] = {{edge.theta_e, a->theta_e, b->theta_e},
                              {edge.p_e, a->p_e, b->p_e},
                              {edge.theta_i, a->theta_i, b->theta_i},
                              {edge.p_i, a->p_i, b->p_i}};
    for (size_t k = 0; k < COUNT(pair); k++) {
        const double *p = pair[k];
        ck_assert_double_ne(p[1], p[2]);
        ck_assert_double_eq_tol(p[0], 0.75 * p[1] + 0.25 * p[2], 1e-9);
    }
    ck_assert_double_eq(a->theta_e, c->hour[CASE_HOURS - 1].temperature);
    ck_assert_double_eq(edge.rain, year->hour[CASE_HOURS - 1].rain);
    free(year);
    free(c);
}
END_TEST

/* The wetting test takes them so: what an hour brings is neither lost nor moved
 * into an hour with rain. */
START_TEST(hours_without_rain_taken_as_one_keep_their_sums)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_year *year = year_of(c, &none);
    int longest = 0, wet = 0;
    for (int hour = 0; hour < CASE_HOURS;) {
        const bw_window w = bw_window_from(year, hour, 4, 0);
        bw_edge a, half, b;
        double gain = 0, air = 0, rain = 0;
        for (int k = 0; k < w.hours; k++) {
            const bw_hourly *h = &year->hour[(hour + k) % CASE_HOURS];
            gain += h->gain / w.hours;
            air += h->air_flow / w.hours;
            rain += h->rain;
        }
        bw_window_edge(&w, 0, &a);
        bw_window_edge(&w, 1800.0 * w.hours, &half);
        bw_window_edge(&w, 3600.0 * w.hours, &b);
        /* Simpson's rule, exact for a parabola */
        ck_assert_double_eq_tol((a.gain + 4 * half.gain + b.gain) / 6, gain,
                                1e-9);
        ck_assert_double_eq_tol(half.air_flow, air, 1e-15);
        ck_assert_double_eq(half.rain * w.hours, rain);
        ck_assert_double_eq(a.theta_e, year->hour[hour].theta_e);
        ck_assert_double_eq_tol(
            b.p_e, year->hour[(hour + w.hours) % CASE_HOURS].p_e, 1e-9);
        ck_assert(w.hours == 1 || !(rain > 0));
        longest = w.hours > longest ? w.hours : longest;
        wet += rain > 0;
        hour += w.hours;
    }
    ck_assert_int_eq(longest, 4);
    ck_assert_int_gt(wet, 0);
    free(year);
    free(c);
}
END_TEST

/* Indoors follows the mean of the 24 hours around, EN 15026: 20 degC below
 * 10 outside, and humidity from 35 % at -10 to 65 % at 20 [memory, hi]. */
START_TEST(indoors_follows_the_mean_of_the_day_around)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_year *year = year_of(c, &none);
    for (int hour = 12; hour < 600; hour += 97) {
        double mean = 0;
        for (int k = hour - 12; k < hour + 12; k++)
            mean += c->hour[k].temperature / 24;
        ck_assert_double_lt(mean, 10);
        const double phi = 0.30 + 0.30 * (mean + 10) / 30;
        ck_assert_double_eq_tol(year->hour[hour].theta_i, 20, 1e-9);
        ck_assert_double_eq_tol(year->hour[hour].p_i,
                                phi * bw_saturation_pressure(20), 0.01);
    }
    free(year);
    free(c);
}
END_TEST

/* A humidity class adds to the vapour pressure outside, here at -5 degC the
 * same all the year: p_i follows the mean of p_e from 12 hours before to 11
 * after, across the new year, too; the first hour is an hour as any. */
START_TEST(indoor_vapour_follows_the_mean_of_the_day_around)
{
    static const int at[] = {0, 3, 11, 12, 300, 8750, 8759};
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 20};
    for (int k = 0; k < CASE_HOURS; k++) {
        c->hour[k].temperature = -5;
        c->hour[k].vapour_pressure = 250 + 100 * sin(0.01 * k) + k % 5;
    }
    bw_year *year = year_of(c, &none);
    for (size_t n = 0; n < COUNT(at); n++) {
        double mean = 0;
        for (int k = at[n] - 12; k < at[n] + 12; k++)
            mean += c->hour[(k + CASE_HOURS) % CASE_HOURS].vapour_pressure / 24;
        const bw_hourly *h = &year->hour[at[n]];
        /* class 3: 810 Pa, without a margin */
        ck_assert_double_eq_tol(h->p_i, mean + 810, 1e-6 * h->p_i);
        ck_assert_double_eq(h->theta_e, -5);
        ck_assert_double_eq(h->p_e, c->hour[at[n]].vapour_pressure);
    }
    free(year);
    free(c);
}
END_TEST

START_TEST(outer_coefficients_follow_wind_and_are_calm_without_a_column)
{
    const bw_transient_options none = {0};
    for (int given = 0; given < 2; given++) {
        transient_case *c = case_new();
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
        c->climate.columns.wind = given;
        c->assembly.outdoors.emissivity = given ? 0.5 : 0; /* 0.9 if none */
        c->hour[40].vapour_pressure = 1e5;                 /* over saturation */
        bw_year *year = year_of(c, &none);
        const bw_climate_hour *w = &c->hour[40];
        /* suburb, 5 m: (270/10)^0.14 (5/370)^0.22 = 0.61540 */
        const double wind = given ? 0.61540348 * w->wind : 2;
        const double kelvin = w->temperature + 273.15;
        ck_assert_double_eq_tol(year->hour[40].h_e,
                                4 + 4 * wind +
                                    4 * (given ? 0.5 : 0.9) * 5.670374e-8 *
                                        pow(kelvin, 3),
                                1e-3);
        ck_assert_double_eq_tol(year->hour[40].beta_e, 2e-10 * (67 + 90 * wind),
                                1e-11);
        ck_assert_double_eq_tol(year->hour[40].p_e,
                                bw_saturation_pressure(w->temperature), 1e-9);
        free(year);
        free(c);
    }
}
END_TEST

START_TEST(surface_resistances_of_the_user_replace_the_coefficients)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->assembly.outdoors.has_surface_resistance = true;
    c->assembly.outdoors.surface_resistance = 0.05;
    bw_year *year = year_of(c, &none);
    ck_assert_double_eq_tol(year->hour[7].h_e, 20, 1e-12);
    ck_assert_double_eq_tol(year->h_i, 1 / 0.13, 1e-12);
    free(year);
    c->assembly.indoors.has_surface_resistance = true;
    c->assembly.indoors.surface_resistance = 0.1;
    year = year_of(c, &none);
    ck_assert_double_eq_tol(year->h_i, 10, 1e-12);
    free(year);
    free(c);
}
END_TEST

START_TEST(pressure_is_the_mean_of_its_column_or_standard)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    for (int k = 0; k < CASE_HOURS; k++)
        c->hour[k].pressure = k % 2 ? 90000 : 91000;
    bw_year *year = year_of(c, &none);
    ck_assert_double_eq_tol(year->pressure, 90500, 1e-6);
    free(year);
    c->climate.columns.pressure = false;
    year = year_of(c, &none);
    ck_assert_double_eq(year->pressure, 101325);
    free(year);
    free(c);
}
END_TEST

/* ---- sun and sky ---- */

START_TEST(absorptance_without_sun_is_refused_with_what_is_missing)
{
    const bw_transient_options allow = {.allow_missing = true};
    for (int which = 0; which < 3; which++) {
        static const char *const word[] = {"without a facing (faces=)",
                                           "latitude", "no radiation"};
        transient_case *c = case_new();
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
        if (which == 0)
            c->assembly.outdoors.has_facing = false;
        else if (which == 1)
            c->climate.has_position = false;
        else
            c->climate.columns.solar = false;
        year_refused(c, word[which]);
        year_refused(c, "leave solar-absorptance= out"); /* what can be done */
        bw_year *year = year_of(c, &allow);
        ck_assert(year->missing_sun && !year->sun &&
                  !year->default_absorptance);
        free(year);
        free(c);
    }
}
END_TEST

/* South-west wall, no sky: the gain is the sun's alone. */
START_TEST(sun_is_absorbed_as_given_or_by_six_tenths)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->climate.columns.longwave = false;
    c->assembly.outdoors.solar_absorptance = 0.3;
    bw_year *given = year_of(c, &none);
    c->assembly.outdoors.has_solar_absorptance = false;
    bw_year *usual = year_of(c, &none);
    ck_assert(!given->default_absorptance && usual->default_absorptance);
    ck_assert(!given->sky);
    double most = 0;
    for (int k = 0; k < CASE_HOURS; k++) {
        const bw_climate_hour *w = &c->hour[k];
        const bw_sun sun = bw_sun_position(53, 0, (k + 0.5) / 24);
        const double on = bw_plane_irradiance(
            sun, w->direct_normal, w->diffuse_horizontal, 225, 90, 0.2);
        const bool dark = w->direct_normal <= 0 && w->diffuse_horizontal <= 0;
        ck_assert_double_eq_tol(given->hour[k].gain, dark ? 0 : 0.3 * on, 1e-9);
        ck_assert_double_eq_tol(usual->hour[k].gain, dark ? 0 : 0.6 * on, 1e-9);
        most = fmax(most, on);
    }
    ck_assert_double_gt(most, 300);
    free(given);
    free(usual);
    free(c);
}
END_TEST

/* eps (1 + cos tilt)/2 (L - sigma T^4): a flat roof sees all the sky and the
 * underside of a floor none, whether a facing is given or not. */
START_TEST(sky_is_seen_by_the_tilt_of_the_plane)
{
    const bw_transient_options none = {0};
    static const struct {
        bool facing;
        double tilt, view;
    } row[] = {{true, 90, 0.5},  {true, 0, 1},  {true, 180, 0},
               {false, 90, 0.5}, {false, 0, 1}, {false, 180, 0}};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = case_new();
        c->climate.columns.solar = false;
        c->assembly.outdoors.has_solar_absorptance = false;
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
        c->assembly.outdoors.has_facing = row[k].facing;
        c->assembly.outdoors.tilt = row[k].tilt;
        bw_year *year = year_of(c, &none);
        const bw_climate_hour *w = &c->hour[5];
        const double black = 5.670374e-8 * pow(w->temperature + 273.15, 4);
        ck_assert_double_eq_tol(year->hour[5].gain,
                                0.9 * row[k].view * (w->longwave_down - black),
                                1e-6);
        free(year);
        free(c);
    }
}
END_TEST

/* ---- rain ---- */

START_TEST(rain_asked_for_without_its_columns_is_refused_with_what_is_missing)
{
    const bw_transient_options allow = {.allow_missing = true};
    for (int which = 0; which < 3; which++) {
        static const char *const word[] = {"no rain column", "no wall facing",
                                           "wind speed"};
        transient_case *c = case_new();
        c->assembly.outdoors.has_solar_absorptance = false;
        if (which == 0)
            c->climate.columns.rain = false;
        else if (which == 1)
            c->assembly.outdoors.has_facing = false;
        else
            c->climate.columns.wind = false;
        year_refused(c, word[which]);
        year_refused(c, "write driving-rain=\"none\"");
        bw_year *year = year_of(c, &allow);
        ck_assert(year->missing_rain && !year->rain);
        free(year);
        /* nor does anyone ask for it */
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
        year = year_of(c, &allow);
        ck_assert(!year->missing_rain && !year->rain);
        free(year);
        /* but a leak does */
        c->assembly.rain_leak = (bw_rain_leak){true, 0.01, 0};
        year_refused(c, word[which]);
        free(c);
    }
}
END_TEST

/* An hour of 2 mm with 5 m/s straight on and from behind: F_E F_D 0.2 v r
 * (ASHRAE 160 [memory, med]), of which 0.7 stays; on a roof the falling rain
 * besides. Of what is left beside a leak of a quarter no more is taken up. */
START_TEST(driving_rain_follows_exposure_wind_and_tilt)
{
    static const struct {
        bw_exposure exposure;
        double from, tilt, driven, falling;
    } row[] = {
        {BW_RAIN_SHELTERED, 225, 90, 0.7 * 0.35 * 0.2 * 5 * 2, 0},
        {BW_RAIN_MODERATE, 225, 90, 0.5 * 0.2 * 5 * 2, 0},
        {BW_RAIN_SEVERE, 225, 90, 1.4 * 0.2 * 5 * 2, 0},
        {BW_RAIN_MODERATE, 165, 90, 0.5 * 0.5 * 0.2 * 5 * 2, 0},
        {BW_RAIN_MODERATE, 45, 90, 0, 0},
        {BW_RAIN_MODERATE, 45, 60, 0, 2 * 0.5},
        {BW_RAIN_MODERATE, 225, 60, 0.5 * 0.2 * 5 * 2 * 0.86602540378, 1},
        {BW_RAIN_MODERATE, 225, 120, 0.5 * 0.2 * 5 * 2 * 0.86602540378, 0},
        {BW_RAIN_NONE, 225, 90, 0, 0},
    };
    const bw_transient_options leaking = {.rain_leak = 0.25};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = case_new();
        c->assembly.outdoors.driving_rain = row[k].exposure;
        c->assembly.outdoors.tilt = row[k].tilt;
        c->hour[9].rain = 2;
        c->hour[9].wind = 5;
        c->hour[9].wind_from = row[k].from;
        bw_year *year = year_of(c, &leaking);
        const double stays = 0.7 * row[k].driven + 0.75 * row[k].falling;
        ck_assert_double_eq_tol(year->hour[9].rain, stays / 3600, 1e-12);
        /* a face told to see none still leaks, as a sheltered one */
        const double mm = row[k].exposure == BW_RAIN_NONE
                              ? 0.7 * 0.35 * 0.2 * 5 * 2
                              : row[k].driven + row[k].falling;
        ck_assert_double_eq_tol(year->hour[9].rain_leak, 0.25 * mm / 3600,
                                1e-12);
        free(year);
        free(c);
    }
}
END_TEST

START_TEST(leak_is_that_of_the_options_then_of_the_assembly_and_at_most_all)
{
    static const double asked[] = {0, -1, 0.3, 7};
    static const double expected[] = {0.02, 0.02, 0.3, 1};
    transient_case *c = case_new();
    c->assembly.rain_leak = (bw_rain_leak){true, 0.02, 0};
    for (size_t k = 0; k < COUNT(asked); k++) {
        const bw_transient_options options = {.rain_leak = asked[k]};
        bw_year *year = year_of(c, &options);
        ck_assert_double_eq(year->leak_fraction, expected[k]);
        free(year);
    }
    c->assembly.rain_leak.given = false;
    const bw_transient_options none = {0};
    bw_year *year = year_of(c, &none);
    ck_assert_double_eq(year->leak_fraction, 0);
    free(year);
    free(c);
}
END_TEST

START_TEST(room_air_leaks_unless_told_not_to)
{
    transient_case *c = case_new();
    c->assembly.air_leakage = (bw_air_leakage){true, 1e-3, 5, false};
    bw_transient_options options = {0};
    bw_year *year = year_of(c, &options);
    ck_assert_double_gt(year->hour[3].air_flow, 0);
    ck_assert_double_eq_tol(year->hour[3].air_flow,
                            bw_leakage_air_flow(1e-3, 5, year->hour[3].theta_e,
                                                year->hour[3].theta_i),
                            1e-15);
    free(year);
    options.no_air_leakage = true;
    year = year_of(c, &options);
    ck_assert_double_eq(year->hour[3].air_flow, 0);
    free(year);
    free(c);
}
END_TEST

SUITE("transient_input", FACT(a_room_above_saturation_in_some_hours_is_refused),
      FACT(hours_lie_in_the_months_of_a_year_of_365_days),
      FACT(state_runs_straight_to_the_next_hour_and_round_the_year),
      FACT(hours_without_rain_taken_as_one_keep_their_sums),
      FACT(indoors_follows_the_mean_of_the_day_around),
      FACT(indoor_vapour_follows_the_mean_of_the_day_around),
      FACT(outer_coefficients_follow_wind_and_are_calm_without_a_column),
      FACT(surface_resistances_of_the_user_replace_the_coefficients),
      FACT(pressure_is_the_mean_of_its_column_or_standard),
      FACT(absorptance_without_sun_is_refused_with_what_is_missing),
      FACT(sun_is_absorbed_as_given_or_by_six_tenths),
      FACT(sky_is_seen_by_the_tilt_of_the_plane),
      FACT(rain_asked_for_without_its_columns_is_refused_with_what_is_missing),
      FACT(driving_rain_follows_exposure_wind_and_tilt),
      FACT(leak_is_that_of_the_options_then_of_the_assembly_and_at_most_all),
      FACT(room_air_leaks_unless_told_not_to))
