#ifndef BW_TEST_PAPER_H
#define BW_TEST_PAPER_H

/* What a report prints, kept; and what is asked of every page of text. */

#include <check.h>
#include <string.h>

#include "report/page.h"
#include "suite.h"

enum { PAPER_SIZE = 4 * 1024 * 1024 };

typedef struct paper {
    char text[PAPER_SIZE];
    size_t used;
} paper;

static inline bool paper_take(void *payload, const char *bytes, size_t length)
{
    paper *p = payload;
    ck_assert_uint_lt(p->used + length, sizeof p->text);
    memcpy(p->text + p->used, bytes, length);
    p->used += length;
    p->text[p->used] = '\0';
    return true;
}

static inline bool paper_refuse(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    (void)bytes;
    (void)length;
    return false;
}

static inline void paper_clear(paper *p)
{
    p->used = 0;
    p->text[0] = '\0';
}

#define HAS(text, part)                                                        \
    ck_assert_msg(strstr((text), (part)) != NULL, "no '%s' in:\n%.3000s",      \
                  (part), (text))
#define HAS_NOT(text, part)                                                    \
    ck_assert_msg(strstr((text), (part)) == NULL, "'%s' in:\n%.3000s", (part), \
                  (text))

/* No line wider than the page, and nothing that a printf left undone. */
static inline void paper_fits(const char *text, size_t width)
{
    static const char *const slips[] = {"(null)", "nan", "inf ", "%s", "%zu"};
    for (size_t i = 0; i < COUNT(slips); i++)
        HAS_NOT(text, slips[i]);
    while (*text != '\0') {
        size_t length = strcspn(text, "\n");
        ck_assert_msg(bw_columns(text, length) <= width, "%zu columns: %.*s",
                      bw_columns(text, length), (int)length, text);
        text += length + (text[length] == '\n');
    }
}

#endif
