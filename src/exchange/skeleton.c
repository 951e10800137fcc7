#include "skeleton.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "gbxml.h"
#include "number.h"
#include "text.h"
#include "units.h"

/* A skeleton from a resolved construction. Nothing is guessed: what an
 * assembly needs and the file does not say stands there as "?", which the
 * reader of assemblies refuses until it is filled in.
 *
 * Invariant: every value written is one the reader of assemblies takes. */

typedef struct maker {
    bw_skeleton_owner *to;
    const bw_gbxml_owner *from;
    const char *permeance_unit; /* of PermSI; NULL: not said */
    bool used_permeance_unit;
    bw_error *err;
    const char *ids[BW_GBXML_LAYERS_MOST];
    size_t count;
} maker;

/* Thinner than this is a film, not a layer [m]: the assembly reader's limit. */
static const double FILM = 5e-5;

/* What an assembly may hold, in the unit written. */
static const struct {
    const char *attribute, *unit;
    double factor, low, high; /* from SI; limits in SI */
} written[BW_GBXML_KINDS] = {
    [BW_GBXML_THICKNESS] = {"thickness", "mm", 1e3, 1e-7, 3.0},
    [BW_GBXML_CONDUCTIVITY] = {"lambda", "W/(m.K)", 1.0, 1e-3, 500.0},
    [BW_GBXML_RESISTANCE] = {"resistance", "m2.K/W", 1.0, 1e-9, 100.0},
    [BW_GBXML_DENSITY] = {"density", "kg/m3", 1.0, 1.0, 12000.0},
    [BW_GBXML_SPECIFIC_HEAT] = {"specific-heat", "J/(kg.K)", 1.0, 50.0, 5000.0},
};

/* ---- quantities -------------------------------------------------------- */

static void note_repeated(maker *m, const bw_gbxml_material *material)
{
    for (int k = 0; k < BW_GBXML_KINDS; k++)
        if (material->quantity[k].repeated)
            bw_skeleton_note(m->to,
                             "Material %s gives <%s> more than once; the first "
                             "is taken.",
                             material->id, bw_gbxml_element((bw_gbxml_kind)k));
}

/* There, and such that an assembly may hold it. Zeros are what programs write
 * for what they do not know. */
static bool usable(maker *m, const bw_gbxml_material *material,
                   bw_gbxml_kind kind)
{
    const bw_gbxml_quantity *q = &material->quantity[kind];
    if (!q->given)
        return false;
    if (q->value >= written[kind].low && q->value <= written[kind].high)
        return true;
    char number[64];
    bw_number_g(number, sizeof number, q->value * written[kind].factor, 4);
    bw_skeleton_note(m->to,
                     "Material %s (line %ld): <%s> is %s %s; %s, so it is left "
                     "out.",
                     material->id, q->line, bw_gbxml_element(kind), number,
                     written[kind].unit,
                     q->value > 0.0 ? "no material has that"
                                    : "zero says nothing");
    return false;
}

static void put(maker *m, const bw_gbxml_material *material, bw_gbxml_kind kind)
{
    bw_skeleton_put_quantity(m->to, written[kind].attribute,
                             material->quantity[kind].value *
                                 written[kind].factor,
                             written[kind].unit);
}

static bw_status fail_perm_si(const maker *m, const bw_gbxml_material *material)
{
    return bw_fail(
        m->err, BW_ERR_USAGE, m->from->file.file,
        material->quantity[BW_GBXML_PERMEANCE].line,
        "material %.60s gives its permeance in PermSI, which the gbXML schema "
        "does not define, so it is not guessed. Find out what the program that "
        "wrote the file means by it and say so: --permeance-unit "
        "\"ng/(Pa.s.m2)\", "
        "\"kg/(m2.s.Pa)\", metricperm or usperm",
        material->id);
}

