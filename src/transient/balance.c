/* Fluxes through faces and what they add to each cell, with the Jacobian.
 * Invariant: what leaves one cell enters the next, in every row of rate[], so
 * the sums of rate[] are the crossings. */
#include <string.h>

#include "bothways/air.h"
#include "flux.h"
#include "wall.h"

BW_ALWAYS void face_flux(bw_flux *f, const bw_wall *wall, size_t i,
                         const bw_cell *l, const bw_cell *r, double theta_l,
                         double theta_r, bool wet, bool slow, size_t *near,
                         bool slopes)
{
    const size_t last = wall->n - 1;
    bw_flux_through(f, &wall->face[i], wall->latent, l, r,
                    wall->per_half[i > 0 ? i - 1 : 0],
                    wall->per_half[i < last ? i : last], theta_l, theta_r, wet,
                    slow, near, slopes);
}

/* A surface as a cell whose values are given and have no slopes. */
static bw_cell surface(const bw_wall *wall, double theta, double p, double h,
                       double beta)
{
    const bw_humid_at at = bw_humid_find(wall->humid, theta);
    return (bw_cell){.phi = p / at.psat, .p = p, .rt = 1 / h, .rv = 1 / beta};
}

/* Adds what enters a cell to all that counts it. */
static void let_in(const bw_entry *e, bw_entries *entries, double *rate,
                   double *crossing, bw_block *j)
{
    rate[2 * e->cell] += e->q;
    rate[2 * e->cell + 1] += e->g;
    crossing[e->heat] += e->q;
    crossing[e->water] += e->g;
    if (j == NULL)
        return;
    for (int k = 0; k < 4; k++)
        j[e->cell].diag[k] += e->slope[k];
    if (entries != NULL)
        entries->entry[entries->count++] = *e;
}

/* Rain taken up by the outer face: no more than the first half cell can draw
 * in from a film of free water; what a face holds beyond that runs off. */
static bw_entry rain(const bw_wall *wall, const bw_edge *edge, const bw_quad *c)
{
    const double per = 2 / wall->dx[0];
    double g = edge->rain, slope = 0;
    const bw_hygro *m = wall->hygro[0];
    const double free = edge->redistributes ? m->free_slow : m->free_flow;
    const double most = per * (free - c->flow[0]);
    if (!(most > 0)) { /* wetter than free water makes it */
        g = 0;
    } else if (most < g) {
        g = most;
        slope = -per * c->flow_z[0];
    }
    const double heat = BW_WATER_HEAT * edge->theta_e;
    return (bw_entry){.cell = 0,
                      .heat = BW_X_HEAT_E,
                      .water = BW_X_RAIN,
                      .q = heat * g,
                      .g = g,
                      .slope = {0, heat * slope, 0, slope}};
}

/* Rain past the face into a cell; what is over its full pores runs off. */
static bw_entry rain_leak(const bw_wall *wall, const bw_edge *edge,
                          const double *v)
{
    const size_t i = (size_t)wall->rain_cell;
    const bw_hygro *m = wall->hygro[i];
    /* fades out over the last twentieth of the way to full */
    const double width = 0.05;
    double share = (m->full_z - v[2 * i + 1]) / width, slope = -1 / width;
    if (share >= 1) {
        share = 1;
        slope = 0;
    } else if (share <= 0) {
        share = slope = 0;
    }
    const double g = edge->rain_leak * share;
    const double g_z = edge->rain_leak * slope;
    const double heat = BW_WATER_HEAT * edge->theta_e;
    return (bw_entry){.cell = i,
                      .heat = BW_X_HEAT_LEAK,
                      .water = BW_X_LEAK_RAIN,
                      .q = heat * g,
                      .g = g,
                      .slope = {0, heat * g_z, 0, g_z}};
}

/* Room air that cools at a plane: what it cannot hold there stays. */
static bw_entry air_leak(const bw_wall *wall, const bw_edge *edge,
                         const double *v)
{
    const size_t i = (size_t)wall->leak_cell;
    const double kelvin = v[2 * i] + BW_KELVIN;
    const bw_humid_at at = bw_humid_find(wall->humid, v[2 * i]);
    const double indoor = edge->p_i / (edge->theta_i + BW_KELVIN);
    const double per = edge->air_flow / wall->r_v;
    bw_entry e = {.cell = i, .heat = BW_X_HEAT_LEAK, .water = BW_X_LEAK_AIR};
    const double g = per * (indoor - at.psat / kelvin);
    if (!(g > 0))
        return e;
    const double carried = wall->latent + BW_WATER_HEAT * v[2 * i];
    const double slope = per * (at.psat / kelvin - at.psat_t) / kelvin;
    e.q = carried * g;
    e.g = g;
    e.slope[0] = carried * slope + BW_WATER_HEAT * g;
    e.slope[2] = slope;
    return e;
}

