/* What a setting of an unknown makes of the wall: the assembly that is
 * assessed, read without assessing it; and what is not computed. */

#include <math.h>
#include <stdlib.h>

#include "criteria_case.h"
#include "margin/steps.h"
#include "margin/study.h"
#include "paper.h"
#include "suite.h"

enum { MOST_LAYERS = CASE_LAYERS + 2, MOST_SETTINGS = 32 };

static criteria_case c;
static bw_layer layers[MOST_LAYERS];
static bw_material air;
static bw_arena arena;
static bw_study study;
static bw_setting settings[MOST_SETTINGS];
static const bw_assembly *changed;

static void setup(void)
{
    case_make(&c);
    air = case_material("air", "air", 1.2, 0.025, 1, false);
    arena = (bw_arena){0};
    memcpy(layers, c.layer, CASE_LAYERS * sizeof *layers);
    c.assembly.layer = layers;
    c.assembly.outdoors.driving_rain = BW_RAIN_SEVERE;
    study = (bw_study){
        .assembly = &c.assembly, .climate = &c.climate, .arena = &arena};
    memset(settings, 0, sizeof settings);
}

static void teardown(void)
{
    bw_arena_release(&arena);
    case_free(&c);
}

/* The unknown whose name has these words, set to a value; all others stay. */
static size_t set(const char *words, double value)
{
    for (size_t i = 0; i < study.count; i++)
        if (strstr(study.source[i].shown.name, words) != NULL) {
            settings[i] = (bw_setting){true, value};
            return i;
        }
    ck_abort_msg("no unknown '%s'", words);
}

static void find(void)
{
    ck_assert_int_eq(bw_unknowns_find(&study, NULL), BW_OK);
    ck_assert_uint_le(study.count, MOST_SETTINGS);
}

static void apply(void)
{
    changed = bw_study_apply(&study, &arena, settings);
    ck_assert_ptr_nonnull(changed);
}

/* ---- rain ------------------------------------------------------------------
 */

static void cavity(size_t at, bw_ventilation ventilation)
{
    memmove(layers + at + 1, layers + at,
            (c.assembly.layer_count - at) * sizeof *layers);
    layers[at] = (bw_layer){.id = "gap",
                            .name = "gap",
                            .kind = BW_LAYER_CAVITY,
                            .material = &air,
                            .thickness = 0.03,
                            .ventilation = ventilation,
                            .source = ""};
    c.assembly.layer_count++;
}

static const struct rain_row {
    size_t at;
    bw_ventilation ventilation;
    long after;
} rains[] = {
    {0, BW_VENT_NONE, 0}, /* still air lets no rain run off */
    {1, BW_VENT_WELL, 1},
    {2, BW_VENT_WELL, 2},
};

START_TEST(leaking_rain_comes_to_lie_inside_the_innermost_vented_cavity)
{
    cavity(rains[_i].at, rains[_i].ventilation);
    find();
    size_t i = set("driving rain", 1.0);
    ck_assert(study.source[i].shown.seen);
    apply();
    ck_assert(changed->rain_leak.given);
    ck_assert_int_eq(changed->rain_leak.after_layer, rains[_i].after);
    ck_assert_double_eq(changed->rain_leak.fraction, 0.01);
    ck_assert(!c.assembly.rain_leak.given);
}
END_TEST

START_TEST(a_leak_of_the_file_keeps_its_place)
{
    c.assembly.rain_leak = (bw_rain_leak){
        .given = true, .fraction = 0.002, .after_layer = 3};
    find();
    set("driving rain", 1.0);
    apply();
    ck_assert_int_eq(changed->rain_leak.after_layer, 3);
    ck_assert_double_eq(changed->rain_leak.fraction, 0.01);
}
END_TEST

START_TEST(a_wall_that_no_rain_meets_has_no_leak)
{
    c.assembly.outdoors.driving_rain = BW_RAIN_NONE;
    find();
    for (size_t i = 0; i < study.count; i++)
        HAS_NOT(study.source[i].shown.name, "driving rain");
}
END_TEST

/* ---- the others ------------------------------------------------------------
 */

START_TEST(timber_is_built_in_at_a_fifth_of_its_mass)
{
    find();
    set("built in", 1.0);
    apply();
    ck_assert(changed->layer[CASE_SHEATHING].has_initial_moisture);
    ck_assert_double_eq(changed->layer[CASE_SHEATHING].initial_moisture, 0.20);
    ck_assert(!changed->layer[CASE_LINING].has_initial_moisture);
}
END_TEST

START_TEST(a_switch_that_is_off_changes_nothing)
{
    find();
    set("built in", 0.0);
    set("driving rain", 0.0);
    apply();
    ck_assert(!changed->layer[CASE_SHEATHING].has_initial_moisture);
    ck_assert(!changed->rain_leak.given);
}
END_TEST

