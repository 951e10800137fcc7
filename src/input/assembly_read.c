#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "owner.h"
#include "text.h"
#include "utf8.h"

/* From an assembly file to the resolved model. Read in two steps: the file
 * from top to bottom, then what refers to layers by their ids.
 *
 * Invariant: layers stand outside to inside once read_layers is through. */

static const char NAME_SPACE[] = "urn:bothways:assembly:1";

const char *bw_keep(bw_reader *r, const char *text)
{
    if (text == NULL || *text == '\0')
        return "";
    const char *copy = bw_arena_copy(r->arena, text);
    r->out_of_memory |= copy == NULL;
    return copy != NULL ? copy : "";
}

void bw_add_note(bw_reader *r, bw_note_kind kind, const xmlNode *node,
                 const char *format, ...)
{
    char text[600];
    va_list args;
    va_start(args, format);
    int wrote = vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (wrote >= (int)sizeof text)
        bw_utf8_trim(text);
    if (r->note_count == r->note_room) {
        size_t room = 2 * r->note_room + 16;
        bw_note *grown = BW_NEW(r->arena, bw_note, room);
        if (grown == NULL) {
            r->out_of_memory = true;
            return;
        }
        if (r->note_count > 0)
            memcpy(grown, r->note, r->note_count * sizeof *grown);
        r->note = grown;
        r->note_room = room;
    }
    r->note[r->note_count++] = (bw_note){
        .kind = kind,
        .line = node != NULL ? bw_xml_line(node) : 0,
        .file = r->assembly->file,
        .message = bw_keep(r, text)};
}

bw_status bw_read_yes_no(bw_reader *r, bool *value, bool *given,
                         const xmlNode *node, const char *name)
{
    static const char *const words[] = {"no", "yes"};
    int index = *value;
    BW_TRY(bw_xml_word(&index, given, &r->xml, node, name, words, 2, r->err));
    *value = index == 1;
    return BW_OK;
}

bw_status bw_read_evidence(bw_reader *r, bw_evidence *evidence, bool *given,
                           const xmlNode *node)
{
    /* In the order of bw_evidence. */
    static const char *const words[] = {"assumed", "tabulated", "declared",
                                        "measured"};
    int index = (int)*evidence;
    BW_TRY(bw_xml_word(&index, given, &r->xml, node, "evidence", words, 4,
                       r->err));
    *evidence = (bw_evidence)index;
    return BW_OK;
}

bw_status bw_read_material(bw_reader *r, const bw_material **material,
                           const xmlNode *node, const char *name)
{
    const char *id;
    BW_TRY(bw_xml_required(&id, &r->xml, node, name, "hemp-batt", r->err));
    *material = bw_library_find(r->library, id);
    if (*material != NULL)
        return BW_OK;
    const char *nearest = bw_library_suggest(r->library, id);
    return bw_xml_fail_at(&r->xml, node, name, r->err,
                          "is not in the material library%s%s%s; the command "
                          "\"bothways materials\" lists what is",
                          nearest != NULL ? " (did you mean " : "",
                          nearest != NULL ? nearest : "",
                          nearest != NULL ? "?)" : "");
}

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

static bw_status read_layers(bw_reader *r, const xmlNode *node)
{
    static const char *const kinds[] = {"layer", "membrane", "cavity"};
    static const char *const orders[] = {"inside-to-outside",
                                         "outside-to-inside"};
    static const char *const allowed[] = {"listed"};
    int order = 0;
    BW_TRY(bw_xml_attributes(&r->xml, node, allowed, 1, r->err));
    BW_TRY(
        bw_xml_word(&order, NULL, &r->xml, node, "listed", orders, 2, r->err));
    BW_TRY(bw_xml_children(&r->xml, node, kinds, BW_COUNT(kinds), r->err));
    size_t count = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        count++;
    if (count == 0 || count > BW_MOST_LAYERS)
        return bw_xml_fail(&r->xml, node, r->err,
                           "holds %zu layers; 1 to %d are accepted", count,
                           BW_MOST_LAYERS);
    r->layer = BW_NEW(r->arena, bw_layer, count);
    if (r->layer == NULL)
        return bw_fail_memory(r->err);
    size_t i = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        BW_TRY(bw_read_layer(r, &r->layer[i++], c));
    r->assembly->listed_outside_to_inside = order == 1;
    if (order == 0)
        turn_round(r->layer, count);
    BW_TRY(check_ids(r, count));
    BW_TRY(check_cavities(r, count));
    r->assembly->layer_count = count;
    r->assembly->layer = r->layer;
    return BW_OK;
}

/* ---- the file ---------------------------------------------------------- */

