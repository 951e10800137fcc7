/* Both sides of a wall month by month, and its surface resistances.
 *
 *   theta_e = the month's mean, 2 K less for a light roof under open sky
 *             (ISO 13788:2012 [from memory, medium confidence]); where
 *             something lies against the face that of beyond.h, the room's
 *             still by the outdoor air's */

#include "air_layer.h"
#include "beyond.h"
#include "side.h"
#include "surface_resistance.h"

static const double SKY_LOSS = 2.0; /* K */

void bw_side_months(bw_boundary out[BW_MONTHS], const bw_assembly *assembly,
                    const bw_section *section, const bw_climate *climate)
{
    const bool sky = assembly->outdoors.open_sky &&
                     section->dropped_layers == 0;
    const bw_moments moments = {out, 0, BW_MONTHS, BW_MONTHS, 0.5};
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &climate->month[m];
        bw_boundary *b = &out[m];
        b->theta_e = month->temperature - (sky ? SKY_LOSS : 0.0);
        b->p_e = month->vapour_pressure;
        bw_indoor_state(&assembly->indoors, m, month->temperature,
                        month->vapour_pressure, &b->theta_i, &b->p_i);
    }
    bw_beyond_moments(&moments, assembly, climate);
}

double bw_side_outer_resistance(const bw_assembly *assembly, size_t dropped)
{
    if (assembly->beyond.kind != NULL)
        return assembly->beyond.kind->resistance;
    if (dropped > 0)
        return bw_internal_resistance(bw_winter_flow(assembly->element));
    return assembly->outdoors.has_surface_resistance
               ? assembly->outdoors.surface_resistance
               : BW_RSE_MOISTURE;
}

double bw_side_inner_resistance(const bw_assembly *assembly)
{
    return assembly->indoors.has_surface_resistance
               ? assembly->indoors.surface_resistance
               : BW_RSI_MOISTURE;
}

double bw_side_rse(const bw_assembly *assembly)
{
    return assembly->beyond.kind != NULL ? assembly->beyond.kind->resistance
                                         : BW_RSE_ISO_6946;
}
