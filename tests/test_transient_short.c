/* Runs of small walls in weather that stands still: where a run starts, what
 * it tells, what it watches, when it gives up. */

#include <stdio.h>

#include "suite.h"
#include "transient/storage.h"
#include "transient_run.h"

static bool told(const bw_transient_result *r, const char *text)
{
    for (size_t k = 0; k < r->note_count; k++)
        if (strstr(r->note[k], text) != NULL)
            return true;
    return false;
}

static const bw_transient_options one_year = {.max_years = 1};

/* ---- the start ---- */

/* 80 % unless the layer says otherwise, as a humidity or by mass; framing
 * listens to its own word, what belongs to no layer to none. */
START_TEST(layers_start_as_they_say_and_else_at_80_percent)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    for (int k = 0; k < 7; k++)
        add_board(c, 0.01, 10);
    case_material(c, 7, "air", 1.2, 0.28, 1000, 1, 1);
    case_slab(c, BW_LAYER_CAVITY, 0.05);
    c->assembly.layer_count = 6;
    c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
    c->layer[0].initial_moisture = 0.6;
    c->layer[1].has_initial_moisture = true;
    c->layer[1].initial_moisture = 0.07;
    c->layer[2] = c->layer[1];
    c->slab[2].is_framing = true;
    c->layer[3] = c->layer[1];
    c->slab[3].layer = 99;
    c->layer[6] = c->layer[1]; /* beyond the last layer */
    c->layer[4].has_initial_moisture = c->layer[4].initial_is_rh = true;
    c->layer[4].initial_moisture = 1.5; /* is 100 % */
    c->layer[5].framing.has_initial_moisture = true;
    c->layer[5].framing.initial_moisture = 0.09;
    c->slab[5].is_framing = true;
    bw_storage board;
    ck_assert_int_eq(bw_storage_of_slab(&board, &c->slab[0], false, NULL),
                     BW_OK);
    const double expected[] = {
        bw_storage_water(&board, 0.6), 0.07 * 600, 60, 60,
        bw_storage_water(&board, 1),   0.09 * 600, 60};
    bw_transient_result r = run(c, &one_year);
    double all = 0;
    for (size_t k = 0; k < COUNT(expected); k++) {
        ck_assert_double_eq_tol(r.slab[k].initial, 0.01 * expected[k],
                                1e-3 * 0.01 * expected[k]);
        all += r.slab[k].initial;
    }
    const double air = 0.05 * 0.8 * bw_saturation_pressure(20) /
                       (BW_R_V * 293.15);
    ck_assert_double_eq_tol(r.slab[7].initial, air, 5e-3 * air);
    ck_assert_double_eq_tol(r.initial_water, all + r.slab[7].initial, 1e-12);
    bw_transient_free(&r);
    free(c);
}
END_TEST

START_TEST(months_and_years_beyond_their_range_are_refused)
{
    static const bw_transient_options wrong[] = {
        {.start_month = -1, .start_month_given = true},
        {.start_month = 12, .start_month_given = true},
        {.max_years = 33},
    };
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    for (size_t k = 0; k < COUNT(wrong); k++) {
        bw_transient_result r;
        bw_error err = {0};
        ck_assert_int_eq(bw_transient(&r, &c->assembly, &c->section,
                                      &c->climate, &wrong[k], &err),
                         BW_ERR_DOMAIN);
        ck_assert_ptr_nonnull(strstr(err.message, "32 years"));
    }
    /* a month that is not said to be given is October */
    const bw_transient_options october = {
        .start_month = 3, .max_years = 1, .keep_hours = true};
    bw_transient_result r = run(c, &october);
    ck_assert_int_eq(r.first_month, 9);
    bw_transient_free(&r);
    const bw_transient_options april = {.start_month = 3,
                                        .start_month_given = true,
                                        .max_years = 1,
                                        .keep_hours = true};
    r = run(c, &april);
    ck_assert_int_eq(r.first_month, 3);
    bw_transient_free(&r);
    ck_assert_ptr_null(r.hour);
    bw_transient_free(NULL);
    free(c);
}
END_TEST

/* ---- what is told ---- */

