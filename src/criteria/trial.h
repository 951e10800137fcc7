#ifndef BW_CRITERIA_TRIAL_H
#define BW_CRITERIA_TRIAL_H

/* A changed wall put through the methods and laid beside the wall as it is. */

#include "assessing.h"
#include "meter.h"
#include "score.h"

/* What was found of one change, or of a pair. */
typedef struct bw_tried {
    bool used; /* false: no result that can be compared */
    bool leak; /* of the wall without its rain leak, that alone */
    bw_score score;
    bool has_reserve, has_dry; /* of every section */
    double reserve;
    double dry_both, dry_inwards; /* months; negative: never */
    const char *text;
} bw_tried;

/* By the steady methods. `before`: rows of the wall as it is, by the same. */
bw_status bw_try_steady(bw_tried *out, const bw_rows *before,
                        const bw_assembly *changed, const bw_climate *climate,
                        const bw_run_effort *effort, bw_error *err);

/* A change that is simulated. */
typedef struct bw_simulated_trial {
    const bw_core *base; /* the wall as it is, simulated */
    const bw_climate *hours;
    const bw_assembly *changed;
    bool same_cells; /* the change leaves every layer its thickness */
    bw_transient_options options; /* as of the base */
    bw_metered metered;
    bw_tried *out;
} bw_simulated_trial;

/* Coarser and shorter than the base: docs/methods.md, "Advice". */
bw_status bw_try_simulated(bw_simulated_trial *trial, bw_error *err);

#endif
