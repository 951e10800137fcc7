/* What a change does to the rows of the verdict. Rows are made by hand: each
 * test says which of them may count as mended. */

#include <stdlib.h>

#include "criteria/score.h"
#include "suite.h"

static bw_arena arena;
static bw_rows before, after;

static void setup(void)
{
    const bw_rows empty = {.arena = &arena, .section = "whole"};
    before = after = empty;
}

static void teardown(void)
{
    bw_arena_release(&arena);
}

static bw_score score(void)
{
    return bw_score_of(&before, &after, (bw_score_scope){0});
}

static bool worth(void)
{
    const bw_score was = bw_score_of(&before, &before, (bw_score_scope){0});
    const bw_score is = score();
    return bw_score_worth(&was, &is);
}

START_TEST(a_row_that_holds_by_a_plain_number_is_mended)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 1.2, 3.0, "");
    const bw_score s = score();
    ck_assert_uint_eq(s.fails, 0);
    ck_assert_ptr_eq(s.gains, &before.row[0]);
    ck_assert_double_eq(s.value, 1.2);
    ck_assert_int_eq(s.verdict, BW_HOLDS);
    ck_assert(worth());
}
END_TEST

START_TEST(what_is_not_assessed_any_more_is_not_mended)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_none(&after, BW_C_MOULD_HIDDEN, "no result");
    ck_assert_uint_eq(score().fails, 1);
    ck_assert(!worth());
    after.count = 0; /* nor is what is not there at all */
    ck_assert_uint_eq(score().fails, 1);
    ck_assert(!worth());
}
END_TEST

START_TEST(what_no_longer_decides_but_does_not_hold_is_not_mended)
{
    bw_rows_against(&before, BW_C_ANNUAL_BALANCE, 0.3, 0.0, "");
    bw_row *row = bw_rows_against(&after, BW_C_ANNUAL_BALANCE, 0.2, 0.0, "");
    row->row.decides = false;
    row->row.verdict = BW_NOT_ASSESSED;
    ck_assert_uint_eq(score().fails, 1);
    row->row.outcome = BW_HOLDS;
    ck_assert_uint_eq(score().fails, 0);
}
END_TEST

/* 5 % of the limit of 3 is 0.15. */
START_TEST(what_moves_by_less_than_noise_is_not_mended)
{
    static const struct {
        double was, is;
        size_t fails;
    } cases[] = {
        {3.01, 2.99, 1}, {3.01, 2.87, 1}, {3.01, 2.85, 0}, {3.01, 2.0, 0}};
    const bw_score_scope all = {0};
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, cases[_i].was, 3.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, cases[_i].is, 3.0, "");
    ck_assert_uint_eq(bw_score_of(&before, &after, all).fails, cases[_i].fails);
    ck_assert(worth() == (cases[_i].fails == 0));
}
END_TEST

START_TEST(a_change_that_changes_nothing_is_not_worth_saying)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&before, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&after, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    ck_assert_ptr_null(score().gains);
    ck_assert(!worth());
}
END_TEST

START_TEST(of_a_marginal_wall_fewer_marginal_rows_are_worth_saying)
{
    bw_rows_against(&before, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    bw_rows_against(&after, BW_C_HUMID_HOURS, 100.0, 720.0, "");
    ck_assert_uint_eq(score().marginal, 0);
    ck_assert(worth());
}
END_TEST

START_TEST(a_cross_check_that_fails_counts_as_marginal)
{
    bw_row *row = bw_rows_against(&before, BW_C_CONDENSATE, 2.0, 1.0, "");
    row->row.cross_check = true;
    row->row.verdict = BW_MARGINAL;
    const bw_score s = bw_score_of(&before, &before, (bw_score_scope){0});
    ck_assert_uint_eq(s.fails, 0);
    ck_assert_uint_eq(s.marginal, 1);
}
END_TEST

START_TEST(what_breaks_another_row_is_not_worth_saying)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&before, BW_C_WETTING, 3.0, 12.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 1.0, 3.0, "");
    bw_rows_against(&after, BW_C_WETTING, 24.0, 12.0, "");
    ck_assert_uint_eq(score().fails, 1);
    ck_assert(!worth());
    after.row[1].row.outcome = after.row[1].row.verdict = BW_NOT_ASSESSED;
    ck_assert_uint_eq(score().unknown, 1); /* nor an answer less */
    ck_assert(!worth());
}
END_TEST

