/* What is marked in the picture of the year, and what stands beside it. */

#include <math.h>

#include "spot.h"
#include "year.h"

static void mark_season(bw_year_picture *p, double x)
{
    bw_chart *c = &p->chart;
    for (size_t from = 0; from < p->spans; from++) {
        size_t to = from;
        while (to < p->spans && p->mark.bad[to])
            to++;
        if (to == from)
            continue;
        const double y1 = bw_chart_y(c, bw_year_row(p, (double)from));
        const double y2 = bw_chart_y(c, bw_year_row(p, (double)to));
        bw_chart_stroke(c, "seasonedge", x, y1, x, y2);
        bw_chart_stroke(c, "season", x, y1, x, y2);
        from = to;
    }
}

void bw_year_mark_place(bw_year_picture *p, double top)
{
    bw_chart *c = &p->chart;
    const double x = bw_chart_x(c, p->mark.depth);
    const bool right = x > 0.5 * (c->left + c->right);
    bw_chart_stroke(c, "under", x, c->top, x, c->bottom);
    bw_chart_stroke(c, "place", x, top, x, c->bottom);
    mark_season(p, x);
    bw_path_move(&c->path, x, c->top);
    bw_path_line(&c->path, x - 4.5, c->top - 8.0);
    bw_path_line(&c->path, x + 4.5, c->top - 8.0);
    bw_path_close(&c->path);
    bw_chart_path(c, "pointer");
    bw_chart_path_end(c);
    bw_chart_text(c, "strong", x + (right ? -8.0 : 8.0), c->top - 6.0,
                  right ? BW_END : BW_START, p->mark.words);
}

const char *bw_year_season(const bw_year_picture *p, const char *what)
{
    bw_page *page = p->page;
    bool bad[BW_MONTHS] = {false};
    int count = 0, start = 0;
    const char *text = bw_phrase(page, "; black bar: %s", what);
    for (size_t k = 0; k < p->spans; k++)
        if (p->mark.bad[k])
            bad[(p->first + (int)bw_year_row(p, (double)k + 0.5)) % BW_MONTHS] =
                true;
    for (int m = 0; m < BW_MONTHS; m++)
        count += bad[m];
    if (count == 0 || count == BW_MONTHS)
        return count == 0 ? "" : bw_phrase(page, "%s, all year", text);
    while (bad[(start + BW_MONTHS - 1) % BW_MONTHS] || !bad[start])
        start++; /* a month that begins a run */
    for (int k = 0; k < BW_MONTHS; k++) {
        const int m = (start + k) % BW_MONTHS;
        int length = 0;
        while (length < BW_MONTHS && bad[(m + length) % BW_MONTHS])
            length++;
        if (length == 0)
            continue;
        text = bw_phrase(
            page, "%s, %s%s%s", text, bw_month_name(m),
            length > 1 ? " to " : "",
            length > 1 ? bw_month_name((m + length - 1) % BW_MONTHS) : "");
        k += length;
    }
    return text;
}

/* ---- vapour driven inwards --------------------------------------------- */

/* Span by span, as one outline from the left. */
static void inward_bars(bw_year_picture *p, const char *class_name,
                        const double drive[BW_SPANS], const bw_scale *x)
{
    bw_chart *c = &p->chart;
    bw_path_move(&c->path, x->at_from, c->top);
    for (size_t k = 0; k < p->spans; k++) {
        const double at = bw_scale_at(x, drive[k]);
        bw_path_line(&c->path, at, bw_chart_y(c, bw_year_row(p, (double)k)));
        bw_path_line(&c->path, at,
                     bw_chart_y(c, bw_year_row(p, (double)k + 1.0)));
    }
    bw_path_line(&c->path, x->at_from, c->bottom);
    bw_path_close(&c->path);
    bw_chart_path(c, class_name);
    bw_chart_path_end(c);
}

void bw_year_inward(bw_year_picture *p, double left, double right)
{
    static const double LEAST = 100.0; /* Pa: less is drawn as little */
    bw_chart *c = &p->chart;
    const bw_drive drive = bw_drive_of(p->assembly, p->part);
    const bw_slab_moisture *m = &p->part->transient.slab[drive.slab];
    double zero = 0.0, top = fmax(fmax(drive.most, LEAST), p->drive);
    bw_round_range(&zero, &top, 4);
    const bw_scale x = {zero, top, left, right, false};
    inward_bars(p, "inward", m->inward, &x);
    inward_bars(p, "insun", m->inward_in_sun, &x);
    bw_chart_stroke(c, "axis", left, c->top, left, c->bottom);
    bw_chart_stroke(c, "axis", left, c->bottom, right, c->bottom);
    for (int i = 0; i < 2; i++) {
        const double at = i * top;
        bw_chart_stroke(c, "axis", bw_scale_at(&x, at), c->bottom,
                        bw_scale_at(&x, at), c->bottom + 3.0);
        bw_chart_text(c, "num", bw_scale_at(&x, at), c->bottom + 13.0,
                      BW_MIDDLE, bw_phrase(p->page, "%.0f", at));
    }
    bw_chart_text(c, "unit", right + 7.0, c->bottom + 25.0, BW_END, "Pa");
    bw_chart_text(c, "num", left, c->top - 18.0, BW_START, "driven");
    bw_chart_text(c, "num", left, c->top - 6.0, BW_START, "inwards");
}

const char *bw_year_inward_text(const bw_year_picture *p)
{
    const bw_drive drive = bw_drive_of(p->assembly, p->part);
    return bw_phrase(p->page,
                     "On the right: how strongly vapour is driven inwards "
                     "through layer %zu, by up to %.0f Pa in a mean of five "
                     "days, in %s; dark: with the sun on the wall.",
                     p->section->slab[drive.slab].layer + 1, drive.most,
                     bw_month_name(drive.month));
}
