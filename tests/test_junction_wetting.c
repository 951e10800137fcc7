/* The wetting test of a drawing: how fast water on a face dries, against the
 * standard's formula by hand (junction_plane.h); which faces are wetted. */

#include "junction_plane.h"
#include "suite.h"

/* ---- how it dries ---------------------------------------------------------
 */

/* Months from October on, three before January, until 1 kg/m2 has gone;
 * climates that stand still. */
static double months_for(double rate)
{
    double left = 1.0;
    for (int k = 0; k < 120; k++) {
        const double by = rate * bw_month_seconds((9 + k) % BW_MONTHS);
        if (by >= left)
            return k + left / by;
        left -= by;
    }
    return HUGE_VAL;
}

static double left_after_ten_years(double rate)
{
    return 1.0 - rate * 10.0 * 365.0 * 86400.0;
}

static void check_drying(const bw_water_drying *d, double rate)
{
    const double months = months_for(rate);
    ck_assert_int_eq(d->dried, isfinite(months));
    ck_assert_int_eq(d->place_dried, isfinite(months));
    if (d->dried) {
        ck_assert_double_eq_tol(d->months, months, 1e-5);
        ck_assert_double_eq_tol(d->place_months, months, 1e-5);
    } else {
        ck_assert_double_eq_tol(d->left, left_after_ten_years(rate), 1e-6);
    }
}

static void stand_still(double p_e, double p_i)
{
    for (int m = 0; m < BW_MONTHS; m++)
        put_month(m, 8.0, p_e, p_i);
}

START_TEST(wetting_dries_both_ways_and_one_way_at_rates_by_hand)
{
    for (w.way = 0; w.way < WAYS; w.way++) {
        const int way = w.way;
        start();
        w.way = way;
        any_layers();
        w.stuff[_i % 2].wood_kind = BW_SOLID_WOOD;
        if (_i >= 2) /* one way takes more than ten years */
            w.sd[_i - 2] = 80.0;
        draw(0.0);
        stand_still(500, 700);
        find_water(true);
        const bw_water_wetting *wet = &w.out.wetting;
        ck_assert_msg(wet->ran, "%s", wet->reason);
        const double y = w.thick[0];
        check_drying(&wet->both, -to_face(y, w.sd[0], w.sd[1], 0));
        check_drying(&wet->outwards, -to_face(y, w.sd[0], 0.0, 0));
        check_drying(&wet->inwards, -to_face(y, 0.0, w.sd[1], 0));
        ck_assert_double_eq(wet->water, 1.0);
        ck_assert_int_eq(wet->month, 9);
        ck_assert(!wet->elsewhere && !wet->nothing_at_risk);
        check_extent(y, wet->x0, wet->x1, wet->y0, wet->y1);
        are_names(wet->beside, "one", "two");
        end();
    }
}
END_TEST

/* Of two faces at risk the slower: on either side of the layer between. */
START_TEST(of_several_faces_the_slowest_is_told_of)
{
    static const double sd[2][3] = {{4.0, 1.5, 0.1}, {0.1, 1.5, 4.0}};
    any_layers();
    w.layers = 3;
    memcpy(w.sd, sd[_i], sizeof w.sd);
    w.stuff[1].wood_kind = BW_WOOD_PANEL;
    draw(0.0);
    stand_still(600, 600);
    find_water(true);
    const bw_water_wetting *wet = &w.out.wetting;
    const double outer = -to_face(face_after(0), w.sd[0], w.sd[1] + w.sd[2], 0);
    const double inner = -to_face(face_after(1), w.sd[0] + w.sd[1], w.sd[2], 0);
    const bool first = outer < inner;
    ck_assert_int_eq(first, _i == 0);
    check_drying(&wet->both, first ? outer : inner);
    check_extent(face_after(first ? 0 : 1), wet->x0, wet->x1, wet->y0, wet->y1);
    are_names(wet->beside, first ? "one" : "three", "two");
}
END_TEST

