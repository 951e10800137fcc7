#include "exposure.h"

#include <math.h>

#define HEIGHT                                                                 \
    5.0 /* m: a wall of a house of two storeys, at half its height             \
         */
static const double STAYS = 0.7;

typedef struct terrain {
    double layer;    /* m, of the wind's boundary layer */
    double exponent; /* - */
} terrain;

/* By bw_terrain. */
static const terrain TERRAIN[] = {
    {210, 0.10}, {270, 0.14}, {370, 0.22}, {460, 0.33}};

bw_terrain bw_terrain_taken(const bw_outdoors *out)
{
    return out->has_terrain ? out->terrain : BW_TERRAIN_SUBURBAN;
}

double bw_height_taken(const bw_outdoors *out)
{
    return out->has_height ? out->height : HEIGHT;
}

double bw_local_wind(const bw_outdoors *out)
{
    const terrain met = TERRAIN[BW_TERRAIN_RURAL];
    const terrain here = TERRAIN[bw_terrain_taken(out)];
    const double z = fmin(bw_height_taken(out), here.layer);
    return pow(met.layer / 10, met.exponent) *
           pow(z / here.layer, here.exponent);
}

double bw_exposure_factor(const bw_outdoors *out)
{
    static const struct {
        double height, sheltered, medium, severe; /* up to this height, m */
    } row[] = {{10, 0.7, 1.0, 1.4},
               {15, 0.8, 1.1, 1.4},
               {20, 0.9, 1.2, 1.4},
               {30, 1.1, 1.3, 1.5},
               {40, 1.2, 1.4, 1.5},
               {50, 1.3, 1.5, 1.5},
               {(double)INFINITY, 1.5, 1.5, 1.5}};
    size_t i = 0;
    while (bw_height_taken(out) > row[i].height)
        i++;
    if (out->driving_rain == BW_RAIN_SEVERE)
        return row[i].severe * 1.0;
    if (out->driving_rain == BW_RAIN_MODERATE)
        return row[i].medium * 0.5;
    return row[i].sheltered * 0.35;
}

double bw_driven_share(const bw_outdoors *out)
{
    return out->has_rain_share ? out->rain_share : STAYS;
}

double bw_falling_share(const bw_outdoors *out)
{
    return out->has_rain_share ? out->rain_share : 1;
}

double bw_coat_rate(double absorption, int n)
{
    return absorption * (sqrt(3600.0 * n) - sqrt(3600.0 * (n - 1))) / 3600;
}
