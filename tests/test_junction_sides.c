/* The weather at the faces of a drawing, and what its hours do not see: which
 * faces sun and rain strike, what a face has that they do not, a face behind a
 * ventilated cladding, each reason by itself. */

#include <math.h>

#include "bothways/geography.h"
#include "hour_leaks.h"
#include "hour_sides.h"
#include "junction_plan.h"
#include "suite.h"
#include "transient_case.h"

static transient_case *c;
static plan p;

static void start(void)
{
    c = case_new();
}

static void end(void)
{
    bw_arena_release(&p.arena);
    free(c);
}

/* A block of one board, outside on the sides that are said, the room on the
 * others. */
static void draw(double wide, double high, const bool outside[BW_EDGES])
{
    plan_start(&p, 2, 2);
    p.x[1] = 0.3 * wide;
    p.x[2] = wide;
    p.y[1] = 0.6 * high;
    p.y[2] = high;
    for (size_t e = 0; e < BW_EDGES; e++)
        p.rim[e] = outside[e] ? 0 : 1;
    p.material[0] = (bw_drawn_material){.name = "board",
                                        .material = &c->material[2],
                                        .conductivity = 0.13,
                                        .mu_dry = 50,
                                        .mu_wet = 50};
    plan_make(&p);
    p.environment[1].indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 21, .relative_humidity = 0.55};
    p.junction.id = p.junction.title = p.junction.remark = "";
    p.junction.kind = "outer-corner";
    p.junction.outdoors = c->assembly.outdoors;
}

static bw_status make(bw_hour_sides *sides)
{
    return bw_hour_sides_make(sides, &p.arena, &p.raster, &c->climate, NULL);
}

/* ---- in the open ----------------------------------------------------------
 */

/* Most of the outer faces look the first way; the rest the second. */
static const struct {
    double wide, high;
    bw_cell_side most, least;
} ways[] = {
    {0.5, 0.2, BW_EDGE_BELOW, BW_EDGE_LEFT},
    {0.5, 0.2, BW_EDGE_ABOVE, BW_EDGE_RIGHT},
    {0.2, 0.5, BW_EDGE_LEFT, BW_EDGE_ABOVE},
    {0.2, 0.5, BW_EDGE_RIGHT, BW_EDGE_BELOW},
};

START_TEST(sun_and_rain_strike_the_faces_that_look_as_most_do)
{
    bool outside[BW_EDGES] = {false};
    bw_hour_sides sides;
    outside[ways[_i].most] = outside[ways[_i].least] = true;
    draw(ways[_i].wide, ways[_i].high, outside);
    ck_assert_int_eq(make(&sides), BW_OK);
    ck_assert_uint_eq(sides.count, 3);
    ck_assert(sides.turned && sides.weather && !sides.sheltered);
    ck_assert_double_eq(sides.pressure, 101325);
    for (size_t f = 0; f < p.raster.face_count; f++) {
        const bw_cell_side side = p.raster.face[f].side;
        ck_assert_uint_eq(sides.side[f], side == ways[_i].most    ? 2
                                         : side == ways[_i].least ? 0
                                                                  : 1);
    }
    double sun = 0, rain = 0;
    for (size_t h = 0; h < BW_YEAR_HOURS; h++) {
        const bw_hourly *in_it = &sides.year[2]->hour[h];
        ck_assert_double_eq(sides.year[0]->hour[h].rain, 0.0);
        sun += fmax(in_it->gain, 0.0);
        ck_assert_double_le(sides.year[0]->hour[h].gain, 1e-9);
        rain += in_it->rain;
        ck_assert_double_eq(sides.year[0]->hour[h].theta_e, in_it->theta_e);
        ck_assert_double_eq(sides.year[1]->hour[h].theta_i, 21.0);
    }
    ck_assert_double_gt(sun, 0.0);
    ck_assert_double_gt(rain, 0.0);
}
END_TEST

START_TEST(faces_that_all_look_one_way_are_not_turned)
{
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    bw_hour_sides sides;
    draw(0.5, 0.2, below);
    p.junction.outdoors.has_facing = false;
    p.junction.outdoors.has_solar_absorptance = false;
    p.junction.outdoors.driving_rain = BW_RAIN_NONE;
    ck_assert_int_eq(make(&sides), BW_OK);
    ck_assert(!sides.turned && !sides.weather);
    bw_sheet_hour hour;
    bw_hour_sides_at(&hour, &sides, 77, 3600.0);
    ck_assert_uint_eq(hour.sides, 3);
    ck_assert_int_eq(hour.hour, 77);
    ck_assert_double_eq(hour.from, 3600.0);
    for (size_t k = 0; k < 3; k++) {
        ck_assert_ptr_eq(hour.year[k], sides.year[k]);
        ck_assert_int_eq(hour.room[k], k == 1);
    }
}
END_TEST

