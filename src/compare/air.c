/* Like with like in the air: a wall whose file counts no leaking air may stand
 * before one that counts its own for that alone. Where it does, the other is
 * assessed once more without.
 *
 * Invariant: a wall that counts none wins over one that does only where that
 * one fails without, too. */

#include "case.h"
#include "comparing.h"
#include "fail.h"

static bool leaks(const bw_compare_core *core, size_t wall)
{
    return core->assembly[wall]->air_leakage.given;
}

/* The first of the best that counts no leaking air; count if all do. */
static size_t first_airless(const bw_compare_core *core)
{
    const bw_comparison *c = &core->comparison;
    for (size_t k = 0; k < c->best_count; k++)
        if (!leaks(core, c->order[k]))
            return c->order[k];
    return core->count;
}

/* Those behind it that count theirs and fail: they may fail for that. */
typedef struct aired {
    bw_compare_core *core;
    size_t count;
    size_t wall[BW_COMPARE_MOST];
    bw_case without[BW_COMPARE_MOST];
} aired;

static bw_status run_one(void *payload, size_t index, bw_error *err)
{
    aired *a = payload;
    const size_t wall = a->wall[index];
    const bw_study study = bw_compare_study(a->core, wall);
    bw_assembly still = *a->core->assembly[wall];
    still.air_leakage = (bw_air_leakage){.given = false};
    return bw_case_assess(&a->without[index], &study, &still, err);
}

static void conclude(bw_compare_core *core, size_t airless)
{
    bw_comparison *c = &core->comparison;
    for (size_t k = c->best_count; k < core->count && !c->unlike_air; k++) {
        const size_t wall = c->order[k];
        c->unlike_air = leaks(core, wall) && !core->wall[wall].fails_airless;
        c->airless = airless;
        c->aired = wall;
    }
}

bw_status bw_compare_air(bw_compare_core *core, bw_error *err)
{
    const bw_comparison *c = &core->comparison;
    const size_t airless = first_airless(core);
    if (airless == core->count)
        return BW_OK;
    aired *a = BW_NEW(&core->arena, aired, 1);
    BW_TRY_MEMORY(a != NULL, err);
    a->core = core;
    for (size_t k = c->best_count; k < core->count; k++)
        if (leaks(core, c->order[k]) &&
            core->wall[c->order[k]].verdict == BW_FAILS)
            a->wall[a->count++] = c->order[k];
    BW_TRY(bw_pool_run(&core->pool, a->count, run_one, a, err));
    for (size_t i = 0; i < a->count; i++)
        core->wall[a->wall[i]].fails_airless = a->without[i].said == BW_FAILS;
    conclude(core, airless);
    return BW_OK;
}
