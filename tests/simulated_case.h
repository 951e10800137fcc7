#ifndef BW_TESTS_SIMULATED_CASE_H
#define BW_TESTS_SIMULATED_CASE_H

/* A simulation of the wall of criteria_case.h as plain data, dry and clean all
 * over, to be made worse by hand. No number here is a result. */

#include "criteria_case.h"

/* The inner face of slab k is monitor k + 1; 0 is the outer face, the last one
 * the room face. */
enum { SIM_FACES = CASE_LAYERS + 1, SIM_ROOM = CASE_LAYERS };

typedef struct simulated_case {
    bw_monitor monitor[SIM_FACES];
    bw_place_mould mould[SIM_FACES];
    bw_slab_moisture slab[CASE_LAYERS];
    bw_wood_damage wood[CASE_LAYERS];
    bw_section_assessment part;
} simulated_case;

static inline void simulated_make(simulated_case *s, const criteria_case *c)
{
    memset(s, 0, sizeof *s);
    for (size_t i = 0; i < SIM_FACES; i++) {
        s->monitor[i] = (bw_monitor){.slab = i > 0 ? i - 1 : 0,
                                     .outer_face = i == 0,
                                     .room_face = i == SIM_ROOM,
                                     .label = "face",
                                     .mould_class = BW_MOULD_SENSITIVE,
                                     .first_year.month = -1,
                                     .last_year.month = -1,
                                     .first_free = {.month = -1, .hour = -1},
                                     .last_free = {.month = -1, .hour = -1}};
        s->mould[i].by_class.settled = s->mould[i].slow.settled = true;
    }
    for (size_t k = 0; k < CASE_LAYERS; k++) {
        s->slab[k].is_wood = c->slab[k].material->wood_kind != BW_NOT_WOOD;
        s->slab[k].limit = c->slab[k].material->wood_kind == BW_SOLID_WOOD
                               ? 0.20
                               : 0.18;
    }
    s->part = (bw_section_assessment){
        .section = &c->section,
        .transient_section = &c->section,
        .has_transient = true,
        .mould = s->mould,
        .wood = s->wood,
        .wetting_test = {.reason = "nothing", .nothing_at_risk = true},
        .transient = {.monitor_count = SIM_FACES,
                      .monitor = s->monitor,
                      .slab_count = CASE_LAYERS,
                      .slab = s->slab,
                      .years = 4,
                      .periodic = true}};
}

/* Index at the inner face of slab k, by class decline and by the slow one. */
static inline void simulated_mould(simulated_case *s, size_t k, double index,
                                   double slow)
{
    s->mould[k + 1].highest = index;
    s->mould[k + 1].highest_slow = slow;
}

/* Makes slab k wood, and hidden unless it is the outermost. */
static inline void simulated_wood(simulated_case *s, criteria_case *c, size_t k,
                                  bw_wood_kind kind)
{
    c->material[k].wood_kind = kind;
    s->slab[k].is_wood = true;
    s->slab[k].limit = kind == BW_SOLID_WOOD ? 0.20 : 0.18;
}

/* Judges it anew. */
static inline void simulated_judge(simulated_case *s, criteria_case *c)
{
    c->rows.count = 0;
    bw_judge_transient(&c->rows, &c->assembly, &s->part);
}

#endif
