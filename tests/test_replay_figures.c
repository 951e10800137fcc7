/* Records at random against what is made of them, written down a second time:
 * the hours of readings at odd moments, and the figures of the hours. The
 * formulas are those at the heads of src/replay/hours.c and figures.c. */

#include "random_wall.h"
#include "replay_case.h"

enum { HOURS = 24 * 12, COLUMNS = 6, READINGS_MOST = 20000 };

static const bw_replay_options still = {
    .run_in = -1, .no_trials = true, .threads = 1};

static dice die;

#define LAYERS                                                                 \
    "<layer id=\"outer\" material=\"stone-wool-batt\" thickness=\"60 mm\"/>"   \
    "<layer id=\"inner\" material=\"stone-wool-batt\" thickness=\"100 mm\"/>"
#define PLACE AT("place:outer|inner")

/* ---- readings at odd moments ----------------------------------------------
 */

typedef struct readings {
    size_t count;
    double at[READINGS_MOST]; /* s from 2031-01-01 */
    double value[READINGS_MOST][COLUMNS];
} readings;

static readings taken;

/* Now and then dense, sparse, and far apart; whole minutes. */
static void draw_readings(void)
{
    double at = 0.0;
    taken.count = 0;
    while (at <= 3600.0 * HOURS) {
        const double day = at / 86400.0;
        const double minutes = fmod(day, 3.0) < 1.0 ? between(&die, 5.0, 20.0)
                               : fmod(day, 3.0) < 2.0
                                   ? 30.0
                                   : between(&die, 20.0, 480.0);
        const size_t n = taken.count++;
        ck_assert_uint_lt(taken.count, READINGS_MOST);
        taken.at[n] = at;
        for (int c = 0; c < COLUMNS; c++)
            taken.value[n][c] =
                c > 3 && uniform(&die) < 0.2
                    ? NAN
                    : floor(10.0 * (c % 2 == 0 ? between(&die, 2.0, 20.0)
                                               : between(&die, 30.0, 90.0))) /
                          10.0;
        at += 60.0 * floor(minutes);
    }
}

static void write_readings(void)
{
    size_t used = (size_t)snprintf(log_text, sizeof log_text,
                                   "time_utc,%s,%s,%s\n", ROOM, OUTDOOR, PLACE);
    for (size_t i = 0; i < taken.count; i++) {
        const long minute = lround(taken.at[i] / 60.0);
        char day[BW_DAY_TEXT];
        used += (size_t)snprintf(
            log_text + used, sizeof log_text - used, "%sT%02ld:%02ldZ",
            bw_day_text(day, bw_day_of("2031-01-01") + minute / 1440),
            minute / 60 % 24, minute % 60);
        for (int c = 0; c < COLUMNS; c++)
            used += isnan(taken.value[i][c])
                        ? (size_t)snprintf(log_text + used,
                                           sizeof log_text - used, ",")
                        : (size_t)snprintf(log_text + used,
                                           sizeof log_text - used, ",%.1f",
                                           taken.value[i][c]);
        used += (size_t)snprintf(log_text + used, sizeof log_text - used, "\n");
        ck_assert_uint_lt(used + 200, sizeof log_text);
    }
}

/* Three and more within half an hour: their mean, those at its ends by half;
 * else the one at the hour, or straight between two. NAN: neither. */
static double at_hour(int column, double at, double *apart)
{
    double sum = 0.0, weight = 0.0;
    size_t near = 0, before = SIZE_MAX, behind = SIZE_MAX;
    for (size_t i = 0; i < taken.count; i++) {
        const double off = taken.at[i] - at, v = taken.value[i][column];
        if (isnan(v))
            continue;
        if (fabs(off) <= 1800.0) {
            const double w = fabs(off) < 1800.0 ? 1.0 : 0.5;
            sum += w * v;
            weight += w;
            near++;
        }
        if (off < 0.0)
            before = i;
        if (off >= 0.0 && behind == SIZE_MAX)
            behind = i;
    }
    *apart = 0.0;
    if (near > 2)
        return sum / weight;
    if (behind != SIZE_MAX && !(taken.at[behind] > at))
        return taken.value[behind][column];
    *apart = HUGE_VAL;
    if (before == SIZE_MAX || behind == SIZE_MAX)
        return NAN;
    *apart = taken.at[behind] - taken.at[before];
    const double f = (at - taken.at[before]) / *apart;
    return taken.value[before][column] +
           f * (taken.value[behind][column] - taken.value[before][column]);
}

