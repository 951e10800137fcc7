/* Assembly files: what is read, and what is noted. */

#include <math.h>

#include "bothways/air.h"
#define FILE_OF_SUITE "./input-test.xml"
#include "input_case.h"
#include "suite.h"

/* ---- what is read ------------------------------------------------------ */

START_TEST(every_part_of_a_file_reaches_the_model_in_si)
{
    bw_assembly *a = read_changed("id=\"test\"", "id=\"test\"");
    ck_assert_str_eq(a->id, "test");
    ck_assert_str_eq(a->title, "test");
    ck_assert_str_eq(a->outdoors.climate_path, "./weather/here.csv");
    ck_assert_double_eq(a->outdoors.azimuth, 225.0);
    ck_assert_double_eq(a->outdoors.tilt, 90.0);
    ck_assert_double_eq(a->outdoors.solar_absorptance, 0.6);
    ck_assert_int_eq(a->outdoors.driving_rain, BW_RAIN_SHELTERED);
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_CLASS);
    ck_assert_int_eq(a->indoors.humidity_class, 3);
    ck_assert(a->indoors.margin);
    ck_assert_uint_eq(a->layer_count, 5);
    const bw_layer *bay = &a->layer[2];
    ck_assert_str_eq(bay->id, "bay");
    ck_assert_str_eq(bay->name, "Test batt");
    ck_assert_int_eq(bay->line, 8);
    ck_assert_double_eq_tol(bay->thickness, 0.09, 1e-15);
    ck_assert_double_eq_tol(bay->framing.fraction, 45.0 / 600.0, 1e-12);
    ck_assert_uint_eq(bay->uncertain_count, 1);
    ck_assert_str_eq(bay->uncertain[0].property, "mu");
    ck_assert_double_eq(bay->uncertain[0].high, 3.0);
    ck_assert_uint_eq(bay->alternative_count, 1);
    ck_assert_double_eq_tol(bay->alternative[0].thickness, 0.009, 1e-15);
    ck_assert_double_eq_tol(a->air_leakage.q50, 3.0 / 3600.0, 1e-15);
    ck_assert_double_eq(a->air_leakage.connected_height, 5.0);
    ck_assert(!a->air_leakage.tested);
    ck_assert_double_eq(a->drying_test.wetting, 0.5);
    ck_assert_int_eq(a->drying_test.after_layer, 2);
    ck_assert_int_eq(a->drying_test.start_month, 9);
    ck_assert_double_eq_tol(a->rain_leak.fraction, 0.01, 1e-15);
    ck_assert_int_eq(a->rain_leak.after_layer, 1);
    bw_assembly_free(a);
}
END_TEST

START_TEST(who_read_what_with_which_meter_is_kept)
{
    bw_assembly *a = read_changed(
        "<reading ",
        "<wet-spell from=\"2031-04-01\" to=\"2031-04-03\" note=\"no roof\"/>"
        "<reading meter=\"pins, 40 mm\" wood-temperature=\"8 degC\" "
        "species=\"spruce\" by=\"A. B., site\" as-read=\"yes\" "
        "photograph=\"p-7\" note=\"fan\" source=\"log\" ");
    const bw_closing_up *up = &a->closing_up;
    const bw_reading *r = &up->reading[0];
    ck_assert_str_eq(r->meter, "pins, 40 mm");
    ck_assert(r->has_wood_temperature && r->as_read);
    ck_assert_double_eq_tol(r->wood_temperature, 8.0, 1e-12);
    ck_assert_str_eq(r->species, "spruce");
    ck_assert_str_eq(r->by, "A. B., site");
    ck_assert_str_eq(r->photograph, "p-7");
    ck_assert_str_eq(r->note, "fan");
    ck_assert_str_eq(r->source, "log");
    ck_assert_uint_eq(up->wet_spell_count, 1);
    ck_assert_str_eq(up->wet_spell[0].from, "2031-04-01");
    ck_assert_str_eq(up->wet_spell[0].to, "2031-04-03");
    ck_assert_str_eq(up->wet_spell[0].note, "no roof");
    bw_assembly_free(a);
}
END_TEST

