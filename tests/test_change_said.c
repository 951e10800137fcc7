/* A changed wall in words, and what a change makes of a layer, field by field.
 * The figures said are those given, in the units of docs/tables.md; sentences
 * are the program's own (regression values as to wording). */

#include <string.h>

#include "changed_case.h"
#include "suite.h"

/* ---- words ---- */

static const struct {
    bw_change is;
    const char *subject, *words;
} said[] = {
    {{.kind = BW_CHANGE_NOTHING}, "as drawn", "as drawn"},
    {{.kind = BW_CHANGE_PROPERTY, BOARD, BW_VARIED_LAMBDA, 0.1234567},
     "lambda of OSB (Board of strands)",
     "lambda of OSB (Board of strands) 0.123457 W/(m.K)"},
    {{.kind = BW_CHANGE_PROPERTY,
      WOOL,
      BW_VARIED_MU,
      2.0,
      .whence = " in the library"},
     "mu of bay (Wool) in the library",
     "mu of bay (Wool) in the library 2"},
    {{.kind = BW_CHANGE_SD, SHEET, .value = 5.0},
     "sd of vcl (Sheet)",
     "sd of vcl (Sheet) 5 m"},
    {{.kind = BW_CHANGE_CURVE, SMART, .value = 1.0},
     "sd of smart (, odd) held",
     "smart (, odd) held at its humid sd of 0.5 m"},
    {{.kind = BW_CHANGE_CURVE, SMART, .value = 0.0},
     "sd of smart (, odd) held",
     "smart (, odd) held at its dry sd of 5 m"},
    {{.kind = BW_CHANGE_MU, BOARD, .value = 1.0},
     "mu of OSB (Board of strands)",
     "mu of OSB (Board of strands) wet-cup (20)"},
    {{.kind = BW_CHANGE_MU, BOARD, .value = 0.0},
     "mu of OSB (Board of strands)",
     "mu of OSB (Board of strands) dry-cup (50)"},
    {{.kind = BW_CHANGE_FRAMING_MU, WOOL, .value = 1.0},
     "mu of the framing (Timber )",
     "mu of the framing (Timber ) wet-cup (30)"},
    {{.kind = BW_CHANGE_STUDS, WOOL, .value = 0.12},
     "depth of the framing in bay (Wool)",
     "depth of the framing in bay (Wool) 120 mm"},
    {{.kind = BW_CHANGE_MATERIAL, BOARD, .value = 0.1, .material = &wool},
     "OSB (Board of strands): Wool 100 mm",
     "Wool 100 mm in place of OSB (Board of strands)"},
    {{.kind = BW_CHANGE_MATERIAL, SHEET, .material = &smart},
     "vcl (Sheet): Smart sheet",
     "Smart sheet in place of vcl (Sheet)"},
    {{.kind = BW_CHANGE_MEMBRANE, SHEET, .value = 3.0},
     "sd in place of vcl (Sheet)",
     "sd in place of vcl (Sheet) 3 m"},
    {{.kind = BW_CHANGE_MEMBRANE, SHEET, .curve = &bw_variable_membrane},
     "sd in place of vcl (Sheet)",
     "sd in place of vcl (Sheet) 2 m at 25 % RH, 0.5 m at 90 %"},
    {{.kind = BW_CHANGE_ADDED, WOOL, .value = 3.0},
     "sd added before bay (Wool)",
     "sd added before bay (Wool) 3 m"},
    {{.kind = BW_CHANGE_LAYER, WOOL},
     "another layer for bay (Wool)",
     "another layer for bay (Wool)"},
    {{.kind = BW_CHANGE_REMOVED, SHEET}, "no vcl (Sheet)", "no vcl (Sheet)"},
    {{.kind = BW_CHANGE_OPENED, GAP}, "gap (Gap) opened", "gap (Gap) opened"},
    {{.kind = BW_CHANGE_BLOCKED, GAP},
     "gap (Gap) blocked",
     "gap (Gap) blocked"},
    {{.kind = BW_CHANGE_HUMIDITY, .value = 1.0},
     "indoor humidity",
     "indoor humidity class 4 instead of 3"},
    {{.kind = BW_CHANGE_HUMIDITY, .value = -1.0},
     "indoor humidity",
     "indoor humidity class 2 instead of 3"},
    {{.kind = BW_CHANGE_CLASS, .value = 4.0},
     "indoor humidity class",
     "indoor humidity class 4"},
    {{.kind = BW_CHANGE_ROOM, .value = 0.55},
     "indoor air at",
     "indoor air at 55 % RH"},
    {{.kind = BW_CHANGE_AIR_LEAKAGE, .value = 1.5 / 3600.0},
     "air leakage q50",
     "air leakage q50 1.5 m3/(m2 h)"},
    {{.kind = BW_CHANGE_RAIN_LEAK, .value = 0.02},
     "driving rain inside",
     "2 % of the driving rain leaks in"},
    {{.kind = BW_CHANGE_BUILT_IN, .value = 0.18},
     "timber built in at",
     "timber built in at 18 % moisture"},
    {{.kind = BW_CHANGE_ABSORPTION, BOARD, .value = 0.03},
     "A_w of OSB (Board of strands)",
     "A_w of OSB (Board of strands) 0.03 kg/(m2 s0.5)"},
    {{.kind = BW_CHANGE_SORPTION, .value = 1.25},
     "moisture sorbed by every layer, times",
     "moisture sorbed by every layer, times 1.25"},
    {{.kind = BW_CHANGE_AIR_CHANGE, GAP, .value = 20.0 / 3600.0},
     "air changes of gap (Gap)",
     "air changes of gap (Gap) 20 1/h"},
    {{.kind = BW_CHANGE_DRIVING_RAIN, .value = BW_RAIN_SHELTERED},
     "exposure to driving rain",
     "driving rain sheltered instead of severe"},
    {{.kind = BW_CHANGE_SATURATION, .value = 1.0},
     "free saturation of every layer",
     "free saturation of every layer at its most"},
    {{.kind = BW_CHANGE_SATURATION, .value = 0.0},
     "free saturation of every layer",
     "free saturation of every layer at its least"},
    {{.kind = BW_CHANGE_WIND, .value = 1.0},
     "wind at the face",
     "wind at the face of ground one step more open and twice as high"},
    {{.kind = BW_CHANGE_WIND, .value = -1.0},
     "wind at the face",
     "wind at the face of ground one step more built up"},
    {{.kind = BW_CHANGE_SUN},
     "the face in the shade: no sun",
     "the face in the shade: no sun"},
    {{.kind = BW_CHANGE_START, .value = 0.8},
     "every layer at the start at",
     "every layer at the start at 80 % RH"},
    {{.kind = BW_CHANGE_REDISTRIBUTION, .value = 0.0},
     "water spreads",
     "water spreads more slowly without rain than in rain"},
    {{.kind = BW_CHANGE_REDISTRIBUTION, .value = 1.0},
     "water spreads",
     "water spreads as fast without rain as in rain"},
};

