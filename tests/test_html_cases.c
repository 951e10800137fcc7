/* Pages of results made by hand: nothing to draw, too much to draw, names of
 * every script, values without number. Each page is parsed as XML, and no
 * drawing reaches beyond its frame. */

#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/compare.h"
#include "bothways/margin.h"
#include "paper.h"
#include "report_wall.h"

static paper page;
static xmlDoc *doc;
static report_wall wall;

static void setup(void)
{
    report_wall_make(&wall);
    wall.checked.has_design = true;
    wall.checked.has_dry = true;
    doc = NULL;
}

static void teardown(void)
{
    xmlFreeDoc(doc);
}

static double number_at(const char *path)
{
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathRegisterNs(context, (const xmlChar *)"s",
                       (const xmlChar *)"http://www.w3.org/2000/svg");
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)path,
                                                   context);
    ck_assert_msg(found != NULL, "%s", path);
    double value = xmlXPathCastToNumber(found);
    xmlXPathFreeObject(found);
    xmlXPathFreeContext(context);
    return value;
}

#define COUNT_OF(path) ((size_t)number_at("count(" path ")"))

static void parse(void)
{
    static const char *const slips[] = {"(null)", ">nan", "\"nan",
                                        "inf\"",  "%s",   "\xe2\x80\xae"};
    xmlFreeDoc(doc);
    doc = xmlReadMemory(page.text, (int)page.used, "page", NULL,
                        XML_PARSE_NONET | XML_PARSE_HUGE);
    ck_assert_msg(doc != NULL, "the page does not parse");
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++)
        HAS_NOT(page.text, slips[i]);
    ck_assert_uint_eq(COUNT_OF("//h1"), 1);
    ck_assert_uint_eq(
        COUNT_OF("//s:svg//s:text[@y > number(substring-after(substring-after("
                 "substring-after(ancestor::s:svg/@viewBox, ' '), ' '), ' "
                 "'))]"),
        0);
    ck_assert_uint_eq(COUNT_OF("//s:rect[@width < 0 or @height < 0]"), 0);
}

static const char *check_page(void)
{
    paper_clear(&page);
    ck_assert_int_eq(
        bw_report_html(&wall.assessment, NULL, paper_take, &page, NULL), BW_OK);
    parse();
    return page.text;
}

/* ---- the check ------------------------------------------------------------
 */

static void nothing(void)
{
}

static void no_title(void)
{
    wall.assembly.title = "";
}

static void cited_by_the_wall(void)
{
    wall.assembly.title = "wall [1] of [99], [1234], [ 1], [] and [1x";
}

static void masonry(void)
{
    static const char *const groups[] = {"masonry", "plaster", "membrane"};
    for (size_t i = 0; i < WALL_SLABS; i++)
        wall.material[i].group = groups[i];
}

static void wood_and_air(void)
{
    wall.material[0].group = "wood";
    wall.material[1].group = "air";
    wall.material[2].group = "insulation";
}

static void timber(void)
{
    wall.material[0].wood_kind = BW_SOLID_WOOD;
    wall.material[1].wood_kind = BW_WOOD_PANEL;
}

static void one_face(void)
{
    wall.checked.design.plane_count = 1;
}

static void much_water(void)
{
    wall.plane[1].month[1].accumulated = 7.5;
    wall.checked.design.peak = 7.5;
}

static void dry_all_year(void)
{
    wall.plane[1].month[1].accumulated = wall.plane[1].month[1].condensation =
        0.0;
}

static void drying_out(void)
{
    wall.plane[1].month[1].condensation = -0.01;
}

static void curve_of_nothing(void)
{
    static const double none[] = {0.0, 0.0};
    wall.material[2].sd_curve.y = none;
}

static void no_dry_runs(void)
{
    wall.checked.has_dry = false;
}

static void dry_without_planes(void)
{
    wall.checked.dry_both.plane_count = 0;
}

