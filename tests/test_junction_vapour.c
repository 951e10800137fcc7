/* The monthly method in two dimensions where one dimension is enough: in a
 * strip it must give the figures of the monthly method, which has its own
 * checks. */

#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "bothways/climate.h"
#include "junction_plan.h"
#include "junction_strip.h"
#include "side.h"
#include "suite.h"
#include "wall_case.h"

static const double same = 2e-9; /* kg/m2: rounding of both methods */

static bool is_last(const strip *s, bw_plane_at at)
{
    return at.layer_face && at.slab + 1 == s->section->slab_count;
}

static bool is_first(bw_plane_at at)
{
    return !at.layer_face && at.slab == 0 && at.depth <= 0.0;
}

static void compare_plane(strip *s, const bw_plane *plane,
                          const bw_vapour_result *two)
{
    size_t n = s->vapour.nodes.count;
    bw_vapour_line line = strip_line(s, plane->at);
    for (size_t i = 0; plane->at.layer_face && i < line.count; ++i)
        ck_assert_double_eq_tol(s->vapour.face[line.node[i]], line.length[i],
                                1e-12);
    for (size_t m = 0; m < BW_MONTHS; ++m) {
        const bw_plane_month *month = &plane->month[m];
        for (size_t i = 0; i < line.count; ++i) {
            size_t at = m * n + line.node[i];
            ck_assert_double_eq_tol(two->theta[at], month->theta, 1e-10);
            ck_assert_double_eq_tol(two->psat[at], month->saturation_pressure,
                                    1e-8);
            ck_assert_double_eq_tol(two->p[at], month->vapour_pressure, 1e-6);
        }
        ck_assert_double_eq_tol(strip_sum(s, &line, two->gain, m),
                                month->condensation, same);
        ck_assert_double_eq_tol(strip_sum(s, &line, two->mass, m),
                                month->accumulated, same);
    }
}

static void compare_result(strip *s, const bw_monthly_result *one,
                           const bw_vapour_result *two)
{
    double w = strip_width;
    ck_assert_int_eq(two->start_month, one->start_month);
    ck_assert_int_eq(two->cycles, one->cycles);
    ck_assert_int_eq(two->periodic, one->periodic);
    ck_assert_int_eq(two->accumulates, one->accumulates);
    ck_assert_int_eq(two->condenses, one->condenses);
    ck_assert(one->converged && two->converged);
    ck_assert_double_eq_tol(two->residual_first / w, one->residual_first, same);
    ck_assert_double_eq_tol(two->residual_last / w, one->residual_last, same);
    ck_assert_double_eq_tol(two->growth / w, one->growth, same);
    ck_assert_double_lt(two->balance_error, 1e-9);
    for (size_t i = 0; i < one->plane_count; ++i)
        if (!is_first(one->plane[i].at) && !is_last(s, one->plane[i].at))
            compare_plane(s, &one->plane[i], two);
    for (size_t k = 0; k < one->slab_count; ++k)
        for (size_t m = 0; s->is_film[k] && m < BW_MONTHS; ++m)
            for (size_t i = 0; i < s->vapour.nodes.pairs; ++i)
                if (s->vapour.nodes.pair[i].film == k)
                    ck_assert_double_eq_tol(
                        two->film_sd[m * s->vapour.nodes.pairs + i],
                        one->layer_sd[k][m], 1e-8 * one->layer_sd[k][m]);
}

/* Reserve and drying at the inner face of slab k. */
static void compare_drying(strip *s, const bw_boundary *boundary, size_t k)
{
    bw_plane_at at = {.slab = k, .layer_face = true};
    bw_vapour_line line = strip_line(s, at);
    for (bw_drying_ways ways = BW_DRY_BOTH; ways <= BW_DRY_INWARDS; ++ways) {
        bw_monthly_options o = {
            .start_month = -1, .wetting = 1.0, .wet_plane = at, .ways = ways};
        bw_vapour_options v = {
            .start_month = -1, .wetting = 1.0, .wet = line, .ways = ways};
        bw_monthly_result one;
        ck_assert_int_eq(bw_monthly(&one, s->section, boundary, &o, NULL),
                         BW_OK);
        bw_vapour_result two = strip_run(s, &v);
        ck_assert_int_eq(two.dried, one.dried);
        ck_assert_int_eq(two.wet_line_dried, one.wet_plane_dried);
        ck_assert_int_eq(two.condensed_elsewhere, one.condensed_elsewhere);
        ck_assert_double_eq_tol(two.months_to_dry, one.months_to_dry, 1e-8);
        ck_assert_double_eq_tol(two.wet_line_months, one.wet_plane_months,
                                2e-7);
        ck_assert_double_eq_tol(two.left / strip_width, one.left, 1e-8);
        ck_assert_double_lt(two.balance_error, 1e-8);
        bw_monthly_free(&one);
    }
}

