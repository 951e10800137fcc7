#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "number.h"
#include "variant.h"

/* <layer>, <membrane> and <cavity> with what stands inside them. */

/* ---- framing, ranges, alternatives ------------------------------------- */

static bw_status read_fraction(bw_reader *r, bw_framing *f, const xmlNode *node)
{
    const bw_xml *xml = &r->xml;
    bool has_fraction, has_width, has_spacing;
    BW_TRY(bw_xml_quantity(&f->fraction, &has_fraction, xml, node, "fraction",
                           BW_DIM_FRACTION, 1e-4, 0.9999, r->err));
    BW_TRY(bw_xml_quantity(&f->width, &has_width, xml, node, "width",
                           BW_DIM_LENGTH, 0.001, 2.0, r->err));
    BW_TRY(bw_xml_quantity(&f->spacing, &has_spacing, xml, node, "spacing",
                           BW_DIM_LENGTH, 0.01, 10.0, r->err));
    if (has_fraction == (has_width || has_spacing) || has_width != has_spacing)
        return bw_xml_fail(xml, node, r->err,
                           "needs either fraction=\"15 %%\" or both "
                           "width=\"45 mm\" and spacing=\"600 mm\"");
    if (has_fraction)
        return BW_OK;
    f->fraction = f->width / f->spacing;
    if (f->fraction >= 1.0)
        return bw_xml_fail_at(xml, node, "width", r->err,
                              "every spacing=\"%s\" is %.0f %% of the area; "
                              "framing takes less than 100 %%",
                              bw_xml_value(node, "spacing"),
                              100.0 * f->fraction);
    return BW_OK;
}

static bw_status read_framing_start(bw_reader *r, bw_layer *layer,
                                    const xmlNode *node)
{
    bw_framing *f = &layer->framing;
    bw_initial initial = {0};
    BW_TRY(bw_read_initial(r, &initial, f->material, node));
    f->has_initial_moisture = initial.given;
    f->initial_is_rh = initial.is_rh;
    f->initial_moisture = initial.value;
    if (layer->has_initial_moisture && !initial.given)
        bw_add_note(r, BW_NOTE_WARNING, node,
                    "the moisture that the layer %s starts with is that of "
                    "its own material: its framing starts as one that no "
                    "moisture is given for; give <framing> its own "
                    "initial-moisture=",
                    layer->id);
    return BW_OK;
}

static bw_status read_framing(bw_reader *r, bw_layer *layer,
                              const xmlNode *node)
{
    static const char *const allowed[] = {"id",
                                          "material",
                                          "width",
                                          "spacing",
                                          "fraction",
                                          "depth",
                                          "initial-moisture",
                                          "initial-relative-humidity"};
    const bw_xml *xml = &r->xml;
    bw_framing *f = &layer->framing;
    bool given;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_xml_children(xml, node, NULL, 0, r->err));
    BW_TRY(bw_read_material(r, &f->material, node, "material"));
    if (!f->material->thermal_conductivity.known || !f->material->mu_dry.known)
        return bw_xml_fail_at(xml, node, "material", r->err,
                              "has no conductivity or no mu in the library, "
                              "so nothing can be framed with it");
    BW_TRY(read_fraction(r, f, node));
    BW_TRY(bw_xml_quantity(&f->depth, &given, xml, node, "depth", BW_DIM_LENGTH,
                           0.001, 3.0, r->err));
    if (layer->thickness <= 0.0)
        return bw_xml_fail(xml, node, r->err,
                           "needs a thickness= of the layer that it stands "
                           "in");
    char depth[32];
    if (given && f->depth > layer->thickness)
        return bw_xml_fail_at(
            xml, node, "depth", r->err,
            "is deeper than the layer that it stands in "
            "(%s mm)",
            bw_number_g(depth, sizeof depth, 1e3 * layer->thickness, 6));
    const char *id = bw_xml_value(node, "id");
    f->id = id != NULL ? bw_keep(r, id) : NULL;
    f->present = true;
    return read_framing_start(r, layer, node);
}

