/* A record against a wall: which air is whose, the places, the hours, what is
 * doubtful, the run, the figures, the trials.
 *
 * Invariant: what the record does not show is said, and is no figure. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "replaying.h"

/* ---- notes --------------------------------------------------------------- */

static void note_sides(bw_replay_core *core)
{
    const bw_replay *r = &core->replay;
    bw_arena *arena = &core->arena;
    const bw_assembly *a = r->assembly;
    if (r->cavity)
        bw_replay_note(
            core,
            bw_arena_say(arena,
                         "the air of the cavity (%s) is the outer side: it and "
                         "the layers outside it (%zu) are left out of the "
                         "simulation; the surface there has 0.13 m2.K/W",
                         a->layer[core->cavity].id, (size_t)core->cavity));
    else
        bw_replay_note(core,
                       "outdoor air is the outer side: sun, sky, wind and rain "
                       "are in no log and do not act; walls that the sun warms "
                       "or the rain wets are warmer and damper than computed");
    if (!r->cavity && r->assembly->outdoors.tilt < 90)
        bw_replay_note(core, "a face under open sky is colder at night than "
                             "computed");
    bool ice = false, water = false;
    for (size_t i = 0; i < r->log->channel_count; i++) {
        const bw_log_channel *c = &r->log->channel[i];
        ice = ice || (c->has_humidity && c->over_ice);
        water = water || (c->has_humidity && !c->over_ice);
    }
    bw_replay_note(core,
                   ice ? "relative humidity below 0 degC is taken over ice, as "
                         "the log states, and shown over liquid water"
                       : "relative humidity below 0 degC is taken over liquid "
                         "water, as most sensors give it; a log may state ice");
}

static bool starts_given(const bw_assembly *a, size_t from)
{
    for (size_t i = from; i < a->layer_count; i++)
        if (a->layer[i].has_initial_moisture)
            return true;
    return false;
}

static void note_all(bw_replay_core *core)
{
    const bw_replay *r = &core->replay;
    note_sides(core);
    bw_replay_note(core,
                   starts_given(r->assembly, r->left_out)
                       ? "layers start with the moisture the wall gives, all "
                         "others in balance with the humidity measured on both "
                         "sides and between, the mean of the first day "
                         "compared"
                       : "the wall starts in balance with the humidity "
                         "measured on both sides and between, the mean of the "
                         "first day compared");
    bw_replay_note(
        core, bw_arena_say(&core->arena,
                           "compared by full hours UTC (three or more readings "
                           "within half an hour are averaged there, else "
                           "straight between two); the first %zu hours are "
                           "left out",
                           r->run_in));
}

/* ---- the whole ----------------------------------------------------------- */

typedef struct pool {
    double sum, square, count;
} pool;

static void pour(pool *into, double value)
{
    into->sum += value;
    into->square += value * value;
    into->count++;
}

static double deviation(const pool *of)
{
    const double mean = of->sum / of->count;
    return sqrt(fmax(of->square / of->count - mean * mean, 0));
}

static double rh_at(double pressure, double theta)
{
    return pressure / bw_saturation_pressure_water(theta);
}

/* All air of both sides, at every hour, within what loggers tell of its mean:
 * then any wall agrees. Of a place without RH the temperature alone counts. */
static bool tells_nothing(const bw_replay_core *core)
{
    const bw_replay *r = &core->replay;
    pool theta = {0}, rh = {0};
    size_t rhs = 0;
    for (size_t p = 0; p < r->place_count; p++)
        rhs += r->place[p].all.rh_hours >= BW_REPLAY_DAY;
    for (size_t h = 0; h < r->hour_count; h++) {
        const bw_boundary *air = &r->boundary[h];
        if (!core->hour[0][h].compared)
            continue;
        pour(&theta, air->theta_i);
        pour(&theta, air->theta_e);
        pour(&rh, rh_at(air->p_i, air->theta_i));
        pour(&rh, rh_at(air->p_e, air->theta_e));
    }
    return deviation(&theta) < BW_REPLAY_THETA &&
           (rhs == 0 || deviation(&rh) < BW_REPLAY_RH);
}

static void judge(bw_replay_core *core)
{
    bw_replay *r = &core->replay;
    r->not_assessed = "";
    if (r->place_count == 0)
        r->not_assessed = "the log measured no place within the wall: there is "
                          "nothing to compare";
    else if (r->compared < BW_REPLAY_DAY)
        r->not_assessed = bw_arena_say(
            &core->arena,
            "too short: behind the run-in of %zu hours and outside gaps %zu "
            "hours are left, fewer than 24",
            r->run_in, r->compared);
    else if (!r->assessed)
        r->not_assessed = core->copies > 0
                              ? "every place with 24 hours of readings reads "
                                "the air of a side: any wall would agree"
                              : "at no place are there 24 hours with a reading";
    else if (tells_nothing(core)) {
        r->not_assessed = "the air on both sides is hardly other than its mean "
                          "(0.5 K, 3 % RH): any wall would agree";
        r->assessed = false;
        r->misfit = (double)NAN;
    }
}

static bw_status simulate(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    bw_followed *run = BW_NEW(&core->arena, bw_followed,
                              r->hour_count * r->place_count + 1);
    BW_TRY_MEMORY(run != NULL, err);
    BW_TRY(
        bw_replay_run(run, core, r->assembly, &core->arena, NULL, NULL, err));
    BW_TRY(bw_replay_figure(core, run, err));
    judge(core);
    if (r->assessed && !core->options->no_trials)
        BW_TRY(bw_replay_trials(core, err));
    return BW_OK;
}

static bw_status make(bw_replay_core *core, bw_error *err)
{
    BW_TRY(bw_replay_sides(core, err));
    BW_TRY(bw_replay_places(core, err));
    BW_TRY(bw_replay_hours(core, err));
    note_all(core);
    BW_TRY(bw_replay_doubts(core, err));
    BW_TRY(simulate(core, err));
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}

bw_status bw_replay_make(bw_replay **out, const bw_assembly *assembly,
                         const bw_log *log, const bw_climate *climate,
                         const bw_replay_options *options, bw_error *err)
{
    static const bw_replay_options defaults = {.run_in = -1};
    bw_replay_core *core = calloc(1, sizeof *core);
    BW_TRY_MEMORY(core != NULL, err);
    core->options = options != NULL ? options : &defaults;
    core->climate = climate;
    core->replay = (bw_replay){.assembly = assembly,
                               .log = log,
                               .run_in = core->options->run_in < 0
                                             ? BW_REPLAY_RUN_IN
                                             : (size_t)core->options->run_in,
                               .gap_limit = BW_REPLAY_BRIDGED,
                               .misfit = (double)NAN,
                               .not_assessed = "",
                               .suggestion = ""};
    bw_pool_open(&core->pool, core->options->threads);
    const bw_status status = make(core, err);
    bw_pool_close(&core->pool);
    if (status != BW_OK) {
        bw_replay_free(&core->replay);
        return status;
    }
    *out = &core->replay;
    return BW_OK;
}

void bw_replay_free(bw_replay *replay)
{
    if (replay == NULL)
        return;
    bw_replay_core *core = (bw_replay_core *)replay;
    bw_arena_release(&core->arena);
    free(core);
}
