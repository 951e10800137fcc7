#include "advice.h"

#include <assert.h>
#include <math.h>

#include "change.h"
#include "fail.h"

/* Advice: every change proposed is computed with the steady methods, the best
 * of each kind kept, and, where no single one mends the wall, the best pair
 * of kinds. Where the simulation decides, the best of each kind is simulated
 * as well and judged by that. Ranked by failing criteria, then by the worst
 * margin, then in the order proposed, so that the same wall always gets the
 * same advice. */

/* A change that mends no criterion must better the worst margin by this much
 * of the limit, and by this share of what is missing. */
static const double WORTH_SAYING = 0.05, WORTH_SHARE = 0.10;
/* Not more than this is advised, or simulated to find advice: a simulation
 * takes as long as all steady methods together a hundred times. */
enum { ADVICE_MOST = 3, SIMULATED_MOST = 4 };

typedef struct score {
    size_t fails, not_assessed;
    double worst_margin;       /* relative */
    bool has_reserve, has_dry; /* of every section */
    double reserve;
    double dry_both, dry_inwards;
} score;

typedef struct tried {
    bool used;
    score score;
    const char *text;
} tried;

typedef struct trial {
    bw_core *core;
    bw_assessment_options options;
    bool simulate;  /* the simulation decides */
    bw_arena arena; /* the changed assemblies */
    score before;
    bw_change change[BW_CHANGES_MOST];
    tried result[BW_CHANGES_MOST];
    size_t count;
    bw_error *err;
} trial;

static double months(const bw_monthly_result *run)
{
    return run->dried ? run->months_to_dry : -1.0;
}

/* The slower of two; negative is never. */
static double slower(double a, double b)
{
    return a < 0.0 || b < 0.0 ? -1.0 : fmax(a, b);
}

static void score_rows(score *s, const bw_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        const bw_row *row = &rows->row[i];
        if (!row->row.decides)
            continue;
        bool fails = row->row.verdict == BW_FAILS;
        s->fails += fails;
        s->not_assessed += row->row.verdict == BW_NOT_ASSESSED;
        /* a limit of zero that holds has no margin to speak of */
        bool counts = row->row.has_limit && (fails || fabs(row->row.limit) > 0);
        if (counts)
            s->worst_margin = fmin(s->worst_margin,
                                   bw_row_relative_margin(row));
    }
}

static score score_of(const bw_core *core)
{
    score s = {.worst_margin = HUGE_VAL,
               .has_reserve = true,
               .reserve = HUGE_VAL,
               .has_dry = true};
    score_rows(&s, &core->rows);
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        const bw_section_assessment *part = &core->part[i];
        s.has_reserve = s.has_reserve && part->has_design &&
                        part->design.has_reserve;
        s.has_dry = s.has_dry && part->has_dry;
        if (s.has_reserve)
            s.reserve = fmin(s.reserve, part->design.reserve);
        if (s.has_dry) {
            s.dry_both = slower(s.dry_both, months(&part->dry_both));
            s.dry_inwards = slower(s.dry_inwards, months(&part->dry_inwards));
        }
    }
    if (!isfinite(s.worst_margin))
        s.worst_margin = 0.0;
    if (!s.has_reserve)
        s.reserve = 0.0;
    if (!s.has_dry)
        s.dry_both = s.dry_inwards = -1.0;
    return s;
}

static bool all_simulated(const bw_core *core)
{
    for (size_t i = 0; i < core->assessment.section_count; i++)
        if (!core->part[i].has_transient)
            return false;
    return core->assessment.section_count > 0;
}

/* The methods on one assembly; *valid false: they gave no result that can be
 * compared with what was there before. */