START_TEST(the_figure_told_is_of_the_row_that_was_furthest_beyond)
{
    bw_rows_against(&before, BW_C_STANDING_WATER, 0.4, 0.2, "");
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 3.5, 3.0, "");
    bw_rows_against(&before, BW_C_HUMID_HOURS, 9000.0, 720.0, "");
    bw_rows_against(&after, BW_C_STANDING_WATER, 0.0, 0.2, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 0.0, 3.0, "");
    bw_rows_against(&after, BW_C_HUMID_HOURS, 0.0, 720.0, "");
    ck_assert_int_eq(score().gains->id, BW_C_STANDING_WATER);
    after.row[0] = before.row[0];
    ck_assert_int_eq(score().gains->id, BW_C_MOULD_HIDDEN);
    before.count = after.count = 0; /* the later one further, then as far */
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 4.5, 3.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 0.0, 3.0, "");
    for (size_t i = 0; i < 2; i++) {
        before.count = after.count = 1;
        bw_rows_against(&before, BW_C_DRYING, i == 0 ? 24.0 : 18.0, 12.0, "");
        bw_rows_against(&after, BW_C_DRYING, 1.0, 12.0, "");
        ck_assert_ptr_eq(score().gains, &before.row[1 - i]);
    }
}
END_TEST

/* Hours above 95 % RH ask for an inspection at most, however far beyond. */
static void inspect(bw_rows *rows, double hours)
{
    bw_row *row = bw_rows_against(rows, BW_C_HUMID_HOURS, hours, 720.0, "");
    row->row.verdict = hours > 720.0 ? BW_MARGINAL : BW_HOLDS;
}

START_TEST(while_something_fails_the_worst_margin_is_of_what_fails)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 7200.0);
    const bw_score was = bw_score_of(&before, &before, (bw_score_scope){0});
    ck_assert_double_eq_tol(was.worst_margin, -2.0 / 3.0, 1e-12);
    before.row[0].row.verdict = BW_HOLDS;
    const bw_score is = bw_score_of(&before, &before, (bw_score_scope){0});
    ck_assert_double_eq_tol(is.worst_margin, -9.0, 1e-12);
}
END_TEST

/* The inspection row gains most, and mould does not move, or gets worse. */
START_TEST(
    a_better_inspection_row_alone_is_not_worth_saying_while_another_fails)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 7200.0);
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, _i == 0 ? 5.0 : 5.5, 3.0, "");
    inspect(&after, 100.0);
    ck_assert_ptr_null(score().gains);
    ck_assert(!worth());
}
END_TEST

START_TEST(the_figure_told_is_of_a_row_that_fails_while_one_does)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 7200.0);
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 4.0, 3.0, "");
    inspect(&after, 100.0);
    ck_assert_int_eq(score().gains->id, BW_C_MOULD_HIDDEN);
    ck_assert_double_eq(score().value, 4.0);
    ck_assert(worth());
}
END_TEST

/* The better one leaves more to inspect. */
START_TEST(of_two_that_fail_alike_the_one_nearer_its_limit_is_better)
{
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 900.0);
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 3.5, 3.0, "");
    inspect(&after, 900.0);
    const bw_score near = score();
    after.count = 0;
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 4.8, 3.0, "");
    inspect(&after, 100.0);
    const bw_score far = score();
    ck_assert_uint_lt(far.marginal, near.marginal);
    ck_assert(bw_score_better(&near, &far));
    ck_assert(!bw_score_better(&far, &near));
}
END_TEST

