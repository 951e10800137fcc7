/* Rows of a junction's tables: which number stands in which row, what is left
 * empty, and a cell's temperature, which is summed up: weight by environment's
 * temperature, in the month in which it is coldest outside. That a column is
 * its field is tested in test_columns.c. */

#include <stdio.h>
#include <stdlib.h>

#include "bothways/report.h"
#include "full_junction.h"
#include "paper.h"

static paper sheet;
static bw_results results;
static dice die;

static void start(void)
{
    die = (dice){.state = 1181783497276652981u};
    full_junction_make(&meeting, &die);
    results = (bw_results){.junction = &meeting.assessment};
}

static const char *table_of(bw_table table)
{
    paper_clear(&sheet);
    ck_assert_int_eq(bw_report_table(&results, table, paper_take, &sheet, NULL),
                     BW_OK);
    return sheet.text;
}

/* The line that begins so; what is behind that beginning. */
static const char *row_of(const char *beginning)
{
    for (const char *at = sheet.text; *at != '\0';) {
        if (strncmp(at, beginning, strlen(beginning)) == 0)
            return at + strlen(beginning);
        at += strcspn(at, "\n");
        at += *at == '\n';
    }
    ck_abort_msg("no row %s in\n%s", beginning, sheet.text);
    return NULL;
}

static size_t rows(void)
{
    size_t lines = 0;
    for (const char *at = sheet.text; *at != '\0'; at++)
        lines += *at == '\n';
    return lines - 1;
}

/* Up to three numbers in a row, then the unit. */
static void row_is(const char *beginning, const bw_found *f, const char *unit)
{
    const char *at = row_of(beginning);
    const double want[] = {f->value, f->error, f->finest};
    for (size_t i = 0; i < 3; i++) {
        char *end;
        ck_assert_msg(fabs(strtod(at, &end) - want[i]) <= 1e-8 && *end == ',',
                      "%s: %.60s is not %.9g", beginning, at, want[i]);
        at = end + 1;
    }
    ck_assert_msg(strncmp(at, unit, strlen(unit)) == 0 &&
                      at[strlen(unit)] == '\n',
                  "%.20s is not %s", at, unit);
}

START_TEST(a_flow_stands_between_its_places)
{
    const bw_found *c = meeting.coupling; /* [to * environments + from] */
    table_of(BW_TABLE_JUNCTION_HEAT);
    ck_assert_uint_eq(rows(), 1 + 3 + 2 + FULL_ROOMS * BW_SURFACES_FLOW);
    row_is("meeting,L2D,,,", &meeting.heat.l2d, "W/(m.K)");
    row_is("meeting,coupling,outside,kitchen,", &c[1 * FULL_ENVIRONMENTS],
           "W/(m.K)");
    row_is("meeting,coupling,outside,loft,", &c[2 * FULL_ENVIRONMENTS],
           "W/(m.K)");
    row_is("meeting,coupling,kitchen,loft,", &c[2 * FULL_ENVIRONMENTS + 1],
           "W/(m.K)");
}
END_TEST

START_TEST(a_factor_stands_beside_its_room_and_resistance)
{
    static const char *const name[] = {"frsi-0.25", "frsi-0.35", "frsi-1.0"};
    table_of(BW_TABLE_JUNCTION_HEAT);
    for (size_t i = 0; i < FULL_ROOMS * BW_SURFACES_FLOW; i++) {
        char beginning[64];
        snprintf(beginning, sizeof beginning, "meeting,%s,%s,,",
                 name[i % BW_SURFACES_FLOW],
                 i < BW_SURFACES_FLOW ? "kitchen" : "loft");
        row_is(beginning, &meeting.coldest[i].frsi, "-");
    }
}
END_TEST

/* No error was found of psi, and none is printed. */
START_TEST(psi_stands_alone_and_only_if_there_is_one)
{
    table_of(BW_TABLE_JUNCTION_HEAT);
    char *end;
    ck_assert_double_eq_tol(strtod(row_of("meeting,psi-inner,,,"), &end),
                            meeting.heat.psi_inner, 1e-8);
    ck_assert_int_eq(strncmp(end, ",,,W/(m.K)\n", 11), 0);
    ck_assert_double_eq_tol(strtod(row_of("meeting,psi-outer,,,"), &end),
                            meeting.heat.psi_outer, 1e-8);
    ck_assert_int_eq(strncmp(end, ",,,W/(m.K)\n", 11), 0);
    meeting.heat.has_psi = false;
    HAS_NOT(table_of(BW_TABLE_JUNCTION_HEAT), "psi");
}
END_TEST

/* As in verdict.csv: there is no distance from nothing. */
START_TEST(a_criterion_without_value_or_limit_has_no_margin)
{
    bw_criterion *c = meeting.criterion;
    const char *where = "meeting,kitchen,surface-mould,marginal,yes,";
    c[0].value = 0.25;
    c[0].limit = 0.75;
    c[0].margin = -0.5;
    table_of(BW_TABLE_JUNCTION);
    ck_assert_uint_eq(rows(), 2);
    HAS(row_of(where), "0.25,0.75,-0.5,-,somewhere,some rule\n");
    c[0].has_limit = false;
    table_of(BW_TABLE_JUNCTION);
    ck_assert_int_eq(strncmp(row_of(where), "0.25,,,-,", 9), 0);
    c[0].has_limit = true;
    c[0].has_value = false;
    table_of(BW_TABLE_JUNCTION);
    ck_assert_int_eq(strncmp(row_of(where), ",0.75,,-,", 9), 0);
}
END_TEST

