/* Every mark of the charts of a replay lies at the hour and the number it
 * stands for: lines of what was measured and computed, and of their difference,
 * by the hour or as means of days, in pieces where hours lack; the days below
 * them, the end of the run-in, what loggers tell. */

#include <string.h>

#include "day.h"
#include "full_replay.h"
#include "marks_case.h"

enum { HOURS_MOST = 100 * 24, DAY_HOURS = 24 };

static bw_replay_hour hours[HOURS_MOST];

/* Of one chart: its points, as they should be. */
static double at[HOURS_MOST], measured[HOURS_MOST], computed[HOURS_MOST],
    differs[HOURS_MOST];
static size_t points;

static bool lacks(size_t hour)
{
    return (hour > 20 && hour < 29) || hour == 40 || (hour > 300 && hour < 350);
}

/* From 19 February 2031, 6 o'clock, in seconds since 1970. */
static const double BEGUN = 22329.25 * 86400.0;

static void random_replay(int seed, size_t count)
{
    start(seed);
    page_setup();
    full_replay_make(&logged);
    for (size_t h = 0; h < count; h++) {
        const bool none = lacks(h);
        hours[h] = (bw_replay_hour){
            .theta = none ? (double)NAN : between(&die, -4.0, 9.0),
            .rh = none ? (double)NAN : between(&die, 0.35, 0.95),
            .theta_computed = between(&die, -4.0, 9.0),
            .rh_computed = between(&die, 0.35, 0.95),
            .compared = !none && h >= 10};
    }
    logged.place[0].hour = hours;
    logged.place[0].all.theta_bias = between(&die, -2.0, 2.0);
    logged.place[0].all.rh_bias = between(&die, -0.2, 0.2);
    logged.replay.start = BEGUN;
    logged.replay.hour_count = count;
    logged.replay.run_in = 10;
}

static void print_replay(void)
{
    const bw_results of = {.replay = &logged.replay};
    paper_clear(&page);
    ck_assert_int_eq(bw_report(&of, BW_DOCUMENT_REPLAY, BW_FORM_PAGE, NULL,
                               paper_take, &page, NULL),
                     BW_OK);
    parse();
}

/* Hours as they are; of days the mean of those of which more than half are
 * there, and a difference only of days compared as a whole. */
static void expect_points(bool humidity, size_t each)
{
    points = logged.replay.hour_count / each;
    for (size_t i = 0; i < points; i++) {
        double sum[2] = {0.0, 0.0};
        size_t there = 0, compared = 0;
        for (size_t h = i * each; h < (i + 1) * each; h++) {
            const bw_replay_hour *is = &hours[h];
            compared += is->compared;
            sum[1] += humidity ? 100.0 * is->rh_computed : is->theta_computed;
            if (isnan(is->theta))
                continue;
            there++;
            sum[0] += humidity ? 100.0 * is->rh : is->theta;
        }
        at[i] = each == 1 ? (double)i / DAY_HOURS : (double)i + 0.5;
        measured[i] = 2 * there > each ? sum[0] / (double)there : (double)NAN;
        computed[i] = sum[1] / (double)each;
        differs[i] = compared == each ? computed[i] - measured[i] : (double)NAN;
    }
}

/* From the first hour at the left end to the last at the right one. */
static axis read_days(void)
{
    read_outline("axis", 0);
    const double left = outline.point[0].x, right = outline.point[1].x;
    const double days = (double)(logged.replay.hour_count - 1) / DAY_HOURS;
    ck_assert_uint_eq(outline.count, 2);
    ck_assert_double_eq_tol(outline.point[0].y, outline.point[1].y, 0.01);
    ck_assert_double_gt(right - left, 250.0);
    return (axis){.at0 = -days * left / (right - left),
                  .per = days / (right - left),
                  .line = outline.point[0].y};
}

/* One line a run of points that are there; a point alone is no line. */
static size_t pieces_are(const char *class_name, const axis *x, const axis *y,
                         const double *value)
{
    size_t pieces = 0;
    for (size_t i = 0, end; i < points; i = end + 1) {
        for (end = i; end < points && !isnan(value[end]);)
            end++;
        if (end > i + 1)
            line_is(class_name, pieces++, x, y, at + i, value + i, end - i);
    }
    return pieces;
}

