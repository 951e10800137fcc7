/* What a comparison of few and of many walls says follows from its result: what
 * was made to fit, what decides each and how it dries, which stresses it loses,
 * why one stands before another. A sentence is asked for where it is so, and
 * must not be there where it is not. */

#include <math.h>

#include "bothways/bothways.h"
#include "flat_text.h"
#include "report_wall.h"

enum { WALLS = 4, STRESSES = 3, ROWS = 4 };

static report_wall wall;
static bw_assessment assessed[WALLS];
static bw_criterion decides[WALLS];
static bw_compared walls[WALLS];
static bw_compare_row rows[ROWS];
static double value[ROWS][WALLS];
static bool known[ROWS][WALLS];
static const char *instead[ROWS][WALLS];
static const char *sections[WALLS];
static bw_stressed stressed[STRESSES][WALLS];
static bw_stress stresses[STRESSES];
static size_t order[WALLS];
static bw_comparison comparison;

static const char *const labels[WALLS] = {"north", "south", "west", "east"};

static void make_rows(void)
{
    static const char *const names[ROWS] = {
        "months-to-dry", "months-to-dry-outwards", "months-to-dry-inwards",
        "simulated-months-to-dry"};
    for (size_t k = 0; k < ROWS; k++) {
        for (size_t i = 0; i < WALLS; i++) {
            value[k][i] = 1.25 + (double)(10 * i + k);
            known[k][i] = true;
            instead[k][i] = "";
        }
        rows[k] = (bw_compare_row){.name = names[k],
                                   .title = names[k],
                                   .unit = "months",
                                   .by_months = k < 3,
                                   .has_value = known[k],
                                   .value = value[k],
                                   .section = sections,
                                   .instead = instead[k]};
    }
}

static void compare_setup(void)
{
    static const char *const names[STRESSES] = {"air-leak", "rain-leak",
                                                "damp-room"};
    static const char *const sentence[] = {"One sentence."};
    report_wall_make(&wall);
    for (size_t i = 0; i < WALLS; i++) {
        sections[i] = "";
        decides[i] = (bw_criterion){.criterion = "annual-balance",
                                    .title = "Annual balance",
                                    .section = "whole",
                                    .unit = "kg/m2",
                                    .decides = true,
                                    .has_value = true,
                                    .value = 0.5625,
                                    .has_limit = true,
                                    .limit = 0.4375,
                                    .margin = -0.125,
                                    .verdict = BW_FAILS,
                                    .reason = "it grows year by year"};
        assessed[i] = wall.assessment;
        assessed[i].deciding = &decides[i];
        walls[i] = (bw_compared){.assessment = &assessed[i],
                                 .id = labels[i],
                                 .title = labels[i],
                                 .label = labels[i],
                                 .transmittance = 0.15625 + 0.25 * (double)i,
                                 .total_thickness = 0.25,
                                 .stresses = STRESSES,
                                 .verdict = BW_HOLDS};
        order[i] = i;
        for (size_t k = 0; k < STRESSES; k++)
            stressed[k][i] = (bw_stressed){.applies = true,
                                           .setting = names[k],
                                           .reason = "",
                                           .verdict = BW_HOLDS};
    }
    for (size_t k = 0; k < STRESSES; k++)
        stresses[k] = (bw_stress){names[k], names[k], stressed[k]};
    make_rows();
    comparison = (bw_comparison){.wall_count = WALLS,
                                 .wall = walls,
                                 .order = order,
                                 .row_count = ROWS,
                                 .row = rows,
                                 .stress_count = STRESSES,
                                 .stress = stresses,
                                 .best_count = 1,
                                 .sentence_count = 1,
                                 .sentence = sentence};
}

static void print_walls(bw_extent extent)
{
    const bw_results of = {.comparison = &comparison};
    print_flat(&of, BW_DOCUMENT_COMPARE, extent);
}

/* ---- what was made to fit --------------------------------------------------
 */

static void make_fit(size_t i)
{
    walls[i].rescaled = true;
    walls[i].rescaled_id = "bay";
    walls[i].rescaled_layer = "Batt";
    walls[i].thickness_before = 0.125;
    walls[i].thickness_after = 0.0625;
}

