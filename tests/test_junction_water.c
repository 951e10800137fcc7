/* Water in a drawing by months: plane walls, whichever way they lie, against
 * what EN ISO 13788 has by hand, at one face of two layers [from memory, high]:
 *
 *   g = delta_0 ((p_i - psat)/sd_i - (psat - p_e)/sd_e)
 *
 * what stands there, how it dries, which faces are wetted, the humidity at a
 * place with a name. */

#include <math.h>

#include "bothways/air.h"
#include "junction/water.h"
#include "junction_case.h"
#include "random_wall.h"
#include "suite.h"

/* ---- a wall ---------------------------------------------------------------
 */

enum { LAYERS_MOST = 3, WAYS = 4 };

typedef struct plane {
    drawn d;
    bw_material stuff[LAYERS_MOST];
    size_t layers;
    double thick[LAYERS_MOST], sd[LAYERS_MOST]; /* m, outside to inside */
    double lambda[LAYERS_MOST];
    double width;
    int way; /* quarters that the drawing is turned */
    bw_drawn_film film;
    bw_film_line line;
    double theta[2 * BW_MONTHS], p[2 * BW_MONTHS]; /* outside, room */
    bw_junction_water out;
} plane;

static plane w;
static dice die;

/* Turned by quarters to the left about the origin. */
static bw_rectangle turned(bw_rectangle r, int way)
{
    for (int k = 0; k < way; k++)
        r = (bw_rectangle){-r.y1, -r.y0, r.x0, r.x1};
    return r;
}

static void start(void)
{
    static const char *const name[LAYERS_MOST] = {"one", "two", "three"};
    die = (dice){.state = 88172645463325252u};
    memset(&w, 0, sizeof w);
    draw_start(&w.d);
    w.layers = 2;
    w.width = 0.5;
    for (size_t k = 0; k < LAYERS_MOST; k++)
        w.stuff[k] = (bw_material){.id = name[k],
                                   .name = name[k],
                                   .group = "masonry",
                                   .mould_class = BW_MOULD_RESISTANT,
                                   .absorbs_condensate = true};
}

static void end(void)
{
    draw_end(&w.d);
}

/* Tight outside, of insulation inside: that is where it is wet. */
static void any_layers(void)
{
    w.thick[0] = between(&die, 0.02, 0.05);
    w.lambda[0] = between(&die, 0.1, 0.3);
    w.sd[0] = between(&die, 3.0, 6.0);
    w.thick[1] = between(&die, 0.1, 0.2);
    w.lambda[1] = between(&die, 0.03, 0.05);
    w.sd[1] = between(&die, 1.0, 2.0);
    w.thick[2] = between(&die, 0.01, 0.03);
    w.lambda[2] = between(&die, 0.1, 0.3);
    w.sd[2] = between(&die, 0.1, 0.5);
}

static double face_after(size_t layer)
{
    double y = 0.0;
    for (size_t k = 0; k <= layer; k++)
        y += w.thick[k];
    return y;
}

