/* What an assembly file may say but looks wrong: which values are doubted, and
 * which are not. */

#include <math.h>

#define FILE_OF_SUITE "./warnings-test.xml"
#include "input_case.h"
#include "suite.h"

#define FOIL "<membrane id=\"foil\" material=\"test-foil\"/>"
#define FACE "material=\"test-board\" thickness=\"20 mm\""
#define RANGE "<uncertain property=\"mu\" low=\"1\" high=\"3\"/>"

/* The test library: board lambda 0.1 to 0.4, mu 5 to 20, density 700 to 900;
 * foil sd 20 to 100 m; film sd 1 to 4 m. Insulation: lambda 0.003 to 0.2. */
typedef struct doubt {
    const char *from, *to, *fragment; /* fragment NULL: no warning at all */
} doubt;

static const doubt doubts[] = {
    /* lambda, and a resistance that means one */
    {FACE, FACE " lambda=\"0.05 W/(m.K)\"",
     "lambda=\"0.05 W/(m.K)\" lies outside the plausible range for Test board, "
     "0.1 to 0.4 W/(m.K)"},
    {FACE, FACE " lambda=\"0.1 W/(m.K)\"", NULL},
    {FACE, FACE " lambda=\"0.4 W/(m.K)\"", NULL},
    {FACE, FACE " resistance=\"2 m2.K/W\"",
     "resistance=\"2 m2.K/W\" means lambda = 0.01 W/(m.K) at this thickness; "
     "plausible for Test board is 0.1 to 0.4"},
    {FACE, FACE " resistance=\"0.01 m2.K/W\"", "means lambda = 2 W/(m.K)"},
    {FACE, FACE " resistance=\"0.1 m2.K/W\"", NULL},
    {FACE, FACE " resistance=\"0 m2.K/W\"", NULL},
    /* 20 mm: half of 0.1 to double of 0.4 W/(m K) are 0.4 to 0.025 m2 K/W */
    {FACE, FACE " resistance=\"0.399 m2.K/W\"", NULL},
    {FACE, FACE " resistance=\"0.401 m2.K/W\"", "means lambda = "},
    {FACE, FACE " resistance=\"0.0251 m2.K/W\"", NULL},
    {FACE, FACE " resistance=\"0.0249 m2.K/W\"", "means lambda = "},
    /* ... half of mu 5 to double of 20 are 0.05 to 0.8 m of sd */
    {FACE, FACE " sd=\"0.0501 m\"", NULL},
    {FACE, FACE " sd=\"0.0499 m\"", "means mu = "},
    {FACE, FACE " sd=\"0.799 m\"", NULL},
    {FACE, FACE " sd=\"0.801 m\"", "means mu = "},
    {FACE, "material=\"test-board\" resistance=\"2 m2.K/W\" sd=\"0.2 m\"",
     NULL},
    /* mu, and an sd that means one */
    {FACE, FACE " mu=\"4\"", "mu=\"4\" lies outside"},
    {FACE, FACE " mu=\"5\"", NULL},
    {FACE, FACE " vapour-resistivity=\"150 MN.s/(g.m)\"",
     "for Test board, 25 to 100 MN.s/(g.m)"},
    {FACE, FACE " vapour-resistivity=\"50 MN.s/(g.m)\"", NULL},
    {FACE, FACE " sd=\"0.01 m\"", "means mu = 0.5 at this thickness"},
    {FACE, FACE " sd=\"0.2 m\"", NULL},
    {FACE, FACE " permeance=\"1 usperm\"", "Was a mu given as sd?"},
    /* sd of a membrane, in each of its ways */
    {FOIL, "<membrane material=\"test-foil\" sd=\"0.5 m\"/>",
     "sd=\"0.5 m\" lies outside the plausible range for Test foil, 20 to 100 "
     "m"},
    {FOIL, "<membrane material=\"test-foil\" sd=\"100 m\"/>", NULL},
    {FOIL, "<membrane material=\"test-foil\" vapour-resistance=\"2 MN.s/g\"/>",
     "for Test foil, 100 to 500 MN.s/g"},
    {FOIL, "<membrane material=\"test-foil\" permeance=\"10 usperm\"/>",
     "permeance=\"10 usperm\" lies outside the plausible range for Test foil, "
     "20 to 100 m of sd"},
    {FOIL, "<membrane material=\"test-foil\" permeance=\"0.1 usperm\"/>", NULL},
    {FOIL,
     "<membrane material=\"test-foil\" thickness=\"0.2 mm\" "
     "sd=\"50 m\" resistance=\"0.1 m2.K/W\"/>",
     NULL},
    {FOIL, "<membrane material=\"test-foil\" thickness=\"15 mm\"/>",
     "for the group membrane, 0.02 to 10 mm"},
    /* water that its pores do not hold, or that damp air gives it */
    {FACE, FACE " free-saturation=\"300 kg/m3\" porosity=\"10 %\"",
     "its free saturation, 300 kg/m3, is more than its pores hold"},
    {FACE, FACE " free-saturation=\"300 kg/m3\" porosity=\"40 %\"", NULL},
    {FACE,
     "name=\"b\" kind=\"wood-panel\" thickness=\"20 mm\" lambda=\"0.13 "
     "W/(m.K)\" mu=\"50\" density=\"600 kg/m3\" "
     "free-saturation=\"1 kg/m3\"",
     "free-saturation=\"1 kg/m3\" is no more than it takes up from damp air"},
    {FACE,
     "name=\"b\" kind=\"wood-panel\" thickness=\"20 mm\" lambda=\"0.13 "
     "W/(m.K)\" mu=\"50\" density=\"600 kg/m3\" "
     "free-saturation=\"400 kg/m3\"",
     NULL},
    /* the rest */
    {FACE, FACE " density=\"950 kg/m3\"", "700 to 900 kg/m3"},
    {FACE, FACE " density=\"900 kg/m3\"", NULL},
    {FACE, FACE " mu=\"9\" evidence=\"measured\" source=\"laboratory\"", NULL},
    {FACE, FACE " mu=\"9\" evidence=\"assumed\"", NULL},
    {FACE, FACE " evidence=\"measured\"", NULL},
    /* a range that leaves out what is drawn */
    {RANGE,
     "<uncertain property=\"lambda\" low=\"0.05 W/(m.K)\" "
     "high=\"0.06 W/(m.K)\"/>",
     "the value taken for lambda of Test batt, 0.04, lies outside its own "
     "uncertain range"},
    {RANGE,
     "<uncertain property=\"lambda\" low=\"0.03 W/(m.K)\" "
     "high=\"0.04 W/(m.K)\"/>",
     NULL},
    {RANGE,
     "<uncertain property=\"thickness\" low=\"100 mm\" high=\"120 mm\"/>",
     "the value taken for thickness of Test batt, 0.09,"},
    {RANGE,
     "<uncertain property=\"density\" low=\"10 kg/m3\" "
     "high=\"39 kg/m3\"/>",
     "the value taken for density of Test batt, 40,"},
    {RANGE,
     "<uncertain property=\"specific-heat\" low=\"800 J/(kg.K)\" "
     "high=\"900 J/(kg.K)\"/>",
     "the value taken for specific-heat of Test batt, 1000,"},
    {RANGE,
     "<uncertain property=\"specific-heat\" low=\"1 kJ/(kg.K)\" "
     "high=\"2 kJ/(kg.K)\"/>",
     NULL},
    /* ... also what follows from thickness, lambda and mu: 0.09 m, 0.04
     * W/(m K), mu 2 */
    {RANGE,
     "<uncertain property=\"resistance\" low=\"9 m2.K/W\" "
     "high=\"10 m2.K/W\"/>",
     "the value taken for resistance of Test batt, 2.25,"},
    {RANGE, "<uncertain property=\"sd\" low=\"5 m\" high=\"9 m\"/>",
     "the value taken for sd of Test batt, 0.18,"},
    {RANGE, "<uncertain property=\"sd\" low=\"0.1 m\" high=\"9 m\"/>", NULL},
    /* ... but not where the layer has no such value */
    {FOIL,
     "<membrane material=\"test-foil\"><uncertain property=\"sd\" "
     "low=\"60 m\" high=\"70 m\"/></membrane>",
     "the value taken for sd of Test foil, 50,"},
    {FOIL,
     "<membrane material=\"test-foil\"><uncertain property=\"thickness\" "
     "low=\"1 mm\" high=\"2 mm\"/></membrane>",
     NULL},
    {FOIL,
     "<layer material=\"test-board\" resistance=\"0.1 m2.K/W\" sd=\"50 m\">"
     "<uncertain property=\"resistance\" low=\"0.2 m2.K/W\" "
     "high=\"0.3 m2.K/W\"/></layer>",
     "the value taken for resistance of Test board, 0.1,"},
    /* the build-up */
    {"id=\"face\"", "id=\"outer-lining\"", "looks reversed: Test board"},
    {"driving-rain=\"sheltered\"", "driving-rain=\"none\"",
     "no rain ever wets Test board, which would take it up"},
    {"ventilation=\"none\"", "ventilation=\"well\"",
     "stand outside the well-ventilated cavity, where the monthly and the "
     "period method leave them out and nothing judges them: Test board"},
};

