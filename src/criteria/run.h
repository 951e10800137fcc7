#ifndef BW_CRITERIA_RUN_H
#define BW_CRITERIA_RUN_H

/* Every method that applies, on every section: results without judgement. */

#include "rows.h"

/* What the advice does without. */
typedef struct bw_run_effort {
    bool no_bound;
} bw_run_effort;

/* Boundaries and all steady runs of one section. Fills `part`, whose section
 * is set; what cannot be computed leaves its has_ flag false and a reason.
 * Returns BW_OK, or BW_ERR_MEMORY. */
bw_status bw_run_steady(bw_section_assessment *part, bw_rows *rows,
                        const bw_assembly *assembly, const bw_climate *climate,
                        const bw_run_effort *effort, bw_error *err);

/* Frees the results of a section (not the struct). */
void bw_run_free(bw_section_assessment *part);

/* The simulation of every section, sections in parallel. `needed` false: not
 * run, said in transient_reason. Returns BW_OK, BW_ERR_MEMORY or
 * BW_ERR_CANCELLED; everything else is a reason. */
bw_status bw_run_transient(bw_assessment *assessment,
                           bw_section_assessment *part, bw_rows *rows,
                           const bw_assessment_options *options, bool needed,
                           bw_error *err);

#endif
