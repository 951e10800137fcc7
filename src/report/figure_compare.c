/* A comparison drawn: small bars, a row of the table each; how each wall dries,
 * overlaid. */

#include <math.h>
#include <string.h>

#include "compared.h"
#include "figure.h"
#include "names.h"
#include "part.h"
#include "plot.h"

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

static bool is_never(const bw_compare_row *row, size_t wall)
{
    return strncmp(row->instead[wall], "not in ", 7) == 0;
}

/* Something other than noughts would be read beside the bars. */
static bool drawable(bw_page *page, const bw_compare_row *row, size_t walls)
{
    for (size_t i = 0; counts(row, walls) && i < walls; i++)
        if (is_never(row, i) ||
            (row->has_value[i] && isfinite(row->value[i]) &&
             strpbrk(bw_row_value(page, row->unit, row->value[i]),
                     "123456789") != NULL))
            return true;
    return false;
}

static const char *value_text(bw_page *page, const bw_compare_row *row,
                              size_t wall)
{
    if (!row->has_value[wall])
        return row->instead[wall][0] != '\0' ? row->instead[wall]
                                             : "not assessed";
    return bw_phrase(page, "%s %s",
                     bw_row_value(page, row->unit, row->value[wall]),
                     bw_row_unit(row->unit));
}

/* Times to dry, whichever way, are on one scale. */
static bool shares_scale(const bw_compare_row *a, const bw_compare_row *b)
{
    return a == b ||
           (!a->is_criterion && !b->is_criterion &&
            a->by_months == b->by_months && strcmp(a->unit, "months") == 0 &&
            strcmp(b->unit, "months") == 0);
}

static void scale_row(bw_chart *c, const bw_comparison *all,
                      const bw_compare_row *row, bool has_limit, double limit)
{
    double least = 0.0, most = 0.0, own_most = 0.0;
    for (size_t k = 0; k < all->row_count; k++)
        for (size_t i = 0; i < all->wall_count; i++) {
            const bw_compare_row *other = &all->row[k];
            if (!shares_scale(row, other))
                continue;
            if (is_never(other, i)) /* a year beside it is not long */
                own_most = fmax(own_most, strcmp(other->unit, "weeks") == 0
                                              ? 52.0
                                              : BW_MONTHS);
            if (!other->has_value[i] || !isfinite(other->value[i]))
                continue;
            least = fmin(least, other->value[i]);
            own_most = fmax(own_most, other->value[i]);
        }
    most = own_most;
    /* A limit far beyond every value would leave nothing to see. */
    if (has_limit && limit < 4.0 * fmax(own_most, -least))
        most = fmax(most, limit);
    bw_chart_range_x(c, least, most > least ? most : least + 1.0);
}

/* Hatched to the edge, and on beyond it. */
static void draw_never(bw_chart *c, double y)
{
    static const double step = 6.0, head = 8.0;
    const double top = y + 12.5, low = top + 7.0, end = c->right - head;
    const int strokes = (int)((end - 7.0 - c->left) / step);
    for (int i = 0; i <= strokes; i++) {
        const double x = c->left + i * step;
        bw_path_move(&c->path, x, low);
        bw_path_line(&c->path, x + 7.0, top);
    }
    bw_path_move(&c->path, end, top);
    bw_path_line(&c->path, c->left, top);
    bw_path_line(&c->path, c->left, low);
    bw_path_line(&c->path, end, low);
    bw_path_move(&c->path, end, top - 1.0);
    bw_path_line(&c->path, c->right, y + 16.0);
    bw_path_line(&c->path, end, low + 1.0);
    bw_path_close(&c->path);
    bw_chart_path(c, "never");
    bw_chart_path_end(c);
    bw_chart_text(c, "halo", 0.5 * (c->left + c->right), y + 19.5, BW_MIDDLE,
                  "never");
}

static void draw_wall(bw_page *page, bw_chart *c, const bw_comparison *all,
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
    bw_html_text(page, value_text(page, row, wall));
    bw_tag_close(c->out);
    if (is_never(row, wall))
        draw_never(c, y);
    if (!row->has_value[wall] || !isfinite(row->value[wall]))
        return;
    double end = bw_chart_x(c, row->value[wall]), at = bw_chart_x(c, limit);
    if (has_limit && at > c->left && at <= c->right + 0.1)
        bw_chart_stroke(c, "limit", at, y + 11.0, at, y + 22.0);
    bw_chart_rect(c, end < zero ? "bad" : "safe", fmin(zero, end), y + 12.5,
                  fmax(fabs(end - zero), 0.6), 7.0);
}

