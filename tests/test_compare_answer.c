/* The answer of a comparison: one that leaking air alone may make, a time never
 * reached, a trade-off. Walls simulated through one year, invented; of them
 * only what one has against the other is asked, and that a reader is told it.
 */

#include <math.h>

#include "compare_case.h"
#include "one_document.h"
#include "paper.h"
#include "suite.h"

#define BATT "<layer id='batt' material='stone-wool-batt' thickness='100 mm'/>"
#define TIGHT "<membrane id='tight' material='pe-foil-0-15mm'/>"
#define FOIL "<membrane id='foil' material='pe-foil-0-15mm'/>"

static compare_case c;
static paper sheet;

static void setup(void)
{
    case_start(&c);
}

static void teardown(void)
{
    case_end(&c);
}

static const char *text_in(bw_extent extent, int width)
{
    paper_clear(&sheet);
    const bw_report_options options = {.width = width, .extent = extent};
    ck_assert_int_eq(compare_report(BW_FORM_TEXT, c.result, &options,
                                    paper_take, &sheet, NULL),
                     BW_OK);
    paper_fits(sheet.text, (size_t)width);
    for (char *at = sheet.text; *at != '\0'; at++) /* one line for a search */
        if (*at == '\n') {
            *at = ' ';
            while (at[1] == ' ')
                memmove(at + 1, at + 2, strlen(at + 2) + 1);
        }
    return sheet.text;
}

static const char *text(bw_extent extent)
{
    return text_in(extent, 100);
}

static const bw_compare_options one_year = {
    .assessment = {.no_advice = true,
                   .synthetic_hours = true,
                   .transient = {.max_years = 1}}};

/* The second wall leaks as much [m3/(m2 h)], the first counts no leak. */
static void beside_leaky(const char *layers, double q50)
{
    case_add(
        &c, (case_wall){"still", NULL, NULL, CASE_BOARD BATT FOIL CASE_LINING});
    case_add(&c, (case_wall){"leaky", NULL, NULL, layers});
    c.assembly[1]->air_leakage = (bw_air_leakage){
        .given = true, .q50 = q50 / 3600.0, .connected_height = 5.0};
    case_must(&c, &one_year);
    ck_assert(c.result->simulated);
    ck_assert_uint_eq(c.result->best_count, 1);
    ck_assert_uint_eq(c.result->order[0], 0);
    ck_assert_int_eq(c.result->wall[1].verdict, BW_FAILS);
}

/* The same wall with and without: nothing else can be the cause. */
START_TEST(a_wall_that_fails_for_its_leak_alone_is_not_compared)
{
    beside_leaky(CASE_BOARD BATT FOIL CASE_LINING, 150.0);
    ck_assert(!c.result->wall[1].fails_airless);
    ck_assert(c.result->unlike_air);
    ck_assert_uint_eq(c.result->airless, 0);
    ck_assert_uint_eq(c.result->aired, 1);
    HAS(text(BW_EXTENT_SCREEN),
        "Which wall: not comparable: still counts no leaking air, leaky does");
    HAS(sheet.text, "Which wall: not comparable. ");
}
END_TEST

/* Tight outside, open inside: it needs no leak to get wet. */
START_TEST(a_wall_that_fails_without_its_leak_too_loses)
{
    beside_leaky(FOIL CASE_BOARD BATT, 0.5);
    ck_assert(c.result->wall[1].fails_airless);
    ck_assert(!c.result->unlike_air);
    HAS(text(BW_EXTENT_SCREEN), "Which wall: still, since leaky fails (");
    HAS(sheet.text, "), without its leaking air, too.");
    HAS(sheet.text, "No leaking air is counted in still.");
    HAS(sheet.text, "Which wall: still. ");
}
END_TEST

/* One simulation more than those of the walls and their stresses. */
START_TEST(only_a_loser_beside_a_wall_without_air_is_run_again)
{
    size_t stressed = 0;
    beside_leaky(FOIL CASE_BOARD BATT, 0.5);
    for (size_t k = 0; k < c.result->stress_count; k++)
        for (size_t i = 0; i < 2; i++)
            stressed += c.result->stress[k].wall[i].applies;
    ck_assert_uint_eq(c.result->simulation_count, 2 + stressed + 1);
    c.assembly[0]->air_leakage = c.assembly[1]->air_leakage;
    case_must(&c, &one_year);
    ck_assert_uint_eq(c.result->simulation_count, 2 + stressed);
    ck_assert(!c.result->wall[1].fails_airless && !c.result->unlike_air);
}
END_TEST

/* ---- never --------------------------------------------------------------- */

static void two_alike(void)
{
    case_add(&c,
             (case_wall){"a", NULL, NULL, CASE_BOARD BATT FOIL CASE_LINING});
    case_add(&c,
             (case_wall){"b", NULL, NULL, CASE_BOARD BATT FOIL CASE_LINING});
    case_must(&c, &one_year);
}

/* Past a limit is not near it. */
START_TEST(what_is_past_a_limit_is_not_said_to_be_to_spare)
{
    two_alike();
    bw_compared *wall = (bw_compared *)c.result->wall;
    c.result->best_count = 1;
    wall[c.result->order[0]].worst_margin = 0.29;
    wall[c.result->order[1]].because = BW_BECAUSE_RESERVE;
    wall[c.result->order[1]].worst_margin = 0.12;
    HAS(text(BW_EXTENT_SCREEN),
        "comes nearer to a limit: at worst 12 % of the limit to spare, ");
    HAS(sheet.text, " 29 % of the limit to spare.");
    wall[c.result->order[0]].worst_margin = -0.29;
    wall[c.result->order[1]].worst_margin = -0.49;
    HAS(text(BW_EXTENT_SCREEN),
        "goes further past a limit: at worst 49 % beyond the limit, ");
    HAS(sheet.text, " 29 % beyond the limit.");
}
END_TEST