START_TEST(limits_and_evidence_say_of_what_part_they_are)
{
    static const struct {
        const char *part;
        long layer;
        bool framing;
    } parts[] = {{"face", 0, false}, {"bay.framing", 2, true}};
    for (size_t i = 0; i < 2; i++) {
        char to[80];
        snprintf(to, sizeof to, "<moisture-limit part=\"%s\" ", parts[i].part);
        bw_assembly *a = read_changed("<moisture-limit ", to);
        const bw_wall_part *part = &a->closing_up.limit[0].part;
        ck_assert_str_eq(part->text, parts[i].part);
        ck_assert_int_eq(part->layer, parts[i].layer);
        ck_assert_int_eq(part->framing, parts[i].framing);
        bw_assembly_free(a);
    }
    bw_assembly *a = read_changed(
        "<evidence ", "<evidence part=\"gap\" date=\"2031-05-03\" ");
    ck_assert_int_eq(a->closing_up.evidence[0].part.layer, 1);
    ck_assert_str_eq(a->closing_up.evidence[0].date, "2031-05-03");
    bw_assembly_free(a);
}
END_TEST

START_TEST(an_air_test_says_who_how_surely_and_where_it_is_written)
{
    bw_assembly *a = read_changed("<air-test ",
                                  "<air-test uncertainty=\"12 %\" by=\"C. D.\" "
                                  "ref=\"report 9\" source=\"fan\" ");
    const bw_air_test *test = &a->closing_up.air_test[0];
    ck_assert(test->has_uncertainty);
    ck_assert_double_eq_tol(test->uncertainty, 0.12, 1e-12);
    ck_assert_str_eq(test->by, "C. D.");
    ck_assert_str_eq(test->ref, "report 9");
    ck_assert_str_eq(test->source, "fan");
    bw_assembly_free(a);
}
END_TEST

START_TEST(the_closing_up_record_is_read_whole)
{
    bw_assembly *a = read_changed("id=\"test\"", "id=\"test\"");
    const bw_closing_up *up = &a->closing_up;
    ck_assert(up->given);
    ck_assert_uint_eq(up->air_test_count, 1);
    ck_assert_str_eq(up->air_test[0].stage, "membrane-exposed");
    ck_assert(up->air_test[0].leak_search);
    ck_assert_double_eq_tol(up->air_test[0].q50, 0.8 / 3600.0, 1e-15);
    ck_assert_uint_eq(up->limit_count, 1);
    ck_assert_double_eq_tol(up->limit[0].critical, 0.20, 1e-15);
    ck_assert_uint_eq(up->reading_count, 1);
    ck_assert_str_eq(up->reading[0].place, "bay 3");
    ck_assert_double_eq_tol(up->reading[0].moisture, 0.165, 1e-15);
    ck_assert_double_eq_tol(up->reading[0].depth, 0.02, 1e-15);
    ck_assert_int_eq(up->reading[0].line, 22);
    ck_assert_uint_eq(up->evidence_count, 1);
    ck_assert_str_eq(up->evidence[0].ref, "7");
    ck_assert_str_eq(up->evidence[0].date, "");
    ck_assert_str_eq(up->reading[0].meter, "");
    ck_assert(!up->reading[0].as_read && !up->air_test[0].has_uncertainty);
    ck_assert_int_eq(up->limit[0].part.layer, -1);
    ck_assert_uint_eq(up->wet_spell_count, 0);
    bw_assembly_free(a);
}
END_TEST

START_TEST(the_model_runs_outside_to_inside_whatever_the_file_s_order)
{
    bw_assembly *a = read_changed("outside-to-inside", "inside-to-outside");
    ck_assert(!a->listed_outside_to_inside);
    ck_assert_str_eq(a->layer[0].id, "lining");
    ck_assert_str_eq(a->layer[4].id, "face");
    bw_assembly_free(a);
}
END_TEST

/* The inner face of a layer is the one towards the room, in either order. */
START_TEST(after_layer_follows_the_model_s_order)
{
    bw_assembly *a = read_changed("outside-to-inside", "inside-to-outside");
    ck_assert_int_eq(a->rain_leak.after_layer, 3);
    ck_assert_str_eq(a->layer[3].id, "gap");
    bw_assembly_free(a);
}
END_TEST

