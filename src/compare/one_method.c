/* One method for all. A wall that was simulated beside one that was not would
 * win or lose by the method, not by what it is. */

#include "assessing.h"
#include "comparing.h"
#include "fail.h"

/* NULL, or why a section of it was not simulated. A room that cannot be was
 * refused by every method. */
static const char *missing(const bw_assessment *assessment)
{
    if (assessment->room_reason != NULL)
        return NULL;
    for (size_t i = 0; i < assessment->section_count; i++)
        if (!assessment->section[i].has_transient)
            return assessment->section[i].transient_reason;
    return NULL;
}

static size_t first_missing(const bw_compare_core *core)
{
    size_t i = 0;
    while (i < core->count && missing(core->assessment[i]) == NULL)
        i++;
    return i;
}

bw_status bw_compare_assess(bw_compare_core *core, bw_error *err)
{
    const bw_assessment_options *options = &core->options.assessment;
    core->tally.simulated += options->no_transient ? 0 : core->count;
    return bw_assess_several(&core->pool, &core->tally.meter,
                             options->no_transient ? 1.0 : BW_TICKS_SIMULATED,
                             core->assessment, core->assembly, core->climate,
                             core->count, options, err);
}

static bw_status assess_by_months(bw_compare_core *core, bw_error *err)
{
    for (size_t i = 0; i < core->count; i++)
        bw_assessment_free(core->assessment[i]);
    core->options.assessment.no_transient = true;
    return bw_compare_assess(core, err);
}

bool bw_compare_has_simulation(const bw_assessment *wall)
{
    for (size_t k = 0; k < wall->section_count; k++)
        if (wall->section[k].has_transient)
            return true;
    return false;
}

bool bw_compare_any_simulated(const bw_compare_core *core)
{
    for (size_t i = 0; i < core->count; i++)
        if (bw_compare_has_simulation(core->assessment[i]))
            return true;
    return false;
}

static void set_verdicts(bw_compare_core *core)
{
    const bool screening = core->comparison.by_months_reason != NULL;
    for (size_t i = 0; i < core->count; i++) {
        const bw_verdict verdict = core->assessment[i]->verdict;
        core->wall[i].verdict = screening && verdict != BW_FAILS
                                    ? BW_NOT_ASSESSED
                                    : verdict;
    }
}

bw_status bw_compare_one_method(bw_compare_core *core, bw_error *err)
{
    const size_t first = first_missing(core);
    const bool any = bw_compare_any_simulated(core);
    core->comparison.simulated = any && first == core->count;
    if (any && first < core->count) {
        core->comparison.by_months_reason = bw_compare_say(
            core, "%s could not be simulated: %s", core->wall[first].label,
            missing(core->assessment[first]));
        BW_TRY(assess_by_months(core, err));
    }
    set_verdicts(core);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
