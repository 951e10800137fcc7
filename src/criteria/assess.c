#include <stdlib.h>

#include "advice.h"
#include "bothways/assessment.h"
#include "bothways/profile.h"
#include "core.h"
#include "fail.h"
#include "verdict.h"

/* bw_assess: run, judge, advise. */

static bw_status publish(bw_core *core, bw_error *err)
{
    bw_assessment *a = &core->assessment;
    bw_criterion *criterion = BW_NEW(&core->arena, bw_criterion,
                                     core->rows.count);
    if (criterion == NULL)
        return bw_fail_memory(err);
    for (size_t i = 0; i < core->rows.count; i++)
        criterion[i] = core->rows.row[i].row;
    a->criterion = criterion;
    a->criterion_count = core->rows.count;
    a->profile = bw_say(&core->rows, "%s",
                        core->rows.limits->profile != NULL
                            ? core->rows.limits->profile->name
                            : bw_profile_default()->name);
    a->verdict = bw_verdict_overall(&core->rows);
    a->verdict_reason =
        a->room_reason != NULL
            ? bw_say(&core->rows, "No such room: %s.", a->room_reason)
            : bw_verdict_reason(&core->rows, a->scope, a->scope_count);
    return core->rows.out_of_memory ? bw_fail_memory(err) : BW_OK;
}

static bw_status assess(bw_core *core, const bw_assembly *assembly,
                        const bw_climate *climate,
                        const bw_assessment_options *options, bw_error *err)
{
    if (options->profile != NULL)
        BW_TRY(bw_profile_check(options->profile, err));
    core->limits = bw_limits_under(options->profile);
    bw_run_effort all = {.no_bound = false};
    BW_TRY(bw_core_steady(core, assembly, climate, &core->limits, &all, err));
    BW_TRY(bw_run_transient(&core->assessment, core->part, &core->rows, options,
                            err));
    BW_TRY(bw_core_judge(core, !options->no_transient, err));
    BW_TRY(publish(core, err));
    if (options->no_advice)
        return BW_OK;
    return bw_advise(core, options, err);
}

bw_status bw_assess(bw_assessment **out, const bw_assembly *assembly,
                    const bw_climate *climate,
                    const bw_assessment_options *options, bw_error *err)
{
    const bw_assessment_options defaults = {.no_transient = false};
    bw_core *core = calloc(1, sizeof *core);
    if (core == NULL)
        return bw_fail_memory(err);
    bw_status status = assess(core, assembly, climate,
                              options != NULL ? options : &defaults, err);
    if (status != BW_OK) {
        bw_assessment_free(&core->assessment);
        return status;
    }
    *out = &core->assessment;
    return BW_OK;
}

void bw_assessment_free(bw_assessment *assessment)
{
    if (assessment == NULL)
        return;
    bw_core *core = (bw_core *)assessment;
    bw_core_release(core);
    free(core);
}
