#ifndef BW_TESTS_JUDGED_SIMULATION_H
#define BW_TESTS_JUDGED_SIMULATION_H

/* The fixture of suites that judge the simulation of simulated_case.h alone:
 * made anew for each test, made worse by hand, then judged. */

#include "criteria/verdict.h"
#include "has_words.h"
#include "simulated_case.h"

static criteria_case c;
static simulated_case sim;

static inline void setup(void)
{
    case_make(&c);
    simulated_make(&sim, &c);
}

static inline void teardown(void)
{
    case_free(&c);
}

static inline const bw_criterion *judged(bw_criterion_id id)
{
    simulated_judge(&sim, &c);
    return case_row(&c, id);
}

/* Of the simulation alone. */
static inline bw_verdict overall(void)
{
    simulated_judge(&sim, &c);
    bw_verdict_screen(&c.rows, true, true);
    bw_verdict_settle(&c.rows);
    return bw_verdict_overall(&c.rows);
}

#endif
