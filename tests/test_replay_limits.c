/* Where a record begins to be doubted: each limit of src/replay from both
 * sides. The limits are common practice without a source; the sound record that
 * each row changes is invented. */

#include "replay_record.h"

START_TEST(a_sound_record_is_not_doubted)
{
    run(sound);
    for (size_t i = 0; i < replay->doubt_count; i++)
        ck_abort_msg("%s", replay->doubt[i].message);
    ck_assert(replay->assessed);
}
END_TEST

/* ---- means ----------------------------------------------------------------
 */

static const struct mean_row {
    int column;
    double mean;
    int other;
    double of_other;
    bw_doubt_kind kind;
    bool doubted;
} mean_rows[] = {
    /* hotter than 32 degC and drier than 35 % */
    {0, 32.2, 1, 34.0, BW_DOUBT_SWAPPED_COLUMNS, true},
    {0, 31.8, 1, 34.0, BW_DOUBT_SWAPPED_COLUMNS, false},
    {0, 33.0, 1, 34.8, BW_DOUBT_SWAPPED_COLUMNS, true},
    {0, 33.0, 1, 35.2, BW_DOUBT_SWAPPED_COLUMNS, false},
    /* a place 1 K beyond both sides, 4 and 20 degC */
    {4, 21.1, 5, 50.0, BW_DOUBT_NOT_BETWEEN, true},
    {4, 20.9, 5, 50.0, BW_DOUBT_NOT_BETWEEN, false},
    {4, 2.9, 5, 60.0, BW_DOUBT_NOT_BETWEEN, true},
    {4, 3.1, 5, 60.0, BW_DOUBT_NOT_BETWEEN, false},
};

START_TEST(a_mean_is_doubted_from_its_limit_on)
{
    const struct mean_row *row = &mean_rows[_i];
    record_of r = sound;
    r.mean[row->column] = row->mean;
    r.mean[row->other] = row->of_other;
    run(r);
    ck_assert_int_eq(is_doubted(row->kind), row->doubted);
}
END_TEST