static bw_status evaluate(trial *t, const bw_assembly *assembly, bool simulate,
                          score *out, bool *valid)
{
    bw_core core = {0};
    bw_run_effort effort = {.no_bound = true, .no_one_way = true};
    bw_error fault = {0};
    bw_status status = bw_core_steady(&core, assembly,
                                      t->core->assessment.climate,
                                      t->core->rows.limits, &effort, &fault);
    if (status == BW_OK && simulate)
        status = bw_run_transient(&core.assessment, core.part, &core.rows,
                                  &t->options, &effort, &fault);
    if (status == BW_OK)
        status = bw_core_judge(&core, simulate, &fault);
    *valid = status == BW_OK && (!simulate || all_simulated(&core));
    if (*valid)
        *out = score_of(&core);
    bw_core_release(&core);
    if (status != BW_ERR_MEMORY && status != BW_ERR_CANCELLED)
        return BW_OK;
    if (t->err != NULL)
        *t->err = fault;
    return status;
}

static bool better(const score *a, const score *b)
{
    if (a->fails != b->fails)
        return a->fails < b->fails;
    return a->worst_margin > b->worst_margin;
}

static bool worth(const trial *t, const score *s)
{
    if (s->fails != t->before.fails)
        return s->fails < t->before.fails;
    double before = t->before.worst_margin;
    double gain = fmax(WORTH_SAYING, WORTH_SHARE * fabs(before));
    return s->worst_margin > before + gain;
}

static bw_status try_one(trial *t, size_t index, bool simulate)
{
    tried *result = &t->result[index];
    const bw_assembly *changed = bw_change_apply(
        &t->arena, t->core->assessment.assembly, &t->change[index]);
    if (changed == NULL)
        return bw_fail_memory(t->err);
    result->text = t->change[index].text;
    return evaluate(t, changed, simulate, &result->score, &result->used);
}

/* Index of the best result of a kind, or count. */
static size_t best_of_kind(const trial *t, bw_change_kind kind)
{
    size_t best = t->count;
    for (size_t i = 0; i < t->count; i++)
        if (t->result[i].used && t->change[i].kind == kind &&
            (best == t->count ||
             better(&t->result[i].score, &t->result[best].score)))
            best = i;
    return best;
}

/* Text of two changes in one sentence. */
static const char *join(trial *t, const char *first, const char *second)
{
    char lower = second[0];
    if (lower >= 'A' && lower <= 'Z')
        lower = (char)(lower - 'A' + 'a');
    return bw_say(&t->core->rows, "%s, and %c%s", first, lower, second + 1);
}

static bw_status try_pair(trial *t, size_t i, size_t k, tried *best)
{
    const bw_assembly *changed = bw_change_apply(
        &t->arena, t->core->assessment.assembly, &t->change[i]);
    if (changed != NULL)
        changed = bw_change_apply(&t->arena, changed, &t->change[k]);
    if (changed == NULL)
        return bw_fail_memory(t->err);
    score got;
    bool valid = false;
    BW_TRY(evaluate(t, changed, false, &got, &valid));
    if (!valid || (best->used && !better(&got, &best->score)))
        return BW_OK;
    *best = (tried){.used = true,
                    .score = got,
                    .text = join(t, t->change[i].text, t->change[k].text)};
    return BW_OK;
}

static bw_status try_pairs(trial *t, const size_t best[BW_CHANGE_KINDS],
                           tried *pair)
{
    for (size_t i = 0; i < BW_CHANGE_KINDS; i++)
        for (size_t k = i + 1; k < BW_CHANGE_KINDS; k++)
            if (best[i] < t->count && best[k] < t->count)
                BW_TRY(try_pair(t, best[i], best[k], pair));
    return BW_OK;
}

static void rank(tried *result, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        tried moved = result[i];
        size_t k = i;
        for (; k > 0 && better(&moved.score, &result[k - 1].score); k--)
            result[k] = result[k - 1];
        result[k] = moved;
    }
}

