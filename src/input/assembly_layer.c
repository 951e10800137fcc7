#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "number.h"
#include "variant.h"

/* <layer>, <membrane> and <cavity> with what stands inside them. */

/* ---- framing, ranges, alternatives ------------------------------------- */

static bw_status read_fraction(bw_reader *r, bw_framing *f, const xmlNode *node)
{
    bool has_fraction, has_width, has_spacing;
    BW_TRY(bw_read_quantity(r, &f->fraction, &has_fraction, node, "fraction",
                            BW_DIM_FRACTION, 1e-4, 0.9999));
    BW_TRY(bw_read_quantity(r, &f->width, &has_width, node, "width",
                            BW_DIM_LENGTH, 0.001, 2.0));
    BW_TRY(bw_read_quantity(r, &f->spacing, &has_spacing, node, "spacing",
                            BW_DIM_LENGTH, 0.01, 10.0));
    if (has_fraction == (has_width || has_spacing) || has_width != has_spacing)
        return bw_refuse(r, node,
                         "needs either fraction=\"15 %%\" or both width=\"45 "
                         "mm\" and spacing=\"600 mm\"");
    if (has_fraction)
        return BW_OK;
    f->fraction = f->width / f->spacing;
    if (f->fraction >= 1.0)
        return bw_refuse_at(r, node, "width",
                            "every spacing=\"%s\" is %.0f %% of the area; "
                            "framing takes less than 100 %%",
                            bw_xml_value(node, "spacing"), 100.0 * f->fraction);
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
                    "the moisture that the layer %s starts with is that of its "
                    "own material: its framing starts as one that no moisture "
                    "is given for; give <framing> its own initial-moisture=",
                    layer->id);
    return BW_OK;
}

static bw_status read_framing(bw_reader *r, bw_layer *layer,
                              const xmlNode *node)
{
    bw_framing *f = &layer->framing;
    bool given;
    BW_TRY(bw_read_childless(r, node, "id", "material", "width", "spacing",
                             "fraction", "depth", "initial-moisture",
                             "initial-relative-humidity"));
    BW_TRY(bw_read_material(r, &f->material, node, "material"));
    if (!f->material->thermal_conductivity.known || !f->material->mu_dry.known)
        return bw_refuse_at(r, node, "material",
                            "has no conductivity or no mu in the library, so "
                            "nothing can be framed with it");
    BW_TRY(read_fraction(r, f, node));
    BW_TRY(bw_read_quantity(r, &f->depth, &given, node, "depth", BW_DIM_LENGTH,
                            0.001, 3.0));
    if (layer->thickness <= 0.0)
        return bw_refuse(r, node,
                         "needs a thickness= of the layer that it stands in");
    if (given && f->depth > layer->thickness)
        return bw_refuse_at(
            r, node, "depth",
            "is deeper than the layer that it stands in (%s mm)",
            BW_NUMBER_G(1e3 * layer->thickness, 6));
    BW_TRY(bw_read_own_id(r, &f->id, node));
    f->id = *f->id != '\0' ? f->id : NULL;
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
        return bw_refuse_at(
            r, node, "property",
            "needs a thickness= of the layer; without one give a range of %s",
            property[0] == 'm' ? "sd" : "resistance");
    for (const bw_uncertain *u = layer->uncertain;
         u < layer->uncertain + layer->uncertain_count; u++)
        if (strcmp(u->property, property) == 0)
            return bw_refuse_at(
                r, node, "property",
                "has a range already: one <uncertain> of %s a layer", property);
    return BW_OK;
}

