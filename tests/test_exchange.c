/* gbXML to skeletons. Conversion factors are those of NIST SP 811 [from
 * memory, high]; the sample was written by hand from the public description
 * of the format. A skeleton is checked by completing it and reading it back:
 * what counts is what an assembly then says in SI. */

#include "exchange_case.h"
#include "suite.h"

#define SAMPLE BW_SOURCE_DIR "/tests/data/gbxml-sample.xml"

/* ---- the sample -------------------------------------------------------- */

START_TEST(constructions_are_listed_in_the_order_of_the_file)
{
    static const char *const ids[] = {"wall-si", "roof-ip", "wall-mixed",
                                      "door"};
    static const size_t layers[] = {6, 2, 2, 0};
    ck_assert_int_eq(bw_gbxml_read(&file, SAMPLE, &err), BW_OK);
    ck_assert_uint_eq(file->construction_count, 4);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_str_eq(file->construction[i].id, ids[i]);
        ck_assert_uint_eq(file->construction[i].layer_count, layers[i]);
    }
    ck_assert_str_eq(file->construction[0].name, "Brick and batt & lining");
    ck_assert_str_eq(file->version, "6.01");
}
END_TEST

START_TEST(layers_stay_outside_to_inside)
{
    static const char *const names[] = {
        "Facing brick", "Air space", "Sheathing board",
        "Batt",         "Film",      "Lining \"12.5\""};
    take(SAMPLE, "wall-si", "ng/(Pa.s.m2)");
    ck_assert_uint_eq(assembly->layer_count, COUNT(names));
    ck_assert(assembly->listed_outside_to_inside);
    for (size_t i = 0; i < COUNT(names); i++)
        ck_assert_str_eq(assembly->layer[i].name, names[i]);
    ck_assert_int_eq(assembly->layer[4].kind, BW_LAYER_MEMBRANE);
}
END_TEST

START_TEST(values_arrive_in_si)
{
    take(SAMPLE, "wall-si", "ng/(Pa.s.m2)");
    const bw_layer *layer = assembly->layer;
    /* No unit at the thickness of the board: the file's own, metres. */
    ck_assert_double_eq_tol(layer[2].thickness, 0.012, 1e-9);
    ck_assert_double_eq_tol(layer[3].thickness, 0.090, 1e-9);
    ck_assert_double_eq_tol(layer[1].resistance.value, 0.18, 1e-9);
    ck_assert_double_eq_tol(layer[2].material->thermal_conductivity.value, 0.13,
                            1e-9);
    ck_assert_double_eq_tol(layer[2].material->density.value, 650.0, 1e-6);
    /* 1 US perm is 57.2135e-12 kg/(s m2 Pa) (ASTM), so sd 3.4957 m with
     * delta_0 = 2.0e-10; 0.06 of it 58.26 m, 2 of it 1.748 m. */
    ck_assert_double_eq_tol(layer[2].material->sd.value, 1.748, 0.002);
    ck_assert_double_eq_tol(layer[4].material->sd.value, 58.26, 0.02);
    /* 2.0e-10 / 1500e-12 = 0.1333 m */
    ck_assert_double_eq_tol(layer[3].material->sd.value, 0.13333, 1e-4);
    /* A density of zero is not a density. */
    ck_assert(!layer[3].material->density.known);
}
END_TEST

START_TEST(nothing_imported_counts_as_more_than_assumed)
{
    take(SAMPLE, "wall-si", "ng/(Pa.s.m2)");
    for (size_t i = 0; i < assembly->layer_count; i++) {
        ck_assert_int_eq(assembly->layer[i].evidence, BW_EVIDENCE_ASSUMED);
        ck_assert_ptr_nonnull(
            strstr(assembly->layer[i].source, "gbxml-sample.xml"));
    }
}
END_TEST

START_TEST(a_skeleton_is_refused_until_it_is_completed)
{
    ck_assert_int_eq(import(SAMPLE, "roof-ip", NULL), BW_OK);
    ck_assert_int_eq(read_text(skeleton->xml), BW_ERR_INPUT);
    char *text = completed(skeleton->xml);
    char *half = replaced(text, "mu=\"10\"", "mu=\"?\"");
    ck_assert_int_eq(read_text(half), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "mu=\"?\""));
    free(half);
    free(text);
}
END_TEST

