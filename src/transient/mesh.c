#include "mesh.h"

#include <math.h>

#define GROWTH 1.5
enum { LEAST_HALF = 2, MOST_HALF = 20 };

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
    double low = 0.5, high = GROWTH + 0.01;
    for (int i = 0; i < 60; i++) {
        const double mid = 0.5 * (low + high);
        if (half_of(finest, mid, count) < half)
            low = mid;
        else
            high = mid;
    }
    return 0.5 * (low + high);
}

size_t bw_mesh_layer(double thickness, double finest, int parts, double *dx)
{
    const double half = 0.5 * thickness;
    finest = fmin(finest, half / LEAST_HALF);
    int count = LEAST_HALF;
    while (count < MOST_HALF && half_of(finest, GROWTH, count) < half)
        count++;
    const size_t total = (size_t)2 * (size_t)count * (size_t)parts;
    if (dx == NULL)
        return total;
    const double ratio = ratio_of(half, finest, count);
    const double scale = half / half_of(finest, ratio, count);
    double d = finest * scale / parts;
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < parts; k++)
            dx[i * parts + k] = dx[total - 1 - (size_t)(i * parts + k)] = d;
        d *= ratio;
    }
    return total;
}
