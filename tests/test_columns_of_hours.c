/* The columns of published hours: which tell a form (docs/climate.md, "told
 * by"), and to which hour each value goes. In one row of a year every value is
 * another than in the rest: it stands in one hour, and in no other. Figures
 * beside the files are worked by hand from the units' definitions. */

#include "bothways/air.h"
#include "record_case.h"
#include "record_form.h"
#include "suite.h"

/* ---- what tells a form ----------------------------------------------------
 */

/* Names with a sign in front of each: "!" of those that tell the form, "?" of
 * the others. */
static const struct told_row {
    const bw_form_of_hours *form;
    char separator;
    const char *names;
} told_rows[] = {
    {&bw_form_own, ',',
     "!time !temperature_C ?relative_humidity_pct ?wind_m_s ?rain_mm"},
    {&bw_form_public, ',', "!time(UTC) !T2m ?RH ?G(h)"},
    {&bw_form_months, ',', "!month !temperature_C ?relative_humidity_pct"},
    {&bw_form_irish, ',', "!date !temp !rhum !rain ?msl ?wdsp ?wddir"},
    {&bw_form_reference, ' ', "!MM !DD !HH !t !B !D ?p ?WR ?WG ?x ?RF ?A"},
    {&bw_form_dutch, ',', "!YYYYMMDD !HH ?STN ?T ?U ?RH ?FH ?DD ?Q ?P"},
    {&bw_form_french, ';',
     "!NUM_POSTE !AAAAMMJJHH ?LAT ?LON ?ALTI ?T ?U ?RR1 ?FF ?DD ?GLO ?PMER"},
    {&bw_form_logger, ',', "!date !temp !rh"},
    {&bw_form_logger, ';', "?date ?time !Temp. !Humidity"},
    {&bw_form_logger, ';', "!Date/Time !TEMP !rel"},
};

static const char *line_end = "\n";

static const bw_form_of_hours *form_without(const struct told_row *row,
                                            size_t left_out, char *sign)
{
    char text[512], name[64];
    size_t used = 0, i = 0;
    long line = 0;
    char separator = 0;
    for (const char *c = row->names; sscanf(c, "%63s", name) == 1; i++) {
        c = strchr(c, name[0]) + strlen(name);
        if (i == left_out)
            *sign = name[0];
        else
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%c",
                                     name + 1, row->separator);
    }
    snprintf(text + used - 1, sizeof text - used + 1, "%s", line_end);
    return bw_form_find(&line, &separator, text);
}

START_TEST(a_form_is_told_by_the_columns_it_needs_and_by_no_others)
{
    const struct told_row *row = &told_rows[_i];
    char sign = 0;
    line_end = "\r\n"; /* of another system */
    ck_assert_ptr_eq(form_without(row, 99, &sign), row->form);
    line_end = "\n";
    ck_assert_ptr_eq(form_without(row, 99, &sign), row->form);
    for (size_t i = 0;; i++) {
        sign = 0;
        const bw_form_of_hours *found = form_without(row, i, &sign);
        if (sign == 0)
            break;
        ck_assert_msg((found == row->form) == (sign == '?'), "%s: name %zu",
                      row->form->title, i);
    }
}
END_TEST

static const bw_form_column *column_of(const bw_form_of_hours *form,
                                       const char *name)
{
    for (size_t c = 0; c < form->columns; c++)
        if (strcmp(form->column[c].name, name) == 0)
            return &form->column[c];
    return NULL;
}

/* Names with blanks in them, or none: from the table itself. */
START_TEST(of_a_typical_year_the_moment_and_the_temperature_are_needed)
{
    static const char *const needed[][3] = {
        {"Date (MM/DD/YYYY)", "Time (HH:MM)", "Dry-bulb (C)"},
        {"month", "day", "hour"}};
    for (size_t i = 0; i < 3; i++) {
        ck_assert(column_of(&bw_form_typical, needed[0][i])->needed);
        ck_assert(column_of(&bw_form_location, needed[1][i])->needed);
    }
    ck_assert(column_of(&bw_form_location, "dry-bulb temperature")->needed);
    ck_assert(!column_of(&bw_form_typical, "RHum (%)")->needed);
    ck_assert(!column_of(&bw_form_typical, "DNI (W/m^2)")->needed);
    ck_assert(!column_of(&bw_form_location, "pressure")->needed);
}
END_TEST

/* ---- to which hour a value goes -------------------------------------------
 */

enum { ROW = 4000 }; /* of the file, from 0: June 16th, its hour from 16:00 */

