/* Margin: which way a flip goes, and which unknowns a wall has. Every claim
 * about a range is proved by assessing the wall with a value of it, without
 * the margin's own code. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/margin.h"
#include "criteria_case.h"
#include "margin/case.h"
#include "margin/study.h"
#include "one_document.h"
#include "paper.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case c;
static bw_uncertain range[1];
static bw_margin *m;
static paper sheet;
static const bw_profile *profile; /* rule set; NULL: the default */

static void setup(void)
{
    case_make(&c);
    m = NULL;
    profile = NULL;
}

static void teardown(void)
{
    bw_margin_free(m);
    case_free(&c);
}

static void make(bool simulate)
{
    bw_error err = {0};
    bw_margin_options options = {
        .assessment = {.no_transient = !simulate, .profile = profile}};
    bw_margin_free(m);
    m = NULL;
    ck_assert_msg(bw_margin_make(&m, &c.assembly, &c.climate, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
}

static void vary(size_t layer, const char *property, double low, double high)
{
    range[0] = (bw_uncertain){property, low, high};
    c.layer[layer].uncertain = range;
    c.layer[layer].uncertain_count = 1;
}

static const bw_unknown *find(const char *words)
{
    for (size_t i = 0; i < m->unknown_count; i++)
        if (strstr(m->unknown[i].name, words) != NULL)
            return &m->unknown[i];
    return NULL;
}

static const char *text_of(void)
{
    paper_clear(&sheet);
    ck_assert_int_eq(
        margin_report(BW_FORM_TEXT, m, NULL, paper_take, &sheet, NULL), BW_OK);
    paper_fits(sheet.text, 100);
    return sheet.text;
}

/* How many criteria fail in the wall as it stands; *fails: does this one? */
static size_t assess(const char *criterion, bool *fails)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = {
        .no_transient = true, .no_advice = true, .profile = profile};
    size_t n = 0;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    *fails = false;
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *row = &a->criterion[i];
        bool failed = row->decides && row->outcome == BW_FAILS;
        n += failed;
        if (strcmp(row->criterion, criterion) == 0)
            *fails = *fails || failed;
    }
    bw_assessment_free(a);
    return n;
}

/* ---- a layer that follows humidity -------------------------------------- */

/* A membrane with this sd when dry and when humid, of which a range of sd is
 * unsure. The walls are ours; what flips is asked of the assessment. */
static const struct membrane_row {
    double dry, humid, low, high;
    bool all, fails, above, changes;
    const char *words;
} membranes[] = {
    /* holds as drawn: an open one fails */
    {10.0, 0.2, 0.1, 20.0, false, true, false, true, "below 1.9"},
    {10.0, 4.0, 0.05, 3.0, false, true, false, true, "below 1.9"},
    /* fails as drawn, being open: a tight one holds */
    {0.01, 0.005, 0.05, 30.0, false, false, true, true, "above 1.9"},
    {0.01, 0.005, 3.0, 30.0, true, false, false, true,
     "anywhere from 3 m to 30 m: "},
    /* holds as drawn: no open one does */
    {10.0, 0.2, 0.02, 0.3, true, true, false, true,
     "anywhere from 0.02 m to 0.3 m: "},
    /* holds as drawn, and at every value */
    {10.0, 4.0, 4.0, 9.0, false, false, false, false, ""},
};
static const double humidity[] = {0.25, 0.9};

static void hold(double sd)
{
    c.layer[CASE_FOIL].uncertain_count = 0;
    c.material[CASE_FOIL].sd_curve.count = 0;
    c.material[CASE_FOIL].sd = case_value(sd);
}

