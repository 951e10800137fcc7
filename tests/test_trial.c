/* The simulation of a change: from which state it begins, when its end is not
 * known, and what is no result; and where the wetting test puts its water. The
 * wall as it is is simulated once, and what counts of it set by hand: what is
 * asked is docs/methods.md ("Advice", "Criteria and verdict"). */

#include <math.h>
#include <stdlib.h>

#include "bothways/geography.h"
#include "criteria/advice.h"
#include "criteria/trial.h"
#include "one_case.h"
#include "suite.h"

/* The air that the wall was built in, as it is and as it is changed; and the
 * moisture of the stud. */
static const double DAMP_AIR = 0.97, DRY_AIR = 0.50;
static const double WET_STUD = 0.25, DRY_STUD = 0.08; /* kg/kg */

static bw_pool pool;
static bw_climate *hours;
static bw_core base;
static bw_layer changed_layer[CASE_LAYERS];
static bw_assembly changed;

static void start_at(bw_layer *layer, double rh, double stud)
{
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        layer[i] = c.layer[i];
        layer[i].has_initial_moisture = layer[i].initial_is_rh = true;
        layer[i].initial_moisture = rh;
        layer[i].framing.has_initial_moisture = true;
        layer[i].framing.initial_moisture = stud;
    }
}

static const bw_transient_options one_year = {.max_years = 1,
                                              .allow_missing = true};

/* Simulates the wall as it is, built in at this humidity. */
static void simulate(double rh)
{
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .transient = one_year};
    const bw_run_effort all = {.no_bound = false};
    bw_pool_open(&pool, 1);
    base = (bw_core){.pool = &pool};
    start_at(changed_layer, DRY_AIR, DRY_STUD);
    changed = c.assembly;
    changed.layer = changed_layer;
    start_at(c.layer, rh, WET_STUD);
    ck_assert_int_eq(
        bw_core_steady(&base, &c.assembly, &c.climate, NULL, &all, NULL),
        BW_OK);
    ck_assert_int_eq(bw_run_transient(&pool, &base.assessment, base.part,
                                      &base.rows, &options, NULL),
                     BW_OK);
    ck_assert_int_eq(bw_core_judge(&base, true, NULL), BW_OK);
    for (size_t i = 0; i < base.assessment.section_count; i++) {
        bw_transient_result *r = &base.part[i].transient;
        ck_assert_msg(base.part[i].has_transient, "%s",
                      base.part[i].transient_reason);
        r->periodic = false;
        r->initial_water = 10.0;
        r->year_end_water[0] = 5.0;
        for (size_t k = 0; k < r->slab_count; k++)
            r->slab[k].first_highest_wood_moisture = 0.0;
    }
    ck_assert_int_eq(bw_climate_generate(&hours, &c.climate, NULL), BW_OK);
}

