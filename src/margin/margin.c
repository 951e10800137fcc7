#include "bothways/margin.h"

#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "judge.h"
#include "steps.h"

/* As drawn, each unknown alone, all together, the map, the ensemble. */

/* With the steady methods an assessment takes a millisecond, with the
 * simulation seconds. */
enum { POINTS = 9, POINTS_SIMULATED = 5, ROUNDS = 6, ROUNDS_SIMULATED = 1 };
static const double TOLERANCE = 1e-4, TOLERANCE_SIMULATED = 1e-2;

typedef struct owner {
    bw_margin margin; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_assessment *assessment;
    size_t arenas; /* one for each unknown: threads share none */
    bw_arena *alone;
} owner;

typedef struct making {
    owner *own;
    bw_study study;
    bw_pool *pool;
    bw_tally tally;
    bw_case as_drawn; /* by the method that decides */
    bw_case base;     /* the same, by that of the unknowns */
    bw_ends *ends;
    size_t budget; /* of simulated cases; 0: all alike */
    bool steady;   /* nothing is simulated */
    bw_error *err;
} making;

/* The wall as drawn, with everything `check` computes, kept for the reader. */
static bw_status assess_as_drawn(making *m)
{
    bw_margin *out = &m->own->margin;
    BW_TRY(bw_assess_on(m->pool, &m->own->assessment, m->study.assembly,
                        m->study.climate, &m->study.options, m->err));
    bw_case_of(&m->as_drawn, m->own->assessment);
    out->assessment = m->own->assessment;
    out->as_drawn = m->own->assessment->verdict;
    if (!m->study.options.no_transient)
        m->as_drawn.verdict = m->own->assessment->verdict;
    out->outcome = m->as_drawn.verdict;
    out->map_limit = bw_reserve_limit(m->study.options.profile,
                                      m->study.assembly);
    if (!bw_tally_count(&m->tally, !m->study.options.no_transient))
        return bw_fail(m->err, BW_ERR_CANCELLED, NULL, 0,
                       "stopped before every case was computed");
    return BW_OK;
}

/* What the unknowns are laid beside: one method in one list. */
static bw_status set_base(making *m)
{
    bw_margin *out = &m->own->margin;
    m->base = m->as_drawn;
    m->study.options.no_one_way = m->study.options.no_frost = true;
    m->study.options.transient.keep_hours = false;
    if (m->budget > 0) {
        m->study.options.no_transient = true;
        BW_TRY(bw_case_assess(&m->base, &m->study, m->study.assembly, m->err));
    }
    out->screened = m->base.verdict;
    out->screening = m->base.screening;
    out->transient = !m->study.options.no_transient;
    return BW_OK;
}

/* The cases that tell most, and the dampest room, by the method that decides.
 */
static bw_status decide(making *m)
{
    bw_margin *out = &m->own->margin;
    bw_known_room room = {.set = false};
    m->study.options.no_transient = m->steady;
    if (m->budget > 0)
        BW_TRY(bw_simulate_cases(out, &m->study, &m->as_drawn, m->budget, &room,
                                 m->err));
    return bw_damp_search(out, &m->study, &m->as_drawn, &room, m->err);
}

static bw_status alone(void *payload, size_t index, bw_error *err)
{
    making *m = payload;
    return bw_vary_alone(&m->ends[index], &m->study, index, &m->base,
                         &m->own->alone[index], err);
}

static bw_status vary_each(making *m)
{
    size_t count = m->study.count;
    m->ends = BW_NEW(&m->own->arena, bw_ends, count + 1);
    m->own->alone = BW_NEW(&m->own->arena, bw_arena, count + 1);
    BW_TRY_MEMORY(m->ends != NULL && m->own->alone != NULL, m->err);
    m->own->arenas = count;
    return bw_pool_run(m->pool, count, alone, m, m->err);
}

/* Largest swing first; those that the methods cannot see last. */
static bool before(const bw_unknown *a, const bw_unknown *b)
{
    if (a->seen != b->seen)
        return a->seen;
    return a->swing > b->swing;
}

/* A flip of the verdict before any other, then the shortest way. */
static bool flips_before(const bw_unknown *a, const bw_unknown *b)
{
    if (a->flip_changes_verdict != b->flip_changes_verdict)
        return a->flip_changes_verdict;
    return a->flip_share < b->flip_share;
}