/* Sides stand swapped where the room is 1 K colder and varies as much. */
START_TEST(sides_are_doubted_where_the_room_is_colder_and_varies_more)
{
    static const struct {
        double room, swing;
        bool doubted;
    } rows[] = {{9.1, 4.2, false},
                {8.9, 4.2, true},
                {8.9, 3.8, false},
                {20.0, 6.0, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        record_of r = sound;
        r.mean[2] = 10.0;
        r.mean[0] = rows[i].room;
        r.swing[0] = rows[i].swing;
        run(r);
        ck_assert_msg(is_doubted(BW_DOUBT_SWAPPED_SIDES) == rows[i].doubted,
                      "row %zu", i);
    }
}
END_TEST

/* ---- runs -----------------------------------------------------------------
 */

/* So many readings are one hour less. Of outside air three days count, of all
 * else one; of a sensor of coarse steps three. */
static const struct run_row {
    const char *name;
    int column, readings;
    double value, grain;
    bw_doubt_kind kind;
    bool doubted;
} run_rows[] = {
    {"saturated place", 5, 24, 99.6, 0.0, BW_DOUBT_SATURATED, false},
    {"saturated place", 5, 25, 99.6, 0.0, BW_DOUBT_SATURATED, true},
    {"nearly saturated", 5, 40, 99.4, 0.0, BW_DOUBT_SATURATED, false},
    {"saturated room", 1, 25, 99.6, 0.0, BW_DOUBT_SATURATED, true},
    {"fog", 3, 72, 99.6, 0.0, BW_DOUBT_SATURATED, false},
    {"fog", 3, 73, 99.6, 0.0, BW_DOUBT_SATURATED, true},
    {"place stuck", 4, 24, 9.0, 0.0, BW_DOUBT_STUCK, false},
    {"place stuck", 4, 25, 9.0, 0.0, BW_DOUBT_STUCK, true},
    {"outdoors stuck", 2, 25, 4.0, 0.0, BW_DOUBT_STUCK, true},
    {"steps of 0.3 K", 4, 25, 9.0, 0.3, BW_DOUBT_STUCK, true},
    {"steps of 0.5 K", 4, 72, 9.0, 0.5, BW_DOUBT_STUCK, false},
    {"steps of 0.5 K", 4, 73, 9.0, 0.5, BW_DOUBT_STUCK, true},
    {"humidity stuck", 5, 24, 60.0, 0.0, BW_DOUBT_STUCK, false},
    {"humidity stuck", 5, 25, 60.0, 0.0, BW_DOUBT_STUCK, true},
    {"steps of 0.3 %", 5, 25, 60.0, 0.3, BW_DOUBT_STUCK, true},
    {"steps of 0.5 %", 5, 72, 60.0, 0.5, BW_DOUBT_STUCK, false},
    {"steps of 0.5 %", 5, 73, 60.0, 0.5, BW_DOUBT_STUCK, true},
    {"full is not stuck", 5, 80, 99.6, 0.0, BW_DOUBT_STUCK, false},
    {"nearly full is", 5, 80, 99.4, 0.0, BW_DOUBT_STUCK, true},
};

START_TEST(a_run_is_doubted_from_its_length_on)
{
    const struct run_row *row = &run_rows[_i];
    record_of r = sound;
    r.column = row->column;
    r.hours = row->readings;
    r.value = row->value;
    r.grain = row->grain;
    run(r);
    ck_assert_msg(is_doubted(row->kind) == row->doubted, "%s, %d readings",
                  row->name, row->readings);
    for (size_t i = 0; i < replay->doubt_count; i++)
        if (replay->doubt[i].kind == row->kind) {
            char hours[32];
            snprintf(hours, sizeof hours, "for %d hours", row->readings - 1);
            has(replay->doubt[i].message, hours);
            ck_assert_int_eq(replay->doubt[i].line, FROM + 2);
        }
}
END_TEST

/* Readings up to six hours apart are one run. */
START_TEST(a_run_goes_on_over_a_short_gap)
{
    for (int rows = 5; rows <= 6; rows++) {
        record_of r = sound;
        r.column = 4;
        r.hours = 40;
        r.value = 9.0;
        r.gap[0] = FROM + 20;
        r.gap[1] = FROM + 20 + rows;
        run(r);
        ck_assert_int_eq(is_doubted(BW_DOUBT_STUCK), rows == 5);
    }
}
END_TEST

/* ---- frost ----------------------------------------------------------------
 */

/* At -10 degC air over ice holds 259.9 Pa, over water 286.3 (IAPWS): 90.8 % of
 * it, and what is 3 % more is more than it holds. */
static const struct frost_row {
    int hours;
    double theta, rh;
    double mean; /* of the other hours */
    bool doubted;
} frost_rows[] = {
    {24, -10.0, 94.4, 4.0, true},     {23, -10.0, 94.4, 4.0, false},
    {24, -10.0, 92.6, 4.0, false},    {24, -3.1, 100.9, 4.0, true},
    {24, -2.9, 100.9, 4.0, false}, /* all of it in frost: a third is not */
    {110, -10.0, 94.4, -20.0, false}, {125, -10.0, 94.4, -20.0, true},
};

static double frost_value(int hour, int column, void *of)
{
    const struct frost_row *row = of;
    const bool in = hour >= FROM && hour < FROM + row->hours;
    const double tiny = 0.02 * sin(hour * 1.7);
    if (column == 2)
        return tiny + (in ? row->theta : row->mean);
    if (column == 3)
        return 5.0 * tiny + (in ? row->rh : 60.0);
    return plain(&sound, hour, column);
}

START_TEST(more_than_ice_lets_stand_is_doubted_from_a_day_on)
{
    struct frost_row row = frost_rows[_i];
    bw_error err = {0};
    read_wall(OUTER INNER, NULL, 0);
    write_log("", ROOM "," OUTDOOR, 0, HOURS, frost_value, &row);
    ck_assert_msg(try_replay(&still, &somewhere, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_int_eq(is_doubted(BW_DOUBT_ICE), row.doubted);
}
END_TEST

/* Of readings half an hour apart two are an hour. */
START_TEST(frost_is_counted_in_hours_however_dense_the_readings)
{
    for (int readings = 47; readings <= 48; readings++) {
        bw_error err = {0};
        size_t used = (size_t)snprintf(log_text, sizeof log_text,
                                       "time_utc," ROOM "," OUTDOOR "\n");
        for (int i = 0; i < 2 * HOURS; i++) {
            struct frost_row row = {0, -10.0, 94.4, 4.0, false};
            char day[BW_DAY_TEXT];
            row.hours = i >= 2 * FROM && i < 2 * FROM + readings ? HOURS : 0;
            used += (size_t)snprintf(
                log_text + used, sizeof log_text - used, "%sT%02d:%02dZ",
                bw_day_text(day, bw_day_of("2031-01-01") + i / 48), i / 2 % 24,
                i % 2 * 30);
            for (int k = 0; k < 4; k++)
                used += (size_t)snprintf(
                    log_text + used, sizeof log_text - used, ",%.9g",
                    frost_value(i / 2, k, &row) + 0.01 * (i % 2));
            used += (size_t)snprintf(log_text + used, sizeof log_text - used,
                                     "\n");
        }
        read_wall(OUTER INNER, NULL, 0);
        ck_assert_msg(try_replay(&still, &somewhere, &err) == BW_OK, "%s",
                      err.message);
        ck_assert_int_eq(is_doubted(BW_DOUBT_ICE), readings == 48);
    }
}
END_TEST

/* ---- jumps ----------------------------------------------------------------
 */

static const struct jump_row {
    const char *layers, *columns;
    int column;
    double most; /* K or % */
} jump_rows[] = {
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 0, 10.0},
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 1, 40.0},
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 2, 15.0},
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 3, 60.0},
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 4, 8.0},
    {OUTER INNER, ROOM "," OUTDOOR "," PLACE, 5, 30.0},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("stud:outer|inner"), 4, 8.0},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("stud:outer|inner"), 5, 30.0},
    {GAP OUTER INNER, ROOM "," CAVITY "," PLACE, 2, 20.0},
    {GAP OUTER INNER, ROOM "," CAVITY "," PLACE, 3, 60.0},
};

