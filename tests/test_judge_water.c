/* Water within a junction by months: which of its places a row names, and by
 * which numbers; results made by hand. Limits as of walls: nothing left after a
 * year, 1.0 kg/m2, and 0.5 kg/m2 at a face that takes up none [DIN 4108-3, seen
 * in a list]. */

#include <string.h>

#include "criteria/judge.h"
#include "criteria/verdict.h"
#include "has_words.h"
#include "suite.h"

static bw_arena arena;
static bw_rows rows;
static bw_water_place place[3];
static bw_junction_water water, bound;

static void setup(void)
{
    arena = (bw_arena){0};
    for (int k = 0; k < 3; k++)
        place[k] = (bw_water_place){.x = 0.1 * (k + 1),
                                    .y = 0.05 + 0.01 * k,
                                    .beside = {"brick", "fibre"},
                                    .month = 1 + k,
                                    .most_by_area = 0.3 - 0.1 * k};
    water = (bw_junction_water){
        .ran = true,
        .reason = "",
        .periodic = true,
        .years = 2,
        .place_count = 3,
        .place = place,
        .wetting = {.reason = "nothing to wet", .nothing_at_risk = true}};
    bound = (bw_junction_water){.reason = ""};
}

static void teardown(void)
{
    bw_arena_release(&arena);
}

static const bw_row *judged(bw_criterion_id id)
{
    rows = (bw_rows){.arena = &arena, .section = "junction"};
    bw_judge_water(&rows, &water, &bound, false);
    const bw_row *row = bw_rows_find(&rows, "junction", id);
    ck_assert_ptr_nonnull(row);
    return row;
}

/* Of what is left the place that keeps most; below a milligram none does. */
START_TEST(the_place_that_keeps_most_is_named)
{
    static const struct {
        double left[3];
        double value;
        bw_verdict outcome;
        const char *names[5];
    } cases[] = {
        {{0, 0, 0}, 0, BW_HOLDS, {"0.300 kg/m2", "Feb", "x 100 mm", "y 50 mm"}},
        {{0, 0.9e-6, 0}, 0, BW_HOLDS, {"x 100 mm"}},
        {{0, 0.02, 0.01},
         0.02,
         BW_FAILS,
         {"0.0200 kg/m2", "0.200 kg/m2", "Mar", "x 200 mm", "y 60 mm"}},
        {{0.03, 0.02, 0.04},
         0.04,
         BW_FAILS,
         {"0.0400 kg/m2", "0.100 kg/m2", "Apr", "x 300 mm", "y 70 mm"}},
        {{0.03, 0.02, 0.01}, 0.03, BW_FAILS, {"0.0300 kg/m2", "x 100 mm"}},
        {{0, 1.1e-6, 0}, 1.1e-6, BW_FAILS, {"x 200 mm"}},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        for (size_t k = 0; k < 3; k++)
            place[k].left_by_area = cases[i].left[k];
        const bw_criterion *row = &judged(BW_C_ANNUAL_BALANCE)->row;
        ck_assert_double_eq(row->value, cases[i].value);
        ck_assert_int_eq(row->outcome, cases[i].outcome);
        for (size_t n = 0; n < 5 && cases[i].names[n] != NULL; n++)
            has(row->reason, cases[i].names[n]);
    }
}
END_TEST

/* The most of all stands in the first; at a face that sheds, where most does.
 */
