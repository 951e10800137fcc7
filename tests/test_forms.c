/* Forms in which a value, a date or a piece of XML may stand in an assembly
 * file, and those that are refused. */

#include <math.h>

#define FILE_OF_SUITE "./forms-test.xml"
#include "input_case.h"
#include "suite.h"

/* ---- days of the closing-up record ------------------------------------- */

/* Gregorian calendar: a year divisible by 4 is a leap year, but for the
 * centuries not divisible by 400. */
static const char *const days[] = {"2024-02-29", "2000-02-29", "2400-02-29",
                                   "2025-02-28", "2031-01-01", "2031-12-31",
                                   "2031-04-30", "0000-01-31"};

START_TEST(days_of_the_calendar_are_read)
{
    bw_assembly *a = read_changed("2031-05-02", days[_i]);
    ck_assert_str_eq(a->closing_up.air_test[0].date, days[_i]);
    bw_assembly_free(a);
}
END_TEST

static const char *const no_days[] = {"2025-02-29",
                                      "2100-02-29",
                                      "1900-02-29",
                                      "2024-02-30",
                                      "2031-00-02",
                                      "2031-13-02",
                                      "2031-99-02",
                                      "2031-05-00",
                                      "2031-05-32",
                                      "2031-04-31",
                                      "2031/05/02",
                                      "2031-05/02",
                                      "2031-05-0x",
                                      "2031-0 -02",
                                      "2031-5-2",
                                      "2031-05-02T10:00",
                                      "02-05-2031",
                                      "+031-05-02",
                                      "2031-05-\xc3\xa9",
                                      "31-05-02",
                                      "20310502",
                                      "2031-05-2:0",
                                      "2031-05-02 2031-05-03"};

START_TEST(what_is_no_day_is_refused)
{
    refusal row = {"2031-05-02", no_days[_i], 20, "is not a day; write"};
    expect_refusal(&row);
    row = (refusal){"2031-05-01", no_days[_i], 22, "is not a day; write"};
    expect_refusal(&row);
}
END_TEST

/* ---- numbers ----------------------------------------------------------- */

static const struct {
    const char *text;
    double metres;
} lengths[] = {{"20 mm", 0.02},
               {"+20 mm", 0.02},
               {"2e1 mm", 0.02},
               {" 20mm ", 0.02},
               {"020.0 mm", 0.02},
               {"20. mm", 0.02},
               {"20&#13;mm", 0.02},
               {".02 m", 0.02},
               {"2E-2 m", 0.02},
               {"20000 &#181;m", 0.02},
               {"20&#9;mm", 0.02},
               {"2 cm", 0.02},
               {"20.000000000000000000 mm", 0.02},
               {"20e+00000 mm", 0.02}};

START_TEST(a_length_may_be_written_in_many_ways)
{
    char to[80];
    snprintf(to, sizeof to, "thickness=\"%s\"", lengths[_i].text);
    bw_assembly *a = read_changed("thickness=\"20 mm\"", to);
    ck_assert_double_eq_tol(a->layer[0].thickness, lengths[_i].metres, 1e-12);
    bw_assembly_free(a);
}
END_TEST

#define ZEROS "00000000000000000000000000000000000000000000000000"

static const struct {
    const char *text, *says;
} no_lengths[] = {
    {"", "is empty; write a length"},
    {"  ", "is empty; write a length"},
    {"&#10;", "is empty; write a length"},
    {"1e400 mm", "is too large a number"},
    {"-1e400 mm", "is too large a number"},
    {"1e99999999999999999999 mm", "is too large a number"},
    {"1" ZEROS ZEROS ZEROS " mm", "is too large a number"},
    {".5e999 mm", "is too large a number"},
    {"+.mm", "does not start with a number"},
    {"inf mm", "does not start with a number"},
    {"Infinity mm", "does not start with a number"},
    {"-nan mm", "does not start with a number"},
    {"--20 mm", "does not start with a number"},
    {"twenty mm", "does not start with a number"},
    {"0x14 mm", "is not a decimal number"},
    {"20X mm", "is not a decimal number"},
    {"20,0 mm", "has a comma in the number"},
    {"2 0 mm", "is not a unit known here"},
    {"20 MM", "did you mean mm?"},
    {"20 mm mm", "is not a unit known here"},
    {"20 millimetres of the usual and well-known kind as sold here",
     "is not a unit known here"},
    {"20 in", "it is 508 mm; write a length"},
    {"1e-400 mm", "is no thickness"},
    {"-0 mm", "is no thickness"},
    {"3001 mm", "0 mm to 3000 mm"},
};

