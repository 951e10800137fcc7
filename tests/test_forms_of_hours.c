/* Each form of published hours: told by what it holds, its units and its times
 * turned into ours. The files are invented after the layouts of
 * docs/climate.md; the figures beside them are worked by hand from the units'
 * definitions. */

#include "bothways/air.h"
#include "record_case.h"
#include "suite.h"

#define RADIANS (3.14159265358979323846 / 180.0)

static const bw_record_options nothing;

static void expect(const bw_record *record, bw_quantity quantity, int hour,
                   double value, double tolerance)
{
    ck_assert_ptr_nonnull(record->value[quantity]);
    ck_assert_double_eq_tol(record->value[quantity][hour], value, tolerance);
}

/* On the horizontal [W/m2]. */
static double global_of(const bw_record *record, int hour)
{
    bw_sun sun = bw_sun_position(record->latitude, record->longitude,
                                 (hour + record->sun_offset) / 24.0);
    double up = sun.elevation > 0.0 ? sin(sun.elevation * RADIANS) : 0.0;
    return record->value[BW_RECORD_DIRECT][hour] * up +
           record->value[BW_RECORD_DIFFUSE][hour];
}

/* ---- German test reference year ----------------------------------------- */

static bool by_day(int hour)
{
    return hour % 24 >= 5 && hour % 24 < 20;
}

static char *reference(const char *head, const char *columns, bool humidity)
{
    struct text text = {0};
    add(&text, "%s%s\n***\n", head, columns);
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text, "3936500 2449500 %2d %2d %2d   5.1 1003 243  5.9 8  5.2 ",
            at.month, at.day, at.hour + 1);
        if (humidity)
            add(&text, " 94 ");
        add(&text, "%4d %4d 312 -327 1\n", by_day(h) ? 150 : 0,
            by_day(h) ? 100 : 0);
    }
    return text.at;
}

#define WITH_RF "RW HW MM DD HH t p WR WG N x RF B D A E IL"
#define WITHOUT_RF "RW HW MM DD HH t p WR WG N x B D A E IL"

static const bw_record_options stuttgart = {
    .has_position = true, .latitude = 48.8, .longitude = 9.2};

/* Hour 1 of the file, UTC + 1 h, ends at 00:00 UTC: its sun is of the last hour
 * of the ring, its air of the first. */
START_TEST(the_reference_year_ends_its_hours_and_stands_an_hour_east)
{
    bw_record *record = good_hours(
        reference("Hoehenlage : 243 Meter\n", WITH_RF, true), &stuttgart);
    ck_assert_ptr_nonnull(strstr(record->form, "reference year"));
    ck_assert_int_eq(record->year_kind, BW_YEAR_TYPICAL);
    ck_assert(record->has_altitude);
    ck_assert_double_eq(record->altitude, 243.0);
    expect(record, BW_RECORD_TEMPERATURE, 0, 5.1, 1e-9);
    expect(record, BW_RECORD_PRESSURE, 0, 100300.0, 1e-9);
    expect(record, BW_RECORD_WIND, 0, 5.9, 1e-9);
    expect(record, BW_RECORD_WIND_FROM, 0, 243.0, 1e-9);
    expect(record, BW_RECORD_LONGWAVE, 0, 312.0, 1e-9);
    expect(record, BW_RECORD_HUMIDITY, 0, 94.0, 1e-9);
    /* the file's hours 6 to 20 are 04:00 to 19:00 UTC */
    ck_assert_double_eq(global_of(record, 3), 0.0);
    ck_assert_double_eq_tol(global_of(record, 4), 250.0, 1e-9);
    ck_assert_double_eq_tol(global_of(record, 18), 250.0, 1e-9);
    ck_assert_double_eq(global_of(record, 19), 0.0);
    bw_record_free(record);
}
END_TEST

START_TEST(its_sun_on_the_horizontal_is_conserved)
{
    bw_record *record = good_hours(reference("", WITH_RF, true), &stuttgart);
    double sum = 0.0;
    for (int h = 0; h < HOURS; h++) {
        double direct = record->value[BW_RECORD_DIRECT][h];
        ck_assert(direct >= 0.0 && direct < 1420.0);
        ck_assert(record->value[BW_RECORD_DIFFUSE][h] >= 0.0);
        sum += global_of(record, h);
    }
    /* 365 days of 15 hours with 150 + 100 W/m2 */
    ck_assert_double_eq_tol(sum, 365.0 * 15.0 * 250.0, 1e-3);
    bw_record_free(record);
}
END_TEST

