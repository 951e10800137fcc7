/* Quantities with units, against definitions from outside the project. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"
#include "suite.h"

static double read_ok(bw_dimension dimension, const char *text)
{
    char why[600];
    double value = NAN;
    bool ok = bw_quantity_read(&value, dimension, -1e300, 1e300, text, why,
                               sizeof why);
    ck_assert_msg(ok, "\"%s\" %s", text, why);
    return value;
}

/* Definitions: 1 grain = 64.79891 mg, 1 ft = 0.3048 m, 1 inch = 25.4 mm (all
 * exact by the international yard and pound agreement of 1959); conventional
 * mmHg = 133.322387415 Pa (exact, BIPM). sd = delta_0 / permeance with
 * delta_0 = 2.0e-10 kg/(m s Pa) (ISO 13788). */
static const double GRAIN = 64.79891e-6, FOOT = 0.3048, MMHG = 133.322387415;
static const double DELTA_0 = 2.0e-10;

START_TEST(us_perm_follows_from_grain_foot_and_inch_of_mercury)
{
    double permeance = GRAIN / (3600.0 * FOOT * FOOT * 25.4 * MMHG);
    ck_assert_double_eq_tol(permeance / 57.2135e-12, 1.0, 2e-5); /* ASTM E96 */
    ck_assert_double_eq_tol(read_ok(BW_DIM_PERMEANCE, "1 usperm") /
                                (DELTA_0 / permeance),
                            1.0, 1e-5);
    /* The contract's rounded figure. */
    ck_assert_double_eq_tol(read_ok(BW_DIM_PERMEANCE, "1 usperm"), 3.50, 0.005);
}
END_TEST

START_TEST(metric_perm_follows_from_gram_day_and_mm_of_mercury)
{
    double permeance = 1e-3 / (86400.0 * MMHG);
    ck_assert_double_eq_tol(read_ok(BW_DIM_PERMEANCE, "1 metricperm") /
                                (DELTA_0 / permeance),
                            1.0, 1e-12);
}
END_TEST

START_TEST(permeance_in_si_is_the_reciprocal_of_sd)
{
    /* 57.2 ng/(Pa s m2) and 1 usperm are one thing to three digits. */
    ck_assert_double_eq_tol(read_ok(BW_DIM_PERMEANCE, "57.2 ng/(Pa.s.m2)"),
                            read_ok(BW_DIM_PERMEANCE, "1 usperm"), 1e-3);
    ck_assert_double_eq_tol(read_ok(BW_DIM_PERMEANCE, "100 ng/(Pa.s.m2)"), 2.0,
                            1e-12);
}
END_TEST

START_TEST(vapour_resistance_units_all_say_the_same)
{
    /* 1 MN s/g = 1e6 N s / 1e-3 kg = 1e9 m/s; times delta_0: 0.20 m. */
    static const char *const same[] = {"1 MN.s/g", "1 GN.s/kg", "1 GPa.s.m2/kg",
                                       "1e9 m2.s.Pa/kg"};
    for (size_t i = 0; i < COUNT(same); i++)
        ck_assert_double_eq_tol(read_ok(BW_DIM_VAPOUR_RESISTANCE, same[i]),
                                0.20, 1e-12);
    /* 5 MN s/(g m) is the resistivity of still air: mu = 1. */
    ck_assert_double_eq_tol(read_ok(BW_DIM_VAPOUR_RESISTIVITY, "5 MN.s/(g.m)"),
                            1.0, 1e-12);
    ck_assert_double_eq_tol(
        read_ok(BW_DIM_VAPOUR_RESISTIVITY, "50 GN.s/(kg.m)"), 10.0, 1e-12);
}
END_TEST

typedef struct accepted {
    bw_dimension dimension;
    const char *text;
    double value;
} accepted;

