#ifndef BW_TRANSIENT_RUN_H
#define BW_TRANSIENT_RUN_H

/* One simulation, to be taken hour by hour. */

#include "carry.h"
#include "start.h"
#include "watch.h"

typedef struct bw_run {
    bw_model model;
    bw_year *year;
    bw_solver solver;
    bw_watch watch;
    bw_start start;
    bw_transient_result *result;
    const bw_transient_options *options;
    bw_carry carry;
    int first_hour, years;
    bool dry;            /* what it was asked to wait for (options->until) */
    double *slab_before; /* water per slab at the start of the year */
    double crossing[BW_X_COUNT], traffic[2]; /* of the running year */
} bw_run;

/* Everything up to the first hour. Of the same sides under the same options
 * `year` is one made before, else NULL. Whatever it returns, end with
 * bw_run_close; the result is the caller's to free. */
bw_status bw_run_open(bw_run *run, bw_transient_result *result,
                      const bw_assembly *assembly, const bw_section *section,
                      const bw_climate *climate,
                      const bw_transient_options *options, const bw_year *year,
                      bw_error *err);
void bw_run_close(bw_run *run);

/* The next hours, up to `most`, as far as they can be taken as one; says how
 * many. Without `watch` nothing is watched but wood. */
bw_status bw_run_window(bw_run *run, int hour_of_run, int most, bool watch,
                        int *hours, bw_error *err);

/* The errors that the solver is to keep to, by the options. */
void bw_run_tolerances(bw_solver *solver, const bw_transient_options *options);

/* Puts into the result what was assumed, and its method. */
void bw_run_tell(bw_run *run, const bw_climate *climate,
                 const bw_outdoors *outdoors);

#endif