/* By hand: p_v = 100300 x 0.0052 / (0.62198 + 0.0052) = 831.6 Pa; over water at
 * 5.1 degC 610.5 exp(17.269 x 5.1 / (237.3 + 5.1)) = 878.0 Pa (ISO 13788);
 * 831.6 / 878.0 = 94.7 %. */
START_TEST(a_mixing_ratio_becomes_a_humidity)
{
    bw_record *record = good_hours(reference("", WITHOUT_RF, false),
                                   &stuttgart);
    expect(record, BW_RECORD_HUMIDITY, 100, 94.7, 0.1);
    ck_assert(has_note(record, "from the mixing ratio"));
    bw_record_free(record);
}
END_TEST

/* The columns' names change places: x is 94 g/kg, then RF is 8 %. */
START_TEST(two_humidities_that_contradict_each_other_are_refused)
{
    bad_hours(reference("", "RW HW MM DD HH t p WR WG N RF x B D A E IL", true),
              &stuttgart, 3, "column 'x'");
    bad_hours(reference("", "RW HW MM DD HH t p WR WG RF x N B D A E IL", true),
              &stuttgart, 0, "not what they seem");
}
END_TEST

START_TEST(without_a_place_its_sun_is_left_out_and_said)
{
    bw_record *record = good_hours(reference("", WITH_RF, true), &nothing);
    ck_assert_ptr_null(record->value[BW_RECORD_DIRECT]);
    ck_assert(has_note(record, "--position"));
    bw_record_free(record);
}
END_TEST

/* ---- Dutch list --------------------------------------------------------- */

static char *dutch(const char *head, int years)
{
    struct text text = {0};
    add(&text,
        "%s# STN,YYYYMMDD,   HH,   DD,   FH,    T,    Q,   RH,    P,  U\n",
        head);
    for (int y = 0; y < years; y++)
        for (int h = 0; h < HOURS; h++) {
            moment at = moment_of(h);
            add(&text,
                "  260,%d%02d%02d, %4d,  990,   60,  105, %4d, %4d, 10132, "
                "87\n",
                2017 + y, at.month, at.day, at.hour + 1, by_day(h) ? 72 : 0,
                h == 0 ? -1 : 12);
        }
    return text.at;
}

#define DE_BILT "# 260:    5.180    52.100    0.00  A PLACE\n"

START_TEST(the_dutch_list_holds_tenths_and_rain_under_the_name_rh)
{
    bw_record *record = good_hours(dutch(DE_BILT, 1), &nothing);
    ck_assert_double_eq(record->latitude, 52.1);
    ck_assert_double_eq(record->longitude, 5.18);
    ck_assert_int_eq(record->year, 2017);
    ck_assert_int_eq(record->year_kind, BW_YEAR_MEASURED);
    expect(record, BW_RECORD_TEMPERATURE, 1, 10.5, 1e-12);
    expect(record, BW_RECORD_HUMIDITY, 1, 87.0, 1e-9);
    expect(record, BW_RECORD_WIND, 0, 6.0, 1e-12);
    /* a trace of rain in the hour 00:00 to 01:00, 1.2 mm in the next */
    expect(record, BW_RECORD_RAIN, 0, 0.025, 1e-12);
    expect(record, BW_RECORD_RAIN, 1, 1.2, 1e-12);
    expect(record, BW_RECORD_PRESSURE, 5, 101320.0, 1e-6);  /* at 0 m */
    ck_assert_ptr_null(record->value[BW_RECORD_WIND_FROM]); /* it varies */
    /* 72 J/cm2 in an hour: 720000 J/m2 / 3600 s = 200 W/m2 */
    ck_assert_double_eq_tol(global_of(record, 5), 200.0, 1e-9);
    ck_assert_double_eq(global_of(record, 4), 0.0);
    bw_record_free(record);
}
END_TEST

START_TEST(of_a_list_with_several_stations_in_its_head_no_place_is_guessed)
{
    bw_record *record = good_hours(
        dutch(DE_BILT "# 344:  4.447  51.962  -4.30  ANOTHER\n", 1), &nothing);
    ck_assert(!record->has_position && !record->has_altitude);
    ck_assert_ptr_null(record->value[BW_RECORD_PRESSURE]);
    bw_record_free(record);
}
END_TEST

