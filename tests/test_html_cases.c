/* Pages of results made by hand: nothing to draw, too much to draw, names of
 * every script, values without number. Each page is parsed as XML, and no
 * drawing reaches beyond its frame. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "html_page.h"
#include "one_document.h"
#include "report_wall.h"
#include "suite.h"

static const char *check_page(void)
{
    paper_clear(&page);
    ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, NULL,
                                  paper_take, &page, NULL),
                     BW_OK);
    parse();
    return page.text;
}

/* ---- the check --------------------------------------------------------- */

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
    wall.checked.run[BW_RUN_DESIGN].result.plane_count = 1;
}

static void much_water(void)
{
    wall.plane[1].month[1].accumulated = 7.5;
    wall.checked.run[BW_RUN_DESIGN].result.peak = 7.5;
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
    wall.checked.run[BW_RUN_WETTED_BOTH].ran = false;
}

static void dry_without_planes(void)
{
    wall.checked.run[BW_RUN_WETTED_BOTH].result.plane_count = 0;
}

static const struct page_row {
    void (*change)(void);
    const char *says, *says_not;
} pages[] = {
    {nothing, "hatch-board hatch-edge", "<title></title>"},
    {no_title, "<h1>demo</h1>", "<h1></h1>"},
    {cited_by_the_wall, "of [99], [1234], [ 1], [] and [1x", "#source-99"},
    {masonry, "hatch-masonry hatch-edge", "hatch-wood hatch-edge"},
    {wood_and_air, "hatch-wood hatch-edge", "hatch-masonry hatch-edge"},
    {timber, "hatch-panel hatch-edge", "hatch-masonry hatch-edge"},
    {one_face, "<h1>", "data-chart=\"section\""},
    {much_water, "kg/m\xc2\xb2", "data-accumulated=\"-"},
    {dry_all_year, "No water stands anywhere", "class=\"drop\""},
    {drying_out, "data-chart=\"section\"", "(null)"},
    {curve_of_nothing, "<h1>", "Layers that open and close"},
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

/* ---- the simulated year ------------------------------------------------ */

enum { HOURS = 8760, PLACES = 10 };

static bw_monitor places[PLACES];
static bw_monitor_hour hours[HOURS * PLACES];

/* Humid in spring: the place that is most so is the one to look at. */
static void simulate(size_t count)
{
    memset(places, 0, sizeof places);
    for (size_t i = 0; i < count; i++) {
        places[i] = (bw_monitor){.label = "hemp batt",
                                 .slab = i,
                                 .outer_face = i == 0,
                                 .room_face = i + 1 == count,
                                 .hours_above_80 = 12.0};
        for (int m = 0; m < BW_MONTHS; m++)
            places[i].month_rh[m] = 0.6 + 0.02 * m;
        for (size_t h = 0; h < HOURS; h++)
            hours[h * count + i] = (bw_monitor_hour){.phi = 0.7F};
    }
    wall.checked.has_transient = true;
    wall.checked.transient_section = &wall.section;
    wall.checked.transient = (bw_transient_result){.method = "",
                                                   .monitor_count = count,
                                                   .monitor = places,
                                                   .last_hours = hours,
                                                   .first_month = 9,
                                                   .years = 1,
                                                   .periodic = true};
}

START_TEST(every_place_is_drawn_once_and_the_one_to_look_at_again)
{
    simulate(3);
    check_page();
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='humidity']"), 4);
    ck_assert_uint_eq(COUNT_OF("//details//figure[@data-chart='humidity']"), 3);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='temperature']"), 1);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='mould']"), 0);
}
END_TEST

START_TEST(without_hours_the_months_stand_for_the_year)
{
    simulate(2);
    wall.checked.transient.last_hours = NULL;
    const char *text = check_page();
    HAS(text, "Monthly means of the last simulated year.");
    HAS(text, "data-lowest=\"60\" data-highest=\"82\"");
    HAS(text, "Room face");
}
END_TEST

START_TEST(a_simulation_without_places_draws_none)
{
    simulate(2);
    wall.checked.transient.monitor_count = 0;
    check_page();
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='humidity']"), 0);
}
END_TEST

static const struct wood_row {
    bool is_wood, has_days;
    double limit; /* of its row */
    size_t drawn;
    const char *line;
} woods[] = {
    {true, true, 20.0, 1, "the limit is 20."},
    {true, true, 16.5, 1, "the limit is 16.5."},
    {true, false, 20.0, 0, "<h1>"},
    {false, true, 20.0, 0, "<h1>"},
};

START_TEST(wood_is_drawn_as_it_is_judged)
{
    static bw_slab_moisture moisture[1];
    static bw_wood_day day[BW_TRANSIENT_DAYS];
    simulate(2);
    for (size_t i = 0; i < BW_TRANSIENT_DAYS; i++)
        day[i].moisture = i == 100 ? 0.19 : 0.15;
    moisture[0] = (bw_slab_moisture){.is_wood = woods[_i].is_wood,
                                     .highest_wood_moisture = 0.19};
    if (woods[_i].has_days)
        moisture[0].first_days = moisture[0].last_days = day;
    wall.checked.transient.slab = moisture;
    wall.checked.transient.slab_count = 1;
    wall.criterion[0].section = wall.section.name;
    wall.criterion[0].criterion = "wood-moisture";
    wall.criterion[0].value = 19.0;
    wall.criterion[0].limit = woods[_i].limit;
    wall.criterion[0].has_value = wall.criterion[0].has_limit = true;
    HAS(check_page(), woods[_i].line);
    ck_assert_uint_eq(COUNT_OF("//figure[@data-chart='wood']"),
                      woods[_i].drawn);
    if (woods[_i].drawn > 0)
        ck_assert_double_eq_tol(
            number_at("number(//figure[@data-chart='wood']/@data-highest)"),
            19.0, 1e-9);
}
END_TEST

SUITE_AROUND("html_cases", page_setup, page_teardown,
             EACH(a_page_draws_what_there_is_and_nothing_else, COUNT(pages)),
             EACH(names_of_every_script_make_a_page, COUNT(names)),
             FACT(every_place_is_drawn_once_and_the_one_to_look_at_again),
             FACT(without_hours_the_months_stand_for_the_year),
             FACT(a_simulation_without_places_draws_none),
             EACH(wood_is_drawn_as_it_is_judged, COUNT(woods)))
