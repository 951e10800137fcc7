#include "newton.h"

#include <math.h>
#include <string.h>

enum { MOST_ITERATIONS = 12, POLISHED_ENOUGH = 6 };
/* The matrix is made anew when an iteration with it moves the cells by more
 * than this share of the move before. */
static const double CONTRACTS = 0.5;
/* The stage is solved when what is left would move no cell by more than this
 * share of the tolerance. */
static const double LEFT = 0.25;
/* Sent back by more than this share of its last step, a value goes half way:
 * Newton's method near a solution is sent back by far less. */
static const double BACK = 0.8;
static const double LEFT_POLISHED = 1e-8;
/* Most that may be left of the water a cell holds at 50 % RH: what is left is
 * carried on, and on the wet slope of metal or slate a small step of z is more
 * water than the cell holds dry. Carried into the dry it would be less than
 * none, which no state answers, however short the step. */
static const double LEFT_DRY = 0.02;

/* How the equations bend: the share by which their slopes change over a step.
 * The saturation pressure grows by 7 % per K, the diffusivity by ln 1000 per
 * w/w_f, which is most of z where water moves as a liquid (storage.h). */
static const double BEND_THETA = 0.07; /* 1/K */
static const double BEND_Z = 7.0;

/* The largest step of any cell. */
typedef struct reach {
    double theta, z;
} reach;

static double bend_of(reach r)
{
    return BEND_THETA * r.theta + BEND_Z * r.z;
}

/* Of theta, z, theta, z. Inlined as all that takes fours: handed over, they
 * would go in other registers from one version of a caller than from another.
 */
BW_ALWAYS reach reach_of(bw_four most)
{
    return (reach){most[0] > most[2] ? most[0] : most[2],
                   most[1] > most[3] ? most[1] : most[3]};
}

BW_WIDE static reach distance(const double *a, const double *b, size_t m)
{
    bw_four most = {0, 0, 0, 0};
    for (size_t i = 0; i < m; i += 4)
        most = bw_four_larger(
            bw_four_size(bw_four_get(&a[i]) - bw_four_get(&b[i])), most);
    return reach_of(most);
}

double bw_newton_bend(const double *a, const double *b, size_t m)
{
    return bend_of(distance(a, b, m));
}

/* v += x, held where the tables and the physics are: no step of Newton's
 * takes a humidity below 0. A value that is sent back as far as it came
 * (`last`, its last step), and farther than `enough`, would go to and fro
 * across a kink, such as where a face stops taking up rain: it goes back half
 * way, by bisection. Returns the largest steps; not finite if one is not.
 * *whole: no value went half way. */
BW_WIDE static reach move(double *v, const double *x, double *last, size_t m,
                          reach enough, bool *whole)
{
    const bw_four least_back = {enough.theta, enough.z, enough.theta, enough.z};
    const bw_four step = {30, 0.5, 30, 0.5};
    const bw_four low = {BW_HUMID_LOW, 0, BW_HUMID_LOW, 0};
    const bw_four high = {BW_HUMID_HIGH, HUGE_VAL, BW_HUMID_HIGH, HUGE_VAL};
    const bw_four tenth = {0, 0.1, 0, 0.1};
    const bw_four nothing = {0, 0, 0, 0};
    bw_four most = nothing, sum = most;
    bw_which halved = {0, 0, 0, 0};
    for (size_t i = 0; i < m; i += 4) {
        const bw_four now = bw_four_get(&v[i]), all = bw_four_get(&x[i]);
        const bw_four came = bw_four_get(&last[i]);
        const bw_four size = bw_four_size(all);
        const bw_which back = (all * came < nothing) &
                              (size > BACK * bw_four_size(came)) &
                              (size > least_back);
        const bw_four by = bw_four_choose(back, -0.5 * came, all);
        halved |= back;
        bw_four_put(&last[i], by);
        sum += size;
        most = bw_four_larger(size, most);
        const bw_four next = now +
                             bw_four_lesser(bw_four_larger(by, -step), step);
        /* no lower than -80 degC; not dry, but a tenth as wet */
        const bw_four least = low + tenth * now;
        bw_four_put(&v[i], bw_four_lesser(
                               bw_four_choose(next > low, next, least), high));
    }
    *whole = (halved[0] | halved[1] | halved[2] | halved[3]) == 0;
    reach r = reach_of(most);
    if (!isfinite(sum[0] + sum[1] + sum[2] + sum[3]))
        r.theta = HUGE_VAL;
    return r;
}

/* x = target + a rate - held */
BW_WIDE static void subtract(double *x, const double *target, double a,
                             const double *rate, const double *held, size_t m)
{
    for (size_t i = 0; i < m; i += 4)
        bw_four_put(&x[i], bw_four_get(&target[i]) + a * bw_four_get(&rate[i]) -
                               bw_four_get(&held[i]));
}

