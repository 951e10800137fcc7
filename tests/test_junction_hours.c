/* Heat and moisture by the hour in a drawing: strips against the row of cells
 * of one dimension, whichever way they lie; conservation. */

#include <math.h>

#include "junction/hour_sheet.h"
#include "suite.h"
#include "transient_core.h"

#define DAY 86400.0
enum { COLUMNS = 3 };

static const double column[COLUMNS] = {0.05, 0.02, 0.03}; /* m */

/* ---- a row of cells as a drawing ----------------------------------------- */

typedef struct drawing {
    bw_arena arena;
    bw_sheet sheet;
    size_t across, along; /* cells */
    bool turned;          /* rows of it lie upright */
    double width;
    bw_sheet_solver solver;
} drawing;

static size_t cell_of(const drawing *d, size_t i, size_t c)
{
    return d->turned ? c * d->along + i : i * d->across + c;
}

static void add_faces(drawing *d, const lab *l, bw_sheet_face *face)
{
    bw_sheet *s = &d->sheet;
    for (size_t i = 0; i < d->along; i++)
        for (size_t c = 0; c < d->across; c++) {
            if (i > 0)
                face[s->face_count++] = (bw_sheet_face){
                    .a = cell_of(d, i - 1, c),
                    .b = cell_of(d, i, c),
                    .half_a = 0.5 * l->dx[i - 1],
                    .half_b = 0.5 * l->dx[i],
                    .length = column[c],
                    .face = l->face[i]};
            if (c == 0)
                continue;
            const double apart = 0.5 * (column[c - 1] + column[c]);
            face[s->face_count++] = (bw_sheet_face){
                .a = cell_of(d, i, c - 1),
                .b = cell_of(d, i, c),
                .half_a = 0.5 * column[c - 1],
                .half_b = 0.5 * column[c],
                .length = l->dx[i],
                .face = {.same = true,
                         .liquid = l->of[i]->liquid,
                         .per = 1 / apart}};
        }
}

/* Side 0 outside, side 1 the room. */
static void add_edges(drawing *d, const lab *l, bw_sheet_edge *edge)
{
    bw_sheet *s = &d->sheet;
    for (size_t c = 0; c < d->across; c++)
        for (size_t side = 0; side < 2; side++) {
            const size_t i = side == 0 ? 0 : d->along - 1;
            edge[s->edge_count++] = (bw_sheet_edge){
                .cell = cell_of(d, i, c),
                .side = side,
                .half = 0.5 * l->dx[i],
                .length = column[c],
                .face = l->face[side == 0 ? 0 : d->along]};
        }
}

static drawing *draw(const lab *l, bool turned)
{
    drawing *d = calloc(1, sizeof *d);
    d->across = COLUMNS;
    d->along = l->n;
    d->turned = turned;
    for (size_t c = 0; c < COLUMNS; c++)
        d->width += column[c];
    bw_sheet *s = &d->sheet;
    *s = (bw_sheet){.n = d->across * d->along,
                    .humid = &l->humid,
                    .latent = l->wall.latent,
                    .r_v = l->wall.r_v};
    double *area = BW_NEW(&d->arena, double, s->n);
    const bw_hygro **hygro = bw_arena_get(&d->arena, s->n, sizeof *hygro);
    bw_sheet_face *face = BW_NEW(&d->arena, bw_sheet_face, 2 * s->n);
    bw_sheet_edge *edge = BW_NEW(&d->arena, bw_sheet_edge, 2 * COLUMNS);
    for (size_t i = 0; i < d->along; i++)
        for (size_t c = 0; c < d->across; c++) {
            area[cell_of(d, i, c)] = l->dx[i] * column[c];
            hygro[cell_of(d, i, c)] = l->of[i];
        }
    add_faces(d, l, face);
    add_edges(d, l, edge);
    s->area = area;
    s->hygro = hygro;
    s->face = face;
    s->edge = edge;
    ck_assert_int_eq(bw_sheet_prepare(s, &d->arena, NULL), BW_OK);
    ck_assert_int_eq(bw_sheet_solver_make(&d->solver, s, &d->arena, NULL),
                     BW_OK);
    return d;
}

