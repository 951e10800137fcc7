#ifndef BW_REPORT_HTML_H
#define BW_REPORT_HTML_H

/* A report as one HTML page that needs nothing else. */

#include "markup.h"
#include "page.h"

/* What is open on the page: pairs and items gather into one list. */
typedef enum bw_html_list {
    BW_LIST_NONE,
    BW_LIST_ITEMS,
    BW_LIST_PAIRS,
} bw_html_list;

enum { BW_HTML_HEADINGS = 48 };

typedef struct bw_html {
    bw_page page; /* first: the form's functions get a bw_page */
    bw_markup out;
    bw_html_list list;
    bool in_section;
    const char *plates; /* to be opened, or NULL */
    bool in_plates;
    int parts; /* subheadings, for labels of tables */
    const char *last_title;
    const char *heading[BW_HTML_HEADINGS]; /* so far, by number */
    const char *const *contents; /* of all the page, once they are known */
    size_t contents_count;
} bw_html;

/* Opens the page; `kind` names it ("Moisture check"), `foot` stands below each
 * sheet of paper. */
void bw_html_start(bw_html *html, bw_sink *sink, void *payload,
                   const char *title, const char *kind, const char *foot);

/* The page it is. */
bw_html *bw_html_of(bw_page *page);

/* Text with units set as people write them and sources linked. */
void bw_html_text(bw_page *page, const char *text);

/* Ends an open list, before anything else is put down. */
void bw_html_end_list(bw_html *html);

/* The looks, in parts; below each sheet stands `foot`. */
void bw_html_style(bw_markup *out, const char *foot);

#endif
