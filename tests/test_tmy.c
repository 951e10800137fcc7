/* The public typical-year file, made here with what may be odd about it: its
 * header, its columns, the moment at which its radiation holds. */

#include <math.h>

#include "bothways/air.h"
#include "climate_help.h"
#include "suite.h"

#define PLACE                                                                  \
    "Latitude (decimal degrees): 45.000\n"                                     \
    "Longitude (decimal degrees): 8.000\n"
#define HEIGHT "Elevation (m): 250\n"
#define OFFSET "Irradiance Time Offset (h): 0.1761\n"
#define COLUMNS "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n"

/* Beam and diffuse of every hour in which the sun stands above 5 degrees
 * `offset` hours after the full hour; global that closes there. */
typedef struct sunny {
    double offset, beam, miss; /* miss: added to global by day [W/m2] */
    int days;                  /* with sun; 0: all */
} sunny;

static void add_hour(struct text *text, int hour, const sunny *sun)
{
    int day = 0, month = month_of(hour, &day);
    bw_sun at = bw_sun_position(45.0, 8.0, (hour + sun->offset) / 24.0);
    bool up = at.elevation > 5.0 && (sun->days == 0 || hour < 24 * sun->days);
    double beam = up ? sun->beam : 0.0, diffuse = up ? 50.0 : 0.0;
    double above = beam * sin(at.elevation * 3.14159265358979323846 / 180.0);
    add(text, "2005%02d%02d:%02d00,5.0,80.0,%.2f,%.2f,%.2f,280,2.0,300,98000\n",
        month + 1, day, hour % 24, up ? above + diffuse + sun->miss : 0.0, beam,
        diffuse);
}

static char *tmy(const char *head, const sunny *sun)
{
    struct text text = {0};
    add(&text, "%smonth,year\n1,2005\n%s", head, COLUMNS);
    for (int h = 0; h < HOURS; h++)
        add_hour(&text, h, sun);
    add(&text, "\nT2m: 2-m air temperature (degree Celsius)\n"
               "(c) the service, 2001-2023\n");
    return text.at;
}

static bw_climate *read_tmy(const char *head, const sunny *sun)
{
    char *text = tmy(head, sun);
    bw_climate *climate = read_good(text);
    free(text);
    return climate;
}

static const sunny steady = {.offset = 0.0, .beam = 400.0, .miss = 0.0};

START_TEST(the_header_gives_place_height_and_moment)
{
    bw_climate *climate = read_tmy(PLACE HEIGHT OFFSET "Made by: a service\n",
                                   &steady);
    ck_assert_double_eq(climate->latitude, 45.0);
    ck_assert_double_eq(climate->longitude, 8.0);
    ck_assert_double_eq(climate->altitude, 250.0);
    ck_assert_double_eq(climate->time_offset, 0.1761);
    ck_assert_str_eq(climate->place, "latitude 45.000, longitude 8.000");
    ck_assert(climate->columns.solar && climate->columns.pressure &&
              climate->columns.longwave && !climate->columns.rain);
    ck_assert_uint_eq(climate->note_count, 0);
    ck_assert(climate->month[0].has_global);
    bw_climate_free(climate);
}
END_TEST

START_TEST(without_a_latitude_there_is_no_sun_on_a_wall)
{
    bw_climate *climate = read_tmy(HEIGHT, &steady);
    double mean[BW_MONTHS];
    ck_assert(!climate->has_position);
    ck_assert_str_eq(climate->place, "");
    ck_assert(!bw_climate_irradiance(climate, 180.0, 90.0, mean));
    ck_assert_ptr_nonnull(note_with(climate, "no Irradiance Time Offset: 0"));
    ck_assert_double_eq(climate->time_offset, 0.0);
    bw_climate_free(climate);
}
END_TEST

START_TEST(a_latitude_without_a_longitude_is_said)
{
    bw_climate *climate = read_tmy("Latitude (decimal degrees): 45\n" OFFSET,
                                   &steady);
    ck_assert(climate->has_position);
    ck_assert_ptr_nonnull(note_with(climate, "no longitude in the header"));
    ck_assert_str_eq(climate->place, "");
    bw_climate_free(climate);
}
END_TEST

/* ---- the moment found from the file ------------------------------------ */

static const double offsets[] = {0.0, 0.19, 0.5, -0.3, 0.8};