START_TEST(implausible_values_are_doubted_and_plausible_ones_are_not)
{
    const doubt *row = &doubts[_i];
    bw_assembly *a = read_changed(row->from, row->to);
    size_t warnings = 0;
    for (size_t i = 0; i < a->note_count; i++) {
        if (a->note[i].kind != BW_NOTE_WARNING)
            continue;
        warnings++;
        ck_assert_msg(row->fragment != NULL, "%s: %s", row->to,
                      a->note[i].message);
    }
    ck_assert_msg(row->fragment == NULL ||
                      has_note(a, BW_NOTE_WARNING, row->fragment),
                  "%s: %zu warnings: %s", row->to, warnings,
                  warnings > 0 ? a->note[a->note_count - 1].message : "none");
    bw_assembly_free(a);
}
END_TEST

/* Insulation outside the well-ventilated cavity counts for nothing. */
START_TEST(insulation_outside_a_ventilated_cavity_looks_reversed)
{
    bw_assembly *a = read_changed(
        "<layer id=\"face\"",
        "<layer id=\"wool\" material=\"test-batt\" thickness=\"300 mm\"/>"
        "<cavity thickness=\"20 mm\" ventilation=\"well\"/><layer id=\"face\"");
    ck_assert(has_note(a, BW_NOTE_WARNING,
                       "most of the insulation lies outside the "
                       "well-ventilated cavity"));
    bw_assembly_free(a);
}
END_TEST

