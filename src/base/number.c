#include "number.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "decimal.h"

/* Invariant: neither direction depends on the process's locale. Reading: the
 * digits are gathered by hand; where at most 15 significant digits and a power
 * of ten up to 22 are exact in a double, one operation rounds correctly, and
 * the rest go to strtod in a "C" locale. Writing: what printf would write, to
 * the byte, from the exact digits; numbers too large or too small for them go
 * to printf, and the locale's decimal mark is put back to '.'. */

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

/* ---- writing --------------------------------------------------------------
 */

enum {
    MOST_DIGITS = 17,  /* 10^17 < 2^64 */
    MOST_EXPONENT = 20 /* of ten; beyond it printf is asked */
};

/* The digits of n, at least `least`, with leading zeros; how many. */
static int spell(char digits[24], uint64_t n, int least)
{
    int count = 0;
    char backwards[24];
    for (; n > 0 || count < least; n /= 10)
        backwards[count++] = (char)('0' + n % 10);
    for (int i = 0; i < count; i++)
        digits[i] = backwards[count - 1 - i];
    return count;
}

static char *give(char *buffer, size_t size, const char *text, size_t length)
{
    if (length >= size)
        length = size - 1;
    memcpy(buffer, text, length);
    buffer[length] = '\0';
    return buffer;
}

/* The exponent of ten of the value as so many digits show it, and these as a
 * whole number; false: ask printf. */
static bool significant(uint64_t *n, int *exponent, double value, int digits)
{
    static const uint64_t power[MOST_DIGITS + 1] = {1,
                                                    10,
                                                    100,
                                                    1000,
                                                    10000,
                                                    100000,
                                                    1000000,
                                                    10000000,
                                                    100000000,
                                                    1000000000,
                                                    10000000000,
                                                    100000000000,
                                                    1000000000000,
                                                    10000000000000,
                                                    100000000000000,
                                                    1000000000000000,
                                                    10000000000000000,
                                                    100000000000000000};
    const uint64_t most = power[digits];
    int two = 0;
    frexp(value, &two);
    *exponent = (int)floor((two - 1) * 0.30102999566398120);
    for (int tries = 0; tries < 3; tries++) {
        if (*exponent > MOST_EXPONENT || *exponent < -MOST_EXPONENT ||
            !bw_decimal_scaled(n, value, digits - 1 - *exponent))
            return false;
        if (*n >= most)
            (*exponent)++;
        else if (10 * *n < most)
            (*exponent)--;
        else
            return true;
    }
    return false;
}

/* "e-05": %g writes two digits at least. */
static int put_exponent(char *to, int exponent)
{
    to[0] = 'e';
    to[1] = exponent < 0 ? '-' : '+';
    return 2 + spell(to + 2, (uint64_t)abs(exponent), 2);
}

/* %g of a number that is not nought: the digits without zeros at the end. */
static int put_significant(char *to, const char *digits, int count,
                           int exponent, bool scientific)
{
    int used = 0;
    while (count > 1 && digits[count - 1] == '0')
        count--;
    if (!scientific && exponent < 0) {
        to[used++] = '0';
        to[used++] = '.';
        for (int i = -1; i > exponent; i--)
            to[used++] = '0';
    }
    const int before = scientific ? 1 : exponent + 1;
    for (int i = 0; i < count || i < before; i++) {
        if (i == before && i > 0)
            to[used++] = '.';
        to[used++] = i < count ? digits[i] : '0';
    }
    return used;
}

char *bw_number_g(char *buffer, size_t size, double value, int digits)
{
    char text[64], spelt[24];
    uint64_t n = 0;
    int exponent = 0, used = 0;
    if (value == 0.0)
        return give(buffer, size, "0", 1);
    if (digits < 1 || digits > MOST_DIGITS ||
        !significant(&n, &exponent, value, digits)) {
        snprintf(buffer, size, "%.*g", digits, value);
        return tidy(buffer);
    }
    const bool scientific = exponent < -4 || exponent >= digits;
    spell(spelt, n, digits);
    if (value < 0.0)
        text[used++] = '-';
    used += put_significant(text + used, spelt, digits, exponent, scientific);
    if (scientific)
        used += put_exponent(text + used, exponent);
    return give(buffer, size, text, (size_t)used);
}

char *bw_number_f(char *buffer, size_t size, double value, int decimals)
{
    char text[64], spelt[24];
    uint64_t n = 0;
    int used = 0;
    if (decimals < 0 || decimals > MOST_DIGITS ||
        !bw_decimal_scaled(&n, value, decimals)) {
        snprintf(buffer, size, "%.*f", decimals, value);
        return tidy(buffer);
    }
    const int count = spell(spelt, n, decimals + 1);
    if (value < 0.0 && n > 0)
        text[used++] = '-';
    for (int i = 0; i < count; i++) {
        if (i == count - decimals)
            text[used++] = '.';
        text[used++] = spelt[i];
    }
    return give(buffer, size, text, (size_t)used);
}

int bw_number_digits(const char *text, size_t digits)
{
    int value = 0;
    for (size_t i = 0; i < digits; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = 10 * value + (text[i] - '0');
    }
    return value;
}