START_TEST(what_is_held_equal_is_said_of_the_first_wall)
{
    static const char *const says[] = {
        "Held equal: nothing in the build-ups; the walls are as drawn.",
        "Held equal: the U-value of north, 0.156 W/(m2.K), by the",
        "Held equal: the total thickness of north, 250.0 mm, by the"};
    static const bw_equal equal[] = {BW_EQUAL_AS_DRAWN, BW_EQUAL_U,
                                     BW_EQUAL_THICKNESS};
    comparison.equal = equal[_i];
    print_walls(BW_EXTENT_FULL);
    for (size_t i = 0; i < COUNT(says); i++)
        says_if(i == (size_t)_i, says[i]);
}
END_TEST

START_TEST(a_wall_made_to_fit_says_how)
{
    comparison.wall_count = 2;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, " made ");
    make_fit(1);
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "south: bay (Batt) made 62.5 mm instead of 125.0 mm thick.");
    says_if(false, "north: bay");
    says_if(false, "To buy");
    walls[1].framing_depth = 0.1;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "thick, its framing still 100 mm deep and the rest across "
                  "it.");
    walls[1].rescaled_framing = true;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "thick, its framing as deep as itself.");
    walls[1].thickness_to_buy = 0.08;
    walls[1].transmittance_to_buy = 0.21875;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, " To buy: 80 mm, with it U is 0.219 W/(m2.K).");
    walls[1].thickest_sold = 0.2;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, " To buy: 80 mm (as sold), with it U is 0.219 W/(m2.K).");
    walls[1].thickness_to_buy = 0.0;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, " To buy: none of those sold is thick enough (at most 200 "
                  "mm).");
}
END_TEST

START_TEST(of_many_walls_what_was_made_to_fit_is_one_line)
{
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "Made to fit");
    make_fit(1);
    make_fit(2);
    make_fit(3);
    walls[1].thickness_to_buy = 0.08;
    walls[1].thickest_sold = 0.2;
    walls[2].thickest_sold = 0.05;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Made to fit: south: bay 62.5 mm (to buy 80); west: bay 62.5 "
                  "mm (none as thick is sold); east: bay 62.5 mm.");
    print_walls(BW_EXTENT_FULL); /* there each has its own */
    says_if(false, "Made to fit");
    says_if(true, "east: bay (Batt) made 62.5 mm");
}
END_TEST

/* ---- a line a wall --------------------------------------------------------
 */

/* By months: both ways, outwards, inwards; what was not reached is "never",
 * what is not known "-". Simulated, of those rows that are simulated. */
START_TEST(a_line_says_how_each_wall_dries)
{
    order[0] = 2;
    order[2] = 0;
    known[1][0] = known[2][0] = known[0][1] = false;
    instead[1][0] = "not in 10 years";
    instead[2][0] = "not assessed";
    instead[0][1] = "not in 12 months";
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, " 1.2 / never / - ");
    says_if(true, " never / 12.2 / 13.2 ");
    says_if(true, " 21.2 / 22.2 / 23.2 ");
    const char *first = strstr(flat.text, "21.2 / 22.2");
    const char *last = strstr(flat.text, "1.2 / never");
    ck_assert_ptr_nonnull(first);
    ck_assert(first < last); /* the best first */
    comparison.simulated = true;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "4.2 / ");
    says_if(true, " 34.2 "); /* of the fourth */
}
END_TEST

START_TEST(a_line_says_what_decides_each_wall)
{
    walls[1].verdict = BW_FAILS;
    decides[1].value = 0.8125;
    decides[2].has_value = false;
    assessed[3].deciding = NULL;
    walls[3].transmittance = 0.34375;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, " fails annual balance");
    says_if(true, "812");
    says_if(true, "562");
    says_if(true, " 0.344 ");
    size_t said = 0;
    for (const char *at = flat.text;
         (at = strstr(at, "annual balance 5")) != NULL; at++)
        said++;
    ck_assert_uint_eq(said, 1); /* of the first alone */
}
END_TEST

START_TEST(a_line_names_the_stresses_that_are_lost)
{
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "3 of 3 none");
    stressed[0][1].verdict = BW_FAILS;
    stressed[1][1].verdict = BW_MARGINAL;
    stressed[2][1].verdict = BW_NOT_ASSESSED;
    stressed[1][3].verdict = BW_FAILS;
    stressed[2][3].applies = false;
    stressed[2][3].verdict = BW_FAILS;
    walls[1].not_held = 2;
    walls[3].not_held = 1;
    walls[3].stresses = 2;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "1 of 3 air leak, damp room");
    says_if(true, "1 of 2 rain leak");
    says_if(false, "rain leak, damp room");
}
END_TEST

