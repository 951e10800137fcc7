/* A junction of one plane board, outdoors on its left and a room on its right:
 * what a room's surface is judged by, what a named place has, and what becomes
 * of it where the wall names it. All of it is known in one dimension: f_Rsi = 1
 * - Rsi / (Rse + d/lambda + Rsi) with the resistances of ISO 13788 [from
 * memory, high] and 0.04 m2 K/W outside; temperatures run straight through
 * resistances, vapour pressures straight through sd. */

#include <math.h>

#include "bothways/air.h"
#include "criteria_case.h"
#include "has_words.h"
#include "junction_case.h"
#include "suite.h"

static const double THICK = 0.1, LAMBDA = 0.13; /* m, W/(m K) */
static const double RSE = 0.04;                 /* m2 K/W */

static criteria_case c;
static drawn d;
static bw_material board;
static bw_drawn_spot spot[2];
static bw_junction_assessment *made;

static void setup(void)
{
    static const double rh[] = {0.0, 0.4, 0.8, 1.0};
    static const double u[] = {0.0, 0.08, 0.16, 0.30};
    case_make(&c);
    draw_start(&d);
    board = case_material("board", "wood", 450, LAMBDA, 50, true);
    board.wood_kind = BW_SOLID_WOOD;
    board.sorption = (bw_curve){
        .count = 4, .x = rh, .y = u, .source = "test", .note = ""};
    draw_box(&d, LAMBDA, 0, 1e3 * THICK, 0, 200);
    d.material[0].name = "board";
    d.material[0].material = &board;
    d.material[0].mu_dry = d.material[0].mu_wet = 50.0;
    draw_space(&d, 0, -100, 0, 0, 200);
    draw_space(&d, 1, 1e3 * THICK, 1e3 * THICK + 100, 0, 200);
    draw_cut(&d, false, false, true, true);
    d.environment[1].indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 20.0, .relative_humidity = 0.4};
    spot[0] = (bw_drawn_spot){.name = "middle", .x = 0.05, .y = 0.1};
    spot[1] = (bw_drawn_spot){.name = "nowhere", .x = 0.15, .y = 0.1};
    d.junction.spot = spot;
    d.junction.id = "plane";
    d.junction.title = "Plane board";
    made = NULL;
}

static void teardown(void)
{
    bw_junction_assessment_free(made);
    draw_end(&d);
    case_free(&c);
}

