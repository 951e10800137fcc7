#include <string.h>

#include "auditing.h"
#include "day.h"
#include "fail.h"

/* Evidence has a time: after the sheet's date nothing can have been seen, what
 * is old tells of another wall, and what was read before the wall got wet again
 * tells nothing. Ages are counted to the sheet's date, never to today. */

bw_status bw_audit_check_date(const char *date, bw_error *err)
{
    long day;
    if (date[0] == '\0' || bw_day_number(date, &day))
        return BW_OK;
    return bw_fail(err, BW_ERR_INPUT, NULL, 0,
                   "the date of the sheet, \"%s\", is no day; write "
                   "year-month-day, for example 2024-05-10",
                   date);
}

/* Days from `date` to the sheet's. False: one of them is not known. */
static bool age_of(const bw_audit_core *core, const char *date, long *days)
{
    long sheet, day;
    if (!bw_day_number(core->audit.date, &sheet) || !bw_day_number(date, &day))
        return false;
    *days = sheet - day;
    return true;
}

long bw_audit_days(const char *from, const char *to)
{
    long first, last;
    return bw_day_number(from, &first) && bw_day_number(to, &last)
               ? last - first
               : 0;
}

bool bw_audit_is_ahead(const bw_audit_core *core, const char *date)
{
    long age;
    return age_of(core, date, &age) && age < 0;
}

bool bw_audit_is_stale(const bw_audit_core *core, const char *date, int days)
{
    long age;
    return age_of(core, date, &age) && age > days;
}

bool bw_audit_is_before_wetting(const bw_audit_core *core, const char *date)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    for (size_t i = 0; i < up->wet_spell_count; i++)
        if (strcmp(date, up->wet_spell[i].to) <= 0)
            return true;
    return false;
}

bool bw_audit_is_fresh(const bw_audit_core *core, const bw_reading *reading)
{
    return !bw_audit_is_ahead(core, reading->date) &&
           !bw_audit_is_stale(core, reading->date, BW_READING_DAYS) &&
           !bw_audit_is_before_wetting(core, reading->date);
}