/* Of three walls a column each, of four a line each. */
START_TEST(three_walls_stand_in_columns)
{
    comparison.wall_count = 3;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, " the best first");
    says_if(true, "same stress");
    comparison.wall_count = 4;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "same stress");
    print_walls(BW_EXTENT_FULL);
    says_if(true, "same stress");
    comparison.stress_count = 0;
    print_walls(BW_EXTENT_FULL);
    says_if(false, "same stress");
}
END_TEST

/* ---- which wall ------------------------------------------------------------
 */

START_TEST(a_wall_that_loses_stresses_says_which)
{
    comparison.wall_count = 2;
    walls[1].because = BW_BECAUSE_STRESSES;
    walls[1].not_held = 2;
    walls[0].not_held = 1;
    walls[0].stresses = 2;
    stressed[0][1].verdict = BW_FAILS;
    stressed[0][0].verdict = BW_FAILS; /* the best loses it, too */
    stressed[1][1].verdict = BW_FAILS;
    stressed[2][1].verdict = BW_FAILS;
    stressed[2][0].verdict = BW_FAILS;
    stressed[2][0].applies = false;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Which wall: north, since south holds 1 of 3 stresses, north "
                  "1 of 2 (south loses: rain leak, damp room).");
    stressed[1][1].applies = false;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "(south loses: damp room).");
}
END_TEST

START_TEST(a_wall_nearer_to_its_limits_says_how_near)
{
    comparison.wall_count = 2;
    walls[1].because = BW_BECAUSE_RESERVE;
    walls[0].worst_margin = 0.5625;
    walls[1].worst_margin = _i == 0 ? 0.3125 : _i == 1 ? -0.3125 : 0.0;
    print_walls(BW_EXTENT_SCREEN);
    says_if(_i == 0, "since south comes nearer to a limit: at worst 31 % of "
                     "the limit to spare, north 56 % of the limit to spare.");
    says_if(_i == 1, "since south goes further past a limit: at worst 31 % "
                     "beyond the limit, north 56 % of the limit to spare.");
    says_if(_i == 2, "since south comes nearer to a limit: at worst 0 % of the "
                     "limit to spare, north 56 % of the limit to spare.");
}
END_TEST

static const struct verdict_row {
    bw_verdict verdict;
    double margin;
    bool never, has_limit, airless;
    const char *says;
} verdict_rows[] = {
    {BW_FAILS, -0.125, false, true, false,
     "since south fails (Annual balance 562 g/m2, limit 438)."},
    {BW_FAILS, -0.125, false, true, true,
     "limit 438), without its leaking air, too."},
    {BW_FAILS, 0.125, false, true, false,
     "since south fails (Annual balance: it grows year by year)."},
    {BW_FAILS, 0.0, false, true, false,
     "since south fails (Annual balance 562 g/m2, limit 438)."},
    {BW_FAILS, -0.125, false, false, false, "since south fails."},
    {BW_MARGINAL, 0.125, false, true, false,
     "since south is only marginal (Annual balance 562 g/m2, limit 438)."},
    {BW_NOT_ASSESSED, -0.125, false, true, false,
     "since south is not assessed."},
};

START_TEST(a_worse_verdict_says_what_decides_it)
{
    const struct verdict_row *row = &verdict_rows[_i];
    comparison.wall_count = 2;
    walls[1].because = BW_BECAUSE_VERDICT;
    walls[1].verdict = decides[1].verdict = row->verdict;
    walls[1].fails_airless = row->airless;
    decides[1].margin = row->margin;
    decides[1].has_limit = row->has_limit;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, row->says);
}
END_TEST

/* All verdicts, by how many are best. */
static const struct which_row {
    size_t best, walls;
    bw_verdict all;
    bool simulated;
    const char *says, *again;
} which_rows[] = {
    {0, 2, BW_FAILS, true, "Which wall: none of them, since north fails (",
     "Which wall: none of them. "},
    {0, 2, BW_NOT_ASSESSED, true,
     "Which wall: not known, none of them is assessed.",
     "Which wall: none of them is known to hold."},
    {0, 2, BW_NOT_ASSESSED, false,
     "none of them is assessed without a simulation.",
     "Which wall: none of them is known to hold."},
    {2, 2, BW_HOLDS, true,
     "Which wall: no difference that these figures can show.",
     "Which wall: no difference that these figures can show."},
    {2, 3, BW_HOLDS, true, "Which wall: north or south, since west fails (",
     "Which wall: north or south."},
    {3, 4, BW_HOLDS, true,
     "Which wall: north, south or west, since east fails (",
     "Which wall: north, south or west."},
    {1, 4, BW_HOLDS, true, "Which wall: north, since 3 fail.",
     "Which wall: north."},
};

