/* Rain that leaks into a junction: what is refused, where a wall's own leak is
 * drawn, a leak at a place against the wall's own simulation in one dimension,
 * and what keeps a leaking junction from holding. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MADE "junction-leaks"
#include "bothways/assessment.h"
#include "junction/hour_sides.h"
#include "junction_made.h"
#include "suite.h"

/* ---- read -----------------------------------------------------------------
 */

#define PLACE                                                                  \
    "<rain-leak at=\"joint\" fraction=\"1 %\" face=\"1.2 m\" "                 \
    "source=\"survey\"/>"

static const char sound[] = TWO_LAYERS_DRAWN
    "<spot name=\"middle\" x=\"300 mm\" y=\"50 mm\"/>\n" /* 12 */
    "<spot name=\"weather\" x=\"300 mm\" y=\"0 mm\"/>\n" /* 13 */
    "</drawing>\n"                                       /* 14 */
    PLACE "\n"                                           /* 15 */
    "</junction>\n";

static const struct {
    const char *from, *to;
    long line;
    const char *says;
} refusals[] = {
    {"at=\"joint\"", "at=\"joit\"", 15, "did you mean joint?"},
    {"at=\"joint\"", "at=\"cellar\"", 15, "there are: joint, middle, weather"},
    {"at=\"joint\" ", "", 15, "at="},
    {"at=\"joint\"", "at=\"middle\"", 15, "no two materials meet"},
    {"at=\"joint\"", "at=\"weather\"", 15, "no two materials meet"},
    {"fraction=\"1 %\"", "fraction=\"1\"", 15, "unit"},
    {"fraction=\"1 %\"", "fraction=\"101 %\"", 15, "outside what is possible"},
    {"fraction=\"1 %\"", "fraction=\"-1 %\"", 15, "outside what is possible"},
    {"fraction=\"1 %\"", "fracton=\"1 %\"", 15, "fraction"},
    {" face=\"1.2 m\"", "", 15, "face="},
    {"face=\"1.2 m\"", "face=\"1.2 kg\"", 15, "face"},
    {"source=", "over=\"0 mm\" source=", 15, "outside what is possible"},
    {"<rain-leak", "<rain-leek", 15, "did you mean"},
    {" source=\"survey\"", "", 15, "source="},
    {"source=\"survey\"/>", "><spot/></rain-leak>", 15, "spot"},
};

START_TEST(a_leak_that_cannot_be_is_refused_with_its_line)
{
    char text[4096];
    replaced(text, sizeof text, sound, "", refusals[_i].from, refusals[_i].to);
    must_refuse(text, refusals[_i].line, refusals[_i].says);
}
END_TEST

START_TEST(no_more_than_eight_are_taken)
{
    char text[8192], many[1024] = "";
    bw_junction *j = NULL;
    bw_error err = {0};
    for (int k = 0; k < 8 + _i; k++)
        strcat(many, PLACE);
    replaced(text, sizeof text, sound, "", PLACE, many);
    write_file(FILE_NAME, text);
    const bw_status status = bw_junction_read(&j, FILE_NAME, library, &err);
    ck_assert_int_eq(status, _i == 0 ? BW_OK : BW_ERR_INPUT);
    if (_i == 0)
        ck_assert_uint_eq(j->leak_count, 8);
    else
        ck_assert_ptr_nonnull(strstr(err.message, "8 are accepted"));
    bw_junction_free(j);
}
END_TEST

START_TEST(a_leak_is_read_as_it_stands)
{
    bw_junction *j = read_text(sound);
    ck_assert_uint_eq(j->leak_count, 1);
    const bw_drawn_leak *leak = &j->leak[0];
    ck_assert_str_eq(leak->name, "joint");
    ck_assert_str_eq(leak->source, "survey");
    ck_assert_int_eq(leak->wall, -1);
    ck_assert_double_eq_tol(leak->fraction, 0.01, 1e-12);
    ck_assert_double_eq_tol(leak->face, 1.2, 1e-12);
    ck_assert_double_eq_tol(leak->at.x0, 0.28, 1e-12);
    ck_assert_double_eq_tol(leak->at.y1, 0.12, 1e-12);
    bw_junction_free(j);
}
END_TEST

/* ---- a wall's own ---------------------------------------------------------
 */

#define LEAKING(layer)                                                         \
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"w\">"                    \
    "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"                      \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"                  \
    "<layers listed=\"outside-to-inside\">" BRICK INSIDE "</layers>"           \
    "<rain-leak fraction=\"2 %\" after-layer=\"" layer "\"/></assembly>"