/* Of the layers that are there, with a film of sd between the first two. */
static void draw(double film_sd)
{
    static const bool cut[WAYS][BW_EDGES] = {
        [0] = {[BW_EDGE_LEFT] = true, [BW_EDGE_RIGHT] = true},
        [1] = {[BW_EDGE_BELOW] = true, [BW_EDGE_ABOVE] = true},
        [2] = {[BW_EDGE_LEFT] = true, [BW_EDGE_RIGHT] = true},
        [3] = {[BW_EDGE_BELOW] = true, [BW_EDGE_ABOVE] = true}};
    const double high = face_after(w.layers - 1), wide = w.width;
    double y = 0.0;
    for (size_t k = 0; k < w.layers; k++) {
        draw_box(&w.d, w.lambda[k], 0, 1, 0, 1);
        w.d.filling[k].at = turned((bw_rectangle){0, wide, y, y + w.thick[k]},
                                   w.way);
        bw_drawn_material *m = &w.d.material[k];
        m->name = w.stuff[k].name;
        m->material = &w.stuff[k];
        m->mu_dry = m->mu_wet = w.sd[k] / w.thick[k];
        y += w.thick[k];
    }
    draw_space(&w.d, 0, 0, 1, 0, 1);
    draw_space(&w.d, 1, 0, 1, 0, 1);
    w.d.space[0].at = turned((bw_rectangle){0, wide, -0.1, 0}, w.way);
    w.d.space[1].at = turned((bw_rectangle){0, wide, high, high + 0.1}, w.way);
    memcpy(w.d.junction.symmetry, cut[w.way], sizeof cut[w.way]);
    if (film_sd <= 0.0)
        return;
    const bw_rectangle at = turned(
        (bw_rectangle){0, wide, w.thick[0], w.thick[0]}, w.way);
    w.film = (bw_drawn_film){
        .name = "film", .sd_dry = film_sd, .sd_wet = film_sd};
    w.line = (bw_film_line){at.x0, at.x1, at.y0, at.y1, 0, 0};
    w.d.junction.film = &w.film;
    w.d.junction.film_count = 1;
    w.d.junction.film_line = &w.line;
    w.d.junction.film_line_count = 1;
}

static void put_month(int m, double theta_e, double p_e, double p_i)
{
    w.theta[m] = theta_e;
    w.p[m] = p_e;
    w.theta[BW_MONTHS + m] = 20.0;
    w.p[BW_MONTHS + m] = p_i;
}

static void find_water(bool wet)
{
    bw_error err = {0};
    ck_assert_int_eq(bw_junction_water_find(&w.out, &w.d.arena, &w.d.junction,
                                            w.theta, w.p, BW_MU_DRY, wet,
                                            &err),
                     BW_OK);
    ck_assert_msg(w.out.ran, "%s", w.out.reason);
}

/* At a depth from outside, with 0.04 and 0.25 m2 K/W at the surfaces. */
static double theta_at(double depth, int month)
{
    double all = 0.04 + 0.25, until = 0.04, y = 0.0;
    for (size_t k = 0; k < w.layers; k++) {
        until += fmin(fmax(depth - y, 0.0), w.thick[k]) / w.lambda[k];
        all += w.thick[k] / w.lambda[k];
        y += w.thick[k];
    }
    const double e = w.theta[month], i = w.theta[BW_MONTHS + month];
    return e + (i - e) * until / all;
}

/* kg/(m2 s) to a wet face, with so much sd on each side of it. */
static double to_face(double depth, double sd_e, double sd_i, int month)
{
    const double psat = bw_saturation_pressure(theta_at(depth, month));
    const double in = (w.p[BW_MONTHS + month] - psat) / sd_i;
    const double out = (psat - w.p[month]) / sd_e;
    return BW_DELTA_0 * ((sd_i > 0 ? in : 0) - (sd_e > 0 ? out : 0));
}

static void check_extent(double depth, double x0, double x1, double y0,
                         double y1)
{
    const bw_rectangle at = turned((bw_rectangle){0, w.width, depth, depth},
                                   w.way);
    ck_assert_double_eq_tol(x0, at.x0, 1e-9);
    ck_assert_double_eq_tol(x1, at.x1, 1e-9);
    ck_assert_double_eq_tol(y0, at.y0, 1e-9);
    ck_assert_double_eq_tol(y1, at.y1, 1e-9);
}

static void are_names(const char *const beside[2], const char *a, const char *b)
{
    ck_assert_msg((strcmp(beside[0], a) == 0 && strcmp(beside[1], b) == 0) ||
                      (strcmp(beside[0], b) == 0 && strcmp(beside[1], a) == 0),
                  "%s, %s", beside[0], beside[1]);
}

/* ---- what stands ----------------------------------------------------------
 */

/* Cold from December on for so many months, then mild and dry. */
static void cold_for(int months)
{
    for (int k = 0; k < BW_MONTHS; k++)
        if (k < months)
            put_month((11 + k) % BW_MONTHS, -1.0 - 0.5 * k, 420, 900 + 10 * k);
        else
            put_month((11 + k) % BW_MONTHS, 17.0, 500, 600);
}

