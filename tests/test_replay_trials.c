/* How one input is moved to find what explains a record: its ends, the wall as
 * drawn or the middle between them, and three times the lowest point of a
 * parabola, written down a second time from the head of src/replay/trials.c.
 * What each value gives is a replay of the wall read with that value. Which
 * shares count as a change and as an explanation is our own choice (regression
 * values). Own code against itself: nothing of buildings. */

#include "has_words.h"
#include "margin/study.h"
#include "replay_case.h"

static const double TURN = 6.283185307179586;

enum { HOURS = 24 * 3, RUN_IN = 24 };

static const bw_replay_options still = {
    .run_in = RUN_IN, .no_trials = true, .threads = 1};
static const bw_replay_options moved = {.run_in = RUN_IN, .threads = 1};

/* The air outside is outdoor air, or that of a cavity. */
static const char *outer = OUTDOOR;

#define PLACE AT("place:bay|retarder")

/* A board, insulation and a retarder, with what is unsure of the last two. */
static void layers(const char *bay, const char *retarder)
{
    static char text[2048];
    snprintf(text, sizeof text,
             "<layer id=\"board\" material=\"stone-wool-board\" "
             "thickness=\"30 mm\"/><layer id=\"bay\" "
             "material=\"stone-wool-batt\" thickness=\"100 mm\">%s</layer>"
             "<membrane id=\"retarder\" name=\"retarder\" sd=\"5 m\">%s"
             "</membrane>",
             bay, retarder);
    read_wall(text, NULL, 0);
}

static const char *range(const char *property, double low, double high,
                         const char *unit)
{
    static char text[256];
    snprintf(text, sizeof text,
             "<uncertain property=\"%s\" low=\"%.9g %s\" high=\"%.9g %s\"/>",
             property, low, unit, high, unit);
    return text;
}

static double noise; /* K, up and down by turns: no input explains it */

static double computed(int hour, int column, void *of)
{
    const bw_replay_hour *now = of;
    const double day = cos(TURN * (hour - 14.0) / 24);
    const double drift = sin(TURN * hour / 61.0);
    const double air[] = {21.0 + 0.5 * day, 50.0 + 4.0 * drift,
                          1.0 + 3.0 * day + 3.0 * drift,
                          82.0 - 6.0 * day + 5.0 * drift};
    if (column < 4)
        return air[column];
    if (now == NULL)
        return column == 4 ? 8.0 : 70.0;
    return column == 4
               ? now[hour].theta_computed + (hour % 2 == 0 ? noise : -noise)
               : 100.0 * now[hour].rh_computed;
}

static bw_replay_hour hours[HOURS];
static bool has_hours;

static void write_record(void)
{
    char columns[256];
    snprintf(columns, sizeof columns, "%s,%s,%s", ROOM, outer, PLACE);
    write_log("", columns, 0, HOURS, computed, has_hours ? hours : NULL);
}

/* The same, its file sure of all of it. */
#define SURE                                                                   \
    "<layer id=\"board\" material=\"stone-wool-board\" "                       \
    "thickness=\"30 mm\"/><layer id=\"bay\" "                                  \
    "material=\"stone-wool-batt\" thickness=\"100 mm\"/>"                      \
    "<membrane id=\"retarder\" name=\"retarder\" sd=\"5 m\"/>"

/* The record of a wall in which a layer is another; the wall as it is now is
 * drawn. */
static void record_of(const char *what, const char *is)
{
    const bw_edit edit = {what, is};
    const double loud = noise;
    read_wall(SURE, &edit, 1);
    has_hours = false;
    write_record();
    for (int i = 0; i < 2; i++) { /* twice: it starts from what is measured */
        run_replay(&still);
        memcpy(hours, replay->place[0].hour, sizeof hours);
        has_hours = true;
        noise = i == 1 ? loud : 0.0;
        write_record();
    }
}

/* ---- the search, a second time ---------------------------------------------
 */

typedef struct point {
    double value, misfit;
} point;

