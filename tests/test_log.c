/* The reader of logs: what a file may say, and every refusal with its line. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "has_words.h"
#include "suite.h"

enum { ROWS = 30, MOST = 1 << 16 };

static bw_log *logged;

static void forget(void)
{
    bw_log_free(logged);
    logged = NULL;
}

/* Head, names, and rows of which %02d is the hour; from the second day on the
 * day changes. */
static const char *text_of(const char *head, const char *row)
{
    static char text[MOST];
    size_t used = (size_t)snprintf(text, sizeof text, "%s", head);
    for (int h = 0; h < ROWS; h++) {
        used += (size_t)snprintf(text + used, sizeof text - used,
                                 "2031-03-0%dT%02d:00", 1 + h / 24, h % 24);
        used += (size_t)snprintf(text + used, sizeof text - used, "%s\n", row);
    }
    return text;
}

static bw_status read_text(const char *text, const bw_log_options *options,
                           bw_error *err)
{
    forget();
    return bw_log_read_text(&logged, text, "log.csv", options, err);
}

static void sound(const char *head, const char *row)
{
    bw_error err = {0};
    ck_assert_msg(read_text(text_of(head, row), NULL, &err) == BW_OK, "%ld: %s",
                  err.line, err.message);
    ck_assert_uint_eq(logged->count, ROWS);
}

static const double MARCH = 22339.0 * 86400.0; /* 2031-03-01 00:00 UTC */

/* ---- what may be said ---------------------------------------------------- */

START_TEST(a_row_is_a_moment_and_its_values)
{
    sound("time_utc,room_temperature_C,room_relative_humidity_pct\n",
          ",20.5,45.2");
    ck_assert_double_eq_tol(logged->time[0], MARCH, 1e-6);
    ck_assert_double_eq_tol(logged->time[29], MARCH + 29.0 * 3600.0, 1e-6);
    ck_assert_int_eq(logged->line[0], 2);
    ck_assert_uint_eq(logged->channel_count, 1);
    ck_assert_int_eq(logged->channel[0].kind, BW_LOG_ROOM);
    ck_assert_double_eq_tol(logged->channel[0].theta[3], 20.5, 1e-12);
    ck_assert_double_eq_tol(logged->channel[0].rh[3], 0.452, 1e-12);
    ck_assert(!logged->channel[0].over_ice);
}
END_TEST

/* One moment, told in four ways: 2031-03-01 00:00 of a clock 2 h before UTC. */
START_TEST(a_clock_is_told_by_the_head_the_row_or_the_caller)
{
    const bw_log_options two = {.has_utc_offset = true, .utc_offset = 2.0};
    bw_error err = {0};
    sound("# utc-offset: 2 h\ntime,room_temperature_C\n", ",20");
    ck_assert_double_eq_tol(logged->time[0], MARCH - 7200.0, 1e-6);
    sound("time,room_temperature_C\n", "+02:00,20");
    ck_assert_double_eq_tol(logged->time[0], MARCH - 7200.0, 1e-6);
    ck_assert_int_eq(
        read_text(text_of("time,room_temperature_C\n", ",20"), &two, &err),
        BW_OK);
    ck_assert_double_eq_tol(logged->time[0], MARCH - 7200.0, 1e-6);
    sound("# utc-offset: 2\n# utc-offset: 2 h\ntime,room_temperature_C\n"
          "# a remark below: taken for one\n",
          ",20");
    ck_assert_double_eq_tol(logged->time[0], MARCH - 7200.0, 1e-6);
    ck_assert_int_eq(read_text(text_of("# utc-offset: 1 h\n"
                                       "time,room_temperature_C\n",
                                       ",20"),
                               &two, &err),
                     BW_ERR_INPUT);
    has(err.message, "--utc-offset says 2 h");
    sound("# utc-offset: 2\ntime,room_temperature_C\n", "Z,20");
    ck_assert_double_eq_tol(logged->time[0], MARCH, 1e-6);
}
END_TEST

/* -14 to 14 h east of UTC: our own limit, clocks in use lie within it. */
START_TEST(a_clock_may_be_fourteen_hours_off)
{
    sound("# utc-offset: 14 h\ntime,room_temperature_C\n", ",20");
    ck_assert_double_eq_tol(logged->time[0], MARCH - 14 * 3600.0, 1e-6);
    sound("# utc-offset: -14\ntime,room_temperature_C\n", ",20");
    ck_assert_double_eq_tol(logged->time[0], MARCH + 14 * 3600.0, 1e-6);
    bw_error err = {0};
    ck_assert_int_eq(read_text(text_of("# utc-offset: 14.25 h\n"
                                       "time,room_temperature_C\n",
                                       ",20"),
                               NULL, &err),
                     BW_ERR_INPUT);
    ck_assert_str_eq(err.message,
                     "utc-offset: '14.25 h' is no clock; write the hours east "
                     "of UTC, -14 to 14, as in 'utc-offset: 2 h'");
}
END_TEST