/* Writes the permeance if there is one; *has tells. PermIP is the US perm. */
static bw_status put_permeance(maker *m, const bw_gbxml_material *material,
                               bool *has)
{
    const bw_gbxml_quantity *q = &material->quantity[BW_GBXML_PERMEANCE];
    *has = false;
    if (!q->given)
        return BW_OK;
    const char *unit = "usperm";
    if (strcmp(q->unit, "PermSI") == 0) {
        if (m->permeance_unit == NULL)
            return fail_perm_si(m, material);
        unit = m->permeance_unit;
        m->used_permeance_unit = true;
    }
    char number[64], text[160], why[512];
    double sd;
    bw_number_g(number, sizeof number, q->value, 6);
    snprintf(text, sizeof text, "%s %s", number, unit);
    if (!bw_quantity_read(&sd, BW_DIM_PERMEANCE, 1e-4, 1e6, text, why,
                          sizeof why)) {
        bw_skeleton_note(m->to,
                         "Material %s (line %ld): a permeance of %s is beyond "
                         "what an assembly may hold, so it is left out.",
                         material->id, q->line, text);
        return BW_OK;
    }
    bw_skeleton_put_text(m->to, "permeance", text);
    *has = true;
    return BW_OK;
}

/* ---- one layer --------------------------------------------------------- */

static const char *first_of(const char *a, const char *b, const char *c)
{
    return a[0] != '\0' ? a : b[0] != '\0' ? b : c;
}

static bool taken(const maker *m, const char *id)
{
    for (size_t i = 0; i < m->count; i++)
        if (strcmp(m->ids[i], id) == 0)
            return true;
    return false;
}

/* An id of its own from the material's name, else its id. */
static const char *layer_id(maker *m, const bw_gbxml_material *material)
{
    const char *stem = bw_skeleton_id(m->to, material->name);
    if (stem[0] == '\0')
        stem = bw_skeleton_id(m->to, material->id);
    if (stem[0] == '\0')
        stem = "layer";
    const char *id = stem;
    for (size_t n = 2; taken(m, id); n++) {
        id = bw_arena_printf(&m->to->arena, "%s-%zu", stem, n);
        if (id == NULL) {
            m->to->no_memory = true;
            return "";
        }
    }
    m->ids[m->count++] = id;
    return id;
}

/* What kind of element the material can be. */
typedef enum shape {
    SHAPE_LAYER,      /* has a thickness */
    SHAPE_RESISTANCE, /* a thermal resistance alone: a layer, or a cavity */
    SHAPE_MEMBRANE,   /* neither */
} shape;

typedef struct facts {
    bool thickness, conductivity, resistance, density, specific_heat;
} facts;

static shape shape_of(const facts *f, const bw_gbxml_material *material)
{
    if (f->thickness &&
        material->quantity[BW_GBXML_THICKNESS].value >= FILM * 0.99999)
        return SHAPE_LAYER;
    return f->resistance ? SHAPE_RESISTANCE : SHAPE_MEMBRANE;
}

static void note_disagreement(maker *m, const bw_gbxml_material *material)
{
    const bw_gbxml_quantity *q = material->quantity;
    double from_values = q[BW_GBXML_THICKNESS].value /
                         q[BW_GBXML_CONDUCTIVITY].value;
    double said = q[BW_GBXML_RESISTANCE].value;
    char a[64], b[64];
    if (fabs(from_values - said) <= 0.05 * said)
        return;
    bw_skeleton_note(m->to,
                     "Material %s: its <R-value> of %s m2.K/W is not its "
                     "thickness over its conductivity, %s m2.K/W; the latter "
                     "are taken.",
                     material->id, bw_number_g(a, sizeof a, said, 3),
                     bw_number_g(b, sizeof b, from_values, 3));
}

static void put_thermal(maker *m, const char *id,
                        const bw_gbxml_material *material, const facts *f,
                        shape form)
{
    if (f->thickness)
        put(m, material, BW_GBXML_THICKNESS);
    if (form == SHAPE_MEMBRANE)
        return;
    if (form == SHAPE_LAYER && f->conductivity) {
        put(m, material, BW_GBXML_CONDUCTIVITY);
        if (f->resistance)
            note_disagreement(m, material);
    } else if (f->resistance) {
        put(m, material, BW_GBXML_RESISTANCE);
    } else {
        bw_skeleton_put_text(m->to, "lambda", "?");
        bw_skeleton_missing(m->to,
                            "Layer %s: conductivity (lambda=) or thermal "
                            "resistance (resistance=).",
                            id);
    }
}

