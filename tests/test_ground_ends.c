/* Soil against a face: a year whose coldest day is not the first, the words of
 * it, what keeps its water out and what does not, and what stays with a layer
 * that moves. The course is that of periodic conduction in a half-space
 * (Carslaw and Jaeger 2.6); 20 m of sd are the estimate of docs/methods.md;
 * sentences are the program's own (regression values as to wording). */

#include <math.h>
#include <string.h>

#include "beyond.h"
#include "bothways/air.h"
#include "properties.h"
#include "suite.h"

static const double PI = 3.14159265358979323846;

static bw_arena arena;
static bw_material board, sheet;
static bw_layer layer[3];
static bw_assembly wall;

static bw_property known(double value)
{
    return (bw_property){.known = true, .value = value};
}

static void setup(void)
{
    arena = (bw_arena){0};
    board = sheet = bw_material_unknown();
    board.mu_dry = known(10.0);
    sheet.sd = known(20.0);
    sheet.mould_class = BW_MOULD_MEDIUM_RESISTANT;
    sheet.hygroscopic = sheet.absorbs_condensate = false;
    layer[0] = (bw_layer){.id = "out",
                          .name = "Outer",
                          .kind = BW_LAYER_SOLID,
                          .material = &board,
                          .thickness = 0.1};
    layer[1] = (bw_layer){.id = "tank",
                          .name = "Sheet",
                          .kind = BW_LAYER_MEMBRANE,
                          .material = &sheet};
    layer[2] = (bw_layer){.id = "in",
                          .name = "Inner",
                          .kind = BW_LAYER_SOLID,
                          .material = &board,
                          .thickness = 0.1};
    wall = (bw_assembly){
        .layer = layer,
        .layer_count = 3,
        .beyond = {&bw_beyond_ground, {1.25, 1.0, 0.95, 1.0}},
        .indoors = {.kind = BW_INDOOR_RH, .temperature = 20.0}};
}

static void teardown(void)
{
    bw_arena_release(&arena);
}

/* ---- the year ---- */

static bw_boundary at(const bw_beyond *beyond, const bw_climate *climate,
                      double part)
{
    bw_boundary b = {0};
    const bw_moments one = {&b, 0, 1, 1, part};
    bw_beyond_ground.moments(&one, beyond, climate);
    return b;
}

static const double coldest[] = {0.0, 0.07, 0.25, 0.6, 0.9};

START_TEST(the_swing_follows_the_air_whenever_it_is_coldest)
{
    static const double conductivity[] = {1.5, 2.0, 3.5},
                        capacity[] = {3.0e6, 2.0e6, 2.0e6};
    bw_climate c = {.file = "test"};
    for (int m = 0; m < BW_MONTHS; m++)
        c.month[m].temperature =
            9.0 - 7.0 * cos(2.0 * PI * ((m + 0.5) / 12.0 - coldest[_i]));
    for (int soil = 0; soil < 3; soil++) {
        const double delta = sqrt(3.15e7 * conductivity[soil] /
                                  (PI * capacity[soil]));
        const bw_beyond in = {&bw_beyond_ground, {1.7, soil, 0.8, -1.0}};
        for (double t = 0.0; t < 1.0; t += 0.037) {
            const double theta = 9.0 - 7.0 * exp(-1.7 / delta) *
                                           cos(2.0 * PI * (t - coldest[_i]) -
                                               1.7 / delta);
            const bw_boundary b = at(&in, &c, t);
            ck_assert_double_eq_tol(b.theta_e, theta, 1e-9);
            ck_assert_double_eq_tol(b.p_e, 0.8 * bw_saturation_pressure(theta),
                                    1e-6);
        }
    }
}
END_TEST

