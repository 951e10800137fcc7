/* A section of an assembly as a wall of cells: what becomes a cell, what a
 * film in a face, where air and rain get in. */

#include "suite.h"
#include "transient/mesh.h"
#include "transient/model.h"
#include "transient_case.h"

static bw_model model_of(const transient_case *c,
                         const bw_transient_options *options)
{
    bw_model model;
    bw_error err = {0};
    const bw_status status = bw_model_make(&model, &c->assembly, &c->section,
                                           101325, options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return model;
}

static void model_refused(const transient_case *c, const char *word)
{
    const bw_transient_options none = {0};
    bw_model model;
    bw_error err = {0};
    ck_assert_int_eq(
        bw_model_make(&model, &c->assembly, &c->section, 101325, &none, &err),
        BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message, word) != NULL, "%s", err.message);
    bw_model_free(&model);
}

/* A wall of the case's own layers in another order. */
static void reorder(transient_case *c, size_t count, const size_t *layer)
{
    bw_slab slab[CASE_LAYERS];
    memcpy(slab, c->slab, sizeof slab);
    for (size_t k = 0; k < count; k++)
        c->slab[k] = slab[layer[k]];
    c->section.slab_count = count;
}

enum { BRICK, CAVITY, SOFTBOARD, FIBRE, MEMBRANE, PLASTERBOARD };

/* ---- what is refused ---- */

START_TEST(walls_that_have_nothing_to_compute_are_refused)
{
    transient_case *c = case_new();
    c->slab[FIBRE].thickness = -0.1;
    c->slab[FIBRE].kind = BW_LAYER_CAVITY;
    model_refused(c, "fibre has no thickness");
    c->slab[FIBRE].thickness = NAN;
    c->slab[FIBRE].kind = BW_LAYER_SOLID;
    model_refused(c, "fibre has no thickness");
    reorder(c, 1, (size_t[]){MEMBRANE});
    model_refused(c, "membranes alone");
    c->section.slab_count = 0;
    model_refused(c, "without layers");
    free(c);
}
END_TEST

/* Files can not say so, callers of the library can. */
START_TEST(sorption_that_falls_is_refused)
{
    transient_case *c = case_new();
    case_sorption(c, 5, 3, (double[]){0.5, 0.8, 0.9},
                  (double[]){0.02, 0.01, 0.03});
    model_refused(c, "must not fall");
    free(c);
}
END_TEST

/* ---- cells and films ---- */

START_TEST(solids_are_cells_a_cavity_is_one_and_coats_are_films)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->slab[PLASTERBOARD].thickness = 0.9e-4; /* a paint */
    bw_model model = model_of(c, &none);
    ck_assert_uint_gt(model.range[BRICK].count, 4);
    ck_assert_uint_eq(model.range[CAVITY].count, 1);
    ck_assert_uint_eq(model.range[MEMBRANE].count, 0);
    ck_assert_uint_eq(model.range[PLASTERBOARD].count, 0);
    ck_assert_uint_eq(model.range[MEMBRANE].first, model.wall.n);
    size_t n = 0;
    for (size_t k = 0; k < c->section.slab_count; k++) {
        double sum = 0;
        ck_assert_uint_eq(model.range[k].first, n);
        for (size_t i = 0; i < model.range[k].count; i++) {
            sum += model.wall.dx[n + i];
            ck_assert_double_eq(model.wall.per_half[n + i],
                                2 / model.wall.dx[n + i]);
        }
        if (model.range[k].count > 0)
            ck_assert_double_eq_tol(sum, c->slab[k].thickness, 1e-12);
        n += model.range[k].count;
    }
    ck_assert_uint_eq(model.wall.n, n);
    bw_model_free(&model);
    free(c);
}
END_TEST

/* 1/sd straight from dry to wet cup; two films in one face one after the
 * other: here the curve of the membrane and the paint's. */
