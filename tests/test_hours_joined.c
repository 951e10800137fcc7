/* Records made by hand and joined: which part gives what, what is said of it,
 * and the ends of gaps, distances and heights (docs/climate.md). Distances on a
 * sphere of 6371 km are worked by hand; sentences are the program's own
 * (regression values as to wording). */

#include "record_case.h"
#include "suite.h"

enum { HOUR_COUNT = 8760 };

/* A column of one value; free it. */
static double *column_of(double value)
{
    double *column = malloc(HOUR_COUNT * sizeof *column);
    ck_assert_ptr_nonnull(column);
    for (int h = 0; h < HOUR_COUNT; h++)
        column[h] = value;
    return column;
}

static double *columns[64];
static size_t column_count;

static const double *all(double value)
{
    ck_assert_uint_lt(column_count, COUNT(columns));
    columns[column_count] = column_of(value);
    return columns[column_count++];
}

static double *own(double value)
{
    return (double *)all(value);
}

static bw_record *made;
static bw_error err;

static void setup(void)
{
    made = NULL;
    column_count = 0;
    err = (bw_error){0};
}

static void teardown(void)
{
    bw_record_free(made);
    while (column_count > 0)
        free(columns[--column_count]);
}

static bw_record plain(const char *file)
{
    return (bw_record){
        .file = file, .form = "a form", .times = "UTC", .sha256 = "0123"};
}

/* Temperature and humidity. */
static bw_record air(const char *file)
{
    bw_record record = plain(file);
    record.value[BW_RECORD_TEMPERATURE] = all(5.0);
    record.value[BW_RECORD_HUMIDITY] = all(80.0);
    return record;
}

/* Direct and diffuse sun. */
static bw_record sunshine(const char *file)
{
    bw_record record = plain(file);
    record.value[BW_RECORD_DIRECT] = all(100.0);
    record.value[BW_RECORD_DIFFUSE] = all(50.0);
    return record;
}

static bw_status join(const bw_record *a, const bw_record *b)
{
    const bw_record *part[] = {a, b};
    bw_record_free(made);
    made = NULL;
    return bw_record_join(&made, part, b != NULL ? 2 : 1, &err);
}

static bool noted(const char *sentence)
{
    for (size_t i = 0; i < made->note_count; i++)
        if (strcmp(made->note[i], sentence) == 0)
            return true;
    return false;
}

/* Is there a note that begins so? */
static bool begins(const char *words)
{
    for (size_t i = 0; i < made->note_count; i++)
        if (strncmp(made->note[i], words, strlen(words)) == 0)
            return true;
    return false;
}

/* ---- what is told ----------------------------------------------------------
 */

static const char *const told_of_two[] = {
    "source: hours joined by bothways climate from air.csv and sun.csv",
    "File 1: air.csv, SHA-256 0123",
    "Read as: a form, year 2017; UTC",
    "In air.csv: two?things",
    "Taken from it: temperature, humidity",
    "File 2: sun.csv, SHA-256 0123",
    "Read as: a form; UTC",
    "Taken from it: direct sun, diffuse sun",
    "Not told where both air.csv and sun.csv lie: that they are near each "
    "other is assumed",
    "Still missing: longwave",
    "Still missing: wind",
    "Still missing: wind direction",
    "Still missing: rain",
    "Still missing: pressure"};

START_TEST(a_join_tells_its_parts_in_order)
{
    const char *note[] = {"two\tthings"};
    bw_record a = air("folder/air.csv"), s = sunshine("sun.csv");
    a.note = note;
    a.note_count = 1;
    a.year = 2017;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert_uint_eq(made->note_count, COUNT(told_of_two));
    for (size_t i = 0; i < COUNT(told_of_two); i++)
        ck_assert_str_eq(made->note[i], told_of_two[i]);
    ck_assert_int_eq(made->year, 2017);
    ck_assert_str_eq(made->file, "folder/air.csv");
    ck_assert_str_eq(made->sha256, "");
}
END_TEST

