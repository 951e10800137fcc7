#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "bothways/air.h"
#include "fail.h"
#include "number.h"
#include "properties.h"

/* What a layer is made of: a library material, inline values over it, or
 * inline values alone.
 *
 * Invariant of a layer read: a solid layer has a resistance, or a thickness
 * and a conductivity; it has an sd, or a thickness and a mu; a membrane has an
 * sd or an sd curve. The library's material is never changed, only copied. */

/* Besides the properties and the other ways of saying them. */
static const char *const attributes[] = {
    "id",
    "name",
    "material",
    "thickness",
    "sold-thicknesses",
    "resistance",
    "evidence",
    "source",
    "kind",
    "initial-moisture",
    "initial-relative-humidity",
};

/* All that may stand in a layer; returns how many. */
static size_t
all_attributes(const char *out[BW_COUNT(attributes) + BW_PROPERTY_COUNT +
                               BW_PROPERTY_WAYS])
{
    size_t count = 0;
    for (size_t i = 0; i < BW_COUNT(attributes); i++)
        out[count++] = attributes[i];
    for (size_t i = 0; i < BW_PROPERTY_COUNT; i++)
        if (bw_property_rows[i].attribute != NULL)
            out[count++] = bw_property_rows[i].attribute;
    for (size_t i = 0; i < BW_PROPERTY_WAYS; i++)
        out[count++] = bw_property_ways[i].attribute;
    return count;
}

bw_status bw_check_layer_attributes(bw_reader *r, const xmlNode *node)
{
    const char
        *names[BW_COUNT(attributes) + BW_PROPERTY_COUNT + BW_PROPERTY_WAYS];
    return bw_xml_attributes(&r->xml, node, names, all_attributes(names),
                             r->err);
}

/* One layer being read. */
typedef struct making {
    bw_reader *r;
    const xmlNode *node;
    bw_layer *layer;
    const bw_material *library; /* NULL: inline values alone */
    bw_material *material;
    bool has_thickness;
    bool overridden;
} making;

static bool any_inline(const xmlNode *node)
{
    bool any = bw_xml_value(node, "resistance") != NULL;
    for (size_t i = 0; i < BW_PROPERTY_COUNT && !any; i++)
        any = bw_property_rows[i].attribute != NULL &&
              bw_xml_value(node, bw_property_rows[i].attribute) != NULL;
    for (size_t i = 0; i < BW_PROPERTY_WAYS && !any; i++)
        any = bw_xml_value(node, bw_property_ways[i].attribute) != NULL;
    return any;
}

/* An inline value; *given tells whether it was there. */
static bw_status set(making *m, bw_property *p, bool *given, const char *name,
                     bw_dimension dimension, double low, double high)
{
    double value = 0.0;
    BW_TRY(bw_read_quantity(m->r, &value, given, m->node, name, dimension, low,
                            high));
    if (*given)
        *p = (bw_property){.known = true,
                           .value = value,
                           .basis = BW_BASIS_GIVEN,
                           .evidence = m->layer->evidence,
                           .source = m->layer->source,
                           .note = ""};
    return BW_OK;
}

static const bw_property unknown = {.source = "", .note = ""};

static bw_status start_inline(making *m)
{
    const char *id = bw_xml_value(m->node, "id");
    const char *name = bw_xml_value(m->node, "name");
    if (id == NULL && (name == NULL || *name == '\0'))
        return bw_refuse(m->r, m->node,
                         "has no material=, and no id= or name= to be called "
                         "by; write for example material=\"hemp-batt\"");
    bw_material *fresh = m->material;
    *fresh = bw_material_unknown();
    fresh->file = m->r->assembly->file;
    fresh->line = bw_xml_line(m->node);
    fresh->flags_source = "a film: holds no water";
    fresh->id = bw_keep(m->r, id != NULL ? id : name);
    fresh->name = bw_keep(m->r, name != NULL && *name != '\0' ? name : id);
    fresh->group = m->layer->kind == BW_LAYER_MEMBRANE ? "membrane" : "given";
    /* Nothing is known about how mould takes to it: the cautious class. */
    fresh->mould_class = BW_MOULD_VERY_SENSITIVE;
    return BW_OK;
}

