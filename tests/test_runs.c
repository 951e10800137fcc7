/* What a simulation of a section is given and sees, alone and among others. The
 * facts are those of docs/methods.md (section "Criteria and verdict"), written
 * here a second time. */

#include <math.h>
#include <stdlib.h>

#include "has_words.h"
#include "runs_case.h"
#include "suite.h"

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
    FACT(the_simulation_sees_the_cladding_that_the_monthly_method_leaves_out),
    FACT(a_wall_within_the_monthly_method_is_simulated),
    FACT(the_progress_of_two_simulations_rises_and_never_passes_1),
    FACT(the_wetting_test_wets_what_it_is_told_or_a_place_at_risk),
    FACT(of_stone_alone_nothing_is_wetted),
    FACT(more_water_than_there_is_room_for_leaves_the_wall_not_assessed),
    FACT(the_wetting_test_may_be_cancelled),
    FACT(walls_assessed_together_are_as_alone_whatever_the_threads),
    FACT(of_several_walls_of_which_one_cannot_be_there_is_none))
