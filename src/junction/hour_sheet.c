/* Flows through the faces of a drawing's cells and what they add to each, with
 * the Jacobian: the equations of one dimension (flux.h) at every face, whose
 * half cells are as thick as their way to it.
 *
 * Invariant: what leaves one cell enters the next, so the sums of rate[] are
 * the flows that are counted. */

#include <math.h>
#include <string.h>

#include "bothways/air.h"
#include "fail.h"
#include "flux.h"
#include "hour_air.h"
#include "hour_sheet.h"

size_t bw_sheet_reach(const bw_sheet *sheet)
{
    size_t most = 0;
    for (size_t f = 0; f < sheet->face_count; ++f) {
        const size_t a = sheet->face[f].a, b = sheet->face[f].b;
        const size_t apart = a > b ? a - b : b - a;
        most = apart > most ? apart : most;
    }
    return most;
}

/* Adds -a times slopes (q by theta, by z; g by theta, by z) of what enters cell
 * `row` by the state of cell `column`. */
static void add_slopes(bw_band *m, size_t row, size_t column, double a,
                       const double slope[4])
{
    if (m == NULL)
        return;
    float *heat = bw_band_at(m, 2 * row, 2 * column);
    float *water = bw_band_at(m, 2 * row + 1, 2 * column);
    heat[0] -= (float)(a * slope[0]);
    heat[1] -= (float)(a * slope[1]);
    water[0] -= (float)(a * slope[2]);
    water[1] -= (float)(a * slope[3]);
}

static void pass_face(const bw_sheet *sheet, const bw_sheet_face *face,
                      const double *v, const bw_cells *cells, bool slow,
                      double *rate, bw_band *m, double a)
{
    const bw_cell l = bw_sheet_half(cells, face->a, face->half_a);
    const bw_cell r = bw_sheet_half(cells, face->b, face->half_b);
    const double length = face->length;
    size_t near = 0;
    bw_flux f = {.q = 0};
    bw_flux_through(&f, &face->face, sheet->latent, &l, &r, 1 / face->half_a,
                    1 / face->half_b, v[2 * face->a], v[2 * face->b],
                    face->face.liquid, slow, &near, m != NULL);
    rate[2 * face->a] -= length * f.q;
    rate[2 * face->a + 1] -= length * f.g;
    rate[2 * face->b] += length * f.q;
    rate[2 * face->b + 1] += length * f.g;
    if (m == NULL)
        return;
    const double by_a[4] = {f.q_l[0], f.q_l[1], f.g_l[0], f.g_l[1]};
    const double by_b[4] = {f.q_r[0], f.q_r[1], f.g_r[0], f.g_r[1]};
    add_slopes(m, face->a, face->a, -a * length, by_a);
    add_slopes(m, face->a, face->b, -a * length, by_b);
    add_slopes(m, face->b, face->a, a * length, by_a);
    add_slopes(m, face->b, face->b, a * length, by_b);
}

/* Something enters a cell: q, g per metre. */
static void enter(size_t cell, double q, double g, const double slope[4],
                  double *rate, bw_sheet_flow *flow, bw_band *m, double a)
{
    rate[2 * cell] += q;
    rate[2 * cell + 1] += g;
    flow->heat += q;
    add_slopes(m, cell, cell, a, slope);
}

/* Rain as in balance.c: no more than half the cell draws from free water. */
static void rain_in(const bw_sheet *sheet, const bw_sheet_edge *edge,
                    const bw_sheet_air *air, bool slow, const bw_cells *cells,
                    double *rate, bw_sheet_flow *flow, bw_band *m, double a)
{
    const bw_hygro *hygro = sheet->hygro[edge->cell];
    const bw_quad *q = &cells->quad[edge->cell / 4];
    const size_t k = edge->cell % 4;
    const double free = slow ? hygro->free_slow : hygro->free_flow;
    const double most = (free - q->flow[k]) / edge->half;
    double g = air->rain, slope = 0;
    if (!(most > 0)) {
        g = 0;
    } else if (most < g) {
        g = most;
        slope = -q->flow_z[k] / edge->half;
    }
    const double heat = BW_WATER_HEAT * air->theta, l = edge->length;
    flow->rain[edge->side] += l * g;
    enter(edge->cell, l * heat * g, l * g,
          (double[4]){0, l * heat * slope, 0, l * slope}, rate, flow, m, a);
}

