/* What published hours are refused for, each sentence whole with its line, and
 * what is noted of them. The layouts are those of docs/climate.md; the files
 * are invented. The words are the program's own (regression values as to
 * wording); limits are those of docs/climate.md. */

#include "record_case.h"
#include "suite.h"

static const bw_record_options nothing;
static const bw_record_options utc = {.has_utc_offset = true};

static void refused(const char *text, const bw_record_options *options,
                    long line, const char *words)
{
    bw_record *record = NULL;
    bw_error err = {0};
    ck_assert_int_ne(read_hours(&record, text, options, &err), BW_OK);
    ck_assert_str_eq(err.message, words);
    ck_assert_int_eq(err.line, line);
    ck_assert_ptr_null(record);
}

static bool noted(const bw_record *record, const char *sentence)
{
    for (size_t i = 0; i < record->note_count; i++)
        if (strcmp(record->note[i], sentence) == 0)
            return true;
    return false;
}

#define DUTCH "STN,YYYYMMDD,HH,DD,FH,T,Q,RH,P,U\n"
#define DUTCH_ROW "260,20170101,1,,60,100,,0,10132,87\n"
#define IRISH "date,temp,rhum,rain,wdsp\n"
#define LOGGER "date;time;temp;rh\n"
#define REFERENCE "RW HW MM DD HH t p WR WG N x RF B D A E IL\n***\n"
#define REFERENCE_ROW(moment)                                                  \
    "1 1 " moment " 5.1 1003 243 5.9 8 5.2 94 0 0 312 -327 1\n"
#define TYPICAL_HEAD "700000,\"A PLACE\",AK,-5,40.0,-80.0,300\n"
#define TYPICAL_NAMES                                                          \
    "Date (MM/DD/YYYY),Time (HH:MM),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),"     \
    "RHum (%)\n"
#define LOCATION_HEAD                                                          \
    "LOCATION,A PLACE,-,NOWHERE,invented,999999,50.0,8.0,1.0,112.0\n"          \
    "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n"
#define LOCATION_ROW(moment)                                                   \
    "1999," moment ",60,?9,2.5,1.0,90,99400,0,0,300,0,0,30,0,0,0,0,270,5.2\n"

