#ifndef BW_TESTS_CHART_PAPER_H
#define BW_TESTS_CHART_PAPER_H

/* A chart at random on a sheet of its own, and what was drawn of it. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "chart/chart.h"
#include "chart/field.h"
#include "paper.h"
#include "random_wall.h"
#include "suite.h"
#include "svg_path.h"

enum { DRAWS = 200 };

static const double TENTH = 0.0501;

static paper drawn;
static svg_path outline;
static bw_markup out;
static bw_chart chart;
static dice die;

static inline void start(void)
{
    die = (dice){.state = 88172645463325252u};
}

/* A box somewhere on the paper, and values at its edges, either way about. */
static inline void open_chart(void)
{
    const double left = between(&die, 10.0, 60.0);
    const double top = between(&die, 10.0, 40.0);
    double range[4];
    for (int i = 0; i < 4; i += 2) {
        const double wide = between(&die, 20.0, 200.0);
        range[i] = between(&die, -100.0, 100.0);
        range[i + 1] = range[i] + (uniform(&die) < 0.5 ? -wide : wide);
    }
    paper_clear(&drawn);
    bw_markup_start(&out, paper_take, &drawn);
    bw_chart_start(&chart, &out, 400.0, 300.0, "title", "what it is");
    bw_chart_box(&chart, left, top, left + between(&die, 50.0, 300.0),
                 top + between(&die, 50.0, 200.0));
    bw_chart_range_x(&chart, range[0], range[1]);
    bw_chart_range_y(&chart, range[2], range[3]);
}

/* Ends the drawing; what was drawn in the box stands behind its words. */
static inline const char *close_chart(void)
{
    bw_chart_end(&chart);
    ck_assert(bw_markup_finish(&out));
    const char *behind = strstr(drawn.text, "</desc>");
    ck_assert_ptr_nonnull(behind);
    return behind;
}

static inline double where(double value, double from, double to, double at_from,
                           double at_to)
{
    return at_from + (value - from) * (at_to - at_from) / (to - from);
}

static inline double where_x(double value)
{
    return where(value, chart.x.from, chart.x.to, chart.left, chart.right);
}

/* Upwards: the first of the range at the bottom. */
static inline double where_y(double value)
{
    return where(value, chart.y.from, chart.y.to, chart.bottom, chart.top);
}

/* The element number `nth` of a name and class, from its sign on. */
static inline const char *element_of(const char *from, const char *name,
                                     size_t nth)
{
    char sign[64];
    snprintf(sign, sizeof sign, "<%s", name);
    const char *at = strstr(from, sign);
    for (; nth > 0 && at != NULL; nth--)
        at = strstr(at + 1, sign);
    return at;
}

static inline double attribute(const char *element, const char *name)
{
    char sign[32];
    snprintf(sign, sizeof sign, " %s=\"", name);
    ck_assert_ptr_nonnull(element);
    const char *at = strstr(element, sign);
    ck_assert_msg(at != NULL && at < strchr(element, '>'), "no %s in %.60s",
                  name, element);
    return atof(at + strlen(sign));
}

static inline void read_path(const char *element)
{
    static char d[65536];
    ck_assert_ptr_nonnull(element);
    const char *at = strstr(element, " d=\"");
    ck_assert_ptr_nonnull(at);
    const size_t length = strcspn(at + 4, "\"");
    ck_assert_uint_lt(length, sizeof d);
    memcpy(d, at + 4, length);
    d[length] = '\0';
    svg_read(&outline, d);
}

#endif
