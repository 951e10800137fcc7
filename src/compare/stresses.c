/* Every wall under the same stresses, one at a time: the standard unknowns of a
 * margin that tell how robust a wall is, at their worse end. Where the walls'
 * own worse ends differ (a leak is three times what a file gives) all have the
 * worst of them.
 *
 * Invariant: what was not computed is not assessed, and never counts as held:
 * nor does a wall whose junctions, which no stress changes, are judged as
 * drawn. */

#include <math.h>

#include "case.h"
#include "comparing.h"
#include "fail.h"
#include "verdict.h"

static const struct stress {
    bw_change_kind kind;
    const char *name, *title;
    const char *without; /* why it is none to a wall */
} stresses[] = {
    {BW_CHANGE_AIR_LEAKAGE, "air-leak", "Leak in the air barrier",
     "no air barrier"},
    {BW_CHANGE_RAIN_LEAK, "rain-leak", "Rain leaks in", "no driving rain"},
    {BW_CHANGE_HUMIDITY, "damp-room", "Damper room", "no damper room"},
    {BW_CHANGE_BLOCKED, "blocked-cavity", "Blocked cavity",
     "no ventilated cavity"},
};

enum { KINDS = sizeof stresses / sizeof *stresses };

/* One wall, its unknowns, and what each stress changes of it. */
typedef struct patient {
    bw_study study;
    bw_change *change[KINDS];
    size_t changes[KINDS];
    bw_case result[KINDS];
} patient;

typedef struct ward {
    bw_compare_core *core;
    patient *wall;
    bw_stressed *shown[KINDS];
} ward;

/* ---- what is changed ----------------------------------------------------- */

bw_study bw_compare_study(bw_compare_core *core, size_t wall)
{
    bw_study study = {.assembly = core->assembly[wall],
                      .climate = core->climate[wall],
                      .options = core->options.assessment,
                      .arena = &core->arena,
                      .pool = &core->pool,
                      .tally = &core->tally,
                      .wide = true};
    study.options.no_advice = study.options.no_one_way =
        study.options.no_frost = true;
    study.options.transient.keep_hours = false;
    study.options.transient.progress = bw_meter_alive;
    study.options.transient.payload = &core->tally.meter;
    return study;
}

static bw_status admit(ward *w, size_t i, bw_error *err)
{
    bw_compare_core *core = w->core;
    patient *p = &w->wall[i];
    p->study = bw_compare_study(core, i);
    BW_TRY(bw_unknowns_find(&p->study, err));
    for (size_t k = 0; k < KINDS; k++) {
        p->change[k] = BW_NEW(&core->arena, bw_change, p->study.count + 1);
        BW_TRY_MEMORY(p->change[k] != NULL, err);
        for (size_t s = 0; s < p->study.count; s++)
            if (p->study.source[s].high.kind == stresses[k].kind)
                p->change[k][p->changes[k]++] = p->study.source[s].high;
    }
    return BW_OK;
}

/* A wall that leaks as much already has no such unknown. */
static void leak_all(ward *w, size_t k)
{
    bool any = false;
    for (size_t i = 0; i < w->core->count; i++)
        any = any || w->wall[i].changes[k] > 0;
    for (size_t i = 0; any && i < w->core->count; i++) {
        const bw_assembly *a = w->wall[i].study.assembly;
        if (w->wall[i].changes[k] == 0 &&
            a->outdoors.driving_rain != BW_RAIN_NONE)
            w->wall[i].change[k][w->wall[i].changes[k]++] = bw_change_to(
                BW_CHANGE_RAIN_LEAK, 0, a->rain_leak.fraction);
    }
}

/* The worst of them for all. */
static void make_equal(ward *w, size_t k)
{
    double most = -(double)INFINITY;
    for (size_t i = 0; i < w->core->count; i++)
        if (w->wall[i].changes[k] > 0)
            most = fmax(most, w->wall[i].change[k][0].value);
    for (size_t i = 0; i < w->core->count; i++)
        for (size_t n = 0; n < w->wall[i].changes[k]; n++)
            w->wall[i].change[k][n].value = most;
}

/* ---- what is left -------------------------------------------------------- */

/* To the nearest of the limits that fail a wall; beyond the others it is to be
 * looked at. */
static double least_margin(const bw_case *c)
{
    double least = (double)NAN;
    for (size_t key = 0; key < BW_CASE_KEYS; key++)
        if (bw_criterion_facts_of((bw_criterion_id)(key % BW_C_COUNT))
                ->marginal != BW_MARGINAL_BEYOND)
            least = fmin(least, bw_margin_held(c->margin[key]));
    return least;
}

/* ---- what it does -------------------------------------------------------- */

