/* Humid air against figures from outside the project. */

#include <check.h>
#include <math.h>
#include <stdlib.h>

#include "bothways/air.h"

typedef struct figure {
    double theta, pressure;
} figure;

/* IAPWS R14-08, pressure on the sublimation curve of ice Ih [computed with a
 * public steam-table library]. */
static const figure over_ice[] = {
    {-20, 103.23903}, {-18, 124.89720}, {-15, 165.27374}, {-12, 217.29373},
    {-10, 259.87381}, {-8, 309.95467},  {-5, 401.74102},  {-3, 476.04082},
    {-2, 517.70467},  {-1, 562.66488},
};

/* IAPWS-IF97, equation 30 [computed with a public steam-table library]. */
static const figure over_water[] = {
    {0, 611.21268},   {1, 657.08805},   {2, 705.98791},   {4, 813.54938},
    {5, 872.57486},   {8, 1072.98775},  {10, 1228.18387}, {12, 1402.82237},
    {15, 1705.74487}, {18, 2064.65653}, {20, 2339.21477}, {25, 3169.74685},
    {30, 4246.68834}, {35, 5628.62014}, {40, 7384.42749},
};

/* SBi guideline 224, table 23 [seen]: national guideline figures. */
static const figure guideline[] = {
    {-20, 103.5}, {-19, 113.9}, {-18, 125.2}, {31, 4492}, {32, 4755},
};

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

START_TEST(saturation_over_water_meets_if97_within_02_percent)
{
    for (size_t i = 0; i < COUNT(over_water); ++i)
        ck_assert_double_eq_tol(bw_saturation_pressure(over_water[i].theta) /
                                    over_water[i].pressure,
                                1.0, 0.002);
}
END_TEST

START_TEST(saturation_over_ice_meets_r14_08_within_05_percent)
{
    for (size_t i = 0; i < COUNT(over_ice); ++i)
        ck_assert_double_eq_tol(bw_saturation_pressure(over_ice[i].theta) /
                                    over_ice[i].pressure,
                                1.0, 0.005);
}
END_TEST

START_TEST(saturation_meets_national_guideline_within_1_percent)
{
    for (size_t i = 0; i < COUNT(guideline); ++i)
        ck_assert_double_eq_tol(bw_saturation_pressure(guideline[i].theta) /
                                    guideline[i].pressure,
                                1.0, 0.01);
}
END_TEST

/* The published inverse: dew point of an IAPWS pressure is the temperature
 * within 0.05 K [measured beforehand: 0.034 K water, 0.050 K ice]. */
START_TEST(dew_point_of_iapws_pressures_is_their_temperature)
{
    for (size_t i = 0; i < COUNT(over_water); ++i)
        ck_assert_double_eq_tol(bw_dew_point(over_water[i].pressure),
                                over_water[i].theta, 0.04);
    for (size_t i = 0; i < COUNT(over_ice); ++i)
        ck_assert_double_eq_tol(bw_dew_point(over_ice[i].pressure),
                                over_ice[i].theta, 0.051);
}
END_TEST

START_TEST(dew_point_undoes_saturation)
{
    for (double theta = -60; theta <= 90; theta += 0.125)
        ck_assert_double_eq_tol(bw_dew_point(bw_saturation_pressure(theta)),
                                theta, 1e-9);
}
END_TEST

/* Published in ISO 13788 annex E's form: both branches give 610.5 Pa at 0
 * degC; their slopes of ln p are a/b: 17.269/237.3 and 21.875/265.5. */
START_TEST(zero_degrees_is_a_kink_not_a_jump)
{
    double eps = 1e-9;
    ck_assert_double_eq_tol(bw_saturation_pressure(0.0), 610.5, 1e-9);
    ck_assert_double_eq_tol(bw_saturation_pressure(-eps), 610.5, 1e-6);
    ck_assert_double_eq_tol(bw_saturation_pressure_slope(0.0) / 610.5, 0.07277,
                            1e-5);
    ck_assert_double_eq_tol(bw_saturation_pressure_slope(-eps) / 610.5, 0.08239,
                            1e-5);
    ck_assert_double_eq_tol(bw_dew_point(610.5), 0.0, 1e-12);
}
END_TEST