START_TEST(a_flip_of_a_layer_without_one_value_goes_the_way_it_says)
{
    const struct membrane_row *row = &membranes[_i];
    profile = profile_named(
        "de-din4108"); /* which the period balance decides */
    double curve[] = {row->dry, row->humid};
    bool drawn_fails, fails;
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = humidity, .y = curve, .source = "test", .note = ""};
    vary(CASE_FOIL, "sd", row->low, row->high);
    make(false);
    const bw_unknown *u = find("sd of foil");
    ck_assert(isnan(u->as_drawn) && u->continuous);
    ck_assert_int_eq(u->flips, row->changes);
    ck_assert_int_eq(u->flips_all, row->all);
    if (!u->flips)
        return;
    HAS(text_of(), "Flips first ");
    HAS(sheet.text, row->words);
    char criterion[64];
    snprintf(criterion, sizeof criterion, "%.*s",
             (int)strcspn(u->flip_criterion, " "), u->flip_criterion);
    size_t drawn = assess(criterion, &drawn_fails);
    ck_assert_int_eq(u->flip_fails, row->fails);
    ck_assert_int_eq(drawn_fails, !row->fails);
    ck_assert_int_eq(u->flip_changes_verdict, row->changes);
    ck_assert_double_eq(u->flip_share, 1.0);
    const double step = row->above ? 1.01 : 1.0 / 1.01;
    const double at[] = {row->all ? row->low : u->flip_value * step,
                         row->all ? row->high : u->flip_value * step};
    if (!row->all)
        ck_assert_int_eq(u->flip_above, row->above);
    for (size_t i = 0; i < 2; i++) {
        hold(at[i]);
        size_t n = assess(criterion, &fails);
        ck_assert_int_eq(fails, row->fails);
        ck_assert_int_eq((n == 0) != (drawn == 0), row->changes);
    }
}
END_TEST

/* ---- switches with two settings ------------------------------------------ */

static const struct cup_row {
    double dry, wet, flips_at;
    const char *says;
} cups[] = {
    {20.0, 20000.0, 20.0, "with \"mu of panel dry-cup (20)\""},
    {20000.0, 20.0, 20000.0, "with \"mu of panel dry-cup (20000)\""},
};

START_TEST(a_switch_that_flips_is_named_by_its_setting)
{
    char criterion[64];
    bool drawn, fails;
    c.assembly.indoors.humidity_class = 5; /* no step up */
    c.material[CASE_SHEATHING].mu_dry = case_value(cups[_i].dry);
    c.material[CASE_SHEATHING].mu_wet = case_value(cups[_i].wet);
    c.material[CASE_FOIL].sd = case_value(100.0);
    make(false);
    const bw_unknown *u = find("mu of panel");
    ck_assert(u != NULL && !u->continuous && u->flips);
    ck_assert_double_eq(u->flip_value, cups[_i].flips_at);
    HAS(text_of(), cups[_i].says);
    snprintf(criterion, sizeof criterion, "%.*s",
             (int)strcspn(u->flip_criterion, " "), u->flip_criterion);
    assess(criterion, &drawn);
    c.material[CASE_SHEATHING].mu_dry = c.material[CASE_SHEATHING].mu_wet =
        case_value(u->flip_value);
    assess(criterion, &fails);
    ck_assert_int_eq(fails, u->flip_fails);
    ck_assert_int_eq(drawn, !u->flip_fails);
}
END_TEST

/* Which of the cups is the higher must not exchange their verdicts. */
START_TEST(the_verdicts_of_a_switch_are_those_of_walls_with_either_value)
{
    bool fails;
    c.assembly.indoors.humidity_class = 2;
    c.material[CASE_SHEATHING].mu_dry = case_value(cups[_i].dry);
    c.material[CASE_SHEATHING].mu_wet = case_value(cups[_i].wet);
    make(false);
    const bw_unknown *u = find("mu of panel");
    ck_assert_double_lt(u->low, u->high);
    const double at[] = {u->low, u->high};
    const bw_verdict said[] = {u->verdict_low, u->verdict_high};
    size_t n[2];
    for (size_t i = 0; i < 2; i++) {
        c.material[CASE_SHEATHING].mu_dry = c.material[CASE_SHEATHING].mu_wet =
            case_value(at[i]);
        n[i] = assess("", &fails);
        ck_assert_int_eq(said[i] == BW_FAILS, n[i] > 0);
    }
    ck_assert((n[0] > 0) != (n[1] > 0)); /* or nothing were shown */
}
END_TEST