static bw_status read_root(bw_reader *r)
{
    static const char *const allowed[] = {"id", "title", "remark", "element"};
    static const char *const elements[] = {"wall", "roof", "floor"};
    static const char *const parts[] = {
        "outdoors",    "indoors",   "layers",    "air-leakage",
        "drying-test", "rain-leak", "closing-up"};
    const xmlNode *root = r->xml.root;
    bw_assembly *a = r->assembly;
    bool given;
    int element = 0;
    const char *id;
    BW_TRY(
        bw_xml_attributes(&r->xml, root, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(bw_xml_children(&r->xml, root, parts, BW_COUNT(parts), r->err));
    BW_TRY(bw_xml_required(&id, &r->xml, root, "id", "north-wall", r->err));
    BW_TRY(bw_xml_word(&element, &given, &r->xml, root, "element", elements,
                       BW_COUNT(elements), r->err));
    const char *title = bw_xml_value(root, "title");
    a->id = bw_keep(r, id);
    a->title = title != NULL && *title != '\0' ? bw_keep(r, title) : a->id;
    a->remark = bw_keep(r, bw_xml_value(root, "remark"));
    a->element = (bw_element)element;
    return BW_OK;
}

static bw_status read_all(bw_reader *r)
{
    xmlNode *outdoors, *indoors, *layers;
    const xmlNode *root = r->xml.root;
    BW_TRY(read_root(r));
    BW_TRY(bw_xml_child(&outdoors, &r->xml, root, "outdoors", true, r->err));
    BW_TRY(bw_xml_child(&indoors, &r->xml, root, "indoors", true, r->err));
    BW_TRY(bw_xml_child(&layers, &r->xml, root, "layers", true, r->err));
    BW_TRY(bw_read_outdoors(r, outdoors));
    BW_TRY(bw_read_indoors(r, indoors));
    BW_TRY(read_layers(r, layers));
    BW_TRY(bw_read_events(r));
    BW_TRY(bw_review_assembly(r));
    r->assembly->note = r->note;
    r->assembly->note_count = r->note_count;
    return BW_OK;
}

/* ---- where it stands --------------------------------------------------- */

/* A file, or a text in memory that is called `name`. */
typedef struct origin {
    const char *name, *text;
    const bw_edit *edit;
    size_t edit_count;
} origin;

static bw_status open_document(bw_reader *r, const origin *from)
{
    static const char kind[] = "assembly";
    if (from->text != NULL)
        return bw_xml_open_text(&r->xml, from->text, from->name, kind, kind,
                                NAME_SPACE, r->err);
    return bw_xml_open(&r->xml, from->name, kind, kind, NAME_SPACE, r->err);
}

static bw_status read_document(bw_reader *r, const origin *from)
{
    BW_TRY(open_document(r, from));
    bw_status status = bw_apply_edits(r, from->edit, from->edit_count);
    if (status == BW_OK) {
        status = read_all(r);
        if (status != BW_OK)
            bw_blame_edits(r, from->edit, from->edit_count);
    }
    bw_xml_close(&r->xml);
    /* What was refused for a name that could not be kept is no fault of the
     * file. */
    return r->out_of_memory ? bw_fail_memory(r->err) : status;
}

static bw_status read_from(bw_assembly **out, const origin *from,
                           const bw_library *library, bw_error *err)
{
    bw_assembly_owner *owner = calloc(1, sizeof *owner);
    if (owner == NULL)
        return bw_fail_memory(err);
    bw_reader reader = {.library = library,
                        .arena = &owner->arena,
                        .assembly = &owner->assembly,
                        .err = err};
    owner->assembly.file = bw_keep(&reader, from->name);
    bw_status status = read_document(&reader, from);
    if (status != BW_OK) {
        bw_assembly_free(&owner->assembly);
        return status;
    }
    *out = &owner->assembly;
    return BW_OK;
}

bw_status bw_assembly_read(bw_assembly **out, const char *path,
                           const bw_library *library, bw_error *err)
{
    const origin from = {.name = path};
    return read_from(out, &from, library, err);
}

bw_status bw_assembly_read_edited(bw_assembly **out, const char *path,
                                  const bw_library *library,
                                  const bw_edit *edit, size_t count,
                                  bw_error *err)
{
    const origin from = {.name = path, .edit = edit, .edit_count = count};
    return read_from(out, &from, library, err);
}

bw_status bw_assembly_read_text(bw_assembly **out, const char *text,
                                const char *name, const bw_library *library,
                                const bw_edit *edit, size_t count,
                                bw_error *err)
{
    const origin from = {
        .name = name, .text = text, .edit = edit, .edit_count = count};
    return read_from(out, &from, library, err);
}
