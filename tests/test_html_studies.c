/* Pages of a margin and of a comparison made by hand, parsed as XML: nothing
 * to draw, no number, no map, limits of its own. */

#include <math.h>
#include <stdlib.h>

#include "bothways/compare.h"
#include "bothways/margin.h"
#include "html_page.h"
#include "one_document.h"
#include "report_wall.h"
#include "suite.h"

struct page_row {
    void (*change)(void);
    const char *says, *says_not;
};

static void nothing(void)
{
}

static void no_title(void)
{
    wall.assembly.title = "";
}

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
        margin_report(BW_FORM_PAGE, &margin, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
    return page.text;
}

static void make_margin(void)
{
    unknown[0] = report_unknown();
    unknown[0].swing_as_drawn = 0.25;
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
    static const size_t order[WALLS] = {0, 1};
    bw_compared walls[WALLS] = {{.label = "a"}, {.label = "b"}};
    for (size_t i = 0; i < WALLS; i++) {
        walls[i].assessment = &wall.assessment;
        walls[i].id = walls[i].title = walls[i].label;
    }
    make_row();
    compare_pages[_i].change();
    bw_comparison c = {.wall_count = WALLS,
                       .wall = walls,
                       .order = order,
                       .row_count = 1,
                       .row = &row,
                       .sentence_count = 1,
                       .sentence = sentence};
    paper_clear(&page);
    ck_assert_int_eq(
        compare_report(BW_FORM_PAGE, &c, NULL, paper_take, &page, NULL), BW_OK);
    parse();
    HAS(page.text, compare_pages[_i].says);
    HAS_NOT(page.text, compare_pages[_i].says_not);
}
END_TEST

SUITE_AROUND("html_studies", page_setup, page_teardown,
             EACH(a_margin_page_draws_what_there_is, COUNT(margin_pages)),
             EACH(a_comparison_page_draws_what_there_is, COUNT(compare_pages)))
