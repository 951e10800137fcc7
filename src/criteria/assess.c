#include <stdlib.h>

#include "advice.h"
#include "assessing.h"
#include "bothways/assessment.h"
#include "bothways/profile.h"
#include "fail.h"
#include "verdict.h"

/* bw_assess: run, judge, advise; one wall or several on the same threads. */

static bw_status publish(bw_core *core, bw_error *err)
{
    bw_assessment *a = &core->assessment;
    bw_criterion *criterion = BW_NEW(&core->arena, bw_criterion,
                                     core->rows.count);
    BW_TRY_MEMORY(criterion != NULL, err);
    for (size_t i = 0; i < core->rows.count; i++)
        criterion[i] = core->rows.row[i].row;
    a->criterion = criterion;
    a->criterion_count = core->rows.count;
    const bw_row *named = a->room_reason == NULL ? bw_verdict_row(&core->rows)
                                                 : NULL;
    if (named != NULL)
        a->deciding = &criterion[named - core->rows.row];
    const bw_profile *profile = core->rows.profile;
    a->profile = bw_say(
        &core->rows, "%s",
        (profile != NULL ? profile : bw_profile_default())->name);
    a->verdict = bw_verdict_overall(&core->rows);
    a->verdict_reason =
        a->room_reason != NULL
            ? bw_say(&core->rows, "No such room: %s.", a->room_reason)
            : bw_verdict_reason(&core->rows, a->scope, a->scope_count);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}

static bw_status assess(bw_core *core, const bw_assembly *assembly,
                        const bw_climate *climate,
                        const bw_assessment_options *options, bw_error *err)
{
    if (options->profile != NULL)
        BW_TRY(bw_profile_check(options->profile, err));
    bw_run_effort all = {.no_bound = false};
    BW_TRY(
        bw_core_steady(core, assembly, climate, options->profile, &all, err));
    BW_TRY(bw_run_transient(core->pool, &core->assessment, core->part,
                            &core->rows, options, err));
    BW_TRY(bw_core_judge(core, !options->no_transient, err));
    BW_TRY(publish(core, err));
    if (!options->no_advice)
        BW_TRY(bw_advise(core, options, err));
    if (assembly->junction_count == 0)
        return BW_OK;
    BW_TRY(bw_core_junctions(core, options->profile, err));
    return publish(core, err);
}

bw_status bw_assess_on(bw_pool *pool, bw_assessment **out,
                       const bw_assembly *assembly, const bw_climate *climate,
                       const bw_assessment_options *options, bw_error *err)
{
    bw_core *core = calloc(1, sizeof *core);
    BW_TRY_MEMORY(core != NULL, err);
    core->pool = pool;
    bw_status status = assess(core, assembly, climate, options, err);
    if (status != BW_OK) {
        bw_assessment_free(&core->assessment);
        return status;
    }
    *out = &core->assessment;
    return BW_OK;
}

/* ---- several walls ------------------------------------------------------- */

typedef struct several {
    bw_pool *pool;
    bw_meter *meter;
    double share;
    bw_assessment **out;
    const bw_assembly *const *assembly;
    const bw_climate *const *climate;
    const bw_assessment_options *options;
} several;

static bw_status assess_one(void *payload, size_t i, bw_error *err)
{
    several *all = payload;
    bw_metered metered = {.meter = all->meter, .share = all->share};
    bw_assessment_options options = *all->options;
    options.transient.progress = bw_meter_tell;
    options.transient.payload = &metered;
    BW_TRY(bw_assess_on(all->pool, &all->out[i], all->assembly[i],
                        all->climate[i], &options, err));
    bw_meter_tell(&metered, 1.0);
    return BW_OK;
}

bw_status bw_assess_several(bw_pool *pool, bw_meter *meter, double share,
                            bw_assessment **out,
                            const bw_assembly *const *assembly,
                            const bw_climate *const *climate, size_t count,
                            const bw_assessment_options *options, bw_error *err)
{
    several all = {pool, meter, share, out, assembly, climate, options};
    for (size_t i = 0; i < count; i++)
        out[i] = NULL;
    const bw_status status = bw_pool_run(pool, count, assess_one, &all, err);
    for (size_t i = 0; status != BW_OK && i < count; i++) {
        bw_assessment_free(out[i]);
        out[i] = NULL;
    }
    return status;
}

bw_status bw_assess_all(bw_assessment **out, const bw_assembly *const *assembly,
                        const bw_climate *const *climate, size_t count,
                        const bw_assessment_options *options, bw_error *err)
{
    const bw_assessment_options defaults = {.no_transient = false};
    bw_pool pool;
    bw_meter meter;
    if (options == NULL)
        options = &defaults;
    bw_pool_open(&pool, options->threads);
    bw_meter_start(&meter, options->transient.progress,
                   options->transient.payload, (double)count);
    const bw_status status = bw_assess_several(
        &pool, &meter, 1.0, out, assembly, climate, count, options, err);
    bw_meter_end(&meter);
    bw_pool_close(&pool);
    return status;
}

bw_status bw_assess(bw_assessment **out, const bw_assembly *assembly,
                    const bw_climate *climate,
                    const bw_assessment_options *options, bw_error *err)
{
    const bw_assessment_options defaults = {.no_transient = false};
    bw_pool pool;
    if (options == NULL)
        options = &defaults;
    bw_pool_open(&pool, options->threads);
    const bw_status status = bw_assess_on(&pool, out, assembly, climate,
                                          options, err);
    bw_pool_close(&pool);
    return status;
}

void bw_assessment_free(bw_assessment *assessment)
{
    if (assessment == NULL)
        return;
    bw_core *core = (bw_core *)assessment;
    bw_core_release(core);
    free(core);
}