/* Each by itself: a resistance is one over what is exchanged. */
START_TEST(a_resistance_is_that_of_its_own_environment)
{
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    bw_hour_sides sides;
    draw(0.5, 0.2, below);
    for (size_t e = 0; e < 2; e++) {
        p.environment[e].has_surface_resistance = _i == (int)e || _i == 2;
        p.environment[e].surface_resistance = e == 0 ? 0.10 : 0.40;
    }
    ck_assert_int_eq(make(&sides), BW_OK);
    for (size_t h = 0; h < BW_YEAR_HOURS; h += 731)
        for (size_t k = 0; k < 3; k += 2)
            ck_assert_int_eq(fabs(sides.year[k]->hour[h].h_e - 10.0) < 1e-9,
                             _i != 1);
    ck_assert_int_eq(fabs(sides.year[1]->h_i - 2.5) < 1e-9, _i != 0);
}
END_TEST

START_TEST(a_drawing_without_a_room_or_with_too_many_airs_is_refused)
{
    enum { MANY = BW_SHEET_SIDES };
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    bw_environment many[MANY];
    bw_hour_sides sides;
    draw(0.5, 0.2, below);
    for (size_t e = 0; e < MANY; e++)
        many[e] = p.environment[e == 0 ? 0 : 1];
    p.junction.environment = many;
    p.junction.environment_count = MANY - 1;
    ck_assert_int_eq(make(&sides), BW_OK);
    ck_assert_uint_eq(sides.count, MANY);
    p.junction.environment_count = MANY;
    ck_assert_int_eq(make(&sides), BW_ERR_DOMAIN);
    p.junction.environment = p.environment;
    p.junction.environment_count = 1;
    ck_assert_int_eq(make(&sides), BW_ERR_DOMAIN);
}
END_TEST

/* ---- behind a ventilated cladding -----------------------------------------
 */

static bw_assembly clad;
static bw_layer layer[3];

/* Boards, a cavity, a board. */
static void make_clad(bw_ventilation cavity)
{
    for (size_t k = 0; k < 3; k++)
        layer[k] = (bw_layer){.id = "a",
                              .name = "a",
                              .kind = k == 1 ? BW_LAYER_CAVITY : BW_LAYER_SOLID,
                              .material = &c->material[k == 1 ? 1 : 2],
                              .thickness = k == 1 ? 0.04 : 0.02,
                              .ventilation = k == 1 ? cavity : BW_VENT_NONE};
    clad = c->assembly;
    clad.layer = layer;
    clad.layer_count = 3;
    clad.outdoors.has_facing = clad.outdoors.has_solar_absorptance = false;
    clad.outdoors.driving_rain = BW_RAIN_NONE;
}

/* What its own simulation has at the face the drawing begins at: each row is of
 * an hour's end, from October on. */
START_TEST(a_face_behind_a_cladding_has_the_hours_of_the_walls_own)
{
    const bool corner[BW_EDGES] = {
        [BW_EDGE_BELOW] = true, [BW_EDGE_LEFT] = true};
    const bw_assembly *walls[] = {&clad};
    const bw_section_options all = {.keep_all_layers = true};
    const bw_transient_options options = {.max_years = 3,
                                          .start_month = 9,
                                          .start_month_given = true,
                                          .keep_hours = true};
    bw_sections *sections = NULL;
    bw_geography geography;
    bw_transient_result r;
    bw_hour_sides sides;
    make_clad(BW_VENT_WELL);
    draw(0.5, 0.2, corner);
    p.junction.outdoors = clad.outdoors;
    p.junction.wall = walls;
    p.junction.wall_count = 1;
    ck_assert_int_eq(make(&sides), BW_OK);
    ck_assert(sides.sheltered && !sides.weather);
    for (size_t f = 0; f < p.raster.face_count; f++)
        ck_assert_uint_eq(sides.side[f],
                          p.raster.face[f].environment == 0 ? 2 : 1);
    ck_assert_int_eq(bw_sections_make(&sections, &clad, &all, NULL), BW_OK);
    bw_geography_find(&geography, &clad, &sections->section[0]);
    ck_assert_int_eq(bw_transient(&r, &clad, &sections->section[0], &c->climate,
                                  &options, NULL),
                     BW_OK);
    for (int h = 0; h < BW_YEAR_HOURS; h++) {
        const bw_hour_row *row =
            &r.hour[(size_t)h * r.monitor_count + geography.first];
        const bw_hourly *has =
            &sides.year[2]->hour[(273 * 24 + h + 1) % BW_YEAR_HOURS];
        ck_assert_double_eq(has->theta_e, row->theta);
        ck_assert_double_eq_tol(
            has->p_e, row->phi * bw_saturation_pressure(row->theta), 1e-9);
        ck_assert_double_eq(has->gain, 0.0);
        ck_assert_double_eq(has->rain, 0.0);
        ck_assert_double_eq(has->rain_leak, 0.0);
    }
    bw_transient_free(&r);
    bw_sections_free(sections);
}
END_TEST

