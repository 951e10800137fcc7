/* Every end of what a log may say: values, moments, spans of time, columns;
 * the end itself is read, what lies beyond it is refused (docs/input.md,
 * "Logs"; the limits are our own choice). */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "day.h"
#include "has_words.h"
#include "random_wall.h"
#include "suite.h"

enum { MOST = 1 << 20, ROWS = 30 };

static bw_log *logged;
static char text[MOST];
static size_t used;

static void forget(void)
{
    bw_log_free(logged);
    logged = NULL;
}

static void begin(const char *head)
{
    used = (size_t)snprintf(text, sizeof text, "%s\n", head);
}

/* So many seconds from 1 March 2031. */
static void add_row(long at, const char *values)
{
    char day[BW_DAY_TEXT];
    used += (size_t)snprintf(
        text + used, sizeof text - used, "%sT%02ld:%02ld:%02ld%s\n",
        bw_day_text(day, bw_day_of("2031-03-01") + at / 86400), at / 3600 % 24,
        at / 60 % 60, at % 60, values);
    ck_assert_uint_lt(used + 1024, sizeof text);
}

static bool is_read(bw_error *err)
{
    *err = (bw_error){0};
    forget();
    return bw_log_read_text(&logged, text, "log.csv", NULL, err) == BW_OK;
}

static bool reads(const char *head, const char *values, bw_error *err)
{
    begin(head);
    for (int h = 0; h < ROWS; h++)
        add_row(3600L * h, values);
    return is_read(err);
}

/* ---- values ---------------------------------------------------------------
 */

#define THETA "time_utc,room_temperature_C"
#define HEAT "time_utc,room_temperature_F"
#define PHI "time_utc,room_relative_humidity_pct"

static const struct value_row {
    const char *head, *value;
    bool sound;
    double is; /* degC, -; NAN: none */
} values[] = {
    {THETA, ",-60", true, -60.0},
    {THETA, ",-60.01", false, 0.0},
    {THETA, ",90", true, 90.0},
    {THETA, ",90.01", false, 0.0},
    {HEAT, ",-76", true, -60.0},
    {HEAT, ",-76.1", false, 0.0},
    {HEAT, ",194", true, 90.0},
    {HEAT, ",194.1", false, 0.0},
    {HEAT, ",32", true, 0.0},
    {HEAT, ",212", false, 0.0},
    {PHI, ",0", true, 0.0},
    {PHI, ",-0.01", false, 0.0},
    {PHI, ",105", true, 1.05},
    {PHI, ",105.01", false, 0.0},
    {PHI, ",nan", true, NAN},
    {PHI, ",N/A", true, NAN},
    {PHI, ",na", true, NAN},
    {PHI, ",NULL", true, NAN},
    {PHI, ",n", false, 0.0},
    {PHI, ",5 0", false, 0.0},
    {PHI, ",inf", false, 0.0},
    {"time_utc;room_relative_humidity_pct", ";50,5", true, 0.505},
    {"time_utc;room_relative_humidity_pct", ";50,5,1", false, 0.0},
    {"time_utc\troom_relative_humidity_pct", "\t50,5", true, 0.505},
};

START_TEST(a_value_within_its_ends_is_read)
{
    const struct value_row *row = &values[_i];
    bw_error err;
    const bool sound = reads(row->head, row->value, &err);
    ck_assert_msg(sound == row->sound, "%s: %s", row->value, err.message);
    if (!sound) {
        ck_assert_int_eq(err.line, 2);
        return;
    }
    const bw_log_channel *c = &logged->channel[0];
    const double is = c->has_humidity ? c->rh[7] : c->theta[7];
    ck_assert(isnan(is) == isnan(row->is));
    if (!isnan(is))
        ck_assert_double_eq_tol(is, row->is, 1e-12);
}
END_TEST

/* ---- moments --------------------------------------------------------------
 */

