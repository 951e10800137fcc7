/* What the margin says of unknowns made by hand: every state a wall can be in,
 * one and many, seen and not, in text and in tables. */

#include <math.h>
#include <stdlib.h>

#include "bothways/margin.h"
#include "one_document.h"
#include "paper.h"
#include "report_wall.h"
#include "suite.h"

static report_wall wall;
static bw_margin margin;
static bw_unknown unknown[3];
static bw_flip flip[2];
static bw_sd_cell map[4];
static paper sheet;

static const double inner[] = {0.5, 10.0}, outer[] = {0.1, 4.0};
static const double samples[] = {5.0, 20.0, 60.0, 0.5, 0.1, -0.5};
static const bw_verdict verdicts[] = {BW_HOLDS, BW_HOLDS, BW_FAILS};

static void make_unknowns(void)
{
    flip[0] = (bw_flip){.below = 23.0,
                        .above = 24.0,
                        .value = 23.5,
                        .criterion = "annual-balance",
                        .section = "whole",
                        .fails_above = true,
                        .changes_verdict = true};
    flip[1] = flip[0];
    flip[1].value = 47.25;
    flip[1].criterion = "drying-test";
    unknown[0] = report_unknown();
    unknown[0].verdict_high = BW_FAILS;
    unknown[0].flip_above = true;
    unknown[0].flip_share = 0.34;
    unknown[0].flip_count = 2;
    unknown[0].flip = flip;
    unknown[0].monotone = true;
    unknown[0].sample_count = 3;
    unknown[0].sample = samples;
    unknown[0].sample_margin = samples + 3;
    unknown[0].sample_verdict = verdicts;
    unknown[1] = (bw_unknown){.kind = BW_UNKNOWN_ALTERNATIVE,
                              .name = "board: plywood",
                              .layer = "board",
                              .unit = "",
                              .high = 1.0,
                              .low_words = "board",
                              .high_words = "plywood in place of board",
                              .seen = true,
                              .note = "",
                              .monotone = true,
                              .flip_criterion = "",
                              .swing_criterion = ""};
    unknown[2] = unknown[1];
    unknown[2].kind = BW_UNKNOWN_STANDARD;
    unknown[2].name = "1 % of the driving rain leaks in";
    unknown[2].seen = false;
    unknown[2].note = "the steady methods know no rain";
}

static void setup(void)
{
    report_wall_make(&wall);
    make_unknowns();
    for (int i = 0; i < 4; i++)
        map[i] = (bw_sd_cell){0.1 * i, 0.4, 0.4 - 0.1 * i};
    wall.checked.transient_reason = "the climate has no hours";
    margin = (bw_margin){.as_drawn = BW_HOLDS,
                         .assessment = &wall.assessment,
                         .points = 9,
                         .tolerance = 1e-4,
                         .unknown_count = 3,
                         .unknown = unknown,
                         .worst_combination = BW_FAILS,
                         .worst_combination_text = "mu of board 60",
                         .worst_combination_reason = "annual-balance",
                         .worst_combination_fails = 2,
                         .inner_count = 2,
                         .outer_count = 2,
                         .inner_sd = inner,
                         .outer_sd = outer,
                         .map = map,
                         .map_inner = "variable film",
                         .map_outer = "softboard",
                         .map_section = "whole",
                         .map_note = ""};
}

static const char *text_of(int width)
{
    bw_report_options options = {.width = width};
    paper_clear(&sheet);
    ck_assert_int_eq(margin_report(BW_FORM_TEXT, &margin, &options, paper_take,
                                   &sheet, NULL),
                     BW_OK);
    return sheet.text;
}

static const bw_results results = {.margin = &margin};

static const char *table_of(bw_table table)
{
    paper_clear(&sheet);
    ck_assert_int_eq(bw_report_table(&results, table, paper_take, &sheet, NULL),
                     BW_OK);
    return sheet.text;
}

/* ---- the wall at its worst ---------------------------------------------- */

