#include "number.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Invariant: neither direction depends on the process's locale. Reading: the
 * digits are gathered by hand; where at most 15 significant digits and a power
 * of ten up to 22 are exact in a double, one operation rounds correctly, and
 * the rest go to strtod in a "C" locale. Writing: printf, then the locale's
 * decimal mark is put back to '.'. */

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool read_slowly(const char *text, size_t length, double *value)
{
    char copy[128];
    if (length >= sizeof copy)
        return false;
    memcpy(copy, text, length);
    copy[length] = '\0';
    /* %e of the digits needs no decimal mark of any locale: move the point
     * into the exponent. */
    char digits[160];
    size_t n = 0;
    long shift = 0;
    bool point = false;
    const char *c = copy;
    if (*c == '+' || *c == '-')
        digits[n++] = *c++;
    for (; digit(*c) || *c == '.'; c++) {
        if (*c == '.') {
            point = true;
            continue;
        }
        digits[n++] = *c;
        shift -= point;
    }
    if (*c == 'e' || *c == 'E') {
        long exponent = strtol(c + 1, NULL, 10);
        if (exponent > 9999 || exponent < -9999)
            exponent = exponent > 0 ? 9999 : -9999;
        shift += exponent;
    }
    snprintf(digits + n, sizeof digits - n, "e%ld", shift);
    const double read = strtod(digits, NULL);
    if (!isfinite(read))
        return false;
    *value = read;
    return true;
}

bool bw_number_read(const char *text, double *value, const char **end)
{
    static const double power[] = {
        1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
        1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    const char *c = text;
    bool negative = *c == '-';
    if (*c == '-' || *c == '+')
        c++;
    double mantissa = 0.0;
    long digits = 0, significant = 0, shift = 0;
    for (bool point = false; digit(*c) || (*c == '.' && !point); c++) {
        if (*c == '.') {
            point = true;
            continue;
        }
        digits++;
        if (significant > 0 || *c != '0')
            significant++;
        if (significant <= 15)
            mantissa = mantissa * 10.0 + (*c - '0');
        shift -= point;
    }
    if (digits == 0)
        return false;
    if (*c == 'e' || *c == 'E') {
        const char *e = c + 1;
        if (*e == '+' || *e == '-')
            e++;
        if (digit(*e)) {
            long exponent = strtol(c + 1, NULL, 10);
            if (exponent > 9999 || exponent < -9999)
                exponent = exponent > 0 ? 9999 : -9999;
            shift += exponent;
            while (digit(*e))
                e++;
            c = e;
        }
    }
    if (end != NULL)
        *end = c;
    if (significant <= 15 && shift >= -22 && shift <= 22) {
        double v = shift < 0 ? mantissa / power[-shift]
                             : mantissa * power[shift];
        *value = negative ? -v : v;
        return true;
    }
    return read_slowly(text, (size_t)(c - text), value);
}

static char *tidy(char *buffer)
{
    const char *mark = localeconv()->decimal_point;
    char *at = strcmp(mark, ".") != 0 ? strstr(buffer, mark) : NULL;
    if (at != NULL) {
        size_t length = strlen(mark);
        *at = '.';
        memmove(at + 1, at + length, strlen(at + length) + 1);
    }
    if (buffer[0] == '-' && strspn(buffer + 1, "0.") == strlen(buffer + 1))
        memmove(buffer, buffer + 1, strlen(buffer));
    return buffer;
}

char *bw_number_g(char *buffer, size_t size, double value, int digits)
{
    snprintf(buffer, size, "%.*g", digits, value);
    return tidy(buffer);
}

char *bw_number_f(char *buffer, size_t size, double value, int decimals)
{
    snprintf(buffer, size, "%.*f", decimals, value);
    return tidy(buffer);
}
