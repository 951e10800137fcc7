/* Climate files that cannot be: each refusal in its whole sentence, with its
 * line. Limits are those of docs/climate.md; saturation at 10 degC over water
 * is 610.5 exp(17.269 x 10 / 247.3) = 1227.3 Pa (ISO 13788). Sentences are the
 * program's own (regression values as to wording). */

#include "climate_help.h"
#include "suite.h"

#define FORMS                                                                  \
    "a monthly file begins 'month,temperature_C,relative_humidity_pct', an "   \
    "hourly file 'time,temperature_C,relative_humidity_pct', each with more "  \
    "columns if it has them; the public TMY file is read as it is"
#define HOURS_OF "time,temperature_C,relative_humidity_pct\n"
#define FRACTIONS                                                              \
    "2,0,0.84\n3,4,0.78\n4,9,0.72\n5,14,0.68\n6,18,0.69\n7,19,0.73\n"          \
    "8,19,0.75\n9,15,1.05\n10,10,0.83\n11,5,0.88\n12,1,0.88\n"
/* Twelve months at 10 degC, the third with this vapour pressure. */
#define P(m, p) m ",10," p "\n"
#define VAPOURS(p)                                                             \
    "month,temperature_C,vapour_pressure_Pa\n" P("1", "900") P("2", "900")     \
        P("3", p) P("4", "900") P("5", "900") P("6", "900") P("7", "900")      \
            P("8", "900") P("9", "900") P("10", "900") P("11", "900")          \
                P("12", "900")
/* Twelve months with 63 mm, 10 of them on the wettest day, but for the fourth.
 */
#define W(m, day, rain) m ",5,80," day "," rain "\n"
#define USUAL(m) W(m, "10", "63")
#define RAINS(day, rain)                                                       \
    "month,temperature_C,relative_humidity_pct,wettest_day_mm,rain_"           \
    "mm\n" USUAL("1") USUAL("2") USUAL("3") W("4", day, rain) USUAL("5")       \
        USUAL("6") USUAL("7") USUAL("8") USUAL("9") USUAL("10") USUAL("11")    \
            USUAL("12")
#define ROSES                                                                  \
    "month,temperature_C,relative_humidity_pct,rain_from_N_pct,"               \
    "rain_from_NE_pct,rain_from_E_pct,rain_from_SE_pct,rain_from_S_pct,"       \
    "rain_from_SW_pct,rain_from_W_pct,rain_from_NW_pct\n"
#define EVEN(m) m ",5,80,12.5,12.5,12.5,12.5,12.5,12.5,12.5,12.5\n"
#define EVEN_ROSES                                                             \
    EVEN("2")                                                                  \
    EVEN("3")                                                                  \
    EVEN("4")                                                                  \
    EVEN("5")                                                                  \
    EVEN("6") EVEN("7") EVEN("8") EVEN("9") EVEN("10") EVEN("11") EVEN("12")
#define HALF(m) m ",5,80,50,50\n"

