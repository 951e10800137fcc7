/* What a report shows of a simulation's findings: the summary, the part of the
 * standards' rows, the tables. The assessment is made by hand. */

#include <stdlib.h>
#include <string.h>

#include "wall_sheet.h"

static const char *text_of(bool brief)
{
    return text_with((bw_report_options){
        .width = 200, .extent = brief ? BW_EXTENT_SCREEN : BW_EXTENT_FULL});
}

/* Every figure chosen: the report picks the worst and computes nothing. */
static void simulate_with_findings(void)
{
    static bw_place_mould mould[2];
    static bw_wood_damage wood[1];
    report_simulate(&wall);
    bw_section_assessment *c = &wall.checked;
    mould[0] = (bw_place_mould){.highest = 4.5, .highest_slow = 4.5};
    mould[1] = (bw_place_mould){.highest = 2.25,
                                .highest_slow = 3.5,
                                .dose = 21.5,
                                .wetness_hours = 987};
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
                 .damp_months = 4.75,
                 .left = 0.01,
                 .highest_mould = 1.5,
                 .highest_mould_dry = 0.5,
                 .day_count = 150},
        .outwards = {.months = 5.0, .place_months = 2.0, .day_count = 160},
        .inwards = {.months = -1.0,
                    .place_months = 7.0,
                    .damp_months = -1.0,
                    .left = 0.42,
                    .day_count = 730},
    };
}

START_TEST(the_screen_says_how_a_wetted_wall_dries_then_what_the_months_say)
{
    simulate_with_findings();
    const char *text = text_of(true);
    HAS(text, "How it dries: outwards, not inwards (simulated hour by hour, EN "
              "15026)\n  1 kg/m2 of water put between softboard "
              "and hemp batt in Oct:\n");
    HAS(text, "both ways             dry in 4.5 months\n");
    HAS(text, "outwards only         dry in 5.0 months\n");
    HAS(text, "inwards only          not dry in 24 months: 0.42 kg still "
              "there\n");
    const char *months = strstr(text, "By months (Glaser, ISO 13788): "
                                      "cross-check");
    ck_assert(months != NULL && months > strstr(text, "inwards only"));
    HAS(months, "Condensed water           432 g/m2 in Feb, most of it between "
                "softboard and hemp batt\n");
    HAS(months, "both ways 5.2 months; outwards 7.5; inwards never\n");
    HAS(months, "  sd 3 m in winter (Jan), 3 m in summer (Jan)\n");
}
END_TEST

/* Of 1 kg: what is left, each way in turn; -1: it is dry. */
static const struct dries {
    double both, outwards, inwards;
    const char *says, *both_says;
} dries[] = {
    {-1, -1, -1, "outwards and inwards, it dries both ways", "dry in 2.0"},
    {-1, 0.5, -1, "inwards, not outwards", "dry in 2.0 months\n"},
    {-1, 0.5, 0.5, "only with both ways open", "dry in 2.0 months\n"},
    {0.99, 0.99, 1.2, "neither way, it does not dry",
     "0.99 kg still there after 12 months: it does not dry\n"},
    {0.2, 0.3, 0.3, "neither way, it does not dry",
     "not dry in 12 months: 0.20 kg still there\n"},
};

static bw_wetting_result left(double kg)
{
    return (bw_wetting_result){.months = kg < 0.0 ? 2.0 : -1.0,
                               .place_months = kg < 0.0 ? 2.0 : -1.0,
                               .left = kg,
                               .day_count = 365};
}

START_TEST(a_wall_dries_both_ways_or_one_or_none)
{
    const struct dries *row = &dries[_i];
    simulate_with_findings();
    wall.checked.wetting_test.both = left(row->both);
    wall.checked.wetting_test.outwards = left(row->outwards);
    wall.checked.wetting_test.inwards = left(row->inwards);
    const char *text = text_of(true);
    HAS(text, row->says);
    HAS(strstr(text, "both ways             "), row->both_says);
}
END_TEST

START_TEST(through_framing_the_place_alone_is_waited_for)
{
    simulate_with_findings();
    wall.checked.wetting_test.place_alone = true;
    const char *text = text_of(true);
    HAS(text, "outwards only         dry in 2.0 months\n");
    HAS(text, "inwards only          dry in 7.0 months\n");
}
END_TEST

/* ---- the figure that decides --------------------------------------------- */

static bw_criterion row_of(const char *name, bw_verdict verdict)
{
    return (bw_criterion){.section = "whole",
                          .criterion = name,
                          .title = name,
                          .method = "transient",
                          .decides = true,
                          .has_value = true,
                          .has_limit = true,
                          .value = 4.56,
                          .limit = 3.0,
                          .margin = -1.56,
                          .unit = "-",
                          .verdict = verdict,
                          .outcome = verdict,
                          .reason = "index 4.56 at the board in Jan",
                          .rule = ""};
}

