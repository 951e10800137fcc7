/* The two sides of a wall, what may lie against its face, and its cavities, as
 * a file says them: each refusal in its whole sentence, each note in its own,
 * and what each attribute becomes. Limits and defaults are those of
 * docs/input.md; sentences are the program's own (regression values as to
 * wording). */

#include <math.h>

#define FILE_OF_SUITE "./sides-read-test.xml"
#include "input_case.h"
#include "suite.h"

#define ROOM "temperature=\"20 degC\" humidity-class=\"3\"/>"
#define OUT                                                                    \
    "<outdoors climate=\"weather/here.csv\" faces=\"SW\"\n  "                  \
    "solar-absorptance=\"0.6\" driving-rain=\"sheltered\"/>"
#define STILL "ventilation=\"none\""
#define FACES "faces=\"SW\""
#define CLASS "humidity-class=\"3\""

static const refusal sentences[] = {
    {FACES, "faces=\"361 deg\"", 3,
     "<outdoors> faces=\"361 deg\" lies outside what is possible here, 0 deg "
     "to 360 deg"},
    {FACES, "faces=\"WS\"", 3,
     "<outdoors> faces=\"WS\" is not a compass point; write one of N, NE, E, "
     "SE, S, SW, W, NW, or degrees from north, clockwise: \"225 deg\""},
    {FACES, "faces=\"225\"", 3,
     "<outdoors> faces=\"225\" has no unit; write an angle such as \"225 deg\" "
     "(units: deg)"},
    {FACES, FACES " tilt=\"181 deg\"", 3,
     "<outdoors> tilt=\"181 deg\" lies outside what is possible here, 0 deg to "
     "180 deg"},
    {FACES, FACES " emissivity=\"1.1\"", 3,
     "<outdoors> emissivity=\"1.1\" lies outside what is possible here, 0 to "
     "1"},
    {"solar-absorptance=\"0.6\"", "solar-absorptance=\"1.1\"", 3,
     "<outdoors> solar-absorptance=\"1.1\" lies outside what is possible here, "
     "0 to 1"},
    {FACES, FACES " surface-resistance=\"0.009 m2.K/W\"", 3,
     "<outdoors> surface-resistance=\"0.009 m2.K/W\" lies outside what is "
     "possible here, 0.01 m2.K/W to 1 m2.K/W"},
    {FACES, FACES " surface-resistance=\"1.1 m2.K/W\"", 3,
     "<outdoors> surface-resistance=\"1.1 m2.K/W\" lies outside what is "
     "possible here, 0.01 m2.K/W to 1 m2.K/W"},
    {FACES, FACES " terrain=\"town\"", 3,
     "<outdoors> terrain=\"town\" is not known; write one of: open, rural, "
     "suburban, urban"},
    {FACES, FACES " height=\"0.4 m\"", 3,
     "<outdoors> height=\"0.4 m\" lies outside what is possible here, 0.5 m to "
     "500 m"},
    {FACES, FACES " height=\"501 m\"", 3,
     "<outdoors> height=\"501 m\" lies outside what is possible here, 0.5 m to "
     "500 m"},
    {FACES, FACES " open-sky=\"perhaps\"", 3,
     "<outdoors> open-sky=\"perhaps\" is not known; write one of: no, yes"},
    {FACES, FACES " below=\"open-air\"", 3,
     "<outdoors> below=\"open-air\" is for a floor (element=\"floor\")"},
    {FACES, FACES " below=\"cellar\"", 3,
     "<outdoors> below=\"cellar\" is not known; write one of: open-air, "
     "climate-of-space"},
    {FACES, FACES " rain-share=\"0.9 %\"", 3,
     "<outdoors> rain-share=\"0.9 %\" lies outside what is possible here, 1 % "
     "to 100 %"},
    {"driving-rain=\"sheltered\"", "driving-rain=\"heavy\"", 3,
     "<outdoors> driving-rain=\"heavy\" is not known; write one of: none, "
     "sheltered, moderate, severe (none: no rain reaches the face; sheltered: "
     "under wide eaves or behind houses and trees; severe: hilltop, coast, "
     "wind funnelled, or run-off from above)"},
    {"climate=\"weather/here.csv\"", "climate=\"\"", 3,
     "<outdoors> climate=\"\" is empty; write for example "
     "climate=\"climates/estuary.csv\""},
    {"id=\"test\">\n<outdoors climate=\"weather/here.csv\"",
     "id=\"test\" element=\"floor\">\n<outdoors below=\"climate-of-space\"", 3,
     "<outdoors> driving-rain=\"sheltered\" falls in no space below a floor; "
     "leave it out"},
    {OUT,
     "<outdoors climate=\"c.csv\" faces=\"SW\"/><ground depth=\"1 m\" "
     "soil=\"sand\"/>",
     2,
     "<outdoors> faces=\"SW\" counts at no face against soil (<ground>); leave "
     "it out"},
    {CLASS, "humidity-class=\"0\"", 4,
     "<indoors> humidity-class=\"0\" is not a whole number from 1 to 5 (1: dry "
     "stores, unoccupied; 2: offices, dwellings normally occupied and "
     "ventilated; 3: buildings of unknown occupancy; 4: sports halls, "
     "kitchens, canteens; 5: laundries, breweries, swimming pools)"},
    {CLASS, "", 4,
     "<indoors> does not say how humid the room is; give one of "
     "humidity-class=\"3\", relative-humidity=\"50 %\", "
     "conditions=\"en15026-normal\" or twelve <month> rows"},
    {CLASS, CLASS " relative-humidity=\"50 %\" conditions=\"x\"", 4,
     "<indoors> says it in several ways: humidity-class, relative-humidity, "
     "conditions; give one of humidity-class=\"3\", relative-humidity=\"50 "
     "%\", conditions=\"en15026-normal\" or twelve <month> rows"},
    {"humidity-class=\"3\"/>", "humidity-class=\"3\"><month/></indoors>", 4,
     "<indoors> says it in several ways: humidity-class, <month> rows; give "
     "one of humidity-class=\"3\", relative-humidity=\"50 %\", "
     "conditions=\"en15026-normal\" or twelve <month> rows"},
    {CLASS, "relative-humidity=\"0.9 %\"", 4,
     "<indoors> relative-humidity=\"0.9 %\" lies outside what is possible "
     "here, 1 % to 100 %"},
    {CLASS, "relative-humidity=\"50 %\" margin=\"1\"", 4,
     "<indoors> margin=\"1\" is not known; write one of: no, yes"},
    {CLASS, CLASS " surface-resistance=\"2.1 m2.K/W\"", 4,
     "<indoors> surface-resistance=\"2.1 m2.K/W\" lies outside what is "
     "possible here, 0.01 m2.K/W to 2 m2.K/W"},
    {"temperature=\"20 degC\"", "temperature=\"-31 degC\"", 4,
     "<indoors> temperature=\"-31 degC\" lies outside what is possible here, "
     "-30 degC to 60 degC"},
    {"temperature=\"20 degC\"", "temperature=\"61 degC\"", 4,
     "<indoors> temperature=\"61 degC\" lies outside what is possible here, "
     "-30 degC to 60 degC"},
    {"temperature=\"20 degC\" humidity", "humidity", 4,
     "<indoors> has no temperature=, which it needs; write a temperature such "
     "as \"20 degC\" (units: degC, K, degF)"},
    {CLASS, "conditions=\"en15026-normal\"", 4,
     "<indoors> temperature=\"20 degC\" cannot stand beside conditions=, which "
     "give it from the outdoor temperature"},
    {ROOM, "temperature=\"20 degC\"><month/></indoors>", 4,
     "<indoors> temperature=\"20 degC\" cannot stand beside <month> rows, "
     "which give it month by month"},
    {ROOM, "conditions=\"en15026-normal\" margin=\"no\"/>", 4,
     "<indoors> margin=\"no\" counts only with humidity-class= or "
     "relative-humidity="},
    {ROOM, "conditions=\"en15026-low\"/>", 4,
     "<indoors> conditions=\"en15026-low\" is not known; write one of: "
     "en15026-normal, en15026-high"},
    {ROOM,
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"800 "
     "Pa\"/></indoors>",
     4, "<indoors> has no <month number=\"2\">; all of 1 to 12 are needed"},
    {ROOM,
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"1800 "
     "Pa\"/></indoors>",
     4,
     "<month> vapour-pressure=\"1800 Pa\" is above saturation at that "
     "temperature (1147 Pa)"},
    {ROOM, "><month number=\"1\" temperature=\"9 degC\"/></indoors>", 4,
     "<month> needs one of relative-humidity=\"50 %\" and "
     "vapour-pressure=\"1200 Pa\""},
    {ROOM,
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"1 hPa\" "
     "relative-humidity=\"50 %\"/></indoors>",
     4,
     "<month> needs one of relative-humidity=\"50 %\" and "
     "vapour-pressure=\"1200 Pa\""},
    {ROOM, "><month number=\"13\" temperature=\"9 degC\"/></indoors>", 4,
     "<month> number=\"13\" is not a whole number from 1 to 12"},
    {ROOM, "><month number=\"1\" temperature=\"61 degC\"/></indoors>", 4,
     "<month> temperature=\"61 degC\" lies outside what is possible here, -30 "
     "degC to 60 degC"},
    {ROOM,
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"0.9 "
     "Pa\"/></indoors>",
     4,
     "<month> vapour-pressure=\"0.9 Pa\" lies outside what is possible here, 1 "
     "Pa to 20000 Pa"},
    {STILL, "ventilation=\"slight\" openings=\"499 mm2/m\"", 7,
     "<cavity> openings=\"499 mm2/m\" is no slight ventilation, which is 500 "
     "to 1500 mm2/m (ISO 6946): below, write ventilation=\"none\", above, "
     "\"well\""},
    {STILL, "ventilation=\"slight\" openings=\"1501 mm2/m\"", 7,
     "<cavity> openings=\"1501 mm2/m\" is no slight ventilation, which is 500 "
     "to 1500 mm2/m (ISO 6946): below, write ventilation=\"none\", above, "
     "\"well\""},
    {"thickness=\"50 mm\" ventilation=\"none\"",
     "thickness=\"9 mm\" ventilation=\"well\"", 7,
     "<cavity> thickness=\"9 mm\" is too thin for ventilation=\"well\": no air "
     "to speak of moves in less than 10 mm. Write ventilation=\"slight\" or "
     "\"none\""},
    {"thickness=\"50 mm\"", "thickness=\"0.4 mm\"", 7,
     "<cavity> thickness=\"0.4 mm\" lies outside what is possible here, 0.5 mm "
     "to 2000 mm"},
    {"thickness=\"50 mm\"", "thickness=\"2.1 m\"", 7,
     "<cavity> thickness=\"2.1 m\" lies outside what is possible here, 0.0005 "
     "m to 2 m"},
    {STILL, STILL " emissivity=\"0.01\"", 7,
     "<cavity> emissivity=\"0.01\" lies outside what is possible here, 0.02 to "
     "0.95"},
    {STILL, STILL " emissivity=\"0.96\"", 7,
     "<cavity> emissivity=\"0.96\" lies outside what is possible here, 0.02 to "
     "0.95"},
    {STILL, STILL " emissivity=\"0.5\" resistance=\"0.2 m2.K/W\"", 7,
     "<cavity> emissivity=\"0.5\" and resistance= both set the resistance of "
     "the air; give one"},
    {STILL, STILL " resistance=\"10.1 m2.K/W\"", 7,
     "<cavity> resistance=\"10.1 m2.K/W\" lies outside what is possible here, "
     "0 m2.K/W to 10 m2.K/W"},
    {STILL, "ventilation=\"well\" filled-with=\"test-batt\"", 7,
     "<cavity> ventilation=\"well\" and filled-with=\"test-batt\" contradict "
     "each other: no air passes where all is filled. Write "
     "ventilation=\"none\", or blocked=\"20 %\" for the share of the area that "
     "is filled"},
    {STILL, STILL " resistance=\"0.2 m2.K/W\" filled-with=\"test-batt\"", 7,
     "<cavity> resistance=\"0.2 m2.K/W\" is that of still air; what fills the "
     "cavity has its own"},
    {STILL, STILL " blocked=\"5 %\"", 7,
     "<cavity> blocked=\"5 %\" needs filled-with= beside it: what is the "
     "cavity blocked with? For example filled-with=\"masonry-mortar\""},
    {STILL, STILL " blocked=\"99.995 %\" filled-with=\"test-batt\"", 7,
     "<cavity> blocked=\"99.995 %\" lies outside what is possible here, 0.01 % "
     "to 99.99 %"},
    {STILL, STILL " filled-with=\"test-foil\"", 7,
     "<cavity> filled-with=\"test-foil\" has no conductivity or no mu in the "
     "library, so nothing can be filled with it"},
    {STILL, STILL " filled-with=\"test-bat\"", 7,
     "<cavity> filled-with=\"test-bat\" is not in the material library (did "
     "you mean test-batt?); the command \"bothways materials\" lists all"},
    {STILL, "ventilation=\"full\"", 7,
     "<cavity> ventilation=\"full\" is not known (did you mean well?); write "
     "one of: none, slight, well"},
    {"id=\"gap\"", "id=\"face\"", 7,
     "id=\"face\" stands twice (also in line 6); every layer needs an id of "
     "its own"},
    {"<indoors",
     "<indoors temperature=\"9 degC\" humidity-class=\"1\"/><indoors", 4,
     "<indoors> stands twice in <assembly> (first in line 4); only one is "
     "allowed"},
    {OUT, "<outdoors climate=\"c.csv\"/><ground depth=\"51 m\" soil=\"sand\"/>",
     2,
     "<ground> depth=\"51 m\" lies outside what is possible here, 0 m to 50 m"},
    {OUT,
     "<outdoors climate=\"c.csv\"/><ground depth=\"1 m\" soil=\"sand\" "
     "relative-humidity=\"49 %\"/>",
     2,
     "<ground> relative-humidity=\"49 %\" lies outside what is possible here, "
     "50 % to 100 %"},
    {OUT,
     "<outdoors climate=\"c.csv\"/><ground depth=\"1 m\" soil=\"sand\" "
     "waterproofing=\"fail\"/>",
     2,
     "<ground> waterproofing=\"fail\" is no layer's id (did you mean foil?); "
     "there are: face, gap, bay, foil, lining"},
    {OUT,
     "<outdoors climate=\"c.csv\"/><ground depth=\"1 m\" soil=\"sand\" "
     "waterproofing=\"face\"/>",
     2,
     "<ground> waterproofing=\"face\" is Test board, which does not keep water "
     "out: it takes it up; name a sheet or a coat that does"},
};

