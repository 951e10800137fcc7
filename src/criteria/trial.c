#include "trial.h"

#include <math.h>

#include "fail.h"

/* The simulation of a change: four times the error of time of a step, three
 * years at most, the worst section first and no further where that gains
 * nothing, the wetting test only for what is worth saying without it (unless
 * it is the wetting test that is bad). Every one of these is decided by the
 * wall as it is alone, so that no figure depends on the order of threads. */

static const double TOLERANCE_SHARE = 4.0;
enum { MOST_YEARS = 3, HOURS_AS_ONE = 3 };

/* ---- what is told of a changed wall ------------------------------------- */

static double months(const bw_monthly_result *run)
{
    return run->dried ? run->months_to_dry : -1.0;
}

/* The slower of two; negative is never. */
static double slower(double a, double b)
{
    return a < 0.0 || b < 0.0 ? -1.0 : fmax(a, b);
}

static void look(bw_tried *out, const bw_core *core)
{
    out->has_reserve = out->has_dry = true;
    out->reserve = HUGE_VAL;
    out->dry_both = out->dry_inwards = 0.0;
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        const bw_section_assessment *part = &core->part[i];
        out->has_reserve = out->has_reserve && part->run[BW_RUN_DESIGN].ran &&
                           part->run[BW_RUN_DESIGN].result.has_reserve;
        out->has_dry = out->has_dry && part->run[BW_RUN_WETTED_BOTH].ran;
        if (out->has_reserve)
            out->reserve = fmin(out->reserve,
                                part->run[BW_RUN_DESIGN].result.reserve);
        if (out->has_dry) {
            out->dry_both = slower(
                out->dry_both, months(&part->run[BW_RUN_WETTED_BOTH].result));
            out->dry_inwards = slower(
                out->dry_inwards,
                months(&part->run[BW_RUN_WETTED_INWARDS].result));
        }
    }
    if (!out->has_reserve)
        out->reserve = 0.0;
    if (!out->has_dry)
        out->dry_both = out->dry_inwards = -1.0;
}

/* Judges what was run so far. */
static bw_status judge(bw_core *core, bool simulate, bw_error *err)
{
    core->rows.count = 0;
    return bw_core_judge(core, simulate, err);
}

/* A wall that cannot be assessed is no advice; the machine failing is. */
static bw_status pass(bw_status status, const bw_error *fault, bw_error *err)
{
    if (status != BW_ERR_MEMORY && status != BW_ERR_CANCELLED)
        return BW_OK;
    if (err != NULL)
        *err = *fault;
    return status;
}

bw_status bw_try_steady(bw_tried *out, const bw_rows *before,
                        const bw_assembly *changed, const bw_climate *climate,
                        const bw_run_effort *effort, bw_error *err)
{
    bw_core core = {0};
    bw_error fault = {0};
    bw_status status = bw_core_steady(&core, changed, climate, before->profile,
                                      effort, &fault);
    if (status == BW_OK)
        status = judge(&core, false, &fault);
    out->used = status == BW_OK;
    if (out->used) {
        out->score = bw_score_of(before, &core.rows, (bw_score_scope){0});
        look(out, &core);
    }
    bw_core_release(&core);
    return pass(status, &fault, err);
}

/* ---- the simulation ------------------------------------------------------ */

static double coarser(double tolerance, double usual)
{
    return TOLERANCE_SHARE * (tolerance > 0.0 ? tolerance : usual);
}

/* The same path through the wall as it is, or NULL. */
static const bw_section_assessment *base_part(const bw_simulated_trial *t,
                                              const bw_section *section)
{
    const bw_core *base = t->base;
    for (size_t i = 0; i < base->assessment.section_count; i++)
        if (base->part[i].section->through_stud == section->through_stud &&
            base->part[i].section->cavity_blocked == section->cavity_blocked)
            return &base->part[i];
    return NULL;
}

/* A wall that has grown wetter over the years is mended from where it is by
 * now: starting drier would promise too much. */
static bool grew_wetter(const bw_transient_result *r)
{
    return r->year_end_water[r->years - 1] >= r->initial_water;
}

/* Whether wood was built in above its limit: then the first year counts. */
static bool built_in_wet(const bw_transient_result *r)
{
    bool wet = false;
    for (size_t k = 0; k < r->slab_count; k++)
        wet = wet ||
              (r->slab[k].is_wood &&
               r->slab[k].first_highest_wood_moisture > r->slab[k].limit);
    return wet;
}

/* Whether it does not hold in some section. */
static bool is_bad(const bw_rows *rows, bw_criterion_id id)
{
    for (size_t i = 0; i < rows->count; i++)
        if (rows->row[i].id == id && rows->row[i].row.decides &&
            rows->row[i].row.verdict != BW_HOLDS)
            return true;
    return false;
}

/* From where the wall as it is ended; or, where that had not settled or the
 * first year counts, from where it began. */
static bool goes_on(const bw_simulated_trial *t, const bw_transient_result *r)
{
    if (!t->same_cells || is_bad(&t->base->rows, BW_C_FIRST_YEAR))
        return false;
    return grew_wetter(r) || (r->periodic && !built_in_wet(r));
}

