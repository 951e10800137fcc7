/* Counts that need no model: time of wetness of metal, ISO 9223 [from memory,
 * medium confidence]; crossings of a frost level, which no standard judges. */

#include "bothways/decay.h"

static const double wet = 0.80; /* RH, ISO 9223 */

void bw_day_means(double *mean, const double *hourly, size_t days)
{
    for (size_t d = 0; d < days; d++) {
        double sum = 0.0;
        for (size_t h = 0; h < 24; h++)
            sum += hourly[24 * d + h];
        mean[d] = sum / 24.0;
    }
}

size_t bw_wetness_hours(const double *theta, const double *phi, size_t hours)
{
    size_t count = 0;
    for (size_t h = 0; h < hours; h++)
        count += theta[h] > 0.0 && phi[h] > wet;
    return count;
}

size_t bw_frost_crossings(const double *theta, size_t hours, double level)
{
    size_t count = 0;
    for (size_t h = 0; h < hours; h++) {
        const double before = theta[h > 0 ? h - 1 : hours - 1];
        count += before > level && theta[h] <= level;
    }
    return count;
}