/* A stroke below the axis and its words, at the day they name. */
static void days_are_named(const axis *x)
{
    const double days = (double)(logged.replay.hour_count - 1) / DAY_HOURS;
    const bool by_months = days >= 45.0;
    size_t named = 0;
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind != DRAWN_PATH || strcmp(m->class_name, "axis") != 0)
            continue;
        svg_read(&outline, m->text);
        if (outline.count != 2 || fabs(outline.point[0].y - x->line) > 0.05 ||
            fabs(outline.point[1].y - x->line - 4.0) > 0.11)
            continue;
        const drawn *words = &chart.mark[i + 1];
        const double day = axis_value(x, outline.point[0].x);
        const double since = BEGUN / 86400.0 + day;
        char text[BW_DAY_TEXT];
        bw_day_text(text, lround(since));
        ck_assert_double_eq_tol(since, round(since), 0.2);
        ck_assert_double_eq_tol(words->x, outline.point[0].x, 0.11);
        ck_assert_double_eq_tol(words->y, x->line + 13.0, 0.11);
        if (!by_months) {
            ck_assert_str_eq(words->text, text + 5);
        } else {
            ck_assert_str_eq(text + 8, "01");
            ck_assert_str_eq(words->text, text[6] == '3'   ? "Mar"
                                          : text[6] == '4' ? "Apr"
                                                           : "May");
        }
        named++;
    }
    ck_assert_uint_ge(named, by_months ? (size_t)(days / 31.0) : 3);
    ck_assert_uint_le(named, 7);
}

static void check_course(bool humidity, size_t each)
{
    must_read_chart(humidity ? "//figure[@data-chart='replay-humidity']"
                             : "//figure[@data-chart='replay-temperature']",
                    0);
    expect_points(humidity, each);
    const axis x = read_days(), y = read_axis(true, false);
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (size_t i = 0; i < points; i++) {
        low = fmin(low, fmin(measured[i], computed[i]));
        high = fmax(high, fmax(measured[i], computed[i]));
    }
    holds_all(&y, low, high);
    has_unit(&y, true, humidity ? "RH %" : "\u00b0C");
    const size_t lines = pieces_are("main", &x, &y, measured);
    ck_assert_uint_ge(lines, 2);
    ck_assert_uint_eq(pieces_are("wetdash", &x, &y, computed), 1);
    /* and one of each beside its name */
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "main"), lines + 1);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "wetdash"), 2);
    const char *const named[][2] = {{"main", "measured"},
                                    {"wetdash", "computed"}};
    for (size_t i = 0; i < 2; i++) {
        read_outline(named[i][0], i == 0 ? lines : 1);
        const drawn *name = text_of("num", named[i][1]);
        ck_assert_ptr_nonnull(name);
        ck_assert_double_lt(name->x - outline.point[1].x, 8.0);
        ck_assert_double_gt(name->x, outline.point[1].x);
        ck_assert_double_eq_tol(name->y - 3.5, outline.point[1].y, 0.3);
    }
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "limit"), 1);
    read_outline("limit", 0);
    for (size_t i = 0; i < 2; i++)
        ck_assert_double_eq_tol(outline.point[i].x,
                                axis_place(&x, 10.0 / DAY_HOURS), PAPER);
    days_are_named(&x);
}

static void check_difference(bool humidity, size_t each)
{
    must_read_chart("//figure[@data-chart='replay-difference']", humidity);
    expect_points(humidity, each);
    const axis x = read_days(), y = read_axis(true, false);
    double most = 0.0;
    for (size_t i = 0; i < points; i++)
        most = fmax(most, fabs(differs[i]));
    holds_all(&y, -most, most);
    const size_t lines = pieces_are("main", &x, &y, differs);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "main"), lines);
    ck_assert_uint_ge(lines, 2);
    /* what such loggers tell: 0.5 K and 3 % RH (docs/methods.md, Replay) */
    const double tells = humidity ? 3.0 : 0.5;
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "limit"), 2);
    for (size_t i = 0; i < 2; i++) {
        read_outline("limit", i);
        ck_assert_double_eq_tol(outline.point[0].y,
                                axis_place(&y, i == 0 ? tells : -tells), PAPER);
        ck_assert_double_eq_tol(outline.point[1].y, outline.point[0].y, 0.05);
    }
    ck_assert_ptr_nonnull(text_of("num", humidity ? "+3" : "+0.5"));
    ck_assert_ptr_nonnull(text_of("num", humidity ? "-3" : "-0.5"));
    char text[64];
    snprintf(text, sizeof text, "At most %.1f %s either way.", most,
             humidity ? "percent" : "kelvin");
    HAS(page.text, text);
}