/* ---- what is taken for what is not said -------------------------------- */

static const struct {
    const char *from, *to, *fragment;
    bool said;
} taken[] = {
    {FOIL, "<layer material=\"test-film\"/>",
     "<layer material=\"test-film\"> gives no thickness: 0.5 mm as sold is "
     "taken",
     true},
    {FOIL, "<layer material=\"test-film\" thickness=\"1 mm\"/>",
     "as sold is taken", false},
    {FOIL, "<membrane material=\"test-film\"/>", "as sold is taken", false},
    {"faces=\"SW\"", "faces=\"SW\" open-sky=\"no\"", "open-sky=", false},
    {"id=\"test\"", "id=\"test\" element=\"floor\"", "tilt=", false},
};

START_TEST(what_is_taken_for_what_is_not_said_is_noted)
{
    bw_assembly *a = read_changed(taken[_i].from, taken[_i].to);
    ck_assert_msg(has_note(a, BW_NOTE_INFO, taken[_i].fragment) ==
                      taken[_i].said,
                  "%s", taken[_i].to);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_roof_whose_tilt_is_said_is_not_taken_as_flat)
{
    char to[400];
    const char *from = "id=\"test\">\n<outdoors climate=\"weather/here.csv\"";
    snprintf(to, sizeof to,
             "id=\"test\" title=\"\" element=\"roof\">\n<outdoors "
             "tilt=\"30 deg\" open-sky=\"yes\" climate=\"here.csv\"");
    bw_assembly *a = read_changed(from, to);
    ck_assert(!has_note(a, BW_NOTE_INFO, "taken as flat"));
    ck_assert(!has_note(a, BW_NOTE_INFO, "night sky"));
    ck_assert_double_eq(a->outdoors.tilt, 30.0);
    ck_assert(a->outdoors.open_sky);
    ck_assert_str_eq(a->title, "test"); /* an empty title is none */
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_floor_looks_down_and_a_drying_test_has_its_defaults)
{
    bw_assembly *a = read_changed("id=\"test\"",
                                  "id=\"test\" element=\"floor\"");
    ck_assert_double_eq(a->outdoors.tilt, 180.0);
    bw_assembly_free(a);
    a = read_changed("wetting=\"0.5 kg/m2\" after-layer=\"bay\""
                     " start-month=\"10\"",
                     "");
    ck_assert_double_eq(a->drying_test.wetting, 1.0);
    ck_assert_int_eq(a->drying_test.start_month, -1);
    ck_assert_int_eq(a->drying_test.after_layer, -1);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_layer_is_called_by_its_id_or_by_its_name)
{
    bw_assembly *a = read_changed(FOIL,
                                  "<membrane name=\"A foil\" sd=\"20 m\"/>");
    ck_assert_str_eq(a->layer[3].id, "layer-4");
    ck_assert_str_eq(a->layer[3].name, "A foil");
    ck_assert_str_eq(a->layer[3].material->id, "A foil");
    bw_assembly_free(a);
    a = read_changed(FOIL, "<membrane id=\"sheet\" name=\"\" sd=\"20 m\"/>");
    ck_assert_str_eq(a->layer[3].name, "sheet");
    ck_assert_str_eq(a->layer[3].material->name, "sheet");
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_humidity_to_begin_with_and_a_cavity_s_resistance_are_kept)
{
    bw_assembly *a = read_changed(FACE,
                                  FACE " initial-relative-humidity=\"80 %\"");
    ck_assert(a->layer[0].has_initial_moisture && a->layer[0].initial_is_rh);
    ck_assert_double_eq_tol(a->layer[0].initial_moisture, 0.8, 1e-15);
    ck_assert(!a->layer[2].has_initial_moisture);
    bw_assembly_free(a);
    a = read_changed("ventilation=\"none\"",
                     "ventilation=\"none\" resistance=\"0.5 m2.K/W\" "
                     "evidence=\"measured\" source=\"hot box\"");
    const bw_property *r = &a->layer[1].resistance;
    ck_assert(r->known);
    ck_assert_double_eq(r->value, 0.5);
    ck_assert_int_eq(r->evidence, BW_EVIDENCE_MEASURED);
    ck_assert_str_eq(r->source, "hot box");
    bw_assembly_free(a);
}
END_TEST