static const bw_junction_assessment *assess(const bw_hour_options *hours)
{
    bw_error err = {0};
    bw_junction_assessment_free(made);
    made = NULL;
    const bw_status status = bw_junction_assess_hours(
        &made, &d.junction, &c.climate, NULL, hours, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return made;
}

static const bw_criterion *row_of(const char *place, const char *name)
{
    for (size_t i = 0; i < made->criterion_count; i++)
        if (strcmp(made->criterion[i].section, place) == 0 &&
            strcmp(made->criterion[i].criterion, name) == 0)
            return &made->criterion[i];
    return NULL;
}

static double factor(double rsi)
{
    return 1.0 - rsi / (RSE + THICK / LAMBDA + rsi);
}

/* 0.25 against mould, 0.35 in corners, 1.0 behind cupboards; what a file states
 * counts for the first, and for the others where it is more. */
START_TEST(a_plane_surface_has_the_factor_of_its_resistances)
{
    static const struct {
        double stated; /* 0: none */
        double rsi[3];
    } cases[] = {{0.0, {0.25, 0.35, 1.0}},
                 {0.13, {0.13, 0.35, 1.0}},
                 {0.5, {0.5, 0.5, 1.0}},
                 {1.5, {1.5, 1.5, 1.5}}};
    static const char *const where[] = {"open-wall", "corner",
                                        "behind-cupboard"};
    for (size_t i = 0; i < COUNT(cases); i++) {
        d.environment[1].has_surface_resistance = cases[i].stated > 0.0;
        d.environment[1].surface_resistance = cases[i].stated;
        assess(NULL);
        ck_assert_uint_eq(made->room_count, 1);
        ck_assert_uint_eq(made->room[0].environment, 1);
        for (size_t w = 0; w < 3; w++) {
            const bw_surface_result *s = &made->room[0].surface[w];
            ck_assert_str_eq(s->where, where[w]);
            ck_assert_double_eq(s->rsi, cases[i].rsi[w]);
            ck_assert_double_eq_tol(s->frsi, factor(cases[i].rsi[w]), 1e-6);
            /* January: -1 degC outside */
            ck_assert_double_eq_tol(s->month[0].theta_si,
                                    -1.0 + 21.0 * factor(cases[i].rsi[w]),
                                    1e-4);
            ck_assert_double_eq(s->month[0].theta_e, case_theta_e[0]);
        }
        ck_assert_double_eq_tol(row_of("room", "surface-mould")->value,
                                factor(cases[i].rsi[0]), 1e-6);
        ck_assert_double_eq_tol(row_of("room", "surface-mould-cupboard")->value,
                                factor(cases[i].rsi[2]), 1e-6);
    }
}
END_TEST

/* In July it is 19 degC outside and 10 in the room: of a factor that is the
 * same the surface is warmer than the room. */
START_TEST(the_surface_of_a_cooled_room_lies_between_both_airs)
{
    d.environment[1].indoors.temperature = 10.0;
    assess(NULL);
    const bw_surface_month *july = &made->room[0].surface[0].month[6];
    ck_assert_double_eq_tol(july->theta_si, 19.0 - 9.0 * factor(0.25), 1e-4);
}
END_TEST

/* Two rooms of one temperature with a passage of outdoor air between their two
 * boards, which the file names in the middle: the same surface, each with its
 * own air. */
START_TEST(every_room_has_the_surface_and_its_own_air)
{
    const bw_environment outside = d.environment[0];
    d.environment[0] = d.environment[2] = d.environment[1];
    d.environment[0].id = "left";
    d.environment[2].id = "right";
    d.environment[2].indoors.relative_humidity = 0.5;
    d.environment[1] = outside;
    d.junction.environment_count = 3;
    d.junction.space_count = 0;
    d.filling[1] = d.filling[0];
    d.filling[1].at = in_mm(200, 300, 0, 200);
    d.junction.filling_count = 2;
    draw_space(&d, 0, -100, 0, 0, 200);
    draw_space(&d, 1, 100, 200, 0, 200);
    draw_space(&d, 2, 300, 400, 0, 200);
    assess(NULL);
    ck_assert_uint_eq(made->room_count, 2);
    for (size_t r = 0; r < 2; r++) {
        const bw_surface_month *january = &made->room[r].surface[0].month[0];
        ck_assert_uint_eq(made->room[r].environment, 2 * r);
        ck_assert_double_eq_tol(january->theta_si, -1.0 + 21.0 * factor(0.25),
                                1e-4);
        ck_assert_double_eq_tol(january->rh_si,
                                (r == 0 ? 0.4 : 0.5) *
                                    bw_saturation_pressure(20.0) /
                                    bw_saturation_pressure(january->theta_si),
                                1e-6);
        ck_assert_double_eq_tol(
            row_of(r == 0 ? "left" : "right", "surface-mould")->value,
            factor(0.25), 1e-5);
    }
}
END_TEST

START_TEST(a_named_place_has_what_lies_straight_between_both_sides)
{
    d.junction.spot_count = 2;
    assess(NULL);
    ck_assert(made->water.ran);
    ck_assert_uint_eq(made->spot_count, 2);
    const bw_junction_spot *in = &made->spot[0], *out = &made->spot[1];
    ck_assert_ptr_eq(in->material, &board);
    ck_assert(in->has_rh && in->has_moisture);
    for (size_t m = 0; m < BW_MONTHS; m++) {
        const double e = case_theta_e[m];
        const double p_e = bw_vapour_pressure(e, case_phi_e[m], BW_OVER_ICE);
        const double p_i = 0.4 * bw_saturation_pressure(20.0);
        const double r = RSE + 0.05 / LAMBDA;
        const double theta = e + (20.0 - e) * r / (r + 0.05 / LAMBDA + 0.25);
        ck_assert_double_eq_tol(in->theta[m], theta, 0.01);
        const double phi = 0.5 * (p_e + p_i) / bw_saturation_pressure(theta);
        ck_assert_double_eq_tol(in->rh[m], phi, 0.002);
        ck_assert_double_eq_tol(in->moisture[m], 0.2 * in->rh[m], 1e-12);
    }
    ck_assert(out->material == NULL && !out->has_rh && !out->has_moisture);
    board.wood_kind = BW_NOT_WOOD;
    assess(NULL);
    ck_assert(made->spot[0].has_rh && !made->spot[0].has_moisture);
    board.wood_kind = BW_SOLID_WOOD;
    board.sorption.count = 2; /* two points are a line, one is none */
    ck_assert(assess(NULL)->spot[0].has_moisture);
    board.sorption.count = 1;
    ck_assert(!assess(NULL)->spot[0].has_moisture);
}
END_TEST

/* Months with the other choice of mu are computed where there is another. */
START_TEST(the_other_mu_is_tried_where_two_are_known)
{
    bw_drawn_film film = {
        .name = "film", .material = &board, .sd_dry = 2.0, .sd_wet = 2.0};
    static const double rh[] = {0.0, 1.0}, sd[] = {2.0, 1.0};
    const bw_curve curve = {
        .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
    ck_assert(assess(NULL)->water.ran && !made->water_bound.ran);
    d.material[0].mu_wet = 25.0;
    ck_assert(assess(NULL)->water_bound.ran);
    d.material[0].mu_wet = 50.0;
    d.junction.film = &film;
    d.junction.film_count = 1;
    ck_assert(!assess(NULL)->water_bound.ran);
    film.sd_wet = 1.0;
    ck_assert(assess(NULL)->water_bound.ran);
    film.sd_curve = &curve; /* has its own answer at every humidity */
    ck_assert(!assess(NULL)->water_bound.ran);
}
END_TEST

/* What is within is never held by months, and the words say why. */
START_TEST(months_leave_what_is_within_not_assessed)
{
    assess(NULL);
    const bw_criterion *inside = row_of("junction", "junction-inside");
    ck_assert(inside->decides);
    ck_assert_int_eq(inside->verdict, BW_NOT_ASSESSED);
    has(inside->reason, "vapour by months alone was computed");
    ck_assert_int_eq(made->surface_verdict, BW_HOLDS);
    ck_assert_int_eq(made->verdict, BW_NOT_ASSESSED);
    NAMES(made->verdict_reason, "The surface holds",
          "by months no water stands within");
    ck_assert_str_eq(made->profile, bw_profile_default()->name);
}
END_TEST

/* Metal of 1 mm and 50 W/(m K) has f_Rsi 0.04 / 0.29 = 0.14: 60 % RH and 20
 * degC condense on it at -1 degC. */
START_TEST(a_surface_that_fails_says_so_first)
{
    d.material[0].conductivity = 50.0;
    d.environment[1].indoors.relative_humidity = 0.6;
    assess(NULL);
    ck_assert_int_eq(made->surface_verdict, BW_FAILS);
    ck_assert_int_eq(made->verdict, BW_FAILS);
    ck_assert_ptr_null(strstr(made->verdict_reason, "The surface holds"));
    ck_assert_int_eq(row_of("room", "surface-mould")->verdict, BW_FAILS);
}
END_TEST

/* 5 degC with the vapour of class 5 is more than the air holds: of such a room
 * nothing is judged, by months or by the hour. */
START_TEST(a_room_that_cannot_be_is_not_judged)
{
    d.environment[1].indoors = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .temperature = 5.0, .humidity_class = 5};
    const bw_hour_options hours = {0};
    for (int asked = 0; asked < 2; asked++) {
        assess(asked == 1 ? &hours : NULL);
        const char *why = made->room[0].room_reason;
        has(why, "more than air holds");
        ck_assert_ptr_null(row_of("room", "surface-mould"));
        size_t count = 0;
        for (size_t i = 0; i < made->criterion_count; i++)
            count += strcmp(made->criterion[i].section, "room") == 0;
        ck_assert_uint_eq(count, 1);
        const bw_criterion *air = row_of("room", "indoor-air");
        ck_assert_int_eq(air->verdict, BW_NOT_ASSESSED);
        ck_assert_str_eq(air->reason, why);
        ck_assert(!made->water.ran && !made->water_bound.ran);
        ck_assert_str_eq(made->water.reason, why);
        ck_assert_int_eq(made->hours.asked, asked == 1);
        ck_assert(!made->hours.ran);
        ck_assert_str_eq(made->hours.reason, asked == 1 ? why : "");
        has(row_of("junction", "junction-inside")->reason, why);
        ck_assert_int_eq(made->surface_verdict, BW_NOT_ASSESSED);
        ck_assert_int_eq(made->verdict, BW_NOT_ASSESSED);
    }
}
END_TEST

/* ---- where a wall names it ----------------------------------------------- */

static const bw_criterion *junction_row(const bw_assessment *a, const char *id)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].criterion, "junction") == 0 &&
            strcmp(a->criterion[i].section, id) == 0)
            return &a->criterion[i];
    return NULL;
}

