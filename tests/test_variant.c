/* Changed copies of an assembly: what each change sets, what it leaves alone,
 * and that the original never moves. */

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assembly/variant.h"
#include "bothways/air.h"
#include "bothways/geography.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])
#define KNOWN(v)                                                               \
    {                                                                          \
        .known = true, .value = (v), .source = "", .note = ""                  \
    }

static const double curve_rh[] = {0.2, 0.5, 0.9}, curve_sd[] = {5, 2, 0.5};

static const bw_material board = {.id = "board",
                                  .name = "board",
                                  .group = "wood",
                                  .thermal_conductivity = KNOWN(0.13),
                                  .density = KNOWN(650),
                                  .specific_heat = KNOWN(1700),
                                  .mu_dry = KNOWN(50),
                                  .mu_wet = KNOWN(20),
                                  .wood_kind = BW_WOOD_PANEL};
static const bw_material beam = {.id = "beam",
                                 .name = "beam",
                                 .group = "wood",
                                 .mu_wet = KNOWN(40),
                                 .wood_kind = BW_SOLID_WOOD};
static const bw_material foil = {
    .id = "foil", .name = "foil", .group = "membrane", .sd = KNOWN(20)};
static const bw_material variable = {
    .id = "variable",
    .name = "variable",
    .group = "membrane",
    .sd_curve = {3, curve_rh, curve_sd, BW_BASIS_ESTIMATE, "", ""}};

enum { BOARD, BEAM, FOIL, VARIABLE, LAYERS };

static bw_layer layer[LAYERS];
static bw_assembly drawn;
static bw_arena arena;
static bw_variant v;

static void setup(void)
{
    static const bw_material *const material[] = {&board, &beam, &foil,
                                                  &variable};
    memset(layer, 0, sizeof layer);
    for (size_t i = 0; i < LAYERS; ++i)
        layer[i] = (bw_layer){.id = material[i]->id,
                              .name = material[i]->name,
                              .kind = i < FOIL ? BW_LAYER_SOLID
                                               : BW_LAYER_MEMBRANE,
                              .material = material[i],
                              .thickness = i < FOIL ? 0.02 : 0.0};
    drawn = (bw_assembly){.id = "drawn", .layer_count = LAYERS, .layer = layer};
    arena = (bw_arena){0};
    bw_variant_start(&v, &arena, &drawn);
}

static void teardown(void)
{
    /* whatever a test did, it did to the copy */
    ck_assert_uint_eq(drawn.layer_count, LAYERS);
    ck_assert_ptr_eq(layer[BOARD].material, &board);
    ck_assert_ptr_eq(layer[VARIABLE].material, &variable);
    ck_assert_double_eq(layer[BOARD].thickness, 0.02);
    ck_assert(!layer[BOARD].has_initial_moisture);
    bw_arena_release(&arena);
}

static double value(size_t of, bw_varied property)
{
    return bw_layer_value(&bw_variant_done(&v)->layer[of], property);
}

START_TEST(every_word_is_its_property_and_no_other)
{
    static const char *const words[] = {"mu",           "sd",        "lambda",
                                        "resistance",   "thickness", "density",
                                        "specific-heat"};
    ck_assert_uint_eq(COUNT(words), BW_VARIED_COUNT);
    for (int i = 0; i < BW_VARIED_COUNT; ++i) {
        ck_assert_int_eq(bw_varied_of(words[i]), i);
        ck_assert_str_eq(bw_varied_word((bw_varied)i), words[i]);
    }
    ck_assert_int_eq(bw_varied_of("colour"), BW_VARIED_COUNT);
    ck_assert_str_eq(bw_varied_unit(BW_VARIED_DENSITY), "kg/m3");
}
END_TEST