static double temperature_of(size_t cell)
{
    double t = 0.0;
    for (size_t e = 0; e < FULL_ENVIRONMENTS; e++)
        t += meeting.weight[e][cell] *
             meeting.theta[e * BW_MONTHS + FULL_COLDEST_MONTH];
    return t;
}

static void every_cell(int month)
{
    size_t row = 0;
    const char *at = table_of(BW_TABLE_JUNCTION_FIELD);
    for (size_t k = 0; k < FULL_NX * FULL_NY; k++) {
        char material[16];
        double is[6];
        const size_t i = k % FULL_NX, j = k / FULL_NX;
        if (i >= 2 && j >= 1) /* the rooms */
            continue;
        at += strcspn(at, "\n") + 1;
        ck_assert_int_eq(sscanf(at, "%lf,%lf,%lf,%lf,%15[^,],%lf,%lf\n", &is[0],
                                &is[1], &is[2], &is[3], material, &is[4],
                                &is[5]),
                         7);
        const double want[] = {meeting.x[i], meeting.x[i + 1],
                               meeting.y[j], meeting.y[j + 1],
                               month + 1.0,  temperature_of(k)};
        for (size_t n = 0; n < COUNT(want); n++)
            ck_assert_msg(fabs(is[n] - want[n]) <=
                              1e-8 * fmax(1.0, fabs(want[n])),
                          "row %zu: %.80s: not %.9g", row, at, want[n]);
        ck_assert_str_eq(material, i < 2 ? "brick" : "fibre");
        row++;
    }
    ck_assert_uint_eq(rows(), row);
}

START_TEST(a_cell_of_the_field_stands_where_it_is_with_its_temperature)
{
    every_cell(FULL_COLDEST_MONTH);
    for (int draw = 0; draw < 20; draw++) {
        const size_t e = (size_t)between(&die, 0.0, FULL_ENVIRONMENTS);
        const size_t k = (size_t)between(&die, 0.0, FULL_NX * FULL_NY);
        meeting.weight[e][k] = between(&die, 0.0, 1.0);
        meeting.theta[e * BW_MONTHS + FULL_COLDEST_MONTH] = between(&die, -20.0,
                                                                    25.0);
        every_cell(FULL_COLDEST_MONTH);
    }
}
END_TEST

START_TEST(a_spot_has_a_row_for_each_month)
{
    table_of(BW_TABLE_JUNCTION_SPOTS);
    ck_assert_uint_eq(rows(), BW_MONTHS);
    for (int m = 0; m < BW_MONTHS; m++) {
        char beginning[64];
        char *end;
        snprintf(beginning, sizeof beginning,
                 "meeting,plate end,-0.2,-0.1,brick,%d,", m + 1);
        ck_assert_double_eq_tol(strtod(row_of(beginning), &end),
                                meeting.at_spot[0].theta[m], 1e-7);
    }
}
END_TEST

START_TEST(the_field_is_that_of_the_coldest_month_alone)
{
    const int month = _i;
    meeting.climate.month[month].temperature = -30.0;
    for (size_t e = 0; e < FULL_ENVIRONMENTS; e++)
        for (int m = 0; m < BW_MONTHS; m++)
            meeting.theta[e * BW_MONTHS + (size_t)m] = m == month
                                                           ? 4.0 + (double)e
                                                           : 99.0;
    const size_t cell = 1; /* of row 2 */
    const char *at = table_of(BW_TABLE_JUNCTION_FIELD);
    double want = 0.0;
    for (size_t e = 0; e < FULL_ENVIRONMENTS; e++)
        want += meeting.weight[e][cell] * (4.0 + (double)e);
    char row[128];
    snprintf(row, sizeof row, ",brick,%d,%.9g\n", month + 1, want);
    HAS(at, row);
}
END_TEST

START_TEST(hours_stand_by_their_face_and_their_five_days)
{
    char *end;
    table_of(BW_TABLE_JUNCTION_FACES);
    ck_assert_uint_eq(rows(), 1);
    meeting.face[0].month_rh[4] = 0.81;
    const char *at = strstr(table_of(BW_TABLE_JUNCTION_FACES), ",13,5,");
    ck_assert_ptr_nonnull(at); /* May, after the hours above 95 % */
    ck_assert_double_eq_tol(strtod(at + 6, NULL), 81.0, 1e-6);
    table_of(BW_TABLE_JUNCTION_YEAR);
    ck_assert_uint_eq(rows(), BW_SPANS);
    ck_assert_double_eq_tol(strtod(row_of("meeting,plate end,0,"), &end),
                            meeting.course[0].theta[0], 1e-7);
    ck_assert_double_eq_tol(strtod(row_of("meeting,plate end,360,"), &end),
                            meeting.course[0].theta[72], 1e-7);
    meeting.course[0].wood = -1;
    table_of(BW_TABLE_JUNCTION_YEAR);
    at = row_of("meeting,plate end,360,");
    ck_assert_int_eq(at[strcspn(at, "\n") - 1], ','); /* no wood there */
    meeting.assessment.hours.ran = false;
    table_of(BW_TABLE_JUNCTION_YEAR);
    ck_assert_uint_eq(rows(), 0);
}
END_TEST

SUITE_AROUND("junction columns", start, NULL,
             FACT(a_flow_stands_between_its_places),
             FACT(a_factor_stands_beside_its_room_and_resistance),
             FACT(psi_stands_alone_and_only_if_there_is_one),
             FACT(a_criterion_without_value_or_limit_has_no_margin),
             FACT(hours_stand_by_their_face_and_their_five_days),
             FACT(a_cell_of_the_field_stands_where_it_is_with_its_temperature),
             FACT(a_spot_has_a_row_for_each_month),
             EACH(the_field_is_that_of_the_coldest_month_alone, BW_MONTHS))
