/* Which figures of a layer the report shows, and from where they are said to
 * be: a slab made by hand in, values and a line of sources out. */

#include <stdlib.h>

#include "paper.h"
#include "report/layers.h"
#include "report_wall.h"
#include "suite.h"
#include "vapour.h"

static report_wall wall;
static bw_page page;
static bool wet[WALL_SLABS];

static void setup(void)
{
    report_wall_make(&wall);
    page = (bw_page){.width = 100};
    memset(wet, 0, sizeof wet);
    wall.checked.run[BW_RUN_DESIGN].result.used_wet = wet;
}

static void teardown(void)
{
    bw_arena_release(&page.arena);
}

static void nothing(void)
{
}

static void own_resistance(void)
{
    wall.layer[0].resistance = report_property(0.24, BW_BASIS_OPENED,
                                               "leaflet");
}

static void framing_of_it(void)
{
    own_resistance();
    wall.slab[0].is_framing = true;
}

static void a_cavity(void)
{
    wall.slab[0].kind = wall.layer[0].kind = BW_LAYER_CAVITY;
    wall.material[0].thermal_conductivity.known = false;
    wall.material[0].mu_dry.known = false;
}

static void conductivity_unknown(void)
{
    wall.material[0].thermal_conductivity.known = false;
}

static void used_wet(void)
{
    wet[0] = true;
    wall.material[0].mu_wet = report_property(3.0, BW_BASIS_ESTIMATE,
                                              "wet cup");
}

static void used_wet_without_a_value(void)
{
    wet[0] = true;
}

static void wet_cup_only(void)
{
    wall.material[0].mu_dry.known = false;
    wall.material[0].mu_wet = report_property(5.0, BW_BASIS_ESTIMATE,
                                              "wet cup");
}

static void sd_as_sold_beside_mu(void)
{
    wall.material[0].sd = report_property(0.3, BW_BASIS_OPENED, "sd sheet");
}

static void sd_of_this_layer_beside_mu(void)
{
    wall.material[0].sd = report_property(0.3, BW_BASIS_GIVEN, "sd sheet");
}

static void sd_alone(void)
{
    sd_as_sold_beside_mu();
    wall.material[0].mu_dry.known = false;
}

static void no_thickness(void)
{
    sd_as_sold_beside_mu();
    wall.slab[0].thickness = 0.0;
}

static void variable(void)
{
    wall.material[0].sd_curve = wall.material[2].sd_curve;
}

static void layer_has_source(void)
{
    wall.layer[0].source = "drawing 7";
}

static void source_unknown(void)
{
    wall.material[0].mu_dry.source = "";
}

static const struct look_row {
    void (*change)(void);
    bool has_lambda, has_mu;
    double mu, sd;
    const char *sources;
} looks[] = {
    {nothing, true, true, 5.0, 0.06,
     "lambda: trade, middle (estimate); mu: ISO 10456:2007 table 3 (from "
     "memory)"},
    {own_resistance, false, true, 5.0, 0.06,
     "resistance: leaflet (opened); mu: ISO"},
    {framing_of_it, true, true, 5.0, 0.06, "lambda: trade, middle"},
    {a_cavity, false, false, 0.0, 0.01,
     "still air: ISO 6946, table of air layers"},
    {conductivity_unknown, false, true, 5.0, 0.06, "mu: ISO"},
    {used_wet, true, true, 3.0, 0.036, "mu: wet cup (estimate)"},
    {used_wet_without_a_value, true, true, 5.0, 0.06, "mu: ISO"},
    {wet_cup_only, true, true, 5.0, 0.06, "mu: wet cup (estimate)"},
    {sd_as_sold_beside_mu, true, true, 5.0, 0.06, "; mu: ISO"},
    {sd_of_this_layer_beside_mu, true, false, 0.0, 0.3,
     "; sd: sd sheet (given)"},
    {sd_alone, true, false, 0.0, 0.3, "; sd: sd sheet (opened)"},
    {no_thickness, true, false, 0.0, 0.3, "; sd: sd sheet (opened)"},
    {variable, true, false, 0.0, 8.0, "; sd by humidity: class"},
    {layer_has_source, true, true, 5.0, 0.06, "layer: drawing 7; lambda: "},
    {source_unknown, true, true, 5.0, 0.06, "; mu: (from memory)"},
};

START_TEST(a_layer_shows_what_it_is_computed_with_and_its_source)
{
    const struct look_row *row = &looks[_i];
    row->change();
    bw_slab_set_vapour(&wall.slab[0]);
    bw_slab_values v = bw_slab_look(&wall.assembly, &wall.checked, 0);
    ck_assert_int_eq(v.has_lambda, row->has_lambda);
    ck_assert_int_eq(v.has_mu, row->has_mu);
    if (v.has_mu)
        ck_assert_double_eq_tol(v.mu, row->mu, 1e-12);
    ck_assert_double_eq_tol(v.sd, row->sd, 1e-12);
    HAS(bw_slab_sources(&page, &v, false), row->sources);
}
END_TEST

START_TEST(sources_are_numbered_where_they_are_cited)
{
    bw_slab_values v = bw_slab_look(&wall.assembly, &wall.checked, 0);
    ck_assert_str_eq(bw_slab_sources(&page, &v, true),
                     "lambda: [1] (estimate); mu: [2] (from memory)");
    ck_assert_str_eq(page.source[1], "ISO 10456:2007 table 3");
}
END_TEST

START_TEST(only_a_known_estimate_is_marked_as_one)
{
    bw_property p = report_property(1.0, BW_BASIS_ESTIMATE, "");
    ck_assert(bw_is_estimate(&p));
    p.known = false;
    ck_assert(!bw_is_estimate(&p));
    p = report_property(1.0, BW_BASIS_OPENED, "");
    ck_assert(!bw_is_estimate(&p));
    ck_assert(!bw_is_estimate(NULL));
}
END_TEST

SUITE_AROUND("report_layers", setup, teardown,
             EACH(a_layer_shows_what_it_is_computed_with_and_its_source,
                  COUNT(looks)),
             FACT(sources_are_numbered_where_they_are_cited),
             FACT(only_a_known_estimate_is_marked_as_one))
