/* The parts of the hourly method's solver: Jacobian, matrix, what is given up,
 * the ends of the tables, liquid and leaks. */

#include "suite.h"
#include "transient/blocks.h"
#include "transient_core.h"

#define DAY 86400.0

/* ---- the Jacobian ---- */

enum { JAC_CELLS = 32 };

/* Every entry of the Jacobian at v against differences of the rates. */
static void check_jacobian(lab *l, const bw_edge *edge, double *v)
{
    static double rate[2][2 * JAC_CELLS];
    bw_cells cells;
    static bw_block block[JAC_CELLS];
    double crossing[BW_X_COUNT];
    const size_t m = 2 * l->n;
    ck_assert_uint_le(l->n, JAC_CELLS);
    ck_assert(bw_cells_init(&cells, &l->wall, &l->arena));
    bw_cells_at(&l->wall, v, &cells, true);
    bw_wall_rates(&l->wall, edge, v, &cells, rate[0], crossing, block);
    double most[2] = {0, 0}; /* of heat, of water: what rounding is seen by */
    for (size_t j = 0; j < m; j++)
        most[j % 2] = fmax(most[j % 2], fabs(rate[0][j]));
    for (size_t k = 0; k < m; k++) {
        const double h = 1e-6, kept = v[k];
        for (int side = 0; side < 2; side++) {
            v[k] = kept + (side ? h : -h);
            bw_cells_at(&l->wall, v, &cells, true);
            bw_wall_rates(&l->wall, edge, v, &cells, rate[side], crossing,
                          NULL);
        }
        v[k] = kept;
        for (size_t j = 0; j < m; j++) {
            const double slope = (rate[1][j] - rate[0][j]) / (2 * h);
            const size_t row = j / 2, column = k / 2;
            const size_t at = 2 * (j % 2) + k % 2;
            double given = 0;
            if (row == column)
                given = block[row].diag[at];
            else if (row == column + 1)
                given = block[row].lower[at];
            else if (column == row + 1)
                given = block[row].upper[at];
            const double size = fabs(block[row].diag[at]);
            ck_assert_double_eq_tol(given, slope,
                                    1e-4 * size + 1e-13 * most[j % 2] / h);
        }
    }
}

/* A masonry by suction and a dry board; or a masonry by humidity, a second one
 * that draws water too, and the board. A film, a vent, rain, and leaks into
 * cell 2, there half full, here nearly so. */
START_TEST(jacobian_is_the_slope_of_the_rates)
{
    for (int full = 0; full < 2; full++) {
        lab *l = lab_new(annex_delta);
        bw_hygro_law law = annex_law;
        law.suction = !full;
        lab_layer(l, &law, 0.05, 1e-3, 1.5, 1);
        const size_t second = l->n;
        if (full)
            lab_layer(l, &law, 0.003, 1e-3, 1.5, 0);
        static const double lambda = 0.3;
        const bw_hygro_law dry = dry_law(&lambda, 1e6);
        lab_layer(l, &dry, 0.005, 1e-3, 1.5, 1);
        bw_film film;
        for (int i = 0; i < BW_FILM_ROWS + 2; i++)
            film.resistance[i] = 1e10 / (1 + 0.02 * i);
        lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
        ck_assert_int_eq(l->face[second].liquid, full);
        l->face[3].film = &film;
        l->face[3].liquid = false;
        l->wall.rain_cell = l->wall.leak_cell = 2;
        const bw_vent vent = {5, 1e-3};
        l->wall.vent = &vent;
        l->wall.vent_count = 1;
        bw_edge edge;
        annex_edge(NULL, 0, &edge);
        edge.h_i = edge.h_e = 20;
        edge.beta_i = edge.beta_e = 2e-8;
        edge.rain = 1;
        edge.rain_leak = 1e-4;
        edge.air_flow = 1e-3;
        edge.p_i = 2000;
        l->face[0].liquid = true;
        double v[2 * JAC_CELLS];
        for (size_t i = 0; i < 2 * l->n; i += 2) {
            v[i] = 12.13 - 0.37 * (double)i;
            v[i + 1] = 0.9513 + 0.0131 * (double)(i % 7);
        }
        if (full)
            v[5] = l->hygro[0].full_z - 0.0213;
        check_jacobian(l, &edge, v);
        lab_free(l);
    }
}
END_TEST

/* A film that depends much on humidity, between a warm and a cold cell whose
 * humidity depends on temperature. */
