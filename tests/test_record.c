/* Records joined, their gaps filled, and written as a climate that reads back.
 */

#include "record_case.h"
#include "suite.h"

static const bw_record_options nothing;

static bw_record *joined(const bw_record *const *part, size_t count)
{
    bw_record *record = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_record_join(&record, part, count, &err) == BW_OK, "%s",
                  err.message);
    return record;
}

static void join_refused(const bw_record *part, long line, const char *words)
{
    bw_record *record = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_record_join(&record, &part, 1, &err), BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, words) != NULL, "'%s' not in '%s'", words,
                  err.message);
    ck_assert_int_eq(err.line, line);
    ck_assert_ptr_null(record);
}

/* Temperature is the hour of the day. */
static bw_record *with_gap(int gap, int length)
{
    return good_hours(own_hours("relative_humidity_pct", "80", gap, length),
                      &nothing);
}

/* ---- gaps ---------------------------------------------------------------- */

START_TEST(three_hours_are_filled_on_a_line)
{
    bw_record *part = with_gap(1000, 3),
              *record = joined((const bw_record *[]){part}, 1);
    /* hour 1000 is the 16th of its day: 15 before, 19 after */
    for (int i = -1; i < 4; i++)
        ck_assert_double_eq_tol(record->value[BW_RECORD_TEMPERATURE][1000 + i],
                                16.0 + i, 1e-12);
    ck_assert(has_note(record, "temperature, 3 h in 1 gap, between their"));
    bw_record_free(record);
    bw_record_free(part);
}
END_TEST

START_TEST(four_hours_to_three_days_are_those_of_the_days_beside)
{
    for (int length = 4; length <= 72; length += 34) {
        bw_record *part = with_gap(1000, length),
                  *record = joined((const bw_record *[]){part}, 1);
        for (int h = 0; h < HOURS; h++)
            ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][h],
                                h % 24);
        ck_assert(has_note(record, "by the same hours of the days before and"));
        bw_record_free(record);
        bw_record_free(part);
    }
}
END_TEST

/* The first half is the day before, the second the day after: a step in the
 * middle of the gap, where the years' halves meet. */
START_TEST(the_first_half_of_a_gap_is_the_day_before)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct\n");
    for (int h = 0; h < HOURS; h++)
        if (h < 4800 || h >= 4824) {
            add_time(&text, h);
            add(&text, ",%d,80\n", h < 4800 ? 5 : 15);
        }
    bw_record *part = good_hours(text.at, &nothing),
              *record = joined((const bw_record *[]){part}, 1);
    for (int h = 4800; h < 4824; h++)
        ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][h],
                            h < 4812 ? 5.0 : 15.0);
    bw_record_free(record);
    bw_record_free(part);
}
END_TEST

START_TEST(a_gap_across_the_new_year_is_one_gap)
{
    bw_record *part = with_gap(HOURS - 2, 2);
    bw_record *record = joined((const bw_record *[]){part}, 1);
    /* 21 at 21:00, 0 at 00:00 */
    ck_assert_double_eq_tol(record->value[BW_RECORD_TEMPERATURE][HOURS - 2],
                            14.0, 1e-12);
    ck_assert_double_eq_tol(record->value[BW_RECORD_TEMPERATURE][HOURS - 1],
                            7.0, 1e-12);
    bw_record_free(record);
    bw_record_free(part);
}
END_TEST

/* The last row before the gap is line 3 + 1000. */
START_TEST(a_longer_gap_is_refused_with_the_row_before_it)
{
    bw_record *part = with_gap(1000, 73);
    join_refused(part, 1003,
                 "no value for 73 hours from Feb 11 16:00 (UTC) on");
    bw_record_free(part);
}
END_TEST

START_TEST(more_than_a_tenth_of_a_year_is_not_filled)
{
    struct text text = {0};
    add(&text, "time,temperature_C,relative_humidity_pct,rain_mm\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",5,80,%s\n", h % 9 == 0 ? "" : "0");
    }
    bw_record *part = good_hours(text.at, &nothing);
    join_refused(part, 0, "rain: 974 hours of the year are missing; up to 876");
    bw_record_free(part);
}
END_TEST

/* ---- joining ------------------------------------------------------------- */

static bw_record *station(void)
{
    return good_hours(own_hours("relative_humidity_pct,wind_m_s,wind_from_deg,"
                                "rain_mm",
                                "90,7,250,0.5", 0, 0),
                      &nothing);
}

static bw_record *typical_year(void)
{
    struct text text = {0};
    add(&text, "# latitude: 53\n# longitude: 9\n# kind: typical-year\n"
               "time,temperature_C,relative_humidity_pct,direct_normal_W_m2,"
               "diffuse_horizontal_W_m2,longwave_down_W_m2,wind_m_s,pressure_Pa"
               "\n");
    for (int h = 0; h < HOURS; h++) {
        add_time(&text, h);
        add(&text, ",20,50,%d,%d,300,2,98000\n", h % 24 == 12 ? 600 : 0, h % 7);
    }
    return good_hours(text.at, &nothing);
}

