/* The changes that are tried to find advice: which are proposed for which
 * wall, and what each does to it. Walls are plain data. Thresholds are those
 * of docs/methods.md (Advice): choices of this project, no standard's. */

#include <math.h>
#include <stdlib.h>

#include "assembly/variant.h"
#include "criteria/propose.h"
#include "has_words.h"
#include "one_case.h"
#include "suite.h"

static bw_proposal change[BW_PROPOSALS_MOST];
static size_t count;

/* Proposes anew; how many of this kind, the first of them in *first. */
static size_t proposed(bw_proposal_kind kind, const bw_proposal **first)
{
    size_t found = 0;
    count = bw_propose(change, &c.rows, &c.assembly);
    *first = NULL;
    for (size_t i = 0; i < count; i++)
        if (change[i].kind == kind && found++ == 0)
            *first = &change[i];
    return found;
}

static const bw_assembly *with(const bw_proposal *one)
{
    ck_assert_ptr_nonnull(one);
    const bw_assembly *to = bw_change_apply(&c.arena, &c.assembly,
                                            &one->change);
    ck_assert_ptr_nonnull(to);
    return to;
}

START_TEST(the_tighter_of_two_membranes_inside_is_exchanged)
{
    const bw_proposal *one;
    bw_material tight = c.material[CASE_FOIL];
    tight.sd = case_value(20.0);
    c.layer[CASE_LAYERS] = c.layer[CASE_LINING];
    c.layer[CASE_LINING] = c.layer[CASE_FOIL];
    c.layer[CASE_LINING].name = "second";
    c.assembly.layer_count = CASE_LAYERS + 1;
    c.layer[CASE_LINING].material = &tight;
    /* variable, sd 2, sd 5, none */
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 4);
    ck_assert_uint_eq(one->change.layer, CASE_LINING);
    c.layer[CASE_LINING].material = &c.material[CASE_FOIL];
    c.layer[CASE_FOIL].material = &tight;
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 4);
    ck_assert_uint_eq(one->change.layer, CASE_FOIL);
}
END_TEST

START_TEST(no_membrane_is_offered_that_is_there_already)
{
    const bw_proposal *one;
    /* sd 2: not sd 2 again; 5 differs by more than 30 % */
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 3);
    ck_assert_ptr_eq(one->change.curve, &bw_variable_membrane);
    static const double rh[] = {0.25, 0.90}, sd[] = {4.0, 0.3};
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = rh, .y = sd, .source = "test", .note = ""};
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 3);
    ck_assert_ptr_null(one->change.curve);
    ck_assert_double_eq(one->change.value, 2.0);
    ck_assert_double_eq(with(one)->layer[CASE_FOIL].material->sd.value, 2.0);
}
END_TEST

START_TEST(the_variable_membrane_is_at_the_class_limits_of_din_4108_3)
{
    const bw_proposal *one;
    proposed(BW_PROPOSE_MEMBRANE, &one);
    const bw_curve *curve = &with(one)->layer[CASE_FOIL].material->sd_curve;
    ck_assert_uint_eq(curve->count, 2);
    ck_assert_double_eq_tol(bw_curve_log(curve, 0.25), 2.0, 1e-12);
    ck_assert_double_eq_tol(bw_curve_log(curve, 0.90), 0.5, 1e-12);
    /* halfway in humidity: the geometric mean, sqrt(2.0 0.5) */
    ck_assert_double_eq_tol(bw_curve_log(curve, 0.575), 1.0, 1e-12);
}
END_TEST

START_TEST(a_membrane_outside_the_insulation_is_none_inside_it)
{
    const bw_proposal *one;
    bw_layer foil = c.layer[CASE_FOIL];
    c.layer[CASE_FOIL] = c.layer[CASE_INSULATION];
    c.layer[CASE_INSULATION] = foil;
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 3);
    ck_assert_int_eq(one->change.kind, BW_CHANGE_ADDED);
    ck_assert_uint_eq(one->change.layer, CASE_FOIL + 1);
}
END_TEST

/* 100 air changes an hour is what is offered; at 80 and above there is no
 * point in it. */