START_TEST(one_file_is_made_and_a_useless_one_gives_nothing)
{
    bw_record a = air("a.csv"), b = air("b.csv");
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert_str_eq(made->note[0],
                     "source: hours made by bothways climate from a.csv");
    ck_assert_int_eq(join(&a, &b), BW_OK);
    ck_assert(noted("Taken from it: nothing"));
}
END_TEST

START_TEST(without_temperature_and_humidity_nothing_is_made)
{
    bw_record half = air("half.csv"), s = sunshine("sun.csv");
    half.value[BW_RECORD_HUMIDITY] = NULL;
    ck_assert_int_eq(join(&half, &s), BW_ERR_INPUT);
    ck_assert_str_eq(err.message,
                     "no file has hours of both temperature and humidity");
    ck_assert_str_eq(err.file, "half.csv");
    ck_assert_int_eq(err.line, 0);
    bw_record months = air("months.csv");
    months.generated = true;
    ck_assert_int_eq(join(&months, NULL), BW_ERR_INPUT);
    ck_assert_str_eq(
        err.message,
        "no file has hours of both temperature and humidity; check makes the "
        "hours of a monthly climate by itself, here it can give its sun to a "
        "file of hours");
}
END_TEST

/* ---- who gives what ---------------------------------------------------------
 */

START_TEST(temperature_and_humidity_come_of_one_file)
{
    bw_record half = air("half.csv"), whole = air("whole.csv");
    half.value[BW_RECORD_HUMIDITY] = NULL;
    whole.value[BW_RECORD_TEMPERATURE] = all(7.0);
    ck_assert_int_eq(join(&half, &whole), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_TEMPERATURE][9], 7.0);
    ck_assert_double_eq(made->value[BW_RECORD_HUMIDITY][9], 80.0);
}
END_TEST

START_TEST(direct_and_diffuse_sun_come_of_one_file)
{
    bw_record a = air("a.csv"), s = sunshine("s.csv");
    a.value[BW_RECORD_DIRECT] = all(999.0);
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_DIRECT][9], 100.0);
    ck_assert_double_eq(made->value[BW_RECORD_DIFFUSE][9], 50.0);
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert_ptr_null(made->value[BW_RECORD_DIRECT]);
}
END_TEST

/* What drives the rain: the wind of its own file, and its direction, even where
 * the first has a wind. */
START_TEST(rain_wind_and_direction_come_of_one_file)
{
    bw_record a = air("a.csv"), b = plain("b.csv");
    a.value[BW_RECORD_WIND] = all(3.0);
    a.value[BW_RECORD_WIND_FROM] = all(90.0);
    b.value[BW_RECORD_RAIN] = all(1.0);
    b.value[BW_RECORD_WIND] = all(4.0);
    ck_assert_int_eq(join(&a, &b), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_WIND][0], 4.0);
    ck_assert_double_eq(made->value[BW_RECORD_RAIN][0], 1.0);
    ck_assert_ptr_null(made->value[BW_RECORD_WIND_FROM]);
    ck_assert(!begins("remark: Rain and wind"));
    b.value[BW_RECORD_WIND_FROM] = all(270.0);
    ck_assert_int_eq(join(&a, &b), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_WIND_FROM][0], 270.0);
    b.value[BW_RECORD_WIND] = NULL;
    ck_assert_int_eq(join(&a, &b), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_WIND_FROM][0], 90.0);
    ck_assert(noted("remark: Rain and wind are joined by month, day and hour "
                    "and not of the same weather: driving rain is less "
                    "certain."));
    a.value[BW_RECORD_WIND] = NULL; /* a direction alone drives nothing */
    ck_assert_int_eq(join(&a, &b), BW_OK);
    ck_assert_ptr_null(made->value[BW_RECORD_WIND_FROM]);
}
END_TEST

START_TEST(sun_and_rain_of_two_files_are_said_to_be)
{
    static const char says[] =
        "remark: Sun and rain are joined by month, day and hour and not of the "
        "same weather: it may rain in an hour with sun.";
    bw_record a = air("a.csv"), s = sunshine("s.csv");
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert(!noted(says));
    a.value[BW_RECORD_RAIN] = all(1.0);
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert(noted(says));
    s.value[BW_RECORD_RAIN] = a.value[BW_RECORD_RAIN];
    a.value[BW_RECORD_RAIN] = NULL;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert(!noted(says));
}
END_TEST

