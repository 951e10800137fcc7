/* Fluxes through faces and what they add to each cell, with the Jacobian.
 * Invariant: what leaves one cell enters the next, in every row of rate[], so
 * the sums of rate[] are the crossings. */
#include <math.h>
#include <string.h>

#include "bothways/air.h"
#include "core.h"

/* Flux through a face and its slopes by (theta, z) on both sides. */
typedef struct flux {
    double q, g;
    double q_l[2], q_r[2], g_l[2], g_r[2];
} flux;

static inline double film_resistance(const bw_film *film, double phi,
                                     double *slope)
{
    double x = phi * BW_FILM_ROWS;
    x = x > 0 ? x : 0;
    x = x < BW_FILM_ROWS ? x : BW_FILM_ROWS;
    const int i = (int)x;
    const double d = film->resistance[i + 1] - film->resistance[i];
    *slope = d * BW_FILM_ROWS;
    return film->resistance[i] + (x - i) * d;
}

/* Vapour flux and slopes; membranes at the mean RH of the adjoining cells. */
BW_ALWAYS void vapour(flux *f, const bw_face *face, const bw_cell *l,
                      const bw_cell *r, bool slopes)
{
    double film = 0, film_l = 0, film_r = 0, film_lt = 0, film_rt = 0;
    if (face->film != NULL) {
        double slope;
        film = film_resistance(face->film, 0.5 * (l->phi + r->phi), &slope);
        if (slopes) {
            film_l = 0.5 * slope * l->phi_z;
            film_r = 0.5 * slope * r->phi_z;
            film_lt = 0.5 * slope * l->phi_t;
            film_rt = 0.5 * slope * r->phi_t;
        }
    }
    const double conductance = 1 / (l->rv + film + r->rv);
    const double g = conductance * (l->p - r->p);
    f->g = g;
    if (!slopes)
        return;
    f->g_l[0] = conductance * (l->p_t - g * (l->rv_t + film_lt));
    f->g_l[1] = conductance * (l->p_z - g * (l->rv_z + film_l));
    f->g_r[0] = conductance * (-r->p_t - g * (r->rv_t + film_rt));
    f->g_r[1] = conductance * (-r->p_z - g * (r->rv_z + film_r));
}

/* Liquid flux between two cells; its slopes by z. */
BW_ALWAYS double liquid(const bw_face *face, const bw_cell *l, const bw_cell *r,
                        double per_l, double per_r, bool slow, double slope[2],
                        bool slopes)
{
    if (face->same) {
        const double per = face->per;
        if (slopes) {
            slope[0] = per * l->flow_z;
            slope[1] = -per * r->flow_z;
        }
        return per * (l->flow - r->flow);
    }
    /* another material: by the humidity of the face */
    double share;
    const double a = per_l * l->flow;
    const double at_face = bw_joint_find(face->joint[slow], a + per_r * r->flow,
                                         &share);
    if (slopes) {
        slope[0] = per_l * l->flow_z * (1 - share);
        slope[1] = -per_r * r->flow_z * share;
    }
    return a - at_face;
}

/* The cell as seen from a face that liquid does not cross (a surface, a
 * membrane, a material that draws none): liquid comes up to the face and
 * evaporates there, so both paths share the half cell. */
BW_ALWAYS bw_cell wetted(const bw_cell *c, double per_half, bool slopes)
{
    bw_cell out = *c;
    if (!(c->kphi > 0))
        return out;
    const double per_p = c->phi / c->p * per_half;
    const double k = c->kphi * per_p;
    const double share = 1 / (1 + c->rv * k);
    out.rv = c->rv * share;
    if (slopes) {
        const double k_z = c->kphi_z * per_p +
                           k * (c->phi_z / c->phi - c->p_z / c->p);
        const double k_t = k * (c->phi_t / c->phi - c->p_t / c->p);
        out.rv_z = share * share * (c->rv_z - c->rv * c->rv * k_z);
        out.rv_t = share * share * (c->rv_t - c->rv * c->rv * k_t);
    }
    return out;
}

BW_ALWAYS void add_liquid(flux *f, const bw_wall *wall, size_t i,
                          const bw_cell *l, const bw_cell *r, bool slow,
                          bool slopes)
{
    double slope[2] = {0, 0};
    f->g += liquid(&wall->face[i], l, r, wall->per_half[i - 1],
                   wall->per_half[i], slow, slope, slopes);
    if (slopes) {
        f->g_l[1] += slope[0];
        f->g_r[1] += slope[1];
    }
}

