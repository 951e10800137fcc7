/* Numbers as words, columns, broken lines, tables: what every text report is
 * made of. Widths of characters after Unicode, UAX #11. */

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "paper.h"
#include "report/grid.h"
#include "suite.h"

static bw_page page;
static paper sheet;

static void setup(void)
{
    paper_clear(&sheet);
    bw_text_start(&page, 60, false, paper_take, &sheet);
}

static void teardown(void)
{
    bw_arena_release(&page.arena);
}

static const char *printed(void)
{
    ck_assert(bw_writer_finish(&page.out) && !page.arena.failed);
    return sheet.text;
}

/* ---- numbers ----------------------------------------------------------- */

static const struct number_row {
    double value;
    const char *fixed, *significant, *grams; /* 2 decimals; 3 digits; kg/m2 */
} numbers[] = {
    {0.0, "0.00", "0", "0"},
    {-0.0, "0.00", "0", "0"},
    {-0.0001, "0.00", "-0.0001", "-0.1"},
    {0.00000123, "0.00", "1.23e-06", "0.0"},
    {0.00995, "0.01", "0.00995", "10"},
    {12.0, "12.00", "12", "12000"},
    {99.96, "99.96", "100", "99960"},
    {123456.0, "123456.00", "123456", "123456000"},
    {1e9, "1e+09", "1e+09", "1e+12"},
    {-1.5e12, "-1.5e+12", "-1.5e+12", "-1.5e+15"},
    {(double)INFINITY, "-", "-", "-"},
    {(double)NAN, "-", "-", "-"},
};

START_TEST(numbers_are_words_without_signs_of_nothing)
{
    const struct number_row *row = &numbers[_i];
    ck_assert_str_eq(bw_fixed(&page, row->value, 2), row->fixed);
    ck_assert_str_eq(bw_significant(&page, row->value, 3), row->significant);
    ck_assert_str_eq(bw_grams(&page, row->value), row->grams);
}
END_TEST

START_TEST(much_water_is_told_in_kilograms)
{
    ck_assert_str_eq(bw_amount(&page, 0.0), "0 g/m2");
    ck_assert_str_eq(bw_amount(&page, 9.99), "9990 g/m2");
    ck_assert_str_eq(bw_amount(&page, 10.0), "10 kg/m2");
    ck_assert_str_eq(bw_amount(&page, -12.34), "-12.3 kg/m2");
}
END_TEST

/* ---- columns ----------------------------------------------------------- */

static const struct width_row {
    const char *text;
    size_t columns;
} widths[] = {
    {"", 0},
    {"board", 5},
    {"D\xc3\xa4mmung", 7},           /* a letter of two bytes */
    {"Da\xcc\x88mmung", 7},          /* the same as letter and mark */
    {"\xe6\x9c\xa8\xe6\x9d\x90", 4}, /* two ideographs */
    {"\xed\x95\x9c", 2},             /* a syllable */
    {"\xf0\x9f\x8c\xb2", 2},         /* a pictograph */
    {"a\xe2\x80\x8f"
     "b",
     2}, /* a mark of direction: no width */
    {"a\xe2\x80\xae"
     "b",
     3},             /* an override: printed as '?' */
    {"\xc2\x9b", 1}, /* a C1 control: printed as '?' */
    {"\xff\xfe", 8}, /* no characters at all: shown as \xff\xfe */
    {"\xe6\x9c", 8}, /* cut short */
    {"\xf0\x9f\x8cx", 13},
};

START_TEST(columns_are_those_of_a_terminal)
{
    const char *text = widths[_i].text;
    ck_assert_uint_eq(bw_columns(text, strlen(text)), widths[_i].columns);
}
END_TEST

START_TEST(no_mark_turns_the_words_after_it)
{
    static const char text[] = "a\xe2\x80\xae"
                               "b\xe2\x81\xa6"
                               "c\xe2\x80\xa8"
                               "d\x1b"
                               "e\xc2\x85"
                               "f\xe2\x80\x8f"
                               "g";
    bw_plain(&page, "%s", text);
    ck_assert_str_eq(printed(), "a?b?c?d?e?f\xe2\x80\x8fg\n");
}
END_TEST