START_TEST(a_change_is_said_in_these_words)
{
    ck_assert_str_eq(bw_change_subject(&arena, &wall, &said[_i].is),
                     said[_i].subject);
    ck_assert_str_eq(bw_change_words(&arena, &wall, &said[_i].is),
                     said[_i].words);
}
END_TEST

static const struct {
    bw_indoors room;
    double step;
    const char *words, *to_do;
} rooms[] = {
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.525},
     1.0,
     "indoor air at 62.5 % RH instead of 52.5 %",
     NULL},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.62},
     -1.0,
     "indoor air at 52 % RH instead of 62 %",
     "Keep the room at 52 % RH instead of 62 %"},
    {{.kind = BW_INDOOR_EN15026},
     1.0,
     "indoor humidity of high occupancy (EN 15026)",
     NULL},
    {{.kind = BW_INDOOR_EN15026, .en15026_high = true},
     -1.0,
     "indoor humidity of normal occupancy (EN 15026)",
     "Keep the room at normal instead of high occupancy humidity (EN 15026)"},
    {{.kind = BW_INDOOR_MONTHS},
     1.0,
     "indoor air 10 points of RH damper",
     NULL},
};

START_TEST(a_room_a_step_damper_or_drier_is_said)
{
    const bw_change is = {.kind = BW_CHANGE_HUMIDITY, .value = rooms[_i].step};
    wall.indoors = rooms[_i].room;
    ck_assert_str_eq(bw_change_words(&arena, &wall, &is), rooms[_i].words);
    if (rooms[_i].to_do != NULL)
        ck_assert_str_eq(bw_change_to_do(&arena, &wall, &is), rooms[_i].to_do);
}
END_TEST