/* As sold where the library knows it, none where an sd is enough. */
START_TEST(an_alternative_takes_its_thickness_from_the_library)
{
    const char *from = "<alternative material=\"test-board\" "
                       "thickness=\"9 mm\"/>";
    bw_assembly *a = read_changed(from,
                                  "<alternative material=\"test-film\"/>"
                                  "<alternative material=\"test-variable\"/>");
    ck_assert_uint_eq(a->layer[2].alternative_count, 2);
    ck_assert_double_eq_tol(a->layer[2].alternative[0].thickness, 0.0005,
                            1e-15);
    ck_assert_double_eq(a->layer[2].alternative[1].thickness, 0.0);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_board_used_as_a_membrane_gets_its_sd_from_its_thickness)
{
    bw_assembly *a = read_changed(
        FOIL, "<membrane material=\"test-board\" thickness=\"3 mm\"/>");
    const bw_property *sd = &a->layer[3].material->sd;
    ck_assert_double_eq_tol(sd->value, 0.03, 1e-15); /* mu 10 */
    ck_assert_int_eq(sd->basis, BW_BASIS_DERIVED);
    bw_assembly_free(a);
}
END_TEST

START_TEST(ranges_of_several_properties_and_shallow_framing_stand_together)
{
    bw_assembly *a = read_changed(
        "spacing=\"600 mm\"/>\n" RANGE,
        "spacing=\"600 mm\" depth=\"60 mm\"/>\n" RANGE
        "<uncertain property=\"lambda\" low=\"0.03 W/(m.K)\" "
        "high=\"0.05 W/(m.K)\"/>");
    ck_assert_uint_eq(a->layer[2].uncertain_count, 2);
    ck_assert_str_eq(a->layer[2].uncertain[1].property, "lambda");
    ck_assert_double_eq_tol(a->layer[2].framing.depth, 0.06, 1e-15);
    bw_assembly_free(a);
}
END_TEST

