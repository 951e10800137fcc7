/* What the steady runs of a section are given: where water is put, how much and
 * when, which layer rain wets, what the period balance is made of. The facts
 * are those of docs/methods.md (sections 3, "Criteria and verdict"), written
 * here a second time. */

#include <math.h>

#include "criteria/run.h"
#include "has_words.h"
#include "profile_case.h"
#include "runs_case.h"
#include "suite.h"

/* The inner face of a slab. */
static const bw_plane *plane_at(const bw_monthly_result *run, size_t slab)
{
    for (size_t i = 0; i < run->plane_count; i++)
        if (run->plane[i].at.layer_face && run->plane[i].at.slab == slab)
            return &run->plane[i];
    ck_abort_msg("no such face");
    return NULL;
}
/* ---- the drying test ---------------------------------------------------- */

/* "1.0 kg/m2 unless given, ... from the month three before the coldest". */
START_TEST(a_wetting_that_is_not_given_is_1_kg_in_october)
{
    c.assembly.drying_test.wetting = 0.0;
    const bw_section_assessment *part = assess(NULL);
    ck_assert(part->run[BW_RUN_WETTED_BOTH].ran);
    ck_assert_double_eq(part->wetting, 1.0);
    ck_assert_int_eq(part->dry_start, 9);
}
END_TEST

START_TEST(a_wetting_starts_in_the_month_given_january_too)
{
    for (int month = 0; month < BW_MONTHS; month++) {
        c.assembly.drying_test.start_month = month;
        ck_assert_int_eq(assess(NULL)->dry_start, month);
        ck_assert_ptr_nonnull(strstr(case_named(made, "drying-test")->reason,
                                     bw_month_name(month)));
    }
}
END_TEST

START_TEST(the_inner_face_of_the_layer_named_is_wetted)
{
    bw_layer foil = layer_of(&c.material[CASE_FOIL], BW_LAYER_MEMBRANE, 0.0);
    foil.material = &sheet;
    sheet.group = "membrane";
    sheet.mu_dry.known = sheet.mu_wet.known = false;
    sheet.sd = case_value(0.05);
    put_outside(&foil, 1); /* a breather, whose inner face stays dry */
    const bw_section_assessment *part = assess(NULL);
    bw_plane_at critical = bw_critical_plane(part->section,
                                             &part->run[BW_RUN_DESIGN].result);
    ck_assert_uint_ne(critical.slab, 0);
    ck_assert_uint_eq(part->wet_plane.slab, critical.slab);
    for (size_t i = 0; i < 3; i++) {
        c.assembly.drying_test.after_layer = (long)i;
        part = assess(NULL);
        ck_assert_uint_eq(part->wet_plane.slab, i);
        ck_assert(part->wet_plane.layer_face);
        ck_assert_double_eq(part->wet_plane.depth, layer[i].thickness);
    }
}
END_TEST

START_TEST(a_layer_beyond_a_ventilated_cavity_is_not_wetted)
{
    bw_layer cladding[2] = {layer_of(&sheet, BW_LAYER_SOLID, 0.01),
                            layer_of(&air, BW_LAYER_CAVITY, 0.05)};
    cladding[1].ventilation = BW_VENT_WELL;
    put_outside(cladding, 2);
    c.assembly.drying_test.after_layer = 0;
    ck_assert(!assess(NULL)->run[BW_RUN_WETTED_BOTH].ran);
    ck_assert(!made->section[0].dry_needless);
    c.assembly.drying_test.after_layer = 2;
    ck_assert(assess(NULL)->run[BW_RUN_WETTED_BOTH].ran);
}
END_TEST

/* Of stone and foam alone no water does harm: none of the three runs is made,
 * and each says why. */
START_TEST(what_is_not_wetted_says_so_in_all_three_runs)
{
    for (size_t k = 0; k < CASE_LAYERS; k++) {
        c.material[k].wood_kind = BW_NOT_WOOD;
        c.material[k].mould_class = BW_MOULD_RESISTANT;
        c.material[k].group = "masonry";
    }
    const bw_section_assessment *part = assess(NULL);
    ck_assert(part->dry_needless);
    for (int r = BW_RUN_WETTED_BOTH; r <= BW_RUN_WETTED_INWARDS; r++) {
        ck_assert(!part->run[r].ran);
        has(part->run[r].reason, "no face inside the weather line");
    }
    const bw_criterion *row = case_named(made, "drying-test");
    ck_assert(!row->decides);
    has(row->reason, "no face inside the weather line");
}
END_TEST

/* The months leave out what lies outside a well-ventilated cavity; hours do
 * not. Each section of theirs is the same path: through the bay, through the
 * stud. */
