#ifndef BOTHWAYS_MARGIN_H
#define BOTHWAYS_MARGIN_H

/** @file How far each uncertain input may go before a criterion flips. */

#include "bothways/assessment.h"

/** Where an uncertain input comes from. */
typedef enum bw_unknown_kind {
    BW_UNKNOWN_RANGE,       /**< an <uncertain> range of the file */
    BW_UNKNOWN_ALTERNATIVE, /**< an <alternative> layer of the file */
    BW_UNKNOWN_STANDARD,    /**< one of the standard unknowns */
} bw_unknown_kind;

/** One unknown, varied alone. */
typedef struct bw_unknown {
    bw_unknown_kind kind;
    const char *name;       /**< plain words: "mu of the sheathing" */
    const char *layer;      /**< layer id, or "" */
    const char *unit;
    bool continuous;        /**< false: a switch (blocked / not, this / that) */
    double as_drawn, low, high;
    bw_verdict verdict_as_drawn, verdict_low, verdict_high;
    bool flips;             /**< some criterion changes within the range */
    double flip_value;      /**< where the first one flips, if continuous */
    double flip_bracket;    /**< half-width of the final bracket */
    const char *flip_criterion; /**< which criterion, in which section */
    bool monotone;          /**< the deciding value moved one way over all
                                 samples taken */
    double worst_margin;    /**< lowest relative margin over the range */
    double swing;           /**< change of the worst relative margin from low
                                 to high: ranks the list */
} bw_unknown;

/** One cell of the inner-sd x outer-sd map. */
typedef struct bw_sd_cell {
    double condensed, evaporable, reserve; /**< kg/m2, period balance */
} bw_sd_cell;

typedef struct bw_margin {
    bw_verdict as_drawn;
    const bw_assessment *assessment; /**< as drawn; borrowed from the margin */
    size_t unknown_count;
    const bw_unknown *unknown;       /**< ranked, largest swing first */
    bw_verdict worst_combination;
    const char *worst_combination_text;
    size_t inner_count, outer_count;
    const double *inner_sd, *outer_sd; /**< m */
    const bw_sd_cell *map;           /**< [outer][inner] */
    size_t ensemble_count;           /**< 0: not run */
    size_t ensemble_holds;
    double ensemble_share, ensemble_error; /**< share and its standard error */
} bw_margin;

typedef struct bw_margin_options {
    bw_assessment_options assessment;
    size_t ensemble;       /**< number of quasi-random cases, 0 none */
    bool ensemble_transient;
    int threads;           /**< 0: as many as there are cores */
    bw_progress *progress;
    void *payload;
} bw_margin_options;

/** @return BW_OK, BW_ERR_MEMORY, BW_ERR_CANCELLED, or what bw_assess says */
BW_API bw_status bw_margin_make(bw_margin **out, const bw_assembly *assembly,
                                const bw_climate *climate,
                                const bw_margin_options *options,
                                bw_error *err);

/** Frees a margin; NULL is allowed. */
BW_API void bw_margin_free(bw_margin *margin);

#endif
