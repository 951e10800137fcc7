#include "newton.h"

#include <math.h>

enum { MOST_ITERATIONS = 12, POLISHED_ENOUGH = 6 };
/* A new matrix is not made when what an iteration leaves is expected below
 * this share of the tolerance... */
#define EXPECTED 0.03
/* ...and the stage is solved when what is left would move no cell by more
 * than this share. */
#define LEFT 0.25
#define LEFT_POLISHED 1e-8
#define LEAST_CURVATURE 0.01
/* Most that may be left of the water a cell holds at 50 % RH: what is left is
 * carried on, and on the wet slope of metal or slate a small step of z is more
 * water than the cell holds dry. Carried into the dry it would be less than
 * none, which no state answers, however short the step. */
#define LEFT_DRY 0.02

static inline double held(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* v += x, held where the tables and the physics are: no step of Newton's
 * takes a humidity below 0. Returns the largest step in tolerances. */
static double move(bw_solver *s)
{
    double most = 0;
    const double a = 1 / s->tolerance_theta, b = 1 / s->tolerance_z;
    for (size_t i = 0; i < 2 * s->wall->n; i += 2) {
        const double theta = s->x[i], z = s->x[i + 1];
        const double size = fabs(theta) * a + fabs(z) * b;
        if (!isfinite(size))
            return HUGE_VAL;
        most = size > most ? size : most;
        s->v[i] = held(s->v[i] + held(theta, -30, 30), BW_HUMID_LOW,
                       BW_HUMID_HIGH);
        const double next = s->v[i + 1] + held(z, -0.5, 0.5);
        s->v[i + 1] = next > 0 ? next : 0.1 * s->v[i + 1];
    }
    return most;
}

/* x = target + a F(v) - M(v), with F and crossings at v. */
static void residual(bw_solver *s, double a, const bw_edge *edge, double *rate,
                     double *crossing, bool jacobian)
{
    const size_t n = s->wall->n;
    s->evaluations++;
    bw_cells_under(s->wall, edge, s->v, s->cell, jacobian);
    bw_wall_rates(s->wall, edge, s->v, s->cell, rate, crossing,
                  jacobian ? s->block : NULL);
    bw_wall_stored(s->wall, s->v, s->cell, s->x, jacobian ? s->slopes : NULL);
    for (size_t i = 0; i < 2 * n; i++)
        s->x[i] = s->target[i] + a * rate[i] - s->x[i];
}

/* The Jacobian alone, at the v of the last residual, which x keeps. */
static void jacobian_here(bw_solver *s, const bw_edge *edge)
{
    double crossing[BW_X_COUNT];
    bw_cells_under(s->wall, edge, s->v, s->cell, true);
    bw_wall_rates(s->wall, edge, s->v, s->cell, s->scratch, crossing, s->block);
    bw_wall_stored(s->wall, s->v, s->cell, s->scratch, s->slopes);
}

/* Whether what is left, x, would move no cell by `share` of the tolerance,
 * judged by the diagonal of the last matrix, and could dry no dry cell. */
static bool is_small(const bw_solver *s, double share)
{
    const double a = share * s->tolerance_theta;
    const double b = share * s->tolerance_z;
    for (size_t i = 0; i < s->wall->n; i++) {
        const double *d = s->factor[i].size;
        const double dry = s->wall->dx[i] * s->wall->hygro[i]->dry_water;
        if (!(fabs(s->x[2 * i]) <= a * d[0]) ||
            !(fabs(s->x[2 * i + 1]) <= fmin(b * d[1], LEFT_DRY * dry)))
            return false;
    }
    return true;
}

bool bw_newton(bw_solver *s, double a, const bw_edge *edge, double *rate,
               double *crossing)
{
    const double share = s->polish ? LEFT_POLISHED : LEFT;
    bool at_hand = !s->factored; /* the Jacobian at v is in block */
    double last = 0;
    residual(s, a, edge, rate, crossing, at_hand);
    for (int k = 0; k < MOST_ITERATIONS; k++) {
        const bool fresh = k > 0 || !s->factored;
        if (fresh) {
            if (!at_hand)
                jacobian_here(s, edge);
            if (!bw_blocks_factor(s->factor, s->block,
                                  (const double(*)[3])s->slopes, a, s->wall->n))
                return false;
        }
        bw_blocks_solve(s->factor, s->x, s->wall->n);
        const double size = move(s);
        s->iterations++;
        if (!isfinite(size))
            return false;
        if (fresh && last > 1e-3)
            s->curvature = fmax(fmax(size / (last * last), 0.7 * s->curvature),
                                LEAST_CURVATURE);
        last = fresh ? size : 0;
        at_hand = fresh && size * size * s->curvature >= EXPECTED;
        residual(s, a, edge, rate, crossing, at_hand);
        if (is_small(s, share) ||
            (s->polish && k > POLISHED_ENOUGH && is_small(s, 1e-4)))
            return true;
    }
    return false;
}
