/* Round values, scales, labels, columns and paths at random: ticks are all the
 * round values there is room for, and no others; a scale has equal lengths for
 * equal steps or ratios; what is gathered or written down reads back. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"
#include "random_wall.h"
#include "suite.h"
#include "svg_path.h"

static dice die;
static svg_path outline;

static void start(void)
{
    die = (dice){.state = 88172645463325252u};
}

/* ---- round values ---------------------------------------------------------
 */

/* 1, 2 or 5 times a power of ten? */
static bool is_nice(double step)
{
    const double lead = step / pow(10.0, floor(log10(step) + 1e-9));
    return fabs(lead - 1.0) < 1e-6 || fabs(lead - 2.0) < 1e-6 ||
           fabs(lead - 5.0) < 1e-6;
}

/* The next smaller such step. */
static double finer(double step)
{
    const double lead = step / pow(10.0, floor(log10(step) + 1e-9));
    return step / (fabs(lead - 5.0) < 1e-6 ? 2.5 : 2.0);
}

static bool is_multiple(double value, double step)
{
    return fabs(value / step - round(value / step)) < 1e-6;
}

START_TEST(ticks_are_all_the_multiples_of_the_finest_step_there_is_room_for)
{
    for (int draw = 0; draw < 5000; draw++) {
        const double span = decades(&die, -3.0, 4.0);
        const double low = span * between(&die, -50.0, 50.0);
        const double high = low + span;
        const size_t most = 2 + (size_t)between(&die, 0.0, 12.0);
        const bw_ticks t = bw_ticks_make(low, high, most);
        const double eps = 1e-6 * (high - low);
        ck_assert_uint_le(t.count, most + 1);
        if (t.count < 2)
            continue;
        const double step = t.value[1] - t.value[0];
        ck_assert(is_nice(step));
        ck_assert_double_le((high - low) / step, (double)most + 1e-6);
        ck_assert_double_gt((high - low) / finer(step), (double)most - 1e-6);
        for (size_t i = 0; i < t.count; i++) {
            ck_assert(is_multiple(t.value[i], step));
            ck_assert(t.value[i] >= low - eps && t.value[i] <= high + eps);
            if (i > 0)
                ck_assert_double_eq_tol(t.value[i] - t.value[i - 1], step, eps);
        }
        ck_assert_double_lt(t.value[0] - step, low - eps + 2e-6 * step);
        ck_assert_double_gt(t.value[t.count - 1] + step, high + eps - 1e-5);
        /* as many decimals as tell them, and no more */
        const double unit = pow(10.0, -t.decimals);
        ck_assert(is_multiple(step, unit));
        ck_assert(t.decimals == 0 || !is_multiple(step, 10.0 * unit));
    }
}
END_TEST

/* An end that is a tick itself has one, though the sum is off by a digit. */
START_TEST(ticks_stand_at_the_ends_themselves)
{
    for (int n = 1; n <= 14; n++)
        for (int power = -6; power <= 6; power++) {
            const double step = pow(10.0, power);
            const bw_ticks t = bw_ticks_make(-3.0 * step, (n - 3) * step, 14);
            ck_assert_double_eq_tol(t.value[0], -3.0 * step, 1e-9 * step);
            ck_assert_double_eq_tol(t.value[t.count - 1], (n - 3) * step,
                                    1e-9 * step);
            for (size_t i = 0; i < t.count; i++)
                ck_assert(fabs(t.value[i]) > 0.01 * step ||
                          !(fabs(t.value[i]) > 0.0));
        }
}
END_TEST

START_TEST(logarithmic_ticks_are_all_there_are)
{
    static const double lead[] = {1.0, 2.0, 5.0};
    for (int draw = 0; draw < 2000; draw++) {
        const double low = decades(&die, -6.0, 4.0);
        const double high = low * decades(&die, 0.1, 4.5);
        const bw_ticks t = bw_ticks_log(low, high, 14);
        double all[64], ones[64];
        size_t count = 0, tens = 0;
        for (int power = -8; power < 10; power++)
            for (size_t k = 0; k < 3; k++) {
                const double v = lead[k] * pow(10.0, power);
                if (v < low || v > high)
                    continue;
                all[count++] = v;
                if (k == 0)
                    ones[tens++] = v;
            }
        const double *want = count <= 14 ? all : ones;
        ck_assert_int_eq(t.decimals, -1);
        ck_assert_uint_eq(t.count, count <= 14 ? count : tens);
        for (size_t i = 0; i < t.count; i++)
            ck_assert_double_eq_tol(t.value[i] / want[i], 1.0, 1e-9);
    }
}
END_TEST