START_TEST(the_moment_at_which_the_radiation_closes_is_found)
{
    const sunny sun = {.offset = offsets[_i], .beam = 400.0};
    bw_climate *climate = read_tmy(PLACE, &sun);
    ck_assert_double_eq_tol(climate->time_offset, offsets[_i], 0.01);
    ck_assert_ptr_nonnull(note_with(climate, "no Irradiance Time Offset: "));
    ck_assert_ptr_nonnull(note_with(climate, "own beam, diffuse and global"));
    bw_climate_free(climate);
}
END_TEST

/* Radiation that closes at no moment, too little beam to tell, and none. */
static const sunny closes_nowhere[] = {
    {.offset = 0.3, .beam = 400.0, .miss = 60.0},
    {.offset = 0.3, .beam = 90.0},
    {.offset = 0.3, .beam = 0.0},
    /* just beyond what is believed: 5 W/m2, beam of 100 W/m2, 100 hours
     * (January has 8 with the sun above 5 degrees a day, at 45 degrees) */
    {.offset = 0.3, .beam = 400.0, .miss = 5.2},
    {.offset = 0.3, .beam = 99.0},
    {.offset = 0.3, .beam = 400.0, .days = 12},
};

/* ... and just within. */
static const sunny closes_barely[] = {
    {.offset = 0.3, .beam = 400.0, .miss = 4.8},
    {.offset = 0.3, .beam = 100.0},
    {.offset = 0.3, .beam = 400.0, .days = 13},
};

START_TEST(radiation_that_barely_closes_tells_its_moment)
{
    bw_climate *climate = read_tmy(PLACE, &closes_barely[_i]);
    ck_assert_double_eq_tol(climate->time_offset, 0.3, 0.02);
    bw_climate_free(climate);
}
END_TEST

START_TEST(radiation_that_does_not_close_tells_no_moment)
{
    bw_climate *climate = read_tmy(PLACE, &closes_nowhere[_i]);
    ck_assert_double_eq(climate->time_offset, 0.0);
    ck_assert_ptr_nonnull(
        note_with(climate, "the sun may stand up to an hour wrong"));
    bw_climate_free(climate);
}
END_TEST

