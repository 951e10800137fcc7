#ifndef BW_CHART_MARKUP_H
#define BW_CHART_MARKUP_H

/* HTML with inline SVG over libxml2's writer: it nests and escapes, nothing
 * is ever pasted together by hand. Text that came from files is made valid:
 * bytes that are no UTF-8 and control characters become '?'. */

#include <stdbool.h>
#include <stddef.h>

#include "writer.h"

/* After a fault nothing more is written; callers look once, at the end. */
typedef struct bw_markup {
    bw_write_bytes *sink;
    void *payload;
    struct _xmlTextWriter *writer; /* NULL: could not be made */
    bool no_memory, refused;
    int serial; /* numbers the charts of a page, for their ids */
} bw_markup;

/* Starts a page: sends the document type. Pair with bw_markup_finish. */
void bw_markup_start(bw_markup *out, bw_write_bytes *sink, void *payload);

/* Ends every open element and frees; true if every byte was taken. */
bool bw_markup_finish(bw_markup *out);

/* An element; its attributes follow it at once. `class` may be NULL. */
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
