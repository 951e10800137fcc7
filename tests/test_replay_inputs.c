/* Which input explains a difference: a record made by our own simulation of a
 * wall with one input changed names that input. Own code against itself: it
 * shows that the search finds what was put in, and nothing of buildings. */

#include "has_words.h"
#include "replay_case.h"

static const double TURN = 6.283185307179586;

enum { HOURS = 24 * 60 };

/* Sheathing, insulation, a retarder; its file is unsure of what is moved. */
#define LAYERS                                                                 \
    "<layer id=\"sheathing\" material=\"stone-wool-board\" "                   \
    "thickness=\"60 mm\"/>"                                                    \
    "<layer id=\"bay\" material=\"stone-wool-batt\" thickness=\"160 mm\">"     \
    "<uncertain property=\"lambda\" low=\"0.03 W/(m.K)\" "                     \
    "high=\"0.06 W/(m.K)\"/></layer>"                                          \
    "<membrane id=\"retarder\" name=\"retarder\" sd=\"5 m\">"                  \
    "<uncertain property=\"sd\" low=\"0.2 m\" high=\"20 m\"/></membrane>"      \
    "<layer id=\"lining\" material=\"gypsum-plasterboard\" "                   \
    "thickness=\"12.5 mm\"/>"

#define COLUMNS ROOM "," OUTDOOR "," AT("place:sheathing|bay")

static double air(int hour, int column)
{
    const double day = cos(TURN * (hour - 14.0) / 24);
    const double drift = sin(TURN * hour / 211.0);
    const double value[] = {21.0 + 0.5 * day, 50.0 + 4.0 * drift,
                            1.0 + 3.0 * day + 3.0 * drift,
                            82.0 - 6.0 * day + 5.0 * drift};
    return value[column];
}

/* The place as the replay of the changed wall computed it. */
static double computed(int hour, int column, void *of)
{
    const bw_replay_hour *now = of;
    if (column < 4)
        return air(hour, column);
    if (now == NULL)
        return column == 4 ? 8.0 : 70.0;
    return column == 4 ? now[hour].theta_computed
                       : 100.0 * now[hour].rh_computed;
}

static void make_record(const char *what, const char *value)
{
    static const bw_replay_options still = {.run_in = -1, .no_trials = true};
    static bw_replay_hour hour[HOURS];
    const bw_edit edit = {what, value};
    read_wall(LAYERS, &edit, 1);
    write_log("", COLUMNS, 0, HOURS, computed, NULL);
    for (int i = 0; i < 2; i++) { /* twice: it starts from what is measured */
        run_replay(&still);
        memcpy(hour, replay->place[0].hour, sizeof hour);
        write_log("", COLUMNS, 0, HOURS, computed, hour);
    }
    read_wall(LAYERS, NULL, 0);
}

static const struct changed {
    const char *what, *value;
    const char *layer, *name;
    double was, within; /* in the unit of the trial */
} changes[] = {
    {"retarder.sd", "0.4 m", "retarder", "sd", 0.4, 0.03},
    {"bay.lambda", "0.05 W/(m.K)", "bay", "lambda", 0.05, 0.001},
};

START_TEST(the_input_that_was_changed_explains_the_difference)
{
    const struct changed *c = &changes[_i];
    const bw_replay_options moved = {.run_in = -1, .threads = 1};
    make_record(c->what, c->value);
    run_replay(&moved);
    ck_assert(replay->tried && replay->trial_count > 0);
    ck_assert_msg(replay->suggests, "%s", replay->suggestion);
    const bw_replay_trial *first = &replay->trial[0];
    ck_assert_msg(strcmp(first->layer, c->layer) == 0 &&
                      strstr(first->name, c->name) != NULL,
                  "%s: %s", c->what, replay->suggestion);
    ck_assert_double_lt(first->misfit, replay->misfit);
    NAMES(replay->suggestion, first->words);
    ck_assert_double_eq_tol(first->value, c->was, c->within);
}
END_TEST

START_TEST(a_record_that_agrees_suggests_nothing)
{
    const bw_replay_options moved = {.run_in = -1, .threads = 1};
    make_record("lining.thickness", "12.5 mm");
    run_replay(&moved);
    ck_assert_double_lt(replay->misfit, 0.01);
    ck_assert(!replay->suggests);
}
END_TEST

START_TEST(the_list_does_not_depend_on_threads)
{
    bw_replay_options moved = {.run_in = -1, .threads = 1};
    bw_replay_trial one[64];
    make_record("retarder.sd", "0.4 m");
    run_replay(&moved);
    const size_t count = replay->trial_count;
    ck_assert_uint_le(count, 64);
    char words[64][160];
    for (size_t i = 0; i < count; i++) {
        one[i] = replay->trial[i];
        snprintf(words[i], sizeof words[i], "%s", one[i].words);
    }
    moved.threads = 3;
    run_replay(&moved);
    ck_assert_uint_eq(replay->trial_count, count);
    for (size_t i = 0; i < count; i++) {
        ck_assert(replay->trial[i].misfit == one[i].misfit);
        ck_assert_str_eq(replay->trial[i].words, words[i]);
    }
}
END_TEST

SUITE_AROUND("replay_inputs", open_library, close_library,
             EACH(the_input_that_was_changed_explains_the_difference,
                  COUNT(changes)),
             FACT(a_record_that_agrees_suggests_nothing),
             FACT(the_list_does_not_depend_on_threads))
