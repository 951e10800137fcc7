#include "grid.h"

#include <string.h>

enum { INDENT = 2, NOTE_INDENT = 6, LONGEST_WORD = 22, LONGEST_TITLE = 32 };

void bw_grid_start(bw_grid *grid, bw_page *page, const bw_grid_column *column,
                   size_t columns)
{
    *grid = (bw_grid){.page = page, .column = column, .columns = columns};
}

const char **bw_grid_add(bw_grid *grid)
{
    bw_grid_row *row = BW_NEW(&grid->page->arena, bw_grid_row, 1);
    if (row == NULL) {
        grid->page->no_memory = true;
        row = &grid->spare;
    } else {
        if (grid->last != NULL)
            grid->last->next = row;
        else
            grid->first = row;
        grid->last = row;
    }
    for (size_t i = 0; i < BW_GRID_COLUMNS; i++)
        row->cell[i] = "";
    return row->cell;
}

void bw_grid_note(bw_grid *grid, const char *text)
{
    bw_grid_row *row = grid->last;
    if (row != NULL && row->notes < BW_GRID_NOTES && text[0] != '\0')
        row->note[row->notes++] = text;
}

static size_t longest_word(const char *text)
{
    size_t longest = 0;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        size_t columns = bw_columns(text, length);
        if (columns > longest)
            longest = columns;
        text += length;
        text += strspn(text, " ");
    }
    return longest;
}

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

/* The width each column would like and the least it can do with. */
static void measure(const bw_grid *grid, size_t *wish, size_t *least)
{
    for (size_t c = 0; c < grid->columns; c++) {
        const bw_grid_column *column = &grid->column[c];
        size_t title = longest_word(column->title);
        size_t word = title, whole = title;
        for (const bw_grid_row *row = grid->first; row != NULL;
             row = row->next) {
            const char *cell = row->cell[c];
            whole = larger(whole, bw_columns(cell, strlen(cell)));
            word = larger(word, longest_word(cell));
        }
        wish[c] = whole;
        least[c] = column->wraps ? word : whole;
        if (column->wraps && least[c] > LONGEST_WORD)
            least[c] = larger(LONGEST_WORD,
                              title < LONGEST_TITLE ? title : LONGEST_TITLE);
    }
}

static size_t width_of(const bw_grid *grid, const size_t *width)
{
    size_t total = INDENT + 2 * (grid->columns - 1);
    for (size_t c = 0; c < grid->columns; c++)
        total += width[c];
    return total;
}

/* Takes a column at a time from the widest that still may shrink. */
static void fit(const bw_grid *grid, size_t *width, const size_t *least)
{
    size_t total = width_of(grid, width);
    while (total > (size_t)grid->page->width) {
        size_t widest = BW_GRID_COLUMNS;
        for (size_t c = 0; c < grid->columns; c++)
            if (width[c] > least[c] &&
                (widest == BW_GRID_COLUMNS || width[c] > width[widest]))
                widest = c;
        if (widest == BW_GRID_COLUMNS)
            return;
        width[widest]--;
        total--;
    }
}

size_t bw_grid_least(const bw_grid *grid)
{
    size_t width[BW_GRID_COLUMNS] = {0}, least[BW_GRID_COLUMNS] = {0};
    measure(grid, width, least);
    return width_of(grid, least);
}

static void print_cell(bw_page *page, const char *text, size_t length,
                       size_t width, bool right, bool last)
{
    size_t columns = bw_columns(text, length);
    size_t pad = columns < width ? width - columns : 0;
    if (right)
        bw_write_repeat(&page->out, ' ', pad);
    bw_page_emit(page, text, length);
    if (!right && !last)
        bw_write_repeat(&page->out, ' ', pad);
}

/* One row of cells, over as many lines as its longest cell needs. */
static void print_cells(const bw_grid *grid, const char *const *cells,
                        const size_t *width)
{
    const char *rest[BW_GRID_COLUMNS] = {0};
    memcpy(rest, cells, grid->columns * sizeof *rest);
    for (bool more = grid->columns > 0; more;) {
        more = false;
        size_t last = 0;
        for (size_t c = 1; c < grid->columns; c++)
            if (rest[c][0] != '\0')
                last = c;
        bw_write_repeat(&grid->page->out, ' ', INDENT);
        for (size_t c = 0; c <= last; c++) {
            size_t skip = 0;
            size_t length = bw_line_break(rest[c], width[c], &skip);
            print_cell(grid->page, rest[c], length, width[c],
                       grid->column[c].right, c == last);
            if (c < last)
                bw_write_text(&grid->page->out, "  ");
            rest[c] += skip;
            more = more || rest[c][0] != '\0';
        }
        bw_write_text(&grid->page->out, "\n");
    }
}

void bw_grid_print(bw_grid *grid)
{
    size_t width[BW_GRID_COLUMNS] = {0}, least[BW_GRID_COLUMNS] = {0};
    const char *title[BW_GRID_COLUMNS] = {NULL};
    if (grid->page->form != NULL) {
        grid->page->form->grid(grid->page, grid);
        return;
    }
    if (grid->columns == 0)
        return;
    measure(grid, width, least);
    fit(grid, width, least);
    for (size_t c = 0; c < grid->columns; c++)
        title[c] = grid->column[c].title;
    print_cells(grid, title, width);
    bw_write_repeat(&grid->page->out, ' ', INDENT);
    bw_write_repeat(&grid->page->out, '-', width_of(grid, width) - INDENT);
    bw_write_text(&grid->page->out, "\n");
    for (const bw_grid_row *row = grid->first; row != NULL; row = row->next) {
        print_cells(grid, row->cell, width);
        for (size_t i = 0; i < row->notes; i++)
            bw_page_text(grid->page, NOTE_INDENT, NOTE_INDENT, row->note[i]);
    }
}
