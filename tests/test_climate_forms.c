/* Header lines of climate files and tables of months: which forms are read, and
 * what is refused because it would count for something else. */

#include "climate_help.h"
#include "suite.h"

/* ---- header lines ------------------------------------------------------ */

static const struct {
    const char *head;
    long line;
    const char *words;
} heads[] = {
    {"# altitude: 86 ft\n", 1, "altitude: '86 ft' is not a number of m"},
    {"# altitude: 9001\n", 1, "altitude: 9001 lies outside -450 to 9000 m"},
    {"# altitude: high\n", 1, "altitude: 'high' is not a number of m"},
    {"# altitude:\n", 1, "altitude: '' is not a number of m"},
    {"# latitude: 55,5\n", 1, "latitude: '55,5' is not a number of degrees"},
    {"# latitude: 55.5 N\n", 1, "'55.5 N' is not a number of degrees"},
    {"# latitude: 1e400\n", 1, "'1e400' is not a number of degrees"},
    {"# latitude: -90.5\n", 1, "lies outside -90 to 90"},
    {"# latitude: 50\n# longitude: 181\n", 2, "lies outside -180 to 180"},
    {"# prevailing-wind: W\n", 1, "'W' is not a number of degrees"},
    {"# prevailing-wind: 361\n", 1, "lies outside 0 to 360 degrees"},
    {"# irradiance-time-offset: 30 min\n", 1, "is not a number of h"},
    {"# irradiance-time-offset: 1.5\n", 1, "lies outside -1 to 1 h"},
    {"# humidity-reference: steam\n", 1, "is neither water nor ice"},
    {"# latitudes: 50\n", 1, "did you mean 'latitude'?"},
    /* a value given twice: which one would count? */
    {"# latitude: 50\n# place: x\n# latitude: 10\n", 3,
     "latitude: given twice; it stands in line 1 too"},
    {"# humidity-reference: ice\n# humidity-reference: water\n", 2,
     "humidity-reference: given twice"},
    {"# altitude: 5\n# Altitude: 5\n", 2, "altitude: given twice"},
    {"# irradiance-time-offset: 0\n# irradiance-time-offset: 0\n", 2,
     "given twice"},
    {"# prevailing-wind: 10\n# prevailing-wind: 20\n", 2, "given twice"},
};

START_TEST(header_lines_that_would_be_misread_are_refused)
{
    char text[400];
    snprintf(text, sizeof text, "%s" HEADER "1,-1,85\n" MONTHS_FROM_FEB,
             heads[_i].head);
    expect_refused(text, heads[_i].line, heads[_i].words);
}
END_TEST

START_TEST(header_values_may_carry_their_unit)
{
    bw_climate *climate = read_good(
        "#\taltitude :\t86 m \n# Latitude\t: 55.5 deg\n# LONGITUDE: -4 "
        "degrees\n"
        "# prevailing-wind: 240deg\n# irradiance-time-offset: -0.5 hours\n"
        "# humidity-reference: Water\n# license: free\n# licence: of charge\n"
        "# measured by hand: yes\n#:\n#\n" HEADER "1,-1,85\n" MONTHS_FROM_FEB);
    ck_assert_double_eq(climate->altitude, 86.0);
    ck_assert_double_eq(climate->latitude, 55.5);
    ck_assert_double_eq(climate->longitude, -4.0);
    ck_assert_double_eq(climate->prevailing_wind, 240.0);
    ck_assert_double_eq(climate->time_offset, -0.5);
    ck_assert_int_eq(climate->humidity_reference, BW_OVER_WATER);
    ck_assert_str_eq(climate->licence, "free of charge");
    bw_climate_free(climate);
}
END_TEST

START_TEST(a_comment_that_names_the_other_file_s_header_is_a_comment)
{
    bw_climate *climate = read_good("# made from time(UTC),T2m,RH\n" HEADER
                                    "1,-1,85\n" MONTHS_FROM_FEB);
    ck_assert_int_eq(climate->kind, BW_CLIMATE_MONTHLY);
    bw_climate_free(climate);
}
END_TEST

