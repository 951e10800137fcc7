#ifndef BOTHWAYS_TRANSIENT_H
#define BOTHWAYS_TRANSIENT_H

/** @file
 * Coupled heat and moisture in one dimension, hour by hour, after the
 * equations of EN 15026. Results are plain data.
 */

#include "bothways/assembly.h"
#include "bothways/mould.h"

BW_BEGIN_C

/** Asked between steps; return false to stop (BW_ERR_CANCELLED). */
typedef bool bw_progress(void *payload, double fraction_done);

/** The hours of the year that every series of a run has. */
enum { BW_TRANSIENT_HOURS = 8760, BW_TRANSIENT_DAYS = 365 };

/** The year in spans of five days, for what is to be drawn of it; the first
 *  begins with first_month. */
enum { BW_SPAN_HOURS = 120, BW_SPANS = 73 };

/** The most years that a run is told of. */
enum { BW_MOST_YEARS = 32 };

/** Water put at a face of a slab at the start of a run.
 *
 *  It goes into the slab's own cells, from that face on, filling each to its
 *  free saturation, then into those of the neighbour across the face, from the
 *  face on. A slab without cells (a membrane) has the water on that side of
 *  it. More than these hold: BW_ERR_DOMAIN. */
typedef struct bw_water_put {
    double water;           /**< kg/m2; 0: none is put */
    size_t slab;            /**< index into the section's slabs */
    bool outer_side;        /**< at its outer face; else at its inner face */
} bw_water_put;

/** Which way out is closed to vapour and liquid, not to heat: the face on that
 *  side of the water put beyond which the air is that the wall dries into, of
 *  its surface or, where one lies before it, of a ventilated cavity. All that
 *  lies between still takes up water and gives it back. So with nothing closed
 *  a wall dries no slower than either way. (Closed right beside the water it
 *  could seem faster: nothing would spread into what lies behind.) Where a
 *  ventilated cavity is wetted itself: BW_ERR_DOMAIN. */
typedef enum bw_closed {
    BW_CLOSED_NOWHERE,
    BW_CLOSED_INSIDE,       /**< dries outwards only */
    BW_CLOSED_OUTSIDE,      /**< dries inwards only */
    BW_CLOSED_BOTH_SIDES,   /**< does not dry at all, unless by a leak */
} bw_closed;

/** Which liquid diffusivity water that is in the wall spreads by. */
typedef enum bw_redistribution {
    BW_REDISTRIBUTION_RULE = 0, /**< that of suction in hours with rain on the
                                     wall, the slower one of redistribution in
                                     all others (docs/methods.md) */
    BW_REDISTRIBUTION_SUCTION,  /**< that of suction at all times: dries sooner */
} bw_redistribution;

/** Depths of a run at which the water of every hour is kept. */
enum { BW_DEPTHS_MOST = 4 };

/** That a slab of wood has dried: the wettest 10 mm, in the mean of each of so
 *  many days running. A run that ends with it tells its first_days, zero for
 *  days that it did not see, and nothing else of its year. */
typedef struct bw_until_dry {
    int days;               /**< 0: not asked */
    size_t slab;
    double moisture;        /**< kg/kg, at most */
} bw_until_dry;

