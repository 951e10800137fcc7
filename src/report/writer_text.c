/* A report as plain text: wrapped paragraphs, headings with a rule, tables
 * that fit the page where they can. Nothing is ever cut off. */

#include <string.h>

#include "grid.h"
#include "utf8.h"

enum { DEFAULT_WIDTH = 100, NARROWEST = 60, WIDEST = 200, LABEL = 26 };
enum { INDENT = 2, LONGEST_WORD = 22, LONGEST_TITLE = 32 };

/* ---- lines -------------------------------------------------------------- */

size_t bw_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length;) {
        unsigned code;
        const size_t count = bw_utf8_next(text + i, length - i, &code);
        columns += bw_utf8_broken(text + i, count) ? 4 * count
                   : bw_utf8_steers(code)          ? 1
                                                   : bw_utf8_columns(code);
        i += count;
    }
    return columns;
}

/* The end of what fits into width columns of this line, at least one character.
 * Looks no further, so that a long text is wrapped in time linear in it. */
static size_t fitting(const char *text, size_t width)
{
    size_t i = 0, columns = 0;
    while (text[i] != '\0') {
        unsigned code;
        size_t next = i + bw_utf8_next(text + i, strnlen(text + i, 4), &code);
        columns += bw_columns(text + i, next - i);
        if (columns > width && i > 0)
            return i;
        i = next;
    }
    return i;
}

/* Whether a blank stands within a unit, "kg/(m2 a)". */
static bool in_unit(const char *text, size_t blank)
{
    enum { LONGEST = 8 };
    const size_t least = blank > LONGEST ? blank - LONGEST : 0;
    for (size_t i = blank; i > least + 1; i--)
        if (text[i - 1] == ')')
            return false;
        else if (text[i - 1] == '(')
            return text[i - 2] == '/';
    return false;
}

size_t bw_line_break(const char *text, size_t width, size_t *skip)
{
    size_t fits = fitting(text, width), blank = fits;
    if (text[fits] == '\0') {
        *skip = fits;
        return fits;
    }
    while (blank > 0 && (text[blank] != ' ' || in_unit(text, blank)))
        blank--;
    if (blank == 0) {
        *skip = fits;
        return fits;
    }
    *skip = blank + strspn(text + blank, " ");
    while (blank > 1 && text[blank - 1] == ' ')
        blank--;
    return blank;
}

/* Bytes as they are; control characters and marks that turn the direction of
 * a line replaced. */
static void emit(bw_page *page, const char *bytes, size_t length)
{
    for (size_t i = 0; i < length;) {
        unsigned code;
        size_t count = bw_utf8_next(bytes + i, length - i, &code);
        if (bw_utf8_steers(code) && !bw_utf8_broken(bytes + i, count))
            bw_write_text(&page->out, "?");
        else
            bw_write_escaped(&page->out, bytes + i, count);
        i += count;
    }
}

/* A line is bold from its first letter to its last, never across its end. */
static void emit_line(bw_page *page, const char *bytes, size_t length,
                      bool bold)
{
    bool marked = bold && page->colour && length > 0;
    if (marked)
        bw_write_text(&page->out, "\x1b[1m");
    emit(page, bytes, length);
    if (marked)
        bw_write_text(&page->out, "\x1b[0m");
}

/* Wrapped, the first line indented by `first`, the following ones by `rest`. */
static void wrap(bw_page *page, size_t first, size_t rest, bool bold,
                 const char *text)
{
    size_t indent = first;
    do {
        size_t skip, room = (size_t)page->width - indent;
        size_t length = bw_line_break(text, room, &skip);
        bw_write_repeat(&page->out, ' ', indent);
        emit_line(page, text, length, bold);
        bw_write_text(&page->out, "\n");
        text += skip;
        indent = rest;
    } while (*text != '\0');
}

/* ---- what stands on the page -------------------------------------------- */

static void put_blank(bw_page *page)
{
    bw_write_text(&page->out, "\n");
}

static void put_heading(bw_page *page, const char *title)
{
    const char *text = bw_phrase(page, "%d  %s", page->headings, title);
    size_t length = strlen(text), columns = bw_columns(text, length);
    size_t width = (size_t)page->width;
    put_blank(page);
    if (columns + 2 >= width) {
        wrap(page, 0, 3, true, text);
        return;
    }
    emit_line(page, text, length, true);
    bw_write_text(&page->out, " ");
    bw_write_repeat(&page->out, '-', width - columns - 1);
    put_blank(page);
}

static void put_subheading(bw_page *page, const char *title)
{
    put_blank(page);
    wrap(page, 2, 4, true, title);
}

static void put_paragraph(bw_page *page, bw_style style, const char *text)
{
    static const struct {
        size_t first, rest;
        bool bold;
    } of[] = {
        [BW_STYLE_LEAD] = {0, 2, true},   [BW_STYLE_PLAIN] = {0, 2, false},
        [BW_STYLE_TEXT] = {2, 2, false},  [BW_STYLE_STRONG] = {2, 2, true},
        [BW_STYLE_HANG] = {2, 4, false},  [BW_STYLE_STEP] = {2, 5, false},
        [BW_STYLE_UNDER] = {4, 4, false}, [BW_STYLE_DEEP] = {6, 6, false},
    };
    if (style == BW_STYLE_LEAD && page->begun)
        put_blank(page);
    page->begun = true;
    if (style == BW_STYLE_LINE) {
        emit_line(page, text, strlen(text), false);
        put_blank(page);
        return;
    }
    wrap(page, of[style].first, of[style].rest, of[style].bold, text);
}