START_TEST(a_sparsely_aired_cavity_may_be_aired_more)
{
    static const struct {
        double per_hour;
        size_t offers;
    } airing[] = {{10.0, 1}, {79.0, 1}, {81.0, 0}, {120.0, 0}};
    const bw_proposal *one;
    c.layer[CASE_SHEATHING].kind = BW_LAYER_CAVITY;
    c.layer[CASE_SHEATHING].ventilation = BW_VENT_WELL;
    for (size_t i = 0; i < COUNT(airing); i++) {
        c.layer[CASE_SHEATHING].air_change = airing[i].per_hour / 3600.0;
        ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), airing[i].offers);
        if (one == NULL)
            continue;
        ck_assert_double_eq_tol(
            with(one)->layer[CASE_SHEATHING].air_change * 3600.0, 100.0, 1e-9);
    }
    c.layer[CASE_SHEATHING].air_change = 10.0 / 3600.0;
    c.layer[CASE_SHEATHING].ventilation = BW_VENT_SLIGHT;
    ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), 1);
}
END_TEST

START_TEST(a_gap_between_studs_is_not_opened_outwards)
{
    const bw_proposal *one;
    c.layer[CASE_SHEATHING].kind = BW_LAYER_CAVITY;
    ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), 1);
    c.layer[CASE_SHEATHING].framing = (bw_framing){.present = true,
                                                   .material = &c.stud};
    ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), 0);
}
END_TEST

/* Panel of 9 mm, mu 50: sd 0.45 m. Offered are 0.1 and 0.5 where they are
 * less than two thirds of what is there. */
START_TEST(an_outer_layer_is_replaced_by_a_more_open_one)
{
    const bw_proposal *one;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_double_eq(one->change.value, 0.1);
    const bw_assembly *to = with(one);
    ck_assert_double_eq_tol(
        bw_layer_value(&to->layer[CASE_SHEATHING], BW_VARIED_SD), 0.1, 1e-12);
    c.material[CASE_SHEATHING].mu_dry = case_value(100.0); /* 0.9 m */
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 2);
    c.material[CASE_SHEATHING].mu_dry = case_value(15.0); /* 0.135 m */
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    c.material[CASE_SHEATHING] = case_material("brick", "masonry", 1800, 0.8,
                                               1000, true);
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
}
END_TEST

START_TEST(the_tightest_outer_layer_is_the_one_replaced)
{
    const bw_proposal *one;
    bw_material open = c.material[CASE_SHEATHING];
    open.mu_dry = open.mu_wet = case_value(20.0); /* 0.18 m */
    bw_layer sheet = c.layer[CASE_SHEATHING];
    sheet.material = &open;
    bw_layer layer[5] = {sheet, c.layer[0], c.layer[1], c.layer[2], c.layer[3]};
    c.assembly.layer = layer;
    c.assembly.layer_count = 5;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_uint_eq(one->change.layer, 1);
    layer[0] = c.layer[0];
    layer[1] = sheet;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_uint_eq(one->change.layer, 0);
}
END_TEST

START_TEST(nothing_outside_the_insulation_is_nothing_to_replace)
{
    const bw_proposal *one;
    c.assembly.layer = &c.layer[CASE_INSULATION];
    c.assembly.layer_count = 3;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), 0);
    ck_assert_uint_gt(proposed(BW_PROPOSE_INSULATION, &one), 0);
}
END_TEST

START_TEST(without_a_solid_layer_only_the_room_can_change)
{
    const bw_proposal *one;
    c.assembly.layer = &c.layer[CASE_FOIL];
    c.assembly.layer_count = 1;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 1);
    ck_assert_uint_eq(count, 1);
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), 1);
}
END_TEST

/* Half and one and a half of what is there, in whole millimetres, never
 * thinner than 10 mm. */
START_TEST(insulation_is_made_thinner_and_thicker)
{
    const bw_proposal *one;
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 2);
    ck_assert_double_eq_tol(one[0].change.value, 0.070, 1e-12);
    ck_assert_double_eq_tol(one[1].change.value, 0.210, 1e-12);
    NAMES(one[0].text, "70 mm", "140 mm");
    NAMES(one[1].text, "210 mm", "140 mm");
    ck_assert_double_eq_tol(with(one)->layer[CASE_INSULATION].thickness, 0.070,
                            1e-12);
    c.assembly.layer = &c.layer[CASE_INSULATION];
    c.assembly.layer_count = 1;
    c.layer[CASE_INSULATION].thickness = 0.020;
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 2);
    c.layer[CASE_INSULATION].thickness = 0.018;
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 1);
    ck_assert_double_eq_tol(one->change.value, 0.027, 1e-12);
}
END_TEST

