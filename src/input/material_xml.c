#include "material_xml.h"

#include <stddef.h>
#include <string.h>

#include "fail.h"
#include "material_reader.h"
#include "number.h"
#include "properties.h"

/* Layout: <materials group> holds <source key>text</source> and <material id
 * name>, whose elements are the values of bw_material, <flags>, curves and a
 * <remark>. docs/material.xsd is the same for editors.
 *
 * Invariant: a material read has a basis and a readable source for every
 * value, low <= value <= high, a vapour resistance, rising curves, and no free
 * saturation below what they take up. */

#define NAME_SPACE "urn:bothways:material:1"
static const struct curve_rule {
    const char *element;
    size_t offset;
    const char *y_name;
    bw_dimension dimension;
    double low, high;
    bool must_rise;
} curve_rules[] = {
    {"sorption", offsetof(bw_material, sorption), "u", BW_DIM_RATIO, 0, 20,
     true},
    {"sd-curve", offsetof(bw_material, sd_curve), "sd", BW_DIM_SD, 1e-4, 1e5,
     false},
    {"mu-curve", offsetof(bw_material, mu_curve), "mu", BW_DIM_MU, 1, 1e7,
     false},
};

/* ---- values ------------------------------------------------------------ */

static bw_status read_evidence(bw_property *p, const bw_material_reader *r,
                               const xmlNode *node)
{
    static const char *const words[] = {
        [BW_EVIDENCE_ASSUMED] = "assumed",
        [BW_EVIDENCE_TABULATED] = "tabulated",
        [BW_EVIDENCE_DECLARED] = "declared",
        [BW_EVIDENCE_MEASURED] = "measured",
    };
    /* How good a figure is, its basis says; a figure of a library, estimated
     * or not, is tabulated. What a user gives without a word is assumed. */
    int index = p->basis == BW_BASIS_GIVEN ? BW_EVIDENCE_ASSUMED
                                           : BW_EVIDENCE_TABULATED;
    bool given;
    BW_TRY(bw_explain(r->err,
                      bw_xml_word(&index, &given, &r->xml, node, "evidence",
                                  words, BW_COUNT(words), r->err),
                      bw_evidence_meaning()));
    p->evidence = (bw_evidence)index;
    return BW_OK;
}

static bw_status read_range(bw_property *p, const bw_material_reader *r,
                            const xmlNode *node, const bw_property_row *rule)
{
    bool low, high;
    BW_TRY(bw_read_quantity(r, &p->low, &low, node, "low", rule->dimension,
                            rule->low, rule->high));
    BW_TRY(bw_read_quantity(r, &p->high, &high, node, "high", rule->dimension,
                            rule->low, rule->high));
    if (low != high)
        return bw_refuse(r, node, "has %s= without %s=; a range needs both",
                         low ? "low" : "high", low ? "high" : "low");
    p->has_range = low;
    if (low && p->low > p->value)
        return bw_refuse_at(r, node, "low", "lies above value=\"%s\"",
                            bw_xml_value(node, "value"));
    if (high && p->high < p->value)
        return bw_refuse_at(r, node, "high", "lies below value=\"%s\"",
                            bw_xml_value(node, "value"));
    return BW_OK;
}

static bw_status read_factor_kind(bw_material *m, const bw_material_reader *r,
                                  const xmlNode *node)
{
    int index;
    BW_TRY(bw_read_word(r, &index, NULL, node, "kind", "f-u", "f-psi"));
    m->conductivity_rule = index == 0 ? BW_CONDUCTIVITY_F_U
                                      : BW_CONDUCTIVITY_F_PSI;
    return BW_OK;
}

static bw_status read_value(bw_material *m, const bw_material_reader *r,
                            const xmlNode *node, const bw_property_row *rule)
{
    static const char *const allowed[] = {"value",  "low",      "high", "basis",
                                          "source", "evidence", "note", "kind"};
    bool is_factor = rule->offset == offsetof(bw_material, conductivity_factor);
    size_t count = BW_COUNT(allowed) - (is_factor ? 0 : 1);
    bw_property p = {.known = true};
    BW_TRY(bw_xml_childless(&r->xml, node, allowed, count, r->err));
    BW_TRY(bw_read_quantity(r, &p.value, NULL, node, "value", rule->dimension,
                            rule->low, rule->high));
    BW_TRY(read_range(&p, r, node, rule));
    BW_TRY(bw_material_origin(&p.basis, &p.source, &p.note, r, node));
    BW_TRY(read_evidence(&p, r, node));
    if (is_factor)
        BW_TRY(read_factor_kind(m, r, node));
    memcpy((char *)m + rule->offset, &p, sizeof p);
    return BW_OK;
}

