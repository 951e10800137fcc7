/* The sd map of a margin and its ensemble. */

#include <math.h>

#include "bothways/margin.h"
#include "grid.h"
#include "names.h"
#include "parts.h"
#include "study_parts.h"

static const char *cell_text(bw_page *page, const bw_margin *m, size_t outer,
                             size_t inner)
{
    const bw_sd_cell *c = &m->map[outer * m->inner_count + inner];
    if (isnan(c->reserve))
        return "n/a";
    bool short_of = c->reserve < m->map_limit || c->reserve < 0.0;
    return bw_phrase(page, "%s/%s%s", bw_grams(page, c->condensed),
                     bw_grams(page, c->reserve), short_of ? "!" : "");
}

void bw_print_margin_map(bw_page *page, const bw_margin *m)
{
    bw_page_heading(page, "Inside tight or outside open: the sd map");
    if (m->inner_count == 0) {
        bw_page_text(page, 2, 2, m->map_note);
        return;
    }
    bw_grid_column column[BW_GRID_COLUMNS] = {
        {.title = "outer sd \\ inner", .right = true, .wraps = true}};
    bw_grid grid;
    for (size_t i = 0; i < m->inner_count; i++)
        column[i + 1] = (bw_grid_column){
            .title = bw_phrase(page, "%s m",
                               bw_significant(page, m->inner_sd[i], 3)),
            .right = true};
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "Condensate / drying reserve in g/m2 by the period "
                           "balance (section %s), with the sd replaced inside "
                           "(%s, across) and outside (%s, down).",
                           m->map_section, bw_short_name(page, m->map_inner),
                           bw_short_name(page, m->map_outer)));
    bw_grid_start(&grid, page, column, m->inner_count + 1);
    for (size_t o = 0; o < m->outer_count; o++) {
        const char **cell = bw_grid_add(&grid);
        cell[0] = bw_phrase(page, "%s m",
                            bw_significant(page, m->outer_sd[o], 3));
        for (size_t i = 0; i < m->inner_count; i++)
            cell[i + 1] = cell_text(page, m, o, i);
    }
    bw_grid_print(&grid);
    bw_page_text(page, 2, 2,
                 m->map_limit > 0.0
                     ? bw_phrase(page,
                                 "! less reserve than the %s g/m2 asked of "
                                 "timber constructions.",
                                 bw_grams(page, m->map_limit))
                     : "! less can evaporate than condenses.");
}

void bw_print_margin_ensemble(bw_page *page, const bw_margin *m)
{
    if (m->ensemble_count == 0)
        return;
    bw_page_heading(page, m->transient || m->simulated_count == 0
                              ? "All unknowns at random"
                              : "All unknowns at random: screening by months");
    bw_page_text(
        page, 2, 2,
        bw_phrase(page,
                  "Of %zu cases nothing fails in %zu: %s %% (standard error "
                  "%s points).",
                  m->ensemble_count, m->ensemble_holds,
                  bw_fixed(page, 100.0 * m->ensemble_share, 1),
                  bw_fixed(page, 100.0 * m->ensemble_error, 1)));
    bw_page_text(page, 2, 2,
                 "Ranges count evenly, a switch in each of its settings "
                 "equally often. This is a share of cases, no probability: "
                 "nobody knows how likely each is. The error is that of as "
                 "many independent cases, sqrt(p (1 - p)/n) with p = (k + 1)/"
                 "(n + 2).");
}
