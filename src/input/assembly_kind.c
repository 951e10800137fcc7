#include "assembly_reader.h"
#include "fail.h"

/* kind=: what a layer of inline values is made of. It sets the flags that a
 * library material has of its own; which limits apply hangs on them.
 *
 * The flags are those most materials of the shipped library have in the group
 * (mould classes after Ojanen et al. 2010, docs/methods.md). Without a kind=
 * the layer is read as what fails first: a wood-based panel that stores water,
 * mould likes, and water runs off. */

static const struct {
    const char *word, *group;
    bw_wood_kind wood;
    bw_mould_class mould;
    bool hygroscopic, absorbs;
} kinds[] = {
    {"wood", "wood", BW_SOLID_WOOD, BW_MOULD_VERY_SENSITIVE, true, true},
    {"wood-panel", "board", BW_WOOD_PANEL, BW_MOULD_SENSITIVE, true, true},
    {"gypsum", "board", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, true},
    {"mineral", "masonry", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, true, true},
    {"plant-fibre", "insulation", BW_NOT_WOOD, BW_MOULD_SENSITIVE, true, false},
    {"mineral-wool", "insulation", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT,
     false, false},
    {"foam", "insulation", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false,
     false},
    {"plastic-or-metal", "given", BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false,
     false},
};

static bw_status refuse_misplaced(bw_reader *r, const bw_layer *layer,
                                  const xmlNode *node, bool library)
{
    if (bw_xml_value(node, "kind") == NULL)
        return BW_OK;
    if (library)
        return bw_xml_fail_at(&r->xml, node, "kind", r->err,
                              "stands beside material=\"%s\", which says what "
                              "the layer is made of; leave one out",
                              bw_xml_value(node, "material"));
    if (layer->kind == BW_LAYER_MEMBRANE)
        return bw_xml_fail_at(&r->xml, node, "kind", r->err,
                              "is for a <layer>; a <membrane> is taken as a "
                              "film that holds no water");
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