START_TEST(a_side_that_cannot_be_is_refused_in_this_sentence)
{
    expect_sentence(&sentences[_i]);
}
END_TEST

/* ---- outdoors --------------------------------------------------------------
 */

#define ROOF "id=\"test\" element=\"roof\""
#define FLOOR "id=\"test\" element=\"floor\""

static const char open_sky[] =
    "open-sky= is not given: the roof is taken as a light one under open sky, "
    "its outside 2 K colder than the air, which decides many roofs; write "
    "open-sky=\"no\" for a heavy or sheltered one";
static const char flat[] =
    "tilt= is not given: the roof is taken as flat (0 deg)";
static const char no_below[] =
    "below= is not given: the floor's underside is computed in outdoor air, "
    "which is not that of a crawl space, a cellar or the ground, so the floor "
    "is not said to hold; write below=\"open-air\", or "
    "below=\"climate-of-space\" with a climate of the space itself";
static const char no_rain[] = "driving-rain= is not given: moderate is taken";

START_TEST(of_a_wall_this_is_read)
{
    bw_assembly *a = read_changed(
        FACES, "faces=\"NW\" tilt=\"80 deg\" emissivity=\"0.2\" "
               "surface-resistance=\"0.08 m2.K/W\" terrain=\"urban\" "
               "height=\"12 m\" rain-share=\"30 %\"");
    const bw_outdoors *o = &a->outdoors;
    ck_assert_str_eq(o->climate_path, "./weather/here.csv");
    ck_assert(o->has_facing && o->has_terrain && o->has_height &&
              o->has_solar_absorptance && o->has_surface_resistance &&
              o->has_rain_share && o->has_driving_rain && !o->open_sky);
    ck_assert_double_eq(o->azimuth, 315.0);
    ck_assert_double_eq(o->tilt, 80.0);
    ck_assert_double_eq(o->emissivity, 0.2);
    ck_assert_double_eq(o->surface_resistance, 0.08);
    ck_assert_double_eq(o->solar_absorptance, 0.6);
    ck_assert_int_eq(o->terrain, BW_TERRAIN_URBAN);
    ck_assert_double_eq(o->height, 12.0);
    ck_assert_double_eq_tol(o->rain_share, 0.3, 1e-12);
    ck_assert_int_eq(o->driving_rain, BW_RAIN_SHELTERED);
    bw_assembly_free(a);
}
END_TEST

