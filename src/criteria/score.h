#ifndef BW_CRITERIA_SCORE_H
#define BW_CRITERIA_SCORE_H

/* What a change does to the rows of the verdict. */

#include "assessing.h"

/* The rows of a wall laid beside those of the wall before the change. A row
 * that was bad is better only by a number of its own that moved by more than
 * noise: one that is gone, not assessed any more or no longer decides without
 * holding counts as it did. */
typedef struct bw_score {
    size_t fails, marginal;
    size_t not_assessed;
    size_t unknown;      /* rows without a number, more than before */
    double worst_margin; /* share of the limit, of the rows that fail, else of
                            the marginal ones, else of all; 0 where none of
                            them has one */
    /* of the rows that failed before the change, else of the marginal ones,
       the one that gains most, NULL if none does, and what it says after it */
    const bw_row *gains;
    double value;
    bw_verdict verdict;
} bw_score;

typedef struct bw_score_scope {
    const char *section; /* NULL: all */
    bool no_wetting;     /* as if there were no wetting test */
} bw_score_scope;

bw_score bw_score_of(const bw_rows *before, const bw_rows *after,
                     bw_score_scope scope);

/* Fewer rows fail (or are not known to hold), then, while some fail, the worst
 * margin of those is better, then fewer are marginal, then theirs is. */
bool bw_score_better(const bw_score *a, const bw_score *b);

/* Is what a change does worth saying? */
bool bw_score_worth(const bw_score *before, const bw_score *after);

#endif
