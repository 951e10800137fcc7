#ifndef BOTHWAYS_JUNCTION_HOURS_H
#define BOTHWAYS_JUNCTION_HOURS_H

/** @file
 * Heat and moisture of a junction hour by hour: what was watched at every face
 * between two materials, at every face of a room, in wood, at the places with a
 * name. Plain data.
 */

#include "bothways/junction.h"
#include "bothways/mould.h"
#include "bothways/transient.h"

BW_BEGIN_C

/** A face between two materials, or of a room, as long as a cell. Of the last
 *  year where nothing else is said. */
typedef struct bw_hour_place {
    double x, y;           /**< m, its middle */
    bool room;             /**< the surface of a room */
    const char *beside[2]; /**< names of what touches there; [1] of a room: its
                                id */
    bw_mould_class mould_class;
    bool at_risk;              /**< wood, a board that feeds mould or insulation
                                    that takes up water touches there */
    double highest_rh;         /**< - */
    double above_80, above_90, above_95; /**< h a year */
    double month_rh[BW_MONTHS];          /**< -, means */
    int dampest;               /**< month 0..11 of the highest mean */
    double mould, mould_slow;  /**< highest index, the last year repeated to its
                                    end, with the decline of the class and with
                                    that of ASHRAE 160 */
    bool settled;              /**< the first of them rises no more */
    double free_water;         /**< kg/m2, the most that stood there, over all
                                    years */
    int free_month;            /**< of it, 0..11; -1: none stood */
} bw_hour_place;

/** A piece of wood: cells of one material that touch. Where nothing else is
 *  said, of the wettest 10 mm by 10 mm of each day of the last year. */
typedef struct bw_hour_wood {
    const char *name;
    const bw_material *material;
    bool exposed;          /**< it shows a face to the outside */
    double x, y;           /**< m, where it was wettest */
    double limit;          /**< kg/kg */
    double highest, first_highest; /**< kg/kg, of the last and the first year;
                                not a number: it has no such block */
    int month;             /**< 0..11, of the highest */
    double hours_above;    /**< h above the limit */
    double days_above_line, overshoot; /**< d, -: the line of embedded timber */
    double first_dose, dose; /**< d, decay, of the first and of a later year */
} bw_hour_wood;

/** A place with a name through the last year, in spans as of a wall's
 *  simulation, the first of which begins with October. */
typedef struct bw_hour_spot {
    const char *name;
    double x, y;              /**< m, as drawn */
    size_t place;             /**< the face that is nearest */
    double away;              /**< m, from it */
    double theta[BW_SPANS];   /**< degC, means there */
    double phi[BW_SPANS];     /**< - */
    long wood;                /**< the piece of wood within 20 mm; -1: none */
    double moisture[BW_SPANS]; /**< kg/kg of the wood there, means */
} bw_hour_spot;

typedef struct bw_junction_hours {
    bool asked;         /**< else nothing below is valid */
    bool ran;           /**< all below `reason` is valid */
    const char *reason; /**< "" or why not */
    bool synthetic;     /**< hours generated from months */
    size_t cells, steps;
    int years;
    bool periodic;      /**< the last year ended as it began */
    bool rising;        /**< water rose in both of the last two years */
    double yearly_change; /**< kg/m2 of the drawing's face, last year */
    double state_change;  /**< -, the largest change of a cell in it: of
                               humidity, with its water by free saturation */
    double balance;     /**< of water, what is not accounted for by what came in */
    size_t place_count;
    const bw_hour_place *place;
    size_t wood_count;
    const bw_hour_wood *wood;
    size_t spot_count;
    const bw_hour_spot *spot;
    size_t unseen_count; /**< what it does not see of this junction, for which
                              nothing within is said to hold */
    const char *const *unseen;
} bw_junction_hours;

/** How it is run; zeros: the defaults. */
typedef struct bw_hour_options {
    int most_years;      /**< 5; ends sooner where a year repeats the last */
    double smallest;     /**< m, cells at the lines of the drawing; 0.002 */
    size_t most_cells;   /**< 1000; made coarser until it is kept */
    bool no_synthetic;   /**< only with a climate that has hours */
    bw_progress *progress; /**< may be NULL */
    void *payload;
} bw_hour_options;

BW_END_C

#endif
