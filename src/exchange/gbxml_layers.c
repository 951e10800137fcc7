#include <string.h>

#include "fail.h"
#include "gbxml.h"
#include "number.h"
#include "text.h"

/* From a construction to its layers: Construction -> LayerId -> Layer ->
 * MaterialId -> Material. Several materials in one layer with percentOfLayer
 * lie side by side; without it they lie one behind the other, outside to
 * inside, as programs write them [from memory, medium].
 *
 * Invariant: a layer has at least one part, the largest share first. */

typedef struct resolver {
    bw_gbxml_build_up *out;
    bw_arena *arena;
    const bw_gbxml_owner *owner;
    bw_error *err;
} resolver;

enum { IDS_MOST = 256 };

/* Shares are rounded as they are written [%]. */
static const double OVERFULL = 100.5;

static bw_status fail_reference(const resolver *r, const xmlNode *from,
                                const char *attribute, const char *element)
{
    const char *ids[IDS_MOST];
    size_t count = 0;
    for (const xmlNode *n = bw_gbxml_first(r->owner->xml.root, element);
         n != NULL && count < IDS_MOST; n = bw_gbxml_next(n, element)) {
        const char *id = bw_xml_value(n, "id");
        if (id != NULL)
            ids[count++] = id;
    }
    return bw_xml_fail_at(&r->owner->xml, from, attribute, r->err,
                          "refers to no <%s> of this file%s", element,
                          bw_text_meant((char[BW_MEANT]){0},
                                        bw_xml_value(from, attribute), ids,
                                        count));
}

/* The element a reference points to. */
static bw_status follow(const resolver *r, const xmlNode **to,
                        const xmlNode *from, const char *attribute,
                        const char *element)
{
    const char *wanted;
    BW_TRY(bw_xml_required(&wanted, &r->owner->xml, from, attribute, "id-1",
                           r->err));
    *to = NULL;
    for (const xmlNode *n = bw_gbxml_first(r->owner->xml.root, element);
         n != NULL; n = bw_gbxml_next(n, element)) {
        const char *id = bw_xml_value(n, "id");
        if (id == NULL || strcmp(id, wanted) != 0)
            continue;
        if (*to != NULL)
            return bw_xml_fail_at(&r->owner->xml, n, "id", r->err,
                                  "stands twice (also in line %ld); which one "
                                  "is meant cannot be known",
                                  bw_xml_line(*to));
        *to = n;
    }
    return *to != NULL ? BW_OK : fail_reference(r, from, attribute, element);
}

static bw_status read_percent(const resolver *r, double *percent,
                              const xmlNode *reference)
{
    const char *text = bw_xml_value(reference, "percentOfLayer"), *end;
    *percent = 0.0;
    if (text == NULL)
        return BW_OK;
    if (!bw_number_read(text, percent, &end) || *end != '\0' ||
        *percent <= 0.0 || *percent > 100.0)
        return bw_xml_fail_at(&r->owner->xml, reference, "percentOfLayer",
                              r->err, "is not a number above 0 and up to 100");
    return BW_OK;
}

static bw_status read_material(const resolver *r, bw_gbxml_material *m,
                               const xmlNode *reference)
{
    const xmlNode *node;
    BW_TRY(follow(r, &node, reference, "materialIdRef", "Material"));
    BW_TRY(read_percent(r, &m->percent, reference));
    m->id = bw_xml_value(node, "id");
    m->name = bw_gbxml_child_text(r->arena, node, "Name");
    m->description = bw_gbxml_child_text(r->arena, node, "Description");
    BW_TRY_MEMORY(m->name != NULL && m->description != NULL, r->err);
    for (int k = 0; k < BW_GBXML_KINDS; k++)
        BW_TRY(bw_gbxml_read_quantity(&m->quantity[k], r->owner, node,
                                      (bw_gbxml_kind)k, r->err));
    return BW_OK;
}

