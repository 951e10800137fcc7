#include "assembly_reader.h"
#include "fail.h"

/* kind=: what a layer of inline values is made of. It sets the flags that a
 * library material has of its own; which limits apply hangs on them.
 *
 * The flags are those most materials of the shipped library have in the group
 * (mould classes after Ojanen et al. 2010, docs/methods.md). Without a kind=
 * the layer is read as what fails first: a wood-based panel that stores water,
 * mould likes, and water runs off.
 *
 * What a kind stores and draws, for the simulation, are estimates from within
 * the shipped library: sorption as MDF and OSB; as gypsum plasterboard; between
 * brick (0.7 % at 80 % RH) and mortar (3.3 %); as wood fibre insulation. A_w as
 * most of the library's of that sort, of mineral as a brick that drinks little:
 * what is told to be mineral and stands in the rain must not stay dry. Solid
 * wood has the equation of the Wood Handbook. */

#define FROM_THE_KIND "generic values of kind=, an estimate"

static const double panel_rh[] = {0, 0.33, 0.50, 0.65, 0.80, 0.90},
                    panel_u[] = {0, 0.05, 0.07, 0.09, 0.12, 0.17},
                    gypsum_rh[] = {0, 0.50, 0.70, 0.88},
                    gypsum_u[] = {0, 0.004, 0.0065, 0.018},
                    mineral_rh[] = {0, 0.50, 0.80, 0.93},
                    mineral_u[] = {0, 0.012, 0.020, 0.030},
                    fibre_rh[] = {0, 0.33, 0.50, 0.65, 0.80, 0.90, 0.93, 0.97},
                    fibre_u[] = {0,    0.05,  0.069, 0.09,
                                 0.12, 0.153, 0.166, 0.19};

#define CURVE(name)                                                            \
    {                                                                          \
        .count = BW_COUNT(name##_rh), .x = name##_rh, .y = name##_u,           \
        .basis = BW_BASIS_ESTIMATE, .source = FROM_THE_KIND, .note = ""        \
    }

#define NO_CURVE                                                               \
    {                                                                          \
        0                                                                      \
    }

static const struct {
    const char *word, *group;
    bw_wood_kind wood;
    bw_mould_class mould;
    bool hygroscopic, absorbs;
    double absorption; /* A_w, kg/(m2 s^0.5); 0: none is known */
    bw_curve sorption;
} kinds[] = {
    {"wood", "wood", BW_SOLID_WOOD, BW_MOULD_VERY_SENSITIVE, true, true, 0.003,
     NO_CURVE},
    {"wood-panel", "board", BW_WOOD_PANEL, BW_MOULD_SENSITIVE, true, true,
     0.003, CURVE(panel)},
    {"gypsum", "board", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, true, 0.002,
     CURVE(gypsum)},
    {"mineral", "masonry", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, true, true,
     0.1, CURVE(mineral)},
    {"plant-fibre", "insulation", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, false,
     0.005, CURVE(fibre)},
    {"mineral-wool", "insulation", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT,
     false, false, 0, NO_CURVE},
    {"foam", "insulation", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false, false,
     0, NO_CURVE},
    {"plastic-or-metal", "given", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false,
     false, 0, NO_CURVE},
};

static void add_storage(bw_reader *r, bw_material *material,
                        const xmlNode *node, size_t i)
{
    if (!(kinds[i].absorption > 0.0))
        return;
    material->sorption = kinds[i].sorption;
    material->water_absorption = (bw_property){.known = true,
                                               .value = kinds[i].absorption,
                                               .basis = BW_BASIS_ESTIMATE,
                                               .evidence = BW_EVIDENCE_ASSUMED,
                                               .source = FROM_THE_KIND,
                                               .note = ""};
    bw_add_note(r, BW_NOTE_INFO, node,
                "<layer> %s: how much water it stores and draws is assumed, as "
                "usual for kind=\"%s\" (estimate); a material of your own in a "
                "folder of --materials can say it",
                material->name, kinds[i].word);
}

static bw_status refuse_misplaced(bw_reader *r, const bw_layer *layer,
                                  const xmlNode *node, bool library)
{
    if (bw_xml_value(node, "kind") == NULL)
        return BW_OK;
    if (library)
        return bw_refuse_at(r, node, "kind",
                            "stands beside material=\"%s\", which says what "
                            "the layer is made of; leave one out",
                            bw_xml_value(node, "material"));
    if (layer->kind == BW_LAYER_MEMBRANE)
        return bw_refuse_at(r, node, "kind",
                            "is for a <layer>; a <membrane> is taken as a film "
                            "that holds no water");
    return BW_OK;
}

bw_status bw_read_kind(bw_reader *r, bw_material *material,
                       const bw_layer *layer, const xmlNode *node, bool library)
{
    const char *words[BW_COUNT(kinds)];
    for (size_t i = 0; i < BW_COUNT(kinds); i++)
        words[i] = kinds[i].word;
    BW_TRY(refuse_misplaced(r, layer, node, library));
    if (library || layer->kind == BW_LAYER_MEMBRANE)
        return BW_OK;
    int i = 0;
    bool given = false;
    BW_TRY(bw_xml_word(&i, &given, &r->xml, node, "kind", words,
                       BW_COUNT(kinds), r->err));
    if (given) {
        material->group = kinds[i].group;
        material->wood_kind = kinds[i].wood;
        material->mould_class = kinds[i].mould;
        material->hygroscopic = kinds[i].hygroscopic;
        material->absorbs_condensate = kinds[i].absorbs;
        material->flags_source = "kind= in the assembly file";
        add_storage(r, material, node, (size_t)i);
        return BW_OK;
    }
    material->wood_kind = BW_WOOD_PANEL;
    material->mould_class = BW_MOULD_VERY_SENSITIVE;
    material->hygroscopic = true;
    material->flags_assumed = true;
    material->flags_source = "not given: the cautious reading";
    bw_add_note(r, BW_NOTE_WARNING, node,
                "<layer> %s does not say what it is made of: judged as a "
                "wood-based panel that mould likes and water runs off; write "
                "for example kind=\"mineral\"",
                material->name);
    return BW_OK;
}