static const accepted good[] = {
    {BW_DIM_LENGTH, "12 mm", 0.012},
    {BW_DIM_LENGTH, "12mm", 0.012},
    {BW_DIM_LENGTH, "  1.2e1 cm ", 0.12},
    {BW_DIM_LENGTH, "0.5 m", 0.5},
    {BW_DIM_LENGTH, "200 um", 200e-6},
    {BW_DIM_LENGTH, "200 \xc2\xb5m", 200e-6},
    {BW_DIM_SD, "0.2 m", 0.2},
    {BW_DIM_MU, "50", 50.0},
    {BW_DIM_NUMBER, "0.6", 0.6},
    {BW_DIM_TEMPERATURE, "20 degC", 20.0},
    {BW_DIM_TEMPERATURE, "-10 \xc2\xb0\x43", -10.0},
    {BW_DIM_TEMPERATURE, "293.15 K", 20.0},
    {BW_DIM_TEMPERATURE, "68 degF", 20.0},
    {BW_DIM_FRACTION, "55 %", 0.55},
    {BW_DIM_FRACTION, "55%", 0.55},
    {BW_DIM_RATIO, "18 %", 0.18},
    {BW_DIM_RATIO, "0.18 kg/kg", 0.18},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m.K)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m K)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m\xc2\xb7K)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m*K)", 0.035},
    {BW_DIM_CONDUCTIVITY, "35 mW/(m.K)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(mK)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/mK", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W/m.K", 0.035},
    {BW_DIM_CONDUCTIVITY, "35 mW/mK", 0.035},
    {BW_DIM_CONDUCTIVITY,
     "0.035 W\xc2\xb7m\xe2\x81\xbb\xc2\xb9\xc2\xb7K\xe2\x81\xbb\xc2\xb9",
     0.035},
    {BW_DIM_VAPOUR_RESISTANCE, "5 MNs/g", 1.0},
    {BW_DIM_VAPOUR_RESISTIVITY, "5 MNs/gm", 1.0},
    {BW_DIM_VAPOUR_RESISTIVITY, "5 MNs/g.m", 1.0},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 m2K/W", 0.05},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 m\xc2\xb2K/W", 0.05},
    {BW_DIM_THERMAL_RESISTANCE, "25 W/m2K", 0.04},
    {BW_DIM_THERMAL_RESISTANCE, "25 W/(m\xc2\xb2K)", 0.04},
    {BW_DIM_SPECIFIC_HEAT, "1.6 kJ/kgK", 1600.0},
    {BW_DIM_AREAL_MASS, "1 kg/m\xc2\xb2", 1.0},
    {BW_DIM_AIR_PERMEABILITY, "3 m\xc2\xb3/(m\xc2\xb2h)", 3.0 / 3600.0},
    {BW_DIM_AIR_PERMEABILITY, "3 m3/m2h", 3.0 / 3600.0},
    {BW_DIM_WATER_ABSORPTION, "6 kg/m2h0.5", 0.1},
    {BW_DIM_TEMPERATURE, "20 \xe2\x84\x83", 20.0},
    {BW_DIM_FRACTION, "55 %RH", 0.55},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 m2.K/W", 0.05},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 m\xc2\xb2.K/W", 0.05},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 m^2.K/W", 0.05},
    {BW_DIM_LENGTH, "\r\n\t12\r\nmm\n", 0.012},
    {BW_DIM_POROSITY, "0.34 m3/m3", 0.34},
    {BW_DIM_POROSITY, "34 %", 0.34},
    {BW_DIM_DENSITY, "800 kg/m3", 800.0},
    {BW_DIM_DENSITY, "800 kg/m\xc2\xb3", 800.0},
    {BW_DIM_SPECIFIC_HEAT, "1.6 kJ/(kg.K)", 1600.0},
    {BW_DIM_AREAL_MASS, "1.0 kg/m2", 1.0},
    {BW_DIM_AREAL_MASS, "500 g/m2", 0.5},
    {BW_DIM_WATER_ABSORPTION, "6 kg/(m2.h0.5)", 0.1}, /* sqrt(3600) = 60 */
    {BW_DIM_PRESSURE, "12 hPa", 1200.0},
    {BW_DIM_RATE, "1.5 h-1", 1.5 / 3600.0},
    {BW_DIM_RATE, "10 1/h", 10.0 / 3600.0},
    {BW_DIM_AIR_PERMEABILITY, "3 m3/(m2.h)", 3.0 / 3600.0},
    {BW_DIM_OPENING, "1000 mm2/m", 0.001},
    {BW_DIM_ANGLE, "225 deg", 225.0},
    /* every other unit once: 3600 s in an hour, 1000 l in m3, 1e-6 m2 in mm2 */
    {BW_DIM_SD, "20 cm", 0.2},
    {BW_DIM_SD, "200 mm", 0.2},
    {BW_DIM_VAPOUR_RESISTANCE, "1 GPa.m2.s/kg", 0.2},
    {BW_DIM_PERMEANCE, "1e-10 kg/(m2.s.Pa)", 2.0},
    {BW_DIM_PERMEANCE, "100 ng/(s.m2.Pa)", 2.0},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(K.m)", 0.035},
    {BW_DIM_CONDUCTIVITY, "0.035 W.m-1.K-1", 0.035},
    {BW_DIM_THERMAL_RESISTANCE, "0.05 K.m2/W", 0.05},
    {BW_DIM_SPECIFIC_HEAT, "1600 J/(kg.K)", 1600.0},
    {BW_DIM_WATER_ABSORPTION, "0.1 kg/(m2.s0.5)", 0.1},
    {BW_DIM_WATER_ABSORPTION, "0.1 kg/(m2.s1/2)", 0.1},
    {BW_DIM_WATER_ABSORPTION, "6 kg/(m2.h1/2)", 0.1},
    {BW_DIM_PRESSURE, "1200 Pa", 1200.0},
    {BW_DIM_PRESSURE, "1.2 kPa", 1200.0},
    {BW_DIM_RATE, "36 /h", 0.01},
    {BW_DIM_RATE, "0.01 1/s", 0.01},
    {BW_DIM_RATE, "0.01 s-1", 0.01},
    {BW_DIM_AIR_PERMEABILITY, "36 m3/(h.m2)", 0.01},
    {BW_DIM_AIR_PERMEABILITY, "0.01 m3/(m2.s)", 0.01},
    {BW_DIM_AIR_PERMEABILITY, "10 l/(m2.s)", 0.01},
    {BW_DIM_AIR_PERMEABILITY, "10 l/(s.m2)", 0.01},
    {BW_DIM_AIR_FLOW, "36 m3/(m.h)", 0.01},
    {BW_DIM_AIR_FLOW, "36 m3/(h.m)", 0.01},
    {BW_DIM_AIR_FLOW, "0.01 m3/(m.s)", 0.01},
    {BW_DIM_AIR_FLOW, "10 l/(m.s)", 0.01},
    {BW_DIM_AIR_FLOW, "10 l/(s.m)", 0.01},
    {BW_DIM_OPENING, "10 cm2/m", 0.001},
    {BW_DIM_OPENING, "0.001 m2/m", 0.001},
    {BW_DIM_TRANSMITTANCE, "0.2 W/(m2.K)", 0.2},
    {BW_DIM_TRANSMITTANCE, "0.2 W/(K.m2)", 0.2},
    {BW_DIM_PER_AREA, "12.5 /m2", 12.5},
    {BW_DIM_PER_AREA, "12.5 1/m2", 12.5},
    {BW_DIM_PER_VOLUME, "180 /m3", 180.0},
    {BW_DIM_PER_VOLUME, "180 1/m3", 180.0},
};

