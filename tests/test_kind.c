/* What a layer of inline values is made of. */

#define FILE_OF_SUITE "./kind-test.xml"
#include "bothways/assessment.h"
#include "input_case.h"
#include "suite.h"

#define FACE "<layer id=\"face\" material=\"test-board\" thickness=\"20 mm\"/>"
#define INLINE(attributes)                                                     \
    "<layer id=\"face\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\" "           \
    "mu=\"50\" density=\"500 kg/m3\" " attributes "/>"

static const struct {
    const char *word;
    bw_wood_kind wood;
    bw_mould_class mould;
    bool hygroscopic, absorbs;
} kinds[] = {
    {"wood", BW_SOLID_WOOD, BW_MOULD_VERY_SENSITIVE, true, true},
    {"wood-panel", BW_WOOD_PANEL, BW_MOULD_SENSITIVE, true, true},
    {"gypsum", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, true},
    {"mineral", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, true, true},
    {"plant-fibre", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, false},
    {"mineral-wool", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false, false},
    {"foam", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false, false},
    {"plastic-or-metal", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false, false},
};

START_TEST(a_kind_sets_the_flags_of_an_inline_layer)
{
    for (size_t i = 0; i < COUNT(kinds); i++) {
        char layer[256];
        snprintf(layer, sizeof layer, INLINE("kind=\"%s\""), kinds[i].word);
        bw_assembly *a = read_changed(FACE, layer);
        const bw_material *m = a->layer[0].material;
        ck_assert_int_eq(m->wood_kind, kinds[i].wood);
        ck_assert_int_eq(m->mould_class, kinds[i].mould);
        ck_assert_int_eq(m->hygroscopic, kinds[i].hygroscopic);
        ck_assert_int_eq(m->absorbs_condensate, kinds[i].absorbs);
        ck_assert(!m->flags_assumed);
        ck_assert(!has_note(a, BW_NOTE_WARNING, "what it is made of"));
        bw_assembly_free(a);
    }
}
END_TEST

/* Whatever stores vapour can be simulated; its curve rises from dry air and is
 * told to be assumed. Solid wood has the equation of the Wood Handbook. */
START_TEST(a_kind_that_stores_vapour_has_a_generic_curve_and_says_it_is_assumed)
{
    for (size_t i = 0; i < COUNT(kinds); i++) {
        char layer[256];
        snprintf(layer, sizeof layer, INLINE("kind=\"%s\""), kinds[i].word);
        bw_assembly *a = read_changed(FACE, layer);
        const bw_material *m = a->layer[0].material;
        const bw_curve *s = &m->sorption;
        ck_assert_int_eq(s->count >= 4, kinds[i].hygroscopic &&
                                            kinds[i].wood != BW_SOLID_WOOD);
        for (size_t k = 1; k < s->count; k++) {
            ck_assert_double_gt(s->x[k], s->x[k - 1]);
            ck_assert_double_gt(s->y[k], s->y[k - 1]);
        }
        ck_assert_int_eq(m->water_absorption.known, kinds[i].hygroscopic);
        ck_assert_int_eq(has_note(a, BW_NOTE_INFO,
                                  "stores and draws is "
                                  "assumed"),
                         kinds[i].hygroscopic);
        bw_assembly_free(a);
    }
}
END_TEST

/* Regression values: estimates from within the shipped library (methods.md). */
static const struct stored_row {
    const char *word;
    double absorption; /* kg/(m2 s^0.5) */
    size_t count;
    double rh[8], u[8]; /* -, kg/kg */
} stored[] = {
    {"wood", 0.003, 0, {0}, {0}},
    {"wood-panel",
     0.003,
     6,
     {0, 0.33, 0.50, 0.65, 0.80, 0.90},
     {0, 0.05, 0.07, 0.09, 0.12, 0.17}},
    {"gypsum", 0.002, 4, {0, 0.50, 0.70, 0.88}, {0, 0.004, 0.0065, 0.018}},
    {"mineral", 0.1, 4, {0, 0.50, 0.80, 0.93}, {0, 0.012, 0.020, 0.030}},
    {"plant-fibre",
     0.005,
     8,
     {0, 0.33, 0.50, 0.65, 0.80, 0.90, 0.93, 0.97},
     {0, 0.05, 0.069, 0.09, 0.12, 0.153, 0.166, 0.19}},
};

