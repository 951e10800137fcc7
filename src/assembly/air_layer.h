#ifndef BW_ASSEMBLY_AIR_LAYER_H
#define BW_ASSEMBLY_AIR_LAYER_H

/* Still air between two faces, and its surfaces, by ISO 6946. */

#include "bothways/assembly.h"

/* sd of an unventilated air layer [m], whatever its thickness
 * (ISO 13788:2012, from memory, high confidence). */
#define BW_AIR_LAYER_SD 0.01

/* Resistance [m2 K/W] of an unventilated air layer of high-emissivity faces;
 * thickness in m, >= 0. Linear between the rows of the table, constant beyond
 * the last. */
double bw_still_air_resistance(double thickness, bw_heat_flow flow);

/* The same where one face has a low emissivity and the other 0.9: convection
 * and radiation of ISO 6946, annex on airspaces, at 10 degC. emissivity > 0. */
double bw_low_emissivity_resistance(double thickness, double emissivity,
                                    bw_heat_flow flow);

/* Internal surface resistance [m2 K/W] for a direction of heat flow. */
double bw_internal_resistance(bw_heat_flow flow);

/* Direction of winter heat flow through an element. */
bw_heat_flow bw_winter_flow(bw_element element);

#endif
