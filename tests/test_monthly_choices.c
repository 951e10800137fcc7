/* What the steady methods decide by themselves: when years repeat and where
 * they begin, which cup counts, which month asks most of a surface, and the
 * least of several places of the period balance. By hand, both sides of every
 * limit. */

#include <math.h>
#include <stdlib.h>

#include "bothways/air.h"
#include "glaser/cycle.h"
#include "glaser/surface.h"
#include "glaser/variable.h"
#include "suite.h"
#include "wall_case.h"

/* ---- years ----------------------------------------------------------------
 */

/* A year repeats the last where no place gains more than 1e-6 kg/m2; it is
 * proven to accumulate where each gains what it did to 1e-9, of more than 1 kg
 * of water to as much of that (cycle.c; tolerances of this project). */
static const struct year {
    double gained[2], before[2], water;
    bool first, periodic, accumulates;
} years[] = {
    {{0.9e-6, -0.9e-6}, {9, 9}, 0, false, true, false},
    {{1.1e-6, 0}, {9, 9}, 0, false, false, false},
    {{0, -1.1e-6}, {9, 9}, 0, false, false, false},
    {{0.1, 0.2}, {0.1, 0.2}, 0.3, false, false, true},
    {{0.1, 0.2}, {0.1, 0.2}, 0.3, true, false, false},
    {{0.1, 0.2}, {0.1, 0.2 + 0.9e-9}, 0.3, false, false, true},
    {{0.1, 0.2}, {0.1, 0.2 - 0.9e-9}, 0.3, false, false, true},
    {{0.1, 0.2}, {0.1, 0.2 + 1.05e-9}, 0.3, false, false, false},
    {{0.1, 0.2}, {0.1 - 1.05e-9, 0.2}, 0.3, false, false, false},
    {{0.1, 0.2}, {0.1, 0.2 + 0.9e-6}, 1000, false, false, true},
    {{0.1, 0.2}, {0.1, 0.2 + 1.05e-6}, 1000, false, false, false},
    {{0.1, -0.1}, {0.1, -0.1}, 0.3, false, false, false}, /* moved alone */
    {{-0.1, -0.2}, {-0.1, -0.2}, 0.3, false, false, false},
};

START_TEST(a_year_repeats_or_is_proven_to_add)
{
    const struct year *y = &years[_i];
    /* as kg/m2, and as kg/m of places of a hundredth of a metre */
    for (int spans = 0; spans < 2; spans++) {
        const double over = spans ? 0.01 : 1.0;
        const double span[] = {0.01, 0.01}, start[] = {0.0, 0.0};
        double gain[2], mass[2];
        for (size_t k = 0; k < 2; k++) {
            gain[k] = y->before[k] * over;
            mass[k] = y->gained[k] * over;
        }
        /* growth is of all places, and so is its limit */
        const double sum = mass[0] + mass[1];
        const bw_cycle got = bw_cycle_of(gain, mass, start, spans ? span : NULL,
                                         2, y->water, y->first);
        ck_assert_int_eq(got.periodic, y->periodic);
        ck_assert_int_eq(got.accumulates, y->accumulates);
        ck_assert_double_eq_tol(got.growth, sum, 1e-15);
        for (size_t k = 0; k < 2; k++)
            ck_assert_double_eq(gain[k], mass[k]);
    }
}
END_TEST

/* Over the start of the year, not from nothing. */
START_TEST(a_gain_is_what_is_more_than_at_the_start)
{
    const double start[] = {1.0, 2.0}, mass[] = {1.25, 1.5};
    double gain[] = {0.0, 0.0};
    const bw_cycle got = bw_cycle_of(gain, mass, start, NULL, 2, 2.75, false);
    ck_assert_double_eq(gain[0], 0.25);
    ck_assert_double_eq(gain[1], -0.5);
    ck_assert_double_eq(got.growth, -0.25);
}
END_TEST

/* ISO 13788 [from memory, high confidence]: from a trial month, January, with
 * condensation back to the first of such months, else on to the next. */
