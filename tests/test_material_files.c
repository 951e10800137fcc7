/* Material files: sound ones read value by value, faulty ones refused with
 * line and reason, directories added and overridden; lookup and curves. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/material.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static const char *const shipped_path = BW_SOURCE_DIR "/materials";
static bw_library *shipped;

static void open_shipped(void)
{
    bw_error err;
    bw_status status = bw_library_read(&shipped, &shipped_path, 1, &err);
    ck_assert_msg(status == BW_OK, "%s:%ld: %s", err.file, err.line,
                  err.message);
}

static void close_shipped(void)
{
    bw_library_free(shipped);
}

typedef struct folder {
    char path[64], file[96];
} folder;

static void make_folder(folder *f, const char *text)
{
    strcpy(f->path, "test-material-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(f->path));
    snprintf(f->file, sizeof f->file, "%s/a.xml", f->path);
    if (text == NULL)
        return;
    FILE *out = fopen(f->file, "w");
    ck_assert_ptr_nonnull(out);
    ck_assert_int_ge(fputs(text, out), 0);
    ck_assert_int_eq(fclose(out), 0);
}

static void drop_folder(const folder *f)
{
    unlink(f->file);
    rmdir(f->path);
}

/* Line 1 the root, line 2 the source, then `body` from line 3 on. */
#define ROOT "<materials xmlns=\"urn:bothways:material:1\" group=\"board\">\n"
#define HEAD ROOT "<source key=\"sheet\">A data sheet</source>\n"
#define FLAGS                                                                  \
    "<flags hygroscopic=\"no\" absorbs-condensate=\"no\" wood=\"none\" "       \
    "mould=\"resistant\" source=\"sheet\"/>"
#define ORIGIN "basis=\"given\" source=\"sheet\"/>"
#define MU "<mu-dry value=\"5\" " ORIGIN
#define TAIL FLAGS "</material>\n</materials>\n"
/* The fragment stands in line 4. */
#define WITH(fragment)                                                         \
    HEAD "<material id=\"b\" name=\"B\">\n" fragment "\n" MU TAIL
#define BARE(fragment)                                                         \
    HEAD "<material id=\"b\" name=\"B\">\n" fragment "\n" TAIL
#define CURVE(fragment)                                                        \
    WITH("<sorption basis=\"given\" source=\"sheet\">\n" fragment "</"         \
         "sorption>")

