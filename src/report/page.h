#ifndef BW_REPORT_PAGE_H
#define BW_REPORT_PAGE_H

/* What a report is built of: headings, paragraphs, items, pairs of a name and
 * what it is, tables (grid.h), numbers as words. A part of a report calls these
 * and does not know which writer puts it down: plain text, or an HTML page. */

#include <math.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "bothways/report.h"
#include "writer.h"

enum { BW_PAGE_SOURCES = 96 };

struct bw_page;
struct bw_grid;

/* How a paragraph stands. */
typedef enum bw_style {
    BW_STYLE_LEAD,   /* in bold, at the margin, apart from what is above; the
                        first of them is the title of the page */
    BW_STYLE_PLAIN,  /* at the margin */
    BW_STYLE_TEXT,   /* indented */
    BW_STYLE_STRONG, /* the same in bold */
    BW_STYLE_HANG,   /* the first line stands out */
    BW_STYLE_STEP,   /* the same, numbered */
    BW_STYLE_UNDER,  /* below a pair */
    BW_STYLE_DEEP,   /* below what hangs, or a row */
    BW_STYLE_LINE,   /* at the margin, one line however long it is */
} bw_style;

/* A writer. */
typedef struct bw_page_form {
    void (*heading)(struct bw_page *page, const char *title);
    void (*subheading)(struct bw_page *page, const char *title);
    void (*paragraph)(struct bw_page *page, bw_style style, const char *text);
    void (*item)(struct bw_page *page, const char *text);
    void (*pair)(struct bw_page *page, const char *label, const char *text);
    void (*grid)(struct bw_page *page, const struct bw_grid *grid);
    bool (*fits)(const struct bw_grid *grid); /* the width of the page */
    void (*sources)(struct bw_page *page);    /* the list of those cited */
    void (*blank)(struct bw_page *page);
    bw_status (*finish)(struct bw_page *page, const char *what, bw_error *err);
} bw_page_form;

typedef struct bw_page {
    const bw_page_form *form;
    const bw_report_options *options;
    bw_writer out;
    bw_arena arena; /* strings of this report; failed: looked at at the end */
    int width;
    bool colour;
    bool begun;        /* its title stands */
    size_t cut;        /* items left out of lists so that a screen holds it */
    const char *title; /* of a part of which nothing stands yet, or NULL */
    int headings;
    const char *source[BW_PAGE_SOURCES]; /* cited so far, by number */
    size_t sources;
} bw_page;

/* ---- words -------------------------------------------------------------- */

/* A string on the page's arena; "" when memory is short. */
#define bw_phrase(page, ...) bw_arena_say(&(page)->arena, __VA_ARGS__)

const char *bw_phrase_of(bw_page *page, const char *format, va_list args)
    BW_PRINTF(2, 0);

/* A number with so many decimals; "-" if it is not finite. */
const char *bw_fixed(bw_page *page, double value, int decimals);

/* A number with at most so many significant digits, trailing zeros left out,
 * and no exponent where a person would write none; "-" if it is not finite. */
const char *bw_significant(bw_page *page, double value, int digits);

/* A figure that is there, or not: then it is printed as "-". */
static inline double bw_if(bool known, double value)
{
    return known ? value : (double)NAN;
}

/* kg/m2 as grams: "432", "7.3". */
const char *bw_grams(bw_page *page, double kg_per_m2);

/* The same with its unit, in kg/m2 from 10 kg/m2 on: "432 g/m2". */
const char *bw_amount(bw_page *page, double kg_per_m2);

/* "[3]": the number under which a source is listed at the end of the page;
 * the text itself once the list is full. */
const char *bw_page_cite(bw_page *page, const char *source);

/* ---- what stands on the page -------------------------------------------- */

/* What begins here has this title, NULL: none; and what ends the title. The
 * numbered heading is put down with the first thing below it. */
void bw_page_open(bw_page *page, const char *title);
void bw_aside(bw_page *page, const char *text);

/* Before anything is put down otherwise than by the calls below. */
void bw_page_begin(bw_page *page);

/* A title inside a part. */
void bw_subheading(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);

/* A paragraph of each style. */
void bw_lead(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_plain(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_text(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_strong(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_hang(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_step(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_under(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_deep(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);
void bw_line(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);

/* One of a list of things. */
void bw_item(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);

/* A name and what it is; text "": the title of the pairs that follow. */
void bw_pair(bw_page *page, const char *label, const char *format, ...)
    BW_PRINTF(3, 4);

/* The list of the sources cited so far. */
void bw_sources(bw_page *page);

/* A line left free in a text. */
void bw_blank(bw_page *page);

/* ---- the plain text ------------------------------------------------------ */

/* A page of text, held within 60..200 columns; 0: 100. Text that came from
 * files is printed with control characters replaced, so that no file can steer
 * a terminal. */
void bw_text_start(bw_page *page, int width, bool colour, bw_sink *sink,
                   void *payload);

/* Sends what is left and gives the page's memory back; `what`, as in "the
 * report", could not be written where the sink refused. */
bw_status bw_page_finish(bw_page *page, const char *what, bw_error *err);
/* The same of what was sent already. */
bw_status bw_page_end(bw_page *page, bool written, const char *what,
                      bw_error *err);

/* Columns a UTF-8 text of so many bytes takes on the page. */
size_t bw_columns(const char *text, size_t length);

/* How many bytes of text fit into width columns, broken at a blank where
 * there is one; *skip receives the bytes to the next line's start. */
size_t bw_line_break(const char *text, size_t width, size_t *skip);

#endif
