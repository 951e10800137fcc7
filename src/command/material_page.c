#include "material_page.h"

#include <string.h>

#include "emit.h"
#include "fail.h"
#include "grid.h"
#include "page.h"
#include "properties.h"
#include "terminal.h"

/* One material, and lists of them, as text, CSV or JSON, every value with its
 * source. */

static bw_status finish(bw_page *page, const bw_output *output, bw_error *err)
{
    const bool written = bw_writer_finish(&page->out);
    const bool no_memory = page->arena.failed;
    bw_arena_release(&page->arena);
    BW_TRY_MEMORY(!no_memory, err);
    if (!written)
        return bw_fail(err, BW_ERR_IO, output->path, 0, "cannot write this: %s",
                       strerror(output->fault));
    return BW_OK;
}

static void add_figure(bw_grid *grid, const char *title,
                       const bw_property *property)
{
    bw_number(grid, title, "%.3g", bw_if(property->known, property->value));
}

static void add_row(bw_grid *grid, const bw_material *material)
{
    bw_grid_row_start(grid);
    bw_name(grid, "Id", material->id);
    bw_words(grid, "Name", material->name);
    add_figure(grid, "kg/m3", &material->density);
    add_figure(grid, "lambda W/(m.K)", &material->thermal_conductivity);
    add_figure(grid, "mu dry", &material->mu_dry);
    add_figure(grid, "mu wet", &material->mu_wet);
    if (material->sd_curve.count > 0)
        bw_number(grid, "sd m", "by humidity");
    else
        add_figure(grid, "sd m", &material->sd);
}

static void print_list(bw_page *page, const bw_library *library,
                       material_chosen *choose, const char *word)
{
    size_t count = bw_library_count(library), i = 0;
    while (i < count) {
        const char *group = bw_library_at(library, i)->group;
        bw_grid grid = {.page = page};
        for (; i < count; i++) {
            const bw_material *material = bw_library_at(library, i);
            if (strcmp(material->group, group) != 0)
                break;
            if (choose(material, word))
                add_row(&grid, material);
        }
        if (grid.first == NULL)
            continue;
        bw_subheading(page, "%s", group);
        bw_grid_print(&grid);
    }
}

/* The chosen ones, for programs. */
static bw_status put_data(bw_output *output, const settings *given,
                          const bw_library *library, material_chosen *choose,
                          const char *word, bw_error *err)
{
    bw_arena arena = {0};
    const size_t all = bw_library_count(library);
    const bw_material **chosen = BW_NEW(&arena, const bw_material *, all + 1);
    bw_results results = {.material = chosen};
    BW_TRY_MEMORY(chosen != NULL, err);
    for (size_t i = 0; i < all; i++)
        if (choose(bw_library_at(library, i), word))
            chosen[results.material_count++] = bw_library_at(library, i);
    bw_status status = emit_data(bw_output_write, output, given, &results,
                                 BW_TABLE_MATERIALS, err);
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
    bw_text_start(&page, terminal_width(given), terminal_colour(given),
                  bw_output_write, output);
    print_list(&page, library, choose, word);
    return finish(&page, output, err);
}

static void show_property(bw_page *page, const char *what, const char *unit,
                          const bw_property *property)
{
    if (!property->known)
        return;
    const char *range = property->has_range
                            ? bw_phrase(page, " (plausible %.3g to %.3g)",
                                        property->low, property->high)
                            : "";
    bw_hang(page, "%s: %.4g%s%s%s", what, property->value,
            unit[0] != '\0' ? " " : "", unit, range);
    bw_deep(page, "%s; evidence %s; source: %s", bw_basis_text(property->basis),
            bw_evidence_text(property->evidence), property->source);
    if (property->note[0] != '\0')
        bw_deep(page, "%s", property->note);
}

static void show_curve(bw_page *page, const char *what, const char *unit,
                       double x_scale, const bw_curve *curve)
{
    if (curve->count == 0)
        return;
    const char *points = "";
    for (size_t i = 0; i < curve->count; i++)
        points = bw_phrase(page, "%s%s%.3g %%: %.3g", points, i > 0 ? ", " : "",
                           curve->x[i] * x_scale, curve->y[i]);
    bw_hang(page, "%s, %s: %s", what, unit, points);
    bw_deep(page, "%s; source: %s", bw_basis_text(curve->basis), curve->source);
    if (curve->note[0] != '\0')
        bw_deep(page, "%s", curve->note);
}

static void show_flags(bw_page *page, const bw_material *material)
{
    bw_hang(page,
            "Hygroscopic: %s; face absorbs condensate: %s; wood: %s; mould "
            "sensitivity: %s",
            material->hygroscopic ? "yes" : "no",
            material->absorbs_condensate ? "yes" : "no",
            bw_wood_kind_text(material->wood_kind),
            bw_mould_class_text(material->mould_class));
    bw_deep(page, "source: %s", material->flags_source);
}

bw_status material_show(bw_output *output, const settings *given,
                        const bw_material *material, bw_error *err)
{
    bw_page page;
    bw_text_start(&page, terminal_width(given), terminal_colour(given),
                  bw_output_write, output);
    bw_lead(&page, "%s: %s (%s)", material->id, material->name,
            material->group);
    if (material->also[0] != '\0')
        bw_text(&page, "Also called: %s", material->also);
    if (material->remark[0] != '\0')
        bw_text(&page, "%s", material->remark);
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
    bw_text(&page, "In %s:%ld", material->file, material->line);
    return finish(&page, output, err);
}
