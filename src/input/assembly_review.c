#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "bothways/geography.h"
#include "fail.h"
#include "number.h"
#include "variant.h"

/* What is accepted but looks wrong, and what was understood. Nothing here
 * changes the model. The limits are our own judgement (estimate): only a
 * warning hangs on them. */

/* ---- values of one layer ----------------------------------------------- */

typedef struct span {
    double low, high;
} span;

static const struct {
    const char *group;
    span thickness, lambda, mu; /* m, W/(m K), - */
} groups[] = {
    {"insulation", {0.005, 0.600}, {0.003, 0.20}, {1, 1e6}},
    {"board", {0.003, 0.100}, {0.03, 1.0}, {2, 1000}},
    {"wood", {0.003, 0.500}, {0.07, 0.30}, {5, 300}},
    {"masonry", {0.020, 1.500}, {0.07, 5.0}, {2, 1e5}},
    {"plaster", {0.001, 0.120}, {0.04, 2.0}, {2, 100}},
    {"membrane", {0.00002, 0.010}, {0.03, 300.0}, {10, 1e7}},
    {"coating", {0.00001, 0.020}, {0.03, 5.0}, {1, 1e7}},
};

static const double WATER = 1000.0; /* kg/m3 */

typedef struct review {
    bw_reader *r;
    const xmlNode *node;
    char of[96]; /* the material or its group, for messages */
} review;

/* scale: from SI to the unit written. */
static void check_span(review *v, const char *name, double value, span limit,
                       double scale, const char *unit)
{
    const char *text = bw_xml_value(v->node, name);
    if (text == NULL || (value >= limit.low && value <= limit.high))
        return;
    bw_add_note(v->r, BW_NOTE_WARNING, v->node,
                "<%s> %s=\"%.40s\" lies outside the plausible range for %s, "
                "%s to %s%s; is it right?",
                bw_xml_name(v->node), name, text, v->of,
                BW_NUMBER_G(limit.low * scale, 4),
                BW_NUMBER_G(limit.high * scale, 4), unit);
}

/* The library's own range where it has one, else that of the group. */
static span span_of(const bw_property *library, span group)
{
    if (library->known && library->has_range)
        return (span){library->low, library->high};
    return group;
}

/* A resistance given for a thickness is a conductivity in disguise. */
static void check_implied_lambda(review *v, const bw_layer *layer, span limit)
{
    const bw_property *r = &layer->resistance;
    /* none at all is said on purpose */
    if (!r->known || r->value <= 0.0 || layer->thickness <= 0.0 ||
        layer->kind != BW_LAYER_SOLID)
        return;
    if (r->value * limit.low <= 2.0 * layer->thickness &&
        r->value * limit.high >= 0.5 * layer->thickness)
        return;
    bw_add_note(v->r, BW_NOTE_WARNING, v->node,
                "<%s> resistance=\"%.40s\" means lambda = %s W/(m.K) at this "
                "thickness; plausible for %s is %s to %s. Is it right?",
                bw_xml_name(v->node), bw_xml_value(v->node, "resistance"),
                BW_NUMBER_G(layer->thickness / r->value, 3), v->of,
                BW_NUMBER_G(limit.low, 4), BW_NUMBER_G(limit.high, 4));
}

/* An sd given for a thickness is a mu in disguise. */
static void check_implied_mu(review *v, const bw_layer *layer, span limit)
{
    const bw_property *sd = &layer->material->sd;
    if (!sd->known || sd->basis != BW_BASIS_GIVEN || layer->thickness <= 0.0 ||
        layer->kind != BW_LAYER_SOLID)
        return;
    double implied = sd->value / layer->thickness;
    if (implied >= 0.5 * limit.low && implied <= 2.0 * limit.high)
        return;
    bw_add_note(v->r, BW_NOTE_WARNING, v->node,
                "<%s> the sd-value given means mu = %s at this thickness; "
                "plausible for %s is %s to %s. Was a mu given as sd?",
                bw_xml_name(v->node), BW_NUMBER_G(implied, 3), v->of,
                BW_NUMBER_G(limit.low, 4), BW_NUMBER_G(limit.high, 4));
}

/* Values that the simulation cannot take side by side: it is said which one
 * gives way. */
static void check_pores(review *v, const bw_material *m)
{
    const char *free_text = bw_xml_value(v->node, "free-saturation");
    const double taken = m->free_saturation.value; /* kg/m3 */
    const size_t points = m->sorption.count;
    const double air = points > 0 && m->density.known
                           ? m->sorption.y[points - 1] * m->density.value
                           : 0.0;
    if (free_text != NULL && taken <= 1.001 * air)
        bw_add_note(v->r, BW_NOTE_WARNING, v->node,
                    "<%s> free-saturation=\"%.40s\" is no more than it takes "
                    "up from damp air by its sorption curve, %s kg/m3: it is "
                    "not used, the simulation takes an estimate. Is it right?",
                    bw_xml_name(v->node), free_text, BW_NUMBER_G(air, 4));
    if ((free_text != NULL || bw_xml_value(v->node, "porosity") != NULL) &&
        m->porosity.known && m->free_saturation.known &&
        taken > WATER * m->porosity.value)
        bw_add_note(v->r, BW_NOTE_WARNING, v->node,
                    "<%s> its free saturation, %s kg/m3, is more than its "
                    "pores hold by its porosity, which is not used. Is it "
                    "right?",
                    bw_xml_name(v->node), BW_NUMBER_G(taken, 4));
}