static const struct {
    const char *text;
    long line;
    const char *says[3];
} faults[] = {
    {WITH("<densty value=\"5 kg/m3\" " ORIGIN),
     4,
     {"<densty>", "did you mean density", "specific-heat"}},
    {WITH("<density valeu=\"5 kg/m3\" " ORIGIN),
     4,
     {"valeu", "did you mean value", NULL}},
    {WITH("<density value=\"450\" " ORIGIN),
     4,
     {"<density> value=\"450\"", "kg/m3", NULL}},
    {WITH("<density value=\"450 W/(m.K)\" " ORIGIN), 4, {"kg/m3", NULL, NULL}},
    {WITH("<density " ORIGIN), 4, {"has no value=", "kg/m3", NULL}},
    {WITH("<density value=\"5 kg/m3\" source=\"sheet\"/>"),
     4,
     {"has no basis=", "from-memory", NULL}},
    {WITH("<density value=\"5 kg/m3\" basis=\"form-memory\" "
          "source=\"sheet\"/>"),
     4,
     {"form-memory", "did you mean from-memory", NULL}},
    {WITH("<density value=\"5 kg/m3\" basis=\"given\"/>"),
     4,
     {"has no source=", NULL, NULL}},
    {WITH("<density value=\"5 kg/m3\" basis=\"given\" source=\" \"/>"),
     4,
     {"source=", "is empty", NULL}},
    {WITH("<density value=\"5 kg/m3\" basis=\"given\" source=\"sheet "
          "shet\"/>"),
     4,
     {"\"shet\"", "did you mean sheet", "declare <source"}},
    {WITH("<density value=\"5 kg/m3\" low=\"4 kg/m3\" " ORIGIN),
     4,
     {"low= without high=", NULL, NULL}},
    {WITH(
         "<density value=\"5 kg/m3\" low=\"6 kg/m3\" high=\"7 kg/m3\" " ORIGIN),
     4,
     {"low=\"6 kg/m3\"", "lies above value=\"5 kg/m3\"", NULL}},
    {WITH(
         "<density value=\"5 kg/m3\" low=\"3 kg/m3\" high=\"4 kg/m3\" " ORIGIN),
     4,
     {"high=\"4 kg/m3\"", "lies below value", NULL}},
    {WITH("<density value=\"5 kg/m3\" " ORIGIN
          "\n<density value=\"5 kg/m3\" " ORIGIN),
     5,
     {"<density>", "stands twice", NULL}},
    {WITH("<density value=\"nan kg/m3\" " ORIGIN), 4, {"number", NULL, NULL}},
    {WITH("<density value=\"1e308 kg/m3\" " ORIGIN), 4, {"1e308", NULL, NULL}},
    {WITH("<density value=\"5 kg/m3\" evidence=\"mesured\" " ORIGIN),
     4,
     {"did you mean measured", NULL, NULL}},
    {WITH("<density value=\"5 kg/m3\" kind=\"f-u\" " ORIGIN),
     4,
     {"kind", "is not an attribute of <density>", NULL}},
    {WITH("<conductivity-factor value=\"4\" " ORIGIN),
     4,
     {"has no kind=", "f-u, f-psi", NULL}},
    {BARE("<mu-dry value=\"0.5\" " ORIGIN),
     4,
     {"<mu-dry> value=\"0.5\"", "outside", NULL}},
    {BARE("<mu-dry value=\"5 m\" " ORIGIN), 4, {"no unit", "sd=", NULL}},
    {BARE("<sd value=\"0 m\" " ORIGIN),
     4,
     {"<sd> value=\"0 m\"", "outside", NULL}},
    {BARE("<sd value=\"-2 m\" " ORIGIN),
     4,
     {"<sd> value=\"-2 m\"", "outside", NULL}},
    {BARE("<density value=\"5 kg/m3\" " ORIGIN),
     3,
     {"neither <mu-dry> nor <sd>", NULL, NULL}},
    {BARE("<sd value=\"5 m\" basis=\"given\" source=\"sheet\"/>"
          "<mu-wet value=\"5\" " ORIGIN),
     3,
     {"<mu-wet> without <mu-dry>", NULL, NULL}},
    {CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
           "<point rh=\"50 %\" u=\"0.2 kg/kg\"/>\n"),
     6,
     {"rh=\"50 %\"", "does not rise", "from dry to humid"}},
    {CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
           "<point rh=\"80 %\" u=\"0.1 kg/kg\"/>\n"),
     6,
     {"u=\"0.1 kg/kg\"", "does not rise", NULL}},
    {CURVE("<point rh=\"0 %\" u=\"0.1 kg/kg\"/>\n"
           "<point rh=\"80 %\" u=\"0.2 kg/kg\"/>\n"),
     5,
     {"must be 0 kg/kg", NULL, NULL}},
    {CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
           "<point rh=\"120 %\" u=\"0.2 kg/kg\"/>\n"),
     6,
     {"rh=\"120 %\"", "outside", NULL}},
    {CURVE("<point rh=\"0.5\" u=\"0.1 kg/kg\"/>\n"
           "<point rh=\"80 %\" u=\"0.2 kg/kg\"/>\n"),
     5,
     {"rh=\"0.5\"", "%", NULL}},
    {CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"),
     4,
     {"has 1 <point>", "two", NULL}},
    {CURVE("<point rh=\"50 %\" sd=\"1 m\"/>\n<point rh=\"60 %\" u=\"1 "
           "kg/kg\"/>\n"),
     5,
     {"sd", "not an attribute", NULL}},
    {CURVE("<pint rh=\"50 %\"/>\n"), 5, {"did you mean point", NULL, NULL}},
    {WITH("<remark/>"), 4, {"<remark>", "holds no text", NULL}},
    {WITH("<remark>a <b/></remark>"), 4, {"<b>", "only text", NULL}},
    {HEAD "<material id=\"b\" name=\"B\">" MU "</material>\n</materials>",
     3,
     {"has no <flags>", NULL, NULL}},
    {HEAD "<material id=\"b\" name=\"B\">" MU
          "\n<flags hygroscopic=\"maybe\"/></material>\n</materials>",
     4,
     {"hygroscopic=\"maybe\"", "no, yes", NULL}},
    {HEAD "<material id=\"Hemp Batt\" name=\"B\">" MU TAIL,
     3,
     {"id=\"Hemp Batt\"", "lower-case words", NULL}},
    {HEAD "<material id=\"b-\" name=\"B\">" MU TAIL,
     3,
     {"lower-case words", NULL, NULL}},
    {HEAD "<material name=\"B\">" MU TAIL, 3, {"has no id=", NULL, NULL}},
    {HEAD "<material id=\"b\">" MU TAIL, 3, {"has no name=", NULL, NULL}},
    {HEAD "<material id=\"b\" name=\"B\">" MU FLAGS
          "</material>\n<material id=\"b\" name=\"C\">" MU TAIL,
     4,
     {"id=\"b\"", "already taken", ":3"}},
    {HEAD "<source key=\"sheet\">Another</source></materials>",
     3,
     {"key=\"sheet\"", "declared twice", NULL}},
    {ROOT "<source key=\"sheet\"> </source></materials>",
     2,
     {"<source>", "holds no text", NULL}},
    {ROOT "<source key=\"a b\">A</source></materials>",
     2,
     {"key=\"a b\"", "blank", NULL}},
    {ROOT "<source>A</source></materials>", 2, {"has no key=", NULL, NULL}},
    {ROOT "<materail/></materials>", 2, {"did you mean material", NULL, NULL}},
    {"<materials xmlns=\"urn:bothways:material:1\" group=\"bord\"/>",
     1,
     {"group=\"bord\"", "did you mean board", NULL}},
    {"<materials xmlns=\"urn:bothways:material:1\"/>",
     1,
     {"has no group=", "insulation", NULL}},
    {"<materials xmlns=\"urn:bothways:material:2\" group=\"board\"/>",
     1,
     {"version 2", "version 1", NULL}},
    {"<materials group=\"board\"/>",
     1,
     {"urn:bothways:material:1", NULL, NULL}},
    {"<assembly xmlns=\"urn:bothways:assembly:1\"/>",
     1,
     {"<assembly>", "<materials", NULL}},
    {"<!DOCTYPE materials>\n" HEAD "</materials>", 1, {"DOCTYPE", NULL, NULL}},
    {"<materials", 1, {"not well-formed", NULL, NULL}},
    {"", 0, {"empty", NULL, NULL}},
};