/* Outdoor air through a cavity. */
static bw_entry ventilate(const bw_wall *wall, const bw_vent *vent,
                          const bw_edge *edge, const double *v,
                          const bw_cells *cells, bool slopes)
{
    const size_t i = vent->cell, k = i % 4;
    const bw_quad *c = &cells->quad[i / 4];
    const double per = vent->flow / (wall->r_v * (edge->theta_e + BW_KELVIN));
    const double g = per * (edge->p_e - c->p[k]);
    const double air = vent->flow * BW_AIR_HEAT;
    const double mean = 0.5 * (edge->theta_e + v[2 * i]);
    const double carried = wall->latent + BW_WATER_HEAT * mean;
    bw_entry e = {.cell = i,
                  .heat = BW_X_HEAT_VENT,
                  .water = BW_X_VENT,
                  .q = air * (edge->theta_e - v[2 * i]) + carried * g,
                  .g = g};
    if (slopes) {
        e.slope[2] = -per * c->p_t[k];
        e.slope[3] = -per * c->p_z[k];
        e.slope[0] = carried * e.slope[2] - air + 0.5 * BW_WATER_HEAT * g;
        e.slope[1] = carried * e.slope[3];
    }
    return e;
}

static void add_sources(const bw_wall *wall, const bw_edge *edge,
                        const double *v, const bw_cells *cells, double *rate,
                        double *crossing, bw_block *j, bw_entries *entries)
{
    if (wall->face[0].liquid) {
        const bw_entry e = rain(wall, edge, cells->quad);
        let_in(&e, entries, rate, crossing, j);
    }
    if (edge->rain_leak > 0 && wall->rain_cell >= 0) {
        const bw_entry e = rain_leak(wall, edge, v);
        let_in(&e, entries, rate, crossing, j);
    }
    if (edge->air_flow > 0 && wall->leak_cell >= 0) {
        const bw_entry e = air_leak(wall, edge, v);
        let_in(&e, entries, rate, crossing, j);
    }
    for (size_t k = 0; k < wall->vent_count; k++) {
        const bw_entry e = ventilate(wall, &wall->vent[k], edge, v, cells,
                                     j != NULL);
        let_in(&e, entries, rate, crossing, j);
    }
}

/* ---- plain faces, four at a time ---- */

/* What the equations above become where both sides are of one material and
 * nothing lies between, of the outer faces of the cells b; a, the cells before
 * each. */
BW_ALWAYS void plain_flux(const bw_quad *before, const bw_quad *b,
                          double latent, double *q_out, double *g_out,
                          double (*by_outer)[4], double (*by_inner)[4],
                          bool slopes)
{
#define A(what) bw_four_before(before->what, b->what)
    const bw_four theta = A(theta);
    const bw_four conductance = 1 / (A(rv) + b->rv);
    const bw_four vapour = conductance * (A(p) - b->p);
    const bw_four heat = 1 / (A(rt) + b->rt);
    const bw_four q = heat * (theta - b->theta);
    const bw_four carried = BW_WATER_HEAT * 0.5 * (theta + b->theta);
    const bw_four g = vapour + b->per * (A(flow) - b->flow);
    bw_four_put(q_out, q + latent * vapour + carried * g);
    bw_four_put(g_out, g);
    if (!slopes)
        return;
    const bw_four half = BW_WATER_HEAT * 0.5 * g;
    const bw_four at = conductance * (A(p_t) - vapour * A(rv_t));
    const bw_four az = conductance * (A(p_z) - vapour * A(rv_z));
    const bw_four bt = conductance * (-b->p_t - vapour * b->rv_t);
    const bw_four bz = conductance * (-b->p_z - vapour * b->rv_z);
    const bw_four gaz = az + b->per * A(flow_z);
    const bw_four gbz = bz - b->per * b->flow_z;
    const bw_four hq = -heat * q;
    bw_four_across(by_outer[0], heat + latent * at + carried * at + half,
                   hq * A(rt_z) + latent * az + carried * gaz, at, gaz);
    bw_four_across(by_inner[0], latent * bt - heat + carried * bt + half,
                   hq * b->rt_z + latent * bz + carried * gbz, bt, gbz);
#undef A
}

/* ---- all of them ---- */

typedef struct surfaces {
    bw_cell outer, inner;
    double theta_e, theta_i; /* for heat */
} surfaces;

BW_ALWAYS bw_cell cell_with_slopes(const bw_cells *cells, size_t i)
{
    const bw_quad *q = &cells->quad[i / 4];
    const size_t k = i % 4;
    bw_cell c = bw_cells_get(cells, i);
    c.phi_z = q->phi_z[k];
    c.phi_t = q->phi_t[k];
    c.p_z = q->p_z[k];
    c.p_t = q->p_t[k];
    c.rt_z = q->rt_z[k];
    c.rv_z = q->rv_z[k];
    c.rv_t = q->rv_t[k];
    c.flow_z = q->flow_z[k];
    c.kphi_z = q->kphi_z[k];
    return c;
}

