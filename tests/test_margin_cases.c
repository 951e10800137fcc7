/* Margin: what is simulated, and how damp the room may be; both proved by
 * assessing the walls without the margin's own code. One year is simulated. */

#include <math.h>
#include <stdlib.h>

#include "bothways/margin.h"
#include "criteria_case.h"
#include "margin/case.h"
#include "one_document.h"
#include "paper.h"
#include "suite.h"

static criteria_case c;
static bw_margin *m;
static paper sheet, other;

static void setup(void)
{
    static const double rh[] = {0.0, 0.5, 0.8, 0.95};
    static const double u[] = {0.0, 0.08, 0.15, 0.25};
    case_make(&c);
    m = NULL;
    bw_material *panel = &c.material[CASE_SHEATHING];
    panel->sorption = (bw_curve){
        .count = 4, .x = rh, .y = u, .source = "", .note = ""};
    panel->free_saturation = case_value(500.0);
    panel->water_absorption = case_value(0.002);
    for (size_t i = 0; i < CASE_LAYERS; i++)
        c.material[i].specific_heat = case_value(1000.0);
    c.climate.latitude = 52.0;
}

static void teardown(void)
{
    bw_margin_free(m);
    case_free(&c);
}

static bw_assessment_options once(bool simulate)
{
    return (bw_assessment_options){
        .no_transient = !simulate,
        .no_advice = true,
        .synthetic_hours = true,
        .transient = {.max_years = 1, .allow_missing = true}};
}

static void make(bool simulate, size_t simulations, int threads)
{
    bw_error err = {0};
    bw_margin_options options = {
        .assessment = once(simulate), .simulations = simulations, .wide = true};
    options.assessment.threads = threads;
    bw_margin_free(m);
    m = NULL;
    ck_assert_msg(bw_margin_make(&m, &c.assembly, &c.climate, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
}

/* `brief`: without the wetting tests that close a side, as the cases are. */
static bw_verdict assess(bool brief)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = once(true);
    options.no_one_way = brief;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    bw_verdict verdict = a->verdict;
    ck_assert_msg(a->section[0].has_transient, "%s",
                  a->section[0].transient_reason);
    bw_assessment_free(a);
    return verdict;
}

static const char *text_of(paper *to)
{
    paper_clear(to);
    ck_assert_int_eq(margin_report(BW_FORM_TEXT, m, NULL, paper_take, to, NULL),
                     BW_OK);
    paper_fits(to->text, 100);
    return to->text;
}

/* ---- what is simulated ----------------------------------------------------
 */

START_TEST(the_start_is_the_simulated_wall_and_the_budget_is_kept)
{
    enum { BUDGET = 3 };
    make(true, BUDGET, 2);
    ck_assert_int_eq(m->as_drawn, assess(false));
    ck_assert_int_eq(m->outcome, m->as_drawn);
    ck_assert(!m->transient);
    ck_assert_uint_ge(m->simulated_count, 2);
    ck_assert_uint_le(m->simulated_count, 1 + BUDGET + 1);
    ck_assert_uint_eq(m->simulation_count, m->simulated_count + m->damp.cases);
    ck_assert_uint_gt(m->not_simulated, 0);
    ck_assert_str_eq(m->simulated[0].setting, "as drawn");
    ck_assert_int_eq(m->simulated[0].verdict, m->as_drawn);
    for (size_t i = 0; i < m->simulated_count; i++) {
        const bw_simulated *s = &m->simulated[i];
        ck_assert(s->simulated);
        ck_assert_str_ne(s->figure.criterion, "");
    }
    const char *text = text_of(&sheet);
    HAS(text, "simulated hour by hour");
    HAS(text, "telling cases: simulated");
    /* the words of a verdict do not stand beside the screening */
    const char *screening = strstr(text, "telling first: screening by months");
    ck_assert_ptr_nonnull(screening);
    ck_assert_ptr_null(strstr(screening, " holds "));
    ck_assert_ptr_null(strstr(screening, "wall fails"));
}
END_TEST

START_TEST(the_number_of_threads_changes_no_simulated_figure)
{
    make(true, 2, 1);
    text_of(&sheet);
    make(true, 2, 3);
    text_of(&other);
    ck_assert_str_eq(sheet.text, other.text);
}
END_TEST

START_TEST(months_alone_give_no_verdict_word)
{
    make(false, 0, 0);
    ck_assert_uint_eq(m->simulated_count, 0);
    ck_assert_uint_eq(m->simulation_count, 0);
    const char *text = text_of(&sheet);
    HAS(text, "As drawn, screened by months alone: would ");
    HAS_NOT(text, "As drawn: ");
    HAS_NOT(text, "the wall holds");
    HAS_NOT(text, "the wall fails");
}
END_TEST

/* ---- how damp the room may be ---------------------------------------------
 */

static void set_level(int level)
{
    if (m->damp.by_class) {
        c.assembly.indoors.humidity_class = level;
    } else {
        c.assembly.indoors.kind = BW_INDOOR_RH;
        c.assembly.indoors.temperature = m->damp.temperature;
        c.assembly.indoors.relative_humidity = 0.01 * level;
    }
}

static bool good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

static const struct damp_row {
    bw_indoor_kind kind;
    double rh;
    int class;
    bool replaced;
} rooms[] = {
    {BW_INDOOR_RH, 0.40, 0, false},
    {BW_INDOOR_RH, 0.90, 0, false}, /* fails as drawn */
    {BW_INDOOR_CLASS, 0.0, 2, false},
    {BW_INDOOR_EN15026, 0.0, 0, true},
};

static int worst_outcome(void)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = once(false);
    int fails = 0;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    for (size_t i = 0; i < a->criterion_count; i++)
        fails += a->criterion[i].decides && a->criterion[i].outcome == BW_FAILS;
    bw_assessment_free(a);
    return fails;
}

