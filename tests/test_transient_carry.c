/* Years carried forward, beside the same years simulated one by one. */

#include "suite.h"
#include "transient_case.h"

static bw_transient_result run(const transient_case *c, int years, bool carry)
{
    const bw_transient_options o = {.max_years = years, .carry_years = carry};
    bw_transient_result r;
    bw_error err = {0};
    const bw_status status = bw_transient(&r, &c->assembly, &c->section,
                                          &c->climate, &o, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return r;
}

/* A board of wood that dries, or takes up water, for years. */
static transient_case *slow_board(double thickness, double start)
{
    transient_case *c = steady_new(15, 0.85, 15, 0.85);
    add_board(c, thickness, 60);
    c->material[0].wood_kind = BW_SOLID_WOOD;
    c->layer[0].has_initial_moisture = c->layer[0].initial_is_rh = true;
    c->layer[0].initial_moisture = start;
    return c;
}

/* From wet and from dry; of the thin one the years repeat before ten of them
 * are over, of the thick one about then. */
static const struct {
    double thickness, start;
    bool repeats;
} board[] = {{0.08, 0.97, true},
             {0.08, 0.30, true},
             {0.12, 0.97, false},
             {0.12, 0.30, false}};
enum { BOARDS = COUNT(board) };

START_TEST(carried_years_end_where_simulated_ones_do)
{
    const size_t k = (size_t)_i;
    transient_case *c = slow_board(board[k].thickness, board[k].start);
    bw_transient_result all = run(c, 10, false);
    bw_transient_result few = run(c, 10, true);
    ck_assert_int_eq(all.carried_years, 0);
    ck_assert_int_gt(few.carried_years, 1);
    ck_assert_int_lt(few.years - few.carried_years, all.years);
    ck_assert_int_eq(all.periodic, board[k].repeats);
    ck_assert(few.periodic || !all.periodic);
    const double end = all.year_end_water[all.years - 1];
    /* as far as a year may be off that repeats */
    ck_assert_double_eq_tol(few.year_end_water[few.years - 1], end,
                            (board[k].repeats ? 0.002 : 0.008) * end);
    for (int n = 0; n < few.years && n < all.years; n++)
        ck_assert_double_eq_tol(few.year_end_water[n], all.year_end_water[n],
                                0.01 * end);
    ck_assert_double_eq_tol(few.yearly_change, all.yearly_change, 0.003 * end);
    ck_assert_double_lt(few.water_balance_error, 1e-9);
    bw_transient_free(&all);
    bw_transient_free(&few);
    free(c);
}
END_TEST

/* What a year that nobody saw may have done is not left out: mould at the wet
 * start goes on, and wood above its limit stays above it until it is seen to
 * be below. */
START_TEST(carried_years_promise_no_less_mould_and_no_sooner_drying)
{
    for (size_t k = 0; k < BOARDS; k += 2) {
        transient_case *c = slow_board(board[k].thickness, board[k].start);
        bw_transient_result all = run(c, 10, false);
        bw_transient_result few = run(c, 10, true);
        bool grew = false;
        for (size_t i = 0; i < all.monitor_count; i++) {
            ck_assert_double_ge(few.monitor[i].highest_mould,
                                all.monitor[i].highest_mould - 0.01);
            grew = grew || all.monitor[i].highest_mould > 1;
        }
        ck_assert(grew);
        const double weeks = all.slab[0].weeks_to_limit;
        ck_assert_double_ne(weeks, 0);
        if (weeks > 0 && few.slab[0].weeks_to_limit > 0)
            ck_assert_double_ge(few.slab[0].weeks_to_limit, weeks - 0.5);
        else
            ck_assert_double_le(few.slab[0].weeks_to_limit, 0);
        bw_transient_free(&all);
        bw_transient_free(&few);
        free(c);
    }
}
END_TEST

/* Three years are none too many to tell how the rest will go. */
START_TEST(three_years_are_always_simulated)
{
    transient_case *c = slow_board(0.3, 0.97);
    for (int years = 1; years <= 4; years++) {
        bw_transient_result r = run(c, years, true);
        ck_assert_int_eq(r.years, years);
        ck_assert_int_eq(r.carried_years, 0);
        bw_transient_free(&r);
    }
    free(c);
}
END_TEST

/* Hours without rain taken as one, three at a time as advice does it: every
 * hour is still counted at every place, and what is seen there hardly differs.
 */
START_TEST(hours_taken_as_one_are_all_seen)
{
    transient_case *c = case_new();
    bw_transient_result r[2];
    for (int k = 0; k < 2; k++) {
        const bw_transient_options o = {.max_years = 1,
                                        .temperature_tolerance = 0.04,
                                        .humidity_tolerance = 0.002,
                                        .hours_as_one = k == 0 ? 1 : 3};
        ck_assert_int_eq(bw_transient(&r[k], &c->assembly, &c->section,
                                      &c->climate, &o, NULL),
                         BW_OK);
    }
    double most = 0, humid = 0;
    for (size_t i = 0; i < r[0].monitor_count; i++) {
        const bw_monitor *a = &r[0].monitor[i], *b = &r[1].monitor[i];
        ck_assert_double_eq_tol(a->highest_mould, b->highest_mould, 0.10);
        ck_assert_double_eq_tol(a->last_year.above_80, b->last_year.above_80,
                                120);
        for (int m = 0; m < BW_MONTHS; m++)
            ck_assert_double_eq_tol(a->month_rh[m], b->month_rh[m], 0.01);
        most = fmax(most, b->highest_mould);
        humid = fmax(humid, b->last_year.above_80);
        ck_assert_double_gt(
            (double)r[1].last_hours[8759 * r[1].monitor_count + i].phi, 0);
    }
    ck_assert_double_gt(most, 0.3);
    ck_assert_double_gt(humid, 2000);
    ck_assert_double_eq_tol(r[0].year_end_water[0], r[1].year_end_water[0],
                            0.005 * r[0].year_end_water[0]);
    ck_assert_double_lt(r[1].water_balance_error, 1e-6);
    ck_assert_uint_lt(r[1].steps, r[0].steps);
    for (int k = 0; k < 2; k++)
        bw_transient_free(&r[k]);
    free(c);
}
END_TEST

SUITE("transient_carry",
      EACH(carried_years_end_where_simulated_ones_do, BOARDS),
      FACT(carried_years_promise_no_less_mould_and_no_sooner_drying),
      FACT(three_years_are_always_simulated),
      FACT(hours_taken_as_one_are_all_seen))
