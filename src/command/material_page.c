#include "material_page.h"

#include <string.h>

#include "emit.h"
#include "fail.h"
#include "grid.h"
#include "page.h"
#include "properties.h"
#include "terminal.h"

static void start(bw_page *page, bw_output *output, const settings *given)
{
    *page = (bw_page){.width = terminal_width(given),
                      .colour = terminal_colour(given)};
    bw_writer_start(&page->out, bw_output_write, output);
}

static bw_status finish(bw_page *page, const bw_output *output, bw_error *err)
{
    bool written = bw_writer_finish(&page->out);
    bw_arena_release(&page->arena);
    if (page->no_memory)
        return bw_fail_memory(err);
    if (!written)
        return bw_fail(err, BW_ERR_IO, output->path, 0, "cannot write this: %s",
                       strerror(output->fault));
    return BW_OK;
}

static const bw_grid_column columns[] = {
    {.title = "Id"},
    {.title = "Name", .wraps = true},
    {.title = "kg/m3", .right = true},
    {.title = "lambda W/(m.K)", .right = true},
    {.title = "mu dry", .right = true},
    {.title = "mu wet", .right = true},
    {.title = "sd m", .right = true},
};

static const char *figure(bw_page *page, const bw_property *property)
{
    return property->known ? bw_significant(page, property->value, 3) : "-";
}

static void add_row(bw_page *page, bw_grid *grid, const bw_material *material)
{
    const char **cell = bw_grid_add(grid);
    cell[0] = material->id;
    cell[1] = material->name;
    cell[2] = figure(page, &material->density);
    cell[3] = figure(page, &material->thermal_conductivity);
    cell[4] = figure(page, &material->mu_dry);
    cell[5] = figure(page, &material->mu_wet);
    cell[6] = material->sd_curve.count > 0 ? "by humidity"
                                           : figure(page, &material->sd);
}

static void print_list(bw_page *page, const bw_library *library,
                       material_chosen *choose, const char *word)
{
    size_t count = bw_library_count(library), i = 0;
    while (i < count) {
        const char *group = bw_library_at(library, i)->group;
        bw_grid grid;
        bw_grid_start(&grid, page, columns, sizeof columns / sizeof *columns);
        for (; i < count; i++) {
            const bw_material *material = bw_library_at(library, i);
            if (strcmp(material->group, group) != 0)
                break;
            if (choose(material, word))
                add_row(page, &grid, material);
        }
        if (grid.first == NULL)
            continue;
        bw_page_subheading(page, group);
        bw_grid_print(&grid);
    }
}

/* The chosen ones, for programs. */
static bw_status put_data(bw_output *output, const settings *given,
                          const bw_library *library, material_chosen *choose,
                          const char *word, bw_error *err)
{
    bw_arena arena = {NULL};
    const size_t all = bw_library_count(library);
    const bw_material **chosen = BW_NEW(&arena, const bw_material *, all + 1);
    bw_results results = {.material = chosen};
    if (chosen == NULL)
        return bw_fail_memory(err);
    for (size_t i = 0; i < all; i++)
        if (choose(bw_library_at(library, i), word))
            chosen[results.material_count++] = bw_library_at(library, i);
    bw_status status = emit_data(output, given, &results, BW_TABLE_MATERIALS,
                                 err);
    bw_arena_release(&arena);
    return status;
}

bw_status material_list(bw_output *output, const settings *given,
                        const bw_library *library, material_chosen *choose,
                        const char *word, bw_error *err)
{
    bw_page page;
    if (given->format != FORMAT_TEXT)
        return put_data(output, given, library, choose, word, err);
    start(&page, output, given);
    print_list(&page, library, choose, word);
    return finish(&page, output, err);
}

static void show_property(bw_page *page, const char *what, const char *unit,
                          const bw_property *property)
{
    if (!property->known)
        return;
    const char *range = property->has_range
                            ? bw_phrase(page, " (plausible %s to %s)",
                                        bw_significant(page, property->low, 3),
                                        bw_significant(page, property->high, 3))
                            : "";
    bw_page_text(page, 2, 4,
                 bw_phrase(page, "%s: %s%s%s%s", what,
                           bw_significant(page, property->value, 4),
                           unit[0] != '\0' ? " " : "", unit, range));
    bw_page_text(page, 6, 6,
                 bw_phrase(page, "%s; evidence %s; source: %s",
                           bw_basis_text(property->basis),
                           bw_evidence_text(property->evidence),
                           property->source));
    if (property->note[0] != '\0')
        bw_page_text(page, 6, 6, property->note);
}

static void show_curve(bw_page *page, const char *what, const char *unit,
                       double x_scale, const bw_curve *curve)
{
    if (curve->count == 0)
        return;
    const char *points = "";
    for (size_t i = 0; i < curve->count; i++)
        points = bw_phrase(page, "%s%s%s %%: %s", points, i > 0 ? ", " : "",
                           bw_significant(page, curve->x[i] * x_scale, 3),
                           bw_significant(page, curve->y[i], 3));
    bw_page_text(page, 2, 4, bw_phrase(page, "%s, %s: %s", what, unit, points));
    bw_page_text(page, 6, 6,
                 bw_phrase(page, "%s; source: %s", bw_basis_text(curve->basis),
                           curve->source));
    if (curve->note[0] != '\0')
        bw_page_text(page, 6, 6, curve->note);
}

static void show_flags(bw_page *page, const bw_material *material)
{
    bw_page_text(
        page, 2, 4,
        bw_phrase(
            page,
            "Hygroscopic: %s; face absorbs condensate: %s; wood: %s; mould "
            "sensitivity: %s",
            material->hygroscopic ? "yes" : "no",
            material->absorbs_condensate ? "yes" : "no",
            bw_wood_kind_text(material->wood_kind),
            bw_mould_class_text(material->mould_class)));
    bw_page_text(page, 6, 6,
                 bw_phrase(page, "source: %s", material->flags_source));
}

bw_status material_show(bw_output *output, const settings *given,
                        const bw_material *material, bw_error *err)
{
    bw_page page;
    start(&page, output, given);
    bw_page_bold(&page, true);
    bw_page_text(&page, 0, 2,
                 bw_phrase(&page, "%s: %s (%s)", material->id, material->name,
                           material->group));
    bw_page_bold(&page, false);
    if (material->remark[0] != '\0')
        bw_page_text(&page, 2, 2, material->remark);
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property_row *row = &bw_property_rows[i];
        bool factor = i == BW_PROPERTY_CONDUCTIVITY_FACTOR;
        show_property(&page,
                      !factor ? row->title
                      : material->conductivity_rule == BW_CONDUCTIVITY_F_PSI
                          ? "Moisture factor of conductivity, f_psi"
                          : "Moisture factor of conductivity, f_u",
                      row->unit, bw_property_in(material, (bw_property_id)i));
    }
    show_curve(&page, "Sorption", "kg/kg at RH", 100.0, &material->sorption);
    show_curve(&page, "sd", "m at mean RH", 100.0, &material->sd_curve);
    show_curve(&page, "mu", "at RH", 100.0, &material->mu_curve);
    show_flags(&page, material);
    bw_page_text(&page, 2, 2,
                 bw_phrase(&page, "In %s:%ld", material->file, material->line));
    return finish(&page, output, err);
}