/** Options; zero-initialise for the defaults. */
typedef struct bw_transient_options {
    int max_years;          /**< 0: 10; stops earlier when periodic */
    int start_month;        /**< 0..11; unless start_month_given October (9),
                                 or April where that half year is colder */
    bool start_month_given;
    double temperature_tolerance; /**< K, 0: 0.01; error in time aimed at
                                       inside the wall (docs/methods.md) */
    double humidity_tolerance;    /**< -, 0: 0.0005 */
    double grid_refinement; /**< 0: 1; 2 halves every cell */
    bool carry_years;       /**< where three or four years have shown how the
                                 rest will go, go on from where they lead
                                 instead of simulating every year
                                 (docs/methods.md); the first three years and
                                 the last one are always simulated */
    int hours_as_one;       /**< 0, 1: every hour is met; up to so many (at
                                 most 24) hours without rain are taken as one:
                                 their sums are kept, a place is seen at the
                                 end of them. Not with keep_hours */
    bool keep_hours;        /**< keep hourly series of the last year */
    size_t depth_count;     /**< of `depth`, at most BW_DEPTHS_MOST */
    double depth[BW_DEPTHS_MOST]; /**< m from the outer face, within a layer
                                 with thickness: keep the hours there */
    bool cavities_blocked;
    double rain_leak;       /**< fraction 0..1 of the rain on the wall; 0 (or
                                 below): as the assembly says */
    bool no_air_leakage;
    bool allow_missing;     /**< take the named fall-back, noted in the result,
                                 where data is missing: no sorption points: not
                                 hygroscopic; no rain or wind: no rain; no
                                 radiation: no sun */
    bool fixed_permeability; /**< BW_DELTA_0 at every temperature, to be laid
                                  beside the steady methods */
    bw_until_dry until;     /**< ends the run in its first year */
    const double *state;    /**< NULL: the layers' initial moisture and, without
                                 one, 80 % RH. Else a month of the state of a
                                 result of the same wall with the same options,
                                 2 * state_cells values; borrowed */
    size_t state_cells;     /**< must be the cells of this wall */
    bw_water_put put;       /**< on top of either */
    bw_closed closed;       /**< other than nowhere only with `put` */
    bw_redistribution redistribution; /**< liquid diffusivity without rain */
    bw_progress *progress;  /**< may be NULL */
    void *payload;
    struct bw_shelf *shelf; /**< the library's own: tables that simulations
                                 share; NULL: none */
} bw_transient_options;

/** Hours a year above 80, 90 and 95 % RH. */
typedef struct bw_humid_hours {
    double above_80, above_90, above_95;
    int month;              /**< 0..11 with the most hours above 80 %; -1: none
                                 above it */
} bw_humid_hours;

/** Water that stands at a place in a year: what the half slab on either side
 *  of the face holds beyond what its material can bind. A material of known
 *  water absorption binds up to free saturation, any other (mineral fibre,
 *  foam, metal, air) what it sorbs at 98 % RH. A cavity of one cell counts at
 *  both its faces. */
typedef struct bw_free_water {
    double largest;         /**< kg/m2 */
    int month;              /**< of it, 0..11; -1: none ever stood */
    int hour;               /**< of it, 0..8759 from 1 January; -1 */
    double hours;           /**< with more than 0.01 kg/m2 (estimate) */
} bw_free_water;

/** What is kept at a face between slabs. Index 0 is the
 *  outer face of the outermost slab. */
typedef struct bw_monitor {
    size_t slab;            /**< the slab on its outer side; for the outer
                                 face 0 with `outer_face` true */
    bool outer_face, room_face;
    const char *label;
    bw_mould_class mould_class; /**< of bw_mould_class_between */
    double hours_above_80, hours_above_90, hours_above_95; /**< last year */
    double highest_rh;      /**< -, last year */
    double highest_mould;   /**< index, over all years */
    double final_mould;
    bw_mould_state mould_end;      /**< to carry the index on from */
    bw_humid_hours first_year, last_year;
    bw_free_water first_free, last_free; /**< of the first, the last year */
    double month_rh[BW_MONTHS];    /**< -, mean of last year */
    double month_theta[BW_MONTHS]; /**< degC, mean of last year */
} bw_monitor;

/** One hour of the last year at a monitor. */
typedef struct bw_monitor_hour {
    float theta, phi, free_water; /**< degC, -, kg/m2 */
} bw_monitor_hour;

/** Means of a day over the wettest 10 mm of wood of that day. */
typedef struct bw_wood_day {
    double moisture;        /**< kg/kg */
    double theta, phi;      /**< degC, - (of the pores) */
} bw_wood_day;

/** Moisture of one slab; of the last year where nothing else is said. */
typedef struct bw_slab_moisture {
    double initial;         /**< kg/m2 */
    double inward[BW_SPANS];       /**< Pa, mean of each span, last year, of what
                                        the vapour pressure at its outer face is
                                        above that at its inner face; 0 in hours
                                        when it is below */
    double inward_in_sun[BW_SPANS]; /**< the part of it in hours with a net gain
                                        of radiation at the outer surface of
                                        the wall */
    double lowest, highest; /**< kg/m2, last year */
    double month_mean[BW_MONTHS];  /**< kg/m2, last year */
    bool is_wood;
    double highest_wood_moisture;  /**< kg/kg, wettest 10 mm (or the whole,
                                        if thinner), 24 h mean, last year */
    int highest_month;
    double hours_above_limit;      /**< hours over 20 % (wood) / 18 % (panel) */
    /* of wood only, else 0 and NULL */
    double limit;                  /**< kg/kg, that limit */
    double first_highest_wood_moisture; /**< kg/kg, first year */
    int first_highest_month;
    double first_hours_above_limit;
    double weeks_to_limit;         /**< from the start until it stays below its
                                        limit to the end of the run; 0: never
                                        above; -1: above in the last year (after
                                        one year alone: on its last day) */
    bw_wood_day *first_days, *last_days; /**< BW_TRANSIENT_DAYS rows from the
                                        start of first_month; the same values
                                        after one year alone */
} bw_slab_moisture;

