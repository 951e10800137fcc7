#ifndef BW_CRITERIA_CHANGE_H
#define BW_CRITERIA_CHANGE_H

/* Changes a designer could make, as changes to the plain data. */

#include "rows.h"

/* At most one of a kind is advised, so that the advice differs in kind. */
typedef enum bw_change_kind {
    BW_CHANGE_OUTER_LAYER,
    BW_CHANGE_CAVITY,
    BW_CHANGE_HUMIDITY,
    BW_CHANGE_AIR,
    BW_CHANGE_INSULATION,
    BW_CHANGE_RAIN,    /* only the simulation sees it */
    BW_CHANGE_MEMBRANE /* last: the only one that moves layer indices */
} bw_change_kind;

enum { BW_CHANGE_KINDS = BW_CHANGE_MEMBRANE + 1 };

typedef struct bw_change {
    bw_change_kind kind;
    size_t layer;     /* the one changed, or before which one is added */
    bool adds;        /* a membrane is added, not exchanged */
    bool variable;    /* the generic humidity-variable membrane */
    double value;     /* sd [m] (0: none), thickness [m], class, RH, q50,
                         air change [1/s] (0: the usual one) */
    const char *text; /* without a full stop */
} bw_change;

enum { BW_CHANGES_MOST = 32 };

/* Everything that could be tried on this assembly; returns the number. */
size_t bw_changes_propose(bw_change changes[BW_CHANGES_MOST], bw_rows *rows,
                          const bw_assembly *assembly);

/* A changed copy in the arena, sharing what is not changed; NULL when out of
 * memory. Two changes: apply the one of lower kind first. */
const bw_assembly *bw_change_apply(bw_arena *arena, const bw_assembly *assembly,
                                   const bw_change *change);

#endif