/* Of months nothing is taken but what the sky sends. */
static const struct {
    bw_quantity quantity;
    bool taken;
} of_months[] = {
    {BW_RECORD_DIRECT, true},   {BW_RECORD_DIFFUSE, true},
    {BW_RECORD_LONGWAVE, true}, {BW_RECORD_WIND, false},
    {BW_RECORD_RAIN, false},    {BW_RECORD_PRESSURE, false},
};

START_TEST(generated_hours_give_the_sky_alone)
{
    bw_record a = air("a.csv"), months = air("months.csv");
    months.generated = true;
    for (int q = 0; q < BW_RECORD_COUNT; q++)
        months.value[q] = all(100.0);
    ck_assert_int_eq(join(&a, &months), BW_OK);
    ck_assert_int_eq(made->value[of_months[_i].quantity] != NULL,
                     of_months[_i].taken);
    ck_assert_double_eq(made->value[BW_RECORD_TEMPERATURE][0], 5.0);
}
END_TEST

/* L' (T/T')^4: 300 (278.15/293.15)^4 = 243.152 W/m2. */
START_TEST(longwave_follows_the_air_or_is_said_to_stay)
{
    bw_record a = air("a.csv"), sky = plain("sky.csv");
    sky.value[BW_RECORD_LONGWAVE] = all(300.0);
    ck_assert_int_eq(join(&a, &sky), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_LONGWAVE][4], 300.0);
    ck_assert(noted("Longwave as it stands in sky.csv, which has no "
                    "temperature to set it to that of a.csv"));
    sky.value[BW_RECORD_TEMPERATURE] = all(20.0);
    ck_assert_int_eq(join(&a, &sky), BW_OK);
    ck_assert_double_eq_tol(made->value[BW_RECORD_LONGWAVE][4], 243.152, 1e-3);
    ck_assert(noted("Longwave keeps the sky's emissivity of sky.csv, at the "
                    "temperature of a.csv"));
    a.value[BW_RECORD_LONGWAVE] = sky.value[BW_RECORD_LONGWAVE];
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert_double_eq(made->value[BW_RECORD_LONGWAVE][4], 300.0);
    ck_assert(!begins("Longwave"));
}
END_TEST

/* ---- what the joined one is
 * ---------------------------------------------------- */

static const struct {
    bw_year_kind a, b, both;
} kinds[] = {
    {BW_YEAR_MEASURED, BW_YEAR_MEASURED, BW_YEAR_MEASURED},
    {BW_YEAR_MEASURED, BW_YEAR_TYPICAL, BW_YEAR_TYPICAL},
    {BW_YEAR_TYPICAL, BW_YEAR_MEASURED, BW_YEAR_TYPICAL},
    {BW_YEAR_NOT_STATED, BW_YEAR_MEASURED, BW_YEAR_NOT_STATED},
    {BW_YEAR_NOT_STATED, BW_YEAR_TYPICAL, BW_YEAR_TYPICAL},
};

START_TEST(a_year_is_no_more_severe_than_the_mildest_of_its_parts)
{
    bw_record a = air("a.csv"), s = sunshine("s.csv"), unused = air("u.csv");
    a.year_kind = kinds[_i].a;
    s.year_kind = kinds[_i].b;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert_int_eq(made->year_kind, kinds[_i].both);
    unused.year_kind = kinds[_i].b;
    ck_assert_int_eq(join(&a, &unused), BW_OK);
    ck_assert_int_eq(made->year_kind, kinds[_i].a);
}
END_TEST

