/* bw_assess from a wall to a verdict with advice. Walls are plain data; the
 * figures of oracle B were recomputed independently for this project. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/thermal.h"
#include "criteria/propose.h"
#include "criteria_case.h"
#include "has_words.h"
#include "suite.h"

static criteria_case c;
static bw_assessment *made;

static void setup(void)
{
    case_make(&c);
    made = NULL;
}

static void teardown(void)
{
    bw_assessment_free(made);
    case_free(&c);
}

static const bw_assessment *assess(const bw_assessment_options *options)
{
    bw_error err = {0};
    bw_assessment_free(made);
    made = NULL;
    bw_status status = bw_assess(&made, &c.assembly, &c.climate, options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return made;
}

static const bw_assessment_options steady = {.no_transient = true};

/* Nothing in it that the months would not see: a board of cement and fibres. */
static void make_mineral(void)
{
    c.material[CASE_SHEATHING].wood_kind = BW_NOT_WOOD;
    c.material[CASE_SHEATHING].mould_class = BW_MOULD_RESISTANT;
}

/* Oracle B: breather sd 0.05; OSB 9 mm; wool 140 mm; plasterboard. */
static void make_oracle_b(void)
{
    bw_layer breather = c.layer[CASE_FOIL], panel = c.layer[0],
             wool = c.layer[1];
    c.layer[0] = breather;
    c.layer[1] = panel;
    c.layer[2] = wool;
    c.material[CASE_FOIL].sd = case_value(0.05);
}

START_TEST(oracle_b_peaks_in_march_and_dries_in_august)
{
    make_oracle_b();
    const bw_assessment *a = assess(NULL);
    const bw_criterion *most = case_named(a, "condensate-absorbing");
    ck_assert_double_eq_tol(most->value, 6.0869, 5e-5);
    ck_assert_int_eq(most->verdict, BW_FAILS);
    has(most->reason, "Mar");
    ck_assert_int_eq(case_named(a, "annual-balance")->outcome, BW_HOLDS);
    ck_assert_int_eq(a->verdict, BW_FAILS);
    ck_assert_int_eq(a->deciding->verdict, BW_FAILS);
    ck_assert(a->deciding >= a->criterion &&
              a->deciding < a->criterion + a->criterion_count);
    NAMES(a->verdict_reason, "panel", "Mar", a->deciding->reason);
    ck_assert_double_eq_tol(a->thermal.resistance, 0.04 + 4.11923 + 0.13, 1e-3);
}
END_TEST

START_TEST(advice_lowers_the_number_of_failing_criteria)
{
    make_oracle_b();
    const bw_assessment *a = assess(NULL);
    ck_assert_uint_ge(a->advice_count, 2);
    ck_assert_uint_le(a->advice_count, 3);
    ck_assert_uint_eq(a->advice[0].fails_after, 0);
    for (size_t i = 0; i < a->advice_count; i++) {
        ck_assert_uint_gt(a->advice[i].fails_before, 0);
        ck_assert(a->advice[i].fails_after < a->advice[i].fails_before ||
                  a->advice[i].worst_margin_after >
                      a->advice[i].worst_margin_before);
        if (i > 0)
            ck_assert_uint_ge(a->advice[i].fails_after,
                              a->advice[i - 1].fails_after);
    }
}
END_TEST

START_TEST(a_wall_that_takes_the_advice_does_what_was_said)
{
    make_oracle_b();
    bw_proposal changes[BW_PROPOSALS_MOST];
    size_t count = bw_propose(changes, &c.rows, &c.assembly);
    const bw_assessment *a = assess(NULL);
    bw_advice advice = a->advice[0];
    char text[256];
    snprintf(text, sizeof text, "%s", advice.change);
    const bw_assembly *better = NULL;
    for (size_t i = 0; i < count; i++)
        if (strncmp(changes[i].text, text, strlen(changes[i].text)) == 0)
            better = bw_change_apply(&c.arena, &c.assembly, &changes[i].change);
    ck_assert_ptr_nonnull(better);
    c.assembly = *better;
    a = assess(NULL);
    size_t fails = 0;
    for (size_t i = 0; i < a->criterion_count; i++)
        fails += a->criterion[i].verdict == BW_FAILS;
    ck_assert_uint_eq(fails, advice.fails_after);
    ck_assert_double_eq_tol(a->section[0].run[BW_RUN_DESIGN].result.reserve,
                            advice.reserve_after, 1e-12);
}
END_TEST

