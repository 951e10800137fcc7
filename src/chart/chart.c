#include "chart.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"

/* Marks at the place of their datum by the scales; every number in tenths of a
 * unit.
 *
 * Invariant: a chart has a title and a description, whoever cannot see it. */

enum { TICK = 3 };

static void set_tenths(bw_chart *chart, const char *name, double value)
{
    char *text = BW_NUMBER_F(isfinite(value) ? value : 0.0, 1);
    size_t length = strlen(text);
    if (length > 2 && strcmp(text + length - 2, ".0") == 0)
        text[length - 2] = '\0';
    bw_tag_set(chart->out, name, text);
}

void bw_chart_start(bw_chart *chart, bw_markup *out, double width,
                    double height, const char *title, const char *desc)
{
    char box[64], names[64], id[32];
    *chart = (bw_chart){.out = out, .width = width, .height = height};
    out->serial++;
    snprintf(box, sizeof box, "0 0 %d %d", (int)width, (int)height);
    snprintf(names, sizeof names, "t%d d%d", out->serial, out->serial);
    bw_tag_open(out, "svg", "chart");
    bw_tag_set(out, "xmlns", "http://www.w3.org/2000/svg");
    bw_tag_set(out, "viewBox", box);
    bw_tag_set(out, "role", "img");
    bw_tag_set(out, "aria-labelledby", names);
    snprintf(id, sizeof id, "t%d", out->serial);
    bw_tag_open(out, "title", NULL);
    bw_tag_set(out, "id", id);
    bw_tag_text(out, title);
    bw_tag_close(out);
    id[0] = 'd';
    bw_tag_open(out, "desc", NULL);
    bw_tag_set(out, "id", id);
    bw_tag_text(out, desc);
    bw_tag_close(out);
}

void bw_chart_end(bw_chart *chart)
{
    bw_tag_close(chart->out);
    if (chart->path.no_memory)
        chart->out->no_memory = true;
    bw_path_free(&chart->path);
}

void bw_chart_box(bw_chart *chart, double left, double top, double right,
                  double bottom)
{
    chart->left = left;
    chart->top = top;
    chart->right = right;
    chart->bottom = bottom;
}

void bw_chart_range_x(bw_chart *chart, double from, double to)
{
    chart->x = (bw_scale){from, to, chart->left, chart->right, false};
}

void bw_chart_range_y(bw_chart *chart, double from, double to)
{
    chart->y = (bw_scale){from, to, chart->bottom, chart->top, false};
}

double bw_chart_x(const bw_chart *chart, double value)
{
    return bw_scale_at(&chart->x, value);
}

double bw_chart_y(const bw_chart *chart, double value)
{
    return bw_scale_at(&chart->y, value);
}

static const char *tick_text(char *buffer, size_t size, const bw_ticks *ticks,
                             double value)
{
    return ticks->decimals < 0
               ? bw_number_g(buffer, size, value, 6)
               : bw_number_f(buffer, size, value, ticks->decimals);
}

void bw_chart_axis_x(bw_chart *chart, const bw_ticks *ticks, const char *title)
{
    bw_chart_stroke(chart, "axis", chart->left, chart->bottom, chart->right,
                    chart->bottom);
    for (size_t i = 0; i < ticks->count; i++) {
        char text[64];
        double x = bw_chart_x(chart, ticks->value[i]);
        bw_chart_stroke(chart, "axis", x, chart->bottom, x,
                        chart->bottom + TICK);
        bw_chart_text(chart, "num", x, chart->bottom + 13.0, BW_MIDDLE,
                      tick_text(text, sizeof text, ticks, ticks->value[i]));
    }
    if (title[0] != '\0')
        bw_chart_text(chart, "unit", chart->right, chart->bottom + 25.0, BW_END,
                      title);
}

void bw_chart_axis_y(bw_chart *chart, const bw_ticks *ticks, const char *title)
{
    bw_chart_stroke(chart, "axis", chart->left, chart->top, chart->left,
                    chart->bottom);
    for (size_t i = 0; i < ticks->count; i++) {
        char text[64];
        double y = bw_chart_y(chart, ticks->value[i]);
        bw_chart_stroke(chart, "axis", chart->left - TICK, y, chart->left, y);
        bw_chart_text(chart, "num", chart->left - 5.0, y + 3.5, BW_END,
                      tick_text(text, sizeof text, ticks, ticks->value[i]));
    }
    /* A short unit stands over the figures, a long one starts at the edge. */
    bool brief = strlen(title) <= 3;
    if (title[0] != '\0')
        bw_chart_text(chart, "unit", brief ? chart->left - 5.0 : 1.0,
                      chart->top - 8.0, brief ? BW_END : BW_START, title);
}