START_TEST(each_quantity_comes_from_the_first_that_has_it)
{
    bw_record *part[] = {station(), typical_year()};
    bw_record *record = joined((const bw_record *const *)part, 2);
    double direct = 0.0, diffuse = 0.0;
    for (int h = 0; h < HOURS; h++) {
        ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][h], h % 24);
        ck_assert_double_eq(record->value[BW_RECORD_HUMIDITY][h], 90.0);
        ck_assert_double_eq(record->value[BW_RECORD_WIND][h], 7.0);
        ck_assert_double_eq(record->value[BW_RECORD_RAIN][h], 0.5);
        direct += record->value[BW_RECORD_DIRECT][h];
        diffuse += record->value[BW_RECORD_DIFFUSE][h];
    }
    /* the typical year's sun, all of it: 365 hours; 1251 weeks of hours and 3
     */
    ck_assert_double_eq(direct, 365.0 * 600.0);
    ck_assert_double_eq(diffuse, 1251.0 * 21.0 + 0.0 + 1.0 + 2.0);
    ck_assert_double_eq(record->value[BW_RECORD_PRESSURE][0], 98000.0);
    ck_assert_int_eq(record->year_kind, BW_YEAR_TYPICAL);
    ck_assert_double_eq(record->latitude, 53.0); /* the sun's place */
    ck_assert(
        has_note(record, "Sun and rain are joined by month, day and hour"));
    ck_assert(has_note(record, "km from each other"));
    bw_record_free(record);
    bw_record_free(part[0]);
    bw_record_free(part[1]);
}
END_TEST

/* The other way round air and sun are the typical year's, but its wind is not
 * that of the rain. */
START_TEST(rain_keeps_the_wind_that_drives_it)
{
    bw_record *part[] = {typical_year(), station()};
    bw_record *record = joined((const bw_record *const *)part, 2);
    ck_assert_double_eq(record->value[BW_RECORD_TEMPERATURE][5], 20.0);
    ck_assert_double_eq(record->value[BW_RECORD_WIND][5], 7.0);
    ck_assert_double_eq(record->value[BW_RECORD_WIND_FROM][5], 250.0);
    /* longwave beside its own air stays */
    ck_assert_double_eq(record->value[BW_RECORD_LONGWAVE][5], 300.0);
    bw_record_free(record);
    bw_record_free(part[0]);
    bw_record_free(part[1]);
}
END_TEST

/* 300 W/m2 at 20 degC is an emissivity of 300 / (5.670374e-8 x 293.15^4) =
 * 0.7164; at 5 degC that is 0.7164 x 339.4 = 243.1 W/m2. */
START_TEST(longwave_keeps_the_emissivity_of_its_sky)
{
    bw_record *part[] = {station(), typical_year()};
    bw_record *record = joined((const bw_record *const *)part, 2);
    ck_assert_double_eq_tol(record->value[BW_RECORD_LONGWAVE][5], 243.1, 0.1);
    ck_assert(has_note(record, "Longwave keeps the sky's emissivity"));
    bw_record_free(record);
    bw_record_free(part[0]);
    bw_record_free(part[1]);
}
END_TEST

static const char months[] =
    "# latitude: 52\n# longitude: 5\n"
    "month,temperature_C,relative_humidity_pct,global_horizontal_W_m2,rain_mm,"
    "wind_m_s\n"
    "1,2,88,30,70,4\n2,3,85,55,50,4\n3,6,80,100,60,4\n4,9,75,160,40,4\n"
    "5,13,74,200,60,4\n6,16,75,215,65,4\n7,18,76,205,80,4\n8,18,78,175,80,4\n"
    "9,15,82,125,70,4\n10,11,85,75,75,4\n11,6,88,38,75,4\n12,3,89,24,75,4\n";

START_TEST(months_give_their_sun_and_nothing_else)
{
    bw_record *part[] = {
        good_hours(own_hours("relative_humidity_pct", "80", 0, 0), &nothing),
        good_hours(strdup(months), &nothing)};
    bw_record *record = joined((const bw_record *const *)part, 2);
    ck_assert_ptr_nonnull(record->value[BW_RECORD_DIRECT]);
    ck_assert_ptr_nonnull(record->value[BW_RECORD_LONGWAVE]);
    ck_assert_ptr_null(record->value[BW_RECORD_RAIN]);
    ck_assert_ptr_null(record->value[BW_RECORD_WIND]);
    bw_record_free(record);
    join_refused(part[1], 0, "no file has hours of both temperature and");
    bw_record_free(part[0]);
    bw_record_free(part[1]);
}
END_TEST