static const char *pick(int hour, const char *usual, const char *odd)
{
    return hour == ROW ? odd : usual;
}

static char *of_reference(void)
{
    struct text text = {0};
    add(&text, "MM DD HH t RF p WG WR B D A\n***\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "%d %d %d %s\n", at.month, at.day, at.hour + 1,
            pick(h, "5.1 94 1003 5.9 243 0 100 312",
                 "7.3 60 990 2.5 90 0 60 350"));
    }
    return text.at;
}

static char *of_dutch(void)
{
    struct text text = {0};
    add(&text, "# 260: 5.180 52.100 0.00 A PLACE\n"
               "# STN,YYYYMMDD,HH,DD,FH,T,Q,RH,P,U\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "260,2017%02d%02d,%d,%s\n", at.month, at.day, at.hour + 1,
            pick(h, "180,60,105,36,12,10132,87", "90,25,73,72,30,9900,60"));
    }
    return text.at;
}

static char *of_irish(void)
{
    struct text text = {0};
    add(&text, "Station Name: A PLACE\nStation Height: 200 M\n"
               "Latitude:51.938  ,Longitude: -10.241\n"
               "date,ind,rain,ind,temp,ind,wetb,dewpt,vappr,rhum,msl,ind,wdsp,"
               "ind,wddir\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "%02d-%s-2017 %02d:00,0,%s,2,%s\n", at.day,
            bw_month_name(at.month - 1), at.hour,
            pick(h, "1.2,0,10.5,0,5.4,4.0,8.1,87,1013.25",
                 "3.0,0,7.3,0,5.4,4.0,8.1,60,990"),
            pick(h, "10,2,180", "5,2,90"));
    }
    return text.at;
}

static char *of_french(void)
{
    struct text text = {0};
    add(&text, "NUM_POSTE;LAT;LON;ALTI;AAAAMMJJHH;RR1;FF;DD;T;U;PSTAT;GLO\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "29075001;48.444;-4.412;94;2017%02d%02d%02d;%s\n", at.month,
            at.day, at.hour,
            pick(h, "1.2;6;180;10.5;87;1013.2;36", "3.0;2.5;90;7.3;60;990;72"));
    }
    return text.at;
}

static char *of_typical(void)
{
    struct text text = {0};
    add(&text, "700000,\"A PLACE\",AK,0,40.0,-80.0,300\n"
               "Date (MM/DD/YYYY),Time (HH:MM),DNI (W/m^2),DHI (W/m^2),"
               "Dry-bulb (C),RHum (%%),Pressure (mbar),Wdir (degrees),"
               "Wspd (m/s)\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "%02d/%02d/1988,%02d:00,%s\n", at.month, at.day, at.hour + 1,
            pick(h, "400,100,10.5,87,1013.2,180,6",
                 "500,60,7.3,60,990,90,2.5"));
    }
    return text.at;
}

static char *of_location(void)
{
    struct text text = {0};
    add(&text, "LOCATION,A PLACE,-,NOWHERE,invented,999999,50.0,8.0,1.0,112.0\n"
               "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n");
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "1999,%d,%d,%d,60,?9,%s,9,9\n", at.month, at.day,
            at.hour + 1,
            pick(h, "10.5,1.0,87,101320,0,0,312,0,400,100,0,0,0,0,180,6",
                 "7.3,1.0,60,99000,0,0,350,0,500,60,0,0,0,0,90,2.5"));
    }
    return text.at;
}

static char *of_own(void)
{
    struct text text = {0};
    add(&text, "# latitude: 52\n# longitude: 5\ntime,temperature_C,"
               "relative_humidity_pct,direct_normal_W_m2,"
               "diffuse_horizontal_W_m2,longwave_down_W_m2,wind_m_s,"
               "wind_from_deg,rain_mm,pressure_Pa\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",%s\n",
            pick(h, "10.5,87,400,100,312,6,180,1.2,101320",
                 "7.3,60,500,60,350,2.5,90,3.0,99000"));
    }
    return text.at;
}

#define ANY (-1.0)

typedef struct placed {
    bw_quantity quantity;
    int later;         /* h after the row's place in the file */
    double usual, odd; /* ANY: how much, other tests say */
} placed;

/* What the head says of its place, and the rows of their year. */
typedef struct where {
    double latitude, longitude, altitude; /* NAN: not told */
    bw_year_kind kind;
    int year; /* 0: of many years */
} where;

