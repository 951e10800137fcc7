/* Gaps of hours at their ends, and a record written and in words
 * (docs/climate.md). Sentences are the program's own (regression values as to
 * wording). */

#include "joined_case.h"

/* ---- gaps ---- */

/* Three hours at most between neighbours; a direction stays as it was. */
START_TEST(a_direction_of_wind_stays_in_a_short_gap)
{
    bw_record a = air("a.csv");
    double *from = own(350.0), *wind = own(2.0);
    for (int h = 101; h < HOUR_COUNT; h++)
        from[h] = 10.0, wind[h] = 6.0;
    for (int h = 100; h < 103; h++)
        from[h] = wind[h] = (double)NAN;
    a.value[BW_RECORD_WIND] = wind;
    a.value[BW_RECORD_WIND_FROM] = from;
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq(made->value[BW_RECORD_WIND_FROM][100 + i], 350.0);
        ck_assert_double_eq(made->value[BW_RECORD_WIND][100 + i], 3.0 + i);
    }
    ck_assert(noted("Filled in, a.csv: wind direction, 3 h in 1 gap, between "
                    "their neighbours"));
}
END_TEST

static void empty(double *column, int first, int count)
{
    for (int h = first; h < first + count; h++)
        column[h] = (double)NAN;
}

START_TEST(gaps_are_counted_by_how_they_are_filled)
{
    bw_record a = air("a.csv");
    double *rain = own(0.0);
    empty(rain, 100, 3);
    empty(rain, 200, 1);
    empty(rain, 300, 4);
    a.value[BW_RECORD_RAIN] = rain;
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert(noted("Filled in, a.csv: rain, 4 h in 2 gaps, between their "
                    "neighbours"));
    ck_assert(noted("Filled in, a.csv: rain, 4 h in 1 gap, by the same hours "
                    "of the days before and after"));
}
END_TEST

/* Of an odd number of hours the one in the middle is of the day before. */
START_TEST(the_middle_of_a_long_gap_is_of_the_day_before)
{
    bw_record a = air("a.csv");
    double *rain = own(1.0);
    for (int h = 1000; h < HOUR_COUNT; h++)
        rain[h] = 2.0;
    empty(rain, 998, 5);
    a.value[BW_RECORD_RAIN] = rain;
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    for (int i = 0; i < 5; i++)
        ck_assert_double_eq(made->value[BW_RECORD_RAIN][998 + i],
                            i < 3 ? 1.0 : 2.0);
    rain[1002] = 2.0; /* of four two each */
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    for (int i = 0; i < 4; i++)
        ck_assert_double_eq(made->value[BW_RECORD_RAIN][998 + i],
                            i < 2 ? 1.0 : 2.0);
}
END_TEST

START_TEST(gaps_of_more_than_three_days_or_without_days_beside_are_refused)
{
    bw_record a = air("a.csv");
    double *rain = own(0.0);
    long *line = calloc(HOUR_COUNT, sizeof *line);
    ck_assert_ptr_nonnull(line);
    for (int h = 0; h < HOUR_COUNT; h++)
        line[h] = h + 5;
    a.value[BW_RECORD_RAIN] = rain;
    empty(rain, 500, 72);
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    empty(rain, 572, 1);
    ck_assert_int_eq(join(&a, NULL), BW_ERR_INPUT);
    ck_assert_str_eq(err.message,
                     "rain: no value for 73 hours from Jan 21 20:00 (UTC) on; "
                     "gaps of up to 72 hours are filled in: take another year, "
                     "or another file first");
    ck_assert_int_eq(err.line, 0);
    a.line = line;
    ck_assert_int_eq(join(&a, NULL), BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 505); /* its row is there, empty */
    line[500] = 0;
    ck_assert_int_eq(join(&a, NULL), BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 504); /* the row before */
    /* days of one hour each: up to four days off another may be asked */
    for (int h = 0; h < HOUR_COUNT; h++)
        rain[h] = 0.0;
    for (int day = 20; day < 24; day++)
        empty(rain, 24 * day + 1, 23);
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    empty(rain, 24 * 24 + 1, 23);
    ck_assert_int_eq(join(&a, NULL), BW_ERR_INPUT);
    ck_assert_str_eq(err.message,
                     "rain: no value for 23 hours from Jan 21 01:00 (UTC) on, "
                     "and no whole day beside them to fill them in from");
    ck_assert_int_eq(err.line, 486);
    free(line);
}
END_TEST

/* A tenth of a year, 876 h: 292 gaps of three, and one hour more. */
START_TEST(a_tenth_of_a_year_may_be_missing)
{
    bw_record a = air("a.csv");
    double *rain = own(0.0);
    for (int gap = 0; gap < 292; gap++)
        empty(rain, 30 * gap + 10, 3);
    a.value[BW_RECORD_RAIN] = rain;
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert(noted("Filled in, a.csv: rain, 876 h in 292 gaps, between their "
                    "neighbours"));
    empty(rain, 13, 1);
    ck_assert_int_eq(join(&a, NULL), BW_ERR_INPUT);
    ck_assert_str_eq(err.message, "rain: 877 hours of the year are missing; up "
                                  "to 876 are filled in");
    ck_assert_int_eq(err.line, 0);
}
END_TEST

/* ---- written ---- */

static char *written;
static size_t length_written;

static bool collect(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    written = realloc(written, length_written + length + 1);
    memcpy(written + length_written, bytes, length);
    length_written += length;
    written[length_written] = '\0';
    return true;
}

