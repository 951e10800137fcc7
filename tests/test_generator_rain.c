/* Rain and wind of hours made from monthly means, beside two measured wet
 * years of the Atlantic coast (Malin Head and Valentia 2017; rain, wind and
 * its direction by the hour). */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate_help.h"
#include "suite.h"

#define RADIANS (3.14159265358979323846 / 180.0)
#define KNOT 0.514444 /* m/s, by definition 1852 m/h */

static bw_climate *generated(const bw_climate *monthly)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_climate_generate(&climate, monthly, &err) == BW_OK, "%s",
                  err.message);
    return climate;
}

/* The station's columns time,temp,rhum,rain,msl,wdsp,wddir in our own; what is
 * missing is as in the hour before. NULL where the file is absent. */
static bw_climate *measured(const char *station)
{
    char path[512], name[128], line[256];
    snprintf(name, sizeof name, "hourly_2017/%s_2017.csv", station);
    if (!shared_file(path, sizeof path, name))
        return NULL;
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    ck_assert_ptr_nonnull(fgets(line, sizeof line, file));
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm,wind_m_s,"
               "wind_from_deg\n");
    double value[6] = {0};
    while (fgets(line, sizeof line, file) != NULL) {
        char *at = strchr(line, ',');
        ck_assert_ptr_nonnull(at);
        for (int k = 0; k < 6; k++) {
            char *end = NULL;
            double read = strtod(at + 1, &end);
            if (end != at + 1)
                value[k] = read;
            at = end;
        }
        add(&text, "%.17s,%g,%g,%g,%.4f,%g\n", line, value[0], value[1],
            value[2], KNOT * value[4], value[5]);
    }
    fclose(file);
    bw_climate *climate = read_good(text.at);
    free(text.at);
    return climate;
}

/* Rain on a wall of the open, 0.2 v cos(D) r, over the year [kg/m2]. */
static double driven(const bw_climate *climate, double azimuth)
{
    double sum = 0.0;
    for (int h = 0; h < HOURS; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        sum += 0.2 * hour->wind * hour->rain *
               fmax(cos((hour->wind_from - azimuth) * RADIANS), 0.0);
    }
    return sum;
}

static double wettest_day(const bw_climate *climate)
{
    double most = 0.0, day = 0.0;
    for (int h = 0; h < HOURS; h++) {
        day = climate->hour[h].rain + (h % 24 == 0 ? 0.0 : day);
        most = fmax(most, day);
    }
    return most;
}

static const char *const station[] = {"malin_head", "valentia_observatory"};

START_TEST(the_reader_finds_the_driving_rain_of_a_measured_year)
{
    /* Computed with another program from the same file. */
    static const double wanted[2][BW_FACINGS] = {
        {321, 284, 410, 569, 831, 1024, 945, 586},
        {234, 152, 366, 979, 1321, 1141, 678, 431}};
    bw_climate *year = measured(station[_i]);
    if (year == NULL)
        return;
    for (int f = 0; f < BW_FACINGS; f++)
        ck_assert_double_eq_tol(driven(year, 45.0 * f), wanted[_i][f], 1.0);
    bw_climate_free(year);
}
END_TEST

START_TEST(hours_from_the_months_of_a_year_drive_its_rain_against_every_wall)
{
    bw_climate *year = measured(station[_i]);
    if (year == NULL)
        return;
    bw_climate *hours = generated(year);
    for (int f = 0; f < BW_FACINGS; f++) {
        double is = driven(year, 45.0 * f), made = driven(hours, 45.0 * f);
        if (is > 100.0)
            ck_assert_double_eq_tol(made / is, 1.0, 0.25);
    }
    ck_assert_double_eq_tol(wettest_day(hours) / wettest_day(year), 1.0,
                            1.0 / 3.0);
    bw_climate_free(hours);
    bw_climate_free(year);
}
END_TEST

START_TEST(
    months_that_tell_rain_and_wind_alone_give_a_usual_rose_and_heavy_days)
{
    /* What the walls turned to the rain get is within a third, the lee side
     * is not dry, and the wettest day is within a factor of 2. */
    bw_climate *year = measured(station[_i]);
    if (year == NULL)
        return;
    year->has_prevailing_wind = true;
    year->prevailing_wind = _i == 0 ? 226.0 : 196.0;
    for (int m = 0; m < BW_MONTHS; m++)
        year->month[m].has_rain_wind = year->month[m].has_wettest_day =
            year->month[m].has_rain_rose = false;
    bw_climate *hours = generated(year);
    ck_assert_ptr_nonnull(note_with(hours, "usual rose"));
    double all_is = 0.0, all_made = 0.0;
    for (int f = 0; f < BW_FACINGS; f++) {
        double is = driven(year, 45.0 * f), made = driven(hours, 45.0 * f);
        if (is > 500.0)
            ck_assert_double_eq_tol(made / is, 1.0, 0.34);
        ck_assert_double_gt(made, 0.5 * is);
        all_is += is;
        all_made += made;
    }
    ck_assert_double_eq_tol(all_made / all_is, 1.0, 0.2);
    ck_assert_double_eq_tol(log(wettest_day(hours) / wettest_day(year)), 0.0,
                            log(2.0));
    bw_climate_free(hours);
    bw_climate_free(year);
}
END_TEST

