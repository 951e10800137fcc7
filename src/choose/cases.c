#include <math.h>
#include <string.h>

#include "choosing.h"
#include "fail.h"

/* Cases are judged in chunks; each task writes its own, so that threads change
 * nothing, and what is known of an earlier run is not judged again. Between the
 * chunks the caller may keep what there is.
 *
 * Invariant: a case depends on the wall, the options and the seed alone. */

enum { CHUNK = 2048, CHUNK_SIMULATED = 48 };

/* ---- one ----------------------------------------------------------------- */

static void look(void *payload, const bw_assessment *assessment)
{
    bw_judged *j = payload;
    static const struct {
        bw_criterion_id id;
        bw_goal goal;
    } read[] = {{BW_C_RESERVE, BW_GOAL_RESERVE},
                {BW_C_MOULD_HIDDEN, BW_GOAL_MOULD},
                {BW_C_WOOD_MOISTURE, BW_GOAL_WOOD},
                {BW_C_PANEL_MOISTURE, BW_GOAL_WOOD}};
    for (size_t i = 0; i < assessment->criterion_count; i++)
        for (size_t k = 0; k < sizeof read / sizeof *read; k++) {
            const bw_criterion *row = &assessment->criterion[i];
            double *to = &j->goal[read[k].goal];
            if (!row->has_value ||
                strcmp(row->criterion,
                       bw_criterion_facts_of(read[k].id)->name) != 0)
                continue;
            /* wood by its limit, which panels have another of */
            const double is = read[k].goal != BW_GOAL_WOOD ? row->value
                              : row->has_limit && row->limit > 0.0
                                  ? 100.0 * row->value / row->limit
                                  : (double)NAN;
            *to = read[k].goal == BW_GOAL_RESERVE ? fmin(*to, is)
                                                  : fmax(*to, is);
        }
}

static bw_status judge(bw_choosing *c, const bw_job *job, bw_error *err)
{
    const bw_candidate *of = &c->candidate[job->design];
    bw_judged *to = bw_judged_of(c, job->design, job->slot, job->simulate);
    bw_judged j = {
        .value = (double)NAN, .limit = (double)NAN, .margin = (double)NAN};
    bw_arena scratch = {0};
    bw_study study = of->study;
    bw_case made;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        j.goal[g] = (double)NAN;
    bw_setting *setting = BW_NEW(&scratch, bw_setting, study.count + 1);
    BW_TRY_MEMORY(setting != NULL, err);
    study.options.no_transient = !job->simulate;
    bw_settings_of(c, job->design, job->slot, setting);
    bw_status status = bw_case_run_seen(&made, &study, setting, look, &j, err);
    bw_arena_release(&scratch);
    if (status != BW_OK)
        return status;
    const size_t key = bw_case_deciding_key(&made);
    j.done = true;
    j.simulated = made.simulated;
    j.said = made.said;
    j.numbers = made.verdict;
    j.deciding = -1;
    if (key < BW_CASE_KEYS) {
        j.deciding = (int)key;
        j.margin = made.margin[key];
        j.value = made.value[key];
        j.limit = made.limit[key];
        j.never = made.never[key];
    }
    *to = j;
    return BW_OK;
}

bw_figure bw_judged_figure(bw_arena *arena, const bw_judged *j)
{
    return bw_key_figure(arena,
                         j->deciding >= 0 ? (size_t)j->deciding : BW_CASE_KEYS,
                         j->value, j->limit, j->margin, j->never);
}

/* ---- many ---------------------------------------------------------------- */

typedef struct batch {
    bw_choosing *c;
    const bw_job *job;
} batch;

static bw_status run_one(void *payload, size_t index, bw_error *err)
{
    const batch *b = payload;
    return judge(b->c, &b->job[index], err);
}

bw_status bw_cases_keep(const bw_choosing *c, bool last, bw_error *err)
{
    if (c->options.keep == NULL)
        return BW_OK;
    const size_t each = 2 * bw_slot_count(&c->slots);
    bw_arena scratch = {0};
    bw_judged_at *all = BW_NEW(&scratch, bw_judged_at, c->count * each);
    size_t count = 0;
    BW_TRY_MEMORY(all != NULL, err);
    for (size_t i = 0; i < c->count * each; i++)
        if (c->judged[i].done)
            all[count++] = (bw_judged_at){i / each, i % each, c->judged[i]};
    const bw_status status = c->options.keep(c->options.keeper, all, count,
                                             last, err);
    bw_arena_release(&scratch);
    return status;
}

bw_status bw_jobs_run(bw_choosing *c, const bw_job *job, size_t count,
                      bw_error *err)
{
    bw_arena scratch = {0};
    bw_job *open = BW_NEW(&scratch, bw_job, count + 1);
    size_t left = 0;
    bw_status status = open == NULL ? bw_fail_memory(err) : BW_OK;
    for (size_t i = 0; status == BW_OK && i < count; i++) {
        if (bw_judged_of(c, job[i].design, job[i].slot, job[i].simulate)->done)
            (void)bw_tally_count(&c->tally, job[i].simulate);
        else
            open[left++] = job[i];
    }
    for (size_t at = 0; status == BW_OK && at < left;) {
        const size_t most = open[at].simulate ? CHUNK_SIMULATED : CHUNK;
        const size_t now = left - at < most ? left - at : most;
        batch b = {c, open + at};
        status = bw_pool_run(&c->pool, now, run_one, &b, err);
        at += now;
        if (status == BW_OK)
            status = bw_cases_keep(c, false, err);
    }
    bw_arena_release(&scratch);
    return status;
}

bw_status bw_known_take(bw_choosing *c, bw_error *err)
{
    const size_t each = 2 * bw_slot_count(&c->slots);
    for (size_t i = 0; i < c->options.known_count; i++) {
        const bw_judged_at *at = &c->options.known[i];
        if (at->design >= c->count || at->slot >= each ||
            at->judged.deciding >= BW_CASE_KEYS || !at->judged.done)
            return bw_fail(err, BW_ERR_INPUT, NULL, 0,
                           "a case kept is of design %zu, place %zu, which "
                           "this choice has not",
                           at->design, at->slot);
        c->judged[at->design * each + at->slot] = at->judged;
    }
    return BW_OK;
}