static const struct placed_row {
    char *(*text)(void);
    where where;
    placed is[10];
} placed_rows[] = {
    /* an hour east: what is of the hour that ends at 17:00 began at 15:00 UTC
     */
    {of_reference,
     {48.8, 9.2, (double)NAN, BW_YEAR_TYPICAL, 0},
     {{BW_RECORD_TEMPERATURE, 0, 5.1, 7.3},
      {BW_RECORD_HUMIDITY, 0, 94, 60},
      {BW_RECORD_PRESSURE, 0, 100300, 99000},
      {BW_RECORD_WIND, 0, 5.9, 2.5},
      {BW_RECORD_WIND_FROM, 0, 243, 90},
      {BW_RECORD_DIFFUSE, -1, 100, 60},
      {BW_RECORD_LONGWAVE, -1, 312, 350}}},
    /* hour 17 of the list ends at 17:00; at sea level */
    {of_dutch,
     {52.1, 5.18, 0.0, BW_YEAR_MEASURED, 2017},
     {{BW_RECORD_TEMPERATURE, 1, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 1, 87, 60},
      {BW_RECORD_PRESSURE, 1, 101320, 99000},
      {BW_RECORD_WIND, 0, 6, 2.5},
      {BW_RECORD_WIND_FROM, 0, 180, 90},
      {BW_RECORD_RAIN, 0, 1.2, 3.0},
      {BW_RECORD_DIFFUSE, 0, ANY, ANY}}},
    /* knots; ISO 2533 at 200 m: 98945 Pa of 101325 */
    {of_irish,
     {51.938, -10.241, 200.0, BW_YEAR_MEASURED, 2017},
     {{BW_RECORD_TEMPERATURE, 0, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 0, 87, 60},
      {BW_RECORD_WIND, 0, 18520.0 / 3600.0, 9260.0 / 3600.0},
      {BW_RECORD_WIND_FROM, 0, 180, 90},
      {BW_RECORD_RAIN, -1, 1.2, 3.0},
      {BW_RECORD_PRESSURE, 0, 98945, 99000.0 * 98945 / 101325}}},
    {of_french,
     {48.444, -4.412, 94.0, BW_YEAR_MEASURED, 2017},
     {{BW_RECORD_TEMPERATURE, 0, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 0, 87, 60},
      {BW_RECORD_PRESSURE, 0, 101320, 99000},
      {BW_RECORD_WIND, 0, 6, 2.5},
      {BW_RECORD_WIND_FROM, 0, 180, 90},
      {BW_RECORD_RAIN, -1, 1.2, 3.0},
      {BW_RECORD_DIFFUSE, -1, ANY, ANY}}},
    {of_typical,
     {40.0, -80.0, 300.0, BW_YEAR_TYPICAL, 0},
     {{BW_RECORD_TEMPERATURE, 1, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 1, 87, 60},
      {BW_RECORD_PRESSURE, 1, 101320, 99000},
      {BW_RECORD_WIND, 1, 6, 2.5},
      {BW_RECORD_WIND_FROM, 1, 180, 90},
      {BW_RECORD_DIRECT, 0, 400, 500},
      {BW_RECORD_DIFFUSE, 0, 100, 60}}},
    {of_location,
     {50.0, 8.0, 112.0, BW_YEAR_TYPICAL, 0},
     {{BW_RECORD_TEMPERATURE, 0, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 0, 87, 60},
      {BW_RECORD_PRESSURE, 0, 101320, 99000},
      {BW_RECORD_WIND, 0, 6, 2.5},
      {BW_RECORD_WIND_FROM, 0, 180, 90},
      {BW_RECORD_DIRECT, -1, 400, 500},
      {BW_RECORD_DIFFUSE, -1, 100, 60},
      {BW_RECORD_LONGWAVE, -1, 312, 350}}},
    {of_own,
     {52.0, 5.0, (double)NAN, BW_YEAR_NOT_STATED, 0},
     {{BW_RECORD_TEMPERATURE, 0, 10.5, 7.3},
      {BW_RECORD_HUMIDITY, 0, 87, 60},
      {BW_RECORD_PRESSURE, 0, 101320, 99000},
      {BW_RECORD_WIND, 0, 6, 2.5},
      {BW_RECORD_WIND_FROM, 0, 180, 90},
      {BW_RECORD_RAIN, 0, 1.2, 3.0},
      {BW_RECORD_DIRECT, 0, 400, 500},
      {BW_RECORD_DIFFUSE, 0, 100, 60},
      {BW_RECORD_LONGWAVE, 0, 312, 350}}},
};