/* ---- ranges at their edges ---------------------------------------------- */

static const struct edge_row {
    const char *property;
    double low, high;
} edges[] = {
    {"mu", 50.0, 50.0}, /* as drawn is 50 */
    {"mu", 80.0, 80.0}, /* no width, beside as drawn */
    {"resistance", 0.0, 0.0},
    {"resistance", 0.0, 9.0}, /* from nothing: no logarithm */
    {"thickness", 0.001, 0.5},
    {"lambda", 0.001, 400.0},
    {"density", 1.0, 12000.0},
};

START_TEST(a_range_of_any_width_gives_numbers)
{
    const struct edge_row *row = &edges[_i];
    vary(CASE_SHEATHING, row->property, row->low, row->high);
    make(false);
    const bw_unknown *u = find(row->property);
    ck_assert_ptr_nonnull(u);
    ck_assert_uint_ge(u->sample_count, 1);
    for (size_t i = 0; i < u->sample_count; i++) {
        ck_assert(isfinite(u->sample[i]));
        ck_assert(i == 0 || u->sample[i] >= u->sample[i - 1]);
    }
    ck_assert(!u->flips || (u->flip_share >= 0.0 && u->flip_share <= 1.0));
    if (row->low >= row->high && row->low >= u->as_drawn)
        ck_assert_int_eq(u->verdict_high, u->verdict_low);
    text_of();
}
END_TEST

/* ---- which unknowns there are ------------------------------------------- */

static bw_alternative other;
static bw_material plywood;

static void heat(void)
{
    vary(CASE_SHEATHING, "specific-heat", 1000, 2000);
}

static void of_no_property(void)
{
    vary(CASE_SHEATHING, "colour", 1, 2);
}

static void no_air(void)
{
    c.assembly.air_leakage = (bw_air_leakage){.given = true};
}

static void rain_leaks(double share)
{
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    c.assembly.rain_leak = (bw_rain_leak){.given = true, .fraction = share};
}

static void much_rain_leaks(void)
{
    rain_leaks(0.01);
}

static void little_rain_leaks(void)
{
    rain_leaks(0.004);
}

static void room_of_en15026(void)
{
    c.assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026};
}

static void full_room_of_en15026(void)
{
    c.assembly.indoors = (bw_indoors){.kind = BW_INDOOR_EN15026,
                                      .en15026_high = true};
}

static void room_of_rh(void)
{
    c.assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 20.0, .relative_humidity = 0.455};
}

static void room_of_months(void)
{
    c.assembly.indoors = (bw_indoors){.kind = BW_INDOOR_MONTHS};
    for (int k = 0; k < BW_MONTHS; k++) {
        c.assembly.indoors.month_temperature[k] = 20.0;
        c.assembly.indoors.month_vapour_pressure[k] = 1000.0;
    }
}

static void replaced(double thickness)
{
    plywood = case_material("plywood", "board", 500, 0.13, 70, true);
    other = (bw_alternative){&plywood, thickness};
    c.layer[CASE_SHEATHING].alternative = &other;
    c.layer[CASE_SHEATHING].alternative_count = 1;
}

static void replaced_by_a_board(void)
{
    replaced(0.0125);
}

static void replaced_as_thick(void)
{
    replaced(0.0);
}

static void long_name(void)
{
    c.layer[CASE_LINING].name = "Gypsum board , fire rated (12 mm)";
    c.layer[CASE_LINING].id = "lining";
    c.material[CASE_LINING].mu_wet = case_value(4);
}

static void name_with_its_id(void)
{
    c.layer[CASE_LINING].name = "the lining, white";
    c.layer[CASE_LINING].id = "lining";
    c.material[CASE_LINING].mu_wet = case_value(4);
}