static bw_status publish(trial *t, const tried *result, size_t count)
{
    bw_advice *advice = BW_NEW(&t->core->arena, bw_advice, count);
    if (advice == NULL)
        return bw_fail_memory(t->err);
    for (size_t i = 0; i < count; i++) {
        const score *after = &result[i].score;
        advice[i] = (bw_advice){
            .change = bw_say(&t->core->rows, "%s.", result[i].text),
            .fails_before = t->before.fails,
            .fails_after = after->fails,
            .not_assessed_after = after->not_assessed,
            .worst_margin_before = t->before.worst_margin,
            .worst_margin_after = after->worst_margin,
            .has_reserve_after = after->has_reserve,
            .reserve_after = after->reserve,
            .has_dry_after = after->has_dry,
            .dry_both_after = after->dry_both,
            .dry_inwards_after = after->dry_inwards};
    }
    t->core->assessment.advice = advice;
    t->core->assessment.advice_count = count;
    t->core->assessment.changes_tried = t->count;
    return t->core->rows.out_of_memory ? bw_fail_memory(t->err) : BW_OK;
}

/* Every change by the steady methods; where the simulation decides, then the
 * best of a few kinds by the simulation. best[kind]: count where there is none
 * worth saying. */
static bw_status try_all(trial *t, size_t best[BW_CHANGE_KINDS])
{
    static const bw_change_kind order[BW_CHANGE_KINDS] = {
        BW_CHANGE_MEMBRANE,  BW_CHANGE_OUTER_LAYER, BW_CHANGE_CAVITY,
        BW_CHANGE_RAIN,      BW_CHANGE_AIR,         BW_CHANGE_HUMIDITY,
        BW_CHANGE_INSULATION};
    for (size_t i = 0; i < t->count; i++)
        BW_TRY(try_one(t, i, false));
    size_t simulated = 0;
    for (size_t k = 0; k < BW_CHANGE_KINDS; k++) {
        size_t *found = &best[order[k]];
        *found = best_of_kind(t, order[k]);
        if (*found == t->count)
            continue;
        tried *result = &t->result[*found];
        if (t->simulate) {
            result->used = false;
            if (simulated++ < SIMULATED_MOST)
                BW_TRY(try_one(t, *found, true));
        }
        if (!result->used || !worth(t, &result->score))
            *found = t->count;
    }
    return BW_OK;
}

static bw_status advise(trial *t)
{
    if (t->simulate) {
        t->before = score_of(t->core);
    } else {
        bool valid = false;
        BW_TRY(evaluate(t, t->core->assessment.assembly, false, &t->before,
                        &valid));
        assert(valid); /* it was assessed before */
        (void)valid;
    }
    t->count = bw_changes_propose(t->change, &t->core->rows,
                                  t->core->assessment.assembly);
    tried kept[BW_CHANGE_KINDS + 1];
    size_t best[BW_CHANGE_KINDS], count = 0;
    BW_TRY(try_all(t, best));
    for (size_t kind = 0; kind < BW_CHANGE_KINDS; kind++)
        if (best[kind] < t->count)
            kept[count++] = t->result[best[kind]];
    rank(kept, count);
    if (!t->simulate && count > 1 && kept[0].score.fails > 0) {
        tried pair = {0};
        BW_TRY(try_pairs(t, best, &pair));
        if (pair.used && pair.score.fails < kept[0].score.fails)
            kept[count++] = pair;
        rank(kept, count);
    }
    return publish(t, kept, count < ADVICE_MOST ? count : ADVICE_MOST);
}

bw_status bw_advise(bw_core *core, const bw_assessment_options *options,
                    bw_error *err)
{
    bw_verdict verdict = core->assessment.verdict;
    bool simulate = all_simulated(core);
    if (verdict != BW_FAILS && (simulate || verdict != BW_MARGINAL))
        return BW_OK;
    trial t = {
        .core = core, .options = *options, .simulate = simulate, .err = err};
    t.options.transient.keep_hours = false;
    t.options.converge = false;
    bw_status status = advise(&t);
    bw_arena_release(&t.arena);
    return status;
}