START_TEST(a_value_stands_in_its_hour_and_in_no_other)
{
    static const bw_record_options place = {
        .has_position = true, .latitude = 48.8, .longitude = 9.2};
    const struct placed_row *row = &placed_rows[_i];
    bw_record *record = good_hours(row->text(), row->text == of_reference
                                                    ? &place
                                                    : &(bw_record_options){0});
    const where *at = &row->where;
    ck_assert(record->has_position);
    ck_assert_double_eq(record->latitude, at->latitude);
    ck_assert_double_eq(record->longitude, at->longitude);
    ck_assert(record->has_altitude == !isnan(at->altitude));
    if (record->has_altitude)
        ck_assert_double_eq(record->altitude, at->altitude);
    ck_assert_double_eq(record->sun_offset, 0.5);
    ck_assert_int_eq(record->year_kind, at->kind);
    ck_assert_int_eq(record->year, at->year);
    for (const placed *p = row->is; p->usual != 0.0; p++) {
        const double *value = record->value[p->quantity];
        ck_assert_ptr_nonnull(value);
        for (int h = ROW - 3; h <= ROW + 3; h++) {
            const double wanted = h == ROW + p->later ? p->odd : p->usual;
            if (wanted < 0.0) /* twice the sun leaves less of it diffuse */
                ck_assert(h == ROW + p->later ||
                          fabs(value[h] - value[ROW + p->later]) > 1.0);
            else
                ck_assert_msg(fabs(value[h] - wanted) <= 1e-5 * wanted,
                              "%d: quantity %d at %d h: %.9g, not %.9g", _i,
                              (int)p->quantity, h - ROW, value[h], wanted);
        }
    }
    bw_record_free(record);
}
END_TEST

/* ---- where a table begins --------------------------------------------------
 */

/* Two hundred lines are looked through. */
START_TEST(names_stand_within_the_first_two_hundred_lines)
{
    for (int before = 199; before <= 200; before++) {
        struct text text = {0};
        long line = 0;
        char separator = 0;
        for (int i = 0; i < before; i++)
            add(&text, "# of people\n");
        add(&text, "date;temp;rh\n2017-01-01 00:00;5;80\n");
        const bw_form_of_hours *form = bw_form_find(&line, &separator, text.at);
        ck_assert_ptr_eq(form, before == 199 ? &bw_form_logger : NULL);
        if (form != NULL)
            ck_assert_int_eq(line, 200);
        free(text.at);
    }
}
END_TEST

/* Each counts for the nearest full hour: 30 minutes for the next one. */
START_TEST(a_reading_counts_for_the_nearest_hour)
{
    static const char *const minute[] = {"29", "30", "31"};
    const bw_record_options utc = {.has_utc_offset = true};
    for (size_t k = 0; k < COUNT(minute); k++) {
        struct text text = {0};
        add(&text, "date;temp;rh\n");
        for (int h = 0; h < 48; h++) {
            const moment at = moment_of(h);
            add(&text, "2017-%02d-%02d %02d:%s;%d;80\n", at.month, at.day,
                at.hour, minute[k], h);
        }
        bw_record *record = good_hours(text.at, &utc);
        for (int h = 2; h < 40; h++)
            ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][h],
                                k == 0 ? h : h - 1);
        bw_record_free(record);
    }
}
END_TEST

/* ---- both ends of what a column may hold -----------------------------------
 */

/* One row with %s in the place of the value, in the file's unit: an end is
 * possible, whatever else the file lacks; just beyond it is refused. Regression
 * values: wide estimates, and what is still taken as their limit. */
