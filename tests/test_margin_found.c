/* Margin: which unknowns a wall has; read without assessing a wall. The figures
 * are the estimates of docs/methods.md, "Margin". */

#include "found_case.h"
#include "suite.h"

/* ---- what the file is unsure of ------------------------------------------ */

/* Evenly over the logarithm from a factor of three on, of a range above 0 and
 * what is drawn above 0. */
START_TEST(a_range_of_more_than_three_times_is_sampled_by_its_logarithm)
{
    static const struct {
        double low, high;
        bool geometric;
    } rows[] = {{10, 29.9, false},
                {10, 30.1, true},
                {0, 50, false},
                {40, 41, false},
                {0.01, 1e4, true}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        bw_uncertain range = {"mu", rows[k].low, rows[k].high};
        layers[CASE_SHEATHING].uncertain = &range;
        layers[CASE_SHEATHING].uncertain_count = 1;
        find();
        const bw_unknown *u = of_property(BW_VARIED_MU, CASE_SHEATHING);
        ck_assert_ptr_nonnull(u);
        ck_assert_int_eq(u->kind, BW_UNKNOWN_RANGE);
        ck_assert(u->continuous && !u->two_ended);
        ck_assert_int_eq(u->geometric, rows[k].geometric);
        ck_assert_double_eq(u->low, rows[k].low);
        ck_assert_double_eq(u->high, rows[k].high);
        ck_assert_double_eq(u->as_drawn, 50.0);
        ck_assert_int_eq(u->note[0] != '\0',
                         rows[k].low > 50 || rows[k].high < 50);
    }
}
END_TEST

/* Of a membrane that is drawn with no sd at all. */
START_TEST(what_is_drawn_as_nothing_has_no_logarithm)
{
    bw_uncertain range = {"sd", 0.1, 50};
    layers[CASE_FOIL].uncertain = &range;
    layers[CASE_FOIL].uncertain_count = 1;
    for (int nothing = 0; nothing < 2; nothing++) {
        c.material[CASE_FOIL].sd = case_value(nothing ? 0.0 : 2.0);
        find();
        ck_assert_int_eq(of_property(BW_VARIED_SD, CASE_FOIL)->geometric,
                         !nothing);
    }
}
END_TEST

START_TEST(two_cups_of_one_mu_are_no_unknown)
{
    static const struct {
        double dry, wet, low, high;
        bool dry_known, there;
    } rows[] = {{50, 20, 20, 50, true, true},
                {20, 50, 20, 50, true, true},
                {50, 50, 0, 0, true, false},
                {50, 50.001, 50, 50.001, true, true},
                {50, 20, 0, 0, false, false}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        c.material[CASE_SHEATHING].mu_dry = case_value(rows[k].dry);
        c.material[CASE_SHEATHING].mu_wet = case_value(rows[k].wet);
        c.material[CASE_SHEATHING].mu_dry.known = rows[k].dry_known;
        find();
        const bw_unknown *u = of_kind(BW_CHANGE_MU, CASE_SHEATHING);
        ck_assert_int_eq(u != NULL, rows[k].there);
        if (u == NULL)
            continue;
        ck_assert(u->two_ended && isnan(u->as_drawn));
        ck_assert_double_eq(u->low, rows[k].low);
        ck_assert_double_eq(u->high, rows[k].high);
        ck_assert_str_eq(u->unit, "-");
        ck_assert_str_eq(u->layer, "panel");
    }
}
END_TEST

/* Outside of a well-ventilated cavity the cups of a layer do not count; behind
 * one that is not they do. A cavity with openings may be blocked. */
