/* Walls read with changes, and walls and climates read from memory. What a
 * change does is compared with a file that says the same. */

#define FILE_OF_SUITE "edit-test.xml"
#include "input_case.h"

#include <math.h>

#include "bothways/climate.h"
#include "bothways/edit.h"
#include "suite.h"
#include "utf8.h"

static bw_status read_edited(bw_assembly **out, const bw_edit *edit,
                             size_t count, bw_error *err)
{
    *out = NULL;
    return bw_assembly_read_text(out, sound, "memory.xml", library, edit, count,
                                 err);
}

static bw_assembly *sound_with(const bw_edit *edit, size_t count)
{
    bw_assembly *a;
    bw_error err;
    bw_status status = read_edited(&a, edit, count, &err);
    ck_assert_msg(status == BW_OK, "%ld: %s", err.line, err.message);
    return a;
}

static const bw_layer *layer_of(const bw_assembly *a, const char *id)
{
    long i = bw_assembly_layer(a, id);
    ck_assert_int_ge(i, 0);
    return &a->layer[i];
}

START_TEST(a_wall_in_memory_reads_as_its_file)
{
    bw_assembly *a = sound_with(NULL, 0);
    bw_assembly *b = read_changed("<assembly", "<assembly");
    ck_assert_str_eq(a->file, "memory.xml");
    ck_assert_uint_eq(a->edit_count, 0);
    ck_assert_uint_eq(a->layer_count, b->layer_count);
    ck_assert_uint_eq(a->note_count, b->note_count);
    for (size_t i = 0; i < a->layer_count; i++) {
        ck_assert_str_eq(a->layer[i].id, b->layer[i].id);
        ck_assert_ptr_eq(a->layer[i].framing.material,
                         b->layer[i].framing.material);
        ck_assert_double_eq(a->layer[i].thickness, b->layer[i].thickness);
    }
    bw_assembly_free(a);
    bw_assembly_free(b);
}
END_TEST

START_TEST(a_layer_is_found_by_its_id)
{
    bw_assembly *a = sound_with(NULL, 0);
    ck_assert_int_eq(bw_assembly_layer(a, "face"), 0);
    ck_assert_int_eq(bw_assembly_layer(a, "lining"), 4);
    ck_assert_int_eq(bw_assembly_layer(a, "nowhere"), -1);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_number_is_changed_and_said)
{
    const bw_edit edit = {"foil.sd", "7 m"};
    bw_assembly *a = sound_with(&edit, 1);
    const bw_material *m = layer_of(a, "foil")->material;
    ck_assert(m->sd.known && m->sd.basis == BW_BASIS_GIVEN);
    ck_assert_double_eq_tol(m->sd.value, 7.0, 1e-12);
    ck_assert_uint_eq(a->edit_count, 1);
    ck_assert(has_note(a, BW_NOTE_WARNING,
                       "foil.sd=\"7 m\"; the file has no "
                       "sd= there"));
    bw_assembly_free(a);
}
END_TEST

START_TEST(the_last_of_two_changes_of_one_thing_counts)
{
    const bw_edit edit[] = {{"bay.thickness", "120 mm"},
                            {"bay.thickness", "140 mm"}};
    bw_assembly *a = sound_with(edit, 2);
    ck_assert_double_eq_tol(layer_of(a, "bay")->thickness, 0.14, 1e-12);
    ck_assert_uint_eq(a->edit_count, 2);
    ck_assert(has_note(a, BW_NOTE_WARNING, "the file has \"90 mm\""));
    ck_assert(has_note(a, BW_NOTE_WARNING, "an earlier change had \"120 mm\""));
    bw_assembly_free(a);
}
END_TEST

