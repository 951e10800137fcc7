/* An independent solver of the monthly method: projected relaxation of the
 * obstacle problem, on a grid and with formulas of its own. */

#include <math.h>
#include <stdlib.h>

#include "random_wall.h"
#include "suite.h"

enum { NODES_MOST = 200 };

typedef struct relaxed {
    size_t nodes;
    double s[NODES_MOST], psat[NODES_MOST], p[NODES_MOST];
    double mass[NODES_MOST];
} relaxed;

/* Saturation pressure typed from ISO 13788 [from memory, high confidence]. */
static double saturation(double theta)
{
    return theta < 0 ? 610.5 * exp(21.875 * theta / (265.5 + theta))
                     : 610.5 * exp(17.269 * theta / (237.3 + theta));
}

static void cut(relaxed *x, const wall_case *wall, const bw_boundary *b)
{
    const bw_section *w = &wall->section;
    double total = w->outer_resistance + w->inner_resistance;
    for (size_t k = 0; k < w->slab_count; ++k)
        total += w->slab[k].resistance;
    double r = w->outer_resistance, s = 0;
    x->nodes = 0;
    for (size_t k = 0; k < w->slab_count; ++k) {
        int m = 1;
        while (w->slab[k].resistance / m > 0.25 * (1 + 1e-9))
            ++m;
        for (int i = k == 0 ? 0 : 1; i <= m; ++i) {
            size_t j = x->nodes++;
            x->s[j] = s + w->slab[k].sd_dry * i / m;
            double theta = b->theta_e +
                           (b->theta_i - b->theta_e) *
                               (r + w->slab[k].resistance * i / m) / total;
            x->psat[j] = saturation(theta);
        }
        r += w->slab[k].resistance;
        s += w->slab[k].sd_dry;
    }
}

/* Projected successive over-relaxation: every node takes the value that
 * balances its flows, but no more than saturation; wet ones are saturated. */
static void relax(relaxed *x, const bw_boundary *b)
{
    size_t last = x->nodes - 1;
    for (size_t j = 0; j <= last; ++j)
        x->p[j] = x->mass[j] > 0 ? x->psat[j] : fmin(x->p[j], x->psat[j]);
    x->p[0] = fmin(b->p_e, x->psat[0]);
    x->p[last] = fmin(b->p_i, x->psat[last]);
    for (int sweep = 0; sweep < 400000; ++sweep) {
        double change = 0;
        for (size_t j = 1; j < last; ++j) {
            if (x->mass[j] > 0)
                continue;
            double c = 1 / (x->s[j] - x->s[j - 1]);
            double e = 1 / (x->s[j + 1] - x->s[j]);
            double p = (c * x->p[j - 1] + e * x->p[j + 1]) / (c + e);
            p = x->p[j] + 1.7 * (p - x->p[j]);
            p = fmin(p, x->psat[j]);
            change = fmax(change, fabs(p - x->p[j]));
            x->p[j] = p;
        }
        if (change < 1e-11)
            return;
    }
    ck_abort_msg("relaxation did not settle");
}

static double rate(const relaxed *x, size_t j)
{
    return 2e-10 * ((x->p[j + 1] - x->p[j]) / (x->s[j + 1] - x->s[j]) -
                    (x->p[j] - x->p[j - 1]) / (x->s[j] - x->s[j - 1]));
}

