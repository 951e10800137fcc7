#include "properties.h"

#include <stddef.h>

#define ROW(name) .offset = offsetof(bw_material, name)

const bw_property_row bw_property_rows[BW_PROPERTY_COUNT] = {
    [BW_PROPERTY_DENSITY] = {"density", "density", "Density", "kg/m3", "dry",
                             ROW(density), BW_DIM_DENSITY, 1.0, 12000.0},
    [BW_PROPERTY_CONDUCTIVITY] = {"conductivity", "lambda",
                                  "Thermal conductivity", "W/(m.K)",
                                  "design value", ROW(thermal_conductivity),
                                  BW_DIM_CONDUCTIVITY, 0.001, 500.0},
    [BW_PROPERTY_SPECIFIC_HEAT] = {"specific-heat", "specific-heat",
                                   "Specific heat", "J/(kg.K)", "dry",
                                   ROW(specific_heat), BW_DIM_SPECIFIC_HEAT,
                                   50.0, 5000.0},
    [BW_PROPERTY_MU_DRY] = {"mu-dry", "mu", "mu, dry cup", "",
                            "vapour resistance factor below 70 % RH",
                            ROW(mu_dry), BW_DIM_MU, 1.0, 1e7},
    [BW_PROPERTY_MU_WET] = {"mu-wet", "mu-wet", "mu, wet cup", "",
                            "vapour resistance factor above 70 % RH",
                            ROW(mu_wet), BW_DIM_MU, 1.0, 1e7},
    [BW_PROPERTY_SD] = {"sd", "sd", "sd", "m",
                        "of the layer as sold, whatever its thickness", ROW(sd),
                        BW_DIM_SD, 1e-4, 1e6},
    [BW_PROPERTY_THICKNESS] = {"thickness", NULL, "Thickness", "m", "as sold",
                               ROW(thickness), BW_DIM_LENGTH, 1e-6, 3.0},
    [BW_PROPERTY_FREE_SATURATION] =
        {"free-saturation", "free-saturation", "Free saturation", "kg/m3",
         "water content w_f that it takes up of itself", ROW(free_saturation),
         BW_DIM_DENSITY, 0.1, 1000.0},
    [BW_PROPERTY_WATER_ABSORPTION] =
        {"water-absorption", "water-absorption", "Water absorption",
         "kg/(m2.s^0.5)", "A_w, what its face takes up from standing water",
         ROW(water_absorption), BW_DIM_WATER_ABSORPTION, 0.0, 20.0},
    [BW_PROPERTY_POROSITY] = {"porosity", "porosity", "Porosity", "m3/m3",
                              "open pores, by volume", ROW(porosity),
                              BW_DIM_POROSITY, 0.0, 1.0},
    [BW_PROPERTY_CONDUCTIVITY_FACTOR] = {"conductivity-factor", NULL,
                                         "Moisture factor of conductivity", "",
                                         "f_u or f_psi of ISO 10456",
                                         ROW(conductivity_factor),
                                         BW_DIM_NUMBER, 0.0, 50.0},
};

const bw_property_way bw_property_ways[BW_PROPERTY_WAYS] = {
    {"vapour-resistivity", BW_PROPERTY_MU_DRY, BW_DIM_VAPOUR_RESISTIVITY},
    {"vapour-resistance", BW_PROPERTY_SD, BW_DIM_VAPOUR_RESISTANCE},
    {"permeance", BW_PROPERTY_SD, BW_DIM_PERMEANCE},
};

bw_property *bw_property_of(bw_material *material, bw_property_id id)
{
    return (bw_property *)(void *)((char *)material +
                                   bw_property_rows[id].offset);
}

const bw_property *bw_property_in(const bw_material *material,
                                  bw_property_id id)
{
    return (const bw_property *)(const void *)((const char *)material +
                                               bw_property_rows[id].offset);
}

bool bw_draws_too_fast(const bw_material *material)
{
    const double fastest = 0.05; /* m/s^0.5, estimate: far above any known */
    return material->water_absorption.known &&
           material->free_saturation.known &&
           material->water_absorption.value >
               fastest * material->free_saturation.value;
}

bw_material bw_material_unknown(void)
{
    bw_material m = {.id = "",
                     .name = "",
                     .group = "",
                     .remark = "",
                     .file = "",
                     .flags_source = ""};
    for (int id = 0; id < BW_PROPERTY_COUNT; id++)
        *bw_property_of(&m, (bw_property_id)id) = (bw_property){.source = "",
                                                                .note = ""};
    return m;
}
