/* How much water the pores of a material hold. */
#include <math.h>

#include "bothways/material.h"

static const double PLANT_MATTER = 1500.0; /* kg/m3 of cell wall, estimate */
static const double MINERAL = 2650.0;      /* kg/m3, of quartz, estimate */
/* kg/m3: hygroscopic and lighter is plant fibre */
static const double LIGHT = 350.0;
static const double WATER = 1000.0; /* kg/m3 */

double bw_material_pores(const bw_material *m)
{
    if (m->porosity.known)
        return m->porosity.value;
    const bool plant = m->wood_kind != BW_NOT_WOOD ||
                       (m->hygroscopic && m->density.value < LIGHT);
    const double open = 1 - m->density.value / (plant ? PLANT_MATTER : MINERAL);
    return fmin(fmax(open, 0.02), 0.99);
}

double bw_material_most_moisture(const bw_material *m)
{
    double most = WATER * bw_material_pores(m) / m->density.value;
    if (m->free_saturation.known)
        most = fmax(most, m->free_saturation.value / m->density.value);
    if (m->sorption.count > 0)
        most = fmax(most, m->sorption.y[m->sorption.count - 1]);
    return most;
}