START_TEST(leakage_is_set_in_units_of_its_own)
{
    c.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 3.0 / 3600.0, .connected_height = 5};
    find();
    set("air leakage", 7.2);
    apply();
    ck_assert_double_eq_tol(changed->air_leakage.q50, 7.2 / 3600.0, 1e-15);
}
END_TEST

START_TEST(the_framing_of_every_layer_is_held_at_one_cup)
{
    static bw_framing framing;
    c.stud.mu_wet = case_value(20);
    framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    layers[CASE_INSULATION].framing = layers[CASE_LINING].framing = framing;
    find();
    set("mu of the framing", 20.0);
    apply();
    const size_t framed[] = {CASE_INSULATION, CASE_LINING};
    for (size_t i = 0; i < 2; i++) {
        const bw_material *m = changed->layer[framed[i]].framing.material;
        ck_assert_double_eq(m->mu_dry.value, 20.0);
        ck_assert_double_eq(m->mu_wet.value, 20.0);
    }
    set("mu of the framing", 50.0);
    apply();
    ck_assert_double_eq(
        changed->layer[CASE_LINING].framing.material->mu_wet.value, 50.0);
}
END_TEST

START_TEST(a_layer_that_is_replaced_takes_its_unknowns_with_it)
{
    static bw_uncertain range;
    static bw_alternative two[2];
    static bw_material plywood, osb;
    plywood = case_material("plywood", "board", 500, 0.13, 70, true);
    osb = case_material("osb", "board", 600, 0.13, 200, true);
    two[0] = (bw_alternative){&plywood, 0.015};
    two[1] = (bw_alternative){&osb, 0.018};
    range = (bw_uncertain){"mu", 20, 90};
    layers[CASE_SHEATHING].uncertain = &range;
    layers[CASE_SHEATHING].uncertain_count = 1;
    layers[CASE_SHEATHING].alternative = two;
    layers[CASE_SHEATHING].alternative_count = 2;
    find();
    size_t mu = set("mu of panel", 90.0);
    apply();
    ck_assert_double_eq(changed->layer[0].material->mu_dry.value, 90.0);
    ck_assert(!bw_study_replaced(&study, settings, mu));
    size_t other = set("osb", 1.0);
    ck_assert(bw_study_replaced(&study, settings, mu));
    ck_assert(!bw_study_replaced(&study, settings, other));
    set("plywood", 1.0); /* of two, the first counts */
    ck_assert(bw_study_replaced(&study, settings, other));
    apply();
    ck_assert_str_eq(changed->layer[0].material->id, "plywood");
    ck_assert_double_eq(changed->layer[0].thickness, 0.015);
}
END_TEST

/* ---- what no file is unsure of -------------------------------------------
 */

static bw_curve curve;
static bw_material *wet; /* the panel, as it sorbs and takes up water */

static void make_wide(void)
{
    static const double rh[] = {0.0, 0.8, 0.95}, u[] = {0.0, 0.1, 0.2};
    curve = (bw_curve){.count = 3, .x = rh, .y = u, .source = "", .note = ""};
    wet = &c.material[CASE_SHEATHING];
    wet->sorption = curve;
    wet->water_absorption = case_value(0.003);
    wet->free_saturation = case_value(400.0);
    wet->density.has_range = true;
    wet->density.low = 600.0;
    wet->density.high = 700.0;
    c.assembly.outdoors.driving_rain = BW_RAIN_MODERATE;
    c.assembly.outdoors.has_solar_absorptance = true;
    c.assembly.outdoors.solar_absorptance = 0.6;
    cavity(1, BW_VENT_SLIGHT);
    study.wide = true;
    find();
}

static double of_panel(void)
{
    return changed->layer[0].material->density.value;
}

static double absorbs(void)
{
    return changed->layer[0].material->water_absorption.value;
}

static double sorbs_last(void)
{
    return changed->layer[0].material->sorption.y[2];
}

static double saturation(void)
{
    return changed->layer[0].material->free_saturation.value;
}

static double aired(void)
{
    return changed->layer[1].air_change * 3600.0;
}

static double exposed(void)
{
    return changed->outdoors.driving_rain;
}

static double ground(void)
{
    return changed->outdoors.terrain;
}

static double height(void)
{
    return changed->outdoors.height;
}

static double sun(void)
{
    return changed->outdoors.solar_absorptance;
}

static double start_rh(void)
{
    const bw_layer *layer = &changed->layer[0];
    return layer->has_initial_moisture && layer->initial_is_rh
               ? layer->initial_moisture
               : -1.0;
}

static double leak(void)
{
    return changed->air_leakage.given ? changed->air_leakage.q50 * 3600.0
                                      : -1.0;
}

