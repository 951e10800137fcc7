#include "newton.h"

#include <math.h>

enum { MOST_ITERATIONS = 12, POLISHED_ENOUGH = 6 };
/* The matrix is made anew when an iteration with it moves the cells by more
 * than this share of the move before. */
#define CONTRACTS 0.2
/* The stage is solved when what is left would move no cell by more than this
 * share of the tolerance. */
#define LEFT 0.25
#define LEFT_POLISHED 1e-8
/* Most that may be left of the water a cell holds at 50 % RH: what is left is
 * carried on, and on the wet slope of metal or slate a small step of z is more
 * water than the cell holds dry. Carried into the dry it would be less than
 * none, which no state answers, however short the step. */
#define LEFT_DRY 0.02

static inline double held(double x, double low, double high)
{
    x = x > low ? x : low;
    return x < high ? x : high;
}

/* v += x, held where the tables and the physics are: no step of Newton's
 * takes a humidity below 0. Returns the largest step in tolerances; not finite
 * if one is not. */
static double move(bw_solver *s)
{
    double most = 0, sum = 0;
    const double a = 1 / s->tolerance_theta, b = 1 / s->tolerance_z;
    double *v = s->v;
    const double *x = s->x;
    const size_t end = 2 * s->wall->n;
    for (size_t i = 0; i < end; i += 2) {
        const double theta = v[i], z = v[i + 1];
        const double size = fabs(x[i]) * a + fabs(x[i + 1]) * b;
        sum += size;
        most = size > most ? size : most;
        v[i] = held(theta + held(x[i], -30, 30), BW_HUMID_LOW, BW_HUMID_HIGH);
        const double next = z + held(x[i + 1], -0.5, 0.5);
        v[i + 1] = next > 0 ? next : 0.1 * z;
    }
    return isfinite(sum) ? most : HUGE_VAL;
}

/* x = target + a F(v) - M(v), with F and crossings at v. */
static void residual(bw_solver *s, double a, const bw_edge *edge, double *rate,
                     double *crossing, bool jacobian)
{
    const size_t m = 2 * s->wall->n;
    s->evaluations++;
    bw_cells_under(s->wall, edge, s->v, s->cell, jacobian);
    bw_wall_rates(s->wall, edge, s->v, s->cell, rate, crossing,
                  jacobian ? s->block : NULL);
    bw_wall_stored(s->wall, s->v, s->cell, s->x, jacobian ? s->slopes : NULL);
    for (size_t i = 0; i < m; i += 2)
        bw_pair_put(&s->x[i], bw_pair_get(&s->target[i]) +
                                  a * bw_pair_get(&rate[i]) -
                                  bw_pair_get(&s->x[i]));
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
    const double *x = s->x;
    for (size_t i = 0; i < s->wall->n; i++) {
        const double *d = s->factor[i].size;
        const double water = fabs(x[2 * i + 1]);
        if (!(fabs(x[2 * i]) <= a * d[0]) || !(water <= b * d[1]) ||
            !(water <=
              LEFT_DRY * s->wall->dx[i] * s->wall->hygro[i]->dry_water))
            return false;
    }
    return true;
}

/* The matrix at the v of the last residual, which x keeps. */
static bool new_matrix(bw_solver *s, double a, const bw_edge *edge,
                       bool at_hand)
{
    if (!at_hand)
        jacobian_here(s, edge);
    return bw_blocks_factor(s->factor, s->block, (const double(*)[3])s->slopes,
                            a, s->wall->n);
}

bool bw_newton(bw_solver *s, double a, const bw_edge *edge, double *rate,
               double *crossing)
{
    const double share = s->polish ? LEFT_POLISHED : LEFT;
    bool stale = !s->factored;
    double last = HUGE_VAL;
    residual(s, a, edge, rate, crossing, stale);
    for (int k = 0; k < MOST_ITERATIONS; k++) {
        if (stale && !new_matrix(s, a, edge, k == 0))
            return false;
        bw_blocks_solve(s->factor, s->x, s->wall->n);
        const double size = move(s);
        s->iterations++;
        if (!isfinite(size))
            return false;
        stale = s->polish || size > CONTRACTS * last;
        last = size;
        residual(s, a, edge, rate, crossing, false);
        if (is_small(s, share) ||
            (s->polish && k > POLISHED_ENOUGH && is_small(s, 1e-4)))
            return true;
    }
    return false;
}