/* The comparison's own memory, to put figures into. */
static bw_stressed *stressed(size_t wall)
{
    ck_assert_uint_gt(c.result->stress_count, 0);
    return (bw_stressed *)&c.result->stress[0].wall[wall];
}

static const char *table(bw_table id)
{
    const bw_results results = {.comparison = c.result};
    paper_clear(&sheet);
    ck_assert_int_eq(bw_report_table(&results, id, paper_take, &sheet, &c.err),
                     BW_OK);
    return sheet.text;
}

START_TEST(a_time_never_reached_under_a_stress_reads_so)
{
    two_alike();
    const bw_figure never = {.criterion = "first-year-drying",
                             .value = 104.0,
                             .limit = 13.0,
                             .unit = "weeks",
                             .margin = -7.0,
                             .never = true};
    stressed(0)->figure = stressed(1)->figure = never;
    stressed(0)->verdict = BW_FAILS;
    stressed(1)->figure.never = false;
    HAS(text_in(BW_EXTENT_FULL, 300),
        "first year drying not in 2 years (limit 13 weeks)");
    HAS(sheet.text, "first year drying 104 weeks");
    HAS(table(BW_TABLE_STRESSES), ",first-year-drying,104,13,weeks,yes,");
    HAS(sheet.text, ",first-year-drying,104,13,weeks,,");
}
END_TEST

/* The tests of drying and wetting, too: a criterion that waited in vain has no
 * value in the common table, but words. */
START_TEST(a_criterion_never_reached_has_words_in_the_table)
{
    case_add(&c, (case_wall){"tight", NULL, NULL, FOIL CASE_BOARD BATT TIGHT});
    case_add(&c, (case_wall){"open", NULL, NULL, CASE_BOARD BATT CASE_LINING});
    case_must(&c, &one_year);
    const bw_compare_row *row = NULL;
    for (size_t k = 0; k < c.result->row_count; k++)
        if (strcmp(c.result->row[k].name, "wetting-test") == 0)
            row = &c.result->row[k];
    ck_assert_ptr_nonnull(row);
    ck_assert(row->criterion[0]->never && !row->has_value[0]);
    HAS(row->instead[0], "not in ");
    ck_assert(row->has_value[1] && row->instead[1][0] == '\0');
    HAS(table(BW_TABLE_COMPARE), "wetting-test,criterion,tight,");
    HAS(strstr(sheet.text, "wetting-test,criterion,tight,"), ",fails,not in ");
}
END_TEST

/* ---- a trade-off --------------------------------------------------------- */

/* Put in by hand, of walls that nothing tells apart. */
START_TEST(both_sides_of_a_trade_off_stand_in_one_sentence)
{
    two_alike();
    ck_assert_uint_eq(c.result->best_count, 2);
    ck_assert_uint_eq(c.result->trait_count, 0);
    HAS(text(BW_EXTENT_SCREEN), "Which wall: no difference that these figures "
                                "can show. ");
    const bool has[] = {true, false};
    const double value[] = {0.8, 0.0};
    const char *const instead[] = {"", "not in 12 months"};
    const bw_compare_row row = {.name = "wetting-test",
                                .unit = "months",
                                .is_criterion = true,
                                .has_value = has,
                                .value = value,
                                .instead = instead};
    const bw_figure damp = {.criterion = "panel-moisture (whole)",
                            .value = 18.4,
                            .limit = 18.0,
                            .unit = "%"};
    stressed(0)->figure = stressed(1)->figure = damp;
    stressed(1)->figure.value = 14.0;
    stressed(0)->verdict = BW_FAILS;
    stressed(1)->verdict = BW_HOLDS;
    bw_trait trait[] = {{.name = "wetting-test",
                         .words = "dries faster",
                         .row = &row,
                         .best = 0,
                         .worst = 1},
                        {.name = "air-leak",
                         .words = "stands leaking room air better",
                         .stress = &c.result->stress[0],
                         .best = 1,
                         .worst = 0}};
    c.result->trait = trait;
    c.result->trait_count = 2;
    HAS(text(BW_EXTENT_SCREEN),
        "Which wall: none holds more than another that these figures can show; "
        "a trade-off: a dries faster (0.8 months against not in 12 months); b "
        "stands leaking room air better (panel moisture 14 % against panel "
        "moisture 18.4 % (limit 18)). ");
    /* One of them better in both: no trade. */
    trait[1].best = 0;
    HAS_NOT(text(BW_EXTENT_SCREEN), "trade-off");
    HAS(sheet.text, "can show; a dries faster (0.8 months against not in 12 "
                    "months) and stands leaking room air better (");
}
END_TEST

SUITE_AROUND("compare_answer", setup, teardown,
             FACT(a_wall_that_fails_for_its_leak_alone_is_not_compared),
             FACT(a_wall_that_fails_without_its_leak_too_loses),
             FACT(only_a_loser_beside_a_wall_without_air_is_run_again),
             FACT(what_is_past_a_limit_is_not_said_to_be_to_spare),
             FACT(a_time_never_reached_under_a_stress_reads_so),
             FACT(a_criterion_never_reached_has_words_in_the_table),
             FACT(both_sides_of_a_trade_off_stand_in_one_sentence))
