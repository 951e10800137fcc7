/* What each case of a choice sets: nothing as drawn, one unknown alone at an
 * end, every unknown somewhere in its range, the worst of these with one
 * finding as drawn again. That a case puts each design at the same place of its
 * ranges, and that a Sobol sequence covers each range evenly, is tested, and
 * not which numbers a seed gives. */

#include "choice_made.h"

/* Two designs under four findings; a range from 0 to 1 is its own place. The
 * second unknown of the first has its low end as drawn. */
static void make_ranges(size_t raced)
{
    static const size_t findings[2][UNKNOWNS] = {{0, 1, 2}, {2, 0, 3}};
    draw_choice(2, 1.0);
    c.slots.race = raced;
    c.options.seed = 7;
    for (size_t i = 0; i < 2; i++) {
        candidate[i].study.count = UNKNOWNS;
        for (size_t u = 0; u < UNKNOWNS; u++) {
            finding_of[i][u] = findings[i][u];
            source[i][u].shown = (bw_unknown){.continuous = true,
                                              .high = 1.0,
                                              .as_drawn = (double)NAN,
                                              .seen = true};
        }
    }
    source[0][1].shown.as_drawn = 0.0;
}

static const bw_setting *settings_of(size_t i, size_t slot)
{
    static bw_setting setting[UNKNOWNS + 1];
    setting[UNKNOWNS] = (bw_setting){true, 77.0};
    for (size_t u = 0; u < UNKNOWNS; u++)
        setting[u] = (bw_setting){true, 77.0};
    bw_settings_of(&c, i, slot, setting);
    ck_assert(setting[UNKNOWNS].set && setting[UNKNOWNS].value > 76.0);
    return setting;
}

START_TEST(as_drawn_nothing_is_set_and_at_an_end_one_alone)
{
    make_ranges(RACED);
    for (size_t k = 0; k < UNKNOWNS; k++)
        ck_assert(!settings_of(0, BW_SLOT_AS_DRAWN)[k].set);
    for (size_t u = 0; u < UNKNOWNS; u++)
        for (size_t end = 0; end < 2; end++) {
            const bw_setting *s = settings_of(0, bw_slot_end(u, end));
            for (size_t k = 0; k < UNKNOWNS; k++)
                ck_assert_int_eq(s[k].set, k == u && (u != 1 || end == 0));
            if (s[u].set)
                ck_assert(s[u].value >= 0.0 &&
                          (s[u].value > 0.5) == (u == 1 || end == 1));
        }
    forget_choice();
}
END_TEST

/* Of 8 sets of 8 points each has one in every eighth of every range, which is
 * what a Sobol sequence is for; the sets differ. Designs have the same. */
START_TEST(each_set_of_raced_cases_covers_every_range_evenly)
{
    make_ranges(RACED);
    for (size_t set = 0; set < BW_RACE_SETS; set++)
        for (size_t u = 0; u < UNKNOWNS; u++) {
            unsigned eighths = 0;
            for (size_t i = set; i < RACED; i += BW_RACE_SETS) {
                const size_t slot = bw_slot_race(&c.slots, i);
                const bw_setting now = settings_of(0, slot)[u];
                ck_assert(now.set && now.value >= 0.0 && now.value < 1.0);
                eighths |= 1U << (unsigned)(8.0 * now.value);
            }
            ck_assert_uint_eq(eighths, 255);
        }
    for (size_t i = 0; i < RACED; i++) {
        const size_t slot = bw_slot_race(&c.slots, i);
        const double first = settings_of(0, slot)[0].value;
        const double third = settings_of(0, slot)[2].value;
        ck_assert(fabs(settings_of(1, slot)[1].value - first) < 1e-15);
        ck_assert(fabs(settings_of(1, slot)[0].value - third) < 1e-15);
        ck_assert(fabs(third - first) > 1e-15);
        for (size_t k = 0; k < i; k++)
            ck_assert(fabs(settings_of(0, bw_slot_race(&c.slots, k))[0].value -
                           first) > 1e-15);
    }
    forget_choice();
}
END_TEST

/* The same of every design, and of however many were raced before. */
START_TEST(a_drawn_case_is_its_number_and_finding_alone)
{
    static double was[DRAWN][UNKNOWNS];
    for (size_t run = 0; run < 2; run++) {
        make_ranges(run == 0 ? RACED : RACED / 2);
        for (size_t i = 0; i < DRAWN; i++) {
            const size_t slot = bw_slot_drawn(&c.slots, i);
            double now[UNKNOWNS];
            for (size_t u = 0; u < UNKNOWNS; u++) {
                now[u] = settings_of(0, slot)[u].value;
                ck_assert(now[u] >= 0.0 && now[u] < 1.0);
                ck_assert(run == 0 || fabs(now[u] - was[i][u]) < 1e-15);
            }
            ck_assert(fabs(settings_of(1, slot)[1].value - now[0]) < 1e-15);
            memcpy(was[i], now, sizeof now);
        }
        forget_choice();
    }
}
END_TEST

/* All that is of one finding is as drawn again, whatever else is set. */
START_TEST(the_worst_case_is_repeated_with_one_finding_as_drawn)
{
    make_ranges(RACED);
    finding_of[0][2] = 0;
    for (int method = 0; method < 2; method++) {
        bw_judged *j = &judged[0][method][bw_slot_drawn(&c.slots, 5)];
        j->said = j->numbers = BW_FAILS;
        j->margin = -9.0;
    }
    for (size_t again = 0; again < UNKNOWNS; again++) {
        bw_setting worst[UNKNOWNS];
        memcpy(worst, settings_of(0, bw_slot_drawn(&c.slots, 5)), sizeof worst);
        const bw_setting *s = settings_of(0, bw_slot_reset(&c.slots, again));
        for (size_t u = 0; u < UNKNOWNS; u++) {
            const bool of_it = finding_of[0][u] == finding_of[0][again];
            ck_assert_int_eq(s[u].set, !of_it);
            ck_assert(of_it || fabs(s[u].value - worst[u].value) < 1e-15);
        }
    }
    forget_choice();
}
END_TEST

SUITE("choose_settings", FACT(as_drawn_nothing_is_set_and_at_an_end_one_alone),
      FACT(each_set_of_raced_cases_covers_every_range_evenly),
      FACT(a_drawn_case_is_its_number_and_finding_alone),
      FACT(the_worst_case_is_repeated_with_one_finding_as_drawn))