/* ---- curves ------------------------------------------------------------ */

static bw_status read_point(double *x, double *y, const bw_material_reader *r,
                            const xmlNode *node, const struct curve_rule *rule)
{
    const char *const allowed[] = {"rh", rule->y_name};
    BW_TRY(bw_xml_childless(&r->xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_read_quantity(r, x, NULL, node, "rh", BW_DIM_FRACTION, 0, 1));
    return bw_read_quantity(r, y, NULL, node, rule->y_name, rule->dimension,
                            rule->low, rule->high);
}

static bw_status check_step(const bw_material_reader *r, const xmlNode *node,
                            const struct curve_rule *rule, const double *x,
                            const double *y)
{
    if (x[1] <= x[0])
        return bw_refuse_at(r, node, "rh",
                            "does not rise above the point before; list the "
                            "points of <%s> from dry to humid",
                            rule->element);
    if (rule->must_rise && y[1] <= y[0])
        return bw_refuse_at(r, node, rule->y_name,
                            "does not rise above the point before; a more "
                            "humid material holds more water");
    return BW_OK;
}

/* A sorption curve starts at (0, 0), which need not be written. */
static bw_status read_points(double *x, double *y, size_t *count,
                             const bw_material_reader *r, const xmlNode *node,
                             const struct curve_rule *rule)
{
    size_t n = 0;
    for (xmlNode *p = bw_xml_first(node); p != NULL; p = bw_xml_next(p)) {
        BW_TRY(read_point(&x[n], &y[n], r, p, rule));
        if (rule->must_rise && n == 0 && x[0] > 0.0) {
            x[1] = x[0];
            y[1] = y[0];
            x[0] = y[0] = 0.0;
            n = 1;
        } else if (rule->must_rise && n == 0 && y[0] > 0.0) {
            return bw_refuse_at(r, p, "u",
                                "at rh=\"0 %%\" must be 0 kg/kg: no material "
                                "holds sorbed water in dry air");
        }
        if (n > 0)
            BW_TRY(check_step(r, p, rule, x + n - 1, y + n - 1));
        n++;
    }
    *count = n;
    return BW_OK;
}

static bw_status read_curve(bw_material *m, const bw_material_reader *r,
                            const xmlNode *node, const struct curve_rule *rule)
{
    BW_TRY(bw_read_attributes(r, node, "basis", "source", "note"));
    BW_TRY(bw_read_children(r, node, "point"));
    size_t given = 0;
    for (xmlNode *p = bw_xml_first(node); p != NULL; p = bw_xml_next(p))
        given++;
    if (given < 2)
        return bw_refuse(r, node, "has %zu <point>; a curve needs two at least",
                         given);
    bw_curve curve = {.count = 0};
    double *x = BW_NEW(r->arena, double, given + 1);
    double *y = BW_NEW(r->arena, double, given + 1);
    BW_TRY_MEMORY(x != NULL && y != NULL, r->err);
    BW_TRY(read_points(x, y, &curve.count, r, node, rule));
    curve.x = x;
    curve.y = y;
    BW_TRY(
        bw_material_origin(&curve.basis, &curve.source, &curve.note, r, node));
    memcpy((char *)m + rule->offset, &curve, sizeof curve);
    return BW_OK;
}

/* ---- materials --------------------------------------------------------- */

static bw_status read_flags(bw_material *m, const bw_material_reader *r,
                            const xmlNode *node)
{
    static const char *const yes_no[] = {"no", "yes"};
    static const char *const wood[] = {
        [BW_NOT_WOOD] = "none",
        [BW_SOLID_WOOD] = "solid-wood",
        [BW_WOOD_PANEL] = "panel",
        [BW_WOOD_WOOL_BOARD] = "wood-wool",
    };
    static const char *const mould[] = {
        [BW_MOULD_VERY_SENSITIVE] = "very-sensitive",
        [BW_MOULD_SENSITIVE] = "sensitive",
        [BW_MOULD_MEDIUM_RESISTANT] = "medium-resistant",
        [BW_MOULD_RESISTANT] = "resistant",
    };
    int hygroscopic, absorbs, wood_kind, mould_class;
    const bw_xml *xml = &r->xml;
    BW_TRY(bw_read_childless(r, node, "hygroscopic", "absorbs-condensate",
                             "wood", "mould", "source", "note"));
    BW_TRY(bw_xml_word(&hygroscopic, NULL, xml, node, "hygroscopic", yes_no,
                       BW_COUNT(yes_no), r->err));
    BW_TRY(bw_xml_word(&absorbs, NULL, xml, node, "absorbs-condensate", yes_no,
                       BW_COUNT(yes_no), r->err));
    BW_TRY(bw_xml_word(&wood_kind, NULL, xml, node, "wood", wood,
                       BW_COUNT(wood), r->err));
    BW_TRY(bw_xml_word(&mould_class, NULL, xml, node, "mould", mould,
                       BW_COUNT(mould), r->err));
    BW_TRY(bw_material_source(&m->flags_source, r, node));
    const char *note = bw_xml_value(node, "note");
    if (note != NULL)
        m->flags_source = bw_arena_printf(r->arena, "%s; %s", note,
                                          m->flags_source);
    BW_TRY_MEMORY(m->flags_source != NULL, r->err);
    m->hygroscopic = hygroscopic == 1;
    m->absorbs_condensate = absorbs == 1;
    m->wood_kind = (bw_wood_kind)wood_kind;
    m->mould_class = (bw_mould_class)mould_class;
    return BW_OK;
}

static bw_status read_remark(bw_material *m, const bw_material_reader *r,
                             const xmlNode *node)
{
    static const char *const yes_no[] = {"no", "yes"};
    int caution = 0;
    xmlNode *child;
    BW_TRY(bw_xml_child(&child, &r->xml, node, "remark", false, r->err));
    if (child == NULL)
        return BW_OK;
    bool given;
    BW_TRY(bw_read_attributes(r, child, "caution"));
    BW_TRY(bw_xml_word(&caution, &given, &r->xml, child, "caution", yes_no,
                       BW_COUNT(yes_no), r->err));
    m->remark_warns = caution == 1;
    return bw_material_text(&m->remark, r, child);
}

static bw_status read_names(bw_material *m, const bw_material_reader *r,
                            const xmlNode *node)
{
    const char *id, *name, *also = bw_xml_value(node, "also");
    BW_TRY(bw_read_attributes(r, node, "id", "name", "also"));
    BW_TRY(bw_xml_id(&id, &r->xml, node, "hemp-batt", r->err));
    BW_TRY(bw_read_required(r, &name, node, "name", "Hemp batt"));
    m->id = bw_arena_copy(r->arena, id);
    m->name = bw_arena_copy(r->arena, name);
    m->also = bw_arena_copy(r->arena, also != NULL ? also : "");
    return m->id != NULL && m->name != NULL && m->also != NULL
               ? BW_OK
               : bw_fail_memory(r->err);
}

static bw_status check_elements(const bw_material_reader *r,
                                const xmlNode *node)
{
    const char *allowed[2 + BW_PROPERTY_COUNT + BW_COUNT(curve_rules)] = {
        "remark", "flags"};
    size_t count = 2;
    for (size_t i = 0; i < BW_PROPERTY_COUNT; i++)
        allowed[count++] = bw_property_rows[i].element;
    for (size_t i = 0; i < BW_COUNT(curve_rules); i++)
        allowed[count++] = curve_rules[i].element;
    return bw_xml_children(&r->xml, node, allowed, count, r->err);
}

/* What sinks in cannot be less than what humid air alone leaves. */
static bw_status check_saturation(const bw_material *m,
                                  const bw_material_reader *r,
                                  const xmlNode *node)
{
    if (!m->free_saturation.known || !m->density.known ||
        m->sorption.count == 0)
        return BW_OK;
    const size_t last = m->sorption.count - 1;
    const double from_air = m->sorption.y[last] * m->density.value;
    if (m->free_saturation.value >= from_air)
        return BW_OK;
    return bw_refuse_at(
        r, node, "id",
        "has a <free-saturation>, %s kg/m3, below what its <sorption> takes up "
        "at %s %% RH, %s kg/m3. A slip of unit, or of density?",
        BW_NUMBER_G(m->free_saturation.value, 4),
        BW_NUMBER_G(100 * m->sorption.x[last], 3), BW_NUMBER_G(from_air, 4));
}

static bw_status check_whole(const bw_material *m, const bw_material_reader *r,
                             const xmlNode *node)
{
    if (!m->mu_dry.known && !m->sd.known)
        return bw_refuse_at(r, node, "id",
                            "has neither <mu-dry> nor <sd>; without one no "
                            "vapour can be followed through it");
    if (m->mu_wet.known && !m->mu_dry.known)
        return bw_refuse_at(r, node, "id", "has <mu-wet> without <mu-dry>");
    if (bw_draws_too_fast(m))
        return bw_refuse_at(
            r, node, "id",
            "has a <water-absorption> too high for its <free-saturation>: "
            "water would run 3 m in an hour. A slip of unit?");
    return check_saturation(m, r, node);
}

static bw_status read_values(bw_material *m, const bw_material_reader *r,
                             const xmlNode *node)
{
    for (size_t i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property_row *rule = &bw_property_rows[i];
        xmlNode *child;
        BW_TRY(
            bw_xml_child(&child, &r->xml, node, rule->element, false, r->err));
        if (child != NULL)
            BW_TRY(read_value(m, r, child, rule));
    }
    return BW_OK;
}

static bw_status read_material(const bw_material_reader *r, const xmlNode *node)
{
    bw_material m = bw_material_unknown();
    m.group = r->group;
    m.file = r->path;
    xmlNode *child;
    m.line = bw_xml_line(node);
    BW_TRY(read_names(&m, r, node));
    BW_TRY(check_elements(r, node));
    BW_TRY(read_remark(&m, r, node));
    BW_TRY(read_values(&m, r, node));
    for (size_t i = 0; i < BW_COUNT(curve_rules); i++) {
        const struct curve_rule *rule = &curve_rules[i];
        BW_TRY(
            bw_xml_child(&child, &r->xml, node, rule->element, false, r->err));
        if (child != NULL)
            BW_TRY(read_curve(&m, r, child, rule));
    }
    BW_TRY(bw_xml_child(&child, &r->xml, node, "flags", true, r->err));
    BW_TRY(read_flags(&m, r, child));
    BW_TRY(check_whole(&m, r, node));
    return bw_library_add(r->library, &m, r->directory, r->err);
}

static bw_status read_root(bw_material_reader *r)
{
    static const char *const groups[] = {"insulation", "board",   "wood",
                                         "masonry",    "plaster", "membrane",
                                         "coating",    "air"};
    const xmlNode *root = r->xml.root;
    int index;
    BW_TRY(bw_read_attributes(r, root, "group"));
    BW_TRY(bw_xml_word(&index, NULL, &r->xml, root, "group", groups,
                       BW_COUNT(groups), r->err));
    BW_TRY(bw_read_children(r, root, "source", "material"));
    r->group = groups[index];
    BW_TRY(bw_material_sources(r));
    for (xmlNode *n = bw_xml_first(root); n != NULL; n = bw_xml_next(n))
        if (bw_xml_is(n, "material"))
            BW_TRY(read_material(r, n));
    return BW_OK;
}

bw_status bw_material_file_read(bw_library *library, const char *path,
                                const char *text, size_t directory,
                                bw_error *err)
{
    static const char what[] = "material", root[] = "materials";
    bw_material_reader r = {.library = library,
                            .arena = bw_library_arena(library),
                            .directory = directory,
                            .err = err};
    r.path = bw_arena_copy(r.arena, path);
    BW_TRY_MEMORY(r.path != NULL, err);
    BW_TRY(bw_xml_open(&r.xml, path, text, what, root, NAME_SPACE, err));
    bw_status status = read_root(&r);
    bw_xml_close(&r.xml);
    return status;
}
