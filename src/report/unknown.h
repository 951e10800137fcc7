#ifndef BW_REPORT_UNKNOWN_H
#define BW_REPORT_UNKNOWN_H

/* How the unknowns of a margin, and the walls they make, are called. */

#include "bothways/margin.h"
#include "grid.h"

/* The words of a verdict are the simulation's alone: what the steady methods
 * say is what would be. */
const char *bw_would(bool simulated, bw_verdict verdict);

/* "holds", "is not assessed": what the wall does. */
const char *bw_does(const bw_margin *m, bw_verdict verdict);

/* "1 criterion fails", "2 criteria fail" */
const char *bw_fail_count(bw_page *page, size_t count);

/* "period-balance 0.12 kg/m2 (limit 0.5)" */
const char *bw_figure_words(bw_page *page, const bw_figure *f);

/* "the wall holds, 0 criteria fail; closest is surface-mould": the worst
 * combination. */
const char *bw_worst_words(bw_page *page, const bw_margin *m);

/* As drawn, from to, unit. */
void bw_range_cells(bw_page *page, bw_grid *grid, const bw_unknown *u);

/* A cell of the sd map with less reserve than is asked. */
bool bw_cell_lacks(const bw_margin *m, const bw_sd_cell *cell);

/* What the one nearest to the wall as drawn has. */
const char *bw_own_cell_text(bw_page *page, const bw_margin *m);

#endif