static void spread_state(const drawing *d, const double *row, double *v)
{
    for (size_t i = 0; i < d->along; i++)
        for (size_t c = 0; c < d->across; c++)
            memcpy(&v[2 * cell_of(d, i, c)], &row[2 * i], 2 * sizeof *v);
}

static void erase(drawing *d)
{
    bw_arena_release(&d->arena);
    free(d);
}

/* ---- conditions ---------------------------------------------------------- */

/* Days and nights; rain in some hours. */
static void wave(const void *ctx, double t, bw_edge *edge)
{
    const double *rain = ctx;
    const double day = sin(2 * 3.14159265358979323846 * t / DAY);
    *edge = (bw_edge){.theta_e = 5 + 6 * day,
                      .p_e = 700 + 100 * day,
                      .h_e = 17 + 4 * day,
                      .gain = 60 + 60 * day,
                      .beta_e = 7e-8,
                      .rain = *rain,
                      .theta_i = 20,
                      .p_i = 1200 - 50 * day,
                      .h_i = 7.7,
                      .beta_i = 1.8e-8,
                      .redistributes = !(*rain > 0)};
}

static void as_weather(const bw_edge *e, bw_sheet_weather *w)
{
    memset(w, 0, sizeof *w);
    w->side[0] = (bw_sheet_air){.theta = e->theta_e,
                                .p = e->p_e,
                                .h = e->h_e,
                                .beta = e->beta_e,
                                .gain = e->gain,
                                .rain = e->rain};
    w->side[1] = (bw_sheet_air){
        .theta = e->theta_i, .p = e->p_i, .h = e->h_i, .beta = e->beta_i};
    for (size_t k = 2; k < BW_SHEET_SIDES; k++)
        w->side[k] = (bw_sheet_air){.h = 1, .beta = 1};
    w->redistributes = e->redistributes;
}

static void wave_weather(const void *ctx, double t, bw_sheet_weather *w)
{
    bw_edge e;
    wave(ctx, t, &e);
    as_weather(&e, w);
}

/* ---- laws ---------------------------------------------------------------- */

static double board_water(const void *ctx, double phi)
{
    (void)ctx;
    return 60 * phi + 300 * pow(phi, 12);
}

static double board_open(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)w;
    return 1 / (40 - 25 * phi);
}

static double board_lambda(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    return 0.1 + 2e-4 * w;
}

static const bw_hygro_law board_law = {.water = board_water,
                                       .openness = board_open,
                                       .conductivity = board_lambda,
                                       .heat_capacity = 1e6,
                                       .full_water = 700};

static double stone_water(const void *ctx, double phi)
{
    (void)ctx;
    return 10 * phi + 180 * pow(phi, 30);
}

static double stone_flow(const void *ctx, double w)
{
    (void)ctx;
    return 1e-9 * pow(1000, w / 190);
}

static double stone_slow(const void *ctx, double w)
{
    (void)ctx;
    return 5e-10 * pow(100, w / 190);
}

static const bw_hygro_law stone_law = {.water = stone_water,
                                       .diffusivity = stone_flow,
                                       .redistribution = stone_slow,
                                       .openness = board_open,
                                       .conductivity = board_lambda,
                                       .heat_capacity = 1.5e6,
                                       .full_water = 260};

/* Two stones that draw water, a film, a board; rain on the outer face. */
static lab *make_wall(bw_film *film)
{
    lab *l = lab_new(annex_delta);
    lab_layer(l, &stone_law, 0.06, 2e-3, 1.4, 1);
    lab_layer(l, &annex_law, 0.05, 2e-3, 1.4, 1);
    lab_layer(l, &board_law, 0.02, 2e-3, 1.4, 1);
    for (size_t k = 0; k < BW_FILM_ROWS + 2; k++)
        film->resistance[k] = 1e9 * (4.0 - 3.5 * (double)k / BW_FILM_ROWS);
    lab_start(l, ANNEX_RV, 2.5e6, 15, 0.6);
    for (size_t i = 1; i < l->n; i++)
        if (l->of[i] == &l->hygro[2] && l->of[i - 1] == &l->hygro[1])
            l->face[i].film = film;
    l->face[0].liquid = true;
    /* redistribution between two stones by a table of its own */
    static bw_joint slow;
    for (size_t i = 1; i < l->n; i++)
        if (l->face[i].joint[0] != NULL) {
            bw_joint_build(&slow, l->of[i - 1], l->of[i], l->per_half[i - 1],
                           l->per_half[i], true);
            l->face[i].joint[1] = &slow;
        }
    ck_assert(bw_solver_init(&l->solver, &l->wall, &l->arena));
    return l;
}

