#ifndef BW_TRANSIENT_SOLVER_H
#define BW_TRANSIENT_SOLVER_H

/* Time stepping of a wall: TR-BDF2 (Bank et al. 1985; Hosea & Shampine 1996,
 * both from memory, hi), second order, L-stable, one-step, with their embedded
 * third-order error estimate, in conserved form:
 *
 *   M(v1) = M0 + d h (F0 + F1)              at t + gamma h
 *   M(v2) = M0 + w h (F0 + F1) + d h F2     at t + h
 *   gamma = 2 - sqrt 2, d = gamma/2, w = sqrt(2)/4
 *
 * M is what is stored (heat, water), F the net inflow. The M that is carried
 * from step to step is the right-hand side, not M(v): so the sums of M and of
 * the crossings agree to rounding whatever Newton's tolerance is, and the
 * error of Newton's method never accumulates. */

#include "blocks.h"
#include "wall.h"

/* Conditions at time t [s]; smooth between two calls of bw_solver_advance. A
 * jump from one call to the next is seen and stepped over with care. */
typedef void bw_edge_at(const void *ctx, double t, bw_edge *edge);

typedef struct bw_solver {
    const bw_wall *wall;
    double tolerance_theta;      /* K, local error of a step */
    double tolerance_z;          /* of z, about RH */
    double t;                    /* s */
    double h;                    /* next step wanted, s */
    double h_first;              /* the same after a break of the conditions */
    bw_edge edge;                /* conditions at t as the last step saw them */
    double crossing[BW_X_COUNT]; /* there */
    bool polish;                 /* iterate to rounding */
    size_t length;               /* of all rows of numbers: 2n, and zeros to
                                    make it a multiple of 8 */
    double *v;                   /* state, 2n */
    double *stored;              /* M carried, 2n */
    double *slope;               /* dv/dt guess for the next step, 2n */
    double *weight;              /* of each in the error of a step: dx */
    /* work */
    double *v0, *v1, *target, *rate0, *rate1, *rate2, *x, *held, *scratch;
    double *last; /* of an iteration: the last step of each value */
    bw_cells cells;
    bw_block *block;
    double (*slopes)[3];
    bw_factor *factor;
    bw_entries entries; /* with the slopes of the crossings, of that matrix */
    bool factored;      /* factor is of this step's length */
    double bent;        /* bound of what has bent since it was made */
    bool linear;        /* s->cells are not those of v */
    size_t steps, rejected, iterations, evaluations;
} bw_solver;

/* Memory for a wall, from the arena; false when out of memory. */
bool bw_solver_init(bw_solver *solver, const bw_wall *wall, bw_arena *arena);

/* Starts from v[2n] at time t. */
void bw_solver_start(bw_solver *solver, const double *v, double t);

/* Steps to `end` exactly. crossing[] gains what crossed on the way.
 * BW_ERR_NUMERIC if a step can not be made however short. */
bw_status bw_solver_advance(bw_solver *solver, double end, bw_edge_at *edge,
                            const void *ctx, double crossing[BW_X_COUNT],
                            bw_error *err);

#endif
