/* What is missing from an hourly file: empty columns, gaps filled, gaps
 * refused. */

#include <math.h>

#include "bothways/air.h"
#include "suite.h"
#include "year_case.h"

static void by_hour(struct text *text, int hour)
{
    add(text, ",%d,80\n", hour % 24);
}

/* ---- what is missing --------------------------------------------------- */

static void no_humidity(struct text *text, int hour)
{
    (void)hour;
    add(text, ",5,\n");
}

static void no_temperature(struct text *text, int hour)
{
    (void)hour;
    add(text, ",,80\n");
}

static void no_rain(struct text *text, int hour)
{
    (void)hour;
    add(text, ",5,80,\n");
}

static const struct {
    year is;
    const char *words;
} empty[] = {
    {{.row = no_humidity}, "relative_humidity_pct: the column is empty"},
    {{.row = no_temperature}, "temperature_C: the column is empty"},
    {{.header = "time,temperature_C,relative_humidity_pct,rain_mm\n",
      .row = no_rain},
     "rain_mm: the column is empty; leave it out"},
};

START_TEST(a_column_without_a_value_is_called_empty)
{
    refuse_year(&empty[_i].is, 1, empty[_i].words);
}
END_TEST

static bool three_over_new_year(int hour)
{
    return hour == 0 || hour == 1 || hour == HOURS - 1;
}

static bool four_over_new_year(int hour)
{
    return three_over_new_year(hour) || hour == HOURS - 2;
}

static void wind_turns_at_new_year(struct text *text, int hour)
{
    bool gap = hour == 0 || hour == HOURS - 1;
    add(text, ",5,80,%s\n", gap ? "" : hour < 100 ? "10" : "350");
}

/* Half way between 350 and 10 degrees lies the opposite of both. */
START_TEST(a_missing_wind_direction_is_the_one_before)
{
    bw_climate *climate = read_year(&(year){
        .header = "time,temperature_C,relative_humidity_pct,wind_from_deg\n",
        .row = wind_turns_at_new_year});
    ck_assert_double_eq(climate->hour[HOURS - 1].wind_from, 350.0);
    ck_assert_double_eq(climate->hour[0].wind_from, 350.0);
    ck_assert_double_eq(climate->hour[1].wind_from, 10.0);
    bw_climate_free(climate);
}
END_TEST

static bool every_fortieth(int hour)
{
    return hour % 40 == 0;
}

static void every_fortieth_empty(struct text *text, int hour)
{
    add(text, hour % 40 == 0 ? ",,80\n" : ",5,80\n");
}

START_TEST(a_gap_may_wrap_around_the_year_s_end)
{
    bw_climate *climate = read_year(
        &(year){.skip = three_over_new_year, .row = by_hour});
    /* Dec 31 22:00 22 degC, Jan 1 02:00 2 degC: a quarter each hour. */
    ck_assert_double_eq_tol(climate->hour[HOURS - 1].temperature, 17.0, 1e-12);
    ck_assert_double_eq_tol(climate->hour[0].temperature, 12.0, 1e-12);
    ck_assert_double_eq_tol(climate->hour[1].temperature, 7.0, 1e-12);
    ck_assert_ptr_nonnull(note_with(
        climate, "3 missing hours in 1 gap filled in between the neighbours, "
                 "the first at Dec 31 23:00"));
    bw_climate_free(climate);
    refuse_year(&(year){.skip = four_over_new_year}, 8757,
                "the longest gap is 4 hours from Dec 31 22:00");
}
END_TEST

START_TEST(more_than_two_hundred_missing_hours_are_refused_however_spread)
{
    refuse_year(&(year){.skip = every_fortieth}, 8542,
                "8541 of 8760 hours are given");
    refuse_year(&(year){.row = every_fortieth_empty}, 8761,
                "temperature_C: 219 hours of the year are missing; up to 200");
}
END_TEST

static void humid_with_a_cold_gap(struct text *text, int hour)
{
    add(text, hour == 500 ? ",2,\n" : ",5,870\n");
}

static void humid_over_a_jump(struct text *text, int hour)
{
    add(text, hour >= 503 && hour < 600 ? ",20,2330\n" : ",0,610\n");
}

static bool gap_at_the_jump(int hour)
{
    return hour >= 500 && hour < 503;
}

/* Saturation is convex in temperature: half way between two saturated hours
 * the mean of their pressures is more than the air can hold. */
START_TEST(a_filled_vapour_pressure_is_no_more_than_the_air_can_hold)
{
    const char *header = "time,temperature_C,vapour_pressure_Pa\n";
    bw_climate *climate = read_year(
        &(year){.header = header, .row = humid_with_a_cold_gap});
    ck_assert_double_eq(climate->hour[500].vapour_pressure,
                        bw_saturation_pressure_water(2.0));
    bw_climate_free(climate);
    climate = read_year(&(year){
        .header = header, .row = humid_over_a_jump, .skip = gap_at_the_jump});
    ck_assert_double_eq_tol(climate->hour[501].temperature, 10.0, 1e-12);
    ck_assert_double_eq(climate->hour[501].vapour_pressure,
                        bw_saturation_pressure_water(10.0));
    bw_climate_free(climate);
}
END_TEST

/* So cold that the air holds 12 Pa: of any other column that is no end. */
static void cold_with_gaps(struct text *text, int hour)
{
    add(text, hour == 500 ? ",-44,80,,,,,\n" : ",-44,80,98000,250,9,4,300\n");
}

START_TEST(no_other_column_is_kept_to_what_the_air_can_hold)
{
    bw_climate *climate = read_year(
        &(year){.header = "time,temperature_C,relative_humidity_pct,"
                          "pressure_Pa,longwave_down_W_m2,wind_m_s,rain_mm,"
                          "wind_from_deg\n",
                .row = cold_with_gaps});
    const bw_climate_hour *filled = &climate->hour[500];
    ck_assert_double_eq(filled->pressure, 98000.0);
    ck_assert_double_eq(filled->longwave_down, 250.0);
    ck_assert_double_eq(filled->wind_from, 300.0);
    ck_assert_double_eq(filled->wind, 9.0);
    ck_assert_double_eq(filled->rain, 4.0);
    bw_climate_free(climate);
}
END_TEST

SUITE("gaps", EACH(a_column_without_a_value_is_called_empty, COUNT(empty)),
      FACT(a_gap_may_wrap_around_the_year_s_end),
      FACT(a_missing_wind_direction_is_the_one_before),
      FACT(more_than_two_hundred_missing_hours_are_refused_however_spread),
      FACT(a_filled_vapour_pressure_is_no_more_than_the_air_can_hold),
      FACT(no_other_column_is_kept_to_what_the_air_can_hold))
