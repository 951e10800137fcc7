/* Changed copies of an assembly: what each change sets, what it leaves alone,
 * and that the original never moves. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assembly/change.h"
#include "beyond.h"
#include "bothways/air.h"
#include "bothways/geography.h"
#include "suite.h"

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
/* The copy, to be looked at and changed further. */
static bw_assembly *wall;

static void change(bw_change what)
{
    bw_assembly *to = (bw_assembly *)(uintptr_t)bw_change_apply(&arena, wall,
                                                                &what);
    ck_assert_ptr_nonnull(to);
    wall = to;
}

static void make(bw_change_kind kind, size_t of, double to)
{
    change((bw_change){.kind = kind, .layer = of, .value = to});
}

static void set(size_t of, bw_varied property, double to)
{
    change((bw_change){.kind = BW_CHANGE_PROPERTY,
                       .layer = of,
                       .property = property,
                       .value = to});
}

/* A layer of the copy, to be written. */
static bw_layer *at(size_t index)
{
    return (bw_layer *)(uintptr_t)&wall->layer[index];
}

static void start(const bw_assembly *from)
{
    wall = (bw_assembly *)(uintptr_t)from;
    change((bw_change){.kind = BW_CHANGE_NOTHING});
}

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
    start(&drawn);
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
    return bw_layer_value(&wall->layer[of], property);
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
        start(&drawn);
        set(BOARD, (bw_varied)i, values[i]);
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
    set(BOARD, BW_VARIED_MU, 100);
    ck_assert_double_eq(at(BOARD)->material->mu_wet.value, 40);
    set(BOARD, BW_VARIED_SD, 0.5); /* mu 25 */
    ck_assert_double_eq(at(BOARD)->material->mu_dry.value, 25);
    ck_assert_double_eq(at(BOARD)->material->mu_wet.value, 10);
    set(BEAM, BW_VARIED_MU, 80);
    ck_assert_double_eq(at(BEAM)->material->mu_dry.value, 80);
    ck_assert_double_eq(at(BEAM)->material->mu_wet.value, 80);
    set(FOIL, BW_VARIED_SD, 3);
    ck_assert_double_eq(value(FOIL, BW_VARIED_SD), 3);
}
END_TEST

START_TEST(a_given_resistance_wins_over_lambda_until_lambda_is_set)
{
    set(BOARD, BW_VARIED_RESISTANCE, 1.5);
    ck_assert_double_eq(value(BOARD, BW_VARIED_RESISTANCE), 1.5);
    ck_assert_double_nan(value(BOARD, BW_VARIED_LAMBDA));
    set(BOARD, BW_VARIED_LAMBDA, .04);
    ck_assert_double_eq(value(BOARD, BW_VARIED_LAMBDA), .04);
    ck_assert_double_eq(value(BOARD, BW_VARIED_RESISTANCE), .5);
}
END_TEST

START_TEST(a_variable_layer_stays_one_until_one_sd_is_asked_for)
{
    set(VARIABLE, BW_VARIED_SD, 3);
    const bw_curve *curve = &at(VARIABLE)->material->sd_curve;
    ck_assert_uint_eq(curve->count, 3);
    for (size_t i = 0; i < 3; ++i)
        ck_assert_double_eq(curve->y[i], 3);
    make(BW_CHANGE_CURVE, FOIL, 1); /* has none */
    ck_assert_ptr_eq(at(FOIL)->material, &foil);
    make(BW_CHANGE_SD, VARIABLE, 7);
    ck_assert_double_eq(value(VARIABLE, BW_VARIED_SD), 7);
    make(BW_CHANGE_SD, BOARD, 7); /* by its mu */
    ck_assert_double_eq_tol(value(BOARD, BW_VARIED_MU), 350, 1e-9);
    ck_assert_double_eq_tol(at(BOARD)->material->mu_wet.value, 350, 1e-9);
}
END_TEST

START_TEST(mu_is_held_only_where_both_are_known)
{
    at(BEAM)->framing = (bw_framing){.present = true, .material = &board};
    make(BW_CHANGE_FRAMING_MU, 0, 1);
    ck_assert_double_eq(at(BEAM)->framing.material->mu_dry.value, 20);
    make(BW_CHANGE_MU, BOARD, 0);
    ck_assert_double_eq(at(BOARD)->material->mu_wet.value, 50);
    make(BW_CHANGE_MU, BEAM, 0); /* only the wet one */
    ck_assert(!at(BEAM)->material->mu_dry.known);
    ck_assert_double_eq(at(BEAM)->material->mu_wet.value, 40);
}
END_TEST

