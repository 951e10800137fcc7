/* What parts of a report build with; each call hands its words to the writer
 * of the page. */

#include "page.h"

#include <string.h>

#include "fail.h"

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

bw_status bw_page_end(bw_page *page, bool written, const char *what,
                      bw_error *err)
{
    const bool no_memory = page->arena.failed;
    bw_arena_release(&page->arena);
    BW_TRY_MEMORY(!no_memory, err);
    if (!written)
        return bw_fail(err, BW_ERR_IO, NULL, 0, "%s could not be written",
                       what);
    return BW_OK;
}

void bw_page_open(bw_page *page, const char *title)
{
    page->title = title;
}

void bw_aside(bw_page *page, const char *text)
{
    page->title = bw_phrase(page, "%s%s", page->title, text);
}

void bw_page_begin(bw_page *page)
{
    const char *title = page->title;
    page->title = NULL;
    if (title == NULL)
        return;
    page->headings++;
    page->form->heading(page, title);
}

static BW_PRINTF(2, 0) const
    char *begun(bw_page *page, const char *format, va_list args)
{
    bw_page_begin(page);
    return bw_phrase_of(page, format, args);
}

/* A call that puts `text` down, which its format makes. */
#define SAID(name, put)                                                        \
    void name(bw_page *page, const char *format, ...)                          \
    {                                                                          \
        va_list args;                                                          \
        va_start(args, format);                                                \
        const char *text = begun(page, format, args);                          \
        va_end(args);                                                          \
        (put);                                                                 \
    }

SAID(bw_lead, page->form->paragraph(page, BW_STYLE_LEAD, text))
SAID(bw_plain, page->form->paragraph(page, BW_STYLE_PLAIN, text))
SAID(bw_text, page->form->paragraph(page, BW_STYLE_TEXT, text))
SAID(bw_strong, page->form->paragraph(page, BW_STYLE_STRONG, text))
SAID(bw_hang, page->form->paragraph(page, BW_STYLE_HANG, text))
SAID(bw_step, page->form->paragraph(page, BW_STYLE_STEP, text))
SAID(bw_under, page->form->paragraph(page, BW_STYLE_UNDER, text))
SAID(bw_deep, page->form->paragraph(page, BW_STYLE_DEEP, text))
SAID(bw_line, page->form->paragraph(page, BW_STYLE_LINE, text))
SAID(bw_subheading, page->form->subheading(page, text))
SAID(bw_item, page->form->item(page, text))

void bw_pair(bw_page *page, const char *label, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *text = begun(page, format, args);
    va_end(args);
    page->form->pair(page, label, text);
}

void bw_sources(bw_page *page)
{
    bw_page_begin(page);
    page->form->sources(page);
}

void bw_blank(bw_page *page)
{
    page->form->blank(page);
}
