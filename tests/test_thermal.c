/* Thermal resistance, transmittance and temperatures; the figures of whole
 * walls: cases/. */

#include <math.h>
#include <stdlib.h>

#include "bothways/thermal.h"
#include "suite.h"
#include "thermal/temperatures.h"

static bw_property known(double value)
{
    return (bw_property){
        .known = true, .value = value, .source = "test", .note = ""};
}

static bw_material material(double lambda)
{
    return (bw_material){.id = "m",
                         .name = "m",
                         .thermal_conductivity = known(lambda),
                         .mu_dry = known(1)};
}

static bw_layer solid(const bw_material *m, double thickness)
{
    return (bw_layer){.id = "l",
                      .name = "l",
                      .kind = BW_LAYER_SOLID,
                      .material = m,
                      .thickness = thickness,
                      .source = ""};
}

static bw_layer cavity(const bw_material *air, double thickness,
                       bw_ventilation ventilation, double openings)
{
    bw_layer layer = solid(air, thickness);
    layer.kind = BW_LAYER_CAVITY;
    layer.ventilation = ventilation;
    layer.vent_openings = openings;
    return layer;
}

static bw_layer framed(const bw_material *m, double thickness,
                       const bw_material *stud, double fraction)
{
    bw_layer layer = solid(m, thickness);
    layer.framing = (bw_framing){
        .present = true, .material = stud, .fraction = fraction};
    return layer;
}

static bw_thermal_result thermal(bw_element element, const bw_layer *layer,
                                 size_t count)
{
    bw_assembly a = {.file = "",
                     .id = "a",
                     .title = "a",
                     .remark = "",
                     .element = element,
                     .layer_count = count,
                     .layer = layer};
    bw_thermal_result r;
    ck_assert_int_eq(bw_thermal(&r, &a, NULL), BW_OK);
    return r;
}

/* ISO 6946, surface resistances [from memory, high]. */
START_TEST(surface_resistances_are_the_standards)
{
    ck_assert_double_eq(bw_rsi(bw_element_heat_flow(BW_ELEMENT_WALL)), .13);
    ck_assert_double_eq(bw_rsi(bw_element_heat_flow(BW_ELEMENT_ROOF)), .10);
    ck_assert_double_eq(bw_rsi(bw_element_heat_flow(BW_ELEMENT_FLOOR)), .17);
    ck_assert_double_eq(bw_rse(), .04);
}
END_TEST

/* ISO 6946, unventilated air layers [from memory, high]. */
START_TEST(air_layers_are_the_standards)
{
    static const struct {
        double mm, up, horizontal, down;
    } rows[] = {
        {0, 0, 0, 0},         {5, .11, .11, .11},    {7, .13, .13, .13},
        {10, .15, .15, .15},  {15, .16, .17, .17},   {25, .16, .18, .19},
        {50, .16, .18, .21},  {100, .16, .18, .22},  {300, .16, .18, .23},
        {500, .16, .18, .23}, {37.5, .16, .18, .20},
    };
    for (size_t i = 0; i < COUNT(rows); ++i) {
        double d = rows[i].mm / 1000;
        ck_assert_double_eq_tol(bw_air_layer_resistance(d, BW_FLOW_UP),
                                rows[i].up, 1e-9);
        ck_assert_double_eq_tol(bw_air_layer_resistance(d, BW_FLOW_HORIZONTAL),
                                rows[i].horizontal, 1e-9);
        ck_assert_double_eq_tol(bw_air_layer_resistance(d, BW_FLOW_DOWN),
                                rows[i].down, 1e-9);
    }
}
END_TEST

/* Beyond the 500 to 1500 mm2 per m that files are held to. By hand: still 0.13
 * + 2.5 + 0.18 + 0.077/0.77 + 0.04, well 0.13 + 2.5 + 0.13. */
START_TEST(cavity_beyond_slightly_ventilated_is_still_or_well)
{
    bw_material brick = material(.77), air = material(.025),
                wool = material(.04);
    static const double rows[][2] = {{.0004, 2.95}, {.0020, 2.76}};
    for (size_t i = 0; i < COUNT(rows); ++i) {
        bw_layer layer[] = {solid(&brick, .077),
                            cavity(&air, .050, BW_VENT_SLIGHT, rows[i][0]),
                            solid(&wool, .100)};
        bw_thermal_result r = thermal(BW_ELEMENT_WALL, layer, COUNT(layer));
        ck_assert_double_eq_tol(r.resistance, rows[i][1], 1e-12);
    }
}
END_TEST

