/* Cavities that are bridged: filled all over, or blocked in part. */

#include <math.h>

#define FILE_OF_SUITE "./cavity-test.xml"
#include "bothways/assessment.h"
#include "input_case.h"
#include "suite.h"

#define GAP "<cavity id=\"gap\" thickness=\"50 mm\" ventilation=\"none\"/>"
#define WITH(attributes)                                                       \
    "<cavity id=\"gap\" thickness=\"50 mm\" " attributes "/>"

static const refusal refusals[] = {
    {GAP, WITH("ventilation=\"none\" filled-with=\"test-bord\""), 7,
     "filled-with=\"test-bord\" is not in the material library (did you mean "
     "test-board?)"},
    {GAP, WITH("ventilation=\"none\" filled-with=\"test-foil\""), 7,
     "has no conductivity or no mu in the library"},
    {GAP, WITH("ventilation=\"none\" blocked=\"20 %\""), 7,
     "needs filled-with= beside it"},
    {GAP,
     WITH("ventilation=\"none\" filled-with=\"test-board\" blocked=\"0 %\""), 7,
     "outside what is possible here, 0.01 % to 99.99 %"},
    {GAP,
     WITH("ventilation=\"none\" filled-with=\"test-board\" blocked=\"100 %\""),
     7, "outside what is possible here, 0.01 % to 99.99 %"},
    {GAP, WITH("ventilation=\"well\" filled-with=\"test-board\""), 7,
     "no air passes where all is filled. Write ventilation=\"none\""},
    {GAP, WITH("ventilation=\"slight\" filled-with=\"test-board\""), 7,
     "contradict each other"},
    {GAP, "<cavity id=\"gap\" thickness=\"9 mm\" ventilation=\"well\"/>", 7,
     "thickness=\"9 mm\" is too thin for ventilation=\"well\""},
    {GAP,
     WITH("ventilation=\"none\" resistance=\"0.18 m2.K/W\" "
          "filled-with=\"test-board\""),
     7, "is that of still air"},
};

START_TEST(what_bridges_a_cavity_is_refused_where_it_contradicts_itself)
{
    for (size_t i = 0; i < COUNT(refusals); i++)
        expect_refusal(&refusals[i]);
}
END_TEST

START_TEST(a_filled_cavity_is_a_layer_of_its_filling)
{
    bw_assembly *a = read_changed(
        GAP, WITH("ventilation=\"none\" filled-with=\"test-board\""));
    ck_assert_int_eq(a->layer[1].kind, BW_LAYER_SOLID);
    ck_assert_str_eq(a->layer[1].material->id, "test-board");
    ck_assert_ptr_null(a->layer[1].blocked_with);
    ck_assert(strncmp(a->layer[1].name, "cavity filled with ", 19) == 0);
    bw_assembly_free(a);
}
END_TEST

static const bw_section *named(const bw_sections *sections, const char *name)
{
    for (size_t i = 0; i < sections->count; i++)
        if (strcmp(sections->section[i].name, name) == 0)
            return &sections->section[i];
    ck_abort_msg("no section %s", name);
    return NULL;
}

START_TEST(a_blocked_share_is_a_section_and_the_shares_make_up_the_wall)
{
    bw_assembly *a = read_changed(
        GAP, WITH("ventilation=\"none\" filled-with=\"test-board\" "
                  "blocked=\"20 %\""));
    bw_sections *s = NULL;
    ck_assert_int_eq(bw_sections_make(&s, a, NULL, NULL), BW_OK);
    ck_assert_uint_eq(s->count, 3);
    const double stud = 45.0 / 600.0;
    const bw_section *blocked = named(s, "blocked-cavity");
    ck_assert_double_eq_tol(named(s, "between-studs")->fraction,
                            (1 - stud) * 0.8, 1e-12);
    ck_assert_double_eq_tol(named(s, "through-stud")->fraction, stud, 1e-12);
    ck_assert_double_eq_tol(blocked->fraction, (1 - stud) * 0.2, 1e-12);
    ck_assert_int_eq(blocked->slab[1].kind, BW_LAYER_SOLID);
    ck_assert_str_eq(blocked->slab[1].material->id, "test-board");
    ck_assert_int_eq(named(s, "through-stud")->slab[1].kind, BW_LAYER_CAVITY);
    bw_sections_free(s);
    bw_assembly_free(a);
}
END_TEST

