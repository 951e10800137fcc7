#include "newton.h"

#include <math.h>
#include <string.h>

#include "fail.h"

static const double GAMMA = 0.58578643762690495; /* 2 - sqrt 2 */
static const double D = 0.29289321881345248;     /* gamma/2 */
static const double W = 0.35355339059327376;     /* sqrt(2)/4 */

static const double DEPTH = 0.02;    /* m */
static const double SHORTEST = 1e-4; /* s */

bool bw_solver_init(bw_solver *s, const bw_wall *wall, bw_arena *arena)
{
    const size_t m = (2 * wall->n + 7) / 8 * 8;
    double *d = BW_NEW(arena, double, 14 * m);
    memset(s, 0, sizeof *s);
    s->wall = wall;
    s->length = m;
    s->block = BW_NEW(arena, bw_block, wall->n);
    s->factor = BW_NEW(arena, bw_factor, wall->n);
    s->entries.entry = BW_NEW(arena, bw_entry,
                              BW_MOST_ENTRIES + wall->vent_count);
    s->slopes = bw_arena_get(arena, wall->n, sizeof *s->slopes);
    if (d == NULL || !bw_cells_init(&s->cells, wall, arena) ||
        s->block == NULL || s->factor == NULL || s->slopes == NULL ||
        s->entries.entry == NULL)
        return false;
    double **part[] = {&s->v,      &s->stored,  &s->slope,  &s->v0,    &s->v1,
                       &s->target, &s->rate0,   &s->rate1,  &s->rate2, &s->x,
                       &s->held,   &s->scratch, &s->weight, &s->last};
    for (size_t i = 0; i < sizeof part / sizeof *part; i++)
        *part[i] = d + i * m;
    for (size_t i = 0; i < 2 * wall->n; i++)
        s->weight[i] = wall->dx[i / 2];
    s->tolerance_theta = 0.01;
    s->tolerance_z = 0.0005;
    return true;
}

void bw_solver_start(bw_solver *s, const double *v, double t)
{
    memcpy(s->v, v, 2 * s->wall->n * sizeof *v);
    memset(s->slope, 0, 2 * s->wall->n * sizeof *v);
    bw_cells_at(s->wall, s->v, &s->cells, false);
    bw_wall_stored(s->wall, &s->cells, s->stored, NULL);
    s->t = t;
    memset(&s->edge, 0, sizeof s->edge);
    s->h = s->h_first = 60;
}

/* Error x in units of the tolerances: the root of their squares summed over
 * the wall per DEPTH. A thin surface cell that follows a jump of the
 * sun within seconds counts by what it holds, as it does for its neighbours. */
BW_WIDE static double error_of(const bw_solver *s, const double *x)
{
    const double a = 1 / s->tolerance_theta, b = 1 / s->tolerance_z;
    const bw_four per = {a, b, a, b};
    bw_four sum = {0, 0, 0, 0};
    for (size_t i = 0; i < s->length; i += 4) {
        const bw_four e = bw_four_get(&x[i]) * per;
        sum += bw_four_get(&s->weight[i]) * e * e;
    }
    return sqrt(((sum[0] + sum[1]) + (sum[2] + sum[3])) / DEPTH);
}

/* What the middle stage is to see of a condition for the step to take in its
 * mean exactly, where it is a parabola: Simpson's rule gives the mean. */
static double stage_value(double first, double half, double last)
{
    return ((first + 4 * half + last) / 6 - W * first - D * last) / W;
}

/* The first stage: its right side, and its guess along the last slope. */
BW_WIDE static void begin_first(bw_solver *s, double h)
{
    const double a = D * h, b = GAMMA * h;
    for (size_t i = 0; i < s->length; i += 4) {
        bw_four_put(&s->target[i],
                    bw_four_get(&s->stored[i]) + a * bw_four_get(&s->rate0[i]));
        bw_four_put(&s->v[i],
                    bw_four_get(&s->v0[i]) + b * bw_four_get(&s->slope[i]));
    }
}