static void jump_by(const struct jump_row *row, double step, int hours,
                    const int gap[2])
{
    record_of r = sound;
    r.mean[row->column] = row->column % 2 == 0 ? 10.0 : 20.0;
    r.swing[row->column] = 0.0;
    r.column = row->column;
    r.hours = hours;
    r.value = NAN;
    r.step = step;
    r.gap[0] = gap[0];
    r.gap[1] = gap[1];
    run_with(row->layers, row->columns, r, &somewhere, HOURS);
}

static void jump_says(const struct jump_row *row, double step, bool back)
{
    const double from = row->column % 2 == 0 ? 10.0 : 20.0;
    char words[64];
    ck_assert_uint_eq(doubts_of(BW_DOUBT_JUMP), 1);
    snprintf(words, sizeof words, "from %.1f to %.1f %s from", from,
             from + step, row->column % 2 == 0 ? "degC" : "%");
    for (size_t i = 0; i < replay->doubt_count; i++)
        if (replay->doubt[i].kind == BW_DOUBT_JUMP) {
            ck_assert_int_eq(replay->doubt[i].line, FROM + 2);
            has(replay->doubt[i].message, words);
            ck_assert_int_eq(
                strstr(replay->doubt[i].message, ", and 1 times more") != NULL,
                back);
        }
}

START_TEST(a_jump_is_doubted_from_its_height_on)
{
    static const int none[2];
    const struct jump_row *row = &jump_rows[_i];
    const double less = row->column % 2 == 0 ? 0.1 : 0.5;
    jump_by(row, row->most - less, 1, none);
    ck_assert(!is_doubted(BW_DOUBT_JUMP));
    jump_by(row, row->most + less, 1, none);
    jump_says(row, row->most + less, true);
    jump_by(row, row->most + less, 500, none);
    jump_says(row, row->most + less, false);
    if (row->column % 2 == 0) {
        jump_by(row, -row->most - less, 1, none);
        jump_says(row, -row->most - less, true);
    }
}
END_TEST

/* A moisture that the wall gives is where it starts, but not that of a layer
 * outside of the cavity that was measured. */