static void draw_row(bw_page *page, const bw_comparison *all,
                     const bw_compare_row *row)
{
    size_t walls = all->wall_count;
    double limit = 0.0, height = 10.0 + ROW * (double)walls;
    bool has_limit = bw_row_limit(row, walls, &limit) == BW_COMMON_ONE;
    bw_chart c;
    bw_figure_start(page, "compare", "", "");
    bw_tag_set(bw_page_markup(page), "data-row", row->name);
    double shown[BW_COMPARE_MOST];
    for (size_t i = 0; i < walls; i++)
        shown[i] = row->has_value[i] ? row->value[i] : (double)NAN;
    bw_figure_data(page, "data-value", shown, walls);
    bw_figure_chart(page, &c, WIDTH, height, row->title,
                    "One bar a wall, %zu walls; the table has the figures.",
                    walls);
    bw_chart_box(&c, 4.0, 4.0, 356.0, height - 4.0);
    scale_row(&c, all, row, has_limit, limit);
    for (size_t i = 0; i < walls; i++)
        draw_wall(page, &c, all, row, i, has_limit, limit);
    double zero = bw_chart_x(&c, 0.0), at = bw_chart_x(&c, limit);
    bw_chart_stroke(&c, "axis", zero, c.top, zero, c.bottom);
    bool inside = has_limit && at > c.left && at <= c.right + 0.1;
    bw_chart_end(&c);
    if (inside)
        bw_figure_end(page, "%s. Broken line: the limit, %s %s", row->title,
                      bw_row_value(page, row->unit, limit),
                      bw_row_unit(row->unit));
    else
        bw_figure_end(page, "%s", row->title);
}

BW_DRAWN(compare_bars, "Side by side")
{
    const bw_comparison *c = of->comparison;
    bw_plates(page, "plates");
    for (size_t k = 0; k < c->row_count; k++)
        if (!(c->simulated && c->row[k].by_months) &&
            drawable(page, &c->row[k], c->wall_count))
            draw_row(page, c, &c->row[k]);
    bw_plates_end(page);
    bw_text(page, "Each row has a scale of its own, times to dry have one; "
                  "bars begin at nought. Framed black: below nought. Hatched "
                  "to an arrow: never while it was followed.");
}

/* ---- how each dries, in one chart ---------------------------------------- */

enum { WAYS = 3 };

/* One way of one section's test; NULL: it was not run. */
static const bw_wetting_result *course_of(const bw_section_assessment *part,
                                          size_t way)
{
    const bw_section_wetting *test = &part->wetting_test;
    const bw_wetting_result *r = way == 0   ? &test->both
                                 : way == 1 ? &test->outwards
                                            : &test->inwards;
    const bool ran = part->has_transient && test->ran &&
                     (way == 0 || test->one_way);
    return ran && r->excess != NULL && r->day_count > 0 ? r : NULL;
}

/* Of each way the slowest section of each wall, and the axes of all charts. */
typedef struct overlaid {
    const bw_comparison *of;
    const bw_section_assessment *part[WAYS][BW_COMPARE_MOST];
    double months, most; /* kg/m2 */
} overlaid;

static const double DAYS_A_MONTH = 365.0 / 12.0;

static const bw_section_assessment *slowest(const bw_assessment *assessment,
                                            size_t way)
{
    const bw_section_assessment *found = NULL;
    double most = -1.0;
    for (size_t k = 0; k < assessment->section_count; k++) {
        const bw_section_assessment *part = &assessment->section[k];
        const bw_wetting_result *r = course_of(part, way);
        if (r == NULL)
            continue;
        const double months = bw_wetting_test_months(&part->wetting_test, r);
        const double slow = months >= 0.0 ? months : 1e6 + r->left;
        if (slow > most) {
            most = slow;
            found = part;
        }
    }
    return found;
}

static bool overlay(overlaid *o, const bw_comparison *c)
{
    *o = (overlaid){.of = c, .months = 1.0};
    for (size_t n = 0; n < WAYS * c->wall_count; n++) {
        const size_t i = n / WAYS, way = n % WAYS;
        const bw_section_assessment *part = slowest(c->wall[i].assessment, way);
        o->part[way][i] = part;
        if (part == NULL)
            continue;
        const bw_wetting_result *r = course_of(part, way);
        o->months = fmax(o->months, ceil((double)r->day_count / DAYS_A_MONTH));
        o->most = fmax(o->most, part->wetting_test.water);
        for (size_t d = 0; d < r->day_count; d++)
            o->most = fmax(o->most, r->excess[d]);
    }
    return o->most > 0.0;
}