START_TEST(a_range_is_widened_to_whole_steps_and_no_further)
{
    for (int draw = 0; draw < 5000; draw++) {
        const double span = decades(&die, -3.0, 4.0);
        const double low = span * between(&die, -50.0, 50.0);
        const double high = low + span;
        const size_t most = 1 + (size_t)between(&die, 0.0, 13.0);
        double from = low, to = high, step = decades(&die, 0, 0);
        bw_round_range(&from, &to, most);
        ck_assert(from <= low + 1e-6 * (high - low) &&
                  to >= high - 1e-6 * (high - low));
        /* the coarsest step that is not needed is the one that was taken */
        for (step = 1e-6; (high - low) / step > (double)most + 1e-6;)
            for (step *= 2.0; !is_nice(step);)
                step *= 1.25;
        ck_assert_msg(is_multiple(from, step) && is_multiple(to, step),
                      "%g..%g by %g: %g..%g", low, high, step, from, to);
        ck_assert_double_lt(low - from, step);
        ck_assert_double_lt(to - high, step);
    }
}
END_TEST

/* ---- scales ---------------------------------------------------------------
 */

START_TEST(equal_steps_or_equal_ratios_are_equal_lengths)
{
    for (int draw = 0; draw < 200; draw++) {
        const double a = between(&die, 0.0, 400.0);
        const double b = between(&die, 0.0, 400.0);
        const double from = decades(&die, -3.0, 3.0);
        const double to = from * decades(&die, 0.2, 3.0);
        const bw_scale flat = {from, to, a, b, false};
        const bw_scale log_ = {from, to, a, b, true};
        for (int i = 0; i <= 4; i++) {
            const double share = 0.25 * i, at = a + share * (b - a);
            ck_assert_double_eq_tol(
                bw_scale_at(&flat, from + share * (to - from)), at, 1e-9);
            ck_assert_double_eq_tol(
                bw_scale_at(&log_, from * pow(to / from, share)), at, 1e-9);
        }
        /* what has no logarithm stands at the first end */
        ck_assert_double_eq_tol(bw_scale_at(&log_, 0.0), a, 1e-9);
        ck_assert_double_eq_tol(bw_scale_at(&log_, -to), a, 1e-9);
        ck_assert_double_eq_tol(bw_scale_at(&log_, 0.5 * from),
                                a + (a - b) * log(2.0) / log(to / from), 1e-7);
    }
}
END_TEST