/* ---- facts --------------------------------------------------------------- */

static const struct {
    bool turned;
    double rain;
} ways[] = {{false, 0}, {true, 0}, {false, 1e-4}, {true, 1e-4}, {true, 1e-2}};

START_TEST(strip_has_the_flows_of_a_row_of_cells)
{
    static bw_film film;
    lab *l = make_wall(&film);
    drawing *d = draw(l, ways[_i].turned);
    static double row[2 * LAB_CELLS], v[2 * LAB_CELLS * COLUMNS];
    static double rate[2 * LAB_CELLS], rates[2 * LAB_CELLS * COLUMNS];
    double crossing[BW_X_COUNT];
    bw_sheet_weather weather;
    bw_sheet_flow flow;
    bw_edge edge;
    for (size_t i = 0; i < l->n; i++) {
        row[2 * i] = 10 + 5 * sin(3.0 * (double)i);
        row[2 * i + 1] = bw_hygro_z_of_phi(l->of[i],
                                           0.7 + 0.28 * cos(2.0 * (double)i));
    }
    wave(&ways[_i].rain, 5000, &edge);
    as_weather(&edge, &weather);
    bw_cells_under(&l->wall, &edge, row, &l->solver.cells, false);
    bw_wall_rates(&l->wall, &edge, row, &l->solver.cells, rate, crossing, NULL);
    spread_state(d, row, v);
    bw_cells_under(&d->sheet.cells, &edge, v, &d->solver.cells, false);
    bw_sheet_rates(&d->sheet, &weather, v, &d->solver.cells, rates, &flow, NULL,
                   0);
    double scale[2] = {0, 0}, off[2] = {0, 0};
    for (size_t i = 0; i < l->n; i++)
        for (size_t c = 0; c < COLUMNS; c++)
            for (size_t k = 0; k < 2; k++) {
                const double one = rate[2 * i + k];
                const double two = rates[2 * cell_of(d, i, c) + k] / column[c];
                scale[k] = fmax(scale[k], fabs(one));
                off[k] = fmax(off[k], fabs(one - two));
            }
    const double tiny = 1e-12 * scale[1];
    ck_assert_double_lt(off[0], 1e-12 * scale[0]);
    ck_assert_double_lt(off[1], tiny);
    ck_assert_double_eq_tol(flow.vapour[0] / d->width, crossing[BW_X_VAPOUR_E],
                            tiny);
    ck_assert_double_eq_tol(flow.vapour[1] / d->width, crossing[BW_X_VAPOUR_I],
                            tiny);
    ck_assert_double_eq_tol(flow.rain[0] / d->width, crossing[BW_X_RAIN], tiny);
    erase(d);
    lab_free(l);
}
END_TEST