/* The board as drawn: mu 50, 20 mm, lambda 0.13. */
START_TEST(a_layer_has_the_values_it_is_drawn_with)
{
    static const double values[] = {50, 1, .13, .02 / .13, .02, 650, 1700};
    for (int i = 0; i < BW_VARIED_COUNT; ++i)
        ck_assert_double_eq_tol(value(BOARD, (bw_varied)i), values[i], 1e-12);
    ck_assert_double_nan(value(BOARD, BW_VARIED_COUNT));
    ck_assert_double_eq(value(BEAM, BW_VARIED_MU), 40); /* the one known */
    ck_assert_double_nan(value(BEAM, BW_VARIED_DENSITY));
    ck_assert_double_nan(value(BEAM, BW_VARIED_SPECIFIC_HEAT));
    ck_assert_double_nan(value(BEAM, BW_VARIED_RESISTANCE));
    ck_assert_double_eq(value(FOIL, BW_VARIED_SD), 20);
    ck_assert_double_nan(value(FOIL, BW_VARIED_MU));
    ck_assert_double_nan(value(VARIABLE, BW_VARIED_SD));
    ck_assert_double_nan(value(VARIABLE, BW_VARIED_MU));
}
END_TEST

START_TEST(what_is_set_is_what_the_layer_then_has)
{
    static const double values[] = {30, 4, .2, .7, .05, 500, 2000};
    for (int i = 0; i < BW_VARIED_COUNT; ++i) {
        bw_arena_release(&arena);
        bw_variant_start(&v, &arena, &drawn);
        bw_variant_set(&v, BOARD, (bw_varied)i, values[i]);
        ck_assert_double_eq_tol(value(BOARD, (bw_varied)i), values[i], 1e-12);
        /* nothing else of it but what is made up from it */
        if (i != BW_VARIED_DENSITY)
            ck_assert_double_eq(value(BOARD, BW_VARIED_DENSITY), 650);
        if (i != BW_VARIED_THICKNESS)
            ck_assert_double_eq(value(BOARD, BW_VARIED_THICKNESS), .02);
        if (i > BW_VARIED_SD)
            ck_assert_double_eq(value(BOARD, BW_VARIED_MU), 50);
    }
}
END_TEST

/* mu and sd keep the proportion of dry cup to wet cup, 50 to 20; what has one
 * mu only takes it for both. */
START_TEST(dry_cup_and_wet_cup_keep_their_proportion)
{
    bw_variant_set(&v, BOARD, BW_VARIED_MU, 100);
    ck_assert_double_eq(v.layer[BOARD].material->mu_wet.value, 40);
    bw_variant_set(&v, BOARD, BW_VARIED_SD, 0.5); /* mu 25 */
    ck_assert_double_eq(v.layer[BOARD].material->mu_dry.value, 25);
    ck_assert_double_eq(v.layer[BOARD].material->mu_wet.value, 10);
    bw_variant_set(&v, BEAM, BW_VARIED_MU, 80);
    ck_assert_double_eq(v.layer[BEAM].material->mu_dry.value, 80);
    ck_assert_double_eq(v.layer[BEAM].material->mu_wet.value, 80);
    bw_variant_set(&v, FOIL, BW_VARIED_SD, 3);
    ck_assert_double_eq(value(FOIL, BW_VARIED_SD), 3);
}
END_TEST

START_TEST(a_given_resistance_wins_over_lambda_until_lambda_is_set)
{
    bw_variant_set(&v, BOARD, BW_VARIED_RESISTANCE, 1.5);
    ck_assert_double_eq(value(BOARD, BW_VARIED_RESISTANCE), 1.5);
    ck_assert_double_nan(value(BOARD, BW_VARIED_LAMBDA));
    bw_variant_set(&v, BOARD, BW_VARIED_LAMBDA, .04);
    ck_assert_double_eq(value(BOARD, BW_VARIED_LAMBDA), .04);
    ck_assert_double_eq(value(BOARD, BW_VARIED_RESISTANCE), .5);
}
END_TEST

