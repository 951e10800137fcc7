/* The picture of the year on a page, read back: its shades and isolines lie
 * where the humidity says that they do, its marks where their place and their
 * limit are. The humidity is a formula, so the right answer is known without
 * any code of ours. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "html_page.h"
#include "one_document.h"
#include "report_wall.h"
#include "suite.h"
#include "svg_path.h"

enum { CELLS = 30, FACES = 3, HOURS = 8760 };

static bw_cell_year cell[CELLS];
static bw_slab_moisture slab[2];
static bw_monitor monitor[FACES];
static bw_monitor_hour hours[HOURS * FACES];
static bw_place_mould mould[FACES];
static double mould_course[2 * BW_SPANS * FACES];
static bw_slab slabs[2];
static bw_section section;
static svg_path path;

static const double board = 0.012, batt = 0.09; /* m, report_wall.h */
static const double pi = 3.14159265358979;

/* Depth in m, part of the year from 1 October. */
static double humidity(double depth, double year)
{
    return 0.82 - 1.2 * depth + 0.13 * cos(2.0 * pi * (year - 0.3));
}

static void fill_cells(void)
{
    for (size_t i = 0; i < CELLS; i++) {
        const bool outer = i < 6;
        const double width = outer ? board / 6.0 : batt / 24.0;
        const double from = outer ? 0.0 : board;
        cell[i].slab = outer ? 0 : 1;
        cell[i].width = width;
        cell[i].middle = from + (0.5 + (double)(outer ? i : i - 6)) * width;
        for (size_t s = 0; s < BW_SPANS; s++)
            cell[i].phi[s] = humidity(cell[i].middle,
                                      ((double)s + 0.5) / BW_SPANS);
    }
}

static void fill_places(void)
{
    for (size_t i = 0; i < FACES; i++) {
        monitor[i] = (bw_monitor){.slab = i > 0 ? i - 1 : 0,
                                  .label = "softboard",
                                  .outer_face = i == 0,
                                  .room_face = i == 2};
        for (size_t h = 0; h < HOURS; h++)
            hours[h * FACES + i] = (bw_monitor_hour){
                .theta = 8.0F, .phi = i == 1 && h < 90 * 24 ? 0.9F : 0.7F};
        mould[i].highest = i == 1 ? 3.5 : 0.0;
    }
    for (size_t i = 0; i < 2 * BW_SPANS; i++)
        mould_course[i * FACES + 1] = 3.5 * (double)(i + 1) / (2 * BW_SPANS);
}

static void setup(void)
{
    report_wall_make(&wall);
    fill_cells();
    fill_places();
    slabs[0] = wall.slab[0];
    slabs[1] = wall.slab[1];
    section = wall.section;
    section.slab_count = 2;
    section.slab = slabs;
    wall.checked.run[BW_RUN_DESIGN].ran = true;
    wall.checked.has_transient = true;
    wall.checked.transient_section = &section;
    wall.checked.mould = mould;
    wall.checked.transient = (bw_transient_result){.method = "",
                                                   .monitor_count = FACES,
                                                   .monitor = monitor,
                                                   .slab_count = 2,
                                                   .slab = slab,
                                                   .last_hours = hours,
                                                   .cells = CELLS,
                                                   .cell = cell,
                                                   .mould_course = mould_course,
                                                   .years = 2,
                                                   .periodic = true,
                                                   .first_month = 9};
    wall.criterion[0].section = wall.section.name;
    wall.criterion[0].criterion = "mould-index-hidden";
    wall.criterion[0].has_value = wall.criterion[0].has_limit = true;
    wall.criterion[0].value = 3.5;
    wall.criterion[0].limit = 3.0;
    wall.criterion[0].margin = -0.5;
    wall.criterion[0].decides = true;
    wall.criterion[0].verdict = wall.criterion[0].outcome = BW_FAILS;
    wall.criterion[0].unit = "-";
    wall.assessment.criterion_count = 1;
    paper_clear(&page);
    ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, NULL,
                                  paper_take, &page, NULL),
                     BW_OK);
    doc = NULL;
    parse();
}

