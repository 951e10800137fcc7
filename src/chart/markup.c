#include "markup.h"

#include <libxml/xmlwriter.h>
#include <math.h>
#include <string.h>

#include "number.h"

enum { DIGITS = 9, CHUNK = 512 };

static const char doctype[] = "<!DOCTYPE html>\n";

/* A refusal is kept here and hidden from libxml2, which would print it. */
static int take(void *context, const char *bytes, int length)
{
    bw_markup *out = context;
    if (!out->refused && length > 0)
        out->refused = !out->sink(out->payload, bytes, (size_t)length);
    return length;
}

void bw_markup_start(bw_markup *out, bw_write_bytes *sink, void *payload)
{
    *out = (bw_markup){.sink = sink, .payload = payload};
    out->refused = !sink(payload, doctype, sizeof doctype - 1);
    xmlOutputBuffer *buffer = xmlOutputBufferCreateIO(take, NULL, out, NULL);
    if (buffer != NULL) {
        out->writer = xmlNewTextWriter(buffer);
        if (out->writer == NULL)
            xmlOutputBufferClose(buffer);
    }
    out->no_memory = out->writer == NULL;
}

/* The writer fails for want of memory alone. */
static void note(bw_markup *out, int result)
{
    if (result < 0)
        out->no_memory = true;
}

static bool dead(const bw_markup *out)
{
    return out->writer == NULL || out->no_memory || out->refused;
}

bool bw_markup_finish(bw_markup *out)
{
    if (!dead(out))
        note(out, xmlTextWriterEndDocument(out->writer));
    if (!dead(out))
        note(out, xmlTextWriterFlush(out->writer));
    if (out->writer != NULL)
        xmlFreeTextWriter(out->writer);
    out->writer = NULL;
    return !out->refused && !out->no_memory;
}

void bw_tag_open(bw_markup *out, const char *name, const char *class_name)
{
    if (dead(out))
        return;
    note(out, xmlTextWriterStartElement(out->writer, (const xmlChar *)name));
    if (class_name != NULL)
        bw_tag_set(out, "class", class_name);
}

/* Bytes of the character at the start of text, 0: it is not valid there. */
static size_t character(const unsigned char *text, size_t length)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    unsigned char c = text[0];
    if (c < 0x80)
        return c >= ' ' && c != 0x7f ? 1 : 0;
    size_t count = c >= 0xf0 && c < 0xf5 ? 4 : c >= 0xe0 ? 3 : 2;
    if (c < 0xc2 || c >= 0xf5 || count > length)
        return 0;
    unsigned code = c & (0xffU >> (count + 1));
    for (size_t i = 1; i < count; i++) {
        if ((text[i] & 0xc0) != 0x80)
            return 0;
        code = code << 6 | (text[i] & 0x3fU);
    }
    bool control = code < 0xa0, surrogate = code >= 0xd800 && code < 0xe000;
    bool none = code > 0x10ffff || (code & 0xfffe) == 0xfffe;
    return code < least[count] || control || surrogate || none ? 0 : count;
}

void bw_tag_part(bw_markup *out, const char *bytes, size_t length)
{
    char chunk[CHUNK];
    size_t used = 0;
    for (size_t i = 0; i < length && !dead(out);) {
        size_t count = character((const unsigned char *)bytes + i, length - i);
        if (used + 4 >= sizeof chunk) {
            chunk[used] = '\0';
            note(out,
                 xmlTextWriterWriteString(out->writer, (const xmlChar *)chunk));
            used = 0;
        }
        if (count == 0) {
            chunk[used++] = bytes[i] == '\n' || bytes[i] == '\t' ? ' ' : '?';
            i++;
            continue;
        }
        memcpy(chunk + used, bytes + i, count);
        used += count;
        i += count;
    }
    chunk[used] = '\0';
    if (used > 0 && !dead(out))
        note(out,
             xmlTextWriterWriteString(out->writer, (const xmlChar *)chunk));
}

void bw_tag_text(bw_markup *out, const char *text)
{
    bw_tag_part(out, text, strlen(text));
}

void bw_tag_set(bw_markup *out, const char *name, const char *value)
{
    if (dead(out))
        return;
    note(out, xmlTextWriterStartAttribute(out->writer, (const xmlChar *)name));
    bw_tag_text(out, value);
    if (!dead(out))
        note(out, xmlTextWriterEndAttribute(out->writer));
}

void bw_tag_set_number(bw_markup *out, const char *name, double value,
                       int digits)
{
    char text[64];
    bw_tag_set(out, name, bw_number_g(text, sizeof text, value, digits));
}

void bw_tag_set_numbers(bw_markup *out, const char *name, const double *value,
                        size_t count)
{
    if (dead(out))
        return;
    note(out, xmlTextWriterStartAttribute(out->writer, (const xmlChar *)name));
    for (size_t i = 0; i < count; i++) {
        char text[64];
        if (i > 0)
            bw_tag_text(out, " ");
        bw_tag_text(out, isfinite(value[i])
                             ? bw_number_g(text, sizeof text, value[i], DIGITS)
                             : "-");
    }
    if (!dead(out))
        note(out, xmlTextWriterEndAttribute(out->writer));
}

void bw_tag_raw(bw_markup *out, const char *text)
{
    if (!dead(out))
        note(out, xmlTextWriterWriteRaw(out->writer, (const xmlChar *)text));
}

void bw_tag_close(bw_markup *out)
{
    if (!dead(out))
        note(out, xmlTextWriterFullEndElement(out->writer));
}

void bw_tag_close_short(bw_markup *out)
{
    if (!dead(out))
        note(out, xmlTextWriterEndElement(out->writer));
}

void bw_tag_whole(bw_markup *out, const char *name, const char *class_name,
                  const char *text)
{
    bw_tag_open(out, name, class_name);
    bw_tag_text(out, text);
    bw_tag_close(out);
}
