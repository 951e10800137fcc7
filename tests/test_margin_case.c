/* Margin: what is read off an assessment, from rows made by hand. */

#include <math.h>
#include <stdlib.h>

#include "criteria_case.h"
#include "margin/steps.h"
#include "suite.h"

static criteria_case c;

static void setup(void)
{
    case_make(&c);
}

static void teardown(void)
{
    case_free(&c);
}

/* ---- rows ------------------------------------------------------------------
 */

static bw_criterion row(bw_criterion_id id, const char *section,
                        bw_verdict outcome, double margin)
{
    return (bw_criterion){.section = section,
                          .criterion = bw_criterion_facts_of(id)->name,
                          .decides = true,
                          .outcome = outcome,
                          .verdict = outcome,
                          .has_value = true,
                          .value = 2.0 - margin,
                          .has_limit = true,
                          .limit = 2.0,
                          .margin = 2.0 * margin};
}

static bw_case case_of(const bw_criterion *rows, size_t count)
{
    const bw_assessment a = {.criterion_count = count, .criterion = rows};
    bw_case got;
    bw_case_of(&got, &a);
    return got;
}

static const char *const sections[] = {"whole", "between-studs", "through-stud",
                                       "open-cavity", "blocked-cavity"};

/* Each criterion of each section has a place of its own, and keeps its
 * numbers. */
START_TEST(every_criterion_of_every_section_has_its_place)
{
    for (size_t s = 0; s < COUNT(sections); s++)
        for (int id = 0; id < BW_C_COUNT; id++) {
            const size_t key = s * BW_C_COUNT + (size_t)id;
            bw_criterion one = row((bw_criterion_id)id, sections[s], BW_FAILS,
                                   -0.25);
            one.never = true;
            const bw_case got = case_of(&one, 1);
            const bool counts = id != BW_C_ALONE;
            for (size_t k = 0; k < BW_CASE_KEYS; k++)
                ck_assert_int_eq(got.outcome[k],
                                 counts && k == key ? (int)BW_FAILS : -1);
            ck_assert_uint_eq(got.fails, counts);
            ck_assert_int_eq(got.screening, !counts);
            if (!counts)
                continue;
            ck_assert_double_eq(got.margin[key], -0.25);
            ck_assert_double_eq(got.value[key], 2.25);
            ck_assert_double_eq(got.limit[key], 2.0);
            ck_assert(got.never[key]);
            ck_assert_str_eq(bw_key_criterion(key), one.criterion);
            ck_assert_str_eq(bw_key_section(key), sections[s]);
            const char *words = bw_key_words(&c.arena, key);
            ck_assert_int_eq(strstr(words, sections[s]) != NULL, s > 0);
            ck_assert_ptr_eq(strstr(words, one.criterion), words);
        }
}
END_TEST

/* A section of another name counts as the whole. */
START_TEST(a_section_without_a_name_of_its_own_is_the_whole)
{
    const bw_criterion one = row(BW_C_RESERVE, "elsewhere", BW_FAILS, -0.5);
    const bw_case got = case_of(&one, 1);
    ck_assert_int_eq(got.outcome[BW_C_RESERVE], BW_FAILS);
}
END_TEST

/* Several rows of one key: the worst stands for it, once. Fails, not assessed,
 * marginal, holds; of two alike the lesser margin. */
static const struct two {
    bw_verdict outcome[2];
    double margin[2];
    size_t stands;
} pairs[] = {
    {{BW_HOLDS, BW_FAILS}, {0.5, -0.1}, 1},
    {{BW_FAILS, BW_HOLDS}, {-0.1, 0.5}, 0},
    {{BW_FAILS, BW_FAILS}, {-0.1, -0.3}, 1},
    {{BW_FAILS, BW_FAILS}, {-0.3, -0.1}, 0},
    {{BW_MARGINAL, BW_NOT_ASSESSED}, {0.02, 0.9}, 1},
    {{BW_NOT_ASSESSED, BW_MARGINAL}, {0.9, 0.02}, 0},
    {{BW_NOT_ASSESSED, BW_FAILS}, {0.9, -0.2}, 1},
    {{BW_FAILS, BW_NOT_ASSESSED}, {-0.2, -0.9}, 0},
    {{BW_HOLDS, BW_MARGINAL}, {0.5, 0.02}, 1},
    {{BW_MARGINAL, BW_HOLDS}, {0.02, 0.5}, 0},
    {{BW_HOLDS, BW_HOLDS}, {0.5, 0.4}, 1},
};

