#include "grid.h"

/* Columns as wide as their widest cell, the free text taking what is left.
 *
 * Invariant: no row is wider than the page. */

void bw_grid_row_start(bw_grid *grid)
{
    bw_grid_row *row = BW_NEW(&grid->page->arena, bw_grid_row, 1);
    if (row == NULL) {
        row = &grid->spare;
        *row = (bw_grid_row){.next = NULL};
    }
    if (grid->last != NULL && row != &grid->spare)
        grid->last->next = row;
    if (grid->first == NULL)
        grid->first = row;
    grid->last = row;
    for (size_t i = 0; i < BW_GRID_COLUMNS; i++)
        row->cell[i] = "";
}

static void put(bw_grid *grid, const char *title, bw_cell_kind kind,
                const char *text)
{
    bw_grid_row *row = grid->last;
    if (row == grid->first && grid->columns < BW_GRID_COLUMNS)
        grid->column[grid->columns++] = (bw_grid_column){title, kind};
    if (row->cells < BW_GRID_COLUMNS)
        row->cell[row->cells++] = text;
}

void bw_words(bw_grid *grid, const char *title, const char *text)
{
    put(grid, title, BW_CELL_WORDS, text);
}

void bw_name(bw_grid *grid, const char *title, const char *text)
{
    put(grid, title, BW_CELL_NAME, text);
}

void bw_bar(bw_grid *grid, const char *title, const char *text)
{
    put(grid, title, BW_CELL_BAR, text);
}

void bw_number(bw_grid *grid, const char *title, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    put(grid, title, BW_CELL_FIGURE, bw_phrase_of(grid->page, format, args));
    va_end(args);
}

void bw_remark(bw_grid *grid, const char *format, ...)
{
    bw_grid_row *row = grid->last;
    va_list args;
    va_start(args, format);
    const char *text = bw_phrase_of(grid->page, format, args);
    va_end(args);
    if (row != NULL && row->notes < BW_GRID_NOTES && text[0] != '\0')
        row->note[row->notes++] = text;
}

bool bw_grid_fits(const bw_grid *grid)
{
    return grid->page->form->fits(grid);
}

void bw_grid_print(bw_grid *grid)
{
    if (grid->first == NULL)
        return;
    bw_page_begin(grid->page);
    grid->page->form->grid(grid->page, grid);
}
