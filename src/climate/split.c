/* Irradiance on the horizontal parted into beam and sky.
 *
 * global = direct sin(elevation) + diffuse; the diffuse part of global by
 * D. Erbs, S. Klein, J. Duffie, Solar Energy 28 (1982) 293-302, from memory,
 * high confidence.
 *
 * Invariant: nothing negative, no beam beyond that on top of the atmosphere or
 * with the sun's centre below the horizon; what no beam can carry is diffuse,
 * so that the sum on the horizontal stays. */

#include <math.h>

#include "bothways/constants.h"
#include "split.h"

double bw_diffuse_part(double clearness)
{
    const double k = clearness;
    if (k <= 0.22)
        return 1.0 - 0.09 * k;
    if (k <= 0.80)
        return 0.9511 +
               k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
    return 0.165;
}

static double height(bw_sun sun)
{
    return sun.elevation > 0.0 ? sin(sun.elevation * BW_RADIANS) : 0.0;
}

void bw_split_beam(double *direct, double *diffuse, bw_sun sun, double beam,
                   double sky)
{
    const double up = height(sun);
    *direct = up > 0.0 ? fmin(beam / up, sun.extraterrestrial) : 0.0;
    *diffuse = sky + beam - *direct * up;
}

void bw_split_global(double *direct, double *diffuse, bw_sun sun, double global)
{
    const double on_top = sun.extraterrestrial * height(sun);
    const double sky = on_top > 0.0 ? global * bw_diffuse_part(global / on_top)
                                    : global;
    bw_split_beam(direct, diffuse, sun, global - sky, sky);
}
