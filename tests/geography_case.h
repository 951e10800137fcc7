#ifndef BW_TESTS_GEOGRAPHY_CASE_H
#define BW_TESTS_GEOGRAPHY_CASE_H

/* Walls of the plainest materials, layer by layer. All are made up here; what
 * they are compared with follows from the rules by eye. */

#include <check.h>
#include <string.h>

#include "bothways/geography.h"
#include "criteria_case.h"

enum {
    WOOL,
    SHEATHING,
    WOOD_FIBRE,
    FOAM,
    BITUMEN,
    FOIL,
    BRICK,
    CLT,
    AIR,
    MOST
};

static criteria_case c;
static bw_material material[MOST];
static bw_layer layer[8];
static bw_slab slab[8];
static bw_section section;

static inline void set_up(void)
{
    case_make(&c);
    material[WOOL] = case_material("wool", "insulation", 40, 0.035, 1, false);
    material[SHEATHING] = case_material("osb", "board", 620, 0.13, 100, true);
    material[SHEATHING].wood_kind = BW_WOOD_PANEL;
    material[WOOD_FIBRE] = case_material("wood-fibre-board", "insulation", 140,
                                         0.042, 5, true);
    material[WOOD_FIBRE].wood_kind = BW_WOOD_PANEL;
    material[FOAM] = case_material("foam", "insulation", 35, 0.025, 60, false);
    material[BITUMEN] = case_material("bitumen", "membrane", 1100, 0.23, 50000,
                                      false);
    material[FOIL] = case_material("foil", "membrane", 0, 0, 0, false);
    material[BRICK] = case_material("brick", "masonry", 1600, 0.6, 10, true);
    material[CLT] = case_material("clt", "wood", 450, 0.12, 50, true);
    material[CLT].wood_kind = BW_SOLID_WOOD;
    material[AIR] = case_material("air", "air", 1.2, 0.025, 1, false);
    for (size_t i = BITUMEN; i <= FOIL; i++) {
        material[i].mu_dry.known = material[i].mu_wet.known = false;
        material[i].sd = case_value(i == BITUMEN ? 200.0 : 1500.0);
        material[i].thickness = case_value(i == BITUMEN ? 0.004 : 0.0002);
        material[i].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    }
}

static inline void tear_down(void)
{
    bw_arena_release(&c.arena);
}

typedef struct part {
    int what;
    double thickness; /* m; 0: a membrane; air: well ventilated */
} part;

/* The wall of c, its layers and, kept whole, its section. */
static inline void build(const part *parts, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const bw_material *m = &material[parts[i].what];
        bool air = parts[i].what == AIR, sheet = parts[i].thickness <= 0.0;
        layer[i] = (bw_layer){.id = m->id,
                              .name = m->name,
                              .kind = air     ? BW_LAYER_CAVITY
                                      : sheet ? BW_LAYER_MEMBRANE
                                              : BW_LAYER_SOLID,
                              .material = m,
                              .thickness = parts[i].thickness,
                              .ventilation = air ? BW_VENT_WELL : BW_VENT_NONE,
                              .evidence = BW_EVIDENCE_TABULATED,
                              .source = ""};
        slab[i] = (bw_slab){.label = m->name,
                            .layer = i,
                            .material = m,
                            .kind = layer[i].kind,
                            .thickness = parts[i].thickness};
        if (layer[i].kind == BW_LAYER_SOLID) {
            slab[i].resistance = parts[i].thickness /
                                 m->thermal_conductivity.value;
            slab[i].sd_dry = slab[i].sd_wet = m->mu_dry.value *
                                              parts[i].thickness;
        } else {
            slab[i].sd_dry = slab[i].sd_wet = sheet ? m->sd.value : 0.01;
        }
    }
    c.assembly.layer = layer;
    c.assembly.layer_count = count;
    section = (bw_section){
        .name = "whole", .fraction = 1, .slab = slab, .slab_count = count};
}

static inline bw_geography find(void)
{
    bw_geography g;
    bw_geography_find(&g, &c.assembly, &section);
    return g;
}

#endif