/* The sun's where it is told, else that of the air; heights are the air's. */
START_TEST(the_place_is_that_of_the_sun)
{
    bw_record a = air("a.csv"), s = sunshine("s.csv");
    a.has_position = a.has_altitude = true;
    a.latitude = 50.0;
    a.longitude = 8.0;
    a.altitude = 120.0;
    s.sun_offset = 0.75;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert(made->has_position && made->has_altitude);
    ck_assert_double_eq(made->latitude, 50.0);
    ck_assert_double_eq(made->sun_offset, 0.75);
    s.has_position = true;
    s.latitude = 50.5;
    s.longitude = 8.5;
    s.has_altitude = true;
    s.altitude = 130.0;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert_double_eq(made->latitude, 50.5);
    ck_assert_double_eq(made->longitude, 8.5);
    ck_assert_double_eq(made->altitude, 120.0);
    ck_assert(!begins("Not told where"));
    ck_assert_int_eq(join(&a, NULL), BW_OK);
    ck_assert_double_eq(made->sun_offset, 0.5);
    ck_assert(!begins("Not told where"));
}
END_TEST

/* A degree is 6371 pi/180 = 111.195 km to the north, and cos(60) of it to the
 * east. Said above 100 km and 300 m. */
static const struct {
    double latitude, longitude, altitude;
    const char *far, *higher;
} places[] = {
    {60.899, 10.0, 300.0, NULL, NULL}, /* 99.96 km */
    {60.9, 10.0, 301.0,
     "remark: Far apart: a.csv and s.csv lie 100 km from each other.",
     "remark: Heights differ: a.csv lies at 0 m, s.csv at 301 m."},
    {60.0, 11.79, -300.0, NULL, NULL}, /* 99.5 km */
    {60.0, 11.81, -300.5,
     "remark: Far apart: a.csv and s.csv lie 101 km from each other.",
     "remark: Heights differ: a.csv lies at 0 m, s.csv at -300.5 m."},
    {57.0, 10.0, 0.0,
     "remark: Far apart: a.csv and s.csv lie 334 km from each other.", NULL},
    {-60.0, -170.0, 0.0,
     "remark: Far apart: a.csv and s.csv lie 20015 km from each other.", NULL},
};

START_TEST(places_and_heights_that_differ_are_said)
{
    bw_record a = air("a.csv"), s = sunshine("s.csv");
    a.has_position = a.has_altitude = s.has_position = s.has_altitude = true;
    a.latitude = 60.0;
    a.longitude = 10.0;
    s.latitude = places[_i].latitude;
    s.longitude = places[_i].longitude;
    s.altitude = places[_i].altitude;
    ck_assert_int_eq(join(&a, &s), BW_OK);
    ck_assert_int_eq(begins("remark: Far apart"), places[_i].far != NULL);
    ck_assert_int_eq(begins("remark: Heights"), places[_i].higher != NULL);
    ck_assert(places[_i].far == NULL || noted(places[_i].far));
    ck_assert(places[_i].higher == NULL || noted(places[_i].higher));
}
END_TEST

/* ---- gaps
 * ------------------------------------------------------------------------ */

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

/* ---- written
 * --------------------------------------------------------------------- */

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
    "hours_joined", setup, teardown, FACT(a_join_tells_its_parts_in_order),
    FACT(one_file_is_made_and_a_useless_one_gives_nothing),
    FACT(without_temperature_and_humidity_nothing_is_made),
    FACT(temperature_and_humidity_come_of_one_file),
    FACT(direct_and_diffuse_sun_come_of_one_file),
    FACT(rain_wind_and_direction_come_of_one_file),
    FACT(sun_and_rain_of_two_files_are_said_to_be),
    EACH(generated_hours_give_the_sky_alone, COUNT(of_months)),
    FACT(longwave_follows_the_air_or_is_said_to_stay),
    EACH(a_year_is_no_more_severe_than_the_mildest_of_its_parts, COUNT(kinds)),
    FACT(the_place_is_that_of_the_sun),
    EACH(places_and_heights_that_differ_are_said, COUNT(places)),
    FACT(a_direction_of_wind_stays_in_a_short_gap),
    FACT(gaps_are_counted_by_how_they_are_filled),
    FACT(the_middle_of_a_long_gap_is_of_the_day_before),
    FACT(gaps_of_more_than_three_days_or_without_days_beside_are_refused),
    FACT(a_tenth_of_a_year_may_be_missing),
    FACT(a_record_is_written_in_these_lines),
    FACT(a_record_is_described_in_these_lines))
