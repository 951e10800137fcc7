#ifndef BW_CRITERIA_PROPOSE_H
#define BW_CRITERIA_PROPOSE_H

/* Changes a designer could make. */

#include "change.h"
#include "rows.h"

/* At most one of a kind is advised, so that the advice differs in kind. */
typedef enum bw_proposal_kind {
    BW_PROPOSE_OUTER_LAYER,
    BW_PROPOSE_CAVITY,
    BW_PROPOSE_HUMIDITY,
    BW_PROPOSE_AIR,
    BW_PROPOSE_INSULATION,
    BW_PROPOSE_RAIN,    /* only the simulation sees it, ... */
    BW_PROPOSE_LEAK,    /* ... and this */
    BW_PROPOSE_MEMBRANE /* last: the only one that moves layer indices */
} bw_proposal_kind;

enum { BW_PROPOSAL_KINDS = BW_PROPOSE_MEMBRANE + 1, BW_PROPOSALS_MOST = 32 };

/* Of two, the change of lower kind is made first. */
typedef struct bw_proposal {
    bw_proposal_kind kind;
    bw_change change;
    const char *text; /* without a full stop */
} bw_proposal;

/* Everything that could be tried on this assembly; returns the number. */
size_t bw_propose(bw_proposal proposal[BW_PROPOSALS_MOST], bw_rows *rows,
                  const bw_assembly *assembly);

#endif
