/* The values of a row, as fields of CSV or members of a JSON object. Nine
 * significant digits, so that a reader can redo the sums. Invariant: what is
 * written as JSON is ASCII or valid UTF-8, and no text of a file can end its
 * string. */

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "table.h"
#include "utf8.h"

enum { DIGITS = 9 };

/* ---- strings of JSON ----------------------------------------------------- */

/* "\\xe4" where no character of UTF-8 begins; what steers a terminal or a line
 * by its code. */
static void put_character(bw_writer *out, const char *bytes, size_t length,
                          unsigned code)
{
    char escape[16];
    if (bw_utf8_broken(bytes, length)) {
        for (size_t i = 0; i < length; i++) {
            bw_utf8_escape(escape, bytes[i]);
            bw_write_text(out, "\\");
            bw_write_text(out, escape);
        }
        return;
    }
    if (bw_utf8_steers(code)) {
        snprintf(escape, sizeof escape, "\\u%04x", code);
        bw_write_text(out, escape);
        return;
    }
    if (code == '"' || code == '\\')
        bw_write_text(out, "\\");
    bw_write_part(out, bytes, length);
}

/* How many of the bytes stand for themselves. */
static size_t plain(const char *text)
{
    size_t n = 0;
    while (text[n] >= ' ' && text[n] < 0x7f && text[n] != '"' &&
           text[n] != '\\')
        n++;
    return n;
}

void bw_json_text(bw_writer *out, const char *text)
{
    const size_t length = strlen(text);
    bw_write_text(out, "\"");
    for (size_t i = 0; i < length;) {
        unsigned code;
        const size_t as_is = plain(text + i);
        if (as_is > 0) {
            bw_write_part(out, text + i, as_is);
            i += as_is;
            continue;
        }
        const size_t count = bw_utf8_next(text + i, length - i, &code);
        put_character(out, text + i, count, code);
        i += count;
    }
    bw_write_text(out, "\"");
}

/* ---- columns ----------------------------------------------------------- */

bool bw_column_next(bw_cells *c, bw_column column)
{
    if (c->listed != NULL) {
        assert(c->count < BW_COLUMNS_MOST);
        c->listed[c->count++] = column;
        return false;
    }
    bw_writer *out = &c->page.out;
    c->column = column;
    if (c->count++ > 0)
        bw_write_text(out, c->json ? ", " : ",");
    if (!c->json)
        return true;
    bw_json_text(out, column.name);
    bw_write_text(out, ": ");
    return true;
}

void bw_put_text(bw_cells *c, const char *text)
{
    const bool absent = text == NULL ||
                        (c->column.may_be_absent && text[0] == '\0');
    if (!c->json)
        bw_write_field(&c->page.out, absent ? "" : text);
    else if (absent)
        bw_write_text(&c->page.out, "null");
    else
        bw_json_text(&c->page.out, text);
}

void bw_put_number(bw_cells *c, double value)
{
    if (c->json && !isfinite(value))
        bw_write_text(&c->page.out, "null");
    else
        bw_write_number(&c->page.out, value, DIGITS);
}

void bw_assembly_column(bw_cells *c)
{
    BW_TEXT(c, "assembly", "id of the wall",
            c->of != NULL ? c->of : c->wall->assembly->id);
}

void bw_section_columns(bw_cells *c)
{
    bw_assembly_column(c);
    BW_TEXT(c, "section", "name of the section", c->part->section->name);
}

/* ---- rows -------------------------------------------------------------- */

void bw_row(bw_cells *c, const void *row)
{
    bw_writer *out = &c->page.out;
    if (c->json)
        bw_write_text(out, c->more ? ",\n{" : "\n{");
    c->more = true;
    c->count = 0;
    c->table->columns(c, row);
    bw_write_text(out, c->json ? "}" : "\n");
}

void bw_cells_start(bw_cells *c, const bw_results *results, bool json,
                    bw_sink *sink, void *payload)
{
    *c = (bw_cells){.page = {.width = 100}, .results = results, .json = json};
    bw_writer_start(&c->page.out, sink, payload);
}
