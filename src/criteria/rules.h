#ifndef BW_CRITERIA_RULES_H
#define BW_CRITERIA_RULES_H

/* What is judged, against what, by whose rule: one table of criteria and one
 * set of limits. A national profile adds its rules to them. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/profile.h"

/* In the order of the report. */
typedef enum bw_criterion_id {
    BW_C_INDOOR_AIR, /* a row only where the room cannot be */
    BW_C_ALONE,      /* a row only without a simulation */
    BW_C_ANNUAL_BALANCE,
    BW_C_ACCUMULATION,
    BW_C_CONDENSATE,
    BW_C_CONDENSATE_NON_ABSORBING,
    BW_C_RUN_OFF,
    BW_C_RESERVE,
    BW_C_RESERVE_LEAKY,
    BW_C_WOOD_RISE,
    BW_C_PANEL_RISE,
    BW_C_INWARD,
    BW_C_DRYING,
    BW_C_DRYING_OUTWARDS,
    BW_C_DRYING_INWARDS,
    BW_C_SURFACE_MOULD,
    BW_C_CORNER_MOULD,
    BW_C_CUPBOARD_MOULD,
    BW_C_SURFACE_CONDENSATION,
    BW_C_PERIOD_BALANCE,
    BW_C_PERIOD_CONDENSATE,
    BW_C_PERIOD_NON_ABSORBING,
    BW_C_PERIOD_RESERVE,
    BW_C_PERIOD_WOOD_RISE,
    BW_C_PERIOD_PANEL_RISE,
    BW_C_STEADY_CHECK, /* from here: rules of national profiles alone */
    BW_C_INNER_SD,
    BW_C_SD_RATIO,
    BW_C_BREATHER_SD,
    BW_C_CAVITY_WIDTH,
    BW_C_FRSI_LEAST,
    BW_C_TRANSIENT,
    BW_C_UNJUDGED,
    BW_C_BELOW, /* a row only where it is not stated */
    BW_C_PERIODIC_WATER,
    BW_C_STANDING_WATER,
    BW_C_BOTH_WET,
    BW_C_HUMID_HOURS,
    BW_C_COVERING,
    BW_C_WOOD_MOISTURE,
    BW_C_PANEL_MOISTURE,
    BW_C_TIMBER_LINE,
    BW_C_DECAY,
    BW_C_FIRST_YEAR,
    BW_C_MOULD_HIDDEN,
    BW_C_MOULD_ROOM,
    BW_C_WETTING,
    BW_C_WETTING_OUTWARDS,
    BW_C_WETTING_INWARDS,
    BW_C_COUNT
} bw_criterion_id;

/* What a criterion is to the verdict of a section. */
typedef enum bw_criterion_role {
    BW_JUDGES,    /* decides wherever it is assessed */
    BW_BY_MONTHS, /* the monthly method: a cross-check of the simulation within
                     its limits; decides where there is none */
    BW_BY_BLOCKS, /* the German block climate: decides under a profile that
                     demands it and nowhere else */
} bw_criterion_role;

/* What never changes about a criterion. */
typedef struct bw_criterion_facts {
    const char *name, *title, *method, *unit, *rule;
    bool strict;      /* at the limit it fails */
    bool informative; /* never decides */
    bw_criterion_role role;
} bw_criterion_facts;

/* Beyond its limit such a criterion asks for an inspection: marginal, since
 * field walls beyond it have been opened and found sound. */
bool bw_criterion_inspects(bw_criterion_id id);

/* id < BW_C_COUNT; never NULL. */
const bw_criterion_facts *bw_criterion_facts_of(bw_criterion_id id);

typedef struct bw_limits {
    const bw_profile *profile; /* NULL: the default */
    /* "marginal": the margin is smaller than this share of the limit; the
     * second where a layer of the section is only assumed */
    double marginal_share, marginal_share_assumed;
    bool months_decide;                /* beside a simulation, too: demanded */
    bool block_climate_decides;        /* the period balance is demanded */
    double marginal_frsi;              /* - */
    double marginal_leaky;             /* kg/(m2 a): its limit is zero */
    double marginal_steady;            /* points of RH, the steady check */
    double condensate;                 /* kg/m2, all planes together */
    double non_absorbing;              /* kg/m2 at one plane */
    double run_off;                    /* kg/m2 at one plane */
    double reserve_wall, reserve_roof; /* kg/(m2 a) */
    double wood_rise, panel_rise;      /* % by mass */
    double inward;                     /* kg/m2 */
    double drying_months;
    double mould_rh, condensation_rh;          /* - */
    double rsi_open, rsi_corner, rsi_cupboard; /* m2 K/W */
    const char *rsi_open_source, *rsi_corner_source, *rsi_cupboard_source;
    double standing_water;                /* kg/m2 at one place */
    double humid_hours;                   /* h/a above 95 % RH */
    double covering_hours;                /* h/a above 90 % RH under it */
    double wood_moisture, panel_moisture; /* % by mass */
    double timber_line_days;              /* d/a above the line */
    double decay_dose;                    /* d, over BW_SERVICE_YEARS */
    double first_year_weeks;
    double wetting_months;
    double mould_hidden, mould_room; /* index */
    double balance_error; /* relative; a simulation above it is not used */
} bw_limits;

/* The limits of the default; never NULL. */
const bw_limits *bw_limits_default(void);

/* Those of a profile (NULL: the default): the default's, tightened where a
 * rule of the profile does so, and what it demands. Whatever the profile
 * holds, none is looser than the default's. */
bw_limits bw_limits_under(const bw_profile *profile);

#endif
