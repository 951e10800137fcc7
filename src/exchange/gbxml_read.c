#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "gbxml.h"

/* The file, its constructions, and small helpers on its elements. */

static bool is_named(const xmlNode *node, const char *name)
{
    return bw_xml_is(node, name) &&
           strcmp(bw_xml_name_space(node), BW_GBXML_NAME_SPACE) == 0;
}

static xmlNode *seek(xmlNode *node, const char *name)
{
    while (node != NULL && !is_named(node, name))
        node = bw_xml_next(node);
    return node;
}

xmlNode *bw_gbxml_first(const xmlNode *node, const char *name)
{
    return seek(bw_xml_first(node), name);
}

xmlNode *bw_gbxml_next(const xmlNode *node, const char *name)
{
    return seek(bw_xml_next(node), name);
}

const char *bw_gbxml_text(bw_arena *arena, const xmlNode *node)
{
    return bw_xml_text(arena, node);
}

const char *bw_gbxml_child_text(bw_arena *arena, const xmlNode *node,
                                const char *name)
{
    const xmlNode *child = bw_gbxml_first(node, name);
    return child != NULL ? bw_gbxml_text(arena, child) : "";
}

static bw_status check_root(const bw_gbxml_owner *owner, bw_error *err)
{
    const xmlNode *root = owner->xml.root;
    if (is_named(root, "gbXML"))
        return BW_OK;
    if (bw_xml_is(root, "gbXML"))
        return bw_xml_fail(&owner->xml, root, err,
                           "is not in the namespace of gbXML; it starts with "
                           "<gbXML xmlns=\"%s\" ...>",
                           BW_GBXML_NAME_SPACE);
    return bw_xml_fail(&owner->xml, root, err,
                       "is not what a gbXML file starts with: <gbXML "
                       "xmlns=\"%s\" ...>; no other format is imported",
                       BW_GBXML_NAME_SPACE);
}

static size_t count_of(const xmlNode *node, const char *name)
{
    size_t count = 0;
    for (const xmlNode *c = bw_gbxml_first(node, name); c != NULL;
         c = bw_gbxml_next(c, name))
        count++;
    return count;
}

static bw_status read_constructions(bw_gbxml_owner *owner, bw_error *err)
{
    const xmlNode *root = owner->xml.root;
    size_t count = count_of(root, "Construction"), layers = 0, i = 0;
    if (count == 0)
        return bw_xml_fail(&owner->xml, root, err,
                           "holds no <Construction>: the model was written "
                           "without its build-ups; export it with layered "
                           "constructions");
    bw_construction *list = BW_NEW(&owner->arena, bw_construction, count);
    BW_TRY_MEMORY(list != NULL, err);
    for (const xmlNode *c = bw_gbxml_first(root, "Construction"); c != NULL;
         c = bw_gbxml_next(c, "Construction")) {
        const char *id;
        BW_TRY(
            bw_xml_required(&id, &owner->xml, c, "id", "construction-1", err));
        list[i] = (bw_construction){
            .id = id,
            .name = bw_gbxml_child_text(&owner->arena, c, "Name"),
            .layer_count = count_of(c, "LayerId"),
            .line = bw_xml_line(c)};
        BW_TRY_MEMORY(list[i].name != NULL, err);
        layers += list[i++].layer_count;
    }
    if (layers == 0)
        return bw_xml_fail(&owner->xml, root, err,
                           "holds %zu <Construction>%s but no layers in %s: "
                           "export the model with layered constructions",
                           count, count == 1 ? "" : "s",
                           count == 1 ? "it" : "any of them");
    owner->file.construction = list;
    owner->file.construction_count = count;
    return BW_OK;
}

bw_status bw_gbxml_read(bw_gbxml **out, const char *path, bw_error *err)
{
    bw_gbxml_owner *owner = calloc(1, sizeof *owner);
    BW_TRY_MEMORY(owner != NULL, err);
    owner->file.file = bw_arena_copy(&owner->arena, path);
    bw_status status = owner->file.file == NULL
                           ? bw_fail_memory(err)
                           : bw_xml_open_foreign(&owner->xml, owner->file.file,
                                                 "gbXML", err);
    if (status == BW_OK)
        status = check_root(owner, err);
    if (status == BW_OK)
        status = read_constructions(owner, err);
    if (status != BW_OK) {
        bw_gbxml_free(&owner->file);
        return status;
    }
    const char *version = bw_xml_value(owner->xml.root, "version");
    owner->file.version = version != NULL ? version : "";
    *out = &owner->file;
    return BW_OK;
}

void bw_gbxml_free(bw_gbxml *file)
{
    if (file == NULL)
        return;
    bw_gbxml_owner *owner = (bw_gbxml_owner *)file;
    if (owner->xml.doc != NULL)
        bw_xml_close(&owner->xml);
    bw_arena_release(&owner->arena);
    free(owner);
}

const xmlNode *bw_gbxml_construction(const bw_gbxml_owner *owner,
                                     const char *id)
{
    const char *const name = "Construction";
    const xmlNode *c = bw_gbxml_first(owner->xml.root, name);
    while (c != NULL && strcmp(bw_xml_value(c, "id"), id) != 0)
        c = bw_gbxml_next(c, name);
    return c;
}

/* Kinds of surface of the schema [from memory, high]. */
static bool any_of(const char *word, const char *const *words, size_t count)
{
    for (size_t i = 0; word != NULL && i < count; i++)
        if (strcmp(word, words[i]) == 0)
            return true;
    return false;
}

static void count_surface(bw_gbxml_use *use, const xmlNode *surface)
{
    static const char *const roofs[] = {"Roof"}, *const floors[] = {
                                                     "RaisedFloor"};
    const char *kind = bw_xml_value(surface, "surfaceType");
    use->surfaces++;
    use->inside += any_of(
        kind, BW_NAMES("InteriorWall", "InteriorFloor", "Ceiling", "Air"));
    use->ground += any_of(kind, BW_NAMES("UndergroundWall", "UndergroundSlab",
                                         "UndergroundCeiling", "SlabOnGrade"));
    use->roofs += any_of(kind, roofs, 1);
    use->floors += any_of(kind, floors, 1);
}

bw_gbxml_use bw_gbxml_use_of(const bw_gbxml_owner *owner,
                             const char *construction)
{
    bw_gbxml_use use = {0, 0, 0, 0, 0};
    for (const xmlNode *campus = bw_gbxml_first(owner->xml.root, "Campus");
         campus != NULL; campus = bw_gbxml_next(campus, "Campus"))
        for (const xmlNode *s = bw_gbxml_first(campus, "Surface"); s != NULL;
             s = bw_gbxml_next(s, "Surface")) {
            const char *ref = bw_xml_value(s, "constructionIdRef");
            if (ref != NULL && strcmp(ref, construction) == 0)
                count_surface(&use, s);
        }
    return use;
}
