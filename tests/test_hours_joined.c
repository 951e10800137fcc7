/* Records made by hand and joined: which part gives what, what is said of it,
 * and the ends of distances and heights (docs/climate.md). Distances on a
 * sphere of 6371 km are worked by hand; sentences are the program's own
 * (regression values as to wording). */

#include "joined_case.h"

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
    ("Not told where both air.csv and sun.csv lie: that they are near each "
     "other is assumed"),
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

/* ---- what the joined one is ---- */

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

SUITE_AROUND("hours_joined", setup, teardown,
             FACT(a_join_tells_its_parts_in_order),
             FACT(one_file_is_made_and_a_useless_one_gives_nothing),
             FACT(without_temperature_and_humidity_nothing_is_made),
             FACT(temperature_and_humidity_come_of_one_file),
             FACT(direct_and_diffuse_sun_come_of_one_file),
             FACT(rain_wind_and_direction_come_of_one_file),
             FACT(sun_and_rain_of_two_files_are_said_to_be),
             EACH(generated_hours_give_the_sky_alone, COUNT(of_months)),
             FACT(longwave_follows_the_air_or_is_said_to_stay),
             EACH(a_year_is_no_more_severe_than_the_mildest_of_its_parts,
                  COUNT(kinds)),
             FACT(the_place_is_that_of_the_sun),
             EACH(places_and_heights_that_differ_are_said, COUNT(places)))
