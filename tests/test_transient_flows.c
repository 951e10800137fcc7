/* Water and heat that cross a wall's boundary: what air and rain bring a cell,
 * what a year counts, what its balance is held against. */

#include "bothways/glaser.h"
#include "suite.h"
#include "transient_core.h"
#include "transient_run.h"

#define YEAR (8760 * 3600.0)

/* ---- what air and rain bring a cell ---- */

static lab *lab_at_5_degrees(void)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 5, 0.5);
    bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, false);
    return l;
}

typedef struct rates {
    double rate[2 * LAB_CELLS], crossing[BW_X_COUNT];
} rates;

static void rates_of(rates *r, const lab *l, const bw_edge *edge)
{
    bw_wall_rates(&l->wall, edge, l->solver.v, &l->solver.cells, r->rate,
                  r->crossing, NULL);
}

/* Cell `at` alone got heat and water more than before. */
static void check_more(const lab *l, const rates *before, const rates *after,
                       size_t at, double heat, double water)
{
    for (size_t i = 0; i < l->n; i++) {
        ck_assert_double_eq_tol(after->rate[2 * i] - before->rate[2 * i],
                                i == at ? heat : 0, 1e-7 * fabs(heat) + 1e-12);
        ck_assert_double_eq_tol(
            after->rate[2 * i + 1] - before->rate[2 * i + 1],
            i == at ? water : 0, 1e-7 * fabs(water) + 1e-18);
    }
}

/* Outdoor air of 30 degC into a cell of 5 degC: its own heat, that of the
 * vapour, and c_w theta of the water at the mean of both temperatures, as
 * through any face. */
START_TEST(air_through_a_cell_brings_its_heat_and_that_of_its_vapour)
{
    static rates before, after;
    lab *l = lab_at_5_degrees();
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.h_e = 10;
    edge.beta_e = 1e-9;
    rates_of(&before, l, &edge);
    const bw_vent vent = {3, 2e-3};
    l->wall.vent = &vent;
    l->wall.vent_count = 1;
    rates_of(&after, l, &edge);
    const double water = 2e-3 *
                         (edge.p_e - bw_cells_get(&l->solver.cells, 3).p) /
                         (ANNEX_RV * 303.15);
    const double heat = 2e-3 * 1210 * (30 - 5) + (2.5e6 + 4187 * 17.5) * water;
    check_more(l, &before, &after, 3, heat, water);
    ck_assert_double_eq_tol(after.crossing[BW_X_VENT], water, 1e-15);
    ck_assert_double_eq_tol(after.crossing[BW_X_HEAT_VENT], heat, 1e-9);
    lab_free(l);
}
END_TEST

/* Rain comes at the temperature outside, room air leaves what it cannot hold
 * at that of the cell, with the latent heat; the first cell is a cell too. */
START_TEST(leaks_bring_the_heat_of_their_water_to_any_cell)
{
    static rates before, after;
    static const size_t place[] = {0, 1, 4};
    lab *l = lab_at_5_degrees();
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.h_e = 10;
    edge.beta_e = 1e-9;
    edge.p_i = 2000;
    rates_of(&before, l, &edge);
    const double held = bw_humid_find(&l->humid, 5).psat;
    for (size_t k = 0; k < COUNT(place); k++)
        for (int rain = 0; rain < 2; rain++) {
            l->wall.rain_cell = l->wall.leak_cell = (long)place[k];
            edge.rain_leak = rain ? 1e-5 : 0;
            edge.air_flow = rain ? 0 : 1e-3;
            rates_of(&after, l, &edge);
            const double water =
                rain ? 1e-5 : 1e-3 * (2000 / 293.15 - held / 278.15) / ANNEX_RV;
            const double heat = (rain ? 4187.0 * 30 : 2.5e6 + 4187 * 5) * water;
            check_more(l, &before, &after, place[k], heat, water);
            ck_assert_double_eq_tol(after.crossing[BW_X_LEAK_RAIN],
                                    rain ? water : 0, 1e-15);
            ck_assert_double_eq_tol(after.crossing[BW_X_LEAK_AIR],
                                    rain ? 0 : water, 1e-15);
            ck_assert_double_eq_tol(after.crossing[BW_X_HEAT_LEAK], heat, 1e-9);
        }
    lab_free(l);
}
END_TEST

/* Rain on a face that draws water brings c_w theta_e; a coat lets none in,
 * whatever lies behind it. */
START_TEST(rain_is_drawn_in_with_its_heat_by_a_bare_face_alone)
{
    static rates before, after;
    lab *l = lab_at_5_degrees();
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.h_e = 10;
    edge.beta_e = 1e-9;
    ck_assert(l->face[1].liquid);
    rates_of(&before, l, &edge);
    edge.rain = 1e-6;
    for (int bare = 0; bare < 2; bare++) {
        l->face[0].liquid = bare;
        rates_of(&after, l, &edge);
        const double water = bare ? 1e-6 : 0, heat = 4187.0 * 30 * water;
        check_more(l, &before, &after, 0, heat, water);
        ck_assert_double_eq_tol(after.crossing[BW_X_RAIN], water, 1e-15);
        ck_assert_double_eq_tol(after.crossing[BW_X_HEAT_E] -
                                    before.crossing[BW_X_HEAT_E],
                                heat, 1e-9);
    }
    lab_free(l);
}
END_TEST

/* Wetter than free water makes it, the first cell takes up nothing; it does
 * not give rain back either. */