static const struct {
    const char *text;
    long line;
    const char *words;
} rows[] = {
    /* moments: all that the row says of it */
    {DUTCH "260,20170230,3,,60,100,,0,10132,87\n", 2,
     "'20170230 3' is no moment of a year"},
    {DUTCH "260,20170101,25,,60,100,,0,10132,87\n", 2,
     "'20170101 25' is no moment of a year"},
    {DUTCH "260,9991231,1,,60,100,,0,10132,87\n", 2,
     "'9991231 1' is no moment of a year"},
    {IRISH "2017-13-01 00:00,5,80,0,5\n", 2,
     "'2017-13-01 00:00' is no moment of a year"},
    {IRISH "01-xyz-2017 00:00,5,80,0,5\n", 2,
     "'01-xyz-2017 00:00' is no moment of a year"},
    {IRISH "01-jan-2017 00:30,5,80,0,5\n", 2,
     "'01-jan-2017 00:30' is not on the hour; one row an hour is wanted"},
    {IRISH "01-jan-2017 00:00,5,80,0,5\n2017-01-01 24:30,5,80,0,5\n", 3,
     "'2017-01-01 24:30' is no moment of a year"},
    {REFERENCE REFERENCE_ROW("1 1 25"), 3, "'1 1 25' is no moment of a year"},
    {REFERENCE REFERENCE_ROW("0 1 1"), 3, "'0 1 1' is no moment of a year"},
    {REFERENCE REFERENCE_ROW("4 31 1"), 3, "'4 31 1' is no moment of a year"},
    {REFERENCE REFERENCE_ROW("2 30 1"), 3, "'2 30 1' is no moment of a year"},
    {REFERENCE REFERENCE_ROW("12 0 1"), 3, "'12 0 1' is no moment of a year"},
    {LOCATION_HEAD LOCATION_ROW("13,1,1"), 3,
     "'13 1 1' is no moment of a year"},
    {TYPICAL_HEAD TYPICAL_NAMES "01/31/1988,10:30,0,0,5,80\n", 3,
     "'01/31/1988 10:30' is not on the hour; one row an hour is wanted"},
    {TYPICAL_HEAD TYPICAL_NAMES "31/01/1988,10:00,0,0,5,80\n", 3,
     "'31/01/1988 10:00' is no moment of a year"},
    {TYPICAL_HEAD TYPICAL_NAMES "1/31/1988,10:00,0,0,5,80\n", 3,
     "'1/31/1988 10:00' is no moment of a year"},
    {TYPICAL_HEAD TYPICAL_NAMES "01/31/1988,1000,0,0,5,80\n", 3,
     "'01/31/1988 1000' is no moment of a year"},
    {LOGGER "2017-01-01;25:00;5;80\n", 2,
     "'2017-01-01 25:00' is no moment of a year"},
    {"time;temp;rh\n01/02/2017 10:00;5;80\n", 2,
     "'01/02/2017 10:00' is no moment of a year"},
    {"date;temp;rh\n2017.01.01 10:00;5;80\n", 2,
     "'2017.01.01 10:00' is no moment of a year"},
    {"NUM_POSTE;AAAAMMJJHH;T\n29;201701010;5\n", 2,
     "'201701010' is no moment of a year"},
    /* rows */
    {DUTCH DUTCH_ROW DUTCH_ROW, 3,
     "this hour is given twice; it stands in line 2 too"},
    {DUTCH DUTCH_ROW "260,20170101,3,,60,100\n", 3,
     "this row has 6 fields where 10 are wanted; was the file cut off?"},
    {DUTCH DUTCH_ROW "344,20170101,3,,60,100,,0,10132,87\n", 3,
     "the file has several stations, '260' and '344': keep the header row and "
     "the rows of one"},
    {DUTCH, 1, "no hours below the header row"},
    /* values: in the file's own unit, and in ours */
    {DUTCH "260,20170101,3,,60,abc,,0,10132,87\n", 2,
     "column 'T' (field 6): 'abc' is not a number; -900 to 600 is allowed, or "
     "nothing where it is missing"},
    {DUTCH "260,20170101,3,,60,5 C,,0,10132,87\n", 2,
     "column 'T' (field 6): '5 C' is not a number; -900 to 600 is allowed, or "
     "nothing where it is missing"},
    {DUTCH "260,20170101,3,,60,601,,0,10132,87\n", 2,
     "column 'T' (field 6): 601 lies outside -900 to 600 (-90 to 60 degC)"},
    {DUTCH "260,20170101,3,,60,100,,0,11001,87\n", 2,
     "column 'P' (field 9): 11001 lies outside 8500 to 11000 (85000 to 110000 "
     "Pa)"},
    {IRISH "01-jan-2017 00:00,5,80,401,5\n", 2,
     "column 'rain' (field 4): 401 lies outside 0 to 400 (0 to 400 mm)"},
    {IRISH "01-jan-2017 00:00,5,106,0,5\n", 2,
     "column 'rhum' (field 3): 106 lies outside 0.5 to 100 (0.5 to 100 %)"},
    {LOGGER "2017-01-01;10:00;5,5 C;80\n", 2,
     "column 'temp' (field 3): '5.5 C' is not a number; -90 to 60 is allowed, "
     "or nothing where it is missing"},
    /* heads */
    {"700000,\"A PLACE\",AK,-5,north,-80.0,300\n" TYPICAL_NAMES, 1,
     "field 5 is to be a number: the head tells latitude, longitude, offset "
     "from UTC and height"},
    {"700000,\"A PLACE\",AK,-5,40.0,-80.0,high\n" TYPICAL_NAMES, 1,
     "field 7 is to be a number: the head tells latitude, longitude, offset "
     "from UTC and height"},
    {"700000,\"A PLACE\",AK,-14.25,40.0,-80.0,300\n" TYPICAL_NAMES, 1,
     "an offset from UTC of -14.25 h: quarters of an hour from -14 to 14 are "
     "allowed"},
    {"700000,\"A PLACE\",AK,5.3,40.0,-80.0,300\n" TYPICAL_NAMES, 1,
     "an offset from UTC of 5.3 h: quarters of an hour from -14 to 14 are "
     "allowed"},
    {"700000,\"A PLACE\",AK,5.25,90.1,-80.0,300\n" TYPICAL_NAMES, 1,
     "latitude 90.1, longitude -80: -90 to 90 and -180 to 180 degrees are "
     "allowed"},
    {"700000,\"A PLACE\",AK,14,-90,180.1,300\n" TYPICAL_NAMES, 1,
     "latitude -90, longitude 180.1: -90 to 90 and -180 to 180 degrees are "
     "allowed"},
    {"LOCATION,A,-,B,invented,999999,50.0,8.0,east,112.0\n"
     "DATA PERIODS,1\n",
     1,
     "field 9 is to be a number: the head tells latitude, longitude, offset "
     "from UTC and height"},
    {"LOCATION,A,-,B,invented,999999,50.0,8.0,1.0\nDATA PERIODS,1\n", 1,
     "field 10 is to be a number: the head tells latitude, longitude, offset "
     "from UTC and height"},
    /* none of them */
    {"hello\nworld\n", 1,
     "none of the forms that are known: the public typical year of the "
     "European Commission's PV service; monthly means of this program; a "
     "typical year with named columns, MM/DD/YYYY (layout from memory); a "
     "weather file that begins with LOCATION (layout from memory); an hourly "
     "climate file of this program; the German test reference year (layout "
     "from memory); the Dutch list of hours (layout from memory); the Irish "
     "list of hours; the French list of hours (layout from memory); a "
     "logger's temperature and humidity (docs/climate.md)"},
};