/* Inline layers as reviewers type them. */
typedef struct inline_row {
    const char *element;
    double resistance, sd_dry, sd_wet;
    bw_evidence evidence;
} inline_row;

static const inline_row inlines[] = {
    {"<layer id=\"felt\" resistance=\"0.05 m2.K/W\" sd=\"100 m\"/>", 0.05, 100,
     100, BW_EVIDENCE_ASSUMED},
    {"<membrane id=\"breather\" sd=\"0.05 m\"/>", 0, 0.05, 0.05,
     BW_EVIDENCE_ASSUMED},
    {"<layer id=\"osb\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\" "
     "sd=\"0.45 m\"/>",
     0.009 / 0.13, 0.45, 0.45, BW_EVIDENCE_ASSUMED},
    {"<layer name=\"slab\" thickness=\"180 mm\" lambda=\"2 W/(m.K)\" "
     "mu=\"100\"/>",
     0.09, 18, 18, BW_EVIDENCE_ASSUMED},
    /* its values are estimates, which is no word on the wall */
    {"<layer material=\"test-board\" thickness=\"10 mm\"/>", 0.05, 0.1, 0.04,
     BW_EVIDENCE_TABULATED},
    {"<layer material=\"test-board\" thickness=\"10 mm\" mu=\"15\" "
     "source=\"data sheet\"/>",
     0.05, 0.15, 0.15, BW_EVIDENCE_DECLARED},
    {"<layer material=\"test-board\" thickness=\"10 mm\" mu=\"15\" "
     "mu-wet=\"7\" evidence=\"measured\" source=\"laboratory\"/>",
     0.05, 0.15, 0.07, BW_EVIDENCE_MEASURED},
    {"<layer material=\"test-board\" thickness=\"10 mm\" "
     "vapour-resistance=\"1 MN.s/g\"/>",
     0.05, 0.2, 0.2, BW_EVIDENCE_ASSUMED},
    {"<layer material=\"test-board\" thickness=\"10 mm\" "
     "vapour-resistivity=\"50 MN.s/(g.m)\"/>",
     0.05, 0.1, 0.1, BW_EVIDENCE_ASSUMED},
    {"<layer material=\"test-board\" thickness=\"10 mm\" "
     "resistance=\"0.07 m2.K/W\"/>",
     0.07, 0.1, 0.04, BW_EVIDENCE_ASSUMED},
    {"<membrane material=\"test-foil\"/>", 0, 50, 50, BW_EVIDENCE_TABULATED},
    {"<membrane material=\"test-foil\" sd=\"30 m\" "
     "resistance=\"0.01 m2.K/W\"/>",
     0.01, 30, 30, BW_EVIDENCE_ASSUMED},
    {"<membrane id=\"sheet\" permeance=\"100 ng/(Pa.s.m2)\"/>", 0, 2, 2,
     BW_EVIDENCE_ASSUMED},
    {"<membrane id=\"sheet\" mu=\"100000\" thickness=\"0.2 mm\"/>", 0, 20, 20,
     BW_EVIDENCE_ASSUMED},
    {"<membrane material=\"test-foil\" mu=\"100000\"/>", 0, 20, 20,
     BW_EVIDENCE_ASSUMED},
    {"<membrane material=\"test-variable\" sd=\"3 m\"/>", 0, 3, 3,
     BW_EVIDENCE_ASSUMED},
};

START_TEST(inline_values_give_the_layer_they_say)
{
    const inline_row *row = &inlines[_i];
    const char *from = strstr(sound, "<membrane");
    char line[80];
    snprintf(line, sizeof line, "%.*s", (int)strcspn(from, "\n"), from);
    bw_assembly *a = read_changed(line, row->element);
    bw_sections *s;
    ck_assert_int_eq(bw_sections_make(&s, a, NULL, NULL), BW_OK);
    const bw_slab *slab = &s->section[0].slab[3];
    ck_assert_double_eq_tol(slab->resistance, row->resistance, 1e-12);
    ck_assert_double_eq_tol(slab->sd_dry, row->sd_dry, 1e-9);
    ck_assert_double_eq_tol(slab->sd_wet, row->sd_wet, 1e-9);
    ck_assert_ptr_null(slab->sd_curve);
    ck_assert_int_eq(a->layer[3].evidence, row->evidence);
    bw_sections_free(s);
    bw_assembly_free(a);
}
END_TEST

