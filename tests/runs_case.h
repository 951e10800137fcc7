#ifndef BW_TESTS_RUNS_CASE_H
#define BW_TESTS_RUNS_CASE_H

/* A timber wall, what may be put outside of it, and its assessment: for suites
 * of what the runs of a section are given. */

#include "criteria_case.h"

static criteria_case c;
static bw_assessment *made;
static bw_material air, sheet;
static bw_layer layer[CASE_LAYERS + 2];

static inline void setup(void)
{
    case_make(&c);
    made = NULL;
    air = case_material("air", "air", 0, 0, 1, false);
    sheet = case_material("sheet", "board", 1500, 1.0, 20, false);
}

static inline void teardown(void)
{
    bw_assessment_free(made);
    case_free(&c);
}

static inline const bw_section_assessment *
assess(const bw_assessment_options *options)
{
    static const bw_assessment_options steady = {.no_transient = true,
                                                 .no_advice = true};
    bw_error err = {0};
    bw_assessment_free(made);
    made = NULL;
    bw_status status = bw_assess(&made, &c.assembly, &c.climate,
                                 options != NULL ? options : &steady, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return &made->section[0];
}

/* `first` outside the wall of the case. */
static inline void put_outside(const bw_layer *first, size_t count)
{
    for (size_t i = 0; i < count; i++)
        layer[i] = first[i];
    for (size_t i = 0; i < CASE_LAYERS; i++)
        layer[count + i] = c.layer[i];
    c.assembly.layer = layer;
    c.assembly.layer_count = CASE_LAYERS + count;
}

static inline bw_layer layer_of(const bw_material *material, bw_layer_kind kind,
                                double thickness)
{
    return (bw_layer){.id = material->id,
                      .name = material->name,
                      .kind = kind,
                      .material = material,
                      .thickness = thickness,
                      .evidence = BW_EVIDENCE_TABULATED,
                      .source = ""};
}
#endif
