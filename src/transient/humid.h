#ifndef BW_TRANSIENT_HUMID_H
#define BW_TRANSIENT_HUMID_H

/* Saturation pressure and vapour permeability of air as tables in
 * temperature, with slopes. Invariant: 0 degC is a node, so the kink of the
 * saturation curve lies between two rows and the table is smooth within one.
 * Cubic Hermite rows of 0.5 K: relative error below 1e-8 of psat. */

#include <stddef.h>

#include "arena.h"
#include "bothways/error.h"
#include "wide.h"

enum { BW_HUMID_ROWS = 460 };
#define BW_HUMID_LOW (-80.0)  /* degC */
#define BW_HUMID_HIGH (150.0) /* degC */

typedef struct bw_humid_row {
    double psat[4];  /* cubic in the fraction of the row */
    double delta[4]; /* linear: kg/(m s Pa); its rest is not used */
} bw_humid_row;

typedef struct bw_humid {
    bw_humid_row row[BW_HUMID_ROWS];
} bw_humid;

typedef struct bw_humid_at {
    double psat, psat_t;   /* Pa, Pa/K */
    double delta, delta_t; /* kg/(m s Pa), per K */
} bw_humid_at;

/* Fills the table from two functions of degC. */
void bw_humid_build(bw_humid *table, double (*psat)(double theta),
                    double (*delta)(double theta, double pressure),
                    double pressure);

#define BW_HUMID_PER_KELVIN (BW_HUMID_ROWS / (BW_HUMID_HIGH - BW_HUMID_LOW))
#define BW_HUMID_LAST (BW_HUMID_ROWS - 1e-9)

/* Where in the table four temperatures are: the row, and how far on in it. */
BW_ALWAYS bw_four bw_humid_place(bw_four theta)
{
    const bw_four none = {0, 0, 0, 0};
    const bw_four x = (theta - BW_HUMID_LOW) * BW_HUMID_PER_KELVIN;
    return bw_four_lesser(bw_four_larger(x, none), none + BW_HUMID_LAST);
}

static inline bw_humid_at bw_humid_find(const bw_humid *table, double theta)
{
    const double per_kelvin = BW_HUMID_PER_KELVIN;
    double x = (theta - BW_HUMID_LOW) * per_kelvin;
    x = x > 0 ? x : 0;
    x = x < BW_HUMID_LAST ? x : BW_HUMID_LAST;
    const int i = (int)x;
    const double t = x - i;
    const bw_humid_row *r = &table->row[i];
    const double *c = r->psat;
    return (bw_humid_at){
        c[0] + t * (c[1] + t * (c[2] + t * c[3])),
        (c[1] + t * (2 * c[2] + t * 3 * c[3])) * per_kelvin,
        r->delta[0] + t * r->delta[1],
        r->delta[1] * per_kelvin,
    };
}

#endif
