#ifndef BW_CHART_CHART_H
#define BW_CHART_CHART_H

/* Charts as inline SVG: a box with axes, and lines, bands, bars, marks and
 * real text in it. Looks come from the page's style sheet by class. */

#include "markup.h"
#include "path.h"
#include "scale.h"

/* The plot box lies between left..right and top..bottom (y grows downwards),
 * in units of the chart's own width and height. */
typedef struct bw_chart {
    bw_markup *out;
    double width, height;
    double left, right, top, bottom;
    bw_scale x, y;
    bw_path path; /* one at a time */
} bw_chart;

typedef enum bw_shape {
    BW_SHAPE_DOT,
    BW_SHAPE_RING,
    BW_SHAPE_DROP,
} bw_shape;

typedef enum bw_anchor { BW_START, BW_MIDDLE, BW_END } bw_anchor;

/* Opens the drawing; `title` and `desc` are what a screen reader says. */
void bw_chart_start(bw_chart *chart, bw_markup *out, double width,
                    double height, const char *title, const char *desc);
void bw_chart_end(bw_chart *chart);

/* Where the plot box lies, and the values at its edges. */
void bw_chart_box(bw_chart *chart, double left, double top, double right,
                  double bottom);
void bw_chart_range_x(bw_chart *chart, double from, double to);
void bw_chart_range_y(bw_chart *chart, double from, double to);

double bw_chart_x(const bw_chart *chart, double value);
double bw_chart_y(const bw_chart *chart, double value);

/* Marks and figures along the lower or left edge, with a title ("" none). */
void bw_chart_axis_x(bw_chart *chart, const bw_ticks *ticks, const char *title);
void bw_chart_axis_y(bw_chart *chart, const bw_ticks *ticks, const char *title);
/* Rules across the box at the ticks. */
void bw_chart_rules_y(bw_chart *chart, const bw_ticks *ticks);

/* By values. */
void bw_chart_line(bw_chart *chart, const char *class_name, const double *x,
                   const double *y, size_t count);
/* Between low and high, e.g. the least and most of each column. */
void bw_chart_band(bw_chart *chart, const char *class_name, const double *x,
                   const double *low, const double *high, size_t count);
void bw_chart_mark(bw_chart *chart, bw_shape shape, const char *class_name,
                   double x, double y);

/* By places on the paper. */
void bw_chart_rect(bw_chart *chart, const char *class_name, double left,
                   double top, double width, double height);
void bw_chart_stroke(bw_chart *chart, const char *class_name, double x1,
                     double y1, double x2, double y2);
void bw_chart_text(bw_chart *chart, const char *class_name, double x, double y,
                   bw_anchor anchor, const char *text);

/* Puts chart->path down and clears it; the element stays open for data-
 * attributes until bw_chart_path_end. */
void bw_chart_path(bw_chart *chart, const char *class_name);
void bw_chart_path_end(bw_chart *chart);

/* The least and the most of `count` values in each of `columns` columns,
 * with their mean; columns <= count. */
void bw_columns_of(const double *value, size_t stride, size_t count,
                   size_t columns, double *low, double *high, double *mean);

#endif
