/* The ends of what an import takes, the whole text of what it refuses, and the
 * line that it names. Limits of values are those of docs/input.md; what gbXML
 * calls its surfaces is its schema's (from memory, high); where a film ends and
 * when shares fill a layer are our own choice, no source. */

#include "exchange_case.h"
#include "suite.h"

static bool missing(const char *sentence)
{
    for (size_t i = 0; i < skeleton->missing_count; i++)
        if (strcmp(skeleton->missing[i], sentence) == 0)
            return true;
    return false;
}

static bool noted(const char *sentence)
{
    for (size_t i = 0; i < skeleton->note_count; i++)
        if (strcmp(skeleton->note[i], sentence) == 0)
            return true;
    return false;
}

#define THING(inside) MATERIAL("<Name>Thing</Name>" inside)
#define THICK(metres) "<Thickness>" metres "</Thickness>"
#define LAMBDA(value) "<Conductivity unit='WPerMeterK'>" value "</Conductivity>"
#define RESISTS(value) "<R-value unit='SquareMeterKPerW'>" value "</R-value>"
#define DENSITY(value) "<Density unit='KgPerCubicM'>" value "</Density>"
#define HEAT(value) "<SpecificHeat unit='JPerKgK'>" value "</SpecificHeat>"

/* ---- what an assembly may hold ---- */

/* Each end of docs/input.md as an attribute, and just beyond it as a note. */
static const struct {
    const char *text, *written, *note;
} ends[] = {
    {THING(THICK("3")), " thickness=\"3000 mm\"", NULL},
    {THING(THICK("3.001")), NULL,
     "Material m (line 1): <Thickness> is 3001 mm; no material has that, so it "
     "is left out."},
    {THING(THICK("0.0000001")), " thickness=\"0.0001 mm\"", NULL},
    {THING(THICK("0.00000009")), NULL,
     "Material m (line 1): <Thickness> is 9e-05 mm; no material has that, so "
     "it is left out."},
    {THING(THICK("0.1") RESISTS("100")), " resistance=\"100 m2.K/W\"", NULL},
    {THING(THICK("0.1") RESISTS("100.1")), NULL,
     "Material m (line 1): <R-value> is 100.1 m2.K/W; no material has that, so "
     "it is left out."},
    {THING(THICK("0.1") RESISTS("0")), NULL,
     "Material m (line 1): <R-value> is 0 m2.K/W; zero says nothing, so it is "
     "left out."},
    {THING(THICK("0.1") RESISTS("0.00000000099")), NULL,
     "Material m (line 1): <R-value> is 9.9e-10 m2.K/W; no material has that, "
     "so it is left out."},
    {THING(THICK("0.1") LAMBDA("0.001")), " lambda=\"0.001 W/(m.K)\"", NULL},
    {THING(THICK("0.1") LAMBDA("500")), " lambda=\"500 W/(m.K)\"", NULL},
    {THING(THICK("0.1") LAMBDA("501")), NULL,
     "Material m (line 1): <Conductivity> is 501 W/(m.K); no material has "
     "that, so it is left out."},
    {THING(THICK("0.1") LAMBDA("0.0009")), NULL,
     "Material m (line 1): <Conductivity> is 0.0009 W/(m.K); no material has "
     "that, so it is left out."},
    {THING(THICK("0.1") DENSITY("1")), " density=\"1 kg/m3\"", NULL},
    {THING(THICK("0.1") DENSITY("12000")), " density=\"12000 kg/m3\"", NULL},
    {THING(THICK("0.1") DENSITY("12001")), NULL,
     "Material m (line 1): <Density> is 1.2e+04 kg/m3; no material has that, "
     "so it is left out."},
    {THING(THICK("0.1") HEAT("50")), " specific-heat=\"50 J/(kg.K)\"", NULL},
    {THING(THICK("0.1") HEAT("5000")), " specific-heat=\"5000 J/(kg.K)\"",
     NULL},
    {THING(THICK("0.1") HEAT("49")), NULL,
     "Material m (line 1): <SpecificHeat> is 49 J/(kg.K); no material has "
     "that, so it is left out."},
};

/* The element that holds the layer, from its name to its end. */
static const char *layer_of_skeleton(void)
{
    const char *at = strstr(skeleton->xml, "<layers");
    ck_assert_ptr_nonnull(at);
    at = strstr(at, " name=\"Thing\"");
    ck_assert_ptr_nonnull(at);
    return at;
}

