#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "file.h"
#include "owner.h"

/* From an assembly file to the resolved model. Read in two steps: the file
 * from top to bottom, then what refers to layers by their ids.
 *
 * Invariant: layers stand outside to inside once read_layers is through. */

static const char NAME_SPACE[] = "urn:bothways:assembly:1";

/* ---- layers ------------------------------------------------------------ */

static bw_status check_ids(bw_reader *r, size_t count)
{
    char made[32];
    for (size_t i = 0; i < count; i++) {
        bw_layer *layer = &r->layer[i];
        if (*layer->id == '\0') {
            snprintf(made, sizeof made, "layer-%zu", i + 1);
            layer->id = bw_keep(r, made);
        }
    }
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++) {
            if (strcmp(r->layer[i].id, r->layer[j].id) != 0)
                continue;
            long a = r->layer[i].line, b = r->layer[j].line;
            return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, a > b ? a : b,
                           "id=\"%.60s\" stands twice (also in line %ld); "
                           "every layer needs an id of its own",
                           r->layer[i].id, a > b ? b : a);
        }
    return BW_OK;
}

static void turn_round(bw_layer *layer, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        bw_layer swap = layer[i];
        layer[i] = layer[count - 1 - i];
        layer[count - 1 - i] = swap;
    }
}

static bw_status check_cavities(bw_reader *r, size_t count)
{
    const bw_layer *last = &r->layer[count - 1];
    if (last->kind == BW_LAYER_CAVITY)
        return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, last->line,
                       "<cavity> is the innermost layer; a cavity needs a "
                       "layer between it and the room");
    return BW_OK;
}

static bw_status read_order(bw_reader *r, const xmlNode *node)
{
    int order = 0;
    BW_TRY(bw_read_attributes(r, node, "listed"));
    BW_TRY(bw_read_word(r, &order, NULL, node, "listed", "inside-to-outside",
                        "outside-to-inside"));
    r->assembly->listed_outside_to_inside = order == 1;
    return BW_OK;
}

/* The place of a layer is that of its element. */
static bw_status read_layer(bw_reader *r, const xmlNode *node)
{
    size_t i = 0;
    for (const xmlNode *c = bw_xml_first(node->parent); c != node;
         c = bw_xml_next(c))
        i++;
    r->layer[i] = (bw_layer){0};
    return bw_read_layer(r, &r->layer[i], node);
}

static bw_status read_layers(bw_reader *r, const xmlNode *node)
{
    BW_TRY(bw_read_part(r, read_order, node));
    BW_TRY(bw_read_children(r, node, "layer", "membrane", "cavity"));
    size_t count = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        count++;
    if (count == 0 || count > BW_MOST_LAYERS)
        return bw_refuse(r, node, "holds %zu layers; 1 to %d are accepted",
                         count, BW_MOST_LAYERS);
    r->layer = BW_NEW(r->arena, bw_layer, count);
    BW_TRY_MEMORY(r->layer != NULL, r->err);
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        BW_TRY(bw_read_part(r, read_layer, c));
    if (!r->assembly->listed_outside_to_inside)
        turn_round(r->layer, count);
    BW_TRY(check_ids(r, count));
    BW_TRY(check_cavities(r, count));
    r->assembly->layer_count = count;
    r->assembly->layer = r->layer;
    return BW_OK;
}

/* ---- the file ---------------------------------------------------------- */

static bw_status read_root(bw_reader *r, const xmlNode *root)
{
    const char *every[BW_MOST_PARTS];
    bw_assembly *a = r->assembly;
    bool given;
    int element = 0;
    const char *id;
    BW_TRY(bw_read_attributes(r, root, "id", "title", "remark", "element"));
    BW_TRY(bw_xml_children(
        &r->xml, root, every,
        bw_part_names(every, BW_NAMES("outdoors", "indoors", "layers",
                                      "air-leakage", "drying-test", "rain-leak",
                                      "closing-up", "junctions", "choices")),
        r->err));
    BW_TRY(bw_read_required(r, &id, root, "id", "north-wall"));
    BW_TRY(bw_read_word(r, &element, &given, root, "element", "wall", "roof",
                        "floor"));
    const char *title = bw_xml_value(root, "title");
    a->id = bw_keep(r, id);
    a->title = title != NULL && *title != '\0' ? bw_keep(r, title) : a->id;
    a->remark = bw_keep(r, bw_xml_value(root, "remark"));
    a->element = (bw_element)element;
    return BW_OK;
}