static bool is_same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-9 * (1.0 + fabs(b));
}

/* Air on both sides goes on through a gap; a place is what was measured within
 * an hour and a half. Six hours apart are no gap; behind one, and at the
 * start, a run-in of two days is left out. */
START_TEST(an_hour_is_what_was_read_around_it)
{
    size_t gaps = 0, averaged = 0, none = 0, compared = 0;
    for (int draw = 0; draw < 6; draw++) {
        die = (dice){.state = 88172645463325252u + 977u * (uint64_t)draw};
        draw_readings();
        read_wall(LAYERS, NULL, 0);
        write_readings();
        run_replay(&still);
        size_t left = 48;
        ck_assert_uint_ge(replay->hour_count, HOURS - 8);
        for (size_t h = 0; h < replay->hour_count; h++) {
            double want[COLUMNS], apart[COLUMNS];
            for (int c = 0; c < COLUMNS; c++)
                want[c] = at_hour(c, 3600.0 * (double)h, &apart[c]);
            const bw_boundary *air = &replay->boundary[h];
            ck_assert(is_same(air->theta_i, want[0]));
            ck_assert(is_same(air->theta_e, want[2]));
            ck_assert_double_eq_tol(air->p_i /
                                        bw_saturation_pressure_water(want[0]),
                                    want[1] / 100.0, 1e-9);
            ck_assert_double_eq_tol(air->p_e /
                                        bw_saturation_pressure_water(want[2]),
                                    want[3] / 100.0, 1e-9);
            const bw_replay_hour *hour = &replay->place[0].hour[h];
            ck_assert(is_same(hour->theta,
                              apart[4] <= 5400.0 ? want[4] : (double)NAN));
            ck_assert(is_same(hour->rh, apart[5] <= 5400.0 ? want[5] / 100.0
                                                           : (double)NAN));
            bool gap = false;
            for (int c = 0; c < 4; c++)
                gap = gap || apart[c] > 6.0 * 3600.0;
            left = gap ? 49 : left;
            ck_assert_int_eq(hour->compared, left == 0);
            left -= left > 0;
            gaps += gap;
            averaged += apart[0] <= 0.0;
            none += isnan(hour->theta);
            compared += hour->compared;
        }
    }
    ck_assert(gaps > 0 && averaged > 50 && none > 50 && compared > 50);
}
END_TEST

/* ---- figures of the hours --------------------------------------------------
 */

static double random_value(int hour, int column, void *of)
{
    const double *drop = of;
    static const double mean[COLUMNS] = {20.0, 50.0, 0.0, 60.0, 0.0, 55.0};
    const double by = between(&die, -1.0, 1.0);
    (void)hour;
    if (column > 3 && uniform(&die) < 0.3)
        return NAN;
    if (column == 2)
        return 20.0 - drop[0] + by;
    return column == 4 ? 20.0 - 0.4 * drop[0] + by
                       : mean[column] + (column % 2 == 0 ? 1.0 : 5.0) * by;
}

typedef struct sums {
    double n, d, d2, rn, rd, rd2, pn, pd;
    double t[4], p[4]; /* room, outer, measured, computed */
} sums;

static void add_hour(sums *s, const bw_replay_hour *h, const bw_boundary *air)
{
    const bool theta = !isnan(h->theta), rh = !isnan(h->rh);
    if (theta) {
        const double d = h->theta_computed - h->theta;
        const double t[] = {air->theta_i, air->theta_e, h->theta,
                            h->theta_computed};
        s->n++;
        s->d += d;
        s->d2 += d * d;
        for (int i = 0; i < 4; i++)
            s->t[i] += t[i];
    }
    if (rh) {
        const double d = h->rh_computed - h->rh;
        s->rn++;
        s->rd += d;
        s->rd2 += d * d;
    }
    if (theta && rh) {
        const double m = h->rh * bw_saturation_pressure_water(h->theta);
        const double c = h->rh_computed *
                         bw_saturation_pressure_water(h->theta_computed);
        const double p[] = {air->p_i, air->p_e, m, c};
        s->pn++;
        s->pd += c - m;
        for (int i = 0; i < 4; i++)
            s->p[i] += p[i];
    }
}

static double mean_of(double sum, double n)
{
    return n >= 24.0 ? sum / n : (double)NAN;
}

/* Of the drop from the room; less than 5 K or 200 Pa tells none. */
static double share_of(const double of[4], int which, double n, double least)
{
    return n >= 24.0 && fabs(of[0] - of[1]) / n >= least
               ? (of[0] - of[which]) / (of[0] - of[1])
               : (double)NAN;
}