/* The matrix is that of the equations: against differences. */
START_TEST(matrix_is_the_slope_of_the_flows)
{
    static bw_film film;
    lab *l = make_wall(&film);
    drawing *d = draw(l, false);
    static double v[2 * LAB_CELLS * COLUMNS], up[2 * LAB_CELLS * COLUMNS],
        down[2 * LAB_CELLS * COLUMNS];
    const size_t n = d->sheet.n;
    bw_sheet_weather weather;
    bw_sheet_flow flow;
    bw_edge edge;
    wave(&(double){1e-4}, 5000, &edge);
    as_weather(&edge, &weather);
    const bw_sheet_leak leak = {.cell = 5, .rain = 1, .by = 2};
    d->sheet.leak_count = 1;
    d->sheet.leak = &leak;
    const bw_sheet_airflow air[] = {{3, 1, 1e-4, false}, {5, 1, 2e-4, true}};
    d->sheet.air_count = 2;
    d->sheet.air = air;
    weather.leak[1] = 5e-6;
    weather.side[1].theta = 22;
    weather.side[1].p = 2200;
    unsigned long seed = 7;
    for (size_t i = 0; i < n; i++) {
        seed = (seed * 1103515245UL + 12345UL) & 0x7fffffffUL;
        v[2 * i] = 10 + 5e-9 * (double)seed;
        v[2 * i + 1] = bw_hygro_z_of_phi(d->sheet.hygro[i],
                                         0.6 + 1.5e-10 * (double)seed);
    }
    bw_band_clear(&d->solver.matrix);
    bw_cells_under(&d->sheet.cells, &edge, v, &d->solver.cells, true);
    bw_sheet_rates(&d->sheet, &weather, v, &d->solver.cells, up, &flow,
                   &d->solver.matrix, -1.0);
    double largest[2] = {0, 0}, off[2] = {0, 0};
    for (size_t k = 0; k < 2 * n; k += 5) {
        const double keep = v[k], by = k % 2 == 0 ? 1e-4 : 1e-6;
        v[k] = keep + by;
        bw_cells_under(&d->sheet.cells, &edge, v, &d->solver.cells, false);
        bw_sheet_rates(&d->sheet, &weather, v, &d->solver.cells, up, &flow,
                       NULL, 0);
        v[k] = keep - by;
        bw_cells_under(&d->sheet.cells, &edge, v, &d->solver.cells, false);
        bw_sheet_rates(&d->sheet, &weather, v, &d->solver.cells, down, &flow,
                       NULL, 0);
        v[k] = keep;
        for (size_t r = 0; r < 2 * n; r++) {
            const size_t w = d->solver.matrix.w;
            const double slope = (up[r] - down[r]) / (2 * by);
            const bool in = (r > k ? r - k : k - r) <= w;
            const double a = in ? (double)*bw_band_at(&d->solver.matrix, r, k)
                                : 0;
            largest[r % 2] = fmax(largest[r % 2], fabs(slope));
            off[r % 2] = fmax(off[r % 2], fabs(slope - a));
        }
    }
    ck_assert_double_lt(off[0], 1e-4 * largest[0]);
    ck_assert_double_lt(off[1], 1e-4 * largest[1]);
    erase(d);
    lab_free(l);
}
END_TEST

/* Ten days, three of them with rain in the morning; the tolerances so tight
 * that steps of either solver do not show. */
START_TEST(strip_goes_as_a_row_of_cells_does)
{
    static bw_film film;
    static double row[2 * LAB_CELLS], v[2 * LAB_CELLS * COLUMNS];
    lab *l = make_wall(&film);
    drawing *d = draw(l, _i == 1);
    double crossing[BW_X_COUNT] = {0};
    bw_sheet_flow flow = {.heat = 0};
    for (size_t i = 0; i < l->n; i++) {
        row[2 * i] = 15;
        row[2 * i + 1] = bw_hygro_z_of_phi(l->of[i], 0.6);
    }
    spread_state(d, row, v);
    bw_solver_start(&l->solver, row, 0);
    bw_sheet_start(&d->solver, v, 0);
    l->solver.tolerance_theta = d->solver.tolerance_theta = 1e-3;
    l->solver.tolerance_z = d->solver.tolerance_z = 5e-5;
    for (int q = 0; q < 40; q++) {
        const double rain = q % 4 == 1 && q / 4 % 3 == 0 ? 1e-4 : 0;
        const double end = (q + 1) * DAY / 4;
        ck_assert_int_eq(
            bw_solver_advance(&l->solver, end, wave, &rain, crossing, NULL),
            BW_OK);
        ck_assert_int_eq(
            bw_sheet_advance(&d->solver, end, wave_weather, &rain, &flow, NULL),
            BW_OK);
    }
    double theta = 0, z = 0;
    for (size_t i = 0; i < l->n; i++)
        for (size_t c = 0; c < COLUMNS; c++) {
            const double *two = &d->solver.v[2 * cell_of(d, i, c)];
            theta = fmax(theta, fabs(two[0] - l->solver.v[2 * i]));
            z = fmax(z, fabs(two[1] - l->solver.v[2 * i + 1]));
        }
    ck_assert_double_lt(theta, 0.01);
    ck_assert_double_lt(z, 5e-4);
    ck_assert_double_gt(crossing[BW_X_RAIN], 1.0);
    ck_assert_double_eq_tol(flow.rain[0] / d->width, crossing[BW_X_RAIN],
                            1e-3 * crossing[BW_X_RAIN]);
    erase(d);
    lab_free(l);
}
END_TEST

