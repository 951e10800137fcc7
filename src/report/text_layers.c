/* The build-up as it was understood, and its thermal resistance. */

#include "grid.h"
#include "layers.h"
#include "names.h"
#include "parts.h"

static const bw_grid_column columns[] = {
    {.title = "No.", .right = true},
    {.title = "Layer", .wraps = true},
    {.title = "mm", .right = true},
    {.title = "lambda W/(m.K)", .right = true},
    {.title = "R m2.K/W", .right = true},
    {.title = "mu", .right = true},
    {.title = "sd m", .right = true},
    {.title = "sum of sd m", .right = true},
    {.title = "Evidence"},
};

/* An "e" behind the figures of an estimate. */
static const char *marked(bw_page *page, const char *text,
                          const bw_property *from, bool *marks)
{
    if (!bw_is_estimate(from))
        return text;
    *marks = true;
    return bw_phrase(page, "%s e", text);
}

static const char *own_name(bw_page *page, const bw_slab *slab,
                            const bw_layer *layer)
{
    if (slab->is_framing)
        return bw_phrase(page, "%s, framing of %s", slab->material->name,
                         layer->name);
    return layer->name;
}

static void add_slab(bw_page *page, bw_grid *grid,
                     const bw_assessment *assessment,
                     const bw_section_assessment *section, size_t index,
                     double *sum, bool *marks)
{
    const bw_slab *slab = &section->section->slab[index];
    bw_slab_values v = bw_slab_look(assessment->assembly, section, index);
    *sum += v.sd;
    const char **cell = bw_grid_add(grid);
    cell[0] = bw_phrase(page, "%zu", slab->layer + 1);
    cell[1] = own_name(page, slab, v.layer);
    cell[2] = slab->thickness > 0.0
                  ? bw_significant(page, slab->thickness * 1000.0, 4)
                  : "-";
    cell[3] = v.has_lambda ? marked(page, bw_significant(page, v.lambda, 3),
                                    v.lambda_from, marks)
                           : "-";
    cell[4] = bw_fixed(page, v.resistance, 3);
    cell[5] = v.has_mu ? marked(page, bw_significant(page, v.mu, 3),
                                v.vapour_from, marks)
                       : "-";
    cell[6] = bw_significant(page, v.sd, 3);
    if (v.variable)
        cell[6] = bw_phrase(page, "%s *", cell[6]);
    else if (!v.has_mu)
        cell[6] = marked(page, cell[6], v.vapour_from, marks);
    cell[7] = bw_significant(page, *sum, 3);
    cell[8] = bw_evidence_text(v.layer->evidence);
    bw_grid_note(grid, bw_slab_sources(page, &v, true));
}

static bool print_section(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section)
{
    const bw_section *s = section->section;
    bool marks = false, variable = false;
    double sum = 0.0;
    bw_grid grid;
    if (assessment->section_count > 1)
        bw_page_subheading(
            page, bw_phrase(page, "Section %s, %s %% of the area", s->name,
                            bw_fixed(page, s->fraction * 100.0, 1)));
    bw_grid_start(&grid, page, columns, sizeof columns / sizeof columns[0]);
    for (size_t i = 0; i < s->slab_count; i++) {
        add_slab(page, &grid, assessment, section, i, &sum, &marks);
        variable = variable || s->slab[i].sd_curve != NULL;
    }
    bw_grid_print(&grid);
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "Surface resistances of the moisture check: outside "
                           "%s, inside %s m2.K/W.",
                           bw_fixed(page, s->outer_resistance, 2),
                           bw_fixed(page, s->inner_resistance, 2)));
    if (variable)
        bw_page_text(page, 2, 2,
                     "*: changes with humidity; month by month below.");
    return marks;
}

static bool has_blocked(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].section->cavity_blocked)
            return true;
    return false;
}

static void print_dropped(bw_page *page, const bw_assessment *assessment)
{
    size_t dropped = assessment->section[0].section->dropped_layers;
    const char *names = "";
    for (size_t i = 0; i < dropped; i++)
        names = bw_phrase(page, "%s%s%s", names, i > 0 ? ", " : "",
                          assessment->assembly->layer[i].name);
    if (dropped > 0)
        bw_page_text(
            page, 2, 2,
            bw_phrase(page,
                      "Left out of the calculation, which ends at the "
                      "well-ventilated cavity%s: %s.",
                      has_blocked(assessment) ? " where that is open" : "",
                      names));
}

void bw_print_layers(bw_page *page, const bw_assessment *assessment)
{
    bool marks = false;
    bw_page_heading(page, "Layers, from outside to inside");
    bw_page_text(page, 2, 2,
                 assessment->assembly->listed_outside_to_inside
                     ? "Understood as the file lists them: outside first."
                     : "The file lists them inside first; turned round here.");
    if (assessment->section_count == 0)
        return;
    print_dropped(page, assessment);
    for (size_t i = 0; i < assessment->section_count; i++)
        if (print_section(page, assessment, &assessment->section[i]))
            marks = true;
    if (marks)
        bw_page_text(page, 2, 2,
                     "e: an estimate of this project, no publication at "
                     "hand. Replace it where it decides something.");
    if (assessment->assumed_count > 0)
        bw_page_text(
            page, 2, 2,
            bw_phrase(page,
                      "%zu layer%s only assumed: nobody has looked or "
                      "measured.",
                      assessment->assumed_count,
                      assessment->assumed_count == 1 ? " is" : "s are"));
}

void bw_print_thermal(bw_page *page, const bw_assessment *assessment)
{
    const bw_thermal_result *t = &assessment->thermal;
    bw_page_heading(page, "Thermal transmittance (ISO 6946)");
    bw_page_text(page, 2, 2,
                 bw_phrase(page, "U = %s W/(m2.K), R = %s m2.K/W",
                           bw_fixed(page, t->transmittance, 3),
                           bw_fixed(page, t->resistance, 3)));
    if (t->section_count < 2)
        return;
    for (size_t i = 0; i < t->section_count; i++)
        bw_page_text(
            page, 2, 2,
            bw_phrase(page, "Path %zu: R = %s m2.K/W on %s %% of the area",
                      i + 1, bw_fixed(page, t->section_resistance[i], 3),
                      bw_fixed(page, t->section_fraction[i] * 100.0, 1)));
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "Combined method: R between %s and %s m2.K/W, "
                           "uncertainty %s %%.%s",
                           bw_fixed(page, t->lower_limit, 3),
                           bw_fixed(page, t->upper_limit, 3),
                           bw_fixed(page, t->error * 100.0, 1),
                           t->applicable ? ""
                                         : " The limits differ by more than "
                                           "half: the method does not apply, "
                                           "calculate this wall numerically."));
}