static void teardown(void)
{
    xmlFreeDoc(doc);
    doc = NULL;
}

/* The path of a class in a chart. */
static void read_path(const char *chart, const char *class_name)
{
    char query[160];
    snprintf(query, sizeof query,
             "string(//figure[@data-chart='%s']//s:path[@class='%s']/@d)",
             chart, class_name);
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathRegisterNs(context, (const xmlChar *)"s",
                       (const xmlChar *)"http://www.w3.org/2000/svg");
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)query,
                                                   context);
    ck_assert_msg(found != NULL && found->stringval[0] != '\0', "%s", query);
    svg_read(&path, (const char *)found->stringval);
    xmlXPathFreeObject(found);
    xmlXPathFreeContext(context);
}

/* The box of the year, and its axes: months are not equally long, so a month is
 * as high as any other and its days are not. */
static double at_depth(double metres)
{
    return 34.0 + metres / (board + batt) * (300.0 - 34.0);
}

static double at_time(double year)
{
    static const double days[] = {31, 30, 31, 31, 28, 31,
                                  30, 31, 30, 31, 31, 30}; /* from October */
    double left = 365.0 * year;
    int month = 0;
    while (month < 11 && left > days[month])
        left -= days[month++];
    return 96.0 + (month + left / days[month]) / 12.0 * (384.0 - 96.0);
}

START_TEST(a_place_is_shaded_where_its_humidity_says_so)
{
    static const struct {
        const char *shade;
        double from;
    } shades[] = {{"shade1", 0.70}, {"shade2", 0.80}, {"shade3", 0.90}};
    static const double TOLERANCE = 0.006; /* of straight lines over 5 days */
    size_t in = 0, out = 0;
    read_path("year", shades[_i].shade);
    for (size_t k = 0; k < 40; k++)
        for (size_t m = 0; m < 60; m++) {
            const double depth = (0.5 + (double)k) / 40.0 * (board + batt);
            const double year = (0.5 + (double)m) / 60.0;
            const double phi = humidity(depth, year);
            if (fabs(phi - shades[_i].from) < TOLERANCE)
                continue;
            const bool is = svg_holds(&path, at_depth(depth), at_time(year));
            ck_assert_msg(is == (phi > shades[_i].from),
                          "%.1f mm, %.3f of the year: %.3f", 1e3 * depth, year,
                          phi);
            in += is;
            out += !is;
        }
    ck_assert_uint_gt(in, 100);
    ck_assert_uint_gt(out, 100);
}
END_TEST

/* Back from the paper: the year by halving. */
static double year_at(double y)
{
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 40; i++)
        *(at_time(0.5 * (low + high)) < y ? &low : &high) = 0.5 * (low + high);
    return low;
}

/* The first of them: 80 %. */
START_TEST(an_isoline_runs_through_its_humidity)
{
    ck_assert_uint_eq(
        COUNT_OF("//figure[@data-chart='year']//s:path[@class='isoline']"), 3);
    read_path("year", "isoline");
    ck_assert_uint_gt(path.count, 20);
    for (size_t i = 0; i < path.count; i++) {
        const double depth = (path.point[i].x - 34.0) / 266.0 * (board + batt);
        const double phi = humidity(depth, year_at(path.point[i].y));
        ck_assert_double_eq_tol(phi, 0.80, 0.006);
    }
}
END_TEST