static void pass_edge(const bw_sheet *sheet, const bw_sheet_edge *edge,
                      const bw_sheet_weather *weather, const double *v,
                      const bw_cells *cells, double *rate, bw_sheet_flow *flow,
                      bw_band *m, double a)
{
    const bw_sheet_air *air = &weather->side[edge->side];
    const bw_humid_at at = bw_humid_find(sheet->humid, air->theta);
    const bw_cell outer = {.phi = air->p / at.psat,
                           .p = air->p,
                           .rt = 1 / air->h,
                           .rv = 1 / air->beta};
    const bw_cell inner = bw_sheet_half(cells, edge->cell, edge->half);
    const double l = edge->length;
    size_t near = 0;
    bw_flux f = {.q = 0};
    bw_flux_through(&f, &edge->face, sheet->latent, &outer, &inner, 1,
                    1 / edge->half, air->theta + air->gain / air->h,
                    v[2 * edge->cell], false, weather->redistributes, &near,
                    m != NULL);
    double slope[4] = {0, 0, 0, 0};
    if (m != NULL)
        memcpy(
            slope,
            (double[4]){l * f.q_r[0], l * f.q_r[1], l * f.g_r[0], l * f.g_r[1]},
            sizeof slope);
    flow->vapour[edge->side] += l * f.g;
    enter(edge->cell, l * f.q, l * f.g, slope, rate, flow, m, a);
    if (edge->face.liquid)
        rain_in(sheet, edge, air, weather->redistributes, cells, rate, flow, m,
                a);
}

/* Water past a face into a cell, as in balance.c; what its full pores do not
 * take is counted. */
static void leak_in(const bw_sheet *sheet, const bw_sheet_leak *leak,
                    const bw_sheet_weather *weather, const double *v,
                    double *rate, bw_sheet_flow *flow, bw_band *m, double a)
{
    const size_t i = leak->cell;
    const double width = 0.05; /* fades out before the pores are full */
    const double most = leak->by * weather->leak[leak->rain];
    double share = (sheet->hygro[i]->full_z - v[2 * i + 1]) / width;
    const double slope = share > 0 && share < 1 ? -most / width : 0;
    share = fmin(fmax(share, 0), 1);
    const double g = most * share;
    const double heat = BW_WATER_HEAT * weather->leak_theta;
    flow->leak += g;
    flow->ran_off += most - g;
    enter(i, heat * g, g, (double[4]){0, heat * slope, 0, slope}, rate, flow, m,
          a);
}

static void air_in(const bw_sheet *sheet, const bw_sheet_airflow *air,
                   const bw_sheet_weather *weather, const double *v,
                   const bw_cells *cells, double *rate, bw_sheet_flow *flow,
                   bw_band *m, double a)
{
    const bw_sheet_face *f = &sheet->face[air->face];
    const size_t cell[2] = {f->a, f->b};
    bw_sheet_past past;
    bw_sheet_air_past(&past, sheet, air, weather, v, cells, m != NULL);
    for (size_t k = 0; k < 2; ++k) {
        flow->air += past.g[k];
        enter(cell[k], past.q[k], past.g[k], past.slope[k][k], rate, flow, m,
              a);
        add_slopes(m, cell[k], cell[1 - k], a, past.slope[k][1 - k]);
    }
}

void bw_sheet_rates(const bw_sheet *sheet, const bw_sheet_weather *weather,
                    const double *v, const bw_cells *cells, double *rate,
                    bw_sheet_flow *flow, bw_band *matrix, double a)
{
    const bool slow = weather->redistributes;
    memset(flow, 0, sizeof *flow);
    if (matrix == NULL)
        bw_sheet_pass_fours(sheet, cells, rate);
    else
        memset(rate, 0, 2 * sheet->n * sizeof *rate);
    for (size_t f = 0; matrix != NULL && f < sheet->face_count; ++f)
        pass_face(sheet, &sheet->face[f], v, cells, slow, rate, matrix, a);
    for (size_t k = 0; matrix == NULL && k < sheet->single_count; ++k)
        pass_face(sheet, &sheet->face[sheet->single[k]], v, cells, slow, rate,
                  NULL, a);
    for (size_t e = 0; e < sheet->edge_count; ++e)
        pass_edge(sheet, &sheet->edge[e], weather, v, cells, rate, flow, matrix,
                  a);
    for (size_t k = 0; k < sheet->leak_count; ++k)
        leak_in(sheet, &sheet->leak[k], weather, v, rate, flow, matrix, a);
    for (size_t k = 0; k < sheet->air_count; ++k)
        air_in(sheet, &sheet->air[k], weather, v, cells, rate, flow, matrix, a);
}
