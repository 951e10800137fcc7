/* Every figure of a document, in text and on the page, is the figure of the
 * result it says it is, in the unit beside it, to its last printed digit: one
 * field is changed to another random number, both documents are laid side by
 * side word by word, and what has changed must be that number. The numbers of
 * all other fields are random, too, so that one in place of another is seen. */

#include <math.h>

#define BW_NO_FENCE /* it prints two thousand documents */

#include <libxml/parser.h>
#include <libxml/xpath.h>

#include "bothways/report.h"
#include "full_junction.h"
#include "said_case.h"

enum { DRAWS = 3 };

typedef struct figure {
    bw_document document;
    double *at;
    double low, high; /* of what it may be */
    double factor;    /* of the unit it is printed in */
    const char *unit; /* the word behind it, as in the text; "": a column's */
    size_t follows;   /* words that say what follows from it, at most */
} figure;

#define CHECK(field, low, high, factor, unit)                                  \
    {                                                                          \
        BW_DOCUMENT_CHECK, &(field), low, high, factor, unit, 0                \
    }
#define MARGIN(field, low, high, factor, unit)                                 \
    {                                                                          \
        BW_DOCUMENT_MARGIN, &(field), low, high, factor, unit, 0               \
    }
#define COMPARE(field, low, high, factor, unit)                                \
    {                                                                          \
        BW_DOCUMENT_COMPARE, &(field), low, high, factor, unit, 0              \
    }
#define MEETING(field, low, high, factor, unit)                                \
    {                                                                          \
        BW_DOCUMENT_JUNCTION, &(meeting.field), low, high, factor, unit, 0     \
    }
#define FOLLOWED(field, low, high, factor, unit, follows)                      \
    {                                                                          \
        BW_DOCUMENT_CHECK, &(field), low, high, factor, unit, follows          \
    }

#define PART wall.checked
#define PLANE wall.plane[2].month[4]
#define RUN(which) wall.checked.run[BW_RUN_##which].result
#define SURFACE wall.checked.surface[0]
#define YEAR wall.checked.transient
#define WETTING wall.checked.wetting_test
#define UNKNOWN full_unknown[0]