/* Timber behind a ventilated cladding. */
#define CLAD(fraction, layer)                                                  \
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"w\">"                    \
    "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"                      \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"                  \
    "<layers listed=\"outside-to-inside\">"                                    \
    "<layer id=\"boarding\" material=\"softwood\" thickness=\"22 mm\"/>"       \
    "<cavity id=\"cavity\" thickness=\"38 mm\" ventilation=\"well\"/>" INSIDE  \
    "</layers><rain-leak fraction=\"" fraction "\" after-layer=\"" layer       \
    "\"/></assembly>"
#define TWICE "<wall file=\"" MADE "-wall.xml\"/>"

/* Brick 330 mm, insulation 80 mm, board 12.5 mm; where its leak is drawn [mm],
 * by the way junctions lie: docs/input.md. */
static const struct {
    const char *wall, *junction;
    size_t count;
    double line[2][4]; /* x0, x1, y0, y1; NAN: a cut */
} drawn[] = {
    {LEAKING("brick"),
     JUNCTION("outer-corner", ""),
     2,
     {{-92.5, NAN, -92.5, -92.5}, {-92.5, -92.5, -92.5, NAN}}},
    {LEAKING("brick"),
     JUNCTION("inner-corner", ""),
     2,
     {{-330, NAN, -330, -330}, {-330, -330, -330, NAN}}},
    {CLAD("2 %", "cavity"),
     JUNCTION("outer-corner", ""),
     2,
     {{-92.5, NAN, -92.5, -92.5}, {-92.5, -92.5, -92.5, NAN}}},
    {LEAKING("ins"),
     JUNCTION("partition",
              "<partition material=\"brick-old-soft\" thickness=\"100 mm\" "
              "up-to=\"brick\"/>"),
     1,
     {{NAN, NAN, 410, 410}}},
    {LEAKING("brick"),
     JUNCTION("joist-end",
              "<joist material=\"softwood\" height=\"200 mm\" bearing=\"120 "
              "mm\" in=\"brick\"/>"),
     1,
     {{330, 330, NAN, NAN}}},
    {LEAKING("brick"),
     JUNCTION("window-sill",
              "<frame material=\"softwood\" width=\"70 mm\" depth=\"70 mm\" "
              "setback=\"100 mm\"/>"),
     1,
     {{330, 330, NAN, 0}}},
    {LEAKING("brick"),
     JUNCTION("window-head",
              "<frame material=\"softwood\" width=\"70 mm\" depth=\"70 mm\" "
              "setback=\"100 mm\"/>"),
     1,
     {{330, 330, 0, NAN}}},
};

START_TEST(a_walls_own_leak_lies_along_its_face)
{
    write_file(WALL_NAME, drawn[_i].wall);
    bw_junction *j = read_text(drawn[_i].junction);
    ck_assert_uint_eq(j->leak_count, drawn[_i].count);
    for (size_t k = 0; k < j->leak_count; k++) {
        const bw_drawn_leak *leak = &j->leak[k];
        const double at[4] = {leak->at.x0, leak->at.x1, leak->at.y0,
                              leak->at.y1};
        ck_assert_int_eq(leak->wall, 0);
        ck_assert_double_eq_tol(leak->fraction, 0.02, 1e-12);
        for (size_t i = 0; i < 4; i++)
            if (isnan(drawn[_i].line[k][i]))
                ck_assert_double_gt(fabs(at[i]), 0.9);
            else
                ck_assert_double_eq_tol(1e3 * at[i], drawn[_i].line[k][i],
                                        1e-6);
    }
    bw_junction_free(j);
}
END_TEST

/* What of a leak behind a cavity is drawn, and what nobody would see. */
static const struct {
    const char *wall, *junction;
    size_t drawn;
    bool sheltered, lost;
} clad[] = {
    {CLAD("1 %", "boarding"), JUNCTION("outer-corner", ""), 0, true, false},
    {CLAD("1 %", "boarding"), JUNCTION("outer-corner", ""), 0, false, true},
    {CLAD("1 %", "boarding"), JUNCTION("filled-opening", TWICE), 0, true, true},
    {CLAD("1 %", "cavity"), JUNCTION("outer-corner", ""), 2, true, false},
    {CLAD("1 %", "ins"), JUNCTION("outer-corner", ""), 2, true, false},
    {CLAD("1 %", "ins"), JUNCTION("filled-opening", TWICE), 2, true, false},
    {CLAD("0 %", "boarding"), JUNCTION("filled-opening", TWICE), 0, true,
     false},
};

START_TEST(leak_outside_a_cavity_is_seen_by_the_first_wall_alone)
{
    const char *unseen[BW_HOUR_UNSEEN];
    write_file(WALL_NAME, clad[_i].wall);
    bw_junction *j = read_text(clad[_i].junction);
    const bw_hour_sides sides = {.sheltered = clad[_i].sheltered};
    const bw_raster none = {.junction = j};
    const size_t count = bw_hour_unseen(unseen, &sides, &none);
    bool lost = false;
    for (size_t k = 0; k < count; k++)
        lost = lost || strstr(unseen[k], "leaking rain") != NULL;
    ck_assert(lost == clad[_i].lost);
    ck_assert_uint_eq(j->leak_count, clad[_i].drawn);
    bw_junction_free(j);
}
END_TEST

