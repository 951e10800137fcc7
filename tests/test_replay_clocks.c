/* From when on the clock of a record is doubted, from both sides. Outdoor air
 * is warmest 2 to 3 hours after the sun is highest (common knowledge, no
 * source); the other limits are common practice without one. */

#include "replay_record.h"

/* ---- clocks ---------------------------------------------------------------
 */

static bool notes(const char *words)
{
    bool found = false;
    for (size_t i = 0; i < replay->note_count; i++)
        found = found || strstr(replay->note[i], words) != NULL;
    return found;
}

/* Three hours off are told, of a harmonic of 1 K and more, in a week behind the
 * run-in and more. */
static const struct clock_row {
    double behind, swing;
    int hours;
    bool doubted, told;
} clock_rows[] = {
    {2.9, 4.0, HOURS, false, true},   {3.1, 4.0, HOURS, true, true},
    {-2.9, 4.0, HOURS, false, true},  {-3.1, 4.0, HOURS, true, true},
    {11.5, 4.0, HOURS, true, true},   {-11.5, 4.0, HOURS, true, true},
    {8.0, 1.05, HOURS, true, true},   {8.0, 0.95, HOURS, false, false},
    {8.0, 4.0, 48 + 168, true, true}, {8.0, 4.0, 48 + 167, false, false},
    {0.0, 4.0, HOURS, false, true},   {21.2, 4.0, HOURS, false, true},
};

START_TEST(a_clock_is_told_from_three_hours_on)
{
    const struct clock_row *row = &clock_rows[_i];
    record_of r = sound;
    r.behind = row->behind;
    r.swing[2] = row->swing;
    run_with(OUTER INNER, ROOM "," OUTDOOR, r, &somewhere, row->hours);
    ck_assert_int_eq(is_doubted(BW_DOUBT_ZONE), row->doubted);
    ck_assert_int_eq(notes("clock agrees with the sun"),
                     row->told && !row->doubted);
    ck_assert_int_eq(notes("cannot be told: too short"), !row->told);
    if (row->doubted) {
        char words[64];
        snprintf(words, sizeof words, "clock %.0f h %s", fabs(row->behind),
                 row->behind > 0.0 ? "ahead" : "behind");
        for (size_t i = 0; i < replay->doubt_count; i++)
            if (replay->doubt[i].kind == BW_DOUBT_ZONE)
                has(replay->doubt[i].message, words);
    }
}
END_TEST

/* The hours of a climate say when its air is warmest, in the months of the
 * record: here in January in the evening, and in the morning else. */
START_TEST(hours_of_the_same_months_tell_when_air_is_warmest)
{
    static bw_climate_hour hour[8760];
    static const struct {
        double january, swing, behind;
        bool doubted;
    } rows[] = {
        {20.0, 5.0, 6.5, false}, /* 13.5 + 6.5 */
        {20.0, 5.0, 3.7, false}, {20.0, 5.0, 3.3, true}, {20.0, 5.0, 0.0, true},
        {20.0, 0.9, 0.0, false}, /* hardly varies: the sun is asked */
        {20.0, 0.9, 6.5, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_climate hourly = somewhere;
        record_of r = sound;
        for (int h = 0; h < 8760; h++) {
            const double peak = h < 744 ? rows[i].january : 8.0;
            hour[h] = (bw_climate_hour){
                .temperature = 3.0 + rows[i].swing *
                                         cos(TURN * (h % 24 - peak) / 24.0),
                .vapour_pressure = 600.0,
                .pressure = 101325.0};
        }
        hourly.kind = BW_CLIMATE_HOURLY;
        hourly.hour_count = 8760;
        hourly.hour = hour;
        r.behind = rows[i].behind;
        run_with(OUTER INNER, ROOM "," OUTDOOR, r, &hourly, HOURS);
        ck_assert_msg(is_doubted(BW_DOUBT_ZONE) == rows[i].doubted, "row %zu",
                      i);
    }
}
END_TEST

/* Outdoor air, the room and a cavity behind the outdoor air by some hours. */
static double cavity_value(int hour, int column, void *of)
{
    const int by = *(const int *)of;
    if (column < 4)
        return plain(&sound, hour, column);
    return column == 4 ? 1.0 + 0.8 * plain(&sound, hour - by, 2)
                       : 70.0 + sin(hour * 0.7);
}

START_TEST(a_cavity_goes_with_outdoor_air_or_up_to_three_hours_later)
{
    for (int by = -6; by <= 6; by++) {
        int behind = by;
        bw_error err = {0};
        read_wall(GAP OUTER INNER, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," CAVITY, 0, HOURS, cavity_value,
                  &behind);
        ck_assert_msg(try_replay(&still, &somewhere, &err) == BW_OK, "%s",
                      err.message);
        ck_assert_msg(is_doubted(BW_DOUBT_ZONE) == (by <= -2 || by >= 4),
                      "%d hours", by);
        char words[64];
        snprintf(words, sizeof words, "best %d h %s", abs(by),
                 by < 0 ? "earlier" : "later");
        for (size_t i = 0; i < replay->doubt_count; i++)
            if (replay->doubt[i].kind == BW_DOUBT_ZONE)
                has(replay->doubt[i].message, words);
    }
}
END_TEST

SUITE_AROUND("replay_clocks", open_library, close_library,
             EACH(a_clock_is_told_from_three_hours_on, COUNT(clock_rows)),
             FACT(hours_of_the_same_months_tell_when_air_is_warmest),
             FACT(a_cavity_goes_with_outdoor_air_or_up_to_three_hours_later))