START_TEST(the_answer_follows_from_how_many_are_best)
{
    const struct which_row *row = &which_rows[_i];
    comparison.wall_count = row->walls;
    comparison.best_count = row->best;
    comparison.simulated = row->simulated;
    for (size_t i = 0; i < row->walls; i++) {
        walls[i].verdict = i < row->best   ? row->all
                           : row->best > 0 ? BW_FAILS
                                           : row->all;
        walls[i].because = BW_BECAUSE_VERDICT;
    }
    print_walls(BW_EXTENT_FULL);
    says_if(true, row->says);
    says_if(true, row->again);
}
END_TEST

/* Of more than two others only how many do what. */
START_TEST(many_others_are_counted_by_what_they_do)
{
    for (size_t i = 1; i < WALLS; i++)
        walls[i].because = BW_BECAUSE_VERDICT;
    walls[1].verdict = BW_MARGINAL;
    walls[2].verdict = BW_NOT_ASSESSED;
    walls[3].because = BW_BECAUSE_RESERVE;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Which wall: north, since 1 are not assessed, 1 are only "
                  "marginal, 1 come nearer to a limit.");
    walls[2].because = BW_BECAUSE_STRESSES;
    walls[1].verdict = BW_FAILS;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Which wall: north, since 1 fail, 1 hold fewer of the "
                  "stresses, 1 come nearer to a limit.");
    comparison.best_count = 2;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "since west holds 3 of 3 stresses, north 3 of 3 (west "
                  "loses); east comes nearer");
}
END_TEST

START_TEST(walls_with_and_without_leaking_air_are_not_compared)
{
    comparison.unlike_air = true;
    comparison.airless = 2;
    comparison.aired = 1;
    print_walls(BW_EXTENT_FULL);
    says_if(true, "Which wall: not comparable: west counts no leaking air, "
                  "south does");
    says_if(true, "Which wall: not comparable.");
}
END_TEST

START_TEST(each_in_its_own_climate_is_said)
{
    comparison.climates_differ = _i == 1;
    comparison.indoors_differ = _i == 2;
    print_walls(BW_EXTENT_SCREEN);
    says_if(_i > 0, "Which wall, each in its own climate and room:");
}
END_TEST

/* ---- the tables ------------------------------------------------------------
 */

/* A row of what decides, between those of how each dries. */
static bw_criterion judged[WALLS];
static const bw_criterion *judged_as[WALLS];
static bw_verdict judged_verdict[WALLS];

static void judge_row(size_t k, const char *name)
{
    for (size_t i = 0; i < WALLS; i++) {
        judged[i] = decides[i];
        judged[i].criterion = name;
        judged[i].outcome = judged[i].verdict;
        judged_as[i] = &judged[i];
        judged_verdict[i] = judged[i].verdict;
    }
    rows[k].name = name;
    rows[k].title = "Annual balance";
    rows[k].unit = "kg/m2";
    rows[k].is_criterion = true;
    rows[k].criterion = judged_as;
    rows[k].verdict = judged_verdict;
}

/* What decides somewhere stands first, and what decides nowhere not at all. */
START_TEST(what_decides_stands_before_how_walls_dry)
{
    comparison.wall_count = 2;
    comparison.simulated = true;
    judge_row(1, "annual-balance");
    rows[1].by_months = false;
    print_walls(BW_EXTENT_SCREEN);
    const char *row = strstr(flat.text, "Annual balance g/m2");
    ck_assert_msg(row != NULL, "%.2500s", flat.text);
    const char *dries = strstr(flat.text, "To dry, both ways");
    ck_assert_ptr_nonnull(dries);
    ck_assert(row < dries);
    says_if(true, "438 fails: 2250 fails: 12250"); /* its limit, both figures */
    assessed[0].deciding = NULL;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Annual balance g/m2");
    assessed[1].deciding = NULL;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "Annual balance g/m2");
}
END_TEST