/* Where a text breaks at a width, and where the next line starts. */
static const struct break_row {
    const char *text;
    size_t width, length, skip;
} breaks[] = {
    {"all of it", 9, 9, 9},
    {"all of it", 8, 6, 7},
    {"all   of", 5, 3, 6},
    {"all\nof it", 20, 9, 9},
    {"undivided", 5, 5, 5},
    {"of 12 kg/(m2 a), at", 14, 5, 6}, /* a unit is not divided */
    {"g/(m2 a) b", 9, 8, 9},
    {"either/or (m2 a)", 14, 13, 14}, /* a bracket that is no unit is */
    {"a/(b) c d", 8, 7, 8},
    {" indented", 4, 4, 4}, /* a blank at the start divides nothing */
    {"a\xcc\x88o\xcc\x88u\xcc\x88", 2, 6, 6},
    {"\xe6\x9c\xa8\xe6\x9d\x90", 3, 3, 3},
    {"\xe6\x9c\xa8\xe6\x9d\x90", 1, 3, 3}, /* never half a character */
};

START_TEST(lines_break_at_blanks_and_never_inside_a_character)
{
    const struct break_row *row = &breaks[_i];
    size_t skip = 0;
    ck_assert_uint_eq(bw_line_break(row->text, row->width, &skip), row->length);
    ck_assert_uint_eq(skip, row->skip);
}
END_TEST

/* ---- paragraphs -------------------------------------------------------- */

static void part_of(const char *title)
{
    bw_page_open(&page, title);
    bw_text(&page, "said");
}

START_TEST(a_heading_as_long_as_the_page_has_no_rule)
{
    part_of("Short");
    part_of("A heading that runs over the whole width of it 5");
    part_of("A heading that runs over the whole width of it and to 60");
    const char *text = printed();
    HAS(text, "\n1  Short ---");
    HAS(text,
        "\n3  A heading that runs over the whole width of it and to 60\n");
    paper_fits(text, 60);
}
END_TEST

START_TEST(a_part_in_which_nothing_stands_has_no_heading)
{
    bw_page_open(&page, "Empty");
    part_of("Full");
    bw_page_open(&page, "With an aside");
    bw_aside(&page, ": by months");
    bw_item(&page, "said");
    const char *text = printed();
    HAS_NOT(text, "Empty");
    HAS(text, "\n1  Full ---");
    HAS(text, "\n2  With an aside: by months ---");
}
END_TEST

START_TEST(sources_beyond_the_last_number_are_named_in_full)
{
    for (size_t i = 0; i < BW_PAGE_SOURCES; i++)
        bw_page_cite(&page, bw_phrase(&page, "source %zu", i));
    ck_assert_str_eq(bw_page_cite(&page, "source 0"), "[1]");
    ck_assert_str_eq(bw_page_cite(&page, "source 95"), "[96]");
    ck_assert_str_eq(bw_page_cite(&page, "one more"), "one more");
    ck_assert_uint_eq(page.sources, BW_PAGE_SOURCES);
}
END_TEST

START_TEST(a_pair_without_a_text_is_the_title_of_others)
{
    bw_pair(&page, "To dry", "%s", "");
    bw_pair(&page, "    both ways", "5 months");
    ck_assert_str_eq(printed(),
                     "  To dry\n      both ways             5 months\n");
}
END_TEST

/* How each kind of line stands: how far in its first line is, and those that
 * follow; in bold where there is colour; apart from what is above. */