START_TEST(semicolons_bring_decimal_commas)
{
    sound("time_utc;room_temperature_C;room_relative_humidity_pct\n",
          ";20,5;45,2");
    ck_assert_double_eq_tol(logged->channel[0].theta[0], 20.5, 1e-12);
    ck_assert_double_eq_tol(logged->channel[0].rh[0], 0.452, 1e-12);
}
END_TEST

START_TEST(fahrenheit_is_told_by_the_name)
{
    sound("time_utc,room_temperature_F\n", ",68");
    ck_assert_double_eq_tol(logged->channel[0].theta[0], 20.0, 1e-12);
}
END_TEST

START_TEST(ice_is_stated_in_the_head)
{
    sound("# humidity-reference: ice\ntime_utc,room_relative_humidity_pct\n",
          ",45");
    ck_assert(logged->channel[0].over_ice);
}
END_TEST

START_TEST(what_is_missing_is_none)
{
    static const char *const mark[] = {",", ",NA", ",NaN", ",-", ",null"};
    sound("time_utc,room_temperature_C\n", mark[_i]);
    ck_assert(isnan(logged->channel[0].theta[0]));
}
END_TEST

START_TEST(a_column_of_none_of_ours_is_passed_over_and_told)
{
    sound("time_utc,battery_V,room_temperature_C\n", ",3.1,20");
    ck_assert_uint_eq(logged->note_count, 1);
    has(logged->note[0].message, "battery_V");
    ck_assert_double_eq_tol(logged->channel[0].theta[0], 20.0, 1e-12);
}
END_TEST

START_TEST(places_and_studs_and_a_cavity_have_names)
{
    sound("time_utc,place:a|b_temperature_C,stud:a|b_temperature_C,"
          "cavity:gap_temperature_C,place:a@20mm_relative_humidity_pct\n",
          ",1,2,3,4");
    ck_assert_uint_eq(logged->channel_count, 4);
    ck_assert_int_eq(logged->channel[0].kind, BW_LOG_PLACE);
    ck_assert_str_eq(logged->channel[0].at, "a|b");
    ck_assert_int_eq(logged->channel[1].kind, BW_LOG_STUD);
    ck_assert_str_eq(logged->channel[2].at, "gap");
    ck_assert_str_eq(logged->channel[3].at, "a@20mm");
    ck_assert(!logged->channel[3].has_temperature);
}
END_TEST

/* ---- what is refused ------------------------------------------------------
 */

static const struct refusal {
    const char *head, *row;
    long line;
    const char *fragment;
} refusals[] = {
    {"", ",20", 1, "header row"},
    {"when,room_temperature_C\n", ",20", 1, "no column 'time_utc'"},
    {"time,room_temperature_C\n", ",20", 2, "do not say their clock"},
    {"time,time_utc,room_temperature_C\n", ",20", 1, "two columns"},
    {"time_utc,battery\n", ",20", 1, "no column that can be read"},
    {"time_utc,room_temperature\n", ",20", 1, "room_temperature"},
    {"time_utc,room_temp_C\n", ",20", 1, "room_temp_C"},
    {"time_utc,room:x_temperature_C\n", ",20", 1, "says no place"},
    {"time_utc,place_temperature_C\n", ",20", 1, "says no place"},
    {"time_utc,place:_temperature_C\n", ",20", 1, "says no place"},
    {"time_utc,room_temperature_C,room_temperature_F\n", ",20,70", 1,
     "two columns are the temperature"},
    {"# utc-offset: east\ntime,room_temperature_C\n", ",20", 1, "no clock"},
    {"# utc-offset: 15 h\ntime,room_temperature_C\n", ",20", 1, "no clock"},
    {"# utc-ofset: 2 h\ntime,room_temperature_C\n", ",20", 1, "utc-offset"},
    {"# utc-offset: 2 h\n# utc-offset: 1 h\ntime,room_temperature_C\n", ",20",
     2, "a line above says 2 h"},
    {"# humidity-reference: ice\n# humidity-reference: water\n"
     "time_utc,room_temperature_C\n",
     ",20", 2, "a line above says ice"},
    {"time,room_temperature_C\n# utc-offset: 2 h\n", ",20", 2,
     "belongs above the header row"},
    {"time_utc,room_temperature_C\n# humidity-reference: ice\n", ",20", 2,
     "belongs above the header row"},
    {"# humidity-reference: snow\ntime_utc,room_temperature_C\n", ",20", 1,
     "water"},
    {"time_utc,room_temperature_C\n", ",warm", 2, "'warm' is not a number"},
    {"time_utc,room_temperature_C\n", ",20,5", 2, "3 fields"},
    {"time_utc,room_temperature_C\n", ",95", 2, "swapped"},
    {"time_utc,room_temperature_C\n", ",-99", 2, "-60 to 90"},
    {"time_utc,room_relative_humidity_pct\n", ",106", 2, "0 to 105"},
    {"time_utc,room_relative_humidity_pct\n", ",-3", 2, "swapped"},
    {"time_utc,room_temperature_C\n", "x,20", 2, "no moment"},
};