START_TEST(what_is_missing_is_listed_in_the_file_and_beside_it)
{
    ck_assert_int_eq(import(SAMPLE, "wall-si", "usperm"), BW_OK);
    static const char *const parts[] = {
        "Outdoors",
        "Indoors",
        "Cavities",
        "Membranes",
        "Air leakage",
        "Layer facing-brick: vapour resistance",
        "Layer air-space: only a thermal resistance"};
    for (size_t i = 0; i < COUNT(parts); i++) {
        ck_assert_msg(
            mentions(skeleton->missing, skeleton->missing_count, parts[i]),
            "%s", parts[i]);
        ck_assert_ptr_nonnull(strstr(skeleton->xml, parts[i]));
    }
    ck_assert(!mentions(skeleton->missing, skeleton->missing_count,
                        "Layer sheathing-board: vapour"));
}
END_TEST

START_TEST(a_roof_is_a_roof_and_ground_is_pointed_out)
{
    take(SAMPLE, "roof-ip", NULL);
    ck_assert_int_eq(assembly->element, BW_ELEMENT_ROOF);
    release();
    take(SAMPLE, "wall-mixed", "usperm");
    ck_assert_int_eq(assembly->element, BW_ELEMENT_WALL);
    ck_assert(mentions(skeleton->note, skeleton->note_count, "ground"));
}
END_TEST

START_TEST(shares_lie_side_by_side_and_lists_one_behind_the_other)
{
    take(SAMPLE, "wall-mixed", "usperm");
    ck_assert_uint_eq(assembly->layer_count, 3);
    /* The larger share is the layer, though it stands second. */
    ck_assert_str_eq(assembly->layer[0].name, "Batt");
    ck_assert_str_eq(assembly->layer[1].name, "Sheathing board");
    ck_assert_str_eq(assembly->layer[2].name, "Lining \"12.5\"");
    ck_assert(mentions(skeleton->missing, skeleton->missing_count,
                       "15 % of it is Stud"));
    ck_assert(
        mentions(skeleton->note, skeleton->note_count, "one behind the other"));
}
END_TEST

