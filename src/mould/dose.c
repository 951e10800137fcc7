/* Daily dose of mould, daily means T in degC and RH in %, in days of 20 degC
 * and 90 %:
 *
 *   RH > 75        D_RH = exp(15.53 ln(RH/90))
 *   60 < RH <= 75  D_RH = -2.7 + 1.1 RH/30
 *   RH <= 60       D_RH = -0.5
 *   D_T = exp(0.74 ln(T/20)) from 0.1 degC on; colder D = -0.5
 *   D = D_RH D_T if D_RH > 0, else D_RH;  the sum never falls below 0
 *
 * Thelandersson & Isaksson 2013 [from memory, medium confidence]. Choice:
 * above 30 degC, where the formula ends, the value at 30 [estimate]. */

#include <assert.h>
#include <math.h>

#include "bothways/mould.h"

static const double cold = 0.1, warm = 30.0; /* degC */
static const double recovery = -0.5;

static double humidity_dose(double rh)
{
    if (rh > 75.0)
        return exp(15.53 * log(rh / 90.0));
    if (rh > 60.0)
        return -2.7 + 1.1 * rh / 30.0;
    return recovery;
}

double bw_mould_dose_of_day(double theta, double phi)
{
    if (theta < cold)
        return recovery;
    const double dose = humidity_dose(100.0 * fmin(phi, 1.0));
    if (dose <= 0.0)
        return dose;
    return dose * exp(0.74 * log(fmin(theta, warm) / 20.0));
}

double bw_mould_dose_highest(const double *theta, const double *phi,
                             size_t days, int years)
{
    double sum = 0.0, highest = 0.0;
    assert(years >= 1);
    for (int year = 0; year < years; year++) {
        const double before = sum;
        for (size_t d = 0; d < days; d++) {
            sum = fmax(0.0, sum + bw_mould_dose_of_day(theta[d], phi[d]));
            highest = fmax(highest, sum);
        }
        if (!(sum > before))
            break; /* all years to come are like this one, or lower */
    }
    return highest;
}