/** One cell through the last year. */
typedef struct bw_cell_year {
    size_t slab;
    double middle, width;   /**< m; of the middle from the outer face of the
                                 wall */
    double phi[BW_SPANS];   /**< -, mean of each span */
} bw_cell_year;

/** One hour of what is watched (keep_hours). Arrays of monitor_count. */
typedef struct bw_hour_row {
    double theta, phi, water_content, mould; /**< degC, -, kg/m3, - */
} bw_hour_row;

/** A depth whose hours are kept: the cell it lies in. */
typedef struct bw_depth {
    double depth;           /**< m from the outer face of the wall, as asked */
    size_t slab;
    double free_water;      /**< kg/m3, at free saturation */
    double full_water;      /**< kg/m3, all pores */
} bw_depth;

/** One hour of it. Of the water what is not bound at the humidity of ice
 *  (bw_freezing_humidity) is ice below 0 degC: no supercooling, no hysteresis,
 *  and the run itself knows no ice. */
typedef struct bw_depth_hour {
    float theta, water, ice; /**< degC, kg/m3, kg/m3 of it */
} bw_depth_hour;

typedef struct bw_transient_result {
    const char *method;          /**< what was left out or synthetic, one line */
    bool synthetic_climate;
    size_t note_count;
    char note[16][160];           /**< what was assumed or not covered */
    size_t monitor_count;
    bw_monitor *monitor;
    size_t slab_count;
    bw_slab_moisture *slab;
    int years;
    int carried_years;           /**< of them, carried forward and not
                                      simulated (carry_years) */
    double year_end_water[BW_MOST_YEARS]; /**< kg/m2, total at the end of each
                                      year */
    double initial_water;        /**< kg/m2 */
    bool periodic;               /**< last year repeats within tolerance */
    bool rising;                 /**< total water grew in both of the last two
                                      years (second year of two); never after
                                      one year alone */
    double yearly_change;        /**< kg/m2, last year */
    double left_outwards;        /**< kg/(m2 a), net vapour+liquid, last year;
                                      negative: entered */
    double left_inwards;
    double rain_absorbed;        /**< kg/(m2 a) */
    double leak_convective;      /**< kg/(m2 a) */
    double leak_rain;            /**< kg/(m2 a) */
    double heat_loss;            /**< J/(m2 a) at the inner surface */
    double water_balance_error;  /**< relative to throughput, worst year */
    double energy_balance_error;
    size_t cells;
    size_t steps, rejected_steps, newton_iterations;
    int first_month;             /**< 0..11, in which every year of the run
                                      and every series of a year begins */
    bw_monitor_hour *last_hours; /**< [BW_TRANSIENT_HOURS][monitor_count] */
    size_t depth_count;
    bw_depth depth[BW_DEPTHS_MOST];
    bw_depth_hour *depth_hours;  /**< [BW_TRANSIENT_HOURS][depth_count] of the
                                      last year, or NULL */
    double first_month_water[BW_MONTHS]; /**< kg/m2, total, month means */
    double month_water[BW_MONTHS];
    double *state;               /**< [BW_MONTHS][2 * cells], opaque: the state
                                      at the start of each month of the last
                                      year */
    bw_cell_year *cell;          /**< [cells], outside to inside */
    double *mould_course;        /**< [years * BW_SPANS][monitor_count], index at
                                      the end of each span of every year */
    size_t hour_count;           /**< rows kept: hour_count * monitor_count */
    bw_hour_row *hour;           /**< [hour][monitor], or NULL */
    double *hour_total_water;    /**< [hour] kg/m2, or NULL */
} bw_transient_result;

