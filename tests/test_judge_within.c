/* The hours of a junction at the limits of walls, and what keeps one from
 * holding: results made by hand. */

#include <math.h>
#include <string.h>

#include "criteria/judge.h"
#include "criteria/verdict.h"
#include "has_words.h"
#include "suite.h"

typedef struct made {
    bw_arena arena;
    bw_rows rows;
    bw_material stuff;
    bw_hour_place place[3];
    bw_hour_wood wood[2];
    const char *unseen[1];
    bw_junction_hours hours;
    bw_junction_water water;
} made;

static made m;

static bw_hour_place face(double x, bool room)
{
    return (bw_hour_place){.x = x,
                           .y = 0.05,
                           .room = room,
                           .beside = {"old brick", room ? "kitchen" : "fibre"},
                           .at_risk = !room,
                           .dampest = 1,
                           .settled = true,
                           .free_month = -1};
}

static void make(void)
{
    bw_arena_release(&m.arena);
    memset(&m, 0, sizeof m);
    m.stuff = (bw_material){.wood_kind = BW_SOLID_WOOD};
    m.place[0] = face(0.1, false);
    m.place[1] = face(0.2, false);
    m.place[2] = face(0.3, true);
    for (size_t k = 0; k < 2; k++)
        m.wood[k] = (bw_hour_wood){.name = k == 0 ? "joist" : "plate",
                                   .material = &m.stuff,
                                   .limit = 0.2,
                                   .highest = 0.1,
                                   .month = 2};
    m.hours = (bw_junction_hours){.asked = true,
                                  .ran = true,
                                  .reason = "",
                                  .years = 2,
                                  .periodic = true,
                                  .place_count = 3,
                                  .place = m.place,
                                  .wood_count = 2,
                                  .wood = m.wood,
                                  .unseen = m.unseen,
                                  .compared = true,
                                  .not_compared = ""};
    m.water = (bw_junction_water){
        .ran = true,
        .reason = "",
        .periodic = true,
        .wetting = {.ran = true,
                    .reason = "",
                    .beside = {"a", "b"},
                    .both = {.dried = true, .months = 3.0}}};
}

static bw_verdict judge(void)
{
    bw_arena_release(&m.arena);
    m.rows = (bw_rows){.arena = &m.arena, .section = "junction"};
    bw_judge_water(&m.rows, &m.water, &(bw_junction_water){.reason = ""},
                   m.hours.ran);
    bw_judge_within(&m.rows, &m.hours, &m.water);
    bw_verdict_settle(&m.rows);
    return bw_verdict_overall(&m.rows);
}

static const bw_criterion *row(bw_criterion_id id)
{
    const bw_row *r = bw_rows_find(&m.rows, "junction", id);
    ck_assert_msg(r != NULL, "no row %d", (int)id);
    return &r->row;
}

START_TEST(what_is_all_seen_and_dry_holds)
{
    make();
    ck_assert_int_eq(judge(), BW_HOLDS);
    ck_assert_ptr_null(bw_rows_find(&m.rows, "junction", BW_C_JUNCTION_INSIDE));
}
END_TEST

/* Field; the most that holds; where it begins to hold by less than a tenth of
 * the limit, and the most of that (0: what is beyond asks for an inspection
 * alone); beyond, and what comes of it. */