START_TEST(amounts_are_those_of_their_own_places)
{
    static const struct {
        double most, shed[3];
        bw_verdict outcome, shed_outcome;
        const char *where;
    } cases[] = {
        {0.3, {0, 0, 0}, BW_HOLDS, BW_HOLDS, "no water"},
        {0.99, {0, 0.1, 0.2}, BW_MARGINAL, BW_HOLDS, "x 300 mm, y 70 mm"},
        {1.01, {0, 0.4, 0.2}, BW_FAILS, BW_HOLDS, "x 200 mm, y 60 mm"},
        {0.3, {0.51, 0.4, 0.2}, BW_HOLDS, BW_FAILS, "x 100 mm, y 50 mm"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        place[0].most_by_area = cases[i].most;
        for (size_t k = 0; k < 3; k++)
            place[k].most_shed = cases[i].shed[k];
        const bw_criterion *row = &judged(BW_C_CONDENSATE)->row;
        ck_assert_double_eq(row->value, cases[i].most);
        ck_assert_int_eq(row->outcome, cases[i].outcome);
        NAMES(row->reason, "Feb", "x 100 mm, y 50 mm");
        row = &judged(BW_C_CONDENSATE_NON_ABSORBING)->row;
        ck_assert_int_eq(row->outcome, cases[i].shed_outcome);
        has(row->reason, cases[i].where);
    }
    water.place_count = 0;
    ck_assert_double_eq(judged(BW_C_ANNUAL_BALANCE)->row.value, 0.0);
    ck_assert_double_eq(judged(BW_C_CONDENSATE)->row.value, 0.0);
    ck_assert_int_eq(judged(BW_C_CONDENSATE)->row.outcome, BW_HOLDS);
}
END_TEST

START_TEST(a_place_within_one_material_is_named_by_it)
{
    place[0].beside[1] = NULL;
    has(judged(BW_C_CONDENSATE)->row.reason, "in brick");
    place[0].beside[1] = "fibre";
    NAMES(judged(BW_C_CONDENSATE)->row.reason, "brick and fibre");
}
END_TEST

/* The ends of the face that is wetted, in millimetres, and its month. */
START_TEST(the_wetted_face_is_told_from_end_to_end)
{
    ck_assert(judged(BW_C_DRYING)->informative);
    water.wetting.nothing_at_risk = false;
    ck_assert(!judged(BW_C_DRYING)->informative);
    ck_assert_int_eq(judged(BW_C_DRYING)->row.outcome, BW_NOT_ASSESSED);
    water.wetting = (bw_water_wetting){
        .ran = true,
        .reason = "",
        .x0 = 0.1,
        .x1 = 0.15,
        .y0 = 0.2,
        .y1 = 0.3,
        .beside = {"brick", "fibre"},
        .water = 0.75,
        .month = 9,
        .both = {.dried = true, .months = 3.5},
        .outwards = {.dried = true, .months = 4.5},
        .inwards = {.place_dried = true, .place_months = 2.5, .left = 0.125}};
    const bw_criterion *row = &judged(BW_C_DRYING)->row;
    ck_assert_double_eq(row->value, 3.5);
    NAMES(row->reason, "0.75 kg/m2", "brick and fibre", "x 100 to 150 mm",
          "y 200 to 300 mm", "Oct", "3.5 months");
    NAMES(judged(BW_C_DRYING_OUTWARDS)->row.reason, "4.5 months");
    NAMES(judged(BW_C_DRYING_INWARDS)->row.reason, "2.5 months", "0.125 kg/m2");
    water.wetting.both = (bw_water_drying){.left = 0.25};
    row = &judged(BW_C_DRYING)->row;
    ck_assert(row->never);
    ck_assert_double_eq(row->value, 120.0); /* as long as it is followed */
    ck_assert_int_eq(row->outcome, BW_FAILS);
    has(row->reason, "0.250 kg/m2");
}
END_TEST

/* What holds with one choice of mu and fails with the other is marginal. */
START_TEST(the_other_choice_of_mu_is_laid_beside)
{
    bw_water_place more = place[0];
    more.most_by_area = 1.5;
    bound = water;
    bound.place_count = 1;
    bound.place = &more;
    ck_assert_int_eq(judged(BW_C_CONDENSATE)->row.outcome, BW_MARGINAL);
    has(judged(BW_C_CONDENSATE)->row.reason, "1.500 kg/m2");
    bound.ran = false;
    ck_assert_int_eq(judged(BW_C_CONDENSATE)->row.outcome, BW_HOLDS);
}
END_TEST

START_TEST(months_that_did_not_run_say_why)
{
    water.ran = false;
    water.reason = "no vapour passes";
    const bw_criterion *row = &judged(BW_C_ANNUAL_BALANCE)->row;
    ck_assert_int_eq(row->outcome, BW_NOT_ASSESSED);
    has(row->reason, "no vapour passes");
    ck_assert_uint_eq(rows.count, 1);
}
END_TEST

SUITE_AROUND("judge_water", setup, teardown,
             FACT(the_place_that_keeps_most_is_named),
             FACT(amounts_are_those_of_their_own_places),
             FACT(a_place_within_one_material_is_named_by_it),
             FACT(the_wetted_face_is_told_from_end_to_end),
             FACT(the_other_choice_of_mu_is_laid_beside),
             FACT(months_that_did_not_run_say_why))