static bw_status read_uncertain(bw_reader *r, const bw_layer *layer,
                                bw_uncertain *u, const xmlNode *node)
{
    range_word ranges[RANGE_WORDS];
    const char *words[RANGE_WORDS];
    const bw_xml *xml = &r->xml;
    int i;
    list_range_words(ranges);
    for (size_t k = 0; k < RANGE_WORDS; k++)
        words[k] = ranges[k].word;
    BW_TRY(bw_read_childless(r, node, "property", "low", "high"));
    BW_TRY(bw_xml_word(&i, NULL, xml, node, "property", words, RANGE_WORDS,
                       r->err));
    const bw_property_row *row = bw_varied_row(ranges[i].property);
    BW_TRY(check_varied(r, layer, row->attribute, node));
    BW_TRY(bw_read_quantity(r, &u->low, NULL, node, "low", ranges[i].dimension,
                            row->low, row->high));
    BW_TRY(bw_read_quantity(r, &u->high, NULL, node, "high",
                            ranges[i].dimension, row->low, row->high));
    /* The high permeance is the low sd. */
    if (ranges[i].dimension == BW_DIM_PERMEANCE) {
        double swap = u->low;
        u->low = u->high;
        u->high = swap;
    }
    if (u->low >= u->high)
        return bw_refuse_at(r, node, "low", "is not below high=\"%s\"",
                            bw_xml_value(node, "high"));
    u->property = row->attribute;
    return BW_OK;
}

static bw_status read_alternative(bw_reader *r, bw_alternative *a,
                                  const xmlNode *node)
{
    bool given;
    BW_TRY(bw_read_childless(r, node, "material", "thickness"));
    BW_TRY(bw_read_material(r, &a->material, node, "material"));
    BW_TRY(bw_read_quantity(r, &a->thickness, &given, node, "thickness",
                            BW_DIM_LENGTH, 5e-5, 3.0));
    bool has_sd = a->material->sd.known || a->material->sd_curve.count > 0;
    if (!given && a->material->thickness.known)
        a->thickness = a->material->thickness.value;
    else if (!given && !has_sd)
        return bw_read_quantity(r, &a->thickness, NULL, node, "thickness",
                                BW_DIM_LENGTH, 5e-5, 3.0);
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
        return bw_refuse(r, node,
                         "holds %zu <alternative>; at most %d are accepted",
                         others, BW_MOST_OTHERS);
    bw_uncertain *uncertain = BW_NEW(r->arena, bw_uncertain,
                                     count_of(node, "uncertain"));
    bw_alternative *alternative = BW_NEW(r->arena, bw_alternative, others);
    BW_TRY_MEMORY(uncertain != NULL && alternative != NULL, r->err);
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
    if (initial.given && !solid)
        return bw_refuse_at(r, node,
                            initial.is_rh ? "initial-relative-humidity"
                                          : "initial-moisture",
                            "decides nothing: a membrane stores no moisture; "
                            "leave it out");
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
    BW_TRY(bw_read_quantity(r, &layer->vent_openings, &given, node, "openings",
                            BW_DIM_OPENING, 0.0, 1.0));
    if (layer->ventilation != BW_VENT_SLIGHT) {
        if (given)
            bw_add_note(r, BW_NOTE_INFO, node,
                        "openings= counts only with ventilation=\"slight\"; it "
                        "is not used");
        return BW_OK;
    }
    if (!given)
        bw_add_note(r, BW_NOTE_INFO, node,
                    "openings= is not given: 1000 mm2/m is taken");
    if (layer->vent_openings < 0.0005 || layer->vent_openings > 0.0015)
        return bw_refuse_at(
            r, node, "openings",
            "is no slight ventilation, which is 500 to 1500 mm2/m (ISO 6946): "
            "below, write ventilation=\"none\", above, \"well\"");
    return BW_OK;
}

static bw_status read_cavity_resistance(bw_reader *r, bw_layer *layer,
                                        const xmlNode *node)
{
    bw_property *p = &layer->resistance;
    *p = (bw_property){.source = "", .note = ""};
    BW_TRY(bw_read_quantity(r, &p->value, &p->known, node, "resistance",
                            BW_DIM_THERMAL_RESISTANCE, 0.0, 10.0));
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
    BW_TRY(bw_read_quantity(r, &layer->emissivity, &given, node, "emissivity",
                            BW_DIM_NUMBER, 0.02, 0.95));
    if (given && bw_xml_value(node, "resistance") != NULL)
        return bw_refuse_at(
            r, node, "emissivity",
            "and resistance= both set the resistance of the air; give one");
    return BW_OK;
}

