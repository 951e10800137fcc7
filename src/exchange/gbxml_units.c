#include <string.h>

#include "fail.h"
#include "gbxml.h"
#include "number.h"
#include "text.h"

/* Units of gbXML 6.01, names from the schema as described in the open sources
 * of the format [seen]. Factors: inch 25.4 mm, pound 0.453 592 37 kg and Btu
 * 1055.055 852 62 J (international table) are exact by definition; what
 * follows from them is derived.
 *
 *   Btu/(h ft F)   = 1055.05585262 / (3600 0.3048 5/9)    = 1.730735 W/(m K)
 *   h ft2 F/Btu    = 0.3048^2 5/9 3600 / 1055.05585262    = 0.176110 m2 K/W
 *   Btu/(lb F)     = 1055.05585262 / (0.45359237 5/9)     = 4186.8 J/(kg K) */

static const double FOOT = 0.3048, INCH = 0.0254, POUND = 0.45359237;
static const double BTU = 1055.05585262, DEGREE_F = 5.0 / 9.0, HOUR = 3600.0;

typedef struct unit {
    bw_gbxml_kind kind;
    const char *name;
} unit;

static const unit units[] = {
    {BW_GBXML_THICKNESS, "Millimeters"},
    {BW_GBXML_THICKNESS, "Centimeters"},
    {BW_GBXML_THICKNESS, "Meters"},
    {BW_GBXML_THICKNESS, "Kilometers"},
    {BW_GBXML_THICKNESS, "Inches"},
    {BW_GBXML_THICKNESS, "Feet"},
    {BW_GBXML_THICKNESS, "Yards"},
    {BW_GBXML_THICKNESS, "Miles"},
    {BW_GBXML_CONDUCTIVITY, "WPerMeterK"},
    {BW_GBXML_CONDUCTIVITY, "WPerCmC"},
    {BW_GBXML_CONDUCTIVITY, "BtuPerHourFtF"},
    {BW_GBXML_RESISTANCE, "SquareMeterKPerW"},
    {BW_GBXML_RESISTANCE, "HrSquareFtFPerBTU"},
    {BW_GBXML_DENSITY, "KgPerCubicM"},
    {BW_GBXML_DENSITY, "GramsPerCubicCm"},
    {BW_GBXML_DENSITY, "LbsPerCubicFt"},
    {BW_GBXML_DENSITY, "LbsPerCubicIn"},
    {BW_GBXML_SPECIFIC_HEAT, "JPerKgK"},
    {BW_GBXML_SPECIFIC_HEAT, "BTUPerLbF"},
    {BW_GBXML_PERMEANCE, "PermSI"},
    {BW_GBXML_PERMEANCE, "PermIP"},
};
enum { UNIT_COUNT = sizeof units / sizeof units[0] };

static double factor_of(size_t index)
{
    const double factor[UNIT_COUNT] = {
        1e-3,
        1e-2,
        1.0,
        1e3,
        INCH,
        FOOT,
        3.0 * FOOT,
        5280.0 * FOOT,
        1.0,
        100.0,
        BTU / (HOUR * FOOT * DEGREE_F),
        1.0,
        FOOT * FOOT * DEGREE_F * HOUR / BTU,
        1.0,
        1e3,
        POUND / (FOOT * FOOT * FOOT),
        POUND / (INCH * INCH * INCH),
        1.0,
        BTU / (POUND * DEGREE_F),
        1.0,
        1.0,
    };
    return factor[index];
}

static const char *const elements[BW_GBXML_KINDS] = {
    [BW_GBXML_THICKNESS] = "Thickness",
    [BW_GBXML_CONDUCTIVITY] = "Conductivity",
    [BW_GBXML_RESISTANCE] = "R-value",
    [BW_GBXML_DENSITY] = "Density",
    [BW_GBXML_SPECIFIC_HEAT] = "SpecificHeat",
    [BW_GBXML_PERMEANCE] = "Permeance",
};

const char *bw_gbxml_element(bw_gbxml_kind kind)
{
    return elements[kind];
}

static size_t units_of(bw_gbxml_kind kind, const char *names[UNIT_COUNT])
{
    size_t count = 0;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].kind == kind)
            names[count++] = units[i].name;
    return count;
}

static bw_status refuse_unit(const bw_gbxml_owner *owner, const xmlNode *node,
                             const char *attribute, bw_gbxml_kind kind,
                             bw_error *err)
{
    const char *names[UNIT_COUNT];
    size_t count = units_of(kind, names);
    char list[256];
    bw_xml_list(list, sizeof list, names, count);
    const char *text = bw_xml_value(node, attribute);
    if (text == NULL)
        return bw_xml_fail(&owner->xml, node, err,
                           "has no %s=, which the format asks for; one of: %s",
                           attribute, list);
    return bw_xml_fail_at(
        &owner->xml, node, attribute, err,
        "is no unit of gbXML 6.01 for this%s; one of: %s",
        bw_text_meant((char[BW_MEANT]){0}, text, names, count), list);
}

/* Finds the unit that applies to an element. */
static bw_status find_unit(size_t *index, const bw_gbxml_owner *owner,
                           const xmlNode *node, bw_gbxml_kind kind,
                           bw_error *err)
{
    const xmlNode *from = node;
    const char *attribute = "unit";
    if (kind == BW_GBXML_THICKNESS && bw_xml_value(node, "unit") == NULL) {
        from = owner->xml.root;
        attribute = "lengthUnit";
    }
    const char *text = bw_xml_value(from, attribute);
    for (size_t i = 0; text != NULL && i < UNIT_COUNT; i++) {
        if (units[i].kind != kind || strcmp(units[i].name, text) != 0)
            continue;
        *index = i;
        return BW_OK;
    }
    return refuse_unit(owner, from, attribute, kind, err);
}

static bw_status read_number(double *value, const bw_gbxml_owner *owner,
                             const xmlNode *node, bw_error *err)
{
    bw_arena arena = {0};
    const char *text = bw_gbxml_text(&arena, node), *end;
    bw_status status = BW_OK;
    if (text == NULL)
        status = bw_fail_memory(err);
    else if (!bw_number_read(text, value, &end) || *end != '\0')
        status = bw_xml_fail(&owner->xml, node, err,
                             "holds \"%.40s\", which is no number (a decimal "
                             "point, no comma)",
                             text);
    else if (*value < 0.0)
        status = bw_xml_fail(&owner->xml, node, err,
                             "holds %.40s; it cannot be negative", text);
    bw_arena_release(&arena);
    return status;
}

bw_status bw_gbxml_read_quantity(bw_gbxml_quantity *out,
                                 const bw_gbxml_owner *owner,
                                 const xmlNode *material, bw_gbxml_kind kind,
                                 bw_error *err)
{
    *out = (bw_gbxml_quantity){.unit = ""};
    const xmlNode *node = bw_gbxml_first(material, elements[kind]);
    if (node == NULL)
        return BW_OK;
    size_t index = 0;
    double number = 0.0;
    BW_TRY(read_number(&number, owner, node, err));
    BW_TRY(find_unit(&index, owner, node, kind, err));
    *out = (bw_gbxml_quantity){
        .given = true,
        .value = number * factor_of(index),
        .unit = units[index].name,
        .repeated = bw_gbxml_next(node, elements[kind]) != NULL,
        .line = bw_xml_line(node)};
    return BW_OK;
}