/* The second: its guess straight through the first. */
BW_WIDE static void begin_second(bw_solver *s, double h)
{
    const double w = W * h, more = 1 / GAMMA;
    for (size_t i = 0; i < s->length; i += 4) {
        const bw_four now = bw_four_get(&s->v[i]), was = bw_four_get(&s->v0[i]);
        bw_four_put(&s->target[i], bw_four_get(&s->stored[i]) +
                                       w * (bw_four_get(&s->rate0[i]) +
                                            bw_four_get(&s->rate1[i])));
        bw_four_put(&s->v1[i], now);
        bw_four_put(&s->v[i], was + (now - was) * more);
    }
}

/* What the embedded method of third order differs by, to be filtered. */
BW_WIDE static void embed(bw_solver *s, double h)
{
    const double a = h / 3 * (4 * W - 1), b = h / 3, c = h / 3 * 2 * D;
    for (size_t i = 0; i < s->length; i += 4)
        bw_four_put(&s->x[i], a * bw_four_get(&s->rate0[i]) -
                                  b * bw_four_get(&s->rate1[i]) +
                                  c * bw_four_get(&s->rate2[i]));
}

/* One step of h; false if Newton's method failed. error in tolerances. */
static bool try_step(bw_solver *s, double h, bw_edge_at *edge_at,
                     const void *ctx, double crossing[3][BW_X_COUNT],
                     double *error)
{
    const double a = D * h;
    bw_edge edge, half, last;
    edge_at(ctx, s->t + GAMMA * h, &edge);
    edge_at(ctx, s->t + 0.5 * h, &half);
    edge_at(ctx, s->t + h, &last);
    edge.gain = stage_value(s->edge.gain, half.gain, last.gain);
    edge.h_e = stage_value(s->edge.h_e, half.h_e, last.h_e);
    edge.beta_e = stage_value(s->edge.beta_e, half.beta_e, last.beta_e);
    begin_first(s, h);
    s->factored = false;
    if (!bw_newton(s, a, &edge, s->rate1, crossing[1]))
        return false;
    begin_second(s, h);
    s->bent += bw_newton_bend(s->v1, s->v, s->length);
    s->factored = true;
    if (!bw_newton(s, a, &last, s->rate2, crossing[2]))
        return false;
    embed(s, h);
    bw_blocks_solve(s->factor, s->x, s->wall->n);
    *error = error_of(s, s->x);
    return isfinite(*error);
}

/* M is carried on; the slope with which the step ended is the next guess. */
BW_WIDE static void carry(bw_solver *s, double h)
{
    const double w = W * h, d = D * h, per = 1 / ((1 - GAMMA) * h);
    for (size_t i = 0; i < s->length; i += 4) {
        bw_four_put(&s->stored[i], bw_four_get(&s->stored[i]) +
                                       w * (bw_four_get(&s->rate0[i]) +
                                            bw_four_get(&s->rate1[i])) +
                                       d * bw_four_get(&s->rate2[i]));
        bw_four_put(&s->slope[i],
                    (bw_four_get(&s->v[i]) - bw_four_get(&s->v1[i])) * per);
    }
}

/* The step is taken. */
static void accept(bw_solver *s, double h, double crossing[3][BW_X_COUNT],
                   double *sum)
{
    carry(s, h);
    double *rate = s->rate0;
    s->rate0 = s->rate2;
    s->rate2 = rate;
    memcpy(s->crossing, crossing[2], sizeof s->crossing);
    for (int k = 0; k < BW_X_COUNT; k++)
        sum[k] += h *
                  (W * (crossing[0][k] + crossing[1][k]) + D * crossing[2][k]);
    s->t += h;
    s->steps++;
}

/* SAFETY below TO_END: a step that was rejected for its error is at most
 * SAFETY of itself when tried again, so never stretched to the same end. */
