/* Where the monthly method stops being a proof: what it cannot see, each thing
 * just within and just beyond (docs/methods.md, "Limits of the monthly
 * method"). */

#include <stdlib.h>

#include "criteria/scope.h"
#include "has_words.h"
#include "one_case.h"
#include "suite.h"

/* The humidity at the inner face of the sheathing, below what asks for more of
 * a board. */
static double humidity = 0.89;

static size_t scope_of(bw_scope_item *item)
{
    bw_plane plane = {.at = {CASE_SHEATHING, 0.009, true}};
    plane.month[0].relative_humidity = humidity;
    bw_section_assessment part = {
        .section = &c.section,
        .run[BW_RUN_DESIGN].ran = true,
        .run[BW_RUN_DESIGN].result = {.plane_count = 1, .plane = &plane}};
    bw_scope_item items[8];
    size_t count = bw_scope_find(items, COUNT(items), &c.rows, &c.assembly,
                                 &part, 1);
    if (count > 0)
        *item = items[0];
    return count;
}

START_TEST(a_plain_mineral_wall_is_within_the_monthly_method)
{
    bw_scope_item item;
    c.material[CASE_SHEATHING].hygroscopic = true; /* a thin, damp panel */
    c.material[CASE_LINING].hygroscopic = true;    /* gypsum */
    ck_assert_uint_eq(scope_of(&item), 0);
}
END_TEST

START_TEST(hygroscopic_insulation_over_20_mm_is_beyond_it)
{
    bw_scope_item item;
    c.material[CASE_INSULATION].hygroscopic = true;
    ck_assert_uint_eq(scope_of(&item), 1);
    NAMES(item.what, "mineral wool");
    ck_assert_uint_gt(strlen(item.unseen), 10);
    c.slab[CASE_INSULATION].thickness = 0.020;
    ck_assert_uint_eq(scope_of(&item), 0);
}
END_TEST

START_TEST(a_thick_hygroscopic_layer_counts_when_damp)
{
    bw_scope_item item;
    c.material[CASE_SHEATHING].hygroscopic = true;
    c.slab[CASE_SHEATHING].thickness = 0.100; /* 89 % beside it */
    ck_assert_uint_eq(scope_of(&item), 1);
    c.slab[CASE_SHEATHING].is_framing = true;
    ck_assert_uint_eq(scope_of(&item), 0);
    c.material[CASE_LINING].hygroscopic = true; /* dry */
    c.slab[CASE_LINING].thickness = 0.100;
    ck_assert_uint_eq(scope_of(&item), 0);
}
END_TEST

/* "wood or board at 90 % RH or more": months tell neither how wet nor for how
 * long. Stone and metal do not rot. */
START_TEST(a_cold_board_is_beyond_it)
{
    bw_scope_item item;
    const struct {
        double humidity;
        bw_wood_kind kind;
        bw_mould_class class;
        bool beyond;
    } cases[] = {
        {0.899, BW_WOOD_PANEL, BW_MOULD_SENSITIVE, false},
        {0.90, BW_WOOD_PANEL, BW_MOULD_SENSITIVE, true},
        {0.90, BW_SOLID_WOOD, BW_MOULD_RESISTANT, true},
        {0.90, BW_NOT_WOOD, BW_MOULD_SENSITIVE, true}, /* paper */
        {1.0, BW_NOT_WOOD, BW_MOULD_MEDIUM_RESISTANT, false},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        humidity = cases[i].humidity;
        c.material[CASE_SHEATHING].wood_kind = cases[i].kind;
        c.material[CASE_SHEATHING].mould_class = cases[i].class;
        ck_assert_uint_eq(scope_of(&item), cases[i].beyond);
        if (cases[i].beyond)
            NAMES(item.what, "panel", "90 %");
    }
    humidity = 0.89;
}
END_TEST

/* Masonry before a well-ventilated cavity, under driving rain, whatever coat
 * it bears; 40 mm or more of what takes up water. */