/* A stated RH still holds for another material, a water content does not. */
START_TEST(what_was_said_of_a_material_goes_with_it)
{
    for (int rh = 0; rh < 2; ++rh) {
        bw_layer *to = at(BOARD);
        to->resistance = (bw_property)KNOWN(2);
        to->has_initial_moisture = true;
        to->initial_is_rh = rh == 1;
        change((bw_change){.kind = BW_CHANGE_MATERIAL,
                           .layer = BOARD,
                           .value = 0.1,
                           .material = &beam});
        to = at(BOARD);
        ck_assert_int_eq(to->has_initial_moisture, rh == 1);
        ck_assert(!to->resistance.known);
        ck_assert_int_eq(to->kind, BW_LAYER_SOLID);
        ck_assert_str_eq(to->name, "beam");
    }
    change((bw_change){.kind = BW_CHANGE_MATERIAL,
                       .layer = BOARD,
                       .value = 0,
                       .material = &beam}); /* no thickness, a sheet */
    ck_assert_int_eq(at(BOARD)->kind, BW_LAYER_MEMBRANE);
    change((bw_change){.kind = BW_CHANGE_MATERIAL,
                       .layer = BOARD,
                       .value = 0.001,
                       .material = &foil});
    ck_assert_int_eq(at(BOARD)->kind, BW_LAYER_MEMBRANE);
}
END_TEST

START_TEST(layers_named_by_number_keep_their_layer_when_one_is_added)
{
    wall->drying_test.after_layer = BEAM;
    wall->rain_leak.given = true;
    wall->rain_leak.after_layer = FOIL;
    make(BW_CHANGE_ADDED, FOIL, 2);
    ck_assert_int_eq(wall->drying_test.after_layer, BEAM);
    ck_assert_int_eq(wall->rain_leak.after_layer, FOIL + 1);
    ck_assert_str_eq(at(FOIL)->id, "added-membrane");
    ck_assert_ptr_eq(at(FOIL + 1)->material, &foil);
    make(BW_CHANGE_REMOVED, BOARD, 0);
    ck_assert_int_eq(wall->drying_test.after_layer, BEAM - 1);
    ck_assert_int_eq(wall->rain_leak.after_layer, FOIL);
    ck_assert_uint_eq(wall->layer_count, LAYERS);
}
END_TEST

START_TEST(rain_that_leaked_in_behind_a_layer_left_out_leaks_in_still)
{
    wall->rain_leak.given = true;
    wall->rain_leak.after_layer = BOARD;
    make(BW_CHANGE_REMOVED, BOARD, 0);
    ck_assert_int_eq(wall->rain_leak.after_layer, 0);
}
END_TEST

/* As many layers as changes may be added, and the original has none of them. */
START_TEST(a_copy_has_room_for_what_is_added)
{
    const bw_change two[] = {
        {.kind = BW_CHANGE_ADDED, .curve = &variable.sd_curve},
        {.kind = BW_CHANGE_ADDED, .value = 2},
    };
    const bw_assembly *to = bw_changes_apply(&arena, &drawn, two, COUNT(two));
    ck_assert_uint_eq(to->layer_count, LAYERS + 2);
    ck_assert_double_eq(to->layer[0].material->sd.value, 2);
    ck_assert_uint_eq(to->layer[1].material->sd_curve.count, 3);
    ck_assert_ptr_eq(to->layer[2].material, &board);
    ck_assert_ptr_eq(to->layer[LAYERS + 1].material, &variable);
}
END_TEST

/* No advice may put a film that lets water through where a sheet is stated to
 * keep the soil's out. */