START_TEST(a_faulty_file_is_refused_with_its_line)
{
    const struct refusal *r = &refusals[_i];
    bw_error err = {0};
    ck_assert_int_eq(read_text(text_of(r->head, r->row), NULL, &err),
                     BW_ERR_INPUT);
    ck_assert_msg(err.line == r->line, "line %ld, not %ld: %s", err.line,
                  r->line, err.message);
    has(err.message, r->fragment);
    ck_assert_str_eq(err.file, "log.csv");
    ck_assert_ptr_null(logged);
}
END_TEST

static const struct times {
    const char *text;
    long line;
    const char *fragment;
} times[] = {
    {"time_utc,room_temperature_C\n2031-03-01T00:00,1\n2031-03-01T00:00,1\n", 3,
     "the same as that of line 2"},
    {"time_utc,room_temperature_C\n2031-03-01T02:00,1\n2031-03-01T01:30,1\n", 3,
     "clock put back"},
    {"time_utc,room_temperature_C\n2031-03-02T02:00,1\n2031-03-01T01:30,1\n", 3,
     "does not ascend"},
    {"time_utc,room_temperature_C\n2031-02-29T02:00,1\n", 2, "no moment"},
    {"time_utc,room_temperature_C\n2031-03-01T24:00,1\n", 2, "no moment"},
    {"time_utc,room_temperature_C\n1969-12-31T23:59,1\n", 2, "before 1970"},
    {"# utc-offset: 2 h\ntime,room_temperature_C\n1970-01-01T01:59,1\n", 3,
     "before 1970"},
    {"time_utc,room_temperature_C\n2031-03-01T02:00:60,1\n", 2, "no moment"},
    {"time_utc,room_temperature_C\n2031-03-01T02:00,1\n2052-03-01T01:30,1\n", 3,
     "20 years"},
    {"time_utc,room_temperature_C\n2031-03-01T02:00,1\n2031-03-01T22:00,1\n", 3,
     "shorter than a day"},
    {"time_utc,room_temperature_C\n2031-03-01T00:00,1\n2031-03-01T12:00,1\n"
     "2031-03-02T00:00,1\n2031-03-02T12:00,1\n",
     5, "more than an hour apart"},
    {"time_utc,room_temperature_C\n", 1, "shorter than a day"},
    {"# a head alone\n", 1, "no header row"},
};

START_TEST(times_that_cannot_be_are_refused)
{
    bw_error err = {0};
    ck_assert_int_eq(read_text(times[_i].text, NULL, &err), BW_ERR_INPUT);
    ck_assert_msg(err.line == times[_i].line, "line %ld: %s", err.line,
                  err.message);
    has(err.message, times[_i].fragment);
}
END_TEST

SUITE_AROUND("log", NULL, forget, FACT(a_row_is_a_moment_and_its_values),
             FACT(a_clock_is_told_by_the_head_the_row_or_the_caller),
             FACT(a_clock_may_be_fourteen_hours_off),
             FACT(semicolons_bring_decimal_commas),
             FACT(fahrenheit_is_told_by_the_name),
             FACT(ice_is_stated_in_the_head), EACH(what_is_missing_is_none, 5),
             FACT(a_column_of_none_of_ours_is_passed_over_and_told),
             FACT(places_and_studs_and_a_cavity_have_names),
             EACH(a_faulty_file_is_refused_with_its_line, COUNT(refusals)),
             EACH(times_that_cannot_be_are_refused, COUNT(times)))
