/* Heat and moisture by the hour of drawings made of materials: a wall under a
 * year's weather against the wall of one dimension, vapour round a corner
 * against its exact constant, what is refused. */

#include <math.h>

#include "junction/hour_sheet.h"
#include "junction_plan.h"
#include "measured.h"
#include "suite.h"
#include "transient/boundary.h"
#include "transient/model.h"
#include "transient/solver.h"
#include "transient_case.h"

/* ---- a wall in the weather ----------------------------------------------- */

/* Brick that the rain wets, softboard, fibre, a membrane that follows humidity,
 * plasterboard; the invented weather. */
static transient_case *make_case(void)
{
    static const double phi[] = {0.33, 0.5, 0.65, 0.8, 0.9, 0.93, 0.97};
    static const double u[] = {0.068, 0.095, 0.123, 0.164, 0.209, 0.228, 0.26};
    transient_case *c = case_new();
    const bw_curve sd = c->sd;
    memset(c->slab, 0, sizeof c->slab);
    memset(c->layer, 0, sizeof c->layer);
    c->section.slab_count = 0;
    case_material(c, 0, "brick", 1700, 0.77, 1000, 16, 10);
    case_sorption(c, 0, 2, (double[]){0.5, 0.8}, (double[]){0.0041, 0.0071});
    c->material[0].free_saturation = case_value(250);
    c->material[0].water_absorption = case_value(0.1);
    case_slab(c, BW_LAYER_SOLID, 0.102);
    case_material(c, 1, "softboard", 270, 0.058, 1500, 10, 6);
    case_sorption(c, 1, 7, phi, u);
    case_slab(c, BW_LAYER_SOLID, 0.012);
    case_material(c, 2, "fibre", 50, 0.04, 2000, 2, 2);
    case_sorption(c, 2, 7, phi, u);
    case_slab(c, BW_LAYER_SOLID, 0.14);
    case_material(c, 3, "membrane", 500, 0.2, 1000, 0, 0);
    case_slab(c, BW_LAYER_MEMBRANE, 0);
    c->sd = sd;
    c->slab[3].sd_curve = &c->sd;
    case_material(c, 4, "plasterboard", 700, 0.21, 1000, 10, 4);
    case_sorption(c, 4, 3, (double[]){0.5, 0.8, 0.95},
                  (double[]){0.004, 0.009, 0.018});
    case_slab(c, BW_LAYER_SOLID, 0.0125);
    c->assembly.layer_count = c->section.slab_count;
    return c;
}

static const double column[] = {0.0, 0.03, 0.05, 0.1};

/* The wall's cells as a strip of three columns, the outside below. */
static void draw_wall(plan *p, const transient_case *c, const bw_model *m)
{
    plan_start(p, 3, m->wall.n);
    memcpy(p->x, column, sizeof column);
    for (size_t k = 0; k < c->section.slab_count; k++) {
        const bw_slab *slab = &c->slab[k];
        const bw_range *at = &m->range[k];
        for (size_t j = at->first; j < at->first + at->count; j++)
            p->cell[3 * j] = p->cell[3 * j + 1] = p->cell[3 * j + 2] = (int)k;
        for (size_t i = 0; at->count == 0 && i < 3; i++)
            p->film_y[at->first * 3 + i] = (int)k;
        p->material[k] = (bw_drawn_material){
            .name = slab->label,
            .material = slab->material,
            .conductivity = slab->material->thermal_conductivity.value,
            .mu_dry = fmax(slab->material->mu_dry.value, 1e-3),
            .mu_wet = fmax(slab->material->mu_wet.value, 1e-3)};
        p->film[k] = (bw_drawn_film){.name = slab->label,
                                     .material = slab->material,
                                     .sd_curve = slab->sd_curve};
    }
    for (size_t j = 0; j < m->wall.n; j++)
        p->y[j + 1] = p->y[j] + m->wall.dx[j];
    p->rim[BW_EDGE_BELOW] = 0;
    p->rim[BW_EDGE_ABOVE] = 1;
    plan_make(p);
}