START_TEST(accepted_spellings_give_si_values)
{
    const accepted *row = &good[_i];
    double value = read_ok(row->dimension, row->text);
    ck_assert_double_eq_tol(value, row->value,
                            1e-12 * fmax(1.0, fabs(row->value)));
}
END_TEST

typedef struct refused {
    bw_dimension dimension;
    const char *text, *fragment;
} refused;

static const refused bad[] = {
    {BW_DIM_LENGTH, "", "is empty"},
    {BW_DIM_LENGTH, "12", "has no unit"},
    {BW_DIM_LENGTH, "12", "\"12 mm\""},
    {BW_DIM_LENGTH, "12 nm", "did you mean mm?"},
    {BW_DIM_LENGTH, "5.5 in", "it is 139.7 mm; write a length"},
    {BW_DIM_LENGTH, "5.5 in", "(units: mm, cm, m, um)"},
    {BW_DIM_LENGTH, "2 inch", "it is 50.8 mm"},
    {BW_DIM_LENGTH, "2 inches", "it is 50.8 mm"},
    {BW_DIM_LENGTH, "2\"", "it is 50.8 mm"},
    {BW_DIM_LENGTH, "2 ft", "it is 609.6 mm"},
    {BW_DIM_LENGTH, "2 feet", "it is 609.6 mm"},
    {BW_DIM_LENGTH, "50 mil", "it is 1.27 mm"},
    {BW_DIM_LENGTH, "5 qz", "not a unit known here; write"},
    {BW_DIM_LENGTH, "12 m m", "not a unit known here"},
    {BW_DIM_CONDUCTIVITY, "1 W/(mK", "did you mean W/(m.K)?"},
    {BW_DIM_LENGTH, "mm", "does not start with a number"},
    {BW_DIM_LENGTH, "nan mm", "does not start with a number"},
    {BW_DIM_LENGTH, "inf mm", "does not start with a number"},
    {BW_DIM_LENGTH, "-inf", "does not start with a number"},
    {BW_DIM_LENGTH, "0x10 mm", "is not a decimal number"},
    {BW_DIM_LENGTH, "0,5 mm", "use a point"},
    {BW_DIM_LENGTH, "1,000 mm", "use a point"},
    {BW_DIM_LENGTH, "1e308 mm", "outside what is possible"},
    {BW_DIM_LENGTH, "1e999 mm", "is too large a number"},
    {BW_DIM_LENGTH, "-5 mm", "outside what is possible here, 0 mm to 5000 mm"},
    {BW_DIM_LENGTH, "12 mm 3", "not a unit known here"},
    {BW_DIM_LENGTH, "5 MN.s/g", "is the unit of a vapour resistance"},
    {BW_DIM_SD, "50", "belongs in mu="},
    {BW_DIM_SD, "5 MN.s/g", "vapour-resistance="},
    {BW_DIM_MU, "0.2 m", "belongs in sd="},
    {BW_DIM_MU, "50 -", "no unit belongs here"},
    {BW_DIM_VAPOUR_RESISTANCE, "5 m", "an sd-value in m belongs in sd="},
    {BW_DIM_FRACTION, "0.5", "has no unit"},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m2.K)", "is the unit of a transmittance"},
    {BW_DIM_CONDUCTIVITY, "0.035 W/(m3.K)", "did you mean W/(m.K)?"},
    {BW_DIM_THERMAL_RESISTANCE, "0.035 W/(m.K)", "unit of a conductivity"},
    {BW_DIM_TEMPERATURE, "20 C", "degC"},
    {BW_DIM_TEMPERATURE, "68 degF", "here, 32 degF to 41 degF"},
    {BW_DIM_RATIO, "0.1 m3/m3", "is the unit of a porosity, not of a moisture"},
    {BW_DIM_RATIO, "0.1 m3/m3", "by mass"},
    {BW_DIM_POROSITY, "0.3 kg/kg", "is the unit of a moisture content"},
    {BW_DIM_LENGTH, "--5 mm", "does not start with a number"},
    {BW_DIM_LENGTH, "-.5e999 mm", "is too large a number"},
    /* 5 m of sd is 3.4957/5 US perm; no sd at all has no bound */
    {BW_DIM_PERMEANCE, "0.1 usperm", "here, 0.699136 usperm to any"},
    {BW_DIM_PERMEANCE, "0 usperm", "must be above zero"},
    {BW_DIM_PERMEANCE, "-1 usperm", "must be above zero"},
};

