#ifndef BOTHWAYS_THERMAL_H
#define BOTHWAYS_THERMAL_H

/** @file Thermal resistance and transmittance by ISO 6946 (from memory). */

#include "bothways/assembly.h"

BW_BEGIN_C

/** The direction of winter heat flow through an element. */
BW_API bw_heat_flow bw_element_heat_flow(bw_element element);

/** Internal surface resistance Rsi [m2 K/W], ISO 6946. */
BW_API double bw_rsi(bw_heat_flow flow);

/** External surface resistance Rse [m2 K/W], ISO 6946. */
BW_API double bw_rse(void);

/** Resistance of an unventilated air layer [m2 K/W], thickness in m >= 0. */
BW_API double bw_air_layer_resistance(double thickness, bw_heat_flow flow);

/** U-value of an element with its limits. */
typedef struct bw_thermal_result {
    size_t section_count;
    double section_resistance[BW_MOST_SECTIONS]; /**< R_T of each path,
                                   m2 K/W; of one that is not there 0 */
    double section_fraction[BW_MOST_SECTIONS];
    double upper_limit;   /**< R', m2 K/W */
    double lower_limit;   /**< R'', m2 K/W */
    double resistance;    /**< R_T = (R' + R'')/2 */
    double transmittance; /**< U, W/(m2 K), not rounded */
    double error;         /**< (R' - R'')/(2 R_T), relative */
    bool applicable;      /**< R'/R'' <= 1.5 */
} bw_thermal_result;

/** Combined method of ISO 6946 with its own Rsi and Rse (not those of the
 *  moisture check). A slightly ventilated cavity is interpolated. */
BW_API bw_status bw_thermal(bw_thermal_result *out,
                            const bw_assembly *assembly, bw_error *err);

BW_END_C

#endif