static const struct moment_row {
    const char *written;
    bool sound;
    double at; /* s behind 1 March 2031, 00:00 UTC */
} moments[] = {
    {"2031-03-01T00:00", true, 0.0},
    {"2031-03-01 00:00", true, 0.0},
    {"2031-03-01T00:00Z", true, 0.0},
    {"2031-03-01T00:00:00", true, 0.0},
    {"2031-03-01T00:59:59Z", true, 3599.0},
    {"2031-03-01T00:59:60Z", false, 0.0},
    {"2031-03-01T00:60", false, 0.0},
    {"2031-03-01T24:00", false, 0.0},
    {"2031-03-01T00:00+00:30", true, -1800.0},
    {"2031-03-01T00:00-01:00", true, 3600.0},
    {"2031-03-01T00:00:30+0100", true, -3570.0},
    {"2031-03-00T00:00", false, 0.0},
    {"2031-13-01T00:00", false, 0.0},
    {"2031-02-29T00:00", false, 0.0},
    {"2031-03-01", false, 0.0},
    {"2031-03-01T00", false, 0.0},
    {"2031/03/01T00:00", false, 0.0},
    {"2031-03-01x00:00", false, 0.0},
    {"2031-03-01T00.00", false, 0.0},
    {"2031-03-01T00:00 ", true, 0.0}, /* a blank at a field's end is none */
    {"2031-03-01T00:00:00.000000000000000000000", false, 0.0},
};

START_TEST(a_moment_is_read_whole)
{
    const struct moment_row *row = &moments[_i];
    bw_error err;
    begin(THETA);
    used += (size_t)snprintf(text + used, sizeof text - used, "%s,20\n",
                             row->written);
    for (int h = 2; h < ROWS; h++)
        add_row(3600L * h, ",20");
    const bool sound = is_read(&err);
    ck_assert_msg(sound == row->sound, "%s: %s", row->written, err.message);
    if (sound)
        ck_assert_double_eq_tol(
            logged->time[0],
            86400.0 * (double)bw_day_of("2031-03-01") + row->at, 1e-6);
    else
        ck_assert_int_eq(err.line, 2);
}
END_TEST