START_TEST(where_a_ventilated_cavity_is_blocked_the_cladding_counts)
{
    bw_assembly *a = read_changed(
        GAP, WITH("ventilation=\"well\" filled-with=\"test-board\" "
                  "blocked=\"5 %\""));
    bw_sections *s = NULL;
    ck_assert_int_eq(bw_sections_make(&s, a, NULL, NULL), BW_OK);
    ck_assert_uint_eq(named(s, "between-studs")->dropped_layers, 2);
    ck_assert_double_eq(named(s, "between-studs")->outer_resistance, 0.13);
    ck_assert_uint_eq(named(s, "blocked-cavity")->dropped_layers, 0);
    ck_assert_double_eq(named(s, "blocked-cavity")->outer_resistance, 0.04);
    bw_sections_free(s);
    bw_assembly_free(a);
}
END_TEST

/* A leaf, a cavity, wool: R 0.1, 0.18 (ISO 6946, 50 mm) and 2.5. */
static bw_assembly in_memory(bw_layer layer[3])
{
#define KNOWN(v)                                                               \
    {                                                                          \
        .known = true, .value = (v), .source = "", .note = ""                  \
    }
    static const bw_material leaf = {.id = "leaf",
                                     .name = "leaf",
                                     .thermal_conductivity = KNOWN(1.0),
                                     .mu_dry = KNOWN(10)},
                             wool = {.id = "wool",
                                     .name = "wool",
                                     .thermal_conductivity = KNOWN(0.04),
                                     .mu_dry = KNOWN(1)},
                             air = {.id = "air", .name = "air", .group = "air"};
    layer[0] = (bw_layer){
        .id = "leaf", .name = "leaf", .material = &leaf, .thickness = 0.1};
    layer[1] = (bw_layer){.id = "cavity",
                          .name = "cavity",
                          .kind = BW_LAYER_CAVITY,
                          .material = &air,
                          .thickness = 0.05,
                          .blocked_with = &leaf,
                          .blocked = 0.2};
    layer[2] = (bw_layer){
        .id = "wool", .name = "wool", .material = &wool, .thickness = 0.1};
    return (bw_assembly){.layer_count = 3, .layer = layer};
}

/* By hand, ISO 6946's combined method. */
START_TEST(transmittance_counts_what_blocks_the_cavity)
{
    bw_layer layer[3];
    bw_assembly a = in_memory(layer);
    bw_thermal_result t;
    ck_assert_int_eq(bw_thermal(&t, &a, NULL), BW_OK);
    const double rest = 0.13 + 0.04 + 0.1 + 2.5;
    const double upper = 1 / (0.8 / (rest + 0.18) + 0.2 / (rest + 0.05));
    const double lower = rest + 1 / (0.8 / 0.18 + 0.2 / 0.05);
    ck_assert_uint_eq(t.section_count, 2);
    ck_assert_double_eq_tol(t.upper_limit, upper, 1e-12);
    ck_assert_double_eq_tol(t.lower_limit, lower, 1e-12);
    ck_assert_double_eq_tol(t.section_fraction[1], 0.2, 1e-12);
}
END_TEST

START_TEST(transmittance_leaves_a_blocked_well_ventilated_cavity_out)
{
    bw_layer layer[3];
    bw_assembly a = in_memory(layer);
    layer[1].ventilation = BW_VENT_WELL;
    bw_thermal_result t;
    ck_assert_int_eq(bw_thermal(&t, &a, NULL), BW_OK);
    ck_assert_uint_eq(t.section_count, 1);
    ck_assert_double_eq_tol(t.resistance, 0.13 + 2.5 + 0.13, 1e-12);
}
END_TEST