static bw_status rank(making *m)
{
    size_t count = m->study.count;
    bw_unknown *list = BW_NEW(&m->own->arena, bw_unknown, count + 1);
    BW_TRY_MEMORY(list != NULL, m->err);
    for (size_t i = 0; i < count; i++) {
        size_t k = i;
        const bw_unknown *u = &m->study.source[i].shown;
        for (; k > 0 && before(u, &list[k - 1]); k--)
            list[k] = list[k - 1];
        list[k] = *u;
    }
    bw_margin *out = &m->own->margin;
    out->unknown = list;
    out->unknown_count = out->first = count;
    for (size_t i = 0; i < count; i++)
        if (list[i].flips &&
            (out->first == count || flips_before(&list[i], &list[out->first])))
            out->first = i;
    return BW_OK;
}

/* The unknowns are found when the options are those they are varied with: what
 * the methods see depends on them. */
static bw_status make_parts(making *m, const bw_margin_options *options)
{
    bw_margin *out = &m->own->margin;
    BW_TRY(assess_as_drawn(m));
    BW_TRY(set_base(m));
    BW_TRY(bw_unknowns_find(&m->study, m->err));
    BW_TRY(vary_each(m));
    BW_TRY(rank(m));
    BW_TRY(bw_vary_together(out, &m->study, m->ends, &m->base, m->err));
    BW_TRY(bw_map_make(out, &m->study, m->own->assessment->section[0].section,
                       m->err));
    bool steady = m->study.options.no_transient;
    BW_TRY(decide(m));
    m->study.options.no_transient = steady || !options->ensemble_transient;
    return bw_ensemble_run(out, &m->study, options->ensemble, m->err);
}

static bw_status make(making *m, const bw_margin_options *options)
{
    bw_margin *out = &m->own->margin;
    out->map_note = "";
    enum { EACH = 20 }; /* evaluations of one unknown, about */
    size_t total = 1 + EACH * 20 + options->ensemble;
    if (m->budget > 0)
        total += (m->budget + 8) * BW_TICKS_SIMULATED;
    else if (!m->steady)
        total *= BW_TICKS_SIMULATED;
    bw_meter_start(&m->tally.meter, options->progress, options->payload,
                   (double)total);
    bw_status status = make_parts(m, options);
    out->evaluation_count = m->tally.steady;
    out->simulation_count = m->tally.simulated;
    bw_meter_end(&m->tally.meter);
    return status;
}

bw_status bw_margin_make_on(bw_pool *pool, bw_margin **out,
                            const bw_assembly *assembly,
                            const bw_climate *climate,
                            const bw_margin_options *options, bw_error *err)
{
    owner *own = calloc(1, sizeof *own);
    making *m = calloc(1, sizeof *m);
    bw_status status = BW_OK;
    if (own == NULL || m == NULL) {
        free(own);
        free(m);
        return bw_fail_memory(err);
    }
    m->own = own;
    m->err = err;
    m->pool = pool;
    m->study = (bw_study){.assembly = assembly,
                          .climate = climate,
                          .options = options->assessment,
                          .arena = &own->arena,
                          .pool = m->pool,
                          .tally = &m->tally};
    m->steady = options->assessment.no_transient;
    m->budget = m->steady ? 0 : options->simulations;
    bool steady = m->steady || m->budget > 0;
    m->study.wide = options->wide;
    m->study.library = options->library;
    m->study.points = steady ? POINTS : POINTS_SIMULATED;
    m->study.rounds = steady ? ROUNDS : ROUNDS_SIMULATED;
    m->study.tolerance = steady ? TOLERANCE : TOLERANCE_SIMULATED;
    own->margin.points = (size_t)m->study.points;
    own->margin.tolerance = m->study.tolerance;
    m->study.options.no_advice = true;
    m->study.options.transient.progress = bw_meter_alive;
    m->study.options.transient.payload = &m->tally.meter;
    status = make(m, options);
    free(m);
    if (status != BW_OK) {
        bw_margin_free(&own->margin);
        return status;
    }
    *out = &own->margin;
    return BW_OK;
}

bw_status bw_margin_make(bw_margin **out, const bw_assembly *assembly,
                         const bw_climate *climate,
                         const bw_margin_options *options, bw_error *err)
{
    const bw_margin_options defaults = {.assessment = {.no_transient = true}};
    bw_pool pool;
    if (options == NULL)
        options = &defaults;
    bw_pool_open(&pool, options->assessment.threads);
    const bw_status status = bw_margin_make_on(&pool, out, assembly, climate,
                                               options, err);
    bw_pool_close(&pool);
    return status;
}

void bw_margin_free(bw_margin *margin)
{
    if (margin == NULL)
        return;
    owner *own = (owner *)margin;
    for (size_t i = 0; i < own->arenas; i++)
        bw_arena_release(&own->alone[i]);
    bw_assessment_free(own->assessment);
    bw_arena_release(&own->arena);
    free(own);
}