START_TEST(overrides_are_marked_given_and_the_library_stays_as_it_was)
{
    bw_assembly *a = read_changed(
        "id=\"face\" material=\"test-board\"",
        "id=\"face\" material=\"test-board\" lambda=\"0.3 W/(m.K)\" "
        "density=\"810 kg/m3\" specific-heat=\"1100 J/(kg.K)\" "
        "initial-moisture=\"18 %\" source=\"data sheet &amp; letter\"");
    const bw_layer *face = &a->layer[0];
    ck_assert_double_eq(face->material->thermal_conductivity.value, 0.3);
    ck_assert_int_eq(face->material->thermal_conductivity.basis,
                     BW_BASIS_GIVEN);
    ck_assert_str_eq(face->material->thermal_conductivity.source,
                     "data sheet & letter");
    ck_assert_int_ne(face->material->mu_dry.basis, BW_BASIS_GIVEN);
    ck_assert_double_eq(face->material->density.value, 810.0);
    ck_assert_double_eq(face->material->specific_heat.value, 1100.0);
    ck_assert(face->has_initial_moisture && !face->initial_is_rh);
    ck_assert_double_eq_tol(face->initial_moisture, 0.18, 1e-15);
    ck_assert_double_eq(
        bw_library_find(library, "test-board")->thermal_conductivity.value,
        0.2);
    bw_assembly_free(a);
}
END_TEST

START_TEST(framing_starts_with_its_own_moisture)
{
    bw_assembly *a = read_changed(
        "spacing=\"600 mm\"", "spacing=\"600 mm\" initial-moisture=\"22 %\"");
    const bw_layer *bay = &a->layer[2];
    ck_assert(bay->framing.has_initial_moisture);
    ck_assert(!bay->framing.initial_is_rh);
    ck_assert_double_eq_tol(bay->framing.initial_moisture, 0.22, 1e-15);
    ck_assert(!bay->has_initial_moisture);
    bw_assembly_free(a);
    a = read_changed("spacing=\"600 mm\"",
                     "spacing=\"600 mm\" initial-relative-humidity=\"90 %\"");
    ck_assert(a->layer[2].framing.initial_is_rh);
    ck_assert_double_eq_tol(a->layer[2].framing.initial_moisture, 0.9, 1e-15);
    bw_assembly_free(a);
    /* as much as the pores hold */
    a = read_changed("thickness=\"20 mm\"",
                     "thickness=\"20 mm\" initial-moisture=\"58 %\"");
    ck_assert_double_eq_tol(a->layer[0].initial_moisture, 0.58, 1e-15);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_variable_membrane_keeps_its_curve)
{
    bw_assembly *a = read_changed("\"test-foil\"", "\"test-variable\"");
    bw_sections *s;
    ck_assert_int_eq(bw_sections_make(&s, a, NULL, NULL), BW_OK);
    ck_assert_ptr_nonnull(s->section[0].slab[3].sd_curve);
    ck_assert_double_eq(bw_curve_log(s->section[0].slab[3].sd_curve, 0.3), 5.0);
    bw_sections_free(s);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_high_permeance_is_a_low_sd_in_an_uncertain_range)
{
    bw_assembly *a = read_changed(
        "property=\"mu\" low=\"1\" high=\"3\"",
        "property=\"permeance\" low=\"50 ng/(Pa.s.m2)\" "
        "high=\"200 ng/(Pa.s.m2)\"");
    ck_assert_str_eq(a->layer[2].uncertain[0].property, "sd");
    ck_assert_double_eq_tol(a->layer[2].uncertain[0].low, 1.0, 1e-12);
    ck_assert_double_eq_tol(a->layer[2].uncertain[0].high, 4.0, 1e-12);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_cavity_may_be_slightly_ventilated_framed_and_given_its_air)
{
    bw_assembly *a = read_changed(
        "ventilation=\"none\"/>",
        "ventilation=\"slight\" openings=\"900 mm2/m\" air-change=\"36 1/h\">"
        "<framing material=\"test-timber\" fraction=\"10 %\"/></cavity>");
    const bw_layer *gap = &a->layer[1];
    ck_assert_int_eq(gap->kind, BW_LAYER_CAVITY);
    ck_assert_int_eq(gap->ventilation, BW_VENT_SLIGHT);
    ck_assert_double_eq_tol(gap->vent_openings, 0.0009, 1e-15);
    ck_assert_double_eq_tol(gap->air_change, 0.01, 1e-15);
    ck_assert_double_eq_tol(gap->framing.fraction, 0.10, 1e-15);
    ck_assert_str_eq(gap->material->id, "still-air");
    bw_assembly_free(a);
}
END_TEST