static const struct {
    bw_criterion_id id;
    double *field;
    double within, near, most, beyond;
    bw_verdict verdict;
    const char *where;
} limits[] = {
    {BW_C_MOULD_HIDDEN, &m.place[1].mould, 2.699, 2.701, 2.999, 3.0, BW_FAILS,
     "x 200 mm"},
    {BW_C_MOULD_HIDDEN, &m.place[1].mould_slow, 2.999, 0, 0, 3.0, BW_MARGINAL,
     "x 200 mm"},
    {BW_C_MOULD_ROOM, &m.place[2].mould, 0.899, 0.901, 0.999, 1.0, BW_FAILS,
     "kitchen"},
    {BW_C_MOULD_ROOM, &m.place[2].mould_slow, 0.999, 0, 0, 1.0, BW_MARGINAL,
     "kitchen"},
    {BW_C_STANDING_WATER, &m.place[1].free_water, 0.1799, 0.1801, 0.2, 0.2001,
     BW_FAILS, "x 200 mm"},
    {BW_C_HUMID_HOURS, &m.place[1].above_95, 720, 0, 0, 721, BW_MARGINAL,
     "x 200 mm"},
    {BW_C_WOOD_MOISTURE, &m.wood[1].highest, 0.1999, 0, 0, 0.2001, BW_MARGINAL,
     "plate"},
    {BW_C_TIMBER_LINE, &m.wood[1].days_above_line, 0, 0, 0, 1, BW_MARGINAL,
     "plate"},
    /* 325 d in the first year and 49 later ones */
    {BW_C_DECAY, &m.wood[1].dose, 292.4 / 49, 292.6 / 49, 324.9 / 49,
     325.1 / 49, BW_FAILS, "plate"},
    {BW_C_DECAY, &m.wood[1].first_dose, 292.4, 292.6, 324.9, 325.1, BW_FAILS,
     "plate"},
};

START_TEST(limits_are_those_of_walls)
{
    make();
    m.place[1].free_month = 3;
    *limits[_i].field = limits[_i].within;
    ck_assert_int_eq(judge(), BW_HOLDS);
    *limits[_i].field = limits[_i].near;
    ck_assert_int_eq(judge(), limits[_i].near > 0 ? BW_MARGINAL : BW_HOLDS);
    *limits[_i].field = limits[_i].most;
    ck_assert_int_eq(judge(), limits[_i].near > 0 ? BW_MARGINAL : BW_HOLDS);
    *limits[_i].field = limits[_i].beyond;
    ck_assert_int_eq(judge(), limits[_i].verdict);
    ck_assert_int_eq(row(limits[_i].id)->verdict, limits[_i].verdict);
    has(row(limits[_i].id)->reason, limits[_i].where);
}
END_TEST

/* What moved between two grids, and how far from the limit: short of it, up to
 * it, past half of it. */
static const struct {
    bw_criterion_id id;
    double *field, *moved;
    double value, short_of, up_to;
    bw_verdict verdict;
    const char *where;
} grids[] = {
    {BW_C_MOULD_HIDDEN, &m.place[1].mould, &m.place[1].moved.mould, 2.0, 0.999,
     1.0, BW_MARGINAL, "x 200 mm"},
    {BW_C_MOULD_HIDDEN, &m.place[1].mould, &m.place[1].moved.mould, 1.0, 1.999,
     2.0, BW_NOT_ASSESSED, "x 200 mm"},
    /* half of the limit, or just more */
    {BW_C_MOULD_HIDDEN, &m.place[1].mould, &m.place[1].moved.mould, 1.5, 1.4,
     1.5, BW_MARGINAL, "x 200 mm"},
    {BW_C_MOULD_HIDDEN, &m.place[1].mould, &m.place[1].moved.mould, 1.5, 1.4,
     1.501, BW_NOT_ASSESSED, "x 200 mm"},
    {BW_C_MOULD_HIDDEN, &m.place[1].mould_slow, &m.place[1].moved.mould_slow,
     0.5, 2.499, 2.5, BW_MARGINAL, "x 200 mm"},
    {BW_C_MOULD_ROOM, &m.place[2].mould, &m.place[2].moved.mould, 0.6, 0.3, 0.5,
     BW_MARGINAL, "kitchen"},
    {BW_C_MOULD_ROOM, &m.place[2].mould, &m.place[2].moved.mould, 0.1, 0.8, 1.0,
     BW_NOT_ASSESSED, "kitchen"},
    {BW_C_STANDING_WATER, &m.place[1].free_water, &m.place[1].moved.free_water,
     0.15, 0.0499, 0.0501, BW_MARGINAL, "x 200 mm"},
    {BW_C_HUMID_HOURS, &m.place[1].above_95, &m.place[1].moved.above_95, 500,
     220, 221, BW_MARGINAL, "x 200 mm"},
    {BW_C_WOOD_MOISTURE, &m.wood[1].highest, &m.wood[1].moved.highest, 0.15,
     0.0499, 0.0501, BW_MARGINAL, "plate"},
    {BW_C_TIMBER_LINE, &m.wood[1].days_above_line,
     &m.wood[1].moved.days_above_line, 0, 0, 1, BW_MARGINAL, "plate"},
    {BW_C_DECAY, &m.wood[1].dose, &m.wood[1].moved.dose, 5.0, 79.9 / 49,
     80.1 / 49, BW_MARGINAL, "plate"},
    {BW_C_DECAY, &m.wood[1].dose, &m.wood[1].moved.first_dose, 1.0, 275.9,
     276.1, BW_NOT_ASSESSED, "plate"},
};