/* ---- conservation -------------------------------------------------------- */

static void leaking(const void *ctx, double t, bw_sheet_weather *w)
{
    wave_weather(ctx, t, w);
    w->leak[0] = 1e-9;
    w->leak[2] = 2e-9;
    w->leak_theta = 5;
    w->side[1].theta = 24;
    w->side[1].p = 2600;
}

static void stored_in(const bw_sheet_solver *s, double sum[2])
{
    sum[0] = sum[1] = 0;
    for (size_t i = 0; i < 2 * s->sheet->n; i++)
        sum[i % 2] += s->stored[i];
}

START_TEST(what_is_stored_is_what_came_in)
{
    static bw_film film;
    static double row[2 * LAB_CELLS], v[2 * LAB_CELLS * COLUMNS];
    lab *l = make_wall(&film);
    drawing *d = draw(l, true);
    const size_t at = cell_of(d, l->n - 3, 1);
    const bw_sheet_leak leaks[] = {{at, 0, 1.5}, {at, 2, 0.25}};
    const bw_sheet_airflow air[] = {{7, 1, 1e-6, false}, {8, 1, 2e-6, true}};
    d->sheet.air_count = 2;
    d->sheet.air = air;
    d->sheet.leak_count = 2;
    d->sheet.leak = leaks;
    for (size_t i = 0; i < l->n; i++) {
        row[2 * i] = 15;
        row[2 * i + 1] = bw_hygro_z_of_phi(l->of[i], 0.6);
    }
    spread_state(d, row, v);
    bw_sheet_start(&d->solver, v, 0);
    double before[2], after[2];
    bw_sheet_flow f = {.heat = 0};
    stored_in(&d->solver, before);
    for (int q = 0; q < 20; q++) {
        const double rain = q % 4 == 1 ? 1e-4 : 0;
        ck_assert_int_eq(bw_sheet_advance(&d->solver, (q + 1) * DAY / 4,
                                          leaking, &rain, &f, NULL),
                         BW_OK);
    }
    stored_in(&d->solver, after);
    const double water = f.vapour[0] + f.vapour[1] + f.rain[0] + f.leak + f.air;
    ck_assert_double_eq_tol(f.leak, 2e-9 * 5 * DAY, 1e-12);
    ck_assert_double_gt(f.air, 0.0);
    ck_assert_double_gt(f.rain[0], 0.01);
    ck_assert_double_eq_tol(after[1] - before[1], water, 1e-11 * after[1]);
    ck_assert_double_eq_tol(after[0] - before[0], f.heat, 1e-11 * after[0]);
    /* and what the cells hold is what is carried, to what Newton's method
     * leaves */
    static double held[2 * LAB_CELLS * COLUMNS];
    bw_cells_at(&d->sheet.cells, d->solver.v, &d->solver.cells, false);
    bw_wall_stored(&d->sheet.cells, &d->solver.cells, held, NULL);
    double sum = 0;
    for (size_t i = 1; i < 2 * d->sheet.n; i += 2)
        sum += held[i];
    ck_assert_double_eq_tol(sum, after[1], 1e-4 * after[1]);
    erase(d);
    lab_free(l);
}
END_TEST

SUITE("junction_hours",
      EACH(strip_has_the_flows_of_a_row_of_cells, COUNT(ways)),
      FACT(matrix_is_the_slope_of_the_flows),
      EACH(strip_goes_as_a_row_of_cells_does, 2),
      FACT(what_is_stored_is_what_came_in))
