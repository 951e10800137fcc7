/* What the runs of a section are given: where water is put, how much and
 * when, which layer rain wets, and what a simulation sees. The facts are those
 * of docs/methods.md (sections 3, "Criteria and verdict"), written here a
 * second time. */

#include <math.h>
#include <stdlib.h>

#include "criteria_case.h"
#include "has_words.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case c;
static bw_assessment *made;
static bw_material air, sheet;
static bw_layer layer[CASE_LAYERS + 2];

static void setup(void)
{
    case_make(&c);
    made = NULL;
    air = case_material("air", "air", 0, 0, 1, false);
    sheet = case_material("sheet", "board", 1500, 1.0, 20, false);
}

static void teardown(void)
{
    bw_assessment_free(made);
    case_free(&c);
}

static const bw_section_assessment *assess(const bw_assessment_options *options)
{
    static const bw_assessment_options steady = {.no_transient = true,
                                                 .no_advice = true};
    bw_error err = {0};
    bw_assessment_free(made);
    made = NULL;
    bw_status status = bw_assess(&made, &c.assembly, &c.climate,
                                 options != NULL ? options : &steady, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return &made->section[0];
}

/* `first` outside the wall of the case. */
static void put_outside(const bw_layer *first, size_t count)
{
    for (size_t i = 0; i < count; i++)
        layer[i] = first[i];
    for (size_t i = 0; i < CASE_LAYERS; i++)
        layer[count + i] = c.layer[i];
    c.assembly.layer = layer;
    c.assembly.layer_count = CASE_LAYERS + count;
}

static bw_layer layer_of(const bw_material *material, bw_layer_kind kind,
                         double thickness)
{
    return (bw_layer){.id = material->id,
                      .name = material->name,
                      .kind = kind,
                      .material = material,
                      .thickness = thickness,
                      .evidence = BW_EVIDENCE_TABULATED,
                      .source = ""};
}

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

/* ---- the simulation ----------------------------------------------------- */

/* Data enough for a simulation, all of it invented. */
static void make_hygroscopic(void)
{
    static const double rh[] = {0.5, 0.8}, u[] = {0.06, 0.12};
    bw_material *all[] = {&c.material[0], &c.material[1], &c.material[2],
                          &c.material[3], &c.stud,        &sheet};
    c.material[CASE_INSULATION].hygroscopic = true;
    for (size_t i = 0; i < COUNT(all); i++) {
        all[i]->sorption = (bw_curve){
            .count = 2, .x = rh, .y = u, .source = "test", .note = ""};
        all[i]->specific_heat = case_value(1600.0);
        all[i]->free_saturation = case_value(300.0);
    }
}

START_TEST(the_simulation_sees_the_cladding_that_the_monthly_method_leaves_out)
{
    make_hygroscopic();
    bw_layer cladding[2] = {layer_of(&sheet, BW_LAYER_SOLID, 0.01),
                            layer_of(&air, BW_LAYER_CAVITY, 0.05)};
    cladding[1].ventilation = BW_VENT_WELL;
    put_outside(cladding, 2);
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .no_advice = true,
                                           .transient = {.max_years = 1}};
    const bw_section_assessment *part = assess(&options);
    ck_assert_msg(part->has_transient, "%s", part->transient_reason);
    ck_assert_uint_eq(part->section->slab_count, CASE_LAYERS);
    ck_assert_uint_eq(part->transient_section->slab_count, CASE_LAYERS + 2);
    ck_assert_uint_eq(part->transient.slab_count, CASE_LAYERS + 2);
}
END_TEST

/* Every wall is simulated, one within the monthly method, too; what was asked
 * of each monitor and slab is there, and the wetting test ran. */
START_TEST(a_wall_within_the_monthly_method_is_simulated)
{
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .no_advice = true,
                                           .transient = {.max_years = 1}};
    make_hygroscopic();
    c.material[CASE_INSULATION].hygroscopic = false;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.material[CASE_SHEATHING].mould_class = BW_MOULD_RESISTANT;
    c.material[CASE_FOIL].sd = case_value(100.0);
    const bw_section_assessment *part = assess(&options);
    ck_assert_uint_eq(made->scope_count, 0);
    ck_assert_msg(part->has_transient, "%s", part->transient_reason);
    ck_assert_ptr_nonnull(part->mould);
    ck_assert_ptr_nonnull(part->wood);
    ck_assert_msg(part->wetting_test.ran, "%s", part->wetting_test.reason);
    ck_assert(case_named(made, "condensate-absorbing")->cross_check);
    ck_assert(!case_named(made, "condensate-absorbing")->decides);
    ck_assert(case_named(made, "mould-index-hidden")->decides);
    ck_assert(case_named(made, "wetting-test")->decides);
}
END_TEST