START_TEST(what_the_cells_may_bring_beyond_a_limit_does_not_plainly_hold)
{
    make();
    m.place[1].free_month = 3;
    *grids[_i].field = grids[_i].value;
    *grids[_i].moved = grids[_i].short_of;
    ck_assert_int_eq(judge(), BW_HOLDS);
    *grids[_i].moved = grids[_i].up_to;
    ck_assert_int_eq(judge(), grids[_i].verdict);
    ck_assert_int_eq(row(grids[_i].id)->verdict, grids[_i].verdict);
    has(row(grids[_i].id)->reason, grids[_i].where);
    has(row(grids[_i].id)->reason, "between grids");
}
END_TEST

/* It need not be the place that is the worst of this grid. */
START_TEST(another_place_than_the_worst_may_be_what_the_cells_leave_open)
{
    make();
    m.place[1].mould = 2.0;
    m.place[0].mould = 1.9;
    m.place[0].moved.mould = 1.2;
    ck_assert_int_eq(judge(), BW_MARGINAL);
    has(row(BW_C_MOULD_HIDDEN)->reason, "x 100 mm");
    m.place[0].moved.mould = (double)NAN;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
}
END_TEST

START_TEST(what_fails_fails_whatever_it_moved)
{
    make();
    m.place[1].mould = 3.2;
    m.place[1].moved.mould = 2.0;
    ck_assert_int_eq(judge(), BW_FAILS);
    has(row(BW_C_MOULD_HIDDEN)->reason, "more than it is beyond the limit");
    m.place[1].moved.mould = 0.1;
    ck_assert_int_eq(judge(), BW_FAILS);
    ck_assert_ptr_null(strstr(row(BW_C_MOULD_HIDDEN)->reason, "more than it"));
}
END_TEST

START_TEST(without_a_second_grid_nothing_holds)
{
    make();
    m.hours.compared = false;
    m.hours.not_compared = "it did not converge";
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    has(row(BW_C_JUNCTION_INSIDE)->reason, "it did not converge");
    make();
    m.hours.coarse_rising = true;
    ck_assert_int_eq(judge(), BW_MARGINAL);
    ck_assert_int_eq(row(BW_C_PERIODIC_WATER)->verdict, BW_MARGINAL);
}
END_TEST

START_TEST(water_that_rises_fails_and_what_has_not_settled_is_not_assessed)
{
    make();
    m.hours.periodic = false;
    m.hours.drying = true;
    m.hours.yearly_change = -0.1;
    ck_assert_int_eq(judge(), BW_HOLDS);
    m.hours.drying = false; /* dries as a whole, some place gets wetter */
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    m.hours.yearly_change = 0.001;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    m.hours.yearly_change = 0.01;
    m.hours.rising = true;
    ck_assert_int_eq(judge(), BW_FAILS);
}
END_TEST

START_TEST(what_is_not_seen_keeps_a_junction_from_holding_not_from_failing)
{
    make();
    m.unseen[0] = "air past the end";
    m.hours.unseen_count = 1;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    has(row(BW_C_JUNCTION_INSIDE)->reason, "air past the end");
    m.place[0].mould = 4;
    ck_assert_int_eq(judge(), BW_FAILS);
}
END_TEST

