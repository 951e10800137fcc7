#include "assembly_options.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "number.h"

/* One <option>: the layer as it stands in <layers>, another that is written as
 * it would be there, or none. A list of thicknesses is so many layers, each
 * read as if its thickness= stood there.
 *
 * Invariant: what an option makes of a layer a file could say of it. */

typedef struct list {
    bw_reader *r;
    bw_choice *choice;
    bw_option *option; /* room for BW_OPTIONS_MOST */
    size_t count;
} list;

/* ---- thicknesses --------------------------------------------------------- */

typedef struct sizes {
    size_t count;
    double value[BW_OPTIONS_MOST]; /* m */
} sizes;

static bw_status add_size(sizes *out, double value, bw_reader *r,
                          const xmlNode *node, const char *name)
{
    if (out->count == BW_OPTIONS_MOST)
        return bw_refuse_at(r, node, name, "makes more than %d thicknesses",
                            BW_OPTIONS_MOST);
    out->value[out->count++] = value;
    return BW_OK;
}

static bw_status read_list(sizes *out, const char *text, bw_reader *r,
                           const xmlNode *node)
{
    static const char name[] = "thicknesses";
    for (;;) {
        const char *end = text + strcspn(text, ",");
        char one[64], why[560] = "is too long for a length";
        double value;
        for (; text < end && *text == ' '; text++)
            continue;
        snprintf(one, sizeof one, "%.*s", (int)(end - text), text);
        if (end - text >= (ptrdiff_t)sizeof one ||
            !bw_quantity_read(&value, BW_DIM_LENGTH, 5e-5, 3.0, one, why,
                              sizeof why))
            return bw_refuse_at(r, node, name, "- \"%s\"%s %s", one,
                                why[0] == '"' ? ":" : "", why);
        BW_TRY(add_size(out, value, r, node, name));
        if (out->count > 1 && value <= out->value[out->count - 2])
            return bw_refuse_at(
                r, node, name,
                "does not rise; write each thickness once, from thin to thick");
        if (*end == '\0')
            return BW_OK;
        text = end + 1;
    }
}

static bw_status read_range(sizes *out, bw_reader *r, const xmlNode *node)
{
    static const double PART = 1e-9; /* of a step: rounding */
    double from, to, step;
    BW_TRY(bw_read_quantity(r, &from, NULL, node, "thickness-from",
                            BW_DIM_LENGTH, 5e-5, 3.0));
    BW_TRY(bw_read_quantity(r, &to, NULL, node, "thickness-to", BW_DIM_LENGTH,
                            5e-5, 3.0));
    BW_TRY(bw_read_quantity(r, &step, NULL, node, "thickness-step",
                            BW_DIM_LENGTH, 5e-5, 3.0));
    if (to < from)
        return bw_refuse_at(r, node, "thickness-to",
                            "is less than thickness-from=\"%s\"",
                            bw_xml_value(node, "thickness-from"));
    for (size_t i = 0; from + (double)i * step <= to + PART * step; i++)
        BW_TRY(
            add_size(out, from + (double)i * step, r, node, "thickness-step"));
    return BW_OK;
}

/* Of <choice> or <option>; none: count stays 0. */
static bw_status read_sizes(sizes *out, bw_reader *r, const xmlNode *node)
{
    const char *text = bw_xml_value(node, "thicknesses");
    const bool range = bw_xml_value(node, "thickness-from") != NULL ||
                       bw_xml_value(node, "thickness-to") != NULL ||
                       bw_xml_value(node, "thickness-step") != NULL;
    out->count = 0;
    if (text != NULL && range)
        return bw_refuse_at(r, node, "thicknesses",
                            "and thickness-from= say the same; leave one out");
    if (text != NULL)
        return read_list(out, text, r, node);
    return range ? read_range(out, r, node) : BW_OK;
}

/* ---- price and carbon ---------------------------------------------------- */

static const struct {
    const char *area, *volume, *source, *evidence;
    bw_dimension per_area, per_volume;
} costs[] = {
    {"price", "price-by-volume", "price-source", "price-evidence",
     BW_DIM_PER_AREA, BW_DIM_PER_VOLUME},
    {"carbon", "carbon-by-volume", "carbon-source", "carbon-evidence",
     BW_DIM_AREAL_MASS, BW_DIM_DENSITY},
};

/* More than anybody pays or emits for a square or cubic metre. */
static const double MOST_COST = 1e6;

static bw_status read_grade(bw_reader *r, bw_evidence *evidence, bool *given,
                            const xmlNode *node, const char *name)
{
    static const bw_evidence grades[] = {
        BW_EVIDENCE_MEASURED, BW_EVIDENCE_DECLARED, BW_EVIDENCE_TABULATED,
        BW_EVIDENCE_ASSUMED};
    int i = 3;
    BW_TRY(bw_read_word(r, &i, given, node, name, "measured", "declared",
                        "tabulated", "assumed"));
    *evidence = grades[i];
    return BW_OK;
}