#define OWN(column) "time,temperature_C," column "\n2017-01-01T00:00Z,5,%s\n"
#define NOON "MM DD HH t B D x A\n***\n7 1 13 "
static const struct end_row {
    const char *text;
    const char *below, *least, *most, *above;
} end_rows[] = {
    {"time,temperature_C\n2017-01-01T00:00Z,%s\n", "-90.1", "-90", "60",
     "60.1"},
    {OWN("relative_humidity_pct"), "0.49", "0.5", "105", "105.1"},
    {OWN("vapour_pressure_Pa"), "0.09", "0.1", "8000", "8001"},
    {OWN("global_horizontal_W_m2"), "-10.1", "-10", "1600", "1601"},
    {OWN("direct_normal_W_m2"), "-10.1", "-10", "1410", "1411"},
    {OWN("diffuse_horizontal_W_m2"), "-10.1", "-10", "1200", "1201"},
    {OWN("longwave_down_W_m2"), "49.9", "50", "700", "701"},
    {OWN("wind_m_s"), "-0.1", "0", "80", "80.1"},
    {OWN("wind_from_deg"), "-0.1", "0", "360", "360.1"},
    {OWN("rain_mm"), "-0.1", "0", "400", "401"},
    {OWN("pressure_Pa"), "44999", "45000", "110000", "110001"},
    {NOON "5 %s 0 5 300\n", "-10.1", "-10", "1400", "1401"},
    {NOON "5 0 0 %s 300\n", "0.0049", "0.005", "60", "60.1"},
    {"YYYYMMDD,HH,T,P\n20170101,1,50,%s\n", "8499", "8500", "11000", "11001"},
    {"YYYYMMDD,HH,T,Q\n20170101,1,50,%s\n", "-3.7", "-3.5", "575", "577"},
    {"date,ind,rain,temp,rhum,wdsp\n01-jan-2017 00:00,0,0,5,80,%s\n", "-0.1",
     "0", "155", "156"},
};

static bool lies_outside(const char *text, const char *value)
{
    char whole[512];
    const char *at = strstr(text, "%s");
    bw_record *record = NULL;
    bw_error err = {0};
    snprintf(whole, sizeof whole, "%.*s%s%s", (int)(at - text), text, value,
             at + 2);
    (void)read_hours(&record, whole, &(bw_record_options){0}, &err);
    bw_record_free(record);
    return strstr(err.message, "lies outside") != NULL;
}

START_TEST(an_end_is_possible_and_what_lies_beyond_it_is_not)
{
    const struct end_row *row = &end_rows[_i];
    ck_assert_msg(lies_outside(row->text, row->below), "%s", row->text);
    ck_assert_msg(!lies_outside(row->text, row->least), "%s", row->text);
    ck_assert_msg(!lies_outside(row->text, row->most), "%s", row->text);
    ck_assert_msg(lies_outside(row->text, row->above), "%s", row->text);
}
END_TEST

/* What is taken as a limit is counted, and the limit itself is not. */
START_TEST(values_beyond_a_limit_are_counted)
{
    for (int beyond = 0; beyond < 2; beyond++) {
        struct text text = {0};
        add(&text, "time,temperature_C,relative_humidity_pct,rain_mm,"
                   "direct_normal_W_m2,diffuse_horizontal_W_m2\n");
        for (int h = 0; h < HOURS; h++) {
            add_time(&text, h);
            add(&text, ",60,%s,0,%s,0\n",
                beyond == 1 && h % 1000 == 7 ? "100.1" : "100",
                beyond == 1 && h == 5 ? "-1" : "0");
        }
        bw_record *record = good_hours(text.at, &(bw_record_options){0});
        bool told = false;
        for (size_t i = 0; i < record->note_count; i++)
            told = told || strstr(record->note[i], "slightly outside") != NULL;
        ck_assert_int_eq(told, beyond == 1);
        for (size_t i = 0; i < record->note_count; i++)
            if (strstr(record->note[i], "slightly outside") != NULL)
                ck_assert_int_eq(atoi(record->note[i]), 10);
        ck_assert_double_eq(record->value[BW_RECORD_HUMIDITY][7], 100.0);
        bw_record_free(record);
    }
}
END_TEST

/* In whatever column the temperature stands. */
START_TEST(degrees_of_another_scale_are_refused_wherever_they_stand)
{
    static const char *const texts[] = {
        "temp (\xc2\xb0"
        "F);date;rh\n5;2017-01-01 00:00;80\n",
        "date;temp (\xc2\xb0"
        "F);rh\n2017-01-01 00:00;5;80\n",
        "date;rh;temp (F)\n2017-01-01 00:00;80;5\n"};
    for (size_t i = 0; i < COUNT(texts); i++)
        bad_hours(strdup(texts[i]),
                  &(bw_record_options){.has_utc_offset = true}, 1,
                  "degrees Celsius are wanted");
}
END_TEST

