#ifndef CHANGED_CASE_H
#define CHANGED_CASE_H

/* A wall to be changed, of one layer of each kind. */

#include <check.h>

#include "assembly/change.h"

#define KNOWN(v)                                                               \
    {                                                                          \
        .known = true, .value = (v), .source = "", .note = ""                  \
    }

static const double rh[] = {0.25, 0.5, 0.9}, sds[] = {5.0, 2.0, 0.5},
                    mus[] = {60.0, 40.0, 20.0};

static const bw_material board = {
    .id = "osb",
    .name = "Board of strands (OSB), 4",
    .group = "wood",
    .thermal_conductivity = KNOWN(0.13),
    .density = KNOWN(650),
    .specific_heat = KNOWN(1700),
    .mu_dry = KNOWN(50),
    .mu_wet = KNOWN(20),
    .mu_curve = {3, rh, mus, BW_BASIS_ESTIMATE, "", ""},
    .water_absorption = KNOWN(0.01),
    .wood_kind = BW_WOOD_PANEL};
static const bw_material wool = {.id = "wool",
                                 .name = "Wool",
                                 .group = "insulation",
                                 .thermal_conductivity = KNOWN(0.04),
                                 .mu_dry = KNOWN(1)};
static const bw_material timber = {.id = "timber",
                                   .name = "Timber (spruce)",
                                   .group = "wood",
                                   .mu_dry = KNOWN(60),
                                   .mu_wet = KNOWN(30),
                                   .wood_kind = BW_SOLID_WOOD};
static const bw_material sheet = {
    .id = "sheet", .name = "Sheet", .group = "membrane", .sd = KNOWN(20)};
static const bw_material smart = {
    .id = "smart",
    .name = "Smart sheet",
    .group = "membrane",
    .mu_curve = {3, rh, mus, BW_BASIS_ESTIMATE, "", ""},
    .sd_curve = {3, rh, sds, BW_BASIS_ESTIMATE, "", ""}};
static const bw_material air = {.id = "air", .name = "air", .group = "air"};

enum { GAP, BOARD, WOOL, SHEET, SMART, LAYERS };

static bw_layer layer[LAYERS];
static bw_assembly wall;
static bw_arena arena;

static inline void setup(void)
{
    arena = (bw_arena){0};
    layer[GAP] = (bw_layer){.id = "gap",
                            .name = "Gap",
                            .kind = BW_LAYER_CAVITY,
                            .material = &air,
                            .thickness = 0.04,
                            .ventilation = BW_VENT_SLIGHT,
                            .air_change = 0.01};
    layer[BOARD] = (bw_layer){.id = "OSB",
                              .name = board.name,
                              .kind = BW_LAYER_SOLID,
                              .material = &board,
                              .thickness = 0.018};
    layer[WOOL] = (bw_layer){
        .id = "bay",
        .name = "Wool",
        .kind = BW_LAYER_SOLID,
        .material = &wool,
        .thickness = 0.16,
        .resistance = KNOWN(4.2),
        .has_initial_moisture = true,
        .initial_moisture = 0.1,
        .framing = {.present = true, .material = &timber, .depth = 0.16}};
    layer[SHEET] = (bw_layer){.id = "vcl",
                              .name = "Sheet ",
                              .kind = BW_LAYER_MEMBRANE,
                              .material = &sheet};
    layer[SMART] = (bw_layer){.id = "smart",
                              .name = ", odd",
                              .kind = BW_LAYER_MEMBRANE,
                              .material = &smart};
    wall = (bw_assembly){.id = "w",
                         .layer_count = LAYERS,
                         .layer = layer,
                         .indoors = {.kind = BW_INDOOR_CLASS,
                                     .humidity_class = 3,
                                     .temperature = 20.0,
                                     .relative_humidity = 0.525},
                         .outdoors = {.driving_rain = BW_RAIN_SEVERE},
                         .air_leakage = {.given = true, .q50 = 3.0 / 3600.0},
                         .rain_leak = {true, 0.012, BOARD}};
}

static inline void teardown(void)
{
    bw_arena_release(&arena);
}

#endif
