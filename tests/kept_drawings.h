#ifndef BW_TESTS_KEPT_DRAWINGS_H
#define BW_TESTS_KEPT_DRAWINGS_H

/* The drawings of pages by their digests, beside those kept in a file of
 * tests/data: how they were laid out when it was written (regression values;
 * the layout is our own choice, what must be right of it is tested by
 * test_marks*.c). Where a layout is changed on purpose:
 *
 *   BOTHWAYS_DRAWINGS=update build/tests/test_NAME
 *
 * and the pages are to be looked at. */

#include <stdio.h>
#include <stdlib.h>

#include "paper.h"
#include "sha256.h"

enum { KEPT_MOST = 400, KEPT_TITLE = 96, KEPT_DIGEST = 16 };

typedef char kept_line[KEPT_TITLE + KEPT_DIGEST + 32];

static kept_line is[KEPT_MOST], was[KEPT_MOST];
static size_t kept_count;

static inline void take_all(const char *name, const char *page)
{
    size_t nth = 0;
    for (const char *at = page; (at = strstr(at, "<svg")) != NULL;) {
        const char *title = strstr(at, "<title"), *end = strstr(at, "</svg>");
        char digest[BW_SHA256_TEXT], words[KEPT_TITLE];
        bw_sha256 hash;
        ck_assert_ptr_nonnull(end);
        ck_assert_uint_lt(kept_count, KEPT_MOST);
        bw_sha256_start(&hash);
        bw_sha256_add(&hash, at, (size_t)(end - at));
        bw_sha256_finish(&hash, digest);
        title = title != NULL && title < end ? strchr(title, '>') + 1 : "";
        snprintf(words, sizeof words, "%.*s", (int)strcspn(title, "<"), title);
        snprintf(is[kept_count++], sizeof is[0], "%s %zu %.*s %s", name, ++nth,
                 KEPT_DIGEST, digest, words);
        at = end;
    }
}

static inline void write_kept(const char *path)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(
        "# Drawings as they were laid out: document, number, digest, title.\n",
        file);
    for (size_t i = 0; i < kept_count; i++)
        fprintf(file, "%s\n", is[i]);
    ck_assert_int_eq(fclose(file), 0);
}

static inline size_t read_kept(const char *path)
{
    FILE *file = fopen(path, "r");
    size_t lines = 0;
    ck_assert_ptr_nonnull(file);
    while (lines < KEPT_MOST &&
           fgets(was[lines], sizeof was[0], file) != NULL) {
        was[lines][strcspn(was[lines], "\n")] = '\0';
        lines += was[lines][0] != '#';
    }
    fclose(file);
    return lines;
}

static inline void are_as_kept(const char *path)
{
    const char *update = getenv("BOTHWAYS_DRAWINGS");
    if (update != NULL && strcmp(update, "update") == 0)
        write_kept(path);
    const size_t lines = read_kept(path);
    for (size_t i = 0; i < kept_count && i < lines; i++)
        ck_assert_str_eq(is[i], was[i]);
    ck_assert_uint_eq(kept_count, lines);
    ck_assert_uint_gt(kept_count, 20);
}

#endif
