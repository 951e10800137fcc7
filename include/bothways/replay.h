#ifndef BOTHWAYS_REPLAY_H
#define BOTHWAYS_REPLAY_H

/** @file
 * A logger's record beside the simulation: what it measured on both sides of
 * the wall drives it, what it measured within is compared. Results are plain
 * data.
 */

#include "bothways/assembly.h"
#include "bothways/log.h"
#include "bothways/transient.h"

BW_BEGIN_C

/** A figure that could not be had is NAN. */
typedef struct bw_replay_figures {
    int year, month;     /**< of a month: 2021, 0..11 (UTC); of all: 0 */
    size_t theta_hours, rh_hours; /**< compared */
    double theta_bias, theta_rms; /**< K, computed less measured */
    double rh_bias, rh_rms;       /**< -, of RH over liquid water */
    double pressure_bias;         /**< Pa */
    /** Of the drop from the room to the outer air, the part reached at the
     *  place; of the means. NAN: the drop is less than 5 K, 200 Pa. */
    double theta_share_measured, theta_share_computed;
    double pressure_share_measured, pressure_share_computed;
    double theta_drop, pressure_drop; /**< K, Pa, mean */
} bw_replay_figures;

/** One hour at a place; NAN: not measured. RH over liquid water, as measured. */
typedef struct bw_replay_hour {
    double theta, rh;                   /**< measured, degC, - */
    double theta_computed, rh_computed; /**< may be above 1 in no case */
    bool compared;                      /**< behind the run-in, no gap */
} bw_replay_hour;

/** A place within the wall that was measured. */
typedef struct bw_replay_place {
    const bw_log_channel *channel;
    const char *name;     /**< "sheathing|insulation" as in the tables */
    const char *words;    /**< for people */
    const char *section;  /**< "between-studs" */
    double depth;         /**< m from the outer face of what is simulated */
    const bw_replay_hour *hour; /**< [hour_count] */
    bw_replay_figures all;
    size_t month_count;
    const bw_replay_figures *month;
} bw_replay_place;

/** One input moved within its range. */
typedef struct bw_replay_trial {
    const char *name;     /**< "mu of the sheathing" */
    const char *words;    /**< "mu of the sheathing 60": at its best */
    const char *drawn;    /**< as drawn, "" where no one value says it */
    const char *layer;    /**< id, "" */
    const char *unit;
    double value, low, high; /**< in `unit`; value NAN: a switch */
    double misfit;        /**< at its best */
    bool at_end;          /**< the best is an end of its range */
} bw_replay_trial;

/** What is doubtful of a record. */
typedef enum bw_doubt_kind {
    BW_DOUBT_SWAPPED_COLUMNS, BW_DOUBT_SWAPPED_SIDES, BW_DOUBT_ZONE,
    BW_DOUBT_SATURATED, BW_DOUBT_STUCK, BW_DOUBT_ICE, BW_DOUBT_JUMP,
    BW_DOUBT_GAP, BW_DOUBT_NOT_BETWEEN, BW_DOUBT_COPY,
    BW_DOUBT_KINDS
} bw_doubt_kind;

typedef struct bw_doubt {
    bw_doubt_kind kind;
    const bw_log_channel *channel; /**< NULL: of no one */
    long line;            /**< where it begins */
    const char *message;
} bw_doubt;

typedef struct bw_replay {
    const bw_assembly *assembly; /**< borrowed, as is the next */
    const bw_log *log;
    double start;         /**< s since 1970 UTC, of the first hour */
    size_t hour_count;
    size_t run_in;        /**< hours left out at the start and behind a gap */
    size_t gap_limit;     /**< hours bridged without leaving any out */
    const bw_boundary *boundary; /**< [hour_count] as it was driven */
    const bw_log_channel *room, *outer; /**< whose air */
    bool cavity;          /**< outer is that of a cavity */
    size_t left_out;      /**< outer layers not simulated, the cavity too */
    bool outdoor_no_weather; /**< outdoors without sun, sky, wind and rain */
    size_t compared;      /**< hours behind the run-in and the gaps */
    size_t place_count;
    const bw_replay_place *place;
    bool assessed;        /**< there is a figure */
    const char *not_assessed; /**< why not, or ""; a sentence */
    double misfit;        /**< as drawn: rms of differences over what such
                               loggers tell, 0.5 K and 3 % RH; NAN */
    bool tried;           /**< inputs were moved */
    size_t trial_count;   /**< those that change anything, best first */
    const bw_replay_trial *trial;
    size_t unmoved;       /**< inputs that move it by less than 0.5 % */
    bool suggests;        /**< trial[0] explains the difference */
    const char *suggestion; /**< a sentence either way, or "" */
    size_t doubt_count;
    const bw_doubt *doubt;
    size_t note_count;
    const char *const *note; /**< what was assumed: sentences */
} bw_replay;

typedef struct bw_replay_options {
    int run_in;           /**< h; below 0: 48 */
    bool no_trials;       /**< move no input */
    int threads;          /**< 0: one a core */
    bw_transient_options transient; /**< cells and tolerances are looked at */
    bw_progress *progress; /**< may be NULL */
    void *payload;
} bw_replay_options;

/**
 * Simulate a wall under a record and compare.
 * @param[out] out  free with bw_replay_free
 * @param climate   of the wall, for the hour of noon; may be NULL
 * @return BW_OK; BW_ERR_INPUT: what the record names is not in the wall, or it
 *         measures no air of the room or outside; BW_ERR_DOMAIN, BW_ERR_NUMERIC
 *         as bw_transient; BW_ERR_MEMORY, BW_ERR_CANCELLED
 */
BW_API bw_status bw_replay_make(bw_replay **out, const bw_assembly *assembly,
                                const bw_log *log, const bw_climate *climate,
                                const bw_replay_options *options,
                                bw_error *err);

/** Frees a replay; NULL is allowed. */
BW_API void bw_replay_free(bw_replay *replay);

/** "swapped-columns" and so on; never NULL. */
BW_API const char *bw_doubt_text(bw_doubt_kind kind);

BW_END_C

#endif