START_TEST(jacobian_knows_what_temperature_does_to_a_film)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.002, 1e-3, 1, 0);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    bw_film film;
    for (int i = 0; i < BW_FILM_ROWS + 2; i++)
        film.resistance[i] = 1e12 * exp(-0.05 * i);
    l->face[1].film = &film;
    l->face[1].liquid = false;
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.h_i = edge.h_e = 20;
    edge.beta_i = edge.beta_e = 2e-8;
    double v[] = {31.3, 0, 4.7, 0};
    for (size_t i = 0; i < 2; i++)
        v[2 * i + 1] = bw_hygro_z_of_phi(l->of[i], 0.6123 + 0.2 * (double)i);
    check_jacobian(l, &edge, v);
    lab_free(l);
}
END_TEST

/* ---- the matrix ---- */

enum { MOST_ROWS = 7 };

/* An invented system whose diagonal blocks dominate, and its product with x. */
static void make_rows(bw_block *block, double (*m)[3], size_t n)
{
    for (size_t i = 0; i < n; i++) {
        for (int k = 0; k < 4; k++) {
            const double wave = sin(1.7 * (double)i + k);
            block[i].lower[k] = 0.3 + 0.2 * wave;
            block[i].upper[k] = 0.2 - 0.3 * wave;
            block[i].diag[k] = (k % 3 ? 0.4 : -4) + 0.5 * wave;
        }
        m[i][0] = 2 + 0.1 * (double)i;
        m[i][1] = 0.3;
        m[i][2] = 1 + 0.2 * (double)i;
    }
}

static void times(double *b, const bw_block *block, const double (*m)[3],
                  double a, size_t n, const double *x)
{
    for (size_t i = 0; i < n; i++)
        for (size_t r = 0; r < 2; r++) {
            double sum = r == 0 ? m[i][0] * x[2 * i] + m[i][1] * x[2 * i + 1]
                                : m[i][2] * x[2 * i + 1];
            for (size_t k = 0; k < 2; k++) {
                sum -= a * block[i].diag[2 * r + k] * x[2 * i + k];
                if (i > 0)
                    sum -= a * block[i].lower[2 * r + k] * x[2 * i - 2 + k];
                if (i + 1 < n)
                    sum -= a * block[i].upper[2 * r + k] * x[2 * i + 2 + k];
            }
            b[2 * i + r] = sum;
        }
}

START_TEST(rows_of_any_number_are_solved)
{
    for (size_t n = 1; n <= MOST_ROWS; n++) {
        bw_block block[MOST_ROWS];
        bw_factor factor[MOST_ROWS];
        double m[MOST_ROWS][3], x[2 * MOST_ROWS], b[2 * MOST_ROWS];
        make_rows(block, m, n);
        for (size_t i = 0; i < 2 * n; i++)
            x[i] = 1 + cos(3.1 * (double)i);
        times(b, block, (const double(*)[3])m, 0.7, n, x);
        ck_assert(
            bw_blocks_factor(factor, block, (const double(*)[3])m, 0.7, n));
        bw_blocks_solve(factor, b, n);
        for (size_t i = 0; i < 2 * n; i++)
            ck_assert_double_eq_tol(b[i], x[i], 1e-12);
    }
}
END_TEST

/* A row of zeros, or what is no number, wherever it stands. */
START_TEST(singular_row_is_told_wherever_it_stands)
{
    for (size_t n = 1; n <= MOST_ROWS; n++)
        for (size_t at = 0; at < n; at++)
            for (int kind = 0; kind < 3; kind++) {
                bw_block block[MOST_ROWS];
                bw_factor factor[MOST_ROWS];
                double m[MOST_ROWS][3];
                make_rows(block, m, n);
                memset(&block[at], 0, sizeof block[at]);
                m[at][0] = m[at][1] = 0;
                if (kind > 0)
                    m[at][0] = kind == 1 ? NAN : HUGE_VAL;
                ck_assert(!bw_blocks_factor(factor, block,
                                            (const double(*)[3])m, 0.7, n));
            }
}
END_TEST

/* ---- giving up ---- */

static void no_number_edge(const void *ctx, double t, bw_edge *edge)
{
    annex_edge(ctx, t, edge);
    edge->p_e = NAN;
}

/* The message names the hour; the state is not asked for again. */
START_TEST(step_that_can_not_be_made_ends_with_its_hour)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    double crossing[BW_X_COUNT] = {0};
    ck_assert_int_eq(
        bw_solver_advance(&l->solver, 1800, annex_edge, NULL, crossing, NULL),
        BW_OK);
    bw_error err;
    ck_assert_int_eq(bw_solver_advance(&l->solver, 7200, no_number_edge, NULL,
                                       crossing, &err),
                     BW_ERR_NUMERIC);
    ck_assert_msg(strstr(err.message, "at hour 0.50") != NULL, "%s",
                  err.message);
    lab_free(l);
}
END_TEST

