/* The rules of docs/methods.md, section 1, at their limits: what insulates, of
 * equals which, what air passes, what water harms, what rain wets. */

#include <stdlib.h>

#include "geography_case.h"
#include "suite.h"

/* ---- the main insulation ---------------------------------------------------
 */

/* A solid slab of that resistance [m2 K/W]. */
static void resists(size_t i, double resistance)
{
    slab[i].resistance = resistance;
}

START_TEST(a_material_given_by_its_values_insulates_up_to_a_tenth)
{
    bw_material given = case_material("x", "given", 100, 0.1, 1, false);
    ck_assert(bw_is_insulation(&given));
    given.thermal_conductivity.value = 0.105;
    ck_assert(!bw_is_insulation(&given));
    given.thermal_conductivity.known = false;
    ck_assert(!bw_is_insulation(&given));
}
END_TEST

START_TEST(an_insulation_of_a_tenth_of_all_resistance_is_the_main_one)
{
    const part parts[] = {{CLT, 0.2}, {WOOL, 0.02}};
    build(parts, COUNT(parts));
    resists(0, 0.9);
    resists(1, 0.1);
    ck_assert_uint_eq(find().insulation, 1);
    resists(1, 0.0999);
    ck_assert_uint_eq(find().insulation, 0);
}
END_TEST

START_TEST(of_equal_layers_the_outermost_counts)
{
    const part parts[] = {{FOIL, 0}, {CLT, 0.1}, {CLT, 0.1}, {FOIL, 0}};
    build(parts, COUNT(parts));
    ck_assert_uint_eq(find().insulation, 1);
    resists(1, 0.0); /* of nothing, too */
    resists(2, 0.0);
    ck_assert_uint_eq(find().insulation, 1);
    ck_assert_uint_eq(bw_tightest_slab(&section, 0, 4, true), 0);
    const part runs[] = {{WOOL, 0.1}, {SHEATHING, 0.01}, {WOOL, 0.1}};
    build(runs, COUNT(runs));
    ck_assert_uint_eq(find().leak, 0);
}
END_TEST

START_TEST(framing_stands_in_its_share_of_the_layer)
{
    const part parts[] = {{FOAM, 0.05}, {WOOL, 0.2}, {SHEATHING, 0.012}};
    build(parts, COUNT(parts));
    slab[1].is_framing = true;
    slab[1].material = &c.stud;
    slab[1].thickness = 0.05; /* a quarter: 1.43 m2 K/W of 5.7 */
    resists(1, 0.3);
    ck_assert_uint_eq(find().insulation, 0); /* 2.0 */
    resists(0, 1.4);
    ck_assert_uint_eq(find().insulation, 1);
    layer[1].thickness = 0.0; /* only its own is known */
    layer[1].resistance = case_value(3.0);
    ck_assert_uint_eq(find().insulation, 0);
}
END_TEST

START_TEST(what_lies_beyond_the_last_slab_is_not_looked_at)
{
    const part parts[] = {{WOOL, 0.1}, {SHEATHING, 0.012}, {WOOL, 0.5}};
    build(parts, COUNT(parts));
    section.slab_count = c.assembly.layer_count = 2;
    bw_geography g = find();
    ck_assert_uint_eq(g.insulation, 0);
    ck_assert_uint_eq(g.leak, 0);
    ck_assert_uint_eq(g.tight_inside, 1);
    const part films[] = {{FOIL, 0}, {SHEATHING, 0.012}, {FOIL, 0}};
    build(films, COUNT(films));
    slab[2].sd_dry = 3000.0;
    ck_assert_uint_eq(bw_tightest_slab(&section, 0, 2, true), 0);
    ck_assert_uint_eq(bw_tightest_slab(&section, 0, 3, true), 2);
    ck_assert_uint_eq(bw_tightest_slab(&section, 1, 2, true), 2); /* none */
    ck_assert_uint_eq(bw_tightest_slab(&section, 1, 2, false), 1);
}
END_TEST

/* No layer, and so no weather, is known of a slab beyond the layers. */
START_TEST(only_a_cavity_with_something_inside_is_a_weather_line)
{
    const part parts[] = {
        {CLT, 0.02}, {AIR, 0.04}, {SHEATHING, 0.012}, {AIR, 0.04}};
    build(parts, COUNT(parts));
    ck_assert_uint_eq(find().first, 0); /* of the innermost: nothing is in */
    section.slab_count = 3;
    ck_assert_uint_eq(find().first, 2);
    slab[1].layer = 3;
    c.assembly.layer_count = 3;
    ck_assert_uint_eq(find().first, 0);
}
END_TEST

