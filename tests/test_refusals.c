/* Faulty assembly files: what is refused, where, and why. */

#include <sys/stat.h>
#include <time.h>

#define FILE_OF_SUITE "./refusals-test.xml"
#include "input_case.h"
#include "suite.h"

#define BAD BW_SOURCE_DIR "/tests/bad/"

static const refusal refusals[] = {
    /* names */
    {"\"test-batt\"", "\"test-bat\"", 8, "did you mean test-batt?"},
    {"\"test-batt\"", "\"concrete\"", 8, "is not in the material library"},
    {"\"test-timber\"", "\"test-timbre\"", 9, "did you mean test-timber?"},
    {"thickness=\"20 mm\"", "thicknes=\"20 mm\"", 6, "did you mean thickness?"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" colour=\"red\"", 6,
     "<layer> colour=\"red\" is not an attribute of <layer>; allowed: id,"},
    {"<membrane ", "<membran ", 13, "did you mean membrane?"},
    {"<framing material", "<frame material", 9, "is not an element of <layer>"},
    {"<evidence kind", "<air-test><a/></air-test><evidence kind", 23,
     "which holds no elements"},
    {"</layers>", "glue</layers>", 5, "loose text \"glue"},
    {"id=\"gap\"", "id=\"face\"", 7,
     "id=\"face\" stands twice (also in line 6)"},
    {"id=\"gap\"", "id=\"bay\"", 8, "stands twice (also in line 7)"},
    {"id=\"gap\"", "id=\"\"", 7,
     "<cavity> id=\"\" is empty; give it a name, or leave id= out"},
    {"id=\"bay\"", "id=\" \"", 8,
     "<layer> id=\" \" is empty; give it a name, or leave id= out"},
    {"<framing material", "<framing id=\"\" material", 9,
     "<framing> id=\"\" is empty; give it a name, or leave id= out"},
    {"id=\"foil\"", "id=\"\"", 13,
     "<membrane> id=\"\" is empty; give it a name, or leave id= out"},
    {"material=\"test-foil\"",
     "material=\"test-foil\" initial-moisture=\"5 %\"", 13,
     "<membrane> initial-moisture=\"5 %\" decides nothing: a membrane stores "
     "no "
     "moisture; leave it out"},
    {"material=\"test-foil\"",
     "material=\"test-foil\" initial-relative-humidity=\"80 %\"", 13,
     "<membrane> initial-relative-humidity=\"80 %\" decides nothing: a "
     "membrane "
     "stores no moisture; leave it out"},
    {"id=\"test\"", "", 1, "<assembly> has no id="},
    {"id=\"test\"", "id=\" \"", 1, "is empty"},
    {"id=\"test\"", "id=\"test\" element=\"door\"", 1,
     "write one of: wall, roof, floor"},
    {"<indoors",
     "<indoors temperature=\"9 degC\" humidity-class=\"1\"/><indoors", 4,
     "stands twice in <assembly>"},
    {"<layers listed=\"outside-to-inside\">", "<layers>", 5,
     "has no listed=, which it needs; write one of: inside-to-outside, "
     "outside-to-inside"},
    /* quantities */
    {"thickness=\"20 mm\"", "thickness=\"20\"", 6, "has no unit"},
    {"thickness=\"20 mm\"", "thickness=\"20 mn\"", 6, "did you mean mm?"},
    {"thickness=\"20 mm\"", "thickness=\"20 kg/m2\"", 6,
     "is the unit of an amount per area, not of a length"},
    {"thickness=\"20 mm\"", "thickness=\"0.0125 mm\"", 6,
     "is 0.0000125 m, thinner than any layer (0.05 mm): a slip of units? Was "
     "\"12.5 mm\" meant?"},
    {"thickness=\"20 mm\"", "thickness=\"-20 mm\"", 6,
     "outside what is possible here, 0 mm to 3000 mm"},
    {"thickness=\"20 mm\"", "thickness=\"0 mm\"", 6, "<membrane>"},
    {"thickness=\"20 mm\"", "thickness=\"nan mm\"", 6,
     "does not start with a number"},
    {"thickness=\"20 mm\"", "thickness=\"1e308 mm\"", 6,
     "outside what is possible"},
    {"thickness=\"20 mm\"", "thickness=\"0,5 mm\"", 6, "use a point"},
    {"thickness=\"20 mm\"", "", 6, "has no thickness="},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" sold-thicknesses=\"20 mm, 40\"", 6,
     "sold-thicknesses=\"20 mm, 40\" - \"40\" has no unit"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" sold-thicknesses=\"20 mm,, 40 mm\"", 6,
     "sold-thicknesses"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" sold-thicknesses=\"0 mm\"", 6,
     "outside what is possible here, 1 mm to 3000 mm"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" sold-thicknesses=\"60 mm, 4 cm\"", 6,
     "has 40 mm after 60 mm; write each thickness once, from thin to thick"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" sold-thicknesses=\"60 mm, 60 mm\"", 6,
     "has 60 mm after 60 mm"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" sold-thicknesses=\"1 mm,2 mm,3 mm,4 mm,5 mm,6 mm,"
     "7 mm,8 mm,9 mm,10 mm,11 mm,12 mm,13 mm,14 mm,15 mm,16 mm,17 mm,18 mm,"
     "19 mm,20 mm,21 mm,22 mm,23 mm,24 mm,25 mm,26 mm,27 mm,28 mm,29 mm,30 mm,"
     "31 mm,32 mm,33 mm\"",
     6, "has 33 thicknesses; at most 32"},
    {"<membrane ", "<membrane sold-thicknesses=\"2 mm\" ", 13,
     "is said of a <layer>"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" lambda=\"0 W/(m.K)\"", 6,
     "outside what is possible here, 0.001 W/(m.K) to"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" sd=\"50\"", 6,
     "belongs in mu="},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" mu=\"0.2\"", 6,
     "a length belongs in sd="},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" mu=\"0.2 m\"", 6,
     "belongs in sd="},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" permeance=\"5 perm\"", 6,
     "usperm"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" mu=\"9\" sd=\"0.2 m\"", 6,
     "say the same thing twice"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" lambda=\"0.2 W/(m.K)\" resistance=\"0.1 m2.K/W\"", 6,
     "say the same thing twice"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" initial-moisture=\"9 %\" "
     "initial-relative-humidity=\"80 %\"",
     6, "say the same thing twice"},
    /* panel of 800 kg/m3, plant fibre of 1500: pores 46.7 %, 58.3 % by mass */
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" initial-moisture=\"59 %\"", 6,
     "is more than Test board holds: with 46.7 % of it pores, estimated from "
     "its density, it takes at most 58.3 % by mass"},
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" initial-moisture=\"900 %\"", 9,
     "is more than"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" evidence=\"guessed\"", 6,
     "write one of: assumed, tabulated, declared, measured"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" evidence=\"guessed\"", 6,
     "declared: a data sheet; measured: on this wall"},
    /* layers */
    {"material=\"test-foil\"", "", 13, "has no vapour resistance"},
    {"material=\"test-foil\"", "material=\"test-board\"", 13,
     "or write <layer> with a thickness"},
    {"<membrane id=\"foil\" material=\"test-foil\"/>", "<membrane sd=\"1 m\"/>",
     13, "no id= or name="},
    {"<membrane id=\"foil\"", "<layer id=\"foil\"", 13,
     "has no conductivity; give lambda=\"0.13 W/(m.K)\" or "
     "resistance=\"0.05 m2.K/W\", or write <membrane>"},
    {"<membrane id=\"foil\" material=\"test-foil\"/>",
     "<layer id=\"x\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\"/>", 13,
     "has no vapour resistance; give mu="},
    {"<membrane id=\"foil\" material=\"test-foil\"/>",
     "<layer id=\"x\" thickness=\"9 mm\" lambda=\"1 W/(m.K)\" mu-wet=\"5\"/>",
     13, "needs a mu="},
    {"id=\"gap\" thickness=\"50 mm\"", "id=\"gap\"", 7, "has no thickness="},
    {" ventilation=\"none\"", "", 7,
     "has no ventilation=, which it needs; write one of: none, slight, well"},
    {"ventilation=\"none\"", "ventilation=\"slight\" openings=\"9000 mm2/m\"",
     7, "is no slight ventilation"},
    {"ventilation=\"none\"", "ventilation=\"none\" emissivity=\"0.99\"", 7,
     "outside what is possible here"},
    {"ventilation=\"none\"",
     "ventilation=\"none\" emissivity=\"0.05\" resistance=\"0.4 m2.K/W\"", 7,
     "and resistance= both set"},
    {"</layers>", "<cavity thickness=\"5 mm\" ventilation=\"none\"/></layers>",
     15, "is the innermost layer"},
    /* framing: two sections' fractions over 100 % */
    {"width=\"45 mm\"", "width=\"650 mm\"", 9, "108 % of the area"},
    {"width=\"45 mm\" spacing=\"600 mm\"", "fraction=\"110 %\"", 9,
     "outside what is possible here"},
    {"width=\"45 mm\" spacing=\"600 mm\"", "fraction=\"0.15\"", 9,
     "has no unit"},
    {" spacing=\"600 mm\"", "", 9, "needs either fraction="},
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" depth=\"95 mm\"", 9,
     "is deeper than the layer that it stands in (90 mm)"},
    {"<framing material=\"test-timber\"", "<framing material=\"test-foil\"", 9,
     "nothing can be framed with it"},
    {"<uncertain property",
     "<framing material=\"test-timber\" fraction=\"95 %\"/><uncertain property",
     10, "stands twice in <layer>"},
    /* ranges */
    {"property=\"mu\"", "property=\"my\"", 10, "did you mean mu?"},
    {"low=\"1\" high=\"3\"", "low=\"3\" high=\"1\"", 10, "is not below high="},
    {"low=\"1\"", "low=\"1 m\"", 10, "no unit belongs here"},
    {"<alternative material=\"test-board\" thickness=\"9 mm\"",
     "<alternative material=\"test-board\"", 11, "has no thickness="},
    /* edges */
    {"faces=\"SW\"", "faces=\"WS\"", 3, "is not a compass point"},
    {"faces=\"SW\"", "faces=\"225\"", 3, "has no unit"},
    {"solar-absorptance=\"0.6\"", "solar-absorptance=\"60 %\"", 3,
     "no unit belongs here"},
    {"solar-absorptance=\"0.6\"", "solar-absorptance=\"1.6\"", 3,
     "outside what is possible here, 0 to 1"},
    {"climate=\"weather/here.csv\"", "climate=\"\"", 3, "is empty"},
    {"humidity-class=\"3\"", "humidity-class=\"6\"", 4,
     "is not a whole number from 1 to 5"},
    /* ISO 13788:2012, annex A (from memory, high) */
    {"humidity-class=\"3\"", "humidity-class=\"6\"", 4,
     "2: offices, dwellings normally occupied"},
    {"driving-rain=\"sheltered\"", "driving-rain=\"heavy\"", 3,
     "severe: hilltop, coast, wind funnelled, or run-off from above)"},
    {"humidity-class=\"3\"", "humidity-class=\"3.5\"", 4,
     "is not a whole number from 1 to 5"},
    {"humidity-class=\"3\"", "", 4, "does not say how humid the room is"},
    {"humidity-class=\"3\"", "humidity-class=\"3\" relative-humidity=\"50 %\"",
     4, "in several ways: humidity-class, relative-humidity"},
    {"humidity-class=\"3\"", "relative-humidity=\"0.5\"", 4,
     "0.55 without a sign may mean 55 % or 0.55 %"},
    {"humidity-class=\"3\"", "relative-humidity=\"0.5 %\"", 4,
     "outside what is possible here, 1 % to 100 %"},
    {"humidity-class=\"3\"", "relative-humidity=\"101 %\"", 4,
     "outside what is possible here, 1 % to 100 %"},
    {"temperature=\"20 degC\" humidity", "humidity", 4, "has no temperature="},
    {"temperature=\"20 degC\"", "temperature=\"293 degC\"", 4,
     "outside what is possible here, -30 degC to 60 degC"},
    {"humidity-class=\"3\"", "conditions=\"en15026-normal\"", 4,
     "cannot stand beside conditions="},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "conditions=\"en15026-normal\" margin=\"no\"/>", 4, "counts only with"},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"800 Pa\"/>"
     "</indoors>",
     4, "has no <month number=\"2\">"},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"800 Pa\"/>"
     "\n<month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"8 "
     "hPa\"/></indoors>",
     5, "stands twice (first in line 4)"},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "><month number=\"1\" temperature=\"9 degC\" "
     "vapour-pressure=\"1800 Pa\"/></indoors>",
     4, "above saturation"},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "><month number=\"1\" temperature=\"9 degC\"/></indoors>", 4,
     "needs one of relative-humidity="},
    {"temperature=\"20 degC\" humidity-class=\"3\"/>",
     "><month number=\"13\" temperature=\"9 degC\"/></indoors>", 4,
     "is not a whole number from 1 to 12"},
    /* events */
    {"q50=\"3 m3/(m2.h)\"", "q50=\"3 1/h\"", 16,
     "is the unit of an air change rate"},
    {" connected-height=\"5 m\"", "", 16, "has no connected-height="},
    {"after-layer=\"bay\"", "after-layer=\"bey\"", 17, "did you mean bay?"},
    {"after-layer=\"bay\"", "after-layer=\"lining\"", 17,
     "is the innermost layer"},
    {"start-month=\"10\"", "start-month=\"0\"", 17,
     "is not a whole number from 1 to 12"},
    {"fraction=\"1 %\"", "fraction=\"101 %\"", 18, "outside what is possible"},
    {" after-layer=\"gap\"", "", 18, "has no after-layer="},
    {"2031-05-02", "2031-02-29", 20, "is not a day"},
    {"2031-05-02", "2.5.2031", 20, "is not a day"},
    {"\"membrane-exposed\"", "\"exposed\"", 20, "write one of: membrane-expos"},
    {"critical=\"20 %\"", "critical=\"17 %\"", 21, "is below allowed=\"18 %\""},
    {"<moisture-limit ", "<moisture-limit part=\"bay.framin\" ", 21,
     "is no layer or framing of this wall (did you mean bay.framing?); there "
     "are: face, gap, bay, bay.framing, foil, lining"},
    {"<moisture-limit ", "<moisture-limit part=\"face.framing\" ", 21,
     "is no layer or framing of this wall"},
    {"<moisture-limit ", "<moisture-limit part=\"\" ", 21,
     "is no layer or framing of this wall"},
    {"<moisture-limit ", "<moisture-limit part=\"gap\" ", 21,
     "is a cavity, of which no moisture is read"},
    {"<moisture-limit ", "<moisture-limit part=\"foil\" ", 21,
     "is a membrane, of which no moisture is read"},
    {"<evidence ", "<evidence part=\"stud\" ", 23,
     "is no layer or framing of this wall"},
    {"<evidence ", "<evidence date=\"2031-02-29\" ", 23, "is not a day"},
    {"<evidence ",
     "<wet-spell from=\"2031-02-02\" to=\"2031-02-01\"/><evidence ", 23,
     "is before from=\"2031-02-02\""},
    {"<evidence ", "<wet-spell from=\"2031-02-02\"/><evidence ", 23,
     "<wet-spell> has no to="},
    {"<reading ", "<reading as-read=\"maybe\" ", 22, "yes"},
    {"<reading ", "<reading wood-temperature=\"8 %\" ", 22,
     "not of a temperature"},
    {"<reading ",
     "<moisture-limit member=\"stud\" allowed=\"9 %\" critical=\"9 %\"/>"
     "<reading ",
     22, "has a limit already (line 21)"},
    {"member=\"stud\" place", "member=\"stub\" place", 22,
     "did you mean stud?"},
    {"moisture=\"16.5 %\"", "moisture=\"16.5\"", 22, "has no unit"},
    {" of=\"clear cavity\"", "", 23, "has no of="},
};