static const struct {
    const char *text;
    long line;
    const char *says;
} refused[] = {
    {HEADER MONTHS_FROM_FEB, 12,
     "the file ends with 11 of 12 months; missing: month 1"},
    {HEADER "1,-1,85\n2,0,84\n", 3,
     "the file ends with 2 of 12 months; missing: months 3, 4, 5, 6, 7, 8, 9, "
     "10, 11, 12"},
    {HEADER "13,0,84\n", 2, "month: '13' is not a whole number from 1 to 12"},
    {HEADER "0.5,0,84\n", 2, "month: '0.5' is not a whole number from 1 to 12"},
    {HEADER "1x,0,84\n", 2, "month: '1x' is not a whole number from 1 to 12"},
    {HEADER "1,0,84\n1.0,0,84\n", 3,
     "month 1 is given twice; it stands in line 2 too"},
    {HEADER "1,0,\n", 2, "relative_humidity_pct: no value"},
    {"month,temperature_C,relative_humidity_pct,rain_mm\n1,0,84,\n", 2,
     "rain_mm: no value; leave the column out if it is not known for every "
     "month"},
    {HEADER "1,0\n", 2,
     "this row has 2 values where the header names 3 columns; was the file cut "
     "off, or is a decimal marked by a comma?"},
    {HEADER "1,0,84,7\n", 2,
     "this row has 4 values where the header names 3 columns; was the file cut "
     "off, or is a decimal marked by a comma?"},
    {HEADER "1,-70.1,84\n", 2,
     "temperature_C: -70.1 lies outside -70 to 50 degC"},
    {HEADER "1,50.1,84\n", 2,
     "temperature_C: 50.1 lies outside -70 to 50 degC"},
    {HEADER "1,273.15,84\n", 2,
     "temperature_C: 273.15 lies outside -70 to 50 degC (is it in kelvin?)"},
    {HEADER "1,340,84\n", 2, "temperature_C: 340 lies outside -70 to 50 degC"},
    {HEADER "1,200,84\n", 2, "temperature_C: 200 lies outside -70 to 50 degC"},
    {HEADER "1,0,105.1\n", 2,
     "relative_humidity_pct: 105.1 lies outside 0 to 100 %"},
    {HEADER "1,cold,84\n", 2,
     "temperature_C: 'cold' is not a number (-70 to 50 degC)"},
    {"month,temperature_C\n1,0\n", 1,
     "give either 'relative_humidity_pct' or 'vapour_pressure_Pa'; the file "
     "has neither"},
    {"month,relative_humidity_pct\n1,50\n", 1, "no column 'temperature_C'"},
    {"month,temperature_C,relative_humidity_pct,vapour_pressure_Pa\n1,0,50,"
     "300\n",
     1,
     "give either 'relative_humidity_pct' or 'vapour_pressure_Pa'; the file "
     "has both"},
    {"month,temperature_C,temperature_C\n", 1,
     "column 'temperature_C' appears twice"},
    {"month,month,temperature_C\n", 1, "column 'month' appears twice"},
    {"month,temperature_C,relative_humidity_pct,rain_m\n", 1,
     "unknown column 'rain_m'; did you mean 'rain_mm'?"},
    {"month,temperature_C,relative_humidity_pct,moonlight\n", 1,
     "unknown column 'moonlight'; known are temperature_C, "
     "relative_humidity_pct, vapour_pressure_Pa, global_horizontal_W_m2, "
     "wind_m_s, rain_mm, rain_wind_m_s, wettest_day_mm, ground_temperature_C, "
     "vertical_N_W_m2, vertical_NE_W_m2, vertical_E_W_m2, vertical_SE_W_m2, "
     "vertical_S_W_m2, vertical_SW_W_m2, vertical_W_W_m2, vertical_NW_W_m2, "
     "rain_from_N_pct, rain_from_NE_pct, rain_from_E_pct, rain_from_SE_pct, "
     "rain_from_S_pct, rain_from_SW_pct, rain_from_W_pct, rain_from_NW_pct"},
    {"month,temperature_C,,\n", 1,
     "a column without a name (a comma too many?)"},
    {HEADER "1,0,0.9\n" FRACTIONS, 2,
     "relative_humidity_pct: no value is above 1.05; this looks like a "
     "fraction, per cent are wanted (0 to 100 %)"},
    {HEADER "1,5,0.9\n" MONTHS_FROM_FEB, 2,
     "relative_humidity_pct: 0.9 lies outside 1 to 100 %"},
    {VAPOURS("1400"), 4,
     "vapour_pressure_Pa: 1400 is above saturation at 10 degC (1227.31 Pa over "
     "water)"},
    {VAPOURS("12.2"), 4,
     "vapour_pressure_Pa: 12.2 is less than 1 % of saturation at 10 degC (is "
     "it in hPa or kPa?)"},
    {RAINS("2", "63"), 5,
     "wettest_day_mm: 2 mm cannot be the wettest of 30 days with 63 mm "
     "together"},
    {RAINS("64", "63"), 5,
     "wettest_day_mm: 64 mm cannot be the wettest of 30 days with 63 mm "
     "together"},
    {ROSES "1,5,80,12,12,12,12,12,12,12,14.9\n" EVEN_ROSES, 2,
     "rain_from_N_pct to rain_from_NW_pct: their sum is 98.9, not 100 %"},
    {ROSES "1,5,80,12,12,12,12,12,12,12,17.1\n" EVEN_ROSES, 2,
     "rain_from_N_pct to rain_from_NW_pct: their sum is 101.1, not 100 %"},
    {"# altitude: -451\n" HEADER, 1,
     "altitude: -451 lies outside -450 to 9000 m"},
    {"# altitude: 9001 m\n" HEADER, 1,
     "altitude: 9001 m lies outside -450 to 9000 m"},
    {"# altitude: 90 ft\n" HEADER, 1, "altitude: '90 ft' is not a number of m"},
    {"# latitude: 90.1\n" HEADER, 1,
     "latitude: 90.1 lies outside -90 to 90 degrees"},
    {"# latitude: north\n" HEADER, 1,
     "latitude: 'north' is not a number of degrees"},
    {"# longitude: -180.5 deg\n" HEADER, 1,
     "longitude: -180.5 deg lies outside -180 to 180 degrees"},
    {"# irradiance-time-offset: 1.1 h\n" HEADER, 1,
     "irradiance-time-offset: 1.1 h lies outside -1 to 1 h"},
    {"# irradiance-time-offset: half hours\n" HEADER, 1,
     "irradiance-time-offset: 'half hours' is not a number of h"},
    {"# prevailing-wind: 361\n" HEADER, 1,
     "prevailing-wind: 361 lies outside 0 to 360 degrees"},
    {"# latitude: 50\n# latitude: 51\n" HEADER, 2,
     "latitude: given twice; it stands in line 1 too"},
    {"# humidity-reference: snow\n" HEADER, 1,
     "humidity-reference: 'snow' is neither water nor ice"},
    {"# kind: wet-year\n" HEADER, 1,
     "kind: 'wet-year' is neither typical-year nor measured-year"},
    {"# latitud: 50\n" HEADER, 1,
     "unknown header key 'latitud'; did you mean 'latitude'?"},
    {"#\n# longitude: 50\n" HEADER, 3,
     "the header gives a longitude but no latitude"},
    {"month;temperature_C\n", 1,
     "columns are to be separated by commas, decimals marked by points; here "
     "stands 'month;temperature_C'"},
    {"month\ttemperature_C\n", 1,
     "columns are to be separated by commas, decimals marked by points; here "
     "stands 'month?temperature_C'"},
    {"1,5,80\n", 1, "no header row above the values: " FORMS},
    {"-1,5,80\n", 1, "no header row above the values: " FORMS},
    {"day,5,80\n", 1,
     "this is not the header row of a climate file ('day'): " FORMS},
    {"# nothing\n\n", 2, "no header row in this file: " FORMS},
    {"time,temperature_C,relative_humidity_pct\n", 1,
     "no hours below the header row"},
    {"time,temperature_C\n", 1,
     "give either 'relative_humidity_pct' or 'vapour_pressure_Pa'; the file "
     "has neither"},
    {"time,relative_humidity_pct\n", 1, "no column 'temperature_C'"},
    {"time,temperature_C,relative_humidity_pct,vapour_pressure_Pa\n", 1,
     "give either 'relative_humidity_pct' or 'vapour_pressure_Pa'; the file "
     "has both"},
    {"time,temperature_C,relative_humidity_pct,direct_normal_W_m2\n", 1,
     "'direct_normal_W_m2' and 'diffuse_horizontal_W_m2' are of use together "
     "only; 'diffuse_horizontal_W_m2' is missing: leave it out, or let "
     "bothways climate take both from another file"},
    {"time,temperature_C,relative_humidity_pct,diffuse_horizontal_W_m2\n", 1,
     "'direct_normal_W_m2' and 'diffuse_horizontal_W_m2' are of use together "
     "only; 'direct_normal_W_m2' is missing: leave it out, or let bothways "
     "climate take both from another file"},
    {HOURS_OF "yesterday,5,80\n", 2,
     "time: 'yesterday' is not a time in UTC like 2017-01-31T05:00Z"},
    {HOURS_OF "2017-02-30T00:00Z,5,80\n", 2,
     "time: '2017-02-30T00:00Z' is no moment of a year (hours run from 00 to "
     "23)"},
    {HOURS_OF "2017-01-01T24:00Z,5,80\n", 2,
     "time: '2017-01-01T24:00Z' is no moment of a year (hours run from 00 to "
     "23)"},
    {HOURS_OF "2017-01-01T00:30Z,5,80\n", 2,
     "time: '2017-01-01T00:30Z' is not on the hour; one row an hour is wanted"},
    {HOURS_OF "2017-01-01T00:00Z,5,80\n2018-01-01T00:00Z,5,80\n", 3,
     "time: this hour is given twice; it stands in line 2 too (the year does "
     "not count: one year is wanted)"},
    {HOURS_OF "2017-01-01T00:00Z,5,80\n", 2,
     "1 of 8760 hours are given; the longest gap is 8759 hours from Jan 1 "
     "01:00 (UTC) on, and only gaps of up to 3 hours, 200 hours in all, are "
     "filled in; bothways climate FILE --output OUT.csv fills gaps of up to 3 "
     "days"},
    {HOURS_OF "2017-01-01T00:00Z,61,80\n", 2,
     "temperature_C: 61 lies outside -90 to 60 degC"},
    {HOURS_OF "2017-01-01T00:00Z,293,80\n", 2,
     "temperature_C: 293 lies outside -90 to 60 degC (is it in kelvin?)"},
    {"time,temperature_C,relative_humidity_pct,pressure_Pa\n2017-01-01T00:00Z,"
     "5,80,1013\n",
     2, "pressure_Pa: 1013 lies outside 45000 to 110000 Pa (is it in hPa?)"},
    {"time,temperature_C,relative_humidity_pct,pressure_Pa\n2017-01-01T00:00Z,"
     "5,80,1100\n",
     2, "pressure_Pa: 1100 lies outside 45000 to 110000 Pa"},
    {"time,temperature_C,relative_humidity_pct,pressure_Pa\n2017-01-01T00:00Z,"
     "5,80,500\n",
     2, "pressure_Pa: 500 lies outside 45000 to 110000 Pa"},
    {"Latitude (decimal degrees): 91\ntime(UTC),T2m,RH\n", 1,
     "Latitude: 91 lies outside -90 to 90 degrees"},
    {"Longitude (decimal degrees): 8\ntime(UTC),T2m,RH\n", 2,
     "the header gives a longitude but no latitude"},
    {"Elevation (m): high\ntime(UTC),T2m,RH\n", 1,
     "Elevation: 'high' is not a number of m"},
    {"Irradiance Time Offset (h): 2\ntime(UTC),T2m,RH\n", 1,
     "Irradiance Time Offset: 2 lies outside -1 to 1 h"},
    {"Latitude: 50\nLatitude: 50\ntime(UTC),T2m,RH\n", 2,
     "Latitude: given twice; it stands in line 1 too"},
    {"time(UTC),RH\n", 1, "no column 'T2m'"},
    {"time(UTC),T2m\n", 1, "no column 'RH'"},
    {"time(UTC),T2m,RH,Gb(n)\n", 1,
     "'Gb(n)' and 'Gd(h)' are of use together only; 'Gd(h)' is missing: leave "
     "it out, or let bothways climate take both from another file"},
    {"time(UTC),T2m,RH,Gd(h)\n", 1,
     "'Gb(n)' and 'Gd(h)' are of use together only; 'Gb(n)' is missing: leave "
     "it out, or let bothways climate take both from another file"},
    {"time(UTC),T2m,RH,WS10m\n20170101:0000,5,80,81\n", 2,
     "WS10m: 81 lies outside 0 to 80 m/s"},
    {"month,temperature_C,relative_humidity_pct,rain_from_N_pct,rain_from_NW_"
     "pct\n" HALF("1") HALF("2") HALF("3") HALF("4") HALF("5") HALF("6")
         HALF("7") HALF("8") HALF("9") HALF("10") HALF("11") HALF("12"),
     1,
     "rain_from_N_pct to rain_from_NW_pct are of use together only; the file "
     "has 2 of 8"},
};