static const struct cell_row {
    bool decides, screening, by_months, reason;
    const char *says, *not ;
} cell_rows[] = {
    {true, false, false, false, "fails: 2250 ", "fails (screening)"},
    {true, false, true, false, "fails: 2250 ", "fails (screening)"},
    {true, false, true, true, "fails (screening): 2250 ", "fails: 2250"},
    {true, false, false, true, "fails: 2250 ", "fails (screening)"},
    {true, true, true, true, "fails (screening): 2250 ",
     "(screening) (screening)"},
};

/* By months where a wall could not be simulated every figure is a screening. */
START_TEST(a_cell_says_whether_it_is_a_screening)
{
    const struct cell_row *row = &cell_rows[_i];
    comparison.wall_count = 2;
    judge_row(1, "annual-balance");
    rows[1].by_months = row->by_months;
    for (size_t i = 0; i < WALLS; i++) {
        judged[i].screening = row->screening;
        assessed[i].verdict = BW_HOLDS; /* no other words of a screening */
    }
    comparison.by_months_reason = row->reason ? "North has no rain" : NULL;
    print_walls(BW_EXTENT_FULL);
    says_if(true, row->says);
    says_if(false, row->not );
}
END_TEST

/* One that decides of another wall is only shown of this one. */
START_TEST(what_decides_of_another_wall_is_shown_only)
{
    comparison.wall_count = 2;
    judge_row(1, "annual-balance");
    judged[1].decides = false;
    print_walls(BW_EXTENT_FULL);
    says_if(true, "fails: 2250 fails, shown only: 12250");
    says_if(false, "(shown only)");
    judged[0].decides = false;
    print_walls(BW_EXTENT_FULL);
    says_if(true, "(shown only)");
    says_if(false, "fails, shown only");
    judged_as[1] = NULL;
    known[1][1] = false;
    instead[1][1] = "no such layer";
    print_walls(BW_EXTENT_FULL);
    says_if(true, "fails: 2250 no such layer");
}
END_TEST

/* Key numbers and criteria, then those by months, each row in one of them. */
START_TEST(each_row_stands_in_one_table)
{
    comparison.wall_count = 2;
    judge_row(1, "annual-balance");
    print_walls(BW_EXTENT_FULL);
    const char *table = strstr(flat.text, "Key numbers and criteria");
    ck_assert_ptr_nonnull(table);
    const char *months = strstr(table, "By months (Glaser, ISO 13788)");
    const char *simulated = strstr(table, "simulated-months-to-dry months");
    const char *dry = strstr(table, " months-to-dry months");
    const char *inwards = strstr(table, "months-to-dry-inwards months");
    const char *balance = strstr(table, "Annual balance g/m2");
    ck_assert(months != NULL && simulated != NULL && dry != NULL &&
              inwards != NULL && balance != NULL);
    ck_assert(table < simulated && simulated < months);
    ck_assert(months < dry && dry < inwards && inwards < balance);
    ck_assert_ptr_null(strstr(dry + 1, " months-to-dry months"));
    ck_assert_ptr_null(strstr(balance + 1, "Annual balance g/m2"));
}
END_TEST

/* With its setting where that reads the same for all it applies to. */
START_TEST(a_stress_is_named_by_its_setting)
{
    comparison.wall_count = 2;
    stresses[0].title = "A leaking joint";
    stressed[0][0].setting = stressed[0][1].setting = "q50 of 5";
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Q50 of 5 holds holds");
    says_if(false, "A leaking joint");
    stressed[0][1].setting = "q50 of 7";
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "A leaking joint holds holds");
    stressed[0][0].applies = false;
    stressed[0][0].setting = "";
    stressed[0][0].reason = "no such joint";
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Q50 of 7 no such joint holds");
    stressed[0][0].applies = true;
    stressed[0][0].setting = "q50 of 7";
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Q50 of 7 not assessed: no such joint holds");
    stressed[0][0].reason = "";
    stressed[0][0].verdict = BW_NOT_ASSESSED;
    stressed[0][0].outcome = BW_FAILS;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Q50 of 7 not assessed (would fail) holds");
    stressed[0][0].outcome = BW_NOT_ASSESSED;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Q50 of 7 not assessed holds");
    stressed[0][0].verdict = BW_FAILS;
    stressed[0][0].figure = (bw_figure){
        .criterion = "some-row", .value = 7.25, .limit = 3.5, .unit = "-"};
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "fails: some row 7.25 (limit 3.5) holds");
    stressed[0][0].verdict = BW_MARGINAL;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "marginal: some row 7.25 holds");
    stressed[0][0].figure.value = (double)NAN;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "marginal holds");
}
END_TEST

