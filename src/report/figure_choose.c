/* Of a choice: designs against findings as a field of signs, and the front by
 * transmittance and share that fails. No state by colour alone: what holds is a
 * small disc, what holds marginally a ring, what fails a cross in a framed
 * cell, what nobody judged a question mark. */

#include "bothways/choose.h"

#include <math.h>

#include "chosen.h"
#include "part.h"
#include "plot.h"

enum {
    WIDTH = 360,
    CELL = 18,
    ROW = 22,
    HEAD = 30,
    NAMES = 190,
    LONGEST = 34, /* characters of a name */
    MOST = 40
};

/* ---- the field ----------------------------------------------------------- */

static void put_sign(bw_chart *c, double left, double top, double width,
                     bool judged, bw_verdict verdict, bw_verdict numbers)
{
    const double x = left + 0.5 * width, y = top + 0.5 * ROW;
    if (!judged || verdict == BW_NOT_ASSESSED) {
        if (judged && numbers == BW_FAILS)
            bw_chart_rect(c, "short", left + 1.0, top + 1.0, width - 2.0,
                          ROW - 2.0);
        bw_chart_text(c, "strong", x, y + 4.0, BW_MIDDLE, "?");
        return;
    }
    if (verdict == BW_FAILS) {
        bw_chart_rect(c, "bad", left + 1.0, top + 1.0, width - 2.0, ROW - 2.0);
        bw_chart_text(c, "strong halo", x, y + 4.0, BW_MIDDLE, "\u00d7");
        return;
    }
    if (verdict == BW_MARGINAL)
        bw_disc(c, "ring", x, y, 4.0);
    else
        bw_disc(c, "dot", x, y, 2.4);
}

static double column(const bw_chart *c, size_t i)
{
    return c->left + CELL * (double)i;
}

static void put_row(bw_page *page, bw_chart *c, const bw_chosen *all, size_t i)
{
    const bw_design *d = &all->design[all->front[i]];
    const double top = c->top + ROW * (double)i;
    bw_tag_open(c->out, "g", NULL);
    bw_tag_set_numbers(c->out, "data-design",
                       (const double[]){(double)(all->front[i] + 1),
                                        (double)d->drawn, (double)d->failed,
                                        d->bound},
                       4);
    bw_chart_text(
        c, "num", 2.0, top + 0.5 * ROW + 3.5, BW_START,
        bw_phrase(page, "%zu  %s", i + 1, bw_fitted(page, d->name, LONGEST)));
    bw_chart_stroke(c, "rule", 2.0, top + ROW, c->right, top + ROW);
    put_sign(c, column(c, 0), top, CELL, true, d->as_drawn, d->as_drawn);
    for (size_t f = 0, at = 1; f < all->finding_count; f++) {
        const bw_found_alone *found = &d->found[f];
        if (found->applies)
            put_sign(c, column(c, at), top, CELL, found->computed,
                     found->verdict, found->numbers);
        at += !all->finding[f].settled;
    }
    bw_chart_text(c, "num", c->right, top + 0.5 * ROW + 3.5, BW_END,
                  bw_drawn_words(page, all, d));
    bw_tag_close(c->out);
}

static void draw_field(bw_page *page, const bw_chosen *all, size_t rows)
{
    bw_chart c;
    const double width = fmax(
        WIDTH, NAMES + CELL * (double)(all->finding_count + 1) + 44.0);
    const double height = HEAD + ROW * (double)rows + 8.0;
    bw_figure_start(page, "choice", "", "");
    bw_figure_chart(page, &c, width, height, "Designs against findings",
                    "%zu designs of the front, each as drawn and with %zu "
                    "findings alone.",
                    rows, all->finding_count);
    bw_chart_box(&c, NAMES, HEAD, width - 4.0, height - 8.0);
    bw_chart_text(&c, "num", column(&c, 1) - 5.0, 18.0, BW_END, "as drawn");
    for (size_t f = 0, at = 1; f < all->finding_count; f++)
        if (!all->finding[f].settled)
            bw_chart_text(&c, "name", column(&c, at++) + 0.5 * CELL, 18.0,
                          BW_MIDDLE, bw_finding_letter(page, f));
    bw_chart_text(&c, "num", c.right, 18.0, BW_END, "failed");
    for (size_t i = 0; i < rows; i++)
        put_row(page, &c, all, i);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "Rows: the designs. Columns: as drawn, "
                  "then each finding alone at its worse end (letters below), "
                  "then how many of the drawn cases failed. Dot: holds. Ring: "
                  "holds, marginally. Cross: fails. ?: not assessed.");
}