START_TEST(what_a_wall_does_not_say_is_this)
{
    bw_assembly *a = read_changed(OUT, "<outdoors/>\n");
    const bw_outdoors *o = &a->outdoors;
    ck_assert_str_eq(o->climate_path, "");
    ck_assert(!(o->has_facing || o->has_terrain || o->has_height ||
                o->has_solar_absorptance || o->has_surface_resistance ||
                o->has_rain_share || o->has_driving_rain || o->open_sky));
    ck_assert_double_eq(o->tilt, 90.0);
    ck_assert_double_eq(o->emissivity, 0.9);
    ck_assert_int_eq(o->driving_rain, BW_RAIN_MODERATE);
    ck_assert(says(a, BW_NOTE_INFO, 2, no_rain));
    ck_assert(!says(a, BW_NOTE_INFO, 0, flat));
    ck_assert(!says(a, BW_NOTE_WARNING, 0, open_sky));
    ck_assert(!says(a, BW_NOTE_WARNING, 0, no_below));
    bw_assembly_free(a);
}
END_TEST

static const struct {
    const char *faces;
    double azimuth;
} facings[] = {{"N", 0.0},         {"NE", 45.0},      {"E", 90.0},
               {"SE", 135.0},      {"S", 180.0},      {"SW", 225.0},
               {"W", 270.0},       {"NW", 315.0},     {"0 deg", 0.0},
               {"360 deg", 360.0}, {"17.5 deg", 17.5}};