START_TEST(wood_in_the_weather_is_not_judged_and_not_held)
{
    make();
    m.wood[0].exposed = true;
    m.wood[0].highest = 0.4;
    m.wood[0].dose = 300;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    ck_assert_int_eq(row(BW_C_WOOD_MOISTURE)->verdict, BW_HOLDS);
    ck_assert_int_eq(row(BW_C_DECAY)->verdict, BW_HOLDS);
    ck_assert_int_eq(row(BW_C_JUNCTION_INSIDE)->verdict, BW_NOT_ASSESSED);
}
END_TEST

START_TEST(wood_that_no_block_fits_in_is_not_assessed)
{
    make();
    m.wood[1].highest = (double)NAN;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    ck_assert_int_eq(row(BW_C_WOOD_MOISTURE)->verdict, BW_NOT_ASSESSED);
}
END_TEST

/* Months decide nothing beside the hours; a wetting, which these do not try,
 * is asked of the months all the same. */
START_TEST(months_that_fail_are_lifted_but_for_the_wetting)
{
    const bw_water_place wet = {
        .beside = {"a", "b"}, .most = 3, .most_by_area = 3, .left_by_area = 0};
    make();
    m.water.place_count = 1;
    m.water.place = &wet;
    ck_assert_int_eq(judge(), BW_HOLDS);
    ck_assert_int_eq(row(BW_C_CONDENSATE)->outcome, BW_FAILS);
    ck_assert(!row(BW_C_CONDENSATE)->decides);
    m.hours.ran = false;
    ck_assert_int_eq(judge(), BW_FAILS);
    make();
    m.water.wetting.both.months = 13.0;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
    m.water.wetting.both.months = 3.0;
    m.water.ran = false;
    ck_assert_int_eq(judge(), BW_NOT_ASSESSED);
}
END_TEST

/* A reason has the numbers of the place it names: what the result holds in SI
 * in the units of the row. */
static void tell_water(void)
{
    m.place[1].free_water = 0.15;
    m.place[1].free_month = 3;
    m.place[1].moved.free_water = 0.02;
}

static void tell_hours(void)
{
    m.place[1].above_95 = 333;
    m.place[1].dampest = 6;
    m.place[1].moved.above_95 = 4;
}

static void tell_moisture(void)
{
    m.wood[1].highest = 0.1625;
    m.wood[1].hours_above = 44;
    m.wood[1].moved.highest = 0.0125;
}

static void tell_line(void)
{
    m.wood[1].days_above_line = 7;
    m.wood[1].overshoot = 0.0235;
    m.wood[1].moved.days_above_line = 3;
}

static void tell_dose(void)
{
    m.wood[1].first_dose = 7.5;
    m.wood[1].dose = 2.25;
    m.wood[1].moved.first_dose = 0.5;
    m.wood[1].moved.dose = 0.5;
}

static void tell_mould(void)
{
    m.place[1].mould = 1.25;
    m.place[1].mould_slow = 1.75;
    m.place[1].dampest = 8;
    m.place[1].month_rh[8] = 0.87;
    m.place[1].moved.mould = 0.0002;
}

static void tell_room(void)
{
    m.place[2].mould = 0.25;
    m.place[2].mould_slow = 0.5;
    m.place[2].settled = false;
    m.place[2].month_rh[1] = 0.71;
    m.place[2].moved.mould = 0.125;
}

static void tell_years(void)
{
    m.hours.years = 1;
    m.hours.periodic = false;
    m.hours.state_change = 0.034;
}

static void tell_more_years(void)
{
    m.hours.synthetic = true;
}