static void put_item(bw_page *page, const char *text)
{
    wrap(page, 2, 4, false, bw_phrase(page, "- %s", text));
}

/* A label, and what follows it from a column on. */
static const char *labelled(bw_page *page, const char *label, size_t column,
                            const char *text)
{
    static const char blanks[LABEL + 1] = "                          ";
    size_t length = strlen(label);
    return bw_phrase(page, "%s%s%s", label,
                     blanks + LABEL - (length < column ? column - length : 0),
                     text);
}

static void put_pair(bw_page *page, const char *label, const char *text)
{
    wrap(page, 2, LABEL + 2, false,
         text[0] == '\0' ? label : labelled(page, label, LABEL, text));
}

static void put_sources(bw_page *page)
{
    for (size_t i = 0; i < page->sources; i++)
        wrap(page, 2, 7, false,
             labelled(page, bw_phrase(page, "[%zu]", i + 1), 5,
                      page->source[i]));
}

/* ---- tables -------------------------------------------------------------- */

static size_t longest_word(const char *text)
{
    size_t longest = 0;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        while (text[length] == ' ' && in_unit(text, length))
            length += 1 + strcspn(text + length + 1, " ");
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
        const bool wraps = column->kind == BW_CELL_WORDS;
        least[c] = wraps ? word : whole;
        if (wraps && least[c] > LONGEST_WORD)
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

static bool grid_fits(const bw_grid *grid)
{
    size_t width[BW_GRID_COLUMNS] = {0}, least[BW_GRID_COLUMNS] = {0};
    measure(grid, width, least);
    return width_of(grid, least) <= (size_t)grid->page->width;
}

static void print_cell(bw_page *page, const char *text, size_t length,
                       size_t width, bool right, bool last)
{
    size_t columns = bw_columns(text, length);
    size_t pad = columns < width ? width - columns : 0;
    if (right)
        bw_write_repeat(&page->out, ' ', pad);
    emit(page, text, length);
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
                       grid->column[c].kind == BW_CELL_FIGURE, c == last);
            if (c < last)
                bw_write_text(&grid->page->out, "  ");
            rest[c] += skip;
            more = more || rest[c][0] != '\0';
        }
        bw_write_text(&grid->page->out, "\n");
    }
}

static void put_notes(bw_page *page, const bw_grid_row *row)
{
    for (size_t i = 0; i < row->notes; i++)
        put_paragraph(page, BW_STYLE_DEEP, row->note[i]);
}

/* Where the page is too narrow for the columns: each row a paragraph, its
 * cells one after the other with their titles. */
static void put_narrow(bw_page *page, const bw_grid *grid)
{
    for (const bw_grid_row *row = grid->first; row != NULL; row = row->next) {
        const char *text = "";
        for (size_t c = 0; c < grid->columns; c++)
            if (row->cell[c][0] != '\0')
                text = bw_phrase(page, "%s%s%s: %s", text,
                                 text[0] != '\0' ? "; " : "",
                                 grid->column[c].title, row->cell[c]);
        put_paragraph(page, BW_STYLE_HANG, text);
        put_notes(page, row);
    }
}

static void put_wide(bw_page *page, const bw_grid *grid)
{
    size_t width[BW_GRID_COLUMNS] = {0}, least[BW_GRID_COLUMNS] = {0};
    const char *title[BW_GRID_COLUMNS] = {NULL};
    measure(grid, width, least);
    fit(grid, width, least);
    for (size_t c = 0; c < grid->columns; c++)
        title[c] = grid->column[c].title;
    print_cells(grid, title, width);
    bw_write_repeat(&page->out, ' ', INDENT);
    bw_write_repeat(&page->out, '-', width_of(grid, width) - INDENT);
    put_blank(page);
    for (const bw_grid_row *row = grid->first; row != NULL; row = row->next) {
        print_cells(grid, row->cell, width);
        put_notes(page, row);
    }
}

static void put_grid(bw_page *page, const bw_grid *grid)
{
    if (grid_fits(grid))
        put_wide(page, grid);
    else
        put_narrow(page, grid);
    if (grid->bars != NULL)
        put_paragraph(page, BW_STYLE_TEXT, grid->bars);
}

/* ---- the page ------------------------------------------------------------ */

bw_status bw_page_finish(bw_page *page, const char *what, bw_error *err)
{
    return bw_page_end(page, bw_writer_finish(&page->out), what, err);
}

void bw_text_start(bw_page *page, int width, bool colour, bw_sink *sink,
                   void *payload)
{
    static const bw_page_form form = {
        put_heading, put_subheading, put_paragraph, put_item,  put_pair,
        put_grid,    grid_fits,      put_sources,   put_blank, bw_page_finish};
    *page = (bw_page){.form = &form,
                      .width = width == 0          ? DEFAULT_WIDTH
                               : width < NARROWEST ? NARROWEST
                               : width > WIDEST    ? WIDEST
                                                   : width,
                      .colour = colour};
    bw_writer_start(&page->out, sink, payload);
}
