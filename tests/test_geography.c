/* Where in a wall what is, and what hangs on it: docs/methods.md, section 1. */

#include <stdlib.h>

#include "bothways/assessment.h"
#include "geography_case.h"
#include "suite.h"

/* ---- places ------------------------------------------------------------- */

START_TEST(the_main_insulation_lies_inside_the_ventilated_cavity)
{
    const part parts[] = {{WOOD_FIBRE, 0.3}, {AIR, 0.04}, {SHEATHING, 0.012},
                          {WOOL, 0.14},      {FOIL, 0.0}, {WOOL, 0.05}};
    build(parts, COUNT(parts));
    bw_geography g = find();
    ck_assert_uint_eq(g.first, 2);
    ck_assert(g.insulates);
    ck_assert_uint_eq(g.insulation, 3);
    ck_assert_uint_eq(g.tight_outside, 2);
    ck_assert_uint_eq(g.tight_inside, 4);
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), 3);
    ck_assert_uint_eq(bw_layers_outside(&c.assembly, BW_VENT_SLIGHT), 2);
}
END_TEST

START_TEST(of_two_equal_insulations_the_outer_one_is_the_main_one)
{
    const part parts[] = {
        {SHEATHING, 0.012}, {WOOL, 0.1}, {FOIL, 0.0}, {WOOL, 0.1}};
    build(parts, COUNT(parts));
    ck_assert_uint_eq(find().insulation, 1);
    ck_assert_uint_eq(bw_main_insulation_layer(&c.assembly), 1);
    slab[3].resistance *= 1.0 + 1e-12; /* the same but for rounding */
    ck_assert_uint_eq(find().insulation, 1);
    slab[3].resistance *= 1.001;
    ck_assert_uint_eq(find().insulation, 3);
}
END_TEST

START_TEST(a_massive_wall_with_a_thin_felt_is_its_own_main_insulation)
{
    const part parts[] = {{CLT, 0.24}, {WOOL, 0.005}, {CLT, 0.02}};
    build(parts, COUNT(parts));
    ck_assert_uint_eq(find().insulation, 0);
    ck_assert(!find().insulates);
    layer[1].thickness = 0.05;
    slab[1].resistance = 0.05 / 0.035;
    ck_assert_uint_eq(find().insulation, 1);
}
END_TEST

START_TEST(framing_is_taken_for_the_layer_it_stands_in)
{
    const part parts[] = {{WOOD_FIBRE, 0.06}, {WOOL, 0.2}, {FOIL, 0.0}};
    build(parts, COUNT(parts));
    slab[1].is_framing = true;
    slab[1].material = &c.stud;
    slab[1].resistance = 0.5;
    ck_assert_uint_eq(find().insulation, 1);
    ck_assert_uint_eq(find().leak, 1);
}
END_TEST

/* The leak's face: the outer face of the slab named. */
/* Bonded on masonry it is one with the wall; between studs it has joints. */
START_TEST(in_a_wall_a_thick_sheet_stops_air_on_masonry_alone)
{
    const part bonded[] = {{FOAM, 0.1}, {BITUMEN, 0}, {BRICK, 0.24}};
    const part hung[] = {
        {SHEATHING, 0.012}, {WOOL, 0.2}, {BITUMEN, 0}, {SHEATHING, 0.015}};
    build(bonded, COUNT(bonded));
    ck_assert_uint_eq(find().leak, 2);
    build(hung, COUNT(hung));
    ck_assert_uint_eq(find().leak, 1);
    c.assembly.element = BW_ELEMENT_ROOF;
    ck_assert_uint_eq(find().leak, 3);
    material[BITUMEN].mould_class = BW_MOULD_SENSITIVE; /* paper */
    ck_assert_uint_eq(find().leak, 1);
}
END_TEST