static bw_status run_one(bw_simulated_trial *t, bw_core *core, size_t index,
                         bool wetting, bw_error *err)
{
    bw_section_assessment *part = &core->part[index];
    const bw_section_assessment *base = base_part(t, part->section);
    const bw_section *section = part->transient_section;
    bw_run_how how = {.options = t->options, .no_wetting = !wetting};
    bw_transient_options *o = &how.options;
    o->max_years = o->max_years > 0 && o->max_years < MOST_YEARS ? o->max_years
                                                                 : MOST_YEARS;
    o->temperature_tolerance = coarser(o->temperature_tolerance, 0.01);
    o->humidity_tolerance = coarser(o->humidity_tolerance, 0.0005);
    o->hours_as_one = HOURS_AS_ONE;
    const bw_transient_result *r = base != NULL ? &base->transient : NULL;
    if (r != NULL && goes_on(t, r)) {
        o->state = r->state + 2 * r->cells * (size_t)r->first_month;
        o->state_cells = r->cells;
    }
    BW_TRY(bw_run_section(t->base->pool, part, &core->rows,
                          core->assessment.assembly, t->hours, &how, err));
    bool went_on = o->state != NULL;
    if (!part->has_transient) { /* as the wall itself was */
        went_on = false;
        const int years = o->max_years;
        *o = t->options;
        o->max_years = years;
        part->transient_section = section;
        BW_TRY(bw_run_section(t->base->pool, part, &core->rows,
                              core->assessment.assembly, t->hours, &how, err));
    }
    /* still growing wetter, and not from a state that was wetter: its end is
     * not known */
    const bool from_wetter = r != NULL && went_on && grew_wetter(r);
    if (part->has_transient && part->transient.rising && !from_wetter)
        bw_run_free_transient(part);
    return BW_OK;
}

/* The section that is worst as it is; 0 where the sections are other ones. */
static size_t worst_section(const bw_simulated_trial *t, const bw_core *core)
{
    size_t worst = 0;
    bw_score most = {0};
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        const bw_score_scope scope = {core->part[i].section->name, false};
        const bw_score s = bw_score_of(&t->base->rows, &t->base->rows, scope);
        if (i == 0 || bw_score_better(&most, &s)) {
            worst = i;
            most = s;
        }
    }
    return worst;
}

static bool worth(const bw_simulated_trial *t, const bw_core *core,
                  bw_score_scope scope)
{
    const bw_rows *rows = &t->base->rows;
    const bw_score before = bw_score_of(rows, rows, scope);
    const bw_score after = bw_score_of(rows, &core->rows, scope);
    return bw_score_worth(&before, &after);
}

/* Every section, the worst first; *done false where that one gains nothing or
 * one gave no result. */
static bw_status run_all(bw_simulated_trial *t, bw_core *core, bool wetting,
                         bool *done, bw_error *err)
{
    const size_t count = core->assessment.section_count;
    const size_t worst = worst_section(t, core);
    const bool same = count == t->base->assessment.section_count;
    *done = false;
    for (size_t n = 0; n < count; n++) {
        const size_t i = n == 0 ? worst : n - (n <= worst);
        t->metered.from = (double)n / (double)count;
        t->metered.share = 1.0 / (double)count;
        BW_TRY(run_one(t, core, i, wetting, err));
        if (!core->part[i].has_transient)
            return BW_OK;
        if (n > 0 || count == 1 || !same)
            continue;
        BW_TRY(judge(core, true, err));
        if (!worth(t, core,
                   (bw_score_scope){core->part[i].section->name, !wetting}))
            return BW_OK;
    }
    BW_TRY(judge(core, true, err));
    *done = worth(t, core, (bw_score_scope){NULL, !wetting});
    return BW_OK;
}

/* What is said must hold with the wetting test, too. */
static bw_status wet_all(bw_simulated_trial *t, bw_core *core, bw_error *err)
{
    for (size_t i = 0; i < core->assessment.section_count; i++) {
        bw_section_assessment *part = &core->part[i];
        bw_error fault = {0};
        const bw_status status = bw_run_wetting(
            t->base->pool, part, core->assessment.assembly, t->hours,
            &t->options, false, &fault);
        if (status != BW_OK)
            part->wetting_test.reason = bw_say(&core->rows, "%s",
                                               fault.message);
        BW_TRY(pass(status, &fault, err));
    }
    return judge(core, true, err);
}

static bw_status simulate(bw_simulated_trial *t, bw_core *core, bw_error *err)
{
    const bw_rows *rows = &t->base->rows;
    const bw_run_effort all = {.no_bound = false, .sun = &t->base->sun};
    const bool wetting = is_bad(rows, BW_C_WETTING);
    bool done = false;
    BW_TRY(bw_core_steady(core, t->changed, t->base->assessment.climate,
                          rows->profile, &all, err));
    if (core->assessment.room_reason != NULL)
        return BW_OK;
    BW_TRY(bw_run_transient_sections(&core->assessment, core->part, err));
    BW_TRY(run_all(t, core, wetting, &done, err));
    if (!done)
        return BW_OK;
    if (!wetting)
        BW_TRY(wet_all(t, core, err));
    t->out->used = true;
    t->out->score = bw_score_of(rows, &core->rows, (bw_score_scope){0});
    look(t->out, core);
    return BW_OK;
}

bw_status bw_try_simulated(bw_simulated_trial *t, bw_error *err)
{
    bw_core core = {0};
    bw_error fault = {0};
    t->out->used = false;
    t->options.progress = bw_meter_tell;
    t->options.payload = &t->metered;
    const bw_status status = simulate(t, &core, &fault);
    bw_core_release(&core);
    return pass(status, &fault, err);
}