START_TEST(of_several_rows_of_one_criterion_the_worst_stands)
{
    const struct two *p = &pairs[_i];
    bw_criterion two[2];
    for (size_t i = 0; i < 2; i++)
        two[i] = row(BW_C_JUNCTION, "whole", p->outcome[i], p->margin[i]);
    const bw_case got = case_of(two, 2);
    ck_assert_int_eq(got.outcome[BW_C_JUNCTION], (int)p->outcome[p->stands]);
    ck_assert_double_eq(got.margin[BW_C_JUNCTION], p->margin[p->stands]);
    ck_assert_uint_eq(got.fails, p->outcome[p->stands] == BW_FAILS);
}
END_TEST

/* Of all rows the least margin, and the sum of m/(1 + |m|). */
START_TEST(a_case_has_its_least_margin_and_the_sum_of_all)
{
    bw_criterion some[] = {
        row(BW_C_RESERVE, "whole", BW_HOLDS, 1.0),
        row(BW_C_DRYING, "whole", BW_FAILS, -3.0),
        row(BW_C_INWARD, "whole", BW_FAILS, -1.0),
        row(BW_C_RESERVE, "through-stud", BW_MARGINAL, 0.25),
        row(BW_C_SURFACE_MOULD, "whole", BW_NOT_ASSESSED, 0.0),
    };
    some[4].has_value = false;
    const bw_case got = case_of(some, COUNT(some));
    ck_assert_double_eq(got.worst, -3.0);
    ck_assert_double_eq_tol(got.score, 0.5 - 0.75 - 0.5 + 0.2, 1e-12);
    ck_assert_uint_eq(got.fails, 2);
    ck_assert_uint_eq(bw_case_worst_key(&got), BW_C_DRYING);
    ck_assert_int_eq(got.verdict, BW_FAILS);
    ck_assert_uint_eq(bw_case_deciding_key(&got), BW_C_DRYING);
    const bw_figure figure = bw_case_figure(&c.arena, &got);
    ck_assert_str_eq(figure.criterion, "drying-test");
    ck_assert_str_eq(figure.unit, bw_criterion_facts_of(BW_C_DRYING)->unit);
    ck_assert_double_eq(figure.margin, -3.0);
    ck_assert_double_eq(figure.value, 5.0);
    ck_assert_double_eq(figure.limit, 2.0);
    ck_assert(!figure.never);
}
END_TEST

/* What gives a case its verdict is of those that read so; one without a number
 * stands behind one that has it. */
START_TEST(what_decides_a_case_reads_as_the_case_does)
{
    static const struct {
        bw_verdict outcome[3];
        double margin[3];
        size_t decides;
    } cases[] = {
        {{BW_HOLDS, BW_MARGINAL, BW_HOLDS}, {0.01, 0.5, 0.7}, 1},
        {{BW_HOLDS, BW_HOLDS, BW_HOLDS}, {0.3, 0.2, 0.4}, 1},
        {{BW_HOLDS, BW_HOLDS, BW_HOLDS}, {0.2, 0.2, 0.4}, 0},
        {{BW_NOT_ASSESSED, BW_HOLDS, BW_NOT_ASSESSED}, {NAN, 0.1, NAN}, 0},
        {{BW_NOT_ASSESSED, BW_HOLDS, BW_NOT_ASSESSED}, {NAN, 0.1, 0.6}, 2},
        {{BW_NOT_ASSESSED, BW_HOLDS, BW_NOT_ASSESSED}, {0.6, 0.1, NAN}, 0},
    };
    static const bw_criterion_id ids[] = {BW_C_RESERVE, BW_C_INWARD,
                                          BW_C_DRYING};
    for (size_t k = 0; k < COUNT(cases); k++) {
        bw_criterion some[3];
        for (size_t i = 0; i < 3; i++) {
            const bool none = isnan(cases[k].margin[i]);
            some[i] = row(ids[i], "whole", cases[k].outcome[i],
                          none ? 0.0 : cases[k].margin[i]);
            some[i].has_value = !none;
        }
        const bw_case got = case_of(some, 3);
        ck_assert_uint_eq(bw_case_deciding_key(&got), ids[cases[k].decides]);
    }
}
END_TEST

START_TEST(nothing_judged_decides_nothing)
{
    const bw_case none = case_of(NULL, 0);
    ck_assert_int_eq(none.verdict, BW_NOT_ASSESSED);
    ck_assert_uint_eq(bw_case_deciding_key(&none), BW_CASE_KEYS);
    const bw_figure figure = bw_case_figure(&c.arena, &none);
    ck_assert_str_eq(figure.criterion, "");
    ck_assert_str_eq(figure.unit, "");
    ck_assert(isnan(figure.value) && isnan(figure.limit) &&
              isnan(figure.margin));
    ck_assert(!figure.never && !none.screening && !none.simulated);
}
END_TEST

