#define _GNU_SOURCE /* memmem */

#include "material_pick.h"

#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "file.h"
#include "text.h"

/* What is done to the text before it is parsed. It is taken for what the
 * shipped files are: well-formed, no "<" but of tags and comments, an element
 * of a kind never within another. Of another text something unsound is left,
 * which the parser refuses.
 *
 * Invariant: as many line ends stand before what is left as stood before. */

/* ---- words ------------------------------------------------------------- */

enum { LONGEST_WORD = 60, MOST_WORDS = 65536, FEW = 64 };

/* As ids are written: numbers, units and sentences are left out. */
static bool like_id(const char *word, size_t length)
{
    if (length == 0 || length > LONGEST_WORD)
        return false;
    for (size_t i = 0; i < length; i++)
        if (bw_text_blank(word[i]))
            return false;
    return word[0] < '0' || word[0] > '9';
}

/* Sorts all, each once: walls name the same few. */
static void settle(bw_quotes *q)
{
    size_t kept = 0;
    if (q->count > 0)
        qsort(q->word, q->count, sizeof q->word[0], bw_text_order);
    for (size_t i = 0; i < q->count; i++)
        if (kept == 0 || strcmp(q->word[kept - 1], q->word[i]) != 0)
            q->word[kept++] = q->word[i];
    q->count = q->sorted = kept;
}

/* Among those that are sorted. */
static bool quoted(const bw_quotes *quotes, const char *word, size_t length)
{
    char key[LONGEST_WORD + 1];
    if (quotes->sorted == 0 || length > LONGEST_WORD)
        return false;
    memcpy(key, word, length);
    key[length] = '\0';
    const char *at = key;
    return bsearch(&at, quotes->word, quotes->sorted, sizeof quotes->word[0],
                   bw_text_order) != NULL;
}

static bw_status keep(bw_quotes *q, const char *word, size_t length,
                      bw_error *err)
{
    if (quoted(q, word, length))
        return BW_OK;
    const char **all = bw_arena_more(&q->arena, q->word, q->count, &q->room,
                                     sizeof *all);
    BW_TRY_MEMORY(all != NULL, err);
    q->word = all;
    char *copy = bw_arena_get(&q->arena, length + 1, 1);
    BW_TRY_MEMORY(copy != NULL, err);
    memcpy(copy, word, length);
    q->word[q->count++] = copy;
    return BW_OK;
}

bw_status bw_quotes_add(bw_quotes *quotes, const char *text, bw_error *err)
{
    const size_t before = quotes->count;
    for (const char *c = strchr(text, '='); c != NULL; c = strchr(c, '=')) {
        if (quotes->count - before == MOST_WORDS)
            break; /* what is not found is read from the whole library */
        c++;
        while (bw_text_blank(*c))
            c++;
        if (*c != '"' && *c != '\'')
            continue;
        const char *word = c + 1, *end = strchr(word, *c);
        if (end == NULL)
            break;
        if (like_id(word, (size_t)(end - word)))
            BW_TRY(keep(quotes, word, (size_t)(end - word), err));
        c = end + 1;
    }
    if (quotes->count > 2 * quotes->sorted + FEW)
        settle(quotes);
    return BW_OK;
}

bw_status bw_quotes_read(bw_quotes *quotes, const char *path, bw_error *err)
{
    char *text;
    size_t length;
    BW_TRY(bw_file_read(&text, &length, path, "assembly", err));
    bw_status status = bw_quotes_add(quotes, text, err);
    free(text);
    return status;
}

void bw_quotes_close(bw_quotes *quotes)
{
    settle(quotes);
}

void bw_quotes_free(bw_quotes *quotes)
{
    bw_arena_release(&quotes->arena);
    *quotes = (bw_quotes){.count = 0};
}

/* ---- a material file --------------------------------------------------- */

/* Part of a text. */
typedef struct span {
    const char *at;
    size_t length;
} span;

enum { MOST_PICKED = 64 };

