/* Comparisons at their edges: layers that cannot be rescaled, and a table of
 * assessments made by hand, some simulated, some not computed at all. */

#include <stdlib.h>

#include "bothways/compare.h"
#include "compare_sections.h"
#include "criteria_case.h"
#include "one_document.h"
#include "paper.h"
#include "suite.h"

static criteria_case first, second;
static bw_material air;
static bw_layer layers[CASE_LAYERS + 1];

static void setup(void)
{
    case_make(&first);
    case_make(&second);
    memcpy(layers, second.layer, CASE_LAYERS * sizeof *layers);
    second.assembly.layer = layers;
    second.assembly.id = "other";
    air = case_material("air", "air", 1.2, 0.025, 1, false);
    layers[CASE_INSULATION].thickness = 0.1;
}

static void teardown(void)
{
    case_free(&first);
    case_free(&second);
}

static bw_status compare(bw_equal equal, const char *layer, bw_comparison **out,
                         bw_error *err)
{
    const bw_assembly *walls[] = {&first.assembly, &second.assembly};
    const bw_climate *climates[] = {&first.climate, &first.climate};
    bw_compare_options options = {
        .equal = equal,
        .scaled_layer = layer,
        .assessment = {.no_transient = true, .no_advice = true}};
    return bw_compare(out, walls, climates, 2, &options, err);
}

/* ---- what cannot be rescaled ------------------------------------------------
 */

static void nothing(void)
{
}

static void a_cavity(void)
{
    layers[CASE_INSULATION].kind = BW_LAYER_CAVITY;
    layers[CASE_INSULATION].material = &air;
}

static void a_whole_resistance(void)
{
    layers[CASE_INSULATION].resistance = case_value(3.0);
}

static void no_thickness(void)
{
    layers[CASE_INSULATION].thickness = 0.0;
    layers[CASE_INSULATION].resistance = case_value(3.0);
    second.material[CASE_INSULATION].sd = case_value(0.1);
}

static void a_whole_sd(void)
{
    second.material[CASE_INSULATION].sd = case_value(3.0);
    second.material[CASE_INSULATION].mu_dry.known = false;
    second.material[CASE_INSULATION].mu_wet.known = false;
}

static void a_variable_sd(void)
{
    static const double x[] = {0.25, 0.9}, y[] = {5.0, 0.5};
    second.material[CASE_INSULATION].sd_curve = (bw_curve){
        .count = 2, .x = x, .y = y, .source = "test", .note = ""};
}

static void no_insulation(void)
{
    second.material[CASE_INSULATION].group = "board";
}

static void far_too_thick(void)
{
    first.layer[CASE_INSULATION].thickness = 2.0;
}

static void far_too_thin(void)
{
    first.layer[CASE_INSULATION].thickness = 0.001;
    layers[CASE_LINING].thickness = 0.4;
}

static void unmeasured_elsewhere(void)
{
    layers[CASE_LINING].thickness = 0.0;
    layers[CASE_LINING].resistance = case_value(0.05);
}

static const struct refused_row {
    void (*change)(void);
    bw_equal equal;
    const char *layer, *says;
} refused[] = {
    {a_cavity, BW_EQUAL_THICKNESS, "mineral wool", "it is a cavity"},
    {a_whole_resistance, BW_EQUAL_U, NULL,
     "its thermal resistance is given as a whole; give lambda="},
    {a_whole_sd, BW_EQUAL_U, NULL, "its sd is given as a whole; give mu="},
    {a_variable_sd, BW_EQUAL_U, NULL, "its sd is given as a whole"},
    {nothing, BW_EQUAL_U, "foil", "it is a membrane"},
    {nothing, BW_EQUAL_U, "cellar",
     "no layer 'cellar' to rescale; its layers are: panel, mineral wool, foil, "
     "plasterboard"},
    {no_insulation, BW_EQUAL_U, NULL,
     "no insulation layer to rescale; name one with --scale-layer ID: panel, "},
    {no_thickness, BW_EQUAL_U, "mineral wool", "its thickness is not given"},
    {far_too_thick, BW_EQUAL_THICKNESS, NULL,
     "it would have to be 2000.0 mm thick, 100.0 mm now"},
    {far_too_thick, BW_EQUAL_U, NULL, "with 1000 mm of it U is "},
    {far_too_thin, BW_EQUAL_THICKNESS, NULL, "it would have to be -"},
    {unmeasured_elsewhere, BW_EQUAL_THICKNESS, NULL,
     "plasterboard (plasterboard) gives no thickness"},
};

