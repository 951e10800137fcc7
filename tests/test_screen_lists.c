/* What a list on a screen has room for: parts alone, on a page that has to do
 * without so many items. How many that are is our own choice (regression
 * values): twelve, less what is left out, of a margin three at the least. */

#include <math.h>
#include <stdio.h>

#include "full_result.h"
#include "report/names.h"
#include "report/part.h"

enum { CASES = 20, ITEMS = 12, LEAST = 3 };

extern const bw_part bw_part_telling, bw_part_which;

static paper put;
static bw_simulated cases[CASES];
static char words[CASES][16], names[CASES][16];
static bw_unknown unknowns[CASES];

static const char *part_of(const bw_part *part, size_t cut, bw_extent extent)
{
    const bw_report_options options = {.width = 100, .extent = extent};
    bw_page page;
    paper_clear(&put);
    bw_text_start(&page, 100, false, paper_take, &put);
    page.options = &options;
    page.cut = cut;
    bw_part_put(&page, part, &wall.results);
    ck_assert_int_eq(bw_page_finish(&page, "the part", NULL), BW_OK);
    return put.text;
}

/* Where a name stands, or the end of it all. */
static size_t place_of(const char *name)
{
    const char *at = strstr(put.text, name);
    return at != NULL ? (size_t)(at - put.text) : put.used;
}

static size_t room_of(size_t cut)
{
    return cut + LEAST < ITEMS ? ITEMS - cut : LEAST;
}

/* ---- the cases of a margin ------------------------------------------------
 */

static int rank_of(const bw_simulated *s)
{
    return !s->simulated || s->verdict == BW_NOT_ASSESSED ? 1
           : s->verdict == BW_FAILS                       ? 0
           : s->verdict == BW_MARGINAL                    ? 2
                                                          : 3;
}

/* The first that is as drawn, and others at random. */
static void make_cases(size_t count)
{
    static const bw_verdict verdicts[] = {BW_FAILS, BW_NOT_ASSESSED,
                                          BW_MARGINAL, BW_HOLDS};
    for (size_t i = 0; i < count; i++) {
        snprintf(words[i], sizeof words[i], "case-%02zu-", i);
        snprintf(names[i], sizeof names[i], "unknown-%zu", i);
        cases[i] = full_case[0];
        cases[i].setting = words[i];
        cases[i].unknown = names[i];
        cases[i].simulated = i == 0 || uniform(&full_die) < 0.9;
        cases[i].verdict = verdicts[(size_t)between(&full_die, 0.0, 3.999)];
        cases[i].figure.margin = floor(between(&full_die, -3.0, 3.0)) / 10.0;
    }
    full_margin.simulated = cases;
    full_margin.simulated_count = count;
}

/* Of equal ones the earlier stands first. */
static bool stands_before(size_t a, size_t b)
{
    const int x = rank_of(&cases[a]), y = rank_of(&cases[b]);
    const double m = cases[a].figure.margin, n = cases[b].figure.margin;
    return x != y ? x < y : m < n || (!(n < m) && a < b);
}

START_TEST(as_many_cases_stand_as_there_is_room_for_the_worst_first)
{
    static const size_t counts[] = {0, 1, 2, 4, 12, 13, 14, CASES};
    full_setup();
    for (size_t k = 0; k < COUNT(counts); k++)
        for (size_t cut = 0; cut <= BW_CUT_MOST; cut++) {
            const size_t all = counts[k] > 0 ? counts[k] - 1 : 0;
            size_t shown = 0;
            make_cases(counts[k]);
            full_margin.unknown_count = 0;
            part_of(&bw_part_telling, cut, BW_EXTENT_SCREEN);
            HAS_NOT(put.text, "case-00-");
            for (size_t i = 1; i < counts[k]; i++) {
                size_t before = 0;
                for (size_t m = 1; m < counts[k]; m++)
                    before += m != i && stands_before(m, i);
                const bool is = place_of(words[i]) < put.used;
                ck_assert_msg(is == (before < room_of(cut)),
                              "%zu left out: %s, before it %zu: %s", cut,
                              words[i], before, put.text);
                shown += is;
                for (size_t m = 1; is && m < counts[k]; m++)
                    if (m != i && stands_before(m, i))
                        ck_assert_uint_lt(place_of(words[m]),
                                          place_of(words[i]));
            }
            ck_assert_uint_eq(shown, all < room_of(cut) ? all : room_of(cut));
        }
}
END_TEST

