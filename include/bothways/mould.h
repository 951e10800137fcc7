#ifndef BOTHWAYS_MOULD_H
#define BOTHWAYS_MOULD_H

/** @file
 * Mould index (Hukka & Viitanen 1999, sensitivity classes Ojanen et al. 2010),
 * the class of a face, the daily dose of mould, and wood moisture
 * (Hailwood-Horrobin, Wood Handbook). From memory; checked in the tests.
 */

#include "bothways/assembly.h"

BW_BEGIN_C

/** State of the index at one place. Zero-initialise to start clean. */
typedef struct bw_mould_state {
    double index;      /**< M, 0..6 */
    double dry_hours;  /**< hours since growth was last possible */
} bw_mould_state;

/** How a class declines and which index is too much, both of one source. */
typedef struct bw_mould_rule {
    const char *name;
    double decline[4];    /**< -, share of the pine's decline, by class */
    double limit_hidden;  /**< index to stay below at hidden faces */
    double limit_room;    /**< and at the room face */
    const char *source;   /**< of decline and limits, with marks */
} bw_mould_rule;

/** ASHRAE 160-2016: decline 0.1 on every surface without data of its own,
 *  index below 3; the rule to judge by. Borrowed, constant. */
BW_API const bw_mould_rule *bw_mould_rule_ashrae160(void);

/** The model's own decline by class, 1 to 0.1; limits of practice. For
 *  comparison. Borrowed, constant. */
BW_API const bw_mould_rule *bw_mould_rule_by_class(void);

/** Advance by `hours` at theta [degC] and phi [-], constant over the step,
 *  with a decline [-] > 0 of your own. */
BW_API void bw_mould_advance(bw_mould_state *state, bw_mould_class mould_class,
                             double decline, double theta, double phi,
                             double hours);

/** The same with the decline of bw_mould_rule_by_class. */
BW_API void bw_mould_step(bw_mould_state *state, bw_mould_class mould_class,
                          double theta, double phi, double hours);

/** What bw_mould_repeat repeats. */
typedef struct bw_mould_exposure {
    const double *theta; /**< degC, finite, `hours` values; borrowed */
    const double *phi;   /**< -, finite, `hours` values; borrowed */
    size_t hours;        /**< of one year, >= 1 */
    double start;        /**< index at the start, 0..6 */
    bw_mould_class mould_class;
    double decline;      /**< -, > 0; as a rule's decline[mould_class] */
    double limit;        /**< index, > 0; as a rule's */
} bw_mould_exposure;

#define BW_MOULD_YEARS 30 /**< the longest that a year is repeated */

/** Where the index ends when a year repeats. */
typedef struct bw_mould_outcome {
    int years;       /**< run, 1..BW_MOULD_YEARS */
    bool settled;    /**< peak and year's end are those of the year before
                          within 0.01; else they still move after all the
                          years: see `rise` */
    double peak;     /**< highest index of the last year run */
    double highest;  /**< highest index of all the years, the start included */
    double rise;     /**< change of the peak from the year before; of the
                          first year from the start */
    int passed_year; /**< from 1, in which the index first reaches the limit;
                          -1 never in the years run: with `settled` false or
                          `rise` > 0 that is no promise beyond them */
} bw_mould_outcome;

/**
 * Repeat a year until the index repeats itself, at most BW_MOULD_YEARS times.
 * It ends sooner only where all years left, moving as the last did, would
 * move the peak by less than 0.01.
 * @return BW_OK, or BW_ERR_MEMORY with *err filled (err may be NULL)
 */
BW_API bw_status bw_mould_repeat(bw_mould_outcome *out,
                                 const bw_mould_exposure *exposure,
                                 bw_error *err);

/** The class of a place in a wall, and why. */
typedef struct bw_mould_place {
    bw_mould_class mould_class;
    const char *reason; /**< one clause, never NULL; constant */
} bw_mould_place;

/** The class where two slabs meet. NULL stands for open air (a surface), and
 *  so does a cavity; both at once is not asked for. A membrane is a slab:
 *  ask on each side of it. */
BW_API bw_mould_place bw_mould_class_between(const bw_slab *outer,
                                             const bw_slab *inner);

/** Dose of mould of one day [d of 20 degC and 90 %], of daily means theta
 *  [degC] and phi [-]; negative in cold or drought. Thelandersson & Isaksson
 *  2013 (from memory, medium). */
BW_API double bw_mould_dose_of_day(double theta, double phi);

/** Days of dose at which growth is seen on spruce, sawn and planed (from memory,
 *  low). */
#define BW_MOULD_DOSE_SAWN 17.0
#define BW_MOULD_DOSE_PLANED 38.0

/** The highest dose, summed day by day and never below 0, of a year of daily
 *  means repeated `years` >= 1 times. Over the days to onset at 20 degC and
 *  90 % (about 17 sawn, 38 planed spruce; from memory, low) growth is seen. */
BW_API double bw_mould_dose_highest(const double *theta, const double *phi,
                                    size_t days, int years);

/** Critical RH [-] for growth at theta [degC]. */
BW_API double bw_mould_critical_rh(bw_mould_class mould_class, double theta);

/** Equilibrium moisture content of wood [kg/kg] at theta [degC], phi [-]. */
BW_API double bw_wood_moisture(double theta, double phi);

BW_END_C

#endif