static const struct page_row {
    void (*change)(void);
    const char *says, *says_not;
} pages[] = {
    {nothing, "hatch-insulation", "<title></title>"},
    {no_title, "<h1>demo</h1>", "<h1></h1>"},
    {cited_by_the_wall, "of [99], [1234], [ 1], [] and [1x", "#source-99"},
    {masonry, "hatch-masonry hatch-edge", "hatch-wood hatch-edge"},
    {wood_and_air, "hatch-wood hatch-edge", "hatch-masonry hatch-edge"},
    {timber, "hatch-panel hatch-edge", "hatch-masonry hatch-edge"},
    {one_face, "<h1>", "data-chart=\"section\""},
    {much_water, "kg/m\xc2\xb2", "data-accumulated=\"-"},
    {dry_all_year, "No water stands anywhere", "class=\"drop\""},
    {drying_out, "data-chart=\"section\"", "(null)"},
    {curve_of_nothing, "Layers that open and close", "data-chart=\"membrane\""},
    {no_dry_runs, "<h1>", "data-chart=\"drying\""},
    {dry_without_planes, "not assessed", "data-chart=\"drying\""},
};

START_TEST(a_page_draws_what_there_is_and_nothing_else)
{
    pages[_i].change();
    const char *text = check_page();
    HAS(text, pages[_i].says);
    HAS_NOT(text, pages[_i].says_not);
}
END_TEST

static const char *const names[] = {
    "\xe2\x80\xae"
    "fails",
    "<b>bold</b> & \"quoted\" ]]>",
    "e\xcc\x81 \xe6\x9c\xa8 \xd7\x9c\xe2\x80\x8f \xf0\x9f\x8c\xb2",
    "\xed\xa0\x80 \xef\xbf\xbf \xf4\x90\x80\x80 \xc0\x80 \xe0\x80\x80 \xf8 "
    "\xc2",
    "",
};

START_TEST(names_of_every_script_make_a_page)
{
    const char *name = names[_i];
    wall.assembly.title = wall.climate.place = wall.assembly.remark = name;
    for (size_t i = 0; i < WALL_SLABS; i++)
        wall.layer[i].name = wall.slab[i].label = wall.material[i].name = name;
    report_simulate(&wall);
    wall.monitor[1].label = name;
    check_page();
}
END_TEST

/* ---- the simulated year ---------------------------------------------------
 */

enum { HOURS = 8760, PLACES = 10 };

static bw_monitor places[PLACES];
static bw_hour_row hours[HOURS * PLACES];

/* Every place has mould in the year and next to none at its end. */
static void simulate(size_t count, double mould)
{
    memset(places, 0, sizeof places);
    for (size_t i = 0; i < count; i++) {
        places[i] = (bw_monitor){.label = "hemp batt",
                                 .slab = i,
                                 .outer_face = i == 0,
                                 .room_face = i + 1 == count,
                                 .highest_mould = mould + 0.1 * (double)i,
                                 .hours_above_80 = 12.0};
        for (int m = 0; m < BW_MONTHS; m++)
            places[i].month_rh[m] = 0.6 + 0.02 * m;
        for (size_t h = 0; h < HOURS; h++)
            hours[h * count + i] = (bw_hour_row){
                .phi = 0.7, .mould = h < 100 ? places[i].highest_mould : 0.0};
    }
    wall.checked.has_transient = true;
    wall.checked.transient = (bw_transient_result){.method = "",
                                                   .monitor_count = count,
                                                   .monitor = places,
                                                   .hour = hours,
                                                   .hour_count = HOURS,
                                                   .first_month = 9,
                                                   .years = 1,
                                                   .periodic = true};
}

START_TEST(mould_lines_are_told_apart_inside_their_drawing)
{
    simulate(PLACES, 1.0);
    check_page();
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='mould']//s:text[string-"
                               "length(.) = 1 and translate(., 'abcdefgh', "
                               "'') = '']"),
                      8); /* the mouldiest of ten */
    double last = -1e9;
    for (char c = 'a'; c <= 'h'; c++) {
        char path[128];
        snprintf(path, sizeof path,
                 "//figure[@data-chart='mould']//s:text[. = '%c']/@y", c);
        double y = number_at(path);
        ck_assert_double_ge(y - last, 11.0 - 0.11);
        last = y;
    }
    ck_assert_double_le(last, 200.0);
}
END_TEST