START_TEST(faults_are_refused_with_line_and_reason)
{
    expect_refusal(&refusals[_i]);
}
END_TEST

typedef struct file_row {
    const char *name;
    long line;
    const char *fragment;
} file_row;

static const file_row files[] = {
    {BAD "doctype.xml", 3, "a document type (<!DOCTYPE ...>) is not accepted"},
    {BAD "entity-bomb.xml", 3, "is not accepted in assembly files"},
    {BAD "external-entity.xml", 2, "is not accepted in assembly files"},
    {BAD "undefined-entity.xml", 2, "Entity 'deg' not defined"},
    {BAD "version-2.xml", 2,
     "is version 2 of the assembly file; this program reads version 1"},
    {BAD "no-namespace.xml", 2, "xmlns=\"urn:bothways:assembly:1\""},
    {BAD "other-namespace.xml", 2, "is not the namespace of assembly files"},
    {BAD "foreign-element.xml", 4, "is not in the namespace"},
    {BAD "other-root.xml", 2, "<wall> is not what"},
    {BAD "broken.xml", 5, "this is not well-formed XML"},
    {BAD "not-xml.xml", 1, "this is not well-formed XML"},
    {BW_SOURCE_DIR "/tests", 0, "this is a directory"},
    {BAD "no-such-file.xml", 0, "cannot open this assembly file"},
};