START_TEST(beam_without_global_irradiance_tells_no_moment)
{
    struct text text = {0};
    add(&text, PLACE "time(UTC),T2m,RH,Gb(n),Gd(h)\n");
    for (int h = 0; h < HOURS; h++) {
        int day = 0, month = month_of(h, &day);
        bool up = h % 24 >= 8 && h % 24 < 15;
        add(&text, "2005%02d%02d:%02d00,5,80,%d,50\n", month + 1, day, h % 24,
            up ? 300 : 0);
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_double_eq(climate->time_offset, 0.0);
    ck_assert_ptr_nonnull(note_with(climate, "up to an hour wrong"));
    ck_assert(climate->month[6].has_global);
    ck_assert_double_gt(climate->month[6].global_horizontal, 50.0);
    bw_climate_free(climate);
}
END_TEST

/* ---- refusals ---------------------------------------------------------- */

static const struct {
    const char *head;
    long line;
    const char *words;
} heads[] = {
    {"Longitude (decimal degrees): 8\n", 4, "a longitude but no latitude"},
    {"Latitude (decimal degrees): 95\n", 1, "Latitude: 95 lies outside -90"},
    {"Latitude (decimal degrees):\n", 1, "Latitude: '' is not a number"},
    {PLACE "Latitude (decimal degrees): 46\n", 3,
     "Latitude: given twice; it stands in line 1 too"},
    {PLACE "Elevation (m): sea\n", 3, "Elevation: 'sea' is not a number of m"},
    {PLACE "Irradiance Time Offset (h): 11\n", 3,
     "Irradiance Time Offset: 11 lies outside -1 to 1 h"},
    {PLACE "irradiance time offset: half\n", 3, "'half' is not a number of h"},
};

START_TEST(a_header_that_cannot_be_is_refused)
{
    char *text = tmy(heads[_i].head, &steady);
    expect_refused(text, heads[_i].line, heads[_i].words);
    free(text);
}
END_TEST

static const struct {
    const char *text;
    long line;
    const char *words;
} tables[] = {
    {"time(UTC),RH\n20050101:0000,80\n", 1, "no column 'T2m'"},
    {"time(UTC),T2m\n20050101:0000,5\n", 1, "no column 'RH'"},
    {"time(UTC),T2m,RH,Gb(n)\n20050101:0000,5,80,0\n", 1,
     "'Gb(n)' and 'Gd(h)' are of use together only; 'Gd(h)' is missing"},
    {"time(UTC),T2m,RH,Gd(h)\n20050101:0000,5,80,0\n", 1, "'Gb(n)' is missing"},
    {"time(UTC),T2m,T2m,RH\n", 1, "column 'T2m' appears twice"},
    {"time(UTC),T2m,RH\n20050101:0000,x,80\n", 2,
     "T2m: 'x' is not a number (-90 to 60 degC)"},
    {"time(UTC),T2m,RH\n20050101:0000,5,180\n", 2,
     "RH: 180 lies outside 0 to 100 %"},
    {"time(UTC),T2m,RH\n20050101:0000,280,80\n", 2, "is it in kelvin?"},
    {"time(UTC),T2m,RH\n2005-01-01 00:30,5,80\n", 2, "is not on the hour"},
    {"time(UTC),T2m,RH\nnotes alone\n", 2, "no hours below the header row"},
    {"time(UTC),a,b,c,d,e,f,g,h,i,j,k,l,m,n,o,p,q,r,s,t,u,v,w,x,y,z,a,b,c,d,e,"
     "f,g,h,i,j,k,l,m,n,o,p,q,r,s,t,u,v,w,x,y,z,a,b,c,d,e,f,g,h,i,j,k,l,m\n",
     1, "more than 64 columns"},
};

START_TEST(a_table_that_cannot_serve_is_refused_in_its_own_words)
{
    expect_refused(tables[_i].text, tables[_i].line, tables[_i].words);
}
END_TEST

START_TEST(humidity_as_a_fraction_is_refused)
{
    struct text text = {0};
    add(&text, "time(UTC),T2m,RH\n");
    for (int h = 0; h < HOURS; h++) {
        int day = 0, month = month_of(h, &day);
        add(&text, "2005%02d%02d:%02d00,5,0.8\n", month + 1, day, h % 24);
    }
    expect_refused(text.at, 2, "RH: no value is above 1.05");
    free(text.at);
}
END_TEST

START_TEST(a_column_of_another_kind_is_passed_over_and_said)
{
    struct text text = {0};
    add(&text, "time(UTC),T2m,In\x01t\x7f,RH,relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++) {
        if (h == 50)
            continue;
        int day = 0, month = month_of(h, &day);
        add(&text, "2005%02d%02d:%02d00,5,0,80,7\n", month + 1, day, h % 24);
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_ptr_nonnull(note_with(climate, "column 'In?t?' is not used"));
    ck_assert_ptr_nonnull(note_with(climate, "T2m: 1 missing hour in 1 gap"));
    ck_assert_ptr_nonnull(
        note_with(climate, "column 'relative_humidity_pct' is not used"));
    ck_assert_double_eq_tol(climate->hour[0].vapour_pressure,
                            0.8 * bw_saturation_pressure_water(5.0), 1e-9);
    ck_assert(!climate->columns.solar && !climate->month[0].has_global);
    bw_climate_free(climate);
}
END_TEST

START_TEST(every_column_passed_over_is_said_however_many)
{
    struct text text = {0};
    add(&text, "time(UTC),T2m,RH");
    for (int k = 0; k < 40; k++)
        add(&text, ",other-%d", k);
    add(&text, "\n");
    for (int h = 0; h < HOURS; h++) {
        int day = 0, month = month_of(h, &day);
        add(&text, "2005%02d%02d:%02d00,5,80", month + 1, day, h % 24);
        add(&text, "%s\n", ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,");
    }
    bw_climate *climate = read_good(text.at);
    free(text.at);
    ck_assert_uint_eq(climate->note_count, 40);
    for (int k = 0; k < 40; k++) {
        char words[40];
        snprintf(words, sizeof words, "column 'other-%d' is not used", k);
        ck_assert_str_eq(climate->note[k].message, words);
        ck_assert_int_eq(climate->note[k].line, 1);
    }
    bw_climate_free(climate);
}
END_TEST

SUITE("tmy", FACT(the_header_gives_place_height_and_moment),
      FACT(without_a_latitude_there_is_no_sun_on_a_wall),
      FACT(a_latitude_without_a_longitude_is_said),
      EACH(the_moment_at_which_the_radiation_closes_is_found, COUNT(offsets)),
      EACH(radiation_that_does_not_close_tells_no_moment,
           COUNT(closes_nowhere)),
      EACH(radiation_that_barely_closes_tells_its_moment, COUNT(closes_barely)),
      FACT(beam_without_global_irradiance_tells_no_moment),
      EACH(a_header_that_cannot_be_is_refused, COUNT(heads)),
      EACH(a_table_that_cannot_serve_is_refused_in_its_own_words,
           COUNT(tables)),
      FACT(humidity_as_a_fraction_is_refused),
      FACT(a_column_of_another_kind_is_passed_over_and_said),
      FACT(every_column_passed_over_is_said_however_many))
