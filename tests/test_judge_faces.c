/* Faces that two methods find wet, and what lies under a tight covering.
 * Limits: 1.0 and 0.5 kg/m2 of DIN 4108-3 [seen in a list]; 720 h above 95 %
 * or 90 % RH [common practice, no source]. */

#include <check.h>
#include <stdlib.h>

#include "judged_simulation.h"

static bw_plane plane[3];

static void clear_planes(void)
{
    memset(plane, 0, sizeof plane);
}

/* Condensate by months between panel and wool, hours there by simulation. */
static void wet(double water, double hours)
{
    plane[0] = (bw_plane){.at = {CASE_SHEATHING, 0.009, true}, .peak = water};
    sim.part.has_design = true;
    sim.part.design = (bw_monthly_result){.plane_count = 1, .plane = plane};
    sim.monitor[CASE_SHEATHING + 1].last_year.above_95 = hours;
}

/* ---- both methods -------------------------------------------------------- */

START_TEST(condensate_beyond_its_limit_fails_where_the_simulation_is_wet_too)
{
    static const struct {
        double water, hours;
        bool row;
        bw_verdict verdict;
    } cases[] = {
        {0.85, 721, true, BW_HOLDS},  {0.95, 721, true, BW_MARGINAL},
        {1.01, 721, true, BW_FAILS},  {7.3, 4500, true, BW_FAILS},
        {7.3, 720, false, BW_HOLDS}, /* the simulation excuses it */
        {0.0, 8760, false, BW_HOLDS},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wet(cases[i].water, cases[i].hours);
        const bw_criterion *row = judged(BW_C_BOTH_WET);
        ck_assert_int_eq(row != NULL, cases[i].row);
        if (row != NULL)
            ck_assert_int_eq(row->outcome, cases[i].verdict);
    }
}
END_TEST

/* Panel and wool, one of which takes up water: 1.0; neither: 0.5. */
START_TEST(half_as_much_fails_between_faces_that_do_not_absorb)
{
    wet(0.6, 4500);
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_HOLDS);
    c.material[CASE_SHEATHING].absorbs_condensate = false;
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_FAILS);
}
END_TEST

/* Aerated concrete: it condenses in many planes of one layer. */
START_TEST(planes_inside_a_layer_count_together_at_its_nearer_face)
{
    wet(0.4, 4500);
    plane[1] = (bw_plane){.at = {CASE_INSULATION, 0.02, false}, .peak = 0.4};
    plane[2] = (bw_plane){.at = {CASE_INSULATION, 0.12, false}, .peak = 9.0};
    sim.part.design.plane_count = 3;
    ck_assert_double_eq_tol(judged(BW_C_BOTH_WET)->value, 0.8, 1e-12);
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_HOLDS);
}
END_TEST

/* Months know no liquid: calcium silicate fails by them and stands sound. */
START_TEST(insulation_that_draws_water_is_inspected_and_does_not_fail)
{
    wet(1.8, 2650);
    c.material[CASE_INSULATION].absorbs_condensate = true;
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_FAILS);
    c.material[CASE_INSULATION].water_absorption = case_value(0.8);
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_MARGINAL);
    c.material[CASE_INSULATION].water_absorption = case_value(0.0);
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_FAILS);
}
END_TEST

/* A pool's wall of stone: hours count where the months find the room's water
 * there, and not where rain alone keeps it wet. */
START_TEST(mineral_faces_are_watched_where_the_months_find_condensate)
{
    for (size_t k = 0; k < CASE_LAYERS; k++) {
        c.material[k].wood_kind = BW_NOT_WOOD;
        c.material[k].group = "masonry";
    }
    wet(0.09, 2000);
    ck_assert_ptr_null(judged(BW_C_HUMID_HOURS));
    wet(0.11, 2000);
    ck_assert_int_eq(judged(BW_C_HUMID_HOURS)->outcome, BW_MARGINAL);
}
END_TEST

/* The months leave out what lies outside a ventilated cavity: a plane of theirs
 * is one slab further in. */
