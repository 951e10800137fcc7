/* Faces that two methods find wet, and what lies under a tight covering.
 * Limits: 1.0 and 0.5 kg/m2 of DIN 4108-3 [seen in a list]; 720 h above 95 %
 * or 90 % RH [common practice, no source]. */

#include <stdlib.h>

#include "judged_simulation.h"
#include "suite.h"

static bw_plane plane[3];

static void setup_dry(void)
{
    setup();
    memset(plane, 0, sizeof plane);
}

/* Condensate by months between panel and wool, hours there by simulation. */
static void wet(double water, double hours)
{
    plane[0] = (bw_plane){.at = {CASE_SHEATHING, 0.009, true}, .peak = water};
    sim.part.run[BW_RUN_DESIGN].ran = true;
    sim.part.run[BW_RUN_DESIGN].result = (bw_monthly_result){.plane_count = 1,
                                                             .plane = plane};
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
        if (row == NULL)
            continue;
        ck_assert_int_eq(row->outcome, cases[i].verdict);
        NAMES(row->reason, "panel", "mineral wool",
              cases[i].hours > 1000 ? "4500 h" : "721 h");
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
    plane[2] = (bw_plane){.at = {CASE_INSULATION, 0.08, false}, .peak = 9.0};
    sim.part.run[BW_RUN_DESIGN].result.plane_count = 3;
    ck_assert_double_eq_tol(judged(BW_C_BOTH_WET)->value, 0.8, 1e-12);
    ck_assert_int_eq(judged(BW_C_BOTH_WET)->outcome, BW_HOLDS);
}
END_TEST

/* Of several planes at the face the wettest tells the month; of another face
 * none does. A plane is at the face it is nearer to, half way at the outer. */
START_TEST(the_month_named_is_of_the_wettest_plane_at_the_face)
{
    static const struct {
        double depth[2]; /* in the wool of 140 mm, from its outer face */
        double value;
        const char *month;
    } cases[] = {{{0.020, 0.069}, 1.0 + 3.0 + 2.0, "May"},
                 {{0.070, 0.071}, 1.0 + 3.0, "May"},
                 {{0.071, 0.070}, 1.0 + 2.0, "Jul"},
                 {{0.100, 0.120}, 1.0, "Mar"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        wet(1.0, 4000);
        plane[0].peak_month = 2;
        for (size_t k = 0; k < 2; k++)
            plane[1 + k] = (bw_plane){
                .at = {CASE_INSULATION, cases[i].depth[k], false},
                .peak = k == 0 ? 3.0 : 2.0,
                .peak_month = k == 0 ? 4 : 6};
        sim.part.run[BW_RUN_DESIGN].result.plane_count = 3;
        const bw_criterion *row = judged(BW_C_BOTH_WET);
        ck_assert_double_eq_tol(row->value, cases[i].value, 1e-12);
        has(row->reason, cases[i].month);
    }
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
    const bw_profile_rule rule = {.criterion = "condensate-absorbing",
                                  .limit = 0.5};
    const bw_profile half = {.rule_count = 1, .rule = &rule};
    c.rows.profile = &half; /* a tenth of what is allowed */
    wet(0.06, 2000);
    ck_assert_ptr_nonnull(judged(BW_C_HUMID_HOURS));
    c.rows.profile = NULL;
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
    has(judged(BW_C_BOTH_WET)->reason, "mineral wool");
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
            ck_assert_double_eq(row->value, cases[i].above_90);
            has(row->reason, "vinyl");
        }
}
END_TEST

START_TEST(what_lets_vapour_through_or_does_not_suffer_is_no_such_covering)
{
    floor_of(1.9);
    humid(8760, 8760, false);
    ck_assert_ptr_null(judged(BW_C_COVERING));
    floor_of(2.0);
    ck_assert_ptr_nonnull(judged(BW_C_COVERING));
    c.material[CASE_FOIL].mould_class = BW_MOULD_RESISTANT; /* tiles */
    ck_assert_ptr_null(judged(BW_C_COVERING));
}
END_TEST

/* At most 20 mm thick, of what takes up no water itself, or a coat; on a solid
 * layer that holds water. */
