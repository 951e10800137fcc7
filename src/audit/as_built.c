#include <math.h>
#include <string.h>

#include "assessing.h"
#include "auditing.h"
#include "change.h"
#include "fail.h"
#include "properties.h"

/* The wall as built, in service, beside the wall as drawn: BS 5250:2021 asks
 * to look at junctions and at conditions in service (by public summaries; its
 * text was not seen). One run with all changes together is shown. What of them
 * decides at the hold point is what the site can still answer: a cavity that
 * nothing shows clear, a wet start, a leak. A damper room nobody can rule out
 * before closing up, and a cavity shown clear is not blocked: where the wall
 * fails with these, it is assessed again without them, and that run decides. */

/* Moisture of softwood at the 80 % RH at which a simulation starts: a wet start
 * is no drier. */
static const double USUAL_START = 0.164; /* kg/kg, FPL Wood Handbook, 10 degC */
static const double BUILT_IN = 0.20;     /* kg/kg, nothing read; as in margin */
static const double SAME = 1e-9;         /* relative, q50 */

typedef struct service {
    bw_audit_core *core;
    const bw_assembly *wall;
    bw_change *change;
    bw_as_built_change *said;
    size_t count;
} service;

#define SAY(s, ...) bw_arena_say(&(s)->core->built, __VA_ARGS__)

static void add(service *s, bw_change change, bool decides, const char *why)
{
    const char *words = bw_change_words(&s->core->built, s->wall, &change);
    s->said[s->count] = (bw_as_built_change){words, why, decides};
    s->change[s->count++] = change;
}

/* ---- the changes --------------------------------------------------------- */

static void add_cavity(service *s, size_t i)
{
    const bw_layer *layer = &s->wall->layer[i];
    if (layer->kind != BW_LAYER_CAVITY || layer->ventilation == BW_VENT_NONE)
        return;
    const bool clear = bw_audit_is_shown(
        s->core, (bw_wall_part){"", (long)i, false}, true, NULL);
    add(s, bw_change_to(BW_CHANGE_BLOCKED, i, 0.0), !clear,
        clear ? "dirt or insulation may close it in service, though it was "
                "photographed clear"
              : "mortar, insulation or dirt may close it, and no photograph "
                "shows it clear");
}

/* Of the part of the wall it is in. */
static double stated_start(const bw_layer *layer)
{
    double most = 0.0;
    if (layer->has_initial_moisture && !layer->initial_is_rh &&
        bw_is_timber(layer->material))
        most = layer->initial_moisture;
    if (layer->framing.has_initial_moisture && !layer->framing.initial_is_rh)
        most = fmax(most, layer->framing.initial_moisture);
    return most;
}

static void add_wet_start(service *s)
{
    const bw_audit *audit = &s->core->audit;
    const char *why = "nothing was read and no limit set: as wet as solid wood "
                      "may become";
    double moisture = audit->member_count > 0 ? USUAL_START : BUILT_IN;
    bool timber = false;
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        const double most = fmax(d->highest, d->allowed);
        if (most <= moisture)
            continue;
        moisture = most;
        why = SAY(s, "%s of %s",
                  d->highest > d->allowed ? "the highest reading that counts"
                                          : "the allowed moisture",
                  d->member);
    }
    for (size_t i = 0; i < s->wall->layer_count; i++) {
        const bw_layer *layer = &s->wall->layer[i];
        timber = timber || bw_is_timber(layer->material) ||
                 (layer->framing.present &&
                  bw_is_timber(layer->framing.material));
        if (stated_start(layer) > moisture) {
            moisture = stated_start(layer);
            why = "the start that the file states";
        }
    }
    if (timber)
        add(s, bw_change_to(BW_CHANGE_BUILT_IN, 0, moisture), true, why);
}

/* The worst test of the last day of tests, at whatever stage. */
static const bw_air_test *last_test(const bw_closing_up *up)
{
    const bw_air_test *last = NULL;
    for (size_t i = 0; i < up->air_test_count; i++) {
        const bw_air_test *test = &up->air_test[i];
        const int later = last != NULL ? strcmp(test->date, last->date) : 1;
        if (later > 0 || (later == 0 && test->q50 > last->q50))
            last = test;
    }
    return last;
}

static void add_leak(service *s)
{
    const bw_air_leakage *assumed = &s->wall->air_leakage;
    const bw_air_test *test = last_test(&s->wall->closing_up);
    if (test == NULL)
        return;
    const double q50 = bw_audit_at_most(test);
    if (!assumed->given || q50 > assumed->q50 * (1.0 + SAME))
        add(s, bw_change_to(BW_CHANGE_AIR_LEAKAGE, 0, q50), true,
            SAY(s, "the worst test of %s, with its uncertainty", test->date));
}

