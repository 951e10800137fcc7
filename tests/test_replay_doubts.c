/* What is doubtful of a record: a sound one in nothing, and each fault put into
 * it by its name and line. */

#include "has_words.h"
#include "replay_case.h"

/* Noon of the sun, and outdoor air as it goes: coldest in the small hours. */
static const double TURN = 6.283185307179586;

enum { HOURS = 24 * 21, CHANNELS = 3 };

static bw_climate somewhere = {.file = "none.csv",
                               .place = "",
                               .source = "",
                               .licence = "",
                               .remark = "",
                               .kind = BW_CLIMATE_MONTHLY,
                               .has_position = true,
                               .latitude = 50.0,
                               .longitude = 15.0};

/* A fault is put in by changing one value of a sound row. */
typedef double fault(double sound, int hour, int column);

/* Room, outdoors, place; temperature and RH each. Nothing repeats. */
static double sound_value(int hour, int column)
{
    const double day = cos(TURN * (hour - 13.5) / 24); /* 14:30 by the sun */
    const double drift = sin(TURN * hour / 131.0);
    const double value[] = {
        20.0 + 0.5 * day + 0.3 * drift, 45.0 + 3.0 * drift + day,
        2.0 + 4.0 * day + 3.0 * drift,  80.0 - 8.0 * day + 5.0 * drift,
        8.0 + 2.5 * day + 2.0 * drift,  65.0 - 3.0 * day + 4.0 * drift};
    return value[column];
}

static double with_fault(int hour, int column, void *of)
{
    fault *const *put = of;
    const double sound = sound_value(hour, column);
    return *put == NULL ? sound : (*put)(sound, hour, column);
}

/* ---- the faults ------------------------------------------------------------
 */

static double columns_of_the_room(double sound, int hour, int column)
{
    return column > 1 ? sound : sound_value(hour, 1 - column);
}

static double room_and_outdoors(double sound, int hour, int column)
{
    return column > 3 ? sound : sound_value(hour, (column + 2) % 4);
}

static double place_outside(double sound, int hour, int column)
{
    (void)hour;
    return column == 4 ? sound - 15.0 : sound;
}

static double clock_ahead(double sound, int hour, int column)
{
    return column == 2 || column == 3 ? sound_value(hour - 8, column) : sound;
}

static double full_place(double sound, int hour, int column)
{
    return column == 5 && hour >= 200 && hour < 240 ? 100.0 : sound;
}

static double stuck_place(double sound, int hour, int column)
{
    return column == 4 && hour >= 200 && hour < 240 ? 8.0 : sound;
}

static double stuck_humidity(double sound, int hour, int column)
{
    return column == 3 && hour >= 200 && hour < 240 ? 77.0 : sound;
}

static double jump(double sound, int hour, int column)
{
    return column == 4 && hour == 300 ? sound + 12.0 : sound;
}

static double humidity_jump(double sound, int hour, int column)
{
    return column == 5 && hour == 300 ? sound - 40.0 : sound;
}

/* 10 K of frost, nearly saturated over ice: over water that is 91 %. */
static double frost(double sound, int hour, int column)
{
    return column == 2   ? sound - 14.0
           : column == 3 ? 97.0 + 2.0 * sin(TURN * hour / 23.0)
                         : sound;
}

static double frost_over_water(double sound, int hour, int column)
{
    return column == 2   ? sound - 14.0
           : column == 3 ? 80.0 + 2.0 * sin(TURN * hour / 23.0)
                         : sound;
}

static double out_of_order(double sound, int hour, int column)
{
    (void)column;
    return hour >= 200 && hour < 220 ? NAN : sound;
}

static const struct row {
    fault *put;
    bw_doubt_kind kind; /* BW_DOUBT_KINDS: none */
    long line;          /* header is line 1, hour h line h + 2 */
    const char *channel;
} rows[] = {
    {NULL, BW_DOUBT_KINDS, 0, NULL},
    {frost_over_water, BW_DOUBT_KINDS, 0, NULL},
    {columns_of_the_room, BW_DOUBT_SWAPPED_COLUMNS, 2, "room"},
    {room_and_outdoors, BW_DOUBT_SWAPPED_SIDES, 2, "room"},
    {place_outside, BW_DOUBT_NOT_BETWEEN, 2, "place:outer|inner"},
    {clock_ahead, BW_DOUBT_ZONE, 2, "outdoor"},
    {full_place, BW_DOUBT_SATURATED, 202, "place:outer|inner"},
    {stuck_place, BW_DOUBT_STUCK, 202, "place:outer|inner"},
    {stuck_humidity, BW_DOUBT_STUCK, 202, "outdoor"},
    {jump, BW_DOUBT_JUMP, 302, "place:outer|inner"},
    {humidity_jump, BW_DOUBT_JUMP, 302, "place:outer|inner"},
    {frost, BW_DOUBT_ICE, 0, "outdoor"},
    {out_of_order, BW_DOUBT_GAP, 202, NULL},
};

