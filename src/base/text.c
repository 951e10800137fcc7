#include "text.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "utf8.h"

enum { LONGEST = 63 };

int bw_text_order(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

/* Optimal string alignment distance: insert, delete, replace, swap. */
static size_t distance(const char *a, const char *b)
{
    size_t n = strlen(a), m = strlen(b);
    if (n > LONGEST || m > LONGEST)
        return n > m ? n : m;
    size_t row[3][LONGEST + 1];
    for (size_t j = 0; j <= m; j++)
        row[0][j] = j;
    for (size_t i = 1; i <= n; i++) {
        size_t *now = row[i % 3], *last = row[(i - 1) % 3];
        size_t *before = row[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= m; j++) {
            char x = bw_text_lower(a[i - 1]), y = bw_text_lower(b[j - 1]);
            size_t best = last[j - 1] + (x != y);
            if (last[j] + 1 < best)
                best = last[j] + 1;
            if (now[j - 1] + 1 < best)
                best = now[j - 1] + 1;
            if (i > 1 && j > 1 && x == bw_text_lower(b[j - 2]) &&
                y == bw_text_lower(a[i - 2]) && before[j - 2] + 1 < best)
                best = before[j - 2] + 1;
            now[j] = best;
        }
    }
    return row[n % 3][m];
}

const char *bw_text_nearest(const char *word, const char *const *candidates,
                            size_t count)
{
    const char *nearest = NULL;
    size_t length = strlen(word), allowed = length > 8 ? length / 3 : 2;
    /* Two edits would make any word of two letters of any other. */
    size_t best = length > 2 ? allowed + 1 : 2;
    for (size_t i = 0; i < count; i++) {
        const size_t other = strlen(candidates[i]);
        if ((other > length ? other - length : length - other) >= best)
            continue; /* so many are to be inserted at least */
        size_t d = distance(word, candidates[i]);
        if (d < best) {
            best = d;
            nearest = candidates[i];
        }
    }
    return nearest;
}

const char *bw_text_meant(char text[BW_MEANT], const char *word,
                          const char *const *candidates, size_t count)
{
    const char *nearest = bw_text_nearest(word, candidates, count);
    text[0] = '\0';
    if (nearest != NULL)
        snprintf(text, BW_MEANT, " (did you mean %s?)", nearest);
    return text;
}

static bool is_blank(unsigned c)
{
    return (c >= '\t' && c <= '\r') || c == ' ' || c == 0x85 || c == 0xa0 ||
           c == 0x1680 || (c >= 0x2000 && c <= 0x200a) || c == 0x2028 ||
           c == 0x2029 || c == 0x202f || c == 0x205f || c == 0x2800 ||
           c == 0x3000 || c == 0x3164;
}

static bool has_no_width(unsigned c)
{
    return c == 0xad || c == 0x34f || c == 0x115f || c == 0x1160 ||
           c == 0x180e || (c >= 0x200b && c <= 0x200f) ||
           (c >= 0x202a && c <= 0x202e) || (c >= 0x2060 && c <= 0x206f) ||
           (c >= 0xfe00 && c <= 0xfe0f) || c == 0xfeff || c == 0xffa0 ||
           (c >= 0xe0000 && c <= 0xe0fff);
}

/* The next character that a reader tells apart, 0 at the end. */
static unsigned next_seen(const char **at, bool first)
{
    bool blank = false;
    while (**at != '\0') {
        unsigned code;
        const size_t bytes = bw_utf8_next(*at, 4, &code); /* a NUL ends it */
        if (is_blank(code)) {
            blank = true;
        } else if (!has_no_width(code)) {
            if (blank && !first)
                return ' ';
            *at += bytes;
            return code < 0x80 ? (unsigned char)bw_text_lower((char)code)
                               : code;
        }
        *at += bytes;
    }
    return 0;
}

bool bw_text_same(const char *a, const char *b)
{
    for (bool first = true;; first = false) {
        const unsigned x = next_seen(&a, first), y = next_seen(&b, first);
        if (x != y || x == 0)
            return x == y;
    }
}

static bool is_mark(unsigned c)
{
    return c < 0x80 ? !((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
                    : c < 0xc0 || (c >= 0x2010 && c <= 0x205e);
}

bool bw_text_given(const char *text)
{
    static const char *const nothing[] = {"none", "todo", "n/a",     "na",
                                          "n.a.", "tbd",  "unknown", "x",
                                          "xx",   "xxx",  "nil",     "null"};
    for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++)
        if (bw_text_same(text, nothing[i]))
            return false;
    unsigned code = next_seen(&text, true);
    while (code != 0 && is_mark(code))
        code = next_seen(&text, false);
    return code != 0;
}

void bw_text_print(char *text, size_t size, const char *format, va_list args)
{
    const int wrote = vsnprintf(text, size, format, args);
    if (wrote >= (int)size)
        bw_utf8_trim(text);
    for (char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 0x7f)
            *c = '?';
}

char *bw_text_trim(char *text)
{
    while (*text == ' ' || *text == '\t')
        text++;
    size_t n = strlen(text);
    while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t'))
        text[--n] = '\0';
    return text;
}
