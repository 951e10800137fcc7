/* Curves by points: straight between two points, constant beyond the ends.
 *
 * The logarithmic reading takes ln y as straight, the usual way to join the
 * few published points of a humidity-variable membrane, whose sd spans two
 * decades.
 *
 * Invariant: the result lies between the y of the two neighbouring points. */

#include <assert.h>
#include <math.h>

#include "bothways/material.h"

/* The index i with x[i] <= x < x[i + 1]; x lies inside the ends. */
static size_t segment(const bw_curve *curve, double x)
{
    size_t low = 0, high = curve->count - 1;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (curve->x[middle] <= x)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* Where x lies in its segment, 0..1; *i receives the segment. */
static double share(size_t *i, const bw_curve *curve, double x)
{
    assert(curve->count >= 2);
    size_t last = curve->count - 1;
    *i = 0;
    if (!(x > curve->x[0]))
        return 0.0;
    *i = last - 1;
    if (x >= curve->x[last])
        return 1.0;
    *i = segment(curve, x);
    return (x - curve->x[*i]) / (curve->x[*i + 1] - curve->x[*i]);
}

double bw_curve_linear(const bw_curve *curve, double x)
{
    size_t i;
    double t = share(&i, curve, x);
    return (1.0 - t) * curve->y[i] + t * curve->y[i + 1];
}

double bw_curve_log(const bw_curve *curve, double x)
{
    size_t i;
    double t = share(&i, curve, x);
    if (t <= 0.0 || t >= 1.0) /* the points themselves, to the last bit */
        return curve->y[t >= 1.0 ? i + 1 : i];
    return exp((1.0 - t) * log(curve->y[i]) + t * log(curve->y[i + 1]));
}
