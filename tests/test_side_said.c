/* The surroundings of a wall in words, every form of them whole
 * (docs/tables.md; regression values as to wording, the figures are those
 * given). */

#include "beyond.h"
#include "side.h"
#include "suite.h"

static bw_arena arena;

static void teardown(void)
{
    bw_arena_release(&arena);
}

/* ---- the room ---- */

static const struct {
    bw_indoors room;
    const char *words;
} rooms[] = {
    {{.kind = BW_INDOOR_CLASS,
      .temperature = 20.123456789012,
      .humidity_class = 2},
     "20.123456789 degC, humidity class 2 of ISO 13788"},
    {{.kind = BW_INDOOR_CLASS,
      .temperature = 20,
      .humidity_class = 5,
      .margin = true},
     "20 degC, humidity class 5 of ISO 13788 with its safety margin"},
    {{.kind = BW_INDOOR_RH, .temperature = 18.5, .relative_humidity = 0.475},
     "18.5 degC, 47.5 % relative humidity"},
    {{.kind = BW_INDOOR_RH,
      .temperature = 18,
      .relative_humidity = 0.6,
      .margin = true,
      .has_surface_resistance = true,
      .surface_resistance = 0.25},
     "18 degC, 60 % relative humidity plus 5 points of safety margin, surface "
     "resistance 0.25 m2.K/W"},
    {{.kind = BW_INDOOR_EN15026},
     "temperature and humidity from the outdoor temperature by EN 15026, "
     "normal occupancy"},
    {{.kind = BW_INDOOR_EN15026, .en15026_high = true},
     "temperature and humidity from the outdoor temperature by EN 15026, high "
     "occupancy"},
    /* means of 1 to 12, and of 100, 200 ... 1200 less the last 50 */
    {{.kind = BW_INDOOR_MONTHS,
      .month_temperature = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12},
      .month_vapour_pressure = {100, 200, 300, 400, 500, 600, 700, 800, 900,
                                1000, 1100, 1150}},
     "twelve months given in the file, means 6.5 degC and 645.833 Pa"},
    {{.kind = BW_INDOOR_MONTHS,
      .month_temperature = {20, 20, 20, 20, 20, 20, 20, 20, 20, 20, 20, 21},
      .month_vapour_pressure = {900, 900, 900, 900, 900, 900, 900, 900, 900,
                                900, 900, 900}},
     "twelve months given in the file, means 20.0833 degC and 900 Pa"},
};

START_TEST(a_room_is_said_with_every_figure)
{
    const bw_assembly a = {.indoors = rooms[_i].room};
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_ROOM), rooms[_i].words);
}
END_TEST

/* ---- outside ---- */

static const struct {
    bw_outdoors out;
    const char *facing, *rain, *face, *beyond;
} sides[] = {
    {{.tilt = 90, .emissivity = 0.9},
     "no direction given",
     "none",
     "emissivity 0.9",
     "outdoor air"},
    {{.tilt = 30,
      .emissivity = 0.25,
      .driving_rain = BW_RAIN_MODERATE,
      .below = BW_BELOW_SPACE,
      .has_solar_absorptance = true,
      .solar_absorptance = 0.35},
     "no direction given, tilt 30 degrees",
     "moderate",
     "emissivity 0.25, solar absorptance 0.35",
     "a space whose own climate is given"},
    {{.tilt = 90,
      .has_facing = true,
      .azimuth = 0,
      .open_sky = true,
      .driving_rain = BW_RAIN_SEVERE,
      .has_rain_share = true,
      .rain_share = 0.125,
      .below = BW_BELOW_OPEN_AIR},
     "N",
     "severe, 12.5 % of it stays",
     "emissivity 0, a light roof under open sky",
     "open air below the floor"},
    {{.tilt = 90,
      .has_facing = true,
      .azimuth = 360,
      .has_terrain = true,
      .terrain = BW_TERRAIN_URBAN,
      .has_surface_resistance = true,
      .surface_resistance = 0.08},
     "N",
     "none, urban terrain",
     "emissivity 0, surface resistance 0.08 m2.K/W",
     "outdoor air"},
    {{.tilt = 45,
      .has_facing = true,
      .azimuth = 315,
      .has_height = true,
      .height = 12.5,
      .driving_rain = BW_RAIN_SHELTERED},
     "NW, tilt 45 degrees",
     "sheltered, 12.5 m above ground",
     "emissivity 0",
     "outdoor air"},
    {{.tilt = 89,
      .has_facing = true,
      .azimuth = 46,
      .has_terrain = true,
      .terrain = BW_TERRAIN_RURAL,
      .has_height = true,
      .height = 3},
     "46 degrees from north, tilt 89 degrees",
     "none, rural terrain, 3 m above ground",
     "emissivity 0",
     "outdoor air"},
};

START_TEST(a_side_is_said_with_every_figure)
{
    const bw_assembly a = {.outdoors = sides[_i].out};
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_FACING),
                     sides[_i].facing);
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_RAIN), sides[_i].rain);
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_FACE), sides[_i].face);
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_BEYOND),
                     sides[_i].beyond);
}
END_TEST

START_TEST(every_point_of_the_compass_has_its_letters)
{
    static const char *const points[] = {"N", "NE", "E", "SE",
                                         "S", "SW", "W", "NW"};
    for (int i = 0; i < 8; i++) {
        const bw_assembly a = {
            .outdoors = {.tilt = 90, .has_facing = true, .azimuth = 45.0 * i}};
        ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_FACING), points[i]);
    }
}
END_TEST

/* Of a room and of soil the values count, too; of a face the words do. */
START_TEST(equal_words_are_enough_but_of_a_room_and_of_soil)
{
    bw_assembly a = {
        .indoors = {.kind = BW_INDOOR_MONTHS, .month_temperature = {20, 18}}};
    bw_assembly b = {
        .indoors = {.kind = BW_INDOOR_MONTHS, .month_temperature = {18, 20}}};
    ck_assert(!bw_side_same(&a, "x", &b, "x", BW_SIDE_ROOM));
    ck_assert(bw_side_same(&a, "x", &a, "x", BW_SIDE_ROOM));
    ck_assert(!bw_side_same(&a, "x", &a, "y", BW_SIDE_ROOM));
    ck_assert(bw_side_same(&a, "x", &b, "x", BW_SIDE_FACE));
    ck_assert(bw_side_same(&a, "x", &b, "x", BW_SIDE_RAIN));
    ck_assert(!bw_side_same(&a, "x", &b, "y", BW_SIDE_FACING));
    a.beyond = (bw_beyond){&bw_beyond_ground, {1.0, 1.0, 1.0, -1.0}};
    ck_assert(!bw_side_same(&a, "x", &b, "x", BW_SIDE_BEYOND));
    ck_assert(bw_side_same(&a, "x", &b, "x", BW_SIDE_FACING));
    b.beyond = a.beyond;
    ck_assert(bw_side_same(&a, "x", &b, "x", BW_SIDE_BEYOND));
    ck_assert_str_eq(bw_side_words(&arena, &a, BW_SIDE_BEYOND),
                     "soil (sand or gravel), 1 m below its surface, its air at "
                     "100 % relative humidity, nothing stated to keep its "
                     "water out");
}
END_TEST

SUITE_AROUND("side_said", NULL, teardown,
             EACH(a_room_is_said_with_every_figure, COUNT(rooms)),
             EACH(a_side_is_said_with_every_figure, COUNT(sides)),
             FACT(every_point_of_the_compass_has_its_letters),
             FACT(equal_words_are_enough_but_of_a_room_and_of_soil))