void bw_review_layer(bw_reader *r, const bw_layer *layer,
                     const bw_material *library, const xmlNode *node)
{
    const bw_material *m = layer->material;
    const span any = {0.0, 1e300};
    review v = {.r = r, .node = node};
    span thickness = any, lambda = any, mu = any, sd = any;
    for (size_t i = 0; i < BW_COUNT(groups); i++) {
        if (strcmp(groups[i].group, m->group) != 0)
            continue;
        thickness = groups[i].thickness;
        lambda = groups[i].lambda;
        mu = groups[i].mu;
    }
    if (library != NULL && library->remark_warns)
        bw_add_note(r, BW_NOTE_WARNING, node, "%s: %s", library->name,
                    library->remark);
    snprintf(v.of, sizeof v.of, "the group %s", m->group);
    check_span(&v, "thickness", layer->thickness, thickness, 1e3, " mm");
    if (library != NULL) {
        snprintf(v.of, sizeof v.of, "%s", library->name);
        lambda = span_of(&library->thermal_conductivity, lambda);
        mu = span_of(&library->mu_dry, mu);
        sd = span_of(&library->sd, any);
        check_span(&v, "density", m->density.value,
                   span_of(&library->density, any), 1.0, " kg/m3");
        check_span(&v, "specific-heat", m->specific_heat.value,
                   span_of(&library->specific_heat, any), 1.0, " J/(kg.K)");
    }
    check_span(&v, "lambda", m->thermal_conductivity.value, lambda, 1.0,
               " W/(m.K)");
    check_span(&v, "mu", m->mu_dry.value, mu, 1.0, "");
    check_span(&v, "vapour-resistivity", m->mu_dry.value, mu, 5.0,
               " MN.s/(g.m)");
    check_span(&v, "sd", m->sd.value, sd, 1.0, " m");
    check_span(&v, "vapour-resistance", m->sd.value, sd, 5.0, " MN.s/g");
    check_span(&v, "permeance", m->sd.value, sd, 1.0, " m of sd");
    check_pores(&v, m);
    check_implied_mu(&v, layer, mu);
    check_implied_lambda(&v, layer, lambda);
}

/* ---- the build-up ------------------------------------------------------ */

/* Appends to a fixed buffer, cutting. */
static void append(char *buffer, size_t size, const char *text)
{
    size_t used = strlen(buffer);
    snprintf(buffer + used, size - used, "%s", text);
}

static void note_order(bw_reader *r)
{
    const bw_assembly *a = r->assembly;
    char text[480] = "";
    for (size_t i = 0; i < a->layer_count; i++) {
        if (strlen(text) > sizeof text - 80) {
            append(text, sizeof text, ", ...");
            break;
        }
        append(text, sizeof text, i > 0 ? ", " : "");
        append(text, sizeof text, a->layer[i].name);
    }
    bw_add_note(r, BW_NOTE_INFO, NULL,
                "listed %s; understood from outside to inside: %s",
                a->listed_outside_to_inside ? "outside-to-inside"
                                            : "inside-to-outside",
                text);
}

static bool is_lining(const bw_layer *layer)
{
    static const char *const words[] = {"gypsum",    "plasterboard",
                                        "lining",    "clay-plaster",
                                        "wallpaper", "paint-emulsion"};
    for (size_t i = 0; i < BW_COUNT(words); i++)
        if (strstr(layer->material->id, words[i]) != NULL ||
            strstr(layer->id, words[i]) != NULL)
            return true;
    return false;
}

/* The solid layer nearest to one face. */
static const bw_layer *outermost(const bw_assembly *a)
{
    for (size_t i = 0; i < a->layer_count; i++)
        if (a->layer[i].kind == BW_LAYER_SOLID)
            return &a->layer[i];
    return NULL;
}

static void note_reversed(bw_reader *r, const bw_sections *drawn,
                          const bw_sections *kept)
{
    const bw_layer *outer = outermost(r->assembly);
    const char *listed = r->assembly->listed_outside_to_inside
                             ? "outside-to-inside"
                             : "inside-to-outside";
    if (outer != NULL && is_lining(outer)) {
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "the build-up looks reversed: %s, an inner lining, is "
                    "outermost; was listed=\"%s\" meant?",
                    outer->name, listed);
        return;
    }
    double inside = 0.0, all = 0.0;
    const bw_section *in = &drawn->section[0], *every = &kept->section[0];
    for (size_t i = 0; i < in->slab_count; i++)
        inside += in->slab[i].resistance;
    for (size_t i = 0; i < every->slab_count; i++)
        all += every->slab[i].resistance;
    if (in->dropped_layers > 0 && inside < 0.5 * all)
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "the build-up looks reversed: most of the insulation lies "
                    "outside the well-ventilated cavity, where it counts for "
                    "nothing; was listed=\"%s\" meant?",
                    listed);
}

