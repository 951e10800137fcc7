/* A wall under air that is told hour by hour: what is looked at in it and where
 * it begins, by resistances in series, by the one capacity of a good conductor,
 * and by the straight lines of the header. */

#include "bothways/air.h"
#include "suite.h"
#include "transient/follow.h"
#include "transient_case.h"

enum { MOST_PLACES = 12, LONG = 150 };

static bw_boundary hour[LONG];
static bw_followed out[LONG * MOST_PLACES];
static bw_transient_options options;
static bw_follow follow;
static transient_case *c;

static void setup(void)
{
    c = steady_new(0, 0.8, 20, 0.5);
    options = (bw_transient_options){.fixed_permeability = true};
    follow = (bw_follow){.hour = hour, .hours = LONG, .options = &options};
    bw_follow_outdoors(&follow, &c->assembly.outdoors);
    bw_follow_room(&follow, &c->assembly.indoors);
}

static void teardown(void)
{
    free(c);
}

static void air(double theta_e, double p_e, double theta_i, double p_i)
{
    for (size_t k = 0; k < LONG; k++)
        hour[k] = (bw_boundary){
            .theta_e = theta_e, .p_e = p_e, .theta_i = theta_i, .p_i = p_i};
}

static bw_status try_at(const bw_follow_place *place, size_t places)
{
    follow.place = place;
    follow.places = places;
    return bw_follow_run(out, &c->assembly, &c->section, &follow, NULL);
}

static void run_at(const bw_follow_place *place, size_t places)
{
    ck_assert_int_eq(try_at(place, places), BW_OK);
}

/* Foam that holds next to no water. */
static void add_foam(double thickness, double mu)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, "foam", 30, 0.04, 1400, mu, mu);
    case_slab(c, BW_LAYER_SOLID, thickness);
}

/* ---- surface coefficients ------------------------------------------------ */

/* Outdoors in calm air of 2 m/s 4 + 4 v and the radiation of surfaces at
 * 10 degC, 4 eps sigma T^3, and 2e-10 (67 + 90 v) for vapour: docs/methods.md
 * (the coefficients of the hourly method, from memory there). 0.13 m2 K/W: ISO
 * 6946 (from memory); for vapour 7e-9 times 2.5 W/(m2 K). */
START_TEST(surfaces_are_those_of_calm_air)
{
    const double grey = 4 * 5.670374419e-8 * 283.15 * 283.15 * 283.15;
    const struct {
        bw_outdoors outdoors;
        double h_e;
    } rows[] = {
        {{.emissivity = 0}, 12 + 0.9 * grey},
        {{.emissivity = 0.5}, 12 + 0.5 * grey},
        {{.has_surface_resistance = true, .surface_resistance = 0.05}, 20}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        bw_follow f = {.hours = 0};
        bw_follow_outdoors(&f, &rows[k].outdoors);
        ck_assert_double_eq_tol(f.h_e, rows[k].h_e, 1e-9);
        ck_assert_double_eq_tol(f.beta_e, 2e-10 * 247, 1e-15);
    }
    bw_follow f = {.hours = 0};
    bw_follow_cavity(&f);
    ck_assert_double_eq_tol(f.h_e, 1 / 0.13, 1e-12);
    ck_assert_double_eq_tol(f.beta_e, 17.5e-9, 1e-20);
    bw_follow_room(&f, &(bw_indoors){.has_surface_resistance = false});
    ck_assert_double_eq_tol(f.h_i, 1 / 0.13, 1e-12);
    ck_assert_double_eq_tol(f.beta_i, 17.5e-9, 1e-20);
    bw_follow_room(&f, &(bw_indoors){.has_surface_resistance = true,
                                     .surface_resistance = 0.25});
    ck_assert_double_eq_tol(f.h_i, 4, 1e-12);
}
END_TEST

/* ---- places ----------------------------------------------------------------
 */

