#ifndef BW_TESTS_HAS_WORDS_H
#define BW_TESTS_HAS_WORDS_H

/* A text that says what it should: in these words, for the one suite that owns
 * the wording, or naming layers, months and numbers, in whatever words. */

#include <check.h>
#include <string.h>

static inline void has(const char *text, const char *words)
{
    ck_assert_msg(strstr(text, words) != NULL, "'%s' in: %s", words, text);
}

static inline void names_all(const char *text, const char *const *name)
{
    for (; *name != NULL; name++)
        has(text, *name);
}
#define NAMES(text, ...)                                                       \
    names_all((text), (const char *const[]){__VA_ARGS__, NULL})

#endif
