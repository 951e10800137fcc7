/* Table look-ups: the values of every cell at its state. */
#include <math.h>

#include "bothways/air.h"
#include "core.h"
#include "pair.h"

/* ---- room ---- */

bool bw_cells_init(bw_cells *c, const bw_wall *wall, bw_arena *arena)
{
    const size_t quads = (wall->n + 3) / 4, faces = 4 * quads + 4;
    c->n = wall->n;
    c->quad = BW_NEW(arena, bw_quad, quads);
    c->q = BW_NEW(arena, double, 2 * faces);
    c->by_outer = bw_arena_get(arena, 2 * faces, sizeof *c->by_outer);
    c->special = BW_NEW(arena, size_t, wall->n + 1);
    if (c->quad == NULL || c->q == NULL || c->by_outer == NULL ||
        c->special == NULL)
        return false;
    c->g = c->q + faces;
    c->by_inner = c->by_outer + faces;
    for (size_t i = 0; i < 4 * quads; i++) {
        bw_quad *q = &c->quad[i / 4];
        const bool is = i < wall->n;
        q->per_half[i % 4] = is ? wall->per_half[i] : 1;
        q->dx[i % 4] = is ? wall->dx[i] : 1;
        q->capacity[i % 4] = is ? wall->hygro[i]->heat_capacity : 1;
        q->dry[i % 4] = is ? wall->dx[i] * wall->hygro[i]->dry_water : 1;
        q->rt[i % 4] = q->rv[i % 4] = q->delta[i % 4] = 1; /* never 1/0 */
    }
    bw_cells_faces(c, wall);
    return true;
}

/* A plain face lies within a material, with nothing in it. */
static bool is_plain(const bw_wall *wall, size_t i)
{
    const bw_face *face = &wall->face[i];
    return i > 0 && i < wall->n && face->same && face->film == NULL &&
           !(face->heat_resistance > 0) &&
           face->liquid == wall->hygro[i]->liquid;
}

void bw_cells_faces(bw_cells *c, const bw_wall *wall)
{
    c->special_count = 0;
    for (size_t i = 0; i <= wall->n; i++) {
        if (!is_plain(wall, i))
            c->special[c->special_count++] = i;
        if (i < wall->n)
            c->quad[i / 4].per[i % 4] = is_plain(wall, i) ? wall->face[i].per
                                                          : 0;
    }
}

/* ---- one by one: what the tables say ---- */

/* phi0 at the reference temperature becomes phi = phi0^(T0/T): same suction.
 */
static void suction_phi(bw_quad *q, size_t k, double reference, bool slopes)
{
    const double kelvin = q->theta[k] + BW_KELVIN;
    const double m = reference / kelvin;
    const double low = q->phi[k] > 1e-12 ? q->phi[k] : 1e-12;
    const double ln0 = log(low), phi = exp(m * ln0);
    if (slopes) {
        q->phi_z[k] *= m * phi / low;
        q->phi_t[k] = -phi * ln0 * m / kelvin;
    }
    q->phi[k] = phi;
}

BW_ALWAYS double cubic(const double *c, double f)
{
    return c[0] + f * (c[1] + f * (c[2] + f * c[3]));
}

BW_ALWAYS double cubic_slope(const double *c, double f)
{
    return c[1] + f * (2 * c[2] + f * 3 * c[3]);
}

/* Liquid flow of the row at f. */
BW_ALWAYS void look_up_flow(bw_quad *q, size_t k, const bw_hygro_row *r,
                            double f, double per_z, bool slow, bool slopes)
{
    const double *flow = slow ? r->slow_flow : r->flow;
    const double *kphi = slow ? r->slow_kphi : r->kphi;
    q->flow[k] = cubic(flow, f);
    q->kphi[k] = kphi[0] + f * kphi[1];
    if (slopes) {
        q->flow_z[k] = per_z * cubic_slope(flow, f);
        q->kphi_z[k] = per_z * kphi[1];
    }
}

/* Of element k the humidity, water and flow; in the places of resistances and
 * pressure for now conductivity, 1/mu and saturation pressure; so with slopes.
 */