START_TEST(face_that_is_overfull_takes_up_no_rain)
{
    static rates r;
    lab *l = lab_at_5_degrees();
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.rain = 1e-5;
    l->face[0].liquid = true;
    l->solver.v[1] = 0.5 * (l->hygro[0].free_z + l->hygro[0].full_z);
    bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, false);
    ck_assert_double_gt(bw_cells_get(&l->solver.cells, 0).flow,
                        l->hygro[0].free_flow);
    rates_of(&r, l, &edge);
    ck_assert_double_eq(r.crossing[BW_X_RAIN], 0);
    lab_free(l);
}
END_TEST

/* Over the last twentieth of the way to full pores, in z. */
START_TEST(leak_of_rain_fades_as_the_pores_fill)
{
    static const struct {
        double to_full, share;
    } row[] = {{0.2, 1}, {0.05, 1}, {0.04, 0.8}, {0.01, 0.2}, {0, 0}, {-1, 0}};
    lab *l = lab_at_5_degrees();
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.rain_leak = 1e-5;
    l->wall.rain_cell = 2;
    for (size_t k = 0; k < COUNT(row); k++) {
        static rates r;
        l->solver.v[5] = l->hygro[0].full_z - row[k].to_full;
        bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, false);
        rates_of(&r, l, &edge);
        ck_assert_double_eq_tol(r.crossing[BW_X_LEAK_RAIN], 1e-5 * row[k].share,
                                1e-16);
    }
    lab_free(l);
}
END_TEST

/* Water comes up to a surface beside the vapour and evaporates there: from
 * the half cell at the outer face as from that at the room's. */
START_TEST(wet_surface_is_fed_by_vapour_and_water_of_half_a_cell)
{
    static rates r;
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 15, 0.97);
    bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, false);
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.p_e = edge.p_i = 800;
    edge.beta_e = 2e-8;
    edge.beta_i = 1e-8;
    rates_of(&r, l, &edge);
    for (int room = 0; room < 2; room++) {
        const size_t i = room ? l->n - 1 : 0;
        const bw_cell c = bw_cells_get(&l->solver.cells, i);
        const double water = c.kphi * 2 / l->dx[i] * c.phi / c.p;
        ck_assert_double_gt(water * c.rv, 0.1);
        const double g = (c.p - 800) /
                         (1 / (1 / c.rv + water) + 1 / (room ? 1e-8 : 2e-8));
        ck_assert_double_eq_tol(
            r.crossing[room ? BW_X_VAPOUR_I : BW_X_VAPOUR_E], -g, 1e-9 * g);
    }
    lab_free(l);
}
END_TEST

/* ---- what a year counts ---- */

static const bw_transient_options two_years = {.max_years = 2,
                                               .fixed_permeability = true};

/* What the room's air cannot hold where it meets the cold sheathing stays. */
START_TEST(room_air_of_a_year_leaves_what_it_cannot_hold)
{
    transient_case *c = steady_new(2, 0.5, 20, 0.6);
    add_board(c, 0.012, 2);
    case_material(c, 1, "wool", 30, 0.04, 1000, 1, 1);
    case_slab(c, BW_LAYER_SOLID, 0.1);
    add_foil(c, 20);
    c->assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 1.0 / 3600, .connected_height = 5};
    bw_transient_result r = run(c, &two_years);
    const double theta = r.monitor[1].month_theta[6];
    const double cools = 2 + 18 * 0.1 / (0.04 + 0.06 + 2.5 + 0.13);
    ck_assert_double_eq_tol(theta, cools, 0.6); /* but for latent heat */
    const double left = bw_leakage_air_flow(1.0 / 3600, 5, 2, 20) / BW_R_V *
                        (0.6 * bw_saturation_pressure(20) / 293.15 -
                         bw_saturation_pressure(theta) / (theta + 273.15)) *
                        YEAR;
    ck_assert_double_gt(left, 0.1);
    ck_assert_double_eq_tol(r.leak_convective, left, 5e-3 * left);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- what a balance is held against ---- */

/* A damp board dries to both sides all the year: the throughput is what left.
 * Both differences are rounding, here and there the same; of the years the
 * worst counts. */
START_TEST(balance_error_is_that_of_the_worst_year_by_its_throughput)
{
    transient_case *c = steady_new(15, 0.5, 22, 0.4);
    add_board(c, 0.3, 100);
    c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
    c->layer[0].initial_moisture = 0.95;
    double water = 0, heat = 0;
    for (int years = 1; years < 5; years++) {
        const bw_transient_options o = {.max_years = years};
        bw_transient_result r = run(c, &o);
        ck_assert_int_eq(r.years, years);
        ck_assert_double_gt(r.left_outwards, 0);
        ck_assert_double_gt(r.left_inwards, 0);
        const double left = r.left_outwards + r.left_inwards;
        const double last = fabs(r.yearly_change + left) / left;
        water = fmax(water, last);
        ck_assert_double_eq_tol(r.water_balance_error, water,
                                1e-6 * water + 1e-20);
        ck_assert_double_gt(r.energy_balance_error, 0);
        ck_assert_double_ge(r.energy_balance_error, heat);
        heat = r.energy_balance_error;
        bw_transient_free(&r);
    }
    free(c);
}
END_TEST

SUITE("transient_flows",
      FACT(air_through_a_cell_brings_its_heat_and_that_of_its_vapour),
      FACT(leaks_bring_the_heat_of_their_water_to_any_cell),
      FACT(rain_is_drawn_in_with_its_heat_by_a_bare_face_alone),
      FACT(face_that_is_overfull_takes_up_no_rain),
      FACT(leak_of_rain_fades_as_the_pores_fill),
      FACT(wet_surface_is_fed_by_vapour_and_water_of_half_a_cell),
      FACT(room_air_of_a_year_leaves_what_it_cannot_hold),
      FACT(balance_error_is_that_of_the_worst_year_by_its_throughput))
