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

/* How the equations bend: the share by which their slopes change over a step.
 * The saturation pressure grows by 7 % per K, the diffusivity by ln 1000 per
 * w/w_f, which is most of z where water moves as a liquid (storage.h). */
#define BEND_THETA 0.07 /* 1/K */
#define BEND_Z 7.0

/* The largest step of any cell. */
typedef struct reach {
    double theta, z;
} reach;

static inline double larger(double a, double b)
{
    return a > b ? a : b;
}

static double bend_of(reach r)
{
    return BEND_THETA * r.theta + BEND_Z * r.z;
}

double bw_newton_bend(const double *a, const double *b, size_t n)
{
    double theta = 0, z = 0;
    for (size_t i = 0; i < 2 * n; i += 2) {
        theta = larger(fabs(a[i] - b[i]), theta);
        z = larger(fabs(a[i + 1] - b[i + 1]), z);
    }
    return bend_of((reach){theta, z});
}

/* v += x, held where the tables and the physics are: no step of Newton's
 * takes a humidity below 0. Returns the largest steps; not finite if one is
 * not. */
static reach move(bw_solver *s)
{
    reach most = {0, 0};
    double sum = 0;
    double *v = s->v;
    const double *x = s->x;
    const size_t end = 2 * s->wall->n;
    for (size_t i = 0; i < end; i += 2) {
        const double theta = v[i], z = v[i + 1];
        const double a = fabs(x[i]), b = fabs(x[i + 1]);
        sum += a + b;
        most.theta = larger(a, most.theta);
        most.z = larger(b, most.z);
        v[i] = held(theta + held(x[i], -30, 30), BW_HUMID_LOW, BW_HUMID_HIGH);
        const double next = z + held(x[i + 1], -0.5, 0.5);
        v[i + 1] = next > 0 ? next : 0.1 * z;
    }
    if (!isfinite(sum))
        most.theta = HUGE_VAL;
    return most;
}

/* x = target + a F(v) - M(v), with F and crossings at v. */
static void residual(bw_solver *s, double a, const bw_edge *edge, double *rate,
                     double *crossing, bool jacobian)
{
    const size_t m = 2 * s->wall->n;
    s->evaluations++;
    bw_cells_under(s->wall, edge, s->v, &s->cells, jacobian);
    bw_wall_linear(s->wall, edge, s->v, &s->cells, rate, crossing,
                   jacobian ? s->block : NULL, &s->entries);
    bw_wall_stored(s->wall, &s->cells, s->held, jacobian ? s->slopes : NULL);
    for (size_t i = 0; i < m; i += 2)
        bw_pair_put(&s->x[i], bw_pair_get(&s->target[i]) +
                                  a * bw_pair_get(&rate[i]) -
                                  bw_pair_get(&s->held[i]));
    s->linear = false;
}

/* The Jacobian alone, at the v of the last residual, which x keeps. */
static void jacobian_here(bw_solver *s, const bw_edge *edge)
{
    double crossing[BW_X_COUNT];
    bw_cells_under(s->wall, edge, s->v, &s->cells, true);
    bw_wall_linear(s->wall, edge, s->v, &s->cells, s->scratch, crossing,
                   s->block, &s->entries);
    bw_wall_stored(s->wall, &s->cells, s->scratch, s->slopes);
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

/* The solution where the equations were taken as straight from the last v to
 * this one, x further on, has
 *
 *   M + M' x = target + a (F + F' x)
 *
 * and what is carried on is the right side: sums stay exact. False if M itself
 * has bent too much on the way for that: then what a cell holds would not be
 * what is carried. */
static bool straight(bw_solver *s, double a, double share, double *rate,
                     double *crossing)
{
    const bw_wall *wall = s->wall;
    const double per_a = 1 / a;
    const double u = share * s->tolerance_theta, w = share * s->tolerance_z;
    const double *v = s->v, *x = s->x;
    for (size_t i = 0; i < wall->n; i++) {
        const bw_hygro *h = wall->hygro[i];
        const double *m = s->slopes[i], *size = s->factor[i].size;
        const double dx = wall->dx[i];
        const double water = bw_hygro_water(h, v[2 * i + 1]);
        const double heat = dx * (h->heat_capacity + BW_WATER_HEAT * water) *
                            v[2 * i];
        const double q = s->held[2 * i] + m[0] * x[2 * i] + m[1] * x[2 * i + 1];
        const double g = s->held[2 * i + 1] + m[2] * x[2 * i + 1];
        const double bend = fabs(dx * water - g);
        if (!(fabs(heat - q) <= u * size[0]) || !(bend <= w * size[1]) ||
            !(bend <= LEFT_DRY * dx * h->dry_water))
            return false;
        rate[2 * i] = (q - s->target[2 * i]) * per_a;
        rate[2 * i + 1] = (g - s->target[2 * i + 1]) * per_a;
    }
    for (size_t k = 0; k < s->entries.count; k++) {
        const bw_entry *e = &s->entries.entry[k];
        const double *d = &x[2 * e->cell];
        crossing[e->heat] += e->slope[0] * d[0] + e->slope[1] * d[1];
        crossing[e->water] += e->slope[2] * d[0] + e->slope[3] * d[1];
    }
    s->linear = true;
    return true;
}

/* The matrix at the v of the last residual, which x keeps. */
static bool new_matrix(bw_solver *s, double a, const bw_edge *edge,
                       bool at_hand)
{
    if (!at_hand)
        jacobian_here(s, edge);
    s->bent = 0;
    return bw_blocks_factor(s->factor, s->block, (const double(*)[3])s->slopes,
                            a, s->wall->n);
}

/* What the next iteration would be of the last, in size. With a matrix made
 * here, or none to compare with, at most what the equations have bent since
 * it was made. */
static double contraction(const bw_solver *s, int k, bool fresh, double size,
                          double last)
{
    return fresh || k == 0 ? s->bent : size / last;
}

bool bw_newton(bw_solver *s, double a, const bw_edge *edge, double *rate,
               double *crossing)
{
    const double share = s->polish ? LEFT_POLISHED : LEFT;
    bool stale = !s->factored;
    double last = HUGE_VAL;
    residual(s, a, edge, rate, crossing, stale);
    for (int k = 0; k < MOST_ITERATIONS; k++) {
        const bool fresh = stale;
        if (fresh && !new_matrix(s, a, edge, k == 0))
            return false;
        bw_blocks_solve(s->factor, s->x, s->wall->n);
        const reach most = move(s);
        const double size = most.theta / s->tolerance_theta +
                            most.z / s->tolerance_z;
        s->iterations++;
        s->bent += bend_of(most);
        if (!isfinite(size))
            return false;
        if (!s->polish &&
            size * contraction(s, k, fresh, size, last) <= share &&
            straight(s, a, share, rate, crossing))
            return true;
        stale = s->polish || size > CONTRACTS * last;
        last = size;
        residual(s, a, edge, rate, crossing, false);
        if (is_small(s, share) ||
            (s->polish && k > POLISHED_ENOUGH && is_small(s, 1e-4)))
            return true;
    }
    return false;
}