START_TEST(a_latitude_alone_means_local_solar_time_and_is_said)
{
    bw_climate *climate = read_good("# latitude: 50\n" HEADER
                                    "1,-1,85\n" MONTHS_FROM_FEB);
    ck_assert(climate->has_position);
    ck_assert_double_eq(climate->longitude, 0.0);
    ck_assert_ptr_nonnull(note_with(climate, "no longitude in the header"));
    bw_climate_free(climate);
}
END_TEST

/* ---- months and columns ------------------------------------------------ */

START_TEST(months_of_a_fraction_are_refused_even_in_fog)
{
    struct text text = {0};
    add(&text, HEADER);
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,5,%s\n", m, m == 7 ? "1.02" : "0.8");
    expect_refused(text.at, 2, "looks like a fraction");
    free(text.at);
}
END_TEST

static const struct {
    const char *text;
    long line;
    const char *words;
} tables[] = {
    {HEADER "0,5,80\n", 2, "'0' is not a whole number from 1 to 12"},
    {HEADER "1.5,5,80\n", 2, "'1.5' is not a whole number"},
    {HEADER "-1,5,80\n", 2, "'-1' is not a whole number"},
    {HEADER "January,5,80\n", 2, "'January' is not a whole number"},
    {HEADER "1st,5,80\n", 2, "'1st' is not a whole number"},
    {HEADER ",5,80\n", 2, "'' is not a whole number"},
    {HEADER "1,5,0.5\n" MONTHS_FROM_FEB, 2, "0.5 lies outside 1 to 100 %"},
    {HEADER "1,5 C,80\n", 2, "temperature_C: '5 C' is not a number"},
    {HEADER "1,5,\n", 2, "relative_humidity_pct: no value"},
    {"month,temperature_C,relative_humidity_pct,wind_m_s\n1,5,80,\n", 2,
     "wind_m_s: no value; leave the column out"},
    {"month,temperature_C,relative_humidity_pct,\n1,5,80,\n", 1,
     "a column without a name (a comma too many?)"},
    {"month,month,temperature_C,relative_humidity_pct\n", 1,
     "column 'month' appears twice"},
    {"time,Time,temperature_C,relative_humidity_pct\n", 1,
     "column 'Time' appears twice"},
    {HEADER "1,5,80,7\n", 2, "4 values where the header names 3 columns"},
    {HEADER "1\n", 2, "this row has 1 value where"},
    {HEADER
     "1,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,\n",
     2, "more than 64 values in this row"},
    {"-1,5,80\n", 1, "no header row above the values"},
    {"month\ttemperature_C\n1\t5\n", 1, "separated by commas"},
    {"time,temperature_C,relative_humidity_pct,diffuse_horizontal_W_m2\n", 1,
     "'direct_normal_W_m2' is missing"},
    {"time,relative_humidity_pct\n", 1, "no column 'temperature_C'"},
    {"time,temperature_C\n", 1, "the file has neither"},
    {"time,temperature_C,relative_humidity_pct,vapour_pressure_Pa\n", 1,
     "the file has both"},
    {"# a place\n\n# another\n", 3, "no header row in this file"},
};

START_TEST(tables_that_do_not_say_what_they_hold_are_refused)
{
    expect_refused(tables[_i].text, tables[_i].line, tables[_i].words);
}
END_TEST

SUITE("climate_forms",
      EACH(header_lines_that_would_be_misread_are_refused, COUNT(heads)),
      FACT(header_values_may_carry_their_unit),
      FACT(a_comment_that_names_the_other_file_s_header_is_a_comment),
      FACT(a_latitude_alone_means_local_solar_time_and_is_said),
      FACT(months_of_a_fraction_are_refused_even_in_fog),
      EACH(tables_that_do_not_say_what_they_hold_are_refused, COUNT(tables)))
