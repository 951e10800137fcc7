#ifndef BW_CRITERIA_ASSESSING_H
#define BW_CRITERIA_ASSESSING_H

/* One assessment being made: its memory, runs and rows. */

#include "meter.h"
#include "pool.h"
#include "rows.h"
#include "run.h"

enum { BW_SCOPE_MOST = 32 };

typedef struct bw_core {
    bw_assessment assessment; /* first: users hold a pointer to it */
    bw_arena arena;           /* every string and array of it */
    bw_pool *pool;            /* on which it is made */
    bw_section_assessment *part;
    bw_scope_item scope[BW_SCOPE_MOST];
    bw_rows rows; /* all sections, in order */
    bw_run_sun sun;
} bw_core;

/* bw_assess on a pool that others use, too; options not NULL, its threads not
 * looked at. */
bw_status bw_assess_on(bw_pool *pool, bw_assessment **out,
                       const bw_assembly *assembly, const bw_climate *climate,
                       const bw_assessment_options *options, bw_error *err);

/* bw_assess_all on a pool and a meter that others use, too; each wall is
 * `share` of the meter's total. */
bw_status bw_assess_several(bw_pool *pool, bw_meter *meter, double share,
                            bw_assessment **out,
                            const bw_assembly *const *assembly,
                            const bw_climate *const *climate, size_t count,
                            const bw_assessment_options *options,
                            bw_error *err);

/* Sections, U-value, every steady run, and the limits of the monthly method; to
 * be judged under `profile` (NULL: the default).
 * Release the core whatever is returned. */
bw_status bw_core_steady(bw_core *core, const bw_assembly *assembly,
                         const bw_climate *climate, const bw_profile *profile,
                         const bw_run_effort *effort, bw_error *err);

/* Judges what was run (core->rows); call once, after the simulation if there
 * is one. `simulate` false: no row on the simulation. */
bw_status bw_core_judge(bw_core *core, bool simulate, bw_error *err);

/* The junctions that the wall names, and a row for each; last of all, since
 * advice looks at the wall alone. */
bw_status bw_core_junctions(bw_core *core, const bw_profile *profile,
                            bw_error *err);

/* Frees results and memory; not the core. */
void bw_core_release(bw_core *core);

#endif