START_TEST(the_tight_layer_inside_may_be_any_but_lies_inside)
{
    const part parts[] = {{BITUMEN, 0}, {WOOL, 0.2}, {FOIL, 0}};
    build(parts, COUNT(parts));
    slab[2].sd_dry = 5.0;
    ck_assert_uint_eq(find().tight_inside, 2);
    const part panel[] = {{FOIL, 0}, {WOOL, 0.2}, {SHEATHING, 0.02}};
    build(panel, COUNT(panel));
    ck_assert_uint_eq(find().tight_inside, 2);
}
END_TEST

/* Wool of another density and mu in a lining thick enough to matter. */
START_TEST(air_passes_what_is_light_and_open)
{
    static const struct {
        double density, mu, lining; /* of the foam's 4 m2 K/W */
        size_t leak;
    } cases[] = {
        {40, 1, 1.04, 2}, {40, 1, 0.96, 1}, {40, 5.0, 2, 2}, {40, 5.2, 2, 1},
        {149.9, 1, 2, 2}, {150, 1, 2, 1},   {160, 1, 2, 1},
    };
    const part parts[] = {
        {BRICK, 0.1}, {FOAM, 0.1}, {WOOL, 0.05}, {SHEATHING, 0.01}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        material[WOOL].density.value = cases[i].density;
        material[WOOL].mu_dry.value = cases[i].mu;
        build(parts, COUNT(parts));
        resists(2, cases[i].lining);
        ck_assert_msg(find().leak == cases[i].leak, "wall %zu: %zu", i,
                      find().leak);
    }
}
END_TEST

/* 0.5 m2 K/W of wool is less than a quarter of the foam's 4. */
START_TEST(nothing_but_open_layers_cools_leaking_air)
{
    const part parts[] = {{WOOL, 0.0175}, {FOAM, 0.1}, {SHEATHING, 0.01}};
    build(parts, COUNT(parts));
    ck_assert_uint_eq(find().leak, 1);
    const part still[] = {
        {FOAM, 0.1}, {BRICK, 0.1}, {AIR, 0.04}, {WOOL, 0.0175}, {FOIL, 0}};
    build(still, COUNT(still));
    layer[2].ventilation = BW_VENT_NONE;
    ck_assert_uint_eq(find().leak, 0);
    resists(3, 1.1);
    ck_assert_uint_eq(find().leak, 2); /* passes the still air, too */
}
END_TEST

/* Between two faces of foam, which takes no harm: is the slab at risk? */
static size_t harmed(bw_material between, double thickness)
{
    const part parts[] = {{FOAM, 0.1}, {WOOL, thickness}, {FOAM, 0.1}};
    bw_plane_at place[8];
    build(parts, COUNT(parts));
    slab[1].material = &between;
    bw_geography g = find();
    return bw_places_at_risk(place, &g, &section);
}

START_TEST(water_does_harm_to_wood_to_paper_and_to_what_holds_it)
{
    bw_material m = case_material("x", "board", 800, 0.2, 10, false);
    m.mould_class = BW_MOULD_SENSITIVE;
    ck_assert_uint_eq(harmed(m, 0.01), 2);
    ck_assert_uint_eq(harmed(m, 0.0),
                      0); /* a film rots no more than it holds */
    m.mould_class = BW_MOULD_MEDIUM_RESISTANT;
    ck_assert_uint_eq(harmed(m, 0.01), 0);
    ck_assert_uint_eq(harmed(material[CLT], 0.01), 2);
    ck_assert_uint_eq(harmed(material[SHEATHING], 0.01), 2);
    m = material[WOOL];
    ck_assert_uint_eq(harmed(m, 0.01), 0); /* not the main insulation */
    m.hygroscopic = true;
    ck_assert_uint_eq(harmed(m, 0.01), 2);
    m.hygroscopic = false;
    m.absorbs_condensate = true;
    ck_assert_uint_eq(harmed(m, 0.01), 2);
}
END_TEST

START_TEST(a_wall_of_one_layer_is_wetted_in_its_middle)
{
    const part parts[] = {{CLT, 0.2}};
    bw_plane_at place[8];
    build(parts, COUNT(parts));
    bw_geography g = find();
    ck_assert_uint_eq(bw_places_at_risk(place, &g, &section), 1);
    ck_assert_double_eq_tol(place[0].depth, 0.1, 1e-12);
}
END_TEST

/* ---- rain on the face ------------------------------------------------------
 */

/* A face of `outer` before brick: which slab the rain wets; 2: none. */
static size_t wetted_behind(bw_material outer, bool film, double sd)
{
    const part parts[] = {{SHEATHING, 0.01}, {BRICK, 0.1}, {BRICK, 0.1}};
    const char *why = NULL;
    build(parts, COUNT(parts));
    section.slab_count = 2;
    slab[0].material = &outer;
    slab[0].kind = film ? BW_LAYER_MEMBRANE : BW_LAYER_SOLID;
    slab[0].sd_dry = sd;
    bw_geography g = find();
    size_t wetted = bw_rain_wetted_slab(&why, &g, &section);
    ck_assert_int_eq(wetted == 2, *why != '\0');
    return wetted;
}