static void framed(void)
{
    c.stud.mu_wet = case_value(20);
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
}

static void mu_said_twice(void)
{
    c.material[CASE_SHEATHING].mu_wet = case_value(20);
    vary(CASE_SHEATHING, "mu", 20, 60);
}

static void known_by_one_cup(void)
{
    c.material[CASE_LINING].mu_wet.known = false;
}

static const struct unknown_row {
    void (*change)(void);
    const char *name;
    bool there, seen;
} unknown_rows[] = {
    {heat, "specific-heat of panel", true, false},
    {of_no_property, "colour", false, false},
    {no_air, "air leakage", false, false},
    {much_rain_leaks, "driving rain", false, false},
    {little_rain_leaks, "1 % of the driving rain leaks in", true, false},
    {room_of_en15026, "indoor humidity of high occupancy", true, true},
    {full_room_of_en15026, "indoor humidity", false, false},
    {room_of_rh, "indoor air at 55.5 % RH instead of 45.5 %", true, true},
    {room_of_months, "indoor air 10 points of RH damper", true, true},
    {replaced_by_a_board, "panel: plywood 12.5 mm", true, true},
    {replaced_as_thick, "panel: plywood", true, true},
    {replaced_as_thick, "plywood 0", false, false},
    {long_name, "mu of lining (Gypsum board)", true, true},
    {name_with_its_id, "mu of the lining", true, true},
    {framed, "mu of the framing (softwood)", true, true},
    {mu_said_twice, "mu of panel", true, true},
    {known_by_one_cup, "mu of plasterboard", false, false},
};

START_TEST(a_wall_has_the_unknowns_that_are_its_own)
{
    const struct unknown_row *row = &unknown_rows[_i];
    row->change();
    make(false);
    const bw_unknown *u = find(row->name);
    ck_assert_msg((u != NULL) == row->there, "%s", row->name);
    if (u == NULL)
        return;
    ck_assert_int_eq(u->seen, row->seen);
    ck_assert_int_eq(u->note[0] != '\0' && !u->seen, !row->seen);
    HAS(text_of(), "What flips first: ");
}
END_TEST

START_TEST(a_range_of_mu_stands_for_both_cups)
{
    mu_said_twice();
    make(false);
    size_t n = 0;
    for (size_t i = 0; i < m->unknown_count; i++)
        n += strstr(m->unknown[i].name, "mu of panel") != NULL;
    ck_assert_uint_eq(n, 1);
}
END_TEST

/* A simulation that is asked for and not to be had: no verdict by months. */
START_TEST(a_wall_that_cannot_be_simulated_says_so_and_has_no_verdict)
{
    static bw_layer alone[3];
    memcpy(alone, c.layer + 1, sizeof alone);
    c.assembly.layer = alone; /* without the panel there is no timber */
    c.assembly.layer_count = 3;
    make(true);
    ck_assert(m->transient);
    const char *text = text_of();
    HAS(text, "The wall as drawn was not simulated: the climate has no hours");
    HAS(text, "As drawn: not assessed");
    ck_assert_int_eq(m->damp.holds, 0);
    HAS_NOT(text, "Computed with the hourly simulation, too.");
    ck_assert_uint_eq(m->points, 5);
}
END_TEST

/* ---- what a case says --------------------------------------------------- */

static bw_criterion judged(const char *criterion, const char *section,
                           bw_verdict outcome)
{
    return (bw_criterion){.section = section,
                          .criterion = criterion,
                          .decides = true,
                          .outcome = outcome,
                          .verdict = outcome,
                          .has_value = true,
                          .has_limit = true,
                          .limit = 2.0,
                          .margin = 1.0};
}