START_TEST(a_year_without_mould_says_so)
{
    simulate(3, -1.0);
    const char *text = check_page();
    HAS(text, "The mould index stays below 0.05 everywhere: not drawn.");
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='mould']"), 0);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='humidity']"), 3);
}
END_TEST

START_TEST(without_hours_the_months_stand_for_the_year)
{
    simulate(2, 1.0);
    wall.checked.transient.hour_count = 0;
    wall.checked.transient.hour = NULL;
    const char *text = check_page();
    HAS(text, "Monthly means of the last simulated year.");
    HAS(text, "data-lowest=\"60\" data-highest=\"82\"");
    HAS(text, "Room face");
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='mould']"), 0);
}
END_TEST

START_TEST(a_simulation_without_places_draws_none)
{
    simulate(2, 1.0);
    wall.checked.transient.monitor_count = 0;
    HAS_NOT(check_page(), "The simulated year, drawn");
}
END_TEST

static const struct wood_row {
    bool is_wood, heavy, panel;
    size_t drawn;
    const char *line;
} woods[] = {
    {true, true, false, 1, "the line is at 20 percent."},
    {true, true, true, 1, "the line is at 18 percent."},
    {true, false, false, 0, "<h1>"},
    {false, true, false, 0, "<h1>"},
};

START_TEST(wood_of_known_mass_has_its_moisture_drawn)
{
    static bw_slab_moisture moisture[1];
    simulate(2, 1.0);
    moisture[0] = (bw_slab_moisture){.is_wood = woods[_i].is_wood};
    for (int m = 0; m < BW_MONTHS; m++)
        moisture[0].month_mean[m] = 0.9;
    if (woods[_i].heavy)
        wall.material[0].density = report_property(500.0, BW_BASIS_FROM_MEMORY,
                                                   "");
    wall.material[0].wood_kind = woods[_i].panel ? BW_WOOD_PANEL
                                                 : BW_SOLID_WOOD;
    wall.checked.transient.slab = moisture;
    wall.checked.transient.slab_count = 1;
    wall.checked.transient_section = &wall.section;
    HAS(check_page(), woods[_i].line);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='wood']"),
                      woods[_i].drawn);
}
END_TEST

/* ---- the margin ------------------------------------------------------------
 */

static bw_margin margin;
static bw_unknown unknown[2];
static bw_sd_cell map[4];
static const double sd[] = {0.5, 10.0};

static const char *margin_page(void)
{
    paper_clear(&page);
    ck_assert_int_eq(
        bw_report_margin_html(&margin, NULL, paper_take, &page, NULL), BW_OK);
    parse();
    return page.text;
}

static void make_margin(void)
{
    unknown[0] = (bw_unknown){.name = "mu of board",
                              .layer = "board",
                              .unit = "-",
                              .continuous = true,
                              .as_drawn = 5.0,
                              .low = 5.0,
                              .high = 60.0,
                              .low_words = "",
                              .high_words = "",
                              .seen = true,
                              .note = "",
                              .flips = true,
                              .flip_value = 23.5,
                              .flip_criterion = "annual-balance",
                              .swing_criterion = "annual-balance",
                              .swing = 1.0,
                              .swing_lowest = -0.5,
                              .swing_as_drawn = 0.25,
                              .swing_highest = 0.5};
    unknown[1] = unknown[0];
    unknown[1].name = "cavity blocked";
    unknown[1].unit = "";
    unknown[1].continuous = false;
    for (int i = 0; i < 4; i++)
        map[i] = (bw_sd_cell){0.0, 0.4, 0.4 - 0.2 * i};
    margin = (bw_margin){.assessment = &wall.assessment,
                         .unknown_count = 2,
                         .unknown = unknown,
                         .worst_combination_text = "as drawn",
                         .worst_combination_reason = "",
                         .inner_count = 2,
                         .outer_count = 2,
                         .inner_sd = sd,
                         .outer_sd = sd,
                         .map = map,
                         .map_inner = "film",
                         .map_outer = "board",
                         .map_section = "whole",
                         .map_note = ""};
}