START_TEST(leaking_air_meets_the_first_face_it_does_not_pass)
{
    static const struct {
        part parts[5];
        size_t count, leak;
    } walls[] = {
        /* the sheathing, with a thick board of wood fibre outside of it too */
        {{{WOOD_FIBRE, 0.2}, {SHEATHING, 0.012}, {WOOL, 0.14}}, 3, 2},
        {{{WOOD_FIBRE, 0.2}, {WOOL, 0.14}, {FOIL, 0}}, 3, 1},
        /* a second fibrous layer before the sheathing */
        {{{SHEATHING, 0.012}, {WOOL, 0.06}, {WOOL, 0.2}, {FOIL, 0}}, 4, 1},
        /* no layer that air passes: joints, to the outer face */
        {{{BRICK, 0.1}, {WOOD_FIBRE, 0.2}, {CLT, 0.1}}, 3, 1},
        {{{BRICK, 0.24}, {FOAM, 0.08}, {SHEATHING, 0.012}}, 3, 1},
        /* wool in a lining is no way to the cold */
        {{{BRICK, 0.1}, {FOAM, 0.2}, {CLT, 0.1}, {WOOL, 0.04}}, 4, 1},
        /* a warm roof: its vapour barrier is welded, a foil is not */
        {{{BITUMEN, 0}, {FOAM, 0.12}, {BITUMEN, 0}, {CLT, 0.1}}, 4, 3},
        {{{BITUMEN, 0}, {FOAM, 0.12}, {FOIL, 0}, {CLT, 0.1}}, 4, 1},
        {{{BITUMEN, 0}, {WOOL, 0.12}, {BITUMEN, 0}, {CLT, 0.1}}, 4, 3},
        /* a sheet outside of the sheathing holds nothing back */
        {{{BITUMEN, 0}, {SHEATHING, 0.01}, {WOOL, 0.1}, {FOIL, 0}}, 4, 2},
    };
    for (size_t i = 0; i < COUNT(walls); i++) {
        build(walls[i].parts, walls[i].count);
        c.assembly.element = BW_ELEMENT_ROOF;
        ck_assert_msg(find().leak == walls[i].leak, "wall %zu: %zu", i,
                      find().leak);
    }
}
END_TEST

START_TEST(water_does_harm_at_wood_panels_and_wool_and_not_at_foam)
{
    static const struct {
        part parts[5];
        size_t count, places, face[4];
    } walls[] = {
        {{{BITUMEN, 0}, {FOAM, 0.2}, {FOIL, 0}, {BRICK, 0.2}}, 4, 0, {0}},
        {{{BITUMEN, 0}, {FOAM, 0.2}, {FOIL, 0}, {SHEATHING, 0.02}}, 4, 1, {2}},
        {{{BITUMEN, 0}, {SHEATHING, 0.02}, {WOOL, 0.2}, {FOIL, 0}},
         4,
         3,
         {0, 1, 2}},
        {{{BRICK, 0.2}, {WOOL, 0.1}, {FOIL, 0}}, 3, 2, {0, 1}},
        /* the cladding outside the weather line is weathered anyway */
        {{{CLT, 0.02}, {AIR, 0.04}, {BRICK, 0.1}, {FOAM, 0.1}}, 4, 0, {0}},
    };
    for (size_t i = 0; i < COUNT(walls); i++) {
        bw_plane_at place[8];
        build(walls[i].parts, walls[i].count);
        bw_geography g = find();
        ck_assert_uint_eq(bw_places_at_risk(place, &g, &section),
                          walls[i].places);
        for (size_t k = 0; k < walls[i].places; k++)
            ck_assert_uint_eq(place[k].slab, walls[i].face[k]);
    }
}
END_TEST

/* ---- what hangs on them ---------------------------------------------------
 */

/* sd 200 m outside, 1500 m inside: next to no way out, by hand less than
 * delta_0 times 2000 Pa times a year over 200 m = 0.063 kg/m2. */