/* A cavity filled all over is a layer of its filling. */
static bw_status fill_whole(bw_reader *r, bw_layer *layer,
                            const bw_material *filling, const xmlNode *node)
{
    if (layer->ventilation != BW_VENT_NONE)
        return bw_refuse_at(
            r, node, "ventilation",
            "and filled-with=\"%s\" contradict each other: no air passes where "
            "all is filled. Write ventilation=\"none\", or blocked=\"20 %%\" "
            "for the share of the area that is filled",
            filling->id);
    if (bw_xml_value(node, "resistance") != NULL)
        return bw_refuse_at(
            r, node, "resistance",
            "is that of still air; what fills the cavity has its own");
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
    const bw_material *filling;
    bool blocked;
    BW_TRY(bw_read_quantity(r, &layer->blocked, &blocked, node, "blocked",
                            BW_DIM_FRACTION, 1e-4, 0.9999));
    if (bw_xml_value(node, "filled-with") == NULL)
        return !blocked ? BW_OK
                        : bw_refuse_at(r, node, "blocked",
                                       "needs filled-with= beside it: what is "
                                       "the cavity blocked with? For example "
                                       "filled-with=\"masonry-mortar\"");
    BW_TRY(bw_read_material(r, &filling, node, "filled-with"));
    bool sd = filling->sd_curve.count >= 2 || filling->sd.known;
    if (!filling->thermal_conductivity.known ||
        !(filling->mu_dry.known || filling->mu_wet.known || sd))
        return bw_refuse_at(r, node, "filled-with",
                            "has no conductivity or no mu in the library, so "
                            "nothing can be filled with it");
    if (!blocked)
        return fill_whole(r, layer, filling, node);
    layer->blocked_with = filling;
    return BW_OK;
}

/* m, common practice, no source: battens start at 10 to 20 mm */
static const double LEAST_WELL = 0.0099;

static bw_status read_cavity(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    static const char *const names[] = {"still air cavity",
                                        "slightly ventilated cavity",
                                        "well-ventilated cavity"};
    bool given;
    int ventilation;
    BW_TRY(bw_read_attributes(r, node, "id", "name", "thickness", "ventilation",
                              "openings", "air-change", "resistance",
                              "evidence", "source", "emissivity", "filled-with",
                              "blocked"));
    BW_TRY(bw_read_children(r, node, "framing", "uncertain"));
    BW_TRY(bw_read_quantity(r, &layer->thickness, NULL, node, "thickness",
                            BW_DIM_LENGTH, 0.0005, 2.0));
    BW_TRY(bw_read_word(r, &ventilation, NULL, node, "ventilation", "none",
                        "slight", "well"));
    layer->ventilation = (bw_ventilation)ventilation;
    if (layer->ventilation == BW_VENT_WELL && layer->thickness < LEAST_WELL)
        return bw_refuse_at(
            r, node, "thickness",
            "is too thin for ventilation=\"well\": no air to speak of moves in "
            "less than 10 mm. Write ventilation=\"slight\" or \"none\"");
    BW_TRY(bw_read_evidence(r, &layer->evidence, &given, node));
    layer->source = bw_keep(r, bw_xml_value(node, "source"));
    BW_TRY(read_openings(r, layer, node));
    BW_TRY(read_cavity_resistance(r, layer, node));
    BW_TRY(read_emissivity(r, layer, node));
    BW_TRY(bw_read_quantity(r, &layer->air_change, &given, node, "air-change",
                            BW_DIM_RATE, 0.0, 1.0));
    layer->material = still_air(r);
    BW_TRY_MEMORY(layer->material != NULL, r->err);
    BW_TRY(read_filling(r, layer, node));
    if (*layer->name == '\0')
        layer->name = names[ventilation];
    return read_inside(r, layer, node);
}

bw_status bw_read_layer(bw_reader *r, bw_layer *layer, const xmlNode *node)
{
    layer->line = bw_xml_line(node);
    BW_TRY(bw_read_own_id(r, &layer->id, node));
    layer->name = bw_keep(r, bw_xml_value(node, "name"));
    if (bw_xml_is(node, "cavity")) {
        layer->kind = BW_LAYER_CAVITY;
        return read_cavity(r, layer, node);
    }
    layer->kind = bw_xml_is(node, "membrane") ? BW_LAYER_MEMBRANE
                                              : BW_LAYER_SOLID;
    return read_solid(r, layer, node);
}