START_TEST(a_sentence_says_what_the_row_holds_and_what_is_allowed)
{
    refused(rows[_i].text, &utc, rows[_i].line, rows[_i].words);
}
END_TEST

/* ---- the clock ------------------------------------------------------------
 */

#define FAHRENHEIT(name)                                                       \
    "column '" name "': degrees Celsius are wanted; let the logger's program " \
    "write those"

START_TEST(a_clock_or_a_scale_that_is_not_ours_is_asked_for)
{
    refused(LOGGER "2017-01-01;10:00;5;80\n", &nothing, 0,
            "the file does not say what its clock shows: add --utc-offset "
            "HOURS, 0 for UTC, 1 for central European time; one for the whole "
            "file, without summer time");
    refused("date;temp (F);rh\n2017-01-01 10:00;5;80\n", &utc, 1,
            FAHRENHEIT("temp (F)"));
    refused("date;temp \xc2\xb0"
            "F;rh\n2017-01-01 10:00;5;80\n",
            &utc, 1,
            FAHRENHEIT("temp \xc2\xb0"
                       "F"));
}
END_TEST

/* A few hours of a logger, whose reading says what its clock is. */
static const struct {
    double offset;
    const char *sentence;
    int hour; /* of ours that 12:00 of the 2nd of January is */
} clocks[] = {
    {0.0, "its clock is UTC +0 h, as --utc-offset says", 36},
    {1.0, "its clock is UTC +1 h, as --utc-offset says", 35},
    {-5.0, "its clock is UTC -5 h, as --utc-offset says", 41},
    {14.0, "its clock is UTC +14 h, as --utc-offset says", 22},
};

START_TEST(an_offset_east_of_utc_is_taken_off)
{
    const bw_record_options options = {.has_utc_offset = true,
                                       .utc_offset = clocks[_i].offset};
    bw_record *record = good_hours(strdup(LOGGER "2017-01-02;12:00;7;80\n"),
                                   &options);
    ck_assert_msg(noted(record, clocks[_i].sentence), "%s", record->note[0]);
    for (int h = 0; h < HOURS; h++)
        ck_assert_int_eq(isnan(record->value[BW_RECORD_TEMPERATURE][h]),
                         h != clocks[_i].hour);
    bw_record_free(record);
}
END_TEST