/* From 1970 on, whatever the clock. */
START_TEST(no_logger_is_older_than_1970)
{
    static const struct {
        const char *head, *first;
        bool sound;
    } rows[] = {
        {THETA, "1970-01-01T00:00", true},
        {THETA, "1969-12-31T23:59:59", false},
        {"# utc-offset: -2 h\ntime,room_temperature_C", "1969-12-31T22:00",
         true},
        {"# utc-offset: -2 h\ntime,room_temperature_C", "1969-12-31T21:59",
         false},
        {"# utc-offset: 2 h\ntime,room_temperature_C", "1970-01-01T02:00",
         true},
        {"# utc-offset: 2 h\ntime,room_temperature_C", "1970-01-01T01:59",
         false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_error err;
        begin(rows[i].head);
        used += (size_t)snprintf(text + used, sizeof text - used, "%s,20\n",
                                 rows[i].first);
        for (int h = 3; h < 40; h++)
            used += (size_t)snprintf(text + used, sizeof text - used,
                                     "1970-01-0%dT%02d:00,20\n", 1 + h / 24,
                                     h % 24);
        const bool sound = is_read(&err);
        ck_assert_msg(sound || !rows[i].sound, "%zu: %s", i, err.message);
        ck_assert_int_eq(strstr(err.message, "before 1970") != NULL,
                         !rows[i].sound);
    }
}
END_TEST

/* ---- spans ----------------------------------------------------------------
 */

/* Twenty years of 366 days from the first reading. */
START_TEST(a_log_ends_twenty_years_after_its_first_reading)
{
    const long most = 20L * 366L * 86400L;
    for (int more = 0; more < 2; more++) {
        bw_error err;
        begin(THETA);
        for (int h = 0; h < ROWS; h++)
            add_row(3600L * h, ",20");
        add_row(most + more, ",20");
        ck_assert_msg(is_read(&err) == (more == 0), "%s", err.message);
        if (more == 1)
            ck_assert_int_eq(err.line, ROWS + 2);
    }
}
END_TEST

/* A day of readings by the hour ends at 23:00; a second is let pass. */
START_TEST(a_log_is_a_day_long_at_least)
{
    static const struct {
        long last;
        bool sound;
    } rows[] = {{82800, true}, {82799, true}, {82798, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_error err;
        begin(THETA);
        for (int h = 0; h < 23; h++)
            add_row(3600L * h, ",20");
        add_row(rows[i].last, ",20");
        ck_assert_msg(is_read(&err) == rows[i].sound, "%s", err.message);
        if (!rows[i].sound)
            has(err.message, "shorter than a day (24 readings)");
    }
}
END_TEST

/* Half of the steps may be longer than an hour, not more. */
START_TEST(a_log_has_a_reading_an_hour_at_least_by_halves)
{
    for (int wide = 0; wide < 19; wide++) {
        bw_error err;
        long at = 0;
        begin(THETA);
        for (int i = 0; i < 19; i++) {
            add_row(at, ",20");
            at += i < wide ? 7200 : 3600;
        }
        add_row(172800, ",20"); /* one step more that is wide */
        ck_assert_msg(is_read(&err) == (2 * (wide + 1) <= 20), "%d: %s", wide,
                      err.message);
    }
}
END_TEST

/* An hour back is a clock put back in autumn. */
START_TEST(an_hour_back_is_said_to_be_autumn)
{
    for (int more = 0; more < 2; more++) {
        bw_error err;
        begin(THETA);
        add_row(36000, ",20");
        add_row(36000 - 3600 - more, ",20");
        ck_assert(!is_read(&err));
        ck_assert_int_eq(err.line, 3);
        has(err.message, "before that of line 2");
        ck_assert_int_eq(strstr(err.message, "autumn") != NULL, more == 0);
    }
}
END_TEST

/* ---- columns --------------------------------------------------------------
 */

static bool reads_columns(size_t count, const char *name, bw_error *err)
{
    char head[8192], row[1024];
    size_t n = (size_t)snprintf(head, sizeof head, "time_utc"), m = 0;
    for (size_t i = 0; i < count; i++) {
        n += (size_t)snprintf(head + n, sizeof head - n, name, i);
        m += (size_t)snprintf(row + m, sizeof row - m, ",%zu", i % 50);
    }
    row[m] = '\0';
    return reads(head, row, err);
}

START_TEST(sixteen_places_are_read_and_one_more_is_not)
{
    bw_error err;
    ck_assert_msg(
        reads_columns(BW_LOG_CHANNELS, ",place:a@%zumm_temperature_C", &err),
        "%s", err.message);
    for (size_t i = 0; i < BW_LOG_CHANNELS; i++)
        ck_assert_double_eq(logged->channel[i].theta[3], (double)i);
    ck_assert(!reads_columns(BW_LOG_CHANNELS + 1,
                             ",place:a@%zumm_temperature_C", &err));
    has(err.message, "more than 16 places");
}
END_TEST

/* 127 beside the time and what is read, each told once. */
START_TEST(a_hundred_and_twenty_eight_columns_are_read_and_one_more_is_not)
{
    bw_error err;
    for (size_t others = 126; others <= 127; others++) {
        char head[8192], row[1024];
        size_t n = (size_t)snprintf(head, sizeof head, THETA), m = 0;
        m += (size_t)snprintf(row, sizeof row, ",20");
        for (size_t i = 0; i < others; i++) {
            n += (size_t)snprintf(head + n, sizeof head - n, ",battery%zu", i);
            m += (size_t)snprintf(row + m, sizeof row - m, ",3");
        }
        const bool sound = reads(head, row, &err);
        ck_assert_msg(sound == (others == 126), "%s", err.message);
        if (!sound) {
            has(err.message, "more than 128 columns");
            continue;
        }
        ck_assert_uint_eq(logged->note_count, others);
        has(logged->note[125].message, "'battery125' is not read");
        ck_assert_int_eq(logged->note[0].line, 1);
    }
}
END_TEST

/* In any order, each value in its own place. */
START_TEST(a_value_stands_in_the_place_of_its_column)
{
    static const char *const names[] = {"room",      "outdoor",  "cavity:gap",
                                        "place:a|b", "stud:a|b", "place:c@1mm"};
    dice die = {.state = 88172645463325252u};
    for (int draw = 0; draw < 50; draw++) {
        char head[2048], row[256];
        size_t order[12], n = 0, m = 0;
        bw_error err;
        const size_t time = (size_t)between(&die, 0.0, 12.99);
        for (size_t i = 0; i < 12; i++)
            order[i] = i;
        for (size_t i = 11; i > 0; i--) {
            const size_t k = (size_t)between(&die, 0.0, (double)i + 0.999);
            const size_t was = order[i];
            order[i] = order[k];
            order[k] = was;
        }
        for (size_t i = 0; i <= 12; i++) {
            if (i == time)
                n += (size_t)snprintf(head + n, sizeof head - n, "%stime_utc",
                                      i > 0 ? "," : "");
            if (i < 12)
                n += (size_t)snprintf(
                    head + n, sizeof head - n, "%s%s_%s",
                    i > 0 || time == 0 ? "," : "", names[order[i] / 2],
                    order[i] % 2 == 0 ? "temperature_C"
                                      : "relative_humidity_pct");
        }
        begin(head);
        for (int h = 0; h < ROWS; h++) {
            m = 0;
            for (size_t i = 0; i <= 12; i++) {
                if (i == time)
                    m += (size_t)snprintf(row + m, sizeof row - m,
                                          "%s2031-03-0%dT%02d:00",
                                          i > 0 ? "," : "", 1 + h / 24, h % 24);
                if (i < 12)
                    m += (size_t)snprintf(row + m, sizeof row - m, "%s%zu",
                                          i > 0 || time == 0 ? "," : "",
                                          2 * order[i] + (size_t)h);
            }
            used += (size_t)snprintf(text + used, sizeof text - used, "%s\n",
                                     row);
        }
        ck_assert_msg(is_read(&err), "%s", err.message);
        ck_assert_uint_eq(logged->channel_count, 6);
        for (size_t i = 0; i < 6; i++) {
            const bw_log_channel *c = &logged->channel[i];
            size_t k = 0;
            while (strcmp(c->name, names[k]) != 0)
                ck_assert_uint_lt(++k, 6);
            for (int h = 0; h < ROWS; h++) {
                ck_assert_double_eq(c->theta[h], 4.0 * (double)k + h);
                ck_assert_double_eq_tol(
                    c->rh[h], (4.0 * (double)k + 2.0 + h) / 100.0, 1e-12);
            }
        }
    }
}
END_TEST

/* What stands above the names, put together in its order. */
START_TEST(the_head_is_kept_as_it_is_written)
{
    bw_error err;
    ck_assert_msg(
        reads("# source: one\n# Licence : free\n# remark:a\n# SOURCE: two\n"
              "#remark: b \n# license: for all\n# place: none of ours\n" THETA,
              ",20", &err),
        "%s", err.message);
    ck_assert_str_eq(logged->source, "one two");
    ck_assert_str_eq(logged->licence, "free for all");
    ck_assert_str_eq(logged->remark, "a b");
    ck_assert_int_eq(logged->header_line, 8);
    ck_assert_int_eq(logged->line[0], 9);
    ck_assert_double_eq(logged->utc_offset, 0.0);
}
END_TEST

SUITE_AROUND(
    "log_limits", NULL, forget,
    EACH(a_value_within_its_ends_is_read, COUNT(values)),
    EACH(a_moment_is_read_whole, COUNT(moments)),
    FACT(no_logger_is_older_than_1970),
    FACT(a_log_ends_twenty_years_after_its_first_reading),
    FACT(a_log_is_a_day_long_at_least),
    FACT(a_log_has_a_reading_an_hour_at_least_by_halves),
    FACT(an_hour_back_is_said_to_be_autumn),
    FACT(sixteen_places_are_read_and_one_more_is_not),
    FACT(a_hundred_and_twenty_eight_columns_are_read_and_one_more_is_not),
    FACT(a_value_stands_in_the_place_of_its_column),
    FACT(the_head_is_kept_as_it_is_written))
