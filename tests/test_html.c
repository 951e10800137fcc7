/* The pages: parsed back, compared with the CSV tables of the same result. */

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "bothways/margin.h"
#include "html_page.h"
#include "one_document.h"
#include "report_wall.h"
#include "suite.h"

enum { MOST_ROWS = 4096, MOST_FIELDS = 16 };

/* ---- what is written --------------------------------------------------- */

static paper table;

static void check_page(const bw_assessment *assessment)
{
    paper_clear(&page);
    ck_assert_int_eq(
        check_report(BW_FORM_PAGE, assessment, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
}

static xmlXPathObject *find(const char *path)
{
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathRegisterNs(context, (const xmlChar *)"s",
                       (const xmlChar *)"http://www.w3.org/2000/svg");
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)path,
                                                   context);
    xmlXPathFreeContext(context);
    ck_assert_ptr_nonnull(found);
    return found;
}

static size_t count(const char *path)
{
    xmlXPathObject *found = find(path);
    size_t n = found->nodesetval != NULL ? (size_t)found->nodesetval->nodeNr
                                         : 0;
    xmlXPathFreeObject(found);
    return n;
}

/* ---- the tables -------------------------------------------------------- */

typedef struct rows {
    char *text;
    size_t count;
    char *field[MOST_ROWS][MOST_FIELDS];
} rows;

/* Splits a table without quoted fields in the columns that are asked for. */
static rows *read_table(const bw_assessment *assessment, bw_table which)
{
    rows *out = calloc(1, sizeof *out);
    paper_clear(&table);
    const bw_results results = {.wall_count = 1, .wall = &assessment};
    ck_assert_int_eq(bw_report_table(&results, which, paper_take, &table, NULL),
                     BW_OK);
    out->text = strdup(table.text);
    char *at = strchr(out->text, '\n') + 1;
    while (*at != '\0' && out->count < MOST_ROWS) {
        char *end = strchr(at, '\n');
        *end = '\0';
        for (size_t f = 0; f < MOST_FIELDS && at != NULL; f++) {
            out->field[out->count][f] = at;
            at = strchr(at, ',');
            if (at != NULL)
                *at++ = '\0';
        }
        out->count++;
        at = end + 1;
    }
    return out;
}

static void free_table(rows *t)
{
    free(t->text);
    free(t);
}

enum {
    SECTION = 1,
    RUN,
    MONTH,
    PLACE,
    SD,
    THETA,
    PSAT,
    PRESSURE,
    RH,
    GAIN,
    STANDS,
    LAYER_SD
};

static char *attribute(xmlNode *node, const char *name)
{
    char *value = (char *)xmlGetProp(node, (const xmlChar *)name);
    ck_assert_msg(value != NULL, "no %s", name);
    return value;
}

/* The attribute is the column of the rows that match, word for word. */
static void same_column(const rows *t, xmlNode *figure, const char *name,
                        const char *month, int column)
{
    char *value = attribute(figure, name), *rest = value;
    char *section = attribute(figure, "data-section");
    char *run = attribute(figure, "data-run");
    size_t seen = 0;
    char *word = strtok(rest, " ");
    for (size_t i = 0; i < t->count; i++) {
        char *const *f = (char *const *)t->field[i];
        if (strcmp(f[SECTION], section) != 0 || strcmp(f[RUN], run) != 0 ||
            strcmp(f[MONTH], month) != 0)
            continue;
        ck_assert_msg(word != NULL, "%s is too short", name);
        ck_assert_str_eq(word, f[column]);
        word = strtok(NULL, " ");
        seen++;
    }
    ck_assert_ptr_null(word);
    ck_assert_uint_gt(seen, 1);
    xmlFree(value);
    xmlFree(section);
    xmlFree(run);
}