START_TEST(faulty_files_are_refused_at_once)
{
    bw_assembly *a = NULL;
    bw_error err = {0};
    clock_t start = clock();
    ck_assert_int_eq(bw_assembly_read(&a, files[_i].name, library, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(a);
    ck_assert_msg(strstr(err.message, files[_i].fragment) != NULL, "%s",
                  err.message);
    ck_assert_int_eq(err.line, files[_i].line);
    /* Far from the minutes that expanding the bomb would take. */
    ck_assert(clock() - start < 2 * CLOCKS_PER_SEC);
}
END_TEST

typedef struct junk_row {
    const char *bytes;
    size_t length;
    const char *fragment;
} junk_row;

static const junk_row junk[] = {
    {"", 0, "this assembly file is empty"},
    {"\x1f\x8b\x08\x00\x12\x34", 6, "compressed"},
    {"\x7f\x45\x4c\x46\x02\x00\x01", 7, "not a text file"},
    {"\x81\x92\xa3\xb4\xc5\xd6", 6, "not well-formed"},
    {"\xff\xfe<\0a\0/\0>\0", 10, "not a text file"},
};

START_TEST(junk_is_refused)
{
    bw_assembly *a = NULL;
    bw_error err = {0};
    put(file_name, junk[_i].bytes, junk[_i].length);
    ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err),
                     BW_ERR_INPUT);
    unlink(file_name);
    ck_assert_msg(strstr(err.message, junk[_i].fragment) != NULL, "%s",
                  err.message);
}
END_TEST