START_TEST(air_that_did_not_leak_is_said_with_its_height)
{
    const bw_change is = {.kind = BW_CHANGE_AIR_LEAKAGE, .value = 3.0 / 3600.0};
    const char *words = "room air leaks in, q50 3 m3/(m2 h) over 2.5 m";
    wall.air_leakage.q50 = 0.0;
    ck_assert_str_eq(bw_change_words(&arena, &wall, &is), words);
    wall.air_leakage = (bw_air_leakage){.given = false, .q50 = 1.0};
    ck_assert_str_eq(bw_change_words(&arena, &wall, &is), words);
}
END_TEST

/* ---- something to do ---- */

static const struct {
    bw_change is;
    const char *words;
} to_do[] = {
    {{.kind = BW_CHANGE_MEMBRANE, SHEET, .value = 2.6},
     "Exchange the membrane Sheet  for one of sd 3 m"},
    {{.kind = BW_CHANGE_MEMBRANE, SHEET, .curve = &bw_variable_membrane},
     "Exchange the membrane Sheet  for a humidity-variable one at the class "
     "limits of DIN 4108-3 (sd 2 m at 25 % RH, 0.5 m at 90 %)"},
    {{.kind = BW_CHANGE_ADDED, SHEET, .value = 10.0},
     "Add a membrane of sd 10 m on the room side of Wool"},
    {{.kind = BW_CHANGE_ADDED, SHEET, .curve = &bw_variable_membrane},
     "Add a membrane on the room side of Wool: a humidity-variable one at the "
     "class limits of DIN 4108-3 (sd 2 m at 25 % RH, 0.5 m at 90 %)"},
    {{.kind = BW_CHANGE_HUMIDITY, .value = -1.0},
     "Ventilate the room: humidity class 2 instead of 3"},
    {{.kind = BW_CHANGE_AIR_LEAKAGE, .value = 5.4 / 3600.0},
     "Make it tighter: q50 5 m3/(m2 h) instead of 3.0"},
    {{.kind = BW_CHANGE_DRIVING_RAIN},
     "Keep driving rain off the outer face, by a cladding or a deep overhang"},
    {{.kind = BW_CHANGE_RAIN_LEAK},
     "Stop the rain leak, 1.2 % of the driving rain inside of Board of strands "
     "(OSB), 4"},
    {{.kind = BW_CHANGE_PROPERTY, WOOL, BW_VARIED_THICKNESS, 0.2},
     "Make Wool thicker: 200 mm instead of 160 mm"},
    {{.kind = BW_CHANGE_PROPERTY, WOOL, BW_VARIED_THICKNESS, 0.12},
     "Make Wool thinner: 120 mm instead of 160 mm"},
    {{.kind = BW_CHANGE_SD, BOARD, .value = 0.25},
     "Replace Board of strands (OSB), 4 (sd 0.90 m) by a layer of sd 0.2 m of "
     "the same thermal resistance"},
    {{.kind = BW_CHANGE_OPENED, GAP},
     "Open Gap to the outdoor air and ventilate it well"},
    {{.kind = BW_CHANGE_AIR_CHANGE, GAP, .value = 30.0 / 3600.0},
     "Air Gap more, with openings at foot and head: 30 air changes an hour"},
    {{.kind = BW_CHANGE_REMOVED, SHEET}, "Leave out the membrane Sheet "},
};

START_TEST(a_change_is_something_to_do)
{
    ck_assert_str_eq(bw_change_to_do(&arena, &wall, &to_do[_i].is),
                     to_do[_i].words);
}
END_TEST

/* ---- what it makes of a layer ---- */

static const bw_assembly *made;

static const bw_layer *change(bw_change is)
{
    made = bw_change_apply(&arena, &wall, &is);
    ck_assert_ptr_nonnull(made);
    return &made->layer[is.layer];
}

