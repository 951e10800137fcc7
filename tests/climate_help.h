#ifndef CLIMATE_HELP_H
#define CLIMATE_HELP_H

/* Climate files made by the tests of climates. */

#include <check.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/climate.h"
#include "shared_data.h"

enum { HOURS = 8760 };
static const int FIRST_DAY[BW_MONTHS + 1] = {0,   31,  59,  90,  120, 151, 181,
                                             212, 243, 273, 304, 334, 365};

#define MONTHS_FROM_FEB                                                        \
    "2,0,84\n3,4,78\n4,9,72\n5,14,68\n6,18,69\n7,19,73\n8,19,75\n9,15,79\n"    \
    "10,10,83\n11,5,88\n12,1,88\n"
#define HEADER "month,temperature_C,relative_humidity_pct\n"

/* Twelve months that give four walls. */
#define WALLS(n) n ",5,80,100,10,20,40,30\n"
static const char four_walls[] =
    "month,temperature_C,relative_humidity_pct,global_horizontal_W_m2,"
    "vertical_N_W_m2,vertical_E_W_m2,vertical_S_W_m2,vertical_W_W_m2\n" WALLS(
        "1") WALLS("2") WALLS("3") WALLS("4") WALLS("5") WALLS("6") WALLS("7")
        WALLS("8") WALLS("9") WALLS("10") WALLS("11") WALLS("12");

/* A file of that text; `path` ends in XXXXXX and gets its name. */
static inline void make_file(char *path, const char *text)
{
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    size_t length = strlen(text);
    ck_assert_int_eq(write(fd, text, length), (ssize_t)length);
    close(fd);
}

/* Reads text as a climate file. */
static inline bw_status read_text(bw_climate **out, const char *text,
                                  bw_error *err)
{
    char path[] = "bothways-climate-XXXXXX";
    make_file(path, text);
    bw_status status = bw_climate_read(out, path, err);
    unlink(path);
    return status;
}

static inline bw_climate *read_good(const char *text)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_msg(read_text(&climate, text, &err) == BW_OK, "line %ld: %s",
                  err.line, err.message);
    return climate;
}

static inline void expect_refused(const char *text, long line,
                                  const char *words)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_text(&climate, text, &err), BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, words) != NULL, "'%s' not in '%s'", words,
                  err.message);
    ck_assert_int_eq(err.line, line);
    ck_assert_ptr_null(climate);
}

static inline const char *note_with(const bw_climate *climate,
                                    const char *words)
{
    for (size_t i = 0; i < climate->note_count; i++)
        if (strstr(climate->note[i].message, words) != NULL)
            return climate->note[i].message;
    return NULL;
}

/* A growing text. */
struct text {
    char *at;
    size_t used, room;
};

static inline void add(struct text *text, const char *format, ...)
    BW_PRINTF(2, 3);
static inline void add(struct text *text, const char *format, ...)
{
    if (text->room - text->used < 256) {
        text->room = 2 * text->room + 1024;
        text->at = realloc(text->at, text->room);
        ck_assert_ptr_nonnull(text->at);
    }
    va_list args;
    va_start(args, format);
    text->used += (size_t)vsnprintf(text->at + text->used,
                                    text->room - text->used, format, args);
    va_end(args);
}

/* A month of hour h, its day of the month from 1. */
static inline int month_of(int hour, int *day)
{
    int m = 0;
    while (hour / 24 >= FIRST_DAY[m + 1])
        m++;
    *day = hour / 24 - FIRST_DAY[m] + 1;
    return m;
}

static inline void add_time(struct text *text, int hour)
{
    int day = 0, month = month_of(hour, &day);
    add(text, "2017-%02d-%02dT%02d:00Z", month + 1, day, hour % 24);
}

#endif