/**
 * Simulate one section.
 * @param section  made with keep_all_layers
 * @param climate  with hours
 * @return BW_OK; BW_ERR_DOMAIN with the reason when data it needs is missing
 *         (sorption, rain column, radiation); BW_ERR_NUMERIC; BW_ERR_MEMORY;
 *         BW_ERR_CANCELLED
 */
BW_API bw_status bw_transient(bw_transient_result *out,
                              const bw_assembly *assembly,
                              const bw_section *section,
                              const bw_climate *climate,
                              const bw_transient_options *options,
                              bw_error *err);

/** How much a run depends on its cells and its steps. */
typedef struct bw_transient_convergence {
    double theta_time, phi_time; /**< K, -: largest change at any hour of a year
                                      and any face or the room face when
                                      the tolerances are a tenth */
    double theta_grid, phi_grid; /**< the same when every cell is halved */
    double water_time, water_grid; /**< kg/m2: change of the year's end */
    size_t cells, steps;         /**< of the run as set */
} bw_transient_convergence;

/** Repeat the first year with finer steps and with finer cells. The first
 *  day, which starts from an invented state, is left out.
 *  @return as bw_transient */
BW_API bw_status bw_transient_converge(bw_transient_convergence *out,
                                       const bw_assembly *assembly,
                                       const bw_section *section,
                                       const bw_climate *climate,
                                       const bw_transient_options *options,
                                       bw_error *err);

/** A wetting that is followed until it has dried. */
typedef struct bw_wetting_options {
    bw_transient_options run; /**< as the base run; its start, put, closed,
                                   years and hours kept are set from below */
    bw_water_put put;       /**< more than 0 kg/m2 */
    int month;              /**< 0..11, at whose start it is put */
    bw_closed closed;
    double share;           /**< of the water put that may be left; 0: 0.10 */
    int years;              /**< to wait; 0: 2; at most 10 */
} bw_wetting_options;

/** Months are of 365/12 days and count whole days from the wetting. The wall
 *  that was not wetted starts from the same state and is closed alike. No rain
 *  falls on either, nor leaks in. */
typedef struct bw_wetting_result {
    double months;          /**< until the excess, the water of the whole wall
                                 beyond that of the wall not wetted, stays below
                                 the share, what solid wood holds of it within
                                 0.5 % by mass (of less than 1 kg/m2 put: as
                                 much less), cell by cell, left out, and no more
                                 than half of what was put; -1: not
                                 within the years */
    double place_months;    /**< until the place stays back within its limits:
                                 the wetted cell at the face at 80 % RH or less
                                 in the mean of a day, and the wettest 10 mm of
                                 wood beside it at 20 % (panel: 18 %) or less;
                                 or, where the wall not wetted is above that,
                                 no more than 1 % RH and 0.5 % by mass above
                                 it. -1: not within the years; 0: never out */
    double damp_months;     /**< until the place stays so and, besides, no cell of
                                 what perishes, beside it or in fibres is above
                                 80 % RH in the mean of a day, unless within 1 %
                                 RH and 0.5 % by mass of the wall not wetted.
                                 -1: not within the years */
    double left;            /**< kg/m2, all of the excess when it ended */
    double left_outwards, left_inwards; /**< kg/m2 of the water put, by now */
    double highest_mould;   /**< index in the wetted cell, from 0 on */
    double highest_mould_dry; /**< the same of the wall not wetted */
    size_t day_count;       /**< until it ended: a week after both are reached,
                                 the years over, or a year over and the share
                                 out of reach though every year to come leave
                                 as much of the excess as that one did */
    double *excess;         /**< [day_count], kg/m2 at the end of each day */
} bw_wetting_result;

/** Wet a wall at a place and follow how it dries.
 *  @param base  a result of the same wall, with the same run options
 *  @return as bw_transient; BW_ERR_DOMAIN too for what is out of its range */
BW_API bw_status bw_wetting(bw_wetting_result *out, const bw_assembly *assembly,
                            const bw_section *section,
                            const bw_climate *climate,
                            const bw_transient_result *base,
                            const bw_wetting_options *options, bw_error *err);

/** Frees what a result owns (not the struct); NULL is allowed. */
BW_API void bw_wetting_free(bw_wetting_result *result);

/** Frees what a result owns (not the struct); NULL is allowed. */
BW_API void bw_transient_free(bw_transient_result *result);

BW_END_C

#endif