/* ---- many of them ------------------------------------------------------ */

/* `count` layers, each with a warning of its own, in lines 4, 5, ... */
static bw_assembly *read_many(int count, const char *name)
{
    static char text[20000];
    int used = snprintf(
        text, sizeof text,
        "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"many\">\n"
        "<outdoors/><indoors temperature=\"20 degC\" humidity-class=\"3\"/>\n"
        "<layers listed=\"outside-to-inside\">\n");
    for (int i = 0; i < count; i++)
        used += snprintf(text + used, sizeof text - (size_t)used,
                         "<layer material=\"test-board\" thickness=\"20 mm\" "
                         "mu=\"%d\" name=\"%s %d\"/>\n",
                         30 + i, name, i + 1);
    used += snprintf(text + used, sizeof text - (size_t)used,
                     "</layers></assembly>\n");
    bw_assembly *a = NULL;
    bw_error err = {0};
    put(file_name, text, (size_t)used);
    bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_msg(status == BW_OK, "%ld: %s", err.line, err.message);
    return a;
}

START_TEST(every_warning_of_many_is_kept_in_the_order_of_the_file)
{
    enum { MANY = 64 };
    bw_assembly *a = read_many(MANY, "board");
    int found = 0;
    for (size_t i = 0; i < a->note_count; i++) {
        char mu[24];
        snprintf(mu, sizeof mu, "mu=\"%d\"", 30 + found);
        if (strstr(a->note[i].message, mu) == NULL)
            continue;
        ck_assert_int_eq(a->note[i].line, 4 + found);
        ck_assert_str_eq(a->note[i].file, file_name);
        found++;
    }
    ck_assert_int_eq(found, MANY);
    bw_assembly_free(a);
}
END_TEST

START_TEST(the_order_understood_is_cut_short_where_it_is_long)
{
    bw_assembly *a = read_many(40, "a board with a rather long name");
    ck_assert(has_note(a, BW_NOTE_INFO, "a board with a rather long name 1, "));
    ck_assert(has_note(a, BW_NOTE_INFO, ", ..."));
    ck_assert(!has_note(a, BW_NOTE_INFO, "long name 40"));
    bw_assembly_free(a);
    a = read_many(3, "a board with a rather long name");
    ck_assert(!has_note(a, BW_NOTE_INFO, ", ..."));
    ck_assert(has_note(a, BW_NOTE_INFO, "long name 3"));
    bw_assembly_free(a);
}
END_TEST

/* ---- the groups' spans -----------------------------------------------------
 */

/* Both ends of what is plausible of a group, where the material's own range is
 * not known: the end is not doubted, one per cent beyond it is, or is refused.
 * Regression values: our own judgement. */
static const struct span_row {
    const char *element, *material;
    double thickness[2], lambda[2], mu[2]; /* m, W/(m K), -; 0: has a range */
} span_rows[] = {
    {"layer", "test-batt", {0.005, 0.6}, {0.003, 0.2}, {1, 1e6}},
    {"layer", "gypsum-test", {0.003, 0.1}, {0.03, 1.0}, {2, 1000}},
    {"layer", "test-timber", {0.003, 0.5}, {0.07, 0.3}, {5, 300}},
    {"layer", "test-masonry", {0.02, 1.5}, {0.07, 5.0}, {2, 1e5}},
    {"layer", "test-plaster", {0.001, 0.12}, {0.04, 2.0}, {2, 100}},
    {"membrane", "test-film", {2e-5, 0.01}, {0.03, 300.0}, {10, 1e7}},
    {"membrane", "test-coating", {1e-5, 0.02}, {0.03, 5.0}, {1, 1e7}},
};

