/* What lies against the outer face in the place of outdoor air (beyond.h): the
 * attributes of its element, as its kind lists them.
 *
 * Invariant: one such thing lies against a face, and nothing of the open air
 * (sun, rain, wind, sky) counts there. */

#include "assembly_reader.h"
#include "beyond.h"
#include "fail.h"

size_t bw_part_names(const char **name, const char *const *always, size_t count)
{
    for (size_t i = 0; i < count; i++)
        name[i] = always[i];
    for (size_t i = 0; i < BW_BEYOND_KINDS; i++)
        name[count + i] = bw_beyond_kind_at(i)->element;
    return count + BW_BEYOND_KINDS;
}

bw_status bw_find_beyond(bw_reader *r, const xmlNode *root)
{
    bw_beyond *beyond = &r->assembly->beyond;
    for (const xmlNode *c = bw_xml_first(root); c != NULL; c = bw_xml_next(c))
        for (size_t i = 0; i < BW_BEYOND_KINDS; i++) {
            const bw_beyond_kind *kind = bw_beyond_kind_at(i);
            if (!bw_xml_is(c, kind->element))
                continue;
            if (beyond->kind != NULL && beyond->kind != kind)
                return bw_refuse(
                    r, c,
                    "stands beside <%s>; one thing lies against the outer face",
                    beyond->kind->element);
            beyond->kind = kind;
        }
    return BW_OK;
}

static bw_status read_word(bw_reader *r, double *value, const xmlNode *node,
                           const bw_beyond_attribute *a)
{
    size_t count = 0;
    int index = (int)*value;
    bool given;
    const char *word;
    while (a->words[count] != NULL)
        count++;
    if (a->required)
        BW_TRY(bw_read_required(r, &word, node, a->name, a->example));
    BW_TRY(bw_xml_word(&index, &given, &r->xml, node, a->name, a->words, count,
                       r->err));
    *value = index;
    return BW_OK;
}

static bw_status read_value(bw_reader *r, double *value, const xmlNode *node,
                            const bw_beyond_attribute *a)
{
    bool given;
    long layer = -1;
    *value = a->otherwise;
    switch (a->sort) {
    case BW_BEYOND_QUANTITY:
        return bw_read_quantity(r, value, a->required ? NULL : &given, node,
                                a->name, a->dimension, a->low, a->high);
    case BW_BEYOND_WORD:
        return read_word(r, value, node, a);
    case BW_BEYOND_TIGHT_LAYER:
        if (bw_xml_value(node, a->name) != NULL)
            BW_TRY(bw_read_layer_id(r, &layer, node, a->name));
        *value = (double)layer;
    }
    return BW_OK;
}

bw_status bw_read_beyond_values(bw_reader *r, bw_beyond *beyond,
                                const xmlNode *node, bool layers)
{
    const bw_beyond_attribute *a = beyond->kind->attribute;
    const char *allowed[BW_BEYOND_MOST];
    size_t count = 0;
    for (size_t i = 0; a[i].name != NULL; i++)
        if (layers || a[i].sort != BW_BEYOND_TIGHT_LAYER)
            allowed[count++] = a[i].name;
    BW_TRY(bw_xml_childless(&r->xml, node, allowed, count, r->err));
    for (size_t i = 0; a[i].name != NULL; i++)
        BW_TRY(read_value(r, &beyond->value[i], node, &a[i]));
    return BW_OK;
}

bw_status bw_read_beyond(bw_reader *r, const xmlNode *node)
{
    const bw_beyond_kind *kind = r->assembly->beyond.kind;
    bw_beyond_review review = {0};
    BW_TRY(bw_read_beyond_values(r, &r->assembly->beyond, node, true));
    if (kind->review != NULL)
        kind->review(&review, r->arena, r->assembly);
    BW_TRY_MEMORY(!r->arena->failed, r->err);
    if (review.refusal != NULL && review.at != NULL)
        return bw_refuse_at(r, node, review.at, "%s", review.refusal);
    if (review.refusal != NULL)
        return bw_refuse(r, node, "%s", review.refusal);
    for (size_t i = 0; i < review.warning_count; i++)
        bw_add_note(r, BW_NOTE_WARNING, node, "%s", review.warning[i]);
    return BW_OK;
}
