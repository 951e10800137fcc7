/* Pages of results made by hand: nothing to draw, too much to draw, names of
 * every script, values without number. Each page is parsed as XML, and no
 * drawing reaches beyond its frame. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "html_page.h"
#include "report_wall.h"

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
    wall.checked.transient_section = &wall.section;
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
    double limit; /* of a row that a rule set tightened; 0: no row */
    size_t drawn;
    const char *line;
} woods[] = {
    {true, true, false, 0.0, 1, "the line is at 20 percent."},
    {true, true, true, 0.0, 1, "the line is at 18 percent."},
    {true, true, false, 16.5, 1, "the line is at 16.5 percent."},
    {true, false, false, 0.0, 0, "<h1>"},
    {false, true, false, 0.0, 0, "<h1>"},
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
    if (woods[_i].limit > 0.0) {
        wall.criterion[0].criterion = "wood-moisture";
        wall.criterion[0].limit = woods[_i].limit;
    }
    HAS(check_page(), woods[_i].line);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='wood']"),
                      woods[_i].drawn);
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
    suite_add_tcase(suite, tc);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    xmlCleanupParser();
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
