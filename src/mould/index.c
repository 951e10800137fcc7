/* Mould index M, 0 (none) .. 6 (covered).
 *
 * Growth, while 0 < T <= 50 degC and RH >= RH_crit [RH in %]:
 *   dM/dt = k1 k2 / (7 t_m)  per day
 *   t_m   = exp(-0.68 ln T - 13.9 ln RH + 0.14 W - 0.33 SQ + 66.02)  weeks
 *   k2    = max(0, 1 - exp(2.3 (M - M_max)))
 *   M_max = A + B r - C r^2,  r = (RH_crit - RH)/(RH_crit - 100)
 *   RH_crit = max(RH_min, -0.00267 T^3 + 0.160 T^2 - 3.13 T + 100), RH_min
 *   above 20 degC
 * Hukka & Viitanen 1999; k1, A, B, C, RH_min by class of Ojanen et al. 2010
 * [from memory, high confidence].
 *
 * Decline, otherwise, by hours since growth was last possible:
 *   C_mat times -0.032 per day to 6 h, 0 to 24 h, -0.016 per day after
 * Hukka & Viitanen 1999 [from memory, high confidence].
 *
 * Choices: SQ = 0 and W = 0 for every class (whether W is 1 outside the very
 * sensitive class is not certain; 0 is the faster growth by 15 %). C_mat is
 * the caller's: rule.c has the pairs of decline and limit.
 *
 * Invariants: 0 <= M; growth never carries M over M_max; one long step equals
 * many short ones, since both laws are integrated exactly: with
 * u = exp(2.3 (M_max - M)), growth is du/dt = -2.3 rate (u - 1). */

#include "growth.h"

#include <assert.h>
#include <math.h>

typedef struct class_data {
    double k1_below_one, k1_above_one;
    double a, b, c;
    double rh_min; /* % */
} class_data;

static const class_data classes[] = {
    [BW_MOULD_VERY_SENSITIVE] = {1.000, 2.000, 1.0, 7.0, 2.0, 80.0},
    [BW_MOULD_SENSITIVE] = {0.578, 0.386, 0.3, 6.0, 1.0, 80.0},
    [BW_MOULD_MEDIUM_RESISTANT] = {0.072, 0.097, 0.0, 5.0, 1.5, 85.0},
    [BW_MOULD_RESISTANT] = {0.033, 0.014, 0.0, 3.0, 1.0, 85.0},
};

static const double growth_below = 50.0; /* degC */
static const double fast_decline = 0.032 / 24.0, slow_decline = 0.016 / 24.0;
static const double pause_from = 6.0, pause_to = 24.0; /* h */

/* RH_crit in percent; 100 where nothing grows. */
static double critical_percent(const class_data *m, double theta)
{
    if (!(theta > 0.0) || theta > growth_below)
        return 100.0;
    double line = m->rh_min;
    if (theta <= 20.0)
        line = ((-0.00267 * theta + 0.160) * theta - 3.13) * theta + 100.0;
    return fmax(line, m->rh_min);
}

bool bw_mould_growth_of(bw_mould_growth *growth, bw_mould_class mould_class,
                        double theta, double phi)
{
    const class_data *m = &classes[mould_class];
    double rh = 100.0 * fmin(phi, 1.0);
    double critical = critical_percent(m, theta);
    if (critical >= 100.0 || rh < critical)
        return false;
    double r = (rh - critical) / (100.0 - critical);
    double weeks = exp(-0.68 * log(theta) - 13.9 * log(rh) + 66.02);
    double rate = 1.0 / (weeks * 7.0 * 24.0);
    growth->m_max = m->a + m->b * r - m->c * r * r;
    growth->below_one = m->k1_below_one * rate;
    growth->above_one = m->k1_above_one * rate;
    return true;
}

/* Growth at a constant rate [1/h] towards m_max for `hours`; stops at
 * m_stop. Returns the hours used and moves *index. */
static double grow(double *index, double rate, double m_max, double m_stop,
                   double hours)
{
    const double steepness = BW_MOULD_STEEPNESS;
    double excess = expm1(steepness * (m_max - *index));
    assert(rate > 0.0);
    if (excess <= 0.0)
        return hours;
    double used = hours;
    if (m_stop < m_max) {
        double left = expm1(steepness * (m_max - m_stop));
        double needed = log(excess / left) / (steepness * rate);
        if (needed <= hours) {
            *index = m_stop;
            return needed;
        }
    }
    excess *= exp(-steepness * rate * used);
    *index = m_max - log1p(excess) / steepness;
    return used;
}

/* Hours of [from, to] that lie in [begin, end]. */
static double overlap(double from, double to, double begin, double end)
{
    return fmax(0.0, fmin(to, end) - fmax(from, begin));
}

double bw_mould_drop(double dry_hours, double hours)
{
    double from = dry_hours, to = from + hours;
    return fast_decline * overlap(from, to, 0.0, pause_from) +
           slow_decline * overlap(from, to, pause_to, HUGE_VAL);
}

void bw_mould_advance(bw_mould_state *state, bw_mould_class mould_class,
                      double decline, double theta, double phi, double hours)
{
    bw_mould_growth growth;
    assert(decline > 0.0);
    if (!bw_mould_growth_of(&growth, mould_class, theta, phi)) {
        double drop = decline * bw_mould_drop(state->dry_hours, hours);
        state->index = fmax(0.0, state->index - drop);
        state->dry_hours += hours;
        return;
    }
    state->dry_hours = 0.0;
    double left = hours;
    if (state->index < 1.0)
        left -= grow(&state->index, growth.below_one, growth.m_max, 1.0, left);
    if (left > 0.0)
        grow(&state->index, growth.above_one, growth.m_max, HUGE_VAL, left);
}

void bw_mould_step(bw_mould_state *state, bw_mould_class mould_class,
                   double theta, double phi, double hours)
{
    const double decline = bw_mould_rule_by_class()->decline[mould_class];
    bw_mould_advance(state, mould_class, decline, theta, phi, hours);
}

double bw_mould_critical_rh(bw_mould_class mould_class, double theta)
{
    return critical_percent(&classes[mould_class], theta) / 100.0;
}