/* Foam of sd 2.5 m, a foil of 4 m, foam of 2 m: once nothing changes any more,
 * every place lies by the resistances on its way, all of it by hand. */
static const struct {
    bw_follow_place place;
    double depth; /* of foam from the outer face, m */
    bool inside;  /* of the foil */
} seen[] = {
    {{.slab = 0, .outer = true}, 0.0, false},
    {{.slab = 0, .within = true, .depth = 0.0002}, 0.0002, false},
    {{.slab = 0, .within = true, .depth = 0.02}, 0.02, false},
    {{.slab = 0, .within = true, .depth = 0.0498}, 0.0498, false},
    {{.slab = 0, .within = true, .depth = 0.05}, 0.05, false},
    {{.slab = 0}, 0.05, false},
    {{.slab = 1, .outer = true}, 0.05, false},
    {{.slab = 1}, 0.05, true},
    {{.slab = 2, .outer = true}, 0.05, true},
    {{.slab = 2, .within = true, .depth = 0.03}, 0.08, true},
    {{.slab = 2}, 0.15, true},
};

START_TEST(every_place_lies_by_the_resistances_on_its_way)
{
    bw_follow_place place[COUNT(seen)];
    air(5, 698, 20, 1169);
    add_foam(0.05, 50);
    add_foil(c, 4);
    add_foam(0.10, 20);
    for (size_t k = 0; k < COUNT(seen); k++)
        place[k] = seen[k].place;
    run_at(place, COUNT(seen));
    const double delta = 2e-10, room = 1 / 17.5e-9;
    const double all = 0.04 + 0.15 / 0.04 + 0.13;
    const double vapour = 1 / (delta * 247) + 8.5 / delta + room;
    for (size_t k = 0; k < COUNT(seen); k++) {
        const double d = seen[k].depth;
        const double sd = d <= 0.05 ? 50 * d : 2.5 + 20 * (d - 0.05);
        const double heat = 0.04 + d / 0.04;
        const double way = 1 / (delta * 247) +
                           (sd + (seen[k].inside ? 4 : 0)) / delta;
        const bw_followed *last = &out[(LONG - 1) * COUNT(seen) + k];
        ck_assert_double_eq_tol(last->theta, 5 + 15 * heat / all, 0.01);
        ck_assert_double_eq_tol(last->p, 698 + (1169 - 698) * way / vapour, 2);
    }
}
END_TEST

START_TEST(a_place_in_no_slab_is_refused)
{
    static const bw_follow_place wrong[] = {
        {.slab = 3}, {.slab = 1, .within = true, .depth = 0.0}};
    air(5, 698, 20, 1169);
    add_foam(0.05, 50);
    add_foil(c, 4);
    add_foam(0.10, 20);
    for (size_t k = 0; k < COUNT(wrong); k++) {
        bw_follow_place place[] = {{.slab = 2}, wrong[k]};
        ck_assert_int_eq(try_at(place, 2), BW_ERR_DOMAIN);
        ck_assert_int_eq(try_at(place, 1), BW_OK);
    }
}
END_TEST

/* ---- the start -------------------------------------------------------------
 */

/* "RH at depths, straight between them", and 80 % where none is told; what the
 * assembly gives goes before. At one temperature p is RH times saturation. */
START_TEST(the_wall_begins_at_the_humidity_told_at_its_depths)
{
    static const double at[] = {0.03, 0.07}, phi[] = {0.4, 0.8};
    static const double depth[] = {0.01, 0.025, 0.04, 0.05, 0.06, 0.09};
    static const double told[] = {0.4, 0.4, 0.5, 0.6, 0.7, 0.8};
    const double saturated = bw_saturation_pressure(10);
    options.grid_refinement = 8;
    follow.hours = 2;
    air(10, 0.6 * saturated, 10, 0.6 * saturated);
    add_foam(0.1, 50);
    for (int way = 0; way < 3; way++) {
        follow.starts = way == 0 ? 2 : 0;
        follow.start_depth = at;
        follow.start_phi = phi;
        c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = way == 2;
        c->layer[0].initial_moisture = 0.55;
        bw_follow_place place[COUNT(depth)];
        for (size_t k = 0; k < COUNT(depth); k++)
            place[k] = (bw_follow_place){.within = true, .depth = depth[k]};
        run_at(place, COUNT(depth));
        for (size_t k = 0; k < COUNT(depth); k++) {
            const double expected = way == 0 ? told[k] : way == 1 ? 0.8 : 0.55;
            ck_assert_double_eq_tol(out[k].p / saturated, expected, 0.004);
            ck_assert_double_eq_tol(out[k].theta, 10, 1e-9);
        }
    }
}
END_TEST