START_TEST(a_deck_between_bitumen_and_foil_has_no_reserve_and_does_not_dry)
{
    const part parts[] = {
        {BITUMEN, 0}, {SHEATHING, 0.022}, {WOOL, 0.2}, {FOIL, 0}};
    build(parts, COUNT(parts));
    c.assembly.indoors.humidity_class = 1;
    bw_assessment *a = case_steady(&c);
    ck_assert(!a->section[0].run[BW_RUN_DESIGN].result.condenses);
    ck_assert_double_lt(case_named(a, "drying-reserve")->value, 0.063);
    ck_assert_int_eq(case_named(a, "drying-reserve")->verdict, BW_FAILS);
    ck_assert_int_eq(case_named(a, "drying-test")->verdict, BW_FAILS);
    ck_assert(!a->section[0].run[BW_RUN_WETTED_BOTH].result.dried);
    bw_assessment_free(a);
}
END_TEST

START_TEST(leaking_air_uses_up_the_reserve_of_a_tight_deck)
{
    const part parts[] = {
        {BITUMEN, 0}, {SHEATHING, 0.022}, {WOOL, 0.2}, {FOIL, 0}};
    build(parts, COUNT(parts));
    c.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 3.0 / 3600.0, .connected_height = 5.0};
    bw_assessment *a = case_steady(&c);
    const bw_monthly_result *leaky = &a->section[0].run[BW_RUN_LEAKAGE].result;
    ck_assert(a->section[0].run[BW_RUN_LEAKAGE].ran);
    ck_assert_uint_eq(leaky->plane[leaky->critical_plane].at.slab, 1);
    ck_assert_int_eq(case_named(a, "reserve-with-leakage")->verdict, BW_FAILS);
    bw_assessment_free(a);
}
END_TEST

/* The way out through the sheathing is the same: what a foil changes is the
 * way in. */
START_TEST(a_tighter_foil_does_not_move_the_reserve_to_another_face)
{
    static const double sd[] = {5.0, 20.0, 100.0};
    const part parts[] = {{SHEATHING, 0.012}, {WOOL, 0.2}, {FOIL, 0}};
    double before = 0.0;
    for (size_t i = 0; i < COUNT(sd); i++) {
        material[FOIL].sd = case_value(sd[i]);
        build(parts, COUNT(parts));
        bw_assessment *a = case_steady(&c);
        const bw_monthly_result *run = &a->section[0].run[BW_RUN_DESIGN].result;
        ck_assert_uint_eq(run->plane[run->critical_plane].at.slab, 0);
        if (i > 0)
            ck_assert_double_eq_tol(run->reserve / before, 1.0, 0.3);
        before = run->reserve;
        bw_assessment_free(a);
    }
}
END_TEST

START_TEST(bitumen_on_closed_cell_foam_is_not_wetted)
{
    const part parts[] = {{BITUMEN, 0}, {FOAM, 0.16}, {FOIL, 0}, {BRICK, 0.2}};
    build(parts, COUNT(parts));
    bw_assessment *a = case_steady(&c);
    ck_assert(!a->section[0].run[BW_RUN_WETTED_BOTH].ran);
    ck_assert(a->section[0].dry_needless);
    ck_assert(!case_named(a, "drying-test")->decides);
    bw_assessment_free(a);
    c.assembly.drying_test.after_layer = 0; /* but where the file says so */
    a = case_steady(&c);
    ck_assert(a->section[0].run[BW_RUN_WETTED_BOTH].ran);
    bw_assessment_free(a);
}
END_TEST

SUITE_AROUND(
    "geography", set_up, tear_down,
    FACT(the_main_insulation_lies_inside_the_ventilated_cavity),
    FACT(of_two_equal_insulations_the_outer_one_is_the_main_one),
    FACT(a_massive_wall_with_a_thin_felt_is_its_own_main_insulation),
    FACT(framing_is_taken_for_the_layer_it_stands_in),
    FACT(in_a_wall_a_thick_sheet_stops_air_on_masonry_alone),
    FACT(leaking_air_meets_the_first_face_it_does_not_pass),
    FACT(water_does_harm_at_wood_panels_and_wool_and_not_at_foam),
    FACT(a_deck_between_bitumen_and_foil_has_no_reserve_and_does_not_dry),
    FACT(leaking_air_uses_up_the_reserve_of_a_tight_deck),
    FACT(a_tighter_foil_does_not_move_the_reserve_to_another_face),
    FACT(bitumen_on_closed_cell_foam_is_not_wetted))
