/* What a change does to the rows of the verdict. Rows are made by hand: each
 * test says which of them may count as mended. */

#include <check.h>
#include <stdlib.h>

#include "criteria/score.h"

static bw_arena arena;
static bw_rows before, after;

static void setup(void)
{
    const bw_rows empty = {
        .arena = &arena, .limits = bw_limits_default(), .section = "whole"};
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
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 1.2, 3.0, "");
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
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
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
    bw_rows_most(&before, BW_C_ANNUAL_BALANCE, 0.3, 0.0, "");
    bw_row *row = bw_rows_most(&after, BW_C_ANNUAL_BALANCE, 0.2, 0.0, "");
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
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, cases[_i].was, 3.0, "");
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, cases[_i].is, 3.0, "");
    ck_assert_uint_eq(bw_score_of(&before, &after, all).fails, cases[_i].fails);
    ck_assert(worth() == (cases[_i].fails == 0));
}
END_TEST

START_TEST(a_change_that_changes_nothing_is_not_worth_saying)
{
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_most(&before, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_most(&after, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    ck_assert_ptr_null(score().gains);
    ck_assert(!worth());
}
END_TEST

START_TEST(of_a_marginal_wall_fewer_marginal_rows_are_worth_saying)
{
    bw_rows_most(&before, BW_C_HUMID_HOURS, 900.0, 720.0, "");
    bw_rows_most(&after, BW_C_HUMID_HOURS, 100.0, 720.0, "");
    ck_assert_uint_eq(score().marginal, 0);
    ck_assert(worth());
}
END_TEST

START_TEST(a_cross_check_that_fails_counts_as_marginal)
{
    bw_row *row = bw_rows_most(&before, BW_C_CONDENSATE, 2.0, 1.0, "");
    row->row.cross_check = true;
    row->row.verdict = BW_MARGINAL;
    const bw_score s = bw_score_of(&before, &before, (bw_score_scope){0});
    ck_assert_uint_eq(s.fails, 0);
    ck_assert_uint_eq(s.marginal, 1);
}
END_TEST

START_TEST(what_breaks_another_row_is_not_worth_saying)
{
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    bw_rows_most(&before, BW_C_WETTING, 3.0, 12.0, "");
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 1.0, 3.0, "");
    bw_rows_most(&after, BW_C_WETTING, 24.0, 12.0, "");
    ck_assert_uint_eq(score().fails, 1);
    ck_assert(!worth());
    after.row[1].row.outcome = after.row[1].row.verdict = BW_NOT_ASSESSED;
    ck_assert_uint_eq(score().unknown, 1); /* nor an answer less */
    ck_assert(!worth());
}
END_TEST

START_TEST(the_figure_told_is_of_the_row_that_was_furthest_beyond)
{
    bw_rows_most(&before, BW_C_STANDING_WATER, 0.4, 0.2, "");
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 3.5, 3.0, "");
    bw_rows_most(&before, BW_C_HUMID_HOURS, 9000.0, 720.0, "");
    bw_rows_most(&after, BW_C_STANDING_WATER, 0.0, 0.2, "");
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 0.0, 3.0, "");
    bw_rows_most(&after, BW_C_HUMID_HOURS, 0.0, 720.0, "");
    ck_assert_int_eq(score().gains->id, BW_C_STANDING_WATER);
    after.row[0] = before.row[0];
    ck_assert_int_eq(score().gains->id, BW_C_MOULD_HIDDEN);
}
END_TEST

/* Hours above 95 % RH ask for an inspection at most, however far beyond. */
static void inspect(bw_rows *rows, double hours)
{
    bw_row *row = bw_rows_most(rows, BW_C_HUMID_HOURS, hours, 720.0, "");
    row->row.verdict = hours > 720.0 ? BW_MARGINAL : BW_HOLDS;
}

START_TEST(while_something_fails_the_worst_margin_is_of_what_fails)
{
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
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
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 7200.0);
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, _i == 0 ? 5.0 : 5.5, 3.0, "");
    inspect(&after, 100.0);
    ck_assert_ptr_null(score().gains);
    ck_assert(!worth());
}
END_TEST

START_TEST(the_figure_told_is_of_a_row_that_fails_while_one_does)
{
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 7200.0);
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 4.0, 3.0, "");
    inspect(&after, 100.0);
    ck_assert_int_eq(score().gains->id, BW_C_MOULD_HIDDEN);
    ck_assert_double_eq(score().value, 4.0);
    ck_assert(worth());
}
END_TEST

/* The better one leaves more to inspect. */
START_TEST(of_two_that_fail_alike_the_one_nearer_its_limit_is_better)
{
    bw_rows_most(&before, BW_C_MOULD_HIDDEN, 5.0, 3.0, "");
    inspect(&before, 900.0);
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 3.5, 3.0, "");
    inspect(&after, 900.0);
    const bw_score near = score();
    after.count = 0;
    bw_rows_most(&after, BW_C_MOULD_HIDDEN, 4.8, 3.0, "");
    inspect(&after, 100.0);
    const bw_score far = score();
    ck_assert_uint_lt(far.marginal, near.marginal);
    ck_assert(bw_score_better(&near, &far));
    ck_assert(!bw_score_better(&far, &near));
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("score");
    TCase *t = tcase_create("score");
    tcase_add_checked_fixture(t, setup, teardown);
    tcase_add_test(t, a_row_that_holds_by_a_plain_number_is_mended);
    tcase_add_test(t, what_is_not_assessed_any_more_is_not_mended);
    tcase_add_test(t, what_no_longer_decides_but_does_not_hold_is_not_mended);
    tcase_add_loop_test(t, what_moves_by_less_than_noise_is_not_mended, 0, 4);
    tcase_add_test(t, a_change_that_changes_nothing_is_not_worth_saying);
    tcase_add_test(t, of_a_marginal_wall_fewer_marginal_rows_are_worth_saying);
    tcase_add_test(t, a_cross_check_that_fails_counts_as_marginal);
    tcase_add_test(t, what_breaks_another_row_is_not_worth_saying);
    tcase_add_test(t, the_figure_told_is_of_the_row_that_was_furthest_beyond);
    tcase_add_test(t, while_something_fails_the_worst_margin_is_of_what_fails);
    tcase_add_loop_test(
        t,
        a_better_inspection_row_alone_is_not_worth_saying_while_another_fails,
        0, 2);
    tcase_add_test(t, the_figure_told_is_of_a_row_that_fails_while_one_does);
    tcase_add_test(t,
                   of_two_that_fail_alike_the_one_nearer_its_limit_is_better);
    suite_add_tcase(s, t);
    return s;
}

int main(void)
{
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