/* ---- by the hour ----------------------------------------------------------
 */

static bw_climate *months, *hours;

static void begin(void)
{
    bw_error err;
    start();
    ck_assert(bw_climate_read(&months,
                              BW_SOURCE_DIR "/assemblies/climates/upland.csv",
                              &err) == BW_OK);
    ck_assert(bw_climate_generate(&hours, months, &err) == BW_OK);
}

static void finish(void)
{
    bw_climate_free(months);
    bw_climate_free(hours);
    end();
}

#define SIDES(faces)                                                           \
    "<outdoors climate=\"" BW_SOURCE_DIR                                       \
    "/assemblies/climates/upland.csv\" " faces "driving-rain=\"moderate\"/>"   \
    "<indoors temperature=\"20 degC\" humidity-class=\"2\"/>"
#define WEST "faces=\"W\" solar-absorptance=\"0.6\" "

static const char plane[] =
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"w\">" SIDES(
        WEST) "<layers listed=\"outside-to-inside\">"
              "<layer id=\"brick\" material=\"brick-old-soft\" thickness=\"250 "
              "mm\"/>"
              "<layer id=\"board\" material=\"wood-fibre-board-180\" "
              "thickness=\"60 "
              "mm\"/><layer id=\"finish\" material=\"lime-render\" "
              "thickness=\"10 "
              "mm\"/></layers>"
              "<rain-leak fraction=\"5 %\" after-layer=\"brick\"/></assembly>";

/* The same, 10 mm of it, the outside below: all of its face leaks behind the
 * brick. */
#define STRIP(sides, leak)                                                     \
    "<junction xmlns=\"urn:bothways:junction:1\" id=\"strip\">" sides          \
    "<drawing>"                                                                \
    "<rectangle material=\"brick-old-soft\" x=\"0 mm\" y=\"0 mm\" "            \
    "width=\"10 mm\" height=\"250 mm\"/>"                                      \
    "<rectangle material=\"wood-fibre-board-180\" x=\"0 mm\" y=\"250 mm\" "    \
    "width=\"10 mm\" height=\"60 mm\"/>"                                       \
    "<rectangle material=\"lime-render\" x=\"0 mm\" y=\"310 mm\" "             \
    "width=\"10 mm\" height=\"10 mm\"/>"                                       \
    "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" width=\"10 mm\" "           \
    "height=\"50 mm\"/>"                                                       \
    "<space of=\"room\" x=\"0 mm\" y=\"320 mm\" width=\"10 mm\" "              \
    "height=\"50 mm\"/>"                                                       \
    "<symmetry side=\"left\"/><symmetry side=\"right\"/>"                      \
    "<spot name=\"behind\" x=\"5 mm\" y=\"250 mm\"/></drawing>" leak           \
    "</junction>"
#define BEHIND(fraction, face)                                                 \
    "<rain-leak at=\"behind\" fraction=\"" fraction "\" face=\"" face          \
    "\" over=\"10 mm\" source=\"test\"/>"

static bw_junction_assessment *simulate(const bw_junction *j)
{
    bw_junction_assessment *a = NULL;
    bw_error err = {0};
    const bw_hour_options one = {.most_years = 1, .most_cells = 700};
    ck_assert_msg(bw_junction_assess_hours(&a, j, hours, NULL, &one, &err) ==
                      BW_OK,
                  "%s", err.message);
    return a;
}

static const bw_hour_place *behind(const bw_junction_hours *h)
{
    for (size_t k = 0; k < h->place_count; k++)
        if (!h->place[k].room && fabs(h->place[k].y - 0.25) < 1e-6)
            return &h->place[k];
    ck_abort_msg("no face");
    return NULL;
}

static bool not_seen(const bw_junction_hours *h, const char *words)
{
    for (size_t k = 0; k < h->unseen_count; k++)
        if (strstr(h->unseen[k], words) != NULL)
            return true;
    return false;
}

