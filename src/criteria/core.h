#ifndef BW_CRITERIA_CORE_H
#define BW_CRITERIA_CORE_H

/* One assessment being made: its memory, runs and rows. */

#include "rows.h"
#include "run.h"

enum { BW_SCOPE_MOST = 32 };

typedef struct bw_core {
    bw_assessment assessment; /* first: users hold a pointer to it */
    bw_arena arena;           /* every string and array of it */
    bw_limits limits;         /* of bw_assess; rows.limits points to it */
    bw_section_assessment *part;
    bw_scope_item scope[BW_SCOPE_MOST];
    bw_rows rows; /* all sections, in order */
    bw_run_sun sun;
} bw_core;

/* Sections, U-value, every steady run, and the limits of the monthly method.
 * Release the core whatever is returned. */
bw_status bw_core_steady(bw_core *core, const bw_assembly *assembly,
                         const bw_climate *climate, const bw_limits *limits,
                         const bw_run_effort *effort, bw_error *err);

/* Judges what was run (core->rows); call once, after the simulation if there
 * is one. `simulate` false: no row on the simulation. */
bw_status bw_core_judge(bw_core *core, bool simulate, bw_error *err);

/* Frees results and memory; not the core. */
void bw_core_release(bw_core *core);

#endif