START_TEST(what_is_no_length_is_refused)
{
    char to[260];
    snprintf(to, sizeof to, "thickness=\"%s\"", no_lengths[_i].text);
    const refusal row = {"thickness=\"20 mm\"", to, 6, no_lengths[_i].says};
    expect_refusal(&row);
}
END_TEST

static const char *const no_classes[] = {
    "3.0", "+3",          "3x", "x3",  " 3",  "3 ",  "",  "0",
    "-3",  "12345678901", "6",  "0x3", "3e0", "--3", "3-"};

START_TEST(a_whole_number_stands_in_digits_alone)
{
    char to[64];
    snprintf(to, sizeof to, "humidity-class=\"%s\"", no_classes[_i]);
    const refusal row = {"humidity-class=\"3\"", to, 4,
                         "is not a whole number from 1 to 5"};
    expect_refusal(&row);
}
END_TEST

/* ---- XML --------------------------------------------------------------- */

static const struct {
    const char *from, *to;
} xml[] = {
    {"<closing-up>", "<closing-up><!-- seen by two -->"},
    {"<closing-up>", "<closing-up><?note seen by two?>"},
    {"</layers>", "<![CDATA[  \n ]]></layers>"},
    {"id=\"face\"", "id=\"f&#97;ce\""},
    {"id=\"test\"", "id=\"test\" xml:lang=\"en\" xml:id=\"x\""},
    {"id=\"test\"",
     "id=\"test\" xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
     "xsi:schemaLocation=\"urn:bothways:assembly:1 assembly.xsd\""},
    {"<closing-up>",
     "<closing-up xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
     "xsi:nil=\"false\">"},
};

START_TEST(what_people_and_editors_add_changes_nothing)
{
    bw_assembly *a = read_changed(xml[_i].from, xml[_i].to);
    ck_assert_str_eq(a->layer[0].id, "face");
    ck_assert_str_eq(a->id, "test");
    ck_assert_uint_eq(a->layer_count, 5);
    ck_assert(a->closing_up.given);
    bw_assembly_free(a);
}
END_TEST

static const refusal bad_xml[] = {
    {"</layers>", "<![CDATA[glue]]></layers>", 5, "loose text \"glue\""},
    {"<closing-up>", "<closing-up>5 &lt; 6", 19, "loose text \"5 < 6"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" xmlns:o=\"urn:other\" o:thickness=\"3 mm\"", 6,
     "<layer> has the attribute o:thickness=, which is of another namespace"},
    {"thickness=\"20 mm\"", "xmlns:o=\"urn:other\" o:thickness=\"3 mm\"", 6,
     "o:thickness="},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" o:thickness=\"3 mm\"", 6,
     "Namespace prefix o"},
    /* refused by libxml2 while it still reads the attributes behind it */
    {"thickness=\"20 mm\"", "xml:id=\"1 2\" thickness=\"20 mm\"", 6,
     "not an NCName"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" thickness=\"3 mm\"", 6,
     "not well-formed XML"},
    {"<closing-up>", "<closing-up xmlns=\"\">", 19, "is not in the namespace"},
    {"<closing-up>", "<closing-up seen=\"yes\">", 19,
     "<closing-up> seen=\"yes\" cannot stand in <closing-up>, which has no "
     "attributes"},
};

START_TEST(xml_that_says_something_else_is_refused)
{
    expect_refusal(&bad_xml[_i]);
}
END_TEST

/* libxml2 takes no text over 10 MB, nests 256 deep at most, and calls the first
 * of the two a lack of memory in the same breath. */
START_TEST(a_text_beyond_all_measure_is_a_fault_of_the_file)
{
    enum { LONG = 11000000 };
    char *text = malloc(LONG + 200);
    ck_assert_ptr_nonnull(text);
    size_t used = (size_t)sprintf(
        text, "<assembly xmlns=\"urn:bothways:assembly:1\"\n id=\"a &amp; "
              "b\"\n title=\"&amp;");
    memset(text + used, 'x', LONG);
    used += LONG;
    used += (size_t)sprintf(text + used, "\"/>");
    bw_assembly *a = NULL;
    bw_error err = {0};
    put(file_name, text, used);
    free(text);
    bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_msg(status == BW_ERR_INPUT, "%s", err.message);
    ck_assert_ptr_nonnull(strstr(err.message, "longer than"));
    ck_assert_int_eq(err.line, 3);
}
END_TEST

START_TEST(elements_nested_without_end_are_refused)
{
    char text[2000] = "<assembly xmlns=\"urn:bothways:assembly:1\">\n";
    for (int i = 0; i < 400; i++)
        strcat(text, "<a>");
    bw_assembly *a = NULL;
    bw_error err = {0};
    put(file_name, text, strlen(text));
    bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 2);
}
END_TEST