START_TEST(one_value_takes_the_place_of_a_curve)
{
    const bw_material *m =
        change(
            (bw_change){.kind = BW_CHANGE_PROPERTY, BOARD, BW_VARIED_MU, 100.0})
            ->material;
    /* wet to dry as 20 to 50 */
    ck_assert_double_eq(m->mu_dry.value, 100.0);
    ck_assert_double_eq(m->mu_wet.value, 40.0);
    ck_assert_uint_eq(m->mu_curve.count, 0);
    ck_assert(!m->sd.known);
    ck_assert_int_eq(m->mu_dry.basis, BW_BASIS_GIVEN);
    ck_assert_int_eq(m->mu_dry.evidence, BW_EVIDENCE_TABULATED);
    ck_assert_str_eq(m->mu_dry.source, "a change tried");
    m = change((bw_change){.kind = BW_CHANGE_SD, BOARD, .value = 1.8})
            ->material;
    ck_assert_double_eq_tol(m->mu_dry.value, 100.0, 1e-9); /* 1.8 / 0.018 */
    ck_assert_double_eq_tol(m->mu_wet.value, 100.0, 1e-9);
    ck_assert_uint_eq(m->mu_curve.count, 0);
    m = change((bw_change){.kind = BW_CHANGE_SD, SMART, .value = 3.0})
            ->material;
    ck_assert_uint_eq(m->sd_curve.count, 0);
    ck_assert_uint_eq(m->mu_curve.count, 0);
    ck_assert(m->sd.known && m->sd.value == 3.0);
    ck_assert(!m->mu_dry.known && !m->mu_wet.known);
}
END_TEST

START_TEST(a_held_curve_is_flat_and_stays_a_curve)
{
    for (int humid = 0; humid < 2; humid++) {
        const bw_material *m =
            change((bw_change){.kind = BW_CHANGE_CURVE, SMART, .value = humid})
                ->material;
        ck_assert_uint_eq(m->sd_curve.count, 3);
        ck_assert_uint_eq(m->mu_curve.count, 0);
        for (size_t i = 0; i < 3; i++)
            ck_assert_double_eq(m->sd_curve.y[i], humid ? 0.5 : 5.0);
    }
    ck_assert_double_eq(sds[0], 5.0);
    const bw_material *m =
        change((bw_change){.kind = BW_CHANGE_CURVE, SHEET, .value = 1.0})
            ->material;
    ck_assert_double_eq(m->sd.value, 20.0);
    m = change(
            (bw_change){.kind = BW_CHANGE_PROPERTY, SMART, BW_VARIED_SD, 1.5})
            ->material;
    ck_assert_uint_eq(m->sd_curve.count, 3);
    ck_assert_double_eq(m->sd_curve.y[2], 1.5);
}
END_TEST

START_TEST(a_cup_is_held_where_both_are_known)
{
    const bw_material *m =
        change((bw_change){.kind = BW_CHANGE_MU, BOARD, .value = 1.0})
            ->material;
    ck_assert_double_eq(m->mu_dry.value, 20.0);
    ck_assert_double_eq(m->mu_wet.value, 20.0);
    ck_assert_uint_eq(m->mu_curve.count, 0);
    m = change((bw_change){.kind = BW_CHANGE_MU, BOARD, .value = 0.0})
            ->material;
    ck_assert_double_eq(m->mu_wet.value, 50.0);
    m = change((bw_change){.kind = BW_CHANGE_FRAMING_MU, WOOL, .value = 1.0})
            ->framing.material;
    ck_assert_double_eq(m->mu_dry.value, 30.0);
    ck_assert_str_eq(made->layer[WOOL].material->id, "wool");
    ck_assert_double_eq(made->layer[BOARD].material->mu_dry.value, 50.0);
}
END_TEST

START_TEST(a_membrane_takes_the_place_of_a_layer)
{
    const bw_layer *to = change(
        (bw_change){.kind = BW_CHANGE_MEMBRANE, WOOL, .value = 3.0});
    ck_assert_int_eq(to->kind, BW_LAYER_MEMBRANE);
    ck_assert_str_eq(to->material->id, "changed-membrane");
    ck_assert_str_eq(to->material->name, "changed-membrane");
    ck_assert_str_eq(to->material->group, "membrane");
    ck_assert_int_eq(to->material->mould_class, BW_MOULD_MEDIUM_RESISTANT);
    ck_assert(to->material->sd.known && to->material->sd.value == 3.0);
    ck_assert_uint_eq(to->material->sd_curve.count, 0);
    to = change((bw_change){
        .kind = BW_CHANGE_MEMBRANE, WOOL, .curve = &bw_variable_membrane});
    ck_assert(!to->material->sd.known);
    ck_assert_uint_eq(to->material->sd_curve.count, 2);
    to = change((bw_change){.kind = BW_CHANGE_ADDED, SHEET, .value = 4.0});
    ck_assert_uint_eq(made->layer_count, LAYERS + 1);
    ck_assert_str_eq(to->id, "added-membrane");
    ck_assert_str_eq(to->name, "added membrane");
    ck_assert_str_eq(to->source, "");
    ck_assert_int_eq(to->evidence, BW_EVIDENCE_TABULATED);
    ck_assert_int_eq(to->kind, BW_LAYER_MEMBRANE);
    ck_assert_str_eq(to[1].id, "vcl");
    ck_assert_str_eq(to[-1].id, "bay");
}
END_TEST

