#ifndef BW_TESTS_FLAT_TEXT_H
#define BW_TESTS_FLAT_TEXT_H

/* A document as text on one line, so that a sentence is found wherever it was
 * broken. */

#include "bothways/bothways.h"
#ifndef BW_NO_FENCE
#include "fenced_results.h"
#endif
#include "paper.h"

static paper flat;

/* What no result makes a document say: a count below nought, no number, what
 * lies behind the last of an array (fenced_results.h). */
static inline void has_no_slips(const char *text)
{
    static const char *const slips[] = {"1844674407370955",
                                        "beyond the last",
                                        " nan",
                                        " -nan",
                                        " inf",
                                        " -inf",
                                        "%s"};
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        const char *at = strstr(text, slips[i]);
        /* a word may begin so */
        ck_assert_msg(at == NULL || (at[strlen(slips[i])] >= 'a' &&
                                     at[strlen(slips[i])] <= 'z'),
                      "%.60s", at);
    }
}

static inline void print_flat(const bw_results *of, bw_document document,
                              bw_extent extent)
{
    const bw_report_options options = {.width = 100, .extent = extent};
    paper_clear(&flat);
    ck_assert_int_eq(bw_report(of, document, BW_FORM_TEXT, &options, paper_take,
                               &flat, NULL),
                     BW_OK);
    size_t to = 0;
    for (size_t i = 0; i < flat.used; i++) {
        const char c = flat.text[i] == '\n' ? ' ' : flat.text[i];
        if (c != ' ' || to == 0 || flat.text[to - 1] != ' ')
            flat.text[to++] = c;
    }
    flat.text[to] = '\0';
    flat.used = to;
    has_no_slips(flat.text);
}

/* `says` is there if it is so, and is not if not. */
static inline void says_if(bool so, const char *says)
{
    ck_assert_msg((strstr(flat.text, says) != NULL) == so,
                  "%s '%s' in: %.2500s", so ? "no" : "yet", says, flat.text);
}

#endif
