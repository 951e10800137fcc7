/* Charts at random: whatever the scales, what is drawn of a datum stands where
 * the scales say, to the tenth of a unit to which places are written. How far
 * labels and ticks stand off an axis is our own choice (regression values). */

#include "chart_paper.h"

enum { POINTS = 12 };

static void is_at(size_t point, double x, double y)
{
    ck_assert_uint_lt(point, outline.count);
    ck_assert_double_eq_tol(outline.point[point].x, x, TENTH);
    ck_assert_double_eq_tol(outline.point[point].y, y, TENTH);
}

/* ---- data -----------------------------------------------------------------
 */

static void draw_values(double *x, double *low, double *high)
{
    for (size_t i = 0; i < POINTS; i++) {
        x[i] = between(&die, -100.0, 100.0);
        low[i] = between(&die, -100.0, 100.0);
        high[i] = between(&die, -100.0, 100.0);
    }
}

START_TEST(a_line_goes_through_its_data)
{
    double x[POINTS], y[POINTS], none[POINTS];
    for (int draw = 0; draw < DRAWS; draw++) {
        open_chart();
        draw_values(x, y, none);
        bw_chart_line(&chart, "main", x, y, POINTS);
        const char *is = close_chart();
        read_path(element_of(is, "path class=\"main\"", 0));
        ck_assert_uint_eq(outline.count, POINTS);
        for (size_t i = 0; i < POINTS; i++)
            is_at(i, where_x(x[i]), where_y(y[i]));
    }
}
END_TEST

/* Along the upper edge, and back along the lower. */
START_TEST(a_band_lies_between_its_edges)
{
    double x[POINTS], low[POINTS], high[POINTS];
    for (int draw = 0; draw < DRAWS; draw++) {
        open_chart();
        draw_values(x, low, high);
        bw_chart_band(&chart, "band", x, low, high, POINTS);
        const char *is = close_chart();
        read_path(element_of(is, "path class=\"band\"", 0));
        ck_assert_uint_eq(outline.count, 2 * POINTS);
        for (size_t i = 0; i < POINTS; i++) {
            is_at(i, where_x(x[i]), where_y(high[i]));
            is_at(2 * POINTS - 1 - i, where_x(x[i]), where_y(low[i]));
        }
        ck_assert_ptr_nonnull(strstr(is, "z\"/>"));
    }
}
END_TEST

START_TEST(a_mark_stands_at_its_datum)
{
    for (int draw = 0; draw < DRAWS; draw++) {
        const double x = between(&die, -100.0, 100.0);
        const double y = between(&die, -100.0, 100.0);
        open_chart();
        bw_chart_mark(&chart, BW_SHAPE_DOT, "dot", x, y);
        bw_chart_mark(&chart, BW_SHAPE_RING, "ring", x, y);
        bw_chart_mark(&chart, BW_SHAPE_DROP, "drop", x, y);
        const char *is = close_chart();
        for (size_t k = 0; k < 2; k++) {
            const char *mark = element_of(is, "circle", k);
            ck_assert_double_eq_tol(attribute(mark, "cx"), where_x(x), TENTH);
            ck_assert_double_eq_tol(attribute(mark, "cy"), where_y(y), TENTH);
            ck_assert_double_eq(attribute(mark, "r"), k == 0 ? 2.2 : 3.0);
        }
        /* hangs below its point, even on both sides (regression values) */
        static const double drop[][2] = {
            {0.0, 0.0}, {3.6, 6.5}, {2.2, 9.5}, {-2.2, 9.5}, {-3.6, 6.5}};
        read_path(element_of(is, "path class=\"drop\"", 0));
        ck_assert_uint_eq(outline.count, COUNT(drop));
        for (size_t i = 0; i < COUNT(drop); i++)
            is_at(i, where_x(x) + drop[i][0], where_y(y) + drop[i][1]);
    }
}
END_TEST

START_TEST(a_rectangle_and_words_stand_where_they_are_put)
{
    static const struct {
        bw_anchor anchor;
        const char *word;
    } anchors[] = {{BW_START, NULL}, {BW_MIDDLE, "middle"}, {BW_END, "end"}};
    for (int draw = 0; draw < DRAWS; draw++) {
        double at[4];
        open_chart();
        for (int i = 0; i < 4; i++)
            at[i] = between(&die, 0.0, 300.0);
        bw_chart_rect(&chart, "box", at[0], at[1], at[2], at[3]);
        bw_chart_text(&chart, "words", at[2], at[0], anchors[draw % 3].anchor,
                      "a word");
        const char *is = close_chart();
        static const char *const names[] = {"x", "y", "width", "height"};
        for (int i = 0; i < 4; i++)
            ck_assert_double_eq_tol(
                attribute(element_of(is, "rect", 0), names[i]), at[i], TENTH);
        const char *text = element_of(is, "text", 0);
        ck_assert_double_eq_tol(attribute(text, "x"), at[2], TENTH);
        ck_assert_double_eq_tol(attribute(text, "y"), at[0], TENTH);
        char anchor[64] = "text-anchor=";
        if (anchors[draw % 3].word != NULL)
            snprintf(anchor, sizeof anchor, "text-anchor=\"%s\">a word<",
                     anchors[draw % 3].word);
        ck_assert_int_eq(strstr(text, anchor) != NULL,
                         anchors[draw % 3].word != NULL);
    }
}
END_TEST