BW_ALWAYS void look_up(bw_quad *q, size_t k, const bw_hygro *m,
                       const bw_humid *humid, double theta, double z, bool slow,
                       bool slopes)
{
    double x = z * m->per_z;
    x = x > 0 ? x : 0;
    const int i = (int)(x < BW_HYGRO_ROWS ? x : BW_HYGRO_ROWS);
    const double f = x - i;
    const bw_hygro_row *r = &m->row[i];
    const bw_pair store = bw_hygro_store(r, f);
    const bw_pair pass = r->pass[0] + f * r->pass[1]; /* lambda, openness */
    const bw_humid_at h = bw_humid_find(humid, theta);
    q->theta[k] = theta;
    q->phi[k] = store[0];
    q->water[k] = store[1];
    q->rt[k] = pass[0];
    q->rv[k] = pass[1];
    q->p[k] = h.psat;
    q->delta[k] = h.delta;
    if (slopes) {
        const bw_pair by_z = m->per_z *
                             (r->store[1] +
                              f * (2 * r->store[2] + f * 3 * r->store[3]));
        q->phi_z[k] = by_z[0];
        q->phi_t[k] = 0;
        q->water_z[k] = by_z[1];
        q->rt_z[k] = m->per_z * r->pass[1][0];
        q->rv_z[k] = m->per_z * r->pass[1][1];
        q->p_t[k] = h.psat_t;
        q->rv_t[k] = h.delta_t;
    }
    if (m->liquid)
        look_up_flow(q, k, r, f, m->per_z, slow, slopes);
    if (m->suction)
        suction_phi(q, k, m->reference, slopes);
}

/* ---- four at a time: what follows from it ---- */

/* p = phi psat, and of half the cell 1/rt = lambda 2/dx, 1/rv = delta/mu 2/dx.
 */
BW_ALWAYS void derive(bw_quad *q, bool slopes)
{
    const bw_four psat = q->p, open = q->rv;
    q->p = q->phi * psat;
    q->rt = 1 / (q->per_half * q->rt);
    q->rv = 1 / (q->per_half * open * q->delta);
    if (slopes) {
        q->p_z = q->phi_z * psat;
        q->p_t = q->phi * q->p_t + q->phi_t * psat;
        q->rt_z = -q->rt * q->rt * q->per_half * q->rt_z;
        const bw_four g = -q->rv * q->rv * q->per_half;
        q->rv_z = g * q->rv_z * q->delta;
        q->rv_t = g * open * q->rv_t;
    }
}

BW_ALWAYS void all_cells(const bw_wall *wall, const double *v, bw_cells *c,
                         bool slow, bool slopes)
{
    const bw_humid *humid = wall->humid;
    const size_t n = wall->n;
    for (size_t i = 0; i < n; i++)
        look_up(&c->quad[i / 4], i % 4, wall->hygro[i], humid, v[2 * i],
                v[2 * i + 1], slow, slopes);
    for (size_t j = 0; j < (n + 3) / 4; j++)
        derive(&c->quad[j], slopes);
}

void bw_cells_at(const bw_wall *wall, const double *v, bw_cells *c, bool slopes)
{
    bw_cells_under(wall, &(bw_edge){.redistributes = false}, v, c, slopes);
}

BW_WIDE void bw_cells_under(const bw_wall *wall, const bw_edge *edge,
                            const double *v, bw_cells *c, bool slopes)
{
    if (slopes && edge->redistributes)
        all_cells(wall, v, c, true, true);
    else if (slopes)
        all_cells(wall, v, c, false, true);
    else if (edge->redistributes)
        all_cells(wall, v, c, true, false);
    else
        all_cells(wall, v, c, false, false);
}

BW_WIDE void bw_wall_stored(const bw_wall *wall, bw_cells *cells,
                            double *stored, double (*slope)[3])
{
    const size_t n = wall->n;
    for (size_t i = 0; i < n; i += 4) {
        bw_quad *q = &cells->quad[i / 4];
        const bw_four c = q->dx * (q->capacity + BW_WATER_HEAT * q->water);
        bw_four_in_turn(&stored[2 * i], c * q->theta, q->dx * q->water, n - i);
        if (slope == NULL)
            continue;
        q->heat_t = c;
        q->held_z = q->dx * q->water_z;
        q->heat_z = BW_WATER_HEAT * q->held_z * q->theta;
        for (size_t k = 0; k < 4 && i + k < n; k++) {
            slope[i + k][0] = q->heat_t[k];
            slope[i + k][1] = q->heat_z[k];
            slope[i + k][2] = q->held_z[k];
        }
    }
}