enum { SAFETY = 80, TO_END = 95 }; /* % */
_Static_assert(SAFETY < TO_END, "a rejected step must get shorter");

static double next_step(double h, double error)
{
    const double factor = SAFETY / 100.0 / cbrt(fmax(error, 1e-6));
    return h * fmin(fmax(factor, 0.2), 5);
}

/* The next step: what the error allows, cut to end where `end` is; the first
 * after a break of the conditions as the first after the last break. */
static double step_towards(const bw_solver *s, double end, bool first)
{
    const double left = end - s->t;
    const double h = first ? fmin(s->h, s->h_first) : s->h;
    if (h >= TO_END / 100.0 * left)
        return left;
    return left < 2 * h ? 0.5 * left : h;
}

static bool differ(double a, double b)
{
    return fabs(a - b) > 1e-6 * (fabs(a) + fabs(b));
}

/* Whether the conditions jump so that the next step has to be short; room air
 * in a leak, which changes little from hour to hour, does not ask for that. */
static bool is_break(const bw_edge *a, const bw_edge *b)
{
    return a->redistributes != b->redistributes ||
           differ(a->theta_e, b->theta_e) || differ(a->p_e, b->p_e) ||
           differ(a->theta_i, b->theta_i) || differ(a->p_i, b->p_i) ||
           differ(a->h_e, b->h_e) || differ(a->beta_e, b->beta_e) ||
           differ(a->gain / b->h_e, b->gain / b->h_e) ||
           differ(a->rain, b->rain) || differ(a->rain_leak, b->rain_leak);
}

/* F at the start of a run of steps; of later ones it is that of the last. The
 * cells are those of v, of the diffusivity before. */
static void rates_here(bw_solver *s, bool redistributed)
{
    if (s->edge.redistributes != redistributed)
        bw_cells_under(s->wall, &s->edge, s->v, &s->cells, false);
    bw_wall_rates(s->wall, &s->edge, s->v, &s->cells, s->rate0, s->crossing,
                  NULL);
}

bw_status bw_solver_advance(bw_solver *s, double end, bw_edge_at *edge_at,
                            const void *ctx, double sum[BW_X_COUNT],
                            bw_error *err)
{
    const size_t size = 2 * s->wall->n * sizeof *s->v;
    double crossing[3][BW_X_COUNT];
    bw_edge before = s->edge;
    edge_at(ctx, s->t, &s->edge);
    bool first = is_break(&before, &s->edge);
    if (first || differ(before.air_flow, s->edge.air_flow))
        rates_here(s, before.redistributes);
    while (s->t < end) {
        memcpy(s->v0, s->v, size);
        memcpy(crossing[0], s->crossing, sizeof s->crossing);
        for (;;) {
            const double h = step_towards(s, end, first);
            double error = 0;
            const bool solved = try_step(s, h, edge_at, ctx, crossing, &error);
            if (solved && error <= 1) {
                const bool last = h >= end - s->t;
                accept(s, h, crossing, sum);
                if (last)
                    s->t = end;
                edge_at(ctx, s->t, &s->edge);
                if (first)
                    s->h_first = next_step(h, error);
                first = false;
                s->h = last && h < 0.5 * s->h ? s->h : next_step(h, error);
                break;
            }
            s->rejected++;
            s->h = solved ? next_step(h, error) : 0.25 * h;
            s->h_first = fmin(s->h_first, s->h);
            if (!solved)
                memset(s->slope, 0, size);
            if (!(s->h > SHORTEST))
                return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                               "the hourly calculation could not meet its "
                               "tolerance at hour %.2f of the run, however "
                               "short the step",
                               s->t / 3600);
        }
    }
    if (s->linear) {
        bw_cells_under(s->wall, &s->edge, s->v, &s->cells, false);
        s->linear = false;
    }
    return BW_OK;
}
