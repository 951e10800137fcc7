#ifndef BW_TRANSIENT_NEWTON_H
#define BW_TRANSIENT_NEWTON_H

/* One implicit stage. */

#include "solver.h"

/* Solves M(v) - a F(v) = s->target for s->v from the guess there. On success
 * rate and crossing hold F at the solution, or, where the last iteration was
 * so short that the equations are straight over it (s->linear), F as the
 * matrix continues it; else s->cells the values of the cells. If
 * s->factored the matrix of the last stage, of the same a, is tried first.
 * False if the iteration does not settle. */
bool bw_newton(bw_solver *s, double a, const bw_edge *edge, double *rate,
               double *crossing);

/* Bound of what the slopes of the equations change by between two states. */
double bw_newton_bend(const double *a, const double *b, size_t length);

#endif