static const struct worst_row {
    bw_verdict worst;
    size_t fails;
    bool screening;
    const char *answer, *combination;
} worsts[] = {
    {BW_FAILS, 2, false, "together: the wall fails (2 criteria fail).",
     "the wall fails, 2 criteria fail; worst is annual-balance."},
    {BW_FAILS, 1, false, "together: the wall fails (1 criterion fails).",
     "the wall fails, 1 criterion fails; worst is annual-balance."},
    {BW_HOLDS, 0, false, "together: the wall holds (0 criteria fail).",
     "the wall holds, 0 criteria fail; closest is annual-balance."},
    {BW_MARGINAL, 0, false, "the wall holds, marginally (0 criteria fail).",
     "the wall holds, marginally, 0 criteria fail; closest is"},
    {BW_NOT_ASSESSED, 0, false, "the wall is not assessed (0 criteria fail).",
     "the wall is not assessed, 0 criteria fail; closest is"},
    {BW_FAILS, 1, true, "the wall would fail (1 criterion fails).",
     "the wall would fail, 1 criterion fails; worst is"},
    {BW_HOLDS, 0, true, "the wall would hold (0 criteria fail).",
     "the wall would hold, 0 criteria fail"},
    {BW_MARGINAL, 0, true, "the wall would hold, marginally (0 criteria",
     "the wall would hold, marginally, 0 criteria"},
    {BW_NOT_ASSESSED, 0, true, "the wall is not assessed (0 criteria fail).",
     "the wall is not assessed, 0"},
};

START_TEST(the_worst_case_is_a_sentence_in_every_state)
{
    const struct worst_row *row = &worsts[_i];
    margin.worst_combination = row->worst;
    margin.worst_combination_fails = row->fails;
    margin.screening = row->screening;
    margin.transient = !row->screening;
    const char *text = text_of(200);
    HAS(text, row->answer);
    HAS(text, row->combination);
    paper_fits(text, 200);
}
END_TEST

START_TEST(a_case_without_any_number_has_no_closest_criterion)
{
    margin.worst_combination = BW_HOLDS;
    margin.worst_combination_fails = 0;
    margin.worst_combination_reason = "";
    margin.worst_combination_moved = true;
    const char *text = text_of(200);
    HAS(text, "closest is none with a number.");
    HAS(text, "were not the worst: changing one at a time");
}
END_TEST

/* ---- what flips first --------------------------------------------------- */

static void none_flips(void)
{
    margin.first = 3;
}

static void none_flips_and_all_seen(void)
{
    margin.first = 2;
    margin.unknown_count = 2;
}

static void saves_the_wall(void)
{
    unknown[0].flip_fails = false;
}

static void one_of_several(void)
{
    unknown[0].flip_changes_verdict = false;
}

static void far_away(void)
{
    unknown[0].flip_share = 1.0;
}

static void no_value_as_drawn(void)
{
    unknown[0].as_drawn = (double)NAN;
    unknown[0].unit = "m";
}

static void below_and_no_value(void)
{
    no_value_as_drawn();
    unknown[0].flip_above = false;
}

static void everywhere(void)
{
    no_value_as_drawn();
    unknown[0].flips_all = true;
}

static void high_setting(void)
{
    margin.first = 1;
    unknown[1].flips = unknown[1].flip_fails = true;
    unknown[1].flip_criterion = "drying-test";
    unknown[1].flip_value = 1.0;
}

static void low_setting(void)
{
    high_setting();
    unknown[1].flip_value = 0.0;
}

static void setting_without_words(void)
{
    high_setting();
    unknown[1].high_words = "";
}

static void not_monotone(void)
{
    unknown[0].monotone = false;
}

static void with_a_note(void)
{
    unknown[0].note = "what is drawn lies outside this range";
}

static void no_unknown(void)
{
    margin.unknown_count = margin.first = 0;
}

static void simulated(void)
{
    margin.transient = wall.checked.has_transient = true;
}

static void simulated_in_vain(void)
{
    margin.transient = true;
}

static void screened(void)
{
    static const bw_scope_item two[] = {{"rain", "rain"}, {"sun", "sun"}};
    margin.screening = true;
    wall.assessment.scope = two;
    wall.assessment.scope_count = 2;
}

static void screened_for_one_reason(void)
{
    margin.screening = true;
}

static void at_random(void)
{
    margin.ensemble_count = 8;
    margin.ensemble_holds = 6;
    margin.ensemble_share = 0.75;
    margin.ensemble_error = 0.153;
}

static void without_title_and_place(void)
{
    wall.assembly.title = wall.climate.place = "";
}