START_TEST(what_was_assumed_is_told)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    case_sorption(c, 0, 2, board_phi + 1, board_u + 1);
    add_board(c, 0.01, 10);
    case_sorption(c, 1, 2, board_phi + 1, board_u + 1);
    c->climate.kind = BW_CLIMATE_SYNTHETIC;
    bw_transient_result r = run(c, NULL);
    ck_assert(told(&r, "no sun on the face"));
    ck_assert(told(&r, "no longwave column"));
    ck_assert(told(&r, "no wind column: 2 m/s"));
    ck_assert(told(&r, "Henderson's form: 2 layers, e.g. board"));
    ck_assert(told(&r, "0.9 of the pores: 2 layers, e.g. board"));
    ck_assert(!told(&r, "absorptance") && !told(&r, "rain"));
    ck_assert(r.synthetic_climate);
    bw_transient_free(&r);
    /* now sun, sky, wind and rain */
    c->climate.kind = BW_CLIMATE_HOURLY;
    c->climate.columns = (bw_hourly_columns){true, true, true,
                                             true, true, true};
    c->assembly.outdoors.has_facing = true;
    c->assembly.outdoors.tilt = 90;
    c->assembly.outdoors.driving_rain = BW_RAIN_MODERATE;
    c->material[0].free_saturation = case_value(300);
    case_sorption(c, 1, 4, board_phi, board_u);
    r = run(c, &one_year);
    ck_assert(told(&r, "solar absorptance 0.6"));
    ck_assert(told(&r, "rain runs off"));
    ck_assert(told(&r, "Henderson's form: 1 layer, e.g. board"));
    ck_assert(told(&r, "0.9 of the pores: 1 layer, e.g. board"));
    ck_assert(told(&r, "start: 80 % RH in all that no moisture is given for"));
    ck_assert(told(&r, "driving rain: moderate exposure is taken"));
    ck_assert(told(&r, "wind at the face 0.62 of that at 10 m in open ground: "
                       "suburban terrain (none given), 5 m above ground (none "
                       "given)"));
    ck_assert(!told(&r, "splashes off") && !told(&r, "no wind direction"));
    ck_assert_uint_eq(r.note_count, 7);
    ck_assert(!r.synthetic_climate);
    bw_transient_free(&r);
    /* and a face that draws rain */
    c->material[0].water_absorption = case_value(0.05);
    r = run(c, &one_year);
    ck_assert(!told(&r, "rain runs off"));
    ck_assert(told(&r, "0.7 of the rain driven against the face stays"));
    bw_transient_free(&r);
    /* all of it given, but no wind direction */
    bw_outdoors *out = &c->assembly.outdoors;
    out->has_driving_rain = out->has_rain_share = true;
    out->has_terrain = out->has_height = true;
    out->rain_share = 1;
    out->height = 8;
    c->climate.columns.wind_from = false;
    r = run(c, &one_year);
    ck_assert(!told(&r, "exposure") && !told(&r, "stays"));
    ck_assert(!told(&r, "wind at the face"));
    ck_assert(told(&r, "no wind direction: 0.65 of rain times wind"));
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Sixteen notes are kept; more do no harm. */
START_TEST(more_notes_than_there_is_room_for_are_left_out)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    for (int k = 0; k < 14; k++) {
        add_board(c, 0.01, 10);
        c->material[k].sorption.count = 0;
    }
    const bw_transient_options allow = {.max_years = 1, .allow_missing = true};
    bw_transient_result r = run(c, &allow);
    ck_assert_uint_eq(r.note_count, COUNT(r.note));
    ck_assert(told(&r, "no wind column"));
    ck_assert(told(&r, "board: no sorption points"));
    bw_transient_free(&r);
    free(c);
}
END_TEST

static bool count_to(void *payload, double fraction_done)
{
    int *calls = payload; /* how often yet; below 0: how often left */
    ck_assert_double_gt(fraction_done, 0);
    ck_assert_double_le(fraction_done, 1);
    return ++*calls != 0;
}