/* A mark, and anything beyond it, is no value. */
static const char *const marked[] = {
    "LOCATION,-,-,-,-,9,50.0,8.0,1.0,112.0\nDATA PERIODS,1\n"
    "1999,1,1,1,60,?9,%s,9,9\n",
    "99.9,1.0,999,999999,0,0,9999,0,9999,9999,0,0,0,0,999,999",
    "100,1.0,1000,9999999,0,0,10000,0,10000,10000,0,0,0,0,1000,1000",
    "9,\"A\",AK,0,40.0,-80.0,300\nDate (MM/DD/YYYY),Time (HH:MM),DNI (W/m^2),"
    "DHI (W/m^2),Dry-bulb (C),RHum (%%),Pressure (mbar),Wdir (degrees),"
    "Wspd (m/s)\n01/01/1988,01:00,%s\n",
    "-9900,-9900,-9900,-9900,-9900,-9900,-9900",
    "-9999,-9999,-9999,-9999,-9999,-9999,-9999"};

START_TEST(what_is_marked_as_missing_is_no_value)
{
    char text[1024];
    const size_t form = _i < 2 ? 0 : 3;
    snprintf(text, sizeof text, marked[form],
             marked[form + 1 + (size_t)_i % 2]);
    bw_record *record = good_hours(strdup(text), &(bw_record_options){0});
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        ck_assert_ptr_null(record->value[q]);
    bw_record_free(record);
}
END_TEST

/* ---- humidities ------------------------------------------------------------
 */

/* By hand: p_v = 100300 x 0.0052 / (0.62198 + 0.0052) = 831.6 Pa of 878.0 Pa at
 * 5.1 degC (ISO 13788): 94.72 %; without a pressure that of 101325 Pa: 95.69 %.
 */
static char *twice_told(const char *columns, const char *values)
{
    struct text text = {0};
    add(&text, "MM DD HH t B D %s\n***\n", columns);
    for (int h = 0; h < HOURS; h++) {
        const moment at = moment_of(h);
        add(&text, "%d %d %d 5.1 0 0 %s\n", at.month, at.day, at.hour + 1,
            values);
    }
    return text.at;
}

static const struct twice_row {
    const char *values;
    bool agree;
} twice_rows[] = {{"1003 5.2 89.8", true},
                  {"1003 5.2 89.6", false},
                  {"1003 5.2 99.6", true},
                  {"1003 5.2 99.8", false}};

START_TEST(humidities_told_twice_agree_within_five_per_cent)
{
    const struct twice_row *row = &twice_rows[_i];
    char *text = twice_told("p x RF", row->values);
    if (row->agree)
        bw_record_free(good_hours(text, &(bw_record_options){0}));
    else
        bad_hours(text, &(bw_record_options){0}, 0, "not what they seem");
}
END_TEST

START_TEST(without_a_pressure_the_air_is_that_at_sea_level)
{
    bw_record *record = good_hours(twice_told("x", "5.2"),
                                   &(bw_record_options){0});
    ck_assert_double_eq_tol(record->value[BW_RECORD_HUMIDITY][100], 95.69,
                            0.02);
    bw_record_free(record);
}
END_TEST

/* 80 % over ice at -10 degC is 0.8 x 259.874 Pa of the 286.432 Pa over water
 * (IAPWS, computed with a public steam-table library): 72.6 %; ISO 13788's
 * formulas lie up to 0.5 % off. */
START_TEST(humidity_over_ice_is_less_over_water)
{
    struct text text = {0};
    add(&text, "# humidity-reference: ice\ntime,temperature_C,"
               "relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",-10,80\n");
    }
    bw_record *record = good_hours(text.at, &(bw_record_options){0});
    for (int h = 0; h < HOURS; h++)
        ck_assert_double_eq_tol(record->value[BW_RECORD_HUMIDITY][h], 72.6,
                                0.4);
    bw_record_free(record);
}
END_TEST

SUITE("columns_of_hours", FACT(values_beyond_a_limit_are_counted),
      FACT(degrees_of_another_scale_are_refused_wherever_they_stand),
      EACH(a_form_is_told_by_the_columns_it_needs_and_by_no_others,
           COUNT(told_rows)),
      FACT(of_a_typical_year_the_moment_and_the_temperature_are_needed),
      EACH(a_value_stands_in_its_hour_and_in_no_other, COUNT(placed_rows)),
      FACT(names_stand_within_the_first_two_hundred_lines),
      FACT(a_reading_counts_for_the_nearest_hour),
      EACH(an_end_is_possible_and_what_lies_beyond_it_is_not, COUNT(end_rows)),
      EACH(what_is_marked_as_missing_is_no_value, 4),
      EACH(humidities_told_twice_agree_within_five_per_cent, COUNT(twice_rows)),
      FACT(without_a_pressure_the_air_is_that_at_sea_level),
      FACT(humidity_over_ice_is_less_over_water))
