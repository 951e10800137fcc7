#include "change_sides.h"

#include "bothways/geography.h"
#include "exposure.h"

/* Room, weather, and what of both gets into the wall. Invariant: only the sides
 * of the copy are written, no layer. */

static const double USUAL_ROOM = 20.0; /* degC where it has no number */

void bw_make_step_humidity(bw_assembly *to, const bw_change *c)
{
    bw_indoors_step(&to->indoors, bw_change_is_on(c));
}

void bw_make_class(bw_assembly *to, const bw_change *c)
{
    to->indoors.humidity_class = (int)c->value;
}

void bw_make_room(bw_assembly *to, const bw_change *c)
{
    bw_indoors *in = &to->indoors;
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += in->month_temperature[m];
    if (in->kind == BW_INDOOR_MONTHS)
        in->temperature = sum / BW_MONTHS;
    if (in->kind == BW_INDOOR_EN15026)
        in->temperature = USUAL_ROOM;
    in->margin = in->margin && in->kind == BW_INDOOR_RH;
    in->kind = BW_INDOOR_RH;
    in->relative_humidity = c->value;
}

void bw_make_air_leakage(bw_assembly *to, const bw_change *c)
{
    bw_air_leakage *air = &to->air_leakage;
    if (!air->given || air->q50 <= 0.0)
        *air = (bw_air_leakage){.given = true,
                                .connected_height = BW_LEAK_HEIGHT};
    air->q50 = c->value;
}

/* Leaking rain comes to lie inside the innermost ventilated cavity, else
 * inside the outermost layer, unless the file says where. */
void bw_make_leak_rain(bw_assembly *to, const bw_change *c)
{
    bw_rain_leak *leak = &to->rain_leak;
    size_t outside = bw_layers_outside(to, BW_VENT_SLIGHT);
    if (!leak->given)
        leak->after_layer = outside > 0 ? (long)outside - 1 : 0;
    leak->given = true;
    leak->fraction = c->value;
}

void bw_make_driving_rain(bw_assembly *to, const bw_change *c)
{
    to->outdoors.driving_rain = (bw_exposure)c->value;
}

void bw_make_wind(bw_assembly *to, const bw_change *c)
{
    bw_outdoors *out = &to->outdoors;
    const bool more = bw_change_is_on(c);
    int step = (int)bw_terrain_taken(out) + (more ? -1 : 1);
    if (step < (int)BW_TERRAIN_OPEN || step > (int)BW_TERRAIN_URBAN)
        step = (int)bw_terrain_taken(out);
    out->height = bw_height_taken(out) * (more ? 2.0 : 1.0);
    out->terrain = (bw_terrain)step;
    out->has_terrain = out->has_height = true;
}

void bw_make_sun(bw_assembly *to, const bw_change *c)
{
    to->outdoors.solar_absorptance = c->value;
}
