/* Hidden wood of the simulation at its limits: 20 % by mass, panels 18 %, the
 * line of embedded timber and three months to dry ask for an inspection [DIN
 * 68800-2, WTA 6-8, from memory]; a decay dose of 325 d in fifty years fails
 * [Isaksson et al. 2013, from memory, high]. */

#include <check.h>
#include <math.h>
#include <stdlib.h>

#include "judged_simulation.h"

static void make_stud(void)
{
    simulated_wood(&sim, &c, CASE_LINING, BW_SOLID_WOOD);
}

/* ---- the dose ------------------------------------------------------------ */

START_TEST(a_decay_dose_of_325_days_in_fifty_years_fails)
{
    static const struct {
        double dose;
        bw_verdict verdict;
    } cases[] = {{0.0, BW_HOLDS},      {292.0, BW_HOLDS},
                 {293.0, BW_MARGINAL}, /* within 10 % */
                 {324.9, BW_MARGINAL}, {325.0, BW_FAILS},
                 {9000.0, BW_FAILS}};
    make_stud();
    for (size_t i = 0; i < COUNT(cases); i++) {
        sim.wood[CASE_LINING] = (bw_wood_damage){
            .service_dose = cases[i].dose, .first_dose = 7.5, .dose = 6.1};
        ck_assert_int_eq(overall(), cases[i].verdict);
        const bw_criterion *row = case_row(&c, BW_C_DECAY);
        ck_assert_int_eq(row->outcome, cases[i].verdict);
        has(row->reason, cases[i].dose > 0.0
                             ? "plasterboard: a dose of 7.5 d in the first "
                               "year, 6.1 d in every later one"
                             : "on no day is wood above 25 % by mass");
    }
}
END_TEST

START_TEST(the_wood_with_the_highest_dose_is_named)
{
    make_stud();
    simulated_wood(&sim, &c, CASE_INSULATION, BW_WOOD_PANEL);
    sim.wood[CASE_INSULATION].service_dose = 10.0;
    sim.wood[CASE_LINING].service_dose = 20.0;
    has(judged(BW_C_DECAY)->reason, "plasterboard");
    sim.wood[CASE_INSULATION].service_dose = 30.0;
    has(judged(BW_C_DECAY)->reason, "mineral wool");
}
END_TEST

START_TEST(a_dose_that_is_no_number_is_not_assessed)
{
    make_stud();
    sim.wood[CASE_LINING].service_dose = (double)NAN;
    ck_assert_int_eq(judged(BW_C_DECAY)->outcome, BW_NOT_ASSESSED);
    ck_assert_int_eq(overall(), BW_NOT_ASSESSED);
}
END_TEST

/* ---- what asks for an inspection ------------------------------------------
 */

/* Field walls with such peaks have been opened and found sound. */
START_TEST(a_week_at_21_percent_is_inspected_and_does_not_fail)
{
    make_stud();
    bw_slab_moisture *wood = &sim.slab[CASE_LINING];
    wood->highest_wood_moisture = 0.21;
    wood->hours_above_limit = 168;
    ck_assert_int_eq(overall(), BW_MARGINAL);
    const char *reason = bw_verdict_reason(&c.rows, NULL, 0);
    has(reason, "exceeds, inspect: 21.0 % in plasterboard");
    has(reason, "168 h of the last year above the limit");
    wood->highest_wood_moisture = 0.199;
    ck_assert_int_eq(overall(), BW_HOLDS);
}
END_TEST

START_TEST(one_day_above_the_line_of_embedded_timber_is_inspected)
{
    make_stud();
    ck_assert_int_eq(judged(BW_C_TIMBER_LINE)->outcome, BW_HOLDS);
    has(case_row(&c, BW_C_TIMBER_LINE)->reason, "below the line all year");
    sim.wood[CASE_LINING].line = (bw_timber_line_result){
        .days_above = 1, .overshoot = 0.012, .longest_run = 1};
    ck_assert_int_eq(judged(BW_C_TIMBER_LINE)->outcome, BW_MARGINAL);
    has(case_row(&c, BW_C_TIMBER_LINE)->reason,
        "exceeds, inspect: 1 d of the last year in plasterboard, by up to "
        "1.2 % RH, longest run 1 d");
    sim.wood[CASE_LINING].line.days_above = 365;
    ck_assert_int_eq(overall(), BW_MARGINAL);
}
END_TEST

/* 22 % is no food for fungi (25 % and more are), 30 % is; both are seen. */
START_TEST(wood_built_in_wet_is_seen_in_the_first_year)
{
    static const struct {
        double first, weeks;
        bw_verdict verdict;
        const char *words;
    } cases[] = {
        {0.19, 0.0, BW_HOLDS, NULL},
        {0.22, 13.0, BW_HOLDS, "after 13 weeks (22.0 % at most"},
        {0.22, 13.5, BW_MARGINAL, "after 14 weeks (22.0 % at most"},
        {0.30, 40.0, BW_MARGINAL, "after 40 weeks (30.0 % at most"},
        {0.30, -1.0, BW_MARGINAL, "never stays below 20 % (30.0 % at most"},
    };
    make_stud();
    for (size_t i = 0; i < COUNT(cases); i++) {
        sim.slab[CASE_LINING].first_highest_wood_moisture = cases[i].first;
        sim.slab[CASE_LINING].weeks_to_limit = cases[i].weeks;
        const bw_criterion *row = judged(BW_C_FIRST_YEAR);
        ck_assert_int_eq(row != NULL, cases[i].words != NULL);
        if (row != NULL) {
            ck_assert_int_eq(row->outcome, cases[i].verdict);
            has(row->reason, cases[i].words);
        }
        ck_assert_int_eq(overall(), cases[i].verdict);
    }
    ck_assert_double_eq(case_row(&c, BW_C_FIRST_YEAR)->value, 208.0);
}
END_TEST