static void expect_lines(const char *lines)
{
    ck_assert_uint_ge(length_written, strlen(lines));
    written[strlen(lines)] = '\0';
    ck_assert_str_eq(written, lines);
    free(written);
    written = NULL;
    length_written = 0;
}

#define TIMES                                                                  \
    "# humidity-reference: water\n# All times: UTC. A row is the hour that "   \
    "begins at its time: sun, longwave and rain are its mean or sum, all "     \
    "else holds at its beginning\n"

START_TEST(a_record_is_written_in_these_lines)
{
    const char *note[] = {"one", "two"};
    bw_record a = air("a.csv");
    a.year = 2017;
    a.sun_offset = 0.5;
    ck_assert_int_eq(bw_record_write(&a, collect, NULL, &err), BW_OK);
    expect_lines("# irradiance-time-offset: 0.5\n" TIMES
                 "time,temperature_C,relative_humidity_pct\n"
                 "2017-01-01T00:00Z,5,80\n2017-01-01T01:00Z,5,80\n");
    bw_record b = air("b.csv");
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        b.value[q] = all(q + 0.25);
    b.year = 2016; /* has a leap day, which the file has not */
    b.year_kind = BW_YEAR_MEASURED;
    b.has_position = b.has_altitude = true;
    b.latitude = 50.123456;
    b.longitude = -3.25;
    b.altitude = 12.0;
    b.sun_offset = 0.75;
    b.note = note;
    b.note_count = 2;
    ck_assert_int_eq(bw_record_write(&b, collect, NULL, &err), BW_OK);
    ck_assert_ptr_nonnull(strstr(written, "\n2001-02-28T23:00Z,"));
    ck_assert_ptr_nonnull(strstr(written, "\n2001-03-01T00:00Z,"));
    ck_assert_ptr_nonnull(strstr(written, "\n2001-12-31T23:00Z,"));
    expect_lines(
        "# kind: measured-year\n# latitude: 50.123456\n# longitude: -3.25\n"
        "# altitude: 12\n# irradiance-time-offset: 0.75\n" TIMES
        "# one\n# two\n"
        "time,temperature_C,relative_humidity_pct,direct_normal_W_m2,"
        "diffuse_horizontal_W_m2,longwave_down_W_m2,wind_m_s,"
        "wind_from_deg,rain_mm,pressure_Pa\n"
        "2001-01-01T00:00Z,0.25,1.25,2.25,3.25,4.25,5.25,6.25,7.25,"
        "8.25\n");
    a.year_kind = BW_YEAR_TYPICAL;
    a.year = 0;
    ck_assert_int_eq(bw_record_write(&a, collect, NULL, &err), BW_OK);
    ck_assert_ptr_nonnull(strstr(written, "\n2001-01-01T00:00Z,"));
    expect_lines("# kind: typical-year\n");
}
END_TEST

START_TEST(a_record_is_described_in_these_lines)
{
    /* 66 columns stand beside a label: 60, a blank and 5 */
    const char *note[] = {
        "a\tword and others, of sixty signs and blanks in all, of them "
        "12345",
        "a\tword and others, of sixty signs and blanks in all, of them "
        "123456"};
    bw_record a = plain("x.csv");
    double *rain = own(0.5), *theta = own(4.0);
    empty(rain, 10, 2);
    empty(rain, 20, 3);
    for (int h = 0; h < HOUR_COUNT / 2; h++)
        theta[h] = 8.0;
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        a.value[q] = all(90.0);
    a.value[BW_RECORD_TEMPERATURE] = theta;
    a.value[BW_RECORD_RAIN] = rain;
    a.value[BW_RECORD_PRESSURE] = NULL;
    a.note = note;
    a.note_count = 2;
    ck_assert_int_eq(bw_record_describe(&a, collect, NULL, &err), BW_OK);
    expect_lines(
        "  file      x.csv\n  read as   a form\n  times     UTC\n"
        "  SHA-256   0123\n  has       temperature_C, mean 6\n"
        "  has       relative_humidity_pct, mean 90\n"
        "  has       direct_normal_W_m2, mean 90\n"
        "  has       diffuse_horizontal_W_m2, mean 90\n"
        "  has       longwave_down_W_m2, mean 90\n"
        "  has       wind_m_s, mean 90\n"
        "  has       wind_from_deg\n"
        /* 8755 h of 0.5 mm */
        "  has       rain_mm, sum 4377.5; 5 hours missing, at most 3 in a row\n"
        "  note      a?word and others, of sixty signs and blanks in all, "
        "of them 12345\n"
        "  note      a?word and others, of sixty signs and blanks in all, "
        "of them\n            123456\n"
        "  missing   pressure: the standard pressure is taken, which matters "
        "little:\n"
        "            hourly lists of weather stations\n"
        "  missing   position: no sun without it; --position "
        "LATITUDE,LONGITUDE says it\n");
    a.has_position = true;
    a.sha256[0] = '\0';
    ck_assert_int_eq(bw_record_describe(&a, collect, NULL, &err), BW_OK);
    ck_assert_ptr_null(strstr(written, "position:"));
    expect_lines("  has       temperature_C, mean 6\n");
}
END_TEST

SUITE_AROUND(
    "hours_filled", setup, teardown,
    FACT(a_direction_of_wind_stays_in_a_short_gap),
    FACT(gaps_are_counted_by_how_they_are_filled),
    FACT(the_middle_of_a_long_gap_is_of_the_day_before),
    FACT(gaps_of_more_than_three_days_or_without_days_beside_are_refused),
    FACT(a_tenth_of_a_year_may_be_missing),
    FACT(a_record_is_written_in_these_lines),
    FACT(a_record_is_described_in_these_lines))
