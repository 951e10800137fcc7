/* Scales, ticks, paths and columns, by hand. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"
#include "chart/field.h"
#include "paper.h"
#include "suite.h"
#include "svg_path.h"

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

START_TEST(a_scale_of_one_value_puts_it_in_the_middle)
{
    const bw_scale s = {3.0, 3.0, 20.0, 60.0, false};
    ck_assert_double_eq_tol(bw_scale_at(&s, 3.0), 40.0, 1e-9);
    ck_assert_double_eq_tol(bw_scale_at(&s, 7.0), 40.0, 1e-9);
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

START_TEST(more_columns_than_values_repeat_them)
{
    static const double value[] = {1.0, 4.0, 9.0};
    double low[6], high[6], mean[6];
    bw_columns_of(value, 1, 3, 6, low, high, mean);
    for (int c = 0; c < 6; c++) {
        ck_assert_double_eq(low[c], value[c / 2]);
        ck_assert_double_eq(high[c], value[c / 2]);
        ck_assert_double_eq(mean[c], value[c / 2]);
    }
}
END_TEST

/* ---- edges ------------------------------------------------------------- */

static const struct spread_row {
    size_t count;
    double at[4], want[4];
} spreads[] = {
    {0, {0}, {0}},
    {1, {-5.0}, {0.0}},
    {1, {300.0}, {100.0}},
    {1, {40.0}, {40.0}},
    {2, {98.0, 99.0}, {60.0, 100.0}},
    {2, {1.0, 2.0}, {0.0, 40.0}},
    {3, {50.0, 50.0, 50.0}, {10.0, 50.0, 90.0}},
};

START_TEST(labels_at_an_edge_are_pushed_from_it)
{
    const struct spread_row *row = &spreads[_i];
    double at[4];
    memcpy(at, row->at, sizeof at);
    bw_spread(at, row->count, 40.0, 0.0, 100.0);
    for (size_t i = 0; i < row->count; i++)
        ck_assert_double_eq_tol(at[i], row->want[i], 0.01);
}
END_TEST

/* No room for all: apart all the same, and the last at the edge. */
START_TEST(labels_without_room_stay_apart)
{
    double at[] = {10.0, 10.0, 50.0, 90.0, 90.0};
    bw_spread(at, 5, 40.0, 0.0, 100.0);
    for (int i = 0; i < 4; i++)
        ck_assert_double_ge(at[i + 1] - at[i], 40.0 - 1e-6);
    ck_assert_double_le(at[4], 100.0 + 1e-9);
}
END_TEST

START_TEST(many_labels_of_one_place_stay_in_order)
{
    double at[20];
    for (int i = 0; i < 20; i++)
        at[i] = 295.0;
    bw_spread(at, 20, 11.5, 0.0, 300.0);
    for (int i = 0; i < 19; i++)
        ck_assert_double_ge(at[i + 1] - at[i], 11.5 - 1e-6);
    ck_assert_double_ge(at[0], 0.0);
    ck_assert_double_le(at[19], 300.0 + 1e-9);
}
END_TEST

START_TEST(a_scale_of_no_length_puts_all_in_its_middle)
{
    const bw_scale flat = {5.0, 5.0, 0.0, 400.0, false};
    const bw_scale flat_log = {5.0, 5.0, 0.0, 400.0, true};
    ck_assert_double_eq(bw_scale_at(&flat, 5.0), 200.0);
    ck_assert_double_eq(bw_scale_at(&flat, 7.0), 200.0);
    ck_assert_double_eq(bw_scale_at(&flat_log, 5.0), 200.0);
}
END_TEST

START_TEST(a_range_is_rounded_outwards_and_never_empty)
{
    static const struct {
        double low, high, want_low, want_high;
    } cases[] = {
        {0.0, 23.0, 0.0, 25.0}, {-7.0, 21.0, -10.0, 30.0}, {3.0, 3.0, 3.0, 4.0},
        {0.0, 0.0, 0.0, 1.0},   {5.0, 2.0, 5.0, 6.0},      {0.0, 1e9, 0.0, 1e9},
    };
    double low = cases[_i].low, high = cases[_i].high;
    bw_round_range(&low, &high, 5);
    ck_assert_double_eq_tol(low, cases[_i].want_low, 1e-9);
    ck_assert_double_eq_tol(high, cases[_i].want_high, 1e-6);
}
END_TEST

