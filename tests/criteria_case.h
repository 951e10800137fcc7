#ifndef BW_TESTS_CRITERIA_CASE_H
#define BW_TESTS_CRITERIA_CASE_H

/* A timber wall as plain data, and rows to judge it in: what a file would
 * give, without a file. */

#include <check.h>
#include <string.h>

#include "criteria/judge.h"

/* The climate row remembered of ISO 13788's example [from memory, low
 * confidence], humidity over ice below 0 degC. */
static const double case_theta_e[BW_MONTHS] = {-1, 0,  4,  9,  14, 18,
                                               19, 19, 15, 10, 5,  1};
static const double case_phi_e[BW_MONTHS] = {.85, .84, .78, .72, .68, .69,
                                             .73, .75, .79, .83, .88, .88};

enum {
    CASE_LAYERS = 4,
    CASE_SHEATHING = 0,
    CASE_INSULATION,
    CASE_FOIL,
    CASE_LINING
};

typedef struct criteria_case {
    bw_material material[CASE_LAYERS], stud;
    bw_layer layer[CASE_LAYERS + 1];
    bw_assembly assembly;
    bw_climate climate;
    bw_slab slab[CASE_LAYERS];
    bw_section section;
    bw_arena arena;
    bw_rows rows;
} criteria_case;

static inline bw_property case_value(double value)
{
    return (bw_property){.known = true,
                         .value = value,
                         .basis = BW_BASIS_FROM_MEMORY,
                         .evidence = BW_EVIDENCE_TABULATED,
                         .source = "test",
                         .note = ""};
}

static inline bw_material case_material(const char *id, const char *group,
                                        double density, double lambda,
                                        double mu, bool absorbs)
{
    bw_material m = {.id = id,
                     .name = id,
                     .group = group,
                     .remark = "",
                     .file = "test",
                     .flags_source = "test",
                     .absorbs_condensate = absorbs};
    m.density = case_value(density);
    m.thermal_conductivity = case_value(lambda);
    m.mu_dry = m.mu_wet = case_value(mu);
    return m;
}

static inline void case_layers(criteria_case *c)
{
    static const double thickness[] = {0.009, 0.140, 0.0, 0.0125};
    static const char *const names[] = {"panel", "mineral wool", "foil",
                                        "plasterboard"};
    c->material[0] = case_material("panel", "board", 650, 0.13, 50, true);
    c->material[0].wood_kind = BW_WOOD_PANEL;
    c->material[1] = case_material("wool", "insulation", 50, 0.035, 1, false);
    c->material[1].mould_class = BW_MOULD_RESISTANT;
    c->material[2] = case_material("foil", "membrane", 0, 0, 0, false);
    c->material[2].density.known = false;
    c->material[2].thermal_conductivity.known = false;
    c->material[2].mu_dry.known = c->material[2].mu_wet.known = false;
    c->material[2].sd = case_value(2.0);
    c->material[3] = case_material("board", "board", 900, 0.25, 10, true);
    c->stud = case_material("softwood", "wood", 450, 0.12, 50, true);
    c->stud.wood_kind = BW_SOLID_WOOD;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c->layer[i] = (bw_layer){.id = names[i],
                                 .name = names[i],
                                 .kind = i == CASE_FOIL ? BW_LAYER_MEMBRANE
                                                        : BW_LAYER_SOLID,
                                 .material = &c->material[i],
                                 .thickness = thickness[i],
                                 .evidence = BW_EVIDENCE_TABULATED,
                                 .source = ""};
        const bw_material *m = &c->material[i];
        double sd = i == CASE_FOIL ? 2.0 : m->mu_dry.value * thickness[i];
        c->slab[i] = (bw_slab){
            .label = names[i],
            .layer = i,
            .material = m,
            .kind = c->layer[i].kind,
            .thickness = thickness[i],
            .resistance = i == CASE_FOIL
                              ? 0.0
                              : thickness[i] / m->thermal_conductivity.value,
            .sd_dry = sd,
            .sd_wet = sd};
    }
}