START_TEST(each_hour_lies_at_its_time_and_number)
{
    random_replay(_i, _i == 0 ? 5 * DAY_HOURS : 20 * DAY_HOURS);
    print_replay();
    for (int humidity = 0; humidity < 2; humidity++) {
        check_course(humidity, 1);
        check_difference(humidity, 1);
    }
    HAS(page.text, "By the hour, UTC.");
    HAS(page.text, "by the hour, between");
    page_teardown();
}
END_TEST

START_TEST(each_day_lies_at_its_middle_and_mean)
{
    random_replay(_i, _i == 0 ? 45 * DAY_HOURS : 99 * DAY_HOURS);
    print_replay();
    for (int humidity = 0; humidity < 2; humidity++) {
        check_course(humidity, DAY_HOURS);
        check_difference(humidity, DAY_HOURS);
    }
    HAS(page.text, "Means of days (UTC blocks of 24 hours).");
    HAS(page.text, "means of days, between");
    page_teardown();
}
END_TEST

/* What was not measured has no chart; what was not compared no difference. */
START_TEST(what_was_not_measured_is_not_drawn)
{
    random_replay(_i, 5 * DAY_HOURS);
    logged.channel.has_humidity = _i == 0;
    logged.channel.has_temperature = _i == 1;
    logged.replay.assessed = _i != 2;
    if (_i == 2)
        logged.channel.has_humidity = logged.channel.has_temperature = true;
    if (_i == 3)
        logged.replay.place_count = 0;
    print_replay();
    ck_assert(read_chart("//figure[@data-chart='replay-temperature']", 0) ==
              (_i == 1 || _i == 2));
    ck_assert(read_chart("//figure[@data-chart='replay-humidity']", 0) ==
              (_i == 0 || _i == 2));
    ck_assert(read_chart("//figure[@data-chart='replay-difference']", 0) ==
              (_i < 2));
    page_teardown();
}
END_TEST

/* One point is no course, and two are. */
START_TEST(a_single_hour_is_no_course)
{
    for (size_t count = 1; count <= 2; count++) {
        random_replay(_i, count);
        print_replay();
        ck_assert(read_chart("//figure[@data-chart='replay-temperature']", 0) ==
                  (count == 2));
        ck_assert(read_chart("//figure[@data-chart='replay-humidity']", 0) ==
                  (count == 2));
        page_teardown();
    }
}
END_TEST

/* The figures it carries are those of the place. */
START_TEST(a_chart_of_a_replay_carries_its_bias)
{
    random_replay(7, 5 * DAY_HOURS);
    logged.place[0].all.rh_bias = _i == 0 ? 0.0625 : (double)NAN;
    print_replay();
    const bw_replay_figures *f = &logged.place[0].all;
    ck_assert_double_eq_tol(
        number_at("number(//figure[@data-chart='replay-temperature']/"
                  "@data-bias)"),
        f->theta_bias, 1e-7);
    ck_assert_double_eq_tol(
        number_at("number(//figure[@data-chart='replay-temperature']/"
                  "@data-rms)"),
        f->theta_rms, 1e-7);
    ck_assert_uint_eq(
        COUNT_OF("//figure[@data-chart='replay-humidity']/@data-bias"),
        _i == 0);
    if (_i == 0) {
        ck_assert_double_eq_tol(
            number_at("number(//figure[@data-chart='replay-humidity']/"
                      "@data-bias)"),
            6.25, 1e-7);
        ck_assert_double_eq_tol(
            number_at("number(//figure[@data-chart='replay-humidity']/"
                      "@data-rms)"),
            100.0 * f->rh_rms, 1e-7);
    }
    page_teardown();
}
END_TEST

SUITE("marks_replay", EACH(each_hour_lies_at_its_time_and_number, 2),
      EACH(each_day_lies_at_its_middle_and_mean, 2),
      EACH(what_was_not_measured_is_not_drawn, 4),
      EACH(a_single_hour_is_no_course, 2),
      EACH(a_chart_of_a_replay_carries_its_bias, 2))
