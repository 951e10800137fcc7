/* Missing hours: short gaps are filled between their neighbours, with a note;
 * long ones are refused.
 *
 * Invariant: afterwards no value is missing. The year is a ring: December
 * 31st 23:00 is followed by January 1st 00:00. */

#include <math.h>

#include "climate_reader.h"
#include "fail.h"

/* Longest gap filled [h], and most hours filled in a year: common practice. */
enum { LONGEST_GAP = 3, MOST_FILLED = 200 };

/* Who fills longer ones, on demand. */
#define LONGER                                                                 \
    "; bothways climate FILE --output OUT.csv fills gaps of up to 3 days"

/* The row before a gap, which there is: where a reader looks for it. */
static long line_before(const bw_hour_table *table, int hour)
{
    return table->line[bw_ring_hour(hour - 1)];
}

/* A vapour pressure is kept to what the hour's air can hold: the straight line
 * between two humid hours lies above it. Temperatures are filled before. */
static void fill_gap(bw_hour_table *table, int kind, int first, int length)
{
    double *value = table->value[kind];
    const double *theta = table->value[BW_H_TEMPERATURE];
    double before = value[bw_ring_hour(first - 1)],
           after = value[bw_ring_hour(first + length)];
    for (int i = 0; i < length; i++) {
        double share = kind == BW_H_WIND_FROM ? 0.0
                                              : (i + 1.0) / (length + 1.0);
        int hour = bw_ring_hour(first + i);
        value[hour] = before + share * (after - before);
        if (kind == BW_H_VAPOUR && theta != NULL)
            value[hour] = fmin(value[hour],
                               bw_saturation_pressure_water(theta[hour]));
    }
}

static const char *label(const bw_hour_table *table,
                         const bw_climate_reader *reader, int kind)
{
    const bw_column_kind *is = &table->columns.kind[kind];
    return reader->public_tmy ? is->public_name : is->name;
}

static bw_status repair_column(bw_hour_table *table, int kind,
                               bw_climate_reader *reader)
{
    double *value = table->value[kind];
    int filled = 0, gaps = 0;
    long first_line = 0;
    char from[32], first_from[32] = "";
    for (int h = 0; h < BW_HOURS; h++) {
        if (!isnan(value[h]) || isnan(value[bw_ring_hour(h - 1)]))
            continue;
        int length = bw_gap_length(value, h);
        if (length > LONGEST_GAP)
            return BW_REFUSE(reader, line_before(table, h),
                             "%s: no value for %d hours from %s (UTC) on; only "
                             "gaps of up to %d hours are filled in" LONGER,
                             label(table, reader, kind), length,
                             bw_hour_text(from, h), LONGEST_GAP);
        fill_gap(table, kind, h, length);
        if (gaps++ == 0) {
            first_line = line_before(table, h);
            bw_hour_text(first_from, h);
        }
        filled += length;
    }
    if (filled > MOST_FILLED)
        return BW_REFUSE(reader, first_line,
                         "%s: %d hours of the year are missing; up to %d are "
                         "filled in (is this an hourly file?)",
                         label(table, reader, kind), filled, MOST_FILLED);
    if (filled == 0)
        return BW_OK;
    return bw_climate_add_note(
        reader->climate, reader->err, BW_NOTE_INFO, first_line,
        "%s: %d missing hour%s in %d gap%s filled in "
        "between the neighbours, the first at %s",
        label(table, reader, kind), filled, filled == 1 ? "" : "s", gaps,
        gaps == 1 ? "" : "s", first_from);
}

static bw_status check_rows(const bw_hour_table *table,
                            bw_climate_reader *reader)
{
    if (table->rows == 0)
        return BW_REFUSE(reader, reader->csv.line,
                         "no hours below the header row");
    int longest = 0, at = 0;
    for (int h = 0; h < BW_HOURS; h++) {
        if (table->line[h] != 0 || table->line[bw_ring_hour(h - 1)] == 0)
            continue;
        int length = 0;
        while (table->line[bw_ring_hour(h + length)] == 0)
            length++;
        if (length > longest) {
            longest = length;
            at = h;
        }
    }
    char from[32];
    if (longest > LONGEST_GAP || BW_HOURS - (int)table->rows > MOST_FILLED)
        return BW_REFUSE(reader, line_before(table, at),
                         "%zu of %d hours are given; the longest gap is %d "
                         "hour%s from %s (UTC) on, and only gaps of up to %d "
                         "hours, %d hours in all, are filled in" LONGER,
                         table->rows, BW_HOURS, longest,
                         longest == 1 ? "" : "s", bw_hour_text(from, at),
                         LONGEST_GAP, MOST_FILLED);
    return BW_OK;
}

bw_status bw_hours_repair(bw_hour_table *table, bw_climate_reader *reader)
{
    BW_TRY(check_rows(table, reader));
    for (int k = 0; k < BW_H_KINDS; k++) {
        if (table->value[k] == NULL)
            continue;
        if (bw_gap_length(table->value[k], 0) == BW_HOURS)
            return BW_REFUSE(reader, table->columns.header_line,
                             "%s: the column is empty%s",
                             label(table, reader, k),
                             k > BW_H_VAPOUR ? "; leave it out" : "");
        BW_TRY(repair_column(table, k, reader));
    }
    return BW_OK;
}
