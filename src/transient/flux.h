#ifndef BW_TRANSIENT_FLUX_H
#define BW_TRANSIENT_FLUX_H

/* What passes one face between two half cells, and its slopes: the equations of
 * wall.h, for a row of cells and for a drawing. */

#include "wall.h"

/* Flux through a face and its slopes by (theta, z) on both sides. */
typedef struct bw_flux {
    double q, g;
    double q_l[2], q_r[2], g_l[2], g_r[2];
} bw_flux;

static inline double bw_film_resistance(const bw_film *film, double phi,
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
BW_ALWAYS void bw_flux_vapour(bw_flux *f, const bw_face *face, const bw_cell *l,
                              const bw_cell *r, bool slopes)
{
    double film = 0, film_l = 0, film_r = 0, film_lt = 0, film_rt = 0;
    if (face->film != NULL) {
        double slope;
        film = bw_film_resistance(face->film, 0.5 * (l->phi + r->phi), &slope);
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
BW_ALWAYS double bw_flux_liquid(const bw_face *face, const bw_cell *l,
                                const bw_cell *r, double per_l, double per_r,
                                bool slow, size_t *near, double slope[2],
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
                                         &share, near);
    if (slopes) {
        slope[0] = per_l * l->flow_z * (1 - share);
        slope[1] = -per_r * r->flow_z * share;
    }
    return a - at_face;
}

/* The cell as seen from a face that liquid does not cross (a surface, a
 * membrane, a material that draws none): liquid comes up to the face and
 * evaporates there, so both paths share the half cell. */
BW_ALWAYS bw_cell bw_cell_wetted(const bw_cell *c, double per_half, bool slopes)
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

/* From l to r, whose half cells are as thick as 1/per. wet: liquid passes;
 * slow: by the diffusivity of redistribution; near: of this face alone, for
 * bw_joint_find. */
BW_ALWAYS void bw_flux_through(bw_flux *f, const bw_face *face, double latent,
                               const bw_cell *l, const bw_cell *r, double per_l,
                               double per_r, double theta_l, double theta_r,
                               bool wet, bool slow, size_t *near, bool slopes)
{
    if (!wet && (l->kphi > 0 || r->kphi > 0)) {
        const bw_cell a = bw_cell_wetted(l, per_l, slopes);
        const bw_cell b = bw_cell_wetted(r, per_r, slopes);
        bw_flux_vapour(f, face, &a, &b, slopes);
    } else {
        bw_flux_vapour(f, face, l, r, slopes);
    }
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
    if (wet) {
        double slope[2] = {0, 0};
        f->g += bw_flux_liquid(face, l, r, per_l, per_r, slow, near, slope,
                               slopes);
        if (slopes) {
            f->g_l[1] += slope[0];
            f->g_r[1] += slope[1];
        }
    }
    f->q += carried * f->g;
    if (slopes) {
        const double half = BW_WATER_HEAT * 0.5 * f->g;
        f->q_l[0] += carried * f->g_l[0] + half;
        f->q_l[1] += carried * f->g_l[1];
        f->q_r[0] += carried * f->g_r[0] + half;
        f->q_r[1] += carried * f->g_r[1];
    }
}

#endif
