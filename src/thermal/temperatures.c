#include "temperatures.h"

/* theta_j = theta_e + q (R_se + R_1 + ... + R_j), q = (theta_i - theta_e) /
 * R_tot: steady, one-dimensional (ISO 13788, from memory). */

double bw_slabs_resistance(const bw_section *section)
{
    double sum = 0.0;
    for (size_t i = 0; i < section->slab_count; i++)
        sum += section->slab[i].resistance;
    return sum;
}

void bw_temperature_profile(double *theta, const bw_section *section,
                            double theta_e, double theta_i)
{
    double total = section->outer_resistance + bw_slabs_resistance(section) +
                   section->inner_resistance;
    double flow = total > 0.0 ? (theta_i - theta_e) / total : 0.0;
    double r = section->outer_resistance;
    theta[0] = theta_e + flow * r;
    for (size_t i = 0; i < section->slab_count; i++) {
        r += section->slab[i].resistance;
        theta[i + 1] = theta_e + flow * r;
    }
}
