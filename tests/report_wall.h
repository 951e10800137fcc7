#ifndef BW_TEST_REPORT_WALL_H
#define BW_TEST_REPORT_WALL_H

/* An assessment made by hand, every figure chosen, none computed: what the
 * report prints can be told apart from what a method thinks. */

#include <string.h>

#include "bothways/bothways.h"
#include "suite.h"

enum { WALL_SLABS = 3, WALL_PLANES = 4 };

typedef struct report_wall {
    bw_material material[WALL_SLABS];
    bw_layer layer[WALL_SLABS];
    bw_slab slab[WALL_SLABS];
    bw_section section;
    bw_plane plane[WALL_PLANES];
    double layer_sd[WALL_SLABS][BW_MONTHS];
    bool used_wet[WALL_SLABS];
    bw_assembly assembly;
    bw_climate climate;
    bw_section_assessment checked;
    bw_criterion criterion[2];
    bw_advice advice[1];
    bw_scope_item scope[1];
    bw_note note[1];
    bw_monitor monitor[2];
    bw_slab_moisture moisture[1];
    bw_hour_row hour[4];
    double hour_total[2];
    bw_assessment assessment;
    const bw_assessment *one;
    bw_results results; /* of it, for tables */
} report_wall;

static const double variable_x[] = {0.25, 0.9}, variable_y[] = {8.0, 0.4};

static inline bw_property report_property(double value, bw_basis basis,
                                          const char *source)
{
    return (bw_property){.known = true,
                         .value = value,
                         .basis = basis,
                         .source = source,
                         .note = ""};
}

static inline void report_layers(report_wall *w)
{
    static const char *const ids[] = {"board", "batt", "film"};
    static const char *const names[] = {"softboard", "hemp batt",
                                        "variable film"};
    static const double thickness[] = {0.012, 0.09, 0.0};
    static const double lambda[] = {0.05, 0.04, 0.0};
    static const double mu[] = {5.0, 2.0, 0.0};
    for (size_t i = 0; i < WALL_SLABS; i++) {
        bw_material *m = &w->material[i];
        *m = (bw_material){.id = ids[i],
                           .name = names[i],
                           .group = "board",
                           .remark = "",
                           .file = "m.xml",
                           .flags_source = ""};
        m->density.source = m->sd.source = "";
        if (lambda[i] > 0.0)
            m->thermal_conductivity = report_property(
                lambda[i], BW_BASIS_ESTIMATE, "trade, middle");
        if (mu[i] > 0.0)
            m->mu_dry = report_property(mu[i], BW_BASIS_FROM_MEMORY,
                                        "ISO 10456:2007 table 3");
        w->layer[i] = (bw_layer){.id = ids[i],
                                 .name = names[i],
                                 .material = m,
                                 .source = "",
                                 .kind = i == 2 ? BW_LAYER_MEMBRANE
                                                : BW_LAYER_SOLID,
                                 .thickness = thickness[i]};
        w->slab[i] = (bw_slab){
            .label = names[i],
            .layer = i,
            .material = m,
            .kind = w->layer[i].kind,
            .thickness = thickness[i],
            .resistance = lambda[i] > 0.0 ? thickness[i] / lambda[i] : 0.0,
            .sd_dry = mu[i] > 0.0 ? mu[i] * thickness[i] : 5.0,
            .dry_from = mu[i] > 0.0 ? &m->mu_dry : NULL,
            .wet_from = mu[i] > 0.0 ? &m->mu_dry : NULL};
    }
    w->material[2].sd_curve = (bw_curve){.count = 2,
                                         .x = variable_x,
                                         .y = variable_y,
                                         .source = "class",
                                         .note = ""};
    w->slab[2].sd_curve = &w->material[2].sd_curve;
    w->section = (bw_section){.name = "whole",
                              .fraction = 1.0,
                              .slab_count = WALL_SLABS,
                              .slab = w->slab,
                              .outer_resistance = 0.04,
                              .inner_resistance = 0.25};
}

static inline void report_planes(report_wall *w)
{
    for (size_t i = 0; i < WALL_PLANES; i++) {
        w->plane[i].at = (bw_plane_at){.slab = i > 0 ? i - 1 : 0,
                                       .layer_face = i > 0};
        for (int month = 0; month < BW_MONTHS; month++)
            w->plane[i].month[month] = (bw_plane_month){
                .theta = 5.0 + (double)i + month,
                .saturation_pressure = 800.0 + month,
                .vapour_pressure = 600.0 + month,
                .relative_humidity = 0.75,
                .sd_from_outside = 0.1 * (double)i};
    }
    w->plane[1].month[1].condensation = 0.0123456789;
    w->plane[1].month[1].accumulated = 0.4321;
    for (size_t i = 0; i < WALL_SLABS; i++)
        for (int month = 0; month < BW_MONTHS; month++)
            w->layer_sd[i][month] = 1.0 + (double)i + 0.01 * month;
}