static bw_status start(making *m)
{
    m->material = BW_NEW(m->r->arena, bw_material, 1);
    BW_TRY_MEMORY(m->material != NULL, m->r->err);
    m->layer->resistance = unknown;
    m->overridden = any_inline(m->node);
    if (bw_xml_value(m->node, "material") == NULL)
        return start_inline(m);
    BW_TRY(bw_read_material(m->r, &m->library, m->node, "material"));
    *m->material = *m->library;
    return BW_OK;
}

static bw_status read_grade(making *m)
{
    bw_layer *layer = m->layer;
    bool given;
    const char *source = bw_xml_value(m->node, "source");
    layer->source = bw_keep(m->r, source);
    layer->evidence = *layer->source != '\0' ? BW_EVIDENCE_DECLARED
                                             : BW_EVIDENCE_ASSUMED;
    BW_TRY(bw_read_evidence(m->r, &layer->evidence, &given, m->node));
    if (given && layer->evidence > BW_EVIDENCE_ASSUMED && m->overridden &&
        *layer->source == '\0')
        bw_add_note(m->r, BW_NOTE_WARNING, m->node,
                    "<%s> evidence=\"%s\" names no source=: where was it read "
                    "or measured?",
                    bw_xml_name(m->node), bw_xml_value(m->node, "evidence"));
    if (given || m->overridden || m->library == NULL)
        return BW_OK;
    /* A plain library layer: its material is stated, its values are as near to
     * this wall as the weakest of them. That one is an estimate is the grade
     * of a figure (its basis), not of what is known about the wall. */
    const bw_property *p[] = {&m->library->thermal_conductivity,
                              &m->library->mu_dry, &m->library->sd};
    layer->evidence = BW_EVIDENCE_TABULATED;
    for (size_t i = 0; i < BW_COUNT(p); i++)
        if (p[i]->known && p[i]->evidence < layer->evidence)
            layer->evidence = p[i]->evidence;
    return BW_OK;
}

static bw_status read_thickness(making *m)
{
    bw_layer *layer = m->layer;
    BW_TRY(bw_read_quantity(m->r, &layer->thickness, &m->has_thickness, m->node,
                            "thickness", BW_DIM_LENGTH, 0.0, 3.0));
    if (!m->has_thickness || layer->thickness >= 4.9999e-5 ||
        layer->kind == BW_LAYER_MEMBRANE)
        return BW_OK;
    if (layer->thickness <= 0.0)
        return bw_refuse_at(m->r, m->node, "thickness",
                            "is no thickness; write a length above zero, or "
                            "<membrane> for a layer without one");
    return bw_refuse_at(m->r, m->node, "thickness",
                        "is %s m, thinner than any layer (0.05 mm): a slip of "
                        "units? Was \"%s mm\" meant?",
                        BW_NUMBER_F(layer->thickness, 7),
                        BW_NUMBER_G(1e6 * layer->thickness, 6));
}

/* ---- what it is sold in ------------------------------------------------- */

static const char sold_name[] = "sold-thicknesses";

/* The next of the list, which ends at *end. */
static bw_status read_one_sold(making *m, double *value, const char *start,
                               const char *end)
{
    char text[64], why[560] = "is too long for a length";
    for (; start < end && *start == ' '; start++)
        continue;
    snprintf(text, sizeof text, "%.*s", (int)(end - start), start);
    if (end - start < (ptrdiff_t)sizeof text &&
        bw_quantity_read(value, BW_DIM_LENGTH, 0.001, 3.0, text, why,
                         sizeof why))
        return BW_OK;
    return bw_refuse_at(m->r, m->node, sold_name, "- \"%s\"%s %s", text,
                        why[0] == '"' ? ":" : "", why);
}

