#ifndef BOTHWAYS_AIR_H
#define BOTHWAYS_AIR_H

/** @file
 * Humid air: saturation, humidity, and how easily vapour moves through still
 * air. Formulas: ISO 13788:2012 annex E (from memory, high confidence; checked
 * in the tests against IAPWS figures); vapour permeability of air: EN 15026
 * (from memory).
 */

#include "bothways/constants.h"
#include "bothways/export.h"

BW_BEGIN_C

/** What a relative humidity below 0 degC is measured against. */
typedef enum bw_humidity_reference {
    BW_OVER_WATER, /**< liquid (supercooled) water: met services */
    BW_OVER_ICE,   /**< ice: ISO 13788's own branch below 0 degC */
} bw_humidity_reference;

/** Saturation pressure [Pa] at theta [degC]; over ice below 0 degC.
 *  Meant for -60..90 degC; the 0.2 % / 0.5 % of the tests hold in -20..40. */
BW_API double bw_saturation_pressure(double theta);

/** Saturation pressure over liquid water [Pa], continued below 0 degC. */
BW_API double bw_saturation_pressure_water(double theta);

/** Humidity over liquid water [-] at which ice stands beside it: their saturation
 *  pressures, ice over water; 1 from 0 degC on. Pores hold liquid below 0 degC
 *  only as far as they bind it at this humidity. */
BW_API double bw_freezing_humidity(double theta);

/** d(psat)/d(theta) [Pa/K] of bw_saturation_pressure; has a step at 0 degC. */
BW_API double bw_saturation_pressure_slope(double theta);

/** Dew (or frost) point [degC] of a vapour pressure p [Pa], p > 0. */
BW_API double bw_dew_point(double p);

/** Vapour pressure [Pa] of air at theta [degC] and relative humidity phi [-],
 *  with phi measured against `reference` below 0 degC. */
BW_API double bw_vapour_pressure(double theta, double phi,
                                 bw_humidity_reference reference);

/** Relative humidity [-] at theta [degC] and vapour pressure p [Pa], against
 *  bw_saturation_pressure (ice below 0 degC). May exceed 1. */
BW_API double bw_relative_humidity(double theta, double p);

/** Vapour concentration v = p/(R_v T) [kg/m3]. */
BW_API double bw_vapour_concentration(double theta, double p);

/** Vapour permeability of still air [kg/(m s Pa)] at theta [degC] and air
 *  pressure [Pa]: 2.0e-7 T^0.81 / P. The monthly methods use BW_DELTA_0. */
BW_API double bw_vapour_permeability_of_air(double theta, double pressure);

BW_END_C

#endif
