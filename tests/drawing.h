#ifndef BW_TESTS_DRAWING_H
#define BW_TESTS_DRAWING_H

/* A chart of a page, read back as a person reads it: its axes from the figures
 * beside their ticks, then each mark from its place. Nothing of the code that
 * drew it is used; a place is on a tenth of a unit. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "html_page.h"
#include "svg_path.h"

enum { DRAWN_MOST = 4096, WORDS_MOST = 1 << 22 };

/* Half a tenth of the mark, as much of its axis, and what is cut off a tick's
 * figure. */
static const double PAPER = 0.16;

typedef enum drawn_kind {
    DRAWN_PATH,
    DRAWN_TEXT,
    DRAWN_RECT,
    DRAWN_CIRCLE,
} drawn_kind;

typedef struct drawn {
    drawn_kind kind;
    const char *class_name, *text; /* of a path its outline */
    double x, y, width, height;    /* of a circle: its radius in both */
    const char *anchor;
} drawn;

typedef struct drawing {
    size_t count;
    drawn mark[DRAWN_MOST];
    const char *caption;
    const char *says;     /* to who cannot see it */
    double width, height; /* of its paper */
    size_t used; /* of the words of one chart, until the next is read */
    char words[WORDS_MOST];
} drawing;

/* Values along an axis: value = at0 + per * place, or its logarithm. */
typedef struct axis {
    bool log;
    double at0, per;
    size_t ticks;
    double from, to; /* places of the first and the last tick */
    double line;     /* where the axis stands: x of an upright one */
    double ends[2];  /* of it: the lower place first */
} axis;

static drawing chart;
static svg_path outline, other_outline;

#include "layout.h"

static inline const char *keep(xmlChar *value)
{
    if (value == NULL)
        return "";
    const size_t size = strlen((char *)value) + 1;
    ck_assert_uint_le(size, WORDS_MOST - chart.used);
    char *kept = memcpy(chart.words + chart.used, value, size);
    chart.used += size;
    xmlFree(value);
    return kept;
}

static inline const char *kept(xmlNode *node, const char *name)
{
    return keep(xmlGetProp(node, (const xmlChar *)name));
}

static inline double kept_number(xmlNode *node, const char *name)
{
    const char *text = kept(node, name);
    return text[0] != '\0' ? strtod(text, NULL) : 0.0;
}

static inline void draw_in(xmlNode *node)
{
    for (; node != NULL; node = node->next) {
        if (node->type != XML_ELEMENT_NODE)
            continue;
        const char *name = (const char *)node->name;
        drawn m = {.class_name = kept(node, "class"),
                   .text = "",
                   .anchor = kept(node, "text-anchor")};
        bool is = true;
        if (strcmp(name, "path") == 0) {
            m.text = kept(node, "d");
        } else if (strcmp(name, "text") == 0) {
            m.kind = DRAWN_TEXT;
            m.text = keep(xmlNodeGetContent(node));
            m.x = kept_number(node, "x");
            m.y = kept_number(node, "y");
        } else if (strcmp(name, "rect") == 0) {
            m.kind = DRAWN_RECT;
            m.x = kept_number(node, "x");
            m.y = kept_number(node, "y");
            m.width = kept_number(node, "width");
            m.height = kept_number(node, "height");
        } else if (strcmp(name, "circle") == 0) {
            m.kind = DRAWN_CIRCLE;
            m.x = kept_number(node, "cx");
            m.y = kept_number(node, "cy");
            m.width = m.height = kept_number(node, "r");
        } else {
            is = false;
        }
        if (is) {
            ck_assert_uint_lt(chart.count, DRAWN_MOST);
            chart.mark[chart.count++] = m;
        }
        if (strcmp(name, "figcaption") == 0)
            chart.caption = keep(xmlNodeGetContent(node));
        if (strcmp(name, "desc") == 0)
            chart.says = keep(xmlNodeGetContent(node));
        if (strcmp(name, "svg") == 0)
            ck_assert_int_eq(sscanf(kept(node, "viewBox"), "0 0 %lf %lf",
                                    &chart.width, &chart.height),
                             2);
        draw_in(node->children);
    }
}