/* The figures are the estimates of docs/methods.md, "Margin". */
static const struct wide_row {
    const char *unknown;
    bool high;
    double (*of)(void);
    double value;
} wides[] = {
    {"density of panel", false, of_panel, 600.0},
    {"density of panel", true, of_panel, 700.0},
    {"A_w of panel", false, absorbs, 0.001},
    {"A_w of panel", true, absorbs, 0.009},
    {"sorbed by every layer", false, sorbs_last, 0.14},
    {"sorbed by every layer", true, sorbs_last, 0.26},
    {"free saturation", false, saturation, 320.0},
    {"free saturation", true, saturation, 500.0},
    {"air changes of gap", false, aired, 0.5},
    {"air changes of gap", true, aired, 20.0},
    {"exposure to driving", false, exposed, BW_RAIN_SHELTERED},
    {"exposure to driving", true, exposed, BW_RAIN_SEVERE},
    {"wind at the face", false, ground, BW_TERRAIN_URBAN},
    {"wind at the face", true, ground, BW_TERRAIN_RURAL},
    {"wind at the face", false, height, 5.0},
    {"wind at the face", true, height, 10.0},
    {"no sun", true, sun, 0.0},
    {"at the start at", false, start_rh, 0.50},
    {"at the start at", true, start_rh, 0.95},
    {"room air leaks in", true, leak, 3.0},
};

START_TEST(a_wide_unknown_sets_what_it_says)
{
    make_wide();
    const struct wide_row *row = &wides[_i];
    size_t i = set(row->unknown, 0.0);
    const bw_unknown *u = &study.source[i].shown;
    settings[i].value = row->high ? u->high : u->low;
    apply();
    ck_assert_double_eq_tol(row->of(), row->value, 1e-9);
    ck_assert_double_eq(wet->density.value, 650.0); /* the wall's own */
    ck_assert_double_eq(wet->water_absorption.value, 0.003);
    ck_assert_double_eq(curve.y[2], 0.2);
}
END_TEST

START_TEST(without_being_asked_only_the_file_and_the_standard_are_varied)
{
    make_wide();
    size_t wide = study.count;
    study.count = 0;
    study.wide = false;
    find();
    ck_assert_uint_lt(study.count, wide);
    for (size_t i = 0; i < study.count; i++)
        ck_assert_int_lt(study.source[i].high.kind, BW_CHANGE_ABSORPTION);
}
END_TEST

/* ---- words ------------------------------------------------------------------
 */

static const struct words_row {
    bw_change change;
    double value;
    const char *words;
} words[] = {
    {{.kind = BW_CHANGE_PROPERTY, .property = BW_VARIED_MU},
     60.0,
     "mu of panel 60"},
    {{.kind = BW_CHANGE_PROPERTY, .property = BW_VARIED_SD},
     0.25,
     "sd of panel 0.25 m"},
    {{.kind = BW_CHANGE_PROPERTY, .property = BW_VARIED_LAMBDA},
     1e-3,
     "lambda of panel 0.001 W/(m.K)"},
};

START_TEST(a_setting_reads_with_its_unit)
{
    bw_source source = {.high = words[_i].change,
                        .shown = {.continuous = true}};
    ck_assert_str_eq(bw_setting_words(&study, &source, words[_i].value),
                     words[_i].words);
}
END_TEST

START_TEST(a_setting_of_a_switch_reads_as_what_is_there)
{
    bw_source source = {.shown = {.name = "mu of board",
                                  .low = 20.0,
                                  .high = 50.0,
                                  .low_words = "wet-cup",
                                  .high_words = "dry-cup"}};
    ck_assert_str_eq(bw_setting_words(&study, &source, 20.0), "wet-cup");
    ck_assert_str_eq(bw_setting_words(&study, &source, 50.0), "dry-cup");
}
END_TEST

/* ---- the map
 * ------------------------------------------------------------------ */

START_TEST(a_section_without_layers_has_no_map_and_says_so)
{
    bw_margin out = {.inner_count = 0};
    bw_section none = c.section;
    none.slab_count = 0;
    ck_assert_int_eq(bw_map_make(&out, &study, &none, NULL), BW_OK);
    ck_assert_uint_eq(out.inner_count, 0);
    HAS(out.map_note, "no layer");
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

SUITE_AROUND(
    "margin_study", setup, teardown,
    EACH(leaking_rain_comes_to_lie_inside_the_innermost_vented_cavity,
         ROWS(rains)),
    FACT(a_leak_of_the_file_keeps_its_place),
    FACT(a_wall_that_no_rain_meets_has_no_leak),
    FACT(timber_is_built_in_at_a_fifth_of_its_mass),
    FACT(a_switch_that_is_off_changes_nothing),
    FACT(leakage_is_set_in_units_of_its_own),
    FACT(the_framing_of_every_layer_is_held_at_one_cup),
    FACT(a_layer_that_is_replaced_takes_its_unknowns_with_it),
    EACH(a_wide_unknown_sets_what_it_says, ROWS(wides)),
    FACT(without_being_asked_only_the_file_and_the_standard_are_varied),
    EACH(a_setting_reads_with_its_unit, ROWS(words)),
    FACT(a_setting_of_a_switch_reads_as_what_is_there),
    FACT(a_section_without_layers_has_no_map_and_says_so))
