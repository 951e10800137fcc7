#ifndef BOTHWAYS_COMPARE_H
#define BOTHWAYS_COMPARE_H

/** @file Two to eight assemblies side by side. */

#include "bothways/assessment.h"
#include "bothways/report.h"

BW_BEGIN_C

/** Fewest and most walls of a comparison. */
enum { BW_COMPARE_FEWEST = 2, BW_COMPARE_MOST = 8 };

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
    const char *label;         /**< the id, numbered where two walls share it */
    double transmittance;      /**< W/(m2 K) */
    double total_thickness;    /**< m, all layers, cladding and cavity too */
    bool rescaled;
    const char *rescaled_layer; /**< name of the layer, if rescaled */
    const char *rescaled_id;    /**< its id, if rescaled */
    bool rescaled_framing;      /**< framing as deep as the layer went along */
    double thickness_before, thickness_after; /**< m, of that layer */
    bw_verdict verdict;        /**< the assessment's; where by_months_reason is
                                    not NULL BW_FAILS or BW_NOT_ASSESSED */
} bw_compared;

/** One line of the common table: a criterion or a key number over all walls.
 *  Arrays have one entry a wall. */
typedef struct bw_compare_row {
    const char *name;      /**< criterion short name, or key-number name */
    const char *title;     /**< in plain words */
    const char *unit;
    bool is_criterion;     /**< else a key number without a verdict */
    bool by_months;        /**< of the steady monthly or period method */
    const bool *has_value;
    const double *value;   /**< the worst section's */
    const bw_verdict *verdict; /**< NULL for a key number; for a wall without
                                    the criterion BW_NOT_ASSESSED, and
                                    `criterion` is NULL there */
    const char *const *section; /**< the section the value is from; "" if it is
                                     the whole wall's or there is none */
    const bw_criterion *const *criterion; /**< the worst section's, NULL where
                                     the wall has no such criterion; the array
                                     is NULL for a key number */
    const char *const *instead; /**< what stands for a missing value, "not in
                                     10 years"; "" where there is a value */
} bw_compare_row;

typedef struct bw_comparison {
    bw_equal equal;
    bool simulated;            /**< every section of every wall */
    const char *by_months_reason; /**< NULL, or which wall could not be
                                     simulated and why: then no wall was, and
                                     the months are a screening of them all */
    bool climates_differ;      /**< the outdoor climates; only when allowed */
    bool indoors_differ;       /**< the rooms; only when allowed */
    size_t wall_count;
    const bw_compared *wall;
    size_t row_count;
    const bw_compare_row *row;
    size_t difference_count;   /**< conditions that are not the same for all */
    const char *const *difference; /**< sentences */
    size_t sentence_count;     /**< only what the rows show */
    const char *const *sentence;
} bw_comparison;

typedef struct bw_compare_options {
    bw_equal equal;
    bool conditions_may_differ; /**< walls in different climates or rooms are
                                     compared all the same; not together with
                                     an `equal` that rescales */
    const char *scaled_layer;   /**< layer id to rescale; NULL: the main
                                     insulation layer */
    bw_assessment_options assessment; /**< its progress function is called by
                                     one thread at a time, over all walls */
    int threads;                /**< 0: as many as there are cores */
} bw_compare_options;

/** @param assembly  borrowed until bw_comparison_free, as are the climates
 *  @param count     2..8 assemblies, each with its climate
 *  @param options   NULL for the defaults
 *  @return BW_OK; BW_ERR_USAGE when the count is out of range or options
 *  contradict each other; BW_ERR_DOMAIN when climates or rooms differ and may
 *  not, or a layer cannot be rescaled to reach what is asked; what bw_assess
 *  says */
BW_API bw_status bw_compare(bw_comparison **out,
                            const bw_assembly *const *assembly,
                            const bw_climate *const *climate, size_t count,
                            const bw_compare_options *options, bw_error *err);

/** Frees a comparison; NULL is allowed. */
BW_API void bw_comparison_free(bw_comparison *comparison);

/** The comparison as text: what is held equal, the table, the sentences. */
BW_API bw_status bw_report_compare_text(const bw_comparison *comparison,
                                        const bw_report_options *options,
                                        bw_sink *sink, void *payload,
                                        bw_error *err);

/** The same as one HTML page, as bw_report_html does. */
BW_API bw_status bw_report_compare_html(const bw_comparison *comparison,
                                        const bw_report_options *options,
                                        bw_sink *sink, void *payload,
                                        bw_error *err);

BW_END_C

#endif