typedef struct seen {
    double last, most;
    size_t calls, falls;
} seen;

static bool watch(void *payload, double fraction_done)
{
    seen *s = payload;
    s->calls++;
    s->falls += fraction_done < s->last;
    s->last = fraction_done;
    s->most = fmax(s->most, fraction_done);
    return true;
}

START_TEST(the_progress_of_two_simulations_rises_and_never_passes_1)
{
    make_hygroscopic();
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    seen all = {0};
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .no_advice = true,
        .transient = {.max_years = 1, .progress = watch, .payload = &all}};
    ck_assert(assess(&options)->has_transient);
    ck_assert_uint_eq(made->section_count, 2);
    ck_assert_uint_gt(all.calls, 10);
    ck_assert_uint_eq(all.falls, 0);
    ck_assert_double_gt(all.last, 0.95); /* asked every few days */
    ck_assert_double_le(all.most, 1.0);
}
END_TEST

/* ---- the wetting test -----------------------------------------------------
 */

static const bw_assessment_options one_year = {
    .synthetic_hours = true, .no_advice = true, .transient = {.max_years = 1}};

/* "1 kg/m2 in October unless given, at the place named, else at a place at
 * risk"; a stud dries sideways, so through it the place alone counts, and
 * neither way alone is run. */
START_TEST(the_wetting_test_wets_what_it_is_told_or_a_place_at_risk)
{
    make_hygroscopic();
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    const bw_drying_test tests[] = {
        {.wetting = 0.0, .after_layer = -1, .start_month = -1},
        {.wetting = 0.5, .after_layer = CASE_SHEATHING, .start_month = 3},
    };
    for (size_t i = 0; i < COUNT(tests); i++) {
        c.assembly.drying_test = tests[i];
        assess(&one_year);
        ck_assert_uint_eq(made->section_count, 2);
        for (size_t k = 0; k < 2; k++) {
            const bw_section_assessment *part = &made->section[k];
            const bw_section_wetting *test = &part->wetting_test;
            bw_geography geography;
            bw_geography_find(&geography, &c.assembly, part->transient_section);
            ck_assert_msg(test->ran, "%s", test->reason);
            const bool stud = part->transient_section->through_stud;
            ck_assert_int_eq(test->place_alone, stud);
            ck_assert_int_eq(test->one_way, !stud);
            ck_assert_double_eq(test->water, i == 0 ? 1.0 : 0.5);
            ck_assert_int_eq(test->month, i == 0 ? 9 : 3);
            ck_assert(bw_face_at_risk(&geography, part->transient_section,
                                      test->place.slab));
            if (i == 1)
                ck_assert_uint_eq(test->place.slab, CASE_SHEATHING);
        }
    }
}
END_TEST

START_TEST(of_stone_alone_nothing_is_wetted)
{
    make_hygroscopic();
    c.assembly.layer_count = 1;
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.material[CASE_SHEATHING].mould_class = BW_MOULD_RESISTANT;
    c.material[CASE_SHEATHING].group = "masonry";
    c.layer[CASE_SHEATHING].thickness = 0.2;
    const bw_section_wetting *test = &assess(&one_year)->wetting_test;
    ck_assert(!test->ran && test->nothing_at_risk);
    ck_assert(!case_named(made, "wetting-test")->decides);
}
END_TEST

/* More water than the place can hold: no test, and so no verdict that holds. */
START_TEST(more_water_than_there_is_room_for_leaves_the_wall_not_assessed)
{
    make_hygroscopic();
    c.assembly.drying_test = (bw_drying_test){
        .wetting = 1e4, .after_layer = CASE_SHEATHING, .start_month = -1};
    const bw_section_wetting *test = &assess(&one_year)->wetting_test;
    ck_assert(!test->ran && !test->nothing_at_risk);
    ck_assert(case_named(made, "wetting-test")->decides);
    ck_assert_int_ne(made->verdict, BW_HOLDS);
    ck_assert_int_ne(made->verdict, BW_MARGINAL);
}
END_TEST

/* Asked on when the years are over: by the wetting test. */
static bool stop_late(void *payload, double fraction_done)
{
    int *calls = payload;
    *calls += fraction_done >= 1.0;
    return *calls < 5;
}

START_TEST(the_wetting_test_may_be_cancelled)
{
    int calls = 0;
    bw_error err = {0};
    bw_assessment_options options = one_year;
    options.transient.progress = stop_late;
    options.transient.payload = &calls;
    make_hygroscopic();
    ck_assert_int_eq(bw_assess(&made, &c.assembly, &c.climate, &options, &err),
                     BW_ERR_CANCELLED);
    ck_assert_ptr_null(made);
    ck_assert_int_eq(calls, 5);
}
END_TEST