/* What lies behind the slabs of a section is no part of it; and where nothing
 * resists heat there is no drop to share out. */
START_TEST(a_section_ends_with_its_last_slab)
{
    const bw_slab slab[] = {
        {.resistance = 1}, {.resistance = 2}, {.resistance = 4}};
    bw_section section = {.slab_count = 2, .slab = slab};
    double theta[4] = {0, 0, 0, -99};
    ck_assert_double_eq(bw_slabs_resistance(&section), 3);
    bw_temperature_profile(theta, &section, 0, 12);
    ck_assert_double_eq(theta[1], 4);
    ck_assert_double_eq(theta[2], 12);
    ck_assert_double_eq(theta[3], -99);
    section.slab_count = 1; /* a window, less than 1 m2 K/W in all */
    section.outer_resistance = 0.5 * (section.inner_resistance = 1.0 / 3);
    const bw_slab pane = {.resistance = 1.0 / 6};
    section.slab = &pane;
    bw_temperature_profile(theta, &section, 0, 12);
    ck_assert_double_eq_tol(theta[0], 3, 1e-12);
    ck_assert_double_eq_tol(theta[1], 6, 1e-12);
    section = (bw_section){0};
    bw_temperature_profile(theta, &section, 5, 12);
    ck_assert_double_eq(theta[0], 5);
    /* nor is what lies behind the layers of an assembly */
    bw_material wool = material(.04), air = material(.025);
    bw_layer layer[] = {solid(&wool, .100), cavity(&air, .05, BW_VENT_WELL, 0)};
    bw_thermal_result r = thermal(BW_ELEMENT_WALL, layer, 1);
    ck_assert_double_eq_tol(r.resistance, .17 + 2.5, 1e-12);
}
END_TEST

/* Framing of a material without lambda resists nothing: its layer is passed by
 * it. By hand: R' = 1/(0.8/2.67 + 0.2/0.17). */
START_TEST(framing_that_resists_nothing_short_circuits_its_layer)
{
    bw_material wool = material(.04), unknown = {.id = "u", .name = "u"};
    bw_layer layer = framed(&wool, .100, &unknown, .2);
    bw_thermal_result r = thermal(BW_ELEMENT_WALL, &layer, 1);
    ck_assert_double_eq_tol(r.lower_limit, .17, 1e-12);
    ck_assert_double_eq_tol(r.upper_limit, 1 / (.8 / 2.67 + .2 / .17), 1e-12);
}
END_TEST

/* ISO 6946: the lower limit never exceeds the upper one. */
START_TEST(limits_keep_their_order)
{
    unsigned seed = 1;
    for (int i = 0; i < 2000; ++i) {
        double x[6];
        for (int k = 0; k < 6; ++k) {
            seed = seed * 1664525u + 1013904223u;
            x[k] = (seed >> 8) / 16777216.0;
        }
        bw_material a = material(.02 + x[0]), b = material(.02 + x[1]),
                    c = material(.02 + x[2]);
        bw_layer layer[] = {solid(&a, .001 + .1 * x[3]),
                            framed(&b, .01 + .2 * x[4], &c, x[5]),
                            solid(&c, .01)};
        bw_thermal_result r = thermal((bw_element)(i % 3), layer, 3);
        ck_assert_double_ge(r.upper_limit, r.lower_limit - 1e-12);
        ck_assert_double_eq_tol(r.resistance * r.transmittance, 1, 1e-12);
        double low = fmin(r.section_resistance[0], r.section_resistance[1]);
        double high = fmax(r.section_resistance[0], r.section_resistance[1]);
        ck_assert_double_ge(r.resistance, low - 1e-12);
        ck_assert_double_le(r.resistance, high + 1e-12);
    }
}
END_TEST

SUITE("thermal", FACT(surface_resistances_are_the_standards),
      FACT(air_layers_are_the_standards),
      FACT(cavity_beyond_slightly_ventilated_is_still_or_well),
      FACT(a_section_ends_with_its_last_slab),
      FACT(framing_that_resists_nothing_short_circuits_its_layer),
      FACT(limits_keep_their_order))
