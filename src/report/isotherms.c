/* Isotherms: within each mesh of four cells' middles, where all are filled, and
 * of each line the place for its label that has most room.
 *
 * Invariant: no line leaves the box, no two labels overlap. */

#include "isotherms.h"

#include <math.h>

#include "coldest.h"

enum { LINES_MOST = 24, LABELS_MOST = 10 };

static const double half_wide = 14.0, high = 12.0; /* of a label, on paper */

typedef struct isotherms {
    bw_page *page;
    bw_chart *chart;
    const bw_raster *grid;
    const double *theta;
    bw_taken *taken;
    double step; /* K */
} isotherms;

typedef struct spot {
    double x, y, room;
} spot;

/* Four cells' middles on paper, anticlockwise from below left. */
typedef struct mesh {
    double x[4], y[4], t[4];
} mesh;

static bool mesh_at(mesh *m, const isotherms *s, size_t i, size_t j)
{
    const bw_raster *g = s->grid;
    const size_t at[4] = {j * g->nx + i, j * g->nx + i + 1,
                          (j + 1) * g->nx + i + 1, (j + 1) * g->nx + i};
    for (int k = 0; k < 4; k++) {
        const size_t ci = at[k] % g->nx, cj = at[k] / g->nx;
        if (g->material[at[k]] == BW_NOT_THERE)
            return false;
        m->x[k] = bw_chart_x(s->chart, 0.5 * (g->x[ci] + g->x[ci + 1]));
        m->y[k] = bw_chart_y(s->chart, 0.5 * (g->y[cj] + g->y[cj + 1]));
        m->t[k] = s->theta[at[k]];
    }
    return m->x[0] < s->chart->right && m->x[1] > s->chart->left &&
           m->y[0] > s->chart->top && m->y[3] < s->chart->bottom;
}

/* ---- lines ------------------------------------------------------------------
 */

/* The part of a piece that is in the box; one of its two ends moves. */
static bool clip(const bw_chart *c, double x[2], double y[2])
{
    double from = 0.0, to = 1.0;
    const double dx = x[1] - x[0], dy = y[1] - y[0];
    const double move[4] = {-dx, dx, -dy, dy};
    const double room[4] = {x[0] - c->left, c->right - x[0], y[0] - c->top,
                            c->bottom - y[0]};
    for (int k = 0; k < 4; k++) {
        if (fabs(move[k]) < 1e-12 && room[k] < 0.0)
            return false;
        if (move[k] < -1e-12)
            from = fmax(from, room[k] / move[k]);
        if (move[k] > 1e-12)
            to = fmin(to, room[k] / move[k]);
    }
    if (from >= to)
        return false;
    const double x0 = x[0], y0 = y[0];
    x[0] = x0 + from * dx;
    y[0] = y0 + from * dy;
    x[1] = x0 + to * dx;
    y[1] = y0 + to * dy;
    return true;
}

/* Pieces of a line in a mesh: ends in pairs. */
static size_t pieces(const mesh *m, double level, double *x, double *y)
{
    size_t found = 0;
    for (int k = 0; k < 4; k++) {
        const int n = (k + 1) % 4;
        if ((m->t[k] < level) == (m->t[n] < level))
            continue;
        const double s = (level - m->t[k]) / (m->t[n] - m->t[k]);
        x[found] = m->x[k] + s * (m->x[n] - m->x[k]);
        y[found++] = m->y[k] + s * (m->y[n] - m->y[k]);
    }
    return found;
}

/* ---- labels -----------------------------------------------------------------
 */

/* How far away the next line is, as the temperature runs here. */
static double to_next(const isotherms *s, const mesh *m)
{
    const double by_x = (m->t[1] - m->t[0]) / (m->x[1] - m->x[0]);
    const double by_y = (m->t[3] - m->t[0]) / (m->y[3] - m->y[0]);
    return s->step / fmax(hypot(by_x, by_y), 1e-9);
}