/* Twelve months of one place: some place of the run has just these. */
static void some_place(const rows *t, xmlNode *figure, const char *name,
                       int column)
{
    char *value = attribute(figure, name);
    char *section = attribute(figure, "data-section");
    char *run = attribute(figure, "data-run");
    bool found = false;
    for (size_t i = 0; i < t->count && !found; i++) {
        const char *place = t->field[i][PLACE];
        char joined[512] = "";
        if (strcmp(t->field[i][SECTION], section) != 0 ||
            strcmp(t->field[i][RUN], run) != 0)
            continue;
        for (size_t k = 0; k < t->count; k++) {
            if (strcmp(t->field[k][SECTION], section) != 0 ||
                strcmp(t->field[k][RUN], run) != 0 ||
                strcmp(t->field[k][PLACE], place) != 0)
                continue;
            strcat(joined, joined[0] != '\0' ? " " : "");
            strcat(joined, t->field[k][column]);
        }
        found = strcmp(joined, value) == 0;
    }
    ck_assert_msg(found, "%s: no place has %s", name, value);
    xmlFree(value);
    xmlFree(section);
    xmlFree(run);
}

typedef void on_figure(const rows *t, xmlNode *figure);

static size_t each(const rows *t, const char *chart, on_figure *check)
{
    char path[96];
    snprintf(path, sizeof path, "//figure[@data-chart='%s']", chart);
    xmlXPathObject *found = find(path);
    size_t n = found->nodesetval != NULL ? (size_t)found->nodesetval->nodeNr
                                         : 0;
    for (size_t i = 0; i < n; i++)
        check(t, found->nodesetval->nodeTab[i]);
    xmlXPathFreeObject(found);
    return n;
}

static void check_vapour(const rows *t, xmlNode *figure)
{
    char *month = attribute(figure, "data-month");
    same_column(t, figure, "data-sd", month, SD);
    same_column(t, figure, "data-vapour-pressure", month, PRESSURE);
    same_column(t, figure, "data-saturation-pressure", month, PSAT);
    xmlFree(month);
}

static void check_section(const rows *t, xmlNode *figure)
{
    char *month = attribute(figure, "data-month");
    same_column(t, figure, "data-temperature", month, THETA);
    same_column(t, figure, "data-vapour-pressure", month, PRESSURE);
    xmlFree(month);
}

static void check_water(const rows *t, xmlNode *figure)
{
    some_place(t, figure, "data-condensation", GAIN);
    some_place(t, figure, "data-accumulated", STANDS);
}

static void check_membrane(const rows *t, xmlNode *figure)
{
    some_place(t, figure, "data-layer-sd", LAYER_SD);
}

/* ---- real walls -------------------------------------------------------- */

typedef struct real {
    bw_library *library;
    bw_assembly *assembly;
    bw_climate *climate;
    bw_assessment *assessment;
} real;

static void read_real(real *r, const char *name)
{
    static const char *const folder = BW_SOURCE_DIR "/materials";
    char path[512];
    bw_error err = {0};
    snprintf(path, sizeof path, "%s/assemblies/%s.xml", BW_SOURCE_DIR, name);
    ck_assert_int_eq(bw_library_read(&r->library, &folder, 1, &err), BW_OK);
    ck_assert_msg(bw_assembly_read(&r->assembly, path, r->library, &err) ==
                      BW_OK,
                  "%s", err.message);
    ck_assert_int_eq(
        bw_climate_read(&r->climate, r->assembly->outdoors.climate_path, &err),
        BW_OK);
    bw_assessment_options options = {.no_transient = true};
    ck_assert_msg(bw_assess(&r->assessment, r->assembly, r->climate, &options,
                            &err) == BW_OK,
                  "%s", err.message);
}

static void free_real(real *r)
{
    bw_assessment_free(r->assessment);
    bw_climate_free(r->climate);
    bw_assembly_free(r->assembly);
    bw_library_free(r->library);
}

/* What every page owes its reader. */
static void check_manners(void)
{
    ck_assert_int_eq(strncmp(page.text, "<!DOCTYPE html>\n<html", 21), 0);
    ck_assert_uint_eq(count("/html/head/title"), 1);
    ck_assert_uint_eq(count("//h1"), 1);
    ck_assert_uint_eq(count("//script|//link|//img|//@src|//@onclick"), 0);
    ck_assert_ptr_null(strstr(page.text, "url(http"));
    ck_assert_ptr_null(strstr(page.text, "@import"));
    ck_assert_ptr_null(strstr(page.text, "nan"));
    ck_assert_ptr_null(strstr(page.text, "inf "));
    size_t drawings = count("//figure/s:svg");
    ck_assert_uint_eq(count("//figure/s:svg[@role='img'][s:title[. != '']]"
                            "[s:desc[. != '']]"),
                      drawings);
    ck_assert_uint_eq(count("//*[@id][@id = following::*/@id]"), 0);
    /* Every link leads somewhere on the page. */
    ck_assert_uint_eq(count("//a[not(substring-after(@href, '#') = //*/@id)]"),
                      0);
}