START_TEST(films_in_one_face_add_up)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->slab[PLASTERBOARD].thickness = 0.9e-4;
    c->slab[PLASTERBOARD].sd_dry = 4;
    c->slab[PLASTERBOARD].sd_wet = 1;
    c->slab[PLASTERBOARD].resistance = 0.02;
    c->slab[MEMBRANE].resistance = 0.03;
    bw_model model = model_of(c, &none);
    const bw_face *face = &model.wall.face[model.wall.n];
    ck_assert_ptr_nonnull(face->film);
    ck_assert_double_eq_tol(face->heat_resistance, 0.05, 1e-12);
    static const double paint[][2] = {{0.1, 4},
                                      {0.25, 4},
                                      {0.48, 1 / (0.25 + 0.75 * 0.23 / 0.465)},
                                      {0.715, 1},
                                      {1, 1}};
    for (size_t k = 0; k < COUNT(paint); k++) {
        const int i = (int)(paint[k][0] * BW_FILM_ROWS + 0.5);
        ck_assert_double_eq_tol(face->film->resistance[i] * 2e-10,
                                paint[k][1] + bw_curve_log(&c->sd, paint[k][0]),
                                1e-9);
    }
    bw_model_free(&model);
    free(c);
}
END_TEST

/* A curve that falls to the last point: each row is the curve there, and above
 * 100 % as at 100 %. */
START_TEST(film_follows_the_sd_curve_of_its_membrane_up_to_saturation)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_model model = model_of(c, &none);
    const bw_film *film = model.wall.face[model.range[MEMBRANE].first].film;
    ck_assert_ptr_nonnull(film);
    for (int i = 0; i <= BW_FILM_ROWS; i++)
        ck_assert_double_eq_tol(film->resistance[i] * 2e-10,
                                bw_curve_log(&c->sd, (double)i / BW_FILM_ROWS),
                                1e-9);
    ck_assert_double_eq_tol(film->resistance[0] * 2e-10, 15, 1e-9);
    ck_assert_double_eq_tol(film->resistance[BW_FILM_ROWS] * 2e-10, 0.25, 1e-9);
    ck_assert_double_eq(film->resistance[BW_FILM_ROWS + 1],
                        film->resistance[BW_FILM_ROWS]);
    bw_model_free(&model);
    free(c);
}
END_TEST

START_TEST(cells_are_refined_as_asked_and_eightfold_at_most)
{
    static const double asked[] = {0, 1, 2, 2.5, 100};
    static const size_t parts[] = {1, 1, 2, 3, 8};
    transient_case *c = case_new();
    size_t one = 0;
    for (size_t k = 0; k < COUNT(asked); k++) {
        const bw_transient_options options = {.grid_refinement = asked[k]};
        bw_model model = model_of(c, &options);
        if (k == 0)
            one = model.wall.n - 1; /* but the cavity */
        ck_assert_uint_eq(model.wall.n, parts[k] * one + 1);
        bw_model_free(&model);
    }
    free(c);
}
END_TEST

START_TEST(cells_fill_a_layer_symmetrically_and_grow_by_half_at_most)
{
    static const double thickness[] = {1e-4, 0.002, 0.0125, 0.1, 0.5, 20};
    static double dx[BW_MESH_MOST];
    for (size_t k = 0; k < COUNT(thickness); k++) {
        const double d = thickness[k];
        const size_t n = bw_mesh_layer(d, 0.001, 0.001, BW_MESH_GROWTH, 1,
                                       NULL);
        ck_assert_uint_le(n, 40);
        ck_assert_uint_eq(bw_mesh_layer(d, 0.001, 0.001, BW_MESH_GROWTH, 1, dx),
                          n);
        double sum = 0;
        for (size_t i = 0; i < n; i++) {
            sum += dx[i];
            ck_assert_double_eq_tol(dx[i], dx[n - 1 - i], 1e-15);
        }
        ck_assert_double_eq_tol(sum, d, 1e-12 * d);
        if (d < 13) /* what 20 cells can do; beyond it they are all longer */
            ck_assert_double_le(dx[0], 0.001 * 1.01);
        for (size_t i = 1; i < n / 2; i++)
            ck_assert_double_le(dx[i], 1.52 * dx[i - 1]);
        /* cut in two each */
        ck_assert_uint_eq(bw_mesh_layer(d, 0.001, 0.001, BW_MESH_GROWTH, 2, dx),
                          2 * n);
        sum = 0;
        for (size_t i = 0; i < 2 * n; i++)
            sum += dx[i];
        ck_assert_double_eq_tol(sum, d, 1e-12 * d);
        ck_assert_double_eq_tol(dx[0], dx[1], 1e-15);
    }
}
END_TEST