START_TEST(of_several_years_one_is_asked_for)
{
    bad_hours(dutch("", 2), &nothing, 0, "--year");
    bw_record_options later = {.year = 2018};
    bw_record *record = good_hours(dutch("", 2), &later);
    ck_assert_int_eq(record->year, 2018);
    ck_assert(has_note(record, "8760 rows of other years are left out"));
    bw_record_free(record);
    bw_record_options none = {.year = 1999};
    bad_hours(dutch("", 1), &none, 8761, "of the year that --year names");
}
END_TEST

/* ---- Irish and French lists ---------------------------------------------- */

START_TEST(the_irish_list_counts_knots_and_rain_of_the_hour_before)
{
    struct text text = {0};
    add(&text, "Station Name: A PLACE\nStation Height: 0 M \n"
               "Latitude:51.938  ,Longitude: -10.241\n\n"
               "date:  -  Date and Time (utc)\n\n"
               "date,ind,rain,ind,temp,ind,wetb,dewpt,vappr,rhum,msl,ind,wdsp,"
               "ind,wddir\n");
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text,
            "%02d-%s-2017 %02d:00,0,%s,0,6.7,0,5.4,4.0,8.1,83,1023.0,2,10,2,360"
            "\n",
            at.day, at.month == 1 ? "jan" : bw_month_name(at.month - 1),
            at.hour,
            h == 1   ? "2.0"
            : h == 2 ? " "
                     : "0.0");
    }
    bw_record *record = good_hours(text.at, &nothing);
    ck_assert_double_eq(record->longitude, -10.241);
    expect(record, BW_RECORD_TEMPERATURE, 7, 6.7, 1e-9);
    expect(record, BW_RECORD_HUMIDITY, 7, 83.0, 1e-9);
    expect(record, BW_RECORD_RAIN, 0, 2.0, 1e-9);
    ck_assert(isnan(record->value[BW_RECORD_RAIN][1]));
    /* 10 knots of 1852 m/h */
    expect(record, BW_RECORD_WIND, 7, 18520.0 / 3600.0, 1e-9);
    expect(record, BW_RECORD_WIND_FROM, 7, 0.0, 1e-9);
    expect(record, BW_RECORD_PRESSURE, 7, 102300.0, 1e-6);
    bw_record_free(record);
}
END_TEST

static char *french(const char *station)
{
    struct text text = {0};
    add(&text, "NUM_POSTE;NOM_USUEL;LAT;LON;ALTI;AAAAMMJJHH;RR1;QRR1;FF;QFF;DD;"
               "QDD;T;QT;U;QU;PSTAT;QPSTAT;GLO;QGLO\n");
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text,
            "%s;A PLACE;48.444;-4.412;94;2017%02d%02d%02d;%s;1;3.1;1;230;1;9.2;"
            "1;91;1;1004.2;1;%d;1\n",
            h == 700 ? station : "29075001", at.month, at.day, at.hour,
            h == 1 ? "1.4" : "0.0", by_day(h) ? 36 : 0);
    }
    return text.at;
}

START_TEST(the_french_list_is_parted_by_semicolons)
{
    bw_record *record = good_hours(french("29075001"), &nothing);
    ck_assert_double_eq(record->latitude, 48.444);
    ck_assert_double_eq(record->altitude, 94.0);
    expect(record, BW_RECORD_TEMPERATURE, 0, 9.2, 1e-9);
    expect(record, BW_RECORD_HUMIDITY, 0, 91.0, 1e-9);
    expect(record, BW_RECORD_RAIN, 0, 1.4, 1e-9);
    expect(record, BW_RECORD_WIND, 0, 3.1, 1e-9);
    expect(record, BW_RECORD_PRESSURE, 0, 100420.0, 1e-6);
    /* 36 J/cm2 = 100 W/m2, of the hour that ends at 05:00 */
    ck_assert_double_eq_tol(global_of(record, 4), 100.0, 1e-9);
    bw_record_free(record);
    bad_hours(french("29075002"), &nothing, 702, "several stations");
}
END_TEST

/* ---- typical years ------------------------------------------------------- */

