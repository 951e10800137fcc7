#ifndef BW_TESTS_HAS_WORDS_H
#define BW_TESTS_HAS_WORDS_H

/* A text that says what it should. */

#include <check.h>
#include <string.h>

static inline void has(const char *text, const char *words)
{
    ck_assert_msg(strstr(text, words) != NULL, "'%s' in: %s", words, text);
}

#endif