START_TEST(waterproofing_moves_with_its_layer_and_goes_with_it)
{
    const bw_change ways[] = {
        {.kind = BW_CHANGE_MATERIAL, .layer = FOIL, .material = &foil},
        {.kind = BW_CHANGE_MEMBRANE, .layer = FOIL, .value = 2},
        {.kind = BW_CHANGE_REMOVED, .layer = FOIL},
    };
    wall->beyond = (bw_beyond){&bw_beyond_ground, {1.0, 0.0, 1.0, FOIL}};
    make(BW_CHANGE_ADDED, FOIL, 2);
    ck_assert_int_eq(bw_beyond_tight_layer(&wall->beyond), FOIL + 1);
    make(BW_CHANGE_REMOVED, BOARD, 0);
    ck_assert_int_eq(bw_beyond_tight_layer(&wall->beyond), FOIL);
    for (size_t i = 0; i < COUNT(ways); i++)
        ck_assert_int_eq(bw_beyond_tight_layer(
                             &bw_change_apply(&arena, wall, &ways[i])->beyond),
                         -1);
    ck_assert_int_eq(bw_beyond_tight_layer(&wall->beyond), FOIL);
}
END_TEST

START_TEST(a_leak_that_is_not_there_is_not_moved)
{
    wall->drying_test.after_layer = -1;
    wall->rain_leak.given = false;
    wall->rain_leak.after_layer = FOIL;
    make(BW_CHANGE_ADDED, 0, 2);
    ck_assert_int_eq(wall->drying_test.after_layer, -1);
    ck_assert_int_eq(wall->rain_leak.after_layer, FOIL);
    /* nor one that lies further out than what is taken away */
    wall->rain_leak.given = true;
    make(BW_CHANGE_REMOVED, FOIL + 1, 0);
    ck_assert_int_eq(wall->rain_leak.after_layer, FOIL);
}
END_TEST

START_TEST(a_variable_layer_is_held_at_its_dry_or_its_humid_end)
{
    for (int humid = 0; humid < 2; humid++) {
        make(BW_CHANGE_CURVE, VARIABLE, humid);
        const bw_curve *curve = &at(VARIABLE)->material->sd_curve;
        ck_assert_uint_eq(curve->count, 3);
        for (size_t i = 0; i < curve->count; i++)
            ck_assert_double_eq(curve->y[i], humid == 1 ? 0.5 : 5.0);
        at(VARIABLE)->material = &variable;
    }
    make(BW_CHANGE_CURVE, FOIL, 1);
    ck_assert_ptr_eq(at(FOIL)->material, &foil);
}
END_TEST

START_TEST(a_layer_without_thickness_takes_one_sd_for_all)
{
    at(BOARD)->thickness = 0;
    make(BW_CHANGE_SD, BOARD, 3);
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 3);
    ck_assert(!at(BOARD)->material->mu_dry.known);
    make(BW_CHANGE_SD, BEAM, 3); /* 20 mm thick */
    ck_assert_double_eq_tol(value(BEAM, BW_VARIED_MU), 150, 1e-9);
    ck_assert_double_eq_tol(value(BEAM, BW_VARIED_SD), 3, 1e-12);
}
END_TEST

START_TEST(a_cavity_opened_or_closed_has_no_air_change_of_its_own)
{
    at(BEAM)->air_change = 0.01;
    make(BW_CHANGE_OPENED, BEAM, 0);
    ck_assert_double_eq(at(BEAM)->air_change, 0.0);
    ck_assert_int_eq(at(BEAM)->ventilation, BW_VENT_WELL);
    make(BW_CHANGE_AIR_CHANGE, BEAM, 0.02);
    ck_assert_double_eq(at(BEAM)->air_change, 0.02);
    make(BW_CHANGE_BLOCKED, BEAM, 0);
    ck_assert_double_eq(at(BEAM)->air_change, 0.0);
    ck_assert_int_eq(at(BEAM)->ventilation, BW_VENT_NONE);
}
END_TEST

START_TEST(the_wall_begins_inside_the_last_well_ventilated_cavity)
{
    ck_assert_uint_eq(bw_layers_outside(wall, BW_VENT_WELL), 0);
    at(BOARD)->ventilation = BW_VENT_WELL; /* no cavity: says nothing */
    ck_assert_uint_eq(bw_layers_outside(wall, BW_VENT_WELL), 0);
    at(BEAM)->kind = BW_LAYER_CAVITY;
    at(BEAM)->ventilation = BW_VENT_SLIGHT;
    ck_assert_uint_eq(bw_layers_outside(wall, BW_VENT_WELL), 0);
    at(BEAM)->ventilation = BW_VENT_WELL;
    ck_assert_uint_eq(bw_layers_outside(wall, BW_VENT_WELL), BEAM + 1);
}
END_TEST

