/* Water in a drawing by months: what stands in plane walls, whichever way they
 * lie, against the standard's formula by hand (junction_plane.h); the humidity
 * and the temperature at a place with a name. */

#include "junction_plane.h"
#include "suite.h"

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
        sum += bw_month_seconds(m) * to_face(w.thick[0], w.sd[0], w.sd[1], m);
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

/* Within one layer it stands in a band as long as that goes on. */
START_TEST(water_within_a_layer_is_spread_over_the_length_of_its_band)
{
    any_layers();
    w.layers = 1;
    w.thick[0] = 0.2;
    w.sd[0] = 1.0;
    w.lambda[0] = 0.04;
    w.way = _i;
    draw(0.0);
    cold_for(0);
    for (int m = 0; m < 3; m++)
        put_month(m, -10.0, 0.95 * bw_saturation_pressure(-10.0), 1900);
    find_water(false);
    ck_assert_uint_eq(w.out.place_count, 1);
    const bw_water_place *at = &w.out.place[0];
    const double wide = at->x1 - at->x0, high = at->y1 - at->y0;
    ck_assert_double_eq_tol(fmax(wide, high), w.width, 1e-9);
    ck_assert_double_gt(fmin(wide, high), 0.02);
    ck_assert_double_eq_tol(at->most_by_area, at->most / w.width, 1e-9);
    ck_assert_str_eq(at->beside[0], "one");
    ck_assert_ptr_null(at->beside[1]);
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
        const bw_rectangle at = turned((bw_rectangle){x, x, depth[k], depth[k]},
                                       w.way);
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
                until += w.sd[l] *
                         fmin(fmax((depth[k] - y) / w.thick[l], 0), 1);
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
    ck_assert_int_eq(bw_junction_heat_make(&heat, &w.d.junction, NULL, NULL),
                     BW_OK);
    const double all = face_after(2);
    for (int k = 0; k < 40; k++) {
        const double x = between(&die, 0.0, w.width);
        const double y = k == 0   ? 0.0
                         : k == 1 ? all
                         : k < 4  ? face_after((size_t)k - 2)
                                  : between(&die, 0.0, all);
        const bw_rectangle at = turned((bw_rectangle){x, x, y, y}, w.way);
        ck_assert_double_eq_tol(bw_junction_theta_at(heat, theta, at.x0, at.y0),
                                theta_at(y, 0), 1e-6);
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
             EACH(water_within_a_layer_is_spread_over_the_length_of_its_band,
                  WAYS),
             FACT(where_nothing_condenses_no_place_is_told_of),
             EACH(humidity_at_a_place_is_that_of_its_depth, WAYS),
             EACH(temperature_at_a_place_is_that_of_its_depth, WAYS))
