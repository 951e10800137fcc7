/* Which one input, moved within its range, explains the difference best.
 *
 * The inputs are those of the margin (src/margin/unknowns.c, wide.c). Of a
 * switch both settings are replayed; of a range its ends, the wall as drawn
 * between them, and then, RISES times, the lowest point of the parabola through
 * the three points around the best one so far. What moves what the record
 * measured itself, or weather that it has not, is left out.
 *
 * Invariant: each input is moved alone, and the list does not depend on the
 * number of threads. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "meter.h"
#include "number.h"
#include "replaying.h"
#include "study.h"

enum { STEPS = 3, POINTS = 3 + STEPS };
static const double WIDE = 3.0;   /* by its logarithm, as the margin does */
static const double SAME = 0.005; /* of the misfit: it changes nothing */
static const double BETTER = 0.8; /* of the misfit: it explains something */

typedef struct input {
    const bw_source *source;
    bool range, geometric;
    double low, high, drawn; /* SI; drawn NAN: no one number */
    size_t count;
    double value[POINTS], misfit[POINTS]; /* by rising value */
    size_t best;
    bw_error error; /* a setting that could not be simulated */
    bw_status status;
} input;

typedef struct work {
    const bw_replay_core *core;
    input *input;
    bw_meter meter;
} work;

/* ---- which inputs -------------------------------------------------------- */

/* Measured, or not there: the room; rain, sun, wind. */
static bool is_idle(const bw_replay_core *core, const bw_change *c)
{
    switch (c->kind) {
    case BW_CHANGE_HUMIDITY:
    case BW_CHANGE_CLASS:
    case BW_CHANGE_ROOM:
    case BW_CHANGE_RAIN_LEAK:
    case BW_CHANGE_DRIVING_RAIN:
    case BW_CHANGE_WIND:
    case BW_CHANGE_SUN:
    case BW_CHANGE_REDISTRIBUTION:
        return true;
    default:
        return bw_change_facts_of(c).of_layer &&
               c->layer < core->replay.left_out;
    }
}

/* Its two ends differ in a number that may have any value between. */
static bool is_range(const bw_source *s)
{
    static const bw_change_kind kinds[] = {
        BW_CHANGE_PROPERTY, BW_CHANGE_AIR_LEAKAGE, BW_CHANGE_ABSORPTION,
        BW_CHANGE_SORPTION, BW_CHANGE_AIR_CHANGE,  BW_CHANGE_START};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (s->high.kind == kinds[i])
            return s->low.kind == s->high.kind;
    return false;
}

static input input_of(const bw_source *s)
{
    input in = {.source = s, .range = is_range(s)};
    const double per_si = bw_change_facts_of(&s->high).per_si;
    in.low = in.range ? s->low.value : 0;
    in.high = in.range ? s->high.value : 1;
    in.drawn = in.range ? s->shown.as_drawn / per_si : (double)NAN;
    if (in.drawn < in.low)
        in.low = in.drawn;
    if (in.drawn > in.high)
        in.high = in.drawn;
    in.geometric = in.range && in.low > 0 && in.high > WIDE * in.low;
    return in;
}

/* ---- one of them --------------------------------------------------------- */

static bw_change change_at(const input *in, double value)
{
    bw_change c = in->range || value > 0.5 ? in->source->high : in->source->low;
    if (in->range)
        c.value = value;
    return c;
}

static bw_status misfit_at(double *out, const work *w, const input *in,
                           double value, bw_error *err)
{
    const bw_replay *r = &w->core->replay;
    const bw_change change = change_at(in, value);
    *out = r->misfit;
    if (change.kind == BW_CHANGE_NOTHING || value == in->drawn)
        return BW_OK;
    bw_arena arena = {0};
    const bw_assembly *wall = bw_change_apply(&arena, r->assembly, &change);
    bw_followed *run = BW_NEW(&arena, bw_followed,
                              r->hour_count * r->place_count);
    bw_status status = wall == NULL || run == NULL
                           ? bw_fail_memory(err)
                           : bw_replay_run(run, w->core, wall, &arena,
                                           bw_meter_alive, (void *)&w->meter,
                                           err);
    if (status == BW_OK)
        *out = bw_replay_misfit(w->core, run);
    bw_arena_release(&arena);
    return status;
}