START_TEST(a_variable_layer_stays_one_until_one_sd_is_asked_for)
{
    bw_variant_set(&v, VARIABLE, BW_VARIED_SD, 3);
    const bw_curve *curve = &v.layer[VARIABLE].material->sd_curve;
    ck_assert_uint_eq(curve->count, 3);
    for (size_t i = 0; i < 3; ++i)
        ck_assert_double_eq(curve->y[i], 3);
    bw_variant_hold_curve(&v, FOIL, true); /* has none */
    ck_assert_ptr_eq(v.layer[FOIL].material, &foil);
    bw_variant_set_sd(&v, VARIABLE, 7);
    ck_assert_double_eq(value(VARIABLE, BW_VARIED_SD), 7);
    bw_variant_set_sd(&v, BOARD, 7); /* by its mu */
    ck_assert_double_eq_tol(value(BOARD, BW_VARIED_MU), 350, 1e-9);
    ck_assert_double_eq_tol(v.layer[BOARD].material->mu_wet.value, 350, 1e-9);
}
END_TEST

START_TEST(mu_is_held_only_where_both_are_known)
{
    v.layer[BEAM].framing = (bw_framing){.present = true, .material = &board};
    bw_variant_hold_mu(&v, BEAM, true, true);
    ck_assert_double_eq(v.layer[BEAM].framing.material->mu_dry.value, 20);
    bw_variant_hold_mu(&v, BOARD, false, false);
    ck_assert_double_eq(v.layer[BOARD].material->mu_wet.value, 50);
    bw_variant_hold_mu(&v, BEAM, false, false); /* only the wet one */
    ck_assert(!v.layer[BEAM].material->mu_dry.known);
    ck_assert_double_eq(v.layer[BEAM].material->mu_wet.value, 40);
}
END_TEST

/* A stated RH still holds for another material, a water content does not. */
START_TEST(what_was_said_of_a_material_goes_with_it)
{
    for (int rh = 0; rh < 2; ++rh) {
        bw_layer *to = &v.layer[BOARD];
        to->resistance = (bw_property)KNOWN(2);
        to->has_initial_moisture = true;
        to->initial_is_rh = rh == 1;
        bw_variant_exchange(&v, BOARD, &beam, 0.1);
        ck_assert_int_eq(to->has_initial_moisture, rh == 1);
        ck_assert(!to->resistance.known);
        ck_assert_int_eq(to->kind, BW_LAYER_SOLID);
        ck_assert_str_eq(to->name, "beam");
    }
    bw_variant_exchange(&v, BOARD, &beam, 0); /* no thickness, a sheet */
    ck_assert_int_eq(v.layer[BOARD].kind, BW_LAYER_MEMBRANE);
    bw_variant_exchange(&v, BOARD, &foil, 0.001);
    ck_assert_int_eq(v.layer[BOARD].kind, BW_LAYER_MEMBRANE);
}
END_TEST

START_TEST(layers_named_by_number_keep_their_layer_when_one_is_added)
{
    v.assembly->drying_test.after_layer = BEAM;
    v.assembly->rain_leak.given = true;
    v.assembly->rain_leak.after_layer = FOIL;
    bw_variant_membrane(&v, FOIL, true, 2, NULL);
    ck_assert_int_eq(v.assembly->drying_test.after_layer, BEAM);
    ck_assert_int_eq(v.assembly->rain_leak.after_layer, FOIL + 1);
    ck_assert_str_eq(v.layer[FOIL].id, "added-membrane");
    ck_assert_ptr_eq(v.layer[FOIL + 1].material, &foil);
    bw_variant_remove(&v, BOARD);
    ck_assert_int_eq(v.assembly->drying_test.after_layer, BEAM - 1);
    ck_assert_int_eq(v.assembly->rain_leak.after_layer, FOIL);
    ck_assert_uint_eq(bw_variant_done(&v)->layer_count, LAYERS);
}
END_TEST

/* There is room for one layer more; a second is refused like lack of memory,
 * and no later change is made. */
