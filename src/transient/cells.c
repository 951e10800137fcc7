/* Table look-ups: the values of every cell at its state. */
#include <math.h>
#include <string.h>

#include "bothways/air.h"
#include "wall.h"

/* ---- room ---- */

bool bw_cells_init(bw_cells *c, const bw_wall *wall, bw_arena *arena)
{
    const size_t quads = (wall->n + 3) / 4, faces = 4 * quads + 4;
    c->n = wall->n;
    c->quad = BW_NEW(arena, bw_quad, quads);
    c->q = BW_NEW(arena, double, 2 * faces);
    c->by_outer = bw_arena_get(arena, 2 * faces, sizeof *c->by_outer);
    c->special = BW_NEW(arena, size_t, 2 * (wall->n + 1));
    if (c->quad == NULL || c->q == NULL || c->by_outer == NULL ||
        c->special == NULL)
        return false;
    c->g = c->q + faces;
    c->by_inner = c->by_outer + faces;
    c->near = c->special + wall->n + 1;
    for (size_t i = 0; i < 4 * quads; i++) {
        bw_quad *q = &c->quad[i / 4];
        const bool is = i < wall->n;
        q->per_half[i % 4] = is ? wall->per_half[i] : 1;
        q->dx[i % 4] = is ? wall->dx[i] : 1;
        q->capacity[i % 4] = is ? wall->hygro[i]->heat_capacity : 1;
        q->dry[i % 4] = is ? wall->dx[i] * wall->hygro[i]->dry_water : 1;
        const bw_hygro *hygro = wall->hygro[is ? i : wall->n - 1];
        q->hygro[i % 4] = hygro;
        q->per_z[i % 4] = hygro->per_z;
        q->liquid = q->liquid || hygro->liquid;
        q->suction = q->suction || hygro->suction;
        q->found.store[i % 4] = q->found.air[i % 4] = -1;
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

/* ---- four at a time: what the tables say ---- */

BW_ALWAYS void find_store(bw_quad *q, bw_index i, bool slow)
{
    bw_known_rows *found = &q->found;
    if (bw_four_equal(i, found->store) && found->slow == slow)
        return;
    const bw_hygro_row *row[4];
    for (size_t k = 0; k < 4; k++)
        row[k] = &q->hygro[k]->row[i[k]];
    found->store = i;
    found->slow = slow;
    found->phi = BW_ROWS(row, phi);
    found->water = BW_ROWS(row, water);
    found->flow = slow ? BW_ROWS(row, slow_flow) : BW_ROWS(row, flow);
    found->kphi = BW_ROWS(row, kphi);
    found->pass = BW_ROWS(row, pass);
}

BW_ALWAYS void find_air(bw_quad *q, const bw_humid *humid, bw_index i)
{
    bw_known_rows *found = &q->found;
    if (bw_four_equal(i, found->air))
        return;
    const bw_humid_row *row[4];
    for (size_t k = 0; k < 4; k++)
        row[k] = &humid->row[i[k]];
    found->air = i;
    found->psat = BW_ROWS(row, psat);
    found->delta = BW_ROWS(row, delta);
}

/* f: how far on in the row */
BW_ALWAYS void look_up_store(bw_quad *q, bw_four f, bool slopes)
{
    const bw_sixteen *phi = &q->found.phi, *water = &q->found.water;
    q->phi = bw_four_cubic(phi, f);
    q->water = bw_four_cubic(water, f);
    if (slopes) {
        q->phi_z = q->per_z * bw_four_cubic_slope(phi, f);
        q->water_z = q->per_z * bw_four_cubic_slope(water, f);
        q->phi_t = (bw_four){0, 0, 0, 0};
    }
}

BW_ALWAYS void look_up_flow(bw_quad *q, bw_four f, bool slow, bool slopes)
{
    const bw_sixteen *flow = &q->found.flow, *kphi = &q->found.kphi;
    q->flow = bw_four_cubic(flow, f);
    q->kphi = bw_four_line(kphi, slow ? 2 : 0, f);
    if (slopes) {
        q->flow_z = q->per_z * bw_four_cubic_slope(flow, f);
        q->kphi_z = q->per_z * kphi->at[slow ? 3 : 1];
    }
}

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

/* p = phi psat, and of half the cell 1/rt = lambda 2/dx, 1/rv = delta/mu 2/dx.
 */
BW_ALWAYS void derive(bw_quad *q, bw_four at, const bw_humid *humid,
                      bool slopes)
{
    const bw_four x = bw_humid_place(q->theta);
    const bw_index i = bw_four_below(x);
    const bw_four f = x - __builtin_convertvector(i, bw_four);
    find_air(q, humid, i);
    const bw_sixteen *pass = &q->found.pass;
    const bw_sixteen *saturation = &q->found.psat, *air = &q->found.delta;
    const bw_four psat = bw_four_cubic(saturation, f);
    const bw_four open = bw_four_line(pass, 2, at);
    q->delta = bw_four_line(air, 0, f);
    q->p = q->phi * psat;
    q->rt = 1 / (q->per_half * bw_four_line(pass, 0, at));
    q->rv = 1 / (q->per_half * open * q->delta);
    if (slopes) {
        const bw_four psat_t = bw_four_cubic_slope(saturation, f) *
                               BW_HUMID_PER_KELVIN;
        q->p_z = q->phi_z * psat;
        q->p_t = q->phi * psat_t + q->phi_t * psat;
        q->rt_z = -q->rt * q->rt * q->per_half * (q->per_z * pass->at[1]);
        const bw_four g = -q->rv * q->rv * q->per_half;
        q->rv_z = g * (q->per_z * pass->at[3]) * q->delta;
        q->rv_t = g * open * (air->at[1] * BW_HUMID_PER_KELVIN);
    }
}

BW_ALWAYS void look_up(bw_quad *q, const bw_humid *humid, const double *v,
                       bool slow, bool slopes)
{
    const bw_four x = bw_hygro_place(q->per_z, bw_four_second(v));
    const bw_index i = bw_hygro_row_of(x);
    const bw_four f = x - __builtin_convertvector(i, bw_four);
    q->theta = bw_four_first(v);
    find_store(q, i, slow);
    look_up_store(q, f, slopes);
    if (q->liquid)
        look_up_flow(q, f, slow, slopes);
    for (size_t k = 0; q->suction && k < 4; k++)
        if (q->hygro[k]->suction)
            suction_phi(q, k, q->hygro[k]->reference, slopes);
    derive(q, f, humid, slopes);
}

BW_ALWAYS void all_cells(const bw_wall *wall, const double *v, bw_cells *c,
                         bool slow, bool slopes)
{
    const size_t whole = wall->n / 4, rest = wall->n % 4;
    for (size_t j = 0; j < whole; j++)
        look_up(&c->quad[j], wall->humid, &v[8 * j], slow, slopes);
    double last[8] = {0};
    memcpy(last, &v[8 * whole], 2 * rest * sizeof *v);
    if (rest > 0)
        look_up(&c->quad[whole], wall->humid, last, slow, slopes);
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