/* A tenth is the least; what is whole has no point; what is none is 0. */
START_TEST(places_are_written_to_a_tenth)
{
    open_chart();
    bw_chart_rect(&chart, "box", 12.04, 7.0, 10.96, (double)NAN);
    bw_chart_rect(&chart, "box", -0.26, 100.0, 20.5, (double)INFINITY);
    const char *is = close_chart();
    HAS(is, "x=\"12\" y=\"7\" width=\"11\" height=\"0\"");
    HAS(is, "x=\"-0.3\" y=\"100\" width=\"20.5\" height=\"0\"");
}
END_TEST

START_TEST(a_drawing_says_how_large_it_is_and_what)
{
    paper_clear(&drawn);
    bw_markup_start(&out, paper_take, &drawn);
    for (int i = 1; i <= 3; i++) {
        char head[256];
        bw_chart_start(&chart, &out, 640.9, 33.2, "one", "two");
        bw_chart_end(&chart);
        snprintf(head, sizeof head,
                 "viewBox=\"0 0 640 33\" role=\"img\" aria-labelledby=\"t%d "
                 "d%d\"><title id=\"t%d\">one</title><desc id=\"d%d\">two"
                 "</desc></svg>",
                 i, i, i, i);
        bw_tag_text(&out, "\n");
        ck_assert_int_eq(out.serial, i);
        if (i == 3) {
            ck_assert(bw_markup_finish(&out));
            HAS(drawn.text, head);
        }
    }
}
END_TEST

/* ---- axes -----------------------------------------------------------------
 */

static void stroke_is(const char *from, size_t nth, double x0, double y0,
                      double x1, double y1)
{
    read_path(element_of(from, "path", nth));
    is_at(0, x0, y0);
    if (fabs(x1 - x0) > 0.1 || fabs(y1 - y0) > 0.1)
        is_at(1, x1, y1);
}

static void words_are(const char *from, size_t nth, double x, double y,
                      const char *words)
{
    const char *text = element_of(from, "text", nth);
    ck_assert_double_eq_tol(attribute(text, "x"), x, TENTH);
    ck_assert_double_eq_tol(attribute(text, "y"), y, TENTH);
    const char *is = strchr(text, '>') + 1;
    ck_assert_msg(strncmp(is, words, strlen(words)) == 0 &&
                      is[strlen(words)] == '<',
                  "not %s: %.20s", words, is);
}

START_TEST(each_tick_stands_at_its_value)
{
    for (int draw = 0; draw < DRAWS; draw++) {
        bw_ticks t = {.count = 3, .decimals = draw % 4 - 1};
        char text[3][32];
        open_chart();
        for (size_t i = 0; i < t.count; i++) {
            t.value[i] = floor(between(&die, -80.0, 80.0));
            snprintf(text[i], sizeof text[i], "%.*f",
                     t.decimals < 0 ? 0 : t.decimals, t.value[i]);
        }
        bw_chart_axis_x(&chart, &t, "month");
        const char *is = close_chart();
        stroke_is(is, 0, chart.left, chart.bottom, chart.right, chart.bottom);
        for (size_t i = 0; i < t.count; i++) {
            const double x = where_x(t.value[i]);
            stroke_is(is, i + 1, x, chart.bottom, x, chart.bottom + 3.0);
            words_are(is, i, x, chart.bottom + 13.0, text[i]);
        }
        words_are(is, t.count, chart.right, chart.bottom + 25.0, "month");
        ck_assert_ptr_null(element_of(is, "path", t.count + 1));
    }
}
END_TEST

/* A short unit stands over the figures, a long one begins at the edge. */
START_TEST(each_tick_up_the_side_stands_at_its_value)
{
    static const char *const titles[] = {"K", "g/m", "kg/m"};
    for (int draw = 0; draw < DRAWS; draw++) {
        bw_ticks t = {.count = 3, .decimals = 1};
        const char *title = titles[draw % 3];
        const bool brief = draw % 3 < 2;
        open_chart();
        for (size_t i = 0; i < t.count; i++)
            t.value[i] = floor(between(&die, -80.0, 80.0));
        bw_chart_axis_y(&chart, &t, title);
        bw_chart_rules_y(&chart, &t);
        const char *is = close_chart();
        stroke_is(is, 0, chart.left, chart.top, chart.left, chart.bottom);
        for (size_t i = 0; i < t.count; i++) {
            char text[32];
            const double y = where_y(t.value[i]);
            snprintf(text, sizeof text, "%.1f", t.value[i]);
            stroke_is(is, i + 1, chart.left - 3.0, y, chart.left, y);
            words_are(is, i, chart.left - 5.0, y + 3.5, text);
            stroke_is(is, t.count + 1 + i, chart.left, y, chart.right, y);
        }
        words_are(is, t.count, brief ? chart.left - 5.0 : 1.0, chart.top - 8.0,
                  title);
        ck_assert_int_eq(strstr(element_of(is, "text", t.count),
                                "text-anchor=\"end\">") != NULL,
                         brief);
    }
}
END_TEST

SUITE_AROUND("chart_places", start, NULL, FACT(a_line_goes_through_its_data),
             FACT(a_band_lies_between_its_edges),
             FACT(a_mark_stands_at_its_datum),
             FACT(a_rectangle_and_words_stand_where_they_are_put),
             FACT(places_are_written_to_a_tenth),
             FACT(a_drawing_says_how_large_it_is_and_what),
             FACT(each_tick_stands_at_its_value),
             FACT(each_tick_up_the_side_stands_at_its_value))
