/* Margin: what the library is unsure of, layer by layer, and which unknowns are
 * simulated first. */

#include "found_case.h"
#include "suite.h"

/* ---- ranges of the library ------------------------------------------------
 */

static bw_material *panel(void)
{
    return &c.material[CASE_SHEATHING];
}

static void mu_range(void)
{
    panel()->mu_dry = ranged(30, 50, 70);
}

static void wet_mu_range(void)
{
    panel()->mu_dry.known = false;
    panel()->mu_wet = ranged(30, 50, 70);
}

static void mu_behind_an_sd(void)
{
    mu_range();
    layers[CASE_SHEATHING].kind = BW_LAYER_MEMBRANE;
    panel()->sd = case_value(0.4);
}

static void sd_range(void)
{
    c.material[CASE_FOIL].sd = ranged(1, 2, 3);
}

static void sd_behind_a_curve(void)
{
    static const double rh[] = {0.25, 0.9}, sd[] = {10, 0.2};
    sd_range();
    c.material[CASE_FOIL].sd_curve = (bw_curve){
        .count = 2, .x = rh, .y = sd, .source = "", .note = ""};
}

static void sd_of_a_mu(void)
{
    panel()->sd = ranged(0.3, 0.45, 0.6);
}

static void lambda_range(void)
{
    panel()->thermal_conductivity = ranged(0.11, 0.13, 0.15);
}

static void lambda_behind_a_resistance(void)
{
    lambda_range();
    layers[CASE_SHEATHING].resistance = case_value(0.1);
}

static void density_range(void)
{
    panel()->density = ranged(600, 650, 700);
}

static void level_range(void)
{
    panel()->density = ranged(650, 650, 650);
}

static void heat_range(void)
{
    panel()->specific_heat = ranged(1400, 1600, 1800);
}

static const struct library_row {
    void (*make)(void);
    bw_varied property;
    size_t layer;
    double low, high; /* 0: it is no unknown */
} library_rows[] = {
    {mu_range, BW_VARIED_MU, CASE_SHEATHING, 30, 70},
    {wet_mu_range, BW_VARIED_MU, CASE_SHEATHING, 30, 70},
    {mu_behind_an_sd, BW_VARIED_MU, CASE_SHEATHING, 0, 0},
    {sd_range, BW_VARIED_SD, CASE_FOIL, 1, 3},
    {sd_behind_a_curve, BW_VARIED_SD, CASE_FOIL, 0, 0},
    {sd_of_a_mu, BW_VARIED_SD, CASE_SHEATHING, 0, 0},
    {lambda_range, BW_VARIED_LAMBDA, CASE_SHEATHING, 0.11, 0.15},
    {lambda_behind_a_resistance, BW_VARIED_LAMBDA, CASE_SHEATHING, 0, 0},
    {density_range, BW_VARIED_DENSITY, CASE_SHEATHING, 600, 700},
    {level_range, BW_VARIED_DENSITY, CASE_SHEATHING, 0, 0},
    {heat_range, BW_VARIED_SPECIFIC_HEAT, CASE_SHEATHING, 1400, 1800},
};

START_TEST(the_library_is_unsure_of_what_the_methods_read)
{
    const struct library_row *row = &library_rows[_i];
    static const bool all[MOST_LAYERS] = {true, true, true, true, true, true};
    row->make();
    for (int way = 0; way < 3; way++) { /* not asked, wide, by the library */
        study.wide = way == 1;
        study.library = way == 2 ? all : NULL;
        find();
        const bw_unknown *u = of_property(row->property, row->layer);
        ck_assert_int_eq(u != NULL, way > 0 && row->high > 0);
        if (u == NULL)
            continue;
        ck_assert(u->two_ended && !u->continuous);
        ck_assert_double_eq_tol(u->low, row->low, 1e-12);
        ck_assert_double_eq_tol(u->high, row->high, 1e-12);
        ck_assert_int_eq(u->kind,
                         way == 2 ? BW_UNKNOWN_LIBRARY : BW_UNKNOWN_STANDARD);
    }
}
END_TEST

/* Only of the layers asked for; of none outside the weather line; and beside a
 * range of the file only where the library was asked for. */