/* Asked every 73 hours, 120 times a year. */
START_TEST(run_asks_whether_to_go_on_and_stops_at_a_no)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    int calls = 0;
    const bw_transient_options o = {
        .max_years = 1, .progress = count_to, .payload = &calls};
    bw_transient_result r = run(c, &o);
    ck_assert_int_eq(calls, 120);
    bw_transient_free(&r);
    calls = -7;
    ck_assert_int_eq(
        bw_transient(&r, &c->assembly, &c->section, &c->climate, &o, NULL),
        BW_ERR_CANCELLED);
    ck_assert_int_eq(calls, 0);
    free(c);
}
END_TEST

/* What is missing and let pass is told as such. */
START_TEST(sun_and_rain_left_out_are_told)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    c->assembly.outdoors.has_solar_absorptance = true;
    c->assembly.outdoors.driving_rain = BW_RAIN_MODERATE;
    const bw_transient_options allow = {.max_years = 1, .allow_missing = true};
    bw_transient_result r = run(c, &allow);
    ck_assert(told(&r, "no sun: the climate or the facing"));
    ck_assert(told(&r, "no driving rain: data for it is missing"));
    ck_assert(!told(&r, "no sun on the face"));
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Between two slabs the more sensitive; air grows none. */
START_TEST(mould_class_of_a_place_is_that_of_its_more_sensitive_side)
{
    static const bw_mould_class side[] = {
        BW_MOULD_RESISTANT, BW_MOULD_VERY_SENSITIVE, BW_MOULD_MEDIUM_RESISTANT,
        BW_MOULD_SENSITIVE, BW_MOULD_RESISTANT};
    static const bw_mould_class expected[] = {
        BW_MOULD_RESISTANT, BW_MOULD_RESISTANT, BW_MOULD_MEDIUM_RESISTANT,
        BW_MOULD_SENSITIVE, BW_MOULD_SENSITIVE, BW_MOULD_RESISTANT};
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    for (size_t k = 0; k < COUNT(side); k++) {
        add_board(c, 0.01, 10);
        c->material[k].mould_class = side[k];
    }
    c->slab[1].kind = BW_LAYER_CAVITY;
    bw_transient_result r = run(c, &one_year);
    ck_assert_uint_eq(r.monitor_count, COUNT(expected));
    for (size_t k = 0; k < COUNT(expected); k++)
        ck_assert_int_eq(r.monitor[k].mould_class, expected[k]);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- what is watched ---- */

/* Everything at 20 degC and one humidity: what is watched is that humidity,
 * every hour, and wood holds what its curve says. */
START_TEST(wood_in_balance_holds_what_its_curve_says)
{
    static const struct {
        bw_wood_kind kind;
        double thickness, phi, hours;
    } row[] = {
        {BW_SOLID_WOOD, 0.004, 0.80, 0}, {BW_SOLID_WOOD, 0.03, 0.80, 0},
        {BW_WOOD_PANEL, 0.03, 0.945, 0}, {BW_WOOD_PANEL, 0.004, 0.96, 8760},
        {BW_NOT_WOOD, 0.004, 0.96, 0},
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = steady_new(20, row[k].phi, 20, row[k].phi);
        add_board(c, row[k].thickness, 10);
        c->material[0].wood_kind = row[k].kind;
        c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
        c->layer[0].initial_moisture = row[k].phi;
        bw_storage board;
        ck_assert_int_eq(bw_storage_of_slab(&board, &c->slab[0], false, NULL),
                         BW_OK);
        const double u = bw_storage_water(&board, row[k].phi) / 600;
        bw_transient_result r = run(c, &one_year);
        const bool wood = row[k].kind != BW_NOT_WOOD;
        ck_assert_int_eq(r.slab[0].is_wood, wood);
        ck_assert_double_eq_tol(r.slab[0].highest_wood_moisture, wood ? u : 0,
                                2e-3 * u);
        ck_assert_double_eq(r.slab[0].hours_above_limit, row[k].hours);
        for (int m = 0; m < BW_MONTHS; m++) {
            ck_assert_double_eq_tol(r.monitor[1].month_rh[m], row[k].phi, 1e-3);
            ck_assert_double_eq_tol(r.monitor[0].month_theta[m], 20, 1e-3);
            ck_assert_double_eq_tol(r.slab[0].month_mean[m],
                                    u * 600 * row[k].thickness,
                                    2e-3 * u * 600 * row[k].thickness);
        }
        ck_assert_double_eq(r.monitor[0].hours_above_90,
                            row[k].phi > 0.9 ? 8760 : 0);
        bw_transient_free(&r);
        free(c);
    }
}
END_TEST

/* A veneer without cells has no wood moisture. */
START_TEST(veneer_that_is_a_coat_is_not_watched_as_wood)
{
    transient_case *c = steady_new(20, 0.8, 20, 0.8);
    add_board(c, 0.9e-4, 10);
    add_board(c, 0.01, 10);
    add_foil(c, 0.1);
    for (int k = 0; k < 3; k++)
        c->material[k].wood_kind = BW_WOOD_PANEL;
    bw_transient_result r = run(c, &one_year);
    ck_assert(!r.slab[0].is_wood && r.slab[1].is_wood && !r.slab[2].is_wood);
    ck_assert_uint_eq(r.monitor_count, 4);
    ck_assert(r.monitor[0].outer_face && r.monitor[3].room_face);
    ck_assert(!r.monitor[2].room_face);
    ck_assert_double_eq(r.slab[0].highest_wood_moisture, 0);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* One cell, two faces: the temperatures by hand. */
START_TEST(wall_of_one_cavity_runs)
{
    transient_case *c = steady_new(0, 0.8, 20, 0.3);
    case_material(c, 0, "air", 1.2, 0.28, 1000, 1, 1);
    case_slab(c, BW_LAYER_CAVITY, 0.05);
    c->slab[0].resistance = 0.18;
    c->slab[0].sd_dry = c->slab[0].sd_wet = 0.01;
    const bw_transient_options o = {.max_years = 2, .keep_hours = true};
    bw_transient_result r = run(c, &o);
    ck_assert_uint_eq(r.cells, 1);
    ck_assert_double_eq_tol(r.monitor[0].month_theta[5], 20 * 0.04 / 0.35,
                            0.02);
    ck_assert_double_eq_tol(r.monitor[1].month_theta[5], 20 * 0.22 / 0.35,
                            0.02);
    ck_assert_double_lt(r.water_balance_error, 1e-8);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* ---- giving up ---- */

/* Conditions that are no numbers end the run where they begin, by name. */
START_TEST(weather_that_is_no_number_ends_the_run_at_its_hour)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_foil(c, 1);
    add_board(c, 0.01, 10);
    add_foil(c, 1);
    c->hour[200].vapour_pressure = NAN;
    c->hour[200].temperature = NAN;
    const bw_transient_options o = {
        .max_years = 1, .start_month = 0, .start_month_given = true};
    bw_transient_result r;
    bw_error err = {0};
    ck_assert_int_eq(
        bw_transient(&r, &c->assembly, &c->section, &c->climate, &o, &err),
        BW_ERR_NUMERIC);
    double hour = 0;
    const char *at = strstr(err.message, "at hour ");
    ck_assert_ptr_nonnull(at);
    ck_assert_int_eq(sscanf(at, "at hour %lf", &hour), 1);
    /* indoors looks 12 hours ahead */
    ck_assert_double_ge(hour, 187);
    ck_assert_double_le(hour, 200);
    free(c);
}
END_TEST

SUITE("transient_short", FACT(layers_start_as_they_say_and_else_at_80_percent),
      FACT(months_and_years_beyond_their_range_are_refused),
      FACT(what_was_assumed_is_told),
      FACT(more_notes_than_there_is_room_for_are_left_out),
      FACT(run_asks_whether_to_go_on_and_stops_at_a_no),
      FACT(sun_and_rain_left_out_are_told),
      FACT(mould_class_of_a_place_is_that_of_its_more_sensitive_side),
      FACT(wood_in_balance_holds_what_its_curve_says),
      FACT(veneer_that_is_a_coat_is_not_watched_as_wood),
      FACT(wall_of_one_cavity_runs),
      FACT(weather_that_is_no_number_ends_the_run_at_its_hour))