/* The column, where every month has it: straight between the middles. */
START_TEST(a_column_runs_straight_round_the_year)
{
    bw_climate c = {.file = "test"};
    for (int m = 0; m < BW_MONTHS; m++) {
        c.month[m].temperature = 10.0;
        c.month[m].ground_temperature = m * m;
        c.month[m].has_ground = true;
    }
    const bw_beyond in = {&bw_beyond_ground, {1.0, 0.0, 1.0, -1.0}};
    ck_assert_double_eq_tol(at(&in, &c, 0.5 / 12.0).theta_e, 0.0, 1e-9);
    ck_assert_double_eq_tol(at(&in, &c, 4.5 / 12.0).theta_e, 16.0, 1e-9);
    ck_assert_double_eq_tol(at(&in, &c, 4.75 / 12.0).theta_e, 18.25, 1e-9);
    ck_assert_double_eq_tol(at(&in, &c, 11.5 / 12.0).theta_e, 121.0, 1e-9);
    ck_assert_double_eq_tol(at(&in, &c, 0.0).theta_e, 60.5, 1e-9);
    ck_assert_double_eq_tol(at(&in, &c, 0.25 / 12.0).theta_e, 30.25, 1e-9);
    c.month[6].has_ground = false; /* then the rule: nothing swings */
    ck_assert_double_eq_tol(at(&in, &c, 0.3).theta_e, 10.0, 1e-9);
}
END_TEST

/* ---- words ---- */

static const struct {
    double value[4];
    const char *words;
} said[] = {
    {{1.25, 1, 0.95, 1},
     "soil (sand or gravel), 1.25 m below its surface, its air at 95 % "
     "relative humidity, its water kept out by tank"},
    {{0.123456789, 0, 1.0, 0},
     "soil (clay or silt), 0.123456789 m below its surface, its air at 100 % "
     "relative humidity, its water kept out by out"},
    {{3, 2, 0.5, -1},
     "soil (rock), 3 m below its surface, its air at 50 % relative humidity, "
     "nothing stated to keep its water out"},
    {{3, 2, 0.5, 3},
     "soil (rock), 3 m below its surface, its air at 50 % relative humidity, "
     "nothing stated to keep its water out"},
};

START_TEST(soil_is_said_in_these_words)
{
    memcpy(wall.beyond.value, said[_i].value, sizeof said[_i].value);
    ck_assert_str_eq(bw_beyond_ground.words(&arena, &wall), said[_i].words);
}
END_TEST

/* ---- what keeps water out ---- */

typedef enum fault {
    NONE,
    SD_LESS,
    SD_NONE,
    COAT_BY_MU,
    COAT_TOO_THIN,
    DRAWS,
    DRINKS,
    DRY_THOUGH_DRINKS,
    PAPER,
    ROTS,
    SLAB,
    AIR
} fault;

#define NOT_OUT(why)                                                           \
    "is Sheet, which does not keep water out: " why                            \
    "; name a sheet or a coat that does"

static const struct {
    fault fault;
    const char *refusal;
} sheets[] = {
    {NONE, NULL},
    {SD_LESS, NOT_OUT("its sd is below 20 m")},
    {SD_NONE, NOT_OUT("its sd is below 20 m")},
    {COAT_BY_MU, NULL},
    {COAT_TOO_THIN, NOT_OUT("its sd is below 20 m")},
    {DRAWS, NOT_OUT("it takes it up")},
    {DRINKS, NOT_OUT("it takes it up")},
    {DRY_THOUGH_DRINKS, NULL},
    {PAPER, NOT_OUT("it is of paper or felt")},
    {ROTS, NOT_OUT("it is of paper or felt")},
    {SLAB, NOT_OUT("it is no sheet and no coat, and has joints")},
    {AIR, NOT_OUT("it is air")},
};

static void spoil(fault is)
{
    if (is == SD_LESS)
        sheet.sd.value = 19.99;
    if (is == SD_NONE || is == COAT_BY_MU || is == COAT_TOO_THIN)
        sheet.sd.known = false;
    if (is == COAT_BY_MU || is == COAT_TOO_THIN) {
        sheet.mu_dry = known(10000.0);
        layer[1].thickness = is == COAT_BY_MU ? 0.002 : 0.0019;
    }
    if (is == DRAWS)
        sheet.water_absorption = known(0.001);
    sheet.absorbs_condensate = is == DRINKS || is == DRY_THOUGH_DRINKS;
    if (is == DRY_THOUGH_DRINKS)
        sheet.water_absorption = known(0.0);
    sheet.hygroscopic = is == PAPER;
    if (is == ROTS)
        sheet.mould_class = BW_MOULD_SENSITIVE;
    layer[1].kind = is == SLAB  ? BW_LAYER_SOLID
                    : is == AIR ? BW_LAYER_CAVITY
                                : BW_LAYER_MEMBRANE;
}