static void compare_reserve(strip *s, const bw_boundary *boundary, size_t k)
{
    bw_plane_at at = {.slab = k, .layer_face = true};
    bw_vapour_line line = strip_line(s, at);
    bw_monthly_options o = {.start_month = -1, .place_count = 1, .place = &at};
    bw_vapour_options v = {.start_month = -1, .place_count = 1, .place = &line};
    bw_monthly_result one;
    ck_assert_int_eq(bw_monthly(&one, s->section, boundary, &o, NULL), BW_OK);
    bw_vapour_result two = strip_run(s, &v);
    ck_assert(one.has_reserve);
    ck_assert_double_eq_tol(two.reserve[0], one.reserve, 1e-8);
    bw_monthly_free(&one);
}

static size_t compare_section(const bw_section *section,
                              const bw_boundary *boundary)
{
    strip *s = malloc(sizeof *s);
    strip_of(s, section, boundary);
    const bw_vapour_options plain = {.start_month = -1};
    bw_monthly_result one;
    ck_assert_int_eq(bw_monthly(&one, section, boundary, NULL, NULL), BW_OK);
    bw_vapour_result two = strip_run(s, &plain);
    compare_result(s, &one, &two);
    size_t condenses = one.condenses;
    for (size_t k = 0; k + 1 < section->slab_count; ++k) {
        compare_reserve(s, boundary, k);
        compare_drying(s, boundary, k);
    }
    bw_monthly_free(&one);
    bw_arena_release(&s->arena);
    free(s);
    return condenses;
}

/* ---- demo assemblies ----------------------------------------------------- */

static const char *const demo[] = {
    "estuary-as-found.xml",      "estuary-fibre.xml",
    "estuary-mineral-foil.xml",  "estuary-mineral-variable.xml",
    "upland-cellar-wall.xml",    "upland-cooled-archive.xml",
    "upland-masonry-inside.xml", "upland-open-outside.xml",
    "upland-tight-outside.xml",
};

START_TEST(strip_of_a_demo_wall_has_the_figures_of_one_dimension)
{
    char path[1024];
    const char *const materials[] = {BW_SOURCE_DIR "/materials"};
    bw_library *library = NULL;
    bw_assembly *assembly = NULL;
    bw_climate *climate = NULL;
    bw_sections *sections = NULL;
    bw_boundary boundary[BW_MONTHS];
    bw_error err;
    snprintf(path, sizeof path, "%s/assemblies/%s", BW_SOURCE_DIR, demo[_i]);
    ck_assert_int_eq(bw_library_read(&library, materials, 1, NULL), BW_OK);
    ck_assert_msg(bw_assembly_read(&assembly, path, library, &err) == BW_OK,
                  "%s", err.message);
    ck_assert_int_eq(
        bw_climate_read(&climate, assembly->outdoors.climate_path, NULL),
        BW_OK);
    ck_assert_int_eq(bw_sections_make(&sections, assembly, NULL, NULL), BW_OK);
    for (size_t i = 0; i < sections->count; ++i) {
        bw_side_months(boundary, assembly, &sections->section[i], climate);
        compare_section(&sections->section[i], boundary);
    }
    bw_sections_free(sections);
    bw_climate_free(climate);
    bw_assembly_free(assembly);
    bw_library_free(library);
}
END_TEST

/* ---- walls made up ------------------------------------------------------- */

static const double rh_of[] = {0.0, 0.3, 0.5, 0.8, 1.0};
static const double falls[] = {5.0, 4.0, 2.0, 0.3, 0.1};
static const double gently[] = {12.0, 10.0, 8.0, 4.0, 3.0};
static const bw_curve curves[] = {{.count = 5, .x = rh_of, .y = falls},
                                  {.count = 5, .x = rh_of, .y = gently}};

/* Layers of every order of magnitude, films of which the first `variable` that
 * come have a curve. */
static void make_up(wall_case *wall, unsigned long *state, size_t variable)
{
    slab_row row[CASE_SLABS_MOST];
    size_t count = 3 + (size_t)(plan_chance(state) * 4.0), films = 0;
    memset(row, 0, sizeof row);
    for (size_t k = 0; k < count; ++k) {
        row[k].label = "layer";
        bool film = k > 0 && k + 1 < count && row[k - 1].resistance > 0.0 &&
                    plan_chance(state) < 0.5;
        row[k].sd = pow(10.0, 3.0 * plan_chance(state) - 1.5);
        if (film)
            continue;
        row[k].thickness = 0.005 + 0.2 * plan_chance(state);
        row[k].resistance = pow(10.0, 2.0 * plan_chance(state) - 1.5);
    }
    wall_of(wall, row, count, 0.04, 0.25);
    for (size_t k = 0; k < count; ++k) {
        bool film = row[k].resistance <= 0.0;
        if (plan_chance(state) < 0.4)
            wall->slab[k].sd_wet *= 0.5;
        if (film && films < variable)
            wall->slab[k].sd_curve = &curves[films];
        films += film;
    }
}