START_TEST(a_case_says_what_the_wall_then_does)
{
    static const struct {
        bw_verdict verdict;
        bool simulated;
        const char *says;
    } rows[] = {{BW_FAILS, true, "fails"},
                {BW_HOLDS, true, "holds"},
                {BW_MARGINAL, true, "marginal"},
                {BW_FAILS, false, "not assessed"}};
    full_setup();
    for (size_t i = 0; i < COUNT(rows); i++) {
        make_cases(2);
        cases[1].verdict = rows[i].verdict;
        cases[1].simulated = rows[i].simulated;
        cases[1].figure.value = 0.25;
        cases[1].figure.limit = 0.5;
        part_of(&bw_part_telling, 0, BW_EXTENT_SCREEN);
        const char *line = strstr(put.text, words[1]);
        ck_assert_ptr_nonnull(line);
        HAS(line, rows[i].says);
        HAS(line,
            rows[i].simulated ? "0.25 kg/m2 (limit 0.5)" : "not simulated");
        cases[1].unknown = "";
        part_of(&bw_part_telling, 0, BW_EXTENT_SCREEN);
        HAS(put.text, "all that is worse than drawn, together");
    }
}
END_TEST

/* Without a simulation what moves the wall stands there, in its order, up to
 * the first that moves nothing. */
START_TEST(without_cases_stand_the_unknowns_that_move_the_wall)
{
    full_setup();
    for (size_t cut = 0; cut <= BW_CUT_MOST; cut++)
        for (size_t moving = 0; moving <= CASES; moving += 5) {
            make_cases(0);
            for (size_t i = 0; i < CASES; i++) {
                snprintf(names[i], sizeof names[i], "unknown-%02zu-", i);
                unknowns[i] = report_unknown();
                unknowns[i].name = names[i];
                unknowns[i].swing = i < moving ? 0.5 : 0.0;
            }
            full_margin.unknown = unknowns;
            full_margin.unknown_count = CASES;
            part_of(&bw_part_telling, cut, BW_EXTENT_SCREEN);
            for (size_t i = 0; i < CASES; i++)
                ck_assert_msg((place_of(names[i]) < put.used) ==
                                  (i < moving && i < room_of(cut)),
                              "%zu left out, %zu move: %s", cut, moving,
                              names[i]);
            full_margin.unknown_count = 2;
            part_of(&bw_part_telling, cut, BW_EXTENT_SCREEN);
            ck_assert_int_eq(place_of(names[1]) < put.used, moving > 1);
        }
}
END_TEST

/* In full they have a part of their own. */
START_TEST(in_full_the_short_list_is_not_there)
{
    full_setup();
    make_cases(CASES);
    part_of(&bw_part_telling, 0, BW_EXTENT_FULL);
    ck_assert_uint_eq(place_of(words[1]), put.used);
}
END_TEST

/* ---- a comparison ----------------------------------------------------------
 */

/* How walls are ranked gives way before a wall would. */
START_TEST(how_walls_are_ranked_is_said_while_there_is_room)
{
    full_setup();
    full_comparison.best_count = 1;
    for (size_t cut = 0; cut <= BW_CUT_MOST; cut++) {
        part_of(&bw_part_which, cut, BW_EXTENT_SCREEN);
        ck_assert_int_eq(place_of("Ranked by verdict") < put.used, cut < ITEMS);
        HAS(put.text, "Which wall: ");
    }
    part_of(&bw_part_which, BW_CUT_MOST, BW_EXTENT_FULL);
    HAS(put.text, "Ranked by verdict");
    full_comparison.best_count = 2;
    part_of(&bw_part_which, BW_CUT_MOST, BW_EXTENT_SCREEN);
    HAS(put.text, "Ranked by verdict");
}
END_TEST

SUITE("screen_lists",
      FACT(as_many_cases_stand_as_there_is_room_for_the_worst_first),
      FACT(a_case_says_what_the_wall_then_does),
      FACT(without_cases_stand_the_unknowns_that_move_the_wall),
      FACT(in_full_the_short_list_is_not_there),
      FACT(how_walls_are_ranked_is_said_while_there_is_room))