START_TEST(the_head_of_a_typical_year_tells_its_clock)
{
    bw_record *record = good_hours(
        strdup("700000,\"A PLACE\",AK,5.75,40.0,-80.0,300\n" TYPICAL_NAMES
               "01/02/1988,12:00,0,0,7,80\n"),
        &nothing);
    ck_assert(noted(record, "its clock is UTC +5.75 h, as its head says"));
    /* 06:15 UTC: put to 06:00 and the sun's moment of the hour before, which
     * begins 0.25 h later */
    ck_assert(noted(record, "its hours begin 0.25 h after those of UTC: values "
                            "are put to the full hour before, the sun's "
                            "moment is kept"));
    ck_assert_double_eq(record->sun_offset, 0.75);
    ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][30], 7.0);
    ck_assert(record->has_position && record->has_altitude);
    ck_assert_double_eq(record->latitude, 40.0);
    ck_assert_double_eq(record->longitude, -80.0);
    ck_assert_double_eq(record->altitude, 300.0);
    bw_record_free(record);
}
END_TEST

/* ---- years ------------------------------------------------------------------
 */

/* An Irish list of so many hours of 2017, then so many of 2018. */
static char *two_years(int first, int second)
{
    struct text text = {0};
    add(&text, IRISH);
    for (int h = 0; h < first + second; h++) {
        moment at = moment_of(h < first ? h : h - first);
        add(&text, "%d-%02d-%02d %02d:00,%d,80,0,5\n", h < first ? 2017 : 2018,
            at.month, at.day, at.hour, h < first ? 5 : 15);
    }
    return text.at;
}

/* A day of another year closes one; more is another year (docs/climate.md). */
START_TEST(a_day_of_the_next_year_closes_a_year_and_more_is_two)
{
    bw_record *record = good_hours(two_years(30, 24), &nothing);
    ck_assert_int_eq(record->year, 2017);
    ck_assert(noted(record, "24 rows of other years are left out"));
    ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][0], 5.0);
    bw_record_free(record);
    char *text = two_years(30, 25);
    refused(text, &nothing, 0,
            "the file holds several years, 2017 and 2018 among them: say which "
            "with --year");
    const bw_record_options second = {.year = 2018};
    record = good_hours(text, &second);
    ck_assert_int_eq(record->year, 2018);
    ck_assert(noted(record, "30 rows of other years are left out"));
    ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][24], 15.0);
    ck_assert(isnan(record->value[BW_RECORD_TEMPERATURE][25]));
    bw_record_free(record);
    text = two_years(30, 0);
    record = good_hours(strdup(text), &nothing);
    ck_assert(!has_note(record, "other years"));
    bw_record_free(record);
    refused(text, &second, 31, "no hours of the year that --year names");
    free(text);
}
END_TEST

/* The year has no 29th of February: its rows are left out, and the 1st of March
 * follows the 28th. */
START_TEST(the_leap_day_is_left_out)
{
    struct text text = {0};
    add(&text, DUTCH);
    for (int day = 28; day <= 30; day++)
        for (int hour = 1; hour <= 24; hour++)
            add(&text, "260,2016%s,%d,,60,%d,,0,10132,87\n",
                day == 28   ? "0228"
                : day == 29 ? "0229"
                            : "0301",
                hour, 10 * (day - 27));
    bw_record *record = good_hours(text.at, &nothing);
    const double *theta = record->value[BW_RECORD_TEMPERATURE];
    const int march = (31 + 28) * 24;
    ck_assert_double_eq_tol(theta[march - 23], 1.0, 1e-12); /* hour 1 */
    ck_assert_double_eq_tol(theta[march], 1.0, 1e-12); /* hour 24 of the 28th */
    for (int h = march + 1; h <= march + 24; h++)
        ck_assert_double_eq_tol(theta[h], 3.0, 1e-12);
    ck_assert(isnan(theta[march + 25]));
    bw_record_free(record);
}
END_TEST

/* ---- where a station lies ---------------------------------------------------
 */