START_TEST(the_dampest_room_holds_and_the_next_does_not)
{
    const struct damp_row *row = &rooms[_i];
    c.assembly.indoors = (bw_indoors){.kind = row->kind,
                                      .temperature = 20.0,
                                      .relative_humidity = row->rh,
                                      .humidity_class = row->class};
    c.material[CASE_SHEATHING].sorption.count = 0; /* within the months */
    make(false, 0, 0);
    const bw_damp_limit *d = &m->damp;
    ck_assert_int_eq(d->replaced, row->replaced);
    ck_assert_int_eq(d->by_class, row->kind == BW_INDOOR_CLASS);
    ck_assert(!d->simulated);
    ck_assert_int_ge(d->holds, d->least);
    ck_assert_int_eq(d->beyond, d->holds + 1);
    set_level(d->holds);
    ck_assert_int_eq(worst_outcome(), 0);
    if (d->beyond <= d->most) {
        set_level(d->beyond);
        ck_assert_int_gt(worst_outcome(), 0);
        ck_assert_str_ne(d->figure.criterion, "");
    }
    HAS(text_of(&sheet), "Dampest room");
}
END_TEST

START_TEST(the_dampest_room_is_found_by_the_simulation_where_there_is_one)
{
    c.assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .temperature = 20.0, .humidity_class = 4};
    make(true, 1, 2);
    const bw_damp_limit *d = &m->damp;
    ck_assert(d->simulated);
    ck_assert_int_eq(d->beyond, d->holds + 1);
    if (d->holds >= d->least) {
        set_level(d->holds);
        ck_assert(good(assess(true)));
    }
    if (d->beyond <= d->most) {
        set_level(d->beyond);
        ck_assert(!good(assess(true)));
    }
}
END_TEST

/* ---- what is not of the wall ----------------------------------------------
 */

/* Severe rain on the bare panel, which draws it in. */
static void wet_the_face(void)
{
    static const double rose[BW_FACINGS] = {0, 0, 0, 0, 0.2, 0.4, 0.4, 0};
    c.assembly.outdoors = (bw_outdoors){.climate_path = "test",
                                        .has_facing = true,
                                        .azimuth = 225.0,
                                        .tilt = 90.0,
                                        .has_solar_absorptance = true,
                                        .solar_absorptance = 0.6,
                                        .emissivity = 0.9,
                                        .driving_rain = BW_RAIN_SEVERE};
    c.material[CASE_SHEATHING].water_absorption = case_value(0.02);
    for (int k = 0; k < BW_MONTHS; k++) {
        bw_climate_month *month = &c.climate.month[k];
        month->has_rain = month->has_rain_wind = month->has_rain_rose = true;
        month->rain = 80.0;
        month->rain_wind = 5.0;
        memcpy(month->rain_rose, rose, sizeof rose);
    }
}

static bw_case with_redistribution(bw_redistribution redistribution)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = once(true);
    bw_case out;
    options.transient.redistribution = redistribution;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    ck_assert(a->section[0].has_transient);
    bw_case_of(&out, a);
    bw_assessment_free(a);
    return out;
}