#define RAIN_HEADER "month,temperature_C,relative_humidity_pct,wind_m_s,rain_mm"
#define ROSE_HEADER                                                            \
    ",rain_from_N_pct,rain_from_NE_pct,rain_from_E_pct,rain_from_SE_pct,"      \
    "rain_from_S_pct,rain_from_SW_pct,rain_from_W_pct,rain_from_NW_pct"

/* Twelve rows of months with the same columns behind the first five. */
static char *months_of_rain(const char *header, const char *more)
{
    struct text text = {0};
    add(&text, "%s\n", header);
    for (int m = 1; m <= 12; m++)
        add(&text, "%d,8,82,5,90%s\n", m, more);
    return text.at;
}

START_TEST(what_the_months_tell_of_rain_is_met)
{
    char *text = months_of_rain(RAIN_HEADER
                                ",rain_wind_m_s,wettest_day_mm" ROSE_HEADER,
                                ",6.5,27,0,0,10,0,50,40,0,0");
    bw_climate *monthly = read_good(text), *hours = generated(monthly);
    free(text);
    ck_assert(hours->columns.wind_from && hours->columns.rain);
    ck_assert_ptr_null(note_with(hours, "usual rose"));
    for (int m = 0; m < BW_MONTHS; m++) {
        double rain = 0.0, wind = 0.0, by_octant[BW_FACINGS] = {0.0};
        double day = 0.0, most = 0.0, drive = 0.0;
        int first = 24 * FIRST_DAY[m], end = 24 * FIRST_DAY[m + 1];
        for (int h = first; h < end; h++) {
            const bw_climate_hour *hour = &hours->hour[h];
            day = hour->rain + (h % 24 == 0 ? 0.0 : day);
            most = fmax(most, day);
            rain += hour->rain;
            wind += hour->wind / (end - first);
            drive += hour->rain * hour->wind;
            by_octant[(int)(hour->wind_from / 45.0 + 0.5) % BW_FACINGS] +=
                hour->rain * hour->wind;
        }
        ck_assert_double_eq_tol(rain, 90.0, 1e-9);
        ck_assert_double_eq_tol(wind, 5.0, 1e-9);
        ck_assert_double_eq_tol(drive / rain, 6.5, 1e-9);
        ck_assert_double_eq_tol(most, 27.0, 1e-6);
        for (int f = 0; f < BW_FACINGS; f++)
            ck_assert_double_eq_tol(by_octant[f] / drive,
                                    monthly->month[m].rain_rose[f], 0.08);
    }
    bw_climate_free(hours);
    bw_climate_free(monthly);
}
END_TEST

START_TEST(rain_without_any_direction_is_told)
{
    char *text = months_of_rain(RAIN_HEADER, "");
    bw_climate *monthly = read_good(text), *hours = generated(monthly);
    free(text);
    ck_assert(hours->columns.wind && hours->columns.rain &&
              !hours->columns.wind_from);
    ck_assert_ptr_nonnull(note_with(hours, "no direction"));
    bw_climate_free(hours);
    bw_climate_free(monthly);
}
END_TEST

static const struct {
    const char *header, *more;
    long line;
    const char *words;
} refused[] = {
    {RAIN_HEADER ",rain_from_N_pct", ",100", 1, "the file has 1 of 8"},
    {RAIN_HEADER ROSE_HEADER, ",10,10,10,10,10,10,10,10", 2, "sum is 80"},
    {RAIN_HEADER ",wettest_day_mm", ",91", 2, "cannot be the wettest"},
    {RAIN_HEADER ",wettest_day_mm", ",2.8", 2, "cannot be the wettest"},
    {RAIN_HEADER ",rain_wind_m_s", ",41", 2, "lies outside 0 to 40 m/s"},
    {RAIN_HEADER ",rain_wind_ms", ",4", 1, "did you mean 'rain_wind_m_s'"},
};

START_TEST(what_rain_cannot_be_is_refused)
{
    char *text = months_of_rain(refused[_i].header, refused[_i].more);
    expect_refused(text, refused[_i].line, refused[_i].words);
    free(text);
}
END_TEST

SUITE(
    "generator_rain",
    EACH(the_reader_finds_the_driving_rain_of_a_measured_year, 2),
    EACH(hours_from_the_months_of_a_year_drive_its_rain_against_every_wall, 2),
    EACH(months_that_tell_rain_and_wind_alone_give_a_usual_rose_and_heavy_days,
         2),
    FACT(what_the_months_tell_of_rain_is_met),
    FACT(rain_without_any_direction_is_told),
    EACH(what_rain_cannot_be_is_refused, COUNT(refused)))