START_TEST(a_value_at_its_end_is_written_and_one_beyond_is_left_out)
{
    take(write_file(ends[_i].text), NULL, NULL);
    if (ends[_i].written != NULL)
        ck_assert_msg(strstr(layer_of_skeleton(), ends[_i].written) != NULL,
                      "%s", skeleton->xml);
    ck_assert_msg(ends[_i].note == NULL || noted(ends[_i].note), "%s",
                  skeleton->xml);
    /* nobody uses it; left out, or of a film; nothing else */
    ck_assert_int_eq(mentions(skeleton->note, skeleton->note_count, "left out"),
                     ends[_i].note != NULL);
}
END_TEST

/* Permeances: sd from 0.1 mm to 1000 km (docs/input.md); 1 usperm is 57.2135
 * ng/(s m2 Pa) (ASTM, from memory), so sd = 3.4957 m of air of 2e-10. */
static const struct {
    const char *value;
    bool holds;
} permeances[] = {
    {"34000", true}, /* 0.1028 mm */
    {"36000", false} /* 0.0971 mm */,
    {"0.0000036", true},  /* 971 km */
    {"0.0000034", false}, /* 1028 km */
};

START_TEST(a_permeance_is_left_out_beyond_the_ends_of_sd)
{
    char text[1024], note[256];
    snprintf(text, sizeof text,
             THING(THICK("0.1") "\n<Permeance unit='PermIP'>%s</Permeance>"),
             permeances[_i].value);
    take(write_file(text), NULL, NULL);
    const char *mu = "Layer thing: vapour resistance (mu=, or sd=, or "
                     "vapour-resistance= in its place; or a material= of the "
                     "library for all of it).";
    ck_assert_int_eq(missing(mu), !permeances[_i].holds);
    snprintf(note, sizeof note,
             "Material m (line 2): a permeance of %s usperm is beyond what an "
             "assembly may hold, so it is left out.",
             permeances[_i].holds             ? ""
             : permeances[_i].value[0] == '0' ? "3.4e-06"
                                              : permeances[_i].value);
    ck_assert_int_eq(noted(note), !permeances[_i].holds);
}
END_TEST

/* ---- what form a layer takes, and what it lacks ---------------------------
 */

#define SOLID_MU                                                               \
    "Layer thing: vapour resistance (mu=, or sd=, or vapour-resistance= in "   \
    "its place; or a material= of the library for all of it)."
#define FILM_SD                                                                \
    "Layer thing: vapour resistance (sd=, or vapour-resistance= in its "       \
    "place; or a material= of the library)."
#define ONLY_R                                                                 \
    "Layer thing: only a thermal resistance is given. An air space is "        \
    "written <cavity thickness= ventilation=> instead."
#define NO_LAMBDA                                                              \
    "Layer thing: conductivity (lambda=) or thermal resistance (resistance=)."
#define NO_BOTH                                                                \
    "Layer thing: density and specific heat (the simulation alone needs it)."
#define NO_HEAT "Layer thing: specific heat (the simulation alone needs it)."
#define NO_DENSITY "Layer thing: density (the simulation alone needs it)."
#define NO_KIND                                                                \
    "Layer thing: what it is made of (kind=: wood, wood-panel, gypsum, "       \
    "mineral, plant-fibre, mineral-wool, foam or plastic-or-metal; none "      \
    "beside a material=)."

/* Which of the questions above a form asks, in their order, and the element. */
static const char *const questions[] = {SOLID_MU,   FILM_SD, ONLY_R,
                                        NO_LAMBDA,  NO_BOTH, NO_HEAT,
                                        NO_DENSITY, NO_KIND};
#define PERMS "<Permeance unit='PermIP'>1</Permeance>"