START_TEST(a_climate_that_cannot_be_is_refused_in_this_sentence)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_text(&climate, refused[_i].text, &err), BW_ERR_INPUT);
    ck_assert_str_eq(err.message, refused[_i].says);
    ck_assert_int_eq(err.line, refused[_i].line);
    ck_assert_ptr_null(climate);
}
END_TEST

/* ---- what is just inside ---- */

static const char *const sound[] = {
    RAINS("63", "63"),
    RAINS("2.1", "63"),
    RAINS("0", "0"),
    VAPOURS("1288"),
    VAPOURS("12.3"),
    ROSES "1,5,80,12,12,12,12,12,12,12,15.1\n" EVEN_ROSES,
    ROSES "1,5,80,12,12,12,12,12,12,12,16.9\n" EVEN_ROSES,
    "# altitude: -450\n" HEADER "1,-70,1\n" MONTHS_FROM_FEB,
    "# altitude: 9000 m\n" HEADER "1,50,105\n" MONTHS_FROM_FEB,
    "# latitude: 90 deg\n# longitude: -180 degrees\n" HEADER
    "1,0,50\n" MONTHS_FROM_FEB,
    "# prevailing-wind: 360\n" HEADER "1,0,50\n" MONTHS_FROM_FEB,
    "# irradiance-time-offset: -1 hours\n" HEADER "1,0,50\n" MONTHS_FROM_FEB,
};

