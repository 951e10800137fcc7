#ifndef BW_CHOOSE_CHOOSING_H
#define BW_CHOOSE_CHOOSING_H

/* A choice being made. */

#include "bothways/choose.h"
#include "case.h"
#include "race.h"
#include "study.h"
#include "verdict.h"

/* What an unknown is, whichever design has it. */
typedef struct bw_finding_key {
    bw_change_kind kind;
    bw_varied property;
    const char *layer; /* id; "" */
    bool library;      /* the library's range of it */
} bw_finding_key;

/* A design while it is judged. */
typedef struct bw_candidate {
    const bw_assembly *assembly;
    bw_study study;  /* its unknowns, for what decides at last */
    size_t *finding; /* of each of them */
    double u, thickness;
    bool judged_out;    /* dropped: nothing more is computed */
    bool good_as_drawn; /* and of this part */
    bool broken;        /* by a finding alone */
} bw_candidate;

/* The cases of a design: as drawn, the two ends of each unknown, those drawn to
 * race, those drawn for the statement, and the worst of these with each unknown
 * as drawn again. By months, then simulated. */
typedef struct bw_slots {
    size_t unknowns, race, drawn; /* most of each */
} bw_slots;

enum { BW_SLOT_AS_DRAWN = 0 };

static inline size_t bw_slot_end(size_t unknown, size_t end)
{
    return 1 + 2 * unknown + end;
}

static inline size_t bw_slot_race(const bw_slots *s, size_t i)
{
    return 1 + 2 * s->unknowns + i;
}

static inline size_t bw_slot_drawn(const bw_slots *s, size_t i)
{
    return bw_slot_race(s, s->race) + i;
}

static inline size_t bw_slot_reset(const bw_slots *s, size_t unknown)
{
    return bw_slot_drawn(s, s->drawn) + unknown;
}

/* Of one method. */
static inline size_t bw_slot_count(const bw_slots *s)
{
    return bw_slot_reset(s, s->unknowns);
}

typedef struct bw_choosing {
    bw_chosen chosen; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_choose_options options;
    bw_pool pool;
    bw_tally tally;
    bw_assessment *base;
    size_t count;
    bw_design *design;
    bw_candidate *candidate;
    size_t finding_count;
    bw_finding *finding;
    bw_finding_key *key;
    bw_slots slots;
    bw_judged *judged;  /* [design][method][slot] */
    bw_race *statement; /* the race of the drawn cases; NULL: none yet */
} bw_choosing;

/* A case: what is judged of which design. */
typedef struct bw_job {
    size_t design, slot;
    bool simulate;
} bw_job;

static inline bw_judged *bw_judged_of(const bw_choosing *c, size_t design,
                                      size_t slot, bool simulated)
{
    const size_t each = bw_slot_count(&c->slots);
    return c->judged + (2 * design + (simulated ? 1U : 0U)) * each + slot;
}

/* designs.c: every design, its U and thickness, what is over a limit. */
bw_status bw_designs_make(bw_choosing *c, bw_error *err);

/* findings.c: the unknowns of every design left, and what they share. */
bw_status bw_findings_find(bw_choosing *c, bw_error *err);

/* settings.c: those of a case; room for study.count. */
void bw_settings_of(const bw_choosing *c, size_t design, size_t slot,
                    bw_setting *setting);

/* cases.c: judges what is not judged yet, in their order. */
bw_status bw_jobs_run(bw_choosing *c, const bw_job *job, size_t count,
                      bw_error *err);
bw_status bw_known_take(bw_choosing *c, bw_error *err);
bw_status bw_cases_keep(const bw_choosing *c, bool last, bw_error *err);
bw_figure bw_judged_figure(bw_arena *arena, const bw_judged *judged);

/* settings.c: of the drawn cases the worst, simulated or not; slots.drawn:
 * none. */
size_t bw_worst_drawn(const bw_choosing *c, size_t design);

/* stages.c */
bw_status bw_stages_run(bw_choosing *c, bw_error *err);

/* telling.c: what is said of it. */
bw_status bw_choice_tell(bw_choosing *c, bw_error *err);

/* front.c: who stays, ties, weights. */
bw_status bw_front_find(bw_choosing *c, bw_error *err);

#endif