START_TEST(first_month_agrees_with_projected_relaxation)
{
    dice d = {161803};
    int compared = 0, planes_most = 0, inward = 0;
    for (int i = 0; i < 400; ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        random_wall(&d, &wall, -1, 0.7);
        random_climate(&d, b);
        if (wall.section.slab_count == 1)
            continue;
        bw_monthly_result r = run(&wall, b, NULL);
        relaxed x = {0};
        int m = r.start_month, planes = 0;
        cut(&x, &wall, &b[m]);
        if (x.nodes > 40) { /* slow to settle */
            bw_monthly_free(&r);
            continue;
        }
        relax(&x, &b[m]);
        double all = 0, ours = 0;
        for (size_t k = 0; k < r.plane_count; ++k)
            ours += r.plane[k].month[m].condensation;
        for (size_t j = 1; j + 1 < x.nodes; ++j) {
            double g = rate(&x, j) * bw_month_seconds(m);
            all += g;
            if (g > 1e-7) {
                ++planes;
                inward += b[m].theta_e > b[m].theta_i;
            }
            double here = 0; /* of the plane at this sd, if one is reported */
            for (size_t k = 0; k < r.plane_count; ++k)
                if (fabs(r.plane[k].month[m].sd_from_outside - x.s[j]) < 1e-9)
                    here = r.plane[k].month[m].condensation;
            ck_assert_double_eq_tol(here, g, 1e-6 * fmax(fabs(g), 1e-2));
        }
        ck_assert_double_eq_tol(ours, all, 1e-6 * fmax(fabs(all), 1e-2));
        compared += planes > 0;
        planes_most = planes > planes_most ? planes : planes_most;
        bw_monthly_free(&r);
    }
    ck_assert_int_gt(compared, 100);
    ck_assert_int_gt(planes_most, 3);
    ck_assert_int_gt(inward, 10);
}
END_TEST

/* One month in small equal steps: no splitting, water cut off at zero. */
static void march(relaxed *x, const wall_case *wall, const bw_boundary *b,
                  double seconds)
{
    enum { STEPS = 100 };
    cut(x, wall, b);
    for (int step = 0; step < STEPS; ++step) {
        relax(x, b);
        for (size_t j = 1; j + 1 < x->nodes; ++j)
            x->mass[j] = fmax(0, x->mass[j] + rate(x, j) * seconds / STEPS);
        for (size_t j = 1; j + 1 < x->nodes; ++j)
            if (x->mass[j] < 1e-9)
                x->mass[j] = 0;
    }
}

/* The whole year with several planes, drying out at different times, against
 * 1200 small steps; what is left of the step size is under 1 % of the peak. */
START_TEST(year_of_several_planes_agrees_with_small_steps)
{
    dice d = {602};
    int compared = 0, dried = 0;
    for (int i = 0; i < 4000 && compared < 12; ++i) {
        wall_case wall;
        bw_boundary b[BW_MONTHS];
        random_wall(&d, &wall, -1, 0.7);
        random_climate(&d, b);
        relaxed x = {0};
        cut(&x, &wall, &b[0]);
        if (wall.section.slab_count < 3 || x.nodes > 25)
            continue;
        bw_monthly_result r = run(&wall, b, NULL);
        int wet = 0;
        for (size_t k = 0; k < r.plane_count; ++k) {
            bool gone = r.plane[k].residual <= 0;
            wet += r.plane[k].peak > 0.02;
            dried += r.plane[k].peak > 0.02 && gone;
        }
        for (int n = 0; wet > 1 && n < BW_MONTHS; ++n) {
            int m = (r.start_month + n) % BW_MONTHS;
            march(&x, &wall, &b[m], bw_month_seconds(m));
            for (size_t j = 1; j + 1 < x.nodes; ++j) {
                double here = 0;
                for (size_t k = 0; k < r.plane_count; ++k)
                    if (fabs(r.plane[k].month[m].sd_from_outside - x.s[j]) <
                        1e-9)
                        here = r.plane[k].month[m].accumulated;
                ck_assert_double_eq_tol(here, x.mass[j], 0.01 * r.peak);
            }
        }
        compared += wet > 1;
        bw_monthly_free(&r);
    }
    ck_assert_int_eq(compared, 12);
    ck_assert_int_gt(dried, 6);
}
END_TEST

SUITE("relaxation", FACT(first_month_agrees_with_projected_relaxation),
      FACT(year_of_several_planes_agrees_with_small_steps))
