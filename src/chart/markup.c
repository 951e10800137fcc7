#include "markup.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "number.h"
#include "utf8.h"

enum { DIGITS = 9 };

static const char doctype[] = "<!DOCTYPE html>\n";

void bw_markup_start(bw_markup *out, bw_write_bytes *sink, void *payload)
{
    *out = (bw_markup){.depth = 0};
    bw_writer_start(&out->out, sink, payload);
    bw_write_text(&out->out, doctype);
}

/* Ends the start tag, if one is open. */
static void end_tag(bw_markup *out)
{
    if (out->in_tag)
        bw_write_text(&out->out, ">");
    out->in_tag = false;
}

bool bw_markup_finish(bw_markup *out)
{
    while (out->depth > 0)
        bw_tag_close_short(out);
    bw_write_text(&out->out, "\n");
    return bw_writer_finish(&out->out) && !out->no_memory;
}

void bw_tag_open(bw_markup *out, const char *name, const char *class_name)
{
    assert(out->depth < BW_MARKUP_DEPTH && !out->in_attribute);
    end_tag(out);
    bw_write_text(&out->out, "<");
    bw_write_text(&out->out, name);
    out->open[out->depth++] = name;
    out->in_tag = true;
    if (class_name != NULL)
        bw_tag_set(out, "class", class_name);
}

/* Would turn the words after it about, or end the line, for the reader. */
static bool steers(const char *bytes, size_t length)
{
    unsigned code;
    bw_utf8_next(bytes, length, &code);
    return bw_utf8_steers(code);
}

static void put_ascii(bw_writer *out, char c)
{
    switch (c) {
    case '<':
        bw_write_text(out, "&lt;");
        break;
    case '>':
        bw_write_text(out, "&gt;");
        break;
    case '&':
        bw_write_text(out, "&amp;");
        break;
    case '"':
        bw_write_text(out, "&quot;");
        break;
    default:
        bw_write_part(out, &c, 1);
    }
}

void bw_tag_part(bw_markup *out, const char *bytes, size_t length)
{
    if (!out->in_attribute && length > 0)
        end_tag(out);
    for (size_t i = 0; i < length;) {
        size_t count = bw_utf8_valid(bytes + i, length - i);
        if (count == 0 && (unsigned char)bytes[i] >= 0x80)
            bw_write_escaped(&out->out, bytes + i, 1);
        else if (count == 0)
            bw_write_text(&out->out,
                          bytes[i] == '\n' || bytes[i] == '\t' ? " " : "?");
        else if (count == 1)
            put_ascii(&out->out, bytes[i]);
        else if (steers(bytes + i, count))
            bw_write_text(&out->out, "?");
        else
            bw_write_part(&out->out, bytes + i, count);
        i += count > 0 ? count : 1;
    }
}

void bw_tag_text(bw_markup *out, const char *text)
{
    bw_tag_part(out, text, strlen(text));
}

static void open_attribute(bw_markup *out, const char *name)
{
    assert(out->in_tag && !out->in_attribute);
    bw_write_text(&out->out, " ");
    bw_write_text(&out->out, name);
    bw_write_text(&out->out, "=\"");
    out->in_attribute = true;
}

static void close_attribute(bw_markup *out)
{
    bw_write_text(&out->out, "\"");
    out->in_attribute = false;
}

void bw_tag_set(bw_markup *out, const char *name, const char *value)
{
    open_attribute(out, name);
    bw_tag_text(out, value);
    close_attribute(out);
}

void bw_tag_set_number(bw_markup *out, const char *name, double value,
                       int digits)
{
    bw_tag_set(out, name, BW_NUMBER_G(value, digits));
}

void bw_tag_set_numbers(bw_markup *out, const char *name, const double *value,
                        size_t count)
{
    open_attribute(out, name);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            bw_write_text(&out->out, " ");
        if (isfinite(value[i]))
            bw_write_number(&out->out, value[i], DIGITS);
        else
            bw_write_text(&out->out, "-");
    }
    close_attribute(out);
}

void bw_tag_raw(bw_markup *out, const char *text)
{
    end_tag(out);
    bw_write_text(&out->out, text);
}

void bw_tag_close(bw_markup *out)
{
    end_tag(out);
    bw_tag_close_short(out);
}

void bw_tag_close_short(bw_markup *out)
{
    assert(out->depth > 0 && !out->in_attribute);
    const char *name = out->open[--out->depth];
    if (out->in_tag) {
        bw_write_text(&out->out, "/>");
        out->in_tag = false;
        return;
    }
    bw_write_text(&out->out, "</");
    bw_write_text(&out->out, name);
    bw_write_text(&out->out, ">");
}

void bw_tag_whole(bw_markup *out, const char *name, const char *class_name,
                  const char *text)
{
    bw_tag_open(out, name, class_name);
    bw_tag_text(out, text);
    bw_tag_close(out);
}