START_TEST(refusals_say_what_is_wrong_and_what_is_allowed)
{
    char why[600];
    double value = 7.0;
    ck_assert(!bw_quantity_read(&value, bad[_i].dimension, 0.0, 5.0,
                                bad[_i].text, why, sizeof why));
    ck_assert_msg(strstr(why, bad[_i].fragment) != NULL, "\"%s\": %s",
                  bad[_i].text, why);
    ck_assert_double_eq(value, 7.0);
}
END_TEST

START_TEST(bare_perm_is_refused_telling_the_three_apart)
{
    static const char *const texts[] = {"1 perm", "1 perms", "1 perm-inch",
                                        "1 perm inch"};
    char why[600];
    double value;
    for (size_t i = 0; i < COUNT(texts); i++) {
        ck_assert(!bw_quantity_read(&value, BW_DIM_PERMEANCE, 0.0, 1e6,
                                    texts[i], why, sizeof why));
        ck_assert_ptr_nonnull(strstr(why, "usperm"));
        ck_assert_ptr_nonnull(strstr(why, "metricperm"));
        ck_assert_ptr_nonnull(strstr(why, "perm-inch"));
    }
    ck_assert(!bw_quantity_read(&value, BW_DIM_SD, 0.0, 1e6, "1 perm", why,
                                sizeof why));
    ck_assert_ptr_nonnull(strstr(why, "usperm"));
}
END_TEST

START_TEST(bounds_are_met_whatever_the_last_bit)
{
    char why[600];
    double value;
    ck_assert(bw_quantity_read(&value, BW_DIM_LENGTH, 5e-5, 3.0, "0.05 mm", why,
                               sizeof why));
    ck_assert(bw_quantity_read(&value, BW_DIM_FRACTION, 0.0, 1.0, "100 %", why,
                               sizeof why));
    ck_assert(!bw_quantity_read(&value, BW_DIM_FRACTION, 0.0, 1.0, "100.1 %",
                                why, sizeof why));
}
END_TEST

START_TEST(a_reason_is_cut_to_its_room)
{
    char why[16];
    double value;
    memset(why, 'x', sizeof why);
    ck_assert(!bw_quantity_read(&value, BW_DIM_LENGTH, 0.0, 1.0, "1 perm", why,
                                sizeof why));
    ck_assert_uint_eq(strlen(why), sizeof why - 1);
}
END_TEST

SUITE("units", FACT(us_perm_follows_from_grain_foot_and_inch_of_mercury),
      FACT(metric_perm_follows_from_gram_day_and_mm_of_mercury),
      FACT(permeance_in_si_is_the_reciprocal_of_sd),
      FACT(vapour_resistance_units_all_say_the_same),
      EACH(accepted_spellings_give_si_values, COUNT(good)),
      EACH(refusals_say_what_is_wrong_and_what_is_allowed, COUNT(bad)),
      FACT(bare_perm_is_refused_telling_the_three_apart),
      FACT(bounds_are_met_whatever_the_last_bit),
      FACT(a_reason_is_cut_to_its_room))
