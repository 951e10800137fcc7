#include "day.h"

#include <stdio.h>
#include <string.h>

#include "number.h"

/* Gregorian days by a year that begins in March, so that the leap day is its
 * last: from March on the months have 153 days in five. Invariant: bw_day_of
 * and bw_day_text are each other's inverse; 1970-01-01 is day 0. */

static const long EPOCH = 719468; /* 1970-01-01 from 0000-03-01 */

static long before_year(long year)
{
    return 365 * year + year / 4 - year / 100 + year / 400;
}

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

bool bw_day_number(const char *text, long *number)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(text) != 10 || text[4] != '-' || text[7] != '-')
        return false;
    const int year = bw_number_digits(text, 4);
    const int month = bw_number_digits(text + 5, 2);
    const int day = bw_number_digits(text + 8, 2);
    if (year < 0 || month < 1 || month > 12 || day < 1 ||
        day > days[month - 1] || (month == 2 && day > 28 && !is_leap(year)))
        return false;
    const long from_march = (month + 9) % 12;
    /* 400 years on, since the year 0 begins in the one before */
    *number = before_year(year - (month < 3) + 400) - 146097 +
              (153 * from_march + 2) / 5 + day - 1 - EPOCH;
    return true;
}

long bw_day_of(const char *text)
{
    long day = 0;
    bw_day_number(text, &day);
    return day;
}

const char *bw_day_text(char text[BW_DAY_TEXT], long day)
{
    const long at = day + EPOCH;
    text[0] = '\0';
    if (at < 0 || at >= before_year(10000))
        return text;
    long year = at / 365;
    while (before_year(year) > at)
        year--;
    const long left = at - before_year(year), month = (5 * left + 2) / 153;
    snprintf(text, BW_DAY_TEXT, "%04ld-%02ld-%02ld", year + (month > 9),
             (month + 2) % 12 + 1, left - (153 * month + 2) / 5 + 1);
    return text;
}