static void figures_are(const bw_replay_figures *f, const sums *s)
{
    ck_assert_uint_eq(f->theta_hours, (size_t)s->n);
    ck_assert_uint_eq(f->rh_hours, (size_t)s->rn);
    ck_assert(is_same(f->theta_bias, mean_of(s->d, s->n)));
    ck_assert(is_same(f->theta_rms, sqrt(mean_of(s->d2, s->n))));
    ck_assert(is_same(f->rh_bias, mean_of(s->rd, s->rn)));
    ck_assert(is_same(f->rh_rms, sqrt(mean_of(s->rd2, s->rn))));
    ck_assert(is_same(f->theta_drop, mean_of(s->t[0] - s->t[1], s->n)));
    ck_assert(is_same(f->theta_share_measured, share_of(s->t, 2, s->n, 5.0)));
    ck_assert(is_same(f->theta_share_computed, share_of(s->t, 3, s->n, 5.0)));
    ck_assert_double_eq_tol(f->pressure_bias, s->pd / s->pn, 0.01);
    ck_assert(is_same(f->pressure_drop, mean_of(s->p[0] - s->p[1], s->pn)));
    ck_assert(
        is_same(f->pressure_share_measured, share_of(s->p, 2, s->pn, 200.0)));
    const double computed = share_of(s->p, 3, s->pn, 200.0);
    ck_assert(isnan(computed) == isnan(f->pressure_share_computed));
    if (!isnan(computed))
        ck_assert_double_eq_tol(f->pressure_share_computed, computed, 1e-4);
}

/* The months are those of the calendar, from 20 January on. */
START_TEST(figures_are_those_of_the_hours_compared)
{
    static const double drops[] = {4.0, 4.8, 5.2, 12.0, -6.0, 30.0};
    size_t shares = 0, none = 0;
    for (size_t i = 0; i < COUNT(drops); i++) {
        double drop = drops[i];
        die = (dice){.state = 88172645463325252u + 31u * i};
        read_wall(LAYERS, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," PLACE, 19 * 24, HOURS + 5 * 24,
                  random_value, &drop);
        run_replay(&still);
        const bw_replay_place *place = &replay->place[0];
        sums all = {0}, month[2] = {{0}};
        size_t hours = 0;
        for (size_t h = 0; h < replay->hour_count; h++) {
            if (!place->hour[h].compared)
                continue;
            hours++;
            add_hour(&all, &place->hour[h], &replay->boundary[h]);
            add_hour(&month[h >= 12 * 24], &place->hour[h],
                     &replay->boundary[h]);
        }
        ck_assert_uint_eq(hours, replay->compared);
        figures_are(&place->all, &all);
        ck_assert_uint_eq(place->month_count, 2);
        for (int m = 0; m < 2; m++) {
            ck_assert_int_eq(place->month[m].month, m);
            figures_are(&place->month[m], &month[m]);
        }
        shares += !isnan(place->all.theta_share_measured);
        none += isnan(place->all.theta_share_measured);
        /* what loggers tell: 0.5 K, 3 % */
        ck_assert_double_eq_tol(
            replay->misfit,
            sqrt(0.5 * (all.d2 / all.n / 0.25 + all.rd2 / all.rn / 9e-4)),
            1e-6 * replay->misfit);
    }
    ck_assert(shares > 1 && none > 1);
}
END_TEST

/* Fewer than 24 hours with a reading prove nothing, of each quantity alone. */
typedef struct few {
    int theta, rh; /* hours of the last that have one */
} few;

static double few_value(int hour, int column, void *of)
{
    const few *f = of;
    const int left = HOURS - hour;
    if ((column == 4 && left > f->theta) || (column == 5 && left > f->rh))
        return NAN;
    static const double mean[COLUMNS] = {20.0, 50.0, 0.0, 60.0, 9.0, 55.0};
    return mean[column] + sin(hour * (1.0 + column));
}

