#ifndef BOTHWAYS_MOULD_H
#define BOTHWAYS_MOULD_H

/** @file
 * Mould index (Hukka & Viitanen 1999, sensitivity classes Ojanen et al. 2010)
 * and wood moisture (Hailwood-Horrobin, Wood Handbook). From memory; checked
 * in the tests.
 */

#include "bothways/material.h"

BW_BEGIN_C

/** State of the index at one place. Zero-initialise to start clean. */
typedef struct bw_mould_state {
    double index;      /**< M, 0..6 */
    double dry_hours;  /**< hours since growth was last possible */
} bw_mould_state;

/** Advance by `hours` at theta [degC] and phi [-], constant over the step. */
BW_API void bw_mould_step(bw_mould_state *state, bw_mould_class mould_class,
                          double theta, double phi, double hours);

/** Critical RH [-] for growth at theta [degC]. */
BW_API double bw_mould_critical_rh(bw_mould_class mould_class, double theta);

/** Equilibrium moisture content of wood [kg/kg] at theta [degC], phi [-]. */
BW_API double bw_wood_moisture(double theta, double phi);

BW_END_C

#endif