/* Of the old one nothing stays but its framing, and its start where that is a
 * humidity. */
START_TEST(another_material_brings_its_own)
{
    const bw_layer *to = change((bw_change){
        .kind = BW_CHANGE_MATERIAL, WOOL, .value = 0.1, .material = &board});
    ck_assert_ptr_eq(to->material, &board);
    ck_assert_str_eq(to->name, board.name);
    ck_assert_double_eq(to->thickness, 0.1);
    ck_assert(!to->resistance.known && !to->has_initial_moisture);
    ck_assert(to->framing.present);
    ck_assert_int_eq(to->kind, BW_LAYER_SOLID);
    layer[WOOL].initial_is_rh = true;
    to = change(
        (bw_change){.kind = BW_CHANGE_MATERIAL, WOOL, .material = &board});
    ck_assert(to->has_initial_moisture);
    ck_assert_int_eq(to->kind, BW_LAYER_MEMBRANE); /* without a thickness */
    to = change((bw_change){
        .kind = BW_CHANGE_MATERIAL, WOOL, .value = 0.001, .material = &sheet});
    ck_assert_int_eq(to->kind, BW_LAYER_MEMBRANE);
    to = change(
        (bw_change){.kind = BW_CHANGE_LAYER, WOOL, .made = &layer[BOARD]});
    ck_assert_str_eq(to->id, "OSB");
    ck_assert(!to->framing.present);
}
END_TEST

START_TEST(each_other_change_sets_its_field)
{
    const bw_layer *to = change((bw_change){.kind = BW_CHANGE_OPENED, GAP});
    ck_assert_int_eq(to->ventilation, BW_VENT_WELL);
    ck_assert_double_eq(to->air_change, 0.0);
    to = change((bw_change){.kind = BW_CHANGE_BLOCKED, GAP});
    ck_assert_int_eq(to->ventilation, BW_VENT_NONE);
    to = change((bw_change){.kind = BW_CHANGE_AIR_CHANGE, GAP, .value = 0.02});
    ck_assert_double_eq(to->air_change, 0.02);
    to = change((bw_change){.kind = BW_CHANGE_STUDS, WOOL, .value = 0.05});
    ck_assert_double_eq(to->framing.depth, 0.05);
    to = change(
        (bw_change){.kind = BW_CHANGE_ABSORPTION, BOARD, .value = 0.07});
    ck_assert_double_eq(to->material->water_absorption.value, 0.07);
    to = change(
        (bw_change){.kind = BW_CHANGE_PROPERTY, WOOL, BW_VARIED_LAMBDA, 0.05});
    ck_assert(!to->resistance.known);
    ck_assert_double_eq(to->material->thermal_conductivity.value, 0.05);
    to = change((bw_change){
        .kind = BW_CHANGE_PROPERTY, WOOL, BW_VARIED_RESISTANCE, 3.0});
    ck_assert_double_eq(to->resistance.value, 3.0);
    to = change((bw_change){
        .kind = BW_CHANGE_PROPERTY, BOARD, BW_VARIED_THICKNESS, 0.03});
    ck_assert_double_eq(to->thickness, 0.03);
    change((bw_change){.kind = BW_CHANGE_REMOVED, BOARD});
    ck_assert_uint_eq(made->layer_count, LAYERS - 1);
    ck_assert_str_eq(made->layer[BOARD].id, "bay");
    ck_assert_int_eq(made->rain_leak.after_layer, 0);
    ck_assert_int_eq(wall.rain_leak.after_layer, BOARD);
}
END_TEST

/* ---- what it makes of a side ---- */

/* Where no terrain and height are given: suburb, 5 m (src/assembly/exposure.c,
 * estimates). */