typedef struct search {
    const char *what, *unit;
    double low, high, drawn;
    bool by_decades;
    point at[6];
    size_t count;
} search;

static double misfit_of(const search *s, double value)
{
    static char is[64];
    const bw_edit edit = {s->what, is};
    snprintf(is, sizeof is, "%.17g %s", value, s->unit);
    read_wall(SURE, &edit, 1);
    run_replay(&still);
    return replay->misfit;
}

static double share_of(const search *s, double value)
{
    return s->by_decades ? log10(value / s->low) / log10(s->high / s->low)
                         : (value - s->low) / (s->high - s->low);
}

static double value_of(const search *s, double share)
{
    return s->by_decades ? s->low * pow(s->high / s->low, share)
                         : s->low + share * (s->high - s->low);
}

static void try_at(search *s, double value)
{
    const point now = {value, misfit_of(s, value)};
    size_t i = s->count++;
    for (; i > 0 && s->at[i - 1].value > value; i--)
        s->at[i] = s->at[i - 1];
    s->at[i] = now;
}

static size_t best_of(const search *s)
{
    size_t best = 0;
    for (size_t i = 1; i < s->count; i++)
        if (s->at[i].misfit < s->at[best].misfit)
            best = i;
    return best;
}

/* Of misfit^2, through the best and its neighbours; where that is no valley
 * between the outer two, half way to the better of them. */
static double lowest(const search *s)
{
    double x[3], y[3];
    size_t best = best_of(s);
    best = best == 0 ? 1 : best == s->count - 1 ? best - 1 : best;
    for (size_t k = 0; k < 3; k++) {
        const point *p = &s->at[best - 1 + k];
        x[k] = share_of(s, p->value);
        y[k] = p->misfit * p->misfit;
    }
    const double l = (x[1] - x[0]) * (y[1] - y[2]);
    const double r = (x[1] - x[2]) * (y[1] - y[0]);
    const double at = x[1] -
                      0.5 * ((x[1] - x[0]) * l - (x[1] - x[2]) * r) / (l - r);
    const double chord = y[0] + (y[2] - y[0]) * (x[1] - x[0]) / (x[2] - x[0]);
    if (y[1] < chord && at > x[0] && at < x[2])
        return at;
    return 0.5 * (x[1] + (y[0] < y[2] ? x[0] : x[2]));
}

static void search_for(search *s)
{
    s->by_decades = s->high > 3.0 * s->low;
    try_at(s, s->low);
    try_at(s, s->high);
    try_at(s, s->drawn > s->low && s->drawn < s->high ? s->drawn
                                                      : value_of(s, 0.5));
    for (int i = 0; i < 3; i++) {
        const double share = lowest(s);
        for (size_t k = 0; k < s->count; k++)
            if (fabs(share_of(s, s->at[k].value) - share) < 0.01)
                return;
        try_at(s, value_of(s, share));
    }
}

/* ---- beside each other ----------------------------------------------------
 */

static const bw_replay_trial *trial_of(const char *layer, const char *what)
{
    for (size_t i = 0; i < replay->trial_count; i++)
        if (strcmp(replay->trial[i].layer, layer) == 0 &&
            strstr(replay->trial[i].name, what) != NULL)
            return &replay->trial[i];
    return NULL;
}

/* What the record measured itself, and weather that it has not, is not moved;
 * nor what lies outside of the air that was measured. */
static size_t inputs_of(size_t outside)
{
    static const bw_change_kind idle[] = {
        BW_CHANGE_HUMIDITY,     BW_CHANGE_CLASS,         BW_CHANGE_ROOM,
        BW_CHANGE_RAIN_LEAK,    BW_CHANGE_WIND,          BW_CHANGE_SUN,
        BW_CHANGE_DRIVING_RAIN, BW_CHANGE_REDISTRIBUTION};
    bw_arena arena = {0};
    bw_study study = {.assembly = wall, .arena = &arena, .wide = true};
    size_t count = 0;
    ck_assert(bw_unknowns_find(&study, NULL) == BW_OK);
    for (size_t i = 0; i < study.count; i++) {
        const bw_change *c = &study.source[i].high;
        bool is = bw_change_facts_of(c).of_layer && c->layer < outside;
        for (size_t k = 0; k < COUNT(idle); k++)
            is = is || c->kind == idle[k];
        count += !is;
    }
    bw_arena_release(&arena);
    return count;
}

