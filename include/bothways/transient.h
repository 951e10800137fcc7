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

/** Which liquid diffusivity water that is in the wall spreads by. */
typedef enum bw_redistribution {
    BW_REDISTRIBUTION_RULE = 0, /**< that of suction in hours with rain on the
                                     wall, the slower one of redistribution in
                                     all others (docs/methods.md) */
    BW_REDISTRIBUTION_SUCTION,  /**< that of suction at all times: dries sooner */
} bw_redistribution;

/** Options; zero-initialise for the defaults. */
typedef struct bw_transient_options {
    int max_years;          /**< 0: 10; stops earlier when periodic */
    int start_month;        /**< 0..11; default 0 is taken as October (9)
                                 unless start_month_given */
    bool start_month_given;
    double temperature_tolerance; /**< K, 0: 0.01; error in time aimed at
                                       inside the wall (docs/methods.md) */
    double humidity_tolerance;    /**< -, 0: 0.0005 */
    double grid_refinement; /**< 0: 1; 2 halves every cell */
    bool keep_hours;        /**< keep hourly series of the last year */
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
    bw_redistribution redistribution; /**< liquid diffusivity without rain */
    bw_progress *progress;  /**< may be NULL */
    void *payload;
} bw_transient_options;

/** What is watched at a place: an interface between slabs. Index 0 is the
 *  outer face of the outermost slab. */
typedef struct bw_monitor {
    size_t slab;            /**< the slab on its outer side; for the outer
                                 face 0 with `outer_face` true */
    bool outer_face, room_face;
    const char *label;
    bw_mould_class mould_class; /**< the more sensitive of the two faces */
    double hours_above_80, hours_above_90, hours_above_95; /**< last year */
    double highest_rh;      /**< -, last year */
    double highest_mould;   /**< index, over all years */
    double final_mould;
    double month_rh[BW_MONTHS];    /**< -, mean of last year */
    double month_theta[BW_MONTHS]; /**< degC, mean of last year */
} bw_monitor;

/** Moisture of one slab over the last year. */
typedef struct bw_slab_moisture {
    double initial;         /**< kg/m2 */
    double lowest, highest; /**< kg/m2, last year */
    double month_mean[BW_MONTHS];  /**< kg/m2, last year */
    bool is_wood;
    double highest_wood_moisture;  /**< kg/kg, wettest 10 mm (or the whole,
                                        if thinner), 24 h mean, last year */
    int highest_month;
    double hours_above_limit;      /**< hours over 20 % (wood) / 18 % (panel) */
} bw_slab_moisture;

/** One hour of what is watched (keep_hours). Arrays of monitor_count. */
typedef struct bw_hour_row {
    double theta, phi, water_content, mould; /**< degC, -, kg/m3, - */
} bw_hour_row;

typedef struct bw_transient_result {
    const char *method;          /**< what was left out or synthetic, one line */
    bool synthetic_climate;
    size_t note_count;
    char note[8][160];           /**< what was assumed or not covered */
    size_t monitor_count;
    bw_monitor *monitor;
    size_t slab_count;
    bw_slab_moisture *slab;
    int years;
    double year_end_water[32];   /**< kg/m2, total at the end of each year */
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
    size_t hour_count;           /**< rows kept: hour_count * monitor_count */
    int first_month;             /**< month of the first kept hour */
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
                                      and any interface or the room face when
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

/** Frees what a result owns (not the struct); NULL is allowed. */
BW_API void bw_transient_free(bw_transient_result *result);

BW_END_C

#endif
