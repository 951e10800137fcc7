/* The solver of the hourly method: conservation, the stiffest wall; the table
 * it reads a material from. */

#include "suite.h"
#include "transient_core.h"

#define DAY 86400.0

/* Two coupled materials, a coarse tolerance: what crossed is what is stored,
 * to rounding. */
START_TEST(water_and_heat_are_conserved_to_rounding)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.2, 1e-3, 1.3, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    l->solver.tolerance_theta = 0.1;
    l->solver.tolerance_z = 0.01;
    l->solver.polish = true;
    double before[2] = {0, 0}, after[2] = {0, 0};
    double crossing[BW_X_COUNT] = {0};
    for (size_t i = 0; i < 2 * l->n; i++)
        before[i % 2] += l->solver.stored[i];
    ck_assert_int_eq(bw_solver_advance(&l->solver, 30 * DAY, annex_edge, NULL,
                                       crossing, NULL),
                     BW_OK);
    double stored[2 * LAB_CELLS];
    bw_wall_stored(&l->wall, &l->solver.cells, stored, NULL);
    for (size_t i = 0; i < 2 * l->n; i++)
        after[i % 2] += stored[i];
    const double water = crossing[BW_X_VAPOUR_E] + crossing[BW_X_VAPOUR_I];
    const double heat = crossing[BW_X_HEAT_E] + crossing[BW_X_HEAT_I];
    ck_assert_double_gt(water, 0.5);
    ck_assert_double_eq_tol(after[1] - before[1], water, 1e-10 * water);
    ck_assert_double_eq_tol(after[0] - before[0], heat, 1e-10 * fabs(heat));
    lab_free(l);
}
END_TEST

static void wet_edge(const void *ctx, double t, bw_edge *edge)
{
    const double *rain = ctx;
    (void)t;
    *edge = (bw_edge){.theta_e = -5,
                      .p_e = bw_saturation_pressure(-5),
                      .h_e = 25,
                      .beta_e = 2e-8,
                      .rain = *rain,
                      .rain_leak = *rain,
                      .theta_i = 25,
                      .p_i = 0.9 * bw_saturation_pressure(25),
                      .h_i = 8,
                      .beta_i = 2e-8};
}

/* Hardly any storage, then at saturation all of its pores. */
static double wool_water(const void *ctx, double phi)
{
    (void)ctx;
    return 900 * phi * 5e-5 / (1 + 5e-5 - phi);
}

static double wool_openness(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 1;
}

/* A foil behind a saturated, rained-on, leaking wall with a humid room: it
 * must fill, run off and go on, and humidities stay humidities. */
START_TEST(foil_on_a_saturated_wall_neither_fails_nor_goes_below_zero)
{
    lab *l = lab_new(bw_vapour_permeability_of_air);
    lab_layer(l, &annex_law, 0.02, 1e-3, 1.3, 1);
    const size_t foil = l->n;
    static const double lambda = 0.04;
    const bw_hygro_law wool = {.ctx = &lambda,
                               .water = wool_water,
                               .openness = wool_openness,
                               .conductivity = of_ctx,
                               .heat_capacity = 3e4,
                               .full_water = 950};
    lab_layer(l, &wool, 0.1, 1e-3, 1.5, 1);
    bw_film film;
    for (int i = 0; i < BW_FILM_ROWS + 2; i++)
        film.resistance[i] = 1500 / BW_DELTA_0;
    l->face[foil].film = &film;
    lab_start(l, BW_R_V, 2.5e6, 10, 0.999);
    l->face[0].liquid = true;
    l->wall.rain_cell = (long)foil - 1;
    double crossing[BW_X_COUNT] = {0};
    for (int day = 1; day <= 200; day++) {
        const double rain = day % 3 ? 3e-4 : 0;
        bw_error err;
        const bw_status status = bw_solver_advance(
            &l->solver, day * DAY, wet_edge, &rain, crossing, &err);
        ck_assert_msg(status == BW_OK, "%s", err.message);
        for (size_t i = 0; i < l->n; i++) {
            ck_assert_double_gt(l->solver.v[2 * i + 1], 0);
            ck_assert(isfinite(l->solver.v[2 * i]));
        }
    }
    /* condensate stands behind the foil */
    ck_assert_double_gt(lab_value(l, foil, 1), 10);
    lab_free(l);
}
END_TEST

static double open_by_humidity(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)w;
    return 0.1 + 0.6 * phi * phi;
}

static double conducts_by_water(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    return 0.04 + 2e-3 * w;
}

static double rising_water(const void *ctx, double phi)
{
    (void)ctx;
    return 30 * phi + 50 * phi * phi;
}

static double suction_by_water(const void *ctx, double w)
{
    (void)ctx;
    return 1e-9 * (1 + 0.02 * w);
}

/* What a law says at a humidity, the table says at its place for it: 1/mu,
 * lambda, and the liquid conductivity D_w dw/dphi. The tolerance is that of
 * straight lines between 512 rows. */
START_TEST(the_table_gives_the_laws_of_humidity_back)
{
    const bw_hygro_law law = {.water = rising_water,
                              .diffusivity = suction_by_water,
                              .openness = open_by_humidity,
                              .conductivity = conducts_by_water,
                              .heat_capacity = 1e5,
                              .full_water = 400};
    bw_hygro *table = calloc(1, sizeof *table);
    ck_assert_ptr_nonnull(table);
    ck_assert_int_eq(bw_hygro_build(table, &law, NULL), BW_OK);
    for (double phi = 0.05; phi < 1.0; phi += 0.05) {
        const double z = bw_hygro_z_of_phi(table, phi);
        const double place = z * table->per_z, f = place - floor(place);
        const bw_hygro_row *row = &table->row[(size_t)place];
        const double w = rising_water(NULL, phi);
        ck_assert_double_eq_tol(bw_hygro_phi(table, z), phi, 1e-9);
        ck_assert_double_eq_tol(bw_hygro_water(table, z), w, 1e-3);
        ck_assert_double_eq_tol(row->pass[2] + f * row->pass[3],
                                open_by_humidity(NULL, phi, w), 1e-4);
        ck_assert_double_eq_tol(row->pass[0] + f * row->pass[1],
                                conducts_by_water(NULL, phi, w), 1e-4);
        const double liquid = suction_by_water(NULL, w) * (30 + 100 * phi);
        ck_assert_double_eq_tol(row->kphi[0] + f * row->kphi[1], liquid,
                                1e-3 * liquid);
    }
    free(table);
}
END_TEST

SUITE("transient_solver", FACT(water_and_heat_are_conserved_to_rounding),
      FACT(foil_on_a_saturated_wall_neither_fails_nor_goes_below_zero),
      FACT(the_table_gives_the_laws_of_humidity_back))
