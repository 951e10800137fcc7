#ifndef BW_REPORT_PAGE_H
#define BW_REPORT_PAGE_H

/* A page of text: wrapped paragraphs, headings, numbers as words. Text that
 * came from files is printed with control characters replaced, so that no
 * file can steer a terminal. */

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "bothways/error.h"
#include "writer.h"

enum { BW_PAGE_SOURCES = 96 };

struct bw_page;
struct bw_grid;

/* Another form of page than plain text. The parts of a report call the
 * functions below and do not know which form they fill. */
typedef struct bw_page_form {
    void (*heading)(struct bw_page *page, const char *title);
    void (*subheading)(struct bw_page *page, const char *title);
    void (*text)(struct bw_page *page, const char *text, bool hanging);
    void (*item)(struct bw_page *page, const char *text);
    void (*pair)(struct bw_page *page, const char *label, const char *text);
    void (*grid)(struct bw_page *page, const struct bw_grid *grid);
    void (*sources)(struct bw_page *page); /* the list of those cited */
} bw_page_form;

typedef struct bw_page {
    const bw_page_form *form; /* NULL: plain text */
    bw_writer out;
    bw_arena arena; /* strings of this report */
    int width;
    bool colour;
    bool bold;      /* of the text that follows; needs colour */
    bool no_memory; /* looked at once, at the end */
    int headings;
    const char *source[BW_PAGE_SOURCES]; /* cited so far, by number */
    size_t sources;
} bw_page;

/* A string on the page's arena; "" when memory is short. */
const char *bw_phrase(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);

/* A number with so many decimals; "-" if it is not finite. */
const char *bw_fixed(bw_page *page, double value, int decimals);

/* A number with at most so many significant digits, trailing zeros left out,
 * and no exponent where a person would write none. */
const char *bw_significant(bw_page *page, double value, int digits);

/* kg/m2 as grams: "432", "7.3". */
const char *bw_grams(bw_page *page, double kg_per_m2);

/* Sends what is left and gives the page's memory back; `what`, as in "the
 * report", could not be written where the sink refused. */
bw_status bw_page_finish(bw_page *page, const char *what, bw_error *err);

/* "[3]": the number under which a source is listed at the end of the page;
 * the text itself once the list is full. */
const char *bw_page_cite(bw_page *page, const char *source);

/* The same with its unit, in kg/m2 from 10 kg/m2 on: "432 g/m2". */
const char *bw_amount(bw_page *page, double kg_per_m2);

/* A numbered heading with a rule, a blank line before it. */
void bw_page_heading(bw_page *page, const char *title);

/* A title inside a numbered part. */
void bw_page_subheading(bw_page *page, const char *title);

/* A wrapped paragraph: the first line is indented by `first`, the following
 * ones by `rest`. */
void bw_page_text(bw_page *page, size_t first, size_t rest, const char *text);

/* One of a list of things. */
void bw_page_item(bw_page *page, const char *text);

/* A name and what it is; text "": the title of the pairs that follow. */
void bw_page_pair(bw_page *page, const char *label, const char *text);

void bw_page_blank(bw_page *page);

/* Bold on or off, for paragraphs; nothing where the page has no colour. */
void bw_page_bold(bw_page *page, bool on);

/* Bytes as they are; control characters and marks that turn the direction of
 * a line replaced. */
void bw_page_emit(bw_page *page, const char *bytes, size_t length);

/* Columns a UTF-8 text of so many bytes takes on the page. */
size_t bw_columns(const char *text, size_t length);

/* How many bytes of text fit into width columns, broken at a blank where
 * there is one; *skip receives the bytes to the next line's start. */
size_t bw_line_break(const char *text, size_t width, size_t *skip);

#endif