/* ---- ranges ------------------------------------------------------------ */

/* The property that a range is of, and the word that says it. */
typedef struct range_word {
    const char *word;
    bw_varied property;
    bw_dimension dimension;
} range_word;

enum { RANGE_WORDS = BW_VARIED_COUNT + BW_PROPERTY_WAYS };

static void list_range_words(range_word words[RANGE_WORDS])
{
    for (int v = 0; v < BW_VARIED_COUNT; v++) {
        const bw_property_row *row = bw_varied_row((bw_varied)v);
        words[v] = (range_word){row->attribute, (bw_varied)v, row->dimension};
    }
    for (int i = 0; i < BW_PROPERTY_WAYS; i++) {
        const bw_property_way *way = &bw_property_ways[i];
        bw_varied property = way->property == BW_PROPERTY_SD ? BW_VARIED_SD
                                                             : BW_VARIED_MU;
        words[BW_VARIED_COUNT + i] = (range_word){way->attribute, property,
                                                  way->dimension};
    }
}

/* What is varied counts by the thickness, and is varied once. */
static bw_status check_varied(bw_reader *r, const bw_layer *layer,
                              const char *property, const xmlNode *node)
{
    bool by_thickness = strcmp(property, "mu") == 0 ||
                        strcmp(property, "lambda") == 0;
    if (by_thickness && layer->thickness <= 0.0)
        return bw_xml_fail_at(&r->xml, node, "property", r->err,
                              "needs a thickness= of the layer; without one "
                              "give a range of %s",
                              property[0] == 'm' ? "sd" : "resistance");
    for (const bw_uncertain *u = layer->uncertain;
         u < layer->uncertain + layer->uncertain_count; u++)
        if (strcmp(u->property, property) == 0)
            return bw_xml_fail_at(&r->xml, node, "property", r->err,
                                  "has a range already: one <uncertain> of %s "
                                  "a layer",
                                  property);
    return BW_OK;
}

static bw_status read_uncertain(bw_reader *r, const bw_layer *layer,
                                bw_uncertain *u, const xmlNode *node)
{
    static const char *const allowed[] = {"property", "low", "high"};
    range_word ranges[RANGE_WORDS];
    const char *words[RANGE_WORDS];
    const bw_xml *xml = &r->xml;
    int i;
    list_range_words(ranges);
    for (size_t k = 0; k < RANGE_WORDS; k++)
        words[k] = ranges[k].word;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_xml_children(xml, node, NULL, 0, r->err));
    BW_TRY(bw_xml_word(&i, NULL, xml, node, "property", words, RANGE_WORDS,
                       r->err));
    const bw_property_row *row = bw_varied_row(ranges[i].property);
    BW_TRY(check_varied(r, layer, row->attribute, node));
    BW_TRY(bw_xml_quantity(&u->low, NULL, xml, node, "low", ranges[i].dimension,
                           row->low, row->high, r->err));
    BW_TRY(bw_xml_quantity(&u->high, NULL, xml, node, "high",
                           ranges[i].dimension, row->low, row->high, r->err));
    /* The high permeance is the low sd. */
    if (ranges[i].dimension == BW_DIM_PERMEANCE) {
        double swap = u->low;
        u->low = u->high;
        u->high = swap;
    }
    if (u->low >= u->high)
        return bw_xml_fail_at(xml, node, "low", r->err,
                              "is not below high=\"%s\"",
                              bw_xml_value(node, "high"));
    u->property = row->attribute;
    return BW_OK;
}

