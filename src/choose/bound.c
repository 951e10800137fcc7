#include "bound.h"

#include <math.h>

/* The bound of Clopper & Pearson 1934 [M-hi]: the share p at which so few
 * failures would be seen with a probability of 1 - confidence,
 *
 *   sum_{i=0}^{k} C(n,i) p^i (1-p)^(n-i) = 1 - confidence,
 *
 * summed in logarithms, halved between k/n and 1. Student's t with 7 degrees of
 * freedom has a closed form (Abramowitz & Stegun 26.7.3 [M-hi]): with
 * tan a = t / sqrt(7)
 *
 *   P(|T| < t) = 2/pi (a + sin a (cos a + 2/3 cos^3 a + 8/15 cos^5 a)).
 *
 * Invariant: the bound never lies below the share seen. */

enum { HALVINGS = 100 };

static const double PI = 3.14159265358979323846;

/* Probability of at most k of n at a share within 0..1. */
static double at_most(size_t k, size_t n, double p)
{
    double term = (double)n * log1p(-p), most = term, sum = 1.0;
    for (size_t i = 0; i < k; i++) {
        term += log((double)(n - i) / (double)(i + 1)) + log(p) - log1p(-p);
        if (term > most) {
            sum = sum * exp(most - term) + 1.0;
            most = term;
        } else {
            sum += exp(term - most);
        }
    }
    return exp(most) * sum;
}

double bw_share_bound(size_t failed, size_t count, double confidence)
{
    if (failed >= count)
        return 1.0;
    double low = (double)failed / (double)count, high = 1.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double p = 0.5 * (low + high);
        if (p > 0.0 && p < 1.0 && at_most(failed, count, p) > 1.0 - confidence)
            low = p;
        else
            high = p;
    }
    return high;
}

static double within(double t)
{
    const double a = atan(t / sqrt(7.0)), c = cos(a);
    return 2.0 / PI *
           (a + sin(a) * c * (1.0 + c * c * (2.0 / 3.0 + c * c * 8.0 / 15.0)));
}

double bw_t7(double share)
{
    double low = 0.0, high = 1e6;
    for (int i = 0; i < HALVINGS; i++) {
        const double t = 0.5 * (low + high);
        if (0.5 * (1.0 + within(t)) < share)
            low = t;
        else
            high = t;
    }
    return high;
}