START_TEST(a_face_looks_where_it_is_said_to)
{
    char text[64];
    snprintf(text, sizeof text, "faces=\"%s\"", facings[_i].faces);
    bw_assembly *a = read_changed(FACES, text);
    ck_assert(a->outdoors.has_facing);
    ck_assert_double_eq(a->outdoors.azimuth, facings[_i].azimuth);
    bw_assembly_free(a);
}
END_TEST

START_TEST(of_a_roof_tilt_and_sky_are_asked_for)
{
    bw_assembly *a = read_changed("id=\"test\"", ROOF);
    ck_assert_double_eq(a->outdoors.tilt, 0.0);
    ck_assert(a->outdoors.open_sky);
    ck_assert(says(a, BW_NOTE_INFO, 3, flat));
    ck_assert(says(a, BW_NOTE_WARNING, 3, open_sky));
    ck_assert(!says(a, BW_NOTE_WARNING, 0, no_below));
    bw_assembly_free(a);
    a = read_changed("id=\"test\">\n<outdoors",
                     ROOF ">\n<outdoors tilt=\"30 deg\" open-sky=\"no\"");
    ck_assert_double_eq(a->outdoors.tilt, 30.0);
    ck_assert(!a->outdoors.open_sky);
    ck_assert(!says(a, BW_NOTE_INFO, 0, flat));
    ck_assert(!says(a, BW_NOTE_WARNING, 0, open_sky));
    bw_assembly_free(a);
    a = read_changed("id=\"test\">\n<outdoors",
                     ROOF ">\n<outdoors open-sky=\"yes\"");
    ck_assert(a->outdoors.open_sky);
    ck_assert(!says(a, BW_NOTE_WARNING, 0, open_sky));
    bw_assembly_free(a);
}
END_TEST

