/* Of a margin: the unknowns as bars about their limit, the sd map as a
 * field. */

#include <math.h>
#include <string.h>

#include "part.h"
#include "plot.h"
#include "unknown.h"

enum { WIDTH = 360, ROW = 31, LONGEST = 60 };

/* ---- bars -------------------------------------------------------------- */

static void draw_bar(bw_page *page, bw_chart *c, const bw_unknown *u,
                     size_t row)
{
    double y = c->top + ROW * (double)row, bar = y + 15.0;
    double zero = bw_chart_x(c, 0.0);
    double from = bw_chart_x(c, u->swing_lowest);
    double to = bw_chart_x(c, u->swing_highest);
    bw_tag_open(c->out, "g", NULL);
    bw_tag_set_numbers(
        c->out, "data-margins",
        (const double[]){u->swing_lowest, u->swing_as_drawn, u->swing_highest},
        3);
    const char *flip = u->flips && u->continuous && !u->flips_all
                           ? bw_phrase(page, "flips at %.3g", u->flip_value)
                       : u->flips ? "flips"
                                  : "";
    size_t room = LONGEST - bw_columns(flip, strlen(flip)) - 2;
    bw_chart_text(c, "halo", c->left, y + 9.5, BW_START,
                  bw_fitted(page, u->name, room));
    bw_chart_text(c, "name halo", c->right, y + 9.5, BW_END, flip);
    bw_chart_stroke(c, "rule", c->left, bar + 4.5, c->right, bar + 4.5);
    /* the limit beside the bar alone: it crosses no name */
    bw_chart_stroke(c, "axis", zero, bar - 2.5, zero, bar + 11.5);
    if (from < zero)
        bw_chart_rect(c, "bad", from, bar, fmin(to, zero) - from, 9.0);
    if (to > zero)
        bw_chart_rect(c, "safe", fmax(from, zero), bar, to - fmax(from, zero),
                      9.0);
    if (isfinite(u->swing_as_drawn))
        bw_disc(c, "ring", bw_chart_x(c, u->swing_as_drawn), bar + 4.5, 3.2);
    bw_tag_close(c->out);
}

static size_t moving(const bw_margin *m)
{
    size_t count = 0;
    for (size_t i = 0; i < m->unknown_count; i++)
        count += m->unknown[i].seen && m->unknown[i].swing > 0.0;
    return count;
}

BW_DRAWN(bars, "How far each unknown moves the wall")
{
    const bw_margin *m = of->margin;
    if (m == NULL)
        return;
    size_t rows = moving(m);
    if (rows == 0) {
        bw_text(page, "No unknown moves any criterion.");
        return;
    }
    bw_chart c;
    double height = 40.0 + ROW * (double)rows;
    bw_plates(page, "plates");
    bw_figure_start(page, "margin", "", "");
    bw_figure_chart(
        page, &c, WIDTH, height, "Margin by unknown",
        "%zu bars, the most telling first, from the least to the most "
        "margin over the range of each unknown, as a share of the limit.",
        rows);
    bw_chart_box(&c, 4.0, 30.0, 356.0, height - 6.0);
    bw_chart_range_x(&c, -1.0, 1.0);
    double zero = bw_chart_x(&c, 0.0);
    bw_chart_text(&c, "num", c.left, 11.0, BW_START, "\u2190 fails");
    bw_chart_text(&c, "num", zero, 11.0, BW_MIDDLE, "limit");
    bw_chart_text(&c, "num", c.right, 11.0, BW_END, "holds \u2192");
    bw_chart_stroke(&c, "axis", zero, 16.0, zero, 24.0);
    for (size_t i = 0, row = 0; i < m->unknown_count; i++)
        if (m->unknown[i].seen && m->unknown[i].swing > 0.0)
            draw_bar(page, &c, &m->unknown[i], row++);
    bw_chart_end(&c);
    bw_figure_end(
        page,
        "How far the criterion that moves most moves over the range of "
        "each unknown, as a share of its limit. Framed black: fails. Ring: as "
        "drawn. What does not move is not drawn.");
    bw_plates_end(page);
}

/* ---- the sd map -------------------------------------------------------- */

