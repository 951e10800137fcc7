#ifndef BW_BASE_WRITER_H
#define BW_BASE_WRITER_H

/* Text on its way to a sink: buffered, numbers free of the locale. */

#include <stdbool.h>
#include <stddef.h>

/* Takes bytes; false stops the writing (disk full). The same type as the
 * public bw_sink, which base does not see. */
typedef bool bw_write_bytes(void *payload, const char *bytes, size_t length);

/* After the sink has refused once, `failed` stays true and nothing more is
 * sent; callers look once, at the end (bw_writer_finish). */
typedef struct bw_writer {
    bw_write_bytes *sink;
    void *payload;
    bool failed;
    size_t used;
    char buffer[4096];
} bw_writer;

void bw_writer_start(bw_writer *out, bw_write_bytes *sink, void *payload);

void bw_write_text(bw_writer *out, const char *text);
void bw_write_part(bw_writer *out, const char *bytes, size_t length);
void bw_write_repeat(bw_writer *out, char c, size_t count);

/* A number as printf's %.*g would write it in the "C" locale; nothing at all
 * for a value that is not finite. */
void bw_write_number(bw_writer *out, double value, int digits);

/* Bytes of a text; those that are no character of UTF-8 as "\\xe4". */
void bw_write_escaped(bw_writer *out, const char *bytes, size_t length);

/* One field of a CSV row, quoted where RFC 4180 wants it; control characters
 * other than line feed become '?'. Line feeds become blanks. A text that a
 * spreadsheet would take for a formula begins with an apostrophe (tables.md).
 */
void bw_write_field(bw_writer *out, const char *text);

/* Sends what is left; true if every byte was taken. */
bool bw_writer_finish(bw_writer *out);

#endif
