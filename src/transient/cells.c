/* Table look-ups: the values of every cell at its state. */
#include <math.h>

#include "bothways/air.h"
#include "core.h"

/* phi0 at the reference temperature becomes phi = phi0^(T0/T): same suction.
 */
static void suction_phi(bw_cell *c, double reference, double theta)
{
    const double kelvin = theta + BW_KELVIN;
    const double m = reference / kelvin;
    const double low = c->phi > 1e-12 ? c->phi : 1e-12;
    const double ln0 = log(low), phi = exp(m * ln0);
    c->phi_z *= m * phi / low;
    c->phi_t = -phi * ln0 * m / kelvin;
    c->phi = phi;
}

BW_ALWAYS double cubic(const double *c, double f)
{
    return c[0] + f * (c[1] + f * (c[2] + f * c[3]));
}

BW_ALWAYS double cubic_slope(const double *c, double f)
{
    return c[1] + f * (2 * c[2] + f * 3 * c[3]);
}

BW_ALWAYS void cell_at(bw_cell *c, const bw_hygro *m, const bw_humid *humid,
                       double half, double per_half, double theta, double z,
                       bool slow, bool slopes)
{
    double x = z * m->per_z;
    x = x > 0 ? x : 0;
    const int i = x < BW_HYGRO_ROWS ? (int)x : BW_HYGRO_ROWS;
    const double f = x - i, s = m->per_z;
    const bw_hygro_row *r = &m->row[i];
    c->phi = cubic(r->phi, f);
    c->water = cubic(r->water, f);
    c->water_z = s * cubic_slope(r->water, f);
    const double *flow = slow ? r->slow_flow : r->flow;
    const double *kphi = slow ? r->slow_kphi : r->kphi;
    c->flow = c->kphi = 0;
    if (m->liquid) {
        c->flow = cubic(flow, f);
        c->kphi = kphi[0] + f * kphi[1];
    }
    if (slopes) {
        c->phi_z = s * cubic_slope(r->phi, f);
        c->phi_t = 0;
        c->flow_z = m->liquid ? s * cubic_slope(flow, f) : 0;
        c->kphi_z = m->liquid ? s * kphi[1] : 0;
    }
    if (m->suction)
        suction_phi(c, m->reference, theta);
    const bw_humid_at h = bw_humid_find(humid, theta);
    const double lambda = r->lambda[0] + f * r->lambda[1];
    const double open = r->openness[0] + f * r->openness[1];
    const double k = open * h.delta;
    const double inverse = half / (lambda * k); /* one division for two */
    c->p = c->phi * h.psat;
    c->rt = k * inverse;
    c->rv = lambda * inverse;
    if (slopes) {
        c->p_z = c->phi_z * h.psat;
        c->p_t = c->phi * h.psat_t + c->phi_t * h.psat;
        c->rt_z = -c->rt * c->rt * s * r->lambda[1] * per_half;
        const double g = -c->rv * c->rv * per_half;
        c->rv_z = g * s * r->openness[1] * h.delta;
        c->rv_t = g * open * h.delta_t;
    }
}

BW_ALWAYS void all_cells(const bw_wall *wall, const double *v, bw_cell *cell,
                         bool slow, bool slopes)
{
    for (size_t i = 0; i < wall->n; i++)
        cell_at(&cell[i], wall->hygro[i], wall->humid, 0.5 * wall->dx[i],
                wall->per_half[i], v[2 * i], v[2 * i + 1], slow, slopes);
}

void bw_cells_at(const bw_wall *wall, const double *v, bw_cell *cell,
                 bool slopes)
{
    bw_cells_under(wall, &(bw_edge){.redistributes = false}, v, cell, slopes);
}

void bw_cells_under(const bw_wall *wall, const bw_edge *edge, const double *v,
                    bw_cell *cell, bool slopes)
{
    if (slopes)
        all_cells(wall, v, cell, edge->redistributes, true);
    else
        all_cells(wall, v, cell, edge->redistributes, false);
}

void bw_wall_stored(const bw_wall *wall, const double *v, const bw_cell *cell,
                    double *stored, double (*slope)[3])
{
    for (size_t i = 0; i < wall->n; i++) {
        const double dx = wall->dx[i], w = cell[i].water;
        const double c = dx *
                         (wall->hygro[i]->heat_capacity + BW_WATER_HEAT * w);
        stored[2 * i] = c * v[2 * i];
        stored[2 * i + 1] = dx * w;
        if (slope != NULL) {
            slope[i][0] = c;
            slope[i][2] = dx * cell[i].water_z;
            slope[i][1] = BW_WATER_HEAT * slope[i][2] * v[2 * i];
        }
    }
}