static const struct {
    const char *text, *asks, *element;
} forms[] = {
    {THING(THICK("0.1") LAMBDA("0.5") DENSITY("500") HEAT("900") PERMS),
     "-------x",
     "<layer id=\"thing\" name=\"Thing\" thickness=\"100 mm\" "
     "lambda=\"0.5 W/(m.K)\" permeance=\"1 usperm\" "
     "density=\"500 kg/m3\" specific-heat=\"900 J/(kg.K)\" "
     "kind=\"?\"\n        evidence=\"assumed\""},
    {THING(THICK("0.1") LAMBDA("0.5") DENSITY("500")), "x----x-x",
     "<layer id=\"thing\" name=\"Thing\" thickness=\"100 mm\" lambda=\"0.5 "
     "W/(m.K)\" mu=\"?\" density=\"500 kg/m3\" kind=\"?\"\n"},
    {THING(THICK("0.1") RESISTS("0.5") HEAT("900")), "x-----xx",
     "<layer id=\"thing\" name=\"Thing\" thickness=\"100 mm\" "
     "resistance=\"0.5 m2.K/W\" mu=\"?\" specific-heat=\"900 J/(kg.K)\" "
     "kind=\"?\"\n"},
    {THING(THICK("0.1")), "x--xx--x",
     "<layer id=\"thing\" name=\"Thing\" thickness=\"100 mm\" lambda=\"?\" "
     "mu=\"?\" kind=\"?\"\n"},
    {THING(RESISTS("0.5") LAMBDA("0.5")), "-xx-x--x",
     "<layer id=\"thing\" name=\"Thing\" resistance=\"0.5 m2.K/W\" sd=\"?\" "
     "kind=\"?\"\n"},
    {THING(RESISTS("0.5") PERMS), "----x--x",
     "<layer id=\"thing\" name=\"Thing\" resistance=\"0.5 m2.K/W\" "
     "permeance=\"1 usperm\" kind=\"?\"\n"},
    /* 0.05 mm, the thinnest layer of docs/input.md */
    {THING(THICK("0.00005")), "x--xx--x",
     "<layer id=\"thing\" name=\"Thing\" thickness=\"0.05 mm\" lambda=\"?\" "
     "mu=\"?\" kind=\"?\"\n"},
    {THING(THICK("0.0000499") DENSITY("900")), "-x------",
     "<membrane id=\"thing\" name=\"Thing\" thickness=\"0.0499 mm\" "
     "sd=\"?\"\n"},
    {THING(LAMBDA("0.5")), "-x------",
     "<membrane id=\"thing\" name=\"Thing\" sd=\"?\"\n"},
};

START_TEST(a_layer_asks_for_what_its_form_needs_and_for_no_more)
{
    take(write_file(forms[_i].text), NULL, NULL);
    for (size_t q = 0; q < COUNT(questions); q++)
        ck_assert_msg(missing(questions[q]) == (forms[_i].asks[q] == 'x'),
                      "%s\n%s", questions[q], skeleton->xml);
    ck_assert_msg(strstr(skeleton->xml, forms[_i].element) != NULL, "%s",
                  skeleton->xml);
    size_t asked = 5; /* of every skeleton */
    for (size_t q = 0; q < COUNT(questions); q++)
        asked += forms[_i].asks[q] == 'x';
    ck_assert_uint_eq(skeleton->missing_count, asked);
}
END_TEST

/* What is said of a form that is no usual layer. */
static const struct {
    const char *text, *note;
} told[] = {
    {THING(THICK("0.1")), NULL},
    {THING(""), "Material m gives no thickness: layer thing is written as a "
                "membrane."},
    {THING(RESISTS("0.5")), "Material m gives no thickness: layer thing is "
                            "written as a thermal resistance."},
    {THING(THICK("0.00004") RESISTS("0.5")),
     "Material m gives the thickness of a film: layer thing is written as a "
     "thermal resistance."},
    {THING(THICK("0.00004")), NULL},
};

START_TEST(a_form_that_is_no_layer_is_said)
{
    take(write_file(told[_i].text), NULL, NULL);
    if (told[_i].note != NULL)
        ck_assert_msg(noted(told[_i].note), "%s", skeleton->xml);
    else
        ck_assert(!mentions(skeleton->note, skeleton->note_count, "Material"));
}
END_TEST

/* One part in twenty, our own choice: R as said 1 m2 K/W. */
static const struct {
    const char *lambda;
    bool agrees;
} agreements[] = {
    {"0.1", true},     {"0.0955", true}, /* 1.047 */
    {"0.095", false},                    /* 1.053 */
    {"0.1050", true},                    /* 0.952 */
    {"0.1060", false},                   /* 0.943 */
};

START_TEST(a_resistance_may_differ_by_one_part_in_twenty)
{
    char text[1024];
    snprintf(text, sizeof text, THING(THICK("0.1") LAMBDA("%s") RESISTS("1")),
             agreements[_i].lambda);
    take(write_file(text), NULL, NULL);
    ck_assert_int_eq(mentions(skeleton->note, skeleton->note_count,
                              "its <R-value> of 1 m2.K/W is not its "
                              "thickness over its conductivity, "),
                     !agreements[_i].agrees);
}
END_TEST