/* ---- which wood ------------------------------------------------------------
 */

/* Of a wall without a cavity: the weather has the outermost wood. A log and a
 * board bear it; a panel without a coat is inspected. */
START_TEST(a_weathered_face_is_no_hidden_wood_but_a_bare_panel_is_inspected)
{
    static const struct {
        size_t slab;
        bw_wood_kind kind;
        bw_verdict verdict;
    } cases[] = {
        {CASE_SHEATHING, BW_SOLID_WOOD, BW_HOLDS},
        {CASE_SHEATHING, BW_WOOD_PANEL, BW_MARGINAL},
        {CASE_SHEATHING, BW_WOOD_WOOL_BOARD, BW_HOLDS},
        {CASE_INSULATION, BW_SOLID_WOOD, BW_FAILS},
        {CASE_INSULATION, BW_WOOD_PANEL, BW_FAILS},
        {CASE_INSULATION, BW_WOOD_WOOL_BOARD, BW_HOLDS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const size_t k = cases[i].slab;
        c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
        c.material[CASE_INSULATION].wood_kind = BW_NOT_WOOD;
        simulated_make(&sim, &c);
        simulated_wood(&sim, &c, k, cases[i].kind);
        sim.slab[k].highest_wood_moisture = 0.40;
        sim.wood[k].service_dose = 9000.0;
        sim.wood[k].line.days_above = 300;
        ck_assert_int_eq(overall(), cases[i].verdict);
        ck_assert_int_eq(case_row(&c, BW_C_DECAY) != NULL,
                         cases[i].verdict == BW_FAILS);
    }
}
END_TEST

/* Behind a coat, or with the render on it, the same panel is hidden. */
START_TEST(a_panel_behind_a_coat_is_hidden)
{
    c.slab[CASE_SHEATHING].kind = BW_LAYER_MEMBRANE;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    simulated_make(&sim, &c);
    simulated_wood(&sim, &c, CASE_INSULATION, BW_WOOD_PANEL);
    sim.wood[CASE_INSULATION].service_dose = 400.0;
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

START_TEST(a_board_outside_the_weather_line_is_not_judged)
{
    c.slab[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    for (int well = 0; well < 2; well++) {
        c.layer[CASE_INSULATION].ventilation = well == 1 ? BW_VENT_WELL
                                                         : BW_VENT_SLIGHT;
        sim.slab[CASE_SHEATHING].highest_wood_moisture = 0.40;
        sim.wood[CASE_SHEATHING].line.days_above = 300;
        simulated_judge(&sim, &c);
        ck_assert_int_eq(case_row(&c, BW_C_PANEL_MOISTURE) == NULL, well == 1);
        ck_assert_int_eq(case_row(&c, BW_C_TIMBER_LINE) == NULL, well == 1);
    }
}
END_TEST

START_TEST(the_sheathing_right_behind_the_cavity_is_judged)
{
    c.slab[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].ventilation = BW_VENT_WELL;
    simulated_wood(&sim, &c, CASE_FOIL, BW_WOOD_PANEL);
    sim.wood[CASE_FOIL].service_dose = 400.0;
    ck_assert_int_eq(overall(), BW_FAILS);
}
END_TEST

START_TEST(a_wall_without_wood_has_no_rows_of_wood)
{
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    simulated_make(&sim, &c);
    simulated_judge(&sim, &c);
    for (int id = BW_C_WOOD_MOISTURE; id <= BW_C_FIRST_YEAR; id++)
        ck_assert_ptr_null(case_row(&c, (bw_criterion_id)id));
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("judge_wood");
    TCase *t = tcase_create("judge_wood");
    tcase_add_checked_fixture(t, setup, teardown);
    tcase_add_test(t, a_decay_dose_of_325_days_in_fifty_years_fails);
    tcase_add_test(t, the_wood_with_the_highest_dose_is_named);
    tcase_add_test(t, a_dose_that_is_no_number_is_not_assessed);
    tcase_add_test(t, a_week_at_21_percent_is_inspected_and_does_not_fail);
    tcase_add_test(t, one_day_above_the_line_of_embedded_timber_is_inspected);
    tcase_add_test(t, wood_built_in_wet_is_seen_in_the_first_year);
    tcase_add_test(
        t, a_weathered_face_is_no_hidden_wood_but_a_bare_panel_is_inspected);
    tcase_add_test(t, a_panel_behind_a_coat_is_hidden);
    tcase_add_test(t, a_board_outside_the_weather_line_is_not_judged);
    tcase_add_test(t, the_sheathing_right_behind_the_cavity_is_judged);
    tcase_add_test(t, a_wall_without_wood_has_no_rows_of_wood);
    suite_add_tcase(s, t);
    return s;
}

int main(void)
{
    SRunner *runner = srunner_create(suite());
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