static const struct {
    double width, film;
    bool sheds[2]; /* first layer, second */
} stands[] = {
    {0.5, 0.0, {false, false}}, {0.5, 0.0, {true, false}},
    {0.05, 0.0, {false, true}}, {0.12, 2.0, {false, false}},
    {0.5, 2.0, {true, true}},
};

START_TEST(water_that_stands_is_that_of_the_standards_formula)
{
    const bool film = stands[_i].film > 0.0;
    for (w.way = 0; w.way < WAYS; w.way++) {
        const int way = w.way;
        double peak = 0.0;
        start();
        w.way = way;
        any_layers();
        w.width = stands[_i].width;
        for (size_t k = 0; k < 2; k++)
            w.stuff[k].absorbs_condensate = !stands[_i].sheds[k];
        draw(stands[_i].film);
        cold_for(3);
        find_water(false);
        for (int m = 11; m < 14; m++)
            peak += bw_month_seconds(m % 12) *
                    to_face(w.thick[0], w.sd[0] + stands[_i].film, w.sd[1],
                            m % 12);
        ck_assert_double_gt(peak, 0.05);
        ck_assert_uint_eq(w.out.place_count, 1);
        const bw_water_place *at = &w.out.place[0];
        const double near = 1e-6 * peak;
        /* a film stands for no layer that takes up water */
        const bool sheds = stands[_i].sheds[1] || (film || stands[_i].sheds[0]);
        ck_assert_int_eq(at->month, 1);
        ck_assert_double_eq_tol(at->most, peak * w.width, near);
        ck_assert_double_eq_tol(at->most_by_area, peak, near);
        ck_assert_int_eq(at->sheds, sheds);
        ck_assert_double_le(at->most_shed, sheds ? peak + near : 0.0);
        ck_assert_double_ge(at->most_shed,
                            sheds ? fmin(w.width / 0.1, 1.0) * 0.5 * peak : 0);
        ck_assert_double_eq_tol(at->left, 0.0, near);
        ck_assert_double_eq_tol(at->left_by_area, 0.0, near);
        check_extent(w.thick[0], at->x0, at->x1, at->y0, at->y1);
        are_names(at->beside, film ? "film" : "one", "two");
        ck_assert(!w.out.accumulates && w.out.periodic);
        end();
    }
}
END_TEST

START_TEST(water_that_never_dries_grows_by_all_of_a_year)
{
    double sum = 0.0;
    any_layers();
    w.way = _i;
    draw(0.0);
    for (int m = 0; m < BW_MONTHS; m++)
        put_month(m, -3.0, 420, 900);
    find_water(false);
    for (int m = 0; m < BW_MONTHS; m++)
        sum += bw_month_seconds(m) *
               to_face(w.thick[0], w.sd[0], w.sd[1], m);
    const bw_water_place *at = &w.out.place[0];
    const double near = 1e-6 * sum;
    ck_assert(w.out.accumulates);
    ck_assert_uint_eq(w.out.place_count, 1);
    ck_assert_int_eq(at->month, 11);
    ck_assert_double_eq_tol(at->most_by_area, sum, near);
    ck_assert_double_eq_tol(at->left, sum * w.width, near);
    ck_assert_double_eq_tol(at->left_by_area, sum, near);
    ck_assert_double_eq_tol(w.out.growth, sum * w.width, near);
    ck_assert_double_eq_tol(w.out.growth_by_area, sum, near);
}
END_TEST

START_TEST(where_nothing_condenses_no_place_is_told_of)
{
    any_layers();
    draw(0.0);
    cold_for(0);
    find_water(false);
    ck_assert_uint_eq(w.out.place_count, 0);
    ck_assert(!w.out.accumulates && w.out.growth == 0.0);
    ck_assert(!w.out.wetting.ran && w.out.wetting.reason[0] != '\0');
}
END_TEST

/* ---- how it dries ---------------------------------------------------------
 */

/* Months from October on, three before January, until 1 kg/m2 has gone; climates
 * that stand still. */
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

/* ---- a place with a name --------------------------------------------------
 */

