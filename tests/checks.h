#ifndef BW_TESTS_CHECKS_H
#define BW_TESTS_CHECKS_H

/* Read before every suite (-include in CMakeLists.txt). Check writes down each
 * assertion that holds, to say behind which of them a program crashed, and
 * reads it all back: of suites that look at every word of a document that is
 * most of what they cost. Here an assertion that holds does nothing. Of a crash
 * Check still names the test; a sanitizer names the line. */

#include <check.h>
#include <stdio.h>

#undef ck_assert_msg
#define ck_assert_msg(expr, ...)                                               \
    ((expr) ? (void)0                                                          \
            : _ck_assert_failed(__FILE__, __LINE__,                            \
                                "Assertion '" #expr "' failed", __VA_ARGS__))

/* How many of `all` cases that go the same way through the code with other
 * numbers a sanitizer, which takes ten times as long, is shown: the first
 * `some` of them. The usual build has all. docs/quality.md has the list (What
 * CI costs). */
#ifdef BW_SANITIZED
#define SANITIZED_FEWER(all, some) (some)
#else
#define SANITIZED_FEWER(all, some) (all)
#endif

/* First in a test that takes no way through the code which another of the
 * sanitized suites has not taken. */
#ifdef BW_SANITIZED
#define USUAL_BUILD_ALONE()                                                    \
    do {                                                                       \
        printf("left to the usual build: %s\n", __func__);                     \
        return;                                                                \
    } while (0)
#else
#define USUAL_BUILD_ALONE() ((void)0)
#endif

#endif