/* The nth figure (from 0) that the XPath finds; false: there is none. */
static inline bool read_chart(const char *path, size_t nth)
{
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)path,
                                                   context);
    ck_assert_msg(found != NULL, "%s", path);
    const bool is = found->nodesetval != NULL &&
                    nth < (size_t)found->nodesetval->nodeNr;
    chart.count = 0;
    chart.used = 0;
    chart.caption = chart.says = "";
    if (is) {
        draw_in(found->nodesetval->nodeTab[nth]->children);
        is_laid_out(kept(found->nodesetval->nodeTab[nth], "data-chart"));
    }
    xmlXPathFreeObject(found);
    xmlXPathFreeContext(context);
    return is;
}

static inline void must_read_chart(const char *path, size_t nth)
{
    ck_assert_msg(read_chart(path, nth), "no figure %zu of %s", nth, path);
}

/* What a chart says of itself has the figures of what it draws. */
#define TELLS(...)                                                             \
    do {                                                                       \
        char told[256];                                                        \
        snprintf(told, sizeof told, __VA_ARGS__);                              \
        ck_assert_msg(strstr(chart.says, told) != NULL, "not '%s' but '%s'",   \
                      told, chart.says);                                       \
    } while (false)

/* ---- marks by kind and class ----------------------------------------------
 */

static inline const drawn *mark_of(drawn_kind kind, const char *class_name,
                                   size_t nth)
{
    for (size_t i = 0; i < chart.count; i++)
        if (chart.mark[i].kind == kind &&
            strcmp(chart.mark[i].class_name, class_name) == 0 && nth-- == 0)
            return &chart.mark[i];
    return NULL;
}

static inline size_t marks_of(drawn_kind kind, const char *class_name)
{
    size_t count = 0;
    while (mark_of(kind, class_name, count) != NULL)
        count++;
    return count;
}

static inline const drawn *text_of(const char *class_name, const char *text)
{
    for (size_t i = 0; i < chart.count; i++)
        if (chart.mark[i].kind == DRAWN_TEXT &&
            strcmp(chart.mark[i].class_name, class_name) == 0 &&
            strcmp(chart.mark[i].text, text) == 0)
            return &chart.mark[i];
    return NULL;
}

static inline void read_outline(const char *class_name, size_t nth)
{
    const drawn *m = mark_of(DRAWN_PATH, class_name, nth);
    ck_assert_msg(m != NULL, "no path %s %zu in '%s'", class_name, nth,
                  chart.caption);
    svg_read(&outline, m->text);
}

/* ---- axes ------------------------------------------------------------------
 */

/* A stroke of 3 units outwards from an axis. */
static inline bool is_tick(const drawn *m, bool upright, svg_point *at)
{
    if (m->kind != DRAWN_PATH || strcmp(m->class_name, "axis") != 0)
        return false;
    svg_read(&other_outline, m->text);
    if (other_outline.count != 2)
        return false;
    const svg_point a = other_outline.point[0], b = other_outline.point[1];
    *at = upright ? b : a; /* on the axis */
    return upright ? fabs(a.y - b.y) < 0.05 && fabs(b.x - a.x - 3.0) < 0.11
                   : fabs(a.x - b.x) < 0.05 && fabs(b.y - a.y - 3.0) < 0.11;
}

/* The axis itself, along which all ticks stand; and its ends. */
static inline bool has_axis_line(bool upright, double line, double from,
                                 double to, double ends[2])
{
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind != DRAWN_PATH || strcmp(m->class_name, "axis") != 0)
            continue;
        svg_read(&other_outline, m->text);
        if (other_outline.count != 2)
            continue;
        const svg_point a = other_outline.point[0], b = other_outline.point[1];
        const double low = upright ? fmin(a.y, b.y) : fmin(a.x, b.x);
        const double high = upright ? fmax(a.y, b.y) : fmax(a.x, b.x);
        if (upright ? fabs(a.x - line) < 0.11 && fabs(b.x - line) < 0.11
                    : fabs(a.y - line) < 0.11 && fabs(b.y - line) < 0.11)
            if (high - low > 10.0 && low <= fmin(from, to) + 0.11 &&
                high >= fmax(from, to) - 0.11) {
                ends[0] = low;
                ends[1] = high;
                return true;
            }
    }
    return false;
}

static inline const drawn *figure_beside(bool upright, svg_point tick)
{
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind != DRAWN_TEXT || strcmp(m->class_name, "num") != 0)
            continue;
        if (upright ? strcmp(m->anchor, "end") == 0 &&
                          fabs(m->x + 5.0 - tick.x) < 0.11 &&
                          fabs(m->y - 3.5 - tick.y) < 0.11
                    : strcmp(m->anchor, "middle") == 0 &&
                          fabs(m->x - tick.x) < 0.11 &&
                          fabs(m->y - 13.0 - tick.y) < 0.11)
            return m;
    }
    return NULL;
}

