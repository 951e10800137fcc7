#ifndef BW_TESTS_SUITE_H
#define BW_TESTS_SUITE_H

/* The main of a suite, at its end:
 *
 *   SUITE("air", FACT(this_holds), EACH(this_holds_of_every_row, COUNT(rows)))
 */

#include <check.h>
#include <stdlib.h>

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

typedef struct suite_test {
    const TTest *test;
    size_t rows; /* more than 0: run for each _i below it */
} suite_test;

/* A slow or busy machine, or a sanitizer, is no failure: five minutes each, or
 * what CMakeLists.txt gives them, which is longer for a sanitizer.
 * `before` and `after` stand around each test; NULL: nothing does. */
static inline int run_tests(const char *name, SFun before, SFun after,
                            const suite_test *test, size_t count)
{
    Suite *suite = suite_create(name);
    TCase *tests = tcase_create(name);
    if (getenv("CK_DEFAULT_TIMEOUT") == NULL)
        tcase_set_timeout(tests, 300);
    tcase_add_checked_fixture(tests, before, after);
    for (size_t i = 0; i < count; i++)
        if (test[i].rows > 0)
            tcase_add_loop_test(tests, test[i].test, 0, (int)test[i].rows);
        else
            tcase_add_test(tests, test[i].test);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#define FACT(test)                                                             \
    {                                                                          \
        test, 0                                                                \
    }
#define EACH(test, rows)                                                       \
    {                                                                          \
        test, rows                                                             \
    }

#define SUITE_AROUND(name, before, after, ...)                                 \
    int main(void)                                                             \
    {                                                                          \
        const suite_test tests[] = {__VA_ARGS__};                              \
        return run_tests(name, before, after, tests,                           \
                         sizeof tests / sizeof tests[0]);                      \
    }

#define SUITE(name, ...) SUITE_AROUND(name, NULL, NULL, __VA_ARGS__)

#endif
