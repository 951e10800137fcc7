#include "mesh.h"

#include <math.h>

static const double STEEPEST = BW_MESH_GROWTH + 0.01;
enum { LEAST_HALF = 2, MOST_HALF = 20, MOST_EVEN = 26 };

static double half_of(double finest, double ratio, int count)
{
    double sum = 0, d = finest;
    for (int i = 0; i < count; i++) {
        sum += d;
        d *= ratio;
    }
    return sum;
}

/* The ratio with which `count` cells fill `half` exactly. */
static double ratio_of(double half, double finest, int count)
{
    double low = 0.5, high = STEEPEST;
    for (int i = 0; i < 60; i++) {
        const double mid = 0.5 * (low + high);
        if (half_of(finest, mid, count) < half)
            low = mid;
        else
            high = mid;
    }
    return 0.5 * (low + high);
}

static int count_of(double half, double finest, double growth)
{
    const int most = growth < BW_MESH_GROWTH ? MOST_EVEN : MOST_HALF;
    int count = LEAST_HALF;
    while (count < most && half_of(finest, growth, count) < half)
        count++;
    return count;
}

/* Cells of one half from its face on: dx[0], dx[step], dx[2 step]... */
static void lay_half(double half, double finest, int count, int parts,
                     double *dx, ptrdiff_t step)
{
    const double ratio = ratio_of(half, finest, count);
    double d = finest * half / half_of(finest, ratio, count) / parts;
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < parts; k++)
            dx[step * (i * parts + k)] = d;
        d *= ratio;
    }
}

size_t bw_mesh_layer(double thickness, double outer, double inner,
                     double growth, int parts, double *dx)
{
    const double half = 0.5 * thickness;
    outer = fmin(outer, half / LEAST_HALF);
    inner = fmin(inner, half / LEAST_HALF);
    const int count_outer = count_of(half, outer, growth);
    const int count_inner = count_of(half, inner, BW_MESH_GROWTH);
    const size_t total = (size_t)(count_outer + count_inner) * (size_t)parts;
    if (dx == NULL)
        return total;
    lay_half(half, outer, count_outer, parts, dx, 1);
    lay_half(half, inner, count_inner, parts, dx + total - 1, -1);
    return total;
}