/* ---- which faces are wetted -----------------------------------------------
 */

/* One of two layers; the other is masonry. */
static const struct {
    bw_wood_kind wood;
    const char *group;
    bw_mould_class mould;
    bool absorbs, hygroscopic, air;
    double mu;
    bool harmed;
} risks[] = {
    {BW_SOLID_WOOD, "wood", BW_MOULD_SENSITIVE, false, false, false, 40, true},
    {BW_WOOD_PANEL, "wood", BW_MOULD_RESISTANT, false, false, false, 40, true},
    {BW_SOLID_WOOD, "wood", BW_MOULD_SENSITIVE, false, false, true, 40, false},
    {BW_SOLID_WOOD, NULL, BW_MOULD_SENSITIVE, false, false, false, 40, false},
    {0, "board", BW_MOULD_VERY_SENSITIVE, false, false, false, 20, true},
    {0, "board", BW_MOULD_SENSITIVE, false, false, false, 20, true},
    {0, "board", BW_MOULD_MEDIUM_RESISTANT, false, false, false, 20, false},
    {0, "insulation", BW_MOULD_RESISTANT, true, false, false, 30, true},
    {0, "insulation", BW_MOULD_RESISTANT, false, true, false, 30, true},
    {0, "insulation", BW_MOULD_RESISTANT, false, false, false, 9.9, true},
    {0, "insulation", BW_MOULD_RESISTANT, false, false, false, 10, false},
    {0, "masonry", BW_MOULD_VERY_SENSITIVE, true, true, false, 5, false},
};

START_TEST(water_is_put_where_wood_a_board_or_insulation_is_harmed)
{
    for (size_t k = 0; k < 2; k++) {
        start();
        any_layers();
        w.sd[k] = risks[_i].mu * w.thick[k];
        w.stuff[1 - k].absorbs_condensate = false;
        w.stuff[k] = (bw_material){.id = "risk",
                                   .name = "risk",
                                   .group = risks[_i].group,
                                   .wood_kind = risks[_i].wood,
                                   .mould_class = risks[_i].mould,
                                   .absorbs_condensate = risks[_i].absorbs,
                                   .hygroscopic = risks[_i].hygroscopic};
        draw(0.0);
        w.d.material[k].air = risks[_i].air;
        w.d.material[k].mu_dry = risks[_i].mu;
        stand_still(500, 700);
        find_water(true);
        ck_assert_int_eq(w.out.wetting.ran, risks[_i].harmed);
        ck_assert_int_eq(w.out.wetting.nothing_at_risk, !risks[_i].harmed);
        ck_assert_int_eq(w.out.wetting.reason[0] == '\0', risks[_i].harmed);
        end();
    }
}
END_TEST

/* Two pieces called the same are one layer; a film between makes two faces. */
START_TEST(layers_of_one_name_are_wetted_at_a_film_alone)
{
    any_layers();
    w.stuff[0].wood_kind = w.stuff[1].wood_kind = BW_SOLID_WOOD;
    w.stuff[1].name = w.stuff[0].name;
    w.way = _i / 2;
    draw(_i % 2 == 0 ? 0.0 : 1.0);
    stand_still(500, 700);
    find_water(true);
    ck_assert_int_eq(w.out.wetting.ran, _i % 2 == 1);
    if (_i % 2 == 1)
        are_names(w.out.wetting.beside, "film", "one");
}
END_TEST

SUITE_AROUND("junction_wetting", start, end,
             EACH(wetting_dries_both_ways_and_one_way_at_rates_by_hand, 4),
             EACH(of_several_faces_the_slowest_is_told_of, 2),
             EACH(water_is_put_where_wood_a_board_or_insulation_is_harmed,
                  COUNT(risks)),
             EACH(layers_of_one_name_are_wetted_at_a_film_alone, 2 * WAYS))