START_TEST(a_sheet_keeps_water_out_or_is_said_not_to)
{
    bw_beyond_review review = {0};
    spoil(sheets[_i].fault);
    bw_beyond_ground.review(&review, &arena, &wall);
    ck_assert_int_eq(review.refusal != NULL, sheets[_i].refusal != NULL);
    if (review.refusal != NULL) {
        ck_assert_str_eq(review.refusal, sheets[_i].refusal);
        ck_assert_str_eq(review.at, "waterproofing");
    }
}
END_TEST

START_TEST(what_soil_does_not_tell_is_warned_of)
{
    static const char always[] =
        "against soil: no rain, sun, wind or sky; water that rises from below "
        "or enters at edges and joints of the waterproofing is not computed";
    bw_beyond_review review = {0};
    bw_beyond_ground.review(&review, &arena, &wall);
    ck_assert_uint_eq(review.warning_count, 1);
    ck_assert_str_eq(review.warning[0], always);
    review = (bw_beyond_review){0};
    wall.beyond.value[3] = -1.0;
    wall.element = BW_ELEMENT_FLOOR;
    bw_beyond_ground.review(&review, &arena, &wall);
    ck_assert_uint_eq(review.warning_count, 2);
    ck_assert_str_eq(review.warning[0],
                     "waterproofing= is not given: nothing is said to keep the "
                     "soil's water out, and its way in is not computed, so the "
                     "floor is not said to hold; name the layer that is tight");
    ck_assert_str_eq(review.warning[1], always);
    ck_assert_ptr_null(review.refusal);
    review = (bw_beyond_review){0};
    wall.element = BW_ELEMENT_ROOF;
    bw_beyond_ground.review(&review, &arena, &wall);
    ck_assert_str_eq(review.refusal, "is for walls and floors; a roof under "
                                     "soil is not computed");
    ck_assert_ptr_null(review.at);
}
END_TEST

/* ---- what nobody computes ---- */

static const char *unjudged(size_t n)
{
    return bw_beyond_ground.why_unjudged(&arena, &wall, n);
}

#define FREEZES(theta)                                                         \
    "a room at " theta " degC freezes the soil in time: whether it heaves is " \
    "not computed"

START_TEST(what_nobody_computes_is_told_one_by_one)
{
    ck_assert_ptr_null(unjudged(0));
    layer[0].ventilation = BW_VENT_SLIGHT;
    layer[2].ventilation = BW_VENT_WELL;
    ck_assert_str_eq(unjudged(0), "Outer is ventilated: with what air, in the "
                                  "soil, is not known");
    ck_assert_str_eq(unjudged(1), "Inner is ventilated: with what air, in the "
                                  "soil, is not known");
    ck_assert_ptr_null(unjudged(2));
    wall.indoors.temperature = -0.5;
    ck_assert_str_eq(unjudged(0), FREEZES("-0.5"));
    ck_assert_str_eq(unjudged(1), "Outer is ventilated: with what air, in the "
                                  "soil, is not known");
    wall.beyond.value[3] = -1.0;
    ck_assert_str_eq(unjudged(1),
                     "nothing is stated to keep the soil's water out "
                     "(waterproofing=), and its way in is not computed");
    ck_assert_ptr_null(unjudged(2));
    wall.indoors.temperature = 0.0;
    ck_assert_ptr_null(strstr(unjudged(0), "freezes"));
    ck_assert_ptr_null(unjudged(1));
}
END_TEST

START_TEST(the_coldest_month_of_a_room_freezes_the_soil)
{
    wall.indoors = (bw_indoors){.kind = BW_INDOOR_MONTHS, .temperature = -5.0};
    for (int m = 0; m < BW_MONTHS; m++)
        wall.indoors.month_temperature[m] = 10.0;
    ck_assert_ptr_null(unjudged(0));
    wall.indoors.month_temperature[11] = -2.0;
    wall.indoors.month_temperature[3] = -1.0;
    ck_assert_str_eq(unjudged(0), FREEZES("-2"));
    wall.indoors.month_temperature[0] = -3.0;
    ck_assert_str_eq(unjudged(0), FREEZES("-3"));
    wall.indoors.kind = BW_INDOOR_EN15026; /* at 20 degC at least */
    ck_assert_ptr_null(unjudged(0));
}
END_TEST