START_TEST(a_copy_has_room_for_one_layer_more)
{
    bw_variant_membrane(&v, 0, true, 2, &variable.sd_curve);
    ck_assert_uint_eq(v.layer[0].material->sd_curve.count, 3);
    ck_assert_ptr_nonnull(bw_variant_done(&v));
    bw_variant_membrane(&v, 0, true, 2, NULL);
    ck_assert_ptr_null(bw_variant_done(&v));
    bw_layer kept[LAYERS + 1];
    memcpy(kept, v.layer, sizeof kept);
    bw_variant_set(&v, 1, BW_VARIED_MU, 1);
    bw_variant_set_sd(&v, 1, 1);
    bw_variant_hold_curve(&v, 0, true);
    bw_variant_hold_mu(&v, 1, false, true);
    bw_variant_exchange(&v, 1, &foil, 0);
    bw_variant_membrane(&v, 1, false, 1, NULL);
    bw_variant_remove(&v, 1);
    bw_variant_ventilate(&v, 1, BW_VENT_WELL);
    bw_variant_built_in(&v, 0.3);
    ck_assert_mem_eq(kept, v.layer, sizeof kept);
    ck_assert_uint_eq(v.assembly->layer_count, LAYERS + 1);
}
END_TEST

START_TEST(a_leak_that_is_not_there_is_not_moved)
{
    v.assembly->drying_test.after_layer = -1;
    v.assembly->rain_leak.given = false;
    v.assembly->rain_leak.after_layer = FOIL;
    bw_variant_membrane(&v, 0, true, 2, NULL);
    ck_assert_int_eq(v.assembly->drying_test.after_layer, -1);
    ck_assert_int_eq(v.assembly->rain_leak.after_layer, FOIL);
    /* nor one that lies further out than what is taken away */
    v.assembly->rain_leak.given = true;
    bw_variant_remove(&v, FOIL + 1);
    ck_assert_int_eq(v.assembly->rain_leak.after_layer, FOIL);
}
END_TEST

START_TEST(a_variable_layer_is_held_at_its_dry_or_its_humid_end)
{
    for (int humid = 0; humid < 2; humid++) {
        bw_variant_hold_curve(&v, VARIABLE, humid == 1);
        const bw_curve *curve = &v.layer[VARIABLE].material->sd_curve;
        ck_assert_uint_eq(curve->count, 3);
        for (size_t i = 0; i < curve->count; i++)
            ck_assert_double_eq(curve->y[i], humid == 1 ? 0.5 : 5.0);
        v.layer[VARIABLE].material = &variable;
    }
    bw_variant_hold_curve(&v, FOIL, true);
    ck_assert_ptr_eq(v.layer[FOIL].material, &foil);
}
END_TEST

START_TEST(a_layer_without_thickness_takes_one_sd_for_all)
{
    v.layer[BOARD].thickness = 0;
    bw_variant_set_sd(&v, BOARD, 3);
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 3);
    ck_assert(!v.layer[BOARD].material->mu_dry.known);
    bw_variant_set_sd(&v, BEAM, 3); /* 20 mm thick */
    ck_assert_double_eq_tol(value(BEAM, BW_VARIED_MU), 150, 1e-9);
    ck_assert_double_eq_tol(value(BEAM, BW_VARIED_SD), 3, 1e-12);
}
END_TEST

START_TEST(a_cavity_that_is_closed_has_no_air_change)
{
    v.layer[BEAM].air_change = 0.01;
    bw_variant_ventilate(&v, BEAM, BW_VENT_WELL);
    ck_assert_double_eq(v.layer[BEAM].air_change, 0.01);
    bw_variant_ventilate(&v, BEAM, BW_VENT_NONE);
    ck_assert_double_eq(v.layer[BEAM].air_change, 0.0);
    ck_assert_int_eq(v.layer[BEAM].ventilation, BW_VENT_NONE);
}
END_TEST