START_TEST(the_library_is_asked_layer_by_layer)
{
    static const bool first[MOST_LAYERS] = {true};
    static const bool third[MOST_LAYERS] = {false, false, true};
    bw_uncertain range = {"density", 640, 660};
    density_range();
    tile.density = ranged(1900, 2000, 2100);
    study.library = first;
    find();
    ck_assert_ptr_nonnull(of_property(BW_VARIED_DENSITY, 0));
    study.library = third;
    find();
    ck_assert_ptr_null(of_property(BW_VARIED_DENSITY, 0));
    clad(BW_VENT_WELL);
    find();
    ck_assert_ptr_nonnull(of_property(BW_VARIED_DENSITY, 2));
    study.library = first;
    find();
    ck_assert_ptr_null(of_property(BW_VARIED_DENSITY, 0));
    layers[2].uncertain = &range;
    layers[2].uncertain_count = 1;
    for (int way = 0; way < 2; way++) {
        size_t n = 0;
        study.library = way == 0 ? NULL : third;
        study.wide = way == 0;
        find();
        for (size_t i = 0; i < study.count; i++)
            n += study.source[i].high.kind == BW_CHANGE_PROPERTY &&
                 study.source[i].high.property == BW_VARIED_DENSITY;
        ck_assert_uint_eq(n, way == 0 ? 1 : 2);
    }
}
END_TEST

/* ---- which are simulated first --------------------------------------------
 */

static void add(bw_change_kind kind, size_t layer, const char *name)
{
    const bw_change nothing = {.kind = BW_CHANGE_NOTHING};
    bw_change change = bw_change_to(kind, layer, 1.0);
    if (kind == BW_CHANGE_MATERIAL) {
        change.material = &c.material[CASE_SHEATHING];
        change.value = 0.0;
    }
    bw_source *s = bw_study_switch(&study, nothing, change);
    s->shown.name = name;
}

static void see(size_t i, bool turns, double swing)
{
    study.source[i].shown.seen = true;
    study.source[i].shown.flip_changes_verdict = turns;
    study.source[i].shown.swing = swing;
}

static bw_known_room room; /* of the last simulate() */

/* By the steady methods, so that nothing is simulated: the order alone. */
static bw_margin simulate(size_t budget)
{
    bw_margin out = {.simulated_count = 0};
    room = (bw_known_room){.set = false};
    bw_pool pool;
    bw_tally tally = {0};
    bw_case drawn;
    bw_pool_open(&pool, 1);
    bw_meter_start(&tally.meter, NULL, NULL, 0);
    study.pool = &pool;
    study.tally = &tally;
    study.options.no_advice = true;
    ck_assert_int_eq(bw_case_assess(&drawn, &study, &c.assembly, NULL), BW_OK);
    ck_assert_int_eq(
        bw_simulate_cases(&out, &study, &drawn, budget, &room, NULL), BW_OK);
    bw_meter_end(&tally.meter);
    bw_pool_close(&pool);
    ck_assert_str_eq(out.simulated[0].setting, "as drawn");
    ck_assert_str_eq(out.simulated[0].unknown, "");
    ck_assert_int_eq(out.simulated[0].verdict, drawn.verdict);
    return out;
}

/* "What tells most is asked of the steady methods and, for what these cannot
 * see, of a fixed order. The two lists take turns." A flip of the verdict
 * before any swing; the face draws rain before what lies behind it. */
START_TEST(the_most_telling_cases_come_first_turn_by_turn)
{
    static const char *const order[] = {"leak",  "turns", "rain",  "swings",
                                        "face",  "less",  "start", "still",
                                        "built", "behind"};
    study.source = BW_NEW(&arena, bw_source, 40);
    add(BW_CHANGE_BUILT_IN, 0, "built");
    add(BW_CHANGE_ABSORPTION, 3, "behind");
    add(BW_CHANGE_ABSORPTION, 0, "face");
    add(BW_CHANGE_START, 0, "start");
    add(BW_CHANGE_DRIVING_RAIN, 0, "rain");
    add(BW_CHANGE_RAIN_LEAK, 0, "leak");
    add(BW_CHANGE_SUN, 0, "still");
    see(6, false, 0.0);
    add(BW_CHANGE_HUMIDITY, 0, "less");
    see(7, false, 0.2);
    add(BW_CHANGE_HUMIDITY, 0, "swings");
    see(8, false, 0.9);
    add(BW_CHANGE_HUMIDITY, 0, "turns");
    see(9, true, 0.1);
    for (size_t budget = 0; budget <= COUNT(order); budget += 5) {
        const bw_margin out = simulate(budget);
        ck_assert_uint_eq(out.simulated_count, 1 + budget);
        ck_assert_uint_eq(out.not_simulated, COUNT(order) - budget);
        for (size_t i = 0; i < budget; i++)
            ck_assert_str_eq(out.simulated[1 + i].unknown, order[i]);
    }
}
END_TEST