START_TEST(rain_wets_the_first_layer_that_drinks_behind_open_coats)
{
    bw_material m = case_material("x", "masonry", 1800, 0.8, 10, false);
    ck_assert_uint_eq(wetted_behind(m, false, 0.2), 2);
    m.absorbs_condensate = true;
    ck_assert_uint_eq(wetted_behind(m, false, 0.2), 0);
    m.water_absorption = case_value(0.0); /* what was measured counts */
    ck_assert_uint_eq(wetted_behind(m, false, 0.2), 2);
    m.water_absorption = case_value(0.01);
    ck_assert_uint_eq(wetted_behind(m, false, 0.2), 0);
    m.water_absorption.known = m.absorbs_condensate = false;
    m.flags_assumed = true;
    ck_assert_uint_eq(wetted_behind(m, false, 0.2), 0);
    bw_material film = case_material("x", "membrane", 900, 0.2, 0, false);
    ck_assert_uint_eq(wetted_behind(film, true, 1.99), 1);
    ck_assert_uint_eq(wetted_behind(film, true, 2.0), 2);
    ck_assert_uint_eq(wetted_behind(film, true, 2.05), 2);
    film.water_absorption = case_value(0.0);
    ck_assert_uint_eq(wetted_behind(film, true, 0.1), 2);
    film.water_absorption = case_value(0.01);
    ck_assert_uint_eq(wetted_behind(film, true, 0.1), 1);
    ck_assert_uint_eq(wetted_behind(film, true, 2.0), 2);
    bw_material paint = case_material("x", "coating", 1200, 0.2, 0, false);
    ck_assert_uint_eq(wetted_behind(paint, false, 1.99), 1);
    ck_assert_uint_eq(wetted_behind(paint, true, 1.99), 1);
    ck_assert_uint_eq(wetted_behind(paint, true, 2.0), 2);
}
END_TEST

START_TEST(a_film_sheds_rain_by_its_uptake_or_else_by_its_tightness)
{
    bw_material m = case_material("x", "membrane", 900, 0.2, 0, false);
    bw_slab film = {.material = &m, .kind = BW_LAYER_MEMBRANE, .sd_dry = 2.0};
    ck_assert(bw_film_sheds_rain(&film));
    film.sd_dry = 1.9;
    ck_assert(!bw_film_sheds_rain(&film));
    m.water_absorption = case_value(0.0);
    ck_assert(bw_film_sheds_rain(&film));
    m.water_absorption.value = 0.01;
    film.sd_dry = 5.0;
    ck_assert(!bw_film_sheds_rain(&film));
    film.material = NULL;
    ck_assert(bw_film_sheds_rain(&film));
}
END_TEST

/* Paint on paint, and what lies beyond the last slab. */
START_TEST(coats_alone_are_wetted_nowhere)
{
    bw_material paint = case_material("x", "coating", 1200, 0.2, 0, false);
    const part parts[] = {{SHEATHING, 0.01}, {SHEATHING, 0.01}, {BRICK, 0.1}};
    const char *why = NULL;
    build(parts, COUNT(parts));
    for (size_t i = 0; i < 2; i++) {
        slab[i].material = &paint;
        slab[i].sd_dry = 0.1;
    }
    section.slab_count = 2;
    bw_geography g = find();
    ck_assert_uint_eq(bw_rain_wetted_slab(&why, &g, &section), 2);
    ck_assert_str_ne(why, "");
}
END_TEST

SUITE_AROUND("geography_rules", set_up, tear_down,
             FACT(a_material_given_by_its_values_insulates_up_to_a_tenth),
             FACT(an_insulation_of_a_tenth_of_all_resistance_is_the_main_one),
             FACT(of_equal_layers_the_outermost_counts),
             FACT(framing_stands_in_its_share_of_the_layer),
             FACT(what_lies_beyond_the_last_slab_is_not_looked_at),
             FACT(only_a_cavity_with_something_inside_is_a_weather_line),
             FACT(the_tight_layer_inside_may_be_any_but_lies_inside),
             FACT(air_passes_what_is_light_and_open),
             FACT(nothing_but_open_layers_cools_leaking_air),
             FACT(water_does_harm_to_wood_to_paper_and_to_what_holds_it),
             FACT(a_wall_of_one_layer_is_wetted_in_its_middle),
             FACT(rain_wets_the_first_layer_that_drinks_behind_open_coats),
             FACT(a_film_sheds_rain_by_its_uptake_or_else_by_its_tightness),
             FACT(coats_alone_are_wetted_nowhere))
