#ifndef BOTHWAYS_CRITERION_H
#define BOTHWAYS_CRITERION_H

/** @file
 * What walls are judged by: one row a criterion, in the order of the reports.
 * Limits are those of the default; a rule set (profile.h) tightens some.
 * docs/criteria.md is written from here.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"

BW_BEGIN_C

/** What a building element is meant to last: EN 1990, design working life,
 *  category 4 (from memory, high). */
#define BW_SERVICE_YEARS 50

/** What a criterion is to the verdict of a section. */
typedef enum bw_criterion_role {
    BW_JUDGES,    /**< decides wherever it is assessed */
    BW_BY_MONTHS, /**< the monthly method: a cross-check of the simulation
                       within its limits; decides where there is none */
    BW_BY_BLOCKS, /**< the German block climate: decides under a rule set that
                       demands it and nowhere else */
} bw_criterion_role;

/** On which side of its limit a value has to lie. */
typedef enum bw_criterion_bound {
    BW_NO_LIMIT,         /**< a value to know, or a row that says what is not
                              assessed */
    BW_AT_MOST,
    BW_BELOW,            /**< at the limit it fails */
    BW_AT_LEAST,
    BW_ABOVE,            /**< at the limit it fails */
    BW_BELOW_OR_AT_MOST, /**< as the rule that limits it says */
} bw_criterion_bound;

/** "", "at most", "below", "at least", "above", "below or at most". */
BW_API const char *bw_bound_text(bw_criterion_bound bound);

/** When a row reads `marginal` by its number. */
typedef enum bw_criterion_marginal {
    BW_MARGINAL_BY_SHARE,  /**< it holds by less than BW_MARGINAL_SHARE of the
                                limit, BW_MARGINAL_SHARE_ASSUMED where a layer
                                of the section is only assumed */
    BW_MARGINAL_BY_AMOUNT, /**< it holds by less than `marginal_by` */
    BW_MARGINAL_BEYOND,    /**< beyond its limit, which asks for an inspection:
                                field walls beyond it have been opened and
                                found sound. It never fails */
} bw_criterion_marginal;

/** Common practice, no source. */
#define BW_MARGINAL_SHARE 0.10
#define BW_MARGINAL_SHARE_ASSUMED 0.20

typedef struct bw_criterion_limit {
    double value;       /**< in the unit of the criterion */
    const char *where;  /**< what it is for, "roofs"; "" everything else */
    const char *set_by; /**< the criterion a rule on which tightens it, itself
                             or one of the same limit; "" none does */
} bw_criterion_limit;

/** One criterion. Strings are static, never NULL. */
typedef struct bw_criterion_facts {
    const char *name;   /**< stable, "drying-reserve" */
    const char *title;  /**< in plain words */
    const char *method; /**< "monthly", "period", "surface", "transient"; of
                             rule sets also "steady", "rule", "audit" */
    const char *unit;   /**< "kg/m2", "%", "-", ... of value and limit */
    const char *rule;   /**< rule, edition and mark ([S] seen; [M-hi], [M-med],
                             [M-lo] from memory with that confidence; [D]
                             derived), with the limit */
    bw_criterion_role role;
    bool informative;   /**< never decides */
    bw_criterion_bound bound;
    size_t limit_count; /**< 0: see limit_is */
    bw_criterion_limit limit[2];
    const char *limit_is; /**< "", or where a limit comes from that is no
                               constant */
    bw_criterion_marginal marginal;
    double marginal_by;   /**< in `unit` */
    double may_be[2];     /**< from, to: what a rule set may limit it to; one
                               end is the default limit if there is one. Both
                               0: no rule set can */
} bw_criterion_facts;

BW_API size_t bw_criteria_count(void);

/** NULL beyond the last. */
BW_API const bw_criterion_facts *bw_criteria_at(size_t i);

/** By its name; NULL: there is none. */
BW_API const bw_criterion_facts *bw_criteria_find(const char *name);

/** "at most 0.5 kg/m2", "at least 0.1 kg/(m2 a) (walls and floors), 0.25
 *  (roofs)", "at most what can evaporate"; "" without a limit. Cut to `size`
 *  bytes, of which BW_LIMIT_TEXT are enough.
 *  @return text */
BW_API char *bw_criterion_limit_text(char *text, size_t size,
                                     const bw_criterion_facts *facts);

#define BW_LIMIT_TEXT 160

BW_END_C

#endif
