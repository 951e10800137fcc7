/* What a report shows of a simulation's findings: the summary, the part of the
 * standards' rows, the tables. The assessment is made by hand. */

#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "paper.h"
#include "report_wall.h"

static paper sheet;
static report_wall wall;

static void setup(void)
{
    paper_clear(&sheet);
    report_wall_make(&wall);
}

static const char *text_of(bool quiet)
{
    const bw_report_options options = {.width = 200, .quiet = quiet};
    paper_clear(&sheet);
    ck_assert_int_eq(
        bw_report_text(&wall.assessment, &options, paper_take, &sheet, NULL),
        BW_OK);
    paper_fits(sheet.text, 200);
    return sheet.text;
}

static const char *table_of(bw_table table)
{
    paper_clear(&sheet);
    ck_assert_int_eq(
        bw_report_table(&wall.results, table, paper_take, &sheet, NULL), BW_OK);
    return sheet.text;
}

static size_t count_lines(const char *text)
{
    size_t lines = 0;
    for (; *text != '\0'; text++)
        lines += *text == '\n';
    return lines;
}

/* Every figure chosen: the report picks the worst and computes nothing. */
static void simulate_with_findings(void)
{
    static bw_place_mould mould[2];
    static bw_wood_damage wood[1];
    report_simulate(&wall);
    bw_section_assessment *c = &wall.checked;
    mould[0] = (bw_place_mould){.highest = 4.5, .highest_slow = 4.5};
    mould[1] = (bw_place_mould){.highest = 2.25, .highest_slow = 3.5};
    wood[0] = (bw_wood_damage){.line = {.days_above = 12},
                               .first_line = {.days_above = 30},
                               .dose = 1.5,
                               .first_dose = 2.5,
                               .service_dose = 76.0};
    c->mould = mould;
    c->wood = wood;
    wall.monitor[1].room_face = false;
    wall.monitor[1].mould_class = BW_MOULD_SENSITIVE;
    wall.monitor[1].last_free = (bw_free_water){0.125, 1, 800, 40.0};
    c->wetting_test = (bw_section_wetting){
        .ran = true,
        .reason = "",
        .place = {0, 0.012, true},
        .water = 1.0,
        .month = 9,
        .one_way = true,
        .both = {.months = 3.25,
                 .place_months = 4.5,
                 .left = 0.01,
                 .highest_mould = 1.5,
                 .highest_mould_dry = 0.5,
                 .day_count = 150},
        .outwards = {.months = 5.0, .place_months = 2.0, .day_count = 160},
        .inwards = {.months = -1.0,
                    .place_months = 7.0,
                    .left = 0.42,
                    .day_count = 730},
    };
}

START_TEST(the_summary_begins_with_the_figures_that_decide)
{
    simulate_with_findings();
    const char *text = text_of(true);
    HAS(text, "Wettest wood              24.3 % by mass, softboard, in Nov of "
              "the first year; 21.3 % in the last year\n");
    HAS(text, "Highest mould index       2.25 of 6, ");
    HAS(text, "; 3.50 with the decline of ASHRAE 160\n");
    HAS(text, "Most standing water       125 g/m2 in Feb of the last year, ");
    HAS(text, "To dry 1 kg/m2            simulated, put in Oct between "
              "softboard and hemp batt\n");
    HAS(text, "both ways             4.5 months\n");
    HAS(text, "outwards only         5.0 months\n");
    HAS(text, "inwards only          not in 24 months: 420 g/m2 there\n");
    const char *months = strstr(text, "By months (Glaser, ISO 13788): "
                                      "cross-check");
    ck_assert(months != NULL && months > strstr(text, "inwards only"));
    HAS(months, "Most condensed water      432 g/m2");
    HAS(months, "both ways             5.2 months\n");
    HAS_NOT(months, "outwards only");
}
END_TEST

START_TEST(through_framing_the_place_alone_is_waited_for)
{
    simulate_with_findings();
    wall.checked.wetting_test.place_alone = true;
    const char *text = text_of(true);
    HAS(text, "outwards only         2.0 months\n");
    HAS(text, "inwards only          7.0 months\n");
}
END_TEST

START_TEST(what_is_not_simulated_says_so_and_why_below_the_verdict)
{
    wall.checked.transient_reason = "no sorption data of hemp batt";
    const char *text = text_of(true);
    HAS(text, "  Not simulated: no sorption data of hemp batt.\n  Without a "
              "simulation the monthly method decides alone.");
    HAS_NOT(text, "what decides");
    HAS_NOT(text, "cross-check");
}
END_TEST

/* By months a figure fails or not, in the simulation one fails or not. */
static const struct agreement {
    bool months, hours;
    const char *says;
} agreements[] = {
    {false, false, "agrees: neither has a figure that fails\n"},
    {true, true, "agrees: both fail (by months one figure is beyond the limit"},
    {true, false, "differs: by months one figure is beyond the limit (first: "},
    {false, true,
     "differs: every monthly figure is within its limit, in the "
     "simulation one figure is beyond (first: Mould)"},
};