START_TEST(insulation_held_by_something_else_keeps_its_thickness)
{
    const bw_proposal *one;
    c.layer[CASE_INSULATION].framing.depth = 0.1;
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 0);
    c.layer[CASE_INSULATION].framing.depth = 0.0;
    c.layer[CASE_INSULATION].resistance = case_value(4.0);
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 0);
    c.layer[CASE_INSULATION].resistance.known = false;
    c.material[CASE_INSULATION].group = "board";
    ck_assert_uint_eq(proposed(BW_PROPOSE_INSULATION, &one), 0);
}
END_TEST

START_TEST(a_dry_room_cannot_be_asked_to_be_drier)
{
    const bw_proposal *one;
    bw_indoors *in = &c.assembly.indoors;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 1);
    ck_assert_int_eq(with(one)->indoors.humidity_class, 2);
    in->humidity_class = 1;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 0);
    in->kind = BW_INDOOR_RH;
    in->relative_humidity = 0.40;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 0);
    in->relative_humidity = 0.55;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 1);
    ck_assert_double_eq_tol(with(one)->indoors.relative_humidity, 0.45, 1e-12);
    in->kind = BW_INDOOR_EN15026;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 0);
    in->en15026_high = true;
    ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 1);
    ck_assert(!with(one)->indoors.en15026_high);
}
END_TEST

START_TEST(a_leaky_wall_may_be_made_tighter)
{
    const bw_proposal *one;
    bw_air_leakage *air = &c.assembly.air_leakage;
    ck_assert_uint_eq(proposed(BW_PROPOSE_AIR, &one), 0);
    *air = (bw_air_leakage){true, 1.1 / 3600.0, 5.0, false};
    ck_assert_uint_eq(proposed(BW_PROPOSE_AIR, &one), 0);
    air->q50 = 3.0 / 3600.0;
    ck_assert_uint_eq(proposed(BW_PROPOSE_AIR, &one), 1);
    ck_assert_double_eq_tol(with(one)->air_leakage.q50 * 3600.0, 1.0, 1e-12);
}
END_TEST

START_TEST(a_rain_leak_is_stopped_where_there_is_one)
{
    const bw_proposal *one;
    ck_assert_uint_eq(proposed(BW_PROPOSE_LEAK, &one), 0);
    c.assembly.rain_leak = (bw_rain_leak){true, 0.01, 0};
    ck_assert_uint_eq(proposed(BW_PROPOSE_LEAK, &one), 1);
    ck_assert(with(one)->rain_leak.fraction <= 0.0);
}
END_TEST

START_TEST(rain_is_kept_off_where_there_is_rain)
{
    const bw_proposal *one;
    ck_assert_uint_eq(proposed(BW_PROPOSE_RAIN, &one), 0);
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    ck_assert_uint_eq(proposed(BW_PROPOSE_RAIN, &one), 1);
    ck_assert_int_eq(with(one)->outdoors.driving_rain, BW_RAIN_NONE);
}
END_TEST

/* An insulation from a tenth of all resistance; without one the solid layer of
 * highest, one of unknown conductivity too. */
START_TEST(the_main_insulation_is_the_layer_that_insulates_most)
{
    c.layer[CASE_INSULATION].thickness = 0.020; /* 0.57 m2 K/W */
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), CASE_INSULATION);
    c.layer[CASE_LINING].thickness = 0.25; /* 1.0 m2 K/W */
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), CASE_INSULATION);
    c.layer[CASE_INSULATION].thickness = 0.004; /* 0.11 of 1.18 m2 K/W */
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), CASE_LINING);
    c.assembly.layer = &c.layer[CASE_FOIL];
    c.assembly.layer_count = 2;
    c.material[CASE_LINING].thermal_conductivity.known = false;
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), 1);
}
END_TEST

