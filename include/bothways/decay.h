#ifndef BOTHWAYS_DECAY_H
#define BOTHWAYS_DECAY_H

/** @file
 * Decay of wood, corrosion and frost from hours or daily means of temperature
 * and humidity: the criterion line for embedded timber, the daily decay dose,
 * the empirical mass loss, wetness hours and frost counts. Pure functions
 * of their arguments; equations, sources and confidence: docs/methods.md.
 *
 * Every series is finite and of one year that repeats: theta in degC, phi
 * 0..1, moisture u in kg/kg of dry wood. What is past the end goes on at the
 * beginning, so that a winter is one run.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"

BW_BEGIN_C

/** Means of each 24 hours of `hourly` (24 * days values) into mean[days]. */
BW_API void bw_day_means(double *mean, const double *hourly, size_t days);

/* ---- embedded timber: the criterion line ---- */

/** Pore humidity [-] allowed at theta [degC]: 0.95 at 0 degC falling linearly
 *  to 0.86 at 30 degC, constant outside. WTA 6-8 (from memory, high). */
BW_API double bw_timber_line(double theta);

/** How a year of daily means stands to the line. */
typedef struct bw_timber_line_result {
    size_t days_above;  /**< days with phi above the line */
    double overshoot;   /**< -, the largest phi - line, 0 if none above */
    size_t worst_day;   /**< its day, from 0; counts only if days_above > 0 */
    size_t longest_run; /**< days above without a break, over the year's end
                             too; at most `days` */
} bw_timber_line_result;

/** Daily means of the wettest 10 mm against bw_timber_line. `days` >= 1. */
BW_API bw_timber_line_result bw_timber_line_year(const double *theta,
                                                 const double *phi,
                                                 size_t days);

/* ---- decay dose by day ---- */

/** The dose [d] at which decay is first seen: rating 0.5 (Isaksson et al.
 *  2013, from memory, high). A more durable heartwood takes 2 to 5 times as
 *  much (from memory, medium). */
#define BW_DECAY_DOSE_CRITICAL 325.0

/** Dose [d] of one day, 0..1, of daily mean moisture u [kg/kg] and theta
 *  [degC]: 0 below 25 % by mass, at or below 0 degC, from 40 degC on. Above
 *  60 %, beyond the published fit's use here, that of 60 % (estimate). */
BW_API double bw_decay_dose_of_day(double u, double theta);

/** Mean decay rating 0 (sound) .. 4 (failed) after a dose [d] >= 0. */
BW_API double bw_decay_rating(double dose);

typedef struct bw_decay_dose_result {
    double dose;         /**< d, of the year */
    size_t active_days;  /**< days with a dose above 0 */
    double rating;       /**< after this one year, 0..4 */
    double years;        /**< of this year repeated until the dose is
                              critical; HUGE_VAL where it is never */
} bw_decay_dose_result;

/** The dose of a year of daily means; critical [d] > 0. */
BW_API bw_decay_dose_result bw_decay_dose_year(const double *u,
                                               const double *theta,
                                               size_t days, double critical);

/* ---- mass loss by hour ---- */

/** State of the empirical model for pine sapwood and brown rot (Viitanen,
 *  Toratti, Makkonen et al. 2010). Zero-initialise: sound, not activated. */
typedef struct bw_decay_state {
    double activation; /**< alpha, 0..1; mass is lost at 1 */
    double mass_loss;  /**< % of the dry mass, 0..100 */
} bw_decay_state;

/** Hours at constant theta and phi until mass is lost (activation from 0);
 *  HUGE_VAL where it is never. */
BW_API double bw_decay_activation_hours(double theta, double phi);

/** Advance by `hours` at theta [degC] and phi [-], constant over the step.
 *  One long step equals many short ones. */
BW_API void bw_decay_step(bw_decay_state *state, double theta, double phi,
                          double hours);

typedef struct bw_decay_result {
    double highest_activation; /**< alpha, 0..1 */
    size_t highest_hour;       /**< of the year, from 0, when it was reached */
    double mass_loss;          /**< %, after all the years; never a strength */
    int first_loss_year;       /**< from 1, in which mass was first lost;
                                    -1 never */
} bw_decay_result;

/** Hourly values, `years` >= 1 times over, starting from sound wood. */
BW_API bw_decay_result bw_decay_years(const double *theta, const double *phi,
                                      size_t hours, int years);

/* ---- metal and frost: counts; none of them judges ---- */

/** Hours with theta > 0 degC and phi > 0.80: ISO 9223, time of wetness (from
 *  memory, medium). */
BW_API size_t bw_wetness_hours(const double *theta, const double *phi,
                               size_t hours);

/** How often theta falls from above `level` [degC] to it or below; the step
 *  from the last hour to the first counts. */
BW_API size_t bw_frost_crossings(const double *theta, size_t hours,
                                 double level);

/** The waters [of the pores, or of what they take up freely] above which a
 *  cycle is counted, BW_FROST_LEVELS of them. */
typedef struct bw_frost_level {
    double share;        /**< -, 0..1 */
    bool of_free;        /**< of the free saturation; else of the whole pores */
} bw_frost_level;

enum { BW_FROST_LEVELS = 5 };

/** Level i: 0.30 of free saturation (screening of insulated brick after WTA
 *  6-5, from memory, medium), then 0.25, 0.5, 0.7 and 0.9 of the pores, as the
 *  critical degree of a brick is seldom known (0.9: damage certain, Fagerlund,
 *  from memory, high). */
BW_API bw_frost_level bw_frost_level_of(size_t i);

/** Frost at one spot of a porous mineral material in a year that repeats. */
typedef struct bw_frost_hours {
    const double *theta; /**< degC, `hours` values; borrowed */
    const double *water; /**< kg/m3, likewise */
    const double *ice;   /**< kg/m3 of it, likewise */
    size_t hours;        /**< >= 1 */
    double free_water;   /**< kg/m3, > 0, at free saturation */
    double full_water;   /**< kg/m3, > 0, all pores */
} bw_frost_hours;

/** No count of frost is agreed: all three are given, and none is a limit. */
typedef struct bw_frost_counts {
    size_t crossings_0, crossings_2; /**< bw_frost_crossings of 0, -2 degC */
    size_t wet_cycles[BW_FROST_LEVELS]; /**< crossings of 0 degC at which the
                                             water is above the level */
    double ice_index;    /**< -, ice over pores: sum over the cycles of its
                              highest less its lowest (after Zhou, Derome &
                              Carmeliet 2017, from memory, medium) */
    double wettest;      /**< -, water over pores, highest at a crossing of
                              0 degC; 0 without one */
} bw_frost_counts;

/** The counts of one spot. */
BW_API bw_frost_counts bw_frost_year(const bw_frost_hours *year);

BW_END_C

#endif
