/* A wall under the record: each part that was measured once.
 *
 * It starts from the moisture that the wall gives, and else in balance with the
 * RH measured on both sides and at the places between, the means of the first
 * day behind the run-in: a day that the logger spent on a desk says nothing. */

#include <math.h>

#include "fail.h"
#include "replaying.h"

static const double MOST = 0.99; /* RH to start from, below saturation */

/* Mean RH against what the simulation has it against (ice below 0 degC); NAN:
 * none. */
static double mean_rh(const bw_replay_core *core, const bw_log_channel *c)
{
    const bw_replay *r = &core->replay;
    const bw_hours *of = core->hours[c - r->log->channel];
    double sum = 0;
    size_t count = 0;
    const size_t n = r->hour_count;
    const size_t from = r->run_in + BW_REPLAY_DAY <= n ? r->run_in : 0;
    for (size_t h = from; c->has_humidity && h < n; h++) {
        if (h >= from + BW_REPLAY_DAY && count > 0)
            break;
        const double theta = c->has_temperature ? of[0].value[h] : (double)NAN;
        const double rh = of[1].value[h];
        if (isnan(rh) || isnan(theta))
            continue;
        sum += bw_replay_pressure(c, theta, rh) / bw_saturation_pressure(theta);
        count++;
    }
    return count > 0 ? fmin(sum / (double)count, MOST) : (double)NAN;
}

typedef struct profile {
    double depth[BW_LOG_CHANNELS + 2], phi[BW_LOG_CHANNELS + 2];
    size_t count;
} profile;

static void add(profile *of, double depth, double phi)
{
    if (isnan(phi))
        return;
    size_t i = of->count++;
    for (; i > 0 && of->depth[i - 1] > depth; i--) {
        of->depth[i] = of->depth[i - 1];
        of->phi[i] = of->phi[i - 1];
    }
    of->depth[i] = depth;
    of->phi[i] = phi;
}

static profile start_of(const bw_replay_core *core, const bw_replay_part *part)
{
    const bw_replay *r = &core->replay;
    profile of = {.count = 0};
    add(&of, 0, mean_rh(core, r->outer));
    for (size_t i = 0; i < part->count; i++)
        add(&of, part->depth[i],
            mean_rh(core, core->place[part->which[i]].channel));
    add(&of, part->thickness, mean_rh(core, r->room));
    return of;
}

static bw_status run_part(bw_followed *out, const bw_replay_core *core,
                          const bw_assembly *assembly, bw_arena *arena,
                          bool stud, bw_transient_options *options,
                          bw_error *err)
{
    const bw_replay *r = &core->replay;
    bw_replay_part part;
    bw_followed *own = NULL;
    bw_status status = bw_replay_part_open(&part, core, arena, assembly, stud,
                                           err);
    if (status == BW_OK) {
        own = BW_NEW(arena, bw_followed, r->hour_count * part.count + 1);
        status = own == NULL ? bw_fail_memory(err) : BW_OK;
    }
    if (status == BW_OK) {
        const profile start = start_of(core, &part);
        bw_follow follow = {.hour = r->boundary,
                            .hours = r->hour_count,
                            .starts = start.count,
                            .start_depth = start.depth,
                            .start_phi = start.phi,
                            .places = part.count,
                            .place = part.place,
                            .options = options};
        if (r->cavity)
            bw_follow_cavity(&follow);
        else
            bw_follow_outdoors(&follow, &assembly->outdoors);
        bw_follow_room(&follow, &assembly->indoors);
        status = bw_follow_run(own, assembly, &part.section, &follow, err);
    }
    for (size_t h = 0; status == BW_OK && h < r->hour_count; h++)
        for (size_t i = 0; i < part.count; i++)
            out[h * r->place_count + part.which[i]] = own[h * part.count + i];
    bw_replay_part_close(&part);
    return status;
}

bw_status bw_replay_run(bw_followed *out, const bw_replay_core *core,
                        const bw_assembly *assembly, bw_arena *arena,
                        bw_progress *progress, void *payload, bw_error *err)
{
    const bw_transient_options *asked = &core->options->transient;
    bw_transient_options options = {
        .temperature_tolerance = asked->temperature_tolerance,
        .humidity_tolerance = asked->humidity_tolerance,
        .grid_refinement = asked->grid_refinement,
        .allow_missing = true,
        .progress = progress,
        .payload = payload,
    };
    bool any[2] = {false, false};
    for (size_t p = 0; p < core->replay.place_count; p++)
        any[core->place[p].channel->kind == BW_LOG_STUD] = true;
    for (int stud = 0; stud < 2; stud++)
        if (any[stud])
            BW_TRY(
                run_part(out, core, assembly, arena, stud == 1, &options, err));
    return BW_OK;
}
