#ifndef BOTHWAYS_CHOOSE_H
#define BOTHWAYS_CHOOSE_H

/** @file Which build-up: every design that the <choices> of an assembly make,
 *  under the same unknowns. */

#include "bothways/assessment.h"
#include "bothways/margin.h"

BW_BEGIN_C

/** One assessment of one design, small enough to keep by the thousand and to be
 *  written to a file. */
typedef struct bw_judged {
    bool done;
    bool simulated;
    bw_verdict said;      /**< as `check` says it */
    bw_verdict numbers;   /**< by the numbers alone, of a screening */
    double margin;        /**< lowest, relative to its limit; NAN: none */
    int deciding;         /**< which criterion decides, see bw_case; -1: none */
    double value, limit;  /**< its; NAN: none */
    bool never;           /**< a time that was not reached */
    double goal[BW_GOAL_COUNT]; /**< those that a case tells: reserve, mould
                               index, wood moisture; NAN: not known */
} bw_judged;

/** Where a case is kept, and whence it comes back. */
typedef struct bw_judged_at {
    size_t design, slot;  /**< as docs/scaling.md says */
    bw_judged judged;
} bw_judged_at;

/** What has been said of a design at last. */
typedef enum bw_standing {
    BW_STANDS,        /**< holds, whatever was found of all that was tried */
    BW_BREAKS,        /**< fails, `breaks` says by what */
    BW_UNDECIDED,     /**< never fails, but in some case nobody can tell */
    BW_OUT,           /**< dropped, `dropped` says why */
} bw_standing;

/** An unknown, the same of every design that has it. */
typedef struct bw_finding {
    const char *name;     /**< in words, of the first design that has it */
    const char *low, *high; /**< its two ends in words; low "": as drawn */
    bool settled;         /**< the user has settled it: as drawn in every case */
    size_t asked, broken; /**< designs that it was tried in alone, and of them
                               those that it breaks */
    bool of_choice;       /**< it is of a layer that is chosen: each option's
                               own range */
} bw_finding;

/** A finding alone in a design. */
typedef struct bw_found_alone {
    bool applies;         /**< the design has such an unknown */
    bool computed;
    bool simulated;
    bw_verdict verdict;   /**< the worse of its ends */
    bw_verdict numbers;   /**< there by the numbers alone, of a screening */
    const char *setting;  /**< that end, in words */
    bw_figure figure;     /**< that decides there */
} bw_found_alone;

typedef struct bw_design {
    const char *name;         /**< its options, ", " between */
    const size_t *option;     /**< of each choice */
    bw_standing standing;
    bool marginally;          /**< BW_STANDS, and in some case only marginally */
    const char *dropped;      /**< why, of BW_OUT; else "" */
    long beaten_by;           /**< another design; -1: by none */
    size_t beaten_after;      /**< cases of each when it was */
    double goal[BW_GOAL_COUNT]; /**< 90th percentile over the drawn cases of
                                   mould and wood, 10th of the reserve; NAN: not
                                   known */
    double drawn_goal[BW_GOAL_COUNT]; /**< the same as drawn */
    bool assumed[BW_GOAL_COUNT]; /**< what it rests on is assumed */
    const char *assumed_layers; /**< names, "" if none */
    bw_verdict as_drawn;
    bw_figure figure;         /**< that decides as drawn */
    size_t drawn;             /**< cases drawn for the statement; 0: a finding
                                   alone breaks it, and others none */
    size_t failed, unassessed; /**< of them */
    size_t failed_numbers;    /**< of them, by the numbers alone */
    double bound;             /**< of the share that does not hold, 95 % */
    const bw_found_alone *found;    /**< [finding_count] */
    const char *breaks;       /**< the finding that breaks it, "" if none does */
    bw_figure breaks_figure;
    const char *worst;        /**< worst drawn case, in words; "" without one */
    bw_verdict worst_verdict, worst_numbers;
    bw_figure worst_figure;
    const char *decides;      /**< the unknown that decides it: as drawn again it
                                   gains most; "" not asked for */
    size_t tie;               /**< number of those that it cannot be told apart
                                   from, from 1; 0: it can from all */
    bool on_front;
    const char *central;      /**< "" or the goal in which it is the best of the
                                   front as drawn, and not in the drawn cases */
    double score;             /**< weighted, 0 best; NAN: no weights */
} bw_design;