static bw_status add_point(input *in, const work *w, double value,
                           bw_error *err)
{
    double misfit;
    BW_TRY(misfit_at(&misfit, w, in, value, err));
    size_t i = in->count++;
    for (; i > 0 && in->value[i - 1] > value; i--) {
        in->value[i] = in->value[i - 1];
        in->misfit[i] = in->misfit[i - 1];
    }
    in->value[i] = value;
    in->misfit[i] = misfit;
    in->best = 0;
    for (size_t k = 1; k < in->count; k++)
        if (in->misfit[k] < in->misfit[in->best])
            in->best = k;
    return BW_OK;
}

/* The lowest point of the parabola of misfit^2 through three; held between the
 * outer two, and half way to the better neighbour where it is none. */
static double lowest(const double x[3], const double y[3])
{
    const double a = (y[1] - y[0]) / (x[1] - x[0]);
    const double b = (y[2] - y[1]) / (x[2] - x[1]);
    const double bend = (b - a) / (x[2] - x[0]);
    double at = 0.5 * (x[0] + x[1]) - 0.5 * a / bend;
    if (!(bend > 0) || !(at > x[0]) || !(at < x[2]))
        at = 0.5 * (x[1] + (y[0] < y[2] ? x[0] : x[2]));
    return at;
}

/* Where to look next, 0..1 of the range. */
static double next_share(const input *in)
{
    size_t middle = in->best;
    if (middle == 0)
        middle = 1;
    if (middle + 1 == in->count)
        middle = in->count - 2;
    double x[3], y[3];
    for (size_t k = 0; k < 3; k++) {
        const size_t i = middle - 1 + k;
        x[k] = bw_scale_share(in->geometric, in->low, in->high, in->value[i]);
        y[k] = in->misfit[i] * in->misfit[i];
    }
    return lowest(x, y);
}

static bool is_new(const input *in, double share)
{
    static const double NEAR = 0.01; /* of the range */
    for (size_t i = 0; i < in->count; i++)
        if (fabs(
                bw_scale_share(in->geometric, in->low, in->high, in->value[i]) -
                share) < NEAR)
            return false;
    return true;
}

static bool moves(const input *in, double drawn)
{
    for (size_t i = 0; i < in->count; i++)
        if (fabs(in->misfit[i] - drawn) > SAME * drawn)
            return true;
    return false;
}

static bw_status move(input *in, const work *w, bw_error *err)
{
    BW_TRY(add_point(in, w, in->low, err));
    BW_TRY(add_point(in, w, in->high, err));
    const double drawn = w->core->replay.misfit;
    if (!in->range || !moves(in, drawn) || !(in->high > in->low))
        return BW_OK;
    const bool inside = in->drawn > in->low && in->drawn < in->high;
    BW_TRY(add_point(
        in, w,
        inside ? in->drawn
               : bw_scale_value(in->geometric, in->low, in->high, 0.5),
        err));
    for (int i = 0; i < STEPS; i++) {
        const double share = next_share(in);
        if (!is_new(in, share))
            break;
        BW_TRY(add_point(
            in, w, bw_scale_value(in->geometric, in->low, in->high, share),
            err));
    }
    return BW_OK;
}

/* A setting that cannot be simulated explains nothing: the others go on. */
static bw_status task(void *payload, size_t index, bw_error *err)
{
    work *w = payload;
    input *in = &w->input[index];
    in->status = move(in, w, &in->error);
    if (in->status == BW_ERR_MEMORY || in->status == BW_ERR_CANCELLED) {
        if (err != NULL)
            *err = in->error;
        return in->status;
    }
    if (in->status != BW_OK)
        in->count = 0;
    if (!bw_meter_add(&w->meter, 1))
        return bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                       "the simulation was stopped");
    return BW_OK;
}

/* ---- all of them --------------------------------------------------------- */

static int by_misfit(const void *a, const void *b)
{
    const bw_replay_trial *x = a, *y = b;
    if (x->misfit != y->misfit)
        return x->misfit < y->misfit ? -1 : 1;
    return strcmp(x->name, y->name);
}

/* To three digits, to be said; what was simulated stays. */
static double rounded(double value)
{
    const char *end;
    bw_number_read(BW_NUMBER_G(value, 3), &value, &end);
    return value;
}