void bw_chart_rules_y(bw_chart *chart, const bw_ticks *ticks)
{
    for (size_t i = 0; i < ticks->count; i++) {
        double y = bw_chart_y(chart, ticks->value[i]);
        bw_chart_stroke(chart, "rule", chart->left, y, chart->right, y);
    }
}

void bw_chart_path(bw_chart *chart, const char *class_name)
{
    bw_tag_open(chart->out, "path", class_name);
    bw_tag_set(chart->out, "d",
               chart->path.used > 0 ? chart->path.text : "M0 0");
    bw_path_clear(&chart->path);
}

void bw_chart_path_end(bw_chart *chart)
{
    bw_tag_close_short(chart->out);
}

void bw_chart_line(bw_chart *chart, const char *class_name, const double *x,
                   const double *y, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double at_x = bw_chart_x(chart, x[i]), at_y = bw_chart_y(chart, y[i]);
        if (i == 0)
            bw_path_move(&chart->path, at_x, at_y);
        else
            bw_path_line(&chart->path, at_x, at_y);
    }
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

void bw_chart_band(bw_chart *chart, const char *class_name, const double *x,
                   const double *low, const double *high, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double at_x = bw_chart_x(chart, x[i]);
        if (i == 0)
            bw_path_move(&chart->path, at_x, bw_chart_y(chart, high[i]));
        else
            bw_path_line(&chart->path, at_x, bw_chart_y(chart, high[i]));
    }
    for (size_t i = count; i-- > 0;)
        bw_path_line(&chart->path, bw_chart_x(chart, x[i]),
                     bw_chart_y(chart, low[i]));
    bw_path_close(&chart->path);
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

void bw_chart_mark(bw_chart *chart, bw_shape shape, const char *class_name,
                   double x, double y)
{
    double at_x = bw_chart_x(chart, x), at_y = bw_chart_y(chart, y);
    bw_path *path = &chart->path;
    if (shape == BW_SHAPE_DOT || shape == BW_SHAPE_RING) {
        bw_tag_open(chart->out, "circle", class_name);
        set_tenths(chart, "cx", at_x);
        set_tenths(chart, "cy", at_y);
        bw_tag_set(chart->out, "r", shape == BW_SHAPE_DOT ? "2.2" : "3");
        bw_tag_close_short(chart->out);
        return;
    }
    /* A drop hangs below its point. */
    bw_path_move(path, at_x, at_y);
    bw_path_line(path, at_x + 3.6, at_y + 6.5);
    bw_path_line(path, at_x + 2.2, at_y + 9.5);
    bw_path_line(path, at_x - 2.2, at_y + 9.5);
    bw_path_line(path, at_x - 3.6, at_y + 6.5);
    bw_path_close(path);
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

void bw_chart_rect(bw_chart *chart, const char *class_name, double left,
                   double top, double width, double height)
{
    bw_tag_open(chart->out, "rect", class_name);
    set_tenths(chart, "x", left);
    set_tenths(chart, "y", top);
    set_tenths(chart, "width", width);
    set_tenths(chart, "height", height);
    bw_tag_close_short(chart->out);
}

void bw_chart_stroke(bw_chart *chart, const char *class_name, double x1,
                     double y1, double x2, double y2)
{
    bw_path_move(&chart->path, x1, y1);
    bw_path_line(&chart->path, x2, y2);
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

void bw_chart_text(bw_chart *chart, const char *class_name, double x, double y,
                   bw_anchor anchor, const char *text)
{
    static const char *const word[] = {"start", "middle", "end"};
    bw_tag_open(chart->out, "text", class_name);
    set_tenths(chart, "x", x);
    set_tenths(chart, "y", y);
    if (anchor != BW_START)
        bw_tag_set(chart->out, "text-anchor", word[anchor]);
    bw_tag_text(chart->out, text);
    bw_tag_close(chart->out);
}

void bw_columns_of(const double *value, size_t stride, size_t count,
                   size_t columns, double *low, double *high, double *mean)
{
    for (size_t c = 0; c < columns; c++) {
        size_t from = c * count / columns, to = (c + 1) * count / columns;
        double least = value[from * stride], most = least, sum = 0.0;
        for (size_t i = from; i < to; i++) {
            double v = value[i * stride];
            least = fmin(least, v);
            most = fmax(most, v);
            sum += v;
        }
        low[c] = least;
        high[c] = most;
        mean[c] = to > from ? sum / (double)(to - from) : least;
    }
}