static bw_status read_sold_list(making *m, const char *text, double *sold,
                                size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *end = text + strcspn(text, ",");
        BW_TRY(read_one_sold(m, &sold[i], text, end));
        if (i > 0 && sold[i] <= sold[i - 1])
            return bw_refuse_at(
                m->r, m->node, sold_name,
                "has %s mm after %s mm; write each thickness once, from thin "
                "to thick",
                BW_NUMBER_G(1e3 * sold[i], 6),
                BW_NUMBER_G(1e3 * sold[i - 1], 6));
        text = end + (*end == ',');
    }
    return BW_OK;
}

static bw_status read_sold(making *m)
{
    const char *text = bw_xml_value(m->node, sold_name);
    size_t count = 1;
    if (text == NULL)
        return BW_OK;
    if (m->layer->kind == BW_LAYER_MEMBRANE)
        return bw_refuse_at(m->r, m->node, sold_name,
                            "is said of a <layer>: a <membrane> is not bought "
                            "by its thickness");
    for (const char *c = text; *c != '\0'; c++)
        count += *c == ',';
    if (count > BW_SOLD_MOST)
        return bw_refuse_at(m->r, m->node, sold_name,
                            "has %zu thicknesses; at most %d are read", count,
                            BW_SOLD_MOST);
    double *sold = BW_NEW(m->r->arena, double, count);
    BW_TRY_MEMORY(sold != NULL, m->r->err);
    m->layer->sold = sold;
    m->layer->sold_count = count;
    return read_sold_list(m, text, sold, count);
}

/* A property under the name it is given by. */
static bw_status set_property(making *m, bool *given, bw_property_id id,
                              const char *attribute, bw_dimension dimension)
{
    const bw_property_row *row = &bw_property_rows[id];
    return set(m, bw_property_of(m->material, id), given, attribute, dimension,
               row->low, row->high);
}

static bool any_vapour(const bw_property_id id)
{
    return id == BW_PROPERTY_MU_DRY || id == BW_PROPERTY_SD;
}

/* The five ways in which one vapour resistance may be said; at most one. */
static bw_status read_vapour(making *m)
{
    bw_property_way ways[2 + BW_PROPERTY_WAYS] = {
        {"mu", BW_PROPERTY_MU_DRY, BW_DIM_MU},
        {"sd", BW_PROPERTY_SD, BW_DIM_SD},
    };
    memcpy(ways + 2, bw_property_ways, sizeof bw_property_ways);
    const char *first = NULL;
    bw_material *mat = m->material;
    for (size_t i = 0; i < BW_COUNT(ways); i++) {
        const bw_property_way *way = &ways[i];
        if (bw_xml_value(m->node, way->attribute) == NULL)
            continue;
        if (first != NULL)
            return bw_refuse_at(m->r, m->node, way->attribute,
                                "and %s= say the same thing twice; give one",
                                first);
        first = way->attribute;
        bool given;
        mat->mu_dry = mat->mu_wet = mat->sd = unknown;
        mat->sd_curve = mat->mu_curve = (bw_curve){0};
        BW_TRY(set_property(m, &given, way->property, way->attribute,
                            way->dimension));
    }
    bool wet;
    BW_TRY(set_property(m, &wet, BW_PROPERTY_MU_WET, "mu-wet", BW_DIM_MU));
    if (wet && !mat->mu_dry.known)
        return bw_refuse_at(m->r, m->node, "mu-wet",
                            "needs a mu= for the dry state beside it");
    if (wet)
        mat->mu_curve = (bw_curve){0};
    return BW_OK;
}

static bw_status read_values(making *m)
{
    bool given;
    BW_TRY(set(m, &m->layer->resistance, &given, "resistance",
               BW_DIM_THERMAL_RESISTANCE, 0.0, 100.0));
    if (given && bw_xml_value(m->node, "lambda") != NULL)
        return bw_refuse_at(m->r, m->node, "resistance",
                            "and lambda= say the same thing twice; give one");
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property_row *row = &bw_property_rows[i];
        bw_property_id id = (bw_property_id)i;
        if (row->attribute != NULL && !any_vapour(id) &&
            id != BW_PROPERTY_MU_WET)
            BW_TRY(set_property(m, &given, id, row->attribute, row->dimension));
    }
    if (bw_draws_too_fast(m->material))
        return bw_refuse(
            m->r, m->node,
            "has a water-absorption= too high for its free-saturation=: water "
            "would run 3 m in an hour. A slip of unit?");
    return read_vapour(m);
}