static void draw_cell(bw_page *page, bw_chart *c, const bw_margin *m, size_t o,
                      size_t i, double most)
{
    const bw_sd_cell *cell = &m->map[o * m->inner_count + i];
    double left = bw_chart_x(c, (double)i),
           right = bw_chart_x(c, (double)i + 1.0);
    double top = bw_chart_y(c, (double)o + 1.0),
           bottom = bw_chart_y(c, (double)o);
    double x = 0.5 * (left + right);
    bw_tag_open(c->out, "g", NULL);
    bw_tag_set_numbers(
        c->out, "data-cell",
        (const double[]){cell->condensed, cell->evaporable, cell->reserve}, 3);
    if (isnan(cell->reserve)) {
        bw_chart_rect(c, "cell", left, top, right - left, bottom - top);
        bw_chart_text(c, "tiny soft", x, bottom - 6.0, BW_MIDDLE, "n/a");
        bw_tag_close(c->out);
        return;
    }
    bool lacks = bw_cell_lacks(m, cell);
    if (lacks)
        bw_chart_rect(c, "bad faint", left + 1.0, top + 1.0, right - left - 2.0,
                      bottom - top - 2.0);
    bw_chart_rect(c, lacks ? "short" : "cell", left + 1.0, top + 1.0,
                  right - left - 2.0, bottom - top - 2.0);
    double share = most > 0.0 ? sqrt(fmax(cell->condensed, 0.0) / most) : 0.0;
    if (share > 0.02)
        bw_disc(c, NULL, x, 0.5 * (top + bottom) - 5.0, 9.0 * share);
    bw_chart_text(c, "tiny halo", x, bottom - 5.0, BW_MIDDLE,
                  bw_grams(page, cell->reserve));
    bw_tag_close(c->out);
}

/* A frame round it, with a word. */
static void mark_own(bw_chart *c, const bw_margin *m)
{
    const double left = bw_chart_x(c, (double)m->own_inner);
    const double top = bw_chart_y(c, (double)m->own_outer + 1.0);
    const double width = bw_chart_x(c, (double)m->own_inner + 1.0) - left;
    const double height = bw_chart_y(c, (double)m->own_outer) - top;
    bw_tag_open(c->out, "g", NULL);
    bw_tag_set_numbers(c->out, "data-own",
                       (const double[]){m->own_inner_sd, m->own_outer_sd}, 2);
    bw_chart_rect(c, "own", left, top, width, height);
    bw_chart_text(c, "tiny strong halo", left + 0.5 * width, top + 9.0,
                  BW_MIDDLE, "this wall");
    bw_tag_close(c->out);
}

static void map_axes(bw_page *page, bw_chart *c, const bw_margin *m)
{
    for (size_t i = 0; i < m->inner_count; i++)
        bw_chart_text(c, "num", bw_chart_x(c, (double)i + 0.5),
                      c->bottom + 13.0, BW_MIDDLE,
                      bw_significant(page, m->inner_sd[i], 3));
    for (size_t o = 0; o < m->outer_count; o++)
        bw_chart_text(c, "num", c->left - 5.0,
                      bw_chart_y(c, (double)o + 0.5) + 3.5, BW_END,
                      bw_significant(page, m->outer_sd[o], 3));
    bw_chart_text(c, "unit", c->right, c->bottom + 26.0, BW_END,
                  "sd inside, m");
    bw_chart_text(c, "unit", 1.0, 10.0, BW_START, "sd outside, m");
}

BW_DRAWN(map_drawn, NULL)
{
    const bw_margin *m = of->margin;
    if (m == NULL || m->inner_count == 0 || m->outer_count == 0)
        return;
    double most = 0.0;
    for (size_t i = 0; i < m->inner_count * m->outer_count; i++)
        if (isfinite(m->map[i].condensed))
            most = fmax(most, m->map[i].condensed);
    bw_chart c;
    bw_plates(page, "plates");
    bw_figure_start(page, "sd-map", m->map_section, "");
    bw_figure_chart(page, &c, WIDTH, 352, "sd map",
                    "Condensate and drying reserve for %zu inner by %zu outer "
                    "vapour resistances; most condensate %s.",
                    m->inner_count, m->outer_count, bw_amount(page, most));
    bw_chart_box(&c, 34.0, 18.0, 356.0, 322.0);
    bw_chart_range_x(&c, 0.0, (double)m->inner_count);
    bw_chart_range_y(&c, 0.0, (double)m->outer_count);
    for (size_t o = 0; o < m->outer_count; o++)
        for (size_t i = 0; i < m->inner_count; i++)
            draw_cell(page, &c, m, o, i, most);
    mark_own(&c, m);
    map_axes(page, &c, m);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "Figures: drying reserve, g/m2. Discs: condensate by "
                  "area, the largest %s. Heavy frame: nearest to this wall, "
                  "%s. Shaded and framed: %s.",
                  bw_amount(page, most), bw_own_cell_text(page, m),
                  m->map_limit > 0.0 ? bw_phrase(page, "reserve below %s g/m2",
                                                 bw_grams(page, m->map_limit))
                                     : "less can evaporate than condenses");
    bw_plates_end(page);
}
