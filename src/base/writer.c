#include "writer.h"

#include <math.h>
#include <string.h>

#include "number.h"
#include "utf8.h"

/* Invariant: bytes reach the sink in order; after one refusal none does. */

static void flush(bw_writer *out)
{
    if (!out->failed && out->used > 0)
        out->failed = !out->sink(out->payload, out->buffer, out->used);
    out->used = 0;
}

void bw_writer_start(bw_writer *out, bw_write_bytes *sink, void *payload)
{
    out->sink = sink;
    out->payload = payload;
    out->failed = false;
    out->used = 0;
}

void bw_write_part(bw_writer *out, const char *bytes, size_t length)
{
    while (length > 0 && !out->failed) {
        size_t room = sizeof out->buffer - out->used;
        size_t part = length < room ? length : room;
        memcpy(out->buffer + out->used, bytes, part);
        out->used += part;
        bytes += part;
        length -= part;
        if (out->used == sizeof out->buffer)
            flush(out);
    }
}

void bw_write_text(bw_writer *out, const char *text)
{
    bw_write_part(out, text, strlen(text));
}

void bw_write_repeat(bw_writer *out, char c, size_t count)
{
    for (size_t i = 0; i < count; i++)
        bw_write_part(out, &c, 1);
}

void bw_write_number(bw_writer *out, double value, int digits)
{
    if (isfinite(value))
        bw_write_text(out, BW_NUMBER_G(value, digits));
}

void bw_write_escaped(bw_writer *out, const char *bytes, size_t length)
{
    char escape[5];
    for (size_t i = 0; i < length;) {
        unsigned code;
        const size_t count = bw_utf8_next(bytes + i, length - i, &code);
        if (!bw_utf8_broken(bytes + i, count))
            bw_write_part(out, bytes + i, count);
        for (size_t k = 0; bw_utf8_broken(bytes + i, count) && k < count; k++) {
            bw_utf8_escape(escape, bytes[i + k]);
            bw_write_text(out, escape);
        }
        i += count;
    }
}

/* How many of the bytes stand for themselves. */
static size_t plain(const char *text, size_t length)
{
    size_t n = 0;
    while (n < length && text[n] >= ' ' && text[n] < 0x7f && text[n] != '"')
        n++;
    return n;
}

static void write_inside(bw_writer *out, const char *text)
{
    const size_t length = strlen(text);
    for (size_t i = 0; i < length;) {
        const size_t as_is = plain(text + i, length - i);
        bw_write_part(out, text + i, as_is);
        i += as_is;
        if (i == length)
            return;
        unsigned code;
        const size_t count = bw_utf8_next(text + i, length - i, &code);
        if (code == '"')
            bw_write_text(out, "\"\"");
        else if (code == '\n')
            bw_write_text(out, " ");
        else if (code < ' ' || code == 0x7f)
            bw_write_text(out, "?");
        else
            bw_write_escaped(out, text + i, count);
        i += count;
    }
}

/* What a spreadsheet would compute. An apostrophe before such a beginning
 * counts, too: so one can be taken off again. No number is one, nor a sign
 * alone. */
static bool like_formula(const char *text)
{
    double value;
    const char *end = text, *sign = text + strspn(text, "' ");
    return *sign != '\0' && strchr("=+-@", *sign) != NULL && sign[1] != '\0' &&
           !(bw_number_read(text, &value, &end) && *end == '\0');
}

void bw_write_field(bw_writer *out, const char *text)
{
    const char *quote = strpbrk(text, ",\"\r\n") != NULL ? "\"" : "";
    bw_write_text(out, quote);
    if (like_formula(text))
        bw_write_text(out, "'");
    write_inside(out, text);
    bw_write_text(out, quote);
}

bool bw_writer_finish(bw_writer *out)
{
    flush(out);
    return !out->failed;
}