START_TEST(what_is_not_the_same_for_all_is_said)
{
    static const char *const unlike[] = {"The outdoor climates differ.",
                                         "Sun and sky differ."};
    comparison.wall_count = 3;
    comparison.difference = unlike;
    print_walls(BW_EXTENT_FULL);
    says_if(false, "Not like with like");
    says_if(false, "Not the same for all:");
    comparison.difference_count = 2;
    print_walls(BW_EXTENT_FULL);
    says_if(true, "Not like with like: climates, sun and sky.");
    says_if(true, "Not the same for all: The outdoor climates differ. Sun and");
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Not like with like: climates, sun and sky.");
    says_if(false, "Not the same for all:");
    static bw_assembly airy;
    airy = wall.assembly;
    airy.air_leakage.given = true;
    assessed[1].assembly = &airy;
    comparison.difference_count = 0;
    print_walls(BW_EXTENT_SCREEN);
    says_if(true, "Not like with like: No leaking air is counted in north, "
                  "west.");
}
END_TEST

/* Of what year, once for all that say the same. */
START_TEST(the_year_is_said_once)
{
    static bw_section_assessment simulated[WALLS];
    comparison.wall_count = 3;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "Simulated on");
    for (size_t i = 0; i < WALLS; i++) {
        simulated[i] = wall.checked;
        simulated[i].has_transient = true;
        simulated[i].transient.synthetic_climate = i != 1;
        assessed[i].section = &simulated[i];
    }
    wall.climate.year_kind = BW_YEAR_TYPICAL;
    print_walls(BW_EXTENT_SCREEN);
    for (size_t i = 0; i < 2; i++) {
        const char *words = i == 0 ? "Simulated on hours generated"
                                   : "Simulated on a typical year";
        const char *at = strstr(flat.text, words);
        ck_assert_msg(at != NULL, "no %s in %.2500s", words, flat.text);
        ck_assert_ptr_null(strstr(at + 1, words));
    }
    simulated[1].has_transient = false;
    print_walls(BW_EXTENT_SCREEN);
    says_if(false, "Simulated on a typical year");
}
END_TEST

START_TEST(below_the_tables_stands_what_they_hold)
{
    comparison.wall_count = 2;
    judge_row(1, "annual-balance");
    print_walls(BW_EXTENT_FULL);
    says_if(false, "*: each wall has a limit of its own.");
    says_if(false, "Each figure is that of the wall's worst section");
    judged[1].limit = 0.625;
    assessed[1].section_count = 2;
    static bw_section_assessment two[2];
    two[0] = two[1] = wall.checked;
    assessed[1].section = two;
    print_walls(BW_EXTENT_FULL);
    says_if(true, "*: each wall has a limit of its own.");
    says_if(true, "Annual balance g/m2 * fails");
    says_if(true, "Each figure is that of the wall's worst section");
}
END_TEST

SUITE_AROUND("compare_many", compare_setup, NULL,
             EACH(what_is_held_equal_is_said_of_the_first_wall, 3),
             FACT(a_wall_made_to_fit_says_how),
             FACT(of_many_walls_what_was_made_to_fit_is_one_line),
             FACT(a_line_says_how_each_wall_dries),
             FACT(a_line_says_what_decides_each_wall),
             FACT(a_line_names_the_stresses_that_are_lost),
             FACT(three_walls_stand_in_columns),
             FACT(a_wall_that_loses_stresses_says_which),
             EACH(a_wall_nearer_to_its_limits_says_how_near, 3),
             EACH(a_worse_verdict_says_what_decides_it, COUNT(verdict_rows)),
             EACH(the_answer_follows_from_how_many_are_best, COUNT(which_rows)),
             FACT(many_others_are_counted_by_what_they_do),
             FACT(walls_with_and_without_leaking_air_are_not_compared),
             EACH(each_in_its_own_climate_is_said, 3),
             FACT(what_decides_stands_before_how_walls_dry),
             EACH(a_cell_says_whether_it_is_a_screening, COUNT(cell_rows)),
             FACT(what_decides_of_another_wall_is_shown_only),
             FACT(each_row_stands_in_one_table),
             FACT(a_stress_is_named_by_its_setting),
             FACT(what_is_not_the_same_for_all_is_said),
             FACT(the_year_is_said_once),
             FACT(below_the_tables_stands_what_they_hold))