START_TEST(the_months_say_whether_they_agree_with_the_simulation)
{
    const struct agreement *row = &agreements[_i];
    simulate_with_findings();
    wall.criterion[0].outcome = row->months ? BW_FAILS : BW_HOLDS;
    wall.criterion[1] = (bw_criterion){.section = "whole",
                                       .criterion = "mould-index",
                                       .title = "Mould",
                                       .method = "transient",
                                       .decides = true,
                                       .has_limit = true,
                                       .unit = "-",
                                       .reason = "",
                                       .rule = "",
                                       .outcome = row->hours ? BW_FAILS
                                                             : BW_HOLDS};
    HAS(text_of(true), row->says);
}
END_TEST

START_TEST(a_marginal_figure_of_the_simulation_is_not_kept_back)
{
    simulate_with_findings();
    wall.criterion[0].outcome = BW_HOLDS;
    wall.criterion[1].method = "transient";
    wall.criterion[1].has_limit = true;
    wall.criterion[1].outcome = BW_MARGINAL;
    HAS(text_of(true), "agrees: neither has a figure that fails; the "
                       "simulation has marginal ones");
}
END_TEST

START_TEST(the_standards_rows_have_a_part_of_their_own_beside_a_simulation)
{
    HAS_NOT(text_of(false), "Cross-check by months");
    simulate_with_findings();
    bw_criterion *monthly = &wall.criterion[0];
    monthly->screening = false;
    monthly->cross_check = true;
    monthly->outcome = BW_FAILS;
    monthly->verdict = BW_MARGINAL;
    const char *text = text_of(false);
    const char *decides = strstr(text, "Section whole: what decides");
    const char *beside = strstr(text, "Cross-check by months and by block");
    ck_assert(decides != NULL && beside != NULL && decides < beside);
    const char *row = strstr(decides, monthly->title);
    ck_assert_msg(row != NULL && row > beside, "%s", decides);
    HAS(row, "marginal (cross-check)");
    const char *surface = strstr(decides, wall.criterion[1].title);
    ck_assert(surface != NULL && surface < beside);
}
END_TEST

START_TEST(the_wetting_test_has_a_row_for_each_way)
{
    ck_assert_uint_eq(count_lines(table_of(BW_TABLE_WETTING)), 1);
    simulate_with_findings();
    const char *text = table_of(BW_TABLE_WETTING);
    ck_assert_uint_eq(count_lines(text), 4);
    HAS(text, "demo,whole,both,board|batt,1,10,3.25,4.5,0.01,1.5,0.5,");
    HAS(text, "demo,whole,inwards,board|batt,1,10,,7,0.42,0,0,24\n");
}
END_TEST

START_TEST(damage_has_a_row_for_each_place_and_each_wood)
{
    ck_assert_uint_eq(count_lines(table_of(BW_TABLE_DAMAGE)), 1);
    simulate_with_findings();
    const char *text = table_of(BW_TABLE_DAMAGE);
    ck_assert_uint_eq(count_lines(text), 1 + 2 + 1);
    HAS(text, "demo,whole,outside|board,,");
    HAS(text, "demo,whole,board|batt,,sensitive,2.25,3.5,1234,0,0,0.125,2,40,"
              ",,,,,,,,,\n");
    HAS(text, "demo,whole,,board,,,,,,,,,,24.3,21.3,18,345,14.2,30,12,2.5,1.5,"
              "76\n");
}
END_TEST

START_TEST(tables_of_findings_have_as_many_fields_as_their_header)
{
    simulate_with_findings();
    const char *c = table_of((bw_table)_i);
    size_t wanted = 0, fields = 1;
    for (; *c != '\0'; c++) {
        fields += *c == ',';
        if (*c != '\n')
            continue;
        wanted = wanted == 0 ? fields : wanted;
        ck_assert_uint_eq(fields, wanted);
        fields = 1;
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("report_findings");
    TCase *tc = tcase_create("findings");
    tcase_add_checked_fixture(tc, setup, NULL);
    tcase_add_test(tc, the_summary_begins_with_the_figures_that_decide);
    tcase_add_test(tc, through_framing_the_place_alone_is_waited_for);
    tcase_add_test(tc, what_is_not_simulated_says_so_and_why_below_the_verdict);
    tcase_add_loop_test(tc,
                        the_months_say_whether_they_agree_with_the_simulation,
                        0, sizeof agreements / sizeof agreements[0]);
    tcase_add_test(tc, a_marginal_figure_of_the_simulation_is_not_kept_back);
    tcase_add_test(
        tc, the_standards_rows_have_a_part_of_their_own_beside_a_simulation);
    tcase_add_test(tc, the_wetting_test_has_a_row_for_each_way);
    tcase_add_test(tc, damage_has_a_row_for_each_place_and_each_wood);
    tcase_add_loop_test(tc,
                        tables_of_findings_have_as_many_fields_as_their_header,
                        BW_TABLE_WETTING, BW_TABLE_DAMAGE + 1);
    suite_add_tcase(suite, tc);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