START_TEST(what_a_kind_stores_and_draws_is_what_was_estimated)
{
    const struct stored_row *row = &stored[_i];
    char layer[256];
    snprintf(layer, sizeof layer, INLINE("kind=\"%s\""), row->word);
    bw_assembly *a = read_changed(FACE, layer);
    const bw_material *m = a->layer[0].material;
    ck_assert_double_eq(m->water_absorption.value, row->absorption);
    ck_assert_uint_eq(m->sorption.count, row->count);
    for (size_t i = 0; i < row->count; i++) {
        ck_assert_double_eq(m->sorption.x[i], row->rh[i]);
        ck_assert_double_eq(m->sorption.y[i], row->u[i]);
    }
    bw_assembly_free(a);
}
END_TEST

START_TEST(without_a_kind_an_inline_layer_is_read_cautiously_and_says_so)
{
    bw_assembly *a = read_changed(FACE, INLINE(""));
    const bw_material *m = a->layer[0].material;
    ck_assert_int_eq(m->wood_kind, BW_WOOD_PANEL);
    ck_assert_int_eq(m->mould_class, BW_MOULD_VERY_SENSITIVE);
    ck_assert(m->hygroscopic && !m->absorbs_condensate && m->flags_assumed);
    ck_assert(has_note(a, BW_NOTE_WARNING,
                       "<layer> face does not say what it is made of: judged "
                       "as a wood-based panel"));
    bw_assembly_free(a);
}
END_TEST

START_TEST(inline_values_over_a_library_material_keep_its_flags)
{
    bw_assembly *a = read_changed(
        FACE, "<layer id=\"face\" material=\"test-timber\" thickness=\"20 mm\" "
              "mu=\"40\"/>");
    const bw_material *timber = bw_library_find(library, "test-timber");
    const bw_material *m = a->layer[0].material;
    ck_assert_int_eq(timber->wood_kind, BW_SOLID_WOOD);
    ck_assert_int_eq(m->wood_kind, BW_SOLID_WOOD);
    ck_assert_int_eq(m->absorbs_condensate, timber->absorbs_condensate);
    ck_assert_int_eq(m->mould_class, timber->mould_class);
    ck_assert(!m->flags_assumed);
    bw_assembly_free(a);
}
END_TEST

static const refusal refusals[] = {
    {FACE, INLINE("kind=\"wod\""), 6, "did you mean wood?"},
    {FACE,
     "<layer id=\"face\" material=\"test-board\" thickness=\"20 mm\" "
     "kind=\"wood\"/>",
     6, "kind=\"wood\" stands beside material=\"test-board\""},
    {"<membrane id=\"foil\" material=\"test-foil\"/>",
     "<membrane id=\"foil\" sd=\"2 m\" kind=\"foam\"/>", 13,
     "is for a <layer>"},
};

START_TEST(a_kind_is_refused_where_it_says_nothing)
{
    for (size_t i = 0; i < COUNT(refusals); i++)
        expect_refusal(&refusals[i]);
}
END_TEST

/* The rise of panels by mass and the drying reserve of timber constructions
 * are asked of a layer that may be wood. */
START_TEST(a_layer_of_unknown_kind_is_asked_what_wood_is_asked)
{
    bw_assembly *a = read_changed(FACE, INLINE(""));
    bw_climate climate = {.file = "test", .place = "", .source = ""};
    for (int m = 0; m < BW_MONTHS; m++) {
        climate.month[m].temperature = 2.0;
        climate.month[m].vapour_pressure = 650.0;
    }
    const bw_assessment_options steady = {.no_transient = true};
    bw_assessment *out = NULL;
    ck_assert_int_eq(bw_assess(&out, a, &climate, &steady, NULL), BW_OK);
    bool panel = false, rain = false;
    for (size_t i = 0; i < out->criterion_count; i++)
        panel = panel ||
                strcmp(out->criterion[i].criterion, "panel-moisture-rise") == 0;
    for (size_t i = 0; i < out->scope_count; i++)
        rain = rain || strstr(out->scope[i].what,
                              "rain-absorbing outer face: face") != NULL;
    ck_assert(panel && rain);
    bw_assessment_free(out);
    bw_assembly_free(a);
}
END_TEST

SUITE_AROUND(
    "kind", read_library, free_library,
    FACT(a_kind_sets_the_flags_of_an_inline_layer),
    FACT(a_kind_that_stores_vapour_has_a_generic_curve_and_says_it_is_assumed),
    EACH(what_a_kind_stores_and_draws_is_what_was_estimated, COUNT(stored)),
    FACT(without_a_kind_an_inline_layer_is_read_cautiously_and_says_so),
    FACT(inline_values_over_a_library_material_keep_its_flags),
    FACT(a_kind_is_refused_where_it_says_nothing),
    FACT(a_layer_of_unknown_kind_is_asked_what_wood_is_asked))
