#ifndef BW_TESTS_RECORD_CASE_H
#define BW_TESTS_RECORD_CASE_H

/* Files of hours made by the tests of records: all of them invented. */

#include <math.h>

#include "bothways/record.h"
#include "climate_help.h"

/* Days and hours of the calendar without a leap day. */
typedef struct moment {
    int month, day, hour; /* from 1, from 1, from 0 */
} moment;

static inline moment moment_of(int hour)
{
    moment at = {.hour = hour % 24};
    at.month = month_of(hour, &at.day) + 1;
    return at;
}

static inline bw_status read_hours(bw_record **out, const char *text,
                                   const bw_record_options *options,
                                   bw_error *err)
{
    char path[] = "bothways-hours-XXXXXX";
    make_file(path, text);
    bw_status status = bw_record_read(out, path, options, err);
    unlink(path);
    return status;
}

/* Takes the text. */
static inline bw_record *good_hours(char *text,
                                    const bw_record_options *options)
{
    bw_record *record = NULL;
    bw_error err = {0};
    ck_assert_msg(read_hours(&record, text, options, &err) == BW_OK,
                  "line %ld: %s", err.line, err.message);
    free(text);
    return record;
}

/* Takes the text. */
static inline void bad_hours(char *text, const bw_record_options *options,
                             long line, const char *words)
{
    bw_record *record = NULL;
    bw_error err = {0};
    ck_assert_int_ne(read_hours(&record, text, options, &err), BW_OK);
    ck_assert_msg(strstr(err.message, words) != NULL, "'%s' not in '%s'", words,
                  err.message);
    ck_assert_int_eq(err.line, line);
    ck_assert_ptr_null(record);
    free(text);
}

static inline bool has_note(const bw_record *record, const char *words)
{
    for (size_t i = 0; i < record->note_count; i++)
        if (strstr(record->note[i], words) != NULL)
            return true;
    return false;
}

/* Our own form: hours from `from` on to `to`, but those of a gap; what a row
 * holds behind its time. */
static inline char *own_hours(const char *columns, const char *row, int gap,
                              int length)
{
    struct text text = {0};
    add(&text, "# latitude: 52\n# longitude: 5\ntime,temperature_C,%s\n",
        columns);
    for (int h = 0; h < HOURS; h++)
        if (h < gap || h >= gap + length) {
            add_time(&text, h);
            add(&text, ",%d,%s\n", h % 24, row);
        }
    return text.at;
}

#endif