START_TEST(a_year_begins_with_its_first_wet_month)
{
    static const struct {
        const char *wet;
        int start;
    } rows[] = {{"ww....w...ww", 10}, {"w...........", 0}, {"w..........w", 11},
                {"wwwwwwwwwww.", 0},  {".wwwwwwwwwww", 1}, {"wwwwwwwwwwww", 0},
                {"............", 0},  {".....w.w....", 5}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bool wet[BW_MONTHS];
        for (int m = 0; m < BW_MONTHS; m++)
            wet[m] = rows[i].wet[m] == 'w';
        ck_assert_int_eq(bw_cycle_start(wet), rows[i].start);
    }
    for (int only = 0; only < BW_MONTHS; only++) {
        bool wet[BW_MONTHS] = {false};
        wet[only] = true;
        ck_assert_int_eq(bw_cycle_start(wet), only);
    }
}
END_TEST

/* docs/methods.md: three months before the coldest, round the new year. */
START_TEST(a_wetting_begins_three_months_before_the_coldest)
{
    for (int coldest = 0; coldest < BW_MONTHS; coldest++) {
        double theta[BW_MONTHS];
        for (int m = 0; m < BW_MONTHS; m++)
            theta[m] = m == coldest ? -5.0 : 5.0 - 0.1 * m;
        ck_assert_int_eq(bw_cycle_wetting(theta), (coldest + 9) % 12);
    }
}
END_TEST

/* ---- which cup ------------------------------------------------------------
 */

static const slab_row three[] = {{"board", 0.01, 0.1, 2.0},
                                 {"wool", 0.1, 2.5, 0.1},
                                 {"lining", 0.01, 0.05, 1.0}};

