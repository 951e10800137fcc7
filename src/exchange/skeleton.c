#include "skeleton_layer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "text.h"
#include "units.h"

/* The file around the layers, and the choice of a construction. A "?" in it
 * is refused by the reader of assemblies until it is filled in. */

typedef bw_skeleton_maker maker;

static const char *element_of(maker *m, const char *id)
{
    bw_gbxml_use use = bw_gbxml_use_of(m->from, id);
    if (use.surfaces == 0)
        bw_skeleton_note(m->to, "No surface of the model uses this "
                                "construction; it is taken as a wall.");
    if (use.ground > 0)
        bw_skeleton_note(m->to,
                         "%zu of %zu surfaces with this construction touch the "
                         "ground: give them a file of their own with <ground>.",
                         use.ground, use.surfaces);
    if (use.inside > 0)
        bw_skeleton_note(m->to,
                         "%zu of %zu surfaces with this construction lie "
                         "inside the building: there is no outdoor climate.",
                         use.inside, use.surfaces);
    bool roof = use.roofs > 0, floor = use.floors > 0;
    if ((roof || floor) && use.roofs + use.floors < use.surfaces)
        bw_skeleton_note(m->to,
                         "Surfaces of several kinds use this construction; "
                         "limits and heat flow differ, see element=.");
    return roof ? "roof" : floor ? "floor" : NULL;
}

static void list_general(maker *m)
{
    bw_skeleton_missing(m->to, "Outdoors: a climate file, the direction the "
                               "face looks to, driving rain.");
    bw_skeleton_missing(m->to,
                        "Indoors: temperature and humidity (humidity-class=, "
                        "relative-humidity= or twelve months).");
    bw_skeleton_missing(m->to, "Cavities and how they are ventilated: the "
                               "format has no mark for them. Framing, but for "
                               "a share of a layer.");
    bw_skeleton_missing(m->to, "Membranes, and whether one varies with "
                               "humidity; wet-cup mu; moisture storage: "
                               "material= of the library brings them.");
    bw_skeleton_missing(m->to, "Air leakage (<air-leakage q50= "
                               "connected-height=/>).");
}

static void put_list(bw_skeleton_owner *to, const char *title,
                     const char *const *item, size_t count)
{
    if (count == 0)
        return;
    bw_skeleton_put(to, "\n     ");
    bw_skeleton_put(to, title);
    bw_skeleton_put(to, "\n");
    for (size_t i = 0; i < count; i++) {
        bw_skeleton_put(to, "     * ");
        bw_skeleton_put_comment(to, item[i]);
        bw_skeleton_put(to, "\n");
    }
}

/* The head is known last: it tells what the layers lack. */
static void put_head(maker *m, const bw_construction *c, const char *element)
{
    bw_skeleton_owner *to = m->to;
    const char *name = c->name[0] != '\0' ? c->name : c->id;
    bw_skeleton_put(to, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                        "<!-- A skeleton, not yet an assembly: construction ");
    bw_skeleton_put_comment(to, c->id);
    bw_skeleton_put(to, " of ");
    bw_skeleton_put_comment(to, bw_skeleton_file(m->from->file.file));
    bw_skeleton_put(to, ".\n     Layers stand outside to inside, as they do "
                        "there. Fill in every \"?\".\n");
    put_list(to, "Missing:", to->missing, to->skeleton.missing_count);
    put_list(to, "Understood:", to->note, to->skeleton.note_count);
    bw_skeleton_put(to, "-->\n<assembly xmlns=\"urn:bothways:assembly:1\"");
    const char *id = bw_skeleton_id(to, name);
    bw_skeleton_put_text(to, "id", id[0] != '\0' ? id : "imported");
    bw_skeleton_put_text(to, "title", name);
    if (element != NULL)
        bw_skeleton_put_text(to, "element", element);
    const bool floor = element != NULL && strcmp(element, "floor") == 0;
    bw_skeleton_put(to, ">\n  <outdoors climate=\"?\" faces=\"?\"");
    bw_skeleton_put(to, floor ? " below=\"?\"" : "");
    bw_skeleton_put(to, "/>\n"
                        "  <indoors temperature=\"?\" humidity-class=\"?\"/>\n"
                        "  <layers listed=\"outside-to-inside\">\n");
}

static void note_file(maker *m, const bw_gbxml_build_up *build_up)
{
    const char *version = m->from->file.version;
    if (strcmp(version, "6.01") != 0)
        bw_skeleton_note(m->to,
                         "The file says it is gbXML %s; it is read as 6.01.",
                         version[0] != '\0' ? version : "of no version");
    if (build_up->stacked > 0)
        bw_skeleton_note(m->to,
                         "A <Layer> lists several materials without "
                         "percentOfLayer: they are taken as lying one behind "
                         "the other, outside to inside.");
    if (m->permeance_unit != NULL && !m->used_permeance_unit)
        bw_skeleton_note(m->to, "No material here has a permeance in PermSI; "
                                "the unit given for it is not used.");
    else if (m->used_permeance_unit)
        bw_skeleton_note(m->to, "PermSI is taken as %s, as was said.",
                         m->permeance_unit);
}