static inline bw_monthly_result report_run(report_wall *w)
{
    return (bw_monthly_result){.plane_count = WALL_PLANES,
                               .used_wet = w->used_wet,
                               .plane = w->plane,
                               .slab_count = WALL_SLABS,
                               .layer_sd = w->layer_sd,
                               .condenses = true,
                               .start_month = 9,
                               .cycles = 1,
                               .periodic = true,
                               .peak = 0.4321,
                               .peak_month = 1,
                               .peak_plane = 1,
                               .condensed = 0.5,
                               .evaporated = 0.5,
                               .has_reserve = true,
                               .reserve = -0.25,
                               .critical_plane = 1,
                               .converged = true};
}

static inline void report_checked(report_wall *w)
{
    bw_section_assessment *c = &w->checked;
    c->section = &w->section;
    c->wetting_test.reason = "";
    for (int k = 0; k < BW_RUN_COUNT; k++)
        c->run[k] = (bw_monthly_run){
            .name = bw_monthly_run_name((bw_monthly_run_id)k), .reason = ""};
    static const bw_monthly_run_id ran[] = {BW_RUN_DESIGN, BW_RUN_WETTED_BOTH,
                                            BW_RUN_WETTED_OUTWARDS,
                                            BW_RUN_WETTED_INWARDS};
    for (size_t k = 0; k < COUNT(ran); k++) {
        c->run[ran[k]].ran = true;
        c->run[ran[k]].result = report_run(w);
    }
    c->run[BW_RUN_WETTED_BOTH].result.dried = true;
    c->run[BW_RUN_WETTED_BOTH].result.months_to_dry = 5.25;
    c->run[BW_RUN_WETTED_OUTWARDS].result.dried = true;
    c->run[BW_RUN_WETTED_OUTWARDS].result.months_to_dry = 7.5;
    c->run[BW_RUN_WETTED_INWARDS].result.left = 0.31;
    c->period = (bw_period_result){.which = BW_PERIOD_ONE_PLANE,
                                   .plane_count = 1,
                                   .condensed = 0.1,
                                   .evaporable = 0.35,
                                   .reserve = 0.25,
                                   .assessed = true};
    c->period.plane[0] = (bw_period_plane){
        .at = {.slab = 0, .layer_face = true},
        .sd_from_outside = 0.06,
        .condensed = 0.1,
        .evaporable = 0.35};
    c->surface_count = 1;
    c->surface[0] = (bw_surface_result){.where = "open-wall",
                                        .rsi = 0.25,
                                        .rsi_source = "ISO 13788",
                                        .frsi = 0.93,
                                        .frsi_required = 0.71,
                                        .highest_rh = 0.62};
    c->surface[0].month[0] = (bw_surface_month){.theta_e = 2.5,
                                                .p_e = 600.0,
                                                .theta_i = 20.0,
                                                .p_i = 1200.0,
                                                .theta_si = 18.75,
                                                .rh_si = 0.55,
                                                .meaningful = true,
                                                .frsi_required = 0.7125};
}

static inline void report_judged(report_wall *w)
{
    w->criterion[0] = (bw_criterion){
        .section = "whole",
        .criterion = "annual-balance",
        .title = "What condenses dries again within the year",
        .method = "monthly",
        .screening = true,
        .decides = true,
        .has_value = true,
        .value = 0.4321,
        .unit = "kg/m2",
        .has_limit = true,
        .limit = 0.1,
        .margin = -0.3321,
        .verdict = BW_FAILS,
        .reason = "February, \"softboard\", inner face",
        .rule = "ISO 13788:2012"};
    w->criterion[1] = (bw_criterion){.section = "whole",
                                     .criterion = "surface-mould",
                                     .title = "No mould on the room side",
                                     .method = "surface",
                                     .decides = true,
                                     .unit = "-",
                                     .verdict = BW_NOT_ASSESSED,
                                     .reason = "no month is cold enough",
                                     .rule = "ISO 13788:2012"};
    w->advice[0] = (bw_advice){.change = "Use a variable film inside.",
                               .criterion = "Drying reserve",
                               .section = "whole",
                               .unit = "kg/(m2 a)",
                               .before = 0.05,
                               .after = 0.2,
                               .verdict_before = BW_FAILS,
                               .fails_before = 1,
                               .has_reserve_after = true,
                               .reserve_after = 0.2,
                               .has_dry_after = true,
                               .dry_both_after = 3.0,
                               .dry_inwards_after = -1.0};
    w->scope[0] = (bw_scope_item){"hygroscopic layer: hemp batt",
                                  "the vapour it stores"};
    w->note[0] = (bw_note){BW_NOTE_WARNING, 7, "w.xml", "looks reversed"};
}