static char *typical(const char *hours)
{
    struct text text = {0};
    add(&text,
        "700000,\"A PLACE, INVENTED\",AK,%s,40.0,-80.0,300\n"
        "Date (MM/DD/YYYY),Time (HH:MM),DNI (W/m^2),DNI source,"
        "DHI (W/m^2),Dry-bulb (C),RHum (%%),Pressure (mbar),"
        "Wdir (degrees),Wspd (m/s),Lprecip depth (mm)\n",
        hours);
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text, "%02d/%02d/%d,%02d:00,%d,1,%d,%.1f,60,980,180,%s,-9900\n",
            at.month, at.day, 1988 + at.month % 3, at.hour + 1,
            h == 0 ? 500 : 0, h == 0 ? 80 : 0, h == 0 ? 25.0 : -3.0,
            h == 2 ? "-9900" : "4.1");
    }
    return text.at;
}

/* The first hour ends at 01:00, five hours west: it begins at 05:00 UTC. */
START_TEST(a_typical_year_is_told_by_its_names_and_moved_by_its_offset)
{
    bw_record *record = good_hours(typical("-5"), &nothing);
    ck_assert_int_eq(record->year_kind, BW_YEAR_TYPICAL);
    expect(record, BW_RECORD_DIRECT, 5, 500.0, 1e-9);
    expect(record, BW_RECORD_DIRECT, 6, 0.0, 1e-9);
    expect(record, BW_RECORD_DIFFUSE, 5, 80.0, 1e-9);
    expect(record, BW_RECORD_TEMPERATURE, 6, 25.0, 1e-9);
    expect(record, BW_RECORD_TEMPERATURE, 5, -3.0, 1e-9);
    expect(record, BW_RECORD_PRESSURE, 6, 98000.0, 1e-9);
    ck_assert(isnan(record->value[BW_RECORD_WIND][8]));
    ck_assert_ptr_null(record->value[BW_RECORD_RAIN]);
    ck_assert_double_eq(record->sun_offset, 0.5);
    bw_record_free(record);
}
END_TEST

/* 01:00 is 19:30 UTC of the day before: the row of 19:00, the sun of the hour
 * 18:30 to 19:30 in that of 18:00, its middle at 18:00 + 1 h. */
START_TEST(half_an_hour_of_offset_is_kept_in_the_moment_of_the_sun)
{
    bw_record *record = good_hours(typical("5.5"), &nothing);
    expect(record, BW_RECORD_TEMPERATURE, 8755, 25.0, 1e-9);
    expect(record, BW_RECORD_DIRECT, 8754, 500.0, 1e-9);
    ck_assert_double_eq(record->sun_offset, 1.0);
    ck_assert(has_note(record, "0.5 h after those of UTC"));
    bw_record_free(record);
    bad_hours(typical("5.1"), &nothing, 1, "quarters of an hour");
    bad_hours(typical("west"), &nothing, 1, "field 4");
}
END_TEST

START_TEST(a_weather_file_that_begins_with_location_is_told_by_it)
{
    struct text text = {0};
    add(&text, "LOCATION,A PLACE,-,NOWHERE,invented,999999,50.0,8.0,1.0,112.0\n"
               "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\n"
               "GROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n"
               "COMMENTS 1,invented\nCOMMENTS 2,invented\n"
               "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n");
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text,
            "1999,%d,%d,%d,60,?9?9,%s,1.0,90,99400,0,0,%d,0,%d,30,0,0,0,0,270,"
            "5.2,9,9,9999,99999,9,999999999,0,0.1,0,88,999,999,99\n",
            at.month, at.day, at.hour + 1, h == 3 ? "99.9" : "2.5", 300,
            h == 10 ? 400 : 0);
    }
    bw_record *record = good_hours(text.at, &nothing);
    ck_assert_double_eq(record->altitude, 112.0);
    expect(record, BW_RECORD_TEMPERATURE, 0, 2.5, 1e-9);
    ck_assert(isnan(record->value[BW_RECORD_TEMPERATURE][3]));
    expect(record, BW_RECORD_HUMIDITY, 0, 90.0, 1e-9);
    expect(record, BW_RECORD_LONGWAVE, 0, 300.0, 1e-9);
    /* the file's hour 11 begins at 10:00, 09:00 UTC */
    expect(record, BW_RECORD_DIRECT, 9, 400.0, 1e-9);
    expect(record, BW_RECORD_WIND, 0, 5.2, 1e-9);
    expect(record, BW_RECORD_WIND_FROM, 0, 270.0, 1e-9);
    expect(record, BW_RECORD_PRESSURE, 0, 99400.0, 1e-9);
    bw_record_free(record);
}
END_TEST