static const struct sentence_row {
    void (*change)(void);
    const char *says, *says_not;
} sentences[] = {
    {make_unknowns,
     "first: at mu of board 23.5 (as drawn 5), annual-balance fails, 34 % of "
     "its range away, and with it the wall.",
     "23.5 -"},
    {make_unknowns, "Flips also at 47.25: drying-test (whole) fails above it.",
     "Flips also at 23.5"},
    {none_flips,
     "nothing that was computed. No single unknown but the 1 that the methods "
     "run do not see",
     "What flips first: nothing."},
    {none_flips_and_all_seen,
     "What flips first: nothing. No single unknown, "
     "over the whole of its range,",
     "that was computed"},
    {saves_the_wall,
     "annual-balance no longer fails, 34 % of its range away, "
     "and nothing else fails.",
     "with it the wall"},
    {one_of_several, "; the verdict on the wall stays as it is.",
     "with it the wall"},
    {far_away, "annual-balance fails, and with it the wall.", "range away"},
    {no_value_as_drawn,
     "with mu of board above 23.5 m, annual-balance fails, and with it",
     "range away"},
    {below_and_no_value, "Flips first below 23.5 m: annual-balance fails.",
     "as drawn -"},
    {everywhere, "with mu of board anywhere from 5 m to 60 m, annual-balance",
     "at mu of board"},
    {everywhere, "Flips also at 23.5 m: annual-balance (whole) fails above it.",
     "range away"},
    {high_setting, "with \"plywood in place of board\", drying-test fails;",
     "with \"board\""},
    {low_setting, "with \"board\", drying-test fails;",
     "with \"plywood in place of board\""},
    {setting_without_words, "with \"board: plywood\", drying-test",
     "with \"\""},
    {not_monotone, "Not monotone: the value that decides turns", "(null)"},
    {with_a_note, "Note: what is drawn lies outside this range.", "range.."},
    {no_unknown, "There is none.", "From to"},
    {simulated, "Computed with the hourly simulation, too.",
     "without the hourly"},
    {simulated_in_vain,
     "The wall as drawn was not simulated: the climate has no hours.",
     "simulation, too"},
    {screened, "(rain and more). Where it says \"would\", that is what",
     "(rain)"},
    {screened_for_one_reason, "(hygroscopic layer: hemp batt). Where it says",
     "and more"},
    {at_random,
     "Of 8 cases nothing fails in 6: 75.0 % (standard error 15.3 "
     "points).",
     "(null)"},
    {without_title_and_place, "forgives: demo\ndemo in w.xml; climate: c.csv",
     "climate: \n"},
};

START_TEST(the_margin_says_what_is_so_and_not_its_opposite)
{
    const struct sentence_row *row = &sentences[_i];
    row->change();
    const char *text = text_of(200);
    HAS(text, row->says);
    HAS_NOT(text, row->says_not);
    paper_fits(text, 200);
}
END_TEST

/* ---- bars and map -------------------------------------------------------- */

static const struct bar_row {
    double lowest, drawn, highest;
    const char *bar;
} bars[] = {
    {-0.5, 0.5, 0.5, ".....#####|====o....."},
    {-1.0, -1.0, 1.0, "o#########|=========="},
    {0.2, (double)NAN, 0.6, "..........|.=====...."},
    {-0.9, -0.2, -0.1, ".#######o#|.........."},
    {0.0, 0.0, 1.0, "..........o=========="},
};

START_TEST(a_bar_shows_what_fails_and_what_holds_in_signs)
{
    unknown[0].swing_lowest = bars[_i].lowest;
    unknown[0].swing_as_drawn = bars[_i].drawn;
    unknown[0].swing_highest = bars[_i].highest;
    HAS(text_of(120), bars[_i].bar);
}
END_TEST

START_TEST(an_unknown_that_moves_nothing_has_a_bar_without_marks)
{
    unknown[0].swing = 0.0;
    const char *text = text_of(120);
    HAS(text, "..........|..........");
    HAS_NOT(text, "The bar is");
    const char *rain = strstr(text, "  1 % of the driving rain leaks in  ");
    ck_assert_ptr_nonnull(rain);
    ck_assert_ptr_null(memchr(rain, '|', strcspn(rain, "\n")));
}
END_TEST

START_TEST(the_map_marks_what_is_short_by_a_sign)
{
    map[3] = (bw_sd_cell){(double)NAN, (double)NAN, (double)NAN};
    map[2].reserve = -0.05;
    margin.map_limit = 0.25;
    const char *text = text_of(120);
    HAS(text, "[0/400]  100/300\n");
    HAS(text, "[ ] is nearest to this wall: inside no such layer");
    HAS(text, "200/-50!      n/a\n");
    HAS(text, "! less reserve than the 250 g/m2 asked of timber");
    margin.map_limit = 0.35;
    HAS(text_of(120), "100/300!");
    margin.map_limit = 0.0;
    text = text_of(120);
    HAS(text, "! less can evaporate than condenses.");
    HAS(text, "200/-50!");
    HAS_NOT(text, "100/300!");
}
END_TEST

START_TEST(a_wall_without_a_map_says_why)
{
    margin.inner_count = margin.outer_count = 0;
    margin.map_note = "there is no layer to compute";
    HAS(text_of(120), "there is no layer to compute\n");
}
END_TEST