static bw_replay_trial trial_of(bw_replay_core *core, const input *in)
{
    const bw_source *s = in->source;
    const bw_unknown *u = &s->shown;
    const bw_change_facts facts = bw_change_facts_of(&s->high);
    bw_change best = change_at(in, in->value[in->best]);
    best.whence = NULL;
    if (in->range)
        best.value = rounded(best.value);
    const bool number = in->range && !isnan(in->drawn);
    return (bw_replay_trial){
        .name = in->range ? bw_change_subject(&core->arena,
                                              core->replay.assembly, &best)
                          : u->name,
        .words = bw_change_words(&core->arena, core->replay.assembly, &best),
        .drawn = !number ? ""
                 : strcmp(u->unit, "-") == 0
                     ? bw_arena_say(&core->arena, "%.3g", u->as_drawn)
                     : bw_arena_say(&core->arena, "%.3g %s", u->as_drawn,
                                    u->unit),
        .layer = u->layer,
        .unit = in->range ? u->unit : "",
        .value = in->range ? in->value[in->best] * facts.per_si : (double)NAN,
        .low = in->range ? in->low * facts.per_si : (double)NAN,
        .high = in->range ? in->high * facts.per_si : (double)NAN,
        .misfit = in->misfit[in->best],
        .at_end = in->range && (in->best == 0 || in->best + 1 == in->count)};
}

static void suggest(bw_replay_core *core)
{
    bw_replay *r = &core->replay;
    const bw_replay_trial *first = r->trial_count > 0 ? &r->trial[0] : NULL;
    if (r->misfit <= 1)
        r->suggestion = bw_arena_say(
            &core->arena,
            "the difference is within what such loggers tell (misfit %.2f; 1 "
            "is 0.5 K and 3 %% RH): no input need be another",
            r->misfit);
    else if (first == NULL || first->misfit > BETTER * r->misfit)
        r->suggestion = bw_arena_say(
            &core->arena,
            "no one input within its range explains the difference: the best "
            "brings the misfit from %.2f to %.2f",
            r->misfit, first != NULL ? first->misfit : r->misfit);
    else
        r->suggestion = bw_arena_say(
            &core->arena,
            "%s%s explains the difference best: it brings the misfit from "
            "%.2f to %.2f",
            first->words, first->at_end ? ", the end of its range," : "",
            r->misfit, first->misfit);
    r->suggests = r->misfit > 1 && first != NULL &&
                  first->misfit <= BETTER * r->misfit;
}

static bw_status collect(bw_replay_core *core, const input *in, size_t count,
                         bw_error *err)
{
    bw_replay *r = &core->replay;
    bw_replay_trial *trial = BW_NEW(&core->arena, bw_replay_trial, count + 1);
    BW_TRY_MEMORY(trial != NULL, err);
    size_t failed = 0;
    for (size_t i = 0; i < count; i++) {
        failed += in[i].status != BW_OK;
        if (in[i].status == BW_OK && moves(&in[i], r->misfit))
            trial[r->trial_count++] = trial_of(core, &in[i]);
        else
            r->unmoved += in[i].status == BW_OK;
    }
    qsort(trial, r->trial_count, sizeof *trial, by_misfit);
    r->trial = trial;
    r->tried = true;
    if (failed > 0)
        bw_replay_note(core,
                       bw_arena_say(&core->arena,
                                    "%zu inputs could not be simulated at an "
                                    "end of their range and are not listed",
                                    failed));
    suggest(core);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}

bw_status bw_replay_trials(bw_replay_core *core, bw_error *err)
{
    bw_study study = {
        .assembly = core->replay.assembly, .arena = &core->arena, .wide = true};
    BW_TRY(bw_unknowns_find(&study, err));
    work w = {.core = core,
              .input = BW_NEW(&core->arena, input, study.count + 1)};
    BW_TRY_MEMORY(w.input != NULL, err);
    size_t count = 0;
    for (size_t i = 0; i < study.count; i++)
        if (!is_idle(core, &study.source[i].high))
            w.input[count++] = input_of(&study.source[i]);
    bw_meter_start(&w.meter, core->options->progress, core->options->payload,
                   (double)count + 1);
    bw_status status = bw_pool_run(&core->pool, count, task, &w, err);
    bw_meter_end(&w.meter);
    return status == BW_OK ? collect(core, w.input, count, err) : status;
}
