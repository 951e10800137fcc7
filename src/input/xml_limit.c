/* What a file may ask of the parser, looked at before it: libxml2 compares each
 * attribute of an element with every other, and keeps what it reads in many
 * times the room of its text.
 *
 * Invariant: one pass over the bytes; nothing is read twice. It is exact for
 * well-formed text; at the first fault of another the parser stops
 * (xml_open.c), so that it never gets beyond what was looked at. */

#include "xml_limit.h"

#include <stdbool.h>
#include <string.h>
#include <strings.h>

#include "fail.h"

typedef struct scan {
    const char *text, *end, *at;
    const char *path, *what;
    size_t parts; /* elements and attributes */
    bw_error *err;
} scan;

static long line_of(const scan *s)
{
    long line = 1;
    const char *c = s->text;
    while ((c = memchr(c, '\n', (size_t)(s->at - c))) != NULL) {
        line++;
        c++;
    }
    return line;
}

#define REFUSE(s, ...)                                                         \
    bw_fail((s)->err, BW_ERR_INPUT, (s)->path, line_of(s), __VA_ARGS__)

/* Goes on behind `mark`, or to the end. */
static void skip_to(scan *s, const char *mark)
{
    const size_t length = strlen(mark);
    for (const char *c = s->at;
         (c = memchr(c, mark[0], (size_t)(s->end - c))) != NULL; c++)
        if ((size_t)(s->end - c) >= length && memcmp(c, mark, length) == 0) {
            s->at = c + length;
            return;
        }
    s->at = s->end;
}

static bw_status count_part(scan *s)
{
    return ++s->parts <= BW_XML_PARTS
               ? BW_OK
               : REFUSE(s,
                        "more than %d elements and attributes, which no %s "
                        "file needs",
                        BW_XML_PARTS, s->what);
}

/* A value between quotes, at the first of them. */
static bw_status take_value(scan *s)
{
    const char quote = *s->at++;
    const char *end = memchr(s->at, quote, (size_t)(s->end - s->at));
    const size_t length = (size_t)((end != NULL ? end : s->end) - s->at);
    if (length > BW_XML_TEXT)
        return REFUSE(s,
                      "an attribute is longer than %d bytes, which no value "
                      "needs",
                      BW_XML_TEXT);
    s->at = end != NULL ? end + 1 : s->end;
    return count_part(s);
}

/* From the name of a start tag (or an end tag) to its ">". */
static bw_status take_tag(scan *s)
{
    int attributes = 0;
    BW_TRY(count_part(s));
    while (s->at < s->end && *s->at != '>') {
        if (*s->at != '"' && *s->at != '\'') {
            s->at++;
            continue;
        }
        if (++attributes > BW_XML_ATTRIBUTES)
            return REFUSE(s,
                          "an element with more than %d attributes, which none "
                          "needs",
                          BW_XML_ATTRIBUTES);
        BW_TRY(take_value(s));
    }
    s->at += s->at < s->end;
    return BW_OK;
}

/* Text up to the next "<": blanks do not count at its ends. */
static bw_status take_text(scan *s)
{
    static const char blanks[] = " \t\r\n";
    const char *end = memchr(s->at, '<', (size_t)(s->end - s->at));
    const char *first = s->at, *last = end != NULL ? end : s->end;
    while (first < last && strchr(blanks, *first) != NULL)
        first++;
    while (first < last && strchr(blanks, last[-1]) != NULL)
        last--;
    if (last - first > BW_XML_TEXT)
        return REFUSE(s, "a text of more than %d bytes, which none needs",
                      BW_XML_TEXT);
    s->at = end != NULL ? end : s->end;
    return BW_OK;
}

static bool starts(const scan *s, const char *with)
{
    const size_t length = strlen(with);
    return (size_t)(s->end - s->at) >= length &&
           memcmp(s->at, with, length) == 0;
}

/* The parser turns other encodings into UTF-8 as it reads; looked at here are
 * the bytes, which say the same in those that hold ASCII as it is. */
static bw_status check_encoding(scan *s)
{
    static const char *const known[] = {"utf-8", "us-ascii", "ascii",
                                        "iso-8859-", "windows-125"};
    const char *end = memchr(s->text, '>', (size_t)(s->end - s->text));
    const char key[] = "encoding";
    if (!starts(s, "<?xml") || end == NULL)
        return BW_OK;
    for (const char *c = s->text; c + sizeof key < end; c++) {
        if (memcmp(c, key, sizeof key - 1) != 0)
            continue;
        c += sizeof key - 1 + strspn(c + sizeof key - 1, " \t\r\n=\"'");
        for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
            if (strncasecmp(c, known[i], strlen(known[i])) == 0)
                return BW_OK;
        return REFUSE(s,
                      "encoding \"%.*s\" is not read; write the file as UTF-8",
                      (int)strcspn(c, "\"'? >"), c);
    }
    return BW_OK;
}

bw_status bw_xml_within(const char *text, size_t length, const char *path,
                        const char *what, bw_error *err)
{
    scan s = {text, text + length, text, path, what, 0, err};
    BW_TRY(check_encoding(&s));
    while (s.at < s.end) {
        BW_TRY(take_text(&s));
        if (starts(&s, "<!--"))
            skip_to(&s, "-->");
        else if (starts(&s, "<![CDATA["))
            skip_to(&s, "]]>");
        else if (starts(&s, "<?"))
            skip_to(&s, "?>");
        else if (starts(&s, "</"))
            skip_to(&s, ">");
        else if (s.at < s.end)
            BW_TRY(take_tag(&s));
    }
    return BW_OK;
}
