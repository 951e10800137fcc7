#ifndef BW_TESTS_FOUND_CASE_H
#define BW_TESTS_FOUND_CASE_H

/* The fixture of suites that look at the unknowns found of a wall: the timber
 * wall of criteria_case.h, whose layers may be clad, and a study of it by the
 * steady methods; made anew for each test. */

#include <math.h>
#include <stdlib.h>

#include "criteria_case.h"
#include "margin/steps.h"

enum { MOST_LAYERS = CASE_LAYERS + 2 };

static criteria_case c;
static bw_layer layers[MOST_LAYERS];
static bw_material air, tile;
static bw_arena arena;
static bw_study study;

static inline void setup(void)
{
    case_make(&c);
    air = case_material("air", "air", 1.2, 0.025, 1, false);
    tile = case_material("tile", "masonry", 2000, 1.0, 5e4, false);
    arena = (bw_arena){0};
    memcpy(layers, c.layer, CASE_LAYERS * sizeof *layers);
    c.assembly.layer = layers;
    study = (bw_study){.assembly = &c.assembly,
                       .climate = &c.climate,
                       .options = {.no_transient = true},
                       .arena = &arena};
}

static inline void teardown(void)
{
    bw_arena_release(&arena);
    case_free(&c);
}

static inline void find(void)
{
    study.count = 0;
    ck_assert_int_eq(bw_unknowns_find(&study, NULL), BW_OK);
}

/* The first unknown that changes this, of a layer where the kind is of one;
 * NULL: none. */
static inline const bw_source *source_of(bw_change_kind kind, size_t layer)
{
    for (size_t i = 0; i < study.count; i++) {
        const bw_source *s = &study.source[i];
        if (s->high.kind == kind &&
            (!bw_change_facts_of(&s->high).of_layer || s->high.layer == layer))
            return s;
    }
    return NULL;
}

static inline const bw_unknown *of_kind(bw_change_kind kind, size_t layer)
{
    const bw_source *s = source_of(kind, layer);
    return s != NULL ? &s->shown : NULL;
}

static inline const bw_unknown *of_property(bw_varied property, size_t layer)
{
    for (size_t i = 0; i < study.count; i++)
        if (study.source[i].high.kind == BW_CHANGE_PROPERTY &&
            study.source[i].high.property == property &&
            study.source[i].high.layer == layer)
            return &study.source[i].shown;
    return NULL;
}

/* A tile and a cavity outside of the wall. */
static inline void clad(bw_ventilation ventilation)
{
    memmove(layers + 2, layers, CASE_LAYERS * sizeof *layers);
    layers[0] = (bw_layer){.id = "tile",
                           .name = "tile",
                           .material = &tile,
                           .thickness = 0.02,
                           .source = ""};
    layers[1] = (bw_layer){.id = "gap",
                           .name = "gap",
                           .kind = BW_LAYER_CAVITY,
                           .material = &air,
                           .thickness = 0.03,
                           .ventilation = ventilation,
                           .source = ""};
    c.assembly.layer_count = MOST_LAYERS;
}

static inline bw_property ranged(double low, double value, double high)
{
    bw_property p = case_value(value);
    p.has_range = true;
    p.low = low;
    p.high = high;
    return p;
}

#endif
