/** @file
 * Every property of a material, one row each, in the order of bw_material, of
 * lists and of docs/input.md. A new property is a row here: its field in
 * bw_material, its id, reader, range, unit, pages and audit come of it.
 *
 *     BW_PROPERTY(id, field of bw_material, element in a file of materials,
 *                 attribute of a layer or NULL, title, unit ("" for a bare
 *                 number), meaning, dimension of what is read, least and most
 *                 that is possible at all)
 *
 * The field is a bw_property in that unit. Included where BW_PROPERTY is defined
 * as what is to be made of a row, and undefined at the end; so there is no guard.
 */

#ifndef BW_PROPERTY
#define BW_PROPERTY(...)
#endif

BW_PROPERTY(DENSITY, density, "density", "density",
    "Density", "kg/m3", "dry", BW_DIM_DENSITY, 1.0, 12000.0)
BW_PROPERTY(CONDUCTIVITY, thermal_conductivity, "conductivity", "lambda",
    "Thermal conductivity", "W/(m.K)", "design value",
    BW_DIM_CONDUCTIVITY, 0.001, 500.0)
BW_PROPERTY(SPECIFIC_HEAT, specific_heat, "specific-heat", "specific-heat",
    "Specific heat", "J/(kg.K)", "dry", BW_DIM_SPECIFIC_HEAT, 50.0, 5000.0)
BW_PROPERTY(MU_DRY, mu_dry, "mu-dry", "mu",
    "mu, dry cup", "", "vapour resistance factor below 70 % RH",
    BW_DIM_MU, 1.0, 1e7)
BW_PROPERTY(MU_WET, mu_wet, "mu-wet", "mu-wet",
    "mu, wet cup", "", "vapour resistance factor above 70 % RH",
    BW_DIM_MU, 1.0, 1e7)
BW_PROPERTY(SD, sd, "sd", "sd",
    "sd", "m", "of the layer as sold, whatever its thickness",
    BW_DIM_SD, 1e-4, 1e6)
BW_PROPERTY(THICKNESS, thickness, "thickness", NULL,
    "Thickness", "m", "as sold", BW_DIM_LENGTH, 1e-6, 3.0)
BW_PROPERTY(FREE_SATURATION, free_saturation, "free-saturation", "free-saturation",
    "Free saturation", "kg/m3", "water content w_f that it takes up of itself",
    BW_DIM_DENSITY, 0.1, 1000.0)
BW_PROPERTY(WATER_ABSORPTION, water_absorption,
    "water-absorption", "water-absorption",
    "Water absorption", "kg/(m2.s^0.5)",
    "A_w, what its face takes up from standing water",
    BW_DIM_WATER_ABSORPTION, 0.0, 20.0)
BW_PROPERTY(POROSITY, porosity, "porosity", "porosity",
    "Porosity", "m3/m3", "open pores, by volume", BW_DIM_POROSITY, 0.0, 1.0)
BW_PROPERTY(CONDUCTIVITY_FACTOR, conductivity_factor, "conductivity-factor", NULL,
    "Moisture factor of conductivity", "", "f_u or f_psi of ISO 10456",
    BW_DIM_NUMBER, 0.0, 50.0)

#undef BW_PROPERTY