/* An sd as sold yields to mu and thickness, one that was given does not. */
START_TEST(the_sd_of_a_layer_is_the_one_it_counts_with)
{
    bw_material both = board;
    both.sd = (bw_property)KNOWN(7);
    both.sd.basis = BW_BASIS_OPENED;
    at(BOARD)->material = &both;
    ck_assert(bw_layer_sd_by_mu(at(BOARD)));
    ck_assert_double_eq_tol(value(BOARD, BW_VARIED_SD), 50 * 0.02, 1e-12);
    both.sd.basis = BW_BASIS_GIVEN;
    ck_assert(!bw_layer_sd_by_mu(at(BOARD)));
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 7);
    both.sd.basis = BW_BASIS_OPENED;
    at(BOARD)->kind = BW_LAYER_MEMBRANE;
    ck_assert(!bw_layer_sd_by_mu(at(BOARD)));
    at(BOARD)->kind = BW_LAYER_SOLID;
    both.mu_dry.known = both.mu_wet.known = false;
    ck_assert(!bw_layer_sd_by_mu(at(BOARD)));
    both = board;
    both.sd = (bw_property)KNOWN(7);
    both.sd.basis = BW_BASIS_OPENED;
    at(BOARD)->thickness = 0;
    ck_assert(!bw_layer_sd_by_mu(at(BOARD)));
    ck_assert_double_eq(value(BOARD, BW_VARIED_SD), 7);
}
END_TEST

START_TEST(built_in_moisture_is_that_of_wood_alone)
{
    at(BOARD)->initial_is_rh = true;
    at(FOIL)->framing = (bw_framing){.present = true, .material = &beam};
    at(VARIABLE)->framing = (bw_framing){.present = true, .material = &foil};
    make(BW_CHANGE_BUILT_IN, 0, 0.3);
    ck_assert_double_eq(at(FOIL)->framing.initial_moisture, 0.3);
    ck_assert(at(FOIL)->framing.has_initial_moisture);
    ck_assert(!at(VARIABLE)->framing.has_initial_moisture);
    ck_assert(!at(BEAM)->framing.has_initial_moisture);
    for (size_t i = 0; i < LAYERS; ++i)
        ck_assert_int_eq(at(i)->has_initial_moisture, i < FOIL);
    ck_assert_double_eq(at(BOARD)->initial_moisture, 0.3);
    ck_assert_double_eq(at(BEAM)->initial_moisture, 0.3);
    ck_assert(!at(BOARD)->initial_is_rh);
}
END_TEST

/* ---- water that a layer holds ----------------------------------------------
 */

/* A board of 500 kg/m3 whose curve ends at 0.2 kg/kg (100 kg/m3); pores given.
 */
static bw_material store(double w_f, double low, double high, double porosity)
{
    static const double rh[] = {0.5, 0.9}, u[] = {0.1, 0.2};
    return (bw_material){.id = "store",
                         .name = "store",
                         .group = "board",
                         .density = KNOWN(500),
                         .porosity = KNOWN(porosity),
                         .free_saturation = {.known = true,
                                             .value = w_f,
                                             .has_range = low < high,
                                             .low = low,
                                             .high = high,
                                             .source = "",
                                             .note = ""},
                         .sorption = {2, rh, u, BW_BASIS_ESTIMATE, "", ""}};
}

/* A quarter more or less (estimate) without a range; no less than it takes up
 * from damp air and a twentieth, no more than its pores hold. By hand. */
static const struct saturated_row {
    double w_f, low, high, porosity; /* kg/m3, m3/m3 */
    double least, most;
} saturated_rows[] = {
    {400, 0, 0, 0.8, 320, 500},   {400, 350, 420, 0.8, 350, 420},
    {400, 0, 0, 0.45, 320, 450},  {120, 0, 0, 0.8, 105, 150},
    {102, 0, 0, 0.8, 102, 127.5}, {400, 0, 0, 0.3, 320, 400},
};