static void all_fail(void)
{
    unknown[0].swing_highest = unknown[0].swing_as_drawn = -0.1;
    unknown[1].seen = false;
}

static void all_hold(void)
{
    unknown[0].swing_lowest = 0.1;
    unknown[1].seen = false;
}

static void of_no_value(void)
{
    unknown[0].as_drawn = unknown[0].swing_as_drawn = (double)NAN;
    unknown[0].flips_all = true;
}

static void nothing_moves(void)
{
    unknown[0].swing = unknown[1].swing = 0.0;
}

static void long_name(void)
{
    unknown[0].name = "water vapour resistance factor of the innermost of the "
                      "boards of wood fibre outside";
}

static void no_cell(void)
{
    for (int i = 0; i < 4; i++)
        map[i] = (bw_sd_cell){(double)NAN, (double)NAN, (double)NAN};
}

static void asked_for(void)
{
    margin.map_limit = 0.25;
    map[0].condensed = 1.5;
}

static void no_map(void)
{
    margin.inner_count = margin.outer_count = 0;
    margin.map_note = "there is no layer to compute";
}

static const struct page_row margin_pages[] = {
    {nothing, "flips at 23.5", "No unknown moves"},
    {nothing, ">flips<", "n/a"},
    {nothing, "less can evaporate than condenses", "reserve below"},
    {no_title, "forgives: demo", "forgives: <"},
    {all_fail, "data-margins=\"-0.5 -0.1 -0.1\"", "class=\"safe\""},
    {all_hold, "data-margins=\"0.1 0.25 0.5\"", "class=\"bad\""},
    {of_no_value, "data-margins=\"-0.5 - 0.5\"", "flips at 23.5<"},
    {nothing_moves, "No unknown moves any criterion.", "data-chart=\"margin\""},
    {long_name, "water vapour resistance factor of the\xe2\x80\xa6",
     "of the innermost\xe2\x80\xa6"},
    {no_cell, ">n/a<", "class=\"short\""},
    {asked_for, "reserve below 250 g/m\xc2\xb2", "n/a"},
    {no_map, "there is no layer to compute", "data-chart=\"sd-map\""},
};

START_TEST(a_margin_page_draws_what_there_is)
{
    make_margin();
    margin_pages[_i].change();
    const char *text = margin_page();
    HAS(text, margin_pages[_i].says);
    HAS_NOT(text, margin_pages[_i].says_not);
}
END_TEST

/* ---- the comparison --------------------------------------------------------
 */

enum { WALLS = 2 };

static bool known[WALLS];
static double value[WALLS];
static bw_criterion judged[WALLS];
static const bw_criterion *criterion[WALLS];
static const char *instead[WALLS];
static bw_verdict verdicts[WALLS];
static bw_compare_row row;

static void make_row(void)
{
    for (size_t i = 0; i < WALLS; i++) {
        known[i] = true;
        value[i] = 0.25 * (double)(i + 1);
        instead[i] = "";
        judged[i] = (bw_criterion){.decides = true,
                                   .has_limit = true,
                                   .limit = 0.4,
                                   .verdict = BW_HOLDS};
        criterion[i] = &judged[i];
        verdicts[i] = BW_HOLDS;
    }
    row = (bw_compare_row){.name = "some-row",
                           .title = "Some row",
                           .unit = "kg/m2",
                           .is_criterion = true,
                           .has_value = known,
                           .value = value,
                           .verdict = verdicts,
                           .section = instead,
                           .criterion = criterion,
                           .instead = instead};
}