static void broken_edge(const void *ctx, double t, bw_edge *edge)
{
    annex_edge(ctx, t, edge);
    if (t > 1800)
        edge->p_e = NAN;
}

/* Also where only the end of a step meets it. */
START_TEST(steps_reach_the_last_instant_that_can_be_computed)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    double crossing[BW_X_COUNT] = {0};
    ck_assert_int_eq(
        bw_solver_advance(&l->solver, 7200, broken_edge, NULL, crossing, NULL),
        BW_ERR_NUMERIC);
    ck_assert_double_le(l->solver.t, 1800);
    ck_assert_double_gt(l->solver.t, 1799.99);
    for (size_t i = 0; i < 2 * l->n; i++)
        ck_assert(isfinite(l->solver.stored[i]));
    lab_free(l);
}
END_TEST

/* Water that is stored nowhere makes a singular matrix. */
START_TEST(wall_that_can_hold_and_pass_nothing_is_given_up)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    for (size_t i = 0; i < l->n; i++)
        l->dx[i] = 0;
    memset(&l->hygro[0].row, 0, sizeof l->hygro[0].row);
    double crossing[BW_X_COUNT] = {0};
    ck_assert_int_eq(
        bw_solver_advance(&l->solver, 1800, annex_edge, NULL, crossing, NULL),
        BW_ERR_NUMERIC);
    lab_free(l);
}
END_TEST

/* A last hour is polished to 1e-8 of the tolerance, or, where rounding is in
 * the way, to 1e-4 of it; what rounding does not allow either is given up. */
START_TEST(polishing_ends_where_rounding_begins)
{
    for (int k = 0; k < 2; k++) {
        lab *l = lab_new(annex_delta);
        lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
        lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
        l->solver.polish = true; /* so that little is carried on */
        double crossing[BW_X_COUNT] = {0};
        ck_assert_int_eq(bw_solver_advance(&l->solver, DAY, annex_edge, NULL,
                                           crossing, NULL),
                         BW_OK);
        l->solver.tolerance_theta = k == 0 ? 1e-7 : 1e-13;
        l->solver.tolerance_z = k == 0 ? 1e-7 : 1e-13;
        l->solver.h = l->solver.h_first = 1;
        ck_assert_int_eq(bw_solver_advance(&l->solver, DAY + 0.5, annex_edge,
                                           NULL, crossing, NULL),
                         k == 0 ? BW_OK : BW_ERR_NUMERIC);
        lab_free(l);
    }
}
END_TEST

/* ---- at the ends of the tables ---- */

START_TEST(air_beyond_its_table_is_that_of_its_ends)
{
    lab *l = lab_new(bw_vapour_permeability_of_air);
    ck_assert_double_eq_tol(bw_humid_find(&l->humid, -80).psat,
                            bw_saturation_pressure(-80), 1e-9);
    ck_assert_double_eq(bw_humid_find(&l->humid, -120).psat,
                        bw_humid_find(&l->humid, -80).psat);
    ck_assert_double_eq_tol(bw_humid_find(&l->humid, 200).psat,
                            bw_saturation_pressure(150),
                            1e-6 * bw_saturation_pressure(150));
    lab_free(l);
}
END_TEST

/* Nothing in it: suction is endless there, humidity and flow are not. */
START_TEST(cell_without_water_has_no_humidity)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.01, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 20, 0.5);
    for (int slopes = 0; slopes < 2; slopes++)
        for (int below = 0; below < 2; below++) {
            for (size_t i = 0; i < l->n; i++)
                l->solver.v[2 * i + 1] = below ? -0.1 : 0;
            bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, slopes);
            for (size_t i = 0; i < l->n; i++) {
                const bw_cell c = bw_cells_get(&l->solver.cells, i);
                ck_assert_double_ge(c.phi, 0);
                ck_assert_double_lt(c.phi, 1e-11);
                ck_assert_double_eq(c.water, 0);
                ck_assert(isfinite(c.p));
            }
        }
    lab_free(l);
}
END_TEST

/* A film between two cells of nothing has its resistance at 0 % RH, one
 * between two that are overfull that at 100 %. */