/* A simulation of two hours, watched at two places; asked for by the tests
 * that want one. */
static inline void report_simulate(report_wall *w)
{
    w->monitor[0] = (bw_monitor){.label = "outer face", .outer_face = true};
    w->monitor[1] = (bw_monitor){.label = "softboard",
                                 .room_face = true,
                                 .hours_above_80 = 1234.0,
                                 .highest_rh = 0.97,
                                 .highest_mould = 2.25,
                                 .final_mould = 1.75};
    w->monitor[0].month_rh[0] = 0.99;
    w->monitor[1].month_rh[1] = 0.91;
    w->moisture[0] = (bw_slab_moisture){.is_wood = true,
                                        .highest_wood_moisture = 0.213,
                                        .highest_month = 2,
                                        .hours_above_limit = 345.0,
                                        .limit = 0.18,
                                        .first_highest_wood_moisture = 0.243,
                                        .first_highest_month = 10,
                                        .weeks_to_limit = 14.2};
    for (int i = 0; i < 4; i++)
        w->hour[i] = (bw_hour_row){
            .theta = 1.5 + i, .phi = 0.8, .water_content = 40.0, .mould = 0.5};
    w->hour_total[0] = 3.25;
    w->hour_total[1] = 3.5;
    w->checked.has_transient = true;
    w->checked.transient_section = &w->section;
    w->checked.transient = (bw_transient_result){
        .method = "EN 15026 in one dimension",
        .synthetic_climate = true,
        .note_count = 1,
        .monitor_count = 2,
        .monitor = w->monitor,
        .slab_count = 1,
        .slab = w->moisture,
        .years = 3,
        .rising = true,
        .yearly_change = 0.321,
        .left_outwards = 0.654,
        .left_inwards = 0.1,
        .rain_absorbed = 0.2,
        .hour_count = 2,
        .first_month = 9,
        .hour = w->hour,
        .hour_total_water = w->hour_total};
    strcpy(w->checked.transient.note[0], "no rain in the climate");
}

/* Fills w; every pointer inside points into w or to constants. */
static inline void report_wall_make(report_wall *w)
{
    memset(w, 0, sizeof *w);
    report_layers(w);
    report_planes(w);
    report_checked(w);
    report_judged(w);
    w->assembly = (bw_assembly){.file = "w.xml",
                                .id = "demo",
                                .title = "A demo wall",
                                .remark = "",
                                .listed_outside_to_inside = true,
                                .layer_count = WALL_SLABS,
                                .layer = w->layer,
                                .note_count = 1,
                                .note = w->note,
                                .outdoors = {.climate_path = "c.csv"},
                                .drying_test = {.wetting = 1.0}};
    w->assembly.indoors = (bw_indoors){.kind = BW_INDOOR_CLASS,
                                       .temperature = 20.0,
                                       .humidity_class = 3,
                                       .margin = true};
    w->climate = (bw_climate){.file = "c.csv",
                              .place = "Estuary",
                              .source = "invented",
                              .licence = "",
                              .remark = "invented"};
    w->assessment = (bw_assessment){
        .assembly = &w->assembly,
        .climate = &w->climate,
        .section_count = 1,
        .section = &w->checked,
        .scope_count = 1,
        .scope = w->scope,
        .criterion_count = 2,
        .criterion = w->criterion,
        .advice_count = 1,
        .advice = w->advice,
        .advice_mends = true,
        .assumed_count = 1,
        .verdict = BW_FAILS,
        .verdict_reason = "More water gathers behind the softboard in winter "
                          "than a year can dry."};
    w->one = &w->assessment;
    w->results = (bw_results){.wall_count = 1, .wall = &w->one};
    w->assessment.thermal = (bw_thermal_result){.transmittance = 0.401,
                                                .resistance = 2.49};
}

/* mu of the board, drawn with 5: from 23.5 on a criterion fails. */
static inline bw_unknown report_unknown(void)
{
    return (bw_unknown){.kind = BW_UNKNOWN_RANGE,
                        .name = "mu of board",
                        .layer = "board",
                        .unit = "-",
                        .continuous = true,
                        .as_drawn = 5.0,
                        .low = 5.0,
                        .high = 60.0,
                        .low_words = "",
                        .high_words = "",
                        .seen = true,
                        .note = "",
                        .flips = true,
                        .flip_value = 23.5,
                        .flip_criterion = "annual-balance",
                        .flip_fails = true,
                        .flip_changes_verdict = true,
                        .swing_criterion = "annual-balance",
                        .swing = 1.0,
                        .swing_lowest = -0.5,
                        .swing_as_drawn = 0.5,
                        .swing_highest = 0.5};
}

#endif