/* ---- a logger ------------------------------------------------------------ */

static char *logger(const char *names)
{
    struct text text = {0};
    add(&text, "Logger 7;;\n%s\n", names);
    for (int h = 0; h < HOURS; h++) {
        moment at = moment_of(h);
        add(&text, "%02d.%02d.2017 %02d:00:00;%d,5;80,0\n", at.day, at.month,
            at.hour, h % 20);
        add(&text, "%02d.%02d.2017 %02d:40:00;%d,5;70,0\n", at.day, at.month,
            at.hour, h % 20);
    }
    return text.at;
}

/* 12:00 has its own reading and that of 11:40, one o'clock of UTC + 1 h is 12.
 */
START_TEST(readings_of_a_logger_are_averaged_around_the_hour)
{
    const bw_record_options east = {.has_utc_offset = true, .utc_offset = 1.0};
    bw_record *record = good_hours(logger("Date/Time;Temp (\xc2\xb0"
                                          "C);RH (%)"),
                                   &east);
    expect(record, BW_RECORD_TEMPERATURE, 11, (12.5 + 11.5) / 2.0, 1e-12);
    expect(record, BW_RECORD_HUMIDITY, 11, 75.0, 1e-12);
    ck_assert(has_note(record, "UTC +1 h, as --utc-offset says"));
    bw_record_free(record);
}
END_TEST

START_TEST(a_logger_whose_clock_or_unit_is_not_known_is_refused)
{
    const bw_record_options utc = {.has_utc_offset = true};
    bad_hours(logger("date;temp;rh"), &nothing, 0, "--utc-offset");
    bad_hours(logger("date;temp (\xc2\xb0"
                     "F);rh"),
              &utc, 2, "degrees Celsius are wanted");
}
END_TEST

START_TEST(a_humidity_in_parts_of_one_is_refused)
{
    struct text text = {0};
    add(&text, "date;temp;rh\n");
    for (int h = 0; h < 48; h++) {
        moment at = moment_of(h);
        add(&text, "2017-%02d-%02d %02d:00;5;0.8\n", at.month, at.day, at.hour);
    }
    const bw_record_options utc = {.has_utc_offset = true};
    bad_hours(text.at, &utc, 0, "looks like a fraction");
}
END_TEST

START_TEST(values_taken_as_their_limit_are_said)
{
    struct text text = {0};
    add(&text, "date;temp;rh\n");
    for (int h = 0; h < 48; h++) {
        moment at = moment_of(h);
        add(&text, "2017-%02d-%02d %02d:00;5;%d\n", at.month, at.day, at.hour,
            h < 3 ? 103 : 80);
    }
    const bw_record_options utc = {.has_utc_offset = true};
    bw_record *record = good_hours(text.at, &utc);
    expect(record, BW_RECORD_HUMIDITY, 0, 100.0, 1e-9);
    ck_assert(has_note(record, "3 values slightly outside their range"));
    bw_record_free(record);
}
END_TEST

/* ---- rows that cannot be --------------------------------------------------
 */

static const struct {
    const char *row, *words;
    long line;
} bad_row[] = {
    {"260,20170101,3,,60,abc,,0,10132,87", "'T' (field 6): 'abc' is not a", 4},
    {"260,20170101,3,,60,900,,0,10132,87", "900 lies outside -900 to 600", 4},
    {"260,20170101,3,,60,100,,-5,10132,87", "'RH' (field 8): -5 lies", 4},
    {"260,20170101,2,,60,100,,0,10132,87", "stands in line 3 too", 4},
    {"260,20170101,25,,60,100,,0,10132,87", "no moment of a year", 4},
    {"260,20170230,3,,60,100,,0,10132,87", "no moment of a year", 4},
    {"260,20170101,3,,60,100", "6 fields where 10 are wanted", 4},
    {"344,20170101,3,,60,100,,0,10132,87", "several stations", 4},
    {"260,20170101,3,,60,100,,0,10132,250", "250 lies outside 0.5 to 100", 4},
};

START_TEST(a_row_that_cannot_be_is_refused_with_its_line_and_column)
{
    struct text text = {0};
    add(&text,
        "STN,YYYYMMDD,HH,DD,FH,T,Q,RH,P,U\n260,20170101,1,,60,100,,0,10132,87\n"
        "260,20170101,2,,60,100,,0,10132,87\n%s\n",
        bad_row[_i].row);
    bad_hours(text.at, &nothing, bad_row[_i].line, bad_row[_i].words);
}
END_TEST