START_TEST(every_section_has_its_rows_of_the_verdict)
{
    bw_assembly *a = read_changed(
        GAP, WITH("ventilation=\"none\" filled-with=\"test-board\" "
                  "blocked=\"20 %\""));
    bw_climate climate = {.file = "test", .place = "", .source = ""};
    for (int m = 0; m < BW_MONTHS; m++) {
        climate.month[m].temperature = 10.0;
        climate.month[m].vapour_pressure = 900.0;
    }
    const bw_assessment_options steady = {.no_transient = true};
    bw_assessment *out = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_assess(&out, a, &climate, &steady, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_uint_eq(out->section_count, 3);
    for (size_t k = 0; k < out->section_count; k++) {
        size_t rows = 0;
        for (size_t i = 0; i < out->criterion_count; i++)
            rows += strcmp(out->criterion[i].section,
                           out->section[k].section->name) == 0;
        ck_assert_uint_gt(rows, 3);
    }
    bw_assessment_free(out);
    bw_assembly_free(a);
}
END_TEST

/* The simulation keeps the framed cladding that the other methods leave out. */
START_TEST(a_wall_framed_outside_its_ventilated_cavity_alone_is_simulated)
{
    bw_layer layer[3];
    bw_assembly a = in_memory(layer);
    bw_material leaf = *layer[0].material;
    leaf.mu_wet = leaf.mu_dry;
    leaf.group = "masonry";
    leaf.density = (bw_property){.known = true, .value = 1700};
    leaf.specific_heat = (bw_property){.known = true, .value = 1000};
    leaf.hygroscopic = leaf.absorbs_condensate = true;
    layer[1].blocked_with = NULL;
    layer[1].ventilation = BW_VENT_WELL;
    for (size_t i = 0; i < 3; i += 2)
        layer[i].material = &leaf;
    layer[0].framing = (bw_framing){
        .present = true, .material = &leaf, .fraction = 0.1};
    layer[2].has_initial_moisture = layer[2].initial_is_rh = true;
    layer[2].initial_moisture = 0.95; /* beyond the monthly method */
    a.outdoors.driving_rain = BW_RAIN_NONE;
    a.indoors = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .temperature = 20.0, .humidity_class = 2};
    a.drying_test.after_layer = -1;
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(
        bw_climate_read(&climate,
                        BW_SOURCE_DIR "/assemblies/climates/upland.csv", &err),
        BW_OK);
    const bw_assessment_options options = {
        .no_advice = true,
        .synthetic_hours = true,
        .transient = {.max_years = 1, .allow_missing = true}};
    bw_assessment *out = NULL;
    ck_assert_msg(bw_assess(&out, &a, climate, &options, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_uint_eq(out->section_count, 1);
    ck_assert_msg(out->section[0].has_transient, "%s",
                  out->section[0].transient_reason);
    bool told = false;
    const bw_transient_result *run = &out->section[0].transient;
    for (size_t i = 0; i < run->note_count; i++)
        told = told || strcmp(run->note[i],
                              "draws no liquid: no A_w known: leaf, wool") == 0;
    ck_assert_msg(told, "no note on layers that draw no liquid");
    bw_assessment_free(out);
    bw_climate_free(climate);
}
END_TEST

SUITE_AROUND(
    "cavity", read_library, free_library,
    FACT(what_bridges_a_cavity_is_refused_where_it_contradicts_itself),
    FACT(a_filled_cavity_is_a_layer_of_its_filling),
    FACT(a_blocked_share_is_a_section_and_the_shares_make_up_the_wall),
    FACT(where_a_ventilated_cavity_is_blocked_the_cladding_counts),
    FACT(transmittance_counts_what_blocks_the_cavity),
    FACT(transmittance_leaves_a_blocked_well_ventilated_cavity_out),
    FACT(every_section_has_its_rows_of_the_verdict),
    FACT(a_wall_framed_outside_its_ventilated_cavity_alone_is_simulated))
