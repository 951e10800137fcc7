#ifndef BW_BASE_TEXT_H
#define BW_BASE_TEXT_H

/* Small helpers on words. */

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/* The word of a value in a table of them. */
#define BW_WORD(words, value, otherwise)                                       \
    ((size_t)(value) < sizeof(words) / sizeof((words)[0]) ? (words)[value]     \
                                                          : (otherwise))

/* As ASCII has them, whatever the locale. */
static inline char bw_text_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static inline bool bw_text_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* For qsort, of an array of texts: by their bytes. */
int bw_text_order(const void *left, const void *right);

/* The candidate nearest to word by edit distance (case ignored), or NULL when
 * none is within a third of its length (at least 2 edits, 1 of a word of two
 * letters). */
const char *bw_text_nearest(const char *word, const char *const *candidates,
                            size_t count);

/* " (did you mean x?)" of that candidate, or "". */
enum { BW_MEANT = 800 }; /* more than a message holds */
const char *bw_text_meant(char text[BW_MEANT], const char *word,
                          const char *const *candidates, size_t count);

/* The same to a reader: blanks at the ends, how many stand between, marks
 * without a width and ASCII case do not count. */
bool bw_text_same(const char *a, const char *b);

/* Whether it says anything: neither blank nor marks alone nor a word for
 * nothing ("n/a", "todo", "x"). */
bool bw_text_given(const char *text);

/* The text without blanks and tabulators at its ends; the last are overwritten.
 */
char *bw_text_trim(char *text);

/* Printed into `size` bytes: cut at a whole UTF-8 character, a '?' in the place
 * of each control character. */
__attribute__((format(printf, 3, 0))) void
bw_text_print(char *text, size_t size, const char *format, va_list args);

#endif
