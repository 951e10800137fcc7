/* What the sentences of a comparison make of its rows, made by hand, and which
 * section stands for its wall. */

#include <stdlib.h>

#include "compare/comparing.h"
#include "paper.h"
#include "suite.h"

/* ---- sentences ------------------------------------------------------------
 */

enum { WALLS = 3, NONE = -1, NEVER = -2 };

/* Months to dry and reserve [kg/(m2 a)] of each wall; NONE: not assessed. */
static const struct sentence_row {
    size_t count;
    double months[WALLS], reserve[WALLS], limit[WALLS], wetting[WALLS];
    int scope[WALLS];
    const char *drying, *rest;
} sentence_rows[] = {
    {2,
     {3, 3},
     {0.1, 0.3},
     {12, 12},
     {1, 1},
     {0, 0},
     "Both dry within 12 months if wetted with 1000 g/m2: each in 3.0 months.",
     "The drying reserve of b is larger than that of a: 300 against 100 "
     "g/(m2 a)."},
    {2,
     {3, 4},
     {0.1, 0.1},
     {12, 12},
     {1, 1},
     {1, 1},
     "a in 3.0 months and b in 4.0 (monthly method, a screening here).",
     "The drying reserves are equal: 100 g/(m2 a)."},
    {3,
     {3, 4, 5},
     {0.1, 0.2, -0.3},
     {12, 12, 12},
     {1, 1, 1},
     {0, 1, 0},
     "All dry within 12 months if wetted with 1000 g/m2: a in 3.0 months, b in "
     "4.0 and c in 5.0 (monthly method, a screening for b).",
     "largest in b (200 g/(m2 a)) and smallest in c (-300)."},
    {2,
     {3, 14},
     {NONE, 0.004},
     {12, 12},
     {1, 2},
     {0, 0},
     "If wetted as each file says, a dries in 3.0 months and b dries in 14.0 "
     "months.",
     "b has a drying reserve of 4.0 g/(m2 a); for a none could be computed."},
    {2,
     {NEVER, NEVER},
     {NONE, NONE},
     {12, 12},
     {1, 1},
     {0, 0},
     "Neither dries in 10 years if wetted with 1000 g/m2.",
     "For none of the walls could a drying reserve be computed."},
    {3,
     {NEVER, NEVER, NEVER},
     {0.1, NONE, 0.3},
     {12, 12, 12},
     {1, 1, 1},
     {0, 0, 0},
     "None dries in 10 years if wetted with 1000 g/m2.",
     "of c is larger than that of a: 300 against 100 g/(m2 a); for b none"},
    {2,
     {NONE, NONE},
     {0.1, 0.1},
     {12, 12},
     {1, 1},
     {0, 0},
     "For none of the walls could a time to dry be computed.",
     "equal: 100"},
    {3,
     {NONE, NEVER, 2},
     {0, 0, 0},
     {12, 12, 12},
     {1, 1, 1},
     {1, 0, 0},
     "If wetted with 1000 g/m2, for a this was not assessed, b does not dry in "
     "10 years and c dries in 2.0 months (monthly method, a screening for a).",
     "The drying reserves are equal: 0 g/(m2 a)."},
    /* each its own limit: nobody dries "within" anything */
    {2,
     {3, 4},
     {0.1, 0.1},
     {12, 6},
     {1, 1},
     {0, 0},
     "If wetted with 1000 g/m2, a dries in 3.0 months and b dries in 4.0 "
     "months.",
     "equal"},
    {2,
     {3, 4},
     {0.1, 0.1},
     {12, NONE},
     {1, 1},
     {0, 0},
     "If wetted with 1000 g/m2, a dries",
     "equal"},
};

static void start(bw_compare_core *core, const struct sentence_row *row)
{
    static bw_assembly walls[WALLS];
    static bw_assessment assessments[WALLS];
    static const char *const labels[] = {"a", "b", "c"};
    *core = (bw_compare_core){.count = row->count};
    for (size_t i = 0; i < row->count; i++) {
        walls[i] = (bw_assembly){.drying_test = {.wetting = row->wetting[i]}};
        assessments[i] = (bw_assessment){.scope_count = (size_t)row->scope[i]};
        core->given[i] = &walls[i];
        core->assessment[i] = &assessments[i];
        core->wall[i] = (bw_compared){.label = labels[i]};
    }
}

START_TEST(sentences_say_what_the_rows_hold)
{
    const struct sentence_row *row = &sentence_rows[_i];
    static bw_compare_core core;
    bool dries[WALLS], rests[WALLS];
    const char *instead[WALLS];
    bw_criterion judged[WALLS];
    const bw_criterion *criterion[WALLS];
    start(&core, row);
    for (size_t i = 0; i < row->count; i++) {
        dries[i] = row->months[i] >= 0.0;
        rests[i] = row->reserve[i] > NONE;
        instead[i] = row->months[i] <= NEVER ? "not in 10 years"
                                             : "not assessed";
        judged[i] = (bw_criterion){.has_limit = row->limit[i] > 0.0,
                                   .limit = row->limit[i],
                                   .decides = true,
                                   .verdict = BW_HOLDS};
        criterion[i] = &judged[i];
    }
    const bw_compare_row rows[] = {
        {.name = "months-to-dry",
         .has_value = dries,
         .value = row->months,
         .instead = instead},
        {.name = "reserve", .has_value = rests, .value = row->reserve},
        {.name = "drying-test", .is_criterion = true, .criterion = criterion},
    };
    core.comparison.row = (bw_compare_row *)rows;
    core.comparison.row_count = 3;
    ck_assert_int_eq(bw_compare_sentences(&core, NULL), BW_OK);
    HAS(core.comparison.sentence[1], row->drying);
    HAS(core.comparison.sentence[2], row->rest);
    bw_arena_release(&core.arena);
}
END_TEST