/* ---- several walls, several threads --------------------------------------
 */

static void same_rows(const bw_assessment *a, const bw_assessment *b)
{
    ck_assert_int_eq(a->verdict, b->verdict);
    ck_assert_uint_eq(a->criterion_count, b->criterion_count);
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *x = &a->criterion[i], *y = &b->criterion[i];
        ck_assert_str_eq(x->criterion, y->criterion);
        ck_assert_str_eq(x->reason, y->reason);
        if (x->has_value)
            ck_assert_double_eq(x->value, y->value);
        ck_assert_int_eq(x->verdict, y->verdict);
    }
    ck_assert_uint_eq(a->advice_count, b->advice_count);
    for (size_t i = 0; i < a->advice_count; i++) {
        ck_assert_str_eq(a->advice[i].change, b->advice[i].change);
        ck_assert_double_eq(a->advice[i].after, b->advice[i].after);
    }
}

/* Two sections, wetted, with changes simulated, and the same in a drier room:
 * to the last bit. */
START_TEST(walls_assessed_together_are_as_alone_whatever_the_threads)
{
    static const int threads[] = {1, 2, 7};
    make_hygroscopic();
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    bw_assembly dry = c.assembly;
    c.assembly.indoors.kind = dry.indoors.kind = BW_INDOOR_CLASS;
    c.assembly.indoors.humidity_class = 5;
    dry.indoors.humidity_class = 1;
    const bw_assembly *const walls[] = {&c.assembly, &dry, &c.assembly};
    const bw_climate *const climates[] = {&c.climate, &c.climate, &c.climate};
    bw_assessment *all[3];
    bw_assessment_options options = one_year;
    options.no_advice = false;
    options.threads = 1;
    assess(&options);
    ck_assert_int_eq(made->verdict, BW_FAILS);
    ck_assert_uint_gt(made->advice_count, 0);
    for (size_t i = 0; i < COUNT(threads); i++) {
        options.threads = threads[i];
        ck_assert_int_eq(bw_assess_all(all, walls, climates, 3, &options, NULL),
                         BW_OK);
        same_rows(all[0], made);
        same_rows(all[2], made);
        ck_assert_ptr_eq(all[1]->assembly, &dry);
        for (size_t k = 0; k < 3; k++)
            bw_assessment_free(all[k]);
    }
}
END_TEST

static bool stop_at_once(void *payload, double fraction_done)
{
    (void)payload;
    (void)fraction_done;
    return false;
}

START_TEST(of_several_walls_of_which_one_cannot_be_there_is_none)
{
    const bw_assembly *const walls[] = {&c.assembly, &c.assembly};
    const bw_climate *const climates[] = {&c.climate, &c.climate};
    bw_assessment *all[2];
    bw_error err = {0};
    bw_assessment_options options = one_year;
    options.transient.progress = stop_at_once;
    make_hygroscopic();
    ck_assert_int_eq(bw_assess_all(all, walls, climates, 2, &options, &err),
                     BW_ERR_CANCELLED);
    ck_assert_int_eq(err.status, BW_ERR_CANCELLED);
    ck_assert_ptr_null(all[0]);
    ck_assert_ptr_null(all[1]);
}
END_TEST

SUITE_AROUND(
    "runs", setup, teardown,
    FACT(a_wetting_that_is_not_given_is_1_kg_in_october),
    FACT(a_wetting_starts_in_the_month_given_january_too),
    FACT(the_inner_face_of_the_layer_named_is_wetted),
    FACT(a_layer_beyond_a_ventilated_cavity_is_not_wetted),
    FACT(leaking_air_leaves_its_water_where_it_first_meets_cold),
    FACT(rain_wets_no_layer_behind_one_that_keeps_it_out),
    FACT(without_a_layer_inside_the_wet_one_nothing_is_driven_inwards),
    FACT(the_wet_layer_is_saturated_at_its_inner_face_all_year),
    FACT(the_temperature_factor_is_that_of_the_section),
    FACT(a_room_2_kelvin_below_the_warmest_month_is_not_cooled),
    FACT(the_simulation_sees_the_cladding_that_the_monthly_method_leaves_out),
    FACT(a_wall_within_the_monthly_method_is_simulated),
    FACT(the_progress_of_two_simulations_rises_and_never_passes_1),
    FACT(the_wetting_test_wets_what_it_is_told_or_a_place_at_risk),
    FACT(of_stone_alone_nothing_is_wetted),
    FACT(more_water_than_there_is_room_for_leaves_the_wall_not_assessed),
    FACT(the_wetting_test_may_be_cancelled),
    FACT(walls_assessed_together_are_as_alone_whatever_the_threads),
    FACT(of_several_walls_of_which_one_cannot_be_there_is_none))
