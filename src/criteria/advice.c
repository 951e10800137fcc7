#include "advice.h"

#include "best_two.h"
#include "fail.h"

/* Advice: every change proposed is computed with the steady methods, the best
 * of each kind kept, and, where no single one mends the wall, the best pair
 * of kinds. Where the simulation decides, the best of each kind is simulated
 * and judged by that alone; where none of them mends the wall, the best two
 * that act on different layers together. Ranked by failing criteria, then by
 * marginal ones, then by the worst margin, then in the order proposed, so that
 * the same wall always gets the same advice. */

/* Not more than this is advised, or simulated to find advice. */
enum { ADVICE_MOST = 3, SIMULATED_MOST = BW_TWO_OF_MOST };

typedef struct search {
    bw_core *core;
    const bw_assessment_options *options;
    bool simulate;  /* the simulation decides */
    bw_arena arena; /* the changed assemblies */
    bw_score before;
    bw_core steady;      /* the wall as it is by the steady methods alone */
    const bw_rows *rows; /* what the steady methods are compared with */
    bw_run_effort effort;
    bw_proposal change[BW_PROPOSALS_MOST];
    const bw_assembly *changed[BW_PROPOSALS_MOST];
    bw_tried result[BW_PROPOSALS_MOST];
    size_t count;
    size_t chosen[SIMULATED_MOST]; /* of them those simulated, in order */
    size_t chosen_count;
    bool pair; /* two together were tried */
    bw_error *err;
} search;

static bool all_simulated(const bw_core *core)
{
    for (size_t i = 0; i < core->assessment.section_count; i++)
        if (!core->part[i].has_transient)
            return false;
    return core->assessment.section_count > 0;
}

/* ---- single changes, by the steady methods ------------------------------ */

static bw_status try_change(void *payload, size_t i, bw_error *err)
{
    search *s = payload;
    s->result[i].text = s->change[i].text;
    return bw_try_steady(&s->result[i], s->rows, s->changed[i],
                         s->core->assessment.climate, &s->effort, err);
}

static bw_status try_steady(search *s)
{
    for (size_t i = 0; i < s->count; i++) {
        s->changed[i] = bw_change_apply(&s->arena, s->core->assessment.assembly,
                                        &s->change[i].change);
        BW_TRY_MEMORY(s->changed[i] != NULL, s->err);
    }
    return bw_pool_run(s->core->pool, s->count, try_change, s, s->err);
}

/* Index of the best result of a kind, or count. */
static size_t best_of_kind(const search *s, bw_proposal_kind kind)
{
    size_t best = s->count;
    for (size_t i = 0; i < s->count; i++)
        if (s->result[i].used && s->change[i].kind == kind &&
            (best == s->count ||
             bw_score_better(&s->result[i].score, &s->result[best].score)))
            best = i;
    return best;
}

/* ---- pairs --------------------------------------------------------------- */

/* Text of two changes in one sentence. */
static const char *join(search *s, const char *first, const char *second)
{
    char lower = second[0];
    if (lower >= 'A' && lower <= 'Z')
        lower = (char)(lower - 'A' + 'a');
    return bw_say(&s->core->rows, "%s, and %c%s", first, lower, second + 1);
}

static bw_status try_pair(search *s, size_t i, size_t k, bw_tried *best)
{
    const bw_assembly *changed = bw_change_apply(&s->arena, s->changed[i],
                                                 &s->change[k].change);
    bw_tried got = {0};
    BW_TRY_MEMORY(changed != NULL, s->err);
    BW_TRY(bw_try_steady(&got, s->rows, changed, s->core->assessment.climate,
                         &s->effort, s->err));
    if (!got.used || (best->used && !bw_score_better(&got.score, &best->score)))
        return BW_OK;
    *best = got;
    best->text = join(s, s->change[i].text, s->change[k].text);
    return BW_OK;
}

static bw_status try_pairs(search *s, const size_t best[BW_PROPOSAL_KINDS],
                           bw_tried *pair)
{
    for (size_t i = 0; i < BW_PROPOSAL_KINDS; i++)
        for (size_t k = i + 1; k < BW_PROPOSAL_KINDS; k++)
            if (best[i] < s->count && best[k] < s->count)
                BW_TRY(try_pair(s, best[i], best[k], pair));
    s->pair = pair->used;
    return BW_OK;
}

/* ---- the simulation ------------------------------------------------------ */

/* Whether all that is bad is what the steady methods alone decide: surfaces
 * and rules. What mends nothing by them mends nothing then. */
