#ifndef BW_TESTS_REPLAY_CASE_H
#define BW_TESTS_REPLAY_CASE_H

/* A wall and a record in memory, both invented, and the replay of the one under
 * the other. */

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "day.h"
#include "suite.h"

/* The columns of the records here. */
#define ROOM "room_temperature_C,room_relative_humidity_pct"
#define OUTDOOR "outdoor_temperature_C,outdoor_relative_humidity_pct"
#define CAVITY "cavity_temperature_C,cavity_relative_humidity_pct"
#define AT(place) place "_temperature_C," place "_relative_humidity_pct"

enum { LOG_TEXT = 4 << 20 };

static bw_library *library;
static bw_assembly *wall;
static bw_log *record;
static bw_replay *replay;
static char log_text[LOG_TEXT];

static void open_library(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    ck_assert_int_eq(bw_library_read(&library, path, 1, NULL), BW_OK);
}

static void forget(void)
{
    bw_replay_free(replay);
    bw_log_free(record);
    bw_assembly_free(wall);
    replay = NULL;
    record = NULL;
    wall = NULL;
}

static void close_library(void)
{
    forget();
    bw_library_free(library);
}

/* The layers, from outside; surfaces 0.04 and 0.13 m2 K/W. */
static inline void read_wall(const char *layers, const bw_edit *edit,
                             size_t edits)
{
    static char text[8192];
    bw_error err = {0};
    snprintf(text, sizeof text,
             "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"invented\">"
             "<outdoors surface-resistance=\"0.04 m2.K/W\"/>"
             "<indoors temperature=\"20 degC\" humidity-class=\"2\" "
             "surface-resistance=\"0.13 m2.K/W\"/>"
             "<layers listed=\"outside-to-inside\">%s</layers></assembly>",
             layers);
    bw_assembly_free(wall);
    wall = NULL;
    ck_assert_msg(bw_assembly_read_text(&wall, text, "invented.xml", library,
                                        edit, edits, &err) == BW_OK,
                  "%s", err.message);
}

/* Rows by the hour from 2031-01-01 00:00 UTC + `first` hours; a value that is
 * none is left empty, and so is a row of none. */
typedef double record_value(int hour, int column, void *of);

static inline void write_log(const char *head, const char *columns, int first,
                             int hours, record_value *value, void *of)
{
    size_t used = 0;
    int count = 1;
    for (const char *at = columns; *at != '\0'; at++)
        count += *at == ',';
    used += (size_t)snprintf(log_text, sizeof log_text, "%stime_utc,%s\n", head,
                             columns);
    for (int h = first; h < first + hours; h++) {
        char row[512], day[BW_DAY_TEXT];
        int length = 0, any = 0;
        for (int c = 0; c < count; c++) {
            const double v = value(h, c, of);
            any += !isnan(v);
            length += isnan(v)
                          ? snprintf(row + length, sizeof row - length, ",")
                          : snprintf(row + length, sizeof row - length, ",%.9g",
                                     v);
        }
        if (any > 0)
            used += (size_t)snprintf(
                log_text + used, sizeof log_text - used, "%sT%02d:00Z%s\n",
                bw_day_text(day, bw_day_of("2031-01-01") + h / 24), h % 24,
                row);
        ck_assert_uint_lt(used + 600, sizeof log_text);
    }
}

static inline void read_log(void)
{
    bw_error err = {0};
    bw_log_free(record);
    record = NULL;
    ck_assert_msg(bw_log_read_text(&record, log_text, "invented.csv", NULL,
                                   &err) == BW_OK,
                  "%ld: %s", err.line, err.message);
}

static inline bw_status try_replay(const bw_replay_options *options,
                                   const bw_climate *climate, bw_error *err)
{
    bw_replay_free(replay);
    replay = NULL;
    read_log();
    return bw_replay_make(&replay, wall, record, climate, options, err);
}

static inline void run_replay(const bw_replay_options *options)
{
    bw_error err = {0};
    ck_assert_msg(try_replay(options, NULL, &err) == BW_OK, "%s", err.message);
}

static inline size_t doubts_of(bw_doubt_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < replay->doubt_count; i++)
        count += replay->doubt[i].kind == kind;
    return count;
}

#endif