START_TEST(the_same_wall_gets_the_same_words)
{
    make_oracle_b();
    const bw_assessment *a = assess(NULL);
    bw_assessment *again = NULL;
    ck_assert_int_eq(bw_assess(&again, &c.assembly, &c.climate, NULL, NULL),
                     BW_OK);
    ck_assert_uint_eq(a->criterion_count, again->criterion_count);
    for (size_t i = 0; i < a->criterion_count; i++) {
        ck_assert_str_eq(a->criterion[i].reason, again->criterion[i].reason);
        ck_assert_double_eq(a->criterion[i].value, again->criterion[i].value);
    }
    ck_assert_uint_eq(a->advice_count, again->advice_count);
    for (size_t i = 0; i < a->advice_count; i++)
        ck_assert_str_eq(a->advice[i].change, again->advice[i].change);
    ck_assert_str_eq(a->verdict_reason, again->verdict_reason);
    bw_assessment_free(again);
}
END_TEST

START_TEST(a_wall_that_holds_gets_no_advice)
{
    c.material[CASE_FOIL].sd = case_value(100.0);
    make_mineral();
    const bw_assessment *a = assess(&steady);
    ck_assert_int_eq(a->verdict, BW_HOLDS);
    ck_assert_uint_eq(a->advice_count, 0);
    ck_assert_uint_eq(a->scope_count, 0);
    for (size_t i = 0; i < a->criterion_count; i++) {
        ck_assert_int_ne(a->criterion[i].verdict, BW_FAILS);
        ck_assert_uint_gt(strlen(a->criterion[i].rule), 0);
        ck_assert_uint_gt(strlen(a->criterion[i].reason), 0);
    }
}
END_TEST

