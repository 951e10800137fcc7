/* What a run starts from: a state, water put at a place, moisture as given. */

#include <stdio.h>

#include "suite.h"
#include "transient_run.h"

static void refused(const transient_case *c,
                    const bw_transient_options *options, const char *text)
{
    bw_transient_result r;
    bw_error err = {0};
    ck_assert_int_eq(
        bw_transient(&r, &c->assembly, &c->section, &c->climate, options, &err),
        BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message, text) != NULL, "%s", err.message);
}

/* ---- states ---- */

enum { APRIL = 3, OCTOBER = 9, SIX_MONTHS = 183 * 24 };

/* What differs is the length of the first steps. */
START_TEST(a_run_goes_on_from_the_state_of_another)
{
    transient_case *c = case_new();
    const bw_transient_options whole = {.max_years = 1, .keep_hours = true};
    bw_transient_result a = run(c, &whole);
    const size_t n = a.monitor_count, skip = 182 * 24;
    const bw_transient_options rest = {
        .max_years = 1,
        .keep_hours = true,
        .start_month = APRIL,
        .start_month_given = true,
        .state = a.state + 2 * a.cells * APRIL,
        .state_cells = a.cells,
    };
    bw_transient_result b = run(c, &rest);
    ck_assert_double_eq(b.initial_water, a.hour_total_water[skip - 1]);
    for (size_t h = 0; h < SIX_MONTHS; h++) {
        for (size_t k = 1; k < n; k++) {
            const bw_hour_row *x = &a.hour[(h + skip) * n + k];
            const bw_hour_row *y = &b.hour[h * n + k];
            ck_assert_double_eq_tol(x->theta, y->theta, 0.1);
            ck_assert_double_eq_tol(x->phi, y->phi, 0.005);
        }
        ck_assert_double_eq_tol(a.hour_total_water[h + skip],
                                b.hour_total_water[h], 0.002);
    }
    /* the state of October is what the year began with, not 80 % again */
    const bw_transient_options again = {
        .max_years = 1,
        .state = b.state + 2 * b.cells * OCTOBER,
        .state_cells = b.cells,
    };
    bw_transient_result d = run(c, &again);
    ck_assert_double_eq(d.initial_water, b.hour_total_water[SIX_MONTHS - 1]);
    for (size_t k = 0; k < d.note_count; k++)
        ck_assert_ptr_null(strstr(d.note[k], "80 %"));
    bw_transient_free(&a);
    bw_transient_free(&b);
    bw_transient_free(&d);
    free(c);
}
END_TEST

START_TEST(a_state_of_another_wall_is_refused)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.02, 10);
    const double state[4] = {0};
    const bw_transient_options options = {.state = state, .state_cells = 2};
    refused(c, &options, "of a wall of 2 cells");
    free(c);
}
END_TEST

/* ---- water ---- */

/* Board, foil, board, foam, air between foils, board. */
static transient_case *layered(void)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.01, 10);
    add_foil(c, 1500);
    add_board(c, 0.01, 10);
    case_material(c, 3, "foam", 30, 0.04, 1400, 50, 50);
    case_slab(c, BW_LAYER_SOLID, 0.05);
    case_material(c, 4, "air", 1.2, 0.28, 1000, 1, 1);
    case_slab(c, BW_LAYER_CAVITY, 0.02);
    add_board(c, 0.01, 10);
    return c;
}

/* A board of 10 mm has pores of 1 - 600/2650 of it, 0.9 of which fill up by
 * themselves, and holds 60 kg/m3 at the start. */
