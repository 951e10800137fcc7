#include <stdlib.h>

#include "comparing.h"
#include "fail.h"

/* bw_compare: the steps in order, and the memory. */

static bw_status check_call(const bw_compare_core *core, size_t count,
                            bw_error *err)
{
    const bw_compare_options *o = &core->options;
    if (count < BW_COMPARE_FEWEST || count > BW_COMPARE_MOST)
        return bw_fail_usage(
            err, "%zu wall%s given; a comparison takes %d to %d", count,
            count == 1 ? "" : "s", BW_COMPARE_FEWEST, BW_COMPARE_MOST);
    if (o->conditions_may_differ && o->equal != BW_EQUAL_AS_DRAWN)
        return bw_fail_usage(err, "--as-drawn and --equal contradict each "
                                  "other: nothing is held equal as drawn");
    if ((o->scaled_layer != NULL || o->scale_framing) &&
        o->equal == BW_EQUAL_AS_DRAWN)
        return bw_fail_usage(err,
                             "--scale-%s says what to rescale, but nothing is "
                             "rescaled without --equal u or --equal thickness",
                             o->scaled_layer != NULL ? "layer" : "studs");
    return BW_OK;
}

static bw_status assess(bw_compare_core *core, bw_error *err)
{
    BW_TRY(bw_compare_assess(core, err));
    BW_TRY(bw_compare_one_method(core, err));
    BW_TRY(bw_compare_stresses(core, err));
    BW_TRY(bw_compare_rank(core, err));
    return bw_compare_air(core, err);
}

/* As drawn, and under each stress. */
static bw_status assess_on_a_pool(bw_compare_core *core, bw_error *err)
{
    enum { CASES = 5 };
    const bw_assessment_options *options = &core->options.assessment;
    const size_t each = options->no_transient ? 1 : BW_TICKS_SIMULATED;
    bw_pool_open(&core->pool, options->threads);
    bw_meter_start(&core->tally.meter, options->transient.progress,
                   options->transient.payload,
                   (double)(CASES * each * core->count));
    const bw_status status = assess(core, err);
    core->comparison.simulation_count = core->tally.simulated;
    bw_meter_end(&core->tally.meter);
    bw_pool_close(&core->pool);
    return status;
}

static bw_status compare(bw_compare_core *core, bw_error *err)
{
    BW_TRY(bw_compare_conditions(core, err));
    BW_TRY(bw_compare_rescale(core, err));
    BW_TRY(assess_on_a_pool(core, err));
    for (size_t i = 0; i < core->count; i++)
        core->wall[i].assessment = core->assessment[i];
    core->comparison.equal = core->options.equal;
    core->comparison.wall_count = core->count;
    core->comparison.wall = core->wall;
    BW_TRY(bw_compare_table(core, err));
    BW_TRY(bw_compare_traits(core, err));
    return bw_compare_sentences(core, err);
}

bw_status bw_compare(bw_comparison **out, const bw_assembly *const *assembly,
                     const bw_climate *const *climate, size_t count,
                     const bw_compare_options *options, bw_error *err)
{
    bw_compare_core *core = calloc(1, sizeof *core);
    BW_TRY_MEMORY(core != NULL, err);
    if (options != NULL)
        core->options = *options;
    bw_status status = check_call(core, count, err);
    if (status == BW_OK) {
        core->count = count;
        for (size_t i = 0; i < count; i++) {
            core->given[i] = assembly[i];
            core->climate[i] = climate[i];
        }
        status = compare(core, err);
    }
    if (status != BW_OK) {
        bw_comparison_free(&core->comparison);
        return status;
    }
    *out = &core->comparison;
    return BW_OK;
}

void bw_comparison_free(bw_comparison *comparison)
{
    if (comparison == NULL)
        return;
    bw_compare_core *core = (bw_compare_core *)comparison;
    for (size_t i = 0; i < core->count; i++)
        bw_assessment_free(core->assessment[i]);
    bw_arena_release(&core->arena);
    free(core);
}