static const char *const unknown[] = {"hello\nworld\n", "a,b,c\n1,2,3\n",
                                      "month;temperature_C\n1;5\n", "#\n"};

START_TEST(what_is_in_no_form_is_refused_with_the_list_of_them)
{
    bad_hours(strdup(unknown[_i]), &nothing, 1, "none of the forms");
}
END_TEST

/* ---- a field too few ------------------------------------------------------
 */

/* The German reference year: A, the longwave radiation, is the last that is
 * needed, E and IL behind it are not. Row 10 holds so many fields. */
static char *cut_short(int fields)
{
    static const char *const value[] = {
        "3936500", "2449500", "",   "",  "",  "5.1", "1003", "243", "5.9",
        "8",       "5.2",     "94", "0", "0", "312", "-327", "1"};
    struct text text = {0};
    add(&text, "RW HW MM DD HH t p WR WG N x RF B D A E IL\n***\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        const int wanted = h == 7 ? fields : (int)COUNT(value);
        for (int k = 0; k < wanted; k++) {
            if (k == 2 || k == 3 || k == 4)
                add(&text, "%2d ",
                    k == 2   ? at.month
                    : k == 3 ? at.day
                             : at.hour + 1);
            else
                add(&text, "%s ", value[k]);
        }
        add(&text, "\n");
    }
    return text.at;
}

START_TEST(a_row_with_a_field_too_few_is_refused)
{
    enum { NEEDED = 15, ALL = 17 };
    const int fields = NEEDED - 3 + _i;
    if (fields >= NEEDED) {
        ck_assert_int_le(fields, ALL);
        bw_record_free(good_hours(cut_short(fields), &stuttgart));
        return;
    }
    char says[96];
    snprintf(says, sizeof says, "this row has %d fields where %d are wanted",
             fields, NEEDED);
    bad_hours(cut_short(fields), &stuttgart, 10, says);
}
END_TEST

/* 1.05 at most: a fraction. One value above it, and they are per cent. */
START_TEST(per_cent_are_told_from_a_fraction_by_the_highest)
{
    const bw_record_options utc = {.has_utc_offset = true};
    bad_hours(own_hours("relative_humidity_pct", "1.05", 0, 0), &utc, 0,
              "looks like a fraction");
    bw_record *record = good_hours(
        own_hours("relative_humidity_pct", "1.06", 0, 0), &utc);
    expect(record, BW_RECORD_HUMIDITY, 0, 1.06, 1e-9);
    bw_record_free(record);
}
END_TEST

SUITE("forms of hours", EACH(a_row_with_a_field_too_few_is_refused, 6),
      FACT(per_cent_are_told_from_a_fraction_by_the_highest),
      FACT(the_reference_year_ends_its_hours_and_stands_an_hour_east),
      FACT(its_sun_on_the_horizontal_is_conserved),
      FACT(a_mixing_ratio_becomes_a_humidity),
      FACT(two_humidities_that_contradict_each_other_are_refused),
      FACT(without_a_place_its_sun_is_left_out_and_said),
      FACT(the_dutch_list_holds_tenths_and_rain_under_the_name_rh),
      FACT(of_a_list_with_several_stations_in_its_head_no_place_is_guessed),
      FACT(of_several_years_one_is_asked_for),
      FACT(the_irish_list_counts_knots_and_rain_of_the_hour_before),
      FACT(the_french_list_is_parted_by_semicolons),
      FACT(a_typical_year_is_told_by_its_names_and_moved_by_its_offset),
      FACT(half_an_hour_of_offset_is_kept_in_the_moment_of_the_sun),
      FACT(a_weather_file_that_begins_with_location_is_told_by_it),
      FACT(readings_of_a_logger_are_averaged_around_the_hour),
      FACT(a_logger_whose_clock_or_unit_is_not_known_is_refused),
      FACT(a_humidity_in_parts_of_one_is_refused),
      FACT(values_taken_as_their_limit_are_said),
      EACH(a_row_that_cannot_be_is_refused_with_its_line_and_column,
           COUNT(bad_row)),
      EACH(what_is_in_no_form_is_refused_with_the_list_of_them, COUNT(unknown)))
