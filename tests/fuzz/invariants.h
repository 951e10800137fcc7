#ifndef BW_FUZZ_INVARIANTS_H
#define BW_FUZZ_INVARIANTS_H

/* What must hold of every result, whatever the wall. */

#include "bothways/assessment.h"

/* Finite numbers, water neither made nor lost, no vapour pressure above
 * saturation, nothing negative. */
void fuzz_check_monthly(const bw_monthly_result *result);

/* All runs of all sections, and the rows: words of the list only, a row that
 * does not decide never fails, the overall verdict follows from the rows. */
void fuzz_check_assessment(const bw_assessment *assessment);

#endif