static bw_status put_vapour(maker *m, const char *id,
                            const bw_gbxml_material *material, shape form)
{
    bool has;
    BW_TRY(put_permeance(m, material, &has));
    if (has)
        return BW_OK;
    const char *name = form == SHAPE_LAYER ? "mu" : "sd";
    bw_skeleton_put_text(m->to, name, "?");
    bw_skeleton_missing(
        m->to,
        form == SHAPE_LAYER
            ? "Layer %s: vapour resistance (mu=, or sd=, or vapour-resistance= "
              "in its place; or a material= of the library for all of it)."
            : "Layer %s: vapour resistance (sd=, or vapour-resistance= in its "
              "place; or a material= of the library).",
        id);
    if (form == SHAPE_RESISTANCE)
        bw_skeleton_missing(m->to,
                            "Layer %s: only a thermal resistance is given. An "
                            "air space is written <cavity thickness= "
                            "ventilation=> instead.",
                            id);
    return BW_OK;
}

static void put_storage(maker *m, const char *id,
                        const bw_gbxml_material *material, const facts *f)
{
    if (f->density)
        put(m, material, BW_GBXML_DENSITY);
    if (f->specific_heat)
        put(m, material, BW_GBXML_SPECIFIC_HEAT);
    if (!f->density || !f->specific_heat)
        bw_skeleton_missing(m->to,
                            "Layer %s: %s (the simulation alone needs it).", id,
                            f->density         ? "specific heat"
                            : f->specific_heat ? "density"
                                               : "density and specific heat");
}

/* Parts side by side: framing is what an assembly knows of them. */
static void put_parts(maker *m, const char *id, const bw_gbxml_layer *layer)
{
    char percent[64];
    const bw_gbxml_material *main = &layer->part[0];
    if (layer->part_count == 1 && main->percent > 0.0 && main->percent < 100.0)
        bw_skeleton_missing(
            m->to,
            "Layer %s: it is said to fill %s %% of the layer; "
            "what fills the rest is not.",
            id, bw_number_g(percent, sizeof percent, main->percent, 4));
    for (size_t i = 1; i < layer->part_count; i++) {
        const bw_gbxml_material *part = &layer->part[i];
        const char *name = first_of(part->name, part->id, "");
        bw_number_g(percent, sizeof percent, part->percent, 4);
        bw_skeleton_put(m->to, "    <!-- beside it, ");
        bw_skeleton_put(m->to, percent);
        bw_skeleton_put(m->to, " % of the layer: ");
        bw_skeleton_put_comment(m->to, name);
        bw_skeleton_put(m->to, " -->\n");
        bw_skeleton_missing(m->to,
                            "Layer %s: %s %% of it is %s. If that is framing, "
                            "write <framing material= fraction=\"%s %%\"/> "
                            "into the layer.",
                            id, percent, name, percent);
    }
}

static void put_description(maker *m, const bw_gbxml_material *material)
{
    if (material->description[0] == '\0')
        return;
    bw_skeleton_put(m->to, "    <!-- ");
    bw_skeleton_put_comment(m->to, material->description);
    bw_skeleton_put(m->to, " -->\n");
}

static void put_source(maker *m, const bw_gbxml_material *material)
{
    char text[300];
    snprintf(text, sizeof text, "gbXML file %.100s, material %.100s",
             bw_skeleton_file(m->from->file.file), material->id);
    bw_skeleton_put(m->to, "\n       ");
    bw_skeleton_put_text(m->to, "evidence", "assumed");
    bw_skeleton_put_text(m->to, "source", text);
}