/* Vapour resistance on either side of the main insulation. */
static void note_sd(bw_reader *r, const bw_section *section)
{
    bw_geography geography;
    bw_geography_find(&geography, r->assembly, section);
    size_t k = geography.insulation;
    double outside = 0.0, inside = 0.0, wet_outside = 0.0, wet_inside = 0.0;
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *s = &section->slab[i];
        outside += i < k ? s->sd_dry : 0.0;
        inside += i > k ? s->sd_dry : 0.0;
        wet_outside += i < k ? s->sd_wet : 0.0;
        wet_inside += i > k ? s->sd_wet : 0.0;
    }
    const char *in = BW_NUMBER_G(inside, 3);
    const char *out = BW_NUMBER_G(outside, 3);
    if (inside < outside)
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "vapour enters more easily than it leaves: sd is %s m "
                    "inside of %s and %s m outside of it",
                    in, section->slab[k].label, out);
    const double tight = 10.0; /* m: hardly dries through within a year */
    if (wet_outside >= tight && wet_inside >= tight)
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "tight on both sides of %s (sd %s m inside, %s m "
                    "outside): what gets wet there can hardly dry",
                    section->slab[k].label, in, out);
}

/* ---- ranges and framing ------------------------------------------------ */

static void note_ranges(bw_reader *r, const bw_layer *layer)
{
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        const bw_uncertain *u = &layer->uncertain[i];
        double value = bw_layer_value(layer, bw_varied_of(u->property));
        if (!(value > 0.0) || (value >= u->low && value <= u->high))
            continue;
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "line %ld: the value taken for %s of %s, %s, lies outside "
                    "its own uncertain range",
                    layer->line, u->property, layer->name,
                    BW_NUMBER_G(value, 4));
    }
}

static void note_framing(bw_reader *r)
{
    size_t framed = 0;
    for (size_t i = 0; i < r->assembly->layer_count; i++)
        framed += r->assembly->layer[i].framing.present;
    if (framed > 1)
        bw_add_note(r, BW_NOTE_INFO, NULL,
                    "framing in %zu layers is taken to coincide: the section "
                    "through a stud meets all of it",
                    framed);
}

/* Cladding outside a well-ventilated cavity is weathered anyway; what else
 * stands there is not judged by the steady methods. */
static void note_outside(bw_reader *r, const bw_section *open)
{
    char text[400] = "";
    for (size_t i = 0; i < open->dropped_layers; i++) {
        const bw_layer *layer = &r->assembly->layer[i];
        const bw_material *m = layer->material;
        if (layer->kind != BW_LAYER_SOLID ||
            !(layer->framing.present || m->wood_kind == BW_WOOD_PANEL ||
              strcmp(m->group, "insulation") == 0) ||
            strlen(text) > sizeof text - 120)
            continue;
        append(text, sizeof text, text[0] != '\0' ? ", " : "");
        append(text, sizeof text, layer->name);
    }
    if (text[0] != '\0')
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "insulation, framing or wood-based panels stand outside "
                    "the well-ventilated cavity, where the monthly and the "
                    "period method leave them out and nothing judges them: %s",
                    text);
}

/* A word that keeps all rain off a face that would drink it. */
static void note_no_rain(bw_reader *r)
{
    const bw_layer *outer = outermost(r->assembly);
    const bw_outdoors *o = &r->assembly->outdoors;
    if (outer != NULL && o->has_driving_rain &&
        o->driving_rain == BW_RAIN_NONE && outer->material->absorbs_condensate)
        bw_add_note(r, BW_NOTE_WARNING, NULL,
                    "driving-rain=\"none\": no rain ever wets %s, which would "
                    "take it up; right only well under cover",
                    outer->name);
}

bw_status bw_review_assembly(bw_reader *r)
{
    const bw_section_options all = {.keep_all_layers = true};
    bw_sections *drawn, *kept;
    note_order(r);
    note_framing(r);
    note_no_rain(r);
    for (size_t i = 0; i < r->assembly->layer_count; i++)
        note_ranges(r, &r->assembly->layer[i]);
    BW_TRY(bw_sections_make(&drawn, r->assembly, NULL, r->err));
    bw_status status = bw_sections_make(&kept, r->assembly, &all, r->err);
    if (status == BW_OK) {
        note_reversed(r, drawn, kept);
        note_sd(r, &drawn->section[0]);
        note_outside(r, &drawn->section[0]);
        bw_sections_free(kept);
    }
    bw_sections_free(drawn);
    return status;
}
