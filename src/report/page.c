#include "page.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "number.h"
#include "utf8.h"

enum { LABEL = 26 };

const char *bw_phrase(bw_page *page, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    char *text = length < 0 ? NULL
                            : bw_arena_get(&page->arena, (size_t)length + 1, 1);
    if (text == NULL) {
        page->no_memory = true;
        return "";
    }
    va_start(args, format);
    vsnprintf(text, (size_t)length + 1, format, args);
    va_end(args);
    return text;
}

const char *bw_fixed(bw_page *page, double value, int decimals)
{
    char text[64];
    if (!isfinite(value))
        return "-";
    if (fabs(value) >= 1e9)
        return bw_phrase(page, "%s", bw_number_g(text, sizeof text, value, 4));
    return bw_phrase(page, "%s",
                     bw_number_f(text, sizeof text, value, decimals));
}

const char *bw_significant(bw_page *page, double value, int digits)
{
    if (!isfinite(value))
        return "-";
    if (value == 0.0)
        return "0";
    int before = (int)floor(log10(fabs(value))) + 1;
    if (before < -4 || before > 9) {
        char text[64];
        return bw_phrase(page, "%s",
                         bw_number_g(text, sizeof text, value, digits));
    }
    int decimals = digits - before;
    char text[64];
    bw_number_f(text, sizeof text, value, decimals > 0 ? decimals : 0);
    if (strchr(text, '.') != NULL) {
        size_t end = strlen(text);
        while (text[end - 1] == '0')
            end--;
        text[text[end - 1] == '.' ? end - 1 : end] = '\0';
    }
    return bw_phrase(page, "%s", text);
}

const char *bw_grams(bw_page *page, double kg_per_m2)
{
    double grams = kg_per_m2 * 1000.0;
    return bw_fixed(page, grams, fabs(grams) < 9.95 && grams != 0.0 ? 1 : 0);
}

const char *bw_amount(bw_page *page, double kg_per_m2)
{
    if (fabs(kg_per_m2) < 10.0)
        return bw_phrase(page, "%s g/m2", bw_grams(page, kg_per_m2));
    return bw_phrase(page, "%s kg/m2", bw_significant(page, kg_per_m2, 3));
}

size_t bw_columns(const char *text, size_t length)
{
    size_t columns = 0;
    for (size_t i = 0; i < length;) {
        unsigned code;
        i += bw_utf8_next(text + i, length - i, &code);
        columns += bw_utf8_steers(code) ? 1 : bw_utf8_columns(code);
    }
    return columns;
}

/* The end of what fits into width columns, at least one character. */
static size_t fitting(const char *text, size_t end, size_t width)
{
    size_t i = 0, columns = 0;
    while (i < end) {
        unsigned code;
        size_t next = i + bw_utf8_next(text + i, end - i, &code);
        columns += bw_columns(text + i, next - i);
        if (columns > width && i > 0)
            return i;
        i = next;
    }
    return i;
}

size_t bw_line_break(const char *text, size_t width, size_t *skip)
{
    size_t end = strcspn(text, "\n");
    size_t fits = fitting(text, end, width), blank = fits;
    if (fits == end) {
        *skip = end + (text[end] == '\n');
        return end;
    }
    while (blank > 0 && text[blank] != ' ')
        blank--;
    if (blank == 0) {
        *skip = fits;
        return fits;
    }
    *skip = blank + strspn(text + blank, " ");
    while (blank > 1 && text[blank - 1] == ' ')
        blank--;
    return blank;
}

void bw_page_emit(bw_page *page, const char *bytes, size_t length)
{
    for (size_t i = 0; i < length;) {
        unsigned code;
        size_t count = bw_utf8_next(bytes + i, length - i, &code);
        if (bw_utf8_steers(code))
            bw_write_text(&page->out, "?");
        else
            bw_write_part(&page->out, bytes + i, count);
        i += count;
    }
}

void bw_page_bold(bw_page *page, bool on)
{
    page->bold = on;
}

/* A line is bold from its first letter to its last, never across its end. */
static void emit_line(bw_page *page, const char *bytes, size_t length,
                      bool bold)
{
    bool marked = bold && page->colour && length > 0;
    if (marked)
        bw_write_text(&page->out, "\x1b[1m");
    bw_page_emit(page, bytes, length);
    if (marked)
        bw_write_text(&page->out, "\x1b[0m");
}

bw_status bw_page_finish(bw_page *page, const char *what, bw_error *err)
{
    bool written = bw_writer_finish(&page->out);
    bw_arena_release(&page->arena);
    if (page->no_memory)
        return bw_fail_memory(err);
    if (!written)
        return bw_fail(err, BW_ERR_IO, NULL, 0, "%s could not be written",
                       what);
    return BW_OK;
}

const char *bw_page_cite(bw_page *page, const char *source)
{
    size_t i = 0;
    while (i < page->sources && strcmp(page->source[i], source) != 0)
        i++;
    if (i == BW_PAGE_SOURCES)
        return source;
    if (i == page->sources)
        page->source[page->sources++] = source;
    return bw_phrase(page, "[%zu]", i + 1);
}

void bw_page_blank(bw_page *page)
{
    if (page->form == NULL)
        bw_write_text(&page->out, "\n");
}

void bw_page_heading(bw_page *page, const char *title)
{
    page->headings++;
    if (page->form != NULL) {
        page->form->heading(page, title);
        return;
    }
    const char *text = bw_phrase(page, "%d  %s", page->headings, title);
    size_t length = strlen(text), columns = bw_columns(text, length);
    size_t width = (size_t)page->width;
    bw_page_blank(page);
    emit_line(page, text, length, true);
    if (columns + 2 < width) {
        bw_write_text(&page->out, " ");
        bw_write_repeat(&page->out, '-', width - columns - 1);
    }
    bw_write_text(&page->out, "\n");
}

void bw_page_subheading(bw_page *page, const char *title)
{
    if (page->form != NULL) {
        page->form->subheading(page, title);
        return;
    }
    bw_page_blank(page);
    bw_page_bold(page, true);
    bw_page_text(page, 2, 4, title);
    bw_page_bold(page, false);
}

void bw_page_text(bw_page *page, size_t first, size_t rest, const char *text)
{
    size_t indent = first;
    if (page->form != NULL) {
        page->form->text(page, text, rest > first);
        return;
    }
    do {
        size_t skip, room = (size_t)page->width - indent;
        size_t length = bw_line_break(text, room, &skip);
        bw_write_repeat(&page->out, ' ', indent);
        emit_line(page, text, length, page->bold);
        bw_write_text(&page->out, "\n");
        text += skip;
        indent = rest;
    } while (*text != '\0');
}

void bw_page_item(bw_page *page, const char *text)
{
    if (page->form != NULL)
        page->form->item(page, text);
    else
        bw_page_text(page, 2, 4, bw_phrase(page, "- %s", text));
}

void bw_page_pair(bw_page *page, const char *label, const char *text)
{
    if (page->form != NULL)
        page->form->pair(page, label, text);
    else
        bw_page_text(page, 2, LABEL + 2,
                     text[0] == '\0'
                         ? label
                         : bw_phrase(page, "%-*s%s", LABEL, label, text));
}