START_TEST(what_lies_outside_of_the_weather_line_has_no_vapour_to_doubt)
{
    static const struct {
        bw_ventilation ventilation;
        bool tile, blocked;
    } rows[] = {{BW_VENT_NONE, true, false},
                {BW_VENT_SLIGHT, true, true},
                {BW_VENT_WELL, false, true}};
    tile.mu_wet = case_value(4e4);
    c.material[CASE_SHEATHING].mu_wet = case_value(20);
    for (size_t k = 0; k < COUNT(rows); k++) {
        memcpy(layers, c.layer, CASE_LAYERS * sizeof *layers);
        clad(rows[k].ventilation);
        find();
        ck_assert_int_eq(of_kind(BW_CHANGE_MU, 0) != NULL, rows[k].tile);
        ck_assert_ptr_nonnull(of_kind(BW_CHANGE_MU, 2));
        const bw_unknown *u = of_kind(BW_CHANGE_BLOCKED, 1);
        ck_assert_int_eq(u != NULL, rows[k].blocked);
        ck_assert(u == NULL ||
                  (!u->two_ended && u->as_drawn == 0.0 && u->high == 1.0));
    }
}
END_TEST

/* mu and sd are two words for one thing; any other property is itself. */
START_TEST(a_range_of_mu_or_sd_stands_for_both)
{
    static const char *const words[BW_VARIED_COUNT] = {
        "mu",        "sd",      "lambda",       "resistance",
        "thickness", "density", "specific-heat"};
    for (size_t i = 0; i < COUNT(words); i++)
        for (int p = 0; p < BW_VARIED_COUNT; p++) {
            bw_uncertain range = {words[i], 1, 2};
            const bw_layer layer = {.uncertain = &range, .uncertain_count = 1};
            ck_assert_int_eq(bw_layer_unsure(&layer, (bw_varied)p),
                             (int)i == p || (i < 2 && p < 2));
        }
}
END_TEST

/* What the steady methods know nothing of is seen by the simulation alone. */
START_TEST(what_months_cannot_see_is_not_varied_by_them)
{
    static const bw_change_kind blind[] = {
        BW_CHANGE_RAIN_LEAK,     BW_CHANGE_BUILT_IN,   BW_CHANGE_ABSORPTION,
        BW_CHANGE_SORPTION,      BW_CHANGE_SATURATION, BW_CHANGE_AIR_CHANGE,
        BW_CHANGE_DRIVING_RAIN,  BW_CHANGE_WIND,       BW_CHANGE_START,
        BW_CHANGE_REDISTRIBUTION};
    static const bw_change_kind seen[] = {BW_CHANGE_MU, BW_CHANGE_BLOCKED,
                                          BW_CHANGE_HUMIDITY, BW_CHANGE_SUN,
                                          BW_CHANGE_AIR_LEAKAGE};
    const bw_change nothing = {.kind = BW_CHANGE_NOTHING};
    study.source = BW_NEW(&arena, bw_source, 40);
    for (int hours = 0; hours < 2; hours++) {
        study.options.no_transient = hours == 0;
        for (size_t i = 0; i < COUNT(blind); i++) {
            study.count = 0;
            const bw_source *s = bw_study_switch(
                &study, nothing, bw_change_to(blind[i], 1, 1.0));
            ck_assert_int_eq(s->shown.seen, hours == 1);
            ck_assert_int_eq(s->shown.note[0] != '\0', hours == 0);
        }
        for (size_t i = 0; i < COUNT(seen); i++) {
            study.count = 0;
            ck_assert(
                bw_study_switch(&study, nothing, bw_change_to(seen[i], 1, 1.0))
                    ->shown.seen);
        }
        for (int p = 0; p < BW_VARIED_COUNT; p++) {
            study.count = 0;
            const bw_change change = {.kind = BW_CHANGE_PROPERTY,
                                      .property = (bw_varied)p};
            ck_assert_int_eq(bw_study_range(&study, change, 1, 2, 1.5)->seen,
                             p != BW_VARIED_SPECIFIC_HEAT || hours == 1);
        }
    }
}
END_TEST

/* ---- what no file is unsure of ------------------------------------------- */

