#include <string.h>

#include "auditing.h"
#include "fail.h"

/* The hold point before closing up: every reason it stays closed. Released is
 * what has no reason left; nothing else releases it. Whatever is taken out of
 * the file can only add a reason. */

static bool is_simulated(const bw_assessment *a)
{
    for (size_t i = 0; i < a->section_count; i++)
        if (!a->section[i].has_transient)
            return false;
    return true;
}

static void look_at_verdict(bw_audit_core *core)
{
    const bw_assessment *a = core->audit.assessment;
    if (a->verdict == BW_FAILS || a->verdict == BW_NOT_ASSESSED)
        bw_keep_closed(core, BW_OPEN_VERDICT,
                       BW_AUDIT_SAY(core, "the verdict is \"%s\": %s",
                                    bw_verdict_text(a->verdict),
                                    a->verdict_reason));
    if (!is_simulated(a))
        bw_keep_closed(core, BW_OPEN_NOT_SIMULATED,
                       "no simulation was run, which alone sees what leaking "
                       "air brings and what rain wets");
}

/* A wall that fails as drawn has said so already. */
static void look_at_as_built(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    const bw_verdict drawn = audit->assessment->verdict;
    if (audit->as_built.closes != NULL && drawn != BW_FAILS &&
        drawn != BW_NOT_ASSESSED)
        bw_keep_closed(core, BW_OPEN_AS_BUILT, audit->as_built.closes);
}

/* The words of the file are the shipped ones, what they mean is not. */
static void look_at_material(bw_audit_core *core, const bw_layer *layer,
                             const bw_material *material)
{
    if (material != NULL && material->replaces)
        bw_keep_closed(core, BW_OPEN_CHANGED,
                       BW_AUDIT_SAY(core,
                                    "layer %s: material \"%s\" of %s took the "
                                    "place of the shipped one; give it an id "
                                    "of its own",
                                    layer->id, material->id, material->file));
}

/* What is signed is the file, on a day. */
static void look_at_identity(bw_audit_core *core)
{
    const bw_assembly *wall = core->audit.assessment->assembly;
    if (wall->edit_count > 0)
        bw_keep_closed(core, BW_OPEN_CHANGED,
                       "the wall was changed from outside the file while it "
                       "was read: what is on file is not what was judged");
    for (size_t i = 0; i < wall->layer_count; i++) {
        const bw_layer *layer = &wall->layer[i];
        look_at_material(core, layer, layer->material);
        look_at_material(core, layer, layer->framing.material);
        look_at_material(core, layer, layer->blocked_with);
    }
    if (core->climate != NULL && wall->outdoors.climate_path != NULL &&
        core->climate->file != NULL &&
        strcmp(core->climate->file, wall->outdoors.climate_path) != 0)
        bw_keep_closed(
            core, BW_OPEN_CHANGED,
            BW_AUDIT_SAY(core, "the climate is %s, and the file names %s",
                         core->climate->file, wall->outdoors.climate_path));
    if (core->audit.date[0] == '\0')
        bw_keep_closed(core, BW_OPEN_NO_DATE,
                       "this sheet has no date, so that nothing tells how old "
                       "its evidence is");
}

/* Of the list that is printed before work starts: what is required and not
 * there. The air test has reasons of its own. */
static void look_at_needs(bw_audit_core *core)
{
    static const bw_open_id ids[] = {
        [BW_NEED_LIMIT] = BW_OPEN_NEED_LIMIT,
        [BW_NEED_READINGS] = BW_OPEN_NEED_READINGS,
        [BW_NEED_PHOTOGRAPH] = BW_OPEN_NEED_PHOTOGRAPH,
        [BW_NEED_INSPECTION] = BW_OPEN_NEED_INSPECTION,
        [BW_NEED_BARRIER] = BW_OPEN_NEED_BARRIER,
        [BW_NEED_CAVITY] = BW_OPEN_NEED_CAVITY};
    for (size_t i = 0; i < core->audit.need_count; i++) {
        const bw_need *need = &core->audit.need[i];
        if (need->required && !need->present && need->kind != BW_NEED_AIR_TEST)
            bw_keep_closed(core, ids[need->kind],
                           BW_AUDIT_SAY(core, "part %s, %s: %s",
                                        need->part.text, need->of,
                                        need->lacks));
    }
}

bw_status bw_audit_hold_point(bw_audit_core *core, bw_error *err)
{
    bw_audit *audit = &core->audit;
    audit->open_count = core->open_room = 0;
    core->open = NULL;
    look_at_verdict(core);
    look_at_as_built(core);
    look_at_identity(core);
    bw_hold_air(core);
    bw_hold_readings(core);
    look_at_needs(core);
    bw_hold_references(core);
    bw_hold_layers(core);
    BW_TRY_MEMORY(!core->arena.failed, err);
    audit->open = core->open;
    audit->released = audit->open_count == 0;
    return BW_OK;
}