START_TEST(an_unreadable_file_is_refused)
{
    if (geteuid() == 0) {
        fprintf(stderr, "SKIPPED: root can read every file\n");
        return;
    }
    bw_assembly *a;
    bw_error err = {0};
    put_changed("id=\"test\"", "id=\"test\"");
    chmod(file_name, 0);
    ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err),
                     BW_ERR_INPUT);
    unlink(file_name);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot open"));
}
END_TEST

/* Every way of cutting the sound file short, and every byte of it spoilt:
 * either refused with a line or read, never anything else. */
START_TEST(a_file_cut_short_anywhere_is_refused)
{
    size_t end = strlen(sound) - strlen("</assembly>\n");
    for (size_t length = 1; length < end; length += 7) {
        bw_assembly *a = NULL;
        bw_error err = {0};
        put(file_name, sound, length);
        ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err),
                         BW_ERR_INPUT);
        ck_assert_int_gt(err.line, 0);
    }
    unlink(file_name);
}
END_TEST

START_TEST(a_spoilt_byte_never_does_harm)
{
    char text[sizeof sound];
    static const char spoil[] = {'<', '"', '9', '-', ' ', '\xe9', '&', '\x01'};
    for (size_t i = 0; i + 1 < sizeof sound; i += 3) {
        bw_assembly *a = NULL;
        bw_error err = {0};
        memcpy(text, sound, sizeof sound);
        text[i] = spoil[i / 3 % sizeof spoil];
        put(file_name, text, sizeof sound - 1);
        bw_status status = bw_assembly_read(&a, file_name, library, &err);
        ck_assert(status == BW_OK || status == BW_ERR_INPUT);
        ck_assert((status == BW_OK) == (a != NULL));
        bw_assembly_free(a);
    }
    unlink(file_name);
}
END_TEST

START_TEST(too_many_layers_are_refused)
{
    char many[66 * 40] = "";
    for (int i = 0; i < 65; i++)
        strcat(many, "<membrane name=\"m\" sd=\"1 m\"/>");
    bw_assembly *a = NULL;
    bw_error err = {0};
    put_changed("<membrane id=\"foil\" material=\"test-foil\"/>", many);
    ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err),
                     BW_ERR_INPUT);
    unlink(file_name);
    ck_assert_ptr_nonnull(strstr(err.message, "1 to 64 are accepted"));
}
END_TEST

SUITE_AROUND("refusals", read_library, free_library,
             EACH(faults_are_refused_with_line_and_reason, COUNT(refusals)),
             EACH(faulty_files_are_refused_at_once, COUNT(files)),
             EACH(junk_is_refused, COUNT(junk)),
             FACT(an_unreadable_file_is_refused),
             FACT(a_file_cut_short_anywhere_is_refused),
             FACT(a_spoilt_byte_never_does_harm),
             FACT(too_many_layers_are_refused))