START_TEST(tight_on_both_sides_fails_the_drying_test)
{
    c.material[CASE_FOIL].sd = case_value(100.0);
    c.material[CASE_SHEATHING].mu_dry = case_value(1000.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(1000.0);
    make_mineral();
    const bw_assessment *a = assess(&steady);
    ck_assert_int_eq(case_named(a, "annual-balance")->verdict, BW_HOLDS);
    ck_assert_int_eq(case_named(a, "drying-test")->verdict, BW_FAILS);
    ck_assert_int_eq(a->verdict, BW_FAILS);
}
END_TEST

START_TEST(a_wet_cup_value_that_would_fail_makes_it_marginal)
{
    c.material[CASE_FOIL].sd = case_value(100.0);
    c.material[CASE_SHEATHING].mu_dry = case_value(60.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(60.0);
    make_mineral();
    const bw_assessment *a = assess(&steady);
    ck_assert(!a->section[0].run[BW_RUN_BOUND].ran);
    ck_assert_int_eq(a->verdict, BW_HOLDS);
    c.material[CASE_FOIL].sd.known = false; /* a lining, dry or wet cup */
    c.layer[CASE_FOIL].kind = BW_LAYER_SOLID;
    c.layer[CASE_FOIL].thickness = 0.001;
    c.material[CASE_FOIL].thermal_conductivity = case_value(0.2);
    c.material[CASE_FOIL].mu_dry = case_value(5000.0);
    c.material[CASE_FOIL].mu_wet = case_value(50.0);
    a = assess(&steady);
    ck_assert(a->section[0].run[BW_RUN_BOUND].ran);
    ck_assert_uint_eq(a->section[0].other_bound_count, 2);
    for (size_t i = 0; i < 2; i++)
        ck_assert_double_ge(a->section[0].run[BW_RUN_BOUND].result.peak,
                            a->section[0].other_bound[i].peak);
    ck_assert_int_eq(case_named(a, "condensate-absorbing")->verdict,
                     BW_MARGINAL);
    /* and a face that condenses is none that months alone let hold */
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    ck_assert_ptr_nonnull(case_named(a, "months-alone"));
}
END_TEST

/* What a simulation failed of walls that months let hold, within their
 * limits. */
START_TEST(months_alone_do_not_hold_what_they_do_not_see)
{
    c.material[CASE_FOIL].sd = case_value(100.0);
    make_mineral();
    ck_assert_int_eq(assess(&steady)->verdict, BW_HOLDS);
    ck_assert_ptr_null(case_named(made, "months-alone"));
    /* a board that mould takes easily, at 80 % and more */
    c.material[CASE_SHEATHING].mould_class = BW_MOULD_SENSITIVE;
    c.material[CASE_SHEATHING].group = "board";
    ck_assert_int_eq(assess(&steady)->verdict, BW_NOT_ASSESSED);
    make_mineral();
    c.material[CASE_SHEATHING].group = "masonry";
    ck_assert_int_eq(assess(&steady)->verdict, BW_HOLDS);
    /* water of the drying test goes into a layer that stores */
    c.material[CASE_INSULATION].hygroscopic = true;
    c.material[CASE_INSULATION].absorbs_condensate = true;
    c.material[CASE_INSULATION].group = "masonry";
    c.material[CASE_SHEATHING].wood_kind = BW_WOOD_PANEL;
    for (int m = 0; m < BW_MONTHS; m++)
        c.climate.month[m].vapour_pressure *= 0.7;
    const bw_assessment *a = assess(&steady);
    ck_assert_uint_eq(a->scope_count, 0);
    has(case_named(a, "months-alone")->reason, "drying test");
    make_mineral();
    c.material[CASE_INSULATION] = case_material("wool", "insulation", 50, 0.035,
                                                1, false);
    c.material[CASE_INSULATION].mould_class = BW_MOULD_RESISTANT;
    /* summer air, damp at the foil */
    for (int m = 0; m < BW_MONTHS; m++)
        c.climate.month[m].vapour_pressure /= 0.7;
    ck_assert_int_eq(assess(&steady)->verdict, BW_HOLDS);
    c.climate.month[6].vapour_pressure = 1850.0;
    ck_assert_int_eq(assess(&steady)->verdict, BW_NOT_ASSESSED);
    has(case_named(made, "months-alone")->reason, "foil");
}
END_TEST

/* All layers below 70 %: the opposite of the design is wet-cup throughout,
 * which lets out what it lets in. Tight outside and open inside is worse. */
START_TEST(the_bound_tries_a_tight_outside_with_an_open_inside)
{
    for (int m = 0; m < BW_MONTHS; m++)
        c.climate.month[m].vapour_pressure *= 0.7;
    c.material[CASE_SHEATHING].mu_dry = case_value(60.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(2.0);
    c.material[CASE_FOIL].sd.known = false;
    c.layer[CASE_FOIL].kind = BW_LAYER_SOLID;
    c.layer[CASE_FOIL].thickness = 0.001;
    c.material[CASE_FOIL].thermal_conductivity = case_value(0.2);
    c.material[CASE_FOIL].mu_dry = case_value(5000.0);
    c.material[CASE_FOIL].mu_wet = case_value(50.0);
    const bw_section_assessment *part = &assess(NULL)->section[0];
    for (size_t k = 0; k < part->section->slab_count; k++)
        ck_assert(!part->run[BW_RUN_DESIGN].result.used_wet[k]);
    ck_assert(part->run[BW_RUN_BOUND].ran &&
              part->run[BW_RUN_BOUND].result.condenses);
    for (size_t k = 0; k < part->section->slab_count; k++)
        if (part->section->slab[k].layer == CASE_SHEATHING)
            ck_assert(!part->run[BW_RUN_BOUND].result.used_wet[k]);
        else if (part->section->slab[k].layer == CASE_FOIL)
            ck_assert(part->run[BW_RUN_BOUND].result.used_wet[k]);
}
END_TEST

START_TEST(a_roof_under_open_sky_is_two_kelvin_colder)
{
    const bw_assessment *a = assess(NULL);
    ck_assert_double_eq(a->section[0].boundary[0].theta_e, -1.0);
    double p_i = a->section[0].boundary[0].p_i;
    c.assembly.element = BW_ELEMENT_ROOF;
    a = assess(NULL);
    ck_assert_double_eq(a->section[0].boundary[0].theta_e, -1.0);
    c.assembly.outdoors.open_sky = true;
    a = assess(NULL);
    ck_assert_double_eq(a->section[0].boundary[0].theta_e, -3.0);
    /* the air is as it was, and so is the room's vapour */
    ck_assert_double_eq(a->section[0].boundary[0].p_i, p_i);
}
END_TEST

START_TEST(the_sun_warms_by_absorptance_times_irradiance_over_25)
{
    c.assembly.outdoors.has_facing = true;
    c.assembly.outdoors.azimuth = 180.0;
    c.assembly.outdoors.tilt = 90.0;
    const bw_assessment *a = assess(NULL);
    ck_assert(!a->section[0].run[BW_RUN_INWARD].ran);
    has(case_named(a, "inward-condensation")->reason, "absorptance");
    c.assembly.outdoors.has_solar_absorptance = true;
    c.assembly.outdoors.solar_absorptance = 0.6;
    a = assess(NULL);
    has(case_named(a, "inward-condensation")->reason, "irradiance");
    for (int m = 0; m < BW_MONTHS; m++)
        for (int f = 0; f < BW_FACINGS; f++) {
            c.climate.month[m].has_vertical[f] = true;
            c.climate.month[m].vertical[f] = 100.0;
        }
    a = assess(NULL);
    ck_assert(a->section[0].has_sun && a->section[0].run[BW_RUN_INWARD].ran);
    /* h_o = 1/Rse = 25 W/(m2 K): 0.6 * 100 / 25 = 2.4 K */
    ck_assert_double_eq_tol(a->section[0].sun_boundary[6].theta_e, 19.0 + 2.4,
                            1e-9);
    ck_assert_double_eq(a->section[0].sun_share[6], 1.0);
    ck_assert(case_named(a, "inward-condensation")->has_value);
    /* the latitude tells the hours in the sun from the others */
    c.climate.has_position = true;
    c.climate.latitude = 52.0;
    a = assess(NULL);
    ck_assert_double_gt(a->section[0].sun_boundary[6].theta_e, 19.0 + 5.0);
    ck_assert_double_lt(a->section[0].sun_share[6], 0.25);
}
END_TEST

START_TEST(beyond_the_monthly_method_without_hours_nothing_is_proven)
{
    make_mineral();
    c.material[CASE_INSULATION].hygroscopic = true;
    const bw_assessment *a = assess(NULL);
    ck_assert_uint_eq(a->scope_count, 1);
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    NAMES(a->section[0].transient_reason, "hours", "--no-synthetic-hours");
    has(a->verdict_reason, a->section[0].transient_reason);
    ck_assert(case_named(a, "condensate-absorbing")->screening);
    const bw_assessment_options off = {.no_transient = true};
    a = assess(&off);
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
}
END_TEST

/* A wall that the months would let hold is to be simulated, too. */
START_TEST(within_the_monthly_method_only_who_asks_gets_its_word_alone)
{
    c.material[CASE_FOIL].sd = case_value(100.0);
    make_mineral();
    const bw_assessment *a = assess(NULL);
    ck_assert_uint_eq(a->scope_count, 0);
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    has(a->verdict_reason, a->section[0].transient_reason);
    ck_assert_int_eq(assess(&steady)->verdict, BW_HOLDS);
}
END_TEST

/* Wood at 90 % RH or more in a month: the months never say that it holds. */
START_TEST(by_months_alone_a_wall_with_damp_wood_never_holds)
{
    static const double sd[] = {2.0, 10.0, 100.0, 1000.0};
    size_t damp = 0;
    for (size_t i = 0; i < COUNT(sd); i++) {
        c.material[CASE_FOIL].sd = case_value(sd[i]);
        const bw_assessment *a = assess(&steady);
        const bw_monthly_result *design =
            &a->section[0].run[BW_RUN_DESIGN].result;
        double highest = 0.0;
        for (size_t k = 0; k < design->plane_count; k++)
            for (int m = 0; m < BW_MONTHS; m++)
                if (design->plane[k].at.slab == CASE_SHEATHING)
                    highest = fmax(highest,
                                   design->plane[k].month[m].relative_humidity);
        damp += highest >= 0.9;
        ck_assert_int_eq(a->scope_count > 0, highest >= 0.9);
        if (highest >= 0.9)
            ck_assert(a->verdict == BW_NOT_ASSESSED || a->verdict == BW_FAILS);
    }
    ck_assert_uint_gt(damp, 0);
}
END_TEST

START_TEST(a_screening_that_fails_fails_until_a_simulation_says_otherwise)
{
    make_oracle_b();
    c.material[CASE_INSULATION].hygroscopic = true;
    const bw_assessment *a = assess(NULL);
    ck_assert_int_eq(a->verdict, BW_FAILS);
    ck_assert(a->deciding->screening && a->deciding->outcome == BW_FAILS);
}
END_TEST

static bool stop(void *payload, double fraction_done)
{
    int *calls = payload;
    ck_assert_double_ge(fraction_done, 0.0);
    ck_assert_double_le(fraction_done, 1.0);
    ++*calls;
    return false;
}

START_TEST(a_simulation_may_be_cancelled)
{
    static const double rh[] = {0.5, 0.8}, u[] = {0.06, 0.12};
    c.material[CASE_INSULATION].hygroscopic = true;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c.material[i].sorption = (bw_curve){
            .count = 2, .x = rh, .y = u, .source = "test", .note = ""};
        c.material[i].specific_heat = case_value(1600.0);
        c.material[i].free_saturation = case_value(300.0);
    }
    int calls = 0;
    bw_error err = {0};
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .transient = {.progress = stop, .payload = &calls}};
    ck_assert_int_eq(bw_assess(&made, &c.assembly, &c.climate, &options, &err),
                     BW_ERR_CANCELLED);
    ck_assert_ptr_null(made);
    ck_assert_int_eq(err.status, BW_ERR_CANCELLED);
    ck_assert_int_eq(calls, 1);
}
END_TEST

START_TEST(a_simulation_without_its_data_is_not_assessed)
{
    c.material[CASE_INSULATION].hygroscopic = true; /* and no sorption */
    const bw_assessment_options options = {.synthetic_hours = true};
    const bw_assessment *a = assess(&options);
    ck_assert(!a->section[0].has_transient);
    ck_assert_uint_gt(strlen(a->section[0].transient_reason), 10);
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    has(a->verdict_reason, a->section[0].transient_reason);
}
END_TEST

START_TEST(two_sections_are_judged_apart)
{
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    c.assembly.air_leakage = (bw_air_leakage){true, 3.0 / 3600.0, 5.0, false};
    const bw_assessment *a = assess(NULL);
    ck_assert_uint_eq(a->section_count, 2);
    size_t half = 0;
    for (size_t i = 0; i < a->criterion_count; i++)
        half += strcmp(a->criterion[i].section, "between-studs") == 0;
    ck_assert_uint_gt(half, 10);
    ck_assert_uint_gt(a->criterion_count - half, 10);
    ck_assert(a->section[0].run[BW_RUN_LEAKAGE].ran &&
              a->section[1].run[BW_RUN_LEAKAGE].ran);
    ck_assert(case_named(a, "reserve-with-leakage")->has_value);
    ck_assert_double_lt(case_named(a, "reserve-with-leakage")->value,
                        case_named(a, "drying-reserve")->value);
}
END_TEST

START_TEST(a_wetted_layer_outside_the_calculation_is_said)
{
    c.assembly.drying_test.after_layer = 99;
    const bw_assessment *a = assess(NULL);
    ck_assert(!a->section[0].run[BW_RUN_WETTED_BOTH].ran);
    ck_assert_int_eq(case_named(a, "drying-test")->verdict, BW_NOT_ASSESSED);
    c.assembly.drying_test.after_layer = -1;
    a = assess(NULL); /* three months before January, the coldest */
    ck_assert_int_eq(a->section[0].dry_start, 9);
    c.assembly.drying_test = (bw_drying_test){
        .wetting = 0.5, .after_layer = 0, .start_month = 3};
    a = assess(NULL);
    ck_assert(a->section[0].run[BW_RUN_WETTED_BOTH].ran);
    ck_assert_int_eq(a->section[0].dry_start, 3);
    ck_assert_double_eq(a->section[0].wetting, 0.5);
    ck_assert_uint_eq(a->section[0].wet_plane.slab, 0);
}
END_TEST

START_TEST(a_humid_or_cooled_room_is_not_for_the_period_balance)
{
    c.assembly.indoors.humidity_class = 4;
    const bw_assessment *a = assess(NULL);
    ck_assert_int_eq(case_named(a, "period-balance")->verdict, BW_NOT_ASSESSED);
    ck_assert(!case_named(a, "period-balance")->decides);
    ck_assert_ptr_null(case_named(a, "period-reserve"));
    c.assembly.indoors.humidity_class = 2;
    c.assembly.indoors.temperature = 15.0; /* 19 degC outside in July */
    a = assess(NULL);
    has(case_named(a, "period-balance")->reason, "cooled");
}
END_TEST

START_TEST(what_cannot_be_computed_is_not_assessed)
{
    c.climate.month[4].temperature = (double)NAN;
    const bw_assessment *a = assess(NULL);
    ck_assert(!a->section[0].run[BW_RUN_DESIGN].ran);
    ck_assert_int_eq(case_named(a, "annual-balance")->verdict, BW_NOT_ASSESSED);
    has(case_named(a, "annual-balance")->reason, "May");
    ck_assert_ptr_null(case_named(a, "condensate-absorbing"));
}
END_TEST

START_TEST(a_change_leaves_the_given_assembly_alone)
{
    c.assembly.indoors.humidity_class = 4;
    c.assembly.air_leakage = (bw_air_leakage){true, 5.0 / 3600.0, 5.0, false};
    c.assembly.drying_test.after_layer = CASE_LINING;
    criteria_case before = c;
    bw_proposal changes[BW_PROPOSALS_MOST];
    size_t count = bw_propose(changes, &c.rows, &c.assembly);
    bool seen[BW_PROPOSAL_KINDS] = {false};
    for (size_t i = 0; i < count; i++) {
        const bw_assembly *to = bw_change_apply(&c.arena, &c.assembly,
                                                &changes[i].change);
        ck_assert_ptr_nonnull(to);
        seen[changes[i].kind] = true;
        ck_assert_int_eq(memcmp(c.layer, before.layer, sizeof c.layer), 0);
        ck_assert_int_eq(memcmp(c.material, before.material, sizeof c.material),
                         0);
        ck_assert_int_eq(
            memcmp(&c.assembly, &before.assembly, sizeof c.assembly), 0);
        if (strncmp(changes[i].text, "Leave out", 9) == 0) {
            ck_assert_uint_eq(to->layer_count, CASE_LAYERS - 1);
            ck_assert_int_eq(to->drying_test.after_layer, CASE_LINING - 1);
            ck_assert_str_eq(to->layer[2].name, "plasterboard");
        }
    }
    ck_assert(seen[BW_PROPOSE_OUTER_LAYER] && seen[BW_PROPOSE_HUMIDITY] &&
              seen[BW_PROPOSE_AIR] && seen[BW_PROPOSE_INSULATION] &&
              seen[BW_PROPOSE_MEMBRANE]);
    ck_assert(!seen[BW_PROPOSE_CAVITY]); /* there is none */
}
END_TEST

START_TEST(a_membrane_is_added_behind_the_insulation_where_none_is)
{
    c.layer[CASE_FOIL] = c.layer[CASE_LINING];
    c.assembly.layer_count = 3;
    c.assembly.drying_test.after_layer = CASE_INSULATION;
    bw_proposal changes[BW_PROPOSALS_MOST];
    size_t count = bw_propose(changes, &c.rows, &c.assembly);
    size_t added = 0;
    for (size_t i = 0; i < count; i++) {
        if (changes[i].kind != BW_PROPOSE_MEMBRANE)
            continue;
        const bw_assembly *to = bw_change_apply(&c.arena, &c.assembly,
                                                &changes[i].change);
        added++;
        ck_assert_uint_eq(to->layer_count, 4);
        ck_assert_int_eq(to->layer[2].kind, BW_LAYER_MEMBRANE);
        ck_assert_str_eq(to->layer[3].name, "plasterboard");
        ck_assert_int_eq(to->drying_test.after_layer, CASE_INSULATION);
    }
    ck_assert_uint_eq(added, 3);
}
END_TEST

START_TEST(a_still_cavity_outside_the_insulation_may_be_opened)
{
    c.layer[CASE_LAYERS] = c.layer[CASE_LINING];
    c.layer[CASE_FOIL] = c.layer[CASE_INSULATION];
    c.layer[CASE_INSULATION] = c.layer[CASE_SHEATHING];
    c.layer[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    c.layer[CASE_INSULATION].thickness = 0.05;
    bw_proposal changes[BW_PROPOSALS_MOST];
    size_t count = bw_propose(changes, &c.rows, &c.assembly);
    const bw_proposal *open = NULL;
    for (size_t i = 0; i < count; i++)
        if (changes[i].kind == BW_PROPOSE_CAVITY)
            open = &changes[i];
    ck_assert_ptr_nonnull(open);
    const bw_assembly *to = bw_change_apply(&c.arena, &c.assembly,
                                            &open->change);
    ck_assert_int_eq(to->layer[1].ventilation, BW_VENT_WELL);
    ck_assert_int_eq(c.layer[1].ventilation, BW_VENT_NONE);
}
END_TEST

/* ---- walls that come and go ------------------------------------------------
 */

enum { MOST_STREAMED = 40 };

typedef struct flow {
    size_t given[MOST_STREAMED], left, taken, lots;
    size_t fault; /* the wall that cannot be had, MOST_STREAMED: none */
    bool refuses; /* what is made of the walls */
} flow;

static bw_status give(void *payload, size_t i, bw_assembly **assembly,
                      bw_climate **climate, bw_error *err)
{
    flow *f = payload;
    (void)err;
    ck_assert_uint_lt(i, (size_t)MOST_STREAMED);
    if (i == f->fault)
        return BW_ERR_DOMAIN;
    f->given[i]++;
    *assembly = &c.assembly;
    *climate = &c.climate;
    return BW_OK;
}

static bw_status take(void *payload, const bw_assessment *const *of,
                      size_t first, size_t count, bw_error *err)
{
    flow *f = payload;
    (void)err;
    ck_assert_uint_eq(first, f->taken); /* in their order, none twice */
    ck_assert_uint_gt(count, 0);
    for (size_t i = 0; i < count; i++)
        ck_assert_str_eq(of[i]->assembly->id, c.assembly.id);
    f->taken += count;
    f->lots++;
    return f->refuses ? BW_ERR_CANCELLED : BW_OK;
}

static void leave(void *payload, bw_assembly *assembly, bw_climate *climate)
{
    flow *f = payload;
    ck_assert(assembly == &c.assembly && climate == &c.climate);
    f->left++;
}

static bw_status stream(flow *f, size_t count)
{
    const bw_wall_stream walls = {f, give, take, leave};
    bw_assessment_options one = steady;
    one.threads = 1;
    one.no_advice = true;
    const bw_status status = bw_assess_stream(&walls, count, &one, NULL);
    size_t given = 0;
    for (size_t i = 0; i < MOST_STREAMED; i++) {
        ck_assert_uint_le(f->given[i], 1);
        given += f->given[i];
    }
    ck_assert_uint_eq(f->left, given);
    return status;
}

/* Sixteen for each thread at a time. */
START_TEST(walls_of_a_stream_are_each_given_taken_and_left_once)
{
    static const size_t counts[][2] = {
        {0, 0}, {1, 1}, {16, 1}, {17, 2}, {MOST_STREAMED, 3}};
    for (size_t i = 0; i < COUNT(counts); i++) {
        flow f = {.fault = MOST_STREAMED};
        ck_assert_int_eq(stream(&f, counts[i][0]), BW_OK);
        ck_assert_uint_eq(f.taken, counts[i][0]);
        ck_assert_uint_eq(f.left, counts[i][0]);
        ck_assert_uint_eq(f.lots, counts[i][1]);
    }
}
END_TEST

START_TEST(of_a_stream_none_behind_a_failure_is_taken)
{
    flow f = {.fault = 20};
    ck_assert_int_eq(stream(&f, MOST_STREAMED), BW_ERR_DOMAIN);
    ck_assert_uint_eq(f.taken, 16);
    f = (flow){.fault = MOST_STREAMED, .refuses = true};
    ck_assert_int_eq(stream(&f, MOST_STREAMED), BW_ERR_CANCELLED);
    ck_assert_uint_eq(f.taken, 16);
    ck_assert_uint_eq(f.lots, 1);
}
END_TEST

SUITE_AROUND(
    "assess", setup, teardown,
    FACT(walls_of_a_stream_are_each_given_taken_and_left_once),
    FACT(of_a_stream_none_behind_a_failure_is_taken),
    FACT(oracle_b_peaks_in_march_and_dries_in_august),
    FACT(advice_lowers_the_number_of_failing_criteria),
    FACT(a_wall_that_takes_the_advice_does_what_was_said),
    FACT(the_same_wall_gets_the_same_words),
    FACT(a_wall_that_holds_gets_no_advice),
    FACT(tight_on_both_sides_fails_the_drying_test),
    FACT(a_wet_cup_value_that_would_fail_makes_it_marginal),
    FACT(months_alone_do_not_hold_what_they_do_not_see),
    FACT(the_bound_tries_a_tight_outside_with_an_open_inside),
    FACT(a_roof_under_open_sky_is_two_kelvin_colder),
    FACT(the_sun_warms_by_absorptance_times_irradiance_over_25),
    FACT(beyond_the_monthly_method_without_hours_nothing_is_proven),
    FACT(within_the_monthly_method_only_who_asks_gets_its_word_alone),
    FACT(by_months_alone_a_wall_with_damp_wood_never_holds),
    FACT(a_screening_that_fails_fails_until_a_simulation_says_otherwise),
    FACT(a_simulation_may_be_cancelled),
    FACT(a_simulation_without_its_data_is_not_assessed),
    FACT(two_sections_are_judged_apart),
    FACT(a_wetted_layer_outside_the_calculation_is_said),
    FACT(a_humid_or_cooled_room_is_not_for_the_period_balance),
    FACT(what_cannot_be_computed_is_not_assessed),
    FACT(a_change_leaves_the_given_assembly_alone),
    FACT(a_membrane_is_added_behind_the_insulation_where_none_is),
    FACT(a_still_cavity_outside_the_insulation_may_be_opened))
