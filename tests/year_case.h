#ifndef YEAR_CASE_H
#define YEAR_CASE_H

/* A sound hourly file, in which the tests change one thing each. */

#include "climate_help.h"

#define HOURLY "time,temperature_C,relative_humidity_pct\n"

/* ---- a year of hours --------------------------------------------------- */

/* What the tests change in it. */
typedef struct year {
    const char *head, *header;
    void (*row)(struct text *, int hour); /* after the time, with its comma */
    void (*time)(struct text *, int hour);
    bool (*skip)(int hour);
} year;

static inline void plain_row(struct text *text, int hour)
{
    (void)hour;
    add(text, ",5,80\n");
}

static inline char *year_of(const year *is)
{
    struct text text = {0};
    add(&text, "%s%s", is->head != NULL ? is->head : "",
        is->header != NULL ? is->header : HOURLY);
    for (int h = 0; h < HOURS; h++) {
        if (is->skip != NULL && is->skip(h))
            continue;
        (is->time != NULL ? is->time : add_time)(&text, h);
        (is->row != NULL ? is->row : plain_row)(&text, h);
    }
    return text.at;
}

static inline bw_climate *read_year(const year *is)
{
    char *text = year_of(is);
    bw_climate *climate = read_good(text);
    free(text);
    return climate;
}

static inline void refuse_year(const year *is, long line, const char *words)
{
    char *text = year_of(is);
    expect_refused(text, line, words);
    free(text);
}

#endif
