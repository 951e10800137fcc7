/* When a wetting is given up: of what is left at the end of a year every year
 * to come leaves the part that this one did (docs/methods.md, the wetting
 * test), and 10 % must be left at most. Water that stands between foam and a
 * foil leaves at a steady rate, g = delta (p_sat - p) / sd, worked by hand. */

#include "suite.h"
#include "transient_run.h"

#define YEAR (8760.0 * 3600)
#define PUT 2.0 /* kg/m2 */

/* Foam of sd 0.01 m behind a tight foil, 20 degC and 50 % RH on both sides; the
 * foil inside such that `part` of two kilograms leaves in a year. */
static double followed(double part, int years, size_t *days)
{
    transient_case *c = steady_new(20, 0.5, 20, 0.5);
    const double drive = 0.5 * bw_saturation_pressure(20);
    const double film = 1 / 17.5e-9; /* 7e-9 * 2.5 kg/(m2 s Pa) at the room */
    const double sd = BW_DELTA_0 * (drive * YEAR / (PUT * part) - film) - 0.01;
    add_foil(c, 1e5);
    case_material(c, 1, "foam", 30, 0.04, 1400, 1, 1);
    case_slab(c, BW_LAYER_SOLID, 0.01);
    add_foil(c, sd);
    const bw_transient_options once = {.max_years = 1};
    bw_transient_result base = run(c, &once);
    const bw_wetting_options options = {
        .run.fixed_permeability = true,
        .put = {.water = PUT, .slab = 1, .outer_side = true},
        .month = 3,
        .years = years};
    bw_wetting_result r;
    bw_error err = {0};
    ck_assert_int_eq(bw_wetting(&r, &c->assembly, &c->section, &c->climate,
                                &base, &options, &err),
                     BW_OK);
    *days = r.day_count;
    ck_assert_double_eq_tol(r.excess[364] / PUT, 1 - part, 0.01);
    const double months = r.months;
    bw_wetting_free(&r);
    bw_transient_free(&base);
    free(c);
    return months;
}

/* Left by the end: (1 - part)^years, of which a tenth is allowed. What is not
 * given up is dry after 0.9 / part years. */
START_TEST(a_wetting_is_given_up_where_the_years_left_are_too_few)
{
    static const struct {
        double part;
        int years;
        bool given_up;
    } cases[] = {
        {0.2, 2, true},   /* 0.64 */
        {0.6, 2, true},   /* 0.16 */
        {0.66, 2, true},  /* 0.116 */
        {0.70, 2, false}, /* 0.09 */
        {0.6, 3, false},  /* 0.064 */
        {0.5, 3, true},   /* 0.125 */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        size_t days;
        const double months = followed(cases[i].part, cases[i].years, &days);
        if (cases[i].given_up) {
            ck_assert_uint_eq(days, 365);
            ck_assert_double_eq(months, -1);
        } else {
            ck_assert_double_eq_tol(months, 12 * 0.9 / cases[i].part, 0.2);
        }
    }
}
END_TEST

SUITE("transient_reach",
      FACT(a_wetting_is_given_up_where_the_years_left_are_too_few))