/* ---- rules between attributes ------------------------------------------ */

#define FRAMED "width=\"45 mm\" spacing=\"600 mm\""
#define FOIL "<membrane id=\"foil\" material=\"test-foil\"/>"
#define BOARD "<layer id=\"x\" material=\"test-board\" "
#define ROOM "temperature=\"20 degC\" humidity-class=\"3\"/>"
#define MONTH "<month number=\"1\" temperature=\"9 degC\" "

static const refusal rules[] = {
    /* framing by share or by width and spacing, not by both */
    {FRAMED, "fraction=\"8 %\" " FRAMED, 9, "needs either fraction="},
    {FRAMED, "fraction=\"8 %\" width=\"45 mm\"", 9, "needs either fraction="},
    {FRAMED, "fraction=\"8 %\" spacing=\"600 mm\"", 9,
     "needs either fraction="},
    {FRAMED, "spacing=\"600 mm\"", 9, "needs either fraction="},
    {FRAMED, "", 9, "needs either fraction="},
    {"<framing material=\"test-timber\"", "<framing material=\"test-film\"", 9,
     "no mu in the library"},
    {FOIL,
     BOARD "resistance=\"0.1 m2.K/W\" sd=\"1 m\"><framing material="
           "\"test-timber\" fraction=\"9 %\"/></layer>",
     13, "<framing> needs a thickness="},
    {FOIL,
     BOARD "resistance=\"0.1 m2.K/W\" sd=\"1 m\"><framing material="
           "\"test-timber\" fraction=\"9 %\" depth=\"5 mm\"/></layer>",
     13, "<framing> needs a thickness="},
    /* thickness */
    {FOIL, "<layer id=\"x\" lambda=\"1 W/(m.K)\" sd=\"1 m\"/>", 13,
     "a foil or coating is a <membrane>"},
    {FOIL, "<layer id=\"x\" material=\"test-variable\" lambda=\"1 W/(m.K)\"/>",
     13, "a foil or coating is a <membrane>"},
    {FOIL, "<layer id=\"x\" resistance=\"1 m2.K/W\" mu=\"5\"/>", 13,
     "<layer> has no thickness=, which it needs"},
    {FOIL, "<layer id=\"x\" thickness=\"9 mm\"/>", 13,
     "or resistance=\"0.05 m2.K/W\""},
    {FOIL, "<membrane id=\"x\" thickness=\"1 mm\"/>", 13,
     "(a membrane) has no vapour resistance"},
    {FOIL, "<membrane id=\"x\" mu=\"5000\"/>", 13,
     "(a membrane) has no vapour resistance"},
    {FOIL, "<membrane id=\"x\" mu=\"5000\" thickness=\"0 mm\"/>", 13,
     "(a membrane) has no vapour resistance"},
    {FOIL, "<membrane name=\"\" sd=\"1 m\"/>", 13, "no id= or name="},
    {FOIL, "<membrane sd=\"1 m\"/>", 13, "no id= or name="},
    /* what a range may be of */
    {FOIL,
     "<membrane material=\"test-foil\"><uncertain property=\"mu\" "
     "low=\"1\" high=\"20\"/></membrane>",
     13,
     "property=\"mu\" needs a thickness= of the layer; without one give a "
     "range of sd"},
    {FOIL,
     BOARD "resistance=\"0.1 m2.K/W\" sd=\"1 m\"><uncertain property="
           "\"lambda\" low=\"0.1 W/(m.K)\" high=\"0.2 W/(m.K)\"/></layer>",
     13, "without one give a range of resistance"},
    {"<uncertain property=\"mu\" low=\"1\" high=\"3\"/>",
     "<uncertain property=\"mu\" low=\"1\" high=\"3\"/>\n"
     "<uncertain property=\"mu\" low=\"1\" high=\"9\"/>",
     11, "property=\"mu\" has a range already"},
    {FOIL,
     "<membrane material=\"test-foil\"><uncertain property=\"sd\" "
     "low=\"1 m\" high=\"2 m\"/><uncertain property=\"permeance\" "
     "low=\"1 usperm\" high=\"2 usperm\"/></membrane>",
     13, "property=\"permeance\" has a range already: one <uncertain> of sd"},
    {"property=\"mu\" low=\"1\" high=\"3\"",
     "property=\"permeance\" low=\"2 usperm\" high=\"1 usperm\"", 10,
     "low=\"2 usperm\" is not below high=\"1 usperm\""},
    {"low=\"1\" high=\"3\"", "low=\"2\" high=\"2\"", 10, "is not below high="},
    /* cavities */
    {"ventilation=\"none\"", "ventilation=\"slight\" openings=\"400 mm2/m\"", 7,
     "is no slight ventilation"},
    /* the room */
    {ROOM,
     "humidity-class=\"3\">" MONTH "relative-humidity=\"50 %\"/>"
     "</indoors>",
     4, "in several ways: humidity-class, <month> rows"},
    {ROOM,
     "temperature=\"20 degC\">" MONTH "relative-humidity=\"50 %\"/>"
     "</indoors>",
     4, "cannot stand beside <month> rows, which give it month by month"},
    {ROOM, "margin=\"no\">" MONTH "relative-humidity=\"50 %\"/></indoors>", 4,
     "counts only with humidity-class="},
    {ROOM,
     ">" MONTH "relative-humidity=\"50 %\" vapour-pressure=\"500 Pa\"/>"
     "</indoors>",
     4, "<month> needs one of relative-humidity="},
    {ROOM, "conditions=\"en15026-norml\"/>", 4, "did you mean en15026-normal?"},
    /* events */
    {"after-layer=\"bay\"", "after-layer=\"\"", 17, "is no layer's id"},
    {"start-month=\"10\"", "start-month=\"13\"", 17,
     "is not a whole number from 1 to 12"},
    {"member=\"stud\" place", "member=\"joist\" place", 22,
     "member=\"joist\" has no <moisture-limit>; every member read needs one"},
    {"<moisture-limit member=\"stud\"",
     "<moisture-limit member=\"plate-a\" allowed=\"9 %\" critical=\"9 %\"/>"
     "<moisture-limit member=\"plate-bc\"",
     22, "member=\"stud\" has no <moisture-limit>; every"},
    {"allowed=\"18 %\"", "allowed=\"0.18 m3/m3\"", 21, "by mass"},
    /* a value too long to be shown is cut */
    {"stage=\"membrane-exposed\"", "stage=\"" ZEROS ZEROS "\"", 20,
     "<air-test> stage=\"" ZEROS "0000000000...\" is not known"},
};