/* Beside a simulation the months are a check: as they read, not as they count.
 * A simulation that is missing decides nothing; rows of a screening are said to
 * be such. */
START_TEST(a_row_counts_as_its_kind_does)
{
    bw_criterion one = row(BW_C_CONDENSATE, "whole", BW_FAILS, -0.5);
    one.cross_check = true;
    one.verdict = BW_MARGINAL;
    ck_assert_int_eq(case_of(&one, 1).outcome[BW_C_CONDENSATE], BW_MARGINAL);
    one.cross_check = false;
    ck_assert_int_eq(case_of(&one, 1).outcome[BW_C_CONDENSATE], BW_FAILS);
    ck_assert(!case_of(&one, 1).screening);
    one.screening = true;
    ck_assert(case_of(&one, 1).screening);
    one = row(BW_C_TRANSIENT, "whole", BW_NOT_ASSESSED, 0.5);
    ck_assert_int_eq(case_of(&one, 1).outcome[BW_C_TRANSIENT], -1);
    one.outcome = BW_FAILS;
    ck_assert_int_eq(case_of(&one, 1).outcome[BW_C_TRANSIENT], BW_FAILS);
    one = row(BW_C_RESERVE, "whole", BW_NOT_ASSESSED, 0.5);
    ck_assert_int_eq(case_of(&one, 1).outcome[BW_C_RESERVE], BW_NOT_ASSESSED);
}
END_TEST

/* Simulated is a wall of which every section was; then its verdict is what the
 * check says, else what the rows make of it. */
START_TEST(a_wall_is_simulated_where_every_section_is)
{
    static const struct {
        bool first, second;
        size_t count;
        bool simulated;
    } rows[] = {{true, true, 2, true},
                {true, false, 2, false},
                {false, true, 2, false},
                {true, false, 1, true},
                {true, true, 0, false}};
    const bw_criterion one = row(BW_C_RESERVE, "whole", BW_FAILS, -0.5);
    for (size_t k = 0; k < COUNT(rows); k++) {
        bw_section_assessment part[2] = {{.has_transient = rows[k].first},
                                         {.has_transient = rows[k].second}};
        const bw_assessment a = {.criterion_count = 1,
                                 .criterion = &one,
                                 .verdict = BW_MARGINAL,
                                 .section_count = rows[k].count,
                                 .section = part};
        bw_case got;
        bw_case_of(&got, &a);
        ck_assert_int_eq(got.simulated, rows[k].simulated);
        ck_assert_int_eq(got.said, BW_MARGINAL);
        ck_assert_int_eq(got.verdict,
                         rows[k].simulated ? BW_MARGINAL : BW_FAILS);
    }
}
END_TEST

/* ---- two cases beside each other ----------------------------------------- */

static const bw_criterion_id flip_ids[] = {BW_C_RESERVE, BW_C_DRYING,
                                           BW_C_INWARD};

START_TEST(the_first_of_what_flips_is_named_and_all_are_counted)
{
    static const struct {
        bw_verdict from[3], to[3];
        size_t first, count;
    } cases[] = {
        {{BW_HOLDS, BW_HOLDS, BW_HOLDS}, {BW_HOLDS, BW_FAILS, BW_FAILS}, 1, 2},
        {{BW_FAILS, BW_HOLDS, BW_HOLDS},
         {BW_MARGINAL, BW_FAILS, BW_HOLDS},
         0,
         2},
        {{BW_FAILS, BW_HOLDS, BW_FAILS},
         {BW_FAILS, BW_MARGINAL, BW_NOT_ASSESSED},
         3,
         0},
        {{BW_NOT_ASSESSED, BW_MARGINAL, BW_FAILS},
         {BW_FAILS, BW_HOLDS, BW_HOLDS},
         0,
         2},
    };
    for (size_t k = 0; k < COUNT(cases); k++) {
        bw_criterion from[3], to[3];
        for (size_t i = 0; i < 3; i++) {
            from[i] = row(flip_ids[i], "whole", cases[k].from[i], 0.1);
            to[i] = row(flip_ids[i], "whole", cases[k].to[i], 0.1);
        }
        const bw_case a = case_of(from, 3), b = case_of(to, 3);
        size_t count = 99, first = BW_CASE_KEYS;
        if (cases[k].first < 3) /* the order of the criteria, not of rows */
            for (size_t i = 0; i < 3; i++)
                if (bw_case_key_flips(&a, &b, flip_ids[i]) &&
                    flip_ids[i] < first)
                    first = flip_ids[i];
        ck_assert_uint_eq(bw_case_flip(&a, &b, &count), first);
        ck_assert_uint_eq(count, cases[k].count);
        ck_assert_int_eq(first<BW_CASE_KEYS, cases[k].count> 0);
        if (cases[k].first < 3)
            ck_assert(bw_case_key_flips(&a, &b, flip_ids[cases[k].first]));
    }
}
END_TEST

