/* Table look-ups: the values of every cell at its state. */
#include <math.h>

#include "bothways/air.h"
#include "core.h"
#include "pair.h"

/* phi0 at the reference temperature becomes phi = phi0^(T0/T): same suction.
 */
static void suction_phi(bw_cell *c, double reference, double theta, bool slopes)
{
    const double kelvin = theta + BW_KELVIN;
    const double m = reference / kelvin;
    const double low = c->phi > 1e-12 ? c->phi : 1e-12;
    const double ln0 = log(low), phi = exp(m * ln0);
    if (slopes) {
        c->phi_z *= m * phi / low;
        c->phi_t = -phi * ln0 * m / kelvin;
    }
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

BW_ALWAYS void slopes_at(bw_cell *c, const bw_hygro *m, const bw_hygro_row *r,
                         double f, bool slow)
{
    const double s = m->per_z;
    const bw_pair store = s * (r->store[1] +
                               f * (2 * r->store[2] + f * 3 * r->store[3]));
    c->phi_z = store[0];
    c->phi_t = 0;
    c->water_z = store[1];
    c->flow_z = c->kphi_z = 0;
    if (m->liquid) {
        c->flow_z = s * cubic_slope(slow ? r->slow_flow : r->flow, f);
        c->kphi_z = s * (slow ? r->slow_kphi : r->kphi)[1];
    }
}

/* In a cell of its own, which no store into the row of cells can touch. */
BW_ALWAYS bw_cell cell_at(const bw_hygro *m, const bw_humid *humid,
                          double per_half, double theta, double z, bool slow,
                          bool slopes)
{
    bw_cell c;
    double x = z * m->per_z;
    x = x > 0 ? x : 0;
    const int i = (int)(x < BW_HYGRO_ROWS ? x : BW_HYGRO_ROWS);
    const double f = x - i;
    const bw_hygro_row *r = &m->row[i];
    const bw_pair store = bw_hygro_store(r, f);
    c.phi = store[0];
    c.water = store[1];
    c.flow = c.kphi = 0;
    if (m->liquid) {
        const double *kphi = slow ? r->slow_kphi : r->kphi;
        c.flow = cubic(slow ? r->slow_flow : r->flow, f);
        c.kphi = kphi[0] + f * kphi[1];
    }
    if (slopes)
        slopes_at(&c, m, r, f, slow);
    if (m->suction)
        suction_phi(&c, m->reference, theta, slopes);
    const bw_humid_at h = bw_humid_find(humid, theta);
    const bw_pair pass = r->pass[0] + f * r->pass[1]; /* lambda, openness */
    const bw_pair resistance = 1 / (per_half * pass * (bw_pair){1, h.delta});
    c.p = c.phi * h.psat;
    c.rt = resistance[0];
    c.rv = resistance[1];
    if (slopes) {
        c.p_z = c.phi_z * h.psat;
        c.p_t = c.phi * h.psat_t + c.phi_t * h.psat;
        c.rt_z = -c.rt * c.rt * m->per_z * r->pass[1][0] * per_half;
        const double g = -c.rv * c.rv * per_half;
        c.rv_z = g * m->per_z * r->pass[1][1] * h.delta;
        c.rv_t = g * pass[1] * h.delta_t;
    }
    return c;
}

BW_ALWAYS void all_cells(const bw_wall *wall, const double *v, bw_cell *cell,
                         bool slow, bool slopes)
{
    const bw_humid *humid = wall->humid;
    for (size_t i = 0; i < wall->n; i++) {
        const bw_cell c = cell_at(wall->hygro[i], humid, wall->per_half[i],
                                  v[2 * i], v[2 * i + 1], slow, slopes);
        if (slopes) {
            cell[i] = c;
            continue;
        }
        cell[i].phi = c.phi;
        cell[i].p = c.p;
        cell[i].water = c.water;
        cell[i].rt = c.rt;
        cell[i].rv = c.rv;
        cell[i].flow = c.flow;
        cell[i].kphi = c.kphi;
    }
}

void bw_cells_at(const bw_wall *wall, const double *v, bw_cell *cell,
                 bool slopes)
{
    bw_cells_under(wall, &(bw_edge){.redistributes = false}, v, cell, slopes);
}

void bw_cells_under(const bw_wall *wall, const bw_edge *edge, const double *v,
                    bw_cell *cell, bool slopes)
{
    if (slopes && edge->redistributes)
        all_cells(wall, v, cell, true, true);
    else if (slopes)
        all_cells(wall, v, cell, false, true);
    else if (edge->redistributes)
        all_cells(wall, v, cell, true, false);
    else
        all_cells(wall, v, cell, false, false);
}

void bw_wall_stored(const bw_wall *wall, const double *v, const bw_cell *cell,
                    double *stored, double (*slope)[3])
{
    for (size_t i = 0; i < wall->n; i++) {
        const double dx = wall->dx[i], w = cell[i].water, theta = v[2 * i];
        const double c = dx *
                         (wall->hygro[i]->heat_capacity + BW_WATER_HEAT * w);
        bw_pair_put(&stored[2 * i], (bw_pair){c * theta, dx * w});
        if (slope != NULL) {
            const double water_z = dx * cell[i].water_z;
            slope[i][0] = c;
            slope[i][1] = BW_WATER_HEAT * water_z * theta;
            slope[i][2] = water_z;
        }
    }
}
