/* Mass loss of pine sapwood by brown rot, T in degC, RH in %:
 *
 *   t_crit = 30 d (2.3 T + 0.035 RH - 0.024 T RH)/(-42.9 + 0.14 T + 0.45 RH)
 *   d alpha/dt = 1/t_crit  while 0 < T <= 30, RH >= 95 and t_crit > 0
 *              = -1/(two years) otherwise, 0 <= alpha <= 1
 *   d ML/dt = -5.96e-2 + 1.96e-4 T + 6.25e-4 RH  % per h, not negative,
 *             while alpha = 1, T > 0 and RH >= 95
 *
 * Viitanen, Toratti, Makkonen et al. 2010 [from memory, form high, digits
 * medium confidence].
 *
 * Choices: above 30 degC alpha neither falls nor rises while RH >= 95, since
 * the fit ends there and warmth is no drought [estimate]; a step in which
 * alpha reaches 1 is divided there, so that a long step is many short ones. */

#include <assert.h>
#include <math.h>

#include "bothways/decay.h"

static const double damp = 95.0;       /* % RH */
static const double cold = 0.0;        /* degC */
static const double fit_to = 30.0;     /* degC */
static const double month = 30.0 * 24; /* h */
static const double recovery = 17520;  /* h, two years */

double bw_decay_activation_hours(double theta, double phi)
{
    const double rh = 100.0 * fmin(phi, 1.0);
    if (theta <= cold || theta > fit_to || rh < damp)
        return HUGE_VAL;
    const double below = -42.9 + 0.14 * theta + 0.45 * rh;
    const double above = 2.3 * theta + 0.035 * rh - 0.024 * theta * rh;
    return below > 0.0 && above > 0.0 ? month * above / below : HUGE_VAL;
}

/* % per hour, of activated wood */
static double loss_rate(double theta, double phi)
{
    const double rh = 100.0 * fmin(phi, 1.0);
    if (theta <= cold || rh < damp)
        return 0.0;
    return fmax(0.0, -5.96e-2 + 1.96e-4 * theta + 6.25e-4 * rh);
}

void bw_decay_step(bw_decay_state *state, double theta, double phi,
                   double hours)
{
    const double needed = bw_decay_activation_hours(theta, phi);
    const bool warm_and_damp = theta > fit_to && 100.0 * phi >= damp;
    if (!isfinite(needed) && !warm_and_damp) {
        state->activation = fmax(0.0, state->activation - hours / recovery);
        return;
    }
    double left = hours;
    if (state->activation < 1.0) {
        const double wait = (1.0 - state->activation) * needed;
        if (wait > hours) {
            if (!warm_and_damp)
                state->activation += hours / needed;
            return;
        }
        state->activation = 1.0;
        left -= wait;
    }
    state->mass_loss = fmin(100.0,
                            state->mass_loss + left * loss_rate(theta, phi));
}

bw_decay_result bw_decay_years(const double *theta, const double *phi,
                               size_t hours, int years)
{
    bw_decay_result r = {.first_loss_year = -1};
    bw_decay_state s = {0};
    assert(years >= 1);
    for (int year = 1; year <= years; year++) {
        for (size_t h = 0; h < hours; h++) {
            bw_decay_step(&s, theta[h], phi[h], 1.0);
            if (s.activation > r.highest_activation) {
                r.highest_activation = s.activation;
                r.highest_hour = h;
            }
        }
        if (s.mass_loss > 0.0 && r.first_loss_year < 0)
            r.first_loss_year = year;
    }
    r.mass_loss = s.mass_loss;
    return r;
}