/* ---- writing ------------------------------------------------------------- */

static bool collect(void *payload, const char *bytes, size_t length)
{
    struct text *text = payload;
    if (text->room - text->used < length + 1) {
        text->room = 2 * text->room + length + 1;
        text->at = realloc(text->at, text->room);
    }
    memcpy(text->at + text->used, bytes, length);
    text->used += length;
    text->at[text->used] = '\0';
    return true;
}

static bool full(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    (void)bytes;
    (void)length;
    return false;
}

START_TEST(what_is_written_reads_back_as_a_climate)
{
    bw_record *part[] = {station(), typical_year()};
    bw_record *record = joined((const bw_record *const *)part, 2);
    struct text text = {0};
    bw_error err = {0};
    ck_assert_int_eq(bw_record_write(record, collect, &text, &err), BW_OK);
    bw_climate *climate = read_good(text.at);
    ck_assert_uint_eq(climate->note_count, 0);
    ck_assert_int_eq(climate->year_kind, BW_YEAR_TYPICAL);
    ck_assert_double_eq(climate->latitude, 53.0);
    ck_assert_double_eq(climate->time_offset, 0.5);
    ck_assert(climate->columns.solar && climate->columns.longwave &&
              climate->columns.wind_from && climate->columns.rain);
    for (int h = 0; h < HOURS; h++) {
        const bw_climate_hour *hour = &climate->hour[h];
        ck_assert_double_eq(hour->temperature, h % 24);
        ck_assert_double_eq(hour->direct_normal, h % 24 == 12 ? 600.0 : 0.0);
        ck_assert_double_eq(hour->rain, 0.5);
    }
    ck_assert_int_eq(bw_record_write(record, full, NULL, &err), BW_ERR_IO);
    bw_climate_free(climate);
    free(text.at);
    bw_record_free(record);
    bw_record_free(part[0]);
    bw_record_free(part[1]);
}
END_TEST

START_TEST(a_record_in_words_says_what_is_there_and_what_is_missing)
{
    bw_record *part = with_gap(1000, 5);
    struct text text = {0};
    bw_error err = {0};
    ck_assert_int_eq(bw_record_describe(part, collect, &text, &err), BW_OK);
    ck_assert_ptr_nonnull(
        strstr(text.at, "; 5 hours missing, at most 5 in a row\n"));
    ck_assert_ptr_nonnull(strstr(text.at, "missing   rain: no driving rain"));
    ck_assert_ptr_null(strstr(text.at, "missing   temperature"));
    free(text.at);
    bw_record_free(part);
}
END_TEST

/* Rain of one file and wind of another are not of the same weather. */
START_TEST(rain_and_wind_of_two_files_are_said_to_be)
{
    static const char says[] = "Rain and wind are joined";
    bw_record *both = good_hours(
        own_hours("relative_humidity_pct,rain_mm,wind_m_s", "80,0,3", 0, 0),
        &nothing);
    bw_record *rain = good_hours(
        own_hours("relative_humidity_pct,rain_mm", "80,0", 0, 0), &nothing);
    bw_record *wind = good_hours(
        own_hours("relative_humidity_pct,wind_m_s", "80,3", 0, 0), &nothing);
    bw_record *one = joined((const bw_record *[]){both}, 1);
    bw_record *two = joined((const bw_record *[]){rain, wind}, 2);
    bw_record *dry = joined((const bw_record *[]){wind}, 1);
    ck_assert(!has_note(one, says));
    ck_assert(has_note(two, says));
    ck_assert(!has_note(dry, says));
    bw_record *const all[] = {both, rain, wind, one, two, dry};
    for (size_t k = 0; k < COUNT(all); k++)
        bw_record_free(all[k]);
}
END_TEST

SUITE("records", FACT(rain_and_wind_of_two_files_are_said_to_be),
      FACT(three_hours_are_filled_on_a_line),
      FACT(four_hours_to_three_days_are_those_of_the_days_beside),
      FACT(the_first_half_of_a_gap_is_the_day_before),
      FACT(a_gap_across_the_new_year_is_one_gap),
      FACT(a_longer_gap_is_refused_with_the_row_before_it),
      FACT(more_than_a_tenth_of_a_year_is_not_filled),
      FACT(each_quantity_comes_from_the_first_that_has_it),
      FACT(rain_keeps_the_wind_that_drives_it),
      FACT(longwave_keeps_the_emissivity_of_its_sky),
      FACT(months_give_their_sun_and_nothing_else),
      FACT(what_is_written_reads_back_as_a_climate),
      FACT(a_record_in_words_says_what_is_there_and_what_is_missing))
