/* Scales, ticks, paths and columns, by hand. */

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"

START_TEST(ticks_are_round_and_inside)
{
    static const struct {
        double low, high;
        size_t most, count;
        double first, step;
        int decimals;
    } cases[] = {
        {0.0, 23.0, 5, 5, 0.0, 5.0, 0},
        {-7.3, 21.0, 6, 6, -5.0, 5.0, 0},
        {0.0, 1.0, 5, 6, 0.0, 0.2, 1},
        {0.0, 0.004, 4, 5, 0.0, 0.001, 3},
        {980.0, 1010.0, 3, 4, 980.0, 10.0, 0},
    };
    bw_ticks t = bw_ticks_make(cases[_i].low, cases[_i].high, cases[_i].most);
    ck_assert_uint_eq(t.count, cases[_i].count);
    for (size_t k = 0; k < t.count; k++)
        ck_assert_double_eq_tol(
            t.value[k], cases[_i].first + cases[_i].step * (double)k, 1e-12);
    ck_assert_int_eq(t.decimals, cases[_i].decimals);
}
END_TEST

START_TEST(ticks_of_nothing_are_none)
{
    ck_assert_uint_eq(bw_ticks_make(1.0, 1.0, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_make(2.0, 1.0, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_make(0.0, (double)INFINITY, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_make(0.0, (double)NAN, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_log(0.0, 10.0, 5).count, 0);
}
END_TEST

START_TEST(logarithmic_ticks_are_ones_twos_and_fives)
{
    static const double expected[] = {0.2, 0.5, 1.0, 2.0, 5.0, 10.0};
    bw_ticks t = bw_ticks_log(0.2, 12.0, 8);
    ck_assert_uint_eq(t.count, 6);
    for (size_t i = 0; i < t.count; i++)
        ck_assert_double_eq_tol(t.value[i], expected[i], 1e-12);
    t = bw_ticks_log(0.01, 10000.0, 8);
    ck_assert_uint_eq(t.count, 7);
}
END_TEST

START_TEST(a_logarithmic_scale_puts_the_geometric_mean_in_the_middle)
{
    bw_scale s = {0.1, 1000.0, 0.0, 400.0, true};
    ck_assert_double_eq_tol(bw_scale_at(&s, 10.0), 200.0, 1e-9);
    ck_assert_double_eq_tol(bw_scale_at(&s, 0.1), 0.0, 1e-9);
    ck_assert_double_eq_tol(bw_scale_at(&s, 0.0), 0.0, 1e-9);
}
END_TEST

START_TEST(labels_end_up_apart_in_order_and_inside)
{
    double at[] = {3.0, 3.5, 4.0, 80.0, 99.0, 99.5};
    bw_spread(at, 6, 10.0, 0.0, 100.0);
    for (int i = 0; i < 5; i++)
        ck_assert_double_ge(at[i + 1] - at[i], 10.0 - 1e-6);
    ck_assert_double_ge(at[0], 0.0);
    ck_assert_double_le(at[5], 100.0 + 1e-9);
}
END_TEST

START_TEST(a_path_is_relative_and_drifts_not)
{
    bw_path p = {0};
    bw_path_move(&p, 10.0, 20.0);
    bw_path_line(&p, 10.04, 20.0); /* nowhere, on this paper */
    bw_path_line(&p, 12.5, 20.0);
    bw_path_line(&p, 12.5, 19.6);
    bw_path_line(&p, 13.0, 19.0);
    bw_path_close(&p);
    ck_assert_str_eq(p.text, "M10 20h2.5v-.4l.5-.6z");
    bw_path_clear(&p);
    bw_path_move(&p, 0.0, 0.0);
    for (int i = 1; i <= 3000; i++)
        bw_path_line(&p, i * 0.03333, 0.0);
    ck_assert_int_eq(p.x, 1000); /* tenths of 99.99 */
    bw_path_free(&p);
}
END_TEST

START_TEST(columns_keep_the_least_and_the_most)
{
    double value[240], low[10], high[10], mean[10];
    for (int i = 0; i < 240; i++)
        value[i] = i % 24 == 7 ? 50.0 + i : i % 24 == 9 ? -50.0 - i : 1.0;
    bw_columns_of(value, 1, 240, 10, low, high, mean);
    for (int c = 0; c < 10; c++) {
        ck_assert_double_eq_tol(high[c], 50.0 + 24 * c + 7, 1e-12);
        ck_assert_double_eq_tol(low[c], -50.0 - 24 * c - 9, 1e-12);
        ck_assert_double_eq_tol(mean[c], (22.0 - 2.0) / 24.0, 1e-12);
    }
}
END_TEST

/* ---- markup ------------------------------------------------------------- */

typedef struct page {
    char text[512];
    size_t used, room;
} page;

static bool take(void *payload, const char *bytes, size_t length)
{
    page *p = payload;
    if (length > p->room - p->used)
        return false;
    memcpy(p->text + p->used, bytes, length);
    p->used += length;
    return true;
}

static const char start_of_page[] = "<!DOCTYPE html>\n";

START_TEST(markup_nests_escapes_and_ends_what_is_open)
{
    page p = {.room = sizeof p.text - 1};
    bw_markup out;
    const double numbers[] = {0.5, (double)NAN, -3.0};
    bw_markup_start(&out, take, &p);
    bw_tag_open(&out, "p", "a&b");
    bw_tag_set(&out, "title", "\"<\n>\"");
    bw_tag_set_numbers(&out, "data-y", numbers, 3);
    bw_tag_text(&out, "1 < 2 \xc2\xb0\xff\x01");
    bw_tag_open(&out, "br", NULL);
    bw_tag_close_short(&out);
    bw_tag_open(&out, "b", NULL);
    bw_tag_close(&out);
    bw_tag_open(&out, "i", NULL);
    bw_tag_part(&out, "", 0);
    ck_assert(bw_markup_finish(&out));
    ck_assert_uint_gt(p.used, strlen(start_of_page));
    ck_assert_str_eq(p.text + strlen(start_of_page),
                     "<p class=\"a&amp;b\" title=\"&quot;&lt; &gt;&quot;\" "
                     "data-y=\"0.5 - -3\">1 &lt; 2 \xc2\xb0?"
                     "?<br/><b></b><i/>"
                     "</p>\n");
}
END_TEST

START_TEST(markup_that_is_refused_says_so_at_the_end)
{
    page p = {.room = 20};
    bw_markup out;
    bw_markup_start(&out, take, &p);
    bw_tag_whole(&out, "p", NULL, "more than fits there");
    ck_assert(!bw_markup_finish(&out));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("chart");
    TCase *tc = tcase_create("chart");
    tcase_add_loop_test(tc, ticks_are_round_and_inside, 0, 5);
    tcase_add_test(tc, ticks_of_nothing_are_none);
    tcase_add_test(tc, logarithmic_ticks_are_ones_twos_and_fives);
    tcase_add_test(tc,
                   a_logarithmic_scale_puts_the_geometric_mean_in_the_middle);
    tcase_add_test(tc, labels_end_up_apart_in_order_and_inside);
    tcase_add_test(tc, a_path_is_relative_and_drifts_not);
    tcase_add_test(tc, columns_keep_the_least_and_the_most);
    tcase_add_test(tc, markup_nests_escapes_and_ends_what_is_open);
    tcase_add_test(tc, markup_that_is_refused_says_so_at_the_end);
    suite_add_tcase(suite, tc);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