/* docs/methods.md: "humidity-variable at the class limits ..., sd 2 m, 5 m,
 * none; or adding one". */
START_TEST(a_membrane_is_added_of_each_kind)
{
    const bw_proposal *one;
    c.layer[CASE_FOIL] = c.layer[CASE_LINING];
    c.assembly.layer_count = 3;
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 3);
    const bw_layer *added = &with(&one[0])->layer[CASE_FOIL];
    ck_assert_double_eq_tol(bw_curve_log(&added->material->sd_curve, 0.25), 2.0,
                            1e-12);
    for (size_t i = 1; i < 3; i++) {
        added = &with(&one[i])->layer[CASE_FOIL];
        ck_assert_uint_eq(added->material->sd_curve.count, 0);
        ck_assert_double_eq(added->material->sd.value, i == 1 ? 2.0 : 5.0);
    }
}
END_TEST

/* Wool of mu 5: sd 0.7 m, tighter than the panel of 0.45 m outside it. */
START_TEST(the_insulation_is_no_layer_outside_itself)
{
    const bw_proposal *one;
    c.material[CASE_INSULATION].mu_dry = case_value(5.0);
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_uint_eq(one->change.layer, CASE_SHEATHING);
}
END_TEST

/* "10 points of RH" less, in a room above 40 %. */
START_TEST(a_humid_room_is_asked_for_ten_points_less)
{
    static const struct {
        double is;
        const char *was, *becomes;
    } rooms[] = {
        {0.41, "41 %", "31 %"}, {0.70, "70 %", "60 %"}, {0.95, "95 %", "85 %"}};
    const bw_proposal *one;
    c.assembly.indoors.kind = BW_INDOOR_RH;
    for (size_t i = 0; i < COUNT(rooms); i++) {
        c.assembly.indoors.relative_humidity = rooms[i].is;
        ck_assert_uint_eq(proposed(BW_PROPOSE_HUMIDITY, &one), 1);
        NAMES(one->text, rooms[i].was, rooms[i].becomes);
        ck_assert_double_eq_tol(with(one)->indoors.relative_humidity,
                                rooms[i].is - 0.10, 1e-12);
    }
}
END_TEST

/* What was given for slight ventilation is not that of a cavity opened: it is
 * aired as well-ventilated ones are where nothing is given. */
START_TEST(a_cavity_opened_is_aired_as_well_ventilated_ones_are)
{
    const bw_proposal *one;
    c.layer[CASE_SHEATHING].kind = BW_LAYER_CAVITY;
    c.layer[CASE_SHEATHING].ventilation = BW_VENT_SLIGHT;
    c.layer[CASE_SHEATHING].air_change = 1.0 / 3600.0;
    ck_assert_uint_eq(proposed(BW_PROPOSE_CAVITY, &one), 1);
    ck_assert_int_eq(with(one)->layer[CASE_SHEATHING].ventilation,
                     BW_VENT_WELL);
    ck_assert_double_eq(with(one)->layer[CASE_SHEATHING].air_change, 0.0);
}
END_TEST

/* Rain on a wall without a ventilated cavity: its outermost layer and the coats
 * on it keep the rain out and are never given up for an open one. */
