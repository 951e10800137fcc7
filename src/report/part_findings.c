/* Designs against unknowns: a row a design, a column an unknown alone, a word
 * in each cell. */

#include "bothways/choose.h"

#include "chosen.h"
#include "grid.h"
#include "part.h"

enum { AT_ONCE = 11 };

/* Columns from a finding on, of those not settled; returns where they end. */
static size_t put_some(bw_page *page, const bw_chosen *c, size_t rows,
                       size_t from)
{
    bw_grid grid = {.page = page};
    size_t to = from;
    for (size_t i = 0; i < rows; i++) {
        const bw_design *d = &c->design[c->front[i]];
        size_t put = 0;
        bw_grid_row_start(&grid);
        bw_number(&grid, "No", "%zu", i + 1);
        bw_words(&grid, "Design", d->name);
        bw_name(&grid, "as drawn",
                d->as_drawn == BW_MARGINAL ? "just"
                : d->as_drawn == BW_NOT_ASSESSED
                    ? "?"
                    : bw_verdict_text(d->as_drawn));
        for (to = from; to < c->finding_count && put < AT_ONCE; to++) {
            if (c->finding[to].settled)
                continue;
            bw_name(&grid, bw_finding_letter(page, to),
                    bw_found_word(&d->found[to]));
            put++;
        }
        bw_number(&grid, "failed, drawn", "%s", bw_drawn_words(page, c, d));
    }
    bw_grid_print(&grid);
    return to;
}

BW_PART(choose_findings, "Designs against what may be found, each alone")
{
    const bw_chosen *c = of->chosen;
    const size_t rows = bw_front_shown(page, c);
    if (rows == 0)
        return;
    size_t from = put_some(page, c, rows, 0);
    while (from < c->finding_count)
        from = put_some(page, c, rows, from);
    for (size_t f = 0; f < c->finding_count; f++)
        if (!c->finding[f].settled)
            bw_hang(page, "%s  %s: %s", bw_finding_letter(page, f),
                    bw_finding_words(page, &c->finding[f]),
                    c->finding[f].asked > 0
                        ? bw_phrase(page, "breaks %zu of %zu",
                                    c->finding[f].broken, c->finding[f].asked)
                        : "not tried, the months know nothing of it");
    bw_text(page, "The worse end of each counts. just: holds, marginally. ?: "
                  "not assessed, ?fails: its numbers would fail. -: this "
                  "design has no such thing.");
}