static void far_limit(void)
{
    judged[0].limit = judged[1].limit = 40.0;
}

static void own_limits(void)
{
    judged[1].limit = 0.3;
}

static void one_limit(void)
{
    judged[1].has_limit = false;
}

static void without_criterion(void)
{
    criterion[1] = NULL;
    known[1] = false;
    instead[1] = "no such part";
}

static void unassessed(void)
{
    known[1] = false;
}

static void no_number(void)
{
    value[1] = (double)NAN;
}

static void below_nought(void)
{
    value[0] = -0.2;
}

static void noughts(void)
{
    value[0] = value[1] = 0.0;
}

static void screening_only(void)
{
    judged[0].screening = judged[1].screening = true;
}

static void of_length(void)
{
    row.is_criterion = false;
    row.unit = "m";
}

static void of_no_unit(void)
{
    row.unit = "-";
}

static const struct page_row compare_pages[] = {
    {nothing, "data-value=\"0.25 0.5\"", "not assessed"},
    {nothing, "Some row. Broken line: the limit, 400 g/m\xc2\xb2", "250 kg"},
    {far_limit, "data-row=\"some-row\"", "Broken line: the limit"},
    {own_limits, "*: each wall has a limit of its own.",
     "Broken line: the limit"},
    {one_limit, "Broken line: the limit, 400", "limit of its own"},
    {without_criterion, "no such part", "(null)"},
    {unassessed, ">not assessed<", "(null)"},
    {no_number, "data-value=\"0.25 -\"", "(null)"},
    {below_nought, "class=\"bad\"", "(null)"},
    {noughts, "<h1>", "data-row=\"some-row\""},
    {screening_only, "(screening): 250", "data-row=\"some-row\""},
    {of_length, "250.0 mm", "Broken line: the limit"},
    {of_no_unit, "Broken line: the limit, 0.4", "0.4 -"},
};

START_TEST(a_comparison_page_draws_what_there_is)
{
    static const char *const sentence[] = {"One sentence."};
    bw_compared walls[WALLS] = {{.label = "a"}, {.label = "b"}};
    for (size_t i = 0; i < WALLS; i++) {
        walls[i].assessment = &wall.assessment;
        walls[i].id = walls[i].title = walls[i].label;
    }
    make_row();
    compare_pages[_i].change();
    bw_comparison c = {.wall_count = WALLS,
                       .wall = walls,
                       .row_count = 1,
                       .row = &row,
                       .sentence_count = 1,
                       .sentence = sentence};
    paper_clear(&page);
    ck_assert_int_eq(bw_report_compare_html(&c, NULL, paper_take, &page, NULL),
                     BW_OK);
    parse();
    HAS(page.text, compare_pages[_i].says);
    HAS_NOT(page.text, compare_pages[_i].says_not);
}
END_TEST

#define COUNT(a) (int)(sizeof(a) / sizeof(a)[0])

int main(void)
{
    Suite *suite = suite_create("html_cases");
    TCase *tc = tcase_create("pages");
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_add_loop_test(tc, a_page_draws_what_there_is_and_nothing_else, 0,
                        COUNT(pages));
    tcase_add_loop_test(tc, names_of_every_script_make_a_page, 0, COUNT(names));
    tcase_add_test(tc, mould_lines_are_told_apart_inside_their_drawing);
    tcase_add_test(tc, a_year_without_mould_says_so);
    tcase_add_test(tc, without_hours_the_months_stand_for_the_year);
    tcase_add_test(tc, a_simulation_without_places_draws_none);
    tcase_add_loop_test(tc, wood_of_known_mass_has_its_moisture_drawn, 0,
                        COUNT(woods));
    tcase_add_loop_test(tc, a_margin_page_draws_what_there_is, 0,
                        COUNT(margin_pages));
    tcase_add_loop_test(tc, a_comparison_page_draws_what_there_is, 0,
                        COUNT(compare_pages));
    suite_add_tcase(suite, tc);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    xmlCleanupParser();
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
