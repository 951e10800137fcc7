#include <stdlib.h>

#include "assessing.h"
#include "auditing.h"
#include "change.h"
#include "fail.h"
#include "meter.h"
#include "steps.h"

/* bw_audit_make: fingerprint, weigh the evidence; assess, vary, forecast and
 * assess as built on the same threads.
 *
 * Invariant: what runs at once writes to an arena of its own. */

static bw_status keep_text(bw_audit_core *core, const char **out,
                           const char *text, bw_error *err)
{
    *out = bw_arena_copy(&core->arena, text != NULL ? text : "");
    return *out != NULL ? BW_OK : bw_fail_memory(err);
}

/* Over which a wall leaks whose file says nothing of it [m]: of a house of two
 * storeys and its gable or more (common practice, no source; the larger of what
 * is plausible, so that to say nothing is never milder). */
static const double UNSTATED_HEIGHT = 10.0;

/* The wall as it is computed: as leaky as its test may mean. */
static bw_status computed(bw_audit_core *core, const bw_assembly **out,
                          bw_error *err)
{
    const double q50 = core->audit.computed_q50;
    *out = core->assembly;
    if (q50 <= 0.0)
        return BW_OK;
    const bw_change leak = bw_change_to(BW_CHANGE_AIR_LEAKAGE, 0, q50);
    const bw_assembly *leaky = bw_change_apply(&core->arena, core->assembly,
                                               &leak);
    bw_assembly *wall = BW_NEW(&core->arena, bw_assembly, 1);
    BW_TRY_MEMORY(leaky != NULL && wall != NULL, err);
    *wall = *leaky;
    if (!core->assembly->air_leakage.given ||
        core->assembly->air_leakage.q50 <= 0.0)
        wall->air_leakage.connected_height = UNSTATED_HEIGHT;
    *out = wall;
    return BW_OK;
}

/* Of each layer whether nothing shows it. */
static const bool *unshown(bw_audit_core *core)
{
    const size_t count = core->assembly->layer_count;
    bool *list = BW_NEW(&core->arena, bool, count + 1);
    for (size_t i = 0; list != NULL && i < count; i++)
        list[i] = !bw_audit_layer_is_shown(core, i);
    return list;
}

/* What is computed, on one pool: as drawn, and of that the margin and the
 * forecast; beside it as built. */
typedef struct computing {
    bw_audit_core *core;
    const bw_audit_options *options;
    const bw_assembly *wall;
    const bool *unshown;
    bw_meter meter;
    bw_metered drawn, built, forecast;
} computing;

static bw_assessment_options tells(const computing *c, bw_metered *part)
{
    bw_assessment_options options = c->options->assessment;
    options.transient.progress = bw_meter_tell;
    options.transient.payload = part;
    return options;
}

static bw_status vary(computing *c, bw_error *err)
{
    bw_audit_core *core = c->core;
    if (c->options->no_margin)
        return BW_OK;
    /* The steady methods: a simulation of every case would take hours. */
    bw_margin_options vary = {.assessment = c->options->assessment,
                              .library = c->unshown};
    vary.assessment.no_transient = true;
    BW_TRY(bw_margin_make_on(core->pool, &core->margin, c->wall, core->climate,
                             &vary, err));
    core->audit.margin = core->margin;
    return BW_OK;
}

static bw_status after_drawn(void *payload, size_t index, bw_error *err)
{
    computing *c = payload;
    if (index == 0)
        return vary(c, err);
    const bw_assessment_options how = tells(c, &c->forecast);
    return bw_audit_forecast(c->core, &how, err);
}

static bw_status draw(computing *c, bw_error *err)
{
    bw_audit_core *core = c->core;
    bw_assessment_options how = tells(c, &c->drawn);
    how.no_transient = how.no_transient || c->options->plan;
    how.no_advice = how.no_advice || c->options->plan;
    BW_TRY(bw_assess_on(core->pool, &core->assessment, c->wall, core->climate,
                        &how, err));
    core->audit.assessment = core->assessment;
    return c->options->plan ? BW_OK
                            : bw_pool_run(core->pool, 2, after_drawn, c, err);
}

static bw_status part(void *payload, size_t index, bw_error *err)
{
    computing *c = payload;
    if (index == 0)
        return draw(c, err);
    const bw_assessment_options how = tells(c, &c->built);
    return bw_audit_as_built(c->core, c->wall, &how, err);
}

static bw_status compute(bw_audit_core *core, const bw_audit_options *options,
                         bw_error *err)
{
    const bw_transient_options *run = &options->assessment.transient;
    computing c = {.core = core, .options = options};
    BW_TRY(computed(core, &c.wall, err));
    c.unshown = unshown(core);
    BW_TRY_MEMORY(c.unshown != NULL, err);
    c.drawn = c.built = c.forecast = (bw_metered){.meter = &c.meter,
                                                  .share = 1.0};
    bw_meter_start(&c.meter, run->progress, run->payload, 3.0);
    const bw_status status = bw_pool_run(core->pool, options->plan ? 1 : 2,
                                         part, &c, err);
    bw_meter_end(&c.meter);
    BW_TRY(status);
    return options->plan ? BW_OK : bw_audit_beside(core, err);
}

static bw_status make(bw_audit_core *core, const bw_audit_options *options,
                      bw_error *err)
{
    bw_audit *audit = &core->audit;
    BW_TRY(keep_text(core, &audit->command_line, options->command_line, err));
    BW_TRY(keep_text(core, &audit->date, options->date, err));
    BW_TRY(bw_audit_check_date(audit->date, err));
    BW_TRY(bw_audit_files(core, options, err));
    BW_TRY(bw_audit_air_test(core, err));
    BW_TRY(bw_audit_readings(core, err));
    BW_TRY(bw_audit_needs(core, err));
    BW_TRY(compute(core, options, err));
    audit->profile = options->assessment.profile != NULL
                         ? options->assessment.profile
                         : bw_profile_default();
    audit->plan = options->plan;
    BW_TRY(bw_audit_unknowns(core, err));
    if (options->plan)
        return BW_OK;
    return bw_audit_hold_point(core, err);
}

bw_status bw_audit_make_on(bw_pool *pool, bw_audit **out,
                           const bw_assembly *assembly,
                           const bw_climate *climate,
                           const bw_audit_options *options, bw_error *err)
{
    bw_audit_core *core = calloc(1, sizeof *core);
    BW_TRY_MEMORY(core != NULL, err);
    core->pool = pool;
    core->assembly = assembly;
    core->climate = climate;
    bw_status status = make(core, options, err);
    if (status != BW_OK) {
        bw_audit_free(&core->audit);
        return status;
    }
    *out = &core->audit;
    return BW_OK;
}

bw_status bw_audit_make(bw_audit **out, const bw_assembly *assembly,
                        const bw_climate *climate,
                        const bw_audit_options *options, bw_error *err)
{
    const bw_audit_options defaults = {.no_margin = false};
    bw_pool pool;
    if (options == NULL)
        options = &defaults;
    bw_pool_open(&pool, options->assessment.threads);
    const bw_status status = bw_audit_make_on(&pool, out, assembly, climate,
                                              options, err);
    bw_pool_close(&pool);
    return status;
}

void bw_audit_free(bw_audit *audit)
{
    if (audit == NULL)
        return;
    bw_audit_core *core = (bw_audit_core *)audit;
    bw_margin_free(core->margin);
    bw_assessment_free(core->as_built_deciding);
    bw_assessment_free(core->as_built);
    bw_assessment_free(core->assessment);
    bw_arena_release(&core->built);
    bw_arena_release(&core->arena);
    free(core);
}