START_TEST(cladding_that_drinks_rain_is_beyond_it)
{
    bw_scope_item item;
    bw_material brick = case_material("brick", "masonry", 1800, 0.8, 10, true);
    bw_layer outside[CASE_LAYERS + 3] = {
        {.name = "paint", .kind = BW_LAYER_MEMBRANE, .material = &brick},
        {.name = "brick",
         .kind = BW_LAYER_SOLID,
         .material = &brick,
         .thickness = 0.040},
        {.name = "air",
         .kind = BW_LAYER_CAVITY,
         .material = &brick,
         .ventilation = BW_VENT_WELL,
         .thickness = 0.04}};
    for (size_t i = 0; i < CASE_LAYERS; i++)
        outside[3 + i] = c.layer[i];
    c.assembly.layer = outside;
    c.assembly.layer_count = COUNT(outside);
    c.section.dropped_layers = 3;
    ck_assert_uint_eq(scope_of(&item), 0); /* no rain is asked for */
    c.assembly.outdoors.driving_rain = BW_RAIN_SHELTERED;
    ck_assert_uint_eq(scope_of(&item), 1);
    NAMES(item.what, "brick");
    outside[1].thickness = 0.039;
    ck_assert_uint_eq(scope_of(&item), 0);
    outside[1].thickness = 0.1;
    brick.absorbs_condensate = false;
    outside[3].thickness = 0.1; /* behind the cavity */
    ck_assert_uint_eq(scope_of(&item), 0);
}
END_TEST

START_TEST(a_variable_membrane_is_beyond_it)
{
    static const bw_curve curve;
    bw_scope_item item;
    c.slab[CASE_FOIL].sd_curve = &curve;
    ck_assert_uint_eq(scope_of(&item), 1);
    ck_assert_ptr_nonnull(strstr(item.unseen, "EN 15026"));
}
END_TEST

START_TEST(a_wet_start_is_beyond_it)
{
    static const double x[] = {0.5, 0.9, 1.0}, y[] = {0.01, 0.02, 0.2};
    bw_layer *layer = &c.layer[CASE_SHEATHING];
    bw_scope_item item;
    layer->has_initial_moisture = true;
    layer->initial_moisture = 0.20; /* timber is built in at 20 % */
    ck_assert_uint_eq(scope_of(&item), 0);
    layer->initial_moisture = 0.21;
    ck_assert_uint_eq(scope_of(&item), 1);
    layer->initial_is_rh = true; /* 21 % RH */
    ck_assert_uint_eq(scope_of(&item), 0);
    layer->initial_moisture = 0.95;
    ck_assert_uint_eq(scope_of(&item), 1);
    layer->initial_is_rh = false; /* a wall of brick at 3 % by mass is wet */
    layer->initial_moisture = 0.03;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.material[CASE_SHEATHING].sorption = (bw_curve){
        .count = 3, .x = x, .y = y, .source = "", .note = ""};
    ck_assert_uint_eq(scope_of(&item), 1);
    layer->initial_moisture = 0.015;
    ck_assert_uint_eq(scope_of(&item), 0);
}
END_TEST

START_TEST(framing_that_starts_wet_is_beyond_it)
{
    static const struct {
        bool present, given;
        double moisture;
        size_t count;
    } cases[] = {{true, true, 0.21, 1},
                 {true, true, 0.20, 0},
                 {true, false, 0.21, 0},
                 {false, true, 0.21, 0}};
    bw_scope_item item;
    bw_layer *layer = &c.layer[CASE_INSULATION];
    for (size_t i = 0; i < COUNT(cases); i++) {
        layer->framing = (bw_framing){.present = cases[i].present,
                                      .material = &c.stud,
                                      .has_initial_moisture = cases[i].given,
                                      .initial_moisture = cases[i].moisture};
        ck_assert_uint_eq(scope_of(&item), cases[i].count);
        ck_assert_uint_eq(bw_layer_starts_wet(layer), cases[i].count);
    }
}
END_TEST

START_TEST(rain_on_an_absorbing_face_is_beyond_it)
{
    bw_scope_item item;
    c.assembly.outdoors.driving_rain = BW_RAIN_SHELTERED;
    ck_assert_uint_eq(scope_of(&item), 1);
    c.section.dropped_layers = 2; /* a ventilated cladding takes it */
    ck_assert_uint_eq(scope_of(&item), 0);
    c.section.dropped_layers = 0;
    c.material[CASE_SHEATHING].water_absorption = case_value(0.0);
    ck_assert_uint_eq(scope_of(&item), 0);
    c.assembly.rain_leak = (bw_rain_leak){true, 0.01, 0};
    ck_assert_uint_eq(scope_of(&item), 1);
}
END_TEST

START_TEST(an_unventilated_timber_roof_under_a_tight_cover_is_beyond_it)
{
    bw_scope_item item;
    c.assembly.element = BW_ELEMENT_ROOF;
    ck_assert_uint_eq(scope_of(&item), 0);
    c.slab[CASE_SHEATHING].sd_dry = 100.0;
    ck_assert_uint_eq(scope_of(&item), 1);
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD; /* of concrete */
    ck_assert_uint_eq(scope_of(&item), 0);
    c.material[CASE_LINING].wood_kind = BW_SOLID_WOOD;
    ck_assert_uint_eq(scope_of(&item), 1);
    c.material[CASE_LINING].wood_kind = BW_NOT_WOOD;
    c.layer[CASE_INSULATION].framing.present = true;
    c.layer[CASE_INSULATION].framing.material = &c.stud;
    ck_assert_uint_eq(scope_of(&item), 1);
}
END_TEST