START_TEST(free_saturation_goes_to_its_least_and_its_most)
{
    const struct saturated_row *row = &saturated_rows[_i];
    const bw_material m = store(row->w_f, row->low, row->high, row->porosity);
    for (int high = 0; high < 2; high++) {
        start(&drawn);
        at(BOARD)->material = &m;
        make(BW_CHANGE_SATURATION, 0, high);
        ck_assert_double_eq_tol(at(BOARD)->material->free_saturation.value,
                                high ? row->most : row->least, 1e-9);
        ck_assert(!at(BEAM)->material->free_saturation.known);
    }
}
END_TEST

/* Every point as much more; the last no more than 0.95 w_f, by mass. */
START_TEST(sorption_goes_up_and_down_below_free_saturation)
{
    static const struct {
        double w_f, times, last;
    } rows[] = {
        {400, 0.7, 0.14}, {400, 1.3, 0.26}, {120, 1.3, 0.228}, {100, 1.3, 0.2}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const bw_material m = store(rows[i].w_f, 0, 0, 0.8);
        start(&drawn);
        at(BOARD)->material = &m;
        make(BW_CHANGE_SORPTION, 0, rows[i].times);
        const bw_curve *u = &at(BOARD)->material->sorption;
        ck_assert_uint_eq(u->count, 2);
        ck_assert_double_eq_tol(u->y[1], rows[i].last, 1e-12);
        ck_assert_double_eq_tol(u->y[0], 0.5 * rows[i].last, 1e-12);
        ck_assert_double_eq(u->x[1], 0.9);
    }
}
END_TEST

START_TEST(what_lies_against_a_face_is_found_by_its_name)
{
    bw_beyond soil = {.kind = &bw_beyond_ground};
    double found = -1.0;
    int count = 0;
    for (; soil.kind->attribute[count].name != NULL; count++)
        soil.value[count] = 10.0 + count;
    ck_assert_int_eq(count, 4);
    for (int i = 0; i < count; i++) {
        ck_assert(bw_beyond_value(&found, &soil, soil.kind->attribute[i].name));
        ck_assert_double_eq(found, 10.0 + i);
    }
    ck_assert(!bw_beyond_value(&found, &soil, "dept"));
    soil.kind = NULL;
    ck_assert(!bw_beyond_value(&found, &soil, "depth"));
    ck_assert_double_eq(found, 13.0);
}
END_TEST

/* At 25 % RH, straight in ln sd: of 5 m at 20 % and 2 m at 50 % it is
 * 5 x 0.4^(5/30) = 4.292 m; two points are a curve, too. */
START_TEST(a_layer_s_dry_sd_is_that_at_25_percent)
{
    bw_material two = variable;
    two.sd_curve = bw_variable_membrane;
    ck_assert_double_eq_tol(bw_layer_dry_sd(at(VARIABLE)), 4.292, 1e-3);
    at(VARIABLE)->material = &two;
    ck_assert_double_eq_tol(bw_layer_dry_sd(at(VARIABLE)), 2.0, 1e-12);
    ck_assert_double_eq_tol(bw_layer_dry_sd(at(FOIL)), 20.0, 1e-12);
    ck_assert_double_eq_tol(bw_layer_dry_sd(at(BOARD)), 1.0, 1e-12);
}
END_TEST

/* DIN 4108-3:2018, class limits [S]. */
START_TEST(the_variable_membrane_that_is_tried_has_the_limits_of_its_class)
{
    const bw_curve *sd = &bw_variable_membrane;
    ck_assert_uint_eq(sd->count, 2);
    ck_assert_double_eq(sd->x[0], 0.25);
    ck_assert_double_eq(sd->y[0], 2.0);
    ck_assert_double_eq(sd->x[1], 0.90);
    ck_assert_double_eq(sd->y[1], 0.5);
}
END_TEST

/* ---- words ----------------------------------------------------------------
 */

