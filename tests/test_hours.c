/* Time stamps, units and rows of hourly files: which forms are read, and what
 * is refused because it would count for something else. */

#include <math.h>

#include "bothways/air.h"
#include "suite.h"
#include "year_case.h"

/* ---- time stamps ------------------------------------------------------- */

static void dashes(struct text *text, int hour, const char *between,
                   const char *end)
{
    int day = 0, month = month_of(hour, &day);
    add(text, "%d-%02d-%02d%s%02d:00%s", 2000 + month, month + 1, day, between,
        hour % 24, end);
}

static void with_seconds(struct text *text, int hour)
{
    dashes(text, hour, "T", ":00Z");
}

static void with_blank(struct text *text, int hour)
{
    dashes(text, hour, " ", "");
}

static void with_blank_and_seconds(struct text *text, int hour)
{
    dashes(text, hour, " ", ":00");
}

static void compact(struct text *text, int hour)
{
    int day = 0, month = month_of(hour, &day);
    add(text, "2017%02d%02d:%02d00", month + 1, day, hour % 24);
}

static void backwards(struct text *text, int hour)
{
    dashes(text, HOURS - 1 - hour, "T", "Z");
}

static void by_hour(struct text *text, int hour)
{
    add(text, ",%d,80\n", hour % 24);
}

static void (*const times[])(struct text *, int) = {
    with_seconds, with_blank, with_blank_and_seconds, compact};

START_TEST(hours_are_placed_by_month_day_and_hour_in_every_form)
{
    bw_climate *climate = read_year(&(year){.time = times[_i], .row = by_hour});
    ck_assert_uint_eq(climate->note_count, 0);
    for (int h = 0; h < HOURS; h += 1237)
        ck_assert_double_eq(climate->hour[h].temperature, h % 24);
    bw_climate_free(climate);
}
END_TEST

START_TEST(the_order_of_the_rows_does_not_count)
{
    bw_climate *climate = read_year(&(year){.time = backwards, .row = by_hour});
    ck_assert_double_eq(climate->hour[0].temperature, 23.0);
    ck_assert_double_eq(climate->hour[HOURS - 1].temperature, 0.0);
    bw_climate_free(climate);
}
END_TEST

static const struct {
    const char *time, *words;
} no_times[] = {
    {"2017-02-30T00:00Z", "is no moment of a year"},
    {"2017-04-31T00:00Z", "is no moment of a year"},
    {"2017-00-10T00:00Z", "is no moment of a year"},
    {"2017-13-10T00:00Z", "is no moment of a year"},
    {"2017-01-00T00:00Z", "is no moment of a year"},
    {"2017-01-32T00:00Z", "is no moment of a year"},
    {"2017-0x-10T00:00Z", "is no moment of a year"},
    {"2017-01-1xT00:00Z", "is no moment of a year"},
    {"2017- 1-10T00:00Z", "is no moment of a year"},
    {"2017-01-10Txx:00Z", "is no moment of a year"},
    {"2016-02-29T24:00Z", "hours run from 00 to 23"},
    {"20171301:0000", "is no moment of a year"},
    {"2017-01-10T00:30Z", "is not on the hour"},
    {"2017-01-10T00:xxZ", "is not on the hour"},
    {"20170110:0010", "is not on the hour"},
    {"2017-01-10T00:00:30Z", "is not a time in UTC"},
    {"2017-01-10T00:00:00.000Z", "is not a time in UTC"},
    {"2017-01-10T00:00+01:00", "is not a time in UTC"},
    {"2017-01-10T00:00ZZ", "is not a time in UTC"},
    {"2017-01-10_00:00", "is not a time in UTC"},
    {"2017-01-10T0000Z", "is not a time in UTC"},
    {"2017-01-10T00.00Z", "is not a time in UTC"},
    {"2017-01.10T00:00Z", "is not a time in UTC"},
    {"2017/01/10 00:00", "is not a time in UTC"},
    {"year-01-10T00:00Z", "is not a time in UTC"},
    {"20170110:00", "is not a time in UTC"},
    {"20170110:00000", "is not a time in UTC"},
    {"201701100000", "is not a time in UTC"},
    {"2017-01-10", "is not a time in UTC"},
    {"10.01.2017 00:00", "is not a time in UTC"},
    {"1", "is not a time in UTC"},
    {"", "is not a time in UTC"},
};

START_TEST(what_is_no_full_hour_of_a_year_is_refused)
{
    char text[200];
    snprintf(text, sizeof text, HOURLY "2017-01-01T00:00Z,5,80\n%s,5,80\n",
             no_times[_i].time);
    expect_refused(text, 3, no_times[_i].words);
}
END_TEST

