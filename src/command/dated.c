/* The date of a sheet or page: what --date says, never after today, else today.
 */

#include "dated.h"

#include <time.h>

#include "day.h"
#include "fail.h"

/* The day in UTC; "" when the machine has no calendar. */
static const char *today(char text[32])
{
    time_t now = time(NULL);
    struct tm day;
    if (now == (time_t)-1 || gmtime_r(&now, &day) == NULL ||
        strftime(text, 32, "%Y-%m-%d", &day) == 0)
        text[0] = '\0';
    return text;
}

bw_status dated_find(const char **date, char text[32], const settings *given,
                     bw_error *err)
{
    static const char first[] = "1900-01-01";
    long day, now, earliest;
    *date = today(text);
    if (given->date == NULL)
        return BW_OK;
    if (!bw_day_number(given->date, &day))
        return bw_fail_usage(err,
                             "--date '%s' is no day; write year-month-day, for "
                             "example 2024-05-10",
                             given->date);
    if (bw_day_number(first, &earliest) && day < earliest)
        return bw_fail_usage(err,
                             "--date '%s' is before %s: no sheet is of then",
                             given->date, first);
    if (bw_day_number(text, &now) && day > now)
        return bw_fail_usage(
            err, "--date '%s' is after today, %s: no evidence can be of then",
            given->date, text);
    *date = given->date;
    return BW_OK;
}