START_TEST(a_covering_is_thin_and_lies_on_what_holds_water)
{
    static const struct {
        const char *group;
        bw_layer_kind kind, base;
        double thickness;
        bool absorbs, base_absorbs, base_stores, covers;
    } cases[] = {
        {"plastic", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.020, 0, 1, 0, true},
        {"plastic", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.0201, 0, 1, 0, false},
        {"plastic", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.002, 0, 0, 1, true},
        {"plastic", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.002, 0, 0, 0, false},
        {"plastic", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.002, 1, 1, 0, false},
        {"coating", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.002, 1, 1, 0, true},
        {"insulation", BW_LAYER_SOLID, BW_LAYER_SOLID, 0.002, 0, 1, 0, false},
        {"plastic", BW_LAYER_MEMBRANE, BW_LAYER_SOLID, 0.002, 1, 1, 0, true},
        {"plastic", BW_LAYER_CAVITY, BW_LAYER_SOLID, 0.002, 0, 1, 0, false},
        {"plastic", BW_LAYER_SOLID, BW_LAYER_CAVITY, 0.002, 0, 1, 1, false},
    };
    humid(8760, 8760, false);
    for (size_t i = 0; i < COUNT(cases); i++) {
        floor_of(20.0);
        c.slab[CASE_LINING].kind = cases[i].kind;
        c.slab[CASE_LINING].thickness = cases[i].thickness;
        c.slab[CASE_FOIL].kind = cases[i].base;
        c.material[CASE_FOIL].group = cases[i].group;
        c.material[CASE_FOIL].absorbs_condensate = cases[i].absorbs;
        c.material[CASE_LINING].absorbs_condensate = cases[i].base_absorbs;
        c.material[CASE_LINING].hygroscopic = cases[i].base_stores;
        ck_assert_msg((judged(BW_C_COVERING) != NULL) == cases[i].covers,
                      "case %zu", i);
    }
}
END_TEST

/* A foil behind a lining stops vapour there; nothing is laid on it. */
START_TEST(a_foil_behind_a_lining_is_no_covering)
{
    sim.monitor[CASE_FOIL].last_year.above_90 = 8760;
    ck_assert_ptr_null(judged(BW_C_COVERING));
}
END_TEST

/* Wood straight on a base, in a floor: BS 8201 lays it on a base at 75 % RH at
 * most [from memory, high]. The screed becomes its base, however open it is. */
static void parquet(bw_wood_kind kind, double thickness)
{
    floor_of(0.2);
    c.assembly.element = BW_ELEMENT_FLOOR;
    c.slab[CASE_LINING].thickness = thickness;
    c.slab[CASE_LINING].label = "parquet";
    c.material[CASE_FOIL].wood_kind = kind;
    c.material[CASE_FOIL].hygroscopic = true;
    c.material[CASE_FOIL].absorbs_condensate = true;
    c.material[CASE_LINING].group = "plaster";
}

START_TEST(wood_laid_on_a_damp_base_of_a_floor_fails_however_open)
{
    static const struct {
        bw_wood_kind kind;
        double thickness;
        bool judged;
    } cases[] = {
        {BW_SOLID_WOOD, 0.030, true},       {BW_WOOD_PANEL, 0.016, true},
        {BW_SOLID_WOOD, 0.0301, false},     {BW_NOT_WOOD, 0.010, false},
        {BW_WOOD_WOOL_BOARD, 0.010, false},
    };
    humid(2984, 1879, true);
    for (size_t i = 0; i < COUNT(cases); i++) {
        parquet(cases[i].kind, cases[i].thickness);
        const bw_criterion *row = judged(BW_C_COVERING);
        ck_assert_msg((row != NULL) == cases[i].judged, "case %zu", i);
        if (row == NULL)
            continue;
        ck_assert_int_eq(row->outcome, BW_FAILS);
        NAMES(row->reason, "parquet", "1879 h", "first year");
    }
    parquet(BW_SOLID_WOOD, 0.015);
    humid(721, 720, true);
    ck_assert_int_eq(judged(BW_C_COVERING)->outcome, BW_MARGINAL);
    humid(720, 0, true);
    ck_assert_int_eq(judged(BW_C_COVERING)->outcome, BW_HOLDS);
}
END_TEST

START_TEST(wood_on_walls_studs_wood_or_insulation_is_no_such_floor)
{
    humid(8760, 8760, false);
    parquet(BW_SOLID_WOOD, 0.015);
    c.assembly.element = BW_ELEMENT_WALL;
    ck_assert_ptr_null(judged(BW_C_COVERING));
    c.assembly.element = BW_ELEMENT_FLOOR;
    c.slab[CASE_LINING].is_framing = true;
    ck_assert_ptr_null(judged(BW_C_COVERING));
    c.slab[CASE_LINING].is_framing = false;
    c.material[CASE_LINING].group = "insulation";
    ck_assert_ptr_null(judged(BW_C_COVERING));
    c.material[CASE_LINING].group = "plaster";
    c.slab[CASE_FOIL].kind = BW_LAYER_MEMBRANE; /* a foil between */
    ck_assert_ptr_null(judged(BW_C_COVERING));
    c.slab[CASE_FOIL].kind = BW_LAYER_SOLID;
    c.material[CASE_LINING].wood_kind = BW_WOOD_PANEL; /* over 30 mm of both */
    c.slab[CASE_FOIL].thickness = 0.018;
    ck_assert_ptr_null(judged(BW_C_COVERING));
    c.slab[CASE_FOIL].is_framing = true; /* on a stud */
    ck_assert_ptr_null(judged(BW_C_COVERING));
}
END_TEST