START_TEST(another_way_of_saying_it_replaces_the_first)
{
    const bw_edit edit[] = {{"face.mu", "30"},
                            {"face.sd", "3 m"},
                            {"face.lambda", "0.2 W/(m.K)"},
                            {"face.resistance", "0.1 m2.K/W"},
                            {"bay.framing.fraction", "20 %"}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    const bw_layer *face = layer_of(a, "face");
    ck_assert(!face->material->mu_dry.known);
    ck_assert_double_eq_tol(face->material->sd.value, 3.0, 1e-12);
    ck_assert_double_eq_tol(face->resistance.value, 0.1, 1e-12);
    ck_assert_double_eq_tol(layer_of(a, "bay")->framing.fraction, 0.2, 1e-12);
    bw_assembly_free(a);
}
END_TEST

START_TEST(width_and_spacing_replace_a_fraction)
{
    const bw_edit edit[] = {{"bay.framing.fraction", "20 %"},
                            {"bay.framing.width", "60 mm"},
                            {"bay.framing.spacing", "400 mm"}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    ck_assert_double_eq_tol(layer_of(a, "bay")->framing.fraction, 0.15, 1e-12);
    bw_assembly_free(a);
}
END_TEST

/* The third layer of the sound file, its id taken out. */
START_TEST(a_layer_without_an_id_is_found_by_its_number)
{
    static const struct {
        const char *id, *what;
        bool found;
    } row[] = {{"", "layer-3.thickness", true},
               {"", "layer-3.framing.fraction", true},
               {"", "layer-2.thickness", false}, /* that one has an id */
               {" id=\"bay\"", "layer-3.thickness", false}};
    for (size_t i = 0; i < COUNT(row); i++) {
        char text[4096];
        const char *at = strstr(sound, " id=\"bay\"");
        const bw_edit edit = {row[i].what, i == 1 ? "20 %" : "140 mm"};
        bw_assembly *a = NULL;
        snprintf(text, sizeof text, "%.*s%s%s", (int)(at - sound), sound,
                 row[i].id, at + strlen(" id=\"bay\""));
        char *after = strstr(text, "after-layer=\"bay\"");
        memcpy(after, "after-layer=\"gap\"", strlen("after-layer=\"gap\""));
        bw_status status = bw_assembly_read_text(&a, text, "m", library, &edit,
                                                 1, NULL);
        ck_assert_int_eq(status, row[i].found ? BW_OK : BW_ERR_INPUT);
        if (i == 0)
            ck_assert_double_eq_tol(a->layer[2].thickness, 0.14, 1e-12);
        if (i == 1)
            ck_assert_double_eq_tol(a->layer[2].framing.fraction, 0.2, 1e-12);
        bw_assembly_free(a);
    }
}
END_TEST

START_TEST(the_order_of_the_layers_can_be_turned)
{
    const bw_edit edit = {"layers.listed", "inside-to-outside"};
    bw_assembly *a = sound_with(&edit, 1);
    ck_assert_str_eq(a->layer[0].id, "lining");
    bw_assembly_free(a);
}
END_TEST

/* A resistance or sd that is stated does not grow with the thickness. */
START_TEST(a_thickness_says_what_it_leaves_as_it_is)
{
    const bw_edit edit[] = {{"face.resistance", "0.1 m2.K/W"},
                            {"face.sd", "3 m"},
                            {"face.thickness", "40 mm"},
                            {"lining.thickness", "15 mm"}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    ck_assert(has_note(a, BW_NOTE_WARNING, "leaves resistance=\"0.1 m2.K/W\""));
    ck_assert(has_note(a, BW_NOTE_WARNING, "leaves sd=\"3 m\""));
    ck_assert(!has_note(a, BW_NOTE_WARNING, "\"15 mm\" leaves"));
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_room_is_said_in_another_way)
{
    const bw_edit edit = {"indoors.conditions", "en15026-high"};
    bw_assembly *a = sound_with(&edit, 1);
    ck_assert_int_eq(a->indoors.kind, BW_INDOOR_EN15026);
    ck_assert(a->indoors.en15026_high);
    bw_assembly_free(a);
}
END_TEST

/* What was measured is not there any more. */
START_TEST(evidence_for_what_was_replaced_goes)
{
    static const char was[] = "<layer id=\"lining\" material=\"gypsum-test\"";
    char text[8192];
    const char *at = strstr(sound, was);
    snprintf(text, sizeof text, "%.*s%s evidence=\"measured\" source=\"cup\"%s",
             (int)(at - sound), sound, was, at + strlen(was));
    const bw_edit edit[] = {{"lining.mu", "9"},
                            {"lining.evidence", "declared"}};
    static const bw_evidence expected[] = {
        BW_EVIDENCE_MEASURED, BW_EVIDENCE_ASSUMED, BW_EVIDENCE_DECLARED};
    for (size_t count = 0; count < 3; count++) {
        bw_assembly *a = NULL;
        ck_assert_int_eq(
            bw_assembly_read_text(&a, text, "m", library, edit, count, NULL),
            BW_OK);
        ck_assert_int_eq(layer_of(a, "lining")->evidence, expected[count]);
        ck_assert_str_eq(layer_of(a, "lining")->source, count > 0 ? "" : "cup");
        bw_assembly_free(a);
    }
}
END_TEST

/* A lining with evidence, another leakage and what else a test needs. */
static bw_assembly *measured_with(const bw_edit *edit, size_t count)
{
    static const struct {
        const char *was, *is;
    } swap[] = {
        {"<layer id=\"lining\" material=\"gypsum-test\"",
         "<layer id=\"lining\" material=\"gypsum-test\" lambda=\"0.2 W/(m.K)\" "
         "free-saturation=\"300 kg/m3\" water-absorption=\"0.1 "
         "kg/(m2.s0.5)\" porosity=\"40 %\" evidence=\"measured\" "
         "source=\"cup\""},
        {"<layer id=\"bay\"",
         "<layer id=\"bay\" evidence=\"measured\" source=\"seen\""},
        {"</layers>", "</layers><air-leakage q50=\"3 m3/(m2.h)\" "
                      "connected-height=\"3 m\" evidence=\"measured\" "
                      "source=\"fan\"/>"},
    };
    char text[8192], next[8192];
    snprintf(text, sizeof text, "%s", sound);
    char *leak = strstr(text, "<air-leakage");
    if (leak != NULL) { /* the one that is there makes room */
        const char *end = strstr(leak, "/>") + 2;
        memmove(leak, end, strlen(end) + 1);
    }
    for (size_t i = 0; i < COUNT(swap); i++) {
        const char *at = strstr(text, swap[i].was);
        ck_assert_ptr_nonnull(at);
        snprintf(next, sizeof next, "%.*s%s%s", (int)(at - text), text,
                 swap[i].is, at + strlen(swap[i].was));
        memcpy(text, next, sizeof text);
    }
    bw_assembly *a = NULL;
    bw_error err;
    bw_status status = bw_assembly_read_text(&a, text, "m", library, edit,
                                             count, &err);
    ck_assert_msg(status == BW_OK, "%ld: %s", err.line, err.message);
    return a;
}

START_TEST(evidence_goes_with_what_is_taken_out)
{
    const bw_edit edit = {"lining.lambda", ""};
    bw_assembly *with = measured_with(NULL, 0);
    bw_assembly *without = measured_with(&edit, 1);
    ck_assert_int_eq(layer_of(with, "lining")->evidence, BW_EVIDENCE_MEASURED);
    ck_assert_int_eq(layer_of(without, "lining")->evidence,
                     BW_EVIDENCE_ASSUMED);
    bw_assembly_free(with);
    bw_assembly_free(without);
}
END_TEST

START_TEST(evidence_of_an_air_leakage_goes_with_a_change_of_it)
{
    const bw_edit edit = {"air-leakage.q50", "1 m3/(m2.h)"};
    bw_assembly *with = measured_with(NULL, 0);
    bw_assembly *changed = measured_with(&edit, 1);
    ck_assert(with->air_leakage.tested);
    ck_assert(!changed->air_leakage.tested);
    bw_assembly_free(with);
    bw_assembly_free(changed);
}
END_TEST

START_TEST(evidence_of_a_layer_goes_with_a_change_of_its_framing)
{
    const bw_edit edit[] = {{"bay.framing.fraction", "20 %"},
                            {"bay.framing.id", "post"}};
    bw_assembly *changed = measured_with(edit, 1);
    bw_assembly *named = measured_with(edit + 1, 1);
    ck_assert_int_ne(layer_of(changed, "bay")->evidence, BW_EVIDENCE_MEASURED);
    ck_assert_int_eq(layer_of(named, "bay")->evidence, BW_EVIDENCE_MEASURED);
    bw_assembly_free(changed);
    bw_assembly_free(named);
}
END_TEST

START_TEST(no_property_of_the_old_material_stays)
{
    const bw_edit edit = {"lining.material", "test-board"};
    bw_assembly *a = measured_with(&edit, 1);
    const bw_material *m = layer_of(a, "lining")->material;
    const bw_material *board = bw_library_find(library, "test-board");
    ck_assert_int_eq(m->free_saturation.known, board->free_saturation.known);
    ck_assert_double_eq(m->free_saturation.value, board->free_saturation.value);
    ck_assert_double_eq(m->water_absorption.value,
                        board->water_absorption.value);
    ck_assert_double_eq(m->porosity.value, board->porosity.value);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_change_that_a_later_one_undoes_is_said)
{
    const bw_edit edit[] = {{"bay.mu", "5"},
                            {"bay.evidence", "measured"},
                            {"bay.material", "test-board"},
                            {"foil.sd", "2 m"},
                            {"foil.sd", "3 m"}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    ck_assert(has_note(a, BW_NOTE_WARNING, "bay.mu=\"5\" has no effect"));
    ck_assert(has_note(a, BW_NOTE_WARNING,
                       "bay.evidence=\"measured\" has no effect"));
    ck_assert(!has_note(a, BW_NOTE_WARNING, "\"test-board\" has no effect"));
    ck_assert(!has_note(a, BW_NOTE_WARNING, "foil.sd=\"3 m\" has no effect"));
    ck_assert_uint_eq(a->edit_note_count, COUNT(edit) + 2);
    bw_assembly_free(a);
}
END_TEST

/* Half a change would be judged as a whole one. */
START_TEST(a_place_that_stands_for_several_is_refused)
{
    static const char *const ids[] = {"lining", "bay.framing", "indoors"};
    for (size_t i = 0; i < COUNT(ids); i++) {
        char what[64];
        const bw_edit edit[] = {{i == 0 ? "bay.framing.id" : "face.id", ids[i]},
                                {what, "30 mm"}};
        bw_assembly *a = NULL;
        bw_error err = {0};
        snprintf(what, sizeof what, "%s.thickness", ids[i]);
        ck_assert_int_eq(read_edited(&a, edit, 2, &err), BW_ERR_INPUT);
        ck_assert_msg(strstr(err.message, "more than one place") != NULL, "%s",
                      err.message);
    }
}
END_TEST

START_TEST(a_long_text_is_cut_between_characters)
{
    char value[2][401];
    for (size_t k = 0; k < 2; k++) {
        size_t used = k;
        memset(value[k], 'x', k);
        for (; used + 2 < sizeof value[k]; used += 2)
            memcpy(value[k] + used, "\xc3\xa9", 2);
        value[k][used] = '\0';
    }
    const bw_edit edit[] = {{"assembly.remark", value[0]},
                            {"assembly.remark", value[1]},
                            {"assembly.remark", value[0]},
                            {"assembly.remark", value[0]}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    for (size_t i = 0; i < a->edit_note_count; i++) {
        const char *text = a->note[i].message;
        size_t left = strlen(text), taken;
        for (; left > 0; text += taken, left -= taken) {
            taken = bw_utf8_valid(text, left);
            ck_assert_uint_gt(taken, 0);
        }
    }
    bw_assembly_free(a);
}
END_TEST

START_TEST(what_was_said_of_the_old_material_goes_with_it)
{
    const bw_edit edit[] = {{"bay.mu", "5"},
                            {"bay.density", "40 kg/m3"},
                            {"bay.material", "test-board"}};
    bw_assembly *a = sound_with(edit, COUNT(edit));
    const bw_layer *bay = layer_of(a, "bay");
    const bw_material *board = bw_library_find(library, "test-board");
    ck_assert_str_eq(bay->material->id, "test-board");
    ck_assert_double_eq(bay->material->mu_dry.value, board->mu_dry.value);
    ck_assert_double_eq(bay->material->density.value, board->density.value);
    ck_assert_uint_eq(bay->uncertain_count, 0);
    ck_assert(bay->framing.present);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_part_that_the_file_has_not_is_made)
{
    static const char leak[] = "<rain-leak fraction=\"1 %\" "
                               "after-layer=\"gap\"/>\n";
    char text[8192];
    const char *at = strstr(sound, leak);
    snprintf(text, sizeof text, "%.*s%s", (int)(at - sound), sound,
             at + strlen(leak));
    const bw_edit edit[] = {{"rain-leak.fraction", "2 %"},
                            {"rain-leak.after-layer", "gap"}};
    bw_assembly *a = NULL;
    ck_assert_int_eq(
        bw_assembly_read_text(&a, text, "m", library, NULL, 0, NULL), BW_OK);
    ck_assert(!a->rain_leak.given);
    bw_assembly_free(a);
    ck_assert_int_eq(
        bw_assembly_read_text(&a, text, "m", library, edit, 2, NULL), BW_OK);
    ck_assert(a->rain_leak.given);
    ck_assert_double_eq_tol(a->rain_leak.fraction, 0.02, 1e-12);
    bw_assembly_free(a);
}
END_TEST

START_TEST(an_empty_value_takes_the_attribute_out)
{
    const bw_edit edit = {"drying-test.after-layer", ""};
    bw_assembly *with = sound_with(NULL, 0), *without = sound_with(&edit, 1);
    ck_assert_int_ge(with->drying_test.after_layer, 0);
    ck_assert_int_lt(without->drying_test.after_layer, 0);
    bw_assembly_free(with);
    bw_assembly_free(without);
}
END_TEST

/* A refusal names the change, and leaves nothing behind. */
static const struct {
    bw_edit edit;
    const char *fragment, *also;
} refusals[] = {
    {{"fiol.sd", "2 m"}, "no layer, framing or part \"fiol\"", "mean foil?"},
    {{"outdors.faces", "N"}, "part \"outdors\"", "mean outdoors?"},
    {{"foil.ds", "2 m"}, "mean sd?", "read with the changes foil.ds=\"2 m\""},
    {{"foil.sd", "2"}, "sd=\"2\"", "read with the changes foil.sd=\"2\""},
    {{"foil.sd", "2 kg"}, "sd=\"2 kg\"", "read with the changes"},
    {{"bay.mu", "0.2"}, "mu=\"0.2\"", "read with the changes"},
    {{"foil", "2 m"}, "does not say which attribute", "membrane.sd"},
    {{".sd", "2 m"}, "does not say which attribute", ""},
    {{"foil.", "2 m"}, "does not say which attribute", ""},
    {{"foil.s d", "2 m"}, "no attribute", ""},
    {{"foil.1d", "2 m"}, "no attribute", ""},
    {{"foil.0d", "2 m"}, "no attribute", ""},
    {{"foil.9d", "2 m"}, "no attribute", ""},
    {{"foil.-d", "2 m"}, "no attribute", ""},
    {{"foil.xmlns", "urn:x"}, "no attribute", ""},
    {{"foil.sd", "\xff"}, "no UTF-8", ""},
    {{"f\x01il.sd", "2 m"}, "no UTF-8", ""},
    {{"foil.mu-wet", ""}, "takes out what <membrane> has not", ""},
    {{"assembly.id", ""}, "needs", "read with the changes"},
    {{"face.id", "foil"}, "stands twice", "read with the changes"},
    {{"bay.material", "test-bord"}, "mean test-board?", ""},
};

START_TEST(what_no_file_could_say_is_refused)
{
    bw_assembly *a;
    bw_error err = {0};
    ck_assert_int_eq(read_edited(&a, &refusals[_i].edit, 1, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(a);
    ck_assert_str_eq(err.file, "memory.xml");
    ck_assert_msg(strstr(err.message, refusals[_i].fragment) != NULL, "%s",
                  err.message);
    ck_assert_msg(strstr(err.message, refusals[_i].also) != NULL, "%s",
                  err.message);
}
END_TEST

START_TEST(water_that_would_run_metres_in_an_hour_is_refused)
{
    const bw_edit edit[] = {{"face.water-absorption", "20 kg/(m2.h0.5)"},
                            {"face.free-saturation", "6 kg/m3"},
                            {"face.free-saturation", "7 kg/m3"}};
    bw_assembly *a;
    bw_error err;
    ck_assert_int_eq(read_edited(&a, edit, 2, &err), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "3 m in an hour"));
    a = sound_with(edit, 3); /* 20/60 = 0.333 kg/(m2 s^0.5): 0.0476 m/s^0.5 */
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_change_that_is_too_long_is_refused)
{
    char place[200], value[600];
    memset(place, 'a', sizeof place);
    memcpy(place + sizeof place - 4, ".sd", 4);
    memset(value, '1', sizeof value);
    value[sizeof value - 1] = '\0';
    const bw_edit edit[] = {{place, "2 m"}, {"foil.sd", value}};
    for (size_t i = 0; i < 2; i++) {
        bw_assembly *a;
        bw_error err;
        ck_assert_int_eq(read_edited(&a, &edit[i], 1, &err), BW_ERR_INPUT);
        ck_assert_ptr_nonnull(strstr(err.message, "is too long"));
    }
}
END_TEST

START_TEST(text_that_is_no_wall_is_refused_by_its_name)
{
    bw_assembly *a = NULL;
    bw_error err;
    ck_assert_int_eq(
        bw_assembly_read_text(&a, "<wall/>", "typed", library, NULL, 0, &err),
        BW_ERR_INPUT);
    ck_assert_str_eq(err.file, "typed");
    ck_assert_int_eq(
        bw_assembly_read_text(&a, "", "typed", library, NULL, 0, &err),
        BW_ERR_INPUT);
    ck_assert_ptr_null(a);
}
END_TEST

/* ---- a climate in memory ------------------------------------------------ */

START_TEST(a_climate_in_memory_reads_as_its_file)
{
    char text[2048];
    size_t used = (size_t)snprintf(text, sizeof text,
                                   "month,temperature_C,"
                                   "relative_humidity_pct\n");
    for (int m = 1; m <= 12; m++)
        used += (size_t)snprintf(text + used, sizeof text - used,
                                 "%d,%d.5,80\n", m, m);
    put(file_name, text, used);
    bw_climate *file = NULL, *memory = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_climate_read(&file, file_name, NULL), BW_OK);
    unlink(file_name);
    ck_assert_int_eq(bw_climate_read_text(&memory, text, "typed", NULL), BW_OK);
    ck_assert_str_eq(memory->file, "typed");
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_double_eq(memory->month[m].temperature, m + 1.5);
        ck_assert_double_eq(memory->month[m].temperature,
                            file->month[m].temperature);
    }
    bw_climate_free(file);
    bw_climate_free(memory);
    memory = NULL;
    ck_assert_int_eq(bw_climate_read_text(&memory, "month\n1\n", "typed", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(memory);
    ck_assert_str_eq(err.file, "typed");
}
END_TEST

SUITE_AROUND("edit", read_library, free_library,
             FACT(a_wall_in_memory_reads_as_its_file),
             FACT(a_layer_is_found_by_its_id),
             FACT(a_number_is_changed_and_said),
             FACT(the_last_of_two_changes_of_one_thing_counts),
             FACT(a_layer_without_an_id_is_found_by_its_number),
             FACT(the_order_of_the_layers_can_be_turned),
             FACT(a_thickness_says_what_it_leaves_as_it_is),
             FACT(another_way_of_saying_it_replaces_the_first),
             FACT(width_and_spacing_replace_a_fraction),
             FACT(a_room_is_said_in_another_way),
             FACT(evidence_for_what_was_replaced_goes),
             FACT(evidence_goes_with_what_is_taken_out),
             FACT(evidence_of_an_air_leakage_goes_with_a_change_of_it),
             FACT(evidence_of_a_layer_goes_with_a_change_of_its_framing),
             FACT(no_property_of_the_old_material_stays),
             FACT(a_change_that_a_later_one_undoes_is_said),
             FACT(a_place_that_stands_for_several_is_refused),
             FACT(a_long_text_is_cut_between_characters),
             FACT(what_was_said_of_the_old_material_goes_with_it),
             FACT(a_part_that_the_file_has_not_is_made),
             FACT(an_empty_value_takes_the_attribute_out),
             EACH(what_no_file_could_say_is_refused, COUNT(refusals)),
             FACT(water_that_would_run_metres_in_an_hour_is_refused),
             FACT(a_change_that_is_too_long_is_refused),
             FACT(text_that_is_no_wall_is_refused_by_its_name),
             FACT(a_climate_in_memory_reads_as_its_file))