/* The list as a whole. */
static void look_at_list(void)
{
    ck_assert_uint_eq(replay->trial_count + replay->unmoved, inputs_of(0));
    for (size_t i = 1; i < replay->trial_count; i++)
        ck_assert(replay->trial[i - 1].misfit <= replay->trial[i].misfit);
    const bw_replay_trial *first = &replay->trial[0];
    const bool explains = replay->misfit > 1.0 &&
                          first->misfit <= 0.8 * replay->misfit;
    ck_assert_int_eq(replay->suggests, explains);
    if (explains)
        NAMES(replay->suggestion, first->words);
}

static const struct range_row {
    const char *what, *is; /* of the record */
    const char *layer, *property, *unit;
    double low, high, drawn; /* of the wall */
} ranges[] = {
    /* from two thirds to threefold evenly, beyond by decades */
    {"retarder.sd", "0.4 m", "retarder", "sd", "m", 0.2, 20.0, 5.0},
    {"retarder.sd", "3 m", "retarder", "sd", "m", 2.2, 6.5, 5.0},
    {"retarder.sd", "3 m", "retarder", "sd", "m", 2.2, 6.7, 5.0},
    /* as drawn at an end: the middle in its place */
    {"retarder.sd", "2 m", "retarder", "sd", "m", 0.5, 5.0, 5.0},
    {"retarder.sd", "9 m", "retarder", "sd", "m", 5.0, 12.0, 5.0},
    /* near an end of the range, where three points make no valley */
    {"retarder.sd", "0.24 m", "retarder", "sd", "m", 0.2, 20.0, 5.0},
    {"retarder.sd", "17 m", "retarder", "sd", "m", 0.2, 20.0, 5.0},
    {"bay.thickness", "0.112 m", "bay", "thickness", "m", 0.09, 0.12, 0.1},
    /* the record's own lies beyond the range */
    {"retarder.sd", "0.3 m", "retarder", "sd", "m", 2.0, 8.0, 5.0},
};

START_TEST(an_input_is_moved_down_to_the_lowest_point_of_a_parabola)
{
    const struct range_row *row = &ranges[_i];
    search s = {.what = row->what,
                .unit = row->unit,
                .low = row->low,
                .high = row->high,
                .drawn = row->drawn};
    noise = 0.0;
    record_of(row->what, row->is);
    search_for(&s);
    const size_t best = best_of(&s);
    const char *unsure = range(row->property, row->low, row->high, row->unit);
    const bool of_bay = strcmp(row->layer, "bay") == 0;
    layers(of_bay ? unsure : "", of_bay ? "" : unsure);
    run_replay(&moved);
    look_at_list();
    const bw_replay_trial *t = trial_of(row->layer, row->property);
    ck_assert_ptr_nonnull(t);
    ck_assert_double_eq_tol(t->low, s.low, 1e-9);
    ck_assert_double_eq_tol(t->high, s.high, 1e-9);
    ck_assert_double_eq_tol(t->value, s.at[best].value, 1e-6);
    ck_assert_double_eq_tol(t->misfit, s.at[best].misfit, 1e-6);
    ck_assert_int_eq(t->at_end, best == 0 || best == s.count - 1);
}
END_TEST