#define LAYERS                                                                 \
    "<layer id=\"outer\" material=\"stone-wool-batt\" thickness=\"60 mm\"/>"   \
    "<layer id=\"inner\" material=\"stone-wool-batt\" thickness=\"100 mm\"/>"

static void run(const char *columns, record_value *value, void *of)
{
    static const bw_replay_options still = {.run_in = -1, .no_trials = true};
    bw_error err = {0};
    read_wall(LAYERS, NULL, 0);
    write_log("", columns, 0, HOURS, value, of);
    ck_assert_msg(try_replay(&still, &somewhere, &err) == BW_OK, "%s",
                  err.message);
}

START_TEST(each_fault_is_named_with_its_line_and_nothing_else)
{
    const struct row *r = &rows[_i];
    fault *put = r->put;
    run(ROOM "," OUTDOOR "," AT("place:outer|inner"), with_fault, &put);
    bool found = r->kind == BW_DOUBT_KINDS;
    for (size_t i = 0; i < replay->doubt_count; i++) {
        const bw_doubt *d = &replay->doubt[i];
        if (d->kind == r->kind && (r->channel == NULL || d->channel != NULL)) {
            found = true;
            if (r->line > 0)
                ck_assert_msg(d->line == r->line, "line %ld: %s", d->line,
                              d->message);
            if (r->channel != NULL)
                ck_assert_str_eq(d->channel->name, r->channel);
        } else if (r->put == NULL || r->put == frost_over_water) {
            ck_abort_msg("doubted: %s", d->message);
        }
    }
    ck_assert_msg(found, "row %d is not doubted", _i);
}
END_TEST

START_TEST(ice_that_is_stated_is_not_doubted)
{
    static const bw_replay_options still = {.run_in = -1, .no_trials = true};
    bw_error err = {0};
    fault *put = frost;
    read_wall(LAYERS, NULL, 0);
    write_log("# humidity-reference: ice\n", ROOM "," OUTDOOR, 0, HOURS,
              with_fault, &put);
    ck_assert_int_eq(try_replay(&still, &somewhere, &err), BW_OK);
    ck_assert_uint_eq(doubts_of(BW_DOUBT_ICE), 0);
}
END_TEST

/* ---- clocks ----------------------------------------------------------------
 */

/* The harmonic here is exact, so that 3 h lie on the limit. */
static double shifted(int hour, int column, void *of)
{
    return column == 2 ? sound_value(hour - *(const int *)of, column)
                       : sound_value(hour, column);
}

static const int shifts[] = {-11, -8, -6, -5, -4, -2, -1, 0,
                             1,   2,  4,  5,  6,  8,  11};

START_TEST(a_clock_is_told_from_four_hours_on)
{
    int hours = shifts[_i];
    run(ROOM "," OUTDOOR, shifted, &hours);
    ck_assert_msg((doubts_of(BW_DOUBT_ZONE) > 0) == (abs(hours) > 3),
                  "%d hours", hours);
}
END_TEST

/* At another longitude the same hours are another time of day. */
START_TEST(the_sun_is_that_of_the_wall)
{
    int none = 0;
    somewhere.longitude = -105.0;
    run(ROOM "," OUTDOOR, shifted, &none);
    ck_assert_uint_eq(doubts_of(BW_DOUBT_ZONE), 1);
    somewhere.longitude = 15.0;
}
END_TEST

/* A cavity: 0, 1 outdoor temperature and RH follow 2, 3 of the room. */
static double cavity_shifted(int hour, int column, void *of)
{
    const int by = *(const int *)of;
    if (column < 4)
        return sound_value(hour, column);
    return column == 4 ? 1.0 + 0.8 * sound_value(hour - by, 2)
                       : sound_value(hour, 3);
}

START_TEST(a_cavity_does_not_go_before_outdoor_air)
{
    static const struct {
        int hours;
        bool doubted;
    } cavity[] = {{0, false}, {1, false}, {2, false}, {5, true}, {-3, true}};
    int by = cavity[_i].hours;
    bw_error err = {0};
    static const bw_replay_options still = {.run_in = -1, .no_trials = true};
    read_wall("<layer id=\"face\" material=\"brick-facing\" "
              "thickness=\"100 mm\"/><cavity id=\"gap\" thickness=\"30 mm\" "
              "ventilation=\"well\"/>" LAYERS,
              NULL, 0);
    write_log("", ROOM "," OUTDOOR "," CAVITY, 0, HOURS, cavity_shifted, &by);
    ck_assert_int_eq(try_replay(&still, &somewhere, &err), BW_OK);
    ck_assert_msg((doubts_of(BW_DOUBT_ZONE) > 0) == cavity[_i].doubted,
                  "%d hours", by);
}
END_TEST

SUITE_AROUND("replay_doubts", open_library, close_library,
             EACH(each_fault_is_named_with_its_line_and_nothing_else,
                  COUNT(rows)),
             FACT(ice_that_is_stated_is_not_doubted),
             EACH(a_clock_is_told_from_four_hours_on, COUNT(shifts)),
             FACT(the_sun_is_that_of_the_wall),
             EACH(a_cavity_does_not_go_before_outdoor_air, 5))
