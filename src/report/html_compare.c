/* The comparison as a page: what is held equal, the sentences, small bars a
 * row, the table. */

#include <math.h>
#include <string.h>

#include "html.h"
#include "names.h"
#include "parts.h"
#include "study_parts.h"

enum { WIDTH = 360, ROW = 25 };

/* Key numbers, and what decides by a method within its limits; the table has
 * the rest. */
static bool counts(const bw_compare_row *row, size_t walls)
{
    for (size_t i = 0; row->is_criterion && i < walls; i++) {
        const bw_criterion *c = row->criterion[i];
        if (c != NULL && c->decides && !c->screening)
            return true;
    }
    return !row->is_criterion;
}

/* Something other than noughts would be read beside the bars. */
static bool drawable(bw_page *page, const bw_compare_row *row, size_t walls)
{
    for (size_t i = 0; counts(row, walls) && i < walls; i++)
        if (row->has_value[i] && isfinite(row->value[i]) &&
            strpbrk(bw_shown_value(page, row->value[i], row->unit),
                    "123456789") != NULL)
            return true;
    return false;
}

/* The limit all walls share; false without one. */
static bool common_limit(const bw_compare_row *row, size_t walls, double *limit)
{
    bool found = false;
    for (size_t i = 0; row->is_criterion && i < walls; i++) {
        const bw_criterion *c = row->criterion[i];
        if (c == NULL || !c->has_limit)
            continue;
        if (found && fabs(*limit - c->limit) > 0.0)
            return false;
        *limit = c->limit;
        found = true;
    }
    return found;
}

static const char *value_text(bw_page *page, const bw_compare_row *row,
                              size_t wall)
{
    if (!row->has_value[wall])
        return row->instead[wall][0] != '\0' ? row->instead[wall]
                                             : "not assessed";
    if (strcmp(row->unit, "m") == 0)
        return bw_phrase(page, "%s mm",
                         bw_fixed(page, 1e3 * row->value[wall], 1));
    const char *unit = strcmp(row->unit, "-") == 0 ? ""
                                                   : bw_shown_unit(row->unit);
    return bw_phrase(page, "%s %s",
                     bw_shown_value(page, row->value[wall], row->unit), unit);
}

static void scale_row(bw_chart *c, const bw_compare_row *row, size_t walls,
                      bool has_limit, double limit)
{
    double least = 0.0, most = 0.0, own_most = 0.0;
    for (size_t i = 0; i < walls; i++)
        if (row->has_value[i] && isfinite(row->value[i])) {
            least = fmin(least, row->value[i]);
            own_most = fmax(own_most, row->value[i]);
        }
    most = own_most;
    /* A limit far beyond every value would leave nothing to see. */
    if (has_limit && limit < 4.0 * fmax(own_most, -least))
        most = fmax(most, limit);
    bw_chart_range_x(c, least, most > least ? most : least + 1.0);
}

static void draw_wall(bw_html *html, bw_chart *c, const bw_comparison *all,
                      const bw_compare_row *row, size_t wall, bool has_limit,
                      double limit)
{
    double y = c->top + ROW * (double)wall;
    double zero = bw_chart_x(c, 0.0);
    bw_chart_text(c, "soft", c->left + 4.0, y + 9.0, BW_START,
                  all->wall[wall].label);
    bw_tag_open(c->out, "text", "num");
    bw_tag_set_number(c->out, "x", c->right, 5);
    bw_tag_set_number(c->out, "y", y + 9.0, 5);
    bw_tag_set(c->out, "text-anchor", "end");
    bw_html_text(html, value_text(&html->page, row, wall));
    bw_tag_close(c->out);
    if (!row->has_value[wall] || !isfinite(row->value[wall]))
        return;
    double end = bw_chart_x(c, row->value[wall]), at = bw_chart_x(c, limit);
    if (has_limit && at > c->left && at <= c->right + 0.1)
        bw_chart_stroke(c, "limit", at, y + 11.0, at, y + 22.0);
    bw_chart_rect(c, end < zero ? "bad" : "safe", fmin(zero, end), y + 12.5,
                  fmax(fabs(end - zero), 0.6), 7.0);
}

static void draw_row(bw_html *html, const bw_comparison *all,
                     const bw_compare_row *row)
{
    bw_page *page = &html->page;
    size_t walls = all->wall_count;
    double limit = 0.0, height = 10.0 + ROW * (double)walls;
    bool has_limit = common_limit(row, walls, &limit);
    bw_chart c;
    bw_html_figure(html, "compare", "", "");
    bw_tag_set(&html->out, "data-row", row->name);
    double shown[BW_COMPARE_MOST];
    for (size_t i = 0; i < walls; i++)
        shown[i] = row->has_value[i] ? row->value[i] : (double)NAN;
    bw_tag_set_numbers(&html->out, "data-value", shown, walls);
    bw_chart_start(&c, &html->out, WIDTH, height, row->title,
                   bw_phrase(page,
                             "One bar a wall, %zu walls; the table has "
                             "the figures.",
                             walls));
    bw_chart_box(&c, 4.0, 4.0, 356.0, height - 4.0);
    scale_row(&c, row, walls, has_limit, limit);
    for (size_t i = 0; i < walls; i++)
        draw_wall(html, &c, all, row, i, has_limit, limit);
    double zero = bw_chart_x(&c, 0.0), at = bw_chart_x(&c, limit);
    bw_chart_stroke(&c, "axis", zero, c.top, zero, c.bottom);
    bool inside = has_limit && at > c.left && at <= c.right + 0.1;
    bw_chart_end(&c);
    const char *unit = strcmp(row->unit, "-") == 0 ? ""
                                                   : bw_shown_unit(row->unit);
    const char *words = inside ? ". Broken line: the limit, " : "";
    bw_html_figure_end(
        html, bw_phrase(page, "%s%s%s %s", row->title, words,
                        inside ? bw_shown_value(page, limit, row->unit) : "",
                        inside ? unit : ""));
}

static void draw_rows(bw_html *html, const bw_comparison *c)
{
    bw_page_heading(&html->page, "Side by side");
    bw_html_plates(html, "plates");
    for (size_t k = 0; k < c->row_count; k++)
        if (!(c->simulated && c->row[k].by_months) &&
            drawable(&html->page, &c->row[k], c->wall_count))
            draw_row(html, c, &c->row[k]);
    bw_html_plates_end(html);
    bw_page_text(&html->page, 2, 2,
                 "Each row has a scale of its own; bars begin at nought. "
                 "Hatched: below nought.");
}

bw_status bw_report_compare_html(const bw_comparison *comparison,
                                 const bw_report_options *options,
                                 bw_sink *sink, void *payload, bw_error *err)
{
    bw_html html;
    bw_html_start(&html, sink, payload, "Walls side by side", "Comparison");
    bw_print_compare_equal(&html.page, comparison);
    bw_print_compare_sentences(&html.page, comparison);
    if (options == NULL || !options->quiet) {
        bw_print_compare_table(&html.page, comparison);
        draw_rows(&html, comparison);
        bw_print_cautions(&html.page);
    }
    return bw_html_finish(&html, err);
}
