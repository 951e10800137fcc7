#include "skeleton_layer.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "number.h"
#include "properties.h"

/* A layer of a gbXML construction as a layer of an assembly. Nothing is
 * guessed: what an assembly needs and the file does not say stands as "?".
 *
 * Invariant: every value written is one the reader of assemblies takes. */

typedef bw_skeleton_maker maker;

/* Thinner than this is a film, not a layer [m]: the assembly reader's limit. */
static const double FILM = 5e-5;

/* Shares are rounded as they are written: from here on a layer is full [%]. */
static const double FULL = 99.5;

/* What an assembly may hold; thickness is written in mm. */
static const bw_property_row *written(bw_gbxml_kind kind)
{
    static const bw_property_row thickness = {
        .attribute = "thickness", .unit = "mm", .low = 1e-7, .high = 3.0};
    static const bw_property_row resistance = {.attribute = "resistance",
                                               .unit = "m2.K/W",
                                               .low = 1e-9,
                                               .high = 100.0};
    switch (kind) {
    case BW_GBXML_CONDUCTIVITY:
        return &bw_property_rows[BW_PROPERTY_CONDUCTIVITY];
    case BW_GBXML_DENSITY:
        return &bw_property_rows[BW_PROPERTY_DENSITY];
    case BW_GBXML_SPECIFIC_HEAT:
        return &bw_property_rows[BW_PROPERTY_SPECIFIC_HEAT];
    case BW_GBXML_RESISTANCE:
        return &resistance;
    default:
        return &thickness;
    }
}

static double factor(bw_gbxml_kind kind)
{
    return kind == BW_GBXML_THICKNESS ? 1e3 : 1.0;
}

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
    if (q->value >= written(kind)->low && q->value <= written(kind)->high)
        return true;
    const char *number = BW_NUMBER_G(q->value * factor(kind), 4);
    bw_skeleton_note(m->to,
                     "Material %s (line %ld): <%s> is %s %s; %s, so it is left "
                     "out.",
                     material->id, q->line, bw_gbxml_element(kind), number,
                     written(kind)->unit,
                     q->value > 0.0 ? "no material has that"
                                    : "zero says nothing");
    return false;
}

static void put(maker *m, const bw_gbxml_material *material, bw_gbxml_kind kind)
{
    bw_skeleton_put_quantity(m->to, written(kind)->attribute,
                             material->quantity[kind].value * factor(kind),
                             written(kind)->unit);
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
    if (fabs(from_values - said) <= 0.05 * said)
        return;
    bw_skeleton_note(m->to,
                     "Material %s: its <R-value> of %s m2.K/W is not its "
                     "thickness over its conductivity, %s m2.K/W; the latter "
                     "are taken.",
                     material->id, BW_NUMBER_G(said, 3),
                     BW_NUMBER_G(from_values, 3));
}

static void put_thermal(maker *m, const char *id,
                        const bw_gbxml_material *material, const facts *f,
                        shape form)
{
    if (f->thickness && form != SHAPE_RESISTANCE)
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

/* gbXML has no word for what a material is made of, and limits, mould and
 * storage hang on it. */
static void put_kind(maker *m, const char *id)
{
    bw_skeleton_put_text(m->to, "kind", "?");
    bw_skeleton_missing(
        m->to,
        "Layer %s: what it is made of (kind=: wood, wood-panel, "
        "gypsum, mineral, plant-fibre, mineral-wool, foam or "
        "plastic-or-metal; none beside a material=).",
        id);
}

/* Parts side by side: framing is what an assembly knows of them. */
static void put_parts(maker *m, const char *id, const bw_gbxml_layer *layer)
{
    char percent[64];
    double filled = 0.0;
    for (size_t i = 0; i < layer->part_count; i++)
        filled += layer->part[i].percent;
    if (filled > 0.0 && filled < FULL)
        bw_skeleton_missing(
            m->to,
            "Layer %s: what is named is said to fill %s %% of it; what fills "
            "the rest is not.",
            id, bw_number_g(percent, sizeof percent, filled, 4));
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

/* What the library has by that name, for the reader to choose: the name alone
 * does not tell what the layer is. */
static void put_proposal(maker *m, const char *name)
{
    enum { FEW = 6 };
    const bw_material *few[FEW];
    size_t count = m->library != NULL
                       ? bw_library_spoken_of(m->library, name, few, FEW)
                       : 0;
    if (count == 0)
        return;
    bw_skeleton_put(m->to, "    <!-- by its name perhaps");
    for (size_t i = 0; i < count; i++) {
        bw_skeleton_put(m->to, i == 0 ? " material=\"" : " or \"");
        bw_skeleton_put(m->to, few[i]->id);
        bw_skeleton_put(m->to, "\"");
    }
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

bw_status bw_skeleton_put_layer(maker *m, const bw_gbxml_layer *layer)
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
    bool given = material->quantity[BW_GBXML_THICKNESS].given;
    if (!given || (f.thickness && form == SHAPE_RESISTANCE))
        bw_skeleton_note(
            m->to, "Material %s gives %s: layer %s is written as a %s.",
            material->id, given ? "the thickness of a film" : "no thickness",
            id, form == SHAPE_MEMBRANE ? "membrane" : "thermal resistance");
    put_description(m, material);
    put_parts(m, id, layer);
    const char *name = first_of(material->name, layer->name, material->id);
    put_proposal(m, name);
    bw_skeleton_put(m->to,
                    form == SHAPE_MEMBRANE ? "    <membrane" : "    <layer");
    bw_skeleton_put_text(m->to, "id", id);
    bw_skeleton_put_text(m->to, "name", name);
    put_thermal(m, id, material, &f, form);
    BW_TRY(put_vapour(m, id, material, form));
    if (form != SHAPE_MEMBRANE) {
        put_storage(m, id, material, &f);
        put_kind(m, id);
    }
    put_source(m, material);
    bw_skeleton_put(m->to, "/>\n");
    return BW_OK;
}
