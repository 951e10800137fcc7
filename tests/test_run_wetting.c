/* The wetting test of a section: what is put where and when, and that each way
 * alone is closed on its other side. A board of wood between two sheets, of
 * which one is as good as tight: what was put into it leaves by the other, by
 * no rule but that vapour passes a sheet of sd 0.1 m and none of 1500 m. */

#include <math.h>

#include "base/pool.h"
#include "criteria/run.h"
#include "suite.h"
#include "transient/when.h"
#include "transient_run.h"

enum { OUTER, BOARD, INNER };

static transient_case *c;
static bw_pool pool;
static bw_section_assessment part;

static void make(double outer_sd, double inner_sd)
{
    c = steady_new(20, 0.5, 20, 0.5);
    add_foil(c, outer_sd);
    add_board(c, 0.02, 20);
    c->material[BOARD].wood_kind = BW_SOLID_WOOD;
    add_foil(c, inner_sd);
    c->assembly.drying_test = (bw_drying_test){
        .wetting = 0.3, .after_layer = OUTER, .start_month = 3};
    const bw_transient_options once = {.max_years = 1};
    part = (bw_section_assessment){.transient_section = &c->section};
    part.transient = run(c, &once);
    bw_pool_open(&pool, 1);
}

static void end(void)
{
    bw_wetting_free(&part.wetting_test.both);
    bw_wetting_free(&part.wetting_test.outwards);
    bw_wetting_free(&part.wetting_test.inwards);
    bw_transient_free(&part.transient);
    bw_pool_close(&pool);
    free(c);
}