START_TEST(perm_si_is_asked_for_and_never_guessed)
{
    ck_assert_int_eq(import(SAMPLE, "wall-si", NULL), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(strstr(err.message, "PermSI"));
    ck_assert_ptr_nonnull(strstr(err.message, "--permeance-unit"));
    ck_assert_int_gt(err.line, 0);
    release();
    /* A bare perm is three units. */
    ck_assert_int_eq(import(SAMPLE, "wall-si", "perm"), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(strstr(err.message, "usperm"));
    release();
    take(SAMPLE, "wall-si", "metricperm");
    /* 1500 metric perms of 86.81e-12 kg/(s m2 Pa) (g/(24 h m2 mmHg)):
     * sd = 2.0e-10/1.302e-7 = 1.536 mm. */
    ck_assert_double_eq_tol(assembly->layer[3].material->sd.value, 0.001536,
                            1e-6);
}
END_TEST

/* A unit that is given is told as taken, or as not used. */
START_TEST(the_unit_of_a_permeance_is_told_where_one_is_given)
{
    static const struct {
        const char *construction, *unit;
        bool taken, unused;
    } rows[] = {{"wall-si", "metricperm", true, false},
                {"roof-ip", "metricperm", false, true},
                {"roof-ip", NULL, false, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        take(SAMPLE, rows[i].construction, rows[i].unit);
        ck_assert_int_eq(mentions(skeleton->note, skeleton->note_count,
                                  "PermSI is taken as metricperm"),
                         rows[i].taken);
        ck_assert_int_eq(mentions(skeleton->note, skeleton->note_count,
                                  "No material here has a permeance in PermSI"),
                         rows[i].unused);
        release();
    }
}
END_TEST

START_TEST(of_several_constructions_one_has_to_be_named)
{
    ck_assert_int_eq(import(SAMPLE, NULL, NULL), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(
        strstr(err.message, "wall-si, roof-ip, wall-mixed, door"));
    release();
    ck_assert_int_eq(import(SAMPLE, "roof-pi", NULL), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(strstr(err.message, "did you mean roof-ip?"));
    release();
    ck_assert_int_eq(import(SAMPLE, "door", NULL), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "no <LayerId>"));
}
END_TEST

/* ---- units ------------------------------------------------------------- */

/* One material with one quantity in each unit of the schema. */
static const struct {
    const char *element, *unit;
    double given, si;
} conversions[] = {
    {"Thickness", "Kilometers", 0.00025, 0.25},
    {"Thickness", "Meters", 0.25, 0.25},
    {"Thickness", "Centimeters", 25.0, 0.25},
    {"Thickness", "Millimeters", 250.0, 0.25},
    {"Thickness", "Miles", 0.0001, 0.1609344},
    {"Thickness", "Yards", 0.5, 0.4572},
    {"Thickness", "Feet", 0.5, 0.1524},
    {"Thickness", "Inches", 10.0, 0.254},
    {"Conductivity", "WPerMeterK", 0.04, 0.04},
    {"Conductivity", "WPerCmC", 0.0004, 0.04},
    {"Conductivity", "BtuPerHourFtF", 1.0, 1.730735},
    {"R-value", "SquareMeterKPerW", 2.5, 2.5},
    {"R-value", "HrSquareFtFPerBTU", 10.0, 1.761102},
    {"Density", "KgPerCubicM", 500.0, 500.0},
    {"Density", "GramsPerCubicCm", 0.5, 500.0},
    {"Density", "LbsPerCubicFt", 10.0, 160.1846},
    {"Density", "LbsPerCubicIn", 0.01, 276.7990},
    {"SpecificHeat", "JPerKgK", 1000.0, 1000.0},
    {"SpecificHeat", "BTUPerLbF", 0.25, 1046.7},
};

static double si_of(const char *element)
{
    const bw_layer *layer = &assembly->layer[0];
    if (strcmp(element, "Thickness") == 0)
        return layer->thickness;
    if (strcmp(element, "Conductivity") == 0)
        return layer->material->thermal_conductivity.value;
    if (strcmp(element, "R-value") == 0)
        return layer->resistance.value;
    if (strcmp(element, "Density") == 0)
        return layer->material->density.value;
    return layer->material->specific_heat.value;
}

START_TEST(every_unit_of_the_schema_is_converted)
{
    char text[2048];
    const char *element = conversions[_i].element;
    const char *rest = strcmp(element, "Thickness") == 0
                           ? ""
                           : "<Thickness unit='Meters'>0.1</Thickness>";
    snprintf(text, sizeof text,
             ROOT CHAIN "<Material id='m'>%s<%s unit='%s'>%.9g</%s></Material>"
                        "</gbXML>",
             "Feet", rest, element, conversions[_i].unit, conversions[_i].given,
             element);
    take(write_file(text), NULL, NULL);
    /* Six figures are written. */
    ck_assert_double_eq_tol(si_of(element), conversions[_i].si,
                            5e-6 * conversions[_i].si);
}
END_TEST

START_TEST(a_thickness_without_unit_is_in_the_files_length_unit)
{
    char text[2048];
    snprintf(text, sizeof text,
             ROOT CHAIN "<Material id='m'><Thickness>6</Thickness></Material>"
                        "</gbXML>",
             "Inches");
    take(write_file(text), NULL, NULL);
    ck_assert_double_eq_tol(assembly->layer[0].thickness, 0.1524, 1e-7);
}
END_TEST

START_TEST(an_element_given_twice_counts_once_and_is_noted)
{
    char text[2048];
    snprintf(text, sizeof text,
             ROOT CHAIN "<Material id='m'>"
                        "<Conductivity unit='WPerMeterK'>0.04</Conductivity>"
                        "<Thickness>0.1</Thickness>"
                        "<Conductivity unit='WPerMeterK'>0.05</Conductivity>"
                        "</Material></gbXML>",
             "Meters");
    take(write_file(text), NULL, NULL);
    ck_assert_double_eq_tol(si_of("Conductivity"), 0.04, 1e-9);
    ck_assert(mentions(skeleton->note, skeleton->note_count, "more than once"));
}
END_TEST

START_TEST(a_prefix_for_the_namespace_is_no_obstacle)
{
    take(write_file("<g:gbXML xmlns:g='http://www.gbxml.org/schema' "
                    "version='6.01' lengthUnit='Meters'><g:Construction "
                    "id='c'><g:LayerId layerIdRef='l'/></g:Construction>"
                    "<x:Layer xmlns:x='urn:other' id='l'/>"
                    "<g:Layer id='l'><g:MaterialId materialIdRef='m'/>"
                    "</g:Layer><g:Material id='m'><g:Thickness>0.1"
                    "</g:Thickness></g:Material></g:gbXML>"),
         NULL, NULL);
    ck_assert_double_eq_tol(assembly->layer[0].thickness, 0.1, 1e-9);
}
END_TEST

START_TEST(text_of_the_file_cannot_break_out)
{
    char text[2048];
    snprintf(text, sizeof text,
             ROOT "<Construction id='c'><Name>a --&gt; &lt;b&gt; \"c\" -"
                  "</Name><LayerId layerIdRef='l'/></Construction>"
                  "<Layer id='l'><MaterialId materialIdRef='m'/></Layer>"
                  "<Material id='m'><Name>&amp;lt; --&gt; \"</Name>"
                  "<Description>--&gt;&lt;evil/&gt;---</Description>"
                  "<Thickness>0.1</Thickness></Material></gbXML>",
             "Meters");
    take(write_file(text), NULL, NULL);
    ck_assert_str_eq(assembly->title, "a --> <b> \"c\" -");
    ck_assert_str_eq(assembly->layer[0].name, "&lt; --> \"");
}
END_TEST

/* ---- refusals ---------------------------------------------------------- */

static const struct {
    const char *text, *says;
} refused[] = {
    {"<!DOCTYPE gbXML [<!ENTITY e 'x'>]>" OPEN "</gbXML>", "document type"},
    {"<gbXML", "not well-formed"},
    {"<assembly xmlns='urn:bothways:assembly:1'/>", "gbXML file starts with"},
    {"<gbXML version='6.01'/>", "not in the namespace"},
    {OPEN "</gbXML>", "no <Construction>"},
    {OPEN "<Construction id='c'/></gbXML>", "no layers in it"},
    {OPEN "<Construction><LayerId layerIdRef='l'/></Construction></gbXML>",
     "has no id="},
    {OPEN "<Construction id='c'><LayerId layerIdRef='layer-1'/>"
          "</Construction><Layer id='layer-2'/></gbXML>",
     "did you mean layer-2?"},
    {OPEN "<Construction id='c'><LayerId/></Construction></gbXML>",
     "layerIdRef="},
    {OPEN "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"
          "<Layer id='l'/></gbXML>",
     "no <MaterialId>"},
    {OPEN CHAIN "</gbXML>", "refers to no <Material>"},
    {OPEN CHAIN "<Layer id='l'/><Material id='m'/></gbXML>", "stands twice"},
    {OPEN "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"
          "<Layer id='l'><MaterialId materialIdRef='m' percentOfLayer='50'/>"
          "<MaterialId materialIdRef='m'/></Layer><Material id='m'/></gbXML>",
     "side by side or one behind"},
    {OPEN "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"
          "<Layer id='l'><MaterialId materialIdRef='m' percentOfLayer='120'/>"
          "</Layer><Material id='m'/></gbXML>",
     "up to 100"},
    {MATERIAL("<Conductivity unit='WPerMeter'>1</Conductivity>"),
     "did you mean WPerMeterK?"},
    {MATERIAL("<Conductivity>1</Conductivity>"), "has no unit="},
    {MATERIAL("<Density unit='KgPerCubicM'>heavy</Density>"), "no number"},
    {MATERIAL("<Density unit='KgPerCubicM'>1,5</Density>"), "no number"},
    {MATERIAL("<Density unit='KgPerCubicM'>-5</Density>"),
     "cannot be negative"},
    {MATERIAL("<Permeance unit='Perm'>1</Permeance>"), "PermSI, PermIP"},
    {"<gbXML xmlns='http://www.gbxml.org/schema'>" CHAIN
     "<Material id='m'><Thickness>1</Thickness></Material></gbXML>",
     "has no lengthUnit="},
    {"<gbXML xmlns='http://www.gbxml.org/schema' lengthUnit='Ells'>" CHAIN
     "<Material id='m'><Thickness>1</Thickness></Material></gbXML>",
     "no unit of gbXML"},
};

START_TEST(bad_files_are_refused_with_line_and_reason)
{
    ck_assert_int_eq(import(write_file(refused[_i].text), NULL, NULL),
                     BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, refused[_i].says) != NULL,
                  "'%s' does not say '%s'", err.message, refused[_i].says);
    ck_assert_int_eq(err.line, 1);
    ck_assert_str_eq(err.file, path);
}
END_TEST

SUITE_AROUND("exchange", setup, teardown,
             FACT(constructions_are_listed_in_the_order_of_the_file),
             FACT(layers_stay_outside_to_inside), FACT(values_arrive_in_si),
             FACT(nothing_imported_counts_as_more_than_assumed),
             FACT(a_skeleton_is_refused_until_it_is_completed),
             FACT(what_is_missing_is_listed_in_the_file_and_beside_it),
             FACT(a_roof_is_a_roof_and_ground_is_pointed_out),
             FACT(shares_lie_side_by_side_and_lists_one_behind_the_other),
             FACT(perm_si_is_asked_for_and_never_guessed),
             FACT(the_unit_of_a_permeance_is_told_where_one_is_given),
             FACT(of_several_constructions_one_has_to_be_named),
             EACH(every_unit_of_the_schema_is_converted, COUNT(conversions)),
             FACT(a_thickness_without_unit_is_in_the_files_length_unit),
             FACT(an_element_given_twice_counts_once_and_is_noted),
             FACT(a_prefix_for_the_namespace_is_no_obstacle),
             FACT(text_of_the_file_cannot_break_out),
             EACH(bad_files_are_refused_with_line_and_reason, COUNT(refused)))