START_TEST(what_keeps_the_rain_out_is_not_replaced)
{
    const bw_proposal *one;
    bw_material paint = case_material("paint", "coating", 1200, 0.2, 5000,
                                      false);
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_ptr_null(strstr(one->text, "sheds water"));
    c.assembly.outdoors.driving_rain = BW_RAIN_SHELTERED;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    for (size_t i = CASE_LAYERS; i > 0; i--)
        c.layer[i] = c.layer[i - 1];
    c.assembly.layer_count = CASE_LAYERS + 1;
    c.layer[0].material = &paint; /* on the panel */
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    c.assembly.outdoors.driving_rain = BW_RAIN_NONE;
    ck_assert_uint_gt(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
}
END_TEST

/* Rain falls on a roof even where none is driven against it; of its layers
 * outside the insulation nothing goes that lies outside its tight sheet. */
START_TEST(a_roof_keeps_its_outer_sheet)
{
    const bw_proposal *one;
    c.assembly.outdoors.driving_rain = BW_RAIN_NONE;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    c.assembly.element = BW_ELEMENT_ROOF;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    for (size_t i = CASE_LAYERS; i > 1; i--)
        c.layer[i] = c.layer[i - 1];
    c.assembly.layer_count = CASE_LAYERS + 1;
    c.layer[1] = c.layer[CASE_FOIL + 1]; /* a sheet under gravel, of sd 2 m */
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    ck_assert_uint_gt(proposed(BW_PROPOSE_MEMBRANE, &one), 0); /* the foil */
    c.assembly.element = BW_ELEMENT_WALL;
    ck_assert_uint_gt(proposed(BW_PROPOSE_OUTER_LAYER, &one), 0);
    ck_assert_uint_eq(one->change.layer, 1);
}
END_TEST

/* Foam upon the sheet: what is tight inside of it sheds the rain. */
START_TEST(a_roof_with_its_insulation_in_the_rain_keeps_its_sheet)
{
    const bw_proposal *one;
    c.assembly.element = BW_ELEMENT_ROOF;
    for (size_t i = 0; i + 1 < CASE_LAYERS; i++)
        c.layer[i] = c.layer[i + 1];
    c.assembly.layer_count = CASE_LAYERS - 1;
    ck_assert_uint_eq(proposed(BW_PROPOSE_MEMBRANE, &one), 0);
    c.assembly.element = BW_ELEMENT_WALL;
    ck_assert_uint_gt(proposed(BW_PROPOSE_MEMBRANE, &one), 0);
}
END_TEST

/* Behind a ventilated cavity the layer may be another, that sheds water too. */
START_TEST(behind_a_ventilated_cavity_a_layer_that_sheds_water_is_offered)
{
    const bw_proposal *one;
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    for (size_t i = CASE_LAYERS; i > 0; i--)
        c.layer[i] = c.layer[i - 1];
    c.assembly.layer_count = CASE_LAYERS + 1;
    c.layer[0].kind = BW_LAYER_CAVITY;
    c.layer[0].ventilation = BW_VENT_WELL;
    ck_assert_uint_eq(proposed(BW_PROPOSE_OUTER_LAYER, &one), 1);
    ck_assert_uint_eq(one->change.layer, 1);
    ck_assert_ptr_nonnull(strstr(one->text, "that sheds water as well"));
}
END_TEST

SUITE_AROUND(
    "propose", setup, teardown,
    FACT(the_tighter_of_two_membranes_inside_is_exchanged),
    FACT(no_membrane_is_offered_that_is_there_already),
    FACT(the_variable_membrane_is_at_the_class_limits_of_din_4108_3),
    FACT(a_membrane_outside_the_insulation_is_none_inside_it),
    FACT(a_sparsely_aired_cavity_may_be_aired_more),
    FACT(a_gap_between_studs_is_not_opened_outwards),
    FACT(an_outer_layer_is_replaced_by_a_more_open_one),
    FACT(the_tightest_outer_layer_is_the_one_replaced),
    FACT(nothing_outside_the_insulation_is_nothing_to_replace),
    FACT(without_a_solid_layer_only_the_room_can_change),
    FACT(insulation_is_made_thinner_and_thicker),
    FACT(insulation_held_by_something_else_keeps_its_thickness),
    FACT(a_dry_room_cannot_be_asked_to_be_drier),
    FACT(a_leaky_wall_may_be_made_tighter),
    FACT(a_rain_leak_is_stopped_where_there_is_one),
    FACT(rain_is_kept_off_where_there_is_rain),
    FACT(the_main_insulation_is_the_layer_that_insulates_most),
    FACT(a_membrane_is_added_of_each_kind),
    FACT(the_insulation_is_no_layer_outside_itself),
    FACT(a_humid_room_is_asked_for_ten_points_less),
    FACT(a_cavity_opened_is_aired_as_well_ventilated_ones_are),
    FACT(what_keeps_the_rain_out_is_not_replaced),
    FACT(a_roof_keeps_its_outer_sheet),
    FACT(a_roof_with_its_insulation_in_the_rain_keeps_its_sheet),
    FACT(behind_a_ventilated_cavity_a_layer_that_sheds_water_is_offered))