static bool doubted(const struct span_row *row, const char *name,
                    double thickness, double lambda, double mu)
{
    char to[512], says[64];
    bw_assembly *a = NULL;
    bw_error err = {0};
    snprintf(to, sizeof to,
             "<%s material=\"%s\" thickness=\"%.9g m\" lambda=\"%.9g "
             "W/(m.K)\" mu=\"%.9g\"/>",
             row->element, row->material, thickness, lambda, mu);
    put_changed(FOIL, to);
    const bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    if (status != BW_OK) {
        ck_assert_msg(strstr(err.message, "is possible") != NULL, "%s",
                      err.message);
        return true;
    }
    snprintf(says, sizeof says, "> %s=\"", name);
    const bool is = has_note(a, BW_NOTE_WARNING, says);
    bw_assembly_free(a);
    return is;
}

START_TEST(an_end_of_a_group_s_span_is_plausible_and_beyond_it_is_not)
{
    static const char *const names[] = {"thickness", "lambda", "mu"};
    const struct span_row *row = &span_rows[_i];
    const double *span[] = {row->thickness, row->lambda, row->mu};
    for (int k = 0; k < 3; k++)
        for (int end = 0; end < 2; end++) {
            double v[3] = {row->thickness[0], row->lambda[0], row->mu[0]};
            v[k] = span[k][end];
            ck_assert_msg(!doubted(row, names[k], v[0], v[1], v[2]), "%s %g",
                          names[k], v[k]);
            v[k] *= end == 0 ? 0.99 : 1.01;
            ck_assert_msg(doubted(row, names[k], v[0], v[1], v[2]), "%s %g",
                          names[k], v[k]);
        }
}
END_TEST

START_TEST(a_remark_marked_as_a_caution_warns_and_no_other_does)
{
    bw_assembly *a = read_changed(
        FOIL, "<layer material=\"test-coating\" thickness=\"0.2 mm\"/>");
    ck_assert(has_note(a, BW_NOTE_WARNING, "Test coating: Weeps in damp air."));
    bw_assembly_free(a);
    a = read_changed(FOIL,
                     "<layer material=\"test-masonry\" thickness=\"90 mm\"/>");
    ck_assert(!has_note(a, BW_NOTE_WARNING, "Found in walls"));
    bw_assembly_free(a);
}
END_TEST

static void read_groups(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/tests/data/library",
                                BW_SOURCE_DIR "/tests/data/groups"};
    bw_error err;
    ck_assert_msg(bw_library_read(&library, path, 2, &err) == BW_OK,
                  "%s:%ld %s", err.file, err.line, err.message);
}

SUITE_AROUND(
    "warnings", read_groups, free_library,
    {implausible_values_are_doubted_and_plausible_ones_are_not, COUNT(doubts)},
    FACT(insulation_outside_a_ventilated_cavity_looks_reversed),
    EACH(what_is_taken_for_what_is_not_said_is_noted, COUNT(taken)),
    FACT(a_roof_whose_tilt_is_said_is_not_taken_as_flat),
    FACT(a_floor_looks_down_and_a_drying_test_has_its_defaults),
    FACT(a_layer_is_called_by_its_id_or_by_its_name),
    FACT(a_humidity_to_begin_with_and_a_cavity_s_resistance_are_kept),
    FACT(an_alternative_takes_its_thickness_from_the_library),
    FACT(a_board_used_as_a_membrane_gets_its_sd_from_its_thickness),
    FACT(ranges_of_several_properties_and_shallow_framing_stand_together),
    FACT(every_warning_of_many_is_kept_in_the_order_of_the_file),
    EACH(an_end_of_a_group_s_span_is_plausible_and_beyond_it_is_not,
         COUNT(span_rows)),
    FACT(a_remark_marked_as_a_caution_warns_and_no_other_does),
    FACT(the_order_understood_is_cut_short_where_it_is_long))
