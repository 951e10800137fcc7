#ifndef BW_CHART_MARKUP_H
#define BW_CHART_MARKUP_H

/* HTML with inline SVG: it nests and escapes, nothing is ever pasted together
 * by hand. Text that came from files is made valid: bytes that are no UTF-8
 * and control characters become '?'. Allocates nothing. (libxml2's writer left
 * out what it had no memory for, and did not say so.) */

#include <stdbool.h>
#include <stddef.h>

#include "writer.h"

/* Deeper than any page of ours. */
enum { BW_MARKUP_DEPTH = 32 };

/* After a fault nothing more is written; callers look once, at the end. */
typedef struct bw_markup {
    bw_writer out;
    const char *open[BW_MARKUP_DEPTH]; /* elements, the outermost first */
    size_t depth;
    bool in_tag;       /* the innermost may still get attributes */
    bool in_attribute; /* text goes into one */
    bool no_memory;    /* set by those who draw */
    int serial;        /* numbers the charts of a page, for their ids */
} bw_markup;

/* Starts a page: sends the document type. Pair with bw_markup_finish. */
void bw_markup_start(bw_markup *out, bw_write_bytes *sink, void *payload);

/* Ends every open element; true if every byte was taken. */
bool bw_markup_finish(bw_markup *out);

/* An element; its attributes follow it at once. The name is kept until it is
 * closed; `class_name` may be NULL. */
void bw_tag_open(bw_markup *out, const char *name, const char *class_name);
void bw_tag_set(bw_markup *out, const char *name, const char *value);
void bw_tag_set_number(bw_markup *out, const char *name, double value,
                       int digits);

/* Numbers with nine digits, blanks between: what a CSV would say. */
void bw_tag_set_numbers(bw_markup *out, const char *name, const double *value,
                        size_t count);
void bw_tag_text(bw_markup *out, const char *text);
void bw_tag_part(bw_markup *out, const char *bytes, size_t length);

/* Bytes as they are: style sheets of our own. */
void bw_tag_raw(bw_markup *out, const char *text);

/* Ends the innermost element: HTML wants an end tag even for an empty one... */
void bw_tag_close(bw_markup *out);
/* ... but for void elements (meta, br) and in SVG. */
void bw_tag_close_short(bw_markup *out);

/* A whole element holding only text. */
void bw_tag_whole(bw_markup *out, const char *name, const char *class_name,
                  const char *text);

#endif