/* From half a percent of the misfit on an input is listed. */
START_TEST(what_changes_nothing_is_counted_and_not_listed)
{
    search s = {.what = "retarder.sd", .unit = "m"};
    noise = 0.0;
    record_of("retarder.sd", "0.4 m");
    const double drawn = misfit_of(&s, 5.0);
    double high = 5.2;
    for (int i = 0; i < 4; i++) /* by so much it moves just as far */
        high = 5.0 +
               (high - 5.0) * 0.005 * drawn / fabs(misfit_of(&s, high) - drawn);
    for (int more = 0; more < 2; more++) {
        const double end = 5.0 + (high - 5.0) * (more ? 1.03 : 0.97);
        layers("", range("sd", 4.999999, end, "m"));
        run_replay(&moved);
        ck_assert_int_eq(trial_of("retarder", "sd") != NULL, more);
        ck_assert_uint_ge(replay->unmoved, 1 - (size_t)more);
    }
}
END_TEST

/* From a fifth of the misfit on, and where there is more than loggers tell. */
START_TEST(an_explanation_takes_a_fifth_of_the_misfit)
{
    static const struct {
        double noise, low, high; /* of what is left */
    } rows[] = {{1.37, 0.7, 0.8}, {1.72, 0.8, 0.88}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        noise = rows[k].noise;
        record_of("retarder.sd", "0.4 m");
        layers("", range("sd", 0.2, 20.0, "m"));
        run_replay(&moved);
        look_at_list();
        const double left = replay->trial[0].misfit / replay->misfit;
        ck_assert_msg(replay->misfit > 1.0 && left > rows[k].low &&
                          left <= rows[k].high,
                      "noise %.2f: %.3f, %.3f", noise, replay->misfit, left);
    }
}
END_TEST

/* A place between two membranes there is none: the alternative is left out with
 * a note, and the others go on. */
START_TEST(what_cannot_be_simulated_keeps_no_other_input)
{
    noise = 0.0;
    record_of("retarder.sd", "0.4 m");
    layers("<alternative material=\"membrane-sd-5m\"/>",
           range("sd", 0.2, 20.0, "m"));
    run_replay(&moved);
    ck_assert_ptr_nonnull(trial_of("retarder", "sd"));
    bool noted = false;
    for (size_t i = 0; i < replay->note_count; i++)
        noted = noted || strstr(replay->note[i], "1 inputs could not") != NULL;
    ck_assert(noted);
}
END_TEST

/* The first layer inside of it is moved, what lies outside is not. */
START_TEST(outside_of_a_cavity_that_was_measured_nothing_is_moved)
{
    const char *unsure = range("lambda", 0.03, 0.06, "W/(m.K)");
    char text[2048];
    noise = 0.0;
    record_of("bay.lambda", "0.05 W/(m.K)");
    outer = CAVITY;
    write_record();
    outer = OUTDOOR;
    snprintf(text, sizeof text,
             "<layer id=\"board\" material=\"stone-wool-board\" "
             "thickness=\"30 mm\">%s</layer>"
             "<cavity id=\"gap\" thickness=\"30 mm\" ventilation=\"well\"/>"
             "<layer id=\"bay\" material=\"stone-wool-batt\" "
             "thickness=\"100 mm\">%s</layer><membrane id=\"retarder\" "
             "name=\"retarder\" sd=\"5 m\"/>",
             unsure, unsure);
    read_wall(text, NULL, 0);
    run_replay(&moved);
    ck_assert(replay->cavity);
    ck_assert_ptr_nonnull(trial_of("bay", "lambda"));
    for (size_t i = 0; i < replay->trial_count; i++)
        ck_assert_str_ne(replay->trial[i].layer, "board");
    ck_assert_uint_eq(replay->trial_count + replay->unmoved, inputs_of(2));
}
END_TEST

SUITE_AROUND("replay_trials", open_library, close_library,
             EACH(an_input_is_moved_down_to_the_lowest_point_of_a_parabola,
                  COUNT(ranges)),
             FACT(what_changes_nothing_is_counted_and_not_listed),
             FACT(an_explanation_takes_a_fifth_of_the_misfit),
             FACT(what_cannot_be_simulated_keeps_no_other_input),
             FACT(outside_of_a_cavity_that_was_measured_nothing_is_moved))