/* What a layer of this thickness costs; NAN where nothing is said. Without a
 * grade it is assumed. */
static bw_status read_cost(double *out, bw_evidence *evidence,
                           const char **source, bw_reader *r,
                           const xmlNode *node, int which, double thickness)
{
    double area = 0.0, volume = 0.0;
    bool by_area, by_volume, graded;
    BW_TRY(bw_read_quantity(r, &area, &by_area, node, costs[which].area,
                            costs[which].per_area, -MOST_COST, MOST_COST));
    BW_TRY(bw_read_quantity(r, &volume, &by_volume, node, costs[which].volume,
                            costs[which].per_volume, -MOST_COST, MOST_COST));
    BW_TRY(read_grade(r, evidence, &graded, node, costs[which].evidence));
    const char *text = bw_xml_value(node, costs[which].source);
    const bool given = by_area || by_volume;
    if (given && (text == NULL || text[0] == '\0'))
        return bw_refuse_at(
            r, node, by_area ? costs[which].area : costs[which].volume,
            "needs %s= beside it: who says so, and when", costs[which].source);
    if (!given && (text != NULL || graded))
        return bw_refuse_at(
            r, node, text != NULL ? costs[which].source : costs[which].evidence,
            "has no %s= that it could be of", costs[which].area);
    *source = bw_keep(r, text);
    *out = given ? area + volume * thickness : (double)NAN;
    return BW_OK;
}

static bw_status read_costs(bw_option *o, bw_reader *r, const xmlNode *node)
{
    const double thickness = o->layer != NULL ? o->layer->thickness : 0.0;
    BW_TRY(read_cost(&o->price, &o->price_evidence, &o->price_source, r, node,
                     0, thickness));
    return read_cost(&o->carbon, &o->carbon_evidence, &o->carbon_source, r,
                     node, 1, thickness);
}

/* ---- the layer ----------------------------------------------------------- */

/* The studs of the layer as drawn stand in its place, too. */
static bw_status take_framing(bw_reader *r, bw_layer *made,
                              const bw_layer *drawn, const xmlNode *node)
{
    if (made->framing.present || !drawn->framing.present ||
        made->kind == BW_LAYER_MEMBRANE)
        return BW_OK;
    made->framing = drawn->framing;
    if (made->framing.depth <= made->thickness)
        return BW_OK;
    return bw_refuse_at(
        r, node, "thickness",
        "is less than the framing of the layer as drawn is deep (%s mm), which "
        "stands in this one, too; give it a <framing> of its own",
        BW_NUMBER_G(1e3 * drawn->framing.depth, 6));
}

/* A layer of inline values is called as its option is. */
static bw_status lend_name(bw_reader *r, xmlNode *node)
{
    const char *name = bw_xml_value(node->parent, "name");
    if (name == NULL || bw_xml_value(node, "name") != NULL ||
        bw_xml_value(node, "material") != NULL || bw_xml_is(node, "cavity"))
        return BW_OK;
    return bw_xml_set(node, "name", name, r->err);
}

static bw_status read_made(list *to, bw_option *o, xmlNode *node)
{
    bw_reader *r = to->r;
    const bw_layer *drawn = &r->assembly->layer[to->choice->layer];
    bw_layer *made = BW_NEW(r->arena, bw_layer, 1);
    BW_TRY_MEMORY(made != NULL, r->err);
    if (bw_xml_value(node, "id") != NULL)
        return bw_refuse_at(r, node, "id",
                            "stands in an <option>, whose layer has the id of "
                            "the one it replaces (%s); leave it out",
                            drawn->id);
    BW_TRY(lend_name(r, node));
    BW_TRY(bw_read_layer(r, made, node));
    if (made->kind == BW_LAYER_CAVITY &&
        to->choice->layer + 1 == r->assembly->layer_count)
        return bw_refuse(r, node,
                         "would be the innermost layer; a cavity needs a layer "
                         "between it and the room");
    made->id = drawn->id;
    o->layer = made;
    return take_framing(r, made, drawn, node);
}

/* Up to its first comma or bracket. */
static const char *short_name(bw_reader *r, const char *name)
{
    size_t length = strcspn(name, ",(");
    while (length > 0 && name[length - 1] == ' ')
        length--;
    const char *text = bw_arena_printf(r->arena, "%.*s", (int)length, name);
    r->out_of_memory = r->out_of_memory || text == NULL;
    return text != NULL ? text : "";
}

