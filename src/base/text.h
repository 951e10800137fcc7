#ifndef BW_BASE_TEXT_H
#define BW_BASE_TEXT_H

/* Small helpers on words. */

#include <stddef.h>

/* The candidate nearest to word by edit distance (case ignored), or NULL when
 * none is within a third of its length (at least 2 edits). */
const char *bw_text_nearest(const char *word, const char *const *candidates,
                            size_t count);

#endif