START_TEST(what_cannot_stand_for_a_thickness_is_refused_with_its_reason)
{
    bw_error err = {0};
    bw_comparison *c = NULL;
    refused[_i].change();
    ck_assert_int_eq(compare(refused[_i].equal, refused[_i].layer, &c, &err),
                     BW_ERR_DOMAIN);
    ck_assert_ptr_null(c);
    HAS(err.message, refused[_i].says);
}
END_TEST

START_TEST(no_such_layer_is_refused_of_equal_walls_too)
{
    bw_error err = {0};
    bw_comparison *c = NULL;
    layers[CASE_INSULATION].thickness = first.layer[CASE_INSULATION].thickness;
    ck_assert_int_eq(compare(BW_EQUAL_U, "mineral wool", &c, &err), BW_OK);
    ck_assert(!c->wall[1].rescaled);
    bw_comparison_free(c);
    c = NULL;
    ck_assert_int_eq(compare(BW_EQUAL_U, "cellar", &c, &err), BW_ERR_DOMAIN);
    ck_assert_ptr_null(c);
    HAS(err.message, "no layer 'cellar' to rescale");
}
END_TEST

START_TEST(a_layer_given_by_its_values_is_insulation_by_its_lambda)
{
    static const struct {
        double lambda;
        bool known, found;
    } cases[] = {{0.10, true, true}, {0.11, true, false}};
    bw_error err = {0};
    bw_comparison *c = NULL;
    second.material[CASE_INSULATION].group = "given";
    second.material[CASE_INSULATION].thermal_conductivity = case_value(
        cases[_i].lambda);
    bw_status status = compare(BW_EQUAL_THICKNESS, NULL, &c, &err);
    ck_assert_int_eq(status == BW_OK, cases[_i].found);
    if (status == BW_OK)
        ck_assert_double_eq_tol(c->wall[1].thickness_after, 0.140, 1e-12);
    bw_comparison_free(c);
}
END_TEST

START_TEST(the_thickest_insulation_inside_the_vented_cavity_is_rescaled)
{
    bw_comparison *c = NULL;
    memmove(layers + 2, layers + 1, (CASE_LAYERS - 1) * sizeof *layers);
    layers[1] = (bw_layer){.id = "gap",
                           .name = "gap",
                           .kind = BW_LAYER_CAVITY,
                           .material = &air,
                           .thickness = 0.03,
                           .ventilation = BW_VENT_WELL,
                           .source = ""};
    second.assembly.layer_count = CASE_LAYERS + 1;
    second.material[CASE_SHEATHING].group = "insulation";
    ck_assert_int_eq(compare(BW_EQUAL_THICKNESS, NULL, &c, NULL), BW_OK);
    ck_assert_str_eq(c->wall[1].rescaled_id, "mineral wool");
    ck_assert_double_eq_tol(c->wall[1].thickness_after, 0.110, 1e-12);
    ck_assert_double_eq_tol(c->wall[0].total_thickness,
                            c->wall[1].total_thickness, 1e-12);
    bw_comparison_free(c);
}
END_TEST

START_TEST(framing_stays_as_deep_as_it_is_and_is_said_to)
{
    bw_comparison *c = NULL;
    static paper sheet;
    layers[CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &second.stud, .fraction = 0.1};
    ck_assert_int_eq(compare(BW_EQUAL_THICKNESS, NULL, &c, NULL), BW_OK);
    ck_assert(!c->wall[1].rescaled_framing);
    ck_assert_double_eq_tol(c->wall[1].framing_depth, 0.100, 1e-12);
    paper_clear(&sheet);
    ck_assert_int_eq(
        compare_report(BW_FORM_TEXT, c, NULL, paper_take, &sheet, NULL), BW_OK);
    HAS(sheet.text, "Held equal: the total thickness of case, 161.5 mm");
    HAS(sheet.text,
        "made 140.0 mm instead of 100.0 mm thick, its framing still 100");
    HAS(sheet.text, "mm deep and the rest across it");
    HAS(sheet.text, "of the wall's worst section");
    paper_fits(sheet.text, 100);
    bw_comparison_free(c);
}
END_TEST

/* ---- the table
 * --------------------------------------------------------------- */

/* The first wall has two sections computed by hand, the second none. */
static const bw_compare_row *row_of(const char *name)
{
    return section_row(name, &first.assembly, 1, false);
}

static void part(size_t i, double peak, double reserve, bool dried,
                 double months)
{
    parts[i] = (bw_section_assessment){.section = &named[i],
                                       .run[BW_RUN_DESIGN].ran = true};
    parts[i].run[BW_RUN_DESIGN].result.peak = peak;
    parts[i].run[BW_RUN_DESIGN].result.has_reserve = true;
    parts[i].run[BW_RUN_DESIGN].result.reserve = reserve;
    for (int k = BW_RUN_WETTED_BOTH; k <= BW_RUN_WETTED_INWARDS; k++)
        parts[i].run[k] = (bw_monthly_run){
            .ran = true, .result = {.dried = dried, .months_to_dry = months}};
}