/* Two layers: a depth counts from the outer face of the section. */
START_TEST(depths_of_the_start_count_through_the_layers)
{
    static const double at[] = {0.02, 0.08}, phi[] = {0.3, 0.9};
    static const bw_follow_place place[] = {
        {.slab = 0, .within = true, .depth = 0.01},
        {.slab = 1, .within = true, .depth = 0.01},
        {.slab = 1, .within = true, .depth = 0.05}};
    static const double told[] = {0.3, 0.6, 0.9};
    const double saturated = bw_saturation_pressure(10);
    options.grid_refinement = 8;
    follow.hours = 2;
    follow.starts = 2;
    follow.start_depth = at;
    follow.start_phi = phi;
    air(10, 0.6 * saturated, 10, 0.6 * saturated);
    add_foam(0.04, 50);
    add_foam(0.06, 50);
    run_at(place, COUNT(place));
    for (size_t k = 0; k < COUNT(place); k++)
        ck_assert_double_eq_tol(out[k].p / saturated, told[k], 0.01);
}
END_TEST

/* Straight over the resistances between the air of the first hour. */
START_TEST(the_first_hour_is_of_one_temperature_over_its_resistances)
{
    static const bw_follow_place place[] = {
        {.slab = 0, .outer = true},
        {.slab = 0, .within = true, .depth = 0.05},
        {.slab = 0}};
    static const double depth[] = {0, 0.05, 0.1};
    follow.hours = 2;
    air(0, 400, 20, 1169);
    hour[1].theta_e = -30;
    hour[1].theta_i = 50;
    add_foam(0.1, 50);
    run_at(place, COUNT(place));
    for (size_t k = 0; k < COUNT(place); k++)
        ck_assert_double_eq_tol(
            out[k].theta,
            20 * (0.04 + depth[k] / 0.04) / (0.04 + 0.1 / 0.04 + 0.13), 0.01);
}
END_TEST

/* ---- the hours -------------------------------------------------------------
 */

/* 0.2 m of a good conductor is one capacity, C = 400 kJ/(m2 K), between 25 and
 * 1/0.13 W/(m2 K). The air of both sides goes from 0 to 10 degC within the
 * first hour, straight, and stays: C T' = h (A - T), solved by hand. */
START_TEST(a_capacity_follows_air_that_runs_straight_from_hour_to_hour)
{
    static const bw_follow_place place = {.within = true, .depth = 0.1};
    const double tau = 400e3 / (25 + 1 / 0.13), h = 3600;
    const double first = 10 / h * (h - tau * (1 - exp(-h / tau)));
    air(10, 300, 10, 300);
    hour[0].theta_e = hour[0].theta_i = 0;
    case_material(c, 0, "metal", 2000, 200, 1000, 1e4, 1e4);
    case_slab(c, BW_LAYER_SOLID, 0.2);
    follow.hours = 12;
    run_at(&place, 1);
    ck_assert_double_eq_tol(out[0].theta, 0, 1e-9);
    for (size_t k = 1; k < 12; k++)
        ck_assert_double_eq_tol(
            out[k].theta, 10 - (10 - first) * exp(-h * (double)(k - 1) / tau),
            0.08);
}
END_TEST