static const bw_section_wetting *wetted(bool one_way)
{
    const bw_transient_options options = {0};
    bw_error err = {0};
    const bw_status status = bw_run_wetting(
        &pool, &part, &c->assembly, &c->climate, &options, one_way, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return &part.wetting_test;
}

START_TEST(each_way_alone_is_closed_on_its_other_side)
{
    for (int side = 0; side < 2; side++) {
        const bool outwards = side == 0;
        make(outwards ? 0.1 : 1500, outwards ? 1500 : 0.1);
        const bw_section_wetting *w = wetted(true);
        ck_assert(w->ran && w->one_way && !w->nothing_at_risk);
        const bw_wetting_result *open = outwards ? &w->outwards : &w->inwards;
        const bw_wetting_result *shut = outwards ? &w->inwards : &w->outwards;
        ck_assert_double_gt(w->both.months, 0);
        ck_assert_double_gt(open->months, 0);
        ck_assert_double_eq(shut->months, -1);
        ck_assert_double_eq_tol(shut->left, 0.3, 0.01);
        ck_assert_double_eq_tol(
            outwards ? open->left_inwards : open->left_outwards, 0, 1e-6);
        /* one year tells enough of a way that decides nothing */
        ck_assert_uint_eq(shut->day_count, 365);
        end();
    }
}
END_TEST

START_TEST(without_ways_alone_both_are_run)
{
    make(0.1, 1500);
    const bw_section_wetting *w = wetted(false);
    ck_assert(w->ran && !w->one_way && !w->place_alone);
    ck_assert_uint_gt(w->both.day_count, 0);
    ck_assert_ptr_null(w->outwards.excess);
    ck_assert_ptr_null(w->inwards.excess);
    end();
}
END_TEST

/* Through a stud the place alone is judged, and no way alone is run. */
START_TEST(through_a_stud_the_place_alone_counts)
{
    make(0.1, 1500);
    c->section.through_stud = true;
    const bw_section_wetting *w = wetted(true);
    ck_assert(w->ran && w->place_alone && !w->one_way);
    ck_assert_ptr_null(w->outwards.excess);
    end();
}
END_TEST

/* 1.0 kg/m2 unless given, at the start of the colder half of the year. */
START_TEST(what_is_put_is_as_stated_or_a_kilogram_in_autumn)
{
    static const struct {
        double stated, water;
        int month;
    } rows[] = {{0.3, 0.3, 3}, {0.2, 0.2, 0}, {0.0, 1.0, -1}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        make(0.1, 0.1);
        c->assembly.drying_test.wetting = rows[i].stated;
        c->assembly.drying_test.start_month = rows[i].month;
        const bw_section_wetting *w = wetted(false);
        ck_assert(w->ran);
        ck_assert_double_eq(w->water, rows[i].water);
        ck_assert_int_eq(w->month, rows[i].month >= 0
                                       ? rows[i].month
                                       : bw_start_month(&c->climate));
        ck_assert_double_le(w->both.excess[0], rows[i].water);
        ck_assert_double_gt(w->both.excess[0], 0.5 * rows[i].water);
        end();
    }
}
END_TEST

/* At the inner face of the layer named; else of the places at risk that is
 * dampest. */
START_TEST(the_place_is_the_one_named_or_the_dampest)
{
    static const struct {
        long named;
        double outer, inner; /* RH at the board's faces, by hand */
        size_t slab;
    } rows[] = {{OUTER, 0.5, 0.6, OUTER},
                {BOARD, 0.6, 0.5, BOARD},
                {-1, 0.5, 0.6, BOARD},
                {-1, 0.6, 0.5, OUTER}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        make(0.1, 0.1);
        c->assembly.drying_test.after_layer = rows[i].named;
        for (int m = 0; m < BW_MONTHS; m++) {
            part.transient.monitor[OUTER + 1].month_rh[m] = rows[i].outer;
            part.transient.monitor[BOARD + 1].month_rh[m] = rows[i].inner;
        }
        const bw_section_wetting *w = wetted(false);
        ck_assert_uint_eq(w->place.slab, rows[i].slab);
        ck_assert_double_eq(w->place.depth, c->slab[rows[i].slab].thickness);
        ck_assert(w->place.layer_face);
        end();
    }
}
END_TEST

/* Into wood where wood is, on either side of the face: 3 kg/m2 find room in 20
 * mm of it, in 1 mm of board they find none. */
START_TEST(water_goes_into_the_wood_beside_the_face)
{
    static const bool finds_room[] = {true, true, false};
    for (size_t named = 0; named < COUNT(finds_room); named++) {
        c = steady_new(20, 0.5, 20, 0.5);
        add_board(c, 0.001, 20);
        add_board(c, 0.02, 20);
        add_board(c, 0.001, 20);
        c->material[1].wood_kind = BW_SOLID_WOOD;
        c->assembly.drying_test = (bw_drying_test){
            .wetting = 3.0, .after_layer = (long)named, .start_month = 3};
        const bw_transient_options once = {.max_years = 1};
        const bw_transient_options options = {0};
        part = (bw_section_assessment){.transient_section = &c->section};
        part.transient = run(c, &once);
        bw_pool_open(&pool, 1);
        const bw_status status = bw_run_wetting(
            &pool, &part, &c->assembly, &c->climate, &options, false, NULL);
        ck_assert_int_eq(status == BW_OK, finds_room[named]);
        ck_assert_int_eq(part.wetting_test.ran, finds_room[named]);
        end();
    }
}
END_TEST

START_TEST(where_no_water_does_harm_none_is_put)
{
    make(0.1, 0.1);
    c->material[BOARD].wood_kind = BW_NOT_WOOD;
    c->material[BOARD].mould_class = BW_MOULD_RESISTANT;
    c->material[BOARD].group = "masonry";
    c->assembly.drying_test.after_layer = -1;
    const bw_section_wetting *w = wetted(true);
    ck_assert(!w->ran && w->nothing_at_risk);
    ck_assert_str_ne(w->reason, "");
    end();
}
END_TEST

SUITE("run_wetting", FACT(each_way_alone_is_closed_on_its_other_side),
      FACT(without_ways_alone_both_are_run),
      FACT(through_a_stud_the_place_alone_counts),
      FACT(what_is_put_is_as_stated_or_a_kilogram_in_autumn),
      FACT(the_place_is_the_one_named_or_the_dampest),
      FACT(water_goes_into_the_wood_beside_the_face),
      FACT(where_no_water_does_harm_none_is_put))