static const struct {
    const char *below;
    bw_below is;
    bw_exposure rain; /* of a file that does not say it */
} belows[] = {
    {"", BW_BELOW_NOT_STATED, BW_RAIN_MODERATE},
    {"below=\"open-air\"", BW_BELOW_OPEN_AIR, BW_RAIN_MODERATE},
    {"below=\"climate-of-space\"", BW_BELOW_SPACE, BW_RAIN_NONE},
};

START_TEST(of_a_floor_what_lies_below_is_asked_for)
{
    char text[512];
    bw_assembly *a = NULL;
    bw_error err = {0};
    char from[] = "id=\"test\">\n<outdoors climate=\"weather/here.csv\" "
                  "faces=\"SW\"\n  solar-absorptance=\"0.6\" "
                  "driving-rain=\"sheltered\"/>";
    snprintf(text, sizeof text, FLOOR ">\n<outdoors %s/>", belows[_i].below);
    put_changed(from, text);
    ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err), BW_OK);
    unlink(file_name);
    ck_assert_int_eq(a->element, BW_ELEMENT_FLOOR);
    ck_assert_double_eq(a->outdoors.tilt, 180.0);
    ck_assert_int_eq(a->outdoors.below, belows[_i].is);
    ck_assert_int_eq(a->outdoors.driving_rain, belows[_i].rain);
    ck_assert_int_eq(a->outdoors.has_driving_rain,
                     belows[_i].is == BW_BELOW_SPACE);
    ck_assert_int_eq(says(a, BW_NOTE_WARNING, 2, no_below), _i == 0);
    ck_assert_int_eq(says(a, BW_NOTE_INFO, 2, no_rain),
                     belows[_i].is != BW_BELOW_SPACE);
    bw_assembly_free(a);
}
END_TEST