BW_ALWAYS void special_flux(const bw_wall *wall, const bw_cells *c,
                            const double *v, const surfaces *s, size_t i,
                            bool slow, bool slopes)
{
    const size_t n = wall->n;
    bw_cell l = s->outer, r = s->inner;
    if (i > 0)
        l = slopes ? cell_with_slopes(c, i - 1) : bw_cells_get(c, i - 1);
    if (i < n)
        r = slopes ? cell_with_slopes(c, i) : bw_cells_get(c, i);
    bw_flux f;
    face_flux(&f, wall, i, &l, &r, i > 0 ? v[2 * i - 2] : s->theta_e,
              i < n ? v[2 * i] : s->theta_i,
              i > 0 && i < n && wall->face[i].liquid, slow, &c->near[i],
              slopes);
    c->q[i] = f.q;
    c->g[i] = f.g;
    if (slopes) {
        memcpy(c->by_outer[i],
               (double[]){f.q_l[0], f.q_l[1], f.g_l[0], f.g_l[1]},
               sizeof *c->by_outer);
        memcpy(c->by_inner[i],
               (double[]){f.q_r[0], f.q_r[1], f.g_r[0], f.g_r[1]},
               sizeof *c->by_inner);
    }
}

BW_ALWAYS void all_faces(const bw_wall *wall, const bw_cells *c,
                         const double *v, const surfaces *s, bool slow,
                         bool slopes)
{
    for (size_t i = 0; i < wall->n; i += 4) {
        const bw_quad *q = &c->quad[i / 4];
        plain_flux(i > 0 ? q - 1 : q, q, wall->latent, &c->q[i], &c->g[i],
                   &c->by_outer[i], &c->by_inner[i], slopes);
    }
    for (size_t k = 0; k < c->special_count; k++)
        special_flux(wall, c, v, s, c->special[k], slow, slopes);
}

/* What leaves a cell by its inner face comes in by its outer one; j NULL: no
 * slopes. */
BW_ALWAYS void net(const bw_wall *wall, const bw_cells *c, double *rate,
                   bw_block *j)
{
    const size_t n = wall->n;
    for (size_t i = 0; i < n; i += 4)
        bw_four_in_turn(
            &rate[2 * i], bw_four_get(&c->q[i]) - bw_four_get(&c->q[i + 1]),
            bw_four_get(&c->g[i]) - bw_four_get(&c->g[i + 1]), n - i);
    for (size_t i = 0; j != NULL && i < n; i++) {
        const bw_four in = bw_four_get(c->by_inner[i]);
        const bw_four out = bw_four_get(c->by_outer[i + 1]);
        bw_four_put(j[i].lower, bw_four_get(c->by_outer[i]));
        bw_four_put(j[i].diag, in - out);
        bw_four_put(j[i].upper, -bw_four_get(c->by_inner[i + 1]));
    }
}

BW_WIDE static void sweep(const bw_wall *wall, const double *v,
                          const bw_cells *c, const surfaces *s, bool slow,
                          double *rate, bw_block *j)
{
    if (j != NULL) {
        all_faces(wall, c, v, s, slow, true);
        net(wall, c, rate, j);
    } else {
        all_faces(wall, c, v, s, slow, false);
        net(wall, c, rate, NULL);
    }
}

/* What passes the two surfaces; into the wall. */
static void count_surfaces(const bw_cells *c, double *crossing,
                           bw_entries *entries)
{
    const size_t n = c->n;
    crossing[BW_X_HEAT_E] = c->q[0];
    crossing[BW_X_VAPOUR_E] = c->g[0];
    crossing[BW_X_HEAT_I] = -c->q[n];
    crossing[BW_X_VAPOUR_I] = -c->g[n];
    if (entries == NULL)
        return;
    bw_entry *e = entries->entry;
    e[0] = (bw_entry){.cell = 0, .heat = BW_X_HEAT_E, .water = BW_X_VAPOUR_E};
    e[1] = (bw_entry){
        .cell = n - 1, .heat = BW_X_HEAT_I, .water = BW_X_VAPOUR_I};
    for (int k = 0; k < 4; k++) {
        e[0].slope[k] = c->by_inner[0][k];
        e[1].slope[k] = -c->by_outer[n][k];
    }
    entries->count = 2;
}

void bw_wall_linear(const bw_wall *wall, const bw_edge *edge, const double *v,
                    const bw_cells *cells, double *rate,
                    double crossing[BW_X_COUNT], bw_block *jacobian,
                    bw_entries *entries)
{
    const surfaces s = {
        .outer = surface(wall, edge->theta_e, edge->p_e, edge->h_e,
                         edge->beta_e),
        .inner = surface(wall, edge->theta_i, edge->p_i, edge->h_i,
                         edge->beta_i),
        .theta_e = edge->theta_e + edge->gain / edge->h_e,
        .theta_i = edge->theta_i,
    };
    sweep(wall, v, cells, &s, edge->redistributes, rate, jacobian);
    memset(crossing, 0, BW_X_COUNT * sizeof *crossing);
    count_surfaces(cells, crossing, jacobian != NULL ? entries : NULL);
    add_sources(wall, edge, v, cells, rate, crossing, jacobian, entries);
}

void bw_wall_rates(const bw_wall *wall, const bw_edge *edge, const double *v,
                   const bw_cells *cells, double *rate,
                   double crossing[BW_X_COUNT], bw_block *jacobian)
{
    bw_wall_linear(wall, edge, v, cells, rate, crossing, jacobian, NULL);
}