static bw_status read_all(bw_reader *r)
{
    const xmlNode *root = r->xml.root;
    BW_TRY(bw_read_part(r, read_root, root));
    BW_TRY(bw_read_part(r, bw_find_beyond, root));
    BW_TRY(bw_read_child(r, "outdoors", true, bw_read_outdoors));
    BW_TRY(bw_read_child(r, "indoors", true, bw_read_indoors));
    BW_TRY(bw_read_child(r, "layers", true, read_layers));
    if (r->assembly->beyond.kind != NULL && !bw_any_fault(r))
        BW_TRY(bw_read_child(r, bw_beyond_element(&r->assembly->beyond), true,
                             bw_read_beyond));
    if (r->assembly->layer_count > 0)
        BW_TRY(bw_read_events(r));
    BW_TRY(bw_read_child(r, "junctions", false, bw_read_junction_names));
    if (r->assembly->layer_count > 0 && !bw_any_fault(r))
        BW_TRY(bw_read_child(r, "choices", false, bw_read_choices));
    if (bw_any_fault(r)) {
        *r->err = r->faults->fault[0];
        return BW_ERR_INPUT;
    }
    BW_TRY(bw_review_assembly(r));
    r->assembly->note = r->note;
    r->assembly->note_count = r->note_count;
    return BW_OK;
}

/* ---- where it stands --------------------------------------------------- */

static bw_status read_document(bw_reader *r, const bw_wall_origin *from)
{
    static const char kind[] = "assembly";
    BW_TRY(bw_xml_open(&r->xml, from->name, from->text, kind, kind, NAME_SPACE,
                       r->err));
    bw_status status = bw_apply_edits(r, from->edit, from->edit_count);
    if (status == BW_OK) {
        r->xml.slipped = r->faults != NULL ? &r->slipped : NULL;
        status = read_all(r);
        if (status != BW_OK)
            bw_blame_edits(r->err, from->edit, from->edit_count);
        for (size_t i = 0; bw_any_fault(r) && i < r->faults->count; i++)
            bw_blame_edits(&r->faults->fault[i], from->edit, from->edit_count);
    }
    bw_xml_close(&r->xml);
    /* What was refused for a name that could not be kept is no fault of the
     * file. */
    return r->out_of_memory ? bw_fail_memory(r->err) : status;
}

bw_status bw_wall_read(bw_assembly **out, const bw_wall_origin *from,
                       const bw_library *library, bw_error *err)
{
    bw_assembly_owner *owner = calloc(1, sizeof *owner);
    BW_TRY_MEMORY(owner != NULL, err);
    bw_reader reader = {.library = library,
                        .arena = &owner->arena,
                        .assembly = &owner->assembly,
                        .err = err,
                        .faults = from->faults};
    owner->assembly.file = bw_keep(&reader, from->name);
    bw_status status = read_document(&reader, from);
    if (status != BW_OK) {
        bw_assembly_free(&owner->assembly);
        return status;
    }
    *out = &owner->assembly;
    return BW_OK;
}

bw_status bw_assembly_read_alone(bw_assembly **out, const char *path,
                                 const bw_wall_origin *host,
                                 const bw_library *library, bw_error *err)
{
    bw_wall_origin from = {.name = path};
    if (host != NULL &&
        (strcmp(host->name, path) == 0 || bw_file_same(host->name, path)))
        from = *host;
    from.faults = NULL;
    return bw_wall_read(out, &from, library, err);
}