static bw_status put_layer(maker *m, const bw_gbxml_layer *layer)
{
    const bw_gbxml_material *material = &layer->part[0];
    facts f = {usable(m, material, BW_GBXML_THICKNESS),
               usable(m, material, BW_GBXML_CONDUCTIVITY),
               usable(m, material, BW_GBXML_RESISTANCE),
               usable(m, material, BW_GBXML_DENSITY),
               usable(m, material, BW_GBXML_SPECIFIC_HEAT)};
    shape form = shape_of(&f, material);
    const char *id = layer_id(m, material);
    note_repeated(m, material);
    if (material->quantity[BW_GBXML_THICKNESS].given == false)
        bw_skeleton_note(m->to,
                         "Material %s gives no thickness: layer %s is written "
                         "as a %s.",
                         material->id, id,
                         form == SHAPE_MEMBRANE ? "membrane"
                                                : "thermal resistance");
    put_description(m, material);
    put_parts(m, id, layer);
    bw_skeleton_put(m->to,
                    form == SHAPE_MEMBRANE ? "    <membrane" : "    <layer");
    bw_skeleton_put_text(m->to, "id", id);
    bw_skeleton_put_text(m->to, "name",
                         first_of(material->name, layer->name, material->id));
    put_thermal(m, id, material, &f, form);
    BW_TRY(put_vapour(m, id, material, form));
    if (form != SHAPE_MEMBRANE)
        put_storage(m, id, material, &f);
    put_source(m, material);
    bw_skeleton_put(m->to, "/>\n");
    return BW_OK;
}

/* ---- the file ---------------------------------------------------------- */

static const char *element_of(maker *m, const char *id)
{
    bw_gbxml_use use = bw_gbxml_use_of(m->from, id);
    if (use.surfaces == 0)
        bw_skeleton_note(m->to, "No surface of the model uses this "
                                "construction; it is taken as a wall.");
    if (use.ground > 0)
        bw_skeleton_note(m->to,
                         "%zu of %zu surfaces with this construction touch the "
                         "ground: that is outside what is computed here.",
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
    bw_skeleton_put(to, ">\n  <outdoors climate=\"?\" faces=\"?\"/>\n"
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
    if (build_up == NULL)
        return bw_fail_memory(m->err);
    const xmlNode *node = bw_gbxml_construction(m->from, c->id);
    BW_TRY(bw_gbxml_build_up_read(build_up, &to->arena, m->from, node, m->err));
    list_general(m);
    for (size_t i = 0; i < build_up->count; i++)
        BW_TRY(put_layer(m, &build_up->layer[i]));
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
    for (size_t i = 0; id != NULL && i < file->construction_count; i++) {
        *out = &file->construction[i];
        if (strcmp((*out)->id, id) == 0)
            return BW_OK;
    }
    *out = &file->construction[0];
    if (id == NULL && file->construction_count == 1)
        return BW_OK;
    bw_xml_list(list, sizeof list, ids, count);
    if (id == NULL)
        return bw_fail(err, BW_ERR_USAGE, file->file, 0,
                       "this holds %zu constructions; choose one with "
                       "--construction ID: %s",
                       file->construction_count, list);
    const char *near = bw_text_nearest(id, ids, count);
    return bw_fail(err, BW_ERR_USAGE, file->file, 0,
                   "this holds no construction '%s'%s%s%s; it holds: %s", id,
                   near != NULL ? " (did you mean " : "",
                   near != NULL ? near : "", near != NULL ? "?)" : "", list);
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
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "--permeance-unit '%s' is no unit of permeance: %s", unit,
                   why);
}

bw_status bw_gbxml_skeleton(bw_skeleton **out, const bw_gbxml *file,
                            const bw_skeleton_options *options, bw_error *err)
{
    bw_skeleton_options given = {NULL, NULL};
    const bw_construction *chosen;
    if (options != NULL)
        given = *options;
    BW_TRY(check_unit(given.permeance_unit, err));
    BW_TRY(choose(&chosen, file, given.construction, err));
    bw_skeleton_owner *to = calloc(1, sizeof *to);
    if (to == NULL)
        return bw_fail_memory(err);
    maker m = {.to = to,
               .from = (const bw_gbxml_owner *)file,
               .permeance_unit = given.permeance_unit,
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