START_TEST(figures_are_said_to_three_places_and_written_to_six)
{
    take(write_file(THING(THICK("0.1") LAMBDA("0.0300004") RESISTS("1.23456"))),
         NULL, NULL);
    ck_assert(noted("Material m: its <R-value> of 1.23 m2.K/W is not its "
                    "thickness over its conductivity, 3.33 m2.K/W; the latter "
                    "are taken."));
    release();
    take(write_file(THING(THICK("0.1234567") "<Permeance unit='PermIP'>"
                                             "1.2345678</Permeance>")),
         NULL, NULL);
    ck_assert_ptr_nonnull(strstr(skeleton->xml, "thickness=\"123.457 mm\""));
    ck_assert_ptr_nonnull(strstr(skeleton->xml, "\"1.23457 usperm\""));
}
END_TEST

/* Each of the six elements, given twice: the first counts. */
static const struct {
    const char *twice, *note;
} twice[] = {
    {THICK("0.1") THICK("0.2"), "Thickness"},
    {THICK("0.1") LAMBDA("1") LAMBDA("2"), "Conductivity"},
    {THICK("0.1") RESISTS("1") RESISTS("2"), "R-value"},
    {THICK("0.1") DENSITY("100") DENSITY("200"), "Density"},
    {THICK("0.1") HEAT("1000") HEAT("2000"), "SpecificHeat"},
    {THICK("0.1") PERMS PERMS, "Permeance"},
};

START_TEST(each_element_given_twice_is_noted)
{
    char text[1024], note[128];
    snprintf(text, sizeof text, THING("%s"), twice[_i].twice);
    take(write_file(text), NULL, NULL);
    for (size_t i = 0; i < COUNT(twice); i++) {
        snprintf(note, sizeof note,
                 "Material m gives <%s> more than once; the first is taken.",
                 twice[i].note);
        ck_assert_int_eq(noted(note), i == (size_t)_i);
    }
    ck_assert_ptr_nonnull(strstr(skeleton->xml, "thickness=\"100 mm\""));
}
END_TEST

/* ---- shares ---------------------------------------------------------------
 */

#define LAYER(inside)                                                          \
    OPEN "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"       \
         "<Layer id='l'>" inside "</Layer>"
#define PART(id, share)                                                        \
    "<MaterialId materialIdRef='" id "' percentOfLayer='" share "'/>"
#define SOLID(id) "<Material id='" id "'><Thickness>0.1</Thickness></Material>"

static const struct {
    const char *second;
    bool refused, full;
} fills[] = {
    {"10", false, false},  {"49.4", false, false}, {"49.5", false, true},
    {"50.5", false, true}, {"50.6", true, true},
};

START_TEST(shares_may_miss_or_pass_a_hundred_by_half_a_per_cent)
{
    char text[1024];
    snprintf(text, sizeof text,
             LAYER(PART("a", "50") PART("b", "%s")) SOLID("a")
                 SOLID("b") "</gbXML>",
             fills[_i].second);
    bw_status status = import(write_file(text), NULL, NULL);
    ck_assert_int_eq(status, fills[_i].refused ? BW_ERR_INPUT : BW_OK);
    if (!fills[_i].refused)
        ck_assert_int_eq(mentions(skeleton->missing, skeleton->missing_count,
                                  "what fills the rest is not"),
                         !fills[_i].full);
}
END_TEST

START_TEST(the_largest_of_three_is_the_layer_and_the_first_of_equals)
{
    take(write_file(LAYER(PART("a", "20") PART("b", "50") PART("e", "30"))
                        SOLID("a") SOLID("b") SOLID("e") "</gbXML>"),
         NULL, NULL);
    ck_assert_str_eq(assembly->layer[0].id, "b");
    ck_assert(missing("Layer b: 20 % of it is a. If that is framing, write "
                      "<framing material= fraction=\"20 %\"/> into the "
                      "layer."));
    ck_assert(missing("Layer b: 30 % of it is e. If that is framing, write "
                      "<framing material= fraction=\"30 %\"/> into the "
                      "layer."));
    ck_assert_ptr_nonnull(
        strstr(skeleton->xml, "    <!-- beside it, 20 % of the layer: a -->\n"
                              "    <!-- beside it, 30 % of the layer: e -->\n"
                              "    <layer id=\"b\""));
    release();
    take(write_file(LAYER(PART("a", "50") PART("b", "50")) SOLID("a")
                        SOLID("b") "</gbXML>"),
         NULL, NULL);
    ck_assert_str_eq(assembly->layer[0].id, "a");
}
END_TEST

