/* The build-up as it was understood, and its thermal resistance. */

#include "grid.h"
#include "layers.h"
#include "part.h"

/* An "e" behind the figures of an estimate. */
static const char *mark(const bw_property *from, bool *marks)
{
    const bool marked = bw_is_estimate(from);
    *marks = *marks || marked;
    return marked ? " e" : "";
}

static const char *own_name(bw_page *page, const bw_slab *slab,
                            const bw_layer *layer)
{
    if (slab->is_framing)
        return bw_phrase(page, "%s, framing of %s", slab->material->name,
                         layer->name);
    return layer->name;
}

typedef struct build_up {
    bw_grid grid;
    double sd; /* m, of the layers so far */
    bool marks, variable;
} build_up;

static void add_slab(bw_page *page, build_up *to,
                     const bw_assessment *assessment,
                     const bw_section_assessment *section, size_t index)
{
    bw_grid *g = &to->grid;
    const bw_slab *slab = &section->section->slab[index];
    const bw_slab_values v = bw_slab_look(assessment->assembly, section, index);
    to->sd += v.sd;
    to->variable = to->variable || v.curve != NULL;
    bw_grid_row_start(g);
    bw_number(g, "No.", "%zu", slab->layer + 1);
    bw_words(g, "Layer", own_name(page, slab, v.layer));
    bw_number(g, "mm", "%.4g",
              bw_if(slab->thickness > 0.0, 1e3 * slab->thickness));
    bw_number(g, "lambda W/(m.K)", "%.3g%s", bw_if(v.has_lambda, v.lambda),
              v.has_lambda ? mark(v.lambda_from, &to->marks) : "");
    bw_number(g, "R m2.K/W", "%.3f", v.resistance);
    bw_number(g, "mu", "%.3g%s", bw_if(v.has_mu, v.mu),
              v.has_mu ? mark(v.vapour_from, &to->marks) : "");
    bw_number(g, "sd m", "%.3g%s", v.sd,
              v.curve != NULL ? " *"
              : !v.has_mu     ? mark(v.vapour_from, &to->marks)
                              : "");
    bw_number(g, "sum of sd m", "%.3g", to->sd);
    bw_name(g, "Evidence", bw_evidence_text(v.layer->evidence));
    bw_remark(g, "%s", bw_slab_sources(page, &v, true));
}

static bool put_section(bw_page *page, const bw_assessment *assessment,
                        const bw_section_assessment *section)
{
    const bw_section *s = section->section;
    build_up all = {.grid = {.page = page}};
    if (assessment->section_count > 1)
        bw_subheading(page, "Section %s, %.1f %% of the area", s->name,
                      s->fraction * 100.0);
    for (size_t i = 0; i < s->slab_count; i++)
        add_slab(page, &all, assessment, section, i);
    bw_grid_print(&all.grid);
    bw_text(page,
            "Surface resistances of the moisture check: outside %.2f, inside "
            "%.2f m2.K/W.",
            s->outer_resistance, s->inner_resistance);
    if (all.variable)
        bw_text(page, "*: changes with humidity; month by month below.");
    return all.marks;
}

static bool has_blocked(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].section->cavity_blocked)
            return true;
    return false;
}

static void say_dropped(bw_page *page, const bw_assessment *assessment)
{
    size_t dropped = assessment->section[0].section->dropped_layers;
    const char *names = "";
    for (size_t i = 0; i < dropped; i++)
        names = bw_phrase(page, "%s%s%s", names, i > 0 ? ", " : "",
                          assessment->assembly->layer[i].name);
    if (dropped > 0)
        bw_text(
            page,
            "Left out of the calculation, which ends at the well-ventilated "
            "cavity%s: %s.",
            has_blocked(assessment) ? " where that is open" : "", names);
}

BW_PART(layers, "Layers, from outside to inside")
{
    const bw_assessment *assessment = of->wall[0];
    bool marks = false;
    bw_text(page, "%s",
            assessment->assembly->listed_outside_to_inside
                ? "Understood as the file lists them: outside first."
                : "The file lists them inside first; turned round here.");
    if (assessment->section_count == 0)
        return;
    say_dropped(page, assessment);
    for (size_t i = 0; i < assessment->section_count; i++)
        if (put_section(page, assessment, &assessment->section[i]))
            marks = true;
    if (marks)
        bw_text(page, "e: an estimate of this project, no publication at hand. "
                      "Replace it where it decides something.");
    if (assessment->assumed_count > 0)
        bw_text(page,
                "%zu layer%s only assumed: nobody has looked or measured.",
                assessment->assumed_count,
                assessment->assumed_count == 1 ? " is" : "s are");
}

BW_PART(thermal, "Thermal transmittance (ISO 6946)")
{
    const bw_thermal_result *t = &of->wall[0]->thermal;
    bw_text(page, "U = %.3f W/(m2.K), R = %.3f m2.K/W", t->transmittance,
            t->resistance);
    if (t->section_count < 2)
        return;
    for (size_t i = 0; i < t->section_count; i++)
        bw_text(page, "Path %zu: R = %.3f m2.K/W on %.1f %% of the area", i + 1,
                t->section_resistance[i], t->section_fraction[i] * 100.0);
    bw_text(page,
            "Combined method: R between %.3f and %.3f m2.K/W, uncertainty %.1f "
            "%%.%s",
            t->lower_limit, t->upper_limit, t->error * 100.0,
            t->applicable ? ""
                          : " The limits differ by more than "
                            "half: the method does not apply, "
                            "calculate this wall numerically.");
}
