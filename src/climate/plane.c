/* Irradiance on a plane from beam and diffuse.
 *
 * Sky: R. Perez, P. Ineichen, R. Seals, J. Michalsky, R. Stewart, "Modeling
 * daylight availability and irradiance components from direct and global
 * irradiance", Solar Energy 44 (1990) 271-289: isotropic dome, disc around the
 * sun, band at the horizon; coefficients of its table for irradiance, all
 * sites, from memory (high confidence; checked in the tests against figures
 * made with another implementation). Air mass: F. Kasten, A. Young, Applied
 * Optics 28 (1989) 4735-4738, from memory, high confidence. Ground: an
 * endless level plane that scatters evenly.
 *
 * Invariant: never negative; zero where beam and diffuse are zero. */

#include "climate_make.h"

#include <math.h>

#include "bothways/constants.h"

enum { BINS = 8 };

/* Upper limits of the sky clearness bins. */
static const double CLEARNESS[BINS - 1] = {1.065, 1.230, 1.500, 1.950,
                                           2.800, 4.500, 6.200};

/* F11 F12 F13 (disc) F21 F22 F23 (horizon) by bin. */
static const double COEFFICIENT[BINS][6] = {
    {-0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
    {0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
    {0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
    {0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
    {0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
    {1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
    {1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
    {0.678, -0.327, -0.250, 0.156, -1.377, 0.251},
};
static const double KAPPA = 1.041; /* per cubic radian */

/* Below this elevation the disc's brightness is no longer divided by the sine
 * of the elevation (the authors' 85 degrees from the zenith). */
static const double LOWEST_DISC = 5.0;

double bw_air_mass(double elevation)
{
    double above = elevation > 0.0 ? elevation : 0.0;
    return 1.0 /
           (sin(above * BW_RADIANS) + 0.50572 * pow(above + 6.07995, -1.6364));
}

static double sky_diffuse(bw_sun sun, double direct, double diffuse,
                          double cos_incidence, double tilt)
{
    double dome = 0.5 * (1.0 + cos(tilt * BW_RADIANS));
    if (sun.elevation <= 0.0)
        return diffuse * dome; /* twilight: no disc to be near */
    double zenith = (90.0 - sun.elevation) * BW_RADIANS;
    double cube = KAPPA * zenith * zenith * zenith;
    double clearness = ((diffuse + direct) / diffuse + cube) / (1.0 + cube);
    int bin = 0;
    while (bin < BINS - 1 && clearness >= CLEARNESS[bin])
        bin++;
    const double *f = COEFFICIENT[bin];
    double brightness = diffuse * bw_air_mass(sun.elevation) /
                        sun.extraterrestrial;
    double disc = f[0] + f[1] * brightness + f[2] * zenith;
    double horizon = f[3] + f[4] * brightness + f[5] * zenith;
    if (disc < 0.0)
        disc = 0.0;
    double a = cos_incidence > 0.0 ? cos_incidence : 0.0;
    double b = sin(fmax(sun.elevation, LOWEST_DISC) * BW_RADIANS);
    double part = (1.0 - disc) * dome + disc * a / b +
                  horizon * sin(tilt * BW_RADIANS);
    return part > 0.0 ? diffuse * part : 0.0;
}

double bw_plane_irradiance(bw_sun sun, double direct_normal,
                           double diffuse_horizontal, double azimuth,
                           double tilt, double albedo)
{
    double sin_elevation = sin(sun.elevation * BW_RADIANS);
    double cos_incidence = sin_elevation * cos(tilt * BW_RADIANS) +
                           cos(sun.elevation * BW_RADIANS) *
                               sin(tilt * BW_RADIANS) *
                               cos((sun.azimuth - azimuth) * BW_RADIANS);
    double beam = 0.0, global = diffuse_horizontal;
    if (sun.elevation > 0.0 && direct_normal > 0.0) {
        beam = direct_normal * fmax(cos_incidence, 0.0);
        global += direct_normal * sin_elevation;
    }
    double sky = 0.0;
    if (diffuse_horizontal > 0.0)
        sky = sky_diffuse(sun, fmax(direct_normal, 0.0), diffuse_horizontal,
                          cos_incidence, tilt);
    double ground = 0.5 * albedo * fmax(global, 0.0) *
                    (1.0 - cos(tilt * BW_RADIANS));
    return beam + sky + ground;
}
