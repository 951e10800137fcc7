#ifndef BW_TESTS_FULL_RESULT_H
#define BW_TESTS_FULL_RESULT_H

/* Results in which everything that can be told is there: the wall of
 * report_wall.h simulated, wetted, converged, with mould, wood and frost; a
 * margin with a simulated case, a map, the dampest room and an ensemble; a
 * comparison with a stress. Every number is random and its own, so that one
 * printed in place of another is seen. */

#include "bothways/compare.h"
#include "bothways/margin.h"
#include "random_wall.h"
#include "report_wall.h"
#include "wall_sheet.h"

enum { FULL_WALLS = 2, FULL_CELLS = 4 };

static dice full_die;

static bw_place_mould full_mould[2];
static bw_wood_damage full_wood[1];
static double full_excess[3][40];
static bw_unknown full_unknown[2];
static double full_sample[2], full_sample_margin[2];
static const bw_verdict full_sample_verdict[2];
static bw_sd_cell full_map[FULL_CELLS];
static double full_inner[2], full_outer[2];
static bw_simulated full_case[1];
static bw_margin full_margin;
static bw_compared full_walls[FULL_WALLS];
static bw_compare_row full_row[2];
static double full_value[2][FULL_WALLS];
static bool full_known[FULL_WALLS];
static bw_verdict full_verdict[FULL_WALLS];
static const char *full_words[FULL_WALLS];
static bw_criterion full_judged[FULL_WALLS];
static const bw_criterion *full_criterion[FULL_WALLS];
static bw_stressed full_stressed[FULL_WALLS];
static bw_stress full_stress[1];
static bw_comparison full_comparison;
static const size_t full_order[FULL_WALLS] = {0, 1};
static const char *const full_sentence[] = {"One sentence."};
static const bw_material *full_material[1];

static inline void full_simulation(void)
{
    bw_section_assessment *c = &wall.checked;
    report_simulate(&wall);
    c->mould = full_mould;
    c->wood = full_wood;
    c->frost.ran = true;
    c->frost.count = 1;
    c->has_convergence = true;
    c->wetting_test.ran = c->wetting_test.one_way = true;
    c->wetting_test.place = (bw_plane_at){1, 0.09, true};
    bw_wetting_result *const way[] = {&c->wetting_test.both,
                                      &c->wetting_test.outwards,
                                      &c->wetting_test.inwards};
    for (size_t i = 0; i < 3; i++) {
        way[i]->excess = full_excess[i];
        way[i]->day_count = 40;
    }
    wall.results.step = 1;
}

static inline void full_make_margin(void)
{
    for (size_t i = 0; i < 2; i++) {
        full_unknown[i] = report_unknown();
        full_unknown[i].name = i == 0 ? "mu of board" : "mu of batt";
        full_unknown[i].figure_low = full_unknown[i].figure_high = (bw_figure){
            .criterion = "whole: annual-balance", .unit = "kg/m2"};
        full_unknown[i].sample_count = 2;
        full_unknown[i].sample = full_sample;
        full_unknown[i].sample_verdict = full_sample_verdict;
        full_unknown[i].sample_margin = full_sample_margin;
    }
    full_case[0] = (bw_simulated){
        .setting = "as drawn",
        .unknown = "",
        .simulated = true,
        .figure = {.criterion = "whole: annual-balance", .unit = "kg/m2"}};
    full_margin = (bw_margin){.assessment = &wall.assessment,
                              .simulated_count = 1,
                              .simulated = full_case,
                              .unknown_count = 2,
                              .unknown = full_unknown,
                              .worst_combination_text = "all at once",
                              .worst_combination_reason = "it fails",
                              .inner_count = 2,
                              .outer_count = 2,
                              .inner_sd = full_inner,
                              .outer_sd = full_outer,
                              .map = full_map,
                              .map_inner = "film",
                              .map_outer = "board",
                              .map_section = "whole",
                              .map_note = "",
                              .damp = {.least = 1, .most = 99},
                              .ensemble_count = 50};
    full_margin.damp.figure = full_case[0].figure;
    full_margin.damp.simulated = true;
}

static inline void full_make_comparison(void)
{
    for (size_t i = 0; i < FULL_WALLS; i++) {
        full_known[i] = true;
        full_words[i] = "";
        full_judged[i] = wall.criterion[0];
        full_criterion[i] = &full_judged[i];
        full_verdict[i] = BW_HOLDS;
        full_walls[i] = (bw_compared){.assessment = &wall.assessment};
        full_walls[i].id = full_walls[i].title = full_walls[i].label =
            i == 0 ? "first-wall" : "second-wall";
        full_stressed[i] = (bw_stressed){
            .applies = true,
            .setting = "a leak",
            .reason = "",
            .figure = {.criterion = "whole: annual-balance", .unit = "kg/m2"}};
    }
    for (size_t k = 0; k < 2; k++)
        full_row[k] = (bw_compare_row){.name = k == 0 ? "some-row" : "a-key",
                                       .title = k == 0 ? "Some row" : "A key",
                                       .unit = "kg/m2",
                                       .is_criterion = k == 0,
                                       .has_value = full_known,
                                       .value = full_value[k],
                                       .verdict = k == 0 ? full_verdict : NULL,
                                       .section = full_words,
                                       .criterion = k == 0 ? full_criterion
                                                           : NULL,
                                       .instead = full_words};
    full_stress[0] = (bw_stress){"air-leak", "Room air leaks in",
                                 full_stressed};
    full_comparison = (bw_comparison){.wall_count = FULL_WALLS,
                                      .wall = full_walls,
                                      .order = full_order,
                                      .row_count = 2,
                                      .row = full_row,
                                      .stress_count = 1,
                                      .stress = full_stress,
                                      .sentence_count = 1,
                                      .sentence = full_sentence};
}

/* A field of a result: of `int` and `size_t` other random wholes, of a double a
 * random number that no other field has. */
typedef enum full_kind { FULL_REAL, FULL_INT, FULL_SIZE, FULL_MONTH } full_kind;

/* Another whole than `not_this`. */
static inline double full_whole(double low, double high, double not_this)
{
    double value = not_this;
    while (value == not_this)
        value = floor(between(&full_die, low, high));
    return value;
}

static inline double full_set(void *at, full_kind kind)
{
    double value = 0.0;
    switch (kind) {
    case FULL_INT:
        value = full_whole(2.0, 40.0, *(int *)at);
        *(int *)at = (int)value;
        break;
    case FULL_MONTH:
        value = full_whole(0.0, 11.99, *(int *)at);
        *(int *)at = (int)value;
        break;
    case FULL_SIZE:
        value = full_whole(2.0, 40.0, (double)*(size_t *)at);
        *(size_t *)at = (size_t)value;
        break;
    case FULL_REAL:
        value = between(&full_die, 0.1, 0.9);
        *(double *)at = value;
    }
    return value;
}

/* After setup() of wall_sheet.h. */
static inline void full_setup(void)
{
    setup();
    full_die = (dice){.state = 88172645463325252u};
    full_simulation();
    full_make_margin();
    full_make_comparison();
    full_material[0] = &wall.material[0];
    wall.results.margin = &full_margin;
    wall.results.comparison = &full_comparison;
    wall.results.material_count = 1;
    wall.results.material = full_material;
}

#endif
