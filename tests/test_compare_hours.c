/* Comparisons of simulated walls: one method for all, the worst section's
 * wetting test, the monthly figures apart. The figures of the hand-made walls
 * are chosen; of the real ones only what one wall has against the other is
 * asked. */

#include "compare_case.h"
#include "compare_sections.h"
#include "one_document.h"
#include "paper.h"
#include "suite.h"

#define CASE_BATT                                                              \
    "<layer id='batt' material='stone-wool-batt' thickness='100 mm'/>"

static compare_case c;
static paper sheet;

static void setup(void)
{
    case_start(&c);
    paper_clear(&sheet);
}

static void teardown(void)
{
    case_end(&c);
}

static const char *text(void)
{
    paper_clear(&sheet);
    const bw_report_options options = {.width = 200};
    ck_assert_int_eq(compare_report(BW_FORM_TEXT, c.result, &options,
                                    paper_take, &sheet, NULL),
                     BW_OK);
    paper_fits(sheet.text, 200);
    return sheet.text;
}

/* ---- one method for all -------------------------------------------------- */

/* Wool given by its values has no density: it cannot be simulated. */
START_TEST(where_one_wall_cannot_be_simulated_none_is_and_none_holds)
{
    case_add(&c,
             (case_wall){"batt", NULL, NULL, CASE_BOARD CASE_BATT CASE_LINING});
    case_add(&c, (case_wall){"wool", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    const bw_compare_options options = {
        .assessment = {.no_advice = true,
                       .synthetic_hours = true,
                       .transient = {.max_years = 1}}};
    case_must(&c, &options);
    ck_assert(!c.result->simulated);
    ck_assert_ptr_nonnull(c.result->by_months_reason);
    HAS(c.result->by_months_reason, "wool could not be simulated: wool needs");
    for (size_t i = 0; i < c.count; i++) {
        const bw_compared *wall = &c.result->wall[i];
        ck_assert(!wall->assessment->section[0].has_transient);
        ck_assert(wall->verdict == BW_FAILS ||
                  wall->verdict == BW_NOT_ASSESSED);
    }
    HAS(text(), "wool could not be simulated: wool needs a density");
    HAS(sheet.text, "So that one method judges all, none is");
    HAS(sheet.text, "(monthly method, a screening here)");
    HAS_NOT(sheet.text, "cross-check\n");
}
END_TEST

START_TEST(walls_that_can_be_are_all_judged_by_the_simulation)
{
    case_add(&c,
             (case_wall){"batt", NULL, NULL, CASE_BOARD CASE_BATT CASE_LINING});
    case_add(&c, (case_wall){"bare", NULL, NULL, CASE_BOARD CASE_BATT});
    const bw_compare_options options = {
        .assessment = {.no_advice = true,
                       .synthetic_hours = true,
                       .transient = {.max_years = 1}}};
    case_must(&c, &options);
    ck_assert(c.result->simulated);
    ck_assert_ptr_null(c.result->by_months_reason);
    for (size_t i = 0; i < c.count; i++) {
        const bw_compared *wall = &c.result->wall[i];
        const bw_section_wetting *test =
            &wall->assessment->section[0].wetting_test;
        ck_assert_int_eq(wall->verdict, wall->assessment->verdict);
        ck_assert(test->ran);
        ck_assert(case_row(&c, "simulated-months-to-dry")->has_value[i]);
        ck_assert_double_eq(case_row(&c, "simulated-months-to-dry")->value[i],
                            bw_wetting_test_months(test, &test->both));
    }
    HAS(text(), "Judged by one method: every wall was simulated");
    HAS(sheet.text, "(simulated, each at its place most at risk)");
    HAS(sheet.text, "By months, a cross-check. The drying reserve");
    const char *months = strstr(sheet.text, "  By months (Glaser");
    ck_assert(months != NULL &&
              strstr(sheet.text, "Highest mould index") < months &&
              strstr(sheet.text, "Most condensed water") > months);
}
END_TEST

/* ---- the same stresses --------------------------------------------------- */

static const bw_compare_options one_year = {
    .assessment = {.no_advice = true,
                   .synthetic_hours = true,
                   .transient = {.max_years = 1}}};

static const bw_stressed *stressed(const char *name, size_t wall)
{
    for (size_t i = 0; i < c.result->stress_count; i++)
        if (strcmp(c.result->stress[i].name, name) == 0)
            return &c.result->stress[i].wall[wall];
    return NULL;
}

#define RAINED "faces='W' driving-rain='moderate'"
#define CLAD                                                                   \
    "<layer id='face' material='brick-facing' thickness='102 mm'/>"            \
    "<cavity id='gap' thickness='40 mm' ventilation='well'/>"

/* What applies is read off the walls: the first has no cavity. */
START_TEST(all_walls_are_put_under_the_same_stresses)
{
    case_add(&c, (case_wall){"batt", RAINED, NULL,
                             CASE_BOARD CASE_BATT CASE_LINING});
    case_add(&c, (case_wall){"clad", RAINED, NULL,
                             CLAD CASE_BOARD CASE_BATT CASE_LINING});
    case_must(&c, &one_year);
    ck_assert_uint_eq(c.result->stress_count, 4);
    ck_assert_uint_eq(c.result->wall[0].stresses, 3);
    ck_assert_uint_eq(c.result->wall[1].stresses, 4);
    ck_assert_uint_eq(c.result->simulation_count, 2 + 3 + 4);
    ck_assert(!stressed("blocked-cavity", 0)->applies);
    HAS(stressed("blocked-cavity", 0)->reason, "no ventilated cavity");
    HAS(stressed("blocked-cavity", 1)->setting, "blocked");
    for (size_t i = 0; i < 2; i++) {
        HAS(stressed("air-leak", i)->setting, "q50 3 m3/(m2 h)");
        HAS(stressed("rain-leak", i)->setting, "1 % of the driving rain");
        HAS(stressed("damp-room", i)->setting, "class 3 instead of 2");
    }
}
END_TEST

/* Three times the leakier of both, for both; and 3 m3/(m2 h) is the least. */
START_TEST(walls_that_leak_differently_are_given_the_same_leak)
{
    case_add(&c, (case_wall){"a", NULL, NULL, CASE_BATT CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL, CASE_BATT CASE_LINING});
    c.assembly[0]->air_leakage = (bw_air_leakage){
        .given = true, .q50 = 2.0 / 3600.0, .connected_height = 3.0};
    case_must(&c, &one_year);
    HAS(stressed("air-leak", 0)->setting, "q50 6 m3/(m2 h)");
    HAS(stressed("air-leak", 1)->setting, "q50 6 m3/(m2 h)");
    /* Neither is rained on: a rain leak is none to either. */
    ck_assert_ptr_null(stressed("rain-leak", 0));
}
END_TEST

START_TEST(what_months_do_not_see_is_not_assessed_and_not_held)
{
    bw_compare_options months = one_year;
    months.assessment.no_transient = true;
    case_add(&c, (case_wall){"a", RAINED, NULL, CASE_BATT CASE_LINING});
    case_add(&c, (case_wall){"b", RAINED, NULL, CASE_BATT CASE_LINING});
    case_must(&c, &months);
    const bw_stressed *rain = stressed("rain-leak", 0);
    ck_assert(rain->applies);
    ck_assert_int_eq(rain->verdict, BW_NOT_ASSESSED);
    HAS(rain->reason, "know no rain");
    ck_assert_uint_ge(c.result->wall[0].not_held, 1);
    ck_assert_uint_eq(c.result->simulation_count, 0);
    ck_assert_uint_eq(c.result->best_count, 0);
    HAS(text(), "Which wall: not known, none of them is assessed without a");
}
END_TEST

START_TEST(of_two_walls_alike_nothing_tells_which)
{
    for (int i = 0; i < 2; i++)
        case_add(&c, (case_wall){"twin", RAINED, NULL,
                                 CASE_BOARD CASE_BATT CASE_LINING});
    case_must(&c, &one_year);
    const bw_compared *wall = c.result->wall;
    ck_assert_int_eq(wall[0].verdict, wall[1].verdict);
    ck_assert_uint_eq(wall[0].not_held, wall[1].not_held);
    ck_assert_uint_eq(
        c.result->best_count,
        wall[0].verdict == BW_HOLDS || wall[0].verdict == BW_MARGINAL ? 2 : 0);
}
END_TEST

/* ---- a retarder against a foil ------------------------------------------- */

/* Outside of them all is alike, and that is the way both dry: the reserve of
 * the tighter one cannot be many times that of the other. What the 5 m let
 * through inwards stays small beside it (derived: sd outside 0.012 m times the
 * mu of plywood, below 3 m). */
START_TEST(a_retarder_and_a_foil_on_one_wall_have_reserves_of_one_size)
{
    case_add(
        &c,
        (case_wall){
            "retarder", NULL, NULL,
            CASE_BOARD CASE_WOOL(
                "100",
                "0.040") "<membrane id='m' name='m' sd='5 m'/>" CASE_LINING});
    case_add(
        &c,
        (case_wall){
            "foil", NULL, NULL,
            CASE_BOARD CASE_WOOL(
                "100",
                "0.040") "<membrane id='m' name='m' sd='100 m'/>" CASE_LINING});
    const bw_compare_options options = {
        .assessment = {.no_advice = true, .no_transient = true}};
    case_must(&c, &options);
    const bw_compare_row *row = case_row(&c, "reserve");
    ck_assert(row->has_value[0] && row->has_value[1]);
    ck_assert_double_gt(row->value[0], 0.5 * row->value[1]);
    ck_assert_double_lt(row->value[0], 2.0 * row->value[1]);
}
END_TEST

/* ---- the worst section, by hand ------------------------------------------ */

static bw_assembly drawn;

static void wetted(size_t i, double months, double place, double left)
{
    parts[i] = (bw_section_assessment){.section = &named[i],
                                       .has_transient = true};
    parts[i].wetting_test = (bw_section_wetting){.ran = true,
                                                 .reason = "",
                                                 .one_way = true,
                                                 .both = {.months = months,
                                                          .place_months = place,
                                                          .left = left,
                                                          .day_count = 365}};
}

/* Both walls have the two sections. */
static const bw_compare_row *row_of(const char *name)
{
    return section_row(name, &drawn, 2, true);
}

START_TEST(the_slower_of_water_and_place_in_the_slowest_section_counts)
{
    wetted(0, 3.0, 5.0, 0.0);
    wetted(1, 4.0, 1.0, 0.0);
    const bw_compare_row *row = row_of("simulated-months-to-dry");
    ck_assert(row->has_value[0] && !row->by_months);
    ck_assert_double_eq(row->value[0], 5.0);
    ck_assert_str_eq(row->section[0], "between-studs");
    bw_arena_release(&core.arena);
}
END_TEST

START_TEST(a_section_that_never_dries_says_what_is_left)
{
    wetted(0, 3.0, 5.0, 0.0);
    wetted(1, -1.0, 1.0, 0.5);
    const bw_compare_row *row = row_of("simulated-months-to-dry");
    ck_assert(!row->has_value[0]);
    ck_assert_str_eq(row->instead[0], "not in 12 months: 500 g/m2 there");
    ck_assert_str_eq(row->section[0], "through-stud");
    bw_arena_release(&core.arena);
}
END_TEST

START_TEST(a_section_not_tested_leaves_the_wall_not_assessed)
{
    wetted(0, 3.0, 5.0, 0.0);
    wetted(1, 4.0, 1.0, 0.0);
    parts[1].wetting_test.ran = false;
    const bw_compare_row *row = row_of("simulated-months-to-dry");
    ck_assert(!row->has_value[0]);
    ck_assert_str_eq(row->instead[0], "not assessed");
    bw_arena_release(&core.arena);
    parts[1].wetting_test.nothing_at_risk = true;
    row = row_of("simulated-months-to-dry");
    ck_assert(row->has_value[0]);
    ck_assert_double_eq(row->value[0], 5.0);
    bw_arena_release(&core.arena);
}
END_TEST

/* A stud dries sideways: one way alone is told of the bay. */
START_TEST(one_way_alone_is_not_asked_through_a_stud)
{
    for (int bay = 0; bay < 2; bay++) {
        wetted(0, 3.0, 5.0, 0.0);
        parts[0].wetting_test.outwards = (bw_wetting_result){
            .months = 6.0, .place_months = 2.0, .day_count = 365};
        wetted(1, 4.0, 1.0, 0.0);
        parts[1].wetting_test.place_alone = true;
        parts[1].wetting_test.one_way = false;
        parts[0].wetting_test.ran = bay == 0;
        parts[0].wetting_test.nothing_at_risk = true;
        const bw_compare_row *row = row_of("simulated-months-to-dry-outwards");
        ck_assert(row->has_value[0] == (bay == 0));
        if (bay == 0)
            ck_assert_double_eq(row->value[0], 6.0);
        else
            ck_assert_str_eq(row->instead[0], "not assessed");
        bw_arena_release(&core.arena);
    }
}
END_TEST

START_TEST(rows_of_the_months_are_marked_and_come_last)
{
    wetted(0, 3.0, 5.0, 0.0);
    wetted(1, 4.0, 1.0, 0.0);
    ck_assert(row_of("reserve")->by_months);
    const bw_comparison *all = &core.comparison;
    bool months = false;
    for (size_t i = 0; i < all->row_count; i++) {
        ck_assert(all->row[i].by_months || !months);
        months = all->row[i].by_months;
    }
    ck_assert(months);
    bw_arena_release(&core.arena);
}
END_TEST

SUITE_AROUND("compare_hours", setup, teardown,
             FACT(where_one_wall_cannot_be_simulated_none_is_and_none_holds),
             FACT(walls_that_can_be_are_all_judged_by_the_simulation),
             FACT(all_walls_are_put_under_the_same_stresses),
             FACT(walls_that_leak_differently_are_given_the_same_leak),
             FACT(what_months_do_not_see_is_not_assessed_and_not_held),
             FACT(of_two_walls_alike_nothing_tells_which),
             FACT(a_retarder_and_a_foil_on_one_wall_have_reserves_of_one_size),
             FACT(the_slower_of_water_and_place_in_the_slowest_section_counts),
             FACT(a_section_that_never_dries_says_what_is_left),
             FACT(a_section_not_tested_leaves_the_wall_not_assessed),
             FACT(one_way_alone_is_not_asked_through_a_stud),
             FACT(rows_of_the_months_are_marked_and_come_last))