static const struct case_row {
    bw_verdict first, second;
    bw_verdict want;
} case_rows[] = {
    {BW_HOLDS, BW_HOLDS, BW_HOLDS},
    {BW_HOLDS, BW_MARGINAL, BW_MARGINAL},
    {BW_MARGINAL, BW_FAILS, BW_FAILS},
    {BW_HOLDS, BW_NOT_ASSESSED, BW_NOT_ASSESSED},
    {BW_NOT_ASSESSED, BW_FAILS, BW_FAILS},
    {BW_NOT_ASSESSED, BW_NOT_ASSESSED, BW_NOT_ASSESSED},
};

START_TEST(the_worst_row_is_the_verdict_and_a_gap_is_no_hold)
{
    bw_criterion row[2] = {
        judged("annual-balance", "whole", case_rows[_i].first),
        judged("surface-mould", "through-stud", case_rows[_i].second)};
    bw_assessment a = {.criterion_count = 2, .criterion = row};
    bw_case got;
    bw_case_of(&got, &a);
    ck_assert_int_eq(got.verdict, case_rows[_i].want);
}
END_TEST

START_TEST(rows_that_do_not_count_are_no_verdict)
{
    bw_criterion row[] = {judged("annual-balance", "whole", BW_FAILS),
                          judged("of another program", "whole", BW_FAILS),
                          judged("transient", "whole", BW_NOT_ASSESSED)};
    row[0].decides = false;
    bw_assessment a = {.criterion_count = 3, .criterion = row};
    bw_case got;
    bw_case_of(&got, &a);
    ck_assert_int_eq(got.verdict, BW_NOT_ASSESSED);
    ck_assert_uint_eq(got.fails, 0);
    ck_assert(isnan(got.worst));
    ck_assert_uint_eq(bw_case_worst_key(&got), BW_CASE_KEYS);
    ck_assert_str_eq(bw_key_words(&c.arena, BW_CASE_KEYS), "");
}
END_TEST

START_TEST(a_margin_is_a_share_of_its_limit_and_of_a_tenth_without_one)
{
    static const struct {
        double limit, margin, want;
        bool has_value, has_limit;
    } cases[] = {
        {2.0, 1.0, 0.5, true, true},
        {-2.0, 1.0, 0.5, true, true},
        {0.0, -0.05, -0.5, true, true},
        {0.0, 0.0, (double)NAN, true, true},
        {2.0, 1.0, (double)NAN, false, true},
        {2.0, 1.0, (double)NAN, true, false},
    };
    bw_criterion row = judged("annual-balance", "whole", BW_HOLDS);
    row.limit = cases[_i].limit;
    row.margin = cases[_i].margin;
    row.has_value = cases[_i].has_value;
    row.has_limit = cases[_i].has_limit;
    bw_assessment a = {.criterion_count = 1, .criterion = &row};
    bw_case got;
    bw_case_of(&got, &a);
    if (isnan(cases[_i].want))
        ck_assert(isnan(got.worst));
    else
        ck_assert_double_eq_tol(got.worst, cases[_i].want, 1e-12);
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

SUITE_AROUND("margin_ways", setup, teardown,
             EACH(a_flip_of_a_layer_without_one_value_goes_the_way_it_says,
                  ROWS(membranes)),
             EACH(a_switch_that_flips_is_named_by_its_setting, ROWS(cups)),
             EACH(the_verdicts_of_a_switch_are_those_of_walls_with_either_value,
                  ROWS(cups)),
             EACH(a_range_of_any_width_gives_numbers, ROWS(edges)),
             EACH(a_wall_has_the_unknowns_that_are_its_own, ROWS(unknown_rows)),
             FACT(a_range_of_mu_stands_for_both_cups),
             FACT(a_wall_that_cannot_be_simulated_says_so_and_has_no_verdict),
             EACH(the_worst_row_is_the_verdict_and_a_gap_is_no_hold,
                  ROWS(case_rows)),
             FACT(rows_that_do_not_count_are_no_verdict),
             EACH(a_margin_is_a_share_of_its_limit_and_of_a_tenth_without_one,
                  6))