static bw_status read_alternative(bw_reader *r, bw_alternative *a,
                                  const xmlNode *node)
{
    static const char *const allowed[] = {"material", "thickness"};
    const bw_xml *xml = &r->xml;
    bool given;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_xml_children(xml, node, NULL, 0, r->err));
    BW_TRY(bw_read_material(r, &a->material, node, "material"));
    BW_TRY(bw_xml_quantity(&a->thickness, &given, xml, node, "thickness",
                           BW_DIM_LENGTH, 5e-5, 3.0, r->err));
    bool has_sd = a->material->sd.known || a->material->sd_curve.count > 0;
    if (!given && a->material->thickness.known)
        a->thickness = a->material->thickness.value;
    else if (!given && !has_sd)
        return bw_xml_quantity(&a->thickness, NULL, xml, node, "thickness",
                               BW_DIM_LENGTH, 5e-5, 3.0, r->err);
    return BW_OK;
}

static size_t count_of(const xmlNode *node, const char *name)
{
    size_t count = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        count += bw_xml_is(c, name);
    return count;
}

static bw_status read_inside(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    const size_t others = count_of(node, "alternative");
    if (others > BW_MOST_OTHERS)
        return bw_xml_fail(&r->xml, node, r->err,
                           "holds %zu <alternative>; at most %d are accepted",
                           others, BW_MOST_OTHERS);
    bw_uncertain *uncertain = BW_NEW(r->arena, bw_uncertain,
                                     count_of(node, "uncertain"));
    bw_alternative *alternative = BW_NEW(r->arena, bw_alternative, others);
    if (uncertain == NULL || alternative == NULL)
        return bw_fail_memory(r->err);
    layer->uncertain = uncertain;
    layer->alternative = alternative;
    xmlNode *framing;
    BW_TRY(bw_xml_child(&framing, &r->xml, node, "framing", false, r->err));
    if (framing != NULL)
        BW_TRY(read_framing(r, layer, framing));
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (bw_xml_is(c, "uncertain")) {
            BW_TRY(read_uncertain(r, layer, &uncertain[layer->uncertain_count],
                                  c));
            layer->uncertain_count++;
        }
        if (bw_xml_is(c, "alternative"))
            BW_TRY(read_alternative(r, &alternative[layer->alternative_count++],
                                    c));
    }
    return BW_OK;
}

/* ---- layers of a material ---------------------------------------------- */

static bw_status read_solid(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    static const char *const parts[] = {"framing", "uncertain", "alternative"};
    bool solid = layer->kind == BW_LAYER_SOLID;
    BW_TRY(bw_check_layer_attributes(r, node));
    /* A membrane has no framing: the parts after the first. */
    BW_TRY(bw_xml_children(&r->xml, node, solid ? parts : parts + 1,
                           solid ? 3 : 2, r->err));
    BW_TRY(bw_read_layer_material(r, layer, node));
    bw_initial initial = {0};
    BW_TRY(bw_read_initial(r, &initial, layer->material, node));
    layer->has_initial_moisture = initial.given;
    layer->initial_is_rh = initial.is_rh;
    layer->initial_moisture = initial.value;
    return read_inside(r, layer, node);
}

/* ---- cavities ---------------------------------------------------------- */

static const bw_material *still_air(bw_reader *r)
{
    bw_material *air = BW_NEW(r->arena, bw_material, 1);
    if (air == NULL)
        return NULL;
    const bw_property known = {.known = true,
                               .basis = BW_BASIS_FROM_MEMORY,
                               .evidence = BW_EVIDENCE_TABULATED,
                               .source = "ISO 10456:2007 table 3, air",
                               .note = ""};
    *air = bw_material_unknown();
    air->id = "still-air";
    air->name = "still air";
    air->group = "air";
    air->mould_class = BW_MOULD_RESISTANT;
    air->flags_source = "air holds nothing";
    air->density = air->thermal_conductivity = known;
    air->specific_heat = air->mu_dry = known;
    air->density.value = 1.23;
    air->thermal_conductivity.value = 0.025;
    air->specific_heat.value = 1008.0;
    air->mu_dry.value = 1.0;
    return air;
}