static void ends_with_next_year(struct text *text, int hour)
{
    add(text, ",5,80\n");
    if (hour == HOURS - 1)
        add(text, "2018-01-01T00:00Z,5,80\n");
}

START_TEST(the_first_hour_of_the_next_year_is_an_hour_given_twice)
{
    refuse_year(&(year){.row = ends_with_next_year}, 8762,
                "this hour is given twice; it stands in line 2 too (the year "
                "does not count");
}
END_TEST

/* ---- units ------------------------------------------------------------- */

static void vapour_hectopascal(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour % 2 == 0 ? "8.71" : "6.2");
}

static void vapour_kilopascal(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour % 2 == 0 ? "0.871" : "0.9");
}

static void fraction_in_fog(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour == 4000 ? "1.03" : "0.81");
}

static void air_hectopascal(struct text *text, int hour)
{
    add(text, ",5,80,%s\n", hour == 2 ? "1013.2" : "101320");
}

static void air_no_unit(struct text *text, int hour)
{
    add(text, ",5,80,%s\n", hour == 2 ? "101" : "101320");
}

static void too_much_air(struct text *text, int hour)
{
    add(text, ",5,80,%s\n", hour == 2 ? "1013200" : "101320");
}

/* 871.86 Pa is saturation at 5 degC by the formula of ISO 13788, whose
 * figures the suite `air` sets beside IAPWS. */
static const struct {
    year is;
    long line;
    const char *words;
} units[] = {
    {{.header = "time,temperature_C,vapour_pressure_Pa\n",
      .row = vapour_hectopascal},
     2,
     "vapour_pressure_Pa: no hour has more than 1 % of saturation (is it in "
     "hPa or kPa?)"},
    {{.header = "time,temperature_C,vapour_pressure_Pa\n",
      .row = vapour_kilopascal},
     2,
     "is it in hPa or kPa?"},
    {{.row = fraction_in_fog},
     2,
     "relative_humidity_pct: no value is above 1.05; this looks like a "
     "fraction"},
    {{.header = "time,temperature_C,relative_humidity_pct,pressure_Pa\n",
      .row = air_hectopascal},
     4,
     "pressure_Pa: 1013.2 lies outside 45000 to 110000 Pa (is it in hPa?)"},
    {{.header = "time,temperature_C,relative_humidity_pct,pressure_Pa\n",
      .row = air_no_unit},
     4,
     "pressure_Pa: 101 lies outside 45000 to 110000 Pa"},
    {{.header = "time,temperature_C,relative_humidity_pct,pressure_Pa\n",
      .row = too_much_air},
     4,
     "pressure_Pa: 1013200 lies outside"},
};

START_TEST(a_year_in_another_unit_is_refused)
{
    refuse_year(&units[_i].is, units[_i].line, units[_i].words);
}
END_TEST

/* Marks of missing values that programs write. */
static const char *const sentinels[] = {
    "-9999,80", "-99.9,80", "9999,80", "999,80", "5,-9999", "5,-99",
    "5,999",    "5,9999",   "nan,80",  "5,NA",   "5,-",     "99.9,80"};

START_TEST(a_mark_for_a_missing_value_is_not_a_value)
{
    char text[200];
    snprintf(text, sizeof text, HOURLY "2017-01-01T00:00Z,%s\n", sentinels[_i]);
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_text(&climate, text, &err), BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 2);
    ck_assert(strstr(err.message, "lies outside") != NULL ||
              strstr(err.message, "is not a number") != NULL);
}
END_TEST

static void one_at(struct text *text, int hour, const char *value)
{
    add(text, ",5,%s\n", hour == 7 ? value : "80");
}

static void one_nearly_saturated(struct text *text, int hour)
{
    one_at(text, hour, "104.9");
}

static void one_above(struct text *text, int hour)
{
    one_at(text, hour, "105.1");
}

static void one_without_water(struct text *text, int hour)
{
    one_at(text, hour, "0.05");
}

START_TEST(humidity_is_taken_as_saturation_up_to_five_per_cent_above)
{
    bw_climate *climate = read_year(&(year){.row = one_nearly_saturated});
    ck_assert_double_eq(climate->hour[7].vapour_pressure,
                        bw_saturation_pressure_water(5.0));
    ck_assert_ptr_nonnull(note_with(climate, "relative_humidity_pct: 1 value "
                                             "slightly outside 0 to 100 %"));
    bw_climate_free(climate);
    refuse_year(&(year){.row = one_above}, 9, "105.1 lies outside 0 to 100 %");
}
END_TEST