static bw_status make(maker *m, const bw_construction *c)
{
    bw_skeleton_owner *to = m->to;
    bw_gbxml_build_up *build_up = BW_NEW(&to->arena, bw_gbxml_build_up, 1);
    BW_TRY_MEMORY(build_up != NULL, m->err);
    const xmlNode *node = bw_gbxml_construction(m->from, c->id);
    BW_TRY(bw_gbxml_build_up_read(build_up, &to->arena, m->from, node, m->err));
    list_general(m);
    for (size_t i = 0; i < build_up->count; i++)
        BW_TRY(bw_skeleton_put_layer(m, &build_up->layer[i]));
    const char *element = element_of(m, c->id);
    note_file(m, build_up);
    /* What stands so far are the layers; the head goes before them. */
    char *layers = to->text;
    to->text = NULL;
    to->length = to->room = 0;
    put_head(m, c, element);
    if (layers != NULL)
        bw_skeleton_put(to, layers);
    free(layers);
    bw_skeleton_put(to, "  </layers>\n</assembly>\n");
    to->skeleton.layer_count = build_up->count;
    to->skeleton.xml = to->text;
    to->skeleton.missing = to->missing;
    to->skeleton.note = to->note;
    return to->no_memory ? bw_fail_memory(m->err) : BW_OK;
}

static bw_status choose(const bw_construction **out, const bw_gbxml *file,
                        const char *id, bw_error *err)
{
    const char *ids[64];
    char list[400];
    size_t count = file->construction_count < 64 ? file->construction_count
                                                 : 64;
    for (size_t i = 0; i < count; i++)
        ids[i] = file->construction[i].id;
    *out = NULL;
    for (size_t i = 0; id != NULL && i < file->construction_count; i++) {
        const bw_construction *c = &file->construction[i];
        if (strcmp(c->id, id) != 0)
            continue;
        if (*out != NULL)
            return bw_fail(err, BW_ERR_INPUT, file->file, c->line,
                           "<Construction> id=\"%.60s\" stands twice (also in "
                           "line %ld); which one is meant cannot be known",
                           id, (*out)->line);
        *out = c;
    }
    if (id == NULL && file->construction_count == 1)
        *out = &file->construction[0];
    if (*out != NULL)
        return BW_OK;
    bw_xml_list(list, sizeof list, ids, count);
    if (id == NULL)
        return bw_fail(err, BW_ERR_USAGE, file->file, 0,
                       "this holds %zu constructions; choose one with "
                       "--construction ID: %s",
                       file->construction_count, list);
    return bw_fail(err, BW_ERR_USAGE, file->file, 0,
                   "this holds no construction '%s'%s; it holds: %s", id,
                   bw_text_meant((char[BW_MEANT]){0}, id, ids, count), list);
}

static bw_status check_unit(const char *unit, bw_error *err)
{
    char text[96], why[512];
    double sd;
    if (unit == NULL)
        return BW_OK;
    snprintf(text, sizeof text, "1 %.80s", unit);
    if (bw_quantity_read(&sd, BW_DIM_PERMEANCE, 0.0, 1e300, text, why,
                         sizeof why))
        return BW_OK;
    return bw_fail_usage(
        err, "--permeance-unit '%s' is no unit of permeance: %s", unit, why);
}

bw_status bw_gbxml_skeleton(bw_skeleton **out, const bw_gbxml *file,
                            const bw_skeleton_options *options, bw_error *err)
{
    bw_skeleton_options given = {.library = NULL};
    const bw_construction *chosen;
    if (options != NULL)
        given = *options;
    BW_TRY(check_unit(given.permeance_unit, err));
    bw_status found = choose(&chosen, file, given.construction, err);
    if (found != BW_OK || chosen == NULL)
        return found;
    bw_skeleton_owner *to = calloc(1, sizeof *to);
    BW_TRY_MEMORY(to != NULL, err);
    maker m = {.to = to,
               .from = (const bw_gbxml_owner *)file,
               .permeance_unit = given.permeance_unit,
               .library = given.library,
               .err = err};
    bw_status status = make(&m, chosen);
    if (status != BW_OK) {
        bw_skeleton_free(&to->skeleton);
        return status;
    }
    *out = &to->skeleton;
    return BW_OK;
}

void bw_skeleton_free(bw_skeleton *skeleton)
{
    if (skeleton == NULL)
        return;
    bw_skeleton_owner *owner = (bw_skeleton_owner *)skeleton;
    free(owner->text);
    bw_arena_release(&owner->arena);
    free(owner);
}
