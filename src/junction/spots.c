/* Named places: temperature there, relative humidity by months, and the
 * moisture of wood in balance with it.
 *
 *   theta(x, y) = theta_c + sum over x, y of (theta_f - theta_c) d/(w/2)
 *
 * within a cell of width w: theta_f of the side towards which the place lies, d
 * from the cell's middle; on a line the mean of the cells it lies on. Exact
 * where heat flows one way. Humidity: pressures between the nodes at the
 * corners of the cell, over saturation at the temperature there.
 *
 * Invariant: of cells that meet at a place that of wood is asked first. */

#include "spots.h"

#include <math.h>

#include "bothways/air.h"

/* ---- temperature ------------------------------------------------------------
 */

typedef struct asking {
    const bw_junction_heat *heat;
    const double *theta; /* degC, of each environment */
} asking;

static double of_cell(const asking *a, size_t cell)
{
    double t = 0.0;
    for (size_t e = 0; e < a->heat->environment_count; e++)
        t += a->heat->weight[e][cell] * a->theta[e];
    return t;
}

/* A surface, with the resistances against mould. */
static double of_face(const asking *a, size_t face)
{
    const size_t faces = a->heat->raster.face_count;
    double t = 0.0;
    for (size_t e = 0; e < a->heat->environment_count; e++)
        t += a->heat->face_weight[e * faces + face] * a->theta[e];
    return t;
}

static double width_of(const bw_raster *g, size_t cell, bool along_x)
{
    const size_t i = cell % g->nx, j = cell / g->nx;
    return along_x ? g->x[i + 1] - g->x[i] : g->y[j + 1] - g->y[j];
}

/* The middle of a side of a filled cell. */
static double of_side(const asking *a, size_t cell, bw_cell_side side)
{
    const bw_raster *g = &a->heat->raster;
    const size_t i = cell % g->nx, j = cell / g->nx;
    const bool along_x = side == BW_EDGE_LEFT || side == BW_EDGE_RIGHT;
    const bool there[BW_EDGES] = {i > 0, i + 1 < g->nx, j > 0, j + 1 < g->ny};
    const size_t beside[BW_EDGES] = {cell - 1, cell + 1, cell - g->nx,
                                     cell + g->nx};
    const size_t n = beside[side];
    if (there[side] && g->material[n] != BW_NOT_THERE) {
        const bw_drawn_material *m = g->junction->material;
        const double own = m[g->material[cell]].conductivity /
                           width_of(g, cell, along_x);
        const double other = m[g->material[n]].conductivity /
                             width_of(g, n, along_x);
        return (own * of_cell(a, cell) + other * of_cell(a, n)) / (own + other);
    }
    for (size_t f = 0; f < g->face_count; f++)
        if (g->face[f].cell == cell && g->face[f].side == side)
            return of_face(a, f);
    return of_cell(a, cell); /* symmetry */
}

static double within(const asking *a, size_t cell, double x, double y)
{
    const bw_raster *g = &a->heat->raster;
    const size_t i = cell % g->nx, j = cell / g->nx;
    const double dx = x - 0.5 * (g->x[i] + g->x[i + 1]);
    const double dy = y - 0.5 * (g->y[j] + g->y[j + 1]);
    const double t = of_cell(a, cell);
    const double tx = of_side(a, cell, dx < 0.0 ? BW_EDGE_LEFT : BW_EDGE_RIGHT);
    const double ty = of_side(a, cell,
                              dy < 0.0 ? BW_EDGE_BELOW : BW_EDGE_ABOVE);
    return t + (tx - t) * fabs(dx) / (0.5 * width_of(g, cell, true)) +
           (ty - t) * fabs(dy) / (0.5 * width_of(g, cell, false));
}

static bool is_wood(const bw_raster *g, size_t cell)
{
    return g->junction->material[g->material[cell]].material->wood_kind !=
           BW_NOT_WOOD;
}

/* Does it hold the place, or touch it? */
static bool holds(const bw_raster *g, size_t cell, double x, double y)
{
    static const double line = 1e-6; /* m */
    const size_t i = cell % g->nx, j = cell / g->nx;
    return g->material[cell] != BW_NOT_THERE && x >= g->x[i] - line &&
           x <= g->x[i + 1] + line && y >= g->y[j] - line &&
           y <= g->y[j + 1] + line;
}

double bw_junction_theta_at(const bw_junction_heat *heat, const double *theta,
                            double x, double y)
{
    const asking a = {heat, theta};
    const bw_raster *g = &heat->raster;
    double sum = 0.0;
    int count = 0;
    for (size_t c = 0; c < g->nx * g->ny; c++)
        if (holds(g, c, x, y)) {
            sum += within(&a, c, x, y);
            count++;
        }
    return count > 0 ? sum / count : (double)NAN;
}

/* ---- humidity ---------------------------------------------------------------
 */

/* A cell that holds the place, of wood if there is one; cells: none. */
static size_t cell_of(const bw_raster *g, double x, double y)
{
    const size_t cells = g->nx * g->ny;
    size_t found = cells;
    for (size_t c = 0; c < cells; c++)
        if (holds(g, c, x, y) &&
            (found == cells || (is_wood(g, c) && !is_wood(g, found))))
            found = c;
    return found;
}

const bw_material *bw_junction_material_at(const bw_raster *g, double x,
                                           double y)
{
    const size_t c = cell_of(g, x, y);
    return c < g->nx * g->ny ? g->junction->material[g->material[c]].material
                             : NULL;
}

/* Of a field at the corners of the cell. */
static double between(const double *field, const size_t *corner, double u,
                      double v)
{
    return (1.0 - v) * ((1.0 - u) * field[corner[0]] + u * field[corner[1]]) +
           v * ((1.0 - u) * field[corner[3]] + u * field[corner[2]]);
}

void bw_spots_humidity(double *rh, const bw_vapour *vapour,
                       const bw_vapour_result *year)
{
    const bw_raster *g = vapour->grid;
    const bw_junction *d = g->junction;
    const size_t nodes = vapour->nodes.count;
    for (size_t s = 0; s < d->spot_count; s++) {
        const double x = d->spot[s].x, y = d->spot[s].y;
        const size_t c = cell_of(g, x, y);
        const bool there = c < g->nx * g->ny;
        const size_t i = c % g->nx, j = c / g->nx;
        for (size_t m = 0; m < BW_MONTHS; m++) {
            double *out = &rh[s * BW_MONTHS + m];
            *out = (double)NAN;
            if (!there)
                continue;
            const size_t *corner = &vapour->nodes.corner[c * BW_CORNERS];
            const double u = fmin(
                fmax((x - g->x[i]) / (g->x[i + 1] - g->x[i]), 0.0), 1.0);
            const double v = fmin(
                fmax((y - g->y[j]) / (g->y[j + 1] - g->y[j]), 0.0), 1.0);
            const double p = between(year->p + m * nodes, corner, u, v);
            const double t = between(year->theta + m * nodes, corner, u, v);
            *out = fmin(p / bw_saturation_pressure(t), 1.0);
        }
    }
}
