#ifndef BW_TESTS_CASE_RUN_H
#define BW_TESTS_CASE_RUN_H

/* The wall of a case and what the methods make of it, each computed when it is
 * asked for. */

#include "bothways/bothways.h"
#include "case_file.h"

enum { CASE_WAYS = 3 };

typedef struct case_run {
    const case_file *file;
    const bw_library *library;
    case_report *report;
    long line; /* of the block */
    bw_assembly *wall;
    bw_climate *climate; /* NULL: a boundary is given */
    bw_sections *sections, *all_layers;
    const bw_section *section, *whole_section; /* the latter of all layers */
    bw_boundary boundary[BW_MONTHS];
    bw_thermal_result thermal;
    bw_monthly_result monthly, dry[CASE_WAYS]; /* by bw_drying_ways */
    bw_period_result period;
    bw_surface_result surface;
    bw_transient_result transient;
    bool has_boundary; /* what stands on both sides is said */
    bool has_monthly, has_dry[CASE_WAYS], has_transient;
} case_run;

/* Reads the wall with the block's changes, and what stands on both sides.
 * False: told in the report; case_run_free all the same. */
bool case_run_make(case_run *run, const case_file *file,
                   const case_block *block, const bw_library *library,
                   case_report *report);

void case_run_free(case_run *run);

/* These compute what is not computed yet. */
bool case_run_monthly(case_run *run);
bool case_run_dry(case_run *run, int way);
bool case_run_simulate(case_run *run);

/* A row with an expected value of a quantity that the program computes. */
bool case_compare(case_run *run, const case_row *row);

#endif