static void make(void)
{
    case_make_hygroscopic(&c);
    c.stud.sorption = c.material[0].sorption;
    c.stud.specific_heat = case_value(1600.0);
    c.stud.free_saturation = case_value(300.0);
    c.assembly.indoors.humidity_class = 2;
    c.material[CASE_FOIL].sd = case_value(5.0);
    c.material[CASE_INSULATION].hygroscopic = false;
    c.material[CASE_INSULATION].sorption.count = 0;
    c.material[CASE_SHEATHING].mu_dry = case_value(5.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(5.0);
}

static void finish(void)
{
    bw_climate_free(hours);
    bw_core_release(&base);
    bw_pool_close(&pool);
}

static bw_row *row_of(bw_criterion_id id, const char *section)
{
    for (size_t i = 0; i < base.rows.count; i++) {
        bw_row *row = &base.rows.row[i];
        if (row->id == id && strstr(row->row.section, section) != NULL)
            return row;
    }
    return NULL;
}

/* As if it failed by so many times its limit. */
static void fail_by(bw_criterion_id id, const char *section, double times)
{
    bw_row *row = row_of(id, section);
    ck_assert_ptr_nonnull(row);
    row->row.decides = true;
    row->row.outcome = row->row.verdict = BW_FAILS;
    row->row.value = (1.0 + times) * row->row.limit;
    row->row.margin = -times * row->row.limit;
}

static void make_fail(bw_criterion_id id, const char *section)
{
    fail_by(id, section, 1.0);
}

static void hold_all(void)
{
    for (size_t i = 0; i < base.rows.count; i++)
        base.rows.row[i].row.outcome = base.rows.row[i].row.verdict = BW_HOLDS;
}

/* The row on the first year, made of another one where no wood was wet. */
static void first_year(bw_verdict verdict)
{
    bw_row *row = row_of(BW_C_FIRST_YEAR, "");
    if (row == NULL)
        row = row_of(BW_C_TIMBER_LINE, "");
    ck_assert_ptr_nonnull(row);
    row->id = BW_C_FIRST_YEAR;
    row->row.decides = true;
    row->row.outcome = row->row.verdict = verdict;
}

static bw_tried tried(bool same_cells, int years)
{
    bw_meter meter;
    bw_tried out = {.used = true}; /* to be set */
    bw_simulated_trial trial = {.base = &base,
                                .hours = hours,
                                .changed = &changed,
                                .same_cells = same_cells,
                                .options = one_year,
                                .metered = {.meter = &meter},
                                .out = &out};
    trial.options.max_years = years;
    bw_meter_start(&meter, NULL, NULL, 1.0);
    ck_assert_int_eq(bw_try_simulated(&trial, NULL), BW_OK);
    bw_meter_end(&meter);
    return out;
}

/* ---- the state it begins with -------------------------------------------- */

/* "From where the wall as it is ended; or, where that had not settled or the
 * first year counts, from where it began." Of what is wet at its start the
 * panel's highest moisture tells which. */
static const struct begun {
    bool same_cells;     /* else no state fits */
    bool first_year_bad; /* then the first year counts */
    double end;          /* water at the year's end; at its start 10 kg/m2 */
    bool periodic;       /* settled */
    bool wet;            /* wood built in above its limit: likewise */
    bool goes_on;
} begun[] = {
    {true, false, 5.0, false, false, false},
    {true, false, 11.0, false, false, true}, /* grew wetter */
    {true, false, 10.0, false, false, true},
    {true, false, 5.0, true, false, true},
    {true, false, 5.0, true, true, false},
    {true, false, 11.0, true, true, true},
    {true, true, 11.0, true, false, false},
    {false, false, 11.0, true, false, false},
};

START_TEST(a_change_goes_on_from_where_the_wall_is_or_begins_anew)
{
    make();
    simulate(DAMP_AIR);
    hold_all();
    make_fail(BW_C_PANEL_MOISTURE, "whole");
    const bw_tried anew = tried(false, 1);
    ck_assert(anew.used);
    ck_assert_ptr_nonnull(anew.score.gains);
    ck_assert_int_eq(anew.score.gains->id, BW_C_PANEL_MOISTURE);
    /* what a wall built in wet gives */
    start_at(changed_layer, DAMP_AIR, WET_STUD);
    const bw_tried wet = tried(false, 1);
    start_at(changed_layer, DRY_AIR, DRY_STUD);
    ck_assert_double_gt(wet.score.value, anew.score.value + 0.5);
    bw_transient_result *r = &base.part[0].transient;
    bw_slab_moisture *panel = &r->slab[CASE_SHEATHING];
    ck_assert(panel->is_wood);
    for (size_t i = 0; i < COUNT(begun); i++) {
        const struct begun *row = &begun[i];
        r->year_end_water[0] = row->end;
        r->periodic = row->periodic;
        panel->first_highest_wood_moisture = row->wet ? panel->limit + 0.01
                                                      : panel->limit;
        first_year(row->first_year_bad ? BW_MARGINAL : BW_HOLDS);
        const bw_tried got = tried(row->same_cells, 1);
        const double expected = row->goes_on ? wet.score.value
                                             : anew.score.value;
        ck_assert_msg(got.used, "%zu", i);
        ck_assert_msg(fabs(got.score.value - expected) < 0.05,
                      "%zu: %g, not %g", i, got.score.value, expected);
    }
    finish();
}
END_TEST

/* Each section from its own: through the stud, of which the wood is wetter. */
START_TEST(each_section_goes_on_from_its_own_state)
{
    make();
    c.layer[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &c.stud, .fraction = 0.1};
    simulate(DAMP_AIR);
    ck_assert_uint_eq(base.assessment.section_count, 2);
    hold_all();
    fail_by(BW_C_WOOD_MOISTURE, "through-stud", 3.0);
    make_fail(BW_C_PANEL_MOISTURE, "through-stud");
    make_fail(BW_C_MOULD_HIDDEN, "through-stud");
    make_fail(BW_C_MOULD_HIDDEN, "between-studs");
    start_at(changed_layer, DAMP_AIR, WET_STUD);
    const bw_tried wet = tried(false, 1);
    start_at(changed_layer, DRY_AIR, DRY_STUD);
    const bw_tried dry = tried(false, 1);
    ck_assert(wet.used && dry.used);
    ck_assert_double_gt(wet.score.value, dry.score.value + 2.0);
    for (size_t i = 0; i < 2; i++)
        base.part[i].transient.year_end_water[0] = 11.0;
    const bw_tried got = tried(true, 1);
    ck_assert(got.used);
    ck_assert_double_eq_tol(got.score.value, wet.score.value, 0.05);
    ck_assert_double_eq_tol(got.score.worst_margin, wet.score.worst_margin,
                            0.01);
    finish();
}
END_TEST

/* ---- what is no result ----------------------------------------------------
 */

/* One that still grows wetter at its end has none, unless it began from a wall
 * that had grown wetter itself. A tight panel built in dry takes up water for
 * years. */
START_TEST(what_still_grows_wetter_has_no_end_unless_it_was_wetter)
{
    static const struct {
        bool same_cells, periodic;
        double end;
        bool used;
    } rows[] = {{false, false, 5.0, false},
                {true, true, 5.0, false},
                {true, false, 11.0, true}};
    make();
    c.material[CASE_SHEATHING].mu_dry = case_value(2000.0);
    c.material[CASE_SHEATHING].mu_wet = case_value(2000.0);
    simulate(DAMP_AIR);
    hold_all();
    make_fail(BW_C_PANEL_MOISTURE, "whole");
    make_fail(BW_C_MOULD_HIDDEN, "whole");
    make_fail(BW_C_SURFACE_MOULD, "whole");
    /* dry, too, where it goes on */
    bw_transient_result *r = &base.part[0].transient;
    double *now = r->state + 2 * r->cells * (size_t)r->first_month;
    start_at(changed_layer, 0.2, DRY_STUD);
    {
        bw_transient_result dry;
        bw_section section = *base.part[0].transient_section;
        ck_assert_int_eq(
            bw_transient(&dry, &changed, &section, hours, &one_year, NULL),
            BW_OK);
        ck_assert_uint_eq(dry.cells, r->cells);
        memcpy(now, dry.state + 2 * dry.cells * (size_t)dry.first_month,
               2 * r->cells * sizeof *now);
        bw_transient_free(&dry);
    }
    for (size_t i = 0; i < COUNT(rows); i++) {
        r->periodic = rows[i].periodic;
        r->year_end_water[0] = rows[i].end;
        const bw_tried got = tried(rows[i].same_cells, 2);
        ck_assert_msg(got.used == rows[i].used, "%zu", i);
    }
    finish();
}
END_TEST

/* What gains nothing is told of nobody. */
START_TEST(a_change_that_gains_nothing_is_not_used)
{
    make();
    simulate(DAMP_AIR);
    hold_all();
    const bw_tried got = tried(true, 1);
    ck_assert(!got.used);
    finish();
}
END_TEST

/* Nor what cannot be simulated: a layer of which no density is known. */
START_TEST(a_change_that_cannot_be_simulated_is_not_used)
{
    static bw_material unknown;
    make();
    simulate(DAMP_AIR);
    make_fail(BW_C_PANEL_MOISTURE, "whole");
    unknown = c.material[CASE_LINING];
    unknown.density.known = false;
    changed_layer[CASE_LINING].material = &unknown;
    const bw_tried got = tried(true, 1);
    ck_assert(!got.used);
    finish();
}
END_TEST

/* ---- the place of the wetting test ----------------------------------------
 */

/* "Of the places at risk the dampest through the year, those inside of the main
 * insulation left out": the inner face of the insulation itself is none of
 * these. */
START_TEST(the_dampest_place_up_to_the_insulation_s_inner_face_is_wetted)
{
    make();
    simulate(DAMP_AIR);
    bw_section_assessment *part = &base.part[0];
    bw_geography geography;
    bw_geography_find(&geography, &c.assembly, part->transient_section);
    ck_assert_uint_eq(geography.insulation, CASE_INSULATION);
    size_t insulation = 0, inside = 0;
    for (size_t dampest = 0; dampest + 1 < CASE_LAYERS; dampest++) {
        for (size_t k = 0; k < part->transient.monitor_count; k++)
            for (int m = 0; m < BW_MONTHS; m++)
                part->transient.monitor[k].month_rh[m] = k == dampest + 1 ? 0.9
                                                                          : 0.5;
        bw_wetting_free(&part->wetting_test.both); /* it begins anew */
        ck_assert_int_eq(bw_run_wetting(&pool, part, &c.assembly, hours,
                                        &one_year, false, NULL),
                         BW_OK);
        const size_t place = part->wetting_test.place.slab;
        bw_wetting_free(&part->wetting_test.both);
        ck_assert(bw_face_at_risk(&geography, part->transient_section, place));
        ck_assert_uint_le(place, CASE_INSULATION);
        if (!bw_face_at_risk(&geography, part->transient_section, dampest))
            continue;
        ck_assert_int_eq(place == dampest, dampest <= CASE_INSULATION);
        insulation += dampest == CASE_INSULATION;
        inside += dampest > CASE_INSULATION;
    }
    ck_assert_uint_eq(insulation, 1);
    ck_assert_uint_eq(inside, 1);
    finish();
}
END_TEST

/* By the mean of the twelve months: one very damp month is no damp year. */
START_TEST(the_dampest_place_is_that_of_the_year_s_mean)
{
    make();
    simulate(DAMP_AIR);
    bw_section_assessment *part = &base.part[0];
    for (int m = 0; m < BW_MONTHS; m++) {
        part->transient.monitor[CASE_SHEATHING + 1].month_rh[m] = m == 0 ? 1.0
                                                                         : 0.5;
        part->transient.monitor[CASE_INSULATION + 1].month_rh[m] = m == 11
                                                                       ? 0.5
                                                                       : 0.6;
    }
    bw_wetting_free(&part->wetting_test.both); /* it begins anew */
    ck_assert_int_eq(
        bw_run_wetting(&pool, part, &c.assembly, hours, &one_year, false, NULL),
        BW_OK);
    ck_assert_uint_eq(part->wetting_test.place.slab, CASE_INSULATION);
    bw_wetting_free(&part->wetting_test.both);
    finish();
}
END_TEST

/* ---- does advice mend the wall? -------------------------------------------
 */

/* A wall whose surface is marginal, which no layer mends: the first of thinner
 * and thinner insulation. */
static void thin_until_marginal(void)
{
    c.assembly.indoors = (bw_indoors){
        .kind = BW_INDOOR_RH, .temperature = 20.0, .relative_humidity = 0.40};
    for (double d = 0.02; d > 0.001; d *= 0.98) {
        c.layer[CASE_INSULATION].thickness = d;
        bw_assessment *a = case_steady(&c);
        const bw_verdict verdict = case_named(a, "surface-mould")->verdict;
        bw_assessment_free(a);
        if (verdict == BW_MARGINAL)
            return;
    }
    ck_abort_msg("no such thickness");
}

/* As if the panel's moisture were within a hundredth of its limit. */
static void nearly_fail(void)
{
    bw_row *row = row_of(BW_C_PANEL_MOISTURE, "whole");
    make_fail(BW_C_PANEL_MOISTURE, "whole");
    row->row.outcome = row->row.verdict = BW_MARGINAL;
    row->row.value = 0.99 * row->row.limit;
    row->row.margin = 0.01 * row->row.limit;
}

/* include/bothways/assessment.h: "advice_mends": after one of them nothing
 * fails, everything that decides is assessed, and, of a wall that is marginal,
 * nothing is marginal any more. */
static const struct mended {
    bool surface; /* is marginal and stays so */
    bw_verdict wall;
    bool mends;
} mended[] = {{false, BW_MARGINAL, true},
              {true, BW_MARGINAL, false},
              {true, BW_FAILS, true}};

START_TEST(a_marginal_wall_is_mended_where_nothing_is_marginal_any_more)
{
    const struct mended *row = &mended[_i];
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .transient = one_year};
    make();
    if (row->surface)
        thin_until_marginal();
    c.material[CASE_FOIL].mould_class = BW_MOULD_RESISTANT;
    c.material[CASE_LINING].mould_class = BW_MOULD_RESISTANT;
    simulate(0.86); /* dries within limits */
    const bw_verdict surface = row_of(BW_C_SURFACE_MOULD, "")->row.verdict;
    hold_all();
    row_of(BW_C_SURFACE_MOULD, "")->row.verdict = surface;
    ck_assert_int_eq(surface, row->surface ? BW_MARGINAL : BW_HOLDS);
    if (row->wall == BW_FAILS)
        make_fail(BW_C_PANEL_MOISTURE, "whole");
    else
        nearly_fail();
    bw_assessment *a = &base.assessment;
    a->verdict = row->wall;
    ck_assert_int_eq(bw_advise(&base, &options, NULL), BW_OK);
    ck_assert_uint_gt(a->advice_count, 0);
    bool mends = false;
    for (size_t i = 0; i < a->advice_count; i++) {
        const bw_advice *one = &a->advice[i];
        mends = mends ||
                (one->fails_after == 0 && one->not_assessed_after == 0 &&
                 (row->wall == BW_FAILS || one->marginal_after == 0));
    }
    ck_assert_int_eq(mends, row->mends); /* or nothing is shown */
    ck_assert_int_eq(a->advice_mends, mends);
    finish();
}
END_TEST

SUITE_AROUND(
    "trial", setup, teardown,
    FACT(a_change_goes_on_from_where_the_wall_is_or_begins_anew),
    FACT(each_section_goes_on_from_its_own_state),
    FACT(what_still_grows_wetter_has_no_end_unless_it_was_wetter),
    FACT(a_change_that_gains_nothing_is_not_used),
    FACT(a_change_that_cannot_be_simulated_is_not_used),
    FACT(the_dampest_place_up_to_the_insulation_s_inner_face_is_wetted),
    FACT(the_dampest_place_is_that_of_the_year_s_mean),
    EACH(a_marginal_wall_is_mended_where_nothing_is_marginal_any_more,
         COUNT(mended)))
