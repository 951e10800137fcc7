/* Material files: sound ones read value by value, faulty ones refused with
 * line and reason; words and curves. */

#include "material_case.h"
#include "suite.h"

#define FAULT(line, text, ...)                                                 \
    {                                                                          \
        text, line,                                                            \
        {                                                                      \
            __VA_ARGS__                                                        \
        }                                                                      \
    }

/* 500 kg/m3 x 0.24 is 120 kg/m3 at 95 % RH. */
#define SATURATED(kg_m3)                                                       \
    WITH("<density value=\"500 kg/m3\" " ORIGIN                                \
         "<free-saturation value=\"" kg_m3 " kg/m3\" " ORIGIN                  \
         "<sorption basis=\"given\" source=\"sheet\">"                         \
         "<point rh=\"80 %\" u=\"0.1 kg/kg\"/><point rh=\"95 %\" "             \
         "u=\"0.24 kg/kg\"/></sorption>")

static const struct {
    const char *text;
    long line;
    const char *says[3];
} faults[] = {
    FAULT(4, WITH("<densty value=\"5 kg/m3\" " ORIGIN), "<densty>",
          "did you mean density", "specific-heat"),
    FAULT(4, WITH("<density valeu=\"5 kg/m3\" " ORIGIN), "valeu",
          "did you mean value"),
    FAULT(4, WITH("<density value=\"450\" " ORIGIN), "<density> value=\"450\"",
          "kg/m3"),
    FAULT(4, WITH("<density value=\"450 W/(m.K)\" " ORIGIN), "kg/m3"),
    FAULT(4, WITH("<density " ORIGIN), "has no value=", "kg/m3"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" source=\"sheet\"/>"),
          "has no basis=", "from-memory"),
    FAULT(4,
          WITH("<density value=\"5 kg/m3\" basis=\"form-memory\" "
               "source=\"sheet\"/>"),
          "form-memory", "did you mean from-memory"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" basis=\"given\"/>"),
          "has no source="),
    FAULT(4, WITH("<density value=\"5 kg/m3\" basis=\"given\" source=\" \"/>"),
          "source=", "is empty"),
    FAULT(4,
          WITH("<density value=\"5 kg/m3\" basis=\"given\" source=\"sheet "
               "shet\"/>"),
          "\"shet\"", "did you mean sheet", "declare <source"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" low=\"4 kg/m3\" " ORIGIN),
          "low= without high="),
    FAULT(4,
          WITH("<density value=\"5 kg/m3\" low=\"6 kg/m3\" high=\"7 "
               "kg/m3\" " ORIGIN),
          "low=\"6 kg/m3\"", "lies above value=\"5 kg/m3\""),
    FAULT(4,
          WITH("<density value=\"5 kg/m3\" low=\"3 kg/m3\" high=\"4 "
               "kg/m3\" " ORIGIN),
          "high=\"4 kg/m3\"", "lies below value"),
    FAULT(5,
          WITH("<density value=\"5 kg/m3\" " ORIGIN
               "\n<density value=\"5 kg/m3\" " ORIGIN),
          "<density>", "stands twice"),
    FAULT(4, WITH("<density value=\"nan kg/m3\" " ORIGIN), "number"),
    FAULT(4, WITH("<density value=\"1e308 kg/m3\" " ORIGIN), "1e308"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" evidence=\"mesured\" " ORIGIN),
          "did you mean measured"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" kind=\"f-u\" " ORIGIN), "kind",
          "is not an attribute of <density>"),
    FAULT(4, WITH("<conductivity-factor value=\"4\" " ORIGIN),
          "has no kind=", "f-u, f-psi"),
    FAULT(4, BARE("<mu-dry value=\"0.5\" " ORIGIN), "<mu-dry> value=\"0.5\"",
          "outside"),
    FAULT(4, BARE("<mu-dry value=\"5 m\" " ORIGIN), "no unit", "sd="),
    FAULT(4, BARE("<sd value=\"0 m\" " ORIGIN), "<sd> value=\"0 m\"",
          "outside"),
    FAULT(4, BARE("<sd value=\"-2 m\" " ORIGIN), "<sd> value=\"-2 m\"",
          "outside"),
    FAULT(3, BARE("<density value=\"5 kg/m3\" " ORIGIN),
          "neither <mu-dry> nor <sd>"),
    FAULT(3,
          BARE("<sd value=\"5 m\" basis=\"given\" source=\"sheet\"/>"
               "<mu-wet value=\"5\" " ORIGIN),
          "<mu-wet> without <mu-dry>"),
    FAULT(6,
          CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
                "<point rh=\"50 %\" u=\"0.2 kg/kg\"/>\n"),
          "rh=\"50 %\"", "does not rise", "from dry to humid"),
    FAULT(6,
          CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
                "<point rh=\"80 %\" u=\"0.1 kg/kg\"/>\n"),
          "u=\"0.1 kg/kg\"", "does not rise"),
    FAULT(5,
          CURVE("<point rh=\"0 %\" u=\"0.1 kg/kg\"/>\n"
                "<point rh=\"80 %\" u=\"0.2 kg/kg\"/>\n"),
          "must be 0 kg/kg"),
    FAULT(6,
          CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"
                "<point rh=\"120 %\" u=\"0.2 kg/kg\"/>\n"),
          "rh=\"120 %\"", "outside"),
    FAULT(5,
          CURVE("<point rh=\"0.5\" u=\"0.1 kg/kg\"/>\n"
                "<point rh=\"80 %\" u=\"0.2 kg/kg\"/>\n"),
          "rh=\"0.5\"", "%"),
    FAULT(4, CURVE("<point rh=\"50 %\" u=\"0.1 kg/kg\"/>\n"), "has 1 <point>",
          "two"),
    FAULT(5,
          CURVE("<point rh=\"50 %\" sd=\"1 m\"/>\n<point rh=\"60 %\" u=\"1 "
                "kg/kg\"/>\n"),
          "sd", "not an attribute"),
    FAULT(5, CURVE("<pint rh=\"50 %\"/>\n"), "did you mean point"),
    FAULT(4, WITH("<remark caution=\"perhaps\">a</remark>"),
          "<remark> caution=\"perhaps\"", "write one of: no, yes"),
    FAULT(4, WITH("<remark warn=\"yes\">a</remark>"), "allowed: caution"),
    FAULT(4, WITH("<remark/>"), "<remark>", "holds no text"),
    FAULT(4, WITH("<remark>a <b/></remark>"), "<b>", "only text"),
    FAULT(3,
          HEAD "<material id=\"b\" name=\"B\">" MU "</material>\n</materials>",
          "has no <flags>"),
    FAULT(4,
          HEAD "<material id=\"b\" name=\"B\">" MU
               "\n<flags hygroscopic=\"maybe\"/></material>\n</materials>",
          "hygroscopic=\"maybe\"", "no, yes"),
    FAULT(3, HEAD "<material id=\"Hemp Batt\" name=\"B\">" MU TAIL,
          "id=\"Hemp Batt\"", "lower-case words"),
    FAULT(3, HEAD "<material id=\"b-\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"-b\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b--c\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b_c\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b~\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b/c\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b:1\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(3, HEAD "<material id=\"b\xc3\xa9\" name=\"B\">" MU TAIL,
          "lower-case words"),
    FAULT(4, WITH("<density value=\"5 kg/m3\" high=\"6 kg/m3\" " ORIGIN),
          "high= without low="),
    FAULT(4,
          WITH("<density value=\"5 kg/m3\" basis=\"given\" "
               "source=\"somewhere-else\"/>"),
          "\"somewhere-else\"; declare <source"),
    FAULT(4, WITH("<porosity value=\"0.3 kg/kg\" " ORIGIN),
          "is the unit of a moisture content, not of a porosity"),
    FAULT(5,
          CURVE("<point rh=\"50 %\" u=\"0.05 m3/m3\"/>\n"
                "<point rh=\"80 %\" u=\"0.07 m3/m3\"/>\n"),
          "u=\"0.05 m3/m3\"", "not of a moisture content", "by mass"),
    FAULT(6,
          CURVE("<point rh=\"0 %\" u=\"0 kg/kg\"/>\n"
                "<point rh=\"0 %\" u=\"0.2 kg/kg\"/>\n"),
          "rh=\"0 %\"", "does not rise"),
    FAULT(4,
          WITH("<sd-curve basis=\"given\" source=\"sheet\">\n"
               "<point rh=\"50 %\" sd=\"1 m\"/></sd-curve>"),
          "<sd-curve> has 1 <point>; a curve needs two"),
    FAULT(6,
          WITH("<mu-curve basis=\"given\" source=\"sheet\">\n"
               "<point rh=\"80 %\" mu=\"9\"/>\n"
               "<point rh=\"20 %\" mu=\"5\"/></mu-curve>"),
          "rh=\"20 %\"", "list the points of <mu-curve> from dry to humid"),
    FAULT(
        3, SATURATED("119.9"),
        "<material> id=\"b\" has a <free-saturation>, 119.9 kg/m3, below what "
        "its <sorption> takes up at 95 % RH, 120 kg/m3. A slip of unit"),
    FAULT(1, "<!-- a -- b -->\n<!DOCTYPE materials>\n" HEAD "</materials>",
          "not well-formed XML"),
    FAULT(1,
          "<materials xmlns=\"urn:bothways:material:1\" a:b=\"1\" c:d=\"2\"/>",
          "Namespace prefix a"),
    FAULT(3, HEAD "<material name=\"B\">" MU TAIL, "has no id="),
    FAULT(3, HEAD "<material id=\"b\">" MU TAIL, "has no name="),
    FAULT(4,
          HEAD "<material id=\"b\" name=\"B\">" MU FLAGS
               "</material>\n<material id=\"b\" name=\"C\">" MU TAIL,
          "id=\"b\"", "already taken", ":3"),
    FAULT(3, HEAD "<source key=\"sheet\">Another</source></materials>",
          "key=\"sheet\"", "declared twice"),
    FAULT(2, ROOT "<source key=\"sheet\"> </source></materials>", "<source>",
          "holds no text"),
    FAULT(2, ROOT "<source key=\"a b\">A</source></materials>", "key=\"a b\"",
          "blank"),
    FAULT(2, ROOT "<source>A</source></materials>", "has no key="),
    FAULT(2, ROOT "<materail/></materials>", "did you mean material"),
    FAULT(1, "<materials xmlns=\"urn:bothways:material:1\" group=\"bord\"/>",
          "group=\"bord\"", "did you mean board"),
    FAULT(1, "<materials xmlns=\"urn:bothways:material:1\"/>",
          "has no group=", "insulation"),
    FAULT(1, "<materials xmlns=\"urn:bothways:material:2\" group=\"board\"/>",
          "version 2", "version 1"),
    FAULT(1, "<materials group=\"board\"/>", "urn:bothways:material:1"),
    FAULT(1, "<assembly xmlns=\"urn:bothways:assembly:1\"/>", "<assembly>",
          "<materials"),
    FAULT(1, "<!DOCTYPE materials>\n" HEAD "</materials>", "DOCTYPE"),
    FAULT(1, "<materials", "not well-formed"),
    FAULT(0, "", "empty"),
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

START_TEST(a_free_saturation_not_below_the_sorption_is_read)
{
    folder f;
    make_folder(&f, SATURATED("120.1"));
    const char *path = f.path;
    bw_library *library = NULL;
    bw_error err = {0};
    bw_status status = bw_library_read(&library, &path, 1, &err);
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    bw_library_free(library);
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
                "<thickness value=\"1 mm\" basis=\"given\" "
                "source=\"sheet\"/>"
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
    ck_assert_int_eq(m->conductivity_factor.evidence, BW_EVIDENCE_TABULATED);
    ck_assert_int_eq(m->thickness.evidence, BW_EVIDENCE_ASSUMED);
    ck_assert_uint_eq(m->sorption.count, 3);
    ck_assert_double_eq_tol(m->sorption.y[1], .1, 1e-15);
    ck_assert(m->hygroscopic && !m->absorbs_condensate);
    ck_assert_str_eq(m->flags_source, "seen; Our laboratory");
    bw_library_free(library);
}
END_TEST

START_TEST(a_sorption_curve_may_say_where_it_starts)
{
    folder f;
    make_folder(
        &f,
        HEAD "<material id=\"b\" name=\"B\"><remark>a<!-- not this --> "
             "<![CDATA[b & ]]>c</remark>" MU
             "<sorption basis=\"given\" source=\"sheet\"><point rh=\"0 %\" "
             "u=\"0 kg/kg\"/><point rh=\"80 %\" u=\"20 %\"/></sorption>" TAIL);
    const char *path = f.path;
    bw_library *library;
    bw_error err;
    bw_status status = bw_library_read(&library, &path, 1, &err);
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    const bw_material *m = bw_library_find(library, "b");
    ck_assert_uint_eq(m->sorption.count, 2);
    ck_assert_double_eq(m->sorption.x[0], 0.0);
    ck_assert_double_eq_tol(m->sorption.y[1], 0.2, 1e-15);
    ck_assert_str_eq(m->remark, "a b & c");
    bw_library_free(library);
}
END_TEST

/* ---- words --------------------------------------------------------------- */

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

SUITE_AROUND("material_files", open_shipped, close_shipped,
             EACH(a_faulty_file_is_refused_with_line_and_reason, COUNT(faults)),
             FACT(a_free_saturation_not_below_the_sorption_is_read),
             FACT(a_sound_file_is_read_value_by_value),
             FACT(a_sorption_curve_may_say_where_it_starts),
             FACT(every_enum_value_has_its_word),
             FACT(curves_join_points_and_are_constant_beyond))
