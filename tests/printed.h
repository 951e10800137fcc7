#ifndef BW_TESTS_PRINTED_H
#define BW_TESTS_PRINTED_H

/* A printed figure, read back. */

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

/* Whole: nothing but a number. */
static inline bool is_number(const char *word, double *value)
{
    char *end;
    *value = strtod(word, &end);
    return end != word && *end == '\0' && isfinite(*value);
}

/* As it is printed, to its last digit. */
static inline bool prints(const char *word, double value)
{
    double is;
    if (!is_number(word, &is))
        return false;
    const char *e = strpbrk(word, "eE");
    const char *point = strchr(word, '.');
    const size_t length = e != NULL ? (size_t)(e - word) : strlen(word);
    const size_t decimals = point != NULL ? length - (size_t)(point - word) - 1
                                          : 0;
    const double power = e != NULL ? strtod(e + 1, NULL) : 0.0;
    double half = 0.5 * pow(10.0, power - (double)decimals);
    return fabs(is - value) <= half * (1.0 + 1e-9) + 1e-9 * fabs(value);
}

#endif
