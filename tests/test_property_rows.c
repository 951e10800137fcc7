/* The table of properties against everything that must know of a property:
 * files of materials, layers of assemblies, ranges, schemas, the reference. */

#define FILE_OF_SUITE "property-rows-test.xml"
#include "input_case.h"

#include "bothways/edit.h"
#include "file_text.h"
#include "properties.h"
#include "suite.h"

static void expect_text(const char *path, const char *fragment)
{
    char *text = file_text(path);
    ck_assert_msg(strstr(text, fragment) != NULL, "%s lacks %s", path,
                  fragment);
    free(text);
}

/* A value inside the range, with its unit. */
static const char *sample(char *out, size_t size, const bw_property_row *row)
{
    double value = 0.5 * (row->low + row->high);
    snprintf(out, size, "%g%s%s", value, *row->unit != '\0' ? " " : "",
             row->unit);
    return out;
}

START_TEST(every_property_lies_in_a_field_of_its_own)
{
    bw_material m = bw_material_unknown();
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        bw_property *p = bw_property_of(&m, (bw_property_id)i);
        ck_assert(!p->known);
        ck_assert_str_eq(p->source, "");
        ck_assert_str_eq(p->note, "");
        p->value = i + 1.0;
    }
    for (int i = 0; i < BW_PROPERTY_COUNT; i++)
        ck_assert_double_eq(bw_property_in(&m, (bw_property_id)i)->value,
                            i + 1.0);
    ck_assert_double_eq(m.porosity.value, BW_PROPERTY_POROSITY + 1.0);
    ck_assert_double_eq(m.mu_wet.value, BW_PROPERTY_MU_WET + 1.0);
}
END_TEST

/* Given inline it replaces the library's value, and nothing else. */
START_TEST(a_layer_takes_each_property_that_has_an_attribute)
{
    const bw_property_row *row = &bw_property_rows[_i];
    if (row->attribute == NULL || _i == BW_PROPERTY_MU_WET)
        return;
    char what[64], value[64];
    snprintf(what, sizeof what, "face.%s", row->attribute);
    const bw_edit edit = {what, sample(value, sizeof value, row)};
    if (_i == BW_PROPERTY_MU_DRY)
        snprintf(value, sizeof value, "7");
    bw_assembly *a = NULL;
    bw_error err;
    ck_assert_msg(
        bw_assembly_read_text(&a, sound, "m", library, &edit, 1, &err) == BW_OK,
        "%s", err.message);
    const bw_property *p = bw_property_in(a->layer[0].material,
                                          (bw_property_id)_i);
    ck_assert(p->known && p->basis == BW_BASIS_GIVEN);
    ck_assert_double_eq_tol(p->value, strtod(value, NULL),
                            1e-12 * strtod(value, NULL));
    ck_assert_int_eq(a->layer[0].evidence, BW_EVIDENCE_ASSUMED);
    bw_assembly_free(a);
}
END_TEST

/* One range in both kinds of file: it was 50 to 5,000 J/(kg K) in one and 100
 * to 10,000 in the other. */
START_TEST(a_layer_refuses_what_lies_outside_the_range)
{
    const bw_property_row *row = &bw_property_rows[_i];
    if (row->attribute == NULL || row->unit[0] == '\0')
        return;
    char what[64], value[64];
    snprintf(what, sizeof what, "face.%s", row->attribute);
    snprintf(value, sizeof value, "%g %s", 1.001 * row->high, row->unit);
    const bw_edit edit = {what, value};
    bw_assembly *a = NULL;
    ck_assert_int_eq(
        bw_assembly_read_text(&a, sound, "m", library, &edit, 1, NULL),
        BW_ERR_INPUT);
}
END_TEST

START_TEST(a_file_of_materials_takes_and_refuses_by_the_same_range)
{
    static const char head[] =
        "<materials xmlns=\"urn:bothways:material:1\" group=\"board\">"
        "<source key=\"s\">invented for this test</source>"
        "<material id=\"own-board\" name=\"Own board\">";
    static const char foot[] =
        "<flags hygroscopic=\"no\" absorbs-condensate=\"no\" wood=\"none\" "
        "mould=\"resistant\" source=\"s\"/></material></materials>";
    const bw_property_row *row = &bw_property_rows[_i];
    const char *sd = _i == BW_PROPERTY_SD ? ""
                                          : "<sd value=\"1 m\" basis=\"given\" "
                                            "source=\"s\"/>";
    const char *mu = _i == BW_PROPERTY_MU_WET ? "<mu-dry value=\"5\" "
                                                "basis=\"given\" source=\"s\"/>"
                                              : "";
    const double values[] = {row->high, 1.001 * row->high};
    ck_assert_int_eq(system("rm -rf property-rows && mkdir property-rows"), 0);
    for (size_t k = 0; k < 2; k++) {
        char text[2048];
        const int length = snprintf(
            text, sizeof text,
            "%s%s%s<%s value=\"%.9g%s%s\" basis=\"given\" source=\"s\"%s/>%s",
            head, sd, mu, row->element, values[k],
            *row->unit != '\0' ? " " : "", row->unit,
            _i == BW_PROPERTY_CONDUCTIVITY_FACTOR ? " kind=\"f-u\"" : "", foot);
        put("property-rows/own.xml", text, (size_t)length);
        const char *const folder[] = {"property-rows"};
        bw_library *own = NULL;
        bw_error err = {0};
        bw_status status = bw_library_read(&own, folder, 1, &err);
        ck_assert_msg(status == (k == 0 ? BW_OK : BW_ERR_INPUT), "%s %g: %s",
                      row->element, values[k], err.message);
        bw_library_free(own);
    }
    ck_assert_int_eq(system("rm -rf property-rows"), 0);
}
END_TEST

START_TEST(schemas_know_every_property)
{
    const bw_property_row *row = &bw_property_rows[_i];
    char fragment[96];
    snprintf(fragment, sizeof fragment, "<xs:element name=\"%s\"",
             row->element);
    expect_text(BW_SOURCE_DIR "/docs/material.xsd", fragment);
    if (row->attribute == NULL)
        return;
    snprintf(fragment, sizeof fragment, "<xs:attribute name=\"%s\"",
             row->attribute);
    expect_text(BW_SOURCE_DIR "/docs/assembly.xsd", fragment);
}
END_TEST

/* "*Properties*" of docs/input.md: the line that the table gives. */
START_TEST(the_reference_lists_every_property_with_its_range)
{
    const bw_property_row *row = &bw_property_rows[_i];
    char line[320], attribute[64] = "-";
    if (row->attribute != NULL)
        snprintf(attribute, sizeof attribute, "`%s`", row->attribute);
    snprintf(line, sizeof line, "| `%s` | %s | %s | %s | %g to %g | %s |\n",
             row->element, attribute, row->title,
             row->unit[0] != '\0' ? row->unit : "-", row->low, row->high,
             row->meaning);
    expect_text(BW_SOURCE_DIR "/docs/input.md", line);
}
END_TEST

SUITE_AROUND(
    "property_rows", read_library, free_library,
    FACT(every_property_lies_in_a_field_of_its_own),
    {a_layer_takes_each_property_that_has_an_attribute, BW_PROPERTY_COUNT},
    EACH(a_layer_refuses_what_lies_outside_the_range, BW_PROPERTY_COUNT),
    {a_file_of_materials_takes_and_refuses_by_the_same_range,
     BW_PROPERTY_COUNT},
    EACH(schemas_know_every_property, BW_PROPERTY_COUNT),
    {the_reference_lists_every_property_with_its_range, BW_PROPERTY_COUNT})