/* 50 mm with a face of 0.05, by hand from ISO 6946: 1/(1.25 + 0.2536). */
START_TEST(a_cavity_with_a_bright_face_resists_more)
{
    bw_assembly *a = read_changed("ventilation=\"none\"/>",
                                  "ventilation=\"none\" emissivity=\"0.05\"/>");
    ck_assert_double_eq(a->layer[1].emissivity, 0.05);
    bw_sections *sections;
    bw_error err;
    ck_assert_int_eq(bw_sections_make(&sections, a, NULL, &err), BW_OK);
    ck_assert_double_eq_tol(sections->section[0].slab[1].resistance, 0.6651,
                            1e-4);
    bw_sections_free(sections);
    bw_assembly_free(a);
}
END_TEST

START_TEST(indoors_takes_humidity_conditions_and_months)
{
    const char *from = "temperature=\"20 degC\" humidity-class=\"3\"/>";
    bw_assembly *a = read_changed(
        from, "temperature=\"18 degC\" relative-humidity=\"45 %\" "
              "margin=\"no\" surface-resistance=\"0.13 m2.K/W\"/>");
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_RH);
    ck_assert_double_eq_tol(a->indoors.relative_humidity, 0.45, 1e-15);
    ck_assert(!a->indoors.margin);
    ck_assert_double_eq(a->indoors.surface_resistance, 0.13);
    bw_assembly_free(a);
    a = read_changed(from, "conditions=\"en15026-high\"/>");
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_EN15026);
    ck_assert(a->indoors.en15026_high && !a->indoors.margin);
    bw_assembly_free(a);
    char rows[2048] = ">";
    for (int m = 12; m >= 1; m--) {
        size_t used = strlen(rows);
        snprintf(rows + used, sizeof rows - used,
                 "<month number=\"%d\" temperature=\"%d degC\" %s/>", m, 10 + m,
                 m % 2 == 0 ? "relative-humidity=\"50 %\""
                            : "vapour-pressure=\"800 Pa\"");
    }
    strcat(rows, "</indoors>");
    a = read_changed(from, rows);
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_MONTHS);
    ck_assert_double_eq(a->indoors.month_temperature[2], 13.0);
    ck_assert_double_eq(a->indoors.month_vapour_pressure[2], 800.0);
    ck_assert_double_eq_tol(a->indoors.month_vapour_pressure[11],
                            0.5 * bw_saturation_pressure(22.0), 1e-9);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_facing_may_be_given_in_degrees_and_an_absolute_climate_stays)
{
    bw_assembly *a = read_changed("weather/here.csv\" faces=\"SW\"",
                                  "/else/here.csv\" faces=\"200 deg\"");
    ck_assert_double_eq(a->outdoors.azimuth, 200.0);
    ck_assert_str_eq(a->outdoors.climate_path, "/else/here.csv");
    bw_assembly_free(a);
}
END_TEST

/* ---- what is noted ----------------------------------------------------- */

typedef struct note_row {
    const char *from, *to;
    bw_note_kind kind;
    const char *fragment;
} note_row;