START_TEST(the_wall_begins_inside_the_last_well_ventilated_cavity)
{
    ck_assert_uint_eq(bw_layers_outside(v.assembly, BW_VENT_WELL), 0);
    v.layer[BOARD].ventilation = BW_VENT_WELL; /* no cavity: says nothing */
    ck_assert_uint_eq(bw_layers_outside(v.assembly, BW_VENT_WELL), 0);
    v.layer[BEAM].kind = BW_LAYER_CAVITY;
    v.layer[BEAM].ventilation = BW_VENT_SLIGHT;
    ck_assert_uint_eq(bw_layers_outside(v.assembly, BW_VENT_WELL), 0);
    v.layer[BEAM].ventilation = BW_VENT_WELL;
    ck_assert_uint_eq(bw_layers_outside(v.assembly, BW_VENT_WELL), BEAM + 1);
}
END_TEST

/* An sd as sold yields to mu and thickness, one that was given does not. */
START_TEST(the_sd_of_a_layer_is_the_one_it_counts_with)
{
    bw_material both = board;
    both.sd = (bw_property)KNOWN(7);
    both.sd.basis = BW_BASIS_OPENED;
    v.layer[BOARD].material = &both;
    ck_assert(bw_layer_sd_by_mu(&v.layer[BOARD]));
    ck_assert_double_eq_tol(value(BOARD, BW_VARIED_SD), 50 * 0.02, 1e-12);
    both.sd.basis = BW_BASIS_GIVEN;
    ck_assert(!bw_layer_sd_by_mu(&v.layer[BOARD]));
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 7);
    both.sd.basis = BW_BASIS_OPENED;
    v.layer[BOARD].kind = BW_LAYER_MEMBRANE;
    ck_assert(!bw_layer_sd_by_mu(&v.layer[BOARD]));
    v.layer[BOARD].kind = BW_LAYER_SOLID;
    both.mu_dry.known = both.mu_wet.known = false;
    ck_assert(!bw_layer_sd_by_mu(&v.layer[BOARD]));
    both = board;
    both.sd = (bw_property)KNOWN(7);
    both.sd.basis = BW_BASIS_OPENED;
    v.layer[BOARD].thickness = 0;
    ck_assert(!bw_layer_sd_by_mu(&v.layer[BOARD]));
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 7);
}
END_TEST

START_TEST(built_in_moisture_is_that_of_wood_alone)
{
    v.layer[BOARD].initial_is_rh = true;
    v.layer[FOIL].framing = (bw_framing){.present = true, .material = &beam};
    v.layer[VARIABLE].framing = (bw_framing){.present = true,
                                             .material = &foil};
    bw_variant_built_in(&v, 0.3);
    ck_assert_double_eq(v.layer[FOIL].framing.initial_moisture, 0.3);
    ck_assert(v.layer[FOIL].framing.has_initial_moisture);
    ck_assert(!v.layer[VARIABLE].framing.has_initial_moisture);
    ck_assert(!v.layer[BEAM].framing.has_initial_moisture);
    for (size_t i = 0; i < LAYERS; ++i)
        ck_assert_int_eq(v.layer[i].has_initial_moisture, i < FOIL);
    ck_assert_double_eq(v.layer[BOARD].initial_moisture, 0.3);
    ck_assert_double_eq(v.layer[BEAM].initial_moisture, 0.3);
    ck_assert(!v.layer[BOARD].initial_is_rh);
}
END_TEST

START_TEST(an_assembly_without_layers_can_be_copied)
{
    bw_assembly empty = {.id = "empty"};
    bw_arena_release(&arena);
    bw_variant_start(&v, &arena, &empty);
    ck_assert_uint_eq(bw_variant_done(&v)->layer_count, 0);
    bw_variant_membrane(&v, 0, true, 2, NULL);
    ck_assert_uint_eq(bw_variant_done(&v)->layer_count, 1);
}
END_TEST

