/* The calendar of a climate: 365 days, January 1st 00:00 UTC first. */

#include "climate_make.h"

static const int FIRST_DAY[BW_MONTHS + 1] = {0,   31,  59,  90,  120, 151, 181,
                                             212, 243, 273, 304, 334, 365};

double bw_month_seconds(int month)
{
    return 86400.0 * (FIRST_DAY[month + 1] - FIRST_DAY[month]);
}

const char *bw_month_name(int month)
{
    static const char *const names[BW_MONTHS] = {"Jan", "Feb", "Mar", "Apr",
                                                 "May", "Jun", "Jul", "Aug",
                                                 "Sep", "Oct", "Nov", "Dec"};
    return month >= 0 && month < BW_MONTHS ? names[month] : "?";
}

int bw_month_first_hour(int month)
{
    return 24 * FIRST_DAY[month];
}

int bw_hour_month(int hour)
{
    int month = hour / (24 * 31);
    while (hour >= 24 * FIRST_DAY[month + 1])
        month++;
    return month;
}

double bw_hour_sun_day(const bw_climate *climate, int hour)
{
    return (hour + climate->time_offset) / 24.0;
}

bool bw_months_all(const bw_climate *climate,
                   bool (*has)(const bw_climate_month *))
{
    for (int m = 0; m < BW_MONTHS; m++)
        if (!has(&climate->month[m]))
            return false;
    return true;
}
