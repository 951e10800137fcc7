#ifndef BW_CRITERIA_ADVICE_H
#define BW_CRITERIA_ADVICE_H

/* What would help, found by computing it. */

#include "core.h"

/* Adds advice to an assessment that fails or is marginal: the two or three
 * changes that leave the fewest failing criteria of the steady methods, by
 * running those methods on the changed assembly. Nothing is advised that does
 * not improve the result. */
bw_status bw_advise(bw_core *core, bw_error *err);

#endif