static inline void case_climate(bw_climate *climate)
{
    *climate = (bw_climate){.file = "test",
                            .place = "invented",
                            .source = "ISO 13788's example, from memory",
                            .licence = "",
                            .remark = "invented",
                            .humidity_reference = BW_OVER_ICE};
    for (int m = 0; m < BW_MONTHS; m++) {
        climate->month[m].temperature = case_theta_e[m];
        climate->month[m].vapour_pressure = bw_vapour_pressure(
            case_theta_e[m], case_phi_e[m], BW_OVER_ICE);
    }
}

/* A wall in the example climate: panel 9 mm, mineral wool 140 mm, a membrane
 * of sd 2 m, plasterboard; 20 degC, class 3 inside. */
static inline void case_make(criteria_case *c)
{
    memset(c, 0, sizeof *c);
    case_layers(c);
    case_climate(&c->climate);
    c->assembly = (bw_assembly){
        .file = "test",
        .id = "case",
        .title = "case",
        .remark = "",
        .outdoors = {.climate_path = "test"},
        .indoors = {.kind = BW_INDOOR_CLASS,
                    .temperature = 20.0,
                    .humidity_class = 3,
                    .margin = true},
        .layer_count = CASE_LAYERS,
        .layer = c->layer,
        .drying_test = {.wetting = 1.0, .after_layer = -1, .start_month = -1}};
    c->section = (bw_section){.name = "whole",
                              .fraction = 1.0,
                              .slab_count = CASE_LAYERS,
                              .slab = c->slab,
                              .outer_resistance = 0.04,
                              .inner_resistance = 0.25};
    c->rows = (bw_rows){.arena = &c->arena, .section = "whole"};
}

static inline void case_free(criteria_case *c)
{
    bw_arena_release(&c->arena);
}

static inline const bw_criterion *case_row(const criteria_case *c,
                                           bw_criterion_id id)
{
    const bw_row *row = bw_rows_find(&c->rows, "whole", id);
    return row != NULL ? &row->row : NULL;
}

/* By the steady methods, without advice. */
static inline bw_assessment *case_steady(const criteria_case *c)
{
    bw_assessment *a = NULL;
    const bw_assessment_options options = {.no_transient = true,
                                           .no_advice = true};
    ck_assert_int_eq(bw_assess(&a, &c->assembly, &c->climate, &options, NULL),
                     BW_OK);
    return a;
}

/* The first row of that name, of any section; NULL: none. */
static inline const bw_criterion *case_named(const bw_assessment *a,
                                             const char *name)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].criterion, name) == 0)
            return &a->criterion[i];
    return NULL;
}

/* One wet plane between sheathing and wool, as a run would report it. */
static inline bw_monthly_result case_result(bw_plane *plane, double peak)
{
    *plane = (bw_plane){
        .at = {CASE_SHEATHING, 0.009, true}, .peak = peak, .peak_month = 2};
    plane->month[2].accumulated = peak;
    return (bw_monthly_result){.plane_count = 1,
                               .plane = plane,
                               .condenses = peak > 0.0,
                               .cycles = 2,
                               .periodic = true,
                               .peak = peak,
                               .has_reserve = true,
                               .reserve = 0.5,
                               .converged = true};
}

/* Data enough for a simulation, all of it invented. */
static inline void case_make_hygroscopic(criteria_case *c)
{
    static const double rh[] = {0.5, 0.8}, u[] = {0.06, 0.12};
    c->material[CASE_INSULATION].hygroscopic = true;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c->material[i].sorption = (bw_curve){
            .count = 2, .x = rh, .y = u, .source = "test", .note = ""};
        c->material[i].specific_heat = case_value(1600.0);
        c->material[i].free_saturation = case_value(300.0);
    }
}

#endif
