/* Every property of materials, in the order of lists and of docs/input.md: id,
 * field of bw_material, element in a file of materials, attribute of a layer,
 * title, unit, meaning, dimension, what is possible at all. Included twice, for
 * the ids and for the table. */

/* clang-format off */
PROPERTY(DENSITY, density, "density", "density",
    "Density", "kg/m3", "dry", BW_DIM_DENSITY, 1.0, 12000.0)
PROPERTY(CONDUCTIVITY, thermal_conductivity, "conductivity", "lambda",
    "Thermal conductivity", "W/(m.K)", "design value",
    BW_DIM_CONDUCTIVITY, 0.001, 500.0)
PROPERTY(SPECIFIC_HEAT, specific_heat, "specific-heat", "specific-heat",
    "Specific heat", "J/(kg.K)", "dry", BW_DIM_SPECIFIC_HEAT, 50.0, 5000.0)
PROPERTY(MU_DRY, mu_dry, "mu-dry", "mu",
    "mu, dry cup", "", "vapour resistance factor below 70 % RH",
    BW_DIM_MU, 1.0, 1e7)
PROPERTY(MU_WET, mu_wet, "mu-wet", "mu-wet",
    "mu, wet cup", "", "vapour resistance factor above 70 % RH",
    BW_DIM_MU, 1.0, 1e7)
PROPERTY(SD, sd, "sd", "sd",
    "sd", "m", "of the layer as sold, whatever its thickness",
    BW_DIM_SD, 1e-4, 1e6)
PROPERTY(THICKNESS, thickness, "thickness", NULL,
    "Thickness", "m", "as sold", BW_DIM_LENGTH, 1e-6, 3.0)
PROPERTY(FREE_SATURATION, free_saturation, "free-saturation", "free-saturation",
    "Free saturation", "kg/m3", "water content w_f that it takes up of itself",
    BW_DIM_DENSITY, 0.1, 1000.0)
PROPERTY(WATER_ABSORPTION, water_absorption,
    "water-absorption", "water-absorption",
    "Water absorption", "kg/(m2.s^0.5)",
    "A_w, what its face takes up from standing water",
    BW_DIM_WATER_ABSORPTION, 0.0, 20.0)
PROPERTY(POROSITY, porosity, "porosity", "porosity",
    "Porosity", "m3/m3", "open pores, by volume", BW_DIM_POROSITY, 0.0, 1.0)
PROPERTY(CONDUCTIVITY_FACTOR, conductivity_factor, "conductivity-factor", NULL,
    "Moisture factor of conductivity", "", "f_u or f_psi of ISO 10456",
    BW_DIM_NUMBER, 0.0, 50.0)
/* clang-format on */