START_TEST(indoor_humidity_steps_up_to_the_last_step)
{
    bw_indoors in = {.kind = BW_INDOOR_CLASS, .humidity_class = 4};
    ck_assert(bw_indoors_step_up(&in) && in.humidity_class == 5);
    ck_assert(!bw_indoors_step_up(&in) && in.humidity_class == 5);
    in = (bw_indoors){.kind = BW_INDOOR_RH, .relative_humidity = .85};
    ck_assert(bw_indoors_step_up(&in));
    ck_assert_double_eq_tol(in.relative_humidity, .95, 1e-12);
    ck_assert(!bw_indoors_step_up(&in));
    ck_assert_double_eq_tol(in.relative_humidity, .95, 1e-12);
    in = (bw_indoors){.kind = BW_INDOOR_EN15026};
    ck_assert(bw_indoors_step_up(&in) && in.en15026_high);
    ck_assert(!bw_indoors_step_up(&in));
}
END_TEST

/* Ten points of RH in each month, at most saturation. */
START_TEST(monthly_rows_gain_ten_points_up_to_saturation)
{
    bw_indoors in = {.kind = BW_INDOOR_MONTHS};
    for (int m = 0; m < BW_MONTHS; ++m) {
        in.month_temperature[m] = 20;
        in.month_vapour_pressure[m] = bw_vapour_pressure(
            20, m == 11 ? .95 : .50, BW_OVER_ICE);
    }
    ck_assert(bw_indoors_step_up(&in));
    for (int m = 0; m < BW_MONTHS; ++m)
        ck_assert_double_eq_tol(
            bw_relative_humidity(20, in.month_vapour_pressure[m]),
            m == 11 ? 1 : .6, 1e-12);
}
END_TEST

static Suite *suite(void)
{
    Suite *s = suite_create("variant");
    TCase *c = tcase_create("variant");
    tcase_add_checked_fixture(c, setup, teardown);
    tcase_add_test(c, every_word_is_its_property_and_no_other);
    tcase_add_test(c, a_layer_has_the_values_it_is_drawn_with);
    tcase_add_test(c, what_is_set_is_what_the_layer_then_has);
    tcase_add_test(c, dry_cup_and_wet_cup_keep_their_proportion);
    tcase_add_test(c, a_given_resistance_wins_over_lambda_until_lambda_is_set);
    tcase_add_test(c, a_variable_layer_stays_one_until_one_sd_is_asked_for);
    tcase_add_test(c, mu_is_held_only_where_both_are_known);
    tcase_add_test(c, what_was_said_of_a_material_goes_with_it);
    tcase_add_test(c,
                   layers_named_by_number_keep_their_layer_when_one_is_added);
    tcase_add_test(c, a_copy_has_room_for_one_layer_more);
    tcase_add_test(c, a_leak_that_is_not_there_is_not_moved);
    tcase_add_test(c, a_variable_layer_is_held_at_its_dry_or_its_humid_end);
    tcase_add_test(c, a_layer_without_thickness_takes_one_sd_for_all);
    tcase_add_test(c, a_cavity_that_is_closed_has_no_air_change);
    tcase_add_test(c, the_wall_begins_inside_the_last_well_ventilated_cavity);
    tcase_add_test(c, the_sd_of_a_layer_is_the_one_it_counts_with);
    tcase_add_test(c, built_in_moisture_is_that_of_wood_alone);
    tcase_add_test(c, an_assembly_without_layers_can_be_copied);
    tcase_add_test(c, indoor_humidity_steps_up_to_the_last_step);
    tcase_add_test(c, monthly_rows_gain_ten_points_up_to_saturation);
    suite_add_tcase(s, c);
    return s;
}

int main(void)
{
    SRunner *r = srunner_create(suite());
    srunner_run_all(r, CK_NORMAL);
    int failed = srunner_ntests_failed(r);
    srunner_free(r);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