/* The same of one side alone: which air is whose. */
START_TEST(each_face_follows_the_air_of_its_own_side)
{
    static const bw_follow_place place[] = {{.slab = 0, .outer = true},
                                            {.slab = 0}};
    const double all = 0.04 + 0.1 / 0.04 + 0.13;
    add_foam(0.1, 50);
    for (int inside = 0; inside < 2; inside++) {
        air(10, 600, 10, 600);
        for (size_t k = 75; k < LONG; k++)
            *(inside ? &hour[k].theta_i : &hour[k].theta_e) = 0;
        run_at(place, COUNT(place));
        const bw_followed *before = &out[74 * 2], *end = &out[(LONG - 1) * 2];
        for (size_t k = 0; k < 2; k++)
            ck_assert_double_eq_tol(before[k].theta, 10, 0.02);
        const double near = 10 * (inside ? 0.13 : 0.04) / all;
        const double far = 10 * (1 - (inside ? 0.04 : 0.13) / all);
        ck_assert_double_eq_tol(end[inside].theta, near, 0.02);
        ck_assert_double_eq_tol(end[1 - inside].theta, far, 0.02);
    }
}
END_TEST

/* Room air that leaks in raises the pressure where it meets the cold, and none
 * does where that is told. */
START_TEST(air_leaks_in_unless_told_not_to)
{
    static const bw_follow_place place = {.slab = 0};
    double p[3];
    air(-5, 321, 20, 1169);
    add_board(c, 0.012, 50);
    case_material(c, 1, "wool", 50, 0.04, 1000, 1, 1);
    case_slab(c, BW_LAYER_SOLID, 0.14);
    add_foil(c, 100);
    for (int way = 0; way < 3; way++) {
        c->assembly.air_leakage = (bw_air_leakage){
            .given = way > 0, .q50 = 5.0 / 3600, .connected_height = 5};
        options.no_air_leakage = way == 2;
        run_at(&place, 1);
        p[way] = out[LONG - 1].p;
    }
    ck_assert_double_gt(p[1], p[0] + 10);
    ck_assert_double_eq(p[2], p[0]);
}
END_TEST

/* ---- progress --------------------------------------------------------------
 */

typedef struct asked {
    size_t calls, stop;
    double share[8];
} asked;

static bool ask(void *payload, double done)
{
    asked *a = payload;
    if (a->calls < COUNT(a->share))
        a->share[a->calls] = done;
    return ++a->calls != a->stop;
}

/* Every 73 hours. */
START_TEST(it_asks_whether_to_go_on)
{
    static const bw_follow_place place = {.slab = 0};
    asked all = {.stop = 0};
    air(5, 698, 20, 1169);
    add_foam(0.05, 50);
    options.progress = ask;
    options.payload = &all;
    run_at(&place, 1);
    ck_assert_uint_eq(all.calls, 3);
    for (size_t k = 0; k < 3; k++)
        ck_assert_double_eq_tol(all.share[k], 73.0 * (double)k / LONG, 1e-12);
    all = (asked){.stop = 2};
    ck_assert_int_eq(try_at(&place, 1), BW_ERR_CANCELLED);
    ck_assert_uint_eq(all.calls, 2);
}
END_TEST

SUITE_AROUND("transient_follow", setup, teardown,
             FACT(surfaces_are_those_of_calm_air),
             FACT(every_place_lies_by_the_resistances_on_its_way),
             FACT(a_place_in_no_slab_is_refused),
             FACT(the_wall_begins_at_the_humidity_told_at_its_depths),
             FACT(depths_of_the_start_count_through_the_layers),
             FACT(the_first_hour_is_of_one_temperature_over_its_resistances),
             FACT(a_capacity_follows_air_that_runs_straight_from_hour_to_hour),
             FACT(each_face_follows_the_air_of_its_own_side),
             FACT(air_leaks_in_unless_told_not_to),
             FACT(it_asks_whether_to_go_on))