static bw_status read_openings(bw_reader *r, bw_layer *layer,
                               const xmlNode *node)
{
    bool given;
    layer->vent_openings = 0.001;
    BW_TRY(bw_xml_quantity(&layer->vent_openings, &given, &r->xml, node,
                           "openings", BW_DIM_OPENING, 0.0, 1.0, r->err));
    if (layer->ventilation != BW_VENT_SLIGHT) {
        if (given)
            bw_add_note(r, BW_NOTE_INFO, node,
                        "openings= counts only with ventilation=\"slight\"; "
                        "it is not used");
        return BW_OK;
    }
    if (!given)
        bw_add_note(r, BW_NOTE_INFO, node,
                    "openings= is not given: 1000 mm2/m is taken");
    if (layer->vent_openings < 0.0005 || layer->vent_openings > 0.0015)
        return bw_xml_fail_at(&r->xml, node, "openings", r->err,
                              "is no slight ventilation, which is 500 to 1500 "
                              "mm2/m (ISO 6946): below, write "
                              "ventilation=\"none\", above, \"well\"");
    return BW_OK;
}

static bw_status read_cavity_resistance(bw_reader *r, bw_layer *layer,
                                        const xmlNode *node)
{
    bw_property *p = &layer->resistance;
    *p = (bw_property){.source = "", .note = ""};
    BW_TRY(bw_xml_quantity(&p->value, &p->known, &r->xml, node, "resistance",
                           BW_DIM_THERMAL_RESISTANCE, 0.0, 10.0, r->err));
    if (!p->known)
        return BW_OK;
    p->basis = BW_BASIS_GIVEN;
    p->evidence = layer->evidence;
    p->source = layer->source;
    if (layer->ventilation == BW_VENT_NONE)
        return BW_OK;
    bw_add_note(r, BW_NOTE_WARNING, node,
                "a ventilated cavity is given a resistance: it is not used, "
                "outdoor air passes there");
    p->known = false;
    return BW_OK;
}

/* A shiny face, told apart from a resistance that already counts it. */
static bw_status read_emissivity(bw_reader *r, bw_layer *layer,
                                 const xmlNode *node)
{
    bool given;
    BW_TRY(bw_xml_quantity(&layer->emissivity, &given, &r->xml, node,
                           "emissivity", BW_DIM_NUMBER, 0.02, 0.95, r->err));
    if (given && bw_xml_value(node, "resistance") != NULL)
        return bw_xml_fail_at(&r->xml, node, "emissivity", r->err,
                              "and resistance= both set the resistance of the "
                              "air; give one");
    return BW_OK;
}

/* A cavity filled all over is a layer of its filling. */
static bw_status fill_whole(bw_reader *r, bw_layer *layer,
                            const bw_material *filling, const xmlNode *node)
{
    if (layer->ventilation != BW_VENT_NONE)
        return bw_xml_fail_at(&r->xml, node, "ventilation", r->err,
                              "and filled-with=\"%s\" contradict each other: "
                              "no air passes where all is filled. Write "
                              "ventilation=\"none\", or blocked=\"20 %%\" for "
                              "the share of the area that is filled",
                              filling->id);
    if (bw_xml_value(node, "resistance") != NULL)
        return bw_xml_fail_at(&r->xml, node, "resistance", r->err,
                              "is that of still air; what fills the cavity "
                              "has its own");
    layer->kind = BW_LAYER_SOLID;
    layer->material = filling;
    if (*layer->name == '\0') {
        const char *name = bw_arena_printf(r->arena, "cavity filled with %s",
                                           filling->name);
        r->out_of_memory = r->out_of_memory || name == NULL;
        layer->name = name != NULL ? name : "";
    }
    return BW_OK;
}