START_TEST(humidity_at_a_place_is_that_of_its_depth)
{
    enum { SPOTS = 12 };
    bw_drawn_spot spot[SPOTS];
    double depth[SPOTS];
    any_layers();
    w.layers = 3;
    w.way = _i;
    draw(0.0);
    cold_for(0);
    const double all = face_after(2), sd = w.sd[0] + w.sd[1] + w.sd[2];
    for (size_t k = 0; k < SPOTS; k++) {
        const double x = between(&die, 0.0, w.width);
        depth[k] = k == 0   ? 0.0
                   : k == 1 ? all
                   : k == 2 ? face_after(0)
                            : between(&die, 0.0, all);
        if (k + 1 == SPOTS)
            depth[k] = all + 0.01;
        const bw_rectangle at = turned(
            (bw_rectangle){x, x, depth[k], depth[k]}, w.way);
        spot[k] = (bw_drawn_spot){"a spot", at.x0, at.y0, 0};
    }
    w.d.junction.spot = spot;
    w.d.junction.spot_count = SPOTS;
    find_water(false);
    for (size_t k = 0; k < SPOTS; k++)
        for (int m = 0; m < BW_MONTHS; m++) {
            const double rh = w.out.spot_rh[k * BW_MONTHS + (size_t)m];
            double until = 0.0, y = 0.0;
            for (size_t l = 0; l < 3; l++) {
                until += w.sd[l] * fmin(fmax((depth[k] - y) / w.thick[l], 0), 1);
                y += w.thick[l];
            }
            const double e = w.p[m], i = w.p[BW_MONTHS + m];
            const double p = e + (i - e) * until / sd;
            if (k + 1 == SPOTS)
                ck_assert(isnan(rh));
            else
                ck_assert_double_eq_tol(
                    rh, p / bw_saturation_pressure(theta_at(depth[k], m)),
                    1e-7);
        }
}
END_TEST

/* On lines between cells, within them, at both surfaces and beyond. */
START_TEST(temperature_at_a_place_is_that_of_its_depth)
{
    const double theta[2] = {-5.0, 20.0};
    bw_junction_heat *heat = NULL;
    any_layers();
    w.layers = 3;
    w.way = _i;
    draw(0.0);
    put_month(0, theta[0], 300, 900);
    ck_assert_int_eq(
        bw_junction_heat_make(&heat, &w.d.junction, NULL, NULL), BW_OK);
    const double all = face_after(2);
    for (int k = 0; k < 40; k++) {
        const double x = between(&die, 0.0, w.width);
        const double y = k == 0   ? 0.0
                         : k == 1 ? all
                         : k < 4  ? face_after((size_t)k - 2)
                                  : between(&die, 0.0, all);
        const bw_rectangle at = turned((bw_rectangle){x, x, y, y}, w.way);
        ck_assert_double_eq_tol(
            bw_junction_theta_at(heat, theta, at.x0, at.y0), theta_at(y, 0),
            1e-6);
    }
    const bw_rectangle off = turned(
        (bw_rectangle){0, 0, all + 1e-3, all + 1e-3}, w.way);
    ck_assert(isnan(bw_junction_theta_at(heat, theta, off.x0, off.y0)));
    bw_junction_heat_free(heat);
}
END_TEST

SUITE_AROUND("junction_water", start, end,
             EACH(water_that_stands_is_that_of_the_standards_formula,
                  COUNT(stands)),
             EACH(water_that_never_dries_grows_by_all_of_a_year, WAYS),
             FACT(where_nothing_condenses_no_place_is_told_of),
             EACH(wetting_dries_both_ways_and_one_way_at_rates_by_hand, 4),
             EACH(of_several_faces_the_slowest_is_told_of, 2),
             EACH(water_is_put_where_wood_a_board_or_insulation_is_harmed,
                  COUNT(risks)),
             EACH(layers_of_one_name_are_wetted_at_a_film_alone, 2 * WAYS),
             EACH(humidity_at_a_place_is_that_of_its_depth, WAYS),
             EACH(temperature_at_a_place_is_that_of_its_depth, WAYS))
