#ifndef BW_BASE_UNITS_H
#define BW_BASE_UNITS_H

/* Quantities as text: a number with its unit, made SI in one place. */

#include <stdbool.h>
#include <stddef.h>

/* What a quantity is; the unit of the value read stands behind it. */
typedef enum bw_dimension {
    BW_DIM_NUMBER,             /* -, no unit may stand there */
    BW_DIM_MU,                 /* -, vapour resistance factor, no unit */
    BW_DIM_LENGTH,             /* m */
    BW_DIM_SD,                 /* m, equivalent air layer thickness */
    BW_DIM_VAPOUR_RESISTANCE,  /* m (sd), from MN.s/g and the like */
    BW_DIM_VAPOUR_RESISTIVITY, /* - (mu), from MN.s/(g.m) and the like */
    BW_DIM_PERMEANCE,          /* m (sd), from usperm and the like */
    BW_DIM_TEMPERATURE,        /* degC */
    BW_DIM_FRACTION,           /* 0..1, from %, which must be written */
    BW_DIM_RATIO,              /* kg/kg, also from % */
    BW_DIM_POROSITY,           /* m3/m3, also from % */
    BW_DIM_CONDUCTIVITY,       /* W/(m K) */
    BW_DIM_THERMAL_RESISTANCE, /* m2 K/W */
    BW_DIM_DENSITY,            /* kg/m3, also of water in a material */
    BW_DIM_SPECIFIC_HEAT,      /* J/(kg K) */
    BW_DIM_AREAL_MASS,         /* kg/m2 */
    BW_DIM_WATER_ABSORPTION,   /* kg/(m2 s^0.5) */
    BW_DIM_PRESSURE,           /* Pa */
    BW_DIM_RATE,               /* 1/s */
    BW_DIM_AIR_PERMEABILITY,   /* m3/(m2 s) */
    BW_DIM_AIR_FLOW,           /* m3/(m s) */
    BW_DIM_OPENING,            /* m2/m */
    BW_DIM_ANGLE,              /* degrees */
    BW_DIM_TRANSMITTANCE,      /* W/(m2 K) */
    BW_DIM_PER_AREA,           /* of a currency that is not converted, per m2 */
    BW_DIM_PER_VOLUME,         /* the same per m3 */
    BW_DIM_COUNT
} bw_dimension;

/* Reads "12 mm", "0.035 W/(m.K)", "1.5 h-1" ... A product may be written with
 * '.', '*', a blank or a raised dot, squares as 2 or a raised two.
 *
 * value      receives the value in the unit above, low <= value <= high
 * low, high  what is possible here, in the unit above
 * why        receives, on failure, what is wrong and what is allowed, as half
 *            a sentence that can follow the quoted attribute
 * False: refused. Never NaN or infinite. */
bool bw_quantity_read(double *value, bw_dimension dimension, double low,
                      double high, const char *text, char *why,
                      size_t why_size);

#endif
