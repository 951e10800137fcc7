#ifndef BW_COMPARE_COMPARING_H
#define BW_COMPARE_COMPARING_H

/* One comparison being made, and its steps in order. */

#include "arena.h"
#include "bothways/compare.h"
#include "study.h"

typedef struct bw_compare_core {
    bw_comparison comparison; /* first: users hold a pointer to it */
    bw_arena arena;           /* every string and array of it */
    bw_compare_options options;
    size_t count;
    const bw_assembly *given[BW_COMPARE_MOST];    /* the caller's */
    const bw_climate *climate[BW_COMPARE_MOST];   /* the caller's */
    const bw_assembly *assembly[BW_COMPARE_MOST]; /* rescaled or given */
    bw_assessment *assessment[BW_COMPARE_MOST];
    bw_compared wall[BW_COMPARE_MOST];
    bw_pool pool;   /* of every assessment */
    bw_tally tally; /* its meter counts steady assessments */
} bw_compare_core;

/* Assesses every wall as it stands. */
bw_status bw_compare_assess(bw_compare_core *core, bw_error *err);

/* Names the walls, finds what is not the same for all, and refuses different
 * climates and rooms unless they are allowed. */
bw_status bw_compare_conditions(bw_compare_core *core, bw_error *err);

/* Fills core->assembly: the given ones, or copies with one layer as thick as
 * it takes. */
bw_status bw_compare_rescale(bw_compare_core *core, bw_error *err);

/* The first solid layer drawn without a thickness, which makes the sum of them
 * meaningless; NULL if there is none. */
const bw_layer *bw_compare_unmeasured(const bw_assembly *assembly);

/* Judges them all by one method: where one of them could not be simulated, all
 * are assessed again by months, and none is said to hold. Sets the walls'
 * verdicts. */
bw_status bw_compare_one_method(bw_compare_core *core, bw_error *err);

/* Every wall under the same stresses, and how many it holds; then their order.
 */
bw_status bw_compare_stresses(bw_compare_core *core, bw_error *err);
bw_status bw_compare_rank(bw_compare_core *core, bw_error *err);

/* Whether a wall stands before another for want of leaking air. */
bw_status bw_compare_air(bw_compare_core *core, bw_error *err);

/* In what the best differ, of the rows and stresses. */
bw_status bw_compare_traits(bw_compare_core *core, bw_error *err);

/* One wall, to be assessed again with something changed. */
bw_study bw_compare_study(bw_compare_core *core, size_t wall);

/* Some section of a wall, of any wall. */
bool bw_compare_has_simulation(const bw_assessment *wall);
bool bw_compare_any_simulated(const bw_compare_core *core);

/* The rows, then the sentences. */
bw_status bw_compare_table(bw_compare_core *core, bw_error *err);
bw_status bw_compare_sentences(bw_compare_core *core, bw_error *err);

/* ---- words.c ----------------------------------------------------------- */

/* Text in the arena, looked at once, at the end: core->arena.failed. */
#define bw_compare_say(core, ...) bw_arena_say(&(core)->arena, __VA_ARGS__)

/* A number with so many decimals. */
const char *bw_compare_number(bw_compare_core *core, double value,
                              int decimals);

/* A number with six figures: two that differ read differently. */
const char *bw_compare_exact(bw_compare_core *core, double value);

/* kg/m2 as grams, as many figures as the reports show. */
const char *bw_compare_grams(bw_compare_core *core, double kg_per_m2);

/* "a", "a and b", "a, b and c", of those items that are not NULL. */
const char *bw_compare_list(bw_compare_core *core, const char *const *item,
                            size_t count);

/* "a: x; b: y" with the walls' labels. */
const char *bw_compare_each(bw_compare_core *core, const char *const *text);

#endif