/* ISO 10456 [from memory, high confidence]: the wet cup above 70 % mean RH. */
START_TEST(a_cup_is_chosen_by_its_rule)
{
    static const struct {
        bw_mu_choice choice;
        double mean_rh;
        bool outside, inside; /* wet */
    } rows[] = {{BW_MU_DRY, 0.9, false, false},
                {BW_MU_WET, 0.1, true, true},
                {BW_MU_OUTER_DRY_INNER_WET, 0.9, false, true},
                {BW_MU_OUTER_WET_INNER_DRY, 0.1, true, false},
                {BW_MU_LOCAL, 0.69, false, false},
                {BW_MU_LOCAL, 0.71, true, true},
                {BW_MU_OPPOSITE, 0.69, true, true},
                {BW_MU_OPPOSITE, 0.71, false, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        wall_case wall;
        wall_of(&wall, three, COUNT(three), 0.04, 0.25);
        for (size_t k = 0; k < COUNT(three); k++)
            wall.slab[k].sd_wet = 0.5 * wall.slab[k].sd_dry;
        const double mean[] = {rows[i].mean_rh, rows[i].mean_rh,
                               rows[i].mean_rh};
        bool wet[3];
        double sd[3];
        bw_mu_choose(wet, sd, &wall.section, rows[i].choice, mean);
        ck_assert_int_eq(wet[0], rows[i].outside);
        ck_assert_int_eq(wet[2], rows[i].inside);
        ck_assert_double_eq(sd[0], rows[i].outside ? 1.0 : 2.0);
        ck_assert_double_eq(sd[2], rows[i].inside ? 0.5 : 1.0);
        const bool local = rows[i].choice == BW_MU_LOCAL ||
                           rows[i].choice == BW_MU_OPPOSITE;
        ck_assert_int_eq(bw_mu_by_humidity(&wall.section, rows[i].choice),
                         local);
        /* of one cup, or of a curve, there is nothing to choose */
        static const double x[] = {0.2, 0.9}, y[] = {5, 0.5};
        const bw_curve curve = {2, x, y, 0, "", ""};
        wall.slab[0].sd_curve = &curve;
        wall.slab[1].sd_wet = wall.slab[1].sd_dry;
        wall.slab[2].sd_wet = wall.slab[2].sd_dry;
        sd[0] = 77.0;
        bw_mu_choose(wet, sd, &wall.section, rows[i].choice, mean);
        ck_assert(!wet[0] && !wet[1] && !wet[2]);
        ck_assert_double_eq(sd[0], 77.0);
        ck_assert_double_eq(sd[2], 1.0);
        ck_assert(!bw_mu_by_humidity(&wall.section, rows[i].choice));
    }
}
END_TEST

/* ---- surfaces -------------------------------------------------------------
 */

/* Under 1 K between the rooms the factor means nothing (this project's). */
START_TEST(a_month_of_less_than_one_kelvin_asks_for_no_factor)
{
    static const struct {
        double theta_e;
        bool meaningful;
    } rows[] = {{18.9, true}, {19.0, false}, {19.1, false}, {19.9, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_boundary b[BW_MONTHS];
        bw_surface_result r;
        steady(b, rows[i].theta_e, 1000, 20, 1300);
        bw_surface(&r, "wall", 1, .04, .25, "", 0.8, b);
        const double asked = (bw_dew_point(1300 / 0.8) - rows[i].theta_e) /
                             (20 - rows[i].theta_e);
        for (int m = 0; m < BW_MONTHS; m++) {
            ck_assert_int_eq(r.month[m].meaningful, rows[i].meaningful);
            ck_assert_double_eq_tol(r.month[m].frsi_required,
                                    rows[i].meaningful ? asked : 0.0, 1e-12);
        }
    }
}
END_TEST

/* The month that asks for most beyond what it has, where the factor is not the
 * same all year (soil behind it). */
START_TEST(the_critical_month_is_that_of_the_largest_lack)
{
    bw_boundary b[BW_MONTHS];
    bw_surface_result r;
    double frsi[BW_MONTHS];
    steady(b, 0, 500, 20, 1300);
    for (int m = 0; m < BW_MONTHS; m++)
        frsi[m] = 0.95;
    b[3].p_i = 1500; /* asks for most */
    b[7].p_i = 1400;
    frsi[7] = 0.70; /* lacks most */
    bw_surface_of_factors(&r, "wall", frsi, .25, "", 0.8, b);
    const double lack[] = {(bw_dew_point(1500 / 0.8)) / 20 - 0.95,
                           (bw_dew_point(1400 / 0.8)) / 20 - 0.70};
    ck_assert_double_gt(lack[1], lack[0]);
    ck_assert_int_eq(r.critical_month, 7);
    ck_assert_double_eq(r.frsi, 0.70);
    ck_assert_double_eq_tol(r.frsi_required, lack[1] + 0.70, 1e-12);
    /* and of the largest that is asked for where all have the same */
    frsi[7] = 0.95;
    bw_surface_of_factors(&r, "wall", frsi, .25, "", 0.8, b);
    ck_assert_int_eq(r.critical_month, 3);
}
END_TEST

/* ---- the period balance ---------------------------------------------------
 */

/* sd 0.5, 1 and 2 m. The block climate's 500 Pa for 90 days lose from a plane
 * 0.7776 kg/m2 (1/s_e + 1/s_i), by hand. */
static const slab_row boards[] = {
    {"a", 0.01, 0.1, 0.5}, {"b", 0.01, 0.1, 1.0}, {"c", 0.01, 3.0, 2.0}};
static const double full = 90 * 86400.0 * 2e-10 * 500;

static bw_plane_at face_of(size_t slab)
{
    return (bw_plane_at){slab, 0.01, true};
}

static bw_period_result period(const bw_period_climate *climate,
                               const bw_plane_at *place, size_t count)
{
    wall_case wall;
    bw_period_result r;
    wall_of(&wall, boards, COUNT(boards), 0.04, 0.25);
    ck_assert_int_eq(bw_period_balance_at(&r, &wall.section, climate,
                                          BW_MU_LOCAL, place, count, NULL),
                     BW_OK);
    ck_assert(r.assessed);
    return r;
}

/* "Of the places the one that could lose least." A depth, the inner surface and
 * what lies beyond are no places. */
START_TEST(of_several_places_the_one_that_loses_least_counts)
{
    bw_period_climate dry = bw_period_climate_din4108(BW_ELEMENT_WALL);
    dry.condensation.p_i = dry.condensation.p_e;
    const double loss[] = {full * (1 / 0.5 + 1 / 3.0),
                           full * (1 / 1.5 + 1 / 2.0)};
    const bw_plane_at both[] = {face_of(0), face_of(1)};
    for (size_t from = 0; from < 2; from++)
        for (size_t count = 1; from + count <= 2; count++) {
            const size_t least = from + count - 1;
            const bw_period_result r = period(&dry, both + from, count);
            ck_assert_int_eq(r.which, BW_PERIOD_NONE);
            ck_assert_uint_eq(r.plane[0].at.slab, least);
            ck_assert_double_eq_tol(r.plane[0].evaporable, loss[least], 1e-9);
            ck_assert_double_eq_tol(r.reserve, loss[least], 1e-9);
            ck_assert_double_eq_tol(r.evaporable, loss[least], 1e-9);
            ck_assert_double_eq(r.condensed, 0.0);
        }
    const bw_plane_at turned[] = {face_of(1), face_of(0)};
    ck_assert_uint_eq(period(&dry, turned, 2).plane[0].at.slab, 1);
    const bw_plane_at none[] = {{1, 0.005, false}, {2, 0.01, true}, face_of(7)};
    const bw_period_result own = period(&dry, NULL, 0);
    const bw_period_result r = period(&dry, none, 3);
    ck_assert_double_eq(r.reserve, own.reserve);
    ck_assert_double_eq(r.evaporable, own.evaporable);
    ck_assert_uint_eq(r.plane[0].at.slab, own.plane[0].at.slab);
}
END_TEST

/* Where it condenses the plane stays, and the reserve is the lesser of both. */
START_TEST(of_a_wall_that_condenses_the_lesser_reserve_counts)
{
    const bw_period_climate damp = bw_period_climate_din4108(BW_ELEMENT_WALL);
    const bw_period_result own = period(&damp, NULL, 0);
    ck_assert_double_gt(own.condensed, 0.0);
    const double loss[] = {full * (1 / 0.5 + 1 / 3.0),
                           full * (1 / 1.5 + 1 / 2.0)};
    for (size_t k = 0; k < 2; k++) {
        const bw_plane_at place = face_of(k);
        const bw_period_result r = period(&damp, &place, 1);
        ck_assert_int_eq(r.which, own.which);
        ck_assert_uint_eq(r.plane[0].at.slab, own.plane[0].at.slab);
        ck_assert_double_eq(r.condensed, own.condensed);
        ck_assert_double_eq_tol(r.reserve, fmin(own.reserve, loss[k]), 1e-12);
        ck_assert_double_eq_tol(r.evaporable, r.reserve + r.condensed, 1e-12);
    }
}
END_TEST

/* ---- the reserve of places --------------------------------------------------
 */

/* At 20 degC throughout, 1000 Pa outside and 1200 Pa inside: what a face kept
 * wet loses in a year, by hand. */
static double loss_of(size_t slab)
{
    const double saturated = 610.5 * exp(17.269 * 20 / 257.3);
    const double out = slab == 0 ? 0.5 : 1.5;
    return 2e-10 * 365 * 86400.0 *
           ((saturated - 1000) / out + (saturated - 1200) / (3.5 - out));
}

static const struct places {
    size_t count;
    bw_plane_at at[3];
    size_t counts; /* the slab of the face that does */
} places[] = {
    {1, {{0, 0.01, true}}, 0},
    {1, {{1, 0.01, true}}, 1},
    {2, {{0, 0.01, true}, {1, 0.01, true}}, 1},
    {2, {{1, 0.01, true}, {0, 0.01, true}}, 1},
    /* the inner surface, and what is no plane, are no places */
    {3, {{2, 0.01, true}, {7, 0.01, true}, {0, 0.01, true}}, 0},
    {2, {{2, 0.01, true}, {7, 0.01, true}}, 1}, /* else the wall's own */
    {0, {{0, 0, false}}, 1},
};

/* "Of the places of the options the one that could lose least": glaser.h. */
START_TEST(the_reserve_is_of_the_place_that_loses_least)
{
    const struct places *row = &places[_i];
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    wall_of(&wall, boards, COUNT(boards), 0.04, 0.25);
    steady(b, 20, 1000, 20, 1200);
    bw_monthly_options o = {
        .start_month = -1, .place_count = row->count, .place = row->at};
    bw_monthly_result r = run(&wall, b, &o);
    ck_assert(r.has_reserve);
    ck_assert_ptr_eq(&r.plane[r.critical_plane], face(&r, row->counts));
    ck_assert_double_eq_tol(r.reserve, loss_of(row->counts), 1e-9);
    bw_monthly_free(&r);
    /* where air leaks in it is that plane's, whatever the places */
    o.has_air_flow = true;
    o.leak_plane = face_of(0);
    r = run(&wall, b, &o);
    ck_assert_ptr_eq(&r.plane[r.critical_plane], face(&r, 0));
    ck_assert_double_eq_tol(r.reserve, loss_of(0), 1e-9);
    bw_monthly_free(&r);
    /* and there is none of a wall that is wetted, or holds a wet layer */
    o.has_air_flow = false;
    o.wetting = 1.0;
    o.wet_plane = face_of(0);
    r = run(&wall, b, &o);
    ck_assert(!r.has_reserve);
    bw_monthly_free(&r);
    o.wetting = 0.0;
    o.saturated = true;
    r = run(&wall, b, &o);
    ck_assert(!r.has_reserve);
    bw_monthly_free(&r);
}
END_TEST

/* Of layers that have no sd in one of their cups none can be computed. */
START_TEST(a_wall_open_in_either_cup_is_not_assessed)
{
    const bw_period_climate climate = bw_period_climate_din4108(
        BW_ELEMENT_WALL);
    static const struct {
        double dry, wet;
        bool assessed;
    } rows[] = {{0, 1, false}, {1, 0, false}, {0, 0, false}, {1, 1, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        wall_case wall;
        bw_period_result r;
        wall_of(&wall, boards, 2, 0.04, 0.25);
        for (size_t k = 0; k < 2; k++) {
            wall.slab[k].sd_dry = rows[i].dry;
            wall.slab[k].sd_wet = rows[i].wet;
        }
        ck_assert_int_eq(
            bw_period_balance(&r, &wall.section, &climate, BW_MU_LOCAL, NULL),
            BW_OK);
        ck_assert_int_eq(r.assessed, rows[i].assessed);
        ck_assert_int_eq(r.reason[0] != '\0', !rows[i].assessed);
    }
}
END_TEST

/* A million metres are as tight as any more (period.c). */
START_TEST(a_million_metres_of_sd_are_tight)
{
    const bw_period_climate climate = bw_period_climate_din4108(
        BW_ELEMENT_WALL);
    static const double sd[] = {1e6, 1e9, 0.9e6};
    bw_period_result r[3];
    for (size_t i = 0; i < 3; i++) {
        wall_case wall;
        wall_of(&wall, boards, COUNT(boards), 0.04, 0.25);
        wall.slab[2].sd_dry = wall.slab[2].sd_wet = sd[i];
        ck_assert_int_eq(bw_period_balance(&r[i], &wall.section, &climate,
                                           BW_MU_LOCAL, NULL),
                         BW_OK);
        ck_assert(r[i].assessed);
    }
    ck_assert_double_eq(r[0].reserve, r[1].reserve);
    ck_assert_double_ne(r[0].reserve, r[2].reserve);
}
END_TEST

SUITE("monthly_choices", EACH(a_year_repeats_or_is_proven_to_add, COUNT(years)),
      FACT(a_gain_is_what_is_more_than_at_the_start),
      FACT(a_year_begins_with_its_first_wet_month),
      FACT(a_wetting_begins_three_months_before_the_coldest),
      FACT(a_cup_is_chosen_by_its_rule),
      FACT(a_month_of_less_than_one_kelvin_asks_for_no_factor),
      FACT(the_critical_month_is_that_of_the_largest_lack),
      FACT(of_several_places_the_one_that_loses_least_counts),
      FACT(of_a_wall_that_condenses_the_lesser_reserve_counts),
      EACH(the_reserve_is_of_the_place_that_loses_least, COUNT(places)),
      FACT(a_wall_open_in_either_cup_is_not_assessed),
      FACT(a_million_metres_of_sd_are_tight))
