/* Margin: settings of an unknown, how they are drawn and which ends they have;
 * and the sd map beside the period balance. */

#include <math.h>
#include <stdlib.h>

#include "bothways/geography.h"
#include "criteria_case.h"
#include "margin/steps.h"
#include "suite.h"

static criteria_case c;

static void setup(void)
{
    case_make(&c);
}

static void teardown(void)
{
    case_free(&c);
}

/* ---- settings -------------------------------------------------------------
 */

static const double out_of_reach = -99.0; /* not set */

static const struct drawn {
    bw_source source;
    double at, value;
} draws[] = {
    /* not seen: as drawn */
    {{.shown = {.continuous = true, .low = 1, .high = 3}}, 0.5, -99.0},
    {{.shown = {.seen = true, .continuous = true, .low = 1, .high = 3}}, 0, 1},
    {{.shown = {.seen = true, .continuous = true, .low = 1, .high = 3}},
     0.25,
     1.5},
    {{.shown = {.seen = true, .continuous = true, .low = 1, .high = 3}}, 1, 3},
    {{.shown = {.seen = true,
                .continuous = true,
                .geometric = true,
                .low = 1,
                .high = 100}},
     0.25,
     3.1622776601683795},
    /* one other setting: half and half */
    {{.shown = {.seen = true, .high = 1}}, 0.49, -99.0},
    {{.shown = {.seen = true, .high = 1}}, 0.51, 1},
    /* two: thirds */
    {{.shown = {.seen = true, .two_ended = true, .low = 5, .high = 7}},
     0.33,
     -99.0},
    {{.shown = {.seen = true, .two_ended = true, .low = 5, .high = 7}},
     0.34,
     7},
    {{.shown = {.seen = true, .two_ended = true, .low = 5, .high = 7}},
     0.66,
     7},
    {{.shown = {.seen = true, .two_ended = true, .low = 5, .high = 7}},
     0.67,
     5},
};

START_TEST(a_setting_is_drawn_evenly)
{
    const bw_setting got = bw_setting_draw(&draws[_i].source, draws[_i].at);
    ck_assert_int_eq(got.set, draws[_i].value > out_of_reach);
    if (got.set)
        ck_assert_double_eq_tol(got.value, draws[_i].value, 1e-12);
}
END_TEST

/* Of three alternatives of a layer, at one place, none or one is switched on,
 * each over a quarter. */
START_TEST(alternatives_of_a_layer_share_a_place)
{
    for (size_t step = 0; step < 40; step++) {
        const double at = ((double)step + 0.5) / 40;
        for (size_t group = 0; group < 3; group++) {
            const bw_source one = {.high = {.kind = BW_CHANGE_MATERIAL},
                                   .group = group,
                                   .groups = 3,
                                   .shown = {.seen = true, .high = 1}};
            const bw_setting got = bw_setting_draw(&one, at);
            ck_assert_int_eq(got.set, step / 10 == group + 1);
        }
    }
}
END_TEST

START_TEST(the_ends_of_an_unknown_are_those_not_as_drawn)
{
    static const struct {
        bw_unknown shown;
        size_t count;
        double end[2];
    } rows[] = {
        {{.high = 1}, 1, {1, 0}},
        {{.two_ended = true, .as_drawn = NAN, .low = 5, .high = 7}, 2, {5, 7}},
        {{.continuous = true, .as_drawn = 6, .low = 5, .high = 7}, 2, {5, 7}},
        {{.continuous = true, .as_drawn = 5, .low = 5, .high = 7}, 1, {7, 0}},
        {{.continuous = true, .as_drawn = 7, .low = 5, .high = 7}, 1, {5, 0}},
        {{.continuous = true, .as_drawn = 5.001, .low = 5, .high = 7},
         2,
         {5, 7}},
        {{.two_ended = true, .as_drawn = 7, .low = 5, .high = 7}, 1, {5, 0}},
    };
    for (size_t k = 0; k < COUNT(rows); k++) {
        const bw_source source = {.shown = rows[k].shown};
        bw_setting end[2];
        ck_assert_uint_eq(bw_source_ends(&source, end), rows[k].count);
        for (size_t i = 0; i < rows[k].count; i++) {
            ck_assert(end[i].set);
            ck_assert_double_eq(end[i].value, rows[k].end[i]);
        }
    }
}
END_TEST

/* Which of two a number is: the nearer one. */
START_TEST(a_setting_is_the_end_it_is_nearer_to)
{
    const bw_unknown u = {.low = 20, .high = 50};
    ck_assert(!bw_setting_is_high(&u, 20) && !bw_setting_is_high(&u, 34));
    ck_assert(bw_setting_is_high(&u, 36) && bw_setting_is_high(&u, 50));
}
END_TEST

START_TEST(a_scale_goes_from_end_to_end_evenly_or_by_logarithm)
{
    static const struct {
        bool geometric;
        double low, high, share, value;
    } rows[] = {{false, 2, 10, 0.25, 4},    {false, -1, 1, 0.5, 0},
                {true, 1, 10000, 0.25, 10}, {true, 5, 20, 0.5, 10},
                {false, 2, 10, 0, 2},       {false, 2, 10, 1, 10},
                {true, 5, 20, 0, 5},        {true, 5, 20, 1, 20}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        ck_assert_double_eq_tol(bw_scale_value(rows[k].geometric, rows[k].low,
                                               rows[k].high, rows[k].share),
                                rows[k].value, 1e-9);
        ck_assert_double_eq_tol(bw_scale_share(rows[k].geometric, rows[k].low,
                                               rows[k].high, rows[k].value),
                                rows[k].share, 1e-12);
        ck_assert_double_eq(
            bw_scale_value(rows[k].geometric, rows[k].low, rows[k].high, 1.5),
            rows[k].high);
        ck_assert_double_eq(
            bw_scale_value(rows[k].geometric, rows[k].low, rows[k].high, -0.5),
            rows[k].low);
    }
}
END_TEST

