#ifndef BOTHWAYS_COMPARE_H
#define BOTHWAYS_COMPARE_H

/** @file Two to eight assemblies side by side. */

#include "bothways/assessment.h"

/** What is held equal before comparing. */
typedef enum bw_equal {
    BW_EQUAL_AS_DRAWN,  /**< nothing: the walls as their files say */
    BW_EQUAL_U,         /**< one layer's thickness is rescaled until every
                             wall has the first one's U-value */
    BW_EQUAL_THICKNESS, /**< one layer's thickness is set so that every wall
                             is as thick in total as the first */
} bw_equal;

/** One wall of a comparison. */
typedef struct bw_compared {
    const bw_assessment *assessment; /**< borrowed from the comparison */
    const char *id, *title;
    double transmittance;      /**< W/(m2 K) */
    double total_thickness;    /**< m, what is kept of it in the calculation */
    bool rescaled;
    const char *rescaled_layer; /**< name of the layer, if rescaled */
    double thickness_before, thickness_after; /**< m, of that layer */
} bw_compared;

/** One line of the common table: a criterion or a key number over all walls.
 *  Arrays have one entry a wall. */
typedef struct bw_compare_row {
    const char *name;      /**< criterion short name, or key-number name */
    const char *title;     /**< in plain words */
    const char *unit;
    bool is_criterion;     /**< else a key number without a verdict */
    const bool *has_value;
    const double *value;   /**< the worst section's */
    const bw_verdict *verdict;
    const char *const *section; /**< the section the value is from */
} bw_compare_row;

typedef struct bw_comparison {
    bw_equal equal;
    bool climates_differ;      /**< only with as-drawn and when allowed */
    size_t wall_count;
    const bw_compared *wall;
    size_t row_count;
    const bw_compare_row *row;
    size_t sentence_count;     /**< two or three, only what the rows show */
    const char *const *sentence;
} bw_comparison;

typedef struct bw_compare_options {
    bw_equal equal;
    const char *scaled_layer;   /**< layer id to rescale; NULL: the thickest
                                     insulation layer */
    bw_assessment_options assessment;
    int threads;                /**< 0: as many as there are cores */
} bw_compare_options;

/** @param count 2..8 assemblies, each with its climate
 *  @return BW_OK; BW_ERR_DOMAIN when climates differ and equal is not
 *  as-drawn, or a layer cannot be rescaled to reach what is asked */
BW_API bw_status bw_compare(bw_comparison **out,
                            const bw_assembly *const *assembly,
                            const bw_climate *const *climate, size_t count,
                            const bw_compare_options *options, bw_error *err);

/** Frees a comparison; NULL is allowed. */
BW_API void bw_comparison_free(bw_comparison *comparison);

#endif
