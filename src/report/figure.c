#include "figure.h"

#include <string.h>

#include "html.h"
#include "names.h"

/* A figure on a page: its frame, caption and the plates that stand side by
 * side. */

bw_markup *bw_page_markup(bw_page *page)
{
    return &bw_html_of(page)->out;
}

void bw_plates(bw_page *page, const char *kind)
{
    bw_html_of(page)->plates = kind;
}

void bw_figure_begin(bw_page *page)
{
    bw_html *html = bw_html_of(page);
    bw_page_begin(page);
    bw_html_end_list(html);
    if (html->plates == NULL)
        return;
    bw_tag_open(&html->out, "div", html->plates);
    html->in_plates = true;
    html->plates = NULL;
}

bool bw_plates_end(bw_page *page)
{
    bw_html *html = bw_html_of(page);
    const bool drawn = html->in_plates;
    if (drawn)
        bw_tag_close(&html->out);
    html->plates = NULL;
    html->in_plates = false;
    return drawn;
}

void bw_figure_start(bw_page *page, const char *chart, const char *section,
                     const char *run)
{
    bw_markup *out = bw_page_markup(page);
    bw_figure_begin(page);
    bw_tag_open(out, "figure", NULL);
    bw_tag_set(out, "data-chart", chart);
    if (section[0] != '\0')
        bw_tag_set(out, "data-section", section);
    if (run[0] != '\0')
        bw_tag_set(out, "data-run", run);
}

void bw_figure_data(bw_page *page, const char *name, const double *value,
                    size_t count)
{
    bw_tag_set_numbers(bw_page_markup(page), name, value, count);
}

void bw_figure_chart(bw_page *page, bw_chart *chart, double width,
                     double height, const char *title, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *desc = bw_phrase_of(page, format, args);
    va_end(args);
    bw_chart_start(chart, bw_page_markup(page), width, height, title, desc);
}

void bw_figure_end(bw_page *page, const char *format, ...)
{
    bw_markup *out = bw_page_markup(page);
    va_list args;
    va_start(args, format);
    const char *caption = bw_phrase_of(page, format, args);
    va_end(args);
    if (caption[0] != '\0') {
        bw_tag_open(out, "figcaption", NULL);
        bw_html_text(page, caption);
        bw_tag_close(out);
    }
    bw_tag_close(out);
}

void bw_fold(bw_page *page, const char *summary)
{
    bw_html_end_list(bw_html_of(page));
    bw_tag_open(bw_page_markup(page), "details", NULL);
    bw_tag_whole(bw_page_markup(page), "summary", NULL, summary);
}

void bw_fold_end(bw_page *page)
{
    bw_html_end_list(bw_html_of(page));
    bw_tag_close(bw_page_markup(page));
}

const char *bw_section_title(bw_page *page, const char *name)
{
    const char *text = bw_capital(page, name), *hyphen;
    while ((hyphen = strchr(text, '-')) != NULL)
        text = bw_phrase(page, "%.*s %s", (int)(hyphen - text), text,
                         hyphen + 1);
    return text;
}