static inline double axis_value(const axis *a, double place)
{
    const double value = a->at0 + a->per * place;
    return a->log ? exp(value) : value;
}

static inline double axis_place(const axis *a, double value)
{
    return ((a->log ? log(value) : value) - a->at0) / a->per;
}

/* Where a second axis stands beside the first: what is left of it is read. */
static double axis_reach = 1e9;

/* From the first and the last tick; all others must lie between, where their
 * figures say. */
static inline axis read_axis(bool upright, bool log_scale)
{
    double place[64], value[64];
    axis a = {.log = log_scale};
    for (size_t i = 0; i < chart.count; i++) {
        svg_point at;
        if (!is_tick(&chart.mark[i], upright, &at))
            continue;
        const drawn *figure = figure_beside(upright, at);
        if (figure == NULL || at.x > axis_reach)
            continue;
        char *end;
        const double number = strtod(figure->text, &end);
        if (*end != '\0')
            continue; /* a month's letter */
        ck_assert_uint_lt(a.ticks, 64);
        place[a.ticks] = upright ? at.y : at.x;
        value[a.ticks++] = log_scale ? log(number) : number;
        a.line = upright ? at.x : at.y;
    }
    ck_assert_msg(a.ticks >= 2, "%zu ticks in '%s'", a.ticks, chart.caption);
    const size_t last = a.ticks - 1;
    a.per = (value[last] - value[0]) / (place[last] - place[0]);
    a.at0 = value[0] - a.per * place[0];
    a.from = place[0];
    a.to = place[last];
    for (size_t i = 0; i < a.ticks; i++)
        ck_assert_msg(fabs((value[i] - a.at0) / a.per - place[i]) < PAPER,
                      "a tick of %g at %g in '%s'", value[i], place[i],
                      chart.caption);
    ck_assert(has_axis_line(upright, a.line, a.from, a.to, a.ends));
    /* values grow to the right and upwards */
    ck_assert(upright ? a.per < 0.0 : a.per > 0.0);
    return a;
}

/* The unit stands at the end of its axis: of a level one below the figures, of
 * an upright one above them, a long one from the edge of the paper on. */
static inline void has_unit(const axis *a, bool upright, const char *unit)
{
    const drawn *m = text_of("unit", unit);
    ck_assert_msg(m != NULL, "no unit %s", unit);
    const bool brief = strlen(unit) <= 3;
    ck_assert_double_eq_tol(m->y, upright ? a->ends[0] - 8.0 : a->line + 25.0,
                            0.11);
    ck_assert_double_eq_tol(m->x,
                            !upright ? a->ends[1]
                            : brief  ? a->line - 5.0
                                     : 1.0,
                            0.11);
    ck_assert_str_eq(m->anchor, !upright || brief ? "end" : "");
}

/* A rule across the chart at every tick of an upright axis. */
static inline void has_rules(const axis *y)
{
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "rule"), y->ticks);
    for (size_t i = 0; i < y->ticks; i++) {
        read_outline("rule", i);
        ck_assert_uint_eq(outline.count, 2);
        ck_assert_double_eq_tol(outline.point[0].x, y->line, 0.11);
        ck_assert_double_gt(outline.point[1].x, y->line + 100.0);
        ck_assert_double_eq_tol(outline.point[0].y, outline.point[1].y, 0.05);
        bool at_tick = false;
        for (size_t k = 0; k < chart.count; k++) {
            svg_point at;
            at_tick = at_tick || (is_tick(&chart.mark[k], true, &at) &&
                                  fabs(at.y - outline.point[0].y) < 0.05);
        }
        ck_assert(at_tick);
    }
}

static const char *const month_letters = "JFMAMJJASOND";

