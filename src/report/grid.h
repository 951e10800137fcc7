#ifndef BW_REPORT_GRID_H
#define BW_REPORT_GRID_H

/* A table of a report. A row is built by one call a column, each with its
 * title; the first row's calls say which columns there are. */

#include "page.h"

enum { BW_GRID_COLUMNS = 16, BW_GRID_NOTES = 6 };

typedef enum bw_cell_kind {
    BW_CELL_WORDS,  /* may take several lines */
    BW_CELL_NAME,   /* stays on one */
    BW_CELL_FIGURE, /* stands on the right */
    BW_CELL_BAR,    /* drawn of characters; a page has a chart for it */
} bw_cell_kind;

typedef struct bw_grid_column {
    const char *title; /* wraps at blanks; the unit comes last */
    bw_cell_kind kind;
} bw_grid_column;

typedef struct bw_grid_row {
    struct bw_grid_row *next;
    const char *cell[BW_GRID_COLUMNS];
    const char *note[BW_GRID_NOTES]; /* full-width lines below the row */
    size_t cells, notes;
} bw_grid_row;

/* It begins as {.page = page}. */
typedef struct bw_grid {
    bw_page *page;
    bw_grid_column column[BW_GRID_COLUMNS];
    size_t columns;
    const char *bars; /* what its bars say, or NULL; where they are drawn */
    bw_grid_row *first, *last;
    bw_grid_row spare; /* takes the cells when memory is short */
} bw_grid;

/* A new row; its cells follow in their order. */
void bw_grid_row_start(bw_grid *grid);
void bw_words(bw_grid *grid, const char *title, const char *text);
void bw_name(bw_grid *grid, const char *title, const char *text);
void bw_number(bw_grid *grid, const char *title, const char *format, ...)
    BW_PRINTF(3, 4);
void bw_bar(bw_grid *grid, const char *title, const char *text);

/* A sentence below the row added last; none where it is "". */
void bw_remark(bw_grid *grid, const char *format, ...) BW_PRINTF(2, 3);

/* False: the writer has no room for so many columns. */
bool bw_grid_fits(const bw_grid *grid);

/* Puts it down; nothing without a row. */
void bw_grid_print(bw_grid *grid);

#endif