/* ---- its layer, and its values ---- */

START_TEST(what_is_tight_moves_with_its_layer_and_goes_with_it)
{
    bw_beyond b = wall.beyond;
    ck_assert_int_eq(bw_beyond_tight_layer(&b), 1);
    bw_beyond_layers_moved(&b, 2, 1);
    ck_assert_int_eq(bw_beyond_tight_layer(&b), 1);
    bw_beyond_layers_moved(&b, 1, 1);
    ck_assert_int_eq(bw_beyond_tight_layer(&b), 2);
    bw_beyond_layers_moved(&b, 0, -1);
    ck_assert_int_eq(bw_beyond_tight_layer(&b), 1);
    bw_beyond_layer_lost(&b, 0);
    ck_assert_int_eq(bw_beyond_tight_layer(&b), 1);
    bw_beyond_layer_lost(&b, 1);
    ck_assert_int_eq(bw_beyond_tight_layer(&b), -1);
    bw_beyond air = {0};
    ck_assert_int_eq(bw_beyond_tight_layer(&air), -1);
    bw_beyond_layers_moved(&air, 0, 1);
    bw_beyond_layer_lost(&air, 0);
    ck_assert_double_eq(air.value[3], 0.0);
}
END_TEST

START_TEST(a_value_is_found_by_its_name)
{
    double value = 77.0;
    ck_assert(bw_beyond_value(&value, &wall.beyond, "depth"));
    ck_assert_double_eq(value, 1.25);
    ck_assert(bw_beyond_value(&value, &wall.beyond, "relative-humidity"));
    ck_assert_double_eq(value, 0.95);
    ck_assert(!bw_beyond_value(&value, &wall.beyond, "height"));
    ck_assert(!bw_beyond_value(&value, &(bw_beyond){0}, "depth"));
    ck_assert_double_eq(value, 0.95);
    ck_assert_str_eq(bw_beyond_against(&wall), "soil");
    ck_assert_str_eq(bw_beyond_element(&wall.beyond), "ground");
    wall.beyond.kind = NULL;
    ck_assert_ptr_null(bw_beyond_against(&wall));
    ck_assert_ptr_null(bw_beyond_element(&wall.beyond));
}
END_TEST

/* Layers by their ids, all else by its figures. */
START_TEST(two_soils_are_the_same_by_every_value)
{
    bw_layer other[3] = {layer[1], layer[0], layer[2]};
    bw_assembly b = wall;
    ck_assert(bw_beyond_same(&wall, &b));
    b.layer = other;
    ck_assert(!bw_beyond_same(&wall, &b));
    b.beyond.value[3] = 0.0; /* stands elsewhere, the same sheet */
    ck_assert(bw_beyond_same(&wall, &b));
    for (int i = 0; i < 3; i++) {
        b.beyond.value[i] += 0.01;
        ck_assert(!bw_beyond_same(&wall, &b));
        b.beyond.value[i] = wall.beyond.value[i];
    }
    b.beyond.kind = NULL;
    ck_assert(!bw_beyond_same(&wall, &b));
    bw_assembly a = b;
    ck_assert(bw_beyond_same(&a, &b));
}
END_TEST

SUITE_AROUND("ground_ends", setup, teardown,
             EACH(the_swing_follows_the_air_whenever_it_is_coldest,
                  COUNT(coldest)),
             FACT(a_column_runs_straight_round_the_year),
             EACH(soil_is_said_in_these_words, COUNT(said)),
             EACH(a_sheet_keeps_water_out_or_is_said_not_to, COUNT(sheets)),
             FACT(what_soil_does_not_tell_is_warned_of),
             FACT(what_nobody_computes_is_told_one_by_one),
             FACT(the_coldest_month_of_a_room_freezes_the_soil),
             FACT(what_is_tight_moves_with_its_layer_and_goes_with_it),
             FACT(a_value_is_found_by_its_name),
             FACT(two_soils_are_the_same_by_every_value))
