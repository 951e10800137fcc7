#ifndef BW_TRANSIENT_HYGRO_H
#define BW_TRANSIENT_HYGRO_H

/* What a material does with heat and moisture, as one table over one
 * potential.
 *
 * The state of a cell is its temperature and
 *     z = phi + w(phi) / scale,      scale = free water content w_f,
 * a potential that runs along the storage curve: in the hygroscopic range it
 * is nearly phi, near saturation nearly w/w_f, so that both phi(z) and w(z)
 * have slopes between 0 and their scale, and Newton's method meets no cliff
 * where w(phi) is steep (parametrisation after Brenner & Cances 2017, from
 * memory, med). The table IS the material: rows are monotone cubics through
 * the exact curve, and every method uses the rows.
 *
 * Invariants: w and phi never fall with z; w(0) = phi(0) = 0.
 *
 * Above free saturation (z > 2) phi rises by 1e-4 while w rises from w_f to
 * the full pore space; beyond that the last row goes on straight and phi
 * rises at once: an overfull cell drives its vapour out, and nothing fails.
 *
 * Liquid water moves by the Kirchhoff potential flow(z) = integral of D_w dw:
 * inside one material the flux is exactly its difference over distance. Of a
 * material with a second diffusivity, for water that spreads while no rain is
 * on the face, there is a second such potential. */

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "bothways/error.h"
#include "shelf.h"
#include "wide.h"

enum { BW_HYGRO_ROWS = 512 };

/* The functions a table is made from. ctx is handed back to each. */
typedef struct bw_hygro_law {
    const void *ctx;
    double (*water)(const void *ctx, double phi); /* kg/m3, phi 0..1, rising */
    double (*diffusivity)(const void *ctx, double w); /* D_w m2/s, or NULL */
    /* D_w while no rain is on the face; NULL: the same */
    double (*redistribution)(const void *ctx, double w);
    double (*openness)(const void *ctx, double phi, double w);     /* 1/mu */
    double (*conductivity)(const void *ctx, double phi, double w); /* W/(m K) */
    double heat_capacity; /* J/(m3 K), dry */
    double full_water;    /* kg/m3, all pores; at least water(1) */
    /* w is a function of suction s = -rho R T ln phi rather than of phi: the
     * curves are taken at `reference` kelvin, and phi = phi0^(T0/T). */
    bool suction;
    double reference; /* K */
} bw_hygro_law;

typedef struct bw_hygro_row {
    double phi[4], water[4], flow[4], slow_flow[4]; /* cubics; slow: of
                                                       redistribution */
    double pass[4]; /* lambda, openness: first and rise of each, straight */
    double kphi[4]; /* kphi, that of redistribution: likewise */
} bw_hygro_row;

static inline double bw_cubic(const double c[4], double f)
{
    return c[0] + f * (c[1] + f * (c[2] + f * c[3]));
}

typedef struct bw_hygro {
    double heat_capacity; /* J/(m3 K) */
    double scale;         /* kg/m3 */
    double per_z;         /* rows per unit of z */
    double free_z, full_z;
    double free_flow; /* flow potential at free saturation */
    double free_slow; /* the same of redistribution */
    double dry_water; /* kg/m3 at 50 % RH */
    bool liquid, suction;
    double reference;
    bw_hygro_row row[BW_HYGRO_ROWS + 1];
} bw_hygro;

/* Where in their tables four materials are at z: in which row, and beyond its
 * start how far on. */
BW_ALWAYS bw_four bw_hygro_place(bw_four per_z, bw_four z)
{
    const bw_four none = {0, 0, 0, 0};
    return bw_four_larger(z * per_z, none);
}

BW_ALWAYS bw_index bw_hygro_row_of(bw_four place)
{
    const bw_four none = {0, 0, 0, 0};
    return bw_four_below(bw_four_lesser(place, none + BW_HYGRO_ROWS));
}

/* Makes the table; BW_ERR_DOMAIN if the storage curve does not rise. */
bw_status bw_hygro_build(bw_hygro *table, const bw_hygro_law *law,
                         bw_error *err);

/* The same; what of the law is not its openness is all in the key, and is
 * reckoned but once for a shelf. */
bw_status bw_hygro_build_on(bw_shelf *shelf, bw_shelf_key key, bw_hygro *table,
                            const bw_hygro_law *law, bw_error *err);

/* z at a relative humidity [0..1] (at the reference temperature), and at a
 * water content [kg/m3]. */
double bw_hygro_z_of_phi(const bw_hygro *table, double phi);
double bw_hygro_z_of_water(const bw_hygro *table, double water);

/* Water content [kg/m3] at z. */
double bw_hygro_water(const bw_hygro *table, double z);

/* Relative humidity at z (at the reference temperature). */
double bw_hygro_phi(const bw_hygro *table, double z);

#endif
