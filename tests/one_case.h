#ifndef BW_TESTS_ONE_CASE_H
#define BW_TESTS_ONE_CASE_H

/* The fixture of most suites of the judges: the timber wall of criteria_case.h,
 * made anew for each test. */

#include "criteria_case.h"

static criteria_case c;

static inline void setup(void)
{
    case_make(&c);
}

static inline void teardown(void)
{
    case_free(&c);
}

#endif
