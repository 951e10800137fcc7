#ifndef BW_CRITERIA_ADVICE_H
#define BW_CRITERIA_ADVICE_H

/* What would help, found by computing it. */

#include "assessing.h"

/* Adds advice to an assessment that fails or is marginal: the changes, three at
 * most, that leave the fewest failing, then the fewest marginal criteria, by
 * running the methods on the changed assembly: the steady ones, and the
 * simulation (of four changes at most) where that decides. Nothing is advised
 * that does not improve a figure. The progress function is called anew, once,
 * for all simulations of the advice. */
bw_status bw_advise(bw_core *core, const bw_assessment_options *options,
                    bw_error *err);

#endif
