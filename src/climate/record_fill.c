/* Gaps of a column of hours: up to three hours on the straight line between
 * the neighbours (a direction of wind stays as it was before), up to three days
 * by the days beside them: the first half as the same hours of the day before,
 * the second half as those of the day after, whole hours, so that rain keeps
 * its strength. Longer ones are refused.
 *
 * Invariant: no value is missing afterwards, and none that was given has
 * changed. The year is a ring. */

#include <math.h>
#include <string.h>

#include "climate_make.h"
#include "fail.h"
#include "record_make.h"

/* Longest gap between neighbours, and by the days beside it [h]; most hours
 * filled in a year, a tenth of it: estimates. */
enum { SHORT = 3, LONGEST = 72, MOST = 876, DAY = 24 };

/* The same hour of the nearest day before (step -24) or after that has it; NAN
 * if none within the days a gap may last. */
static double same_hour(const double *value, int hour, int step)
{
    for (int days = 1; days <= LONGEST / DAY + 1; days++)
        if (!isnan(value[bw_ring_hour(hour + days * step)]))
            return value[bw_ring_hour(hour + days * step)];
    return (double)NAN;
}

/* The row to look at: that of the gap, or the last one before it. */
static long line_at(const bw_record *from, int hour)
{
    if (from->line == NULL)
        return 0;
    return from->line[hour] != 0 ? from->line[hour]
                                 : from->line[bw_ring_hour(hour - 1)];
}

static void fill_short(double *to, const double *value, int first, int length,
                       bool steps)
{
    double before = value[bw_ring_hour(first - 1)],
           after = value[bw_ring_hour(first + length)];
    for (int i = 0; i < length; i++)
        to[bw_ring_hour(first + i)] =
            before +
            (steps ? 0.0 : (i + 1.0) / (length + 1.0)) * (after - before);
}

static bw_status fill_long(double *to, const bw_record *from,
                           bw_quantity quantity, int first, int length,
                           bw_error *err)
{
    const double *value = from->value[quantity];
    char text[32];
    if (length > LONGEST)
        return bw_fail(err, BW_ERR_INPUT, from->file, line_at(from, first),
                       "%s: no value for %d hours from %s (UTC) on; gaps of up "
                       "to %d hours are filled in: take another year, or "
                       "another file first",
                       bw_quantity_name(quantity), length,
                       bw_hour_text(text, first), LONGEST);
    for (int i = 0; i < length; i++) {
        const int hour = bw_ring_hour(first + i);
        to[hour] = same_hour(value, hour, 2 * i < length ? -DAY : DAY);
        if (isnan(to[hour]))
            return bw_fail(err, BW_ERR_INPUT, from->file, line_at(from, first),
                           "%s: no value for %d hours from %s (UTC) on, and no "
                           "whole day beside them to fill them in from",
                           bw_quantity_name(quantity), length,
                           bw_hour_text(text, first));
    }
    return BW_OK;
}

struct filled {
    int hours[2], gaps[2];
};

static bw_status tell(bw_record *to, const bw_record *from,
                      bw_quantity quantity, const struct filled *filled,
                      bw_error *err)
{
    static const char *const how[] = {
        "between their neighbours",
        "by the same hours of the days before and after"};
    for (int kind = 0; kind < 2; kind++)
        if (filled->hours[kind] > 0)
            BW_TRY(bw_record_note(
                to, err, "Filled in, %s: %s, %d h in %d gap%s, %s",
                bw_record_name(from), bw_quantity_name(quantity),
                filled->hours[kind], filled->gaps[kind],
                filled->gaps[kind] == 1 ? "" : "s", how[kind]));
    return BW_OK;
}

bw_status bw_record_fill(double **out, bw_record *to, const bw_record *from,
                         bw_quantity quantity, bw_error *err)
{
    const double *value = from->value[quantity];
    double *column = bw_record_column(to);
    struct filled filled = {0};
    BW_TRY_MEMORY(column != NULL, err);
    memcpy(column, value, BW_HOURS * sizeof *column);
    for (int h = 0; h < BW_HOURS; h++) {
        if (!isnan(value[h]) || isnan(value[bw_ring_hour(h - 1)]))
            continue;
        const int length = bw_gap_length(value, h), kind = length > SHORT;
        filled.hours[kind] += length;
        filled.gaps[kind]++;
        if (kind == 0)
            fill_short(column, value, h, length,
                       quantity == BW_RECORD_WIND_FROM);
        else
            BW_TRY(fill_long(column, from, quantity, h, length, err));
    }
    if (filled.hours[0] + filled.hours[1] > MOST)
        return bw_fail(err, BW_ERR_INPUT, from->file, 0,
                       "%s: %d hours of the year are missing; up to %d are "
                       "filled in",
                       bw_quantity_name(quantity),
                       filled.hours[0] + filled.hours[1], MOST);
    BW_TRY(tell(to, from, quantity, &filled, err));
    *out = column;
    return BW_OK;
}
