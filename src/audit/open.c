#include "auditing.h"

/* Open items: a reason only joins the list, and none takes another away. */

const char *bw_open_id_text(bw_open_id id)
{
    static const char *const text[BW_OPEN_COUNT] = {
        [BW_OPEN_VERDICT] = "verdict",
        [BW_OPEN_NOT_SIMULATED] = "not-simulated",
        [BW_OPEN_AS_BUILT] = "as-built",
        [BW_OPEN_CHANGED] = "changed",
        [BW_OPEN_NO_DATE] = "no-date",
        [BW_OPEN_AIR_TEST] = "air-test",
        [BW_OPEN_AIR_IMPOSSIBLE] = "air-test-impossible",
        [BW_OPEN_AIR_UNATTRIBUTED] = "air-test-unattributed",
        [BW_OPEN_AIR_WORSE] = "air-test-worse",
        [BW_OPEN_CONTRADICTION] = "contradiction",
        [BW_OPEN_AHEAD] = "dated-ahead",
        [BW_OPEN_STALE] = "stale",
        [BW_OPEN_BEFORE_WETTING] = "before-wetting",
        [BW_OPEN_NO_MEMBER] = "no-member",
        [BW_OPEN_MEMBER] = "member-of-nothing",
        [BW_OPEN_NOT_EVIDENCED] = "not-evidenced",
        [BW_OPEN_WET] = "wet",
        [BW_OPEN_INSPECT] = "inspect",
        [BW_OPEN_RULE_SET] = "rule-set",
        [BW_OPEN_LIMIT_LOOSER] = "limit-looser",
        [BW_OPEN_READING_IMPOSSIBLE] = "reading-impossible",
        [BW_OPEN_DEPTH] = "depth-impossible",
        [BW_OPEN_UNATTRIBUTED] = "reading-unattributed",
        [BW_OPEN_RAW] = "reading-uncorrected",
        [BW_OPEN_JUMP] = "jump",
        [BW_OPEN_REFERENCE] = "reference",
        [BW_OPEN_NEED_LIMIT] = "needs-limit",
        [BW_OPEN_NEED_READINGS] = "needs-readings",
        [BW_OPEN_NEED_PHOTOGRAPH] = "needs-photograph",
        [BW_OPEN_NEED_INSPECTION] = "needs-inspection",
        [BW_OPEN_NEED_BARRIER] = "needs-air-barrier",
        [BW_OPEN_NEED_CAVITY] = "needs-cavity",
        [BW_OPEN_MEASURED] = "measured-without-source",
        [BW_OPEN_ASSUMED] = "assumed",
        [BW_OPEN_UNKNOWN] = "layer-unknown",
    };
    return (size_t)id < BW_OPEN_COUNT ? text[id] : "";
}

void bw_keep_closed(bw_audit_core *core, bw_open_id id, const char *text)
{
    bw_open_item *list = bw_arena_more(&core->arena, core->open,
                                       core->audit.open_count, &core->open_room,
                                       sizeof *list);
    if (list == NULL || text == NULL)
        return; /* the arena remembers */
    core->open = list;
    list[core->audit.open_count++] = (bw_open_item){id, text};
}
