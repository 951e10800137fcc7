#ifndef BW_TESTS_MEASURED_H
#define BW_TESTS_MEASURED_H

/* What a check found, beside what it may be: asserted, and told in a line that
 * tests/validation.sh lays beside docs/validation.md, so that no figure there
 * is copied by hand. */

#include <check.h>
#include <math.h>
#include <stdio.h>

/* The largest of what is compared. */
static inline void farther(double *worst, double is, double should)
{
    *worst = fmax(*worst, fabs(is - should));
}

/* `figure` is a difference and at most `limit`, both in `unit`. */
static inline void measured(const char *id, double figure, double limit,
                            const char *unit)
{
    printf("measured: %s|%.2g|%.3g|%s\n", id, figure, limit, unit);
    fflush(stdout);
    ck_assert_msg(fabs(figure) <= limit, "%s: %g %s, at most %g", id, figure,
                  unit, limit);
}

/* A count without a limit. */
static inline void told(const char *id, double figure, const char *unit)
{
    printf("measured: %s|%.0f||%s\n", id, figure, unit);
}

#endif