/* q50: 3 m3/(m2 h) a third, and three times as much; without a leak 3. */
START_TEST(a_leak_is_three_times_as_large_and_if_asked_a_third)
{
    for (int wide = 0; wide < 2; wide++) {
        study.wide = wide == 1;
        c.assembly.air_leakage = (bw_air_leakage){.given = true,
                                                  .q50 = 6.0 / 3600.0};
        find();
        const bw_unknown *u = of_kind(BW_CHANGE_AIR_LEAKAGE, 0);
        ck_assert_ptr_nonnull(u);
        ck_assert(u->continuous);
        ck_assert_double_eq_tol(u->low, wide == 1 ? 2.0 : 6.0, 1e-9);
        ck_assert_double_eq_tol(u->high, 18.0, 1e-9);
        ck_assert_double_eq_tol(u->as_drawn, 6.0, 1e-9);
        for (int given = 0; given < 2; given++) {
            c.assembly.air_leakage = (bw_air_leakage){.given = given == 1};
            find();
            u = of_kind(BW_CHANGE_AIR_LEAKAGE, 0);
            ck_assert_int_eq(u != NULL, wide == 1);
            ck_assert(u == NULL || !u->continuous);
        }
    }
}
END_TEST

/* Air changes an hour: 5 to 200 of a well-ventilated cavity, a tenth of that
 * of a slight one, a third to three times what is given. */
START_TEST(the_air_of_a_cavity_is_as_it_is_said_or_usual)
{
    static const struct {
        bw_ventilation ventilation;
        double given, low, high;
    } rows[] = {{BW_VENT_NONE, 0, 0, 0},
                {BW_VENT_SLIGHT, 0, 0.5, 20},
                {BW_VENT_WELL, 0, 5, 200},
                {BW_VENT_WELL, 60, 20, 180},
                {BW_VENT_SLIGHT, 60, 20, 180}};
    study.wide = true;
    for (size_t k = 0; k < COUNT(rows); k++) {
        memcpy(layers, c.layer, CASE_LAYERS * sizeof *layers);
        clad(rows[k].ventilation);
        layers[1].air_change = rows[k].given / 3600.0;
        find();
        const bw_unknown *u = of_kind(BW_CHANGE_AIR_CHANGE, 1);
        ck_assert_int_eq(u != NULL, rows[k].high > 0);
        if (u == NULL)
            continue;
        ck_assert_double_eq_tol(u->low, rows[k].low, 1e-9);
        ck_assert_double_eq_tol(u->high, rows[k].high, 1e-9);
        ck_assert_int_eq(isnan(u->as_drawn), !(rows[k].given > 0));
    }
}
END_TEST

/* A third to three times of what is drawn in, or the library's range, of a
 * solid layer that draws water in at all. */
START_TEST(the_water_that_a_layer_draws_in_is_as_its_library_says)
{
    static const struct {
        bw_property absorption;
        bw_layer_kind kind;
        double low, high;
    } rows[] = {
        {{.known = true, .value = 0.03}, BW_LAYER_SOLID, 0.01, 0.09},
        {{.known = true,
          .value = 0.03,
          .has_range = true,
          .low = 0.02,
          .high = 0.05},
         BW_LAYER_SOLID,
         0.02,
         0.05},
        {{.known = true, .value = 0.03}, BW_LAYER_MEMBRANE, 0, 0},
        {{.known = true, .value = 0.0}, BW_LAYER_SOLID, 0, 0},
        {{.known = false, .value = 0.03}, BW_LAYER_SOLID, 0, 0},
    };
    study.wide = true;
    for (size_t k = 0; k < COUNT(rows); k++) {
        c.material[CASE_SHEATHING].water_absorption = rows[k].absorption;
        layers[CASE_SHEATHING].kind = rows[k].kind;
        find();
        const bw_unknown *u = of_kind(BW_CHANGE_ABSORPTION, CASE_SHEATHING);
        const bw_unknown *spread = of_kind(BW_CHANGE_REDISTRIBUTION, 0);
        ck_assert_int_eq(u != NULL, rows[k].high > 0);
        ck_assert_int_eq(spread != NULL, rows[k].high > 0);
        if (u == NULL)
            continue;
        ck_assert_double_eq_tol(u->low, rows[k].low, 1e-12);
        ck_assert_double_eq_tol(u->high, rows[k].high, 1e-12);
        ck_assert_double_eq_tol(u->as_drawn, 0.03, 1e-12);
    }
}
END_TEST

