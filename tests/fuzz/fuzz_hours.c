/* Hours as they are published, in any form. A year has 8760 rows, too many to
 * mutate: with '+' as first byte, the lines from the first that holds an '@' on
 * are repeated until the year is full, @M @D @H @E in them the month, the day,
 * and the hour from 00 and from 01. What is read and can be joined is written
 * and must read back as a climate. */

#include <math.h>
#include <string.h>

#include "bothways/record.h"
#include "climate_checks.h"
#include "fuzz.h"

enum { MOST_ROWS = 16, MOST_BYTES = 4096, HOURS = 8760, MOST_YEAR = 4 << 20 };

static const int FIRST_DAY[] = {0,   31,  59,  90,  120, 151, 181,
                                212, 243, 273, 304, 334, 365};

static const char LETTERS[] = "MDHE";

typedef struct year {
    char text[MOST_YEAR];
    size_t used;
} year;

static bool keep(void *payload, const char *bytes, size_t length)
{
    year *to = payload;
    if (to->used + length >= MOST_YEAR)
        return false;
    memcpy(to->text + to->used, bytes, length);
    to->used += length;
    return true;
}

static void check_record(const bw_record *record)
{
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        for (int h = 0; record->value[q] != NULL && h < HOURS; h++)
            FUZZ_REQUIRE(
                isnan(record->value[q][h]) ||
                (isfinite(record->value[q][h]) &&
                 (q == BW_RECORD_TEMPERATURE || record->value[q][h] >= -1e-9)));
    FUZZ_REQUIRE(strlen(record->sha256) == 64);
    for (size_t i = 0; i < record->note_count; i++)
        FUZZ_REQUIRE(strchr(record->note[i], '\n') == NULL);
}

static void check_joined(const bw_record *record)
{
    static year out;
    bw_record *joined = NULL;
    bw_error err = {0};
    bw_status status = bw_record_join(&joined, &record, 1, &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(joined == NULL);
        fuzz_check_refusal(status, &err);
        return;
    }
    out.used = 0;
    FUZZ_REQUIRE(bw_record_describe(joined, keep, &out, &err) == BW_OK);
    FUZZ_REQUIRE(out.used > 0);
    out.used = 0;
    FUZZ_REQUIRE(bw_record_write(joined, keep, &out, &err) == BW_OK);
    bw_climate *climate = NULL;
    status = bw_climate_read(&climate, fuzz_file(out.text, out.used), &err);
    if (status == BW_OK)
        FUZZ_REQUIRE(climate->hour_count == HOURS);
    else
        fuzz_check_refusal(status, &err);
    bw_climate_free(climate);
    bw_record_free(joined);
}

static void check_file(const void *data, size_t size)
{
    const bw_record_options options = {.has_position = true,
                                       .latitude = 52.0,
                                       .longitude = 5.0,
                                       .has_utc_offset = true,
                                       .utc_offset = 1.0};
    bw_record *record = NULL;
    bw_error err = {0};
    bw_status status = bw_record_read(&record, fuzz_file(data, size), &options,
                                      &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(record == NULL);
        fuzz_check_refusal(status, &err);
        return;
    }
    check_record(record);
    check_joined(record);
    bw_record_free(record);
}

static void put_row(year *to, const char *row, int hour)
{
    int m = 0, day = hour / 24;
    while (day >= FIRST_DAY[m + 1])
        m++;
    for (const char *c = row; *c != '\0'; c++) {
        const int number[] = {m + 1, day - FIRST_DAY[m] + 1, hour % 24,
                              hour % 24 + 1};
        const char *which = *c == '@' && c[1] != '\0' ? strchr(LETTERS, c[1])
                                                      : NULL;
        char digits[16];
        if (which != NULL) {
            snprintf(digits, sizeof digits, "%02d", number[which - LETTERS]);
            keep(to, digits, 2);
            c++;
        } else {
            keep(to, c, 1);
        }
    }
    keep(to, "\n", 1);
}

static void run_year(const uint8_t *data, size_t size)
{
    static char text[MOST_BYTES + 1];
    static year whole;
    char *row[MOST_ROWS];
    int rows = 0;
    if (size > MOST_BYTES)
        return;
    memcpy(text, data, size);
    text[size] = '\0';
    whole.used = 0;
    for (char *line = strtok(text, "\n"); line != NULL && rows < MOST_ROWS;
         line = strtok(NULL, "\n")) {
        if (rows > 0 || strchr(line, '@') != NULL) {
            row[rows++] = line;
        } else {
            keep(&whole, line, strlen(line));
            keep(&whole, "\n", 1);
        }
    }
    for (int hour = 0; rows > 0 && hour < HOURS; hour++)
        put_row(&whole, row[hour % rows], hour);
    if (whole.used > 0)
        check_file(whole.text, whole.used);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size > 0 && data[0] == '+')
        run_year(data + 1, size - 1);
    else
        check_file(data, size);
    return 0;
}
