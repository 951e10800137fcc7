/* The sd map of a margin. */

#include "grid.h"
#include "names.h"
#include "part.h"
#include "unknown.h"

static void add_outer(bw_page *page, bw_grid *g, const bw_margin *m,
                      size_t outer)
{
    bw_grid_row_start(g);
    bw_number(g, "outer sd \\ inner", "%.3g m", m->outer_sd[outer]);
    for (size_t i = 0; i < m->inner_count; i++) {
        const bw_sd_cell *c = &m->map[outer * m->inner_count + i];
        const char *title = bw_phrase(page, "%.3g m", m->inner_sd[i]);
        const char *text = isnan(c->reserve)
                               ? "n/a"
                               : bw_phrase(page, "%s/%s%s",
                                           bw_grams(page, c->condensed),
                                           bw_grams(page, c->reserve),
                                           bw_cell_lacks(m, c) ? "!" : "");
        if (i == m->own_inner && outer == m->own_outer)
            bw_number(g, title, "[%s]", text);
        else
            bw_number(g, title, "%s", text);
    }
}

BW_PART(map, "Inside tight or outside open: the sd map")
{
    const bw_margin *m = of->margin;
    bw_grid grid = {.page = page};
    if (m == NULL)
        return;
    if (m->inner_count == 0) {
        bw_text(page, "%s", m->map_note);
        return;
    }
    bw_text(
        page,
        "Condensate / drying reserve in g/m2 by the period balance (section "
        "%s), with the sd replaced inside (%s, across) and outside (%s, "
        "down).",
        m->map_section, bw_short_name(page, m->map_inner),
        bw_short_name(page, m->map_outer));
    for (size_t o = 0; o < m->outer_count; o++)
        add_outer(page, &grid, m, o);
    bw_grid_print(&grid);
    bw_text(page, "[ ] is nearest to this wall: %s.",
            bw_own_cell_text(page, m));
    if (m->map_limit > 0.0)
        bw_text(
            page,
            "! less reserve than the %s g/m2 asked of timber constructions.",
            bw_grams(page, m->map_limit));
    else
        bw_text(page, "! less can evaporate than condenses.");
}