START_TEST(walls_of_which_one_is_clad_are_refused)
{
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    const bw_assembly *walls[] = {&c->assembly, &clad};
    bw_hour_sides sides;
    make_clad(BW_VENT_WELL);
    c->assembly.layer_count = 1;
    draw(0.5, 0.2, below);
    p.junction.wall = walls;
    p.junction.wall_count = 2;
    ck_assert_int_eq(make(&sides), BW_ERR_DOMAIN);
    make_clad(BW_VENT_SLIGHT); /* that is none */
    ck_assert_int_eq(make(&sides), BW_OK);
    ck_assert(!sides.sheltered);
}
END_TEST

/* ---- what is not seen -----------------------------------------------------
 */

/* Nothing is unseen of a plane wall; each change of it alone is one reason. */
typedef void change(bool on);

static bw_assembly plane;
static bw_layer plane_layer;
static bw_drawn_leak leak;
static bw_drawn_air air;
static bw_hour_sides seen;

static void is_turned(bool on)
{
    seen.turned = on;
}

static void is_window(bool on)
{
    p.junction.kind = on ? "window-sill" : "window";
}

static void is_joist(bool on)
{
    p.junction.kind = on ? "joist-end" : "stud";
}

static void is_drawing(bool on)
{
    p.junction.kind = on ? "drawing" : "drawings";
}

static void air_is_all(bool on)
{
    p.junction.air_count = 1;
    air.flow = on ? 1e-5 : 0.0;
    air.all = true;
}

static void air_is_safe(bool on)
{
    air_is_all(true);
    air.all = on;
}

static void wall_leaks_air(bool on)
{
    plane.air_leakage.given = on;
}

static void wall_leaks_rain(bool on)
{
    plane.rain_leak.given = true;
    plane.rain_leak.fraction = on ? 0.01 : 0.0;
}

static void layer_is_wet(bool on)
{
    plane_layer.has_initial_moisture = on;
}

static void stud_is_wet(bool on)
{
    plane_layer.framing.has_initial_moisture = on;
}

static void has_air(bool on)
{
    p.material[0].air = on;
}

static void has_soil(bool on)
{
    p.environment[0].kind = on ? BW_ENVIRONMENT_GROUND : BW_ENVIRONMENT_OUTSIDE;
}

static void is_balcony(bool on)
{
    p.junction.kind = on ? "balcony" : "partition";
}

static const struct {
    change *make;
    const char *says;
} reasons[] = {
    {is_turned, "another way than most"}, {is_window, "joint of the frame"},
    {is_joist, "past the end"},           {is_drawing, "through joints"},
    {air_is_all, "comes as warm"},        {air_is_safe, "comes as warm"},
    {wall_leaks_air, "leaking air"},      {wall_leaks_rain, "leaking rain"},
    {layer_is_wet, "initial moisture"},   {stud_is_wet, "initial moisture"},
    {has_air, "layers of air"},           {has_soil, "the soil"},
    {is_balcony, "on the slab"},
};

static void draw_plane(void)
{
    static const bw_assembly *walls[] = {&plane};
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    draw(0.5, 0.2, below);
    p.rim[BW_EDGE_LEFT] = p.rim[BW_EDGE_RIGHT] = NOWHERE;
    plan_make(&p);
    plane = c->assembly;
    plane_layer = c->layer[0];
    plane.layer = &plane_layer;
    plane.layer_count = 1;
    leak = (bw_drawn_leak){.name = "a", .wall = -1};
    air = (bw_drawn_air){.name = "a", .at = {0.1, 0.2, 0.1, 0.2}};
    seen = (bw_hour_sides){.sheltered = false};
    p.junction.kind = "stud";
    p.junction.wall = walls;
    p.junction.wall_count = 1;
    p.junction.leak = &leak;
    p.junction.air = &air;
}