START_TEST(charts_of_real_walls_show_the_numbers_of_the_tables)
{
    static const char *const walls[] = {
        "estuary-fibre", "estuary-mineral-foil", "estuary-mineral-variable",
        "upland-tight-outside", "upland-open-outside"};
    real r = {0};
    read_real(&r, walls[_i]);
    check_page(r.assessment);
    check_manners();
    rows *t = read_table(r.assessment, BW_TABLE_MONTHLY);
    size_t sections = r.assessment->section_count;
    ck_assert_uint_eq(each(t, "vapour", check_vapour), 2 * sections);
    ck_assert_uint_eq(each(t, "section", check_section), sections);
    /* The first figure is the year; one steady month and the twelve of the
     * vapour are behind a fold. */
    ck_assert_uint_eq(count("(//figure)[1][@data-chart='year']"), 1);
    ck_assert_uint_eq(count("//details//figure"), 13 * sections);
    ck_assert_uint_eq(count("//figure[@data-chart='section'][not(ancestor::"
                            "details)]"),
                      0);
    size_t wet = each(t, "water", check_water);
    size_t membranes = each(t, "membrane", check_membrane);
    if (strcmp(walls[_i], "upland-tight-outside") == 0)
        ck_assert_uint_gt(wet, 0);
    if (strcmp(walls[_i], "estuary-mineral-variable") == 0)
        ck_assert_uint_eq(membranes, sections);
    free_table(t);
    free_real(&r);
}
END_TEST