/* filled-with= and blocked=: what bridges the cavity, and where. */
static bw_status read_filling(bw_reader *r, bw_layer *layer,
                              const xmlNode *node)
{
    const bw_xml *xml = &r->xml;
    const bw_material *filling;
    bool blocked;
    BW_TRY(bw_xml_quantity(&layer->blocked, &blocked, xml, node, "blocked",
                           BW_DIM_FRACTION, 1e-4, 0.9999, r->err));
    if (bw_xml_value(node, "filled-with") == NULL)
        return !blocked ? BW_OK
                        : bw_xml_fail_at(xml, node, "blocked", r->err,
                                         "needs filled-with= beside it: what "
                                         "is the cavity blocked with? For "
                                         "example filled-with=\"masonry-"
                                         "mortar\"");
    BW_TRY(bw_read_material(r, &filling, node, "filled-with"));
    bool sd = filling->sd_curve.count >= 2 || filling->sd.known;
    if (!filling->thermal_conductivity.known ||
        !(filling->mu_dry.known || filling->mu_wet.known || sd))
        return bw_xml_fail_at(xml, node, "filled-with", r->err,
                              "has no conductivity or no mu in the library, "
                              "so nothing can be filled with it");
    if (!blocked)
        return fill_whole(r, layer, filling, node);
    layer->blocked_with = filling;
    return BW_OK;
}

/* m, common practice, no source: battens start at 10 to 20 mm */
static const double LEAST_WELL = 0.0099;

static bw_status read_cavity(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    static const char *const allowed[] = {
        "id",       "name",       "thickness",   "ventilation",
        "openings", "air-change", "resistance",  "evidence",
        "source",   "emissivity", "filled-with", "blocked"};
    static const char *const parts[] = {"framing", "uncertain"};
    static const char *const words[] = {"none", "slight", "well"};
    static const char *const names[] = {"still air cavity",
                                        "slightly ventilated cavity",
                                        "well-ventilated cavity"};
    const bw_xml *xml = &r->xml;
    bool given;
    int ventilation;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_xml_children(xml, node, parts, BW_COUNT(parts), r->err));
    BW_TRY(bw_xml_quantity(&layer->thickness, NULL, xml, node, "thickness",
                           BW_DIM_LENGTH, 0.0005, 2.0, r->err));
    BW_TRY(bw_xml_word(&ventilation, NULL, xml, node, "ventilation", words, 3,
                       r->err));
    layer->ventilation = (bw_ventilation)ventilation;
    if (layer->ventilation == BW_VENT_WELL && layer->thickness < LEAST_WELL)
        return bw_xml_fail_at(xml, node, "thickness", r->err,
                              "is too thin for ventilation=\"well\": no air "
                              "to speak of moves in less than 10 mm. Write "
                              "ventilation=\"slight\" or \"none\"");
    BW_TRY(bw_read_evidence(r, &layer->evidence, &given, node));
    layer->source = bw_keep(r, bw_xml_value(node, "source"));
    BW_TRY(read_openings(r, layer, node));
    BW_TRY(read_cavity_resistance(r, layer, node));
    BW_TRY(read_emissivity(r, layer, node));
    BW_TRY(bw_xml_quantity(&layer->air_change, &given, xml, node, "air-change",
                           BW_DIM_RATE, 0.0, 1.0, r->err));
    layer->material = still_air(r);
    if (layer->material == NULL)
        return bw_fail_memory(r->err);
    BW_TRY(read_filling(r, layer, node));
    if (*layer->name == '\0')
        layer->name = names[ventilation];
    return read_inside(r, layer, node);
}

bw_status bw_read_layer(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    layer->line = bw_xml_line(node);
    layer->id = bw_keep(r, bw_xml_value(node, "id"));
    layer->name = bw_keep(r, bw_xml_value(node, "name"));
    if (bw_xml_is(node, "cavity")) {
        layer->kind = BW_LAYER_CAVITY;
        return read_cavity(r, layer, node);
    }
    layer->kind = bw_xml_is(node, "membrane") ? BW_LAYER_MEMBRANE
                                              : BW_LAYER_SOLID;
    return read_solid(r, layer, node);
}