START_TEST(the_verdict_names_its_figure_its_limit_and_what_else_is_beyond)
{
    bw_criterion rows[] = {
        row_of("mould-index-hidden", BW_FAILS), row_of("decay-dose", BW_FAILS),
        row_of("decay-dose", BW_FAILS), row_of("wood-moisture", BW_MARGINAL),
        row_of("standing-water", BW_HOLDS)};
    rows[2].section = "other";
    wall.assessment.criterion = rows;
    wall.assessment.criterion_count = COUNT(rows);
    wall.assessment.deciding = &rows[0];
    const char *text = text_of(true);
    HAS(text, "Verdict: fails\n  mould-index-hidden: 4.56, limit: at most 3\n"
              "    index 4.56 at the board in Jan\n"
              "  2 more fail: decay dose (2).\n"
              "  1 is marginal: wood moisture.\n");
    HAS(text, "\nVerdict: fails (demo)\n");
    ck_assert_str_eq(strstr(text, "\nVerdict: fails (demo)"),
                     "\nVerdict: fails (demo)\n"); /* the last line */
    rows[0] = row_of("drying-reserve", BW_HOLDS);
    rows[0].value = 3.5;
    rows[0].margin = 0.5;
    wall.assessment.verdict = BW_HOLDS;
    HAS(text_of(true), "Every criterion that decides holds. Closest to its "
                       "limit:\n  drying-reserve: 3.5, limit: at least 3\n");
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
    {true, true, "agrees: both fail; by months "},
    {true, false, "differs: simulated nothing fails, by months "},
    {false, true,
     "differs: by months nothing fails, simulated mould index does\n"},
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

START_TEST(months_that_a_rule_set_asks_for_are_no_cross_check)
{
    simulate_with_findings();
    wall.criterion[0].screening = false; /* within the limits, and decides */
    HAS(text_of(true), "By months (Glaser, ISO 13788): they decide, too, as "
                       "the rule set asks");
    wall.criterion[0].cross_check = true;
    HAS(text_of(true), "By months (Glaser, ISO 13788): cross-check");
}
END_TEST

START_TEST(a_marginal_figure_of_the_simulation_is_not_kept_back)
{
    simulate_with_findings();
    wall.criterion[0].outcome = BW_HOLDS;
    wall.criterion[1].method = "transient";
    wall.criterion[1].has_limit = true;
    wall.criterion[1].outcome = BW_MARGINAL;
    HAS(text_of(true), "agrees: nothing fails; simulated, some figures are "
                       "marginal");
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
    HAS(text, "demo,whole,inwards,board|batt,1,10,,7,0.42,0,0,24,\n");
}
END_TEST

START_TEST(damage_has_a_row_for_each_place_and_each_wood)
{
    ck_assert_uint_eq(count_lines(table_of(BW_TABLE_DAMAGE)), 1);
    simulate_with_findings();
    const char *text = table_of(BW_TABLE_DAMAGE);
    ck_assert_uint_eq(count_lines(text), 1 + 2 + 1);
    HAS(text, "demo,whole,outside|board,,");
    HAS(text, "demo,whole,board|batt,,sensitive,2.25,3.5,21.5,987,1234,0,0,0."
              "125,2,40,"
              ",,,,,,,,,\n");
    HAS(text,
        "demo,whole,,board,,,,,,,,,,,,24.3,21.3,18,345,14.2,30,12,2.5,1.5,"
        "76\n");
}
END_TEST

START_TEST(tables_of_findings_have_as_many_fields_as_their_header)
{
    simulate_with_findings();
    fields_match(table_of((bw_table)(BW_TABLE_WETTING + _i)));
}
END_TEST

SUITE_AROUND(
    "report_findings", setup, NULL,
    FACT(the_screen_says_how_a_wetted_wall_dries_then_what_the_months_say),
    EACH(a_wall_dries_both_ways_or_one_or_none, COUNT(dries)),
    FACT(the_verdict_names_its_figure_its_limit_and_what_else_is_beyond),
    FACT(through_framing_the_place_alone_is_waited_for),
    FACT(what_is_not_simulated_says_so_and_why_below_the_verdict),
    EACH(the_months_say_whether_they_agree_with_the_simulation,
         COUNT(agreements)),
    FACT(months_that_a_rule_set_asks_for_are_no_cross_check),
    FACT(a_marginal_figure_of_the_simulation_is_not_kept_back),
    FACT(the_standards_rows_have_a_part_of_their_own_beside_a_simulation),
    FACT(the_wetting_test_has_a_row_for_each_way),
    FACT(damage_has_a_row_for_each_place_and_each_wood),
    EACH(tables_of_findings_have_as_many_fields_as_their_header,
         BW_TABLE_DAMAGE - BW_TABLE_WETTING + 1))