START_TEST(a_faulty_file_is_refused_with_line_and_reason)
{
    folder f;
    make_folder(&f, faults[_i].text);
    const char *path = f.path;
    bw_library *library = NULL;
    bw_error err = {0};
    bw_status status = bw_library_read(&library, &path, 1, &err);
    drop_folder(&f);
    bw_library_free(library);
    ck_assert_msg(status == BW_ERR_INPUT, "accepted: %s", faults[_i].text);
    ck_assert_str_eq(err.file, f.file);
    ck_assert_msg(err.line == faults[_i].line, "line %ld of %s: %s", err.line,
                  faults[_i].text, err.message);
    for (size_t k = 0; k < 3 && faults[_i].says[k] != NULL; k++)
        ck_assert_msg(strstr(err.message, faults[_i].says[k]) != NULL,
                      "no '%s' in: %s", faults[_i].says[k], err.message);
}
END_TEST

START_TEST(a_sound_file_is_read_value_by_value)
{
    folder f;
    make_folder(&f, HEAD
                "<source key=\"lab\"> Our\n  laboratory </source>"
                "<material id=\"b-2\" name=\"B\"><remark> two\n words </remark>"
                "<density value=\"5 kg/m3\" low=\"4 kg/m3\" high=\"6 kg/m3\" "
                "evidence=\"measured\" basis=\"given\" source=\"lab  sheet\" "
                "note=\"n\"/>"
                "<sd value=\"20 mm\" basis=\"opened\" source=\"sheet\"/>"
                "<conductivity-factor kind=\"f-psi\" value=\"4\" "
                "basis=\"estimate\" source=\"sheet\"/>"
                "<sorption basis=\"given\" source=\"sheet\"><point rh=\"50 %\" "
                "u=\"10 %\"/><point rh=\"80 %\" u=\"0.2 kg/kg\"/></sorption>"
                "<flags hygroscopic=\"yes\" absorbs-condensate=\"no\" "
                "wood=\"panel\" mould=\"sensitive\" source=\"lab\" "
                "note=\"seen\"/></material></materials>");
    char with_slash[80];
    snprintf(with_slash, sizeof with_slash, "%s/", f.path);
    const char *path = with_slash;
    bw_library *library;
    bw_error err;
    bw_status status = bw_library_read(&library, &path, 1, &err);
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    const bw_material *m = bw_library_find(library, "b-2");
    ck_assert_ptr_nonnull(m);
    ck_assert_str_eq(m->file, f.file);
    ck_assert_str_eq(m->remark, "two words");
    ck_assert_str_eq(m->group, "board");
    ck_assert_str_eq(m->density.source, "Our laboratory; A data sheet");
    ck_assert_str_eq(m->density.note, "n");
    ck_assert_int_eq(m->density.evidence, BW_EVIDENCE_MEASURED);
    ck_assert_int_eq(m->density.basis, BW_BASIS_GIVEN);
    ck_assert_double_eq(m->density.low, 4);
    ck_assert_double_eq(m->density.high, 6);
    ck_assert_double_eq_tol(m->sd.value, 0.02, 1e-15);
    ck_assert(!m->sd.has_range && !m->mu_dry.known);
    ck_assert_int_eq(m->sd.evidence, BW_EVIDENCE_TABULATED);
    ck_assert_int_eq(m->conductivity_rule, BW_CONDUCTIVITY_F_PSI);
    ck_assert_int_eq(m->conductivity_factor.evidence, BW_EVIDENCE_ASSUMED);
    ck_assert_uint_eq(m->sorption.count, 3);
    ck_assert_double_eq_tol(m->sorption.y[1], .1, 1e-15);
    ck_assert(m->hygroscopic && !m->absorbs_condensate);
    ck_assert_str_eq(m->flags_source, "seen; Our laboratory");
    bw_library_free(library);
}
END_TEST