START_TEST(where_a_wall_starts_is_noted)
{
    static const struct {
        const char *layers, *columns;
        bool given;
    } rows[] = {
#define WET "initial-moisture=\"12 %\""
#define WOOD(id, more)                                                         \
    "<layer id=\"" id "\" material=\"softwood\" thickness=\"20 mm\" " more "/" \
    ">"
        {OUTER INNER, ROOM "," OUTDOOR, false},
        {OUTER INNER WOOD("board", ""), ROOM "," OUTDOOR, false},
        {OUTER INNER WOOD("board", WET), ROOM "," OUTDOOR, true},
        {WOOD("face", WET) "<cavity id=\"gap\" thickness=\"30 mm\" "
                           "ventilation=\"well\"/>" OUTER INNER,
         ROOM "," CAVITY, false},
        {WOOD("face", WET) "<cavity id=\"gap\" thickness=\"30 mm\" "
                           "ventilation=\"well\"/>" OUTER INNER,
         ROOM "," OUTDOOR, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bool given = false, balance = false;
        run_with(rows[i].layers, rows[i].columns, sound, &somewhere, HOURS);
        for (size_t k = 0; k < replay->note_count; k++) {
            given = given || strstr(replay->note[k],
                                    "start with the moisture the wall gives");
            balance = balance ||
                      strstr(replay->note[k], "the wall starts in balance");
        }
        ck_assert_msg(given == rows[i].given && balance == !given, "row %zu",
                      i);
    }
}
END_TEST

/* From one reading to the next, an hour apart and no more; behind the run-in.
 */
START_TEST(what_is_not_measured_between_is_no_jump)
{
    static const int apart[2] = {FROM - 1, FROM}, at_end[2] = {FROM + 200, 999};
    jump_by(&jump_rows[4], 12.0, 500, at_end);
    ck_assert(is_doubted(BW_DOUBT_JUMP));
    jump_by(&jump_rows[4], 12.0, 500, apart);
    ck_assert(!is_doubted(BW_DOUBT_JUMP));
    for (int run_in = FROM; run_in <= FROM + 1; run_in++) {
        const bw_replay_options late = {
            .run_in = run_in, .no_trials = true, .threads = 1};
        record_of r = sound;
        bw_error err = {0};
        r.column = 4;
        r.hours = 500;
        r.value = NAN;
        r.step = 12.0;
        read_wall(OUTER INNER, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," PLACE, 0, HOURS, value_of, &r);
        ck_assert_int_eq(try_replay(&late, NULL, &err), BW_OK);
        ck_assert_int_eq(is_doubted(BW_DOUBT_JUMP), run_in == FROM);
    }
}
END_TEST

/* ---- copies ---------------------------------------------------------------
 */

/* A place that reads the air of a side to a tenth of what loggers tell, 0.05 K
 * and 0.3 % RH, in a day and more. */
typedef struct copy_row {
    int side; /* first column of it */
    double theta, rh;
    int from; /* NAN before it */
    bool copied;
} copy_row;

static const copy_row copies[] = {
    {0, 0.048, 0.28, 0, true},       {0, 0.052, 0.28, 0, false},
    {0, -0.048, -0.28, 0, true},     {0, 0.048, 0.32, 0, false},
    {2, 0.048, 0.28, 0, true},       {2, -0.052, 0.28, 0, false},
    {0, 0.0, 0.0, HOURS - 24, true}, {0, 0.0, 0.0, HOURS - 23, false},
    {0, 0.048, NAN, 0, true},        {0, 0.052, NAN, 0, false},
};

static double copy_value(int hour, int column, void *of)
{
    const copy_row *row = of;
    if (column < 4)
        return plain(&sound, hour, column);
    if (hour < row->from)
        return NAN;
    return plain(&sound, hour, row->side + column - 4) +
           (column == 4 ? row->theta : row->rh);
}

START_TEST(a_copy_is_told_from_a_tenth_of_what_loggers_tell)
{
    copy_row row = copies[_i];
    bw_error err = {0};
    read_wall(OUTER INNER, NULL, 0);
    write_log("", ROOM "," OUTDOOR "," PLACE, 0, HOURS, copy_value, &row);
    ck_assert_msg(try_replay(&still, &somewhere, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_int_eq(is_doubted(BW_DOUBT_COPY), row.copied);
    for (size_t i = 0; i < replay->doubt_count; i++)
        if (replay->doubt[i].kind == BW_DOUBT_COPY)
            has(replay->doubt[i].message, row.side == 0
                                              ? "reads what room reads"
                                              : "reads what outdoor reads");
}
END_TEST

SUITE_AROUND("replay_limits", open_library, close_library,
             FACT(a_sound_record_is_not_doubted),
             EACH(a_mean_is_doubted_from_its_limit_on, COUNT(mean_rows)),
             FACT(sides_are_doubted_where_the_room_is_colder_and_varies_more),
             EACH(a_run_is_doubted_from_its_length_on, COUNT(run_rows)),
             FACT(a_run_goes_on_over_a_short_gap),
             EACH(more_than_ice_lets_stand_is_doubted_from_a_day_on,
                  COUNT(frost_rows)),
             FACT(frost_is_counted_in_hours_however_dense_the_readings),
             EACH(a_jump_is_doubted_from_its_height_on, COUNT(jump_rows)),
             FACT(what_is_not_measured_between_is_no_jump),
             FACT(where_a_wall_starts_is_noted),
             EACH(a_copy_is_told_from_a_tenth_of_what_loggers_tell,
                  COUNT(copies)))