static const note_row noted[] = {
    {"id=\"test\"", "id=\"test\"", BW_NOTE_INFO,
     "listed outside-to-inside; understood from outside to inside: Test board, "
     "still air cavity, Test batt"},
    {"outside-to-inside", "inside-to-outside", BW_NOTE_WARNING,
     "looks reversed"},
    {"<membrane id=\"foil\" material=\"test-foil\"/>", "", BW_NOTE_WARNING,
     "vapour enters more easily than it leaves"},
    {"<cavity id=\"gap\" thickness=\"50 mm\" ventilation=\"none\"/>",
     "<membrane id=\"gap\" sd=\"60 m\"/>", BW_NOTE_WARNING,
     "tight on both sides of Test batt"},
    {"ventilation=\"none\"", "ventilation=\"well\" resistance=\"0.18 m2.K/W\"",
     BW_NOTE_WARNING, "a ventilated cavity is given a resistance"},
    {"ventilation=\"none\"", "ventilation=\"slight\"", BW_NOTE_INFO,
     "1000 mm2/m is taken"},
    {"ventilation=\"none\"", "ventilation=\"well\" openings=\"3000 mm2/m\"",
     BW_NOTE_INFO, "is not used"},
    {"thickness=\"20 mm\"", "thickness=\"200 mm\"", BW_NOTE_WARNING,
     "thickness=\"200 mm\" lies outside the plausible range for the group "
     "board, 3 to 100 mm"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" lambda=\"4 W/(m.K)\"",
     BW_NOTE_WARNING, "for Test board, 0.1 to 0.4 W/(m.K)"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" mu=\"100\"", BW_NOTE_WARNING,
     "mu=\"100\" lies outside the plausible range for Test board, 5 to 20"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" sd=\"10 m\"", BW_NOTE_WARNING,
     "Was a mu given as sd?"},
    {"thickness=\"20 mm\"", "thickness=\"20 mm\" density=\"80 kg/m3\"",
     BW_NOTE_WARNING, "700 to 900 kg/m3"},
    {"thickness=\"20 mm\"",
     "thickness=\"20 mm\" mu=\"9\" evidence=\"declared\"", BW_NOTE_WARNING,
     "names no source="},
    {"low=\"1\" high=\"3\"", "low=\"5\" high=\"6\"", BW_NOTE_WARNING,
     "outside its own uncertain range"},
    {"driving-rain=\"sheltered\"", "", BW_NOTE_INFO, "moderate is taken"},
    {"id=\"test\"", "id=\"test\" element=\"roof\"", BW_NOTE_INFO,
     "taken as flat"},
    {"id=\"test\"", "id=\"test\" element=\"roof\"", BW_NOTE_WARNING,
     "open-sky= is not given: the roof is taken as a light one"},
    {"ventilation=\"none\"/>",
     "ventilation=\"none\"><framing material=\"test-timber\" "
     "fraction=\"10 %\"/></cavity>",
     BW_NOTE_INFO, "framing in 2 layers is taken to coincide"},
    {"thickness=\"90 mm\"", "thickness=\"90 mm\" initial-moisture=\"20 %\"",
     BW_NOTE_WARNING, "its framing starts as one that no moisture is given"},
};

START_TEST(what_looks_wrong_is_noted_but_read)
{
    bw_assembly *a = read_changed(noted[_i].from, noted[_i].to);
    ck_assert_msg(has_note(a, noted[_i].kind, noted[_i].fragment), "%s",
                  noted[_i].fragment);
    bw_assembly_free(a);
}
END_TEST

START_TEST(wind_and_rain_at_the_face_are_read)
{
    bw_assembly *a = read_changed(
        "driving-rain=\"sheltered\"",
        "driving-rain=\"severe\" rain-share=\"50 %\" terrain=\"urban\" "
        "height=\"12 m\"");
    const bw_outdoors *out = &a->outdoors;
    ck_assert(out->has_driving_rain && out->driving_rain == BW_RAIN_SEVERE);
    ck_assert(out->has_rain_share && out->rain_share == 0.5);
    ck_assert(out->has_terrain && out->terrain == BW_TERRAIN_URBAN);
    ck_assert(out->has_height && out->height == 12.0);
    bw_assembly_free(a);
    a = read_changed("driving-rain=\"sheltered\"", "");
    out = &a->outdoors;
    ck_assert(!out->has_driving_rain && !out->has_rain_share &&
              !out->has_terrain && !out->has_height);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_sound_file_brings_no_warning)
{
    bw_assembly *a = read_changed("id=\"test\"", "id=\"test\"");
    for (size_t i = 0; i < a->note_count; i++)
        ck_assert_msg(a->note[i].kind == BW_NOTE_INFO, "%s",
                      a->note[i].message);
    bw_assembly_free(a);
}
END_TEST