/* Equal in what fails and is unknown: while both fail the worst margin first,
 * else what is marginal. */
START_TEST(of_two_changes_the_better_is_the_one_with_less_open)
{
    static const struct {
        bw_score a, b;
        bool better, worse;
    } cases[] = {
        {{.fails = 1}, {.fails = 2}, true, false},
        {{.fails = 1}, {.fails = 1, .unknown = 1}, true, false},
        {{.fails = 1, .marginal = 3, .worst_margin = -0.1},
         {.fails = 1, .worst_margin = -0.5},
         true,
         false},
        {{.fails = 1, .worst_margin = -0.5},
         {.unknown = 1, .marginal = 1, .worst_margin = -0.1},
         true,
         false},
        {{.fails = 1, .worst_margin = -0.5},
         {.fails = 1, .marginal = 1, .worst_margin = -0.5},
         true,
         false},
        {{.marginal = 1, .worst_margin = -0.5},
         {.marginal = 2, .worst_margin = -0.1},
         true,
         false},
        {{.worst_margin = 0.2}, {.worst_margin = 0.1}, true, false},
        {{.worst_margin = 0.2}, {.worst_margin = 0.2}, false, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        ck_assert(bw_score_better(&cases[i].a, &cases[i].b) == cases[i].better);
        ck_assert(bw_score_better(&cases[i].b, &cases[i].a) == cases[i].worse);
    }
}
END_TEST

/* "What mends no criterion must better the worst margin by 5 points of the
 * limit and by a tenth of itself." */
START_TEST(a_change_that_mends_no_row_must_move_the_worst_margin)
{
    static const struct {
        bw_score before, after;
        bool worth;
    } cases[] = {
        {{.fails = 2}, {.fails = 1}, true},
        {{.fails = 1}, {.fails = 2, .worst_margin = 9.0}, false},
        {{.fails = 1}, {.unknown = 2, .worst_margin = 9.0}, false},
        {{.fails = 1, .worst_margin = -0.1},
         {.fails = 1, .worst_margin = -0.049},
         true},
        {{.fails = 1, .worst_margin = -0.1},
         {.fails = 1, .worst_margin = -0.051},
         false},
        {{.fails = 1, .worst_margin = -2.0},
         {.fails = 1, .worst_margin = -1.79},
         true},
        {{.fails = 1, .worst_margin = -2.0},
         {.fails = 1, .worst_margin = -1.81},
         false},
        {{.fails = 1, .marginal = 2}, {.fails = 1, .marginal = 1}, false},
        {{.marginal = 2, .worst_margin = -0.5},
         {.marginal = 1, .worst_margin = -0.6},
         true},
        {{.marginal = 2}, {.marginal = 3, .worst_margin = 9.0}, false},
    };
    bw_rows_none(&before, BW_C_INWARD, "");
    for (size_t i = 0; i < COUNT(cases); i++) {
        bw_score to = cases[i].after;
        ck_assert(!bw_score_worth(&cases[i].before, &to)); /* no figure */
        to.gains = &before.row[0];
        ck_assert_msg(bw_score_worth(&cases[i].before, &to) == cases[i].worth,
                      "case %zu", i);
    }
}
END_TEST

START_TEST(a_scope_is_one_section_and_may_leave_the_wetting_test_out)
{
    static const struct {
        bw_score_scope scope;
        size_t fails, unknown, not_assessed;
    } cases[] = {{{NULL, false}, 2, 1, 2}, {{NULL, true}, 1, 1, 2},
                 {{"a", false}, 1, 0, 0},  {{"b", false}, 1, 1, 2},
                 {{"b", true}, 0, 1, 2},   {{"c", false}, 0, 0, 0}};
    before.section = after.section = "a";
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    before.section = after.section = "b";
    bw_rows_against(&before, BW_C_WETTING, 24.0, 12.0, "");
    bw_rows_against(&after, BW_C_WETTING, 24.0, 12.0, "");
    bw_rows_against(&before, BW_C_DECAY, 0.0, 325.0, "");
    bw_rows_none(&after, BW_C_DECAY, "");
    bw_rows_none(&before, BW_C_INWARD, ""); /* unknown as before */
    bw_rows_none(&after, BW_C_INWARD, "");
    for (size_t i = 0; i < COUNT(cases); i++) {
        const bw_score s = bw_score_of(&before, &after, cases[i].scope);
        ck_assert_uint_eq(s.fails, cases[i].fails);
        ck_assert_uint_eq(s.unknown, cases[i].unknown);
        ck_assert_uint_eq(s.not_assessed, cases[i].not_assessed);
    }
}
END_TEST

/* A stud taken away: its row is looked for in the section that is left. */
START_TEST(a_row_whose_section_is_gone_is_looked_for_in_any)
{
    before.section = "through-stud";
    bw_rows_against(&before, BW_C_INWARD, 0.5, 0.2, "");
    bw_rows_against(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_against(&after, BW_C_INWARD, 0.5, 0.2, "");
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 1.0, 3.0, "");
    const bw_score s = score();
    ck_assert_ptr_eq(s.gains, &before.row[1]);
    ck_assert_double_eq(s.value, 1.0);
    after.section = before.section; /* there it is not looked for elsewhere */
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    after.section = "whole";
    bw_rows_against(&after, BW_C_MOULD_HIDDEN, 1.0, 3.0, "");
    ck_assert_ptr_null(score().gains);
}
END_TEST

/* A limit of zero that holds has no margin to speak of; one that fails has. */
START_TEST(the_worst_margin_is_a_share_of_a_limit_that_is_not_zero)
{
    bw_rows_against(&after, BW_C_STANDING_WATER, 0.08, 0.2, "");
    bw_rows_against(&after, BW_C_ANNUAL_BALANCE, 0.0, 0.0, "");
    ck_assert_double_eq_tol(score().worst_margin, 0.6, 1e-12);
    bw_rows_against(&after, BW_C_ACCUMULATION, 0.05, 0.0, ""); /* over 0.1 */
    ck_assert_double_eq_tol(score().worst_margin, -0.5, 1e-12);
    after.count = 0;
    ck_assert_double_eq(score().worst_margin, 0.0);
}
END_TEST

SUITE_AROUND(
    "score", setup, teardown,
    FACT(a_row_that_holds_by_a_plain_number_is_mended),
    FACT(what_is_not_assessed_any_more_is_not_mended),
    FACT(what_no_longer_decides_but_does_not_hold_is_not_mended),
    EACH(what_moves_by_less_than_noise_is_not_mended, 4),
    FACT(a_change_that_changes_nothing_is_not_worth_saying),
    FACT(of_a_marginal_wall_fewer_marginal_rows_are_worth_saying),
    FACT(a_cross_check_that_fails_counts_as_marginal),
    FACT(what_breaks_another_row_is_not_worth_saying),
    FACT(the_figure_told_is_of_the_row_that_was_furthest_beyond),
    FACT(while_something_fails_the_worst_margin_is_of_what_fails),
    EACH(a_better_inspection_row_alone_is_not_worth_saying_while_another_fails,
         2),
    FACT(the_figure_told_is_of_a_row_that_fails_while_one_does),
    FACT(of_two_that_fail_alike_the_one_nearer_its_limit_is_better),
    FACT(of_two_changes_the_better_is_the_one_with_less_open),
    FACT(a_change_that_mends_no_row_must_move_the_worst_margin),
    FACT(a_scope_is_one_section_and_may_leave_the_wetting_test_out),
    FACT(a_row_whose_section_is_gone_is_looked_for_in_any),
    FACT(the_worst_margin_is_a_share_of_a_limit_that_is_not_zero))
