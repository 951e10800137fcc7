/* Period balance where the faces of layers are special cases, by hand. */

#include <math.h>
#include <stdlib.h>

#include "bothways/air.h"
#include "period_case.h"
#include "suite.h"

/* Two faces with no sd between them have one vapour pressure: water comes to
 * the colder of them, whichever side that is. By hand, once with the cold
 * outside as drawn and once with the climate the other way round. */
START_TEST(of_faces_with_no_sd_between_the_colder_one_is_wet)
{
    bw_slab s[] = {slab(.05, 10), slab(.2, 0), slab(3, .2), slab(.1, .5)};
    bw_slab t[] = {slab(.1, .5), slab(3, .2), slab(.2, 0), slab(.05, 10)};
    double total = .04 + .05 + .2 + 3 + .1 + .25;
    bw_period_result r = wall(s, COUNT(s));
    double p = bw_saturation_pressure(-5 + 25 * .09 / total);
    ck_assert_int_eq(r.which, BW_PERIOD_ONE_PLANE);
    ck_assert_uint_eq(r.plane[0].at.slab, 0);
    ck_assert_double_eq_tol(
        r.condensed, 7.776e6 * 2e-10 * ((1168 - p) / .7 - (p - 321) / 10),
        1e-12);

    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    c.condensation = (bw_boundary){20, 1168, -5, 321};
    r = run(t, COUNT(t), &c, BW_MU_LOCAL);
    p = bw_saturation_pressure(-5 + 25 * (.25 + .05) / total);
    ck_assert_int_eq(r.which, BW_PERIOD_ONE_PLANE);
    ck_assert_uint_eq(r.plane[0].at.slab, 2);
    ck_assert_double_eq_tol(
        r.condensed, 7.776e6 * 2e-10 * ((1168 - p) / .7 - (p - 321) / 10),
        1e-12);
}
END_TEST

/* The outermost face here is colder and damper than the next, but air reaches
 * it freely: the next one is critical. By hand, its way out 1 m, in 20.3 m. */
START_TEST(faces_without_sd_to_a_surface_are_never_critical)
{
    bw_slab s[] = {slab(.1, 0), slab(.5, 1), slab(3, .2), membrane(20),
                   slab(.05, .1)};
    bw_period_result r = wall(s, COUNT(s));
    ck_assert_int_eq(r.which, BW_PERIOD_NONE);
    ck_assert_uint_eq(r.plane[0].at.slab, 1);
    ck_assert_double_eq_tol(r.reserve, .7776 * (1 + 1 / 20.3), 1e-9);
}
END_TEST

START_TEST(all_sd_in_one_layer_dries_from_its_middle)
{
    bw_slab s[] = {slab(.1, 0), slab(1, 0), slab(1, 2), slab(.1, 0)};
    bw_period_result r = wall(s, COUNT(s));
    ck_assert_int_eq(r.which, BW_PERIOD_NONE);
    ck_assert_uint_eq(r.plane[0].at.slab, 2);
    ck_assert(!r.plane[0].at.layer_face);
    ck_assert_double_eq_tol(r.plane[0].at.depth, .05, 1e-12);
    ck_assert_double_eq_tol(r.plane[0].sd_from_outside, 1, 1e-12);
    ck_assert_double_eq_tol(r.reserve, .7776 * 2, 1e-9);
    /* less than 1e-12 of the whole sd is none */
    bw_slab tight[] = {slab(1, 1e-9), slab(1, 1e5)};
    r = wall(tight, COUNT(tight));
    ck_assert_uint_eq(r.plane[0].at.slab, 1);
    ck_assert(!r.plane[0].at.layer_face);
}
END_TEST

/* Evaporation pressure at saturation: nothing leaves, no time is enough. */
START_TEST(a_summer_that_dries_nothing_leaves_all_condensate)
{
    bw_slab s[] = {slab(.10, 20), slab(1.0, .01), slab(.10, 20), slab(2.5, .01),
                   slab(.10, .5)};
    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    double condensed = run(s, COUNT(s), &c, BW_MU_DRY).condensed;
    c.evaporation_pressure = c.evaporation_saturation;
    bw_period_result r = run(s, COUNT(s), &c, BW_MU_DRY);
    ck_assert_int_eq(r.which, BW_PERIOD_TWO_PLANES);
    ck_assert_double_eq(r.condensed, condensed);
    ck_assert_double_eq(r.plane[0].evaporable, 0);
    ck_assert_double_eq(r.plane[1].evaporable, 0);
    ck_assert_double_eq(r.reserve, -condensed);
}
END_TEST

/* A zone, and the same with a film without sd in its middle: the same
 * zone, also seen from the other side. A film with some sd parts it. */