START_TEST(the_margin_page_shows_its_bars_and_map)
{
    real r = {0};
    bw_margin *margin = NULL;
    bw_margin_options options = {
        .assessment = {.no_transient = true, .threads = 2}};
    read_real(&r, "upland-tight-outside");
    ck_assert_int_eq(
        bw_margin_make(&margin, r.assembly, r.climate, &options, NULL), BW_OK);
    ck_assert_int_eq(
        margin_report(BW_FORM_PAGE, margin, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
    check_manners();
    size_t moving = 0;
    for (size_t i = 0; i < margin->unknown_count; i++)
        moving += margin->unknown[i].seen && margin->unknown[i].swing > 0.0;
    ck_assert_uint_gt(moving, 0);
    ck_assert_uint_eq(count("//figure[@data-chart='margin']//s:g"), moving);
    xmlXPathObject *cells = find(
        "//figure[@data-chart='sd-map']//s:g[@data-cell]");
    size_t all = margin->inner_count * margin->outer_count;
    ck_assert_uint_eq(count("//figure[@data-chart='sd-map']//s:g[@data-own]"),
                      1);
    ck_assert_uint_eq((size_t)cells->nodesetval->nodeNr, all);
    for (size_t i = 0; i < all; i++) {
        char *value = attribute(cells->nodesetval->nodeTab[i], "data-cell");
        char expected[128];
        const bw_sd_cell *c = &margin->map[i];
        snprintf(expected, sizeof expected, "%.9g %.9g %.9g", c->condensed,
                 c->evaporable, c->reserve);
        if (!isnan(c->reserve) && strstr(expected, "-0 ") == NULL)
            ck_assert_str_eq(value, expected);
        xmlFree(value);
    }
    xmlXPathFreeObject(cells);
    bw_margin_free(margin);
    free_real(&r);
}
END_TEST

START_TEST(the_comparison_page_has_a_bar_a_wall)
{
    real a = {0}, b = {0};
    bw_comparison *c = NULL;
    bw_compare_options options = {
        .conditions_may_differ = true,
        .assessment = {.no_transient = true, .no_advice = true}};
    read_real(&a, "estuary-fibre");
    read_real(&b, "estuary-mineral-variable");
    const bw_assembly *walls[] = {a.assembly, b.assembly};
    const bw_climate *climates[] = {a.climate, b.climate};
    ck_assert_int_eq(bw_compare(&c, walls, climates, 2, &options, NULL), BW_OK);
    ck_assert_int_eq(
        compare_report(BW_FORM_PAGE, c, NULL, paper_take, &page, NULL), BW_OK);
    parse();
    check_manners();
    for (size_t k = 0; k < c->row_count; k++) {
        const bw_compare_row *row = &c->row[k];
        if (row->is_criterion || !row->has_value[0] || !row->has_value[1] ||
            !(row->value[0] > 0.0))
            continue;
        char path[256];
        snprintf(path, sizeof path,
                 "//figure[@data-row='%s'][@data-value='%.9g %.9g']", row->name,
                 row->value[0], row->value[1]);
        ck_assert_msg(count(path) == 1, "%s", path);
    }
    bw_comparison_free(c);
    free_real(&a);
    free_real(&b);
}
END_TEST

START_TEST(the_audit_page_says_released_or_not_in_words)
{
    real r = {0};
    bw_audit *audit = NULL;
    bw_audit_options options = {.assessment = {.no_transient = true},
                                .no_margin = true};
    read_real(&r, "estuary-fibre");
    ck_assert_int_eq(
        bw_audit_make(&audit, r.assembly, r.climate, &options, NULL), BW_OK);
    ck_assert_int_eq(
        audit_report(BW_FORM_PAGE, audit, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
    check_manners();
    ck_assert_uint_ge(count("//b[@class='verdict fails'][.='NOT released']"),
                      1);
    bw_audit_free(audit);
    free_real(&r);
}
END_TEST

/* ---- hours ------------------------------------------------------------- */

enum { HOURS = 8760, PLACES = 24 };

/* A simulation that never was: many places with humidity that swings by day
 * and year, so that every day differs. */
static void invent_hours(bw_transient_result *t)
{
    *t = (bw_transient_result){.method = "",
                               .monitor_count = PLACES,
                               .first_month = 9,
                               .years = 1,
                               .periodic = true};
    t->monitor = calloc(PLACES, sizeof *t->monitor);
    t->last_hours = calloc((size_t)HOURS * PLACES, sizeof *t->last_hours);
    for (size_t i = 0; i < PLACES; i++) {
        t->monitor[i].label = "between this and that";
        t->monitor[i].outer_face = i == 0;
        t->monitor[i].room_face = i + 1 == PLACES;
        for (size_t h = 0; h < HOURS; h++) {
            bw_monitor_hour *row = &t->last_hours[h * PLACES + i];
            double day = (double)(h % 24) / 24.0, year = (double)h / HOURS;
            row->phi =
                (float)(0.7 + 0.004 * (double)i + 0.12 * sin(6.2832 * year) +
                        0.07 * sin(6.2832 * day + 40.0 * year * (double)i));
            t->monitor[i].highest_rh = fmax(t->monitor[i].highest_rh,
                                            (double)row->phi);
        }
    }
}

START_TEST(hours_are_banded_without_losing_their_extremes)
{
    bw_transient_result *t = &wall.checked.transient;
    invent_hours(t);
    wall.checked.has_transient = true;
    wall.checked.transient_section = &wall.section;
    wall.checked.transient_section = &wall.section;
    check_page(&wall.assessment);
    check_manners();
    ck_assert_uint_lt(page.used, 400 * 1000);
    xmlXPathObject *found = find("//details//figure[@data-chart='humidity']");
    ck_assert_int_eq(found->nodesetval->nodeNr, PLACES);
    for (size_t i = 0; i < PLACES; i++) {
        char *most = attribute(found->nodesetval->nodeTab[i], "data-highest");
        ck_assert_double_eq_tol(strtod(most, NULL),
                                100.0 * t->monitor[i].highest_rh, 1e-6);
        xmlFree(most);
    }
    xmlXPathFreeObject(found);
    free(t->monitor);
    free(t->last_hours);
}
END_TEST

/* ---- bad input --------------------------------------------------------- */

/* A line of the key to the layers: its number, a sample as it is drawn in the
 * section, name and thickness; what has none is a stroke, and has no figure. */
START_TEST(the_key_has_each_layer_as_it_is_drawn)
{
    static const char *const says[] = {"1softboard 12 mm", "2hemp batt 90 mm",
                                       "3variable film"};
    const double left[] = {1.0, 1.0, 19.7}, wide[] = {40.0, 40.0, 1.6};
    check_page(&wall.assessment);
    ck_assert_uint_eq(COUNT_OF("//ol[@class='key']/li"), WALL_SLABS);
    for (int i = 0; i < WALL_SLABS; i++) {
        static const char *const side[] = {"x", "y", "width", "height"};
        const double is[] = {left[i], 1.0, wide[i], 17.0};
        char path[96];
        for (size_t k = 0; k < COUNT(side); k++) {
            snprintf(path, sizeof path,
                     "number(//ol[@class='key']/li[%d]//s:rect/@%s)", i + 1,
                     side[k]);
            ck_assert_double_eq_tol(number_at(path), is[k], 0.11);
        }
        snprintf(path, sizeof path, "string(//ol[@class='key']/li[%d])", i + 1);
        xmlXPathObject *line = find(path);
        ck_assert_str_eq((const char *)line->stringval, says[i]);
        xmlXPathFreeObject(line);
    }
}
END_TEST

START_TEST(text_from_files_cannot_write_html)
{
    wall.assembly.title = "<script>alert(1)</script> \"&\x01\xff\xc2\x9b";
    wall.climate.place = "\xe2\x82 cut short";
    wall.layer[0].name = "]]></style>";
    check_page(&wall.assessment);
    check_manners();
    ck_assert_ptr_nonnull(strstr(page.text, "&lt;script&gt;alert(1)"));
}
END_TEST

START_TEST(a_wall_without_results_still_makes_a_page)
{
    wall.checked.run[BW_RUN_DESIGN].ran = false;
    wall.checked.run[BW_RUN_WETTED_BOTH].ran = false;
    wall.checked.run[BW_RUN_DESIGN].result = (bw_monthly_result){0};
    check_page(&wall.assessment);
    check_manners();
}
END_TEST

START_TEST(quiet_is_the_summary_alone)
{
    bw_report_options options = {.extent = BW_EXTENT_LEAST};
    ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, &options,
                                  paper_take, &page, NULL),
                     BW_OK);
    parse();
    ck_assert_uint_eq(count("//h1"), 1);
    ck_assert_uint_eq(count("//h2[@id]|//figure"), 0);
}
END_TEST

START_TEST(a_sink_that_refuses_is_an_error)
{
    bw_error err = {0};
    ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, NULL,
                                  paper_refuse, NULL, &err),
                     BW_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "written"));
}
END_TEST