static const struct {
    void (*make)(void);
    bw_criterion_id id;
    const char *numbers[7];
} reasons[] = {
    {tell_water,
     BW_C_STANDING_WATER,
     {"0.150 kg/m2", "x 200 mm", "y 50 mm", "Apr", "0.02 kg/m2", NULL}},
    {tell_hours, BW_C_HUMID_HOURS, {"333 h", "x 200 mm", "Jul", "4 h", NULL}},
    {tell_moisture,
     BW_C_WOOD_MOISTURE,
     {"16.2 %", "plate (x 400 mm, y 700 mm)", "Mar", "44 h", "1.25 %", NULL}},
    {tell_line,
     BW_C_TIMBER_LINE,
     {"7 d", "plate (x 400 mm, y 700 mm)", "2.4 % RH", "3 d", NULL}},
    /* 0.5 in the first year and in 49 later ones */
    {tell_dose,
     BW_C_DECAY,
     {"plate (x 400 mm, y 700 mm)", "7.5 d", "2.2 d", "Mar", "25 d", NULL}},
    {tell_mould,
     BW_C_MOULD_HIDDEN,
     {"1.25", "x 200 mm", "y 50 mm", "Sep", "87 %", "1.75", NULL}},
    {tell_room,
     BW_C_MOULD_ROOM,
     {"0.25", "x 300 mm, y 50 mm", "rising", "71 %", "0.50", "0.125", NULL}},
    {tell_years, BW_C_PERIODIC_WATER, {"1 year ", "3.4 % RH", NULL}},
    {tell_more_years, BW_C_PERIODIC_WATER, {"2 years", "synthetic", NULL}},
};

START_TEST(a_reason_has_the_numbers_of_the_place_it_names)
{
    make();
    m.wood[1].x = 0.4;
    m.wood[1].y = 0.7;
    reasons[_i].make();
    judge();
    const char *reason = row(reasons[_i].id)->reason;
    names_all(reason, reasons[_i].numbers);
    if (reasons[_i].make == tell_mould) /* a unit of "-" is not written */
        has(reason, "less than 0.001 between");
    if (reasons[_i].make == tell_more_years)
        ck_assert_ptr_null(strstr(reason, "moved some place"));
}
END_TEST

/* Of two places the one that is marginal by the slower decline is named before
 * a mouldier one within both limits; of two alike the mouldier one. */
START_TEST(the_worst_of_two_places_is_by_what_becomes_of_it)
{
    static const struct {
        double mould[2], slow[2];
        const char *named;
    } cases[] = {
        {{1.0, 2.0}, {3.1, 2.1}, "x 100 mm"},
        {{2.0, 1.0}, {2.1, 3.1}, "x 200 mm"},
        {{1.0, 2.0}, {1.0, 2.1}, "x 200 mm"},
        {{2.0, 1.0}, {2.1, 1.0}, "x 100 mm"},
        {{3.1, 2.0}, {3.1, 3.9}, "x 100 mm"},
        {{2.0, 3.1}, {3.9, 3.1}, "x 200 mm"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        make();
        for (size_t k = 0; k < 2; k++) {
            m.place[k].mould = cases[i].mould[k];
            m.place[k].mould_slow = cases[i].slow[k];
        }
        judge();
        has(row(BW_C_MOULD_HIDDEN)->reason, cases[i].named);
    }
}
END_TEST

SUITE("judge_within", FACT(what_is_all_seen_and_dry_holds),
      EACH(a_reason_has_the_numbers_of_the_place_it_names, COUNT(reasons)),
      FACT(the_worst_of_two_places_is_by_what_becomes_of_it),
      EACH(limits_are_those_of_walls, COUNT(limits)),
      EACH(what_the_cells_may_bring_beyond_a_limit_does_not_plainly_hold,
           COUNT(grids)),
      FACT(another_place_than_the_worst_may_be_what_the_cells_leave_open),
      FACT(what_fails_fails_whatever_it_moved),
      FACT(without_a_second_grid_nothing_holds),
      FACT(water_that_rises_fails_and_what_has_not_settled_is_not_assessed),
      FACT(what_is_not_seen_keeps_a_junction_from_holding_not_from_failing),
      FACT(wood_in_the_weather_is_not_judged_and_not_held),
      FACT(wood_that_no_block_fits_in_is_not_assessed),
      FACT(months_that_fail_are_lifted_but_for_the_wetting))