static bool steady_decides(const bw_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        const bw_criterion *row = &rows->row[i].row;
        if (row->decides && row->verdict != BW_HOLDS &&
            (rows->row[i].id >= BW_C_TRANSIENT || row->cross_check))
            return false;
    }
    return true;
}

/* The best of the first kinds that apply. */
static void choose(search *s)
{
    static const bw_proposal_kind order[BW_PROPOSAL_KINDS] = {
        BW_PROPOSE_LEAK,     BW_PROPOSE_MEMBRANE,  BW_PROPOSE_OUTER_LAYER,
        BW_PROPOSE_CAVITY,   BW_PROPOSE_RAIN,      BW_PROPOSE_AIR,
        BW_PROPOSE_HUMIDITY, BW_PROPOSE_INSULATION};
    const bool steady = steady_decides(&s->core->rows);
    const bw_score now = bw_score_of(s->rows, s->rows, (bw_score_scope){0});
    size_t count = 0;
    for (size_t k = 0; k < BW_PROPOSAL_KINDS && count < SIMULATED_MOST; k++) {
        const size_t best = best_of_kind(s, order[k]);
        if (best < s->count &&
            (!steady || bw_score_worth(&now, &s->result[best].score)))
            s->chosen[count++] = best;
    }
    s->chosen_count = count;
}

static bw_status try_candidate(void *payload, size_t index, bw_error *err)
{
    return bw_try_simulated((bw_simulated_trial *)payload + index, err);
}

/* A wall with a change, or two, and where its result goes. */
typedef struct candidate {
    const bw_assembly *changed;
    bool same_cells;
    bw_tried *out;
} candidate;

static bw_status simulate_candidates(search *s, const candidate *is,
                                     size_t count)
{
    const bw_climate *hours = s->core->assessment.climate;
    bw_simulated_trial trial[SIMULATED_MOST] = {0};
    bw_climate *generated = NULL;
    bw_meter meter;
    if (hours->hour_count == 0) {
        BW_TRY(bw_climate_generate(&generated, hours, s->err));
        hours = generated;
    }
    bw_meter_start(&meter, s->options->transient.progress,
                   s->options->transient.payload, (double)count);
    for (size_t i = 0; i < count; i++) {
        trial[i] = (bw_simulated_trial){.base = s->core,
                                        .hours = hours,
                                        .changed = is[i].changed,
                                        .same_cells = is[i].same_cells,
                                        .options = s->options->transient,
                                        .metered = {.meter = &meter},
                                        .out = is[i].out};
        trial[i].options.keep_hours = false;
    }
    const bw_status status = bw_pool_run(s->core->pool, count, try_candidate,
                                         trial, s->err);
    bw_meter_end(&meter);
    bw_climate_free(generated);
    return status;
}

static bw_status try_simulated(search *s)
{
    candidate is[SIMULATED_MOST];
    for (size_t i = 0; i < s->chosen_count; i++) {
        const size_t k = s->chosen[i];
        is[i] = (candidate){s->changed[k],
                            s->change[k].kind != BW_PROPOSE_INSULATION,
                            &s->result[k]};
    }
    return simulate_candidates(s, is, s->chosen_count);
}

static bw_status simulate_pair(search *s, bw_tried *pair)
{
    size_t two[2];
    if (!bw_best_two(two, s->change, s->result, s->chosen, s->chosen_count))
        return BW_OK;
    const bw_proposal *first = &s->change[two[0]], *second = &s->change[two[1]];
    const candidate is = {
        bw_change_apply(&s->arena, s->changed[two[0]], &second->change),
        first->kind != BW_PROPOSE_INSULATION &&
            second->kind != BW_PROPOSE_INSULATION,
        pair};
    BW_TRY_MEMORY(is.changed != NULL, s->err);
    s->pair = true;
    pair->text = join(s, first->text, second->text);
    return simulate_candidates(s, &is, 1);
}

/* ---- the whole ----------------------------------------------------------- */

static void rank(bw_tried *result, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        bw_tried moved = result[i];
        size_t k = i;
        for (; k > 0 && bw_score_better(&moved.score, &result[k - 1].score);
             k--)
            result[k] = result[k - 1];
        result[k] = moved;
    }
}