/* 1 m = 1000 mm, 1 h = 3600 s, 1 = 100 %. */
static const struct {
    bw_change_kind kind;
    const char *unit;
    double per_si;
} units[] = {
    {BW_CHANGE_SD, "m", 1.0},
    {BW_CHANGE_STUDS, "mm", 1000.0},
    {BW_CHANGE_MEMBRANE, "m", 1.0},
    {BW_CHANGE_ADDED, "m", 1.0},
    {BW_CHANGE_CLASS, "-", 1.0},
    {BW_CHANGE_ROOM, "% RH", 100.0},
    {BW_CHANGE_AIR_LEAKAGE, "m3/(m2 h)", 3600.0},
    {BW_CHANGE_BUILT_IN, "% moisture", 100.0},
    {BW_CHANGE_ABSORPTION, "kg/(m2 s0.5)", 1.0},
    {BW_CHANGE_SORPTION, "-", 1.0},
    {BW_CHANGE_AIR_CHANGE, "1/h", 3600.0},
    {BW_CHANGE_START, "% RH", 100.0},
};

START_TEST(a_change_is_told_in_a_unit_that_its_number_fits)
{
    for (size_t i = 0; i < COUNT(units); i++) {
        const bw_change what = {.kind = units[i].kind};
        const bw_change_facts facts = bw_change_facts_of(&what);
        ck_assert_str_eq(facts.unit, units[i].unit);
        ck_assert_double_eq(facts.per_si, units[i].per_si);
    }
}
END_TEST

/* No kind without words, no two alike: a reader of a margin must tell them
 * apart. */
START_TEST(every_change_has_words_of_its_own)
{
    const char *words[BW_CHANGE_KINDS];
    at(BOARD)->framing = (bw_framing){.present = true, .material = &board};
    for (int k = 0; k < BW_CHANGE_KINDS; k++) {
        const bw_change what = {.kind = (bw_change_kind)k,
                                .layer = k == BW_CHANGE_CURVE ? VARIABLE
                                                              : BOARD,
                                .value = 1.0,
                                .material = &beam};
        words[k] = bw_change_words(&arena, wall, &what);
        ck_assert_str_ne(words[k], "");
        ck_assert_str_ne(bw_change_subject(&arena, wall, &what), "");
        for (int i = 0; i < k; i++)
            ck_assert_str_ne(words[i], words[k]);
    }
}
END_TEST

