#ifndef BW_BASE_DAY_H
#define BW_BASE_DAY_H

/* Days of the calendar, as text (year-month-day) and as numbers, so that they
 * can be counted. */

#include <stdbool.h>

enum { BW_DAY_TEXT = 64 };

/* The days from 1970-01-01. False: it is no day of the Gregorian calendar,
 * and *number is left as it was. */
bool bw_day_number(const char *text, long *number);

/* The same, of a text that is a day. */
long bw_day_of(const char *text);

/* Back again; a day before the year 0 or after 9999: "". Returns text. */
const char *bw_day_text(char text[BW_DAY_TEXT], long day);

#endif
