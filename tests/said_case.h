#ifndef BW_TESTS_SAID_CASE_H
#define BW_TESTS_SAID_CASE_H

/* A document as a list of words, so that two can be laid side by side: what
 * changes with a field is what the document says of it. Of a page the words
 * outside of its drawings, style and title. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "full_result.h"
#include "printed.h"

enum { WORDS = 16384, WORD = 48 };

typedef struct words {
    char word[WORDS][WORD];
    size_t count;
} words;

static inline bool starts(const char *text, const char *part)
{
    return strncmp(text, part, strlen(part)) == 0;
}

/* Not strstr, of which a sanitizer reads all that is left of a document at each
 * call. */
static inline const char *past(const char *at, const char *end)
{
    const char *found = strchr(at, end[0]);
    while (found != NULL && !starts(found, end))
        found = strchr(found + 1, end[0]);
    return found != NULL ? found + strlen(end) : at + strlen(at);
}

/* A letter of a number or a word; brackets and stops between them are not. */
static inline bool is_word(const char *at)
{
    const unsigned char c = (unsigned char)*at;
    const bool digit = at[1] >= '0' && at[1] <= '9';
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
           (c >= 'a' && c <= 'z') || c >= 0x80 || c == '%' ||
           (c == '/' && !digit) ||
           ((c == '.' || c == '-' || c == '+') && digit);
}

/* Not the letters and blocks of a bar drawn of characters. */
static inline bool is_read(const char *word)
{
    if (strcmp(word, "a") == 0 || strcmp(word, "c") == 0)
        return false;
    for (; *word != '\0'; word++)
        if ((unsigned char)*word < 0x80)
            return true;
    return false;
}

static inline void split(words *w, const char *at)
{
    const bool page = starts(at, "<!DOCTYPE");
    w->count = 0;
    while (*at != '\0') {
        if (page && starts(at, "<svg"))
            at = past(at, "</svg>");
        else if (page && starts(at, "<style"))
            at = past(at, "</style>");
        else if (page && starts(at, "<title"))
            at = past(at, "</title>");
        else if (page && starts(at, "<figcaption"))
            at = past(at, "</figcaption>");
        else if (page && *at == '<')
            at = past(at, ">");
        else if (!is_word(at))
            at++;
        else {
            size_t length = 0;
            while (is_word(at)) {
                if (length + 1 < WORD)
                    w->word[w->count][length++] = *at;
                at++;
            }
            w->word[w->count][length] = '\0';
            w->count += is_read(w->word[w->count]);
            ck_assert_uint_lt(w->count, WORDS);
        }
    }
}

/* What the document says of a field that is changed alone: its words that are
 * other ones then. */
typedef struct said {
    size_t own;   /* say the field, times its factor, to their last digit */
    size_t other; /* say something else: what follows from it */
    size_t first; /* the first that says the field */
} said;

#endif