/* ---- the sd map -----------------------------------------------------------
 */

/* The figures of the map, typed here a second time (a choice of this project).
 */
static const double inner_sd[8] = {0.2, 0.5, 1, 2, 5, 10, 30, 100};
static const double outer_sd[8] = {0.05, 0.1, 0.3, 0.5, 1, 2, 4, 10};

static void check_map(const bw_section *like, size_t outer, size_t inner)
{
    bw_margin out = {.inner_count = 0};
    bw_study study = {.assembly = &c.assembly, .arena = &c.arena};
    ck_assert_int_eq(bw_map_make(&out, &study, &c.section, NULL), BW_OK);
    ck_assert_uint_eq(out.inner_count, 8);
    ck_assert_uint_eq(out.outer_count, 8);
    const bw_period_climate climate = bw_period_climate_din4108(
        c.assembly.element);
    bw_slab slab[CASE_LAYERS + 2];
    bw_section section = *like;
    memcpy(slab, like->slab, like->slab_count * sizeof *slab);
    section.slab = slab;
    for (size_t o = 0; o < 8; o++)
        for (size_t i = 0; i < 8; i++) {
            slab[outer].sd_dry = slab[outer].sd_wet = outer_sd[o];
            slab[inner].sd_dry = slab[inner].sd_wet = inner_sd[i];
            slab[outer].sd_curve = slab[inner].sd_curve = NULL;
            bw_geography g;
            bw_geography_find(&g, &c.assembly, &section);
            const bw_plane_at place = {g.insulation - 1,
                                       slab[g.insulation - 1].thickness, true};
            bw_period_result r;
            ck_assert_int_eq(bw_period_balance_at(&r, &section, &climate,
                                                  BW_MU_LOCAL, &place, 1, NULL),
                             BW_OK);
            const bw_sd_cell *cell = &out.map[8 * o + i];
            ck_assert_double_eq(out.outer_sd[o], outer_sd[o]);
            ck_assert_double_eq(out.inner_sd[i], inner_sd[i]);
            ck_assert_double_eq(cell->condensed, r.condensed);
            ck_assert_double_eq(cell->evaporable, r.evaporable);
            ck_assert_double_eq(cell->reserve, r.reserve);
        }
}

START_TEST(each_cell_is_the_period_balance_of_the_wall_with_its_sds)
{
    check_map(&c.section, CASE_SHEATHING, CASE_FOIL);
}
END_TEST

/* Where a side has no layer of its own a film is put beside the insulation. */
START_TEST(a_film_stands_beside_the_insulation_where_there_is_none)
{
    bw_slab slab[CASE_LAYERS + 2];
    const bw_slab film = {.label = "film", .kind = BW_LAYER_MEMBRANE};
    bw_section like = c.section;
    like.slab = slab;
    /* no membrane inside */
    slab[0] = c.slab[CASE_SHEATHING];
    slab[1] = c.slab[CASE_INSULATION];
    slab[2] = film;
    slab[3] = c.slab[CASE_LINING];
    c.slab[2] = c.slab[CASE_LINING];
    c.section.slab_count = 3;
    like.slab_count = 4;
    check_map(&like, 0, 2);
    /* nor anything outside */
    slab[0] = film;
    c.slab[0] = slab[1];
    c.slab[1] = slab[3];
    c.section.slab_count = 2;
    check_map(&like, 0, 2);
}
END_TEST

/* By logarithm: 0.387 and 1.414 are half way. */
START_TEST(a_wall_lies_in_the_nearest_cell_of_the_map)
{
    static const struct {
        double outer, inner;
        size_t at_outer, at_inner;
    } rows[] = {{0.07, 0.31, 0, 0},  {0.072, 0.32, 1, 1}, {0.387, 1.41, 2, 2},
                {0.388, 1.42, 3, 3}, {7, 60, 7, 7},       {1e4, 1e4, 7, 7},
                {0.001, 0.001, 0, 0}};
    for (size_t k = 0; k < COUNT(rows); k++) {
        bw_margin out = {.inner_count = 0};
        bw_study study = {.assembly = &c.assembly, .arena = &c.arena};
        c.slab[CASE_SHEATHING].sd_dry = rows[k].outer;
        c.slab[CASE_FOIL].sd_dry = rows[k].inner;
        ck_assert_int_eq(bw_map_make(&out, &study, &c.section, NULL), BW_OK);
        ck_assert_double_eq(out.own_outer_sd, rows[k].outer);
        ck_assert_double_eq(out.own_inner_sd, rows[k].inner);
        ck_assert_uint_eq(out.own_outer, rows[k].at_outer);
        ck_assert_uint_eq(out.own_inner, rows[k].at_inner);
        ck_assert_str_eq(out.map_outer, "panel");
        ck_assert_str_eq(out.map_inner, "foil");
    }
}
END_TEST

SUITE_AROUND("margin_settings", setup, teardown,
             EACH(a_setting_is_drawn_evenly, COUNT(draws)),
             FACT(alternatives_of_a_layer_share_a_place),
             FACT(the_ends_of_an_unknown_are_those_not_as_drawn),
             FACT(a_setting_is_the_end_it_is_nearer_to),
             FACT(a_scale_goes_from_end_to_end_evenly_or_by_logarithm),
             FACT(each_cell_is_the_period_balance_of_the_wall_with_its_sds),
             FACT(a_film_stands_beside_the_insulation_where_there_is_none),
             FACT(a_wall_lies_in_the_nearest_cell_of_the_map))
