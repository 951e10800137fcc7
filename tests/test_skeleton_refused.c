/* A skeleton line for line, what is proposed in it, and what an import refuses:
 * the whole sentence, and the line that it names. The sentences are the
 * program's own (regression values as to wording). */

#include "exchange_case.h"
#include "suite.h"

#define THICK(metres) "<Thickness>" metres "</Thickness>"
#define THING(inside) MATERIAL("<Name>Thing</Name>" inside)

/* ---- the file ---- */

static const char plain[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<!-- A skeleton, not yet an assembly: construction c of skeleton-whole.xml"
    ".\n     Layers stand outside to inside, as they do there. Fill in every "
    "\"?\".\n"
    "\n     Missing:\n"
    "     * Outdoors: a climate file, the direction the face looks to, driving "
    "rain.\n"
    "     * Indoors: temperature and humidity (humidity-class=, "
    "relative-humidity= or twelve months).\n"
    "     * Cavities and how they are ventilated: the format has no mark for "
    "them. Framing, but for a share of a layer.\n"
    "     * Membranes, and whether one varies with humidity; wet-cup mu; "
    "moisture storage: material= of the library brings them.\n"
    "     * Air leakage (<air-leakage q50= connected-height=/>).\n"
    "     * Layer foil: vapour resistance (sd=, or vapour-resistance= in its "
    "place; or a material= of the library).\n"
    "\n     Understood:\n"
    "     * Material m gives no thickness: layer foil is written as a "
    "membrane.\n"
    "-->\n"
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"c\" title=\"c\" "
    "element=\"floor\">\n"
    "  <outdoors climate=\"?\" faces=\"?\" below=\"?\"/>\n"
    "  <indoors temperature=\"?\" humidity-class=\"?\"/>\n"
    "  <layers listed=\"outside-to-inside\">\n"
    "    <!-- shiny -->\n"
    "    <membrane id=\"foil\" name=\"Foil\" sd=\"?\"\n"
    "        evidence=\"assumed\" source=\"gbXML file skeleton-whole.xml, "
    "material m\"/>\n"
    "  </layers>\n"
    "</assembly>\n";

/* A regression value as to its words. */
START_TEST(a_skeleton_is_these_lines_and_no_others)
{
    const char *name = "skeleton-whole.xml";
    FILE *to = fopen(name, "w");
    ck_assert_ptr_nonnull(to);
    fputs(OPEN CHAIN
          "<Material id='m'><Name>Foil</Name><Description>shiny</Description>"
          "</Material><Campus><Surface surfaceType='RaisedFloor' "
          "constructionIdRef='c'/></Campus></gbXML>",
          to);
    fclose(to);
    bw_library_free(library);
    library = NULL;
    bw_status status = import(name, NULL, NULL);
    unlink(name);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_str_eq(skeleton->xml, plain);
    ck_assert_uint_eq(skeleton->layer_count, 1);
}
END_TEST

/* ---- what is proposed ---- */

/* The library has eight of wood fibre. */
START_TEST(six_materials_are_proposed_at_most)
{
    take(write_file(THING(THICK("0.1"))), NULL, NULL);
    ck_assert_ptr_null(strstr(skeleton->xml, "perhaps"));
    release();
    take(write_file(MATERIAL("<Name>Wood fibre</Name>" THICK("0.1"))), NULL,
         NULL);
    const char *from = strstr(skeleton->xml,
                              "    <!-- by its name perhaps material=\"");
    ck_assert_ptr_nonnull(from);
    const char *end = strstr(from, " -->\n");
    size_t others = 0;
    for (const char *at = from;
         (at = strstr(at, "\" or \"")) != NULL && at < end; at++)
        others++;
    ck_assert_uint_eq(others, 5);
}
END_TEST

/* ---- refusals ---- */

/* Each line of a file its own, so that the line named is seen. */
#define HEAD                                                                   \
    "<gbXML xmlns='http://www.gbxml.org/schema' version='6.01'\n"              \
    "lengthUnit='Meters'>\n"
#define WALL                                                                   \
    "<Construction id='c'>\n<LayerId\nlayerIdRef='l'/>\n</Construction>\n"     \
    "<Layer id='l'>\n"
#define END "</Layer>\n<Material id='m'/>\n<Material id='n'/>\n</gbXML>\n"
#define OF(inside)                                                             \
    HEAD WALL "<MaterialId materialIdRef='m'/>\n</Layer>\n<Material "          \
              "id='m'>\n" inside "\n</Material>\n</gbXML>\n"

static const struct {
    const char *text;
    long line;
    const char *says;
} refused[] = {
    {HEAD "<Campus/>\n</gbXML>", 2,
     "<gbXML> holds no <Construction>: the model was written without its "
     "build-ups; export it with layered constructions"},
    {HEAD "<Construction id='c'/>\n</gbXML>", 2,
     "<gbXML> holds 1 <Construction> but no layers in it: export the model "
     "with layered constructions"},
    {HEAD "<Construction id='c'/>\n<Construction id='d'/></gbXML>", 2,
     "<gbXML> holds 2 <Construction>s but no layers in any of them: export the "
     "model with layered constructions"},
    {HEAD "<Construction id='c'><LayerId layerIdRef='l'/></Construction>\n"
          "<Construction/></gbXML>",
     4,
     "<Construction> has no id=, which it needs; write for example "
     "id=\"construction-1\""},
    {HEAD "<Construction id='c'>\n<LayerId/></Construction></gbXML>", 4,
     "<LayerId> has no layerIdRef=, which it needs; write for example "
     "layerIdRef=\"id-1\""},
    {HEAD WALL END, 7, "<Layer> names no <MaterialId>: a layer of nothing"},
    {HEAD WALL "<MaterialId materialIdRef='m' percentOfLayer='5'/>\n"
               "<MaterialId materialIdRef='n'/>\n" END,
     7,
     "<Layer> gives percentOfLayer= for some of its materials and not for "
     "others: side by side or one behind the other?"},
    {HEAD WALL "<MaterialId materialIdRef='m' percentOfLayer='50'/>\n"
               "<MaterialId materialIdRef='n' percentOfLayer='100.1'/>\n" END,
     9,
     "<MaterialId> percentOfLayer=\"100.1\" is not a number above 0 and up to "
     "100"},
    {HEAD WALL "<MaterialId materialIdRef='m' percentOfLayer='100'/>\n"
               "<MaterialId materialIdRef='n' percentOfLayer='0.66'/>\n" END,
     7,
     "<Layer> holds materials of 100.7 % in all; side by side they fill 100 % "
     "at most"},
    {HEAD WALL "<MaterialId materialIdRef='m1'/>\n" END, 8,
     "<MaterialId> materialIdRef=\"m1\" refers to no <Material> of this file "
     "(did you mean m?)"},
    {HEAD WALL "<MaterialId materialIdRef='m'/>\n</Layer>\n"
               "<Material id='m'/>\n<Material id='m'/>\n</gbXML>",
     11,
     "<Material> id=\"m\" stands twice (also in line 10); which one is meant "
     "cannot be known"},
    {OF("<Density unit='KgPerCubicM'>heavy</Density>"), 11,
     "<Density> holds \"heavy\", which is no number (a decimal point, no "
     "comma)"},
    {OF("<Density unit='KgPerCubicM'>-0.1</Density>"), 11,
     "<Density> holds -0.1; it cannot be negative"},
    {OF("<Density>5</Density>"), 11,
     "<Density> has no unit=, which the format asks for; one of: KgPerCubicM, "
     "GramsPerCubicCm, LbsPerCubicFt, LbsPerCubicIn"},
    {OF("<Conductivity unit='Inches'>5</Conductivity>"), 11,
     "<Conductivity> unit=\"Inches\" is no unit of gbXML 6.01 for this; one "
     "of: WPerMeterK, WPerCmC, BtuPerHourFtF"},
    {OF("<Permeance unit='PermIp'>5</Permeance>"), 11,
     "<Permeance> unit=\"PermIp\" is no unit of gbXML 6.01 for this (did you "
     "mean PermIP?); one of: PermSI, PermIP"},
    {"<gbXML xmlns='http://www.gbxml.org/schema'\nversion='6.01'>\n" WALL
     "<MaterialId materialIdRef='m'/>\n</Layer>\n<Material id='m'>\n"
     "<Thickness>1</Thickness>\n</Material>\n</gbXML>",
     2,
     "<gbXML> has no lengthUnit=, which the format asks for; one of: "
     "Millimeters, Centimeters, Meters, Kilometers, Inches, Feet, Yards, "
     "Miles"},
    {"\n<gbXML version='6.01'/>", 2,
     "<gbXML> is not in the namespace of gbXML; it starts with <gbXML "
     "xmlns=\"http://www.gbxml.org/schema\" ...>"},
    {"\n<house xmlns='http://www.gbxml.org/schema'/>", 2,
     "<house> is not what a gbXML file starts with: <gbXML "
     "xmlns=\"http://www.gbxml.org/schema\" ...>; no other format is "
     "imported"},
};

START_TEST(what_is_refused_says_where_and_why)
{
    ck_assert_int_eq(import(write_file(refused[_i].text), NULL, NULL),
                     BW_ERR_INPUT);
    ck_assert_str_eq(err.message, refused[_i].says);
    ck_assert_int_eq(err.line, refused[_i].line);
    ck_assert_str_eq(err.file, path);
}
END_TEST

/* What is asked of a construction that has no layer while another has. */
START_TEST(a_construction_without_layers_is_named)
{
    ck_assert_int_eq(import(write_file(HEAD WALL END "\n"), "c", NULL),
                     BW_ERR_INPUT);
    release();
    ck_assert_int_eq(
        import(write_file(HEAD "<Construction id='door'/>\n" WALL
                               "<MaterialId materialIdRef='m'/>" END),
               "door", NULL),
        BW_ERR_INPUT);
    ck_assert_str_eq(err.message,
                     "<Construction> id=\"door\" has no <LayerId>: "
                     "nothing is known of its layers");
    ck_assert_int_eq(err.line, 3);
}
END_TEST

START_TEST(questions_of_use_name_the_choice)
{
    const char *text = HEAD
        "<Construction id='north'/>\n<Construction id='south'>"
        "<LayerId layerIdRef='l'/></Construction>\n<Layer id='l'>"
        "<MaterialId materialIdRef='m'/></Layer>\n<Material id='m'>\n"
        "<Permeance unit='PermSI'>5</Permeance></Material></gbXML>";
    ck_assert_int_eq(import(write_file(text), NULL, NULL), BW_ERR_USAGE);
    ck_assert_str_eq(err.message, "this holds 2 constructions; choose one with "
                                  "--construction ID: north, south");
    ck_assert_int_eq(err.line, 0);
    release();
    ck_assert_int_eq(import(write_file(text), "souht", NULL), BW_ERR_USAGE);
    ck_assert_str_eq(
        err.message,
        "this holds no construction 'souht' (did you mean south?); "
        "it holds: north, south");
    release();
    ck_assert_int_eq(import(write_file(text), "south", "furlong"),
                     BW_ERR_USAGE);
    ck_assert_ptr_eq(strstr(err.message, "--permeance-unit 'furlong' is no "
                                         "unit of permeance: "),
                     err.message);
    release();
    ck_assert_int_eq(import(write_file(text), "south", NULL), BW_ERR_USAGE);
    ck_assert_str_eq(
        err.message,
        "material m gives its permeance in PermSI, which the gbXML schema does "
        "not define, so it is not guessed. Find out what the program that "
        "wrote the file means by it and say so: --permeance-unit "
        "\"ng/(Pa.s.m2)\", \"kg/(m2.s.Pa)\", metricperm or usperm");
    ck_assert_int_eq(err.line, 7);
}
END_TEST

SUITE_AROUND("skeleton_refused", setup, teardown,
             FACT(a_skeleton_is_these_lines_and_no_others),
             FACT(six_materials_are_proposed_at_most),
             EACH(what_is_refused_says_where_and_why, COUNT(refused)),
             FACT(a_construction_without_layers_is_named),
             FACT(questions_of_use_name_the_choice))