START_TEST(a_later_directory_adds_and_overrides_and_says_so)
{
    folder f;
    make_folder(&f, HEAD
                "<material id=\"osb\" name=\"Our board\">" MU FLAGS
                "</material>\n<material id=\"new-one\" name=\"New\">" MU TAIL);
    const char *const paths[] = {shipped_path, f.path};
    bw_library *library;
    bw_error err;
    bw_status status = bw_library_read(&library, paths, 2, &err);
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_uint_eq(bw_library_count(library), bw_library_count(shipped) + 1);
    ck_assert_str_eq(bw_library_find(library, "osb")->name, "Our board");
    ck_assert_double_eq(bw_library_find(library, "osb")->mu_dry.value, 5);
    ck_assert_ptr_nonnull(bw_library_find(library, "new-one"));
    size_t count;
    const bw_note *note = bw_library_notes(library, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(note->kind, BW_NOTE_INFO);
    ck_assert_str_eq(note->file, f.file);
    ck_assert_int_eq(note->line, 3);
    ck_assert_ptr_nonnull(strstr(note->message, "\"osb\""));
    ck_assert_ptr_nonnull(strstr(note->message, "boards.xml:"));
    bw_library_free(library);
}
END_TEST

START_TEST(many_overrides_are_all_noted)
{
    const char *const paths[] = {shipped_path, shipped_path};
    bw_library *library;
    bw_error err;
    ck_assert_int_eq(bw_library_read(&library, paths, 2, &err), BW_OK);
    size_t count;
    const bw_note *note = bw_library_notes(library, &count);
    ck_assert_uint_eq(count, bw_library_count(shipped));
    ck_assert_uint_eq(bw_library_count(library), count);
    for (size_t i = 0; i < count; i++)
        ck_assert_ptr_nonnull(strstr(note[i].message, "replaces"));
    bw_library_free(library);
}
END_TEST

START_TEST(ids_are_unique_across_the_files_of_a_directory)
{
    folder f;
    make_folder(&f, HEAD "<material id=\"b\" name=\"B\">" MU TAIL);
    char second[96];
    snprintf(second, sizeof second, "%s/b.xml", f.path);
    ck_assert_int_eq(link(f.file, second), 0);
    const char *path = f.path;
    bw_library *library;
    bw_error err = {0};
    bw_status status = bw_library_read(&library, &path, 1, &err);
    unlink(second);
    drop_folder(&f);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_str_eq(err.file, second);
    ck_assert_ptr_nonnull(strstr(err.message, "a.xml:3"));
}
END_TEST

START_TEST(a_directory_that_cannot_serve_is_refused)
{
    folder f;
    make_folder(&f, NULL);
    const char *empty = f.path, *missing = f.file;
    bw_library *library;
    bw_error err = {0};
    ck_assert_int_eq(bw_library_read(&library, &missing, 1, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot open"));
    bw_status status = bw_library_read(&library, &empty, 1, &err);
    drop_folder(&f);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "no *.xml"));
    ck_assert_str_eq(err.file, empty);
}
END_TEST

/* ---- lookup and words ---------------------------------------------------- */

START_TEST(lookup_finds_suggests_and_knows_its_ends)
{
    ck_assert_ptr_null(bw_library_find(shipped, "hemp-bat"));
    ck_assert_str_eq(bw_library_suggest(shipped, "hemp-bat"), "hemp-batt");
    ck_assert_str_eq(bw_library_suggest(shipped, "bitumen-softbord"),
                     "bitumen-softboard");
    ck_assert_ptr_null(bw_library_suggest(shipped, "zzzzzz"));
    ck_assert_ptr_null(bw_library_at(shipped, bw_library_count(shipped)));
    bw_library_free(NULL);
}
END_TEST

START_TEST(every_enum_value_has_its_word)
{
    ck_assert_str_eq(bw_evidence_text(BW_EVIDENCE_DECLARED), "declared");
    ck_assert_str_eq(bw_basis_text(BW_BASIS_FROM_MEMORY), "from memory");
    ck_assert_str_eq(bw_wood_kind_text(BW_WOOD_PANEL), "wood-based panel");
    ck_assert_str_eq(bw_mould_class_text(BW_MOULD_MEDIUM_RESISTANT),
                     "medium resistant");
    ck_assert_str_eq(bw_mould_class_text((bw_mould_class)99), "unknown");
}
END_TEST

/* ---- curves -------------------------------------------------------------- */

START_TEST(curves_join_points_and_are_constant_beyond)
{
    static const double x[] = {.2, .4, .8}, y[] = {1, 10, 1000};
    const bw_curve c = {.count = 3, .x = x, .y = y};
    static const struct {
        double x, linear, log;
    } rows[] = {
        {-1, 1, 1},      {.2, 1, 1},     {.3, 5.5, 3.16227766016838},
        {.4, 10, 10},    {.6, 505, 100}, {.8, 1000, 1000},
        {2, 1000, 1000},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        ck_assert_double_eq_tol(bw_curve_linear(&c, rows[i].x), rows[i].linear,
                                1e-9);
        ck_assert_double_eq_tol(bw_curve_log(&c, rows[i].x), rows[i].log, 1e-9);
    }
    ck_assert_double_eq(bw_curve_linear(&c, NAN), 1);
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("material_files");
    TCase *t = tcase_create("all");
    tcase_add_checked_fixture(t, open_shipped, close_shipped);
    tcase_add_loop_test(t, a_faulty_file_is_refused_with_line_and_reason, 0,
                        (int)COUNT(faults));
    tcase_add_test(t, a_sound_file_is_read_value_by_value);
    tcase_add_test(t, a_later_directory_adds_and_overrides_and_says_so);
    tcase_add_test(t, many_overrides_are_all_noted);
    tcase_add_test(t, ids_are_unique_across_the_files_of_a_directory);
    tcase_add_test(t, a_directory_that_cannot_serve_is_refused);
    tcase_add_test(t, lookup_finds_suggests_and_knows_its_ends);
    tcase_add_test(t, every_enum_value_has_its_word);
    tcase_add_test(t, curves_join_points_and_are_constant_beyond);
    suite_add_tcase(s, t);
    return s;
}

int main(void)
{
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