static void offer(const isotherms *s, spot *best, double x, double y,
                  double next)
{
    static const double WIDE = 0.6; /* a label is wider than high */
    const bw_chart *c = s->chart;
    double room = fmin(WIDE * fmin(x - c->left, c->right - x),
                       fmin(y - c->top, c->bottom - y));
    if (room < 8.0)
        return;
    for (size_t i = 0; i < s->taken->count; i++) {
        const double away_x = fabs(x - s->taken->x[i]);
        const double away_y = fabs(y - s->taken->y[i]);
        if (away_x < 2.0 * half_wide && away_y < high)
            return;
        room = fmin(room, hypot(WIDE * away_x, away_y));
    }
    room = fmin(room, 2.0 * next);
    if (room > best->room)
        *best = (spot){x, y, room};
}

static void put_label(isotherms *s, const spot *at, double level)
{
    bw_taken *t = s->taken;
    if (!(at->room > 0.0) || t->count == BW_TAKEN)
        return;
    bw_chart_text(
        s->chart, "halo", at->x, at->y + 3.5, BW_MIDDLE,
        bw_phrase(s->page, s->step < 1.0 ? "%.1f" : "%.0f", level + 0.0));
    t->x[t->count] = at->x;
    t->y[t->count++] = at->y;
}

/* ---- all of them ------------------------------------------------------------
 */

/* Draws it, or with a place to find looks for its label's. */
static void follow(isotherms *s, double level, spot *best)
{
    const bw_raster *g = s->grid;
    bw_path *path = &s->chart->path;
    for (size_t j = 0; j + 1 < g->ny; j++)
        for (size_t i = 0; i + 1 < g->nx; i++) {
            mesh m;
            double x[4], y[4];
            if (!mesh_at(&m, s, i, j))
                continue;
            const size_t found = pieces(&m, level, x, y);
            for (size_t k = 0; k + 1 < found; k += 2) {
                if (!clip(s->chart, x + k, y + k))
                    continue;
                if (best != NULL) {
                    offer(s, best, 0.5 * (x[k] + x[k + 1]),
                          0.5 * (y[k] + y[k + 1]), to_next(s, &m));
                    continue;
                }
                bw_path_move(path, x[k], y[k]);
                bw_path_line(path, x[k + 1], y[k + 1]);
            }
        }
    if (best != NULL)
        return;
    bw_chart_path(s->chart, "mean");
    bw_chart_path_end(s->chart);
}

static void range_of(const isotherms *s, double *low, double *top)
{
    *low = HUGE_VAL;
    *top = -HUGE_VAL;
    for (size_t c = 0; c < s->grid->nx * s->grid->ny; c++) {
        if (s->grid->material[c] == BW_NOT_THERE)
            continue;
        *low = fmin(*low, s->theta[c]);
        *top = fmax(*top, s->theta[c]);
    }
}

void bw_isotherms_draw(bw_page *page, bw_chart *chart,
                       const bw_junction_assessment *a, int month,
                       bw_taken *taken, double *step)
{
    const bw_raster *g = &a->heat->raster;
    double *theta = BW_NEW(&page->arena, double, g->nx * g->ny);
    double low, top;
    isotherms s = {.page = page,
                   .chart = chart,
                   .grid = g,
                   .theta = theta,
                   .taken = taken};
    if (theta == NULL)
        return;
    for (size_t c = 0; c < g->nx * g->ny; c++)
        theta[c] = bw_junction_theta(a, c, month);
    range_of(&s, &low, &top);
    *step = top - low > 16.0 ? 2.0 : top - low > 4.0 ? 1.0 : 0.5;
    while (top - low > LINES_MOST * *step)
        *step *= 2.0;
    s.step = *step;
    const double first = ceil(low / *step);
    const int lines = (int)(ceil(top / *step) - first);
    for (int n = 0; n < lines; n++)
        follow(&s, (first + n) * *step, NULL);
    const int skip = lines > LABELS_MOST ? 2 : 1; /* over all lines */
    for (int n = 0; n < lines; n += skip) {
        spot best = {0};
        follow(&s, (first + n) * *step, &best);
        put_label(&s, &best, (first + n) * *step);
    }
}