START_TEST(water_goes_where_it_is_put)
{
    const double room = 0.01 * (900 * (1 - 600 / 2650.0) - 60);
    const struct {
        bw_water_put put;
        size_t slab[2];
        double part[2];
    } row[] = {
        {{1, 0, true}, {0}, {1}},
        {{1, 0, false}, {0}, {1}},
        {{1, 2, false}, {2}, {1}},
        {{1, 1, true}, {0}, {1}}, /* a film has it beside it */
        {{1, 1, false}, {2}, {1}},
        {{1, 3, true}, {3}, {1}},
        {{1, 4, false}, {4}, {1}},
        {{room + 1, 2, false}, {2, 3}, {room, 1}}, /* full: the neighbour */
        {{room + 1, 5, true}, {5, 4}, {room, 1}},
    };
    transient_case *c = layered();
    const bw_transient_options dry = {.max_years = 1};
    bw_transient_result base = run(c, &dry);
    for (size_t k = 0; k < COUNT(row); k++) {
        const bw_transient_options options = {.max_years = 1,
                                              .put = row[k].put};
        bw_transient_result r = run(c, &options);
        const double put = row[k].put.water;
        ck_assert_double_eq_tol(r.initial_water - base.initial_water, put,
                                1e-9 * put);
        for (size_t i = 0; i < 2 && row[k].part[i] > 0; i++) {
            const size_t slab = row[k].slab[i];
            ck_assert_double_eq_tol(r.slab[slab].initial -
                                        base.slab[slab].initial,
                                    row[k].part[i], 0.001 * put);
        }
        ck_assert_double_lt(r.water_balance_error, 1e-9);
        bw_transient_free(&r);
    }
    bw_transient_free(&base);
    free(c);
}
END_TEST

START_TEST(water_that_finds_no_room_is_refused)
{
    static const struct {
        bw_transient_options options;
        const char *text;
    } row[] = {
        {{.put = {7, 0, false}}, "there is room for"}, /* the foil bars it */
        {{.put = {200, 3, true}}, "there is room for"},
        {{.put = {1, 9, true}}, "slab 9"},
        {{.put = {1, 6, true}}, "the section has 6"}, /* the next one */
        {{.put = {-1, 0, true}}, "must not be negative"},
        {{.put = {NAN, 0, true}}, "must not be negative"},
        {{.put = {INFINITY, 0, true}}, "must not be negative"},
        {{.closed = BW_CLOSED_INSIDE}, "only beside water"},
    };
    transient_case *c = layered();
    for (size_t k = 0; k < COUNT(row); k++)
        refused(c, &row[k].options, row[k].text);
    free(c);
    /* a foil on the face: nothing lies outside of it */
    c = steady_new(10, 0.8, 20, 0.5);
    add_foil(c, 1500);
    add_board(c, 0.01, 10);
    const bw_transient_options outside = {.put = {1, 0, true}};
    refused(c, &outside, "room for 0 kg/m2");
    free(c);
}
END_TEST

/* ---- when ---- */

/* Before a winter (guideline WTA 6-2, from memory, medium), wherever that is;
 * where the halves of the year are alike it matters not. */
START_TEST(a_run_begins_before_the_colder_half_of_the_year)
{
    static const struct {
        double april_to_september;
        int month;
    } cases[] = {
        {20, OCTOBER}, {10, OCTOBER}, {9.6, OCTOBER}, {9.4, APRIL}, {0, APRIL}};
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.02, 10);
    const bw_transient_options one = {.max_years = 1};
    for (size_t i = 0; i < COUNT(cases); i++) {
        for (int m = 0; m < BW_MONTHS; m++)
            c->climate.month[m].temperature = m >= APRIL && m < OCTOBER
                                                  ? cases[i].april_to_september
                                                  : 10.0;
        bw_transient_result r = run(c, &one);
        ck_assert_int_eq(r.first_month, cases[i].month);
        bw_transient_free(&r);
    }
    free(c);
}
END_TEST

SUITE("transient_start", FACT(a_run_begins_before_the_colder_half_of_the_year),
      FACT(a_run_goes_on_from_the_state_of_another),
      FACT(a_state_of_another_wall_is_refused),
      FACT(water_goes_where_it_is_put),
      FACT(water_that_finds_no_room_is_refused))