START_TEST(film_is_read_between_0_and_100_percent)
{
    lab *l = lab_new(annex_delta);
    static const double lambda = 1;
    bw_hygro_law dry = dry_law(&lambda, 1e6);
    dry.full_water = 1.02e-6;
    lab_layer(l, &dry, 0.002, 1e-3, 1, 0);
    bw_film film;
    for (int i = 0; i < BW_FILM_ROWS + 2; i++)
        film.resistance[i] = 1e18 * (1 + i);
    lab_start(l, ANNEX_RV, 0, 20, 0.5);
    ck_assert_uint_eq(l->n, 2);
    l->face[1].film = &film;
    bw_cells_faces(&l->solver.cells, &l->wall);
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    static const double z[2][2] = {{0, 0}, {3, 3.001}};
    for (int k = 0; k < 2; k++) {
        double rate[4], crossing[BW_X_COUNT];
        bw_block block[2];
        l->solver.v[1] = z[k][0];
        l->solver.v[3] = z[k][1];
        bw_cells_at(&l->wall, l->solver.v, &l->solver.cells, true);
        if (k == 0) /* a difference of pressure all the same */
            l->solver.cells.quad[0].p[1] = 1000;
        bw_wall_rates(&l->wall, &edge, l->solver.v, &l->solver.cells, rate,
                      crossing, block);
        const bw_cell a = bw_cells_get(&l->solver.cells, 0);
        const bw_cell b = bw_cells_get(&l->solver.cells, 1);
        const double g = (a.p - b.p) /
                         (a.rv + b.rv + 1e18 * (k ? BW_FILM_ROWS + 1 : 1));
        ck_assert_double_gt(fabs(g), 0);
        ck_assert_double_eq_tol(rate[3] - crossing[BW_X_VAPOUR_I], g,
                                1e-6 * fabs(g));
    }
    lab_free(l);
}
END_TEST

/* ---- leaks ---- */

START_TEST(leaks_have_an_effect_only_in_the_cell_they_are_given)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &annex_law, 0.05, 1e-3, 1.5, 1);
    lab_start(l, ANNEX_RV, 2.5e6, 5, 0.5);
    bw_edge edge;
    annex_edge(NULL, 0, &edge);
    edge.theta_e = 10;
    edge.theta_i = 25;
    edge.p_i = 2000;
    static double base[2 * LAB_CELLS], rate[2 * LAB_CELLS];
    double crossing[BW_X_COUNT];
    bw_wall_rates(&l->wall, &edge, l->solver.v, &l->solver.cells, base,
                  crossing, NULL);
    /* what the room's air holds beyond saturation at 5 degC, per m3 */
    const double held = 2000 / (ANNEX_RV * 298.15) -
                        bw_humid_find(&l->humid, 5).psat / (ANNEX_RV * 278.15);
    for (int which = 0; which < 4; which++) {
        edge.rain_leak = which & 1 ? 1e-5 : 0;
        edge.air_flow = which & 1 ? 1e-3 : 0;
        l->wall.rain_cell = l->wall.leak_cell = which & 2 ? 2 : -1;
        bw_wall_rates(&l->wall, &edge, l->solver.v, &l->solver.cells, rate,
                      crossing, NULL);
        for (size_t i = 0; i < l->n; i++) {
            const double more = which == 3 && i == 2 ? 1e-5 + 1e-3 * held : 0;
            ck_assert_double_eq_tol(rate[2 * i + 1] - base[2 * i + 1], more,
                                    1e-12);
        }
        ck_assert_double_eq_tol(crossing[BW_X_LEAK_RAIN], which == 3 ? 1e-5 : 0,
                                1e-15);
        ck_assert_double_eq_tol(crossing[BW_X_LEAK_AIR],
                                which == 3 ? 1e-3 * held : 0, 1e-12);
    }
    lab_free(l);
}
END_TEST

SUITE("transient_parts", FACT(jacobian_is_the_slope_of_the_rates),
      FACT(jacobian_knows_what_temperature_does_to_a_film),
      FACT(rows_of_any_number_are_solved),
      FACT(singular_row_is_told_wherever_it_stands),
      FACT(step_that_can_not_be_made_ends_with_its_hour),
      FACT(steps_reach_the_last_instant_that_can_be_computed),
      FACT(wall_that_can_hold_and_pass_nothing_is_given_up),
      FACT(polishing_ends_where_rounding_begins),
      FACT(air_beyond_its_table_is_that_of_its_ends),
      FACT(cell_without_water_has_no_humidity),
      FACT(film_is_read_between_0_and_100_percent),
      FACT(leaks_have_an_effect_only_in_the_cell_they_are_given))