static const char *words(ward *w, const patient *p, size_t k)
{
    const char *text = "";
    for (size_t n = 0; n < p->changes[k]; n++)
        text = bw_compare_say(w->core, "%s%s%s", text, n > 0 ? "; " : "",
                              bw_change_words(&w->core->arena,
                                              p->study.assembly,
                                              &p->change[k][n]));
    return text;
}

/* "" or why the methods that are run know nothing of it. */
static const char *unseen(const patient *p, size_t k)
{
    for (size_t s = 0; s < p->study.count; s++) {
        const bw_source *source = &p->study.source[s];
        if (source->high.kind == stresses[k].kind && !source->shown.seen)
            return source->shown.note;
    }
    return "";
}

static bw_status run_one(void *payload, size_t index, bw_error *err)
{
    ward *w = payload;
    patient *p = &w->wall[index / KINDS];
    const size_t k = index % KINDS;
    const bw_stressed *shown = &w->shown[k][index / KINDS];
    bw_arena arena = {0};
    if (!shown->applies || shown->reason[0] != '\0')
        return BW_OK;
    const bw_assembly *changed = bw_changes_apply(&arena, p->study.assembly,
                                                  p->change[k], p->changes[k]);
    const bw_status status = changed == NULL
                                 ? bw_fail_memory(err)
                                 : bw_case_assess(&p->result[k], &p->study,
                                                  changed, err);
    bw_arena_release(&arena);
    return status;
}

static void prepare(ward *w, size_t k)
{
    for (size_t i = 0; i < w->core->count; i++) {
        const patient *p = &w->wall[i];
        const bool applies = p->changes[k] > 0;
        w->shown[k][i] = (bw_stressed){.applies = applies,
                                       .setting = words(w, p, k),
                                       .reason = applies ? unseen(p, k)
                                                         : stresses[k].without,
                                       .verdict = BW_NOT_ASSESSED,
                                       .outcome = BW_NOT_ASSESSED,
                                       .figure = {.criterion = "", .unit = ""},
                                       .worst_margin = (double)NAN};
    }
}

static void discharge(ward *w, size_t i, size_t k)
{
    bw_compare_core *core = w->core;
    bw_compared *wall = &core->wall[i];
    bw_stressed *shown = &w->shown[k][i];
    const bw_case *c = &w->wall[i].result[k];
    wall->stresses += shown->applies;
    if (shown->applies && shown->reason[0] == '\0') {
        const bool lost = core->comparison.simulated && !c->simulated;
        const bool months = core->comparison.by_months_reason != NULL;
        shown->outcome = lost ? BW_NOT_ASSESSED : c->verdict;
        shown->verdict = lost || (months && c->said != BW_FAILS)
                             ? BW_NOT_ASSESSED
                             : c->said;
        shown->reason = lost ? "the simulation gave no result" : "";
        if (c->junctions_unseen && !lost)
            shown->reason = "the wall alone holds, its junctions are judged "
                            "as drawn alone";
        shown->worst_margin = lost ? (double)NAN : least_margin(c);
        if (!lost)
            shown->figure = bw_case_figure(&core->arena, c);
        wall->worst_margin = fmin(wall->worst_margin, shown->worst_margin);
    }
    wall->not_held += shown->applies && !bw_verdict_good(shown->verdict);
}

/* Those that are one to some wall. */
static bw_status show(ward *w, bw_error *err)
{
    bw_compare_core *core = w->core;
    bw_stress *list = BW_NEW(&core->arena, bw_stress, KINDS);
    BW_TRY_MEMORY(list != NULL, err);
    for (size_t k = 0; k < KINDS; k++) {
        bool any = false;
        for (size_t i = 0; i < core->count; i++) {
            discharge(w, i, k);
            any = any || w->shown[k][i].applies;
        }
        if (any)
            list[core->comparison.stress_count++] = (bw_stress){
                stresses[k].name, stresses[k].title, w->shown[k]};
    }
    core->comparison.stress = list;
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}

bw_status bw_compare_stresses(bw_compare_core *core, bw_error *err)
{
    bw_case drawn;
    ward w = {.core = core, .wall = BW_NEW(&core->arena, patient, core->count)};
    BW_TRY_MEMORY(w.wall != NULL, err);
    for (size_t i = 0; i < core->count; i++) {
        BW_TRY(admit(&w, i, err));
        bw_case_of(&drawn, core->assessment[i]);
        core->wall[i].worst_margin = least_margin(&drawn);
    }
    for (size_t k = 0; k < KINDS; k++) {
        w.shown[k] = BW_NEW(&core->arena, bw_stressed, core->count);
        BW_TRY_MEMORY(w.shown[k] != NULL, err);
        if (stresses[k].kind == BW_CHANGE_RAIN_LEAK)
            leak_all(&w, k);
        make_equal(&w, k);
        prepare(&w, k);
    }
    BW_TRY(bw_pool_run(&core->pool, core->count * KINDS, run_one, &w, err));
    return show(&w, err);
}