static const struct tally_row {
    bw_verdict verdict[2];
    bool decides[2];
    const char *says;
} tallies[] = {
    {{BW_HOLDS, BW_FAILS},
     {true, true},
     "decide, a fails none of 1; b fails 1 of 1."},
    {{BW_NOT_ASSESSED, BW_MARGINAL},
     {true, true},
     "a fails none of 1, with 1 not assessed; b fails none of 1."},
    {{BW_FAILS, BW_FAILS}, {false, true}, "a fails none of 0; b fails 1 of 1."},
};

START_TEST(only_what_decides_is_counted)
{
    static bw_compare_core core;
    static const bool no[2];
    static const double zero[2];
    static const char *const instead[] = {"not assessed", "not assessed"};
    bw_criterion judged[2];
    const bw_criterion *criterion[] = {&judged[0], &judged[1]};
    start(&core, &sentence_rows[0]);
    for (size_t i = 0; i < 2; i++)
        judged[i] = (bw_criterion){.decides = tallies[_i].decides[i],
                                   .verdict = tallies[_i].verdict[i]};
    bw_compare_row rows[] = {
        {.name = "months-to-dry",
         .has_value = no,
         .value = zero,
         .instead = instead},
        {.name = "reserve", .has_value = no, .value = zero},
        {.name = "x", .is_criterion = true, .criterion = criterion},
    };
    core.comparison.row = rows;
    core.comparison.row_count = 3;
    ck_assert_int_eq(bw_compare_sentences(&core, NULL), BW_OK);
    HAS(core.comparison.sentence[0], tallies[_i].says);
    bw_arena_release(&core.arena);
}
END_TEST

/* ---- the worse of two sections --------------------------------------------
 */

static bw_criterion section(const char *name, bw_verdict verdict, double margin)
{
    return (bw_criterion){.section = name,
                          .criterion = "drying-test",
                          .verdict = verdict,
                          .outcome = verdict,
                          .decides = true,
                          .has_value = true,
                          .value = -margin,
                          .has_limit = true,
                          .margin = margin};
}

static const struct worst_row {
    bw_verdict one, two;
    double margin_one, margin_two;
    bool value_one, value_two, limit;
    const char *worst;
} worst_rows[] = {
    {BW_HOLDS, BW_FAILS, 1, 2, true, true, true, "two"},
    {BW_FAILS, BW_NOT_ASSESSED, 1, 2, true, true, true, "one"},
    {BW_NOT_ASSESSED, BW_MARGINAL, 1, 0, true, true, true, "one"},
    {BW_HOLDS, BW_MARGINAL, 1, 2, true, true, true, "two"},
    {BW_HOLDS, BW_HOLDS, 1, 2, true, true, true, "one"},
    {BW_HOLDS, BW_HOLDS, 2, 1, true, true, true, "two"},
    {BW_HOLDS, BW_HOLDS, 2, 1, true, true, false, "two"},
    {BW_HOLDS, BW_HOLDS, 1, 1, true, false, true, "two"},
    {BW_HOLDS, BW_HOLDS, 1, 1, false, false, true, "one"},
};

START_TEST(the_worse_section_stands_for_its_wall)
{
    const struct worst_row *row = &worst_rows[_i];
    static bw_compare_core core;
    bw_criterion rows[] = {section("one", row->one, row->margin_one),
                           section("two", row->two, row->margin_two)};
    rows[0].has_value = row->value_one;
    rows[1].has_value = row->value_two;
    rows[0].has_limit = rows[1].has_limit = row->limit;
    start(&core, &sentence_rows[0]);
    bw_assessment a = {.criterion_count = 2, .criterion = rows};
    bw_assessment b = {.criterion_count = 0};
    core.assessment[0] = &a;
    core.assessment[1] = &b;
    core.assembly[0] = core.given[0];
    core.assembly[1] = core.given[1];
    ck_assert_int_eq(bw_compare_table(&core, NULL), BW_OK);
    for (size_t k = 0; k < core.comparison.row_count; k++) {
        const bw_compare_row *found = &core.comparison.row[k];
        if (!found->is_criterion)
            continue;
        ck_assert_str_eq(found->criterion[0]->section, row->worst);
        ck_assert_ptr_null(found->criterion[1]);
        ck_assert_str_eq(found->instead[1], "no such part");
    }
    bw_arena_release(&core.arena);
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

SUITE("compare_sentences",
      EACH(sentences_say_what_the_rows_hold, ROWS(sentence_rows)),
      EACH(only_what_decides_is_counted, ROWS(tallies)),
      EACH(the_worse_section_stands_for_its_wall, ROWS(worst_rows)))
