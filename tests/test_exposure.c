/* Wind and rain at a face, and what a coat lets through. */

#include <math.h>
#include <stdlib.h>

#include "bothways/air.h"
#include "boundary.h"
#include "exposure.h"
#include "follow.h"
#include "suite.h"
#include "transient_case.h"

/* The power law computed with another program:
 * 27^0.14 = 1.5863, times (z/delta)^a. */
START_TEST(wind_at_the_face_follows_terrain_and_height)
{
    static const struct {
        bw_terrain terrain;
        double height, share;
    } row[] = {
        {BW_TERRAIN_RURAL, 10, 1.0},       {BW_TERRAIN_OPEN, 10, 1.1699},
        {BW_TERRAIN_RURAL, 5, 0.9075},     {BW_TERRAIN_SUBURBAN, 5, 0.6154},
        {BW_TERRAIN_SUBURBAN, 10, 0.7168}, {BW_TERRAIN_URBAN, 5, 0.3567},
        {BW_TERRAIN_URBAN, 30, 0.6443},    {BW_TERRAIN_URBAN, 500, 1.5863},
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        const bw_outdoors out = {.has_terrain = true,
                                 .terrain = row[k].terrain,
                                 .has_height = true,
                                 .height = row[k].height};
        ck_assert_double_eq_tol(bw_local_wind(&out), row[k].share, 2e-4);
    }
    const bw_outdoors unsaid = {0};
    ck_assert_double_eq_tol(bw_local_wind(&unsaid), 0.6154, 2e-4);
    ck_assert_int_eq(bw_terrain_taken(&unsaid), BW_TERRAIN_SUBURBAN);
    ck_assert_double_eq(bw_height_taken(&unsaid), 5);
}
END_TEST

START_TEST(exposure_to_rain_rises_with_height_and_with_its_words)
{
    static const double height[] = {5, 10, 12, 18, 25, 35, 45, 80};
    static const bw_exposure word[] = {BW_RAIN_NONE, BW_RAIN_SHELTERED,
                                       BW_RAIN_MODERATE, BW_RAIN_SEVERE};
    for (size_t k = 0; k < COUNT(height); k++) {
        double before = 0;
        for (size_t i = 0; i < COUNT(word); i++) {
            bw_outdoors out = {.driving_rain = word[i],
                               .has_height = true,
                               .height = height[k]};
            const double here = bw_exposure_factor(&out);
            ck_assert_double_ge(here, before);
            before = here;
            if (k == 0)
                continue;
            out.height = height[k - 1];
            ck_assert_double_le(bw_exposure_factor(&out), here);
        }
    }
    /* a leak in a face told to see no rain leaks no more than a sheltered one
     */
    const bw_outdoors none = {.driving_rain = BW_RAIN_NONE};
    ck_assert_double_eq_tol(bw_exposure_factor(&none), 0.7 * 0.35, 1e-12);
}
END_TEST

/* ASHRAE 160's factors of exposure, by height [from memory, medium; severe up
 * to 10 m from a list of the same law]: to the height itself, and just above
 * it. Times the factor of deposition: 0.35, 0.5, 1.0. */
START_TEST(exposure_to_rain_is_that_of_its_source)
{
    static const struct {
        double height, factor[3];
    } rows[] = {
        {0.5, {0.7, 1.0, 1.4}},   {10, {0.7, 1.0, 1.4}},
        {10.01, {0.8, 1.1, 1.4}}, {15, {0.8, 1.1, 1.4}},
        {15.01, {0.9, 1.2, 1.4}}, {20, {0.9, 1.2, 1.4}},
        {20.01, {1.1, 1.3, 1.5}}, {30, {1.1, 1.3, 1.5}},
        {30.01, {1.2, 1.4, 1.5}}, {40, {1.2, 1.4, 1.5}},
        {40.01, {1.3, 1.5, 1.5}}, {50, {1.3, 1.5, 1.5}},
        {50.01, {1.5, 1.5, 1.5}}, {500, {1.5, 1.5, 1.5}},
    };
    static const bw_exposure word[] = {BW_RAIN_SHELTERED, BW_RAIN_MODERATE,
                                       BW_RAIN_SEVERE};
    static const double deposition[] = {0.35, 0.5, 1.0};
    for (size_t k = 0; k < COUNT(rows); k++)
        for (size_t i = 0; i < COUNT(word); i++) {
            const bw_outdoors out = {.driving_rain = word[i],
                                     .has_height = true,
                                     .height = rows[k].height};
            ck_assert_double_eq_tol(bw_exposure_factor(&out),
                                    rows[k].factor[i] * deposition[i], 1e-12);
        }
}
END_TEST

