#include "writer.h"

#include <math.h>
#include <string.h>

#include "number.h"

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
    char text[64];
    if (isfinite(value))
        bw_write_text(out, bw_number_g(text, sizeof text, value, digits));
}

static void write_inside(bw_writer *out, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        unsigned char byte = (unsigned char)*c;
        if (*c == '"')
            bw_write_text(out, "\"\"");
        else if (*c == '\n')
            bw_write_text(out, " ");
        else if (byte < ' ' || byte == 0x7f)
            bw_write_text(out, "?");
        else
            bw_write_part(out, c, 1);
    }
}

void bw_write_field(bw_writer *out, const char *text)
{
    const char *quote = strpbrk(text, ",\"\r\n") != NULL ? "\"" : "";
    bw_write_text(out, quote);
    write_inside(out, text);
    bw_write_text(out, quote);
}

bool bw_writer_finish(bw_writer *out)
{
    flush(out);
    return !out->failed;
}