/* ---- indoors ---- */

START_TEST(of_a_room_this_is_read)
{
    bw_assembly *a = read_changed(
        ROOM, "temperature=\"18.5 degC\" relative-humidity=\"45 %\" "
              "margin=\"no\" surface-resistance=\"0.2 m2.K/W\"/>");
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_RH);
    ck_assert_double_eq(a->indoors.temperature, 18.5);
    ck_assert_double_eq_tol(a->indoors.relative_humidity, 0.45, 1e-12);
    ck_assert(!a->indoors.margin && a->indoors.has_surface_resistance);
    ck_assert_double_eq(a->indoors.surface_resistance, 0.2);
    bw_assembly_free(a);
    a = read_changed(CLASS, "humidity-class=\"5\"");
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_CLASS);
    ck_assert_int_eq(a->indoors.humidity_class, 5);
    ck_assert(a->indoors.margin && !a->indoors.has_surface_resistance);
    bw_assembly_free(a);
    a = read_changed(ROOM, "conditions=\"en15026-high\"/>");
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_EN15026);
    ck_assert(a->indoors.en15026_high);
    bw_assembly_free(a);
    a = read_changed(ROOM, "conditions=\"en15026-normal\"/>");
    ck_assert(!a->indoors.en15026_high);
    bw_assembly_free(a);
}
END_TEST

/* Each month its own; saturation at 10 degC is 1227.3 Pa by the formula of ISO
 * 13788, 610.5 exp(17.269 x 10 / 247.3). */
START_TEST(the_months_of_a_room_stand_each_in_its_own)
{
    char text[2048] = ">";
    for (int m = 12; m >= 1; m--)
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 "<month number=\"%d\" temperature=\"%d degC\" %s/>", m,
                 m == 4 ? 10 : 10 + m,
                 m == 4   ? "relative-humidity=\"50 %\""
                 : m == 5 ? "vapour-pressure=\"6 hPa\""
                          : "vapour-pressure=\"700 Pa\"");
    strcat(text, "</indoors>");
    bw_assembly *a = read_changed(ROOM, text);
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_MONTHS);
    for (int m = 1; m <= 12; m++) {
        ck_assert_double_eq(a->indoors.month_temperature[m - 1],
                            m == 4 ? 10.0 : 10.0 + m);
        ck_assert_double_eq_tol(a->indoors.month_vapour_pressure[m - 1],
                                m == 4   ? 0.5 * 1227.3
                                : m == 5 ? 600.0
                                         : 700.0,
                                0.1);
    }
    bw_assembly_free(a);
}
END_TEST

SUITE_AROUND("sides_read", read_library, free_library,
             EACH(a_side_that_cannot_be_is_refused_in_this_sentence,
                  COUNT(sentences)),
             FACT(of_a_wall_this_is_read),
             FACT(what_a_wall_does_not_say_is_this),
             EACH(a_face_looks_where_it_is_said_to, COUNT(facings)),
             FACT(of_a_roof_tilt_and_sky_are_asked_for),
             EACH(of_a_floor_what_lies_below_is_asked_for, COUNT(belows)),
             FACT(of_a_room_this_is_read),
             FACT(the_months_of_a_room_stand_each_in_its_own))