START_TEST(each_thing_that_is_not_seen_is_a_reason_of_its_own)
{
    const char *unseen[BW_HOUR_UNSEEN];
    draw_plane();
    ck_assert_uint_eq(bw_hour_unseen(unseen, &seen, &p.raster), 0);
    reasons[_i].make(true);
    ck_assert_uint_eq(bw_hour_unseen(unseen, &seen, &p.raster), 1);
    ck_assert_ptr_nonnull(strstr(unseen[0], reasons[_i].says));
    reasons[_i].make(false);
    ck_assert_uint_eq(bw_hour_unseen(unseen, &seen, &p.raster), 0);
}
END_TEST

/* Of rain and air through joints what is not stated; a part of none, or a
 * wall's own, states nothing. */
static const struct {
    double rain, air;
    long wall;
    const char *says, *not ;
} joints[] = {
    {0.0, 0.0, -1, "and", "only"},       {0.1, 0.0, -1, "air", "rain"},
    {0.0, 1e-5, -1, "rain", "air"},      {0.1, 1e-5, -1, NULL, NULL},
    {0.1, 0.0, 0, "rain and air", "no"},
};

START_TEST(joints_want_rain_and_air_to_be_stated)
{
    const char *unseen[BW_HOUR_UNSEEN];
    draw_plane();
    p.junction.kind = "window-jamb";
    p.junction.leak_count = p.junction.air_count = 1;
    leak.fraction = joints[_i].rain;
    leak.wall = joints[_i].wall;
    air.flow = joints[_i].air;
    const size_t count = bw_hour_unseen(unseen, &seen, &p.raster);
    ck_assert_uint_eq(count, joints[_i].says != NULL);
    if (count == 0)
        return;
    ck_assert_ptr_nonnull(strstr(unseen[0], joints[_i].says));
    ck_assert_ptr_null(strstr(unseen[0], joints[_i].not ));
}
END_TEST

/* Air is past the end of a joist where the spot of its end lies in its place;
 * on its edge, too. */
START_TEST(air_past_the_end_lies_where_the_end_does)
{
    const char *unseen[BW_HOUR_UNSEEN];
    static const double at[][2] = {{0.1, 0.1},   {0.2, 0.2},  {0.15, 0.1},
                                   {0.09, 0.15}, {0.21, 0.1}, {0.1, 0.09},
                                   {0.1, 0.21}};
    draw_plane();
    p.junction.kind = "joist-end";
    p.junction.air_count = 1;
    air.flow = 1e-5;
    for (size_t k = 0; k < COUNT(at); k++) {
        const bw_drawn_spot spot = {"end of the joist", at[k][0], at[k][1], 0};
        p.junction.spot = &spot;
        p.junction.spot_count = 1;
        ck_assert_uint_eq(bw_hour_unseen(unseen, &seen, &p.raster), k >= 3);
    }
    p.junction.spot_count = 0;
}
END_TEST

START_TEST(a_corner_of_the_room_is_told_of)
{
    const bool below[BW_EDGES] = {[BW_EDGE_BELOW] = true};
    const char *unseen[BW_HOUR_UNSEEN];
    seen = (bw_hour_sides){.sheltered = false};
    draw(0.5, 0.2, below);
    ck_assert_uint_eq(bw_hour_unseen(unseen, &seen, &p.raster), 1);
    ck_assert_ptr_nonnull(strstr(unseen[0], "corner of the room"));
}
END_TEST

SUITE_AROUND("junction_sides", start, end,
             EACH(sun_and_rain_strike_the_faces_that_look_as_most_do,
                  COUNT(ways)),
             FACT(faces_that_all_look_one_way_are_not_turned),
             EACH(a_resistance_is_that_of_its_own_environment, 3),
             FACT(a_drawing_without_a_room_or_with_too_many_airs_is_refused),
             FACT(a_face_behind_a_cladding_has_the_hours_of_the_walls_own),
             FACT(walls_of_which_one_is_clad_are_refused),
             EACH(each_thing_that_is_not_seen_is_a_reason_of_its_own,
                  COUNT(reasons)),
             EACH(joints_want_rain_and_air_to_be_stated, COUNT(joints)),
             FACT(air_past_the_end_lies_where_the_end_does),
             FACT(a_corner_of_the_room_is_told_of))