START_TEST(a_figure_takes_a_day_of_readings)
{
    static const few rows[] = {{23, 23}, {24, 23}, {23, 24}, {24, 24}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        few f = rows[i];
        read_wall(LAYERS, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," PLACE, 0, HOURS, few_value, &f);
        run_replay(&still);
        const bw_replay_figures *all = &replay->place[0].all;
        ck_assert_int_eq(isnan(all->theta_bias), f.theta < 24);
        ck_assert_int_eq(isnan(all->theta_share_computed), f.theta < 24);
        ck_assert_int_eq(isnan(all->rh_rms), f.rh < 24);
        ck_assert_int_eq(isnan(all->pressure_bias), f.theta + f.rh < 48);
        ck_assert_int_eq(replay->assessed, i > 0);
        const double by_theta = all->theta_rms / 0.5,
                     by_rh = all->rh_rms / 0.03;
        if (i > 0)
            ck_assert_double_eq_tol(
                replay->misfit,
                i == 1   ? by_theta
                : i == 2 ? by_rh
                         : sqrt(0.5 * (by_theta * by_theta + by_rh * by_rh)),
                1e-9 * replay->misfit);
    }
}
END_TEST

/* ---- a record that tells nothing ------------------------------------------
 */

/* All air of both sides within 0.5 K and 3 % RH of its mean: of two constants
 * half of what lies between them. */
typedef struct sides {
    double theta, rh; /* outside less inside */
    bool humid;       /* the place tells its RH, too */
} sides;

static double side_value(int hour, int column, void *of)
{
    const sides *s = of;
    (void)hour;
    switch (column) {
    case 0:
        return 20.0;
    case 1:
        return 50.0;
    case 2:
        return 20.0 + s->theta;
    case 3:
        return 50.0 + s->rh;
    case 4:
        return 18.0;
    default:
        return s->humid ? 60.0 : (double)NAN;
    }
}

START_TEST(air_that_hardly_differs_proves_no_wall)
{
    static const struct {
        sides of;
        bool tells;
    } rows[] = {
        {{-0.98, 5.8, true}, false}, {{-1.02, 5.8, true}, true},
        {{-0.98, 6.2, true}, true},  {{-0.98, 6.2, false}, false},
        {{0.98, -5.8, true}, false}, {{0.98, -6.2, true}, true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        sides of = rows[i].of;
        read_wall(LAYERS, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," PLACE, 0, HOURS, side_value, &of);
        run_replay(&still);
        ck_assert_msg(replay->assessed == rows[i].tells, "row %zu: %s", i,
                      replay->not_assessed);
    }
}
END_TEST

/* ---- gaps -----------------------------------------------------------------
 */

/* So many gaps of eight hours and ten from hour 5 on, thirty hours apart. */
static double gap_value(int hour, int column, void *of)
{
    const int n = (hour - 5) / 30, at = (hour - 5) % 30;
    if (hour >= 5 && n < *(const int *)of && at < (n % 2 == 0 ? 8 : 10))
        return NAN;
    static const double mean[COLUMNS] = {20.0, 50.0, 0.0, 60.0, 9.0, 55.0};
    return mean[column] + sin(hour * (1.0 + column));
}

START_TEST(gaps_are_told_one_by_one_and_many_in_all)
{
    for (int gaps = 7; gaps <= 9; gaps++) {
        size_t told = 0;
        bool in_all = false;
        char words[64];
        int of = gaps;
        read_wall(LAYERS, NULL, 0);
        write_log("", ROOM "," OUTDOOR "," PLACE, 0, HOURS + 5 * 24, gap_value,
                  &of);
        run_replay(&still);
        for (size_t i = 0; i < replay->doubt_count; i++)
            if (replay->doubt[i].kind == BW_DOUBT_GAP) {
                const int first = 5 + 30 * (int)told;
                snprintf(words, sizeof words, "a gap of %d hours ",
                         told % 2 == 0 ? 8 : 10);
                ck_assert_ptr_nonnull(strstr(replay->doubt[i].message, words));
                /* the first line behind it: of each gap before rows lack */
                ck_assert_int_eq(replay->doubt[i].line,
                                 first + 2 - 9 * (int)told + (int)(told % 2));
                told++;
            }
        snprintf(words, sizeof words, "9 gaps in all, %d hours",
                 5 * 8 + 4 * 10);
        for (size_t i = 0; i < replay->note_count; i++)
            in_all = in_all || strstr(replay->note[i], words) != NULL;
        ck_assert_uint_eq(told, gaps < 8 ? (size_t)gaps : 8);
        ck_assert_int_eq(in_all, gaps == 9);
    }
}
END_TEST

SUITE_AROUND("replay_figures", open_library, close_library,
             FACT(an_hour_is_what_was_read_around_it),
             FACT(figures_are_those_of_the_hours_compared),
             FACT(a_figure_takes_a_day_of_readings),
             FACT(air_that_hardly_differs_proves_no_wall),
             FACT(gaps_are_told_one_by_one_and_many_in_all))