static bool alike(const bw_case *a, const bw_case *b)
{
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (a->outcome[i] != b->outcome[i] ||
            !(a->value[i] == b->value[i] ||
              (isnan(a->value[i]) && isnan(b->value[i]))))
            return false;
    return true;
}

static const struct spread_row {
    bw_redistribution drawn, other;
    const char *words;
} spreads[] = {
    {BW_REDISTRIBUTION_RULE, BW_REDISTRIBUTION_SUCTION,
     "water spreads as fast without rain as in rain"},
    {BW_REDISTRIBUTION_SUCTION, BW_REDISTRIBUTION_RULE,
     "water spreads more slowly without rain than in rain"},
};

START_TEST(rain_that_spreads_by_the_other_diffusivity_makes_another_wall)
{
    const struct spread_row *row = &spreads[_i];
    bw_arena arena = {0};
    bw_pool pool;
    bw_tally tally = {0};
    bw_pool_open(&pool, 1);
    bw_meter_start(&tally.meter, NULL, NULL, 0);
    bw_study study = {.assembly = &c.assembly,
                      .climate = &c.climate,
                      .options = once(true),
                      .arena = &arena,
                      .pool = &pool,
                      .tally = &tally,
                      .wide = true};
    study.options.transient.redistribution = row->drawn;
    wet_the_face();
    ck_assert_int_eq(bw_unknowns_find(&study, NULL), BW_OK);
    bw_setting *setting = BW_NEW(&arena, bw_setting, study.count);
    const bw_case drawn = with_redistribution(row->drawn);
    const bw_case other = with_redistribution(row->other);
    ck_assert(!alike(&drawn, &other));
    size_t i = 0;
    while (i < study.count &&
           study.source[i].high.kind != BW_CHANGE_REDISTRIBUTION)
        i++;
    ck_assert_uint_lt(i, study.count);
    const bw_unknown *u = &study.source[i].shown;
    ck_assert_str_eq(u->name, row->words);
    ck_assert(u->seen);
    bw_case made;
    for (int on = 0; on < 2; on++) {
        setting[i] = (bw_setting){true, on};
        ck_assert_int_eq(bw_case_run(&made, &study, setting, NULL), BW_OK);
        ck_assert(alike(&made, on == 1 ? &other : &drawn));
        ck_assert_str_eq(bw_settings_words(&study, setting),
                         on == 1 ? row->words : "as drawn");
    }
    bw_meter_end(&tally.meter);
    bw_pool_close(&pool);
    bw_arena_release(&arena);
}
END_TEST

/* Without A_w no liquid moves; the steady methods know none. */
START_TEST(how_water_spreads_matters_where_a_layer_draws_it_and_hours_pass)
{
    for (int wet = 0; wet < 2; wet++) {
        c.material[CASE_SHEATHING].water_absorption.value = wet == 1 ? 0.02
                                                                     : 0.0;
        make(false, 0, 0);
        const bw_unknown *found = NULL;
        for (size_t i = 0; i < m->unknown_count; i++)
            if (strncmp(m->unknown[i].name, "water spreads", 13) == 0)
                found = &m->unknown[i];
        ck_assert_int_eq(found != NULL, wet == 1);
        ck_assert(found == NULL || !found->seen);
    }
    static const char words[] = "water spreads as fast without rain as in rain";
    paper_clear(&sheet);
    const bw_results results = {.margin = m};
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_MARGIN, paper_take, &sheet, NULL),
        BW_OK);
    HAS(sheet.text, words);
    paper_clear(&sheet);
    ck_assert_int_eq(
        margin_report(BW_FORM_PAGE, m, NULL, paper_take, &sheet, NULL), BW_OK);
    HAS(sheet.text, words);
}
END_TEST

SUITE_AROUND(
    "margin_cases", setup, teardown,
    FACT(the_start_is_the_simulated_wall_and_the_budget_is_kept),
    FACT(the_number_of_threads_changes_no_simulated_figure),
    FACT(months_alone_give_no_verdict_word),
    EACH(the_dampest_room_holds_and_the_next_does_not, COUNT(rooms)),
    FACT(the_dampest_room_is_found_by_the_simulation_where_there_is_one),
    EACH(rain_that_spreads_by_the_other_diffusivity_makes_another_wall,
         COUNT(spreads)),
    FACT(how_water_spreads_matters_where_a_layer_draws_it_and_hours_pass))