/* ---- the front ----------------------------------------------------------- */

static double share_of(const bw_chosen *all, const bw_design *d)
{
    const size_t failed = all->simulated ? d->failed + d->unassessed
                                         : d->failed_numbers;
    return d->drawn > 0 ? (double)failed / (double)d->drawn : (double)NAN;
}

static void put_design(bw_page *page, bw_chart *c, const bw_chosen *all,
                       size_t i)
{
    const bw_design *d = &all->design[all->front[i]];
    if (d->drawn == 0)
        return;
    const double x = bw_chart_x(c, d->goal[BW_GOAL_U]);
    const double y = bw_chart_y(c, 100.0 * share_of(all, d));
    bw_tag_open(c->out, "g", NULL);
    bw_tag_set_numbers(c->out, "data-place",
                       (const double[]){d->goal[BW_GOAL_U], share_of(all, d)},
                       2);
    if (all->simulated)
        bw_chart_stroke(c, "rule", x, y, x, bw_chart_y(c, 100.0 * d->bound));
    bw_disc(c, d->standing == BW_STANDS ? "dot" : "ring", x, y, 3.2);
    const bool right = i % 2 == 0; /* so that neighbours do not collide */
    bw_chart_text(c, "tiny halo", right ? x + 5.0 : x - 5.0, y - 4.0,
                  right ? BW_START : BW_END, bw_phrase(page, "%zu", i + 1));
    bw_tag_close(c->out);
}

static void draw_front(bw_page *page, const bw_chosen *all, size_t rows)
{
    enum { HEIGHT = 220 };
    bw_chart c;
    double low = (double)INFINITY, high = 0.0;
    for (size_t i = 0; i < rows; i++) {
        low = fmin(low, all->design[all->front[i]].goal[BW_GOAL_U]);
        high = fmax(high, all->design[all->front[i]].goal[BW_GOAL_U]);
    }
    bw_figure_start(page, "front", "", "");
    bw_figure_chart(page, &c, WIDTH, HEIGHT, "The front",
                    "%zu designs by transmittance, %.3g to %.3g W/(m2 K), and "
                    "share of the drawn cases that fails.",
                    rows, low, high);
    bw_chart_box(&c, 34.0, 20.0, WIDTH - 14.0, HEIGHT - 34.0);
    const double beside = fmax(0.2 * (high - low), 0.01 * high);
    bw_chart_range_x(&c, low - beside, high + beside);
    bw_chart_range_y(&c, 0.0, 100.0);
    for (int p = 0; p <= 100; p += 25) {
        const double y = bw_chart_y(&c, p);
        bw_chart_stroke(&c, "rule", c.left, y, c.right, y);
        bw_chart_text(&c, "num", c.left - 5.0, y + 3.5, BW_END,
                      bw_phrase(page, "%d", p));
    }
    bw_chart_text(&c, "num", bw_chart_x(&c, low), c.bottom + 13.0, BW_MIDDLE,
                  bw_fixed(page, low, 3));
    if (high > low)
        bw_chart_text(&c, "num", bw_chart_x(&c, high), c.bottom + 13.0,
                      BW_MIDDLE, bw_fixed(page, high, 3));
    bw_chart_text(&c, "unit", 1.0, 10.0, BW_START,
                  "% of the drawn cases that fail");
    bw_chart_text(&c, "unit", c.right, c.bottom + 27.0, BW_END, "U, W/(m2 K)");
    for (size_t i = 0; i < rows; i++)
        put_design(page, &c, all, i);
    bw_chart_end(&c);
    bw_figure_end(page,
                  "Each design of the front by its number. Filled: holds "
                  "in all that was tried.%s",
                  all->simulated
                      ? " Line: up to the 95 % bound of that share."
                      : " By months, which may fail a wall and often cannot "
                        "say that it holds.");
}

BW_DRAWN(choose_drawn, "Designs against what may be found")
{
    const bw_chosen *all = of->chosen;
    const size_t rows = all->front_count < MOST ? all->front_count : MOST;
    if (rows == 0)
        return;
    bw_plates(page, "plates");
    draw_field(page, all, rows);
    draw_front(page, all, rows);
    bw_plates_end(page);
}
