/* Numbers as words, columns, broken lines, tables: what every text report is
 * made of. Widths of characters after Unicode, UAX #11. */

#include <math.h>
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
             FACT(a_table_without_rows_prints_nothing))