static void as_lead(void)
{
    bw_lead(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_plain(void)
{
    bw_plain(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_text(void)
{
    bw_text(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_strong(void)
{
    bw_strong(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_hang(void)
{
    bw_hang(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_step(void)
{
    bw_step(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_under(void)
{
    bw_under(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_deep(void)
{
    bw_deep(&page, "one two three four five six seven eight nine ten eleven");
}

static void as_subheading(void)
{
    bw_subheading(&page,
                  "one two three four five six seven eight nine ten eleven");
}

static void as_heading(void)
{
    bw_page_open(&page,
                 "one two three four five six seven eight nine ten eleven");
    bw_text(&page, "%s", "");
}

static const struct stands {
    void (*put)(void);
    size_t first, rest;
    bool bold, apart;
} stands[] = {
    {as_lead, 0, 2, true, true},       {as_plain, 0, 2, false, false},
    {as_text, 2, 2, false, false},     {as_strong, 2, 2, true, false},
    {as_hang, 2, 4, false, false},     {as_step, 2, 5, false, false},
    {as_under, 4, 4, false, false},    {as_deep, 6, 6, false, false},
    {as_subheading, 2, 4, true, true}, {as_heading, 0, 3, true, true},
};

START_TEST(each_kind_of_line_stands_in_its_place)
{
    static const char bold[] = "\x1b[1m", plain[] = "\x1b[0m";
    const struct stands *row = &stands[_i / 2];
    page.colour = _i % 2 == 1;
    page.width = 48;
    bw_plain(&page, "above");
    row->put();
    const char *text = printed();
    const bool marked = row->bold && page.colour;
    ck_assert_uint_eq(strncmp(text, "above\n", 6), 0);
    text += 6;
    ck_assert((*text == '\n') == row->apart);
    text += row->apart;
    for (size_t line = 0; line < 2; line++) {
        const size_t indent = line == 0 ? row->first : row->rest;
        ck_assert_uint_eq(strspn(text, " "), indent);
        text += indent;
        ck_assert((strncmp(text, bold, 4) == 0) == marked);
        text += marked ? 4 : 0;
        const char *end = strchr(text, '\n');
        ck_assert_ptr_nonnull(end);
        ck_assert((strncmp(end - 4, plain, 4) == 0) == marked);
        text = end + 1;
    }
}
END_TEST

/* ---- tables ------------------------------------------------------------ */

static void add_layer(bw_grid *grid, const char *name)
{
    bw_grid_row_start(grid);
    bw_words(grid, "Layer", name);
    bw_number(grid, "sd m", "%.2g", 0.3);
}

/* The column at which the last word of each line ends. */
static void ends_alike(const char *text, size_t end)
{
    while (*text != '\0') {
        size_t length = strcspn(text, "\n");
        ck_assert_msg(bw_columns(text, length) == end, "%.*s", (int)length,
                      text);
        text += length + 1;
    }
}

START_TEST(figures_stand_under_each_other_whatever_the_script)
{
    static const char *const names[] = {"Da\xcc\x88mmung", "D\xc3\xa4mmung",
                                        "\xe6\x9c\xa8\xe6\x9d\x90",
                                        "a\xe2\x80\xaeg", "plain"};
    bw_grid grid = {.page = &page};
    for (size_t i = 0; i < 5; i++)
        add_layer(&grid, names[i]);
    bw_grid_print(&grid);
    ends_alike(printed(), 2 + 7 + 2 + 3);
}
END_TEST

START_TEST(words_wrap_and_notes_stay_below_their_row)
{
    bw_grid grid = {.page = &page};
    bw_remark(&grid, "of no row");
    add_layer(&grid, "a board of wood fibre that is called by a very long name "
                     "indeed");
    bw_remark(&grid, "%s", "");
    for (size_t i = 0; i < BW_GRID_NOTES + 1; i++)
        bw_remark(&grid, "note %zu", i);
    ck_assert(bw_grid_fits(&grid));
    bw_grid_print(&grid);
    const char *text = printed();
    HAS_NOT(text, "of no row");
    HAS(text, "\n      note 0\n");
    HAS(text, "\n      note 5\n");
    HAS_NOT(text, "note 6"); /* as many as there is room for */
    paper_fits(text, 60);
}
END_TEST

START_TEST(a_long_word_is_broken_only_where_the_page_is_narrow)
{
    bw_grid grid = {.page = &page};
    static const char name[] = "Holzfaserunterdeckplattenverklebung";
    add_layer(&grid, name);
    page.width = 2 + 22 + 2 + 3;
    ck_assert(bw_grid_fits(&grid));
    page.width--;
    ck_assert(!bw_grid_fits(&grid));
    page.width = 44;
    bw_grid_print(&grid);
    HAS(printed(), name);
    page.width = 40;
    bw_grid_print(&grid);
    HAS(printed(), "\n  Holzfaserunterdeckplattenverklebu  0.3\n  ng\n");
}
END_TEST

START_TEST(a_table_without_rows_prints_nothing)
{
    bw_grid grid = {.page = &page};
    bw_grid_print(&grid);
    ck_assert_str_eq(printed(), "");
}
END_TEST

/* ---- any table ------------------------------------------------------------
 */

enum { ROWS = 4, COLUMNS_MOST = 6, CELL_WORDS = 8, WORD_MOST = 14 };

/* Row 0 is the titles. Each word is found nowhere else. */
static struct any_table {
    size_t columns;
    bw_cell_kind kind[COLUMNS_MOST];
    size_t words[ROWS + 1][COLUMNS_MOST];
    char word[ROWS + 1][COLUMNS_MOST][CELL_WORDS][WORD_MOST + 2];
    char cell[ROWS + 1][COLUMNS_MOST][CELL_WORDS * (WORD_MOST + 2)];
} any;

typedef struct spot_of {
    size_t line, from, end;
} spot_of;

static uint32_t state;

static size_t up_to(size_t most)
{
    state = state * 1664525u + 1013904223u;
    return (size_t)(state >> 16) % (most + 1);
}

static void make_any(uint32_t seed)
{
    state = seed;
    any.columns = 2 + up_to(COLUMNS_MOST - 2);
    for (size_t c = 0; c < any.columns; c++)
        any.kind[c] = (bw_cell_kind)up_to(BW_CELL_FIGURE);
    for (size_t r = 0; r <= ROWS; r++)
        for (size_t c = 0; c < any.columns; c++) {
            const bool brief = r > 0 && any.kind[c] == BW_CELL_FIGURE;
            any.words[r][c] = brief ? up_to(1) : up_to(CELL_WORDS - 1);
            if (r == 0 || c == 0)
                any.words[r][c] = 1 + up_to(2);
            any.cell[r][c][0] = '\0';
            for (size_t w = 0; w < any.words[r][c]; w++) {
                char *word = any.word[r][c][w];
                word[0] = (char)('a' + r);
                word[1] = (char)('a' + c);
                word[2] = (char)('a' + w);
                word[3] = '\0';
                const size_t length = strlen(word) + up_to(8);
                while (strlen(word) < length)
                    strcat(word, "x");
                strcat(word, ";"); /* so that none begins another */
                strcat(any.cell[r][c], w > 0 ? " " : "");
                strcat(any.cell[r][c], word);
            }
        }
}

static bool print_any(int width)
{
    bw_grid grid = {.page = &page};
    paper_clear(&sheet);
    bw_arena_release(&page.arena);
    bw_text_start(&page, width, false, paper_take, &sheet);
    for (size_t r = 1; r <= ROWS; r++) {
        bw_grid_row_start(&grid);
        for (size_t c = 0; c < any.columns; c++)
            if (any.kind[c] == BW_CELL_WORDS)
                bw_words(&grid, any.cell[0][c], any.cell[r][c]);
            else if (any.kind[c] == BW_CELL_NAME)
                bw_name(&grid, any.cell[0][c], any.cell[r][c]);
            else
                bw_number(&grid, any.cell[0][c], "%s", any.cell[r][c]);
        bw_remark(&grid, "below %zu", r);
    }
    const bool is_wide = bw_grid_fits(&grid);
    bw_grid_print(&grid);
    printed();
    return is_wide;
}

static spot_of spot(const char *word)
{
    const char *found = strstr(sheet.text, word), *line = sheet.text;
    ck_assert_msg(found != NULL, "no '%s' in:\n%s", word, sheet.text);
    spot_of is = {0};
    for (const char *at = sheet.text; at < found; at++)
        if (*at == '\n') {
            is.line++;
            line = at + 1;
        }
    is.from = (size_t)(found - line);
    is.end = is.from + strlen(word);
    return is;
}

/* Where a column begins and ends, of all its words. */
static spot_of reach_of(size_t c)
{
    spot_of all = {0, SIZE_MAX, 0};
    for (size_t r = 0; r <= ROWS; r++)
        for (size_t w = 0; w < any.words[r][c]; w++) {
            const spot_of is = spot(any.word[r][c][w]);
            all.from = is.from < all.from ? is.from : all.from;
            all.end = is.end > all.end ? is.end : all.end;
        }
    return all;
}

/* In their order, from the column's left end on each line; of figures to its
 * right end. Names and figures take one line. Returns the last line. */
static size_t check_cell(size_t r, size_t c, size_t line, spot_of column)
{
    spot_of last = {line, 0, 0};
    for (size_t w = 0; w < any.words[r][c]; w++) {
        const spot_of is = spot(any.word[r][c][w]);
        const bool begins = w == 0 || is.line > last.line;
        const bool right = any.kind[c] == BW_CELL_FIGURE;
        if (w == 0)
            ck_assert_uint_eq(is.line, line);
        if (begins && !right)
            ck_assert_uint_eq(is.from, column.from);
        if (begins && right && w > 0)
            ck_assert_uint_eq(last.end, column.end);
        if (!begins)
            ck_assert_uint_eq(is.from, last.end + 1);
        if (begins && w > 0) {
            ck_assert_uint_eq(is.line, last.line + 1);
            ck_assert(r == 0 || any.kind[c] == BW_CELL_WORDS);
        }
        if (right && w + 1 == any.words[r][c])
            ck_assert_uint_eq(is.end, column.end);
        last = is;
    }
    return last.line;
}

static size_t widest_cell(size_t c)
{
    size_t widest = 0;
    for (size_t r = 1; r <= ROWS; r++)
        if (strlen(any.cell[r][c]) > widest)
            widest = strlen(any.cell[r][c]);
    for (size_t w = 0; w < any.words[0][c]; w++)
        if (strlen(any.word[0][c][w]) > widest)
            widest = strlen(any.word[0][c][w]);
    return widest;
}

static void check_any(int width)
{
    spot_of column[COLUMNS_MOST];
    size_t wish = 2 + 2 * (any.columns - 1), wraps = 0, line = 0;
    for (size_t c = 0; c < any.columns; c++) {
        column[c] = reach_of(c);
        wish += widest_cell(c);
        if (c > 0)
            ck_assert_uint_ge(column[c].from, column[c - 1].end + 2);
    }
    ck_assert_uint_eq(column[0].from, 2);
    for (size_t r = 0; r <= ROWS; r++) {
        size_t last = line;
        for (size_t c = 0; c < any.columns; c++) {
            const size_t ends = check_cell(r, c, line, column[c]);
            last = ends > last ? ends : last;
        }
        wraps += r > 0 && last > line;
        char below[16];
        snprintf(below, sizeof below, "below %zu", r);
        const spot_of under = spot(r == 0 ? "-----" : below);
        ck_assert_uint_eq(under.line, last + 1);
        line = under.line + 1;
    }
    if (wish <= (size_t)width) /* all of it fits as it is */
        ck_assert_uint_eq(wraps, 0);
    paper_fits(sheet.text, (size_t)width);
}

/* A paragraph a row: each cell that has words behind its title. */
static void check_narrow(void)
{
    static char joined[sizeof sheet.text];
    size_t used = 0;
    for (const char *at = sheet.text; *at != '\0'; at++)
        if ((*at != ' ' && *at != '\n') ||
            (used > 0 && joined[used - 1] != ' '))
            joined[used++] = *at == '\n' ? ' ' : *at;
    joined[used] = '\0';
    const char *last = joined;
    for (size_t r = 1; r <= ROWS; r++) {
        char row[2048] = "", below[16];
        for (size_t c = 0; c < any.columns; c++) {
            if (any.words[r][c] == 0)
                continue;
            strcat(row, row[0] != '\0' ? "; " : "");
            strcat(row, any.cell[0][c]);
            strcat(row, ": ");
            strcat(row, any.cell[r][c]);
        }
        snprintf(below, sizeof below, " below %zu", r);
        strcat(row, below);
        last = strstr(last, row);
        ck_assert_msg(last != NULL, "no '%s' in: %.1500s", row, joined);
    }
}

START_TEST(every_word_of_a_table_stands_in_its_column_and_row)
{
    static const int widths_of[] = {60, 80, 100, 140, 200};
    size_t wide = 0, narrow = 0;
    for (uint32_t seed = 1; seed < 120; seed++) {
        make_any(seed);
        if (print_any(widths_of[_i])) {
            check_any(widths_of[_i]);
            wide++;
            continue;
        }
        narrow++;
        check_narrow();
        paper_fits(sheet.text, (size_t)widths_of[_i]);
    }
    ck_assert_uint_gt(wide, 0);
    ck_assert(narrow > 0 || _i > 2);
}
END_TEST

SUITE_AROUND("page", setup, teardown,
             EACH(numbers_are_words_without_signs_of_nothing, COUNT(numbers)),
             FACT(much_water_is_told_in_kilograms),
             EACH(columns_are_those_of_a_terminal, COUNT(widths)),
             FACT(no_mark_turns_the_words_after_it),
             EACH(lines_break_at_blanks_and_never_inside_a_character,
                  COUNT(breaks)),
             FACT(a_heading_as_long_as_the_page_has_no_rule),
             FACT(a_part_in_which_nothing_stands_has_no_heading),
             FACT(sources_beyond_the_last_number_are_named_in_full),
             FACT(a_pair_without_a_text_is_the_title_of_others),
             FACT(figures_stand_under_each_other_whatever_the_script),
             FACT(words_wrap_and_notes_stay_below_their_row),
             FACT(a_long_word_is_broken_only_where_the_page_is_narrow),
             EACH(each_kind_of_line_stands_in_its_place, 2 * COUNT(stands)),
             FACT(a_table_without_rows_prints_nothing),
             EACH(every_word_of_a_table_stands_in_its_column_and_row, 5))