static bool never_dries(const bw_section_assessment *part, size_t way)
{
    return bw_wetting_test_months(&part->wetting_test, course_of(part, way)) <
           0.0;
}

static void arrow(bw_chart *c, double x, double y)
{
    bw_path_move(&c->path, x, y - 3.5);
    bw_path_line(&c->path, x + 7.0, y);
    bw_path_line(&c->path, x, y + 3.5);
    bw_path_close(&c->path);
    bw_chart_path(c, "pointer");
    bw_chart_path_end(c);
}

/* Its letter stands on it, each wall's at a place of its own; one that never
 * dries goes on beyond the edge. */
static void draw_course(bw_page *page, bw_chart *c, const overlaid *o,
                        size_t wall, size_t way)
{
    const bw_section_assessment *part = o->part[way][wall];
    const bw_wetting_result *r = course_of(part, way);
    if (r == NULL)
        return;
    const size_t count = r->day_count + 1;
    double *x = BW_NEW(&page->arena, double, 2 * count);
    if (x == NULL)
        return;
    double *y = x + count;
    for (size_t i = 0; i < count; i++) {
        x[i] = (double)i / DAYS_A_MONTH;
        y[i] = i == 0 ? part->wetting_test.water : r->excess[i - 1];
    }
    bw_chart_line(c, bw_phrase(page, "wall%zu", wall), x, y, count);
    const size_t at = (count - 1) * (wall + 1) / (o->of->wall_count + 1);
    bw_chart_text(c, "strong halo", bw_chart_x(c, x[at]),
                  bw_chart_y(c, y[at]) - 4.0, BW_MIDDLE,
                  bw_phrase(page, "%c", 'A' + (int)wall));
    if (never_dries(part, way))
        arrow(c, bw_chart_x(c, x[count - 1]), bw_chart_y(c, y[count - 1]));
}

/* "A estuary-fibre: dry in 0.8 months; B ..." */
static const char *times_text(bw_page *page, const overlaid *o, size_t way)
{
    const char *text = "";
    for (size_t i = 0; i < o->of->wall_count; i++) {
        const bw_section_assessment *part = o->part[way][i];
        text = bw_phrase(page, "%s%s%c %s: %s", text, i > 0 ? "; " : "",
                         'A' + (int)i, o->of->wall[i].label,
                         part != NULL
                             ? bw_wetting_time(page, &part->wetting_test,
                                               course_of(part, way))
                             : "not assessed");
    }
    return text;
}

static void draw_way(bw_page *page, const overlaid *o, size_t way)
{
    static const char *const title[WAYS] = {"Both ways", "Outwards only",
                                            "Inwards only"};
    const char *times = times_text(page, o, way), *never = "";
    double zero = 0.0, high = o->most;
    bw_chart c;
    bw_round_range(&zero, &high, 5);
    bw_figure_start(page, "dries", "", "transient");
    bw_figure_chart(page, &c, WIDTH, 190, title[way],
                    "Water beyond that of the wall not wetted: %s.", times);
    bw_chart_box(&c, 38.0, 24.0, 346.0, 156.0);
    bw_chart_range_x(&c, 0.0, o->months);
    const bw_ticks ticks = bw_ticks_make(0.0, o->months, 8);
    bw_chart_axis_x(&c, &ticks, "months");
    bw_upright_axis(&c, zero, high, 5, "kg/m\u00b2");
    for (size_t i = 0; i < o->of->wall_count; i++) {
        if (o->part[way][i] == NULL)
            continue;
        draw_course(page, &c, o, i, way);
        if (never_dries(o->part[way][i], way))
            never = bw_phrase(
                page, "%s%s%c", never,
                never[0] != '\0' ? ", " : "never: ", 'A' + (int)i);
    }
    if (never[0] != '\0')
        bw_chart_text(&c, "strong", c.right, 12.0, BW_END, never);
    bw_chart_end(&c);
    bw_figure_end(page, "%s. %s.", title[way], times);
}

BW_DRAWN(compare_drying, "How each wall dries after a wetting")
{
    overlaid o;
    if (!overlay(&o, of->comparison))
        return;
    bw_plates(page, "plates");
    for (size_t way = 0; way < WAYS; way++)
        draw_way(page, &o, way);
    bw_plates_end(page);
    bw_text(page, "What is left of the water put where each wall is most at "
                  "risk, in its slowest section. The same axes for all.");
}