static const figure figures[] = {
    CHECK(wall.criterion[0].value, 0.1, 0.9, 1e3, ""),
    CHECK(wall.criterion[0].limit, 0.1, 0.9, 1e3, ""),
    CHECK(wall.criterion[0].margin, 0.1, 0.9, 1e3, "g/m2"),
    /* mu of the table is sd by thickness */
    FOLLOWED(wall.slab[1].thickness, 0.1, 0.9, 1e3, "", 1),
    /* and sd is summed up */
    FOLLOWED(wall.slab[1].sd_dry, 0.1, 0.9, 1.0, "", 3),
    CHECK(wall.material[1].thermal_conductivity.value, 0.1, 0.9, 1.0, ""),
    CHECK(wall.slab[1].resistance, 0.1, 0.9, 1.0, ""),
    CHECK(PLANE.theta, 1.1, 19.0, 1.0, ""),
    CHECK(PLANE.saturation_pressure, 1000.0, 2000.0, 1.0, ""),
    CHECK(PLANE.vapour_pressure, 300.0, 900.0, 1.0, ""),
    CHECK(PLANE.condensation, 0.1, 0.9, 1e3, ""),
    CHECK(PLANE.accumulated, 0.1, 0.4, 1e3, ""), /* 0.4321 in February */
    CHECK(RUN(DESIGN).peak, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(RUN(DESIGN).condensed, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(RUN(DESIGN).evaporated, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(RUN(DESIGN).reserve, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(RUN(WETTED_BOTH).months_to_dry, 1.1, 9.0, 1.0, "months"),
    CHECK(RUN(WETTED_OUTWARDS).months_to_dry, 1.1, 9.0, 1.0, ""),
    CHECK(RUN(WETTED_INWARDS).left, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(PART.period.condensed, 0.1, 0.9, 1e3, ""),
    CHECK(PART.period.evaporable, 0.1, 0.9, 1e3, ""),
    CHECK(PART.period.reserve, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(SURFACE.rsi, 0.1, 0.9, 1.0, ""),
    CHECK(SURFACE.frsi, 0.1, 0.9, 1.0, ""),
    CHECK(SURFACE.frsi_required, 0.1, 0.9, 1.0, ""),
    CHECK(SURFACE.highest_rh, 0.1, 0.9, 100.0, ""),
    CHECK(YEAR.yearly_change, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(YEAR.left_outwards, 0.1, 0.9, 1e3, ""),
    CHECK(YEAR.left_inwards, 0.1, 0.9, 1e3, ""),
    CHECK(YEAR.rain_absorbed, 0.1, 0.9, 1e3, ""),
    CHECK(YEAR.leak_convective, 0.1, 0.9, 1e3, ""),
    CHECK(YEAR.leak_rain, 0.1, 0.9, 1e3, ""),
    CHECK(YEAR.water_balance_error, 0.1, 0.9, 1.0, ""),
    CHECK(YEAR.energy_balance_error, 0.1, 0.9, 1.0, ""),
    CHECK(wall.monitor[1].highest_rh, 0.1, 0.9, 100.0, ""),
    CHECK(wall.monitor[1].first_free.largest, 0.6, 0.9, 1e3, ""),
    CHECK(wall.monitor[1].month_rh[1], 0.3, 0.9, 100.0, "%"),
    CHECK(wall.monitor[1].hours_above_95, 10.0, 800.0, 1.0, ""),
    CHECK(wall.monitor[1].hours_above_80, 1000.0, 8000.0, 1.0, ""),
    CHECK(wall.moisture[0].highest_wood_moisture, 0.1, 0.9, 100.0, "%"),
    CHECK(wall.moisture[0].first_highest_wood_moisture, 0.1, 0.9, 100.0, "%"),
    CHECK(wall.moisture[0].limit, 0.1, 0.9, 100.0, "%"),
    CHECK(wall.moisture[0].hours_above_limit, 100.0, 8000.0, 1.0, "hours"),
    CHECK(full_mould[1].highest, 0.1, 5.9, 1.0, ""),
    CHECK(full_mould[1].highest_slow, 0.1, 5.9, 1.0, ""),
    CHECK(PART.convergence.theta_time, 0.1, 0.9, 1.0, "K"),
    CHECK(PART.convergence.phi_time, 0.1, 0.9, 100.0, "points"),
    CHECK(PART.convergence.water_time, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(PART.convergence.theta_grid, 0.1, 0.9, 1.0, "K"),
    CHECK(PART.convergence.phi_grid, 0.1, 0.9, 100.0, "points"),
    CHECK(PART.convergence.water_grid, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(WETTING.water, 0.1, 0.9, 1.0, "kg/m2"),
    CHECK(WETTING.both.months, 5.0, 9.0, 1.0, "months"),
    CHECK(wall.advice[0].before, 0.1, 0.9, 1.0, ""),
    CHECK(wall.advice[0].after, 0.1, 0.9, 1.0, ""),
    CHECK(wall.advice[0].reserve_after, 0.1, 0.9, 1e3, "g/m2"),
    CHECK(wall.advice[0].dry_both_after, 0.1, 9.0, 1.0, "months"),
    CHECK(wall.advice[0].dry_inwards_after, 0.1, 9.0, 1.0, "months"),
    CHECK(wall.assessment.thermal.transmittance, 0.1, 0.9, 1.0, ""),
    CHECK(wall.assessment.thermal.resistance, 0.1, 0.9, 1.0, ""),
    CHECK(wall.assembly.indoors.temperature, 5.0, 25.0, 1.0, "degC"),
    CHECK(wall.section.outer_resistance, 0.1, 0.9, 1.0, ""),
    CHECK(wall.section.inner_resistance, 0.1, 0.9, 1.0, ""),
    MARGIN(UNKNOWN.as_drawn, 0.1, 0.9, 1.0, ""),
    MARGIN(UNKNOWN.low, 0.1, 0.9, 1.0, "to"),
    MARGIN(UNKNOWN.high, 0.1, 0.9, 1.0, ""),
    MARGIN(UNKNOWN.flip_value, 0.1, 0.9, 1.0, ""),
    MARGIN(UNKNOWN.flip_share, 0.1, 0.9, 100.0, "%"),
    MARGIN(UNKNOWN.figure_low.value, 0.1, 0.9, 1.0, "kg/m2"),
    MARGIN(UNKNOWN.figure_low.limit, 0.1, 0.9, 1.0, ""),
    MARGIN(UNKNOWN.figure_high.value, 0.1, 0.9, 1.0, "kg/m2"),
    MARGIN(full_inner[1], 0.1, 0.9, 1.0, "m"),
    MARGIN(full_outer[1], 0.1, 0.9, 1.0, "m"),
    MARGIN(full_map[1].condensed, 0.1, 0.9, 1e3, ""),
    MARGIN(full_map[1].reserve, 0.1, 0.9, 1e3, ""),
    MARGIN(full_case[0].figure.value, 0.1, 0.9, 1.0, ""),
    MARGIN(full_case[0].figure.limit, 0.1, 0.9, 1.0, "kg/m2"),
    MARGIN(full_case[0].figure.margin, 0.1, 0.9, 100.0, ""),
    MARGIN(full_case[0].margin_as_drawn, 0.1, 0.9, 100.0, ""),
    MARGIN(full_margin.ensemble_share, 0.1, 0.9, 100.0, "%"),
    MARGIN(full_margin.ensemble_error, 0.1, 0.9, 100.0, "points"),
    MARGIN(full_margin.tolerance, 0.1, 0.9, 100.0, "%"),
    MARGIN(full_margin.damp.figure.value, 0.1, 0.9, 1.0, "kg/m2"),
    MARGIN(full_margin.damp.temperature, 5.0, 30.0, 1.0, "degC"),
    MARGIN(full_margin.own_inner_sd, 0.1, 0.9, 1.0, "m"),
    MARGIN(full_margin.own_outer_sd, 0.1, 0.9, 1.0, "m"),
    MARGIN(full_margin.map_limit, 0.1, 0.9, 1e3, "g/m2"),
    COMPARE(full_value[0][1], 0.1, 0.9, 1e3, ""),
    COMPARE(full_value[1][0], 0.1, 0.9, 1e3, ""),
    COMPARE(full_stressed[1].figure.value, 0.1, 0.9, 1e3, "g/m2"),
    MEETING(room[0].surface[0].rsi, 0.1, 0.9, 1.0, ""),
    MEETING(room[0].surface[1].frsi, 0.1, 0.9, 1.0, ""),
    MEETING(room[1].surface[2].frsi_required, 0.1, 0.9, 1.0, ""),
    MEETING(room[1].surface[0].month[10].theta_si, 1.1, 19.0, 1.0, ""),
    MEETING(room[0].surface[2].month[10].rh_si, 0.1, 0.9, 100.0, ""),
    MEETING(coldest[0].frsi.error, 0.1, 0.9, 1.0, ""),
    MEETING(coldest[4].frsi.error, 0.1, 0.9, 1.0, ""),
    MEETING(coldest[3].x, 0.1, 0.8, 1e3, ""),
    MEETING(coldest[5].y, 0.1, 0.8, 1e3, ""),
    MEETING(heat.l2d.value, 0.1, 0.9, 1.0, "W/"),
    MEETING(heat.l2d.error, 0.1, 0.9, 1.0, "Rsi"),
    MEETING(heat.l2d.order, 1.1, 1.9, 1.0, ""),
    MEETING(coupling[3].value, 0.1, 0.9, 1.0, "W/"),
    MEETING(coupling[3].error, 0.1, 0.9, 1.0, ""),
    MEETING(coupling[7].value, 0.1, 0.9, 1.0, "W/"),
    MEETING(coupling[7].error, 0.1, 0.9, 1.0, ""),
    MEETING(heat.psi_inner, 0.1, 0.9, 1.0, "W/"),
    MEETING(heat.psi_outer, 0.1, 0.9, 1.0, "by"),
    MEETING(heat.flank[0].transmittance, 0.1, 0.9, 1.0, "W/"),
    MEETING(heat.flank[1].inner, 0.1, 0.9, 1.0, "m"),
    MEETING(heat.flank[1].outer, 0.1, 0.9, 1.0, "m"),
    MEETING(material[1].conductivity, 0.1, 0.9, 1.0, ""),
    MEETING(filling[0].at.x0, -0.3, -0.1, 1e3, ""),
    MEETING(filling[0].at.x1, -0.05, 0.1, 1e3, ""),
    MEETING(filling[1].at.y0, -0.3, -0.1, 1e3, ""),
    MEETING(filling[1].at.y1, 0.1, 0.2, 1e3, ""),
    /* within its cell */
    MEETING(spot[0].x, -0.25, -0.15, 1e3, ""),
    MEETING(spot[0].y, -0.149, -0.101, 1e3, ""),
    MEETING(at_spot[0].theta[FULL_COLDEST_MONTH], -8.0, 21.0, 1.0, ""),
    MEETING(at_spot[0].rh[FULL_DAMPEST_MONTH], 0.3, 0.9, 100.0, ""),
    MEETING(at_spot[0].moisture[FULL_DAMPEST_MONTH], 0.05, 0.25, 100.0, ""),
};

static words before, after;
static paper document;

static void said_setup(void)
{
    full_setup();
    /* its own, as places of the wall are called by its numbers */
    dice own = {.state = 1181783497276652981u};
    full_junction_make(&meeting, &own);
    for (size_t i = 0; i < COUNT(figures); i++) {
        const bool met = figures[i].document == BW_DOCUMENT_JUNCTION;
        *figures[i].at = between(met ? &own : &full_die, figures[i].low,
                                 figures[i].high);
    }
    WETTING.both.months = 8.0;
    wall.monitor[1].last_free.largest = 0.5;
}

static void read_document(words *to, bw_document which, bw_form form)
{
    const bw_report_options all = {.width = 100, .extent = BW_EXTENT_FULL};
    const bw_results met = {.junction = &meeting.assessment};
    paper_clear(&document);
    ck_assert_int_eq(
        bw_report(which == BW_DOCUMENT_JUNCTION ? &met : &wall.results, which,
                  form, &all, paper_take, &document, NULL),
        BW_OK);
    split(to, document.text);
}

/* "g/m2" of the text is set as "g/m\u00b2" on a page, "degC" as "\u00b0C". */
static bool is_unit(const char *word, const char *unit)
{
    if (strcmp(unit, "degC") == 0 && strcmp(word, "\u00b0C") == 0)
        return true;
    for (; *unit != '\0'; unit++) {
        const char *power = *unit == '2' ? "\u00b2" : "";
        if (*word == *unit)
            word++;
        else if (power[0] != '\0' && starts(word, power))
            word += strlen(power);
        else
            return false;
    }
    return *word == '\0';
}

static said what_is_said(const figure *f, double value)
{
    said s = {0};
    for (size_t i = 0; i < after.count && before.count != after.count; i++)
        ck_assert_msg(strcmp(before.word[i], after.word[i]) == 0,
                      "'%s %s' became '%s %s' of %g", before.word[i],
                      before.word[i + 1], after.word[i], after.word[i + 1],
                      value);
    for (size_t i = 0; i < after.count; i++) {
        double number;
        if (strcmp(before.word[i], after.word[i]) == 0)
            continue;
        ck_assert_msg(is_number(after.word[i], &number), "'%s' behind '%s'",
                      after.word[i], i > 0 ? after.word[i - 1] : "");
        if (!prints(after.word[i], f->factor * value)) {
            s.other++;
            ck_assert_msg(s.other <= f->follows,
                          "'%s' behind '%s' is not %g, nor follows from it",
                          after.word[i], i > 0 ? after.word[i - 1] : "",
                          f->factor * value);
            continue;
        }
        if (s.own == 0)
            s.first = i;
        s.own++;
    }
    return s;
}

static void check_form(const figure *f, bw_form form)
{
    read_document(&before, f->document, form);
    double value; /* that is printed as another */
    do
        value = between(&full_die, f->low, f->high);
    while (fabs(value - *f->at) < 0.1 * (f->high - f->low));
    *f->at = value;
    read_document(&after, f->document, form);
    const said s = what_is_said(f, value);
    ck_assert_msg(s.own > 0, "%g is nowhere", f->factor * value);
    if (f->unit[0] != '\0')
        ck_assert_msg(s.first + 1 < after.count &&
                          is_unit(after.word[s.first + 1], f->unit),
                      "%s %s", after.word[s.first], after.word[s.first + 1]);
}

START_TEST(a_figure_of_the_text_is_that_of_the_result)
{
    said_setup();
    for (int draw = 0; draw < DRAWS; draw++)
        check_form(&figures[_i], BW_FORM_TEXT);
}
END_TEST

START_TEST(a_figure_of_the_page_is_that_of_the_result)
{
    said_setup();
    for (int draw = 0; draw < DRAWS; draw++)
        check_form(&figures[_i], BW_FORM_PAGE);
}
END_TEST

/* Rows of the months and of the simulation that fail, and of the simulation
 * that are marginal. */
static const struct agreement {
    bw_verdict months, more_months, hours;
    const char *says;
} agreements[] = {
    {BW_HOLDS, BW_HOLDS, BW_HOLDS, "agrees: neither has a figure that fails"},
    {BW_HOLDS, BW_HOLDS, BW_MARGINAL,
     "agrees: nothing fails; simulated, some figures are marginal"},
    {BW_FAILS, BW_HOLDS, BW_FAILS,
     "agrees: both fail; by months annual balance does"},
    {BW_FAILS, BW_FAILS, BW_HOLDS,
     "differs: simulated nothing fails, by months 2 do (annual balance, ...)"},
    {BW_HOLDS, BW_HOLDS, BW_FAILS,
     "differs: by months nothing fails, simulated standing water does"},
    {BW_MARGINAL, BW_HOLDS, BW_HOLDS,
     "agrees: neither has a figure that fails"},
};

START_TEST(both_methods_agree_or_differ_by_what_fails)
{
    const struct agreement *a = &agreements[_i];
    const bw_report_options wide = {.width = 200};
    bw_criterion row[3];
    for (size_t i = 0; i < COUNT(row); i++)
        row[i] = wall.criterion[0];
    row[0].outcome = a->months;
    row[1].outcome = a->more_months;
    row[2].outcome = a->hours;
    row[2].method = "transient";
    row[2].criterion = "standing-water";
    wall.assessment.criterion = row;
    wall.assessment.criterion_count = COUNT(row);
    paper_clear(&document);
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &wide,
                                  paper_take, &document, NULL),
                     BW_OK);
    HAS(document.text, a->says);
}
END_TEST

static const struct {
    double balance;
    const char *says;
} balances[] = {
    {3e-8, "zero within 1e-07 of"},
    {1.2e-3, "zero within 0.01 of"},
    {0.0, "zero within 1e-10 of"},
};

/* A power of ten that is not less. */
START_TEST(the_balance_of_a_junction_is_not_said_to_be_better)
{
    const bw_results met = {.junction = &meeting.assessment};
    const bw_report_options wide = {.width = 200};
    said_setup();
    meeting.heat.balance = balances[_i].balance;
    paper_clear(&document);
    ck_assert_int_eq(bw_report(&met, BW_DOCUMENT_JUNCTION, BW_FORM_TEXT, &wide,
                               paper_take, &document, NULL),
                     BW_OK);
    HAS(document.text, balances[_i].says);
    HAS(document.text, "2002, 3003 and 4004 cells"); /* the last three */
}
END_TEST

START_TEST(what_is_not_all_says_how_all_is_had)
{
    bw_report_options some = {.width = 100, .extent = BW_EXTENT_SCREEN};
    paper_clear(&document);
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &some,
                                  paper_take, &document, NULL),
                     BW_OK);
    HAS(document.text, "--full");
    paper_clear(&document);
    some.extent = BW_EXTENT_FULL;
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &some,
                                  paper_take, &document, NULL),
                     BW_OK);
    HAS_NOT(document.text, "--full");
}
END_TEST

/* ---- tables of a page ------------------------------------------------------
 */

static char *words_of(xmlNode *node)
{
    return (char *)xmlNodeGetContent(node);
}

static bool has_words(xmlNode *cell)
{
    char *words = words_of(cell);
    const bool has = words[strspn(words, " \n")] != '\0';
    xmlFree(words);
    return has;
}

/* The nth cell (from 0) of a row; NULL: it has no such. */
static xmlNode *cell_of(xmlNode *row, size_t nth)
{
    for (xmlNode *cell = row->children; cell != NULL; cell = cell->next)
        if (cell->type == XML_ELEMENT_NODE && nth-- == 0)
            return cell;
    return NULL;
}

static xmlXPathObject *rows_of(xmlDoc *doc, xmlNode *table)
{
    xmlXPathContext *context = xmlXPathNewContext(doc);
    context->node = table;
    xmlXPathObject *rows = xmlXPathEvalExpression(
        (const xmlChar *)".//tr[td and not(td[@colspan])]", context);
    xmlXPathFreeContext(context);
    return rows;
}

static size_t empty_columns(xmlDoc *doc, xmlNode *table)
{
    xmlXPathObject *found = rows_of(doc, table);
    const int rows = found->nodesetval != NULL ? found->nodesetval->nodeNr : 0;
    size_t empty = 0;
    for (size_t c = 0; rows > 0; c++) {
        bool any = false, is = false;
        for (int r = 0; r < rows; r++) {
            xmlNode *cell = cell_of(found->nodesetval->nodeTab[r], c);
            is = is || cell != NULL;
            any = any || (cell != NULL && has_words(cell));
        }
        if (!is)
            break;
        empty += !any;
    }
    xmlXPathFreeObject(found);
    return empty;
}

/* In a result that has everything a column of a table has something. */
START_TEST(every_column_of_a_page_has_words)
{
    static const bw_document documents[] = {
        BW_DOCUMENT_CHECK, BW_DOCUMENT_MARGIN, BW_DOCUMENT_COMPARE,
        BW_DOCUMENT_JUNCTION};
    /* a verdict, which is first of what is compared, has no unit and limit */
    static const size_t empty[] = {0, 0, 2, 0};
    size_t is = 0, tables = 0;
    said_setup();
    read_document(&before, documents[_i], BW_FORM_PAGE);
    xmlDoc *doc = xmlReadMemory(document.text, (int)document.used, "page", NULL,
                                XML_PARSE_NONET | XML_PARSE_HUGE);
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)"//table",
                                                   context);
    for (int i = 0; found->nodesetval != NULL && i < found->nodesetval->nodeNr;
         i++, tables++)
        is += empty_columns(doc, found->nodesetval->nodeTab[i]);
    ck_assert_uint_gt(tables, 1);
    ck_assert_uint_eq(is, empty[_i]);
    xmlXPathFreeObject(found);
    xmlXPathFreeContext(context);
    xmlFreeDoc(doc);
}
END_TEST

SUITE_AROUND("said", full_setup, NULL,
             EACH(a_figure_of_the_text_is_that_of_the_result, COUNT(figures)),
             EACH(a_figure_of_the_page_is_that_of_the_result, COUNT(figures)),
             EACH(both_methods_agree_or_differ_by_what_fails,
                  COUNT(agreements)),
             EACH(the_balance_of_a_junction_is_not_said_to_be_better,
                  COUNT(balances)),
             FACT(what_is_not_all_says_how_all_is_had),
             EACH(every_column_of_a_page_has_words, 4))