START_TEST(the_hours_have_every_layer_of_the_same_path)
{
    bw_layer cladding[2] = {layer_of(&sheet, BW_LAYER_SOLID, 0.01),
                            layer_of(&air, BW_LAYER_CAVITY, 0.05)};
    cladding[1].ventilation = BW_VENT_WELL;
    put_outside(cladding, 2);
    c.stud = case_material("stud", "wood", 450, 0.13, 50, true);
    layer[2 + CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    bw_assessment a = {.assembly = &c.assembly};
    bw_section_assessment part[4] = {0};
    ck_assert_int_eq(bw_sections_make(&a.sections, &c.assembly, NULL, NULL),
                     BW_OK);
    a.section_count = a.sections->count;
    ck_assert_uint_eq(a.section_count, 2);
    for (size_t i = 0; i < 2; i++)
        part[i].section = &a.sections->section[1 - i];
    ck_assert_int_eq(bw_run_transient_sections(&a, part, NULL), BW_OK);
    for (size_t i = 0; i < 2; i++) {
        ck_assert_uint_eq(part[i].section->slab_count, CASE_LAYERS);
        ck_assert_uint_eq(part[i].transient_section->slab_count,
                          CASE_LAYERS + 2);
        ck_assert_int_eq(part[i].transient_section->through_stud,
                         part[i].section->through_stud);
    }
    bw_sections_free(a.sections);
    bw_sections_free(a.transient_sections);
}
END_TEST

/* Months with half as much vapour again as saturated air has: no hours can be
 * made of them, and the section says so. */
START_TEST(a_climate_that_no_hours_can_be_made_of_is_said)
{
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .no_advice = true};
    for (int m = 0; m < BW_MONTHS; m++)
        c.climate.month[m].vapour_pressure =
            1.5 * bw_saturation_pressure(c.climate.month[m].temperature);
    c.assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 20.0, .relative_humidity = 0.5};
    const bw_section_assessment *part = assess(&options);
    ck_assert(!part->has_transient);
    has(part->transient_reason, "is above saturation");
}
END_TEST

/* ---- leaking air --------------------------------------------------------- */

/* "Where it meets its first cold face": behind foam, which no air passes, and
 * not at the panel where vapour alone condenses; at the panel without foam. */
START_TEST(leaking_air_leaves_its_water_where_it_first_meets_cold)
{
    bw_layer wall[CASE_LAYERS + 1] = {
        c.layer[CASE_SHEATHING], layer_of(&sheet, BW_LAYER_SOLID, 0.02),
        c.layer[CASE_INSULATION], c.layer[CASE_FOIL], c.layer[CASE_LINING]};
    sheet.group = "insulation";
    sheet.thermal_conductivity = case_value(0.035);
    sheet.density = case_value(30.0);
    c.assembly.air_leakage = (bw_air_leakage){true, 5.0 / 3600.0, 5.0, false};
    for (size_t foam = 0; foam < 2; foam++) {
        c.assembly.layer = foam == 1 ? wall : c.layer;
        c.assembly.layer_count = CASE_LAYERS + foam;
        const bw_section_assessment *part = assess(NULL);
        ck_assert(part->run[BW_RUN_LEAKAGE].ran);
        for (size_t k = 0; k < 2; k++) {
            const double more =
                plane_at(&part->run[BW_RUN_LEAKAGE].result, k)->peak -
                plane_at(&part->run[BW_RUN_DESIGN].result, k)->peak;
            if (k == foam)
                ck_assert_double_gt(more, 0.1); /* kg/m2 */
            else
                ck_assert_double_eq_tol(more, 0.0, 1e-9);
        }
    }
}
END_TEST

/* ---- the inward run ----------------------------------------------------- */

/* The outermost solid layer if it takes up water: a tight membrane or a dense
 * sheet outside keeps the rain from a panel, a coat of paint or a thin film
 * that nothing is known of does not. */
START_TEST(rain_wets_no_layer_behind_one_that_keeps_it_out)
{
    const struct {
        const char *group;
        double sd;
        bool first, panel;
        size_t wet;
    } cases[] = {{"board", 0.1, false, true, CASE_LAYERS + 1},
                 {"board", 0.1, true, true, 0},
                 {"board", 0.1, false, false, CASE_LAYERS + 1},
                 {"membrane", 5, true, true, CASE_LAYERS + 1},
                 {"membrane", 0.1, false, true, 1},
                 {"coating", 0.1, false, true, 1},
                 {"coating", 0.1, false, false, CASE_LAYERS + 1}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        bool solid = strcmp(cases[i].group, "board") == 0;
        sheet.absorbs_condensate = cases[i].first;
        sheet.sd = case_value(cases[i].sd);
        sheet.group = cases[i].group;
        c.material[CASE_SHEATHING].absorbs_condensate = cases[i].panel;
        bw_layer first = layer_of(&sheet,
                                  solid ? BW_LAYER_SOLID : BW_LAYER_MEMBRANE,
                                  solid ? 0.01 : 0.0);
        put_outside(&first, 1);
        ck_assert_uint_eq(assess(NULL)->inward_slab, cases[i].wet);
    }
}
END_TEST