START_TEST(wall_in_the_weather_goes_as_in_one_dimension)
{
    enum { FIRST = 7000, HOURS = 24 * 20 };
    transient_case *c = make_case();
    const bw_transient_options options = {.grid_refinement = 1};
    bw_model m;
    static bw_year year;
    plan p;
    bw_solver one;
    bw_sheet_solver two;
    bw_sheet_model drawn;
    ck_assert_int_eq(
        bw_model_make(&m, &c->assembly, &c->section, 101325, &options, NULL),
        BW_OK);
    ck_assert_int_eq(
        bw_year_make(&year, &c->assembly, &c->climate, &options, NULL), BW_OK);
    draw_wall(&p, c, &m);
    ck_assert_int_eq(
        bw_sheet_make(&drawn, &p.arena, &p.raster, NULL, 101325, NULL), BW_OK);
    ck_assert(bw_solver_init(&one, &m.wall, &m.arena));
    ck_assert_int_eq(bw_sheet_solver_make(&two, &drawn.sheet, &p.arena, NULL),
                     BW_OK);
    double *v = BW_NEW(&p.arena, double, 2 * m.wall.n);
    double *w = BW_NEW(&p.arena, double, 2 * drawn.sheet.n);
    for (size_t j = 0; j < m.wall.n; j++)
        for (size_t i = 0; i < 3; i++) {
            const size_t at = drawn.cell[3 * j + i];
            w[2 * at] = v[2 * j] = 12;
            w[2 * at + 1] = v[2 * j + 1] = bw_hygro_z_of_phi(m.wall.hygro[j],
                                                             0.75);
        }
    bw_solver_start(&one, v, 0);
    bw_sheet_start(&two, w, 0);
    one.tolerance_theta = two.tolerance_theta = 0.003;
    one.tolerance_z = two.tolerance_z = 1.5e-4;
    double crossing[BW_X_COUNT] = {0};
    bw_sheet_flow flow = {.heat = 0};
    for (int h = 0; h < HOURS; h++) {
        const double from = 3600.0 * h;
        const bw_window span = bw_window_from(&year, FIRST + h, 1, from);
        const bw_sheet_hour hour = {.sides = 2,
                                    .year = {&year, &year},
                                    .room = {false, true},
                                    .hour = FIRST + h,
                                    .from = from};
        ck_assert_int_eq(bw_solver_advance(&one, from + 3600, bw_window_edge,
                                           &span, crossing, NULL),
                         BW_OK);
        ck_assert_int_eq(bw_sheet_advance(&two, from + 3600, bw_sheet_hour_at,
                                          &hour, &flow, NULL),
                         BW_OK);
    }
    double theta = 0, z = 0;
    for (size_t j = 0; j < m.wall.n; j++)
        for (size_t i = 0; i < 3; i++) {
            const double *u = &two.v[2 * drawn.cell[3 * j + i]];
            theta = fmax(theta, fabs(u[0] - one.v[2 * j]));
            z = fmax(z, fabs(u[1] - one.v[2 * j + 1]));
        }
    ck_assert_double_lt(theta, 0.02);
    ck_assert_double_lt(z, 0.002);
    ck_assert_double_gt(crossing[BW_X_RAIN], 0.5); /* it rained */
    ck_assert_double_eq_tol(flow.rain[0] / 0.1, crossing[BW_X_RAIN],
                            0.005 * crossing[BW_X_RAIN]);
    bw_arena_release(&p.arena);
    bw_model_free(&m);
    free(c);
}
END_TEST

/* ---- round a corner ------------------------------------------------------ */

static void still(const void *ctx, double t, bw_sheet_weather *w)
{
    (void)ctx;
    (void)t;
    *w = (bw_sheet_weather){.redistributes = true};
    for (size_t k = 0; k < BW_SHEET_SIDES; k++)
        w->side[k] = (bw_sheet_air){
            .theta = 20, .p = k == 1 ? 1200 : 800, .h = 1e6, .beta = 1};
}

/* Legs of 6 d; n cells to d. What passes at last, for 1 Pa and 1 kg/(m s Pa),
 * less that of the legs. */