START_TEST(verdicts_are_words_with_a_class_each)
{
    check_page(&wall.assessment);
    ck_assert_uint_ge(count("//b[@class='verdict fails'][.='fails']"), 2);
    ck_assert_uint_ge(count("//b[@class='verdict open'][.='not assessed']"), 1);
}
END_TEST

START_TEST(figures_have_a_point_in_every_locale)
{
    check_page(&wall.assessment);
    char *plain = strdup(page.text);
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL &&
        setlocale(LC_ALL, "fr_FR.UTF-8") == NULL) {
        printf("skipped: no locale with a decimal comma here\n");
        free(plain);
        return;
    }
    check_page(&wall.assessment);
    setlocale(LC_ALL, "C");
    ck_assert_str_eq(page.text, plain);
    free(plain);
}
END_TEST

SUITE_AROUND("html", page_setup, page_teardown,
             EACH(charts_of_real_walls_show_the_numbers_of_the_tables, 5),
             FACT(the_margin_page_shows_its_bars_and_map),
             FACT(the_comparison_page_has_a_bar_a_wall),
             FACT(the_audit_page_says_released_or_not_in_words),
             FACT(hours_are_banded_without_losing_their_extremes),
             FACT(the_key_has_each_layer_as_it_is_drawn),
             FACT(text_from_files_cannot_write_html),
             FACT(a_wall_without_results_still_makes_a_page),
             FACT(quiet_is_the_summary_alone),
             FACT(a_sink_that_refuses_is_an_error),
             FACT(verdicts_are_words_with_a_class_each),
             FACT(figures_have_a_point_in_every_locale))