START_TEST(values_that_do_not_go_together_are_refused)
{
    expect_refusal(&rules[_i]);
}
END_TEST

/* Of two names that come near the nearer one is meant. */
START_TEST(the_nearest_member_is_suggested_not_the_first_near_one)
{
    static const refusal nearer = {
        "member=\"stud\" allowed=\"18 %\" critical=\"20 %\"/>\n"
        "<reading date=\"2031-05-01\" member=\"stud\"",
        "member=\"plate-aa\" allowed=\"18 %\" critical=\"20 %\"/>"
        "<moisture-limit member=\"plate-bc\" allowed=\"9 %\" critical=\"9 %\"/>"
        "\n<reading date=\"2031-05-01\" member=\"plate-bb\"",
        22, "did you mean plate-bc?"};
    expect_refusal(&nearer);
}
END_TEST

START_TEST(a_file_named_without_a_folder_has_its_climate_beside_it)
{
    bw_assembly *a = NULL;
    bw_error err = {0};
    put("forms-plain.xml", sound, strlen(sound));
    bw_status status = bw_assembly_read(&a, "forms-plain.xml", library, &err);
    unlink("forms-plain.xml");
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_str_eq(a->outdoors.climate_path, "weather/here.csv");
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_wall_without_layers_is_refused)
{
    static const char text[] =
        "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"bare\">\n"
        "<outdoors/><indoors temperature=\"20 degC\" humidity-class=\"3\"/>\n"
        "<layers listed=\"outside-to-inside\"/>\n</assembly>\n";
    bw_assembly *a = NULL;
    bw_error err = {0};
    put(file_name, text, strlen(text));
    bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 3);
    ck_assert_ptr_nonnull(strstr(err.message, "holds 0 layers; 1 to 64"));
}
END_TEST

SUITE_AROUND("forms", read_library, free_library,
             EACH(days_of_the_calendar_are_read, COUNT(days)),
             EACH(what_is_no_day_is_refused, COUNT(no_days)),
             EACH(a_length_may_be_written_in_many_ways, COUNT(lengths)),
             EACH(what_is_no_length_is_refused, COUNT(no_lengths)),
             EACH(a_whole_number_stands_in_digits_alone, COUNT(no_classes)),
             EACH(what_people_and_editors_add_changes_nothing, COUNT(xml)),
             EACH(xml_that_says_something_else_is_refused, COUNT(bad_xml)),
             FACT(a_text_beyond_all_measure_is_a_fault_of_the_file),
             FACT(elements_nested_without_end_are_refused),
             EACH(values_that_do_not_go_together_are_refused, COUNT(rules)),
             FACT(the_nearest_member_is_suggested_not_the_first_near_one),
             FACT(a_file_named_without_a_folder_has_its_climate_beside_it),
             FACT(a_wall_without_layers_is_refused))