static double corner_constant(size_t n)
{
    const size_t legs = 6 * n;
    const double h = 0.25 / (double)n;
    transient_case *c = steady_new(20, 0.5, 20, 0.5);
    plan p;
    bw_sheet_model drawn;
    bw_sheet_solver s;
    bw_sheet_weather w;
    bw_sheet_flow flow = {.heat = 0};
    add_board(c, 0.1, 8.0);
    plan_start(&p, n + legs, n + legs);
    for (size_t i = 0; i <= n + legs; i++)
        p.x[i] = p.y[i] = h * (double)i;
    for (size_t j = n; j < p.ny; j++)
        for (size_t i = n; i < p.nx; i++) {
            p.cell[j * p.nx + i] = BW_NOT_THERE;
            p.air[j * p.nx + i] = 1;
        }
    p.rim[BW_EDGE_LEFT] = p.rim[BW_EDGE_BELOW] = 0;
    p.material[0] = (bw_drawn_material){.name = "board",
                                        .material = &c->material[0],
                                        .conductivity = 0.2,
                                        .mu_dry = 8.0,
                                        .mu_wet = 8.0};
    plan_make(&p);
    ck_assert_int_eq(
        bw_sheet_make(&drawn, &p.arena, &p.raster, NULL, 101325, NULL), BW_OK);
    ck_assert_int_eq(bw_sheet_solver_make(&s, &drawn.sheet, &p.arena, NULL),
                     BW_OK);
    double *v = BW_NEW(&p.arena, double, 2 * drawn.sheet.n);
    for (size_t i = 0; i < drawn.sheet.n; i++) {
        v[2 * i] = 20;
        v[2 * i + 1] = bw_hygro_z_of_phi(drawn.sheet.hygro[i], 0.43);
    }
    bw_sheet_start(&s, v, 0);
    ck_assert_int_eq(bw_sheet_advance(&s, 1e12, still, NULL, &flow, NULL),
                     BW_OK);
    still(NULL, 0, &w);
    bw_cells_at(&drawn.sheet.cells, s.v, &s.cells, false);
    bw_sheet_rates(&drawn.sheet, &w, s.v, &s.cells, s.x, &flow, NULL, 0);
    ck_assert_double_eq_tol(flow.vapour[0], -flow.vapour[1],
                            1e-6 * flow.vapour[1]);
    const double shape = flow.vapour[1] /
                         (400 * bw_vapour_permeability_of_air(20, 101325) /
                          8.0);
    bw_arena_release(&p.arena);
    free(c);
    return shape - 2.0 * (double)legs / (double)n;
}

/* 1 - 2 ln 2/pi [derived], as for the months; errors fall as h^(4/3), from
 * below where the middles of cells are asked. */
START_TEST(vapour_round_a_corner_comes_to_the_exact_constant)
{
    const double c4 = corner_constant(4), c8 = corner_constant(8);
    const double c = c8 + (c8 - c4) / (pow(2.0, 4.0 / 3.0) - 1.0);
    ck_assert_double_lt(c4, c8);
    ck_assert_double_lt(c8, 0.558729);
    measured("hours-corner", fabs(c - 0.558729), 0.005, "-");
}
END_TEST

START_TEST(material_without_a_density_is_refused)
{
    transient_case *c = make_case();
    bw_model m;
    plan p;
    bw_sheet_model drawn;
    bw_error err;
    const bw_transient_options options = {.grid_refinement = 1};
    ck_assert_int_eq(
        bw_model_make(&m, &c->assembly, &c->section, 101325, &options, NULL),
        BW_OK);
    draw_wall(&p, c, &m);
    c->material[2].density.known = false;
    ck_assert_int_eq(
        bw_sheet_make(&drawn, &p.arena, &p.raster, NULL, 101325, &err),
        BW_ERR_DOMAIN);
    ck_assert_ptr_nonnull(strstr(err.message, "fibre"));
    bw_arena_release(&p.arena);
    bw_model_free(&m);
    free(c);
}
END_TEST

SUITE("junction_hours_drawn",
      FACT(wall_in_the_weather_goes_as_in_one_dimension),
      FACT(vapour_round_a_corner_comes_to_the_exact_constant),
      FACT(material_without_a_density_is_refused))