/* ---- shipped files ----------------------------------------------------- */

static const char *const shipped[] = {
    "estuary-as-found",         "estuary-fibre",         "estuary-mineral-foil",
    "estuary-mineral-variable", "upland-masonry-inside", "upland-open-outside",
    "upland-tight-outside",     "upland-cooled-archive"};

START_TEST(shipped_assemblies_are_read_with_the_shipped_library)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    char file[1024];
    bw_library *shelf;
    bw_assembly *a;
    bw_error err;
    ck_assert_msg(bw_library_read(&shelf, path, 1, &err) == BW_OK, "%s:%ld %s",
                  err.file, err.line, err.message);
    snprintf(file, sizeof file, BW_SOURCE_DIR "/assemblies/%s.xml",
             shipped[_i]);
    ck_assert_msg(bw_assembly_read(&a, file, shelf, &err) == BW_OK, "%s:%ld %s",
                  err.file, err.line, err.message);
    ck_assert_str_eq(a->id, shipped[_i]);
    ck_assert_ptr_nonnull(strstr(a->remark, "Invented"));
    ck_assert_msg(access(a->outdoors.climate_path, R_OK) == 0, "%s",
                  a->outdoors.climate_path);
    bw_assembly_free(a);
    bw_library_free(shelf);
}
END_TEST

START_TEST(the_schema_agrees_with_the_reader_on_good_files)
{
    if (system("xmllint --version >/dev/null 2>&1") != 0) {
        fprintf(stderr, "SKIPPED: no xmllint here to validate with\n");
        return;
    }
    ck_assert_int_eq(system("xmllint --noout --nonet --schema '" BW_SOURCE_DIR
                            "/docs/assembly.xsd' '" BW_SOURCE_DIR
                            "'/assemblies/*.xml 2>/dev/null"),
                     0);
    put(file_name, sound, strlen(sound));
    ck_assert_int_eq(system("xmllint --noout --nonet --schema '" BW_SOURCE_DIR
                            "/docs/assembly.xsd' ./input-test.xml 2>/dev/null"),
                     0);
    put_changed("thickness=\"20 mm\"", "thickness=\"20\"");
    ck_assert_int_ne(system("xmllint --noout --nonet --schema '" BW_SOURCE_DIR
                            "/docs/assembly.xsd' ./input-test.xml 2>/dev/null"),
                     0);
    unlink(file_name);
}
END_TEST

SUITE_AROUND(
    "input", read_library, free_library,
    FACT(every_part_of_a_file_reaches_the_model_in_si),
    FACT(the_closing_up_record_is_read_whole),
    FACT(who_read_what_with_which_meter_is_kept),
    FACT(limits_and_evidence_say_of_what_part_they_are),
    FACT(an_air_test_says_who_how_surely_and_where_it_is_written),
    FACT(the_model_runs_outside_to_inside_whatever_the_file_s_order),
    FACT(after_layer_follows_the_model_s_order),
    EACH(inline_values_give_the_layer_they_say, COUNT(inlines)),
    FACT(overrides_are_marked_given_and_the_library_stays_as_it_was),
    FACT(framing_starts_with_its_own_moisture),
    FACT(a_variable_membrane_keeps_its_curve),
    FACT(a_high_permeance_is_a_low_sd_in_an_uncertain_range),
    FACT(a_cavity_may_be_slightly_ventilated_framed_and_given_its_air),
    FACT(a_cavity_with_a_bright_face_resists_more),
    FACT(indoors_takes_humidity_conditions_and_months),
    FACT(a_facing_may_be_given_in_degrees_and_an_absolute_climate_stays),
    EACH(what_looks_wrong_is_noted_but_read, COUNT(noted)),
    FACT(wind_and_rain_at_the_face_are_read),
    FACT(a_sound_file_brings_no_warning),
    {shipped_assemblies_are_read_with_the_shipped_library, COUNT(shipped)},
    FACT(the_schema_agrees_with_the_reader_on_good_files))