/* Into thick masonry rain goes deep: there cells grow by a fifth in the outer
 * half, by half in the inner one; and behind a coat that keeps rain out as
 * anywhere. */
START_TEST(cells_grow_less_where_rain_goes_deep)
{
    static const struct {
        double thickness, growth;
        bool wetted;
    } row[] = {{0.33, 1.2, true}, {0.102, 1.5, true}, {0.33, 1.5, false}};
    const bw_transient_options none = {0};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = case_new();
        c->slab[BRICK].thickness = row[k].thickness;
        c->material[BRICK].water_absorption.known = row[k].wetted;
        bw_model model = model_of(c, &none);
        const size_t n = model.range[BRICK].count;
        double sum = model.wall.dx[0], most = 1;
        size_t i = 1;
        for (; sum + model.wall.dx[i] < 0.5 * row[k].thickness * 1.0001; i++) {
            most = fmax(most, model.wall.dx[i] / model.wall.dx[i - 1]);
            sum += model.wall.dx[i];
        }
        ck_assert_double_eq_tol(sum, 0.5 * row[k].thickness, 1e-9);
        ck_assert_double_le(most, row[k].growth + 0.01);
        ck_assert_double_ge(most, row[k].growth - 0.15);
        ck_assert_double_le(model.wall.dx[0], 0.001 * 1.01);
        ck_assert_double_gt(model.wall.dx[n - 2] / model.wall.dx[n - 1], 1.3);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

/* Finer cells only in an outermost layer that draws rain. */
START_TEST(liquid_passes_between_materials_that_draw_it_and_through_no_film)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_model model = model_of(c, &none);
    ck_assert(!model.blocks_rain);
    ck_assert_double_le(model.wall.dx[0], 0.0005 * 1.01);
    for (size_t i = 0; i <= model.wall.n; i++)
        ck_assert_int_eq(model.wall.face[i].liquid,
                         i < model.range[CAVITY].first);
    bw_model_free(&model);
    c->material[BRICK].water_absorption.known = false;
    model = model_of(c, &none);
    ck_assert(model.blocks_rain);
    ck_assert_double_gt(model.wall.dx[0], 0.0005 * 1.01);
    bw_model_free(&model);
    /* a sheet on the brick */
    c->material[BRICK].water_absorption.known = true;
    reorder(c, 3, (size_t[]){MEMBRANE, BRICK, PLASTERBOARD});
    c->slab[0].sd_dry = 2;
    model = model_of(c, &none);
    ck_assert(model.blocks_rain);
    ck_assert(!model.wall.face[0].liquid);
    ck_assert_double_gt(model.wall.dx[0], 0.0005 * 1.01);
    bw_model_free(&model);
    free(c);
}
END_TEST

/* By its own water absorption; else nothing through a tight sheet, and 0.5
 * kg/(m2 h^0.5) (the most of class W2 of EN 1062-3 [memory, hi]) through a
 * paint or a thin film that nothing is known of. */