/* The layer added, or NULL with the reason in *status. */
static bw_gbxml_layer *add_layer(const resolver *r, const xmlNode *node,
                                 bw_status *status)
{
    bw_gbxml_build_up *out = r->out;
    if (out->count == BW_GBXML_LAYERS_MOST) {
        *status = bw_xml_fail(&r->owner->xml, node, r->err,
                              "is one layer too many: %d are read at most",
                              BW_GBXML_LAYERS_MOST);
        return NULL;
    }
    bw_gbxml_layer *layer = &out->layer[out->count++];
    *layer = (bw_gbxml_layer){
        .id = bw_xml_value(node, "id"),
        .name = bw_gbxml_child_text(r->arena, node, "Name")};
    if (layer->name != NULL)
        return layer;
    *status = bw_fail_memory(r->err);
    return NULL;
}

static void largest_first(bw_gbxml_layer *layer)
{
    for (size_t i = 1; i < layer->part_count; i++) {
        if (layer->part[i].percent <= layer->part[0].percent)
            continue;
        bw_gbxml_material swap = layer->part[0];
        layer->part[0] = layer->part[i];
        layer->part[i] = swap;
    }
}

static bw_status read_side_by_side(const resolver *r, const xmlNode *node)
{
    bw_status status = BW_OK;
    double filled = 0.0;
    bw_gbxml_layer *layer = add_layer(r, node, &status);
    if (layer == NULL)
        return status;
    for (const xmlNode *m = bw_gbxml_first(node, "MaterialId"); m != NULL;
         m = bw_gbxml_next(m, "MaterialId")) {
        if (layer->part_count == BW_GBXML_PARTS_MOST)
            return bw_xml_fail(&r->owner->xml, m, r->err,
                               "is one part of a layer too many: %d are read "
                               "at most",
                               BW_GBXML_PARTS_MOST);
        BW_TRY(read_material(r, &layer->part[layer->part_count], m));
        filled += layer->part[layer->part_count++].percent;
    }
    if (filled > OVERFULL)
        return bw_xml_fail(&r->owner->xml, node, r->err,
                           "holds materials of %s %% in all; side by side "
                           "they fill 100 %% at most",
                           BW_NUMBER_G(filled, 4));
    largest_first(layer);
    return BW_OK;
}

static bw_status read_stacked(const resolver *r, const xmlNode *node)
{
    for (const xmlNode *m = bw_gbxml_first(node, "MaterialId"); m != NULL;
         m = bw_gbxml_next(m, "MaterialId")) {
        bw_status status = BW_OK;
        bw_gbxml_layer *layer = add_layer(r, node, &status);
        if (layer == NULL)
            return status;
        layer->part_count = 1;
        BW_TRY(read_material(r, &layer->part[0], m));
    }
    return BW_OK;
}

static bw_status read_layer(const resolver *r, const xmlNode *reference)
{
    const xmlNode *node;
    size_t all = 0, shares = 0;
    BW_TRY(follow(r, &node, reference, "layerIdRef", "Layer"));
    for (const xmlNode *m = bw_gbxml_first(node, "MaterialId"); m != NULL;
         m = bw_gbxml_next(m, "MaterialId")) {
        all++;
        shares += bw_xml_value(m, "percentOfLayer") != NULL;
    }
    if (all == 0)
        return bw_xml_fail(&r->owner->xml, node, r->err,
                           "names no <MaterialId>: a layer of nothing");
    if (shares > 0 && shares < all)
        return bw_xml_fail(&r->owner->xml, node, r->err,
                           "gives percentOfLayer= for some of its materials "
                           "and not for others: side by side or one behind "
                           "the other?");
    if (all == 1 || shares > 0)
        return read_side_by_side(r, node);
    r->out->stacked++;
    return read_stacked(r, node);
}

bw_status bw_gbxml_build_up_read(bw_gbxml_build_up *out, bw_arena *arena,
                                 const bw_gbxml_owner *owner,
                                 const xmlNode *construction, bw_error *err)
{
    resolver r = {out, arena, owner, err};
    out->count = out->stacked = 0;
    for (const xmlNode *l = bw_gbxml_first(construction, "LayerId"); l != NULL;
         l = bw_gbxml_next(l, "LayerId"))
        BW_TRY(read_layer(&r, l));
    if (out->count == 0)
        return bw_xml_fail(&owner->xml, construction, err,
                           "id=\"%.60s\" has no <LayerId>: nothing is known of "
                           "its layers",
                           bw_xml_value(construction, "id"));
    return BW_OK;
}