static void call(list *to, bw_option *o, const xmlNode *node, bool sized)
{
    bw_reader *r = to->r;
    const char *given = bw_xml_value(node, "name");
    const char *name = given != NULL && given[0] != '\0' ? bw_keep(r, given)
                       : o->layer == NULL                ? "left out"
                       : o->as_drawn                     ? "as drawn"
                                     : short_name(r, o->layer->name);
    if (sized && o->layer != NULL) {
        const char *size = BW_NUMBER_G(1e3 * o->layer->thickness, 6);
        name = bw_arena_printf(r->arena, "%s %s mm", name, size);
    }
    r->out_of_memory = r->out_of_memory || name == NULL;
    o->name = name != NULL ? name : "";
}

static bw_status add(list *to, bw_option o, const xmlNode *node, bool sized)
{
    bw_reader *r = to->r;
    BW_TRY(read_costs(&o, r, node));
    call(to, &o, node, sized);
    if (to->count == BW_OPTIONS_MOST)
        return bw_refuse(r, node,
                         "is one too many: a layer has at most %d options, "
                         "each thickness counted",
                         BW_OPTIONS_MOST);
    for (size_t i = 0; i < to->count; i++)
        if (strcmp(to->option[i].name, o.name) == 0)
            return bw_refuse(r, node,
                             "makes a second option \"%.60s\" of this layer; "
                             "give each a name= of its own",
                             o.name);
    to->option[to->count++] = o;
    return BW_OK;
}

/* The same element once for each thickness. What it is warned of is told once.
 */
static bw_status add_sized(list *to, bw_option o, const sizes *all,
                           xmlNode *layer, const xmlNode *node)
{
    bw_reader *r = to->r;
    if (bw_xml_value(layer, "thickness") != NULL)
        return bw_refuse_at(
            r, layer, "thickness",
            "and a list of thicknesses contradict each other; leave one out");
    for (size_t i = 0; i < all->count; i++) {
        char metres[32], text[40];
        bw_number_g(metres, sizeof metres, all->value[i], 12);
        snprintf(text, sizeof text, "%s m", metres);
        BW_TRY(bw_xml_set(layer, "thickness", text, r->err));
        const size_t notes = r->note_count;
        BW_TRY(read_made(to, &o, layer));
        if (i > 0)
            r->note_count = notes;
        BW_TRY(add(to, o, node, true));
    }
    return bw_xml_set(layer, "thickness", NULL, r->err);
}

static bw_status read_none(bw_reader *r, const list *to, const xmlNode *none)
{
    const size_t last = r->assembly->layer_count - 1;
    BW_TRY(bw_xml_childless(&r->xml, none, NULL, 0, r->err));
    if (last == 0)
        return bw_refuse(r, none, "leaves out the only layer there is");
    if (to->choice->layer == last &&
        r->assembly->layer[last - 1].kind == BW_LAYER_CAVITY)
        return bw_refuse(r, none,
                         "leaves a cavity as the innermost layer; it needs one "
                         "between it and the room");
    return BW_OK;
}

static bw_status read_option(list *to, const sizes *of_choice,
                             const xmlNode *node)
{
    bw_reader *r = to->r;
    bw_option o = {.line = bw_xml_line(node)};
    sizes own;
    BW_TRY(bw_read_attributes(
        r, node, "name", "price", "price-by-volume", "price-source",
        "price-evidence", "carbon", "carbon-by-volume", "carbon-source",
        "carbon-evidence", "thicknesses", "thickness-from", "thickness-to",
        "thickness-step"));
    BW_TRY(bw_read_children(r, node, "layer", "membrane", "cavity", "none"));
    BW_TRY(read_sizes(&own, r, node));
    xmlNode *what = bw_xml_first(node);
    if (what != NULL && bw_xml_next(what) != NULL)
        return bw_refuse(r, bw_xml_next(what),
                         "is one layer too many: an <option> is of one");
    const bool solid = what != NULL && bw_xml_is(what, "layer");
    if (!solid && own.count > 0)
        return bw_refuse(
            r, node,
            "has thicknesses and no <layer> in it that they could be of");
    if (what == NULL) {
        o.as_drawn = true;
        o.layer = &r->assembly->layer[to->choice->layer];
    } else if (bw_xml_is(what, "none")) {
        BW_TRY(read_none(r, to, what));
    } else if (own.count > 0) {
        return add_sized(to, o, &own, what, node);
    } else if (solid && of_choice->count > 0 &&
               bw_xml_value(what, "thickness") == NULL) {
        return add_sized(to, o, of_choice, what, node);
    } else {
        BW_TRY(read_made(to, &o, what));
    }
    return add(to, o, node, false);
}

bw_status bw_read_options(bw_reader *r, bw_choice *choice, const xmlNode *node)
{
    list to = {.r = r, .choice = choice};
    sizes all;
    to.option = BW_NEW(r->arena, bw_option, BW_OPTIONS_MOST);
    BW_TRY_MEMORY(to.option != NULL, r->err);
    BW_TRY(read_sizes(&all, r, node));
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        BW_TRY(read_option(&to, &all, c));
    choice->option = to.option;
    choice->option_count = to.count;
    return BW_OK;
}