/* Cold outside and a room moist by turns, by months that rise and fall. */
static void make_up_year(bw_boundary *b, unsigned long *state)
{
    double mean = 15.0 * plan_chance(state), swing = 12.0 * plan_chance(state);
    double moist = 0.5 + 0.4 * plan_chance(state);
    for (int m = 0; m < BW_MONTHS; ++m) {
        double te = mean - swing * cos(m * 0.5235987755982988) +
                    plan_chance(state);
        b[m] = (bw_boundary){te, 0.85 * bw_saturation_pressure(te), 21.0,
                             moist * bw_saturation_pressure(21.0)};
    }
}

static const struct {
    unsigned long seed;
    size_t variable;
} made_up[] = {{1, 0}, {2, 0}, {3, 0}, {4, 1}, {5, 1}, {6, 1}, {7, 2}, {8, 2}};

START_TEST(strip_of_a_made_up_wall_has_the_figures_of_one_dimension)
{
    unsigned long state = made_up[_i].seed * 7919;
    size_t condense = 0;
    enum { WALLS = 12 };
    for (size_t n = 0; n < WALLS; ++n) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        make_up(&wall, &state, made_up[_i].variable);
        make_up_year(b, &state);
        condense += compare_section(&wall.section, b);
    }
    /* else little is compared */
    ck_assert_uint_ge(condense, WALLS / 3);
}
END_TEST

/* Room air leaks to the sheathing; the choice of mu turned round. */
START_TEST(strip_with_a_leak_has_the_figures_of_one_dimension)
{
    static const slab_row rows[] = {{"OSB", 0.012, 0.1, 2.0},
                                    {"wool", 0.14, 4.0, 0.14},
                                    {"film", 0.0, 0.0, 5.0},
                                    {"board", 0.0125, 0.05, 0.1}};
    const bw_plane_at at = {.slab = 0, .layer_face = true};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    strip *s = malloc(sizeof *s);
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    wall.slab[0].sd_wet = 0.7;
    example_boundary(b, 810);
    strip_of(s, &wall.section, b);
    bw_monthly_options o = {.start_month = -1,
                            .has_air_flow = true,
                            .leak_plane = at,
                            .mu = BW_MU_OPPOSITE};
    bw_vapour_options v = {.start_month = -1,
                           .has_air_flow = true,
                           .leak = strip_line(s, at),
                           .leaking_room = 1,
                           .mu = BW_MU_OPPOSITE};
    for (int m = 0; m < BW_MONTHS; ++m)
        o.air_flow[m] = v.air_flow[m] = 2e-6 * (12 - m);
    bw_monthly_result one = run(&wall, b, &o);
    bw_vapour_result two = strip_run(s, &v);
    ck_assert(one.condenses);
    compare_result(s, &one, &two);
    bw_monthly_free(&one);
    bw_arena_release(&s->arena);
    free(s);
}
END_TEST

/* A cladding that the rain keeps wet: vapour goes inwards from it. */
START_TEST(strip_with_a_soaked_cladding_has_the_figures_of_one_dimension)
{
    static const slab_row rows[] = {{"brick", 0.102, 0.13, 1.0},
                                    {"wool", 0.14, 4.0, 0.14},
                                    {"foil", 0.0, 0.0, 50.0},
                                    {"board", 0.0125, 0.05, 0.1}};
    wall_case wall;
    bw_boundary b[BW_MONTHS];
    strip *s = malloc(sizeof *s);
    wall_of(&wall, rows, COUNT(rows), 0.04, 0.25);
    example_boundary(b, 540);
    for (int m = 0; m < BW_MONTHS; ++m)
        b[m].theta_e += 8.0; /* in the sun */
    strip_of(s, &wall.section, b);
    const bw_monthly_options o = {.start_month = -1, .saturated = true};
    const bw_vapour_options v = {.start_month = -1, .soaked = true};
    bw_monthly_result one = run(&wall, b, &o);
    bw_vapour_result two = strip_run(s, &v);
    ck_assert(one.condenses);
    compare_result(s, &one, &two);
    bw_monthly_free(&one);
    bw_arena_release(&s->arena);
    free(s);
}
END_TEST

SUITE("junction_vapour",
      EACH(strip_of_a_demo_wall_has_the_figures_of_one_dimension, COUNT(demo)),
      EACH(strip_of_a_made_up_wall_has_the_figures_of_one_dimension,
           COUNT(made_up)),
      FACT(strip_with_a_leak_has_the_figures_of_one_dimension),
      FACT(strip_with_a_soaked_cladding_has_the_figures_of_one_dimension))
