#ifndef BW_REPORT_GRID_H
#define BW_REPORT_GRID_H

/* A table that fits its page: columns of words wrap, columns of figures do
 * not, and nothing is ever cut off. */

#include "page.h"

enum { BW_GRID_COLUMNS = 16, BW_GRID_NOTES = 6 };

typedef struct bw_grid_column {
    const char *title; /* wraps at blanks; the unit comes last */
    bool right;        /* figures */
    bool wraps;        /* words that may take several lines */
} bw_grid_column;

typedef struct bw_grid_row {
    struct bw_grid_row *next;
    const char *cell[BW_GRID_COLUMNS];
    const char *note[BW_GRID_NOTES]; /* full-width lines below the row */
    size_t notes;
} bw_grid_row;

typedef struct bw_grid {
    bw_page *page;
    const bw_grid_column *column;
    size_t columns;
    bw_grid_row *first, *last;
    bw_grid_row spare; /* takes the cells when memory is short */
} bw_grid;

void bw_grid_start(bw_grid *grid, bw_page *page, const bw_grid_column *column,
                   size_t columns);

/* A new row; fill its cells, which start as "". */
const char **bw_grid_add(bw_grid *grid);

/* A sentence below the row added last. */
void bw_grid_note(bw_grid *grid, const char *text);

/* Columns of the page it takes at least. */
size_t bw_grid_least(const bw_grid *grid);

void bw_grid_print(bw_grid *grid);

#endif