/* sqrt(t) between the hours of a spell: 1, 0.4142, 0.3178 kg/(m2 h) for 1
 * kg/(m2 h^0.5) = 1/60 kg/(m2 s^0.5). */
START_TEST(a_coat_lets_in_what_its_absorption_test_did_spell_by_spell)
{
    static const double hourly[] = {1, 0.41421356, 0.31783725};
    double sum = 0;
    for (int n = 1; n <= 24; n++) {
        const double rate = 3600 * bw_coat_rate(1.0 / 60, n);
        if (n <= 3)
            ck_assert_double_eq_tol(rate, hourly[n - 1], 1e-8);
        sum += rate;
    }
    ck_assert_double_eq_tol(sum, sqrt(24), 1e-9); /* the test of 24 h */
}
END_TEST

START_TEST(rain_on_a_coat_is_held_to_its_rate_until_the_spell_ends)
{
    bw_year *year = calloc(1, sizeof *year);
    ck_assert_ptr_nonnull(year);
    for (int i = 10; i < 15; i++)
        year->hour[i].rain = i == 12 ? 0 : 1.0 / 3600;
    year->hour[14].rain = 0.01 / 3600;
    bw_year_coat(year, 0.1 / 60);
    static const double mm[] = {0, 0.1, 0.041421356, 0, 0.1, 0.01, 0};
    for (int i = 0; i < 7; i++)
        ck_assert_double_eq_tol(3600 * year->hour[9 + i].rain, mm[i], 1e-8);
    bw_year_coat(year, 0);
    for (int i = 0; i < 7; i++)
        ck_assert_double_eq(year->hour[9 + i].rain, 0);
    free(year);
}
END_TEST

START_TEST(the_share_that_stays_is_the_assemblys_own_where_given)
{
    bw_outdoors out = {0};
    ck_assert_double_eq(bw_driven_share(&out), 0.7);
    ck_assert_double_eq(bw_falling_share(&out), 1);
    out.has_rain_share = true;
    out.rain_share = 0.4;
    ck_assert_double_eq(bw_driven_share(&out), 0.4);
    ck_assert_double_eq(bw_falling_share(&out), 0.4);
}
END_TEST

/* By hand from docs/methods.md ("Outside"): without a wind column 2 m/s, h = 4
 * + 4 v and the radiation of 4 e s T^3 at 10 degC, 12 + 4 x 0.9 x 5.670374e-8 x
 * 283.15^3 = 12 + 4.634 W/(m2 K); vapour by an sd of 1/(67 + 90 v) m; a room
 * and a cavity by 0.13 m2 K/W and 7e-9 x 2.5 kg/(m2 s Pa). */
START_TEST(a_face_that_is_followed_has_the_films_of_its_air)
{
    bw_follow follow = {0};
    bw_outdoors out = {0};
    bw_indoors room = {0};
    bw_follow_outdoors(&follow, &out);
    ck_assert_double_eq_tol(follow.h_e, 16.634, 2e-3);
    ck_assert_double_eq_tol(follow.beta_e, 2e-10 * 247, 1e-14);
    out.emissivity = 0.3;
    bw_follow_outdoors(&follow, &out);
    ck_assert_double_eq_tol(follow.h_e, 12 + 4.634 / 3, 2e-3);
    out.has_surface_resistance = true;
    out.surface_resistance = 0.05;
    bw_follow_outdoors(&follow, &out);
    ck_assert_double_eq_tol(follow.h_e, 20.0, 1e-12);
    bw_follow_cavity(&follow);
    ck_assert_double_eq_tol(follow.h_e, 1 / 0.13, 1e-12);
    ck_assert_double_eq_tol(follow.beta_e, 1.75e-8, 1e-14);
    bw_follow_room(&follow, &room);
    ck_assert_double_eq_tol(follow.h_i, 1 / 0.13, 1e-12);
    ck_assert_double_eq_tol(follow.beta_i, 1.75e-8, 1e-14);
    room.has_surface_resistance = true;
    room.surface_resistance = 0.25;
    bw_follow_room(&follow, &room);
    ck_assert_double_eq_tol(follow.h_i, 4.0, 1e-12);
}
END_TEST

SUITE("exposure", FACT(a_face_that_is_followed_has_the_films_of_its_air),
      FACT(wind_at_the_face_follows_terrain_and_height),
      FACT(exposure_to_rain_rises_with_height_and_with_its_words),
      FACT(exposure_to_rain_is_that_of_its_source),
      FACT(a_coat_lets_in_what_its_absorption_test_did_spell_by_spell),
      FACT(rain_on_a_coat_is_held_to_its_rate_until_the_spell_ends),
      FACT(the_share_that_stays_is_the_assemblys_own_where_given))