/* A step of exposure either way; from the most severe only down; where no rain
 * comes none. */
START_TEST(rain_on_the_face_is_a_step_more_and_a_step_less)
{
    static const struct {
        bw_exposure now;
        bool there, two;
        int low, high;
    } rows[] = {
        {BW_RAIN_NONE, false, false, 0, 0},
        {BW_RAIN_SHELTERED, true, true, BW_RAIN_NONE, BW_RAIN_MODERATE},
        {BW_RAIN_MODERATE, true, true, BW_RAIN_SHELTERED, BW_RAIN_SEVERE},
        {BW_RAIN_SEVERE, true, false, 0, BW_RAIN_MODERATE}};
    study.wide = true;
    for (size_t k = 0; k < COUNT(rows); k++) {
        c.assembly.outdoors.driving_rain = rows[k].now;
        find();
        const bw_source *s = source_of(BW_CHANGE_DRIVING_RAIN, 0);
        ck_assert_int_eq(s != NULL, rows[k].there);
        if (s == NULL)
            continue;
        ck_assert_int_eq(s->shown.two_ended, rows[k].two);
        ck_assert_double_eq(s->shown.as_drawn, 0.0);
        ck_assert_double_eq(s->high.value, rows[k].high);
        ck_assert_int_eq(s->low.kind == BW_CHANGE_NOTHING, !rows[k].two);
        if (rows[k].two)
            ck_assert_double_eq(s->low.value, rows[k].low);
    }
}
END_TEST

/* What a wall has: sorption of two points, free saturation, a colour that takes
 * up sun, outdoor air. */
START_TEST(a_wall_is_asked_only_of_what_it_has)
{
    static const double rh[] = {0.5, 0.8}, u[] = {0.06, 0.12};
    study.wide = true;
    for (size_t points = 0; points < 3; points++)
        for (int rest = 0; rest < 2; rest++) {
            c.material[CASE_SHEATHING].sorption = (bw_curve){
                .count = points, .x = rh, .y = u, .source = "", .note = ""};
            c.material[CASE_SHEATHING].free_saturation = case_value(400);
            c.material[CASE_SHEATHING].free_saturation.known = rest == 1;
            c.assembly.outdoors.has_solar_absorptance = true;
            c.assembly.outdoors.solar_absorptance = rest == 1 ? 0.4 : 0.0;
            find();
            const bool sorbs = points == 2;
            ck_assert_int_eq(of_kind(BW_CHANGE_SORPTION, 0) != NULL, sorbs);
            ck_assert_int_eq(of_kind(BW_CHANGE_START, 0) != NULL, sorbs);
            ck_assert_int_eq(of_kind(BW_CHANGE_SATURATION, 0) != NULL,
                             rest == 1);
            ck_assert_int_eq(of_kind(BW_CHANGE_SUN, 0) != NULL, rest == 1);
            ck_assert_ptr_nonnull(of_kind(BW_CHANGE_WIND, 0));
        }
    c.assembly.outdoors.has_solar_absorptance = false;
    c.assembly.outdoors.solar_absorptance = 0.4;
    find();
    ck_assert_ptr_null(of_kind(BW_CHANGE_SUN, 0));
}
END_TEST

SUITE_AROUND("margin_found", setup, teardown,
             FACT(a_range_of_more_than_three_times_is_sampled_by_its_logarithm),
             FACT(what_is_drawn_as_nothing_has_no_logarithm),
             FACT(two_cups_of_one_mu_are_no_unknown),
             FACT(what_lies_outside_of_the_weather_line_has_no_vapour_to_doubt),
             FACT(a_range_of_mu_or_sd_stands_for_both),
             FACT(what_months_cannot_see_is_not_varied_by_them),
             FACT(a_leak_is_three_times_as_large_and_if_asked_a_third),
             FACT(the_air_of_a_cavity_is_as_it_is_said_or_usual),
             FACT(the_water_that_a_layer_draws_in_is_as_its_library_says),
             FACT(rain_on_the_face_is_a_step_more_and_a_step_less),
             FACT(a_wall_is_asked_only_of_what_it_has))
