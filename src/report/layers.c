#include "layers.h"

/* What the table of layers shows of a slab: R = d / lambda or as stated; sd of
 * the cup that ruled. */

bw_slab_values bw_slab_look(const bw_assembly *assembly,
                            const bw_section_assessment *section, size_t slab)
{
    const bw_slab *s = &section->section->slab[slab];
    const bw_layer *layer = &assembly->layer[s->layer];
    const bw_material *material = s->material;
    const bw_monthly_result *design = &section->run[BW_RUN_DESIGN].result;
    bool wet = design->used_wet != NULL && slab < design->slab_count &&
               design->used_wet[slab];
    bw_slab_values v = {.layer = layer,
                        .resistance = s->resistance,
                        .sd = wet ? s->sd_wet : s->sd_dry,
                        .curve = s->sd_curve};
    bool own_resistance = layer->resistance.known && !s->is_framing;
    if (s->kind == BW_LAYER_SOLID && !own_resistance &&
        material->thermal_conductivity.known) {
        v.has_lambda = true;
        v.lambda = material->thermal_conductivity.value;
        v.lambda_from = &material->thermal_conductivity;
    } else if (own_resistance) {
        v.lambda_from = &layer->resistance;
    }
    v.vapour_from = wet ? s->wet_from : s->dry_from;
    if (v.vapour_from != NULL && s->vapour == BW_VAPOUR_MU &&
        s->thickness > 0.0) {
        v.has_mu = true;
        v.mu = v.sd / s->thickness;
    }
    return v;
}

bool bw_is_estimate(const bw_property *property)
{
    return property != NULL && property->known &&
           property->basis == BW_BASIS_ESTIMATE;
}

/* Sources of one slab, gathered into one string. */
typedef struct gathered {
    bw_page *page;
    bool cite;
    const char *text;
} gathered;

static void gather(gathered *to, const char *what, const char *source,
                   const char *basis)
{
    bw_page *page = to->page;
    const char *named = to->cite && source[0] != '\0'
                            ? bw_page_cite(page, source)
                            : source;
    to->text = bw_phrase(
        page, "%s%s%s: %s%s%s%s%s", to->text, to->text[0] != '\0' ? "; " : "",
        what, named, named[0] != '\0' && basis[0] != '\0' ? " " : "",
        basis[0] != '\0' ? "(" : "", basis, basis[0] != '\0' ? ")" : "");
}

static void gather_property(gathered *to, const char *what,
                            const bw_property *property)
{
    gather(to, what, property->source, bw_basis_text(property->basis));
}

const char *bw_slab_sources(bw_page *page, const bw_slab_values *values,
                            bool cite)
{
    gathered to = {.page = page, .cite = cite, .text = ""};
    const bw_layer *layer = values->layer;
    const bw_curve *curve = values->curve;
    if (layer->source[0] != '\0')
        gather(&to, "layer", layer->source, "");
    if (values->lambda_from != NULL)
        gather_property(&to, values->has_lambda ? "lambda" : "resistance",
                        values->lambda_from);
    if (curve != NULL)
        gather(&to, "sd by humidity", curve->source,
               bw_basis_text(curve->basis));
    else if (values->vapour_from != NULL)
        gather_property(&to, values->has_mu ? "mu" : "sd", values->vapour_from);
    if (to.text[0] == '\0' && layer->kind == BW_LAYER_CAVITY)
        gather(&to, "still air",
               layer->emissivity > 0.0
                   ? "ISO 6946, airspace with a face of low emissivity"
                   : "ISO 6946, table of air layers",
               "");
    return to.text;
}
