/* Humid air against figures from outside the project; saturation pressures and
 * dew points: cases/saturation-*. */

#include <math.h>
#include <stdlib.h>

#include "bothways/air.h"
#include "suite.h"

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

SUITE("air", FACT(dew_point_undoes_saturation),
      FACT(zero_degrees_is_a_kink_not_a_jump),
      FACT(slope_is_the_difference_quotient),
      FACT(humidity_over_water_means_more_vapour_than_over_ice),
      FACT(vapour_concentration_of_room_air),
      FACT(permeability_of_air_agrees_with_schirmer))