/* Twelve months of one width, their letters below their middles; 0 to 12. */
static inline axis read_months(int first)
{
    double place[64];
    axis a = {.per = 1.0};
    for (size_t i = 0; i < chart.count; i++) {
        svg_point at;
        if (!is_tick(&chart.mark[i], false, &at))
            continue;
        place[a.ticks++] = at.x;
        a.line = at.y;
    }
    ck_assert_uint_eq(a.ticks, BW_MONTHS + 1);
    a.per = BW_MONTHS / (place[BW_MONTHS] - place[0]);
    a.at0 = -a.per * place[0];
    for (int k = 0; k <= BW_MONTHS; k++) {
        ck_assert_double_eq_tol(place[k], axis_place(&a, k), PAPER);
        const svg_point middle = {axis_place(&a, k + 0.5), a.line, false};
        const drawn *letter = figure_beside(false, middle);
        if (k == BW_MONTHS) {
            ck_assert_ptr_null(letter);
            break;
        }
        ck_assert_ptr_nonnull(letter);
        ck_assert_uint_eq(strlen(letter->text), 1);
        ck_assert_int_eq(letter->text[0],
                         month_letters[(first + k) % BW_MONTHS]);
    }
    a.from = place[0];
    a.to = place[BW_MONTHS];
    ck_assert(has_axis_line(false, a.line, a.from, a.to, a.ends));
    return a;
}

/* ---- marks against data ----------------------------------------------------
 */

static inline bool lies(svg_point p, double x, double y)
{
    return fabs(p.x - x) < PAPER && fabs(p.y - y) < PAPER;
}

/* The outline goes through all data, in order, and through nothing else. A
 * step that goes nowhere on this paper is left out. */
static inline void outline_is(const axis *ax, const axis *ay, const double *x,
                              const double *y, size_t count)
{
    size_t k = 0;
    for (size_t i = 0; i < count; i++) {
        const double px = axis_place(ax, x[i]), py = axis_place(ay, y[i]);
        if (i > 0 && k < outline.count && !lies(outline.point[k], px, py))
            k++;
        ck_assert_msg(k < outline.count && lies(outline.point[k], px, py),
                      "datum %zu (%g, %g) is at %.1f %.1f, not %.1f %.1f: %s",
                      i, x[i], y[i], outline.point[k < outline.count ? k : 0].x,
                      outline.point[k < outline.count ? k : 0].y, px, py,
                      chart.caption);
        /* two data may lie as near as two points */
        if (i + 1 < count && k + 1 < outline.count &&
            lies(outline.point[k + 1], axis_place(ax, x[i + 1]),
                 axis_place(ay, y[i + 1])))
            k++;
    }
    while (k + 1 < outline.count &&
           lies(outline.point[k + 1], axis_place(ax, x[count - 1]),
                axis_place(ay, y[count - 1])))
        k++;
    ck_assert_msg(k + 1 == outline.count, "%zu of %zu points in '%s'", k + 1,
                  outline.count, chart.caption);
}

static inline void line_is(const char *class_name, size_t nth, const axis *ax,
                           const axis *ay, const double *x, const double *y,
                           size_t count)
{
    read_outline(class_name, nth);
    outline_is(ax, ay, x, y, count);
}

/* A straight stroke of a class from place to place. */
static inline void stroke_is(const char *class_name, size_t nth, double x1,
                             double y1, double x2, double y2)
{
    read_outline(class_name, nth);
    ck_assert_uint_eq(outline.count, 2);
    ck_assert_msg(
        lies(outline.point[0], x1, y1) && lies(outline.point[1], x2, y2),
        "%s %zu: %.1f %.1f to %.1f %.1f, not %.1f %.1f to %.1f %.1f "
        "in '%s'",
        class_name, nth, outline.point[0].x, outline.point[0].y,
        outline.point[1].x, outline.point[1].y, x1, y1, x2, y2, chart.caption);
}

static inline void circle_is(const char *class_name, size_t nth, double x,
                             double y)
{
    const drawn *m = mark_of(DRAWN_CIRCLE, class_name, nth);
    ck_assert_msg(m != NULL, "no circle %s %zu", class_name, nth);
    ck_assert_msg(fabs(m->x - x) < PAPER && fabs(m->y - y) < PAPER,
                  "circle %s %zu at %.1f %.1f, not %.1f %.1f in '%s'",
                  class_name, nth, m->x, m->y, x, y, chart.caption);
}

static inline void rect_is(const drawn *m, double x, double y, double width,
                           double height)
{
    ck_assert_ptr_nonnull(m);
    ck_assert_msg(fabs(m->x - x) < PAPER && fabs(m->y - y) < PAPER &&
                      fabs(m->width - width) < 2.0 * PAPER &&
                      fabs(m->height - height) < 2.0 * PAPER,
                  "rect %.1f %.1f, %.1f by %.1f, not %.1f %.1f, %.1f by %.1f "
                  "in '%s'",
                  m->x, m->y, m->width, m->height, x, y, width, height,
                  chart.caption);
}

#endif