BW_ALWAYS void face_flux(flux *f, const bw_wall *wall, size_t i,
                         const bw_cell *l, const bw_cell *r, double theta_l,
                         double theta_r, bool wet, bool slow, bool slopes)
{
    const bw_face *face = &wall->face[i];
    if (!wet && (l->kphi > 0 || r->kphi > 0)) {
        const size_t last = wall->n - 1;
        const bw_cell a = wetted(l, wall->per_half[i > 0 ? i - 1 : 0], slopes);
        const bw_cell b = wetted(r, wall->per_half[i < last ? i : last],
                                 slopes);
        vapour(f, face, &a, &b, slopes);
    } else {
        vapour(f, face, l, r, slopes);
    }
    const double latent = wall->latent;
    const double conductance = 1 / (l->rt + face->heat_resistance + r->rt);
    const double q = conductance * (theta_l - theta_r);
    /* heat carried by the water itself, besides its latent heat */
    const double carried = BW_WATER_HEAT * 0.5 * (theta_l + theta_r);
    f->q = q + latent * f->g;
    if (slopes) {
        f->q_l[0] = conductance + latent * f->g_l[0];
        f->q_l[1] = -conductance * q * l->rt_z + latent * f->g_l[1];
        f->q_r[0] = -conductance + latent * f->g_r[0];
        f->q_r[1] = -conductance * q * r->rt_z + latent * f->g_r[1];
    }
    if (wet)
        add_liquid(f, wall, i, l, r, slow, slopes);
    f->q += carried * f->g;
    if (slopes) {
        const double half = BW_WATER_HEAT * 0.5 * f->g;
        f->q_l[0] += carried * f->g_l[0] + half;
        f->q_l[1] += carried * f->g_l[1];
        f->q_r[0] += carried * f->g_r[0] + half;
        f->q_r[1] += carried * f->g_r[1];
    }
}

static inline void add_left(bw_block *j, const flux *f)
{
    /* the face is the inner face of this cell: flux leaves */
    j->diag[0] -= f->q_l[0];
    j->diag[1] -= f->q_l[1];
    j->diag[2] -= f->g_l[0];
    j->diag[3] -= f->g_l[1];
    j->upper[0] = -f->q_r[0];
    j->upper[1] = -f->q_r[1];
    j->upper[2] = -f->g_r[0];
    j->upper[3] = -f->g_r[1];
}