/* An element that starts at `at`, up to its end tag's ">"; length 0: no such
 * element starts there. */
static span element(const char *at, const char *name, const char *end_tag)
{
    size_t length = strlen(name);
    if (strncmp(at + 1, name, length) != 0 || !bw_text_blank(at[1 + length]))
        return (span){at, 0};
    const char *end = strstr(at, end_tag);
    return (span){at, end == NULL ? 0 : (size_t)(end - at) + strlen(end_tag)};
}

/* The value of an attribute of the start tag. */
static span value(span of, const char *attribute)
{
    const char *close = memchr(of.at, '>', of.length);
    size_t head = close != NULL ? (size_t)(close - of.at) : of.length;
    const char *at = memmem(of.at, head, attribute, strlen(attribute));
    if (at == NULL)
        return (span){of.at, 0};
    at += strlen(attribute);
    const char *end = memchr(at, '"', head - (size_t)(at - of.at));
    return (span){at, end == NULL ? 0 : (size_t)(end - at)};
}

static bool is_quoted(span material, const bw_quotes *quotes)
{
    const span id = value(material, " id=\""); /* none: no word is empty */
    return quoted(quotes, id.at, id.length);
}

/* Which materials of a text are quoted; *count above MOST_PICKED: too many for
 * it to be worth it. */
static void find_picked(span picked[MOST_PICKED], size_t *count,
                        const char *text, const bw_quotes *quotes)
{
    *count = 0;
    for (const char *c = strstr(text, "<material "); c != NULL;
         c = strstr(c, "<material ")) {
        span whole = element(c, "material", "</material>");
        if (whole.length > 0 && is_quoted(whole, quotes)) {
            if (*count < MOST_PICKED)
                picked[*count] = whole;
            ++*count;
        }
        c += whole.length > 0 ? whole.length : 1;
    }
}

static bool is_named(span source, const span *picked, size_t count)
{
    span key = value(source, " key=\"");
    for (size_t i = 0; i < count; i++)
        if (memmem(picked[i].at, picked[i].length, key.at, key.length) != NULL)
            return true;
    return false;
}

/* What starts at a "<" and is to be left out; length 0: nothing. */
static span left_out(const char *at, const span *picked, size_t count)
{
    if (strncmp(at, "<!--", 4) == 0) {
        const char *end = strstr(at, "-->");
        return (span){at, end == NULL ? 0 : (size_t)(end - at) + 3};
    }
    span whole = element(at, "material", "</material>");
    for (size_t i = 0; i < count; i++)
        if (picked[i].at == at)
            return (span){at, 0};
    if (whole.length > 0)
        return whole;
    whole = element(at, "source", "</source>");
    return is_named(whole, picked, count) ? (span){at, 0} : whole;
}

/* Puts as many line ends as a span has; returns where they end. */
static char *put_lines(char *to, span of)
{
    const char *end = of.at + of.length;
    for (const char *c = of.at;
         (c = memchr(c, '\n', (size_t)(end - c))) != NULL; c++)
        *to++ = '\n';
    return to;
}

bool bw_material_thin(char *text, const bw_quotes *quotes)
{
    span picked[MOST_PICKED];
    size_t count;
    find_picked(picked, &count, text, quotes);
    if (count == 0 || count > MOST_PICKED)
        return count > 0;
    char *thin = malloc(strlen(text) + 1), *to = thin;
    if (thin == NULL)
        return true; /* the whole will do */
    for (const char *from = text; *from != '\0';) {
        size_t upto = strcspn(from, "<");
        memcpy(to, from, upto);
        to += upto;
        from += upto;
        if (*from == '\0')
            break;
        span out = left_out(from, picked, count);
        if (out.length > 0)
            to = put_lines(to, out);
        else
            *to++ = *from;
        from += out.length > 0 ? out.length : 1;
    }
    *to = '\0';
    memcpy(text, thin, (size_t)(to - thin) + 1);
    free(thin);
    return true;
}
