/* The junctions that a wall names, each with its own verdict.
 *
 * Invariant: their rows are the wall's; here they are only told. */

#include "bothways/assessment.h"
#include "grid.h"
#include "part.h"

/* The coldest surface of all rooms, in its worst month. */
static const bw_surface_result *coldest_of(const bw_junction_assessment *a)
{
    const bw_surface_result *found = NULL;
    for (size_t r = 0; r < a->room_count; r++) {
        const bw_surface_result *s = &a->room[r].surface[BW_SURFACES_MOISTURE];
        if (a->room[r].room_reason == NULL &&
            (found == NULL || s->frsi < found->frsi))
            found = s;
    }
    return found;
}

BW_PART(junctions, NULL)
{
    const bw_assessment *wall = of->wall[0];
    bw_grid grid = {.page = page};
    if (wall->junction_count == 0)
        return;
    bw_lead(page, "Junctions");
    for (size_t i = 0; i < wall->junction_count; i++) {
        const bw_junction_assessment *a = wall->junction[i];
        const bw_junction_heat *h = a->heat;
        const bw_surface_result *s = coldest_of(a);
        bw_grid_row_start(&grid);
        bw_words(&grid, "Junction", a->junction->title);
        bw_words(&grid, "Verdict", bw_verdict_text(a->verdict));
        bw_words(&grid, "Surface", bw_verdict_text(a->surface_verdict));
        bw_number(&grid, "Factor", "%s",
                  s != NULL ? bw_phrase(page, "%.3f", s->frsi) : "");
        bw_number(&grid, "degC", "%s",
                  s != NULL ? bw_phrase(page, "%.1f",
                                        s->month[s->critical_month].theta_si)
                            : "");
        bw_number(&grid, "Cells", "%zu", h->cells[h->grids - 1]);
        bw_remark(&grid, "%s (%s)", a->verdict_reason, a->junction->file);
    }
    bw_grid_print(&grid);
    bw_text(page, "The wall is no better than the worst of them. Changes to "
                  "the wall are tried on the wall alone. All of one: bothways "
                  "junction FILE.");
}