/* The numbers said are those given, in the unit that people use. */
START_TEST(a_change_is_said_with_the_unit_of_its_kind)
{
    static const struct {
        bw_change change;
        const char *words;
    } rows[] = {
        {{BW_CHANGE_PROPERTY, FOIL, .property = BW_VARIED_SD, .value = 2},
         "sd of foil 2 m"},
        {{BW_CHANGE_AIR_CHANGE, BEAM, .value = 10.0 / 3600.0},
         "air changes of beam 10 1/h"},
        {{BW_CHANGE_START, .value = 0.95},
         "every layer at the start at 95 % RH"},
        {{BW_CHANGE_RAIN_LEAK, .value = 0.01},
         "1 % of the driving rain leaks in"},
        {{BW_CHANGE_CURVE, VARIABLE, .value = 1},
         "variable held at its humid sd of 0.5 m"},
        {{.kind = BW_CHANGE_MU, .layer = BOARD}, "mu of board dry-cup (50)"},
        {{BW_CHANGE_MATERIAL, BOARD, .value = 0.1, .material = &beam},
         "beam 100 mm in place of board"},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_str_eq(bw_change_words(&arena, wall, &rows[i].change),
                         rows[i].words);
}
END_TEST

START_TEST(an_assembly_without_layers_can_be_copied)
{
    bw_assembly empty = {.id = "empty"};
    bw_arena_release(&arena);
    start(&empty);
    ck_assert_uint_eq(wall->layer_count, 0);
    make(BW_CHANGE_ADDED, 0, 2);
    ck_assert_uint_eq(wall->layer_count, 1);
}
END_TEST

START_TEST(indoor_humidity_steps_up_to_the_last_step)
{
    bw_indoors in = {.kind = BW_INDOOR_CLASS, .humidity_class = 4};
    ck_assert(bw_indoors_step(&in, true) && in.humidity_class == 5);
    ck_assert(!bw_indoors_step(&in, true) && in.humidity_class == 5);
    in = (bw_indoors){.kind = BW_INDOOR_RH, .relative_humidity = .85};
    ck_assert(bw_indoors_step(&in, true));
    ck_assert_double_eq_tol(in.relative_humidity, .95, 1e-12);
    ck_assert(!bw_indoors_step(&in, true));
    ck_assert_double_eq_tol(in.relative_humidity, .95, 1e-12);
    in = (bw_indoors){.kind = BW_INDOOR_EN15026};
    ck_assert(bw_indoors_step(&in, true) && in.en15026_high);
    ck_assert(!bw_indoors_step(&in, true));
}
END_TEST

/* 12 months of 14.5 to 25.5 degC have a mean of 20; a room that is a number
 * keeps its temperature and its margin. */
START_TEST(a_room_is_held_at_one_humidity)
{
    static const struct {
        bw_indoor_kind kind;
        double temperature;
        bool margin;
    } rows[] = {{BW_INDOOR_CLASS, 17, false},
                {BW_INDOOR_RH, 17, true},
                {BW_INDOOR_EN15026, 20, false},
                {BW_INDOOR_MONTHS, 20, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_indoors *in = &wall->indoors;
        *in = (bw_indoors){
            .kind = rows[i].kind, .temperature = 17, .margin = true};
        for (int m = 0; m < BW_MONTHS; ++m)
            in->month_temperature[m] = 14.5 + m;
        make(BW_CHANGE_ROOM, 0, .55);
        ck_assert_int_eq(wall->indoors.kind, BW_INDOOR_RH);
        ck_assert_double_eq(wall->indoors.relative_humidity, .55);
        ck_assert_double_eq(wall->indoors.temperature, rows[i].temperature);
        ck_assert_int_eq(wall->indoors.margin, rows[i].margin);
    }
    make(BW_CHANGE_CLASS, 0, 4);
    ck_assert_int_eq(wall->indoors.humidity_class, 4);
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
    ck_assert(bw_indoors_step(&in, true));
    for (int m = 0; m < BW_MONTHS; ++m)
        ck_assert_double_eq_tol(
            bw_relative_humidity(20, in.month_vapour_pressure[m]),
            m == 11 ? 1 : .6, 1e-12);
}
END_TEST

SUITE_AROUND(
    "change", setup, teardown,
    FACT(a_change_is_told_in_a_unit_that_its_number_fits),
    FACT(what_lies_against_a_face_is_found_by_its_name),
    FACT(a_layer_s_dry_sd_is_that_at_25_percent),
    EACH(free_saturation_goes_to_its_least_and_its_most, COUNT(saturated_rows)),
    FACT(sorption_goes_up_and_down_below_free_saturation),
    FACT(the_variable_membrane_that_is_tried_has_the_limits_of_its_class),
    FACT(every_word_is_its_property_and_no_other),
    FACT(a_layer_has_the_values_it_is_drawn_with),
    FACT(what_is_set_is_what_the_layer_then_has),
    FACT(dry_cup_and_wet_cup_keep_their_proportion),
    FACT(a_given_resistance_wins_over_lambda_until_lambda_is_set),
    FACT(a_variable_layer_stays_one_until_one_sd_is_asked_for),
    FACT(mu_is_held_only_where_both_are_known),
    FACT(what_was_said_of_a_material_goes_with_it),
    FACT(layers_named_by_number_keep_their_layer_when_one_is_added),
    FACT(rain_that_leaked_in_behind_a_layer_left_out_leaks_in_still),
    FACT(a_copy_has_room_for_what_is_added),
    FACT(waterproofing_moves_with_its_layer_and_goes_with_it),
    FACT(a_leak_that_is_not_there_is_not_moved),
    FACT(a_variable_layer_is_held_at_its_dry_or_its_humid_end),
    FACT(a_layer_without_thickness_takes_one_sd_for_all),
    FACT(a_cavity_opened_or_closed_has_no_air_change_of_its_own),
    FACT(the_wall_begins_inside_the_last_well_ventilated_cavity),
    FACT(the_sd_of_a_layer_is_the_one_it_counts_with),
    FACT(built_in_moisture_is_that_of_wood_alone),
    FACT(every_change_has_words_of_its_own),
    FACT(a_change_is_said_with_the_unit_of_its_kind),
    FACT(an_assembly_without_layers_can_be_copied),
    FACT(indoor_humidity_steps_up_to_the_last_step),
    FACT(a_room_is_held_at_one_humidity),
    FACT(monthly_rows_gain_ten_points_up_to_saturation))