static const struct part_row {
    const char *name;
    double want;
    const char *section;
} part_rows[] = {
    {"peak-condensate", 0.3, "through-stud"},
    {"reserve", -0.2, "between-studs"},
    {"months-to-dry", 7.0, "through-stud"},
    {"months-to-dry-outwards", 7.0, "through-stud"},
    {"months-to-dry-inwards", 7.0, "through-stud"},
};

START_TEST(the_worst_section_gives_each_figure)
{
    part(0, 0.1, -0.2, true, 3.0);
    part(1, 0.3, 0.5, true, 7.0);
    const bw_compare_row *row = row_of(part_rows[_i].name);
    ck_assert(row->has_value[0] && !row->has_value[1]);
    ck_assert_double_eq(row->value[0], part_rows[_i].want);
    ck_assert_str_eq(row->section[0], part_rows[_i].section);
    ck_assert_str_eq(row->instead[1], "not assessed");
    bw_arena_release(&core.arena);
}
END_TEST

START_TEST(a_section_that_never_dries_outweighs_all_that_do)
{
    for (size_t wet = 0; wet < PARTS; wet++) {
        part(0, 0.1, 0.2, wet != 0, 3.0);
        part(1, 0.3, 0.5, wet != 1, 7.0);
        const bw_compare_row *row = row_of("months-to-dry");
        ck_assert(!row->has_value[0]);
        ck_assert_str_eq(row->instead[0], "not in 10 years");
        ck_assert_str_eq(row->section[0], named[wet].name);
        bw_arena_release(&core.arena);
    }
}
END_TEST

/* One section without a figure is enough, whichever: the worst is not known. */
START_TEST(what_some_section_did_not_give_is_not_assessed)
{
    static const char *const rows[] = {"peak-condensate", "reserve",
                                       "months-to-dry"};
    for (size_t without = 1; without < 1U << PARTS; without++) {
        for (size_t i = 0; i < PARTS; i++) {
            part(i, 0.1, 0.2, true, 3.0);
            if ((without >> i & 1U) != 0)
                parts[i].run[BW_RUN_DESIGN].ran =
                    parts[i].run[BW_RUN_WETTED_BOTH].ran = false;
        }
        const bw_compare_row *row = row_of(rows[_i]);
        ck_assert(!row->has_value[0]);
        ck_assert_str_eq(row->instead[0], "not assessed");
        ck_assert_str_eq(row->section[0], "");
        bw_arena_release(&core.arena);
    }
}
END_TEST

START_TEST(a_section_that_never_dries_is_said_beside_one_not_tested)
{
    part(0, 0.1, 0.2, false, 0.0);
    part(1, 0.1, 0.2, true, 3.0);
    parts[1].run[BW_RUN_WETTED_BOTH].ran = false;
    const bw_compare_row *row = row_of("months-to-dry");
    ck_assert_str_eq(row->instead[0], "not in 10 years");
    ck_assert_str_eq(row->section[0], "between-studs");
    bw_arena_release(&core.arena);
}
END_TEST

START_TEST(a_mould_index_needs_a_simulation)
{
    part(0, 0.1, 0.2, true, 3.0);
    part(1, 0.1, 0.2, true, 3.0);
    ck_assert_ptr_null(row_of("mould-index"));
    bw_arena_release(&core.arena);
    parts[1].has_transient = true;
    const bw_compare_row *row = row_of("mould-index");
    ck_assert(row != NULL && !row->has_value[0] && !row->has_value[1]);
    ck_assert_str_eq(row->instead[0], "no such part");
    ck_assert_str_eq(row->instead[1], "no simulation");
    bw_arena_release(&core.arena);
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

SUITE_AROUND("compare_cases", setup, teardown,
             EACH(what_cannot_stand_for_a_thickness_is_refused_with_its_reason,
                  ROWS(refused)),
             FACT(no_such_layer_is_refused_of_equal_walls_too),
             EACH(a_layer_given_by_its_values_is_insulation_by_its_lambda, 2),
             FACT(the_thickest_insulation_inside_the_vented_cavity_is_rescaled),
             FACT(framing_stays_as_deep_as_it_is_and_is_said_to),
             EACH(the_worst_section_gives_each_figure, ROWS(part_rows)),
             FACT(a_section_that_never_dries_outweighs_all_that_do),
             EACH(what_some_section_did_not_give_is_not_assessed, 3),
             FACT(a_section_that_never_dries_is_said_beside_one_not_tested),
             FACT(a_mould_index_needs_a_simulation))
