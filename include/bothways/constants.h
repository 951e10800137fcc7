#ifndef BOTHWAYS_CONSTANTS_H
#define BOTHWAYS_CONSTANTS_H

/** @file Constants that more than one method uses, each with its source. */

/** Vapour permeability of still air fixed by ISO 13788 [kg/(m s Pa)]. */
#define BW_DELTA_0 2.0e-10
/** Gas constant of water vapour, ISO 13788 [J/(kg K)]. */
#define BW_R_V 462.0
/** Celsius to kelvin [K]. */
#define BW_KELVIN 273.15
/** Latent heat of evaporation used by EN 15026 [J/kg]. */
#define BW_LATENT_HEAT 2.5e6
/** Standard atmospheric pressure [Pa]. */
#define BW_STANDARD_PRESSURE 101325.0
/** Half a turn [rad]. */
#define BW_PI 3.14159265358979323846
/** Degrees to radians. */
#define BW_RADIANS (BW_PI / 180.0)

#endif