START_TEST(a_station_s_row_tells_its_place)
{
    bw_record *record = good_hours(
        strdup("NUM_POSTE;LAT;LON;ALTI;AAAAMMJJHH;T\n"
               "29075001;48.5;-4.25;94;2017010100;5\n"),
        &nothing);
    ck_assert(noted(record, "station 29075001"));
    ck_assert(record->has_position && record->has_altitude);
    ck_assert_double_eq(record->latitude, 48.5);
    ck_assert_double_eq(record->longitude, -4.25);
    ck_assert_double_eq(record->altitude, 94.0);
    bw_record_free(record);
    record = good_hours(strdup("NUM_POSTE;LAT;LON;ALTI;AAAAMMJJHH;T\n"
                               "29075001;48.5;;94;2017010100;5\n"),
                        &nothing);
    ck_assert(!record->has_position && !record->has_altitude);
    bw_record_free(record);
}
END_TEST

/* "# 260: east north height NAME"; of two stations neither is taken. */
START_TEST(a_comment_of_one_station_tells_its_place_and_of_two_none)
{
    bw_record *record = good_hours(
        strdup("# 260:  5.180  52.100  1.90  NAME\n" DUTCH DUTCH_ROW),
        &nothing);
    ck_assert(record->has_position && record->has_altitude);
    ck_assert_double_eq(record->latitude, 52.1);
    ck_assert_double_eq(record->longitude, 5.18);
    ck_assert_double_eq(record->altitude, 1.9);
    /* 101320 Pa at sea level, 1.9 m up: 101320 (1 - 2.25577e-5 x 1.9)^5.2559
     * (ISO 2533) = 101297.2 Pa */
    ck_assert_double_eq_tol(record->value[BW_RECORD_PRESSURE][1], 101297.2,
                            0.1);
    ck_assert(noted(record, "pressure taken from sea level to 1.9 m by the "
                            "standard atmosphere"));
    bw_record_free(record);
    record = good_hours(
        strdup("# 260:  5.180  52.100  1.90  NAME\n"
               "# 344:  4.447  51.962  -4.30  OTHER\n" DUTCH DUTCH_ROW),
        &nothing);
    ck_assert(!record->has_position && !record->has_altitude);
    ck_assert(noted(record, "pressure at sea level is left out, as the file "
                            "does not tell the station's height"));
    ck_assert_ptr_null(record->value[BW_RECORD_PRESSURE]);
    bw_record_free(record);
}
END_TEST

/* What the user says of the place counts where a file is silent. */
START_TEST(a_sun_without_a_place_is_left_out_and_said)
{
    char *text = strdup(REFERENCE REFERENCE_ROW("6 1 13"));
    bw_record *record = good_hours(strdup(text), &nothing);
    ck_assert(noted(record,
                    "sun on the horizontal is left out, as the file does not "
                    "tell where it is: --position LATITUDE,LONGITUDE says it"));
    ck_assert_ptr_null(record->value[BW_RECORD_DIRECT]);
    ck_assert_ptr_null(record->value[BW_RECORD_DIFFUSE]);
    ck_assert_ptr_nonnull(record->value[BW_RECORD_LONGWAVE]);
    bw_record_free(record);
    const bw_record_options here = {
        .has_position = true, .latitude = 48.8, .longitude = 9.2};
    record = good_hours(text, &here);
    ck_assert(noted(record, "direct sun on the horizontal turned normal to the "
                            "beam, the sun standing where it does at hh:00 + "
                            "0.5 h"));
    ck_assert_double_eq(record->latitude, 48.8);
    ck_assert_double_eq(record->longitude, 9.2);
    bw_record_free(record);
}
END_TEST

SUITE("hours_said",
      EACH(a_sentence_says_what_the_row_holds_and_what_is_allowed, COUNT(rows)),
      FACT(a_clock_or_a_scale_that_is_not_ours_is_asked_for),
      EACH(an_offset_east_of_utc_is_taken_off, COUNT(clocks)),
      FACT(the_head_of_a_typical_year_tells_its_clock),
      FACT(a_day_of_the_next_year_closes_a_year_and_more_is_two),
      FACT(the_leap_day_is_left_out), FACT(a_station_s_row_tells_its_place),
      FACT(a_comment_of_one_station_tells_its_place_and_of_two_none),
      FACT(a_sun_without_a_place_is_left_out_and_said))