START_TEST(what_is_possible_is_read)
{
    bw_climate_free(read_good(sound[_i]));
}
END_TEST

/* 5 % above saturation at most is taken as saturation, and said. */
START_TEST(a_little_above_saturation_is_saturation)
{
    bw_climate *climate = read_good(VAPOURS("1288"));
    ck_assert_double_eq_tol(climate->month[2].vapour_pressure, 1227.3, 0.05);
    ck_assert_double_eq(climate->month[3].vapour_pressure, 900.0);
    ck_assert_uint_eq(climate->note_count, 1);
    ck_assert_str_eq(climate->note[0].message,
                     "vapour_pressure_Pa: 1288 is slightly above saturation "
                     "and taken as 1227.31 Pa");
    ck_assert_int_eq(climate->note[0].line, 4);
    ck_assert_int_eq(climate->note[0].kind, BW_NOTE_INFO);
    bw_climate_free(climate);
    climate = read_good(VAPOURS("1227"));
    ck_assert_uint_eq(climate->note_count, 0);
    bw_climate_free(climate);
}
END_TEST

SUITE("climate_said",
      EACH(a_climate_that_cannot_be_is_refused_in_this_sentence,
           COUNT(refused)),
      EACH(what_is_possible_is_read, COUNT(sound)),
      FACT(a_little_above_saturation_is_saturation))