/* Every one has its level beside it, no two in the same place. */
START_TEST(isolines_are_labelled_apart)
{
    static const char *const names[] = {"80 %", "90 %"};
    double x[2], y[2];
    for (size_t i = 0; i < 2; i++) {
        char query[160];
        snprintf(query, sizeof query,
                 "number(//figure[@data-chart='year']//s:text[@class='halo'"
                 "][.='%s']/@x)",
                 names[i]);
        x[i] = number_at(query);
        query[strlen(query) - 2] = 'y';
        y[i] = number_at(query);
        ck_assert(x[i] >= 34.0 + 13.9 && x[i] <= 300.0 - 13.9);
    }
    ck_assert(fabs(x[0] - x[1]) > 27.9 || fabs(y[0] - y[1]) > 11.9);
}
END_TEST

/* Between board and batt, in the first ninety days: the wall is above 80 % RH
 * there. */
START_TEST(place_and_season_are_marked)
{
    read_path("year", "place");
    ck_assert_double_eq_tol(path.point[0].x, at_depth(board), 0.06);
    read_path("year", "season");
    ck_assert_uint_eq(path.count, 2);
    ck_assert_double_eq_tol(path.point[0].x, at_depth(board), 0.06);
    ck_assert_double_eq_tol(path.point[0].y, at_time(0.0), 0.06);
    ck_assert_double_eq_tol(path.point[1].y, at_time(90.0 / 365.0), 0.06);
    HAS(page.text, "fails here");
    HAS(page.text, "black bar: above 80 % RH, Oct to Dec");
}
END_TEST

/* y of a level in a chart whose box is top..bottom. */
static double level(double top, double bottom, double low, double high,
                    double value)
{
    return bottom - (value - low) / (high - low) * (bottom - top);
}

START_TEST(limit_lines_lie_at_their_limits)
{
    read_path("humidity", "limit");
    ck_assert_double_eq_tol(path.point[0].y, level(20, 128, 60, 100, 80), 0.06);
    read_path("mould", "limit");
    /* the axis goes to 4, the next round step above 3.5 */
    ck_assert_double_eq_tol(path.point[0].y, level(20, 146, 0, 4, 3), 0.06);
    read_path("mould", "main");
    ck_assert_uint_eq(path.count, 2 * BW_SPANS + 1);
    ck_assert_double_eq_tol(path.point[2 * BW_SPANS].y,
                            level(20, 146, 0, 4, 3.5), 0.06);
    ck_assert_double_eq_tol(path.point[2 * BW_SPANS].x, 330.0, 0.06);
}
END_TEST

/* The first sheet, then what decides, then what does not; one steady month is
 * behind a fold near the end. */
START_TEST(the_page_keeps_its_order)
{
    static const char *const order[] = {
        "<h1>",
        "Verdict: ",
        "class=\"figures\"",
        "data-chart=\"year\"",
        "class=\"care\"",
        "class=\"contents\"",
        "data-chart=\"humidity\"",
        "data-chart=\"temperature\"",
        "data-chart=\"mould\"",
        "data-chart=\"years\"",
        "<details><summary>Band",
        "<details><summary>Temperature and dew point",
        "Local building codes"};
    const char *at = page.text;
    for (size_t i = 0; i < COUNT(order); i++) {
        const char *next = strstr(at, order[i]);
        ck_assert_msg(next != NULL, "%s is not where it belongs", order[i]);
        at = next;
    }
}
END_TEST

START_TEST(the_contents_lead_to_every_heading)
{
    const size_t headings = COUNT_OF("//h2");
    ck_assert_uint_gt(headings, 8);
    ck_assert_uint_eq(COUNT_OF("//nav//a"), headings);
    ck_assert_uint_eq(COUNT_OF("//h2[concat('#', @id) = //nav//a/@href]"),
                      headings);
}
END_TEST

SUITE_AROUND("picture", setup, teardown,
             EACH(a_place_is_shaded_where_its_humidity_says_so, 3),
             FACT(an_isoline_runs_through_its_humidity),
             FACT(isolines_are_labelled_apart),
             FACT(place_and_season_are_marked),
             FACT(limit_lines_lie_at_their_limits),
             FACT(the_page_keeps_its_order),
             FACT(the_contents_lead_to_every_heading))
