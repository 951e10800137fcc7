/* The junctions that a wall names: each is assessed by itself, in the wall's
 * climate and under its rule set, and is a row of the wall.
 *
 * Invariant: the row's verdict is the junction's, so that the wall's is no
 * better than the worst of them. */

#include <string.h>

#include "assessing.h"
#include "fail.h"

typedef struct all_junctions {
    const bw_assembly *wall;
    const bw_climate *climate;
    const bw_profile *profile;
    bw_junction_assessment **out;
} all_junctions;

static bw_status assess_one(void *payload, size_t i, bw_error *err)
{
    const all_junctions *all = payload;
    return bw_junction_assess(&all->out[i], all->wall->junction[i].junction,
                              all->climate, all->profile, err);
}

/* Without its last full stop: rows add their own. */
static const char *reason_of(bw_rows *rows, const bw_junction_assessment *a)
{
    const size_t length = strlen(a->verdict_reason);
    const bool stop = length > 0 && a->verdict_reason[length - 1] == '.';
    return bw_say(rows, "%s: %.*s", a->junction->title,
                  (int)(stop ? length - 1 : length), a->verdict_reason);
}

bw_status bw_core_junctions(bw_core *core, const bw_profile *profile,
                            bw_error *err)
{
    bw_assessment *a = &core->assessment;
    const size_t count = a->assembly->junction_count;
    if (count == 0 || a->room_reason != NULL)
        return BW_OK;
    bw_junction_assessment **out = BW_NEW(&core->arena,
                                          bw_junction_assessment *, count);
    BW_TRY_MEMORY(out != NULL, err);
    all_junctions all = {a->assembly, a->climate, profile, out};
    a->junction = (const bw_junction_assessment *const *)out;
    a->junction_count = count;
    BW_TRY(bw_pool_run(core->pool, count, assess_one, &all, err));
    for (size_t i = 0; i < count; i++) {
        core->rows.section = out[i]->junction->id;
        bw_row *row = bw_rows_none(&core->rows, BW_C_JUNCTION,
                                   reason_of(&core->rows, out[i]));
        row->row.outcome = row->row.verdict = out[i]->verdict;
    }
    return BW_OK;
}