static void add_room(service *s)
{
    bw_indoors room = s->wall->indoors;
    if (bw_indoors_step(&room, true))
        add(s, bw_change_to(BW_CHANGE_HUMIDITY, 0, 1.0), false,
            "rooms in use are damper than in a design; before closing up "
            "nobody can show how damp");
}

/* ---- the runs ------------------------------------------------------------ */

static bool is_bad(const bw_assessment *a)
{
    return a->verdict == BW_FAILS || a->verdict == BW_NOT_ASSESSED;
}

/* With all changes, or with those alone that decide. */
static bw_status run(bw_assessment **out, service *s, bool all,
                     const bw_assessment_options *asked, bw_error *err)
{
    bw_arena *arena = &s->core->built;
    bw_assessment_options options = *asked;
    bw_change *change = BW_NEW(arena, bw_change, s->count + 1);
    size_t count = 0;
    options.no_advice = options.no_one_way = options.no_frost = true;
    options.converge = options.transient.keep_hours = false;
    for (size_t i = 0; change != NULL && i < s->count; i++)
        if (all || s->said[i].decides)
            change[count++] = s->change[i];
    const bw_assembly *built = bw_changes_apply(arena, s->wall, change, count);
    BW_TRY_MEMORY(built != NULL && change != NULL, err);
    return bw_assess_on(s->core->pool, out, built, s->core->climate, &options,
                        err);
}

/* Why it keeps the hold point closed, or what it fails by that does not. */
static void conclude(service *s, bw_as_built *built)
{
    const bw_assessment *last = built->deciding != NULL ? built->deciding
                                                        : built->assessment;
    const char *verdict = bw_verdict_text(last->verdict);
    const char *made = "";
    for (size_t i = 0; i < s->count; i++)
        if (s->said[i].decides)
            made = SAY(s, "%s%s%s", made, made[0] != '\0' ? "; " : "",
                       s->said[i].change);
    if (is_bad(last))
        built->closes = SAY(s,
                            "as built, in service (%s), the verdict is \"%s\": "
                            "%s",
                            made, verdict, last->verdict_reason);
    else if (is_bad(built->assessment))
        built->spares = SAY(s,
                            "Without the changes that do not decide the "
                            "verdict is \"%s\", and this run keeps nothing "
                            "closed.",
                            verdict);
}

/* ---- side by side -------------------------------------------------------- */

static const bw_criterion *same(const bw_assessment *a, const bw_criterion *row)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].section, row->section) == 0 &&
            strcmp(a->criterion[i].criterion, row->criterion) == 0)
            return &a->criterion[i];
    return NULL;
}

static bool decides(const bw_criterion *row)
{
    return row != NULL && row->decides;
}

bw_status bw_audit_beside(bw_audit_core *core, bw_error *err)
{
    bw_as_built *out = &core->audit.as_built;
    const bw_assessment *drawn = core->assessment, *built = out->assessment;
    bw_as_built_row *row = BW_NEW(&core->built, bw_as_built_row,
                                  drawn->criterion_count +
                                      built->criterion_count + 1);
    out->row = row;
    for (size_t i = 0; row != NULL && i < drawn->criterion_count; i++) {
        const bw_criterion *a = &drawn->criterion[i], *b = same(built, a);
        if (decides(a) || decides(b))
            row[out->row_count++] = (bw_as_built_row){a, b};
    }
    for (size_t i = 0; row != NULL && i < built->criterion_count; i++)
        if (decides(&built->criterion[i]) &&
            same(drawn, &built->criterion[i]) == NULL)
            row[out->row_count++] = (bw_as_built_row){NULL,
                                                      &built->criterion[i]};
    return row != NULL ? BW_OK : bw_fail_memory(err);
}

bw_status bw_audit_as_built(bw_audit_core *core, const bw_assembly *wall,
                            const bw_assessment_options *options, bw_error *err)
{
    bw_as_built *out = &core->audit.as_built;
    service s = {
        .core = core,
        .wall = wall,
        .change = BW_NEW(&core->built, bw_change, wall->layer_count + 3),
        .said = BW_NEW(&core->built, bw_as_built_change,
                       wall->layer_count + 3)};
    bool some_spared = false;
    BW_TRY_MEMORY(s.change != NULL && s.said != NULL, err);
    add_wet_start(&s); /* while it can be told what is cladding */
    for (size_t i = 0; i < wall->layer_count; i++)
        add_cavity(&s, i);
    add_leak(&s);
    add_room(&s);
    out->change = s.said;
    out->change_count = s.count;
    for (size_t i = 0; i < s.count; i++)
        some_spared = some_spared || !s.said[i].decides;
    BW_TRY(run(&core->as_built, &s, true, options, err));
    out->assessment = core->as_built;
    if (is_bad(core->as_built) && some_spared)
        BW_TRY(run(&core->as_built_deciding, &s, false, options, err));
    out->deciding = core->as_built_deciding;
    conclude(&s, out);
    return !core->built.failed ? BW_OK : bw_fail_memory(err);
}