/* Vinyl on a panel on a screed: above the panel or below it. */
START_TEST(of_a_covering_and_the_wood_below_it_the_wetter_face_is_told)
{
    parquet(BW_WOOD_PANEL, 0.016);
    c.slab[CASE_INSULATION] = c.slab[CASE_FOIL];
    c.slab[CASE_INSULATION].label = "screed";
    c.slab[CASE_FOIL] = c.slab[CASE_LINING];
    c.slab[CASE_LINING].material = &c.material[CASE_INSULATION];
    c.slab[CASE_LINING].label = "vinyl";
    c.slab[CASE_LINING].sd_dry = 20.0;
    c.material[CASE_INSULATION].group = "plastic";
    c.material[CASE_INSULATION].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    humid(4000, 2000, false);
    sim.monitor[CASE_FOIL].last_year.above_90 = 2001;
    ck_assert_double_eq(judged(BW_C_COVERING)->value, 2001);
    has(case_row(&c, BW_C_COVERING)->reason, "screed");
    sim.monitor[CASE_FOIL].last_year.above_90 = 1999;
    ck_assert_double_eq(judged(BW_C_COVERING)->value, 2000);
    has(case_row(&c, BW_C_COVERING)->reason, "vinyl");
}
END_TEST

/* ---- outside the weather line -------------------------------------------- */

/* Insulation, or wood under an sd of 2 m, outside a well-ventilated cavity: its
 * air is not judged there, so the wall must not hold. */
START_TEST(what_nothing_judges_outside_the_weather_line_is_said)
{
    static const struct {
        const char *group;
        bw_layer_kind kind;
        bw_wood_kind outer, wood;
        double sd;
        bool unjudged;
    } cases[] = {
        {"insulation", BW_LAYER_SOLID, BW_NOT_WOOD, BW_NOT_WOOD, 0.1, true},
        {"insulation", BW_LAYER_CAVITY, BW_NOT_WOOD, BW_NOT_WOOD, 0.1, false},
        {"wood", BW_LAYER_SOLID, BW_NOT_WOOD, BW_SOLID_WOOD, 2.0, true},
        {"wood", BW_LAYER_SOLID, BW_NOT_WOOD, BW_SOLID_WOOD, 1.99, false},
        {"masonry", BW_LAYER_SOLID, BW_NOT_WOOD, BW_NOT_WOOD, 2.0, false},
        {"masonry", BW_LAYER_SOLID, BW_SOLID_WOOD, BW_NOT_WOOD, 2.0, false},
    };
    c.layer[CASE_FOIL].kind = c.slab[CASE_FOIL].kind = BW_LAYER_CAVITY;
    c.layer[CASE_FOIL].ventilation = BW_VENT_WELL;
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.material[CASE_SHEATHING].wood_kind = cases[i].outer;
        c.slab[CASE_SHEATHING].sd_dry = cases[i].sd;
        c.material[CASE_INSULATION].group = cases[i].group;
        c.material[CASE_INSULATION].wood_kind = cases[i].wood;
        c.slab[CASE_INSULATION].kind = cases[i].kind;
        const bw_criterion *row = judged(BW_C_UNJUDGED);
        ck_assert_msg((row != NULL) == cases[i].unjudged, "case %zu", i);
        ck_assert(row == NULL ||
                  (row->decides && row->verdict == BW_NOT_ASSESSED));
    }
    c.material[CASE_INSULATION] = case_material("wool", "insulation", 50, 0.035,
                                                1, false);
    c.layer[CASE_FOIL].ventilation = BW_VENT_NONE; /* inside it, it is judged */
    c.slab[CASE_INSULATION].kind = BW_LAYER_SOLID;
    ck_assert_ptr_null(judged(BW_C_UNJUDGED));
}
END_TEST

SUITE_AROUND(
    "judge_faces", setup_dry, teardown,
    FACT(condensate_beyond_its_limit_fails_where_the_simulation_is_wet_too),
    FACT(half_as_much_fails_between_faces_that_do_not_absorb),
    FACT(planes_inside_a_layer_count_together_at_its_nearer_face),
    FACT(the_month_named_is_of_the_wettest_plane_at_the_face),
    FACT(insulation_that_draws_water_is_inspected_and_does_not_fail),
    FACT(mineral_faces_are_watched_where_the_months_find_condensate),
    FACT(a_plane_of_the_months_is_found_behind_layers_they_leave_out),
    FACT(a_tight_covering_on_a_damp_base_fails_in_its_first_year_or_its_last),
    FACT(what_lets_vapour_through_or_does_not_suffer_is_no_such_covering),
    FACT(a_covering_is_thin_and_lies_on_what_holds_water),
    FACT(a_foil_behind_a_lining_is_no_covering),
    FACT(wood_laid_on_a_damp_base_of_a_floor_fails_however_open),
    FACT(wood_on_walls_studs_wood_or_insulation_is_no_such_floor),
    FACT(of_a_covering_and_the_wood_below_it_the_wetter_face_is_told),
    FACT(what_nothing_judges_outside_the_weather_line_is_said))