START_TEST(a_layer_counts_from_30_mm_and_above_80_percent)
{
    bw_plane plane = {.at = {CASE_SHEATHING, 0.009, true}};
    bw_section_assessment part = {
        .section = &c.section,
        .run[BW_RUN_DESIGN].ran = true,
        .run[BW_RUN_DESIGN].result = {.plane_count = 1, .plane = &plane}};
    bw_scope_item items[8];
    const struct {
        double thickness, rh;
        bool framing;
        size_t count;
    } cases[] = {{0.030, 0.81, false, 1},
                 {0.029, 0.81, false, 0},
                 {0.030, 0.80, false, 0},
                 {0.030, 0.81, true, 0}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        /* on either side of the plane */
        for (size_t k = 0; k < 2; k++) {
            c.material[k].group = "board";
            c.material[k].hygroscopic = true;
            c.material[1 - k].hygroscopic = false;
            c.slab[k].thickness = cases[i].thickness;
            c.slab[k].is_framing = cases[i].framing;
            plane.month[7].relative_humidity = cases[i].rh;
            ck_assert_uint_eq(bw_scope_find(items, COUNT(items), &c.rows,
                                            &c.assembly, &part, 1),
                              cases[i].count);
        }
    }
    c.material[0].hygroscopic = true; /* not touched: inside the other */
    c.material[1].hygroscopic = false;
    c.slab[0].is_framing = false;
    c.slab[0].thickness = 0.1;
    plane.month[7].relative_humidity = 0.89;
    plane.at = (bw_plane_at){CASE_INSULATION, 0.07, false};
    ck_assert_uint_eq(
        bw_scope_find(items, COUNT(items), &c.rows, &c.assembly, &part, 1), 0);
    c.material[1].group = "insulation";
    c.material[1].hygroscopic = true;
    c.material[0].hygroscopic = false;
    c.slab[1].is_framing = false;
    c.slab[1].thickness = 0.021; /* insulation from 20 mm */
    ck_assert_uint_eq(
        bw_scope_find(items, COUNT(items), &c.rows, &c.assembly, &part, 1), 1);
}
END_TEST

/* "Between two layers tighter than 10 m hardly anything leaves in a year": by
 * the lower, the wet-cup value of each; there are two such layers or none. */
START_TEST(what_is_shut_in_between_more_than_10_m_twice_is_beyond_it)
{
    static const struct {
        double outer, inner;
        size_t from, count; /* the slabs of the section */
        bool shut;
    } cases[] = {
        {10.01, 10.01, 0, CASE_LAYERS, true},
        {10.0, 10.01, 0, CASE_LAYERS, false},
        {10.01, 10.0, 0, CASE_LAYERS, false},
        {20.0, 20.0, CASE_INSULATION, 2, false}, /* nothing outside */
        {20.0, 20.0, 0, CASE_FOIL, false},       /* nothing inside */
    };
    bw_scope_item item;
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.slab[CASE_SHEATHING].sd_wet = cases[i].outer;
        c.slab[CASE_FOIL].sd_wet = cases[i].inner;
        c.slab[CASE_LINING].sd_wet = cases[i].inner;
        c.slab[CASE_SHEATHING].sd_dry = c.slab[CASE_FOIL].sd_dry = 50.0;
        c.section.slab = c.slab + cases[i].from;
        c.section.slab_count = cases[i].count;
        ck_assert_msg(scope_of(&item) == cases[i].shut, "case %zu", i);
    }
}
END_TEST

SUITE_AROUND("scope", setup, teardown,
             FACT(a_plain_mineral_wall_is_within_the_monthly_method),
             FACT(hygroscopic_insulation_over_20_mm_is_beyond_it),
             FACT(a_thick_hygroscopic_layer_counts_when_damp),
             FACT(a_cold_board_is_beyond_it),
             FACT(cladding_that_drinks_rain_is_beyond_it),
             FACT(a_variable_membrane_is_beyond_it),
             FACT(a_wet_start_is_beyond_it),
             FACT(framing_that_starts_wet_is_beyond_it),
             FACT(rain_on_an_absorbing_face_is_beyond_it),
             FACT(an_unventilated_timber_roof_under_a_tight_cover_is_beyond_it),
             FACT(a_layer_counts_from_30_mm_and_above_80_percent),
             FACT(what_is_shut_in_between_more_than_10_m_twice_is_beyond_it))