/* x = target + a F(v) - M(v), with F and crossings at v. */
static void residual(bw_solver *s, double a, const bw_edge *edge, double *rate,
                     double *crossing, bool jacobian)
{
    s->evaluations++;
    bw_cells_under(s->wall, edge, s->v, &s->cells, jacobian);
    bw_wall_linear(s->wall, edge, s->v, &s->cells, rate, crossing,
                   jacobian ? s->block : NULL, &s->entries);
    bw_wall_stored(s->wall, &s->cells, s->held, jacobian ? s->slopes : NULL);
    subtract(s->x, s->target, a, rate, s->held, s->length);
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
        const double *d = bw_blocks_size(s->factor, i, s->wall->n);
        const double water = fabs(x[2 * i + 1]);
        if (!(fabs(x[2 * i]) <= a * d[0]) || !(water <= b * d[1]) ||
            !(water <=
              LEFT_DRY * s->wall->dx[i] * s->wall->hygro[i]->dry_water))
            return false;
    }
    return true;
}

BW_ALWAYS bw_four water_at(const bw_quad *q, bw_four z)
{
    const bw_four x = bw_hygro_place(q->per_z, z);
    const bw_index i = bw_hygro_row_of(x);
    const bw_four f = x - __builtin_convertvector(i, bw_four);
    if (bw_four_equal(i, q->found.store))
        return bw_four_cubic(&q->found.water, f);
    const bw_hygro_row *row[4];
    for (size_t k = 0; k < 4; k++)
        row[k] = &q->hygro[k]->row[i[k]];
    const bw_sixteen water = BW_ROWS(row, water);
    return bw_four_cubic(&water, f);
}

/* The solution where the equations were taken as straight from the last v to
 * this one, x further on, has
 *
 *   M + M' x = target + a (F + F' x)
 *
 * and what is carried on is the right side: sums stay exact. False if M itself
 * has bent too much on the way for that: then what a cell holds would not be
 * what is carried. */
BW_WIDE static bool straight(bw_solver *s, double a, double share,
                             double *restrict rate)
{
    const size_t n = s->wall->n;
    const double per_a = 1 / a;
    const double u = share * s->tolerance_theta, w = share * s->tolerance_z;
    bw_which fine = {-1, -1, -1, -1};
    for (size_t i = 0; i < n; i += 4) {
        bw_quad *c = &s->cells.quad[i / 4];
        c->water = water_at(c, bw_four_second(&s->v[2 * i]));
        const double *x = &s->x[2 * i], *held = &s->held[2 * i];
        const double *target = &s->target[2 * i];
        const bw_four theta = bw_four_first(x), z = bw_four_second(x);
        const bw_four heat = c->dx * (c->capacity + BW_WATER_HEAT * c->water) *
                             bw_four_first(&s->v[2 * i]);
        const bw_four q = bw_four_first(held) + c->heat_t * theta +
                          c->heat_z * z;
        const bw_four g = bw_four_second(held) + c->held_z * z;
        const bw_four off = bw_four_size(c->dx * c->water - g);
        fine &= bw_four_size(heat - q) <= u * c->heat_t;
        fine &= off <= w * c->held_z;
        fine &= off <= LEFT_DRY * c->dry;
        bw_four_in_turn(&rate[2 * i], (q - bw_four_first(target)) * per_a,
                        (g - bw_four_second(target)) * per_a, 4);
    }
    return fine[0] & fine[1] & fine[2] & fine[3];
}

/* The crossings, too, as the matrix continues them. */
static void continue_crossings(const bw_solver *s, double *crossing)
{
    for (size_t k = 0; k < s->entries.count; k++) {
        const bw_entry *e = &s->entries.entry[k];
        const double *d = &s->x[2 * e->cell];
        crossing[e->heat] += e->slope[0] * d[0] + e->slope[1] * d[1];
        crossing[e->water] += e->slope[2] * d[0] + e->slope[3] * d[1];
    }
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
    const reach enough = {share * s->tolerance_theta, share * s->tolerance_z};
    bool stale = !s->factored;
    double last = HUGE_VAL;
    memset(s->last, 0, s->length * sizeof *s->last);
    residual(s, a, edge, rate, crossing, stale);
    for (int k = 0; k < MOST_ITERATIONS; k++) {
        const bool fresh = stale;
        if (fresh && !new_matrix(s, a, edge, k == 0))
            return false;
        bw_blocks_solve(s->factor, s->x, s->wall->n);
        bool whole = true;
        const reach most = move(s->v, s->x, s->last, s->length, enough, &whole);
        const double size = most.theta / s->tolerance_theta +
                            most.z / s->tolerance_z;
        s->iterations++;
        s->bent += bend_of(most);
        if (!isfinite(size))
            return false;
        if (!s->polish && whole &&
            size * contraction(s, k, fresh, size, last) <= share &&
            straight(s, a, share, rate)) {
            continue_crossings(s, crossing);
            s->linear = true;
            return true;
        }
        stale = s->polish || size > CONTRACTS * last;
        last = size;
        residual(s, a, edge, rate, crossing, false);
        if (is_small(s, share) ||
            (s->polish && k > POLISHED_ENOUGH && is_small(s, 1e-4)))
            return true;
    }
    return false;
}