/* Its verdict is a row of the wall, which is no better. */
START_TEST(a_junction_is_a_row_of_the_wall_that_names_it)
{
    bw_junction failing = d.junction;
    bw_drawn_material metal = d.material[0];
    bw_environment humid[2] = {d.environment[0], d.environment[1]};
    metal.conductivity = 50.0;
    humid[1].indoors.relative_humidity = 0.6;
    failing.id = "cold";
    failing.title = "Cold metal";
    failing.material = &metal;
    failing.environment = humid;
    const bw_named_junction named[2] = {{"a.xml", 1, &d.junction},
                                        {"b.xml", 2, &failing}};
    c.material[CASE_FOIL].sd = case_value(100.0);
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.material[CASE_SHEATHING].mould_class = BW_MOULD_RESISTANT;
    c.assembly.junction = named;
    static const bw_verdict all[] = {BW_HOLDS, BW_NOT_ASSESSED, BW_FAILS};
    for (size_t count = 0; count < 3; count++) {
        c.assembly.junction_count = count;
        bw_assessment *a = case_steady(&c);
        ck_assert_uint_eq(a->junction_count, count);
        ck_assert_int_eq(a->verdict, all[count]);
        for (size_t i = 0; i < count; i++) {
            ck_assert_ptr_eq(a->junction[i]->junction, named[i].junction);
            const bw_criterion *row = junction_row(a, named[i].junction->id);
            ck_assert(row->decides);
            ck_assert_int_eq(row->verdict, a->junction[i]->verdict);
            ck_assert_int_eq(row->outcome, i == 0 ? BW_NOT_ASSESSED : BW_FAILS);
            has(row->reason, named[i].junction->title);
            ck_assert_int_ne(row->reason[strlen(row->reason) - 1], '.');
        }
        bw_assessment_free(a);
    }
}
END_TEST

SUITE_AROUND("junction_rooms", setup, teardown,
             FACT(a_plane_surface_has_the_factor_of_its_resistances),
             FACT(the_surface_of_a_cooled_room_lies_between_both_airs),
             FACT(every_room_has_the_surface_and_its_own_air),
             FACT(a_named_place_has_what_lies_straight_between_both_sides),
             FACT(the_other_mu_is_tried_where_two_are_known),
             FACT(months_leave_what_is_within_not_assessed),
             FACT(a_surface_that_fails_says_so_first),
             FACT(a_room_that_cannot_be_is_not_judged),
             FACT(a_junction_is_a_row_of_the_wall_that_names_it))