static inline void set_right(bw_block *j, const flux *f)
{
    /* the face is the outer face of this cell: flux enters */
    j->diag[0] = f->q_r[0];
    j->diag[1] = f->q_r[1];
    j->diag[2] = f->g_r[0];
    j->diag[3] = f->g_r[1];
    j->lower[0] = f->q_l[0];
    j->lower[1] = f->q_l[1];
    j->lower[2] = f->g_l[0];
    j->lower[3] = f->g_l[1];
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
static bw_entry rain(const bw_wall *wall, const bw_edge *edge, const bw_cell *c)
{
    const double per = 2 / wall->dx[0];
    double g = edge->rain, slope = 0;
    const bw_hygro *m = wall->hygro[0];
    const double free = edge->redistributes ? m->free_slow : m->free_flow;
    const double most = per * (free - c->flow);
    if (!(most > 0)) { /* wetter than free water makes it */
        g = 0;
    } else if (most < g) {
        g = most;
        slope = -per * c->flow_z;
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
                          const bw_cell *cell, bool slopes)
{
    const size_t i = vent->cell;
    const double per = vent->flow / (wall->r_v * (edge->theta_e + BW_KELVIN));
    const double g = per * (edge->p_e - cell[i].p);
    const double air = vent->flow * BW_AIR_HEAT;
    const double mean = 0.5 * (edge->theta_e + v[2 * i]);
    const double carried = wall->latent + BW_WATER_HEAT * mean;
    bw_entry e = {.cell = i,
                  .heat = BW_X_HEAT_VENT,
                  .water = BW_X_VENT,
                  .q = air * (edge->theta_e - v[2 * i]) + carried * g,
                  .g = g};
    if (slopes) {
        e.slope[2] = -per * cell[i].p_t;
        e.slope[3] = -per * cell[i].p_z;
        e.slope[0] = carried * e.slope[2] - air + 0.5 * BW_WATER_HEAT * g;
        e.slope[1] = carried * e.slope[3];
    }
    return e;
}

static void add_sources(const bw_wall *wall, const bw_edge *edge,
                        const double *v, const bw_cell *cell, double *rate,
                        double *crossing, bw_block *j, bw_entries *entries)
{
    if (wall->face[0].liquid) {
        const bw_entry e = rain(wall, edge, cell);
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
        const bw_entry e = ventilate(wall, &wall->vent[k], edge, v, cell,
                                     j != NULL);
        let_in(&e, entries, rate, crossing, j);
    }
}

static void add_surface(bw_entries *entries, size_t cell, bw_crossing heat,
                        bw_crossing water, const double slope[4])
{
    if (entries == NULL)
        return;
    bw_entry *e = &entries->entry[entries->count++];
    *e = (bw_entry){.cell = cell, .heat = heat, .water = water};
    memcpy(e->slope, slope, sizeof e->slope);
}

/* The sweep over the faces, outside to inside. */
BW_ALWAYS void sweep(const bw_wall *wall, const double *v, const bw_cell *cell,
                     const bw_cell *outer, double theta_e, const bw_cell *inner,
                     double theta_i, bool slow, double *rate, double *crossing,
                     bw_block *j, bw_entries *entries, bool slopes)
{
    const size_t n = wall->n;
    flux f;
    face_flux(&f, wall, 0, outer, &cell[0], theta_e, v[0], false, slow, slopes);
    double q = f.q, g = f.g; /* through the face before */
    crossing[BW_X_HEAT_E] = f.q;
    crossing[BW_X_VAPOUR_E] = f.g;
    if (slopes) {
        set_right(&j[0], &f);
        add_surface(entries, 0, BW_X_HEAT_E, BW_X_VAPOUR_E, j[0].diag);
    }
    for (size_t i = 1; i < n; i++) {
        face_flux(&f, wall, i, &cell[i - 1], &cell[i], v[2 * i - 2], v[2 * i],
                  wall->face[i].liquid, slow, slopes);
        rate[2 * i - 2] = q - f.q;
        rate[2 * i - 1] = g - f.g;
        q = f.q;
        g = f.g;
        if (slopes) {
            add_left(&j[i - 1], &f);
            set_right(&j[i], &f);
        }
    }
    face_flux(&f, wall, n, &cell[n - 1], inner, v[2 * n - 2], theta_i, false,
              slow, slopes);
    rate[2 * n - 2] = q - f.q;
    rate[2 * n - 1] = g - f.g;
    crossing[BW_X_HEAT_I] = -f.q;
    crossing[BW_X_VAPOUR_I] = -f.g;
    if (slopes) {
        add_left(&j[n - 1], &f);
        const double inwards[4] = {-f.q_l[0], -f.q_l[1], -f.g_l[0], -f.g_l[1]};
        add_surface(entries, n - 1, BW_X_HEAT_I, BW_X_VAPOUR_I, inwards);
    }
}

void bw_wall_linear(const bw_wall *wall, const bw_edge *edge, const double *v,
                    const bw_cell *cell, double *rate,
                    double crossing[BW_X_COUNT], bw_block *jacobian,
                    bw_entries *entries)
{
    memset(crossing, 0, BW_X_COUNT * sizeof *crossing);
    if (jacobian != NULL && entries != NULL)
        entries->count = 0;
    const double theta_e = edge->theta_e + edge->gain / edge->h_e;
    const bw_cell outer = surface(wall, edge->theta_e, edge->p_e, edge->h_e,
                                  edge->beta_e);
    const bw_cell inner = surface(wall, edge->theta_i, edge->p_i, edge->h_i,
                                  edge->beta_i);
    if (jacobian != NULL)
        sweep(wall, v, cell, &outer, theta_e, &inner, edge->theta_i,
              edge->redistributes, rate, crossing, jacobian, entries, true);
    else
        sweep(wall, v, cell, &outer, theta_e, &inner, edge->theta_i,
              edge->redistributes, rate, crossing, NULL, NULL, false);
    add_sources(wall, edge, v, cell, rate, crossing, jacobian, entries);
}

void bw_wall_rates(const bw_wall *wall, const bw_edge *edge, const double *v,
                   const bw_cell *cell, double *rate,
                   double crossing[BW_X_COUNT], bw_block *jacobian)
{
    bw_wall_linear(wall, edge, v, cell, rate, crossing, jacobian, NULL);
}