START_TEST(a_coat_lets_rain_in_by_its_water_absorption)
{
    static const struct {
        const char *group;
        bool known;
        double absorption, sd, lets;
        bool assumed, sheet;
    } row[] = {
        {"coating", false, 0, 5, 0.5 / 60, true, false},
        {"coating", true, 0.001, 5, 0.001, false, false},
        {"coating", true, 0, 0.1, 0, false, false},
        {"membrane", false, 0, 2, 0, false, true},
        {"membrane", false, 0, 1.9, 0.5 / 60, true, false},
        {"membrane", true, 0.002, 5, 0.002, false, false},
    };
    const bw_transient_options none = {0};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = case_new();
        c->material[MEMBRANE].group = row[k].group;
        c->material[MEMBRANE].water_absorption = case_value(row[k].absorption);
        c->material[MEMBRANE].water_absorption.known = row[k].known;
        reorder(c, 3, (size_t[]){MEMBRANE, BRICK, PLASTERBOARD});
        c->slab[0].sd_dry = row[k].sd;
        bw_model model = model_of(c, &none);
        ck_assert_ptr_nonnull(model.coat.label);
        ck_assert_double_eq(model.coat.absorption, row[k].lets);
        ck_assert_int_eq(model.coat.assumed, row[k].assumed);
        ck_assert_int_eq(model.coat.sheet, row[k].sheet);
        ck_assert_int_eq(model.wall.face[0].liquid, row[k].lets > 0);
        ck_assert_int_eq(model.blocks_rain, !(row[k].lets > 0));
        ck_assert_int_eq(model.wall.dx[0]<0.0005 * 1.01, row[k].lets> 0);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

/* ---- cavities ---- */

/* Changes an hour: 10 behind 60 mm of masonry or more, 100 behind less, a
 * tenth where slightly ventilated (docs/methods.md). */
START_TEST(air_through_a_cavity_follows_cladding_openings_and_what_is_given)
{
    static const struct {
        double cladding, given; /* m, 1/s */
        bw_ventilation ventilation;
        double per_hour;
    } row[] = {
        {0.102, 0, BW_VENT_WELL, 10},  {0.06, 0, BW_VENT_WELL, 10},
        {0.059, 0, BW_VENT_WELL, 100}, {0.02, 0, BW_VENT_SLIGHT, 10},
        {0.102, 0, BW_VENT_SLIGHT, 1}, {0.102, 0.01, BW_VENT_SLIGHT, 36},
    };
    const bw_transient_options none = {0};
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = case_new();
        c->slab[BRICK].thickness = row[k].cladding;
        c->layer[CAVITY].air_change = row[k].given;
        c->layer[CAVITY].ventilation = row[k].ventilation;
        bw_model model = model_of(c, &none);
        ck_assert_uint_eq(model.wall.vent_count, 1);
        ck_assert_uint_eq(model.wall.vent[0].cell, model.range[CAVITY].first);
        ck_assert_double_eq_tol(model.wall.vent[0].flow,
                                row[k].per_hour / 3600 * 0.05, 1e-12);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

/* A membrane before the cavity is no cladding. */
START_TEST(only_solids_are_cladding)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    c->slab[MEMBRANE].thickness = 1;
    reorder(c, 3, (size_t[]){MEMBRANE, CAVITY, PLASTERBOARD});
    bw_model model = model_of(c, &none);
    ck_assert_double_eq_tol(model.wall.vent[0].flow, 100.0 / 3600 * 0.05,
                            1e-12);
    bw_model_free(&model);
    free(c);
}
END_TEST

START_TEST(cavities_closed_blocked_or_of_no_layer_let_no_air_through)
{
    for (int which = 0; which < 3; which++) {
        transient_case *c = case_new();
        const bw_transient_options options = {.cavities_blocked = which == 1};
        if (which == 0)
            c->layer[CAVITY].ventilation = BW_VENT_NONE;
        if (which == 2)
            c->slab[CAVITY].layer = 99;
        bw_model model = model_of(c, &options);
        ck_assert_uint_eq(model.wall.vent_count, 0);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

/* ---- leaks ---- */

/* On the outer side of what insulates most; of the cells there the one that
 * stores more. */
START_TEST(room_air_condenses_on_the_outer_side_of_the_insulation)
{
    const bw_transient_options none = {0};
    transient_case *c = case_new();
    bw_model model = model_of(c, &none);
    ck_assert_int_eq(model.wall.leak_cell, -1);
    ck_assert_uint_eq(model.leak_slab, c->section.slab_count);
    bw_model_free(&model);
    c->assembly.air_leakage = (bw_air_leakage){true, 1e-3, 5, false};
    model = model_of(c, &none);
    ck_assert_uint_eq(model.leak_slab, FIBRE);
    /* softboard (270 kg/m3) stores more than fibre (50 kg/m3) */
    ck_assert_int_eq(model.wall.leak_cell, (long)model.range[FIBRE].first - 1);
    bw_model_free(&model);
    c->slab[SOFTBOARD] = c->slab[CAVITY]; /* now the fibre does */
    model = model_of(c, &none);
    ck_assert_int_eq(model.wall.leak_cell, (long)model.range[FIBRE].first);
    bw_model_free(&model);
    reorder(c, 2, (size_t[]){FIBRE, PLASTERBOARD});
    model = model_of(c, &none);
    ck_assert_uint_eq(model.leak_slab, 0);
    ck_assert_int_eq(model.wall.leak_cell, 0);
    bw_model_free(&model);
    free(c);
}
END_TEST

START_TEST(rain_leaks_in_behind_its_layer_or_at_the_insulation)
{
    const bw_transient_options none = {0};
    for (int which = 0; which < 4; which++) {
        transient_case *c = case_new();
        const bool given = which > 0;
        const long after[] = {0, -1, BRICK, PLASTERBOARD};
        c->assembly.rain_leak = (bw_rain_leak){given, 0.01, after[which]};
        bw_model model = model_of(c, &none);
        const long expected[] = {(long)model.range[FIBRE].first - 1,
                                 (long)model.range[FIBRE].first - 1,
                                 (long)model.range[CAVITY].first - 1,
                                 (long)model.wall.n - 1};
        ck_assert_int_eq(model.wall.rain_cell, expected[which]);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

/* Between two boards it goes to the one that stores more, of equals to the
 * outer one: 5 % more or less of everything. */
START_TEST(rain_leaks_to_the_side_that_stores_more)
{
    static const struct {
        double inner;
        bool goes_in;
    } rows[] = {{1.0, false}, {1.05, true}, {0.95, false}};
    const bw_transient_options none = {0};
    for (size_t i = 0; i < COUNT(rows); i++) {
        transient_case *c = steady_new(10, 0.8, 20, 0.5);
        double u[BOARD_POINTS];
        for (size_t k = 0; k < BOARD_POINTS; k++)
            u[k] = rows[i].inner * board_u[k];
        add_board(c, 0.02, 10);
        add_board(c, 0.02, 10);
        case_sorption(c, 1, BOARD_POINTS, board_phi, u);
        c->material[0].free_saturation = case_value(400);
        c->material[1].free_saturation = case_value(400 * rows[i].inner);
        c->assembly.rain_leak = (bw_rain_leak){true, 0.01, 0};
        bw_model model = model_of(c, &none);
        ck_assert_int_eq(model.wall.rain_cell,
                         (long)model.range[1].first - !rows[i].goes_in);
        bw_model_free(&model);
        free(c);
    }
}
END_TEST

SUITE("transient_cells", FACT(walls_that_have_nothing_to_compute_are_refused),
      FACT(sorption_that_falls_is_refused),
      FACT(solids_are_cells_a_cavity_is_one_and_coats_are_films),
      FACT(films_in_one_face_add_up),
      FACT(film_follows_the_sd_curve_of_its_membrane_up_to_saturation),
      FACT(cells_fill_a_layer_symmetrically_and_grow_by_half_at_most),
      FACT(cells_grow_less_where_rain_goes_deep),
      FACT(cells_are_refined_as_asked_and_eightfold_at_most),
      FACT(liquid_passes_between_materials_that_draw_it_and_through_no_film),
      FACT(a_coat_lets_rain_in_by_its_water_absorption),
      FACT(air_through_a_cavity_follows_cladding_openings_and_what_is_given),
      FACT(only_solids_are_cladding),
      FACT(cavities_closed_blocked_or_of_no_layer_let_no_air_through),
      FACT(room_air_condenses_on_the_outer_side_of_the_insulation),
      FACT(rain_leaks_in_behind_its_layer_or_at_the_insulation),
      FACT(rain_leaks_to_the_side_that_stores_more))