/* "held saturated at both faces": its outer face is the wall's here. */
START_TEST(the_wet_layer_is_saturated_at_its_inner_face_all_year)
{
    c.assembly.outdoors.has_facing = true;
    c.assembly.outdoors.azimuth = 180.0;
    c.assembly.outdoors.tilt = 90.0;
    c.assembly.outdoors.has_solar_absorptance = true;
    c.assembly.outdoors.solar_absorptance = 0.6;
    for (int m = 0; m < BW_MONTHS; m++)
        for (int f = 0; f < BW_FACINGS; f++) {
            c.climate.month[m].has_vertical[f] = true;
            c.climate.month[m].vertical[f] = 100.0;
        }
    const bw_section_assessment *part = assess(NULL);
    ck_assert(part->run[BW_RUN_INWARD].ran);
    size_t faces = 0;
    for (size_t i = 0; i < part->run[BW_RUN_INWARD].result.plane_count; i++) {
        const bw_plane *plane = &part->run[BW_RUN_INWARD].result.plane[i];
        if (plane->at.slab != part->inward_slab || !plane->at.layer_face)
            continue;
        faces++;
        for (int m = 0; m < BW_MONTHS; m++)
            ck_assert_double_eq_tol(plane->month[m].relative_humidity, 1.0,
                                    1e-9);
    }
    ck_assert_uint_eq(faces, 1);
}
END_TEST

START_TEST(without_a_layer_inside_the_wet_one_nothing_is_driven_inwards)
{
    bw_layer wall[3] = {layer_of(&sheet, BW_LAYER_SOLID, 0.01),
                        layer_of(&air, BW_LAYER_CAVITY, 0.05),
                        layer_of(&sheet, BW_LAYER_SOLID, 0.2)};
    wall[1].ventilation = BW_VENT_WELL;
    c.assembly.layer = wall;
    c.assembly.layer_count = 3;
    ck_assert(!assess(NULL)->run[BW_RUN_INWARD].ran);
    has(case_named(made, "inward-condensation")->reason, "ventilated");
    c.assembly.layer = &wall[2]; /* in the sun: what is missing comes first */
    sheet.absorbs_condensate = true;
    c.assembly.layer_count = 1;
    ck_assert(!assess(NULL)->run[BW_RUN_INWARD].ran);
    has(case_named(made, "inward-condensation")->reason, "facing");
}
END_TEST

/* ---- surfaces ------------------------------------------------------------ */

/* f_Rsi = 1 - U Rsi of the section; Rsi 0.25, 0.35 and 1.0 m2 K/W, Rse 0.04. */
START_TEST(the_temperature_factor_is_that_of_the_section)
{
    static const double rsi[] = {0.25, 0.35, 1.0};
    const double layers = 0.009 / 0.13 + 0.140 / 0.035 + 0.0125 / 0.25;
    const bw_section_assessment *part = assess(NULL);
    ck_assert_uint_eq(part->surface_count, COUNT(rsi));
    for (size_t i = 0; i < COUNT(rsi); i++)
        ck_assert_double_eq_tol(part->surface[i].frsi,
                                1.0 - rsi[i] / (0.04 + layers + rsi[i]), 1e-12);
    ck_assert_double_eq(part->frsi, part->surface[0].frsi);
}
END_TEST

/* ---- the period balance ------------------------------------------------- */

/* "cooled more than 2 K below a month's outdoor mean": 19 degC in July. */
START_TEST(a_room_2_kelvin_below_the_warmest_month_is_not_cooled)
{
    const struct {
        double room;
        bool made;
    } cases[] = {{20.0, true}, {17.05, true}, {16.95, false}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        c.assembly.indoors.temperature = cases[i].room;
        for (int demanded = 0; demanded < 2; demanded++) {
            const bw_assessment_options options = {
                .no_transient = true,
                .no_advice = true,
                .profile = demanded == 1 ? profile_named("de-din4108") : NULL};
            assess(&options);
            const bw_criterion *row = case_named(made, "period-balance");
            ck_assert_int_eq(row->has_value, cases[i].made);
            ck_assert_int_eq(row->decides, cases[i].made && demanded == 1);
        }
    }
}
END_TEST

SUITE_AROUND("runs_steady", setup, teardown,
             FACT(a_wetting_that_is_not_given_is_1_kg_in_october),
             FACT(a_wetting_starts_in_the_month_given_january_too),
             FACT(the_inner_face_of_the_layer_named_is_wetted),
             FACT(a_layer_beyond_a_ventilated_cavity_is_not_wetted),
             FACT(what_is_not_wetted_says_so_in_all_three_runs),
             FACT(the_hours_have_every_layer_of_the_same_path),
             FACT(a_climate_that_no_hours_can_be_made_of_is_said),
             FACT(leaking_air_leaves_its_water_where_it_first_meets_cold),
             FACT(rain_wets_no_layer_behind_one_that_keeps_it_out),
             FACT(the_wet_layer_is_saturated_at_its_inner_face_all_year),
             FACT(without_a_layer_inside_the_wet_one_nothing_is_driven_inwards),
             FACT(the_temperature_factor_is_that_of_the_section),
             FACT(a_room_2_kelvin_below_the_warmest_month_is_not_cooled))
