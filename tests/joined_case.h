#ifndef JOINED_CASE_H
#define JOINED_CASE_H

/* Records made by hand, and joined. */

#include "record_case.h"
#include "suite.h"

enum { HOUR_COUNT = 8760 };

/* A column of one value; free it. */
static inline double *column_of(double value)
{
    double *column = malloc(HOUR_COUNT * sizeof *column);
    ck_assert_ptr_nonnull(column);
    for (int h = 0; h < HOUR_COUNT; h++)
        column[h] = value;
    return column;
}

static double *columns[64];
static size_t column_count;

static inline const double *all(double value)
{
    ck_assert_uint_lt(column_count, COUNT(columns));
    columns[column_count] = column_of(value);
    return columns[column_count++];
}

static inline double *own(double value)
{
    return (double *)all(value);
}

static bw_record *made;
static bw_error err;

static inline void setup(void)
{
    made = NULL;
    column_count = 0;
    err = (bw_error){0};
}

static inline void teardown(void)
{
    bw_record_free(made);
    while (column_count > 0)
        free(columns[--column_count]);
}

static inline bw_record plain(const char *file)
{
    return (bw_record){
        .file = file, .form = "a form", .times = "UTC", .sha256 = "0123"};
}

/* Temperature and humidity. */
static inline bw_record air(const char *file)
{
    bw_record record = plain(file);
    record.value[BW_RECORD_TEMPERATURE] = all(5.0);
    record.value[BW_RECORD_HUMIDITY] = all(80.0);
    return record;
}

/* Direct and diffuse sun. */
static inline bw_record sunshine(const char *file)
{
    bw_record record = plain(file);
    record.value[BW_RECORD_DIRECT] = all(100.0);
    record.value[BW_RECORD_DIFFUSE] = all(50.0);
    return record;
}

static inline bw_status join(const bw_record *a, const bw_record *b)
{
    const bw_record *part[] = {a, b};
    bw_record_free(made);
    made = NULL;
    return bw_record_join(&made, part, b != NULL ? 2 : 1, &err);
}

static inline bool noted(const char *sentence)
{
    for (size_t i = 0; i < made->note_count; i++)
        if (strcmp(made->note[i], sentence) == 0)
            return true;
    return false;
}

/* Is there a note that begins so? */
static inline bool begins(const char *words)
{
    for (size_t i = 0; i < made->note_count; i++)
        if (strncmp(made->note[i], words, strlen(words)) == 0)
            return true;
    return false;
}

#endif