/* ---- surfaces ---------------------------------------------------------------
 */

#define GROUND                                                                 \
    "1 of 1 surfaces with this construction touch the ground: give them a "    \
    "file of their own with <ground>."
#define INSIDE                                                                 \
    "1 of 1 surfaces with this construction lie inside the building: there "   \
    "is no outdoor climate."
#define SEVERAL                                                                \
    "Surfaces of several kinds use this construction; limits and heat flow "   \
    "differ, see element=."
#define UNUSED                                                                 \
    "No surface of the model uses this construction; it is taken as a wall."

static const struct {
    const char *kinds[3];
    const char *note;
    bw_element element;
} surfaces[] = {
    {{"InteriorWall"}, INSIDE, BW_ELEMENT_WALL},
    {{"InteriorFloor"}, INSIDE, BW_ELEMENT_WALL},
    {{"Ceiling"}, INSIDE, BW_ELEMENT_WALL},
    {{"Air"}, INSIDE, BW_ELEMENT_WALL},
    {{"UndergroundWall"}, GROUND, BW_ELEMENT_WALL},
    {{"UndergroundSlab"}, GROUND, BW_ELEMENT_WALL},
    {{"UndergroundCeiling"}, GROUND, BW_ELEMENT_WALL},
    {{"SlabOnGrade"}, GROUND, BW_ELEMENT_WALL},
    {{"ExteriorWall"}, NULL, BW_ELEMENT_WALL},
    {{"Shade"}, NULL, BW_ELEMENT_WALL},
    {{"Roof"}, NULL, BW_ELEMENT_ROOF},
    {{"RaisedFloor", "RaisedFloor"}, NULL, BW_ELEMENT_FLOOR},
    {{"RaisedFloor", "ExteriorWall"}, SEVERAL, BW_ELEMENT_FLOOR},
    {{"ExteriorWall", "Roof", "Roof"}, SEVERAL, BW_ELEMENT_ROOF},
    {{NULL}, UNUSED, BW_ELEMENT_WALL},
};

START_TEST(every_kind_of_surface_is_told_apart)
{
    char text[2048];
    size_t used = (size_t)snprintf(text, sizeof text,
                                   OPEN CHAIN SOLID("m") "<Campus>");
    /* the second half in a campus of its own */
    for (size_t i = 0; i < 3 && surfaces[_i].kinds[i] != NULL; i++)
        used += (size_t)snprintf(text + used, sizeof text - used,
                                 "%s<Surface surfaceType='%s' "
                                 "constructionIdRef='c'/>",
                                 i > 0 ? "</Campus><Campus>" : "",
                                 surfaces[_i].kinds[i]);
    snprintf(text + used, sizeof text - used, "</Campus></gbXML>");
    take(write_file(text), NULL, NULL);
    ck_assert_int_eq(assembly->element, surfaces[_i].element);
    if (surfaces[_i].note != NULL)
        ck_assert_msg(noted(surfaces[_i].note), "%s", skeleton->xml);
    ck_assert_uint_eq(skeleton->note_count, surfaces[_i].note != NULL);
}
END_TEST

SUITE_AROUND(
    "skeleton_edges", setup, teardown,
    EACH(a_value_at_its_end_is_written_and_one_beyond_is_left_out, COUNT(ends)),
    EACH(a_permeance_is_left_out_beyond_the_ends_of_sd, COUNT(permeances)),
    EACH(a_layer_asks_for_what_its_form_needs_and_for_no_more, COUNT(forms)),
    EACH(a_form_that_is_no_layer_is_said, COUNT(told)),
    EACH(a_resistance_may_differ_by_one_part_in_twenty, COUNT(agreements)),
    FACT(figures_are_said_to_three_places_and_written_to_six),
    EACH(each_element_given_twice_is_noted, COUNT(twice)),
    EACH(shares_may_miss_or_pass_a_hundred_by_half_a_per_cent, COUNT(fills)),
    FACT(the_largest_of_three_is_the_layer_and_the_first_of_equals),
    EACH(every_kind_of_surface_is_told_apart, COUNT(surfaces)))
