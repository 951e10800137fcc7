#ifndef BOTHWAYS_COMPARE_H
#define BOTHWAYS_COMPARE_H

/** @file Two to eight assemblies side by side. */

#include "bothways/assessment.h"
#include "bothways/margin.h"

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

/** One wall under one stress. */
typedef struct bw_stressed {
    bool applies;         /**< false: the wall has no such part, see `reason` */
    const char *setting;  /**< the stress in words; "" where none applies */
    const char *reason;   /**< "" or why it does not apply or was not assessed */
    bw_verdict verdict;   /**< BW_NOT_ASSESSED where it was not computed */
    bw_verdict outcome;   /**< what the numbers alone say, of a screening */
    bw_figure figure;     /**< that decides */
    double worst_margin;  /**< lowest margin to a limit that fails a wall,
                               relative to it, within -1..1; NAN: none */
} bw_stressed;

/** One stress on all walls: a standard unknown of a margin at its worse end,
 *  the same for every wall. */
typedef struct bw_stress {
    const char *name;     /**< stable: "air-leak", "rain-leak", "damp-room",
                               "blocked-cavity" */
    const char *title;    /**< in plain words */
    const bw_stressed *wall; /**< one a wall */
} bw_stress;

/** Why the best wall stands before another. */
typedef enum bw_because {
    BW_BECAUSE_NONE,       /**< nothing that the figures can show */
    BW_BECAUSE_VERDICT,
    BW_BECAUSE_STRESSES,   /**< it holds more of the stresses */
    BW_BECAUSE_RESERVE,    /**< it stays further from its limits */
} bw_because;

/** Less than this share of a limit between two walls is no difference: that
 *  within which a wall that holds is called marginal. */
#define BW_COMPARE_DIFFERENCE BW_MARGINAL_SHARE

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
    double framing_depth;       /**< m, of framing that stayed as deep as it is
                                     in a layer that got thicker; 0: none */
    double thickness_before, thickness_after; /**< m, of that layer */
    double thickness_to_buy;    /**< m, of the same U the next that the layer
                                     is sold in (bw_layer.sold); 0: none is
                                     asked for, or none is thick enough */
    double thickest_sold;       /**< m, of that list; 0: there is none, and
                                     multiples of BW_SOLD_STEP are taken */
    double transmittance_to_buy; /**< W/(m2 K) with it; not what is compared */
    double worst_margin;       /**< the same as drawn and under every stress
                                    computed */
    size_t stresses;           /**< that apply */
    size_t not_held;           /**< of them: it fails, or was not assessed */
    bw_because because;          /**< why the best wall stands before this one */
    bool fails_airless;          /**< it fails without its leaking air, too;
                                      computed where a better wall counts none */
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

/** In what one of the walls that are not told apart is better than another, by
 *  BW_COMPARE_DIFFERENCE of a limit or more. */
typedef struct bw_trait {
    const char *name;      /**< of the criterion or stress */
    const char *words;     /**< of the better wall: "dries faster" */
    size_t best, worst;    /**< walls */
    double apart;          /**< shares of the limit between these */
    const bw_compare_row *row; /**< as drawn, or NULL and: */
    const bw_stress *stress;
} bw_trait;

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
    size_t stress_count;
    const bw_stress *stress;
    const size_t *order;       /**< walls, the best first: by verdict, by the
                                    stresses not held, by worst_margin; then as
                                    given */
    size_t best_count;         /**< so many of the first cannot be told apart;
                                    0: of none is it known that it holds */
    size_t trait_count;
    const bw_trait *trait;     /**< in what these differ all the same, what
                                    differs most first */
    bool unlike_air;           /**< `airless` is among the best and counts no
                                    leaking air; `aired` stands behind, counts
                                    its own, and it is not known whether for
                                    more than that */
    size_t airless, aired;
    size_t simulation_count;   /**< walls simulated, stressed ones too */
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
    bool scale_framing;         /**< framing as deep as that layer goes along;
                                     else it stays, and what is thicker lies
                                     across it */
    bw_assessment_options assessment; /**< its progress function is called by
                                     one thread at a time, over all walls */
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

BW_END_C

#endif