START_TEST(a_film_without_sd_does_not_end_a_zone)
{
    bw_slab s[] = {slab(.02, 30), slab(.60, .50), slab(.40, .01)};
    bw_slab cut[] = {s[0], slab(.30, .25), membrane(0), slab(.30, .25), s[2]};
    bw_period_result a = wall(s, COUNT(s)), b = wall(cut, COUNT(cut));
    ck_assert_int_eq(b.which, BW_PERIOD_ZONE);
    ck_assert_double_eq_tol(b.condensed, a.condensed, 1e-12);
    ck_assert_double_eq_tol(b.evaporable, a.evaporable, 1e-12);
    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    c.condensation = (bw_boundary){20, 1168, -5, 321};
    bw_slab back[] = {s[2], slab(.30, .25), slab(.01, 0), slab(.30, .25), s[0]};
    bw_section mirrored = section_of(back, COUNT(back));
    mirrored.outer_resistance = .25;
    mirrored.inner_resistance = .04;
    ck_assert_int_eq(bw_period_balance(&b, &mirrored, &c, BW_MU_DRY, NULL),
                     BW_OK);
    ck_assert_int_eq(b.which, BW_PERIOD_ZONE);
    /* what lies on either side of it does not matter */
    s[0].kind = BW_LAYER_MEMBRANE;
    s[2].kind = BW_LAYER_CAVITY;
    ck_assert_int_eq(wall(s, COUNT(s)).which, BW_PERIOD_ZONE);
    cut[2] = membrane(.01);
    ck_assert_int_ne(wall(cut, COUNT(cut)).which, BW_PERIOD_ZONE);
}
END_TEST

/* Faces nearer than 1e-12 of the whole sd are one face: here 1e-9 m of more
 * than 1000 m, with the film at 1e-10 m. */
START_TEST(a_film_of_a_billionth_of_the_sd_does_not_end_a_zone_either)
{
    bw_slab s[] = {slab(.02, 1000), slab(.30, .25), membrane(1e-10),
                   slab(.30, .25), slab(.40, .01)};
    ck_assert_int_eq(wall(s, COUNT(s)).which, BW_PERIOD_ZONE);
    bw_slab back[] = {s[4], s[3], slab(.01, 1e-10), s[1], s[0]};
    bw_section mirrored = section_of(back, COUNT(back));
    mirrored.outer_resistance = .25;
    mirrored.inner_resistance = .04;
    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    c.condensation = (bw_boundary){20, 1168, -5, 321};
    bw_period_result r;
    ck_assert_int_eq(bw_period_balance(&r, &mirrored, &c, BW_MU_DRY, NULL),
                     BW_OK);
    ck_assert_int_eq(r.which, BW_PERIOD_ZONE);
}
END_TEST

/* The header: the inner face of slab k is {k, its thickness, true}. */
START_TEST(a_plane_at_a_face_has_the_thickness_of_its_layer_as_depth)
{
    bw_slab s[] = {slab(.10, 20), slab(1.0, .01), slab(.10, 20), slab(2.5, .01),
                   slab(.10, .5)};
    for (size_t k = 0; k < COUNT(s); ++k)
        s[k].thickness = .01 + .02 * (double)k;
    bw_period_result r = wall(s, COUNT(s));
    ck_assert_int_eq(r.which, BW_PERIOD_TWO_PLANES);
    ck_assert_double_eq(r.plane[0].at.depth, .01);
    ck_assert_uint_eq(r.plane[1].at.slab, 2);
    ck_assert_double_eq(r.plane[1].at.depth, .05);
    bw_slab dry[] = {slab(.1, .5), slab(3, .2), membrane(20), slab(.05, .1)};
    dry[0].thickness = .03;
    r = wall(dry, COUNT(dry));
    ck_assert_int_eq(r.which, BW_PERIOD_NONE);
    ck_assert_double_eq(r.plane[0].at.depth, .03);
}
END_TEST

/* One temperature and saturated air on both sides: every face is saturated,
 * but no vapour flows, so none condenses. */
START_TEST(a_saturated_wall_without_flow_has_no_condensate)
{
    bw_slab s[] = {slab(.1, .5), slab(3, .2), slab(.05, .1)};
    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    double p = bw_saturation_pressure(10);
    c.condensation = (bw_boundary){10, p, 10, p};
    bw_period_result r = run(s, COUNT(s), &c, BW_MU_DRY);
    ck_assert_int_eq(r.which, BW_PERIOD_NONE);
    ck_assert_uint_eq(r.plane_count, 1);
    ck_assert_double_eq(r.condensed, 0);
}
END_TEST

SUITE("period_faces", FACT(of_faces_with_no_sd_between_the_colder_one_is_wet),
      FACT(faces_without_sd_to_a_surface_are_never_critical),
      FACT(all_sd_in_one_layer_dries_from_its_middle),
      FACT(a_summer_that_dries_nothing_leaves_all_condensate),
      FACT(a_film_without_sd_does_not_end_a_zone),
      FACT(a_film_of_a_billionth_of_the_sd_does_not_end_a_zone_either),
      FACT(a_plane_at_a_face_has_the_thickness_of_its_layer_as_depth),
      FACT(a_saturated_wall_without_flow_has_no_condensate))