static bw_advice told(search *s, const bw_tried *tried)
{
    const bw_score *after = &tried->score;
    const bw_criterion *row = &after->gains->row;
    return (bw_advice){.change = bw_say(&s->core->rows, "%s.", tried->text),
                       .rain_leak = tried->leak,
                       .criterion = row->title,
                       .section = bw_say(&s->core->rows, "%s", row->section),
                       .unit = row->unit,
                       .before = row->value,
                       .after = after->value,
                       .verdict_before = row->verdict,
                       .verdict_after = after->verdict,
                       .fails_before = s->before.fails,
                       .fails_after = after->fails,
                       .marginal_before = s->before.marginal,
                       .marginal_after = after->marginal,
                       .not_assessed_after = after->not_assessed,
                       .worst_margin_before = s->before.worst_margin,
                       .worst_margin_after = after->worst_margin,
                       .has_reserve_after = tried->has_reserve,
                       .reserve_after = tried->reserve,
                       .has_dry_after = tried->has_dry,
                       .dry_both_after = tried->dry_both,
                       .dry_inwards_after = tried->dry_inwards};
}

static bw_status publish(search *s, const bw_tried *result, size_t count)
{
    bw_assessment *a = &s->core->assessment;
    bw_advice *advice = BW_NEW(&s->core->arena, bw_advice, count);
    BW_TRY_MEMORY(advice != NULL, s->err);
    for (size_t i = 0; i < count; i++) {
        const bw_score *after = &result[i].score;
        advice[i] = told(s, &result[i]);
        if (after->fails == 0 && after->not_assessed == 0 &&
            (a->verdict == BW_FAILS || after->marginal == 0))
            a->advice_mends = true;
    }
    a->advice = advice;
    a->advice_count = count;
    a->changes_tried = s->count;
    a->pair_tried = s->pair;
    return s->core->arena.failed ? bw_fail_memory(s->err) : BW_OK;
}

/* best[kind]: count where there is none worth saying. */
static bw_status find_singles(search *s, size_t best[BW_PROPOSAL_KINDS])
{
    BW_TRY(try_steady(s));
    if (s->simulate) {
        choose(s);
        for (size_t i = 0; i < s->count; i++)
            s->result[i].used = false;
        BW_TRY(try_simulated(s));
    }
    for (size_t kind = 0; kind < BW_PROPOSAL_KINDS; kind++) {
        best[kind] = best_of_kind(s, (bw_proposal_kind)kind);
        if (best[kind] < s->count &&
            !bw_score_worth(&s->before, &s->result[best[kind]].score))
            best[kind] = s->count;
    }
    return BW_OK;
}

static bw_status find(search *s)
{
    bw_tried kept[BW_PROPOSAL_KINDS + 1];
    size_t best[BW_PROPOSAL_KINDS], count = 0;
    BW_TRY(find_singles(s, best));
    for (size_t kind = 0; kind < BW_PROPOSAL_KINDS; kind++)
        if (best[kind] < s->count) {
            kept[count] = s->result[best[kind]];
            kept[count++].leak = kind == BW_PROPOSE_LEAK;
        }
    rank(kept, count);
    if (s->before.fails > 0 && (count == 0 || kept[0].score.fails > 0)) {
        bw_tried pair = {0};
        BW_TRY(s->simulate ? simulate_pair(s, &pair)
                           : try_pairs(s, best, &pair));
        if (pair.used && bw_score_worth(&s->before, &pair.score) &&
            (count == 0 || pair.score.fails < kept[0].score.fails))
            kept[count++] = pair;
        rank(kept, count);
    }
    return publish(s, kept, count < ADVICE_MOST ? count : ADVICE_MOST);
}

/* Where the simulation decides, what the steady methods say of the wall
 * without it: only to choose what is simulated. */
static bw_status start(search *s)
{
    const bw_assessment *a = &s->core->assessment;
    s->rows = &s->core->rows;
    s->before = bw_score_of(s->rows, s->rows, (bw_score_scope){0});
    s->effort.no_bound = s->simulate;
    s->effort.sun = &s->core->sun;
    if (s->simulate) {
        BW_TRY(bw_core_steady(&s->steady, a->assembly, a->climate,
                              s->core->rows.profile, &s->effort, s->err));
        BW_TRY(bw_core_judge(&s->steady, false, s->err));
        s->rows = &s->steady.rows;
    }
    s->count = bw_propose(s->change, &s->core->rows, a->assembly);
    return s->core->arena.failed ? bw_fail_memory(s->err) : BW_OK;
}

bw_status bw_advise(bw_core *core, const bw_assessment_options *options,
                    bw_error *err)
{
    const bw_verdict verdict = core->assessment.verdict;
    if (verdict != BW_FAILS && verdict != BW_MARGINAL)
        return BW_OK;
    search s = {.core = core,
                .options = options,
                .simulate = all_simulated(core),
                .err = err};
    bw_status status = start(&s);
    if (status == BW_OK)
        status = find(&s);
    bw_core_release(&s.steady);
    bw_arena_release(&s.arena);
    return status;
}
