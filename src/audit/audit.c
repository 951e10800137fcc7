#include <stdlib.h>

#include "core.h"
#include "fail.h"
#include "number.h"

/* bw_audit_make: assess, vary, fingerprint, weigh the evidence. */

bw_audit_digits bw_audit_number(double value, int digits)
{
    bw_audit_digits out;
    bw_number_g(out.text, sizeof out.text, value, digits);
    return out;
}

static bw_status keep_text(bw_audit_core *core, const char **out,
                           const char *text, bw_error *err)
{
    *out = bw_arena_copy(&core->arena, text != NULL ? text : "");
    return *out != NULL ? BW_OK : bw_fail_memory(err);
}

static bw_status compute(bw_audit_core *core, const bw_audit_options *options,
                         bw_error *err)
{
    BW_TRY(bw_assess(&core->assessment, core->assembly, core->climate,
                     &options->assessment, err));
    core->audit.assessment = core->assessment;
    if (options->no_margin)
        return BW_OK;
    /* The steady methods: a simulation of every case would take hours. */
    bw_margin_options vary = {.assessment = options->assessment,
                              .threads = options->threads};
    vary.assessment.no_transient = true;
    BW_TRY(bw_margin_make(&core->margin, core->assembly, core->climate, &vary,
                          err));
    core->audit.margin = core->margin;
    return BW_OK;
}

static bw_status make(bw_audit_core *core, const bw_audit_options *options,
                      bw_error *err)
{
    bw_audit *audit = &core->audit;
    BW_TRY(keep_text(core, &audit->command_line, options->command_line, err));
    BW_TRY(keep_text(core, &audit->date, options->date, err));
    BW_TRY(bw_audit_files(core, options, err));
    BW_TRY(bw_audit_air_test(core, err));
    BW_TRY(bw_audit_readings(core, err));
    BW_TRY(compute(core, options, err));
    audit->profile = options->assessment.profile != NULL
                         ? options->assessment.profile
                         : bw_profile_default();
    BW_TRY(bw_audit_unknowns(core, err));
    return bw_audit_hold_point(core, err);
}

bw_status bw_audit_make(bw_audit **out, const bw_assembly *assembly,
                        const bw_climate *climate,
                        const bw_audit_options *options, bw_error *err)
{
    const bw_audit_options defaults = {.no_margin = false};
    bw_audit_core *core = calloc(1, sizeof *core);
    if (core == NULL)
        return bw_fail_memory(err);
    core->assembly = assembly;
    core->climate = climate;
    bw_status status = make(core, options != NULL ? options : &defaults, err);
    if (status != BW_OK) {
        bw_audit_free(&core->audit);
        return status;
    }
    *out = &core->audit;
    return BW_OK;
}

void bw_audit_free(bw_audit *audit)
{
    if (audit == NULL)
        return;
    bw_audit_core *core = (bw_audit_core *)audit;
    bw_margin_free(core->margin);
    bw_assessment_free(core->assessment);
    bw_arena_release(&core->arena);
    free(core);
}
