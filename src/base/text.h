#ifndef BW_BASE_TEXT_H
#define BW_BASE_TEXT_H

/* Small helpers on words. */

#include <stddef.h>

/* The candidate nearest to word by edit distance (case ignored), or NULL when
 * none is within a third of its length (at least 2 edits). */
const char *bw_text_nearest(const char *word, const char *const *candidates,
                            size_t count);

/* Bytes of the character at the start of text, of which `length` (1 at least)
 * may be read; 0: no character of UTF-8 that a page or an XML file may hold
 * stands there (or a control character does). */
size_t bw_text_character(const char *text, size_t length);

#endif
