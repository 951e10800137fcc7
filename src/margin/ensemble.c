#include <math.h>

#include "fail.h"
#include "halton.h"
#include "steps.h"

/* Every unknown at once, quasi-randomly: ranges evenly over their scale, a
 * switch in one of its settings or as drawn, all equally often. The error
 * stated is that of as many independent cases, sqrt(p (1 - p) / n) with p
 * = (k + 1)/(n + 2) (Laplace), so that it is never zero: evenly spread cases
 * do better. */

double bw_share_error(size_t holds, size_t count)
{
    if (count == 0)
        return 0.0;
    double p = ((double)holds + 1.0) / ((double)count + 2.0);
    return sqrt(p * (1.0 - p) / (double)count);
}

bw_setting bw_setting_draw(const bw_source *s, double u)
{
    const bw_unknown *shown = &s->shown;
    if (!shown->seen)
        return (bw_setting){false, 0.0};
    if (shown->continuous)
        return (bw_setting){
            true, bw_scale_value(shown->geometric, shown->low, shown->high, u)};
    /* as drawn, the first setting, the second ...: alternatives of one layer
     * share one coordinate */
    const bool alternative = s->high.kind == BW_CHANGE_MATERIAL;
    size_t settings = alternative ? s->groups + 1 : shown->two_ended ? 3 : 2;
    size_t which = (size_t)(u * (double)settings);
    if (alternative)
        return (bw_setting){which == s->group + 1, 1.0};
    return (bw_setting){which > 0, which == 2 ? shown->low : shown->high};
}

typedef struct ensemble {
    const bw_study *study;
    bool *holds;
} ensemble;

static bw_status run_one(void *payload, size_t index, bw_error *err)
{
    ensemble *e = payload;
    bw_arena scratch = {0};
    bw_setting *setting = BW_NEW(&scratch, bw_setting, e->study->count + 1);
    BW_TRY_MEMORY(setting != NULL, err);
    for (size_t i = 0; i < e->study->count; i++) {
        const bw_source *s = &e->study->source[i];
        size_t dimension = i - s->group;
        setting[i] = bw_setting_draw(
            s, bw_halton(index, dimension % BW_HALTON_DIMENSIONS));
    }
    bw_case result;
    bw_status status = bw_case_run(&result, e->study, setting, err);
    if (status == BW_OK)
        e->holds[index] = result.fails == 0;
    bw_arena_release(&scratch);
    return status;
}

bw_status bw_ensemble_run(bw_margin *out, const bw_study *study, size_t count,
                          bw_error *err)
{
    if (count == 0)
        return BW_OK;
    bw_arena scratch = {0};
    ensemble e = {study, BW_NEW(&scratch, bool, count)};
    BW_TRY_MEMORY(e.holds != NULL, err);
    bw_status status = bw_pool_run(study->pool, count, run_one, &e, err);
    for (size_t i = 0; status == BW_OK && i < count; i++)
        out->ensemble_holds += e.holds[i];
    bw_arena_release(&scratch);
    BW_TRY(status);
    out->ensemble_count = count;
    out->ensemble_share = (double)out->ensemble_holds / (double)count;
    out->ensemble_error = bw_share_error(out->ensemble_holds, count);
    return BW_OK;
}