START_TEST(logarithmic_ticks_need_a_range_above_nought)
{
    ck_assert_uint_eq(bw_ticks_log(-1.0, 10.0, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_log(5.0, 5.0, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_log(1.0, (double)INFINITY, 5).count, 0);
    ck_assert_uint_eq(bw_ticks_log((double)NAN, 5.0, 5).count, 0);
    /* sixteen powers of ten, at most five ticks: every fourth */
    bw_ticks t = bw_ticks_log(1e-8, 1e8, 5);
    ck_assert_uint_le(t.count, 5);
    ck_assert_double_eq_tol(t.value[1] / t.value[0], 1e4, 1e-3);
}
END_TEST

START_TEST(a_path_leaves_out_what_is_no_place)
{
    bw_path p = {0};
    bw_path_move(&p, (double)NAN, 20.0);
    bw_path_line(&p, 1.0, (double)INFINITY);
    bw_path_line(&p, 1e9, 1.0);
    ck_assert_str_eq(p.text, "M0 20l1-20l-1 1");
    bw_path_free(&p);
}
END_TEST

/* ---- markup ------------------------------------------------------------ */

typedef struct page {
    char text[2048];
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
                     "data-y=\"0.5 - -3\">1 &lt; 2 \xc2\xb0\\xff"
                     "?<br/><b></b><i/>"
                     "</p>\n");
}
END_TEST

/* Bytes, and what a page makes of them. */
static const struct character_row {
    const char *bytes, *want;
} characters[] = {
    {"\xc3\xa4", "\xc3\xa4"},
    {"\xe6\x9c\xa8", "\xe6\x9c\xa8"},
    {"\xf0\x9f\x8c\xb2", "\xf0\x9f\x8c\xb2"},
    {"\xc2\x85", "\\xc2\\x85"},                   /* a C1 control */
    {"\xed\xa0\x80", "\\xed\\xa0\\x80"},          /* half of a surrogate pair */
    {"\xee\x80\x80", "\xee\x80\x80"},             /* private, but a character */
    {"\xef\xbf\xbe", "\\xef\\xbf\\xbe"},          /* U+FFFE */
    {"\xf0\x9f\xbf\xbf", "\\xf0\\x9f\\xbf\\xbf"}, /* U+1FFFF */
    {"\xf4\x90\x80\x80", "\\xf4\\x90\\x80\\x80"}, /* beyond the last */
    {"\xf5\x80\x80\x80", "\\xf5\\x80\\x80\\x80"},
    {"\xc0\xaf", "\\xc0\\xaf"}, /* '/' made too long */
    {"\xe0\x80\xaf", "\\xe0\\x80\\xaf"},
    {"\xf0\x80\x80\xaf", "\\xf0\\x80\\x80\\xaf"},
    {"\x80", "\\x80"},          /* the middle of none */
    {"\xe6\x9c", "\\xe6\\x9c"}, /* cut short */
    {"\xe6"
     "ab",
     "\\xe6ab"},
    {"\x7f\x1b", "??"},
    {"a\tb\nc", "a b c"},
    {"\xe2\x80\xae"
     "b",
     "?b"}, /* would turn what follows */
    {"\xe2\x81\xa9", "?"},
    {"\xe2\x80\xa8", "?"}, /* would end the line */
    {"\xe2\x80\x8f", "\xe2\x80\x8f"},
};

START_TEST(only_characters_that_say_what_they_are_reach_the_page)
{
    char want[64];
    page p = {.room = sizeof p.text - 1};
    bw_markup out;
    bw_markup_start(&out, take, &p);
    bw_tag_whole(&out, "p", NULL, characters[_i].bytes);
    ck_assert(bw_markup_finish(&out));
    snprintf(want, sizeof want, "<p>%s</p>\n", characters[_i].want);
    ck_assert_str_eq(p.text + strlen(start_of_page), want);
}
END_TEST

START_TEST(marks_and_axes_are_drawn_with_numbers_only)
{
    page p = {.room = sizeof p.text - 1};
    bw_markup out;
    bw_chart c;
    bw_markup_start(&out, take, &p);
    bw_chart_start(&c, &out, 100.0, 50.0, "t", "d");
    bw_chart_box(&c, 0.0, 0.0, 100.0, 50.0);
    bw_chart_range_x(&c, 0.0, 10.0);
    bw_chart_range_y(&c, 0.0, 10.0);
    size_t from = p.used;
    bw_chart_mark(&c, BW_SHAPE_RING, "r", 5.0, 5.0);
    bw_chart_mark(&c, BW_SHAPE_DOT, "r", 5.0, (double)NAN);
    bw_ticks none = {0};
    bw_chart_axis_x(&c, &none, "");
    bw_chart_end(&c);
    ck_assert(bw_markup_finish(&out));
    ck_assert_ptr_nonnull(strstr(
        p.text + from, "<circle class=\"r\" cx=\"50\" cy=\"25\" r=\"3\"/>"));
    ck_assert_ptr_nonnull(strstr(p.text, "cy=\"0\" r=\"2.2\"/>"));
    ck_assert_ptr_null(strstr(p.text, "class=\"unit\""));
    ck_assert_ptr_null(strstr(p.text, "nan"));
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

/* ---- a quantity over a plane ------------------------------------------- */

static paper drawn;
static svg_path outline;

/* z = x + y over a unit square of 7 by 5 meshes, drawn 100 by 100. */
static void draw_slope(double level, bool region)
{
    static const double x[] = {0.0, 0.1, 0.3, 0.35, 0.6, 0.8, 0.95, 1.0};
    static const double y[] = {0.0, 0.2, 0.25, 0.5, 0.9, 1.0};
    double z[6 * 8];
    for (size_t r = 0; r < 6; r++)
        for (size_t c = 0; c < 8; c++)
            z[8 * r + c] = x[c] + y[r];
    const bw_field field = {x, y, 8, 6, z};
    bw_markup out;
    bw_chart chart;
    paper_clear(&drawn);
    bw_markup_start(&out, paper_take, &drawn);
    bw_chart_start(&chart, &out, 100.0, 100.0, "slope", "of a plane");
    bw_chart_box(&chart, 0.0, 0.0, 100.0, 100.0);
    bw_chart_range_x(&chart, 0.0, 1.0);
    bw_chart_range_y(&chart, 1.0, 0.0);
    (region ? bw_chart_region : bw_chart_isoline)(&chart, "shape", &field,
                                                  level);
    bw_chart_end(&chart);
    ck_assert(bw_markup_finish(&out));
    const char *d = strstr(drawn.text, " d=\"");
    ck_assert_ptr_nonnull(d);
    *strchr(d + 4, '"') = '\0';
    svg_read(&outline, d + 4);
}

/* Of the unit square the part with x + y >= level is 1 - level^2 / 2 up to
 * level 1: elementary geometry. */
START_TEST(a_region_has_the_area_above_its_level)
{
    static const double levels[] = {-0.5, 0.3, 0.5, 0.87, 1.0};
    const double level = levels[_i] > 0.0 ? levels[_i] : 0.0;
    draw_slope(levels[_i], true);
    ck_assert_double_eq_tol(svg_area(&outline),
                            1e4 * (1.0 - 0.5 * level * level), 15.0);
    ck_assert(svg_holds(&outline, 97.3, 96.1));
    ck_assert_int_eq(svg_holds(&outline, 31.0, 36.0), 0.67 >= levels[_i]);
}
END_TEST

START_TEST(an_isoline_lies_at_its_level)
{
    draw_slope(0.7, false);
    ck_assert_uint_ge(outline.count, 8);
    double length = 0.0;
    for (size_t i = 0; i < outline.count; i++) {
        const svg_point p = outline.point[i];
        ck_assert_double_eq_tol(p.x + p.y, 70.0, 0.11);
        if (!p.begins)
            length += hypot(p.x - outline.point[i - 1].x,
                            p.y - outline.point[i - 1].y);
    }
    ck_assert_double_eq_tol(length, 70.0 * sqrt(2.0), 1.0);
}
END_TEST

SUITE("chart", EACH(a_region_has_the_area_above_its_level, 5),
      FACT(an_isoline_lies_at_its_level), EACH(ticks_are_round_and_inside, 5),
      FACT(ticks_of_nothing_are_none),
      FACT(logarithmic_ticks_are_ones_twos_and_fives),
      FACT(a_logarithmic_scale_puts_the_geometric_mean_in_the_middle),
      FACT(a_scale_of_one_value_puts_it_in_the_middle),
      FACT(labels_end_up_apart_in_order_and_inside),
      FACT(a_path_is_relative_and_drifts_not),
      FACT(columns_keep_the_least_and_the_most),
      FACT(more_columns_than_values_repeat_them),
      EACH(labels_at_an_edge_are_pushed_from_it, 7),
      FACT(labels_without_room_stay_apart),
      FACT(many_labels_of_one_place_stay_in_order),
      FACT(a_scale_of_no_length_puts_all_in_its_middle),
      EACH(a_range_is_rounded_outwards_and_never_empty, 6),
      FACT(logarithmic_ticks_need_a_range_above_nought),
      FACT(a_path_leaves_out_what_is_no_place),
      {only_characters_that_say_what_they_are_reach_the_page,
       COUNT(characters)},
      FACT(marks_and_axes_are_drawn_with_numbers_only),
      FACT(markup_nests_escapes_and_ends_what_is_open),
      FACT(markup_that_is_refused_says_so_at_the_end))