START_TEST(worse_is_what_fails_more_else_what_scores_less)
{
    static const struct {
        size_t fails[2];
        double score[2];
        bool worse;
    } rows[] = {
        {{2, 1}, {5.0, -5.0}, true},         {{1, 2}, {-5.0, 5.0}, false},
        {{1, 1}, {0.1, 0.2}, true},          {{1, 1}, {0.2, 0.1}, false},
        {{1, 1}, {0.1, 0.1}, false},         {{0, 0}, {-0.1, 0.1}, true},
        {{0, 0}, {0.1, 0.1 + 1e-15}, false},
    };
    for (size_t k = 0; k < COUNT(rows); k++) {
        const bw_case a = {.fails = rows[k].fails[0],
                           .score = rows[k].score[0]};
        const bw_case b = {.fails = rows[k].fails[1],
                           .score = rows[k].score[1]};
        ck_assert_int_eq(bw_case_worse(&a, &b), rows[k].worse);
    }
}
END_TEST

START_TEST(a_margin_is_held_within_one_limit)
{
    static const double rows[][2] = {{-2, -1},   {-1, -1}, {-0.9, -0.9}, {0, 0},
                                     {0.9, 0.9}, {1, 1},   {1.1, 1.0}};
    for (size_t k = 0; k < COUNT(rows); k++)
        ck_assert_double_eq(bw_margin_held(rows[k][0]), rows[k][1]);
    ck_assert(isnan(bw_margin_held((double)NAN)));
}
END_TEST

/* ---- junctions that a changed wall does not have ------------------------- */

/* Whatever else is good is not known to hold without them. */
START_TEST(without_its_junctions_a_wall_is_not_known_to_hold)
{
    bw_pool pool;
    bw_tally tally = {0};
    bw_assembly with = c.assembly;
    bw_pool_open(&pool, 1);
    bw_meter_start(&tally.meter, NULL, NULL, 0);
    bw_study study = {.assembly = &with,
                      .climate = &c.climate,
                      .options = {.no_transient = true, .no_advice = true},
                      .arena = &c.arena,
                      .pool = &pool,
                      .tally = &tally};
    for (int fails = 0; fails < 2; fails++) {
        const double mu = fails == 1 ? 1e5 : 5.0;
        c.assembly.indoors.humidity_class = 2;
        c.material[CASE_SHEATHING].mu_dry = case_value(mu);
        c.material[CASE_SHEATHING].mu_wet = case_value(mu);
        bw_case alone, named;
        with.junction_count = 0;
        ck_assert_int_eq(bw_case_assess(&alone, &study, &c.assembly, NULL),
                         BW_OK);
        with.junction_count = 1;
        ck_assert_int_eq(bw_case_assess(&named, &study, &c.assembly, NULL),
                         BW_OK);
        ck_assert_int_eq(alone.verdict == BW_FAILS, fails == 1);
        ck_assert(!alone.junctions_unseen);
        ck_assert_int_eq(alone.outcome[BW_C_JUNCTION], -1);
        ck_assert_int_eq(named.outcome[BW_C_JUNCTION], BW_NOT_ASSESSED);
        ck_assert_int_eq(named.junctions_unseen, fails == 0);
        ck_assert_int_eq(named.verdict,
                         fails == 1 ? BW_FAILS : BW_NOT_ASSESSED);
        ck_assert_uint_eq(named.fails, alone.fails);
    }
    ck_assert_uint_eq(tally.steady, 4);
    ck_assert_uint_eq(tally.simulated, 0);
    bw_meter_end(&tally.meter);
    bw_pool_close(&pool);
}
END_TEST

SUITE_AROUND("margin_case", setup, teardown,
             FACT(every_criterion_of_every_section_has_its_place),
             FACT(a_section_without_a_name_of_its_own_is_the_whole),
             EACH(of_several_rows_of_one_criterion_the_worst_stands,
                  COUNT(pairs)),
             FACT(a_case_has_its_least_margin_and_the_sum_of_all),
             FACT(what_decides_a_case_reads_as_the_case_does),
             FACT(nothing_judged_decides_nothing),
             FACT(a_row_counts_as_its_kind_does),
             FACT(a_wall_is_simulated_where_every_section_is),
             FACT(the_first_of_what_flips_is_named_and_all_are_counted),
             FACT(worse_is_what_fails_more_else_what_scores_less),
             FACT(a_margin_is_held_within_one_limit),
             FACT(without_its_junctions_a_wall_is_not_known_to_hold))