/* ---- is it enough? ----------------------------------------------------- */

/* A membrane of known mu gets its sd from its thickness. */
static bw_status complete_membrane(making *m)
{
    bw_material *mat = m->material;
    if (mat->sd.known || mat->sd_curve.count >= 2)
        return BW_OK;
    double thickness = m->has_thickness       ? m->layer->thickness
                       : mat->thickness.known ? mat->thickness.value
                                              : 0.0;
    if (thickness > 0.0 && mat->mu_dry.known) {
        mat->sd = mat->mu_dry;
        mat->sd.value *= thickness;
        mat->sd.has_range = false;
        if (mat->sd.basis != BW_BASIS_GIVEN)
            mat->sd.basis = BW_BASIS_DERIVED;
        return BW_OK;
    }
    return bw_refuse(
        m->r, m->node,
        "%s%s%s has no vapour resistance; give sd=\"0.2 m\", "
        "vapour-resistance=\"1 MN.s/g\" or permeance=\"17.5 usperm\"%s",
        m->library != NULL ? "material=\"" : "",
        m->library != NULL ? mat->id : "",
        m->library != NULL ? "\"" : "(a membrane)",
        m->library != NULL ? ", or write <layer> with a thickness" : "");
}

static bw_status complete_thickness(making *m, bool needed)
{
    bw_layer *layer = m->layer;
    const bw_property *sold = &m->material->thickness;
    if (m->has_thickness || !needed)
        return BW_OK;
    if (sold->known) {
        layer->thickness = sold->value;
        bw_add_note(m->r, BW_NOTE_INFO, m->node,
                    "<layer material=\"%s\"> gives no thickness: %s mm as sold "
                    "is taken",
                    m->material->id, BW_NUMBER_G(1e3 * sold->value, 6));
        return BW_OK;
    }
    return bw_refuse(
        m->r, m->node,
        "has no thickness=, which it needs; write for example thickness=\"12 "
        "mm\" (only with both resistance= and sd= can it be left out)%s",
        m->material->sd.known || m->material->sd_curve.count > 0
            ? "; a foil or coating is a <membrane>"
            : "");
}

static bw_status complete_layer(making *m)
{
    const bw_material *mat = m->material;
    bool resistance = m->layer->resistance.known;
    bool sd = mat->sd_curve.count >= 2 || mat->sd.known;
    if (!resistance && !mat->thermal_conductivity.known)
        return bw_refuse(m->r, m->node,
                         "\"%s\" has no conductivity; give lambda=\"0.13 "
                         "W/(m.K)\" or resistance=\"0.05 m2.K/W\"%s",
                         mat->id, sd ? ", or write <membrane>" : "");
    if (!sd && !mat->mu_dry.known)
        return bw_refuse(m->r, m->node,
                         "\"%s\" has no vapour resistance; give mu=\"50\", "
                         "sd=\"0.2 m\" or vapour-resistance=\"5 MN.s/g\"",
                         mat->id);
    return complete_thickness(m, !resistance || !sd);
}

bw_status bw_read_layer_material(bw_reader *r, bw_layer *layer,
                                 const xmlNode *node)
{
    making m = {.r = r, .node = node, .layer = layer};
    BW_TRY(start(&m));
    BW_TRY(bw_read_kind(r, m.material, layer, node, m.library != NULL));
    BW_TRY(read_grade(&m));
    BW_TRY(read_thickness(&m));
    BW_TRY(read_sold(&m));
    BW_TRY(read_values(&m));
    BW_TRY(layer->kind == BW_LAYER_MEMBRANE ? complete_membrane(&m)
                                            : complete_layer(&m));
    layer->material = m.material;
    if (*layer->name == '\0')
        layer->name = m.material->name;
    bw_review_layer(r, layer, m.library, node);
    return BW_OK;
}