static int by_place(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Apart, in order and inside where there is room; those that were stay. */
START_TEST(labels_move_no_more_than_they_have_to)
{
    for (int draw = 0; draw < 2000; draw++) {
        double at[8], was[8], mean = 0.0, shifted = 0.0;
        const size_t n = 2 + (size_t)between(&die, 0.0, 6.99);
        const double gap = between(&die, 1.0, 40.0);
        for (size_t i = 0; i < n; i++)
            at[i] = between(&die, 0.0, 400.0);
        qsort(at, n, sizeof *at, by_place);
        bool apart = true;
        memcpy(was, at, sizeof at);
        for (size_t i = 0; i + 1 < n; i++)
            apart = apart && at[i + 1] - at[i] >= gap;
        bw_spread(at, n, gap, 0.0, 400.0);
        for (size_t i = 0; i < n; i++) {
            ck_assert(at[i] > -1e-6 && at[i] < 400.0 + 1e-6);
            ck_assert_msg(!apart || fabs(at[i] - was[i]) < 1e-9, "moved");
            if (i > 0)
                ck_assert_double_ge(at[i] - at[i - 1], gap - 1e-5);
            mean += was[i] / (double)n;
            shifted += at[i] / (double)n;
        }
        /* far from both edges none is pushed one way more than the other */
        if (was[0] > 200.0 && was[n - 1] < 201.0 + gap && n == 2)
            ck_assert_double_eq_tol(shifted, mean, 1e-6);
    }
    double two[] = {200.0, 204.0};
    bw_spread(two, 2, 10.0, 0.0, 400.0);
    ck_assert_double_eq_tol(two[0], 197.0, 1e-5);
    ck_assert_double_eq_tol(two[1], 207.0, 1e-5);
}
END_TEST

/* ---- columns and paths ----------------------------------------------------
 */

START_TEST(a_column_has_the_least_the_most_and_the_mean_of_its_values)
{
    for (int draw = 0; draw < 200; draw++) {
        double value[300], low[40], high[40], mean[40];
        const size_t stride = 1 + (size_t)between(&die, 0.0, 2.99);
        const size_t count = 40 + (size_t)between(&die, 0.0, 60.0);
        const size_t columns = 1 + (size_t)between(&die, 0.0, 38.99);
        for (size_t i = 0; i < stride * count; i++)
            value[i] = between(&die, -5.0, 5.0);
        bw_columns_of(value, stride, count, columns, low, high, mean);
        size_t next = 0;
        for (size_t c = 0; c < columns; c++) {
            double least = HUGE_VAL, most = -HUGE_VAL, sum = 0.0, n = 0.0;
            for (; next < count && next < (c + 1) * count / columns; next++) {
                least = fmin(least, value[next * stride]);
                most = fmax(most, value[next * stride]);
                sum += value[next * stride];
                n++;
            }
            ck_assert_double_eq(low[c], least);
            ck_assert_double_eq(high[c], most);
            ck_assert_double_eq_tol(mean[c], sum / n, 1e-12);
        }
        ck_assert_uint_eq(next, count);
    }
}
END_TEST

/* However long a path and however far it goes, to six digits of a tenth. */
START_TEST(a_path_reads_back_as_it_was_walked)
{
    bw_path p = {0};
    double x[600], y[600];
    size_t count = 0;
    for (int i = 0; i < 600; i++) {
        const double kind = uniform(&die);
        const double far = kind < 0.1 ? 9e4 : 300.0;
        x[count] = kind > 0.8 && count > 0 ? x[count - 1]
                                           : between(&die, -far, far);
        y[count] = kind > 0.6 && kind < 0.8 && count > 0
                       ? y[count - 1]
                       : between(&die, -far, far);
        (i == 0 || kind < 0.05 ? bw_path_move : bw_path_line)(&p, x[count],
                                                              y[count]);
        count++;
    }
    ck_assert(!p.no_memory && p.used < p.room);
    ck_assert_uint_eq(strlen(p.text), p.used);
    svg_read(&outline, p.text);
    ck_assert_uint_eq(outline.count, count);
    for (size_t i = 0; i < count; i++)
        ck_assert(fabs(outline.point[i].x - x[i]) < 0.0501 &&
                  fabs(outline.point[i].y - y[i]) < 0.0501);
    bw_path_clear(&p);
    bw_path_move(&p, 99999.9, -99999.9);
    ck_assert_str_eq(p.text, "M99999.9 -99999.9");
    bw_path_clear(&p);
    bw_path_move(&p, 100000.0, -100000.0);
    ck_assert_str_eq(p.text, "M0 0");
    bw_path_free(&p);
}
END_TEST

SUITE_AROUND(
    "chart_scales", start, NULL,
    FACT(ticks_are_all_the_multiples_of_the_finest_step_there_is_room_for),
    FACT(ticks_stand_at_the_ends_themselves),
    FACT(logarithmic_ticks_are_all_there_are),
    FACT(a_range_is_widened_to_whole_steps_and_no_further),
    FACT(equal_steps_or_equal_ratios_are_equal_lengths),
    FACT(labels_move_no_more_than_they_have_to),
    FACT(a_column_has_the_least_the_most_and_the_mean_of_its_values),
    FACT(a_path_reads_back_as_it_was_walked))