START_TEST(long_names_keep_within_the_page)
{
    unknown[0].name = unknown[1].high_words = unknown[1].name =
        "Feuchtigkeitsregulierungsmembranverklebung de la fac\xcc\xa7"
        "ade "
        "\xe6\x9c\xa8\xe6\x9d\x90\xe2\x80\xae";
    margin.map_inner = margin.map_outer = unknown[0].name;
    margin.worst_combination_text = unknown[0].name;
    wall.assembly.title = unknown[0].name;
    paper_fits(text_of(100), 100);
    paper_fits(text_of(200), 200);
    HAS_NOT(sheet.text, "\xe2\x80\xae");
}
END_TEST

START_TEST(quiet_is_the_answer_alone)
{
    bw_report_options options = {.extent = BW_EXTENT_LEAST};
    paper_clear(&sheet);
    ck_assert_int_eq(margin_report(BW_FORM_TEXT, &margin, &options, paper_take,
                                   &sheet, NULL),
                     BW_OK);
    HAS(sheet.text, "What flips first");
    HAS_NOT(sheet.text, "Every unknown alone");
    paper_fits(sheet.text, 100);
}
END_TEST

/* ---- tables ---------------------------------------------------------------
 */

static const struct table_row {
    bw_table table;
    const char *line;
} rows[] = {
    {BW_TABLE_MARGIN,
     "\ndemo,1,mu of board,range,board,-,5,5,60,would hold,would hold,would "
     "fail,yes,fails,"
     "annual-balance,23.5,0,0.34,yes,yes,annual-balance,1,0,,steady,,,,,,,,,,"
     "\n"},
    {BW_TABLE_MARGIN,
     "\ndemo,2,board: plywood,alternative,board,,,,,would hold,would "
     "hold,would hold,no,,,,,,"
     ",yes,,0,0,,steady,,,,,,,,,,\n"},
    {BW_TABLE_MARGIN,
     "\ndemo,3,1 % of the driving rain leaks in,standard,board,,,,,,,,,,,,,,,,,"
     ",,the steady methods know no rain,,,,,,,,,,,\n"},
    {BW_TABLE_MARGIN_SAMPLES,
     "\ndemo,mu of board,-,60,would fail,annual-balance,-0.5\n"},
    {BW_TABLE_SD_MAP, "\ndemo,whole,variable film,softboard,10,4,,,\n"},
};

START_TEST(what_is_not_known_is_an_empty_field)
{
    map[3] = (bw_sd_cell){(double)NAN, (double)NAN, (double)NAN};
    HAS(table_of(rows[_i].table), rows[_i].line);
}
END_TEST

START_TEST(a_flip_that_saves_and_a_range_that_turns_are_told_apart)
{
    unknown[0].flip_fails = unknown[0].monotone = false;
    unknown[0].flip_changes_verdict = false;
    HAS(table_of(BW_TABLE_MARGIN),
        ",yes,stops failing,annual-balance,23.5,0,0.34,no,no,annual-balance,");
}
END_TEST

START_TEST(a_flip_at_every_value_has_no_place)
{
    everywhere();
    HAS(table_of(BW_TABLE_MARGIN),
        ",yes,fails,annual-balance,,,0.34,yes,yes,annual-balance,");
}
END_TEST

START_TEST(what_cannot_be_written_is_an_error)
{
    bw_error err = {0};
    ck_assert_int_eq(
        margin_report(BW_FORM_TEXT, &margin, NULL, paper_refuse, NULL, &err),
        BW_ERR_IO);
    HAS(err.message, "margin");
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_SD_MAP, paper_refuse, NULL, &err),
        BW_ERR_IO);
    HAS(err.message, bw_table_file(BW_TABLE_SD_MAP));
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_COUNT, paper_take, &sheet, &err),
        BW_ERR_DOMAIN);
    ck_assert_str_eq(bw_table_file(BW_TABLE_COUNT), "");
}
END_TEST

SUITE_AROUND("margin_words", setup, NULL,
             EACH(the_worst_case_is_a_sentence_in_every_state, COUNT(worsts)),
             FACT(a_case_without_any_number_has_no_closest_criterion),
             EACH(the_margin_says_what_is_so_and_not_its_opposite,
                  COUNT(sentences)),
             EACH(a_bar_shows_what_fails_and_what_holds_in_signs, COUNT(bars)),
             FACT(an_unknown_that_moves_nothing_has_a_bar_without_marks),
             FACT(the_map_marks_what_is_short_by_a_sign),
             FACT(a_wall_without_a_map_says_why),
             FACT(long_names_keep_within_the_page),
             FACT(quiet_is_the_answer_alone),
             EACH(what_is_not_known_is_an_empty_field, COUNT(rows)),
             FACT(a_flip_that_saves_and_a_range_that_turns_are_told_apart),
             FACT(a_flip_at_every_value_has_no_place),
             FACT(what_cannot_be_written_is_an_error))