START_TEST(a_plane_of_the_months_is_found_behind_layers_they_leave_out)
{
    bw_section inner = c.section;
    inner.slab = &c.slab[1];
    inner.slab_count = CASE_LAYERS - 1;
    wet(2.0, 0.0);
    sim.part.section = &inner;
    plane[0].at = (bw_plane_at){0, 0.140, true}; /* wool and foil */
    sim.monitor[CASE_INSULATION + 1].last_year.above_95 = 4000;
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_FAILS);
    ck_assert_ptr_nonnull(
        strstr(judged(BW_C_BOTH_WET)->reason, "mineral wool"));
}
END_TEST

/* ---- a tight covering ---------------------------------------------------- */

/* Plasterboard becomes a screed, with vinyl on it: the foil is taken away. */
static void floor_of(double sd)
{
    c.slab[CASE_FOIL] = c.slab[CASE_LINING];
    c.slab[CASE_FOIL].material = &c.material[CASE_LINING];
    c.material[CASE_FOIL].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    c.slab[CASE_LINING].material = &c.material[CASE_FOIL];
    c.slab[CASE_LINING].thickness = 0.002;
    c.slab[CASE_LINING].sd_dry = c.slab[CASE_LINING].sd_wet = sd;
    c.layer[CASE_FOIL].kind = BW_LAYER_SOLID;
    c.slab[CASE_LINING].label = "vinyl";
}

static void humid(double above_80, double above_90, bool first)
{
    bw_monitor *m = &sim.monitor[CASE_LINING];
    m->first_year = m->last_year = (bw_humid_hours){.month = -1};
    *(first ? &m->first_year : &m->last_year) = (bw_humid_hours){
        .above_80 = above_80, .above_90 = above_90};
}

START_TEST(a_tight_covering_on_a_damp_base_fails_in_its_first_year_or_its_last)
{
    static const struct {
        double above_80, above_90;
        bw_verdict verdict;
    } cases[] = {
        {0, 0, BW_HOLDS},         {720, 0, BW_HOLDS},    {721, 0, BW_MARGINAL},
        {8760, 720, BW_MARGINAL}, {8760, 721, BW_FAILS}, {8760, 8760, BW_FAILS},
    };
    floor_of(20.0);
    for (size_t i = 0; i < COUNT(cases); i++)
        for (int first = 0; first < 2; first++) {
            humid(cases[i].above_80, cases[i].above_90, first == 1);
            const bw_criterion *row = judged(BW_C_COVERING);
            ck_assert_int_eq(row->outcome, cases[i].verdict);
            ck_assert_ptr_nonnull(strstr(row->reason, "vinyl"));
        }
}
END_TEST

START_TEST(what_lets_vapour_through_or_does_not_suffer_is_no_such_covering)
{
    floor_of(1.9);
    humid(8760, 8760, false);
    ck_assert_ptr_null(judged(BW_C_COVERING));
    floor_of(2.1);
    ck_assert_ptr_nonnull(judged(BW_C_COVERING));
    c.material[CASE_FOIL].mould_class = BW_MOULD_RESISTANT; /* tiles */
    ck_assert_ptr_null(judged(BW_C_COVERING));
}
END_TEST

/* A foil behind a lining stops vapour there; nothing is laid on it. */
START_TEST(a_foil_behind_a_lining_is_no_covering)
{
    sim.monitor[CASE_FOIL].last_year.above_90 = 8760;
    ck_assert_ptr_null(judged(BW_C_COVERING));
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("judge_faces");
    TCase *t = tcase_create("judge_faces");
    tcase_add_checked_fixture(t, setup, teardown);
    tcase_add_checked_fixture(t, clear_planes, NULL);
    tcase_add_test(
        t, condensate_beyond_its_limit_fails_where_the_simulation_is_wet_too);
    tcase_add_test(t, half_as_much_fails_between_faces_that_do_not_absorb);
    tcase_add_test(t, planes_inside_a_layer_count_together_at_its_nearer_face);
    tcase_add_test(t,
                   insulation_that_draws_water_is_inspected_and_does_not_fail);
    tcase_add_test(t,
                   mineral_faces_are_watched_where_the_months_find_condensate);
    tcase_add_test(t,
                   a_plane_of_the_months_is_found_behind_layers_they_leave_out);
    tcase_add_test(
        t, a_tight_covering_on_a_damp_base_fails_in_its_first_year_or_its_last);
    tcase_add_test(
        t, what_lets_vapour_through_or_does_not_suffer_is_no_such_covering);
    tcase_add_test(t, a_foil_behind_a_lining_is_no_covering);
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