START_TEST(slope_is_the_difference_quotient)
{
    static const double at[] = {-25, -10, -0.5, 0.5, 12, 35, 70};
    for (size_t i = 0; i < COUNT(at); ++i) {
        double h = 1e-4, t = at[i];
        double q = (bw_saturation_pressure(t + h) -
                    bw_saturation_pressure(t - h)) /
                   (2 * h);
        ck_assert_double_eq_tol(bw_saturation_pressure_slope(t) / q, 1, 1e-7);
    }
}
END_TEST

/* IAPWS G12-15 supercooled water (chemical-potential equality) [computed with
 * a public steam-table library]; the continued formula is within 0.8 %. */
START_TEST(below_zero_water_branch_follows_supercooled_water)
{
    static const figure supercooled[] = {
        {-20, 125.44856}, {-15, 191.27038}, {-10, 286.43230},
        {-5, 421.75505},  {-1, 568.19714},
    };
    for (size_t i = 0; i < COUNT(supercooled); ++i)
        ck_assert_double_eq_tol(
            bw_saturation_pressure_water(supercooled[i].theta) /
                supercooled[i].pressure,
            1.0, 0.008);
}
END_TEST

/* IAPWS figures at -10 degC: 286.43230 over supercooled water, 259.87381
 * over ice, so the same 90 % differ by a tenth. */
START_TEST(humidity_over_water_means_more_vapour_than_over_ice)
{
    double water = bw_vapour_pressure(-10, 0.9, BW_OVER_WATER);
    double ice = bw_vapour_pressure(-10, 0.9, BW_OVER_ICE);
    ck_assert_double_eq_tol(water, 0.9 * 286.43230, 1.1);
    ck_assert_double_eq_tol(ice, 0.9 * 259.87381, 1.1);
    ck_assert_double_eq(bw_vapour_pressure(10, 0.5, BW_OVER_WATER),
                        bw_vapour_pressure(10, 0.5, BW_OVER_ICE));
    ck_assert_double_gt(bw_relative_humidity(-10, water), 0.98);
    ck_assert_double_eq_tol(bw_relative_humidity(-10, ice), 0.9, 1e-12);
}
END_TEST

/* 8.64 g/m3 at 20 degC and 50 %: half of 17.3 g/m3, the table value of
 * saturated air in building-physics handbooks [from memory, high]. */
START_TEST(vapour_concentration_of_room_air)
{
    ck_assert_double_eq_tol(
        bw_vapour_concentration(20, bw_vapour_pressure(20, 0.5, BW_OVER_ICE)),
        8.64e-3, 2e-5);
}
END_TEST

/* The other published form of the same law, Schirmer's
 *   delta = 0.083/(R_v T) (P0/P) (T/273)^1.81  [kg/(m h Pa)], P0 = 101325 Pa
 * [from memory, high confidence], agrees within 2 %. */
START_TEST(permeability_of_air_agrees_with_schirmer)
{
    for (double theta = -20; theta <= 60; theta += 5) {
        double T = theta + 273.15;
        double schirmer = 0.083 / (462.0 * T) * pow(T / 273.0, 1.81) / 3600.0;
        double ours = bw_vapour_permeability_of_air(theta, 101325);
        ck_assert_double_eq_tol(ours / schirmer, 1, 0.02);
    }
    ck_assert_double_eq_tol(bw_vapour_permeability_of_air(20, 101325) /
                                bw_vapour_permeability_of_air(20, 50662.5),
                            0.5, 1e-12);
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("air");
    TCase *c = tcase_create("air");
    tcase_add_test(c, saturation_over_water_meets_if97_within_02_percent);
    tcase_add_test(c, saturation_over_ice_meets_r14_08_within_05_percent);
    tcase_add_test(c, saturation_meets_national_guideline_within_1_percent);
    tcase_add_test(c, dew_point_of_iapws_pressures_is_their_temperature);
    tcase_add_test(c, dew_point_undoes_saturation);
    tcase_add_test(c, zero_degrees_is_a_kink_not_a_jump);
    tcase_add_test(c, slope_is_the_difference_quotient);
    tcase_add_test(c, below_zero_water_branch_follows_supercooled_water);
    tcase_add_test(c, humidity_over_water_means_more_vapour_than_over_ice);
    tcase_add_test(c, vapour_concentration_of_room_air);
    tcase_add_test(c, permeability_of_air_agrees_with_schirmer);
    suite_add_tcase(s, c);
    return s;
}

int main(void)
{
    SRunner *r = srunner_create(suite());
    srunner_run_all(r, CK_NORMAL);
    int failed = srunner_ntests_failed(r);
    srunner_free(r);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