static void vapour_a_little_above(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour == 7 || hour == 9 ? "880" : "700");
}

static void one_vapour_a_little_above(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour == 7 ? "880" : "700");
}

static void vapour_far_above(struct text *text, int hour)
{
    add(text, ",5,%s\n", hour == 7 ? "920" : "700");
}

/* 880 Pa is 0.9 % above the 871.86 Pa of 5 degC, 920 Pa 5.5 %. */
START_TEST(a_vapour_pressure_is_taken_as_saturation_up_to_five_per_cent_above)
{
    const char *header = "time,temperature_C,vapour_pressure_Pa\n";
    bw_climate *climate = read_year(
        &(year){.header = header, .row = vapour_a_little_above});
    ck_assert_double_eq(climate->hour[7].vapour_pressure,
                        bw_saturation_pressure_water(5.0));
    ck_assert_ptr_nonnull(note_with(climate, "2 values slightly above"));
    bw_climate_free(climate);
    climate = read_year(
        &(year){.header = header, .row = one_vapour_a_little_above});
    ck_assert_ptr_nonnull(note_with(climate, "1 value slightly above"));
    bw_climate_free(climate);
    refuse_year(&(year){.header = header, .row = vapour_far_above}, 9,
                "vapour_pressure_Pa: 920 is above saturation at 5 degC");
}
END_TEST

START_TEST(an_hour_without_water_is_refused)
{
    refuse_year(&(year){.row = one_without_water}, 9,
                "less than 0.1 % of saturation at 5 degC");
}
END_TEST

/* ---- rows and columns -------------------------------------------------- */

static void row_with_remarks(struct text *text, int hour)
{
    add(text, hour == 40 ? ",5,80\n# the mast was oiled\n\n" : ",5,80\n");
}

START_TEST(remarks_and_blank_lines_may_stand_between_hours)
{
    bw_climate *climate = read_year(&(year){.row = row_with_remarks});
    ck_assert_uint_eq(climate->note_count, 0);
    bw_climate_free(climate);
}
END_TEST

static void sun_row(struct text *text, int hour)
{
    bool day = hour % 24 >= 9 && hour % 24 < 15, dusk = hour % 24 == 15;
    add(text, ",5,80,%d,%d\n", day ? 300 : 0, day || dusk ? 100 : 0);
}

START_TEST(beam_without_a_latitude_gives_no_global_irradiance)
{
    const char *header = "time,temperature_C,relative_humidity_pct,"
                         "direct_normal_W_m2,diffuse_horizontal_W_m2\n";
    bw_climate *climate = read_year(&(year){.header = header, .row = sun_row});
    double mean[BW_MONTHS];
    ck_assert(climate->columns.solar && !climate->has_position);
    ck_assert(!climate->month[6].has_global);
    ck_assert(!bw_climate_irradiance(climate, 0.0, 0.0, mean));
    bw_climate_free(climate);
    climate = read_year(
        &(year){.head = "# latitude: 50\n", .header = header, .row = sun_row});
    ck_assert(climate->month[6].has_global);
    ck_assert_double_gt(climate->month[6].global_horizontal, 25.0);
    ck_assert(bw_climate_irradiance(climate, 0.0, 0.0, mean));
    ck_assert_double_eq_tol(mean[6], climate->month[6].global_horizontal, 1e-9);
    ck_assert(!bw_climate_irradiance(climate, 180.0, (double)NAN, mean));
    bw_climate_free(climate);
}
END_TEST

SUITE("hours",
      EACH(hours_are_placed_by_month_day_and_hour_in_every_form, COUNT(times)),
      FACT(the_order_of_the_rows_does_not_count),
      EACH(what_is_no_full_hour_of_a_year_is_refused, COUNT(no_times)),
      FACT(the_first_hour_of_the_next_year_is_an_hour_given_twice),
      EACH(a_year_in_another_unit_is_refused, COUNT(units)),
      EACH(a_mark_for_a_missing_value_is_not_a_value, COUNT(sentinels)),
      FACT(humidity_is_taken_as_saturation_up_to_five_per_cent_above),
      FACT(a_vapour_pressure_is_taken_as_saturation_up_to_five_per_cent_above),
      FACT(remarks_and_blank_lines_may_stand_between_hours),
      FACT(beam_without_a_latitude_gives_no_global_irradiance),
      FACT(an_hour_without_water_is_refused))