/** Designs left after so many drawn cases. */
typedef struct bw_round {
    bool simulated;
    size_t cases, designs_before, designs_after;
} bw_round;

enum { BW_ROUNDS_MOST = 32 };

typedef struct bw_chosen {
    const bw_assembly *assembly; /**< borrowed from the caller */
    const bw_climate *climate;
    const bw_assessment *assessment; /**< the wall as drawn, by months */
    const bw_choices *choices;
    bool simulated;           /**< the statements rest on simulations */
    size_t design_count;
    const bw_design *design;  /**< in the order of the file: last choice first
                                   to change */
    size_t front_count;
    const size_t *front;      /**< designs, those that hold first */
    size_t holding;           /**< of them */
    size_t finding_count;
    const bw_finding *finding;
    size_t fixed_count;       /**< what `margin` varies and this did not */
    const char *const *fixed; /**< names */
    bool known[BW_GOAL_COUNT]; /**< goals that are told of a design left */
    size_t over_limit, as_drawn_failing, beaten; /**< dropped */
    size_t broken;            /**< dropped: they break, and one that holds is no
                                   worse in what is fixed */
    size_t round_count;
    bw_round round[BW_ROUNDS_MOST];
    bool has_weights;
    bool best_stays;          /**< the first by score stays first when any one
                                   weight is halved or doubled */
    const char *best_moves;   /**< else which weight moves it; "" */
    unsigned long long seed;
    size_t race_cases;        /**< most by months, of each design */
    size_t drawn_cases;
    double joint_bound;       /**< of the front's first, held for all that were
                                   drawn for at once; NAN without one */
    size_t drawn_designs;
    size_t steady_count, simulation_count; /**< assessments, those kept from an
                                   earlier run counted, too */
    bool partial;             /**< a part alone was computed: nothing is said */
    size_t part, parts;
} bw_chosen;

typedef struct bw_choose_options {
    bw_assessment_options assessment; /**< its progress is not used */
    unsigned long long seed;
    size_t race_cases;   /**< most by months of each design; 0: 256 */
    size_t drawn_cases;  /**< of each design that is left; 0: 32, by months
                              256 */
    bool wide;           /**< every unknown that `margin` has */
    size_t settled_count; /**< findings that are settled, each by words that the
                              name of one of them has */
    const char *const *settled;
    size_t part, parts;  /**< 1..parts: simulate one of so many parts alone;
                              parts 0: all */
    const bw_judged_at *known; /**< of an earlier run with the same wall and
                              options; borrowed during the call */
    size_t known_count;
    /** Keeps what there is so far, at last all; may be NULL. Called by the
     *  caller's thread.
     *  @return BW_OK, or what bw_choose_make is to return */
    bw_status (*keep)(void *payload, const bw_judged_at *all, size_t count,
                      bool last, bw_error *err);
    void *keeper;
    bw_progress *progress; /**< may be NULL; called by one thread at a time */
    void *payload;
} bw_choose_options;

/** @param options NULL: by months, seed 1
 *  @return BW_OK; BW_ERR_DOMAIN: the assembly has no choices; BW_ERR_USAGE:
 *          options out of range, no finding or several by some words; BW_ERR_INPUT: a
 *          known case is of no design; BW_ERR_MEMORY, BW_ERR_CANCELLED, what
 *          bw_assess says */
BW_API bw_status bw_choose_make(bw_chosen **out, const bw_assembly *assembly,
                                const bw_climate *climate,
                                const bw_choose_options *options,
                                bw_error *err);

/** Frees it; NULL is allowed. */
BW_API void bw_chosen_free(bw_chosen *chosen);

/** "failing", "u", ...: in files and tables. */
BW_API const char *bw_goal_name(bw_goal goal);

/** The words of the standing: "holds", "breaks", "not assessed", "dropped". */
BW_API const char *bw_standing_text(bw_standing standing);

BW_END_C

#endif