static const struct {
    bool given;
    bw_terrain terrain;
    double height, step;
    bw_terrain then;
    double high;
} winds[] = {
    {false, BW_TERRAIN_OPEN, 0, 1, BW_TERRAIN_RURAL, 10},
    {false, BW_TERRAIN_OPEN, 0, -1, BW_TERRAIN_URBAN, 5},
    {true, BW_TERRAIN_RURAL, 8, 1, BW_TERRAIN_OPEN, 16},
    {true, BW_TERRAIN_RURAL, 8, -1, BW_TERRAIN_SUBURBAN, 8},
    {true, BW_TERRAIN_OPEN, 8, 1, BW_TERRAIN_OPEN, 16},
    {true, BW_TERRAIN_URBAN, 8, -1, BW_TERRAIN_URBAN, 8},
};

START_TEST(wind_goes_a_step_and_no_further)
{
    bw_outdoors *o = &wall.outdoors;
    o->has_terrain = o->has_height = winds[_i].given;
    o->terrain = winds[_i].terrain;
    o->height = winds[_i].height;
    change((bw_change){.kind = BW_CHANGE_WIND, .value = winds[_i].step});
    ck_assert_int_eq(made->outdoors.terrain, winds[_i].then);
    ck_assert_double_eq(made->outdoors.height, winds[_i].high);
    ck_assert(made->outdoors.has_terrain && made->outdoors.has_height);
}
END_TEST

/* Behind the innermost ventilated cavity, else behind the outermost layer, or
 * where the file says. */
START_TEST(rain_that_leaks_in_lies_behind_what_is_ventilated)
{
    const bw_change rain = {.kind = BW_CHANGE_RAIN_LEAK, .value = 0.02};
    change(rain);
    ck_assert_int_eq(made->rain_leak.after_layer, BOARD);
    ck_assert_double_eq(made->rain_leak.fraction, 0.02);
    wall.rain_leak.given = false;
    wall.rain_leak.after_layer = 3;
    change(rain);
    ck_assert(made->rain_leak.given);
    ck_assert_int_eq(made->rain_leak.after_layer, GAP);
    layer[WOOL].kind = BW_LAYER_CAVITY;
    layer[WOOL].ventilation = BW_VENT_WELL;
    change(rain);
    ck_assert_int_eq(made->rain_leak.after_layer, WOOL);
    layer[WOOL].ventilation = layer[GAP].ventilation = BW_VENT_NONE;
    change(rain);
    ck_assert_int_eq(made->rain_leak.after_layer, 0);
}
END_TEST

START_TEST(air_rain_and_sun_are_set)
{
    change((bw_change){.kind = BW_CHANGE_AIR_LEAKAGE, .value = 0.001});
    ck_assert_double_eq(made->air_leakage.q50, 0.001);
    ck_assert_double_eq(made->air_leakage.connected_height, 0.0);
    wall.air_leakage.q50 = 0.0;
    change((bw_change){.kind = BW_CHANGE_AIR_LEAKAGE, .value = 0.001});
    ck_assert(made->air_leakage.given);
    ck_assert_double_eq(made->air_leakage.connected_height, 2.5);
    change((bw_change){.kind = BW_CHANGE_DRIVING_RAIN,
                       .value = BW_RAIN_SHELTERED});
    ck_assert_int_eq(made->outdoors.driving_rain, BW_RAIN_SHELTERED);
    change((bw_change){.kind = BW_CHANGE_SUN, .value = 0.125});
    ck_assert_double_eq(made->outdoors.solar_absorptance, 0.125);
}
END_TEST

SUITE_AROUND("change_said", setup, teardown,
             EACH(a_change_is_said_in_these_words, COUNT(said)),
             EACH(a_room_a_step_damper_or_drier_is_said, COUNT(rooms)),
             FACT(air_that_did_not_leak_is_said_with_its_height),
             EACH(a_change_is_something_to_do, COUNT(to_do)),
             FACT(one_value_takes_the_place_of_a_curve),
             FACT(a_held_curve_is_flat_and_stays_a_curve),
             FACT(a_cup_is_held_where_both_are_known),
             FACT(a_membrane_takes_the_place_of_a_layer),
             FACT(another_material_brings_its_own),
             FACT(each_other_change_sets_its_field),
             EACH(wind_goes_a_step_and_no_further, COUNT(winds)),
             FACT(rain_that_leaks_in_lies_behind_what_is_ventilated),
             FACT(air_rain_and_sun_are_set))