START_TEST(leak_at_a_place_is_the_leak_of_one_dimension)
{
    const bw_section_options all = {.keep_all_layers = true};
    const bw_transient_options year = {.max_years = 1};
    bw_assembly *wall = NULL;
    bw_sections *sections = NULL;
    bw_transient_result one;
    bw_error err = {0};
    write_file(WALL_NAME, plane);
    ck_assert_msg(bw_assembly_read(&wall, WALL_NAME, library, &err) == BW_OK,
                  "%s", err.message);
    ck_assert(bw_sections_make(&sections, wall, &all, &err) == BW_OK);
    ck_assert_msg(bw_transient(&one, wall, &sections->section[0], hours, &year,
                               &err) == BW_OK,
                  "%s", err.message);
    bw_junction *j = read_text(STRIP(SIDES(WEST), BEHIND("5 %", "10 mm")));
    bw_junction_assessment *a = simulate(j);
    bw_junction *dry = read_text(STRIP(SIDES(WEST), ""));
    bw_junction_assessment *b = simulate(dry);
    ck_assert_msg(a->hours.ran && b->hours.ran, "%s", a->hours.reason);
    const bw_hour_place *p = behind(&a->hours), *q = behind(&b->hours);
    const bw_monitor *m = &one.monitor[1];
    double most = 0.0;
    for (int k = 0; k < BW_MONTHS; k++) {
        ck_assert_double_eq_tol(p->month_rh[k], m->month_rh[k], 0.015);
        most = fmax(most, p->month_rh[k] - q->month_rh[k]);
    }
    ck_assert_double_gt(most, 0.05); /* the leak shows */
    ck_assert_double_eq_tol(p->above_95, m->hours_above_95,
                            48 + 0.05 * m->hours_above_95);
    ck_assert_double_gt(one.leak_rain, 0.5);
    ck_assert_double_eq_tol(a->hours.leaked, 0.01 * one.leak_rain,
                            1e-5 * one.leak_rain);
    ck_assert_double_lt(a->hours.balance, 1e-5);
    ck_assert_double_eq_tol(b->hours.leaked, 0.0, 1e-15);
    ck_assert(not_seen(&b->hours, "air and rain through joints"));
    ck_assert(!not_seen(&a->hours, "air and rain"));
    ck_assert(not_seen(&a->hours, "air through joints"));
    bw_junction_assessment_free(a);
    bw_junction_assessment_free(b);
    bw_junction_free(j);
    bw_junction_free(dry);
    bw_transient_free(&one);
    bw_sections_free(sections);
    bw_assembly_free(wall);
}
END_TEST

/* Five times the share of 500 times the face; two leaks at one place add up. */
START_TEST(what_runs_off_is_counted_and_nothing_holds_for_it)
{
    bw_junction *j = read_text(STRIP(SIDES(WEST), BEHIND("5 %", "5 m")));
    bw_junction_assessment *a = simulate(j);
    ck_assert_msg(a->hours.ran, "%s", a->hours.reason);
    bw_junction *k = read_text(
        STRIP(SIDES(WEST), BEHIND("0.5 %", "10 mm") BEHIND("0.5 %", "10 mm")));
    bw_junction_assessment *b = simulate(k);
    ck_assert_double_eq_tol(a->hours.leaked, 2500.0 * b->hours.leaked,
                            2e-2 * a->hours.leaked);
    ck_assert_double_gt(a->hours.ran_off, 0.1 * a->hours.leaked);
    ck_assert_double_lt(a->hours.ran_off, a->hours.leaked);
    ck_assert_double_eq_tol(b->hours.ran_off, 0.0, 1e-12);
    ck_assert(not_seen(&a->hours, "find the pores full"));
    ck_assert(!not_seen(&b->hours, "find the pores full"));
    ck_assert_double_lt(a->hours.balance, 1e-5);
    bw_junction_assessment_free(a);
    bw_junction_assessment_free(b);
    bw_junction_free(j);
    bw_junction_free(k);
}
END_TEST

/* No rain can be driven at a wall that looks no way. */
START_TEST(leak_without_rain_is_no_simulation)
{
    bw_junction *j = read_text(
        STRIP("<outdoors climate=\"" BW_SOURCE_DIR
              "/assemblies/climates/upland.csv\" driving-rain=\"none\"/>"
              "<indoors temperature=\"20 degC\" humidity-class=\"2\"/>",
              BEHIND("1 %", "10 mm")));
    bw_junction_assessment *a = simulate(j);
    ck_assert(!a->hours.ran);
    ck_assert_ptr_nonnull(strstr(a->hours.reason, "facing"));
    ck_assert_int_ne(a->verdict, BW_HOLDS);
    bw_junction_assessment_free(a);
    bw_junction_free(j);
}
END_TEST

SUITE_AROUND(
    "junction_leaks", begin, finish,
    EACH(a_leak_that_cannot_be_is_refused_with_its_line, COUNT(refusals)),
    EACH(no_more_than_eight_are_taken, 2), FACT(a_leak_is_read_as_it_stands),
    EACH(a_walls_own_leak_lies_along_its_face, COUNT(drawn)),
    EACH(leak_outside_a_cavity_is_seen_by_the_first_wall_alone, COUNT(clad)),
    FACT(leak_at_a_place_is_the_leak_of_one_dimension),
    FACT(what_runs_off_is_counted_and_nothing_holds_for_it),
    FACT(leak_without_rain_is_no_simulation))
