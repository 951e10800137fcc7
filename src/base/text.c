#include "text.h"

#include <stdbool.h>
#include <string.h>

enum { LONGEST = 63 };

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
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
            char x = lower(a[i - 1]), y = lower(b[j - 1]);
            size_t best = last[j - 1] + (x != y);
            if (last[j] + 1 < best)
                best = last[j] + 1;
            if (now[j - 1] + 1 < best)
                best = now[j - 1] + 1;
            if (i > 1 && j > 1 && x == lower(b[j - 2]) &&
                y == lower(a[i - 2]) && before[j - 2] + 1 < best)
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
    size_t allowed = strlen(word) / 3;
    size_t best = (allowed > 2 ? allowed : 2) + 1;
    for (size_t i = 0; i < count; i++) {
        size_t d = distance(word, candidates[i]);
        if (d < best) {
            best = d;
            nearest = candidates[i];
        }
    }
    return nearest;
}