/* Both ends of an unknown or none: what does not fit makes room for one that
 * does. What the file names as another layer comes before all. */
START_TEST(an_unknown_is_simulated_at_all_its_ends_or_not_at_all)
{
    study.source = BW_NEW(&arena, bw_source, 40);
    bw_study_switch(&study, bw_change_to(BW_CHANGE_HUMIDITY, 0, -1.0),
                    bw_change_to(BW_CHANGE_HUMIDITY, 0, 1.0))
        ->shown.name = "both";
    study.source[0].shown.low = -1.0;
    see(0, true, 0.9);
    add(BW_CHANGE_HUMIDITY, 0, "one");
    see(1, false, 0.1);
    add(BW_CHANGE_MATERIAL, CASE_LINING, "named");
    see(2, false, 0.0);
    bw_margin out = simulate(2);
    ck_assert_uint_eq(out.simulated_count, 3);
    ck_assert_str_eq(out.simulated[1].unknown, "named");
    ck_assert_str_eq(out.simulated[2].unknown, "one");
    ck_assert_uint_eq(out.not_simulated, 1);
    out = simulate(3);
    ck_assert_uint_eq(out.simulated_count, 4);
    ck_assert_str_eq(out.simulated[2].unknown, "both");
    ck_assert_str_eq(out.simulated[3].unknown, "both");
    ck_assert_str_ne(out.simulated[2].setting, out.simulated[3].setting);
    ck_assert_uint_eq(out.not_simulated, 1);
}
END_TEST

/* ---- the dampest room -----------------------------------------------------
 */

/* A damper room that was a case is not assessed again: what it said counts,
 * here what no assessment of this wall would say. */
static const struct known_row {
    bw_indoors room;
    double next; /* class, or RH */
    int holds, beyond;
    bool again; /* it is not one of those looked at */
} known_rows[] = {
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 4}, 5, 4, 5, false},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.85}, 0.95, 85, 95, false},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.811}, 0.911, 0, 0, true},
};

START_TEST(a_room_that_was_simulated_is_not_assessed_again)
{
    const struct known_row *row = &known_rows[_i];
    bw_case drawn;
    c.assembly.indoors = row->room;
    c.assembly.indoors.temperature = 24.0;
    study.source = BW_NEW(&arena, bw_source, 2);
    add(BW_CHANGE_HUMIDITY, 0, "damper");
    study.source[0].high.value = 1.0;
    see(0, true, 0.5);
    simulate(1);
    ck_assert(room.set);
    ck_assert_double_eq_tol(row->room.kind == BW_INDOOR_CLASS
                                ? room.room.humidity_class
                                : room.room.relative_humidity,
                            row->next, 1e-12);
    room.at.verdict = BW_FAILS;
    bw_margin out = {.simulated_count = 0};
    bw_tally tally = {0};
    bw_meter_start(&tally.meter, NULL, NULL, 0);
    study.tally = &tally;
    ck_assert_int_eq(bw_case_assess(&drawn, &study, &c.assembly, NULL), BW_OK);
    drawn.verdict = BW_HOLDS;
    ck_assert_int_eq(bw_damp_search(&out, &study, &drawn, &room, NULL), BW_OK);
    bw_meter_end(&tally.meter);
    ck_assert_uint_eq(out.damp.cases, tally.steady - 1);
    if (row->again) {
        ck_assert_uint_gt(out.damp.cases, 1);
        return;
    }
    ck_assert_int_le(out.damp.beyond, row->beyond);
    ck_assert_int_ge(out.damp.holds, row->holds);
    if (row->room.kind == BW_INDOOR_CLASS)
        ck_assert_uint_eq(out.damp.cases, 0);
}
END_TEST

SUITE_AROUND("margin_first", setup, teardown,
             EACH(the_library_is_unsure_of_what_the_methods_read,
                  COUNT(library_rows)),
             FACT(the_library_is_asked_layer_by_layer),
             FACT(the_most_telling_cases_come_first_turn_by_turn),
             FACT(an_unknown_is_simulated_at_all_its_ends_or_not_at_all),
             EACH(a_room_that_was_simulated_is_not_assessed_again,
                  COUNT(known_rows)))
